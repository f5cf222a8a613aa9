//! A restriction between compressor and condenser.

use super::fault::{FaultModel, Masking, side_of_high_port};
use super::{Cause, CauseId, Fault, has_condenser};

pub(super) const MODEL: FaultModel = FaultModel {
    masking: Some(Masking::HighSidePort),
    mode: side_of_high_port,
    ..FaultModel::new((0.8, 2.2), |circuit, size| {
        circuit.lines.discharge_drop *= 10f64.powf(size);
        // nearly all of the drop is in one place now, and a port is before or behind it
        circuit.lines.high_port = circuit.lines.high_port.round();
    })
};

pub(super) const DISCHARGE_RESTRICTION: Cause = Cause {
    applies: has_condenser,
    in_print: &[("E", 4, 4), ("M", 2, 2)],
    ..Cause::new(CauseId::DischargeRestriction, &[Fault::DischargeBlocked])
};
