//! What can hurt on a circuit under pressure, in plain words.

use crate::Refrigerant;
use crate::refrigerant::SafetyClass;

/// The same in short for a page of one screen, by the designation of the refrigerant.
pub(super) fn in_short(refrigerant: &str) -> String {
    let known = refrigerant.parse::<Refrigerant>().ok();
    let own = match known.map(|known| known.fluid().safety_class.value) {
        Some(class @ (SafetyClass::A2L | SafetyClass::A2 | SafetyClass::A3)) => {
            format!(" {refrigerant} burns (class {class}): no flame, no sparks.")
        }
        _ if known == Some(Refrigerant::R744) => " R-744 stands over 60 bar: only gear made for it.".to_owned(),
        _ => String::new(),
    };
    format!(
        "Under pressure even at rest: goggles and gloves, it freezes skin and eyes. Belts and fans pull in, the discharge line \
         burns. Vapour displaces air.{own} Letting it out is illegal in many places: recover it; charge by weight. Orange \
         cables: trained people only, and their own oil. The maker's own figures, local rules and licensed practice go before \
         this page."
    )
}

/// The usual cautions for a circuit filled with `refrigerant`, gauges connected.
///
/// Common practice of service manuals, in our own words; the maker's data, local codes and licensed practice go first.
pub fn cautions(refrigerant: Refrigerant) -> Vec<String> {
    let mut list = vec![
        "The circuit is under pressure even with the engine off. Goggles and gloves: liquid refrigerant freezes skin \
         and eyes."
            .to_owned(),
        "Keep hands, hoses and sleeves away from belts and fans; a fan may start by itself. The discharge line and the \
         condenser burn."
            .to_owned(),
        "Vapour is heavier than air and displaces it: air the room, no work over a pit.".to_owned(),
    ];
    if refrigerant == Refrigerant::R744 {
        list.push(
            "R-744 stands near 60 bar at rest and far above when running: only hoses, gauges and fittings made for it."
                .to_owned(),
        );
    }
    let class = refrigerant.fluid().safety_class.value;
    match class {
        SafetyClass::A1 => {}
        SafetyClass::A2L | SafetyClass::A2 => list.push(format!(
            "{refrigerant} is flammable (class {class}): no flame, no sparks, equipment made for it, never mixed with \
             another refrigerant."
        )),
        SafetyClass::A3 => list.push(format!(
            "{refrigerant} is highly flammable (class {class}) and not allowed in car air conditioning in many places."
        )),
    }
    list.push(
        "Letting refrigerant out is illegal in many places: recover it. Charge by weight, never by pressure."
            .to_owned(),
    );
    list.push(
        "Electric compressors: orange cables are for trained people only, and the oil must be the one named for them."
            .to_owned(),
    );
    list.push(
        "The maker's own figures for this car, local rules and licensed practice go before this page.".to_owned(),
    );
    list
}
