//! Tests of the report on a job.

#![cfg(test)]

use approx::{abs_diff_eq, assert_abs_diff_eq};

use super::*;
use crate::quantity::{PressureUnit, TemperatureUnit};
use crate::report::job_steps::tests::job as a_job;
use crate::{Ratio, Trust};

const UNITS: DisplayUnits =
    DisplayUnits { low: PressureUnit::Psi, high: PressureUnit::Bar, temperature: TemperatureUnit::Fahrenheit };

fn said(job: &Job) -> JobReport {
    let charts = ChartSet::new(job.refrigerant).unwrap();
    super::job(job, &charts, None, &UNITS).unwrap()
}

fn of(refrigerant: Refrigerant, celsius: Option<f64>) -> Job {
    Job { refrigerant, ambient: celsius.map(Temperature::from_celsius), oil_kind: None, ..a_job() }
}

#[test]
fn a_figure_of_one_number_is_one_number() {
    let figure =
        |low, high, decimals| StepFigure { span: Span::new(low, high, "g", decimals), standing: Standing::Label };
    assert_eq!(figure(549.7, 550.4, 0).to_string(), "550 g");
    assert_eq!(figure(549.7, 550.4, 1).to_string(), "549.7 to 550.4 g");
}

#[test]
fn a_source_keeps_its_number() {
    let source = |work| Source { work, locator: "", doi: None, trust: Trust::Reasoned };
    let mut sources = Vec::new();
    let numbers = ["a", "b", "a", "c", "b"].map(|work| number(&mut sources, source(work)));
    assert_eq!((numbers, sources.len()), ([1, 2, 1, 3, 2], 3));
}

#[test]
fn steps_are_numbered_and_rest_on_the_sources_listed() {
    let report = said(&of(Refrigerant::R134a, Some(30.0)));
    assert_eq!((&*report.schema, report.refrigerant), (JOB_SCHEMA, Refrigerant::R134a));
    let numbers: Vec<usize> = report.steps.iter().map(|step| step.number).collect();
    assert_eq!(numbers, (1..=report.steps.len()).collect::<Vec<_>>());
    for step in &report.steps {
        assert!(step.basis.is_sorted_by(|a, b| a < b), "{:?}", step.basis);
        assert!(step.basis.iter().all(|&number| (1..=report.sources.len()).contains(&number)));
    }
    let used: std::collections::BTreeSet<usize> = report.steps.iter().flat_map(|step| step.basis.clone()).collect();
    assert_eq!(used.len(), report.sources.len());
    assert!(report.steps.iter().any(|step| !step.cautions.is_empty()));
    assert!(!report.questions.is_empty() && !report.measure.is_empty() && !report.cautions.is_empty());
    assert!(!report.sources.is_empty() && report.sources.iter().all(|text| !text.is_empty()));
}

#[test]
fn the_windows_are_those_of_the_day_and_the_refrigerant() {
    use WindowNote::{Below, CarriedOver, NoAmbient, NoneCovers};
    for (job, names, note) in [
        (of(Refrigerant::R134a, None), "", NoAmbient),
        (of(Refrigerant::R290, Some(30.0)), "", NoneCovers),
        (
            of(Refrigerant::R134a, Some(30.0)),
            "LowSide, HighSide, Vent, Superheat, Subcooling, CondensingOverAmbient",
            Below,
        ),
        (
            of(Refrigerant::R1234yf, Some(30.0)),
            "LowSide, HighSide, Vent, Superheat, Subcooling, CondensingOverAmbient",
            CarriedOver,
        ),
    ] {
        let report = said(&job);
        let found: Vec<String> = report.windows.iter().map(|row| format!("{:?}", row.quantity)).collect();
        assert_eq!(found.join(", "), names, "{}", report.refrigerant);
        assert_eq!(report.steps.last().unwrap().task, StepTask::Read { windows: note });
        for row in &report.windows {
            let unit = match row.quantity {
                WindowName::LowSide => "psi",
                WindowName::HighSide => "bar",
                _ => continue,
            };
            assert_eq!(row.window.unit, unit);
            let derived = matches!(row.basis, WindowGround::Charts { carried_over, .. } if carried_over > 0);
            assert_eq!(derived, note == CarriedOver, "{row:?}");
        }
    }
    let report = said(&of(Refrigerant::R134a, Some(30.0)));
    let row = |name| report.windows.iter().find(|row| row.quantity == name).unwrap();
    assert_eq!(row(WindowName::Vent).window.unit, "°F");
    let superheat = SUPERHEAT.value.low.value_in(TemperatureUnit::Fahrenheit.step());
    // kept with nine digits
    assert_abs_diff_eq!(row(WindowName::Superheat).window.low, superheat, epsilon = 1e-8);
    assert!(row(WindowName::LowSide).window.low < 40.0 && row(WindowName::HighSide).window.high > 10.0);
}

#[test]
fn noise_is_listened_for_after_a_new_compressor_on_a_belt() {
    use Measurement::{Equalised, EqualisedCarbonDioxide, Lines, Noise, OilAfterAWeek, Running};
    let of = |job: Job| measure(&job.sheet().unwrap());
    assert_eq!(of(a_job()), [Equalised, Running, Lines, Noise, OilAfterAWeek]);
    assert_eq!(of(Job { compressor: None, ..a_job() }), [Equalised, Running, Lines, OilAfterAWeek]);
    let electric = Job { drive: CompressorDrive::Electric, ..a_job() };
    assert_eq!(of(electric), [Equalised, Running, Lines, OilAfterAWeek]);
    let dioxide = Job { refrigerant: Refrigerant::R744, ..a_job() };
    assert_eq!(of(dioxide)[0], EqualisedCarbonDioxide);
}

#[test]
fn a_computed_window_goes_before_the_printed_ones() {
    let job = Job { humidity: Some(Ratio::from_percent(50.0)), ..of(Refrigerant::R134a, Some(30.0)) };
    let day = Conditions {
        ambient: Temperature::from_celsius(30.0),
        humidity: job.humidity,
        air: job.sheet().unwrap().air.value(),
        settings: Settings::TEST,
    };
    let kind = crate::circuit::CircuitKind::main(Refrigerant::R134a)[0];
    let healthy = ExpectedWindow::for_day(&kind, &day).unwrap();
    let charts = ChartSet::new(Refrigerant::R134a).unwrap();
    let with = super::job(&job, &charts, Some(&healthy), &UNITS).unwrap();
    let printed = said(&job).windows;
    let (computed, rest) = with.windows.split_at(with.windows.len() - printed.len());
    assert_eq!(rest, printed);
    use WindowName::{CondensingOverAmbient, HighSide, LowSide, Subcooling, Superheat, Vent};
    let names: Vec<WindowName> = computed.iter().map(|row| row.quantity).collect();
    assert_eq!(names, [LowSide, HighSide, Superheat, Subcooling, CondensingOverAmbient, Vent]);
    for row in computed {
        assert_eq!(row.basis, WindowGround::Circuits { circuits: healthy.circuits() });
        assert!(row.window.low < row.window.high, "{row:?}");
    }
    let step = TemperatureUnit::Fahrenheit.step();
    let expected = healthy.superheat.range().low.value_in(step);
    // kept with four digits
    assert!(abs_diff_eq!(computed[2].window.low, expected, epsilon = 1e-3 * expected.abs()), "{computed:?}");
}

#[test]
fn rules_of_thumb_are_common_practice() {
    for habit in [SUPERHEAT, SUBCOOLING, CONDENSING_OVER_AMBIENT] {
        assert_eq!(habit.source, Source::COMMON_PRACTICE);
    }
}
