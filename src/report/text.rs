//! A page as text for a terminal.

use super::page::{Block, Furniture, ListMark, Page, Step, Table};

/// No layout is narrower than this.
const NARROWEST: usize = 40;

impl Page {
    /// The page as plain text, no line longer than `width` columns (at least 40) but for words longer than that.
    #[must_use]
    pub fn text(&self, width: usize) -> String {
        let mut writer = Writer::new(width, self.furniture);
        writer.paragraph(&self.title, "", "");
        if !self.answer.is_empty() {
            writer.heading(&format!("{}{}", self.mark.symbol(), self.answer));
            writer.text.push('\n');
        }
        for sentence in self.opened() {
            writer.paragraph(sentence, "  ", "  ");
        }
        for section in &self.sections {
            writer.heading(&section.heading);
            writer.blocks(&section.blocks);
        }
        writer.text
    }
}

/// Pieces of a page in English that is written as it grows.
pub(super) fn pieces(blocks: &[Block], width: usize) -> String {
    let mut writer = Writer::new(width, super::words::en::FURNITURE);
    writer.blocks(blocks);
    writer.text
}

/// A page being written.
struct Writer {
    text: String,
    width: usize,
    furniture: Furniture,
}

impl Writer {
    fn new(width: usize, furniture: Furniture) -> Self {
        Self { text: String::new(), width: width.max(NARROWEST), furniture }
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
                let basis = format!("{}: {}", self.furniture.basis, super::page::numbers(&step.basis));
                self.paragraph(&basis, "    ", "    ");
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

#[cfg(test)]
mod tests {
    use super::*;
    use crate::report::page::tests::{every_block, picture};

    const EVERY_BLOCK: &str = "\
Title of *one*

Answer.

  Opening.

Section
  A paragraph.

  Another.

    a = b
    c = d

  - point
  - point
  ? question
   1  first
   2  second
  name  value
  a     1 | 2
  b         3
    legend
     word
  a  b
  c  d

 1. Drain
    (measured)
    how
      detail
    ! gloves
    Basis: 1, 3

 2. Fill

Safety
  - gloves

Sources
  - a work
";

    #[test]
    fn every_block_is_written_as_text() {
        assert_eq!(every_block().text(80), EVERY_BLOCK);
        let mut page = every_block();
        page.place("sources", picture());
        let described = page.text(1000).split_off(EVERY_BLOCK.len());
        assert_eq!(described, format!("  {}\n", picture().description()));
        page.answer.clear();
        assert_eq!(page.text(1000).lines().count(), EVERY_BLOCK.lines().count() + 1 - 3);
        let paragraphs = pieces(&[Block::Words("one".to_owned()), Block::Words("two".to_owned())], 0);
        assert_eq!(paragraphs, "  one\n\n  two\n");
    }

    #[test]
    fn a_line_is_broken_where_the_next_word_does_not_fit() {
        for (width, text) in [
            (11, "- aaa bbb c\n"),
            (10, "- aaa bbb\n  c\n"),
            (9, "- aaa bbb\n  c\n"),
            (8, "- aaa\n  bbb c\n"),
            (7, "- aaa\n  bbb c\n"),
            (6, "- aaa\n  bbb\n  c\n"),
            // a word that is wider than the page stands alone
            (2, "- aaa\n  bbb\n  c\n"),
        ] {
            assert_eq!(folded("aaa bbb c", "- ", "  ", width), text, "{width}");
        }
        assert_eq!(folded("ä ä", "", "", 3), "ä ä\n");
    }

    /// What a table of these widths is written as on the narrowest page; its second row has cells of one letter.
    fn narrow(widths: [usize; 3], numbers: bool) -> Vec<String> {
        let wide = widths.map(|width| "w".repeat(width).into());
        let mut table =
            Table::new([""; 3], [wide, ["a".into(), "b".into(), "c".into()], ["".into(), "d".into(), "".into()]]);
        table.numbers = numbers;
        pieces(&[Block::Table(table)], 0).lines().map(str::to_owned).collect()
    }

    #[test]
    fn a_table_gives_way_to_a_narrow_page_step_by_step() {
        let w = |count: usize| "w".repeat(count);
        let pad = |count: usize| " ".repeat(count);
        // 40 columns: every row on a line
        let rows = narrow([14, 10, 10], false);
        assert_eq!(rows[0], format!("  {}  {}  {}", w(14), w(10), w(10)));
        assert_eq!(rows[1..], [format!("  a{}b{}c", pad(15), pad(11)), format!("  {}d", pad(16))]);
        // one more: the first cell has a line of its own
        let rows = narrow([15, 10, 10], false);
        assert_eq!(rows[..2], [format!("  {}", w(15)), format!("    {}  {}", w(10), w(10))]);
        assert_eq!(rows[2..], ["  a".to_owned(), format!("    b{}c", pad(11)), "    d".to_owned()]);
        // the rest fills 40 columns
        let rows = narrow([15, 17, 17], false);
        assert_eq!(rows[1], format!("    {}  {}", w(17), w(17)));
        assert_eq!(rows[3], format!("    b{}c", pad(18)));
        // and runs on where it does not fit
        let rows = narrow([15, 17, 18], false);
        assert_eq!(rows[1..3], [format!("    {}", w(17)), format!("    {}", w(18))]);
        assert_eq!(rows[3..], ["  a", "    b  c", "    d"]);
        // numbers are set flush right, but not the first column
        assert_eq!(narrow([14, 10, 10], true)[1], format!("  a{}b{}c", pad(24), pad(11)));
        assert_eq!(narrow([15, 10, 10], true)[2..4], ["  a".to_owned(), format!("    {}b{}c", pad(9), pad(11))]);
    }

    #[test]
    fn a_column_without_a_cell_takes_no_room() {
        let table = Table::new([""; 3], [["a".into(), "".into(), "w".repeat(35).into()]]);
        assert_eq!(pieces(&[Block::Table(table)], 40), format!("  a  {}\n", "w".repeat(35)));
        assert_eq!(pieces(&[Block::Table(Table::default())], 40), "");
    }
}
