//! Guided reading: one question after another, the answer as soon as there is one, then the measurement worth most next.
//!
//! Nothing is decided here. What is typed becomes options of the command line and is read by the same code, so that every error is the
//! same; a value that is refused is asked for again. What is worth measuring next, and what must stop first, is the library's advice.
//! What is said is in [`words`], a file for each language.

pub mod question;
mod typed;
pub mod words;

use std::error::Error;
use std::ffi::OsString;
use std::io::{self, BufRead, IsTerminal, Write};
use std::process::ExitCode;

use clap::Parser;
use clap::error::{ContextKind, ContextValue, ErrorKind};
use satline::diagnosis::{
    AdvisedQuestion, CauseId, Diagnosis, LeadingGroup, NextStep, QuestionedInput, Reference, UnitQuestion,
};
use satline::inspection::{Measurand, MeasuredWhen, Observation};
use satline::report::{self, Language, Report};
use satline::{Entered, Mass};

use super::Args;
use super::command::Output;
use super::measured::flag;
use question::Question;
use typed::Said;
use words::{Conditions, Prompt, Sentence, Share, Words};

/// Asks on the terminal.
pub fn run(out: &mut Output) -> Result<ExitCode, Box<dyn Error>> {
    let given = std::env::args_os().skip(1).filter(|word| word != "--ask").collect();
    let stdin = io::stdin();
    let echoes = !stdin.is_terminal();
    dialogue(stdin.lock(), out, given, echoes)?;
    Ok(ExitCode::SUCCESS)
}

/// Asks on `out` what `given`, words of the command line, leave open, and reads the answers from `input`. What was read `echoes` on `out`
/// where no terminal shows it.
pub fn dialogue(
    input: impl BufRead,
    out: impl Write,
    given: Vec<OsString>,
    echoes: bool,
) -> Result<(), Box<dyn Error>> {
    let base = Args::try_parse_from(std::iter::once(&OsString::from("read_gauges")).chain(&given))?;
    // what cannot be read or written is known before anybody has typed anything
    let spoken = base.spoken();
    base.baselines().map_err(|error| spoken.refused(error))?;
    if let Some(html) = &base.html {
        base.apart(("--html", html))?;
    }
    let words = words::of(spoken);
    let mut dialogue = Dialogue {
        input,
        out,
        echoes,
        language: spoken.language(),
        words,
        width: base.width(),
        given,
        base,
        answers: Vec::new(),
        kept: None,
        answer: Err(words.sentence(Sentence::NoRefrigerant).into()),
        answered: None,
        shown: None,
        told: Vec::new(),
        doubted: Vec::new(),
        insisted: Vec::new(),
        led_to: None,
        is_apart: false,
    };
    dialogue.ask_all().and_then(|()| dialogue.end()).map_err(|error| spoken.refused(error))
}

/// What was answered.
#[derive(Debug, Clone, PartialEq, Eq)]
enum Answer {
    Skipped,
    Yes,
    No,
    Value(String),
}

/// Whether to go on.
#[derive(PartialEq, Eq)]
enum Then {
    GoOn,
    End,
}

/// Columns that are left for an answer behind its question; our choice.
const TYPED: usize = 8;

/// Causes named with their probability after each answer; our choice, a line or two each.
const MOST_CAUSES: usize = 3;

struct Dialogue<R, W> {
    input: R,
    out: W,
    echoes: bool,
    language: Language,
    words: &'static dyn Words,
    width: usize,
    /// Words of the command line, as they are and as they were read.
    given: Vec<OsString>,
    base: Args,
    answers: Vec<(Question, Answer)>,
    /// Circuits simulated for the conditions of the last answer.
    kept: Option<Reference>,
    /// What is known, or why nothing is.
    answer: Result<Box<Known>, String>,
    /// The words that it is known of.
    answered: Option<Vec<OsString>>,
    /// What was shown last.
    shown: Option<Box<Known>>,
    /// Steps and cautions that were said.
    told: Vec<NextStep>,
    /// Units that were asked about.
    doubted: Vec<UnitQuestion>,
    /// Questions that were asked again though skipped.
    insisted: Vec<Question>,
    /// Why a question is worth asking, as it was said last.
    led_to: Option<Reason>,
    /// Whether the last line is blank.
    is_apart: bool,
}

