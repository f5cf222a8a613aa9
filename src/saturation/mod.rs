//! The pressure at which a refrigerant boils or condenses at a temperature, and the temperature at a pressure.

mod wagner;

pub use wagner::{Accuracy, TERMS, Wagner};
