//! Sentences, one module for each language.
//!
//! A language implements [`Words`] for the page about a reading, and the traits of `pages` for the others; the compiler finds a
//! missing sentence. What is said is decided in [`crate::diagnosis::Advice`], [`super::Statement`] and their siblings; only its wording
//! is here. The traits are hidden: they may change in any version.

pub(crate) mod en;
pub(crate) mod es;
mod numerals;
mod pages;
#[cfg(test)]
mod parity;

pub use numerals::Numerals;
pub(in crate::report) use pages::{
    ComparisonLabel, ComparisonWords, HoldLabel, HoldWords, JobLabel, JobWords, LabelWords, PurityWords, TraceWords,
};

use super::page::Furniture;
use super::{CauseTexts, Causes, Caution, Healthy, Mark, Opening, Report, SourceRow, Statement, VerdictCell};
use crate::Error;
use crate::circuit::CircuitKind;
use crate::diagnosis::{CauseId, JudgedQuantity, NextStep, Stop, UnitQuestion};
use crate::expected::{EqualisedVerdict, Side};
use crate::inspection::Measurand;
use crate::quantity::{Position, PressureUnit};
use crate::service::identify::RefrigerantIdentification;
use crate::service::non_condensables::Purity;
use crate::service::oil::label::OilLabel;

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
    /// In one line for a row of a log: the low side.
    Low,
    /// In one line: the high side.
    High,
    /// In one line: an equalised circuit.
    EngineOff,
    /// In one line: there is no window.
    Unjudged,
    /// In one line: there is no saturation.
    AboveCriticalPressure,
}

/// Detail in which a page states the reasons for and against a cause.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Reasons {
    /// Every reason, with how strong it is.
    Full,
    /// The reasons for the first cause, without how strong they are.
    Short,
}

