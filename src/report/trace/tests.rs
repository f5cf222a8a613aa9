//! Tests of the report on a log.

#![cfg(test)]

use super::*;
use crate::PressureDifference;
use crate::report::words::en::NUMERALS;

const UNITS: DisplayUnits =
    DisplayUnits { low: PressureUnit::Psi, high: PressureUnit::Bar, temperature: TemperatureUnit::Fahrenheit };

fn rows(units: &DisplayUnits) -> Rows<'_> {
    Rows { start: seconds(0.0), units }
}

/// The sentence of a row in English.
fn sentence(row: &TraceRow) -> String {
    Language::English.trace_words().message(&row.message(Language::English))
}

fn seconds(seconds: f64) -> Time {
    Time::from_seconds(seconds)
}

fn between<Q>(low: Q, value: Q, high: Q) -> Interval<Q> {
    Interval { value: Some(value), low: Some(low), high: Some(high) }
}

/// A trend of this mean, known within ± `half` and changing by `step` a minute.
fn trend<Q: Quantity>(mean: Q, half: f64, step: f64, drifts: bool) -> Trend<Q> {
    let (low, high) = (Q::from_si(mean.si() - half), Q::from_si(mean.si() + half));
    let by = |off: f64| Q::Difference::from_si(step + off * step.abs());
    Trend {
        mean: between(low, mean, high),
        end: between(low, mean, high),
        standard_deviation: Q::Difference::from_si(half),
        per_minute: between(by(-0.6), by(0.0), by(0.6)),
        drifts,
        variance_inflation: 1.0,
    }
}

fn period(kind: SteadyKind) -> SteadyPeriod {
    let line = |celsius, step| Some(trend(Temperature::from_celsius(celsius), 0.5, step, false));
    SteadyPeriod {
        from: seconds(100.0),
        to: seconds(220.0),
        readings: 61,
        kind,
        low: trend(GaugePressure::from_psi(30.0), 1000.0, 6894.757, true),
        high: trend(GaugePressure::from_bar(12.0), 1.5e4, -2e4, true),
        suction_line: line(10.0, 5.0),
        liquid_line: line(45.0, 0.1),
        vent: line(7.0, 0.1),
        ambient: line(30.0, 0.1),
        humidity: Some(trend(Ratio::from_percent(50.0), 0.02, 0.01, false)),
    }
}

fn row(finding: &TraceFinding) -> TraceRow {
    trace_row(finding, seconds(40.0), &UNITS)
}

fn steady(kind: SteadyKind) -> TraceRow {
    row(&TraceFinding::Steady(Box::new(period(kind))))
}

fn name(row: &FigureRow<LogFigure>) -> String {
    Language::English.trace_words().figure(row.quantity).to_owned()
}

#[test]
fn times_are_written_in_hours_minutes_and_seconds() {
    for (time, text) in [
        (0.0, "0:00:00"),
        (59.4, "0:00:59"),
        (59.6, "0:01:00"),
        (3725.0, "1:02:05"),
        (360_000.0, "100:00:00"),
        (-90.0, "-0:01:30"),
        (-0.4, "0:00:00"),
        (-0.5, "0:00:01"),
        (-0.6, "-0:00:01"),
    ] {
        assert_eq!(clock(seconds(time)), text);
    }
}

#[test]
fn a_gap_and_a_reset_have_their_length() {
    let gap = row(&TraceFinding::Gap { from: seconds(100.0), to: seconds(400.0) });
    assert_eq!((gap.finding, gap.from_s, gap.to_s, gap.count), (TraceKind::Gap, 100.0, 400.0, 0));
    assert_eq!((sentence(&gap).as_str(), gap.since_first_s), ("no readings for 0:05:00", [60.0, 360.0]));
    assert_eq!(gap.text(40), "  0:01:00 to 0:06:00  no readings for\n  0:05:00\n");
    let reset = row(&TraceFinding::ClockReset { from: seconds(400.0), to: seconds(100.0) });
    assert_eq!((reset.finding, reset.since_first_s), (TraceKind::ClockReset, [360.0, 60.0]));
    assert!(sentence(&reset).starts_with("times jump back by 0:05:00"), "{}", sentence(&reset));
    assert_eq!(reset.schema, TRACE_SCHEMA);
}

