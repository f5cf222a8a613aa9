//! One reading of a circuit, and what follows from it against its windows.

use super::book::{Book, Charted, Conditions, Side, Verdict};
use super::habit::{CONDENSING_OVER_AMBIENT, SUBCOOLING, SUPERHEAT};
use super::healthy::Window;
use super::rest::{RestFinding, at_rest};
use crate::circuit::Settings;
use crate::line::{Saturation, absolute, difference};
use crate::quantity::Uncertainty;
use crate::quantity::instrument::{PressureGauge, Thermometer};
use crate::saturation::Lines;
use crate::{
    Error, GaugePressure, Measured, Pressure, PressureDifference, Quantity, Range, Ratio, Refrigerant, Source, Sourced,
    Temperature, TemperatureDifference,
};

/// Whether the compressor runs.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Engine {
    /// Running, air conditioning on.
    Running,
    /// Off long enough for pressures and temperatures to level.
    AtRest,
}

/// The instruments of a reading.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Instruments {
    /// On the low side.
    pub low: PressureGauge,
    /// On the high side.
    pub high: PressureGauge,
    /// On the lines.
    pub line: Thermometer,
    /// In the air: ambient and vent.
    pub air: Thermometer,
}

impl Instruments {
    /// Analogue gauges of a service set and thermocouples.
    ///
    /// For a refrigerant of your own, name the one of the catalogue whose gauges you use.
    pub const fn analogue(refrigerant: Refrigerant) -> Self {
        let (low, high) = match refrigerant {
            Refrigerant::R744 => (PressureGauge::CARBON_DIOXIDE_LOW, PressureGauge::CARBON_DIOXIDE_HIGH),
            _ => (PressureGauge::SERVICE_LOW, PressureGauge::SERVICE_HIGH),
        };
        Self { low, high, line: Thermometer::CLAMPED_THERMOCOUPLE, air: Thermometer::THERMOCOUPLE_IN_AIR }
    }

    /// Digital pressure probes and thermistor thermometers.
    pub const fn digital(refrigerant: Refrigerant) -> Self {
        let analogue = Self::analogue(refrigerant);
        Self {
            low: analogue.low.digital(),
            high: analogue.high.digital(),
            line: Thermometer::CLAMPED_DIGITAL,
            air: Thermometer::DIGITAL_IN_AIR,
        }
    }
}

/// Air temperatures at which anybody services cars.
pub const PLAUSIBLE_AIR: Sourced<Range<Temperature>> = Sourced {
    value: Range::new(Temperature::from_celsius(-60.0), Temperature::from_celsius(60.0)),
    source: Source::COMMON_PRACTICE,
};

/// Temperatures that a line or a vent can have without its hoses giving way.
pub const PLAUSIBLE_LINE: Sourced<Range<Temperature>> = Sourced {
    value: Range::new(Temperature::from_celsius(-60.0), Temperature::from_celsius(150.0)),
    source: Source::COMMON_PRACTICE,
};

/// What gauges and thermometers showed, each with its uncertainty.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Reading<R = Refrigerant> {
    /// What is inside.
    pub refrigerant: R,
    /// Running or at rest.
    pub engine: Engine,
    /// Low-side gauge.
    pub low: Measured<GaugePressure>,
    /// High-side gauge.
    pub high: Measured<GaugePressure>,
    /// Pressure of the surrounding air.
    pub air: Measured<Pressure>,
    /// Outside air.
    pub ambient: Option<Measured<Temperature>>,
    /// Relative humidity of the outside air.
    pub humidity: Option<Ratio>,
    /// Suction line.
    pub suction_line: Option<Measured<Temperature>>,
    /// Liquid line.
    pub liquid_line: Option<Measured<Temperature>>,
    /// Centre vent.
    pub vent: Option<Measured<Temperature>>,
}

