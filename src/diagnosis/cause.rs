//! The causes: what each changes, how it shows, and what to check.

use super::fault::Fault;
use crate::circuit::{CircuitKind, CompressorKind, ExpansionKind};
use crate::{Error, Refrigerant, Source, Trust};

/// Something that may be wrong with a circuit.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Cause {
    /// Short name, for programs.
    pub id: &'static str,
    /// Name, for people.
    pub name: &'static str,
    /// What it changes in the circuit; none for the healthy car, two where causes come in pairs.
    pub faults: &'static [Fault],
    /// How it shows.
    pub shows: &'static str,
    /// Why it shows so.
    pub why: &'static str,
    /// What speaks against it.
    pub against: &'static str,
    /// What to check next.
    pub next: &'static str,
    /// What can hurt while checking.
    pub caution: &'static str,
    /// Printed fault charts that list it, by pattern: pattern, sources that list it, sources with that pattern.
    pub in_print: &'static [(&'static str, u32, u32)],
    /// What eyes and hands find with it: observation, sources that name it.
    pub found: &'static [(Observation, u32)],
}

/// Where the counts of printed fault charts come from.
pub const COUNTS: Source = Source {
    work: "count of makers' and trade fault charts",
    locator: "tables/diagnosis/gauge-patterns.csv",
    doi: None,
    trust: Trust::Computed,
};

