//! A value with its standard uncertainty.

use super::text::{Decimal, LARGEST, padded};
use super::{K95, Quantity, Range, SQRT_3, Unit, normal};
use crate::Error;
#[cfg(not(feature = "std"))]
use crate::float::Float as _;

/// Measured value: best estimate and standard uncertainty.
///
/// Uncertainties are standard deviations and are taken as normal and independent unless a function says otherwise
/// (law of propagation: JCGM 100:2008, 5.1.2). Printed intervals are 95 %, 1.96 standard uncertainties.
///
/// ```
/// use approx::assert_abs_diff_eq;
/// use satline::{Measured, Temperature, TemperatureDifference};
/// let suction = Measured::new(Temperature::from_celsius(8.0), TemperatureDifference::from_kelvins(0.9))?;
/// assert_abs_diff_eq!(suction.expanded().kelvins(), 1.764, epsilon = 1e-3); // 1.96 × 0.9, to its last digit
/// assert!(Measured::new(Temperature::from_celsius(8.0), TemperatureDifference::from_kelvins(-1.0)).is_err());
/// # Ok::<(), satline::Error>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(
    feature = "serde",
    serde(
        try_from = "Unchecked<Q>",
        bound = "Q: serde::Serialize + serde::de::DeserializeOwned, Q::Difference: serde::Serialize + serde::de::DeserializeOwned"
    )
)]
pub struct Measured<Q: Quantity> {
    value: Q,
    standard: Q::Difference,
}

/// Quantity whose standard uncertainties combine as the root of the sum of their squares.
pub trait Uncertainty: Quantity {
    /// Combined standard uncertainty of independent contributions, u² = Σ uᵢ² (JCGM 100:2008, equation 10).
    fn combine(parts: &[Self]) -> Self {
        Self::from_si(parts.iter().fold(0.0, |sum, part| part.si().hypot(sum)))
    }
}

impl<Q: Quantity> Uncertainty for Q {}

impl<Q: Quantity> Measured<Q> {
    /// Measured value from its best estimate and standard uncertainty.
    ///
    /// # Errors
    /// [`Error::NotFinite`] for a value that is not a finite number; [`Error::Impossible`] for an uncertainty that is
    /// negative or not finite; [`Error::BeyondArithmetic`] where either is above 10¹⁵⁰ in SI units, where squares overflow.
    pub fn new(value: Q, standard: Q::Difference) -> Result<Self, Error> {
        if !value.si().is_finite() {
            return Err(Error::not_finite(Q::NAME, value.si()));
        }
        if !(standard.si() >= 0.0 && standard.si().is_finite()) {
            return Err(Error::Impossible {
                what: "standard uncertainty",
                value: standard.si(),
                must: "a finite number, zero or more",
            });
        }
        if let Some(size) = [value.si().abs(), standard.si()].into_iter().find(|&size| size > LARGEST) {
            #[cfg(feature = "std")]
            let text = format!("{size:e}");
            #[cfg(not(feature = "std"))]
            let text = if size == standard.si() { "the standard uncertainty" } else { "the value" };
            return Err(Error::BeyondArithmetic { what: Q::NAME, text, smallest: 0.0, largest: LARGEST });
        }
        Ok(Self { value, standard })
    }

    /// Measured value that lies within `limit` of the truth, all of that alike: a rectangular distribution with the standard
    /// uncertainty limit/√3 (JCGM 100:2008, 4.3.7).
    ///
    /// # Errors
    /// As [`Measured::new`].
    pub fn within(value: Q, limit: Q::Difference) -> Result<Self, Error> {
        Self::new(value, Q::Difference::from_si(limit.si() / SQRT_3))
    }

    /// Result computed from values that [`Measured::new`] accepted; it may be a little larger than the limit there.
    pub(crate) fn derived(value: Q, standard: Q::Difference) -> Option<Self> {
        (value.si().is_finite() && standard.si() >= 0.0 && standard.si().is_finite())
            .then_some(Self { value, standard })
    }

    /// Value taken as exact, with a standard uncertainty of zero.
    ///
    /// # Errors
    /// [`Error::NotFinite`] for a value that is not a finite number.
    pub fn exact(value: Q) -> Result<Self, Error> {
        Self::new(value, Q::Difference::from_si(0.0))
    }

    /// Best estimate of the value.
    pub fn value(&self) -> Q {
        self.value
    }

    /// Standard uncertainty of the value.
    pub fn standard_uncertainty(&self) -> Q::Difference {
        self.standard
    }

