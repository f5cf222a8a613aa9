//! Texts and JSON that nobody means, for readers that must answer or refuse; the tests of other packages use this module too.

#![allow(dead_code)] // none of them uses all of it

pub mod json;
#[path = "../random.rs"]
mod random;
pub mod text;

pub use random::Random;
