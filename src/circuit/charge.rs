//! How much refrigerant is where.

use super::fluid::Boiling;

/// Mean density where quality runs evenly from `from` to `to`, kg/m³.
///
/// - **Equation** ρ = α ρ″ + (1 − α) ρ′, α = x/(x + (1 − x) c), c = (ρ″/ρ′)^(2/3): the slip of least entropy production.
///   Mean of α over x in closed form: ∫ α dx = x/(1 − c) − c/(1 − c)² ln(c + (1 − c) x).
/// - **Source** Zivi, J. Heat Transfer 86 (1964) 247; from memory.
pub(super) fn mixed_density(both: &Boiling, from: f64, to: f64) -> f64 {
    let c = (both.rho_v / both.rho_l).cbrt().powi(2);
    let (from, to) = (from.clamp(0.0, 1.0), to.clamp(0.0, 1.0));
    let alpha = if (to - from).abs() < 1e-4 {
        let x = 0.5 * (from + to);
        x / (x + (1.0 - x) * c)
    } else {
        let integral = |x: f64| x / (1.0 - c) - c / (1.0 - c).powi(2) * (c + (1.0 - c) * x).ln();
        (integral(to) - integral(from)) / (to - from)
    };
    alpha * both.rho_v + (1.0 - alpha) * both.rho_l
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_mean_is_that_of_many_slices() {
        let both = Boiling { p: 0.0, t: 0.0, rho_l: 1200.0, h_l: 0.0, rho_v: 20.0, h_v: 1.0, cp_l: 1.0 };
        let slices = 100_000;
        let sum: f64 = (0..slices)
            .map(|i| {
                let x = 0.1 + 0.8 * (f64::from(i) + 0.5) / f64::from(slices);
                mixed_density(&both, x, x)
            })
            .sum();
        let mean = sum / f64::from(slices);
        assert!((mixed_density(&both, 0.1, 0.9) - mean).abs() < 1e-6 * mean);
        // no slip would leave far less liquid: homogeneous at x = 0.5 is 39 kg/m³
        assert!(mixed_density(&both, 0.5, 0.5) > 80.0);
    }
}