/// Why a question is worth asking.
#[derive(Debug, Clone, PartialEq)]
enum Reason {
    /// It says how the reading counts as taken.
    Conditions,
    Advised(NextStep),
    /// It looks for a cause.
    LookFor(CauseId),
}

/// A diagnosis with its report.
#[derive(Debug, Clone)]
struct Known {
    diagnosis: Diagnosis,
    report: Report,
}

impl<R: BufRead, W: Write> Dialogue<R, W> {
    /// Asks until nothing is worth asking, or the person at the car has enough.
    fn ask_all(&mut self) -> Result<(), Box<dyn Error>> {
        self.say(self.words.sentence(Sentence::Opening))?;
        self.leave_blank()?;
        loop {
            self.insist();
            let Some(question) = self.next() else {
                return match &self.answer {
                    // what must stop was said
                    Ok(known) if known.report.advice.stops.is_empty() => {
                        self.leave_blank()?;
                        self.say(self.words.sentence(Sentence::NothingElse))
                    }
                    _ => Ok(()),
                };
            };
            self.lead_to(question)?;
            let prompt = self.prompt(question);
            let answer = match self.put(&prompt)? {
                Said::End => return Ok(()),
                Said::Back => {
                    if self.back()? == Then::End {
                        return Ok(());
                    }
                    continue;
                }
                Said::Nothing => Answer::Skipped,
                Said::Text(text) if question.is_yes_or_no() => match self.yes_or_no(&text)? {
                    Some(true) => Answer::Yes,
                    Some(false) => Answer::No,
                    None => continue,
                },
                Said::Text(text) => Answer::Value(text),
            };
            let skipped = answer == Answer::Skipped;
            self.answers.push((question, answer));
            if skipped && question == Question::Refrigerant {
                if self.insisted.contains(&question) {
                    return Ok(());
                }
                self.insisted.push(question);
                self.answers.pop();
                self.say(&format!("  {}.", self.words.sentence(Sentence::NoRefrigerant)))?;
                continue;
            }
            if self.check()? == Then::End || self.is_opened() && self.evaluate()? == Then::End {
                return Ok(());
            }
        }
    }

    /// The next question; `None` where nothing is worth asking.
    fn next(&self) -> Option<Question> {
        if let Some(question) = self.opening().into_iter().find(|question| !self.has(*question)) {
            return Some(question);
        }
        match &self.answer {
            Ok(known) => self.by_advice(&known.report),
            Err(_) if self.runs() && self.is_unread() => {
                let skipped = self.answers.iter().filter_map(|(question, answer)| match question {
                    Question::Measured(measurand) if *answer == Answer::Skipped => Some(*measurand),
                    _ => None,
                });
                let first = Question::first(MeasuredWhen::Running, &skipped.collect::<Vec<_>>());
                first.into_iter().find(|question| !self.has(*question))
            }
            Err(_) => None,
        }
    }

    /// Whether nothing was read of the circuit.
    fn is_unread(&self) -> bool {
        let is_reading = |question: &Question| matches!(question, Question::Measured(_) | Question::Level(_));
        let read = |(question, answer): &(Question, Answer)| is_reading(question) && *answer != Answer::Skipped;
        self.base.measured.is_empty() && !self.answers.iter().any(read)
    }

    /// What is asked before there is an answer.
    fn opening(&self) -> Vec<Question> {
        let mut questions = vec![Question::Refrigerant, Question::Running];
        if self.is_at_rest() {
            questions.extend(Question::first(MeasuredWhen::Equalised, &[]));
        }
        if self.runs() {
            questions.extend(Question::first(MeasuredWhen::Running, &[]));
        }
        questions.retain(|question| !self.is_given(*question));
        questions
    }

    /// Whether all that was asked.
    fn is_opened(&self) -> bool {
        self.opening().into_iter().all(|question| self.has(question))
    }

    /// Whether the gauges were read at rest, before the engine was started.
    fn is_at_rest(&self) -> bool {
        self.answer_to(Question::Running) == Some(&Answer::No)
    }

    /// Whether the compressor runs, as far as was said.
    fn runs(&self) -> bool {
        !self.is_at_rest() || self.answer_to(Question::Started) == Some(&Answer::Yes)
    }

