#![doc = include_str!("../README.md")]
//!
//! # Where to look
//!
//! | question | where |
//! |---|---|
//! | Which temperature belongs to this pressure? | [`Refrigerant::saturation_temperature`], [`Refrigerant::saturation_pressure`] |
//! | Density, enthalpy, heat capacity, speed of sound? | [`Refrigerant::state`], [`helmholtz`] |
//! | Viscosity, conductivity, surface tension? | [`Refrigerant::viscosity`], [`Refrigerant::thermal_conductivity`], [`Refrigerant::surface_tension`] |
//! | What is this refrigerant, and who says so? | [`Refrigerant::fluid`], [`Source`] |
//! | Which published tables agree? | [`Refrigerant::saturation_checks`] |
//! | Superheat or subcooling, and how sure? | [`Line`], [`Measured`], [`quantity::instrument`] |
//! | Gauge to absolute, altitude, humid air? | [`GaugePressure::absolute`], [`air::pressure_at`], [`air::MoistAir`] |
//! | Which pressures does this day allow? | [`window::Window`] computed, [`window::Book`] printed |
//! | Both gauges with the engine off? | [`window::at_rest`] |
//! | Readings as people type or log them? | [`window::Entry`], [`window::Columns`], [`window::PartReading`] |
//! | Which cause explains a reading, and what to measure next? | [`diagnosis::interpret`] |
//! | One car's loop, balanced? | [`circuit::Circuit::run`], [`circuit::Population`] |
//! | Vacuum, hold test, gates? | [`service::evacuation`], [`service::standing_vacuum`], [`service::acceptance`] |
//! | Charge, hose, scale, cylinder? | [`service::charge`] |
//! | Oil, and which ounce a label means? | [`service::oil`] |
//! | Leaks, purity, an unknown refrigerant? | [`service::leak`], [`service::non_condensables`], [`service::identify`] |
//! | The sheet for a whole job? | [`service::job`] |
//! | A page for a person, data for a program? | [`report::Report`], [`report::Page`], [`report::cautions`] |
//! | A picture of it? | [`plot`] |
//! | A refrigerant of one's own? | [`saturation::OwnRefrigerant`] |
#![cfg_attr(feature = "fit", doc = "| A saturation line from a table of one's own? | [`fit`] |")]
#![cfg_attr(
    not(feature = "fit"),
    doc = "| A saturation line from a table of one's own? | module `fit`, with feature `fit` |"
)]
//! | The physics, in order, with exercises? | [`guide`] |

pub mod air;
pub mod circuit;
pub mod diagnosis;
mod error;
#[cfg(feature = "fit")]
pub mod fit;
pub mod guide;
pub mod helmholtz;
pub mod line;
mod numeric;
pub mod plot;
pub mod quantity;
pub mod refrigerant;
pub mod report;
pub mod saturation;
pub mod service;
pub mod source;

pub mod trace;
pub mod window;

pub use error::Error;
pub use line::Line;
pub use quantity::{
    Entered, GaugePressure, Length, Mass, Measured, Pressure, PressureDifference, Quantity, Range, Ratio, Temperature,
    TemperatureDifference, Volume,
};
pub use refrigerant::Refrigerant;
pub use source::{Source, Sourced, Trust};
