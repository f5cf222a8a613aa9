//! Too little air through the condenser.

use super::fault::FaultModel;
use super::{Cause, CauseId, Fault};
use crate::inspection::Observation;

pub(super) const MODEL: FaultModel = FaultModel::new((0.30, 0.90), |circuit, size| {
    circuit.condenser_air.airflow_fraction *= 1.0 - size;
});

pub(super) const CONDENSER_AIR: Cause = Cause {
    in_print: &[("C", 7, 10), ("M", 2, 2)],
    found: &[(Observation::LittleFrontAir, 7), (Observation::WaterHelps, 3)],
    ..Cause::new(CauseId::CondenserAir, &[Fault::CondenserAirflowLoss])
};