    /// Whether the command line has answered already.
    fn is_given(&self, question: Question) -> bool {
        let base = &self.base;
        match question {
            Question::Refrigerant => base.refrigerant.is_some(),
            // what was read of a running circuit was read of a running circuit
            Question::Running => !base.measured.is_empty() || !base.revved.is_empty() || base.resting.is_some(),
            Question::Measured(measurand) => !base.measured.is_missing(measurand),
            Question::Ambient => base.ambient.is_some(),
            Question::Humidity => base.humidity.is_some(),
            Question::Seen(one) => base.found.contains(&one) || base.not_found.contains(&one),
            Question::Resting => base.resting.is_some(),
            Question::RestingTemperature => base.resting_temperature.is_some(),
            Question::Recovered => base.recovered.is_some(),
            Question::NominalCharge => base.nominal_charge.is_some(),
            Question::Scale(Measurand::LowSide) => base.low_scale.is_some(),
            Question::Scale(_) => base.high_scale.is_some(),
            Question::Level(_) | Question::Started => false,
        }
    }

    fn answer_to(&self, question: Question) -> Option<&Answer> {
        self.answers.iter().find(|(asked, _)| *asked == question).map(|(_, answer)| answer)
    }

    /// Whether there is an answer, on the command line or typed.
    fn has(&self, question: Question) -> bool {
        self.is_given(question) || self.answer_to(question).is_some()
    }

    fn value(&self, question: Question) -> Option<&str> {
        match self.answer_to(question)? {
            Answer::Value(text) => Some(text),
            _ => None,
        }
    }

    /// The first question that the advice of `report` leads to and that is open.
    fn by_advice(&self, report: &Report) -> Option<Question> {
        let open = |question: &Question| !self.has(*question);
        // what belongs to the value before it
        for (of, with) in
            [(Question::Resting, Question::RestingTemperature), (Question::Recovered, Question::NominalCharge)]
        {
            if self.value(of).is_some() && open(&with) {
                return Some(with);
            }
        }
        let advice = &report.advice;
        if !self.runs() {
            return Some(Question::Started)
                .filter(|question| open(question) && advice.next.contains(&NextStep::ReadRunning));
        }
        self.advised(report).iter().filter_map(Question::of).find(open)
    }

    /// What the advice of `report` asks after what was answered.
    fn advised(&self, report: &Report) -> Vec<AdvisedQuestion> {
        let reached = [(Question::Recovered, MeasuredWhen::Recovered), (Question::Resting, MeasuredWhen::Equalised)];
        let reached = reached.into_iter().find(|(question, _)| self.value(*question).is_some());
        let reached = reached.map_or(MeasuredWhen::Running, |(_, when)| when);
        let observed: Vec<Observation> =
            self.answers.iter().filter_map(|(question, _)| question.observation()).collect();
        report.advice.questions(reached, &observed)
    }

    /// Opens the question of the ambient temperature once more where it was skipped and nothing is known without it.
    fn insist(&mut self) {
        let needed = match &self.answer {
            Ok(known) => known.report.advice.next.contains(&NextStep::Ambient),
            // one question after the other
            Err(_) => self.next().is_none(),
        };
        let skipped = self.answer_to(Question::Ambient) == Some(&Answer::Skipped);
        if self.is_opened() && skipped && needed && !self.insisted.contains(&Question::Ambient) {
            self.insisted.push(Question::Ambient);
            self.answers.retain(|(question, _)| *question != Question::Ambient);
        }
    }

