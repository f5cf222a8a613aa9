//! All tests of the crate, one binary.

#![allow(clippy::duplicate_mod)] // two examples share one reader of lines

mod support;

#[cfg(feature = "diagnosis")]
mod accuracy_page;
mod air;
#[cfg(all(feature = "diagnosis", feature = "serde"))]
mod any_text;
#[cfg(feature = "diagnosis")]
mod bad_input;
#[cfg(feature = "diagnosis")]
mod calibration;
#[cfg(feature = "diagnosis")]
mod circuit;
#[cfg(feature = "diagnosis")]
mod circuit_charge;
#[cfg(feature = "diagnosis")]
mod circuit_checks;
#[cfg(feature = "diagnosis")]
mod circuit_tables;
#[cfg(feature = "diagnosis")]
mod computed_window;
#[cfg(feature = "fit")]
mod curve;
#[cfg(feature = "diagnosis")]
mod diagnosis;
#[cfg(all(feature = "diagnosis", feature = "serde"))]
mod examples;
#[cfg(feature = "diagnosis")]
mod expected;
#[cfg(feature = "fit")]
mod fit;
mod fits;
#[cfg(feature = "diagnosis")]
mod guide;
mod helmholtz;
#[cfg(feature = "diagnosis")]
mod inspection;
mod layers;
mod line;
#[cfg(all(feature = "diagnosis", feature = "serde"))]
mod odd;
#[cfg(feature = "diagnosis")]
mod own_window;
#[cfg(feature = "diagnosis")]
mod plot;
#[cfg(feature = "std")]
mod quantity;
#[cfg(feature = "diagnosis")]
mod readme;
mod refrigerant;
#[cfg(all(feature = "diagnosis", feature = "serde"))]
mod report;
#[cfg(all(feature = "diagnosis", feature = "serde"))]
mod schema;
#[cfg(feature = "diagnosis")]
mod service;
#[cfg(feature = "diagnosis")]
mod service_vacuum;
mod tables;
#[cfg(feature = "diagnosis")]
mod trace;
mod transport;
