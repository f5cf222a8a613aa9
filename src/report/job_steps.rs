//! What each step of a job sheet states: its figure, what vouches for it, and which sentences belong to it.

use super::job::StepFigure;
use super::words::JobWords;
use super::{Language, Span, oil_label::oil_label_in};
use crate::air::water;
use crate::quantity::Unit;
use crate::service::acceptance::AcceptanceOutcome;
use crate::service::evacuation::DryingCheck;
use crate::service::job::{CompressorOil, JobSheet, JobStep, JobTask, PartOil};
use crate::service::oil::compressor::{CompressorOilRule, CompressorSupply, PublishedRule, PublishedRules};
use crate::service::oil::part::{PublishedAmount, PublishedRange, ReplacedPart};
use crate::{GaugePressure, Measured, Pressure, Quantity, Range, Temperature, Volume};

/// A step without its number.
pub(super) struct Told {
    pub(super) title: String,
    pub(super) figure: Option<StepFigure>,
    pub(super) words: Vec<String>,
}

/// What vouches for the figure of a step.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Standing {
    /// Measured for the job.
    Measured,
    /// The maker's figure, as given.
    MakersFigure,
    /// By the maker's rule, as given.
    MakersRule,
    /// What others print.
    PublishedRange,
    /// The maker's goes before what others print.
    PrintedByOthers,
    /// The label.
    Label,
    /// The label's oil, as read.
    LabelOil(LabelOil),
}

/// Certainty with which the oil on a label is known.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum LabelOil {
    /// As read.
    AsRead,
    /// Its volume; the ounces beside it do not agree.
    VolumeAlone,
    /// All that its ounces can mean.
    AnyOunce,
}

/// All works that print one amount of oil for a part.
pub(super) struct AmountRow {
    /// The amount.
    pub(super) amount: Range<Volume>,
    /// The works.
    pub(super) works: Vec<&'static PublishedAmount>,
}

/// All works whose one rule leaves one amount of oil in the compressor.
pub(super) struct RuleRow {
    /// The rule.
    pub(super) rule: CompressorOilRule,
    /// Oil in the compressor when it is fitted.
    pub(super) left: Range<Volume>,
    /// The works.
    pub(super) works: Vec<&'static PublishedRule>,
}

/// Which way the oil of a filled compressor goes by the published rules.
pub(super) enum Adjustment {
    /// So much comes out.
    Out(Range<Volume>),
    /// So much goes in on top.
    In(Range<Volume>),
    /// From so much out to so much on top.
    Either {
        /// Most that comes out.
        out: Volume,
        /// Most that goes in.
        into: Volume,
    },
}

/// What water does at the pressures of an evacuation.
pub(super) struct WaterAtTarget {
    /// Its boiling point at the first pressure.
    pub(super) first: Temperature,
    /// Its boiling point at the better one.
    pub(super) better: Temperature,
    /// Which of the two dries a circuit as cold as the ambient air.
    pub(super) dries: TargetDries,
}

/// Which pressure of an evacuation dries a circuit as cold as the ambient air.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum TargetDries {
    /// Both.
    Both,
    /// The better one alone.
    BetterAlone,
    /// Neither.
    Neither,
}

