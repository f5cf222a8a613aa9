//! The form of a printed chart: pressures and vent temperatures to expect by the weather.

use crate::{GaugePressure, Pressure, Range, Ratio, Refrigerant, Source, Temperature};

/// A published chart or table, row by row as printed.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Chart {
    /// Short name in this crate, also the key of the source register.
    pub id: &'static str,
    /// System that was tested, in a few words: "US Army wheel loader", "car of 2010, variable compressor".
    pub system: &'static str,
    /// Refrigerant that the chart is printed for.
    pub refrigerant: Refrigerant,
    /// Authority of the chart: who vouches for it.
    pub authority: Authority,
    /// Test conditions as the source asks for them: engine speed, blower, doors and so on.
    pub conditions: &'static str,
    /// Place where the air temperature of the rows is taken.
    pub air: AirPlace,
    /// The rows, by rising temperature, and by humidity within one temperature.
    pub rows: &'static [ChartRow],
    /// Notes on misprints, doubts and what was cut off.
    pub note: &'static str,
    /// Source of the chart.
    pub source: Source,
}

/// Authority of a chart: who vouches for it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Authority {
    /// A table by temperature of a vehicle maker or a government.
    Ladder,
    /// A value of a vehicle maker for one temperature or one range of it.
    Single,
    /// Common practice, no source: nobody vouches for it.
    Habit,
}

/// Place where the air temperature of a chart is taken.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum AirPlace {
    /// Outside air, before the condenser.
    Ambient,
    /// Air drawn in by the blower; with recirculation the air of the cabin.
    BlowerInlet,
}

/// One row of a chart; what the source does not print is `None`.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ChartRow {
    /// Air temperature: one value (both ends equal) or the interval the row covers.
    pub air: Range<Temperature>,
    /// Relative humidity the row is for.
    pub humidity: Option<Range<Ratio>>,
    /// Low-side gauge pressure.
    pub low: Option<Range<GaugePressure>>,
    /// High-side gauge pressure.
    pub high: Option<Range<GaugePressure>>,
    /// Temperature at the centre vent.
    pub vent: Option<Range<Temperature>>,
}

/// Air pressure at which the charts are read: none states one, so sea level is taken.
pub const CHART_AIR: Pressure = Pressure::STANDARD_ATMOSPHERE;

/// An equalised pressure as a maker prints it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct EqualisedPressure {
    /// Temperature of circuit and surroundings.
    pub ambient: Temperature,
    /// Absolute equalised pressure; gauge values are read at [`CHART_AIR`].
    pub pressure: Pressure,
    /// Whether the source says "at least".
    pub at_least: bool,
    /// Source of the value.
    pub source: Source,
}
