//! R-152a: 1,1-difluoroethane (CH3CHF2).

use super::curves;
use super::fluid::{Boiling, CriticalPoint, Fluid, Gwp, GwpValue, LowerFlammability, SafetyClass};
use crate::helmholtz::terms::{Ancillary, Exponential, Ideal, Residual, Series};
use crate::helmholtz::{Equation, Limits};
use crate::quantity::{Density, MolarMass};
use crate::saturation::{Accuracy, Wagner};
use crate::{Pressure, Range, Ratio, Source, Sourced, Temperature, TemperatureDifference, Trust};

/// Source of the equation of state.
pub(super) const EQUATION: Source = Source {
    work: "Stephanie L. Outcalt, Mark O. McLinden, A Modified Benedict-Webb-Rubin Equation of State for the Thermodynamic Properties of R152a (1,1-difluoroethane), J. Phys. Chem. Ref. Data 25(2) (1996) 605-636",
    locator: "equation of state",
    doi: Some("10.1063/1.555979"),
    trust: Trust::Secondary,
};

const COMPUTED: Source = Source { locator: "computed from the equation of state", trust: Trust::Computed, ..EQUATION };

/// Data sheet of the refrigerant.
pub const FLUID: Fluid = Fluid {
    designation: "R-152a",
    names: &["R152a", "152a", "HFC-152a"],
    chemical_name: "1,1-difluoroethane",
    formula: "CH3CHF2",
    composition: &[],
    cas: Some("75-37-6"),
    molar_mass: Sourced { value: MolarMass::from_kg_per_mol(0.066051), source: EQUATION },
    critical: Sourced {
        value: CriticalPoint {
            temperature: Temperature::from_kelvin(386.411),
            pressure: Pressure::from_pa(4516750.1),
            density: Density::from_kg_per_m3(368.0),
        },
        source: EQUATION,
    },
    triple_point: Some(Sourced { value: Temperature::from_kelvin(154.56), source: EQUATION }),
    boiling: Sourced { value: Boiling::At(Temperature::from_celsius(-24.022)), source: COMPUTED },
    safety_class: Sourced {
        value: SafetyClass::A2,
        source: Source {
            work: "header of the NIST fluid file in usnistgov/teqp (quotes ASHRAE 34-2010)",
            locator: "",
            doi: None,
            trust: Trust::Secondary,
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
                trust: Trust::Secondary,
            },
        },
        Gwp {
            report: "IPCC AR5",
            value: GwpValue::Is(138.0),
            source: Source {
                work: "IPCC AR5",
                locator: "WG1 tables, as carried by chemicals 1.5.2 and globalwarmingpotentials 0.13.2",
                doi: None,
                trust: Trust::Secondary,
            },
        },
        Gwp {
            report: "IPCC AR6",
            value: GwpValue::Is(164.0),
            source: Source {
                work: "IPCC AR6",
                locator: "WG1 tables, as carried by chemicals 1.5.2 and globalwarmingpotentials 0.13.2",
                doi: None,
                trust: Trust::Secondary,
            },
        },
    ],
    flammability: &[
        Sourced {
            value: LowerFlammability::Volume(Ratio::from_percent(4.8)),
            source: Source { work: "ISO 817 / ASHRAE 34 figure", locator: "", doi: None, trust: Trust::FromMemory },
        },
        Sourced {
            value: LowerFlammability::Mass(Density::from_kg_per_m3(0.13)),
            source: Source { work: "ISO 817 / ASHRAE 34 figure", locator: "", doi: None, trust: Trust::FromMemory },
        },
    ],
    equation: HELMHOLTZ,
    bubble: SATURATION,
    dew: SATURATION,
    bubble_curve: &curves::r152a::CURVE,
    dew_curve: &curves::r152a::CURVE,
    dome: Some(&curves::r152a::DOME),
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
            temperature: TemperatureDifference::from_kelvins(0.0022),
        },
        Accuracy {
            up_to: Temperature::from_kelvin(233.15),
            pressure: 6.4e-05,
            temperature: TemperatureDifference::from_kelvins(0.001),
        },
        Accuracy {
            up_to: Temperature::from_kelvin(384.411),
            pressure: 3e-05,
            temperature: TemperatureDifference::from_kelvins(0.0016),
        },
        Accuracy {
            up_to: Temperature::from_kelvin(386.411),
            pressure: 3e-05,
            temperature: TemperatureDifference::from_kelvins(0.0016),
        },
    ],
    source: EQUATION,
};

