//! Quantities written as text: "32 psi", "95 °F", "-20 inHg".

use core::fmt::{self, Write};

use super::{Measured, Quantity, Unit};
use crate::Error;
#[cfg(not(feature = "std"))]
use crate::float::Float as _;

/// Quantity together with the unit and the number of decimals in which it was stated.
///
/// What was typed comes back as it was typed, a decimal comma as a point. A comma before exactly three digits may separate
/// thousands and is refused:
///
/// ```
/// # #[cfg(feature = "std")] {
/// use approx::assert_abs_diff_eq;
/// use satline::{GaugePressure, Entered, Temperature};
/// let low: Entered<GaugePressure> = "-20.0 inHg".parse()?;
/// assert_eq!(low.to_string(), "-20.0 inHg");
/// assert_abs_diff_eq!(low.quantity().kpa(), -67.728, epsilon = 1e-3); // its last digit
/// let ambient: Temperature = "95 °F".parse()?;
/// assert_abs_diff_eq!(ambient.celsius(), 35.0, epsilon = 1e-12); // rounding
/// assert_eq!("2,2 bar".parse::<Entered<GaugePressure>>()?.to_string(), "2.2 bar");
/// assert_eq!(
///     "1,500 kPa".parse::<GaugePressure>().unwrap_err().to_string(),
///     "gauge pressure: the comma in \"1,500 kPa\" is not accepted; \
///      write the decimal sign as a point, thousands without a sign"
/// );
/// # }
/// # Ok::<(), satline::Error>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Entered<Q: Quantity> {
    pub(super) quantity: Q,
    /// Number as typed, which the quantity alone may reproduce only to its last place.
    pub(super) number: f64,
    pub(super) unit: Q::Unit,
    pub(super) decimals: usize,
}

/// Largest magnitude of a number in its unit and in SI units, our choice: its square is finite, and so is a sum of
/// many.
pub(crate) const LARGEST: f64 = 1e150;
/// More decimals than any number needs; text with more is read but written with these.
pub(super) const MOST_DECIMALS: usize = 340;

impl<Q: Quantity> Entered<Q> {
    /// Stated quantity from `quantity`, to be written in `unit` with `decimals` digits after the point.
    pub fn new(quantity: Q, unit: Q::Unit, decimals: usize) -> Self {
        Self { quantity, number: quantity.value_in(unit), unit, decimals: decimals.min(MOST_DECIMALS) }
    }
    /// Quantity without its unit and decimals.
    pub fn quantity(&self) -> Q {
        self.quantity
    }
    /// Unit in which the quantity is stated.
    pub fn unit(&self) -> Q::Unit {
        self.unit
    }
    /// Number of digits after the point.
    pub fn decimals(&self) -> usize {
        self.decimals
    }
    /// Number as written before the unit.
    pub fn number(&self) -> f64 {
        self.number
    }
    /// Quantity with the standard uncertainty of its last digit: it was rounded by half a unit of that at most.
    ///
    /// # Errors
    /// As [`Measured::new`].
    pub fn as_typed(&self) -> Result<Measured<Q>, Error> {
        let half = 0.5 * 10f64.powi(-(self.decimals as i32));
        let rounded_up = Q::new(self.number + half, self.unit);
        Measured::within(self.quantity, Q::Difference::from_si(rounded_up.si() - self.quantity.si()))
    }
}

/// Units whose instruments always read from vacuum.
const ALWAYS_ABSOLUTE: [&str; 1] = ["micron"];

/// Whether a number in `unit` would be taken for an absolute pressure, where `Q` is one above the surrounding air.
pub(super) fn reads_as_absolute<Q: Quantity>(unit: Q::Unit) -> bool {
    Q::REFERENCE == Some("gauge") && ALWAYS_ABSOLUTE.contains(&unit.symbol())
}

/// Number as typed and the symbol of the unit; sign, precision, width, fill and alignment of the format are respected. A gauge pressure
/// in micron says that it is one, as in "-750062 micron gauge": the unit alone counts from vacuum.
impl<Q: Quantity> fmt::Display for Entered<Q> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let decimals = f.precision().unwrap_or(self.decimals);
        let number = Decimal::new(self.number, Some(decimals), f.sign_plus());
        let reference = if reads_as_absolute::<Q>(self.unit) { " gauge" } else { "" };
        padded(f, format_args!("{number} {}{reference}", self.unit.symbol()))
    }
}

/// `quantity` in its most usual unit, as the format asks.
pub(crate) fn write_usual<Q: Quantity>(quantity: Q, f: &mut fmt::Formatter<'_>) -> fmt::Result {
    let Some(&unit) = Q::Unit::ALL.first() else { return Err(fmt::Error) };
    let number = Decimal::new(quantity.value_in(unit), f.precision(), f.sign_plus());
    padded(f, format_args!("{number} {}", unit.symbol()))
}

