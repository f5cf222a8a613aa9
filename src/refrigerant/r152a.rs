//! R-152a: 1,1-difluoroethane (CH3CHF2).

use super::fluid::{Boiling, CriticalPoint, Fluid, Gwp, GwpValue, LowerFlammability, SafetyClass};
use crate::quantity::{Density, MolarMass};
use crate::saturation::{Accuracy, Wagner};
use crate::{Fact, Pressure, Range, Ratio, Source, Temperature, TemperatureDifference, Trust};

/// The equation of state this fluid stands for.
const EQUATION: Source = Source {
    work: "Stephanie L. Outcalt, Mark O. McLinden, A Modified Benedict-Webb-Rubin Equation of State for the Thermodynamic Properties of R152a (1,1-difluoroethane), J. Phys. Chem. Ref. Data 25(2) (1996) 605-636",
    locator: "equation of state",
    doi: Some("10.1063/1.555979"),
    trust: Trust::Carried,
};

const COMPUTED: Source = Source { locator: "computed from the equation of state", trust: Trust::Computed, ..EQUATION };

/// What is known of the refrigerant.
pub const FLUID: Fluid = Fluid {
    designation: "R-152a",
    names: &["R152a", "152a", "HFC-152a"],
    chemical_name: "1,1-difluoroethane",
    formula: "CH3CHF2",
    composition: &[],
    cas: Some("75-37-6"),
    molar_mass: Fact { value: MolarMass::from_kg_per_mol(0.066051), source: EQUATION },
    critical: Fact {
        value: CriticalPoint {
            temperature: Temperature::from_kelvin(386.411),
            pressure: Pressure::from_pa(4516750.1),
            density: Density::from_kg_per_m3(368.0),
        },
        source: EQUATION,
    },
    triple_point: Some(Fact { value: Temperature::from_kelvin(154.56), source: EQUATION }),
    boiling: Fact { value: Boiling::At(Temperature::from_celsius(-24.022)), source: COMPUTED },
    safety_class: Fact {
        value: SafetyClass::A2,
        source: Source {
            work: "header of the NIST fluid file in usnistgov/teqp (quotes ASHRAE 34-2010)",
            locator: "",
            doi: None,
            trust: Trust::Carried,
        },
    },
    gwp: &[
        Gwp {
            report: "IPCC AR4",
            value: GwpValue::Is(124.0),
            source: Source {
                work: "IPCC AR4",
                locator: "WG1 tables, as carried by chemicals 1.5.2 and globalwarmingpotentials 0.13.2",
                doi: None,
                trust: Trust::Carried,
            },
        },
        Gwp {
            report: "IPCC AR5",
            value: GwpValue::Is(138.0),
            source: Source {
                work: "IPCC AR5",
                locator: "WG1 tables, as carried by chemicals 1.5.2 and globalwarmingpotentials 0.13.2",
                doi: None,
                trust: Trust::Carried,
            },
        },
        Gwp {
            report: "IPCC AR6",
            value: GwpValue::Is(164.0),
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
            value: LowerFlammability::Volume(Ratio::from_percent(4.8)),
            source: Source { work: "ISO 817 / ASHRAE 34 figure", locator: "", doi: None, trust: Trust::FromMemory },
        },
        Fact {
            value: LowerFlammability::Mass(Density::from_kg_per_m3(0.13)),
            source: Source { work: "ISO 817 / ASHRAE 34 figure", locator: "", doi: None, trust: Trust::FromMemory },
        },
    ],
    bubble: SATURATION,
    dew: SATURATION,
};

/// Saturation line, fitted to `tables/equation/r152a.csv`; `examples/refit.rs` repeats the fit.
const SATURATION: Wagner = Wagner {
    critical_temperature: Temperature::from_kelvin(386.411),
    critical_pressure: Pressure::from_pa(4516750.1),
    terms: [
        (-7.601639, 1.0),
        (3.2597062, 1.5),
        (-4.5285192, 2.0),
        (2.6198363, 2.5),
        (-3.9598535, 4.0),
        (-0.2031438, 7.0),
    ],
    valid: Range::new(Temperature::from_kelvin(154.56), Temperature::from_kelvin(386.411)),
    accuracy: [
        Accuracy {
            up_to: Temperature::from_kelvin(213.15),
            pressure: 0.00027,
            temperature: TemperatureDifference::from_kelvin_steps(0.0022),
        },
        Accuracy {
            up_to: Temperature::from_kelvin(233.15),
            pressure: 6.4e-05,
            temperature: TemperatureDifference::from_kelvin_steps(0.001),
        },
        Accuracy {
            up_to: Temperature::from_kelvin(384.411),
            pressure: 3e-05,
            temperature: TemperatureDifference::from_kelvin_steps(0.0016),
        },
        Accuracy {
            up_to: Temperature::from_kelvin(386.411),
            pressure: 3e-05,
            temperature: TemperatureDifference::from_kelvin_steps(0.0016),
        },
    ],
    source: EQUATION,
};