/// The step in words, with its figure.
pub(super) fn told(sheet: &JobSheet, step: &JobStep, language: Language) -> Told {
    let (job, words) = (&sheet.job, language.job_words());
    let title = words.title(&step.task, job.compressor.is_some());
    let (figure, sentences) = match &step.task {
        JobTask::ClutchFirst => (None, words.clutch_first()),
        JobTask::FindLeak => (None, words.find_leak()),
        JobTask::MakeSafe => (None, words.make_safe()),
        JobTask::OilReturn { at_least } => (None, words.oil_return(*at_least)),
        JobTask::Recover => (None, words.recover(job.refrigerant, job.charge.text())),
        JobTask::Open => (None, words.open()),
        JobTask::Drain { drained, little } => {
            let figure = drained.map(|oil| single(oil.value(), Standing::Measured, words));
            (figure, words.drain(job.drive, drained.as_ref(), *little))
        }
        JobTask::Drier { listed, open_long } => (None, words.drier(*listed, *open_long)),
        JobTask::Rings => (None, words.rings(job.refrigerant)),
        JobTask::OilKind { oil, suitability } => {
            (None, words.oil_kind(oil.zip(*suitability), job.drive, job.refrigerant))
        }
        JobTask::LabelOil { range } => label_oil(sheet, range.as_ref(), language),
        JobTask::PartOil { part, oil } => part_oil(*part, oil, words),
        JobTask::RecoveredOil { recovered, in_compressor } => {
            let figure = recovered.map(|oil| single(oil, Standing::Measured, words));
            (figure, vec![words.recovered_oil(*recovered, *in_compressor)])
        }
        JobTask::CompressorOil(oil) => compressor_oil(sheet, oil, words),
        JobTask::WholeOil { label } => {
            let standing = Standing::LabelOil(LabelOil::AsRead);
            (label.as_ref().map(|range| volume(range, standing, words)), vec![words.whole_oil(label.as_ref())])
        }
        JobTask::TurnByHand => (None, words.turn_by_hand()),
        JobTask::Tighten => (None, words.tighten()),
        JobTask::Belt => (None, words.belt()),
        JobTask::PressureTest => (None, words.pressure_test()),
        JobTask::Evacuate { gauge, open_long } => evacuate(sheet, gauge, *open_long, words),
        JobTask::StandingVacuum => (None, words.standing_vacuum(&job.vacuum)),
        JobTask::Charge { hose } => {
            let nominal = job.charge.nominal().g();
            let figure = figure(Span::new(nominal, nominal, "g", 0), Standing::Label, words);
            (Some(figure), words.charge(&job.charge, hose.as_ref(), job.refrigerant))
        }
        JobTask::LeakCheck { scales, allowed, tenth } => (None, words.leak_check(scales, *allowed, tenth)),
        JobTask::Read => (None, words.read()),
    };
    Told { title, figure, words: sentences }
}

fn figure(span: Span, standing: Standing, words: &dyn JobWords) -> StepFigure {
    StepFigure { span, standing: words.standing(standing).into() }
}

fn volume(range: &Range<Volume>, standing: Standing, words: &dyn JobWords) -> StepFigure {
    figure(Span::new(range.low.cm3(), range.high.cm3(), "cm³", 0), standing, words)
}

fn single(oil: Volume, standing: Standing, words: &dyn JobWords) -> StepFigure {
    volume(&Range::new(oil, oil), standing, words)
}

/// An amount as the page prints it, in whole cm³.
fn printed(range: &Range<Volume>) -> (i64, i64) {
    (range.low.cm3().round() as i64, range.high.cm3().round() as i64)
}

fn part_oil(part: ReplacedPart, oil: &PartOil, words: &dyn JobWords) -> (Option<StepFigure>, Vec<String>) {
    match oil {
        PartOil::Makers(range) => {
            (Some(volume(range, Standing::MakersFigure, words)), vec![words.makers_part_oil(part, range)])
        }
        PartOil::InCompressor(range) => {
            (Some(volume(range, Standing::MakersFigure, words)), vec![words.part_oil_in_compressor(range)])
        }
        PartOil::Published(published) => {
            let sentences = words.published_part_oil(part, published, &amount_rows(published));
            (Some(volume(&published.range, Standing::PublishedRange, words)), sentences)
        }
        PartOil::Unknown => (None, vec![words.unknown_part_oil(part)]),
    }
}

/// One row for each amount, with all who print it, from the least to the most.
fn amount_rows(published: &PublishedRange) -> Vec<AmountRow> {
    let mut works = published.works.clone();
    works.sort_by(|(_, a), (_, b)| a.low.si().total_cmp(&b.low.si()).then(a.high.si().total_cmp(&b.high.si())));
    let mut rows: Vec<AmountRow> = Vec::new();
    for (work, amount) in works {
        match rows.last_mut() {
            Some(row) if printed(&row.amount) == printed(&amount) => row.works.push(work),
            _ => rows.push(AmountRow { amount, works: vec![work] }),
        }
    }
    rows
}

