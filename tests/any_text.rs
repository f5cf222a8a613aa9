//! No text brings a reader down: what is typed, pasted or sent is answered by a value that is read back as itself, or by an error.
//!
//! Each test tries some hundred or thousand texts; `SATLINE_TEXTS=1000` tries a thousand times as many. The texts of a case follow from
//! its number, which stands in the message.

use std::fmt::{Debug, Display};
use std::str::FromStr;

use serde::Serialize;
use serde::de::DeserializeOwned;
use serde_json::{Value, json};

use satline::circuit::{Conditions, Settings};
use satline::diagnosis::{Advice, CauseId, Diagnosis, Posterior, Prior, UnitQuestion};
use satline::expected::ChartSet;
use satline::inspection::{
    Baseline, Columns, DisplayUnits, Entry, Inspection, Instruments, Measurand, Observation, Reading, RecoveredCharge,
};
use satline::quantity::*;
use satline::report::{self, HoldReport, JobReport, Language, LogRow, Report, TraceRow};
use satline::service::charge::ChargeLabel;
use satline::service::job::{CompressorReplacement, Job, PartReplacement};
use satline::service::oil::kind::{CompressorDrive, OilKind};
use satline::service::oil::label::OilLabel;
use satline::service::oil::part::ReplacedPart;
use satline::service::standing_vacuum_log::{VacuumLogColumns, VacuumLogRow, step};
use satline::trace::{Sample, Trace, TraceFinding};
use satline::{Entered, Error, Refrigerant};

use crate::examples::hold_test;
use crate::odd::Random;
use crate::odd::json::odd_json;
use crate::odd::text::{below, cases, odd_bytes, odd_text, one_of, random};
use crate::support::root;

/// `text` as a `T`, which is then read back from its `written` form as itself.
#[track_caller]
fn comes_back<T: FromStr<Err = Error> + PartialEq + Debug>(text: &str, written: impl Fn(&T) -> String) -> Option<T> {
    match text.parse::<T>() {
        Ok(read) => {
            let again = written(&read);
            assert_eq!(again.parse::<T>().as_ref(), Ok(&read), "{text:?} by way of {again:?}");
            Some(read)
        }
        Err(error) => {
            assert!(!error.to_string().is_empty() && !error.code().is_empty(), "{text:?}");
            None
        }
    }
}

/// `text` as JSON of a `T`, which is then written and read back as the same bytes.
#[track_caller]
fn comes_back_from_json<T: Serialize + DeserializeOwned>(text: &str) -> Option<T> {
    let read: T = serde_json::from_str(text).ok()?;
    let written = serde_json::to_string(&read).unwrap_or_else(|error| panic!("{error}: {text}"));
    let again: T =
        serde_json::from_str(&written).unwrap_or_else(|error| panic!("{error}: {written}\nread from {text}"));
    assert_eq!(serde_json::to_string(&again).unwrap(), written, "read from {text}");
    Some(read)
}

fn shown<T: Display>(value: &T) -> String {
    value.to_string()
}

fn a_quantity<Q: Quantity + FromStr<Err = Error> + Serialize + DeserializeOwned + PartialEq + Debug>(text: &str) {
    if let Some(read) = comes_back::<Entered<Q>>(text, shown) {
        assert!(read.quantity().si().is_finite() && read.number().is_finite(), "{text:?}: {read:?}");
        let exact = read.quantity();
        let json = serde_json::to_string(&exact).unwrap();
        assert_eq!(serde_json::from_str::<Q>(&json).unwrap(), exact, "{text:?} by way of {json}");
    }
    comes_back_from_json::<Entered<Q>>(&json!(text).to_string());
    for &unit in Q::Unit::ALL {
        if let Ok(read) = Entered::<Q>::from_number(text, unit) {
            assert_eq!(shown(&read).parse::<Entered<Q>>().as_ref(), Ok(&read), "{text:?} as {unit:?}");
        }
    }
}

