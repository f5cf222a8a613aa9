//! Standard uncertainties of instrument readings: classes of gauges and thermometers, and what they contribute.
//!
//! A limit of error ±a without further knowledge is taken as a rectangular distribution: standard uncertainty a/√3
//! (JCGM 100:2008, 4.3.7, clause text from memory).

use super::{
    GaugePressure, Measured, Pressure, PressureDifference, Quantity, Range, Ratio, SQRT_3, Temperature,
    TemperatureDifference, Uncertainty,
};
use crate::{Error, Source, Sourced, Trust};

/// Pressure gauge, described by its scale and its limit of error as a fraction of the span.
///
/// ```
/// use approx::assert_abs_diff_eq;
/// use satline::quantity::instrument::PressureGauge;
/// use satline::GaugePressure;
/// let low = PressureGauge::SERVICE_LOW.read(GaugePressure::from_psi(32.0))?;
/// // class 1.6 on a span of 11.01 bar: ±0.176 bar at most, 0.102 bar as a standard uncertainty
/// assert_abs_diff_eq!(low.standard_uncertainty().bar(), 0.1017, epsilon = 1e-4); // its last digit
/// assert!(PressureGauge::SERVICE_LOW.read(GaugePressure::from_bar(16.0)).is_err());
/// # Ok::<(), satline::Error>(())
/// ```
///
/// With feature `serde` a gauge is written as its name, scale and limit of error. The name must be that of a gauge of this
/// page, [`PressureGauge::digital`] included, and brings the source with it.
#[derive(Debug, Clone, Copy, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize), serde(into = "WrittenGauge"))]
pub struct PressureGauge {
    /// Name of the gauge in messages.
    pub name: &'static str,
    /// Scale of the gauge, from its lowest to its highest reading.
    pub scale: Range<GaugePressure>,
    /// Limit of error, as a fraction of the span.
    pub limit: Ratio,
    /// Source of the limit of error.
    pub source: Source,
}

/// Lower end of the scale of a compound gauge, bar: full vacuum at sea level.
const VACUUM: f64 = -1.013_25;

/// Full vacuum as a gauge reads it in the densest air cars are serviced in, 110 kPa.
const LOWEST_VACUUM: GaugePressure = GaugePressure::from_kpa(-110.0);

/// Accuracy classes of EN 837-1; which of them a service gauge has is common practice, not standard.
const GAUGE_CLASS: Source = Source {
    work: "EN 837-1:1996, accuracy classes",
    locator: "table 11; class and scale of a service gauge: common practice",
    doi: None,
    trust: Trust::CommonPractice,
};

impl PressureGauge {
    /// Analogue low-side gauge of a service set: vacuum to 10 bar, class 1.6.
    pub const SERVICE_LOW: Self = Self::analogue("low-side service gauge", VACUUM, 10.0);
    /// Analogue high-side gauge of a service set: vacuum to 35 bar, class 1.6.
    pub const SERVICE_HIGH: Self = Self::analogue("high-side service gauge", VACUUM, 35.0);
    /// Analogue low-side gauge for R-744: 0 to 100 bar, class 1.6.
    pub const CARBON_DIOXIDE_LOW: Self = Self::analogue("R-744 low-side service gauge", 0.0, 100.0);
    /// Analogue high-side gauge for R-744: 0 to 160 bar, class 1.6.
    pub const CARBON_DIOXIDE_HIGH: Self = Self::analogue("R-744 high-side service gauge", 0.0, 160.0);

    const fn analogue(name: &'static str, low_bar: f64, high_bar: f64) -> Self {
        Self {
            name,
            scale: Range::new(GaugePressure::from_bar(low_bar), GaugePressure::from_bar(high_bar)),
            limit: Ratio::from_percent(1.6),
            source: GAUGE_CLASS,
        }
    }

    /// Gauge of the same class with a scale that ends at `full_scale`.
    ///
    /// # Errors
    /// [`Error::Impossible`] for a full scale that is not above zero.
    pub fn up_to(self, full_scale: GaugePressure) -> Result<Self, Error> {
        if !(full_scale.si() > 0.0 && full_scale.si().is_finite()) {
            return Err(Error::Impossible { what: "full scale (bar)", value: full_scale.bar(), must: "above zero" });
        }
        Ok(Self { scale: Range::new(self.scale.low, full_scale), ..self })
    }

