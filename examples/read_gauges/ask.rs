//! Guided reading: one question after another, the answer as soon as there is one, then the measurement worth most next.
//!
//! Nothing is decided here. What is typed becomes options of the command line and is read by the same code, so that every error is the
//! same; a value that is refused is asked for again. What is worth measuring next, and what must stop first, is the library's advice.

use std::error::Error;
use std::ffi::OsString;
use std::io::{self, BufRead, IsTerminal, Read, Write};
use std::process::ExitCode;

use clap::Parser;
use satline::diagnosis::{
    Advice, AdvisedQuestion, Diagnosis, LeadingGroup, NextStep, QuestionedInput, Reference, UnitQuestion,
};
use satline::inspection::{Measurand, MeasuredWhen, Observation};
use satline::report::{self, Language, Report, percent};
use satline::{Entered, Mass};

use super::command::Output;
use super::measured::flag;
use super::{Args, Cabin};

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
    base.baselines()?;
    if let Some(html) = &base.html {
        base.apart(("--html", html))?;
    }
    let mut dialogue = Dialogue {
        input,
        out,
        echoes,
        width: base.width(),
        given,
        base,
        answers: Vec::new(),
        kept: None,
        answer: Err(NO_REFRIGERANT.into()),
        answered: None,
        shown: None,
        told: Vec::new(),
        doubted: Vec::new(),
        insisted: Vec::new(),
        led_to: String::new(),
        is_apart: false,
    };
    dialogue.ask_all()?;
    dialogue.end()
}

const NO_REFRIGERANT: &str =
    "the refrigerant is missing, and nothing can be compared without it; the label under the bonnet names it";

const OPENING: &str = "Two gauges and a thermometer, or what there is of them. Enter skips a question, ? explains it, back takes the last \
                       answer back, q ends with what is known so far.";

/// A question to the person at the car.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Question {
    /// Which refrigerant the label names.
    Refrigerant,
    /// Whether the air conditioning runs.
    Running,
    /// A gauge of the circuit at rest.
    Level(Measurand),
    /// Whether the engine runs now, after the gauges at rest.
    Started,
    /// What is measured while it runs.
    Measured(Measurand),
    Ambient,
    Humidity,
    /// The end of the scale of a gauge that reads beyond the usual one.
    Scale(Measurand),
    /// An observation by eye, ear or hand.
    Seen(Observation),
    /// Either gauge after the stop, and the temperature of the circuit then.
    Resting,
    RestingTemperature,
    /// The charge that was weighed, and what the label asks for.
    Recovered,
    NominalCharge,
}

/// What was answered.
#[derive(Debug, Clone, PartialEq, Eq)]
enum Answer {
    Skipped,
    Yes,
    No,
    Value(String),
}

/// What a line says.
enum Said {
    Nothing,
    Text(String),
    Back,
    End,
}

/// Whether to go on.
#[derive(PartialEq, Eq)]
enum Then {
    GoOn,
    End,
}

/// Longest line that is read, bytes; our choice, ten times what anybody types.
const LONGEST: u64 = 1000;

/// Columns that are left for an answer behind its question; our choice.
const TYPED: usize = 8;

/// Causes named with their probability after each answer; our choice, a line or two each.
const MOST_CAUSES: usize = 3;