/// The equation of state.
const HELMHOLTZ: Equation = Equation {
    gas_constant: 8.314471,
    molar_mass: 0.066051,
    reducing_temperature: 386.411,
    reducing_density: 5571.45,
    critical_temperature: 386.411,
    critical_pressure: 4516750.1,
    ideal: Ideal {
        constant: -7.950506771627959,
        linear: 6.870078656540722,
        logarithmic: 2.354951,
        polynomial: &[(-2.122650499999833, -1.0), (-0.6225413333328242, -2.0), (0.13402116666643668, -3.0)],
        planck_einstein: &[],
    },
    residual: Residual {
        exponential: &[
            Exponential { n: -3.546579500185174, t: 3.0, d: 0, l: 0 },
            Exponential { n: -0.3646312799563631, t: 4.0, d: 0, l: 0 },
            Exponential { n: 0.03332333306112814, t: 5.0, d: 0, l: 0 },
            Exponential { n: -0.6809684338301859, t: 0.0, d: 1, l: 0 },
            Exponential { n: 7.3521264810280345, t: 0.5, d: 1, l: 0 },
            Exponential { n: -11.247306378057127, t: 1.0, d: 1, l: 0 },
            Exponential { n: 5.499167142976577, t: 2.0, d: 1, l: 0 },
            Exponential { n: -2.401863270213656, t: 3.0, d: 1, l: 0 },
            Exponential { n: -0.07090364464394744, t: 0.0, d: 2, l: 0 },
            Exponential { n: -0.2132008868213696, t: 1.0, d: 2, l: 0 },
            Exponential { n: 0.19783973673284622, t: 2.0, d: 2, l: 0 },
            Exponential { n: 1.824947698265976, t: 3.0, d: 2, l: 0 },
            Exponential { n: -0.08605464767044602, t: 0.0, d: 3, l: 0 },
            Exponential { n: 0.8881373668542004, t: 1.0, d: 3, l: 0 },
            Exponential { n: -0.9661273471407773, t: 2.0, d: 3, l: 0 },
            Exponential { n: -0.09852234785295554, t: 1.0, d: 4, l: 0 },
            Exponential { n: 0.018341936863418316, t: 2.0, d: 5, l: 0 },
            Exponential { n: -0.03385502040688226, t: 3.0, d: 5, l: 0 },
            Exponential { n: 0.012492110085780536, t: 2.0, d: 6, l: 0 },
            Exponential { n: -0.002210567071037713, t: 2.0, d: 7, l: 0 },
            Exponential { n: 0.002168791332779416, t: 3.0, d: 7, l: 0 },
            Exponential { n: -0.0002335976904702689, t: 3.0, d: 8, l: 0 },
            Exponential { n: 3.546579500185174, t: 3.0, d: 0, l: 2 },
            Exponential { n: 0.3646312799563631, t: 4.0, d: 0, l: 2 },
            Exponential { n: -0.03332333306112814, t: 5.0, d: 0, l: 2 },
            Exponential { n: 2.7613383040168675, t: 3.0, d: 2, l: 2 },
            Exponential { n: -0.06911857102367282, t: 4.0, d: 2, l: 2 },
            Exponential { n: -0.03332333306112814, t: 5.0, d: 2, l: 2 },
            Exponential { n: 0.7827613268561544, t: 3.0, d: 4, l: 2 },
            Exponential { n: -0.03455928551183641, t: 4.0, d: 4, l: 2 },
            Exponential { n: 0.13781353206688696, t: 5.0, d: 4, l: 2 },
            Exponential { n: 0.18617312581521558, t: 3.0, d: 6, l: 2 },
            Exponential { n: -0.03411193928992716, t: 4.0, d: 6, l: 2 },
            Exponential { n: 0.04593784402229564, t: 5.0, d: 6, l: 2 },
            Exponential { n: 0.021647001270605898, t: 3.0, d: 8, l: 2 },
            Exponential { n: -0.00852798482248179, t: 4.0, d: 8, l: 2 },
            Exponential { n: 0.006203940397171849, t: 5.0, d: 8, l: 2 },
            Exponential { n: 0.0018521029114874563, t: 3.0, d: 10, l: 2 },
            Exponential { n: 0.00101674662708817, t: 4.0, d: 10, l: 2 },
            Exponential { n: 0.0012407880794343697, t: 5.0, d: 10, l: 2 },
        ],
        double_exponential: &[],
        gaussian: &[],
        non_analytic: &[],
    },
    limits: Limits {
        coldest: Temperature::from_kelvin(154.56),
        hottest: Temperature::from_kelvin(500.0),
        highest: Pressure::from_pa(58000000.0),
        densest: 18070.0,
    },
    ancillary: Ancillary {
        liquid: Series::Linear(&[
            (0.27636163699950356, 0.091),
            (2.512764633534828, 0.499),
            (162.80865128111427, 16.122),
            (345.16760517849104, 16.122),
            (-475.5953680253087, 19.05),
            (-1773.7454734026196, 19.528),
        ]),
        vapour: Series::OverTemperature(&[
            (-24.05629942535681, 0.162),
            (24.599913141549887, 0.168),
            (-10.746520376686876, 0.621),
            (5.86362610412505, 0.787),
            (-3.7063275045589696, 2.442),
            (-4.904962359487088, 7.345),
        ]),
    },
    is_pure: true,
    source: EQUATION,
};
