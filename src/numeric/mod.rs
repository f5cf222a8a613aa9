//! Numerical methods, written once, knowing nothing of what they solve.

mod root;

pub(crate) use root::increasing_root;