#[test]
fn a_steady_period_has_the_trend_of_each_quantity() {
    let kinds = [
        (SteadyKind::Steady, TraceKind::Steady),
        (SteadyKind::Drifting, TraceKind::Drifting),
        (SteadyKind::Equalised, TraceKind::Equalised),
        (SteadyKind::EqualisedVacuum, TraceKind::EqualisedVacuum),
        (SteadyKind::FastSwitching, TraceKind::FastSwitching),
    ];
    for (kind, finding) in kinds {
        let row = steady(kind);
        assert_eq!((row.finding, row.count, row.figures.len(), row.trends.len()), (finding, 61, 0, 7));
        // the direction is said of what is called drifting alone
        assert_eq!(sentence(&row).contains("drifts up"), kind == SteadyKind::Drifting, "{}", sentence(&row));
    }
    let drifting = sentence(&steady(SteadyKind::Drifting));
    assert_eq!(drifting, "low side drifts up, high side drifts down; 61 readings");
    let told: Vec<[String; 4]> = steady(SteadyKind::Steady)
        .trends
        .iter()
        .map(|row| {
            [
                Language::English.trace_words().quantity(row.mean.quantity).to_owned(),
                NUMERALS.best(&row.mean),
                NUMERALS.best(&row.standard_deviation),
                NUMERALS.best(&row.per_minute),
            ]
        })
        .collect();
    assert_eq!(
        told,
        [
            ["low side", "30.00 psi", "0.145 psi", "1.00 psi/min"],
            ["high side", "12.00 bar", "0.150 bar", "-0.20 bar/min"],
            ["suction line", "50.00 °F", "0.900 °F", "9.0 °F/min"],
            ["liquid line", "113.00 °F", "0.900 °F", "0.18 °F/min"],
            ["vent", "44.60 °F", "0.900 °F", "0.18 °F/min"],
            ["ambient", "86.00 °F", "0.900 °F", "0.18 °F/min"],
            ["humidity", "50.0 %", "2.00 %", "1.00 %/min"],
        ]
    );
    let metric = DisplayUnits { temperature: TemperatureUnit::Celsius, low: PressureUnit::Megapascal, ..UNITS };
    let trends = rows(&metric).trend_rows(&period(SteadyKind::Steady));
    // a rate that has no unit of its own is in kPa
    assert_eq!(
        (NUMERALS.best(&trends[0].per_minute), NUMERALS.best(&trends[2].per_minute)),
        ("6.9 kPa/min".to_owned(), "5.0 K/min".to_owned())
    );
    let bare = SteadyPeriod { suction_line: None, humidity: None, ..period(SteadyKind::Steady) };
    assert_eq!(rows(&UNITS).trend_rows(&bare).len(), 5);
    let text = steady(SteadyKind::Drifting).text(100);
    assert_eq!(text.matches("drifts by").count(), 2, "{text}");
    assert_eq!(text.matches("scatter 0.900 °F").count(), 4, "{text}");
    assert!(text.starts_with("  0:01:00 to 0:03:00  low side drifts up"), "{text}");
}

#[test]
fn cycling_has_its_figures() {
    let psi = GaugePressure::from_psi;
    let cycling = Cycling {
        from: seconds(100.0),
        to: seconds(220.0),
        cycles: 5,
        period: between(seconds(18.0), seconds(20.0), seconds(22.0)),
        period_deviation: seconds(1.25),
        clutch_duty_cycle: between(Ratio::from_percent(40.0), Ratio::from_percent(45.0), Ratio::from_percent(50.0)),
        cut_out: between(psi(20.0), psi(22.0), psi(24.0)),
        cut_in: between(psi(40.0), psi(42.0), psi(44.0)),
        high_side: psi(170.0),
        high_side_range: PressureDifference::from_bar(3.0),
        readings_per_cycle: 12.34,
    };
    let row_of = |cycling: &Cycling| row(&TraceFinding::Cycling(*cycling));
    let even = row_of(&cycling);
    assert_eq!((even.finding, even.count, even.trends.len()), (TraceKind::Cycling, 5, 0));
    assert_eq!(sentence(&even), "the clutch cycles: 5 full cycles");
    let told: Vec<[String; 2]> = even.figures.iter().map(|row| [name(row), NUMERALS.best(row)]).collect();
    assert_eq!(
        told,
        [
            ["period", "20.0 s"],
            ["clutch duty cycle", "45.0 %"],
            ["low side at cut-out", "22.0 psi"],
            ["low side at cut-in", "42.0 psi"],
            ["high side cycling range", "3.00 bar"],
        ]
    );
    let text = even.text(80);
    assert!(text.lines().count() == 6 && text.contains("20.0 to 24.0 psi"), "{text}");
    let coarse = row_of(&Cycling { readings_per_cycle: 4.21, ..cycling });
    assert!(sentence(&coarse).contains("4.2 readings in a cycle"), "{}", sentence(&coarse));
    let uneven = row_of(&Cycling { period_deviation: seconds(7.53), ..cycling });
    assert!(sentence(&uneven).contains("vary by 7.5 s"), "{}", sentence(&uneven));
}

