//! Posterior probability of each cause.
//!
//! - **Equation** Bayes' theorem, P(c | r, o) ∝ π(c) δ(c) L(r | c)^τ L(o | c), with the prior π ([`Prior`]), the detectable fraction
//!   δ ([`detectable_fraction`]), the likelihood L(r | c) of the measured values by kernel density ([`super::density`]), the tempering
//!   exponent τ ([`tempering_exponent`]), and the likelihood L(o | c) of observations by agreement between texts.
//! - **Not detectable** where a fault changes no measured value, a circuit with it reads as one without, and the values say nothing about
//!   it. The hypotheses are then: nothing shows, with the weight π₀ + Σ π(c) (1 − δ(c)) and the likelihood of no fault; and each cause
//!   where it shows, with π(c) δ(c). Within the first the prior decides: P(c hidden)/P(no fault) = π(c) (1 − δ(c))/π₀, whatever is read.
//! - **Refinement** every cause is first scored with few circuits. The leading causes are then scored again with all of theirs,
//!   until no leading cause is left with few.
//! - **Limits** a probability is one among the causes modelled. The logarithm of a likelihood estimated from n circuits in d
//!   quantities is known within a variance of the order of d/n.

use std::sync::Arc;

use nalgebra::DVector;

use super::causes::{Cause, Fault, IDEAL_MIXTURE_ERROR, Prior};
use super::data::{Datum, covariance};
use super::density::{KernelDensity, log_sum_exp, normalised_exp};
use super::local_regression::{Point, SizeDependence};
use super::reference::{Group, Reference, Sample, column};
use crate::Error;
use crate::inspection::{Inspection, MeasurandKind};
use crate::numeric::{parallel, sort_by_number};

/// The number of leading groups that are refined; our choice.
const LEADING: usize = 6;

/// Least probability at which a group is refined; our choice.
const LEAST_PROBABILITY: f64 = 0.003;

/// Half a 95 % interval, in standard uncertainties, by definition.
const HALF_95: f64 = 1.96;

/// The density that the causes of one ambiguity group share, at what was read.
#[derive(Debug, Clone)]
pub(super) struct GroupDensity<'a> {
    /// The simulated circuits in which all of the fault is detectable, one for each kernel.
    pub(super) samples: Vec<&'a Sample>,
    /// The density of what they read.
    pub(super) density: KernelDensity,
    /// Probability of each circuit given the cause and what was read; they add up to one, or are all zero where none is near.
    pub(super) circuit_weights: Vec<f64>,
    /// τ, the same for every cause.
    pub(super) tempering: f64,
    /// ln of the tempered likelihood of the measured values.
    pub(super) log_likelihood: f64,
    /// δ: share of the circuits in which all of the fault is detectable.
    pub(super) detectable_fraction: f64,
}

impl<'a> GroupDensity<'a> {
    /// Of `samples`, whose density is `density`, at `read`.
    fn new(
        samples: Vec<&'a Sample>,
        density: KernelDensity,
        read: &DVector<f64>,
        tempering: f64,
        detectable_fraction: f64,
    ) -> Self {
        let log_kernels = density.log_kernels(read);
        let circuit_weights = normalised_exp(&log_kernels).unwrap_or_else(|| vec![0.0; log_kernels.len()]);
        let most = log_kernels.iter().copied().fold(f64::NEG_INFINITY, f64::max);
        // the weight of the largest kernel is one over the sum of all relative to it
        let largest = circuit_weights.iter().copied().fold(0.0, f64::max);
        let log_mean = if largest > 0.0 { most - (largest * log_kernels.len() as f64).ln() } else { most };
        let log_likelihood = tempering * log_mean;
        Self { samples, density, circuit_weights, tempering, log_likelihood, detectable_fraction }
    }

    /// ln of the tempered likelihood of the first 1, 2, … measured values.
    pub(super) fn log_prefix_likelihoods(&self, read: &DVector<f64>) -> Vec<f64> {
        self.density.log_prefix_densities(read).into_iter().map(|log| self.tempering * log).collect()
    }
}

