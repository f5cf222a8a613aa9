//! satline for C: properties as functions over numbers in SI units, everything else as text in and JSON out.
//!
//! This is the only place of the project with unsafe blocks: what comes from C are addresses, and [`arguments`] turns them into references
//! and slices after it has checked what can be checked. Every function answers through [`error::answer`], which no panic passes.
//! `satline.h` is made from these files by a test.

pub mod arguments;
pub mod columns;
pub mod error;
pub mod json;
pub mod properties;
pub mod version;
