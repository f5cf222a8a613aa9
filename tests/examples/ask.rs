//! The guided reading: as a terminal shows it, against the library, and with answers of every kind.

use std::cell::RefCell;
use std::collections::BTreeSet;
use std::ffi::OsString;
use std::io::{self, BufRead, Read, Write};
use std::rc::Rc;

use clap::Parser;
use satline::diagnosis::{Diagnosis, NextStep, Stop};
use satline::inspection::{Measurand, Observation, RecoveredCharge};
use satline::report::{Language, percent};
use satline::{Entered, Error, GaugePressure, Mass, Ratio, Refrigerant, Temperature};

use super::read_gauges::ask::question::Question;
use super::read_gauges::ask::words::{self, Sentence, Words};
use super::read_gauges::language::{Code, Spoken};
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

/// A dialogue as it was shown, its words, the length of what was shown before each line, and what it ended with.
struct Shown {
    text: String,
    words: &'static dyn Words,
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
    let spoken = Spoken::from(words.contains(&SPANISH[0]).then_some(Code::Es));
    Shown { text, words: words::of(spoken), before: before.take(), end }
}

const SPANISH: [&str; 2] = ["--language", "es"];

/// The words of each language of the dialogue.
fn languages() -> [&'static dyn Words; 2] {
    [Code::En, Code::Es].map(|code| words::of(Spoken::from(Some(code))))
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
        let to_repeat = format!("\n{}\n", self.words.sentence(Sentence::ToRepeat));
        let (rest, _) = self.text.rsplit_once(&to_repeat).unwrap_or_else(|| panic!("{}", self.text));
        let states = [", compressor running", ", engine off", ", compresor en marcha", ", motor parado, presiones"];
        let title = rest.lines().rfind(|line| states.iter().any(|state| line.contains(state)));
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

/// The recorded dialogue in Spanish, invented.
const RECORDED_IN_SPANISH: [&str; 18] = [
    "freon", "r134", "R-134a", "s", "1,5 bar", "11", "11,0 bar", "86 C", "sí", "atrás", "30 ºC", "55 %", "?", "", "",
    "44,5 °C", "sí", "fin",
];

fn recorded() -> Shown {
    typed(&["--invented"], &RECORDED)
}

#[test]
fn the_recorded_dialogues_are_what_is_shown() {
    let invented = "The readings are invented: no car was measured for them.";
    let in_spanish = "Las lecturas son inventadas: no se midió ningún coche para ellas.";
    let spanish = ["--invented", SPANISH[0], SPANISH[1]];
    for (file, invented, given, lines) in [
        ("examples/ask.txt", invented, &spanish[..1], &RECORDED[..]),
        ("examples/ask.es.txt", in_spanish, &spanish, &RECORDED_IN_SPANISH),
    ] {
        let shown = typed(given, lines);
        shown.end.as_ref().unwrap();
        // every line was asked for, and none after the last
        assert_eq!(shown.before.len(), lines.len(), "{}", shown.text);
        let command = format!("$ cargo run --example read_gauges -- --ask {}", given.join(" "));
        same_as_file(file, &format!("{invented}\n\n{command}\n{}", shown.text));
        assert_eq!(shown.page(), shown.repeated());
    }
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
    let dialogues: [(&[&str], &[&str]); 8] = [
        (&[], &["R-134a", "", "-10 inHg", "150 psi", "86 F", ""]),
        (&["--invented", "--width", "60"], &["yf", "y", "\"2,2 bar\"", "13 bar", "30", "30 °C", "60", "q"]),
        (&[], &["R-134a", "n", "85 psi", "86 psi", "77 F", "", "q"]),
        (&[], &["R-134a", "n", "", "86 psi", "77 F", "", "q"]),
        (&[], &["R-134a", "n", "85 psi", "86 psi", "77 F", "y", "30 psi", "190 psi", "", "q"]),
        (&["--altitude", "1600 m", "--compressor", "cycling"], &["R-134a", "", "25 psi", "", "30 C", "q"]),
        (&["--refrigerant", "R-134a", "--low", "32 psi"], &["185 psi", "86 F", "q"]),
        (&SPANISH, &["R-134a", "no", "5,9 bar", "6 bar", "25 ºC", "sí", "2,2 bar", "12,8 bar", "55 %", "fin"]),
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
fn what_is_refused_in_spanish_is_worded_by_the_library_too() {
    let lines = ["Freeon", "R-134a", "quizá", "", "32", "32 leguas", "1,500 kPa", "2,2 bar", "46 psia", "13 bar"];
    let shown = typed(&SPANISH, &[&lines[..], &["86 C", ""]].concat());
    let talk = shown.talk();
    let mut refusals = vec![Language::Spanish.error(&"Freeon".parse::<Refrigerant>().unwrap_err())];
    for text in ["32", "32 leguas", "1,500 kPa", "46 psia"] {
        refusals.push(Language::Spanish.error(&text.parse::<GaugePressure>().unwrap_err()));
    }
    refusals.push("«quizá» no es ni s (sí) ni n (no).".to_owned());
    refusals.push("temperatura ambiente: 86,0 °C queda fuera de -60,0 a 60,0 °C".to_owned());
    refusals.push("¿se quería escribir 86 °F? s toma ese valor".to_owned());
    for said in refusals {
        assert!(talk.contains(&unbroken(&said)), "{said}\nis not in\n{talk}");
    }
    assert_eq!(shown.command(), "--language es --refrigerant R-134a --low \"2,2 bar\" --high \"13 bar\"");
    // lines that cannot be read, an option that does not go with a circuit at rest
    let bytes: [&[u8]; 5] = [b"\xff", &[b'9'; 1001], b"\x1b[A", b"R-134a", b"n"];
    let talk = typed(&[&SPANISH[..], &["--rear"]].concat(), &bytes).talk();
    for said in ["no es texto en UTF-8", "más de 1000 bytes", "un carácter de control", "«--rear» no corresponde"] {
        assert!(talk.contains(said), "{said}: {talk}");
    }
    // what ends the dialogue
    let none = typed(&SPANISH, &["", ""]).end.unwrap_err();
    assert!(none.starts_with("falta el refrigerante, y sin él"), "{none}");
    let unread = typed(&SPANISH, &["R-134a", "", "", "", "", "", "", "", "", ""]).end.unwrap_err();
    assert!(unread.starts_with("falta temperatura ambiente: "), "{unread}");
    let given = [&SPANISH[..], &["--low", "12 bar", "--refrigerant", "R-134a"]].concat();
    let beyond = typed(&given, &["13 bar", "", "", ""]).end.unwrap_err();
    assert!(beyond.starts_with("lado de baja, 12 bar: "), "{beyond}");
}

/// Every question of the dialogue.
fn questions() -> Vec<Question> {
    let sides = [Measurand::LowSide, Measurand::HighSide];
    let mut all = vec![Question::Refrigerant, Question::Running, Question::Started, Question::Ambient];
    all.extend([Question::Humidity, Question::Resting, Question::RestingTemperature]);
    all.extend([Question::Recovered, Question::NominalCharge]);
    all.extend(sides.into_iter().flat_map(|side| [Question::Level(side), Question::Scale(side)]));
    all.extend(Measurand::ALL.iter().map(|&measurand| Question::Measured(measurand)));
    all.extend(Observation::ALL.iter().map(|&observation| Question::Seen(observation)));
    all
}

/// What was shown before one line: the question, where it is one of [`questions`], and the rest.
#[derive(Debug)]
struct Step {
    question: Option<Question>,
    said: String,
    /// The begin of each line, which tells what it is: blank, one of a list, a cause with its share.
    outline: Vec<&'static str>,
}

impl Shown {
    fn steps(&self) -> Vec<Step> {
        let mut start = 0;
        let mut steps = Vec::new();
        for &at in &self.before {
            let shown = &self.text[start..at];
            // what was typed
            start = self.text[at..].find('\n').map_or(self.text.len(), |end| at + end + 1);
            let said = unbroken(shown);
            let prompt = |question: Question| [false, true].map(|co2| self.words.prompt(question, co2).text);
            let prompts = questions().into_iter().flat_map(|one| prompt(one).map(|text| (text, one)));
            let found = prompts.filter(|(text, _)| said.ends_with(text)).max_by_key(|(text, _)| text.len());
            let (prompt, question) = found.map_or((String::new(), None), |(text, one)| (text, Some(one)));
            let said = said.strip_suffix(&prompt).unwrap().to_owned();
            let kind = |line: &str| match line {
                "" => "",
                step if step.starts_with("  - ") => "step",
                share if share.starts_with("    ") && share.contains(" %: ") => "share",
                _ => "text",
            };
            let mut outline: Vec<&str> = shown.lines().map(kind).collect();
            outline.dedup_by(|next, before| *next == "text" && !before.is_empty());
            steps.push(Step { question, said, outline });
        }
        steps
    }
}

/// The numbers of a sentence, whatever the decimal sign and however often each.
fn numbers(text: &str) -> BTreeSet<String> {
    let digits = |word: &str| word.chars().filter(char::is_ascii_digit).collect::<String>();
    text.split_whitespace().map(digits).filter(|digits| !digits.is_empty()).collect()
}

/// The same answers lead to the same questions and the same statements in both languages, and no sentence stays in English.
#[test]
fn both_languages_ask_and_say_the_same() {
    let asked_for = [
        "R-134a", "?", "y", "?", "28 psi", "?", "170 psi", "?", "86 F", "?", "55%", "?", "", "?", "", "?", "", "?", "",
        "?", "", "?", "", "?", "85 psi", "?", "", "?", "310 g", "?", "550 g",
    ];
    let scripts: [(&[&str], &[&str]); 6] = [
        (&["--invented"], &RECORDED),
        (&["--engine-speed", "1500"], &asked_for),
        (&["--fresh-air"], &["co2", "", "38 bar", "95 bar", "36 C", "", "12 C", "q"]),
        (&[], &["R-134a", "n", "85 psi", "86 psi", "77 F", "y", "30 psi", "190 psi", "55%", "q"]),
        (&[], &["R-134a", "", "185 psi", "30 psi", "?", "y", "30 F", "60", "back", "45%", "q"]),
        (&[], &["R-134a", "", "12 bar", "13 bar", "", "17 bar", "30 C", "", "q"]),
    ];
    let long = |text: &str| -> Vec<String> {
        let letters = |line: &&str| line.chars().filter(|c| c.is_alphabetic()).count() > 20;
        text.lines().filter(|line| !line.starts_with(COMMAND)).filter(letters).map(str::to_owned).collect()
    };
    for (given, lines) in scripts {
        let (english, spanish) = (typed(given, lines), typed(&[given, &SPANISH].concat(), lines));
        assert_eq!(spanish.command().replacen("--language es ", "", 1), english.command());
        let steps = [english.steps(), spanish.steps()];
        assert_eq!(steps[0].len(), steps[1].len(), "{}", spanish.text);
        for (one, other) in steps[0].iter().zip(&steps[1]) {
            assert_eq!(one.question, other.question, "{one:?}\n{other:?}");
            assert_eq!(one.outline, other.outline, "{one:?}\n{other:?}");
            assert_eq!(numbers(&one.said), numbers(&other.said), "{one:?}\n{other:?}");
        }
        let kept: Vec<String> =
            long(&spanish.text).into_iter().filter(|line| long(&english.text).contains(line)).collect();
        assert!(kept.is_empty(), "{kept:#?}");
    }
}

/// Each question has its own words in each language, a line or three of help, and examples that are read.
#[test]
fn every_question_is_worded_in_both_languages() {
    let read = |text: &str| {
        text.parse::<Entered<GaugePressure>>().is_ok()
            || text.parse::<Entered<Temperature>>().is_ok()
            || text.parse::<Entered<Mass>>().is_ok()
            || text.parse::<Entered<Ratio>>().is_ok()
            || text.parse::<Refrigerant>().is_ok()
    };
    for (question, carbon_dioxide) in questions().into_iter().flat_map(|one| [(one, false), (one, true)]) {
        let [english, spanish] = languages().map(|words| words.prompt(question, carbon_dioxide));
        assert!(english.text != spanish.text && english.help != spanish.help, "{english:?}\n{spanish:?}");
        for (prompt, between) in [(&english, ", "), (&spanish, "; ")] {
            assert!(prompt.text.ends_with(':') && (30..=234).contains(&prompt.help.len()), "{prompt:?}");
            let examples = prompt.text.split_once('(').and_then(|(_, rest)| rest.split_once(')'));
            let Some((examples, _)) = examples else { continue };
            let between = if question == Question::Refrigerant { ", " } else { between };
            // a share is explained beside its example
            let is_share = question == Question::Measured(Measurand::ClutchDutyCycle);
            let examples = examples.split(between).filter(|_| !is_share);
            examples.for_each(|example| assert!(read(example), "{example:?} in {prompt:?}"));
        }
        // a word of the library that has no Spanish here would be its English name
        let named = match question {
            Question::Measured(measurand) => measurand.name(),
            Question::Seen(observation) => observation.name(),
            _ => continue,
        };
        assert!(!spanish.text.to_lowercase().contains(named), "{spanish:?}");
    }
}

#[test]
fn yes_no_back_and_the_end_are_understood_in_the_language_of_the_page() {
    let spanish = |lines: &[&str]| typed(&SPANISH, lines).command().replacen("--language es ", "", 1);
    let english = |lines: &[&str]| typed(&[], lines).command().to_owned();
    for yes in ["s", "S", "sí", "SÍ", "si", "y", ""] {
        assert_eq!(spanish(&["R-134a", yes, "2,2 bar", "fin"]), "--refrigerant R-134a --low \"2,2 bar\"", "{yes}");
    }
    for no in ["n", "no", "NO"] {
        assert_eq!(spanish(&["R-134a", no, "5,9 bar", "fin"]), "--refrigerant R-134a --resting \"5,9 bar\"", "{no}");
    }
    for back in ["atrás", "ATRÁS", "atras", "back"] {
        let lines = ["R-12", back, "R-134a", "", "2 bar", back, "2,2 bar", "q"];
        assert_eq!(spanish(&lines), "--refrigerant R-134a --low \"2,2 bar\"", "{back}");
    }
    for end in ["fin", "Fin", "salir", "q", "exit"] {
        let shown = typed(&SPANISH, &["R-134a", "", "2,2 bar", end, "13 bar"]);
        assert_eq!((shown.command().ends_with("--low \"2,2 bar\""), shown.before.len()), (true, 4), "{end}");
    }
    // in English they are what they were: no answer
    let lines = ["R-134a", "sí", "", "32 psi", "atrás", "fin", "q"];
    let shown = typed(&[], &lines);
    assert!(shown.talk().contains("\"sí\" is neither y for yes nor n for no."), "{}", shown.text);
    assert_eq!((english(&lines), shown.before.len()), ("--refrigerant R-134a --low \"32 psi\"".to_owned(), 7));
}

#[test]
fn the_language_of_the_preferences_is_spoken() {
    let path = std::env::temp_dir().join(format!("satline-ask-{}.json", std::process::id()));
    std::fs::write(&path, "{\"language\": \"es\"}").unwrap();
    let given = ["--preferences", path.to_str().unwrap()];
    let spanish = words::of(Spoken::from(Some(Code::Es)));
    assert!(unbroken(&typed(&given, &["q"]).text).starts_with(spanish.sentence(Sentence::Opening)));
    // the command line goes before
    let english = typed(&[&given[..], &["--language", "en"]].concat(), &["q"]);
    assert!(english.text.starts_with("Two gauges and a thermometer"), "{}", english.text);
    std::fs::remove_file(&path).unwrap();
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
