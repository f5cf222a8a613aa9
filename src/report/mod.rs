//! Words: what a reading means, as a page for a person or as data for a program.
//!
//! A [`Report`] holds headings, rows, sentences, cautions and sources; [`Report::text`] lays them out for a terminal, and
//! with feature `serde` the same report serialises to JSON. Nothing is computed here.

mod causes;
mod cautions;
mod healthy;
mod hold;
mod job;
mod job_words;
mod oil_label;
mod purity;
mod reading;
mod text;
mod verdict_line;
mod words;

pub use causes::{CauseRow, Causes, NextRow, PredictedRow};
pub use cautions::cautions;
pub use healthy::{Healthy, HealthyRow};
pub use hold::{Circuit, FigureRow, GateRow, HOLD_SCHEMA, HoldReport, hold};
pub use job::{Figure, JOB_SCHEMA, JobReport, JobUnits, StepRow, WindowRow, job};
pub use oil_label::oil_label;
pub use purity::{identity, purity};
pub use reading::{Air, Units, reading, row};
pub use verdict_line::VerdictLine;

use crate::diagnosis::{Channel, Interpretation};
use crate::window::{Entry, Position, Reading, RestVerdict, Verdict};

/// The version of the JSON form; it changes whenever a field changes its name or meaning.
pub const SCHEMA: &str = "satline-reading-2";

/// A page about one reading.
#[derive(Debug, Clone, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
pub struct Report {
    /// [`SCHEMA`].
    pub schema: &'static str,
    /// Designation of the refrigerant.
    pub refrigerant: String,
    /// "running" or "at rest".
    pub engine: &'static str,
    /// What the page is about, and under what conditions, in sentences.
    pub opening: Vec<String>,
    /// Numbers that make more sense in another unit.
    pub questions: Vec<String>,
    /// Both gauges.
    pub gauges: Vec<GaugeRow>,
    /// Healthy cars computed for the day.
    #[cfg_attr(feature = "serde", serde(skip_serializing_if = "Option::is_none"))]
    pub healthy: Option<Healthy>,
    #[cfg_attr(feature = "serde", serde(skip))]
    behind: Option<String>,
    #[cfg_attr(feature = "serde", serde(skip))]
    explained: Vec<String>,
    /// Causes that explain the reading, where they were asked for.
    #[cfg_attr(feature = "serde", serde(skip_serializing_if = "Option::is_none"))]
    pub causes: Option<Causes>,
    /// Everything that was set against printed charts and rules of the trade.
    pub results: Vec<ResultRow>,
    /// At rest: what both gauges together say.
    #[cfg_attr(feature = "serde", serde(skip_serializing_if = "Option::is_none"))]
    pub rest: Option<RestRow>,
    /// Chart by chart, what the day allows.
    pub charts: Vec<ChartRow>,
    /// What it means, in sentences.
    pub meaning: Vec<String>,
    /// What to measure next.
    pub next: Vec<String>,
    /// What can hurt.
    pub cautions: Vec<String>,
    /// Where the numbers come from.
    pub sources: Vec<String>,
}

/// The figures about one row of a log.
#[derive(Debug, Clone, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
pub struct Row {
    /// Numbers that make more sense in another unit.
    #[cfg_attr(feature = "serde", serde(skip_serializing_if = "Vec::is_empty"))]
    pub questions: Vec<String>,
    /// Both gauges.
    pub gauges: Vec<GaugeRow>,
    /// Everything that was set against a window.
    pub results: Vec<ResultRow>,
    /// At rest: what both gauges together say.
    #[cfg_attr(feature = "serde", serde(skip_serializing_if = "Option::is_none"))]
    pub rest: Option<RestRow>,
}

