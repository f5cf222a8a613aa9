//! All tests of the crate, one binary.

#![allow(clippy::duplicate_mod)] // two examples share one reader of lines

mod support;

mod accuracy_page;
mod air;
mod bad_input;
mod calibration;
mod circuit;
mod circuit_charge;
mod circuit_checks;
mod circuit_tables;
mod computed_window;
#[cfg(feature = "fit")]
mod curve;
mod diagnosis;
#[cfg(feature = "serde")]
mod examples;
mod expected;
#[cfg(feature = "fit")]
mod fit;
mod fits;
mod guide;
mod helmholtz;
mod inspection;
mod layers;
mod line;
mod own_window;
mod plot;
mod quantity;
mod readme;
mod refrigerant;
#[cfg(feature = "serde")]
mod report;
#[cfg(feature = "serde")]
mod schema;
mod service;
mod service_vacuum;
mod tables;
mod trace;
mod transport;
