//! Too little refrigerant, next to none, and too much.

use super::fault::{FaultModel, Masking};
use super::{Cause, CauseId, Fault};
use crate::inspection::Observation;

pub(super) const MISSING: FaultModel = FaultModel {
    masking: Some(Masking::Storage),
    ..FaultModel::new((0.15, 0.88), |circuit, size| circuit.charge = circuit.charge * (1.0 - size))
};

/// From so much that no liquid is left on any day on which cars are cooled, to vapour at about the pressure of the air.
pub(super) const NEARLY_ALL: FaultModel =
    FaultModel::new((0.93, 0.985), |circuit, size| circuit.charge = circuit.charge * (1.0 - size));

pub(super) const EXCESS: FaultModel = FaultModel {
    masking: Some(Masking::Storage),
    ..FaultModel::new((0.15, 0.70), |circuit, size| circuit.charge = circuit.charge * (1.0 + size))
};

pub(super) const UNDERCHARGE: Cause = Cause {
    in_print: &[("A", 10, 11), ("D", 2, 6), ("N", 3, 3)],
    found: &[(Observation::Bubbles, 10), (Observation::CyclesOften, 10)],
    ..Cause::new(CauseId::Undercharge, &[Fault::Undercharge])
};

pub(super) const OVERCHARGE: Cause = Cause {
    in_print: &[("C", 7, 10), ("H", 1, 2), ("M", 2, 2)],
    found: &[(Observation::WaterHelps, 7)],
    ..Cause::new(CauseId::Overcharge, &[Fault::Overcharge])
};

pub(super) const EMPTY: Cause = Cause { compressor_turns: false, ..Cause::new(CauseId::Empty, &[Fault::NearlyEmpty]) };
