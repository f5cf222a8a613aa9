//! Physical quantities as types that cannot be mixed up.
//!
//! Every type holds one number in SI units. Units appear only in names (`from_psi`, `kpa`) and in the unit types
//! (such as [`PressureUnit`]) that [`Entered`] uses to read and write text.
//!
//! A quantity prints in its most usual unit, the first of its [`Unit::ALL`], with as many digits as distinguish it from the
//! neighbouring numbers, or with the precision of the format:
//!
//! ```
//! use satline::Pressure;
//! let p = Pressure::from_kpa(292.8);
//! assert_eq!(p.to_string(), "292.8 kPa");
//! assert_eq!(format!("{p:>12.1}"), "   292.8 kPa");
//! ```
//!
//! Two pairs look alike and are not: [`Pressure`] is measured from vacuum, [`GaugePressure`] from the surrounding air;
//! [`Temperature`] is a point on the scale, [`TemperatureDifference`] an interval. Neither pair converts silently.
//!
//! With feature `approx`, quantities and ranges of them have the traits of the crate `approx`, and a test states its tolerance in a
//! unit:
//!
//! ```
//! # #[cfg(feature = "approx")]
//! # fn main() -> Result<(), satline::Error> {
//! use approx::assert_abs_diff_eq;
//! use satline::{Pressure, Refrigerant, Temperature, TemperatureDifference};
//! let boiling = Refrigerant::R134a.saturation_temperature(Pressure::from_kpa(292.8))?;
//! assert_abs_diff_eq!(boiling, Temperature::from_celsius(0.0), epsilon = TemperatureDifference::from_kelvins(0.01));
//! # Ok(())
//! # }
//! # #[cfg(not(feature = "approx"))]
//! # fn main() {}
//! ```
//! The tolerance is of the type of the difference ([`Quantity::Difference`]); a temperature is no tolerance of a temperature. The
//! default is that of `f64` in SI units, less than one step of a usual value. A relative tolerance is a pure number: divide, as in
//! `assert_abs_diff_eq!(a / b, 1.0, epsilon = 1e-3)`, or compare within steps of the number by `assert_ulps_eq!`.
//!
//! Quantities, their constructors and accessors, and the units of pressure and temperature are stable. The units of the other
//! quantities are reached by [`Quantity::Unit`] and [`Unit::ALL`]; their enums may change in any version.

#[cfg(feature = "approx")]
mod approx;
pub mod instrument;
mod measured;
pub(crate) mod normal;
#[cfg(feature = "std")]
mod parse;
mod pressure;
mod range;
mod temperature;
mod text;
#[doc(hidden)]
pub mod units;

pub use measured::Measured;
#[doc(hidden)]
pub use measured::Uncertainty;
pub(crate) use normal::{K95, SQRT_3};
#[cfg(any(feature = "diagnosis", feature = "fit"))]
pub(crate) use parse::find_unit;
#[cfg(feature = "service")]
pub(crate) use parse::symbols as unit_symbols;
#[cfg(feature = "std")]
pub use parse::unit_named;
pub use pressure::{GaugePressure, Pressure, PressureDifference, PressureUnit};
pub use range::{Position, Range};
pub use temperature::{Temperature, TemperatureDifference, TemperatureUnit};
pub use text::Entered;
pub(crate) use text::LARGEST;
#[doc(hidden)]
pub use units::*;

/// Unit of measurement of one kind of quantity.
pub trait Unit: Copy + PartialEq + core::fmt::Debug + 'static {
    /// All units of this kind, the most usual first.
    const ALL: &'static [Self];
    /// Symbol of the unit as written after a number.
    fn symbol(self) -> &'static str;
    /// Other spellings accepted when reading text.
    fn spellings(self) -> &'static [&'static str];
}

