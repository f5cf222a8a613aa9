//! Operating point: the air around a circuit, and the settings of vehicle and controls.

use crate::{Error, Pressure, Range, Ratio, Temperature};

/// Range of ambient temperature in which the model is used; our choice: below it air conditioning only dries, above it
/// nobody reads gauges.
pub const AMBIENT: Range<Temperature> = Range::new(Temperature::from_celsius(5.0), Temperature::from_celsius(55.0));

/// Air pressures in which the model is used, kPa: from 5500 m to the densest weather at sea level; our choice. Readings are taken from
/// 40 kPa on (`inspection`): what is only converted asks less of the air than a model of fans and coils.
const AIR_KPA: (f64, f64) = (50.0, 108.0);

/// Operating point of a circuit: the air around it, and the settings of vehicle and controls.
///
/// Solar load is left out: readings are taken in a workshop or its shade.
#[derive(Debug, Clone, Copy, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(deny_unknown_fields))]
pub struct OperatingPoint {
    /// Outside air temperature.
    pub ambient: Temperature,
    /// Relative humidity of the outside air.
    pub humidity: Ratio,
    /// Absolute pressure of the outside air.
    pub air: Pressure,
    /// Settings of vehicle and controls.
    pub running: Settings,
}

/// Settings of vehicle and controls: engine speed, motion, air intake and blower.
#[derive(Debug, Clone, Copy, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(deny_unknown_fields))]
pub struct Settings {
    /// Engine speed, or idle.
    pub engine: EngineSpeed,
    /// Motion of the vehicle: standing, or the driving speed.
    pub motion: Motion,
    /// Air intake of the blower: outside or cabin air, with the state of doors and windows.
    pub intake: Intake,
    /// Blower flow as a fraction of its highest.
    pub blower: Ratio,
}

/// Engine speed, stated or at idle.
#[derive(Debug, Clone, Copy, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(rename_all = "kebab-case"))]
pub enum EngineSpeed {
    /// Idle speed of each circuit's own engine.
    Idle,
    /// Engine speed, rpm.
    Rpm(f64),
}

/// Motion of the vehicle: standing or driving.
#[derive(Debug, Clone, Copy, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(rename_all = "kebab-case"))]
pub enum Motion {
    /// Standing vehicle: air by the fan alone, with warm air recirculating to the front of the condenser.
    Standing,
    /// Driving vehicle, with its speed in km/h.
    Driving(f64),
}

/// Air intake of the blower: outside air, or on recirculation cabin air, with the state of doors and windows.
///
/// With doors or a window open, or all shut, cabin air is more or less cooler and drier than outside air: see
/// [`EvaporatorAir`](super::EvaporatorAir) for the sizes that determine it. A cabin in the sun is not modelled.
///
/// In JSON `"fresh"`, `"doors-open"` (also `"recirculation"`, as earlier versions wrote it), `{"window-open":{}}` and
/// `{"shut":{"minutes":10}}`.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(rename_all = "kebab-case"))]
pub enum Intake {
    /// Outside air.
    Fresh,
    /// Recirculation with the doors open, as most makers specify for their tests: air around the car, of which a fraction
    /// has just left the vents.
    #[cfg_attr(feature = "serde", serde(alias = "recirculation"))]
    DoorsOpen,
    /// Recirculation with the doors shut and a window open.
    WindowOpen {
        /// Minutes since the air conditioning was switched on in a cabin as warm as outside; `None` once the cabin has
        /// reached its lowest temperature.
        #[cfg_attr(feature = "serde", serde(default, skip_serializing_if = "Option::is_none"))]
        minutes: Option<u16>,
    },
    /// Recirculation with doors and windows shut.
    Shut {
        /// Minutes since the air conditioning was switched on in a cabin as warm as outside; `None` once the cabin has
        /// reached its lowest temperature.
        #[cfg_attr(feature = "serde", serde(default, skip_serializing_if = "Option::is_none"))]
        minutes: Option<u16>,
    },
}

impl Settings {
    /// Test conditions most makers specify for pressure readings: idle, standing, recirculation with the doors open,
    /// blower at its highest (common practice; printed conditions in `tables/windows/performance-tables.csv`).
    pub const TEST: Self = Self {
        engine: EngineSpeed::Idle,
        motion: Motion::Standing,
        intake: Intake::DoorsOpen,
        blower: Ratio::from_fraction(1.0),
    };
}

impl Default for Settings {
    fn default() -> Self {
        Self::TEST
    }
}

impl OperatingPoint {
    /// Operating point of the usual test at idle, with [`Settings::TEST`].
    pub const fn idle(ambient: Temperature, humidity: Ratio, air: Pressure) -> Self {
        Self { ambient, humidity, air, running: Settings::TEST }
    }

    /// Checks that the operating point lies in the range of the model.
    ///
    /// # Errors
    /// [`Error::Implausible`] outside the range of the model.
    pub(super) fn guard(&self) -> Result<(), Error> {
        let within = |what, value: f64, low: f64, high: f64, unit| {
            if (low..=high).contains(&value) {
                return Ok(());
            }
            Err(Error::Implausible { what, value, low, high, unit })
        };
        let (coldest, hottest) = (AMBIENT.low.celsius(), AMBIENT.high.celsius());
        within("ambient temperature", self.ambient.celsius(), coldest, hottest, "°C")?;
        within("relative humidity", self.humidity.percent(), 0.0, Ratio::from_fraction(1.0).percent(), "%")?;
        within("air pressure", self.air.kpa(), AIR_KPA.0, AIR_KPA.1, "kPa")?;
        self.running.check()?;
        Ok(())
    }
}
