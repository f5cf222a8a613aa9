#![cfg_attr(feature = "diagnosis", doc = include_str!("../README.md"))]
#![cfg_attr(
    not(feature = "diagnosis"),
    doc = "Refrigerant properties. This page was made without feature `diagnosis`, which the readme is about."
)]
// unit tests have the standard library in any case, and its methods of numbers with it
#![cfg_attr(not(any(feature = "std", test)), no_std)]
#![cfg_attr(all(test, not(feature = "std")), allow(unused_imports))]
// a name, owned with `std`, is borrowed without
#![cfg_attr(not(feature = "std"), allow(clippy::needless_borrow, clippy::useless_conversion))]
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
//! | The same for whole columns of a log? | [`Refrigerant::superheat_column`], [`Refrigerant::dew_temperature_column`] |
//! | Gauge to absolute pressure, altitude, moist air? | [`GaugePressure::absolute`], [`air::pressure_at`], [`air::MoistAir`] |
//! | A diagnosis in one call? | [`diagnosis::Diagnosis::of`] |
//! | Readings as people type or log them? | [`inspection::Entry`], [`inspection::Columns`] |
//! | Readings with uncertainty, and everything from one visit? | [`inspection::Reading`], [`inspection::Inspection`] |
//! | What can be measured? | [`inspection::Measurand`] |
//! | Which pressures do the conditions allow? | [`expected::ExpectedWindow`] computed, [`expected::ChartSet`] printed |
//! | Both gauges with the engine off? | [`diagnosis::DiagnosisRequest::first_equalised`] |
//! | Which cause explains a reading, and what to measure next? | [`diagnosis::diagnose`], [`diagnosis::Posterior`] |
//! | Simulated circuits kept for many readings? | [`diagnosis::Reference`], [`diagnosis::ReferenceCache`] |
//! | Many rows of a log explained? | [`diagnosis::DiagnosisRequest::run_many`] |
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
//!
//! # Features
//!
//! | feature | what it brings | what it builds on |
//! |---|---|---|
//! | none | [`quantity`] without reading text, [`air`], [`helmholtz`], [`saturation`], [`refrigerant`], [`line`](mod@line), on `core` alone: no heap | `libm`, `thiserror` |
//! | `std` (default) | text read ("32 psi", "R-134a"), a refrigerant named at run time | `strsim` |
//! | `serde` (default) | quantities and reports as JSON and the like | `std`, `serde` |
//! | `service` (default) | [`service`](mod@service) | `std` |
//! | `diagnosis` (default) | everything else | `service`, `nalgebra` |
//! | `schema` | the JSON Schema of every report | `diagnosis`, `serde`, `schemars` |
//! | `fit` | a saturation line from your own table | `std`, `csv`, `nalgebra` |
//! | `approx` | quantities compared in your tests | `approx` |
//!
//! Without `std` the functions of numbers come from `libm`: values may then differ in their last places.

pub mod air;
#[cfg(feature = "diagnosis")]
pub mod circuit;
#[cfg(feature = "diagnosis")]
pub mod diagnosis;
mod error;
#[cfg(feature = "diagnosis")]
pub mod expected;
#[cfg(feature = "fit")]
pub mod fit;
#[cfg(not(feature = "std"))]
mod float;
#[cfg(feature = "diagnosis")]
pub mod guide;
pub mod helmholtz;
#[cfg(feature = "diagnosis")]
pub mod inspection;
pub mod line;
mod numeric;
#[cfg(feature = "diagnosis")]
pub mod plot;
pub mod quantity;
pub mod refrigerant;
#[cfg(feature = "diagnosis")]
pub mod report;
pub mod saturation;
#[cfg(feature = "service")]
#[cfg_attr(not(feature = "diagnosis"), allow(dead_code))] // some of it is for the job sheet alone
pub mod service;
pub mod source;
#[cfg(feature = "diagnosis")]
pub mod trace;

pub use error::Error;
pub use line::Line;
pub use quantity::{
    Entered, GaugePressure, Length, Mass, Measured, Pressure, PressureDifference, Quantity, Range, Ratio, Temperature,
    TemperatureDifference, Volume,
};
pub use refrigerant::Refrigerant;
pub use source::{Source, Sourced, Trust};
