#![doc = include_str!("../README.md")]

pub mod air;
pub mod diagnosis;
mod error;
#[cfg(feature = "fit")]
pub mod fit;
pub mod helmholtz;
pub mod line;
mod numeric;
pub mod quantity;
pub mod refrigerant;
pub mod report;
pub mod saturation;
pub mod service;
pub mod source;
pub mod system;
pub mod trace;
pub mod window;

pub use error::Error;
pub use line::Line;
pub use quantity::{
    GaugePressure, Length, Mass, Measured, Pressure, PressureDifference, Quantity, Range, Ratio, Stated, Temperature,
    TemperatureDifference, Volume,
};
pub use refrigerant::Refrigerant;
pub use source::{Fact, Source, Trust};
