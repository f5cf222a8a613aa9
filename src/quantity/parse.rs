//! Quantities read from text: "32 psi", "95 °F", "-20 inHg".

#[cfg(feature = "serde")]
use core::fmt;
use core::str::FromStr;

use super::text::{Entered, LARGEST, MOST_DECIMALS, reads_as_absolute};
use super::{Quantity, Unit};
use crate::Error;

/// Smallest magnitude other than zero, our choice: in any unit it has all its digits, which numbers below 2·10⁻³⁰⁸
/// lose.
const SMALLEST: f64 = 1e-300;

impl<Q: Quantity> Entered<Q> {
    /// Stated quantity from a number typed alone, its unit being given elsewhere, such as in a column head.
    ///
    /// # Errors
    /// As for text with a unit, without those about the unit.
    pub fn from_number(text: &str, unit: Q::Unit) -> Result<Self, Error> {
        let trimmed = text.trim();
        let (number, rest) = leading_number::<Q>(trimmed, text)?;
        if !rest.is_empty() {
            return Err(Error::NotANumber { what: Q::NAME, text: text.to_owned(), example: Q::EXAMPLE });
        }
        Self::computable(number, unit, text)
    }
    /// Number checked to be neither too large nor too small once it is converted to SI units.
    fn computable(Typed { value, decimals, is_zero }: Typed, unit: Q::Unit, text: &str) -> Result<Self, Error> {
        let quantity = Q::new(value, unit);
        if !quantity.si().is_finite() {
            return Err(Error::NotFinite { what: Q::NAME, text: text.to_owned() });
        }
        let fits = |size: f64| (SMALLEST..=LARGEST).contains(&size);
        // a temperature of 0 K is zero, whatever its number
        if !is_zero && !(fits(value.abs()) && (fits(quantity.si().abs()) || quantity.si() == 0.0)) {
            return Err(Error::BeyondArithmetic {
                what: Q::NAME,
                text: text.to_owned(),
                smallest: SMALLEST,
                largest: LARGEST,
            });
        }
        Ok(Self { quantity, number: value, unit, decimals: decimals.min(MOST_DECIMALS) })
    }
}

#[cfg(feature = "serde")]
impl<Q: Quantity> serde::Serialize for Entered<Q> {
    fn serialize<S: serde::Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.collect_str(self)
    }
}

#[cfg(feature = "serde")]
impl<'de, Q: Quantity> serde::Deserialize<'de> for Entered<Q> {
    fn deserialize<D: serde::Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        let text = <std::borrow::Cow<'de, str> as serde::Deserialize>::deserialize(deserializer)?;
        text.parse().map_err(serde::de::Error::custom)
    }
}

impl<Q: Quantity> FromStr for Entered<Q> {
    type Err = Error;

    /// Reads a number followed by a unit; spaces between and around them do not matter. The decimal sign is a point, or a comma
    /// before any number of digits but three.
    ///
    /// # Errors
    /// [`Error::NotANumber`], [`Error::NotFinite`], [`Error::BeyondArithmetic`], [`Error::DecimalComma`],
    /// [`Error::UnitMissing`], [`Error::UnitUnknown`], [`Error::UnitAmbiguous`], [`Error::WrongReference`].
    fn from_str(text: &str) -> Result<Self, Error> {
        let (number, unit) = leading_number::<Q>(text.trim(), text)?;
        if unit.is_empty() {
            return Err(Error::UnitMissing { what: Q::NAME, text: text.to_owned(), units: symbols::<Q>() });
        }
        let unit = find_unit::<Q>(unit, text)?;
        Self::computable(number, unit, text)
    }
}

/// Unit of `Q` that is written as `name`.
///
/// # Errors
/// [`Error::UnitUnknown`], [`Error::UnitAmbiguous`], [`Error::WrongReference`].
pub fn unit_named<Q: Quantity>(name: &str) -> Result<Q::Unit, Error> {
    find_unit::<Q>(name, name)
}

/// A number as it was typed.
struct Typed {
    value: f64,
    /// Digits after the point.
    decimals: usize,
    /// Whether all its digits are zeros, and not only too small to be anything else.
    is_zero: bool,
}

/// The finite number that starts `trimmed` and what follows it; `text` goes into errors.
fn leading_number<'a, Q: Quantity>(trimmed: &'a str, text: &str) -> Result<(Typed, &'a str), Error> {
    let what = Q::NAME;
    let not_a_number = || Error::NotANumber { what, text: text.to_owned(), example: Q::EXAMPLE };
    let (number, rest) = trimmed.split_at(number_end(trimmed));
    let rest = rest.trim_start();
    if rest.starts_with(',') {
        return Err(Error::DecimalComma { what, text: text.to_owned() });
    }
    if number.is_empty() {
        let word = trimmed.trim_start_matches(['+', '-', '−']);
        let word = word.split(|c: char| !c.is_alphabetic()).next().unwrap_or(word);
        if ["nan", "inf", "infinity"].iter().any(|name| word.eq_ignore_ascii_case(name)) {
            return Err(Error::NotFinite { what, text: text.to_owned() });
        }
        return Err(not_a_number());
    }
    let number = number.replace('−', "-").replace(',', ".");
    let value: f64 = number.parse().map_err(|_| not_a_number())?;
    if !value.is_finite() {
        return Err(Error::NotFinite { what, text: text.to_owned() });
    }
    let (mantissa, exponent) = number.split_once(['e', 'E']).unwrap_or((&number, "0"));
    let decimals = mantissa.split_once('.').map_or(0, |(_, digits)| digits.len());
    // "1.5e-3" has four digits after the point
    let decimals = (decimals as i64).saturating_sub(exponent.parse().unwrap_or(0)).max(0);
    let is_zero = !mantissa.contains(|c: char| matches!(c, '1'..='9'));
    Ok((Typed { value, decimals: decimals as usize, is_zero }, rest))
}

