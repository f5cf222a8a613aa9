//! Temperature, and the difference between two temperatures.

use super::{Quantity, affine, linear, quantity, text_of, unit_enum};

/// 0 °C in kelvin, by definition.
const ICE_POINT: f64 = 273.15;
/// 0 °F in kelvin: 32 °F is 0 °C and a step of 1 °F is 5/9 K, by definition.
const ZERO_FAHRENHEIT: f64 = ICE_POINT - 32.0 / 1.8;

/// Units of temperature readings.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
#[non_exhaustive]
pub enum TemperatureUnit {
    /// Degree Celsius.
    Celsius,
    /// Degree Fahrenheit.
    Fahrenheit,
    /// Kelvin.
    Kelvin,
}

impl TemperatureUnit {
    /// Unit of a difference between two temperatures of this unit.
    pub const fn step(self) -> StepUnit {
        match self {
            Self::Fahrenheit => StepUnit::Fahrenheit,
            Self::Celsius | Self::Kelvin => StepUnit::Kelvin,
        }
    }
}

impl super::Unit for TemperatureUnit {
    const ALL: &'static [Self] = &[Self::Celsius, Self::Fahrenheit, Self::Kelvin];
    fn symbol(self) -> &'static str {
        match self {
            Self::Celsius => "°C",
            Self::Fahrenheit => "°F",
            Self::Kelvin => "K",
        }
    }
    fn spellings(self) -> &'static [&'static str] {
        match self {
            Self::Celsius => &["C", "c", "degC", "deg C", "ºC", "℃", "celsius"],
            Self::Fahrenheit => &["F", "f", "degF", "deg F", "ºF", "℉", "fahrenheit"],
            Self::Kelvin => &["kelvin"],
        }
    }
}

/// Temperature on a scale: a reading, not a difference.
///
/// Two temperatures subtract to a difference and do not add:
///
/// ```
/// # use approx::assert_abs_diff_eq;
/// # use satline::{Temperature, TemperatureDifference};
/// let superheat = Temperature::from_celsius(8.0) - Temperature::from_celsius(1.4);
/// // rounding
/// assert_abs_diff_eq!(superheat.kelvins(), 6.6, epsilon = 1e-12);
/// assert_abs_diff_eq!(superheat.fahrenheit_steps(), 11.88, epsilon = 1e-12);
/// assert_abs_diff_eq!(Temperature::from_celsius(10.0).fahrenheit(), 50.0, epsilon = 1e-12);
/// ```
/// ```compile_fail,E0308
/// # use satline::Temperature;
/// let wrong = Temperature::from_celsius(8.0) + Temperature::from_celsius(1.4);
/// ```
/// A difference does not have the accessors of a reading, so 10 K can never be shown as 50 °F:
///
/// ```compile_fail,E0599
/// # use satline::TemperatureDifference;
/// let wrong = TemperatureDifference::from_kelvins(10.0).fahrenheit();
/// ```
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd)]
pub struct Temperature(f64);

impl Temperature {
    /// Temperature from kelvin.
    pub const fn from_kelvin(value: f64) -> Self {
        Self(value)
    }
    /// Temperature from degrees Celsius.
    pub const fn from_celsius(value: f64) -> Self {
        Self(value + ICE_POINT)
    }
    /// Temperature from degrees Fahrenheit.
    pub const fn from_fahrenheit(value: f64) -> Self {
        Self(value / 1.8 + ZERO_FAHRENHEIT)
    }
    /// Temperature in kelvin.
    pub const fn kelvin(self) -> f64 {
        self.0
    }
    /// Temperature in degrees Celsius.
    pub const fn celsius(self) -> f64 {
        self.0 - ICE_POINT
    }
    /// Temperature in degrees Fahrenheit.
    pub const fn fahrenheit(self) -> f64 {
        (self.0 - ZERO_FAHRENHEIT) * 1.8
    }
}

impl Quantity for Temperature {
    type Unit = TemperatureUnit;
    type Difference = TemperatureDifference;
    const NAME: &'static str = "temperature";
    const EXAMPLE: &'static str = "30 °C";
    fn new(value: f64, unit: TemperatureUnit) -> Self {
        match unit {
            TemperatureUnit::Celsius => Self::from_celsius(value),
            TemperatureUnit::Fahrenheit => Self::from_fahrenheit(value),
            TemperatureUnit::Kelvin => Self::from_kelvin(value),
        }
    }
    fn value_in(self, unit: TemperatureUnit) -> f64 {
        let near = match unit {
            TemperatureUnit::Celsius => self.celsius(),
            TemperatureUnit::Fahrenheit => self.fahrenheit(),
            TemperatureUnit::Kelvin => return self.kelvin(),
        };
        super::fewest_decimals(near, |value| Self::new(value, unit) == self)
    }
    fn si(self) -> f64 {
        self.0
    }
    fn from_si(value: f64) -> Self {
        Self(value)
    }
}

text_of!(Temperature);

unit_enum! {
    /// Units of a temperature difference.
    StepUnit {
        /// Difference of one kelvin, which is also a difference of one degree Celsius.
        Kelvin = 1.0, "K", "°C", "C", "degC";
        /// Difference of one degree Fahrenheit, 5/9 K by definition.
        Fahrenheit = 1.0 / 1.8, "°F", "F", "degF";
    }
}

quantity! {
    /// Difference between two temperatures, such as superheat, subcooling, glide or an uncertainty.
    TemperatureDifference, "temperature difference", "6 K", StepUnit, difference TemperatureDifference,
    { from_kelvins kelvins Kelvin; from_fahrenheit_steps fahrenheit_steps Fahrenheit; }
}

linear! { TemperatureDifference }
affine! { Temperature by TemperatureDifference; }
