//! Values that a person typed or a log recorded in one operating state, with the units they were given in.

use super::instruments::Instruments;
use super::measurand::Measurand;
use super::reading::Reading;
use super::value::{EnteredValue, MeasuredValue};
use crate::circuit::Settings;
use crate::quantity::instrument::{self, PressureGauge};
use crate::quantity::{PressureUnit, TemperatureUnit};
use crate::{Entered, Error, GaugePressure, Length, Measured, Pressure, Quantity, Ratio, Temperature, air};

/// Values as they were entered in one operating state, each of them optional.
///
/// In JSON each is the text that was typed: `{"values": {"low-side": "32 psi"}, "ambient": "86 °F"}`.
///
/// ```
/// use satline::Refrigerant;
/// use satline::circuit::Settings;
/// use satline::inspection::{Entry, Instruments, Measurand};
/// let r = Refrigerant::R134a;
/// // the high-side port is out of reach
/// let entry = Entry::default()
///     .enter(Measurand::LowSide, "32 psi")?
///     .enter(Measurand::SuctionLine, "48 °F")?
///     .ambient("86 °F".parse()?);
/// let reading = entry.reading(r, Settings::TEST, &Instruments::analogue(r))?;
/// assert!(reading.low().is_some() && reading.high().is_none());
/// # Ok::<(), satline::Error>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Default)]
#[cfg_attr(
    feature = "serde",
    derive(serde::Serialize, serde::Deserialize),
    serde(try_from = "plain::PlainEntry", into = "plain::PlainEntry")
)]
pub struct Entry {
    values: [Option<EnteredValue>; Measurand::COUNT],
    /// Outside air temperature, in front of the condenser in the shade; for an equalised circuit, the temperature of
    /// the circuit.
    pub ambient: Option<Entered<Temperature>>,
    /// Relative humidity of the outside air.
    pub humidity: Option<Entered<Ratio>>,
    /// Altitude above sea level.
    pub altitude: Option<Entered<Length>>,
    /// Air pressure at the place, not reduced to sea level; takes precedence over the altitude.
    pub barometer: Option<Entered<Pressure>>,
}

impl Entry {
    /// Entry with a low-side and a high-side gauge pressure.
    pub fn gauges(low: Entered<GaugePressure>, high: Entered<GaugePressure>) -> Self {
        Self::default().put(Measurand::LowSide, low.into()).put(Measurand::HighSide, high.into())
    }

    /// Entry with `text` read as the value of `measurand`.
    ///
    /// # Errors
    /// Those of reading a quantity, for `measurand`; [`Error::Twice`].
    pub fn enter(self, measurand: Measurand, text: &str) -> Result<Self, Error> {
        self.with(measurand, EnteredValue::parse(measurand, text)?)
    }

    /// Entry with one more value.
    ///
    /// # Errors
    /// [`Error::WrongKind`] for a value of the wrong kind, such as a temperature where a pressure is required;
    /// [`Error::Twice`].
    pub fn with(self, measurand: Measurand, value: impl Into<EnteredValue>) -> Result<Self, Error> {
        let value = value.into();
        if value.kind() != measurand.kind() {
            return Err(Error::WrongKind { input: measurand.id(), what: measurand.name() });
        }
        if self.value(measurand).is_some() {
            return Err(Error::Twice { what: measurand.name() }.about_input(measurand.id(), measurand.name()));
        }
        Ok(self.put(measurand, value))
    }

    /// Entry with a value of the right kind in place of what was there.
    pub(crate) fn put(mut self, measurand: Measurand, value: EnteredValue) -> Self {
        self.values[measurand as usize] = Some(value);
        self
    }

    /// Entry with the temperature of the outside air.
    #[must_use]
    pub fn ambient(self, ambient: Entered<Temperature>) -> Self {
        Self { ambient: Some(ambient), ..self }
    }

    /// Entry with the relative humidity of the outside air.
    #[must_use]
    pub fn humidity(self, humidity: Entered<Ratio>) -> Self {
        Self { humidity: Some(humidity), ..self }
    }

    /// Entry with the altitude above sea level.
    #[must_use]
    pub fn altitude(self, altitude: Entered<Length>) -> Self {
        Self { altitude: Some(altitude), ..self }
    }

    /// Entry with the air pressure at the place, not reduced to sea level.
    #[must_use]
    pub fn barometer(self, barometer: Entered<Pressure>) -> Self {
        Self { barometer: Some(barometer), ..self }
    }

    /// Value of `measurand` as entered; `None` if it was not.
    pub fn value(&self, measurand: Measurand) -> Option<EnteredValue> {
        self.values[measurand as usize]
    }

