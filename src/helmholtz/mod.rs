//! The exact way: published equations of state in the Helmholtz energy.
//!
//! The Helmholtz energy per mass, divided by R T, is a function α(τ, δ) of the reduced reciprocal temperature τ = Tr/T and
//! the reduced density δ = ρ/ρr. It splits into an ideal-gas part α⁰ and a residual part αʳ, and every property follows from
//! its derivatives. R is the gas constant per mass, from the gas constant and the molar mass of the publication.
//!
//! This module knows the forms of the terms and what follows from them. Which fluid has which coefficients is known to
//! [`refrigerant`](crate::refrigerant) alone.

mod equation;
mod exponential;
mod flash;
mod ideal;
mod isotherm;
mod phase;
mod state;

pub use equation::{
    Ancillary, DoubleExp, Equation, Gaussian, Ideal, Limits, NonAnalytic, Planck, PowerExp, Residual, Series,
};
pub use flash::{Boundary, Crossing, Phases, Saturated, TwoPhase};
pub use isotherm::{Derivatives, Isotherm};
pub use phase::Equilibrium;
pub use state::State;
