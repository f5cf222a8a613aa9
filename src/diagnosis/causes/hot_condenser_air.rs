//! Hot air in front of the condenser.

use super::fault::FaultModel;
use super::{Cause, CauseId, Fault};
use crate::inspection::Observation;

pub(super) const MODEL: FaultModel = FaultModel {
    far_from_healthy: true,
    ..FaultModel::new((6.0, 25.0), |circuit, size| circuit.condenser_air.air_on_rise_k += size)
};

pub(super) const ENGINE_HEAT: Cause = Cause {
    in_print: &[("C", 1, 10), ("M", 1, 2)],
    found: &[(Observation::EngineHot, 1)],
    ..Cause::new(CauseId::EngineHeat, &[Fault::HotCondenserAir])
};
