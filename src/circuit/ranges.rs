//! Ranges of all sizes that are drawn, each with its source or the mark that it is from memory, common practice or our choice.

use super::compressor::EFFICIENCY;
use crate::{Source, Trust};

/// Range from which a size is drawn evenly.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SizeRange {
    /// Name of the size.
    pub what: &'static str,
    /// Lower end, in `unit`.
    pub low: f64,
    /// Upper end, in `unit`.
    pub high: f64,
    /// Unit of both ends; empty for a ratio.
    pub unit: &'static str,
    /// Ends before the range was calibrated, its own if it was not; circuits of R-744, of which no ladder is printed, keep these.
    pub prior: (f64, f64),
    /// Source of the range.
    pub source: Source,
}

impl SizeRange {
    /// Size at the fraction `x` of the range.
    pub fn at(&self, x: f64) -> f64 {
        self.low + x * (self.high - self.low)
    }

    /// The same of the range before it was calibrated.
    pub(super) fn prior_at(&self, x: f64) -> f64 {
        let (low, high) = self.prior;
        low + x * (high - low)
    }
}

const fn from_memory(what: &'static str, low: f64, high: f64, unit: &'static str) -> SizeRange {
    chosen(what, low, high, unit, "range for passenger cars", "")
}

/// What the trade says of passenger cars, in the words of `tables/system/components.csv`.
const fn common_practice(what: &'static str, low: f64, high: f64, unit: &'static str) -> SizeRange {
    let mut range = from_memory(what, low, high, unit);
    range.source = Source::COMMON_PRACTICE;
    range
}

const fn our_choice(what: &'static str, low: f64, high: f64, unit: &'static str) -> SizeRange {
    chosen(what, low, high, unit, "our choice", "")
}

/// Our choice, from what `work` says; also where one end alone was read, as the weaker origin grades the whole.
const fn chosen(
    what: &'static str,
    low: f64,
    high: f64,
    unit: &'static str,
    work: &'static str,
    locator: &'static str,
) -> SizeRange {
    let mut range = read(what, low, high, unit, work, locator);
    range.source.trust = Trust::FromMemory;
    range
}

const fn read(
    what: &'static str,
    low: f64,
    high: f64,
    unit: &'static str,
    work: &'static str,
    locator: &'static str,
) -> SizeRange {
    let source = Source { work, locator, doi: None, trust: Trust::Excerpt };
    SizeRange { what, low, high, unit, prior: (low, high), source }
}

/// Read in a copy of a copy.
const fn second_hand(
    what: &'static str,
    low: f64,
    high: f64,
    unit: &'static str,
    work: &'static str,
    locator: &'static str,
) -> SizeRange {
    let mut range = read(what, low, high, unit, work, locator);
    range.source.trust = Trust::Weak;
    range
}

/// From memory, then moved by printed ladders: of mixed origin, so of the weaker grade.
const fn calibrated(what: &'static str, (low, high): (f64, f64), unit: &'static str, prior: (f64, f64)) -> SizeRange {
    let mut range = chosen(
        what,
        low,
        high,
        unit,
        "range for passenger cars, from memory, calibrated on printed ladders",
        "tables/system/CALIBRATION.md",
    );
    range.prior = prior;
    range
}

/// Displacement of belt-driven compressors, cm³.
pub const DISPLACEMENT: SizeRange = common_practice("displacement", 60.0, 215.0, "cm³");
/// Displacement of belt-driven compressors for R-744, cm³.
pub const DISPLACEMENT_R744: SizeRange = from_memory("displacement, R-744", 20.0, 34.0, "cm³");
/// Displacement of electric compressors, cm³.
pub const DISPLACEMENT_ELECTRIC: SizeRange = common_practice("displacement, electric", 27.0, 45.0, "cm³");
/// Displacement of electric compressors for R-744, cm³.
pub const DISPLACEMENT_ELECTRIC_R744: SizeRange = from_memory("displacement, electric, R-744", 4.5, 8.0, "cm³");
/// Speed of an electric compressor at full cooling, rpm; all speeds together span 800 to 8500 rpm, common practice, from memory.
pub const MOTOR_SPEED: SizeRange = from_memory("highest speed, electric", 4000.0, 8500.0, "1/min");
/// Pulley ratio, compressor speed over engine speed.
pub const PULLEY: SizeRange = calibrated("compressor to engine speed", (1.072, 1.672), "", (1.1, 1.7));
/// Idle speed of the engine, rpm.
pub const IDLE: SizeRange = from_memory("idle speed", 650.0, 900.0, "1/min");
/// Volumetric efficiency over that of the published compressor.
pub const VOLUMETRIC_EFFICIENCY: SizeRange =
    from_memory("volumetric efficiency over the published compressor's", 0.93, 1.05, "");
