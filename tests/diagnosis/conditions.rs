//! Simulated circuits answer for the conditions they were simulated for, and for no others.

use std::collections::hash_map::DefaultHasher;
use std::hash::{Hash, Hasher};
use std::ops::ControlFlow;

use satline::Error;
use satline::circuit::{Intake, Motion};
use satline::diagnosis::{ReferenceCache, ReferenceKey};

use super::*;

fn valve() -> CircuitKind {
    kind(CompressorKind::Cycling, ExpansionKind::ThermostaticValve)
}

fn at(celsius: f64) -> Conditions {
    Conditions { ambient: Temperature::from_celsius(celsius), ..a_day() }
}

/// Before, a reference was compared by its number of readings and its refrigerant alone: circuits simulated for 70 °F answered a
/// reading of 104 °F, and called a healthy circuit faulty.
#[test]
fn circuits_of_other_conditions_are_refused_with_both_values() {
    let day = a_day();
    let kinds = [valve()];
    let settings = |change: fn(&mut Settings)| {
        let mut other = day;
        change(&mut other.settings);
        under(&kinds, &[other])
    };
    let humidity = |percent: Option<f64>| Conditions { humidity: percent.map(Ratio::from_percent), ..day };
    let air = |kpa: f64| Conditions { air: Pressure::from_kpa(kpa), ..day };
    let fahrenheit = |t: f64| Conditions { ambient: Temperature::from_fahrenheit(t), ..day };
    let orifice = kind(CompressorKind::Cycling, ExpansionKind::OrificeTube);
    let idle = "idle, recirculation with the doors open, blower 100 %";
    let how = "engine speed, motion, intake or blower";
    let yf = CircuitKind { refrigerant: Refrigerant::R1234yf, ..valve() };
    let both = "R-134a, thermostatic valve, cycling clutch; or R-134a, orifice tube, cycling clutch";
    let cases: [(Inspection, Inspection, &str, &str, &str); 15] = [
        (under(&kinds, &[fahrenheit(104.0)]), under(&kinds, &[fahrenheit(70.0)]), AMBIENT, "40.0 °C", "21.1 °C"),
        (under(&kinds, &[fahrenheit(70.0)]), under(&kinds, &[fahrenheit(104.0)]), AMBIENT, "21.1 °C", "40.0 °C"),
        (under(&kinds, &[at(30.0)]), under(&kinds, &[at(15.0)]), AMBIENT, "30.0 °C", "15.0 °C"),
        (under(&kinds, &[at(30.6)]), under(&kinds, &[day]), AMBIENT, "30.6 °C", "30.0 °C"),
        (under(&kinds, &[humidity(Some(80.0))]), under(&kinds, &[day]), HUMIDITY, "80 %", "50 %"),
        (under(&kinds, &[humidity(None)]), under(&kinds, &[day]), HUMIDITY, "not known", "50 %"),
        (under(&kinds, &[air(84.3)]), under(&kinds, &[day]), "air pressure", "84.3 kPa", "101.3 kPa"),
        (
            settings(|s| s.engine = EngineSpeed::Rpm(1500.0)),
            under(&kinds, &[day]),
            how,
            "1500 rpm, recirculation with the doors open, blower 100 %",
            idle,
        ),
        (
            settings(|s| s.motion = Motion::Driving(50.0)),
            under(&kinds, &[day]),
            how,
            "idle, 50 km/h, recirculation with the doors open, blower 100 %",
            idle,
        ),
        (settings(|s| s.intake = Intake::Fresh), under(&kinds, &[day]), how, "idle, fresh air, blower 100 %", idle),
        (
            settings(|s| s.blower = Ratio::from_percent(60.0)),
            under(&kinds, &[day]),
            how,
            "idle, recirculation with the doors open, blower 60 %",
            idle,
        ),
        (
            under(&[orifice], &[day]),
            under(&kinds, &[day]),
            "kind of circuit",
            "R-134a, orifice tube, cycling clutch",
            "R-134a, thermostatic valve, cycling clutch",
        ),
        (
            under(&kinds, &[day]),
            under(&[valve(), orifice], &[day]),
            "kind of circuit",
            "R-134a, thermostatic valve, cycling clutch",
            both,
        ),
        (under(&[yf], &[day]), under(&kinds, &[day]), "refrigerant", "R-1234yf", "R-134a"),
        (under(&kinds, &[day, day]), under(&kinds, &[day]), "number of running readings", "2", "1"),
    ];
    for (read, simulated, what, reading, reference) in cases {
        let circuits = Reference::with_circuits(&simulated, 1).unwrap();
        let expected = Error::Mismatch { what, reading: reading.to_owned(), reference: reference.to_owned() };
        assert_eq!(diagnose(&read, &circuits, &Prior::uniform()).unwrap_err(), expected);
        let said = expected.to_string();
        assert!(said.contains(reading) && said.contains(reference), "{said}");
    }
}

const AMBIENT: &str = "ambient temperature";
const HUMIDITY: &str = "relative humidity";

