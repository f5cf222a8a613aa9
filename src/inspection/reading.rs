//! Gauge and thermometer readings in one operating state.

use super::measurand::{Measurand, MeasuredWhen};
use super::value::MeasuredValue;
use crate::circuit::{Conditions, Settings};
use crate::quantity::Uncertainty;
use crate::quantity::instrument::{PLAUSIBLE_AIR_PRESSURE, PLAUSIBLE_AMBIENT};
use crate::{
    Error, GaugePressure, Measured, Pressure, PressureDifference, Quantity, Range, Ratio, Refrigerant, Source, Sourced,
    Temperature,
};

/// Plausible ambient temperatures for service work.
pub const PLAUSIBLE_AIR: Sourced<Range<Temperature>> =
    Sourced { value: PLAUSIBLE_AMBIENT, source: Source::COMMON_PRACTICE };

/// Operating state of the circuit while it was read.
#[derive(Debug, Clone, Copy, PartialEq)]
#[cfg_attr(
    feature = "serde",
    derive(serde::Serialize, serde::Deserialize),
    serde(rename_all = "kebab-case", deny_unknown_fields)
)]
enum OperatingState {
    /// Compressor called for, with these settings of vehicle and controls.
    Running(Settings),
    /// Engine off, with pressures and temperatures equalised.
    Equalised {
        /// Temperature of the circuit and its surroundings.
        temperature: Measured<Temperature>,
    },
}

/// Gauge and thermometer readings in one operating state, each with its standard uncertainty.
///
/// Every value is optional; what was not read is absent, and leaves more causes possible. Values are checked: none that
/// is impossible, that no workshop reads or that contradicts another is accepted.
///
/// ```
/// use satline::circuit::Settings;
/// use satline::inspection::{Instruments, Measurand, Reading};
/// use satline::{Measured, Pressure, Refrigerant};
/// let r = Refrigerant::R134a;
/// let tools = Instruments::digital(r);
/// let ambient = tools.air.read("30 °C".parse()?, None)?;
/// let air = Measured::exact(Pressure::STANDARD_ATMOSPHERE)?;
/// let reading = Reading::running(r, Settings::TEST, Some(ambient), air)?
///     .with(Measurand::LowSide, tools.low.read("2.1 bar".parse()?)?)?
///     .with(Measurand::Vent, tools.air.read("8 °C".parse()?, None)?)?;
/// assert!(reading.low().is_some() && reading.high().is_none());
/// let twice = reading.with(Measurand::LowSide, tools.low.read("2.2 bar".parse()?)?);
/// assert_eq!(twice.map_err(|error| error.code()), Err("twice"));
/// # Ok::<(), satline::Error>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
#[cfg_attr(
    feature = "serde",
    derive(serde::Serialize, serde::Deserialize),
    serde(
        into = "plain::PlainReading<R>",
        try_from = "plain::PlainReading<R>",
        bound(serialize = "R: Clone + serde::Serialize", deserialize = "R: serde::Deserialize<'de>")
    )
)]
pub struct Reading<R = Refrigerant> {
    refrigerant: R,
    state: OperatingState,
    ambient: Option<Measured<Temperature>>,
    humidity: Option<Ratio>,
    air: Measured<Pressure>,
    values: [Option<MeasuredValue>; Measurand::COUNT],
}

impl<R> Reading<R> {
    /// Reading with the compressor called for, outside air at `ambient` and pressure `air`, nothing measured yet.
    ///
    /// # Errors
    /// [`Error::Implausible`] for air outside the range in which cars are serviced.
    pub fn running(
        refrigerant: R,
        settings: Settings,
        ambient: Option<Measured<Temperature>>,
        air: Measured<Pressure>,
    ) -> Result<Self, Error> {
        settings.check()?;
        Self::in_state(refrigerant, OperatingState::Running(settings), ambient, air)
    }

    /// Reading with the engine off and everything equalised at `temperature`, nothing measured yet.
    ///
    /// # Errors
    /// [`Error::Implausible`] for air outside the range in which cars are serviced.
    pub fn equalised(
        refrigerant: R,
        temperature: Measured<Temperature>,
        air: Measured<Pressure>,
    ) -> Result<Self, Error> {
        Self::in_state(refrigerant, OperatingState::Equalised { temperature }, Some(temperature), air)
    }

