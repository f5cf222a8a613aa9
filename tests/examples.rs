//! Each example against its committed page, and logs good and bad.

use std::collections::BTreeSet;
use std::io::{Read, Write};

use approx::abs_diff_eq;
use clap::Parser;

use crate::support::{alone, resident_kib, root, same_as_file};

mod ask;
#[cfg(feature = "fit")]
mod output;
mod typed;

#[cfg(feature = "fit")]
#[allow(dead_code)]
#[path = "../examples/fit_a_table.rs"]
mod fit_a_table;
#[allow(dead_code)]
#[path = "../examples/healthy_windows.rs"]
mod healthy_windows;
#[allow(dead_code)]
#[path = "../examples/hold_test.rs"]
pub mod hold_test;
#[allow(dead_code)] // its main is not called here
#[path = "../examples/job_sheet/main.rs"]
pub mod job_sheet;
#[allow(dead_code)]
#[path = "../examples/oil_label.rs"]
mod oil_label;
#[allow(dead_code)]
#[path = "../examples/read_gauges/main.rs"]
pub mod read_gauges;
#[cfg(feature = "fit")]
#[allow(dead_code)]
#[path = "../examples/refit.rs"]
mod refit;

fn args(words: &[&str]) -> read_gauges::Args {
    read_gauges::Args::try_parse_from(std::iter::once(&"read_gauges").chain(words)).unwrap_or_else(|e| panic!("{e}"))
}

/// The worked example with its pictures.
pub fn demonstrated() -> read_gauges::Answer {
    read_gauges::answer(&args(&["--html", "not-written.html"])).unwrap()
}

/// What is said of words that are refused, by the reader of the command line or after it.
fn refused_words(words: &[&str]) -> String {
    let parsed = read_gauges::Args::try_parse_from(std::iter::once(&"read_gauges").chain(words));
    match parsed {
        Ok(args) => read_gauges::one(&args).expect_err("refused").to_string(),
        Err(said) => said.to_string(),
    }
}

fn page(words: &[&str]) -> String {
    read_gauges::one(&args(words)).unwrap_or_else(|e| panic!("{words:?}: {e}"))
}

/// The words of a page, however its lines are broken.
fn unbroken(page: &str) -> String {
    page.split_whitespace().collect::<Vec<_>>().join(" ")
}

/// Reads a log given as text; verdicts, complaints and how many rows were answered and bad.
fn log(text: &str, words: &[&str]) -> (String, String, u64, u64) {
    let (mut out, mut errors) = (Vec::new(), Vec::new());
    let summary = read_gauges::log::read(text.as_bytes(), &mut out, &mut errors, &args(words)).unwrap();
    (String::from_utf8(out).unwrap(), String::from_utf8(errors).unwrap(), summary.answered, summary.bad)
}

/// A high side that many cars have, and this one does not: the rows are two of the ladder car-2010-a.
const OWN: [&str; 17] = [
    "--invented",
    "--refrigerant",
    "R-134a",
    "--low",
    "235 kPa",
    "--high",
    "1730 kPa",
    "--ambient",
    "30 °C",
    "--humidity",
    "60%",
    "--maker-row",
    "25 °C, 60 %: 171 to 209 kPa, 1204 to 1471 kPa",
    "--maker-row",
    "35 °C, 60 %: 229 to 280 kPa, 1500 to 1820 kPa",
    "--compressor",
    "internal",
];

/// The rows of the maker in a file, with remarks; what is wrong with a line is told with its number, and the good ones are counted.
#[test]
fn maker_rows_are_read_from_a_file() {
    let path = std::env::temp_dir().join(format!("satline-maker-rows-{}", std::process::id()));
    let read = |text: &str| {
        std::fs::write(&path, text).unwrap();
        let words = [&OWN[..11], &["--maker-rows", path.to_str().unwrap(), "--compressor", "internal"]].concat();
        read_gauges::one(&args(&words)).map_err(|error| error.to_string())
    };
    let good = "# by the manual\n25 °C, 60 %: 171 to 209 kPa, 1204 to 1471 kPa\n\n35 °C, 60 %: 229 to 280 kPa, 1500 to 1820 kPa\n";
    assert_eq!(read(good).unwrap(), page(&OWN));
    let wrong =
        read("25 °C: 171 to 209, 1204 to 1471 kPa\n# remark\n30 °C: 190 to 240 kPa, 1300 to 1600 kPa\n35: 2 bar\n")
            .unwrap_err();
    assert!(wrong.contains("line 1: row") && wrong.contains("\"209\" has no unit"), "{wrong}");
    assert!(wrong.contains("line 4: row") && !wrong.contains("line 3"), "{wrong}");
    assert!(wrong.ends_with("other rows, all good: 1"), "{wrong}");
    let none = read("# nothing yet\n").unwrap_err();
    assert!(none.contains("no rows; write one a line"), "{none}");
    std::fs::remove_file(&path).unwrap();
    let missing =
        read_gauges::one(&args(&["--refrigerant", "R-134a", "--low", "2 bar", "--maker-rows", "/no/such/file"]));
    assert!(missing.unwrap_err().to_string().starts_with("/no/such/file: "));
}

#[test]
fn pages_are_what_the_examples_print() {
    same_as_file("examples/read_gauges/demo.txt", &page(&[]));
    same_as_file("examples/read_gauges/full.txt", &page(&["--full"]));
    same_as_file("examples/read_gauges/demo.json", &page(&["--json"]));
    same_as_file("examples/read_gauges/r1234yf.txt", &page(&R1234YF));
    same_as_file("examples/read_gauges/r744.txt", &page(&R744));
    same_as_file("examples/read_gauges/r744.json", &page(&[&R744[..], &["--json"]].concat()));
    same_as_file("examples/read_gauges/at_rest.txt", &page(&AT_REST));
    same_as_file("examples/read_gauges/at_rest.json", &page(&[&AT_REST[..], &["--json"]].concat()));
    same_as_file("examples/read_gauges/low_side.txt", &page(&LOW_SIDE));
    same_as_file("examples/read_gauges/low_side.json", &page(&[&LOW_SIDE[..], &["--json"]].concat()));
    same_as_file("examples/read_gauges/own.txt", &page(&OWN));
    same_as_file("examples/read_gauges/own.json", &page(&[&OWN[..], &["--json"]].concat()));
    let kept = std::fs::read_to_string(root().join("examples/read_gauges/log.csv")).unwrap();
    let (out, errors, ..) = log(&kept, &["--refrigerant", "R-134a"]);
    let invented = "The log is invented: no car was measured for it.";
    same_as_file("examples/read_gauges/log.txt", &format!("{invented}\n\n{out}\non standard error:\n{errors}"));
    same_as_file("examples/healthy_windows.txt", &healthy_windows::page().unwrap());
    same_as_file("examples/job_sheet/demo.txt", &sheet(&[]).unwrap());
    same_as_file("examples/job_sheet/demo.md", &sheet(&["--markdown"]).unwrap());
    same_as_file("examples/job_sheet/demo.json", &sheet(&["--json"]).unwrap());
    same_as_file("examples/job_sheet/electric.txt", &sheet(&ELECTRIC).unwrap());
    same_as_file("examples/oil_label.txt", &labels(&[]).unwrap());
    #[cfg(feature = "fit")]
    same_as_file("examples/refit.txt", &refit::page().unwrap());
    #[cfg(feature = "fit")]
    same_as_file("examples/fit_a_table.txt", &fitted(&[]).unwrap());
}