#[test]
fn circuits_answer_within_half_a_bin() {
    let kinds = [valve()];
    let circuits = Reference::with_circuits(&under(&kinds, &[a_day()]), 2).unwrap();
    let near = Conditions {
        ambient: Temperature::from_celsius(30.4),
        humidity: Some(Ratio::from_percent(46.0)),
        air: Pressure::from_kpa(100.5),
        ..a_day()
    };
    assert_eq!(circuits.matches(&under(&kinds, &[near])), Ok(()));
    assert!(diagnose(&under(&kinds, &[near]), &circuits, &Prior::uniform()).is_ok());
}

/// Saturation of R-134a by its equation of state, kPa absolute: what an equalised circuit with liquid shows.
fn saturation(celsius: f64) -> f64 {
    Refrigerant::R134a.saturation_pressure(Temperature::from_celsius(celsius)).unwrap().kpa()
}

/// Before, the temperature given with the pressure was not used: every equalised circuit was simulated at the ambient of the first
/// running reading. A garage of 20 °C on a day of 30 °C made a full circuit look short of charge, and one of 40 °C put air into it.
#[test]
fn an_equalised_pressure_is_judged_at_its_own_temperature() {
    let day = a_day();
    let kinds = [valve()];
    let read = |p: f64, celsius: f64| {
        let rest = equalised(p, Temperature::from_celsius(celsius));
        let read = inspection(&kinds, blank(&day)).and(rest).unwrap();
        asked(&read, &Reference::of(&read).unwrap())
    };
    let (cool, warm) = (saturation(20.0), saturation(40.0));
    let healthy = read(cool, 20.0);
    let air = healthy.marginal_probability(CauseId::Air);
    assert!(air < 0.2 && !healthy.is_faulty(), "air {air}, healthy {}", healthy.healthy());
    // at 30 °C the same pressure is less than saturation: no liquid is left
    let short = read(cool, 30.0);
    let low = |posterior: &Posterior| {
        posterior.marginal_probability(CauseId::Undercharge) + posterior.marginal_probability(CauseId::Empty)
    };
    let (there, here) = (low(&short), low(&healthy));
    assert!(short.is_faulty() && there > 0.85 && here < 0.3, "{there} at 30 °C, {here} at 20 °C");
    let healthy = read(warm, 40.0);
    let air = healthy.marginal_probability(CauseId::Air);
    assert!(air < 0.2 && !healthy.is_faulty(), "air {air}, healthy {}", healthy.healthy());
    // at 30 °C it is a third more than saturation: air, alone or together with a low charge, or else another refrigerant
    let with_air = read(warm, 30.0);
    let marginal = with_air.marginal_probability(CauseId::Air);
    let others = [CauseId::WrongRefrigerant, CauseId::MixedRefrigerant, CauseId::WrongRefrigerantWithAir];
    let other: f64 = others.iter().map(|&cause| probability(&with_air, cause)).sum();
    assert!(with_air.is_faulty() && marginal > 0.75 && marginal + other > 0.95, "{marginal} {other}");
    // circuits that were equalised elsewhere are refused
    let simulated = Reference::with_circuits(&under(&kinds, &[day]), 1).unwrap();
    let rest = inspection(&kinds, blank(&day)).and(equalised(cool, Temperature::from_celsius(20.0))).unwrap();
    let refused = diagnose(&rest, &simulated, &Prior::uniform()).unwrap_err();
    let what = "temperature of the equalised circuit";
    let expected = Error::Mismatch { what, reading: "20.0 °C".to_owned(), reference: "30.0 °C".to_owned() };
    assert_eq!(refused, expected);
}

#[test]
fn a_reference_may_serve_several_threads() {
    // before, nothing said so; the compiler refuses this test where it is not
    fn needs<T: Send + Sync>() {}
    needs::<Reference>();
    let day = a_day();
    let read = under(&[valve()], &[day]);
    let circuits = Reference::with_circuits(&read, 10).unwrap();
    let (one, other) = std::thread::scope(|scope| {
        let ask = || scope.spawn(|| asked(&read, &circuits));
        let (one, other) = (ask(), ask());
        (one.join().unwrap(), other.join().unwrap())
    });
    assert_eq!(one, other);
    assert_eq!(one, asked(&read, &Reference::with_circuits(&read, 10).unwrap()));
}

fn hash(key: &ReferenceKey) -> u64 {
    let mut hasher = DefaultHasher::new();
    key.hash(&mut hasher);
    hasher.finish()
}

