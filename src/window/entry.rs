//! What a person typed or a log recorded: readings with the units they were given in.

use super::book::{Book, Side};
use super::reading::{Assessment, Engine, Instruments, Reading};
use super::slip::{other_pressure_unit, other_temperature_unit};
use crate::quantity::{Unit, instrument};
use crate::{
    Error, GaugePressure, Length, Measured, Pressure, Quantity, Range, Ratio, Refrigerant, Stated, Temperature, air,
};

/// Readings as they were entered. Only the two gauges are a must.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Entry {
    /// Low-side gauge.
    pub low: Stated<GaugePressure>,
    /// High-side gauge.
    pub high: Stated<GaugePressure>,
    /// Thermometer on the suction line, between evaporator and compressor.
    pub suction_line: Option<Stated<Temperature>>,
    /// Thermometer on the liquid line, after the condenser.
    pub liquid_line: Option<Stated<Temperature>>,
    /// Thermometer at the centre vent.
    pub vent: Option<Stated<Temperature>>,
    /// Outside air before the condenser, in the shade.
    pub ambient: Option<Stated<Temperature>>,
    /// Relative humidity of that air.
    pub humidity: Option<Stated<Ratio>>,
    /// Altitude above sea level.
    pub altitude: Option<Stated<Length>>,
    /// Air pressure at the place, not reduced to sea level; goes before altitude.
    pub barometer: Option<Stated<Pressure>>,
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
    pub fn gauges(low: Stated<GaugePressure>, high: Stated<GaugePressure>) -> Self {
        Self {
            low,
            high,
            suction_line: None,
            liquid_line: None,
            vent: None,
            ambient: None,
            humidity: None,
            altitude: None,
            barometer: None,
        }
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

    /// The entry as readings of the given instruments.
    ///
    /// # Errors
    /// [`Error::BelowVacuum`] for a pressure that does not exist; [`Error::BeyondScale`] for one off the gauge's scale; [`Error::Implausible`] for a temperature, humidity,
    /// altitude or air pressure that no workshop reads.
    pub fn reading(
        &self,
        refrigerant: Refrigerant,
        engine: Engine,
        instruments: &Instruments,
    ) -> Result<Reading, Error> {
        let air = self.air()?;
        // no gauge goes below vacuum, whatever its scale
        for (what, stated) in [("low side", self.low), ("high side", self.high)] {
            let absolute = stated.quantity().absolute(air.value());
            if absolute.si() <= 0.0 {
                return Err(Error::BelowVacuum { what, value: absolute.kpa(), air_kpa: air.value().kpa() });
            }
        }
        let ambient = self.ambient.map(|t| t.quantity());
        let in_air =
            |t: Option<Stated<Temperature>>| t.map(|t| instruments.air.read(t.quantity(), ambient)).transpose();
        let on_line =
            |t: Option<Stated<Temperature>>| t.map(|t| instruments.line.read(t.quantity(), ambient)).transpose();
        Ok(Reading {
            refrigerant,
            engine,
            low: instruments.low.read(self.low.quantity())?,
            high: instruments.high.read(self.high.quantity())?,
            air,
            ambient: in_air(self.ambient)?,
            humidity: self.humidity.map(|h| h.quantity()),
            suction_line: on_line(self.suction_line)?,
            liquid_line: on_line(self.liquid_line)?,
            vent: in_air(self.vent)?,
        })
    }

    /// Numbers that lie far from what is usual and would fit in another unit.
    ///
    /// What is usual comes from the windows of `assessment`, or from all charts of `book` when the day has none; for lines
    /// and vent from the ambient.
    pub fn questions(&self, book: &Book, assessment: &Assessment) -> Vec<Question> {
        let mut questions = Vec::new();
        let mut ask = |about, entered: String, unit: &'static str, instead: Option<String>| {
            if let Some(instead) = instead {
                questions.push(Question { about, entered, unit, instead });
            }
        };
        // a gauge pressure of mercury inches above zero is a vacuum typed without its sign
        if self.low.unit() == crate::quantity::PressureUnit::InchOfMercury && self.low.number() > 0.0 {
            let entered = self.low.to_string();
            let instead = format!("-{entered}, a vacuum,");
            ask("low side", entered, "inHg", Some(instead));
        }
        for (about, side, stated, finding) in
            [("low side", Side::Low, self.low, &assessment.low), ("high side", Side::High, self.high, &assessment.high)]
        {
            let Some(expected) = finding.window.range().or_else(|| book.anything(side)) else { continue };
            if let Some(unit) = other_pressure_unit(&stated, &expected) {
                let instead = GaugePressure::new(stated.number(), unit).stated(unit, stated.decimals());
                ask(about, stated.to_string(), unit.symbol(), Some(instead.to_string()));
            }
        }
        // lines and vent run between a freezing evaporator and a condenser well above the day
        let usual = |low: f64, high: f64| Range::new(Temperature::from_celsius(low), Temperature::from_celsius(high));
        let ambient = self.ambient.map_or(25.0, |t| t.quantity().celsius());
        for (about, stated, expected) in [
            ("ambient", self.ambient, usual(10.0, 50.0)),
            ("suction line", self.suction_line, usual(-10.0, ambient)),
            ("liquid line", self.liquid_line, usual(ambient, ambient + 40.0)),
            ("vent", self.vent, usual(-2.0, ambient)),
        ] {
            let Some(stated) = stated else { continue };
            if let Some(unit) = other_temperature_unit(&stated, &expected) {
                let instead = Temperature::new(stated.number(), unit).stated(unit, stated.decimals());
                ask(about, stated.to_string(), unit.symbol(), Some(instead.to_string()));
            }
        }
        questions
    }
}
