//! chlorodifluoromethane (CHClF2).

use super::fluid::{Boiling, CriticalPoint, Fluid, Gwp, GwpValue, LowerFlammability, SafetyClass};
use crate::quantity::{Density, MolarMass};
use crate::saturation::{Accuracy, Wagner};
use crate::{Fact, Pressure, Range, Source, Temperature, TemperatureDifference, Trust};

/// The equation of state this fluid stands for.
const EQUATION: Source = Source {
    work: "A. Kamei, S. W. Beyerlein, R. T Jacobsen, Application of Nonlinear Regression in the Development of a Wide Range Formulation for HCFC-22, Int. J. Thermophys. 16(5) (1995) 1155-1164",
    locator: "equation of state",
    doi: Some("10.1007/BF02081283"),
    trust: Trust::Carried,
};

const COMPUTED: Source = Source { locator: "computed from the equation of state", trust: Trust::Computed, ..EQUATION };

/// What is known of the refrigerant.
pub const FLUID: Fluid = Fluid {
    designation: "R-22",
    names: &["R22", "HCFC-22"],
    chemical_name: "chlorodifluoromethane",
    formula: "CHClF2",
    composition: &[],
    cas: Some("75-45-6"),
    molar_mass: Fact { value: MolarMass::from_kg_per_mol(0.086468), source: EQUATION },
    critical: Fact {
        value: CriticalPoint {
            temperature: Temperature::from_kelvin(369.295),
            pressure: Pressure::from_pa(4990000.0),
            density: Density::from_kg_per_m3(523.8422),
        },
        source: EQUATION,
    },
    triple_point: Some(Fact { value: Temperature::from_kelvin(115.73), source: EQUATION }),
    boiling: Fact { value: Boiling::At(Temperature::from_celsius(-40.810)), source: COMPUTED },
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
            value: GwpValue::Is(1810.0),
            source: Source {
                work: "IPCC AR4",
                locator: "WG1 tables, as carried by chemicals 1.5.2 and globalwarmingpotentials 0.13.2",
                doi: None,
                trust: Trust::Carried,
            },
        },
        Gwp {
            report: "IPCC AR5",
            value: GwpValue::Is(1760.0),
            source: Source {
                work: "IPCC AR5",
                locator: "WG1 tables, as carried by chemicals 1.5.2 and globalwarmingpotentials 0.13.2",
                doi: None,
                trust: Trust::Carried,
            },
        },
        Gwp {
            report: "IPCC AR6",
            value: GwpValue::Is(1960.0),
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
            temperature: TemperatureDifference::from_kelvin_steps(0.0079),
        },
        Accuracy {
            up_to: Temperature::from_kelvin(233.15),
            pressure: 0.00023,
            temperature: TemperatureDifference::from_kelvin_steps(0.0039),
        },
        Accuracy {
            up_to: Temperature::from_kelvin(367.295),
            pressure: 0.00011,
            temperature: TemperatureDifference::from_kelvin_steps(0.0055),
        },
        Accuracy {
            up_to: Temperature::from_kelvin(369.295),
            pressure: 2.9e-05,
            temperature: TemperatureDifference::from_kelvin_steps(0.0016),
        },
    ],
    source: EQUATION,
};
