//! Tests of the density of the readings.

#![cfg(test)]

use approx::{abs_diff_eq, assert_abs_diff_eq};

use super::*;
use crate::numeric::point;

/// Rounding of a few operations on numbers up to some thousand.
const ROUNDING: f64 = 1e-12;

/// Two independent standard normal numbers (Box & Muller 1958), the same on every machine.
fn normal(i: usize) -> [f64; 2] {
    let [u, v] = point::<2>(11, i as u64);
    let r = (-2.0 * (u + 1e-10).ln()).sqrt();
    [r * (std::f64::consts::TAU * v).cos(), r * (std::f64::consts::TAU * v).sin()]
}

fn vector(values: &[f64]) -> DVector<f64> {
    DVector::from_row_slice(values)
}

/// Points without a size that matters.
fn unsized_points(values: impl Iterator<Item = Vec<f64>>) -> Vec<Point> {
    values.map(|values| Point { size: 0.5, mode: 0, weight: 1.0, values: vector(&values) }).collect()
}

/// ln of the density of every quantity, in full, with its constant.
fn log_density(density: &KernelDensity, at: &[f64]) -> f64 {
    let constant = -0.5 * at.len() as f64 * std::f64::consts::TAU.ln();
    log_mean_exp(density.log_kernels(&vector(at)).into_iter()) + constant
}

#[test]
fn the_density_of_a_gaussian_sample_is_that_of_the_gaussian() {
    // x = 1 + 2 g, y = −1 + g + g', so that the covariance is ((4, 2), (2, 2)), of determinant 4
    let n = 2000;
    let points = unsized_points((0..n).map(|i| {
        let [g, other] = normal(i);
        vec![1.0 + 2.0 * g, -1.0 + g + other]
    }));
    let density = KernelDensity::new(&points, SizeDependence::None, &DMatrix::zeros(2, 2)).unwrap();
    let h = silverman_bandwidth(n, 2);
    for (g, other) in [(0.0f64, 0.0f64), (1.0, 0.0), (0.0, -1.0), (-0.7, 0.7), (1.0, -1.0), (-1.0, -1.0)] {
        let found = log_density(&density, &[1.0 + 2.0 * g, -1.0 + g + other]).exp();
        let q = g * g + other * other;
        let law = (-0.5 * q).exp() / (std::f64::consts::TAU * 2.0);
        // relative sampling error of a kernel density: √(∫K²/(n h² f)), with ∫K² = 1/4π, and f over √det Σ
        let error = ((0.5 * q).exp() / (2.0 * n as f64 * h * h)).sqrt();
        assert!(
            error < 0.1 && abs_diff_eq!(found / law, 1.0, epsilon = 2.0 * error),
            "({g}, {other}): {found} for {law} ± {error}"
        );
    }
}

#[test]
fn two_points_give_the_sum_of_two_kernels_worked_by_hand() {
    // values −1 and 1 in one quantity: mean 0, leave-one-out residuals ∓1/(1 − ½), covariance 4; n = 2, d = 1
    let points = unsized_points([vec![-1.0], vec![1.0]].into_iter());
    let r = 0.09;
    let density = KernelDensity::new(&points, SizeDependence::None, &DMatrix::from_element(1, 1, r)).unwrap();
    // Silverman: (4/(2 · 3))^(1/5)
    let h = (2.0f64 / 3.0).powf(0.2);
    assert_abs_diff_eq!(h, 0.922_107_911, epsilon = 1e-9); // nine digits by hand
    // the inflation 2/(2 − 1 − 1) is infinite and counts as three
    let variance = 3.0 * h * h * 4.0 + r;
    let centre = 1.0 - (1.0 - (1.0 - h * h).sqrt()) * 2.0;
    assert_abs_diff_eq!(density.centres().nth(1).unwrap()[0], centre, epsilon = ROUNDING);
    for x in [-3.0, 0.0, 0.4, 5.0] {
        let normal = |c: f64| (-0.5 * (x - c) * (x - c) / variance).exp() / (std::f64::consts::TAU * variance).sqrt();
        let law = 0.5 * (normal(-centre) + normal(centre));
        let found = log_density(&density, &[x]).exp();
        assert!(abs_diff_eq!(found / law, 1.0, epsilon = ROUNDING), "{x}: {found} for {law}");
    }
}