/// The pages of the same readings and jobs in Spanish; what is decided is the same, byte for byte.
#[test]
fn pages_in_spanish_are_what_the_examples_print() {
    const SPANISH: [&str; 2] = ["--language", "es"];
    fn spanish<'a>(words: &[&'a str]) -> Vec<&'a str> {
        [words, &SPANISH].concat()
    }
    for (name, words) in [
        ("demo", &[][..]),
        ("full", &["--full"]),
        ("r1234yf", &R1234YF),
        ("r744", &R744),
        ("at_rest", &AT_REST),
        ("low_side", &LOW_SIDE),
        ("own", &OWN),
    ] {
        same_as_file(format!("examples/read_gauges/{name}.es.txt"), &page(&spanish(words)));
    }
    assert_eq!(page(&spanish(&["--json"])), page(&["--json"]));
    same_as_file("examples/job_sheet/demo.es.txt", &sheet(&SPANISH).unwrap());
    same_as_file("examples/job_sheet/electric.es.txt", &sheet(&spanish(&ELECTRIC)).unwrap());
    assert_eq!(sheet(&spanish(&["--json"])), sheet(&["--json"]));
    assert_eq!(sheet(&spanish(&[&ELECTRIC[..], &["--json"]].concat())), sheet(&[&ELECTRIC[..], &["--json"]].concat()));
    let held = |words: &[&str]| {
        let args = hold_test::Args::try_parse_from(std::iter::once(&"hold_test").chain(words)).unwrap();
        hold_test::answer(&args).unwrap()
    };
    let hold_test::Answer { page, complaints, .. } = held(&SPANISH);
    same_as_file("examples/hold_test.es.txt", &format!("{page}\nen la salida de errores:\n{complaints}"));
    assert_eq!(held(&spanish(&["--json"])).page, held(&["--json"]).page);
    let kept = std::fs::read_to_string(root().join("examples/read_gauges/log.csv")).unwrap();
    let (out, errors, ..) = log(&kept, &["--refrigerant", "R-134a", "--language", "es"]);
    let invented = "El registro es inventado: no se midió ningún coche para él.";
    same_as_file(
        "examples/read_gauges/log.es.txt",
        &format!("{invented}\n\n{out}\nen la salida de errores:\n{errors}"),
    );
    let data = ["--refrigerant", "R-134a", "--json"];
    assert_eq!(log(&kept, &spanish(&data)).0, log(&kept, &data).0);
    // what is refused, too
    for words in [
        &["--refrigerant", "R-134a", "--low", "30 psi", "--high", "20 psi", "--ambient", "86.5 °F"][..],
        &["--refrigerant", "R-134a", "--low", "30 psi", "--ambient", "286.5 °F"],
        &["--refrigerant", "R-134a", "--low", "30 bar", "--ambient", "86.5 °F"],
    ] {
        let (english, other) = (refused_words(words), refused_words(&spanish(words)));
        assert!(english != other && other.contains("compruebe") | other.contains("correcta"), "{english}\n{other}");
        let digits = |text: &str| text.chars().filter(char::is_ascii_digit).collect::<String>();
        assert_eq!(digits(&english), digits(&other));
    }
    for (text, said) in [("", "el archivo está vacío"), ("low\n", "lado de baja: «low» no tiene unidad")] {
        let words = args(&["--refrigerant", "R-134a", "--language", "es"]);
        let refused = read_gauges::log::read(text.as_bytes(), std::io::sink(), std::io::sink(), &words).unwrap_err();
        assert!(refused.to_string().contains(said), "{refused}");
    }
}

/// A later reading of the car of the worked example, invented.
const LATER: [&str; 15] = [
    "--invented",
    "--refrigerant",
    "R-134a",
    "--low",
    "35 psi",
    "--high",
    "205 psi",
    "--ambient",
    "88 °F",
    "--humidity",
    "50%",
    "--vent",
    "50 °F",
    "--suction-line",
    "50 °F",
];

/// A reading saved and compared with a later one; six lines; one sheet for the customer.
#[test]
fn a_car_is_read_before_and_after() {
    let folder = std::env::temp_dir().join(format!("satline-car-{}", std::process::id()));
    std::fs::create_dir_all(&folder).unwrap();
    let file = |name: &str| folder.join(name).to_str().unwrap().to_owned();
    let (demo, well) = (file("demo.json"), file("well.json"));
    let saved = page(&["--save", &demo]);
    assert_eq!(saved, page(&[]), "a saved reading has the same page");
    let with = |words: &[&str]| [&LATER[..], words].concat().iter().map(|&word| word.to_owned()).collect::<Vec<_>>();
    let said = |words: &[&str]| {
        let words = with(words);
        page(&words.iter().map(String::as_str).collect::<Vec<_>>())
    };
    let sheet =
        ["--before", &demo, "--customer", "--done", "O-ring at the condenser replaced", "--done", "charged with 550 g"];
    for (spoken, name) in [(&[][..], ""), (&["--language", "es"][..], ".es")] {
        same_as_file(format!("examples/read_gauges/brief{name}.txt"), &page(&[&["--brief"], spoken].concat()));
        let compared = said(&[&["--before", &demo][..], spoken].concat());
        same_as_file(format!("examples/read_gauges/before{name}.txt"), &compared);
        same_as_file(format!("examples/read_gauges/customer{name}.txt"), &said(&[&sheet[..], spoken].concat()));
        // data are the same in every language
        let moved = said(&[&["--before", &demo, "--json"][..], spoken].concat());
        same_as_file("examples/read_gauges/before.json", &moved);
    }
    // one sheet of paper has about sixty lines
    assert!(said(&sheet).lines().count() <= 60);
    // a car that was well makes its windows its own; one that was not does not
    let json = said(&["--save", &well, "--json"]);
    let windows = |page: &str| serde_json::from_str::<satline::report::Report>(page).unwrap().healthy.unwrap();
    assert_eq!(windows(&json).baselines, 0);
    let own = read_gauges::answer(&args(&[&LATER[..], &["--before", &well]].concat())).unwrap();
    assert_eq!(own.report.healthy.unwrap().baselines, 1);
    let other = read_gauges::answer(&args(&[&LATER[..], &["--before", &demo]].concat())).unwrap();
    assert_eq!(other.report.healthy.unwrap().baselines, 0);
    // what cannot be compared is told
    for (text, error) in [
        ("", "not a reading that --save has written: EOF"),
        ("{\"format\": \"other\"}", "not a reading that --save has written: missing field"),
    ] {
        let odd = file("odd.json");
        std::fs::write(&odd, text).unwrap();
        let told = refused_words(&[&LATER[..], &["--before", &odd]].concat());
        assert!(told.contains(error) && told.contains("odd.json"), "{told}");
    }
    let mut other = serde_json::from_str::<serde_json::Value>(&std::fs::read_to_string(&demo).unwrap()).unwrap();
    other["format"] = "satline-car-0".into();
    std::fs::write(file("odd.json"), other.to_string()).unwrap();
    let told = refused_words(&[&LATER[..], &["--before", &file("odd.json")]].concat());
    assert!(told.contains("\"satline-car-0\"") && told.contains("\"satline-car-1\""), "{told}");
    let told = refused_words(&["--refrigerant", "R-1234yf", "--low", "2 bar", "--ambient", "30 °C", "--before", &demo]);
    assert!(told.contains("R-1234yf") && told.contains("R-134a"), "{told}");
    let told = refused_words(&[&LATER[..], &["--before", &demo, "--save", &demo]].concat());
    assert!(told.contains("would write over what --before"), "{told}");
    assert!(refused_words(&[&LATER[..], &["--customer", "--done", "x"]].concat()).contains("--before"));
    let told = refused_words(&[&LATER[..], &sheet[..], &["--json"]].concat());
    assert!(told.contains("--customer") && told.contains("--json"), "{told}");
    std::fs::remove_dir_all(&folder).unwrap();
}

