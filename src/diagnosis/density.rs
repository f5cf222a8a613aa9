//! Gaussian kernel density of the values of simulated circuits, over the size of a fault and the measured quantities together.
//!
//! - **Equation** p(s, r) = Σᵢ ωᵢ N((s, r); (sᵢ, cᵢ), Hᵢ)/Σᵢ ωᵢ, one full-covariance kernel for each point, over size s and values r.
//!   The weights ωᵢ are those of the circuits, all one without baselines; n below is (Σω)²/Σω² then, to the nearest whole number.
//!   The size of a kernel has variance σ² = (0.8 h)²/12; its values scatter with covariance Σᵢ = h² f Sᵢ + R about a line of slope
//!   gᵢ over the size. Hence Var s = σ², Cov(r, s) = σ² gᵢ, Var r = Σᵢ + σ² gᵢ gᵢᵀ. Sᵢ is the local covariance of the leave-one-out
//!   residuals and gᵢ the slope of the local regression ([`super::local_regression`]), R the covariance of measurement and model.
//! - **Bandwidth** Silverman's rule, h = (4/(n (d + 2)))^(1/(d + 4)), where d includes the size if the values depend on it smoothly
//!   (Silverman, Density Estimation, 1986, eq. 4.14).
//! - **Shrinkage** centres cᵢ = rᵢ − (1 − √(1 − h²)) eᵢ, with eᵢ the leave-one-out residual, so that the mixture has the covariance
//!   of the points (West, J. R. Stat. Soc. B 55 (1993) 409; from memory).
//! - **Small samples** f = n/(n − d − 1), the mean of Hotelling's T² over d; at most three.
//! - **Size given values** s | r is normal at each kernel: regression adjustment (Beaumont, Zhang & Balding, Genetics 162 (2002) 2025;
//!   from memory).
//! - **Limits** structure narrower than h standard deviations of the residuals is smoothed away, and h approaches one when points are
//!   few and quantities many. Densities lack the constant factor (2π)^(−d/2).

use nalgebra::{DMatrix, DVector};

use super::local_regression::{LocalRegression, Point, SizeDependence, local_covariances, local_regression};
use super::mixture::{SIZE_DEVIATION, TruncatedNormal};
use crate::expected::effective_size;

/// Factor on Silverman's bandwidth along the size: sizes are equidistant, not random, so less smoothing suffices; our choice.
const EVEN_SIZES: f64 = 0.8;

/// Upper limit of [`small_sample_inflation`]; our choice.
const MOST_INFLATION: f64 = 3.0;

/// Distances are limited to so many standard deviations, so that their squares remain finite; our choice.
const FARTHEST: f64 = 1e150;

/// Least variance of a size that is left once the readings are known, so that its root is a number; our choice.
const LEAST_VARIANCE: f64 = 1e-9;

/// ln of what is below half an ulp of one, e⁻³⁷, by arithmetic.
const BELOW_ULP: f64 = -37.0;

/// Kernel density of one sample.
#[derive(Debug, Clone)]
pub(super) struct KernelDensity {
    kernels: Vec<Kernel>,
    /// σ: standard deviation of every kernel along the size, as a share of its range.
    size_bandwidth: f64,
}

/// The kernel round one point.
#[derive(Debug, Clone)]
struct Kernel {
    size: f64,
    centre: DVector<f64>,
    /// gᵢ: change of the values over the whole range of sizes.
    slope: DVector<f64>,
    /// L, the lower Cholesky factor of the covariance of the values, Σᵢ + σ² gᵢ gᵢᵀ = L Lᵀ.
    factor: DMatrix<f64>,
    /// Σ ln Lⱼⱼ over the first 1, 2, … quantities: half the logarithm of the determinant.
    half_log_det: Vec<f64>,
    /// ln of its weight over the mean weight.
    log_weight: f64,
}

/// h = (4/(n (d + 2)))^(1/(d + 4)): Silverman's bandwidth for `n` points in `dimensions`, in standard deviations.
pub(super) fn silverman_bandwidth(n: usize, dimensions: usize) -> f64 {
    let (n, d) = (n as f64, dimensions as f64);
    (4.0 / (n * (d + 2.0))).powf(1.0 / (d + 4.0))
}