/// Runs `$run::<Q>($argument)` for every quantity that is read from text.
macro_rules! every_quantity {
    ($run:ident($argument:expr)) => {
        every_quantity!($run($argument); Pressure, GaugePressure, PressureDifference, Temperature, TemperatureDifference, Mass, Volume,
            Length, Ratio, Density, SpecificEnthalpy, SpecificEntropy, Power, MolarMass, DynamicViscosity, ThermalConductivity,
            SurfaceTension, Time, PressureRate, Throughput, MassRate)
    };
    ($run:ident($argument:expr); $($quantity:ident),*) => { $($run::<$quantity>($argument);)* };
}

fn spelt<Q: Quantity>(into: &mut Vec<String>) {
    into.push(Q::EXAMPLE.to_owned());
    for unit in Q::Unit::ALL {
        into.extend(unit.spellings().iter().map(|spelling| format!("-12.50 {spelling}")));
    }
}

fn borrowed(texts: &[String]) -> Vec<&str> {
    texts.iter().map(String::as_str).collect()
}

#[test]
fn quantities() {
    let mut valid = Vec::new();
    every_quantity!(spelt(&mut valid));
    let valid = borrowed(&valid);
    for case in cases(1_000) {
        let text = odd_text(&mut random(case), &valid);
        every_quantity!(a_quantity(&text));
    }
}

#[test]
fn names() {
    let mut refrigerants: Vec<&str> = Refrigerant::ALL.iter().flat_map(|r| r.fluid().names).copied().collect();
    refrigerants.extend(Refrigerant::ALL.iter().map(|r| r.designation()));
    refrigerants.extend(["freon", "HFC refrigerant 134a", "R-744 (CO₂)"]);
    let oils = ["PAG 46", "PAG YF 100", "POE 68", "mineral oil", "ND-OIL 8", "ester 46", "ZXL 200PG"];
    let ids: Vec<&str> =
        Measurand::ALL.iter().map(|one| one.id()).chain(CauseId::ALL.iter().map(|id| id.as_str())).collect();
    for case in cases(4_000) {
        let mut random = random(case);
        comes_back::<Refrigerant>(&odd_text(&mut random, &refrigerants), shown);
        comes_back::<OilKind>(&odd_text(&mut random, &oils), shown);
        let id = odd_text(&mut random, &ids);
        comes_back::<Measurand>(&id, |one| one.id().to_owned());
        comes_back::<CauseId>(&id, shown);
        comes_back::<Observation>(&id, |one| one.name().to_owned());
    }
}

#[test]
fn labels() {
    let valid = [
        "150 cm³",
        "90–110 cm³ (3.1–4.0 oz)",
        "120 ± 15 mL (4 fl oz)",
        "1 1/6 fl oz",
        "150 cc ± 10 cc, 5.29 oz",
        "500 g ± 15 g",
        "0.96 kg, 34 oz, 2.13 lb",
        "450–480 g",
        "1/2 lb",
        "1.36 kg = 48 oz; 3.00 lb",
        "120 (+20/-0) cm³",
        "500 to 520 g",
    ];
    for case in cases(4_000) {
        let text = odd_text(&mut random(case), &valid);
        if let Some(label) = comes_back::<OilLabel>(&text, |label| label.text().to_owned()) {
            comes_back_from_json::<OilLabel>(&json!(text).to_string());
            if let Ok(volume) = label.volume() {
                assert!(
                    volume.low.m3() > 0.0 && volume.low <= volume.high && volume.high.m3().is_finite(),
                    "{text:?}: {volume:?}"
                );
            }
            for language in Language::ALL {
                let said = language.oil_label(&label).concat();
                // without what the label itself says
                let ours = said.replace(label.text(), "");
                assert!(!label.text().is_empty() && !ours.contains("NaN"), "{text:?}: {said}");
            }
        }
        if let Some(label) = comes_back::<ChargeLabel>(&text, |label| label.text().to_owned()) {
            let (range, nominal) = (label.range(), label.nominal());
            assert!(range.low.g() > 0.0 && range.low <= nominal && nominal <= range.high, "{text:?}: {label:?}");
        }
    }
}

