//! Identification of a refrigerant by the equalised (static) pressure of a circuit: every one of the catalogue, ranked.
//!
//! Equalised, with liquid inside, a pure refrigerant obeys one line of pressure against temperature. Pairs read on different
//! days or after warming distinguish lines that cross or lie close. They never prove a name: a mixture of one
//! refrigerant with a lower line and one with a higher line can show the same pressures, and so can one with a lower
//! line and air.

use super::non_condensables::saturation;
use super::{StaticReading, validate};
use crate::numeric::{chi_squared, sort_by_number};
use crate::{Error, PressureDifference, Quantity, Ratio, Refrigerant, TemperatureDifference};

/// Significance level: a refrigerant with a smaller p-value is not called possible. Our choice, the customary 5 %.
pub const SIGNIFICANCE: Ratio = Ratio::from_percent(5.0);

/// Common uncertainties of pressure and temperature, zero, if every pair has instruments of its own.
pub const INDEPENDENT: (PressureDifference, TemperatureDifference) =
    (PressureDifference::from_pa(0.0), TemperatureDifference::from_kelvins(0.0));

/// Fit of one refrigerant to the pairs of pressure and temperature.
#[doc(hidden)]
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub struct RefrigerantCandidate {
    /// Refrigerant that was compared.
    pub refrigerant: Refrigerant,
    /// χ²: squared deviations over their variances; about as many as there are pairs are to be expected.
    pub chi_squared: f64,
    /// p-value: the probability of deviations at least as large, were it this refrigerant.
    pub p_value: Ratio,
    /// Posterior probability among all that were compared, with equal priors: how it compares with the others, not
    /// whether it is inside.
    pub posterior: Ratio,
    /// Mean of pressure read minus saturation.
    pub above: PressureDifference,
}

impl RefrigerantCandidate {
    /// Whether the deviations are no rarer than [`SIGNIFICANCE`].
    pub fn is_possible(&self) -> bool {
        self.p_value >= SIGNIFICANCE
    }
}

/// Every refrigerant of the catalogue compared with pairs of pressure and temperature, ranked by fit.
///
/// ```
/// use satline::service::identify::{INDEPENDENT, RefrigerantIdentification};
/// use satline::service::StaticReading;
/// use satline::{Measured, Pressure, PressureDifference, Refrigerant, Temperature, TemperatureDifference};
/// let pair = |bar, celsius| -> Result<StaticReading, satline::Error> {
///     Ok(StaticReading {
///         pressure: Measured::new(Pressure::from_bar(bar), PressureDifference::from_bar(0.05))?,
///         temperature: Measured::new(Temperature::from_celsius(celsius), TemperatureDifference::from_kelvins(0.5))?,
///     })
/// };
/// // near 20 °C the lines of R-134a and R-12 cross: one pair there cannot tell them apart
/// let possible = |ranking: &RefrigerantIdentification| ranking.possible().map(|fit| fit.refrigerant).collect::<Vec<_>>();
/// assert_eq!(possible(&RefrigerantIdentification::of(&[pair(5.72, 20.0)?], INDEPENDENT)?), [Refrigerant::R134a, Refrigerant::R12]);
/// // a second pair, on a morning of -15 °C, can
/// let ranking = RefrigerantIdentification::of(&[pair(5.72, 20.0)?, pair(1.64, -15.0)?], INDEPENDENT)?;
/// assert_eq!(possible(&ranking), [Refrigerant::R134a]);
/// // and a mixture can always look the same
/// assert!(ranking.mixture_possible());
/// # Ok::<(), satline::Error>(())
/// ```
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub struct RefrigerantIdentification {
    /// Refrigerants that were compared, the best fit first.
    pub candidates: Vec<RefrigerantCandidate>,
    /// Refrigerants that have no saturation pressure at one of the temperatures, and why.
    pub not_compared: Vec<(Refrigerant, Error)>,
    /// Refrigerants with every pair above their line: with air, or with one of `higher`, they could show it too.
    pub lower: Vec<Refrigerant>,
    /// Refrigerants with every pair below their line.
    pub higher: Vec<Refrigerant>,
}

