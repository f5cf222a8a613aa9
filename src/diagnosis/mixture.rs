//! Quantiles of a mixture of normal distributions, each truncated to 0 to 1.
//!
//! - **Equation** F(x) = Σ wᵢ (Φ((x − μᵢ)/σᵢ) − Φ(−μᵢ/σᵢ))/(Φ((1 − μᵢ)/σᵢ) − Φ(−μᵢ/σᵢ)) / Σ wᵢ.
//! - **Accuracy** a quantile within [`TOLERANCE`].
//! - **Limits** a component with less than 1e-9 of its probability inside counts as a point mass at the nearest end.

/// Width of the bracket at which the bisection ends; pages print sizes to whole percents; our choice.
const TOLERANCE: f64 = 1e-4;

/// Components of less weight are left out: they change no printed digit; our choice.
const LEAST_WEIGHT: f64 = 1e-6;

/// Least probability of a component inside the range for which its truncation is computed; our choice.
const LEAST_INSIDE: f64 = 1e-9;

/// A normal distribution truncated to 0 to 1.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct TruncatedNormal {
    /// μ and σ before truncation.
    pub(super) mean: f64,
    pub(super) standard_deviation: f64,
}

impl TruncatedNormal {
    /// Φ((x − μ)/σ): the distribution function before truncation.
    fn below(&self, x: f64) -> f64 {
        0.5 * libm::erfc((self.mean - x) / self.standard_deviation / std::f64::consts::SQRT_2)
    }
}

/// A weighted mixture of truncated normal distributions.
pub(super) struct Mixture {
    /// The component, its weight, and its distribution function at 0 and 1 before truncation.
    parts: Vec<(TruncatedNormal, f64, f64, f64)>,
    total: f64,
}

impl Mixture {
    /// The mixture of `components` with weights that add up to one; `None` if no weight is above [`LEAST_WEIGHT`].
    pub(super) fn new(components: impl Iterator<Item = (TruncatedNormal, f64)>) -> Option<Self> {
        let counting = components.filter(|(_, weight)| *weight > LEAST_WEIGHT);
        let parts: Vec<_> = counting.map(|(part, w)| (part, w, part.below(0.0), part.below(1.0))).collect();
        let total: f64 = parts.iter().map(|(_, w, ..)| w).sum();
        (total > 0.0).then_some(Self { parts, total })
    }

    /// F(x).
    fn cumulative(&self, x: f64) -> f64 {
        let each = self.parts.iter().map(|(part, w, from, to)| {
            let inside = to - from;
            w * if inside > LEAST_INSIDE { (part.below(x) - from) / inside } else { f64::from(x >= part.mean) }
        });
        each.sum::<f64>() / self.total
    }

    /// The x at which F(x) = `q`, by bisection: point masses at the ends make F jump, where a derivative is of no use.
    pub(super) fn quantile(&self, q: f64) -> f64 {
        let (mut from, mut to) = (0.0, 1.0);
        while to - from > TOLERANCE {
            let x = 0.5 * (from + to);
            if self.cumulative(x) < q { from = x } else { to = x }
        }
        0.5 * (from + to)
    }
}

#[cfg(test)]
mod tests {
    use approx::{abs_diff_eq, assert_abs_diff_eq};

    use super::*;

    fn mixture(parts: &[(f64, f64, f64)]) -> Mixture {
        let component =
            |&(mean, standard_deviation, w): &(f64, f64, f64)| (TruncatedNormal { mean, standard_deviation }, w);
        Mixture::new(parts.iter().map(component)).unwrap()
    }

    #[test]
    fn a_narrow_component_has_the_quantiles_of_the_normal_distribution() {
        let one = mixture(&[(0.5, 0.05, 1.0)]);
        // Φ⁻¹(0.05) = −1.644 854 (NIST/SEMATECH e-Handbook, 1.3.6.7.1, from memory)
        for (q, z) in [(0.05, -1.644_854), (0.5, 0.0), (0.95, 1.644_854)] {
            assert!(abs_diff_eq!(one.quantile(q), 0.5 + 0.05 * z, epsilon = TOLERANCE), "{q}: {}", one.quantile(q));
        }
    }

    #[test]
    fn a_component_far_wider_than_the_range_is_uniform() {
        let wide = mixture(&[(0.3, 1e4, 1.0)]);
        for q in [0.05, 0.5, 0.95] {
            assert!(abs_diff_eq!(wide.quantile(q), q, epsilon = TOLERANCE), "{q}: {}", wide.quantile(q));
        }
    }

    #[test]
    fn a_truncated_component_has_its_own_quantiles_not_those_of_the_whole() {
        // half of N(0, 0.1²): the median is Φ⁻¹(0.75) = 0.674 490 standard deviations up
        let half = mixture(&[(0.0, 0.1, 1.0)]);
        assert_abs_diff_eq!(half.quantile(0.5), 0.067_449, epsilon = TOLERANCE);
    }

    #[test]
    fn the_quantiles_of_a_mixture_invert_its_distribution_by_integration() {
        let parts = [(0.2, 0.08, 0.3), (0.7, 0.15, 0.5), (1.1, 0.2, 0.2)];
        let two = mixture(&parts);
        // the density itself, by the midpoint rule, each component normalised over the range
        let steps = 20_000;
        let density = |x: f64, (m, s, _): (f64, f64, f64)| (-0.5 * ((x - m) / s).powi(2)).exp();
        let x = |k: usize| (k as f64 + 0.5) / steps as f64;
        let totals = parts.map(|part| (0..steps).map(|k| density(x(k), part)).sum::<f64>());
        for q in [0.05, 0.3, 0.5, 0.95] {
            let (mut sum, mut k) = (0.0, 0);
            while sum < q {
                sum += parts.iter().zip(totals).map(|(part, total)| part.2 * density(x(k), *part) / total).sum::<f64>();
                k += 1;
            }
            assert!(abs_diff_eq!(two.quantile(q), x(k), epsilon = TOLERANCE), "{q}: {} for {}", two.quantile(q), x(k));
        }
    }

    #[test]
    fn a_component_outside_counts_as_a_point_at_its_end() {
        let both = mixture(&[(-9.0, 0.1, 0.5), (9.0, 0.1, 0.5)]);
        assert!(both.quantile(0.4) < TOLERANCE && both.quantile(0.6) > 1.0 - TOLERANCE);
        for far in [1e6, 1e150, f64::MAX] {
            assert!(mixture(&[(far, 0.1, 1.0)]).quantile(0.05) > 1.0 - TOLERANCE, "{far:e}");
        }
    }

    #[test]
    fn weights_of_nothing_make_no_mixture() {
        let part = TruncatedNormal { mean: 0.5, standard_deviation: 0.1 };
        assert!(Mixture::new(std::iter::empty()).is_none());
        assert!(Mixture::new([(part, 0.0), (part, f64::NAN)].into_iter()).is_none());
    }
}
