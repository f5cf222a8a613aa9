//! The job sheet laid out.

use super::job::StepFigure;
use super::job_tasks::{CompressorOilRow, PartOilRow, StepTask, SupplyRow};
use super::page::{Block, ListMark, Page, Section, Step, Table, Tone};
use super::words::{JobLabel, JobWords};
use super::{JobReport, Language, Span};
use crate::quantity::Unit;
use crate::service::oil::part::ReplacedPart;
use crate::{GaugePressure, Quantity};

/// A sheet laid out in `language`.
fn laid_out(report: &JobReport, language: Language) -> Page {
    let (words, n) = (language.job_words(), language.words().numerals());
    let label = |of| words.label(of);
    let mut page = Page::begun(&words.opening(report), String::new(), language.words().furniture());
    let questions = report.questions.iter().map(|one| words.question(one)).collect();
    page.add(Section::new("questions", label(JobLabel::Questions), vec![Block::List(ListMark::Question, questions)]));
    let steps = report
        .steps
        .iter()
        .map(|step| {
            let figure = step.figure.as_ref().map(|figure| n.joined(&in_unit(&step.task, figure, words)));
            let title = words.title(&step.task, report.opening.new_compressor);
            Step {
                title: figure.map_or(title.clone(), |figure| format!("{title}: {figure}")),
                standing: step.figure.as_ref().map_or("", |figure| words.standing(figure.standing)).to_owned(),
                words: sentences(&step.task, report, language),
                cautions: step.cautions.iter().map(|&one| words.caution(one, report.refrigerant)).collect(),
                basis: step.basis.clone(),
            }
        })
        .collect();
    page.add(Section::new("steps", label(JobLabel::Steps), vec![Block::Steps(steps)]));
    let windows = report
        .windows
        .iter()
        .map(|row| [words.window(row.quantity).into(), n.span(&row.window).into(), words.ground(&row.basis).into()]);
    let head = [JobLabel::What, JobLabel::Window, JobLabel::Basis].map(label);
    page.add(Section::new("windows", label(JobLabel::Windows), vec![Block::Table(Table::new(head, windows))]));
    let measure: Vec<String> = report.measure.iter().map(|&what| words.measurement(what).to_owned()).collect();
    page.add(Section::list("measure", label(JobLabel::Measure), &measure));
    let cautions = language.cautions(report.refrigerant);
    page.add(Section::list("mind", label(JobLabel::Safety), &cautions).tone(Tone::Caution));
    let sources = vec![Block::List(ListMark::Number, report.sources.clone())];
    page.add(Section::new("sources", label(JobLabel::Sources), sources).tone(Tone::Fine));
    page
}

/// The span of a figure, that of a vacuum in the unit in which the language states one.
fn in_unit(task: &StepTask, figure: &StepFigure, words: &dyn JobWords) -> Span {
    if !matches!(task, StepTask::Evacuate { .. }) {
        return figure.span.clone();
    }
    let (unit, decimals) = words.vacuum_unit();
    let [low, high] = [figure.span.low, figure.span.high].map(|inhg| GaugePressure::from_inhg(inhg).value_in(unit));
    Span::new(low, high, unit.symbol(), decimals)
}

/// The sentences on how and why of a step.
fn sentences(task: &StepTask, report: &JobReport, language: Language) -> Vec<String> {
    let (words, r, drive) = (language.job_words(), report.refrigerant, report.opening.drive);
    match task {
        StepTask::ClutchFirst => words.clutch_first(),
        StepTask::FindLeak => words.find_leak(),
        StepTask::MakeSafe => words.make_safe(),
        StepTask::OilReturn { at_least } => words.oil_return(at_least),
        StepTask::Recover => words.recover(r, &report.opening.charge),
        StepTask::Open => words.open(),
        StepTask::Drain { drained, little } => words.drain(drive, drained.as_ref(), *little),
        StepTask::Drier { listed, open_long } => words.drier(*listed, *open_long),
        StepTask::Rings => words.rings(r),
        StepTask::OilKind { oil, suitability } => words.oil_kind(oil.zip(*suitability), drive, r),
        StepTask::LabelOil { ounces } => {
            let of_label = ounces.iter().map(|one| language.label_words().statement(one));
            std::iter::once(words.label_is_a_check()).chain(of_label).collect()
        }
        StepTask::PartOil { part, oil } => part_oil(*part, oil, words),
        StepTask::RecoveredOil { recovered, in_compressor } => {
            vec![words.recovered_oil(recovered.as_ref(), *in_compressor)]
        }
        StepTask::CompressorOil { oil, label } => {
            let mut sentences = compressor_oil(oil, words);
            sentences.extend(label.as_ref().map(|label| words.circuit_holds(label)));
            sentences
        }
        StepTask::WholeOil { label } => vec![words.whole_oil(label.as_ref())],
        StepTask::TurnByHand => words.turn_by_hand(),
        StepTask::Tighten => words.tighten(),
        StepTask::Belt => words.belt(),
        StepTask::PressureTest => words.pressure_test(),
        StepTask::Evacuate { vacuum, open_long } => words.evacuate(vacuum, *open_long),
        StepTask::StandingVacuum { hold, rise } => words.standing_vacuum(hold, rise),
        StepTask::Charge { nominal, tolerance, hose } => words.charge(nominal, tolerance.as_ref(), hose.as_ref(), r),
        StepTask::LeakCheck { standard, scales, allowed, tenth } => {
            words.leak_check(standard.as_deref(), scales, allowed.as_ref(), tenth)
        }
        StepTask::Read { windows } => {
            words.read().into_iter().chain([words.window_note(*windows).to_owned()]).collect()
        }
    }
}

