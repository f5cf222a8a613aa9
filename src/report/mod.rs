//! Words: what a reading means, as a page for a person or as data for a program.
//!
//! Each kind of report is data first: a [`Report`] about a reading, a [`JobReport`], a [`HoldReport`]. With feature `serde` it is
//! written as JSON and read back; the fields of each are described by a JSON Schema in the folder `schema`, by the name and
//! version that stand in its field `schema`, and a field that this version does not know is refused by its name.
//!
//! Laid out, each is a [`Page`], the one model of headings, rows, findings, cautions and sources, which
//! [`Page::text`] writes for a terminal, [`Page::markdown`] for a document and [`Page::html`] as one file with pictures.
//! Nothing is computed here.

mod amount;
mod causes;
mod cautions;
mod healthy;
mod hold;
mod hold_page;
mod html;
mod job;
mod job_page;
mod job_words;
mod markdown;
mod oil_label;
mod page;
mod purity;
mod reading;
mod reading_page;
#[cfg(feature = "serde")]
mod schema;
mod text;
mod trace;
mod verdict_line;
mod words;

pub use amount::{Amount, Span, VerdictCell};
pub use causes::{CauseRow, Causes, NextRow, OutcomeRow, PredictedRow, PrintRow, share};
pub use cautions::cautions;
pub use healthy::{Healthy, HealthyRow};
pub use hold::{Circuit, FigureRow, GateRow, HOLD_SCHEMA, HoldReport, hold};
pub use job::{Figure, JOB_SCHEMA, JobReport, JobUnits, StepRow, WindowRow, job};
pub use oil_label::oil_label;
pub use page::{Block, Cell, ListMark, Page, Section, Step, Table, Tone};
pub use purity::{identity, purity};
pub use reading::{Air, Units, reading, row};
pub use text::folded;
pub use trace::{FindingRow, LevelRow, TRACE_SCHEMA, finding, trace_opening};
pub use verdict_line::VerdictLine;

use std::borrow::Cow;

use crate::diagnosis::{Channel, Interpretation};
use crate::window::{Entry, PartReading, Position, RestVerdict};

/// The version of the JSON form; it changes whenever a field changes its name or meaning.
pub const SCHEMA: &str = "satline-reading-4";

/// Words of the crate, or words read back from JSON.
pub type Text = Cow<'static, str>;

/// A page about one reading.
#[derive(Debug, Clone, PartialEq)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(deny_unknown_fields))]
pub struct Report {
    /// [`SCHEMA`].
    #[cfg_attr(feature = "serde", serde(deserialize_with = "schema::reading"))]
    #[cfg_attr(feature = "schema", schemars(with = "String", extend("const" = SCHEMA)))]
    pub schema: Text,
    /// Designation of the refrigerant.
    pub refrigerant: String,
    /// "running" or "at rest".
    pub engine: Text,
    /// What the page is about, and under what conditions, in sentences.
    pub opening: Vec<String>,
    /// Numbers that make more sense in another unit.
    pub questions: Vec<String>,
    /// The gauges that were read.
    pub gauges: Vec<GaugeRow>,
    /// Healthy cars computed for the day.
    #[cfg_attr(feature = "serde", serde(default, skip_serializing_if = "Option::is_none"))]
    pub healthy: Option<Healthy>,
    /// Causes that explain the reading, where they were asked for.
    #[cfg_attr(feature = "serde", serde(default, skip_serializing_if = "Option::is_none"))]
    pub causes: Option<Causes>,
    /// Everything that was set against printed charts and rules of the trade.
    pub results: Vec<ResultRow>,
    /// At rest: what both gauges together say.
    #[cfg_attr(feature = "serde", serde(default, skip_serializing_if = "Option::is_none"))]
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
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(deny_unknown_fields))]
pub struct Row {
    /// Numbers that make more sense in another unit.
    #[cfg_attr(feature = "serde", serde(default, skip_serializing_if = "Vec::is_empty"))]
    pub questions: Vec<String>,
    /// Both gauges.
    pub gauges: Vec<GaugeRow>,
    /// Everything that was set against a window.
    pub results: Vec<ResultRow>,
    /// At rest: what both gauges together say.
    #[cfg_attr(feature = "serde", serde(default, skip_serializing_if = "Option::is_none"))]
    pub rest: Option<RestRow>,
}

/// What two gauges at rest say.
#[derive(Debug, Clone, PartialEq)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(deny_unknown_fields))]
pub struct RestRow {
    /// What follows.
    pub verdict: RestVerdict,
    /// The chance that it is so; none at saturation, where agreement is all one can state.
    #[cfg_attr(feature = "serde", serde(default, skip_serializing_if = "Option::is_none"))]
    pub chance: Option<f64>,
    /// High side minus low side.
    pub difference: Amount,
    /// The smallest difference from saturation that these instruments would show.
    pub noticeable: Amount,
}

