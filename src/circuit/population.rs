//! The cars of one kind: sizes drawn evenly from published ranges.
//!
//! What cannot be seen from outside is drawn: sizes, flows, efficiencies, set points, volumes, charge. Large cars have large
//! parts all through: a size counts for six tenths of where a part lies in its range, chance for the rest (our choice).

use super::charge::mixed_density;
use super::compressor::{Compressor, EFFICIENCY};
use super::control::Control;
use super::exchanger::Exchanger;
use super::expansion::{self, Expansion, Upstream};
use super::fluid::Fluid;
use super::kind::{CircuitKind, CompressorKind, ExpansionKind};
use super::sizes::{Circuit, CondenserAir, Drive, EvaporatorAir, Lines, Storage};
use crate::helmholtz::State;
use crate::numeric::point;
use crate::{Error, GaugePressure, Mass, Quantity, Refrigerant, Source, Temperature, Trust};

/// From where to where a size is drawn, evenly.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Spread {
    /// What it is.
    pub what: &'static str,
    /// Lower end, in `unit`.
    pub low: f64,
    /// Upper end, in `unit`.
    pub high: f64,
    /// Unit; empty for a share.
    pub unit: &'static str,
    /// Where the range comes from.
    pub source: Source,
}

impl Spread {
    fn at(&self, x: f64) -> f64 {
        self.low + x * (self.high - self.low)
    }
}

const fn from_memory(what: &'static str, low: f64, high: f64, unit: &'static str) -> Spread {
    let source =
        Source { work: "range for passenger cars, common practice", locator: "", doi: None, trust: Trust::FromMemory };
    Spread { what, low, high, unit, source }
}

const fn read(
    what: &'static str,
    low: f64,
    high: f64,
    unit: &'static str,
    work: &'static str,
    locator: &'static str,
) -> Spread {
    Spread { what, low, high, unit, source: Source { work, locator, doi: None, trust: Trust::Excerpt } }
}

/// Every range.
pub mod ranges {
    use super::{EFFICIENCY, Spread, from_memory, read};

