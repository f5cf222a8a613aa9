//! The one model of a laid-out report, from which text, Markdown and HTML are written.

use crate::plot::Picture;
use crate::quantity::Position;

/// A report ready to be written: sentences, tables, lists and pictures under their headings.
///
/// Every report of this module has a `page()`. [`Page::text`] writes it for a terminal, [`Page::markdown`] for a document,
/// [`Page::html`] as one file that needs nothing else.
///
/// ```
/// use satline::{Refrigerant, plot};
/// use satline::diagnosis::Diagnosis;
/// let diagnosis = Diagnosis::of(Refrigerant::R134a).low("30 psi")?.high("180 psi")?.run()?;
/// let mut page = diagnosis.report().page();
/// let reading = diagnosis.inspection().first();
/// page.place("pictures", plot::saturation(reading, &diagnosis.entry().units())?);
/// assert!(page.text(60).lines().all(|line| line.chars().count() <= 60));
/// assert!(page.markdown().starts_with("# R-134a, compressor running\n"));
/// assert!(page.html().starts_with("<!DOCTYPE html>") && page.html().contains("<svg "));
/// # Ok::<(), satline::Error>(())
/// ```
#[derive(Debug, Clone, PartialEq)]
pub struct Page {
    /// Title of the page: what it is about.
    #[doc(hidden)]
    pub title: String,
    /// Opening sentences: the conditions.
    #[doc(hidden)]
    pub opening: Vec<String>,
    /// Conclusion in a sentence or two, set so that it is seen first; empty if the page gives none.
    #[doc(hidden)]
    pub answer: String,
    /// Mark that the conclusion is set with.
    #[doc(hidden)]
    pub mark: AnswerMark,
    /// Sections of the page.
    #[doc(hidden)]
    pub sections: Vec<Section>,
    /// Words that the layouts bring along.
    #[doc(hidden)]
    pub furniture: Furniture,
}

/// Mark beside a conclusion, so that good and bad are told apart without colour.
#[doc(hidden)]
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum AnswerMark {
    /// Neither good nor bad.
    #[default]
    None,
    /// Healthy.
    Good,
    /// Something is wrong.
    Bad,
    /// Open: unusual, or not enough to say.
    Open,
}

impl AnswerMark {
    /// The mark with a blank, as text; empty without one.
    pub(super) const fn symbol(self) -> &'static str {
        match self {
            Self::None => "",
            Self::Good => "✓ ",
            Self::Bad => "✗ ",
            Self::Open => "? ",
        }
    }

    /// Class of the conclusion in HTML.
    pub(super) const fn class(self) -> &'static str {
        match self {
            Self::None => "answer",
            Self::Good => "answer good",
            Self::Bad => "answer bad",
            Self::Open => "answer open",
        }
    }
}

/// The words that every layout of a page brings along, in the language of the page.
#[doc(hidden)]
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Furniture {
    /// Tag of the language in HTML.
    pub tag: &'static str,
    /// Sentence that the page is a translation, and of what; empty for the text that governs.
    pub translated: &'static str,
    /// Before the numbers of the sources of a step.
    pub basis: &'static str,
    /// Before a caution of a step.
    pub mind: &'static str,
    /// Before the name of a table that is read aloud.
    pub table: &'static str,
    /// Heading over pictures.
    pub pictures: &'static str,
}

/// A section of a page: a heading with its blocks.
#[derive(Debug, Clone, PartialEq)]
pub struct Section {
    /// Short name that does not change with the wording: where a picture goes, and the anchor in HTML.
    pub name: &'static str,
    /// Heading of the section.
    pub heading: String,
    /// Blocks under the heading.
    pub blocks: Vec<Block>,
    /// Tone in which the section is set.
    pub tone: Tone,
}

/// Tone in which a section is set.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Tone {
    /// Ordinary text.
    Plain,
    /// Safety cautions.
    Caution,
    /// Reference matter such as sources: smaller where type has sizes.
    Fine,
}

/// A piece of a section.
#[derive(Debug, Clone, PartialEq)]
pub enum Block {
    /// A paragraph.
    Words(String),
    /// Lines kept as they are, such as a formula.
    Lines(Vec<String>),
    /// Sentences, each with a mark before it.
    List(ListMark, Vec<String>),
    /// A table.
    Table(Table),
    /// Steps of work, in order.
    Steps(Vec<Step>),
    /// A picture; text and Markdown have its description in its place.
    Picture(Picture),
}

