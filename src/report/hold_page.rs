//! The page about a standing vacuum test laid out.

use super::page::{Block, Page, Section, Table, Tone};
use super::words::HoldLabel;
use super::{HoldReport, Language};

/// A report whose sentences are those of `language`, laid out.
pub(super) fn laid_out(report: &HoldReport, language: Language) -> Page {
    let (words, n) = (language.hold_words(), language.words().numerals());
    let label = |of| words.label(of);
    // what the rise says comes first
    let (answer, meaning) =
        report.meaning.split_first().map_or((String::new(), &[][..]), |(first, rest)| (first.clone(), rest));
    let mut page = Page::begun(&report.opening, answer, language.words().furniture());
    let figures = report.figures.iter().map(|row| [(&*row.name).into(), n.best(row).into(), n.interval(row).into()]);
    let head = ["", label(HoldLabel::BestEstimate), label(HoldLabel::Interval)];
    page.add(Section::new("figures", label(HoldLabel::Figures), vec![Block::Table(Table::new(head, figures))]));
    page.add(Section::list("meaning", label(HoldLabel::Meaning), meaning));
    let gates = report.gates.iter().map(|row| {
        let seen = row.seen.as_ref().map_or(String::new(), |seen| format!("{} {}", seen.name, n.best(seen)));
        [(&*row.gate).into(), words.outcome(row.outcome).into(), seen.into(), n.amount(&row.over).into()]
    });
    let head = [HoldLabel::Limit, HoldLabel::Result, HoldLabel::Observed, HoldLabel::JudgedOver].map(label);
    page.add(Section::new("gates", label(HoldLabel::Limits), vec![Block::Table(Table::new(head, gates))]));
    page.add(Section::list("proof", label(HoldLabel::Proof), &report.proof));
    page.add(Section::list("next", label(HoldLabel::Next), &report.next));
    page.add(Section::list("mind", label(HoldLabel::Safety), &report.cautions).tone(Tone::Caution));
    page.add(Section::list("sources", label(HoldLabel::Sources), &report.sources).tone(Tone::Fine));
    page
}

impl HoldReport {
    /// The report laid out as a page in English, ready to be written; [`super::hold_page()`] writes it in another language.
    #[must_use]
    pub fn page(&self) -> Page {
        laid_out(self, Language::English)
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
    use crate::report::words::en::NUMERALS;
    use crate::{Measured, Pressure, Refrigerant};

    #[test]
    fn the_page_says_first_what_the_rise_means() {
        let air = Measured::exact(Pressure::STANDARD_ATMOSPHERE).unwrap();
        let report = hold(&leak(), &air, Refrigerant::R134a, None, PressureUnit::Micron).unwrap();
        let page = report.page();
        assert_eq!(
            (&page.title, &page.opening[..], &page.answer),
            (&report.opening[0], &report.opening[1..], &report.meaning[0])
        );
        let names: Vec<&str> = page.sections.iter().map(|section| section.name).collect();
        assert_eq!(names, ["figures", "meaning", "gates", "proof", "next", "mind", "sources"]);
        assert!(matches!(&page.sections[1].blocks[..], [Block::List(_, rest)] if *rest == report.meaning[1..]));
        let [Block::Table(gates)] = &page.sections[2].blocks[..] else { panic!("no table") };
        let texts: Vec<&str> = gates.rows[0].iter().map(|cell| cell.text.as_str()).collect();
        let seen = report.gates[0].seen.as_ref().unwrap();
        assert_eq!(texts, ["1 inHg in 4 to 5 min", "passes", &format!("rise {}", NUMERALS.best(seen)), "5.0 min"]);
        assert_eq!(report.text(80), page.text(80));
        let silent = HoldReport { meaning: Vec::new(), ..report };
        assert_eq!(silent.page().answer, "");
    }
}
