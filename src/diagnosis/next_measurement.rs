//! Choice of the next measurement: the quantity with the largest expected information gain.

use super::evidence::{Channel, Datum, Effort};
use super::information::{WeightedCircuit, expected_information_gain, heaviest, predictions, systematic_resample};
use super::posterior::ScoredCause;
use super::reference::{Reference, column};
use crate::Refrigerant;
use crate::circuit::{CircuitKind, CompressorKind};

/// A measurement not made yet.
#[derive(Debug, Clone, PartialEq)]
pub struct NextCheck {
    /// What to measure.
    pub channel: Channel,
    /// What it costs.
    pub effort: Effort,
    /// Expected information gain about the cause, in bits.
    pub bits: f64,
    /// What the leading cause would show, then the two that would most likely show something else.
    pub outcomes: Vec<Outcome>,
}

/// What a cause would show: ln of an absolute pressure in Pa, a temperature in °C, or a share.
#[derive(Debug, Clone, PartialEq)]
pub struct Outcome {
    /// Name of the cause.
    pub cause: &'static str,
    /// Middle of what its cars show.
    pub middle: f64,
    /// Half the width that two of three of them keep within.
    pub spread: f64,
}

/// Circuits resampled for the expectation; our choice.
const RESAMPLED: usize = 48;

/// Fraction of the probability whose circuits are used; the others are many and unlikely. Our choice.
const KEPT: f64 = 0.98;

/// Predicted outcomes listed for one measurement.
const OUTCOMES: usize = 3;

/// What has not been measured yet, the largest expected information gain first.
pub(super) fn next(all: &[ScoredCause], data: &[Datum], simulated: &Reference) -> Vec<NextCheck> {
    let readings = simulated.days.len();
    let weighted = all.iter().enumerate().flat_map(|(cause, one)| {
        let weights = one.group.circuit_weights().into_iter().enumerate();
        weights.map(move |(index, weight)| WeightedCircuit { cause, index, weight: one.probability * weight })
    });
    let circuits = heaviest(weighted.collect(), KEPT);
    let resampled = systematic_resample(&circuits, RESAMPLED);
    let probabilities: Vec<f64> = all.iter().map(|one| one.probability).collect();
    let check = |channel: Channel| {
        let at = column(0, channel, readings);
        let shown = |circuit: &WeightedCircuit| all[circuit.cause].group.samples[circuit.index].shown[at];
        let values: Vec<f64> = circuits.iter().map(shown).collect();
        let standard = channel.usual_error();
        let outcomes = predictions(&circuits, &values, &probabilities, standard).into_iter().take(OUTCOMES);
        NextCheck {
            channel,
            effort: channel.effort(),
            bits: expected_information_gain(&circuits, &values, &resampled, standard, all.len()),
            outcomes: outcomes
                .map(|one| Outcome {
                    cause: all[one.cause].cause.name,
                    middle: one.mean,
                    spread: one.standard_deviation,
                })
                .collect(),
        }
    };
    let mut checks: Vec<NextCheck> = unmeasured(data, simulated).map(check).collect();
    checks.sort_by(|a, b| b.bits.total_cmp(&a.bits));
    checks
}

/// The quantities that could still be measured on one of the kinds of circuit.
fn unmeasured<'a>(data: &'a [Datum], simulated: &'a Reference) -> impl Iterator<Item = Channel> + 'a {
    // carbon dioxide is let go, not recovered (common practice)
    let recovered = |kind: &CircuitKind| kind.refrigerant != Refrigerant::R744;
    // nobody times a clutch that stays closed
    let cycles = |kind: &CircuitKind| kind.compressor == CompressorKind::Cycling;
    let offered = move |channel: &Channel| match channel {
        Channel::Recovered => simulated.kinds.iter().any(recovered),
        Channel::Duty => simulated.kinds.iter().any(cycles),
        _ => true,
    };
    let measured = |channel: Channel| data.iter().any(|datum| datum.channel == channel);
    let all = Channel::RUNNING.into_iter().chain([Channel::AtRest, Channel::Recovered]);
    all.filter(move |channel| offered(channel) && !measured(*channel))
}
