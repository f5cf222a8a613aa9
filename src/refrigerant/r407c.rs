//! R-407C: R-32/125/134a.

use super::fluid::{Boiling, Component, CriticalPoint, Fluid, Gwp, GwpValue, LowerFlammability, SafetyClass};
use crate::quantity::{Density, MolarMass};
use crate::saturation::{Accuracy, Wagner};
use crate::{Fact, Pressure, Range, Ratio, Refrigerant, Source, Temperature, TemperatureDifference, Trust};

/// The equation of state this fluid stands for.
const EQUATION: Source = Source {
    work: "E.W. Lemmon, Pseudo-Pure Fluid Equations of State for the Refrigerant Blends R-410A, R-404A, R-507A, and R-407C, Int. J. Thermophys. 24(4) (2003) 991-1006",
    locator: "equation of state",
    doi: Some("10.1023/A:1025048800563"),
    trust: Trust::Carried,
};

const COMPUTED: Source = Source { locator: "computed from the equation of state", trust: Trust::Computed, ..EQUATION };

/// What is known of the refrigerant.
pub const FLUID: Fluid = Fluid {
    designation: "R-407C",
    names: &["R407C", "407C"],
    chemical_name: "R-32/125/134a",
    formula: "",
    composition: &[
        Component { refrigerant: Refrigerant::R32, mass_share: Ratio::from_percent(23.0) },
        Component { refrigerant: Refrigerant::R125, mass_share: Ratio::from_percent(25.0) },
        Component { refrigerant: Refrigerant::R134a, mass_share: Ratio::from_percent(52.0) },
    ],
    cas: None,
    molar_mass: Fact { value: MolarMass::from_kg_per_mol(0.0862036), source: EQUATION },
    critical: Fact {
        value: CriticalPoint {
            temperature: Temperature::from_kelvin(359.345),
            pressure: Pressure::from_pa(4631700.0),
            density: Density::from_kg_per_m3(453.4309),
        },
        source: EQUATION,
    },
    triple_point: None,
    boiling: Fact {
        value: Boiling::Between { bubble: Temperature::from_celsius(-43.626), dew: Temperature::from_celsius(-36.630) },
        source: COMPUTED,
    },
    safety_class: Fact {
        value: SafetyClass::A1,
        source: Source {
            work: "CoolProp 8.0.0 fluid data (edition of ASHRAE 34 not stated)",
            locator: "",
            doi: None,
            trust: Trust::Carried,
        },
    },
    gwp: &[
        Gwp {
            report: "IPCC AR4",
            value: GwpValue::Is(1774.0),
            source: Source {
                work: "mass-weighted from the components",
                locator: "",
                doi: None,
                trust: Trust::Computed,
            },
        },
        Gwp {
            report: "IPCC AR5",
            value: GwpValue::Is(1624.0),
            source: Source {
                work: "mass-weighted from the components",
                locator: "",
                doi: None,
                trust: Trust::Computed,
            },
        },
        Gwp {
            report: "IPCC AR6",
            value: GwpValue::Is(1908.0),
            source: Source {
                work: "mass-weighted from the components",
                locator: "",
                doi: None,
                trust: Trust::Computed,
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
    bubble: BUBBLE,
    dew: DEW,
};

/// Bubble line, as published with the equation of state.
///
/// The bubble line rises above its reference pressure from 358.947 K and turns over at 359.247 K, 0.1 K below its end;
/// the range of both lines ends before that.
const BUBBLE: Wagner = Wagner {
    critical_temperature: Temperature::from_kelvin(359.345),
    critical_pressure: Pressure::from_pa(4631700.0),
    terms: [(0.48722, 0.54), (-6.6959, 0.925), (-1.4165, 2.7), (-2.5109, 4.7), (0.0, 1.0), (0.0, 1.0)],
    valid: Range::new(Temperature::from_kelvin(200.0), Temperature::from_kelvin(358.94)),
    accuracy: [
        Accuracy {
            up_to: Temperature::from_kelvin(213.15),
            pressure: 0.0,
            temperature: TemperatureDifference::from_kelvin_steps(0.0),
        },
        Accuracy {
            up_to: Temperature::from_kelvin(233.15),
            pressure: 0.0,
            temperature: TemperatureDifference::from_kelvin_steps(0.0),
        },
        Accuracy {
            up_to: Temperature::from_kelvin(357.345),
            pressure: 0.0,
            temperature: TemperatureDifference::from_kelvin_steps(0.0),
        },
        Accuracy {
            up_to: Temperature::from_kelvin(359.345),
            pressure: 0.0,
            temperature: TemperatureDifference::from_kelvin_steps(0.0),
        },
    ],
    source: EQUATION,
};

/// Dew line, as published with the equation of state.
///
/// The bubble line rises above its reference pressure from 358.947 K and turns over at 359.247 K, 0.1 K below its end;
/// the range of both lines ends before that.
const DEW: Wagner = Wagner {
    critical_temperature: Temperature::from_kelvin(359.345),
    critical_pressure: Pressure::from_pa(4631700.0),
    terms: [(-0.086077, 0.4), (-6.6364, 0.965), (-2.4648, 3.1), (-3.4776, 5.0), (0.0, 1.0), (0.0, 1.0)],
    valid: Range::new(Temperature::from_kelvin(200.0), Temperature::from_kelvin(358.94)),
    accuracy: [
        Accuracy {
            up_to: Temperature::from_kelvin(213.15),
            pressure: 0.0,
            temperature: TemperatureDifference::from_kelvin_steps(0.0),
        },
        Accuracy {
            up_to: Temperature::from_kelvin(233.15),
            pressure: 0.0,
            temperature: TemperatureDifference::from_kelvin_steps(0.0),
        },
        Accuracy {
            up_to: Temperature::from_kelvin(357.345),
            pressure: 0.0,
            temperature: TemperatureDifference::from_kelvin_steps(0.0),
        },
        Accuracy {
            up_to: Temperature::from_kelvin(359.345),
            pressure: 0.0,
            temperature: TemperatureDifference::from_kelvin_steps(0.0),
        },
    ],
    source: EQUATION,
};