/// Mark before each sentence of a list.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum ListMark {
    /// A bullet point.
    Point,
    /// A question to the reader.
    Question,
    /// The number of the sentence, counted from 1.
    Number,
}

/// A table: rows of cells, each row as long as the head if there is one.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Table {
    /// Heads of the columns; empty for a table without a head.
    pub head: Vec<String>,
    /// Rows of the table; the first cell of each names it.
    pub rows: Vec<Vec<Cell>>,
    /// Whether every column but the first holds numbers, to be set flush right.
    pub numbers: bool,
    /// Meanings of letters and marks in the table.
    pub legend: Vec<String>,
}

/// A cell of a table.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Cell {
    /// Text of the cell.
    pub text: String,
    /// Position that the cell states, for a layout that can stress it; the words say it too.
    pub position: Option<Position>,
}

/// A step of work.
#[derive(Debug, Clone, PartialEq)]
pub struct Step {
    /// Task of the step, with its figure.
    pub title: String,
    /// Standing of the figure: what vouches for it; empty if there is none.
    pub standing: String,
    /// Sentences on how and why; one that starts with a blank belongs to the one before it.
    pub words: Vec<String>,
    /// Safety cautions of the step.
    pub cautions: Vec<String>,
    /// Numbers of the sources that the step rests on.
    pub basis: Vec<usize>,
}

impl Default for Furniture {
    /// That of English.
    fn default() -> Self {
        super::words::en::FURNITURE
    }
}

impl Page {
    /// Title of the page: what it is about.
    #[must_use]
    pub fn title(&self) -> &str {
        &self.title
    }

    /// A page that says `opening`, its first sentence as the title, and gives `answer`; nothing under it yet.
    pub(super) fn begun(opening: &[String], answer: String, furniture: Furniture) -> Self {
        let (title, opening) =
            opening.split_first().map_or((String::new(), Vec::new()), |(first, rest)| (first.clone(), rest.to_vec()));
        Self::with_header(title, opening, answer, furniture)
    }

    /// A page with a title and what stands under it that gives `answer`; no section yet.
    pub(super) fn with_header(title: String, opening: Vec<String>, answer: String, furniture: Furniture) -> Self {
        Self { title, opening, answer, mark: AnswerMark::None, sections: Vec::new(), furniture }
    }

    /// The opening sentences; those of a translation end with the sentence that it is one.
    pub(super) fn opened(&self) -> impl Iterator<Item = &str> {
        let note = Some(self.furniture.translated).filter(|note| !note.is_empty());
        self.opening.iter().map(String::as_str).chain(note)
    }

    /// Puts `picture` at the end of the section called `name`; if there is none, among the pictures that follow the
    /// cautions.
    pub fn place(&mut self, name: &str, picture: Picture) {
        let named = |name: &str, page: &Self| page.sections.iter().position(|section| section.name == name);
        let at = named(name, self).or_else(|| named("pictures", self)).unwrap_or_else(|| {
            // behind what to do and what can hurt
            let mind = self.sections.iter().position(|section| section.tone == Tone::Caution);
            let at = mind.map_or(self.sections.len(), |mind| mind + 1);
            self.sections.insert(at, Section::new("pictures", self.furniture.pictures, Vec::new()));
            at
        });
        self.sections[at].blocks.push(Block::Picture(picture));
    }

    /// Adds a section, unless nothing stands under its heading.
    pub(super) fn add(&mut self, section: Section) {
        if section.blocks.iter().any(|block| !block.is_empty()) {
            self.sections.push(section);
        }
    }
}

impl Section {
    pub(super) fn new(name: &'static str, heading: impl Into<String>, blocks: Vec<Block>) -> Self {
        Self { name, heading: heading.into(), blocks, tone: Tone::Plain }
    }

    /// A list of points.
    pub(super) fn list(name: &'static str, heading: impl Into<String>, sentences: &[String]) -> Self {
        Self::new(name, heading, vec![Block::List(ListMark::Point, sentences.to_vec())])
    }

    pub(super) fn tone(self, tone: Tone) -> Self {
        Self { tone, ..self }
    }
}

impl Block {
    fn is_empty(&self) -> bool {
        match self {
            Self::Words(words) => words.is_empty(),
            Self::List(_, sentences) | Self::Lines(sentences) => sentences.is_empty(),
            Self::Table(table) => table.rows.is_empty(),
            Self::Steps(steps) => steps.is_empty(),
            Self::Picture(_) => false,
        }
    }
}

