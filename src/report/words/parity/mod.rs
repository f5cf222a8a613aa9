//! Tests that every language says what English says: the same statements in the same order, with the same numbers.

#![cfg(test)]

mod errors;
mod pages;
mod pictures;
mod sentences;

use crate::Refrigerant;
use crate::report::page::{Block, Page, Section, Step, Tone};

/// A list with one value for each pattern of an enum; a variant without one does not compile.
macro_rules! every {
    ($($pattern:pat => $value:expr),+ $(,)?) => {{
        let all = vec![$($value),+];
        for one in &all {
            match one { $($pattern => {})+ }
        }
        all
    }};
}
use every;

/// A number of a text: its value, and the value of half its last place.
#[derive(Debug, Clone, Copy, PartialEq)]
struct Written {
    value: f64,
    half: f64,
}

/// The numbers of `text` whose decimal sign is `point`; what stands between « » is printed on a label, with a point.
fn numbers(text: &str, point: char) -> Vec<Written> {
    let chars: Vec<char> = text.chars().filter(|c| *c != '\u{202f}').collect();
    let digit = |at: usize| chars.get(at).is_some_and(char::is_ascii_digit);
    let (mut found, mut at, mut quoted) = (Vec::new(), 0, false);
    while at < chars.len() {
        quoted = (quoted || chars[at] == '«') && chars[at] != '»';
        if !digit(at) {
            at += 1;
            continue;
        }
        let start = at;
        while digit(at) {
            at += 1;
        }
        let mut number: String = chars[start..at].iter().collect();
        let mut decimals = 0;
        if chars.get(at) == Some(&if quoted { '.' } else { point }) && digit(at + 1) {
            number.push('.');
            at += 1;
            while digit(at) {
                number.push(chars[at]);
                (at, decimals) = (at + 1, decimals + 1);
            }
        }
        // a hyphen behind a letter or a digit joins, as in R-134a and 24-36
        let sign = start > 0 && chars[start - 1] == '-' && (start < 2 || !chars[start - 2].is_alphanumeric());
        let value: f64 = number.parse().unwrap();
        found.push(Written { value: if sign { -value } else { value }, half: 0.5 * 0.1f64.powi(decimals) });
    }
    found
}

/// Factors from a unit that an English sentence chooses to the one that a Spanish sentence does: kPa to hPa or mbar, kPa to bar,
/// inHg to bar.
const HABITS: [(&str, f64); 3] = [("kPa", 10.0), ("kPa", 0.01), ("inHg", 0.033_863_89)];

/// Both texts have the same numbers; where a unit is chosen by the language, each has its number in the other unit.
#[track_caller]
fn same_numbers(english: &str, other: &str) {
    let (ours, mut theirs) = (numbers(english, '.'), numbers(other, ','));
    if ours == theirs {
        return;
    }
    let habits: Vec<f64> =
        HABITS.iter().filter(|(unit, _)| english.contains(unit)).map(|(_, factor)| *factor).collect();
    assert!(!habits.is_empty(), "other numbers:\n{english}\n{other}");
    for one in &ours {
        let says =
            |factor: f64, two: &Written| (factor * one.value - two.value).abs() <= factor * one.half + two.half + 1e-9;
        let same = theirs.iter().position(|two| two == one);
        let converted = || theirs.iter().position(|two| habits.iter().any(|&factor| says(factor, two)));
        let at = same.or_else(converted).unwrap_or_else(|| panic!("{} is missing:\n{english}\n{other}", one.value));
        theirs.remove(at);
    }
    assert!(theirs.is_empty(), "{theirs:?} too many:\n{english}\n{other}");
}

/// Units and names that are the same in every language.
const NAMES: [&str; 22] = [
    "psi", "bar", "kPa", "MPa", "hPa", "kgf", "cm", "Pa", "K", "C", "F", "g", "L", "s", "h", "m", "min", "micron",
    "inHg", "PAG", "POE", "YF",
];

/// Whether a text says something: has a word that is neither a unit nor a name.
fn has_words(text: &str) -> bool {
    let bare = Refrigerant::ALL.iter().fold(text.to_owned(), |text, one| text.replace(&one.to_string(), " "));
    bare.split(|c: char| !c.is_alphabetic()).any(|word| !word.is_empty() && !NAMES.contains(&word))
}

/// Words that only English has, between blanks.
const ENGLISH: [&str; 12] = ["the", "of", "and", "is", "was", "with", "by", "not", "to", "at", "from", "what"];

/// `other` says in Spanish what `english` says, as far as a test can tell: it is there, it is not English, it has the same numbers.
#[track_caller]
fn same(english: &str, other: &str) {
    assert_eq!(english.is_empty(), other.is_empty(), "{english:?} {other:?}");
    assert!(!has_words(english) || english != other, "not translated: {english:?}");
    assert!(!other.trim_start().contains("  ") && !other.contains(" .") && !other.contains(" ,"), "{other:?}");
    same_numbers(english, other);
    let mut quoted = false;
    let chars: Vec<char> = other.chars().collect();
    for window in chars.windows(3) {
        quoted = (quoted || window[0] == '«') && window[0] != '»';
        let decimal = window[1] == '.' && window[0].is_ascii_digit() && window[2].is_ascii_digit();
        assert!(quoted || !decimal, "a decimal point: {other:?}");
    }
    let outside = other.split('«').map(|part| part.split_once('»').map_or(part, |(_, rest)| rest));
    for word in outside.flat_map(|part| part.split(|c: char| !c.is_alphabetic())) {
        assert!(!ENGLISH.contains(&word), "{word:?} is English: {other:?}");
    }
}

