//! Data sheet of a refrigerant: its type and the types of its fields.

use core::fmt;

use crate::helmholtz::Equation;
use crate::quantity::MolarMass;
use crate::saturation::{Curve, Dome, Wagner};
use crate::{Pressure, Ratio, Refrigerant, Source, Sourced, Temperature, quantity::Density};

/// Data sheet of a refrigerant, each fact with its source.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub struct Fluid {
    /// Designation by ISO 817 and ASHRAE 34.
    pub designation: &'static str,
    /// Other names in use.
    pub names: &'static [&'static str],
    /// Chemical name, or the components of a blend.
    pub chemical_name: &'static str,
    /// Chemical formula; empty for a blend.
    pub formula: &'static str,
    /// Components of a blend by mass; empty for a pure fluid.
    pub composition: &'static [Component],
    /// CAS registry number; `None` for a blend.
    pub cas: Option<&'static str>,
    /// Molar mass used in the equation of state.
    pub molar_mass: Sourced<MolarMass>,
    /// Critical point of the equation of state.
    pub critical: Sourced<CriticalPoint>,
    /// Triple-point temperature; `None` for a blend.
    pub triple_point: Option<Sourced<Temperature>>,
    /// Boiling or sublimation at 101.325 kPa.
    pub boiling: Sourced<Boiling>,
    /// Safety class by ASHRAE 34 and ISO 817.
    pub safety_class: Sourced<SafetyClass>,
    /// Global warming potentials over 100 years, one for each report that lists the refrigerant.
    pub gwp: &'static [Gwp],
    /// Lower flammability limits, as published.
    pub flammability: &'static [Sourced<LowerFlammability>],
    /// Equation of state in the Helmholtz energy.
    pub equation: Equation,
    /// Bubble line in Wagner's form; the same as the dew line for a pure fluid.
    pub bubble: Wagner,
    /// Dew line in Wagner's form.
    pub dew: Wagner,
    /// Bubble line as piecewise polynomials, used for evaluation; the same as the dew line's for a pure fluid.
    #[doc(hidden)]
    pub bubble_curve: &'static Curve<'static>,
    /// Dew line as piecewise polynomials, used for evaluation.
    #[doc(hidden)]
    pub dew_curve: &'static Curve<'static>,
    /// Densities, enthalpies and entropies of saturated liquid and vapour; `None` for a blend.
    #[doc(hidden)]
    pub dome: Option<&'static Dome<'static>>,
}

/// Component of a blend.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub struct Component {
    /// Pure fluid of the component.
    pub refrigerant: Refrigerant,
    /// Mass fraction of the component.
    pub mass_share: Ratio,
}

/// Critical point: temperature, pressure and density.
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

/// Change of phase of a refrigerant at the standard atmosphere.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Boiling {
    /// Boiling at one temperature, the normal boiling point.
    At(Temperature),
    /// Boiling from the bubble point to the dew point.
    Between {
        /// Bubble-point temperature.
        bubble: Temperature,
        /// Dew-point temperature.
        dew: Temperature,
    },
    /// Sublimation from solid to vapour at this temperature, since there is no liquid at this pressure.
    Sublimes(Temperature),
}

/// Safety class: toxicity letter and flammability class.
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
    /// Whether the refrigerant can burn in air in the test of its class.
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

/// Global warming potential over 100 years, CO₂ = 1.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub struct Gwp {
    /// Report that states the value, such as "IPCC AR6".
    pub report: &'static str,
    /// Global warming potential, or its upper bound.
    pub value: GwpValue,
    /// Source in which the value was read.
    pub source: Source,
}

/// Global warming potential as stated: a value, or an upper bound if the source gives no more.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub enum GwpValue {
    /// Stated value.
    Is(f64),
    /// Upper bound, stated as "less than".
    Below(f64),
}

/// Lower flammability limit: the leanest mixture with air that burns.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub enum LowerFlammability {
    /// No limit: no flame propagates in the class test.
    None,
    /// Volume fraction of refrigerant in the mixture.
    Volume(Ratio),
    /// Mass of refrigerant per unit volume of the mixture.
    Mass(Density),
    /// Mass of refrigerant per unit volume of the mixture at a stated temperature; at room temperature no flame
    /// propagates.
    MassAt(Density, Temperature),
}
