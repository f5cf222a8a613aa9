//! Published equations of state in the Helmholtz energy: the reference for everything faster.
//!
//! The specific Helmholtz energy, divided by R T, is a function α(τ, δ) of the reduced reciprocal temperature τ = Tr/T
//! and the reduced density δ = ρ/ρr. It splits into an ideal-gas part α⁰ and a residual part αʳ, and every property
//! follows from its derivatives. R is the specific gas constant, from the gas constant and the molar mass of the
//! publication.
//!
//! This module knows the forms of the terms and what follows from them. Which fluid has which coefficients is known
//! only to [`refrigerant`](crate::refrigerant).

mod equation;
mod exponential;
mod flash;
mod ideal;
mod isotherm;
mod phase;
mod state;

pub use equation::Equation;
pub use flash::{Phases, Saturated};
pub use state::State;
#[doc(hidden)]
pub use terms::Limits;

/// Terms of an equation, parts of a flash and the phase equilibrium, for data files, tests and benches; no part of the promised
/// interface.
#[doc(hidden)]
pub mod terms {
    pub use crate::helmholtz::equation::{
        Ancillary, DoubleExponential, Exponential, Gaussian, Ideal, Limits, NonAnalytic, PlanckEinstein, Residual,
        Series,
    };
    pub use crate::helmholtz::flash::{Boundary, Crossing};
    pub use crate::helmholtz::isotherm::{Derivatives, Isotherm};
    pub use crate::helmholtz::phase::Equilibrium;
}
use equation::{Gaussian, Ideal, NonAnalytic};
use isotherm::{Derivatives, Isotherm};