    /// All values entered, in the order of [`Measurand::ALL`].
    pub fn values(&self) -> impl Iterator<Item = (Measurand, EnteredValue)> + '_ {
        Measurand::ALL.iter().filter_map(|&measurand| Some((measurand, self.value(measurand)?)))
    }

    /// Gauge pressure of `measurand` as entered; `None` if it was not.
    pub fn pressure(&self, measurand: Measurand) -> Option<Entered<GaugePressure>> {
        match self.value(measurand) {
            Some(EnteredValue::Pressure(p)) => Some(p),
            _ => None,
        }
    }

    /// Temperature of `measurand` as entered; `None` if it was not.
    pub fn temperature(&self, measurand: Measurand) -> Option<Entered<Temperature>> {
        match self.value(measurand) {
            Some(EnteredValue::Temperature(t)) => Some(t),
            _ => None,
        }
    }

    /// Whether the entry is empty: neither a measured value nor anything about the air.
    pub fn is_empty(&self) -> bool {
        self.values().next().is_none() && self.ambient.is_none() && self.humidity.is_none()
    }

    /// Air pressure: the barometer reading, else the standard atmosphere at the altitude, else at sea level.
    ///
    /// # Errors
    /// [`Error::Implausible`] for a barometer or an altitude where nobody services cars.
    pub fn air(&self) -> Result<Measured<Pressure>, Error> {
        match (self.barometer, self.altitude) {
            (Some(barometer), _) => instrument::barometer(barometer.quantity()),
            (None, altitude) => air::pressure_at(altitude.map_or(Length::from_m(0.0), |altitude| altitude.quantity())),
        }
    }

    /// Reading from the entry, with the compressor called for, taken with `instruments`.
    ///
    /// # Errors
    /// [`Error::BelowVacuum`] for a pressure at or below vacuum and [`Error::BeyondScale`] for one off the gauge's
    /// scale, both inside [`Error::About`] with the reading as entered; [`Error::SidesReversed`] for a high side below the
    /// low side, also where that is off its gauge's scale; those of [`Reading::with`] and [`Entry::air`].
    pub fn reading<R: Clone>(
        &self,
        refrigerant: R,
        settings: Settings,
        instruments: &Instruments,
    ) -> Result<Reading<R>, Error> {
        let ambient = self.measured_ambient(instruments)?;
        let reading = Reading::running(refrigerant, settings, ambient, self.air()?)?;
        // hoses that are swapped also take the low side off its scale
        self.fill(reading, instruments).map_err(|error| match error.innermost() {
            Error::SidesReversed { .. } | Error::BeyondScale { .. } => self.sides_reversed().unwrap_or(error),
            _ => error,
        })
    }

    /// The error of a running reading whose high side is below the low side, both as entered; `None` if it is not.
    pub fn sides_reversed(&self) -> Option<Error> {
        let (low, high) = (self.pressure(Measurand::LowSide)?, self.pressure(Measurand::HighSide)?);
        let reversed = high.quantity() < low.quantity();
        reversed.then(|| Error::SidesReversed { low: low.to_string(), high: high.to_string() })
    }

    /// Reading from the entry, of the equalised circuit with the temperature [`Entry::ambient`].
    ///
    /// A low side beyond the scale of the low-side gauge was then read on the high-side gauge and has that one's
    /// uncertainty.
    ///
    /// # Errors
    /// [`Error::Missing`] without the ambient temperature; else as [`Entry::reading`].
    pub fn equalised_reading<R: Clone>(&self, refrigerant: R, instruments: &Instruments) -> Result<Reading<R>, Error> {
        let temperature = self.measured_ambient(instruments)?.ok_or(Error::Missing {
            what: "ambient temperature",
            way_out: "an equalised circuit is judged by the temperature around it; measure and give it",
        })?;
        self.fill(Reading::equalised(refrigerant, temperature, self.air()?)?, instruments)
    }

    fn measured_ambient(&self, instruments: &Instruments) -> Result<Option<Measured<Temperature>>, Error> {
        self.ambient.map(|t| instruments.air.read(t.quantity(), Some(t.quantity()))).transpose()
    }

    /// Every value, as `instruments` read it, into `reading`.
    fn fill<R>(&self, mut reading: Reading<R>, instruments: &Instruments) -> Result<Reading<R>, Error> {
        if let Some(humidity) = self.humidity {
            reading = reading.with_humidity(humidity.quantity())?;
        }
        for (measurand, entered) in self.values() {
            let measured = self
                .measured(measurand, entered, &reading, instruments)
                .map_err(|error| error.about_input(measurand.id(), format!("{}, {entered}", measurand.name())))?;
            reading = reading.with(measurand, measured)?;
        }
        Ok(reading)
    }

    fn measured<R>(
        &self,
        measurand: Measurand,
        entered: EnteredValue,
        reading: &Reading<R>,
        instruments: &Instruments,
    ) -> Result<MeasuredValue, Error> {
        Ok(match entered {
            EnteredValue::Pressure(p) => {
                // no gauge goes below vacuum, whatever its scale
                let absolute = p.quantity().absolute(reading.air().value());
                if absolute.si() <= 0.0 {
                    return Err(Error::BelowVacuum { value: absolute.kpa(), air_kpa: reading.air().value().kpa() });
                }
                gauge(measurand, p.quantity(), reading.is_running(), instruments).read(p.quantity())?.into()
            }
            EnteredValue::Temperature(t) => {
                let ambient = self.ambient.map(|t| t.quantity());
                instruments.thermometer(measurand).read(t.quantity(), ambient)?.into()
            }
            EnteredValue::Share(share) => {
                let uncertainty = Ratio::from_fraction(measurand.usual_uncertainty());
                Measured::new(share.quantity(), uncertainty)?.into()
            }
        })
    }

    /// Units for a page about this entry.
    pub fn units(&self) -> DisplayUnits {
        DisplayUnits::of(self)
    }
}

