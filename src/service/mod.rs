//! Calculations for service work, from opening a circuit to closing it.
//!
//! - [`evacuation`]: gauge vacuum and altitude to absolute pressure, the boiling point of water there, whether a vacuum dries.
//! - [`standing_vacuum`]: the standing vacuum test, with its answer leak, moisture, both or undecided; [`standing_vacuum_log`]: its
//!   readings from a file; [`acceptance`]: published limits and what passing one proves; [`leak_throughput`]: the leak as a flow of gas.
//! - [`non_condensables`]: air over liquid refrigerant; [`recovery_cylinder`]: printed limits for it; [`identify`]: which
//!   refrigerant an equalised circuit may hold.
//! - [`oil`]: which oil, how much for each part and for the compressor, volume by weighing, and which ounce a label means.
//! - [`charge`]: nominal charge, hose holdup, scale and cylinder; [`leak`]: leak rate in grams a year, and how long a charge lasts.
//! - [`job`]: the job sheet that joins them, from opening to the first reading.

pub mod acceptance;
pub mod charge;
pub mod evacuation;
pub mod identify;
mod interval;
pub mod job;
mod label_parser;
pub mod leak;
pub mod leak_throughput;
#[cfg(feature = "serde")]
mod no_fields;
pub mod non_condensables;
pub mod oil;
pub mod recovery_cylinder;
mod references;
pub mod standing_vacuum;
pub mod standing_vacuum_log;
mod static_reading;
mod validate;

pub use interval::Interval;
#[cfg(feature = "serde")]
pub(crate) use no_fields::no_fields;
pub use static_reading::StaticReading;

#[cfg(test)]
#[path = "../../tests/service_inside.rs"]
mod inside;