/// What the command line says goes before the preferences, and these before what holds unless given.
#[test]
fn preferences_are_written_and_hold() {
    let folder = std::env::temp_dir().join(format!("satline-preferences-{}", std::process::id()));
    std::fs::create_dir_all(&folder).unwrap();
    let file = folder.join("mine.json").to_str().unwrap().to_owned();
    let wanted =
        ["--units", "°C, bar", "--instruments", "digital", "--language", "es", "--prior", "uniform", "--width", "70"];
    let said = page(&wanted);
    assert_eq!(page(&[&wanted[..], &["--save-preferences", &file]].concat()), said);
    let kept: serde_json::Value = serde_json::from_str(&std::fs::read_to_string(&file).unwrap()).unwrap();
    let expected =
        r#"{"units": "bar °C", "instruments": "digital", "language": "es", "prior": "uniform", "width": "70"}"#;
    assert_eq!(kept, serde_json::from_str::<serde_json::Value>(expected).unwrap());
    assert_eq!(page(&["--preferences", &file]), said);
    // the hints under a page are not folded
    let folded = said.split("\nLa página entera").next().unwrap();
    assert!(said.contains("1,52 ± ") && folded.lines().all(|line| line.chars().count() <= 70), "{said}");
    // each word of the command line goes before
    for other in [["--units", "psi °F"], ["--instruments", "analogue"], ["--language", "en"], ["--width", "80"]] {
        let changed = page(&[&other[..], &["--preferences", &file]].concat());
        let at = wanted.iter().position(|&word| word == other[0]).unwrap();
        let mut words = wanted;
        words[at + 1] = other[1];
        assert_eq!(changed, page(&words), "{other:?}");
    }
    for (text, error) in [
        ("{\"units\": \"psi\"}", "name a unit of pressure and one of temperature"),
        ("{\"width\": \"30\"}", "no number of columns from 40"),
        ("{\"colour\": \"red\"}", "unknown field"),
        ("[", "not preferences"),
    ] {
        std::fs::write(&file, text).unwrap();
        let told = refused_words(&["--preferences", &file]);
        assert!(told.contains(error), "{told}");
    }
    std::fs::remove_dir_all(&folder).unwrap();
}

/// A car with R-1234yf, invented.
const R1234YF: [&str; 19] = [
    "--invented",
    "--refrigerant",
    "R-1234yf",
    "--low",
    "1.9 bar",
    "--high",
    "10.4 bar",
    "--suction-line",
    "6 °C",
    "--liquid-line",
    "36 °C",
    "--ambient",
    "25 °C",
    "--humidity",
    "60%",
    "--barometer",
    "1002 hPa",
    "--vent",
    "10 °C",
];

/// A car with R-744, invented.
const R744: [&str; 13] = [
    "--invented",
    "--refrigerant",
    "R-744",
    "--low",
    "38 bar",
    "--high",
    "95 bar",
    "--suction-line",
    "12 °C",
    "--liquid-line",
    "40 °C",
    "--ambient",
    "36 °C",
];

/// Both gauges of a car at rest, invented.
const AT_REST: [&str; 10] = [
    "--invented",
    "--refrigerant",
    "R-134a",
    "--low",
    "112 psi",
    "--high",
    "113 psi",
    "--ambient",
    "86 °F",
    "--at-rest",
];

/// A low-side gauge and nothing else, invented.
const LOW_SIDE: [&str; 7] = ["--invented", "--refrigerant", "R-134a", "--low", "22 psi", "--ambient", "86 °F"];

/// The page of an R-134a car on a day of 86 °F, its lines unbroken.
fn part(words: &[&str]) -> String {
    unbroken(&page(&[&["--refrigerant", "R-134a", "--ambient", "86 °F"], words].concat()))
}

const NO_CHARGE: &str = "Add no refrigerant by the low side alone: a low charge is not settled (";

#[test]
fn one_gauge_or_thermometers_alone_get_a_page_that_says_so() {
    let low = part(&["--low", "22 psi", "--suction-line", "72 °F", "--liquid-line", "105 °F"]);
    assert!(low.contains("The high side was not read, so more stays open than with both gauges."), "{low}");
    // superheat from its pair, the liquid line for itself
    assert!(low.contains("superheat 47.1 ± 4.9 °F ") && low.contains("liquid line 105.0 ± "), "{low}");
    assert!(!low.contains("subcooling") && !low.contains("condensing over ambient"), "{low}");
    assert!(low.contains("Saturated: low side at 24.9 ± 3.8 °F."), "{low}");

    let high = part(&["--high", "160 psi", "--suction-line", "72 °F", "--liquid-line", "105 °F"]);
    assert!(high.contains("The low side was not read, so more stays open than with both gauges."), "{high}");
    assert!(high.contains("subcooling 10.6 ± ") && high.contains("suction line 72.0 ± 3.1 °F "), "{high}");
    assert!(high.contains("condensing over ambient 29.6 ± ") && !high.contains("superheat"), "{high}");

    let warm = part(&["--vent", "64 °F", "--discharge-line", "150 °F"]);
    assert!(warm.contains("With the compressor running neither gauge was read"), "{warm}");
    assert!(warm.contains("vent 64.0 ± 3.1 °F ") && warm.contains("discharge line 150.0 ± "), "{warm}");
    assert!(!warm.contains("Saturated") && warm.contains("- Read the high side: "), "{warm}");

    // with nothing outside, no word of a healthy car; with both gauges of one
    let quiet = part(&["--low", "33 psi"]);
    assert!(
        quiet.contains("Nothing unusual in what was read, but too little was read to call the car healthy"),
        "{quiet}"
    );
    assert!(!quiet.contains("look healthy"), "{quiet}");
    let both = part(&["--low", "33 psi", "--high", "200 psi"]);
    assert!(both.contains("These readings look healthy") && !both.contains("not read"), "{both}");
    // what was weighed or stood at rest was measured too
    assert!(part(&["--resting", "90 psi"]).contains("% of the charge missing"));
}

/// A low charge is called likely from three quarters on, and pages close below that leave it open.
#[test]
fn a_low_charge_is_likely_from_three_quarters_on() {
    let path = std::env::temp_dir().join(format!("satline-weights-{}.json", std::process::id()));
    let (mut open, mut likely) = (Vec::new(), Vec::new());
    // the more often a low charge is met, the likelier it is behind one and the same reading
    for weight in [1, 2, 3, 4, 6, 8, 12, 16, 24, 32] {
        std::fs::write(&path, format!("{{\"undercharge\": {weight}}}")).unwrap();
        let words =
            ["--low", "22 psi", "--suction-line", "72 °F", "--vent", "64 °F", "--prior", path.to_str().unwrap()];
        let page = part(&words);
        let (_, rest) = page.split_once("by the low side alone: a low charge is ").unwrap_or_else(|| panic!("{page}"));
        let (word, rest) = rest.split_once(" (").unwrap();
        let percent: f64 = rest.split(" %").next().unwrap().parse().unwrap();
        if word == "likely" { likely.push(percent) } else { open.push(percent) }
    }
    std::fs::remove_file(&path).unwrap();
    // printed in whole percents
    let shown = format!("open {open:?}, likely {likely:?}");
    assert!(likely.iter().all(|percent| *percent >= 75.0) && likely.iter().any(|percent| *percent < 90.0), "{shown}");
    assert!(open.iter().all(|percent| *percent <= 75.0) && open.iter().any(|percent| *percent >= 60.0), "{shown}");
}