    /// The options that the answers are, in the order of the questions.
    fn options(&self) -> Vec<(String, Option<String>)> {
        let mut options = Vec::new();
        let mut put = |name: &str, value: Option<&str>| {
            options.push((format!("--{name}"), value.map(str::to_owned)));
        };
        let levels = [Measurand::LowSide, Measurand::HighSide].map(|side| (side, self.value(Question::Level(side))));
        let of_level = |place: usize| levels[place].1;
        // a gauge alone, or both before the start, are the equalised pressure beside what is read running
        let apart = self.runs() || levels.iter().any(|(_, level)| level.is_none());
        let mut resting = of_level(0).or(of_level(1)).filter(|_| apart);
        for (question, answer) in &self.answers {
            match (*question, answer) {
                (Question::Refrigerant, Answer::Value(text)) => put("refrigerant", Some(text)),
                (Question::Level(_), Answer::Value(_)) if apart => {
                    if let Some(pressure) = resting.take() {
                        put("resting", Some(pressure));
                    }
                }
                (Question::Level(side), Answer::Value(text)) => {
                    put(flag(side), Some(text));
                    if side == Measurand::HighSide {
                        put("at-rest", None);
                    }
                }
                (Question::Measured(measurand), Answer::Value(text)) => put(flag(measurand), Some(text)),
                (Question::Ambient, Answer::Value(text)) => put("ambient", Some(text)),
                (Question::Humidity, Answer::Value(text)) => put("humidity", Some(text)),
                (Question::Scale(Measurand::LowSide), Answer::Value(text)) => put("low-scale", Some(text)),
                (Question::Scale(_), Answer::Value(text)) => put("high-scale", Some(text)),
                (Question::Seen(one), Answer::Yes) => put("found", Some(one.name())),
                (Question::Seen(one), Answer::No) => put("not-found", Some(one.name())),
                (Question::Resting, Answer::Value(text)) => put("resting", Some(text)),
                (Question::RestingTemperature, Answer::Value(text)) => put("resting-temperature", Some(text)),
                // neither is an option without the other
                (Question::NominalCharge, Answer::Value(nominal)) => {
                    if let Some(mass) = self.value(Question::Recovered) {
                        put("recovered", Some(mass));
                        put("nominal-charge", Some(nominal));
                    }
                }
                _ => {}
            }
        }
        options
    }

    /// The words that say the same as the answers, each value in one word with its option.
    fn joined(&self) -> Vec<OsString> {
        let one =
            |(name, value): (String, Option<String>)| value.map_or(name.clone(), |value| format!("{name}={value}"));
        self.given.iter().cloned().chain(self.options().into_iter().map(one).map(OsString::from)).collect()
    }

    /// The command line that says the same as the answers.
    fn command_line(&self) -> String {
        let given = self.given.iter().map(|word| word.to_string_lossy().into_owned());
        let typed = self.options().into_iter().flat_map(|(name, value)| std::iter::once(name).chain(value));
        let words: Vec<String> = given.chain(typed).map(|word| quoted(&word)).collect();
        words.join(" ")
    }

    /// The answers as the command line reads them.
    fn args(&self) -> Result<Args, clap::Error> {
        Args::try_parse_from(std::iter::once(OsString::from("read_gauges")).chain(self.joined()))
    }

    /// The answers as the command line reads them, or what it says against the last one.
    fn read(&self) -> Result<Args, String> {
        // whether at rest goes with what was given, before both gauges are read
        if let Some((Question::Running, Answer::No)) = self.answers.last() {
            let at_rest = ["--low=0 kPa", "--at-rest"].map(OsString::from);
            let words = std::iter::once("read_gauges".into()).chain(self.joined()).chain(at_rest);
            Args::try_parse_from(words).map_err(|error| self.refusal(&error))?;
        }
        // half of two options that belong together
        if let Some((Question::Recovered, Answer::Value(mass))) = self.answers.last() {
            mass.parse::<Entered<Mass>>().map_err(|error| self.language.error(&error))?;
        }
        self.args().map_err(|error| self.refusal(&error))
    }

    /// What is wrong with a value, without the name of its option, or with an option beside others.
    fn refusal(&self, error: &clap::Error) -> String {
        if let Some(source) = error.source() {
            let known = source.downcast_ref::<satline::Error>();
            return known.map_or_else(|| source.to_string(), |known| self.language.error(known));
        }
        let said = first_line(&error.to_string());
        match (error.kind(), error.get(ContextKind::InvalidArg)) {
            // of the options that the answers are, only that of a circuit at rest goes without others
            (ErrorKind::ArgumentConflict, Some(ContextValue::String(option))) => {
                self.words.not_at_rest(option.split(' ').next().unwrap_or(option), &said)
            }
            _ => said,
        }
    }

