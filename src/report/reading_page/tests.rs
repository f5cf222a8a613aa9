//! Tests of the page about a reading.

#![cfg(test)]

use super::*;
use crate::Refrigerant;
use crate::circuit::CircuitKind;
use crate::diagnosis::{CauseId, Headline, JudgedQuantity, LeadingGroup, NextStep, Stop, UnitQuestion};
use crate::expected::{EqualisedVerdict, Side};
use crate::quantity::Position;
use crate::report::Caution;
use crate::report::causes::PriorName;
use crate::report::healthy::tests::of_rows;
use crate::report::words::en::tests::report;
use crate::report::{CauseRow, Causes, EqualisedRow, Healthy, HealthyRow, NextRow, Span, Statement, WindowBasis};

fn psi(value: f64) -> Amount {
    Amount::new(value, Some(2.0), "psi", 0)
}

fn verdict(position: Position) -> VerdictCell {
    VerdictCell { position, probability: Some(0.97) }
}

fn healthy(rows: usize) -> Healthy {
    let row = HealthyRow {
        quantity: JudgedQuantity::Measured(Measurand::LowSide),
        value: psi(30.0),
        window: Span::new(24.0, 36.0, "psi", 0),
        median: 30.0,
        fraction_below: 0.5,
        verdict: verdict(Position::Within),
    };
    let kinds = CircuitKind::main(Refrigerant::R134a);
    of_rows(kinds, vec![row; rows])
}

/// A report in which air in the circuit leads, with two measurements to make.
fn explained() -> Report {
    let mut report = report();
    let cause = CauseRow {
        id: CauseId::Air,
        probability: 0.6,
        detectable_fraction: 1.0,
        hidden_probability: 0.0,
        marginal_probability: 0.6,
        indistinguishable_from: Vec::new(),
        size: None,
        predicted: Vec::new(),
        observation_bayes_factor: 1.0,
        in_print: Vec::new(),
    };
    let next = |measurand: Measurand| NextRow {
        measurand,
        effort: measurand.effort(),
        information_bits: 0.5,
        outcomes: Vec::new(),
    };
    let next = [Measurand::Vent, Measurand::LiquidLine].map(next).to_vec();
    report.causes = Some(Causes {
        circuits: 1000,
        prior: PriorName::Uniform,
        faulty: true,
        outside_model: false,
        causes: vec![cause],
        next,
    });
    report.advice.leading = vec![LeadingGroup {
        causes: vec![CauseId::Air],
        probability: 0.6,
        supporting: Vec::new(),
        contradicting: Vec::new(),
    }];
    report.advice.next = vec![
        NextStep::Remedy { cause: CauseId::Air },
        NextStep::Measure { measurand: Measurand::Vent },
        NextStep::Measure { measurand: Measurand::LiquidLine },
        NextStep::Humidity,
        NextStep::Ambient,
        NextStep::ReadRunning,
    ];
    report
}

fn names(page: &Page) -> Vec<&str> {
    page.sections.iter().map(|section| section.name).collect()
}

fn blocks<'a>(page: &'a Page, name: &str) -> &'a [Block] {
    let named = page.sections.iter().find(|section| section.name == name);
    &named.unwrap_or_else(|| panic!("no section {name} among {:?}", names(page))).blocks
}

fn table<'a>(page: &'a Page, name: &str) -> &'a Table {
    let find = |block: &'a Block| if let Block::Table(table) = block { Some(table) } else { None };
    blocks(page, name).iter().find_map(find).unwrap()
}

fn list<'a>(page: &'a Page, name: &str) -> &'a [String] {
    let [Block::List(_, sentences)] = blocks(page, name) else { panic!("{name} is no list") };
    sentences
}

fn texts(row: &[Cell]) -> Vec<&str> {
    row.iter().map(|cell| cell.text.as_str()).collect()
}

