//! difluoromethane (CH2F2).

use super::curves;
use super::fluid::{Boiling, CriticalPoint, Fluid, Gwp, GwpValue, LowerFlammability, SafetyClass};
use crate::helmholtz::terms::{Ancillary, Exponential, Ideal, PlanckEinstein, Residual, Series};
use crate::helmholtz::{Equation, Limits};
use crate::quantity::{Density, MolarMass};
use crate::saturation::{Accuracy, Wagner};
use crate::{Pressure, Range, Ratio, Source, Sourced, Temperature, TemperatureDifference, Trust};

/// Source of the equation of state.
pub(super) const EQUATION: Source = Source {
    work: "R. Tillner-Roth, A. Yokozeki, An international standard equation of state for difluoromethane (R-32) for temperatures from the triple point at 136.34 K to 435 K and pressures up to 70 MPa, J. Phys. Chem. Ref. Data 26(6) (1997) 1273-1328",
    locator: "equation of state",
    doi: Some("10.1063/1.556002"),
    trust: Trust::Secondary,
};

const COMPUTED: Source = Source { locator: "computed from the equation of state", trust: Trust::Computed, ..EQUATION };

/// Data sheet of the refrigerant.
pub const FLUID: Fluid = Fluid {
    designation: "R-32",
    names: &["R32", "HFC-32"],
    chemical_name: "difluoromethane",
    formula: "CH2F2",
    composition: &[],
    cas: Some("75-10-5"),
    molar_mass: Sourced { value: MolarMass::from_kg_per_mol(0.052024), source: EQUATION },
    critical: Sourced {
        value: CriticalPoint {
            temperature: Temperature::from_kelvin(351.255),
            pressure: Pressure::from_pa(5782000.0),
            density: Density::from_kg_per_m3(424.0),
        },
        source: EQUATION,
    },
    triple_point: Some(Sourced { value: Temperature::from_kelvin(136.34), source: EQUATION }),
    boiling: Sourced { value: Boiling::At(Temperature::from_celsius(-51.651)), source: COMPUTED },
    safety_class: Sourced {
        value: SafetyClass::A2L,
        source: Source {
            work: "New York City Mechanical Code, table 1103.1 (classification of ASHRAE 34)",
            locator: "",
            doi: None,
            trust: Trust::Excerpt,
        },
    },
    gwp: &[
        Gwp {
            report: "IPCC AR4",
            value: GwpValue::Is(675.0),
            source: Source {
                work: "IPCC AR4",
                locator: "WG1 tables, as carried by chemicals 1.5.2 and globalwarmingpotentials 0.13.2",
                doi: None,
                trust: Trust::Secondary,
            },
        },
        Gwp {
            report: "IPCC AR5",
            value: GwpValue::Is(677.0),
            source: Source {
                work: "IPCC AR5",
                locator: "WG1 tables, as carried by chemicals 1.5.2 and globalwarmingpotentials 0.13.2",
                doi: None,
                trust: Trust::Secondary,
            },
        },
        Gwp {
            report: "IPCC AR6",
            value: GwpValue::Is(771.0),
            source: Source {
                work: "IPCC AR6",
                locator: "WG1 tables, as carried by chemicals 1.5.2 and globalwarmingpotentials 0.13.2",
                doi: None,
                trust: Trust::Secondary,
            },
        },
    ],
    flammability: &[
        Sourced {
            value: LowerFlammability::Volume(Ratio::from_percent(14.4)),
            source: Source { work: "ISO 817 / ASHRAE 34 figure", locator: "", doi: None, trust: Trust::FromMemory },
        },
        Sourced {
            value: LowerFlammability::Mass(Density::from_kg_per_m3(0.307)),
            source: Source { work: "ISO 817 / ASHRAE 34 figure", locator: "", doi: None, trust: Trust::FromMemory },
        },
    ],
    equation: HELMHOLTZ,
    bubble: SATURATION,
    dew: SATURATION,
    bubble_curve: &curves::r32::CURVE,
    dew_curve: &curves::r32::CURVE,
    dome: Some(&curves::r32::DOME),
};