/// One cause with what makes up its posterior probability.
#[derive(Debug, Clone)]
pub(super) struct ScoredCause<'a> {
    pub(super) cause: &'static Cause,
    /// Shared by the causes of one ambiguity group.
    pub(super) group: Arc<GroupDensity<'a>>,
    /// ln of the likelihood of the observations.
    pub(super) observation_log_likelihood: f64,
    /// π δ: prior weight times the detectable fraction, and how much the baselines speak for the kinds that can have the cause.
    pub(super) prior_weight: f64,
    /// π (1 − δ): the prior weight that the cause is there and does not show; zero of a cause made of several faults, whose other
    /// fault is a cause of its own.
    pub(super) hidden_weight: f64,
    /// Posterior probability among all causes; of no fault, that nothing shows.
    pub(super) probability: f64,
    /// Posterior probability that the cause is there and does not show.
    pub(super) hidden_probability: f64,
}

impl ScoredCause<'_> {
    /// ln (π δ L(r)^τ L(o)).
    fn log_joint(&self) -> f64 {
        self.group.log_likelihood + self.log_weight(self.prior_weight)
    }

    /// ln of `weight` and the likelihood of the observations.
    fn log_weight(&self, weight: f64) -> f64 {
        self.observation_log_likelihood + weight.ln()
    }
}

/// The quarter of [`tempering_exponent`]; our choice.
const TEMPERING: f64 = 0.25;

/// τ = 1 − d/(4n), at least a half: the exponent of a likelihood of `quantities` measured values estimated from `circuits`.
///
/// The logarithm of the likelihood is known within a variance of the order of d/n, which would otherwise make the posterior
/// overconfident. The quarter was found on circuits other than those of `tables/DIAGNOSIS.md`.
pub(super) fn tempering_exponent(quantities: usize, circuits: usize) -> f64 {
    (1.0 - TEMPERING * quantities as f64 / circuits as f64).max(0.5)
}

/// Whether a change from `without` to `with` is beyond the 95 % interval of an instrument of this standard uncertainty.
fn is_detectable(with: f64, without: f64, standard_uncertainty: f64) -> bool {
    (with - without).abs() > HALF_95 * standard_uncertainty
}

/// The `samples` that are `detectable`, and their fraction by `weight`; all of them and zero if none is.
///
/// Where the part of a fault that may hide changes no measured value beyond its instrument, the circuit is one without that part.
fn detectable_fraction<T>(
    samples: Vec<&T>,
    weight: impl Fn(&T) -> f64,
    detectable: impl Fn(&T) -> bool,
) -> (Vec<&T>, f64) {
    let left: Vec<&T> = samples.iter().copied().filter(|sample| detectable(sample)).collect();
    if left.is_empty() {
        return (samples, 0.0);
    }
    let total = |samples: &[&T]| samples.iter().map(|sample| weight(sample)).sum::<f64>();
    let fraction = total(&left) / total(&samples);
    (left, fraction)
}

/// How what a circuit reads depends on the size of the first of its `faults`.
fn size_dependence(faults: &[Fault]) -> SizeDependence {
    match faults.first() {
        None => SizeDependence::None,
        Some(fault) if fault.is_smooth() => SizeDependence::Smooth,
        Some(_) => SizeDependence::Stepwise,
    }
}

/// `data` as certain as the model is of `cause`: of a mixture the pressures are estimated.
fn as_estimated(data: &[Datum], cause: &Cause) -> Vec<Datum> {
    let estimated = cause.faults.iter().any(|fault| fault.is_mixture());
    let one = |datum: &Datum| match datum.measurand.kind() {
        MeasurandKind::Pressure if estimated => Datum {
            model_uncertainty: datum.model_uncertainty.hypot(IDEAL_MIXTURE_ERROR),
            standard_uncertainty: datum.standard_uncertainty.hypot(IDEAL_MIXTURE_ERROR),
            ..*datum
        },
        _ => *datum,
    };
    data.iter().map(one).collect()
}

