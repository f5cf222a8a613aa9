//! The compressor: how much it draws in, and how hot it sends it out.

use super::medium::{Medium, Point};
use super::recall::{Kept, Wanted};
use super::smooth::positive;
use crate::{Source, Trust};

/// A compressor.
///
/// - **Flow** ṁ = s V n η_v ρ₁, with the clearance volume blowing back: η_v = (a − b n)(1 − ε (ρ₂ₛ/ρ₁ − 1)).
/// - **Work** h₂ₛ − h₁ over η_s, η_s = c − d n − e/ρ₁; the share φ of the shaft power leaves through the shell:
///   h₂ = h₁ + (1 − φ)(h₂ₛ − h₁)/η_s.
/// - **Units** V in m³ a turn, n in 1/min, ρ in kg/m³; s, the delivery, is the share of full stroke, or of time with a
///   clutch, that is pumped.
/// - **Range** the form is published for 2400 to 4500 1/min and pressure ratios of 3 to 10; beyond 4500 1/min the fall with
///   speed is continued at a third of its slope, and η_s is kept above 0.3 in vacuum; both are ours.
/// - **Source** [`EFFICIENCY`].
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Compressor {
    /// Swept volume a turn at full stroke, m³.
    pub displacement_m3: f64,
    /// a of η_v.
    pub filling: f64,
    /// b of η_v, min.
    pub filling_loss_min: f64,
    /// ε, clearance volume over swept volume.
    pub clearance: f64,
    /// c of η_s.
    pub efficiency: f64,
    /// d of η_s, min.
    pub efficiency_loss_min: f64,
    /// e of η_s, kg/m³.
    pub efficiency_loss_kg_per_m3: f64,
    /// φ, the share of the shaft power that leaves through the shell.
    pub shell_loss: f64,
}

/// The form of both efficiencies and the values of one reciprocating compressor of 169 cm³ for R-134a.
pub const EFFICIENCY: Source = Source {
    work: "Darr & Crawford 1992, ACRC TR-14, University of Illinois",
    locator: "as typed in the open model library AixLib; factored form ours",
    doi: None,
    trust: Trust::Weak,
};

/// Speed up to which the published form holds, 1/min.
const FASTEST: f64 = 4500.0;
/// How much of the slope is kept beyond it; ours, no source.
const BEYOND: f64 = 1.0 / 3.0;

/// Isentropic efficiency that no working compressor falls below; ours, no source.
const LEAST_EFFICIENCY: f64 = 0.3;

/// What the compressor does at given pressures and suction state.
#[derive(Debug, Clone, Copy)]
pub(super) struct Compression {
    /// Mass flow at full delivery, kg/s.
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
    /// From `inlet` to `p_out` at `rpm`; `kept` is the end of the lossless compression when it was last asked for.
    pub(super) fn compress(
        &self,
        medium: &Medium,
        inlet: &Point,
        p_out: f64,
        rpm: f64,
        wanted: Wanted,
        kept: &Kept,
    ) -> Option<Compression> {
        let ideal = medium.at_entropy(p_out, inlet.s, wanted, kept)?;
        let n = rpm.min(FASTEST) + BEYOND * (rpm - FASTEST).max(0.0);
        // η_v = (a − b n)(1 − ε (ρ₂ₛ/ρ₁ − 1))
        let filled = 1.0 - self.clearance * (ideal.rho / inlet.rho - 1.0);
        let eta_v = (self.filling - self.filling_loss_min * n) * filled;
        // η_s = c − d n − e/ρ₁
        let eta_s = self.efficiency - self.efficiency_loss_min * n - self.efficiency_loss_kg_per_m3 / inlet.rho;
        // far below the densities it was fitted to the form would turn negative
        let eta_s = LEAST_EFFICIENCY + positive(eta_s - LEAST_EFFICIENCY, 0.02);
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
                let both = medium.boiling(p_out)?;
                both.t + ((h_out - both.h_v) / medium.vapour_cp(&both)).max(0.0)
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
