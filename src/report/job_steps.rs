//! What each step of a job sheet states: its task with arguments, its figure, and what vouches for it.

use super::job::StepFigure;
use super::job_tasks::{
    AdjustmentRow, AmountRow, CompressorOilRow, DepartureRow, EvacuationRow, MakersRuleRow, OilActionRow, OilFloorRow,
    OilRuleRow, PartOilRow, RuleRow, Standing, StepTask, SupplyRow, TargetDries, TenthRow, WaterRow, WindowNote,
    WorkRow,
};
use super::oil_label::statements;
use super::{Amount, Span};
use crate::air::water;
use crate::numeric::sort_by_number;
use crate::quantity::{Time, Unit};
use crate::service::acceptance::AcceptanceOutcome;
use crate::service::evacuation::DryingCheck;
use crate::service::job::{CompressorOil, JobSheet, JobStep, JobTask, PartOil};
use crate::service::oil::compressor::{
    CompressorOilRule, CompressorSupply, OilAction, OilBalance, PublishedRules, RuleDeparture, RuleResult,
};
use crate::service::oil::part::PublishedRange;
use crate::{GaugePressure, Mass, Measured, Pressure, Quantity, Range, Source, Temperature, Volume};

/// Half the width of the interval of an amount of oil from which on it is written, cm³: half of the last digit that a page shows.
const WORTH_WRITING: f64 = 0.5;

/// The task of a step with its arguments, and its figure.
pub(super) fn told(sheet: &JobSheet, step: &JobStep) -> (StepTask, Option<StepFigure>) {
    let job = &sheet.job;
    match &step.task {
        JobTask::ClutchFirst => (StepTask::ClutchFirst, None),
        JobTask::FindLeak => (StepTask::FindLeak, None),
        JobTask::MakeSafe => (StepTask::MakeSafe, None),
        JobTask::OilReturn { at_least } => (StepTask::OilReturn { at_least: minutes(*at_least) }, None),
        JobTask::Recover => (StepTask::Recover, None),
        JobTask::Open => (StepTask::Open, None),
        JobTask::Drain { drained, little } => {
            let figure = drained.map(|oil| single(oil.value(), Standing::Measured));
            (StepTask::Drain { drained: drained.as_ref().map(measured), little: *little }, figure)
        }
        JobTask::Drier { listed, open_long } => (StepTask::Drier { listed: *listed, open_long: *open_long }, None),
        JobTask::Rings => (StepTask::Rings, None),
        JobTask::OilKind { oil, suitability } => (StepTask::OilKind { oil: *oil, suitability: *suitability }, None),
        JobTask::LabelOil { range } => label_oil(sheet, range.as_ref()),
        JobTask::PartOil { part, oil } => {
            let (figure, oil) = part_oil(oil);
            (StepTask::PartOil { part: *part, oil }, figure)
        }
        JobTask::RecoveredOil { recovered, in_compressor } => {
            let figure = recovered.map(|oil| single(oil, Standing::Measured));
            (StepTask::RecoveredOil { recovered: recovered.map(oil_amount), in_compressor: *in_compressor }, figure)
        }
        JobTask::CompressorOil(oil) => {
            let (figure, oil) = compressor_oil(sheet, oil);
            let label = sheet.label_oil.as_ref().map(oil_span);
            (StepTask::CompressorOil { oil: Box::new(oil), label }, figure)
        }
        JobTask::WholeOil { label } => {
            let figure = label.as_ref().map(|range| volume(range, Standing::LabelAsRead));
            (StepTask::WholeOil { label: label.as_ref().map(oil_span) }, figure)
        }
        JobTask::TurnByHand => (StepTask::TurnByHand, None),
        JobTask::Tighten => (StepTask::Tighten, None),
        JobTask::Belt => (StepTask::Belt, None),
        JobTask::PressureTest => (StepTask::PressureTest, None),
        JobTask::Evacuate { gauge, open_long } => {
            let (figure, vacuum) = evacuate(sheet, gauge);
            (StepTask::Evacuate { vacuum: Box::new(vacuum), open_long: *open_long }, Some(figure))
        }
        JobTask::StandingVacuum => {
            let rise = Amount::new(job.vacuum.rise.kpa(), None, "kPa", 1);
            (StepTask::StandingVacuum { hold: minutes(job.vacuum.hold), rise }, None)
        }
        JobTask::Charge { hose } => {
            let grams = |mass: Mass| Amount::new(mass.g(), None, "g", 0);
            let nominal = job.charge.nominal();
            let figure = StepFigure { span: Span::new(nominal.g(), nominal.g(), "g", 0), standing: Standing::Label };
            let hose = hose.as_ref().map(|holdup| Span::new(holdup.low.g(), holdup.high.g(), "g", 0));
            let tolerance = job.charge.printed_tolerance().map(grams);
            (StepTask::Charge { nominal: grams(nominal), tolerance, hose }, Some(figure))
        }
        JobTask::LeakCheck { scales, allowed, tenth } => {
            let rate = |rate: &crate::quantity::MassRate| Amount::new(rate.g_per_year(), None, "g/yr", 0);
            let months = |time: &Time| Amount::new(12.0 * time.years(), None, "months", 0);
            let task = StepTask::LeakCheck {
                standard: scales.first().map(|finest| finest.standard.into()),
                scales: scales.iter().map(|scale| rate(&scale.leak)).collect(),
                allowed: allowed.as_ref().map(rate),
                tenth: tenth.iter().map(|(leak, time)| TenthRow { leak: rate(leak), takes: months(time) }).collect(),
            };
            (task, None)
        }
        // what it is compared with is known when the windows are
        JobTask::Read => (StepTask::Read { windows: WindowNote::NoAmbient }, None),
    }
}