/// The density of the circuits `samples` of `group` at what was read; `None` if they have no density.
fn group_density<'a>(
    group: &Group,
    samples: Vec<&'a Sample>,
    data: &[Datum],
    reference: &Reference,
) -> Option<GroupDensity<'a>> {
    let columns: Vec<usize> =
        data.iter().map(|datum| column(datum.place, datum.measurand, reference.conditions().len())).collect();
    let weight = |sample: &Sample| sample.weight;
    let (samples, detectable_fraction) = detectable_fraction(samples, weight, |sample| {
        sample.without.as_ref().is_none_or(|without| {
            let moved = |(&c, datum): (&usize, &Datum)| {
                is_detectable(sample.shown[c], without[c], datum.instrument_uncertainty)
            };
            columns.iter().zip(data).any(moved)
        })
    });
    let point = |sample: &&Sample| {
        let values = DVector::from_iterator(columns.len(), columns.iter().map(|&c| sample.shown[c]));
        Point { size: sample.size, mode: sample.mode, weight: sample.weight, values }
    };
    let points: Vec<Point> = samples.iter().map(point).collect();
    let dependence = size_dependence(group.causes[0].faults);
    let density = KernelDensity::new(&points, dependence, &covariance(&as_estimated(data, group.causes[0])))?;
    let tempering = tempering_exponent(data.len(), reference.effective_circuits());
    Some(GroupDensity::new(samples, density, &values(data), tempering, detectable_fraction))
}

/// The causes of one group, scored with `samples`, their probabilities still zero; empty if the samples have no density.
fn score_group<'a>(
    group: &Group,
    samples: Vec<&'a Sample>,
    inspection: &Inspection,
    data: &[Datum],
    prior: &Prior,
    reference: &Reference,
) -> Vec<ScoredCause<'a>> {
    let Some(density) = group_density(group, samples, data, reference).map(Arc::new) else { return Vec::new() };
    let evidence = reference.evidence_of_kinds(group.causes[0]);
    let scored = |&cause: &&'static Cause| ScoredCause {
        cause,
        group: Arc::clone(&density),
        observation_log_likelihood: observation_log_likelihood(cause, inspection),
        prior_weight: prior.weight(cause.id) * density.detectable_fraction * evidence,
        hidden_weight: match cause.faults {
            [_] => prior.weight(cause.id) * (1.0 - density.detectable_fraction) * evidence,
            _ => 0.0,
        },
        probability: 0.0,
        hidden_probability: 0.0,
    };
    group.causes.iter().map(scored).collect()
}

/// Fills in the posterior probabilities, which add up to one.
///
/// # Errors
/// [`Error::Missing`] without causes; [`Error::Impossible`] if no cause has both a prior weight above zero and a circuit in which
/// it is detectable.
fn posterior(groups: &mut [Vec<ScoredCause>]) -> Result<(), Error> {
    // that nothing shows: no fault, or one that does not
    let hidden: Vec<f64> = groups.iter().flatten().map(|one| one.log_weight(one.hidden_weight)).collect();
    let no_fault = groups.iter().flatten().enumerate().find(|(_, one)| one.cause.faults.is_empty());
    let nothing_shows = no_fault.map(|(place, one)| {
        let log_weight = log_sum_exp(hidden.iter().copied().chain([one.log_weight(one.prior_weight)]));
        (place, one.group.log_likelihood, log_weight)
    });
    let mut log_joints: Vec<f64> = groups.iter().flatten().map(ScoredCause::log_joint).collect();
    if let Some((place, log_likelihood, log_weight)) = nothing_shows {
        log_joints[place] = log_likelihood + log_weight;
    }
    if log_joints.is_empty() {
        return Err(Error::Missing {
            what: "a simulated circuit to compare with",
            way_out: "make Reference with more circuits for each cause",
        });
    }
    let Some(probabilities) = normalised_exp(&log_joints) else {
        return Err(Error::Impossible {
            what: "the prior weight of all detectable causes together,",
            value: groups.iter().flatten().map(|one| one.prior_weight).sum(),
            must: "above zero and finite",
        });
    };
    let (of_nothing, log_nothing) =
        nothing_shows.map_or((0.0, 0.0), |(place, _, log_weight)| (probabilities[place], log_weight));
    for ((one, probability), hidden) in groups.iter_mut().flatten().zip(probabilities).zip(hidden) {
        one.probability = probability;
        one.hidden_probability =
            if hidden > f64::NEG_INFINITY { of_nothing * (hidden - log_nothing).exp() } else { 0.0 };
    }
    Ok(())
}