/// f = n/(n − d − 1), at most [`MOST_INFLATION`]: the factor on a covariance estimated from `n` points.
pub(super) fn small_sample_inflation(n: usize, dimensions: usize) -> f64 {
    let (n, d) = (n as f64, dimensions as f64);
    n / (n - d - 1.0).max(n / MOST_INFLATION)
}

/// 1 − √(1 − h²): the fraction of its residual by which a centre moves towards the regression.
pub(super) fn shrinkage(bandwidth: f64) -> f64 {
    1.0 - (1.0 - bandwidth * bandwidth).max(0.0).sqrt()
}

impl KernelDensity {
    /// The density of `points`, measured with `measurement_covariance`.
    ///
    /// `None` without points, or if a covariance is not positive definite: a quantity has neither scatter nor uncertainty, or a
    /// value is NaN.
    pub(super) fn new(
        points: &[Point],
        dependence: SizeDependence,
        measurement_covariance: &DMatrix<f64>,
    ) -> Option<Self> {
        let d = points.first()?.values.len();
        let n = effective_size(points.iter().map(|point| point.weight)).round() as usize;
        let mean_weight = points.iter().map(|point| point.weight).sum::<f64>() / points.len() as f64;
        let LocalRegression { slopes, residuals } = local_regression(points, dependence);
        let h = silverman_bandwidth(n, d + usize::from(dependence == SizeDependence::Smooth));
        let inflation = small_sample_inflation(n, d);
        let covariances: Vec<DMatrix<f64>> = local_covariances(points, &residuals, dependence)
            .into_iter()
            .map(|covariance| covariance * (inflation * h * h) + measurement_covariance)
            .collect();
        let nearest = |size: f64| {
            let place = (size * covariances.len() as f64) as usize;
            &covariances[place.min(covariances.len() - 1)]
        };
        let shrinkage = shrinkage(h);
        let size_bandwidth = EVEN_SIZES * h * SIZE_DEVIATION;
        let kernels = points
            .iter()
            .zip(slopes)
            .zip(residuals)
            .map(|((point, slope), residual)| {
                let centre = &point.values - residual * shrinkage;
                let log_weight = (point.weight / mean_weight).ln();
                let kernel = Kernel::new(point.size, centre, slope, nearest(point.size), size_bandwidth)?;
                Some(Kernel { log_weight, ..kernel })
            })
            .collect::<Option<Vec<Kernel>>>()?;
        Some(Self { kernels, size_bandwidth })
    }

    /// ln of each kernel at `read`, with its weight.
    pub(super) fn log_kernels(&self, read: &DVector<f64>) -> Vec<f64> {
        let mut z = vec![0.0; read.len()];
        self.kernels
            .iter()
            .map(|kernel| {
                kernel.whiten(read, &mut z);
                let squares: f64 = z.iter().map(|z| z * z).sum();
                kernel.log_weight - 0.5 * squares - kernel.half_log_det.last().copied().unwrap_or(0.0)
            })
            .collect()
    }

    /// ln of the density of the first 1, 2, … quantities at `read`.
    pub(super) fn log_prefix_densities(&self, read: &DVector<f64>) -> Vec<f64> {
        let all: Vec<Vec<f64>> = self.kernels.iter().map(|kernel| kernel.log_prefixes(read)).collect();
        (0..read.len()).map(|i| log_mean_exp(all.iter().map(|prefixes| prefixes[i]))).collect()
    }

    /// Distribution of the size at each kernel, given `read`, before truncation to the range.
    pub(super) fn sizes_given(&self, read: &DVector<f64>) -> Vec<TruncatedNormal> {
        let variance = self.size_bandwidth * self.size_bandwidth;
        let given = |kernel: &Kernel| {
            // E[s|r] = sᵢ + σ² gᵀ V⁻¹ (r − cᵢ), Var[s|r] = σ² − σ⁴ gᵀ V⁻¹ g, with V = L Lᵀ
            let whiten = |x: &DVector<f64>| kernel.factor.solve_lower_triangular(x);
            let (residual, slope) = (whiten(&(read - &kernel.centre))?, whiten(&kernel.slope)?);
            let mean = kernel.size + variance * slope.dot(&residual);
            let left = (variance - variance * variance * slope.dot(&slope)).max(LEAST_VARIANCE);
            mean.is_finite().then_some(TruncatedNormal { mean, standard_deviation: left.sqrt() })
        };
        let prior = |kernel: &Kernel| TruncatedNormal { mean: kernel.size, standard_deviation: self.size_bandwidth };
        self.kernels.iter().map(|kernel| given(kernel).unwrap_or_else(|| prior(kernel))).collect()
    }

