//! Local linear regression of what simulated circuits read over the size of their fault.
//!
//! - **Equation** at a place x the weighted least-squares line through the circuits of one mode, with weights
//!   wᵢ = ωᵢ exp(−½ ((sᵢ − x)/b)²), b = [`SIZE_BANDWIDTH`], ωᵢ the weight of the circuit. Lines are fitted at [`LINES`] equidistant places; between two places the
//!   two lines are interpolated linearly.
//! - **Source** local linear regression: Fan & Gijbels, Local Polynomial Modelling and Its Applications, 1996; residuals without the
//!   point itself, eᵢ/(1 − hᵢ): Cook & Weisberg, Residuals and Influence in Regression, 1982 (both from memory). Places, bandwidths
//!   and limits are our choice.
//! - **Limits** the leave-one-out residual equals that of a refit at the places of the lines. Between two places it is the
//!   interpolated residual over one less the interpolated leverage, not the interpolated quotient: off by up to 0.2 % of the root
//!   mean square residual with 30 points and by 0.02 % with 150 (a unit test holds both). No residual grows more than twofold
//!   ([`LEAST_FREEDOM`]).

use nalgebra::{DMatrix, DVector};

/// Bandwidth of the regression along the size, as a fraction of the range of sizes; our choice.
const SIZE_BANDWIDTH: f64 = 0.12;

/// Number of lines along the size: one every third of [`SIZE_BANDWIDTH`]; our choice.
const LINES: usize = 25;

/// Least variance of the sizes near a place at which a slope is fitted, as a fraction of the squared bandwidth; our choice.
const LEAST_VARIANCE: f64 = 0.25;

/// Lower limit of 1 − h: the line through a point that determines it alone says nothing about its residual; our choice.
const LEAST_FREEDOM: f64 = 0.5;

/// Number of equal intervals of the size with a covariance each; our choice.
const COVARIANCES: usize = 8;

/// Bandwidth of the covariance along the size, wider than that of the lines as more numbers are estimated; our choice.
const COVARIANCE_BANDWIDTH: f64 = 1.5 * SIZE_BANDWIDTH;

/// A point of the sample: what one simulated circuit would read.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Point {
    /// Size of its fault, 0 to 1.
    pub(super) size: f64,
    /// Index of the mode it belongs to; nothing is smoothed across modes.
    pub(super) mode: usize,
    /// Its weight; one where all count alike.
    pub(super) weight: f64,
    /// One number for each measured quantity.
    pub(super) values: DVector<f64>,
}

/// How the values depend on the size.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum SizeDependence {
    /// Not at all: one mean for each mode and one covariance.
    None,
    /// In steps: a local mean without a slope.
    Stepwise,
    /// Smoothly: a local line.
    Smooth,
}

impl SizeDependence {
    /// The weights of a point of `size` at `N` equidistant places, the first at `first` and `step` apart: Gaussian with this bandwidth b.
    ///
    /// One follows from the one before: gₖ₊₁ = gₖ rₖ and rₖ₊₁ = rₖ exp(−step²/b²); of 25 the last is off by some 1e-13 of itself.
    fn weights<const N: usize>(self, size: f64, first: f64, step: f64, bandwidth: f64) -> [f64; N] {
        if self == Self::None {
            return [1.0; N];
        }
        let (z, step) = ((size - first) / bandwidth, step / bandwidth);
        let (mut weight, mut ratio, falls) =
            ((-0.5 * z * z).exp(), (step * (z - 0.5 * step)).exp(), (-step * step).exp());
        [(); N].map(|()| {
            let here = weight;
            weight *= ratio;
            ratio *= falls;
            here
        })
    }
}

/// Where line `k` of [`LINES`] stands along the size.
fn place_of(k: usize) -> f64 {
    k as f64 / (LINES - 1) as f64
}

/// The weights of a point at the places of the lines, its own included.
fn line_weights(point: &Point, dependence: SizeDependence) -> [f64; LINES] {
    dependence.weights(point.size, 0.0, place_of(1), SIZE_BANDWIDTH).map(|weight| weight * point.weight)
}

/// The regression at each point of a sample, in the order of the points.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct LocalRegression {
    /// Change of the values over the whole range of sizes.
    pub(super) slopes: Vec<DVector<f64>>,
    /// Leave-one-out residuals: the values less those of a regression without the point.
    pub(super) residuals: Vec<DVector<f64>>,
}

/// The weighted least-squares line at one place.
struct Line {
    /// Where along the size; sizes below are distances from here.
    place: f64,
    /// Sum of the weights.
    total: f64,
    /// Weighted mean and variance of the sizes.
    size: f64,
    variance: f64,
    /// Weighted mean of the values.
    mean: DVector<f64>,
    slope: DVector<f64>,
    /// Whether there is a slope.
    sloped: bool,
}

