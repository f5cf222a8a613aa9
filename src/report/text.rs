//! A page as text for a terminal.

use super::page::{Block, ListMark, Page, Step, Table};

/// No layout is narrower than this.
const NARROWEST: usize = 40;

impl Page {
    /// The page as plain text, no line longer than `width` columns (at least 40) but for words longer than that.
    #[must_use]
    pub fn text(&self, width: usize) -> String {
        let mut writer = Writer::new(width);
        writer.paragraph(&self.title, "", "");
        for sentence in &self.opening {
            writer.paragraph(sentence, "  ", "  ");
        }
        if !self.answer.is_empty() {
            writer.heading(&self.answer);
        }
        for section in &self.sections {
            writer.heading(&section.heading);
            writer.blocks(&section.blocks);
        }
        writer.text
    }
}

/// Pieces of a page that is written as it grows.
pub(super) fn pieces(blocks: &[Block], width: usize) -> String {
    let mut writer = Writer::new(width);
    writer.blocks(blocks);
    writer.text
}

/// A page being written.
struct Writer {
    text: String,
    width: usize,
}

impl Writer {
    fn new(width: usize) -> Self {
        Self { text: String::new(), width: width.max(NARROWEST) }
    }

    fn blocks(&mut self, blocks: &[Block]) {
        let apart = |one: &Block| matches!(one, Block::Lines(_));
        for (i, block) in blocks.iter().enumerate() {
            let before = i.checked_sub(1).map(|i| &blocks[i]);
            // lines that are kept stand apart, and a paragraph from the one before it
            if before.is_some_and(|before| {
                apart(before) || apart(block) || matches!((before, block), (Block::Words(_), Block::Words(_)))
            }) {
                self.line("");
            }
            self.block(block);
        }
    }

    fn block(&mut self, block: &Block) {
        match block {
            Block::Words(words) => self.paragraph(words, "  ", "  "),
            Block::Lines(lines) => lines.iter().for_each(|line| self.line(&format!("    {line}"))),
            Block::List(mark, sentences) => self.list(*mark, sentences),
            Block::Table(table) => self.table(table),
            Block::Steps(steps) => self.steps(steps),
            Block::Picture(picture) => self.paragraph(picture.description(), "  ", "  "),
        }
    }

    fn line(&mut self, line: &str) {
        self.text.push_str(line.trim_end());
        self.text.push('\n');
    }

    fn heading(&mut self, heading: &str) {
        self.text.push('\n');
        self.paragraph(heading, "", "");
    }

    fn list(&mut self, mark: ListMark, sentences: &[String]) {
        for (i, sentence) in sentences.iter().enumerate() {
            match mark {
                ListMark::Point => self.paragraph(sentence, "  - ", "    "),
                ListMark::Question => self.paragraph(sentence, "  ? ", "    "),
                ListMark::Number => self.paragraph(sentence, &format!("{:>4}  ", i + 1), "      "),
            }
        }
    }

    /// Rows in columns as wide as they need; a page too narrow for that gives the first cell a line of its own, and one too
    /// narrow even for the rest lets it run on.
    fn table(&mut self, table: &Table) {
        let head: Vec<&str> = table.head.iter().map(String::as_str).collect();
        let body = table.rows.iter().map(|row| row.iter().map(|cell| cell.text.as_str()).collect::<Vec<_>>());
        let rows: Vec<Vec<&str>> = std::iter::once(head).filter(|head| !head.is_empty()).chain(body).collect();
        let columns = rows.iter().map(Vec::len).max().unwrap_or(0);
        let widths: Vec<usize> = (0..columns)
            .map(|column| {
                rows.iter().filter_map(|row| row.get(column)).map(|cell| cell.chars().count()).max().unwrap_or(0)
            })
            .collect();
        let needs = |widths: &[usize]| {
            let filled = widths.iter().filter(|&&width| width > 0).count();
            widths.iter().sum::<usize>() + 2 * filled.saturating_sub(1)
        };
        let line = |indent: &str, cells: &[&str], from: usize| {
            let mut line = String::from(indent);
            for (i, (cell, width)) in cells.iter().zip(&widths[from..]).enumerate().filter(|(_, (_, w))| **w > 0) {
                let right = table.numbers && from + i > 0;
                line += &if right { format!("{cell:>width$}  ") } else { format!("{cell:<width$}  ") };
            }
            line
        };
        let rest_fits = 4 + needs(widths.get(1..).unwrap_or_default()) <= self.width;
        for row in &rows {
            if 2 + needs(&widths) <= self.width {
                self.line(&line("  ", row, 0));
            } else if let Some((first, rest)) = row.split_first() {
                if !first.is_empty() {
                    self.paragraph(first, "  ", "  ");
                }
                if rest_fits {
                    self.line(&line("    ", rest, 1));
                } else {
                    let rest: Vec<&str> = rest.iter().copied().filter(|cell| !cell.is_empty()).collect();
                    self.paragraph(&rest.join("  "), "    ", "    ");
                }
            }
        }
        for line in &table.legend {
            self.paragraph(line, "    ", "    ");
        }
    }

    fn steps(&mut self, steps: &[Step]) {
        for (i, step) in steps.iter().enumerate() {
            self.heading(&format!("{:>2}. {}", i + 1, step.title));
            if !step.standing.is_empty() {
                self.paragraph(&format!("({})", step.standing), "    ", "    ");
            }
            for sentence in &step.words {
                let inner = sentence.trim_start();
                let indent = if inner.len() < sentence.len() { "      " } else { "    " };
                self.paragraph(inner, indent, indent);
            }
            for caution in &step.cautions {
                self.paragraph(caution, "    ! ", "      ");
            }
            if !step.basis.is_empty() {
                self.paragraph(&format!("Basis: {}", super::page::numbers(&step.basis)), "    ", "    ");
            }
        }
    }

    fn paragraph(&mut self, sentence: &str, first: &str, others: &str) {
        self.text += &folded(sentence, first, others, self.width);
    }
}

/// `sentence` broken at blanks into lines no longer than `width` columns, but for words longer than that: `first` precedes the
/// first line, `others` the rest, and every line is ended.
///
/// ```
/// let lines = satline::report::folded("recover it, weigh it, say so", "  - ", "    ", 20);
/// assert_eq!(lines, "  - recover it,\n    weigh it, say so\n");
/// ```
#[must_use]
pub fn folded(sentence: &str, first: &str, others: &str, width: usize) -> String {
    let mut text = String::new();
    let mut line = String::from(first);
    let mut used = first.chars().count();
    let mut empty = true;
    for word in sentence.split(' ') {
        let length = word.chars().count();
        if !empty && used + 1 + length > width {
            text += line.trim_end();
            text.push('\n');
            line = String::from(others);
            used = others.chars().count();
            empty = true;
        }
        if !empty {
            line.push(' ');
            used += 1;
        }
        line.push_str(word);
        used += length;
        empty = false;
    }
    text += line.trim_end();
    text.push('\n');
    text
}
