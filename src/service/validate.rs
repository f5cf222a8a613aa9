//! Guards for what is measured at the bench: finite, and not below zero.

use crate::quantity::Unit;
use crate::{Error, Quantity};

/// `value`, finite and zero or more; `what` names it with the most usual unit of its kind.
pub(super) fn not_negative<Q: Quantity>(what: &'static str, value: Q) -> Result<Q, Error> {
    let value = finite(what, value)?;
    if value.si() < 0.0 {
        return Err(Error::Impossible { what, value: usual(value), must: "zero or more" });
    }
    Ok(value)
}

/// `value`, finite and above zero; `what` names it with the most usual unit of its kind.
pub(super) fn positive<Q: Quantity>(what: &'static str, value: Q) -> Result<Q, Error> {
    let value = finite(what, value)?;
    if value.si() <= 0.0 {
        return Err(Error::Impossible { what, value: usual(value), must: "above zero" });
    }
    Ok(value)
}

/// `value`, if it is a finite number.
pub(super) fn finite<Q: Quantity>(what: &'static str, value: Q) -> Result<Q, Error> {
    if value.si().is_finite() { Ok(value) } else { Err(Error::NotFinite { what, text: value.si().to_string() }) }
}

/// In the most usual unit, to a millionth: what was typed reads as it was typed.
fn usual<Q: Quantity>(value: Q) -> f64 {
    let value = Q::Unit::ALL.first().map_or(value.si(), |&unit| value.value_in(unit));
    (value * 1e6).round() / 1e6
}

/// `text` that somebody gave, if it is one line without control characters: a line break would begin a heading on a page, and
/// escape bytes would reach a terminal.
pub(super) fn text<'t>(what: &'static str, text: &'t str) -> Result<&'t str, Error> {
    if text.trim().chars().any(is_control) {
        return Err(Error::ControlCharacter { what, text: text.to_owned() });
    }
    Ok(text)
}

/// A control character, a line or paragraph separator, or a mark that turns the direction of writing.
fn is_control(c: char) -> bool {
    c.is_control()
        || matches!(c, '\u{2028}' | '\u{2029}' | '\u{200e}' | '\u{200f}' | '\u{202a}'..='\u{202e}' | '\u{2066}'..='\u{2069}')
}

/// Serialises a type as the text it was read from, and reads it back with `FromStr`.
#[cfg(feature = "serde")]
macro_rules! serde_as_text {
    ($name:ident, |$value:ident| $text:expr) => {
        impl serde::Serialize for $name {
            fn serialize<S: serde::Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
                let $value = self;
                serializer.collect_str(&$text)
            }
        }

        impl<'de> serde::Deserialize<'de> for $name {
            fn deserialize<D: serde::Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
                let text = <std::borrow::Cow<'de, str> as serde::Deserialize>::deserialize(deserializer)?;
                text.parse().map_err(serde::de::Error::custom)
            }
        }
    };
}
#[cfg(feature = "serde")]
pub(super) use serde_as_text;
