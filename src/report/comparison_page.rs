//! Pages about two reports on one circuit: for the workshop, and for the customer.

use super::comparison::{Comparison, ComparisonOutcome, ShiftRow, compare};
use super::page::{AnswerMark, Block, Cell, Page, Section, Table, Tone};
use super::words::{ComparisonLabel, ComparisonWords, Label, Words, capitalised, cautions_in_short};
use super::{Language, Report};
use crate::Error;
use crate::diagnosis::JudgedQuantity;
use crate::inspection::Measurand;

/// How many things to do next the page names.
const NEXT: usize = 3;

/// Page on what moved between two reports on the same circuit, in `language`: each quantity before and after, whether it moved as a
/// repair makes it move, and what to do next.
///
/// # Errors
/// Those of [`compare`].
///
/// ```
/// use satline::Refrigerant;
/// use satline::diagnosis::Diagnosis;
/// use satline::report::{Language, comparison_page};
/// let read = |low, high| Ok::<_, satline::Error>(Diagnosis::of(Refrigerant::R134a).low(low)?.high(high)?.ambient("86 °F")?.run()?.report());
/// let page = comparison_page(&read("12 psi", "110 psi")?, &read("35 psi", "205 psi")?, Language::English)?;
/// assert!(page.text(80).contains("into its window"));
/// # Ok::<(), satline::Error>(())
/// ```
pub fn comparison_page(before: &Report, after: &Report, language: Language) -> Result<Page, Error> {
    let layout = Layout::new(before, after, language)?;
    let Layout { words, says, comparison, .. } = &layout;
    let answer = says.outcome(comparison.outcome).to_owned();
    let mut page = layout.begun(says.title(&after.refrigerant), answer);
    let mut blocks = vec![Block::Table(layout.table(ComparisonLabel::Moved, |row| says.shift(row.shift).to_owned()))];
    blocks.push(Block::Words(says.own_days().to_owned()));
    if !comparison.read_once.is_empty() {
        let names: Vec<&str> = comparison.read_once.iter().map(|&one| words.quantity(one)).collect();
        blocks.push(Block::Words(says.read_once(&names)));
    }
    page.add(Section::new("moved", says.label(ComparisonLabel::WhatMoved), blocks));
    let causes: Vec<String> = comparison.led.iter().map(|led| says.led(led)).chain([words.headline(after)]).collect();
    page.add(Section::list("now", says.label(ComparisonLabel::Now), &causes));
    let next: Vec<String> = after.next_steps(*words).into_iter().take(NEXT).collect();
    page.add(Section::list("next", words.label(Label::Next), &next));
    let safety = vec![Block::Words(cautions_in_short(*words, after))];
    page.add(Section::new("safety", words.label(Label::Safety), safety).tone(Tone::Caution));
    Ok(page)
}

/// One sheet for the customer, in `language`: how the air conditioning was before and is now, and what was `done`.
///
/// # Errors
/// Those of [`compare`].
///
/// ```
/// use satline::Refrigerant;
/// use satline::diagnosis::Diagnosis;
/// use satline::report::{Language, customer_page};
/// let read = |low, high, vent| {
///     let request = Diagnosis::of(Refrigerant::R134a).low(low)?.high(high)?.ambient("86 °F")?;
///     Ok::<_, satline::Error>(request.measured(satline::inspection::Measurand::Vent, vent)?.run()?.report())
/// };
/// let (before, after) = (read("12 psi", "110 psi", "70 °F")?, read("35 psi", "205 psi", "50 °F")?);
/// let done = ["O-ring at the condenser replaced".to_owned(), "charged with 550 g".to_owned()];
/// let sheet = customer_page(&before, &after, &done, Language::English)?;
/// assert!(sheet.text(80).contains("O-ring at the condenser replaced"));
/// # Ok::<(), satline::Error>(())
/// ```
pub fn customer_page(before: &Report, after: &Report, done: &[String], language: Language) -> Result<Page, Error> {
    let layout = Layout::new(before, after, language)?;
    let Layout { words, says, comparison, .. } = &layout;
    let n = words.numerals();
    let vent = comparison.rows.iter().find(|row| row.quantity == JudgedQuantity::Measured(Measurand::Vent));
    let vent = vent.map(|row| says.vent(&n.plain(&row.before), &n.plain(&row.after)));
    let answer = [Some(says.for_customer(comparison.outcome).to_owned()), vent].into_iter().flatten();
    let mut page =
        layout.begun(says.label(ComparisonLabel::ForCustomer).to_owned(), answer.collect::<Vec<_>>().join(" "));
    page.add(Section::new("found", says.label(ComparisonLabel::Found), vec![Block::Words(words.headline(before))]));
    page.add(Section::list("done", says.label(ComparisonLabel::Done), done));
    let table = layout.table(ComparisonLabel::ShouldBe, |row| n.span(&row.window));
    page.add(Section::new("measured", says.label(ComparisonLabel::Measured), vec![Block::Table(table)]));
    page.add(Section::list("care", says.label(ComparisonLabel::Care), &says.care()).tone(Tone::Caution));
    Ok(page)
}

/// Two reports to be laid out in one language.
struct Layout<'a> {
    before: &'a Report,
    after: &'a Report,
    comparison: Comparison,
    words: &'static dyn Words,
    says: &'static dyn ComparisonWords,
}

impl<'a> Layout<'a> {
    fn new(before: &'a Report, after: &'a Report, language: Language) -> Result<Self, Error> {
        let comparison = compare(before, after)?;
        Ok(Self { before, after, comparison, words: language.words(), says: language.comparison_words() })
    }

    /// A page with the conditions of both days.
    fn begun(&self, title: String, answer: String) -> Page {
        let mut opening = Vec::new();
        for (label, report) in [(ComparisonLabel::Before, self.before), (ComparisonLabel::After, self.after)] {
            let said = self.words.opening(report);
            opening.push(capitalised(&format!("{}: {}", self.says.label(label), said.join(" "))));
        }
        let mut page = Page::with_header(title, opening, answer, self.words.furniture());
        page.mark = mark(self.comparison.outcome);
        page
    }

    /// The quantities before and after, with `last` in the last column under its head.
    fn table(&self, head: ComparisonLabel, last: impl Fn(&ShiftRow) -> String) -> Table {
        let n = self.words.numerals();
        let cell = |value: String, position| Cell {
            text: format!("{value} {}", self.words.position(position)),
            position: Some(position),
        };
        let rows = self.comparison.rows.iter().map(|row| -> [Cell; 4] {
            [
                self.words.quantity(row.quantity).into(),
                cell(n.plain(&row.before), row.before_position),
                cell(n.plain(&row.after), row.after_position),
                last(row).into(),
            ]
        });
        let head = [ComparisonLabel::Before, ComparisonLabel::After, head].map(|label| self.says.label(label));
        Table::new(["", head[0], head[1], head[2]], rows)
    }
}

fn mark(outcome: ComparisonOutcome) -> AnswerMark {
    match outcome {
        ComparisonOutcome::Repaired | ComparisonOutcome::StillHealthy => AnswerMark::Good,
        ComparisonOutcome::Better | ComparisonOutcome::Mixed => AnswerMark::Open,
        ComparisonOutcome::Unchanged | ComparisonOutcome::Worse => AnswerMark::Bad,
    }
}
