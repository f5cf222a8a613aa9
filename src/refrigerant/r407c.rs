//! R-407C: R-32/125/134a.

use super::curves;
use super::fluid::{Boiling, Component, CriticalPoint, Fluid, Gwp, GwpValue, LowerFlammability, SafetyClass};
use crate::helmholtz::terms::{Ancillary, Exponential, Ideal, PlanckEinstein, Residual, Series};
use crate::helmholtz::{Equation, Limits};
use crate::quantity::{Density, MolarMass};
use crate::saturation::{Accuracy, Wagner};
use crate::{Pressure, Range, Ratio, Refrigerant, Source, Sourced, Temperature, TemperatureDifference, Trust};

/// Source of the equation of state.
pub(super) const EQUATION: Source = Source {
    work: "E.W. Lemmon, Pseudo-Pure Fluid Equations of State for the Refrigerant Blends R-410A, R-404A, R-507A, and R-407C, Int. J. Thermophys. 24(4) (2003) 991-1006",
    locator: "equation of state",
    doi: Some("10.1023/A:1025048800563"),
    trust: Trust::Secondary,
};

const COMPUTED: Source = Source { locator: "computed from the equation of state", trust: Trust::Computed, ..EQUATION };

/// Data sheet of the refrigerant.
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
    molar_mass: Sourced { value: MolarMass::from_kg_per_mol(0.0862036), source: EQUATION },
    critical: Sourced {
        value: CriticalPoint {
            temperature: Temperature::from_kelvin(359.345),
            pressure: Pressure::from_pa(4631700.0),
            density: Density::from_kg_per_m3(453.4309),
        },
        source: EQUATION,
    },
    triple_point: None,
    boiling: Sourced {
        value: Boiling::Between { bubble: Temperature::from_celsius(-43.626), dew: Temperature::from_celsius(-36.630) },
        source: COMPUTED,
    },
    safety_class: Sourced {
        value: SafetyClass::A1,
        source: Source {
            work: "CoolProp 8.0.0 fluid data (edition of ASHRAE 34 not stated)",
            locator: "",
            doi: None,
            trust: Trust::Secondary,
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
    flammability: &[Sourced {
        value: LowerFlammability::None,
        source: Source {
            work: "class 1: no flame propagation in the class test",
            locator: "",
            doi: None,
            trust: Trust::Reasoned,
        },
    }],
    equation: HELMHOLTZ,
    bubble: BUBBLE,
    dew: DEW,
    bubble_curve: &curves::r407c::BUBBLE,
    dew_curve: &curves::r407c::DEW,
    dome: None,
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
            temperature: TemperatureDifference::from_kelvins(0.0),
        },
        Accuracy {
            up_to: Temperature::from_kelvin(233.15),
            pressure: 0.0,
            temperature: TemperatureDifference::from_kelvins(0.0),
        },
        Accuracy {
            up_to: Temperature::from_kelvin(357.345),
            pressure: 0.0,
            temperature: TemperatureDifference::from_kelvins(0.0),
        },
        Accuracy {
            up_to: Temperature::from_kelvin(359.345),
            pressure: 0.0,
            temperature: TemperatureDifference::from_kelvins(0.0),
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
            temperature: TemperatureDifference::from_kelvins(0.0),
        },
        Accuracy {
            up_to: Temperature::from_kelvin(233.15),
            pressure: 0.0,
            temperature: TemperatureDifference::from_kelvins(0.0),
        },
        Accuracy {
            up_to: Temperature::from_kelvin(357.345),
            pressure: 0.0,
            temperature: TemperatureDifference::from_kelvins(0.0),
        },
        Accuracy {
            up_to: Temperature::from_kelvin(359.345),
            pressure: 0.0,
            temperature: TemperatureDifference::from_kelvins(0.0),
        },
    ],
    source: EQUATION,
};

/// The equation of state.
const HELMHOLTZ: Equation = Equation {
    gas_constant: 8.314472,
    molar_mass: 0.0862036,
    reducing_temperature: 359.345,
    reducing_density: 5260.0,
    critical_temperature: 359.345,
    critical_pressure: 4631709.9,
    ideal: Ideal {
        constant: 2.13194,
        linear: 8.05008,
        logarithmic: -1.0,
        polynomial: &[(-14.3914, -0.4)],
        planck_einstein: &[
            PlanckEinstein { n: 1.4245, t: 2.40437462605574 },
            PlanckEinstein { n: 3.9419, t: 5.2512209714897935 },
            PlanckEinstein { n: 3.1209, t: 13.363202493425536 },
        ],
    },
    residual: Residual {
        exponential: &[
            Exponential { n: 1.0588, t: 0.241, d: 1, l: 0 },
            Exponential { n: -1.12018, t: 0.69, d: 1, l: 0 },
            Exponential { n: 0.629064, t: 2.58, d: 1, l: 0 },
            Exponential { n: -0.351953, t: 1.15, d: 2, l: 0 },
            Exponential { n: 0.00455978, t: 0.248, d: 5, l: 0 },
            Exponential { n: -1.75725, t: 2.15, d: 1, l: 1 },
            Exponential { n: -1.12009, t: 2.43, d: 2, l: 1 },
            Exponential { n: 0.0277353, t: 5.3, d: 2, l: 1 },
            Exponential { n: 0.898881, t: 0.76, d: 3, l: 1 },
            Exponential { n: -1.17591, t: 1.48, d: 3, l: 1 },
            Exponential { n: 0.0818591, t: 0.24, d: 5, l: 1 },
            Exponential { n: -0.0794097, t: 2.86, d: 5, l: 1 },
            Exponential { n: -1.04047e-05, t: 8.0, d: 5, l: 1 },
            Exponential { n: 0.233779, t: 3.3, d: 1, l: 2 },
            Exponential { n: -0.29179, t: 4.7, d: 1, l: 2 },
            Exponential { n: 0.0154776, t: 0.45, d: 4, l: 2 },
            Exponential { n: -0.0314579, t: 8.4, d: 4, l: 2 },
            Exponential { n: -0.00442552, t: 16.2, d: 2, l: 3 },
            Exponential { n: -0.0101254, t: 26.0, d: 4, l: 3 },
            Exponential { n: 0.00915953, t: 16.0, d: 5, l: 3 },
            Exponential { n: -0.00361575, t: 8.7, d: 6, l: 3 },
        ],
        double_exponential: &[],
        gaussian: &[],
        non_analytic: &[],
    },
    limits: Limits {
        coldest: Temperature::from_kelvin(200.0),
        hottest: Temperature::from_kelvin(500.0),
        highest: Pressure::from_pa(50000000.0),
        densest: 17040.0,
    },
    ancillary: Ancillary {
        liquid: Series::Linear(&[
            (5.484626525085367, 0.478),
            (-132.94290476910828, 1.487),
            (390.0966131363964, 1.826),
            (-414.8227131759332, 2.271),
            (424.49338909908334, 3.413),
            (-294.0732646506709, 4.019),
        ]),
        vapour: Series::OverTemperature(&[
            (-0.7403294274768993, 0.36),
            (-3.4984730053164657, 0.53),
            (-3.707063870074722, 1.61),
            (9.58842271173753, 2.842),
            (-15.235025525549892, 3.565),
            (7.7277234094710305, 7.376),
        ]),
    },
    is_pure: false,
    source: EQUATION,
};
