//! R-404A: R-125/143a/134a.

use super::fluid::{Boiling, Component, CriticalPoint, Fluid, Gwp, GwpValue, LowerFlammability, SafetyClass};
use crate::quantity::{Density, MolarMass};
use crate::saturation::{Accuracy, Wagner};
use crate::{Fact, Pressure, Range, Ratio, Refrigerant, Source, Temperature, TemperatureDifference, Trust};

/// The equation of state this fluid stands for.
const EQUATION: Source = Source {
    work: "E.W. Lemmon, Pseudo-Pure Fluid Equations of State for the Refrigerant Blends R-410A, R-404A, R-507A, and R-407C, Int. J. Thermophys. 24(4) (2003) 991-1006",
    locator: "equation of state",
    doi: Some("10.1023/A:1025048800563"),
    trust: Trust::Carried,
};

const COMPUTED: Source = Source { locator: "computed from the equation of state", trust: Trust::Computed, ..EQUATION };

/// What is known of the refrigerant.
pub const FLUID: Fluid = Fluid {
    designation: "R-404A",
    names: &["R404A", "404A"],
    chemical_name: "R-125/143a/134a",
    formula: "",
    composition: &[
        Component { refrigerant: Refrigerant::R125, mass_share: Ratio::from_percent(44.0) },
        Component { refrigerant: Refrigerant::R143a, mass_share: Ratio::from_percent(52.0) },
        Component { refrigerant: Refrigerant::R134a, mass_share: Ratio::from_percent(4.0) },
    ],
    cas: None,
    molar_mass: Fact { value: MolarMass::from_kg_per_mol(0.0976038), source: EQUATION },
    critical: Fact {
        value: CriticalPoint {
            temperature: Temperature::from_kelvin(345.27),
            pressure: Pressure::from_pa(3734800.0),
            density: Density::from_kg_per_m3(482.1628),
        },
        source: EQUATION,
    },
    triple_point: None,
    boiling: Fact {
        value: Boiling::Between { bubble: Temperature::from_celsius(-46.222), dew: Temperature::from_celsius(-45.472) },
        source: COMPUTED,
    },
    safety_class: Fact {
        value: SafetyClass::A1,
        source: Source {
            work: "CoolProp 8.0.0 fluid data (edition of ASHRAE 34 not stated)",
            locator: "",
            doi: None,
            trust: Trust::Carried,
        },
    },
    gwp: &[
        Gwp {
            report: "IPCC AR4",
            value: GwpValue::Is(3922.0),
            source: Source {
                work: "mass-weighted from the components",
                locator: "",
                doi: None,
                trust: Trust::Computed,
            },
        },
        Gwp {
            report: "IPCC AR5",
            value: GwpValue::Is(3943.0),
            source: Source {
                work: "mass-weighted from the components",
                locator: "",
                doi: None,
                trust: Trust::Computed,
            },
        },
        Gwp {
            report: "IPCC AR6",
            value: GwpValue::Is(4728.0),
            source: Source {
                work: "mass-weighted from the components",
                locator: "",
                doi: None,
                trust: Trust::Computed,
            },
        },
    ],
    flammability: &[Fact {
        value: LowerFlammability::None,
        source: Source {
            work: "class 1: no flame propagation in the class test",
            locator: "",
            doi: None,
            trust: Trust::Reasoned,
        },
    }],
    bubble: BUBBLE,
    dew: DEW,
};

/// Bubble line, as published with the equation of state.
///
/// The bubble line rises above its reference pressure from 345.264 K and turns over at 345.269 K, 0.001 K below its end;
/// the range of both lines ends before that.
const BUBBLE: Wagner = Wagner {
    critical_temperature: Temperature::from_kelvin(345.27),
    critical_pressure: Pressure::from_pa(3734800.0),
    terms: [(0.061067, 0.54), (-6.5646, 0.965), (-3.6162, 3.7), (-3.9771, 9.0), (0.0, 1.0), (0.0, 1.0)],
    valid: Range::new(Temperature::from_kelvin(200.0), Temperature::from_kelvin(345.26)),
    accuracy: [
        Accuracy {
            up_to: Temperature::from_kelvin(213.15),
            pressure: 0.0,
            temperature: TemperatureDifference::from_kelvin_steps(0.0),
        },
        Accuracy {
            up_to: Temperature::from_kelvin(233.15),
            pressure: 0.0,
            temperature: TemperatureDifference::from_kelvin_steps(0.0),
        },
        Accuracy {
            up_to: Temperature::from_kelvin(343.27),
            pressure: 0.0,
            temperature: TemperatureDifference::from_kelvin_steps(0.0),
        },
        Accuracy {
            up_to: Temperature::from_kelvin(345.27),
            pressure: 0.0,
            temperature: TemperatureDifference::from_kelvin_steps(0.0),
        },
    ],
    source: EQUATION,
};

/// Dew line, as published with the equation of state.
///
/// The bubble line rises above its reference pressure from 345.264 K and turns over at 345.269 K, 0.001 K below its end;
/// the range of both lines ends before that.
const DEW: Wagner = Wagner {
    critical_temperature: Temperature::from_kelvin(345.27),
    critical_pressure: Pressure::from_pa(3734800.0),
    terms: [(-0.00026863, 0.1), (-6.5757, 0.972), (-4.1802, 3.8), (-7.9102, 9.0), (0.0, 1.0), (0.0, 1.0)],
    valid: Range::new(Temperature::from_kelvin(200.0), Temperature::from_kelvin(345.26)),
    accuracy: [
        Accuracy {
            up_to: Temperature::from_kelvin(213.15),
            pressure: 0.0,
            temperature: TemperatureDifference::from_kelvin_steps(0.0),
        },
        Accuracy {
            up_to: Temperature::from_kelvin(233.15),
            pressure: 0.0,
            temperature: TemperatureDifference::from_kelvin_steps(0.0),
        },
        Accuracy {
            up_to: Temperature::from_kelvin(343.27),
            pressure: 0.0,
            temperature: TemperatureDifference::from_kelvin_steps(0.0),
        },
        Accuracy {
            up_to: Temperature::from_kelvin(345.27),
            pressure: 0.0,
            temperature: TemperatureDifference::from_kelvin_steps(0.0),
        },
    ],
    source: EQUATION,
};