/// One row for each rule and amount, with all who print it, from the least to the most.
fn rule_rows(published: &PublishedRules) -> Vec<RuleRow> {
    let mut outcomes: Vec<_> = published.outcomes.iter().collect();
    outcomes.sort_by(|(_, a), (_, b)| a.left.low.si().total_cmp(&b.left.low.si()));
    let mut rows: Vec<RuleRow> = Vec::new();
    for (work, outcome) in outcomes {
        let same = |row: &&mut RuleRow| row.rule == work.rule && printed(&row.left) == printed(&outcome.left);
        match rows.iter_mut().find(same) {
            Some(row) => row.works.push(work),
            None => rows.push(RuleRow { rule: work.rule, left: outcome.left, works: vec![work] }),
        }
    }
    rows
}

fn label_oil(sheet: &JobSheet, range: Option<&Range<Volume>>, language: Language) -> (Option<StepFigure>, Vec<String>) {
    let words = language.job_words();
    let mut sentences = vec![words.label_is_a_check()];
    let label = sheet.job.oil.as_ref();
    let standing = match label.map(|label| (label.volume().is_ok(), label.metric().is_some())) {
        Some((false, true)) => LabelOil::VolumeAlone,
        Some((false, false)) => LabelOil::AnyOunce,
        Some((true, _)) | None => LabelOil::AsRead,
    };
    if let Some(label) = label.filter(|label| !label.verdicts().is_empty()) {
        sentences.extend(oil_label_in(label, language));
    }
    (range.map(|range| volume(range, Standing::LabelOil(standing), words)), sentences)
}

fn compressor_oil(sheet: &JobSheet, oil: &CompressorOil, words: &dyn JobWords) -> (Option<StepFigure>, Vec<String>) {
    let (figure, mut sentences) = match oil {
        CompressorOil::NotMeasured => (None, vec![words.compressor_not_drained()]),
        CompressorOil::Makers { rule, swap, outcome } => {
            let sentences = words.makers_rule(rule, swap, rule.counted(swap.drained), outcome);
            (Some(volume(&outcome.left, Standing::MakersRule, words)), sentences)
        }
        CompressorOil::Published { spread, supplied } => {
            let drained = sheet.job.compressor.and_then(|swap| swap.drained).map(|oil| oil.value());
            let mut sentences = words.published_rules(drained, &spread.left, &rule_rows(spread));
            sentences.push(match supplied {
                Some(CompressorSupply::Filled { contents }) => {
                    words.comes_filled(*contents, &adjustment(*contents, &spread.left))
                }
                Some(CompressorSupply::Emptied | CompressorSupply::Dry) => words.comes_empty(),
                Some(CompressorSupply::Used) => words.comes_used(),
                None => words.supply_unknown(),
            });
            (Some(volume(&spread.left, Standing::PublishedRange, words)), sentences)
        }
    };
    sentences.extend(sheet.label_oil.as_ref().map(|label| words.circuit_holds(label)));
    (figure, sentences)
}

/// What brings a compressor filled with `contents` to what published rules leave in it.
fn adjustment(contents: Volume, left: &Range<Volume>) -> Adjustment {
    let (out, into) = (contents - left.low, left.high - contents);
    if into.si() <= 0.0 {
        Adjustment::Out(Range::new(-into, out))
    } else if out.si() <= 0.0 {
        Adjustment::In(Range::new(-out, into))
    } else {
        Adjustment::Either { out, into }
    }
}

fn evacuate(
    sheet: &JobSheet,
    gauge: &Range<GaugePressure>,
    open_long: bool,
    words: &dyn JobWords,
) -> (Option<StepFigure>, Vec<String>) {
    let (unit, decimals) = words.vacuum_unit();
    let span = Span::new(gauge.low.value_in(unit), gauge.high.value_in(unit), unit.symbol(), decimals);
    let water = water_at_target(sheet);
    let sentences = words.evacuate(&sheet.job.vacuum, sheet.air.value(), gauge, open_long, water.as_ref());
    (Some(figure(span, Standing::PrintedByOthers, words)), sentences)
}

