//! A reading compared with healthy circuits, row by row.

use super::amount::four_digits;
use super::reading::{gauge_amount, gauge_span, temperature_amount, temperature_span};
use super::{Amount, Span, VerdictCell};
use crate::circuit::CircuitKind;
use crate::diagnosis::{Assessment, Judged, JudgedQuantity, JudgedValue};
use crate::expected::UNKNOWN_HUMIDITY;
use crate::inspection::{DisplayUnits, Measurand, Reading};
use crate::quantity::{Quantity, Unit};

/// Healthy circuits computed for the conditions of a reading, and the position of the reading among them.
#[derive(Debug, Clone, PartialEq)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(deny_unknown_fields))]
#[non_exhaustive]
pub struct Healthy {
    /// Kinds of the circuits, each as likely.
    pub kinds: Vec<CircuitKind>,
    /// Number of circuits computed.
    pub circuits: usize,
    /// Number of circuits without a steady state, which are left out.
    pub missing: usize,
    /// Humidity assumed; `None` if it is known.
    #[cfg_attr(feature = "serde", serde(default, skip_serializing_if = "Option::is_none"))]
    pub assumed_humidity: Option<Span>,
    /// Number of baselines that make the windows those of this circuit; zero for those of the whole population.
    #[cfg_attr(feature = "serde", serde(default, skip_serializing_if = "is_zero"))]
    pub baselines: usize,
    /// Effective number of circuits under their weights by the baselines; `None` without baselines.
    #[cfg_attr(feature = "serde", serde(default, skip_serializing_if = "Option::is_none"))]
    pub effective_circuits: Option<f64>,
    /// Whether hardly any circuit is near the baselines: they contradict the model, or are at its edge.
    #[cfg_attr(feature = "serde", serde(default, skip_serializing_if = "std::ops::Not::not"))]
    pub few_near_baselines: bool,
    /// Quantities one by one.
    pub rows: Vec<HealthyRow>,
}

#[cfg(feature = "serde")]
fn is_zero(count: &usize) -> bool {
    *count == 0
}

/// One quantity read, compared with the same in healthy circuits.
#[derive(Debug, Clone, PartialEq)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(deny_unknown_fields))]
#[non_exhaustive]
pub struct HealthyRow {
    /// Quantity that is judged.
    pub quantity: JudgedQuantity,
    /// The value read.
    pub value: Amount,
    /// Window of nine tenths of the circuits, 5 to 95 %.
    pub window: Span,
    /// Median of the circuits, in the unit of the window.
    pub median: f64,
    /// Fraction of the circuits with a lower value.
    pub fraction_below: f64,
    /// Verdict on the value against the window, given the instruments.
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
        baselines: window.baselines.len(),
        effective_circuits: (!window.baselines.is_empty()).then(|| four_digits(window.effective_circuits)),
        few_near_baselines: !window.fits_baselines(),
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

#[cfg(test)]
pub(super) mod tests {
    use approx::abs_diff_eq;

    use super::*;
    use crate::Refrigerant;
    use crate::circuit::Settings;
    use crate::expected::{ChartSet, ExpectedWindow};
    use crate::inspection::{Entry, Instruments};

    /// Two hundred and fifty-six circuits of `kinds`, all with a steady state, on a day whose humidity is known.
    pub(in crate::report) fn of_rows(kinds: Vec<CircuitKind>, rows: Vec<HealthyRow>) -> Healthy {
        Healthy {
            kinds,
            circuits: 256,
            missing: 0,
            assumed_humidity: None,
            baselines: 0,
            effective_circuits: None,
            few_near_baselines: false,
            rows,
        }
    }

    #[test]
    fn each_row_is_in_the_unit_of_its_quantity() {
        let r = Refrigerant::R134a;
        let values = [
            (Measurand::LowSide, "30 psi"),
            (Measurand::HighSide, "13 bar"),
            (Measurand::SuctionLine, "48 °F"),
            (Measurand::Vent, "50 °F"),
        ];
        let entry = values.iter().fold(Entry::default(), |entry, (of, text)| entry.enter(*of, text).unwrap());
        let entry = entry.ambient("86 °F".parse().unwrap());
        let reading = entry.reading(r, Settings::TEST, &Instruments::analogue(r)).unwrap();
        let assessment = Assessment::of(&reading, &ChartSet::new(r).unwrap()).unwrap();
        assert_eq!(healthy(&reading, &assessment, &entry.units()), None);
        let kinds = &CircuitKind::main(r)[..1];
        let window = ExpectedWindow::for_kinds(kinds, &reading.conditions().unwrap()).unwrap();
        let (circuits, missing) = (window.circuits(), window.missing);
        let found = healthy(&reading, &assessment.beside(window), &entry.units()).unwrap();
        assert_eq!((&found.kinds[..], found.circuits, found.missing), (kinds, circuits, missing));
        assert_eq!(found.assumed_humidity.map(|span| span.to_string()), Some("30 to 80 %".to_owned()));
        let told: Vec<(JudgedQuantity, &str)> = found.rows.iter().map(|row| (row.quantity, &*row.value.unit)).collect();
        assert_eq!(
            told,
            [
                (JudgedQuantity::Measured(Measurand::LowSide), "psi"),
                (JudgedQuantity::Measured(Measurand::HighSide), "bar"),
                (JudgedQuantity::Superheat, "°F"),
                (JudgedQuantity::CondensingOverAmbient, "°F"),
                (JudgedQuantity::Measured(Measurand::Vent), "°F"),
            ]
        );
        for row in &found.rows {
            assert_eq!(row.window.unit, row.value.unit);
            assert!(row.window.low < row.median && row.median < row.window.high, "{row:?}");
        }
        // its last digit
        assert!(abs_diff_eq!(found.rows[2].value.value, 13.4, epsilon = 0.1), "{:?}", found.rows[2]);
    }
}
