//! carbon dioxide (CO2).

use super::curves;
use super::fluid::{Boiling, CriticalPoint, Fluid, Gwp, GwpValue, LowerFlammability, SafetyClass};
use crate::helmholtz::terms::{Ancillary, Exponential, Gaussian, Ideal, NonAnalytic, PlanckEinstein, Residual, Series};
use crate::helmholtz::{Equation, Limits};
use crate::quantity::{Density, MolarMass};
use crate::saturation::{Accuracy, Wagner};
use crate::{Pressure, Range, Source, Sourced, Temperature, TemperatureDifference, Trust};

/// Source of the equation of state.
pub(super) const EQUATION: Source = Source {
    work: "R. Span, W. Wagner, A New Equation of State for Carbon Dioxide Covering the Fluid Region from the Triple Point Temperature to 1100 K at Pressures up to 800 MPa, J. Phys. Chem. Ref. Data 25 (1996) 1509-1596",
    locator: "equation of state",
    doi: Some("10.1063/1.555991"),
    trust: Trust::Secondary,
};

/// Data sheet of the refrigerant.
pub const FLUID: Fluid = Fluid {
    designation: "R-744",
    names: &["R744", "CO2", "CO₂", "carbon dioxide"],
    chemical_name: "carbon dioxide",
    formula: "CO2",
    composition: &[],
    cas: Some("124-38-9"),
    molar_mass: Sourced { value: MolarMass::from_kg_per_mol(0.0440098), source: EQUATION },
    critical: Sourced {
        value: CriticalPoint {
            temperature: Temperature::from_kelvin(304.1282),
            pressure: Pressure::from_pa(7377300.0),
            density: Density::from_kg_per_m3(467.6),
        },
        source: EQUATION,
    },
    triple_point: Some(Sourced { value: Temperature::from_kelvin(216.592), source: EQUATION }),
    boiling: Sourced {
        value: Boiling::Sublimes(Temperature::from_celsius(-78.4)),
        source: Source {
            work: "2021 ASHRAE Handbook, Fundamentals (SI), chapter 29",
            locator: "table 5",
            doi: None,
            trust: Trust::Secondary,
        },
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
            value: GwpValue::Is(1.0),
            source: Source {
                work: "IPCC AR4",
                locator: "WG1 tables, as carried by chemicals 1.5.2",
                doi: None,
                trust: Trust::Secondary,
            },
        },
        Gwp {
            report: "IPCC AR5",
            value: GwpValue::Is(1.0),
            source: Source {
                work: "IPCC AR5",
                locator: "WG1 tables, as carried by chemicals 1.5.2",
                doi: None,
                trust: Trust::Secondary,
            },
        },
        Gwp {
            report: "IPCC AR6",
            value: GwpValue::Is(1.0),
            source: Source {
                work: "IPCC AR6",
                locator: "WG1 tables, as carried by chemicals 1.5.2",
                doi: None,
                trust: Trust::Secondary,
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
    bubble: SATURATION,
    dew: SATURATION,
    bubble_curve: &curves::r744::CURVE,
    dew_curve: &curves::r744::CURVE,
    dome: Some(&curves::r744::DOME),
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
            temperature: TemperatureDifference::from_kelvins(0.0),
        },
        Accuracy {
            up_to: Temperature::from_kelvin(233.15),
            pressure: 8.4e-06,
            temperature: TemperatureDifference::from_kelvins(0.00021),
        },
        Accuracy {
            up_to: Temperature::from_kelvin(302.1282),
            pressure: 4.4e-06,
            temperature: TemperatureDifference::from_kelvins(0.0002),
        },
        Accuracy {
            up_to: Temperature::from_kelvin(304.1282),
            pressure: 5.6e-06,
            temperature: TemperatureDifference::from_kelvins(0.00025),
        },
    ],
    source: EQUATION,
};

