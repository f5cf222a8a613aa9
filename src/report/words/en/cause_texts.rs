//! Causes and the sizes of faults.

use crate::diagnosis::{CauseId, Fault};
use crate::report::{CauseTexts, FaultSizeRow};

const PRESSURE: &str = "The circuit is under pressure: goggles and gloves, recover before anything is opened.";
const MOVING: &str =
    "Belts and fans move, and a fan may start by itself: hands away, engine or car switched off before touching.";
const HOT: &str = "Compressor, discharge line and condenser are hot enough to burn.";
const VOLTAGE: &str = "Electric compressors run on dangerous voltages: trained people only.";
const STOPPED: &str = "Belts and fans move: engine or car switched off before touching. Electric compressors run on dangerous \
                       voltages, which stay after switching off: trained people only.";
const FLAMMABLE: &str = "What is inside may be flammable: no sparks, air the room, and keep it apart.";

/// The texts of a cause.
pub(crate) const fn texts(id: CauseId) -> CauseTexts {
    match id {
        CauseId::NoFault => CauseTexts {
            name: "no fault",
            shows: "everything inside the range of healthy cars",
            why: "cars differ",
            against: "any value far outside the range of healthy cars",
            next: "nothing on this circuit; repeat on a hotter day if the complaint stays",
            caution: MOVING,
        },
        CauseId::Undercharge => CauseTexts {
            name: "charge too low",
            shows: "first no subcooling, then superheat and a warm vent, then both sides low",
            why: "the receiver runs empty, vapour reaches the valve, and the evaporator starves",
            against: "subcooling as usual: liquid reaches the valve",
            next: "find the leak; recover, weigh what comes out, evacuate, recharge by weight",
            caution: PRESSURE,
        },
        CauseId::Overcharge => CauseTexts {
            name: "charge too high",
            shows: "high side and subcooling high",
            why: "liquid backs up in the condenser and leaves less of it to condense",
            against: "subcooling as usual",
            next: "recover, weigh, recharge by weight",
            caution: PRESSURE,
        },
        CauseId::Air => CauseTexts {
            name: "air in the circuit",
            shows: "high side high, subcooling seems high, the discharge line hot",
            why: "air gathers in the condenser and adds its pressure to that of the refrigerant",
            against: "equalised and cold, both gauges at saturation of the ambient",
            next: "compare the pressure at rest with saturation; recover, evacuate, recharge by weight",
            caution: PRESSURE,
        },
        CauseId::CondenserAir => CauseTexts {
            name: "too little air through the condenser",
            shows: "high side high, low side and vent with it",
            why: "with less air the refrigerant must condense hotter to shed the same heat",
            against: "a high side that does not fall with more air or with water on the condenser",
            next: "fan, fan control, fins and everything in front of them",
            caution: MOVING,
        },
        CauseId::EngineHeat => CauseTexts {
            name: "hot air in front of the condenser",
            shows: "high side and liquid line high together",
            why: "the condenser works against air that has already taken up heat of engine or radiator",
            against: "a liquid line near the ambient",
            next: "engine temperature, seals and guides round the radiator, direction of the fan",
            caution: MOVING,
        },
        CauseId::EvaporatorAir => CauseTexts {
            name: "too little air through the evaporator",
            shows: "low side low, little superheat, the vent cold but weak",
            why: "less air brings less heat, so the evaporator boils colder",
            against: "a strong stream from the vents",
            next: "blower, cabin filter, face of the evaporator, flaps",
            caution: MOVING,
        },
        CauseId::Icing => CauseTexts {
            name: "evaporator iced over",
            shows: "low side far down, the air weak, cold at first and then warm",
            why: "nothing stops the compressor at the freezing point, and ice blocks the air",
            against: "a low side above the freezing point",
            next: "let it thaw and watch; sensor, thermostat or switch that should stop the compressor",
            caution: MOVING,
        },
        CauseId::CompressorWorn => CauseTexts {
            name: "compressor worn or leaking inside",
            shows: "low side high, high side low, a hot discharge line and a warm vent",
            why: "gas leaks back and is compressed twice, so less comes through and it comes hotter",
            against: "sides far apart",
            next: "rule out low charge, slipping belt or clutch and the control valve first; then the compressor",
            caution: HOT,
        },
        CauseId::ControlHigh => CauseTexts {
            name: "variable compressor stuck at full displacement",
            shows: "low side below its set point on a mild day, the vent near freezing",
            why: "nothing holds the low side up",
            against: "a low side at its set point",
            next: "control valve and its signal, thermostat or low-pressure switch",
            caution: VOLTAGE,
        },
        CauseId::ControlLow => CauseTexts {
            name: "variable compressor stuck at low displacement",
            shows: "low side high, high side low, the discharge line cool",
            why: "little is pumped, and what is pumped is not compressed twice",
            against: "a hot discharge line: then the gas leaks back inside",
            next: "control valve and its signal; speed of an electric compressor",
            caution: VOLTAGE,
        },
        CauseId::LiquidRestriction => CauseTexts {
            name: "restriction in the liquid line or receiver",
            shows: "low side and high side low with liquid left in the condenser, much superheat",
            why: "liquid backs up before the restriction while the evaporator starves behind it",
            against: "no subcooling: then it is charge that is missing",
            next: "feel or measure along the liquid line for a step in temperature; replace the part and the drier",
            caution: PRESSURE,
        },
        CauseId::ExpansionClosed => CauseTexts {
            name: "expansion device closed, clogged or its bulb empty",
            shows: "low side far down, much superheat, liquid left in the condenser",
            why: "too little passes the device",
            against: "a low side that holds its set point",
            next: "temperature before and behind the device; replace it and the drier",
            caution: PRESSURE,
        },
        CauseId::Moisture => CauseTexts {
            name: "drier saturated, ice in the expansion device",
            shows: "comes and goes: normal, then a low side falling into vacuum",
            why: "water freezes where the refrigerant turns cold, blocks the passage, thaws and freezes again",
            against: "the same reading hour after hour",
            next: "let it stand ten minutes and read again; replace the drier, evacuate long",
            caution: PRESSURE,
        },
        CauseId::ExpansionOpen => CauseTexts {
            name: "expansion valve stuck open, or its bulb loose",
            shows: "low side high, no superheat, a cold and wet suction line",
            why: "more liquid passes than the evaporator can boil",
            against: "superheat as usual",
            next: "bulb contact and insulation, then the valve",
            caution: PRESSURE,
        },
        CauseId::WrongOrifice => CauseTexts {
            name: "orifice tube of the wrong bore",
            shows: "too small: subcooling high and the low side low; too large: no subcooling",
            why: "the bore decides how much passes",
            against: "subcooling as usual",
            next: "compare the tube with the maker's part",
            caution: PRESSURE,
        },
        CauseId::SuctionRestriction => CauseTexts {
            name: "suction side blocked, or its service valve closed",
            shows: "low side low at the compressor while the evaporator stays warm",
            why: "the compressor draws through a narrow place",
            against: "a cold evaporator with that low side",
            next: "compare both ends of the suction line; valve positions, hose linings",
            caution: PRESSURE,
        },
        CauseId::WrongRefrigerant => CauseTexts {
            name: "another refrigerant than on the label",
            shows: "pressures and temperatures do not belong together, at rest above all",
            why: "each refrigerant has its own saturation line",
            against: "equalised, both gauges at saturation of the refrigerant on the label",
            next: "identify what is inside before it is recovered: it may be flammable, and it spoils what it is mixed with",
            caution: FLAMMABLE,
        },
        CauseId::MixedRefrigerant => CauseTexts {
            name: "mixture of refrigerants",
            shows: "pressures between those of two refrigerants, at rest above all; estimated for an ideal mixture",
            why: "topped up with another refrigerant: each adds its share of the pressure",
            against: "equalised, both gauges at saturation of the refrigerant on the label",
            next: "identify what is inside before it is recovered: a mixture goes into a cylinder of its own, never into the machine",
            caution: FLAMMABLE,
        },
        CauseId::WrongRefrigerantWithAir => CauseTexts {
            name: "another refrigerant than on the label, and air inside",
            shows: "at rest above saturation of any one refrigerant that fits",
            why: "filled from cans without evacuating",
            against: "equalised, both gauges at saturation of one refrigerant",
            next: "identify what is inside before it is recovered; then evacuate and charge by weight with what the label asks for",
            caution: FLAMMABLE,
        },
        CauseId::UnderchargeWithAir => CauseTexts {
            name: "charge too low and air inside",
            shows: "a high side that looks right, with superheat and a warm vent",
            why: "air holds the high side up while the evaporator starves: topped up without evacuating",
            against: "equalised and cold, both gauges at saturation of the ambient",
            next: "pressure at rest; recover, evacuate, recharge by weight",
            caution: PRESSURE,
        },
        CauseId::UnderchargeBehindLittleAir => CauseTexts {
            name: "charge too low and too little air through the condenser",
            shows: "a high side that looks right, with superheat and a warm vent",
            why: "little air holds the high side up: a maker warns that a low charge can look full",
            against: "full air through the condenser",
            next: "fan and fins first, then weigh the charge",
            caution: MOVING,
        },
        CauseId::DischargeRestriction => CauseTexts {
            name: "restriction in the discharge line or at the condenser's inlet",
            shows: "high side high at a port before it, the liquid line as cool as ever, the discharge line hot, the low side \
                    near normal",
            why: "the gas is held back at the gauge while the condenser behind the restriction does its usual work",
            against: "a liquid line as hot as the high side asks for; a port behind the restriction feels nothing of it",
            next: "compare high side and liquid line; feel along the pipe for a step, look for kinks and a crushed hose; \
                   replace the part",
            caution: HOT,
        },
        CauseId::ReceiverRestriction => CauseTexts {
            name: "restriction at the condenser's outlet or the receiver's inlet",
            shows: "at a port before it high side and subcooling high, at a port on the liquid line the high side low; the \
                    liquid line cool, the low side near normal, no bubbles",
            why: "the receiver boils at a lower pressure, so liquid backs up in the condenser until it is as cold; the valve \
                  still gets liquid and opens further",
            against: "a liquid line as hot as the high side asks for; a low side far down while the sight glass is clear",
            next: "see where the high-side port is; feel along the condenser's lower end, its outlet and the receiver: hot \
                   where gas condenses, cool from where liquid backs up; replace the part and the drier",
            caution: PRESSURE,
        },
        CauseId::NotTurning => CauseTexts {
            name: "compressor not turning",
            shows: "both gauges alike, near the equalised pressure",
            why: "nothing is pumped",
            against: "any lasting difference between the sides",
            next: "belt-driven: belt, clutch gap, voltage at the coil, the switches that hold it off; electric: the command to \
                   it, fault memory, its low-voltage supply, never a probe on orange cables",
            caution: STOPPED,
        },
        CauseId::Empty => CauseTexts {
            name: "circuit empty or nearly so, its compressor held off",
            shows: "both gauges alike, below saturation of the ambient",
            why: "no liquid is left, so the low-pressure switch does not let the clutch engage",
            against: "any lasting difference between the sides, or the pressure of saturation",
            next: "never bridge the switch; recover what is left, find the leak with nitrogen, repair, evacuate, charge by weight",
            caution: PRESSURE,
        },
    }
}

