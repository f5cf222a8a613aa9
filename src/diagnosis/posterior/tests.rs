//! Tests of the posterior.

#![cfg(test)]

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
        assert_eq!(one.prior_weight, prior.weight(one.cause.id) * one.group.detectable_fraction, "{}", one.cause.id);
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
