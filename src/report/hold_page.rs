//! The page about a standing vacuum test laid out.

use super::hold::{FigureRow, FitFigure};
use super::page::{Block, Page, Section, Table, Tone};
use super::words::HoldLabel;
use super::{HoldReport, Language};

/// A report laid out in `language`.
fn laid_out(report: &HoldReport, language: Language) -> Page {
    let (words, n) = (language.hold_words(), language.words().numerals());
    let label = |of| words.label(of);
    // what the rise says comes first
    let mut meaning = report.meaning.iter().map(|one| words.statement(one));
    let answer = meaning.next().unwrap_or_default();
    let mut page = Page::begun(&words.opening(report), answer, language.words().furniture());
    let figures = report.figures.iter().map(|row| {
        let mut row = row.clone();
        if row.quantity == FitFigure::Refrigerant {
            row.unit = words.grams_a_year().into();
        }
        [words.figure(row.quantity).into(), n.best(&row).into(), n.interval(&row).into()]
    });
    let head = ["", label(HoldLabel::BestEstimate), label(HoldLabel::Interval)];
    page.add(Section::new("figures", label(HoldLabel::Figures), vec![Block::Table(Table::new(head, figures))]));
    page.add(Section::list("meaning", label(HoldLabel::Meaning), &meaning.collect::<Vec<_>>()));
    let gates = report.gates.iter().map(|row| {
        let seen = |seen: &FigureRow<_>| format!("{} {}", words.observed(seen.quantity), n.best(seen));
        let seen = row.seen.as_ref().map_or(String::new(), seen);
        [words.limit(&row.limit).into(), words.outcome(row.outcome).into(), seen.into(), n.amount(&row.over).into()]
    });
    let head = [HoldLabel::Limit, HoldLabel::Result, HoldLabel::Observed, HoldLabel::JudgedOver].map(label);
    page.add(Section::new("gates", label(HoldLabel::Limits), vec![Block::Table(Table::new(head, gates))]));
    let proof: Vec<String> = report.proof.iter().map(|one| words.statement(one)).collect();
    page.add(Section::list("proof", label(HoldLabel::Proof), &proof));
    let next: Vec<String> = report.next.iter().map(|&step| words.next(step).to_owned()).collect();
    page.add(Section::list("next", label(HoldLabel::Next), &next));
    let cautions: Vec<String> = report.cautions.iter().map(|&one| words.caution(one).to_owned()).collect();
    page.add(Section::list("mind", label(HoldLabel::Safety), &cautions).tone(Tone::Caution));
    page.add(Section::list("sources", label(HoldLabel::Sources), &report.sources).tone(Tone::Fine));
    page
}

impl HoldReport {
    /// The report laid out as a page in English, ready to be written.
    #[must_use]
    pub fn page(&self) -> Page {
        self.page_in(Language::English)
    }

    /// The report laid out as a page in `language`.
    #[must_use]
    pub fn page_in(&self, language: Language) -> Page {
        laid_out(self, language)
    }

    /// The report as plain text, no line longer than `width` columns (at least 40).
    #[must_use]
    pub fn text(&self, width: usize) -> String {
        self.page().text(width)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::PressureUnit;
    use crate::report::hold::hold;
    use crate::report::hold::tests::leak;
    use crate::report::words::HoldWords;
    use crate::report::words::en::{English, NUMERALS};
    use crate::{Measured, Pressure, Refrigerant};

    #[test]
    fn the_page_says_first_what_the_rise_means() {
        let air = Measured::exact(Pressure::STANDARD_ATMOSPHERE).unwrap();
        let report = hold(&leak(), &air, Refrigerant::R134a, None, PressureUnit::Micron).unwrap();
        let (page, opening) = (report.page(), HoldWords::opening(&English, &report));
        assert_eq!(
            (&page.title, &page.opening[..], &page.answer),
            (&opening[0], &opening[1..], &English.statement(&report.meaning[0]))
        );
        let names: Vec<&str> = page.sections.iter().map(|section| section.name).collect();
        assert_eq!(names, ["figures", "meaning", "gates", "proof", "next", "mind", "sources"]);
        assert!(
            matches!(&page.sections[1].blocks[..], [Block::List(_, rest)] if rest.len() + 1 == report.meaning.len())
        );
        let [Block::Table(gates)] = &page.sections[2].blocks[..] else { panic!("no table") };
        let texts: Vec<&str> = gates.rows[0].iter().map(|cell| cell.text.as_str()).collect();
        let seen = report.gates[0].seen.as_ref().unwrap();
        assert_eq!(texts, ["1 inHg in 4 to 5 min", "passes", &format!("rise {}", NUMERALS.best(seen)), "5.0 min"]);
        assert_eq!(report.text(80), page.text(80));
        let silent = HoldReport { meaning: Vec::new(), ..report };
        assert_eq!(silent.page().answer, "");
    }
}