/// Where the number at the start of `text` ends; 0 when there is none.
fn number_end(text: &str) -> usize {
    let sign = if text.starts_with(['+', '-']) {
        1
    } else if text.starts_with('−') {
        '−'.len_utf8()
    } else {
        0
    };
    let digits = |from: usize| from + text[from..].bytes().take_while(u8::is_ascii_digit).count();
    let whole = digits(sign);
    let mut end = whole;
    if text[end..].starts_with('.') {
        let fraction = digits(end + 1);
        if fraction > end + 1 || whole > sign {
            end = fraction;
        }
    } else if whole > sign && text[end..].starts_with(',') {
        // before three digits it may separate thousands
        let fraction = digits(end + 1);
        let decimal = !matches!(fraction - end - 1, 0 | 3) && !text[fraction..].starts_with([',', '.']);
        end = if decimal { fraction } else { end };
    }
    if end == sign {
        return 0;
    }
    // an exponent counts only when digits follow: "3 e" is a number and a unit
    if text[end..].starts_with(['e', 'E']) {
        let exponent_sign = usize::from(text[end + 1..].starts_with(['+', '-']));
        let exponent = digits(end + 1 + exponent_sign);
        if exponent > end + 1 + exponent_sign {
            end = exponent;
        }
    }
    end
}

/// Unit written as `unit` in `text`.
pub(crate) fn find_unit<Q: Quantity>(unit: &str, text: &str) -> Result<Q::Unit, Error> {
    if let Some(found) = spelled::<Q>(unit) {
        if reads_as_absolute::<Q>(found) {
            return Err(Error::WrongReference {
                what: Q::NAME,
                text: text.to_owned(),
                given: "absolute",
                way_out: "a vacuum gauge in this unit counts from vacuum; subtract the pressure of the surrounding air",
            });
        }
        return Ok(found);
    }
    if let Some(asked) = Q::REFERENCE {
        for (suffix, given) in REFERENCE_SUFFIXES {
            let Some(found) = unit.strip_suffix(suffix).and_then(|plain| spelled::<Q>(plain.trim_end())) else {
                continue;
            };
            if given == asked {
                return Ok(found);
            }
            return Err(Error::WrongReference {
                what: Q::NAME,
                text: text.to_owned(),
                given,
                // the standard atmosphere: 10th General Conference on Weights and Measures, 1954
                way_out: if given == "gauge" {
                    "add the pressure of the surrounding air, 14.7 psi or 1.013 bar at sea level"
                } else {
                    "subtract the pressure of the surrounding air, 14.7 psi or 1.013 bar at sea level"
                },
            });
        }
    }
    for (ambiguous, meanings) in AMBIGUOUS {
        if Q::NAME == "volume" && unit.eq_ignore_ascii_case(ambiguous) {
            return Err(Error::UnitAmbiguous { what: Q::NAME, text: text.to_owned(), unit: unit.to_owned(), meanings });
        }
    }
    Err(Error::UnitUnknown { what: Q::NAME, text: text.to_owned(), unit: unit.to_owned(), units: symbols::<Q>() })
}

/// Reference marks that the trade writes after a pressure unit, and what they mean.
const REFERENCE_SUFFIXES: [(&str, &str); 10] = [
    ("(g)", "gauge"),
    ("(a)", "absolute"),
    ("gauge", "gauge"),
    ("absolute", "absolute"),
    ("abs.", "absolute"),
    ("abs", "absolute"),
    ("g", "gauge"),
    ("G", "gauge"),
    ("a", "absolute"),
    ("A", "absolute"),
];

/// Ounces that do not say whether they are of weight or of volume, US or imperial.
const AMBIGUOUS: [(&str, &str); 4] = [
    ("oz", "an ounce of weight, a US fluid ounce (29.57 mL) or an imperial fluid ounce (28.41 mL)"),
    ("ounces", "an ounce of weight, a US fluid ounce (29.57 mL) or an imperial fluid ounce (28.41 mL)"),
    ("fl oz", "a US fluid ounce (29.57 mL) or an imperial fluid ounce (28.41 mL)"),
    ("fl. oz", "a US fluid ounce (29.57 mL) or an imperial fluid ounce (28.41 mL)"),
];

fn spelled<Q: Quantity>(unit: &str) -> Option<Q::Unit> {
    Q::Unit::ALL.iter().copied().find(|candidate| candidate.symbol() == unit || candidate.spellings().contains(&unit))
}

/// The symbols of all units of `Q`, for messages.
pub(crate) fn symbols<Q: Quantity>() -> String {
    Q::Unit::ALL.iter().map(|unit| unit.symbol()).collect::<Vec<_>>().join(", ")
}

/// Writes a quantity in its SI unit with every digit it has, so that reading it back gives the same number.
#[cfg(feature = "serde")]
pub(crate) struct Exactly<Q>(pub(crate) Q);

#[cfg(feature = "serde")]
impl<Q: Quantity> fmt::Display for Exactly<Q> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let si = Q::Unit::ALL
            .iter()
            .copied()
            .find(|&unit| Q::new(1.0, unit) == Q::from_si(1.0) && Q::new(0.0, unit) == Q::from_si(0.0));
        match si {
            Some(unit) => write!(f, "{} {}", self.0.si(), unit.symbol()),
            None => Err(fmt::Error),
        }
    }
}
