//! A pressure and a temperature read together in a closed circuit.

use crate::{Measured, Pressure, Temperature};

/// The pressure of a closed circuit and the temperature of what is inside, read at one moment.
#[derive(Debug, Clone, Copy, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(deny_unknown_fields))]
pub struct StaticReading {
    /// Absolute pressure.
    pub pressure: Measured<Pressure>,
    /// Temperature of the liquid, or of the gas.
    pub temperature: Measured<Temperature>,
}