/// A pressure drop this many times the usual one leaves next to nothing open; our choice. [`Fault::range`] begins where a
/// restriction is heavy.
const NEARLY_BLOCKED: f64 = 30.0;

/// The size of a fault.
pub(crate) fn size(size: &FaultSizeRow) -> String {
    let (low, high) = (size.low, size.high);
    let percent = |what: &str| format!("{:.0} to {:.0} % {what}", 100.0 * low, 100.0 * high);
    match size.fault {
        Fault::Undercharge => percent("of the charge missing"),
        Fault::NearlyEmpty => percent("of the charge gone"),
        Fault::Overcharge => percent("too much charge"),
        Fault::NonCondensables => {
            format!("air of {:.2} to {:.2} % of the mass of the charge", 100.0 * low, 100.0 * high)
        }
        Fault::CondenserAirflowLoss => percent("of the condenser's air missing"),
        Fault::HotCondenserAir => format!("air {low:.0} to {high:.0} K over ambient at the condenser"),
        Fault::EvaporatorAirflowLoss => percent("of the evaporator's air missing"),
        Fault::CompressorWorn => percent("of the compressor's flow lost"),
        Fault::StuckAtFullDisplacement => "at full displacement throughout".to_owned(),
        Fault::StuckAtLowDisplacement => {
            format!("at {:.0} to {:.0} % of full displacement", 100.0 * low, 100.0 * high)
        }
        Fault::LiquidRestriction => percent("of the passage closed"),
        Fault::ValveStuckOpen => percent("open at all times"),
        Fault::WrongBore => bore(low, high),
        Fault::SuctionBlocked => restriction(low, high),
        Fault::DischargeBlocked => restriction(low, high),
        Fault::ReceiverInletBlocked => {
            let (low, high) = (10f64.powf(low), 10f64.powf(high));
            format!("{low:.0} to {high:.0} kPa lost there at the flow the condenser is made for")
        }
        Fault::WrongRefrigerant => "not the one on the label".to_owned(),
        Fault::MixedRefrigerant => "the one on the label and another".to_owned(),
    }
}

