//! R-1234ze(E): trans-1,3,3,3-tetrafluoroprop-1-ene (CHF=CHCF3).

use super::fluid::{Boiling, CriticalPoint, Fluid, Gwp, GwpValue, LowerFlammability, SafetyClass};
use crate::quantity::{Density, MolarMass};
use crate::saturation::{Accuracy, Wagner};
use crate::{Fact, Pressure, Range, Source, Temperature, TemperatureDifference, Trust};

/// The equation of state this fluid stands for.
const EQUATION: Source = Source {
    work: "Monika Thol, Eric W. Lemmon, Equation of State for the Thermodynamic Properties of trans-1,3,3,3-Tetrafluoropropene [R-1234ze(E)], Int. J. Thermophys 37(3) (2016) 1-16",
    locator: "equation of state",
    doi: Some("10.1007/s10765-016-2040-6"),
    trust: Trust::Carried,
};

const COMPUTED: Source = Source { locator: "computed from the equation of state", trust: Trust::Computed, ..EQUATION };

/// What is known of the refrigerant.
pub const FLUID: Fluid = Fluid {
    designation: "R-1234ze(E)",
    names: &["R1234ze", "R-1234ze", "R-1234zeE", "HFO-1234ze", "HFO-1234ze(E)"],
    chemical_name: "trans-1,3,3,3-tetrafluoroprop-1-ene",
    formula: "CHF=CHCF3",
    composition: &[],
    cas: Some("29118-24-9"),
    molar_mass: Fact { value: MolarMass::from_kg_per_mol(0.1140416), source: EQUATION },
    critical: Fact {
        value: CriticalPoint {
            temperature: Temperature::from_kelvin(382.513),
            pressure: Pressure::from_pa(3634900.0),
            density: Density::from_kg_per_m3(489.2385),
        },
        source: EQUATION,
    },
    triple_point: Some(Fact { value: Temperature::from_kelvin(168.62), source: EQUATION }),
    boiling: Fact { value: Boiling::At(Temperature::from_celsius(-18.973)), source: COMPUTED },
    safety_class: Fact {
        value: SafetyClass::A2L,
        source: Source { work: "ASHRAE 34 / ISO 817", locator: "", doi: None, trust: Trust::FromMemory },
    },
    gwp: &[
        Gwp {
            report: "IPCC AR5",
            value: GwpValue::Is(0.953),
            source: Source {
                work: "IPCC AR5",
                locator: "WG1 tables, as carried by chemicals 1.5.2",
                doi: None,
                trust: Trust::Carried,
            },
        },
        Gwp {
            report: "IPCC AR6",
            value: GwpValue::Is(1.37),
            source: Source {
                work: "IPCC AR6",
                locator: "WG1 tables, as carried by chemicals 1.5.2",
                doi: None,
                trust: Trust::Carried,
            },
        },
    ],
    flammability: &[Fact {
        value: LowerFlammability::MassAt(Density::from_kg_per_m3(0.303), Temperature::from_celsius(60.0)),
        source: Source { work: "ISO 817 / ASHRAE 34 figure", locator: "", doi: None, trust: Trust::FromMemory },
    }],
    bubble: SATURATION,
    dew: SATURATION,
};

/// Saturation line, fitted to `tables/equation/r1234ze.csv`; `examples/refit.rs` repeats the fit.
const SATURATION: Wagner = Wagner {
    critical_temperature: Temperature::from_kelvin(382.513),
    critical_pressure: Pressure::from_pa(3634866.0),
    terms: [
        (-7.614832, 1.0),
        (2.3178478, 1.5),
        (-2.259126, 2.0),
        (0.4157519, 2.5),
        (-3.6750333, 4.0),
        (-1.576711, 7.0),
    ],
    valid: Range::new(Temperature::from_kelvin(168.62), Temperature::from_kelvin(382.513)),
    accuracy: [
        Accuracy {
            up_to: Temperature::from_kelvin(213.15),
            pressure: 0.00029,
            temperature: TemperatureDifference::from_kelvin_steps(0.0026),
        },
        Accuracy {
            up_to: Temperature::from_kelvin(233.15),
            pressure: 6.9e-05,
            temperature: TemperatureDifference::from_kelvin_steps(0.0011),
        },
        Accuracy {
            up_to: Temperature::from_kelvin(380.513),
            pressure: 3.6e-05,
            temperature: TemperatureDifference::from_kelvin_steps(0.0019),
        },
        Accuracy {
            up_to: Temperature::from_kelvin(382.513),
            pressure: 3.6e-05,
            temperature: TemperatureDifference::from_kelvin_steps(0.0019),
        },
    ],
    source: EQUATION,
};