/// One gauge.
#[derive(Debug, Clone, PartialEq)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(deny_unknown_fields))]
pub struct GaugeRow {
    /// "low side" or "high side".
    pub name: Text,
    /// As read.
    pub gauge: Amount,
    /// Above vacuum.
    pub absolute: Amount,
    /// Saturation temperature, of the dew line for a blend; none above the critical pressure.
    #[cfg_attr(feature = "serde", serde(default, skip_serializing_if = "Option::is_none"))]
    pub saturation: Option<Amount>,
    /// Saturation temperature of the bubble line of a blend.
    #[cfg_attr(feature = "serde", serde(default, skip_serializing_if = "Option::is_none"))]
    pub bubble: Option<Amount>,
}

/// A value against its window.
#[derive(Debug, Clone, PartialEq)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(deny_unknown_fields))]
pub struct ResultRow {
    /// What it is.
    pub name: Text,
    /// The value.
    pub value: Amount,
    /// What is usual; none where nothing is known.
    #[cfg_attr(feature = "serde", serde(default, skip_serializing_if = "Option::is_none"))]
    pub window: Option<Span>,
    /// What the window rests on.
    pub basis: Text,
    /// The verdict.
    #[cfg_attr(feature = "serde", serde(default, skip_serializing_if = "Option::is_none"))]
    pub verdict: Option<VerdictCell>,
}

/// What one chart says about the day.
#[derive(Debug, Clone, PartialEq)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(deny_unknown_fields))]
pub struct ChartRow {
    /// The chart's short name.
    pub chart: Text,
    /// The system it was printed for.
    pub system: Text,
    /// Low side.
    #[cfg_attr(feature = "serde", serde(default, skip_serializing_if = "Option::is_none"))]
    pub low: Option<ChartCell>,
    /// High side.
    #[cfg_attr(feature = "serde", serde(default, skip_serializing_if = "Option::is_none"))]
    pub high: Option<ChartCell>,
    /// Centre vent.
    #[cfg_attr(feature = "serde", serde(default, skip_serializing_if = "Option::is_none"))]
    pub vent: Option<ChartCell>,
    /// What to keep in mind about it.
    pub marks: Vec<Mark>,
}

/// What one chart says about one quantity, and where the reading lies.
#[derive(Debug, Clone, PartialEq)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(deny_unknown_fields))]
pub struct ChartCell {
    /// What it allows.
    pub window: Span,
    /// Where the reading lies, going by its best estimate.
    pub position: Position,
}

/// What to keep in mind about a chart on this day.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(rename_all = "kebab-case"))]
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
    pub fn explained(
        mut self,
        entry: &Entry,
        reading: impl Into<PartReading>,
        interpretation: &Interpretation,
    ) -> Self {
        let causes = causes::causes(interpretation, &Units::of(entry), reading.into().air.value());
        let (mut next, rest): (Vec<String>, Vec<String>) =
            std::mem::take(&mut self.next).into_iter().partition(|sentence| words::stops_first(sentence));
        self.next = rest;
        if next.is_empty() {
            next = causes::next(&causes);
        } else {
            // what is likeliest, and no measurement of a circuit that must not run
            next.extend(causes::next_stopped(&causes));
        }
        // what the causes ask for by name is not asked for twice
        self.next.retain(|sentence| !causes::asked(&causes).any(|quantity| words::asks_for(sentence, quantity)));
        next.append(&mut self.next);
        self.next = next;
        // read at another speed, it was read
        if let Some(at) = self.opening.iter().position(|sentence| words::says_not_read(sentence)) {
            let unread = |channel: Channel| causes.next.iter().any(|row| row.quantity == channel.name());
            let sentence = words::not_read(unread(Channel::LowSide), unread(Channel::HighSide));
            self.opening.splice(at..=at, sentence.map(str::to_owned));
        }
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

/// The JSON Schema of each kind of report, with the name and version that stands in its field `schema`.
///
/// The same stand in the folder `schema` of the repository.
///
/// ```
/// let schemas = satline::report::json_schemas();
/// assert_eq!(schemas[0].0, "satline-reading-4");
/// assert_eq!(schemas[0].1.get("additionalProperties").and_then(|more| more.as_bool()), Some(false));
/// ```
#[cfg(feature = "schema")]
#[must_use]
pub fn json_schemas() -> [(&'static str, schemars::Schema); 4] {
    [
        (SCHEMA, schemars::schema_for!(Report)),
        (JOB_SCHEMA, schemars::schema_for!(JobReport)),
        (HOLD_SCHEMA, schemars::schema_for!(HoldReport)),
        (TRACE_SCHEMA, schemars::schema_for!(FindingRow)),
    ]
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
