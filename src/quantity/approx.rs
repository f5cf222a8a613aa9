//! Closeness of quantities in tests: the traits of the crate `approx`, with tolerances that carry a unit.
//!
//! The tolerance of a comparison is of the type of the difference, [`Quantity::Difference`]: two temperatures lie within an
//! interval of each other, never within a temperature; two gauge pressures within a pressure difference; two masses within a
//! mass.
//!
//! ```
//! use approx::{assert_abs_diff_eq, assert_ulps_eq};
//! use satline::{Mass, Temperature, TemperatureDifference};
//! let (exact, shown) = (Temperature::from_celsius(30.2), Temperature::from_fahrenheit(86.0));
//! assert_abs_diff_eq!(exact, shown, epsilon = TemperatureDifference::from_fahrenheit_steps(0.5)); // whole degrees
//! assert_ulps_eq!(Mass::from_oz(16.0), Mass::from_lb(1.0)); // the same but for the rounding of two conversions
//! ```
//! A reading is no tolerance, and neither is a bare number:
//!
//! ```compile_fail,E0308
//! use satline::Temperature;
//! let (a, b) = (Temperature::from_fahrenheit(86.0), Temperature::from_fahrenheit(86.1));
//! approx::assert_abs_diff_eq!(a, b, epsilon = Temperature::from_fahrenheit(0.2));
//! ```
//! ```compile_fail,E0308
//! use satline::Temperature;
//! let (a, b) = (Temperature::from_fahrenheit(86.0), Temperature::from_fahrenheit(86.1));
//! approx::assert_abs_diff_eq!(a, b, epsilon = 0.2);
//! ```
//! Absolute and gauge pressure are not compared at all:
//!
//! ```compile_fail,E0308
//! use satline::{GaugePressure, Pressure};
//! approx::assert_abs_diff_eq!(Pressure::from_psi(30.0), GaugePressure::from_psi(30.0));
//! ```
//!
//! **Default tolerance** The default of `f64`, in the SI unit of the quantity: a quantity compares as its number does. At
//! 100 kPa or 300 K that is less than one step of the number, so that without a stated tolerance such values have to be
//! equal. No wider default has a reason that fits a saturation table as well as a gauge.
//!
//! **Relative tolerance** `approx` gives the share of `assert_relative_eq!` the type of the tolerance. A share is a pure
//! number, so one per cent of a pressure would have to be written as a pressure: only [`Ratio`] has that trait. Other
//! quantities are divided:
//!
//! ```
//! use approx::{assert_abs_diff_eq, assert_relative_eq};
//! use satline::{Pressure, Ratio};
//! let (ours, printed) = (Pressure::from_kpa(292.81), Pressure::from_kpa(292.8));
//! assert_abs_diff_eq!(ours / printed, 1.0, epsilon = 1e-4); // printed with four digits
//! let (ours, printed) = (Ratio::from_percent(56.42), Ratio::from_percent(56.4));
//! assert_relative_eq!(ours, printed, max_relative = Ratio::from_percent(0.1)); // printed with three digits
//! ```
//! ```compile_fail,E0277
//! use satline::{Pressure, PressureDifference};
//! let (ours, printed) = (Pressure::from_kpa(292.81), Pressure::from_kpa(292.8));
//! approx::assert_relative_eq!(ours, printed, max_relative = PressureDifference::from_pa(1e-4));
//! ```

use ::approx::{AbsDiffEq, RelativeEq, UlpsEq};

use super::*;

/// Closeness within a difference, and within steps of the number in SI units.
macro_rules! close {
    ($($name:ident)*) => { $(
        /// Closeness within a difference. The default, as of `f64`, forgives less than one step of a usual value in SI units.
        impl AbsDiffEq for $name {
            type Epsilon = <Self as Quantity>::Difference;
            fn default_epsilon() -> Self::Epsilon {
                Quantity::from_si(f64::default_epsilon())
            }
            fn abs_diff_eq(&self, other: &Self, epsilon: Self::Epsilon) -> bool {
                self.si().abs_diff_eq(&other.si(), epsilon.si())
            }
        }

        /// Closeness within steps between neighbouring numbers in SI units, by default four as of `f64`.
        impl UlpsEq for $name {
            fn default_max_ulps() -> u32 {
                f64::default_max_ulps()
            }
            fn ulps_eq(&self, other: &Self, epsilon: Self::Epsilon, max_ulps: u32) -> bool {
                self.si().ulps_eq(&other.si(), epsilon.si(), max_ulps)
            }
        }
    )* };
}

close! {
    Pressure GaugePressure PressureDifference Temperature TemperatureDifference
    Mass Volume Length Ratio Density SpecificEnthalpy SpecificEntropy Power MolarMass
    DynamicViscosity ThermalConductivity SurfaceTension Time PressureRate Throughput MassRate
}

/// Closeness within a share of the larger: the only quantity whose tolerance can be a share. Defaults as of `f64`.
impl RelativeEq for Ratio {
    fn default_max_relative() -> Self {
        Self::from_si(f64::default_max_relative())
    }
    fn relative_eq(&self, other: &Self, epsilon: Self, max_relative: Self) -> bool {
        self.si().relative_eq(&other.si(), epsilon.si(), max_relative.si())
    }
}

/// Ranges whose ends are close, end by end.
impl<Q: AbsDiffEq> AbsDiffEq for Range<Q>
where
    Q::Epsilon: Copy,
{
    type Epsilon = Q::Epsilon;
    fn default_epsilon() -> Q::Epsilon {
        Q::default_epsilon()
    }
    fn abs_diff_eq(&self, other: &Self, epsilon: Q::Epsilon) -> bool {
        self.low.abs_diff_eq(&other.low, epsilon) && self.high.abs_diff_eq(&other.high, epsilon)
    }
}

/// Ranges whose ends are close, end by end.
impl<Q: UlpsEq> UlpsEq for Range<Q>
where
    Q::Epsilon: Copy,
{
    fn default_max_ulps() -> u32 {
        Q::default_max_ulps()
    }
    fn ulps_eq(&self, other: &Self, epsilon: Q::Epsilon, max_ulps: u32) -> bool {
        self.low.ulps_eq(&other.low, epsilon, max_ulps) && self.high.ulps_eq(&other.high, epsilon, max_ulps)
    }
}
