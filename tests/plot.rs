//! Pictures: well formed, words neither cut nor on top of each other, over readings of every kind.

use std::collections::{BTreeMap, BTreeSet};

use satline::plot::{self, Picture, Units};
use satline::quantity::{PressureUnit, TemperatureUnit, Unit};
use satline::window::{Engine, Entry, Instruments, Reading};
use satline::{Refrigerant, Stated};

const METRIC: Units = Units { pressure: PressureUnit::Bar, temperature: TemperatureUnit::Celsius };

/// Width of a character in parts of the font size: Helvetica's metrics (Adobe font metrics, from memory), which most
/// sans-serif fonts of systems stay close to.
fn em(c: char) -> f64 {
    match c {
        'i' | 'j' | 'l' | '\'' => 0.222,
        ' ' | '.' | ',' | ':' | ';' | 'f' | 't' | 'I' | '/' | '!' | '|' => 0.278,
        'r' | '(' | ')' | '-' | '·' | '"' => 0.333,
        '°' => 0.4,
        'c' | 'k' | 's' | 'v' | 'x' | 'y' | 'z' | 'J' => 0.5,
        'a'..='h' | 'n'..='q' | 'u' | '0'..='9' | '–' => 0.556,
        '±' | '−' | '+' | '=' | '<' | '>' | '×' => 0.584,
        'F' | 'T' | 'Z' | 'L' => 0.611,
        'w' | 'A' | 'B' | 'E' | 'K' | 'P' | 'S' | 'V' | 'X' | 'Y' | 'C' | 'D' | 'H' | 'N' | 'R' | 'U' => 0.722,
        'm' => 0.833,
        '%' => 0.889,
        'W' => 0.944,
        _ => 0.8,
    }
}

struct Words {
    text: String,
    left: f64,
    right: f64,
    top: f64,
    bottom: f64,
}

/// Looks at a picture as a reader of the file would, and complains of everything that should not be.
pub fn check(picture: &Picture) {
    let name = picture.name();
    assert!(name.chars().all(|c| c.is_ascii_lowercase() || c.is_ascii_digit() || c == '-'), "{name}");
    assert!(picture.svg().starts_with("<svg "), "{name}");
    let document = roxmltree::Document::parse(picture.svg()).unwrap_or_else(|error| panic!("{name}: {error}"));
    let root = document.root_element();
    assert_eq!(root.attribute("role"), Some("img"));
    let canvas: Vec<f64> =
        root.attribute("viewBox").unwrap().split(' ').map(|number| number.parse().unwrap()).collect();
    let (width, height) = (canvas[2], canvas[3]);
    let ids: Vec<&str> = document.descendants().filter_map(|node| node.attribute("id")).collect();
    let distinct: BTreeSet<_> = ids.iter().collect();
    assert_eq!(ids.len(), distinct.len(), "{name}: an id twice");
    assert!(ids.iter().all(|id| id.starts_with(name)), "{name}: {ids:?}");
    let labelled = root.attribute("aria-labelledby").unwrap();
    assert!(labelled.split(' ').all(|id| ids.contains(&id)), "{labelled}");
    for (tag, said) in [("title", picture.title()), ("desc", picture.description())] {
        let node = root
            .children()
            .find(|node| node.has_tag_name(tag))
            .or_else(|| root.children().find(|node| node.tag_name().name() == tag));
        assert_eq!(node.unwrap().text(), Some(said));
        assert!(said.len() > 10, "{name}: {said:?}");
    }
    assert!(!picture.svg().contains("NaN") && !picture.svg().contains("inf"), "{name}: a number that is none");

    let mut all: Vec<Words> = Vec::new();
    for node in document.descendants().filter(|node| node.is_element()) {
        for class in node.attribute("class").unwrap_or_default().split(' ') {
            assert!(class.is_empty() || class.starts_with("sl-"), "{name}: class {class}");
        }
        for (key, value) in node.attributes().map(|a| (a.name(), a.value())) {
            if let ("x" | "y" | "x1" | "x2" | "y1" | "y2" | "cx" | "cy", Ok(number)) = (key, value.parse::<f64>()) {
                let end = if key.contains('x') { width } else { height };
                assert!((-0.5..=end + 0.5).contains(&number), "{name}: {key} = {value} leaves the canvas");
            }
        }
        if node.tag_name().name() != "text" {
            continue;
        }
        let number = |key: &str| node.attribute(key).unwrap().parse::<f64>().unwrap();
        let classes: BTreeSet<&str> = node.attribute("class").unwrap().split(' ').collect();
        let size = if classes.contains("sl-h") {
            14.0
        } else if classes.contains("sl-small") {
            11.0
        } else {
            12.5
        };
        let text = node.text().unwrap_or_default().to_owned();
        let wide: f64 = text.chars().map(em).sum::<f64>() * size * if classes.contains("sl-h") { 1.06 } else { 1.0 };
        let left = number("x")
            - if classes.contains("sl-end") {
                wide
            } else if classes.contains("sl-mid") {
                0.5 * wide
            } else {
                0.0
            };
        let (top, bottom) = (number("y") - 0.75 * size, number("y") + 0.21 * size);
        let words = Words { text, left, right: left + wide, top, bottom };
        assert!(
            words.left >= 0.0 && words.right <= width && words.top >= 0.0 && words.bottom <= height,
            "{name}: {:?} is cut: {} to {} of {width}, {} to {} of {height}",
            words.text,
            words.left,
            words.right,
            words.top,
            words.bottom
        );
        if let Some(other) = all.iter().find(|other| {
            words.left < other.right && other.left < words.right && words.top < other.bottom && other.top < words.bottom
        }) {
            panic!("{name}: {:?} on top of {:?}\n{}", words.text, other.text, picture.description());
        }
        all.push(words);
    }
    keep(picture, "");
}

/// Writes a picture to the folder named by `SATLINE_PICTURES`, for looking at it.
fn keep(picture: &Picture, suffix: &str) {
    if let Ok(folder) = std::env::var("SATLINE_PICTURES") {
        std::fs::create_dir_all(&folder).unwrap();
        std::fs::write(format!("{folder}/{}{suffix}.svg", picture.name()), picture.svg()).unwrap();
    }
}

fn stated<Q: satline::Quantity>(text: &str) -> Option<Stated<Q>> {
    Some(text.parse().unwrap_or_else(|error| panic!("{text}: {error}")))
}

/// The demonstration's car: invented.
fn demonstration() -> Reading {
    let entry = Entry {
        suction_line: stated("72 °F"),
        liquid_line: stated("113 °F"),
        ambient: stated("86 °F"),
        humidity: stated("55%"),
        altitude: stated("300 m"),
        ..Entry::gauges("22 psi".parse().unwrap(), "160 psi".parse().unwrap())
    };
    entry.reading(Refrigerant::R134a, Engine::Running, &Instruments::analogue(Refrigerant::R134a)).unwrap()
}

const IMPERIAL: Units = Units { pressure: PressureUnit::Psi, temperature: TemperatureUnit::Fahrenheit };

#[test]
fn a_reading_on_the_saturation_line() {
    let picture = plot::saturation(&demonstration(), &IMPERIAL).unwrap();
    check(&picture);
    assert!(picture.description().contains("superheat"), "{}", picture.description());
}
