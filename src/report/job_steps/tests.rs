//! Tests of the steps of a job sheet.

#![cfg(test)]

use super::*;
use crate::Refrigerant;
use crate::expected::ChartSet;
use crate::inspection::Entry;
use crate::report::JobReport;
use crate::report::page::{Block, Step};
use crate::service::job::{CompressorReplacement, Job, PartReplacement};
use crate::service::oil::compressor::{self, OilBalance};
use crate::service::oil::kind::CompressorDrive;
use crate::service::oil::part::{self, ReplacedPart};

fn ml(value: f64) -> Volume {
    Volume::from_cm3(value)
}

fn span(low: f64, high: f64) -> Range<Volume> {
    Range::new(ml(low), ml(high))
}

fn filled(contents: f64) -> CompressorSupply {
    CompressorSupply::Filled { contents: ml(contents) }
}

/// A job with a new compressor, filled with 150 cm³, and a new condenser.
pub(in crate::report) fn job() -> Job {
    let mut job = Job::new(Refrigerant::R134a, "550 g".parse().unwrap(), CompressorDrive::Belt);
    job.oil = Some("130 cc (4.6 fl oz)".parse().unwrap());
    job.oil_kind = Some("PAG 46".parse().unwrap());
    let drained = Measured::new(ml(70.0), ml(1.5)).unwrap();
    job.compressor = Some(CompressorReplacement { supplied: Some(filled(150.0)), drained: Some(drained), rule: None });
    job.parts = vec![PartReplacement { part: ReplacedPart::Condenser, makers: None, drained: None }];
    job.recovered_oil = Some(ml(12.0));
    job.ambient = Some(Temperature::from_celsius(25.0));
    job
}

fn report_of(job: &Job) -> JobReport {
    let charts = ChartSet::new(job.refrigerant).unwrap();
    crate::report::job(job, &charts, None, &Entry::default().units()).unwrap()
}

/// The report on [`job`].
pub(in crate::report) fn a_report() -> JobReport {
    report_of(&job())
}

/// The steps of the page in English.
fn steps(job: &Job) -> Vec<Step> {
    let page = report_of(job).page();
    let blocks = page.sections.into_iter().flat_map(|section| section.blocks);
    blocks.filter_map(|block| if let Block::Steps(steps) = block { Some(steps) } else { None }).flatten().collect()
}

/// The step of the page whose title begins so.
fn step(job: &Job, title: &str) -> Step {
    let found = steps(job).into_iter().find(|step| step.title.starts_with(title));
    found.unwrap_or_else(|| panic!("no step {title:?}"))
}

#[test]
fn every_step_has_words_and_those_with_a_figure_say_whose_it_is() {
    let mut told = steps(&job());
    let flushed = steps(&Job { flushed: true, ..job() });
    told.extend(flushed.into_iter().filter(|told| told.title.starts_with("Oil for the whole circuit")));
    let electric = Job { drive: CompressorDrive::Electric, complaint: crate::service::job::Complaint::Leaks, ..job() };
    for told in told.iter().chain(&steps(&electric)) {
        assert!(!told.title.is_empty() && !told.words.is_empty(), "{}", told.title);
        assert!(told.words.iter().all(|words| words.len() > 10), "{}: {:?}", told.title, told.words);
    }
    let figures: Vec<String> = told
        .iter()
        .filter(|told| !told.standing.is_empty())
        .map(|told| format!("{} ({})", told.title, told.standing))
        .collect();
    assert_eq!(
        figures,
        [
            "Drain the old compressor and measure: 70 cm³ (measured)",
            "Oil of the whole circuit, by the label: 130 cm³ (label, as read)",
            "Oil for the new condenser: 20 to 80 cm³ (published range, not this maker's figure)",
            "New oil for what came out with the refrigerant: 12 cm³ (measured)",
            "Oil for the compressor: 70 to 174 cm³ (published range, not this maker's figure)",
            "Evacuate: -29.5 to -28.0 inHg (printed by others; the maker's comes first)",
            "Charge by mass: 550 g (nominal charge, label)",
            "Oil for the whole circuit: 130 cm³ (label, as read)",
        ]
    );
    let unmeasured = steps(&Job { recovered_oil: None, compressor: None, oil: None, ..job() });
    let has = |title: &str| unmeasured.iter().any(|told| told.title.starts_with(title) && !told.standing.is_empty());
    assert!(has("Oil for the new condenser") && !has("New oil for what came out"));
}

