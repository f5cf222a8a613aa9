//! Tests of the report on a hold test.

#![cfg(test)]

use approx::{abs_diff_eq, assert_abs_diff_eq};

use super::*;
use crate::quantity::Time;
use crate::report::words::en::NUMERALS;
use crate::service::standing_vacuum::StandingVacuumTest;
use crate::{PressureDifference, Ratio};

const MICRON: PressureUnit = PressureUnit::Micron;

fn air() -> Measured<Pressure> {
    Measured::exact(Pressure::STANDARD_ATMOSPHERE).unwrap()
}

/// The fit of a rise, read every half minute in whole tens of microns.
fn fitted(minutes: f64, celsius: Option<f64>, microns: impl Fn(f64) -> f64) -> StandingVacuumFit {
    let mut test = StandingVacuumTest::new(air(), PressureDifference::from_microns(10.0)).unwrap();
    for step in 0..=(2.0 * minutes) as u32 {
        let minute = 0.5 * f64::from(step);
        let read = Pressure::from_microns((microns(minute) / 10.0).round() * 10.0);
        test.push(Time::from_minutes(minute), read, celsius.map(Temperature::from_celsius)).unwrap();
    }
    test.with_gauge_limit(Ratio::from_percent(1.0)).unwrap().fit().unwrap()
}

pub(in crate::report) fn leak() -> StandingVacuumFit {
    fitted(7.0, None, |minute| 500.0 + 117.0 * minute)
}

fn moisture() -> StandingVacuumFit {
    fitted(15.0, Some(20.0), |minute| 2000.0 - 1500.0 * (-minute / 3.0).exp())
}

fn setup(litres: Option<f64>) -> VacuumSetup {
    let volume = litres.map(|litres| Measured::exact(Volume::from_l(litres)).unwrap());
    VacuumSetup { volume, refrigerant: Refrigerant::R134a, unit: MICRON }
}

fn row(value: f64, low: f64, high: f64) -> FigureRow<FitFigure> {
    FigureRow::new(FitFigure::Scatter, Interval { value: Some(value), low: Some(low), high: Some(high) }, "u")
}

#[test]
fn a_figure_has_the_digits_that_its_interval_is_worth() {
    for (row, best, span) in [
        (row(120.0, 113.0, 128.0), "120.0 u", "113.0 to 128.0 u"),
        (row(1234.0, 1000.0, 2000.0), "1230 u", "1000 to 2000 u"),
        // an interval of no width is worth what a number alone is
        (row(5.0, 5.0, 5.0), "5.00 u", "5.00 to 5.00 u"),
        (FigureRow::alone(FitFigure::Scatter, 0.0, "u"), "0.0 u", ""),
        (FigureRow::alone(FitFigure::Scatter, 0.037, "u"), "0.0370 u", ""),
        // what rounds to zero has no sign
        (row(-0.3, -10.0, 10.0), "0 u", "-10 to 10 u"),
        (row(-0.03, -1.0, 1.0), "0.0 u", "-1.0 to 1.0 u"),
        (row(-12.0, -30.0, 30.0), "-12 u", "-30 to 30 u"),
    ] {
        assert_eq!((NUMERALS.best(&row).as_str(), NUMERALS.interval(&row).as_str()), (best, span));
    }
    let open = |low, high| FigureRow::new(FitFigure::Scatter, Interval { value: None, low, high }, "u");
    assert_eq!(NUMERALS.best(&open(None, None)), "open");
    assert_eq!(NUMERALS.interval(&open(Some(3.0), None)), "3.0 u or more");
    assert_eq!(NUMERALS.interval(&open(None, Some(3.0))), "3.0 u or less");
    assert_eq!(NUMERALS.interval(&open(None, None)), "open");
    let bare = FigureRow { unit: "".into(), ..row(5.0, 4.0, 6.0) };
    assert_eq!((NUMERALS.best(&bare), NUMERALS.interval(&bare)), ("5.0".to_owned(), "4.0 to 6.0".to_owned()));
    for (value, text) in [(1234.0, "1200"), (5.62, "5.6"), (0.01234, "0.012"), (-98.6, "-99"), (0.0, "0")] {
        assert_eq!(NUMERALS.digits(value), text);
    }
    assert_eq!((NUMERALS.digits(f64::INFINITY), NUMERALS.digits(f64::NAN)), ("inf".to_owned(), "NaN".to_owned()));
}

