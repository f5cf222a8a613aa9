//! R-1234yf: 2,3,3,3-tetrafluoroprop-1-ene (CH2=CFCF3).

use super::curves;
use super::fluid::{Boiling, CriticalPoint, Fluid, Gwp, GwpValue, LowerFlammability, SafetyClass};
use crate::helmholtz::terms::{Ancillary, Exponential, Gaussian, Ideal, PlanckEinstein, Residual, Series};
use crate::helmholtz::{Equation, Limits};
use crate::quantity::{Density, MolarMass};
use crate::saturation::{Accuracy, Wagner};
use crate::{Pressure, Range, Ratio, Source, Sourced, Temperature, TemperatureDifference, Trust};

/// Source of the equation of state.
pub(super) const EQUATION: Source = Source {
    work: "E. W. Lemmon, R. Akasaka, An International Standard Formulation for 2,3,3,3-Tetrafluoroprop-1-ene (R1234yf) Covering Temperatures from the Triple Point Temperature to 410 K and Pressures Up to 100 MPa, Int. J. Thermophys. 43(8) (2022) 119",
    locator: "equation of state",
    doi: Some("10.1007/s10765-022-03015-y"),
    trust: Trust::Secondary,
};

const COMPUTED: Source = Source { locator: "computed from the equation of state", trust: Trust::Computed, ..EQUATION };

/// Data sheet of the refrigerant.
pub const FLUID: Fluid = Fluid {
    designation: "R-1234yf",
    names: &["R1234yf", "1234yf", "HFO-1234yf", "YF"],
    chemical_name: "2,3,3,3-tetrafluoroprop-1-ene",
    formula: "CH2=CFCF3",
    composition: &[],
    cas: Some("754-12-1"),
    molar_mass: Sourced { value: MolarMass::from_kg_per_mol(0.1140416), source: EQUATION },
    critical: Sourced {
        value: CriticalPoint {
            temperature: Temperature::from_kelvin(367.85),
            pressure: Pressure::from_pa(3384400.0),
            density: Density::from_kg_per_m3(476.6939),
        },
        source: EQUATION,
    },
    triple_point: Some(Sourced { value: Temperature::from_kelvin(121.6), source: EQUATION }),
    boiling: Sourced { value: Boiling::At(Temperature::from_celsius(-29.458)), source: COMPUTED },
    safety_class: Sourced {
        value: SafetyClass::A2L,
        source: Source {
            work: "header of the NIST fluid file in usnistgov/teqp (quotes ASHRAE 34-2010)",
            locator: "",
            doi: None,
            trust: Trust::Secondary,
        },
    },
    gwp: &[
        Gwp {
            report: "IPCC AR5",
            value: GwpValue::Is(0.351),
            source: Source {
                work: "IPCC AR5",
                locator: "WG1 tables, as carried by chemicals 1.5.2",
                doi: None,
                trust: Trust::Secondary,
            },
        },
        Gwp {
            report: "IPCC AR6",
            value: GwpValue::Is(0.501),
            source: Source {
                work: "IPCC AR6",
                locator: "WG1 tables, as carried by chemicals 1.5.2",
                doi: None,
                trust: Trust::Secondary,
            },
        },
        Gwp {
            report: "EU 517/2014 Annex II",
            value: GwpValue::Is(4.0),
            source: Source {
                work: "CoolProp 8.0.0; EU 517/2014 Annex II (from memory)",
                locator: "",
                doi: None,
                trust: Trust::Secondary,
            },
        },
    ],
    flammability: &[
        Sourced {
            value: LowerFlammability::Volume(Ratio::from_percent(6.2)),
            source: Source { work: "ISO 817 / ASHRAE 34 figure", locator: "", doi: None, trust: Trust::FromMemory },
        },
        Sourced {
            value: LowerFlammability::Mass(Density::from_kg_per_m3(0.289)),
            source: Source { work: "ISO 817 / ASHRAE 34 figure", locator: "", doi: None, trust: Trust::FromMemory },
        },
    ],
    equation: HELMHOLTZ,
    bubble: SATURATION,
    dew: SATURATION,
    bubble_curve: &curves::r1234yf::CURVE,
    dew_curve: &curves::r1234yf::CURVE,
    dome: Some(&curves::r1234yf::DOME),
};

