//! Prior probability of each cause, before anything was measured.

use std::collections::BTreeMap;

use super::CauseId;
use crate::Error;

/// Prior weights of the causes; only their ratios matter.
///
/// ```
/// use satline::diagnosis::{CauseId, Prior};
/// // no charge has been touched since the last check
/// let prior = Prior::uniform().with(CauseId::Overcharge, 0.1)?;
/// assert_eq!((prior.weight(CauseId::Overcharge), prior.weight(CauseId::Air)), (0.1, 1.0));
/// assert!(prior.with(CauseId::Air, f64::NAN).is_err());
/// # Ok::<(), satline::Error>(())
/// ```
#[derive(Debug, Clone, PartialEq, Default)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "serde", serde(try_from = "BTreeMap<CauseId, f64>", into = "BTreeMap<CauseId, f64>"))]
pub struct Prior {
    /// Weights other than one.
    weights: BTreeMap<CauseId, f64>,
}

impl Prior {
    /// Uniform prior: equal weights for every cause, no fault among them; each is then scaled by its detectability. How
    /// often each cause brings a car in has been published nowhere that could be read.
    pub fn uniform() -> Self {
        Self::default()
    }

    /// Prior with another weight for `cause`; a weight of zero rules it out.
    ///
    /// # Errors
    /// [`Error::PriorWeight`] for a weight that is negative, infinite or not a number.
    pub fn with(mut self, cause: CauseId, weight: f64) -> Result<Self, Error> {
        if !(weight.is_finite() && weight >= 0.0) {
            return Err(Error::PriorWeight { cause: cause.as_str(), weight });
        }
        if weight == UNNAMED {
            self.weights.remove(&cause);
        } else {
            self.weights.insert(cause, weight);
        }
        Ok(self)
    }

    /// Prior weight of `cause`.
    pub fn weight(&self, cause: CauseId) -> f64 {
        self.weights.get(&cause).copied().unwrap_or(UNNAMED)
    }

    /// `Ok` if at least one of `causes` has a weight above zero.
    ///
    /// # Errors
    /// [`Error::PriorAllZero`] if all of them have a weight of zero.
    pub fn check(&self, causes: impl IntoIterator<Item = CauseId>) -> Result<(), Error> {
        if causes.into_iter().any(|cause| self.weight(cause) > 0.0) { Ok(()) } else { Err(Error::PriorAllZero) }
    }
}

/// Weight of a cause that was given none.
const UNNAMED: f64 = 1.0;

/// The causes that are named get their weight, all others one.
impl TryFrom<BTreeMap<CauseId, f64>> for Prior {
    type Error = Error;

    fn try_from(weights: BTreeMap<CauseId, f64>) -> Result<Self, Error> {
        weights.into_iter().try_fold(Self::uniform(), |prior, (cause, weight)| prior.with(cause, weight))
    }
}

/// The weight of every cause.
impl From<Prior> for BTreeMap<CauseId, f64> {
    fn from(prior: Prior) -> Self {
        CauseId::ALL.iter().map(|&cause| (cause, prior.weight(cause))).collect()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_weight_that_is_no_weight_is_refused() {
        for weight in [-1.0, f64::NAN, f64::INFINITY, f64::NEG_INFINITY] {
            let refused = Prior::uniform().with(CauseId::Air, weight).unwrap_err();
            assert!(matches!(refused, Error::PriorWeight { cause: "air", .. }), "{weight}: {refused}");
        }
        let said = Prior::uniform().with(CauseId::Icing, -2.5).unwrap_err().to_string();
        assert_eq!(said, "prior weight -2.5 of icing: give a finite number, zero or more");
    }

    #[test]
    fn a_prior_that_rules_out_every_cause_is_refused() {
        let none = CauseId::ALL.iter().try_fold(Prior::uniform(), |prior, &cause| prior.with(cause, 0.0)).unwrap();
        assert_eq!(none.check(CauseId::ALL.iter().copied()), Err(Error::PriorAllZero));
        let one = none.with(CauseId::WrongOrifice, 1e-9).unwrap();
        assert_eq!(one.check(CauseId::ALL.iter().copied()), Ok(()));
        // and so is one that rules out those of the circuit at hand
        assert_eq!(one.check([CauseId::NoFault, CauseId::Air]), Err(Error::PriorAllZero));
    }

    #[test]
    fn equal_weights_make_equal_priors() {
        let back = Prior::uniform().with(CauseId::Air, 3.0).and_then(|prior| prior.with(CauseId::Air, 1.0)).unwrap();
        assert_eq!((&back, Prior::default()), (&Prior::uniform(), Prior::uniform()));
        assert!(CauseId::ALL.iter().all(|&cause| back.weight(cause) == 1.0));
    }

    #[cfg(feature = "serde")]
    #[test]
    fn a_prior_goes_to_json_and_back() {
        let prior = Prior::uniform().with(CauseId::Moisture, 0.0).and_then(|p| p.with(CauseId::Air, 2.5)).unwrap();
        let json = serde_json::to_string(&prior).unwrap();
        assert!(json.starts_with("{\"no-fault\":1.0,\"undercharge\":1.0,\"overcharge\":1.0,\"air\":2.5,"), "{json}");
        assert_eq!(serde_json::from_str::<Prior>(&json).unwrap(), prior);
        assert_eq!(serde_json::from_str::<Prior>("{\"air\": 2.5, \"moisture\": 0}").unwrap(), prior);
        for wrong in ["{\"air\": -1}", "{\"fan\": 1}", "{\"air\": null}"] {
            assert!(serde_json::from_str::<Prior>(wrong).is_err(), "{wrong}");
        }
    }
}