#[test]
fn a_rate_is_written_in_the_unit_of_the_pressures() {
    for &unit in PressureUnit::ALL {
        let (factor, symbol) = per_minute(unit);
        let own = matches!(
            unit,
            PressureUnit::Micron
                | PressureUnit::Torr
                | PressureUnit::InchOfMercury
                | PressureUnit::Hectopascal
                | PressureUnit::Pascal
                | PressureUnit::Psi
                | PressureUnit::Bar
        );
        let written = if own { unit } else { PressureUnit::Kilopascal };
        assert_eq!(symbol, format!("{}/min", written.symbol()));
        // rounding
        assert!(abs_diff_eq!(60.0 * factor, written.factor(), epsilon = 1e-12 * written.factor()), "{symbol}");
    }
}

fn close(ours: Option<f64>, expected: f64) {
    let ours = ours.unwrap();
    // kept with nine digits
    assert_abs_diff_eq!(ours, expected, epsilon = 1e-8 * expected.abs());
}

fn changed(fit: &StandingVacuumFit, change: impl FnOnce(&mut StandingVacuumFit)) -> StandingVacuumFit {
    let mut fit = fit.clone();
    change(&mut fit);
    fit
}

/// Names of the figures that go with a finding.
fn named(finding: VacuumFinding, fit: &StandingVacuumFit, litres: Option<f64>) -> Vec<FitFigure> {
    let fit = changed(fit, |fit| fit.finding = finding);
    figures(&fit, &setup(litres)).unwrap().iter().map(|row| row.quantity).collect()
}

#[test]
fn the_figures_are_those_that_the_finding_has() {
    let (leak, moisture) = (leak(), moisture());
    assert_eq!((leak.finding, moisture.finding), (VacuumFinding::Leak, VacuumFinding::Moisture));
    let rows = figures(&leak, &setup(Some(2.5))).unwrap();
    let find = |of: FitFigure| rows.iter().find(|row| row.quantity == of);
    let rate = find(FitFigure::StraightRise).unwrap();
    close(rate.interval.value, leak.rate.value.unwrap().microns_per_minute());
    // what the log was made with, in steps of 10 micron
    assert_abs_diff_eq!(rate.interval.value.unwrap(), 117.0, epsilon = 2.0);
    assert!(rate.unit == "micron/min");
    let smallest = find(FitFigure::SmallestRise).unwrap();
    close(smallest.interval.value, leak.smallest_seen.unwrap().microns_per_minute());
    let scatter = find(FitFigure::Scatter).unwrap();
    close(scatter.interval.value, leak.scatter.value_in(MICRON));
    assert!(scatter.alone && smallest.alone && !rate.alone);
    let flow = find(FitFigure::Throughput).unwrap().interval.value;
    close(flow, 2.5 * leak.rate.value.unwrap().pa_per_s());
    let lost = refrigerant_in(Throughput::from_pa_l_per_s(flow.unwrap()), Refrigerant::R134a, ROOM).unwrap();
    close(find(FitFigure::Refrigerant).unwrap().interval.value, lost.g_per_year());

    use FitFigure::{Bend, Refrigerant as OfRefrigerant, StraightRiseBeside};
    let has = |names: &[FitFigure], of| names.contains(&of);
    let none = named(VacuumFinding::NoRise, &leak, Some(2.5));
    assert!(!has(&none, Bend) && !has(&none, FitFigure::Throughput), "{none:?}");
    let one = named(VacuumFinding::Leak, &leak, None);
    assert!(has(&one, Bend) && !has(&one, FitFigure::Throughput) && !has(&one, OfRefrigerant), "{one:?}");
    let wet = named(VacuumFinding::Moisture, &moisture, Some(2.5));
    assert!(has(&wet, FitFigure::FinalPressure) && has(&wet, FitFigure::TimeConstant) && has(&wet, StraightRiseBeside));
    assert!(!has(&wet, FitFigure::Throughput));
    let both = named(VacuumFinding::LeakAndMoisture, &moisture, Some(2.5));
    assert!(has(&both, StraightRiseBeside) && has(&both, FitFigure::Throughput) && has(&both, OfRefrigerant));
    assert!(!has(&named(VacuumFinding::CannotTell, &moisture, None), StraightRiseBeside));
    let end =
        figures(&moisture, &setup(None)).unwrap().into_iter().find(|row| row.quantity == FitFigure::FinalPressure);
    close(end.unwrap().interval.value, moisture.levels_at().unwrap().value.unwrap().microns());
}

