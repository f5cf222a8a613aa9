//! Reports: what a reading means, as data for a program and as a page for a person.
//!
//! Each kind of report is data first: a [`Report`] about a reading, a [`JobReport`], a [`HoldReport`]. With feature `serde` it is
//! written as JSON and read back. Its field `schema` names the version of its JSON Schema in the folder `schema`; a field unknown to this
//! version is refused by name.
//! Numbers are written with the digits that make them the same number when read: a reader that parses to the nearest double gets
//! it back and writes the same bytes again. `serde_json` does so with its feature `float_roundtrip` alone; without it some numbers
//! lose their last digit.
//!
//! The reports, their schema versions and [`Page`] are stable. The types of the reports' fields are in the hidden modules `rows` and
//! `layout`: what they say is versioned by the schemas, their Rust form may change in any version.
//!
//! Laid out, each is a [`Page`]: headings, tables, lists and sources, which [`Page::text`] writes for a terminal,
//! [`Page::markdown`] for a document and [`Page::html`] as one file with pictures.
//! Decisions are made in [`crate::diagnosis::Advice`]. Here they become data with ids and arguments, and the modules of `words`, one for
//! each language, turn those into sentences.

mod amount;
mod causes;
mod cautions;
mod healthy;
mod hold;
mod hold_page;
mod html;
mod job;
mod job_page;
mod job_steps;
mod markdown;
mod oil_label;
mod page;
mod purity;
mod reading;
mod reading_page;
#[doc(hidden)]
pub mod rows;
#[cfg(feature = "serde")]
mod schema;
mod sources;
mod statement;
mod text;
mod trace;
mod verdict_line;
pub(crate) mod words;

pub use causes::{CauseTexts, percent};
pub use cautions::{Caution, cautions};
pub use hold::{HOLD_SCHEMA, HoldReport, VacuumSetup, hold};
pub use job::{JOB_SCHEMA, JobReport, job};
#[doc(hidden)]
pub use layout::*;
pub use oil_label::oil_label;
pub use page::Page;
pub use purity::{identity, purity};
#[doc(hidden)]
pub use rows::*;
pub use text::folded;
pub use trace::{TRACE_SCHEMA, TraceRow, trace_opening, trace_row};
pub use verdict_line::VerdictLine;
pub use words::Language;

/// The pieces of a [`Page`] and the sentences of a language; they may change in any version.
#[doc(hidden)]
pub mod layout {
    pub use crate::report::page::{Block, Cell, ListMark, Section, Step, Table, Tone};
    pub use crate::report::words::{Label, Reasons, Words};
}

use crate::Refrigerant;
use crate::diagnosis::{Advice, Diagnosis, UnitQuestion};
use crate::quantity::{PressureUnit, Unit};

/// The version of the JSON form; it changes whenever a field changes its name or meaning.
pub const SCHEMA: &str = "satline-reading-5";

/// What the JSON Schema says of a [`Report`].
#[cfg(feature = "schema")]
const DESCRIPTION: &str =
    "A report about one reading: data, ids and arguments, from which a [`Page`] is worded and laid out.";

