//! R-600a: 2-methylpropane (isobutane) (CH(CH3)3).

use super::curves;
use super::fluid::{Boiling, CriticalPoint, Fluid, Gwp, GwpValue, LowerFlammability, SafetyClass};
use crate::helmholtz::terms::{Ancillary, Exponential, Gaussian, Ideal, PlanckEinstein, Residual, Series};
use crate::helmholtz::{Equation, Limits};
use crate::quantity::{Density, MolarMass};
use crate::saturation::{Accuracy, Wagner};
use crate::{Pressure, Range, Ratio, Source, Sourced, Temperature, TemperatureDifference, Trust};

/// Source of the equation of state.
pub(super) const EQUATION: Source = Source {
    work: "D. Buecker, W. Wagner, Reference Equations of State for the Thermodynamic Properties of Fluid Phase n-Butane and Isobutane, J. Phys. Chem. Ref. Data 35(2) (2006) 929-1019",
    locator: "equation of state",
    doi: Some("10.1063/1.1901687"),
    trust: Trust::Secondary,
};

const COMPUTED: Source = Source { locator: "computed from the equation of state", trust: Trust::Computed, ..EQUATION };

/// Data sheet of the refrigerant.
pub const FLUID: Fluid = Fluid {
    designation: "R-600a",
    names: &["R600a", "HC-600a", "isobutane"],
    chemical_name: "2-methylpropane (isobutane)",
    formula: "CH(CH3)3",
    composition: &[],
    cas: Some("75-28-5"),
    molar_mass: Sourced { value: MolarMass::from_kg_per_mol(0.0581222), source: EQUATION },
    critical: Sourced {
        value: CriticalPoint {
            temperature: Temperature::from_kelvin(407.81),
            pressure: Pressure::from_pa(3629000.0),
            density: Density::from_kg_per_m3(225.5),
        },
        source: EQUATION,
    },
    triple_point: Some(Sourced { value: Temperature::from_kelvin(113.73), source: EQUATION }),
    boiling: Sourced { value: Boiling::At(Temperature::from_celsius(-11.749)), source: COMPUTED },
    safety_class: Sourced {
        value: SafetyClass::A3,
        source: Source { work: "ASHRAE 34 / ISO 817", locator: "", doi: None, trust: Trust::FromMemory },
    },
    gwp: &[Gwp {
        report: "IPCC AR6",
        value: GwpValue::Below(1.0),
        source: Source {
            work: "Bitzer, page a-500-501 of its web site: propane and isobutane below 1 by AR6",
            locator: "",
            doi: None,
            trust: Trust::Secondary,
        },
    }],
    flammability: &[
        Sourced {
            value: LowerFlammability::Volume(Ratio::from_percent(1.3)),
            source: Source {
                work: "IEC 60079-20-1 (2010)",
                locator: "as carried by chemicals 1.5.2",
                doi: None,
                trust: Trust::Secondary,
            },
        },
        Sourced {
            value: LowerFlammability::Volume(Ratio::from_percent(1.8)),
            source: Source {
                work: "NFPA 497 (2008)",
                locator: "as carried by chemicals 1.5.2",
                doi: None,
                trust: Trust::Secondary,
            },
        },
        Sourced {
            value: LowerFlammability::Mass(Density::from_kg_per_m3(0.043)),
            source: Source { work: "ISO 817 / ASHRAE 34 figure", locator: "", doi: None, trust: Trust::FromMemory },
        },
    ],
    equation: HELMHOLTZ,
    bubble: SATURATION,
    dew: SATURATION,
    bubble_curve: &curves::r600a::CURVE,
    dew_curve: &curves::r600a::CURVE,
    dome: Some(&curves::r600a::DOME),
};

/// Saturation line, fitted to `tables/equation/r600a.csv`; `examples/refit.rs` repeats the fit.
const SATURATION: Wagner = Wagner {
    critical_temperature: Temperature::from_kelvin(407.81),
    critical_pressure: Pressure::from_pa(3629000.0),
    terms: [
        (-6.9118512, 1.0),
        (1.9277813, 1.5),
        (-1.8089872, 2.0),
        (0.7683012, 2.5),
        (-3.1965433, 4.0),
        (0.0368288, 7.0),
    ],
    valid: Range::new(Temperature::from_kelvin(113.73), Temperature::from_kelvin(407.81)),
    accuracy: [
        Accuracy {
            up_to: Temperature::from_kelvin(213.15),
            pressure: 0.0012,
            temperature: TemperatureDifference::from_kelvins(0.0055),
        },
        Accuracy {
            up_to: Temperature::from_kelvin(233.15),
            pressure: 0.00012,
            temperature: TemperatureDifference::from_kelvins(0.002),
        },
        Accuracy {
            up_to: Temperature::from_kelvin(405.81),
            pressure: 7.9e-05,
            temperature: TemperatureDifference::from_kelvins(0.0045),
        },
        Accuracy {
            up_to: Temperature::from_kelvin(407.81),
            pressure: 5.6e-05,
            temperature: TemperatureDifference::from_kelvins(0.0034),
        },
    ],
    source: EQUATION,
};

