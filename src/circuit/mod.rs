//! A/C circuit in steady state: its components, the cycle solver, and a population of circuits.
//!
//! A [`Circuit`] holds all sizes of one circuit, an [`OperatingPoint`] the air around it and the settings of vehicle
//! and controls; [`Circuit::run`] solves for the [`SteadyState`]. A [`Population`] draws circuits of one
//! [`CircuitKind`]: what cannot be seen from outside is drawn from ranges, each with its source or the mark that it is
//! from memory ([`ranges`]).
//!
//! # Balances
//!
//! Mass flow of [`Compressor`] and [`Expansion`]; heat of condenser and evaporator to and from their air ([`Exchanger`]); the
//! [`Control`] of the compressor; and the charge over all volumes. While receiver or accumulator is partly full, the charge
//! determines its liquid level and nothing else. When it is empty, the charge determines how far the evaporator starves; when it
//! is full, how far liquid backs up in the condenser. The nominal charge is what the circuit needs at its design point and a
//! reserve; a store takes less liquid than its shell would hold, so that a fifth too much backs up upstream of a receiver.
//! Refrigerant leaves the condenser as saturated liquid at the pressure of the receiver. Downstream of a restricted inlet
//! ([`Pipes::receiver_drop`]) that pressure is lower, and liquid backs up until it is subcooled to the saturation temperature there.
//!
//! On recirculation the air at the evaporator is cabin air: with doors or windows shut its warmth and moisture follow from
//! steady balances of the cabin, closed together with those of the circuit ([`EvaporatorAir`]).
//!
//! # What the model leaves out
//!
//! Oil in the refrigerant, solar load, heat stored in metal other than the interior of a shut cabin, the difference between wet and dry fins, frost. Pressure drops are
//! lumped into [`Pipes`]; inside the exchangers there is none. Nothing switches off on a hot discharge line, so the modelled discharge
//! of a starved compressor can be hotter than any real one. R-744 leaves the gas cooler as liquid or above the critical pressure, so that its circuits
//! with half their charge or less mostly have no steady state. Pure refrigerants only.
//!
//! # Stability
//!
//! [`CircuitKind`], [`Settings`], [`Conditions`], [`OperatingPoint`], [`Population`], [`Circuit::run`] and [`SteadyState`] are stable. The
//! fields of a [`Circuit`], their types in the hidden module `components` and the sizes in the hidden module `ranges` follow the model
//! and may change in any version.

mod cabin;
mod charge;
mod compressor;
mod condenser;
mod conditions;
mod control;
mod cut_out;
mod draw;
mod evaporator;
mod exchanger;
mod expansion;
mod fluid;
mod gas_cooler;
mod high_side;
mod initial_guess;
mod kind;
mod model;
mod nominal_charge;
mod operation;
mod outside_store;
mod population;
#[doc(hidden)]
pub mod ranges;
mod refrigerant_sizes;
mod sizes;
mod softplus;
mod solver;
mod state_cache;
mod steady_state;

#[doc(hidden)]
pub use components::*;
pub use compressor::EFFICIENCY;
pub use conditions::Conditions;
pub(crate) use cut_out::lowest_cut_out;
pub(crate) use expansion::best_high_side_bar;
pub use expansion::{CHOKED, SHORT_TUBE};
pub use kind::{CircuitKind, CompressorKind, ExpansionKind};
pub(crate) use model::Unknowns;
pub use operation::{AMBIENT, EngineSpeed, Intake, Motion, OperatingPoint, Settings};
pub use population::Population;
pub use sizes::Circuit;
pub use steady_state::SteadyState;

/// Components that make up a [`Circuit`], and the residuals of its balances; they may change in any version.
#[doc(hidden)]
pub mod components {
    pub use crate::circuit::compressor::Compressor;
    pub use crate::circuit::control::Control;
    pub use crate::circuit::exchanger::Exchanger;
    pub use crate::circuit::expansion::Expansion;
    pub use crate::circuit::ranges::SizeRange;
    pub use crate::circuit::sizes::{CompressorDrive, CondenserAir, EvaporatorAir, Pipes, Storage};
    pub use crate::circuit::steady_state::Residuals;
}