/// What two gauges at rest say.
#[derive(Debug, Clone, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
pub struct RestRow {
    /// What follows.
    pub verdict: RestVerdict,
    /// The chance that it is so; none at saturation, where agreement is all one can state.
    #[cfg_attr(feature = "serde", serde(skip_serializing_if = "Option::is_none"))]
    pub chance: Option<f64>,
    /// High side minus low side.
    pub difference: Amount,
    /// The smallest difference from saturation that these instruments would show.
    pub noticeable: Amount,
}

/// A number with its unit, the digits it is worth, and its 95 % interval where it has one.
#[derive(Debug, Clone, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
pub struct Amount {
    /// The number.
    pub value: f64,
    /// Half the width of the 95 % interval.
    #[cfg_attr(feature = "serde", serde(skip_serializing_if = "Option::is_none"))]
    pub plus_minus: Option<f64>,
    /// The unit of both.
    pub unit: &'static str,
    #[cfg_attr(feature = "serde", serde(skip))]
    decimals: usize,
}

/// From where to where.
#[derive(Debug, Clone, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
pub struct Span {
    /// Lower end.
    pub low: f64,
    /// Upper end.
    pub high: f64,
    /// The unit of both.
    pub unit: &'static str,
    #[cfg_attr(feature = "serde", serde(skip))]
    decimals: usize,
}

/// One gauge.
#[derive(Debug, Clone, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
pub struct GaugeRow {
    /// "low side" or "high side".
    pub name: &'static str,
    /// As read.
    pub gauge: Amount,
    /// Above vacuum.
    pub absolute: Amount,
    /// Saturation temperature, of the dew line for a blend; none above the critical pressure.
    #[cfg_attr(feature = "serde", serde(skip_serializing_if = "Option::is_none"))]
    pub saturation: Option<Amount>,
    /// Saturation temperature of the bubble line of a blend.
    #[cfg_attr(feature = "serde", serde(skip_serializing_if = "Option::is_none"))]
    pub bubble: Option<Amount>,
}

impl Amount {
    /// The same to four digits, for what was computed.
    fn rounded(self) -> Self {
        Self { value: four_digits(self.value), plus_minus: self.plus_minus.map(four_digits), ..self }
    }

    fn new(value: f64, plus_minus: Option<f64>, unit: &'static str, decimals: usize) -> Self {
        Self { value: nine_digits(value), plus_minus: plus_minus.map(nine_digits), unit, decimals }
    }
}

impl Span {
    /// The same to four digits, for what was computed.
    fn rounded(self) -> Self {
        Self { low: four_digits(self.low), high: four_digits(self.high), ..self }
    }

    fn new(low: f64, high: f64, unit: &'static str, decimals: usize) -> Self {
        Self { low: nine_digits(low), high: nine_digits(high), unit, decimals }
    }
}

/// `x` to nine significant digits: more than any reading is worth, few enough to be the same on every machine.
fn nine_digits(x: f64) -> f64 {
    if x == 0.0 || !x.is_finite() {
        return x;
    }
    let scale = 10f64.powi(8 - x.abs().log10().floor() as i32);
    (x * scale).round() / scale
}

/// `x` to four significant digits: as far as anything computed of cars is worth, and the same on every machine.
fn four_digits(x: f64) -> f64 {
    if x == 0.0 || !x.is_finite() {
        return x;
    }
    let scale = 10f64.powi(3 - x.abs().log10().floor() as i32);
    (x * scale).round() / scale
}

/// A value against its window.
#[derive(Debug, Clone, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
pub struct ResultRow {
    /// What it is.
    pub name: &'static str,
    /// The value.
    pub value: Amount,
    /// What is usual; none where nothing is known.
    pub window: Option<Span>,
    /// What the window rests on.
    pub basis: &'static str,
    /// The verdict.
    #[cfg_attr(feature = "serde", serde(flatten))]
    pub verdict: Option<VerdictCell>,
}

/// A verdict as a page shows it.
#[derive(Debug, Clone, Copy, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
pub struct VerdictCell {
    /// Below, within or above.
    pub position: Position,
    /// The chance that it is so, given the instruments; none where agreement is all one can state.
    #[cfg_attr(feature = "serde", serde(skip_serializing_if = "Option::is_none"))]
    pub chance: Option<f64>,
}

