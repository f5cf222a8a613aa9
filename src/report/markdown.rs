//! A page as Markdown.

use super::page::{Block, Furniture, ListMark, Page, Step, Table, numbers};

impl Page {
    /// The page as Markdown with tables (GitHub Flavored Markdown); steps and questions get a box to tick.
    #[must_use]
    pub fn markdown(&self) -> String {
        let mut text = format!("# {}\n", escaped(&self.title));
        if !self.answer.is_empty() {
            text += &format!("\n**{}{}**\n", self.mark.symbol(), escaped(&self.answer));
        }
        for sentence in self.opened() {
            text += &format!("\n{}\n", escaped(sentence));
        }
        for section in &self.sections {
            text += &format!("\n## {}\n", escaped(&section.heading));
            for block in &section.blocks {
                text.push('\n');
                match block {
                    Block::Words(words) => text += &format!("{}\n", escaped(words)),
                    Block::Lines(lines) => text += &format!("```text\n{}\n```\n", lines.join("\n")),
                    Block::List(mark, sentences) => text += &list(*mark, sentences),
                    Block::Table(table) => text += &written(table),
                    Block::Steps(steps) => {
                        steps.iter().enumerate().for_each(|(i, one)| text += &step(i + 1, one, self.furniture))
                    }
                    Block::Picture(picture) => text += &format!("{}\n", escaped(picture.description())),
                }
            }
        }
        text
    }
}

fn list(mark: ListMark, sentences: &[String]) -> String {
    let line = |(i, sentence): (usize, &String)| match mark {
        ListMark::Point => format!("- {}\n", escaped(sentence)),
        ListMark::Question => format!("- [ ] {}\n", escaped(sentence)),
        ListMark::Number => format!("{}. {}\n", i + 1, escaped(sentence)),
    };
    sentences.iter().enumerate().map(line).collect()
}

fn written(table: &Table) -> String {
    let columns = table.rows.iter().map(Vec::len).max().unwrap_or(0);
    let row = |cells: Vec<String>| format!("| {} |\n", cells.join(" | "));
    let head: Vec<String> =
        (0..columns).map(|i| table.head.get(i).map_or(String::new(), |name| escaped(name))).collect();
    let rule: Vec<&str> = (0..columns).map(|i| if table.numbers && i > 0 { "---:" } else { "---" }).collect();
    let mut text = row(head) + &format!("|{}|\n", rule.join("|"));
    for cells in &table.rows {
        text += &row(cells.iter().map(|cell| escaped(&cell.text)).collect());
    }
    for line in &table.legend {
        text += &format!("\n{}\n", escaped(line));
    }
    text
}

fn step(number: usize, step: &Step, furniture: Furniture) -> String {
    let standing = if step.standing.is_empty() { String::new() } else { format!(" ({})", escaped(&step.standing)) };
    let mut text = format!("{number}. [ ] **{}**{standing}\n", escaped(&step.title));
    for sentence in &step.words {
        let inner = sentence.trim_start();
        let indent = if inner.len() < sentence.len() { "      " } else { "    " };
        text += &format!("{indent}- {}\n", escaped(inner));
    }
    for caution in &step.cautions {
        text += &format!("    - **{}:** {}\n", furniture.mind, escaped(caution));
    }
    if !step.basis.is_empty() {
        text += &format!("    - {}: {}\n", furniture.basis, numbers(&step.basis));
    }
    text
}

/// `text` with the characters that Markdown would take for marks escaped.
fn escaped(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    for c in text.chars() {
        if matches!(c, '\\' | '|' | '*' | '_' | '`' | '<' | '>' | '[' | ']') {
            out.push('\\');
        }
        out.push(c);
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::report::page::tests::{every_block, picture};

    const EVERY_BLOCK: &str = "\
# Title of \\*one\\*

**Answer.**

Opening.

## Section

A paragraph.

Another.

```text
a = b
c = d
```

- point
- point

- [ ] question

1. first
2. second

| name | value |
|---|---:|
| a | 1 \\| 2 |
| b | 3 |

legend

|  | word |
|---|---|
| a | b |

|  |  |
|---|---|
| c | d |

1. [ ] **Drain** (measured)
    - how
      - detail
    - **Mind:** gloves
    - Basis: 1, 3
2. [ ] **Fill**

## Safety

- gloves

## Sources

- a work
";

    #[test]
    fn every_block_is_written_as_markdown() {
        assert_eq!(every_block().markdown(), EVERY_BLOCK);
    }

    #[test]
    fn a_picture_is_described_and_no_answer_leaves_no_line() {
        let mut page = every_block();
        page.place("sources", picture());
        let described = page.markdown().split_off(EVERY_BLOCK.len());
        assert_eq!(described, format!("\n{}\n", escaped(picture().description())));
        page.answer.clear();
        assert_eq!(page.markdown().lines().count(), EVERY_BLOCK.lines().count());
        assert_eq!(escaped("\\|*_`<>[]-#"), "\\\\\\|\\*\\_\\`\\<\\>\\[\\]-#");
    }
}
