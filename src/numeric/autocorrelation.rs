//! How much less readings are worth whose neighbours resemble each other.

/// How many readings count as one: (1 + ρ)/(1 − ρ) with the first autocorrelation ρ of the residuals, or 1 where neighbours do
/// not resemble each other. Fitting takes about (1 + 3 ρ)/n from ρ for each figure fitted, of which 3/n is given back.
pub(crate) fn variance_inflation(residuals: &[f64]) -> f64 {
    let all: f64 = residuals.iter().map(|e| e * e).sum();
    let shared: f64 = residuals.windows(2).map(|pair| pair[0] * pair[1]).sum();
    if all <= 0.0 {
        return 1.0;
    }
    let rho = (shared / all + 3.0 / residuals.len() as f64).clamp(0.0, 0.95);
    (1.0 + rho) / (1.0 - rho)
}
