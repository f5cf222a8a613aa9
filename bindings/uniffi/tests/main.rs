//! What Kotlin and Swift see, and that it answers as the library does.

#[allow(dead_code)] // its main is not called here
#[path = "../examples/generate.rs"]
mod generate;

use std::path::{Path, PathBuf};
use std::sync::LazyLock;

use satline::{Error, GaugePressure, Length, Pressure, Refrigerant, Temperature, air};
use satline_uniffi::{
    SatlineError, Session, air_pressure_pa, bubble_pressure_pa, bubble_temperature_k, dew_pressure_pa,
    dew_temperature_k, names, properties, subcooling_k, superheat_k,
};

fn here(path: &str) -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join(path)
}

fn read(path: &str) -> String {
    let path = here(path);
    std::fs::read_to_string(&path).unwrap_or_else(|error| panic!("{}: {error}", path.display()))
}

/// Beginnings of the lines of a generated file that declare what is public.
const KOTLIN: [&str; 8] = [
    "public interface ",
    "open class ",
    "sealed class ",
    "class Refused",
    "fun `",
    "@Throws",
    "val `",
    "constructor() ",
];
const SWIFT: [&str; 6] =
    ["public protocol ", "open class ", "enum S", "case Refused", "public convenience init", "open func "];

/// The declarations of a generated file, without bodies and without what it has for itself.
fn declared<'a>(text: &'a str, begins: &'a [&'a str]) -> impl Iterator<Item = String> + 'a {
    text.lines().filter_map(|line| {
        let line = line.trim();
        // fields of an error stand behind the end of their comment
        let commented = line.strip_prefix("*/").filter(|rest| !rest.is_empty());
        let line = commented.unwrap_or(line).trim();
        let is_function = line.strip_prefix("public func ").is_some_and(|name| name.starts_with(char::is_lowercase));
        let is_public = commented.is_some() || is_function || begins.iter().any(|begin| line.starts_with(begin));
        let is_own = !["niffi", "Ffi", "RustBuffer"].iter().any(|inner| line.contains(inner));
        let words = || line.trim_end_matches([' ', '{', ':']).split_whitespace().collect::<Vec<_>>().join(" ");
        (is_public && is_own).then(words)
    })
}

/// What UniFFI makes of the library that was built for these tests.
static SIGNATURES: LazyLock<String> = LazyLock::new(|| {
    let tests = std::env::current_exe().unwrap();
    let name = format!("{}satline_uniffi{}", std::env::consts::DLL_PREFIX, std::env::consts::DLL_SUFFIX);
    let library = tests.parent().unwrap().join(name);
    let out = std::env::temp_dir().join(format!("satline-uniffi-{}", std::process::id()));
    generate::write(library.to_str().unwrap(), out.to_str().unwrap()).unwrap();
    let mut written = "Made by `SATLINE_UPDATE=1 cargo test -p satline-uniffi`.\n".to_owned();
    for (title, file, begins) in
        [("Kotlin", "uniffi/satline/satline.kt", &KOTLIN[..]), ("Swift", "satline.swift", &SWIFT)]
    {
        let text = std::fs::read_to_string(out.join(file)).unwrap();
        written += &format!("\n{title}\n\n");
        written.extend(declared(&text, begins).map(|line| line + "\n"));
    }
    std::fs::remove_dir_all(&out).unwrap();
    written
});

/// The name in Kotlin and Swift of a function of Rust.
fn camel(name: &str) -> String {
    let mut parts = name.split('_');
    let first = parts.next().unwrap_or_default().to_owned();
    parts.fold(first, |name, part| name + &part[..1].to_uppercase() + &part[1..])
}

#[test]
fn the_signatures_are_those_of_the_source() {
    let (kotlin, swift) = SIGNATURES.split_once("\nSwift\n").unwrap();
    // one that the lines above do not find would be missing
    let source = read("src/lib.rs");
    let exported: Vec<&str> =
        source.split("pub fn ").skip(1).filter_map(|rest| rest.split('(').next()).filter(|one| *one != "new").collect();
    assert_eq!(exported.len(), 11, "functions were lost or added");
    for name in exported {
        let name = camel(name);
        assert!(kotlin.contains(&format!("fun `{name}`(")) && swift.contains(&format!("func {name}(")), "{name}");
    }
    if std::env::var_os("SATLINE_UPDATE").is_some() {
        std::fs::write(here("signatures.txt"), &*SIGNATURES).unwrap();
    } else {
        assert_eq!(
            *SIGNATURES,
            read("signatures.txt"),
            "run the tests once with SATLINE_UPDATE=1 if the change is meant"
        );
    }
}