#[track_caller]
fn same_lists(english: &[String], other: &[String]) {
    assert_eq!(english.len(), other.len(), "{english:#?}\n{other:#?}");
    english.iter().zip(other).for_each(|(english, other)| same(english, other));
}

/// A line that names works beside a number: the numbers and the works are the same, and the works are cited in their own language.
#[track_caller]
fn same_step(english: &Step, other: &Step) {
    same(&english.title, &other.title);
    same(&english.standing, &other.standing);
    assert_eq!((english.words.len(), &english.basis), (other.words.len(), &other.basis), "{english:#?}\n{other:#?}");
    for (english, other) in english.words.iter().zip(&other.words) {
        // a line that belongs to the one before it lists works
        if english.starts_with(' ') {
            assert!(other.starts_with(' '));
            same_numbers(english, other);
        } else {
            same(english, other);
        }
    }
    same_lists(&english.cautions, &other.cautions);
}

#[track_caller]
fn same_block(section: &Section, english: &Block, other: &Block) {
    match (english, other) {
        (Block::Words(english), Block::Words(other)) => same(english, other),
        (Block::Lines(english), Block::Lines(other)) => assert_eq!(english, other),
        (Block::List(mark, english), Block::List(other_mark, other)) => {
            assert_eq!(mark, other_mark);
            if section.tone == Tone::Fine {
                // works are cited in their own language
                assert_eq!(english.len(), other.len());
            } else {
                same_lists(english, other);
            }
        }
        (Block::Table(english), Block::Table(other)) => {
            same_lists(&english.head, &other.head);
            assert_eq!((english.rows.len(), english.numbers), (other.rows.len(), other.numbers));
            for (english, other) in english.rows.iter().zip(&other.rows) {
                assert_eq!(english.len(), other.len());
                for (column, (english, other)) in english.iter().zip(other).enumerate() {
                    assert_eq!(english.position, other.position);
                    // the first cell of the table of charts names a work
                    if section.name == "charts" && column == 0 {
                        assert_eq!(english.text, other.text);
                    } else {
                        same(&english.text, &other.text);
                    }
                }
            }
            same_lists(&english.legend, &other.legend);
        }
        (Block::Steps(english), Block::Steps(other)) => {
            assert_eq!(english.len(), other.len());
            english.iter().zip(other).for_each(|(english, other)| same_step(english, other));
        }
        _ => panic!("{english:?} {other:?}"),
    }
}

/// Both pages say the same, block by block and sentence by sentence; the translation says once that it is one.
#[track_caller]
fn same_pages(english: &Page, other: &Page) {
    same(&english.title, &other.title);
    same(&english.answer, &other.answer);
    same_lists(&english.opening, &other.opening);
    assert_eq!(english.sections.len(), other.sections.len());
    for (english, other) in english.sections.iter().zip(&other.sections) {
        assert_eq!((english.name, english.tone, english.blocks.len()), (other.name, other.tone, other.blocks.len()));
        same(&english.heading, &other.heading);
        for (ours, theirs) in english.blocks.iter().zip(&other.blocks) {
            same_block(english, ours, theirs);
        }
    }
    let unbroken = |text: String| text.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(english.furniture.translated.is_empty());
    for text in [other.text(80), other.markdown(), other.html()] {
        assert_eq!(unbroken(text).matches(other.furniture.translated).count(), 1);
    }
    assert!(english.html().contains("<html lang=\"en\">") && other.html().contains("<html lang=\"es\">"));
}

#[test]
fn the_numbers_of_a_text_are_found() {
    let values = |text, point| numbers(text, point).iter().map(|one| one.value).collect::<Vec<_>>();
    assert_eq!(values("R-134a: 13.5-28.5 psi, -2.0 to 30 °F.", '.'), [134.0, 13.5, 28.5, -2.0, 30.0]);
    assert_eq!(
        values("R-134a: 13,5-28,5 psi, -2,0 a 30 °F, «4.6 oz» 14\u{202f}700.", ','),
        [134.0, 13.5, 28.5, -2.0, 30.0, 4.6, 14700.0]
    );
    same_numbers("air 97.8 kPa", "aire 978 hPa");
    assert!(std::panic::catch_unwind(|| same_numbers("1.5 K", "1,6 K")).is_err());
    assert!(std::panic::catch_unwind(|| same_numbers("air 97.8 kPa", "aire 980 hPa")).is_err());
    assert!(std::panic::catch_unwind(|| same("vent 1.5 K", "rejilla 1.5 K")).is_err());
    assert!(std::panic::catch_unwind(|| same("below", "below")).is_err());
    assert!(std::panic::catch_unwind(|| same("below", "por debajo of")).is_err());
    assert!(has_words("low side 30 psi") && !has_words("R-134a 30.0 ± 2.0 psi") && !has_words("PAG 46"));
}