/// Number with so many decimals, or as many as it takes; never a negative zero, which reads as a misprint.
pub(crate) struct Decimal {
    number: f64,
    decimals: Option<usize>,
    plus: bool,
}

impl Decimal {
    pub(crate) fn new(number: f64, decimals: Option<usize>, plus: bool) -> Self {
        Self { number, decimals: decimals.map(|decimals| decimals.min(MOST_DECIMALS)), plus }
    }

    /// The number without its sign.
    fn write_size(&self, to: &mut impl Write) -> fmt::Result {
        let size = self.number.abs();
        match self.decimals {
            Some(decimals) => write!(to, "{size:.decimals$}"),
            // what would be a row of zeros is shorter with an exponent
            None if size != 0.0 && !(1e-6..1e17).contains(&size) && size.is_finite() => write!(to, "{size:e}"),
            None => write!(to, "{size}"),
        }
    }
}

impl fmt::Display for Decimal {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let mut zero = OnlyZeros(true);
        self.write_size(&mut zero)?;
        if self.number < 0.0 && !zero.0 {
            f.write_char('-')?;
        } else if self.plus {
            f.write_char('+')?;
        }
        self.write_size(f)
    }
}

/// Whether what is written to it is zeros and a point alone.
struct OnlyZeros(bool);

impl Write for OnlyZeros {
    fn write_str(&mut self, text: &str) -> fmt::Result {
        self.0 &= text.chars().all(|c| c == '0' || c == '.');
        Ok(())
    }
}

/// Number of characters written to it.
struct Count(usize);

impl Write for Count {
    fn write_str(&mut self, text: &str) -> fmt::Result {
        self.0 += text.chars().count();
        Ok(())
    }
}

/// `text` in the width, with the fill and the alignment of `f`; to the right unless it says otherwise, as numbers go.
pub(crate) fn padded(f: &mut fmt::Formatter<'_>, text: fmt::Arguments<'_>) -> fmt::Result {
    let Some(width) = f.width() else { return f.write_fmt(text) };
    let mut count = Count(0);
    count.write_fmt(text)?;
    let space = width.saturating_sub(count.0);
    let before = match f.align() {
        Some(fmt::Alignment::Left) => 0,
        Some(fmt::Alignment::Center) => space / 2,
        Some(fmt::Alignment::Right) | None => space,
    };
    let fill = f.fill();
    let repeat = |count: usize, f: &mut fmt::Formatter<'_>| (0..count).try_for_each(|_| f.write_char(fill));
    repeat(before, f)?;
    f.write_fmt(text)?;
    repeat(space - before, f)
}

/// Of the numbers for which `is_it`, the one of fewest decimals; `near` is one of them or a last place or two beside them.
pub(crate) fn fewest_decimals(near: f64, is_it: impl Fn(f64) -> bool) -> f64 {
    /// Whole numbers above this have no tenths.
    const WHOLE: f64 = 9_007_199_254_740_992.0;
    let mut scale = 1.0;
    // a power of ten up to 10²² is exact, so that the quotient is the number nearest to the decimal
    for _ in 0..=22 {
        let scaled = near * scale;
        if scaled.abs() >= WHOLE {
            break;
        }
        let short = scaled.round() / scale;
        if is_it(short) {
            return short;
        }
        scale *= 10.0;
    }
    let digits = |digits: usize| {
        let mut text = Short::default();
        write!(text, "{near:.digits$e}").ok()?;
        text.as_str()?.parse::<f64>().ok()
    };
    let mut others = (0..17).filter_map(digits).chain([near, near.next_up(), near.next_down()]);
    others.find(|&number| is_it(number)).unwrap_or(near)
}

/// Text short enough for any number of seventeen digits, such as -1.7976931348623157e308.
#[derive(Default)]
struct Short {
    bytes: [u8; 24],
    length: usize,
}

impl Short {
    fn as_str(&self) -> Option<&str> {
        core::str::from_utf8(self.bytes.get(..self.length)?).ok()
    }
}

impl Write for Short {
    fn write_str(&mut self, text: &str) -> fmt::Result {
        let end = self.length + text.len();
        self.bytes.get_mut(self.length..end).ok_or(fmt::Error)?.copy_from_slice(text.as_bytes());
        self.length = end;
        Ok(())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn of_the_numbers_that_will_do_the_shortest_is_written() {
        for (near, within, shortest) in [
            (0.1 + 0.2, 1e-15, 0.3),
            (123_456.4, 50.0, 123_456.0),
            (-7.49, 0.02, -7.5),
            (2.500_000_000_000_000_4e-30, 1e-45, 2.5e-30),
            (1e300_f64.next_up(), 1e285, 1e300),
            (9.007_199_254_740_994e15, 0.0, 9_007_199_254_740_994.0),
        ] {
            let found = fewest_decimals(near, |number| (number - near).abs() <= within);
            assert_eq!(found, shortest, "{near}");
        }
    }
}