/// Fall of the volumetric efficiency with speed, over that of the published compressor: printed shaft power against
/// speed of a large circuit requires none, that of a small one the whole.
pub const VOLUMETRIC_EFFICIENCY_FALL: SizeRange = second_hand(
    "fall of the volumetric efficiency with speed over the published compressor's",
    0.0,
    1.0,
    "",
    "shaft power of a small and a large car, A. Brooker, NREL 2002, in a public copy of its vehicle data",
    "1.16 and 0.73 as powers of speed, against 1.18 without and 0.83 with the fall",
);
/// Isentropic efficiency over that of the published compressor.
pub const WORK: SizeRange = from_memory("isentropic efficiency over the published compressor's", 0.88, 1.08, "");
/// Clearance volume over swept volume.
pub const CLEARANCE: SizeRange = from_memory("clearance volume", 0.02, 0.05, "");
/// Fraction of the shaft power lost through the shell of the compressor.
pub const SHELL_LOSS: SizeRange = from_memory("share of shaft power lost through the shell", 0.03, 0.15, "");
/// Face area of the condenser, m².
pub const FACE: SizeRange = common_practice("condenser face", 0.18, 0.30, "m²");
/// Face velocity on the condenser with the fan at its highest, m/s.
pub const FAN: SizeRange = calibrated("condenser face velocity with the fan on", (1.40, 2.90), "m/s", (1.5, 3.0));
/// Lowest stage of the fan over the highest.
pub const FAN_LOW: SizeRange = from_memory("lowest stage of the fan over the highest", 0.3, 0.7, "");
/// High-side pressure up to which the fan stays at its lowest stage, kPa gauge.
pub const FAN_FROM: SizeRange = read(
    "high side up to which the fan stays low",
    930.0,
    1250.0,
    "kPa gauge",
    "Acura RL 2005; Saab 9000 1994",
    "fan off at 930 and 1250; not followed: 1520 of a trinary switch whose maker is not shown",
);
/// High-side pressure from which the fan is at its highest stage, kPa gauge.
pub const FAN_FULL: SizeRange = read(
    "high side from which the fan is at its highest",
    1520.0,
    2010.0,
    "kPa gauge",
    "Acura RL 2005; Saab 9000 1994; a trinary switch whose maker is not shown",
    "fan on at 1520, 1650 and 2010",
);
/// High-side pressure up to which the fan stays at its lowest stage with R-744, MPa gauge.
pub const FAN_FROM_R744: SizeRange =
    from_memory("high side up to which the fan stays low, R-744", 6.5, 8.0, "MPa gauge");
/// High-side pressure from which the fan is at its highest stage with R-744, MPa gauge.
pub const FAN_FULL_R744: SizeRange =
    from_memory("high side from which the fan is at its highest, R-744", 9.0, 10.5, "MPa gauge");
/// Ram-air face velocity over driving speed.
pub const RAM: SizeRange = from_memory("face velocity over driving speed", 0.10, 0.22, "");
/// Recirculated fraction of the condenser air at idle; the prior gives the usual rise of 2 to 12 K.
pub const RECIRCULATED: SizeRange =
    calibrated("share of condenser air drawn round again at idle", (0.226, 0.626), "", (0.20, 0.60));
