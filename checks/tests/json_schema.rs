//! Every committed page in JSON is valid by its schema, and the schemas refuse what they do not know.

use std::collections::BTreeMap;

use serde_json::{Deserializer, Value, json};

use crate::source::{files, root};

/// A page and where it stands.
struct Page {
    path: String,
    json: Value,
}

/// The pages below `examples`: files of one page, and files of a page a line.
fn pages() -> Vec<Page> {
    let mut pages = Vec::new();
    for (path, text) in files(&root().join("examples"), "json") {
        for json in Deserializer::from_str(&text).into_iter() {
            let json = json.unwrap_or_else(|error| panic!("examples/{path}: {error}"));
            pages.push(Page { path: format!("examples/{path}"), json });
        }
    }
    pages
}

/// The committed schemas by the name that a page gives in its field `schema`.
fn schemas() -> BTreeMap<String, Value> {
    let schemas = files(&root().join("schema"), "json").into_iter();
    schemas
        .map(|(name, text)| (name.trim_end_matches(".json").to_owned(), serde_json::from_str(&text).unwrap()))
        .collect()
}

/// What is wrong with a page by its schema, as sentences.
fn wrong(schema: &Value, page: &Value) -> Vec<String> {
    let validator = jsonschema::validator_for(schema).unwrap_or_else(|error| panic!("{error}"));
    validator.iter_errors(page).map(|error| format!("{}: {error}", error.instance_path())).collect()
}

/// Every value inside `value` that `which` holds of, by its path.
fn paths(value: &Value, path: &str, which: fn(&Value) -> bool, found: &mut Vec<String>) {
    match value {
        Value::Object(fields) => {
            fields.iter().for_each(|(name, inner)| paths(inner, &format!("{path}/{name}"), which, found))
        }
        Value::Array(items) => {
            items.iter().enumerate().for_each(|(i, inner)| paths(inner, &format!("{path}/{i}"), which, found))
        }
        _ => {}
    }
    if which(value) {
        found.push(path.to_owned());
    }
}

/// The objects of a schema that take fields they do not name, by their path.
fn open_objects(schema: &Value) -> Vec<String> {
    let open = |part: &Value| {
        let kinds = &part["type"];
        let object = kinds == "object" || kinds.as_array().is_some_and(|kinds| kinds.contains(&json!("object")));
        (object || part["properties"].is_object()) && part["additionalProperties"] != json!(false)
    };
    let mut found = Vec::new();
    paths(schema, "", open, &mut found);
    found
}

#[test]
fn every_page_is_valid_by_its_schema() {
    let schemas = schemas();
    let pages = pages();
    for Page { path, json } in &pages {
        let name = json["schema"].as_str().unwrap_or_else(|| panic!("{path} names no schema"));
        let schema = schemas.get(name).unwrap_or_else(|| panic!("{path}: schema/{name}.json is missing"));
        assert_eq!(wrong(schema, json), [""; 0], "{path}");
    }
    for name in schemas.keys() {
        assert!(
            pages.iter().any(|page| page.json["schema"] == name.as_str()),
            "no page below examples is of schema {name}"
        );
    }
}

#[test]
fn every_schema_is_one_of_the_library_and_valid_itself() {
    let schemas = schemas();
    let mut written: Vec<_> = satline::report::json_schemas().into_iter().map(|(name, _)| name.to_string()).collect();
    written.sort();
    assert_eq!(schemas.keys().cloned().collect::<Vec<_>>(), written);
    for (name, schema) in &schemas {
        jsonschema::meta::validate(schema).unwrap_or_else(|error| panic!("schema/{name}.json: {error}"));
        assert_eq!(schema["properties"]["schema"]["const"], name.as_str());
        assert_eq!(open_objects(schema), [""; 0], "schema/{name}.json");
    }
}

#[test]
fn a_page_with_an_unknown_field_or_another_version_is_refused() {
    let schemas = schemas();
    for Page { path, json } in pages() {
        let schema = &schemas[json["schema"].as_str().unwrap()];
        let validator = jsonschema::validator_for(schema).unwrap();
        let mut objects = Vec::new();
        paths(&json, "", Value::is_object, &mut objects);
        assert!(objects.len() > 3, "{path}: {objects:?}");
        for object in objects {
            let mut odd = json.clone();
            odd.pointer_mut(&object).unwrap()["colour"] = json!("blue");
            assert!(!validator.is_valid(&odd), "{path}{object} takes a field that no schema knows");
        }
        let mut odd = json.clone();
        odd["schema"] = json!("blue");
        assert!(wrong(schema, &odd).concat().contains("/schema: "), "{path}");
        odd.as_object_mut().unwrap().remove("schema");
        assert!(wrong(schema, &odd).concat().contains("\"schema\" is a required property"), "{path}");
    }
}

#[test]
fn a_page_is_read_without_its_types() {
    let page = |path: &str| pages().into_iter().find(|page| page.path == path).unwrap().json;
    let words = |page: &Value| {
        let gauges = page["gauges"].as_array().unwrap().iter().map(|row| {
            let (side, unit) = (row["side"].as_str().unwrap(), row["gauge"]["unit"].as_str().unwrap());
            let decimals = row["gauge"]["decimals"].as_u64().unwrap() as usize;
            format!("{side} {:.decimals$} {unit}", row["gauge"]["value"].as_f64().unwrap())
        });
        let causes = page["causes"]["causes"].as_array().unwrap();
        let probability = |row: &Value| row["marginal_probability"].as_f64().unwrap();
        let first = causes.iter().max_by(|a, b| probability(a).total_cmp(&probability(b))).unwrap();
        let percent = 100.0 * probability(first);
        format!("{}; {} {percent:.0} %", gauges.collect::<Vec<_>>().join(", "), first["id"].as_str().unwrap())
    };
    let demo = page("examples/read_gauges/demo.json");
    assert_eq!(demo["refrigerant"], "R-134a");
    assert_eq!(words(&demo), "low 22.0 psi, high 160.0 psi; undercharge 98 %");
    let low_side = words(&page("examples/read_gauges/low_side.json"));
    assert!(low_side.starts_with("low 22.0 psi; "), "{low_side}");
}

#[test]
fn a_wrong_page_and_an_open_object_are_found() {
    let schema = json!({
        "type": "object", "additionalProperties": false, "required": ["value"],
        "properties": {"value": {"type": "number"}, "unit": {"type": ["object", "null"], "properties": {}, "additionalProperties": false}},
    });
    assert_eq!(wrong(&schema, &json!({"value": 1.0, "unit": null})), [""; 0]);
    assert_eq!(wrong(&schema, &json!({"value": "1 psi"})).len(), 1);
    assert_eq!(wrong(&schema, &json!({"unit": {}})).len(), 1);
    assert_eq!(open_objects(&schema), [""; 0]);
    let mut open = schema.clone();
    open["properties"]["unit"].as_object_mut().unwrap().remove("additionalProperties");
    assert_eq!(open_objects(&open), ["/properties/unit"]);
    open["additionalProperties"] = json!({"type": "string"});
    assert_eq!(open_objects(&open), ["/properties/unit", ""]);
}
