//! The expansion device: how much it lets through.

use super::smooth::{between, positive};
use crate::{Source, Trust};

/// An expansion device.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Expansion {
    /// A valve that opens with the superheat it feels.
    ///
    /// ṁ = o K √(2 ρ Δp), Δp no more than where the liquid chokes on its own vapour ([`CHOKED`]); the opening o rises from [`Expansion::SHUT`] at the static superheat to one over the gradient. An
    /// electronic valve is the same with a narrow gradient: its motor holds the superheat.
    Valve {
        /// K, flow area times flow coefficient at full opening, m².
        area_m2: f64,
        /// Superheat at which it begins to open, K.
        static_superheat_k: f64,
        /// Further superheat to full opening, K.
        gradient_k: f64,
    },
    /// A short tube of fixed bore; see [`SHORT_TUBE`].
    Orifice {
        /// Bore, m.
        bore_m: f64,
        /// Length, m.
        length_m: f64,
    },
    /// A valve that holds the high side of R-744 near its best pressure, times this factor.
    HighSide {
        /// Pressure held over the best pressure.
        factor: f64,
    },
}

impl Expansion {
    /// Opening of a shut valve, as a share: seats leak, and some are notched; common practice, no source.
    pub const SHUT: f64 = 0.02;
}

/// Choked flow of a liquid that boils in the valve: Δp ≤ F_L² (p − F_F p_sat), F_F = 0.96 − 0.28 √(p_sat/p_c).
///
/// F_L, the pressure recovery, is 0.9, that of a globe valve. With vapour at the inlet p_sat is p, and ρ that of the mixture;
/// that continuation is ours.
pub const CHOKED: Source = Source {
    work: "IEC 60534-2-1, Flow capacity: sizing equations for fluid flow under installed conditions",
    locator: "choked flow of incompressible fluids",
    doi: None,
    trust: Trust::FromMemory,
};

/// F_L² of [`CHOKED`].
const RECOVERY: f64 = 0.9 * 0.9;

/// Flow through a short tube: ṁ = (π D²/4) √(ρ_f p_c) Y C.
///
/// Y = (a₁ + a₂ A + a₃ B + a₄ C + a₅ ln(L/D))/(1 + a₆ A + a₇ B²), A = (p − p_sat(T))/p_c, B = subcooling/T_c, C = ρ_g/ρ_f.
/// Fitted to lengths of 9.5 to 25.4 mm and bores of 1.09 to 1.94 mm; the tubes of cars are longer. The denominator has a
/// zero beyond 30 K of subcooling; above [`MOST_SUBCOOLING`] the flow goes on as √(p − p_sat), which is ours.
pub const SHORT_TUBE: Source = Source {
    work: "Payne & O'Neal 2004, HVAC&R Research 10(1) 73-87",
    locator: "as typed in a public heat-pump simulation module",
    doi: None,
    trust: Trust::Weak,
};

/// Subcooling up to which [`SHORT_TUBE`] is used as published, K.
pub const MOST_SUBCOOLING: f64 = 15.0;

const A: [f64; 7] = [0.38811, 11.427, -14.194, 1.0703, -0.091928, 21.425, -581.95];

/// What comes to the device.
#[derive(Debug, Clone, Copy)]
pub(super) struct Upstream {
    /// Pressure, Pa.
    pub(super) p: f64,
    /// Pressure at which the liquid would boil, Pa; the pressure itself with vapour present.
    pub(super) saturated_p: f64,
    /// Pressure at which liquid of [`MOST_SUBCOOLING`] would boil, Pa.
    pub(super) limit_p: f64,
    /// Subcooling, K; zero with vapour present.
    pub(super) subcooling: f64,
    /// Quality, zero without vapour.
    pub(super) quality: f64,
    /// Liquid and vapour, kg/m³.
    pub(super) rho_l: f64,
    pub(super) rho_v: f64,
    /// Critical point of the refrigerant.
    pub(super) critical_pa: f64,
    pub(super) critical_k: f64,
}

impl Upstream {
    /// Density of both together, 1/ρ = (1 − x)/ρ′ + x/ρ″.
    fn density(&self) -> f64 {
        1.0 / ((1.0 - self.quality) / self.rho_l + self.quality / self.rho_v)
    }
}

/// Flow through a valve, kg/s.
pub(super) fn through_valve(
    area: f64,
    static_superheat: f64,
    gradient: f64,
    superheat: f64,
    upstream: &Upstream,
    p_down: f64,
) -> f64 {
    let opening = between((superheat - static_superheat) / gradient, Expansion::SHUT, 1.0, 0.01);
    opening * area * through_opening(upstream, p_down)
}

/// Flow through an opening, kg/(s m²).
pub(super) fn through_opening(upstream: &Upstream, p_down: f64) -> f64 {
    let Upstream { p, saturated_p, critical_pa, .. } = *upstream;
    // Δp ≤ F_L² (p − F_F p_sat)
    let choked = RECOVERY * (p - (0.96 - 0.28 * (saturated_p / critical_pa).sqrt()) * saturated_p);
    let drop = choked - positive(choked - (p - p_down), 0.02 * p);
    // G = √(2 ρ Δp)
    (2.0 * upstream.density() * positive(drop, 1e-3 * p)).sqrt()
}

/// Flow through a short tube, kg/s.
///
/// With vapour at the inlet the flow of the boiling liquid is lessened by √(ρ/ρ_f) of the mixture: homogeneous flow. The
/// published factor for that case turns over within the range a starving circuit passes through, so it is not used.
pub(super) fn through_tube(bore: f64, length: f64, upstream: &Upstream) -> f64 {
    let (a, b, beyond) = if upstream.subcooling <= MOST_SUBCOOLING {
        let a = (upstream.p - upstream.saturated_p) / upstream.critical_pa;
        (a, upstream.subcooling / upstream.critical_k, 1.0)
    } else {
        let over = upstream.p - upstream.limit_p;
        let beyond = ((upstream.p - upstream.saturated_p) / over).sqrt();
        (over / upstream.critical_pa, MOST_SUBCOOLING / upstream.critical_k, beyond)
    };
    let c = upstream.rho_v / upstream.rho_l;
    let y = (A[0] + A[1] * a + A[2] * b + A[3] * c + A[4] * (length / bore).ln()) / (1.0 + A[5] * a + A[6] * b * b);
    let area = std::f64::consts::FRAC_PI_4 * bore * bore;
    area * (upstream.rho_l * upstream.critical_pa).sqrt() * y * beyond * (upstream.density() / upstream.rho_l).sqrt()
}
