//! Causes that explain a reading, with their probabilities, sizes and evidence, as rows.

use super::amount::four_digits;
use super::{Amount, Text};
use crate::diagnosis::{
    CauseId, CauseProbability, Fault, NextMeasurement, Posterior, PredictedValue, Prior, outcome_uncertainty,
};
use crate::inspection::{DisplayUnits, Effort, Measurand, MeasurandKind};
use crate::quantity::{Quantity, Unit};
use crate::{Pressure, Temperature, TemperatureDifference};

/// The causes of a reading, the most probable first.
#[derive(Debug, Clone, PartialEq)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(deny_unknown_fields))]
#[non_exhaustive]
pub struct Causes {
    /// Number of simulated circuits compared.
    pub circuits: usize,
    /// Prior that the probabilities follow from.
    pub prior: PriorName,
    /// Whether the circuit is called faulty: no fault has a posterior probability below 3.5 %.
    pub faulty: bool,
    /// Whether the inspection is outside the model.
    pub outside_model: bool,
    /// Causes one by one; their probabilities add up to one.
    pub causes: Vec<CauseRow>,
    /// Measurements not made yet, the largest expected information gain first.
    pub next: Vec<NextRow>,
}

/// Prior over the causes, by name.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(rename_all = "kebab-case"))]
#[non_exhaustive]
pub enum PriorName {
    /// Causes as often as in surveys of workshops.
    Workshop,
    /// Every cause equally likely.
    Uniform,
    /// Weights that were given.
    Given,
}

impl PriorName {
    pub(super) fn of(prior: &Prior) -> Self {
        if *prior == Prior::workshop() {
            Self::Workshop
        } else if *prior == Prior::uniform() {
            Self::Uniform
        } else {
            Self::Given
        }
    }
}

/// One cause with its probability, its size and its evidence.
#[derive(Debug, Clone, PartialEq)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(deny_unknown_fields))]
#[non_exhaustive]
pub struct CauseRow {
    /// Id of the cause.
    pub id: CauseId,
    /// Posterior probability among all causes modelled.
    pub probability: f64,
    /// Fraction of its circuits in which the cause is detectable with what was measured; it scales the prior.
    pub detectable_fraction: f64,
    /// Posterior probability that the cause is there and does not show with what was measured, a part of the probability of no fault.
    pub hidden_probability: f64,
    /// Marginal probability of this cause alone or together with another fault, as far as such combinations are modelled.
    pub marginal_probability: f64,
    /// Other causes of the ambiguity group, which no measurement distinguishes from this one.
    pub indistinguishable_from: Vec<CauseId>,
    /// Size of the first fault of the cause; `None` if it has no size.
    #[cfg_attr(feature = "serde", serde(default, skip_serializing_if = "Option::is_none"))]
    pub size: Option<FaultSizeRow>,
    /// Measured and predicted values; their Bayes factors multiply to the odds of the values against no fault.
    pub predicted: Vec<PredictedRow>,
    /// Bayes factor of the observations against no fault: agreement of published texts.
    pub observation_bayes_factor: f64,
    /// Printed fault charts that list the cause, by pattern.
    pub in_print: Vec<PrintRow>,
}

/// Size of a fault, 5 to 95 %.
#[derive(Debug, Clone, Copy, PartialEq)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(deny_unknown_fields))]
#[non_exhaustive]
pub struct FaultSizeRow {
    /// Fault that the size is of.
    pub fault: Fault,
    /// Lower end, in the unit of the fault.
    pub low: f64,
    /// Upper end, in the unit of the fault.
    pub high: f64,
}

/// Measured and predicted value of one quantity under a cause.
#[derive(Debug, Clone, PartialEq)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(deny_unknown_fields))]
#[non_exhaustive]
pub struct PredictedRow {
    /// Index of the running reading it belongs to, from zero.
    pub reading: usize,
    /// Quantity that was measured.
    pub measurand: Measurand,
    /// Value read.
    pub read: Amount,
    /// Value that circuits with the cause show.
    pub expected: Amount,
    /// Bayes factor of the value against no fault, given the values before it.
    pub bayes_factor: f64,
}

/// A measurement not made yet, with its expected information gain and predicted outcomes.
#[derive(Debug, Clone, PartialEq)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(deny_unknown_fields))]
#[non_exhaustive]
pub struct NextRow {
    /// Quantity to measure.
    pub measurand: Measurand,
    /// Effort of the measurement.
    pub effort: Effort,
    /// Expected information gain about the cause, in bits.
    pub information_bits: f64,
    /// Predicted outcomes: for the leading cause, then for the two that would most likely show something else.
    pub outcomes: Vec<OutcomeRow>,
}