    /// Swept volume.
    pub const DISPLACEMENT: Spread = from_memory("displacement", 60.0, 215.0, "cm³");
    /// Swept volume, R-744.
    pub const DISPLACEMENT_R744: Spread = from_memory("displacement, R-744", 20.0, 34.0, "cm³");
    /// Swept volume, electric.
    pub const DISPLACEMENT_ELECTRIC: Spread = from_memory("displacement, electric", 27.0, 45.0, "cm³");
    /// Swept volume, electric, R-744.
    pub const DISPLACEMENT_ELECTRIC_R744: Spread = from_memory("displacement, electric, R-744", 4.5, 8.0, "cm³");
    /// Speed of an electric compressor at full cooling; the published span of speeds is 800 to 8500 1/min.
    pub const MOTOR_SPEED: Spread = from_memory("highest speed, electric", 4000.0, 8500.0, "1/min");
    /// Pulley ratio.
    pub const PULLEY: Spread = from_memory("compressor to engine speed", 1.1, 1.7, "");
    /// Idle.
    pub const IDLE: Spread = from_memory("idle speed", 650.0, 900.0, "1/min");
    /// η_v against the published compressor.
    pub const VOLUMETRIC_EFFICIENCY: Spread =
        from_memory("volumetric efficiency over the published compressor's", 0.93, 1.05, "");
    /// Fall of η_v with speed against the published compressor: printed shaft power against speed of a large car asks for none,
    /// that of a small car for the whole.
    pub const VOLUMETRIC_EFFICIENCY_FALL: Spread = read(
        "fall of the volumetric efficiency with speed over the published compressor's",
        0.0,
        1.0,
        "",
        "shaft power of a small and a large car, A. Brooker, NREL 2002",
        "1.16 and 0.73 as powers of speed, against 1.18 without and 0.83 with the fall",
    );
    /// η_s against the published compressor.
    pub const WORK: Spread = from_memory("isentropic efficiency over the published compressor's", 0.88, 1.08, "");
    /// Clearance.
    pub const CLEARANCE: Spread = from_memory("clearance volume", 0.02, 0.05, "");
    /// Loss through the shell.
    pub const SHELL_LOSS: Spread = from_memory("share of shaft power lost through the shell", 0.03, 0.15, "");
    /// Face of the condenser.
    pub const FACE: Spread = from_memory("condenser face", 0.18, 0.30, "m²");
    /// Fan.
    pub const FAN: Spread = from_memory("condenser face velocity with the fan on", 1.5, 3.0, "m/s");
    /// Fan, lowest stage.
    pub const FAN_LOW: Spread = from_memory("lowest stage of the fan over the highest", 0.3, 0.7, "");
    /// Fan, leaves the lowest stage.
    pub const FAN_FROM: Spread = read(
        "high side up to which the fan stays low",
        930.0,
        1250.0,
        "kPa gauge",
        "Honda Pilot 2014; Saab 9000 1994",
        "fan off at 930 and 1250",
    );
    /// Fan, reaches the highest stage.
    pub const FAN_FULL: Spread = read(
        "high side from which the fan is at its highest",
        1520.0,
        2010.0,
        "kPa gauge",
        "Honda Pilot 2014; Saab 9000 1994; a trinary switch",
        "fan on at 1520, 1650 and 2010",
    );
    /// Fan, R-744.
    pub const FAN_FROM_R744: Spread =
        from_memory("high side up to which the fan stays low, R-744", 6.5, 8.0, "MPa gauge");
    /// Fan, R-744.
    pub const FAN_FULL_R744: Spread =
        from_memory("high side from which the fan is at its highest, R-744", 9.0, 10.5, "MPa gauge");
    /// Ram air.
    pub const RAM: Spread = from_memory("face velocity over driving speed", 0.10, 0.22, "");
    /// Recirculation in front; gives the usual 2 to 12 K at idle.
    pub const RECIRCULATED: Spread = from_memory("share of condenser air drawn round again at idle", 0.20, 0.60, "");
    /// Transfer units of the condenser's air side at 2.5 m/s.
    pub const CONDENSER_UNITS: Spread = from_memory("condenser, air-side transfer units at 2.5 m/s", 0.8, 1.5, "");
    /// Refrigerant against air side.
    pub const CONDENSER_RATIO: Spread = from_memory("condenser, refrigerant over air-side conductance", 3.0, 6.0, "");
    /// One phase against two.
    pub const SINGLE_PHASE: Spread = from_memory("conductance of one phase over that of two", 0.15, 0.35, "");
    /// One phase against two, R-744, above its critical pressure.
    pub const SINGLE_PHASE_R744: Spread = from_memory("conductance of one phase over that of two, R-744", 0.5, 0.9, "");
    /// Subcooling pass.
    pub const PASS: Spread = from_memory("share of the condenser behind the receiver", 0.04, 0.18, "");
    /// Air through the evaporator.
    pub const BLOWER: Spread = from_memory("evaporator air flow at full blower", 300.0, 500.0, "m³/h");
    /// Transfer units of the evaporator's air side at full blower.
    pub const EVAPORATOR_UNITS: Spread =
        from_memory("evaporator, air-side transfer units at full blower", 1.6, 2.6, "");
    /// Refrigerant against air side.
    pub const EVAPORATOR_RATIO: Spread = from_memory("evaporator, refrigerant over air-side conductance", 4.0, 9.0, "");
    /// Front and rear evaporator together.
    pub const REAR: Spread = from_memory("air through both evaporators over that through the front one", 1.5, 2.0, "");
    /// Air that comes straight back.
    pub const RETURNED: Spread =
        from_memory("share of vent air back at the inlet, recirculation, doors open", 0.0, 0.4, "");
    /// Warming on the way to the vent.
    pub const DUCT: Spread = from_memory("warming from evaporator to vent", 0.5, 3.0, "K");
    /// Static superheat.
    pub const STATIC_SUPERHEAT: Spread = from_memory("static superheat", 3.0, 8.0, "K");
    /// Gradient.
    pub const GRADIENT: Spread = from_memory("further superheat to full opening", 3.0, 7.0, "K");
    /// Size of the valve.
    pub const VALVE_SIZE: Spread = from_memory("valve flow over compressor flow at 2500 1/min", 0.7, 1.3, "");
    /// Bore.
    pub const BORE: Spread = from_memory("orifice tube bore", 1.22, 1.83, "mm");
    /// Length.
    pub const LENGTH: Spread = from_memory("orifice tube length", 37.0, 40.0, "mm");
    /// Factor on the best pressure.
    pub const HIGH_SIDE: Spread = from_memory("R-744 high side held over the best one", 0.95, 1.10, "");
    /// Internal exchanger, R-1234yf and alike.
    pub const EXCHANGER: Spread = from_memory("internal exchanger effectiveness", 0.25, 0.50, "");
    /// Internal exchanger, R-744.
    pub const EXCHANGER_R744: Spread = from_memory("internal exchanger effectiveness, R-744", 0.40, 0.70, "");
    /// Receiver.
    pub const RECEIVER: Spread = from_memory("receiver volume", 0.20, 0.40, "L");
    /// Accumulator.
    pub const ACCUMULATOR: Spread = from_memory("accumulator volume", 0.50, 0.90, "L");
    /// Inside of the condenser.
    pub const CONDENSER_VOLUME: Spread = from_memory("condenser inner volume", 0.30, 0.60, "L");
    /// Inside of the evaporator.
    pub const EVAPORATOR_VOLUME: Spread = from_memory("evaporator inner volume", 0.30, 0.60, "L");
    /// Suction pressure drop, at 40 g/s and 15 kg/m³.
    pub const SUCTION_DROP: Spread = from_memory("suction pressure drop at 40 g/s and 15 kg/m³", 8.0, 35.0, "kPa");
    /// Discharge pressure drop, at 40 g/s and 70 kg/m³.
    pub const DISCHARGE_DROP: Spread =
        from_memory("discharge and condenser pressure drop at 40 g/s and 70 kg/m³", 30.0, 130.0, "kPa");
    /// Heat into the suction line.
    pub const SUCTION_GAIN: Spread = from_memory("conductance into the suction line", 0.5, 3.0, "W/K");
    /// Air around the engine.
    pub const UNDERHOOD_RISE: Spread = from_memory("air around the engine over ambient", 8.0, 30.0, "K");
    /// Level at the charge of the label.
    pub const LEVEL: Spread = from_memory("how full the store is with the charge of the label", 0.35, 0.70, "");
    /// Charge of a healthy car against its label.
    pub const CHARGED: Spread = from_memory("charge of a healthy car over its label", 0.94, 1.03, "");
    /// Clutch switch, opens.
    pub const SWITCH_CUT_OUT: Spread = read(
        "low-pressure switch opens",
        145.0,
        175.0,
        "kPa gauge",
        "makers' manuals 1994 to 2005",
        "four cars, 145 to 170; common practice 150 to 175",
    );
    /// Clutch switch, closes.
    pub const SWITCH_CUT_IN: Spread = read(
        "low-pressure switch closes",
        290.0,
        325.0,
        "kPa gauge",
        "makers' manuals 1994 to 2005",
        "296 and 324; common practice 290 to 325",
    );
    /// Thermostat.
    pub const THERMOSTAT: Spread = read(
        "evaporator thermostat opens",
        0.0,
        3.0,
        "°C",
        "VW Golf 1996, clutch control",
        "off at 0 °C; upper end from memory",
    );
    /// Bellows.
    pub const BELLOWS: Spread = read(
        "suction pressure held by internal control",
        100.0,
        240.0,
        "kPa gauge at sea level",
        "Audi A1 workshop manual, refrigerant circuit with expansion valve",
        "about 100; upper end common practice, 190 to 240, from memory",
    );
    /// Band of the bellows.
    pub const BELLOWS_BAND: Spread = from_memory("from least to full stroke", 15.0, 50.0, "kPa");
    /// Discharge pressure on the bellows.
    pub const COMPENSATION: Spread = from_memory("fall of the set point with the discharge pressure", 0.0, 0.03, "");
    /// Air off the evaporator.
    pub const AIR_OFF: Spread = read(
        "air off the evaporator, external control",
        3.0,
        5.0,
        "°C",
        "Ford Expedition MAX 2018; MINI Cooper 2003",
        "3 to 5 °C in manual mode; 3 to 4 °C",
    );
    /// Band of external control.
    pub const AIR_OFF_BAND: Spread = from_memory("from least to full delivery, external control", 1.5, 4.0, "K");
    /// High-pressure cut-out.
    pub const HIGH_LIMIT: Spread = read(
        "high-pressure cut-out",
        2827.0,
        3140.0,
        "kPa gauge",
        "GMC Savana 2000; Honda Pilot 2014",
        "2827 to 3103; 3140",
    );
    /// High-pressure cut-out, R-744.
    pub const HIGH_LIMIT_R744: Spread = from_memory("high-pressure limit, R-744", 12.5, 13.5, "MPa absolute");
    /// The published efficiencies.
    pub const PUBLISHED: crate::Source = EFFICIENCY;