/// Saturation line, fitted to `tables/equation/r1234yf.csv`; `examples/refit.rs` repeats the fit.
const SATURATION: Wagner = Wagner {
    critical_temperature: Temperature::from_kelvin(367.85),
    critical_pressure: Pressure::from_pa(3384373.7),
    terms: [
        (-7.529936, 1.0),
        (2.7951671, 1.5),
        (-3.291122, 2.0),
        (1.3811673, 2.5),
        (-3.6214805, 4.0),
        (-0.9377195, 7.0),
    ],
    valid: Range::new(Temperature::from_kelvin(121.6), Temperature::from_kelvin(367.85)),
    accuracy: [
        Accuracy {
            up_to: Temperature::from_kelvin(213.15),
            pressure: 0.0017,
            temperature: TemperatureDifference::from_kelvins(0.0077),
        },
        Accuracy {
            up_to: Temperature::from_kelvin(233.15),
            pressure: 0.00023,
            temperature: TemperatureDifference::from_kelvins(0.0038),
        },
        Accuracy {
            up_to: Temperature::from_kelvin(365.85),
            pressure: 0.00011,
            temperature: TemperatureDifference::from_kelvins(0.0054),
        },
        Accuracy {
            up_to: Temperature::from_kelvin(367.85),
            pressure: 0.00011,
            temperature: TemperatureDifference::from_kelvins(0.0052),
        },
    ],
    source: EQUATION,
};

/// The equation of state.
const HELMHOLTZ: Equation = Equation {
    gas_constant: 8.314462618,
    molar_mass: 0.1140416,
    reducing_temperature: 367.85,
    reducing_density: 4180.0,
    critical_temperature: 367.85,
    critical_pressure: 3384373.7,
    ideal: Ideal {
        constant: -12.081525543189,
        linear: 8.52896238365,
        logarithmic: 3.0,
        polynomial: &[],
        planck_einstein: &[
            PlanckEinstein { n: 8.65, t: 1.3918716868288703 },
            PlanckEinstein { n: 9.75, t: 4.268044039690091 },
            PlanckEinstein { n: 2.11, t: 12.233247247519369 },
        ],
    },
    residual: Residual {
        exponential: &[
            Exponential { n: 0.0340387, t: 1.0, d: 4, l: 0 },
            Exponential { n: 1.912859, t: 0.222, d: 1, l: 0 },
            Exponential { n: -2.1984719881617, t: 0.61, d: 1, l: 0 },
            Exponential { n: -0.8147645305033, t: 1.122, d: 2, l: 0 },
            Exponential { n: 0.2288282, t: 0.5, d: 3, l: 0 },
            Exponential { n: -1.65436, t: 2.14, d: 1, l: 2 },
            Exponential { n: -1.446628, t: 2.284, d: 3, l: 2 },
            Exponential { n: 0.5961722, t: 1.05, d: 2, l: 1 },
            Exponential { n: -0.6148209, t: 2.33, d: 2, l: 2 },
            Exponential { n: -0.0180069, t: 0.778, d: 7, l: 1 },
        ],
        double_exponential: &[],
        gaussian: &[
            Gaussian { n: 0.2845275, t: 1.0, d: 1, eta: 28.1, epsilon: 0.96, beta: 1016.0, gamma: 1.061 },
            Gaussian { n: -0.3050809, t: 2.0, d: 1, eta: 28.0, epsilon: 0.96, beta: 1000.0, gamma: 1.062 },
            Gaussian { n: 2.198935, t: 1.236, d: 1, eta: 1.307, epsilon: 0.853, beta: 1.16, gamma: 1.3 },
            Gaussian { n: -0.4270329, t: 1.6, d: 1, eta: 1.96, epsilon: 1.15, beta: 1.2, gamma: 1.04 },
            Gaussian { n: -0.4015581, t: 1.85, d: 1, eta: 1.25, epsilon: 1.3, beta: 1.26, gamma: 1.0 },
            Gaussian { n: 0.1179587, t: 0.7, d: 1, eta: 1.0, epsilon: 1.5, beta: 1.6, gamma: 1.14 },
            Gaussian { n: -0.3141002, t: 1.75, d: 1, eta: 2.2, epsilon: 0.762, beta: 0.87, gamma: 1.1 },
        ],
        non_analytic: &[],
    },
    limits: Limits {
        coldest: Temperature::from_kelvin(121.6),
        hottest: Temperature::from_kelvin(410.0),
        highest: Pressure::from_pa(100000000.0),
        densest: 13836.0,
    },
    ancillary: Ancillary {
        liquid: Series::Linear(&[(3.392, 0.4), (-4.119, 0.7), (8.932, 1.1), (-8.525, 1.5), (3.384, 2.1)]),
        vapour: Series::Exponential(&[
            (-3.616, 0.426),
            (-74.91, 2.0),
            (197.7, 2.4),
            (-152.76, 2.7),
            (-61.062, 7.5),
            (-115.53, 15.0),
        ]),
    },
    is_pure: true,
    source: EQUATION,
};
