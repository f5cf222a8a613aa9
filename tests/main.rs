//! All tests of the crate, one binary.

mod support;

mod air;
mod bad_input;
#[cfg(feature = "fit")]
mod curve;
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
mod tables;
mod transport;
mod window;