    /// All of them, in the order of the draw.
    pub const ALL: &[Spread] = &[
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
        RETURNED,
        DUCT,
        STATIC_SUPERHEAT,
        GRADIENT,
        VALVE_SIZE,
        BORE,
        LENGTH,
        HIGH_SIDE,
        EXCHANGER,
        EXCHANGER_R744,
        RECEIVER,
        ACCUMULATOR,
        CONDENSER_VOLUME,
        EVAPORATOR_VOLUME,
        SUCTION_DROP,
        DISCHARGE_DROP,
        SUCTION_GAIN,
        UNDERHOOD_RISE,
        LEVEL,
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
}

/// The cars of one kind, each the same every time it is asked for.
///
/// ```
/// use satline::Refrigerant;
/// use satline::circuit::{Population, CircuitKind};
/// let kind = CircuitKind::main(Refrigerant::R134a)[0];
/// let cars = Population::new(kind)?;
/// assert_eq!(cars.car(7), Population::new(kind)?.car(7));
/// let grams: Vec<f64> = (0..256).map(|i| cars.car(i).charge.g()).collect();
/// assert!(grams.iter().all(|g| (250.0..1100.0).contains(g)));
/// # Ok::<(), satline::Error>(())
/// ```
#[derive(Debug, Clone, Copy)]
pub struct Population {
    kind: CircuitKind,
    fluid: Fluid,
    seed: u64,
    /// Vapour density of the refrigerant over that of R-134a, both saturated at 0 °C.
    density_ratio: f64,
    /// Heat transfer of the refrigerant over that of R-134a at the same flow.
    heat_transfer: f64,
}

impl Population {
    /// The cars that windows are made of.
    ///
    /// # Errors
    /// [`Error::NotModelled`] for a blend.
    pub fn new(kind: CircuitKind) -> Result<Self, Error> {
        Self::with_seed(kind, 0)
    }

