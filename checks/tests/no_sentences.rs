//! JSON holds ids with arguments, and no sentence that the library words.
//!
//! Two rules, neither of which guesses. Every text that a schema leaves free, so that it is no id, is listed in [`FREE`] with what
//! stands in it. And no text of a committed page contains what the modules of `report::words` write: their string literals, cut at
//! the places of arguments, from [`LEAST_WORDS`] words on.

use std::collections::BTreeSet;

use proc_macro2::{TokenStream, TokenTree};
use serde_json::{Deserializer, Value};

use crate::source::{files, root};

/// Words from which on a literal is more than a term: our choice, as `no fault` and `low side` are names of ids in English.
const LEAST_WORDS: usize = 3;

/// What stands in a text that is no id.
#[derive(Debug, Clone, Copy, PartialEq)]
enum Kind {
    /// Symbol of a unit.
    Unit,
    /// A work, its locator, or a remark of it in its own words.
    Source,
    /// As typed, or as printed on a label.
    Typed,
    /// Designation of a refrigerant, of an oil, of a standard; id of a judged quantity.
    Designation,
    /// Name of an instrument, whoever named it.
    Instrument,
}

/// The texts that schemas leave free: the type and its field, and what stands in it.
const FREE: &[(&str, Kind)] = &[
    ("AcceptanceRow.source", Kind::Source),
    ("AirSource.entered", Kind::Typed),
    ("Amount.unit", Kind::Unit),
    ("BesideRow.printed", Kind::Typed),
    ("ChartBandRow.chart", Kind::Source),
    ("ChartBandRow.system", Kind::Source),
    ("CircuitKind.refrigerant", Kind::Designation),
    ("Comparison.refrigerant", Kind::Designation),
    ("FigureRow_of_FitFigure.unit", Kind::Unit),
    ("FigureRow_of_LogFigure.unit", Kind::Unit),
    ("FigureRow_of_LogQuantity.unit", Kind::Unit),
    ("FigureRow_of_Observed.unit", Kind::Unit),
    ("GasFlow.refrigerant", Kind::Designation),
    ("HoldOpening.gauge_limit", Kind::Typed),
    ("HoldReport.sources", Kind::Source),
    ("InstrumentRow.name", Kind::Instrument),
    ("JobOpening.charge", Kind::Typed),
    ("JobOpening.oil", Kind::Typed),
    ("JobOpening.oil_kind", Kind::Designation),
    ("JobReport.refrigerant", Kind::Designation),
    ("JobReport.sources", Kind::Source),
    ("JudgedQuantity", Kind::Designation),
    ("LabelStatement.printed", Kind::Typed),
    ("Opening.ambient", Kind::Typed),
    ("Opening.humidity", Kind::Typed),
    ("PrintRow.pattern", Kind::Source),
    ("Report.refrigerant", Kind::Designation),
    ("SourceRow.source", Kind::Source),
    ("SourceTopic.chart", Kind::Source),
    ("SourceTopic.system", Kind::Source),
    ("Span.unit", Kind::Unit),
    ("StepTask.oil", Kind::Designation),
    ("StepTask.standard", Kind::Designation),
    ("UnitQuestion.entered", Kind::Typed),
    ("UnitQuestion.instead", Kind::Typed),
    ("WorkRow.remark", Kind::Source),
    ("WorkRow.work", Kind::Source),
];

/// The fields of `schema` whose value may be any text, as `Type.field`; `name` is the type.
fn free_texts(name: &str, schema: &Value, found: &mut BTreeSet<String>) {
    let is_text = |part: &Value| {
        let text =
            part["type"] == "string" || part["type"].as_array().is_some_and(|kinds| kinds.contains(&"string".into()));
        text && part.get("const").is_none() && part.get("enum").is_none()
    };
    for (field, part) in schema["properties"].as_object().into_iter().flatten() {
        let one_of = part["anyOf"].as_array().is_some_and(|variants| variants.iter().any(is_text));
        if is_text(part) || is_text(&part["items"]) || one_of {
            found.insert(format!("{name}.{field}"));
        }
    }
    for part in ["oneOf", "anyOf", "allOf"] {
        let variants = schema[part].as_array().into_iter().flatten();
        variants.for_each(|variant| free_texts(name, variant, found));
    }
    // a type that is a text itself
    if is_text(schema) {
        found.insert(name.to_owned());
    }
}

/// The free texts of every committed schema.
fn all_free_texts() -> BTreeSet<String> {
    let mut found = BTreeSet::new();
    for (file, text) in files(&root().join("schema"), "json") {
        let schema: Value = serde_json::from_str(&text).unwrap();
        let title = schema["title"].as_str().unwrap_or_else(|| panic!("schema/{file} has no title"));
        free_texts(title, &schema, &mut found);
        for (name, part) in schema["$defs"].as_object().into_iter().flatten() {
            free_texts(name, part, &mut found);
        }
    }
    found
}

