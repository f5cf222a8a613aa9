//! chlorodifluoromethane (CHClF2).

use super::curves;
use super::fluid::{Boiling, CriticalPoint, Fluid, Gwp, GwpValue, LowerFlammability, SafetyClass};
use crate::helmholtz::terms::{Ancillary, Exponential, Ideal, PlanckEinstein, Residual, Series};
use crate::helmholtz::{Equation, Limits};
use crate::quantity::{Density, MolarMass};
use crate::saturation::{Accuracy, Wagner};
use crate::{Pressure, Range, Source, Sourced, Temperature, TemperatureDifference, Trust};

/// Source of the equation of state.
pub(super) const EQUATION: Source = Source {
    work: "A. Kamei, S. W. Beyerlein, R. T Jacobsen, Application of Nonlinear Regression in the Development of a Wide Range Formulation for HCFC-22, Int. J. Thermophys. 16(5) (1995) 1155-1164",
    locator: "equation of state",
    doi: Some("10.1007/BF02081283"),
    trust: Trust::Secondary,
};

const COMPUTED: Source = Source { locator: "computed from the equation of state", trust: Trust::Computed, ..EQUATION };

/// Data sheet of the refrigerant.
pub const FLUID: Fluid = Fluid {
    designation: "R-22",
    names: &["R22", "HCFC-22"],
    chemical_name: "chlorodifluoromethane",
    formula: "CHClF2",
    composition: &[],
    cas: Some("75-45-6"),
    molar_mass: Sourced { value: MolarMass::from_kg_per_mol(0.086468), source: EQUATION },
    critical: Sourced {
        value: CriticalPoint {
            temperature: Temperature::from_kelvin(369.295),
            pressure: Pressure::from_pa(4990000.0),
            density: Density::from_kg_per_m3(523.8422),
        },
        source: EQUATION,
    },
    triple_point: Some(Sourced { value: Temperature::from_kelvin(115.73), source: EQUATION }),
    boiling: Sourced { value: Boiling::At(Temperature::from_celsius(-40.810)), source: COMPUTED },
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
            value: GwpValue::Is(1810.0),
            source: Source {
                work: "IPCC AR4",
                locator: "WG1 tables, as carried by chemicals 1.5.2 and globalwarmingpotentials 0.13.2",
                doi: None,
                trust: Trust::Secondary,
            },
        },
        Gwp {
            report: "IPCC AR5",
            value: GwpValue::Is(1760.0),
            source: Source {
                work: "IPCC AR5",
                locator: "WG1 tables, as carried by chemicals 1.5.2 and globalwarmingpotentials 0.13.2",
                doi: None,
                trust: Trust::Secondary,
            },
        },
        Gwp {
            report: "IPCC AR6",
            value: GwpValue::Is(1960.0),
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
    bubble_curve: &curves::r22::CURVE,
    dew_curve: &curves::r22::CURVE,
    dome: Some(&curves::r22::DOME),
};

/// Saturation line, fitted to `tables/equation/r22.csv`; `examples/refit.rs` repeats the fit.
const SATURATION: Wagner = Wagner {
    critical_temperature: Temperature::from_kelvin(369.295),
    critical_pressure: Pressure::from_pa(4990000.0),
    terms: [
        (-7.124912, 1.0),
        (2.2298556, 1.5),
        (-2.4972823, 2.0),
        (1.1143051, 2.5),
        (-3.2914753, 4.0),
        (-0.5620968, 7.0),
    ],
    valid: Range::new(Temperature::from_kelvin(115.73), Temperature::from_kelvin(369.295)),
    accuracy: [
        Accuracy {
            up_to: Temperature::from_kelvin(213.15),
            pressure: 0.0018,
            temperature: TemperatureDifference::from_kelvins(0.0079),
        },
        Accuracy {
            up_to: Temperature::from_kelvin(233.15),
            pressure: 0.00023,
            temperature: TemperatureDifference::from_kelvins(0.0039),
        },
        Accuracy {
            up_to: Temperature::from_kelvin(367.295),
            pressure: 0.00011,
            temperature: TemperatureDifference::from_kelvins(0.0055),
        },
        Accuracy {
            up_to: Temperature::from_kelvin(369.295),
            pressure: 2.9e-05,
            temperature: TemperatureDifference::from_kelvins(0.0016),
        },
    ],
    source: EQUATION,
};

