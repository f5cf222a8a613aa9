//! Quantiles of a mixture of normal distributions, each truncated to 0 to 1.
//!
//! - **Equation** F(x) = Σ wᵢ (Φ((x − μᵢ)/σᵢ) − Φ(−μᵢ/σᵢ))/(Φ((1 − μᵢ)/σᵢ) − Φ(−μᵢ/σᵢ)) / Σ wᵢ.
//! - **Accuracy** F within [`LEFT_OUT`], and the quantile of that within 1e-9 where no component is narrower than 1e-4.
//! - **Limits** a component with less than 1e-9 of its probability inside counts as a point mass at the nearest end.

use crate::numeric::sort_by_number;

/// The lightest components are left out as long as they have less weight than this together: they change no printed digit, as pages
/// print sizes to whole percents; our choice.
const LEFT_OUT: f64 = 1e-4;

/// Least probability of a component inside the range for which its truncation is computed; our choice.
const LEAST_INSIDE: f64 = 1e-9;

/// Step of the search for a quantile after which it ends: what is left is of the order of its cube over the variance of the narrowest
/// component; our choice.
const LAST_STEP: f64 = 1e-6;

/// Width of the bracket at which the search ends; our choice.
const NARROW: f64 = 1e-9;

/// Slope of the logistic distribution function that is nearest to Φ, within 0.01 (Johnson, Kotz & Balakrishnan, Continuous Univariate
/// Distributions 2, 1995, ch. 23; from memory).
const LOGISTIC: f64 = 1.702;

/// Standard deviation of what is spread evenly between 0 and 1: 1/√12, by definition.
pub(super) const SIZE_DEVIATION: f64 = 0.288_675_134_594_812_9;

/// A normal distribution truncated to 0 to 1.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct TruncatedNormal {
    /// μ and σ before truncation.
    pub(super) mean: f64,
    pub(super) standard_deviation: f64,
}

impl TruncatedNormal {
    /// Φ((x − μ)/σ) before truncation, or one less it with the sign changed where μ lies below the middle of the range: of a
    /// component far outside, differences keep their digits.
    fn tail(&self, x: f64) -> f64 {
        let side = if self.mean < 0.5 { -1.0 } else { 1.0 };
        side * 0.5 * libm::erfc(side * (self.mean - x) / self.standard_deviation / std::f64::consts::SQRT_2)
    }

    /// φ((x − μ)/σ)/σ: the density before truncation.
    fn density(&self, x: f64) -> f64 {
        let z = (x - self.mean) / self.standard_deviation;
        (-0.5 * z * z).exp() / (self.standard_deviation * std::f64::consts::TAU.sqrt())
    }
}

/// A component of a mixture.
struct Part {
    normal: TruncatedNormal,
    weight: f64,
    /// Its tail at 0, and how much of it lies between 0 and 1.
    from: f64,
    inside: f64,
}

impl Part {
    fn new(normal: TruncatedNormal, weight: f64) -> Self {
        let from = normal.tail(0.0);
        Self { normal, weight, from, inside: normal.tail(1.0) - from }
    }

    /// Whether it counts as a point mass.
    fn is_point(&self) -> bool {
        self.inside <= LEAST_INSIDE
    }

    /// Its share of the distribution function at `x`, with its first and second derivative.
    fn cumulative(&self, x: f64) -> [f64; 3] {
        if self.is_point() {
            return [self.weight * f64::from(x >= self.normal.mean), 0.0, 0.0];
        }
        let TruncatedNormal { mean, standard_deviation } = self.normal;
        let share = self.weight / self.inside;
        let density = share * self.normal.density(x);
        let steepness = (mean - x) / (standard_deviation * standard_deviation);
        [share * (self.normal.tail(x) - self.from), density, density * steepness]
    }
}

/// A weighted mixture of truncated normal distributions.
pub(super) struct Mixture {
    parts: Vec<Part>,
    total: f64,
}

impl Mixture {
    /// The mixture of `components` with weights that add up to one; `None` if there is no weight.
    pub(super) fn new(components: impl Iterator<Item = (TruncatedNormal, f64)>) -> Option<Self> {
        let mut components: Vec<_> = components.filter(|(_, weight)| *weight > 0.0).collect();
        sort_by_number(&mut components, |(_, weight)| *weight);
        let mut lighter = 0.0;
        let kept = components.into_iter().skip_while(|(_, weight)| {
            lighter += weight;
            lighter < LEFT_OUT
        });
        let parts: Vec<Part> = kept.map(|(normal, weight)| Part::new(normal, weight)).collect();
        let total: f64 = parts.iter().map(|part| part.weight).sum();
        (total > 0.0).then_some(Self { parts, total })
    }

    /// F(x), F′(x) and F″(x).
    fn cumulative(&self, x: f64) -> [f64; 3] {
        let add = |[f, p, s]: [f64; 3], part: &Part| {
            let [df, dp, ds] = part.cumulative(x);
            [f + df, p + dp, s + ds]
        };
        self.parts.iter().fold([0.0; 3], add).map(|sum| sum / self.total)
    }

    /// Share of the weight that lies at an end as point masses whose mean is `beyond` it.
    fn at_end(&self, beyond: impl Fn(f64) -> bool) -> f64 {
        let there = self.parts.iter().filter(|part| part.is_point() && beyond(part.normal.mean));
        there.map(|part| part.weight).sum::<f64>() / self.total
    }

