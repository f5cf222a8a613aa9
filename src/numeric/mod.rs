//! Numerical methods, written once, knowing nothing of what they solve.

mod chebyshev;
pub(crate) mod chi_squared;
mod drag;
mod low_discrepancy;
mod newton;
pub(crate) mod rise;
mod root;
pub(crate) mod student;

#[cfg(feature = "fit")]
pub(crate) use chebyshev::{Making, Owned};
pub(crate) use chebyshev::{Piece, Pieces};
pub(crate) use drag::drag;
pub(crate) use low_discrepancy::point;
pub(crate) use newton::newton;
pub(crate) use root::increasing_root;
