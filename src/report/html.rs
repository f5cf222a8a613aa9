//! A page as one HTML file that needs no network, no script and no other file.

use super::page::{Block, Cell, Furniture, ListMark, Page, Section, Step, Table, Tone, numbers};
use crate::quantity::Position;

/// How the page looks: light, dark by the reader's own setting, and on paper.
const STYLE: &str = "\
:root { color-scheme: light dark; --page: #fff; --ink: #1a1d21; --faint: #4a515a; --rule: #c9ced4; --wash: #eef1f4; \
--out: #8c2f00; --warn: #fff1d6; --warn-rule: #a86400; }
@media (prefers-color-scheme: dark) { :root { --page: #15181c; --ink: #e8eaed; --faint: #b4bac2; --rule: #454c55; \
--wash: #22272d; --out: #ffb48a; --warn: #33280f; --warn-rule: #d19a3a; } }
* { box-sizing: border-box; }
body { margin: 0; background: var(--page); color: var(--ink); font: 1rem/1.5 system-ui, sans-serif; }
main { max-width: 46rem; margin: 0 auto; padding: 1rem; }
h1 { font-size: 1.5rem; line-height: 1.25; margin: .5rem 0; }
h2 { font-size: 1.1rem; line-height: 1.3; margin: 1.75rem 0 .5rem; padding-top: .5rem; border-top: 1px solid var(--rule); }
p { margin: .4rem 0; }
header .answer { color: inherit; font-size: 1.1rem; font-weight: 600; background: var(--wash); padding: .6rem .8rem; \
margin: .8rem 0; }
header .good { border-left: .3rem solid var(--rule); }
header .bad { border: .15rem solid var(--out); border-left-width: .5rem; }
header .open { border-left: .3rem dashed var(--out); }
.legend, header p { color: var(--faint); font-size: .9rem; }
ul, ol { margin: .4rem 0; padding-left: 1.3rem; }
li { margin: .3rem 0; }
ul.questions { list-style: none; padding-left: 0; }
.wide { overflow-x: auto; }
table { border-collapse: collapse; width: 100%; font-size: .92rem; font-variant-numeric: tabular-nums; }
th, td { text-align: left; vertical-align: top; font-weight: normal; padding: .3rem .9rem .3rem 0; \
border-bottom: 1px solid var(--rule); }
thead th { color: var(--faint); font-size: .85rem; vertical-align: bottom; }
tbody th { font-weight: 600; }
.numbers td, .numbers thead th { text-align: right; padding-right: 0; padding-left: .9rem; }
.outside { color: var(--out); font-weight: 600; }
pre { font-size: .82rem; line-height: 1.4; overflow-x: auto; background: var(--wash); padding: .6rem .8rem; }
figure { margin: .8rem 0; }
figure svg { display: block; width: 100%; height: auto; max-width: 40rem; margin: 0 auto; }
.caution { background: var(--warn); border-left: .3rem solid var(--warn-rule); padding: .1rem .9rem .5rem; margin-top: 1.5rem; }
.caution h2 { border: 0; margin-top: .4rem; padding-top: 0; }
.fine { font-size: .82rem; color: var(--faint); overflow-wrap: anywhere; }
ol.steps { list-style: none; padding: 0; }
ol.steps > li { break-inside: avoid; margin: .9rem 0; }
.step { font-weight: 600; }
.box { display: inline-block; width: .8em; height: .8em; border: 1.5px solid currentColor; margin-right: .5em; }
.part { padding-left: 1.3rem; }
.mind { border-left: .3rem solid var(--warn-rule); padding-left: .6rem; }
.basis { color: var(--faint); font-size: .85rem; }
@media (max-width: 30rem) {
  main { padding: .7rem; }
  table { font-size: .82rem; }
  th, td { padding-right: .5rem; }
  .numbers td, .numbers thead th { padding-left: .4rem; }
  ul, ol { padding-left: 1.1rem; }
}
@media print {
  :root { color-scheme: light; --page: #fff; --ink: #000; --faint: #333; --rule: #999; --wash: #fff; --out: #000; --warn: #fff; \
--warn-rule: #000; font-size: 8pt; }
  @page { margin: 11mm; }
  body { line-height: 1.28; }
  main { max-width: none; padding: 0; columns: 2; column-gap: 7mm; }
  header { column-span: all; }
  h1 { font-size: 13pt; margin: 0 0 1mm; }
  h2 { font-size: 9.5pt; margin: 2.5mm 0 1mm; padding-top: 1mm; break-after: avoid; }
  header .answer { font-size: 10pt; padding: 0; margin: 1mm 0; }
  p, ul, ol { margin: .6mm 0; }
  ul, ol { padding-left: 3.5mm; }
  li { margin: .4mm 0; }
  table { font-size: .9rem; }
  th, td { padding: .3mm 1.5mm .3mm 0; }
  .wide { overflow: visible; }
  figure { margin: 1mm 0; }
  pre { font-size: 6.5pt; padding: 0; white-space: pre-wrap; }
  figure svg { max-width: 76mm; margin: 0; }
  figure, tr, li, .caution { break-inside: avoid; }
  .caution { margin-top: 2mm; padding: .5mm 2mm; }
  .fine { font-size: 6.5pt; line-height: 1.2; }
  ol.steps > li { margin: 0 0 1.5mm; }
}
";

/// Longest title of a document, characters: what tabs and lists of pages show of one (html-validate, rule `long-title`).
const LONGEST_TITLE: usize = 70;

/// A title as a tab shows it: up to the last comma that fits, where all of it does not.
fn in_a_tab(title: &str) -> &str {
    let fits = |text: &str| text.chars().count() <= LONGEST_TITLE;
    let begins = title.match_indices(", ").map(|(at, _)| &title[..at]);
    if fits(title) { title } else { begins.filter(|begin| fits(begin)).last().unwrap_or(title) }
}

impl Page {
    /// The page as one HTML file: no network, no script; readable on a phone, on paper, in the dark, and read aloud.
    #[must_use]
    pub fn html(&self) -> String {
        let (title, tab, tag) = (escaped(&self.title), escaped(in_a_tab(&self.title)), self.furniture.tag);
        let mut text = format!(
            "<!DOCTYPE html>\n<html lang=\"{tag}\">\n<head>\n<meta charset=\"utf-8\">\n\
             <meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n<title>{tab}</title>\n\
             <style>\n{STYLE}</style>\n</head>\n<body>\n<main>\n<header>\n<h1>{title}</h1>\n"
        );
        if !self.answer.is_empty() {
            let (class, symbol) = (self.mark.class(), self.mark.symbol());
            text += &format!("<p class=\"{class}\">{symbol}{}</p>\n", escaped(&self.answer));
        }
        for sentence in self.opened() {
            text += &format!("<p>{}</p>\n", escaped(sentence));
        }
        text += "</header>\n";
        for (i, section) in self.sections.iter().enumerate() {
            text += &written(section, i + 1, self.furniture);
        }
        text + "</main>\n</body>\n</html>\n"
    }
}

fn written(section: &Section, number: usize, furniture: Furniture) -> String {
    let id = format!("{}-{number}", section.name);
    let class = match section.tone {
        Tone::Plain => "",
        Tone::Caution => " class=\"caution\"",
        Tone::Fine => " class=\"fine\"",
    };
    let heading = escaped(&section.heading);
    let mut text = format!("<section{class} aria-labelledby=\"{id}\">\n<h2 id=\"{id}\">{heading}</h2>\n");
    for block in &section.blocks {
        match block {
            Block::Words(words) => text += &format!("<p>{}</p>\n", escaped(words)),
            Block::Lines(lines) => text += &format!("<pre>{}</pre>\n", escaped(&lines.join("\n"))),
            Block::List(mark, sentences) => text += &list(*mark, sentences),
            Block::Table(written) => text += &table(written, &format!("{}: {heading}", furniture.table)),
            Block::Steps(written) => text += &steps(written, furniture),
            // the picture brings its own name and description
            Block::Picture(picture) => text += &format!("<figure>\n{}\n</figure>\n", picture.svg().trim_end()),
        }
    }
    text + "</section>\n"
}

fn list(mark: ListMark, sentences: &[String]) -> String {
    let (open, close) = match mark {
        ListMark::Point => ("<ul>", "</ul>"),
        ListMark::Question => ("<ul class=\"questions\">", "</ul>"),
        ListMark::Number => ("<ol>", "</ol>"),
    };
    let mut text = format!("{open}\n");
    for sentence in sentences {
        let tick = if mark == ListMark::Question { BOX } else { "" };
        text += &format!("<li>{tick}{}</li>\n", escaped(sentence));
    }
    text + close + "\n"
}

/// A box to tick with a pen.
const BOX: &str = "<span class=\"box\" aria-hidden=\"true\"></span>";

fn table(table: &Table, name: &str) -> String {
    let class = if table.numbers { " class=\"numbers\"" } else { "" };
    // it scrolls by itself where it is wider than a phone, so it must be reachable with keys
    let mut text = format!("<section class=\"wide\" aria-label=\"{name}\" tabindex=\"0\">\n<table{class}>\n");
    if !table.head.is_empty() {
        text += "<thead>\n<tr>";
        for name in &table.head {
            text += &if name.is_empty() {
                "<td></td>".to_owned()
            } else {
                format!("<th scope=\"col\">{}</th>", escaped(name))
            };
        }
        text += "</tr>\n</thead>\n";
    }
    text += "<tbody>\n";
    for row in &table.rows {
        text += "<tr>";
        for (i, cell) in row.iter().enumerate() {
            text += &if i == 0 { format!("<th scope=\"row\">{}</th>", escaped(&cell.text)) } else { data(cell) };
        }
        text += "</tr>\n";
    }
    text += "</tbody>\n</table>\n</section>\n";
    for line in &table.legend {
        text += &format!("<p class=\"legend\">{}</p>\n", escaped(line));
    }
    text
}

fn data(cell: &Cell) -> String {
    let class = match cell.position {
        Some(Position::Below | Position::Above) => " class=\"outside\"",
        Some(Position::Within) | None => "",
    };
    format!("<td{class}>{}</td>", escaped(&cell.text))
}

fn steps(steps: &[Step], furniture: Furniture) -> String {
    let mut text = String::from("<ol class=\"steps\">\n");
    for (i, step) in steps.iter().enumerate() {
        let standing = if step.standing.is_empty() { String::new() } else { format!(" ({})", escaped(&step.standing)) };
        text +=
            &format!("<li>\n<p>{BOX}<span class=\"step\">{}. {}</span>{standing}</p>\n", i + 1, escaped(&step.title));
        for sentence in &step.words {
            let inner = sentence.trim_start();
            let class = if inner.len() < sentence.len() { " class=\"part\"" } else { "" };
            text += &format!("<p{class}>{}</p>\n", escaped(inner));
        }
        for caution in &step.cautions {
            let mind = furniture.mind;
            text += &format!("<p class=\"mind\"><strong>{mind}:</strong> {}</p>\n", escaped(caution));
        }
        if !step.basis.is_empty() {
            text += &format!("<p class=\"basis\">{}: {}</p>\n", furniture.basis, numbers(&step.basis));
        }
        text += "</li>\n";
    }
    text + "</ol>\n"
}

/// `text` with the characters that HTML takes for its own written out.
fn escaped(text: &str) -> String {
    let text = text.replace('&', "&amp;").replace('<', "&lt;").replace('>', "&gt;").replace('"', "&quot;");
    // an interval and a share stay on one line with their signs
    text.replace("± ", "±\u{a0}").replace(" %", "\u{a0}%").replace("(&gt; ", "(&gt;\u{a0}")
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::report::page::tests::{every_block, picture};

    const EVERY_BLOCK: &str = r#"
</head>
<body>
<main>
<header>
<h1>Title of *one*</h1>
<p class="answer">Answer.</p>
<p>Opening.</p>
</header>
<section aria-labelledby="every-1">
<h2 id="every-1">Section</h2>
<p>A paragraph.</p>
<p>Another.</p>
<pre>a = b
c = d</pre>
<ul>
<li>point</li>
<li>point</li>
</ul>
<ul class="questions">
<li><span class="box" aria-hidden="true"></span>question</li>
</ul>
<ol>
<li>first</li>
<li>second</li>
</ol>
<section class="wide" aria-label="Table: Section" tabindex="0">
<table class="numbers">
<thead>
<tr><th scope="col">name</th><th scope="col">value</th></tr>
</thead>
<tbody>
<tr><th scope="row">a</th><td class="outside">1 | 2</td></tr>
<tr><th scope="row">b</th><td>3</td></tr>
</tbody>
</table>
</section>
<p class="legend">legend</p>
<section class="wide" aria-label="Table: Section" tabindex="0">
<table>
<thead>
<tr><td></td><th scope="col">word</th></tr>
</thead>
<tbody>
<tr><th scope="row">a</th><td>b</td></tr>
</tbody>
</table>
</section>
<section class="wide" aria-label="Table: Section" tabindex="0">
<table>
<tbody>
<tr><th scope="row">c</th><td>d</td></tr>
</tbody>
</table>
</section>
<ol class="steps">
<li>
<p><span class="box" aria-hidden="true"></span><span class="step">1. Drain</span> (measured)</p>
<p>how</p>
<p class="part">detail</p>
<p class="mind"><strong>Mind:</strong> gloves</p>
<p class="basis">Basis: 1, 3</p>
</li>
<li>
<p><span class="box" aria-hidden="true"></span><span class="step">2. Fill</span></p>
</li>
</ol>
</section>
<section class="caution" aria-labelledby="mind-2">
<h2 id="mind-2">Safety</h2>
<ul>
<li>gloves</li>
</ul>
</section>
<section class="fine" aria-labelledby="sources-3">
<h2 id="sources-3">Sources</h2>
<ul>
<li>a work</li>
</ul>
</section>
</main>
</body>
</html>
"#;

    #[test]
    fn every_block_is_written_as_html() {
        let html = every_block().html();
        let (head, body) = html.split_once("</style>").unwrap();
        assert_eq!(body, EVERY_BLOCK);
        assert!(head.starts_with("<!DOCTYPE html>\n") && head.contains("<title>Title of *one*</title>\n"));
        assert!(head.ends_with(STYLE));
    }

    #[test]
    fn a_long_title_is_shortened_in_the_tab_alone() {
        assert_eq!(in_a_tab("R-134a, compressor running"), "R-134a, compressor running");
        let long = format!("Hold test, 25 readings, from 410 to {} micron", "2320 ".repeat(10));
        assert_eq!(in_a_tab(&long), "Hold test, 25 readings");
        let one = "x".repeat(80);
        assert_eq!(in_a_tab(&one), one);
        let html = Page { title: long.clone(), ..every_block() }.html();
        assert!(html.contains("<title>Hold test, 25 readings</title>") && html.contains(&format!("<h1>{long}</h1>")));
    }

    #[test]
    fn a_picture_is_drawn_and_no_answer_leaves_no_paragraph() {
        let mut page = every_block();
        page.place("sources", picture());
        page.answer.clear();
        let html = page.html();
        assert!(html.contains(&format!("</ul>\n<figure>\n{}\n</figure>\n</section>\n", picture().svg().trim_end())));
        assert!(!html.contains("class=\"answer\"") && html.contains("<p>Opening.</p>\n</header>\n"));
        assert_eq!(
            escaped("<b>& \"2\" ± 1 % (> 99 %)"),
            "&lt;b&gt;&amp; &quot;2&quot; ±\u{a0}1\u{a0}% (&gt;\u{a0}99\u{a0}%)"
        );
        let below = Cell { text: "x".to_owned(), position: Some(Position::Below) };
        assert_eq!(data(&below), "<td class=\"outside\">x</td>");
    }
}
