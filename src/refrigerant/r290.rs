//! propane (CH3CH2CH3).

use super::fluid::{Boiling, CriticalPoint, Fluid, Gwp, GwpValue, LowerFlammability, SafetyClass};
use crate::quantity::{Density, MolarMass};
use crate::saturation::{Accuracy, Wagner};
use crate::{Fact, Pressure, Range, Ratio, Source, Temperature, TemperatureDifference, Trust};

/// The equation of state this fluid stands for.
const EQUATION: Source = Source {
    work: "Eric W. Lemmon, Mark O. McLinden, Wolfgang Wagner, Thermodynamic Properties of Propane. III. A Reference Equation of State for Temperatures from the Melting Line to 650 K and Pressures up to 1000 MPa, J. Chem. Eng. Data 54 (2009) 3141-3180",
    locator: "equation of state",
    doi: Some("10.1021/je900217v"),
    trust: Trust::Carried,
};

const COMPUTED: Source = Source { locator: "computed from the equation of state", trust: Trust::Computed, ..EQUATION };

/// What is known of the refrigerant.
pub const FLUID: Fluid = Fluid {
    designation: "R-290",
    names: &["R290", "HC-290", "propane"],
    chemical_name: "propane",
    formula: "CH3CH2CH3",
    composition: &[],
    cas: Some("74-98-6"),
    molar_mass: Fact { value: MolarMass::from_kg_per_mol(0.04409562), source: EQUATION },
    critical: Fact {
        value: CriticalPoint {
            temperature: Temperature::from_kelvin(369.89),
            pressure: Pressure::from_pa(4251200.0),
            density: Density::from_kg_per_m3(220.4781),
        },
        source: EQUATION,
    },
    triple_point: Some(Fact { value: Temperature::from_kelvin(85.525), source: EQUATION }),
    boiling: Fact { value: Boiling::At(Temperature::from_celsius(-42.114)), source: COMPUTED },
    safety_class: Fact {
        value: SafetyClass::A3,
        source: Source {
            work: "header of a NIST fluid file (quotes ASHRAE 34-2010)",
            locator: "",
            doi: None,
            trust: Trust::Excerpt,
        },
    },
    gwp: &[
        Gwp {
            report: "IPCC AR4",
            value: GwpValue::Is(3.3),
            source: Source {
                work: "header of a NIST fluid file (quotes ASHRAE 34-2010) (labelled IPCC 2007); indirect effects",
                locator: "",
                doi: None,
                trust: Trust::Excerpt,
            },
        },
        Gwp {
            report: "IPCC AR6",
            value: GwpValue::Is(0.02),
            source: Source {
                work: "IPCC AR6",
                locator: "WG1 tables, as carried by chemicals 1.5.2",
                doi: None,
                trust: Trust::Carried,
            },
        },
    ],
    flammability: &[
        Fact {
            value: LowerFlammability::Volume(Ratio::from_percent(1.7)),
            source: Source {
                work: "IEC 60079-20-1 (2010)",
                locator: "as carried by chemicals 1.5.2",
                doi: None,
                trust: Trust::Carried,
            },
        },
        Fact {
            value: LowerFlammability::Volume(Ratio::from_percent(2.1)),
            source: Source {
                work: "NFPA 497 (2008)",
                locator: "as carried by chemicals 1.5.2",
                doi: None,
                trust: Trust::Carried,
            },
        },
        Fact {
            value: LowerFlammability::Mass(Density::from_kg_per_m3(0.038)),
            source: Source { work: "ISO 817 / ASHRAE 34 figure", locator: "", doi: None, trust: Trust::FromMemory },
        },
    ],
    bubble: SATURATION,
    dew: SATURATION,
};

/// Saturation line, fitted to `tables/equation/r290.csv`; `examples/refit.rs` repeats the fit.
const SATURATION: Wagner = Wagner {
    critical_temperature: Temperature::from_kelvin(369.89),
    critical_pressure: Pressure::from_pa(4251164.6),
    terms: [
        (-6.8035207, 1.0),
        (2.0599323, 1.5),
        (-1.9352351, 2.0),
        (0.8503876, 2.5),
        (-2.7295701, 4.0),
        (-0.2146104, 7.0),
    ],
    valid: Range::new(Temperature::from_kelvin(85.525), Temperature::from_kelvin(369.89)),
    accuracy: [
        Accuracy {
            up_to: Temperature::from_kelvin(213.15),
            pressure: 0.0027,
            temperature: TemperatureDifference::from_kelvin_steps(0.0074),
        },
        Accuracy {
            up_to: Temperature::from_kelvin(233.15),
            pressure: 0.00019,
            temperature: TemperatureDifference::from_kelvin_steps(0.0035),
        },
        Accuracy {
            up_to: Temperature::from_kelvin(367.89),
            pressure: 8.7e-05,
            temperature: TemperatureDifference::from_kelvin_steps(0.0045),
        },
        Accuracy {
            up_to: Temperature::from_kelvin(369.89),
            pressure: 6.6e-05,
            temperature: TemperatureDifference::from_kelvin_steps(0.0037),
        },
    ],
    source: EQUATION,
};
