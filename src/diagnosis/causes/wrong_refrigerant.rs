//! Another refrigerant than that on the label.

use super::fault::FaultModel;
use super::{Cause, CauseId, Fault, has_condenser};
use crate::quantity::Quantity;
use crate::{Refrigerant, Temperature};

/// Refrigerants met in cars where they do not belong; common practice, no source.
const OTHERS: [Refrigerant; 5] =
    [Refrigerant::R134a, Refrigerant::R1234yf, Refrigerant::R152a, Refrigerant::R290, Refrigerant::R12];

/// Temperature at which the circuit was charged with as much liquid as the right charge has; our choice.
const CHARGED_AT: Temperature = Temperature::from_celsius(25.0);

/// The refrigerant that `size` picks in place of `own`, and which of the others it is.
fn other_than(own: Refrigerant, size: f64) -> (Refrigerant, usize) {
    let others: Vec<Refrigerant> = OTHERS.iter().copied().filter(|other| *other != own).collect();
    let pick = ((size * others.len() as f64) as usize).min(others.len() - 1);
    (others[pick], pick)
}

/// The size picks one of several refrigerants, so nothing varies smoothly with it.
pub(super) const MODEL: FaultModel = FaultModel {
    smooth: false,
    far_from_healthy: true,
    mode: |circuit, size| other_than(circuit.refrigerant, size).1,
    ..FaultModel::new((0.0, 1.0), |circuit, size| {
        let (other, _) = other_than(circuit.refrigerant, size);
        // the same volume of liquid, as a can or a cylinder at the same pressure would give
        let liquid = |refrigerant: Refrigerant| {
            let at = refrigerant.saturated_at_temperature(CHARGED_AT);
            at.map_or(1.0, |(liquid, _)| liquid.density.si())
        };
        circuit.charge = circuit.charge * (liquid(other) / liquid(circuit.refrigerant));
        circuit.refrigerant = other;
    })
};

pub(super) const WRONG_REFRIGERANT: Cause = Cause {
    applies: has_condenser,
    in_print: &[("G", 1, 4), ("K", 1, 2)],
    ..Cause::new(CauseId::WrongRefrigerant, &[Fault::WrongRefrigerant])
};
