//! A second language, of ids with arguments: `at-saturation`, `conditions(88 °F)`. It is written outside the library, and everything
//! it says comes from the data of the report.

use std::collections::BTreeSet;

use satline::circuit::CircuitKind;
use satline::diagnosis::{CauseId, Diagnosis, JudgedQuantity, NextStep, Stop, UnitQuestion};
use satline::expected::{EqualisedVerdict, Side};
use satline::inspection::Measurand;
use satline::quantity::Position;
use satline::report::{
    Amount, Block, CauseTexts, Causes, Caution, Furniture, Healthy, Label, Language, Mark, Numerals, Opening, Page,
    Reasons, Report, SourceRow, Statement, Table, Words,
};
use satline::{Error, Refrigerant};
use serde_json::Value;

/// The language of ids.
struct Ids;

/// `id(argument, argument)`.
fn call(id: &str, arguments: impl IntoIterator<Item = String>) -> String {
    format!("{id}({})", arguments.into_iter().collect::<Vec<_>>().join(", "))
}

/// A value of a report: an id as it is, what has an id and arguments as a call.
fn told(value: &impl serde::Serialize) -> String {
    written(&serde_json::to_value(value).unwrap())
}

fn written(value: &Value) -> String {
    match value {
        Value::Null => "none".to_owned(),
        Value::Bool(yes) => if *yes { "yes" } else { "no" }.to_owned(),
        Value::Number(number) => number.to_string(),
        Value::String(text) => text.clone(),
        Value::Array(values) => call("list", values.iter().map(written)),
        Value::Object(fields) => {
            if let Ok(amount) = serde_json::from_value::<Amount>(value.clone()) {
                return amount.to_string();
            }
            let id = fields.get("id").and_then(Value::as_str).unwrap_or("row");
            call(id, fields.iter().filter(|(name, _)| *name != "id").map(|(_, field)| written(field)))
        }
    }
}

/// Text that stays, for the words a language has once.
fn kept(text: String) -> &'static str {
    Box::leak(text.into_boxed_str())
}

/// `AboveCritical` as `above-critical`.
fn kebab(name: &str) -> String {
    let mut out = String::new();
    for c in name.chars() {
        if c.is_uppercase() && !out.is_empty() {
            out.push('-');
        }
        out.extend(c.to_lowercase());
    }
    out
}

