//! What an instrument's reading is worth: classes of gauges and thermometers, and the uncertainty they give.
//!
//! A limit of error ±a without further knowledge is taken as a rectangular distribution: standard uncertainty a/√3
//! (JCGM 100:2008, 4.3.7, clause text from memory).

use super::{
    GaugePressure, Measured, Pressure, PressureDifference, Quantity, Range, Ratio, Temperature, TemperatureDifference,
    Uncertainty,
};
use crate::{Error, Source, Sourced, Trust};

/// A pressure gauge: a scale and a limit of error in parts of its span.
///
/// ```
/// use satline::quantity::instrument::PressureGauge;
/// use satline::GaugePressure;
/// let low = PressureGauge::SERVICE_LOW.read(GaugePressure::from_psi(32.0))?;
/// // class 1.6 on a span of 11.01 bar: ±0.176 bar at most, 0.102 bar as a standard uncertainty
/// assert!((low.standard_uncertainty().bar() - 0.1017).abs() < 1e-4);
/// assert!(PressureGauge::SERVICE_LOW.read(GaugePressure::from_bar(16.0)).is_err());
/// # Ok::<(), satline::Error>(())
/// ```
///
/// With feature `serde` a gauge is written as its name, scale and limit of error. The name must be that of a gauge of this
/// page, [`PressureGauge::digital`] included, and brings the source with it.
#[derive(Debug, Clone, Copy, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize), serde(into = "WrittenGauge"))]
pub struct PressureGauge {
    /// What it is called in messages.
    pub name: &'static str,
    /// From where to where it reads.
    pub scale: Range<GaugePressure>,
    /// Limit of error, as a part of the span.
    pub limit: Ratio,
    /// Where the limit comes from.
    pub source: Source,
}

/// Where the scale of a compound gauge begins, bar: full vacuum at sea level.
const VACUUM: f64 = -1.013_25;

/// Full vacuum as a gauge shows it in the densest air cars are serviced in, 110 kPa.
const LOWEST_VACUUM: GaugePressure = GaugePressure::from_kpa(-110.0);

/// EN 837-1's classes; which of them a service gauge has is habit, not standard.
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

    /// The same gauge with a scale that ends at `full_scale`.
    ///
    /// # Errors
    /// [`Error::Impossible`] for a full scale that is not above zero.
    pub fn up_to(self, full_scale: GaugePressure) -> Result<Self, Error> {
        if !(full_scale.si() > 0.0 && full_scale.si().is_finite()) {
            return Err(Error::Impossible { what: "full scale (bar)", value: full_scale.bar(), must: "above zero" });
        }
        Ok(Self { scale: Range::new(self.scale.low, full_scale), ..self })
    }

    /// The same gauge with another limit of error, as a part of its span.
    ///
    /// # Errors
    /// [`Error::Impossible`] for a limit that is not above zero, or above 20 %, which is no gauge.
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

    /// A digital probe with the scale of this gauge: 1 % of span.
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

    /// The reading with its standard uncertainty: limit × span / √3.
    ///
    /// # Errors
    /// [`Error::BeyondScale`] for a reading that is not on the scale; [`Error::NotFinite`].
    pub fn read(&self, reading: GaugePressure) -> Result<Measured<GaugePressure>, Error> {
        if !reading.si().is_finite() {
            return Err(Error::NotFinite { what: GaugePressure::NAME, text: reading.si().to_string() });
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
        Measured::new(reading, span * (self.limit.fraction() / 3f64.sqrt()))
    }
}

/// The gauges that a name stands for in a file.
#[cfg(feature = "serde")]
const GAUGES: [PressureGauge; 5] = [
    PressureGauge::SERVICE_LOW,
    PressureGauge::SERVICE_HIGH,
    PressureGauge::CARBON_DIOXIDE_LOW,
    PressureGauge::CARBON_DIOXIDE_HIGH,
    PressureGauge::SERVICE_LOW.digital(),
];

/// The thermometers that a name stands for in a file.
#[cfg(feature = "serde")]
const THERMOMETERS: [Thermometer; 4] = [
    Thermometer::CLAMPED_THERMOCOUPLE,
    Thermometer::THERMOCOUPLE_IN_AIR,
    Thermometer::DIGITAL_IN_AIR,
    Thermometer::CLAMPED_DIGITAL,
];