    /// Where the search begins: the quantile of the logistic distribution with the mean and the variance of the components.
    fn first_guess(&self, q: f64) -> f64 {
        let mean_of = |of: &dyn Fn(f64, f64) -> f64| {
            let each = |part: &Part| {
                part.weight * of(part.normal.mean.clamp(0.0, 1.0), part.normal.standard_deviation.min(SIZE_DEVIATION))
            };
            self.parts.iter().map(each).sum::<f64>() / self.total
        };
        let mean = mean_of(&|mean, _| mean);
        let variance = mean_of(&|part, deviation| (part - mean).powi(2) + deviation * deviation);
        (mean + variance.sqrt() / LOGISTIC * (q / (1.0 - q)).ln()).clamp(0.0, 1.0)
    }

    /// The x at which F(x) = `q`, which lies between 0 and 1; an end where so much of the weight lies at it.
    ///
    /// Halley's method in a bracket that every third step halves: narrow components are steps in F, between which its slope leads back
    /// and forth.
    pub(super) fn quantile(&self, q: f64) -> f64 {
        if self.at_end(|mean| mean <= 0.0) >= q {
            return 0.0;
        }
        if 1.0 - self.at_end(|mean| mean > 1.0) <= q {
            return 1.0;
        }
        let (mut low, mut high) = (0.0, 1.0);
        let mut x = self.first_guess(q);
        for step in 1.. {
            let [cumulative, density, steepness] = self.cumulative(x);
            let short = cumulative - q;
            if short < 0.0 {
                low = x
            } else {
                high = x
            }
            let halley = x - 2.0 * short * density / (2.0 * density * density - short * steepness);
            let is_inside = low <= halley && halley <= high;
            if is_inside && (halley - x).abs() <= LAST_STEP {
                return halley;
            }
            if high - low <= NARROW {
                break;
            }
            x = if is_inside && step % 3 != 0 { halley } else { 0.5 * (low + high) };
        }
        0.5 * (low + high)
    }
}

#[cfg(test)]
mod tests {
    use approx::assert_abs_diff_eq;

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
            assert_abs_diff_eq!(one.quantile(q), 0.5 + 0.05 * z, epsilon = 1e-7); // the digits of z
        }
    }

    #[test]
    fn a_component_far_wider_than_the_range_is_uniform() {
        let wide = mixture(&[(0.3, 1e4, 1.0)]);
        for q in [0.05, 0.5, 0.95] {
            // one part in (1e4)² of curvature
            assert_abs_diff_eq!(wide.quantile(q), q, epsilon = 1e-7);
        }
    }

    #[test]
    fn a_truncated_component_has_its_own_quantiles_not_those_of_the_whole() {
        // half of N(0, 0.1²): the median is Φ⁻¹(0.75) = 0.674 490 standard deviations up
        let half = mixture(&[(0.0, 0.1, 1.0)]);
        assert_abs_diff_eq!(half.quantile(0.5), 0.067_449, epsilon = 1e-6); // its digits
    }

    /// The last two lie five and a half deviations outside, where distribution functions from below end in nines.
    #[test]
    fn the_quantiles_of_a_mixture_invert_its_distribution_by_integration() {
        let three = [(0.2, 0.08, 0.3), (0.7, 0.15, 0.5), (1.1, 0.2, 0.2)];
        for parts in [&three[..], &[(-5.5, 1.0, 1.0)], &[(6.5, 1.0, 1.0)]] {
            let found = mixture(parts);
            // the density itself, by the midpoint rule, each component normalised over the range
            let steps = 20_000;
            let density = |x: f64, (m, s, _): (f64, f64, f64)| (-0.5 * ((x - m) / s).powi(2)).exp();
            let x = |k: usize| (k as f64 + 0.5) / steps as f64;
            let total = |part: &(f64, f64, f64)| (0..steps).map(|k| density(x(k), *part)).sum::<f64>();
            let totals: Vec<f64> = parts.iter().map(total).collect();
            for q in [0.05, 0.3, 0.5, 0.95] {
                let (mut sum, mut k) = (0.0, 0);
                while sum < q {
                    let each = parts.iter().zip(&totals).map(|(part, total)| part.2 * density(x(k), *part) / total);
                    sum += each.sum::<f64>();
                    k += 1;
                }
                assert_abs_diff_eq!(found.quantile(q), x(k), epsilon = 2.0 / steps as f64); // two steps of the rule
            }
        }
    }

    /// Two steps and next to nothing between them, where Newton's method alone goes back and forth.
    #[test]
    fn narrow_components_are_steps_that_end_the_search() {
        let steps = mixture(&[(0.3, 1e-6, 0.5), (0.5, 0.4, 0.02), (0.7, 1e-6, 0.48)]);
        for (q, at) in [(0.1, 0.3), (0.5, 0.3), (0.6, 0.7), (0.9, 0.7)] {
            assert_abs_diff_eq!(steps.quantile(q), at, epsilon = 1e-5); // ten standard deviations
        }
    }

    #[test]
    fn a_component_outside_counts_as_a_point_at_its_end() {
        let both = mixture(&[(-9.0, 0.1, 0.5), (9.0, 0.1, 0.5)]);
        assert_eq!([0.4, 0.6].map(|q| both.quantile(q)), [0.0, 1.0]);
        for far in [1e6, 1e150, f64::MAX] {
            assert_eq!(mixture(&[(far, 0.1, 1.0)]).quantile(0.05), 1.0, "{far:e}");
        }
    }

    #[test]
    fn weights_of_nothing_make_no_mixture() {
        let part = TruncatedNormal { mean: 0.5, standard_deviation: 0.1 };
        assert!(Mixture::new(std::iter::empty()).is_none());
        assert!(Mixture::new([(part, 0.0), (part, f64::NAN)].into_iter()).is_none());
    }
}
