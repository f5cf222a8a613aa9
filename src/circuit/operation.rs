//! The day and how the car is run on it.

use crate::{Error, Pressure, Range, Ratio, Temperature};

/// Outside air for which the loop is computed; our choice: below it air conditioning only dries, above it nobody reads gauges.
pub const AMBIENT: Range<Temperature> = Range::new(Temperature::from_celsius(5.0), Temperature::from_celsius(55.0));

/// What is asked of a circuit: the air around it and how car and controls are set.
///
/// Sun on the car is left out: readings are taken in a workshop or its shade.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct OperatingPoint {
    /// Outside air.
    pub ambient: Temperature,
    /// Its relative humidity.
    pub humidity: Ratio,
    /// Its pressure.
    pub air: Pressure,
    /// How the car is run.
    pub running: Settings,
}

/// How car and controls are set.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Settings {
    /// Engine speed.
    pub engine: EngineSpeed,
    /// Standing, or the speed of the car.
    pub motion: Motion,
    /// Where the blower takes its air.
    pub intake: Intake,
    /// Blower, as a share of its highest flow.
    pub blower: Ratio,
}

/// Engine speed.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum EngineSpeed {
    /// Each car at its own.
    Idle,
    /// Turns a minute.
    Rpm(f64),
}

/// Whether the car moves.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Motion {
    /// Fan alone; warm air finds its way back to the front.
    Standing,
    /// Speed in km/h.
    Driving(f64),
}

/// Where the blower takes its air.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Intake {
    /// Outside.
    Fresh,
    /// From the cabin, with doors or windows open, as makers ask for in their tests.
    Recirculation,
}

impl Settings {
    /// As most makers ask for when pressures are read: idle, standing, recirculation, blower at its highest.
    pub const TEST: Self = Self {
        engine: EngineSpeed::Idle,
        motion: Motion::Standing,
        intake: Intake::Recirculation,
        blower: Ratio::from_fraction(1.0),
    };
}

impl Default for Settings {
    fn default() -> Self {
        Self::TEST
    }
}

impl OperatingPoint {
    /// The usual test at idle, [`Settings::TEST`].
    pub const fn idle(ambient: Temperature, humidity: Ratio, air: Pressure) -> Self {
        Self { ambient, humidity, air, running: Settings::TEST }
    }

    /// # Errors
    /// [`Error::Implausible`] outside what the model was made for.
    pub(super) fn guard(&self) -> Result<(), Error> {
        let within = |what, value: f64, low: f64, high: f64, unit| {
            if (low..=high).contains(&value) {
                return Ok(());
            }
            Err(Error::Implausible { what, value, low, high, unit })
        };
        let (coldest, hottest) = (AMBIENT.low.celsius(), AMBIENT.high.celsius());
        within("ambient temperature", self.ambient.celsius(), coldest, hottest, "°C")?;
        within("relative humidity", self.humidity.percent(), 0.0, 100.0, "%")?;
        within("air pressure", self.air.kpa(), 50.0, 108.0, "kPa")?;
        within("blower", self.running.blower.percent(), 10.0, 100.0, "%")?;
        if let EngineSpeed::Rpm(rpm) = self.running.engine {
            within("engine speed", rpm, 400.0, 7000.0, "1/min")?;
        }
        if let Motion::Driving(speed) = self.running.motion {
            within("speed of the car", speed, 0.0, 250.0, "km/h")?;
        }
        Ok(())
    }
}
