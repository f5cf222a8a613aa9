//! R-1234ze(E): trans-1,3,3,3-tetrafluoroprop-1-ene (CHF=CHCF3).

use super::curves;
use super::fluid::{Boiling, CriticalPoint, Fluid, Gwp, GwpValue, LowerFlammability, SafetyClass};
use crate::helmholtz::terms::{Ancillary, Exponential, Gaussian, Ideal, PlanckEinstein, Residual, Series};
use crate::helmholtz::{Equation, Limits};
use crate::quantity::{Density, MolarMass};
use crate::saturation::{Accuracy, Wagner};
use crate::{Pressure, Range, Source, Sourced, Temperature, TemperatureDifference, Trust};

/// Source of the equation of state.
pub(super) const EQUATION: Source = Source {
    work: "Monika Thol, Eric W. Lemmon, Equation of State for the Thermodynamic Properties of trans-1,3,3,3-Tetrafluoropropene [R-1234ze(E)], Int. J. Thermophys 37(3) (2016) 1-16",
    locator: "equation of state",
    doi: Some("10.1007/s10765-016-2040-6"),
    trust: Trust::Secondary,
};

const COMPUTED: Source = Source { locator: "computed from the equation of state", trust: Trust::Computed, ..EQUATION };

/// Data sheet of the refrigerant.
pub const FLUID: Fluid = Fluid {
    designation: "R-1234ze(E)",
    names: &["R1234ze", "R-1234ze", "R-1234zeE", "HFO-1234ze", "HFO-1234ze(E)"],
    chemical_name: "trans-1,3,3,3-tetrafluoroprop-1-ene",
    formula: "CHF=CHCF3",
    composition: &[],
    cas: Some("29118-24-9"),
    molar_mass: Sourced { value: MolarMass::from_kg_per_mol(0.1140416), source: EQUATION },
    critical: Sourced {
        value: CriticalPoint {
            temperature: Temperature::from_kelvin(382.513),
            pressure: Pressure::from_pa(3634900.0),
            density: Density::from_kg_per_m3(489.2385),
        },
        source: EQUATION,
    },
    triple_point: Some(Sourced { value: Temperature::from_kelvin(168.62), source: EQUATION }),
    boiling: Sourced { value: Boiling::At(Temperature::from_celsius(-18.973)), source: COMPUTED },
    safety_class: Sourced {
        value: SafetyClass::A2L,
        source: Source { work: "ASHRAE 34 / ISO 817", locator: "", doi: None, trust: Trust::FromMemory },
    },
    gwp: &[
        Gwp {
            report: "IPCC AR5",
            value: GwpValue::Is(0.953),
            source: Source {
                work: "IPCC AR5",
                locator: "WG1 tables, as carried by chemicals 1.5.2",
                doi: None,
                trust: Trust::Secondary,
            },
        },
        Gwp {
            report: "IPCC AR6",
            value: GwpValue::Is(1.37),
            source: Source {
                work: "IPCC AR6",
                locator: "WG1 tables, as carried by chemicals 1.5.2",
                doi: None,
                trust: Trust::Secondary,
            },
        },
    ],
    flammability: &[Sourced {
        value: LowerFlammability::MassAt(Density::from_kg_per_m3(0.303), Temperature::from_celsius(60.0)),
        source: Source { work: "ISO 817 / ASHRAE 34 figure", locator: "", doi: None, trust: Trust::FromMemory },
    }],
    equation: HELMHOLTZ,
    bubble: SATURATION,
    dew: SATURATION,
    bubble_curve: &curves::r1234ze::CURVE,
    dew_curve: &curves::r1234ze::CURVE,
    dome: Some(&curves::r1234ze::DOME),
};

