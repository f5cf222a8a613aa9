//! Prior probability of each cause, before anything was measured.

use std::collections::BTreeMap;

use super::CauseId;
use crate::{Error, Ratio, Source, Trust};

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
#[derive(Debug, Clone, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "serde", serde(try_from = "BTreeMap<CauseId, f64>", into = "BTreeMap<CauseId, f64>"))]
pub struct Prior {
    /// Weights other than those of the uniform prior.
    weights: BTreeMap<CauseId, f64>,
}

impl Prior {
    /// Workshop prior: each cause as often as surveys of workshops found it among cars brought in with a complaint.
    ///
    /// - **Source** `tables/diagnosis/prior-surveys.csv`. Of poor cooling, 53 % is low charge and 23.5 % failed components, and
    ///   8.6 % of circuits are contaminated, half of those with air (workshops' estimates, MACS 2016). Of 667 vehicles counted,
    ///   232 had no fault in the refrigerant circuit and 34 a faulty function of the valve (VASA, summer 2014 to 2015). How these
    ///   groups are divided among their causes is common practice, no source.
    ///
    /// The groups come from different surveys and add up to more than a hundred; only ratios matter. Where a check after a repair or a routine check
    /// makes a healthy circuit likelier, [`Prior::with_healthy`] says so.
    pub fn workshop() -> Self {
        Self { weights: WORKSHOP.iter().copied().collect() }
    }

    /// Uniform prior: equal weights for every cause, no fault among them; another refrigerant than that on the label counts once, not once
    /// for each of its three forms.
    pub fn uniform() -> Self {
        Self { weights: BTreeMap::new() }
    }

    /// Prior in which a healthy circuit has this probability, and the other causes keep their ratios.
    ///
    /// ```
    /// use approx::assert_abs_diff_eq;
    /// use satline::Ratio;
    /// use satline::diagnosis::{CauseId, Prior};
    /// // a check after a repair that went well: three in four are healthy
    /// let prior = Prior::workshop().with_healthy(Ratio::from_percent(75.0))?;
    /// let all: f64 = CauseId::ALL.iter().map(|&cause| prior.weight(cause)).sum();
    /// assert_abs_diff_eq!(prior.weight(CauseId::NoFault) / all, 0.75, epsilon = 1e-12); // rounding
    /// # Ok::<(), satline::Error>(())
    /// ```
    ///
    /// # Errors
    /// [`Error::Impossible`] outside 0 to 100 %, both excluded.
    pub fn with_healthy(self, probability: Ratio) -> Result<Self, Error> {
        let p = probability.fraction();
        if !(p > 0.0 && p < 1.0) {
            let (what, must) = ("probability of a healthy circuit (%)", "between 0 and 100, both excluded");
            return Err(Error::Impossible { what, value: probability.percent(), must });
        }
        let faulty: f64 =
            CauseId::ALL.iter().filter(|&&cause| cause != CauseId::NoFault).map(|&c| self.weight(c)).sum();
        self.with(CauseId::NoFault, faulty * p / (1.0 - p))
    }

    /// Prior with another weight for `cause`; a weight of zero rules it out.
    ///
    /// # Errors
    /// [`Error::PriorWeight`] for a weight that is negative, infinite or not a number.
    pub fn with(mut self, cause: CauseId, weight: f64) -> Result<Self, Error> {
        if !(weight.is_finite() && weight >= 0.0) {
            return Err(Error::PriorWeight { cause: cause.as_str(), weight });
        }
        if weight == unnamed(cause) {
            self.weights.remove(&cause);
        } else {
            self.weights.insert(cause, weight);
        }
        Ok(self)
    }

    /// Prior weight of `cause`.
    pub fn weight(&self, cause: CauseId) -> f64 {
        self.weights.get(&cause).copied().unwrap_or_else(|| unnamed(cause))
    }

    /// `Ok` if at least one of `causes` has a weight above zero.
    ///
    /// # Errors
    /// [`Error::PriorAllZero`] if all of them have a weight of zero.
    pub fn check(&self, causes: impl IntoIterator<Item = CauseId>) -> Result<(), Error> {
        if causes.into_iter().any(|cause| self.weight(cause) > 0.0) { Ok(()) } else { Err(Error::PriorAllZero) }
    }
}

/// Forms in which another refrigerant is a cause: alone, mixed, with air; our choice to tell these apart.
const FORMS: f64 = 3.0;

/// Weight of a cause that was given none: one, which another refrigerant than that on the label has in its three forms together.
fn unnamed(cause: CauseId) -> f64 {
    if cause.is_other_refrigerant() { 1.0 / FORMS } else { 1.0 }
}

/// Source of the workshop prior; mixed with common practice, it takes the weaker grade.
pub const WORKSHOP_SURVEYS: Source = Source {
    work: "surveys of workshops, MACS 2016 and VASA 2014 to 2015; divided inside their groups by common practice",
    locator: "tables/diagnosis/prior-surveys.csv",
    doi: None,
    trust: Trust::CommonPractice,
};

