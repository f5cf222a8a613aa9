//! Air in the circuit.

use super::fault::FaultModel;
use super::{Cause, CauseId, Fault};
use crate::Mass;
use crate::inspection::Observation;
use crate::quantity::Quantity;

pub(super) const MODEL: FaultModel = FaultModel::new((0.001, 0.012), |circuit, size| {
    circuit.non_condensables = Mass::from_si(circuit.charge.si() * size);
});

pub(super) const AIR: Cause = Cause {
    in_print: &[("C", 4, 10), ("G", 3, 4), ("M", 1, 2)],
    found: &[(Observation::FallsAtStop, 4)],
    ..Cause::new(CauseId::Air, &[Fault::NonCondensables])
};