/// A gauge in a file: its name leads to the source, which is not written.
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
        if span.si().partial_cmp(&0.0) != Some(std::cmp::Ordering::Greater) {
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

/// A thermometer in a file: its name leads to the source, which is not written.
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

/// A thermometer: a limit of error and, for one clamped on a tube, the part of the difference to the air that it loses.
///
/// ```
/// use satline::quantity::instrument::Thermometer;
/// use satline::Temperature;
/// let air = Some(Temperature::from_celsius(30.0));
/// let pipe = Thermometer::CLAMPED_THERMOCOUPLE.read(Temperature::from_celsius(8.0), air)?;
/// // ±1.5 K of the wire and ±0.72 K of the clamp, each over √3
/// assert!((pipe.standard_uncertainty().kelvins() - 0.960).abs() < 1e-3);
/// # Ok::<(), satline::Error>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize), serde(into = "WrittenThermometer"))]
pub struct Thermometer {
    /// What it is called in messages.
    pub name: &'static str,
    /// Limit of error of the sensor.
    pub limit: TemperatureDifference,
    /// Limit of error of the contact, as a part of the difference between tube and air; zero in a stream of air.
    pub contact: Ratio,
    /// Where the limit of the sensor comes from.
    pub source: Source,
}

/// What a clamp on a tube may lose: a test asks for 1.3 °F or better at 40 °F above or below the air.
const CLAMP: Ratio = Ratio::from_fraction(1.3 / 40.0);

/// Where the limit of a clamp comes from; an acceptance limit, used as a limit of error for want of measured ones.
pub const CLAMP_SOURCE: Source = Source {
    work: "California Title 24, 2008 Residential Appendix RA3.2.2.2",
    locator: "pipe temperature sensors: 1.3 °F at 40 °F from the surroundings, taken as the limit of error",
    doi: None,
    trust: Trust::Excerpt,
};

/// Difference between tube and air assumed when the air temperature is not known: that of the test behind
/// [`CLAMP_SOURCE`].
const ASSUMED_DIFFERENCE: TemperatureDifference = TemperatureDifference::from_fahrenheit_steps(40.0);

const TYPE_K: Source = Source {
    work: "IEC 60584-1:2013, thermocouple tolerances",
    locator: "type K, class 1: 1.5 °C from −40 to 375 °C",
    doi: None,
    trust: Trust::Weak,
};

impl Thermometer {
    /// Type K thermocouple, class 1, clamped on a tube and wrapped.
    pub const CLAMPED_THERMOCOUPLE: Self = Self {
        name: "thermocouple clamped on the line",
        limit: TemperatureDifference::from_kelvins(1.5),
        contact: CLAMP,
        source: TYPE_K,
    };
    /// Type K thermocouple, class 1, in a stream of air.
    pub const THERMOCOUPLE_IN_AIR: Self = Self {
        name: "thermocouple in air",
        limit: TemperatureDifference::from_kelvins(1.5),
        contact: Ratio::from_fraction(0.0),
        source: TYPE_K,
    };
    /// Digital thermistor thermometer in a stream of air, ±1 K as a whole.
    pub const DIGITAL_IN_AIR: Self = Self {
        name: "digital thermometer in air",
        limit: TemperatureDifference::from_kelvins(1.0),
        contact: Ratio::from_fraction(0.0),
        source: THERMISTOR,
    };
    /// Digital thermistor thermometer clamped on a tube, ±1 K and the clamp.
    pub const CLAMPED_DIGITAL: Self = Self {
        name: "digital thermometer clamped on the line",
        limit: TemperatureDifference::from_kelvins(1.0),
        contact: CLAMP,
        source: THERMISTOR,
    };

    /// The reading with its standard uncertainty: √(limit² + (contact × |reading − air|)²)/√3.
    ///
    /// Without the air temperature a difference of 40 °F is assumed, that of the test behind [`CLAMP_SOURCE`].
    ///
    /// # Errors
    /// [`Error::NotFinite`] for a reading or an air temperature that is not a finite number.
    pub fn read(&self, reading: Temperature, air: Option<Temperature>) -> Result<Measured<Temperature>, Error> {
        let difference = air.map_or(ASSUMED_DIFFERENCE, |air| reading - air);
        let limit = TemperatureDifference::combine(&[self.limit, difference * self.contact.fraction()]);
        if !difference.si().is_finite() {
            return Err(Error::NotFinite { what: Temperature::NAME, text: difference.si().to_string() });
        }
        Measured::new(reading, limit / 3f64.sqrt())
    }
}

const THERMISTOR: Source = Source {
    work: "digital thermometers with a thermistor, 0.5 to 1 °C as a whole",
    locator: "",
    doi: None,
    trust: Trust::FromMemory,
};

/// Limit of error of a barometer, or of a weather report for this place and hour.
pub const BAROMETER_LIMIT: Sourced<PressureDifference> =
    Sourced { value: PressureDifference::from_hpa(2.0), source: Source::COMMON_PRACTICE };

/// A barometer or weather report read for this place and hour, within [`BAROMETER_LIMIT`].
///
/// # Errors
/// [`Error::Implausible`] for an air pressure outside 40 to 110 kPa, where nobody services cars.
pub fn barometer(reading: Pressure) -> Result<Measured<Pressure>, Error> {
    // a report 'reduced to sea level' read at altitude would be far off, but still inside this range
    if !(40.0..=110.0).contains(&reading.kpa()) {
        return Err(Error::Implausible {
            what: "air pressure",
            value: reading.kpa(),
            low: 40.0,
            high: 110.0,
            unit: "kPa",
        });
    }
    Measured::new(reading, BAROMETER_LIMIT.value / 3f64.sqrt())
}
