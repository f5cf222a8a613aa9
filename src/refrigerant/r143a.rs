//! R-143a: 1,1,1-trifluoroethane (CH3CF3).

use super::curves;
use super::fluid::{Boiling, CriticalPoint, Fluid, Gwp, GwpValue, LowerFlammability, SafetyClass};
use crate::helmholtz::terms::{Ancillary, Exponential, Ideal, PlanckEinstein, Residual, Series};
use crate::helmholtz::{Equation, Limits};
use crate::quantity::{Density, MolarMass};
use crate::saturation::{Accuracy, Wagner};
use crate::{Pressure, Range, Ratio, Source, Sourced, Temperature, TemperatureDifference, Trust};

/// Source of the equation of state.
pub(super) const EQUATION: Source = Source {
    work: "Eric W. Lemmon, Richard T. Jacobsen, An International Standard Formulation for the Thermodynamic Properties of 1,1,1-Trifluoroethane (HFC-143a) for Temperatures From 161 to 450 K and Pressures to 50 MPa, J. Phys. Chem. Ref. Data 29(4) (2000) 521-552",
    locator: "equation of state",
    doi: Some("10.1063/1.1318909"),
    trust: Trust::Secondary,
};

const COMPUTED: Source = Source { locator: "computed from the equation of state", trust: Trust::Computed, ..EQUATION };

/// Data sheet of the refrigerant.
pub const FLUID: Fluid = Fluid {
    designation: "R-143a",
    names: &["R143a", "HFC-143a"],
    chemical_name: "1,1,1-trifluoroethane",
    formula: "CH3CF3",
    composition: &[],
    cas: Some("420-46-2"),
    molar_mass: Sourced { value: MolarMass::from_kg_per_mol(0.084041), source: EQUATION },
    critical: Sourced {
        value: CriticalPoint {
            temperature: Temperature::from_kelvin(345.857),
            pressure: Pressure::from_pa(3761000.0),
            density: Density::from_kg_per_m3(431.0001),
        },
        source: EQUATION,
    },
    triple_point: Some(Sourced { value: Temperature::from_kelvin(161.34), source: EQUATION }),
    boiling: Sourced { value: Boiling::At(Temperature::from_celsius(-47.241)), source: COMPUTED },
    safety_class: Sourced {
        value: SafetyClass::A2L,
        source: Source { work: "ASHRAE 34 / ISO 817", locator: "", doi: None, trust: Trust::FromMemory },
    },
    gwp: &[
        Gwp {
            report: "IPCC AR4",
            value: GwpValue::Is(4470.0),
            source: Source {
                work: "IPCC AR4",
                locator: "WG1 tables, as carried by chemicals 1.5.2 and globalwarmingpotentials 0.13.2",
                doi: None,
                trust: Trust::Secondary,
            },
        },
        Gwp {
            report: "IPCC AR5",
            value: GwpValue::Is(4800.0),
            source: Source {
                work: "IPCC AR5",
                locator: "WG1 tables, as carried by chemicals 1.5.2 and globalwarmingpotentials 0.13.2",
                doi: None,
                trust: Trust::Secondary,
            },
        },
        Gwp {
            report: "IPCC AR6",
            value: GwpValue::Is(5810.0),
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
            value: LowerFlammability::Volume(Ratio::from_percent(6.8)),
            source: Source {
                work: "IEC 60079-20-1 (2010)",
                locator: "as carried by chemicals 1.5.2",
                doi: None,
                trust: Trust::Secondary,
            },
        },
        Sourced {
            value: LowerFlammability::Volume(Ratio::from_percent(8.2)),
            source: Source { work: "ISO 817 / ASHRAE 34 figure", locator: "", doi: None, trust: Trust::FromMemory },
        },
        Sourced {
            value: LowerFlammability::Mass(Density::from_kg_per_m3(0.282)),
            source: Source { work: "ISO 817 / ASHRAE 34 figure", locator: "", doi: None, trust: Trust::FromMemory },
        },
    ],
    equation: HELMHOLTZ,
    bubble: SATURATION,
    dew: SATURATION,
    bubble_curve: &curves::r143a::CURVE,
    dew_curve: &curves::r143a::CURVE,
    dome: Some(&curves::r143a::DOME),
};

