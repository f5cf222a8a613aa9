//! JSON reports: their schemas, there and back, and what is refused. `checks/` holds the committed pages to their schemas.

use satline::report::{FindingRow, HoldReport, JobReport, Report};
use serde_json::{Value, json};

use crate::support::root;
#[cfg(feature = "schema")]
use crate::support::same_as_file;

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
const PAGES: [(&str, &str, Again); 7] = [
    ("examples/read_gauges/demo.json", "schema/satline-reading-4.json", again::<Report>),
    ("examples/read_gauges/r744.json", "schema/satline-reading-4.json", again::<Report>),
    ("examples/read_gauges/at_rest.json", "schema/satline-reading-4.json", again::<Report>),
    ("examples/read_gauges/low_side.json", "schema/satline-reading-4.json", again::<Report>),
    ("examples/job_sheet/demo.json", "schema/satline-job-2.json", again::<JobReport>),
    ("examples/hold_test.json", "schema/satline-hold-2.json", again::<HoldReport>),
    ("examples/watch_log.json", "schema/satline-trace-1.json", again::<FindingRow>),
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

/// Every object inside `value`, by its path.
fn objects(value: &Value, path: String, found: &mut Vec<String>) {
    match value {
        Value::Object(fields) => {
            fields.iter().for_each(|(name, inner)| objects(inner, format!("{path}/{name}"), found));
            found.push(path);
        }
        Value::Array(items) => {
            items.iter().enumerate().for_each(|(i, inner)| objects(inner, format!("{path}/{i}"), found));
        }
        _ => {}
    }
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
            let error = again(&odd).unwrap_err();
            assert!(error.contains("unknown field `colour`, expected"), "{page}{path}: {error}");
        }
    }
}

#[test]
fn another_version_is_refused_and_says_which_is_read() {
    let mut odd = committed("examples/read_gauges/demo.json");
    odd["schema"] = json!("satline-reading-9");
    assert_eq!(
        again::<Report>(&odd).unwrap_err(),
        "schema \"satline-reading-9\" is not \"satline-reading-4\", which this version of satline reads"
    );
    odd["schema"] = json!("satline-hold-2");
    assert!(again::<Report>(&odd).is_err());
    odd["schema"] = json!("satline-reading-4");
    odd["gauges"][0]["gauge"].as_object_mut().unwrap().remove("unit");
    assert!(again::<Report>(&odd).unwrap_err().contains("missing field `unit`"));
    // digits that no page has room for are refused, not written
    let mut odd = committed("examples/read_gauges/demo.json");
    odd["gauges"][0]["gauge"]["decimals"] = json!(100_000);
    assert!(again::<Report>(&odd).is_err());
}