    /// Refuses the last answer, or the one that it does not fit, where command line or library refuse it; the question is then open again.
    fn check(&mut self) -> Result<Then, Box<dyn Error>> {
        let args = match self.read() {
            Ok(args) => args,
            Err(said) => {
                self.say(&format!("  {said}"))?;
                self.answers.pop();
                return Ok(Then::GoOn);
            }
        };
        // swapped hoses show when both gauges are known
        let low = [Question::Level(Measurand::LowSide), Question::Measured(Measurand::LowSide)];
        let is_half = self.answers.last().is_some_and(|(question, _)| low.contains(question)) && !self.is_opened();
        if is_half || args.refrigerant.is_none() {
            return Ok(Then::GoOn);
        }
        let (error, questions) = match super::asked(&args) {
            Ok((request, _)) => match request.inspection() {
                Ok(_) => return Ok(Then::GoOn),
                Err(error) => (error, request.questions().unwrap_or_default()),
            },
            Err(error) => (*error.downcast::<satline::Error>()?, Vec::new()),
        };
        if matches!(error, satline::Error::Missing { .. }) {
            // it may still come
            return Ok(Then::GoOn);
        }
        self.say(&format!("  {}", self.language.error(&error)))?;
        // a slip of the unit may be why
        for question in questions {
            if self.doubted.contains(&question) {
                continue;
            }
            match self.doubt(question)? {
                None => return Ok(Then::End),
                Some(true) => return self.check(),
                Some(false) => {}
            }
        }
        self.correct(&error)
    }

    /// Opens the question again that `error` is about.
    fn correct(&mut self, error: &satline::Error) -> Result<Then, Box<dyn Error>> {
        let sides = [Measurand::LowSide, Measurand::HighSide];
        let is_reversed = matches!(error, satline::Error::SidesReversed { .. });
        if is_reversed && sides.iter().all(|side| self.value(Question::Measured(*side)).is_some()) {
            return self.exchange(sides);
        }
        let about = Measurand::ALL.iter().copied().find(|measurand| error.input() == Some(measurand.id()));
        if let (Some(side), satline::Error::BeyondScale { .. }) = (about, innermost(error))
            && !self.has(Question::Scale(side))
        {
            match self.put_scale(side)? {
                Some(Then::End) => return Ok(Then::End),
                Some(Then::GoOn) => return self.check(),
                None => {}
            }
        }
        let typed = about.and_then(|measurand| {
            let either = [Question::Measured(measurand), Question::Level(measurand)];
            either.into_iter().find(|question| self.value(*question).is_some())
        });
        let wrong = match (typed, about) {
            (Some(typed), _) => typed,
            // no question helps against what stands on the command line
            (None, Some(measurand)) if self.is_given(Question::Measured(measurand)) => {
                return Err(Box::new(error.clone()));
            }
            _ => match self.answers.last() {
                Some((last, _)) => *last,
                None => return Err(Box::new(error.clone())),
            },
        };
        self.answers.retain(|(question, _)| match (question, wrong) {
            // what belongs to it goes with it
            (Question::Scale(of), Question::Measured(side) | Question::Level(side)) => *of != side,
            (Question::Recovered, Question::NominalCharge) => false,
            (question, wrong) => *question != wrong,
        });
        if self.answers.is_empty() { Ok(Then::GoOn) } else { self.check() }
    }

    /// Asks for the end of the scale of a gauge that reads beyond the usual one; `None` where it is not given.
    fn put_scale(&mut self, side: Measurand) -> Result<Option<Then>, Box<dyn Error>> {
        let prompt = self.prompt(Question::Scale(side));
        loop {
            match self.put(&prompt)? {
                Said::End => return Ok(Some(Then::End)),
                Said::Nothing | Said::Back => return Ok(None),
                Said::Text(text) => self.answers.push((Question::Scale(side), Answer::Value(text))),
            }
            match self.read() {
                Ok(_) => return Ok(Some(Then::GoOn)),
                Err(said) => {
                    self.say(&format!("  {said}"))?;
                    self.answers.pop();
                }
            }
        }
    }

    /// Exchanges what two swapped hoses show, or asks for both gauges again.
    fn exchange(&mut self, sides: [Measurand; 2]) -> Result<Then, Box<dyn Error>> {
        let Some(swapped) = self.put_yes_or_no(&self.words.hoses_swapped())? else { return Ok(Then::End) };
        let is_side = |question: &Question| sides.iter().any(|side| *question == Question::Measured(*side));
        if !swapped {
            self.answers.retain(|(question, _)| !is_side(question));
            return Ok(Then::GoOn);
        }
        let [low, high] = sides.map(|side| self.value(Question::Measured(side)).map(str::to_owned));
        for (side, text) in sides.into_iter().zip([high, low]) {
            self.replace(Question::Measured(side), text);
        }
        self.check()
    }