    fn in_state(
        refrigerant: R,
        state: OperatingState,
        ambient: Option<Measured<Temperature>>,
        air: Measured<Pressure>,
    ) -> Result<Self, Error> {
        if let Some(t) = &ambient {
            plausible_air_temperature(t)?;
        }
        let within = PLAUSIBLE_AIR_PRESSURE;
        let implausible = |what, value: f64, low: f64| {
            Err(Error::Implausible { what, value, low, high: within.high.kpa(), unit: "kPa" })
        };
        if !within.contains(air.value()) {
            return implausible("air pressure", air.value().kpa(), within.low.kpa());
        }
        if !(0.0..=within.high.kpa()).contains(&air.standard_uncertainty().kpa()) {
            return implausible("standard uncertainty of the air pressure", air.standard_uncertainty().kpa(), 0.0);
        }
        Ok(Self { refrigerant, state, ambient, humidity: None, air, values: [None; Measurand::COUNT] })
    }

    /// Reading with the relative humidity of the outside air.
    ///
    /// # Errors
    /// [`Error::Impossible`] outside 0 to 100 %.
    pub fn with_humidity(mut self, humidity: Ratio) -> Result<Self, Error> {
        if !(0.0..=1.0).contains(&humidity.fraction()) {
            let (what, must) = ("relative humidity (%)", "from 0 to 100");
            return Err(Error::Impossible { what, value: humidity.percent(), must });
        }
        self.humidity = Some(humidity);
        Ok(self)
    }

    /// Reading with one more value.
    ///
    /// In an equalised circuit the gauge pressures are [`Measurand::LowSide`] and [`Measurand::HighSide`], and no other
    /// value is accepted.
    ///
    /// # Errors
    /// [`Error::Twice`] for a value that is there already; [`Error::WrongKind`] for a value of the wrong kind, such as
    /// a temperature where a pressure is required; [`Error::Implausible`] for a value or an uncertainty that no
    /// workshop reads; [`Error::BelowVacuum`] for a gauge pressure below vacuum by more than its uncertainty;
    /// [`Error::SidesReversed`] if the high side of a running circuit reads below the low side by more than their
    /// uncertainty; [`Error::NotInThisState`] for a value of another operating state. All but the last two inside
    /// [`Error::About`].
    pub fn with(mut self, measurand: Measurand, value: impl Into<MeasuredValue>) -> Result<Self, Error> {
        let value = value.into();
        self.check(measurand, &value).map_err(|error| error.about_input(measurand.id(), measurand.name()))?;
        self.values[measurand as usize] = Some(value);
        if let (OperatingState::Running(_), Some(low), Some(high)) = (self.state, self.low(), self.high()) {
            let doubt = PressureDifference::combine(&[low.expanded(), high.expanded()]);
            if high.value() + doubt < low.value() {
                return Err(Error::sides_reversed(low.value(), high.value()));
            }
        }
        Ok(self)
    }

    fn check(&self, measurand: Measurand, value: &MeasuredValue) -> Result<(), Error> {
        if self.values[measurand as usize].is_some() {
            return Err(Error::Twice { what: measurand.name() });
        }
        let (belongs, state) = match self.state {
            OperatingState::Running(_) => (measurand.when() == MeasuredWhen::Running, "running"),
            OperatingState::Equalised { .. } => {
                (matches!(measurand, Measurand::LowSide | Measurand::HighSide), "equalised")
            }
        };
        if !belongs {
            return Err(Error::NotInThisState { what: measurand.name(), state });
        }
        value.check(measurand)?;
        if let MeasuredValue::Pressure(gauge) = value {
            let absolute = gauge.value().absolute(self.air.value());
            // a gauge that cannot tell it from vacuum may show less
            if absolute.si() + gauge.expanded().si() <= 0.0 {
                return Err(Error::BelowVacuum { value: absolute.kpa(), air_kpa: self.air.value().kpa() });
            }
        }
        Ok(())
    }

    /// Whether the compressor was called for.
    pub fn is_running(&self) -> bool {
        self.settings().is_some()
    }

    /// Settings of vehicle and controls with the compressor called for; `None` for an equalised circuit.
    pub fn settings(&self) -> Option<Settings> {
        match self.state {
            OperatingState::Running(settings) => Some(settings),
            OperatingState::Equalised { .. } => None,
        }
    }

    /// Outside air temperature, in front of the condenser in the shade; for an equalised circuit, the temperature of
    /// the circuit.
    pub fn ambient(&self) -> Option<Measured<Temperature>> {
        self.ambient
    }

    /// Relative humidity of the outside air; `None` if it is not known.
    pub fn humidity(&self) -> Option<Ratio> {
        self.humidity
    }

    /// Absolute pressure of the surrounding air.
    pub fn air(&self) -> Measured<Pressure> {
        self.air
    }