#[test]
fn a_charge_is_not_judged_by_the_low_side_alone() {
    for low in ["8 psi", "22 psi", "33 psi", "55 psi"] {
        let page = part(&["--low", low]);
        assert!(page.contains(NO_CHARGE) && page.contains("unseen (common practice, no source)"), "{low}: {page}");
    }
    // measure first, then what the likeliest of many causes asks for
    let lines = ["--low", "22 psi", "--suction-line", "72 °F", "--vent", "64 °F"];
    let open = part(&[&lines[..], &["--prior", "uniform"]].concat());
    let at = |what: &str| open.find(what).unwrap_or_else(|| panic!("{what}: {open}"));
    assert!(at("recover the charge") < at(NO_CHARGE) && at(NO_CHARGE) < at("- For \""), "{open}");
    // where the charge is low beyond doubt, it is not known by how much
    let settled = part(&lines);
    assert!(settled.contains("by the low side alone: a low charge is likely ("), "{settled}");
    // where nothing explains it, no less
    assert!(part(&["--low", "97 psi"]).contains("by the low side alone: a low charge is unlikely here, "));
    let odd = part(&["--low", "140 psi"]);
    assert!(
        odd.contains("does not look like anything modelled")
            && odd.contains("Add no refrigerant by the low side alone"),
        "{odd}"
    );
    // once the charge was weighed there is nothing left to warn of, and without the low side nobody fills by it
    let weighed = part(&["--low", "22 psi", "--recovered", "310 g", "--nominal-charge", "550 g"]);
    assert!(weighed.contains("charge too low") && !weighed.contains("Add no refrigerant"), "{weighed}");
    for more in [&["--low", "22 psi", "--high", "160 psi"][..], &["--high", "160 psi"], &["--vent", "64 °F"]] {
        assert!(!part(more).contains("Add no refrigerant"), "{more:?}");
    }
}

#[test]
fn a_part_of_a_reading_stops_what_must_not_run() {
    let vacuum = part(&["--low", "-10 inHg"]);
    assert!(vacuum.contains("What to do next - Switch the air conditioning off now: with the low side in vacuum"));
    assert!(vacuum.contains("Add no refrigerant by the low side alone"), "{vacuum}");
    let cut_out = part(&["--high", "450 psi"]);
    assert!(cut_out.contains("What to do next - Switch the air conditioning off now: the high side"), "{cut_out}");
    for page in [vacuum, cut_out] {
        assert!(!page.contains("- Measure the ") && !page.contains("- Read the "), "{page}");
    }
    // a blocked circuit draws the low side to zero as well as an empty one; a high side at zero is empty or not connected
    assert!(
        part(&["--low", "0 psi"]).contains("The low side shows the pressure of the air: check first that its gauge")
    );
    assert!(
        part(&["--high", "0 psi"])
            .contains("The circuit is empty or almost empty: the high side shows the pressure of the air")
    );
    assert!(!part(&["--vent", "64 °F"]).contains("almost empty"));
    let undated = page(&["--refrigerant", "R-134a", "--low", "0 psi"]);
    assert!(undated.contains("The low side shows the pressure of the air"), "{undated}");
}

#[test]
fn a_gauge_read_at_another_speed_is_no_gauge_left_out() {
    let revved = part(&["--low", "30 psi", "--revved-high", "250 psi"]);
    assert!(!revved.contains("was not read") && !revved.contains("Add no refrigerant"), "{revved}");
    let revved = part(&["--vent", "64 °F", "--revved-low", "20 psi"]);
    assert!(revved.contains("The high side was not read") && revved.contains("by the low side alone"), "{revved}");
}

#[test]
fn without_anything_to_compare_a_reading_is_refused_with_a_way_out() {
    let refused = |words: &[&str]| read_gauges::one(&args(words)).unwrap_err().to_string();
    let nothing = ["--refrigerant", "R-134a", "--ambient", "86 °F"];
    let one_is_enough = "a measured quantity is missing: one is enough: a gauge, a line, the vent";
    assert!(refused(&nothing).starts_with(one_is_enough), "{}", refused(&nothing));
    // what eyes find is no quantity
    assert!(refused(&[&nothing[..], &["--found", "bubbles"]].concat()).starts_with(one_is_enough));
    let undated = "ambient temperature is missing: every comparison depends on the day";
    assert!(refused(&["--refrigerant", "R-134a"]).starts_with(undated));
    assert!(refused(&["--refrigerant", "R-134a", "--vent", "64 °F"]).starts_with(undated));
    assert!(refused(&["--low", "22 psi"]).starts_with("--refrigerant is missing"));
    let blend = refused(&["--refrigerant", "R-404A", "--vent", "50 °F", "--ambient", "86 °F"]);
    assert!(blend.starts_with("R-404A is not modelled") && blend.contains("printed charts"), "{blend}");
    let cold = refused(&["--refrigerant", "R-134a", "--vent", "50 °F", "--ambient", "30 °F"]);
    assert!(cold.contains("ambient temperature -1.1 °C") && cold.contains("was 30 °C meant?"), "{cold}");
    let still = refused(&["--refrigerant", "R-134a", "--low", "90 psi", "--ambient", "86 °F", "--at-rest"]);
    assert!(still.contains("give one alone as --resting"), "{still}");
    let slip = refused(&["--refrigerant", "R-134a", "--low", "400 psi", "--ambient", "86 °F"]);
    assert!(slip.contains("beyond the scale of the low-side") && slip.contains("was 400 kPa meant?"), "{slip}");
    // a gauge alone says where it boils, on any day and of a blend
    let undated = page(&["--refrigerant", "R-404A", "--low", "22 psi"]);
    assert!(undated.contains("bubble point") && undated.contains("every window depends"), "{undated}");
}

/// What the example of a hold test makes of a file.
fn held(bytes: &[u8], words: &[&str]) -> Result<hold_test::Answer, String> {
    let args = hold_test::Args::try_parse_from(std::iter::once(&"hold_test").chain(words));
    hold_test::page(bytes, &args.unwrap_or_else(|e| panic!("{e}")), false).map_err(|error| error.to_string())
}

#[test]
fn the_page_of_a_hold_test_is_what_the_example_prints() {
    let args = hold_test::Args::try_parse_from(["hold_test"]).unwrap();
    let hold_test::Answer { page, complaints, .. } = hold_test::answer(&args).unwrap();
    for line in page.lines().skip(1) {
        assert!(line.chars().count() <= 80, "{line}");
    }
    assert!(page.contains("the readings are invented"), "{page}");
    same_as_file("examples/hold_test.txt", &format!("{page}\non standard error:\n{complaints}"));

    let args = hold_test::Args::try_parse_from(["hold_test", "--json"]).unwrap();
    let json = hold_test::answer(&args).unwrap().page;
    same_as_file("examples/hold_test.json", &json);
    let json: serde_json::Value = serde_json::from_str(&json).unwrap();
    assert_eq!((json["schema"].as_str(), json["finding"].as_str()), (Some("satline-hold-3"), Some("moisture")));
    assert_eq!(
        (json["figures"][0]["unit"].as_str(), json["gates"][2]["outcome"].as_str()),
        (Some("micron/min"), Some("fails"))
    );
    assert!(
        json["figures"][1]["interval"]["low"].as_f64().unwrap()
            < json["figures"][1]["interval"]["high"].as_f64().unwrap()
    );
}

