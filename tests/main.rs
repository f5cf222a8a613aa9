//! All tests of the crate, one binary.

mod support;

mod air;
mod bad_input;
#[cfg(feature = "serde")]
mod examples;
mod fits;
mod layers;
mod line;
mod quantity;
mod readme;
mod refrigerant;
mod tables;
mod window;
