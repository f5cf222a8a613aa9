//! What a person typed or a log recorded: readings with the units they were given in.

use super::book::{Book, Side};
use super::reading::{Assessment, Engine, Instruments, PartReading, Reading};
use super::slip::{other_pressure_unit, other_temperature_unit};
use crate::quantity::instrument::{self, PressureGauge};
use crate::quantity::{PressureUnit, Unit};
use crate::saturation::Lines;
use crate::{
    Entered, Error, GaugePressure, Length, Measured, Pressure, Quantity, Range, Ratio, Source, Sourced, Temperature,
    TemperatureDifference, air,
};

/// Readings as they were entered. None is a must; a [`Reading`] asks for both gauges, a [`PartReading`] for nothing.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Entry {
    /// Low-side gauge.
    pub low: Option<Entered<GaugePressure>>,
    /// High-side gauge.
    pub high: Option<Entered<GaugePressure>>,
    /// Thermometer on the suction line, between evaporator and compressor.
    pub suction_line: Option<Entered<Temperature>>,
    /// Thermometer on the liquid line, after the condenser.
    pub liquid_line: Option<Entered<Temperature>>,
    /// Thermometer at the centre vent.
    pub vent: Option<Entered<Temperature>>,
    /// Outside air before the condenser, in the shade.
    pub ambient: Option<Entered<Temperature>>,
    /// Relative humidity of that air.
    pub humidity: Option<Entered<Ratio>>,
    /// Altitude above sea level.
    pub altitude: Option<Entered<Length>>,
    /// Air pressure at the place, not reduced to sea level; goes before altitude.
    pub barometer: Option<Entered<Pressure>>,
}

/// A number that makes more sense in another unit.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Question {
    /// Which reading: "low side", "ambient" and so on.
    pub about: &'static str,
    /// As it was entered.
    pub entered: String,
    /// The unit in which it would fit.
    pub unit: &'static str,
    /// As it would read then.
    pub instead: String,
}

impl std::fmt::Display for Question {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "{}: {} is far from what is usual; was {} meant?", self.about, self.entered, self.instead)
    }
}

impl Entry {
    /// Just the two gauges.
    pub fn gauges(low: Entered<GaugePressure>, high: Entered<GaugePressure>) -> Self {
        Self { low: Some(low), high: Some(high), ..Self::default() }
    }

    /// Air pressure: the barometer, else the standard atmosphere at the altitude, else at sea level.
    ///
    /// # Errors
    /// [`Error::Implausible`] for a barometer or an altitude where nobody services cars.
    pub fn air(&self) -> Result<Measured<Pressure>, Error> {
        match (self.barometer, self.altitude) {
            (Some(barometer), _) => instrument::barometer(barometer.quantity()),
            (None, altitude) => air::pressure_at(altitude.map_or(Length::from_m(0.0), |altitude| altitude.quantity())),
        }
    }

    /// The entry as a reading of both gauges, of the given instruments.
    ///
    /// # Errors
    /// Those of [`Entry::part`]; [`Error::Missing`] for a gauge that was not read.
    pub fn reading<R: Lines + Copy + PartialEq>(
        &self,
        refrigerant: R,
        engine: Engine,
        instruments: &Instruments,
    ) -> Result<Reading<R>, Error> {
        self.part(refrigerant, engine, instruments)?.both()
    }

    /// The entry as readings of the given instruments, as far as it goes.
    ///
    /// At rest both gauges show the same; a low side beyond the low gauge's scale was then read on the high-side gauge and
    /// carries that one's uncertainty.
    ///
    /// # Errors
    /// [`Error::BelowVacuum`] for a pressure that does not exist and [`Error::BeyondScale`] for one off the gauge's scale,
    /// both inside [`Error::About`] with the reading as entered; [`Error::Implausible`] for an altitude or air pressure
    /// that no workshop has.
    pub fn part<R: Lines>(
        &self,
        refrigerant: R,
        engine: Engine,
        instruments: &Instruments,
    ) -> Result<PartReading<R>, Error> {
        let air = self.air()?;
        let gauge = |place: &str, stated: Option<Entered<GaugePressure>>, gauge: &PressureGauge| {
            let Some(stated) = stated else { return Ok(None) };
            // no gauge goes below vacuum, whatever its scale
            let absolute = stated.quantity().absolute(air.value());
            let read = if absolute.si() <= 0.0 {
                Err(Error::BelowVacuum { value: absolute.kpa(), air_kpa: air.value().kpa() })
            } else {
                gauge.read(stated.quantity())
            };
            read.map(Some).map_err(|error| error.about(format!("{place}, {stated}")))
        };
        let low_gauge = match engine {
            Engine::AtRest if self.low.is_some_and(|low| low.quantity() > instruments.low.scale.high) => {
                &instruments.high
            }
            _ => &instruments.low,
        };
        let ambient = self.ambient.map(|t| t.quantity());
        let in_air =
            |t: Option<Entered<Temperature>>| t.map(|t| instruments.air.read(t.quantity(), ambient)).transpose();
        let on_line =
            |t: Option<Entered<Temperature>>| t.map(|t| instruments.line.read(t.quantity(), ambient)).transpose();
        Ok(PartReading {
            refrigerant,
            engine,
            low: gauge("low side", self.low, low_gauge)?,
            high: gauge("high side", self.high, &instruments.high)?,
            air,
            ambient: in_air(self.ambient)?,
            humidity: self.humidity.map(|h| h.quantity()),
            suction_line: on_line(self.suction_line)?,
            liquid_line: on_line(self.liquid_line)?,
            discharge_line: None,
            vent: in_air(self.vent)?,
        })
    }