#[test]
fn a_transient_has_both_ends_and_the_swings_that_are_no_cycles() {
    let transient = |mirrored_flanks| {
        row(&TraceFinding::Transient {
            from: seconds(100.0),
            to: seconds(220.0),
            low_at_start: GaugePressure::from_psi(60.0),
            low_at_end: GaugePressure::from_psi(30.0),
            high_at_start: GaugePressure::from_bar(5.0),
            high_at_end: GaugePressure::from_bar(12.0),
            mirrored_flanks,
        })
    };
    for (flanks, said) in [(0, false), (1, false), (2, true), (3, true)] {
        let row = transient(flanks);
        assert_eq!((row.finding, row.count), (TraceKind::Transient, flanks as u64));
        let text = sentence(&row);
        assert_eq!(text.contains(&format!("swung {flanks} times")), said, "{text}");
        assert!(text.starts_with("changing: low 60.0 to 30.0 psi, high 5.00 to 12.00 bar"), "{text}");
    }
    let row = transient(0);
    let told: Vec<[String; 2]> = row.figures.iter().map(|row| [name(row), NUMERALS.best(row)]).collect();
    assert_eq!(
        told,
        [
            ["low side at start", "60.0 psi"],
            ["low side at end", "30.0 psi"],
            ["high side at start", "5.00 bar"],
            ["high side at end", "12.0 bar"],
        ]
    );
    // the sentence states them
    assert_eq!(row.text(200).lines().count(), 1);
}

#[test]
fn the_opening_has_the_uncertainty_of_the_gauges() {
    let instruments = Instruments::analogue(Refrigerant::R134a);
    let page = trace_opening(Refrigerant::R134a, &instruments, &UNITS).unwrap();
    assert!(page.title.contains("R-134a") && page.answer.is_empty() && page.sections.is_empty());
    let zero = GaugePressure::from_bar(0.0);
    let (low, high) = (instruments.low.read(zero).unwrap(), instruments.high.read(zero).unwrap());
    let standard = NUMERALS.digits(low.standard_uncertainty().psi());
    assert!(page.opening[1].contains(&format!("{standard} psi (low)")), "{:?}", page.opening);
    assert!(page.opening[1].contains(&format!("{} bar (high)", NUMERALS.digits(high.standard_uncertainty().bar()))));
    assert!(page.opening[2].contains(&format!("{} psi (low)", NUMERALS.digits(low.expanded().psi()))));
    assert!(page.opening[2].contains(&format!("{} bar (high)", NUMERALS.digits(high.expanded().bar()))));
}

/// Every finding of these tests as text, in English and in another language.
pub(in crate::report) fn told_in(language: Language) -> Vec<String> {
    let psi = GaugePressure::from_psi;
    let kinds = [
        SteadyKind::Steady,
        SteadyKind::Drifting,
        SteadyKind::Equalised,
        SteadyKind::EqualisedVacuum,
        SteadyKind::FastSwitching,
    ];
    let mut findings: Vec<TraceFinding> =
        kinds.map(|kind| TraceFinding::Steady(Box::new(period(kind)))).into_iter().collect();
    for (readings_per_cycle, deviation) in [(12.34, 1.25), (4.21, 1.25), (12.34, 7.53)] {
        findings.push(TraceFinding::Cycling(Cycling {
            from: seconds(100.0),
            to: seconds(220.0),
            cycles: 5,
            period: between(seconds(18.0), seconds(20.0), seconds(22.0)),
            period_deviation: seconds(deviation),
            clutch_duty_cycle: between(Ratio::from_percent(40.0), Ratio::from_percent(45.0), Ratio::from_percent(50.0)),
            cut_out: between(psi(20.0), psi(22.0), psi(24.0)),
            cut_in: between(psi(40.0), psi(42.0), psi(44.0)),
            high_side: psi(170.0),
            high_side_range: PressureDifference::from_bar(3.0),
            readings_per_cycle,
        }));
    }
    for mirrored_flanks in [0, 3] {
        findings.push(TraceFinding::Transient {
            from: seconds(100.0),
            to: seconds(220.0),
            low_at_start: psi(60.0),
            low_at_end: psi(30.0),
            high_at_start: GaugePressure::from_bar(5.0),
            high_at_end: GaugePressure::from_bar(12.0),
            mirrored_flanks,
        });
    }
    findings.push(TraceFinding::Gap { from: seconds(100.0), to: seconds(400.0) });
    findings.push(TraceFinding::ClockReset { from: seconds(400.0), to: seconds(100.0) });
    // wide enough for every row to stand on a line
    let text = |finding| trace_text(finding, seconds(40.0), &UNITS, 400, language);
    findings.iter().flat_map(|finding| text(finding).lines().map(str::to_owned).collect::<Vec<_>>()).collect()
}