/// Number of printed fault charts that list a cause for one pattern.
#[derive(Debug, Clone, PartialEq)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(deny_unknown_fields))]
#[non_exhaustive]
pub struct PrintRow {
    /// Pattern of both gauge pressures.
    pub pattern: Text,
    /// Number of charts that list the cause for the pattern.
    pub listed: u32,
    /// Number of charts with the pattern.
    pub charts: u32,
}

/// Predicted outcome of a measurement under one cause.
#[derive(Debug, Clone, PartialEq)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(deny_unknown_fields))]
#[non_exhaustive]
pub struct OutcomeRow {
    /// Cause under which the outcome is predicted.
    pub cause: CauseId,
    /// Predicted value; its interval holds two of three circuits with the cause, instrument included.
    pub shows: Amount,
}

impl Causes {
    /// The row of a cause.
    pub(super) fn row(&self, cause: CauseId) -> Option<&CauseRow> {
        self.causes.iter().find(|CauseRow { id, .. }| *id == cause)
    }

    /// The row of a measurement not made yet.
    pub(super) fn measurement(&self, measurand: Measurand) -> Option<&NextRow> {
        self.next.iter().find(|row| row.measurand == measurand)
    }
}

/// The rows of `posterior`, in the units of the page; pressures as gauges show them in air of pressure `air`.
pub(super) fn causes(posterior: &Posterior, units: &DisplayUnits, air: Pressure) -> Causes {
    let amount = |measurand, value, spread| amount(measurand, value, spread, units, air);
    let predicted = |value: &PredictedValue| PredictedRow {
        reading: value.reading,
        measurand: value.measurand,
        read: amount(value.measurand, value.read, None),
        expected: amount(value.measurand, value.mean, None).rounded(),
        bayes_factor: four_digits(value.bayes_factor),
    };
    let row = |one: &CauseProbability| CauseRow {
        id: one.cause,
        probability: four_digits(one.probability),
        detectable_fraction: four_digits(one.detectable_fraction),
        hidden_probability: four_digits(one.hidden_probability),
        marginal_probability: four_digits(posterior.marginal_probability(one.cause)),
        indistinguishable_from: posterior
            .causes
            .iter()
            .map(|other| other.cause)
            .filter(|other| *other != one.cause && other.cause().changes_like(one.cause.cause()))
            .collect(),
        size: one.size.map(|size| FaultSizeRow {
            fault: size.fault,
            low: four_digits(size.low),
            high: four_digits(size.high),
        }),
        predicted: one.predicted.iter().map(predicted).collect(),
        observation_bayes_factor: four_digits(one.observation_bayes_factor),
        in_print: one
            .cause
            .cause()
            .in_print
            .iter()
            .map(|&(pattern, listed, charts)| PrintRow { pattern: pattern.into(), listed, charts })
            .collect(),
    };
    let next = |one: &NextMeasurement| NextRow {
        measurand: one.measurand,
        effort: one.measurand.effort(),
        information_bits: four_digits(one.information_bits),
        outcomes: one
            .outcomes
            .iter()
            .map(|outcome| OutcomeRow {
                cause: outcome.cause,
                shows: amount(one.measurand, outcome.mean, Some(outcome_uncertainty(one.measurand, outcome))).rounded(),
            })
            .collect(),
    };
    Causes {
        circuits: posterior.circuits,
        prior: PriorName::of(&posterior.prior),
        faulty: posterior.is_faulty(),
        outside_model: posterior.outside_model,
        causes: posterior.causes.iter().map(row).collect(),
        next: posterior.next.iter().map(next).collect(),
    }
}

/// A value in the units of comparison as a page shows it.
fn amount(measurand: Measurand, value: f64, spread: Option<f64>, units: &DisplayUnits, air: Pressure) -> Amount {
    match measurand.kind() {
        MeasurandKind::Share => Amount::new(100.0 * value, spread.map(|s| 100.0 * s), "%", 0),
        MeasurandKind::Pressure => {
            let unit = if measurand == Measurand::HighSide { units.high } else { units.low };
            let absolute = Pressure::from_pa(value.exp());
            let decimals = unit.gauge_decimals();
            let half = spread.map(|s| Pressure::from_pa(absolute.pa() * s).value_in(unit));
            // an interval that would be written as zero is none
            let half = half.filter(|half| *half >= 0.5 * 0.1f64.powi(i32::from(decimals)));
            Amount::new(absolute.gauge(air).value_in(unit), half, unit.symbol(), decimals)
        }
        MeasurandKind::Temperature => {
            let unit = units.temperature;
            let half = spread.map(|s| TemperatureDifference::from_kelvins(s).value_in(unit.step()));
            Amount::new(Temperature::from_celsius(value).value_in(unit), half, unit.symbol(), 0)
        }
    }
}