/// Saturation line, fitted to `tables/equation/r143a.csv`; `examples/refit.rs` repeats the fit.
const SATURATION: Wagner = Wagner {
    critical_temperature: Temperature::from_kelvin(345.857),
    critical_pressure: Pressure::from_pa(3761818.2),
    terms: [
        (-7.4661832, 1.0),
        (2.6860271, 1.5),
        (-3.0642088, 2.0),
        (1.4186603, 2.5),
        (-3.58538, 4.0),
        (-0.2068099, 7.0),
    ],
    valid: Range::new(Temperature::from_kelvin(161.34), Temperature::from_kelvin(345.857)),
    accuracy: [
        Accuracy {
            up_to: Temperature::from_kelvin(213.15),
            pressure: 7.2e-05,
            temperature: TemperatureDifference::from_kelvins(0.00073),
        },
        Accuracy {
            up_to: Temperature::from_kelvin(233.15),
            pressure: 1.7e-05,
            temperature: TemperatureDifference::from_kelvins(0.00031),
        },
        Accuracy {
            up_to: Temperature::from_kelvin(343.857),
            pressure: 8.4e-06,
            temperature: TemperatureDifference::from_kelvins(0.00039),
        },
        Accuracy {
            up_to: Temperature::from_kelvin(345.857),
            pressure: 8.7e-06,
            temperature: TemperatureDifference::from_kelvins(0.00041),
        },
    ],
    source: EQUATION,
};

/// The equation of state.
const HELMHOLTZ: Equation = Equation {
    gas_constant: 8.314472,
    molar_mass: 0.084041,
    reducing_temperature: 345.857,
    reducing_density: 5128.45,
    critical_temperature: 345.857,
    critical_pressure: 3761818.2,
    ideal: Ideal {
        constant: 5.903048119431678,
        linear: 7.307250621491635,
        logarithmic: -1.0,
        polynomial: &[(-16.591049152078973, -0.33)],
        planck_einstein: &[
            PlanckEinstein { n: 4.4402, t: 5.178440800677737 },
            PlanckEinstein { n: 3.7515, t: 2.379596191489546 },
        ],
    },
    residual: Residual {
        exponential: &[
            Exponential { n: 7.7736443, t: 0.67, d: 1, l: 0 },
            Exponential { n: -8.70185, t: 0.833, d: 1, l: 0 },
            Exponential { n: -0.27779799, t: 1.7, d: 1, l: 0 },
            Exponential { n: 0.1460922, t: 1.82, d: 2, l: 0 },
            Exponential { n: 0.0089581616, t: 0.35, d: 5, l: 0 },
            Exponential { n: -0.20552116, t: 3.9, d: 1, l: 1 },
            Exponential { n: 0.10653258, t: 0.95, d: 3, l: 1 },
            Exponential { n: 0.023270816, t: 0.0, d: 5, l: 1 },
            Exponential { n: -0.013247542, t: 1.19, d: 7, l: 1 },
            Exponential { n: -0.04279387, t: 7.2, d: 1, l: 2 },
            Exponential { n: 0.36221685, t: 5.9, d: 2, l: 2 },
            Exponential { n: -0.25671899, t: 7.65, d: 2, l: 2 },
            Exponential { n: -0.092326113, t: 7.5, d: 3, l: 2 },
            Exponential { n: 0.083774837, t: 7.45, d: 4, l: 2 },
            Exponential { n: 0.017128445, t: 15.5, d: 2, l: 3 },
            Exponential { n: -0.01725611, t: 22.0, d: 3, l: 3 },
            Exponential { n: 0.0049080492, t: 19.0, d: 5, l: 3 },
        ],
        double_exponential: &[],
        gaussian: &[],
        non_analytic: &[],
    },
    limits: Limits {
        coldest: Temperature::from_kelvin(161.34),
        hottest: Temperature::from_kelvin(650.0),
        highest: Pressure::from_pa(150000000.0),
        densest: 17000.0,
    },
    ancillary: Ancillary {
        liquid: Series::Linear(&[
            (2.664780959919923, 0.381),
            (-0.254772168947589, 0.463),
            (97.84474908938734, 3.927),
            (-105.1304757408368, 4.049),
            (13272.94203979726, 16.046),
            (-116968.31229953805, 19.95),
        ]),
        vapour: Series::OverTemperature(&[
            (-6.218069939810391, 0.454),
            (4.25938169894919, 0.587),
            (-4.417810181991655, 1.058),
            (23.70234830311772, 3.611),
            (-50.98632502013336, 4.279),
            (29.108143754921628, 5.478),
        ]),
    },
    is_pure: true,
    source: EQUATION,
};