/// Four points of mean weight four; each law from the centre and the factor of the kernel itself.
#[test]
fn a_kernel_has_the_weight_of_its_point_over_the_mean() {
    let weights = [2.0, 3.0, 7.0, 4.0];
    let at = |weight: f64, value: f64| Point { size: 0.5, mode: 0, weight, values: vector(&[value]) };
    let points: Vec<Point> = weights.iter().zip([-1.0, 0.0, 2.0, 5.0]).map(|(w, value)| at(*w, value)).collect();
    let r = DMatrix::from_element(1, 1, 0.25);
    let density = KernelDensity::new(&points, SizeDependence::None, &r).unwrap();
    let logs = density.log_kernels(&vector(&[1.0]));
    for (i, (log, weight)) in logs.iter().zip(weights).enumerate() {
        let kernel = &density.kernels[i];
        let z = (1.0 - kernel.centre[0]) / kernel.factor[(0, 0)];
        let law = (weight / 4.0).ln() - 0.5 * z * z - kernel.factor[(0, 0)].ln();
        assert_abs_diff_eq!(*log, law, epsilon = ROUNDING);
        assert_abs_diff_eq!(kernel.log_prefixes(&vector(&[1.0]))[0], law, epsilon = ROUNDING);
    }
}

#[test]
fn kernels_round_shrunk_centres_scatter_as_the_points_do() {
    // without inflation the mixture's variance would be that of the leave-one-out residuals
    let n = 400;
    let points = unsized_points((0..n).map(|i| normal(i).to_vec()));
    let density = KernelDensity::new(&points, SizeDependence::None, &DMatrix::zeros(2, 2)).unwrap();
    let mean =
        |f: &dyn Fn(&DVector<f64>) -> f64, all: &[DVector<f64>]| all.iter().map(f).sum::<f64>() / all.len() as f64;
    let centres: Vec<_> = density.centres().cloned().collect();
    let values: Vec<_> = points.iter().map(|point| point.values.clone()).collect();
    let variance = |all: &[DVector<f64>]| {
        let middle = mean(&|x| x[0], all);
        mean(&|x| (x[0] - middle).powi(2), all)
    };
    let h = silverman_bandwidth(n, 2);
    let mixture = variance(&centres) + h * h * variance(&values);
    // a sample's own mean and variance, and a finite number of points: our choice
    assert!(abs_diff_eq!(mixture / variance(&values), 1.0, epsilon = 0.01), "{mixture} for {}", variance(&values));
    assert!(variance(&centres) / variance(&values) < 1.0 - 0.9 * h * h, "not shrunk");
}

#[test]
fn prefix_densities_are_the_marginal_densities() {
    let two: Vec<Point> = (0..60)
        .map(|i| {
            let size = (i as f64 + 0.5) / 60.0;
            let [g, other] = normal(i);
            Point {
                size,
                mode: 0,
                weight: 1.0,
                values: vector(&[3.0 * size + 0.3 * g, size * size + 0.2 * (g + other)]),
            }
        })
        .collect();
    let r = DMatrix::from_diagonal(&vector(&[0.01, 0.02]));
    let density = KernelDensity::new(&two, SizeDependence::Smooth, &r).unwrap();
    let read = 1.2;
    let first = density.log_prefix_densities(&vector(&[read, 0.3]))[0].exp();
    // ∫ p(x, y) dy by the trapezoidal rule
    let step = 0.01;
    let integral: f64 = (-400..400)
        .map(|k| log_mean_exp(density.log_kernels(&vector(&[read, f64::from(k) * step])).into_iter()).exp())
        .sum::<f64>()
        * step
        / std::f64::consts::TAU.sqrt();
    // the trapezoidal rule on a smooth density leaves less
    assert!(abs_diff_eq!(first / integral, 1.0, epsilon = 1e-9), "{first} for {integral}");
    let last = density.log_prefix_densities(&vector(&[read, 0.3]))[1];
    let whole = log_mean_exp(density.log_kernels(&vector(&[read, 0.3])).into_iter());
    assert_eq!(last, whole);
}

#[test]
fn the_size_given_the_values_is_that_of_the_joint_normal() {
    // values 2 s + noise of variance about 0.01 · … : with one quantity everything is scalar
    let points: Vec<Point> = (0..50)
        .map(|i| {
            let size = (i as f64 + 0.5) / 50.0;
            Point { size, mode: 0, weight: 1.0, values: vector(&[2.0 * size + 0.1 * normal(i)[0]]) }
        })
        .collect();
    let r = DMatrix::from_element(1, 1, 0.04);
    let density = KernelDensity::new(&points, SizeDependence::Smooth, &r).unwrap();
    let read = 1.3;
    let given = density.sizes_given(&vector(&[read]));
    let sigma = 0.8 * silverman_bandwidth(50, 2) / 12f64.sqrt();
    for (kernel, given) in density.kernels.iter().zip(&given) {
        let (slope, own) = (kernel.slope[0], kernel.factor[(0, 0)].powi(2));
        // correlation ρ² = σ² g²/V
        let explained = sigma * sigma * slope * slope / own;
        let mean = kernel.size + sigma * sigma * slope / own * (read - kernel.centre[0]);
        assert_abs_diff_eq!(given.mean, mean, epsilon = ROUNDING);
        let deviation = sigma * (1.0 - explained).sqrt();
        assert_abs_diff_eq!(given.standard_deviation, deviation, epsilon = ROUNDING);
        assert!(explained > 0.05, "the size does not move the value: {explained}");
    }
}

