//! The page about one reading, in full or on one screen.

use super::page::{AnswerMark, Block, Cell, ListMark, Page, Section, Table, Tone};
use super::words::{Label, Reasons, Words, cautions_in_short, verdict};
use super::{Amount, ChartBandRow, ChartCell, GaugeRow, HealthyRow, Language, Mark, Report, ResultRow, VerdictCell};
use crate::diagnosis::{Headline, LeadingGroup, NextStep};
use crate::inspection::Measurand;

/// How many things to do next a brief page names, and how many more for each gauge that was not read.
const NEXT: usize = 3;
const NEXT_UNREAD: usize = 1;

/// As likely as not, by definition.
const EVEN: f64 = 0.5;

impl Report {
    /// The report as a page in full, in English.
    #[must_use]
    pub fn page(&self) -> Page {
        self.page_in(Language::default())
    }

    /// The report as a page in full, in `language`.
    #[must_use]
    pub fn page_in(&self, language: Language) -> Page {
        self.page_worded(language.words())
    }

    /// The report as a page in full, in the sentences of `words`, a language of any crate.
    #[doc(hidden)]
    #[must_use]
    pub fn page_worded(&self, words: &dyn Words) -> Page {
        Layout { report: self, words }.page()
    }

    /// The report as a page of one screen, in English: conclusion, probability, reasons, next steps, cautions.
    ///
    /// What rests on print, the charts and the sources are left to [`Report::page`].
    #[must_use]
    pub fn brief(&self) -> Page {
        self.brief_in(Language::default())
    }

    /// The report as a page of one screen, in `language`.
    #[must_use]
    pub fn brief_in(&self, language: Language) -> Page {
        self.brief_worded(language.words())
    }

    /// The report as a page of one screen, in the sentences of `words`, a language of any crate.
    #[doc(hidden)]
    #[must_use]
    pub fn brief_worded(&self, words: &dyn Words) -> Page {
        Layout { report: self, words }.brief()
    }

    /// The report in at most six lines, in `language`, for a message or a small screen: title and conditions, conclusion, what was read
    /// with its windows, the causes worth naming, the first thing to do, cautions. Lines are not folded.
    ///
    /// ```
    /// use satline::Refrigerant;
    /// use satline::diagnosis::Diagnosis;
    /// use satline::report::Language;
    /// let report = Diagnosis::of(Refrigerant::R134a).low("22 psi")?.high("160 psi")?.ambient("86 °F")?.run()?.report();
    /// let lines = report.lines_in(Language::English);
    /// assert!(lines.len() <= 6 && lines[1].contains("Most likely: charge too low"), "{lines:?}");
    /// # Ok::<(), satline::Error>(())
    /// ```
    #[must_use]
    pub fn lines_in(&self, language: Language) -> Vec<String> {
        Layout { report: self, words: language.words() }.lines()
    }

    /// Whether the conclusion is that the circuit is healthy: every reading inside its window, and no fault likelier than not.
    #[must_use]
    pub fn is_healthy(&self) -> bool {
        answer_mark(&self.advice.headline) == AnswerMark::Good
    }

    /// What to do next, in order, in the sentences of `words`.
    pub(super) fn next_steps(&self, words: &dyn Words) -> Vec<String> {
        Layout { report: self, words }.next_steps()
    }

    /// The report in English as plain text, no line longer than `width` columns (at least 40).
    #[must_use]
    pub fn text(&self, width: usize) -> String {
        self.page().text(width)
    }
}

/// Whether a conclusion is good, bad or open; the comparison of an equalised circuit is none of them.
fn answer_mark(headline: &Headline) -> AnswerMark {
    match headline {
        // inside every window, and more likely healthy than not: our choice
        Headline::Healthy { no_fault } if *no_fault >= EVEN => AnswerMark::Good,
        Headline::Faulty { .. }
        | Headline::Empty
        | Headline::NoLiquidLeft
        | Headline::HighSideAtAir
        | Headline::LiquidLineBelowAmbient => AnswerMark::Bad,
        Headline::Healthy { .. }
        | Headline::Unusual { .. }
        | Headline::NothingUnusualYet { .. }
        | Headline::OutsideModel { .. } => AnswerMark::Open,
        Headline::ComparedOnly { .. } | Headline::Equalised => AnswerMark::None,
    }
}

