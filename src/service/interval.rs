//! A best value with a 95 % interval that need not be symmetric.

use crate::Quantity;

/// A best value with its 95 % interval, which need not be symmetric; an end that the data leave open is `None`.
///
/// What is fitted to few readings, or bends on its way, has no standard deviation that would say the same as this.
#[derive(Debug, Clone, Copy, PartialEq)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(deny_unknown_fields))]
pub struct Interval<Q> {
    /// Best value; `None` if the best fit has none.
    pub value: Option<Q>,
    /// Lower end; `None` if the data leave it open.
    pub low: Option<Q>,
    /// Upper end; `None` if the data leave it open.
    pub high: Option<Q>,
}

impl<Q: Copy + PartialOrd> Interval<Q> {
    /// Whether `value` is inside the interval; an open end lets everything in, and NaN is never inside.
    ///
    /// ```
    /// use satline::service::Interval;
    /// let open = Interval { value: Some(2.0), low: Some(1.0), high: None };
    /// assert!(open.contains(1e9) && !open.contains(0.5) && !open.contains(f64::NAN));
    /// ```
    pub fn contains(&self, value: Q) -> bool {
        let number = value.partial_cmp(&value).is_some();
        number && self.low.is_none_or(|low| low <= value) && self.high.is_none_or(|high| value <= high)
    }
}

impl<Q: Copy> Interval<Q> {
    /// The interval with its value and both ends passed through an increasing `f`.
    pub fn map<R>(&self, f: impl Fn(Q) -> R) -> Interval<R> {
        Interval { value: self.value.map(&f), low: self.low.map(&f), high: self.high.map(&f) }
    }
}

impl<Q: Quantity> Interval<Q> {
    /// An interval from SI values, of which infinite ones are open.
    pub(super) fn from_si(value: f64, low: f64, high: f64) -> Self {
        let end = |x: f64| x.is_finite().then(|| Q::from_si(x));
        Self { value: end(value), low: end(low), high: end(high) }
    }

    /// The interval with both halves widened by an independent contribution of 95 % half-width `half` in SI units.
    #[must_use]
    pub(super) fn widened(&self, half: f64) -> Self {
        let Some(value) = self.value.map(Quantity::si) else { return *self };
        let low = self.low.map(|low| Q::from_si(value - (value - low.si()).hypot(half)));
        let high = self.high.map(|high| Q::from_si(value + (high.si() - value).hypot(half)));
        Self { low, high, ..*self }
    }
}
