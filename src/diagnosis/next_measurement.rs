//! Choice of the next measurement: the quantity with the largest expected information gain.

use super::causes::CauseId;
use super::data::Datum;
use super::information::{WeightedCircuit, expected_information_gain, heaviest, predictions, systematic_resample};
use super::posterior::ScoredCause;
use super::reference::{Reference, column};
use crate::circuit::{CircuitKind, CompressorKind};
use crate::inspection::Measurand;
use crate::numeric::{parallel, sort_by_number};

/// A measurement not made yet, with its expected information gain and predicted outcomes.
#[derive(Debug, Clone, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(deny_unknown_fields))]
#[non_exhaustive]
pub struct NextMeasurement {
    /// Quantity to measure.
    pub measurand: Measurand,
    /// Expected information gain about the cause, in bits.
    pub information_bits: f64,
    /// Predicted outcomes: for the leading cause, then for the two that would most likely show something else.
    pub outcomes: Vec<Outcome>,
}

/// Predicted outcome under one cause: ln of an absolute pressure in Pa, a temperature in °C, or a fraction.
#[derive(Debug, Clone, Copy, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(deny_unknown_fields))]
#[non_exhaustive]
pub struct Outcome {
    /// Cause under which the outcome is predicted.
    pub cause: CauseId,
    /// Mean over the circuits with the cause.
    pub mean: f64,
    /// Standard deviation over the circuits with the cause.
    pub standard_deviation: f64,
}

/// Circuits resampled for the expectation; our choice.
const RESAMPLED: usize = 48;

/// Fraction of the probability whose circuits are used; the others are many and unlikely. Our choice.
const KEPT: f64 = 0.98;

/// Predicted outcomes listed for one measurement.
const OUTCOMES: usize = 3;

/// Measurements not made yet, the largest expected information gain first.
pub(super) fn next_measurements(all: &[ScoredCause], data: &[Datum], reference: &Reference) -> Vec<NextMeasurement> {
    let readings = reference.conditions().len();
    let weighted = all.iter().enumerate().flat_map(|(cause, one)| {
        let weights = one.group.circuit_weights.iter().enumerate();
        weights.map(move |(index, weight)| WeightedCircuit { cause, index, weight: one.probability * weight })
    });
    let circuits = heaviest(weighted.collect(), KEPT);
    let resampled = systematic_resample(&circuits, RESAMPLED);
    let probabilities: Vec<f64> = all.iter().map(|one| one.probability).collect();
    let one = |measurand: Measurand| {
        let at = column(0, measurand, readings);
        let shown = |circuit: &WeightedCircuit| all[circuit.cause].group.samples[circuit.index].shown[at];
        let values: Vec<f64> = circuits.iter().map(shown).collect();
        let uncertainty = measurand.usual_uncertainty();
        let outcomes = predictions(&circuits, &values, &probabilities, uncertainty).into_iter().take(OUTCOMES);
        NextMeasurement {
            measurand,
            information_bits: expected_information_gain(&circuits, &values, &resampled, uncertainty, all.len()),
            outcomes: outcomes
                .map(|one| Outcome {
                    cause: all[one.cause].cause.id,
                    mean: one.mean,
                    standard_deviation: one.standard_deviation,
                })
                .collect(),
        }
    };
    let unmeasured: Vec<Measurand> = unmeasured(data, reference).collect();
    let mut next = parallel::map(&unmeasured, |measurand| one(*measurand));
    sort_by_number(&mut next, |one| -one.information_bits);
    next
}

/// The measurands that could still be measured on one of the kinds of circuit.
fn unmeasured<'a>(data: &'a [Datum], reference: &'a Reference) -> impl Iterator<Item = Measurand> + 'a {
    // carbon dioxide is vented, not recovered (common practice)
    let recovered = |kind: &CircuitKind| !kind.refrigerant.is_transcritical();
    // nobody times a clutch that stays closed
    let cycles = |kind: &CircuitKind| kind.compressor == CompressorKind::Cycling;
    let offered = move |measurand: &Measurand| match measurand {
        Measurand::RecoveredCharge => reference.kinds().iter().any(recovered),
        Measurand::ClutchDutyCycle => reference.kinds().iter().any(cycles),
        // it says what the suction line says, and would be asked for in its place, though superheat is worked out from that
        Measurand::EvaporatorOutlet => false,
        _ => true,
    };
    let measured = |measurand: Measurand| data.iter().any(|datum| datum.measurand == measurand);
    Measurand::ALL.iter().copied().filter(move |measurand| offered(measurand) && !measured(*measurand))
}
