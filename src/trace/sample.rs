//! The readings of one moment.

use crate::quantity::Time;
use crate::{Error, GaugePressure, Quantity, Ratio, Temperature};

/// Quantities of a sample: two pressures, four temperatures, the humidity.
pub(super) const CHANNELS: usize = 7;
/// Indices of the channels.
pub(super) const LOW: usize = 0;
pub(super) const HIGH: usize = 1;
pub(super) const SUCTION_LINE: usize = 2;
pub(super) const LIQUID_LINE: usize = 3;
pub(super) const VENT: usize = 4;
pub(super) const AMBIENT: usize = 5;
pub(super) const HUMIDITY: usize = 6;

/// Largest time that is accepted, s, so that sums of squares and of fourth powers stay finite. Our choice: far beyond any
/// instrument, as the three below.
const LARGEST_TIME_S: f64 = 1e13;
/// Largest pressure, kPa; our choice.
const LARGEST_PRESSURE_KPA: f64 = 1e6;
/// Largest temperature, K; our choice.
const LARGEST_TEMPERATURE_K: f64 = 1e4;
/// Largest humidity, %; our choice.
const LARGEST_HUMIDITY_PERCENT: f64 = 1e3;

/// Readings of one moment. Time and both gauges are required.
#[derive(Debug, Clone, Copy, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(deny_unknown_fields))]
pub struct Sample {
    /// Time of the readings, from any origin common to all samples of the trace.
    pub time: Time,
    /// Low-side gauge pressure.
    pub low: GaugePressure,
    /// High-side gauge pressure.
    pub high: GaugePressure,
    /// Temperature of the suction line; `None` if not measured.
    #[cfg_attr(feature = "serde", serde(default, skip_serializing_if = "Option::is_none"))]
    pub suction_line: Option<Temperature>,
    /// Temperature of the liquid line; `None` if not measured.
    #[cfg_attr(feature = "serde", serde(default, skip_serializing_if = "Option::is_none"))]
    pub liquid_line: Option<Temperature>,
    /// Temperature at the centre vent; `None` if not measured.
    #[cfg_attr(feature = "serde", serde(default, skip_serializing_if = "Option::is_none"))]
    pub vent: Option<Temperature>,
    /// Temperature of the ambient air in front of the condenser; `None` if not measured.
    #[cfg_attr(feature = "serde", serde(default, skip_serializing_if = "Option::is_none"))]
    pub ambient: Option<Temperature>,
    /// Relative humidity of the ambient air; `None` if not measured.
    #[cfg_attr(feature = "serde", serde(default, skip_serializing_if = "Option::is_none"))]
    pub humidity: Option<Ratio>,
}

impl Sample {
    /// A sample of the two gauges alone.
    pub fn gauges(time: Time, low: GaugePressure, high: GaugePressure) -> Self {
        Self { time, low, high, suction_line: None, liquid_line: None, vent: None, ambient: None, humidity: None }
    }

    /// Time in seconds.
    ///
    /// # Errors
    /// [`Error::NotFinite`], [`Error::Implausible`].
    pub(super) fn seconds(&self) -> Result<f64, Error> {
        let seconds = self.time.seconds();
        plausible::<Time>(seconds, seconds, (-LARGEST_TIME_S, LARGEST_TIME_S), "s")
    }

    /// SI values by channel; NaN for what was not measured.
    ///
    /// # Errors
    /// [`Error::NotFinite`] for a measured value that is not finite, [`Error::Implausible`] for one beyond any instrument.
    pub(super) fn channels(&self) -> Result<[f64; CHANNELS], Error> {
        let pressure = |p: GaugePressure| {
            plausible::<GaugePressure>(p.si(), p.kpa(), (-LARGEST_PRESSURE_KPA, LARGEST_PRESSURE_KPA), "kPa")
        };
        let temperature = |t: Option<Temperature>| {
            t.map_or(Ok(f64::NAN), |t| plausible::<Temperature>(t.si(), t.kelvin(), (0.0, LARGEST_TEMPERATURE_K), "K"))
        };
        let humidity = |ratio: Option<Ratio>| {
            let range = (-LARGEST_HUMIDITY_PERCENT, LARGEST_HUMIDITY_PERCENT);
            ratio.map_or(Ok(f64::NAN), |ratio| plausible::<Ratio>(ratio.si(), ratio.percent(), range, "%"))
        };
        Ok([
            pressure(self.low)?,
            pressure(self.high)?,
            temperature(self.suction_line)?,
            temperature(self.liquid_line)?,
            temperature(self.vent)?,
            temperature(self.ambient)?,
            humidity(self.humidity)?,
        ])
    }
}

/// `si` if `value`, the same in `unit`, is finite and inside `low` to `high`.
fn plausible<Q: Quantity>(si: f64, value: f64, (low, high): (f64, f64), unit: &'static str) -> Result<f64, Error> {
    if !si.is_finite() {
        return Err(Error::NotFinite { what: Q::NAME, text: si.to_string() });
    }
    if !(low <= value && value <= high) {
        return Err(Error::Implausible { what: Q::NAME, value, low, high, unit });
    }
    Ok(si)
}
