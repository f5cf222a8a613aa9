//! Refrigerant mass in each volume of the circuit.

use super::fluid::SaturatedPair;
use super::model::Pass;
use super::sizes::{Circuit, Storage};

/// Refrigerant mass in the circuit with its receiver or accumulator empty and full, at one state.
#[derive(Debug, Clone, Copy)]
pub(super) struct Contents {
    /// Mass in all volumes with the store empty of liquid, kg.
    pub(super) store_empty: f64,
    /// Mass in all volumes with the store full of liquid, kg.
    pub(super) store_full: f64,
    /// Mass in all volumes but the store, kg.
    outside_store: f64,
    /// Mass in an empty and in a full store, kg.
    store: (f64, f64),
}

impl Contents {
    /// Masses in the volumes of `circuit` at the state of `pass`.
    pub(super) fn of(circuit: &Circuit, pass: &Pass) -> Self {
        let low = &pass.evaporator.pair;
        let outlet_quality = pass.evaporator.outlet_quality;
        let high = pass.high_side.behind.as_ref().or(pass.high_side.condensing.as_ref());
        let liquid_line = match high {
            Some(pair) if pass.high_side.quality_out > 0.0 => {
                mixed_density(pair, pass.high_side.quality_out, pass.high_side.quality_out)
            }
            _ => pass.outlet.rho,
        };
        let dry = pass.trial.dry.clamp(0.0, 1.0);
        let boiling = mixed_density(low, pass.inlet_quality, outlet_quality);
        let evaporator = (1.0 - dry) * boiling + dry * low.rho_v;
        let pipes = &circuit.lines;
        let outside_store = circuit.condenser.volume_m3 * pass.high_side.density
            + pipes.liquid_m3 * liquid_line
            + circuit.evaporator.volume_m3 * evaporator
            + pipes.suction_m3 * pass.suction.point.rho
            + pipes.discharge_m3 * pass.compression.rho_out;
        let store = match circuit.storage {
            Storage::Receiver { .. } => {
                let vapour = high.map_or(pass.compression.rho_out, |pair| pair.rho_v);
                circuit.storage.holds(vapour, pass.outlet.received_density())
            }
            Storage::Accumulator { .. } => circuit.storage.holds(low.rho_v, low.rho_l),
        };
        Self { store_empty: outside_store + store.0, store_full: outside_store + store.1, outside_store, store }
    }

    /// Liquid level of the store with `charge` kg in the circuit: 0 empty, 1 full.
    pub(super) fn level(&self, charge: f64) -> f64 {
        let (empty, full) = self.store;
        ((charge - self.outside_store - empty) / (full - empty)).clamp(0.0, 1.0)
    }
}

/// Difference of quality below which the middle stands for the mean: closer ends would cancel in the integral; our choice.
const NARROW: f64 = 1e-4;

/// Mean density where quality varies linearly from `from` to `to`, kg/m³.
///
/// - **Equation** ρ = α ρ″ + (1 − α) ρ′, α = x/(x + (1 − x) c), c = (ρ″/ρ′)^(2/3): the slip of least entropy production.
///   Mean of α over x in closed form: ∫ α dx = x/(1 − c) − c/(1 − c)² ln(c + (1 − c) x).
/// - **Source** Zivi, J. Heat Transfer 86 (1964) 247; from memory.
pub(super) fn mixed_density(pair: &SaturatedPair, from: f64, to: f64) -> f64 {
    let c = (pair.rho_v / pair.rho_l).cbrt().powi(2);
    let (from, to) = (from.clamp(0.0, 1.0), to.clamp(0.0, 1.0));
    let alpha = if (to - from).abs() < NARROW {
        let x = 0.5 * (from + to);
        x / (x + (1.0 - x) * c)
    } else {
        let integral = |x: f64| x / (1.0 - c) - c / (1.0 - c).powi(2) * (c + (1.0 - c) * x).ln();
        (integral(to) - integral(from)) / (to - from)
    };
    alpha * pair.rho_v + (1.0 - alpha) * pair.rho_l
}

#[cfg(test)]
mod tests {
    use approx::assert_abs_diff_eq;

    use super::*;

    #[test]
    fn the_mean_is_that_of_many_slices() {
        let pair = SaturatedPair { p: 0.0, t: 0.0, rho_l: 1200.0, h_l: 0.0, rho_v: 20.0, h_v: 1.0, cp_l: 1.0 };
        let slices = 100_000;
        let sum: f64 = (0..slices)
            .map(|i| {
                let x = 0.1 + 0.8 * (f64::from(i) + 0.5) / f64::from(slices);
                mixed_density(&pair, x, x)
            })
            .sum();
        let mean = sum / f64::from(slices);
        // the midpoints of 100,000 slices are good to less
        assert_abs_diff_eq!(mixed_density(&pair, 0.1, 0.9), mean, epsilon = 1e-6 * mean);
        // no slip would leave far less liquid: homogeneous at x = 0.5 is 39 kg/m³
        assert!(mixed_density(&pair, 0.5, 0.5) > 80.0);
    }
}
