//! No text brings a session down: it is answered, or refused with a code and a message. `SATLINE_TEXTS=100` tries a hundred times as many.

use satline::report::Report;
use satline_json::{Refusal, Session, properties};
use serde_json::{Value, json};

use crate::odd::json::odd_json;
use crate::odd::text::{below, cases, odd_bytes, random};
use crate::{list, read, text};

/// Requests that are answered, and requests that are refused.
fn requests() -> Vec<Value> {
    let answered =
        ["demo", "low_side", "at_rest", "r744", "own"].map(|name| read(&format!("tests/requests/{name}.json")));
    let mut requests: Vec<Value> = answered.iter().map(|text| serde_json::from_str(text).unwrap()).collect();
    requests.extend(list("tests/refusals.json").into_iter().map(|case| case["request"].clone()));
    requests.push(json!({
        "refrigerant": "R-1234yf",
        "values": { "low-side": "1.8 bar", "equalised-pressure": "6 bar" },
        "also": [{ "values": { "high-side": "14 bar" }, "settings": { "engine": "idle" } }],
        "ambient": "30 °C", "equalised_temperature": "28 °C", "recovered": "300 g", "nominal_charge": "450 g",
        "found": ["bubbles"], "instruments": "digital", "low_scale": "10 bar", "prior": "uniform", "healthy": "30 %",
        "baselines": ["30 °C: 190 to 240 kPa, 1300 to 1600 kPa"],
    }));
    requests
}

/// Texts that stand in requests.
const TEXTS: [&str; 10] = [
    "22 psi",
    "30 °C",
    "R-134a",
    "low-side",
    "uniform",
    "digital",
    "idle",
    "500 g",
    "30 °C: 190 to 240 kPa, 1300 to 1600 kPa",
    "\0",
];

/// A refusal has a code, a message and JSON that says the same.
fn check(refusal: &Refusal, case: u64, asked: &str) {
    let written: Value =
        serde_json::from_str(&refusal.to_json()).unwrap_or_else(|error| panic!("case {case}: {error}: {asked}"));
    assert_eq!(
        (&written["code"], &written["message"]),
        (&json!(refusal.code), &json!(refusal.message)),
        "case {case}: {asked}"
    );
    assert!(!refusal.code.is_empty() && !refusal.message.is_empty(), "case {case}: {asked}");
    assert!(refusal.code != "not-converged", "case {case}: {refusal}: {asked}");
}

#[test]
fn requests_for_a_report() {
    let valid = requests();
    // circuits are kept for each of the requests that are answered
    let mut sessions: [Session; 3] = Default::default();
    let mut answered = 0;
    for case in cases(80) {
        let mut random = random(case);
        let asked = odd_json(&mut random, &valid, &TEXTS);
        match sessions[below(&mut random, 3)].report(&asked) {
            Ok(report) => {
                answered += 1;
                let read: Report =
                    serde_json::from_str(&report).unwrap_or_else(|error| panic!("case {case}: {error}: {asked}"));
                assert_eq!(serde_json::to_string_pretty(&read).unwrap() + "\n", report, "case {case}: {asked}");
            }
            Err(refusal) => check(&refusal, case, &asked),
        }
    }
    assert!(answered > 0);
}

#[cfg(feature = "page")]
#[test]
fn requests_for_a_page() {
    let valid: Vec<Value> = requests()
        .into_iter()
        .flat_map(|request| {
            ["english", "spanish"].map(|language| json!({ "request": request, "language": language, "whole": true }))
        })
        .collect();
    let mut session = Session::default();
    for case in cases(40) {
        let asked = odd_json(&mut random(case), &valid, &TEXTS);
        match session.page(&asked) {
            Ok(page) => assert!(page.starts_with("<!DOCTYPE html>") && !page.contains("NaN"), "case {case}: {asked}"),
            Err(refusal) => check(&refusal, case, &asked),
        }
    }
}

#[test]
fn questions_about_properties() {
    let mut valid: Vec<Value> =
        list("tests/properties.json").into_iter().map(|case| case["question"].clone()).collect();
    valid.push(json!({ "refrigerant": "R-404A", "temperature": 253.15, "absolute": 2e5 }));
    let mut answered = 0;
    for case in cases(3_000) {
        let asked = odd_json(&mut random(case), &valid, &TEXTS);
        match properties(&asked) {
            Ok(answer) => {
                answered += 1;
                let answer: Value = serde_json::from_str(&answer).unwrap();
                for (name, value) in answer.as_object().unwrap() {
                    // what is not finite is written as null
                    assert!(name == "refrigerant" || value.is_number(), "case {case}: {asked}: {answer}");
                    assert!(!name.ends_with("_pa") || value.as_f64() > Some(0.0), "case {case}: {asked}: {answer}");
                }
            }
            Err(refusal) => check(&refusal, case, &asked),
        }
    }
    assert!(answered > 500, "{answered} answered");
}

/// Text that is no JSON at all.
#[test]
fn bytes() {
    let valid: Vec<String> = requests().iter().map(text).collect();
    let valid: Vec<&str> = valid.iter().map(String::as_str).collect();
    let mut session = Session::default();
    for case in cases(2_000) {
        // what was changed mostly is no request any more
        let asked = String::from_utf8_lossy(&odd_bytes(&mut random(case), &valid)).into_owned() + "]";
        check(&session.report(&asked).unwrap_err(), case, &asked);
        check(&properties(&asked).unwrap_err(), case, &asked);
    }
}
