//! What bindings pass on, compared with the library itself and with the pages of its example. The files of requests, refusals and
//! properties are read by the tests of other bindings too.

mod any_text;
#[path = "../../../tests/odd/mod.rs"]
mod odd;

use std::path::Path;

use satline::{GaugePressure, Length, Line, Pressure, Refrigerant, Temperature, air};
use satline_json::{Session, names, properties};
use serde_json::{Value, json};

fn read(path: &str) -> String {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join(path);
    std::fs::read_to_string(&path).unwrap_or_else(|error| panic!("{}: {error}", path.display()))
}

fn list(path: &str) -> Vec<Value> {
    serde_json::from_str(&read(path)).unwrap_or_else(|error| panic!("{path}: {error}"))
}

/// A request as text: one that is no JSON stands in the file as a text.
fn text(request: &Value) -> String {
    request.as_str().map_or_else(|| request.to_string(), str::to_owned)
}

#[test]
fn a_report_is_what_the_example_prints_byte_for_byte() {
    let mut session = Session::default();
    for name in ["demo", "low_side", "at_rest", "r744", "own"] {
        let report = session.report(&read(&format!("tests/requests/{name}.json"))).unwrap();
        let printed = read(&format!("../../examples/read_gauges/{name}.json"));
        assert!(report == printed, "{name} differs");
    }
}

#[cfg(feature = "page")]
#[test]
fn a_page_has_the_conclusion_and_every_caution_in_both_languages() {
    let mut session = Session::default();
    let request: Value = serde_json::from_str(&read("tests/requests/demo.json")).unwrap();
    for (language, tag, safety) in [("english", "en", "goggles and gloves"), ("spanish", "es", "guantes")] {
        for whole in [false, true] {
            let question = json!({ "request": request, "language": language, "whole": whole });
            let page = session.page(&question.to_string()).unwrap();
            assert!(page.contains(&format!("<html lang=\"{tag}\">")) && page.contains(safety), "{language}");
            assert!(page.contains("<p class=\"answer bad\">✗ "), "{language}");
            // sources are on the whole page alone
            assert_eq!(page.contains("class=\"fine\""), whole, "{language}");
        }
    }
    let wrong =
        json!({ "request": { "refrigerant": "R-134a", "values": { "low-side": "220 kPa", "high-side": "13 kPa" } } });
    assert_eq!(session.page(&wrong.to_string()).unwrap_err().code, "sides-reversed");
}

#[test]
fn a_refusal_names_its_code_and_the_input_it_is_about() {
    let mut session = Session::default();
    let refusals = list("tests/refusals.json");
    assert_eq!(refusals.len(), 44, "cases were lost or added");
    for case in refusals {
        let refusal = session.report(&text(&case["request"])).expect_err(&case.to_string());
        assert_eq!(
            (json!(refusal.code), json!(refusal.input)),
            (case["code"].clone(), case["input"].clone()),
            "{refusal}"
        );
        let written: Value = serde_json::from_str(&refusal.to_json()).unwrap();
        assert_eq!((&written["code"], &written["input"]), (&case["code"], &case["input"]));
        assert_eq!(written["message"], json!(refusal.to_string()));
    }
    // a number that fits in another unit
    let slip = json!({ "refrigerant": "R-134a", "values": { "low-side": "220 psi" }, "ambient": "30 °C" });
    let refusal = session.report(&slip.to_string()).unwrap_err();
    assert_eq!(serde_json::to_value(&refusal.questions).unwrap()[0]["instead"], "220 kPa", "{refusal}");
}

