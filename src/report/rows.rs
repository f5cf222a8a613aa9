//! What the fields of the reports hold, as JSON writes them. The JSON Schema of each report describes them and its version counts
//! their changes; the Rust types may change in any version.

use std::borrow::Cow;

use crate::diagnosis::JudgedQuantity;
use crate::expected::{EqualisedVerdict, Position, Side};

pub use super::amount::{Amount, Span, VerdictCell};
pub use super::causes::{CauseRow, Causes, FaultSizeRow, NextRow, OutcomeRow, PredictedRow, PrintRow};
pub use super::healthy::{Healthy, HealthyRow};
pub use super::hold::{AcceptanceRow, FigureRow};
pub use super::job::{StepFigure, StepRow, WindowRow};
pub use super::reading::{AirSource, InstrumentRow, Opening};
pub use super::sources::{SourceRow, SourceTopic};
pub use super::statement::Statement;
pub use super::trace::{TraceKind, TrendRow};

/// Words of the crate, or words read back from JSON.
pub type Text = Cow<'static, str>;

/// The operating state that a report is about.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(rename_all = "kebab-case"))]
#[non_exhaustive]
pub enum ReportedState {
    /// Compressor running.
    Running,
    /// Engine off, equalised.
    Equalised,
}

/// What both gauges of an equalised circuit say.
#[derive(Debug, Clone, PartialEq)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(deny_unknown_fields))]
#[non_exhaustive]
pub struct EqualisedRow {
    /// The verdict.
    pub verdict: EqualisedVerdict,
    /// Its probability; `None` at saturation, where agreement is all one can state.
    #[cfg_attr(feature = "serde", serde(default, skip_serializing_if = "Option::is_none"))]
    pub probability: Option<f64>,
    /// High side minus low side.
    pub difference: Amount,
    /// The smallest difference from saturation that these instruments would show.
    pub noticeable: Amount,
}

/// One gauge.
#[derive(Debug, Clone, PartialEq)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(deny_unknown_fields))]
#[non_exhaustive]
pub struct GaugeRow {
    /// Low or high side.
    pub side: Side,
    /// As read.
    pub gauge: Amount,
    /// Above vacuum.
    pub absolute: Amount,
    /// Saturation temperature, of the dew line for a blend; `None` above the critical pressure.
    #[cfg_attr(feature = "serde", serde(default, skip_serializing_if = "Option::is_none"))]
    pub saturation: Option<Amount>,
    /// Saturation temperature of the bubble line of a blend.
    #[cfg_attr(feature = "serde", serde(default, skip_serializing_if = "Option::is_none"))]
    pub bubble: Option<Amount>,
}

/// What a window rests on.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(rename_all = "kebab-case"))]
#[non_exhaustive]
pub enum WindowBasis {
    /// The band over all charts that cover the conditions.
    Charts,
    /// A rule of thumb: common practice, no source.
    RuleOfThumb,
    /// Saturation at the temperature of the circuit, with the interval of thermometer and air pressure.
    Saturation,
}

/// A value against its window.
#[derive(Debug, Clone, PartialEq)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(deny_unknown_fields))]
#[non_exhaustive]
pub struct ResultRow {
    /// What it is.
    pub quantity: JudgedQuantity,
    /// The value.
    pub value: Amount,
    /// What is usual; `None` where nothing is known.
    #[cfg_attr(feature = "serde", serde(default, skip_serializing_if = "Option::is_none"))]
    pub window: Option<Span>,
    /// What the window rests on.
    pub basis: WindowBasis,
    /// The verdict.
    #[cfg_attr(feature = "serde", serde(default, skip_serializing_if = "Option::is_none"))]
    pub verdict: Option<VerdictCell>,
}

/// What one chart says about the conditions.
#[derive(Debug, Clone, PartialEq)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(deny_unknown_fields))]
#[non_exhaustive]
pub struct ChartBandRow {
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
#[non_exhaustive]
pub struct ChartCell {
    /// What it allows.
    pub window: Span,
    /// Where the reading lies, going by its best estimate.
    pub position: Position,
}

/// What to keep in mind about a chart under these conditions.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(rename_all = "kebab-case"))]
#[non_exhaustive]
pub enum Mark {
    /// Printed for another refrigerant and carried over at equal saturation temperature.
    CarriedOver,
    /// Printed for another humidity than the day's.
    OtherHumidity,
    /// One range for all temperatures it covers.
    OneRange,
    /// Common practice, from memory, and not counted in the band.
    NotCounted,
    /// The middle of its band lies outside nine tenths of the circuits computed for the conditions.
    OtherCars,
}
