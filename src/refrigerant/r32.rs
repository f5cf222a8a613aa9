//! difluoromethane (CH2F2).

use super::fluid::{Boiling, CriticalPoint, Fluid, Gwp, GwpValue, LowerFlammability, SafetyClass};
use crate::quantity::{Density, MolarMass};
use crate::saturation::{Accuracy, Wagner};
use crate::{Fact, Pressure, Range, Ratio, Source, Temperature, TemperatureDifference, Trust};

/// The equation of state this fluid stands for.
const EQUATION: Source = Source {
    work: "R. Tillner-Roth, A. Yokozeki, An international standard equation of state for difluoromethane (R-32) for temperatures from the triple point at 136.34 K to 435 K and pressures up to 70 MPa, J. Phys. Chem. Ref. Data 26(6) (1997) 1273-1328",
    locator: "equation of state",
    doi: Some("10.1063/1.556002"),
    trust: Trust::Carried,
};

const COMPUTED: Source = Source { locator: "computed from the equation of state", trust: Trust::Computed, ..EQUATION };

/// What is known of the refrigerant.
pub const FLUID: Fluid = Fluid {
    designation: "R-32",
    names: &["R32", "HFC-32"],
    chemical_name: "difluoromethane",
    formula: "CH2F2",
    composition: &[],
    cas: Some("75-10-5"),
    molar_mass: Fact { value: MolarMass::from_kg_per_mol(0.052024), source: EQUATION },
    critical: Fact {
        value: CriticalPoint {
            temperature: Temperature::from_kelvin(351.255),
            pressure: Pressure::from_pa(5782000.0),
            density: Density::from_kg_per_m3(424.0),
        },
        source: EQUATION,
    },
    triple_point: Some(Fact { value: Temperature::from_kelvin(136.34), source: EQUATION }),
    boiling: Fact { value: Boiling::At(Temperature::from_celsius(-51.651)), source: COMPUTED },
    safety_class: Fact {
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
                trust: Trust::Carried,
            },
        },
        Gwp {
            report: "IPCC AR5",
            value: GwpValue::Is(677.0),
            source: Source {
                work: "IPCC AR5",
                locator: "WG1 tables, as carried by chemicals 1.5.2 and globalwarmingpotentials 0.13.2",
                doi: None,
                trust: Trust::Carried,
            },
        },
        Gwp {
            report: "IPCC AR6",
            value: GwpValue::Is(771.0),
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
            value: LowerFlammability::Volume(Ratio::from_percent(14.4)),
            source: Source { work: "ISO 817 / ASHRAE 34 figure", locator: "", doi: None, trust: Trust::FromMemory },
        },
        Fact {
            value: LowerFlammability::Mass(Density::from_kg_per_m3(0.307)),
            source: Source { work: "ISO 817 / ASHRAE 34 figure", locator: "", doi: None, trust: Trust::FromMemory },
        },
    ],
    bubble: SATURATION,
    dew: SATURATION,
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
            temperature: TemperatureDifference::from_kelvin_steps(0.0028),
        },
        Accuracy {
            up_to: Temperature::from_kelvin(233.15),
            pressure: 5.1e-05,
            temperature: TemperatureDifference::from_kelvin_steps(0.00099),
        },
        Accuracy {
            up_to: Temperature::from_kelvin(349.255),
            pressure: 3.6e-05,
            temperature: TemperatureDifference::from_kelvin_steps(0.0017),
        },
        Accuracy {
            up_to: Temperature::from_kelvin(351.255),
            pressure: 3.5e-05,
            temperature: TemperatureDifference::from_kelvin_steps(0.0017),
        },
    ],
    source: EQUATION,
};
