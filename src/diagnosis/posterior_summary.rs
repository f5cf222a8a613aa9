//! The posterior over the causes, with the size of each, its evidence and the next measurement.

use std::sync::Arc;

use nalgebra::DVector;

use super::causes::{Cause, CauseId, FaultSize, Prior};
use super::data::{Datum, data};
use super::density::log_mean_exp;
use super::mixture::Mixture;
use super::next_measurement::{NextMeasurement, next_measurements};
use super::posterior::{GroupDensity, ScoredCause, score_causes, values};
use super::reference::Reference;
use crate::Error;
use crate::inspection::{Inspection, Measurand};
use crate::numeric::{parallel, sort_by_number};

/// Posterior probability of no fault below which a circuit is called faulty, a little less than one cause of 23 has
/// under a uniform prior; our choice. Of healthy circuits no more than one in twenty is called faulty, whatever is
/// measured (`tables/DIAGNOSIS.md`).
pub const HEALTHY_POSTERIOR_THRESHOLD: f64 = 0.035;

/// Fraction of circuits below which a cause counts as undetectable with what was measured; our choice.
const UNDETECTABLE: f64 = 0.5;

/// Probability that a cause hides above which it is named; our choice.
const HIDDEN_WORTH_NAMING: f64 = 0.03;

/// The posterior over the causes of an inspection.
#[derive(Debug, Clone, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(deny_unknown_fields))]
#[non_exhaustive]
pub struct Posterior {
    /// Causes, the most probable first; their probabilities add up to one.
    pub causes: Vec<CauseProbability>,
    /// Whether the inspection is outside the model: no simulated circuit of the most probable cause is as far from the others, or
    /// one quantity lies far from all of them.
    pub outside_model: bool,
    /// Measurements not made yet, the largest expected information gain first.
    pub next: Vec<NextMeasurement>,
    /// Number of simulated circuits compared.
    pub circuits: usize,
    /// Prior over the causes that the probabilities follow from.
    pub prior: Prior,
}

/// One cause with its posterior probability, its size and its evidence.
#[derive(Debug, Clone, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(deny_unknown_fields))]
#[non_exhaustive]
pub struct CauseProbability {
    /// Id of the cause.
    pub cause: CauseId,
    /// Fraction of its circuits in which all of the cause is detectable with what was measured; it scales the prior.
    pub detectable_fraction: f64,
    /// Posterior probability among all causes that it is there and shows; of no fault, that nothing shows.
    pub probability: f64,
    /// Posterior probability that it is there and does not show with what was measured: a part of the probability that nothing
    /// shows, to that of no fault as the prior has them. Zero where it always shows.
    pub hidden_probability: f64,
    /// Size of the first fault of the cause, 5 to 95 %; `None` if it has no size.
    pub size: Option<FaultSize>,
    /// Measured and predicted values; their Bayes factors multiply to the odds of the values against no fault.
    pub predicted: Vec<PredictedValue>,
    /// Bayes factor of the observations against no fault, by agreement of texts; one without observations.
    pub observation_bayes_factor: f64,
}

/// Measured and predicted value of one quantity: ln of an absolute pressure in Pa, a temperature in °C, or a fraction.
#[derive(Debug, Clone, Copy, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(deny_unknown_fields))]
#[non_exhaustive]
pub struct PredictedValue {
    /// Index of the running reading it belongs to, from zero.
    pub reading: usize,
    /// Quantity that was measured.
    pub measurand: Measurand,
    /// Value read.
    pub read: f64,
    /// Mean over the circuits with the cause, weighted by how well each fits.
    pub mean: f64,
    /// Standard deviation over the circuits with the cause, weighted by how well each fits.
    pub standard_deviation: f64,
    /// Bayes factor of the value against no fault, given the values before it.
    pub bayes_factor: f64,
}

/// Ambiguity group: causes of one and the same change of the circuit, which no measurement distinguishes; at least one.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub struct AmbiguityGroup<'a> {
    /// Causes of the group, the most probable first; they differ by observations and prior alone.
    pub causes: Vec<&'a CauseProbability>,
    /// Probability of all causes of the group together.
    pub probability: f64,
}

impl Posterior {
    /// Causes that may be there without showing, as when a receiver takes up the missing charge: those undetectable in most of their
    /// circuits, and those hidden with a probability worth naming.
    pub fn undetectable(&self) -> impl Iterator<Item = CauseId> {
        let may_hide = |one: &&CauseProbability| {
            one.detectable_fraction < UNDETECTABLE || one.hidden_probability > HIDDEN_WORTH_NAMING
        };
        let mut causes: Vec<CauseId> = self.causes.iter().filter(may_hide).map(|one| one.cause).collect();
        causes.sort_by_key(|cause| cause.as_str());
        causes.into_iter()
    }