/// Physical quantity: a number in SI units and the units it can be stated in.
pub trait Quantity: Copy + PartialEq + PartialOrd + core::fmt::Debug + core::fmt::Display + 'static {
    /// Units of this quantity.
    type Unit: Unit;
    /// Type of the difference of two values: the quantity itself, or an interval type for readings with a zero of their
    /// own.
    type Difference: Quantity;
    /// Name of the quantity in messages.
    const NAME: &'static str;
    /// Well-formed text, shown when a text is refused.
    const EXAMPLE: &'static str;
    /// Quantity of `value` in `unit`.
    fn new(value: f64, unit: Self::Unit) -> Self;
    /// Value in `unit`: of the numbers that give exactly this quantity, the one with the fewest decimals.
    ///
    /// A number of up to fifteen digits comes back as it was given to [`Quantity::new`], of a temperature as far as it differs
    /// from its neighbours in kelvin. The named accessors divide once, which is faster and may miss the last place.
    ///
    /// ```
    /// # #[cfg(feature = "std")] {
    /// use satline::GaugePressure;
    /// use satline::quantity::{PressureUnit, Quantity};
    /// let low: GaugePressure = "30 psi".parse()?;
    /// assert_eq!(low.value_in(PressureUnit::Psi), 30.0);
    /// # }
    /// # Ok::<(), satline::Error>(())
    /// ```
    fn value_in(self, unit: Self::Unit) -> f64;
    /// Value in the SI unit of the quantity.
    fn si(self) -> f64;
    /// Quantity from its value in SI units.
    fn from_si(value: f64) -> Self;
    /// Same quantity, to be written in `unit` with `decimals` digits after the point.
    ///
    /// ```
    /// use satline::quantity::{GaugePressure, PressureUnit, Quantity};
    /// assert_eq!(GaugePressure::from_bar(2.2).entered(PressureUnit::Psi, 1).to_string(), "31.9 psi");
    /// ```
    fn entered(self, unit: Self::Unit, decimals: usize) -> Entered<Self> {
        Entered::new(self, unit, decimals)
    }
    /// Reference that the quantity is measured from, if its units are written with a mark for it: "gauge" as in psig,
    /// "absolute" as in psia.
    const REFERENCE: Option<&'static str> = None;
}

