//! Tests of the gain of information.

#![cfg(test)]

use approx::{abs_diff_eq, assert_abs_diff_eq};

use super::*;
use crate::numeric::point;

/// Draws for an expectation in the tests.
const DRAWS: usize = 400;

/// Circuits of as many causes as there are laws, all of one weight, with their values by law and quantile.
fn circuits(n: usize, laws: &[&dyn Fn(f64) -> f64]) -> (Vec<WeightedCircuit>, Vec<f64>) {
    let weight = 1.0 / (n * laws.len()) as f64;
    let one = |cause: usize, index: usize| WeightedCircuit { cause, index, weight };
    let all: Vec<_> = (0..laws.len()).flat_map(|cause| (0..n).map(move |index| one(cause, index))).collect();
    let values = all.iter().map(|c| laws[c.cause]((c.index as f64 + 0.5) / n as f64)).collect();
    (all, values)
}

fn gain(circuits: &[WeightedCircuit], values: &[f64], standard: f64, causes: usize) -> f64 {
    expected_information_gain(circuits, values, &systematic_resample(circuits, DRAWS), standard, causes)
}

/// The `p`-quantile of the standard normal distribution, by bisection.
fn normal_quantile(p: f64) -> f64 {
    let (mut low, mut high) = (-9.0, 9.0);
    for _ in 0..60 {
        let x = 0.5 * (low + high);
        if 0.5 * libm::erfc(-x / std::f64::consts::SQRT_2) < p { low = x } else { high = x }
    }
    0.5 * (low + high)
}

/// H(C) − E[H(C | v)] in bits for two equally likely causes N(±m, s²): v goes by them, the posterior by them smoothed with the
/// kernel of standard deviation `blur`.
fn integral(m: f64, s: f64, blur: f64) -> f64 {
    let density = |v: f64| (-0.5 * v * v / (s * s)).exp() / (std::f64::consts::TAU.sqrt() * s);
    let nodes: Vec<f64> = (0..100).map(|k| (2.0 * (f64::from(k) + 0.5) / 100.0 - 1.0) * BIWEIGHT.sqrt()).collect();
    let smoothed = |v: f64| nodes.iter().map(|z| biweight(z / BIWEIGHT.sqrt()) * density(v + blur * z)).sum::<f64>();
    let steps = 2000;
    let (low, high) = (-m - 9.0 * s, m + 9.0 * s);
    let width = (high - low) / steps as f64;
    let left: f64 = (0..steps)
        .map(|k| {
            let v = low + (k as f64 + 0.5) * width;
            let p = 0.5 * (density(v - m) + density(v + m));
            p * entropy(&[smoothed(v - m), smoothed(v + m)]) * width
        })
        .sum();
    1.0 - left
}

/// ∫ z² K dz/∫ K dz = 1, by the midpoint rule.
#[test]
fn the_kernel_has_a_standard_deviation_of_one_and_an_end() {
    let z = |k: u32| (f64::from(k) + 0.5) / 1000.0 - 3.0;
    let moment = |power: i32| (0..6000).map(|k| biweight(z(k) / BIWEIGHT.sqrt()) * z(k).powi(power)).sum::<f64>();
    assert_abs_diff_eq!(moment(2) / moment(0), 1.0, epsilon = 1e-6); // the width of a step, squared
    assert_eq!((biweight(0.0), biweight(0.5), biweight(1.0), biweight(-1.1)), (1.0, 0.5625, 0.0, 0.0));
}

#[test]
fn circuits_beyond_whole_lanes_count_as_the_others() {
    let places: Vec<f64> = (0..11).map(|i| 0.15 * f64::from(i)).collect();
    let weights: Vec<f64> = (0..11).map(|i| 1.0 + f64::from(i)).collect();
    for n in 0..=11 {
        let law: f64 = (0..n).map(|i| weights[i] * biweight(0.6 - places[i])).sum();
        // the order of the sum: rounding
        assert_abs_diff_eq!(kernel_sum(&weights[..n], &places[..n], 0.6), law, epsilon = 1e-12);
    }
}

#[test]
fn a_value_that_does_not_depend_on_the_cause_gains_nothing() {
    let law = |p: f64| p;
    let (all, values) = circuits(300, &[&law, &law]);
    let bits = gain(&all, &values, 0.05, 2);
    // leaving a circuit out moves the shares by one in about 150
    assert!(bits < 1e-4, "{bits}");
    // nor does one that is the same for every circuit
    assert!(gain(&all, &vec![1.0; all.len()], 0.1, 2) < 1e-5);
}

#[test]
fn a_value_that_separates_equal_causes_gains_all_there_is() {
    let (near, far, farther) = (|p: f64| p, |p: f64| 100.0 + p, |p: f64| 200.0 + p);
    let (all, values) = circuits(20, &[&near, &far]);
    assert_abs_diff_eq!(gain(&all, &values, 0.2, 2), 1.0, epsilon = 1e-12); // rounding
    let (all, values) = circuits(20, &[&near, &far, &farther, &near]);
    // two of four are alike: log₂ 4 − ½ · 1 = 1.5
    // twenty circuits of each cause: our choice
    assert_abs_diff_eq!(gain(&all, &values, 0.2, 4), 1.5, epsilon = 1e-3);
}