/// The observations with their names, as programs and command lines write them.
macro_rules! observations {
    ($($(#[$doc:meta])* $variant:ident $name:literal;)*) => {
        /// What eyes, ears and hands find.
        #[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
        #[cfg_attr(feature = "serde", derive(serde::Serialize), serde(rename_all = "kebab-case"))]
        pub enum Observation { $($(#[$doc])* $variant,)* }

        impl Observation {
            /// All of them.
            pub const ALL: &'static [Self] = &[$(Self::$variant,)*];

            /// Its name.
            pub const fn name(self) -> &'static str {
                match self { $(Self::$variant => $name,)* }
            }
        }
    };
}

observations! {
    /// Bubbles in the sight glass.
    Bubbles "bubbles";
    /// The clutch opens and closes every few seconds.
    CyclesOften "cycles-often";
    /// A step in temperature, dew or frost somewhere along the liquid line or at the receiver.
    StepOnLiquidLine "step-on-liquid-line";
    /// Frost or dew at the inlet of the expansion device.
    FrostAtValve "frost-at-valve";
    /// Suction pipe at the compressor frosted, or colder than at the evaporator.
    FrostOnSuction "frost-on-suction";
    /// The evaporator is iced over.
    EvaporatorIced "evaporator-iced";
    /// It cools, stops, and cools again after a pause.
    ComesAndGoes "comes-and-goes";
    /// The pressures are equal soon after the compressor stops.
    EqualisesQuickly "equalises-quickly";
    /// The high side falls at once when the compressor stops, then slowly.
    FallsAtStop "falls-at-stop";
    /// The high side falls when water is put on the condenser.
    WaterHelps "water-helps";
    /// The compressor's clutch plate or shaft does not turn, or slips.
    NotTurning "not-turning";
    /// The condenser fan stands still, or little air comes through.
    LittleFrontAir "little-front-air";
    /// The engine runs hot.
    EngineHot "engine-hot";
    /// Little air from the vents.
    LittleCabinAir "little-cabin-air";
}

impl std::str::FromStr for Observation {
    type Err = Error;

    fn from_str(text: &str) -> Result<Self, Error> {
        let found = Self::ALL.iter().find(|observation| observation.name() == text);
        found.copied().ok_or_else(|| Error::UnknownObservation {
            name: text.to_owned(),
            known: Self::ALL.iter().map(|observation| observation.name()).collect(),
        })
    }
}

const PRESSURE: &str = "The circuit is under pressure: goggles and gloves, recover before anything is opened.";
const MOVING: &str =
    "Belts and fans move, and a fan may start by itself: hands away, engine or car switched off before touching.";
const BURNS: &str = "Compressor, discharge line and condenser burn.";
const VOLTAGE: &str = "Electric compressors run on dangerous voltages: trained people only.";

use Observation as O;

/// Nothing wrong.
pub const NO_FAULT: Cause = Cause {
    id: "no-fault",
    name: "no fault",
    faults: &[],
    shows: "everything inside the window of healthy cars",
    why: "cars differ",
    against: "any value far outside its window",
    next: "nothing on this circuit; repeat on a hotter day if the complaint stays",
    caution: MOVING,
    in_print: &[],
    found: &[],
};

/// Too little refrigerant.
pub const UNDERCHARGE: Cause = Cause {
    id: "undercharge",
    name: "charge too low",
    faults: &[Fault::Undercharge],
    shows: "first no subcooling, then superheat and a warm vent, then both sides low",
    why: "the receiver runs empty, vapour reaches the valve, and the evaporator starves",
    against: "subcooling as usual: liquid reaches the valve",
    next: "search the leak; recover, weigh what comes out, evacuate, recharge by weight",
    caution: PRESSURE,
    in_print: &[("A", 10, 11), ("D", 2, 6), ("N", 3, 3)],
    found: &[(O::Bubbles, 10), (O::CyclesOften, 10)],
};

/// Too much refrigerant.
pub const OVERCHARGE: Cause = Cause {
    id: "overcharge",
    name: "charge too high",
    faults: &[Fault::Overcharge],
    shows: "high side and subcooling high",
    why: "liquid stands back in the condenser and leaves less of it to condense",
    against: "subcooling as usual",
    next: "recover, weigh, recharge by weight",
    caution: PRESSURE,
    in_print: &[("C", 7, 10), ("H", 1, 2), ("M", 2, 2)],
    found: &[(O::WaterHelps, 7)],
};

/// Air in the circuit.
pub const AIR: Cause = Cause {
    id: "air",
    name: "air in the circuit",
    faults: &[Fault::NonCondensables],
    shows: "high side high, subcooling seems high, the discharge line hot",
    why: "air gathers in the condenser and adds its pressure to that of the refrigerant",
    against: "at rest and cold both gauges at saturation of the ambient",
    next: "compare the pressure at rest with saturation; recover, evacuate, recharge by weight",
    caution: PRESSURE,
    in_print: &[("C", 4, 10), ("G", 3, 4), ("M", 1, 2)],
    found: &[(O::FallsAtStop, 4)],
};

/// Too little air through the condenser.
pub const CONDENSER_AIR: Cause = Cause {
    id: "condenser-air",
    name: "too little air through the condenser",
    faults: &[Fault::CondenserAirflowLoss],
    shows: "high side high, low side and vent with it",
    why: "with less air the refrigerant must condense hotter to shed the same heat",
    against: "a high side that does not fall with more air or with water on the condenser",
    next: "fan, fan control, fins and everything in front of them",
    caution: MOVING,
    in_print: &[("C", 7, 10), ("M", 2, 2)],
    found: &[(O::LittleFrontAir, 7), (O::WaterHelps, 3)],
};

/// Hot air in front of the condenser.
pub const ENGINE_HEAT: Cause = Cause {
    id: "engine-heat",
    name: "hot air in front of the condenser",
    faults: &[Fault::HotCondenserAir],
    shows: "high side and liquid line high together",
    why: "the condenser works against air that has already taken up heat of engine or radiator",
    against: "a liquid line near the ambient",
    next: "engine temperature, seals and guides round the radiator, direction of the fan",
    caution: MOVING,
    in_print: &[("C", 1, 10), ("M", 1, 2)],
    found: &[(O::EngineHot, 1)],
};

/// Too little air through the evaporator.
pub const EVAPORATOR_AIR: Cause = Cause {
    id: "evaporator-air",
    name: "too little air through the evaporator",
    faults: &[Fault::EvaporatorAirflowLoss],
    shows: "low side low, little superheat, the vent cold but weak",
    why: "less air brings less heat, so the evaporator boils colder",
    against: "a strong stream from the vents",
    next: "blower, cabin filter, face of the evaporator, flaps",
    caution: MOVING,
    in_print: &[("I", 1, 2)],
    found: &[(O::LittleCabinAir, 1)],
};

/// Ice on the evaporator.
pub const ICING: Cause = Cause {
    id: "icing",
    name: "evaporator iced over",
    faults: &[Fault::EvaporatorAirflowLoss, Fault::StuckAtFullDisplacement],
    shows: "low side far down, the air weak, cold at first and then warm",
    why: "nothing stops the compressor at the freezing point, and ice closes the way of the air",
    against: "a low side above the freezing point",
    next: "let it thaw and watch; sensor, thermostat or switch that should stop the compressor",
    caution: MOVING,
    in_print: &[("A", 1, 11), ("I", 1, 2)],
    found: &[(O::EvaporatorIced, 2), (O::LittleCabinAir, 1)],
};

/// A compressor that has lost flow.
pub const COMPRESSOR_WORN: Cause = Cause {
    id: "compressor-worn",
    name: "compressor worn or leaking inside",
    faults: &[Fault::CompressorWorn],
    shows: "low side high, high side low, a hot discharge line and a warm vent",
    why: "gas leaks back and is worked on twice, so less comes through and it comes hotter",
    against: "sides far apart",
    next: "rule out low charge, slipping belt or clutch and the control valve first; then the compressor",
    caution: BURNS,
    in_print: &[("D", 6, 6), ("H", 1, 2), ("K", 2, 2), ("N", 3, 3)],
    found: &[(O::EqualisesQuickly, 6)],
};

/// A compressor that is never held back.
pub const CONTROL_HIGH: Cause = Cause {
    id: "control-high",
    name: "compressor control stuck at full delivery",
    faults: &[Fault::StuckAtFullDisplacement],
    shows: "low side below its set point on a mild day, the vent near freezing",
    why: "nothing holds the low side up",
    against: "a low side at its set point",
    next: "control valve and its signal, thermostat or low-pressure switch",
    caution: VOLTAGE,
    in_print: &[("A", 1, 11), ("I", 1, 2)],
    found: &[(O::EvaporatorIced, 1)],
};

/// A compressor that is always held back.
pub const CONTROL_LOW: Cause = Cause {
    id: "control-low",
    name: "compressor control stuck at little delivery",
    faults: &[Fault::StuckAtLowDisplacement],
    shows: "low side high, high side low, the discharge line cool",
    why: "little is pumped, and what is pumped is not worked on twice",
    against: "a hot discharge line: then the gas leaks back inside",
    next: "control valve and its signal; speed of an electric compressor",
    caution: VOLTAGE,
    in_print: &[],
    found: &[],
};

/// A closed place in the liquid line or the receiver.
pub const LIQUID_RESTRICTION: Cause = Cause {
    id: "liquid-restriction",
    name: "restriction in the liquid line or receiver",
    faults: &[Fault::LiquidRestriction],
    shows: "low side and high side low with liquid left in the condenser, much superheat",
    why: "liquid waits before the closed place while the evaporator starves behind it",
    against: "no subcooling: then it is charge that is missing",
    next: "feel or measure along the liquid line for a step in temperature; replace the part and the drier",
    caution: PRESSURE,
    in_print: &[("A", 5, 11), ("E", 4, 4), ("M", 2, 2), ("N", 1, 3)],
    found: &[(O::StepOnLiquidLine, 5)],
};

/// A closed place between compressor and condenser.
pub const DISCHARGE_RESTRICTION: Cause = Cause {
    id: "discharge-restriction",
    name: "restriction in the discharge line or at the condenser's inlet",
    faults: &[Fault::DischargeBlocked],
    shows: "high side high at a port before it, the liquid line as cool as ever, the discharge line hot, the low side near normal",
    why: "the gas is held back at the gauge while the condenser behind the closed place does its usual work",
    against: "a liquid line as hot as the high side asks for; a port behind the closed place feels nothing of it",
    next: "compare high side and liquid line; feel along the pipe for a step, look for kinks and a crushed hose; replace the part",
    caution: BURNS,
    in_print: &[("E", 4, 4), ("M", 2, 2)],
    found: &[],
};

/// A closed place between condenser and receiver.
///
/// The receiver holds liquid about to boil at its own, lower pressure, so liquid stands back in the condenser until it is as cold.
/// Where the high-side port is decides what the gauge says. Between compressor and condenser it is before the place: at 30 °C and
/// idle an R-134a circuit with a valve shows 10 to 850 kPa more by the size of the place, 1 to 25 K more subcooling, a liquid line
/// 1 to 13 K cooler and the low side within 13 kPa (5 to 95 % of 128 cars). On the liquid line it is behind it: 80 to 600 kPa less,
/// and less subcooling by that gauge than before. The liquid line stays without bubbles until the receiver is empty, which happens
/// to two in five of the cars at the largest size and to none at the smallest.
///
/// A circuit with an orifice tube has no receiver: a place before the tube does what a smaller tube does, with liquid standing back
/// in the condenser at the cost of the accumulator. That is [`LIQUID_RESTRICTION`].
pub const RECEIVER_RESTRICTION: Cause = Cause {
    id: "receiver-restriction",
    name: "restriction at the condenser's outlet or the receiver's inlet",
    faults: &[Fault::ReceiverInletBlocked],
    shows: "at a port before it high side and subcooling high, at a port on the liquid line the high side low; the liquid line \
            cool, the low side near normal, no bubbles",
    why: "the receiver boils at a lower pressure, so liquid stands back in the condenser until it is as cold; the valve still gets \
          liquid and opens further",
    against: "a liquid line as hot as the high side asks for; a low side far down while the sight glass is clear",
    next: "see where the high-side port is; feel along the condenser's lower end, its outlet and the receiver: hot where gas \
           condenses, cool from where liquid stands; replace the part and the drier",
    caution: PRESSURE,
    in_print: &[("E", 4, 4), ("M", 2, 2)],
    found: &[(O::StepOnLiquidLine, 4)],
};

/// A valve that does not open.
pub const EXPANSION_CLOSED: Cause = Cause {
    id: "expansion-closed",
    name: "expansion device closed, clogged or its bulb empty",
    faults: &[Fault::LiquidRestriction],
    shows: "low side far down, much superheat, liquid left in the condenser",
    why: "too little passes the device",
    against: "a low side that holds its set point",
    next: "temperature before and behind the device; replace it and the drier",
    caution: PRESSURE,
    in_print: &[("A", 4, 11), ("F2", 2, 2), ("M", 1, 2), ("N", 3, 3)],
    found: &[(O::FrostAtValve, 4)],
};

/// Water that freezes in the valve.
pub const MOISTURE: Cause = Cause {
    id: "moisture",
    name: "drier saturated, ice in the expansion device",
    faults: &[Fault::LiquidRestriction],
    shows: "comes and goes: normal, then a low side falling into vacuum",
    why: "water freezes where the refrigerant turns cold, closes the passage, thaws and freezes again",
    against: "the same reading hour after hour",
    next: "let it stand ten minutes and read again; replace the drier, evacuate long",
    caution: PRESSURE,
    in_print: &[("A", 2, 11), ("F", 4, 4), ("N", 1, 3)],
    found: &[(O::ComesAndGoes, 4), (O::FrostAtValve, 1)],
};

/// A valve that does not close.
pub const EXPANSION_OPEN: Cause = Cause {
    id: "expansion-open",
    name: "expansion valve stuck open, or its bulb loose",
    faults: &[Fault::ValveStuckOpen],
    shows: "low side high, no superheat, a cold and wet suction line",
    why: "more liquid passes than the evaporator can boil",
    against: "superheat as usual",
    next: "bulb contact and insulation, then the valve",
    caution: PRESSURE,
    in_print: &[("C", 2, 10), ("H", 2, 2)],
    found: &[(O::FrostOnSuction, 4)],
};

/// The wrong tube.
pub const WRONG_ORIFICE: Cause = Cause {
    id: "wrong-orifice",
    name: "orifice tube of the wrong bore",
    faults: &[Fault::WrongBore],
    shows: "too small: subcooling high and the low side low; too large: no subcooling",
    why: "the bore decides how much passes",
    against: "subcooling as usual",
    next: "compare the tube with the maker's part",
    caution: PRESSURE,
    in_print: &[],
    found: &[],
};

/// A closed place on the suction side.
pub const SUCTION_RESTRICTION: Cause = Cause {
    id: "suction-restriction",
    name: "suction side blocked, or its service valve closed",
    faults: &[Fault::SuctionBlocked],
    shows: "low side low at the compressor while the evaporator stays warm",
    why: "the compressor draws through a narrow place",
    against: "a cold evaporator with that low side",
    next: "compare both ends of the suction line; valve positions, hose linings",
    caution: PRESSURE,
    in_print: &[],
    found: &[],
};

/// Another refrigerant.
pub const WRONG_REFRIGERANT: Cause = Cause {
    id: "wrong-refrigerant",
    name: "wrong or mixed refrigerant",
    faults: &[Fault::WrongRefrigerant],
    shows: "pressures and temperatures do not belong together, at rest above all",
    why: "each refrigerant has its own saturation line",
    against: "at rest both gauges at saturation of the label's refrigerant",
    next: "identify what is inside before it is recovered: it may burn, and it spoils what it is mixed with",
    caution: "What is inside may be flammable: no sparks, air the room, and keep it apart.",
    in_print: &[("G", 1, 4), ("K", 1, 2)],
    found: &[],
};

/// Charged over air.
pub const UNDERCHARGE_WITH_AIR: Cause = Cause {
    id: "undercharge-with-air",
    name: "charge too low and air inside",
    faults: &[Fault::Undercharge, Fault::NonCondensables],
    shows: "a high side that looks right, with superheat and a warm vent",
    why: "air holds the high side up while the evaporator starves: topped up without evacuating",
    against: "at rest and cold both gauges at saturation of the ambient",
    next: "pressure at rest; recover, evacuate, recharge by weight",
    caution: PRESSURE,
    in_print: &[],
    found: &[(O::Bubbles, 1)],
};

/// Little charge behind a dirty condenser.
pub const UNDERCHARGE_BEHIND_LITTLE_AIR: Cause = Cause {
    id: "undercharge-behind-little-air",
    name: "charge too low and too little air through the condenser",
    faults: &[Fault::Undercharge, Fault::CondenserAirflowLoss],
    shows: "a high side that looks right, with superheat and a warm vent",
    why: "little air holds the high side up: a maker warns that a low charge can look full",
    against: "full air through the condenser",
    next: "fan and fins first, then weigh the charge",
    caution: MOVING,
    in_print: &[],
    found: &[(O::LittleFrontAir, 1)],
};

/// The compressor does not turn.
pub const NOT_TURNING: Cause = Cause {
    id: "not-turning",
    name: "compressor not turning",
    faults: &[],
    shows: "both gauges alike, near the pressure at rest",
    why: "nothing is pumped",
    against: "any lasting difference between the sides",
    next: "belt-driven: belt, clutch gap, voltage at the coil, the switches that hold it off; electric: the command to it, fault \
           memory, its low-voltage supply, never a probe on orange cables",
    caution: "Belts and fans move: engine or car switched off before touching. Electric compressors run on dangerous voltages, \
              which stay after switching off: trained people only.",
    in_print: &[("L", 1, 1), ("K", 2, 2)],
    found: &[(O::NotTurning, 1), (O::EqualisesQuickly, 1)],
};

/// Every cause, the healthy car first.
pub const ALL: [&Cause; 23] = [
    &NO_FAULT,
    &UNDERCHARGE,
    &OVERCHARGE,
    &AIR,
    &CONDENSER_AIR,
    &ENGINE_HEAT,
    &EVAPORATOR_AIR,
    &ICING,
    &COMPRESSOR_WORN,
    &CONTROL_HIGH,
    &CONTROL_LOW,
    &LIQUID_RESTRICTION,
    &EXPANSION_CLOSED,
    &MOISTURE,
    &EXPANSION_OPEN,
    &WRONG_ORIFICE,
    &SUCTION_RESTRICTION,
    &WRONG_REFRIGERANT,
    &UNDERCHARGE_WITH_AIR,
    &UNDERCHARGE_BEHIND_LITTLE_AIR,
    &DISCHARGE_RESTRICTION,
    &RECEIVER_RESTRICTION,
    &NOT_TURNING,
];

impl Cause {
    /// Whether this and `other` change the circuit in the same way, so that no number tells one from the other.
    pub fn changes_like(&self, other: &Self) -> bool {
        !self.faults.is_empty() && self.faults == other.faults
    }

    /// Whether a circuit of this kind can have it.
    pub fn applies_to(&self, kind: &CircuitKind) -> bool {
        let orifice = kind.expansion == ExpansionKind::OrificeTube;
        let carbon_dioxide = kind.refrigerant == Refrigerant::R744;
        match self.id {
            "wrong-orifice" => orifice,
            "expansion-open" | "receiver-restriction" => !orifice && !carbon_dioxide,
            "wrong-refrigerant" | "liquid-restriction" | "discharge-restriction" | "expansion-closed" | "moisture" => {
                !carbon_dioxide
            }
            "control-low" => kind.compressor != CompressorKind::Cycling,
            _ => true,
        }
    }
}
