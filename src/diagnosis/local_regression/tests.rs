//! Tests of the local regression.

#![cfg(test)]

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
