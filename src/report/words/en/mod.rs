//! The sentences in English.

mod cause_texts;
mod causes;
pub(crate) mod comparison;
pub(crate) mod hold;
pub(crate) mod job;
pub(crate) mod oil_label;
pub(crate) mod purity;
pub(crate) mod reading;
pub(crate) mod trace;

use super::{Label, Numerals, Reasons, Words};
use crate::Error;
use crate::circuit::CircuitKind;
use crate::diagnosis::{CauseId, JudgedQuantity, NextStep, Stop, UnitQuestion};
use crate::expected::{EqualisedVerdict, Side};
use crate::inspection::Measurand;
use crate::quantity::Position;
use crate::report::page::Furniture;
use crate::report::{Amount, CauseTexts, Causes, Caution, Healthy, Mark, Opening, Report, SourceRow, Span, Statement};

/// How English writes numbers.
pub(crate) const NUMERALS: Numerals = Numerals {
    point: '.',
    group: None,
    to: "to",
    about: "about",
    over: "over",
    or_more: "or more",
    or_less: "or less",
    open: "open",
};

/// What every layout of a page in English brings along.
pub(crate) const FURNITURE: Furniture =
    Furniture { tag: "en", translated: "", basis: "Basis", mind: "Mind", table: "Table", pictures: "In pictures" };

/// The sentences of a page in English.
pub(crate) struct English;

impl Words for English {
    fn numerals(&self) -> Numerals {
        NUMERALS
    }
    fn furniture(&self) -> Furniture {
        FURNITURE
    }
    fn label(&self, label: Label) -> &'static str {
        reading::label(label)
    }
    fn measurand(&self, measurand: Measurand) -> &'static str {
        reading::measurand(measurand)
    }
    fn quantity(&self, quantity: JudgedQuantity) -> &'static str {
        reading::quantity(quantity)
    }
    fn side(&self, side: Side) -> &'static str {
        reading::side(side)
    }
    fn position(&self, position: Position) -> &'static str {
        reading::position(position)
    }
    fn kind(&self, kind: &CircuitKind) -> String {
        kind.to_string()
    }
    fn cause(&self, cause: CauseId) -> CauseTexts {
        cause_texts::texts(cause)
    }
    fn title(&self, report: &Report) -> String {
        reading::title(report)
    }
    fn opening(&self, report: &Report) -> Vec<String> {
        reading::opening(report)
    }
    fn instruments(&self, opening: &Opening) -> String {
        reading::instruments(opening)
    }
    fn question(&self, question: &UnitQuestion) -> String {
        reading::question(question)
    }
    fn headline(&self, report: &Report) -> String {
        reading::headline(report)
    }
    fn stop(&self, stop: Stop) -> &'static str {
        reading::stop(stop)
    }
    fn step(&self, step: &NextStep, causes: Option<&Causes>, first: bool) -> String {
        causes::step(step, causes, first)
    }
    fn statement(&self, statement: &Statement, report: &Report) -> String {
        reading::statement(statement, report)
    }
    fn explanation(&self, report: &Report, reasons: Reasons) -> Vec<String> {
        causes::explanation(report, reasons)
    }
    fn equalised(&self, verdict: EqualisedVerdict) -> &'static str {
        reading::equalised_in_short(verdict)
    }
    fn behind(&self, healthy: &Healthy) -> String {
        reading::behind(healthy)
    }
    fn behind_in_short(&self, healthy: &Healthy) -> String {
        reading::behind_in_short(healthy)
    }
    fn saturated(&self, report: &Report) -> Option<String> {
        reading::saturated(report)
    }
    fn mark(&self, mark: Mark) -> (char, &'static str) {
        reading::mark(mark)
    }
    fn caution(&self, caution: Caution, refrigerant: &str) -> String {
        reading::caution(caution, refrigerant)
    }
    fn caution_in_short(&self, caution: Caution, refrigerant: &str) -> String {
        reading::caution_in_short(caution, refrigerant)
    }
    fn caution_in_a_word(&self, caution: Caution) -> &'static str {
        reading::caution_in_a_word(caution)
    }
    fn source(&self, row: &SourceRow, refrigerant: &str) -> String {
        reading::source(row, refrigerant)
    }
    fn error(&self, error: &Error) -> String {
        error.to_string()
    }
}

/// "140 to 160 cm³", or one number.
fn cm3(range: &Span) -> String {
    NUMERALS.joined(range)
}

/// "60 cm³".
fn one(oil: &Amount) -> String {
    NUMERALS.plain(oil)
}

#[cfg(test)]
pub(in crate::report) mod tests {
    use std::collections::BTreeSet;

    use super::*;
    use crate::Refrigerant;
    use crate::diagnosis::Diagnosis;

    /// Every sentence says the words of its row, and no two sentences are alike.
    #[track_caller]
    pub(in crate::report) fn told_apart<S: Into<String>>(rows: impl IntoIterator<Item = (S, &'static [&'static str])>) {
        let mut said = BTreeSet::new();
        for (sentence, words) in rows {
            let sentence = sentence.into();
            says(&sentence, words);
            assert!(said.insert(sentence.clone()), "said twice: {sentence:?}");
        }
    }

    /// A sentence says each of the words, of which there is at least one.
    #[track_caller]
    pub(in crate::report) fn says(sentence: &str, words: &[&str]) {
        assert!(!words.is_empty() && !sentence.trim_start().contains("  "), "{sentence:?}");
        for word in words {
            assert!(!word.is_empty() && sentence.contains(word), "{word:?} is not in {sentence:?}");
        }
    }

    /// The report on both gauges of a running car, and nothing else.
    pub(in crate::report) fn report() -> Report {
        let asked = Diagnosis::of(Refrigerant::R134a).low("30 psi").unwrap().high("180 psi").unwrap();
        asked.run().unwrap().report()
    }

    #[test]
    fn a_range_of_one_number_is_one_number() {
        let range = |low, high| Span::new(low, high, "cm³", 0);
        assert_eq!(cm3(&range(140.0, 160.0)), "140 to 160 cm³");
        assert_eq!(cm3(&range(59.6, 60.4)), "60 cm³");
        assert_eq!(one(&Amount::new(12.4, None, "cm³", 0)), "12 cm³");
    }
}
