//! The job sheet laid out.

use super::JobReport;
use super::page::{Block, ListMark, Page, Section, Step, Table, Tone};

impl JobReport {
    /// The job sheet laid out as a page, ready to be written.
    #[must_use]
    pub fn page(&self) -> Page {
        let mut page = Page::begun(&self.opening, String::new());
        page.add(Section::new(
            "questions",
            "Ask before you start",
            vec![Block::List(ListMark::Question, self.questions.clone())],
        ));
        let steps = self
            .steps
            .iter()
            .map(|step| Step {
                title: step.title.clone() + &step.figure.as_ref().map_or(String::new(), |figure| format!(": {figure}")),
                standing: step.figure.as_ref().map_or(String::new(), |figure| figure.standing.to_string()),
                words: step.words.clone(),
                cautions: step.cautions.clone(),
                basis: step.basis.clone(),
            })
            .collect();
        page.add(Section::new("steps", "Steps", vec![Block::Steps(steps)]));
        let windows = self
            .windows
            .iter()
            .map(|row| [(&*row.name).into(), row.window.to_string().into(), row.basis.as_str().into()]);
        page.add(Section::new(
            "windows",
            "Windows for today's reading",
            vec![Block::Table(Table::new(["what", "window", "basis"], windows))],
        ));
        page.add(Section::list("measure", "What to measure", &self.measure));
        page.add(Section::list("mind", "Safety", &self.cautions).tone(Tone::Caution));
        page.add(
            Section::new("sources", "Sources", vec![Block::List(ListMark::Number, self.sources.clone())])
                .tone(Tone::Fine),
        );
        page
    }

    /// The job sheet as plain text, no line longer than `width` columns (at least 40).
    #[must_use]
    pub fn text(&self, width: usize) -> String {
        self.page().text(width)
    }

    /// The job sheet as Markdown.
    #[must_use]
    pub fn markdown(&self) -> String {
        self.page().markdown()
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::expected::ChartSet;
    use crate::inspection::Entry;
    use crate::report::job_steps::tests::job;

    #[test]
    fn the_sheet_is_laid_out_in_the_order_of_the_work() {
        let job = job();
        let charts = ChartSet::new(job.refrigerant).unwrap();
        let report = crate::report::job(&job, &charts, None, &Entry::default().units()).unwrap();
        let page = report.page();
        let names: Vec<&str> = page.sections.iter().map(|section| section.name).collect();
        assert_eq!(names, ["questions", "steps", "windows", "measure", "mind", "sources"]);
        assert_eq!((&page.title, page.answer.as_str()), (&report.opening[0], ""));
        let [Block::Steps(steps)] = &page.sections[1].blocks[..] else { panic!("no steps") };
        let drain = steps.iter().find(|step| step.title.starts_with("Drain")).unwrap();
        assert_eq!((&*drain.title, &*drain.standing), ("Drain the old compressor and measure: 70 cm³", "measured"));
        let open = steps.iter().find(|step| step.title.starts_with("Open")).unwrap();
        assert_eq!((&*open.title, &*open.standing), ("Open and cap", ""));
        assert_eq!(steps.len(), report.steps.len());
        assert_eq!((report.text(60), report.markdown()), (page.text(60), page.markdown()));
    }
}
