//! Instruments of an inspection.

use super::measurand::Measurand;
use crate::Refrigerant;
use crate::quantity::instrument::{PressureGauge, Thermometer};

/// Instruments that readings were taken with.
#[derive(Debug, Clone, Copy, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(deny_unknown_fields))]
pub struct Instruments {
    /// Gauge on the low side.
    pub low: PressureGauge,
    /// Gauge on the high side.
    pub high: PressureGauge,
    /// Thermometer clamped on lines.
    pub line: Thermometer,
    /// Thermometer in the air, for ambient and vent.
    pub air: Thermometer,
}

impl Instruments {
    /// Analogue gauges of a service set for `refrigerant`, and thermocouples.
    ///
    /// For a refrigerant of your own, name the one of the catalogue whose gauges you use.
    pub const fn analogue(refrigerant: Refrigerant) -> Self {
        let (low, high) = if refrigerant.is_transcritical() {
            (PressureGauge::CARBON_DIOXIDE_LOW, PressureGauge::CARBON_DIOXIDE_HIGH)
        } else {
            (PressureGauge::SERVICE_LOW, PressureGauge::SERVICE_HIGH)
        };
        Self { low, high, line: Thermometer::CLAMPED_THERMOCOUPLE, air: Thermometer::THERMOCOUPLE_IN_AIR }
    }

    /// Digital pressure probes for `refrigerant`, and thermistor thermometers.
    pub const fn digital(refrigerant: Refrigerant) -> Self {
        let analogue = Self::analogue(refrigerant);
        Self {
            low: analogue.low.digital(),
            high: analogue.high.digital(),
            line: Thermometer::CLAMPED_DIGITAL,
            air: Thermometer::DIGITAL_IN_AIR,
        }
    }

    /// The gauge that reads `measurand`.
    pub(super) const fn gauge(&self, measurand: Measurand) -> &PressureGauge {
        match measurand {
            Measurand::HighSide => &self.high,
            _ => &self.low,
        }
    }

    /// The thermometer that reads `measurand`: the one in the air for the vent, else the one on lines.
    pub(super) const fn thermometer(&self, measurand: Measurand) -> &Thermometer {
        match measurand {
            Measurand::Vent => &self.air,
            _ => &self.line,
        }
    }
}
