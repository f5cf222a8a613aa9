//! Population of circuits of one kind: sizes drawn evenly from the ranges of `circuit::ranges`.
//!
//! What cannot be seen from outside is drawn: sizes, flows, efficiencies, set points, volumes, charge. Large circuits
//! have large parts throughout: the size of the circuit determines six tenths of where a part lies in its range, chance
//! the rest (our choice).

use super::compressor::Compressor;
use super::control::Control;
use super::draw::{DIMENSIONS, Draw, Draws};
use super::exchanger::Exchanger;
use super::expansion::{self, Expansion, Upstream};
use super::fluid::{Fluid, SaturatedPair};
use super::kind::{CircuitKind, CompressorKind, ExpansionKind};
use super::nominal_charge::{Reserve, nominal_charge};
use super::ranges::{self, SizeRange};
use super::refrigerant_sizes::{RefrigerantSizes, STANDARD_ATMOSPHERE_PA};
use super::sizes::{Circuit, CompressorDrive, CondenserAir, EvaporatorAir, Pipes, Storage};
use crate::air::formulas::FREEZING_K;
use crate::helmholtz::State;
use crate::numeric::point;
use crate::{Error, GaugePressure, Mass, Quantity, Refrigerant, Temperature};

/// Population of circuits of one kind; the circuit of an index is the same every time.
///
/// ```
/// use satline::Refrigerant;
/// use satline::circuit::{Population, CircuitKind};
/// let kind = CircuitKind::main(Refrigerant::R134a)[0];
/// let population = Population::new(kind)?;
/// assert_eq!(population.circuit(7), Population::new(kind)?.circuit(7));
/// let grams: Vec<f64> = (0..256).map(|i| population.circuit(i).charge.g()).collect();
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
    /// Sizes that depend on the refrigerant.
    sizes: &'static RefrigerantSizes,
    /// Heat transfer of the refrigerant over that of R-134a at the same flow.
    heat_transfer: f64,
    /// Bore of an orifice tube over that for R-134a in the same circuit.
    bore: f64,
}

impl Population {
    /// Population of circuits from which expected ranges are computed.
    ///
    /// # Errors
    /// [`Error::NotModelled`] for a blend.
    pub fn new(kind: CircuitKind) -> Result<Self, Error> {
        Self::with_seed(kind, 0)
    }

    /// Population of other circuits of the same kind, drawn with `seed`.
    ///
    /// # Errors
    /// As [`Population::new`].
    pub fn with_seed(kind: CircuitKind, seed: u64) -> Result<Self, Error> {
        let fluid = Fluid::new(kind.refrigerant)?;
        let vapour = |fluid: &Fluid| Some(fluid.saturated(fluid.saturation_pressure(FREEZING_K)?)?.rho_v);
        let density = vapour(&fluid).zip(vapour(&Fluid::new(Refrigerant::R134a)?));
        Ok(Self {
            kind,
            fluid,
            seed,
            sizes: RefrigerantSizes::of(kind.refrigerant),
            density_ratio: density
                .filter(|_| !RefrigerantSizes::of(kind.refrigerant).built_for_density)
                .map_or(1.0, |(own, of_r134a)| own / of_r134a),
            heat_transfer: heat_transfer(kind.refrigerant)
                .zip(heat_transfer(Refrigerant::R134a))
                .map_or(1.0, |(a, b)| a / b),
            bore: area_for_flow(&fluid)
                .zip(area_for_flow(&Fluid::new(Refrigerant::R134a)?))
                .map_or(1.0, |(a, b)| (a / b).sqrt()),
        })
    }

    /// Kind of all circuits of this population.
    pub fn kind(&self) -> CircuitKind {
        self.kind
    }

    /// Circuit number `index` of the population.
    pub fn circuit(&self, index: u64) -> Circuit {
        self.build(&self.draws(point(self.seed, index)))
    }