#[test]
fn small_samples_count_for_less_up_to_threefold() {
    assert_eq!(small_sample_inflation(100, 9), 100.0 / 90.0);
    assert_eq!(small_sample_inflation(30, 19), 3.0);
    assert_eq!(small_sample_inflation(5, 30), 3.0);
    assert_eq!(shrinkage(0.6), 1.0 - 0.8);
    assert_eq!(shrinkage(1.5), 1.0);
    // Silverman 1986, table 4.1 lists A(K) of eq. 4.14: (4/(d + 2))^(1/(d + 4)) is 1.06 for d = 1 and 1 for d = 2
    assert_abs_diff_eq!(silverman_bandwidth(1, 1), 1.06, epsilon = 0.001); // 1.0592, printed as 1.06
    assert_eq!(silverman_bandwidth(1, 2), 1.0);
}

#[test]
fn log_mean_exp_neither_overflows_nor_loses_what_is_small() {
    let of = |logs: &[f64]| log_mean_exp(logs.iter().copied());
    assert_eq!(of(&[1e300, 1e300]), 1e300);
    assert_eq!(of(&[-1e300, -1e300]), -1e300);
    assert_abs_diff_eq!(of(&[1000.0, 1000.0 + 3f64.ln()]), 1000.0 + 2f64.ln(), epsilon = ROUNDING);
    assert_abs_diff_eq!(of(&[-2000.0, f64::NEG_INFINITY]), -2000.0 - 2f64.ln(), epsilon = ROUNDING);
    // a thousand parts of e⁻³⁰ beside a one are not lost
    let many: Vec<f64> = std::iter::once(0.0).chain(std::iter::repeat_n(-30.0, 999)).collect();
    let law = (999.0 * (-30f64).exp()).ln_1p() - 1000f64.ln();
    // each of 999 sums near one is rounded by half its last place, 1.1e-16; the parts themselves are 9.3e-11
    assert_abs_diff_eq!(of(&many), law, epsilon = 1.2e-13);
    assert_eq!(of(&[f64::NEG_INFINITY; 3]), f64::NEG_INFINITY);
    assert_eq!(of(&[]), f64::NEG_INFINITY);
    assert_abs_diff_eq!(log_sum_exp([2f64.ln(), 3f64.ln()].into_iter()), 5f64.ln(), epsilon = ROUNDING);
    assert_eq!(log_sum_exp(std::iter::empty()), f64::NEG_INFINITY);
}

#[test]
fn normalised_exponentials_add_up_to_one_or_are_none() {
    let weights = normalised_exp(&[-5000.0, -5000.0 + 3f64.ln(), f64::NEG_INFINITY]).unwrap();
    assert_abs_diff_eq!(weights[0], 0.25, epsilon = ROUNDING);
    assert_abs_diff_eq!(weights[1], 0.75, epsilon = ROUNDING);
    assert!(weights[2] == 0.0);
    for none in [&[][..], &[f64::NEG_INFINITY; 2], &[0.0, f64::NAN], &[0.0, f64::INFINITY]] {
        assert_eq!(normalised_exp(none), None, "{none:?}");
    }
}

#[test]
fn a_value_however_far_away_leaves_every_number_a_number() {
    let points: Vec<Point> = (0..40)
        .map(|i| Point { size: (i as f64 + 0.5) / 40.0, mode: 0, weight: 1.0, values: vector(&normal(i)) })
        .collect();
    let r = DMatrix::identity(2, 2);
    let density = KernelDensity::new(&points, SizeDependence::Smooth, &r).unwrap();
    for far in [1e6, -1e6, 1e200, f64::MAX, f64::MIN] {
        let read = vector(&[far, 0.0]);
        let logs = density.log_kernels(&read);
        assert!(logs.iter().all(|log| log.is_finite()), "{far:e}: {logs:?}");
        assert!(density.log_prefix_densities(&read).iter().all(|log| log.is_finite()));
        let weights = normalised_exp(&logs).unwrap();
        // a sum over many circuits: rounding
        assert_abs_diff_eq!(weights.iter().sum::<f64>(), 1.0, epsilon = 1e-9);
        assert!(density.sizes_given(&read).iter().all(|size| size.mean.is_finite()));
    }
}

#[test]
fn no_points_and_no_scatter_make_no_density() {
    let zero = DMatrix::zeros(1, 1);
    assert!(KernelDensity::new(&[], SizeDependence::Smooth, &zero).is_none());
    let same = unsized_points([vec![1.0], vec![1.0]].into_iter());
    assert!(KernelDensity::new(&same, SizeDependence::None, &zero).is_none());
    assert!(KernelDensity::new(&same, SizeDependence::None, &DMatrix::identity(1, 1)).is_some());
    let bad = unsized_points([vec![1.0], vec![f64::NAN]].into_iter());
    assert!(KernelDensity::new(&bad, SizeDependence::None, &DMatrix::identity(1, 1)).is_none());
}
