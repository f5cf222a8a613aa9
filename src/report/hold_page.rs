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

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::PressureUnit;
    use crate::report::hold::hold;
    use crate::report::hold::tests::leak;
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
        assert_eq!(texts, ["1 inHg in 4 to 5 min", "passes", &format!("rise {}", seen.best()), "5.0 min"]);
        assert_eq!(report.text(80), page.text(80));
        let silent = HoldReport { meaning: Vec::new(), ..report };
        assert_eq!(silent.page().answer, "");
    }
}
