//! An expansion valve that does not close.

use super::fault::FaultModel;
use super::{Cause, CauseId, Fault, Observation, has_receiver};
use crate::circuit::Expansion;

/// Static superheat so low that the valve is open whatever the bulb feels, K; our choice.
const ALWAYS_OPEN_SUPERHEAT_K: f64 = -40.0;
/// Superheat from closed to full, so small that the valve is fully open, K; our choice.
const ALWAYS_OPEN_GRADIENT_K: f64 = 1.0;
/// How much wider a tube is for the largest size, as a share of its bore; our choice.
const BORE_GAIN: f64 = 0.4;

pub(super) const MODEL: FaultModel = FaultModel::new((0.50, 1.0), |circuit, size| match &mut circuit.expansion {
    Expansion::Valve { area_m2, static_superheat_k, gradient_k } => {
        (*static_superheat_k, *gradient_k) = (ALWAYS_OPEN_SUPERHEAT_K, ALWAYS_OPEN_GRADIENT_K);
        *area_m2 *= size;
    }
    Expansion::Orifice { bore_m, .. } => *bore_m *= 1.0 + BORE_GAIN * size,
    Expansion::HighSide { .. } => {}
});

pub(super) const EXPANSION_OPEN: Cause = Cause {
    applies: has_receiver,
    in_print: &[("C", 2, 10), ("H", 2, 2), ("N", 1, 3)],
    found: &[(Observation::FrostOnSuction, 4)],
    ..Cause::new(CauseId::ExpansionOpen, &[Fault::ValveStuckOpen])
};
