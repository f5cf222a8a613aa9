//! Sentences, one module for each language.
//!
//! A language implements [`Words`]; the compiler finds a missing sentence. What is said is decided in [`crate::diagnosis::Advice`]
//! and [`super::Statement`]; only its wording stands here. The trait is hidden: it may change in any version.

pub(crate) mod en;

use super::{CauseTexts, Causes, Caution, Healthy, Mark, Opening, Report, SourceRow, Statement, VerdictCell};
use crate::diagnosis::{CauseId, JudgedQuantity, NextStep, Stop, UnitQuestion};
use crate::expected::{EqualisedVerdict, Position, Side};
use crate::inspection::Measurand;

/// A heading, the head of a column, or a word in a table.
#[doc(hidden)]
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Label {
    Questions,
    Pressures,
    Healthy,
    Causes,
    Next,
    Safety,
    Meaning,
    AgainstSaturation,
    AgainstPrint,
    Charts,
    Sources,
    Read,
    Window,
    Result,
    Gauge,
    Absolute,
    SaturatedAt,
    DewPoint,
    BubblePoint,
    Chart,
    NoWindow,
    AboveCritical,
}

/// How much a page says for and against a cause.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Reasons {
    /// Every reason, with how strong it is.
    Full,
    /// The reasons for the first cause, without how strong they are.
    Short,
}

/// The sentences of a page about one reading in one language.
pub trait Words {
    /// A heading or a word in a table.
    fn label(&self, label: Label) -> &'static str;
    /// The name of a measurand.
    fn measurand(&self, measurand: Measurand) -> &'static str;
    /// The name of a judged quantity.
    fn quantity(&self, quantity: JudgedQuantity) -> &'static str;
    /// The name of a side.
    fn side(&self, side: Side) -> &'static str;
    /// A position in a word.
    fn position(&self, position: Position) -> &'static str;
    /// What is said of a cause.
    fn cause(&self, cause: CauseId) -> CauseTexts;
    /// The title of a page.
    fn title(&self, report: &Report) -> String;
    /// The conditions, and what was not read.
    fn opening(&self, report: &Report) -> Vec<String>;
    /// What ± means on the page.
    fn instruments(&self, opening: &Opening) -> String;
    /// A question about a unit.
    fn question(&self, question: &UnitQuestion) -> String;
    /// The answer in a sentence or two; empty where the page gives none.
    fn headline(&self, report: &Report) -> String;
    /// What must be done before anything is measured.
    fn stop(&self, stop: Stop) -> &'static str;
    /// One thing to do next; `first` for the first measurement of the list.
    fn step(&self, step: &NextStep, causes: Option<&Causes>, first: bool) -> String;
    /// One statement about a reading.
    fn statement(&self, statement: &Statement, report: &Report) -> String;
    /// The sentences about the causes, a paragraph each.
    fn explanation(&self, report: &Report, reasons: Reasons) -> Vec<String>;
    /// A verdict on an equalised circuit in a few words.
    fn equalised(&self, verdict: EqualisedVerdict) -> &'static str;
    /// What lies behind the window of healthy circuits.
    fn behind(&self, healthy: &Healthy) -> String;
    /// The same in short.
    fn behind_in_short(&self, healthy: &Healthy) -> String;
    /// Saturation temperatures of the gauges; `None` where none was read.
    fn saturated(&self, report: &Report) -> Option<String>;
    /// The letter of a mark and what it means.
    fn mark(&self, mark: Mark) -> (char, &'static str);
    /// A caution.
    fn caution(&self, caution: Caution, refrigerant: &str) -> String;
    /// The cautions in short, for a page of one screen.
    fn cautions_in_short(&self, report: &Report) -> String;
    /// A source and what it is for.
    fn source(&self, row: &SourceRow, refrigerant: &str) -> String;

    /// A verdict: "below (97 %)".
    fn verdict(&self, verdict: &VerdictCell) -> String {
        let position = self.position(verdict.position);
        verdict.probability.map_or(position.to_owned(), |p| format!("{position} {}", super::amount::in_brackets(p)))
    }
}

/// A language of pages.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(rename_all = "kebab-case"))]
#[non_exhaustive]
pub enum Language {
    /// English.
    #[default]
    English,
}

impl Language {
    /// Every language.
    pub const ALL: &'static [Self] = &[Self::English];

    /// Its sentences.
    pub(crate) fn words(self) -> &'static dyn Words {
        match self {
            Self::English => &en::English,
        }
    }

    /// What is said of a cause.
    ///
    /// ```
    /// use satline::diagnosis::CauseId;
    /// use satline::report::Language;
    /// assert_eq!(Language::English.cause(CauseId::Undercharge).name, "charge too low");
    /// ```
    #[must_use]
    pub fn cause(self, cause: CauseId) -> CauseTexts {
        self.words().cause(cause)
    }

    /// A question about a unit.
    ///
    /// ```
    /// use satline::Refrigerant;
    /// use satline::diagnosis::Diagnosis;
    /// use satline::report::Language;
    /// let request = Diagnosis::of(Refrigerant::R134a).low("2.2 psi")?;
    /// let asked = Language::English.question(&request.questions()?[0]);
    /// assert_eq!(asked, "low side: 2.2 psi is far from what is usual; was 2.2 bar meant?");
    /// # Ok::<(), satline::Error>(())
    /// ```
    #[must_use]
    pub fn question(self, question: &UnitQuestion) -> String {
        self.words().question(question)
    }
}