/// Number of transfer units of the condenser's air side at 2.5 m/s.
pub const CONDENSER_UNITS: SizeRange = from_memory("condenser, air-side transfer units at 2.5 m/s", 0.8, 1.5, "");
/// Refrigerant-side over air-side conductance of the condenser.
pub const CONDENSER_RATIO: SizeRange = from_memory("condenser, refrigerant over air-side conductance", 3.0, 6.0, "");
/// Single-phase over two-phase conductance of the refrigerant side.
pub const SINGLE_PHASE: SizeRange = from_memory("conductance of one phase over that of two", 0.15, 0.35, "");
/// Single-phase over two-phase conductance of the refrigerant side for R-744 above its critical pressure.
pub const SINGLE_PHASE_R744: SizeRange = from_memory("conductance of one phase over that of two, R-744", 0.5, 0.9, "");
/// Fraction of the condenser downstream of the receiver, the subcooling pass.
pub const PASS: SizeRange = from_memory("share of the condenser behind the receiver", 0.04, 0.18, "");
/// Air flow through the evaporator at full blower, m³/h.
pub const BLOWER: SizeRange = common_practice("evaporator air flow at full blower", 300.0, 500.0, "m³/h");
/// Number of transfer units of the evaporator's air side at full blower.
pub const EVAPORATOR_UNITS: SizeRange = from_memory("evaporator, air-side transfer units at full blower", 1.6, 2.6, "");
/// Refrigerant-side over air-side conductance of the evaporator.
pub const EVAPORATOR_RATIO: SizeRange = from_memory("evaporator, refrigerant over air-side conductance", 4.0, 9.0, "");
/// Air flow through front and rear evaporator over that through the front one.
pub const REAR: SizeRange = from_memory("air through both evaporators over that through the front one", 1.5, 2.0, "");
/// Displacement of the compressor of a circuit with a rear evaporator over that of one without.
pub const REAR_DISPLACEMENT: SizeRange = chosen(
    "displacement with a rear evaporator over that without",
    1.15,
    1.6,
    "",
    "compressors of vans and large off-road cars, common practice, from memory",
    "170 to 215 cm³ where cars with one evaporator have 100 to 180",
);
/// Fraction of the inlet air that has just left the evaporator, on recirculation with the doors open.
pub const RETURNED: SizeRange =
    from_memory("share of vent air back at the inlet, recirculation, doors open", 0.0, 0.4, "");
