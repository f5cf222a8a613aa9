//! Arithmetic of the bench: what is measured and weighed between opening a circuit and closing it.
//!
//! - [`oil`]: which oil, how much for each part and for the compressor, cm³ by weighing, and which ounce a label means.
//! - [`charge`]: the label, the hose, the scale and the cylinder; [`leak`]: grams a year, and how long a charge lasts.
//! - [`job`]: the sheet that joins them, from opening to the first reading.

pub mod charge;
pub mod job;
pub mod leak;
pub mod oil;
mod plain;
mod printed;
mod works;