/// The sentences of a page about one reading in one language.
///
/// A language that leaves out a sentence does not compile:
///
/// ```compile_fail,E0046
/// struct Silent;
/// impl satline::report::Words for Silent {}
/// ```
pub trait Words {
    /// How numbers are written.
    fn numerals(&self) -> Numerals;
    /// The words that every layout of a page brings along.
    fn furniture(&self) -> Furniture;
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
    /// The kind of a circuit.
    fn kind(&self, kind: &CircuitKind) -> String;
    /// Texts about a cause.
    fn cause(&self, cause: CauseId) -> CauseTexts;
    /// The title of a page.
    fn title(&self, report: &Report) -> String;
    /// Sentences on the conditions, and on what was not read.
    fn opening(&self, report: &Report) -> Vec<String>;
    /// Sentence on the meaning of ± on the page.
    fn instruments(&self, opening: &Opening) -> String;
    /// Sentence that asks a question about a unit.
    fn question(&self, question: &UnitQuestion) -> String;
    /// Conclusion in a sentence or two; empty if the page gives none.
    fn headline(&self, report: &Report) -> String;
    /// Sentence on what must be done before anything is measured.
    fn stop(&self, stop: Stop) -> &'static str;
    /// Sentence on one next step; `first` for the first measurement of the list.
    fn step(&self, step: &NextStep, causes: Option<&Causes>, first: bool) -> String;
    /// Sentence for one statement about a reading.
    fn statement(&self, statement: &Statement, report: &Report) -> String;
    /// The sentences about the causes, a paragraph each.
    fn explanation(&self, report: &Report, reasons: Reasons) -> Vec<String>;
    /// Verdict on an equalised circuit in a few words.
    fn equalised(&self, verdict: EqualisedVerdict) -> &'static str;
    /// Sentence on the basis of the window of healthy circuits.
    fn behind(&self, healthy: &Healthy) -> String;
    /// Short form of [`Words::behind`].
    fn behind_in_short(&self, healthy: &Healthy) -> String;
    /// Saturation temperatures of the gauges; `None` if none was read.
    fn saturated(&self, report: &Report) -> Option<String>;
    /// Letter of a mark, and its meaning.
    fn mark(&self, mark: Mark) -> (char, &'static str);
    /// Sentence for a caution.
    fn caution(&self, caution: Caution, refrigerant: &str) -> String;
    /// Short form of [`Words::caution`], for a page of one screen.
    fn caution_in_short(&self, caution: Caution, refrigerant: &str) -> String;
    /// A caution in a few words, for one line of them.
    fn caution_in_a_word(&self, caution: Caution) -> &'static str;
    /// A source with its topic.
    fn source(&self, row: &SourceRow, refrigerant: &str) -> String;
    /// Sentence of an error; in English the one it displays.
    fn error(&self, error: &Error) -> String;
}

/// A verdict: "below (97 %)".
pub(in crate::report) fn verdict(words: &dyn Words, verdict: &VerdictCell) -> String {
    let position = words.position(verdict.position);
    verdict.probability.map_or(position.to_owned(), |p| format!("{position} {}", super::amount::in_brackets(p)))
}

/// `text` with its first letter as a capital.
pub(in crate::report) fn capitalised(text: &str) -> String {
    let mut chars = text.chars();
    chars.next().map_or(String::new(), |first| first.to_uppercase().chain(chars).collect())
}

/// The cautions of `report` in short, in one paragraph.
pub(in crate::report) fn cautions_in_short(words: &dyn Words, report: &Report) -> String {
    let short = |caution: &Caution| words.caution_in_short(*caution, &report.refrigerant);
    report.cautions.iter().map(short).collect::<Vec<_>>().join(" ")
}

/// Language in which pages are written.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(rename_all = "kebab-case"))]
#[non_exhaustive]
pub enum Language {
    /// English.
    #[default]
    English,
    /// Spanish: a translation, of which the English text governs.
    Spanish,
}

/// A language with the sentences of one kind of page.
macro_rules! spoken {
    ($($(#[$doc:meta])* $name:ident: $words:ident;)*) => {
        $($(#[$doc])*
        pub(in crate::report) fn $name(self) -> &'static dyn $words {
            match self {
                Self::English => &en::English,
                Self::Spanish => &es::Spanish,
            }
        })*
    };
}

impl Language {
    /// Every language.
    pub const ALL: &'static [Self] = &[Self::English, Self::Spanish];

    spoken! {
        /// The sentences about a reading.
        words: Words;
        /// The sentences about a standing vacuum test.
        hold_words: HoldWords;
        /// The sentences of a job sheet.
        job_words: JobWords;
        /// The sentences about an oil label.
        label_words: LabelWords;
        /// The sentences about air over a liquid, and about which refrigerant is inside.
        purity_words: PurityWords;
        /// The sentences about a log.
        trace_words: TraceWords;
        /// The sentences about two reports on one circuit.
        comparison_words: ComparisonWords;
    }

    /// `value` with so many decimals, in the signs of this language.
    ///
    /// ```
    /// use satline::report::Language;
    /// assert_eq!(Language::English.number(2.25, 2), "2.25");
    /// assert_eq!(Language::Spanish.number(2.25, 2), "2,25");
    /// ```
    #[must_use]
    pub fn number(self, value: f64, decimals: usize) -> String {
        self.words().numerals().number(value, decimals)
    }

    /// A quantity in the unit and with the digits that were typed, in the signs of this language.
    ///
    /// ```
    /// use satline::report::Language;
    /// use satline::{Entered, Temperature};
    /// let typed: Entered<Temperature> = "86.5 °F".parse()?;
    /// assert_eq!(Language::Spanish.entered(&typed), "86,5 °F");
    /// # Ok::<(), satline::Error>(())
    /// ```
    #[must_use]
    pub fn entered<Q: crate::Quantity>(self, entered: &crate::Entered<Q>) -> String {
        self.words().numerals().entered(&entered.to_string())
    }

    /// The texts of pictures in this language.
    #[doc(hidden)]
    #[must_use]
    pub fn pictures(self) -> &'static dyn crate::plot::PictureWords {
        match self {
            Self::English => &crate::plot::English,
            Self::Spanish => &es::Spanish,
        }
    }

    /// Name of a judged quantity in this language.
    ///
    /// ```
    /// use satline::diagnosis::JudgedQuantity;
    /// use satline::report::Language;
    /// assert_eq!(Language::English.quantity(JudgedQuantity::Superheat), "superheat");
    /// assert_eq!(Language::Spanish.quantity(JudgedQuantity::Superheat), "sobrecalentamiento");
    /// ```
    #[must_use]
    pub fn quantity(self, quantity: JudgedQuantity) -> &'static str {
        self.words().quantity(quantity)
    }

    /// A position in a word, in this language.
    ///
    /// ```
    /// use satline::quantity::Position;
    /// use satline::report::Language;
    /// assert_eq!(Language::English.position(Position::Below), "below");
    /// ```
    #[must_use]
    pub fn position(self, position: Position) -> &'static str {
        self.words().position(position)
    }

    /// A probability in percent, never put as certain, in this language.
    ///
    /// ```
    /// use satline::report::Language;
    /// assert_eq!(Language::English.percent(0.47), "47 %");
    /// assert_eq!(Language::Spanish.percent(0.999), "más del 98 %");
    /// ```
    #[must_use]
    pub fn percent(self, probability: f64) -> String {
        self.words().numerals().percent(probability)
    }

