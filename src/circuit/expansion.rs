//! Expansion device: mass flow through it.

use super::fluid::{Fluid, SaturatedPair};
use super::softplus::{soft_clamp, softplus};
use crate::air::formulas::FREEZING_K;
use crate::{Source, Trust};

/// Expansion device and its dimensions.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Expansion {
    /// Thermostatic or electronic valve that opens with the superheat it senses.
    ///
    /// ṁ = o K √(2 ρ Δp), Δp limited by the choking of the flashing liquid ([`CHOKED`]); the opening o rises from 0.02
    /// at the static superheat to one over the gradient. An electronic valve is the same with a narrow gradient: its
    /// motor holds the superheat.
    Valve {
        /// Flow area times flow coefficient at full opening, K, m².
        area_m2: f64,
        /// Static superheat at which the valve begins to open, K.
        static_superheat_k: f64,
        /// Further superheat from the static superheat to full opening, K.
        gradient_k: f64,
    },
    /// Orifice tube: a short tube of fixed bore; see [`SHORT_TUBE`].
    Orifice {
        /// Bore of the tube, m.
        bore_m: f64,
        /// Length of the tube, m.
        length_m: f64,
    },
    /// High-pressure valve for R-744, which holds the high side at a multiple of the optimum pressure while the evaporator is fed.
    ///
    /// Short of refrigerant it opens for the evaporator's sake, as a valve that senses superheat does of itself and one with a
    /// motor is told to: the excess over condensing falls as exp(−superheat/`yields_k`). Our choice of form; a large `yields_k`
    /// is a valve that holds the pressure whatever comes.
    HighSide {
        /// Ratio of the pressure held to the optimum pressure.
        factor: f64,
        /// Superheat of the evaporator at which the valve has given up all but 1/e of what it holds above condensing, K.
        yields_k: f64,
    },
}

impl Expansion {
    /// Opening of a closed valve, as a fraction: seats leak, and some are notched; common practice, no source.
    pub(super) const SHUT: f64 = 0.02;
}

/// Source of the choked flow of a liquid that flashes in the valve, Δp ≤ F_L² (p − F_F p_sat), F_F = 0.96 − 0.28
/// √(p_sat/p_c).
///
/// F_L, the pressure recovery, is 0.9, that of a globe valve. With vapour at the inlet p_sat is p, and ρ that of the mixture;
/// that continuation is our choice. It falls with the vapour as the homogeneous non-equilibrium method for throttling devices does
/// (Diener & Schmidt, Process Safety Progress 24 (2005) 29; from memory), within 10 % up to a quality of a half.
pub const CHOKED: Source = Source {
    work: "IEC 60534-2-1, Flow capacity: sizing equations for fluid flow under installed conditions",
    locator: "choked flow of incompressible fluids",
    doi: None,
    trust: Trust::FromMemory,
};

/// F_L² of [`CHOKED`], from memory.
const RECOVERY: f64 = 0.9 * 0.9;
/// Coefficients of F_F in [`CHOKED`], from memory.
const CRITICAL_RATIO: (f64, f64) = (0.96, 0.28);
/// Bend between choked flow and flow that the pressure downstream decides, as a fraction of the inlet pressure; our choice.
const CHOKING_BEND: f64 = 0.02;
/// Bend of the drop where it vanishes, as a fraction of the inlet pressure; our choice.
const NO_DROP_BEND: f64 = 1e-3;

/// Source of the flow through a short tube, ṁ = (π D²/4) √(ρ_f p_c) Y C.
///
/// Y = (a₁ + a₂ A + a₃ B + a₄ C + a₅ ln(L/D))/(1 + a₆ A + a₇ B²), A = (p − p_sat(T))/p_c, B = subcooling/T_c, C = ρ_g/ρ_f.
/// Fitted to lengths of 9.5 to 25.4 mm and bores of 1.09 to 1.94 mm; the tubes of car circuits are longer. The denominator has a
/// zero beyond 30 K of subcooling; above 15 K the flow continues as √(p − p_sat), our choice.
pub const SHORT_TUBE: Source = Source {
    work: "Payne & O'Neal 2004, HVAC&R Research 10(1) 73-87",
    locator: "as typed in the heat-pump simulation module of Oklahoma State University (I. Iu)",
    doi: None,
    trust: Trust::Weak,
};

