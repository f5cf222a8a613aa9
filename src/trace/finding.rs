//! What a trace reports: steady periods, transients, gaps.

use super::cycling::Cycling;
use super::trend::Trend;
use crate::quantity::Time;
use crate::{GaugePressure, Ratio, Temperature};

/// One finding of a [`Trace`](super::Trace), in the order of the log.
#[derive(Debug, Clone, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(rename_all = "kebab-case"))]
#[non_exhaustive]
pub enum TraceFinding {
    /// Both sides are steady, or drift slowly.
    Steady(Box<SteadyPeriod>),
    /// The clutch cycles.
    Cycling(Cycling),
    /// Pressures change, without cycling that could be established.
    Transient(Transient),
    /// No readings for a while; what comes after is not joined to what was before.
    Gap(LogGap),
    /// Times jump back: the clock was set back, or another log follows.
    ClockReset(LogGap),
}

/// What a [`SteadyPeriod`] is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(rename_all = "kebab-case"))]
#[non_exhaustive]
pub enum SteadyKind {
    /// Neither side moves.
    Steady,
    /// At least one side drifts.
    Drifting,
    /// Both sides agree within the uncertainty of two gauges, and neither drifts: engine off, or a compressor that does not
    /// pump.
    Equalised,
    /// Equalised below the pressure of the air: the circuit is evacuated.
    EqualisedVacuum,
    /// Both sides scatter by more than their tolerance and anticorrelate: something switches faster than the readings
    /// resolve.
    FastSwitching,
}

/// A period over which neither side moves by more than the uncertainty of its gauge within a minute.
#[derive(Debug, Clone, Copy, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(deny_unknown_fields))]
#[non_exhaustive]
pub struct SteadyPeriod {
    /// First reading.
    pub from: Time,
    /// Last reading.
    pub to: Time,
    /// Number of readings.
    pub readings: u64,
    /// What the period is.
    pub kind: SteadyKind,
    /// Low-side gauge.
    pub low: Trend<GaugePressure>,
    /// High-side gauge.
    pub high: Trend<GaugePressure>,
    /// Suction line.
    pub suction_line: Option<Trend<Temperature>>,
    /// Liquid line.
    pub liquid_line: Option<Trend<Temperature>>,
    /// Centre vent.
    pub vent: Option<Trend<Temperature>>,
    /// Ambient air.
    pub ambient: Option<Trend<Temperature>>,
    /// Relative humidity of the ambient air.
    pub humidity: Option<Trend<Ratio>>,
}

/// A time over which pressures change.
#[derive(Debug, Clone, Copy, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(deny_unknown_fields))]
#[non_exhaustive]
pub struct Transient {
    /// Where it begins.
    pub from: Time,
    /// Where it ends.
    pub to: Time,
    /// Low side where it begins.
    pub low_at_start: GaugePressure,
    /// Low side where it ends.
    pub low_at_end: GaugePressure,
    /// High side where it begins.
    pub high_at_start: GaugePressure,
    /// High side where it ends.
    pub high_at_end: GaugePressure,
    /// Consecutive flanks of the low side that the high side mirrored, too few to establish clutch cycling.
    pub mirrored_flanks: usize,
}

/// The time between two readings that are not joined.
#[derive(Debug, Clone, Copy, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(deny_unknown_fields))]
#[non_exhaustive]
pub struct LogGap {
    /// Last reading before it.
    pub from: Time,
    /// First reading after it.
    pub to: Time,
}
