//! R-134a: 1,1,1,2-tetrafluoroethane (CH2FCF3).

use super::fluid::{Boiling, CriticalPoint, Fluid, Gwp, GwpValue, LowerFlammability, SafetyClass};
use crate::quantity::{Density, MolarMass};
use crate::saturation::{Accuracy, Wagner};
use crate::{Fact, Pressure, Range, Source, Temperature, TemperatureDifference, Trust};

/// The equation of state this fluid stands for.
const EQUATION: Source = Source {
    work: "R. Tillner-Roth, H. D. Baehr, An International Standard Formulation for the Thermodynamic Properties of 1,1,1,2-Tetrafluoroethane (HFC-134a) for Temperatures from 170 K to 455 K and Pressures up to 70 MPa, J. Phys. Chem. Ref. Data 23(5) (1994) 657-729",
    locator: "equation of state",
    doi: Some("10.1063/1.555958"),
    trust: Trust::Carried,
};

const COMPUTED: Source = Source { locator: "computed from the equation of state", trust: Trust::Computed, ..EQUATION };

/// What is known of the refrigerant.
pub const FLUID: Fluid = Fluid {
    designation: "R-134a",
    names: &["R134a", "134a", "HFC-134a"],
    chemical_name: "1,1,1,2-tetrafluoroethane",
    formula: "CH2FCF3",
    composition: &[],
    cas: Some("811-97-2"),
    molar_mass: Fact { value: MolarMass::from_kg_per_mol(0.102032), source: EQUATION },
    critical: Fact {
        value: CriticalPoint {
            temperature: Temperature::from_kelvin(374.21),
            pressure: Pressure::from_pa(4059280.0),
            density: Density::from_kg_per_m3(511.9),
        },
        source: EQUATION,
    },
    triple_point: Some(Fact { value: Temperature::from_kelvin(169.85), source: EQUATION }),
    boiling: Fact { value: Boiling::At(Temperature::from_celsius(-26.074)), source: COMPUTED },
    safety_class: Fact {
        value: SafetyClass::A1,
        source: Source {
            work: "International Mechanical Code table 1103.1 (classification of ASHRAE 34)",
            locator: "",
            doi: None,
            trust: Trust::Excerpt,
        },
    },
    gwp: &[
        Gwp {
            report: "IPCC AR4",
            value: GwpValue::Is(1430.0),
            source: Source {
                work: "IPCC AR4",
                locator: "WG1 tables, as carried by chemicals 1.5.2 and globalwarmingpotentials 0.13.2",
                doi: None,
                trust: Trust::Carried,
            },
        },
        Gwp {
            report: "IPCC AR5",
            value: GwpValue::Is(1300.0),
            source: Source {
                work: "IPCC AR5",
                locator: "WG1 tables, as carried by chemicals 1.5.2 and globalwarmingpotentials 0.13.2",
                doi: None,
                trust: Trust::Carried,
            },
        },
        Gwp {
            report: "IPCC AR6",
            value: GwpValue::Is(1530.0),
            source: Source {
                work: "IPCC AR6",
                locator: "WG1 tables, as carried by chemicals 1.5.2 and globalwarmingpotentials 0.13.2",
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

/// Saturation line, fitted to `tables/equation/r134a.csv`; `examples/refit.rs` repeats the fit.
const SATURATION: Wagner = Wagner {
    critical_temperature: Temperature::from_kelvin(374.21),
    critical_pressure: Pressure::from_pa(4059111.5),
    terms: [
        (-7.7421428, 1.0),
        (2.7475135, 1.5),
        (-3.1868683, 2.0),
        (1.0419405, 2.5),
        (-3.9237892, 4.0),
        (-0.7037995, 7.0),
    ],
    valid: Range::new(Temperature::from_kelvin(169.85), Temperature::from_kelvin(374.21)),
    accuracy: [
        Accuracy {
            up_to: Temperature::from_kelvin(213.15),
            pressure: 0.00025,
            temperature: TemperatureDifference::from_kelvin_steps(0.0023),
        },
        Accuracy {
            up_to: Temperature::from_kelvin(233.15),
            pressure: 3.7e-05,
            temperature: TemperatureDifference::from_kelvin_steps(0.00067),
        },
        Accuracy {
            up_to: Temperature::from_kelvin(372.21),
            pressure: 3.3e-05,
            temperature: TemperatureDifference::from_kelvin_steps(0.0016),
        },
        Accuracy {
            up_to: Temperature::from_kelvin(374.21),
            pressure: 1.4e-05,
            temperature: TemperatureDifference::from_kelvin_steps(0.00065),
        },
    ],
    source: EQUATION,
};
