//! The job sheet laid out.

use super::page::{Block, ListMark, Page, Section, Step, Table, Tone};
use super::words::JobLabel;
use super::{JobReport, Language};

/// A sheet whose sentences are those of `language`, laid out.
pub(super) fn laid_out(report: &JobReport, language: Language) -> Page {
    let (words, n) = (language.job_words(), language.words().numerals());
    let label = |of| words.label(of);
    let mut page = Page::begun(&report.opening, String::new(), language.words().furniture());
    let questions = vec![Block::List(ListMark::Question, report.questions.clone())];
    page.add(Section::new("questions", label(JobLabel::Questions), questions));
    let steps = report
        .steps
        .iter()
        .map(|step| Step {
            title: step.title.clone()
                + &step.figure.as_ref().map_or(String::new(), |figure| format!(": {}", n.step(figure))),
            standing: step.figure.as_ref().map_or(String::new(), |figure| figure.standing.to_string()),
            words: step.words.clone(),
            cautions: step.cautions.clone(),
            basis: step.basis.clone(),
        })
        .collect();
    page.add(Section::new("steps", label(JobLabel::Steps), vec![Block::Steps(steps)]));
    let windows =
        report.windows.iter().map(|row| [(&*row.name).into(), n.span(&row.window).into(), row.basis.as_str().into()]);
    let head = [JobLabel::What, JobLabel::Window, JobLabel::Basis].map(label);
    page.add(Section::new("windows", label(JobLabel::Windows), vec![Block::Table(Table::new(head, windows))]));
    page.add(Section::list("measure", label(JobLabel::Measure), &report.measure));
    page.add(Section::list("mind", label(JobLabel::Safety), &report.cautions).tone(Tone::Caution));
    let sources = vec![Block::List(ListMark::Number, report.sources.clone())];
    page.add(Section::new("sources", label(JobLabel::Sources), sources).tone(Tone::Fine));
    page
}

impl JobReport {
    /// The job sheet laid out as a page in English, ready to be written; [`super::job_page()`] writes it in another language.
    #[must_use]
    pub fn page(&self) -> Page {
        laid_out(self, Language::English)
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