    /// The ladders by which ranges were calibrated are of refrigerants that condense: circuits of R-744 keep the prior ranges.
    fn draws(&self, unit: [f64; DIMENSIONS]) -> Draws<'static> {
        Draws { unit, size: if self.sizes.high_side_valve { &SizeRange::prior_at } else { &SizeRange::at } }
    }

    /// Circuit number `index`, with `size` in place of [`SizeRange::at`]: it is asked for each size, with the range of the size and
    /// the fraction of the range that was drawn. For the calibration of the ranges; may change in any version.
    #[doc(hidden)]
    pub fn circuit_sized_by(&self, index: u64, size: &dyn Fn(&SizeRange, f64) -> f64) -> Circuit {
        self.build(&Draws { unit: point(self.seed, index), size })
    }

    /// The circuit that `draws` describe.
    fn build(&self, draws: &Draws) -> Circuit {
        let (compressor, drive) = self.compressor(draws);
        let condenser_air = self.condenser_air(draws);
        let condenser = self.condenser(draws, &condenser_air);
        let evaporator_air = self.evaporator_air(draws);
        let evaporator = self.evaporator(draws, &evaporator_air);
        let storage = self.storage(draws);
        let mut circuit = Circuit {
            refrigerant: self.kind.refrigerant,
            compressor,
            drive,
            control: self.control(draws),
            high_limit_pa: self.sizes.high_limit_offset_pa
                + self.sizes.high_limit_pa_per_unit * draws.own(Draw::HighLimit, &self.sizes.high_limit),
            condenser,
            condenser_air,
            subcooling_pass: match storage {
                Storage::Receiver { .. } => draws.own(Draw::SubcoolingPass, &ranges::PASS),
                Storage::Accumulator { .. } => 0.0,
            },
            evaporator,
            evaporator_air,
            expansion: self.expansion(draws, &compressor),
            internal_exchanger: if self.kind.internal_exchanger {
                draws.own(Draw::InternalExchanger, &self.sizes.internal_exchanger)
            } else {
                0.0
            },
            storage,
            lines: self.pipes(draws),
            nominal_charge: Mass::from_kg(0.0),
            charge: Mass::from_kg(0.0),
            non_condensables: Mass::from_kg(0.0),
        };
        circuit.nominal_charge = nominal_charge(&circuit, self.reserve(draws));
        circuit.charge = circuit.nominal_charge * draws.own(Draw::Charged, &ranges::CHARGED);
        circuit
    }

    fn is_electric(&self) -> bool {
        self.kind.compressor == CompressorKind::Electric
    }

    fn compressor(&self, draws: &Draws) -> (Compressor, CompressorDrive) {
        use ranges as r;
        let electric = self.is_electric();
        let displacement = if electric { &self.sizes.displacement_electric } else { &self.sizes.displacement_belt };
        let drive = if electric {
            CompressorDrive::Motor { max_rpm: draws.own(Draw::MotorSpeed, &r::MOTOR_SPEED) }
        } else {
            CompressorDrive::Belt {
                ratio: draws.own(Draw::Pulley, &r::PULLEY),
                idle_rpm: draws.own(Draw::Idle, &r::IDLE),
            }
        };
        let volumetric_efficiency = draws.own(Draw::VolumetricEfficiency, &r::VOLUMETRIC_EFFICIENCY);
        let fall = draws.own(Draw::VolumetricEfficiencyFall, &r::VOLUMETRIC_EFFICIENCY_FALL);
        let work = draws.own(Draw::Work, &r::WORK);
        let compressor = Compressor {
            displacement_m3: 1e-6 * self.rear_displacement(draws) * draws.sized(Draw::Displacement, displacement),
            volumetric_efficiency: PUBLISHED_VOLUMETRIC_EFFICIENCY.0 * volumetric_efficiency,
            // a motor-driven scroll does not lose volumetric efficiency with speed as a piston does
            volumetric_efficiency_loss_min: if electric {
                0.0
            } else {
                PUBLISHED_VOLUMETRIC_EFFICIENCY.1 * volumetric_efficiency * fall
            },
            clearance: draws.own(Draw::Clearance, &r::CLEARANCE),
            efficiency: PUBLISHED_EFFICIENCY.0 * work,
            efficiency_loss_min: if electric { 0.0 } else { PUBLISHED_EFFICIENCY.1 * work },
            // fitted to R-134a; of another refrigerant in such a machine the same share at the same temperature
            efficiency_loss_kg_per_m3: PUBLISHED_EFFICIENCY.2 * work * self.density_ratio,
            shell_loss: draws.own(Draw::ShellLoss, &r::SHELL_LOSS),
        };
        (compressor, drive)
    }

    fn condenser_air(&self, draws: &Draws) -> CondenserAir {
        use ranges as r;
        let sizes = self.sizes;
        let gauge = |draw, range: &SizeRange| GaugePressure::from_kpa(draws.own(draw, range) * sizes.fan_kpa_per_unit);
        CondenserAir {
            face_m2: draws.sized(Draw::Face, &r::FACE),
            fan_m_per_s: draws.own(Draw::Fan, &r::FAN),
            fan_low: draws.own(Draw::FanLow, &r::FAN_LOW),
            fan_from: gauge(Draw::FanFrom, &sizes.fan_from),
            fan_full: gauge(Draw::FanFull, &sizes.fan_full),
            ram_share: draws.own(Draw::Ram, &r::RAM),
            recirculated: draws.own(Draw::Recirculated, &r::RECIRCULATED),
            air_on_rise_k: 0.0,
            airflow_fraction: 1.0,
        }
    }

    fn condenser(&self, draws: &Draws, air: &CondenserAir) -> Exchanger {
        use ranges as r;
        let rated_air = air.face_m2 * RATED_FACE_VELOCITY * RATED_AIR_DENSITY;
        let volume = if self.has_orifice() { &r::CONDENSER_VOLUME_ORIFICE } else { &r::CONDENSER_VOLUME };
        let air_side = draws.own(Draw::CondenserUnits, &r::CONDENSER_UNITS) * rated_air * RATED_AIR_CP;
        Exchanger {
            air_w_per_k: air_side,
            air_kg_per_s: rated_air,
            refrigerant_w_per_k: draws.own(Draw::CondenserRatio, &r::CONDENSER_RATIO) * air_side * self.heat_transfer,
            flow_kg_per_s: RATED_FLOW * (air.face_m2 / RATED_FACE_M2) * self.sizes.flow,
            single_phase: draws.own(Draw::SinglePhase, &self.sizes.single_phase),
            volume_m3: 1e-3 * draws.sized(Draw::CondenserVolume, volume) * self.sizes.volume,
        }
    }

    /// Factor of a circuit with a rear evaporator over one without, which has one.
    fn with_rear(&self, draws: &Draws, draw: Draw, range: &SizeRange) -> f64 {
        if self.kind.rear_evaporator { draws.own(draw, range) } else { 1.0 }
    }

    /// Air through both evaporators over that through the front one.
    fn evaporators(&self, draws: &Draws) -> f64 {
        self.with_rear(draws, Draw::Rear, &ranges::REAR)
    }

    /// Displacement over that of a circuit without a rear evaporator.
    fn rear_displacement(&self, draws: &Draws) -> f64 {
        self.with_rear(draws, Draw::RearDisplacement, &ranges::REAR_DISPLACEMENT)
    }

    fn evaporator_air(&self, draws: &Draws) -> EvaporatorAir {
        use ranges as r;
        // a cabin with a rear evaporator is as much longer as it has more air, and has more surface by the power of two thirds;
        // our choice
        let longer = self.evaporators(draws);
        let volume_m3 = longer * draws.sized(Draw::CabinVolume, &r::CABIN_VOLUME);
        EvaporatorAir {
            blower_m3_per_s: self.evaporators(draws) * draws.sized(Draw::Blower, &r::BLOWER) / 3600.0,
            returned: draws.own(Draw::Returned, &r::RETURNED),
            body_w_per_k: longer.powf(SURFACE_WITH_VOLUME) * draws.sized(Draw::Body, &r::BODY),
            leakage_m3_per_s: volume_m3 * draws.own(Draw::Leakage, &r::LEAKAGE) / 3600.0,
            window_m3_per_s: draws.own(Draw::Windows, &r::WINDOWS) / 3600.0,
            people: draws.own(Draw::People, &r::PEOPLE),
            interior_w_per_k: longer * draws.sized(Draw::InteriorConductance, &r::INTERIOR_CONDUCTANCE),
            interior_j_per_k: 1e3 * longer * draws.sized(Draw::InteriorCapacity, &r::INTERIOR_CAPACITY),
            textile_kg_per_s: 1e-3 * longer * draws.sized(Draw::TextileFlow, &r::TEXTILE_FLOW),
            textile_kg: longer * draws.own(Draw::TextileMass, &r::TEXTILE_MASS),
            duct_k: draws.own(Draw::Duct, &r::DUCT),
            airflow_fraction: 1.0,
        }
    }

    fn evaporator(&self, draws: &Draws, air: &EvaporatorAir) -> Exchanger {
        use ranges as r;
        let rated_air = air.blower_m3_per_s * RATED_AIR_DENSITY;
        let air_side = draws.own(Draw::EvaporatorUnits, &r::EVAPORATOR_UNITS) * rated_air * RATED_AIR_CP;
        let volume = draws.sized(Draw::EvaporatorVolume, &r::EVAPORATOR_VOLUME);
        Exchanger {
            air_w_per_k: air_side,
            air_kg_per_s: rated_air,
            refrigerant_w_per_k: draws.own(Draw::EvaporatorRatio, &r::EVAPORATOR_RATIO) * air_side * self.heat_transfer,
            flow_kg_per_s: RATED_FLOW * (air.blower_m3_per_s * 3600.0 / RATED_BLOWER_M3_PER_H) * self.sizes.flow,
            single_phase: draws.own(Draw::SinglePhase, &self.sizes.single_phase),
            volume_m3: 1e-3 * self.evaporators(draws) * volume * self.sizes.volume,
        }
    }

    fn expansion(&self, draws: &Draws, compressor: &Compressor) -> Expansion {
        use ranges as r;
        if self.sizes.high_side_valve {
            return Expansion::HighSide {
                factor: draws.own(Draw::HighSidePressure, &r::HIGH_SIDE),
                yields_k: draws.own(Draw::Yields, &r::YIELDS),
            };
        }
        let valve = |gradient_k| Expansion::Valve {
            // as much larger as the evaporators, whatever compressor they are given
            area_m2: self.evaporators(draws)
                * draws.own(Draw::ValveSize, &r::VALVE_SIZE)
                * self.rated_area(compressor, self.valve_rating_rpm(draws))
                / self.rear_displacement(draws),
            static_superheat_k: draws.own(Draw::StaticSuperheat, &r::STATIC_SUPERHEAT),
            gradient_k,
        };
        match self.kind.expansion {
            ExpansionKind::OrificeTube => Expansion::Orifice {
                // the tube and the valve beside it are cut for the flow
                bore_m: 1e-3 * self.bore * self.rear_displacement(draws).sqrt() * draws.sized(Draw::Bore, &r::BORE),
                length_m: 1e-3 * draws.own(Draw::Length, &r::LENGTH),
            },
            ExpansionKind::ThermostaticValve => valve(draws.own(Draw::Gradient, &r::GRADIENT)),
            ExpansionKind::ElectronicValve => valve(ELECTRONIC_GRADIENT_K),
        }
    }

    /// Compressor speed at which a valve is rated, rpm.
    fn valve_rating_rpm(&self, draws: &Draws) -> f64 {
        if self.is_electric() { draws.own(Draw::MotorSpeed, &ranges::MOTOR_SPEED) } else { BELT_RATING_RPM }
    }

    fn storage(&self, draws: &Draws) -> Storage {
        use ranges as r;
        if self.sizes.high_side_valve || self.kind.expansion == ExpansionKind::OrificeTube {
            let volume_m3 = 1e-3 * draws.sized(Draw::Accumulator, &r::ACCUMULATOR) * self.sizes.volume;
            Storage::Accumulator {
                volume_m3,
                liquid_m3: volume_m3 * draws.own(Draw::StoreShare, &self.sizes.accumulator_share),
            }
        } else {
            let volume_m3 = 1e-3 * draws.sized(Draw::Receiver, &r::RECEIVER);
            Storage::Receiver { volume_m3, liquid_m3: volume_m3 * draws.own(Draw::StoreShare, &r::RECEIVER_SHARE) }
        }
    }

    /// The reserve that makers leave in the store.
    fn reserve(&self, draws: &Draws) -> Reserve {
        if self.sizes.high_side_valve {
            Reserve::OfStore(draws.own(Draw::Level, &ranges::RESERVE_R744))
        } else if self.has_orifice() {
            Reserve::OfNeed(draws.own(Draw::Level, &ranges::RESERVE_ORIFICE))
        } else {
            Reserve::OfStore(draws.own(Draw::Level, &ranges::RESERVE_RECEIVER))
        }
    }

    /// Whether it has an orifice tube, as larger cars do.
    fn has_orifice(&self) -> bool {
        !self.sizes.high_side_valve && self.kind.expansion == ExpansionKind::OrificeTube
    }

    fn pipes(&self, draws: &Draws) -> Pipes {
        use ranges as r;
        // Δp = k ṁ²/ρ at the rated flow, which grows with the circuit
        let rated =
            self.rear_displacement(draws) * (RATED_FLOW * (SMALLEST_FLOW + FLOW_WITH_SIZE * draws.raw(Draw::Size)));
        let liquid_line = if self.has_orifice() { &r::LIQUID_LINE_ORIFICE } else { &r::LIQUID_LINE };
        Pipes {
            suction_drop: 1e3 * draws.own(Draw::SuctionDrop, &r::SUCTION_DROP) * RATED_SUCTION / (rated * rated),
            discharge_drop: 1e3 * draws.own(Draw::DischargeDrop, &r::DISCHARGE_DROP) * RATED_DISCHARGE
                / (rated * rated),
            receiver_drop: 0.0,
            suction_gain_w_per_k: draws.own(Draw::SuctionGain, &r::SUCTION_GAIN),
            underhood_rise_k: draws.own(Draw::UnderhoodRise, &r::UNDERHOOD_RISE),
            evenness: draws.own(Draw::Evenness, &r::EVENNESS),
            low_port: draws.raw(Draw::LowPort),
            high_port: draws.raw(Draw::HighPort),
            // a rear evaporator has lines of its own
            liquid_m3: 1e-3
                * self.evaporators(draws)
                * draws.own(Draw::LiquidLine, liquid_line)
                * self.sizes.liquid_line,
            suction_m3: SUCTION_LINE * self.sizes.vapour_lines,
            discharge_m3: DISCHARGE_LINE * self.sizes.vapour_lines,
        }
    }

    fn control(&self, draws: &Draws) -> Control {
        use ranges as r;
        match (self.kind.compressor, self.kind.expansion) {
            (CompressorKind::Cycling, ExpansionKind::OrificeTube) => Control::LowPressureSwitch {
                cut_out: GaugePressure::from_kpa(draws.own(Draw::SwitchCutOut, &r::SWITCH_CUT_OUT)),
                cut_in: GaugePressure::from_kpa(draws.own(Draw::SwitchCutIn, &r::SWITCH_CUT_IN)),
            },
            (CompressorKind::Cycling, _) => {
                let cut_out_k = FREEZING_K + draws.own(Draw::Thermostat, &r::THERMOSTAT);
                Control::Thermostat { cut_out_k, cut_in_k: cut_out_k + THERMOSTAT_BAND_K }
            }
            (CompressorKind::Internal, _) => Control::SuctionPressure {
                set_pa: 1e3 * draws.own(Draw::Bellows, &r::BELLOWS) + STANDARD_ATMOSPHERE_PA,
                band_pa: 1e3 * draws.own(Draw::BellowsBand, &r::BELLOWS_BAND),
                compensation: draws.own(Draw::Compensation, &r::COMPENSATION),
            },
            (CompressorKind::External | CompressorKind::Electric, _) => Control::AirOff {
                set_k: FREEZING_K + draws.own(Draw::AirOff, &r::AIR_OFF),
                band_k: draws.own(Draw::AirOffBand, &r::AIR_OFF_BAND),
            },
        }
    }

    /// Flow area of a valve that passes what the compressor pumps at `rpm` at the rated point, m².
    fn rated_area(&self, compressor: &Compressor, rpm: f64) -> f64 {
        let liquid = self.rated(RATED_CONDENSING_C - RATED_SUBCOOLING_K);
        let (Some(low), Some(high), Some(liquid)) =
            (self.rated(RATED_EVAPORATING_C), self.rated(RATED_CONDENSING_C), liquid)
        else {
            return 0.0;
        };
        let flow = RATED_FILLING * compressor.displacement_m3 * rpm / 60.0 * low.rho_v;
        let upstream = Upstream {
            p: high.p,
            saturated_p: liquid.p,
            limit_p: liquid.p,
            subcooling: RATED_SUBCOOLING_K,
            quality: 0.0,
            rho_l: high.rho_l,
            rho_v: high.rho_v,
            critical_pa: self.fluid.critical_pa,
            critical_k: self.fluid.critical_k,
        };
        flow / expansion::through_opening(&upstream, low.p)
    }

    fn rated(&self, celsius: f64) -> Option<SaturatedPair> {
        self.fluid.saturated(self.fluid.saturation_pressure(FREEZING_K + celsius)?)
    }
}