#[test]
fn one_bad_row_of_a_hold_test_never_loses_the_others() {
    let text = "\u{feff}# by hand\r\ntime [min];vacuum [inHg]\r\n0;28.00\r\n1;27.90\r\n1;27.85\r\n2;27 80\r\n3;27.70\r\n\
                4;\r\n5;-27.5\r\n6;27.40;x\r\n7;27.30\r\n8;27.20\r\n9;27.10\r\n10;27,00\r\n11;99\r\n";
    let mut bytes = text.as_bytes().to_vec();
    bytes.extend_from_slice(b"12;\xff27\r\n");
    let hold_test::Answer { page, complaints, .. } = held(&bytes, &["--volume", "3 L"]).unwrap();
    let lines: Vec<&str> = complaints.lines().collect();
    let begins: Vec<&str> = lines.iter().map(|line| line.split_inclusive(':').next().unwrap()).collect();
    assert_eq!(
        begins,
        ["line 6:", "line 8:", "line 9:", "line 10:", "line 16:", "line 5:", "line 15:"],
        "{complaints}"
    );
    assert!(lines[5].starts_with("line 5: 60 s is not later than the reading before it, at 60 s"), "{complaints}");
    assert!(lines[6].contains("kPa absolute is not above vacuum"), "{complaints}");
    assert!(page.starts_with("Hold test: 7 readings over 10.0 min, from 1.92 to 2.92 inHg absolute."), "{page}");
    assert!(unbroken(&page).contains("7 rows of the log could not be used"), "{page}");
    assert!(unbroken(&page).contains("The gauge is read in steps of 0.05 inHg"), "{page}");
}

#[test]
fn a_hold_test_that_cannot_be_read_says_why() {
    let refused = |text: &str| held(text.as_bytes(), &[]).unwrap_err();
    assert_eq!(
        refused(""),
        "the file is empty; its first line must name the columns, as in \"time [min],absolute [micron]\""
    );
    assert_eq!(refused("time,absolute [micron]\n"), "line 1: time: \"time\" has no unit; add one of min, s, h, d, yr");
    assert_eq!(refused("time [min],absolute [micron]\n"), "no row can be read");
    let short = refused("time [min],absolute [micron]\n0,500\n1,x\n2,510\n");
    assert!(short.starts_with("2 readings of the hold test, and at least 5 are needed"), "{short}");
    assert!(
        short.ends_with("line 3: absolute pressure: \"x\" does not start with a number; write it like \"101.3 kPa\"")
    );
    let missing = hold_test::Args::try_parse_from(["hold_test", "--csv", "no-such-file.csv"]).unwrap();
    assert!(hold_test::answer(&missing).unwrap_err().to_string().starts_with("no-such-file.csv: "));
    let unitless = hold_test::Args::try_parse_from(["hold_test", "--volume", "2.5"]).unwrap_err().to_string();
    assert!(unitless.contains("volume: \"2.5\" has no unit"), "{unitless}");
}

/// The page of a table fitted, or what the example says instead.
#[cfg(feature = "fit")]
fn fitted(words: &[&str]) -> Result<String, String> {
    let args = fit_a_table::Args::try_parse_from(std::iter::once(&"fit_a_table").chain(words));
    fit_a_table::page(&args.unwrap_or_else(|e| panic!("{e}"))).map_err(|error| error.to_string())
}

#[cfg(feature = "fit")]
#[test]
fn a_table_of_ones_own_is_fitted_or_refused_with_a_way_out() {
    let table = |name: &str| root().join("tables/published").join(name).display().to_string();
    let r12 = table("r12-scisuit.csv");
    let critical = ["--critical-temperature", "112 °C", "--critical-pressure", "4115.5 kPa"];
    let page = fitted(&[&[r12.as_str()], critical.as_slice()].concat()).unwrap();
    assert!(
        unbroken(&page).contains(": 288.15 K reads 419.4 kPa; by the other rows it would read 491.386 ± 0.078 kPa"),
        "{page}"
    );
    assert!(page.contains("40 of 42 rows counted") && page.contains("left out"), "{page}");
    let kept = fitted(&[&[r12.as_str(), "--with-misfits"], critical.as_slice()].concat()).unwrap();
    assert!(kept.contains("41 of 42 rows counted") && kept.contains("counted all the same"), "{kept}");
    let unknown = fitted(&[&r12, "--critical-temperature", "400 K"]).unwrap();
    assert!(unknown.contains("not the critical point: Tc as given, pc fitted"), "{unknown}");
    for page in [page, kept, unknown, fitted(&[]).unwrap()] {
        for line in page.lines().skip(1) {
            assert!(line.chars().count() <= 80, "{line}");
        }
    }
    let refused = |words: &[&str]| fitted(words).unwrap_err();
    assert!(refused(&["no-such-file.csv"]).starts_with("no-such-file.csv: "));
    assert!(refused(&[&r12]).starts_with("give --critical-temperature, from the data sheet; where nobody knows it"));
    assert_eq!(
        refused(&[&r12, "--critical-temperature", "400"]),
        "temperature: \"400\" has no unit; add one of °C, °F, K"
    );
    let last = std::fs::read_to_string(&r12).unwrap().lines().count();
    assert_eq!(
        refused(&[&r12, "--critical-temperature", "385 K"]),
        format!(
            "table cannot be fitted: line {last}: 385.15 K is not below the reducing temperature of 385 K; \
             choose one above the table"
        )
    );
    assert_eq!(
        refused(&[&table("r410a-service-manual.csv"), "--critical-temperature", "75 °C"]),
        "table cannot be fitted: no column pressure; it is named with its unit, as in \"pressure_kPa_abs\"; \
         the columns are \"temperature_C\", \"bubble_pressure_MPa_gauge\", \"dew_pressure_MPa_gauge\""
    );
    assert_eq!(
        refused(&[&r12, "--critical-temperature", "-300 °C"]),
        "table cannot be fitted: -26.85 K is not a temperature to reduce with"
    );
    // figures for the built-in sample would be thrown away
    for words in [["--critical-temperature", "99 °C"], ["--critical-pressure", "39 bar"], ["--column", "dew_pressure"]]
    {
        let args = fit_a_table::Args::try_parse_from(std::iter::once("fit_a_table").chain(words));
        let error = args.unwrap_err().to_string();
        assert!(error.contains("required arguments") && error.contains("<TABLE>"), "{error}");
    }
    // the critical pressure in another unit, too high and too low
    let meant = ["--critical-temperature", "112 °C", "--critical-pressure"];
    let page = fitted(&[&[r12.as_str()], meant.as_slice(), &["4115.5 psi"]].concat()).unwrap();
    assert!(page.contains("Is that what was meant?\n  ? n1 is "), "{page}");
    for line in page.lines().skip(1) {
        assert!(line.chars().count() <= 80, "{line}");
    }
    let low = refused(&[&[r12.as_str()], meant.as_slice(), &["500 kPa"]].concat());
    assert!(low.contains("is above the critical pressure of 500.0 kPa") && low.contains("check its unit"), "{low}");
}