/// Units of one kind: their size in SI units, symbol and spellings.
macro_rules! unit_enum {
    ($(#[$doc:meta])* $name:ident { $($(#[$vdoc:meta])* $variant:ident = $factor:expr, $symbol:literal $(, $spelling:literal)*;)* }) => {
        $(#[$doc])*
        #[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
        #[non_exhaustive]
        pub enum $name { $($(#[$vdoc])* $variant,)* }

        impl $name {
            /// Size of one unit in the SI unit of the quantity, written as its definition.
            pub const fn factor(self) -> f64 {
                match self { $(Self::$variant => $factor,)* }
            }
        }

        impl $crate::quantity::Unit for $name {
            const ALL: &'static [Self] = &[$(Self::$variant,)*];
            fn symbol(self) -> &'static str {
                match self { $(Self::$variant => $symbol,)* }
            }
            fn spellings(self) -> &'static [&'static str] {
                match self { $(Self::$variant => &[$($spelling,)*],)* }
            }
        }
    };
}

/// Quantity that is a multiple of its unit, with a named constructor and accessor for each unit.
macro_rules! quantity {
    ($(#[$doc:meta])* $name:ident, $what:literal, $example:literal, $unit:ident, difference $difference:ident $(, reference $reference:literal)?,
     { $($from:ident $get:ident $variant:ident;)* }) => {
        $(#[$doc])*
        #[derive(Debug, Clone, Copy, PartialEq, PartialOrd)]
        pub struct $name(f64);

        impl $name {
            $(
                #[doc = concat!(
                    "`", stringify!($name), "` from a value in [`", stringify!($unit), "::", stringify!($variant), "`]."
                )]
                pub const fn $from(value: f64) -> Self { Self(value * $unit::$variant.factor()) }
                #[doc = concat!("Value in [`", stringify!($unit), "::", stringify!($variant), "`].")]
                pub const fn $get(self) -> f64 { self.0 / $unit::$variant.factor() }
            )*
        }

        impl $crate::quantity::Quantity for $name {
            type Unit = $unit;
            type Difference = $difference;
            const NAME: &'static str = $what;
            const EXAMPLE: &'static str = $example;
            $(const REFERENCE: Option<&'static str> = Some($reference);)?
            fn new(value: f64, unit: $unit) -> Self { Self(value * unit.factor()) }
            fn value_in(self, unit: $unit) -> f64 {
                $crate::quantity::fewest_decimals(self.0 / unit.factor(), |value| value * unit.factor() == self.0)
            }
            fn si(self) -> f64 { self.0 }
            fn from_si(value: f64) -> Self { Self(value) }
        }

        $crate::quantity::text_of!($name);
    };
}

/// Sums and multiples, for quantities whose zero means none.
macro_rules! linear {
    ($($name:ident)*) => { $(
        impl core::ops::Add for $name { type Output = Self; fn add(self, other: Self) -> Self { Self(self.0 + other.0) } }
        impl core::ops::Sub for $name { type Output = Self; fn sub(self, other: Self) -> Self { Self(self.0 - other.0) } }
        impl core::ops::Neg for $name { type Output = Self; fn neg(self) -> Self { Self(-self.0) } }
        impl core::ops::Mul<f64> for $name { type Output = Self; fn mul(self, by: f64) -> Self { Self(self.0 * by) } }
        impl core::ops::Div<f64> for $name { type Output = Self; fn div(self, by: f64) -> Self { Self(self.0 / by) } }
        /// Ratio of the two quantities.
        impl core::ops::Div for $name { type Output = f64; fn div(self, by: Self) -> f64 { self.0 / by.0 } }
        impl core::iter::Sum for $name {
            fn sum<I: Iterator<Item = Self>>(all: I) -> Self { Self(all.map(|one| one.0).sum()) }
        }
        impl<'a> core::iter::Sum<&'a Self> for $name {
            fn sum<I: Iterator<Item = &'a Self>>(all: I) -> Self { all.copied().sum() }
        }
    )* };
}

/// Interval added to, or found between, readings that have a zero of their own.
macro_rules! affine {
    ($($name:ident by $difference:ident;)*) => { $(
        impl core::ops::Add<$difference> for $name {
            type Output = Self;
            fn add(self, step: $difference) -> Self { Self(self.0 + $crate::quantity::Quantity::si(step)) }
        }
        impl core::ops::Sub<$difference> for $name {
            type Output = Self;
            fn sub(self, step: $difference) -> Self { Self(self.0 - $crate::quantity::Quantity::si(step)) }
        }
        impl core::ops::Sub for $name {
            type Output = $difference;
            fn sub(self, other: Self) -> $difference { $crate::quantity::Quantity::from_si(self.0 - other.0) }
        }
    )* };
}

/// Multiples and ratios of a reading on an absolute scale: absolute pressure is on one, gauge pressure is not.
macro_rules! ratio_scale {
    ($($name:ident)*) => { $(
        impl core::ops::Mul<f64> for $name { type Output = Self; fn mul(self, by: f64) -> Self { Self(self.0 * by) } }
        impl core::ops::Div<f64> for $name { type Output = Self; fn div(self, by: f64) -> Self { Self(self.0 / by) } }
        /// Ratio of the two quantities.
        impl core::ops::Div for $name { type Output = f64; fn div(self, by: Self) -> f64 { self.0 / by.0 } }
    )* };
}

/// Text and, with feature `serde`, serialisation of a quantity: always a number with its unit.
macro_rules! text_of {
    ($name:ident) => {
        /// Text in the most usual unit; sign, precision, width, fill and alignment of the format are respected.
        impl core::fmt::Display for $name {
            fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
                $crate::quantity::write_usual(*self, f)
            }
        }

        #[cfg(feature = "std")]
        impl core::str::FromStr for $name {
            type Err = $crate::Error;
            fn from_str(text: &str) -> Result<Self, $crate::Error> {
                text.parse::<$crate::quantity::Entered<Self>>().map(|stated| stated.quantity())
            }
        }

        #[cfg(feature = "serde")]
        impl serde::Serialize for $name {
            fn serialize<S: serde::Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
                serializer.collect_str(&$crate::quantity::Exactly(*self))
            }
        }

        #[cfg(feature = "serde")]
        impl<'de> serde::Deserialize<'de> for $name {
            fn deserialize<D: serde::Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
                let text = <std::borrow::Cow<'de, str> as serde::Deserialize>::deserialize(deserializer)?;
                text.parse().map_err(serde::de::Error::custom)
            }
        }
    };
}

#[cfg(feature = "serde")]
use parse::Exactly;
use text::{fewest_decimals, write_usual};
use {affine, linear, quantity, ratio_scale, text_of, unit_enum};

quantity! {
    /// Mass, such as a charge of refrigerant. Its ounce is the ounce of weight, never of volume.
    ///
    /// ```
    /// # use approx::assert_abs_diff_eq;
    /// # use satline::quantity::Mass;
    /// assert_abs_diff_eq!(Mass::from_oz(16.0).g(), 453.592_37, epsilon = 1e-9); // exact by definition: rounding
    /// ```
    Mass, "mass", "450 g", MassUnit, difference Mass,
    { from_g g Gram; from_kg kg Kilogram; from_oz oz Ounce; from_lb lb Pound; }
}

quantity! {
    /// Volume, such as an amount of oil.
    ///
    /// ```
    /// # #[cfg(feature = "std")] {
    /// # use approx::assert_abs_diff_eq;
    /// # use satline::quantity::Volume;
    /// // exact by definition: rounding
    /// assert_abs_diff_eq!(Volume::from_us_fluid_ounces(1.0).ml(), 29.573_529_562_5, epsilon = 1e-9);
    /// // exact by definition: rounding
    /// assert_abs_diff_eq!(Volume::from_imperial_fluid_ounces(1.0).ml(), 28.413_062_5, epsilon = 1e-9);
    /// assert!("8 fl oz".parse::<Volume>().is_err()); // which of the two?
    /// # }
    /// ```
    Volume, "volume", "150 cm³", VolumeUnit, difference Volume,
    {
        from_cm3 cm3 CubicCentimetre; from_ml ml Millilitre; from_l l Litre; from_m3 m3 CubicMetre;
        from_us_fluid_ounces us_fluid_ounces UsFluidOunce;
        from_imperial_fluid_ounces imperial_fluid_ounces ImperialFluidOunce;
    }
}

quantity! {
    /// Length, such as altitude above sea level.
    Length, "altitude", "300 m", LengthUnit, difference Length,
    { from_m m Metre; from_ft ft Foot; from_km km Kilometre; }
}

quantity! {
    /// Dimensionless ratio, such as relative humidity or vapour quality.
    ///
    /// ```
    /// # #[cfg(feature = "std")] {
    /// # use satline::quantity::Ratio;
    /// assert_eq!("55%".parse::<Ratio>(), Ok(Ratio::from_percent(55.0)));
    /// # }
    /// ```
    Ratio, "ratio", "55 %", RatioUnit, difference Ratio,
    { from_percent percent Percent; from_fraction fraction Fraction; }
}

quantity! {
    /// Density: mass per unit volume, for example in kg/m³.
    Density, "density", "1206.7 kg/m³", DensityUnit, difference Density,
    { from_kg_per_m3 kg_per_m3 KilogramPerCubicMetre; from_g_per_cm3 g_per_cm3 GramPerCubicCentimetre; }
}

quantity! {
    /// Enthalpy per unit mass, for example in kJ/kg.
    SpecificEnthalpy, "specific enthalpy", "200 kJ/kg", EnthalpyUnit, difference SpecificEnthalpy,
    { from_kj_per_kg kj_per_kg KilojoulePerKilogram; from_j_per_kg j_per_kg JoulePerKilogram; }
}

quantity! {
    /// Entropy per unit mass, for example in kJ/(kg K).
    SpecificEntropy, "specific entropy", "1 kJ/(kg K)", EntropyUnit, difference SpecificEntropy,
    { from_kj_per_kg_k kj_per_kg_k KilojoulePerKilogramKelvin; from_j_per_kg_k j_per_kg_k JoulePerKilogramKelvin; }
}

quantity! {
    /// Power, such as cooling capacity.
    Power, "power", "4.5 kW", PowerUnit, difference Power,
    { from_w w Watt; from_kw kw Kilowatt; }
}

quantity! {
    /// Molar mass: mass per amount of substance, for example in g/mol.
    MolarMass, "molar mass", "102.03 g/mol", MolarMassUnit, difference MolarMass,
    { from_g_per_mol g_per_mol GramPerMole; from_kg_per_mol kg_per_mol KilogramPerMole; }
}

quantity! {
    /// Dynamic viscosity: shear stress over shear rate.
    ///
    /// ```
    /// # #[cfg(feature = "std")] {
    /// # use satline::quantity::DynamicViscosity;
    /// assert_eq!("0.2 cP".parse::<DynamicViscosity>(), Ok(DynamicViscosity::from_mpa_s(0.2)));
    /// # }
    /// ```
    DynamicViscosity, "dynamic viscosity", "198 µPa s", DynamicViscosityUnit, difference DynamicViscosity,
    { from_upa_s upa_s MicropascalSecond; from_mpa_s mpa_s MillipascalSecond; from_pa_s pa_s PascalSecond; }
}

quantity! {
    /// Thermal conductivity: heat flux over temperature gradient.
    ThermalConductivity, "thermal conductivity", "81.1 mW/(m K)", ThermalConductivityUnit,
    difference ThermalConductivity,
    { from_mw_per_m_k mw_per_m_k MilliwattPerMetreKelvin; from_w_per_m_k w_per_m_k WattPerMetreKelvin; }
}

quantity! {
    /// Surface tension: force per unit length of the surface's edge.
    SurfaceTension, "surface tension", "8.0 mN/m", SurfaceTensionUnit, difference SurfaceTension,
    { from_mn_per_m mn_per_m MillinewtonPerMetre; from_n_per_m n_per_m NewtonPerMetre; }
}

quantity! {
    /// Duration, such as the time of a vacuum hold.
    ///
    /// ```
    /// # #[cfg(feature = "std")] {
    /// # use satline::quantity::Time;
    /// assert_eq!("5 min".parse::<Time>(), Ok(Time::from_seconds(300.0)));
    /// # }
    /// ```
    Time, "time", "5 min", TimeUnit, difference Time,
    { from_minutes minutes Minute; from_seconds seconds Second; from_hours hours Hour; from_days days Day; from_years years Year; }
}

quantity! {
    /// Rate of pressure rise, for example in micron/min.
    ///
    /// ```
    /// # use approx::assert_abs_diff_eq;
    /// # use satline::quantity::PressureRate;
    /// // its last digit
    /// assert_abs_diff_eq!(PressureRate::from_microns_per_minute(60.0).pa_per_s(), 0.133_322, epsilon = 1e-6);
    /// ```
    PressureRate, "rate of pressure", "20 micron/min", PressureRateUnit, difference PressureRate,
    {
        from_pa_per_s pa_per_s PascalPerSecond; from_kpa_per_minute kpa_per_minute KilopascalPerMinute;
        from_microns_per_minute microns_per_minute MicronPerMinute; from_inhg_per_minute inhg_per_minute InchOfMercuryPerMinute;
    }
}

quantity! {
    /// Throughput of gas, pressure × volume per unit time; at a given temperature it is an amount of gas per unit time.
    ///
    /// ```
    /// # #[cfg(feature = "std")] {
    /// # use satline::quantity::Throughput;
    /// assert_eq!("1 mbar L/s".parse::<Throughput>(), Ok(Throughput::from_pa_m3_per_s(0.1)));
    /// # }
    /// ```
    Throughput, "throughput", "1e-5 Pa m³/s", ThroughputUnit, difference Throughput,
    { from_pa_m3_per_s pa_m3_per_s PascalCubicMetrePerSecond; from_pa_l_per_s pa_l_per_s PascalLitrePerSecond; from_mbar_l_per_s mbar_l_per_s MillibarLitrePerSecond; }
}

quantity! {
    /// Mass lost per unit time, such as a refrigerant leak.
    ///
    /// ```
    /// # #[cfg(feature = "std")] {
    /// # use approx::assert_abs_diff_eq;
    /// # use satline::quantity::MassRate;
    /// // half its last digit
    /// assert_abs_diff_eq!("0.5 oz/yr".parse::<MassRate>()?.g_per_year(), 14.2, epsilon = 0.05);
    /// # }
    /// # Ok::<(), satline::Error>(())
    /// ```
    MassRate, "loss of mass", "14 g/yr", MassRateUnit, difference MassRate,
    { from_g_per_year g_per_year GramPerYear; from_oz_per_year oz_per_year OuncePerYear; from_kg_per_s kg_per_s KilogramPerSecond; }
}

linear! {
    Mass Volume Length Ratio Density SpecificEnthalpy SpecificEntropy Power MolarMass
    DynamicViscosity ThermalConductivity SurfaceTension Time PressureRate Throughput MassRate
}
