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
mod tests {
    use approx::{abs_diff_eq, assert_abs_diff_eq};

    use super::*;
    use crate::numeric::point;

    /// `n` even sizes with values from `law`, which gets the size and two even random numbers.
    fn sample(n: usize, law: impl Fn(f64, [f64; 2]) -> Vec<f64>) -> Vec<Point> {
        let one = |i: usize| {
            let size = (i as f64 + 0.5) / n as f64;
            Point { size, mode: 0, weight: 1.0, values: DVector::from_vec(law(size, point::<2>(7, i as u64))) }
        };
        (0..n).map(one).collect()
    }

    /// The regression at the place of point `i`, from the other points alone.
    fn refitted(points: &[Point], i: usize, dependence: SizeDependence) -> DVector<f64> {
        let others: Vec<usize> = (0..points.len()).filter(|&j| j != i && points[j].mode == points[i].mode).collect();
        let size = points[i].size;
        let step = size * (LINES - 1) as f64;
        let below = (step.floor() as usize).min(LINES - 2);
        let share = step - below as f64;
        let at = |k: usize| {
            let members = others.iter().map(|&i| (i, line_weights(&points[i], dependence)[k]));
            let line = Line::new(points, members, points[i].values.len(), dependence, place_of(k));
            DVector::from_vec(line.at(size).collect())
        };
        &points[i].values - (at(below) * (1.0 - share) + at(below + 1) * share)
    }

    /// The largest difference from refits, over the root mean square of the refitted residuals.
    fn worst(points: &[Point], dependence: SizeDependence) -> f64 {
        let found = local_regression(points, dependence).residuals;
        let exact: Vec<_> = (0..points.len()).map(|i| refitted(points, i, dependence)).collect();
        let rms = (exact.iter().map(|e| e.norm_squared()).sum::<f64>() / points.len() as f64).sqrt();
        assert!(rms > 0.05, "residuals too small to compare: {rms}");
        found.iter().zip(&exact).map(|(found, exact)| (found - exact).norm()).fold(0.0, f64::max) / rms
    }

    fn curved(size: f64, u: [f64; 2]) -> Vec<f64> {
        vec![(3.0 * size).sin() + u[0] - 0.5, size * size + 0.7 * (u[0] - 0.5) + 0.3 * (u[1] - 0.5)]
    }

    #[test]
    fn the_weights_at_equal_steps_are_gaussian() {
        for size in [0.0, 0.013, 0.5, 1.0] {
            let point = Point { size, mode: 0, weight: 3.0, values: DVector::zeros(0) };
            for (k, weight) in line_weights(&point, SizeDependence::Smooth).into_iter().enumerate() {
                let law = 3.0 * (-0.5 * ((size - place_of(k)) / SIZE_BANDWIDTH).powi(2)).exp();
                // so much of itself by the steps before it
                assert!(abs_diff_eq!(weight / law, 1.0, epsilon = 1e-12), "{size} {k}: {weight:e} for {law:e}");
            }
            assert_eq!(line_weights(&point, SizeDependence::None), [3.0; LINES]);
        }
    }

    #[test]
    fn a_straight_line_is_recovered_without_residuals() {
        let points = sample(30, |size, _| vec![2.0 - 3.0 * size, 0.5 + size]);
        let found = local_regression(&points, SizeDependence::Smooth);
        for (slope, residual) in found.slopes.iter().zip(&found.residuals) {
            // values on straight lines: rounding
            assert!(
                abs_diff_eq!(slope[0], -3.0, epsilon = 1e-10) && abs_diff_eq!(slope[1], 1.0, epsilon = 1e-10),
                "{slope}"
            );
            assert!(residual.norm() < 1e-12, "{residual}");
        }
    }

    #[test]
    fn at_the_places_of_the_lines_leverage_gives_the_residual_of_a_refit() {
        let mut points = sample(4 * LINES, curved);
        points.iter_mut().enumerate().for_each(|(i, point)| point.size = (i % LINES) as f64 / (LINES - 1) as f64);
        for dependence in [SizeDependence::Smooth, SizeDependence::Stepwise, SizeDependence::None] {
            let worst = worst(&points, dependence);
            assert!(worst < 1e-10, "{dependence:?}: {worst:e}");
        }
    }

    #[test]
    fn between_the_places_leverage_is_near_the_residual_of_a_refit() {
        // found 2.1e-3, 1.6e-4 and 1.5e-3; one mean of all points has one leverage, so that nothing is interpolated
        for (n, dependence, allowed) in [
            (30, SizeDependence::Smooth, 3e-3),
            (150, SizeDependence::Smooth, 3e-4),
            (30, SizeDependence::Stepwise, 3e-3),
            (30, SizeDependence::None, 1e-10),
        ] {
            let worst = worst(&sample(n, curved), dependence);
            assert!(worst < allowed, "{n} {dependence:?}: {worst:e}");
        }
    }