    /// Puts `text` in place of what was answered to `question`, where it was.
    fn replace(&mut self, question: Question, text: Option<String>) {
        let place = self.answers.iter_mut().find(|(asked, _)| *asked == question);
        if let (Some((_, answer)), Some(text)) = (place, text) {
            *answer = Answer::Value(text);
        }
    }

    /// Works out what is known now, asks about units in doubt, and shows what is new.
    fn evaluate(&mut self) -> Result<Then, Box<dyn Error>> {
        if !self.diagnose() {
            return Ok(Then::GoOn);
        }
        while let Some(question) = self.in_doubt() {
            match self.doubt(question)? {
                None => return Ok(Then::End),
                Some(true) if self.check()? == Then::End => return Ok(Then::End),
                Some(_) => {}
            }
            if !self.is_opened() {
                return Ok(Then::GoOn);
            }
            self.diagnose();
        }
        self.show()?;
        Ok(Then::GoOn)
    }

    /// A question about a unit that was not asked yet.
    fn in_doubt(&self) -> Option<UnitQuestion> {
        let known = self.answer.as_ref().ok()?;
        known.report.questions.iter().find(|question| !self.doubted.contains(question)).cloned()
    }

    /// Works out what is known now; whether that is of other words than before.
    fn diagnose(&mut self) -> bool {
        let words = self.joined();
        if self.answered.as_ref() == Some(&words) {
            return false;
        }
        self.answer = self.known();
        self.answered = Some(words);
        if matches!(self.led_to, Some(Reason::Advised(NextStep::Measure { .. }))) {
            // its numbers were those of the answer before
            self.led_to = None;
        }
        true
    }

    /// What is known of the answers, or why nothing is.
    fn known(&mut self) -> Result<Box<Known>, String> {
        let args = self.args().map_err(|error| self.refusal(&error))?;
        if args.refrigerant.is_none() {
            return Err(self.words.sentence(Sentence::NoRefrigerant).to_owned());
        }
        let (request, _) = super::asked(&args).map_err(|error| args.spoken().refused(error).to_string())?;
        let diagnosis =
            request.run_reusing(&mut self.kept).map_err(|error| super::refused(&error, &request, self.language))?;
        let report = diagnosis.report();
        Ok(Box::new(Known { diagnosis, report }))
    }

    /// Asks whether another unit was meant, and puts that in place of what was typed; whether it was, `None` at the end.
    fn doubt(&mut self, question: UnitQuestion) -> Result<Option<bool>, Box<dyn Error>> {
        let (input, instead) = match &question {
            UnitQuestion::OtherUnit { input: QuestionedInput::Measurand(measurand), instead, .. } => {
                ([Question::Measured(*measurand), Question::Level(*measurand)], Some(instead.clone()))
            }
            UnitQuestion::OtherUnit { input: QuestionedInput::Ambient, instead, .. } => {
                ([Question::Ambient; 2], Some(instead.clone()))
            }
            UnitQuestion::VacuumSign { entered } => {
                ([Question::Measured(Measurand::LowSide); 2], Some(format!("-{entered}")))
            }
            _ => ([Question::Ambient; 2], None),
        };
        let said = self.language.question(&question);
        self.doubted.push(question);
        let typed = input.into_iter().find(|one| self.value(*one).is_some());
        let (Some(typed), Some(instead)) = (typed, instead) else {
            self.say(&format!("  ? {said}"))?;
            return Ok(Some(false));
        };
        let replaced = self.put_yes_or_no(&self.words.other_unit(&said, &instead))?;
        if replaced == Some(true) {
            self.replace(typed, Some(instead));
        }
        Ok(replaced)
    }

    /// Puts a question that Enter denies; `None` at the end.
    fn put_yes_or_no(&mut self, prompt: &Prompt) -> Result<Option<bool>, Box<dyn Error>> {
        loop {
            match self.put(prompt)? {
                Said::End => return Ok(None),
                Said::Nothing | Said::Back => return Ok(Some(false)),
                Said::Text(text) => {
                    if let Some(answer) = self.yes_or_no(&text)? {
                        return Ok(Some(answer));
                    }
                }
            }
        }
    }

    /// Whether `text` is yes or no; `None` where it is neither, which is said.
    fn yes_or_no(&mut self, text: &str) -> Result<Option<bool>, Box<dyn Error>> {
        let answer = self.words.replies().yes_or_no(text);
        if answer.is_none() {
            self.say(&format!("  {}", self.words.neither(text)))?;
        }
        Ok(answer)
    }

