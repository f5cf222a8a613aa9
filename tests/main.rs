//! All tests of the crate, one binary.

#![allow(clippy::duplicate_mod)] // two examples share one reader of lines

mod support;

mod air;
mod bad_input;
mod computed_window;
#[cfg(feature = "fit")]
mod curve;
mod diagnosis;
#[cfg(feature = "serde")]
mod examples;
#[cfg(feature = "fit")]
mod fit;
mod fits;
mod helmholtz;
mod layers;
mod line;
mod quantity;
mod readme;
mod refrigerant;
mod service;
mod service_vacuum;
mod system;
mod system_checks;
mod system_tables;
mod tables;
mod trace;
mod transport;
mod window;
