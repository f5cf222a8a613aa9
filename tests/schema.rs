//! JSON reports: their schemas, there and back, and what is refused. `checks/` holds the committed pages to their schemas.

use satline::report::{Amount, Comparison, HoldReport, JobReport, Report, TraceRow};
use serde_json::{Value, json};

#[cfg(feature = "schema")]
use crate::support::same_as_file;
use crate::support::{objects, root};

fn committed(path: &str) -> Value {
    serde_json::from_str(&std::fs::read_to_string(root().join(path)).unwrap()).unwrap()
}

/// A report read and written again.
fn again<T: serde::de::DeserializeOwned + serde::Serialize>(value: &Value) -> Result<Value, String> {
    let report: T = serde_json::from_value(value.clone()).map_err(|error| error.to_string())?;
    Ok(serde_json::to_value(report).unwrap())
}

type Again = fn(&Value) -> Result<Value, String>;

/// A page of each kind of report, and how it is read and written again.
const PAGES: [(&str, &str, Again); 9] = [
    ("examples/read_gauges/demo.json", "schema/satline-reading-6.json", again::<Report>),
    ("examples/read_gauges/r744.json", "schema/satline-reading-6.json", again::<Report>),
    ("examples/read_gauges/at_rest.json", "schema/satline-reading-6.json", again::<Report>),
    ("examples/read_gauges/low_side.json", "schema/satline-reading-6.json", again::<Report>),
    ("examples/read_gauges/own.json", "schema/satline-reading-6.json", again::<Report>),
    ("examples/job_sheet/demo.json", "schema/satline-job-3.json", again::<JobReport>),
    ("examples/hold_test.json", "schema/satline-hold-3.json", again::<HoldReport>),
    ("examples/watch_log.json", "schema/satline-trace-3.json", again::<TraceRow>),
    ("examples/read_gauges/before.json", "schema/satline-comparison-1.json", again::<Comparison>),
];

#[cfg(feature = "schema")]
#[test]
fn the_schemas_are_made_from_the_types() {
    for (version, schema) in satline::report::json_schemas() {
        same_as_file(format!("schema/{version}.json"), &(serde_json::to_string_pretty(&schema).unwrap() + "\n"));
    }
    for (_, schema, _) in PAGES {
        let version = committed(schema)["properties"]["schema"]["const"].clone();
        assert_eq!(format!("schema/{}.json", version.as_str().unwrap()), schema);
    }
}

#[test]
fn reports_come_back_from_json_as_they_went() {
    for (page, _, again) in PAGES {
        let value = committed(page);
        assert_eq!(again(&value).unwrap_or_else(|error| panic!("{page}: {error}")), value, "{page}");
    }
}

/// The text of a page, read as a report and written again.
fn written_again<T: serde::de::DeserializeOwned + serde::Serialize>(text: &str) -> String {
    serde_json::to_string_pretty(&serde_json::from_str::<T>(text).unwrap()).unwrap() + "\n"
}

/// Without `float_roundtrip` some of these pages came back with another last digit.
#[test]
fn reports_read_from_json_are_written_as_the_same_bytes() {
    let read = |page: &str| std::fs::read_to_string(root().join(page)).unwrap();
    for name in ["demo", "r744", "at_rest", "low_side", "own"] {
        let text = read(&format!("examples/read_gauges/{name}.json"));
        assert_eq!(written_again::<Report>(&text), text, "{name}");
    }
    let (job, hold) = (read("examples/job_sheet/demo.json"), read("examples/hold_test.json"));
    assert_eq!(written_again::<JobReport>(&job), job);
    assert_eq!(written_again::<HoldReport>(&hold), hold);
}

/// Without `float_roundtrip` 20,312 of these 100,000 numbers came back as another: 30 % of any doubles, 11 % of those of the size
/// of readings.
#[test]
fn every_number_comes_back_from_json_as_it_went() {
    let mut random = crate::support::Random(20);
    let mut compared = 0;
    while compared < 100_000 {
        // half of them any finite double, half of the size of readings
        let bits = f64::from_bits(random.bits());
        let value = if compared % 2 == 0 { bits } else { random.spread(1e-6, 1e9) };
        if !value.is_finite() {
            continue;
        }
        let amount = Amount { value, plus_minus: Some(value.abs()), unit: "kPa".into(), decimals: 1 };
        let text = serde_json::to_string(&amount).unwrap();
        let back: Amount = serde_json::from_str(&text).unwrap();
        assert_eq!(back.value.to_bits(), value.to_bits(), "{text}");
        assert_eq!(serde_json::to_string(&back).unwrap(), text);
        compared += 1;
    }
}

#[test]
fn a_report_read_back_reads_the_same() {
    let value = committed("examples/read_gauges/demo.json");
    let report: Report = serde_json::from_value(value).unwrap();
    let page = std::fs::read_to_string(root().join("examples/read_gauges/full.txt")).unwrap();
    assert_eq!(report.text(80), page);
    // of a part of a reading, on one screen
    let report: Report = serde_json::from_value(committed("examples/read_gauges/low_side.json")).unwrap();
    assert_eq!((report.gauges.len(), report.healthy.as_ref().unwrap().rows.len()), (1, 1));
    let page = std::fs::read_to_string(root().join("examples/read_gauges/low_side.txt")).unwrap();
    assert!(page.starts_with(&report.brief().text(80)), "{page}");
}

#[test]
fn a_field_that_is_not_known_is_refused_by_its_name() {
    for (page, _, again) in PAGES {
        let value = committed(page);
        let mut paths = Vec::new();
        objects(&value, String::new(), &mut paths);
        assert!(paths.len() > 3, "{page}: {paths:?}");
        for path in paths {
            let mut odd = value.clone();
            odd.pointer_mut(&path).unwrap()["colour"] = json!("blue");
            let error = again(&odd).map(|_| ()).expect_err(&path);
            // where an id is all there is, nothing else can be expected
            let refused = ["expected", "there are no fields"]
                .map(|rest| error.contains(&format!("unknown field `colour`, {rest}")));
            assert!(refused.contains(&true), "{page}{path}: {error}");
        }
    }
}

#[test]
fn another_version_is_refused_and_says_which_is_read() {
    let mut odd = committed("examples/read_gauges/demo.json");
    odd["schema"] = json!("satline-reading-9");
    assert_eq!(
        again::<Report>(&odd).unwrap_err(),
        "schema \"satline-reading-9\" is not \"satline-reading-6\", which this version of satline reads"
    );
    odd["schema"] = json!("satline-hold-3");
    assert!(again::<Report>(&odd).is_err());
    odd["schema"] = json!("satline-reading-6");
    odd["gauges"][0]["gauge"].as_object_mut().unwrap().remove("unit");
    assert!(again::<Report>(&odd).unwrap_err().contains("missing field `unit`"));
    // digits that no page has room for are refused, not written
    let mut odd = committed("examples/read_gauges/demo.json");
    odd["gauges"][0]["gauge"]["decimals"] = json!(100_000);
    assert!(again::<Report>(&odd).is_err());
}
