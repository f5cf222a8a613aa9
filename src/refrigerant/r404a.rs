//! R-404A: R-125/143a/134a.

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
    molar_mass: Sourced { value: MolarMass::from_kg_per_mol(0.0976038), source: EQUATION },
    critical: Sourced {
        value: CriticalPoint {
            temperature: Temperature::from_kelvin(345.27),
            pressure: Pressure::from_pa(3734800.0),
            density: Density::from_kg_per_m3(482.1628),
        },
        source: EQUATION,
    },
    triple_point: None,
    boiling: Sourced {
        value: Boiling::Between { bubble: Temperature::from_celsius(-46.222), dew: Temperature::from_celsius(-45.472) },
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
    bubble_curve: &curves::r404a::BUBBLE,
    dew_curve: &curves::r404a::DEW,
    dome: None,
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
            temperature: TemperatureDifference::from_kelvins(0.0),
        },
        Accuracy {
            up_to: Temperature::from_kelvin(233.15),
            pressure: 0.0,
            temperature: TemperatureDifference::from_kelvins(0.0),
        },
        Accuracy {
            up_to: Temperature::from_kelvin(343.27),
            pressure: 0.0,
            temperature: TemperatureDifference::from_kelvins(0.0),
        },
        Accuracy {
            up_to: Temperature::from_kelvin(345.27),
            pressure: 0.0,
            temperature: TemperatureDifference::from_kelvins(0.0),
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
            temperature: TemperatureDifference::from_kelvins(0.0),
        },
        Accuracy {
            up_to: Temperature::from_kelvin(233.15),
            pressure: 0.0,
            temperature: TemperatureDifference::from_kelvins(0.0),
        },
        Accuracy {
            up_to: Temperature::from_kelvin(343.27),
            pressure: 0.0,
            temperature: TemperatureDifference::from_kelvins(0.0),
        },
        Accuracy {
            up_to: Temperature::from_kelvin(345.27),
            pressure: 0.0,
            temperature: TemperatureDifference::from_kelvins(0.0),
        },
    ],
    source: EQUATION,
};

/// The equation of state.
const HELMHOLTZ: Equation = Equation {
    gas_constant: 8.314472,
    molar_mass: 0.0976038,
    reducing_temperature: 345.27,
    reducing_density: 4940.0,
    critical_temperature: 345.27,
    critical_pressure: 3734751.5,
    ideal: Ideal {
        constant: 7.00407,
        linear: 7.98695,
        logarithmic: -1.0,
        polynomial: &[(-18.8664, -0.3)],
        planck_einstein: &[
            PlanckEinstein { n: 0.63078, t: 1.1961653198945754 },
            PlanckEinstein { n: 3.5979, t: 2.328612390303241 },
            PlanckEinstein { n: 5.0335, t: 5.001882584643902 },
        ],
    },
    residual: Residual {
        exponential: &[
            Exponential { n: 6.10984, t: 0.67, d: 1, l: 0 },
            Exponential { n: -7.79453, t: 0.91, d: 1, l: 0 },
            Exponential { n: 0.0183377, t: 5.96, d: 1, l: 0 },
            Exponential { n: 0.26227, t: 0.7, d: 2, l: 0 },
            Exponential { n: -0.00351688, t: 6.0, d: 2, l: 0 },
            Exponential { n: 0.0116181, t: 0.3, d: 4, l: 0 },
            Exponential { n: 0.00105992, t: 0.7, d: 6, l: 0 },
            Exponential { n: 0.850922, t: 1.7, d: 1, l: 1 },
            Exponential { n: -0.520084, t: 3.3, d: 1, l: 1 },
            Exponential { n: -0.0464225, t: 7.0, d: 1, l: 1 },
            Exponential { n: 0.62119, t: 2.05, d: 2, l: 1 },
            Exponential { n: -0.195505, t: 4.3, d: 2, l: 1 },
            Exponential { n: 0.336159, t: 2.7, d: 3, l: 1 },
            Exponential { n: -0.0376062, t: 1.8, d: 4, l: 1 },
            Exponential { n: -0.00636579, t: 1.25, d: 7, l: 1 },
            Exponential { n: -0.0758262, t: 12.0, d: 2, l: 2 },
            Exponential { n: -0.0221041, t: 6.0, d: 3, l: 2 },
            Exponential { n: 0.0310441, t: 8.7, d: 4, l: 2 },
            Exponential { n: 0.0132798, t: 11.6, d: 4, l: 2 },
            Exponential { n: 0.0689437, t: 13.0, d: 2, l: 3 },
            Exponential { n: -0.0507525, t: 17.0, d: 3, l: 3 },
            Exponential { n: 0.0161382, t: 16.0, d: 5, l: 3 },
        ],
        double_exponential: &[],
        gaussian: &[],
        non_analytic: &[],
    },
    limits: Limits {
        coldest: Temperature::from_kelvin(200.0),
        hottest: Temperature::from_kelvin(500.0),
        highest: Pressure::from_pa(50000000.0),
        densest: 14500.0,
    },
    ancillary: Ancillary {
        liquid: Series::Linear(&[
            (-0.011777381218307114, 0.066),
            (2.4984547682678704, 0.377),
            (5367.932468376006, 8.99),
            (-3732982.2139762687, 13.98),
            (33474569.015986394, 15.982),
            (-80262239.93679684, 17.954),
        ]),
        vapour: Series::OverTemperature(&[
            (-5.211849919504925, 0.485),
            (6.798109425092868, 0.989),
            (-13.038945243933242, 1.431),
            (9.654798311425768, 2.495),
            (-320.35292894913766, 7.812),
            (80023.04183470446, 15.329),
        ]),
    },
    is_pure: false,
    source: EQUATION,
};