/// Conductance of the body between outside and cabin air, W/K.
pub const BODY: SizeRange = read(
    "conductance of the body, cabin to outside",
    57.0,
    142.0,
    "W/K",
    "NREL, vehicle files fitted to tests of a 2021 Hyundai Sonata Hybrid and a 2020 Chevrolet Bolt (github.com/NREL/fastsim, cal_and_val/thermal)",
    "standing: 6.07 m²/(1/10.1 + 1/153) and 10.07 m²/(1/15.0 + 1/235) W/(m² K), 57.5 and 142 W/K",
);
/// Volume of the air in the cabin, m³.
pub const CABIN_VOLUME: SizeRange = from_memory("air volume of the cabin", 2.5, 4.5, "m³");
/// Air changes per hour of a standing car with doors and windows shut and the blower on recirculation.
pub const LEAKAGE: SizeRange = read(
    "air changes an hour, all shut, recirculation",
    1.8,
    3.7,
    "1/h",
    "Park et al., J. Exposure Anal. Environ. Epidemiol. 8 (1998) 65, abstract",
    "1.8 to 3.7 in three standing cars; below 1 with the fan off in Ott, Klepeis & Switzer 2008",
);
/// Outside air that comes in through open windows of a standing car, m³/h: from one window to four.
///
/// Two-way flow through an opening of area A and height H between air of two temperatures, V = C A √(g H ΔT/T)/3 (Brown &
/// Solvason 1962, from memory), with C = 0.6, A = 0.2 to 0.35 m², H = 0.45 m, and the 10 K by which the blower cools the
/// cabin: 55 to 95 m³/h for a window. Measured without blower and temperature difference: 13 to 26 air changes an hour.
pub const WINDOWS: SizeRange = chosen(
    "outside air through open windows",
    55.0,
    380.0,
    "m³/h",
    "two-way flow through one window to four; not less than Park et al., J. Exposure Anal. Environ. Epidemiol. 8 (1998) 65",
    "13.3 to 26.1 air changes an hour in three standing cars with one window open and the fan off, 40 to 90 m³/h",
);
/// People in the cabin during a test.
pub const PEOPLE: SizeRange = our_choice("people in the cabin", 0.0, 1.0, "");
/// Conductance between the interior and the cabin air, W/K.
pub const INTERIOR_CONDUCTANCE: SizeRange = chosen(
    "conductance from seats and trim to the cabin air",
    80.0,
    180.0,
    "W/K",
    "10 to 15 m² with 8 to 12 W/(m² K), the blower at its highest, from memory",
    "",
);
/// Heat capacity of the interior that cools with the cabin air, kJ/K.
pub const INTERIOR_CAPACITY: SizeRange = read(
    "heat capacity of seats and trim",
    74.0,
    134.0,
    "kJ/K",
    "NREL, vehicle files fitted to tests of a 2020 Chevrolet Bolt and a 2021 Hyundai Sonata Hybrid (github.com/NREL/fastsim, cal_and_val/thermal)",
    "74.4 and 133.9 kJ/K",
);
/// Moisture exchange of textiles with the cabin air, as a flow of air, g/s.
pub const TEXTILE_FLOW: SizeRange = chosen(
    "moisture exchange of textiles, as a flow of air",
    40.0,
    110.0,
    "g/s",
    "conductance of the interior over the heat capacity of air (Lewis), half to two thirds of the surface, from memory",
    "",
);
/// Moisture capacity of textiles, as a mass of air, kg.
pub const TEXTILE_MASS: SizeRange = chosen(
    "moisture capacity of textiles, as a mass of air",
    5.0,
    30.0,
    "kg",
    "5 to 20 kg of carpet, felt, foam and cloth that take 3 to 8 % of water from dry to damp air of 35 °C, from memory",
    "",
);
/// Warming of the air from the evaporator to the vent, K.
pub const DUCT: SizeRange = from_memory("warming from evaporator to vent", 0.5, 3.0, "K");
/// Superheat beyond what the valve holds that the outlet of a starved evaporator shows, over what evenly fed passes would: some run dry
/// while others still carry liquid past.
pub const EVENNESS: SizeRange = from_memory("superheat of a starved evaporator over that of even passes", 0.4, 1.0, "");
/// Static superheat of the expansion valve, K.
pub const STATIC_SUPERHEAT: SizeRange = common_practice("static superheat", 3.0, 8.0, "K");
/// Further superheat to full opening of the expansion valve, K.
pub const GRADIENT: SizeRange = from_memory("further superheat to full opening", 3.0, 7.0, "K");
/// Flow of the expansion valve over that of the compressor at 2500 rpm. A smaller valve would show a low charge earlier, but at 1500 rpm
/// earlier than print has it (`tables/system/CHECKS.md`: leak, capacity with four tenths too little).
pub const VALVE_SIZE: SizeRange = from_memory("valve flow over compressor flow at 2500 rpm", 0.7, 1.3, "");
/// Bore of the orifice tube, mm.
pub const BORE: SizeRange = common_practice("orifice tube bore", 1.22, 1.83, "mm");
/// Length of the orifice tube, mm.
pub const LENGTH: SizeRange = from_memory("orifice tube length", 37.0, 40.0, "mm");
/// High-side pressure held with R-744 over the optimum pressure.
pub const HIGH_SIDE: SizeRange = from_memory("R-744 high side held over the best one", 0.95, 1.10, "");
/// Effectiveness of the internal heat exchanger, R-1234yf and similar.
pub const EXCHANGER: SizeRange = from_memory("internal exchanger effectiveness", 0.25, 0.50, "");
/// Effectiveness of the internal heat exchanger, R-744.
pub const EXCHANGER_R744: SizeRange = from_memory("internal exchanger effectiveness, R-744", 0.40, 0.70, "");
/// Superheat at which a valve of R-744 has given up the high side for an evaporator that runs dry, K.
pub const YIELDS: SizeRange =
    our_choice("R-744 superheat at which the high side is given up, all but 1/e", 6.0, 40.0, "K");
/// Inner volume of the receiver, L.
pub const RECEIVER: SizeRange = from_memory("receiver volume", 0.13, 0.26, "L");
/// Fraction of a receiver that liquid can fill: desiccant and filter take a third, what stays vapour the rest.
pub const RECEIVER_SHARE: SizeRange = from_memory("share of the receiver that liquid can fill", 0.40, 0.60, "");
/// Inner volume of the accumulator, L.
pub const ACCUMULATOR: SizeRange = from_memory("accumulator volume", 0.45, 0.80, "L");
/// Fraction of an accumulator that liquid can fill: bag and tube take a third, and foam reaches the inlet of the tube at a third
/// of the rest.
pub const ACCUMULATOR_SHARE: SizeRange =
    from_memory("share of the accumulator that liquid can fill before it is carried over", 0.235, 0.33, "");
/// Fraction of an accumulator of R-744 that liquid can fill: what the high side takes and gives from mild to hot must have room.
pub const ACCUMULATOR_SHARE_R744: SizeRange =
    our_choice("share of the accumulator that liquid can fill before it is carried over, R-744", 0.40, 0.50, "");