    /// The causes in their ambiguity groups, the most probable group first.
    pub fn groups(&self) -> Vec<AmbiguityGroup<'_>> {
        let mut groups: Vec<AmbiguityGroup> = Vec::new();
        for one in &self.causes {
            match groups.iter_mut().find(|group| group.causes[0].cause.cause().changes_like(one.cause.cause())) {
                Some(group) => {
                    group.causes.push(one);
                    group.probability += one.probability;
                }
                None => groups.push(AmbiguityGroup { causes: vec![one], probability: one.probability }),
            }
        }
        sort_by_number(&mut groups, |group| -group.probability);
        groups
    }

    /// Marginal probability of the change that `cause` makes, alone or together with another fault.
    pub fn marginal_probability(&self, cause: CauseId) -> f64 {
        let faults = cause.cause().faults;
        let holds = |other: &Cause| !faults.is_empty() && faults.iter().all(|fault| other.faults.contains(fault));
        let counts = |one: &&CauseProbability| one.cause == cause || holds(one.cause.cause());
        self.causes.iter().filter(counts).map(|one| one.probability).sum()
    }

    /// Posterior probability that one of `causes` is there and shows: the sum of theirs, as of the causes of an ambiguity group.
    pub fn probability_of(&self, causes: &[CauseId]) -> f64 {
        self.causes.iter().filter(|one| causes.contains(&one.cause)).map(|one| one.probability).sum()
    }

    /// Posterior probability and evidence of `cause`; `None` if the kinds of circuit cannot have it.
    pub fn cause(&self, cause: CauseId) -> Option<&CauseProbability> {
        self.causes.iter().find(|one| one.cause == cause)
    }

    /// Posterior probability that nothing shows: of no fault, or of one that is hidden.
    pub fn healthy(&self) -> f64 {
        self.cause(CauseId::NoFault).map_or(0.0, |one| one.probability)
    }

    /// Posterior probability that a fault is there and does not show; the rest of [`Posterior::healthy`] is no fault at all.
    pub fn hidden(&self) -> f64 {
        self.causes.iter().map(|one| one.hidden_probability).sum()
    }

    /// Whether the circuit is called faulty: [`Posterior::healthy`] is below [`HEALTHY_POSTERIOR_THRESHOLD`].
    pub fn is_faulty(&self) -> bool {
        self.healthy() < HEALTHY_POSTERIOR_THRESHOLD
    }
}

/// The posterior over the causes of `inspection`, by comparison with the circuits of `reference`.
///
/// - **Method** likelihood by kernel density over simulated circuits, posterior under `prior`; see [`Reference`].
/// - **Accuracy** `tables/DIAGNOSIS.md`: on simulated circuits of other seeds and of a wrong model, and against printed fault
///   charts.
///
/// # Errors
/// [`Error::Mismatch`] where the circuits were simulated for other conditions, kinds or another refrigerant; those of
/// [`Inspection::conditions`]; an error for a prior that rules out every cause; those of [`Reference::of`], as causes that may be
/// the explanation of the readings get more circuits.
///
/// ```
/// use satline::Refrigerant;
/// use satline::circuit::Settings;
/// use satline::diagnosis::{CauseId, Prior, Reference, diagnose};
/// use satline::inspection::{Entry, Inspection, Instruments, Measurand};
/// let r = Refrigerant::R134a;
/// let entry = Entry::gauges("0.6 bar".parse()?, "8.0 bar".parse()?)
///     .enter(Measurand::SuctionLine, "24 °C")?
///     .enter(Measurand::LiquidLine, "37 °C")?
///     .enter(Measurand::Vent, "20 °C")?
///     .ambient("30 °C".parse()?)
///     .humidity("50 %".parse()?);
/// let inspection = Inspection::of(entry.reading(r, Settings::TEST, &Instruments::digital(r))?);
/// let posterior = diagnose(&inspection, &Reference::with_circuits(&inspection, 20)?, &Prior::uniform())?;
/// assert_ne!(posterior.causes[0].cause, CauseId::NoFault);
/// assert!(posterior.is_faulty());
/// # Ok::<(), satline::Error>(())
/// ```
pub fn diagnose(inspection: &Inspection, reference: &Reference, prior: &Prior) -> Result<Posterior, Error> {
    reference.matches(inspection)?;
    prior.check(reference.groups.iter().flat_map(|group| &group.causes).map(|cause| cause.id))?;
    let data = data(inspection, |place, measurand| reference.model_uncertainty(place, measurand))?;
    let (mut all, circuits) = score_causes(reference, inspection, &data, prior)?;
    sort_by_number(&mut all, |one| -one.probability);
    let read = values(&data);
    let healthy = all.iter().find(|one| matches!(one.cause.id, CauseId::NoFault));
    let healthy_logs = healthy.map_or(vec![0.0; data.len()], |one| one.group.log_prefix_likelihoods(&read));
    let healthy_observations = healthy.map_or(0.0, |one| one.observation_log_likelihood);
    // the causes of an ambiguity group share their faults and their density, and what follows from them
    let same = |one: &ScoredCause, other: &ScoredCause| Arc::ptr_eq(&one.group, &other.group);
    let mut first_of_group: Vec<&ScoredCause> = Vec::new();
    for one in &all {
        if !first_of_group.iter().any(|first| same(first, one)) {
            first_of_group.push(one);
        }
    }
    let shared = parallel::map(&first_of_group, |one| (size(one, &read), predicted(&one.group, &data, &healthy_logs)));
    let cause = |one: &ScoredCause| {
        let place = first_of_group.iter().position(|first| same(first, one));
        let (size, predicted) = place.map_or((None, Vec::new()), |place| shared[place].clone());
        CauseProbability {
            cause: one.cause.id,
            detectable_fraction: one.group.detectable_fraction,
            probability: one.probability,
            hidden_probability: one.hidden_probability,
            size,
            predicted,
            observation_bayes_factor: (one.observation_log_likelihood - healthy_observations).exp(),
        }
    };
    let causes = all.iter().map(cause).collect();
    Ok(Posterior {
        outside_model: outside_model(&all, &data),
        next: next_measurements(&all, &data, reference),
        circuits,
        causes,
        prior: prior.clone(),
    })
}