    /// Other cars of the same kind.
    ///
    /// # Errors
    /// As [`Population::new`].
    pub fn with_seed(kind: CircuitKind, seed: u64) -> Result<Self, Error> {
        let fluid = Fluid::new(kind.refrigerant)?;
        let vapour = |fluid: &Fluid| Some(fluid.boiling(fluid.pressure(273.15)?)?.rho_v);
        let density = vapour(&fluid).zip(vapour(&Fluid::new(Refrigerant::R134a)?));
        Ok(Self {
            kind,
            fluid,
            seed,
            // machines for R-744 are built for its density, and a printed comparison asks for no more than the loss as it is
            density_ratio: density
                .filter(|_| kind.refrigerant != Refrigerant::R744)
                .map_or(1.0, |(own, of_r134a)| own / of_r134a),
            heat_transfer: heat_transfer(kind.refrigerant)
                .zip(heat_transfer(Refrigerant::R134a))
                .map_or(1.0, |(a, b)| a / b),
        })
    }

    /// The kind of all these cars.
    pub fn kind(&self) -> CircuitKind {
        self.kind
    }

    /// Circuit `index`.
    pub fn car(&self, index: u64) -> Circuit {
        self.build(&point(self.seed, index))
    }

    fn build(&self, x: &[f64; DIMENSIONS]) -> Circuit {
        use ranges as r;
        let kind = self.kind;
        let carbon_dioxide = kind.refrigerant == Refrigerant::R744;
        let electric = kind.compressor == CompressorKind::Electric;
        let mut next = {
            let mut i = 0;
            move || {
                i += 1;
                x[i - 1]
            }
        };
        let size = next();
        // draws are taken in the same order for every kind, so that kinds differ only in what tells them apart
        macro_rules! own {
            ($spread:expr) => {
                $spread.at(next())
            };
        }
        macro_rules! sized {
            ($spread:expr) => {
                $spread.at(0.6 * size + 0.4 * next())
            };
        }
        let displacement = match (electric, carbon_dioxide) {
            (false, false) => r::DISPLACEMENT,
            (false, true) => r::DISPLACEMENT_R744,
            (true, false) => r::DISPLACEMENT_ELECTRIC,
            (true, true) => r::DISPLACEMENT_ELECTRIC_R744,
        };
        let displacement_m3 = 1e-6 * sized!(displacement);
        let (pulley, idle, motor) = (own!(r::PULLEY), own!(r::IDLE), own!(r::MOTOR_SPEED));
        let drive =
            if electric { Drive::Motor { max_rpm: motor } } else { Drive::Belt { ratio: pulley, idle_rpm: idle } };
        let (volumetric_efficiency, fall, work) =
            (own!(r::VOLUMETRIC_EFFICIENCY), own!(r::VOLUMETRIC_EFFICIENCY_FALL), own!(r::WORK));
        let compressor = Compressor {
            displacement_m3,
            volumetric_efficiency: PUBLISHED_VOLUMETRIC_EFFICIENCY.0 * volumetric_efficiency,
            // a motor-driven scroll does not lose filling with speed as a piston does
            volumetric_efficiency_loss_min: if electric {
                0.0
            } else {
                PUBLISHED_VOLUMETRIC_EFFICIENCY.1 * volumetric_efficiency * fall
            },
            clearance: own!(r::CLEARANCE),
            efficiency: PUBLISHED_EFFICIENCY.0 * work,
            efficiency_loss_min: if electric { 0.0 } else { PUBLISHED_EFFICIENCY.1 * work },
            // fitted to R-134a; of another refrigerant in such a machine the same share at the same temperature
            efficiency_loss_kg_per_m3: PUBLISHED_EFFICIENCY.2 * work * self.density_ratio,
            shell_loss: own!(r::SHELL_LOSS),
        };

        let face = sized!(r::FACE);
        let (from, full) = (next(), next());
        let (fan_from, fan_full) = if carbon_dioxide {
            (r::FAN_FROM_R744.at(from) * 1e3, r::FAN_FULL_R744.at(full) * 1e3)
        } else {
            (r::FAN_FROM.at(from), r::FAN_FULL.at(full))
        };
        let (fan_from, fan_full) = (GaugePressure::from_kpa(fan_from), GaugePressure::from_kpa(fan_full));
        let condenser_air = CondenserAir {
            face_m2: face,
            fan_m_per_s: own!(r::FAN),
            fan_low: own!(r::FAN_LOW),
            fan_from,
            fan_full,
            ram_share: own!(r::RAM),
            recirculated: own!(r::RECIRCULATED),
            air_on_rise_k: 0.0,
            airflow_fraction: 1.0,
        };
        let single_phase = own!(if carbon_dioxide { r::SINGLE_PHASE_R744 } else { r::SINGLE_PHASE });
        let condenser_rated_air = face * RATED_FACE_VELOCITY * RATED_AIR_DENSITY;
        let condenser_ua = own!(r::CONDENSER_UNITS) * condenser_rated_air * 1006.0;
        let condenser = Exchanger {
            air_w_per_k: condenser_ua,
            air_kg_per_s: condenser_rated_air,
            refrigerant_w_per_k: own!(r::CONDENSER_RATIO) * condenser_ua * self.heat_transfer,
            flow_kg_per_s: RATED_FLOW * (face / 0.24) * if carbon_dioxide { 0.8 } else { 1.0 },
            single_phase,
            volume_m3: 1e-3 * sized!(r::CONDENSER_VOLUME) * if carbon_dioxide { 0.5 } else { 1.0 },
        };
        let subcooling_pass = own!(r::PASS);

        let rear = own!(r::REAR);
        let evaporators = if kind.rear_evaporator { rear } else { 1.0 };
        let blower = evaporators * sized!(r::BLOWER) / 3600.0;
        let evaporator_air = EvaporatorAir {
            blower_m3_per_s: blower,
            returned: own!(r::RETURNED),
            duct_k: own!(r::DUCT),
            airflow_fraction: 1.0,
        };
        let evaporator_rated_air = blower * RATED_AIR_DENSITY;
        let evaporator_ua = own!(r::EVAPORATOR_UNITS) * evaporator_rated_air * 1006.0;
        let evaporator = Exchanger {
            air_w_per_k: evaporator_ua,
            air_kg_per_s: evaporator_rated_air,
            refrigerant_w_per_k: own!(r::EVAPORATOR_RATIO) * evaporator_ua * self.heat_transfer,
            flow_kg_per_s: RATED_FLOW * (blower * 3600.0 / 400.0) * if carbon_dioxide { 0.8 } else { 1.0 },
            single_phase,
            volume_m3: 1e-3 * evaporators * sized!(r::EVAPORATOR_VOLUME) * if carbon_dioxide { 0.5 } else { 1.0 },
        };

        let (static_superheat_k, gradient_k) = (own!(r::STATIC_SUPERHEAT), own!(r::GRADIENT));
        let (valve_size, bore, length) = (own!(r::VALVE_SIZE), sized!(r::BORE), own!(r::LENGTH));
        let high_side = own!(r::HIGH_SIDE);
        let valve_area = evaporators * valve_size * self.rated_area(&compressor, electric.then_some(motor));
        let expansion = match kind.expansion {
            _ if carbon_dioxide => Expansion::HighSide { factor: high_side },
            ExpansionKind::OrificeTube => Expansion::Orifice { bore_m: 1e-3 * bore, length_m: 1e-3 * length },
            ExpansionKind::ThermostaticValve => {
                Expansion::Valve { area_m2: valve_area, static_superheat_k, gradient_k }
            }
            // a motor holds the superheat within a kelvin
            ExpansionKind::ElectronicValve => {
                Expansion::Valve { area_m2: valve_area, static_superheat_k, gradient_k: 1.0 }
            }
        };
        let exchanger = own!(if carbon_dioxide { r::EXCHANGER_R744 } else { r::EXCHANGER });

        let (receiver, accumulator) = (sized!(r::RECEIVER), sized!(r::ACCUMULATOR));
        let storage = if carbon_dioxide || kind.expansion == ExpansionKind::OrificeTube {
            Storage::Accumulator { volume_m3: 1e-3 * accumulator * if carbon_dioxide { 0.5 } else { 1.0 } }
        } else {
            Storage::Receiver { volume_m3: 1e-3 * receiver }
        };
        // Δp = k ṁ²/ρ at the rated flow, which grows with the car
        let rated = 0.04 * (0.7 + 0.6 * size);
        let lines = Lines {
            suction_drop: 1e3 * own!(r::SUCTION_DROP) * 15.0 / (rated * rated),
            discharge_drop: 1e3 * own!(r::DISCHARGE_DROP) * 70.0 / (rated * rated),
            receiver_drop: 0.0,
            suction_gain_w_per_k: own!(r::SUCTION_GAIN),
            underhood_rise_k: own!(r::UNDERHOOD_RISE),
            low_port: next(),
            high_port: next(),
            liquid_m3: LIQUID_LINE * if carbon_dioxide { 0.5 } else { 1.0 },
            suction_m3: SUCTION_LINE * if carbon_dioxide { 0.3 } else { 1.0 },
            discharge_m3: DISCHARGE_LINE * if carbon_dioxide { 0.3 } else { 1.0 },
        };

        let (cut_out, cut_in) = (own!(r::SWITCH_CUT_OUT), own!(r::SWITCH_CUT_IN));
        let thermostat = 273.15 + own!(r::THERMOSTAT);
        let (bellows, bellows_band, compensation) = (own!(r::BELLOWS), own!(r::BELLOWS_BAND), own!(r::COMPENSATION));
        let (air_off, air_off_band) = (own!(r::AIR_OFF), own!(r::AIR_OFF_BAND));
        let control = match (kind.compressor, kind.expansion) {
            (CompressorKind::Cycling, ExpansionKind::OrificeTube) => Control::LowPressureSwitch {
                cut_out: GaugePressure::from_kpa(cut_out),
                cut_in: GaugePressure::from_kpa(cut_in),
            },
            (CompressorKind::Cycling, _) => Control::Thermostat { cut_out_k: thermostat, cut_in_k: thermostat + 3.0 },
            (CompressorKind::Internal, _) => Control::SuctionPressure {
                set_pa: 1e3 * bellows + 101_325.0,
                band_pa: 1e3 * bellows_band,
                compensation,
            },
            (CompressorKind::External | CompressorKind::Electric, _) => {
                Control::AirOff { set_k: 273.15 + air_off, band_k: air_off_band }
            }
        };
        let limit = next();
        let (level, charged) = (own!(r::LEVEL), own!(r::CHARGED));
        let mut car = Circuit {
            refrigerant: kind.refrigerant,
            compressor,
            drive,
            control,
            high_limit_pa: if carbon_dioxide {
                1e6 * r::HIGH_LIMIT_R744.at(limit)
            } else {
                1e3 * r::HIGH_LIMIT.at(limit) + 101_325.0
            },
            condenser,
            condenser_air,
            subcooling_pass: if matches!(storage, Storage::Receiver { .. }) { subcooling_pass } else { 0.0 },
            evaporator,
            evaporator_air,
            expansion,
            internal_exchanger: if kind.internal_exchanger { exchanger } else { 0.0 },
            storage,
            lines,
            nominal_charge: Mass::from_kg(0.0),
            charge: Mass::from_kg(0.0),
            non_condensables: Mass::from_kg(0.0),
        };
        car.nominal_charge = self.nominal_charge(&car, level);
        car.charge = car.nominal_charge * charged;
        car
    }