/// Subcooling up to which [`SHORT_TUBE`] is used as published, K; our choice.
pub(super) const MOST_SUBCOOLING: f64 = 15.0;

/// a₁ to a₇ of [`SHORT_TUBE`] (Payne & O'Neal 2004, `tables/system/components.csv`).
const A: [f64; 7] = [0.38811, 11.427, -14.194, 1.0703, -0.091928, 21.425, -581.95];

/// State of the refrigerant upstream of the device.
#[derive(Debug, Clone, Copy)]
pub(super) struct Upstream {
    /// Pressure, Pa.
    pub(super) p: f64,
    /// Saturation pressure of the liquid, Pa; the pressure itself with vapour present.
    pub(super) saturated_p: f64,
    /// Saturation pressure of liquid subcooled by [`MOST_SUBCOOLING`], Pa.
    pub(super) limit_p: f64,
    /// Subcooling, K; zero with vapour present.
    pub(super) subcooling: f64,
    /// Quality, zero without vapour.
    pub(super) quality: f64,
    /// Densities of liquid and vapour, kg/m³.
    pub(super) rho_l: f64,
    pub(super) rho_v: f64,
    /// Critical point of the refrigerant.
    pub(super) critical_pa: f64,
    pub(super) critical_k: f64,
}

impl Upstream {
    /// Refrigerant of enthalpy `h` at pressure `p`, non-condensables included, where it was saturated as `pair`.
    pub(super) fn new(fluid: &Fluid, pair: &SaturatedPair, h: f64, p: f64) -> Option<Self> {
        let over = h - pair.h_l;
        let subcooling = (-over / pair.cp_l).max(0.0);
        Some(Self {
            p,
            saturated_p: if over < 0.0 { fluid.saturation_pressure(pair.t - subcooling)? } else { pair.p },
            limit_p: fluid.saturation_pressure(pair.t - MOST_SUBCOOLING)?,
            subcooling,
            quality: (over / pair.latent()).max(0.0),
            rho_l: pair.rho_l,
            rho_v: pair.rho_v,
            critical_pa: fluid.critical_pa,
            critical_k: fluid.critical_k,
        })
    }

    /// Density of both together, 1/ρ = (1 − x)/ρ′ + x/ρ″.
    fn density(&self) -> f64 {
        1.0 / ((1.0 - self.quality) / self.rho_l + self.quality / self.rho_v)
    }
}

/// How far below the critical temperature the saturation pressure begins to be continued by its slope, K; our choice.
const EDGE_K: f64 = 0.2;
/// Least pressure held over the saturation pressure of what leaves the gas cooler: 3 % above it; our choice.
const LEAST_OVER_SATURATION: f64 = 1.03;
/// Most pressure held over the discharge pressure limit, so as to stay clear of the switch; our choice.
const MOST_OF_LIMIT: f64 = 0.93;
/// Bend of both, Pa; our choice.
const HELD_BEND_PA: f64 = 1e5;
/// Range of superheat over `yields_k` within which the pressure follows it – with liquid behind the evaporator up to a fifth more is
/// held – and the bend of its ends; our choice.
const YIELDING: (f64, f64, f64) = (-0.2, 4.0, 0.02);
/// Bend of the ends of a valve's travel, as a fraction of it; our choice.
const TRAVEL_BEND: f64 = 0.01;

/// Coefficients of [`best_high_side_bar`] (Liao, Zhao & Jakobsen 2000, `tables/system/r744-high-side.csv`).
const OPTIMUM: (f64, f64, f64, f64) = (2.778, 0.0157, 0.381, 9.34);

