//! The guided reading: as a terminal shows it, against the library, and with answers of every kind.

use std::cell::RefCell;
use std::ffi::OsString;
use std::io::{self, BufRead, Read, Write};
use std::rc::Rc;

use clap::Parser;
use satline::diagnosis::{Diagnosis, NextStep, Stop};
use satline::inspection::{Measurand, Observation, RecoveredCharge};
use satline::report::{Language, percent};
use satline::{Error, Mass, Refrigerant};

use super::{page, read_gauges, unbroken};
use crate::support::{Random, same_as_file};

/// What a terminal shows, which program and person both write to.
#[derive(Clone, Default)]
struct Screen(Rc<RefCell<Vec<u8>>>);

impl Write for Screen {
    fn write(&mut self, bytes: &[u8]) -> io::Result<usize> {
        self.0.borrow_mut().extend_from_slice(bytes);
        Ok(bytes.len())
    }

    fn flush(&mut self) -> io::Result<()> {
        Ok(())
    }
}

/// A person who types one line after another, and what the screen showed before each.
struct Typist {
    lines: std::vec::IntoIter<Vec<u8>>,
    line: Vec<u8>,
    read: usize,
    screen: Screen,
    before: Rc<RefCell<Vec<usize>>>,
}

impl Read for Typist {
    fn read(&mut self, into: &mut [u8]) -> io::Result<usize> {
        let n = self.fill_buf()?.read(into)?;
        self.consume(n);
        Ok(n)
    }
}

impl BufRead for Typist {
    fn fill_buf(&mut self) -> io::Result<&[u8]> {
        if self.read == self.line.len() {
            (self.line, self.read) = (self.lines.next().unwrap_or_default(), 0);
            self.before.borrow_mut().push(self.screen.0.borrow().len());
        }
        Ok(&self.line[self.read..])
    }

    fn consume(&mut self, n: usize) {
        self.read += n;
    }
}

/// A dialogue as it was shown, the length of what was shown before each line, and what it ended with.
struct Shown {
    text: String,
    before: Vec<usize>,
    end: Result<(), String>,
}

/// A dialogue of these bytes, a line each, beside these words.
fn typed(words: &[&str], lines: &[impl AsRef<[u8]>]) -> Shown {
    let (screen, before) = (Screen::default(), Rc::default());
    let lines: Vec<Vec<u8>> = lines.iter().map(|line| [line.as_ref(), b"\n"].concat()).collect();
    let lines = lines.into_iter();
    let typist = Typist { lines, line: Vec::new(), read: 0, screen: screen.clone(), before: Rc::clone(&before) };
    let given = words.iter().map(OsString::from).collect();
    let end = read_gauges::ask::dialogue(typist, screen.clone(), given, true).map_err(|error| error.to_string());
    let text = String::from_utf8(screen.0.take()).unwrap();
    let mut start = 0;
    for line in text.split_inclusive('\n') {
        // what is typed may be of any length; the question before it leaves room for it
        let typed = before.borrow().iter().copied().find(|at| (start..start + line.len()).contains(at));
        let shown = typed.map_or(line.trim_end(), |at| &line[..at - start]);
        assert!(shown.chars().count() <= if typed.is_some() { 73 } else { 80 } || line.starts_with(COMMAND), "{text}");
        start += line.len();
    }
    Shown { text, before: before.take(), end }
}

const COMMAND: &str = "  cargo run --example read_gauges -- ";

impl Shown {
    /// The words of the command line at its end.
    fn command(&self) -> &str {
        let last = self.text.lines().last().unwrap_or_default();
        last.strip_prefix(COMMAND).unwrap_or_else(|| panic!("no command line: {}", self.text))
    }

    /// What the command line prints when it is run.
    fn repeated(&self) -> String {
        page(&words(self.command()).iter().map(String::as_str).collect::<Vec<_>>())
    }