    /// Takes the last answer back.
    fn back(&mut self) -> Result<Then, Box<dyn Error>> {
        match self.answers.pop() {
            Some((Question::NominalCharge | Question::RestingTemperature, _)) => {
                self.answers.pop();
            }
            Some(_) => {}
            None => self.say(&format!("  {}", self.words.sentence(Sentence::FirstQuestion)))?,
        }
        if self.is_opened() { self.evaluate() } else { Ok(Then::GoOn) }
    }

    /// Shows what is known: the conclusion, the first causes, and what is to be done or minded and was not said yet.
    fn show(&mut self) -> Result<(), Box<dyn Error>> {
        self.leave_blank()?;
        let known = match &self.answer {
            Ok(known) => known.clone(),
            Err(missing) => {
                let none = self.words.no_answer(missing);
                self.say(&format!("  {none}"))?;
                return self.leave_blank();
            }
        };
        let report = &known.report;
        let headline = self.language.headline(report);
        if headline.is_empty() {
            let (assessment, units) = (known.diagnosis.assessment(), known.diagnosis.entry().units());
            let line = report::verdict_line(assessment, &units, self.language);
            self.say(&format!("  {}", self.words.no_cause(&line)))?;
        } else {
            self.say(&format!("  {headline}"))?;
        }
        self.say(&self.shares(&known))?;
        for &stop in &report.advice.stops {
            self.say(&format!("  - {}", self.language.stop(stop)))?;
        }
        for step in report.advice.immediate_steps(&self.told) {
            self.say(&format!("  - {}", self.language.step(&step, report)))?;
            self.told.push(step);
        }
        if self.shown.is_none() {
            self.say(&format!("  {}", self.words.safety(&self.language.cautions_in_short(report))))?;
        }
        self.shown = Some(known);
        self.leave_blank()
    }

    /// Leaves a line blank, unless one was left just now.
    fn leave_blank(&mut self) -> Result<(), Box<dyn Error>> {
        if !std::mem::replace(&mut self.is_apart, true) {
            writeln!(self.out)?;
        }
        Ok(())
    }

    /// The first causes with their probabilities, and what they were before, one a line.
    fn shares(&self, known: &Known) -> String {
        let advice = &known.report.advice;
        let before = self.shown.as_ref().and_then(|shown| shown.diagnosis.posterior());
        // one alone is in the headline
        if !advice.headline.weighs_causes() || advice.leading.len() < 2 && before.is_none() {
            return String::new();
        }
        let share = |group: &LeadingGroup| {
            let causes = group.causes.iter().map(|cause| self.language.cause(*cause).name).collect();
            let percent = |probability| self.language.percent(probability);
            let now = percent(group.probability);
            let was =
                before.map(|posterior| percent(posterior.probability_of(&group.causes))).filter(|was| *was != now);
            format!("    {}", self.words.share(&Share { now, was, causes }))
        };
        advice.leading.iter().take(MOST_CAUSES).map(share).collect::<Vec<_>>().join("\n")
    }

    /// Says once why `question` is worth asking, where the library advises it.
    fn lead_to(&mut self, question: Question) -> Result<(), Box<dyn Error>> {
        let reason = self.reason(question).filter(|reason| self.led_to.as_ref() != Some(reason));
        let Some(reason) = reason else { return Ok(()) };
        self.leave_blank()?;
        self.say(&self.reason_text(&reason))?;
        self.led_to = Some(reason);
        Ok(())
    }

    /// Why `question` is worth asking.
    fn reason(&self, question: Question) -> Option<Reason> {
        if question == Question::Running {
            return Some(Reason::Conditions);
        }
        let known = self.answer.as_ref().ok()?;
        match self.advised(&known.report).into_iter().find(|one| Question::of(one) == Some(question))? {
            AdvisedQuestion::Measured(step) => Some(Reason::Advised(step)),
            AdvisedQuestion::Observed { cause, .. } => Some(Reason::LookFor(cause)),
            _ => None,
        }
    }

    /// `reason` in words.
    fn reason_text(&self, reason: &Reason) -> String {
        match (reason, &self.answer) {
            (Reason::Conditions, _) => self.words.conditions(&self.conditions()),
            (Reason::Advised(step), Ok(known)) => self.language.step(step, &known.report),
            // only what is known advises
            (Reason::Advised(_), Err(_)) => String::new(),
            (Reason::LookFor(cause), _) => self.words.look_for(self.language.cause(*cause).name),
        }
    }

