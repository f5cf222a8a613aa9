//! propane (CH3CH2CH3).

use super::curves;
use super::fluid::{Boiling, CriticalPoint, Fluid, Gwp, GwpValue, LowerFlammability, SafetyClass};
use crate::helmholtz::terms::{Ancillary, Exponential, Gaussian, Ideal, PlanckEinstein, Residual, Series};
use crate::helmholtz::{Equation, Limits};
use crate::quantity::{Density, MolarMass};
use crate::saturation::{Accuracy, Wagner};
use crate::{Pressure, Range, Ratio, Source, Sourced, Temperature, TemperatureDifference, Trust};

/// Source of the equation of state.
pub(super) const EQUATION: Source = Source {
    work: "Eric W. Lemmon, Mark O. McLinden, Wolfgang Wagner, Thermodynamic Properties of Propane. III. A Reference Equation of State for Temperatures from the Melting Line to 650 K and Pressures up to 1000 MPa, J. Chem. Eng. Data 54 (2009) 3141-3180",
    locator: "equation of state",
    doi: Some("10.1021/je900217v"),
    trust: Trust::Secondary,
};

const COMPUTED: Source = Source { locator: "computed from the equation of state", trust: Trust::Computed, ..EQUATION };

/// Data sheet of the refrigerant.
pub const FLUID: Fluid = Fluid {
    designation: "R-290",
    names: &["R290", "HC-290", "propane"],
    chemical_name: "propane",
    formula: "CH3CH2CH3",
    composition: &[],
    cas: Some("74-98-6"),
    molar_mass: Sourced { value: MolarMass::from_kg_per_mol(0.04409562), source: EQUATION },
    critical: Sourced {
        value: CriticalPoint {
            temperature: Temperature::from_kelvin(369.89),
            pressure: Pressure::from_pa(4251200.0),
            density: Density::from_kg_per_m3(220.4781),
        },
        source: EQUATION,
    },
    triple_point: Some(Sourced { value: Temperature::from_kelvin(85.525), source: EQUATION }),
    boiling: Sourced { value: Boiling::At(Temperature::from_celsius(-42.114)), source: COMPUTED },
    safety_class: Sourced {
        value: SafetyClass::A3,
        source: Source {
            work: "header of the NIST fluid file of propane, public copy not recorded (quotes ASHRAE 34-2010)",
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
                work: "header of the NIST fluid file of propane, public copy not recorded (quotes ASHRAE 34-2010; labelled IPCC 2007); indirect effects",
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
                trust: Trust::Secondary,
            },
        },
    ],
    flammability: &[
        Sourced {
            value: LowerFlammability::Volume(Ratio::from_percent(1.7)),
            source: Source {
                work: "IEC 60079-20-1 (2010)",
                locator: "as carried by chemicals 1.5.2",
                doi: None,
                trust: Trust::Secondary,
            },
        },
        Sourced {
            value: LowerFlammability::Volume(Ratio::from_percent(2.1)),
            source: Source {
                work: "NFPA 497 (2008)",
                locator: "as carried by chemicals 1.5.2",
                doi: None,
                trust: Trust::Secondary,
            },
        },
        Sourced {
            value: LowerFlammability::Mass(Density::from_kg_per_m3(0.038)),
            source: Source { work: "ISO 817 / ASHRAE 34 figure", locator: "", doi: None, trust: Trust::FromMemory },
        },
    ],
    equation: HELMHOLTZ,
    bubble: SATURATION,
    dew: SATURATION,
    bubble_curve: &curves::r290::CURVE,
    dew_curve: &curves::r290::CURVE,
    dome: Some(&curves::r290::DOME),
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
            temperature: TemperatureDifference::from_kelvins(0.0074),
        },
        Accuracy {
            up_to: Temperature::from_kelvin(233.15),
            pressure: 0.00019,
            temperature: TemperatureDifference::from_kelvins(0.0035),
        },
        Accuracy {
            up_to: Temperature::from_kelvin(367.89),
            pressure: 8.7e-05,
            temperature: TemperatureDifference::from_kelvins(0.0045),
        },
        Accuracy {
            up_to: Temperature::from_kelvin(369.89),
            pressure: 6.6e-05,
            temperature: TemperatureDifference::from_kelvins(0.0037),
        },
    ],
    source: EQUATION,
};