/// A restriction whose pressure drop over the usual one is 10^`low` to 10^`high`.
fn restriction(low: f64, high: f64) -> String {
    let (low, high) = (10f64.powf(low), 10f64.powf(high));
    let words = if high <= NEARLY_BLOCKED {
        "heavily restricted"
    } else if low >= NEARLY_BLOCKED {
        "nearly blocked"
    } else {
        "heavily restricted or nearly blocked"
    };
    words.to_owned()
}

/// A tube whose bore is off by the share `low` to `high`, below zero too small.
fn bore(low: f64, high: f64) -> String {
    let (low, high) = ((100.0 * low).round(), (100.0 * high).round());
    if high <= 0.0 {
        format!("orifice tube too small by {:.0} to {:.0} %", high.abs(), low.abs())
    } else if low >= 0.0 {
        format!("orifice tube too large by {low:.0} to {high:.0} %")
    } else {
        format!("between {:.0} % too small and {high:.0} % too large", low.abs())
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::report::words::en::tests::{says, told_apart};

    #[test]
    fn sizes_in_english() {
        let cases = [
            (Fault::Undercharge, 0.15, 0.3, "15 to 30 % of the charge missing"),
            (Fault::NearlyEmpty, 0.9, 0.98, "90 to 98 % of the charge gone"),
            (Fault::NonCondensables, 0.001, 0.012, "air of 0.10 to 1.20 % of the mass of the charge"),
            (Fault::HotCondenserAir, 6.0, 25.0, "air 6 to 25 K over ambient at the condenser"),
            (Fault::StuckAtLowDisplacement, 0.1, 0.34, "at 10 to 34 % of full displacement"),
            (Fault::WrongBore, -0.27, -0.06, "orifice tube too small by 6 to 27 %"),
            (Fault::WrongBore, -0.23, -0.001, "orifice tube too small by 0 to 23 %"),
            (Fault::WrongBore, 0.05, 0.3, "orifice tube too large by 5 to 30 %"),
            (Fault::WrongBore, -0.2, 0.07, "between 20 % too small and 7 % too large"),
            (Fault::SuctionBlocked, 5f64.log10(), 30f64.log10() - 1e-9, "heavily restricted"),
            (Fault::SuctionBlocked, 1.5, 2.0, "nearly blocked"),
            (Fault::DischargeBlocked, 0.8, 2.0, "heavily restricted or nearly blocked"),
            (Fault::ReceiverInletBlocked, 2.6, 3.3, "398 to 1995 kPa lost there at the flow the condenser is made for"),
        ];
        for (fault, low, high, text) in cases {
            assert_eq!(size(&FaultSizeRow { fault, low, high }), text);
        }
    }

    #[test]
    fn a_size_is_of_its_fault() {
        for &fault in Fault::ALL {
            let words: &[&str] = match fault {
                Fault::Undercharge => &["15 to 30 %", "charge missing"],
                Fault::NearlyEmpty => &["15 to 30 %", "charge gone"],
                Fault::Overcharge => &["15 to 30 %", "too much charge"],
                Fault::NonCondensables => &["air", "15.00 to 30.00 %", "mass"],
                Fault::CondenserAirflowLoss => &["15 to 30 %", "condenser's air"],
                Fault::HotCondenserAir => &["0 to 0 K", "condenser"],
                Fault::EvaporatorAirflowLoss => &["15 to 30 %", "evaporator's air"],
                Fault::CompressorWorn => &["15 to 30 %", "compressor's flow"],
                Fault::StuckAtFullDisplacement => &["full displacement"],
                Fault::StuckAtLowDisplacement => &["15 to 30 %", "displacement"],
                Fault::LiquidRestriction => &["15 to 30 %", "passage closed"],
                Fault::ValveStuckOpen => &["15 to 30 %", "open"],
                Fault::WrongBore => &["too large", "15 to 30 %"],
                Fault::SuctionBlocked | Fault::DischargeBlocked => &["restricted"],
                Fault::ReceiverInletBlocked => &["1 to 2 kPa"],
                Fault::WrongRefrigerant => &["not the one on the label"],
                Fault::MixedRefrigerant => &["and another"],
            };
            says(&size(&FaultSizeRow { fault, low: 0.15, high: 0.3 }), words);
        }
    }

    #[test]
    fn no_two_causes_are_told_alike() {
        let all = crate::diagnosis::ALL;
        told_apart(all.iter().map(|cause| (texts(cause.id).name, &[" "][..])));
        told_apart(all.iter().map(|cause| (texts(cause.id).next, &[" "][..])));
    }

    #[test]
    fn every_cause_has_its_texts() {
        for cause in crate::diagnosis::ALL {
            let texts = texts(cause.id);
            for text in [texts.name, texts.shows, texts.why, texts.against, texts.next, texts.caution] {
                assert!(!text.is_empty() && !text.contains("  "), "{}: {text:?}", cause.id);
            }
        }
    }
}