struct Dialogue<R, W> {
    input: R,
    out: W,
    echoes: bool,
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
    /// What was said last of why a question is worth asking.
    led_to: String,
    /// Whether the last line is blank.
    is_apart: bool,
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
        self.say(OPENING)?;
        self.leave_blank()?;
        loop {
            self.insist();
            let Some(question) = self.next() else {
                return match &self.answer {
                    // what must stop was said
                    Ok(known) if known.report.advice.stops.is_empty() => {
                        self.leave_blank()?;
                        self.say("Nothing else is worth measuring as things are.")
                    }
                    _ => Ok(()),
                };
            };
            self.lead_to(question)?;
            let (prompt, help) = self.words(question);
            let answer = match self.put(&prompt, &help)? {
                Said::End => return Ok(()),
                Said::Back => {
                    if self.back()? == Then::End {
                        return Ok(());
                    }
                    continue;
                }
                Said::Nothing => Answer::Skipped,
                Said::Text(text) if question.is_yes_or_no() => match yes_or_no(&text) {
                    Some(true) => Answer::Yes,
                    Some(false) => Answer::No,
                    None => {
                        self.say(&format!("  {}", neither(&text)))?;
                        continue;
                    }
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
                self.say(&format!("  {NO_REFRIGERANT}."))?;
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
        // what the library says of the value, without the name of the option
        let said =
            |error: clap::Error| error.source().map_or_else(|| first_line(&error.to_string()), ToString::to_string);
        // whether at rest goes with what was given, before both gauges are read
        if let Some((Question::Running, Answer::No)) = self.answers.last() {
            let at_rest = ["--low=0 kPa", "--at-rest"].map(OsString::from);
            let words = std::iter::once("read_gauges".into()).chain(self.joined()).chain(at_rest);
            Args::try_parse_from(words).map_err(said)?;
        }
        // half of two options that belong together
        if let Some((Question::Recovered, Answer::Value(mass))) = self.answers.last() {
            mass.parse::<Entered<Mass>>().map_err(|error| error.to_string())?;
        }
        self.args().map_err(said)
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
        self.say(&format!("  {error}"))?;
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
        let (prompt, help) = self.words(Question::Scale(side));
        loop {
            match self.put(&prompt, &help)? {
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
        let prompt = "Hoses swapped? y exchanges the values, Enter asks for both again:";
        let help =
            "The gauge with the higher pressure hangs on the thin liquid or discharge line: that is the high side.";
        let Some(swapped) = self.put_yes_or_no(prompt, help)? else { return Ok(Then::End) };
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
        self.answer = self.args().map_err(|error| first_line(&error.to_string())).and_then(|args| {
            if args.refrigerant.is_none() {
                return Err(NO_REFRIGERANT.to_owned());
            }
            let (request, _) = super::asked(&args).map_err(|error| error.to_string())?;
            let diagnosis = request
                .run_reusing(&mut self.kept)
                .map_err(|error| super::refused(&error, &request, Language::English))?;
            let report = diagnosis.report();
            Ok(Box::new(Known { diagnosis, report }))
        });
        self.answered = Some(words);
        true
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
        let said = Language::English.question(&question);
        self.doubted.push(question);
        let typed = input.into_iter().find(|one| self.value(*one).is_some());
        let (Some(typed), Some(instead)) = (typed, instead) else {
            self.say(&format!("  ? {said}"))?;
            return Ok(Some(false));
        };
        let prompt = format!("{said} y takes {instead}, Enter keeps what was typed:");
        let help = "Read the unit on the dial once more; the number alone would fit better in the other one.";
        let replaced = self.put_yes_or_no(&prompt, help)?;
        if replaced == Some(true) {
            self.replace(typed, Some(instead));
        }
        Ok(replaced)
    }

    /// Puts a question that Enter denies; `None` at the end.
    fn put_yes_or_no(&mut self, prompt: &str, help: &str) -> Result<Option<bool>, Box<dyn Error>> {
        loop {
            match self.put(prompt, help)? {
                Said::End => return Ok(None),
                Said::Nothing | Said::Back => return Ok(Some(false)),
                Said::Text(text) => match yes_or_no(&text) {
                    Some(answer) => return Ok(Some(answer)),
                    None => self.say(&format!("  {}", neither(&text)))?,
                },
            }
        }
    }

    /// Takes the last answer back.
    fn back(&mut self) -> Result<Then, Box<dyn Error>> {
        match self.answers.pop() {
            Some((Question::NominalCharge | Question::RestingTemperature, _)) => {
                self.answers.pop();
            }
            Some(_) => {}
            None => self.say("  This is the first question.")?,
        }
        if self.is_opened() { self.evaluate() } else { Ok(Then::GoOn) }
    }

    /// Shows what is known: the conclusion, the first causes, and what is to be done or minded and was not said yet.
    fn show(&mut self) -> Result<(), Box<dyn Error>> {
        self.leave_blank()?;
        let known = match &self.answer {
            Ok(known) => known.clone(),
            Err(missing) => {
                let missing = missing.clone();
                self.say(&format!("  No answer yet: {missing}"))?;
                return self.leave_blank();
            }
        };
        let report = &known.report;
        let headline = Language::English.headline(report);
        if headline.is_empty() {
            let (assessment, units) = (known.diagnosis.assessment(), known.diagnosis.entry().units());
            let line = report::verdict_line(assessment, &units, Language::English);
            self.say(&format!("  No cause can be named from this; {line}."))?;
        } else {
            self.say(&format!("  {headline}"))?;
        }
        self.say(&self.shares(&known))?;
        for &stop in &report.advice.stops {
            self.say(&format!("  - {}", Language::English.stop(stop)))?;
        }
        for step in report.advice.immediate_steps(&self.told) {
            self.say(&format!("  - {}", Language::English.step(&step, report)))?;
            self.told.push(step);
        }
        if self.shown.is_none() {
            self.say(&format!("  Safety: {}", Language::English.cautions_in_short(report)))?;
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
            let names: Vec<&str> = group.causes.iter().map(|cause| Language::English.cause(*cause).name).collect();
            let now = percent(group.probability);
            let was =
                before.map(|posterior| percent(posterior.probability_of(&group.causes))).filter(|was| *was != now);
            format!("    {now}: {}{}", names.join("; or "), was.map_or(String::new(), |was| format!(" (was {was})")))
        };
        advice.leading.iter().take(MOST_CAUSES).map(share).collect::<Vec<_>>().join("\n")
    }

    /// Says once why `question` is worth asking, where the library advises it.
    fn lead_to(&mut self, question: Question) -> Result<(), Box<dyn Error>> {
        let Some(said) = self.reason(question).filter(|said| *said != self.led_to) else { return Ok(()) };
        self.leave_blank()?;
        self.led_to.clone_from(&said);
        self.say(&said)
    }

    /// Why `question` is worth asking.
    fn reason(&self, question: Question) -> Option<String> {
        if question == Question::Running {
            return Some(self.conditions());
        }
        let known = self.answer.as_ref().ok()?;
        match self.advised(&known.report).into_iter().find(|one| Question::of(one) == Some(question))? {
            AdvisedQuestion::Measured(step) => Some(Language::English.step(&step, &known.report)),
            AdvisedQuestion::Observed { cause, .. } => {
                Some(format!("Look whether \"{}\" shows:", Language::English.cause(cause).name))
            }
            _ => None,
        }
    }

    /// How the reading counts as taken, unless the command line says otherwise.
    fn conditions(&self) -> String {
        let base = &self.base;
        let speed = base.engine_speed.map_or("at idle".to_owned(), |rpm| format!("at {rpm} rpm"));
        let doors = match (base.fresh_air, base.cabin) {
            (true, _) => "fresh air",
            (_, Cabin::DoorsOpen) => "recirculation, doors open",
            (_, Cabin::WindowOpen) => "recirculation, a window open",
            (_, Cabin::Shut) => "recirculation, doors and windows shut",
        };
        let place = if base.altitude.is_none() && base.barometer.is_none() { ", at sea level" } else { "" };
        format!(
            "A running reading counts as taken after ten minutes {speed}: coldest setting, blower high, {doors}{place}. If it was not, \
             give --engine-speed, --fresh-air, --cabin or --altitude beside --ask."
        )
    }

    /// How `question` is put, and its line of help.
    fn words(&self, question: Question) -> (String, String) {
        let carbon_dioxide = self
            .base
            .refrigerant
            .or_else(|| self.value(Question::Refrigerant)?.parse().ok())
            .is_some_and(satline::Refrigerant::is_transcritical);
        words(question, carbon_dioxide)
    }

    /// Puts a question and reads a line; `help` is said where it is asked for.
    fn put(&mut self, prompt: &str, help: &str) -> Result<Said, Box<dyn Error>> {
        loop {
            let shown = report::folded(prompt, "", "", self.width - TYPED);
            write!(self.out, "{} ", shown.trim_end())?;
            self.out.flush()?;
            self.is_apart = false;
            let typed = match self.line().map_err(|error| format!("standard input: {error}"))? {
                None => {
                    writeln!(self.out)?;
                    return Ok(Said::End);
                }
                Some(Err(wrong)) => {
                    if self.echoes {
                        writeln!(self.out)?;
                    }
                    self.say(&format!("  {wrong}"))?;
                    continue;
                }
                Some(Ok(text)) => text,
            };
            if self.echoes {
                writeln!(self.out, "{typed}")?;
            }
            match typed.to_lowercase().as_str() {
                "" => return Ok(Said::Nothing),
                "?" => self.say(&format!("  {help}"))?,
                "q" | "quit" | "exit" | "done" => return Ok(Said::End),
                "back" => return Ok(Said::Back),
                _ => return Ok(Said::Text(typed)),
            }
        }
    }

    /// The next line without blanks around it, or what is wrong with it; `None` at the end of the input.
    fn line(&mut self) -> io::Result<Option<Result<String, String>>> {
        let mut bytes = Vec::new();
        self.input.by_ref().take(LONGEST).read_until(b'\n', &mut bytes)?;
        if bytes.is_empty() {
            return Ok(None);
        }
        let mut whole = bytes.ends_with(b"\n") || (bytes.len() as u64) < LONGEST;
        if !whole {
            while !whole {
                bytes.clear();
                let read = self.input.by_ref().take(LONGEST).read_until(b'\n', &mut bytes)?;
                whole = read == 0 || bytes.ends_with(b"\n");
            }
            return Ok(Some(Err(format!("The line is longer than {LONGEST} bytes; a value and its unit are enough."))));
        }
        let Ok(text) = String::from_utf8(bytes) else {
            return Ok(Some(Err("The line is not text in UTF-8; type it again.".to_owned())));
        };
        let text = text.trim();
        if text.chars().any(char::is_control) {
            return Ok(Some(Err(
                "The line holds a control character, such as an arrow key leaves; type it again.".to_owned()
            )));
        }
        // as in the examples of the command line
        let bare = text.strip_prefix('"').and_then(|rest| rest.strip_suffix('"')).unwrap_or(text);
        Ok(Some(Ok(bare.trim().to_owned())))
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
                writeln!(self.out, "To go on from here:\n  cargo run --example read_gauges -- {ask}{line}")?;
            }
            return Err(missing.into());
        }
        let page = super::one_reusing(&self.args()?, &mut self.kept)?;
        self.leave_blank()?;
        write!(self.out, "{page}\nTo repeat this:\n  cargo run --example read_gauges -- {line}\n")?;
        Ok(())
    }
}

impl Question {
    fn is_yes_or_no(self) -> bool {
        matches!(self, Self::Running | Self::Started | Self::Seen(_))
    }

    /// The observation that is asked for.
    fn observation(self) -> Option<Observation> {
        match self {
            Self::Seen(one) => Some(one),
            _ => None,
        }
    }

    /// What the library asks first of a circuit in `state`.
    fn first(state: MeasuredWhen, unavailable: &[Measurand]) -> Vec<Self> {
        let of_state = |question| match question {
            Self::Measured(side) if state == MeasuredWhen::Equalised => Self::Level(side),
            running => running,
        };
        Advice::opening_questions(state, unavailable).iter().filter_map(Self::of).map(of_state).collect()
    }

    /// As the library advises it; `None` for what nobody is asked here.
    fn of(advised: &AdvisedQuestion) -> Option<Self> {
        match advised {
            AdvisedQuestion::Measured(step) => Self::of_step(step),
            AdvisedQuestion::Observed { observation, .. } => Some(Self::Seen(*observation)),
            _ => None,
        }
    }

    /// For what `step` asks to be measured.
    fn of_step(step: &NextStep) -> Option<Self> {
        match step {
            NextStep::Measure { measurand } | NextStep::Usual { measurand } => Some(match measurand {
                Measurand::EqualisedPressure => Self::Resting,
                Measurand::RecoveredCharge => Self::Recovered,
                &running => Self::Measured(running),
            }),
            NextStep::Ambient => Some(Self::Ambient),
            NextStep::Humidity => Some(Self::Humidity),
            _ => None,
        }
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

fn neither(text: &str) -> String {
    format!("{text:?} is neither y for yes nor n for no.")
}

fn yes_or_no(text: &str) -> Option<bool> {
    match text.to_lowercase().as_str() {
        "y" | "yes" => Some(true),
        "n" | "no" => Some(false),
        _ => None,
    }
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

/// How a question is put, and its line of help; pressures of carbon dioxide are others.
fn words(question: Question, carbon_dioxide: bool) -> (String, String) {
    let pressure =
        |usual: &'static str, of_carbon_dioxide: &'static str| if carbon_dioxide { of_carbon_dioxide } else { usual };
    let low = pressure("32 psi, 2.2 bar, -10 inHg", "520 psi, 36 bar");
    let high = pressure("185 psi, 12.8 bar", "1300 psi, 90 bar");
    let level = pressure("85 psi, 5.9 bar", "830 psi, 57 bar");
    let value = |name: &str, example: &str| format!("{name}, with unit ({example}), Enter to skip:");
    let side = |side| if side == Measurand::LowSide { "Low" } else { "High" };
    let (prompt, help) = match question {
        Question::Refrigerant => (
            "Refrigerant on the label (R-134a, R-1234yf, R-12, CO2):".to_owned(),
            "The label under the bonnet names it beside the charge; without a label an identifier does. Cars from about 1991 on have R-134a, today's \
             R-1234yf.",
        ),
        Question::Running => (
            "Is the air conditioning running? y or Enter, n for engine off and cold:".to_owned(),
            "n: nothing has run for half an hour or more, all is cold, and both gauges show nearly the same.",
        ),
        Question::Level(of) => (
            value(&format!("{}-side gauge, engine off", side(of)), level),
            "Gauge pressure as the dial shows it, after half an hour or more at rest, all of it cold; both gauges show nearly the same then.",
        ),
        Question::Started => (
            "Is the air conditioning running now? y, Enter to leave it off:".to_owned(),
            "y goes on with both gauges of the running circuit; what was read at rest is kept beside it.",
        ),
        Question::Measured(measurand) => return measured(measurand, low, high, carbon_dioxide),
        Question::Ambient => (
            value("Outside air in the shade", "86 F, 30 C"),
            "Before the condenser, where every window depends on it; in the sun or over a hot engine a thermometer reads too high.",
        ),
        Question::Humidity => (
            "Humidity of the outside air (55%), Enter to skip:".to_owned(),
            "Relative humidity, by a hygrometer or the weather report; moist air raises both sides.",
        ),
        Question::Scale(of) => (
            format!(
                "End of its scale, if further ({}), Enter to read again:",
                if of == Measurand::LowSide { "250 psi, 17 bar" } else { "800 psi, 55 bar" }
            ),
            "The last figure on the dial. How far a gauge can be trusted follows from its scale.",
        ),
        Question::Seen(one) => {
            (format!("{} y, n, Enter to skip:", look(one)), "y for found, n for looked for and not found.")
        }
        Question::Resting => (
            value("Either gauge, engine off", level),
            "Half an hour or more after the stop, bonnet open, everything as warm as the air; both gauges show nearly the same.",
        ),
        Question::RestingTemperature => (
            "Temperature of all of it then (77 F, 25 C), Enter if as outside:".to_owned(),
            "Condenser, compressor and cabin alike; while they differ, wait longer.",
        ),
        Question::Recovered => (
            value("Charge recovered and weighed", "310 g, 0.68 lb"),
            "By the scale of the recovery machine. The circuit is empty then: nothing else is measured.",
        ),
        Question::NominalCharge => {
            (value("Charge on the label", "550 g, 1.2 lb"), "On the label under the bonnet, beside the refrigerant.")
        }
    };
    (prompt, help.to_owned())
}

/// How a quantity of the running circuit is asked for.
fn measured(measurand: Measurand, low: &str, high: &str, carbon_dioxide: bool) -> (String, String) {
    let value = |name: &str, example: &str| format!("{name}, with unit ({example}), Enter to skip:");
    let (prompt, help) = match measurand {
        Measurand::LowSide => (
            value("Low-side gauge", low),
            "Gauge pressure as the dial shows it; below zero is a vacuum, with its minus. It hangs on the thick, cold line.",
        ),
        Measurand::HighSide => (
            value("High-side gauge", high),
            "Gauge pressure as the dial shows it; the needle may swing, its middle counts. It hangs on the thin or the hot line.",
        ),
        Measurand::SuctionLine => (
            value("Suction line at the low-side port", "48 F, 9 C"),
            "The thick, cold line to the compressor: thermometer clamped on bare metal, wrapped against the air.",
        ),
        Measurand::LiquidLine if carbon_dioxide => (
            value("Line from the gas cooler", "100 F, 38 C"),
            "Where it leaves the gas cooler: thermometer clamped on bare metal, wrapped against the air.",
        ),
        Measurand::LiquidLine => (
            value("Liquid line after the condenser", "105 F, 41 C"),
            "The thin, warm line from the condenser: thermometer clamped on bare metal, wrapped against the air.",
        ),
        Measurand::DischargeLine => (
            value("Discharge line", "150 F, 66 C"),
            "The line from compressor to condenser, at the compressor: thermometer clamped on bare metal, wrapped against the air.",
        ),
        Measurand::Vent => (
            value("Air at the centre vent", "50 F, 10 C"),
            "Thermometer a hand deep in the centre vent, where the air comes out coldest.",
        ),
        Measurand::ClutchDutyCycle => (
            "Clutch engaged (40% for 12 s of 30 s; 100% if always), Enter to skip:".to_owned(),
            "Over three cycles, engaged against all; the plate at the front of the compressor turns while it is engaged.",
        ),
        other => (value(other.name(), "50 F, 10 C"), "Thermometer clamped on bare metal, wrapped against the air."),
    };
    (prompt, help.to_owned())
}

/// How an observation is asked for.
fn look(observation: Observation) -> String {
    match observation {
        Observation::Bubbles => "Are there bubbles in the sight glass?",
        Observation::CyclesOften => "Does the clutch cycle every few seconds?",
        Observation::StepOnLiquidLine => {
            "Is there a step in temperature, dew or frost along the liquid line or at the receiver?"
        }
        Observation::FrostAtValve => "Is there frost or dew at the inlet of the expansion device?",
        Observation::FrostOnSuction => {
            "Is there frost on the suction line at the compressor, or is it colder there than at the evaporator?"
        }
        Observation::EvaporatorIced => "Is the evaporator iced up?",
        Observation::ComesAndGoes => "Does the cooling stop, and return after a pause?",
        Observation::EqualisesQuickly => "Are the pressures equal soon after the compressor stops?",
        Observation::FallsAtStop => "When the compressor stops, does the high side fall at once, then slowly?",
        Observation::WaterHelps => "Does the high side fall when water is put on the condenser?",
        Observation::NotTurning => "Does the clutch plate or the shaft of the compressor slip or stand still?",
        Observation::LittleFrontAir => {
            "Does the condenser fan stand still, or is there little air through the condenser?"
        }
        Observation::EngineHot => "Does the engine run hot?",
        Observation::LittleCabinAir => "Is there little air from the vents?",
        Observation::OtherRefrigerant => "Does an identifier, a label or a fitting name another refrigerant?",
        other => return format!("Was {} found?", other.name()),
    }
    .to_owned()
}
