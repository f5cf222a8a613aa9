//! Variance inflation by autocorrelated residuals.

/// Variance inflation by autocorrelated residuals, (1 + ρ)/(1 − ρ) for an AR(1) process with the lag-1 autocorrelation ρ; 1 for
/// a ρ that is not positive. Fitting biases ρ by about −(1 + 3 ρ)/n for each parameter; 3/n is added back, for three parameters
/// at ρ = 0. ρ is limited to 0.95, our choice.
pub(crate) fn variance_inflation(residuals: &[f64]) -> f64 {
    let all: f64 = residuals.iter().map(|e| e * e).sum();
    let shared: f64 = residuals.windows(2).map(|pair| pair[0] * pair[1]).sum();
    if all <= 0.0 {
        return 1.0;
    }
    let rho = (shared / all + 3.0 / residuals.len() as f64).clamp(0.0, 0.95);
    (1.0 + rho) / (1.0 - rho)
}