fn minutes(time: Time) -> Amount {
    Amount::new(time.minutes(), None, "min", 0)
}

/// A range of oil, in whole cm³.
pub(in crate::report) fn oil_span(range: &Range<Volume>) -> Span {
    Span::new(range.low.cm3(), range.high.cm3(), "cm³", 0)
}

/// An amount of oil, in whole cm³.
pub(in crate::report) fn oil_amount(oil: Volume) -> Amount {
    Amount::new(oil.cm3(), None, "cm³", 0)
}

/// An amount of oil with its interval, or without one that is not worth writing.
fn measured(oil: &Measured<Volume>) -> Amount {
    let half = oil.expanded().cm3();
    Amount::new(oil.value().cm3(), (half >= WORTH_WRITING).then_some(half), "cm³", 0)
}

fn volume(range: &Range<Volume>, standing: Standing) -> StepFigure {
    StepFigure { span: oil_span(range), standing }
}

fn single(oil: Volume, standing: Standing) -> StepFigure {
    volume(&Range::new(oil, oil), standing)
}

/// An amount as the page prints it, in whole cm³.
fn printed(range: &Range<Volume>) -> (i64, i64) {
    (range.low.cm3().round() as i64, range.high.cm3().round() as i64)
}

fn part_oil(oil: &PartOil) -> (Option<StepFigure>, PartOilRow) {
    match oil {
        PartOil::Makers(range) => {
            (Some(volume(range, Standing::MakersFigure)), PartOilRow::Makers { oil: oil_span(range) })
        }
        PartOil::InCompressor(range) => {
            (Some(volume(range, Standing::MakersFigure)), PartOilRow::InCompressor { oil: oil_span(range) })
        }
        PartOil::Published(published) => {
            let (oil, on_top) = (oil_span(&published.range), published.on_top.as_ref().map(oil_span));
            let row = PartOilRow::Published { oil, rows: amount_rows(published), on_top };
            (Some(volume(&published.range, Standing::PublishedRange)), row)
        }
        PartOil::Unknown => (None, PartOilRow::Unknown),
    }
}

/// A work by its name without what kind of manual it is.
fn work(source: Source, remark: &'static str) -> WorkRow {
    WorkRow { work: source.work.split(", ").next().unwrap_or(source.work).into(), remark: remark.into() }
}

