//! How a language writes numbers: its decimal sign, and the few words that stand beside a number.

use crate::report::hold::FigureRow;
use crate::report::{Amount, Span};

/// Digits of a whole number from which on they are set in groups of three, in a language that groups: ISO 80000-1 and the RAE leave
/// four together (from memory).
const GROUPED_FROM: usize = 5;

/// How a language writes numbers, and the words that stand beside one.
#[doc(hidden)]
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Numerals {
    /// Decimal sign.
    pub point: char,
    /// Sign between groups of three digits of a whole number of five digits or more; `None` if they are not grouped.
    pub group: Option<char>,
    /// Between both ends of a range: "24 to 36 psi".
    pub to: &'static str,
    /// Before a number that is not exact: "about 55 °F".
    pub about: &'static str,
    /// Before a probability that is at least this: "over 98 %".
    pub over: &'static str,
    /// After the lower end of an interval without an upper one: "3 psi or more".
    pub or_more: &'static str,
    /// After the upper end of an interval without a lower one: "3 psi or less".
    pub or_less: &'static str,
    /// In the place of a number that the readings leave open.
    pub open: &'static str,
}

impl Numerals {
    /// `value` with so many decimals; one that rounds to zero has no sign.
    #[must_use]
    pub fn number(&self, value: f64, decimals: usize) -> String {
        let plain = format!("{value:.decimals$}");
        let zero = plain.chars().all(|c| matches!(c, '-' | '0' | '.'));
        self.written(if zero { plain.trim_start_matches('-') } else { &plain })
    }

    /// `value` with as many decimals as it has.
    pub(in crate::report) fn shortest(&self, value: f64) -> String {
        self.written(&value.to_string())
    }

    /// A number and its unit as they were entered and kept in a report: "86.5 °F".
    pub(in crate::report) fn entered(&self, entered: &str) -> String {
        let (number, unit) = entered.split_once(' ').unwrap_or((entered, ""));
        if number.parse::<f64>().is_err() {
            return entered.to_owned();
        }
        format!("{} {unit}", self.written(number)).trim_end().to_owned()
    }

    /// A number of Rust's in the signs of the language.
    fn written(&self, plain: &str) -> String {
        let (sign, digits) = plain.strip_prefix('-').map_or(("", plain), |digits| ("-", digits));
        let (whole, decimals) = digits.split_once('.').map_or((digits, None), |(whole, rest)| (whole, Some(rest)));
        let mut text = sign.to_owned();
        let grouped = whole.len() >= GROUPED_FROM && whole.bytes().all(|byte| byte.is_ascii_digit());
        for (place, digit) in whole.chars().enumerate() {
            let left = whole.len() - place;
            text.extend(self.group.filter(|_| grouped && place > 0 && left.is_multiple_of(3)));
            text.push(digit);
        }
        if let Some(decimals) = decimals {
            text.push(self.point);
            text += decimals;
        }
        text
    }

    /// Two digits.
    pub(in crate::report) fn digits(&self, value: f64) -> String {
        if value == 0.0 || !value.is_finite() {
            return value.to_string();
        }
        let place = value.abs().log10().floor() as i32 - 1;
        let scale = 10f64.powi(place);
        self.number((value / scale).round() * scale, usize::try_from(-place).unwrap_or(0))
    }

    /// A probability in percent, never put as certain: "47 %", "over 98 %".
    pub(in crate::report) fn percent(&self, probability: f64) -> String {
        match 100.0 * probability {
            p if p > 98.0 => format!("{} 98 %", self.over),
            p => format!("{} %", self.number(p, 0)),
        }
    }

    /// Both ends of a range: "24 to 36".
    pub(in crate::report) fn range(&self, low: f64, high: f64, decimals: usize) -> String {
        format!("{} {} {}", self.number(low, decimals), self.to, self.number(high, decimals))
    }

    /// An amount with its interval: "30 ± 2 psi".
    pub(in crate::report) fn amount(&self, amount: &Amount) -> String {
        match amount.plus_minus {
            Some(half) => {
                let number = self.number(amount.value, usize::from(amount.decimals));
                format!("{number} ± {} {}", self.number(half, usize::from(amount.decimals)), amount.unit)
            }
            None => self.plain(amount),
        }
    }

    /// An amount without its interval.
    pub(in crate::report) fn plain(&self, amount: &Amount) -> String {
        format!("{} {}", self.number(amount.value, usize::from(amount.decimals)), amount.unit)
    }

    /// Half the width of an amount's interval with the unit: "1.8 kPa".
    pub(in crate::report) fn half_width(&self, amount: &Amount) -> String {
        let half = amount.plus_minus.unwrap_or(0.0);
        format!("{} {}", self.number(half, usize::from(amount.decimals)), amount.unit)
    }

