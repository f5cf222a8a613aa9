//! pentafluoroethane (CHF2CF3).

use super::curves;
use super::fluid::{Boiling, CriticalPoint, Fluid, Gwp, GwpValue, LowerFlammability, SafetyClass};
use crate::helmholtz::terms::{Ancillary, DoubleExponential, Exponential, Ideal, PlanckEinstein, Residual, Series};
use crate::helmholtz::{Equation, Limits};
use crate::quantity::{Density, MolarMass};
use crate::saturation::{Accuracy, Wagner};
use crate::{Pressure, Range, Source, Sourced, Temperature, TemperatureDifference, Trust};

/// Source of the equation of state.
pub(super) const EQUATION: Source = Source {
    work: "Eric W. Lemmon, Richard T Jacobsen, A New Functional Form and New Fitting Techniques for Equations of State with Application to Pentafluoroethane (HFC-125), J. Phys. Chem. Ref. Data 34(1) (2005) 69-108",
    locator: "equation of state",
    doi: Some("10.1063/1.1797813"),
    trust: Trust::Secondary,
};

const COMPUTED: Source = Source { locator: "computed from the equation of state", trust: Trust::Computed, ..EQUATION };

/// Data sheet of the refrigerant.
pub const FLUID: Fluid = Fluid {
    designation: "R-125",
    names: &["R125", "HFC-125"],
    chemical_name: "pentafluoroethane",
    formula: "CHF2CF3",
    composition: &[],
    cas: Some("354-33-6"),
    molar_mass: Sourced { value: MolarMass::from_kg_per_mol(0.1200214), source: EQUATION },
    critical: Sourced {
        value: CriticalPoint {
            temperature: Temperature::from_kelvin(339.173),
            pressure: Pressure::from_pa(3617700.0),
            density: Density::from_kg_per_m3(573.5823),
        },
        source: EQUATION,
    },
    triple_point: Some(Sourced { value: Temperature::from_kelvin(172.52), source: EQUATION }),
    boiling: Sourced { value: Boiling::At(Temperature::from_celsius(-48.089)), source: COMPUTED },
    safety_class: Sourced {
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
            value: GwpValue::Is(3500.0),
            source: Source {
                work: "IPCC AR4",
                locator: "WG1 tables, as carried by chemicals 1.5.2 and globalwarmingpotentials 0.13.2",
                doi: None,
                trust: Trust::Secondary,
            },
        },
        Gwp {
            report: "IPCC AR5",
            value: GwpValue::Is(3170.0),
            source: Source {
                work: "IPCC AR5",
                locator: "WG1 tables, as carried by chemicals 1.5.2 and globalwarmingpotentials 0.13.2",
                doi: None,
                trust: Trust::Secondary,
            },
        },
        Gwp {
            report: "IPCC AR6",
            value: GwpValue::Is(3740.0),
            source: Source {
                work: "IPCC AR6",
                locator: "WG1 tables, as carried by chemicals 1.5.2 and globalwarmingpotentials 0.13.2",
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
    bubble_curve: &curves::r125::CURVE,
    dew_curve: &curves::r125::CURVE,
    dome: Some(&curves::r125::DOME),
};

/// Saturation line, fitted to `tables/equation/r125.csv`; `examples/refit.rs` repeats the fit.
const SATURATION: Wagner = Wagner {
    critical_temperature: Temperature::from_kelvin(339.173),
    critical_pressure: Pressure::from_pa(3617929.6),
    terms: [
        (-7.6329376, 1.0),
        (2.9897037, 1.5),
        (-4.2341008, 2.0),
        (2.3304115, 2.5),
        (-4.8437841, 4.0),
        (1.0632576, 7.0),
    ],
    valid: Range::new(Temperature::from_kelvin(172.52), Temperature::from_kelvin(339.173)),
    accuracy: [
        Accuracy {
            up_to: Temperature::from_kelvin(213.15),
            pressure: 0.00023,
            temperature: TemperatureDifference::from_kelvins(0.0026),
        },
        Accuracy {
            up_to: Temperature::from_kelvin(233.15),
            pressure: 5.5e-05,
            temperature: TemperatureDifference::from_kelvins(0.0012),
        },
        Accuracy {
            up_to: Temperature::from_kelvin(337.173),
            pressure: 3.4e-05,
            temperature: TemperatureDifference::from_kelvins(0.0014),
        },
        Accuracy {
            up_to: Temperature::from_kelvin(339.173),
            pressure: 1.1e-05,
            temperature: TemperatureDifference::from_kelvins(0.00047),
        },
    ],
    source: EQUATION,
};

/// The equation of state.
const HELMHOLTZ: Equation = Equation {
    gas_constant: 8.314472,
    molar_mass: 0.1200214,
    reducing_temperature: 339.173,
    reducing_density: 4779.0,
    critical_temperature: 339.173,
    critical_pressure: 3617929.6,
    ideal: Ideal {
        constant: 37.2674,
        linear: 8.88404,
        logarithmic: -1.0,
        polynomial: &[(-49.865070676498284, -0.1)],
        planck_einstein: &[
            PlanckEinstein { n: 2.303, t: 0.9257812384830161 },
            PlanckEinstein { n: 5.086, t: 2.2289510073030576 },
            PlanckEinstein { n: 7.3, t: 5.032829853791428 },
        ],
    },
    residual: Residual {
        exponential: &[
            Exponential { n: 5.28076, t: 0.669, d: 1, l: 0 },
            Exponential { n: -8.67658, t: 1.05, d: 1, l: 0 },
            Exponential { n: 0.7501127, t: 2.75, d: 1, l: 0 },
            Exponential { n: 0.7590023, t: 0.956, d: 2, l: 0 },
            Exponential { n: 0.01451899, t: 1.0, d: 4, l: 0 },
            Exponential { n: 4.777189, t: 2.0, d: 1, l: 1 },
            Exponential { n: -3.330988, t: 2.75, d: 1, l: 1 },
            Exponential { n: 3.775673, t: 2.38, d: 2, l: 1 },
            Exponential { n: -2.290919, t: 3.37, d: 2, l: 1 },
            Exponential { n: 0.8888268, t: 3.47, d: 3, l: 1 },
            Exponential { n: -0.6234864, t: 2.63, d: 4, l: 1 },
            Exponential { n: -0.04127263, t: 3.45, d: 5, l: 1 },
            Exponential { n: -0.08455389, t: 0.72, d: 1, l: 2 },
            Exponential { n: -0.1308752, t: 4.23, d: 5, l: 2 },
            Exponential { n: 0.008344962, t: 0.2, d: 1, l: 3 },
        ],
        double_exponential: &[
            DoubleExponential { n: -1.532005, t: 4.5, d: 2, l: 2, m: 1.7 },
            DoubleExponential { n: -0.05883649, t: 29.0, d: 3, l: 3, m: 7.0 },
            DoubleExponential { n: 0.02296658, t: 24.0, d: 5, l: 3, m: 6.0 },
        ],
        gaussian: &[],
        non_analytic: &[],
    },
    limits: Limits {
        coldest: Temperature::from_kelvin(172.52),
        hottest: Temperature::from_kelvin(500.0),
        highest: Pressure::from_pa(60000000.0),
        densest: 14090.0,
    },
    ancillary: Ancillary {
        liquid: Series::Linear(&[
            (2.2016016101218163, 0.356),
            (9.66884730895765, 2.347),
            (-38.74092529625786, 3.224),
            (45.90185095955414, 4.03),
            (-68.77471029167359, 7.525),
            (3782.012676140688, 16.03),
        ]),
        vapour: Series::OverTemperature(&[
            (-2.0301408267555248, 0.352),
            (-1.7694859385413004, 0.604),
            (-2.66520428063493, 1.327),
            (-2012.3802928260302, 9.866),
            (4435.166819598504, 10.986),
            (-67300.56720486972, 18.158),
        ]),
    },
    is_pure: true,
    source: EQUATION,
};