/// The examples of README use names that there are, and print what it says.
#[test]
fn the_examples_call_what_there_is() {
    let readme = read("README.md");
    let mut names = 0;
    for language in ["```kotlin\n", "```swift\n"] {
        let example = readme.split(language).nth(1).unwrap().split("```").next().unwrap();
        let words = example.split(|letter: char| !letter.is_alphanumeric());
        for word in words.filter(|word| ["Pa", "K", "M"].iter().any(|unit| word.len() > 3 && word.ends_with(unit))) {
            assert!(SIGNATURES.contains(word), "{word}");
            names += 1;
        }
    }
    assert_eq!(names, 12, "six in each language");
    let superheat = superheat_k("R-134a", 220e3, air_pressure_pa(300.0).unwrap(), 282.15).unwrap();
    let request = r#"{"refrigerant": "R-134a", "values": {"low-side": "22"}, "ambient": "86 °F"}"#;
    assert_eq!(readme.matches(request).count(), 2);
    let SatlineError::Refused { code, input, .. } = Session::new().report(request).unwrap_err();
    let printed = format!("```text\nsuperheat {superheat:.1} K\n{}: {code}\n```", input.unwrap());
    assert!(readme.contains(&printed), "{printed}");
}

#[test]
fn properties_are_those_of_the_library() {
    let (p, t) = (Pressure::from_pa(5e5), Temperature::from_kelvin(280.0));
    // a blend, whose dew and bubble points differ
    let blend = Refrigerant::R407C;
    assert_eq!(dew_temperature_k("R-407C", p.pa()).unwrap(), blend.dew_temperature(p).unwrap().kelvin());
    assert_eq!(bubble_temperature_k("R-407C", p.pa()).unwrap(), blend.bubble_temperature(p).unwrap().kelvin());
    assert_eq!(dew_pressure_pa("R-407C", t.kelvin()).unwrap(), blend.dew_pressure(t).unwrap().pa());
    assert_eq!(bubble_pressure_pa("R-407C", t.kelvin()).unwrap(), blend.bubble_pressure(t).unwrap().pa());
    let hill = air::pressure_at(Length::from_m(300.0)).unwrap().value();
    assert_eq!(air_pressure_pa(300.0).unwrap(), hill.pa());
    let gauge = GaugePressure::from_pa(5e5);
    assert_eq!(
        superheat_k("r407c", 5e5, hill.pa(), 280.0).unwrap(),
        blend.superheat(gauge, hill, t).unwrap().kelvins()
    );
    assert_eq!(
        subcooling_k("r407c", 5e5, hill.pa(), 280.0).unwrap(),
        blend.subcooling(gauge, hill, t).unwrap().kelvins()
    );
    let question = r#"{"refrigerant": "R-134a", "gauge": "32 psi", "temperature": "48 °F"}"#;
    assert_eq!(properties(question).unwrap(), satline_json::properties(question).unwrap());
    assert_eq!(names(), satline_json::names());
}

#[test]
fn a_report_is_what_the_example_prints_byte_for_byte() {
    let session = Session::new();
    let request = read("../json/tests/requests/demo.json");
    // the second time from circuits that were kept
    for _ in 0..2 {
        assert!(session.report(&request).unwrap() == read("../../examples/read_gauges/demo.json"));
    }
    let question = format!("{{\"request\": {request}, \"language\": \"spanish\"}}");
    let page = session.page(&question).unwrap();
    assert!(page == satline_json::Session::default().page(&question).unwrap() && page.contains("<html lang=\"es\">"));
}

#[test]
fn a_refusal_has_code_input_and_message() {
    let refused = |error| {
        let SatlineError::Refused { code, input, reason, json } = error;
        assert!(!reason.is_empty() && json.contains(&format!("\"code\":\"{code}\"")), "{json}");
        (code, input)
    };
    let of = |code: &str, input: Option<&str>| (code.to_owned(), input.map(str::to_owned));
    let asked = r#"{"refrigerant": "R-134a", "gauge": "32"}"#;
    assert_eq!(refused(properties(asked).unwrap_err()), of("unit-missing", Some("gauge")));
    assert_eq!(refused(Session::new().page("{").unwrap_err()), of("invalid-json", None));
    assert_eq!(refused(dew_pressure_pa("R-13", 300.0).unwrap_err()), of("unknown-refrigerant", Some("refrigerant")));
    let hot = dew_pressure_pa("R-134a", 400.0).unwrap_err();
    let theirs: Error = Refrigerant::R134a.dew_pressure(Temperature::from_kelvin(400.0)).unwrap_err();
    assert_eq!(hot.to_string(), theirs.to_string());
    assert_eq!(refused(hot), of("above-critical-temperature", None));
    for no_number in [f64::NAN, f64::INFINITY, -1.0] {
        for answer in [
            dew_temperature_k("R-134a", no_number),
            bubble_pressure_pa("R-134a", no_number),
            superheat_k("R-134a", 2e5, 101_325.0, no_number),
            subcooling_k("R-134a", no_number, no_number, 300.0),
        ] {
            refused(answer.unwrap_err());
        }
    }
}