/// Saturation line, fitted to `tables/equation/r1234ze.csv`; `examples/refit.rs` repeats the fit.
const SATURATION: Wagner = Wagner {
    critical_temperature: Temperature::from_kelvin(382.513),
    critical_pressure: Pressure::from_pa(3634866.0),
    terms: [
        (-7.614832, 1.0),
        (2.3178478, 1.5),
        (-2.259126, 2.0),
        (0.4157519, 2.5),
        (-3.6750333, 4.0),
        (-1.576711, 7.0),
    ],
    valid: Range::new(Temperature::from_kelvin(168.62), Temperature::from_kelvin(382.513)),
    accuracy: [
        Accuracy {
            up_to: Temperature::from_kelvin(213.15),
            pressure: 0.00029,
            temperature: TemperatureDifference::from_kelvins(0.0026),
        },
        Accuracy {
            up_to: Temperature::from_kelvin(233.15),
            pressure: 6.9e-05,
            temperature: TemperatureDifference::from_kelvins(0.0011),
        },
        Accuracy {
            up_to: Temperature::from_kelvin(380.513),
            pressure: 3.6e-05,
            temperature: TemperatureDifference::from_kelvins(0.0019),
        },
        Accuracy {
            up_to: Temperature::from_kelvin(382.513),
            pressure: 3.6e-05,
            temperature: TemperatureDifference::from_kelvins(0.0019),
        },
    ],
    source: EQUATION,
};

/// The equation of state.
const HELMHOLTZ: Equation = Equation {
    gas_constant: 8.3144621,
    molar_mass: 0.1140416,
    reducing_temperature: 382.513,
    reducing_density: 4290.0,
    critical_temperature: 382.513,
    critical_pressure: 3634866.0,
    ideal: Ideal {
        constant: -12.558347537,
        linear: 8.7912297624,
        logarithmic: 3.0,
        polynomial: &[],
        planck_einstein: &[
            PlanckEinstein { n: 9.3575, t: 1.34113088966911 },
            PlanckEinstein { n: 10.717, t: 5.15538034001459 },
        ],
    },
    residual: Residual {
        exponential: &[
            Exponential { n: 0.03982797, t: 1.0, d: 4, l: 0 },
            Exponential { n: 1.812227, t: 0.223, d: 1, l: 0 },
            Exponential { n: -2.537512, t: 0.755, d: 1, l: 0 },
            Exponential { n: -0.5333254, t: 1.24, d: 2, l: 0 },
            Exponential { n: 0.1677031, t: 0.44, d: 3, l: 0 },
            Exponential { n: -1.323801, t: 2.0, d: 1, l: 2 },
            Exponential { n: -0.6694654, t: 2.2, d: 3, l: 2 },
            Exponential { n: 0.8072718, t: 1.2, d: 2, l: 1 },
            Exponential { n: -0.7740229, t: 1.5, d: 2, l: 2 },
            Exponential { n: -0.01843846, t: 0.9, d: 7, l: 1 },
        ],
        double_exponential: &[],
        gaussian: &[
            Gaussian { n: 1.407916, t: 1.33, d: 1, eta: 1.0, epsilon: 0.728, beta: 1.21, gamma: 0.943 },
            Gaussian { n: -0.4237082, t: 1.75, d: 1, eta: 1.61, epsilon: 0.87, beta: 1.37, gamma: 0.642 },
            Gaussian { n: -0.2270068, t: 2.11, d: 3, eta: 1.24, epsilon: 0.855, beta: 0.98, gamma: 0.59 },
            Gaussian { n: -0.805213, t: 1.0, d: 3, eta: 9.34, epsilon: 0.79, beta: 171.0, gamma: 1.2 },
            Gaussian { n: 0.00994318, t: 1.5, d: 2, eta: 5.78, epsilon: 1.3, beta: 47.4, gamma: 1.33 },
            Gaussian { n: -0.008798793, t: 1.0, d: 1, eta: 3.08, epsilon: 0.71, beta: 15.4, gamma: 0.64 },
        ],
        non_analytic: &[],
    },
    limits: Limits {
        coldest: Temperature::from_kelvin(168.62),
        hottest: Temperature::from_kelvin(420.0),
        highest: Pressure::from_pa(15000000.0),
        densest: 14000.0,
    },
    ancillary: Ancillary {
        liquid: Series::Linear(&[
            (-8.42282936179494, 0.07),
            (35.592169315198404, 0.096),
            (-27.748444759203856, 0.10800000000000001),
            (3.0869391194586315, 0.383),
            (0.49297732386262993, 2.6666666666666665),
            (2436.2254360953007, 25.0),
        ]),
        vapour: Series::OverTemperature(&[
            (1.9861295422409955, 0.10500000000000001),
            (-3.601910664347684, 0.139),
            (110.97544193749978, 0.38749999999999996),
            (-113.63727224413014, 0.39449999999999996),
            (-1.7016720393939881, 1.3333333333333333),
            (-5.765500312051858, 4.166666666666667),
        ]),
    },
    is_pure: true,
    source: EQUATION,
};