#[test]
fn oil_of_a_part_is_the_makers_or_what_others_print() {
    let published = part::published(ReplacedPart::Condenser, None).unwrap();
    assert_eq!(published.on_top.map(|extra| printed(&extra)), Some((10, 10)));
    let oil = oil_span(&span(30.0, 40.0));
    for (given, figure, row) in [
        (
            PartOil::Makers(span(30.0, 40.0)),
            Some(("30 to 40 cm³", Standing::MakersFigure)),
            PartOilRow::Makers { oil: oil.clone() },
        ),
        (
            PartOil::InCompressor(span(30.0, 40.0)),
            Some(("30 to 40 cm³", Standing::MakersFigure)),
            PartOilRow::InCompressor { oil },
        ),
        (
            PartOil::Published(published.clone()),
            Some(("20 to 80 cm³", Standing::PublishedRange)),
            PartOilRow::Published {
                oil: oil_span(&published.range),
                rows: amount_rows(&published),
                on_top: published.on_top.as_ref().map(oil_span),
            },
        ),
        (PartOil::Unknown, None, PartOilRow::Unknown),
    ] {
        let (found, told) = part_oil(&given);
        let found = found.map(|found| (found.to_string(), found.standing));
        assert_eq!(found, figure.map(|(text, standing)| (text.to_owned(), standing)));
        assert_eq!(told, row);
    }
    let words = step(&job(), "Oil for the new condenser").words;
    assert!(words[0].starts_with("Service manuals print 20 to 80 cm³") && words.len() == 10, "{words:?}");
}

#[test]
fn works_that_print_one_amount_share_a_row() {
    let published = part::published(ReplacedPart::Condenser, None).unwrap();
    let rows = amount_rows(&published);
    let whole = |span: &Span| (span.low.round() as i64, span.high.round() as i64);
    let amounts: Vec<(i64, i64)> = rows.iter().map(|row| whole(&row.oil)).collect();
    // 1 oz, 29.57 cm³, is printed as 30 cm³ is
    assert_eq!(amounts, [(20, 20), (30, 30), (30, 50), (35, 35), (40, 40), (50, 50), (74, 74), (80, 80)]);
    assert_eq!(rows.iter().map(|row| row.works.len()).sum::<usize>(), published.works.len());
    let thirty = rows.iter().find(|row| whole(&row.oil) == (30, 30)).unwrap();
    let of_thirty = published.works.iter().filter(|(_, amount)| printed(amount) == (30, 30));
    assert_eq!(thirty.works.len(), of_thirty.count());
    assert_eq!(printed(&span(29.6, 50.4)), (30, 50));
}

#[test]
fn works_with_one_rule_and_one_amount_share_a_row() {
    let balance = |supplied, drained| OilBalance {
        supplied,
        drained: ml(drained),
        other_parts: ml(0.0),
        recovered: ml(0.0),
        system: None,
    };
    let published = compressor::published(&balance(filled(150.0), 70.0)).unwrap();
    let rows = rule_rows(&published);
    assert_eq!(rows.iter().map(|row| row.works.len()).sum::<usize>(), published.outcomes.len());
    let whole = |span: &Span| (span.low.round() as i64, span.high.round() as i64);
    for (i, row) in rows.iter().enumerate() {
        for by in &row.works {
            let of = |found: &compressor::PublishedRule| work(found.source, found.scope) == *by;
            let found = published.outcomes.iter().find(|(found, outcome)| {
                of(found) && OilRuleRow::from(&found.rule) == row.rule && printed(&outcome.left) == whole(&row.left)
            });
            assert!(found.is_some(), "{by:?}");
        }
        for other in &rows[..i] {
            assert!(other.left.low <= row.left.low, "rows are in order");
            assert!(other.rule != row.rule || whole(&other.left) != whole(&row.left), "a row is split");
        }
    }
    let shared = rows.iter().filter(|row| row.works.len() > 1).count();
    assert!(shared > 0 && rows.len() > shared);
}

#[test]
fn a_label_of_oil_stands_as_far_as_its_ounces_agree() {
    for (text, standing, statements) in [
        ("130 cc", Standing::LabelAsRead, 0),
        ("130 cc (4.6 fl oz)", Standing::LabelAsRead, 4),
        ("90–110 cm³ (3.1–4.0 oz)", Standing::LabelVolumeAlone, 5),
        ("5 oz", Standing::LabelAnyOunce, 4),
    ] {
        let sheet = Job { oil: Some(text.parse().unwrap()), ..job() }.sheet().unwrap();
        let (task, figure) = label_oil(&sheet, sheet.label_oil.as_ref());
        assert_eq!(figure.unwrap().standing, standing, "{text}");
        assert!(matches!(&task, StepTask::LabelOil { ounces } if ounces.len() == statements), "{task:?}");
        assert!(label_oil(&sheet, None).1.is_none());
    }
}