impl Words for Ids {
    fn numerals(&self) -> Numerals {
        let (to, open) = ("..", "none");
        Numerals { point: '.', group: None, to, about: "~", over: ">", or_more: ">=", or_less: "<=", open }
    }
    fn furniture(&self) -> Furniture {
        Furniture { tag: "und", translated: "", basis: "basis", mind: "mind", table: "table", pictures: "pictures" }
    }
    fn kind(&self, kind: &CircuitKind) -> String {
        call("kind", [told(kind)])
    }
    fn label(&self, label: Label) -> &'static str {
        kept(call("label", [kebab(&format!("{label:?}"))]))
    }
    fn measurand(&self, measurand: Measurand) -> &'static str {
        kept(call("measurand", [measurand.id().to_owned()]))
    }
    fn quantity(&self, quantity: JudgedQuantity) -> &'static str {
        kept(call("quantity", [told(&quantity)]))
    }
    fn side(&self, side: Side) -> &'static str {
        kept(call("side", [told(&side)]))
    }
    fn position(&self, position: Position) -> &'static str {
        kept(call("position", [told(&position)]))
    }
    fn cause(&self, cause: CauseId) -> CauseTexts {
        // a text that is added later is English until it is worded
        let mut texts = Language::English.cause(cause);
        let text = |of: &str| kept(call(of, [told(&cause)]));
        (texts.name, texts.shows, texts.why) = (text("name"), text("shows"), text("why"));
        (texts.against, texts.next, texts.caution) = (text("against"), text("next"), text("caution"));
        texts
    }
    fn title(&self, report: &Report) -> String {
        call("reading", [report.refrigerant.clone(), told(&report.state)])
    }
    fn opening(&self, report: &Report) -> Vec<String> {
        let Opening { ambient, humidity, air, air_source, .. } = &report.opening;
        let conditions = [told(ambient), told(humidity), told(air), told(air_source)];
        vec![call("conditions", conditions), call("unread", [told(&report.advice.unread_gauges)])]
    }
    fn instruments(&self, opening: &Opening) -> String {
        call("instruments", opening.instruments.iter().map(told))
    }
    fn question(&self, question: &UnitQuestion) -> String {
        told(question)
    }
    fn headline(&self, report: &Report) -> String {
        call("headline", [told(&report.advice.headline)])
    }
    fn stop(&self, stop: Stop) -> &'static str {
        kept(call("stop", [told(&stop)]))
    }
    fn step(&self, step: &NextStep, causes: Option<&Causes>, _: bool) -> String {
        let rows = causes.iter().flat_map(|causes| &causes.next);
        let asked = |of: Measurand| matches!(step, NextStep::Measure { measurand } if *measurand == of);
        let outcomes = rows.filter(|row| asked(row.measurand)).map(|row| told(&row.outcomes));
        call("step", std::iter::once(told(step)).chain(outcomes))
    }
    fn statement(&self, statement: &Statement, _: &Report) -> String {
        call("statement", [told(statement)])
    }
    fn explanation(&self, report: &Report, reasons: Reasons) -> Vec<String> {
        let Some(causes) = &report.causes else { return Vec::new() };
        let mut sentences: Vec<String> = Vec::new();
        for (place, group) in report.advice.leading.iter().enumerate() {
            let row = causes.causes.iter().find(|row| row.id == group.causes[0]);
            let evidence = row.filter(|_| reasons == Reasons::Full || place == 0).map(|row| told(&row.predicted));
            sentences.push(call("explains", std::iter::once(told(group)).chain(evidence)));
        }
        sentences.push(call("others", [told(&report.advice.others)]));
        sentences.push(call("undetectable", [told(&report.advice.undetectable)]));
        sentences.push(call("indistinguishable", [told(&report.advice.indistinguishable)]));
        sentences
    }
    fn equalised(&self, verdict: EqualisedVerdict) -> &'static str {
        kept(told(&verdict))
    }
    fn behind(&self, healthy: &Healthy) -> String {
        let arguments = [told(&healthy.circuits), told(&healthy.kinds), told(&healthy.assumed_humidity)];
        call("behind", arguments.into_iter().chain([told(&healthy.missing)]))
    }
    fn behind_in_short(&self, healthy: &Healthy) -> String {
        call("behind", [told(&healthy.circuits)])
    }
    fn saturated(&self, report: &Report) -> Option<String> {
        let each = report.gauges.iter().map(|row| call(self.side(row.side), [told(&row.saturation)]));
        (!report.gauges.is_empty()).then(|| call("saturated", each))
    }
    fn mark(&self, mark: Mark) -> (char, &'static str) {
        // the letter of English, so that the tables can be compared cell by cell
        let letter = match mark {
            Mark::CarriedOver => 'd',
            Mark::OtherHumidity => 'h',
            Mark::OneRange => 'r',
            Mark::NotCounted => 'n',
            Mark::OtherCars => 'o',
            _ => '?',
        };
        (letter, kept(call("mark", [told(&mark)])))
    }
    fn caution(&self, caution: Caution, refrigerant: &str) -> String {
        call("caution", [told(&caution), refrigerant.to_owned()])
    }
    fn caution_in_short(&self, caution: Caution, refrigerant: &str) -> String {
        call("caution in short", [told(&caution), refrigerant.to_owned()])
    }
    fn caution_in_a_word(&self, caution: Caution) -> &'static str {
        match caution {
            Caution::Recover => "recover",
            _ => "caution",
        }
    }
    fn source(&self, row: &SourceRow, refrigerant: &str) -> String {
        call("source", [told(&row.topic), refrigerant.to_owned()])
    }
    fn error(&self, error: &Error) -> String {
        call("error", [error.code().to_owned()])
    }
}

