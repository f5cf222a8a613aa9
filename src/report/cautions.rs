//! Safety cautions for a circuit under pressure.

use crate::Refrigerant;
use crate::refrigerant::SafetyClass;

/// A safety caution.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(rename_all = "kebab-case"))]
#[non_exhaustive]
pub enum Caution {
    /// The circuit is under pressure even with the engine off; refrigerant freezes skin and eyes.
    Pressure,
    /// Moving belts and fans, and pipes hot enough to burn.
    MovingAndHot,
    /// Vapour displaces air: danger of suffocation.
    Asphyxiation,
    /// R-744 harms by itself, at a few per cent in the air, before it suffocates.
    CarbonDioxide,
    /// R-744 let out fast turns to dry ice, which plugs a line and hides what is still in it.
    DryIce,
    /// R-744 runs at far higher pressures than other refrigerants.
    TranscriticalPressure,
    /// Flammable refrigerant, class A2L.
    FlammableA2l,
    /// Flammable refrigerant, class A2.
    FlammableA2,
    /// Highly flammable refrigerant, class A3.
    FlammableA3,
    /// Venting is illegal in many places; charge by weight.
    Recover,
    /// R-744 is exempt from bans on venting in many places; charge by weight.
    ReleaseAsTheMakerSays,
    /// Electric compressors: high voltage, and a special electrically insulating oil.
    HighVoltage,
    /// The maker's data, local rules and licensed practice come first.
    MakersData,
}

/// Usual safety cautions for a circuit filled with `refrigerant`, gauges connected.
///
/// Common practice of service manuals, in our own words; the maker's data, local codes and licensed practice go first. Carbon dioxide:
/// EIGA, Code of practice: dry ice, IGC Doc 150/08, 5.2 (excerpt read); dry ice by the triple point (Span & Wagner 1996), plugging and coming
/// back from memory; the exemption is that of 40 CFR 82.154 (as carried by others). High voltage is left out for R-12, whose cars had none
/// (from memory).
///
/// ```
/// use satline::Refrigerant;
/// use satline::report::{Caution, cautions};
/// assert!(cautions(Refrigerant::R1234yf).contains(&Caution::FlammableA2l));
/// ```
#[must_use]
pub fn cautions(refrigerant: Refrigerant) -> Vec<Caution> {
    let mut list = vec![Caution::Pressure, Caution::MovingAndHot];
    let carbon_dioxide = refrigerant == Refrigerant::R744;
    if carbon_dioxide {
        list.extend([Caution::CarbonDioxide, Caution::TranscriticalPressure, Caution::DryIce]);
    } else {
        list.push(Caution::Asphyxiation);
    }
    list.extend(match refrigerant.fluid().safety_class.value {
        SafetyClass::A1 => None,
        SafetyClass::A2L => Some(Caution::FlammableA2l),
        SafetyClass::A2 => Some(Caution::FlammableA2),
        SafetyClass::A3 => Some(Caution::FlammableA3),
    });
    list.push(if carbon_dioxide { Caution::ReleaseAsTheMakerSays } else { Caution::Recover });
    if refrigerant != Refrigerant::R12 {
        list.push(Caution::HighVoltage);
    }
    list.push(Caution::MakersData);
    list
}
