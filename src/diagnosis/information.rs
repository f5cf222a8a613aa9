//! Expected information gain of a measurement not made yet.
//!
//! - **Equation** G = H(C) − E_v[H(C | v)], the mutual information of cause C and value v in bits, H(C) = −Σ P(c) log₂ P(c)
//!   (Lindley, Ann. Math. Statist. 27 (1956) 986; from memory).
//! - **Method** the expectation runs over circuits resampled systematically by their posterior weights (Kitagawa, J. Comput. Graph.
//!   Statist. 5 (1996) 1; from memory). At the value of each, every other circuit has its weight times the biweight kernel of the
//!   difference (Silverman, Density Estimation, 1986, table 3.1; from memory), whose standard deviation is twice the standard
//!   uncertainty of the instrument: one part for the instrument, the rest to smooth the sample; our choice. It is zero beyond 2.6
//!   standard deviations, and needs no exponential.
//! - **Limits** the gain is underestimated, as the kernel is wider than the instrument: two equally likely Gaussians at ±2 standard
//!   deviations give 0.88 bits in place of 0.90 with an uncertainty of a quarter of a standard deviation, but at ±3 give 0.36 in
//!   place of 0.82 with one of one and a half (a unit test holds both). Noise of the sample can make it negative; it is then zero.

use std::ops::Range;

/// A simulated circuit with its share of the posterior.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct WeightedCircuit {
    /// Index of the cause it has.
    pub(super) cause: usize,
    /// Index among the circuits of that cause.
    pub(super) index: usize,
    /// Posterior probability of cause and circuit.
    pub(super) weight: f64,
}

/// What the circuits of one cause would read.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Prediction {
    /// Index of the cause.
    pub(super) cause: usize,
    /// Weighted mean.
    pub(super) mean: f64,
    /// Weighted standard deviation.
    pub(super) standard_deviation: f64,
}

/// The fewest circuits that together hold `share` of the probability: ordered by cause, and by falling weight within it.
pub(super) fn heaviest(mut circuits: Vec<WeightedCircuit>, share: f64) -> Vec<WeightedCircuit> {
    circuits.sort_by(|a, b| b.weight.total_cmp(&a.weight));
    let mut sum = 0.0;
    let kept = circuits.iter().take_while(|circuit| {
        let before = sum;
        sum += circuit.weight;
        before < share
    });
    circuits.truncate(kept.count());
    circuits.sort_by_key(|circuit| circuit.cause);
    circuits
}

/// Indices of `draws` circuits at equal steps of the cumulative weight; empty if the weights sum to zero.
///
/// Systematic resampling: a circuit of weight w is drawn ⌊w n⌋ or ⌈w n⌉ times, w over the sum of the weights.
pub(super) fn systematic_resample(circuits: &[WeightedCircuit], draws: usize) -> Vec<usize> {
    let total: f64 = circuits.iter().map(|circuit| circuit.weight).sum();
    let (mut place, mut sum) = (0, circuits.first().map_or(0.0, |circuit| circuit.weight));
    (0..if total > 0.0 { draws } else { 0 })
        .map(|k| {
            let wanted = (k as f64 + 0.5) / draws as f64 * total;
            while sum < wanted && place + 1 < circuits.len() {
                place += 1;
                sum += circuits[place].weight;
            }
            place
        })
        .collect()
}

/// −Σ p log₂ p of `weights`, over their sum; zero if they sum to zero.
fn entropy(weights: &[f64]) -> f64 {
    let total: f64 = weights.iter().sum();
    -weights.iter().filter(|w| **w > 0.0).map(|w| w / total * (w / total).log2()).sum::<f64>()
}

/// One over the variance of the biweight kernel between −1 and 1, by definition of the kernel.
const BIWEIGHT: f64 = 7.0;

/// The biweight kernel (1 − t²)², whose variance over z = √7 t is one; not normalised.
fn biweight(t: f64) -> f64 {
    let inside = (1.0 - t * t).max(0.0);
    inside * inside
}

/// Number of sums that run side by side, so that none waits for the one before; our choice.
const LANES: usize = 4;

/// Σ wᵢ K(x − tᵢ) over circuits of these `weights` at these `places`, in widths of the kernel.
fn kernel_sum(weights: &[f64], places: &[f64], x: f64) -> f64 {
    let (weights, last_weights) = weights.as_chunks::<LANES>();
    let (places, last_places) = places.as_chunks::<LANES>();
    let mut sums = [0.0; LANES];
    for (weights, places) in weights.iter().zip(places) {
        for k in 0..LANES {
            sums[k] += weights[k] * biweight(x - places[k]);
        }
    }
    let last = last_weights.iter().zip(last_places).map(|(weight, place)| weight * biweight(x - place));
    sums.into_iter().chain(last).sum()
}