    /// The page before the command line.
    fn page(&self) -> &str {
        let (rest, _) = self.text.rsplit_once("\nTo repeat this:\n").unwrap_or_else(|| panic!("{}", self.text));
        let title = rest.lines().rfind(|line| line.contains(", compressor running") || line.contains(", engine off"));
        &rest[rest.rfind(title.unwrap_or_else(|| panic!("no page: {rest}"))).unwrap()..]
    }

    /// The dialogue before its page, its lines unbroken.
    fn talk(&self) -> String {
        unbroken(self.text.split("\n\nR-").next().unwrap())
    }
}

/// The words of a command line in which a word with blanks is in double quotes, and nothing else is quoted.
fn words(line: &str) -> Vec<String> {
    assert!(!line.contains(['\'', '\\', '$', '`']), "{line}");
    let mut words = Vec::new();
    for (place, part) in line.split('"').enumerate() {
        match place % 2 {
            0 => words.extend(part.split_whitespace().map(str::to_owned)),
            _ => words.push(part.to_owned()),
        }
    }
    words
}

/// The recorded dialogue, invented.
const RECORDED: [&str; 16] = [
    "freon", "r134", "R-134a", "y", "22 psi", "160", "160 psi", "86 F", "55%", "?", "", "", "112 F", "y", "310 g",
    "550 g",
];

fn recorded() -> Shown {
    typed(&["--invented"], &RECORDED)
}

fn recording(shown: &str) -> String {
    format!(
        "The readings are invented: no car was measured for them.\n\n$ cargo run --example read_gauges -- --ask --invented\n{shown}"
    )
}

#[test]
fn the_recorded_dialogue_is_what_is_shown() {
    let shown = recorded();
    shown.end.as_ref().unwrap();
    // every line was asked for, and none after the last
    assert_eq!(shown.before.len(), RECORDED.len(), "{}", shown.text);
    same_as_file("examples/ask.txt", &recording(&shown.text));
    assert_eq!(shown.page(), shown.repeated());
}

/// The numbers of the recorded dialogue are those of the library, and so is the order of its questions.
#[test]
fn the_recorded_numbers_are_the_librarys() {
    let gauges = Diagnosis::of(Refrigerant::R134a).low("22 psi").unwrap().high("160 psi").unwrap();
    let gauges = gauges.ambient("86 F").unwrap().humidity("55%").unwrap();
    let liquid = gauges.clone().measured(Measurand::LiquidLine, "112 F").unwrap();
    let bubbles = liquid.clone().found(Observation::Bubbles);
    let charge = RecoveredCharge::new(Mass::from_g(310.0), Mass::from_g(550.0)).unwrap();
    let weighed = bubbles.clone().recovered(charge);
    let talk = recorded().talk();
    let mut rest = talk.as_str();
    let (vent, clamped) = (Measurand::Vent, [Measurand::Vent, Measurand::SuctionLine]);
    for (request, skipped, asked) in [
        (gauges, &[][..], Some(vent)),
        (liquid, &[], None),
        (bubbles, &clamped, Some(Measurand::RecoveredCharge)),
        (weighed, &[], None),
    ] {
        let diagnosis = request.run().unwrap();
        let (report, advice) = (diagnosis.report(), diagnosis.advice());
        let likeliest = advice.headline.likeliest().unwrap();
        let name = Language::English.cause(likeliest.causes[0]).name;
        let headline = unbroken(&Language::English.headline(&report));
        assert!(headline.contains(name) && headline.contains(&percent(likeliest.probability)), "{headline}");
        rest = rest.split_once(&headline).unwrap_or_else(|| panic!("{headline}\nis not in\n{rest}")).1;
        // the first cause with its share
        let first = &advice.leading[0];
        let share = format!("{}: {}", percent(first.probability), Language::English.cause(first.causes[0]).name);
        assert!(rest.trim_start().starts_with(&share), "{share}: {rest}");
        // what is asked next is what the advice has first of what was not skipped
        let Some(asked) = asked else { continue };
        let measured =
            |step: &&NextStep| matches!(step, NextStep::Measure { measurand } if !skipped.contains(measurand));
        let next = advice.next.iter().find(measured).unwrap();
        assert_eq!(*next, NextStep::Measure { measurand: asked });
        let why = unbroken(&Language::English.step(next, &report));
        assert!(rest.contains(&why), "{why}\nis not in\n{rest}");
    }
}

