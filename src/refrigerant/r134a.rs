//! R-134a: 1,1,1,2-tetrafluoroethane (CH2FCF3).

use super::curves;
use super::fluid::{Boiling, CriticalPoint, Fluid, Gwp, GwpValue, LowerFlammability, SafetyClass};
use crate::helmholtz::terms::{Ancillary, Exponential, Ideal, Residual, Series};
use crate::helmholtz::{Equation, Limits};
use crate::quantity::{Density, MolarMass};
use crate::saturation::{Accuracy, Wagner};
use crate::{Pressure, Range, Source, Sourced, Temperature, TemperatureDifference, Trust};

/// Source of the equation of state.
pub(super) const EQUATION: Source = Source {
    work: "R. Tillner-Roth, H. D. Baehr, An International Standard Formulation for the Thermodynamic Properties of 1,1,1,2-Tetrafluoroethane (HFC-134a) for Temperatures from 170 K to 455 K and Pressures up to 70 MPa, J. Phys. Chem. Ref. Data 23(5) (1994) 657-729",
    locator: "equation of state",
    doi: Some("10.1063/1.555958"),
    trust: Trust::Secondary,
};

const COMPUTED: Source = Source { locator: "computed from the equation of state", trust: Trust::Computed, ..EQUATION };

/// Data sheet of the refrigerant.
pub const FLUID: Fluid = Fluid {
    designation: "R-134a",
    names: &["R134a", "134a", "HFC-134a"],
    chemical_name: "1,1,1,2-tetrafluoroethane",
    formula: "CH2FCF3",
    composition: &[],
    cas: Some("811-97-2"),
    molar_mass: Sourced { value: MolarMass::from_kg_per_mol(0.102032), source: EQUATION },
    critical: Sourced {
        value: CriticalPoint {
            temperature: Temperature::from_kelvin(374.21),
            pressure: Pressure::from_pa(4059280.0),
            density: Density::from_kg_per_m3(511.9),
        },
        // the equation itself is reduced with 374.18 K and 508 kg/m³
        source: Source {
            work: "critical point as stored with the equation of state in CoolProp 8.0.0",
            locator: "ASHRAE Fundamentals 2021, ch. 29, Table 5 prints the same, rounded",
            doi: None,
            trust: Trust::Secondary,
        },
    },
    triple_point: Some(Sourced { value: Temperature::from_kelvin(169.85), source: EQUATION }),
    boiling: Sourced { value: Boiling::At(Temperature::from_celsius(-26.074)), source: COMPUTED },
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
            value: GwpValue::Is(1430.0),
            source: Source {
                work: "IPCC AR4",
                locator: "WG1 tables, as carried by chemicals 1.5.2 and globalwarmingpotentials 0.13.2",
                doi: None,
                trust: Trust::Secondary,
            },
        },
        Gwp {
            report: "IPCC AR5",
            value: GwpValue::Is(1300.0),
            source: Source {
                work: "IPCC AR5",
                locator: "WG1 tables, as carried by chemicals 1.5.2 and globalwarmingpotentials 0.13.2",
                doi: None,
                trust: Trust::Secondary,
            },
        },
        Gwp {
            report: "IPCC AR6",
            value: GwpValue::Is(1530.0),
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
    bubble_curve: &curves::r134a::CURVE,
    dew_curve: &curves::r134a::CURVE,
    dome: Some(&curves::r134a::DOME),
};

/// Saturation line, fitted to `tables/equation/r134a.csv`; `examples/refit.rs` repeats the fit.
const SATURATION: Wagner = Wagner {
    critical_temperature: Temperature::from_kelvin(374.21),
    critical_pressure: Pressure::from_pa(4059111.5),
    terms: [
        (-7.7421428, 1.0),
        (2.7475135, 1.5),
        (-3.1868683, 2.0),
        (1.0419405, 2.5),
        (-3.9237892, 4.0),
        (-0.7037995, 7.0),
    ],
    valid: Range::new(Temperature::from_kelvin(169.85), Temperature::from_kelvin(374.21)),
    accuracy: [
        Accuracy {
            up_to: Temperature::from_kelvin(213.15),
            pressure: 0.00025,
            temperature: TemperatureDifference::from_kelvins(0.0023),
        },
        Accuracy {
            up_to: Temperature::from_kelvin(233.15),
            pressure: 3.7e-05,
            temperature: TemperatureDifference::from_kelvins(0.00067),
        },
        Accuracy {
            up_to: Temperature::from_kelvin(372.21),
            pressure: 3.3e-05,
            temperature: TemperatureDifference::from_kelvins(0.0016),
        },
        Accuracy {
            up_to: Temperature::from_kelvin(374.21),
            pressure: 1.4e-05,
            temperature: TemperatureDifference::from_kelvins(0.00065),
        },
    ],
    source: EQUATION,
};

