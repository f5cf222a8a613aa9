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
mod tests {
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
        assert!(
            matches!(blocks(&plain.page(), "questions"), [Block::List(ListMark::Question, asked)] if asked.len() == 1)
        );
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
        assert!(
            matches!(&blocks(&page, "healthy")[0], Block::Words(behind) if behind.contains("256 simulated circuits"))
        );
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
        report.equalised =
            Some(EqualisedRow { verdict, probability: None, difference: psi(1.0), noticeable: psi(2.0) });
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
        assert!(
            full.lines_in(Language::English)[4].starts_with("What to do next: Switch the air conditioning off now")
        );
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
        report.results =
            vec![row(Some(Span::new(24.0, 36.0, "psi", 0)), Some(verdict(Position::Above))), row(None, None)];
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
}