/// The rows of makers: what is read has pressures above vacuum, in order.
#[test]
fn rows_of_makers() {
    let valid = [
        "30 °C: 190 to 240 kPa, 1300 to 1600 kPa",
        "77 °F, 60 %: 25 to 30 psi, 175 to 213 psi",
        "35 °C: high 1500–1820 kPa",
        "86 °F: low 2.1 bar to 34 psi",
        "30 °C, 50 %: 215 kPa, 1450 kPa",
    ];
    for case in cases(4_000) {
        let text = odd_text(&mut random(case), &valid);
        let Ok(row) = text.parse::<Baseline>() else { continue };
        for range in [row.low(), row.high()].into_iter().flatten() {
            assert!(range.low.pa() > -101_325.0 && range.low <= range.high && range.high.pa().is_finite(), "{text:?}");
        }
        let json = serde_json::to_string(&row).unwrap();
        assert_eq!(serde_json::from_str::<Baseline>(&json).unwrap(), row, "{text:?} by way of {json}");
        assert!(!shown(&row).contains("NaN"));
    }
}

const HEADS: [&str; 16] = [
    "low [psi]",
    "high [psi]",
    "low side (bar)",
    "high_kPa",
    "suction line [°F]",
    "liquid line [°C]",
    "discharge line [K]",
    "vent [°F]",
    "duty cycle [%]",
    "ambient [°F]",
    "humidity [%]",
    "altitude [m]",
    "barometer [hPa]",
    "refrigerant",
    "time",
    "note",
];
const FIELDS: [&str; 14] =
    ["32", "185", "-20.5", "", "2.2", "13", "1013", "86", "55", "R-134a", "R-1234yf", "14:02", "pump shut off", "300"];

/// Fields of a row, each a valid one or odd, and now and then one too many.
fn fields(random: &mut Random, valid: &[&str], number: usize) -> Vec<String> {
    let number = number + usize::from(random.bits().is_multiple_of(16));
    let field = |random: &mut Random| match random.bits() % 5 {
        0 => odd_text(random, valid),
        _ => one_of(random, valid).to_owned(),
    };
    (0..number).map(|_| field(random)).collect()
}

#[test]
fn heads_and_rows_of_logs() {
    let mut read = 0;
    for case in cases(4_000) {
        let mut random = random(case);
        let number = 1 + below(&mut random, 5);
        let head = fields(&mut random, &HEADS, number);
        let Ok(columns) = Columns::read(head.iter().map(String::as_str)) else { continue };
        for _ in 0..3 {
            let row = fields(&mut random, &FIELDS, head.len());
            let _ = columns.time(&row);
            let Ok((entry, refrigerant)) = columns.entry(&row) else { continue };
            read += 1;
            let json = serde_json::to_string(&entry).unwrap();
            assert_eq!(serde_json::from_str::<Entry>(&json).unwrap(), entry, "{head:?} {row:?} by way of {json}");
            answered(&entry, refrigerant.unwrap_or(Refrigerant::R134a), case);
        }
    }
    // or there would be nothing to this test
    assert!(read > 300, "{read} rows read");
}

/// What follows from an entry without simulated circuits: no page of it has a number that is none.
fn answered(entry: &Entry, r: Refrigerant, case: u64) {
    let asked = Diagnosis::of(r).entry(*entry);
    for asked in [asked.clone(), asked.first_equalised()] {
        let Ok(diagnosis) = asked.assess() else { continue };
        let report = diagnosis.report();
        pages_of(&report, case);
        let json = serde_json::to_string(&report).unwrap();
        assert!(comes_back_from_json::<Report>(&json).is_some(), "case {case}: {json}");
        let inspection = serde_json::to_string(diagnosis.inspection()).unwrap();
        assert!(comes_back_from_json::<Inspection>(&inspection).is_some(), "case {case}: {inspection}");
    }
}

fn pages_of(report: &Report, case: u64) {
    for &language in Language::ALL {
        for page in [report.page_in(language), report.brief_in(language)] {
            let text = page.text(80);
            assert!(!text.contains("NaN"), "case {case}: {text}");
            assert!(page.markdown().len() > 100 && page.html().len() > 100, "case {case}");
        }
        assert!(!report.lines_in(language).is_empty(), "case {case}");
    }
}

