//! Numerical methods that know nothing of the problem they solve.

#[cfg(feature = "service")]
mod autocorrelation;
#[cfg(feature = "diagnosis")]
mod broyden;
#[cfg(feature = "service")]
pub(crate) mod chi_squared;
#[cfg(feature = "service")]
pub(crate) mod exponential_fit;
#[cfg(feature = "diagnosis")]
pub(crate) mod parallel;
mod piecewise;
#[cfg(feature = "diagnosis")]
mod quasi_random;
mod root;
#[cfg(feature = "std")]
mod sorting;
#[cfg(any(feature = "service", feature = "fit"))]
pub(crate) mod student;

#[cfg(feature = "service")]
pub(crate) use autocorrelation::variance_inflation;
#[cfg(feature = "diagnosis")]
pub(crate) use broyden::broyden;
#[cfg(feature = "fit")]
pub(crate) use piecewise::{Making, Owned};
pub(crate) use piecewise::{Piece, Pieces};
#[cfg(feature = "diagnosis")]
pub(crate) use quasi_random::point;
pub(crate) use root::{bisect, increasing_root, nearly_straight_root};
#[cfg(feature = "std")]
pub(crate) use sorting::sort_by_number;