/// Saturation line, fitted to `tables/equation/r32.csv`; `examples/refit.rs` repeats the fit.
const SATURATION: Wagner = Wagner {
    critical_temperature: Temperature::from_kelvin(351.255),
    critical_pressure: Pressure::from_pa(5782645.0),
    terms: [
        (-7.5390082, 1.0),
        (2.5281288, 1.5),
        (-2.7514584, 2.0),
        (1.302639, 2.5),
        (-3.5232542, 4.0),
        (0.1324957, 7.0),
    ],
    valid: Range::new(Temperature::from_kelvin(136.34), Temperature::from_kelvin(351.255)),
    accuracy: [
        Accuracy {
            up_to: Temperature::from_kelvin(213.15),
            pressure: 0.00041,
            temperature: TemperatureDifference::from_kelvins(0.0028),
        },
        Accuracy {
            up_to: Temperature::from_kelvin(233.15),
            pressure: 5.1e-05,
            temperature: TemperatureDifference::from_kelvins(0.00099),
        },
        Accuracy {
            up_to: Temperature::from_kelvin(349.255),
            pressure: 3.6e-05,
            temperature: TemperatureDifference::from_kelvins(0.0017),
        },
        Accuracy {
            up_to: Temperature::from_kelvin(351.255),
            pressure: 3.5e-05,
            temperature: TemperatureDifference::from_kelvins(0.0017),
        },
    ],
    source: EQUATION,
};

/// The equation of state.
const HELMHOLTZ: Equation = Equation {
    gas_constant: 8.314471,
    molar_mass: 0.052024,
    reducing_temperature: 351.255,
    reducing_density: 8150.084576349377,
    critical_temperature: 351.255,
    critical_pressure: 5782645.0,
    ideal: Ideal {
        constant: -8.258096,
        linear: 6.353098,
        logarithmic: 3.004486,
        polynomial: &[],
        planck_einstein: &[
            PlanckEinstein { n: 1.160761, t: 2.2718538 },
            PlanckEinstein { n: 2.645151, t: 11.914421 },
            PlanckEinstein { n: 5.794987, t: 5.1415638 },
            PlanckEinstein { n: 1.129475, t: 32.768217 },
        ],
    },
    residual: Residual {
        exponential: &[
            Exponential { n: 1.046634, t: 0.25, d: 1, l: 0 },
            Exponential { n: -0.5451165, t: 1.0, d: 2, l: 0 },
            Exponential { n: -0.002448595, t: -0.25, d: 5, l: 0 },
            Exponential { n: -0.04877002, t: -1.0, d: 1, l: 0 },
            Exponential { n: 0.03520158, t: 2.0, d: 1, l: 0 },
            Exponential { n: 0.00162275, t: 2.0, d: 3, l: 0 },
            Exponential { n: 2.377225e-05, t: 0.75, d: 8, l: 0 },
            Exponential { n: 0.029149, t: 0.25, d: 4, l: 0 },
            Exponential { n: 0.003386203, t: 18.0, d: 4, l: 4 },
            Exponential { n: -0.004202444, t: 26.0, d: 4, l: 3 },
            Exponential { n: 0.0004782025, t: -1.0, d: 8, l: 1 },
            Exponential { n: -0.005504323, t: 25.0, d: 3, l: 4 },
            Exponential { n: -0.02418396, t: 1.75, d: 5, l: 1 },
            Exponential { n: 0.4209034, t: 4.0, d: 1, l: 2 },
            Exponential { n: -0.4616537, t: 5.0, d: 1, l: 2 },
            Exponential { n: -1.200513, t: 1.0, d: 3, l: 1 },
            Exponential { n: -2.59155, t: 1.5, d: 1, l: 1 },
            Exponential { n: -1.400145, t: 1.0, d: 2, l: 1 },
            Exponential { n: 0.8263017, t: 0.5, d: 3, l: 1 },
        ],
        double_exponential: &[],
        gaussian: &[],
        non_analytic: &[],
    },
    limits: Limits {
        coldest: Temperature::from_kelvin(136.34),
        hottest: Temperature::from_kelvin(435.0),
        highest: Pressure::from_pa(70000000.0),
        densest: 30000.0,
    },
    ancillary: Ancillary {
        liquid: Series::Linear(&[
            (3.0283368557227064, 0.358),
            (-13.30754793568124, 0.676),
            (53.97035773548243, 0.831),
            (-41.10515088784585, 0.88),
            (0.6410010855629815, 2.592),
            (-18.757652443918627, 16.556),
        ]),
        vapour: Series::OverTemperature(&[
            (-0.06522522852577171, 0.069),
            (-3.3577643698607456, 0.425),
            (-2.746299718061842, 1.18),
            (-64.77289013657663, 8.115),
            (511.3349286855849, 12.06),
            (-1525.315265366156, 16.085),
        ]),
    },
    is_pure: true,
    source: EQUATION,
};
