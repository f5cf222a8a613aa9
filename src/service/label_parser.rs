//! Reading amounts as labels print them: "90–110 cm³ (3.1–4.0 oz)", "500 ± 15 g", "1 1/6 fl oz".

use super::validate;
use crate::quantity::VolumeUnit;
use crate::{Entered, Error, Quantity, Volume};

/// A number as printed, with half a unit of its last digit.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Number {
    pub(super) text: String,
    pub(super) value: f64,
    pub(super) half: f64,
}

/// How two numbers of one printed amount belong together.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Form {
    Single,
    FromTo,
    PlusMinus,
    Plus,
}

/// One amount of a label, such as "90–110 cm³" or "3.1–4.0 oz".
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Printed {
    pub(super) text: String,
    pub(super) numbers: Vec<Number>,
    pub(super) form: Form,
    pub(super) unit: String,
}

/// What is on a label, for messages.
#[derive(Debug, Clone, Copy)]
pub(super) struct What {
    pub(super) name: &'static str,
    pub(super) units: &'static str,
}

impl Printed {
    /// The lowest and the highest value meant.
    pub(super) fn span(&self) -> (f64, f64) {
        let first = self.numbers.first().map_or(f64::NAN, |number| number.value);
        let second = self.numbers.get(1).map_or(first, |number| number.value);
        match self.form {
            Form::Single => (first, first),
            Form::FromTo => (first, second),
            Form::PlusMinus => (first - second, first + second),
            Form::Plus => (first, first + second),
        }
    }
}

/// Signs between two numbers, the longest first.
const SIGNS: [(&str, Form); 9] = [
    ("+/-", Form::PlusMinus),
    ("+-", Form::PlusMinus),
    ("±", Form::PlusMinus),
    ("–", Form::FromTo),
    ("—", Form::FromTo),
    ("...", Form::FromTo),
    ("-", Form::FromTo),
    ("to ", Form::FromTo),
    ("+", Form::Plus),
];

/// The amounts of a label: the second and later ones in brackets or after a comma, a semicolon or "=".
pub(super) fn amounts(what: What, text: &str) -> Result<Vec<Printed>, Error> {
    // a bracket that holds a tolerance belongs to its amount
    let flat = text.replace("(+-", "+-").replace("(±", "±").replace("(+/-", "+-");
    let mut parts = vec![String::new()];
    let mut last = ' ';
    let mut chars = flat.chars().peekable();
    while let Some(c) = chars.next() {
        let decimal = c == ',' && last.is_ascii_digit() && chars.peek().is_some_and(char::is_ascii_digit);
        if matches!(c, '(' | ';' | '=' | ',') && !decimal {
            parts.push(String::new());
        } else if let (Some(part), true) = (parts.last_mut(), c != ')') {
            part.push(c);
        }
        last = c;
    }
    let filled = parts.iter().map(|part| part.trim()).filter(|part| !part.is_empty());
    let found = filled.map(|part| amount(what, part, text)).collect::<Result<Vec<_>, _>>()?;
    if found.is_empty() {
        return Err(Error::NotANumber { what: what.name, text: text.to_owned(), example: "150 cm³" });
    }
    Ok(found)
}

/// One amount with its unit, such as "150±10 cc" or "150 cc ± 10 cc".
fn amount(what: What, text: &str, whole: &str) -> Result<Printed, Error> {
    let (first, rest) = number(what, text, whole)?;
    let mut rest = rest.trim_start();
    let mut numbers = vec![first];
    let mut form = Form::Single;
    let mut named = "";
    // a unit before the tolerance must be the one after it
    if let Some(at) = SIGNS[..3].iter().filter_map(|(sign, _)| rest.find(sign)).min().filter(|at| *at > 0) {
        named = rest[..at].trim();
        rest = &rest[at..];
    }
    if let Some((sign, found)) = SIGNS.iter().find(|(sign, _)| rest.starts_with(sign)) {
        let (second, after) = number(what, &rest[sign.len()..], whole)?;
        numbers.push(second);
        form = *found;
        rest = after;
    }
    let unit = rest.trim();
    if unit.is_empty() || !(named.is_empty() || named == unit) {
        return Err(Error::UnitMissing { what: what.name, text: whole.to_owned(), units: what.units.to_owned() });
    }
    let printed = Printed { text: text.to_owned(), numbers, form, unit: unit.to_owned() };
    let (low, high) = printed.span();
    if !(0.0 < low && low <= high && high.is_finite()) {
        let error = Error::Impossible {
            what: "its lower end",
            value: low,
            must: "above zero and not above its upper end; check which figure is the tolerance",
        };
        return Err(error.about(format!("{}, {text}", what.name)));
    }
    Ok(printed)
}

