//! Arithmetic of the bench: what is measured and weighed between opening a circuit and closing it.

pub mod evacuation;
pub mod gate;
pub mod hold;
pub mod hold_log;
pub mod inflow;
mod interval;

pub use interval::Interval;
