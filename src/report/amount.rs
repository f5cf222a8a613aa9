//! Numbers as a page shows them: with their unit, their interval and the digits they are worth.

use super::Text;
use super::words::en::{NUMERALS, reading::position};
use crate::expected::Verdict;
use crate::quantity::Position;

/// A number with its unit, the digits it is worth, and its 95 % interval where it has one.
#[derive(Debug, Clone, PartialEq)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(deny_unknown_fields))]
pub struct Amount {
    /// Value, in the unit of the amount.
    pub value: f64,
    /// Half the width of the 95 % interval; `None` if there is no interval.
    #[cfg_attr(feature = "serde", serde(default, skip_serializing_if = "Option::is_none"))]
    pub plus_minus: Option<f64>,
    /// Unit of the value and its interval.
    pub unit: Text,
    /// Number of decimals that the value is worth.
    pub decimals: u8,
}

/// A range with its unit and the digits it is worth.
#[derive(Debug, Clone, PartialEq)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(deny_unknown_fields))]
pub struct Span {
    /// Lower end of the range.
    pub low: f64,
    /// Upper end of the range.
    pub high: f64,
    /// Unit of both ends.
    pub unit: Text,
    /// Number of decimals that both ends are worth.
    pub decimals: u8,
}

impl Amount {
    /// The amount to four significant digits, for what was computed.
    pub(super) fn rounded(self) -> Self {
        Self { value: four_digits(self.value), plus_minus: self.plus_minus.map(four_digits), ..self }
    }

    pub(super) fn new(value: f64, plus_minus: Option<f64>, unit: impl Into<Text>, decimals: u8) -> Self {
        Self { value: nine_digits(value), plus_minus: plus_minus.map(nine_digits), unit: unit.into(), decimals }
    }
}

impl Span {
    /// The span to four significant digits, for what was computed.
    pub(super) fn rounded(self) -> Self {
        Self { low: four_digits(self.low), high: four_digits(self.high), ..self }
    }

    /// Its middle.
    pub(super) fn middle(&self) -> Amount {
        Amount::new(0.5 * (self.low + self.high), None, self.unit.clone(), self.decimals)
    }

    /// Its upper end.
    pub(super) fn upper(&self) -> Amount {
        Amount::new(self.high, None, self.unit.clone(), self.decimals)
    }

    pub(super) fn new(low: f64, high: f64, unit: impl Into<Text>, decimals: u8) -> Self {
        Self { low: nine_digits(low), high: nine_digits(high), unit: unit.into(), decimals }
    }
}

/// `x` to nine significant digits: more than any reading is worth, few enough to be the same on every machine.
pub(super) fn nine_digits(x: f64) -> f64 {
    if x == 0.0 || !x.is_finite() {
        return x;
    }
    let scale = 10f64.powi(8 - x.abs().log10().floor() as i32);
    // below 1e-300 the scale is no number
    if scale.is_finite() { (x * scale).round() / scale } else { x }
}

/// `x` to four significant digits: as far as anything computed of cars is worth, and the same on every machine.
pub(super) fn four_digits(x: f64) -> f64 {
    if x == 0.0 || !x.is_finite() {
        return x;
    }
    let scale = 10f64.powi(3 - x.abs().log10().floor() as i32);
    (x * scale).round() / scale
}

/// A verdict as a page shows it: position and probability.
#[derive(Debug, Clone, Copy, PartialEq)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(deny_unknown_fields))]
pub struct VerdictCell {
    /// Position of the value relative to the window: below, within or above.
    pub position: Position,
    /// Probability of the position given the instruments; `None` if agreement is all that can be stated.
    #[cfg_attr(feature = "serde", serde(default, skip_serializing_if = "Option::is_none"))]
    pub probability: Option<f64>,
}

impl From<Verdict> for VerdictCell {
    fn from(verdict: Verdict) -> Self {
        Self { position: verdict.position, probability: Some(nine_digits(verdict.probability)) }
    }
}

impl std::fmt::Display for Amount {
    /// In English.
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str(&NUMERALS.amount(self))
    }
}

impl std::fmt::Display for Span {
    /// In English.
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str(&NUMERALS.span(self))
    }
}

impl std::fmt::Display for VerdictCell {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str(position(self.position))?;
        self.probability.map_or(Ok(()), |probability| write!(f, " {}", in_brackets(probability)))
    }
}