    #[test]
    fn a_point_that_decides_its_line_grows_no_more_than_twofold() {
        // 25 points: at either end one has a leverage above a half
        let mut points = sample(LINES, curved);
        points.iter_mut().enumerate().for_each(|(i, point)| point.size = i as f64 / (LINES - 1) as f64);
        let members: Vec<usize> = (0..LINES).collect();
        let weights = members.iter().map(|&i| (i, line_weights(&points[i], SizeDependence::Smooth)[0]));
        let line = Line::new(&points, weights, 2, SizeDependence::Smooth, 0.0);
        assert!(line.leverage(0.0, 1.0) > LEAST_FREEDOM, "{}", line.leverage(0.0, 1.0));
        let found = &local_regression(&points, SizeDependence::Smooth).residuals[0];
        let twofold = (&points[0].values - DVector::from_vec(line.at(0.0).collect())) * 2.0;
        assert!((found - &twofold).norm() < 1e-12, "{found} for {twofold}");
    }

    #[test]
    fn modes_are_not_smoothed_into_one_another() {
        let mut points = sample(40, |size, _| vec![size]);
        for (i, point) in points.iter_mut().enumerate() {
            point.mode = i % 2;
            point.values[0] += 100.0 * point.mode as f64;
        }
        let found = local_regression(&points, SizeDependence::Smooth);
        assert!(found.residuals.iter().all(|residual| residual.norm() < 1e-11));
        points.iter_mut().for_each(|point| point.mode = 0);
        let joined = local_regression(&points, SizeDependence::Smooth);
        assert!(joined.residuals.iter().all(|residual| residual.norm() > 40.0));
    }

    #[test]
    fn a_lone_point_has_no_slope_and_no_residual() {
        let point = Point { size: 0.4, mode: 3, weight: 1.0, values: DVector::from_vec(vec![1.0]) };
        let found = local_regression(&[point], SizeDependence::Smooth);
        assert_eq!((found.slopes[0][0], found.residuals[0][0]), (0.0, 0.0));
        assert!(local_regression(&[], SizeDependence::Smooth).residuals.is_empty());
        assert!(local_covariances(&[], &[], SizeDependence::Smooth).is_empty());
    }

    #[test]
    fn the_covariance_follows_a_law_whose_scatter_grows_with_the_size() {
        // residuals a(s) (g, −g/2) with a = 0.2 + s and g of unit variance, spread evenly over ±√3
        let n = 4000;
        let points = sample(n, |_, _| vec![0.0, 0.0]);
        let residuals: Vec<_> = points
            .iter()
            .enumerate()
            .map(|(i, p)| {
                let g = (even(i) - 0.5) * 12f64.sqrt();
                DVector::from_vec(vec![(0.2 + p.size) * g, -0.5 * (0.2 + p.size) * g])
            })
            .collect();
        let found = local_covariances(&points, &residuals, SizeDependence::Smooth);
        assert_eq!(found.len(), COVARIANCES);
        for (place, covariance) in found.iter().enumerate() {
            let x = (place as f64 + 0.5) / COVARIANCES as f64;
            // the law itself, smoothed by the kernel over 0 to 1, by the midpoint rule
            let (mut sum, mut total) = (0.0, 0.0);
            for k in 0..2000 {
                let s = (k as f64 + 0.5) / 2000.0;
                let w = (-0.5 * ((s - x) / COVARIANCE_BANDWIDTH).powi(2)).exp();
                (sum, total) = (sum + w * (0.2 + s).powi(2), total + w);
            }
            let law = sum / total;
            for (i, j, factor) in [(0, 0, 1.0), (0, 1, -0.5), (1, 0, -0.5), (1, 1, 0.25)] {
                let (found, law) = (covariance[(i, j)], factor * law);
                // a finite sample against the integral: our choice
                assert!(abs_diff_eq!(found, law, epsilon = 0.01 * law.abs()), "place {x}: {found} for {law}");
            }
        }
        // without dependence: one matrix, the mean of the law, ∫ (0.2 + s)² ds = (1.2³ − 0.2³)/3
        let one = local_covariances(&points, &residuals, SizeDependence::None);
        assert_eq!(one.len(), 1);
        // a finite sample against the integral: our choice
        assert_abs_diff_eq!(one[0][(0, 0)], (1.2f64.powi(3) - 0.2f64.powi(3)) / 3.0, epsilon = 0.005);
    }

    /// The `i`-th of a sequence of even numbers, by the golden ratio.
    pub(super) fn even(i: usize) -> f64 {
        (0.5 + i as f64 * 0.618_033_988_749_894_9).fract()
    }
}