const VACUUM_HEADS: [&str; 8] = [
    "time [min]",
    "time (s)",
    "absolute [micron]",
    "absolute_mbar",
    "gauge [inHg]",
    "vacuum [inHg]",
    "temperature [°C]",
    "note",
];

#[test]
fn heads_and_rows_of_hold_tests() {
    let mut read = 0;
    for case in cases(4_000) {
        let mut random = random(case);
        let number = 2 + below(&mut random, 2);
        let head = fields(&mut random, &VACUUM_HEADS, number);
        let Ok(columns) = VacuumLogColumns::read(head.iter().map(String::as_str)) else { continue };
        let mut rows = Vec::new();
        for _ in 0..3 {
            let row = fields(&mut random, &["0", "1.5", "410", "28.50", "-27.9", "21", "note", ""], head.len());
            let Ok(row) = columns.row(&row) else { continue };
            let json = serde_json::to_string(&row).unwrap();
            assert_eq!(serde_json::from_str::<VacuumLogRow>(&json).unwrap(), row, "case {case}: {json}");
            assert!(row.step.pa() > 0.0 && row.step.pa().is_finite(), "case {case}: {row:?}");
            rows.push(row);
        }
        read += rows.len();
        if let Some(step) = step(&rows, columns.pressure_unit()) {
            assert!(step.pa() > 0.0 && step.pa().is_finite(), "case {case}: {step:?} of {rows:?}");
        }
    }
    assert!(read > 100, "{read} rows read");
}

/// Before, a step below what text may hold was written to JSON and refused when it was read back.
#[test]
fn a_row_with_hundreds_of_decimals_comes_back_from_json() {
    let columns = VacuumLogColumns::read(["time [min]", "absolute [micron]"]).unwrap();
    let row = columns.row(&["0".to_owned(), format!("410.{}", "0".repeat(330))]).unwrap();
    let json = serde_json::to_string(&row).unwrap();
    assert_eq!(serde_json::from_str::<VacuumLogRow>(&json).unwrap(), row, "{json}");
}

fn file(path: &str) -> String {
    std::fs::read_to_string(root().join(path)).unwrap()
}

fn committed(path: &str) -> Value {
    serde_json::from_str(&file(path)).unwrap()
}

/// A reader that gives its bytes in small pieces.
fn in_pieces(bytes: &[u8], most: usize) -> impl std::io::BufRead {
    std::io::BufReader::with_capacity(most.max(1), bytes)
}

/// However the bytes of a file arrive, its lines are the same, none is longer than is kept, and no byte is lost count of.
#[test]
fn files_as_lines() {
    use crate::trace::watch_log::lines::{LONGEST, Lines};
    let valid = [file("examples/hold_test.csv"), "a\n\"b\nc,d\"\n\n# e\r\n".to_owned(), "9".repeat(LONGEST + 3)];
    let valid = borrowed(&valid);
    for case in cases(300) {
        let mut random = random(case);
        let bytes = odd_bytes(&mut random, &valid);
        let lines = |most: usize| {
            let mut lines = Lines::new(in_pieces(&bytes, most));
            let mut found = Vec::new();
            while let Some((number, line)) = lines.advance().unwrap() {
                assert!(line.as_ref().map_or(0, |line| line.len()) <= LONGEST, "case {case}");
                found.push((number, line.map(str::to_owned)));
            }
            assert_eq!(lines.consumed(), bytes.len() as u64, "case {case}");
            found
        };
        assert_eq!(lines(1 + below(&mut random, 40)), lines(1 << 20), "case {case}");
    }
}

