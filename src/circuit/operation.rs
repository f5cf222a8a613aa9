//! The operating point: the air around a circuit, and how it is run.

use crate::{Error, Pressure, Range, Ratio, Temperature};

/// Range of outside air in which the model is used; our choice: below it air conditioning only dries, above it nobody reads gauges.
pub const AMBIENT: Range<Temperature> = Range::new(Temperature::from_celsius(5.0), Temperature::from_celsius(55.0));

/// Operating point of a circuit: the air around it, and how vehicle and controls are set.
///
/// Solar load is left out: readings are taken in a workshop or its shade.
#[derive(Debug, Clone, Copy, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(deny_unknown_fields))]
pub struct OperatingPoint {
    /// Outside air.
    pub ambient: Temperature,
    /// Its relative humidity.
    pub humidity: Ratio,
    /// Its pressure.
    pub air: Pressure,
    /// Settings of vehicle and controls.
    pub running: Settings,
}

/// Settings of vehicle and controls.
#[derive(Debug, Clone, Copy, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(deny_unknown_fields))]
pub struct Settings {
    /// Engine speed.
    pub engine: EngineSpeed,
    /// Standing, or the driving speed.
    pub motion: Motion,
    /// Where the blower takes its air.
    pub intake: Intake,
    /// Blower, as a share of its highest flow.
    pub blower: Ratio,
}

/// Engine speed.
#[derive(Debug, Clone, Copy, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(rename_all = "kebab-case"))]
pub enum EngineSpeed {
    /// Each circuit at the idle speed of its own engine.
    Idle,
    /// Engine speed, rpm.
    Rpm(f64),
}

/// Standing or driving.
#[derive(Debug, Clone, Copy, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(rename_all = "kebab-case"))]
pub enum Motion {
    /// Fan alone; warm air finds its way back to the front.
    Standing,
    /// Speed in km/h.
    Driving(f64),
}

/// Where the blower takes its air.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(rename_all = "kebab-case"))]
pub enum Intake {
    /// Outside.
    Fresh,
    /// From the cabin, with doors or windows open, as makers ask for in their tests.
    Recirculation,
}

impl Settings {
    /// Test conditions as most makers ask for when pressures are read: idle, standing, recirculation, blower at its highest.
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

    /// Refuses an operating point that the model was not made for.
    ///
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
        self.running.check()?;
        Ok(())
    }
}