#[test]
fn the_command_line_repeats_what_was_answered() {
    let dialogues: [(&[&str], &[&str]); 7] = [
        (&[], &["R-134a", "", "-10 inHg", "150 psi", "86 F", ""]),
        (&["--invented", "--width", "60"], &["yf", "y", "\"2,2 bar\"", "13 bar", "30", "30 °C", "60", "q"]),
        (&[], &["R-134a", "n", "85 psi", "86 psi", "77 F", "", "q"]),
        (&[], &["R-134a", "n", "", "86 psi", "77 F", "", "q"]),
        (&[], &["R-134a", "n", "85 psi", "86 psi", "77 F", "y", "30 psi", "190 psi", "", "q"]),
        (&["--altitude", "1600 m", "--compressor", "cycling"], &["R-134a", "", "25 psi", "", "30 C", "q"]),
        (&["--refrigerant", "R-134a", "--low", "32 psi"], &["185 psi", "86 F", "q"]),
    ];
    for (given, lines) in dialogues {
        let shown = typed(given, lines);
        assert_eq!(shown.end, Ok(()), "{}", shown.text);
        assert_eq!(shown.page(), shown.repeated(), "{lines:?}");
        // every option given is in it
        assert!(given.iter().all(|word| shown.command().contains(word)), "{}", shown.command());
    }
}

#[test]
fn what_is_refused_is_explained_by_the_library_and_asked_again() {
    let lines =
        ["Freeon", "r134", "R-134a", "maybe", "y", "32", "32 furlongs", "abc", "32 psi", "1,500 kPa", "46 psia"];
    let shown = typed(&[], &lines);
    let talk = shown.talk();
    let refused = |text: &str| text.parse::<satline::GaugePressure>().unwrap_err().to_string();
    for said in [
        "Freeon".parse::<Refrigerant>().unwrap_err().to_string(),
        "r134".parse::<Refrigerant>().unwrap_err().to_string(),
        refused("32"),
        refused("32 furlongs"),
        refused("abc"),
        refused("1,500 kPa"),
        refused("46 psia"),
    ] {
        assert!(talk.contains(&unbroken(&said)), "{said}\nis not in\n{talk}");
    }
    assert!(talk.contains("\"maybe\" is neither y for yes nor n for no."), "{talk}");
    let times = |prompt: &str| shown.text.matches(prompt).count();
    assert_eq!(
        (times("\nRefrigerant on"), times("\nIs the air"), times("\nLow-side gauge"), times("\nHigh-side gauge")),
        (3, 2, 4, 3),
        "{}",
        shown.text
    );
    assert_eq!(shown.command(), "--refrigerant R-134a --low \"32 psi\"");
}

#[test]
fn nothing_answered_says_what_is_missing() {
    let none = typed(&[], &[""; 12]);
    assert!(none.end.unwrap_err().starts_with("the refrigerant is missing"), "{}", none.text);
    assert_eq!(none.before.len(), 2, "{}", none.text);
    let named = typed(&[], &["R-134a", "", "", "", "", "", "", "", "", "", "", ""]);
    assert!(named.end.as_ref().unwrap_err().starts_with("ambient temperature is missing"), "{}", named.text);
    assert_eq!(named.command(), "--ask --refrigerant R-134a");
    // a thermometer alone will do
    let vent = typed(&[], &["R-134a", "", "", "", "86 F", "", "64 F"]);
    assert!(vent.talk().contains("one is enough: a gauge, a line, the vent"), "{}", vent.text);
    assert_eq!(vent.end, Ok(()), "{}", vent.text);
    assert_eq!(vent.page(), vent.repeated());
    // at rest nothing is measured running
    let rest = typed(&[], &["R-134a", "n", "85 psi", "85 psi", "", ""]);
    assert!(rest.end.as_ref().unwrap_err().starts_with("ambient temperature is missing"), "{}", rest.text);
    assert!(!rest.talk().contains("vent"), "{}", rest.text);
}