#[test]
fn files_of_hold_tests() {
    use clap::Parser;
    let args = ["hold_test", "--volume", "3 L"];
    let [page, json] = [&args[..], &["hold_test", "--json"]].map(|args| hold_test::Args::try_parse_from(args).unwrap());
    let valid = [
        file("examples/hold_test.csv"),
        "time [min];vacuum [inHg]\n0;28,0\n1;27,9\n2;27,8\n3;27,7\n4;27,6\n5;27,5\n6;27,4\n".to_owned(),
        "time [s],gauge [bar]\n0,-0.99\n60,-0.98\n120,-0.98\n180,-0.97\n240,-0.96\n300,-0.95\n360,-0.94\n".to_owned(),
    ];
    let valid = borrowed(&valid);
    let mut answered = 0;
    for case in cases(150) {
        let bytes = odd_bytes(&mut random(case), &valid);
        if let Ok(answer) = hold_test::page(&bytes[..], &page, false) {
            assert!(!answer.page.contains("NaN"), "case {case}: {}", answer.page);
            answered += 1;
        }
        if let Ok(answer) = hold_test::page(&bytes[..], &json, false) {
            assert!(comes_back_from_json::<HoldReport>(&answer.page).is_some(), "case {case}: {}", answer.page);
        }
    }
    assert!(answered > 20, "{answered} answered");
}

#[test]
fn files_of_gauge_logs() {
    use crate::examples::read_gauges;
    use crate::trace::watch_log;
    use clap::Parser;
    let watch = |more: &[&str]| {
        watch_log::Args::try_parse_from([&["watch_log", "--refrigerant", "R-134a"], more].concat()).unwrap()
    };
    let gauges = read_gauges::Args::try_parse_from(["read_gauges", "--refrigerant", "R-134a", "--json"]).unwrap();
    let start: String = file("examples/watch_log.csv").lines().take(60).map(|line| format!("{line}\n")).collect();
    let valid = [start, file("examples/read_gauges/log.csv")];
    let valid = borrowed(&valid);
    for case in cases(60) {
        let bytes = odd_bytes(&mut random(case), &valid);
        for args in [watch(&[]), watch(&["--json"])] {
            let (mut out, mut errors) = (Vec::new(), Vec::new());
            let _ = watch_log::read(&bytes[..], &mut out, &mut errors, &args);
            assert!(!String::from_utf8(out).unwrap().contains("NaN"), "case {case}");
        }
        let (mut out, mut errors) = (Vec::new(), Vec::new());
        let _ = read_gauges::log::read(&bytes[..], &mut out, &mut errors, &gauges);
        for line in String::from_utf8(out).unwrap().lines() {
            assert!(serde_json::from_str::<Value>(line).is_ok(), "case {case}: {line}");
        }
    }
}

/// Tables of one's own: rows that were read are numbers, and a line fitted to them has none that are not.
#[cfg(feature = "fit")]
#[test]
fn tables_of_ones_own() {
    use satline::fit::{Fitting, SaturationTable, read_table};
    use satline::{Source, Trust};
    let source = Source { work: "a table of one's own", locator: "", doi: None, trust: Trust::Weak };
    let valid = [
        file("tables/demo/invented-refrigerant.csv"),
        "temperature_F;pressure_psi_abs\n-20;12\n0;20\n20;33\n40;50\n60;72\n80;101\n".to_owned(),
    ];
    let valid = borrowed(&valid);
    let critical = (Temperature::from_celsius(99.0), Pressure::from_kpa(3900.0));
    let mut fitted = 0;
    for case in cases(200) {
        let text = odd_text(&mut random(case), &valid);
        if let Ok(rows) = read_table(&text, "temperature_C", "pressure_kPa_abs") {
            assert!(rows.iter().all(|(t, p)| t.kelvin().is_finite() && p.pa().is_finite()), "case {case}: {text}");
        }
        let Ok(table) = SaturationTable::read(&text, "pressure") else { continue };
        let known = Fitting::with_critical_point(critical.0, critical.1, source);
        let unknown = Fitting::without_critical_point(critical.0, source).without_misfits();
        for fitting in [known, unknown] {
            let Ok(fit) = fitting.fit(&table) else { continue };
            fitted += 1;
            let numbers = [fit.condition, fit.scatter].into_iter().chain(fit.rows.iter().map(|row| row.relative));
            assert!(numbers.into_iter().all(f64::is_finite), "case {case}: {text}");
            for celsius in [-40.0, 20.0, 90.0] {
                if let Ok(p) = fit.measured_at(Temperature::from_celsius(celsius)) {
                    assert!(
                        p.value().pa().is_finite() && p.standard_uncertainty().pa().is_finite(),
                        "case {case}: {text}"
                    );
                }
            }
            assert!(fit.questions().len() < 1000);
        }
    }
    assert!(fitted > 50, "{fitted} fitted");
}

