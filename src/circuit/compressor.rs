//! Compressor: mass flow, work and outlet state.

use super::fluid::{Fluid, Point};
use super::softplus::softplus;
use super::state_cache::{CachedState, Evaluation};
use crate::{Source, Trust};

/// Compressor, described by its displacement, its two efficiencies and the heat loss of its shell.
///
/// - **Flow** ṁ = s V n η_v ρ₁, with re-expansion of the clearance volume: η_v = (a − b n)(1 − ε (ρ₂ₛ/ρ₁ − 1)).
/// - **Work** h₂ₛ − h₁ over η_s, η_s = c − d n − e/ρ₁; the fraction φ of the shaft power is lost through the shell: h₂
///   = h₁ + (1 − φ)(h₂ₛ − h₁)/η_s.
/// - **Units** V in m³ per revolution, n in rpm, ρ in kg/m³; s, the capacity fraction, is the fraction of full
///   displacement or, with a clutch, of time that is pumped.
/// - **Range** the form is published for 2400 to 4500 rpm and pressure ratios of 3 to 10; beyond 4500 rpm the fall with
///   speed is continued at a third of its slope, and η_s is limited to 0.3 from below in vacuum; both are our choice.
/// - **Source** [`EFFICIENCY`].
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Compressor {
    /// Swept volume per revolution at full displacement, m³.
    pub displacement_m3: f64,
    /// Coefficient a of the volumetric efficiency η_v.
    pub volumetric_efficiency: f64,
    /// Coefficient b of the volumetric efficiency, its loss with speed, min.
    pub volumetric_efficiency_loss_min: f64,
    /// Clearance ratio ε, clearance volume over swept volume.
    pub clearance: f64,
    /// Coefficient c of the isentropic efficiency η_s.
    pub efficiency: f64,
    /// Coefficient d of the isentropic efficiency, its loss with speed, min.
    pub efficiency_loss_min: f64,
    /// Coefficient e of the isentropic efficiency, its loss at low suction density, kg/m³.
    pub efficiency_loss_kg_per_m3: f64,
    /// Fraction φ of the shaft power that is lost as heat through the shell.
    pub shell_loss: f64,
}

/// Source of the form of both efficiencies and of their values for one reciprocating compressor of 169 cm³ with R-134a.
pub const EFFICIENCY: Source = Source {
    work: "Darr & Crawford 1992, ACRC TR-14, University of Illinois",
    locator: "as typed in the open model library AixLib; factored form ours",
    doi: None,
    trust: Trust::Weak,
};

/// Speed up to which the published form holds, rpm ([`EFFICIENCY`], Darr & Crawford 1992).
const FASTEST: f64 = 4500.0;
/// Fraction of the slope that is kept above that speed; our choice, no source.
const BEYOND: f64 = 1.0 / 3.0;

/// Lower limit of the isentropic efficiency; our choice, no source.
const LEAST_EFFICIENCY: f64 = 0.3;
/// Bend of that limit; our choice.
const LEAST_EFFICIENCY_BEND: f64 = 0.003;

/// Flow, work and outlet state of a compressor at given pressures and suction state.
#[derive(Debug, Clone, Copy)]
pub(super) struct Compression {
    /// Mass flow at full capacity, kg/s.
    pub(super) flow: f64,
    /// Specific shaft work, J/kg.
    pub(super) work: f64,
    /// Enthalpy at the outlet, J/kg.
    pub(super) h_out: f64,
    /// Temperature at the outlet, K; by the heat capacity at the end of the lossless compression.
    pub(super) t_out: f64,
    /// Density at the outlet of the lossless compression, kg/m³.
    pub(super) rho_out: f64,
}