#[test]
fn a_limit_is_stated_with_what_was_seen() {
    let rows: Vec<AcceptanceRow> = ACCEPTANCE_LIMITS
        .iter()
        .map(|limit| acceptance_row(&AcceptanceLimit::judge(limit, &leak()).unwrap(), MICRON))
        .collect();
    for (row, limit) in rows.iter().zip(&ACCEPTANCE_LIMITS) {
        let name = crate::report::words::en::hold::limit(&row.limit);
        assert_eq!((&*name, row.source.clone()), (limit.value.name, limit.source.to_string()));
    }
    let [rise, _, level] = &rows[..] else { panic!("{rows:?}") };
    assert_eq!((rise.outcome, level.outcome), (AcceptanceOutcome::Passes, AcceptanceOutcome::Fails));
    let (of_rise, of_level) = (rise.seen.as_ref().unwrap(), level.seen.as_ref().unwrap());
    assert_eq!((of_rise.quantity, of_level.quantity, &*of_rise.unit), (Observed::Rise, Observed::Pressure, "micron"));
    // 117 micron for five minutes, to a hundredth: our choice
    assert!(abs_diff_eq!(of_rise.interval.value.unwrap(), 585.0, epsilon = 6.0), "{of_rise:?}");
    assert_eq!((rise.over.to_string(), level.over.to_string()), ("5.0 min".to_owned(), "7.0 min".to_owned()));
    let short = fitted(3.0, None, |minute| 500.0 + 117.0 * minute);
    let short = acceptance_row(&AcceptanceLimit::judge(&ACCEPTANCE_LIMITS[1], &short).unwrap(), MICRON);
    assert_eq!((short.outcome, short.seen, short.over.value), (AcceptanceOutcome::TooShort, None, 3.0));
}

#[test]
fn what_a_rise_means_depends_on_fit_and_volume() {
    use HoldStatement::{BesideWater as Water, Finding, LeakAtMost, NoVolume, VarianceInflation};
    let said = |fit: &StandingVacuumFit, litres| meaning(fit, &setup(litres)).unwrap();
    let plain = changed(&leak(), |fit| fit.variance_inflation = 1.5);
    let [Finding { finding: VacuumFinding::Leak }, LeakAtMost { rate, flow: Some(flow), beside: false }] =
        &said(&plain, Some(2.5))[..]
    else {
        panic!("a leak is not told as one")
    };
    let most = plain.rate.high.unwrap();
    close(rate.interval.value, most.microns_per_minute());
    close(Some(flow.throughput_pa_l_per_s), 2.5 * most.pa_per_s());
    assert_eq!(flow.refrigerant, Refrigerant::R134a);
    let correlated = changed(&plain, |fit| fit.variance_inflation = 1.51);
    let words = said(&correlated, None);
    assert!(matches!(
        &words[..],
        [Finding { .. }, LeakAtMost { flow: None, .. }, VarianceInflation { readings: 1.51 }, NoVolume]
    ));
    let still = changed(&plain, |fit| fit.rate.high = Some(PressureRate::from_pa_per_s(0.0)));
    assert!(matches!(said(&still, Some(2.5))[..], [Finding { .. }]));
    let wet = changed(&moisture(), |fit| fit.variance_inflation = 1.0);
    let words = said(&wet, Some(2.5));
    assert!(matches!(words[..2], [Finding { finding: VacuumFinding::Moisture }, Water { beside: BesideWater::Below }]));
    assert!(words[2..].iter().all(|word| matches!(word, LeakAtMost { beside: true, .. })));
    assert!(!matches!(words[1], NoVolume));
}