#[test]
fn oil_of_the_compressor_is_by_the_makers_rule_or_by_those_of_others() {
    type Change = fn(&mut CompressorReplacement);
    let said = |change: Change| {
        let mut job = job();
        change(job.compressor.as_mut().unwrap());
        let step = step(&job, "Oil for the compressor");
        let figure = step.title.split_once(": ").map(|(_, figure)| format!("{figure}, {}", step.standing));
        (figure, step.words.join("\n"))
    };
    let rows: [(Change, Option<&str>, &str); 6] = [
        (|swap| swap.drained = None, None, "Drain the old one first"),
        (
            |swap| swap.rule = Some(CompressorOilRule::Capped { cap: ml(50.0) }),
            Some("100 cm³, by the maker's rule, as given"),
            "Take 50 cm³ out",
        ),
        (|swap| swap.supplied = Some(filled(150.0)), Some("70 to 174 cm³, published"), "It comes with 150 cm³"),
        (|swap| swap.supplied = Some(CompressorSupply::Dry), Some("70 to "), "It comes empty"),
        (|swap| swap.supplied = Some(CompressorSupply::Used), Some("70 to 174 cm³, published"), "It is a used one"),
        (|swap| swap.supplied = None, Some("70 to 174 cm³, published"), "Find out how"),
    ];
    for (change, figure, text) in rows {
        let (found, words) = said(change);
        assert_eq!(found.is_some(), figure.is_some());
        assert!(found.as_deref().unwrap_or_default().starts_with(figure.unwrap_or_default()), "{found:?}");
        assert!(words.contains(text), "{words}");
        assert!(words.ends_with("By the label the whole circuit holds 130 cm³."), "{words}");
    }
    assert!(said(|swap| swap.supplied = Some(CompressorSupply::Emptied)).1.contains("It comes empty"));
    assert!(said(|_| ()).1.contains("With 70 cm³ drained"));
}

#[test]
fn a_filled_compressor_has_too_much_too_little_or_either() {
    let said = |contents, low, high| match adjustment(ml(contents), &span(low, high)) {
        AdjustmentRow::Out { oil } => ("out", oil.low.round(), oil.high.round()),
        AdjustmentRow::In { oil } => ("in", oil.low.round(), oil.high.round()),
        AdjustmentRow::Either { out, into } => ("either", out.value.round(), into.value.round()),
    };
    assert_eq!(said(200.0, 70.0, 180.0), ("out", 20.0, 130.0));
    assert_eq!(said(180.0, 70.0, 180.0), ("out", 0.0, 110.0));
    assert_eq!(said(50.0, 70.0, 180.0), ("in", 20.0, 130.0));
    assert_eq!(said(70.0, 70.0, 180.0), ("in", 0.0, 110.0));
    assert_eq!(said(150.0, 70.0, 180.0), ("either", 80.0, 30.0));
}

#[test]
fn water_boils_at_the_target_or_not_by_the_day() {
    let at = |celsius: Option<f64>| {
        let mut sheet = job().sheet().unwrap();
        sheet.job.ambient = celsius.map(Temperature::from_celsius);
        water_at_target(&sheet)
    };
    assert!(at(None).is_none());
    for (celsius, dries) in [(45.0, TargetDries::Both), (25.0, TargetDries::BetterAlone), (5.0, TargetDries::Neither)] {
        let water = at(Some(celsius)).unwrap();
        assert_eq!(water.dries, dries, "{celsius} °C");
        // 6.5 and 1.4 kPa
        assert_eq!((water.first.value.round(), water.better.value.round()), (38.0, 12.0));
    }
    let sheet = job().sheet().unwrap();
    let gauge = Range::new(GaugePressure::from_inhg(-29.5), GaugePressure::from_inhg(-28.0));
    let (figure, row) = evacuate(&sheet, &gauge);
    assert_eq!((figure.to_string(), row.gauge), ("-29.5 to -28.0 inHg".to_owned(), figure.span));
    assert_eq!(row.water.map(|water| water.dries), Some(TargetDries::BetterAlone));
    let words = step(&job(), "Evacuate").words;
    assert!(words.len() == 4 && words[2].contains("only the better one"), "{words:?}");
}