/// As much of a [`Reading`] as was read: either gauge may be missing, and both.
///
/// A side that was not read is left out of what follows, and so is what rests on its gauge: superheat needs the low side and the
/// suction line, subcooling the high side and the liquid line.
///
/// ```
/// use satline::Refrigerant;
/// use satline::window::{Book, Engine, Entry, Instruments};
/// let r = Refrigerant::R134a;
/// // the high-side port is out of reach
/// let entry = Entry {
///     low: Some("32 psi".parse()?),
///     suction_line: Some("48 °F".parse()?),
///     liquid_line: Some("105 °F".parse()?),
///     ambient: Some("86 °F".parse()?),
///     ..Entry::default()
/// };
/// let read = entry.part(r, Engine::Running, &Instruments::analogue(r))?;
/// let assessment = read.assess(&Book::new(r)?)?;
/// assert!(assessment.low.is_some() && assessment.superheat.is_some());
/// assert!(assessment.high.is_none() && assessment.subcooling.is_none());
/// # Ok::<(), satline::Error>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PartReading<R = Refrigerant> {
    /// What is inside.
    pub refrigerant: R,
    /// Running or at rest.
    pub engine: Engine,
    /// Low-side gauge.
    pub low: Option<Measured<GaugePressure>>,
    /// High-side gauge.
    pub high: Option<Measured<GaugePressure>>,
    /// Pressure of the surrounding air.
    pub air: Measured<Pressure>,
    /// Outside air.
    pub ambient: Option<Measured<Temperature>>,
    /// Relative humidity of the outside air.
    pub humidity: Option<Ratio>,
    /// Suction line.
    pub suction_line: Option<Measured<Temperature>>,
    /// Liquid line.
    pub liquid_line: Option<Measured<Temperature>>,
    /// Discharge line at the compressor.
    pub discharge_line: Option<Measured<Temperature>>,
    /// Centre vent.
    pub vent: Option<Measured<Temperature>>,
}

impl<R: Copy> From<&Reading<R>> for PartReading<R> {
    fn from(reading: &Reading<R>) -> Self {
        Self {
            refrigerant: reading.refrigerant,
            engine: reading.engine,
            low: Some(reading.low),
            high: Some(reading.high),
            air: reading.air,
            ambient: reading.ambient,
            humidity: reading.humidity,
            suction_line: reading.suction_line,
            liquid_line: reading.liquid_line,
            discharge_line: None,
            vent: reading.vent,
        }
    }
}

/// One side of the circuit.
#[derive(Debug, Clone, PartialEq)]
pub struct SideFinding {
    /// The gauge.
    pub gauge: Measured<GaugePressure>,
    /// Above vacuum.
    pub absolute: Measured<Pressure>,
    /// Saturation temperatures; none above the critical pressure.
    pub saturation: Option<Saturation>,
    /// What the charts say about the day; no chart covers it, or the ambient is not known, when empty.
    pub window: Charted<GaugePressure>,
    /// The verdict against the band over all charts.
    pub verdict: Option<Verdict>,
}

/// A temperature difference against what is usual.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LineFinding {
    /// The value, negative on the far side of saturation.
    pub value: Measured<TemperatureDifference>,
    /// What is usual, where anything is.
    pub usual: Option<Sourced<Range<TemperatureDifference>>>,
    /// The verdict against it.
    pub verdict: Option<Verdict>,
}

/// Everything that follows from a reading.
#[derive(Debug, Clone, PartialEq)]
pub struct Assessment {
    /// Low side, where it was read.
    pub low: Option<SideFinding>,
    /// High side, where it was read.
    pub high: Option<SideFinding>,
    /// Suction line, with its superheat.
    pub superheat: Option<LineFinding>,
    /// Liquid line, with its subcooling; none above the critical pressure.
    pub subcooling: Option<LineFinding>,
    /// Condensing temperature over ambient; none above the critical pressure.
    pub condensing_over_ambient: Option<LineFinding>,
    /// Vent temperatures to expect.
    pub vent: Charted<Temperature>,
    /// The verdict on the vent.
    pub vent_verdict: Option<Verdict>,
    /// At rest: both gauges against saturation at ambient.
    pub rest: Option<RestFinding>,
    /// Healthy cars computed for the day, once [`Assessment::beside`] was given them.
    pub healthy: Option<Window>,
}

impl Assessment {
    /// The assessment with healthy cars computed for its day beside the charts.
    ///
    /// The window is computed apart because it takes a thousand times as long as the rest: once a day serves a whole log.
    #[must_use]
    pub fn beside(self, healthy: Window) -> Self {
        Self { healthy: Some(healthy), ..self }
    }
}