#[cfg(feature = "fit")]
#[test]
fn every_line_of_the_catalogue_looks_like_one_to_the_example() {
    use satline::Refrigerant;
    let folder = std::env::temp_dir().join(format!("satline-fit-a-table-{}", std::process::id()));
    std::fs::create_dir_all(&folder).unwrap();
    for r in Refrigerant::ALL.iter().copied().filter(|r| !r.is_blend()) {
        let line = r.dew_line();
        let mut text = String::from("temperature_K,pressure_kPa_abs\n");
        for i in 0..20 {
            let t = line.valid.at(0.3 + 0.65 * f64::from(i) / 19.0);
            text += &format!("{:.2},{:.1}\n", t.kelvin(), line.pressure(t).unwrap().kpa());
        }
        let file = folder.join(format!("{}.csv", r.designation()));
        std::fs::write(&file, text).unwrap();
        let page = fitted(&[
            &file.display().to_string(),
            "--critical-temperature",
            &format!("{} K", line.critical_temperature.kelvin()),
            "--critical-pressure",
            &format!("{} kPa", line.critical_pressure.kpa()),
        ])
        .unwrap();
        assert!(!page.contains("meant?"), "{r}: {page}");
    }
    std::fs::remove_dir_all(&folder).unwrap();
}

/// A job on an electric compressor, invented; the maker's rule is given.
const ELECTRIC: [&str; 27] = [
    "--invented",
    "--refrigerant",
    "R-1234yf",
    "--charge",
    "480 ± 20 g (16.9 oz)",
    "--drive",
    "electric",
    "--oil",
    "130 cm³ (4.6 fl oz)",
    "--oil-kind",
    "POE 68",
    "--complaint",
    "cools-badly",
    "--new-compressor",
    "filled 110 cm³",
    "--drained",
    "70 cm³",
    "--rule",
    "subtract 10 cm³",
    "--part",
    "condenser=15 cm³",
    "--recovered-oil",
    "5 cm³",
    "--open-for",
    "3 days",
    "--ambient",
    "31 °C",
];

/// The job sheet, or what the example says instead; clap's own complaints count too.
fn sheet(words: &[&str]) -> Result<String, String> {
    let args = job_sheet::Args::try_parse_from(std::iter::once(&"job_sheet").chain(words));
    job_sheet::page(&args.map_err(|e| e.to_string())?).map_err(|error| error.to_string())
}

/// What is said of oil labels.
fn labels(words: &[&str]) -> Result<String, String> {
    let args = oil_label::Args::try_parse_from(std::iter::once(&"oil_label").chain(words));
    oil_label::page(&args.map_err(|e| e.to_string())?).map_err(|error| error.to_string())
}

#[test]
fn a_job_sheet_refuses_what_cannot_be() {
    let with = |more: &[&str]| {
        let least = ["--refrigerant", "R-134a", "--charge", "550 g", "--drive", "belt", "--oil", "150 cm³"];
        sheet(&[least.as_slice(), more].concat())
    };
    assert!(with(&[]).is_ok());
    let refused = |more: &[&str]| with(more).unwrap_err();
    assert!(
        refused(&["--new-compressor", "emptied", "--drained", "180 cm³"])
            .starts_with("179 cm³ of oil came out and the circuit holds 150 cm³ at most"),
    );
    assert!(refused(&["--drained", "60"]).contains("volume: \"60\" has no unit; add one of cm³"));
    assert!(refused(&["--drained", "NaN cm³"]).contains("is not a finite number"));
    assert!(refused(&["--new-compressor", "dry", "--drained", "-60 cm³"]).contains("must be zero or more"));
    assert!(refused(&["--drained", "60 cm³"]).starts_with("--new-compressor is missing"));
    assert!(refused(&["--drained", "2 oz"]).contains("can mean an ounce of weight"));
    assert!(refused(&["--part", "condenser=40"]).contains("has no unit"));
    assert!(refused(&["--part", "radiator"]).contains("is no part known here; write one of condenser, evaporator"));
    assert!(refused(&["--new-compressor", "full"]).contains(
        "write \"filled 120 cm³\", emptied, dry, used or \
     unknown"
    ));
    assert!(
        refused(&["--new-compressor", "unknown", "--drained", "60 cm³", "--rule", "subtract"])
            .contains("how the new compressor comes")
    );
    assert!(refused(&["--new-compressor", "dry", "--jar-empty", "400 g", "--jar-full", "300 g"]).contains(
        "became \
         lighter"
    ));
    assert!(refused(&["--oil-kind", "PAG 47"]).contains("grades are 32, 46, 68, 100 and 150"));
    assert!(refused(&["--altitude", "9000 m"]).contains("where cars are serviced"));
    assert!(sheet(&["--refrigerant", "R-134a"]).unwrap_err().starts_with("--charge is missing; give it like"));
    assert!(
        sheet(&["--refrigerant", "R-134a", "--charge", "500 g (20 oz)", "--drive", "belt"])
            .unwrap_err()
            .contains("20 oz is 567 g, not 500 g")
    );
}

#[test]
fn job_sheets_are_no_wider_than_eighty_columns() {
    let pages = [
        sheet(&[]).unwrap(),
        sheet(&ELECTRIC).unwrap(),
        sheet(&["--refrigerant", "R-744", "--charge", "420 g", "--drive", "electric", "--part", "evaporator"]).unwrap(),
        labels(&[]).unwrap(),
        labels(&["130 + 15 cc (4.6 + 0.51 fl oz)", "50 g (1.7 oz)", "150 cm³"]).unwrap(),
    ];
    for line in pages.iter().flat_map(|page| page.lines()) {
        assert!(line.chars().count() <= 80, "{line}");
    }
}

#[test]
fn a_job_sheet_as_json_numbers_its_steps_and_sources() {
    let page: serde_json::Value = serde_json::from_str(&sheet(&["--json"]).unwrap()).unwrap();
    assert_eq!(page["schema"], "satline-job-3");
    let sources = page["sources"].as_array().unwrap().len() as u64;
    for (i, step) in page["steps"].as_array().unwrap().iter().enumerate() {
        assert_eq!(step["number"].as_u64(), Some(i as u64 + 1));
        assert!(step["basis"].as_array().unwrap().iter().all(|n| (1..=sources).contains(&n.as_u64().unwrap())));
    }
}

#[test]
fn no_example_is_forgotten() {
    let found: BTreeSet<String> = std::fs::read_dir(root().join("examples"))
        .unwrap()
        .map(|entry| entry.unwrap().file_name().into_string().unwrap())
        .filter(|name| name.ends_with(".rs") || !name.contains('.'))
        .collect();
    let known = [
        "accuracy_page",
        "cycle_diagram.rs",
        "fit_a_table.rs",
        "healthy_windows.rs",
        "hold_test.rs",
        "job_sheet",
        "make_curves.rs",
        "oil_label.rs",
        "pressure_card.rs",
        "read_gauges",
        "refit.rs",
        "shared", // what examples share, no example itself
        "watch_log.rs",
    ]
    .map(str::to_owned)
    .into();
    assert_eq!(found, known, "an example without its page and test");
}