/// Both gauges and the ambient of a made-up car.
fn report() -> Report {
    let asked = Diagnosis::of(Refrigerant::R134a).low("22 psi").unwrap().high("160 psi").unwrap();
    asked.ambient("86 °F").unwrap().run().unwrap().report()
}

fn tables(page: &Page) -> Vec<&Table> {
    let blocks = page.sections.iter().flat_map(|section| &section.blocks);
    blocks.filter_map(|block| if let Block::Table(table) = block { Some(table) } else { None }).collect()
}

/// Every text of a page but the cells of its tables.
fn texts(page: &Page) -> Vec<String> {
    let mut texts = vec![page.title.clone(), page.answer.clone()];
    texts.extend(page.opening.iter().cloned());
    for section in &page.sections {
        texts.push(section.heading.clone());
        for block in &section.blocks {
            match block {
                Block::Words(words) => texts.push(words.clone()),
                Block::List(_, sentences) | Block::Lines(sentences) => texts.extend(sentences.iter().cloned()),
                Block::Table(table) => texts.extend(table.head.iter().chain(&table.legend).cloned()),
                other => panic!("{other:?}"),
            }
        }
    }
    texts
}

/// Runs of letters.
fn words(text: &str) -> impl Iterator<Item = &str> {
    text.split(|c: char| !c.is_alphabetic()).filter(|word| !word.is_empty())
}

/// The numbers of a cell, as written.
fn numbers(text: &str) -> Vec<&str> {
    text.split(|c: char| !c.is_ascii_digit() && c != '.')
        .map(|run| run.trim_matches('.'))
        .filter(|run| run.contains(|c: char| c.is_ascii_digit()))
        .collect()
}

#[test]
fn a_whole_page_is_written_in_a_language_of_ids() {
    let report = report();
    for (english, ids) in [(report.page(), report.page_worded(&Ids)), (report.brief(), report.brief_worded(&Ids))] {
        let names = |page: &Page| page.sections.iter().map(|section| section.name).collect::<Vec<_>>();
        assert_eq!(names(&english), names(&ids));
        let ids_text = texts(&ids).join("\n");
        // a sentence has three words at least; a cell of a table has fewer, and is compared below
        for text in texts(&english) {
            for sentence in text.split_inclusive(['.', ':', ';']).filter(|part| words(part).count() > 2) {
                assert!(!ids_text.contains(sentence.trim()), "{sentence:?} is English");
            }
        }
        for section in &ids.sections {
            assert!(section.heading.starts_with("label("), "{:?}", section.heading);
        }
    }
}

#[test]
fn the_numbers_of_both_languages_are_the_same() {
    let report = report();
    let (english, ids) = (report.page(), report.page_worded(&Ids));
    let (english, ids) = (tables(&english), tables(&ids));
    assert_eq!(english.len(), ids.len());
    assert!(english.len() > 2);
    let mut same = BTreeSet::new();
    for (english, ids) in english.iter().zip(&ids) {
        assert_eq!(english.rows.len(), ids.rows.len());
        for (english, ids) in english.rows.iter().zip(&ids.rows) {
            assert_eq!(english.len(), ids.len());
            for (place, (english, ids)) in english.iter().zip(ids).enumerate() {
                assert_eq!(numbers(&english.text), numbers(&ids.text), "{:?}", english.text);
                assert_eq!(english.position, ids.position);
                let is_chart = report.charts.iter().any(|row| ids.text.starts_with(&*row.chart));
                if english.text == ids.text && !(place == 0 && is_chart) {
                    same.extend(words(&english.text).map(str::to_owned));
                }
            }
        }
    }
    // units alone
    assert_eq!(same.iter().map(String::as_str).collect::<Vec<_>>(), ["F", "psi"]);
}
