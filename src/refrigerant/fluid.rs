//! The form of a fluid's data file.

use std::fmt;

use crate::helmholtz::Equation;
use crate::quantity::MolarMass;
use crate::saturation::{Curve, Dome, Wagner};
use crate::{Pressure, Ratio, Refrigerant, Source, Sourced, Temperature, quantity::Density};

/// What is known of a refrigerant, each fact with its source.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub struct Fluid {
    /// The designation of ISO 817 and ASHRAE 34.
    pub designation: &'static str,
    /// Other names people use.
    pub names: &'static [&'static str],
    /// Chemical name, or what a blend is made of.
    pub chemical_name: &'static str,
    /// Chemical formula; empty for a blend.
    pub formula: &'static str,
    /// What a blend is made of, by mass; empty for a pure fluid.
    pub composition: &'static [Component],
    /// CAS registry number; `None` for a blend.
    pub cas: Option<&'static str>,
    /// Molar mass, as the equation of state uses it.
    pub molar_mass: Sourced<MolarMass>,
    /// Critical point of the equation of state.
    pub critical: Sourced<CriticalPoint>,
    /// Triple point; `None` for a blend.
    pub triple_point: Option<Sourced<Temperature>>,
    /// What happens at 101.325 kPa.
    pub boiling: Sourced<Boiling>,
    /// Safety class of ASHRAE 34 and ISO 817.
    pub safety_class: Sourced<SafetyClass>,
    /// Global warming potential over 100 years, one per report that lists it.
    pub gwp: &'static [Gwp],
    /// Lower flammability limits, as published.
    pub flammability: &'static [Sourced<LowerFlammability>],
    /// The equation of state.
    pub equation: Equation,
    /// Bubble line; the same as the dew line for a pure fluid.
    pub bubble: Wagner,
    /// Dew line.
    pub dew: Wagner,
    /// Bubble line as piecewise polynomials, which answer; the same as the dew line's for a pure fluid.
    #[doc(hidden)]
    pub bubble_curve: &'static Curve<'static>,
    /// Dew line as piecewise polynomials, which answer.
    #[doc(hidden)]
    pub dew_curve: &'static Curve<'static>,
    /// Densities, enthalpies and entropies of both phases; `None` for a blend.
    #[doc(hidden)]
    pub dome: Option<&'static Dome<'static>>,
}

/// One part of a blend.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub struct Component {
    /// The pure fluid.
    pub refrigerant: Refrigerant,
    /// Its share of the mass.
    pub mass_share: Ratio,
}

/// Where liquid and vapour become one.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub struct CriticalPoint {
    /// Critical temperature.
    pub temperature: Temperature,
    /// Critical pressure.
    pub pressure: Pressure,
    /// Critical density.
    pub density: Density,
}

/// What a refrigerant does at the standard atmosphere.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Boiling {
    /// Boils at one temperature.
    At(Temperature),
    /// Starts to boil at the bubble point and has boiled away at the dew point.
    Between {
        /// First bubble.
        bubble: Temperature,
        /// Last drop.
        dew: Temperature,
    },
    /// Has no liquid at this pressure and passes from solid to vapour.
    Sublimes(Temperature),
}

/// Safety class: toxicity letter and flammability number.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
#[non_exhaustive]
pub enum SafetyClass {
    /// Lower toxicity, no flame propagation.
    A1,
    /// Lower toxicity, lower flammability, burning velocity at most 10 cm/s.
    A2L,
    /// Lower toxicity, lower flammability.
    A2,
    /// Lower toxicity, higher flammability.
    A3,
}

impl SafetyClass {
    /// Whether it can burn in air in the test of the class.
    pub const fn is_flammable(self) -> bool {
        !matches!(self, Self::A1)
    }
}

impl fmt::Display for SafetyClass {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::A1 => "A1",
            Self::A2L => "A2L",
            Self::A2 => "A2",
            Self::A3 => "A3",
        })
    }
}

/// A global warming potential over 100 years, CO₂ = 1.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub struct Gwp {
    /// The report that states it, such as "IPCC AR6".
    pub report: &'static str,
    /// The value.
    pub value: GwpValue,
    /// Where it was read.
    pub source: Source,
}

/// A value, or the bound that is all a source gives.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub enum GwpValue {
    /// The value.
    Is(f64),
    /// Less than this.
    Below(f64),
}

/// The leanest mixture with air that burns.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub enum LowerFlammability {
    /// None: no flame propagates in the class test.
    None,
    /// Share of the volume.
    Volume(Ratio),
    /// Mass per volume of the mixture.
    Mass(Density),
    /// Mass per volume at a stated temperature; `None` at room temperature.
    MassAt(Density, Temperature),
}