/// The equation of state.
const HELMHOLTZ: Equation = Equation {
    gas_constant: 8.314471,
    molar_mass: 0.102032,
    reducing_temperature: 374.18,
    reducing_density: 4978.830170926768,
    critical_temperature: 374.21,
    critical_pressure: 4059111.5,
    ideal: Ideal {
        constant: -1.019535,
        linear: 9.047135,
        logarithmic: -1.629789,
        polynomial: &[(-9.723916, -0.5), (-3.92717, -0.75)],
        planck_einstein: &[],
    },
    residual: Residual {
        exponential: &[
            Exponential { n: 0.05586817, t: -0.5, d: 2, l: 0 },
            Exponential { n: 0.498223, t: 0.0, d: 1, l: 0 },
            Exponential { n: 0.02458698, t: 0.0, d: 3, l: 0 },
            Exponential { n: 0.0008570145, t: 0.0, d: 6, l: 0 },
            Exponential { n: 0.0004788584, t: 1.5, d: 6, l: 0 },
            Exponential { n: -1.800808, t: 1.5, d: 1, l: 0 },
            Exponential { n: 0.2671641, t: 2.0, d: 1, l: 0 },
            Exponential { n: -0.04781652, t: 2.0, d: 2, l: 0 },
            Exponential { n: 0.01423987, t: 1.0, d: 5, l: 1 },
            Exponential { n: 0.3324062, t: 3.0, d: 2, l: 1 },
            Exponential { n: -0.007485907, t: 5.0, d: 2, l: 1 },
            Exponential { n: 0.0001017263, t: 1.0, d: 4, l: 2 },
            Exponential { n: -0.5184567, t: 5.0, d: 1, l: 2 },
            Exponential { n: -0.08692288, t: 5.0, d: 4, l: 2 },
            Exponential { n: 0.2057144, t: 6.0, d: 1, l: 2 },
            Exponential { n: -0.005000457, t: 10.0, d: 2, l: 2 },
            Exponential { n: 0.0004603262, t: 10.0, d: 4, l: 2 },
            Exponential { n: -0.003497836, t: 10.0, d: 1, l: 3 },
            Exponential { n: 0.006995038, t: 18.0, d: 5, l: 3 },
            Exponential { n: -0.01452184, t: 22.0, d: 3, l: 3 },
            Exponential { n: -0.0001285458, t: 50.0, d: 10, l: 4 },
        ],
        double_exponential: &[],
        gaussian: &[],
        non_analytic: &[],
    },
    limits: Limits {
        coldest: Temperature::from_kelvin(169.85),
        hottest: Temperature::from_kelvin(455.0),
        highest: Pressure::from_pa(70000000.0),
        densest: 15600.0,
    },
    ancillary: Ancillary {
        liquid: Series::Linear(&[
            (18.772731940930015, 0.673),
            (-51.49939472178225, 0.994),
            (40.793536440596085, 1.257),
            (-1481.6500471538966, 5.783),
            (1600.534434298925, 5.943),
            (-67338.52423732559, 19.94),
        ]),
        vapour: Series::OverTemperature(&[
            (-5.147386240766544, 0.476),
            (5.34618043286371, 0.966),
            (-7.611015272838434, 1.321),
            (-28.85436432788653, 8.491),
            (-9.079306067130748, 13.463),
            (64.0, 13.463),
        ]),
    },
    is_pure: true,
    source: EQUATION,
};
