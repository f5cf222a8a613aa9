//! Oil: which one, how much for each part and for the compressor, and what a label or a scale says of it.
//!
//! No amount holds for every car, so none is built in as a default. The maker's figure is asked for; without it the answer
//! is the range of what is published, with every work behind it.

pub mod compressor;
pub mod density;
pub mod kind;
pub mod label;
pub mod part;