    /// How the reading counts as taken, unless the command line says otherwise.
    fn conditions(&self) -> Conditions {
        let base = &self.base;
        Conditions {
            engine_speed: base.engine_speed,
            intake: base.intake(),
            at_sea_level: base.altitude.is_none() && base.barometer.is_none(),
        }
    }

    /// How `question` is put.
    fn prompt(&self, question: Question) -> Prompt {
        let carbon_dioxide = self
            .base
            .refrigerant
            .or_else(|| self.value(Question::Refrigerant)?.parse().ok())
            .is_some_and(satline::Refrigerant::is_transcritical);
        self.words.prompt(question, carbon_dioxide)
    }

    /// Puts a question and reads a line; help is said where it is asked for.
    fn put(&mut self, prompt: &Prompt) -> Result<Said, Box<dyn Error>> {
        loop {
            let shown = report::folded(&prompt.text, "", "", self.width - TYPED);
            write!(self.out, "{} ", shown.trim_end())?;
            self.out.flush()?;
            self.is_apart = false;
            let line = typed::line(&mut self.input);
            let typed = match line.map_err(|error| format!("{}: {error}", self.words.input()))? {
                None => {
                    writeln!(self.out)?;
                    return Ok(Said::End);
                }
                Some(Err(wrong)) => {
                    if self.echoes {
                        writeln!(self.out)?;
                    }
                    self.say(&format!("  {}", self.words.unreadable(wrong)))?;
                    continue;
                }
                Some(Ok(text)) => text,
            };
            if self.echoes {
                writeln!(self.out, "{typed}")?;
            }
            if !typed::is_help(&typed) {
                return Ok(self.words.replies().read(typed));
            }
            self.say(&format!("  {}", prompt.help))?;
        }
    }

    /// Prints `text` in lines that fit; a line that begins with blanks or a mark keeps its begin.
    fn say(&mut self, text: &str) -> Result<(), Box<dyn Error>> {
        for line in text.lines() {
            let words = line.trim_start_matches([' ', '-', '?']);
            let first = &line[..line.len() - words.len()];
            self.is_apart = false;
            write!(self.out, "{}", report::folded(words, first, &" ".repeat(first.len()), self.width))?;
        }
        Ok(())
    }

    /// The page of what is known, the files that were asked for, and the command line that makes them again.
    fn end(mut self) -> Result<(), Box<dyn Error>> {
        if self.answered.as_ref() != Some(&self.joined()) {
            self.diagnose();
        }
        let line = self.command_line();
        if let Err(missing) = &self.answer {
            let missing = missing.clone();
            // at rest goes with no questions
            let ask = if self.is_at_rest() { "" } else { "--ask " };
            if !line.is_empty() {
                self.leave_blank()?;
                let to_go_on = self.words.sentence(Sentence::ToGoOn);
                writeln!(self.out, "{to_go_on}\n  cargo run --example read_gauges -- {ask}{line}")?;
            }
            return Err(missing.into());
        }
        let page = super::one_reusing(&self.args()?, &mut self.kept)?;
        self.leave_blank()?;
        let to_repeat = self.words.sentence(Sentence::ToRepeat);
        write!(self.out, "{page}\n{to_repeat}\n  cargo run --example read_gauges -- {line}\n")?;
        Ok(())
    }
}

fn innermost(error: &satline::Error) -> &satline::Error {
    match error {
        satline::Error::About { error, .. } => innermost(error),
        _ => error,
    }
}

fn first_line(text: &str) -> String {
    text.lines().next().unwrap_or("").trim_start_matches("error: ").to_owned()
}

/// `word` as a shell reads it back: as it is, in double quotes, or in single ones where a double quote would leave something to it.
fn quoted(word: &str) -> String {
    let plain = |c: char| c.is_ascii_alphanumeric() || "_-./:=,+@%".contains(c);
    if !word.is_empty() && word.chars().all(plain) {
        word.to_owned()
    } else if !word.contains(['"', '$', '`', '\\', '!']) {
        format!("\"{word}\"")
    } else {
        format!("'{}'", word.replace('\'', "'\\''"))
    }
}