#[test]
fn the_input_may_end_anywhere() {
    for many in 0..=RECORDED.len() {
        let shown = typed(&["--invented"], &RECORDED[..many]);
        // with a gauge there is an answer
        assert_eq!(shown.end.is_ok(), many >= 5, "{many}: {}", shown.text);
        if shown.end.is_ok() {
            assert_eq!(shown.page(), shown.repeated(), "{many}");
        }
    }
    for word in ["q", "quit", "done", "Q", "exit"] {
        let shown = typed(&[], &["R-134a", "", "32 psi", word, "185 psi"]);
        assert_eq!((shown.command(), shown.before.len()), ("--refrigerant R-134a --low \"32 psi\"", 4));
    }
}

#[test]
fn every_question_has_an_example_and_a_line_of_help() {
    let answers =
        ["R-134a", "y", "28 psi", "170 psi", "86 F", "55%", "", "", "", "", "", "", "85 psi", "", "310 g", "550 g"];
    let asked: Vec<&str> = answers.iter().flat_map(|answer| ["?", answer]).collect();
    let shown = typed(&[], &asked);
    let plain = typed(&[], &answers);
    assert_eq!(shown.command(), plain.command());
    let prompts: Vec<&str> = shown.text.lines().filter(|line| line.ends_with(": ?")).collect();
    assert!(prompts.len() >= 11, "{}", shown.text);
    for prompt in &prompts {
        assert!(prompt.contains(" (") || prompt.contains("y, ") || prompt.contains("y or Enter"), "{prompt}");
        assert!(prompt.contains("Enter") || prompt.starts_with("Refrigerant"), "{prompt}");
        let help = shown.text.split(&format!("{prompt}\n")).nth(1).unwrap();
        let lines = help.lines().take_while(|line| line.starts_with("  ")).count();
        assert!((1..=3).contains(&lines), "{prompt}: {help}");
    }
}

#[test]
fn swapped_hoses_are_asked_about_and_never_exchanged_unasked() {
    let begin = ["R-134a", "", "185 psi", "30 psi"];
    let swapped = typed(&[], &[&begin[..], &["y", "86 F", "q"]].concat());
    let reversed = Error::SidesReversed { low: "185 psi".to_owned(), high: "30 psi".to_owned() }.to_string();
    assert!(swapped.talk().contains(&unbroken(&reversed)), "{}", swapped.text);
    assert_eq!(swapped.command(), "--refrigerant R-134a --low \"30 psi\" --high \"185 psi\" --ambient \"86 F\"");
    let again = typed(&[], &[&begin[..], &["", "31 psi", "186 psi", "86 F", "q"]].concat());
    assert_eq!(again.command(), "--refrigerant R-134a --low \"31 psi\" --high \"186 psi\" --ambient \"86 F\"");
    let ended = typed(&[], &begin);
    assert!(ended.end.unwrap_err().contains("check that the hoses are not swapped"), "{}", ended.text);
}

#[test]
fn another_unit_is_offered_and_taken_only_with_a_yes() {
    let begin = ["R-134a", "", "2.2 psi", "12.8 bar", "30 C", ""];
    let taken = typed(&[], &[&begin[..], &["y", "q"]].concat());
    assert!(taken.talk().contains("2.2 psi is far from what is usual; was 2.2 bar meant?"), "{}", taken.text);
    assert!(taken.command().contains("--low \"2.2 bar\" "), "{}", taken.command());
    let kept = typed(&[], &[&begin[..], &["", "q"]].concat());
    assert!(kept.command().contains("--low \"2.2 psi\" "), "{}", kept.command());
    // once
    assert_eq!(kept.talk().matches("was 2.2 bar meant?").count(), 1);
    let vacuum = typed(&[], &["R-134a", "", "10 inHg", "150 psi", "86 F", "", "y", "q"]);
    assert!(vacuum.command().contains("--low \"-10 inHg\" "), "{}", vacuum.command());
    // what is refused may be a slip too
    let refused = typed(&[], &["R-134a", "", "32 psi", "185 psi", "86 C", "y", "q"]);
    assert!(refused.command().contains("--ambient \"86 °F\""), "{}", refused.command());
}