/// Every cause with its posterior probability, those of one group side by side, and the number of circuits compared.
///
/// # Errors
/// Those of simulating circuits; [`Error::NotFinite`] if a measured value or its uncertainty is not finite; [`Error::Missing`] and
/// [`Error::Impossible`] if no cause is left to compare with.
pub(super) fn score_causes<'a>(
    reference: &'a Reference,
    inspection: &Inspection,
    data: &[Datum],
    prior: &Prior,
) -> Result<(Vec<ScoredCause<'a>>, usize), Error> {
    if let Some(datum) = data.iter().find(|datum| !(datum.value.is_finite() && datum.standard_uncertainty.is_finite()))
    {
        return Err(Error::NotFinite {
            what: datum.measurand.name(),
            text: format!("{} ± {}", datum.value, datum.standard_uncertainty),
        });
    }
    let score =
        |group: &Group, samples: Vec<&'a Sample>| score_group(group, samples, inspection, data, prior, reference);
    let mut groups: Vec<Vec<ScoredCause>> = parallel::map(&reference.groups, |group| score(group, group.few()));
    let mut circuits: Vec<usize> = reference.groups.iter().map(|group| group.few().len()).collect();
    let mut whole = vec![false; groups.len()];
    loop {
        posterior(&mut groups)?;
        let probability = |i: &usize| groups[*i].iter().map(|one| one.probability).sum::<f64>();
        let mut order: Vec<usize> = (0..groups.len()).collect();
        sort_by_number(&mut order, |i| -probability(i));
        let leading = order.into_iter().take(LEADING).filter(|i| probability(i) > LEAST_PROBABILITY);
        let left: Vec<usize> = leading.filter(|&i| !whole[i]).collect();
        if left.is_empty() {
            break;
        }
        let refined: Vec<&Group> = left.iter().map(|&i| &reference.groups[i]).collect();
        let all: Vec<(usize, Vec<&Sample>)> = left.into_iter().zip(reference.all(&refined)?).collect();
        let scored = parallel::map(&all, |(i, samples)| score(&reference.groups[*i], samples.clone()));
        for ((i, samples), scored) in all.into_iter().zip(scored) {
            (circuits[i], whole[i], groups[i]) = (samples.len(), true, scored);
        }
    }
    Ok((groups.into_iter().flatten().collect(), circuits.iter().sum()))
}

/// The measured values.
pub(super) fn values(data: &[Datum]) -> DVector<f64> {
    DVector::from_iterator(data.len(), data.iter().map(|datum| datum.value))
}

/// ln of the likelihood of the observations under `cause`: for each, the smoothed fraction of texts that its weight
/// ([`Cause::found`]) stands for.
pub(super) fn observation_log_likelihood(cause: &Cause, inspection: &Inspection) -> f64 {
    inspection
        .observations()
        .iter()
        .map(|(observation, seen)| {
            let texts = cause.found.iter().find(|(o, _)| o == observation).map_or(0, |(_, texts)| *texts);
            let share = smoothed(texts, TEXTS);
            if *seen { share.ln() } else { (1.0 - share).ln() }
        })
        .sum()
}

/// Number of charts with the commonest pattern, against which a weight is set (pattern A of `tables/diagnosis/gauge-patterns.csv`).
const TEXTS: u32 = 11;

/// The share of texts that a weight stands for, smoothed by one that does and one that does not.
fn smoothed(naming: u32, of: u32) -> f64 {
    f64::from(naming + 1) / f64::from(of.max(naming) + 2)
}

#[cfg(test)]
mod tests;