impl RefrigerantIdentification {
    /// Ranks [`Refrigerant::ALL`] by fit to `pairs`; `common` are the standard uncertainties that all pairs share, as
    /// of the gauge's zero, the barometer and the thermometer ([`INDEPENDENT`] if every pair has instruments of its
    /// own).
    ///
    /// - **Equation** χ² = rᵀ Σ⁻¹ r, rᵢ = pᵢ − p_sat(Tᵢ), Σ = diag(u_p² + (u_T dp/dT)² + u_blend²) + what is shared, by Σᵢⱼ =
    ///   s_p² + s_T² (dp/dT)ᵢ (dp/dT)ⱼ; posterior ∝ e^(−χ²/2)/√|Σ|.
    /// - **Range** saturation lines of each refrigerant.
    /// - **Uncertainty** of a blend half the distance of its lines, as a limit of error.
    ///
    /// # Errors
    /// [`Error::TooFew`] without a pair; [`Error::Impossible`] for a pair whose pressure and temperature are both taken as
    /// exact, or whose pressure is not above zero, and for a common uncertainty below zero; [`Error::NotFinite`]; the error of the first refrigerant when none can be compared.
    pub fn of(pairs: &[StaticReading], common: (PressureDifference, TemperatureDifference)) -> Result<Self, Error> {
        check(pairs, common)?;
        let mut weighed = Vec::new();
        let mut not_compared = Vec::new();
        let (mut lower, mut higher) = (Vec::new(), Vec::new());
        for &refrigerant in Refrigerant::ALL {
            match deviations(refrigerant, pairs) {
                Ok(deviations) => {
                    if deviations.iter().all(|deviation| deviation.above > 0.0) {
                        lower.push(refrigerant);
                    }
                    if deviations.iter().all(|deviation| deviation.above < 0.0) {
                        higher.push(refrigerant);
                    }
                    weighed.push((refrigerant, Weighed::of(&deviations, common)?));
                }
                Err(error) => not_compared.push((refrigerant, error)),
            }
        }
        if weighed.is_empty()
            && let Some((_, error)) = not_compared.first()
        {
            return Err(error.clone());
        }
        let best = weighed.iter().map(|(_, weighed)| weighed.log_likelihood).fold(f64::NEG_INFINITY, f64::max);
        let all: f64 = weighed.iter().map(|(_, weighed)| (weighed.log_likelihood - best).exp()).sum();
        let mut candidates: Vec<RefrigerantCandidate> = weighed
            .into_iter()
            .map(|(refrigerant, weighed)| RefrigerantCandidate {
                refrigerant,
                chi_squared: weighed.chi_squared,
                p_value: Ratio::from_fraction(chi_squared::chance_above(weighed.chi_squared, pairs.len())),
                posterior: Ratio::from_fraction((weighed.log_likelihood - best).exp() / all),
                above: PressureDifference::from_pa(weighed.mean),
            })
            .collect();
        // the least misfit first where probabilities are equal
        sort_by_number(&mut candidates, |one| one.chi_squared);
        sort_by_number(&mut candidates, |one| -one.posterior.si());
        Ok(Self { candidates, not_compared, lower, higher })
    }

    /// Refrigerants that fit: their deviations are no rarer than [`SIGNIFICANCE`].
    pub fn possible(&self) -> impl Iterator<Item = &RefrigerantCandidate> {
        self.candidates.iter().filter(|candidate| candidate.is_possible())
    }

    /// Whether a mixture of two refrigerants of the catalogue could show these pressures: one with a lower line and one with
    /// a higher line, in some proportion.
    pub fn mixture_possible(&self) -> bool {
        !self.lower.is_empty() && (!self.higher.is_empty() || !self.not_compared.is_empty())
    }
}

/// Refuses pairs that cannot be compared at all.
fn check(
    pairs: &[StaticReading],
    (pressure, temperature): (PressureDifference, TemperatureDifference),
) -> Result<(), Error> {
    validate::not_negative("common standard uncertainty of the pressures (kPa)", pressure)?;
    validate::not_negative("common standard uncertainty of the temperatures (K)", temperature)?;
    if pairs.is_empty() {
        return Err(Error::TooFew {
            what: "pairs of pressure and temperature",
            found: 0,
            needed: 1,
            way_out: "read both with the circuit at rest; pairs at two temperatures tell more than two at one",
        });
    }
    for (i, pair) in pairs.iter().enumerate() {
        let place = || format!("pair {}", i + 1);
        if pair.pressure.value().pa() <= 0.0 {
            let value = pair.pressure.value().kpa();
            let error = Error::Impossible { what: "absolute pressure (kPa)", value, must: "above zero" };
            return Err(error.about(place()));
        }
        if pair.pressure.standard_uncertainty().si() == 0.0 && pair.temperature.standard_uncertainty().si() == 0.0 {
            let error = Error::Impossible {
                what: "standard uncertainty of pressure and temperature",
                value: 0.0,
                must: "above zero for one of them: no instrument is exact",
            };
            return Err(error.about(place()));
        }
    }
    Ok(())
}

