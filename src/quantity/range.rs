//! Closed interval of a quantity.

use super::Quantity;

/// Closed interval from `low` to `high`; empty if `low` is above `high`.
#[derive(Debug, Clone, Copy, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(deny_unknown_fields))]
pub struct Range<Q> {
    /// Lower end, included.
    pub low: Q,
    /// Upper end, included.
    pub high: Q,
}

/// Position of a value relative to a range: below, within or above.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(rename_all = "lowercase"))]
pub enum Position {
    /// Below the range.
    Below,
    /// Within the range.
    Within,
    /// Above the range.
    Above,
}

impl<Q: Quantity> Range<Q> {
    /// Range from `low` to `high`, both included.
    pub const fn new(low: Q, high: Q) -> Self {
        Self { low, high }
    }

    /// Whether `value` lies inside; false for a value that is not a number.
    ///
    /// ```
    /// use satline::{Range, Temperature};
    /// let day = Range::new(Temperature::from_celsius(20.0), Temperature::from_celsius(35.0));
    /// assert!(day.contains(Temperature::from_celsius(35.0)));
    /// assert!(!day.contains(Temperature::from_celsius(f64::NAN)));
    /// ```
    pub fn contains(&self, value: Q) -> bool {
        self.low <= value && value <= self.high
    }

    /// Smallest range that contains both.
    #[must_use]
    pub fn hull(&self, other: &Self) -> Self {
        let low = if self.low <= other.low { self.low } else { other.low };
        let high = if self.high >= other.high { self.high } else { other.high };
        Self { low, high }
    }

    /// Value at the fraction `share` of the way from the lower to the upper end.
    pub fn at(&self, share: f64) -> Q {
        Q::from_si(self.low.si() + share * (self.high.si() - self.low.si()))
    }

    /// Range at the fraction `share` of the way from this one to `other`, end by end.
    #[must_use]
    pub fn between(&self, other: &Self, share: f64) -> Self {
        Self { low: Self::new(self.low, other.low).at(share), high: Self::new(self.high, other.high).at(share) }
    }

    /// Range with both ends passed through `f`, such as a change of reference.
    ///
    /// # Errors
    /// The first error of `f`.
    pub fn try_map<R, E>(&self, f: impl Fn(Q) -> Result<R, E>) -> Result<Range<R>, E> {
        Ok(Range { low: f(self.low)?, high: f(self.high)? })
    }
}
