//! Too little air through the evaporator, and the ice that stops it.

use super::fault::FaultModel;
use super::{Cause, CauseId, Fault};
use crate::inspection::Observation;

pub(super) const MODEL: FaultModel = FaultModel {
    far_from_healthy: true,
    ..FaultModel::new((0.40, 0.85), |circuit, size| circuit.evaporator_air.airflow_fraction *= 1.0 - size)
};

pub(super) const EVAPORATOR_AIR: Cause = Cause {
    in_print: &[("I", 1, 2)],
    found: &[(Observation::LittleCabinAir, 1)],
    ..Cause::new(CauseId::EvaporatorAir, &[Fault::EvaporatorAirflowLoss])
};

pub(super) const ICING: Cause = Cause {
    in_print: &[("A", 1, 11), ("I", 1, 2)],
    found: &[(Observation::EvaporatorIced, 2), (Observation::LittleCabinAir, 1)],
    ..Cause::new(CauseId::Icing, &[Fault::EvaporatorAirflowLoss, Fault::StuckAtFullDisplacement])
};