fn digits(text: &str) -> usize {
    text.chars().take_while(|c| c.is_ascii_digit() || matches!(c, '.' | ',')).count()
}

/// The number behind the stroke of a fraction, and what follows it.
fn below(text: &str) -> Option<(f64, &str)> {
    let text = text.strip_prefix('/')?;
    let end = digits(text);
    let bottom = text[..end].parse().ok().filter(|bottom: &f64| *bottom > 0.0)?;
    Some((bottom, &text[end..]))
}

/// A number at the start of `text`, perhaps with a fraction as in "1 1/6", and what follows it.
fn number<'t>(what: What, text: &'t str, whole: &str) -> Result<(Number, &'t str), Error> {
    let text = text.trim_start();
    let sign = usize::from(text.starts_with('-'));
    let mut end = sign + digits(&text[sign..]);
    // "160..." is a number and a sign
    while text[..end].ends_with('.') {
        end -= 1;
    }
    let (head, rest) = text.split_at(if end <= sign { text.len() } else { end });
    let refused = |error: Error| match error {
        Error::NotANumber { text, .. } => Error::NotANumber { what: what.name, text, example: "150 cm³" },
        Error::NotFinite { text, .. } => Error::NotFinite { what: what.name, text },
        Error::DecimalComma { text, .. } => Error::DecimalComma { what: what.name, text },
        error => error.about(format!("{}, {whole}", what.name)),
    };
    let parsed = Entered::<Volume>::from_number(head, VolumeUnit::CubicMetre).map_err(refused)?;
    let value = validate::not_negative("its number", parsed.quantity()).map_err(refused)?.si();
    if let Some((bottom, after)) = below(rest) {
        let text = text[..text.len() - after.len()].to_owned();
        return Ok((Number { text, value: value / bottom, half: 0.5 / bottom }, after));
    }
    // "1 1/6"
    let next = rest.trim_start();
    let top = &next[..digits(next)];
    if let (Ok(top_value), Some((bottom, after))) = (top.parse::<f64>(), below(&next[top.len()..])) {
        let text = text[..text.len() - after.len()].to_owned();
        return Ok((Number { text, value: value + top_value / bottom, half: 0.5 / bottom }, after));
    }
    Ok((Number { text: head.to_owned(), value, half: 0.5 * 10f64.powi(-(parsed.decimals() as i32)) }, rest))
}

#[cfg(test)]
mod tests {
    use approx::assert_abs_diff_eq;

    use super::*;

    /// A mixed fraction keeps what was printed, and is known to half of its last part.
    #[test]
    fn a_mixed_fraction_is_read_as_printed() {
        let what = What { name: "oil", units: "fl oz" };
        let (read, after) = number(what, "1 1/6 fl oz", "1 1/6 fl oz").unwrap();
        assert_eq!((read.text.as_str(), after), ("1 1/6", " fl oz"));
        // rounding
        assert_abs_diff_eq!(read.value, 7.0 / 6.0, epsilon = 1e-15);
        assert_abs_diff_eq!(read.half, 0.5 / 6.0, epsilon = 1e-15);
        let (half, after) = number(what, "1/2 fl oz", "1/2 fl oz").unwrap();
        assert_eq!((half.text.as_str(), half.value, half.half, after), ("1/2", 0.5, 0.25, " fl oz"));
    }
}