/// A probability in brackets, never more certain than instruments can be.
pub(super) fn in_brackets(probability: f64) -> String {
    if probability > 0.99 { "(> 99 %)".to_owned() } else { format!("({:.0} %)", 100.0 * probability) }
}

#[cfg(test)]
mod tests {
    use approx::abs_diff_eq;

    use super::*;

    #[test]
    fn numbers_keep_the_digits_they_are_worth() {
        for (of, x, digits) in [
            (nine_digits as fn(f64) -> f64, 123_456.789_123, 123_456.789),
            (nine_digits, -0.001_234_567_891_23, -0.001_234_567_89),
            (nine_digits, 9_876_543_212.0, 9_876_543_210.0),
            (four_digits, 12_345.678, 12_350.0),
            (four_digits, -0.012_345, -0.012_35),
            (four_digits, 1.0, 1.0),
        ] {
            // the digits themselves but for rounding
            let allowed = 1e-12 * f64::abs(digits);
            assert!(abs_diff_eq!(of(x), digits, epsilon = allowed), "{x}: {} is not {digits}", of(x));
        }
        for of in [nine_digits, four_digits] {
            assert_eq!((of(0.0), of(f64::INFINITY)), (0.0, f64::INFINITY));
            assert!(of(f64::NAN).is_nan());
        }
        // its scale would be no number
        assert_eq!(nine_digits(1.5e-305), 1.5e-305);
        let amount = Amount::new(1.0 / 3.0, Some(2.0 / 3.0), "bar", 2);
        assert_eq!((amount.value, amount.plus_minus), (0.333_333_333, Some(0.666_666_667)));
        let rounded = amount.rounded();
        assert_eq!((rounded.value, rounded.plus_minus, rounded.decimals), (0.3333, Some(0.6667), 2));
        let span = Span::new(1.0 / 3.0, 2.0 / 3.0, "bar", 1);
        assert_eq!((span.low, span.high), (0.333_333_333, 0.666_666_667));
        let rounded = span.rounded();
        assert_eq!((rounded.low, rounded.high, &*rounded.unit), (0.3333, 0.6667, "bar"));
    }

    #[test]
    fn amounts_are_written_with_unit_and_interval() {
        let amount = Amount::new(55.04, Some(7.26), "°F", 1);
        assert_eq!(amount.to_string(), "55.0 ± 7.3 °F");
        assert_eq!(NUMERALS.plain(&amount), "55.0 °F");
        assert_eq!(NUMERALS.half_width(&amount), "7.3 °F");
        assert_eq!(NUMERALS.about(&amount), "about 55.0 °F (47.8 to 62.3)");
        let bare = Amount { plus_minus: None, ..amount };
        assert_eq!((bare.to_string(), NUMERALS.about(&bare)), ("55.0 °F".to_owned(), "about 55.0 °F".to_owned()));
        assert_eq!(NUMERALS.half_width(&bare), "0.0 °F");
        // what rounds to zero has no sign, what does not keeps it
        for (value, decimals, text) in
            [(-0.04, 1, "0.0 K"), (-0.4, 0, "0 K"), (-0.06, 1, "-0.1 K"), (-10.0, 0, "-10 K")]
        {
            assert_eq!(NUMERALS.plain(&Amount::new(value, None, "K", decimals)), text);
        }
        let span = Span::new(13.46, 28.51, "psi", 1);
        assert_eq!(
            (NUMERALS.bare_span(&span), span.to_string()),
            ("13.5-28.5".to_owned(), "13.5 to 28.5 psi".to_owned())
        );
    }

    #[test]
    fn a_verdict_has_its_probability_in_brackets() {
        for (probability, text) in [(0.5, "(50 %)"), (0.99, "(99 %)"), (0.991, "(> 99 %)"), (1.0, "(> 99 %)")] {
            assert_eq!(in_brackets(probability), text);
        }
        let verdict = Verdict { position: Position::Below, probability: 1.0 / 3.0 };
        let cell = VerdictCell::from(verdict);
        assert_eq!((cell.position, cell.probability), (Position::Below, Some(0.333_333_333)));
        assert_eq!(cell.to_string(), "below (33 %)");
        assert_eq!(VerdictCell { position: Position::Within, probability: None }.to_string(), "within");
    }
}