impl<T: Into<String>> From<T> for Cell {
    fn from(text: T) -> Self {
        Self { text: text.into(), position: None }
    }
}

impl Table {
    /// A table of `rows` under `head`.
    pub(super) fn new<const N: usize>(head: [&str; N], rows: impl IntoIterator<Item = [Cell; N]>) -> Self {
        let head = if head.iter().all(|name| name.is_empty()) { Vec::new() } else { head.map(str::to_owned).to_vec() };
        Self { head, rows: rows.into_iter().map(Vec::from).collect(), ..Self::default() }
    }

    /// Columns of which every cell, and the head, is empty are left out.
    pub(super) fn without_empty_columns(mut self) -> Self {
        let columns = self.rows.iter().map(Vec::len).max().unwrap_or(0);
        for column in (1..columns).rev() {
            if self.rows.iter().all(|row| row.get(column).is_none_or(|cell| cell.text.is_empty())) {
                self.rows.iter_mut().for_each(|row| drop(row.remove(column)));
                if column < self.head.len() {
                    self.head.remove(column);
                }
            }
        }
        self
    }
}

/// "1, 3, 4".
pub(super) fn numbers(basis: &[usize]) -> String {
    basis.iter().map(ToString::to_string).collect::<Vec<_>>().join(", ")
}

#[cfg(test)]
pub(super) mod tests {
    use super::*;
    use crate::circuit::Settings;
    use crate::inspection::{Entry, Measurand, Reading};
    use crate::plot::saturation;
    use crate::report::words::en::FURNITURE;
    use crate::{GaugePressure, Measured, Pressure, Refrigerant};

    /// A page with every kind of block but a picture.
    pub(in crate::report) fn every_block() -> Page {
        let texts = |texts: &[&str]| texts.iter().map(|&text| text.to_owned()).collect::<Vec<String>>();
        let mut table = Table::new(["name", "value"], [["a".into(), "1 | 2".into()], ["b".into(), "3".into()]]);
        (table.numbers, table.legend) = (true, texts(&["legend"]));
        table.rows[0][1].position = Some(Position::Above);
        table.rows[1][1].position = Some(Position::Within);
        let drain = Step {
            title: "Drain".to_owned(),
            standing: "measured".to_owned(),
            words: texts(&["how", "  detail"]),
            cautions: texts(&["gloves"]),
            basis: vec![1, 3],
        };
        let fill = Step {
            title: "Fill".to_owned(),
            standing: String::new(),
            words: Vec::new(),
            cautions: Vec::new(),
            basis: Vec::new(),
        };
        let blocks = vec![
            Block::Words("A paragraph.".to_owned()),
            Block::Words("Another.".to_owned()),
            Block::Lines(texts(&["a = b", "c = d"])),
            Block::List(ListMark::Point, texts(&["point", "point"])),
            Block::List(ListMark::Question, texts(&["question"])),
            Block::List(ListMark::Number, texts(&["first", "second"])),
            Block::Table(table),
            Block::Table(Table::new(["", "word"], [["a".into(), "b".into()]])),
            Block::Table(Table::new(["", ""], [["c".into(), "d".into()]])),
            Block::Steps(vec![drain, fill]),
        ];
        let mut page = Page::begun(&texts(&["Title of *one*", "Opening."]), "Answer.".to_owned(), FURNITURE);
        page.add(Section::new("every", "Section", blocks));
        page.add(Section::list("mind", "Safety", &texts(&["gloves"])).tone(Tone::Caution));
        page.add(Section::list("sources", "Sources", &texts(&["a work"])).tone(Tone::Fine));
        page
    }

    pub(in crate::report) fn picture() -> Picture {
        let air = Measured::exact(Pressure::STANDARD_ATMOSPHERE).unwrap();
        let low = Measured::exact(GaugePressure::from_psi(30.0)).unwrap();
        let reading = Reading::running(Refrigerant::R134a, Settings::TEST, None, air).unwrap();
        let reading = reading.with(Measurand::LowSide, low).unwrap();
        saturation(&reading, &Entry::default().units()).unwrap()
    }

    fn section(name: &'static str) -> Section {
        Section::list(name, "Heading", &["a sentence".to_owned()])
    }

    fn names(page: &Page) -> Vec<&str> {
        page.sections.iter().map(|section| section.name).collect()
    }