/// Inner volume of the condenser, L.
pub const CONDENSER_VOLUME: SizeRange = from_memory("condenser inner volume", 0.40, 0.80, "L");
/// Inner volume of the condenser with an orifice tube, L: larger cars.
pub const CONDENSER_VOLUME_ORIFICE: SizeRange =
    from_memory("condenser inner volume, with an orifice tube", 0.65, 1.05, "L");
/// Inner volume of the evaporator, L.
pub const EVAPORATOR_VOLUME: SizeRange = from_memory("evaporator inner volume", 0.40, 0.80, "L");
/// Inner volume of the liquid line, L: 1.5 to 3.5 m of 6 to 7.7 mm.
pub const LIQUID_LINE: SizeRange = from_memory("liquid line", 0.06, 0.14, "L");
/// Inner volume of the liquid line with an orifice tube, L: 2 to 3.5 m of 7.7 mm.
pub const LIQUID_LINE_ORIFICE: SizeRange = from_memory("liquid line, with an orifice tube", 0.10, 0.18, "L");
/// Pressure drop of the suction line at 40 g/s and 15 kg/m³, kPa.
pub const SUCTION_DROP: SizeRange = from_memory("suction pressure drop at 40 g/s and 15 kg/m³", 8.0, 35.0, "kPa");
/// Pressure drop of the discharge line at 40 g/s and 70 kg/m³, kPa.
pub const DISCHARGE_DROP: SizeRange =
    from_memory("discharge and condenser pressure drop at 40 g/s and 70 kg/m³", 30.0, 130.0, "kPa");
/// Conductance from the air around the engine to the suction line, W/K.
pub const SUCTION_GAIN: SizeRange = from_memory("conductance into the suction line", 0.5, 3.0, "W/K");
/// Temperature of the air around the engine over ambient, K.
pub const UNDERHOOD_RISE: SizeRange = from_memory("air around the engine over ambient", 8.0, 30.0, "K");
/// Reserve of a circuit with a receiver, as a fraction of what the receiver takes.
pub const RESERVE_RECEIVER: SizeRange = chosen(
    "reserve over what the receiver takes",
    0.38,
    0.66,
    "",
    "Lexus CT 200h 2012 and LS 600hL 2008, refrigerant replacement",
    "100 of 470 g and 200 of 900 g still to add when the bubbles are gone; the shares that give this are our choice",
);
/// Reserve of a circuit with an orifice tube, as a share of what the circuit needs: leaks of ten to eleven years.
pub const RESERVE_ORIFICE: SizeRange = chosen(
    "reserve over what a circuit with an orifice tube needs",
    0.225,
    0.260,
    "",
    "S. Schaeber, ACtion Magazine, May 2014, p. 30",
    "2.4 % of the charge a year, about 10 % after four years; how many years are our choice",
);
/// Reserve of R-744, as a share of what the accumulator takes: on hot days the need is a tenth more or less than on others.
pub const RESERVE_R744: SizeRange = our_choice("reserve over what the accumulator takes, R-744", 0.36, 0.48, "");
/// Charge of a healthy circuit over its nominal charge.
pub const CHARGED: SizeRange = from_memory("charge of a healthy car over its label", 0.94, 1.03, "");
/// Cut-out pressure of the low-pressure switch, kPa gauge.
pub const SWITCH_CUT_OUT: SizeRange = chosen(
    "low-pressure switch opens",
    145.0,
    175.0,
    "kPa gauge",
    "Mazda Tribute 2005, Buick Park Avenue 1994, Chevrolet Corvette 1994",
    "145 to 165, 152 and 170; upper end common practice, 150 to 175, from memory",
);
/// Cut-in pressure of the low-pressure switch, kPa gauge.
pub const SWITCH_CUT_IN: SizeRange = chosen(
    "low-pressure switch closes",
    290.0,
    325.0,
    "kPa gauge",
    "Buick Park Avenue 1994, Chevrolet Corvette 1994",
    "296 and 324; ends common practice, 290 to 325, from memory; not followed: 200 to 317 of the Mazda Tribute 2005",
);
/// Cut-out temperature of the evaporator thermostat, °C.
pub const THERMOSTAT: SizeRange = chosen(
    "evaporator thermostat opens",
    0.0,
    3.0,
    "°C",
    "VW Golf 1996, clutch control",
    "off at 0 °C; upper end from memory; not followed: off below -5, on above 1 °C of an Infiniti G37 2012",
);
/// Suction pressure held by the bellows of an internally controlled compressor, kPa gauge at sea level.
pub const BELLOWS: SizeRange = chosen(
    "suction pressure held by internal control",
    100.0,
    240.0,
    "kPa gauge at sea level",
    "Audi A1 workshop manual, refrigerant circuit with expansion valve",
    "about 100; upper end common practice, 190 to 240, from memory",
);
/// Width of the bellows' pressure band from least to full displacement, kPa.
pub const BELLOWS_BAND: SizeRange = from_memory("from least to full stroke", 15.0, 50.0, "kPa");
/// Fall of the bellows' set point per unit of discharge pressure.
pub const COMPENSATION: SizeRange = from_memory("fall of the set point with the discharge pressure", 0.0, 0.03, "");
/// Temperature of the air off the evaporator with external control, °C.
pub const AIR_OFF: SizeRange = read(
    "air off the evaporator, external control",
    3.0,
    5.0,
    "°C",
    "Ford Expedition MAX 2018; MINI Cooper 2003",
    "3 to 5 °C in manual mode; 3 to 4 °C",
);
/// Width of the temperature band of external control from least to full capacity, K.
pub const AIR_OFF_BAND: SizeRange = from_memory("from least to full delivery, external control", 1.5, 4.0, "K");
/// Pressure of the high-pressure cut-out, kPa gauge.
pub const HIGH_LIMIT: SizeRange = read(
    "high-pressure cut-out",
    2827.0,
    3140.0,
    "kPa gauge",
    "GMC Savana 2000; a trinary switch whose maker is not shown",
    "2827 to 3103; 3140; not followed: 3199, printed 464 psi, of the VW Golf 1996",
);
/// Pressure of the high-pressure cut-out with R-744, MPa absolute.
pub const HIGH_LIMIT_R744: SizeRange = from_memory("high-pressure limit, R-744", 12.5, 13.5, "MPa absolute");
/// Source of the published compressor efficiencies.
pub const PUBLISHED: Source = EFFICIENCY;

