//! A value with its standard uncertainty.

use super::{Quantity, Range};
use crate::Error;

/// A value read from an instrument: best estimate and standard uncertainty.
///
/// Uncertainties are standard deviations and are taken as normal and independent unless a function says otherwise
/// (law of propagation: JCGM 100:2008, 5.1.2). Printed intervals are 95 %, 1.96 standard uncertainties.
///
/// ```
/// use satline::{Measured, Temperature, TemperatureDifference};
/// let suction = Measured::new(Temperature::from_celsius(8.0), TemperatureDifference::from_kelvins(0.9))?;
/// assert!((suction.expanded().kelvins() - 1.764).abs() < 1e-3); // 1.96 × 0.9
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

/// Standard uncertainties combine as the root of the sum of their squares.
pub trait Uncertainty: Quantity {
    /// The combination of independent contributions: u² = Σ uᵢ² (JCGM 100:2008, equation 10).
    fn combine(parts: &[Self]) -> Self {
        Self::from_si(parts.iter().fold(0.0, |sum, part| part.si().hypot(sum)))
    }
}

impl<Q: Quantity> Uncertainty for Q {}

/// Coverage factor of a 95 % interval of a normal distribution.
pub(crate) const K95: f64 = 1.959_963_984_540_054;

impl<Q: Quantity> Measured<Q> {
    /// A value and its standard uncertainty.
    ///
    /// # Errors
    /// [`Error::NotFinite`] for a value that is not a finite number; [`Error::Impossible`] for an uncertainty that is
    /// negative or not finite.
    pub fn new(value: Q, standard: Q::Difference) -> Result<Self, Error> {
        if !value.si().is_finite() {
            return Err(Error::NotFinite { what: Q::NAME, text: value.si().to_string() });
        }
        if !(standard.si() >= 0.0 && standard.si().is_finite()) {
            return Err(Error::Impossible {
                what: "standard uncertainty",
                value: standard.si(),
                must: "a finite number, zero or more",
            });
        }
        Ok(Self { value, standard })
    }

    /// A value taken as exact.
    ///
    /// # Errors
    /// [`Error::NotFinite`] for a value that is not a finite number.
    pub fn exact(value: Q) -> Result<Self, Error> {
        Self::new(value, Q::Difference::from_si(0.0))
    }

    /// The best estimate.
    pub fn value(&self) -> Q {
        self.value
    }

    /// The standard uncertainty.
    pub fn standard_uncertainty(&self) -> Q::Difference {
        self.standard
    }

    /// Half the width of the 95 % interval.
    pub fn expanded(&self) -> Q::Difference {
        Q::Difference::from_si(K95 * self.standard.si())
    }

    /// The chance that the true value lies below `limit`.
    ///
    /// Φ((limit − value)/u); with no uncertainty, 0 or 1.
    pub fn probability_below(&self, limit: Q) -> f64 {
        let distance = limit.si() - self.value.si();
        if self.standard.si() == 0.0 {
            return if distance > 0.0 { 1.0 } else { 0.0 };
        }
        // Φ(z) = erfc(−z/√2)/2
        0.5 * libm::erfc(-distance / self.standard.si() / std::f64::consts::SQRT_2)
    }

    /// The chance that the true value lies below, within and above `range`; an empty range counts as its lower end.
    ///
    /// ```
    /// use satline::{GaugePressure, Measured, PressureDifference, Range};
    /// let reading = Measured::new(GaugePressure::from_kpa(200.0), PressureDifference::from_kpa(10.0))?;
    /// let [below, within, above] =
    ///     reading.probabilities(&Range::new(GaugePressure::from_kpa(150.0), GaugePressure::from_kpa(200.0)));
    /// assert!(below < 1e-6 && (within - 0.5).abs() < 1e-6 && (above - 0.5).abs() < 1e-6);
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

/// What stands in a file, before [`Measured::new`] has looked at it.
#[cfg(feature = "serde")]
#[derive(serde::Deserialize)]
#[serde(bound = "Q: serde::de::DeserializeOwned, Q::Difference: serde::de::DeserializeOwned")]
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
