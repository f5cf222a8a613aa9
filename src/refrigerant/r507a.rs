//! R-507A: R-125/143a.

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
    designation: "R-507A",
    names: &["R507A", "R507", "507A"],
    chemical_name: "R-125/143a",
    formula: "",
    composition: &[
        Component { refrigerant: Refrigerant::R125, mass_share: Ratio::from_percent(50.0) },
        Component { refrigerant: Refrigerant::R143a, mass_share: Ratio::from_percent(50.0) },
    ],
    cas: None,
    molar_mass: Sourced { value: MolarMass::from_kg_per_mol(0.0988592), source: EQUATION },
    critical: Sourced {
        value: CriticalPoint {
            temperature: Temperature::from_kelvin(343.765),
            pressure: Pressure::from_pa(3704900.0),
            density: Density::from_kg_per_m3(490.7371),
        },
        source: EQUATION,
    },
    triple_point: None,
    boiling: Sourced {
        value: Boiling::Between { bubble: Temperature::from_celsius(-46.742), dew: Temperature::from_celsius(-46.740) },
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
            value: GwpValue::Is(3985.0),
            source: Source {
                work: "mass-weighted from the components",
                locator: "",
                doi: None,
                trust: Trust::Computed,
            },
        },
        Gwp {
            report: "IPCC AR5",
            value: GwpValue::Is(3985.0),
            source: Source {
                work: "mass-weighted from the components",
                locator: "",
                doi: None,
                trust: Trust::Computed,
            },
        },
        Gwp {
            report: "IPCC AR6",
            value: GwpValue::Is(4775.0),
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
    bubble_curve: &curves::r507a::BUBBLE,
    dew_curve: &curves::r507a::DEW,
    dome: None,
};

/// Bubble line, as published with the equation of state.
const BUBBLE: Wagner = Wagner {
    critical_temperature: Temperature::from_kelvin(343.765),
    critical_pressure: Pressure::from_pa(3704900.0),
    terms: [(-7.4853, 1.0), (2.0115, 1.5), (-2.0141, 2.2), (-3.7763, 4.6), (0.0, 1.0), (0.0, 1.0)],
    valid: Range::new(Temperature::from_kelvin(200.0), Temperature::from_kelvin(343.765)),
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
            up_to: Temperature::from_kelvin(341.765),
            pressure: 0.0,
            temperature: TemperatureDifference::from_kelvins(0.0),
        },
        Accuracy {
            up_to: Temperature::from_kelvin(343.765),
            pressure: 0.0,
            temperature: TemperatureDifference::from_kelvins(0.0),
        },
    ],
    source: EQUATION,
};

/// Dew line, as published with the equation of state.
const DEW: Wagner = Wagner {
    critical_temperature: Temperature::from_kelvin(343.765),
    critical_pressure: Pressure::from_pa(3704900.0),
    terms: [(-7.5459, 1.0), (2.338, 1.5), (-2.237, 2.1), (-4.1535, 4.7), (0.0, 1.0), (0.0, 1.0)],
    valid: Range::new(Temperature::from_kelvin(200.0), Temperature::from_kelvin(343.765)),
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
            up_to: Temperature::from_kelvin(341.765),
            pressure: 0.0,
            temperature: TemperatureDifference::from_kelvins(0.0),
        },
        Accuracy {
            up_to: Temperature::from_kelvin(343.765),
            pressure: 0.0,
            temperature: TemperatureDifference::from_kelvins(0.0),
        },
    ],
    source: EQUATION,
};

/// The equation of state.
const HELMHOLTZ: Equation = Equation {
    gas_constant: 8.314472,
    molar_mass: 0.0988592,
    reducing_temperature: 343.765,
    reducing_density: 4964.0,
    critical_temperature: 343.765,
    critical_pressure: 3704949.9,
    ideal: Ideal {
        constant: 9.93541,
        linear: 7.9985,
        logarithmic: -1.0,
        polynomial: &[(-21.6054, -0.25)],
        planck_einstein: &[
            PlanckEinstein { n: 0.95006, t: 1.058862885983157 },
            PlanckEinstein { n: 4.1887, t: 2.370805637572179 },
            PlanckEinstein { n: 5.5184, t: 5.143048303346763 },
        ],
    },
    residual: Residual {
        exponential: &[
            Exponential { n: 6.24982, t: 0.692, d: 1, l: 0 },
            Exponential { n: -8.07855, t: 0.943, d: 1, l: 0 },
            Exponential { n: 0.0264843, t: 5.8, d: 1, l: 0 },
            Exponential { n: 0.286215, t: 0.77, d: 2, l: 0 },
            Exponential { n: -0.00507076, t: 5.84, d: 2, l: 0 },
            Exponential { n: 0.0109552, t: 0.24, d: 4, l: 0 },
            Exponential { n: 0.00116124, t: 0.69, d: 6, l: 0 },
            Exponential { n: 1.38469, t: 2.0, d: 1, l: 1 },
            Exponential { n: -0.922473, t: 3.0, d: 1, l: 1 },
            Exponential { n: -0.0503562, t: 7.0, d: 1, l: 1 },
            Exponential { n: 0.822098, t: 2.2, d: 2, l: 1 },
            Exponential { n: -0.277727, t: 4.3, d: 2, l: 1 },
            Exponential { n: 0.358172, t: 2.7, d: 3, l: 1 },
            Exponential { n: -0.0126426, t: 1.2, d: 4, l: 1 },
            Exponential { n: -0.0060701, t: 1.23, d: 7, l: 1 },
            Exponential { n: -0.0815653, t: 12.0, d: 2, l: 2 },
            Exponential { n: -0.0233323, t: 6.0, d: 3, l: 2 },
            Exponential { n: 0.0352952, t: 8.5, d: 4, l: 2 },
            Exponential { n: 0.0159566, t: 11.5, d: 4, l: 2 },
            Exponential { n: 0.0755927, t: 13.0, d: 2, l: 3 },
            Exponential { n: -0.0542007, t: 17.0, d: 3, l: 3 },
            Exponential { n: 0.0170451, t: 16.2, d: 5, l: 3 },
        ],
        double_exponential: &[],
        gaussian: &[],
        non_analytic: &[],
    },
    limits: Limits {
        coldest: Temperature::from_kelvin(200.0),
        hottest: Temperature::from_kelvin(500.0),
        highest: Pressure::from_pa(50000000.0),
        densest: 14130.0,
    },
    ancillary: Ancillary {
        liquid: Series::Linear(&[
            (-1.1909272837212852, 0.093),
            (2.4301888224201074, 0.162),
            (3.512171521080571, 0.914),
            (-3.7013727137258634, 1.425),
            (2.358426436855713, 2.269),
            (-3.9469718132522256, 7.339),
        ]),
        vapour: Series::OverTemperature(&[
            (3.975317800427674, 0.11),
            (-74.1368924572824, 0.26),
            (75.98726158051952, 0.286),
            (-11.56733447604713, 0.563),
            (3.084500064878586, 2.03),
            (-6.722628041295302, 2.811),
        ]),
    },
    is_pure: false,
    source: EQUATION,
};