    /// "about 55 °F (48 to 62)".
    pub(in crate::report) fn about(&self, amount: &Amount) -> String {
        let interval = amount.plus_minus.map_or(String::new(), |half| {
            format!(" ({})", self.range(amount.value - half, amount.value + half, usize::from(amount.decimals)))
        });
        format!("{} {}{interval}", self.about, self.plain(amount))
    }

    /// "24 to 36 psi".
    pub(in crate::report) fn span(&self, span: &Span) -> String {
        format!("{} {}", self.range(span.low, span.high, usize::from(span.decimals)), span.unit)
    }

    /// "13.5-28.5", for a table whose head names the unit.
    pub(in crate::report) fn bare_span(&self, span: &Span) -> String {
        let decimals = usize::from(span.decimals);
        format!("{}-{}", self.number(span.low, decimals), self.number(span.high, decimals))
    }

    /// A span, one number where both ends are written alike: "24 to 36 psi", "24 psi".
    pub(in crate::report) fn joined(&self, span: &Span) -> String {
        let Span { low, high, unit, decimals } = span;
        let decimals = usize::from(*decimals);
        if format!("{low:.decimals$}") == format!("{high:.decimals$}") {
            format!("{} {unit}", self.number(*low, decimals))
        } else {
            self.span(span)
        }
    }

    /// A value of `row` with the digits that its interval is worth.
    pub(in crate::report) fn figure<Q>(&self, row: &FigureRow<Q>, value: f64) -> String {
        match usize::try_from(row.decimals) {
            Ok(decimals) => self.number(value, decimals),
            Err(_) => {
                let worth = 10f64.powi(-i32::from(row.decimals));
                self.number((value / worth).round() * worth, 0)
            }
        }
    }

    /// Best value of a figure.
    pub(in crate::report) fn best<Q>(&self, row: &FigureRow<Q>) -> String {
        row.interval.value.map_or(self.open.to_owned(), |value| {
            format!("{} {}", self.figure(row, value), row.unit).trim_end().to_owned()
        })
    }

    /// Best value of a figure without its unit.
    pub(in crate::report) fn bare<Q>(&self, row: &FigureRow<Q>) -> String {
        row.interval.value.map_or(self.open.to_owned(), |value| self.figure(row, value))
    }

    /// Interval of a figure.
    pub(in crate::report) fn interval<Q>(&self, row: &FigureRow<Q>) -> String {
        let end = |end: Option<f64>| end.map(|value| self.figure(row, value));
        match (end(row.interval.low), end(row.interval.high)) {
            (Some(low), Some(high)) => format!("{low} {} {high} {}", self.to, row.unit).trim_end().to_owned(),
            (Some(low), None) => format!("{low} {} {}", row.unit, self.or_more),
            (None, Some(high)) => format!("{high} {} {}", row.unit, self.or_less),
            (None, None) if row.alone => String::new(),
            (None, None) => self.open.to_owned(),
        }
    }
}

#[cfg(test)]
mod tests {
    use crate::report::Language;

    #[test]
    fn numbers_have_the_signs_of_the_language() {
        let (english, spanish) = (Language::English.words().numerals(), Language::Spanish.words().numerals());
        for (value, decimals, one, other) in [
            (2.25, 1, "2.2", "2,2"),
            (-0.04, 1, "0.0", "0,0"),
            (-0.06, 1, "-0.1", "-0,1"),
            (1470.0, 0, "1470", "1470"),
            (9999.5, 1, "9999.5", "9999,5"),
            (14_700.0, 0, "14700", "14\u{202f}700"),
            (-123_456.78, 2, "-123456.78", "-123\u{202f}456,78"),
            (1_234_567.0, 0, "1234567", "1\u{202f}234\u{202f}567"),
            (f64::INFINITY, 1, "inf", "inf"),
        ] {
            assert_eq!(
                (english.number(value, decimals).as_str(), spanish.number(value, decimals).as_str()),
                (one, other)
            );
        }
        for (entered, other) in
            [("86.5 °F", "86,5 °F"), ("-20 inHg", "-20 inHg"), ("55 %", "55 %"), ("by eye 1.5", "by eye 1.5")]
        {
            assert_eq!((english.entered(entered).as_str(), spanish.entered(entered).as_str()), (entered, other));
        }
        assert_eq!((english.shortest(1.6), spanish.shortest(1.6)), ("1.6".to_owned(), "1,6".to_owned()));
        assert_eq!((english.percent(0.471), spanish.percent(0.999)), ("47 %".to_owned(), "más del 98 %".to_owned()));
        assert_eq!((english.digits(0.01234), spanish.digits(0.01234)), ("0.012".to_owned(), "0,012".to_owned()));
        assert_eq!(english.range(24.0, 36.5, 1), "24.0 to 36.5");
        assert_eq!(spanish.range(24.0, 36.5, 1), "24,0 a 36,5");
    }
}
