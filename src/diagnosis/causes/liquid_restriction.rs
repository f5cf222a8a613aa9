//! A restriction before or in the expansion device.

use super::fault::FaultModel;
use super::{Cause, CauseId, Fault, Observation, has_condenser};
use crate::circuit::Expansion;

/// The restriction and the expansion device count as one narrower device.
pub(super) const MODEL: FaultModel = FaultModel::new((0.60, 0.97), |circuit, size| match &mut circuit.expansion {
    Expansion::Valve { area_m2, .. } => *area_m2 *= 1.0 - size,
    Expansion::Orifice { bore_m, .. } => *bore_m *= (1.0 - size).sqrt(),
    Expansion::HighSide { .. } => {}
});

pub(super) const LIQUID_RESTRICTION: Cause = Cause {
    applies: has_condenser,
    in_print: &[("A", 5, 11), ("E", 4, 4), ("M", 2, 2), ("N", 1, 3)],
    found: &[(Observation::StepOnLiquidLine, 5)],
    ..Cause::new(CauseId::LiquidRestriction, &[Fault::LiquidRestriction])
};

pub(super) const EXPANSION_CLOSED: Cause = Cause {
    applies: has_condenser,
    in_print: &[("A", 4, 11), ("F2", 2, 2), ("M", 1, 2), ("N", 2, 3)],
    found: &[(Observation::FrostAtValve, 4)],
    ..Cause::new(CauseId::ExpansionClosed, &[Fault::LiquidRestriction])
};

/// Frozen water closes the device as anything else does; the difference is that it comes and goes.
pub(super) const MOISTURE: Cause = Cause {
    applies: has_condenser,
    in_print: &[("A", 2, 11), ("F", 4, 4), ("N", 1, 3)],
    found: &[(Observation::ComesAndGoes, 4), (Observation::FrostAtValve, 1)],
    ..Cause::new(CauseId::Moisture, &[Fault::LiquidRestriction])
};