/// The gauge that read `p`.
fn gauge(measurand: Measurand, p: GaugePressure, running: bool, instruments: &Instruments) -> &PressureGauge {
    if !running && p > instruments.low.scale.high { &instruments.high } else { instruments.gauge(measurand) }
}

/// Units in which a page or a picture states values.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct DisplayUnits {
    /// Unit of low-side pressures, and of every pressure of a picture.
    pub low: PressureUnit,
    /// Unit of high-side pressures.
    pub high: PressureUnit,
    /// Unit of temperatures.
    pub temperature: TemperatureUnit,
}

impl DisplayUnits {
    /// The same unit of pressure for both sides.
    pub const fn new(pressure: PressureUnit, temperature: TemperatureUnit) -> Self {
        Self { low: pressure, high: pressure, temperature }
    }

    /// Units of what was entered, psi for a vacuum in inHg: temperatures as the ambient, else as the first temperature
    /// given, else °F with psi and °C with other units. Pressures if no gauge was read: psi with °F, bar otherwise.
    fn of(entry: &Entry) -> Self {
        // a vacuum is read in inHg, a window is not
        let of = |unit| if unit == PressureUnit::InchOfMercury { PressureUnit::Psi } else { unit };
        let temperatures = Measurand::ALL.iter().filter_map(|&measurand| entry.temperature(measurand));
        let first = entry.ambient.into_iter().chain(temperatures).next();
        let unit = |measurand| entry.pressure(measurand).map(|gauge| of(gauge.unit()));
        let (low, high) = (unit(Measurand::LowSide), unit(Measurand::HighSide));
        // a side that was not read is stated in the unit of the other
        let either = low.or(high).unwrap_or(match first.map(|t| t.unit()) {
            Some(TemperatureUnit::Fahrenheit) => PressureUnit::Psi,
            _ => PressureUnit::Bar,
        });
        let (low, high) = (low.unwrap_or(either), high.unwrap_or(either));
        let habit = if low == PressureUnit::Psi { TemperatureUnit::Fahrenheit } else { TemperatureUnit::Celsius };
        Self { low, high, temperature: first.map_or(habit, |t| t.unit()) }
    }
}

/// An entry as JSON has it, each value as typed.
#[cfg(feature = "serde")]
mod plain {
    use super::{EnteredValue, Entry, Measurand};
    use crate::inspection::value::ByMeasurand;
    use crate::{Entered, Error, Length, Pressure, Ratio, Temperature};

    #[derive(serde::Serialize, serde::Deserialize)]
    #[serde(deny_unknown_fields)]
    pub(super) struct PlainEntry {
        #[serde(default)]
        values: ByMeasurand<String>,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        ambient: Option<Entered<Temperature>>,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        humidity: Option<Entered<Ratio>>,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        altitude: Option<Entered<Length>>,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        barometer: Option<Entered<Pressure>>,
    }

    impl From<Entry> for PlainEntry {
        fn from(entry: Entry) -> Self {
            let values = entry.values().map(|(measurand, value)| (measurand, value.to_string())).collect();
            let Entry { ambient, humidity, altitude, barometer, .. } = entry;
            Self { values: ByMeasurand(values), ambient, humidity, altitude, barometer }
        }
    }

    impl TryFrom<PlainEntry> for Entry {
        type Error = Error;

        fn try_from(plain: PlainEntry) -> Result<Self, Error> {
            let PlainEntry { values, ambient, humidity, altitude, barometer } = plain;
            let air = Self { ambient, humidity, altitude, barometer, ..Self::default() };
            let read = |entry: Self, (measurand, text): (Measurand, String)| {
                entry.with(measurand, EnteredValue::parse(measurand, &text)?)
            };
            values.0.into_iter().try_fold(air, read)
        }
    }
}