#[test]
fn a_gauge_with_a_longer_scale_is_named() {
    let begin = ["R-134a", "", "12 bar", ""];
    let named = typed(&[], &[&begin[..], &["", "17", "17 bar", "30 C", "q"]].concat());
    assert!(named.command().contains("--low \"12 bar\" --low-scale \"17 bar\""), "{}", named.text);
    assert_eq!(named.page(), named.repeated());
    let again = typed(&[], &[&begin[..], &["", "", "2 bar", "30 C", "q"]].concat());
    assert!(again.command().contains("--low \"2 bar\"") && !again.command().contains("scale"), "{}", again.text);
}

#[test]
fn what_must_stop_is_not_measured_on() {
    let vacuum = typed(&[], &["R-134a", "", "-10 inHg", "150 psi", "86 F", "55%", "64 F"]);
    assert!(vacuum.talk().contains(&unbroken(Language::English.stop(Stop::LowSideInVacuum))), "{}", vacuum.text);
    // nothing is asked after it: what was typed is not read
    assert_eq!(vacuum.before.len(), 6, "{}", vacuum.text);
    let empty = typed(&[], &["R-134a", "", "0 psi", "0 psi", "86 F", "55%", "64 F"]);
    assert!(empty.talk().contains("Do not run the compressor") && empty.before.len() == 6, "{}", empty.text);
}

#[test]
fn what_needs_the_engine_off_is_asked_last() {
    let answers = ["R-134a", "y", "25 psi", "165 psi", "86 F", "55%"];
    let shown = typed(&[], &[&answers[..], &[""; 12]].concat());
    let text = shown.text;
    let at = |what: &str| text.find(what).unwrap_or_else(|| panic!("{what}: {text}"));
    let off = at("Either gauge, engine off");
    for running in ["Suction line at", "Liquid line after", "Air at the centre vent"] {
        assert!(at(running) < off, "{text}");
    }
    // once it is off, nothing that runs is asked for
    let stopped = typed(&[], &[&answers[..], &["", "", "", "", "", "", "85 psi", "", "", "", ""]].concat());
    let (_, after) = stopped.text.split_once("Either gauge, engine off").unwrap();
    for running in ["Suction line at", "Liquid line after", "Air at the centre vent", "Discharge line,"] {
        assert!(!after.contains(running), "{}", stopped.text);
    }
}

#[test]
fn what_eyes_find_is_asked_of_the_causes_that_lead() {
    let answers = ["R-134a", "y", "22 psi", "160 psi", "86 F", "55%", "", "", ""];
    let shown = typed(&[], &[&answers[..], &["y", "q"]].concat());
    assert!(shown.talk().contains("Are there bubbles in the sight glass?"), "{}", shown.text);
    assert!(shown.command().ends_with(&format!("--found {}", Observation::Bubbles.name())), "{}", shown.command());
    let none = typed(&[], &[&answers[..], &["n", "q"]].concat());
    assert!(none.command().ends_with("--not-found bubbles"), "{}", none.command());
    assert_ne!(shown.page(), none.page());
    assert_eq!((shown.page(), none.page()), (shown.repeated().as_str(), none.repeated().as_str()));
}

#[test]
fn carbon_dioxide_is_asked_for_in_its_own_pressures() {
    let shown = typed(&[], &["co2", "", "38 bar", "95 bar", "36 C", "", "12 C", "q"]);
    assert!(shown.text.contains("with unit (520 psi, 36 bar)"), "{}", shown.text);
    assert!(shown.text.contains("with unit (1300 psi, 90 bar)"), "{}", shown.text);
    assert!(shown.talk().contains("R-744 is above 60 bar: only gear made for it."), "{}", shown.text);
    assert_eq!(shown.page(), shown.repeated());
    // R-134a has the usual ones
    assert!(typed(&[], &["R-134a", ""]).text.contains("(32 psi, 2.2 bar, -10 inHg)"));
}