/// All ranges, in the order in which they are drawn.
pub const ALL: &[SizeRange] = &[
    DISPLACEMENT,
    DISPLACEMENT_R744,
    DISPLACEMENT_ELECTRIC,
    DISPLACEMENT_ELECTRIC_R744,
    MOTOR_SPEED,
    PULLEY,
    IDLE,
    VOLUMETRIC_EFFICIENCY,
    VOLUMETRIC_EFFICIENCY_FALL,
    WORK,
    CLEARANCE,
    SHELL_LOSS,
    FACE,
    FAN,
    FAN_LOW,
    FAN_FROM,
    FAN_FULL,
    FAN_FROM_R744,
    FAN_FULL_R744,
    RAM,
    RECIRCULATED,
    CONDENSER_UNITS,
    CONDENSER_RATIO,
    SINGLE_PHASE,
    SINGLE_PHASE_R744,
    PASS,
    BLOWER,
    EVAPORATOR_UNITS,
    EVAPORATOR_RATIO,
    REAR,
    REAR_DISPLACEMENT,
    RETURNED,
    BODY,
    CABIN_VOLUME,
    LEAKAGE,
    WINDOWS,
    PEOPLE,
    INTERIOR_CONDUCTANCE,
    INTERIOR_CAPACITY,
    TEXTILE_FLOW,
    TEXTILE_MASS,
    DUCT,
    EVENNESS,
    STATIC_SUPERHEAT,
    GRADIENT,
    VALVE_SIZE,
    BORE,
    LENGTH,
    HIGH_SIDE,
    EXCHANGER,
    EXCHANGER_R744,
    YIELDS,
    RECEIVER,
    RECEIVER_SHARE,
    ACCUMULATOR,
    ACCUMULATOR_SHARE,
    ACCUMULATOR_SHARE_R744,
    CONDENSER_VOLUME,
    CONDENSER_VOLUME_ORIFICE,
    EVAPORATOR_VOLUME,
    LIQUID_LINE,
    LIQUID_LINE_ORIFICE,
    SUCTION_DROP,
    DISCHARGE_DROP,
    SUCTION_GAIN,
    UNDERHOOD_RISE,
    RESERVE_RECEIVER,
    RESERVE_ORIFICE,
    RESERVE_R744,
    CHARGED,
    SWITCH_CUT_OUT,
    SWITCH_CUT_IN,
    THERMOSTAT,
    BELLOWS,
    BELLOWS_BAND,
    COMPENSATION,
    AIR_OFF,
    AIR_OFF_BAND,
    HIGH_LIMIT,
    HIGH_LIMIT_R744,
];