/// Before, a reference had no key: a cache had to guess which days are the same.
#[test]
fn equal_conditions_have_equal_keys_that_hash_alike() {
    let day = a_day();
    let kinds = [valve()];
    let key = |read: &Inspection| ReferenceKey::of(read).unwrap();
    let one = key(&under(&kinds, &[day]));
    // other values, instruments and observations are the same circuits
    let read = gauges(blank_within(&day, Refrigerant::R134a, 2.0), kpa(150.0, 20.0), kpa(900.0, 20.0));
    let other = inspection(&kinds, read).found(Observation::Bubbles).unwrap();
    assert_eq!((&key(&other), hash(&key(&other))), (&one, hash(&one)));
    assert_eq!(Reference::of(&other).unwrap().key(), one);
    // the temperature of an equalised circuit that is the ambient is no other condition
    let same = other.clone().and(equalised(770.0, day.ambient)).unwrap();
    assert_eq!(key(&same), one);

    let changed = |change: fn(&mut Conditions)| {
        let mut other = day;
        change(&mut other);
        key(&under(&kinds, &[other]))
    };
    let orifice = kind(CompressorKind::Cycling, ExpansionKind::OrificeTube);
    let others = [
        changed(|c| c.ambient = Temperature::from_celsius(30.1)),
        changed(|c| c.humidity = None),
        changed(|c| c.humidity = Some(Ratio::from_percent(51.0))),
        changed(|c| c.air = Pressure::from_kpa(101.0)),
        changed(|c| c.settings.engine = EngineSpeed::Rpm(1500.0)),
        changed(|c| c.settings.motion = Motion::Driving(50.0)),
        changed(|c| c.settings.motion = Motion::Driving(0.0)),
        changed(|c| c.settings.intake = Intake::Fresh),
        changed(|c| c.settings.blower = Ratio::from_percent(50.0)),
        key(&under(&[orifice], &[day])),
        key(&under(&[valve(), orifice], &[day])),
        key(&under(&kinds, &[day, day])),
        key(&other.and(equalised(570.0, Temperature::from_celsius(20.0))).unwrap()),
        Reference::with_circuits(&under(&kinds, &[day]), 1).unwrap().key(),
    ];
    let mut all = std::collections::HashSet::from([one]);
    for (place, other) in others.into_iter().enumerate() {
        assert!(all.insert(other), "case {place} has the key of another");
    }
}

/// Before, a simulation could be neither watched nor stopped.
#[test]
fn a_watched_simulation_tells_its_progress_and_stops() {
    let read = under(&[valve()], &[a_day()]);
    let mut told = Vec::new();
    let watched = Reference::watched(&read, 10, |progress| {
        told.push(progress);
        ControlFlow::Continue(())
    });
    let total = told[0].total;
    assert!(told.len() > 3 && told[0].done == 0 && total > 0, "{told:?}");
    assert!(told.windows(2).all(|pair| pair[0].done < pair[1].done), "{told:?}");
    assert!(told.iter().all(|progress| progress.total == total && progress.done <= total), "{told:?}");
    assert_eq!(told.last().unwrap().done, total);
    // watching changes nothing
    assert_eq!(asked(&read, &watched.unwrap()), asked(&read, &Reference::with_circuits(&read, 10).unwrap()));

    let mut calls = 0;
    let stopped = Reference::watched(&read, 10, |_| {
        calls += 1;
        if calls < 3 { ControlFlow::Continue(()) } else { ControlFlow::Break(()) }
    });
    assert_eq!((stopped.unwrap_err(), calls), (Error::Stopped { done: told[2].done, total }, 3));
}

/// Before, whoever read a log kept the circuits of a day, and for how long was up to them.
#[test]
fn a_cache_simulates_one_reference_for_each_bin() {
    let kinds = [valve()];
    let mut cache = ReferenceCache::default();
    assert!(cache.is_empty());
    let read = |celsius: f64, percent: f64| {
        let day = Conditions { humidity: Some(Ratio::from_percent(percent)), ..at(celsius) };
        under(&kinds, &[day])
    };
    let first = read(30.0, 50.0);
    let own = cache.get(&first).unwrap().clone();
    for (celsius, percent) in [(29.6, 50.0), (30.4, 46.0), (30.0, 54.0)] {
        let again = read(celsius, percent);
        let circuits = cache.get(&again).unwrap();
        assert_eq!(circuits.key(), own.key(), "{celsius} °C, {percent} %");
        assert!(diagnose(&again, circuits, &Prior::uniform()).is_ok());
        assert_eq!(cache.len(), 1);
    }
    assert_eq!(own.key(), ReferenceKey::of_bin(&first).unwrap());
    // in the middle of a bin its circuits are those of the conditions themselves
    assert_eq!(asked(&first, cache.get(&first).unwrap()), asked(&first, &Reference::of_bin(&first).unwrap()));
    cache.get(&read(31.0, 50.0)).unwrap();
    cache.get(&read(30.0, 60.0)).unwrap();
    assert_eq!(cache.len(), 3);
    cache.get(&read(30.9, 52.0)).unwrap();
    assert_eq!(cache.len(), 3);

    // the temperature of the equalised circuit has bins of its own, 1 K wide, edges included
    let rested = |celsius: f64| {
        let rest = equalised(saturation(celsius), Temperature::from_celsius(celsius));
        inspection(&kinds, blank(&a_day())).and(rest).unwrap()
    };
    let mut cache = ReferenceCache::default();
    for celsius in [19.5, 20.0, 20.4] {
        let read = rested(celsius);
        let circuits = cache.get(&read).unwrap();
        assert!(diagnose(&read, circuits, &Prior::uniform()).is_ok(), "{celsius} °C");
    }
    assert_eq!(cache.len(), 1);
    cache.get(&rested(20.6)).unwrap();
    assert_eq!(cache.len(), 2);
}
