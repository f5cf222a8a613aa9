//! What a method answers, for one value.

use satline::line::absolute;
use satline::quantity::{PressureUnit, StepUnit};
use satline::{Error, GaugePressure, Measured, Pressure, Quantity, Refrigerant, Temperature, TemperatureDifference};
use satline_json::Refusal;

use crate::given::{Given, Input, Measure, Numbers};

/// The saturation line of an answer.
#[derive(Debug, Clone, Copy)]
pub enum Side {
    Dew,
    Bubble,
}

/// An answer, with its unit.
#[derive(Debug, Clone, Copy)]
pub enum Answer {
    Temperature(Side, fn(Temperature) -> f64),
    Absolute(Side, PressureUnit),
    Gauge(Side, PressureUnit),
    Superheat(StepUnit),
    Subcooling(StepUnit),
}

impl Answer {
    pub fn needs_pressure(self) -> bool {
        matches!(self, Self::Temperature(..) | Self::Superheat(_) | Self::Subcooling(_))
    }

    pub fn needs_temperature(self) -> bool {
        !matches!(self, Self::Temperature(..))
    }

    /// Changes answers in SI units to its own. `air` is the pressure of the surrounding air, Pa.
    pub fn in_unit(self, answers: &mut [f64], air: &[f64]) {
        match self {
            Self::Temperature(_, in_unit) => {
                answers.iter_mut().for_each(|t| *t = in_unit(Temperature::from_kelvin(*t)))
            }
            Self::Absolute(_, unit) => answers.iter_mut().for_each(|p| *p /= unit.factor()),
            Self::Gauge(_, unit) => answers.iter_mut().zip(air).for_each(|(p, air)| *p = (*p - air) / unit.factor()),
            Self::Superheat(unit) | Self::Subcooling(unit) => answers.iter_mut().for_each(|t| *t /= unit.factor()),
        }
    }

    /// The answer for one number of each input.
    pub fn one(self, refrigerant: Refrigerant, given: &Given<'_>) -> Result<f64, Refusal> {
        let air = given.air_si()?;
        let si = match self {
            Self::Temperature(side, _) => {
                let (input, p) = given.absolute(air)?;
                side.temperature(refrigerant, p).map_err(|error| input.refusal(&error))?.kelvin()
            }
            Self::Absolute(side, _) | Self::Gauge(side, _) => {
                let (input, t) = given.line()?;
                side.pressure(refrigerant, t).map_err(|error| input.refusal(&error))?.pa()
            }
            Self::Superheat(_) => given.difference(refrigerant, Side::Dew, air)?.kelvins(),
            Self::Subcooling(_) => given.difference(refrigerant, Side::Bubble, air)?.kelvins(),
        };
        let mut answer = [si];
        self.in_unit(&mut answer, &[air]);
        Ok(answer[0])
    }
}

impl Side {
    fn temperature(self, refrigerant: Refrigerant, p: Pressure) -> Result<Temperature, Error> {
        match self {
            Self::Dew => refrigerant.dew_temperature(p),
            Self::Bubble => refrigerant.bubble_temperature(p),
        }
    }

    fn pressure(self, refrigerant: Refrigerant, t: Temperature) -> Result<Pressure, Error> {
        match self {
            Self::Dew => refrigerant.dew_pressure(t),
            Self::Bubble => refrigerant.bubble_pressure(t),
        }
    }
}

/// For one number of each input; that every input is there was checked when they were read.
impl Given<'_> {
    /// Pressure of the surrounding air, Pa, that of sea level unless given; none beside an absolute pressure.
    pub fn air_si(&self) -> Result<f64, Refusal> {
        match (&self.air, &self.pressure) {
            (Some(input), _) => input.number(),
            (None, Some(Input { measure: Measure::Absolute(_), .. })) => Ok(0.0),
            (None, _) => Ok(Pressure::STANDARD_ATMOSPHERE.pa()),
        }
    }

    fn absolute(&self, air: f64) -> Result<(&Input<'_>, Pressure), Refusal> {
        let input = present(&self.pressure)?;
        let p = input.number()?;
        let p = match input.measure {
            Measure::Gauge(_) => exact(GaugePressure::from_pa(p))
                .and_then(|gauge| Ok(absolute(&gauge, &exact(Pressure::from_pa(air))?)?.value()))
                .map_err(|error| input.refusal(&error))?,
            _ => Pressure::from_pa(p),
        };
        Ok((input, p))
    }

    fn line(&self) -> Result<(&Input<'_>, Temperature), Refusal> {
        let input = present(&self.temperature)?;
        Ok((input, Temperature::from_kelvin(input.number()?)))
    }

    /// Distance of the line from saturation.
    fn difference(&self, refrigerant: Refrigerant, side: Side, air: f64) -> Result<TemperatureDifference, Refusal> {
        let (input, p) = self.absolute(air)?;
        // what is wrong with the pressure is so at any temperature
        side.temperature(refrigerant, p).map_err(|error| input.refusal(&error))?;
        let (input, line) = self.line()?;
        // a gauge in a vacuum shows the absolute pressure
        let (gauge, vacuum) = (GaugePressure::from_pa(p.pa()), Pressure::from_pa(0.0));
        let difference = match side {
            Side::Dew => refrigerant.superheat(gauge, vacuum, line),
            Side::Bubble => refrigerant.subcooling(gauge, vacuum, line),
        };
        difference.map_err(|error| input.refusal(&error))
    }
}

impl Input<'_> {
    /// The one number in SI units; NaN for an array, whose elements are asked for elsewhere.
    fn number(&self) -> Result<f64, Refusal> {
        match self.numbers {
            Numbers::One(number) => self.one(number),
            Numbers::Array(_) => Ok(f64::NAN),
        }
    }
}

fn exact<Q: Quantity>(value: Q) -> Result<Measured<Q>, Error> {
    Measured::exact(value)
}

fn present<'a, 'py>(input: &'a Option<Input<'py>>) -> Result<&'a Input<'py>, Refusal> {
    let missing = || Error::Missing { what: "a pressure or a temperature", way_out: "give it by a keyword" };
    input.as_ref().ok_or_else(|| Refusal::of(&missing(), None))
}
