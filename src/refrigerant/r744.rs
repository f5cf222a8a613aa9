//! carbon dioxide (CO2).

use super::fluid::{Boiling, CriticalPoint, Fluid, Gwp, GwpValue, LowerFlammability, SafetyClass};
use crate::quantity::{Density, MolarMass};
use crate::saturation::{Accuracy, Wagner};
use crate::{Fact, Pressure, Range, Source, Temperature, TemperatureDifference, Trust};

/// The equation of state this fluid stands for.
const EQUATION: Source = Source {
    work: "R. Span, W. Wagner, A New Equation of State for Carbon Dioxide Covering the Fluid Region from the Triple Point Temperature to 1100 K at Pressures up to 800 MPa, J. Phys. Chem. Ref. Data 25 (1996) 1509-1596",
    locator: "equation of state",
    doi: Some("10.1063/1.555991"),
    trust: Trust::Carried,
};

/// What is known of the refrigerant.
pub const FLUID: Fluid = Fluid {
    designation: "R-744",
    names: &["R744", "CO2", "CO₂", "carbon dioxide"],
    chemical_name: "carbon dioxide",
    formula: "CO2",
    composition: &[],
    cas: Some("124-38-9"),
    molar_mass: Fact { value: MolarMass::from_kg_per_mol(0.0440098), source: EQUATION },
    critical: Fact {
        value: CriticalPoint {
            temperature: Temperature::from_kelvin(304.1282),
            pressure: Pressure::from_pa(7377300.0),
            density: Density::from_kg_per_m3(467.6),
        },
        source: EQUATION,
    },
    triple_point: Some(Fact { value: Temperature::from_kelvin(216.592), source: EQUATION }),
    boiling: Fact {
        value: Boiling::Sublimes(Temperature::from_celsius(-78.4)),
        source: Source {
            work: "2021 ASHRAE Handbook, Fundamentals (SI), chapter 29",
            locator: "table 5",
            doi: None,
            trust: Trust::Carried,
        },
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
            value: GwpValue::Is(1.0),
            source: Source {
                work: "IPCC AR4",
                locator: "WG1 tables, as carried by chemicals 1.5.2",
                doi: None,
                trust: Trust::Carried,
            },
        },
        Gwp {
            report: "IPCC AR5",
            value: GwpValue::Is(1.0),
            source: Source {
                work: "IPCC AR5",
                locator: "WG1 tables, as carried by chemicals 1.5.2",
                doi: None,
                trust: Trust::Carried,
            },
        },
        Gwp {
            report: "IPCC AR6",
            value: GwpValue::Is(1.0),
            source: Source {
                work: "IPCC AR6",
                locator: "WG1 tables, as carried by chemicals 1.5.2",
                doi: None,
                trust: Trust::Carried,
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
    bubble: SATURATION,
    dew: SATURATION,
};

/// Saturation line, fitted to `tables/equation/r744.csv`; `examples/refit.rs` repeats the fit.
const SATURATION: Wagner = Wagner {
    critical_temperature: Temperature::from_kelvin(304.1282),
    critical_pressure: Pressure::from_pa(7377298.4),
    terms: [
        (-7.0501853, 1.0),
        (1.7866027, 1.5),
        (-0.9349007, 2.0),
        (-1.0866395, 2.5),
        (-1.5851688, 4.0),
        (-10.6681614, 7.0),
    ],
    valid: Range::new(Temperature::from_kelvin(216.592), Temperature::from_kelvin(304.1282)),
    accuracy: [
        Accuracy {
            up_to: Temperature::from_kelvin(213.15),
            pressure: 0.0,
            temperature: TemperatureDifference::from_kelvin_steps(0.0),
        },
        Accuracy {
            up_to: Temperature::from_kelvin(233.15),
            pressure: 8.4e-06,
            temperature: TemperatureDifference::from_kelvin_steps(0.00021),
        },
        Accuracy {
            up_to: Temperature::from_kelvin(302.1282),
            pressure: 4.4e-06,
            temperature: TemperatureDifference::from_kelvin_steps(0.0002),
        },
        Accuracy {
            up_to: Temperature::from_kelvin(304.1282),
            pressure: 5.6e-06,
            temperature: TemperatureDifference::from_kelvin_steps(0.00025),
        },
    ],
    source: EQUATION,
};
