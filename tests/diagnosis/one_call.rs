//! The one call says what its pieces say.

use satline::diagnosis::{Assessment, CauseId, Diagnosis, DiagnosisRequest, Headline, ReferenceCache};
use satline::expected::ChartSet;

use super::*;

const R: Refrigerant = Refrigerant::R134a;

fn first() -> Entry {
    let entry = Entry::gauges("0.6 bar".parse().unwrap(), "8.0 bar".parse().unwrap());
    let entry = entry.enter(Measurand::SuctionLine, "24 °C").unwrap().enter(Measurand::Vent, "20 °C").unwrap();
    entry.ambient("30 °C".parse().unwrap()).humidity("50 %".parse().unwrap()).altitude("300 m".parse().unwrap())
}

#[test]
fn the_usual_call_is_entry_reading_reference_and_posterior() {
    let diagnosis = Diagnosis::of(R).low("22 psi").unwrap().high("160 psi").unwrap().ambient("86 °F").unwrap();
    let diagnosis = diagnosis.run().unwrap();

    let entry = Entry::gauges("22 psi".parse().unwrap(), "160 psi".parse().unwrap()).ambient("86 °F".parse().unwrap());
    let read = Inspection::of(entry.reading(R, Settings::TEST, &Instruments::analogue(R)).unwrap());
    let circuits = Reference::of(&read).unwrap();
    assert_eq!(diagnosis.inspection(), &read);
    let posterior = diagnose(&read, &circuits, &Prior::workshop()).unwrap();
    assert_eq!(diagnosis.posterior(), Some(&posterior));
    assert_eq!(diagnosis.expected(), Some(circuits.expected().unwrap()));
    let mut assessment = Assessment::of(read.first(), &ChartSet::new(R).unwrap()).unwrap();
    assessment.expected = Some(circuits.expected().unwrap().clone());
    assert_eq!(diagnosis.assessment(), &assessment);
}

/// A diagnosis asks about the units of what was entered, and does not when nothing is odd.
#[test]
fn a_diagnosis_asks_about_an_odd_number() {
    let of = |low: &str| {
        Diagnosis::of(R).low(low).unwrap().high("160 psi").unwrap().ambient("86 °F").unwrap().run().unwrap()
    };
    let asked = of("2.2 psi").questions();
    let asked: Vec<_> = asked.iter().map(|question| satline::report::Language::English.question(question)).collect();
    assert_eq!(asked, ["low side: 2.2 psi is far from what is usual; was 2.2 bar meant?"]);
    assert_eq!(of("22 psi").questions(), []);
}

#[test]
fn a_call_with_everything_is_its_pieces_put_together() {
    let kinds = vec![kind(CompressorKind::Cycling, ExpansionKind::ThermostaticValve)];
    let revved = Settings { engine: EngineSpeed::Rpm(1500.0), ..Settings::TEST };
    let again = Entry::gauges("0.3 bar".parse().unwrap(), "9.0 bar".parse().unwrap());
    let garage =
        Entry::gauges("5.4 bar".parse().unwrap(), "5.4 bar".parse().unwrap()).ambient("22 °C".parse().unwrap());
    let recovered = RecoveredCharge::new(Mass::from_g(310.0), Mass::from_g(550.0)).unwrap();
    let prior = Prior::uniform().with(CauseId::Overcharge, 0.1).unwrap();
    let request = Diagnosis::of(R)
        .entry(first())
        .also(again, revved)
        .equalised(garage)
        .instruments(Instruments::digital(R))
        .kinds(kinds.clone())
        .recovered(recovered)
        .found(Observation::Bubbles)
        .not_found(Observation::WaterHelps)
        .prior(prior.clone())
        .circuits(10);
    let diagnosis = request.run().unwrap();

    let tools = Instruments::digital(R);
    // the second reading and the equalised one in the air of the first, unless they name their own
    let (ambient, humidity, altitude) = ("30 °C", "50 %", "300 m");
    let again = again.ambient(ambient.parse().unwrap()).humidity(humidity.parse().unwrap());
    let again = again.altitude(altitude.parse().unwrap());
    let garage = garage.humidity(humidity.parse().unwrap()).altitude(altitude.parse().unwrap());
    let read = Inspection::of(first().reading(R, Settings::TEST, &tools).unwrap())
        .and(again.reading(R, revved, &tools).unwrap())
        .and_then(|read| read.and(garage.equalised_reading(R, &tools)?))
        .and_then(|read| read.with_kinds(kinds))
        .and_then(|read| read.with_recovered(recovered))
        .and_then(|read| read.found(Observation::Bubbles))
        .and_then(|read| read.not_found(Observation::WaterHelps))
        .unwrap();
    assert_eq!(diagnosis.inspection(), &read);
    let circuits = Reference::with_circuits(&read, 10).unwrap();
    let by_hand = diagnose(&read, &circuits, &prior).unwrap();
    assert_eq!(diagnosis.posterior(), Some(&by_hand));
    // and nothing of it is lost on the way: without any one piece the posterior is another
    assert_ne!(asked(&read, &circuits), by_hand);
    assert_eq!(by_hand.causes[0].predicted.len(), 4 + 2 + 1 + 1);
    assert_ne!(by_hand.cause(CauseId::Undercharge).unwrap().observation_bayes_factor, 1.0);
}