    /// Flow area of a valve that passes what the compressor pumps at 2500 1/min, evaporating at 3 and condensing at 50 °C, with
    /// 5 K of subcooling.
    fn rated_area(&self, compressor: &Compressor, motor: Option<f64>) -> f64 {
        let (Some(low), Some(high), Some(liquid)) = (self.rated(3.0), self.rated(50.0), self.rated(45.0)) else {
            return 0.0;
        };
        let flow = 0.7 * compressor.displacement_m3 * motor.unwrap_or(2500.0) / 60.0 * low.rho_v;
        let upstream = Upstream {
            p: high.p,
            saturated_p: liquid.p,
            limit_p: liquid.p,
            subcooling: 5.0,
            quality: 0.0,
            rho_l: high.rho_l,
            rho_v: high.rho_v,
            critical_pa: self.fluid.critical_pa,
            critical_k: self.fluid.critical_k,
        };
        flow / expansion::through_opening(&upstream, low.p)
    }

    fn rated(&self, celsius: f64) -> Option<super::fluid::Boiling> {
        self.fluid.boiling(self.fluid.pressure(273.15 + celsius)?)
    }

    /// The charge of the label: what the volumes hold on a usual day with the store filled to `level`.
    ///
    /// Evaporating at 3 °C, condensing at 50 °C, 15 % of the condenser gas, a tenth of the evaporator dry; of R-744 the
    /// high side at 600 kg/m³ and 300 kg/m³, liquid line and gas cooler.
    fn nominal_charge(&self, car: &Circuit, level: f64) -> Mass {
        let (Some(low), high) = (self.rated(3.0), self.rated(50.0)) else { return Mass::from_kg(0.0) };
        let evaporator = 0.9 * mixed_density(&low, 0.3, 1.0) + 0.1 * low.rho_v;
        let (condenser, liquid, gas) = match &high {
            Some(both) => {
                let liquid = match car.storage {
                    Storage::Receiver { .. } => car.subcooling_pass,
                    Storage::Accumulator { .. } => 0.08,
                };
                let density = 0.15 * both.rho_v + (0.85 - liquid) * mixed_density(both, 0.0, 1.0) + liquid * both.rho_l;
                (density, both.rho_l, both.rho_v)
            }
            None => (300.0, 600.0, 200.0),
        };
        let store = match car.storage {
            Storage::Receiver { volume_m3 } => volume_m3 * (level * liquid + (1.0 - level) * gas),
            Storage::Accumulator { volume_m3 } => volume_m3 * (level * low.rho_l + (1.0 - level) * low.rho_v),
        };
        let lines = &car.lines;
        Mass::from_kg(
            store
                + car.condenser.volume_m3 * condenser
                + car.evaporator.volume_m3 * evaporator
                + lines.liquid_m3 * liquid
                + lines.suction_m3 * low.rho_v
                + lines.discharge_m3 * gas,
        )
    }
}

/// k^0.6 (cp/μ)^0.4 of saturated liquid at 0.85 of the critical temperature: what Dittus & Boelter's equation makes of the
/// refrigerant at a given flow in a given tube. None where transport properties are not known; then it counts as R-134a.
fn heat_transfer(refrigerant: Refrigerant) -> Option<f64> {
    let critical = refrigerant.fluid().critical.value.temperature;
    let t = Temperature::from_kelvin(0.85 * critical.kelvin());
    let (liquid, _) = refrigerant.saturated_at_temperature(t).ok()?;
    let state = State::at(&refrigerant.fluid().equation, t, liquid.density);
    let conductivity = refrigerant.thermal_conductivity(&state).ok()?.w_per_m_k();
    let viscosity = refrigerant.viscosity(t, liquid.density).ok()?.pa_s();
    Some(conductivity.powf(0.6) * (state.isobaric_heat_capacity().si() / viscosity).powf(0.4))
}

impl Circuit {
    /// The car in the middle of every range.
    ///
    /// # Errors
    /// [`Error::NotModelled`] for a blend.
    pub fn typical(kind: CircuitKind) -> Result<Self, Error> {
        Ok(Population::new(kind)?.build(&[0.5; DIMENSIONS]))
    }
}

/// a and b of the published volumetric efficiency ([`EFFICIENCY`]).
const PUBLISHED_VOLUMETRIC_EFFICIENCY: (f64, f64) = (0.8889, 1.0025e-4);
/// c, d and e of the published isentropic efficiency; e printed for densities in lb/ft³.
const PUBLISHED_EFFICIENCY: (f64, f64, f64) = (0.8405, 4.8711e-5, 0.1105 * 16.018_463_4);
/// How many numbers a car is drawn from.
const DIMENSIONS: usize = 64;
/// Velocity at which the condenser's transfer units are stated, m/s; our choice.
const RATED_FACE_VELOCITY: f64 = 2.5;
/// Air at 25 °C and the standard atmosphere, kg/m³ (ideal gas).
const RATED_AIR_DENSITY: f64 = 1.18;
/// Refrigerant flow at which conductances are stated, kg/s; our choice.
const RATED_FLOW: f64 = 0.04;
/// Two metres of 7 mm, of 15 mm and one of 11 mm inner diameter, m³; from memory.
const LIQUID_LINE: f64 = 7.7e-5;
const SUCTION_LINE: f64 = 3.5e-4;
const DISCHARGE_LINE: f64 = 9.5e-5;
