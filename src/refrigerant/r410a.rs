//! R-410A: R-32/125.

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
    designation: "R-410A",
    names: &["R410A", "410A"],
    chemical_name: "R-32/125",
    formula: "",
    composition: &[
        Component { refrigerant: Refrigerant::R32, mass_share: Ratio::from_percent(50.0) },
        Component { refrigerant: Refrigerant::R125, mass_share: Ratio::from_percent(50.0) },
    ],
    cas: None,
    molar_mass: Fact { value: MolarMass::from_kg_per_mol(0.0725854), source: EQUATION },
    critical: Fact {
        value: CriticalPoint {
            temperature: Temperature::from_kelvin(344.494),
            pressure: Pressure::from_pa(4901200.0),
            density: Density::from_kg_per_m3(459.0301),
        },
        source: EQUATION,
    },
    triple_point: None,
    boiling: Fact {
        value: Boiling::Between { bubble: Temperature::from_celsius(-51.442), dew: Temperature::from_celsius(-51.364) },
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
            value: GwpValue::Is(2088.0),
            source: Source {
                work: "mass-weighted from the components",
                locator: "",
                doi: None,
                trust: Trust::Computed,
            },
        },
        Gwp {
            report: "IPCC AR5",
            value: GwpValue::Is(1924.0),
            source: Source {
                work: "mass-weighted from the components",
                locator: "",
                doi: None,
                trust: Trust::Computed,
            },
        },
        Gwp {
            report: "IPCC AR6",
            value: GwpValue::Is(2256.0),
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
const BUBBLE: Wagner = Wagner {
    critical_temperature: Temperature::from_kelvin(344.494),
    critical_pressure: Pressure::from_pa(4901200.0),
    terms: [(-7.2818, 1.0), (2.5093, 1.8), (-3.2695, 2.4), (-2.8022, 4.9), (0.0, 1.0), (0.0, 1.0)],
    valid: Range::new(Temperature::from_kelvin(200.0), Temperature::from_kelvin(344.494)),
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
            up_to: Temperature::from_kelvin(342.494),
            pressure: 0.0,
            temperature: TemperatureDifference::from_kelvin_steps(0.0),
        },
        Accuracy {
            up_to: Temperature::from_kelvin(344.494),
            pressure: 0.0,
            temperature: TemperatureDifference::from_kelvin_steps(0.0),
        },
    ],
    source: EQUATION,
};

/// Dew line, as published with the equation of state.
const DEW: Wagner = Wagner {
    critical_temperature: Temperature::from_kelvin(344.494),
    critical_pressure: Pressure::from_pa(4901200.0),
    terms: [(-7.4411, 1.0), (1.9883, 1.6), (-2.4925, 2.4), (-3.2633, 5.0), (0.0, 1.0), (0.0, 1.0)],
    valid: Range::new(Temperature::from_kelvin(200.0), Temperature::from_kelvin(344.494)),
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
            up_to: Temperature::from_kelvin(342.494),
            pressure: 0.0,
            temperature: TemperatureDifference::from_kelvin_steps(0.0),
        },
        Accuracy {
            up_to: Temperature::from_kelvin(344.494),
            pressure: 0.0,
            temperature: TemperatureDifference::from_kelvin_steps(0.0),
        },
    ],
    source: EQUATION,
};