#[test]
fn a_page_compares_with_print_where_it_names_no_cause() {
    let mut plain = report();
    let page = plain.page();
    assert_eq!(names(&page), ["next", "pressures", "print", "meaning", "safety", "sources"]);
    assert_eq!(page.title, "R-134a, compressor running");
    assert!(page.opening.last().unwrap().starts_with("± is the 95 %"), "{:?}", page.opening);
    assert_eq!(table(&page, "print").head, ["", "read", "window", "result"]);
    assert!(texts(&table(&page, "print").rows[0]).contains(&"no window known"));
    plain.healthy = Some(healthy(0));
    assert!(!names(&plain.page()).contains(&"healthy"));
    plain.questions = vec![UnitQuestion::VacuumSign { entered: "5 inHg".to_owned() }];
    assert!(matches!(blocks(&plain.page(), "questions"), [Block::List(ListMark::Question, asked)] if asked.len() == 1));
    let tones: Vec<Tone> = page.sections[4..].iter().map(|section| section.tone).collect();
    assert_eq!(tones, [Tone::Caution, Tone::Fine]);
}

#[test]
fn a_page_that_names_causes_leaves_print_to_the_end() {
    let mut report = explained();
    report.healthy = Some(healthy(1));
    let page = report.page();
    assert_eq!(names(&page), ["next", "pressures", "healthy", "causes", "safety", "print", "meaning", "sources"]);
    let row = &table(&page, "healthy").rows[0];
    assert_eq!(texts(row), ["low side", "30 ± 2 psi", "24 to 36 psi", "within (97 %)"]);
    assert_eq!((row[3].position, row[0].position), (Some(Position::Within), None));
    assert!(matches!(&blocks(&page, "healthy")[0], Block::Words(behind) if behind.contains("256 simulated circuits")));
    assert!(list(&page, "causes")[0].starts_with("60 %: air in the circuit"));
    assert_eq!(report.text(80), report.page().text(80));
}

/// Good, bad and open are told by a mark, whatever the colours; a healthy page that is more likely wrong is open.
#[test]
fn the_conclusion_carries_its_mark() {
    let mut report = explained();
    let mut marked = |headline: Headline| {
        report.advice.headline = headline;
        let page = report.brief();
        let html = page.html();
        let (_, box_of) = html.split_once("<p class=\"answer").unwrap();
        (
            page.mark,
            page.text(80).split("\n\n").nth(1).unwrap().chars().next().unwrap(),
            box_of.chars().take(5).collect::<String>(),
        )
    };
    let good = marked(Headline::Healthy { no_fault: 0.5 });
    assert_eq!(good, (AnswerMark::Good, '✓', " good".to_owned()));
    assert_eq!(marked(Headline::Healthy { no_fault: 0.49 }).0, AnswerMark::Open);
    assert_eq!(marked(Headline::Empty), (AnswerMark::Bad, '✗', " bad\"".to_owned()));
    let open = marked(Headline::NothingUnusualYet { low_side_at_air: false, no_fault: 0.9 });
    assert_eq!(open, (AnswerMark::Open, '?', " open".to_owned()));
    assert_eq!(answer_mark(&Headline::ComparedOnly { low_side_at_air: false }), AnswerMark::None);
}

#[test]
fn a_brief_page_shows_the_window_or_else_the_pressures() {
    let mut report = explained();
    assert_eq!(names(&report.brief()), ["next", "pressures", "print", "causes", "safety"]);
    report.healthy = Some(healthy(0));
    assert_eq!(names(&report.brief()), ["next", "causes", "safety"]);
    report.healthy = Some(healthy(1));
    let brief = report.brief();
    assert_eq!(names(&brief), ["next", "healthy", "causes", "safety"]);
    let [Block::Words(saturated), Block::Table(_), Block::Words(behind)] = blocks(&brief, "healthy") else {
        panic!("{brief:?}")
    };
    assert!(saturated.starts_with("Saturated: ") && behind.contains("256"), "{saturated} {behind}");
    assert!(matches!(blocks(&brief, "safety"), [Block::Words(_)]));
    report.causes = None;
    assert_eq!(names(&report.brief()), ["next", "healthy", "meaning", "safety"]);
    assert!(!brief.opening.iter().any(|sentence| sentence.starts_with('±')), "{:?}", brief.opening);
}