    /// Expanded uncertainty: half the width of the 95 % interval.
    pub fn expanded(&self) -> Q::Difference {
        Q::Difference::from_si(K95 * self.standard.si())
    }

    /// Probability that the true value lies below `limit`.
    ///
    /// Φ((limit − value)/u); with no uncertainty, 0 or 1. The probability is 0 for a limit that is not a number.
    pub fn probability_below(&self, limit: Q) -> f64 {
        let distance = limit.si() - self.value.si();
        if self.standard.si() == 0.0 {
            return if distance > 0.0 { 1.0 } else { 0.0 };
        }
        normal::cdf(distance / self.standard.si())
    }

    /// Probabilities that the true value lies below, within and above `range`; an empty range is taken as its lower
    /// end.
    ///
    /// ```
    /// use approx::assert_abs_diff_eq;
    /// use satline::{GaugePressure, Measured, PressureDifference, Range};
    /// let reading = Measured::new(GaugePressure::from_kpa(200.0), PressureDifference::from_kpa(10.0))?;
    /// let [below, within, above] =
    ///     reading.probabilities(&Range::new(GaugePressure::from_kpa(150.0), GaugePressure::from_kpa(200.0)));
    /// // five standard uncertainties leave 3e-7
    /// assert!(below < 1e-6);
    /// assert_abs_diff_eq!(within, 0.5, epsilon = 1e-6);
    /// assert_abs_diff_eq!(above, 0.5, epsilon = 1e-6);
    /// # Ok::<(), satline::Error>(())
    /// ```
    pub fn probabilities(&self, range: &Range<Q>) -> [f64; 3] {
        let below = self.probability_below(range.low);
        let not_above = self.probability_below(range.high);
        if self.standard.si() == 0.0 {
            let within = range.contains(self.value);
            let inside = if within { 1.0 } else { 0.0 };
            return [if within { 0.0 } else { below }, inside, 1.0 - inside - if within { 0.0 } else { below }];
        }
        let not_above = not_above.max(below);
        [below, not_above - below, 1.0 - not_above]
    }
}

/// Value and half its 95 % interval in the most usual unit, "8.0 ± 1.8 °C (95 %)"; an exact value is printed alone.
/// Without a precision the half-width has two digits. Width, fill and alignment of the format are respected.
impl<Q: Quantity> core::fmt::Display for Measured<Q> {
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        let (Some(&unit), Some(&step)) = (Q::Unit::ALL.first(), <Q::Difference as Quantity>::Unit::ALL.first()) else {
            return Err(core::fmt::Error);
        };
        let (value, half) = (self.value.value_in(unit), self.expanded().value_in(step));
        if half == 0.0 {
            let number = Decimal::new(value, f.precision(), f.sign_plus());
            return padded(f, format_args!("{number} {}", unit.symbol()));
        }
        let two_digits = (1.0 - half.log10().floor()).clamp(0.0, 20.0) as usize;
        let decimals = Some(f.precision().unwrap_or(two_digits));
        let (value, half) = (Decimal::new(value, decimals, f.sign_plus()), Decimal::new(half, decimals, false));
        padded(f, format_args!("{value} ± {half} {} (95 %)", unit.symbol()))
    }
}

/// Contents of a file before [`Measured::new`] has checked them.
#[cfg(feature = "serde")]
#[derive(serde::Deserialize)]
#[serde(deny_unknown_fields, bound = "Q: serde::de::DeserializeOwned, Q::Difference: serde::de::DeserializeOwned")]
struct Unchecked<Q: Quantity> {
    value: Q,
    standard: Q::Difference,
}

#[cfg(feature = "serde")]
impl<Q: Quantity> TryFrom<Unchecked<Q>> for Measured<Q> {
    type Error = Error;
    fn try_from(read: Unchecked<Q>) -> Result<Self, Error> {
        Self::new(read.value, read.standard)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::{Temperature, TemperatureDifference};

    #[test]
    fn a_result_that_is_no_number_or_below_no_uncertainty_is_none() {
        let derived = |value, standard| {
            Measured::derived(Temperature::from_si(value), TemperatureDifference::from_si(standard)).is_some()
        };
        assert!(derived(280.0, 0.5) && derived(280.0, 0.0));
        for (value, standard) in [
            (f64::NAN, 0.5),
            (f64::INFINITY, 0.5),
            (f64::NEG_INFINITY, 0.0),
            (280.0, -0.5),
            (280.0, f64::NAN),
            (280.0, f64::INFINITY),
        ] {
            assert!(!derived(value, standard), "{value} ± {standard}");
        }
    }
}
