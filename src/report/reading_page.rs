//! The page about one reading, in full or on one screen.

use super::amount::word;
use super::page::{Block, Cell, ListMark, Page, Section, Table, Tone};
use super::{Amount, ChartCell, ChartRow, GaugeRow, Mark, Report, ResultRow, VerdictCell, causes, cautions};

/// How many things to do next a brief page names, and how many more for each gauge that was not read.
const NEXT: usize = 3;
const NEXT_UNREAD: usize = 1;

impl Report {
    /// The whole page.
    #[must_use]
    pub fn page(&self) -> Page {
        let mut page = self.begun(&self.opening);
        page.add(self.pressures());
        if let Some(healthy) = &self.healthy {
            let rows = healthy
                .rows
                .iter()
                .map(|row| compared(&row.name, &row.value, row.window.to_string(), Some(row.verdict)));
            let table = Table::new(COMPARED, rows);
            if !table.rows.is_empty() {
                page.add(Section::new(
                    "healthy",
                    "Against healthy cars on this day",
                    vec![Block::Words(healthy.behind.clone()), Block::Table(table)],
                ));
            }
        }
        let meaning = self.what_it_means();
        // where no cause is named, the comparison is the answer; else it is what one may look up
        let after = match &self.causes {
            Some(causes) => {
                page.add(Section::list("causes", "What explains it", &causes::words(causes)));
                vec![self.compared_with_print(), meaning]
            }
            None => {
                page.add(self.compared_with_print());
                page.add(meaning);
                Vec::new()
            }
        };
        page.add(Section::list("next", "What to do next", &self.next));
        page.add(Section::list("mind", "Mind", &self.cautions).tone(Tone::Caution));
        after.into_iter().for_each(|section| page.add(section));
        page.add(Section::new("charts", "Charts for this day, and where the reading lies", self.charts_table()));
        page.add(Section::list("sources", "Sources", &self.sources).tone(Tone::Fine));
        page
    }

    /// The page on one screen: what is wrong or not, how sure, why, what to do next, what can hurt.
    ///
    /// What rests on print, the charts and the sources are left to [`Report::page`].
    #[must_use]
    pub fn brief(&self) -> Page {
        let mut opening = self.opening.clone();
        // which instruments: in full on the whole page
        opening.truncate(opening.len().saturating_sub(1).max(1));
        let mut page = self.begun(&opening);
        match &self.healthy {
            Some(healthy) => {
                let rows = healthy
                    .rows
                    .iter()
                    .map(|row| compared(&row.name, &row.value, row.window.to_string(), Some(row.verdict)));
                let words =
                    format!("Windows hold nine tenths of {} healthy cars; ± is the 95 % interval.", healthy.cars);
                let table = Table::new(COMPARED, rows);
                if !table.rows.is_empty() {
                    let told =
                        [self.saturated().map(Block::Words), Some(Block::Table(table)), Some(Block::Words(words))];
                    page.add(Section::new(
                        "healthy",
                        "Against healthy cars on this day",
                        told.into_iter().flatten().collect(),
                    ));
                }
            }
            None => {
                page.add(self.pressures());
                page.add(self.compared_with_print());
            }
        }
        match &self.causes {
            Some(causes) => page.add(Section::list("causes", "What explains it", &causes::brief(causes))),
            None => page.add(self.what_it_means()),
        }
        let most = NEXT + NEXT_UNREAD * (2 - self.gauges.len().min(2));
        let next: Vec<String> = self.next.iter().take(most).cloned().collect();
        page.add(Section::list("next", "What to do next", &next));
        page.add(
            Section::new("mind", "Mind", vec![Block::Words(cautions::in_short(&self.refrigerant))]).tone(Tone::Caution),
        );
        page
    }

    /// The page as plain text, no line longer than `width` columns (at least 40).
    #[must_use]
    pub fn text(&self, width: usize) -> String {
        self.page().text(width)
    }

    fn begun(&self, opening: &[String]) -> Page {
        let nothing = |row: &GaugeRow| row.gauge.value.abs() <= row.gauge.plus_minus.unwrap_or(0.0);
        let empty = self.gauges.iter().all(nothing);
        let answer = match (&self.causes, &self.rest) {
            _ if empty && self.gauges.len() == 2 => EMPTY.to_owned(),
            _ if empty && self.gauges.iter().any(|row| row.name == "high side") => EMPTY_HIGH.to_owned(),
            (Some(causes), _) => causes::answer(causes, self.healthy.as_ref()),
            // what both gauges say is the first of its sentences
            (None, Some(_)) => self.meaning.first().cloned().unwrap_or_default(),
            (None, None) => String::new(),
        };
        // a blocked circuit draws the low side down as far
        let answer = match self.gauges.as_slice() {
            [low] if empty && low.name == "low side" => format!("{LOW_AT_NOTHING} {answer}").trim_end().to_owned(),
            _ => answer,
        };
        let mut page = Page::begun(opening, answer);
        page.add(Section::new(
            "questions",
            "Is that what was meant?",
            vec![Block::List(ListMark::Question, self.questions.clone())],
        ));
        page
    }