#[test]
fn a_brief_page_names_a_step_more_for_each_gauge_that_was_not_read() {
    let mut report = explained();
    for (gauges, most) in [(2, 3), (1, 4), (0, 5)] {
        report.gauges.truncate(gauges);
        assert_eq!(list(&report.brief(), "next").len(), most, "{gauges} gauges");
        assert_eq!(list(&report.page(), "next").len(), 6);
    }
}

#[test]
fn what_must_stop_comes_first_and_the_first_measurement_says_what_its_brackets_mean() {
    let mut report = explained();
    report.advice.stops = vec![Stop::HighSideAtCutOut];
    let page = report.page();
    let next = list(&page, "next");
    assert_eq!(next.len(), 7);
    assert!(next[0].starts_with("Switch the air conditioning off") && next[1].starts_with("For \"air"), "{next:?}");
    let brackets: Vec<bool> = next.iter().map(|step| step.contains("; in brackets")).collect();
    assert_eq!(brackets, [false, false, true, false, false, false, false]);
}

#[test]
fn pressures_have_the_saturation_of_their_side() {
    let mut report = report();
    let page = report.page();
    let pressures = table(&page, "pressures");
    assert_eq!(pressures.head, ["", "gauge", "absolute", "saturated at"]);
    assert!(pressures.numbers && pressures.rows.len() == 2);
    assert_eq!(texts(&pressures.rows[0])[..2], ["low side", "30.0 psi"]);
    report.opening.blend = true;
    report.gauges[0].bubble = Some(Amount::new(31.0, Some(1.0), "°F", 1));
    report.gauges[1].saturation = None;
    let page = report.page();
    let pressures = table(&page, "pressures");
    assert_eq!(pressures.head, ["", "gauge", "absolute", "dew point", "bubble point"]);
    assert_eq!(texts(&pressures.rows[0])[4], "31.0 ± 1.0 °F");
    assert_eq!(texts(&pressures.rows[1])[3..], ["above critical", ""]);
}

#[test]
fn an_equalised_circuit_is_set_against_saturation_and_its_verdict_said_once() {
    let mut report = report();
    let verdict = EqualisedVerdict::AtSaturation;
    report.equalised = Some(EqualisedRow { verdict, probability: None, difference: psi(1.0), noticeable: psi(2.0) });
    report.meaning = vec![
        Statement::Equalised { verdict, at_air: false, doubt: None },
        Statement::EqualisedResolution { kpa: 12.0, psi: 1.8 },
    ];
    report.advice.headline = Headline::Equalised;
    let page = report.page();
    assert!(page.answer.starts_with("Both gauges are at saturation"), "{}", page.answer);
    let meaning = list(&page, "meaning");
    assert!(meaning.len() == 1 && meaning[0].contains("12 kPa"), "{meaning:?}");
    let print = page.sections.iter().find(|section| section.name == "print").unwrap();
    assert_eq!(print.heading, "Against saturation at ambient");
    report.meaning.clear();
    assert!(!names(&report.page()).contains(&"meaning"));
}