/// Area of a short tube for the vapour that a compressor draws in at the rated point, to any scale: tubes are cut for the flow, as
/// valves are. `None` where the refrigerant does not condense there.
fn area_for_flow(fluid: &Fluid) -> Option<f64> {
    let at = |celsius: f64| fluid.saturated(fluid.saturation_pressure(FREEZING_K + celsius)?);
    let high = at(RATED_CONDENSING_C)?;
    let upstream = Upstream::new(fluid, &high, high.h_l - RATED_SUBCOOLING_K * high.cp_l, high.p)?;
    let (bore, length) = RATED_TUBE_M;
    Some(at(RATED_EVAPORATING_C)?.rho_v / expansion::through_tube(bore, length, &upstream))
}

/// k^0.6 (cp/μ)^0.4 of saturated liquid at [`REDUCED_TEMPERATURE`]: what Dittus & Boelter's equation makes of the refrigerant at a
/// given flow in a given tube. `None` if transport properties are not known; then R-134a is assumed.
fn heat_transfer(refrigerant: Refrigerant) -> Option<f64> {
    let critical = refrigerant.fluid().critical.value.temperature;
    let t = Temperature::from_kelvin(REDUCED_TEMPERATURE * critical.kelvin());
    let (liquid, _) = refrigerant.saturated_at_temperature(t).ok()?;
    let state = State::at(&refrigerant.fluid().equation, t, liquid.density);
    let conductivity = refrigerant.thermal_conductivity(&state).ok()?.w_per_m_k();
    let viscosity = refrigerant.viscosity(t, liquid.density).ok()?.pa_s();
    let (of_conductivity, of_capacity) = DITTUS_BOELTER;
    Some(conductivity.powf(of_conductivity) * (state.isobaric_heat_capacity().si() / viscosity).powf(of_capacity))
}