#[test]
fn passing_proves_no_more_than_the_limits_that_were_kept() {
    use HoldStatement::{LetsThrough, NoProof, SmallestRise};
    let proven = |fit: &StandingVacuumFit, litres| {
        let judged: Vec<_> =
            ACCEPTANCE_LIMITS.iter().map(|limit| AcceptanceLimit::judge(limit, fit).unwrap()).collect();
        proof(fit, &judged, &setup(litres)).unwrap()
    };
    let leak = leak();
    let words = proven(&leak, Some(2.5));
    let [SmallestRise { rate, flow: Some(_) }, LetsThrough { limit, times, scale }, LetsThrough { .. }, NoProof] =
        &words[..]
    else {
        panic!("two limits were kept")
    };
    close(rate.interval.value, leak.smallest_seen.unwrap().microns_per_minute());
    assert_eq!((limit, scale.value), (&limit_row(&ACCEPTANCE_LIMITS[0].value), 14.0));
    assert!(*times > 2000.0, "{times}");
    assert!(matches!(proven(&leak, None)[..], [SmallestRise { flow: None, .. }, NoProof]));
    assert!(matches!(proven(&moisture(), None)[..], [NoProof]));
}

#[test]
fn each_finding_has_its_next_steps_and_its_sources() {
    use HoldNext::{
        CheckWithCharge, EvacuateAgain, FindUnderPressure, HoldHosesAlone, HoldLonger, NewDrier, ReadTemperature,
        RepairThenDry, RepeatWithTemperature, StartAgain,
    };
    let base = moisture();
    for (finding, steps) in [
        (VacuumFinding::NoRise, &[CheckWithCharge][..]),
        (VacuumFinding::Falling, &[StartAgain]),
        (VacuumFinding::Leak, &[HoldHosesAlone, FindUnderPressure]),
        (VacuumFinding::OpenToAir, &[HoldHosesAlone, FindUnderPressure]),
        (VacuumFinding::Moisture, &[EvacuateAgain, NewDrier]),
        (VacuumFinding::LeakAndMoisture, &[RepairThenDry]),
        (VacuumFinding::SpeedsUp, &[RepeatWithTemperature]),
        (VacuumFinding::CannotTell, &[HoldLonger]),
    ] {
        let fit = changed(&base, |fit| fit.finding = finding);
        assert_eq!(next(&fit), steps);
        let blind = changed(&fit, |fit| fit.temperature = None);
        assert_eq!(next(&blind), [steps, &[ReadTemperature]].concat());
        let sources = sources(&fit);
        let water = matches!(finding, VacuumFinding::Moisture | VacuumFinding::LeakAndMoisture);
        let chokes = finding == VacuumFinding::OpenToAir;
        assert_eq!(sources.contains(&air::water::LIQUID.to_string()), water, "{finding:?}");
        assert_eq!(sources.contains(&CHOKED.source.to_string()), chokes, "{finding:?}");
        assert!(ACCEPTANCE_LIMITS.iter().all(|limit| sources.contains(&limit.source.to_string())));
        assert!(sources.contains(&DETECTOR_SCALES.source.to_string()));
        assert_eq!(sources.len(), 4 + usize::from(water) + usize::from(chokes), "{sources:?}");
    }
}

#[test]
fn the_report_on_a_test_has_all_of_it() {
    let volume = |litres| Some(Measured::exact(Volume::from_l(litres)).unwrap());
    let report = hold(&leak(), &air(), Refrigerant::R134a, volume(2.5), MICRON).unwrap();
    assert_eq!((&*report.schema, report.finding), (HOLD_SCHEMA, VacuumFinding::Leak));
    let lengths = [report.meaning.len(), report.proof.len(), report.next.len(), report.sources.len()];
    assert!(!lengths.contains(&0), "{lengths:?}");
    assert_eq!(report.cautions, HoldCaution::ALL);
    assert_eq!((report.gates.len(), report.figures.len()), (3, 8));
    assert!(hold(&leak(), &air(), Refrigerant::R134a, volume(0.0), MICRON).is_err());
}
