#![doc = include_str!("../README.md")]
//!
//! # Where to look
//!
//! | question | where |
//! |---|---|
//! | Saturation temperature or pressure? | [`Refrigerant::saturation_temperature`], [`Refrigerant::saturation_pressure`] |
//! | Density, enthalpy, heat capacity, speed of sound? | [`Refrigerant::state`], [`helmholtz`] |
//! | Viscosity, thermal conductivity, surface tension? | [`Refrigerant::viscosity`], [`Refrigerant::thermal_conductivity`], [`Refrigerant::surface_tension`] |
//! | What is this refrigerant, and by which source? | [`Refrigerant::fluid`], [`Source`] |
//! | Which published tables agree? | [`Refrigerant::saturation_checks`] |
//! | Superheat or subcooling, with its uncertainty? | [`Line`], [`Measured`], [`quantity::instrument`] |
//! | Gauge to absolute pressure, altitude, moist air? | [`GaugePressure::absolute`], [`air::pressure_at`], [`air::MoistAir`] |
//! | A diagnosis in one call? | [`diagnosis::Diagnosis::of`] |
//! | Readings as people type or log them? | [`inspection::Entry`], [`inspection::Columns`] |
//! | Readings with uncertainty, and everything from one visit? | [`inspection::Reading`], [`inspection::Inspection`] |
//! | What can be measured? | [`inspection::Measurand`] |
//! | Which pressures do the conditions allow? | [`expected::ExpectedWindow`] computed, [`expected::ChartSet`] printed |
//! | Both gauges with the engine off? | [`diagnosis::DiagnosisRequest::first_equalised`] |
//! | Which cause explains a reading, and what to measure next? | [`diagnosis::diagnose`], [`diagnosis::Posterior`] |
//! | Simulated circuits kept for many readings? | [`diagnosis::Reference`], [`diagnosis::ReferenceCache`] |
//! | What to make of it, as decisions? | [`diagnosis::Advice`] |
//! | A log over time? | [`trace::Trace`] |
//! | The steady state of one circuit? | [`circuit::Circuit::run`], [`circuit::Population`] |
//! | Evacuation, standing vacuum test, acceptance limits? | [`service::evacuation`], [`service::standing_vacuum`], [`service::acceptance`] |
//! | Charge, hose holdup, scale, cylinder? | [`service::charge`] |
//! | Oil, and which ounce a label means? | [`service::oil`] |
//! | Leaks, non-condensables, an unknown refrigerant? | [`service::leak`], [`service::non_condensables`], [`service::identify`] |
//! | The sheet for a whole job? | [`service::job`] |
//! | A page for a person, data for a program? | [`report::Report`], [`report::Page`], [`report::cautions`] |
//! | A picture of it? | [`plot`] |
//! | Your own refrigerant? | [`saturation::OwnRefrigerant`] |
#![cfg_attr(feature = "fit", doc = "| A saturation line from your own table? | [`fit`] |")]
#![cfg_attr(
    not(feature = "fit"),
    doc = "| A saturation line from your own table? | module `fit`, with feature `fit` |"
)]
//! | Quantities in your own tests, within a tolerance? | [`quantity`], with feature `approx` |
//! | The physics, in order, with exercises? | [`guide`] |

pub mod air;
pub mod circuit;
pub mod diagnosis;
mod error;
pub mod expected;
#[cfg(feature = "fit")]
pub mod fit;
pub mod guide;
pub mod helmholtz;
pub mod inspection;
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

pub use error::Error;
pub use line::Line;
pub use quantity::{
    Entered, GaugePressure, Length, Mass, Measured, Pressure, PressureDifference, Quantity, Range, Ratio, Temperature,
    TemperatureDifference, Volume,
};
pub use refrigerant::Refrigerant;
pub use source::{Source, Sourced, Trust};
