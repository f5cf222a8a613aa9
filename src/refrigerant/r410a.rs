//! R-410A: R-32/125.

use super::curves;
use super::fluid::{Boiling, Component, CriticalPoint, Fluid, Gwp, GwpValue, LowerFlammability, SafetyClass};
use crate::helmholtz::terms::{Ancillary, Exponential, Ideal, PlanckEinstein, Residual, Series};
use crate::helmholtz::{Equation, Limits};
use crate::quantity::{Density, MolarMass};
use crate::saturation::{Accuracy, Wagner};
use crate::{Pressure, Range, Ratio, Refrigerant, Source, Sourced, Temperature, TemperatureDifference, Trust};

/// Source of the equation of state.
pub(super) const EQUATION: Source = Source {
    work: "E.W. Lemmon, Pseudo-Pure Fluid Equations of State for the Refrigerant Blends R-410A, R-404A, R-507A, and R-407C, Int. J. Thermophys. 24(4) (2003) 991-1006",
    locator: "equation of state",
    doi: Some("10.1023/A:1025048800563"),
    trust: Trust::Secondary,
};

const COMPUTED: Source = Source { locator: "computed from the equation of state", trust: Trust::Computed, ..EQUATION };

/// Data sheet of the refrigerant.
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
    molar_mass: Sourced { value: MolarMass::from_kg_per_mol(0.0725854), source: EQUATION },
    critical: Sourced {
        value: CriticalPoint {
            temperature: Temperature::from_kelvin(344.494),
            pressure: Pressure::from_pa(4901200.0),
            density: Density::from_kg_per_m3(459.0301),
        },
        source: EQUATION,
    },
    triple_point: None,
    boiling: Sourced {
        value: Boiling::Between { bubble: Temperature::from_celsius(-51.442), dew: Temperature::from_celsius(-51.364) },
        source: COMPUTED,
    },
    safety_class: Sourced {
        value: SafetyClass::A1,
        source: Source {
            work: "CoolProp 8.0.0 fluid data (edition of ASHRAE 34 not stated)",
            locator: "",
            doi: None,
            trust: Trust::Secondary,
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
    flammability: &[Sourced {
        value: LowerFlammability::None,
        source: Source {
            work: "class 1: no flame propagation in the class test",
            locator: "",
            doi: None,
            trust: Trust::Reasoned,
        },
    }],
    equation: HELMHOLTZ,
    bubble: BUBBLE,
    dew: DEW,
    bubble_curve: &curves::r410a::BUBBLE,
    dew_curve: &curves::r410a::DEW,
    dome: None,
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
            temperature: TemperatureDifference::from_kelvins(0.0),
        },
        Accuracy {
            up_to: Temperature::from_kelvin(233.15),
            pressure: 0.0,
            temperature: TemperatureDifference::from_kelvins(0.0),
        },
        Accuracy {
            up_to: Temperature::from_kelvin(342.494),
            pressure: 0.0,
            temperature: TemperatureDifference::from_kelvins(0.0),
        },
        Accuracy {
            up_to: Temperature::from_kelvin(344.494),
            pressure: 0.0,
            temperature: TemperatureDifference::from_kelvins(0.0),
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
            temperature: TemperatureDifference::from_kelvins(0.0),
        },
        Accuracy {
            up_to: Temperature::from_kelvin(233.15),
            pressure: 0.0,
            temperature: TemperatureDifference::from_kelvins(0.0),
        },
        Accuracy {
            up_to: Temperature::from_kelvin(342.494),
            pressure: 0.0,
            temperature: TemperatureDifference::from_kelvins(0.0),
        },
        Accuracy {
            up_to: Temperature::from_kelvin(344.494),
            pressure: 0.0,
            temperature: TemperatureDifference::from_kelvins(0.0),
        },
    ],
    source: EQUATION,
};

/// The equation of state.
const HELMHOLTZ: Equation = Equation {
    gas_constant: 8.314472,
    molar_mass: 0.0725854,
    reducing_temperature: 344.494,
    reducing_density: 6324.0,
    critical_temperature: 344.494,
    critical_pressure: 4901186.2,
    ideal: Ideal {
        constant: 36.8871,
        linear: 7.15807,
        logarithmic: -1.0,
        polynomial: &[(-46.87575, -0.1)],
        planck_einstein: &[
            PlanckEinstein { n: 2.0623, t: 2.02325729911116 },
            PlanckEinstein { n: 5.9751, t: 5.001538488333614 },
            PlanckEinstein { n: 1.5612, t: 11.248381684441528 },
        ],
    },
    residual: Residual {
        exponential: &[
            Exponential { n: 0.987252, t: 0.44, d: 1, l: 0 },
            Exponential { n: -1.03017, t: 1.2, d: 1, l: 0 },
            Exponential { n: 1.17666, t: 2.97, d: 1, l: 0 },
            Exponential { n: -0.138991, t: 2.95, d: 2, l: 0 },
            Exponential { n: 0.00302373, t: 0.2, d: 5, l: 0 },
            Exponential { n: -2.53639, t: 1.93, d: 1, l: 1 },
            Exponential { n: -1.9668, t: 1.78, d: 2, l: 1 },
            Exponential { n: -0.83048, t: 3.0, d: 3, l: 1 },
            Exponential { n: 0.172477, t: 0.2, d: 5, l: 1 },
            Exponential { n: -0.261116, t: 0.74, d: 5, l: 1 },
            Exponential { n: -0.0745473, t: 3.0, d: 5, l: 1 },
            Exponential { n: 0.679757, t: 2.1, d: 1, l: 2 },
            Exponential { n: -0.652431, t: 4.3, d: 1, l: 2 },
            Exponential { n: 0.0553849, t: 0.25, d: 4, l: 2 },
            Exponential { n: -0.071097, t: 7.0, d: 4, l: 2 },
            Exponential { n: -0.000875332, t: 4.7, d: 9, l: 2 },
            Exponential { n: 0.020076, t: 13.0, d: 2, l: 3 },
            Exponential { n: -0.0139761, t: 16.0, d: 2, l: 3 },
            Exponential { n: -0.018511, t: 25.0, d: 4, l: 3 },
            Exponential { n: 0.0171939, t: 17.0, d: 5, l: 3 },
            Exponential { n: -0.00482049, t: 7.4, d: 6, l: 3 },
        ],
        double_exponential: &[],
        gaussian: &[],
        non_analytic: &[],
    },
    limits: Limits {
        coldest: Temperature::from_kelvin(200.0),
        hottest: Temperature::from_kelvin(500.0),
        highest: Pressure::from_pa(50000000.0),
        densest: 19510.0,
    },
    ancillary: Ancillary {
        liquid: Series::Linear(&[
            (17.62376356934577, 0.732),
            (-34.49248423230781, 1.165),
            (229.4790425881445, 2.775),
            (-332.5139608181856, 3.462),
            (23058076.978355706, 15.531),
            (-31889422.797179773, 15.944),
        ]),
        vapour: Series::OverTemperature(&[
            (-25.00709732482156, 0.676),
            (34.83593078562833, 0.844),
            (-33.0203056956001, 1.394),
            (61.19129776625034, 2.411),
            (-63.32155175461899, 3.149),
            (149.8912653231937, 7.808),
        ]),
    },
    is_pure: false,
    source: EQUATION,
};