/// What the asked-for vacuum does to water at the temperature of the day; `None` without it, or outside the saturation lines
/// of water.
fn water_at_target(sheet: &JobSheet) -> Option<WaterAtTarget> {
    let ambient = Measured::exact(sheet.job.ambient?).ok()?;
    let target = sheet.job.vacuum.target;
    let boils = |p: Pressure| water::saturation_temperature(p).ok();
    let dry = |p: Pressure| {
        Some(DryingCheck::of(&Measured::exact(p).ok()?, &ambient).ok()?.outcome == AcceptanceOutcome::Passes)
    };
    let dries = match (dry(target.high)?, dry(target.low)?) {
        (true, _) => TargetDries::Both,
        (false, true) => TargetDries::BetterAlone,
        (false, false) => TargetDries::Neither,
    };
    Some(WaterAtTarget { first: boils(target.high)?, better: boils(target.low)?, dries })
}

#[cfg(test)]
pub(super) mod tests {
    use super::*;
    use crate::Refrigerant;
    use crate::report::words::en::English;
    use crate::service::job::{CompressorReplacement, Job, PartReplacement};
    use crate::service::oil::compressor::{self, OilBalance};
    use crate::service::oil::kind::CompressorDrive;
    use crate::service::oil::part;

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
        job.compressor =
            Some(CompressorReplacement { supplied: Some(filled(150.0)), drained: Some(drained), rule: None });
        job.parts = vec![PartReplacement { part: ReplacedPart::Condenser, makers: None, drained: None }];
        job.recovered_oil = Some(ml(12.0));
        job.ambient = Some(Temperature::from_celsius(25.0));
        job
    }

    /// Title, figure and sentences of each step.
    fn steps(job: &Job) -> Vec<Told> {
        let sheet = job.sheet().unwrap();
        sheet.steps.iter().map(|step| told(&sheet, step, Language::English)).collect()
    }

    #[test]
    fn every_step_has_words_and_those_with_a_figure_say_whose_it_is() {
        let mut told = steps(&job());
        let flushed = steps(&Job { flushed: true, ..job() });
        told.extend(flushed.into_iter().filter(|told| told.title == "Oil for the whole circuit"));
        let electric =
            Job { drive: CompressorDrive::Electric, complaint: crate::service::job::Complaint::Leaks, ..job() };
        for told in told.iter().chain(&steps(&electric)) {
            assert!(!told.title.is_empty() && !told.words.is_empty(), "{}", told.title);
            assert!(told.words.iter().all(|words| words.len() > 10), "{}: {:?}", told.title, told.words);
        }
        let figures: Vec<String> = told
            .iter()
            .filter_map(|told| told.figure.as_ref().map(|of| format!("{}: {of} ({})", told.title, of.standing)))
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
        let has = |title: &str| unmeasured.iter().any(|told| told.title.starts_with(title) && told.figure.is_some());
        assert!(has("Oil for the new condenser") && !has("New oil for what came out"));
    }

    #[test]
    fn oil_of_a_part_is_the_makers_or_what_others_print() {
        let published = part::published(ReplacedPart::Condenser, None).unwrap();
        for (oil, figure, words, sentences) in [
            (PartOil::Makers(span(30.0, 40.0)), Some("30 to 40 cm³ maker's figure"), "Add 30 to 40 cm³", 1),
            (PartOil::InCompressor(span(30.0, 40.0)), Some("30 to 40 cm³ maker's figure"), "already counted", 1),
            (PartOil::Published(published), Some("20 to 80 cm³ published range"), "Service manuals print", 10),
            (PartOil::Unknown, None, "Nothing was found", 1),
        ] {
            let (found, told) = part_oil(ReplacedPart::Condenser, &oil, &English);
            let found = found.map(|found| format!("{found} {}", found.standing));
            assert_eq!(found.is_some(), figure.is_some());
            assert!(found.unwrap_or_default().starts_with(figure.unwrap_or_default()));
            assert!(told[0].contains(words), "{told:?}");
            assert_eq!(told.len(), sentences, "{told:?}");
        }
    }

    #[test]
    fn works_that_print_one_amount_share_a_row() {
        let published = part::published(ReplacedPart::Condenser, None).unwrap();
        let rows = amount_rows(&published);
        let amounts: Vec<(i64, i64)> = rows.iter().map(|row| printed(&row.amount)).collect();
        // 1 oz, 29.57 cm³, is printed as 30 cm³ is
        assert_eq!(amounts, [(20, 20), (30, 30), (30, 50), (35, 35), (40, 40), (50, 50), (74, 74), (80, 80)]);
        assert_eq!(rows.iter().map(|row| row.works.len()).sum::<usize>(), published.works.len());
        let thirty = rows.iter().find(|row| printed(&row.amount) == (30, 30)).unwrap();
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
        for (i, row) in rows.iter().enumerate() {
            for work in &row.works {
                let (_, outcome) = published.outcomes.iter().find(|(of, _)| std::ptr::eq(*of, *work)).unwrap();
                assert_eq!((row.rule, printed(&row.left)), (work.rule, printed(&outcome.left)));
            }
            for other in &rows[..i] {
                assert!(other.left.low <= row.left.low, "rows are in order");
                assert!(other.rule != row.rule || printed(&other.left) != printed(&row.left), "a row is split");
            }
        }
        let shared = rows.iter().filter(|row| row.works.len() > 1).count();
        assert!(shared > 0 && rows.len() > shared);
    }

    #[test]
    fn a_label_of_oil_stands_as_far_as_its_ounces_agree() {
        for (text, standing, sentences) in [
            ("130 cc", "label, as read", 1),
            ("130 cc (4.6 fl oz)", "label, as read", 5),
            ("90–110 cm³ (3.1–4.0 oz)", "the label's volume; its ounces do not agree", 6),
            ("5 oz", "all that the label's ounces can mean", 5),
        ] {
            let sheet = Job { oil: Some(text.parse().unwrap()), ..job() }.sheet().unwrap();
            let (figure, words) = label_oil(&sheet, sheet.label_oil.as_ref(), Language::English);
            assert_eq!(figure.unwrap().standing, standing, "{text}");
            assert_eq!(words.len(), sentences, "{words:?}");
            assert!(label_oil(&sheet, None, Language::English).0.is_none());
        }
    }

    #[test]
    fn oil_of_the_compressor_is_by_the_makers_rule_or_by_those_of_others() {
        type Change = fn(&mut CompressorReplacement);
        let said = |change: Change| {
            let mut job = job();
            change(job.compressor.as_mut().unwrap());
            let sheet = job.sheet().unwrap();
            let find = |step: &JobStep| match &step.task {
                JobTask::CompressorOil(oil) => Some(compressor_oil(&sheet, oil, &English)),
                _ => None,
            };
            let (figure, words) = sheet.steps.iter().find_map(find).unwrap();
            (figure.map(|figure| format!("{figure}, {}", figure.standing)), words.join("\n"))
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
            Adjustment::Out(range) => ("out", range.low.cm3().round(), range.high.cm3().round()),
            Adjustment::In(range) => ("in", range.low.cm3().round(), range.high.cm3().round()),
            Adjustment::Either { out, into } => ("either", out.cm3().round(), into.cm3().round()),
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
        for (celsius, dries) in
            [(45.0, TargetDries::Both), (25.0, TargetDries::BetterAlone), (5.0, TargetDries::Neither)]
        {
            let water = at(Some(celsius)).unwrap();
            assert_eq!(water.dries, dries, "{celsius} °C");
            // 6.5 and 1.4 kPa
            assert_eq!((water.first.celsius().round(), water.better.celsius().round()), (38.0, 12.0));
        }
        let sheet = job().sheet().unwrap();
        let gauge = Range::new(GaugePressure::from_inhg(-29.5), GaugePressure::from_inhg(-28.0));
        let (figure, words) = evacuate(&sheet, &gauge, false, &English);
        let figure = figure.unwrap();
        assert_eq!((figure.to_string(), words.len()), ("-29.5 to -28.0 inHg".to_owned(), 4));
        assert!(words[2].contains("only the better one"), "{words:?}");
    }
}
