//! What explains a reading: causes with their probabilities, sizes and evidence, as rows.

use super::amount::four_digits;
use super::{Amount, Text};
use crate::diagnosis::{
    CauseId, CauseProbability, Fault, NextMeasurement, Posterior, PredictedValue, outcome_uncertainty,
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
    /// How many simulated circuits were compared.
    pub circuits: usize,
    /// Whether the reading speaks for a fault: no fault has a posterior probability below 3.5 %.
    pub faulty: bool,
    /// Whether the inspection is outside the model.
    pub outside_model: bool,
    /// Cause by cause; together their probabilities are one.
    pub causes: Vec<CauseRow>,
    /// What to measure next, the largest expected information gain first.
    pub next: Vec<NextRow>,
}

/// One cause.
#[derive(Debug, Clone, PartialEq)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(deny_unknown_fields))]
#[non_exhaustive]
pub struct CauseRow {
    /// The cause.
    pub id: CauseId,
    /// Posterior probability among all causes modelled.
    pub probability: f64,
    /// Fraction of its circuits in which it is detectable with what was measured; its prior is scaled by it.
    pub detectable_fraction: f64,
    /// Marginal probability of this cause alone or together with another fault, as far as such combinations are modelled.
    pub marginal_probability: f64,
    /// Causes of the same ambiguity group, which no measurement tells from this one.
    pub indistinguishable_from: Vec<CauseId>,
    /// How large it is.
    #[cfg_attr(feature = "serde", serde(default, skip_serializing_if = "Option::is_none"))]
    pub size: Option<FaultSizeRow>,
    /// Quantity by quantity; the Bayes factors multiply to the odds of the values against no fault.
    pub predicted: Vec<PredictedRow>,
    /// Bayes factor of the observations against no fault: agreement of published texts.
    pub observation_bayes_factor: f64,
    /// Printed fault charts that list it.
    pub in_print: Vec<PrintRow>,
}

/// The size of a fault, 5 to 95 %.
#[derive(Debug, Clone, Copy, PartialEq)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(deny_unknown_fields))]
#[non_exhaustive]
pub struct FaultSizeRow {
    /// The fault.
    pub fault: Fault,
    /// Lower end, in the unit of the fault.
    pub low: f64,
    /// Upper end.
    pub high: f64,
}

/// One quantity under a cause.
#[derive(Debug, Clone, PartialEq)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(deny_unknown_fields))]
#[non_exhaustive]
pub struct PredictedRow {
    /// Which running reading it belongs to, from zero.
    pub reading: usize,
    /// The quantity.
    pub measurand: Measurand,
    /// What was read.
    pub read: Amount,
    /// What circuits with this cause show.
    pub expected: Amount,
    /// Bayes factor against no fault, given the quantities before it.
    pub bayes_factor: f64,
}

/// A measurement not made yet.
#[derive(Debug, Clone, PartialEq)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(deny_unknown_fields))]
#[non_exhaustive]
pub struct NextRow {
    /// What to measure.
    pub measurand: Measurand,
    /// The effort.
    pub effort: Effort,
    /// Expected information gain about the cause, in bits.
    pub information_bits: f64,
    /// What the leading cause would show, then the two that would most likely show something else.
    pub outcomes: Vec<OutcomeRow>,
}

/// How many printed fault charts list a cause.
#[derive(Debug, Clone, PartialEq)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(deny_unknown_fields))]
#[non_exhaustive]
pub struct PrintRow {
    /// The pattern of both gauges.
    pub pattern: Text,
    /// Charts that list the cause for it.
    pub listed: u32,
    /// Charts with that pattern.
    pub charts: u32,
}

/// What a measurement would show under one cause.
#[derive(Debug, Clone, PartialEq)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(deny_unknown_fields))]
#[non_exhaustive]
pub struct OutcomeRow {
    /// The cause.
    pub cause: CauseId,
    /// What two of three circuits with it show, instrument included.
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

/// What is said of a cause.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[non_exhaustive]
pub struct CauseTexts {
    /// Name.
    pub name: &'static str,
    /// How it shows.
    pub shows: &'static str,
    /// Why it shows so.
    pub why: &'static str,
    /// What speaks against it.
    pub against: &'static str,
    /// What to check next.
    pub next: &'static str,
    /// What can hurt while checking.
    pub caution: &'static str,
}

/// A probability as a page states it, never put as certain.
///
/// ```
/// assert_eq!(satline::report::percent(0.471), "47 %");
/// assert_eq!(satline::report::percent(0.999), "over 98 %");
/// ```
#[must_use]
pub fn percent(probability: f64) -> String {
    match 100.0 * probability {
        p if p > 98.0 => "over 98 %".to_owned(),
        p => format!("{p:.0} %"),
    }
}
