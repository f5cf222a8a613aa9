//! What to measure next: the quantity that would settle most.

use super::evidence::{Channel, Datum, Effort};
use super::inference::Weighed;
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
    /// By how much it is expected to lessen what is open between the causes, in bits.
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

/// Cars that stand for all of them when outcomes are drawn.
const DRAWN: usize = 48;

/// Share of the probability whose cars are looked at; the others are many and far.
const KEPT: f64 = 0.98;

/// What is not measured yet, the most telling first.
pub(super) fn next(all: &[Weighed], data: &[Datum], simulated: &Reference) -> Vec<NextCheck> {
    let readings = simulated.days.len();
    let measured = |channel: Channel| data.iter().any(|datum| datum.channel == channel);
    // carbon dioxide is let go, not recovered (common practice)
    let weighed = |kind: &CircuitKind| kind.refrigerant != Refrigerant::R744;
    // nobody times a clutch that stays closed
    let cycles = |kind: &CircuitKind| kind.compressor == CompressorKind::Cycling;
    let offered = |channel: &Channel| match channel {
        Channel::Recovered => simulated.kinds.iter().any(weighed),
        Channel::Duty => simulated.kinds.iter().any(cycles),
        _ => true,
    };
    let channels = Channel::RUNNING
        .into_iter()
        .chain([Channel::AtRest, Channel::Recovered])
        .filter(|channel| offered(channel) && !measured(*channel));
    // every car with its share of the probability, largest first
    let mut cars: Vec<(usize, usize, f64)> = Vec::new();
    for (c, one) in all.iter().enumerate() {
        let most = one.cars.iter().copied().fold(f64::NEG_INFINITY, f64::max);
        let total: f64 = one.cars.iter().map(|log| (log - most).exp()).sum();
        cars.extend(one.cars.iter().enumerate().map(|(i, log)| (c, i, one.probability * (log - most).exp() / total)));
    }
    cars.sort_by(|a, b| b.2.total_cmp(&a.2));
    let mut sum = 0.0;
    let kept = cars.iter().take_while(|car| {
        let before = sum;
        sum += car.2;
        before < KEPT
    });
    cars.truncate(kept.count());
    // cause by cause again, so that each is drawn from as its share asks
    cars.sort_by_key(|car| car.0);
    let drawn = drawn(&cars);
    let mut checks: Vec<NextCheck> = channels
        .map(|channel| {
            let at = column(0, channel, readings);
            let value = |&(c, i, _): &(usize, usize, f64)| all[c].kernels.samples[i].shown[at];
            NextCheck {
                channel,
                effort: channel.effort(),
                bits: information(&cars, &drawn, value, channel.usual_error(), all.len()),
                outcomes: outcomes(all, &cars, value, channel.usual_error()),
            }
        })
        .collect();
    checks.sort_by(|a, b| b.bits.total_cmp(&a.bits));
    checks
}

/// Places of [`DRAWN`] cars at even steps of the probability: as likely ones are drawn more often.
fn drawn(cars: &[(usize, usize, f64)]) -> Vec<usize> {
    let total: f64 = cars.iter().map(|car| car.2).sum();
    let (mut place, mut sum) = (0, cars.first().map_or(0.0, |car| car.2));
    (0..if total > 0.0 { DRAWN } else { 0 })
        .map(|k| {
            let wanted = (k as f64 + 0.5) / DRAWN as f64 * total;
            while sum < wanted && place + 1 < cars.len() {
                place += 1;
                sum += cars[place].2;
            }
            place
        })
        .collect()
}

/// Expected fall of the entropy over the causes when `value` becomes known within `standard`, in bits.
fn information(
    cars: &[(usize, usize, f64)],
    drawn: &[usize],
    value: impl Fn(&(usize, usize, f64)) -> f64,
    standard: f64,
    causes: usize,
) -> f64 {
    let entropy = |weights: &[f64]| {
        let total: f64 = weights.iter().sum();
        -weights.iter().filter(|w| **w > 0.0).map(|w| w / total * (w / total).log2()).sum::<f64>()
    };
    let mut before = vec![0.0; causes];
    cars.iter().for_each(|car| before[car.0] += car.2);
    // the scatter of cars is smoothed like the instrument
    let values: Vec<f64> = cars.iter().map(&value).collect();
    let left = |&i: &usize| {
        let mut weights = vec![0.0; causes];
        // a car that told of itself would tell too much
        for (other, &theirs) in cars[..i].iter().zip(&values[..i]).chain(cars[i + 1..].iter().zip(&values[i + 1..])) {
            let z = (values[i] - theirs) / (2.0 * standard);
            weights[other.0] += other.2 * (-0.5 * z * z).exp();
        }
        // nothing like it: it tells nothing that could be counted on
        if weights.iter().all(|w| *w <= 0.0) { entropy(&before) } else { entropy(&weights) }
    };
    if drawn.is_empty() {
        return 0.0;
    }
    (entropy(&before) - drawn.iter().map(left).sum::<f64>() / drawn.len() as f64).max(0.0)
}

/// What the leading cause would show, and the two that would most likely show something else, clear of scatter and of the
/// `standard` uncertainty of the instrument.
fn outcomes(
    all: &[Weighed],
    cars: &[(usize, usize, f64)],
    value: impl Fn(&(usize, usize, f64)) -> f64,
    standard: f64,
) -> Vec<Outcome> {
    let mut shown: Vec<(f64, Outcome)> = all
        .iter()
        .enumerate()
        .filter_map(|(c, one)| {
            let own: Vec<_> = cars.iter().filter(|car| car.0 == c).collect();
            let weight: f64 = own.iter().map(|car| car.2).sum();
            if weight <= 0.0 {
                return None;
            }
            let middle = own.iter().map(|car| car.2 * value(car)).sum::<f64>() / weight;
            let variance = own.iter().map(|car| car.2 * (value(car) - middle).powi(2)).sum::<f64>() / weight;
            let cause = one.cause.name;
            Some((one.probability, Outcome { cause, middle, spread: variance.sqrt() }))
        })
        .collect();
    shown.sort_by(|a, b| b.0.total_cmp(&a.0));
    if let Some((_, first)) = shown.first() {
        let (middle, spread) = (first.middle, first.spread);
        let other = |(probability, outcome): &(f64, Outcome)| {
            let z = (outcome.middle - middle) / spread.hypot(outcome.spread).hypot(standard);
            probability * (1.0 - (-0.5 * z * z).exp())
        };
        shown[1..].sort_by(|a, b| other(b).total_cmp(&other(a)));
    }
    shown.into_iter().take(3).map(|(_, outcome)| outcome).collect()
}