    /// Numbers that lie far from what is usual and would fit in another unit.
    ///
    /// What is usual comes from the windows of `assessment` where there is one, else from everything `book` knows of that
    /// side; for lines and vent from the ambient. Ask without an assessment when the entry was refused: a slip may be why.
    pub fn questions<R: Lines + Copy>(&self, book: &Book<R>, assessment: Option<&Assessment>) -> Vec<Question> {
        let mut questions = Vec::new();
        let mut ask = |about, entered: String, unit: &'static str, instead: String| {
            questions.push(Question { about, entered, unit, instead });
        };
        // a gauge pressure of mercury inches above zero is a vacuum typed without its sign
        if let Some(low) = self.low.filter(|low| low.unit() == PressureUnit::InchOfMercury && low.number() > 0.0) {
            let entered = low.to_string();
            let instead = format!("-{entered}, a vacuum,");
            ask("low side", entered, "inHg", instead);
        }
        for (about, side, stated) in [("low side", Side::Low, self.low), ("high side", Side::High, self.high)] {
            let Some(stated) = stated else { continue };
            let found = assessment.and_then(|assessment| match side {
                Side::Low => assessment.low.as_ref(),
                Side::High => assessment.high.as_ref(),
            });
            let today = found.and_then(|found| found.window.range());
            let expected = today.unwrap_or_else(|| book.anything(side));
            if let Some(unit) = other_pressure_unit(&stated, &expected) {
                let instead = GaugePressure::new(stated.number(), unit).entered(unit, stated.decimals());
                ask(about, stated.to_string(), unit.symbol(), instead.to_string());
            }
        }
        let ambient = self.ambient.map_or(MILD_DAY.value, |t| t.quantity());
        for (about, stated, expected) in [
            ("ambient", self.ambient, USUAL_AMBIENT.value),
            ("suction line", self.suction_line, Range::new(COLDEST_SUCTION.value, ambient)),
            ("liquid line", self.liquid_line, Range::new(ambient, ambient + HOTTEST_LIQUID.value)),
            ("vent", self.vent, Range::new(COLDEST_VENT.value, ambient)),
        ] {
            let Some(stated) = stated else { continue };
            if let Some(unit) = other_temperature_unit(&stated, &expected) {
                let instead = Temperature::new(stated.number(), unit).entered(unit, stated.decimals());
                ask(about, stated.to_string(), unit.symbol(), instead.to_string());
            }
        }
        // a barometer and an altitude that contradict each other: the usual weather report is reduced to sea level
        if let (Some(barometer), Some(altitude)) = (self.barometer, self.altitude)
            && let Ok(standard) = air::pressure_at(altitude.quantity())
            && (barometer.quantity() - standard.value()).si().abs() > 4.0 * standard.standard_uncertainty().si()
        {
            let instead = standard.value().entered(PressureUnit::Hectopascal, 0);
            ask("barometer", barometer.to_string(), "hPa", format!("{instead}, not reduced to sea level,"));
        }
        questions
    }
}

const fn habit<T: Copy>(value: T) -> Sourced<T> {
    Sourced { value, source: Source::COMMON_PRACTICE }
}

/// A day on which air conditioning is used; this and what follows serve only to ask about units.
const USUAL_AMBIENT: Sourced<Range<Temperature>> =
    habit(Range::new(Temperature::from_celsius(10.0), Temperature::from_celsius(50.0)));
/// The ambient assumed when none is given.
const MILD_DAY: Sourced<Temperature> = habit(Temperature::from_celsius(25.0));
/// A suction line lies between this and the ambient.
const COLDEST_SUCTION: Sourced<Temperature> = habit(Temperature::from_celsius(-10.0));
/// A liquid line lies between the ambient and this much above it.
const HOTTEST_LIQUID: Sourced<TemperatureDifference> = habit(TemperatureDifference::from_kelvins(40.0));
/// A vent lies between this and the ambient.
const COLDEST_VENT: Sourced<Temperature> = habit(Temperature::from_celsius(-2.0));
