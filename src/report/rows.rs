//! Types of the fields of the reports, as JSON writes them. The JSON Schema of each report describes them and its version counts
//! their changes; the Rust types may change in any version.

use std::borrow::Cow;

use crate::diagnosis::JudgedQuantity;
use crate::expected::{EqualisedVerdict, Side};
use crate::quantity::Position;

pub use super::amount::{Amount, Span, VerdictCell};
pub use super::causes::{CauseRow, Causes, FaultSizeRow, NextRow, OutcomeRow, PredictedRow, PrintRow};
pub use super::comparison::{Comparison, ComparisonOutcome, LedRow, Shift, ShiftRow};
pub use super::healthy::{Healthy, HealthyRow};
pub use super::hold::{
    AcceptanceRow, FigureRow, FitFigure, GasFlow, HoldCaution, HoldNext, HoldOpening, HoldStatement, LimitRow, Observed,
};
pub use super::job::{JobOpening, Measurement, StepFigure, StepRow, WindowGround, WindowName, WindowRow};
pub use super::job_tasks::*;
pub use super::oil_label::{BesideRow, LabelStatement};
pub use super::reading::{AirSource, InstrumentRow, Opening};
pub use super::sources::{SourceRow, SourceTopic};
pub use super::statement::Statement;
pub use super::trace::{CyclingRow, LogFigure, LogQuantity, TraceKind, TrendRow};

/// Text: words of the crate, or words read back from JSON.
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

/// Both gauges of an equalised circuit compared with saturation.
#[derive(Debug, Clone, PartialEq)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(deny_unknown_fields))]
#[non_exhaustive]
pub struct EqualisedRow {
    /// Verdict on the equalised circuit.
    pub verdict: EqualisedVerdict,
    /// Probability of the verdict; `None` at saturation, where agreement is all that can be stated.
    #[cfg_attr(feature = "serde", serde(default, skip_serializing_if = "Option::is_none"))]
    pub probability: Option<f64>,
    /// Difference of the gauges, high side minus low side.
    pub difference: Amount,
    /// Smallest difference from saturation that these instruments would show.
    pub noticeable: Amount,
}

/// One gauge that was read, with its saturation temperatures.
#[derive(Debug, Clone, PartialEq)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(deny_unknown_fields))]
#[non_exhaustive]
pub struct GaugeRow {
    /// Side of the gauge: low or high.
    pub side: Side,
    /// Gauge pressure as read.
    pub gauge: Amount,
    /// Absolute pressure.
    pub absolute: Amount,
    /// Saturation temperature, of the dew line for a blend; `None` above the critical pressure.
    #[cfg_attr(feature = "serde", serde(default, skip_serializing_if = "Option::is_none"))]
    pub saturation: Option<Amount>,
    /// Saturation temperature of the bubble line; `None` for a pure fluid.
    #[cfg_attr(feature = "serde", serde(default, skip_serializing_if = "Option::is_none"))]
    pub bubble: Option<Amount>,
}

/// Basis of a window.
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

/// A value compared with its window.
#[derive(Debug, Clone, PartialEq)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(deny_unknown_fields))]
#[non_exhaustive]
pub struct ResultRow {
    /// Quantity that is judged.
    pub quantity: JudgedQuantity,
    /// Value of the quantity.
    pub value: Amount,
    /// Window of usual values; `None` if nothing is known.
    #[cfg_attr(feature = "serde", serde(default, skip_serializing_if = "Option::is_none"))]
    pub window: Option<Span>,
    /// Basis of the window.
    pub basis: WindowBasis,
    /// Verdict on the value against the window.
    #[cfg_attr(feature = "serde", serde(default, skip_serializing_if = "Option::is_none"))]
    pub verdict: Option<VerdictCell>,
}

/// Bands of one chart under the conditions.
#[derive(Debug, Clone, PartialEq)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(deny_unknown_fields))]
#[non_exhaustive]
pub struct ChartBandRow {
    /// Short name of the chart.
    pub chart: Text,
    /// System that the chart was printed for.
    pub system: Text,
    /// Low-side gauge pressure by the chart.
    #[cfg_attr(feature = "serde", serde(default, skip_serializing_if = "Option::is_none"))]
    pub low: Option<ChartCell>,
    /// High-side gauge pressure by the chart.
    #[cfg_attr(feature = "serde", serde(default, skip_serializing_if = "Option::is_none"))]
    pub high: Option<ChartCell>,
    /// Centre-vent temperature by the chart.
    #[cfg_attr(feature = "serde", serde(default, skip_serializing_if = "Option::is_none"))]
    pub vent: Option<ChartCell>,
    /// Remarks on the chart under these conditions.
    pub marks: Vec<Mark>,
}

/// Band of one chart for one quantity, and the position of the reading.
#[derive(Debug, Clone, PartialEq)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(deny_unknown_fields))]
#[non_exhaustive]
pub struct ChartCell {
    /// Window that the chart allows.
    pub window: Span,
    /// Position of the reading relative to the window, by its best estimate.
    pub position: Position,
}

/// A remark on a chart under these conditions.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(rename_all = "kebab-case"))]
#[non_exhaustive]
pub enum Mark {
    /// Printed for another refrigerant and carried over at equal saturation temperature.
    CarriedOver,
    /// Printed for another humidity than that of the conditions.
    OtherHumidity,
    /// One range printed for all temperatures that the chart covers.
    OneRange,
    /// Common practice, from memory, and not counted in the band.
    NotCounted,
    /// The middle of its band lies outside nine tenths of the circuits computed for the conditions.
    OtherCars,
}