impl Line {
    /// Through `points` at indices `members`, each with its weight there, at `place`.
    fn new(
        points: &[Point],
        members: impl Iterator<Item = (usize, f64)>,
        d: usize,
        dependence: SizeDependence,
        place: f64,
    ) -> Self {
        // Σ w, Σ w t, Σ w t², Σ w v and Σ w t v, t from the place on
        let (mut total, mut t_sum, mut tt_sum) = (0.0, 0.0, 0.0);
        let (mut v_sum, mut tv_sum) = (DVector::zeros(d), DVector::zeros(d));
        for (i, w) in members {
            let t = points[i].size - place;
            (total, t_sum, tt_sum) = (total + w, t_sum + w * t, tt_sum + w * t * t);
            v_sum.axpy(w, &points[i].values, 1.0);
            tv_sum.axpy(w * t, &points[i].values, 1.0);
        }
        let size = t_sum / total;
        let variance = tt_sum / total - size * size;
        let mean = v_sum / total;
        let sloped =
            dependence == SizeDependence::Smooth && variance > LEAST_VARIANCE * SIZE_BANDWIDTH * SIZE_BANDWIDTH;
        let slope = if sloped { (tv_sum / total - &mean * size) / variance } else { DVector::zeros(d) };
        Self { place, total, size, variance, mean, slope, sloped }
    }

    /// The values at `size`.
    fn at(&self, size: f64) -> impl Iterator<Item = f64> {
        let along = size - self.place - self.size;
        self.mean.iter().zip(&self.slope).map(move |(mean, slope)| mean + slope * along)
    }

    /// hᵢ = wᵢ/Σw (1 + (tᵢ − t̄)²/var t): the weight of a point at `size`, whose `weight` in the line is wᵢ, in its own fitted value.
    fn leverage(&self, size: f64, weight: f64) -> f64 {
        let t = size - self.place;
        let slope = if self.sloped { (t - self.size).powi(2) / self.variance } else { 0.0 };
        weight * (1.0 + slope) / self.total
    }
}

/// Local linear regression of the values of `points` over their sizes, mode by mode.
pub(super) fn local_regression(points: &[Point], dependence: SizeDependence) -> LocalRegression {
    let d = points.first().map_or(0, |point| point.values.len());
    let zeros = || vec![DVector::zeros(d); points.len()];
    let (mut slopes, mut residuals, mut leverages) = (zeros(), zeros(), vec![0.0; points.len()]);
    let weights: Vec<[f64; LINES]> = points.iter().map(|point| line_weights(point, dependence)).collect();
    let mut modes: Vec<usize> = points.iter().map(|point| point.mode).collect();
    modes.sort_unstable();
    modes.dedup();
    for mode in modes {
        let members: Vec<usize> = (0..points.len()).filter(|&i| points[i].mode == mode).collect();
        for (k, place) in (0..LINES).map(place_of).enumerate() {
            // linear interpolation between neighbouring lines
            let share = |size: f64| (1.0 - (size - place).abs() * (LINES - 1) as f64).max(0.0);
            if !members.iter().any(|&i| share(points[i].size) > 0.0) {
                continue;
            }
            let line = Line::new(points, members.iter().map(|&i| (i, weights[i][k])), d, dependence, place);
            for &i in &members {
                let Point { size, values, .. } = &points[i];
                let share = share(*size);
                if share > 0.0 {
                    slopes[i].axpy(share, &line.slope, 1.0);
                    for ((residual, value), fitted) in residuals[i].iter_mut().zip(values).zip(line.at(*size)) {
                        *residual += (value - fitted) * share;
                    }
                    leverages[i] += share * line.leverage(*size, weights[i][k]);
                }
            }
        }
    }
    for (residual, leverage) in residuals.iter_mut().zip(leverages) {
        *residual /= (1.0 - leverage).max(LEAST_FREEDOM);
    }
    LocalRegression { slopes, residuals }
}

/// Local covariances of the `residuals` of `points`: one matrix for each of [`COVARIANCES`] equal intervals of the size.
///
/// At the centre x of an interval, Σ = Σᵢ wᵢ eᵢ eᵢᵀ/Σᵢ wᵢ with Gaussian weights over the size, as the differences between circuits
/// change with the size of a fault. A single matrix over all points if nothing depends on the size; empty without points.
pub(super) fn local_covariances(
    points: &[Point],
    residuals: &[DVector<f64>],
    dependence: SizeDependence,
) -> Vec<DMatrix<f64>> {
    let Some(d) = residuals.first().map(DVector::len) else { return Vec::new() };
    let places = if dependence == SizeDependence::None { 1 } else { COVARIANCES };
    let step = 1.0 / places as f64;
    let (mut sums, mut totals) = (vec![DMatrix::zeros(d, d); places], [0.0; COVARIANCES]);
    for (point, residual) in points.iter().zip(residuals) {
        let weights: [f64; COVARIANCES] = dependence.weights(point.size, 0.5 * step, step, COVARIANCE_BANDWIDTH);
        for ((sum, total), weight) in sums.iter_mut().zip(&mut totals).zip(weights) {
            let weight = weight * point.weight;
            sum.ger(weight, residual, residual, 1.0);
            *total += weight;
        }
    }
    sums.into_iter().zip(totals).map(|(sum, total)| sum / total).collect()
}

#[cfg(test)]
mod tests;
