//! R-600a: 2-methylpropane (isobutane) (CH(CH3)3).

use super::fluid::{Boiling, CriticalPoint, Fluid, Gwp, GwpValue, LowerFlammability, SafetyClass};
use crate::quantity::{Density, MolarMass};
use crate::saturation::{Accuracy, Wagner};
use crate::{Fact, Pressure, Range, Ratio, Source, Temperature, TemperatureDifference, Trust};

/// The equation of state this fluid stands for.
const EQUATION: Source = Source {
    work: "D. Buecker, W. Wagner, Reference Equations of State for the Thermodynamic Properties of Fluid Phase n-Butane and Isobutane, J. Phys. Chem. Ref. Data 35(2) (2006) 929-1019",
    locator: "equation of state",
    doi: Some("10.1063/1.1901687"),
    trust: Trust::Carried,
};

const COMPUTED: Source = Source { locator: "computed from the equation of state", trust: Trust::Computed, ..EQUATION };

/// What is known of the refrigerant.
pub const FLUID: Fluid = Fluid {
    designation: "R-600a",
    names: &["R600a", "HC-600a", "isobutane"],
    chemical_name: "2-methylpropane (isobutane)",
    formula: "CH(CH3)3",
    composition: &[],
    cas: Some("75-28-5"),
    molar_mass: Fact { value: MolarMass::from_kg_per_mol(0.0581222), source: EQUATION },
    critical: Fact {
        value: CriticalPoint {
            temperature: Temperature::from_kelvin(407.81),
            pressure: Pressure::from_pa(3629000.0),
            density: Density::from_kg_per_m3(225.5),
        },
        source: EQUATION,
    },
    triple_point: Some(Fact { value: Temperature::from_kelvin(113.73), source: EQUATION }),
    boiling: Fact { value: Boiling::At(Temperature::from_celsius(-11.749)), source: COMPUTED },
    safety_class: Fact {
        value: SafetyClass::A3,
        source: Source { work: "ASHRAE 34 / ISO 817", locator: "", doi: None, trust: Trust::FromMemory },
    },
    gwp: &[Gwp {
        report: "IPCC AR6",
        value: GwpValue::Below(1.0),
        source: Source {
            work: "a compressor maker's page on AR6: propane and isobutane below 1",
            locator: "",
            doi: None,
            trust: Trust::Carried,
        },
    }],
    flammability: &[
        Fact {
            value: LowerFlammability::Volume(Ratio::from_percent(1.3)),
            source: Source {
                work: "IEC 60079-20-1 (2010)",
                locator: "as carried by chemicals 1.5.2",
                doi: None,
                trust: Trust::Carried,
            },
        },
        Fact {
            value: LowerFlammability::Volume(Ratio::from_percent(1.8)),
            source: Source {
                work: "NFPA 497 (2008)",
                locator: "as carried by chemicals 1.5.2",
                doi: None,
                trust: Trust::Carried,
            },
        },
        Fact {
            value: LowerFlammability::Mass(Density::from_kg_per_m3(0.043)),
            source: Source { work: "ISO 817 / ASHRAE 34 figure", locator: "", doi: None, trust: Trust::FromMemory },
        },
    ],
    bubble: SATURATION,
    dew: SATURATION,
};

/// Saturation line, fitted to `tables/equation/r600a.csv`; `examples/refit.rs` repeats the fit.
const SATURATION: Wagner = Wagner {
    critical_temperature: Temperature::from_kelvin(407.81),
    critical_pressure: Pressure::from_pa(3629000.0),
    terms: [
        (-6.9118512, 1.0),
        (1.9277813, 1.5),
        (-1.8089872, 2.0),
        (0.7683012, 2.5),
        (-3.1965433, 4.0),
        (0.0368288, 7.0),
    ],
    valid: Range::new(Temperature::from_kelvin(113.73), Temperature::from_kelvin(407.81)),
    accuracy: [
        Accuracy {
            up_to: Temperature::from_kelvin(213.15),
            pressure: 0.0012,
            temperature: TemperatureDifference::from_kelvin_steps(0.0055),
        },
        Accuracy {
            up_to: Temperature::from_kelvin(233.15),
            pressure: 0.00012,
            temperature: TemperatureDifference::from_kelvin_steps(0.002),
        },
        Accuracy {
            up_to: Temperature::from_kelvin(405.81),
            pressure: 7.9e-05,
            temperature: TemperatureDifference::from_kelvin_steps(0.0045),
        },
        Accuracy {
            up_to: Temperature::from_kelvin(407.81),
            pressure: 5.6e-05,
            temperature: TemperatureDifference::from_kelvin_steps(0.0034),
        },
    ],
    source: EQUATION,
};