#[test]
fn a_circuit_at_rest_is_compared_with_saturation_and_then_run() {
    let shown = typed(&[], &["R-134a", "n", "85 psi", "86 psi", "77 F", "y", "30 psi", "190 psi", "55%", "q"]);
    assert!(shown.talk().contains("Both gauges are at saturation of R-134a at ambient"), "{}", shown.text);
    let said = "--refrigerant R-134a --resting \"85 psi\" --ambient \"77 F\" --low \"30 psi\" --high \"190 psi\" --humidity 55%";
    assert_eq!(shown.command(), said);
    // without liquid nobody is asked to start it
    let empty = typed(&[], &["R-134a", "n", "10 psi", "10 psi", "77 F", "", "y"]);
    assert!(!empty.talk().contains("running now"), "{}", empty.text);
    assert!(empty.talk().contains("Do not run the compressor"), "{}", empty.text);
}

#[test]
fn an_answer_can_be_taken_back() {
    let shown = typed(&[], &["back", "R-12", "back", "R-134a", "", "32 psi", "back", "33 psi", "185 psi", "86 F", "q"]);
    assert_eq!(shown.command(), "--refrigerant R-134a --low \"33 psi\" --high \"185 psi\" --ambient \"86 F\"");
    assert!(shown.text.contains("This is the first question."), "{}", shown.text);
}

#[test]
fn lines_of_every_kind_of_byte_and_of_any_length_are_asked_again() {
    let long = vec![b'9'; 1 << 20];
    let lines: [&[u8]; 9] = [
        b"R-134a\0",
        b"\xff\xfe",
        b"R-134a",
        b"",
        b"32\xe4 psi",
        &long,
        b"32 psi\x1b[A",
        b"\xe2\x80\xae32 psi",
        b" 32 psi\r",
    ];
    let shown = typed(&[], &lines);
    assert_eq!(shown.command(), "--refrigerant R-134a --low \"32 psi\"", "{}", shown.text);
    assert!(
        shown.text.len() < 20_000 && !shown.text.chars().any(|c| c.is_control() && c != '\n'),
        "{}",
        shown.text.len()
    );
    for said in ["not text in UTF-8", "longer than 1000 bytes", "holds a control character"] {
        assert!(shown.talk().contains(said), "{said}: {}", shown.text);
    }
    // a last line without its end
    let screen = Screen::default();
    read_gauges::ask::dialogue(&b"R-134a\n\n32 psi"[..], screen.clone(), Vec::new(), true).unwrap();
    assert!(String::from_utf8(screen.0.take()).unwrap().ends_with("--low \"32 psi\"\n"));
}

/// Dialogues of answers picked at random end, and their command lines say the same as they did.
#[test]
fn random_answers_end_in_a_page_that_repeats_or_in_what_is_missing() {
    let vocabulary = [
        "R-134a", "R-1234yf", "co2", "y", "n", "", "", "", "?", "back", "2 bar", "30 psi", "185 psi", "13 bar",
        "-10 inHg", "0 psi", "12 inHg", "86 F", "30 C", "-5 C", "55%", "0.5", "12", "310 g", "550 g", "40%", "600 psi",
        "x", "freon",
    ];
    let mut random = Random(0x5a7);
    for dialogue in 0..12 {
        let mut pick = || vocabulary[(random.between(0.0, vocabulary.len() as f64)) as usize];
        let lines: Vec<&str> = std::iter::once("R-134a").chain((0..60).map(|_| pick())).collect();
        let shown = typed(&[], &lines);
        match &shown.end {
            Ok(()) => assert_eq!(shown.page(), shown.repeated(), "{dialogue}: {lines:?}\n{}", shown.text),
            Err(missing) => assert!(missing.len() > 20 && !missing.contains("panicked"), "{missing}"),
        }
    }
}

