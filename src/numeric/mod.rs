//! Numerical methods, written once, knowing nothing of what they solve.

mod chebyshev;
mod low_discrepancy;
mod newton;
mod root;

#[cfg(feature = "fit")]
pub(crate) use chebyshev::{Making, Owned};
pub(crate) use chebyshev::{Piece, Pieces};
pub(crate) use low_discrepancy::point;
pub(crate) use newton::newton;
pub(crate) use root::increasing_root;