impl Circuit {
    /// Circuit with every size at the middle of its range.
    ///
    /// # Errors
    /// [`Error::NotModelled`] for a blend.
    pub fn mid_range(kind: CircuitKind) -> Result<Self, Error> {
        let population = Population::new(kind)?;
        Ok(population.build(&population.draws([0.5; DIMENSIONS])))
    }
}

/// a and b of the published volumetric efficiency ([`EFFICIENCY`], Darr & Crawford 1992).
const PUBLISHED_VOLUMETRIC_EFFICIENCY: (f64, f64) = (0.8889, 1.0025e-4);
/// c, d and e of the published isentropic efficiency (Darr & Crawford 1992); e printed for densities in lb/ft³.
const PUBLISHED_EFFICIENCY: (f64, f64, f64) = (0.8405, 4.8711e-5, 0.1105 * 16.018_463_4);
/// Velocity at which the condenser's transfer units are stated, m/s; our choice.
const RATED_FACE_VELOCITY: f64 = 2.5;
/// Air at 25 °C and the standard atmosphere, kg/m³: ideal gas, by definition of the rated state.
const RATED_AIR_DENSITY: f64 = 1.18;
/// Heat capacity of dry air, J/(kg K) (ASHRAE Fundamentals 2017, ch. 1, eq. 30).
const RATED_AIR_CP: f64 = 1006.0;
/// Refrigerant flow at which conductances are stated, kg/s; our choice.
const RATED_FLOW: f64 = 0.04;
/// Two metres of 15 mm inner diameter, m³; from memory.
const SUCTION_LINE: f64 = 3.5e-4;
/// One metre of 11 mm inner diameter, m³; from memory.
const DISCHARGE_LINE: f64 = 9.5e-5;
/// Condenser face at which that flow is stated, m²: the middle of its range; our choice.
const RATED_FACE_M2: f64 = 0.24;
/// Evaporator air flow at which it is stated, m³/h: the middle of its range; our choice.
const RATED_BLOWER_M3_PER_H: f64 = 400.0;
/// Flow of the smallest circuit over [`RATED_FLOW`], by which the lines are sized; our choice.
const SMALLEST_FLOW: f64 = 0.7;
/// What the largest circuit has more; our choice.
const FLOW_WITH_SIZE: f64 = 0.6;
/// Density at which the drop of the suction line is stated, kg/m³; our choice, roughly R-134a at 300 kPa.
const RATED_SUCTION: f64 = 15.0;
/// Density at which the drop of the discharge line is stated, kg/m³; our choice, roughly R-134a at 1500 kPa.
const RATED_DISCHARGE: f64 = 70.0;
/// Power of the volume by which the surface of a body grows, 2/3: arithmetic, for a cabin that is longer in every part.
const SURFACE_WITH_VOLUME: f64 = 2.0 / 3.0;
/// Superheat over which a motor opens an electronic valve, K: it holds the superheat within a kelvin; our choice.
const ELECTRONIC_GRADIENT_K: f64 = 1.0;
/// Compressor speed at which a valve of a belt-driven circuit is rated, rpm; our choice.
const BELT_RATING_RPM: f64 = 2500.0;
/// Temperature between opening and closing of an evaporator thermostat, K; our choice.
const THERMOSTAT_BAND_K: f64 = 3.0;
/// Evaporating temperature at which expansion devices are rated, °C; our choice.
const RATED_EVAPORATING_C: f64 = 3.0;
/// Condensing temperature there, °C; our choice.
const RATED_CONDENSING_C: f64 = 50.0;
/// Subcooling there, K; our choice.
const RATED_SUBCOOLING_K: f64 = 5.0;
/// Volumetric efficiency there; our choice.
const RATED_FILLING: f64 = 0.7;
/// Bore and length of the short tube by which refrigerants are compared, m: the middle of both ranges; our choice.
const RATED_TUBE_M: (f64, f64) = (1.5e-3, 38e-3);
/// Temperature over the critical one at which the heat transfer of refrigerants is compared; our choice.
const REDUCED_TEMPERATURE: f64 = 0.85;
/// Powers of conductivity and of cp/μ in Dittus & Boelter 1930 for heating (from memory).
const DITTUS_BOELTER: (f64, f64) = (0.6, 0.4);

#[cfg(test)]
mod tests {
    use super::*;
    use crate::circuit::draw::tests::DRAWS;

    /// Each draw moves something in a circuit of some kind, so that no place is drawn in vain.
    #[test]
    fn every_draw_matters_to_some_kind() {
        let mut kinds: Vec<CircuitKind> =
            [Refrigerant::R1234yf, Refrigerant::R744].into_iter().flat_map(CircuitKind::main).collect();
        kinds.push(CircuitKind { rear_evaporator: true, compressor: CompressorKind::Electric, ..kinds[0] });
        for draw in DRAWS {
            let moved = kinds.iter().any(|kind| {
                let population = Population::new(*kind).unwrap();
                let mut x = [0.5; DIMENSIONS];
                x[*draw as usize] = 0.75;
                population.build(&population.draws(x)) != Circuit::mid_range(*kind).unwrap()
            });
            assert!(moved, "{draw:?}");
        }
    }
}