#[test]
fn a_cached_call_is_the_posterior_with_the_circuits_of_the_bin() {
    let kinds = vec![kind(CompressorKind::Cycling, ExpansionKind::ThermostaticValve)];
    let request = Diagnosis::of(R).entry(first().ambient("30.3 °C".parse().unwrap())).kinds(kinds);
    let mut cache = ReferenceCache::default();
    let diagnosis = request.run_cached(&mut cache).unwrap();
    let read = request.inspection().unwrap();
    let posterior = diagnose(&read, &Reference::of_bin(&read).unwrap(), &Prior::default()).unwrap();
    assert_eq!(diagnosis.posterior(), Some(&posterior));
    assert_eq!(cache.len(), 1);
    assert!(diagnosis.expected().is_none());
}

/// Rows of two bins, one that is refused and one for which nothing is simulated.
#[test]
fn many_requests_have_each_its_own_answer_in_order() {
    let kinds = vec![kind(CompressorKind::Cycling, ExpansionKind::ThermostaticValve)];
    let row = |low: &str, ambient: &str| {
        let gauges = Diagnosis::of(R).low(low).unwrap().high("160 psi").unwrap().kinds(kinds.clone());
        gauges.ambient(ambient).unwrap()
    };
    let at_rest = Diagnosis::of(R).low("85 psi").unwrap().high("86 psi").unwrap().ambient("77 °F").unwrap();
    let rows = [
        row("22 psi", "30 °C"),
        row("22 psi", "300 °C"),
        row("31 psi", "34 °C"),
        at_rest.first_equalised(),
        row("24 psi", "30.2 °C"),
    ];
    let (mut together, mut apart) = (ReferenceCache::default(), ReferenceCache::default());
    let answers = DiagnosisRequest::run_many(&rows, &mut together);
    let one_by_one: Vec<_> = rows.iter().map(|row| row.run_cached(&mut apart)).collect();
    assert_eq!(answers, one_by_one);
    assert_eq!((together.len(), apart.len()), (2, 2));
    assert!(answers[1].is_err() && answers[3].as_ref().unwrap().posterior().is_none());
    // circuits of an earlier call are there for the next
    assert_eq!(DiagnosisRequest::run_many(&rows[..1], &mut together), answers[..1]);
    assert_eq!(together.len(), 2);
    assert!(DiagnosisRequest::run_many(&[], &mut together).is_empty());
}

/// Circuits that were simulated for the same conditions are used again, others are not, and the answer is the same either way.
#[test]
fn circuits_kept_from_an_earlier_call_change_no_answer() {
    let kinds = vec![kind(CompressorKind::Cycling, ExpansionKind::ThermostaticValve)];
    let request = Diagnosis::of(R).entry(first().ambient("30 °C".parse().unwrap())).kinds(kinds).circuits(20);
    let mut kept = None;
    let key = |kept: &Option<Reference>| kept.as_ref().unwrap().key();
    assert_eq!(request.run_reusing(&mut kept).unwrap(), request.run().unwrap());
    let simulated = key(&kept);
    let more = request.clone().found(Observation::Bubbles);
    assert_eq!(more.run_reusing(&mut kept).unwrap(), more.run().unwrap());
    assert_eq!(key(&kept), simulated);
    let warmer = request.ambient("31 °C").unwrap();
    assert_eq!(warmer.run_reusing(&mut kept).unwrap(), warmer.run().unwrap());
    assert_ne!(key(&kept), simulated);
    // another number of circuits is another simulation
    let finer = warmer.circuits(25);
    assert_eq!(finer.run_reusing(&mut kept).unwrap(), finer.run().unwrap());
    // what is not modelled needs none and leaves none behind
    let at_rest = Diagnosis::of(R).low("85 psi").unwrap().high("86 psi").unwrap().ambient("77 °F").unwrap();
    let mut none = None;
    at_rest.first_equalised().run_reusing(&mut none).unwrap();
    assert!(none.is_none());
}