impl<R: Lines + Copy + PartialEq> Reading<R> {
    /// What follows from the reading, against the charts of `book`.
    ///
    /// Running, every quantity is set against its window. At rest, both gauges are set against saturation at ambient and
    /// nothing else is judged.
    ///
    /// # Errors
    /// [`Error::Missing`] when the engine is at rest and the ambient temperature is not known, or the book is for
    /// another refrigerant; [`Error::BelowVacuum`]; [`Error::SidesReversed`] when the running high side reads below the
    /// low side by more than the gauges can tell; [`Error::Implausible`] for a temperature no workshop reads;
    /// [`Error::Impossible`] for a humidity outside 0 to 100 %; [`Error::OutOfRange`] for a pressure below the saturation
    /// lines; [`Error::AboveCriticalTemperature`] for a circuit at rest in which there is no saturation.
    pub fn assess(&self, book: &Book<R>) -> Result<Assessment, Error> {
        PartReading::from(self).assess(book)
    }

    /// The day of a running reading, with the car run as `running` says; none at rest or where the ambient is not known.
    pub fn day(&self, running: Settings) -> Option<Conditions> {
        PartReading::from(self).day(running)
    }
}

impl<R: Lines + Copy + PartialEq> PartReading<R> {
    /// What follows from what was read, against the charts of `book`.
    ///
    /// # Errors
    /// Those of [`Reading::assess`]; [`Error::Missing`] at rest for a gauge that was not read.
    pub fn assess(&self, book: &Book<R>) -> Result<Assessment, Error> {
        self.check(book)?;
        let running = self.engine == Engine::Running;
        let day = self.day(Settings::TEST);
        let side = |side, gauge: Option<Measured<GaugePressure>>| {
            let Some(gauge) = gauge else { return Ok(None) };
            let place = if side == Side::Low { "low side" } else { "high side" };
            let absolute = absolute(&gauge, &self.air).map_err(|error| error.about(place))?;
            let saturation = Saturation::at(self.refrigerant, &absolute).map_err(|error| error.about(place))?;
            let window = day.map_or(Charted { bands: Vec::new() }, |day| book.pressure(side, &day));
            let verdict = window.verdict(&gauge);
            Ok::<_, Error>(Some(SideFinding { gauge, absolute, saturation, window, verdict }))
        };
        let low = side(Side::Low, self.low)?;
        let high = side(Side::High, self.high)?;
        let saturated = |side: &Option<SideFinding>| side.as_ref().and_then(|side| side.saturation);
        let superheat = saturated(&low)
            .zip(self.suction_line.filter(|_| running))
            .and_then(|(saturation, t)| saturation.superheat(&t));
        let subcooling = saturated(&high)
            .zip(self.liquid_line.filter(|_| running))
            .and_then(|(saturation, t)| saturation.subcooling(&t));
        let lift = saturated(&high)
            .zip(self.ambient.filter(|_| running))
            .and_then(|(saturation, ambient)| difference(&saturation.dew, &ambient));
        let habits = book.habits();
        let usual = |fact| habits.lines.then_some(fact);
        let lift_usual = habits.lift.then_some(CONDENSING_OVER_AMBIENT);
        let vent = day.map_or(Charted { bands: Vec::new() }, |day| book.vent(&day));
        let vent_verdict = self.vent.and_then(|t| vent.verdict(&t));
        let rest = match (self.engine, self.ambient) {
            (Engine::AtRest, Some(ambient)) => {
                let Reading { low, high, .. } = self.both()?;
                Some(at_rest(self.refrigerant, &low, &high, &self.air, &ambient)?)
            }
            _ => None,
        };
        Ok(Assessment {
            superheat: superheat.map(|value| LineFinding::of(value, usual(SUPERHEAT))),
            subcooling: subcooling.map(|value| LineFinding::of(value, usual(SUBCOOLING))),
            condensing_over_ambient: lift.map(|value| LineFinding::of(value, lift_usual)),
            low,
            high,
            vent,
            vent_verdict,
            rest,
            healthy: None,
        })
    }

    /// The day of a running reading, with the car run as `running` says; none at rest or where the ambient is not known.
    pub fn day(&self, running: Settings) -> Option<Conditions> {
        let ambient = self.ambient.filter(|_| self.engine == Engine::Running)?;
        Some(Conditions { ambient: ambient.value(), humidity: self.humidity, air: self.air.value(), running })
    }