/// Best high-side pressure of R-744, bar, evaporating at `t0` and leaving the gas cooler at `t` °C.
///
/// - **Equation** p = (2.778 − 0.0157 t₀) t + 0.381 t₀ − 9.34.
/// - **Source** Liao, Zhao & Jakobsen, Appl. Therm. Eng. 20 (2000) 831; coefficients from public code and from memory.
pub(crate) fn best_high_side_bar(t0: f64, t: f64) -> f64 {
    let (a, b, c, d) = OPTIMUM;
    (a - b * t0) * t + c * t0 - d
}

/// High-pressure valve for R-744.
#[derive(Debug, Clone, Copy)]
pub(super) struct HighSideValve {
    /// Ratio of the pressure held to the optimum pressure.
    pub(super) factor: f64,
    /// Discharge pressure limit, Pa.
    pub(super) limit_pa: f64,
}

impl HighSideValve {
    /// Pressure held, Pa, evaporating at `evaporating` K and leaving the gas cooler at `outlet` K, with `air_pa` of
    /// non-condensables, `kept` of the excess over condensing.
    ///
    /// The factor times the optimum pressure ([`best_high_side_bar`]), kept above condensing and below the limit.
    pub(super) fn held_pressure(
        &self,
        fluid: &Fluid,
        evaporating: f64,
        outlet: f64,
        air_pa: f64,
        kept: f64,
    ) -> Option<f64> {
        let (t0, t) = (evaporating - FREEZING_K, outlet - FREEZING_K);
        let best = self.factor * 1e5 * best_high_side_bar(t0, t);
        // above the saturation pressure of what leaves; past the critical point at half its last slope, so as not to bind
        let edge = fluid.critical_k - EDGE_K;
        let saturated = if outlet < edge {
            fluid.saturation_pressure(outlet)?
        } else {
            let (at, before) = (fluid.saturation_pressure(edge)?, fluid.saturation_pressure(edge - 1.0)?);
            at + 0.5 * (at - before) * (outlet - edge)
        };
        let floor = LEAST_OVER_SATURATION * saturated;
        let wanted = floor + kept * softplus(best - floor, HELD_BEND_PA);
        // and clear of the limit, non-condensables included
        let most = MOST_OF_LIMIT * self.limit_pa - air_pa;
        Some(most - softplus(most - wanted, HELD_BEND_PA))
    }
}

/// Share of its excess over condensing that a valve holds at `superheat`.
pub(super) fn share_kept(superheat: f64, yields: f64) -> f64 {
    let (low, high, bend) = YIELDING;
    (-soft_clamp(superheat / yields, low, high, bend)).exp()
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
    let opening = soft_clamp((superheat - static_superheat) / gradient, Expansion::SHUT, 1.0, TRAVEL_BEND);
    opening * area * through_opening(upstream, p_down)
}

/// Flow through an opening, kg/(s m²).
pub(super) fn through_opening(upstream: &Upstream, p_down: f64) -> f64 {
    let Upstream { p, saturated_p, critical_pa, .. } = *upstream;
    // Δp ≤ F_L² (p − F_F p_sat)
    let (at_zero, slope) = CRITICAL_RATIO;
    let choked = RECOVERY * (p - (at_zero - slope * (saturated_p / critical_pa).sqrt()) * saturated_p);
    let drop = choked - softplus(choked - (p - p_down), CHOKING_BEND * p);
    // G = √(2 ρ Δp)
    (2.0 * upstream.density() * softplus(drop, NO_DROP_BEND * p)).sqrt()
}

/// Flow through a short tube, kg/s.
///
/// With vapour at the inlet the flow of the flashing liquid is reduced by √(ρ/ρ_f) of the mixture: homogeneous flow.
/// The published factor for that case has a maximum within the range that a starving circuit passes through, so it is
/// not used.
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

#[cfg(test)]
mod tests;
