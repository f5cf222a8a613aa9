//! dichlorodifluoromethane (CCl2F2).

use super::curves;
use super::fluid::{Boiling, CriticalPoint, Fluid, Gwp, GwpValue, LowerFlammability, SafetyClass};
use crate::helmholtz::terms::{Ancillary, Exponential, Ideal, PlanckEinstein, Residual, Series};
use crate::helmholtz::{Equation, Limits};
use crate::quantity::{Density, MolarMass};
use crate::saturation::{Accuracy, Wagner};
use crate::{Pressure, Range, Source, Sourced, Temperature, TemperatureDifference, Trust};

/// Source of the equation of state.
pub(super) const EQUATION: Source = Source {
    work: "V. Marx, A. Pruss, W. Wagner, Neue Zustandsgleichungen fuer R12, R22, R11 und R113 (title from memory), Fortschr.-Ber. VDI, Reihe 19, Nr. 57, VDI Verlag, Duesseldorf (1992) ",
    locator: "equation of state",
    doi: None,
    trust: Trust::Secondary,
};

const COMPUTED: Source = Source { locator: "computed from the equation of state", trust: Trust::Computed, ..EQUATION };

/// Data sheet of the refrigerant.
pub const FLUID: Fluid = Fluid {
    designation: "R-12",
    names: &["R12", "CFC-12"],
    chemical_name: "dichlorodifluoromethane",
    formula: "CCl2F2",
    composition: &[],
    cas: Some("75-71-8"),
    molar_mass: Sourced { value: MolarMass::from_kg_per_mol(0.120913), source: EQUATION },
    critical: Sourced {
        value: CriticalPoint {
            temperature: Temperature::from_kelvin(385.12),
            pressure: Pressure::from_pa(4136100.0),
            density: Density::from_kg_per_m3(565.0),
        },
        source: EQUATION,
    },
    triple_point: Some(Sourced { value: Temperature::from_kelvin(116.099), source: EQUATION }),
    boiling: Sourced { value: Boiling::At(Temperature::from_celsius(-29.752)), source: COMPUTED },
    safety_class: Sourced {
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
                trust: Trust::Secondary,
            },
        },
        Gwp {
            report: "IPCC AR5",
            value: GwpValue::Is(10200.0),
            source: Source {
                work: "IPCC AR5",
                locator: "WG1 tables, as carried by chemicals 1.5.2 and globalwarmingpotentials 0.13.2",
                doi: None,
                trust: Trust::Secondary,
            },
        },
        Gwp {
            report: "IPCC AR6",
            value: GwpValue::Is(12500.0),
            source: Source {
                work: "IPCC AR6",
                locator: "WG1 tables, as carried by chemicals 1.5.2 and globalwarmingpotentials 0.13.2",
                doi: None,
                trust: Trust::Secondary,
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
    bubble: SATURATION,
    dew: SATURATION,
    bubble_curve: &curves::r12::CURVE,
    dew_curve: &curves::r12::CURVE,
    dome: Some(&curves::r12::DOME),
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
            temperature: TemperatureDifference::from_kelvins(0.0071),
        },
        Accuracy {
            up_to: Temperature::from_kelvin(233.15),
            pressure: 9.4e-05,
            temperature: TemperatureDifference::from_kelvins(0.002),
        },
        Accuracy {
            up_to: Temperature::from_kelvin(383.12),
            pressure: 8.9e-05,
            temperature: TemperatureDifference::from_kelvins(0.0049),
        },
        Accuracy {
            up_to: Temperature::from_kelvin(385.12),
            pressure: 2.2e-05,
            temperature: TemperatureDifference::from_kelvins(0.0012),
        },
    ],
    source: EQUATION,
};

/// The equation of state.
const HELMHOLTZ: Equation = Equation {
    gas_constant: 8.314471,
    molar_mass: 0.120913,
    reducing_temperature: 385.12,
    reducing_density: 4672.781255944357,
    critical_temperature: 385.12,
    critical_pressure: 4136165.6,
    ideal: Ideal {
        constant: -14.717899848358801,
        linear: 9.4030216741366,
        logarithmic: 3.00361975,
        polynomial: &[],
        planck_einstein: &[
            PlanckEinstein { n: 3.16062357, t: 3.72204562 },
            PlanckEinstein { n: 0.371258136, t: 6.30985083 },
            PlanckEinstein { n: 3.56226039, t: 1.78037889 },
            PlanckEinstein { n: 2.12152336, t: 1.07087607 },
        ],
    },
    residual: Residual {
        exponential: &[
            Exponential { n: 2.075343402, t: 0.5, d: 1, l: 0 },
            Exponential { n: -2.962525996, t: 1.0, d: 1, l: 0 },
            Exponential { n: 0.01001589616, t: 2.0, d: 1, l: 0 },
            Exponential { n: 0.01781347612, t: 2.5, d: 2, l: 0 },
            Exponential { n: 0.02556929157, t: -0.5, d: 4, l: 0 },
            Exponential { n: 0.002352142637, t: 0.0, d: 6, l: 0 },
            Exponential { n: -8.495553314e-05, t: 0.0, d: 8, l: 0 },
            Exponential { n: -0.01535945599, t: -0.5, d: 1, l: 1 },
            Exponential { n: -0.2108816776, t: 1.5, d: 1, l: 1 },
            Exponential { n: -0.01654228806, t: 2.5, d: 5, l: 1 },
            Exponential { n: -0.0118131613, t: -0.5, d: 7, l: 1 },
            Exponential { n: -4.16029583e-05, t: 0.0, d: 12, l: 1 },
            Exponential { n: 2.784861664e-05, t: 0.5, d: 12, l: 1 },
            Exponential { n: 1.618686433e-06, t: -0.5, d: 14, l: 1 },
            Exponential { n: -0.1064614686, t: 4.0, d: 1, l: 2 },
            Exponential { n: 0.0009369665207, t: 4.0, d: 9, l: 2 },
            Exponential { n: 0.02590095447, t: 2.0, d: 1, l: 3 },
            Exponential { n: -0.04347025025, t: 4.0, d: 1, l: 3 },
            Exponential { n: 0.1012308449, t: 12.0, d: 3, l: 3 },
            Exponential { n: -0.1100003438, t: 14.0, d: 3, l: 3 },
            Exponential { n: -0.003361012009, t: 0.0, d: 5, l: 3 },
            Exponential { n: 0.0003789190008, t: 14.0, d: 9, l: 4 },
        ],
        double_exponential: &[],
        gaussian: &[],
        non_analytic: &[],
    },
    limits: Limits {
        coldest: Temperature::from_kelvin(116.099),
        hottest: Temperature::from_kelvin(525.0),
        highest: Pressure::from_pa(200000000.0),
        densest: 15130.0,
    },
    ancillary: Ancillary {
        liquid: Series::Linear(&[
            (2.6029953147390845, 0.391),
            (-1.289157172326326, 0.803),
            (1.8650658616334526, 1.301),
            (-0.7403291941448226, 2.566),
            (24.389351468278143, 12.555),
            (-67.79326638866661, 16.134),
        ]),
        vapour: Series::OverTemperature(&[
            (-7.9660647155295505, 0.499),
            (23.959910083444367, 0.743),
            (-23.82796401904973, 0.857),
            (3.215927599962643, 1.368),
            (-4.437766797843962, 3.716),
            (-3.5598094489847374, 14.833),
        ]),
    },
    is_pure: true,
    source: EQUATION,
};