#[test]
fn an_evaporator_outlet_is_compared_where_it_was_read_and_never_asked_for() {
    let gauges = || Diagnosis::of(R).low("22 psi").unwrap().high("160 psi").unwrap().ambient("86 °F").unwrap();
    let read = gauges().measured(Measurand::EvaporatorOutlet, "66 °F").unwrap().run().unwrap();
    let (read, open) = (read.posterior().unwrap(), gauges().run().unwrap());
    let open = open.posterior().unwrap();
    for posterior in [open, read] {
        assert!(offered(posterior, Measurand::EvaporatorOutlet).is_none());
        assert!(offered(posterior, Measurand::SuctionLine).is_some());
    }
    // far above boiling, the evaporator is starved, and does not lack air
    let starved = |posterior: &Posterior| posterior.marginal_probability(CauseId::LiquidRestriction);
    let airless = |posterior: &Posterior| posterior.marginal_probability(CauseId::EvaporatorAir);
    assert!(starved(read) > starved(open) && airless(read) < 0.5 * airless(open));
    let first = &read.causes[0];
    assert!(first.predicted.iter().any(|one| one.measurand == Measurand::EvaporatorOutlet));
}

/// Over a chart's worth of pairs at 30 °C: a car is headed healthy only while no fault is likelier than none, and a car inside both
/// windows that a fault explains better has a headline of its own.
#[test]
fn no_fault_leads_a_car_that_is_headed_healthy() {
    let mut kept = None;
    let (mut healthy, mut inside_and_unusual) = (0, 0);
    for low in [1.4, 1.8, 2.2, 2.6, 3.0, 3.4] {
        for high in [9.0, 11.0, 13.0, 15.0, 17.0, 19.0] {
            let asked = Diagnosis::of(R).low(&format!("{low} bar")).unwrap().high(&format!("{high} bar")).unwrap();
            let advice = asked.ambient("30 °C").unwrap().run_reusing(&mut kept).unwrap().advice();
            match &advice.headline {
                Headline::Healthy { .. } => {
                    assert_eq!(advice.leading[0].causes[0], CauseId::NoFault, "{low} {high}");
                    healthy += 1;
                }
                Headline::Unusual { outside, likeliest, no_fault, .. } if outside.is_empty() => {
                    assert!(likeliest.causes[0] != CauseId::NoFault && no_fault.is_some(), "{low} {high}");
                    inside_and_unusual += 1;
                }
                _ => {}
            }
        }
    }
    // the middle of the windows and a corner of them
    assert!(healthy >= 3 && inside_and_unusual >= 1, "{healthy} {inside_and_unusual}");
}

/// A gauge that was not read is named, unless it was read at another speed or the engine is off.
#[test]
fn a_gauge_that_was_not_read_is_named() {
    let day = |asked: DiagnosisRequest| asked.ambient("30 °C").unwrap();
    let (low, high) = (Measurand::LowSide, Measurand::HighSide);
    let one = |of, text| day(Diagnosis::of(R).measured(of, text).unwrap());
    let both = day(Diagnosis::of(R).low("2.2 bar").unwrap().high("13 bar").unwrap());
    let revved = Settings { engine: EngineSpeed::Rpm(1500.0), ..Settings::TEST };
    let elsewhere = one(low, "2.2 bar").also(Entry::default().enter(high, "14 bar").unwrap(), revved);
    let stopped = both.clone().first_equalised();
    for (asked, unread) in [
        (one(low, "2.2 bar"), vec![high]),
        (one(high, "13 bar"), vec![low]),
        (one(Measurand::Vent, "12 °C"), vec![low, high]),
        (both, vec![]),
        (elsewhere, vec![]),
        (stopped, vec![]),
    ] {
        assert_eq!(asked.run().unwrap().advice().unread_gauges, unread);
        // and without any causes, as far as one reading tells
        if asked.inspection().unwrap().readings().len() == 1 {
            assert_eq!(asked.assess().unwrap().advice().unread_gauges, unread);
        }
    }
}

/// Circuits of one baseline are not used again for another.
#[test]
fn circuits_of_another_baseline_are_not_reused() {
    let with = |row: &str| {
        let asked = Diagnosis::of(R).low("2.2 bar").unwrap().high("13 bar").unwrap().ambient("30 °C").unwrap();
        asked.baseline(row.parse().unwrap())
    };
    let mut kept = None;
    for row in ["30 °C: 2.0 to 2.4 bar, 12 to 14 bar", "30 °C: 2.6 to 3.0 bar, 16 to 18 bar"] {
        let reused = with(row).run_reusing(&mut kept).unwrap();
        assert_eq!(reused, with(row).run().unwrap(), "{row}");
    }
}