/// One row for each amount, with all who print it, from the least to the most.
fn amount_rows(published: &PublishedRange) -> Vec<AmountRow> {
    let mut works = published.works.clone();
    sort_by_number(&mut works, |(_, amount)| amount.high.si());
    sort_by_number(&mut works, |(_, amount)| amount.low.si());
    let mut rows: Vec<(Range<Volume>, AmountRow)> = Vec::new();
    for (found, amount) in works {
        let row = work(found.source, found.printed);
        match rows.last_mut() {
            Some((of, rows)) if printed(of) == printed(&amount) => rows.works.push(row),
            _ => rows.push((amount, AmountRow { oil: oil_span(&amount), works: vec![row] })),
        }
    }
    rows.into_iter().map(|(_, row)| row).collect()
}

/// One row for each rule and amount, with all who print it, from the least to the most.
fn rule_rows(published: &PublishedRules) -> Vec<RuleRow> {
    let mut outcomes: Vec<_> = published.outcomes.iter().collect();
    sort_by_number(&mut outcomes, |(_, outcome)| outcome.left.low.si());
    let mut rows: Vec<(CompressorOilRule, Range<Volume>, RuleRow)> = Vec::new();
    for (found, outcome) in outcomes {
        let (rule, left, by) = (found.rule, outcome.left, work(found.source, found.scope));
        match rows.iter_mut().find(|(of, oil, _)| *of == rule && printed(oil) == printed(&left)) {
            Some((_, _, row)) => row.works.push(by),
            None => rows.push((rule, left, RuleRow { rule: (&rule).into(), left: oil_span(&left), works: vec![by] })),
        }
    }
    rows.into_iter().map(|(_, _, row)| row).collect()
}

fn label_oil(sheet: &JobSheet, range: Option<&Range<Volume>>) -> (StepTask, Option<StepFigure>) {
    let label = sheet.job.oil.as_ref();
    let standing = match label.map(|label| (label.volume().is_ok(), label.metric().is_some())) {
        Some((false, true)) => Standing::LabelVolumeAlone,
        Some((false, false)) => Standing::LabelAnyOunce,
        Some((true, _)) | None => Standing::LabelAsRead,
    };
    let ounces = label.filter(|label| !label.verdicts().is_empty()).map_or(Vec::new(), statements);
    (StepTask::LabelOil { ounces }, range.map(|range| volume(range, standing)))
}

fn compressor_oil(sheet: &JobSheet, oil: &CompressorOil) -> (Option<StepFigure>, CompressorOilRow) {
    match oil {
        CompressorOil::NotMeasured => (None, CompressorOilRow::NotMeasured),
        CompressorOil::Makers { rule, swap, outcome } => {
            let row = CompressorOilRow::Makers { applied: Box::new(applied(rule, swap, outcome)) };
            (Some(volume(&outcome.left, Standing::MakersRule)), row)
        }
        CompressorOil::Published { spread, supplied } => {
            let drained = sheet.job.compressor.and_then(|swap| swap.drained).map(|oil| oil_amount(oil.value()));
            let adjustment = match supplied {
                Some(CompressorSupply::Filled { contents }) => Some(adjustment(*contents, &spread.left)),
                Some(CompressorSupply::Emptied | CompressorSupply::Dry | CompressorSupply::Used) | None => None,
            };
            let row = CompressorOilRow::Published {
                drained,
                left: oil_span(&spread.left),
                rows: rule_rows(spread),
                supply: supplied.map(Into::into),
                adjustment,
            };
            (Some(volume(&spread.left, Standing::PublishedRange)), row)
        }
    }
}

/// A maker's rule applied.
pub(in crate::report) fn applied(rule: &CompressorOilRule, swap: &OilBalance, outcome: &RuleResult) -> MakersRuleRow {
    MakersRuleRow {
        rule: rule.into(),
        supply: swap.supplied.into(),
        drained: oil_amount(swap.drained),
        counted: oil_amount(rule.counted(swap.drained)),
        other_parts: oil_amount(swap.other_parts),
        recovered: oil_amount(swap.recovered),
        action: match &outcome.action {
            OilAction::Pour { oil, empty_first } => {
                OilActionRow::Pour { oil: oil_span(oil), empty_first: *empty_first }
            }
            OilAction::TakeOut(oil) => OilActionRow::TakeOut { oil: oil_amount(*oil) },
            OilAction::AsItIs => OilActionRow::AsItIs,
        },
        left: oil_span(&outcome.left),
        departure: outcome.held.map(|held| match held {
            RuleDeparture::Floor(oil) => DepartureRow::Floor { oil: oil_amount(oil) },
            RuleDeparture::Cap(oil) => DepartureRow::Cap { oil: oil_amount(oil) },
            RuleDeparture::Short(oil) => DepartureRow::Short { oil: oil_amount(oil) },
        }),
    }
}

