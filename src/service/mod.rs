//! Arithmetic of the bench: what is measured and weighed between opening a circuit and closing it.
//!
//! - [`evacuation`]: gauge vacuum and altitude to absolute pressure, water's boiling point there, whether a vacuum dries.
//! - [`hold`]: a vacuum that is held: leak, moisture, both, or not to be told; [`gate`]: published limits and what passing one
//!   proves; [`inflow`]: the leak as a flow of gas; [`hold_log`]: readings from a file.
//! - [`purity`]: air over liquid refrigerant; [`container`]: printed limits of it; [`identify`]: which refrigerant a resting
//!   circuit may hold.
//! - [`oil`]: which oil, how much for each part and for the compressor, cm³ by weighing, and which ounce a label means.
//! - [`charge`]: the label, the hose, the scale and the cylinder; [`leak`]: grams a year, and how long a charge lasts.
//! - [`job`]: the sheet that joins them, from opening to the first reading.

pub mod acceptance;
pub mod charge;
pub mod evacuation;
pub mod identify;
mod interval;
pub mod job;
mod label_parser;
pub mod leak;
pub mod leak_throughput;
pub mod non_condensables;
pub mod oil;
pub mod recovery_cylinder;
mod references;
pub mod standing_vacuum;
pub mod standing_vacuum_log;
mod validate;

pub use interval::Interval;
