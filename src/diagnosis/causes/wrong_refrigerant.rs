//! Another refrigerant than that on the label: alone, mixed with it, or with air.
//!
//! A mixture is an **estimate**. With mole fraction x of the other refrigerant, p = x p₂ + (1 − x) p₁, p₁ and p₂ the pressures of the same
//! circuit filled with either alone (Raoult's law of an ideal mixture, at the temperatures of each), and all temperatures and the
//! recovered charge likewise. Real mixtures of these refrigerants form azeotropes and lie above it; [`IDEAL_MIXTURE_ERROR`] allows for
//! that.
//!
//! How an observed sign counts, such as an identifier that names another refrigerant, is common practice, no source: as often as the
//! observation named most.

use super::fault::FaultModel;
use super::{Cause, CauseId, Fault, has_condenser};
use crate::circuit::Circuit;
use crate::inspection::Observation;
use crate::quantity::Quantity;
use crate::{Refrigerant, Temperature};

/// Refrigerants met in cars where they do not belong; common practice, no source.
const OTHERS: [Refrigerant; 5] =
    [Refrigerant::R134a, Refrigerant::R1234yf, Refrigerant::R152a, Refrigerant::R290, Refrigerant::R12];

/// Temperature at which the circuit was charged with as much liquid as the right charge has; our choice.
const CHARGED_AT: Temperature = Temperature::from_celsius(25.0);

/// Standard uncertainty of ln p of an ideal mixture; from memory: R-12 with R-134a and R-134a with R-1234yf lie up to a tenth above it.
pub(in crate::diagnosis) const IDEAL_MIXTURE_ERROR: f64 = 0.05;

/// The refrigerant that `size` picks in place of `own`, and which of the others it is.
fn other_than(own: Refrigerant, size: f64) -> (Refrigerant, usize) {
    let others: Vec<Refrigerant> = OTHERS.iter().copied().filter(|other| *other != own).collect();
    let pick = ((size * others.len() as f64) as usize).min(others.len() - 1);
    (others[pick], pick)
}

/// Puts the refrigerant that `size` picks in place of the right one.
fn replace(circuit: &mut Circuit, size: f64) {
    let (other, _) = other_than(circuit.refrigerant, size);
    // the same volume of liquid, as a can or a cylinder at the same pressure would give
    let liquid = |refrigerant: Refrigerant| {
        let at = refrigerant.saturated_at_temperature(CHARGED_AT);
        at.map_or(1.0, |(liquid, _)| liquid.density.si())
    };
    circuit.charge = circuit.charge * (liquid(other) / liquid(circuit.refrigerant));
    circuit.refrigerant = other;
}

/// The size picks one of several refrigerants, so nothing varies smoothly with it.
pub(super) const MODEL: FaultModel = FaultModel {
    smooth: false,
    far_from_healthy: true,
    mode: |circuit, size| other_than(circuit.refrigerant, size).1,
    ..FaultModel::new((0.0, 1.0), replace)
};

/// Smallest and largest mole fraction of the other refrigerant in a mixture; our choice: less does not show, and more is hardly told from
/// the other alone.
const MIXED: (f64, f64) = (0.1, 0.9);

/// The size picks one of several refrigerants, and within each its mole fraction.
pub(super) const MIXED_MODEL: FaultModel = FaultModel {
    mole_fraction: Some(|circuit, size| {
        let others = OTHERS.iter().filter(|other| **other != circuit.refrigerant).count();
        MIXED.0 + (MIXED.1 - MIXED.0) * (size * others as f64).fract()
    }),
    ..MODEL
};

pub(super) const WRONG_REFRIGERANT: Cause = Cause {
    applies: has_condenser,
    in_print: &[("G", 1, 4), ("K", 1, 2)],
    found: &[(Observation::OtherRefrigerant, 11)],
    ..Cause::new(CauseId::WrongRefrigerant, &[Fault::WrongRefrigerant])
};

pub(super) const MIXED_REFRIGERANT: Cause = Cause {
    applies: has_condenser,
    found: &[(Observation::OtherRefrigerant, 11)],
    ..Cause::new(CauseId::MixedRefrigerant, &[Fault::MixedRefrigerant])
};

pub(super) const WRONG_REFRIGERANT_WITH_AIR: Cause = Cause {
    applies: has_condenser,
    found: &[(Observation::OtherRefrigerant, 11), (Observation::FallsAtStop, 4)],
    ..Cause::new(CauseId::WrongRefrigerantWithAir, &[Fault::WrongRefrigerant, Fault::NonCondensables])
};