    /// Gauge of the same scale with another limit of error, as a fraction of its span.
    ///
    /// # Errors
    /// [`Error::Impossible`] for a limit that is not above zero, or above 20 %, which is no gauge any more.
    pub fn within(self, limit: Ratio) -> Result<Self, Error> {
        if !(limit.fraction() > 0.0 && limit.fraction() <= 0.2) {
            return Err(Error::Impossible {
                what: "limit of error (%)",
                value: limit.percent(),
                must: "above 0 and at most 20",
            });
        }
        Ok(Self { limit, ..self })
    }

    /// Digital pressure probe with the scale of this gauge and a limit of error of 1 % of the span.
    #[must_use]
    pub const fn digital(self) -> Self {
        Self {
            name: "digital probe",
            limit: Ratio::from_percent(1.0),
            source: Source {
                work: "digital pressure probes for the field, 0.5 to 1 % of span",
                locator: "",
                doi: None,
                trust: Trust::FromMemory,
            },
            ..self
        }
    }

    /// Gauge reading with its standard uncertainty, limit × span / √3.
    ///
    /// # Errors
    /// [`Error::BeyondScale`] for a reading that is not on the scale; [`Error::NotFinite`].
    pub fn read(&self, reading: GaugePressure) -> Result<Measured<GaugePressure>, Error> {
        if !reading.si().is_finite() {
            return Err(Error::not_finite(GaugePressure::NAME, reading.si()));
        }
        // where a compound gauge's scale begins at vacuum, it begins there on a day of high air pressure too
        let begins = if self.scale.low.bar() <= VACUUM { LOWEST_VACUUM } else { self.scale.low };
        if !Range::new(begins, self.scale.high).contains(reading) {
            return Err(Error::BeyondScale {
                what: "gauge pressure",
                instrument: self.name,
                value: reading.bar(),
                low: self.scale.low.bar(),
                high: self.scale.high.bar(),
                unit: "bar",
            });
        }
        let span = self.scale.high - self.scale.low;
        Measured::new(reading, span * (self.limit.fraction() / SQRT_3))
    }
}

/// Gauges that a name in a file can mean.
#[cfg(feature = "serde")]
const GAUGES: [PressureGauge; 5] = [
    PressureGauge::SERVICE_LOW,
    PressureGauge::SERVICE_HIGH,
    PressureGauge::CARBON_DIOXIDE_LOW,
    PressureGauge::CARBON_DIOXIDE_HIGH,
    PressureGauge::SERVICE_LOW.digital(),
];

/// Thermometers that a name in a file can mean.
#[cfg(feature = "serde")]
const THERMOMETERS: [Thermometer; 4] = [
    Thermometer::CLAMPED_THERMOCOUPLE,
    Thermometer::THERMOCOUPLE_IN_AIR,
    Thermometer::DIGITAL_IN_AIR,
    Thermometer::CLAMPED_DIGITAL,
];

/// Gauge as written in a file: its name determines the source, which is not written.
#[cfg(feature = "serde")]
#[derive(serde::Serialize, serde::Deserialize)]
#[serde(rename = "PressureGauge", deny_unknown_fields)]
struct WrittenGauge {
    name: String,
    scale: Range<GaugePressure>,
    limit: Ratio,
}

#[cfg(feature = "serde")]
impl TryFrom<WrittenGauge> for PressureGauge {
    type Error = Error;
    fn try_from(WrittenGauge { name, scale, limit }: WrittenGauge) -> Result<Self, Error> {
        let Some(known) = GAUGES.iter().find(|gauge| gauge.name == name) else {
            return Err(Error::UnknownInstrument { name, known: GAUGES.map(|gauge| gauge.name).to_vec() });
        };
        let span = scale.high - scale.low;
        // what is not a number is no span
        if span.si().partial_cmp(&0.0) != Some(core::cmp::Ordering::Greater) {
            return Err(Error::Impossible { what: "span of the scale (bar)", value: span.bar(), must: "above zero" });
        }
        Self { scale, ..*known }.within(limit)
    }
}

