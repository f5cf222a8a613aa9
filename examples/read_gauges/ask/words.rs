//! What the dialogue says and understands beside the library's sentences: one file for each language.
//!
//! A language implements [`Words`]; the compiler finds a missing sentence.

mod en;
mod es;

use satline::circuit::Intake;

use super::super::language::Spoken;
use super::question::Question;
use super::typed::{Replies, Unreadable};

/// A sentence that stands as it is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Sentence {
    /// What is asked for, and how to answer.
    Opening,
    /// Without a full stop: what is wrong.
    NoRefrigerant,
    /// There is nothing to take back.
    FirstQuestion,
    /// As things are.
    NothingElse,
    /// Before the command line that asks on.
    ToGoOn,
    /// Before the command line that prints the page again.
    ToRepeat,
}

/// A question as it is put.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Prompt {
    /// With what it may be answered.
    pub text: String,
    /// What it means, said where that is asked for.
    pub help: &'static str,
}

/// How a running reading counts as taken.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Conditions {
    /// In rpm; `None` at idle.
    pub engine_speed: Option<f64>,
    /// Where the blower takes its air from.
    pub intake: Intake,
    /// Where the command line says nothing of the air pressure.
    pub at_sea_level: bool,
}

/// A group of causes with its probability.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Share {
    /// In percent.
    pub now: String,
    /// Before the last answer, where it was another.
    pub was: Option<String>,
    /// Their names.
    pub causes: Vec<&'static str>,
}

/// The words of a language.
pub trait Words: Sync {
    /// What is understood beside a value.
    fn replies(&self) -> Replies;

    /// A sentence that stands as it is.
    fn sentence(&self, sentence: Sentence) -> &'static str;

    /// How `question` is put; pressures of carbon dioxide are others.
    fn prompt(&self, question: Question, carbon_dioxide: bool) -> Prompt;

    /// Whether the hoses are swapped.
    fn hoses_swapped(&self) -> Prompt;

    /// Whether `instead` was meant, as the library asks by `question`.
    fn other_unit(&self, question: &str, instead: &str) -> Prompt;

    /// How a running reading counts as taken, unless the command line says otherwise.
    fn conditions(&self, conditions: &Conditions) -> String;

    /// Before a question to the eyes that is asked for the sake of `cause`.
    fn look_for(&self, cause: &str) -> String;

    /// Why nothing is known yet.
    fn no_answer(&self, missing: &str) -> String;

    /// That no cause can be named, and how the reading compares.
    fn no_cause(&self, verdicts: &str) -> String;

    /// A group of causes in a line.
    fn share(&self, share: &Share) -> String;

    /// The cautions of the library, as such.
    fn safety(&self, cautions: &str) -> String;

    /// That `typed` is neither yes nor no.
    fn neither(&self, typed: &str) -> String;

    /// Why a line cannot be read, and what to do.
    fn unreadable(&self, why: Unreadable) -> String;

    /// That `option`, of the command line, does not go with a circuit at rest; `said` is what the command line says of it.
    fn not_at_rest(&self, option: &str, said: &str) -> String;

    /// What stands before what the system says of the input.
    fn input(&self) -> &'static str;
}

/// The words of the language of the page.
pub fn of(spoken: Spoken) -> &'static dyn Words {
    spoken.say::<&'static dyn Words>(&en::English, &es::Spanish)
}
