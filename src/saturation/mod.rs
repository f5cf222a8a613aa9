//! The pressure at which a refrigerant boils or condenses at a temperature, and the temperature at a pressure.

mod curve;
mod lines;
mod wagner;

pub use curve::{Curve, Dome, Saturated};
#[cfg(feature = "fit")]
pub use curve::{MadeCurve, MadeDome};
pub use lines::{Lines, OwnRefrigerant};
pub use wagner::{Accuracy, TERMS, Wagner};