/// Texts about a cause: name, symptoms, explanation, evidence against it, next check, caution.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[non_exhaustive]
pub struct CauseTexts {
    /// Name of the cause.
    pub name: &'static str,
    /// Symptoms of the cause in the readings.
    pub shows: &'static str,
    /// Explanation of the symptoms.
    pub why: &'static str,
    /// Evidence against the cause.
    pub against: &'static str,
    /// Next check or remedy.
    pub next: &'static str,
    /// Safety caution for the check.
    pub caution: &'static str,
}

/// Text of a probability in percent, as a page in English states it, never put as certain.
///
/// ```
/// assert_eq!(satline::report::percent(0.471), "47 %");
/// assert_eq!(satline::report::percent(0.999), "over 98 %");
/// ```
#[must_use]
pub fn percent(probability: f64) -> String {
    super::words::en::NUMERALS.percent(probability)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::{PressureUnit, TemperatureUnit};

    const UNITS: DisplayUnits =
        DisplayUnits { low: PressureUnit::Psi, high: PressureUnit::Bar, temperature: TemperatureUnit::Fahrenheit };

    #[test]
    fn a_value_of_comparison_is_written_in_the_units_of_the_page() {
        let air = Pressure::from_kpa(100.0);
        let ln = |bar: f64| Pressure::from_bar(bar).pa().ln();
        for (measurand, value, spread, text) in [
            (Measurand::ClutchDutyCycle, 0.45, None, "45 %"),
            (Measurand::RecoveredCharge, 0.8, Some(0.05), "80 ± 5 %"),
            (Measurand::LowSide, ln(3.0), None, "29.0 psi"),
            (Measurand::LowSide, ln(3.0), Some(0.1), "29.0 ± 4.4 psi"),
            (Measurand::EqualisedPressure, ln(3.0), None, "29.0 psi"),
            (Measurand::HighSide, ln(13.0), Some(0.1), "12.00 ± 1.30 bar"),
            // an interval that would be written as zero is none
            (Measurand::HighSide, ln(13.0), Some(3e-4), "12.00 bar"),
            (Measurand::HighSide, ln(13.0), Some(5e-4), "12.00 ± 0.01 bar"),
            (Measurand::Vent, 10.0, None, "50 °F"),
            (Measurand::Vent, 10.0, Some(5.0), "50 ± 9 °F"),
        ] {
            assert_eq!(amount(measurand, value, spread, &UNITS, air).to_string(), text, "{measurand:?}");
        }
    }

    #[test]
    fn a_share_is_never_put_as_certain() {
        for (probability, text) in
            [(0.0, "0 %"), (0.471, "47 %"), (0.98, "98 %"), (0.981, "over 98 %"), (1.0, "over 98 %")]
        {
            assert_eq!(percent(probability), text);
        }
    }

    #[test]
    fn a_prior_is_known_by_its_weights() {
        let given = Prior::uniform().with(CauseId::Air, 3.0).unwrap();
        let names = [Prior::workshop(), Prior::uniform(), given].map(|prior| PriorName::of(&prior));
        assert_eq!(names, [PriorName::Workshop, PriorName::Uniform, PriorName::Given]);
    }

    #[test]
    fn rows_are_found_by_cause_and_by_measurand() {
        let cause = |id| CauseRow {
            id,
            probability: 0.5,
            detectable_fraction: 1.0,
            hidden_probability: 0.0,
            marginal_probability: 0.5,
            indistinguishable_from: Vec::new(),
            size: None,
            predicted: Vec::new(),
            observation_bayes_factor: 1.0,
            in_print: Vec::new(),
        };
        let next = |measurand: Measurand| NextRow {
            measurand,
            effort: measurand.effort(),
            information_bits: 0.5,
            outcomes: Vec::new(),
        };
        let causes = Causes {
            circuits: 1000,
            prior: PriorName::Uniform,
            faulty: false,
            outside_model: false,
            causes: vec![cause(CauseId::Air), cause(CauseId::Icing)],
            next: vec![next(Measurand::Vent), next(Measurand::LowSide)],
        };
        assert_eq!(causes.row(CauseId::Icing).unwrap().id, CauseId::Icing);
        assert_eq!(causes.row(CauseId::Moisture), None);
        assert_eq!(causes.measurement(Measurand::LowSide).unwrap().measurand, Measurand::LowSide);
        assert_eq!(causes.measurement(Measurand::HighSide), None);
    }
}
