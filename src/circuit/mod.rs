//! The car's loop at rest in time: what a circuit settles to on a given day.
//!
//! A [`Circuit`] is all sizes of one circuit, an [`OperatingPoint`] the day and how it is run; [`Circuit::run`] balances the two and
//! answers with a [`SteadyState`]. A [`Population`] makes the cars of one [`CircuitKind`], with sizes drawn from published
//! ranges, for what cannot be seen from outside.
//!
//! # What is balanced
//!
//! Refrigerant flow of [`Compressor`] and [`Expansion`], the heat of condenser and evaporator against their air
//! ([`Exchanger`]), the [`Control`] of the compressor, and the charge over all volumes. While receiver or accumulator is partly
//! full, the charge decides nothing but its level; empty, it decides how far the evaporator starves; full, how far the
//! condenser floods. What leaves the condenser is liquid about to boil in the receiver; behind a narrow inlet
//! ([`Lines::receiver_drop`]) that boils at a lower pressure, and liquid stands back in the condenser until it is as cold.
//!
//! # What is left out
//!
//! Oil in the refrigerant, sun on the car, heat stored in metal, the difference between wet and dry fins, frost. Refrigerant
//! drops no pressure inside exchangers but for the lumped ones of [`Lines`]. Nothing switches off for a hot discharge, so a
//! starved compressor may be told to run hotter than any does. Pure refrigerants only.

mod balance;
mod charge;
mod compressor;
mod condenser;
mod control;
mod evaporator;
mod exchanger;
mod expansion;
mod fluid;
mod gas_cooler;
mod kind;
mod operation;
mod population;
mod sizes;
mod softplus;
mod state_cache;
mod steady;

pub(crate) use balance::Unknowns;
pub use compressor::{Compressor, EFFICIENCY};
pub use control::{Control, LEAST};
pub use exchanger::Exchanger;
pub use expansion::{CHOKED, Expansion, MOST_SUBCOOLING, SHORT_TUBE};
pub use kind::{CircuitKind, CompressorKind, ExpansionKind};
pub use operation::{AMBIENT, EngineSpeed, Intake, Motion, OperatingPoint, Settings};
pub use population::{Population, Spread, ranges};
pub use sizes::{Circuit, CondenserAir, Drive, EvaporatorAir, Lines, Storage};
pub use steady::{Residuals, SteadyState};