    /// Sentence that a text is a translation, and of what; empty for English, whose text governs.
    ///
    /// ```
    /// use satline::report::Language;
    /// assert_eq!(Language::English.translated(), "");
    /// assert!(Language::Spanish.translated().contains("prevalece el texto en inglés"));
    /// ```
    #[must_use]
    pub fn translated(self) -> &'static str {
        self.words().furniture().translated
    }

    /// Texts about `cause` in this language.
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

    /// Conclusion of `report` in a sentence or two, in this language; empty if it gives none.
    ///
    /// ```
    /// use satline::Refrigerant;
    /// use satline::diagnosis::Diagnosis;
    /// use satline::report::Language;
    /// let report = Diagnosis::of(Refrigerant::R134a).low("0 psi")?.high("0 psi")?.assess()?.report();
    /// assert!(Language::English.headline(&report).starts_with("The circuit is empty or almost empty: "));
    /// # Ok::<(), satline::Error>(())
    /// ```
    #[must_use]
    pub fn headline(self, report: &Report) -> String {
        self.words().headline(report)
    }

    /// Sentence on what must be done before anything is measured, in this language.
    ///
    /// ```
    /// use satline::diagnosis::Stop;
    /// use satline::report::Language;
    /// assert!(Language::English.stop(Stop::LowSideInVacuum).starts_with("Switch the air conditioning off now: "));
    /// ```
    #[must_use]
    pub fn stop(self, stop: Stop) -> &'static str {
        self.words().stop(stop)
    }

    /// Sentence on a next step that `report` advises, in this language: for an app that shows one step at a time.
    ///
    /// ```
    /// use satline::Refrigerant;
    /// use satline::diagnosis::Diagnosis;
    /// use satline::report::Language;
    /// let report = Diagnosis::of(Refrigerant::R134a).low("30 psi")?.high("180 psi")?.assess()?.report();
    /// let first = Language::English.step(&report.advice.next[0], &report);
    /// assert_eq!(first, "Ambient temperature in the shade before the condenser: every window depends on it.");
    /// # Ok::<(), satline::Error>(())
    /// ```
    #[must_use]
    pub fn step(self, step: &NextStep, report: &Report) -> String {
        // what the brackets of a measurement mean is said at the first of the list
        let measurement = report.advice.next.iter().find(|one| matches!(one, NextStep::Measure { .. }));
        self.words().step(step, report.causes.as_ref(), measurement == Some(step))
    }

    /// Safety cautions of `report` in short, in this language.
    ///
    /// ```
    /// use satline::Refrigerant;
    /// use satline::diagnosis::Diagnosis;
    /// use satline::report::Language;
    /// let report = Diagnosis::of(Refrigerant::R1234yf).low("30 psi")?.assess()?.report();
    /// assert!(Language::English.cautions_in_short(&report).contains("R-1234yf burns (class A2L)"));
    /// # Ok::<(), satline::Error>(())
    /// ```
    #[must_use]
    pub fn cautions_in_short(self, report: &Report) -> String {
        cautions_in_short(self.words(), report)
    }

    /// Sentence that asks a question about a unit, in this language.
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

    /// Sentences of the [`cautions`](super::cautions) for a circuit filled with `refrigerant`, in this language.
    ///
    /// ```
    /// use satline::Refrigerant;
    /// use satline::report::Language;
    /// let cautions = Language::Spanish.cautions(Refrigerant::R1234yf);
    /// assert!(cautions.iter().any(|sentence| sentence.contains("inflamable")));
    /// ```
    #[must_use]
    pub fn cautions(self, refrigerant: crate::Refrigerant) -> Vec<String> {
        let name = refrigerant.to_string();
        super::cautions(refrigerant).into_iter().map(|one| self.words().caution(one, &name)).collect()
    }

    /// Sentences about a pressure over liquid refrigerant in this language, with pressures in `unit`.
    #[must_use]
    pub fn purity(self, purity: &Purity, unit: PressureUnit) -> Vec<String> {
        self.purity_words().purity(purity, unit)
    }

    /// Sentences about which refrigerants fit an equalised circuit, and what that does not settle, in this language.
    #[must_use]
    pub fn identity(self, identification: &RefrigerantIdentification) -> Vec<String> {
        super::purity::identity_statements(identification).iter().map(|one| self.purity_words().identity(one)).collect()
    }

    /// Sentence of an error in this language, in English the one it displays: what, the value, the limit and the way out.
    ///
    /// What was typed stands in it as it was typed, and ids and the names of columns stay.
    ///
    /// ```
    /// use satline::report::Language;
    /// let error = "32".parse::<satline::GaugePressure>().unwrap_err();
    /// assert_eq!(Language::English.error(&error), error.to_string());
    /// assert!(Language::Spanish.error(&error).starts_with("presión manométrica: «32» no tiene unidad; añada una de "));
    /// ```
    #[must_use]
    pub fn error(self, error: &Error) -> String {
        self.words().error(error)
    }

    /// Sentences about an oil label in this language: each ounce tried, then the verdict.
    #[must_use]
    pub fn oil_label(self, label: &OilLabel) -> Vec<String> {
        super::oil_label::oil_label_in(label, self)
    }
}