/// The equation of state.
#[allow(clippy::approx_constant)] // 3.142 is an exponent, not π
const HELMHOLTZ: Equation = Equation {
    gas_constant: 8.314472,
    molar_mass: 0.0581222,
    reducing_temperature: 407.81,
    reducing_density: 3879.756788283995,
    critical_temperature: 407.81,
    critical_pressure: 3629000.0,
    ideal: Ideal {
        constant: -5.9995093886993995,
        linear: 5.018945810443899,
        logarithmic: 3.05956619,
        polynomial: &[],
        planck_einstein: &[
            PlanckEinstein { n: 4.94641014, t: 0.951277902 },
            PlanckEinstein { n: 4.09475197, t: 2.387895885 },
            PlanckEinstein { n: 15.6632824, t: 4.346904269 },
            PlanckEinstein { n: 9.73918122, t: 10.36885864 },
        ],
    },
    residual: Residual {
        exponential: &[
            Exponential { n: 2.0686820727966, t: 0.5, d: 1, l: 0 },
            Exponential { n: -3.6400098615204, t: 1.0, d: 1, l: 0 },
            Exponential { n: 0.51968754427244, t: 1.5, d: 1, l: 0 },
            Exponential { n: 0.17745845870123, t: 0.0, d: 2, l: 0 },
            Exponential { n: -0.12361807851599, t: 0.5, d: 3, l: 0 },
            Exponential { n: 0.045145314010528, t: 0.5, d: 4, l: 0 },
            Exponential { n: 0.03047647996598, t: 0.75, d: 4, l: 0 },
            Exponential { n: 0.75508387706302, t: 2.0, d: 1, l: 1 },
            Exponential { n: -0.85885381015629, t: 2.5, d: 1, l: 1 },
            Exponential { n: 0.036324009830684, t: 2.5, d: 2, l: 1 },
            Exponential { n: -0.01954879945055, t: 1.5, d: 7, l: 1 },
            Exponential { n: -0.004445239290496, t: 1.0, d: 8, l: 1 },
            Exponential { n: 0.004641076366646, t: 1.5, d: 8, l: 1 },
            Exponential { n: -0.071444097992825, t: 4.0, d: 1, l: 2 },
            Exponential { n: -0.080765060030713, t: 7.0, d: 2, l: 2 },
            Exponential { n: 0.15560460945053, t: 3.0, d: 3, l: 2 },
            Exponential { n: 0.0020318752160332, t: 7.0, d: 3, l: 2 },
            Exponential { n: -0.10624883571689, t: 3.0, d: 4, l: 2 },
            Exponential { n: 0.039807690546305, t: 1.0, d: 5, l: 2 },
            Exponential { n: 0.016371431292386, t: 6.0, d: 5, l: 2 },
            Exponential { n: 0.00053212200682628, t: 0.0, d: 10, l: 2 },
            Exponential { n: -0.0078681561156387, t: 6.0, d: 2, l: 3 },
            Exponential { n: -0.0030981191888963, t: 13.0, d: 6, l: 3 },
        ],
        double_exponential: &[],
        gaussian: &[
            Gaussian { n: -0.042276036810382, t: 2.0, d: 1, eta: 10.0, epsilon: 0.85, beta: 150.0, gamma: 1.16 },
            Gaussian { n: -0.0053001044558079, t: 0.0, d: 2, eta: 10.0, epsilon: 1.0, beta: 200.0, gamma: 1.13 },
        ],
        non_analytic: &[],
    },
    limits: Limits {
        coldest: Temperature::from_kelvin(113.73),
        hottest: Temperature::from_kelvin(575.0),
        highest: Pressure::from_pa(35000000.0),
        densest: 12900.0,
    },
    ancillary: Ancillary {
        liquid: Series::Linear(&[
            (2.0418147224188545, 0.356),
            (0.4363922893974425, 0.824),
            (1.915261424521202, 3.142),
            (-2.1807762762122045, 3.696),
            (1.068664850362356, 6.863),
            (-6.816247938174933, 18.441),
        ]),
        vapour: Series::OverTemperature(&[
            (-2.8656855559386294, 0.37),
            (0.7330458189287201, 0.502),
            (-4.254613288675131, 1.021),
            (2.9956235180226516, 2.003),
            (-5.671641417558254, 3.403),
            (0.14361022568133902, 10.717),
        ]),
    },
    is_pure: true,
    source: EQUATION,
};