#[cfg(feature = "serde")]
impl<'de> serde::Deserialize<'de> for PressureGauge {
    fn deserialize<D: serde::Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        let written: WrittenGauge = serde::Deserialize::deserialize(deserializer)?;
        written.try_into().map_err(serde::de::Error::custom)
    }
}

#[cfg(feature = "serde")]
impl From<PressureGauge> for WrittenGauge {
    fn from(PressureGauge { name, scale, limit, .. }: PressureGauge) -> Self {
        Self { name: name.to_owned(), scale, limit }
    }
}

/// Thermometer as written in a file: its name determines the source, which is not written.
#[cfg(feature = "serde")]
#[derive(serde::Serialize, serde::Deserialize)]
#[serde(rename = "Thermometer", deny_unknown_fields)]
struct WrittenThermometer {
    name: String,
    limit: TemperatureDifference,
    contact: Ratio,
}

#[cfg(feature = "serde")]
impl TryFrom<WrittenThermometer> for Thermometer {
    type Error = Error;
    fn try_from(WrittenThermometer { name, limit, contact }: WrittenThermometer) -> Result<Self, Error> {
        let Some(known) = THERMOMETERS.iter().find(|known| known.name == name) else {
            return Err(Error::UnknownInstrument { name, known: THERMOMETERS.map(|known| known.name).to_vec() });
        };
        if limit.si() < 0.0 {
            return Err(Error::Impossible { what: "limit of error (K)", value: limit.kelvins(), must: "zero or more" });
        }
        if !(0.0..=1.0).contains(&contact.fraction()) {
            let value = contact.percent();
            return Err(Error::Impossible { what: "limit of error of the contact (%)", value, must: "from 0 to 100" });
        }
        Ok(Self { limit, contact, ..*known })
    }
}

#[cfg(feature = "serde")]
impl<'de> serde::Deserialize<'de> for Thermometer {
    fn deserialize<D: serde::Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        let written: WrittenThermometer = serde::Deserialize::deserialize(deserializer)?;
        written.try_into().map_err(serde::de::Error::custom)
    }
}

#[cfg(feature = "serde")]
impl From<Thermometer> for WrittenThermometer {
    fn from(Thermometer { name, limit, contact, .. }: Thermometer) -> Self {
        Self { name: name.to_owned(), limit, contact }
    }
}

/// Thermometer, described by its limit of error and, if clamped on a tube, by the fraction of the tube-to-air
/// temperature difference that the contact may lose.
///
/// ```
/// use approx::assert_abs_diff_eq;
/// use satline::quantity::instrument::Thermometer;
/// use satline::Temperature;
/// let air = Some(Temperature::from_celsius(30.0));
/// let pipe = Thermometer::CLAMPED_THERMOCOUPLE.read(Temperature::from_celsius(8.0), air)?;
/// // ±1.5 K of the wire and ±0.72 K of the clamp, each over √3
/// assert_abs_diff_eq!(pipe.standard_uncertainty().kelvins(), 0.960, epsilon = 1e-3); // its last digit
/// # Ok::<(), satline::Error>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize), serde(into = "WrittenThermometer"))]
pub struct Thermometer {
    /// Name of the thermometer in messages.
    pub name: &'static str,
    /// Limit of error of the sensor.
    pub limit: TemperatureDifference,
    /// Limit of error of the contact, as a fraction of the difference between tube and air; zero in an air stream.
    pub contact: Ratio,
    /// Source of the sensor's limit of error.
    pub source: Source,
}

/// Largest contact error of a clamp: a test requires 1.3 °F or better at 40 °F above or below the air.
const CLAMP: Ratio = Ratio::from_fraction(1.3 / 40.0);

/// Source of the clamp's limit of error: an acceptance limit, used as a limit of error for want of measured ones.
pub const CLAMP_SOURCE: Source = Source {
    work: "California Title 24, 2008 Residential Appendix RA3.2.2.2",
    locator: "pipe temperature sensors: 1.3 °F at 40 °F from the surroundings, taken as the limit of error",
    doi: None,
    trust: Trust::Excerpt,
};

/// Difference between tube and air assumed when the air temperature is not known: that of the test in [`CLAMP_SOURCE`].
const ASSUMED_DIFFERENCE: TemperatureDifference = TemperatureDifference::from_fahrenheit_steps(40.0);