/// A report to be laid out in one language.
struct Layout<'a> {
    report: &'a Report,
    words: &'a dyn Words,
}

impl Layout<'_> {
    fn page(&self) -> Page {
        let mut opening = self.words.opening(self.report);
        opening.push(self.words.instruments(&self.report.opening));
        let mut page = self.begun(opening);
        page.add(Section::list("next", self.words.label(Label::Next), &self.next_steps()));
        page.add(self.pressures());
        if let Some(healthy) = &self.report.healthy {
            let table = self.healthy_table();
            if !table.rows.is_empty() {
                let blocks = vec![Block::Words(self.words.behind(healthy)), Block::Table(table)];
                page.add(Section::new("healthy", self.words.label(Label::Healthy), blocks));
            }
        }
        let meaning = self.what_it_means();
        // where no cause is named, the comparison is the answer; else it is what one may look up
        let after = if self.report.causes.is_some() {
            page.add(Section::list(
                "causes",
                self.words.label(Label::Causes),
                &self.words.explanation(self.report, Reasons::Full),
            ));
            vec![self.compared_with_print(), meaning]
        } else {
            page.add(self.compared_with_print());
            page.add(meaning);
            Vec::new()
        };
        let cautions: Vec<String> =
            self.report.cautions.iter().map(|&caution| self.words.caution(caution, &self.report.refrigerant)).collect();
        page.add(Section::list("safety", self.words.label(Label::Safety), &cautions).tone(Tone::Caution));
        after.into_iter().for_each(|section| page.add(section));
        page.add(Section::new("charts", self.words.label(Label::Charts), self.charts_table()));
        let sources: Vec<String> =
            self.report.sources.iter().map(|row| self.words.source(row, &self.report.refrigerant)).collect();
        page.add(Section::list("sources", self.words.label(Label::Sources), &sources).tone(Tone::Fine));
        page
    }

    fn brief(&self) -> Page {
        let mut page = self.begun(self.words.opening(self.report));
        let most = NEXT + NEXT_UNREAD * (2 - self.report.gauges.len().min(2));
        let next: Vec<String> = self.next_steps().into_iter().take(most).collect();
        page.add(Section::list("next", self.words.label(Label::Next), &next));
        match &self.report.healthy {
            Some(healthy) => {
                let table = self.healthy_table();
                if !table.rows.is_empty() {
                    let saturated = self.words.saturated(self.report).map(Block::Words);
                    let behind = Block::Words(self.words.behind_in_short(healthy));
                    let blocks = saturated.into_iter().chain([Block::Table(table), behind]).collect();
                    page.add(Section::new("healthy", self.words.label(Label::Healthy), blocks));
                }
            }
            None => {
                page.add(self.pressures());
                page.add(self.compared_with_print());
            }
        }
        if self.report.causes.is_some() {
            page.add(Section::list(
                "causes",
                self.words.label(Label::Causes),
                &self.words.explanation(self.report, Reasons::Short),
            ));
        } else {
            page.add(self.what_it_means());
        }
        let safety = vec![Block::Words(cautions_in_short(self.words, self.report))];
        page.add(Section::new("safety", self.words.label(Label::Safety), safety).tone(Tone::Caution));
        page
    }

    fn lines(&self) -> Vec<String> {
        let (words, n) = (self.words, self.words.numerals());
        let title = format!("{}. {}", words.title(self.report), words.opening(self.report).join(" "));
        let mark = answer_mark(&self.report.advice.headline).symbol();
        let headline = words.headline(self.report);
        let answer = if headline.is_empty() { headline } else { format!("{mark}{headline}") };
        let read = match &self.report.healthy {
            Some(healthy) if !healthy.rows.is_empty() => {
                let row = |row: &HealthyRow| {
                    let (name, window) = (words.quantity(row.quantity), n.span(&row.window));
                    format!("{name} {} {} ({window})", n.plain(&row.value), words.position(row.verdict.position))
                };
                healthy.rows.iter().map(row).collect::<Vec<_>>().join("; ")
            }
            _ => {
                let row = |row: &GaugeRow| {
                    let at = row.saturation.as_ref();
                    let at = at.map(|at| format!(", {} {}", words.label(Label::SaturatedAt), n.plain(at)));
                    format!("{} {}{}", words.side(row.side), n.plain(&row.gauge), at.unwrap_or_default())
                };
                self.report.gauges.iter().map(row).collect::<Vec<_>>().join("; ")
            }
        };
        let cause = |group: &LeadingGroup| {
            let names: Vec<&str> = group.causes.iter().map(|&cause| words.cause(cause).name).collect();
            format!("{} {}", names.join(" / "), n.percent(group.probability))
        };
        let causes: Vec<String> = self.report.advice.leading.iter().map(cause).collect();
        let causes = match causes.join("; ") {
            none if none.is_empty() => none,
            some => format!("{}: {some}", words.label(Label::Causes)),
        };
        let next = self.next_steps().into_iter().next();
        let next = next.map_or(String::new(), |next| format!("{}: {next}", words.label(Label::Next)));
        let cautions: Vec<&str> = self.report.cautions.iter().map(|&one| words.caution_in_a_word(one)).collect();
        let cautions = format!("{}: {}.", words.label(Label::Safety), cautions.join("; "));
        let lines = [title, answer, read, causes, next, cautions];
        lines.into_iter().filter(|line| !line.is_empty()).collect()
    }

    fn begun(&self, opening: Vec<String>) -> Page {
        let (title, headline) = (self.words.title(self.report), self.words.headline(self.report));
        let mut page = Page::with_header(title, opening, headline, self.words.furniture());
        page.mark = answer_mark(&self.report.advice.headline);
        let questions: Vec<String> = self.report.questions.iter().map(|one| self.words.question(one)).collect();
        let list = vec![Block::List(ListMark::Question, questions)];
        page.add(Section::new("questions", self.words.label(Label::Questions), list));
        page
    }

    /// What to do next, what must stop first.
    fn next_steps(&self) -> Vec<String> {
        let stops = self.report.advice.stops.iter().map(|&stop| self.words.stop(stop).to_owned());
        let is_measurement = |one: &NextStep| matches!(one, NextStep::Measure { .. });
        let first = self.report.advice.next.iter().position(is_measurement);
        let steps = self.report.advice.next.iter().enumerate();
        stops.chain(steps.map(|(i, one)| self.words.step(one, self.report.causes.as_ref(), Some(i) == first))).collect()
    }

    fn healthy_table(&self) -> Table {
        let rows = self.report.healthy.iter().flat_map(|healthy| &healthy.rows).map(|row| {
            self.compared(
                self.words.quantity(row.quantity),
                &row.value,
                self.words.numerals().span(&row.window),
                Some(row.verdict),
            )
        });
        Table::new(self.compared_head(), rows)
    }

    fn pressures(&self) -> Section {
        let blend = self.report.opening.blend;
        let saturated = self.words.label(if blend { Label::DewPoint } else { Label::SaturatedAt });
        let row = |row: &GaugeRow| -> [Cell; 5] {
            let n = self.words.numerals();
            let bubble = row.bubble.as_ref().map_or(String::new(), |t| n.amount(t));
            let at = row.saturation.as_ref();
            let at = at.map_or(self.words.label(Label::AboveCritical).to_owned(), |t| n.amount(t));
            [
                self.words.side(row.side).into(),
                n.plain(&row.gauge).into(),
                n.plain(&row.absolute).into(),
                at.into(),
                bubble.into(),
            ]
        };
        let bubble = if blend { self.words.label(Label::BubblePoint) } else { "" };
        let head = ["", self.words.label(Label::Gauge), self.words.label(Label::Absolute), saturated, bubble];
        let mut table = Table::new(head, self.report.gauges.iter().map(row)).without_empty_columns();
        table.numbers = true;
        Section::new("pressures", self.words.label(Label::Pressures), vec![Block::Table(table)])
    }

    /// What each value means; of an equalised circuit without the first statement, which is the answer.
    fn what_it_means(&self) -> Section {
        let said = usize::from(self.report.equalised.is_some()).min(self.report.meaning.len());
        let sentences: Vec<String> =
            self.report.meaning[said..].iter().map(|statement| self.words.statement(statement, self.report)).collect();
        Section::list("meaning", self.words.label(Label::Meaning), &sentences)
    }

    fn compared_with_print(&self) -> Section {
        let row = |row: &ResultRow| {
            let window = row.window.as_ref();
            let window = window.map_or(self.words.label(Label::NoWindow).to_owned(), |w| self.words.numerals().span(w));
            self.compared(self.words.quantity(row.quantity), &row.value, window, row.verdict)
        };
        let table = Table::new(self.compared_head(), self.report.results.iter().map(row));
        let heading = if self.report.equalised.is_some() {
            self.words.label(Label::AgainstSaturation)
        } else {
            self.words.label(Label::AgainstPrint)
        };
        Section::new("print", heading, vec![Block::Table(table)])
    }

    fn charts_table(&self) -> Vec<Block> {
        let cell = |cell: &Option<ChartCell>| -> Cell {
            cell.as_ref().map_or(Cell::default(), |cell| Cell {
                text: format!(
                    "{} {}",
                    self.words.numerals().bare_span(&cell.window),
                    self.words.position(cell.position)
                ),
                position: Some(cell.position),
            })
        };
        let mut legend: Vec<Mark> = Vec::new();
        let rows: Vec<[Cell; 4]> = self
            .report
            .charts
            .iter()
            .map(|row| {
                let letters: String = row.marks.iter().map(|&mark| self.words.mark(mark).0).collect();
                let name =
                    if letters.is_empty() { row.chart.to_string() } else { format!("{} ({letters})", row.chart) };
                legend.extend(&row.marks);
                [name.into(), cell(&row.low), cell(&row.high), cell(&row.vent)]
            })
            .collect();
        legend.sort_unstable();
        legend.dedup();
        let head = [
            self.words.label(Label::Chart),
            &self.head(Measurand::LowSide, &self.report.charts, |row| &row.low),
            &self.head(Measurand::HighSide, &self.report.charts, |row| &row.high),
            &self.head(Measurand::Vent, &self.report.charts, |row| &row.vent),
        ];
        let mut table = Table::new(head, rows).without_empty_columns();
        let meaning = |mark: &Mark| {
            let (letter, meaning) = self.words.mark(*mark);
            format!("({letter}) {meaning}")
        };
        table.legend = legend.iter().map(meaning).collect();
        vec![Block::Table(table)]
    }

    fn compared_head(&self) -> [&'static str; 4] {
        ["", self.words.label(Label::Read), self.words.label(Label::Window), self.words.label(Label::Result)]
    }

    fn compared(&self, name: &str, value: &Amount, window: String, found: Option<VerdictCell>) -> [Cell; 4] {
        let result = Cell {
            text: found.map_or(String::new(), |found| verdict(self.words, &found)),
            position: found.map(|found| found.position),
        };
        [name.into(), self.words.numerals().amount(value).into(), window.into(), result]
    }

    /// The head of a chart column, with the unit of its first cell.
    fn head(&self, of: Measurand, rows: &[ChartBandRow], pick: impl Fn(&ChartBandRow) -> &Option<ChartCell>) -> String {
        let first = rows.iter().find_map(|row| pick(row).as_ref());
        first.map_or(String::new(), |cell| format!("{}, {}", self.words.measurand(of), cell.window.unit))
    }
}

#[cfg(test)]
mod tests;
