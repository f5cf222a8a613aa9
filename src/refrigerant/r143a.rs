//! R-143a: 1,1,1-trifluoroethane (CH3CF3).

use super::fluid::{Boiling, CriticalPoint, Fluid, Gwp, GwpValue, LowerFlammability, SafetyClass};
use crate::quantity::{Density, MolarMass};
use crate::saturation::{Accuracy, Wagner};
use crate::{Fact, Pressure, Range, Ratio, Source, Temperature, TemperatureDifference, Trust};

/// The equation of state this fluid stands for.
const EQUATION: Source = Source {
    work: "Eric W. Lemmon, Richard T. Jacobsen, An International Standard Formulation for the Thermodynamic Properties of 1,1,1-Trifluoroethane (HFC-143a) for Temperatures From 161 to 450 K and Pressures to 50 MPa, J. Phys. Chem. Ref. Data 29(4) (2000) 521-552",
    locator: "equation of state",
    doi: Some("10.1063/1.1318909"),
    trust: Trust::Carried,
};

const COMPUTED: Source = Source { locator: "computed from the equation of state", trust: Trust::Computed, ..EQUATION };

/// What is known of the refrigerant.
pub const FLUID: Fluid = Fluid {
    designation: "R-143a",
    names: &["R143a", "HFC-143a"],
    chemical_name: "1,1,1-trifluoroethane",
    formula: "CH3CF3",
    composition: &[],
    cas: Some("420-46-2"),
    molar_mass: Fact { value: MolarMass::from_kg_per_mol(0.084041), source: EQUATION },
    critical: Fact {
        value: CriticalPoint {
            temperature: Temperature::from_kelvin(345.857),
            pressure: Pressure::from_pa(3761000.0),
            density: Density::from_kg_per_m3(431.0001),
        },
        source: EQUATION,
    },
    triple_point: Some(Fact { value: Temperature::from_kelvin(161.34), source: EQUATION }),
    boiling: Fact { value: Boiling::At(Temperature::from_celsius(-47.241)), source: COMPUTED },
    safety_class: Fact {
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
                trust: Trust::Carried,
            },
        },
        Gwp {
            report: "IPCC AR5",
            value: GwpValue::Is(4800.0),
            source: Source {
                work: "IPCC AR5",
                locator: "WG1 tables, as carried by chemicals 1.5.2 and globalwarmingpotentials 0.13.2",
                doi: None,
                trust: Trust::Carried,
            },
        },
        Gwp {
            report: "IPCC AR6",
            value: GwpValue::Is(5810.0),
            source: Source {
                work: "IPCC AR6",
                locator: "WG1 tables, as carried by chemicals 1.5.2 and globalwarmingpotentials 0.13.2",
                doi: None,
                trust: Trust::Carried,
            },
        },
    ],
    flammability: &[
        Fact {
            value: LowerFlammability::Volume(Ratio::from_percent(6.8)),
            source: Source {
                work: "IEC 60079-20-1 (2010)",
                locator: "as carried by chemicals 1.5.2",
                doi: None,
                trust: Trust::Carried,
            },
        },
        Fact {
            value: LowerFlammability::Volume(Ratio::from_percent(8.2)),
            source: Source { work: "ISO 817 / ASHRAE 34 figure", locator: "", doi: None, trust: Trust::FromMemory },
        },
        Fact {
            value: LowerFlammability::Mass(Density::from_kg_per_m3(0.282)),
            source: Source { work: "ISO 817 / ASHRAE 34 figure", locator: "", doi: None, trust: Trust::FromMemory },
        },
    ],
    bubble: SATURATION,
    dew: SATURATION,
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
            temperature: TemperatureDifference::from_kelvin_steps(0.00073),
        },
        Accuracy {
            up_to: Temperature::from_kelvin(233.15),
            pressure: 1.7e-05,
            temperature: TemperatureDifference::from_kelvin_steps(0.00031),
        },
        Accuracy {
            up_to: Temperature::from_kelvin(343.857),
            pressure: 8.4e-06,
            temperature: TemperatureDifference::from_kelvin_steps(0.00039),
        },
        Accuracy {
            up_to: Temperature::from_kelvin(345.857),
            pressure: 8.7e-06,
            temperature: TemperatureDifference::from_kelvin_steps(0.00041),
        },
    ],
    source: EQUATION,
};
