//! Compressor oil: which one, how much for each part and for the compressor, and what a label or a scale says about it.
//!
//! No amount is right for every car, so none is a default. The maker's figure is asked for; without it the answer is the
//! range of published amounts, with every work behind it.

pub mod compressor;
pub mod density;
pub mod kind;
pub mod label;
pub mod part;