impl Compressor {
    /// Compression from `inlet` to `p_out` at `rpm`; `cached` is the end of the last isentropic compression.
    pub(super) fn compress(
        &self,
        fluid: &Fluid,
        inlet: &Point,
        p_out: f64,
        rpm: f64,
        evaluation: Evaluation,
        cached: &CachedState,
    ) -> Option<Compression> {
        let ideal = fluid.at_entropy(p_out, inlet.s, evaluation, cached)?;
        let n = rpm.min(FASTEST) + BEYOND * (rpm - FASTEST).max(0.0);
        // η_v = (a − b n)(1 − ε (ρ₂ₛ/ρ₁ − 1))
        let filled = 1.0 - self.clearance * (ideal.rho / inlet.rho - 1.0);
        let eta_v = (self.volumetric_efficiency - self.volumetric_efficiency_loss_min * n) * filled;
        // η_s = c − d n − e/ρ₁
        let eta_s = self.efficiency - self.efficiency_loss_min * n - self.efficiency_loss_kg_per_m3 / inlet.rho;
        // far below the densities it was fitted to the form would turn negative
        let eta_s = LEAST_EFFICIENCY + softplus(eta_s - LEAST_EFFICIENCY, LEAST_EFFICIENCY_BEND);
        if eta_v <= 0.0 {
            return None;
        }
        let work = (ideal.h - inlet.h) / eta_s;
        // h₂ = h₁ + (1 − φ)(h₂ₛ − h₁)/η_s
        let h_out = inlet.h + (1.0 - self.shell_loss) * work;
        let t_out = match ideal.cp {
            Some(cp) => ideal.t + (h_out - ideal.h) / cp,
            // the lossless compression ends among droplets, as with R-1234yf; the losses dry them
            None => {
                let pair = fluid.saturated(p_out)?;
                pair.t + ((h_out - pair.h_v) / fluid.vapour_cp(&pair)).max(0.0)
            }
        };
        Some(Compression {
            flow: self.displacement_m3 * rpm / 60.0 * eta_v * inlet.rho,
            work,
            h_out,
            t_out,
            rho_out: ideal.rho,
        })
    }
}

#[cfg(test)]
mod tests {
    use approx::assert_abs_diff_eq;

    use super::*;
    use crate::quantity::Quantity;
    use crate::{Pressure, Refrigerant, Temperature};

    /// The published compressor, with a clearance and a shell.
    const PUBLISHED: Compressor = Compressor {
        displacement_m3: 169e-6,
        volumetric_efficiency: 0.8889,
        volumetric_efficiency_loss_min: 1.0025e-4,
        clearance: 0.03,
        efficiency: 0.8405,
        efficiency_loss_min: 4.8711e-5,
        efficiency_loss_kg_per_m3: 0.1105 * 16.018_463_4,
        shell_loss: 0.08,
    };

    fn drawn(rpm: f64) -> Compression {
        let fluid = Fluid::new(Refrigerant::R134a).unwrap();
        let state = Refrigerant::R134a.state(Pressure::from_kpa(300.0), Temperature::from_celsius(10.0)).unwrap();
        let inlet =
            Point { t: 283.15, rho: state.density().si(), h: state.enthalpy().si(), s: state.entropy().si(), cp: None };
        PUBLISHED.compress(&fluid, &inlet, 1.5e6, rpm, Evaluation::Exact, &CachedState::default()).unwrap()
    }

    /// By hand, with ρ₁ 14.09814 kg/m³, ρ₂ₛ 68.50289 kg/m³, h₂ₛ − h₁ 35 246.98 J/kg and T₂ₛ 342.477 K of CoolProp 8.0.0.
    #[test]
    fn both_efficiencies_as_worked_by_hand() {
        let at_3000 = drawn(3000.0);
        // η_v = (0.8889 − 0.30075)(1 − 0.03 · 3.859002) = 0.520060; 169 cm³ · 50/s · η_v ρ₁
        assert_abs_diff_eq!(at_3000.flow, 0.061_954, epsilon = 1e-6); // kg/s, its last digit
        // η_s = 0.8405 − 0.146133 − 1.770040/14.09814 = 0.568816
        assert_abs_diff_eq!(at_3000.work, 61_965.0, epsilon = 2.0); // J/kg, 3 in 100,000: our choice
        // 6000 rpm count as 4500 and a third of 1500: η_v = (0.8889 − 0.50125) · 0.884230 = 0.342772
        let at_6000 = drawn(6000.0);
        assert_abs_diff_eq!(at_6000.flow, 0.081_669, epsilon = 2e-6); // kg/s, twice its last digit: our choice
    }

    #[test]
    fn the_outlet_has_what_the_shell_leaves() {
        let out = drawn(3000.0);
        let inlet = Refrigerant::R134a.state(Pressure::from_kpa(300.0), Temperature::from_celsius(10.0)).unwrap();
        // J/kg of some 400,000: rounding
        assert_abs_diff_eq!(out.h_out - inlet.enthalpy().si(), 0.92 * out.work, epsilon = 1e-6);
        // by one heat capacity instead of the equation; it falls as the gas gets hotter
        let exact = Refrigerant::R134a
            .at_enthalpy(Pressure::from_kpa(1500.0), crate::quantity::SpecificEnthalpy::from_si(out.h_out))
            .unwrap();
        assert_abs_diff_eq!(out.t_out, exact.temperature().kelvin(), epsilon = 1.0);
    }
}
