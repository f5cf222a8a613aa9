//! Arithmetic of the bench: what is measured and weighed between opening a circuit and closing it.

pub mod charge;
pub mod job;
pub mod leak;
pub mod oil;
mod plain;
mod printed;
mod works;
