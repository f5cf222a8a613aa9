//! A restriction on the suction side.

use super::fault::FaultModel;
use super::{Cause, CauseId, Fault};

pub(super) const MODEL: FaultModel =
    FaultModel::new((0.7, 2.0), |circuit, size| circuit.lines.suction_drop *= 10f64.powf(size));

pub(super) const SUCTION_RESTRICTION: Cause = Cause::new(CauseId::SuctionRestriction, &[Fault::SuctionBlocked]);