/// Expected fall of the entropy over `causes` causes, in bits, when the value becomes known within `standard_uncertainty`.
///
/// `values` are those of `circuits`, `resampled` the indices from [`systematic_resample`].
pub(super) fn expected_information_gain(
    circuits: &[WeightedCircuit],
    values: &[f64],
    resampled: &[usize],
    standard_uncertainty: f64,
    causes: usize,
) -> f64 {
    if resampled.is_empty() {
        return 0.0;
    }
    let mut prior = vec![0.0; causes];
    circuits.iter().for_each(|circuit| prior[circuit.cause] += circuit.weight);
    let weights: Vec<f64> = circuits.iter().map(|circuit| circuit.weight).collect();
    let width = 2.0 * standard_uncertainty * BIWEIGHT.sqrt();
    let places: Vec<f64> = values.iter().map(|value| value / width).collect();
    let mut ends = 0;
    let of_cause: Vec<(usize, Range<usize>)> = circuits
        .chunk_by(|one, next| one.cause == next.cause)
        .map(|own| {
            let from = ends;
            ends += own.len();
            (own[0].cause, from..ends)
        })
        .collect();
    // a circuit drawn several times counts as often
    let left = |same: &[usize]| {
        let i = same[0];
        let near = |range: Range<usize>| kernel_sum(&weights[range.clone()], &places[range], places[i]);
        let mut posterior = vec![0.0; causes];
        for (cause, own) in &of_cause {
            // leave-one-out: a circuit compared with itself would find its own cause
            let is_own = own.contains(&i);
            posterior[*cause] += if is_own { near(own.start..i) + near(i + 1..own.end) } else { near(own.clone()) };
        }
        // no other circuit is near: the posterior is unknown, and no gain is claimed
        let is_unknown = posterior.iter().all(|w| *w <= 0.0);
        same.len() as f64 * entropy(if is_unknown { &prior } else { &posterior })
    };
    let left = resampled.chunk_by(|one, next| one == next).map(left).sum::<f64>();
    (entropy(&prior) - left / resampled.len() as f64).max(0.0)
}

/// Predicted values of the likeliest cause, then of the others, ordered by how probable and how different they are.
///
/// `probabilities` are those of the causes. The order is that of the probability times 1 − exp(−z²/2), with z the difference of
/// the means over the root sum of squares of both standard deviations and `standard_uncertainty`. Causes without circuits are
/// left out.
pub(super) fn predictions(
    circuits: &[WeightedCircuit],
    values: &[f64],
    probabilities: &[f64],
    standard_uncertainty: f64,
) -> Vec<Prediction> {
    let of_cause = |cause: usize| {
        let own: Vec<(f64, f64)> = circuits
            .iter()
            .zip(values)
            .filter(|(c, _)| c.cause == cause)
            .map(|(c, value)| (c.weight, *value))
            .collect();
        let total: f64 = own.iter().map(|(weight, _)| weight).sum();
        if total <= 0.0 {
            return None;
        }
        let mean = own.iter().map(|(weight, value)| weight * value).sum::<f64>() / total;
        let variance = own.iter().map(|(weight, value)| weight * (value - mean).powi(2)).sum::<f64>() / total;
        Some(Prediction { cause, mean, standard_deviation: variance.sqrt() })
    };
    let mut found: Vec<Prediction> = (0..probabilities.len()).filter_map(of_cause).collect();
    found.sort_by(|a, b| probabilities[b.cause].total_cmp(&probabilities[a.cause]));
    if let Some(&first) = found.first() {
        let contrast = |other: &Prediction| {
            let deviation = first.standard_deviation.hypot(other.standard_deviation).hypot(standard_uncertainty);
            let z = (other.mean - first.mean) / deviation;
            probabilities[other.cause] * (1.0 - (-0.5 * z * z).exp())
        };
        found[1..].sort_by(|a, b| contrast(b).total_cmp(&contrast(a)));
    }
    found
}

#[cfg(test)]
mod tests {
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
        let smoothed =
            |v: f64| nodes.iter().map(|z| biweight(z / BIWEIGHT.sqrt()) * density(v + blur * z)).sum::<f64>();
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
        let cases =
            [(1.0, 1.0, 0.05, 0.002), (0.5, 1.0, 0.05, 0.002), (2.0, 1.0, 0.25, 0.020), (0.3, 0.1, 0.15, 0.466)];
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
}
