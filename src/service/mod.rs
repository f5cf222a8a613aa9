//! Arithmetic of the bench: what is measured and weighed between opening a circuit and closing it.

pub mod container;
pub mod evacuation;
pub mod gate;
pub mod hold;
pub mod hold_log;
pub mod identify;
pub mod inflow;
mod interval;
pub mod purity;

pub use interval::Interval;
