//! The page about a standing vacuum test laid out.

use super::HoldReport;
use super::page::{Block, Page, Section, Table, Tone};
use super::words::en;

impl HoldReport {
    /// The report laid out as a page, ready to be written.
    #[must_use]
    pub fn page(&self) -> Page {
        // what the rise says comes first
        let (answer, meaning) =
            self.meaning.split_first().map_or((String::new(), &[][..]), |(first, rest)| (first.clone(), rest));
        let mut page = Page::begun(&self.opening, answer);
        let figures = self.figures.iter().map(|row| [(&*row.name).into(), row.best().into(), row.span().into()]);
        page.add(Section::new(
            "figures",
            "Fitted rise",
            vec![Block::Table(Table::new(["", "best estimate", "95 % interval"], figures))],
        ));
        page.add(Section::list("meaning", "What it means", meaning));
        let gates = self.gates.iter().map(|row| {
            let seen = row.seen.as_ref().map_or(String::new(), |seen| format!("{} {}", seen.name, seen.best()));
            [(&*row.gate).into(), en::hold::outcome(row.outcome).into(), seen.into(), row.over.to_string().into()]
        });
        page.add(Section::new(
            "gates",
            "Published acceptance limits",
            vec![Block::Table(Table::new(["limit", "result", "observed", "judged over"], gates))],
        ));
        page.add(Section::list("proof", "What a pass proves", &self.proof));
        page.add(Section::list("next", "What to do next", &self.next));
        page.add(Section::list("mind", "Safety", &self.cautions).tone(Tone::Caution));
        page.add(Section::list("sources", "Sources", &self.sources).tone(Tone::Fine));
        page
    }

    /// The report as plain text, no line longer than `width` columns (at least 40).
    #[must_use]
    pub fn text(&self, width: usize) -> String {
        self.page().text(width)
    }
}