/// One pair beside the line of a refrigerant.
struct Deviation {
    /// Pressure read minus saturation, Pa.
    above: f64,
    /// Of this pair alone, Pa².
    variance: f64,
    /// Slope of the line, Pa/K.
    slope: f64,
}

fn deviations(refrigerant: Refrigerant, pairs: &[StaticReading]) -> Result<Vec<Deviation>, Error> {
    pairs
        .iter()
        .map(|pair| {
            let (line, slope, between) = saturation(refrigerant, pair.temperature.value())?;
            let u_t = slope * pair.temperature.standard_uncertainty().kelvins();
            Ok(Deviation {
                above: (pair.pressure.value() - line).pa(),
                variance: pair.pressure.standard_uncertainty().pa().powi(2) + u_t * u_t + between.pa().powi(2),
                slope,
            })
        })
        .collect()
}

/// χ² and the logarithm of the likelihood.
struct Weighed {
    chi_squared: f64,
    log_likelihood: f64,
    mean: f64,
}

impl Weighed {
    /// Σ = D + Z Zᵀ, the two columns of Z being s_p and s_T dp/dT: by Woodbury χ² = rᵀD⁻¹r − hᵀA⁻¹h and |Σ| = |D||A|, with
    /// A = 1 + ZᵀD⁻¹Z and h = ZᵀD⁻¹r.
    ///
    /// # Errors
    /// [`Error::NotFinite`] for uncertainties too small or too large to be squared.
    fn of(deviations: &[Deviation], common: (PressureDifference, TemperatureDifference)) -> Result<Self, Error> {
        let (s_p, s_t) = (common.0.pa(), common.1.kelvins());
        let mut a = [1.0, 0.0, 1.0];
        let (mut h, mut squares, mut logarithms) = ([0.0, 0.0], 0.0, 0.0);
        for Deviation { above, variance, slope } in deviations {
            let z = [s_p, s_t * slope];
            a[0] += z[0] * z[0] / variance;
            a[1] += z[0] * z[1] / variance;
            a[2] += z[1] * z[1] / variance;
            h[0] += z[0] * above / variance;
            h[1] += z[1] * above / variance;
            squares += above * above / variance;
            logarithms += variance.ln();
        }
        let determinant = a[0] * a[2] - a[1] * a[1];
        let explained = (a[2] * h[0] * h[0] - 2.0 * a[1] * h[0] * h[1] + a[0] * h[1] * h[1]) / determinant;
        let chi_squared = (squares - explained).max(0.0);
        let mean = deviations.iter().map(|deviation| deviation.above).sum::<f64>() / deviations.len() as f64;
        let log_likelihood = -0.5 * (chi_squared + logarithms + determinant.ln());
        if ![explained, log_likelihood, mean].into_iter().all(f64::is_finite) {
            let what = "likelihood of the pairs: a standard uncertainty is too small or too large";
            return Err(Error::NotFinite { what, text: log_likelihood.to_string() });
        }
        Ok(Self { chi_squared, log_likelihood, mean })
    }
}

#[cfg(test)]
mod tests {
    use approx::{abs_diff_eq, assert_abs_diff_eq};

    use super::*;

    #[test]
    fn what_is_shared_counts_as_the_full_matrix_says() {
        // two pairs, 100 and 300 Pa off, alone 50 and 80 Pa, shared 100 Pa and 0.5 K on slopes of 20 and 30 Pa/K, by hand:
        // Σ = [[2500+10000+100, 10000+150], [10000+150, 6400+10000+225]]
        let deviations = [
            Deviation { above: 100.0, variance: 2500.0, slope: 20.0 },
            Deviation { above: 300.0, variance: 6400.0, slope: 30.0 },
        ];
        let shared = (PressureDifference::from_pa(100.0), TemperatureDifference::from_kelvins(0.5));
        let (a, b, d) = (12_600.0, 10_150.0, 16_625.0);
        let determinant: f64 = a * d - b * b;
        let by_hand = (d * 1e4 - 2.0 * b * 3e4 + a * 9e4) / determinant;
        let weighed = Weighed::of(&deviations, shared).unwrap();
        // rounding
        assert!(abs_diff_eq!(weighed.chi_squared / by_hand, 1.0, epsilon = 1e-12), "{} {by_hand}", weighed.chi_squared);
        let likelihood = -0.5 * (by_hand + determinant.ln());
        assert_abs_diff_eq!(weighed.log_likelihood, likelihood, epsilon = 1e-12); // rounding
    }
}
