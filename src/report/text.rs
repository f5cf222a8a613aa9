//! A report laid out for a terminal.

use super::{Amount, ChartCell, ChartRow, Mark, Report, Span, VerdictCell};
use crate::window::Position;

/// No layout is narrower than this.
const NARROWEST: usize = 60;

impl Report {
    /// The page as plain text, no line longer than `width` columns (at least 60).
    pub fn text(&self, width: usize) -> String {
        let mut page = Page::new(width);
        for (i, sentence) in self.opening.iter().enumerate() {
            page.paragraph(sentence, if i == 0 { "" } else { "  " });
        }
        page.list("Is that what was meant?", &self.questions, "? ");

        page.heading("Pressures");
        let blend = self.gauges.iter().any(|row| row.bubble.is_some());
        let saturation = if blend { "dew point" } else { "saturated at" };
        page.line(&format!("  {:<10}{:>13}{:>13}{:>18}", "", "gauge", "absolute", saturation));
        for row in &self.gauges {
            let at = row.saturation.as_ref().map_or("above critical".to_owned(), ToString::to_string);
            page.line(&format!("  {:<10}{:>13}{:>13}{:>18}", row.name, row.gauge.plain(), row.absolute.plain(), at));
            if let Some(bubble) = &row.bubble {
                page.line(&format!("  {:<10}{:>44}", "", format!("bubble point {bubble}")));
            }
        }

        page.heading("Against what is usual");
        let cells: Vec<[String; 4]> = self
            .results
            .iter()
            .map(|row| {
                let window = row.window.as_ref().map_or("no window known".to_owned(), ToString::to_string);
                let verdict = row.verdict.map_or(String::new(), |verdict| verdict.to_string());
                [row.name.to_owned(), row.value.to_string(), window, verdict]
            })
            .collect();
        page.table(&cells);

        page.list("What it means", &self.meaning, "- ");
        page.list("What to measure next", &self.next, "- ");
        page.list("Mind", &self.cautions, "- ");

        self.charts_text(&mut page);
        page.list("Sources", &self.sources, "- ");
        page.text
    }

    fn charts_text(&self, page: &mut Page) {
        if self.charts.is_empty() {
            return;
        }
        page.heading("Charts for this day, and where the reading lies");
        let mut cells = vec![[
            "chart".to_owned(),
            head("low side", &self.charts, |row| &row.low),
            head("high side", &self.charts, |row| &row.high),
            head("vent", &self.charts, |row| &row.vent),
        ]];
        let cell = |cell: &Option<ChartCell>| {
            cell.as_ref().map_or(String::new(), |cell| {
                let span = &cell.window;
                format!("{:.*}-{:.*} {}", span.decimals, span.low, span.decimals, span.high, word(cell.position))
            })
        };
        let mut legend: Vec<Mark> = Vec::new();
        for row in &self.charts {
            let letters: String = row.marks.iter().map(|mark| mark.letter()).collect();
            let name = if letters.is_empty() { row.chart.to_owned() } else { format!("{} ({letters})", row.chart) };
            cells.push([name, cell(&row.low), cell(&row.high), cell(&row.vent)]);
            legend.extend(&row.marks);
        }
        page.table(&cells);
        legend.sort_unstable();
        legend.dedup();
        for mark in legend {
            page.paragraph(&format!("({}) {}", mark.letter(), mark.meaning()), "    ");
        }
    }
}

/// The head of a chart column, with the unit of its first cell.
fn head(name: &str, rows: &[ChartRow], pick: impl Fn(&ChartRow) -> &Option<ChartCell>) -> String {
    rows.iter().find_map(|row| pick(row).as_ref()).map_or(String::new(), |cell| format!("{name}, {}", cell.window.unit))
}

/// A page being written.
pub(super) struct Page {
    pub(super) text: String,
    width: usize,
}

impl Page {
    /// An empty page, no line longer than `width` columns, at least [`NARROWEST`].
    pub(super) fn new(width: usize) -> Self {
        Self { text: String::new(), width: width.max(NARROWEST) }
    }

    pub(super) fn line(&mut self, line: &str) {
        self.text.push_str(line);
        self.text.push('\n');
    }

    pub(super) fn heading(&mut self, heading: &str) {
        self.text.push('\n');
        self.line(heading);
    }

    pub(super) fn list(&mut self, heading: &str, sentences: &[String], mark: &str) {
        if sentences.is_empty() {
            return;
        }
        self.heading(heading);
        for sentence in sentences {
            let start = self.text.len();
            self.paragraph(sentence, "    ");
            self.text.replace_range(start..start + 4, &format!("  {mark}"));
        }
    }

    /// Rows of four cells in columns as wide as they need; a page too narrow for that gets each row on two lines.
    pub(super) fn table(&mut self, rows: &[[String; 4]]) {
        let widest = |column: usize| rows.iter().map(|row| row[column].chars().count()).max().unwrap_or(0);
        let widths = [widest(0), widest(1), widest(2), widest(3)];
        let filled = widths.iter().filter(|&&width| width > 0).count();
        let fits = 2 + widths.iter().sum::<usize>() + 2 * (filled - 1) <= self.width;
        for row in rows {
            let mut line = String::from("  ");
            for (i, (cell, width)) in row.iter().zip(widths).enumerate().filter(|(_, (_, width))| *width > 0) {
                if !fits && i == 1 {
                    self.line(line.trim_end());
                    line = String::from("      ");
                }
                line += &format!("{cell:<width$}  ");
            }
            self.line(line.trim_end());
        }
    }

    /// Words broken at blanks, every line indented.
    pub(super) fn paragraph(&mut self, sentence: &str, indent: &str) {
        let mut used = 0;
        for word in sentence.split(' ') {
            let length = word.chars().count();
            if used == 0 {
                self.text.push_str(indent);
                used = indent.len();
            } else if used + 1 + length > self.width {
                self.text.push('\n');
                self.text.push_str(indent);
                used = indent.len();
            } else {
                self.text.push(' ');
                used += 1;
            }
            self.text.push_str(word);
            used += length;
        }
        self.text.push('\n');
    }
}

impl Amount {
    /// Without its interval.
    fn plain(&self) -> String {
        format!("{:.*} {}", self.decimals, self.value, self.unit)
    }
}

impl std::fmt::Display for Amount {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        match self.plus_minus {
            Some(half) => write!(f, "{:.*} ± {:.*} {}", self.decimals, self.value, self.decimals, half, self.unit),
            None => f.write_str(&self.plain()),
        }
    }
}

impl std::fmt::Display for Span {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "{:.*} to {:.*} {}", self.decimals, self.low, self.decimals, self.high, self.unit)
    }
}

impl std::fmt::Display for VerdictCell {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str(word(self.position))?;
        self.chance.map_or(Ok(()), |certain| write!(f, " {}", chance(certain)))
    }
}

/// The position in a word.
pub(super) fn word(position: Position) -> &'static str {
    match position {
        Position::Below => "below",
        Position::Within => "within",
        Position::Above => "above",
    }
}

/// A chance in brackets, never more certain than instruments can be.
pub(super) fn chance(chance: f64) -> String {
    if chance > 0.99 { "(> 99 %)".to_owned() } else { format!("({:.0} %)", 100.0 * chance) }
}