#[test]
fn options_that_do_not_go_with_questions_are_refused_and_others_apply_to_the_last_answer() {
    for words in [&["--log", "x.csv"][..], &["--json"], &["--at-rest", "--low", "2 bar"], &["--causes"]] {
        let said = read_gauges::Args::try_parse_from([&["read_gauges", "--ask"][..], words].concat()).unwrap_err();
        assert!(said.to_string().contains("cannot be used with"), "{words:?}: {said}");
    }
    let path = std::env::temp_dir().join(format!("satline-ask-{}.html", std::process::id()));
    let html = path.to_str().unwrap();
    let shown = typed(&["--html", html, "--full"], &["R-134a", "", "32 psi", "185 psi", "86 F", "q"]);
    assert_eq!(shown.end, Ok(()), "{}", shown.text);
    let written = std::fs::read_to_string(&path).unwrap();
    assert!(written.starts_with("<!DOCTYPE html>") && written.contains("32.0"), "{}", written.len());
    assert!(shown.page().contains("\nSources\n"), "{}", shown.page());
    std::fs::remove_file(&path).unwrap();
    // what is given is not asked for
    let given = typed(&["--refrigerant", "R-134a", "--low", "32 psi", "--ambient", "86 F"], &["q"]);
    assert!(given.text.contains("\nHigh-side gauge") && !given.text.contains("\nLow-side gauge"), "{}", given.text);
    // at rest nothing narrows the circuits: said before both gauges are read
    let narrowed = typed(&["--compressor", "cycling"], &["R-134a", "n", "y", "32 psi", "q"]);
    assert!(narrowed.talk().contains("cannot be used with '--at-rest'"), "{}", narrowed.text);
    assert_eq!(narrowed.command(), "--compressor cycling --refrigerant R-134a --low \"32 psi\"");
    // a file that cannot be read is known before anything is asked
    let rows = typed(&["--maker-rows", "/no/such/file"], &["R-134a"]);
    assert!(rows.end.unwrap_err().starts_with("/no/such/file: ") && rows.text.is_empty());
}

/// As a program: on a terminal and on pipes.
#[cfg(feature = "fit")]
#[cfg(unix)]
mod as_a_program {
    use std::process::{Command, Stdio};
    use std::sync::mpsc;
    use std::time::{Duration, Instant};

    use super::super::output::program;
    use super::*;

    /// The program on a pipe with these lines.
    fn piped(words: &[&str], lines: &[&str], stdout: Stdio) -> std::process::Output {
        let mut program = program("read_gauges");
        program.arg("--ask").args(words).stdin(Stdio::piped()).stdout(stdout).stderr(Stdio::piped());
        let mut child = program.spawn().unwrap();
        let mut stdin = child.stdin.take().unwrap();
        // an example that has ended reads no more
        let _ = stdin.write_all(format!("{}\n", lines.join("\n")).as_bytes());
        drop(stdin);
        child.wait_with_output().unwrap()
    }

    #[test]
    fn a_pipe_shows_what_the_terminal_shows() {
        let ended = piped(&["--invented"], &RECORDED, Stdio::piped());
        assert_eq!(String::from_utf8(ended.stdout).unwrap(), recorded().text);
        assert!(ended.status.success() && ended.stderr.is_empty());
        let none = piped(&[], &["R-134a", "", "", ""], Stdio::piped());
        assert_eq!(none.status.code(), Some(1));
        let said = String::from_utf8(none.stderr).unwrap();
        assert!(said.starts_with("read_gauges: ambient temperature is missing") && said.lines().count() == 1, "{said}");
    }