#[test]
fn no_line_of_a_page_is_wider_than_eighty_columns() {
    for words in [
        vec![],
        vec![
            "--refrigerant",
            "R-407C",
            "--low",
            "3.87 kgf/cm2",
            "--high",
            "17.82 kgf/cm2",
            "--suction-line",
            "12 °C",
            "--liquid-line",
            "40 °C",
            "--ambient",
            "30 °C",
            "--vent",
            "8 °C",
        ],
        vec!["--refrigerant", "R-134a", "--low", "-20 inHg", "--high", "400 kPa", "--ambient", "300 K"],
        vec!["--refrigerant", "R-1234yf", "--low", "0.213 MPa", "--high", "1.234 MPa", "--ambient", "30 °C"],
        vec!["--refrigerant", "R-12", "--low", "1600 Torr", "--high", "9000 Torr", "--ambient", "90 °F"],
    ] {
        for line in page(&words).lines() {
            assert!(line.chars().count() <= 80, "{words:?}: {} columns: {line}", line.chars().count());
        }
    }
}

#[test]
fn units_follow_what_was_typed() {
    let metric =
        page(&["--full", "--refrigerant", "R-134a", "--low", "2.2 bar", "--high", "13 bar", "--ambient", "30 °C"]);
    assert!(metric.contains("2.20 bar") && !metric.contains("psi") && !metric.contains("°F"), "{metric}");
    let imperial =
        page(&["--full", "--refrigerant", "R-134a", "--low", "32 psi", "--high", "185 psi", "--ambient", "86 °F"]);
    let answer = imperial.split("Sources").next().unwrap();
    assert!(answer.contains("32.0 psi") && answer.contains("°F") && !answer.contains("kPa abs"), "{answer}");
}

#[test]
fn blends_say_which_line_was_used() {
    let page = page(&[
        "--refrigerant",
        "R-407C",
        "--low",
        "4 bar",
        "--high",
        "18 bar",
        "--suction-line",
        "12 °C",
        "--liquid-line",
        "38 °C",
    ]);
    assert!(
        unbroken(&page).contains("superheat and condensing from the dew line, subcooling from the bubble line"),
        "{page}"
    );
    assert!(page.contains("bubble point") && page.contains("dew point"), "{page}");
}

#[test]
fn cautions_fit_the_refrigerant() {
    let of = |name: &str, low: &str, high: &str| {
        unbroken(&page(&["--full", "--refrigerant", name, "--low", low, "--high", high]))
    };
    assert!(of("R-1234yf", "2 bar", "10 bar").contains("flammable (class A2L)"));
    assert!(of("R-290", "3 bar", "12 bar").contains("highly flammable (class A3)"));
    let plain = of("R-134a", "2 bar", "13 bar");
    assert!(!plain.contains("flammable"));
    for word in ["freezes skin", "illegal", "by weight", "displaces", "maker's own figures", "orange cables"] {
        assert!(plain.contains(word), "no word of {word:?}");
    }
}

#[test]
fn a_bad_row_is_named_and_the_others_are_answered() {
    let text = "low [psi],high [psi],ambient \
     [°F]\n32,185,86\n32;5,185,86\n30,nan,86\n31,180\n90,40,86\n33,190,86\n";
    let (out, errors, answered, bad) = log(text, &["--refrigerant", "R-134a"]);
    assert_eq!((answered, bad), (2, 4));
    assert!(out.contains("line 2: low within") && out.contains("line 7: low within"), "{out}");
    assert!(out.contains("2 rows answered, 4 could not be read"), "{out}");
    let complaints: Vec<&str> = errors.lines().collect();
    assert_eq!(
        complaints[0],
        "line 3: gauge pressure: \"32;5\" does not start with a number; write it like \"32 psi\""
    );
    assert_eq!(complaints[1], "line 4: gauge pressure: \"nan\" is not a finite number");
    assert_eq!(complaints[2], "line 5: 2 fields where the head has 3");
    assert!(complaints[3].starts_with("line 6: high side 40 psi is below low side 90 psi"), "{errors}");
}

#[test]
fn a_row_that_is_no_text_is_one_bad_row() {
    let mut text = b"low [psi],high [psi]\n32,185\n".to_vec();
    text.extend_from_slice(b"\xff\xfe,185\n33,190\n");
    let (mut out, mut errors) = (Vec::new(), Vec::new());
    let summary =
        read_gauges::log::read(&text[..], &mut out, &mut errors, &args(&["--refrigerant", "R-134a"])).unwrap();
    assert_eq!((summary.answered, summary.bad), (2, 1), "{}", String::from_utf8_lossy(&errors));
}

#[test]
fn a_log_may_name_its_refrigerant_and_its_place() {
    let text = "refrigerant,low [bar],high [bar],altitude [m]\nR-134a,2,12,0\nR-1234yf,2.1,12,1500\n,2,12,0\n";
    let (out, errors, answered, bad) = log(text, &[]);
    assert_eq!((answered, bad), (2, 1), "{out}{errors}");
    assert!(errors.starts_with("line 4: the refrigerant is missing: give --refrigerant"), "{errors}");
    // a row's own altitude goes before the flag, and the flag before sea level
    let (place, ..) = log(
        "low [bar],high [bar],altitude [m]\n2,12,1600\n2,12,\n",
        &["--refrigerant", "R-134a", "--json", "--barometer", "101.3 kPa"],
    );
    let absolute: Vec<f64> = place
        .lines()
        .take(2)
        .map(|row| {
            serde_json::from_str::<serde_json::Value>(row).unwrap()["gauges"][0]["absolute"]["value"].as_f64().unwrap()
        })
        .collect();
    // their last digits
    assert!(
        abs_diff_eq!(absolute[0], 2.835, epsilon = 1e-3) && abs_diff_eq!(absolute[1], 3.013, epsilon = 1e-3),
        "{absolute:?}"
    );
    let (.., answered, bad) = log(text, &["--refrigerant", "R-134a"]);
    assert_eq!((answered, bad), (3, 0));
}

#[test]
fn a_slip_in_a_log_is_asked_about_in_its_line() {
    let (out, ..) = log("low [psi],high [psi],ambient [°F]\n2.2,185,86\n", &["--refrigerant", "R-134a"]);
    assert!(out.contains("? low side: 2.2 psi is far from what is usual; was 2.2 bar meant?"), "{out}");
}

#[test]
fn empty_and_headless_logs_are_refused() {
    let refused = |text: &str| {
        read_gauges::log::read(text.as_bytes(), Vec::new(), Vec::new(), &args(&["--refrigerant", "R-134a"]))
            .unwrap_err()
            .to_string()
    };
    assert_eq!(
        refused(""),
        "the file is empty; its first line must name the columns, as in \"low [psi],high \
     [psi]\""
    );
    assert_eq!(refused("low [psi],high [psi]\n"), "the file has a head but no rows");
    assert!(refused("32,185\n33,190\n").starts_with("column \"32\" is not known; known columns: low, high"));
}