    /// The centres of the kernels: the values of the points, shrunk towards the regression.
    pub(super) fn centres(&self) -> impl Iterator<Item = &DVector<f64>> {
        self.kernels.iter().map(|kernel| &kernel.centre)
    }
}

impl Kernel {
    /// `None` if the covariance of the values is not positive definite.
    fn new(
        size: f64,
        centre: DVector<f64>,
        slope: DVector<f64>,
        covariance: &DMatrix<f64>,
        size_bandwidth: f64,
    ) -> Option<Self> {
        let moved = slope * size_bandwidth;
        let factor = (covariance + &moved * moved.transpose()).cholesky()?.l();
        let mut sum = 0.0;
        let half_log_det = factor
            .diagonal()
            .iter()
            .map(|l| {
                sum += l.ln();
                sum
            })
            .collect();
        Some(Self { size, centre, slope: moved / size_bandwidth, factor, half_log_det, log_weight: 0.0 })
    }

    /// z = L⁻¹ (r − c) into `z`, by forward substitution, each within [`FARTHEST`].
    fn whiten(&self, read: &DVector<f64>, z: &mut [f64]) {
        for i in 0..z.len() {
            let known: f64 = (0..i).map(|j| self.factor[(i, j)] * z[j]).sum();
            z[i] = ((read[i] - self.centre[i] - known) / self.factor[(i, i)]).clamp(-FARTHEST, FARTHEST);
        }
    }

    /// ln of the weighted kernel of the first 1, 2, … quantities at `read`: ln ω − ½ Σ z² − ln det L.
    fn log_prefixes(&self, read: &DVector<f64>) -> Vec<f64> {
        let mut z = vec![0.0; read.len()];
        self.whiten(read, &mut z);
        let mut squares = 0.0;
        let prefix = |(z, half_log_det): (&f64, &f64)| {
            squares += z * z;
            self.log_weight - 0.5 * squares - half_log_det
        };
        z.iter().zip(&self.half_log_det).map(prefix).collect()
    }
}

/// ln of the mean of the exponentials of `logs`, without overflow; −∞ if `logs` is empty or all are −∞.
pub(super) fn log_mean_exp(logs: impl Iterator<Item = f64> + Clone) -> f64 {
    let most = logs.clone().fold(f64::NEG_INFINITY, f64::max);
    if most.is_infinite() {
        return most;
    }
    // smaller terms need no exponential
    let part = |log: f64| if log - most > BELOW_ULP { (log - most).exp() } else { 0.0 };
    let (sum, count) = logs.fold((0.0, 0), |(sum, count), log| (sum + part(log), count + 1));
    most + (sum / f64::from(count)).ln()
}

/// ln of the sum of the exponentials of `logs`, without overflow; −∞ if `logs` is empty or all are −∞.
pub(super) fn log_sum_exp(logs: impl Iterator<Item = f64> + Clone) -> f64 {
    let count = logs.clone().count() as f64;
    log_mean_exp(logs) + count.ln()
}

/// Weights that add up to one, in proportion to the exponentials of `logs`.
///
/// `None` if `logs` is empty, all are −∞, or one is +∞ or NaN.
pub(super) fn normalised_exp(logs: &[f64]) -> Option<Vec<f64>> {
    let most = logs.iter().copied().fold(f64::NEG_INFINITY, f64::max);
    if most.is_infinite() || logs.iter().any(|log| log.is_nan()) {
        return None;
    }
    let weights: Vec<f64> = logs.iter().map(|log| (log - most).exp()).collect();
    let total: f64 = weights.iter().sum();
    Some(weights.into_iter().map(|weight| weight / total).collect())
}

#[cfg(test)]
mod tests;