/// Texts that JSON holds in our types.
const TEXTS: [&str; 12] = [
    "30 °C",
    "220000 Pa",
    "303.15 K",
    "0.55 of 1",
    "R-134a",
    "low-side",
    "undercharge",
    "satline-reading-6",
    "running",
    "digital",
    "500 g",
    "<b>&\"",
];

/// A valid value of each type that a request, a file or an app may hold.
fn valid_values() -> Vec<Value> {
    let r = Refrigerant::R134a;
    let asked = Diagnosis::of(r).low("22 psi").unwrap().high("160 psi").unwrap().ambient("86 °F").unwrap().circuits(8);
    let asked = asked.humidity("55 %").unwrap().found(Observation::ALL[0]);
    let asked = asked.baseline("77 °F, 60 %: 25 to 30 psi, 175 to 213 psi".parse().unwrap());
    let asked = asked.recovered(RecoveredCharge::new(Mass::from_g(400.0), Mass::from_g(500.0)).unwrap());
    let diagnosis = asked.run().unwrap();
    let inspection = diagnosis.inspection();
    let sample = Sample {
        vent: Some(Temperature::from_celsius(10.0)),
        ..Sample::gauges(Time::from_seconds(1.0), GaugePressure::from_bar(2.0), GaugePressure::from_bar(13.0))
    };
    let exact = Measured::exact(Pressure::from_kpa(300.0)).unwrap();
    let mut values = vec![
        json!(diagnosis.entry()),
        json!(diagnosis.instruments()),
        json!(inspection),
        json!(inspection.first()),
        json!(inspection.first().conditions()),
        json!(inspection.recovered()),
        json!(inspection.baselines()),
        json!(inspection.baselines()[0]),
        json!(inspection.kinds()),
        json!(Settings::TEST),
        json!(diagnosis.posterior()),
        json!(diagnosis.advice()),
        json!(diagnosis.log_row()),
        json!(Prior::workshop()),
        json!(sample),
        json!(exact),
        json!({ "low": "1 bar", "high": "2 bar" }),
        json!(Range::new(Pressure::from_bar(1.0), Pressure::from_bar(2.0))),
        json!(job()),
    ];
    let slip = Diagnosis::of(r).low("2.2 psi").unwrap().high("13 psi").unwrap();
    values.extend(slip.questions().unwrap().iter().map(|question| json!(question)));
    let mut trace = Trace::new(PressureDifference::from_bar(0.1), PressureDifference::from_bar(0.3)).unwrap();
    for second in 0..400 {
        // steady, a gap, and a jump
        let (time, high) = if second < 200 { (second, 13.0) } else { (second + 900, 17.0) };
        let bar = GaugePressure::from_bar;
        trace.push(&Sample::gauges(Time::from_seconds(f64::from(time)), bar(2.0), bar(high))).unwrap();
    }
    values.extend(trace.finish().unwrap().iter().map(|finding| json!(finding)));
    values.extend(PAGES.iter().map(|page| committed(page)));
    values
}

/// A job with something in every field that may be left out but the rule of the compressor.
fn job() -> Job {
    let replaced = |part| PartReplacement { part, makers: None, drained: Some(Volume::from_cm3(10.0)) };
    Job {
        oil: Some("150 cm³ (5.1 fl oz)".parse().unwrap()),
        oil_kind: Some("PAG 46".parse().unwrap()),
        compressor: Some(CompressorReplacement { supplied: None, drained: None, rule: None }),
        parts: vec![replaced(ReplacedPart::Condenser)],
        recovered_oil: Some(Volume::from_cm3(5.0)),
        open_for: Some(Time::from_hours(3.0)),
        hose: Some(Volume::from_cm3(40.0)),
        ambient: Some(Temperature::from_celsius(25.0)),
        humidity: Some(Ratio::from_percent(50.0)),
        altitude: Some(Length::from_m(300.0)),
        ..Job::new(Refrigerant::R134a, "550 g ± 15 g".parse().unwrap(), CompressorDrive::Belt)
    }
}