    fn pressures(&self) -> Section {
        let blend = self.gauges.iter().any(|row| row.bubble.is_some());
        let saturated = if blend { "dew point" } else { "saturated at" };
        let row = |row: &GaugeRow| -> [Cell; 5] {
            let bubble = row.bubble.as_ref().map_or(String::new(), ToString::to_string);
            [(&*row.name).into(), row.gauge.plain().into(), row.absolute.plain().into(), at(row).into(), bubble.into()]
        };
        let head = ["", "gauge", "absolute", saturated, if blend { "bubble point" } else { "" }];
        let mut table = Table::new(head, self.gauges.iter().map(row)).without_empty_columns();
        table.numbers = true;
        Section::new("pressures", "Pressures", vec![Block::Table(table)])
    }

    /// The saturation temperatures of the gauges in a sentence; nothing where none was read.
    fn saturated(&self) -> Option<String> {
        let told: Vec<String> = self
            .gauges
            .iter()
            .map(|row| match &row.saturation {
                Some(at) => format!("{} at {at}", row.name),
                None => format!("{} above the critical pressure", row.name),
            })
            .collect();
        (!told.is_empty()).then(|| format!("Saturated: {}.", told.join(", ")))
    }

    /// What each value means; at rest without the first sentence, which is the answer.
    fn what_it_means(&self) -> Section {
        let said = usize::from(self.rest.is_some()).min(self.meaning.len());
        Section::list("meaning", "What it means", &self.meaning[said..])
    }

    fn compared_with_print(&self) -> Section {
        let row = |row: &ResultRow| {
            let window = row.window.as_ref().map_or("no window known".to_owned(), ToString::to_string);
            compared(&row.name, &row.value, window, row.verdict)
        };
        let table = Table::new(COMPARED, self.results.iter().map(row));
        let heading = if self.rest.is_some() {
            "Against saturation at ambient"
        } else {
            "Against printed charts and the trade's rules"
        };
        Section::new("print", heading, vec![Block::Table(table)])
    }

    fn charts_table(&self) -> Vec<Block> {
        let cell = |cell: &Option<ChartCell>| -> Cell {
            cell.as_ref().map_or(Cell::default(), |cell| Cell {
                text: format!("{} {}", cell.window.plain(), word(cell.position)),
                position: Some(cell.position),
            })
        };
        let mut legend: Vec<Mark> = Vec::new();
        let rows: Vec<[Cell; 4]> = self
            .charts
            .iter()
            .map(|row| {
                let letters: String = row.marks.iter().map(|mark| mark.letter()).collect();
                let name =
                    if letters.is_empty() { row.chart.to_string() } else { format!("{} ({letters})", row.chart) };
                legend.extend(&row.marks);
                [name.into(), cell(&row.low), cell(&row.high), cell(&row.vent)]
            })
            .collect();
        legend.sort_unstable();
        legend.dedup();
        let head = [
            "chart",
            &head("low side", &self.charts, |row| &row.low),
            &head("high side", &self.charts, |row| &row.high),
            &head("vent", &self.charts, |row| &row.vent),
        ];
        let mut table = Table::new(head, rows).without_empty_columns();
        table.legend = legend.iter().map(|mark| format!("({}) {}", mark.letter(), mark.meaning())).collect();
        vec![Block::Table(table)]
    }
}

const EMPTY: &str = "Nothing or almost nothing is inside: both gauges stand at the pressure of the air, or are not connected. Do not run \
                     the compressor; look for the leak before anything else.";

const EMPTY_HIGH: &str = "Nothing or almost nothing is inside: the high side stands at the pressure of the air, or its gauge is not \
                          connected. Do not run the compressor; look for the leak before anything else.";

const LOW_AT_NOTHING: &str = "The low side stands at the pressure of the air: see first that its gauge is connected, and with the engine \
                              off that it rises; else nothing is inside, and the compressor must not run.";

/// What a comparison has in its columns.
const COMPARED: [&str; 4] = ["", "read", "window", "lies"];

fn compared(name: &str, value: &Amount, window: String, verdict: Option<VerdictCell>) -> [Cell; 4] {
    let lies = Cell {
        text: verdict.map_or(String::new(), |verdict| verdict.to_string()),
        position: verdict.map(|verdict| verdict.position),
    };
    [name.into(), value.to_string().into(), window.into(), lies]
}

/// Where the refrigerant is saturated at the pressure of a gauge.
fn at(row: &GaugeRow) -> String {
    row.saturation.as_ref().map_or("above critical".to_owned(), ToString::to_string)
}

/// The head of a chart column, with the unit of its first cell.
fn head(name: &str, rows: &[ChartRow], pick: impl Fn(&ChartRow) -> &Option<ChartCell>) -> String {
    rows.iter().find_map(|row| pick(row).as_ref()).map_or(String::new(), |cell| format!("{name}, {}", cell.window.unit))
}
