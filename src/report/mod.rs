//! Reports on readings, jobs, tests and logs: data for a program and pages for a person.
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
mod comparison;
mod comparison_page;
mod healthy;
mod hold;
mod hold_page;
mod html;
mod job;
mod job_page;
mod job_steps;
mod job_tasks;
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
pub use comparison::{COMPARISON_SCHEMA, compare};
pub use comparison_page::{comparison_page, customer_page};
pub use hold::{HOLD_SCHEMA, HoldReport, hold, hold_page};
pub use job::{JOB_SCHEMA, JobReport, job, job_page};
#[doc(hidden)]
pub use layout::*;
pub use oil_label::oil_label;
pub use page::Page;
pub use purity::{identity, purity};
#[doc(hidden)]
pub use rows::*;
pub use text::folded;
pub use trace::{TRACE_SCHEMA, TraceRow, trace_opening, trace_opening_in, trace_row, trace_text};
pub use verdict_line::verdict_line;
pub use words::Language;

/// The pieces of a [`Page`] and the sentences of a language; they may change in any version.
#[doc(hidden)]
pub mod layout {
    pub use crate::report::page::{AnswerMark, Block, Cell, Furniture, ListMark, Section, Step, Table, Tone};
    pub use crate::report::words::{Label, Numerals, Reasons, Words};
}

use crate::Refrigerant;
use crate::diagnosis::{Advice, Diagnosis, UnitQuestion};
use crate::inspection::DisplayUnits;
use crate::quantity::{PressureUnit, Unit};

/// Version of the JSON form of a [`Report`]; it changes whenever a field changes its name or meaning.
pub const SCHEMA: &str = "satline-reading-6";

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
    /// Version of the JSON form, [`SCHEMA`].
    #[cfg_attr(feature = "serde", serde(deserialize_with = "schema::reading"))]
    #[cfg_attr(feature = "schema", schemars(with = "String", extend("const" = SCHEMA)))]
    pub schema: Text,
    /// Designation of the refrigerant.
    pub refrigerant: String,
    /// Operating state: running or equalised.
    pub state: ReportedState,
    /// Whether the numbers are invented, as those of a worked example.
    #[cfg_attr(feature = "serde", serde(default))]
    pub invented: bool,
    /// Conditions of the reading, and the instruments it was taken with.
    pub opening: Opening,
    /// Questions about entered numbers whose unit, sign or reference may be wrong.
    pub questions: Vec<UnitQuestion>,
    /// Pressures of the gauges that were read.
    pub gauges: Vec<GaugeRow>,
    /// Reading compared with healthy circuits under its conditions; `None` if none were computed.
    #[cfg_attr(feature = "serde", serde(default, skip_serializing_if = "Option::is_none"))]
    pub healthy: Option<Healthy>,
    /// Causes that explain the reading; `None` if they cannot be named.
    #[cfg_attr(feature = "serde", serde(default, skip_serializing_if = "Option::is_none"))]
    pub causes: Option<Causes>,
    /// Conclusion and recommended next steps.
    pub advice: Advice,
    /// Quantities compared with printed charts and rules of thumb.
    pub results: Vec<ResultRow>,
    /// Both gauges of an equalised circuit compared with saturation; `None` for a running circuit.
    #[cfg_attr(feature = "serde", serde(default, skip_serializing_if = "Option::is_none"))]
    pub equalised: Option<EqualisedRow>,
    /// Bands of the printed charts under the conditions, chart by chart.
    pub charts: Vec<ChartBandRow>,
    /// Meaning of the reading, statement by statement.
    pub meaning: Vec<Statement>,
    /// Safety cautions.
    pub cautions: Vec<Caution>,
    /// Sources of the numbers.
    pub sources: Vec<SourceRow>,
}

/// Figures of one row of a log, without words and sources.
#[derive(Debug, Clone, PartialEq)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(deny_unknown_fields))]
#[non_exhaustive]
pub struct LogRow {
    /// Questions about entered numbers whose unit, sign or reference may be wrong.
    #[cfg_attr(feature = "serde", serde(default, skip_serializing_if = "Vec::is_empty"))]
    pub questions: Vec<UnitQuestion>,
    /// Pressures of the gauges that were read.
    pub gauges: Vec<GaugeRow>,
    /// Quantities compared with a window.
    pub results: Vec<ResultRow>,
    /// Both gauges of an equalised circuit compared with saturation; `None` for a running circuit.
    #[cfg_attr(feature = "serde", serde(default, skip_serializing_if = "Option::is_none"))]
    pub equalised: Option<EqualisedRow>,
}

impl Diagnosis {
    /// The report on this diagnosis, in the units that were entered.
    #[must_use]
    pub fn report(&self) -> Report {
        reading::report(self, &self.entry().units())
    }

    /// The report on this diagnosis, in `units` whatever was entered; only the ambient stays as it was typed.
    ///
    /// ```
    /// use satline::Refrigerant;
    /// use satline::diagnosis::Diagnosis;
    /// use satline::inspection::DisplayUnits;
    /// use satline::quantity::{PressureUnit, TemperatureUnit};
    /// let diagnosis = Diagnosis::of(Refrigerant::R134a).low("29 psi")?.ambient("86 °F")?.run()?;
    /// let report = diagnosis.report_in(&DisplayUnits::new(PressureUnit::Bar, TemperatureUnit::Celsius));
    /// assert_eq!(report.gauges[0].gauge.to_string(), "2.00 ± 0.20 bar");
    /// # Ok::<(), satline::Error>(())
    /// ```
    #[must_use]
    pub fn report_in(&self, units: &DisplayUnits) -> Report {
        reading::report(self, units)
    }

    /// Figures of this diagnosis as one row of a log, without the words and sources that are the same for every row.
    #[must_use]
    pub fn log_row(&self) -> LogRow {
        reading::log_row(self)
    }
}

/// English sentences of the [`cautions()`] for a circuit filled with `refrigerant`; [`Language::cautions`] says the same.
///
/// ```
/// use satline::Refrigerant;
/// use satline::report::caution_sentences;
/// assert!(caution_sentences(Refrigerant::R1234yf).iter().any(|sentence| sentence.contains("flammable")));
/// ```
#[must_use]
pub fn caution_sentences(refrigerant: Refrigerant) -> Vec<String> {
    Language::English.cautions(refrigerant)
}

/// A pressure in `unit` without an interval.
pub(crate) fn pressure_amount(value: f64, unit: PressureUnit, decimals: u8) -> Amount {
    Amount::new(value, None, unit.symbol(), decimals)
}

/// JSON Schema of each kind of report, with the name and version in its field `schema`.
///
/// The same schemas are in the folder `schema` of the repository.
///
/// ```
/// let schemas = satline::report::json_schemas();
/// assert_eq!(schemas[0].0, "satline-reading-6");
/// assert_eq!(schemas[0].1.get("additionalProperties").and_then(|more| more.as_bool()), Some(false));
/// ```
#[cfg(feature = "schema")]
#[must_use]
pub fn json_schemas() -> [(&'static str, schemars::Schema); 5] {
    [
        (SCHEMA, schemars::schema_for!(Report)),
        (JOB_SCHEMA, schemars::schema_for!(JobReport)),
        (HOLD_SCHEMA, schemars::schema_for!(HoldReport)),
        (TRACE_SCHEMA, schemars::schema_for!(TraceRow)),
        (COMPARISON_SCHEMA, schemars::schema_for!(Comparison)),
    ]
}
