//! A compressor that has lost flow, and one that does not turn.

use super::fault::FaultModel;
use super::{Cause, CauseId, Fault};
use crate::inspection::Observation;

/// How much of the isentropic efficiency goes with the flow: gas that leaks back was worked on and comes again; our choice.
const EFFICIENCY_LOST_WITH_FLOW: f64 = 0.5;

pub(super) const WORN: FaultModel = FaultModel {
    far_from_healthy: true,
    ..FaultModel::new((0.20, 0.75), |circuit, size| {
        circuit.compressor.volumetric_efficiency *= 1.0 - size;
        circuit.compressor.efficiency *= 1.0 - EFFICIENCY_LOST_WITH_FLOW * size;
    })
};

pub(super) const COMPRESSOR_WORN: Cause = Cause {
    in_print: &[("D", 6, 6), ("H", 1, 2), ("K", 2, 2), ("N", 3, 3)],
    found: &[(Observation::EqualisesQuickly, 6)],
    ..Cause::new(CauseId::CompressorWorn, &[Fault::CompressorWorn])
};

pub(super) const NOT_TURNING: Cause = Cause {
    compressor_turns: false,
    in_print: &[("L", 1, 1), ("K", 2, 2)],
    found: &[(Observation::NotTurning, 1), (Observation::EqualisesQuickly, 1)],
    ..Cause::new(CauseId::NotTurning, &[])
};