fn part_oil(part: ReplacedPart, oil: &PartOilRow, words: &dyn JobWords) -> Vec<String> {
    match oil {
        PartOilRow::Makers { oil } => vec![words.makers_part_oil(part, oil)],
        PartOilRow::InCompressor { oil } => vec![words.part_oil_in_compressor(oil)],
        PartOilRow::Published { oil, rows, on_top } => words.published_part_oil(part, oil, rows, on_top.as_ref()),
        PartOilRow::Unknown => vec![words.unknown_part_oil(part)],
    }
}

fn compressor_oil(oil: &CompressorOilRow, words: &dyn JobWords) -> Vec<String> {
    match oil {
        CompressorOilRow::NotMeasured => vec![words.compressor_not_drained()],
        CompressorOilRow::Makers { applied } => words.makers_rule(applied),
        CompressorOilRow::Published { drained, left, rows, supply, adjustment } => {
            let mut sentences = words.published_rules(drained.as_ref(), left, rows);
            sentences.push(match (supply, adjustment) {
                (Some(SupplyRow::Filled { contents }), Some(adjustment)) => words.comes_filled(contents, adjustment),
                (Some(SupplyRow::Emptied | SupplyRow::Dry), _) => words.comes_empty(),
                (Some(SupplyRow::Used), _) => words.comes_used(),
                (Some(SupplyRow::Filled { .. }) | None, _) => words.supply_unknown(),
            });
            sentences
        }
    }
}

impl JobReport {
    /// The job sheet laid out as a page in English, ready to be written.
    #[must_use]
    pub fn page(&self) -> Page {
        self.page_in(Language::English)
    }

    /// The job sheet laid out as a page in `language`.
    #[must_use]
    pub fn page_in(&self, language: Language) -> Page {
        laid_out(self, language)
    }

    /// The job sheet as plain text, no line longer than `width` columns (at least 40).
    #[must_use]
    pub fn text(&self, width: usize) -> String {
        self.page().text(width)
    }

    /// The job sheet as Markdown.
    #[must_use]
    pub fn markdown(&self) -> String {
        self.page().markdown()
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::expected::ChartSet;
    use crate::inspection::Entry;
    use crate::report::job_steps::tests::job;

    #[test]
    fn the_sheet_is_laid_out_in_the_order_of_the_work() {
        let job = job();
        let charts = ChartSet::new(job.refrigerant).unwrap();
        let report = crate::report::job(&job, &charts, None, &Entry::default().units()).unwrap();
        let page = report.page();
        let names: Vec<&str> = page.sections.iter().map(|section| section.name).collect();
        assert_eq!(names, ["questions", "steps", "windows", "measure", "mind", "sources"]);
        assert_eq!(
            (page.title.as_str(), page.answer.as_str()),
            ("Job sheet: R-134a, 550 g, belt-driven compressor", "")
        );
        let [Block::Steps(steps)] = &page.sections[1].blocks[..] else { panic!("no steps") };
        let drain = steps.iter().find(|step| step.title.starts_with("Drain")).unwrap();
        assert_eq!((&*drain.title, &*drain.standing), ("Drain the old compressor and measure: 70 cm³", "measured"));
        let open = steps.iter().find(|step| step.title.starts_with("Open")).unwrap();
        assert_eq!((&*open.title, &*open.standing), ("Open and cap", ""));
        assert_eq!(steps.len(), report.steps.len());
        assert_eq!((report.text(60), report.markdown()), (page.text(60), page.markdown()));
    }
}
