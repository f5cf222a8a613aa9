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
use crate::numeric::parallel;

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
        order.sort_by(|a, b| probability(b).total_cmp(&probability(a)));
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
mod tests {
    use approx::{abs_diff_eq, assert_abs_diff_eq};
    use nalgebra::DMatrix;

    /// Rounding of a few operations on probabilities, and on logarithms of them.
    const ROUNDING: f64 = 1e-12;

    use super::*;
    use crate::Refrigerant;
    use crate::circuit::{CircuitKind, Settings};
    use crate::diagnosis::data::data;
    use crate::diagnosis::diagnose;
    use crate::diagnosis::mixture::Mixture;
    use crate::diagnosis::next_measurement::next_measurements;
    use crate::diagnosis::{ALL, CauseId};
    use crate::inspection::{Entry, Instruments, Observation};

    /// A cause with this likelihood of the values, of the observations, this prior weight and detectable fraction.
    fn scored(cause: CauseId, likelihood: f64, observed: f64, prior: f64, fraction: f64) -> ScoredCause<'static> {
        let points = [Point { size: 0.5, mode: 0, weight: 1.0, values: DVector::zeros(1) }];
        let density = KernelDensity::new(&points, SizeDependence::None, &DMatrix::identity(1, 1)).unwrap();
        let group = Arc::new(GroupDensity {
            samples: Vec::new(),
            density,
            circuit_weights: Vec::new(),
            tempering: 1.0,
            log_likelihood: likelihood.ln(),
            detectable_fraction: fraction,
        });
        let observation_log_likelihood = observed.ln();
        ScoredCause {
            cause: cause.cause(),
            group,
            observation_log_likelihood,
            prior_weight: prior * fraction,
            hidden_weight: prior * (1.0 - fraction),
            probability: 0.0,
            hidden_probability: 0.0,
        }
    }

    #[test]
    fn two_hypotheses_get_the_posterior_worked_by_hand() {
        // nothing shows: 0.02 · (0.9 · 0.5 + 0.3 · 0.5 · 0.2) = 0.0096; too little shows: 0.3 · 0.5 · 0.6 · 0.2 = 0.018
        let mut groups = vec![
            vec![scored(CauseId::NoFault, 0.02, 0.5, 0.9, 1.0)],
            vec![scored(CauseId::Undercharge, 0.6, 0.2, 0.3, 0.5)],
        ];
        posterior(&mut groups).unwrap();
        let nothing = 0.0096 / (0.0096 + 0.018);
        assert_abs_diff_eq!(groups[0][0].probability, nothing, epsilon = ROUNDING);
        assert_abs_diff_eq!(groups[1][0].probability, 1.0 - nothing, epsilon = ROUNDING);
        let hidden = nothing * 0.03 / 0.48;
        assert_abs_diff_eq!(groups[1][0].hidden_probability, hidden, epsilon = ROUNDING);
        assert_eq!(groups[0][0].hidden_probability, 0.0);
    }

    /// Whatever is read, what cannot show keeps to no fault the ratio of the prior.
    #[test]
    fn what_cannot_show_keeps_its_prior() {
        for likelihood in [1e-9, 0.3, 1e9] {
            let mut groups = vec![
                vec![scored(CauseId::NoFault, 0.5, 1.0, 2.0, 1.0)],
                vec![scored(CauseId::Undercharge, likelihood, 1.0, 3.0, 0.25)],
                vec![scored(CauseId::Overcharge, 0.1, 1.0, 1.0, 0.0)],
            ];
            posterior(&mut groups).unwrap();
            let hidden: f64 = groups.iter().flatten().map(|one| one.hidden_probability).sum();
            let no_fault = groups[0][0].probability - hidden;
            let ratio = |group: usize| groups[group][0].hidden_probability / no_fault;
            // rounding of differences of probabilities
            assert!(
                abs_diff_eq!(ratio(1), 3.0 * 0.75 / 2.0, epsilon = 1e-9) && abs_diff_eq!(ratio(2), 0.5, epsilon = 1e-9),
                "{likelihood}"
            );
            assert_eq!(groups[2][0].probability, 0.0);
        }
    }

    #[test]
    fn causes_of_one_group_share_by_prior_and_observations_alone() {
        let one = scored(CauseId::NoFault, 1e-200, 0.5, 1.0, 1.0);
        let mut groups = vec![vec![one.clone(), ScoredCause { prior_weight: 3.0, ..one }]];
        posterior(&mut groups).unwrap();
        assert_abs_diff_eq!(groups[0][0].probability, 0.25, epsilon = ROUNDING);
        assert_abs_diff_eq!(groups[0][1].probability, 0.75, epsilon = ROUNDING);
    }

    #[test]
    fn likelihoods_below_every_number_still_compare() {
        let mut groups = vec![
            vec![scored(CauseId::NoFault, 1.0, 1.0, 1.0, 1.0)],
            vec![scored(CauseId::Undercharge, 1.0, 1.0, 1.0, 1.0)],
        ];
        for (group, log) in groups.iter_mut().zip([-1e6, -1e6 + 3f64.ln()]) {
            Arc::get_mut(&mut group[0].group).unwrap().log_likelihood = log;
        }
        posterior(&mut groups).unwrap();
        // the last place of a million is 1e-10
        assert_abs_diff_eq!(groups[1][0].probability, 0.75, epsilon = 1e-9);
    }

    #[test]
    fn without_weight_or_without_causes_the_answer_is_an_error() {
        let mut none = vec![
            vec![scored(CauseId::NoFault, 0.5, 0.5, 0.0, 1.0)],
            vec![scored(CauseId::Undercharge, 0.5, 0.5, 0.0, 0.5)],
        ];
        assert!(matches!(posterior(&mut none), Err(Error::Impossible { value: 0.0, .. })));
        assert!(matches!(posterior(&mut [Vec::new()]), Err(Error::Missing { .. })));
    }

    #[test]
    fn tempering_falls_with_the_quantities_to_a_half() {
        assert_eq!(tempering_exponent(0, 150), 1.0);
        assert_eq!(tempering_exponent(8, 100), 0.98);
        assert_eq!(tempering_exponent(60, 20), 0.5);
        assert_eq!(tempering_exponent(3, 0), 0.5);
    }

    #[test]
    fn the_tempered_likelihood_is_a_power_of_the_density() {
        let points: Vec<Point> = [0.0, 1.0, 3.0]
            .map(|value| Point { size: 0.5, mode: 0, weight: 1.0, values: DVector::from_element(1, value) })
            .to_vec();
        let density = KernelDensity::new(&points, SizeDependence::None, &DMatrix::identity(1, 1)).unwrap();
        let read = DVector::from_element(1, 0.4);
        let log_kernels = density.log_kernels(&read);
        let mean = log_kernels.iter().map(|log| log.exp()).sum::<f64>() / 3.0;
        let group = GroupDensity::new(Vec::new(), density, &read, 0.75, 1.0);
        let found = group.log_prefix_likelihoods(&read)[0].exp();
        assert_abs_diff_eq!(found, mean.powf(0.75), epsilon = ROUNDING);
        assert_abs_diff_eq!(group.log_likelihood, 0.75 * mean.ln(), epsilon = ROUNDING);
        assert_abs_diff_eq!(group.circuit_weights[1], log_kernels[1].exp() / (3.0 * mean), epsilon = ROUNDING);
        assert!(group.circuit_weights.len() == 3);
    }

    #[test]
    fn detectable_is_what_leaves_the_interval_of_the_instrument() {
        assert!(is_detectable(1.0, 0.0, 0.51) && is_detectable(0.0, 1.0, 0.51));
        assert!(!is_detectable(1.0, 0.0, 0.52) && !is_detectable(1.0, 1.0, 0.0));
        let samples = [0.1, 3.0, -5.0, 0.2, 0.0];
        let (left, fraction) = detectable_fraction(samples.iter().collect(), |_| 1.0, |x| is_detectable(*x, 0.0, 1.0));
        assert_eq!((left, fraction), (vec![&3.0, &-5.0], 0.4));
        let (left, fraction) = detectable_fraction(samples.iter().collect(), |_| 1.0, |_| false);
        assert_eq!((left.len(), fraction), (5, 0.0));
        let (left, fraction) = detectable_fraction(Vec::<&f64>::new(), |_| 1.0, |_| true);
        assert_eq!((left.len(), fraction), (0, 0.0));
    }

    #[test]
    fn observations_count_by_smoothed_shares_of_texts() {
        let (observation, texts) = CauseId::Undercharge.cause().found[0];
        let share = f64::from(texts + 1) / f64::from(TEXTS + 2);
        let of = |seen| {
            let (inspection, _) = inspected();
            let inspection = if seen { inspection.found(observation) } else { inspection.not_found(observation) };
            let evidence = inspection.unwrap();
            observation_log_likelihood(CauseId::Undercharge.cause(), &evidence)
        };
        assert_abs_diff_eq!(of(true), share.ln(), epsilon = ROUNDING);
        assert_abs_diff_eq!(of(false), (1.0 - share).ln(), epsilon = ROUNDING);
        assert_eq!(observation_log_likelihood(CauseId::Undercharge.cause(), &inspected().0), 0.0);
        // what no text names with a cause speaks against it, and never rules it out
        let unnamed = Observation::ALL
            .iter()
            .find(|o| !CauseId::Undercharge.cause().found.iter().any(|(named, _)| named == *o))
            .unwrap();
        let evidence = inspected().0.found(*unnamed).unwrap();
        let unnamed = observation_log_likelihood(CauseId::Undercharge.cause(), &evidence);
        assert_abs_diff_eq!(unnamed, -f64::from(TEXTS + 2).ln(), epsilon = ROUNDING);
    }

    /// Two gauges of a warm day, and a few circuits for it.
    fn inspected() -> (Inspection, Reference) {
        let r = Refrigerant::R134a;
        let gauges = Entry::gauges("2 bar".parse().unwrap(), "14 bar".parse().unwrap());
        let entry = gauges.ambient("30 °C".parse().unwrap());
        let reading = entry.reading(r, Settings::TEST, &Instruments::digital(r)).unwrap();
        let inspection = Inspection::of(reading).with_kinds(CircuitKind::main(r)[..1].to_vec()).unwrap();
        let reference = Reference::with_circuits(&inspection, 20).unwrap();
        (inspection, reference)
    }

    /// The prior that gives `cause` this weight and every other none.
    fn only(cause: CauseId, weight: f64) -> Prior {
        let none = ALL.iter().try_fold(Prior::uniform(), |prior, other| prior.with(other.id, 0.0));
        none.and_then(|prior| prior.with(cause, weight)).unwrap()
    }

    #[test]
    fn the_prior_of_a_cause_is_scaled_by_its_detectable_fraction() {
        let (inspection, reference) = inspected();
        let prior = Prior::uniform().with(CauseId::Undercharge, 5.0).unwrap();
        let (all, _) = score_causes(
            &reference,
            &inspection,
            &data(&inspection, |_, measurand| measurand.row().model_uncertainty).unwrap(),
            &prior,
        )
        .unwrap();
        for one in &all {
            assert_eq!(
                one.prior_weight,
                prior.weight(one.cause.id) * one.group.detectable_fraction,
                "{}",
                one.cause.id
            );
        }
        // some circuits hide what is wrong with the charge or the control
        let hides = |one: &&ScoredCause| (0.01..0.99).contains(&one.group.detectable_fraction);
        assert!(all.iter().filter(hides).count() >= 2);
        for one in all.iter().filter(hides).filter(|one| one.cause.faults.len() == 1) {
            let fraction = one.group.detectable_fraction;
            let prior = prior.weight(one.cause.id);
            assert!(abs_diff_eq!(one.hidden_weight, prior * (1.0 - fraction), epsilon = ROUNDING), "{}", one.cause.id);
            let drawn = one.group.samples.len() as f64 / fraction;
            // a whole number but for rounding
            assert!(abs_diff_eq!(drawn, drawn.round(), epsilon = 1e-9) && drawn <= 20.0, "{}: {drawn}", one.cause.id);
        }
        assert_eq!(all.iter().find(|one| one.cause.id == CauseId::NoFault).unwrap().group.detectable_fraction, 1.0);
    }

    #[test]
    fn a_prior_of_zeros_is_refused_and_one_cause_alone_is_certain() {
        let (inspection, reference) = inspected();
        let refused = diagnose(&inspection, &reference, &only(CauseId::NoFault, 0.0)).unwrap_err();
        assert_eq!(refused, Error::PriorAllZero);
        let answer = diagnose(&inspection, &reference, &only(CauseId::CompressorWorn, 1e-300)).unwrap();
        assert_eq!(answer.causes[0].cause, CauseId::CompressorWorn);
        assert_eq!(answer.causes[0].probability, 1.0);
    }

    #[test]
    fn without_circuits_there_is_no_reference() {
        let refused = Reference::with_circuits(&inspected().0, 0).unwrap_err();
        assert!(matches!(refused, Error::TooFew { what: "circuits for each cause", .. }), "{refused}");
    }

    #[test]
    fn a_value_a_million_uncertainties_away_leaves_every_number_a_number() {
        let (inspection, reference) = inspected();
        for far in [1e6, -1e6, 1e300] {
            let mut data = data(&inspection, |_, measurand| measurand.row().model_uncertainty).unwrap();
            data[1].value += far * data[1].standard_uncertainty;
            let (all, _) = score_causes(&reference, &inspection, &data, &Prior::uniform()).unwrap();
            let total: f64 = all.iter().map(|one| one.probability).sum();
            // a sum over many circuits: rounding
            assert!(abs_diff_eq!(total, 1.0, epsilon = 1e-9), "{far:e}: {total}");
            for one in &all {
                let weights = &one.group.circuit_weights;
                // a sum over many circuits: rounding
                assert!(abs_diff_eq!(weights.iter().sum::<f64>(), 1.0, epsilon = 1e-9), "{far:e}: {}", one.cause.id);
                let sizes = one.group.density.sizes_given(&values(&data));
                let quantile = Mixture::new(sizes.into_iter().zip(weights.iter().copied())).unwrap().quantile(0.5);
                assert!((0.0..=1.0).contains(&quantile), "{far:e}: {quantile}");
                assert!(one.group.log_prefix_likelihoods(&values(&data)).iter().all(|log| log.is_finite()));
            }
            assert!(next_measurements(&all, &data, &reference).iter().all(|one| one.information_bits.is_finite()));
        }
    }

    #[test]
    fn a_value_that_is_not_a_number_is_refused() {
        let (inspection, reference) = inspected();
        for bad in [f64::NAN, f64::INFINITY] {
            let mut data = data(&inspection, |_, measurand| measurand.row().model_uncertainty).unwrap();
            data[0].value = bad;
            let refused = score_causes(&reference, &inspection, &data, &Prior::uniform()).unwrap_err();
            assert!(matches!(refused, Error::NotFinite { .. }), "{refused}");
        }
    }
}