    /// The same as a reading of both gauges.
    ///
    /// # Errors
    /// [`Error::Missing`] for a gauge that was not read.
    pub fn both(&self) -> Result<Reading<R>, Error> {
        let of = |what, gauge: Option<Measured<GaugePressure>>, way_out| gauge.ok_or(Error::Missing { what, way_out });
        let way_out = match self.engine {
            Engine::AtRest => "at rest both are compared with saturation; one alone counts as Evidence::at_rest",
            Engine::Running => "this takes both gauges; what was read of them goes into PartReading",
        };
        Ok(Reading {
            refrigerant: self.refrigerant,
            engine: self.engine,
            low: of("low-side gauge", self.low, way_out)?,
            high: of("high-side gauge", self.high, way_out)?,
            air: self.air,
            ambient: self.ambient,
            humidity: self.humidity,
            suction_line: self.suction_line,
            liquid_line: self.liquid_line,
            vent: self.vent,
        })
    }

    fn check(&self, book: &Book<R>) -> Result<(), Error> {
        if book.refrigerant() != self.refrigerant {
            return Err(Error::Missing {
                what: "the book of charts for this refrigerant",
                way_out: "make it with Book::new of the reading's own refrigerant",
            });
        }
        if self.engine == Engine::AtRest && self.ambient.is_none() {
            return Err(Error::Missing {
                what: "ambient temperature",
                way_out: "a circuit at rest is judged by the temperature around it; measure and give it",
            });
        }
        if let (Engine::Running, Some(low), Some(high)) = (self.engine, self.low, self.high) {
            in_order(&low, &high)?;
        }
        self.humidity.map_or(Ok(()), |humidity| share("relative humidity (%)", humidity))?;
        for (what, t, plausible) in [
            ("ambient temperature", self.ambient, PLAUSIBLE_AIR),
            ("suction line temperature", self.suction_line, PLAUSIBLE_LINE),
            ("liquid line temperature", self.liquid_line, PLAUSIBLE_LINE),
            ("vent temperature", self.vent, PLAUSIBLE_LINE),
        ] {
            t.map_or(Ok(()), |t| bearable(what, &t, &plausible.value))?;
        }
        Ok(())
    }
}

/// # Errors
/// [`Error::SidesReversed`] when the running high side reads below the low side by more than the gauges can tell: a compressor
/// at rest shows both alike, and gauges may put either a little above the other.
pub(crate) fn in_order(low: &Measured<GaugePressure>, high: &Measured<GaugePressure>) -> Result<(), Error> {
    let doubt = PressureDifference::combine(&[low.expanded(), high.expanded()]);
    if high.value() + doubt < low.value() {
        return Err(Error::SidesReversed { low_kpa: low.value().kpa(), high_kpa: high.value().kpa() });
    }
    Ok(())
}

/// # Errors
/// [`Error::Impossible`] for a share outside 0 to 100 %; `what` names the unit.
pub(crate) fn share(what: &'static str, share: Ratio) -> Result<(), Error> {
    if (0.0..=1.0).contains(&share.fraction()) {
        return Ok(());
    }
    Err(Error::Impossible { what, value: share.percent(), must: "from 0 to 100" })
}

/// # Errors
/// [`Error::Implausible`] for a temperature outside `plausible`.
pub(crate) fn bearable(
    what: &'static str,
    t: &Measured<Temperature>,
    plausible: &Range<Temperature>,
) -> Result<(), Error> {
    if plausible.contains(t.value()) {
        return Ok(());
    }
    let (low, high) = (plausible.low.celsius(), plausible.high.celsius());
    Err(Error::Implausible { what, value: t.value().celsius(), low, high, unit: "°C" })
}

impl LineFinding {
    fn of(value: Measured<TemperatureDifference>, usual: Option<Sourced<Range<TemperatureDifference>>>) -> Self {
        Self { value, usual, verdict: usual.map(|usual| Verdict::of(&value, &usual.value)) }
    }

    /// Whether the instruments can tell the sign: the value is further from zero than its 95 % interval.
    pub fn is_clear(&self) -> bool {
        self.value.value().si().abs() > self.value.expanded().si()
    }
}