/// The string literals of `tokens`; those of attributes, documentation among them, are passed over.
pub fn literals(tokens: TokenStream, found: &mut Vec<String>) {
    let mut attribute = false;
    for token in tokens {
        match token {
            TokenTree::Punct(mark) if mark.as_char() == '#' => attribute = true,
            TokenTree::Group(_) if attribute => attribute = false,
            TokenTree::Group(group) => literals(group.stream(), found),
            TokenTree::Literal(literal) => {
                attribute = false;
                if let Ok(text) = syn::parse_str::<syn::LitStr>(&literal.to_string()) {
                    found.push(text.value());
                }
            }
            TokenTree::Ident(_) | TokenTree::Punct(_) => attribute = false,
        }
    }
}

/// A text of a format string without its arguments.
fn pieces(text: &str) -> impl Iterator<Item = String> {
    let outside = text.split('{').map(|part| part.split_once('}').map_or(part, |(_, rest)| rest));
    outside.map(|piece| piece.split_whitespace().collect::<Vec<_>>().join(" "))
}

fn words(text: &str) -> usize {
    text.split_whitespace().filter(|word| word.contains(char::is_alphabetic)).count()
}

/// What the languages write, piece by piece.
fn written() -> BTreeSet<String> {
    let mut found = Vec::new();
    for (name, text) in files(&root().join("src/report/words"), "rs") {
        if text.contains("#![cfg(test)]") {
            continue;
        }
        // the tests of a file stand at its end
        let code = text.split("#[cfg(test)]").next().unwrap_or_default();
        literals(code.parse().unwrap_or_else(|error| panic!("src/report/words/{name}: {error}")), &mut found);
    }
    found.iter().flat_map(|text| pieces(text)).filter(|piece| words(piece) >= LEAST_WORDS).collect()
}

/// The texts of a JSON value.
fn texts<'a>(value: &'a Value, found: &mut Vec<&'a str>) {
    match value {
        Value::String(text) => found.push(text),
        Value::Array(items) => items.iter().for_each(|item| texts(item, found)),
        Value::Object(fields) => fields.values().for_each(|field| texts(field, found)),
        Value::Null | Value::Bool(_) | Value::Number(_) => {}
    }
}

/// The texts of `page` that contain a piece of what the languages write.
fn sentences<'a>(page: &'a Value, written: &BTreeSet<String>) -> Vec<&'a str> {
    let mut all = Vec::new();
    texts(page, &mut all);
    all.retain(|text| words(text) >= LEAST_WORDS && written.iter().any(|piece| text.contains(piece)));
    all
}

#[test]
fn every_text_of_a_schema_is_an_id_or_listed() {
    let listed: BTreeSet<String> = FREE.iter().map(|(field, _)| (*field).to_owned()).collect();
    assert_eq!(listed.len(), FREE.len(), "a field is listed twice");
    let found = all_free_texts();
    let unlisted: Vec<_> = found.difference(&listed).collect();
    let gone: Vec<_> = listed.difference(&found).collect();
    assert!(unlisted.is_empty() && gone.is_empty(), "no ids and not listed: {unlisted:#?}\nlisted and gone: {gone:#?}");
    for (field, kind) in FREE {
        assert_eq!(field.ends_with(".unit"), *kind == Kind::Unit, "{field}");
    }
}

#[test]
fn no_page_in_json_holds_a_sentence() {
    let written = written();
    assert!(written.len() > 1000, "{} pieces: are the languages read?", written.len());
    let mut pages = 0;
    for (path, text) in files(&root().join("examples"), "json") {
        for page in Deserializer::from_str(&text).into_iter::<Value>() {
            let page = page.unwrap_or_else(|error| panic!("examples/{path}: {error}"));
            assert_eq!(sentences(&page, &written), [""; 0], "examples/{path}");
            pages += 1;
        }
    }
    assert!(pages > 7, "{pages}");
}

#[test]
fn a_sentence_in_a_page_is_found() {
    let written = written();
    let page = serde_json::json!({"words": ["undercharge", "Hold test: 25 readings over 30.0 min, from 410 to 2320 micron absolute."]});
    assert!(sentences(&page, &BTreeSet::from(["low side psi".to_owned()])).is_empty());
    let told = serde_json::json!({"cautions": ["Goggles and gloves wherever a line is opened: oil may still give off refrigerant."]});
    assert_eq!(sentences(&told, &written).len(), 1);
    let spanish = serde_json::json!({"next": [{"text": "Aísle la bomba en los manómetros, deje que se igualen las temperaturas y empiece de nuevo."}]});
    assert_eq!(sentences(&spanish, &written).len(), 1);
    let schema = serde_json::json!({"properties": {"id": {"const": "drain", "type": "string"}, "words": {"type": "array", "items": {"type": "string"}},
        "side": {"enum": ["low"], "type": "string"}, "remark": {"type": ["string", "null"]}}});
    let mut found = BTreeSet::new();
    free_texts("Step", &schema, &mut found);
    assert_eq!(found.into_iter().collect::<Vec<_>>(), ["Step.remark", "Step.words"]);
}