impl From<&CompressorOilRule> for OilRuleRow {
    fn from(rule: &CompressorOilRule) -> Self {
        let some = |oil: Volume| (oil.si() > 0.0).then(|| oil_amount(oil));
        let floor = |floor: Option<(Volume, Volume)>| {
            floor.map(|(below, instead)| OilFloorRow { below: oil_amount(below), instead: oil_amount(instead) })
        };
        match *rule {
            CompressorOilRule::Refill { floor: by, extra, extra_up_to } => {
                Self::Refill { floor: floor(by), extra: some(extra), extra_up_to: extra_up_to.map(oil_amount) }
            }
            CompressorOilRule::Subtract { residual, little } => {
                Self::Subtract { residual: some(residual), floor: floor(little) }
            }
            CompressorOilRule::Capped { cap } => Self::Capped { cap: oil_amount(cap) },
        }
    }
}

impl From<CompressorSupply> for SupplyRow {
    fn from(supplied: CompressorSupply) -> Self {
        match supplied {
            CompressorSupply::Filled { contents } => Self::Filled { contents: oil_amount(contents) },
            CompressorSupply::Emptied => Self::Emptied,
            CompressorSupply::Dry => Self::Dry,
            CompressorSupply::Used => Self::Used,
        }
    }
}

/// What brings a compressor filled with `contents` to what published rules leave in it.
fn adjustment(contents: Volume, left: &Range<Volume>) -> AdjustmentRow {
    let (out, into) = (contents - left.low, left.high - contents);
    if into.si() <= 0.0 {
        AdjustmentRow::Out { oil: oil_span(&Range::new(-into, out)) }
    } else if out.si() <= 0.0 {
        AdjustmentRow::In { oil: oil_span(&Range::new(-out, into)) }
    } else {
        AdjustmentRow::Either { out: oil_amount(out), into: oil_amount(into) }
    }
}

/// What the gauge shows is stated in inches of mercury, as most manuals print it; a page may write it in another unit.
fn evacuate(sheet: &JobSheet, gauge: &Range<GaugePressure>) -> (StepFigure, EvacuationRow) {
    let unit = crate::quantity::PressureUnit::InchOfMercury;
    let span = Span::new(gauge.low.value_in(unit), gauge.high.value_in(unit), unit.symbol(), 1);
    let vacuum = &sheet.job.vacuum;
    let row = EvacuationRow {
        target: Span::new(vacuum.target.low.kpa(), vacuum.target.high.kpa(), "kPa", 1),
        air: Amount::new(sheet.air.value().kpa(), None, "kPa", 1),
        gauge: span.clone(),
        within: minutes(vacuum.within),
        run: minutes(vacuum.run),
        water: water_at_target(sheet),
    };
    (StepFigure { span, standing: Standing::PrintedByOthers }, row)
}

/// What the asked-for vacuum does to water at the temperature of the day; `None` without it, or outside the saturation lines
/// of water.
fn water_at_target(sheet: &JobSheet) -> Option<WaterRow> {
    let ambient = Measured::exact(sheet.job.ambient?).ok()?;
    let target = sheet.job.vacuum.target;
    let boils = |p: Pressure| {
        water::saturation_temperature(p).ok().map(|t: Temperature| Amount::new(t.celsius(), None, "°C", 0))
    };
    let dry = |p: Pressure| {
        Some(DryingCheck::of(&Measured::exact(p).ok()?, &ambient).ok()?.outcome == AcceptanceOutcome::Passes)
    };
    let dries = match (dry(target.high)?, dry(target.low)?) {
        (true, _) => TargetDries::Both,
        (false, true) => TargetDries::BetterAlone,
        (false, false) => TargetDries::Neither,
    };
    Some(WaterRow { first: boils(target.high)?, better: boils(target.low)?, dries })
}

#[cfg(test)]
pub(super) mod tests;