#[test]
fn the_gain_from_two_gaussians_is_that_of_their_integral() {
    // means ±m, standard deviation s, standard uncertainty u, and the shortfall by the width of the kernel
    let cases = [(1.0, 1.0, 0.05, 0.002), (0.5, 1.0, 0.05, 0.002), (2.0, 1.0, 0.25, 0.020), (0.3, 0.1, 0.15, 0.466)];
    for (m, s, u, shortfall) in cases {
        let (plus, minus) = (|p: f64| m + s * normal_quantile(p), |p: f64| -m + s * normal_quantile(p));
        let (all, values) = circuits(1000, &[&plus, &minus]);
        let found = gain(&all, &values, u, 2);
        // what the method computes: values without noise, kernels of 2u
        let smoothed = integral(m, s, 2.0 * u);
        // the quantiles of 1000 circuits against the integral: our choice
        assert!(abs_diff_eq!(found, smoothed, epsilon = 1e-3), "{m} {s} {u}: {found} for {smoothed}");
        // what the instrument gains: values and posterior with its noise
        let law = integral(m, s.hypot(u), 0.0);
        // the shortfall is stated to three decimals
        assert!(
            abs_diff_eq!(law - found, shortfall, epsilon = 1e-3),
            "{m} {s} {u}: {found}, {} short of {law}",
            law - found
        );
    }
}

#[test]
fn a_lone_circuit_and_none_gain_nothing() {
    assert_eq!(expected_information_gain(&[], &[], &[], 1.0, 0), 0.0);
    let lone = [WeightedCircuit { cause: 0, index: 0, weight: 1.0 }];
    assert_eq!(gain(&lone, &[3.0], 1.0, 1), 0.0);
    // circuits of which none is near another teach nothing that could be relied on
    let (all, values) = circuits(1, &[&|_| 0.0, &|_| 1e9]);
    assert_eq!(gain(&all, &values, 1.0, 2), 0.0);
}

#[test]
fn resampling_draws_each_circuit_as_often_as_its_weight_asks() {
    let weights: Vec<f64> = (0..37).map(|i| point::<1>(3, i)[0]).collect();
    let all: Vec<WeightedCircuit> =
        weights.iter().enumerate().map(|(index, &weight)| WeightedCircuit { cause: 0, index, weight }).collect();
    let drawn = systematic_resample(&all, 100);
    let total: f64 = weights.iter().sum();
    assert_eq!(drawn.len(), 100);
    for (i, weight) in weights.iter().enumerate() {
        let (times, wanted) = (drawn.iter().filter(|&&j| j == i).count() as f64, 100.0 * weight / total);
        // a systematic draw rounds up or down
        assert!(abs_diff_eq!(times, wanted, epsilon = 1.0), "{i}: {times} for {wanted}");
    }
    // the steps are centred: a single draw is the median
    let one = |index, weight| WeightedCircuit { cause: 0, index, weight };
    assert_eq!(systematic_resample(&[one(0, 0.4), one(1, 0.2), one(2, 0.4)], 1), [1]);
    assert!(systematic_resample(&[], 10).is_empty());
    let nothing = [WeightedCircuit { cause: 0, index: 0, weight: 0.0 }];
    assert!(systematic_resample(&nothing, 10).is_empty());
}

#[test]
fn the_heaviest_circuits_are_kept_up_to_their_share() {
    let one = |cause, index, weight| WeightedCircuit { cause, index, weight };
    let kept = heaviest(vec![one(1, 0, 0.05), one(0, 0, 0.3), one(1, 1, 0.4), one(0, 1, 0.25)], 0.9);
    assert_eq!(kept, [one(0, 0, 0.3), one(0, 1, 0.25), one(1, 1, 0.4)]);
}

#[test]
fn predictions_begin_with_the_likeliest_cause_and_go_on_with_what_differs() {
    let one = |cause, index, weight| WeightedCircuit { cause, index, weight };
    // causes 1 (likeliest, 30 ± 1), 0 (the same, likelier than the next), 2 (far away), 3 (no circuits)
    let all = [one(0, 0, 0.1), one(0, 1, 0.1), one(1, 0, 0.3), one(1, 1, 0.3), one(2, 0, 0.15), one(2, 1, 0.05)];
    let found = predictions(&all, &[29.0, 31.0, 29.0, 31.0, 50.0, 54.0], &[0.3, 0.6, 0.1, 0.0], 0.5);
    assert_eq!(found.iter().map(|one| one.cause).collect::<Vec<_>>(), [1, 2, 0]);
    // mean (0.15 · 50 + 0.05 · 54)/0.2 = 51, variance (0.15 · 1 + 0.05 · 9)/0.2 = 3
    // rounding
    assert_abs_diff_eq!(found[1].mean, 51.0, epsilon = 1e-12);
    assert_abs_diff_eq!(found[1].standard_deviation, 3f64.sqrt(), epsilon = 1e-12);
    assert!(predictions(&[], &[], &[1.0], 0.5).is_empty());
}
