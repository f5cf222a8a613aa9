//! Findings of a trace: steady periods, transients, gaps.

use super::cycling::Cycling;
use super::trend::Trend;
use crate::quantity::Time;
use crate::{GaugePressure, Ratio, Temperature};

/// One finding of a [`Trace`](super::Trace), in the order of the log.
#[derive(Debug, Clone, PartialEq)]
#[cfg_attr(
    feature = "serde",
    derive(serde::Serialize, serde::Deserialize),
    serde(rename_all = "kebab-case", deny_unknown_fields)
)]
#[non_exhaustive]
pub enum TraceFinding {
    /// A steady period: both sides are steady, or drift slowly.
    Steady(Box<SteadyPeriod>),
    /// Clutch cycling.
    Cycling(Cycling),
    /// A transient: pressures change, without cycling that could be established.
    #[non_exhaustive]
    Transient {
        /// Time at which the transient begins.
        from: Time,
        /// Time at which the transient ends.
        to: Time,
        /// Low-side gauge pressure at the beginning.
        low_at_start: GaugePressure,
        /// Low-side gauge pressure at the end.
        low_at_end: GaugePressure,
        /// High-side gauge pressure at the beginning.
        high_at_start: GaugePressure,
        /// High-side gauge pressure at the end.
        high_at_end: GaugePressure,
        /// Number of consecutive flanks of the low side that the high side mirrored, too few to establish clutch cycling.
        mirrored_flanks: usize,
    },
    /// A gap without readings; what comes after is not joined to what was before.
    Gap {
        /// Time of the last reading before the gap.
        from: Time,
        /// Time of the first reading after the gap.
        to: Time,
    },
    /// A clock reset: times jump back, as the clock was set back or another log follows.
    ClockReset {
        /// Time of the last reading before the jump.
        from: Time,
        /// Time of the first reading after the jump.
        to: Time,
    },
}

/// Kind of a [`SteadyPeriod`].
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
    /// Time of the first reading.
    pub from: Time,
    /// Time of the last reading.
    pub to: Time,
    /// Number of readings.
    pub readings: u64,
    /// Kind of the period.
    pub kind: SteadyKind,
    /// Trend of the low-side gauge pressure.
    pub low: Trend<GaugePressure>,
    /// Trend of the high-side gauge pressure.
    pub high: Trend<GaugePressure>,
    /// Trend of the suction-line temperature; `None` if it was not logged.
    pub suction_line: Option<Trend<Temperature>>,
    /// Trend of the liquid-line temperature; `None` if it was not logged.
    pub liquid_line: Option<Trend<Temperature>>,
    /// Trend of the centre-vent temperature; `None` if it was not logged.
    pub vent: Option<Trend<Temperature>>,
    /// Trend of the ambient temperature; `None` if it was not logged.
    pub ambient: Option<Trend<Temperature>>,
    /// Trend of the relative humidity of the ambient air; `None` if it was not logged.
    pub humidity: Option<Trend<Ratio>>,
}