#[test]
fn charts_have_their_marks_with_a_legend() {
    let mut report = report();
    let cell = |low, position| Some(ChartCell { window: Span::new(low, low + 15.0, "psi", 0), position });
    let row = |chart: &'static str, marks: &[Mark], low, high| ChartBandRow {
        chart: chart.into(),
        system: "".into(),
        low,
        high,
        vent: None,
        marks: marks.to_vec(),
    };
    report.charts = vec![
        row("one", &[], cell(10.0, Position::Above), None),
        row("two", &[Mark::OneRange, Mark::CarriedOver], None, cell(150.0, Position::Within)),
        row("three", &[Mark::OneRange], None, None),
    ];
    let page = report.page();
    let charts = table(&page, "charts");
    assert_eq!(charts.head, ["chart", "low side, psi", "high side, psi"]);
    let rows: Vec<Vec<&str>> = charts.rows.iter().map(|row| texts(row)).collect();
    assert_eq!(rows, [["one", "10-25 above", ""], ["two (rd)", "", "150-165 within"], ["three (r)", "", ""]]);
    assert_eq!(charts.rows[0][1].position, Some(Position::Above));
    let letters: Vec<&str> = charts.legend.iter().map(|line| &line[..4]).collect();
    assert_eq!(letters, ["(d) ", "(r) "]);
}

#[test]
fn six_lines_say_what_the_page_says() {
    let mut full = explained();
    full.healthy = Some(healthy(2));
    full.advice.headline = Headline::Healthy { no_fault: 0.6 };
    full.cautions = vec![Caution::Pressure, Caution::Recover];
    let lines = full.lines_in(Language::English);
    assert_eq!(lines.len(), 6, "{lines:#?}");
    assert!(lines.iter().all(|line| !line.contains('\n') && !line.contains("..")), "{lines:#?}");
    let page = full.brief_in(Language::English);
    assert!(lines[0].starts_with(&format!("{}. ", page.title())), "{}", lines[0]);
    assert_eq!(lines[1], format!("{}{}", page.mark.symbol(), page.answer));
    assert_eq!(lines[2], ["low side 30 psi within (24 to 36 psi)"; 2].join("; "));
    assert!(lines[3].starts_with("What explains it: air in the circuit"), "{}", lines[3]);
    assert!(lines[4].starts_with("What to do next: "), "{}", lines[4]);
    assert!(lines[5].starts_with("Safety: under pressure") && lines[5].ends_with("illegal in many places."));
    // what must stop comes first
    full.advice.stops = vec![Stop::HighSideAtCutOut];
    assert!(full.lines_in(Language::English)[4].starts_with("What to do next: Switch the air conditioning off now"));
    // without windows the gauges, without causes no line about them
    (full.healthy, full.advice.leading) = (None, Vec::new());
    full.gauges = vec![GaugeRow {
        side: Side::Low,
        gauge: psi(30.0),
        absolute: psi(44.7),
        saturation: Some(Amount::new(35.0, None, "°F", 0)),
        bubble: None,
    }];
    let lines = full.lines_in(Language::English);
    assert_eq!((lines.len(), lines[2].as_str()), (5, "low side 30 psi, saturated at 35 °F"));
}

#[test]
fn healthy_is_inside_every_window_and_likelier_than_not() {
    let mut report = report();
    for (headline, is_healthy) in [
        (Headline::Healthy { no_fault: 0.5 }, true),
        (Headline::Healthy { no_fault: 0.499 }, false),
        (Headline::Empty, false),
        (Headline::NothingUnusualYet { low_side_at_air: false, no_fault: 0.9 }, false),
    ] {
        report.advice.headline = headline;
        assert_eq!(report.is_healthy(), is_healthy, "{:?}", report.advice.headline);
    }
}

#[test]
fn a_row_has_its_window_and_verdict_or_says_there_is_none() {
    let mut report = report();
    let row = |window, verdict| ResultRow {
        quantity: JudgedQuantity::Superheat,
        value: psi(30.0),
        window,
        basis: WindowBasis::RuleOfThumb,
        verdict,
    };
    report.results = vec![row(Some(Span::new(24.0, 36.0, "psi", 0)), Some(verdict(Position::Above))), row(None, None)];
    let page = report.page();
    let rows: Vec<Vec<&str>> = table(&page, "print").rows.iter().map(|row| texts(row)).collect();
    assert_eq!(
        rows,
        [
            ["superheat", "30 ± 2 psi", "24 to 36 psi", "above (97 %)"],
            ["superheat", "30 ± 2 psi", "no window known", ""]
        ]
    );
}