/// The equation of state.
const HELMHOLTZ: Equation = Equation {
    gas_constant: 8.31451,
    molar_mass: 0.086468,
    reducing_temperature: 369.295,
    reducing_density: 6058.220000000001,
    critical_temperature: 369.295,
    critical_pressure: 4990000.0,
    ideal: Ideal {
        constant: -11.853420922628633,
        linear: 8.086894982106873,
        logarithmic: 3.0052614044599997,
        polynomial: &[(-0.0222800387550675, -1.0)],
        planck_einstein: &[
            PlanckEinstein { n: 1.0, t: 11.78545471777306 },
            PlanckEinstein { n: 1.0, t: 5.240144329059424 },
            PlanckEinstein { n: 1.0, t: 5.111575732138263 },
            PlanckEinstein { n: 1.0, t: 4.589509308276581 },
            PlanckEinstein { n: 1.0, t: 4.34795618678834 },
            PlanckEinstein { n: 1.0, t: 3.147982615524174 },
            PlanckEinstein { n: 1.0, t: 2.322026780757931 },
            PlanckEinstein { n: 1.0, t: 1.640223615266927 },
            PlanckEinstein { n: 1.0, t: 1.437630674663887 },
        ],
    },
    residual: Residual {
        exponential: &[
            Exponential { n: 0.0695645445236, t: -1.0, d: 1, l: 0 },
            Exponential { n: 25.2275419999, t: 1.75, d: 1, l: 0 },
            Exponential { n: -202.351148311, t: 2.25, d: 1, l: 0 },
            Exponential { n: 350.063090302, t: 2.5, d: 1, l: 0 },
            Exponential { n: -223.134648863, t: 2.75, d: 1, l: 0 },
            Exponential { n: 48.8345904592, t: 3.0, d: 1, l: 0 },
            Exponential { n: 0.0108874958556, t: 5.5, d: 1, l: 0 },
            Exponential { n: 0.590315073614, t: 1.5, d: 2, l: 0 },
            Exponential { n: -0.689043767432, t: 1.75, d: 2, l: 0 },
            Exponential { n: 0.284224445844, t: 3.5, d: 2, l: 0 },
            Exponential { n: 0.125436457897, t: 1.0, d: 3, l: 0 },
            Exponential { n: -0.0113338666416, t: 4.5, d: 3, l: 0 },
            Exponential { n: -0.063138895917, t: 1.5, d: 4, l: 0 },
            Exponential { n: 0.00974021015232, t: 0.5, d: 5, l: 0 },
            Exponential { n: -0.000408406844722, t: 4.5, d: 6, l: 0 },
            Exponential { n: 0.00074194877357, t: 1.0, d: 7, l: 0 },
            Exponential { n: 0.000315912525922, t: 4.0, d: 7, l: 0 },
            Exponential { n: 8.76009723338e-06, t: 5.0, d: 7, l: 0 },
            Exponential { n: -0.000110343340301, t: -0.5, d: 8, l: 0 },
            Exponential { n: -7.05323356879e-05, t: 3.5, d: 8, l: 0 },
            Exponential { n: 0.23585073151, t: 5.0, d: 2, l: 2 },
            Exponential { n: -0.192640494729, t: 7.0, d: 2, l: 2 },
            Exponential { n: 0.00375218008557, t: 12.0, d: 2, l: 2 },
            Exponential { n: -4.48926036678e-05, t: 15.0, d: 2, l: 2 },
            Exponential { n: 0.0198120520635, t: 3.5, d: 3, l: 3 },
            Exponential { n: -0.0356958425255, t: 3.5, d: 4, l: 2 },
            Exponential { n: 0.0319594161562, t: 8.0, d: 4, l: 2 },
            Exponential { n: 2.60284291078e-06, t: 15.0, d: 4, l: 2 },
            Exponential { n: -0.00897629021967, t: 25.0, d: 4, l: 4 },
            Exponential { n: 0.0345482791645, t: 3.0, d: 6, l: 2 },
            Exponential { n: -0.00411831711251, t: 9.0, d: 6, l: 2 },
            Exponential { n: 0.00567428536529, t: 19.0, d: 6, l: 4 },
            Exponential { n: -0.00563368989908, t: 2.0, d: 8, l: 2 },
            Exponential { n: 0.00191384919423, t: 7.0, d: 8, l: 2 },
            Exponential { n: -0.00178930036389, t: 13.0, d: 8, l: 4 },
        ],
        double_exponential: &[],
        gaussian: &[],
        non_analytic: &[],
    },
    limits: Limits {
        coldest: Temperature::from_kelvin(115.73),
        hottest: Temperature::from_kelvin(550.0),
        highest: Pressure::from_pa(60000000.0),
        densest: 19910.0,
    },
    ancillary: Ancillary {
        liquid: Series::Linear(&[
            (1.854194439375902, 0.351),
            (0.5825631843499427, 0.588),
            (3.174073656022523, 3.365),
            (-10.117473443656856, 5.022),
            (12.021023952475513, 6.849),
            (-39.819978547168276, 16.221),
        ]),
        vapour: Series::OverTemperature(&[
            (-1.7899191799956613, 0.343),
            (-1.332183889152018, 0.528),
            (-2.5626654031276335, 1.104),
            (-5.6750215901718954, 4.839),
            (0.6059879695747222, 7.214),
            (3.499235901423112, 11.11),
        ]),
    },
    is_pure: true,
    source: EQUATION,
};