/// The equation of state.
const HELMHOLTZ: Equation = Equation {
    gas_constant: 8.31451,
    molar_mass: 0.0440098,
    reducing_temperature: 304.1282,
    reducing_density: 10624.9063,
    critical_temperature: 304.1282,
    critical_pressure: 7377298.4,
    ideal: Ideal {
        constant: -6.1248710624319,
        linear: 5.115596318014529,
        logarithmic: 2.5,
        polynomial: &[],
        planck_einstein: &[
            PlanckEinstein { n: 1.99427042, t: 3.15163 },
            PlanckEinstein { n: 0.62105248, t: 6.1119 },
            PlanckEinstein { n: 0.41195293, t: 6.77708 },
            PlanckEinstein { n: 1.04028922, t: 11.32384 },
            PlanckEinstein { n: 0.08327678, t: 27.08792 },
        ],
    },
    residual: Residual {
        exponential: &[
            Exponential { n: 0.388568232032, t: 0.0, d: 1, l: 0 },
            Exponential { n: 2.93854759427, t: 0.75, d: 1, l: 0 },
            Exponential { n: -5.5867188535, t: 1.0, d: 1, l: 0 },
            Exponential { n: -0.767531995925, t: 2.0, d: 1, l: 0 },
            Exponential { n: 0.317290055804, t: 0.75, d: 2, l: 0 },
            Exponential { n: 0.548033158978, t: 2.0, d: 2, l: 0 },
            Exponential { n: 0.122794112203, t: 0.75, d: 3, l: 0 },
            Exponential { n: 2.16589615432, t: 1.5, d: 1, l: 1 },
            Exponential { n: 1.58417351097, t: 1.5, d: 2, l: 1 },
            Exponential { n: -0.231327054055, t: 2.5, d: 4, l: 1 },
            Exponential { n: 0.0581169164314, t: 0.0, d: 5, l: 1 },
            Exponential { n: -0.553691372054, t: 1.5, d: 5, l: 1 },
            Exponential { n: 0.489466159094, t: 2.0, d: 5, l: 1 },
            Exponential { n: -0.0242757398435, t: 0.0, d: 6, l: 1 },
            Exponential { n: 0.0624947905017, t: 1.0, d: 6, l: 1 },
            Exponential { n: -0.121758602252, t: 2.0, d: 6, l: 1 },
            Exponential { n: -0.370556852701, t: 3.0, d: 1, l: 2 },
            Exponential { n: -0.0167758797004, t: 6.0, d: 1, l: 2 },
            Exponential { n: -0.11960736638, t: 3.0, d: 4, l: 2 },
            Exponential { n: -0.0456193625088, t: 6.0, d: 4, l: 2 },
            Exponential { n: 0.0356127892703, t: 8.0, d: 4, l: 2 },
            Exponential { n: -0.00744277271321, t: 6.0, d: 7, l: 2 },
            Exponential { n: -0.00173957049024, t: 0.0, d: 8, l: 2 },
            Exponential { n: -0.0218101212895, t: 7.0, d: 2, l: 3 },
            Exponential { n: 0.0243321665592, t: 12.0, d: 3, l: 3 },
            Exponential { n: -0.0374401334235, t: 16.0, d: 3, l: 3 },
            Exponential { n: 0.143387157569, t: 22.0, d: 5, l: 4 },
            Exponential { n: -0.134919690833, t: 24.0, d: 5, l: 4 },
            Exponential { n: -0.0231512250535, t: 16.0, d: 6, l: 4 },
            Exponential { n: 0.0123631254929, t: 24.0, d: 7, l: 4 },
            Exponential { n: 0.00210583219729, t: 8.0, d: 8, l: 4 },
            Exponential { n: -0.000339585190264, t: 2.0, d: 10, l: 4 },
            Exponential { n: 0.00559936517716, t: 28.0, d: 4, l: 5 },
            Exponential { n: -0.000303351180556, t: 14.0, d: 8, l: 6 },
        ],
        double_exponential: &[],
        gaussian: &[
            Gaussian { n: -213.654886883, t: 1.0, d: 2, eta: 25.0, epsilon: 1.0, beta: 325.0, gamma: 1.16 },
            Gaussian { n: 26641.5691493, t: 0.0, d: 2, eta: 25.0, epsilon: 1.0, beta: 300.0, gamma: 1.19 },
            Gaussian { n: -24027.2122046, t: 1.0, d: 2, eta: 25.0, epsilon: 1.0, beta: 300.0, gamma: 1.19 },
            Gaussian { n: -283.41603424, t: 3.0, d: 3, eta: 15.0, epsilon: 1.0, beta: 275.0, gamma: 1.25 },
            Gaussian { n: 212.472844002, t: 3.0, d: 3, eta: 20.0, epsilon: 1.0, beta: 275.0, gamma: 1.22 },
        ],
        non_analytic: &[
            NonAnalytic {
                n: -0.666422765408,
                a: 3.5,
                b: 0.875,
                beta: 0.3,
                big_a: 0.7,
                big_b: 0.3,
                big_c: 10.0,
                big_d: 275.0,
            },
            NonAnalytic {
                n: 0.726086323499,
                a: 3.5,
                b: 0.925,
                beta: 0.3,
                big_a: 0.7,
                big_b: 0.3,
                big_c: 10.0,
                big_d: 275.0,
            },
            NonAnalytic {
                n: 0.0550686686128,
                a: 3.0,
                b: 0.875,
                beta: 0.3,
                big_a: 0.7,
                big_b: 1.0,
                big_c: 12.5,
                big_d: 275.0,
            },
        ],
    },
    limits: Limits {
        coldest: Temperature::from_kelvin(216.592),
        hottest: Temperature::from_kelvin(1100.0),
        highest: Pressure::from_pa(800000000.0),
        densest: 37240.0,
    },
    ancillary: Ancillary {
        liquid: Series::Linear(&[
            (0.861951794789174, 0.264),
            (5.535795098719573, 0.672),
            (-21.766373764605415, 0.986),
            (20.01416999278327, 1.092),
            (-2.2218647220786862, 1.714),
            (888.2387848519858, 9.902),
        ]),
        vapour: Series::OverTemperature(&[
            (-1.1635587811569494, 0.306),
            (-3.64216164754343, 0.569),
            (2.7773118075713237, 0.677),
            (-3.2573848494624533, 0.891),
            (-1.9739104682508852, 3.206),
            (-16.057319994659142, 6.093),
        ]),
    },
    is_pure: true,
    source: EQUATION,
};
