//! What was read at one moment.

use crate::quantity::Time;
use crate::{Error, GaugePressure, Quantity, Ratio, Temperature};

/// Quantities of a sample: both gauges, four temperatures, the humidity.
pub(super) const CHANNELS: usize = 7;
/// Where the gauges stand among them.
pub(super) const LOW: usize = 0;
pub(super) const HIGH: usize = 1;

/// Readings of one moment. Only time and gauges are a must.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Sample {
    /// When; from any zero, as long as all samples of a trace share it.
    pub time: Time,
    /// Low-side gauge.
    pub low: GaugePressure,
    /// High-side gauge.
    pub high: GaugePressure,
    /// Thermometer on the suction line.
    pub suction_line: Option<Temperature>,
    /// Thermometer on the liquid line.
    pub liquid_line: Option<Temperature>,
    /// Thermometer at the centre vent.
    pub vent: Option<Temperature>,
    /// Outside air before the condenser.
    pub ambient: Option<Temperature>,
    /// Relative humidity of that air.
    pub humidity: Option<Ratio>,
}

impl Sample {
    /// Just the two gauges.
    pub fn gauges(time: Time, low: GaugePressure, high: GaugePressure) -> Self {
        Self { time, low, high, suction_line: None, liquid_line: None, vent: None, ambient: None, humidity: None }
    }

    /// SI values in a fixed order; what was not measured is NaN.
    ///
    /// # Errors
    /// [`Error::NotFinite`] for a value that was measured and is no finite number.
    pub(super) fn channels(&self) -> Result<[f64; CHANNELS], Error> {
        let si = |t: Option<Temperature>| finite::<Temperature>(t.map(Quantity::si));
        Ok([
            finite::<GaugePressure>(Some(self.low.si()))?,
            finite::<GaugePressure>(Some(self.high.si()))?,
            si(self.suction_line)?,
            si(self.liquid_line)?,
            si(self.vent)?,
            si(self.ambient)?,
            finite::<Ratio>(self.humidity.map(Quantity::si))?,
        ])
    }
}

/// `value` where it is a finite number, NaN where there is none.
pub(super) fn finite<Q: Quantity>(value: Option<f64>) -> Result<f64, Error> {
    match value {
        Some(value) if !value.is_finite() => Err(Error::NotFinite { what: Q::NAME, text: value.to_string() }),
        value => Ok(value.unwrap_or(f64::NAN)),
    }
}
