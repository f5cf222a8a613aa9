//! R-1234yf: 2,3,3,3-tetrafluoroprop-1-ene (CH2=CFCF3).

use super::fluid::{Boiling, CriticalPoint, Fluid, Gwp, GwpValue, LowerFlammability, SafetyClass};
use crate::quantity::{Density, MolarMass};
use crate::saturation::{Accuracy, Wagner};
use crate::{Fact, Pressure, Range, Ratio, Source, Temperature, TemperatureDifference, Trust};

/// The equation of state this fluid stands for.
const EQUATION: Source = Source {
    work: "E. W. Lemmon, R. Akasaka, An International Standard Formulation for 2,3,3,3-Tetrafluoroprop-1-ene (R1234yf) Covering Temperatures from the Triple Point Temperature to 410 K and Pressures Up to 100 MPa, Int. J. Thermophys. 43(8) (2022) 119",
    locator: "equation of state",
    doi: Some("10.1007/s10765-022-03015-y"),
    trust: Trust::Carried,
};

const COMPUTED: Source = Source { locator: "computed from the equation of state", trust: Trust::Computed, ..EQUATION };

/// What is known of the refrigerant.
pub const FLUID: Fluid = Fluid {
    designation: "R-1234yf",
    names: &["R1234yf", "1234yf", "HFO-1234yf", "YF"],
    chemical_name: "2,3,3,3-tetrafluoroprop-1-ene",
    formula: "CH2=CFCF3",
    composition: &[],
    cas: Some("754-12-1"),
    molar_mass: Fact { value: MolarMass::from_kg_per_mol(0.1140416), source: EQUATION },
    critical: Fact {
        value: CriticalPoint {
            temperature: Temperature::from_kelvin(367.85),
            pressure: Pressure::from_pa(3384400.0),
            density: Density::from_kg_per_m3(476.6939),
        },
        source: EQUATION,
    },
    triple_point: Some(Fact { value: Temperature::from_kelvin(121.6), source: EQUATION }),
    boiling: Fact { value: Boiling::At(Temperature::from_celsius(-29.458)), source: COMPUTED },
    safety_class: Fact {
        value: SafetyClass::A2L,
        source: Source {
            work: "header of the NIST fluid file in usnistgov/teqp (quotes ASHRAE 34-2010)",
            locator: "",
            doi: None,
            trust: Trust::Carried,
        },
    },
    gwp: &[
        Gwp {
            report: "IPCC AR5",
            value: GwpValue::Is(0.351),
            source: Source {
                work: "IPCC AR5",
                locator: "WG1 tables, as carried by chemicals 1.5.2",
                doi: None,
                trust: Trust::Carried,
            },
        },
        Gwp {
            report: "IPCC AR6",
            value: GwpValue::Is(0.501),
            source: Source {
                work: "IPCC AR6",
                locator: "WG1 tables, as carried by chemicals 1.5.2",
                doi: None,
                trust: Trust::Carried,
            },
        },
        Gwp {
            report: "EU 517/2014 Annex II",
            value: GwpValue::Is(4.0),
            source: Source {
                work: "CoolProp 8.0.0; EU 517/2014 Annex II (from memory)",
                locator: "",
                doi: None,
                trust: Trust::Carried,
            },
        },
    ],
    flammability: &[
        Fact {
            value: LowerFlammability::Volume(Ratio::from_percent(6.2)),
            source: Source { work: "ISO 817 / ASHRAE 34 figure", locator: "", doi: None, trust: Trust::FromMemory },
        },
        Fact {
            value: LowerFlammability::Mass(Density::from_kg_per_m3(0.289)),
            source: Source { work: "ISO 817 / ASHRAE 34 figure", locator: "", doi: None, trust: Trust::FromMemory },
        },
    ],
    bubble: SATURATION,
    dew: SATURATION,
};

/// Saturation line, fitted to `tables/equation/r1234yf.csv`; `examples/refit.rs` repeats the fit.
const SATURATION: Wagner = Wagner {
    critical_temperature: Temperature::from_kelvin(367.85),
    critical_pressure: Pressure::from_pa(3384373.7),
    terms: [
        (-7.529936, 1.0),
        (2.7951671, 1.5),
        (-3.291122, 2.0),
        (1.3811673, 2.5),
        (-3.6214805, 4.0),
        (-0.9377195, 7.0),
    ],
    valid: Range::new(Temperature::from_kelvin(121.6), Temperature::from_kelvin(367.85)),
    accuracy: [
        Accuracy {
            up_to: Temperature::from_kelvin(213.15),
            pressure: 0.0017,
            temperature: TemperatureDifference::from_kelvin_steps(0.0077),
        },
        Accuracy {
            up_to: Temperature::from_kelvin(233.15),
            pressure: 0.00023,
            temperature: TemperatureDifference::from_kelvin_steps(0.0038),
        },
        Accuracy {
            up_to: Temperature::from_kelvin(365.85),
            pressure: 0.00011,
            temperature: TemperatureDifference::from_kelvin_steps(0.0054),
        },
        Accuracy {
            up_to: Temperature::from_kelvin(367.85),
            pressure: 0.00011,
            temperature: TemperatureDifference::from_kelvin_steps(0.0052),
        },
    ],
    source: EQUATION,
};
