//! JSON that nobody means: valid JSON with a field or an item replaced, removed, repeated or nested.

use serde_json::{Map, Value, json};

use super::Random;
use super::text::{below, odd_text};

/// Marks a field that is to stand twice; no name of ours has this character, and it is taken out of the text.
const AGAIN: &str = "\u{1}";

/// A text like one of `valid`, with none to three things wrong; texts in it become those of `texts` or like them.
pub fn odd_json(random: &mut Random, valid: &[Value], texts: &[&str]) -> String {
    let mut value = valid[below(random, valid.len())].clone();
    for _ in 0..below(random, 4) {
        let other = valid[below(random, valid.len())].clone();
        let depth = below(random, 9);
        change(random, &mut value, &other, texts, depth);
    }
    let text = value.to_string().replace("\\u0001", "");
    // and now and then no JSON at all
    if random.bits().is_multiple_of(8) { odd_text(random, &[&text]) } else { text }
}

/// Changes something in `value`, at most `depth` below it.
fn change(random: &mut Random, value: &mut Value, other: &Value, texts: &[&str], depth: usize) {
    let inner = match value {
        Value::Object(fields) => fields.values_mut().collect(),
        Value::Array(items) => items.iter_mut().collect(),
        _ => Vec::new(),
    };
    if depth > 0 && !inner.is_empty() {
        let at = below(random, inner.len());
        let inner = inner.into_iter().nth(at).expect("there are more");
        return change(random, inner, other, texts, depth - 1);
    }
    match (random.bits() % 6, &mut *value) {
        (0, Value::Object(fields)) => remove(random, fields),
        (0, Value::Array(items)) if !items.is_empty() => drop(items.remove(below(random, items.len()))),
        (1, Value::Object(fields)) if !fields.is_empty() => {
            let (name, field) = fields.iter().nth(below(random, fields.len())).expect("there are more");
            fields.insert(format!("{name}{AGAIN}"), field.clone());
        }
        (1, Value::Array(items)) if !items.is_empty() => {
            let item = items[below(random, items.len())].clone();
            items.extend(std::iter::repeat_n(item, [1, 2, 50][below(random, 3)]));
        }
        (2, _) => *value = piece(random, other),
        (3, _) => {
            let deep = [1, 2, 200][below(random, 3)];
            let named = random.bits().is_multiple_of(2);
            *value = (0..deep)
                .fold(value.take(), |inner, _| if named { json!({ "values": inner }) } else { json!([inner]) });
        }
        (_, Value::String(text)) if random.bits().is_multiple_of(2) => *text = odd_text(random, &[text, "30 °C"]),
        (_, Value::Number(number)) if random.bits().is_multiple_of(2) => {
            let scaled = number.as_f64().unwrap_or(0.0) * [-1.0, 0.0, 1e3, 1e300, 1e-300, 0.9][below(random, 6)];
            *value = json!(scaled);
        }
        _ => {
            let odd = odd_text(random, texts);
            *value = [
                json!(null),
                json!(true),
                json!(-1),
                json!(1e308),
                json!(u64::MAX),
                json!(0.5),
                json!({}),
                json!([]),
                json!(odd),
                json!(odd),
            ][below(random, 10)]
            .clone();
        }
    }
}

fn remove(random: &mut Random, fields: &mut Map<String, Value>) {
    let name = fields.keys().nth(below(random, fields.len())).cloned();
    name.and_then(|name| fields.remove(&name));
}

/// Something in `of`.
fn piece(random: &mut Random, of: &Value) -> Value {
    let inner: Vec<&Value> = match of {
        Value::Object(fields) => fields.values().collect(),
        Value::Array(items) => items.iter().collect(),
        _ => Vec::new(),
    };
    if inner.is_empty() || random.bits().is_multiple_of(3) {
        return of.clone();
    }
    let at = below(random, inner.len());
    piece(random, inner[at])
}