/// `--duty`, `--discharge-line` and `--revved-low` beside `--log --causes` were counted into every row, and so were the resting
/// pressure, the recovered charge and what was found.
#[test]
fn what_was_measured_once_is_no_part_of_every_row() {
    let parsed = |words: &[&str]| {
        let log = ["read_gauges", "--refrigerant", "R-134a", "--log", "log.csv", "--causes"];
        read_gauges::Args::try_parse_from(log.iter().chain(words)).map_err(|refused| refused.to_string())
    };
    for words in [
        &["--duty", "40 %"][..],
        &["--discharge-line", "180 °F"],
        &["--revved-low", "20 psi"],
        &["--revved-high", "250 psi"],
        &["--revved-suction-line", "60 °F"],
        &["--revved-liquid-line", "110 °F"],
        &["--revved-discharge-line", "190 °F"],
        &["--revved-vent", "50 °F"],
        &["--low", "22 psi"],
        &["--high", "160 psi"],
        &["--suction-line", "60 °F"],
        &["--liquid-line", "110 °F"],
        &["--vent", "50 °F"],
        &["--ambient", "86 °F"],
        &["--humidity", "50 %"],
        &["--resting", "90 psi"],
        &["--recovered", "310 g", "--nominal-charge", "550 g"],
        &["--found", "bubbles"],
        &["--not-found", "bubbles"],
    ] {
        let said = parsed(words).expect_err(words[0]);
        let (both, way_out) = (said.contains("cannot be used with"), said.contains("--log <FILE>"));
        assert!(both && way_out && said.contains(words[0]), "{words:?}: {said}");
    }
    // what is known of the car, its place and the instruments holds for every row
    let of_the_car = ["--compressor", "cycling", "--altitude", "300 m", "--instruments", "digital", "--fresh-air"];
    assert!(parsed(&of_the_car).is_ok());
    // and rows are judged by what stands in them, however the reader is called
    let text = "low [psi],high [psi],ambient [°F]\n22,160,86\n33,200,86\n";
    let plain = log(text, &["--refrigerant", "R-134a"]);
    let once = ["--duty", "40 %", "--discharge-line", "180 °F", "--revved-low", "20 psi", "--resting", "90 psi"];
    assert_eq!(log(text, &[&["--refrigerant", "R-134a"][..], &once].concat()), plain);
}

#[test]
fn a_quote_left_open_spoils_its_own_line_alone() {
    let text = "low [psi],high [psi],note\n32,185,\"oops\n30,180,\"fine, \
     thanks\"\n31,182,\nx,1,\n\"32,185,\n33,190,\n";
    let (out, errors, answered, bad) = log(text, &["--refrigerant", "R-134a"]);
    assert_eq!((answered, bad), (3, 3), "{out}{errors}");
    assert!(errors.starts_with("line 2: a quote is opened and not closed\n"), "{errors}");
    assert!(out.contains("line 3: ") && out.contains("line 7: "), "{out}");
}

#[test]
fn lines_are_counted_as_an_editor_counts_them() {
    let text = "\u{feff}# a remark\r\nlow [psi],high [psi]\r\n\r\n32,185\r\nx,180\r\n31,182\r\n";
    let (out, errors, answered, bad) = log(text, &["--refrigerant", "R-134a"]);
    assert_eq!((answered, bad), (2, 1), "{out}{errors}");
    assert!(errors.starts_with("line 5: ") && out.contains("line 4: ") && out.contains("line 6: "), "{out}{errors}");
}

#[test]
fn semicolons_and_tabs_separate_too() {
    let point = log("low [bar],high [bar]\n2.2,13\n2.215,13\n", &["--refrigerant", "R-134a"]);
    // with semicolons the comma is the decimal sign, whatever follows it; elsewhere thousands are not ruled out
    let comma = log("low [bar];high [bar]\n2,2;13\n2,215;13,0\n", &["--refrigerant", "R-134a"]);
    assert_eq!((comma.2, comma.3), (2, 0), "{}", comma.1);
    assert_eq!(point.0.lines().next(), comma.0.lines().next());
    let (out, errors, answered, bad) = log("low [bar]\thigh [bar]\n2,2\t13\n2,215\t13\n", &["--refrigerant", "R-134a"]);
    assert_eq!((answered, bad), (1, 1), "{out}{errors}");
    assert!(errors.contains("line 3: gauge pressure: the comma in \"2,215\" is not accepted"), "{errors}");
}

#[test]
fn a_line_without_end_is_one_bad_row() {
    let long = "9".repeat(200_000);
    let text = format!("low [psi],high [psi]\n{long},185\n32,185\n");
    let (_, errors, answered, bad) = log(&text, &["--refrigerant", "R-134a"]);
    assert_eq!((answered, bad), (1, 1), "{errors}");
    assert_eq!(errors, "line 2: longer than 65536 bytes\n");
}

#[test]
fn a_log_without_any_refrigerant_is_refused_at_once() {
    let text = "low [psi],high [psi]\n32,185\n";
    let refused = read_gauges::log::read(text.as_bytes(), Vec::new(), Vec::new(), &args(&[])).unwrap_err();
    assert_eq!(
        refused.to_string(),
        "the refrigerant is missing: give --refrigerant, or a column named \
     refrigerant"
    );
}

#[test]
fn a_log_as_json_is_one_object_a_line() {
    let text = "low [psi],high [psi],ambient [°F]\n32,185,86\nx,185,86\n33,190,86\n";
    let (out, ..) = log(text, &["--refrigerant", "R-134a", "--json"]);
    let lines: Vec<serde_json::Value> = out.lines().map(|line| serde_json::from_str(line).unwrap()).collect();
    assert_eq!(lines.len(), 4);
    assert_eq!(lines[0]["line"].as_u64(), Some(2));
    assert_eq!(lines[0]["results"][0]["verdict"]["position"], "within");
    assert!(lines[1]["error"].as_str().unwrap().contains("does not start with a number"));
    assert_eq!((lines[3]["summary"]["answered"].as_u64(), lines[3]["summary"]["bad"].as_u64()), (Some(2), Some(1)));
    let keys: Vec<&str> = lines[3]["summary"].as_object().unwrap().keys().map(String::as_str).collect();
    let ids =
        ["answered", "bad", "condensing-over-ambient", "high-side", "low-side", "subcooling", "superheat", "vent"];
    assert_eq!(keys, ids);
    assert_eq!(lines[3]["summary"]["low-side"], serde_json::json!({ "below": 0, "within": 2, "above": 0 }));
}

/// A log that is made while it is read, so that no file is needed.
struct Endless {
    rows: u64,
    buffer: Vec<u8>,
}

impl Read for Endless {
    fn read(&mut self, into: &mut [u8]) -> std::io::Result<usize> {
        while self.buffer.len() < into.len() && self.rows > 0 {
            self.rows -= 1;
            let low = 200 + self.rows % 100;
            writeln!(self.buffer, "{low},1300,30")?;
        }
        let n = self.buffer.len().min(into.len());
        into[..n].copy_from_slice(&self.buffer[..n]);
        self.buffer.drain(..n);
        Ok(n)
    }
}

#[test]
fn a_long_log_is_streamed_in_flat_memory() {
    // memory is counted by the process
    alone("examples::a_long_log_alone");
}

#[test]
#[ignore = "run by a_long_log_is_streamed_in_flat_memory"]
fn a_long_log_alone() {
    let rows = 60_000;
    let read = |rows: u64| {
        let log = Endless { rows, buffer: b"low [kPa],high [kPa],ambient [\xc2\xb0C]\n".to_vec() };
        let words = ["--refrigerant", "R-134a"];
        read_gauges::log::read(std::io::BufReader::new(log), std::io::sink(), std::io::sink(), &args(&words))
            .unwrap()
            .answered
    };
    assert_eq!(read(1_000), 1_000); // whatever is set up once is set up now
    let before = resident_kib();
    assert_eq!(read(rows), rows);
    let after = resident_kib();
    // a row is some 15 bytes of text and 80 of verdict: kept, they would be 6 MB
    if let (Some(before), Some(after)) = (before, after) {
        assert!(after < before + 1_000, "resident memory rose from {before} to {after} KiB");
    }
}