/// 5 to 95 % of the size of the first fault of a cause; `None` where it has none.
fn size(one: &ScoredCause, read: &DVector<f64>) -> Option<FaultSize> {
    let &fault = one.cause.faults.first()?;
    let (low, high) = fault.range();
    if low == high {
        return None;
    }
    let components = one.group.density.sizes_given(read).into_iter().zip(one.group.circuit_weights.iter().copied());
    let mixture = Mixture::new(components)?;
    let at = |q: f64| low + mixture.quantile(q) * (high - low);
    Some(FaultSize::new(fault, at(SIZE_INTERVAL.0), at(SIZE_INTERVAL.1)))
}

/// The interval of a size: nine tenths; our choice.
const SIZE_INTERVAL: (f64, f64) = (0.05, 0.95);

/// ln of a Bayes factor at which it is cut off, about 10³⁰⁰: numbers end soon after; our choice.
const LARGEST_LOG_FACTOR: f64 = 690.0;

fn predicted(group: &GroupDensity, data: &[Datum], healthy: &[f64]) -> Vec<PredictedValue> {
    let logs = group.log_prefix_likelihoods(&values(data));
    let weights = &group.circuit_weights;
    let mut before = 0.0;
    data.iter()
        .enumerate()
        .map(|(i, datum)| {
            let expectation = |of: &dyn Fn(f64) -> f64| {
                group.density.centres().zip(weights).map(|(centre, w)| w * of(centre[i])).sum::<f64>()
            };
            let mean = expectation(&|shown| shown);
            let standard_deviation = expectation(&|shown| (shown - mean).powi(2)).sqrt();
            let after = logs[i] - healthy[i];
            let bayes_factor = (after - before).clamp(-LARGEST_LOG_FACTOR, LARGEST_LOG_FACTOR).exp();
            before = after;
            let Datum { place: reading, measurand, value: read, .. } = *datum;
            PredictedValue { reading, measurand, read, mean, standard_deviation, bayes_factor }
        })
        .collect()
}

/// How far from the nearest circuit a value lies outside the model, in standard uncertainties of instrument and model; our choice.
const OUTSIDE: f64 = 5.0;

/// What instruments and model add to the log density at a circuit of its own: two standard deviations in each direction.
const OWN_ALLOWANCE: f64 = 2.0;

/// Whether the inspection lies outside every simulated circuit of its most probable cause: all of it together, or one value far
/// from all of them.
fn outside_model(all: &[ScoredCause], data: &[Datum]) -> bool {
    let Some(first) = all.first() else { return true };
    let read = values(data);
    let far = |(i, datum): (usize, &Datum)| {
        let near = |centre: &DVector<f64>| (datum.value - centre[i]).abs() <= OUTSIDE * datum.standard_uncertainty;
        !first.group.density.centres().any(near)
    };
    if data.iter().enumerate().any(far) {
        return true;
    }
    let at = |place: &DVector<f64>| log_mean_exp(first.group.density.log_kernels(place).into_iter());
    let own = at(&read) + OWN_ALLOWANCE * data.len() as f64 / first.group.tempering;
    first.group.density.centres().all(|centre| own < at(centre))
}
