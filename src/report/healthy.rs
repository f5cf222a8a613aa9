//! A reading against the healthy cars computed for its day: rows and the sentences about both sides.

use super::amount::four_digits;
use super::reading::{Units, pressure, temperature, with_interval_p, with_interval_t};
use super::{Amount, Span, Text, VerdictCell};
use crate::quantity::{Quantity, Unit};
use crate::window::{Assessment, LineFinding, PartReading, Position, Quantiles, Verdict, Window};
use crate::{Measured, Ratio, Temperature, TemperatureDifference};

/// The cars computed for the day of a reading, and where it lies among them.
#[derive(Debug, Clone, PartialEq)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(deny_unknown_fields))]
pub struct Healthy {
    /// The kinds of cars, all counting the same.
    pub kinds: Vec<String>,
    /// How many were computed.
    pub cars: usize,
    /// How many found no balance and are missing.
    pub missing: usize,
    /// What lies behind them, in a sentence or two.
    pub behind: String,
    /// Quantity by quantity.
    pub rows: Vec<HealthyRow>,
}

/// One quantity read, against the same in healthy cars.
#[derive(Debug, Clone, PartialEq)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(deny_unknown_fields))]
pub struct HealthyRow {
    /// What it is.
    pub name: Text,
    /// The value read.
    pub value: Amount,
    /// Where nine tenths of the cars lie, 5 to 95 %.
    pub window: Span,
    /// The middle car.
    pub middle: f64,
    /// Which share of the cars shows less than the value read.
    pub share_below: f64,
    /// The verdict against the window, by the instruments.
    pub verdict: VerdictCell,
}

impl HealthyRow {
    fn new<Q: Quantity>(
        name: &'static str,
        read: &Measured<Q>,
        cars: &Quantiles<Q>,
        value: Amount,
        window: Span,
        middle: f64,
    ) -> Self {
        Self {
            name: name.into(),
            value,
            window: window.rounded(),
            middle: four_digits(middle),
            share_below: four_digits(cars.share_below(read.value()).fraction()),
            verdict: {
                let verdict = Verdict::of(read, &cars.range());
                VerdictCell { position: verdict.position, chance: Some(four_digits(verdict.chance)) }
            },
        }
    }

    /// The share in words: "12 % read lower".
    pub(super) fn share(&self) -> String {
        let percent = 100.0 * self.share_below;
        match percent {
            p if p <= 0.0 => "none reads lower".to_owned(),
            p if p >= 100.0 => "all read lower".to_owned(),
            p => format!("{p:.0} % read lower"),
        }
    }
}

/// The cars of `assessment`, where it has any.
pub(super) fn healthy(reading: &PartReading, assessment: &Assessment, units: &Units) -> Option<Healthy> {
    let window = assessment.healthy.as_ref()?;
    let mut rows = Vec::new();
    for (name, read, cars, unit) in [
        ("low side", &reading.low, &window.low_side, units.low),
        ("high side", &reading.high, &window.high_side, units.high),
    ] {
        let Some(read) = read else { continue };
        let middle = cars.middle().value_in(unit);
        rows.push(HealthyRow::new(name, read, cars, with_interval_p(read, unit), pressure(cars.range(), unit), middle));
    }
    let step = units.temperature.step();
    let mut steps = |name, finding: &Option<LineFinding>, cars: Option<&Quantiles<TemperatureDifference>>| {
        let (Some(finding), Some(cars)) = (finding, cars) else { return };
        let read = &finding.value;
        let value = Amount::new(read.value().value_in(step), Some(read.expanded().value_in(step)), step.symbol(), 1);
        let range = cars.range();
        let span = Span::new(range.low.value_in(step), range.high.value_in(step), step.symbol(), 1);
        rows.push(HealthyRow::new(name, read, cars, value, span, cars.middle().value_in(step)));
    };
    steps("superheat", &assessment.superheat, Some(&window.superheat));
    steps("subcooling", &assessment.subcooling, window.subcooling.as_ref());
    steps("condensing over ambient", &assessment.condensing_over_ambient, window.condensing_over_ambient.as_ref());
    let mut thermometer = |name, read: Option<Measured<Temperature>>, cars: &Quantiles<Temperature>| {
        let (Some(read), unit) = (read, units.temperature) else { return };
        let middle = cars.middle().value_in(unit);
        let (value, span) = (with_interval_t(&read, unit), temperature(cars.range(), unit));
        rows.push(HealthyRow::new(name, &read, cars, value, span, middle));
    };
    // a line speaks through its gauge, and for itself where that was not read
    let alone = |line: Option<_>, gauge_read: bool| line.filter(|_| !gauge_read);
    let (low, high) = (reading.low.is_some(), reading.high.is_some());
    thermometer("suction line", alone(reading.suction_line, low), &window.suction_line);
    thermometer("liquid line", alone(reading.liquid_line, high), &window.liquid_line);
    thermometer("discharge line", discharge_line(reading), &window.discharge_line);
    thermometer("vent", reading.vent, &window.vent);
    let kinds: Vec<String> = window.kinds.iter().map(ToString::to_string).collect();
    Some(Healthy { behind: behind(&kinds, window), kinds, cars: window.cars(), missing: window.missing, rows })
}

/// The discharge line, where it has a row: beside both gauges it speaks through the causes alone.
pub(super) fn discharge_line(reading: &PartReading) -> Option<Measured<Temperature>> {
    reading.discharge_line.filter(|_| reading.low.is_none() || reading.high.is_none())
}

/// What lies behind the rows, in sentences.
fn behind(kinds: &[String], window: &Window) -> String {
    let kinds = match kinds {
        [one] => format!("of this kind: {one}"),
        several => format!("of {} kinds, as none was named", several.len()),
    };
    let humidity = if window.conditions.humidity.is_some() {
        String::new()
    } else {
        let drawn = crate::window::UNKNOWN_HUMIDITY.value;
        format!(" The humidity is not known: {:.0} to {:.0} % stand in.", drawn.low.percent(), drawn.high.percent())
    };
    let missing =
        if window.missing == 0 { String::new() } else { format!(" {} more found no balance.", window.missing) };
    format!(
        "{} cars {kinds}, computed for this day, their sizes drawn from published ranges. Nine tenths of them lie between \
         the two values.{humidity}{missing}",
        window.cars()
    )
}

/// What both sides mean against healthy cars.
pub(super) fn meaning(healthy: &Healthy) -> Vec<String> {
    let sides = healthy.rows.iter().filter(|row| matches!(&*row.name, "low side" | "high side"));
    sides
        .map(|row| {
            let name = &row.name;
            let share = row.share();
            let open = row.verdict.chance.map_or(String::new(), super::words::doubt);
            match row.verdict.position {
                Position::Within => {
                    format!("Among healthy cars on this day the {name} is nothing special: {share}.{open}")
                }
                Position::Below => {
                    format!("Of healthy cars on this day hardly any reads a {name} as low as this one: {share}.{open}")
                }
                Position::Above => {
                    format!("Of healthy cars on this day hardly any reads a {name} as high as this one: {share}.{open}")
                }
            }
        })
        .collect()
}

/// Whether the middle of a printed band lies among nine tenths of the cars.
pub(super) fn agrees<Q: Quantity>(middle: Q, cars: &Quantiles<Q>) -> bool {
    let share = cars.share_below(middle);
    Ratio::from_percent(5.0) <= share && share <= Ratio::from_percent(95.0)
}
