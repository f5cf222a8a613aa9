//! A reading against healthy circuits, row by row.

use super::amount::four_digits;
use super::reading::{gauge_amount, gauge_span, temperature_amount, temperature_span};
use super::{Amount, Span, VerdictCell};
use crate::circuit::CircuitKind;
use crate::diagnosis::{Assessment, Judged, JudgedQuantity, JudgedValue};
use crate::expected::UNKNOWN_HUMIDITY;
use crate::inspection::{DisplayUnits, Measurand, Reading};
use crate::quantity::{Quantity, Unit};

/// Healthy circuits computed for the conditions of a reading, and where it lies among them.
#[derive(Debug, Clone, PartialEq)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(deny_unknown_fields))]
#[non_exhaustive]
pub struct Healthy {
    /// The kinds of circuits, each as likely.
    pub kinds: Vec<CircuitKind>,
    /// How many were computed.
    pub circuits: usize,
    /// How many have no steady state and are missing.
    pub missing: usize,
    /// The humidity assumed, where it is not known.
    #[cfg_attr(feature = "serde", serde(default, skip_serializing_if = "Option::is_none"))]
    pub assumed_humidity: Option<Span>,
    /// Quantity by quantity.
    pub rows: Vec<HealthyRow>,
}

/// One quantity read, against the same in healthy circuits.
#[derive(Debug, Clone, PartialEq)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(deny_unknown_fields))]
#[non_exhaustive]
pub struct HealthyRow {
    /// What it is.
    pub quantity: JudgedQuantity,
    /// The value read.
    pub value: Amount,
    /// Where nine tenths of the circuits lie, 5 to 95 %.
    pub window: Span,
    /// The median circuit.
    pub median: f64,
    /// Fraction of the circuits that read lower.
    pub fraction_below: f64,
    /// The verdict against the window, by the instruments.
    pub verdict: VerdictCell,
}

/// The healthy circuits of `assessment`; `None` where it has none.
pub(super) fn healthy(reading: &Reading, assessment: &Assessment, units: &DisplayUnits) -> Option<Healthy> {
    let window = assessment.expected.as_ref()?;
    let assumed = UNKNOWN_HUMIDITY.value;
    Some(Healthy {
        kinds: window.kinds.clone(),
        circuits: window.circuits(),
        missing: window.missing,
        assumed_humidity: window
            .conditions
            .humidity
            .is_none()
            .then(|| Span::new(assumed.low.percent(), assumed.high.percent(), "%", 0)),
        rows: assessment.judged(reading).iter().map(|one| row(one, units)).collect(),
    })
}

fn row(judged: &Judged, units: &DisplayUnits) -> HealthyRow {
    let (value, window, median) = match &judged.value {
        JudgedValue::Pressure(read, range, median) => {
            let high = judged.quantity == JudgedQuantity::Measured(Measurand::HighSide);
            let unit = if high { units.high } else { units.low };
            (gauge_amount(read, unit), gauge_span(*range, unit), median.value_in(unit))
        }
        JudgedValue::Temperature(read, range, median) => {
            let unit = units.temperature;
            (temperature_amount(read, unit), temperature_span(*range, unit), median.value_in(unit))
        }
        JudgedValue::Difference(read, range, median) => {
            let unit = units.temperature.step();
            let (value, half) = (read.value().value_in(unit), read.expanded().value_in(unit));
            let span = Span::new(range.low.value_in(unit), range.high.value_in(unit), unit.symbol(), 1);
            (Amount::new(value, Some(half), unit.symbol(), 1), span, median.value_in(unit))
        }
    };
    HealthyRow {
        quantity: judged.quantity,
        value,
        window: window.rounded(),
        median: four_digits(median),
        fraction_below: four_digits(judged.fraction_below.fraction()),
        verdict: VerdictCell {
            position: judged.verdict.position,
            probability: Some(four_digits(judged.verdict.probability)),
        },
    }
}