    #[test]
    fn a_page_begins_with_its_first_sentence_as_the_title() {
        let page =
            Page::begun(&["title".to_owned(), "one".to_owned(), "two".to_owned()], "answer".to_owned(), FURNITURE);
        assert_eq!((page.title(), page.answer.as_str()), ("title", "answer"));
        assert_eq!(page.opening, ["one", "two"]);
        assert_eq!(Page::begun(&[], String::new(), FURNITURE).title(), "");
        let page = Page::with_header("title".to_owned(), vec!["one".to_owned()], "answer".to_owned(), FURNITURE);
        assert_eq!(page, Page::begun(&["title".to_owned(), "one".to_owned()], "answer".to_owned(), FURNITURE));
    }

    #[test]
    fn a_section_with_nothing_under_its_heading_is_left_out() {
        let mut page = Page::begun(&[], String::new(), FURNITURE);
        let text = "text".to_owned();
        let step =
            Step { title: text.clone(), standing: String::new(), words: vec![], cautions: vec![], basis: vec![] };
        let row = Table::new(["", ""], [["a".into(), "b".into()]]);
        for (empty, block) in [
            (Block::Words(String::new()), Block::Words(text.clone())),
            (Block::Lines(Vec::new()), Block::Lines(vec![text.clone()])),
            (Block::List(ListMark::Point, Vec::new()), Block::List(ListMark::Number, vec![text])),
            (Block::Table(Table::default()), Block::Table(row)),
            (Block::Steps(Vec::new()), Block::Steps(vec![step])),
        ] {
            page.sections.clear();
            page.add(Section::new("empty", "Heading", vec![empty.clone()]));
            assert!(page.sections.is_empty(), "{empty:?}");
            page.add(Section::new("full", "Heading", vec![empty, block.clone()]));
            assert_eq!(names(&page), ["full"], "{block:?}");
        }
        page.add(Section::new("picture", "Heading", vec![Block::Picture(picture())]));
        assert_eq!(names(&page), ["full", "picture"]);
        assert_eq!(section("a").tone, Tone::Plain);
        let fine = section("a").tone(Tone::Fine);
        assert_eq!((fine.tone, fine.heading.as_str(), fine.blocks.len()), (Tone::Fine, "Heading", 1));
    }

    #[test]
    fn a_picture_goes_where_it_is_named_or_behind_the_cautions() {
        let mut page = Page::begun(&[], String::new(), FURNITURE);
        for name in ["answer", "mind", "more"] {
            let tone = if name == "mind" { Tone::Caution } else { Tone::Plain };
            page.add(section(name).tone(tone));
        }
        page.place("more", picture());
        assert_eq!((names(&page), page.sections[2].blocks.len()), (vec!["answer", "mind", "more"], 2));
        page.place("elsewhere", picture());
        page.place("elsewhere", picture());
        assert_eq!(names(&page), ["answer", "mind", "pictures", "more"]);
        assert_eq!(page.sections[2].blocks.len(), 2);
        let mut careless = Page::begun(&[], String::new(), FURNITURE);
        careless.add(section("answer"));
        careless.place("elsewhere", picture());
        assert_eq!(names(&careless), ["answer", "pictures"]);
    }

    #[test]
    fn columns_without_a_cell_are_left_out_but_for_the_first() {
        let rows = [["".into(), "1".into(), "".into(), "".into()], ["".into(), "".into(), "".into(), "2".into()]];
        let table = Table::new(["", "one", "none", "two"], rows.clone()).without_empty_columns();
        assert_eq!(table.head, ["", "one", "two"]);
        let texts = |row: &Vec<Cell>| row.iter().map(|cell| cell.text.clone()).collect::<Vec<_>>();
        assert_eq!(table.rows.iter().map(texts).collect::<Vec<_>>(), [["", "1", ""], ["", "", "2"]]);
        let headless = Table::new([""; 4], rows).without_empty_columns();
        assert!(headless.head.is_empty() && headless.rows.iter().all(|row| row.len() == 3));
        let row = ["a".into(), "b".into(), "".into()];
        let short =
            Table { head: vec!["one".to_owned(), "two".to_owned()], rows: vec![row.to_vec()], ..Table::default() };
        assert_eq!(short.without_empty_columns().head, ["one", "two"]);
        assert_eq!((numbers(&[1, 3, 14]), numbers(&[])), ("1, 3, 14".to_owned(), String::new()));
    }
}