    #[test]
    fn the_very_command_line_prints_the_page_again() {
        let shown = recorded();
        let program = program("read_gauges").get_program().to_str().unwrap().to_owned();
        let line = shown.text.lines().last().unwrap().trim();
        let line = line.replace("cargo run --example read_gauges --", &format!("'{program}'"));
        let ended = Command::new("sh").args(["-c", &line]).output().unwrap();
        assert_eq!(String::from_utf8(ended.stdout).unwrap(), shown.page());
        assert!(ended.status.success());
        // words with everything that a shell would change
        let rows = "--maker-row=30 °C: 190 to 240 kPa, 1300 to 1600 kPa";
        let odd = std::env::temp_dir().join(format!("satline it's $HOME `x` \"!\\ {}.html", std::process::id()));
        let given = [rows, "--html", odd.to_str().unwrap()];
        let shown = typed(&given, &["R-134a", "", "2 bar", "13 bar", "30 C", "q"]);
        assert_eq!(shown.end, Ok(()), "{}", shown.text);
        std::fs::remove_file(&odd).unwrap();
        let line = shown.text.lines().last().unwrap().trim();
        let line = line.replace("cargo run --example read_gauges --", &format!("'{program}'"));
        let ended = Command::new("sh").args(["-c", &line]).output().unwrap();
        assert_eq!(String::from_utf8(ended.stdout).unwrap(), shown.page(), "{line}");
        std::fs::remove_file(&odd).unwrap();
    }

    #[cfg(target_os = "linux")]
    #[test]
    fn a_closed_pipe_and_a_full_disk_end_the_questions() {
        let full = std::fs::OpenOptions::new().write(true).open("/dev/full").unwrap();
        let ended = piped(&[], &RECORDED, full.into());
        let said = String::from_utf8(ended.stderr).unwrap();
        assert_eq!(ended.status.code(), Some(1));
        assert!(said.starts_with("read_gauges: standard output: ") && said.lines().count() == 1, "{said}");
        let (reader, writer) = io::pipe().unwrap();
        drop(reader);
        let ended = piped(&[], &RECORDED, writer.into());
        assert!(ended.status.success() && ended.stderr.is_empty());
    }

    /// The recorded dialogue in a terminal: each line is typed when the question stands there, not before, and what the terminal shows in
    /// the end is the recording.
    #[test]
    fn a_terminal_shows_the_recording() {
        let shown = recorded();
        let program = program("read_gauges").get_program().to_str().unwrap().to_owned();
        let on_terminal = format!("'{program}' --ask --invented");
        // of util-linux: a terminal that shows what is typed, though its own input is a pipe
        let mut script = Command::new("script");
        script.args(["-q", "-e", "-E", "always", "-c", &on_terminal, "/dev/null"]);
        let spawned = script.stdin(Stdio::piped()).stdout(Stdio::piped()).stderr(Stdio::null()).spawn();
        let Ok(mut child) = spawned else {
            let _ = writeln!(io::stderr(), "skipped: no program `script`, so nothing was tried on a terminal");
            return;
        };
        let mut stdin = child.stdin.take().unwrap();
        let mut stdout = child.stdout.take().unwrap();
        let (sender, pieces) = mpsc::channel::<Vec<u8>>();
        let reader = std::thread::spawn(move || {
            let mut piece = [0; 4096];
            while let Ok(n @ 1..) = stdout.read(&mut piece) {
                let _ = sender.send(piece[..n].to_vec());
            }
        });
        let mut seen = Vec::new();
        let deadline = Instant::now() + Duration::from_secs(60);
        let mut wait_for = |length: usize| {
            while seen.len() < length {
                let left = deadline.saturating_duration_since(Instant::now());
                match pieces.recv_timeout(left) {
                    // a terminal begins each line at its left
                    Ok(piece) => seen.extend(piece.into_iter().filter(|byte| *byte != b'\r')),
                    Err(_) => break,
                }
            }
            seen.clone()
        };
        for (line, before) in RECORDED.iter().zip(&shown.before) {
            let seen = wait_for(*before);
            if seen.is_empty() {
                let _ = writeln!(io::stderr(), "skipped: this `script` shows no terminal");
                let _ = child.kill();
                return;
            }
            assert_eq!(String::from_utf8_lossy(&seen), shown.text[..*before], "before {line:?} is typed");
            writeln!(stdin, "{line}").unwrap();
        }
        let seen = wait_for(shown.text.len());
        assert_eq!(String::from_utf8_lossy(&seen), shown.text);
        drop(stdin);
        assert!(child.wait().unwrap().success());
        reader.join().unwrap();
    }
}
