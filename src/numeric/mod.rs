//! Numerical methods that know nothing of the problem they solve.

mod autocorrelation;
mod broyden;
pub(crate) mod chi_squared;
pub(crate) mod exponential_fit;
pub(crate) mod parallel;
mod piecewise;
mod quasi_random;
mod root;
pub(crate) mod student;

pub(crate) use autocorrelation::variance_inflation;
pub(crate) use broyden::broyden;
#[cfg(feature = "fit")]
pub(crate) use piecewise::{Making, Owned};
pub(crate) use piecewise::{Piece, Pieces};
pub(crate) use quasi_random::point;
pub(crate) use root::{bisect, increasing_root, nearly_straight_root};
