//! What each step of a job sheet states: its figure, what vouches for it, and which sentences belong to it.

use super::job::StepFigure;
use super::words::en;
use super::{Span, oil_label};
use crate::air::water;
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
pub(super) fn told(sheet: &JobSheet, step: &JobStep) -> Told {
    let job = &sheet.job;
    let title = en::job::title(&step.task, job.compressor.is_some());
    let (figure, words) = match &step.task {
        JobTask::ClutchFirst => (None, en::job::clutch_first()),
        JobTask::FindLeak => (None, en::job::find_leak()),
        JobTask::MakeSafe => (None, en::job::make_safe()),
        JobTask::OilReturn { at_least } => (None, en::job::oil_return(*at_least)),
        JobTask::Recover => (None, en::job::recover(job.refrigerant, job.charge.text())),
        JobTask::Open => (None, en::job::open()),
        JobTask::Drain { drained, little } => {
            let figure = drained.map(|oil| single(oil.value(), Standing::Measured));
            (figure, en::job::drain(job.drive, drained.as_ref(), *little))
        }
        JobTask::Drier { listed, open_long } => (None, en::job::drier(*listed, *open_long)),
        JobTask::Rings => (None, en::job::rings()),
        JobTask::OilKind { oil, suitability } => {
            (None, en::job::oil_kind(oil.zip(*suitability), job.drive, job.refrigerant))
        }
        JobTask::LabelOil { range } => label_oil(sheet, range.as_ref()),
        JobTask::PartOil { part, oil } => part_oil(*part, oil),
        JobTask::RecoveredOil { recovered, in_compressor } => {
            let figure = recovered.map(|oil| single(oil, Standing::Measured));
            (figure, vec![en::job::recovered_oil(*recovered, *in_compressor)])
        }
        JobTask::CompressorOil(oil) => compressor_oil(sheet, oil),
        JobTask::WholeOil { label } => {
            let standing = Standing::LabelOil(LabelOil::AsRead);
            (label.as_ref().map(|range| volume(range, standing)), vec![en::job::whole_oil(label.as_ref())])
        }
        JobTask::TurnByHand => (None, en::job::turn_by_hand()),
        JobTask::Tighten => (None, en::job::tighten()),
        JobTask::Belt => (None, en::job::belt()),
        JobTask::Evacuate { gauge, open_long } => evacuate(sheet, gauge, *open_long),
        JobTask::StandingVacuum => (None, en::job::standing_vacuum(&job.vacuum)),
        JobTask::Charge { hose } => {
            let nominal = job.charge.nominal().g();
            let figure = figure(Span::new(nominal, nominal, "g", 0), Standing::Label);
            (Some(figure), en::job::charge(&job.charge, hose.as_ref(), job.refrigerant))
        }
        JobTask::LeakCheck { scales, allowed, tenth } => (None, en::job::leak_check(scales, *allowed, tenth)),
        JobTask::Read => (None, en::job::read()),
    };
    Told { title, figure, words }
}

fn figure(span: Span, standing: Standing) -> StepFigure {
    StepFigure { span, standing: en::job::standing(standing).into() }
}

fn volume(range: &Range<Volume>, standing: Standing) -> StepFigure {
    figure(Span::new(range.low.cm3(), range.high.cm3(), "cm³", 0), standing)
}

fn single(oil: Volume, standing: Standing) -> StepFigure {
    volume(&Range::new(oil, oil), standing)
}

/// An amount as the page prints it, in whole cm³.
fn printed(range: &Range<Volume>) -> (i64, i64) {
    (range.low.cm3().round() as i64, range.high.cm3().round() as i64)
}

fn part_oil(part: ReplacedPart, oil: &PartOil) -> (Option<StepFigure>, Vec<String>) {
    match oil {
        PartOil::Makers(range) => {
            (Some(volume(range, Standing::MakersFigure)), vec![en::job::makers_part_oil(part, range)])
        }
        PartOil::InCompressor(range) => {
            (Some(volume(range, Standing::MakersFigure)), vec![en::job::part_oil_in_compressor(range)])
        }
        PartOil::Published(published) => {
            let words = en::job::published_part_oil(part, published, &amount_rows(published));
            (Some(volume(&published.range, Standing::PublishedRange)), words)
        }
        PartOil::Unknown => (None, vec![en::job::unknown_part_oil(part)]),
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

fn label_oil(sheet: &JobSheet, range: Option<&Range<Volume>>) -> (Option<StepFigure>, Vec<String>) {
    let mut words = vec![en::job::label_is_a_check()];
    let label = sheet.job.oil.as_ref();
    let standing = match label.map(|label| (label.volume().is_ok(), label.metric().is_some())) {
        Some((false, true)) => LabelOil::VolumeAlone,
        Some((false, false)) => LabelOil::AnyOunce,
        Some((true, _)) | None => LabelOil::AsRead,
    };
    if let Some(label) = label.filter(|label| !label.verdicts().is_empty()) {
        words.extend(oil_label(label));
    }
    (range.map(|range| volume(range, Standing::LabelOil(standing))), words)
}

fn compressor_oil(sheet: &JobSheet, oil: &CompressorOil) -> (Option<StepFigure>, Vec<String>) {
    let (figure, mut words) = match oil {
        CompressorOil::NotMeasured => (None, vec![en::job::compressor_not_drained()]),
        CompressorOil::Makers { rule, swap, outcome } => {
            let words = en::job::makers_rule(rule, swap, rule.counted(swap.drained), outcome);
            (Some(volume(&outcome.left, Standing::MakersRule)), words)
        }
        CompressorOil::Published { spread, supplied } => {
            let drained = sheet.job.compressor.and_then(|swap| swap.drained).map(|oil| oil.value());
            let mut words = en::job::published_rules(drained, &spread.left, &rule_rows(spread));
            words.push(match supplied {
                Some(CompressorSupply::Filled { contents }) => {
                    en::job::comes_filled(*contents, &adjustment(*contents, &spread.left))
                }
                Some(CompressorSupply::Emptied | CompressorSupply::Dry) => en::job::comes_empty(),
                Some(CompressorSupply::Used) => en::job::comes_used(),
                None => en::job::supply_unknown(),
            });
            (Some(volume(&spread.left, Standing::PublishedRange)), words)
        }
    };
    words.extend(sheet.label_oil.as_ref().map(en::job::circuit_holds));
    (figure, words)
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

fn evacuate(sheet: &JobSheet, gauge: &Range<GaugePressure>, open_long: bool) -> (Option<StepFigure>, Vec<String>) {
    let span = Span::new(gauge.low.inhg(), gauge.high.inhg(), "inHg", 1);
    let words =
        en::job::evacuate(&sheet.job.vacuum, sheet.air.value(), gauge, open_long, water_at_target(sheet).as_ref());
    (Some(figure(span, Standing::PrintedByOthers)), words)
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
