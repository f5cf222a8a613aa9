//! dichlorodifluoromethane (CCl2F2).

use super::fluid::{Boiling, CriticalPoint, Fluid, Gwp, GwpValue, LowerFlammability, SafetyClass};
use crate::quantity::{Density, MolarMass};
use crate::saturation::{Accuracy, Wagner};
use crate::{Fact, Pressure, Range, Source, Temperature, TemperatureDifference, Trust};

/// The equation of state this fluid stands for.
const EQUATION: Source = Source {
    work: "V. Marx, A. Pruss, W. Wagner, Neue Zustandsgleichungen fuer R12, R22, R11 und R113 (title from memory), Fortschr.-Ber. VDI, Reihe 19, Nr. 57, VDI Verlag, Duesseldorf (1992) ",
    locator: "equation of state",
    doi: None,
    trust: Trust::Carried,
};

const COMPUTED: Source = Source { locator: "computed from the equation of state", trust: Trust::Computed, ..EQUATION };

/// What is known of the refrigerant.
pub const FLUID: Fluid = Fluid {
    designation: "R-12",
    names: &["R12", "CFC-12"],
    chemical_name: "dichlorodifluoromethane",
    formula: "CCl2F2",
    composition: &[],
    cas: Some("75-71-8"),
    molar_mass: Fact { value: MolarMass::from_kg_per_mol(0.120913), source: EQUATION },
    critical: Fact {
        value: CriticalPoint {
            temperature: Temperature::from_kelvin(385.12),
            pressure: Pressure::from_pa(4136100.0),
            density: Density::from_kg_per_m3(565.0),
        },
        source: EQUATION,
    },
    triple_point: Some(Fact { value: Temperature::from_kelvin(116.099), source: EQUATION }),
    boiling: Fact { value: Boiling::At(Temperature::from_celsius(-29.752)), source: COMPUTED },
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
            value: GwpValue::Is(10900.0),
            source: Source {
                work: "IPCC AR4",
                locator: "WG1 tables, as carried by chemicals 1.5.2 and globalwarmingpotentials 0.13.2",
                doi: None,
                trust: Trust::Carried,
            },
        },
        Gwp {
            report: "IPCC AR5",
            value: GwpValue::Is(10200.0),
            source: Source {
                work: "IPCC AR5",
                locator: "WG1 tables, as carried by chemicals 1.5.2 and globalwarmingpotentials 0.13.2",
                doi: None,
                trust: Trust::Carried,
            },
        },
        Gwp {
            report: "IPCC AR6",
            value: GwpValue::Is(12500.0),
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

/// Saturation line, fitted to `tables/equation/r12.csv`; `examples/refit.rs` repeats the fit.
const SATURATION: Wagner = Wagner {
    critical_temperature: Temperature::from_kelvin(385.12),
    critical_pressure: Pressure::from_pa(4136165.6),
    terms: [
        (-7.055455, 1.0),
        (2.7179196, 1.5),
        (-3.0764114, 2.0),
        (1.4092958, 2.5),
        (-2.8948486, 4.0),
        (-0.7648766, 7.0),
    ],
    valid: Range::new(Temperature::from_kelvin(116.099), Temperature::from_kelvin(385.12)),
    accuracy: [
        Accuracy {
            up_to: Temperature::from_kelvin(213.15),
            pressure: 0.0015,
            temperature: TemperatureDifference::from_kelvin_steps(0.0071),
        },
        Accuracy {
            up_to: Temperature::from_kelvin(233.15),
            pressure: 9.4e-05,
            temperature: TemperatureDifference::from_kelvin_steps(0.002),
        },
        Accuracy {
            up_to: Temperature::from_kelvin(383.12),
            pressure: 8.9e-05,
            temperature: TemperatureDifference::from_kelvin_steps(0.0049),
        },
        Accuracy {
            up_to: Temperature::from_kelvin(385.12),
            pressure: 2.2e-05,
            temperature: TemperatureDifference::from_kelvin_steps(0.0012),
        },
    ],
    source: EQUATION,
};
