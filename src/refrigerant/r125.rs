//! pentafluoroethane (CHF2CF3).

use super::fluid::{Boiling, CriticalPoint, Fluid, Gwp, GwpValue, LowerFlammability, SafetyClass};
use crate::quantity::{Density, MolarMass};
use crate::saturation::{Accuracy, Wagner};
use crate::{Fact, Pressure, Range, Source, Temperature, TemperatureDifference, Trust};

/// The equation of state this fluid stands for.
const EQUATION: Source = Source {
    work: "Eric W. Lemmon, Richard T Jacobsen, A New Functional Form and New Fitting Techniques for Equations of State with Application to Pentafluoroethane (HFC-125), J. Phys. Chem. Ref. Data 34(1) (2005) 69-108",
    locator: "equation of state",
    doi: Some("10.1063/1.1797813"),
    trust: Trust::Carried,
};

const COMPUTED: Source = Source { locator: "computed from the equation of state", trust: Trust::Computed, ..EQUATION };

/// What is known of the refrigerant.
pub const FLUID: Fluid = Fluid {
    designation: "R-125",
    names: &["R125", "HFC-125"],
    chemical_name: "pentafluoroethane",
    formula: "CHF2CF3",
    composition: &[],
    cas: Some("354-33-6"),
    molar_mass: Fact { value: MolarMass::from_kg_per_mol(0.1200214), source: EQUATION },
    critical: Fact {
        value: CriticalPoint {
            temperature: Temperature::from_kelvin(339.173),
            pressure: Pressure::from_pa(3617700.0),
            density: Density::from_kg_per_m3(573.5823),
        },
        source: EQUATION,
    },
    triple_point: Some(Fact { value: Temperature::from_kelvin(172.52), source: EQUATION }),
    boiling: Fact { value: Boiling::At(Temperature::from_celsius(-48.089)), source: COMPUTED },
    safety_class: Fact {
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
                trust: Trust::Carried,
            },
        },
        Gwp {
            report: "IPCC AR5",
            value: GwpValue::Is(3170.0),
            source: Source {
                work: "IPCC AR5",
                locator: "WG1 tables, as carried by chemicals 1.5.2 and globalwarmingpotentials 0.13.2",
                doi: None,
                trust: Trust::Carried,
            },
        },
        Gwp {
            report: "IPCC AR6",
            value: GwpValue::Is(3740.0),
            source: Source {
                work: "IPCC AR6",
                locator: "WG1 tables, as carried by chemicals 1.5.2 and globalwarmingpotentials 0.13.2",
                doi: None,
                trust: Trust::Carried,
            },
        },
    ],
    flammability: &[Fact {
        value: LowerFlammability::None,
        source: Source {
            work: "class 1: no flame propagation in the class test",
            locator: "",
            doi: None,
            trust: Trust::Reasoned,
        },
    }],
    bubble: SATURATION,
    dew: SATURATION,
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
            temperature: TemperatureDifference::from_kelvin_steps(0.0026),
        },
        Accuracy {
            up_to: Temperature::from_kelvin(233.15),
            pressure: 5.5e-05,
            temperature: TemperatureDifference::from_kelvin_steps(0.0012),
        },
        Accuracy {
            up_to: Temperature::from_kelvin(337.173),
            pressure: 3.4e-05,
            temperature: TemperatureDifference::from_kelvin_steps(0.0014),
        },
        Accuracy {
            up_to: Temperature::from_kelvin(339.173),
            pressure: 1.1e-05,
            temperature: TemperatureDifference::from_kelvin_steps(0.00047),
        },
    ],
    source: EQUATION,
};