/// Committed reports of every kind.
const PAGES: [&str; 7] = [
    "examples/read_gauges/demo.json",
    "examples/read_gauges/r744.json",
    "examples/read_gauges/at_rest.json",
    "examples/read_gauges/own.json",
    "examples/job_sheet/demo.json",
    "examples/hold_test.json",
    "examples/watch_log.json",
];

/// Whatever JSON is read as one of our types is one, is written as it was read, and can be worked with.
#[test]
fn json_of_every_type() {
    let valid = valid_values();
    let mut read = [0; 22];
    for case in cases(3_000) {
        let text = odd_json(&mut random(case), &valid, &TEXTS);
        let mut count = |at: usize, is_some: bool| read[at] += u64::from(is_some);
        count(
            0,
            comes_back_from_json::<Entry>(&text).is_some_and(|entry| {
                answered(&entry, Refrigerant::R134a, case);
                true
            }),
        );
        count(1, comes_back_from_json::<Instruments>(&text).is_some());
        count(2, comes_back_from_json::<Inspection>(&text).is_some());
        count(3, comes_back_from_json::<Reading>(&text).is_some());
        count(4, comes_back_from_json::<Conditions>(&text).is_some());
        count(5, comes_back_from_json::<RecoveredCharge>(&text).is_some());
        count(6, comes_back_from_json::<Baseline>(&text).is_some());
        count(7, comes_back_from_json::<Settings>(&text).is_some());
        count(8, comes_back_from_json::<Posterior>(&text).is_some());
        count(9, comes_back_from_json::<Advice>(&text).is_some());
        count(10, comes_back_from_json::<LogRow>(&text).is_some());
        count(11, comes_back_from_json::<Prior>(&text).is_some());
        count(
            12,
            comes_back_from_json::<Sample>(&text).is_some_and(|sample| {
                let mut trace =
                    Trace::new(PressureDifference::from_bar(0.1), PressureDifference::from_bar(0.3)).unwrap();
                let _ = trace.push(&sample);
                trace.finish().is_ok()
            }),
        );
        count(13, comes_back_from_json::<Measured<Pressure>>(&text).is_some());
        count(14, comes_back_from_json::<Range<Pressure>>(&text).is_some());
        count(
            15,
            comes_back_from_json::<Report>(&text).is_some_and(|report| {
                pages_of(&report, case);
                true
            }),
        );
        count(
            16,
            comes_back_from_json::<JobReport>(&text).is_some_and(|report| {
                assert!(!report.text(60).is_empty() && !report.page().html().is_empty(), "case {case}");
                true
            }),
        );
        count(
            17,
            comes_back_from_json::<HoldReport>(&text).is_some_and(|report| {
                assert!(!report.text(60).is_empty() && !report.page().html().is_empty(), "case {case}");
                true
            }),
        );
        count(18, comes_back_from_json::<TraceRow>(&text).is_some_and(|row| !row.text(60).is_empty()));
        count(19, comes_back_from_json::<TraceFinding>(&text).is_some());
        count(20, comes_back_from_json::<UnitQuestion>(&text).is_some());
        count(
            21,
            comes_back_from_json::<Job>(&text).is_some_and(|job| {
                let units = DisplayUnits::new(PressureUnit::Bar, TemperatureUnit::Celsius);
                if let Ok(sheet) = report::job(&job, &ChartSet::new(job.refrigerant).unwrap(), None, &units) {
                    let written = serde_json::to_string(&sheet).unwrap();
                    assert!(comes_back_from_json::<JobReport>(&written).is_some(), "case {case}: {written}");
                    assert!(!sheet.text(60).contains("NaN"), "case {case}: {text}");
                }
                true
            }),
        );
    }
    // or there would be nothing to this test
    assert!(read.iter().all(|&read| read > 0), "{read:?}");
}