    /// Value of `measurand`; `None` if it was not measured.
    pub fn value(&self, measurand: Measurand) -> Option<MeasuredValue> {
        self.values[measurand as usize]
    }

    /// All values, in the order of [`Measurand::ALL`].
    pub fn values(&self) -> impl Iterator<Item = (Measurand, MeasuredValue)> + '_ {
        Measurand::ALL.iter().filter_map(|&measurand| Some((measurand, self.value(measurand)?)))
    }

    /// Gauge pressure of `measurand`; `None` if it was not measured.
    pub fn pressure(&self, measurand: Measurand) -> Option<Measured<GaugePressure>> {
        match self.value(measurand) {
            Some(MeasuredValue::Pressure(p)) => Some(p),
            _ => None,
        }
    }

    /// Temperature of `measurand`; `None` if it was not measured.
    pub fn temperature(&self, measurand: Measurand) -> Option<Measured<Temperature>> {
        match self.value(measurand) {
            Some(MeasuredValue::Temperature(t)) => Some(t),
            _ => None,
        }
    }

    /// Low-side gauge pressure; `None` if not measured.
    pub fn low(&self) -> Option<Measured<GaugePressure>> {
        self.pressure(Measurand::LowSide)
    }

    /// High-side gauge pressure; `None` if not measured.
    pub fn high(&self) -> Option<Measured<GaugePressure>> {
        self.pressure(Measurand::HighSide)
    }

    /// Conditions of a running reading; `None` for an equalised circuit, or if the ambient temperature is not known.
    pub fn conditions(&self) -> Option<Conditions> {
        let settings = self.settings()?;
        let ambient = self.ambient?.value();
        Some(Conditions { ambient, humidity: self.humidity, air: self.air.value(), settings })
    }
}

impl<R: Clone> Reading<R> {
    /// Refrigerant named on the label.
    pub fn refrigerant(&self) -> R {
        self.refrigerant.clone()
    }
}

/// # Errors
/// [`Error::Implausible`] for a temperature, or an uncertainty, outside the range in which cars are serviced.
fn plausible_air_temperature(t: &Measured<Temperature>) -> Result<(), Error> {
    let within = PLAUSIBLE_AIR.value;
    let implausible =
        |what, value: f64, low: f64, high: f64| Err(Error::Implausible { what, value, low, high, unit: "°C" });
    if !within.contains(t.value()) {
        let (low, high) = (within.low.celsius(), within.high.celsius());
        return implausible("ambient temperature", t.value().celsius(), low, high);
    }
    let widest = (within.high - within.low).kelvins();
    if !(0.0..=widest).contains(&t.standard_uncertainty().kelvins()) {
        return implausible(
            "standard uncertainty of the ambient temperature",
            t.standard_uncertainty().kelvins(),
            0.0,
            widest,
        );
    }
    Ok(())
}

/// A reading as JSON has it, before it is checked.
#[cfg(feature = "serde")]
mod plain {
    use super::{MeasuredValue, OperatingState, Reading};
    use crate::inspection::value::ByMeasurand;
    use crate::{Error, Measured, Pressure, Ratio, Temperature};

    #[derive(serde::Serialize, serde::Deserialize)]
    #[serde(deny_unknown_fields)]
    pub(super) struct PlainReading<R> {
        refrigerant: R,
        state: OperatingState,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        ambient: Option<Measured<Temperature>>,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        humidity: Option<Ratio>,
        air: Measured<Pressure>,
        values: ByMeasurand<MeasuredValue>,
    }

    impl<R> From<Reading<R>> for PlainReading<R> {
        fn from(reading: Reading<R>) -> Self {
            let values = ByMeasurand(reading.values().collect());
            let Reading { refrigerant, state, ambient, humidity, air, .. } = reading;
            // of an equalised circuit it is its temperature
            let ambient = ambient.filter(|_| matches!(state, OperatingState::Running(_)));
            Self { refrigerant, state, ambient, humidity, air, values }
        }
    }

    impl<R> TryFrom<PlainReading<R>> for Reading<R> {
        type Error = Error;

        fn try_from(plain: PlainReading<R>) -> Result<Self, Error> {
            let PlainReading { refrigerant, state, ambient, humidity, air, values } = plain;
            let reading = match state {
                OperatingState::Running(settings) => Self::running(refrigerant, settings, ambient, air)?,
                OperatingState::Equalised { temperature } => Self::equalised(refrigerant, temperature, air)?,
            };
            let reading = match humidity {
                Some(humidity) => reading.with_humidity(humidity)?,
                None => reading,
            };
            values.0.into_iter().try_fold(reading, |reading, (measurand, value)| reading.with(measurand, value))
        }
    }
}