/// A report about one reading: data, ids and arguments, from which a [`Page`] is worded and laid out.
///
/// The types of its fields are in the hidden module `report::rows`; the JSON Schema describes them.
#[derive(Debug, Clone, PartialEq)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema), schemars(description = DESCRIPTION))]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(deny_unknown_fields))]
#[non_exhaustive]
pub struct Report {
    /// [`SCHEMA`].
    #[cfg_attr(feature = "serde", serde(deserialize_with = "schema::reading"))]
    #[cfg_attr(feature = "schema", schemars(with = "String", extend("const" = SCHEMA)))]
    pub schema: Text,
    /// Designation of the refrigerant.
    pub refrigerant: String,
    /// Running or equalised.
    pub state: ReportedState,
    /// Whether the numbers are invented, as those of a worked example.
    #[cfg_attr(feature = "serde", serde(default))]
    pub invented: bool,
    /// Under what conditions and with which instruments it was read.
    pub opening: Opening,
    /// Numbers that make more sense otherwise than as they were entered.
    pub questions: Vec<UnitQuestion>,
    /// The gauges that were read.
    pub gauges: Vec<GaugeRow>,
    /// Healthy circuits under the conditions of the reading.
    #[cfg_attr(feature = "serde", serde(default, skip_serializing_if = "Option::is_none"))]
    pub healthy: Option<Healthy>,
    /// Causes that explain the reading, where they can be named.
    #[cfg_attr(feature = "serde", serde(default, skip_serializing_if = "Option::is_none"))]
    pub causes: Option<Causes>,
    /// What to make of it, and what to do next.
    pub advice: Advice,
    /// Everything that was set against printed charts and rules of thumb.
    pub results: Vec<ResultRow>,
    /// What both gauges of an equalised circuit say.
    #[cfg_attr(feature = "serde", serde(default, skip_serializing_if = "Option::is_none"))]
    pub equalised: Option<EqualisedRow>,
    /// Chart by chart, what the conditions allow.
    pub charts: Vec<ChartBandRow>,
    /// What it means.
    pub meaning: Vec<Statement>,
    /// What can hurt.
    pub cautions: Vec<Caution>,
    /// Where the numbers come from.
    pub sources: Vec<SourceRow>,
}

/// The figures about one row of a log.
#[derive(Debug, Clone, PartialEq)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(deny_unknown_fields))]
#[non_exhaustive]
pub struct LogRow {
    /// Numbers that make more sense otherwise than as they were entered.
    #[cfg_attr(feature = "serde", serde(default, skip_serializing_if = "Vec::is_empty"))]
    pub questions: Vec<UnitQuestion>,
    /// Both gauges.
    pub gauges: Vec<GaugeRow>,
    /// Everything that was set against a window.
    pub results: Vec<ResultRow>,
    /// What both gauges of an equalised circuit say.
    #[cfg_attr(feature = "serde", serde(default, skip_serializing_if = "Option::is_none"))]
    pub equalised: Option<EqualisedRow>,
}

impl Diagnosis {
    /// The report about it, in the units of what was entered.
    #[must_use]
    pub fn report(&self) -> Report {
        reading::report(self)
    }

    /// Its figures as one row of a log, without the words and sources that are the same for every row.
    #[must_use]
    pub fn log_row(&self) -> LogRow {
        reading::log_row(self)
    }
}

/// The [`cautions`] for a circuit filled with `refrigerant`, in English.
///
/// ```
/// use satline::Refrigerant;
/// use satline::report::caution_sentences;
/// assert!(caution_sentences(Refrigerant::R1234yf).iter().any(|sentence| sentence.contains("flammable")));
/// ```
#[must_use]
pub fn caution_sentences(refrigerant: Refrigerant) -> Vec<String> {
    words::en::reading::caution_sentences(refrigerant)
}

/// A pressure in `unit` without an interval.
pub(crate) fn pressure_amount(value: f64, unit: PressureUnit, decimals: u8) -> Amount {
    Amount::new(value, None, unit.symbol(), decimals)
}

/// The JSON Schema of each kind of report, with the name and version that stands in its field `schema`.
///
/// The same stand in the folder `schema` of the repository.
///
/// ```
/// let schemas = satline::report::json_schemas();
/// assert_eq!(schemas[0].0, "satline-reading-5");
/// assert_eq!(schemas[0].1.get("additionalProperties").and_then(|more| more.as_bool()), Some(false));
/// ```
#[cfg(feature = "schema")]
#[must_use]
pub fn json_schemas() -> [(&'static str, schemars::Schema); 4] {
    [
        (SCHEMA, schemars::schema_for!(Report)),
        (JOB_SCHEMA, schemars::schema_for!(JobReport)),
        (HOLD_SCHEMA, schemars::schema_for!(HoldReport)),
        (TRACE_SCHEMA, schemars::schema_for!(TraceRow)),
    ]
}