impl From<Verdict> for VerdictCell {
    fn from(verdict: Verdict) -> Self {
        Self { position: verdict.position, chance: Some(nine_digits(verdict.chance)) }
    }
}

/// What one chart says about the day.
#[derive(Debug, Clone, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
pub struct ChartRow {
    /// The chart's short name.
    pub chart: &'static str,
    /// The system it was printed for.
    pub system: &'static str,
    /// Low side.
    #[cfg_attr(feature = "serde", serde(skip_serializing_if = "Option::is_none"))]
    pub low: Option<ChartCell>,
    /// High side.
    #[cfg_attr(feature = "serde", serde(skip_serializing_if = "Option::is_none"))]
    pub high: Option<ChartCell>,
    /// Centre vent.
    #[cfg_attr(feature = "serde", serde(skip_serializing_if = "Option::is_none"))]
    pub vent: Option<ChartCell>,
    /// What to keep in mind about it.
    pub marks: Vec<Mark>,
}

/// What one chart says about one quantity, and where the reading lies.
#[derive(Debug, Clone, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
pub struct ChartCell {
    /// What it allows.
    #[cfg_attr(feature = "serde", serde(flatten))]
    pub window: Span,
    /// Where the reading lies, going by its best estimate.
    pub position: Position,
}

/// What to keep in mind about a chart on this day.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
#[cfg_attr(feature = "serde", derive(serde::Serialize), serde(rename_all = "kebab-case"))]
pub enum Mark {
    /// Printed for another refrigerant and carried over at equal saturation temperature.
    CarriedOver,
    /// Printed for another humidity than the day's.
    OtherHumidity,
    /// One range for all temperatures it covers.
    OneRange,
    /// Common practice, from memory, and not counted in the band.
    NotCounted,
    /// The middle of its band lies outside nine tenths of the cars computed for the day.
    OtherCars,
}

impl Report {
    /// The page with the causes of its reading: `reading` and `entry` as given to [`reading()`], `interpretation` of them.
    #[must_use]
    pub fn explained(mut self, entry: &Entry, reading: &Reading, interpretation: &Interpretation) -> Self {
        let causes = causes::causes(interpretation, &Units::of(entry), reading.air.value());
        self.explained = causes::words(&causes);
        let mut next = causes::next(&causes);
        next.append(&mut self.next);
        self.next = next;
        // it does name causes now
        self.meaning.retain(|sentence| sentence != words::NAMES_NO_CAUSE);
        self.sources.push(format!(
            "causes: {} simulated cars, each cause as likely as any other before the reading",
            causes.cars
        ));
        if interpretation.findings.iter().any(|f| f.predicted.iter().any(|p| p.channel == Channel::Recovered)) {
            self.sources.push(format!("what recovery leaves: {}", crate::diagnosis::RECOVERED.source));
        }
        self.sources.push(format!("what was found: {}", crate::diagnosis::COUNTS));
        self.causes = Some(causes);
        self
    }
}

impl Mark {
    /// The letter that stands for it in a table.
    pub const fn letter(self) -> char {
        match self {
            Self::CarriedOver => 'd',
            Self::OtherHumidity => 'h',
            Self::OneRange => 'r',
            Self::NotCounted => 'n',
            Self::OtherCars => 'o',
        }
    }

    /// What the letter means.
    pub const fn meaning(self) -> &'static str {
        match self {
            Self::CarriedOver => "derived: printed for R-134a, carried over at equal saturation temperature",
            Self::OtherHumidity => "printed for another humidity",
            Self::OneRange => "one printed range for all temperatures it covers",
            Self::NotCounted => "common practice, from memory; not counted in the band",
            Self::OtherCars => "other cars: a middle outside nine tenths of the cars computed for this day",
        }
    }
}