/// The answers that are kept in the file, for bindings that cannot call the library itself.
#[test]
fn properties_are_those_of_the_scalar_functions() {
    let kept = list("tests/properties.json");
    let answered: Vec<Value> = kept
        .iter()
        .map(|case| {
            let answer = properties(&case["question"].to_string()).unwrap();
            json!({ "question": case["question"], "answer": serde_json::from_str::<Value>(&answer).unwrap() })
        })
        .collect();
    if std::env::var_os("SATLINE_UPDATE").is_some() {
        let lines: Vec<String> = answered.iter().map(|case| format!("  {case}")).collect();
        let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/properties.json");
        std::fs::write(path, format!("[\n{}\n]\n", lines.join(",\n"))).unwrap();
    } else {
        assert_eq!(answered, kept, "run the tests once with SATLINE_UPDATE=1 if the change is meant");
    }
    let answer = |at: usize, field: &str| answered[at]["answer"][field].as_f64();

    let r134a = Refrigerant::R134a;
    let warm = Temperature::from_fahrenheit(86.0);
    assert_eq!(answer(0, "dew_pressure_pa"), Some(r134a.saturation_pressure(warm).unwrap().pa()));
    assert_eq!(
        answer(1, "bubble_pressure_pa"),
        Some(r134a.bubble_pressure(Temperature::from_kelvin(303.15)).unwrap().pa())
    );

    let low = GaugePressure::from_psi(32.0);
    let at_sea = low.absolute(air::pressure_at(Length::from_m(0.0)).unwrap().value());
    let boiling = Refrigerant::R1234yf.saturation_temperature(at_sea).unwrap();
    assert_eq!(answer(2, "dew_temperature_k"), Some(boiling.kelvin()));
    let three_bar = Refrigerant::R1234yf.saturation_temperature(Pressure::from_pa(3e5)).unwrap();
    assert_eq!(answer(3, "dew_temperature_k"), Some(three_bar.kelvin()));

    let on_hill = low.absolute(air::pressure_at(Length::from_m(300.0)).unwrap().value());
    let suction = Line::new(r134a, on_hill, Temperature::from_fahrenheit(48.0)).unwrap();
    assert_eq!(answer(4, "superheat_k"), Some(suction.superheat().unwrap().value().kelvins()));

    let by_barometer = GaugePressure::from_bar(13.0).absolute(Pressure::from_kpa(99.0));
    let liquid = Line::new(r134a, by_barometer, Temperature::from_celsius(40.0)).unwrap();
    let subcooling = liquid.subcooling().unwrap().value().kelvins();
    assert!(
        (answer(5, "subcooling_k").unwrap() - subcooling).abs() < 1e-9,
        "13 bar by way of bar, and pascal: rounding"
    );

    let blend = Line::new(Refrigerant::R407C, Pressure::from_kpa(500.0), Temperature::from_kelvin(280.0)).unwrap();
    let saturation = blend.saturation().unwrap();
    assert_eq!(answer(6, "bubble_temperature_k"), Some(saturation.bubble.value().kelvin()));
    assert!(answer(6, "bubble_temperature_k") < answer(6, "dew_temperature_k"), "a blend boils over a range");

    // above the critical point there is neither
    assert_eq!((answer(7, "superheat_k"), answer(7, "subcooling_k")), (None, None));
}

#[test]
fn a_question_about_properties_is_refused_with_its_input() {
    for (question, code, input) in [
        (json!({ "refrigerant": "R-134a" }), "missing", None),
        (json!({ "refrigerant": "R-13", "temperature": 280 }), "unknown-refrigerant", Some("refrigerant")),
        (
            json!({ "refrigerant": "R-134a", "temperature": "150 °C" }),
            "above-critical-temperature",
            Some("temperature"),
        ),
        (json!({ "refrigerant": "R-134a", "absolute": "60 bar" }), "supercritical", Some("absolute")),
        (json!({ "refrigerant": "R-134a", "gauge": -200_000 }), "below-vacuum", Some("gauge")),
        (json!({ "refrigerant": "R-134a", "gauge": "2 bar", "absolute": "3 bar" }), "twice", Some("absolute")),
        (json!({ "refrigerant": "R-134a", "gauge": "2 bar", "altitude": "99999 m" }), "implausible", Some("altitude")),
        (json!({ "refrigerant": "R-134a", "gauge": "2 bar", "barometer": 1 }), "implausible", Some("barometer")),
        (json!({ "refrigerant": "R-134a", "absolute": 0, "temperature": 280 }), "impossible", Some("absolute")),
        (json!({ "refrigerant": "R-134a", "absolute": "3 bar", "temperature": -5 }), "impossible", Some("temperature")),
        (json!({ "refrigerant": "R-134a", "temperature": true }), "invalid-json", None),
    ] {
        let refusal = properties(&question.to_string()).expect_err(&question.to_string());
        assert_eq!((refusal.code, refusal.input.as_deref()), (code, input), "{question}: {refusal}");
    }
}

#[test]
fn names_are_those_of_the_library() {
    let names: Value = serde_json::from_str(&names()).unwrap();
    assert_eq!(names["refrigerants"].as_array().unwrap().len(), Refrigerant::ALL.len());
    assert_eq!((&names["measurands"][0], &names["observations"][0]), (&json!("low-side"), &json!("bubbles")));
}