/// The equation of state.
const HELMHOLTZ: Equation = Equation {
    gas_constant: 8.314472,
    molar_mass: 0.04409562,
    reducing_temperature: 369.89,
    reducing_density: 5000.0,
    critical_temperature: 369.89,
    critical_pressure: 4251164.6,
    ideal: Ideal {
        constant: -4.970583,
        linear: 4.29352,
        logarithmic: 3.0,
        polynomial: &[],
        planck_einstein: &[
            PlanckEinstein { n: 3.043, t: 1.0624780340101112 },
            PlanckEinstein { n: 5.874, t: 3.34423747600638 },
            PlanckEinstein { n: 9.337, t: 5.3637567925599505 },
            PlanckEinstein { n: 7.922, t: 11.762956554651383 },
        ],
    },
    residual: Residual {
        exponential: &[
            Exponential { n: 0.042910051, t: 1.0, d: 4, l: 0 },
            Exponential { n: 1.7313671, t: 0.33, d: 1, l: 0 },
            Exponential { n: -2.4516524, t: 0.8, d: 1, l: 0 },
            Exponential { n: 0.34157466, t: 0.43, d: 2, l: 0 },
            Exponential { n: -0.46047898, t: 0.9, d: 2, l: 0 },
            Exponential { n: -0.66847295, t: 2.46, d: 1, l: 1 },
            Exponential { n: 0.20889705, t: 2.09, d: 3, l: 1 },
            Exponential { n: 0.19421381, t: 0.88, d: 6, l: 1 },
            Exponential { n: -0.22917851, t: 1.09, d: 6, l: 1 },
            Exponential { n: -0.60405866, t: 3.25, d: 2, l: 2 },
            Exponential { n: 0.066680654, t: 4.62, d: 3, l: 2 },
        ],
        double_exponential: &[],
        gaussian: &[
            Gaussian { n: 0.017534618, t: 0.76, d: 1, eta: 0.963, epsilon: 1.283, beta: 2.33, gamma: 0.684 },
            Gaussian { n: 0.33874242, t: 2.5, d: 1, eta: 1.977, epsilon: 0.6936, beta: 3.47, gamma: 0.829 },
            Gaussian { n: 0.22228777, t: 2.75, d: 1, eta: 1.917, epsilon: 0.788, beta: 3.15, gamma: 1.419 },
            Gaussian { n: -0.23219062, t: 3.05, d: 2, eta: 2.307, epsilon: 0.473, beta: 3.19, gamma: 0.817 },
            Gaussian { n: -0.09220694, t: 2.55, d: 2, eta: 2.546, epsilon: 0.8577, beta: 0.92, gamma: 1.5 },
            Gaussian { n: -0.47575718, t: 8.4, d: 4, eta: 3.28, epsilon: 0.271, beta: 18.8, gamma: 1.426 },
            Gaussian { n: -0.017486824, t: 6.75, d: 1, eta: 14.6, epsilon: 0.948, beta: 547.8, gamma: 1.093 },
        ],
        non_analytic: &[],
    },
    limits: Limits {
        coldest: Temperature::from_kelvin(85.525),
        hottest: Temperature::from_kelvin(650.0),
        highest: Pressure::from_pa(1000000000.0),
        densest: 20600.0,
    },
    ancillary: Ancillary {
        liquid: Series::Linear(&[
            (2.104068052280433, 0.368),
            (0.3371892411622086, 0.875),
            (0.4401223810964251, 3.009),
            (-3.5679018989260567, 9.51),
            (59.93889697061387, 15.381),
            (-70.9402469085883, 17.001),
        ]),
        vapour: Series::OverTemperature(&[
            (-3.401360845132903, 0.431),
            (-1.9443653795380451, 1.339),
            (-0.4101211459709529, 2.091),
            (-15.598374206544214, 6.822),
            (15.844867806184942, 8.214),
            (-15.298907422332046, 19.706),
        ]),
    },
    is_pure: true,
    source: EQUATION,
};