/// Weights of the workshop prior, in cars out of a hundred brought in with a complaint.
///
/// Low charge with all its companions 53 (MACS 2016); no fault in the refrigerant circuit 34.8 (VASA, 232 of 667); air 4.3, half of
/// what is contaminated (MACS); failed components 23.5 (MACS), of them valves 5.1 (VASA). The division inside the groups, airflow and
/// overcharge are common practice, no source.
const WORKSHOP: [(CauseId, f64); 26] = [
    (CauseId::NoFault, 34.8),
    (CauseId::Undercharge, 40.0),
    (CauseId::UnderchargeWithAir, 4.0),
    (CauseId::UnderchargeBehindLittleAir, 4.0),
    (CauseId::Empty, 5.0),
    (CauseId::Overcharge, 5.0),
    (CauseId::Air, 4.3),
    (CauseId::WrongRefrigerant, 0.5),
    (CauseId::MixedRefrigerant, 0.8),
    (CauseId::WrongRefrigerantWithAir, 0.2),
    (CauseId::CondenserAir, 6.0),
    (CauseId::EngineHeat, 1.5),
    (CauseId::EvaporatorAir, 5.0),
    (CauseId::Icing, 1.5),
    (CauseId::CompressorWorn, 4.0),
    (CauseId::ControlHigh, 1.5),
    (CauseId::ControlLow, 2.5),
    (CauseId::ExpansionClosed, 2.1),
    (CauseId::ExpansionOpen, 2.0),
    (CauseId::Moisture, 0.9),
    (CauseId::LiquidRestriction, 1.5),
    (CauseId::WrongOrifice, 0.4),
    (CauseId::SuctionRestriction, 0.4),
    (CauseId::DischargeRestriction, 0.4),
    (CauseId::ReceiverRestriction, 0.4),
    (CauseId::NotTurning, 5.0),
];

/// The workshop prior.
impl Default for Prior {
    fn default() -> Self {
        Self::workshop()
    }
}

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
    use approx::assert_abs_diff_eq;

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

    /// What the surveys printed, of a hundred cars: `tables/diagnosis/prior-surveys.csv`.
    #[test]
    fn the_workshop_prior_keeps_to_the_surveys() {
        let prior = Prior::workshop();
        let of = |causes: &[CauseId]| causes.iter().map(|&cause| prior.weight(cause)).sum::<f64>();
        use CauseId as C;
        assert_eq!(of(&[C::Undercharge, C::UnderchargeWithAir, C::UnderchargeBehindLittleAir, C::Empty]), 53.0);
        assert_abs_diff_eq!(of(&[C::Air]), 8.6 / 2.0, epsilon = 1e-12); // rounding
        let valves = 100.0 * 34.0 / 667.0;
        // three weights, each rounded to a tenth
        assert_abs_diff_eq!(of(&[C::ExpansionClosed, C::ExpansionOpen, C::Moisture]), valves, epsilon = 0.15);
        // no fault at all, and faults elsewhere alone
        let sound = 100.0 * (5.0 + 227.0) / 667.0;
        assert_abs_diff_eq!(of(&[C::NoFault]), sound, epsilon = 0.05); // rounded to a tenth
        let components =
            [C::CompressorWorn, C::ControlHigh, C::ControlLow, C::ExpansionClosed, C::ExpansionOpen, C::Moisture];
        let rest = [
            C::LiquidRestriction,
            C::WrongOrifice,
            C::SuctionRestriction,
            C::DischargeRestriction,
            C::ReceiverRestriction,
        ];
        // the parts are divided by common practice, in steps of a half or less
        assert_abs_diff_eq!(of(&components) + of(&rest) + of(&[C::NotTurning]), 23.5, epsilon = 2.5);
        assert!(CauseId::ALL.iter().all(|cause| WORKSHOP.iter().any(|(named, _)| named == cause)));
    }

    #[test]
    fn a_healthy_circuit_is_as_likely_as_its_context_makes_it() {
        let prior = Prior::workshop().with_healthy(Ratio::from_percent(50.0)).unwrap();
        let faulty: f64 = CauseId::ALL[1..].iter().map(|&cause| prior.weight(cause)).sum();
        // rounding of weights of some hundred
        assert_abs_diff_eq!(prior.weight(CauseId::NoFault), faulty, epsilon = 1e-9);
        assert_eq!(prior.weight(CauseId::Undercharge), 40.0);
        for percent in [0.0, 100.0, -1.0, f64::NAN] {
            assert!(matches!(prior.clone().with_healthy(Ratio::from_percent(percent)), Err(Error::Impossible { .. })));
        }
    }

    #[test]
    fn equal_weights_make_equal_priors() {
        let back = Prior::uniform().with(CauseId::Air, 3.0).and_then(|prior| prior.with(CauseId::Air, 1.0)).unwrap();
        assert_eq!(back, Prior::uniform());
        assert_eq!(Prior::default(), Prior::workshop());
        let (others, own): (Vec<CauseId>, Vec<CauseId>) =
            CauseId::ALL.iter().partition(|cause| cause.is_other_refrigerant());
        assert!(own.iter().all(|&cause| back.weight(cause) == 1.0));
        // rounding
        assert_abs_diff_eq!(others.iter().map(|&cause| back.weight(cause)).sum::<f64>(), 1.0, epsilon = 1e-12);
        assert!(others.len() == 3);
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