const TYPE_K: Source = Source {
    work: "IEC 60584-1:2013, thermocouple tolerances",
    locator: "type K, class 1: 1.5 °C from −40 to 375 °C",
    doi: None,
    trust: Trust::Weak,
};

impl Thermometer {
    /// Type K thermocouple, class 1, clamped on a tube and insulated.
    pub const CLAMPED_THERMOCOUPLE: Self = Self {
        name: "thermocouple clamped on the line",
        limit: TemperatureDifference::from_kelvins(1.5),
        contact: CLAMP,
        source: TYPE_K,
    };
    /// Type K thermocouple, class 1, in an air stream.
    pub const THERMOCOUPLE_IN_AIR: Self = Self {
        name: "thermocouple in air",
        limit: TemperatureDifference::from_kelvins(1.5),
        contact: Ratio::from_fraction(0.0),
        source: TYPE_K,
    };
    /// Digital thermistor thermometer in an air stream, ±1 K overall.
    pub const DIGITAL_IN_AIR: Self = Self {
        name: "digital thermometer in air",
        limit: TemperatureDifference::from_kelvins(1.0),
        contact: Ratio::from_fraction(0.0),
        source: THERMISTOR,
    };
    /// Digital thermistor thermometer clamped on a tube, ±1 K plus the error of the clamp.
    pub const CLAMPED_DIGITAL: Self = Self {
        name: "digital thermometer clamped on the line",
        limit: TemperatureDifference::from_kelvins(1.0),
        contact: CLAMP,
        source: THERMISTOR,
    };

    /// Thermometer reading with its standard uncertainty, √(limit² + (contact × |reading − air|)²)/√3.
    ///
    /// Without the air temperature a difference of 40 °F is assumed, that of the test in [`CLAMP_SOURCE`].
    ///
    /// # Errors
    /// [`Error::NotFinite`] for a reading or an air temperature that is not a finite number.
    pub fn read(&self, reading: Temperature, air: Option<Temperature>) -> Result<Measured<Temperature>, Error> {
        let difference = air.map_or(ASSUMED_DIFFERENCE, |air| reading - air);
        let limit = TemperatureDifference::combine(&[self.limit, difference * self.contact.fraction()]);
        if !difference.si().is_finite() {
            return Err(Error::not_finite(Temperature::NAME, difference.si()));
        }
        Measured::new(reading, limit / SQRT_3)
    }
}

const THERMISTOR: Source = Source {
    work: "digital thermometers with a thermistor, 0.5 to 1 °C as a whole",
    locator: "",
    doi: None,
    trust: Trust::FromMemory,
};

/// Air pressures where cars are serviced, from the highest roads to the densest air below sea level; common practice, no source.
pub(crate) const PLAUSIBLE_AIR_PRESSURE: Range<Pressure> =
    Range::new(Pressure::from_kpa(40.0), Pressure::from_kpa(110.0));

/// Ambient temperatures in which cars are serviced, beyond which the unit is wrong; common practice, no source.
#[cfg(feature = "service")]
pub(crate) const PLAUSIBLE_AMBIENT: Range<Temperature> =
    Range::new(Temperature::from_celsius(-60.0), Temperature::from_celsius(60.0));

/// Limit of error of a barometer, or of a weather report for this place and hour.
pub const BAROMETER_LIMIT: Sourced<PressureDifference> =
    Sourced { value: PressureDifference::from_hpa(2.0), source: Source::COMMON_PRACTICE };

/// Barometric pressure read for this place and hour, from a barometer or a weather report, within [`BAROMETER_LIMIT`].
///
/// # Errors
/// [`Error::Implausible`] for an air pressure outside 40 to 110 kPa, where nobody services cars.
pub fn barometer(reading: Pressure) -> Result<Measured<Pressure>, Error> {
    // a report 'reduced to sea level' read at altitude would be far off, but still inside this range
    let Range { low, high } = PLAUSIBLE_AIR_PRESSURE;
    if !(low..=high).contains(&reading) {
        let (value, low, high) = (reading.kpa(), low.kpa(), high.kpa());
        return Err(Error::Implausible { what: "air pressure", value, low, high, unit: "kPa" });
    }
    Measured::new(reading, BAROMETER_LIMIT.value / SQRT_3)
}
