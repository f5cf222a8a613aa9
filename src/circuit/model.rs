//! The model of the circuit: one pass from six unknowns to the residuals of five balances.
//!
//! The unknowns are evaporating pressure, condensing pressure, refrigerant flow, the superheated fraction of the evaporator, the
//! liquid-backed-up fraction of the condenser (of a gas cooler the logarithm of its approach) and the capacity fraction of the
//! compressor. Everything else follows from them in the direction of flow, without iteration but for the surface of the
//! evaporator. The sixth balance, that of the charge, is [`Contents`](super::charge::Contents).

use super::cabin::{self, OutsideAir};
use super::compressor::Compression;
use super::control::SensedState;
use super::evaporator::{self, AirSide, WetCoil, Zones};
use super::exchanger::Face;
use super::expansion::{self, Expansion, HighSideValve, Upstream};
use super::fluid::{Fluid, Point, SaturatedPair};
use super::high_side::{HighSide, HighSideConditions, HighSideState, LowSide, Outlet};
use super::operation::{EngineSpeed, Motion, OperatingPoint};
use super::sizes::{Circuit, CompressorDrive, Storage};
use super::softplus::soft_clamp;
use super::state_cache::{Evaluation, StateCache};
use crate::Error;
use crate::air::{formulas, water};

/// ln p₀, ln p_c, ln ṁ, superheated fraction, backed-up fraction or ln of the approach, capacity fraction.
pub(crate) type Unknowns = [f64; 6];

/// How closely the surface of the evaporator is found, K; our choice.
const SURFACE: f64 = 3e-10;
/// Distance from boiling within which the last surface is a start for the next, K; our choice.
const NEAR_SURFACE_K: f64 = 30.0;
/// Bend of the fan's lowest and highest stage, as a fraction of the way between them; our choice.
const FAN_BEND: f64 = 0.02;
/// Least capacity fraction that is a circuit that runs; our choice.
const LEAST_CAPACITY: f64 = 1e-3;
/// Least quality behind the evaporator: more liquid than that no compressor pumps; our choice.
const LEAST_OUTLET_QUALITY: f64 = 0.2;
/// Least suction pressure at the compressor over the evaporating one; our choice.
const LEAST_SUCTION: f64 = 0.15;
/// Share of the condenser that is free of liquid for non-condensables; our choice.
const AIR_SHARE_CONDENSER: f64 = 0.7;
/// Share of a receiver that is free of liquid for them; our choice.
const AIR_SHARE_RECEIVER: f64 = 0.5;
/// Driving speed at which half the share of condenser air is drawn round again, km/h, as warm air stays behind; our choice.
const RECIRCULATION_HALVES_AT: f64 = 10.0;
/// km/h in a m/s, by definition.
const KM_PER_H: f64 = 3.6;

/// Highest superheated fraction. Beyond one the refrigerant comes into the evaporator as vapour, as warm as that much more of it would
/// make saturated vapour. Our choice.
const DRIEST: f64 = 3.0;

/// Heat capacity of dry air, J/(kg K) (ASHRAE Fundamentals 2017, ch. 1, eq. 30).
const AIR_CP: f64 = 1006.0;
/// The same of water vapour (ASHRAE Fundamentals 2017, ch. 1, eq. 30).
const VAPOUR_CP: f64 = 1860.0;

/// A circuit under given conditions: everything that stays the same while the unknowns move.
#[derive(Clone, Copy)]
pub(super) struct Model<'a> {
    pub(super) circuit: &'a Circuit,
    pub(super) fluid: Fluid,
    pub(super) cache: &'a StateCache,
    pub(super) high_side: HighSide,
    /// Compressor speed at full capacity, rpm.
    pub(super) rpm: f64,
    /// Outside air, K.
    pub(super) ambient: f64,
    /// Heat capacity of the air, J/(K kg of dry air).
    air_cp: f64,
    /// Density of the air, kg/m³ of dry air.
    air_density: f64,
    /// Ram-air face velocity on the condenser, m/s.
    ram: f64,
    /// Recirculated fraction of the condenser air.
    pub(super) recirculated: f64,
    pub(super) evaporator_air: AirSide,
    /// Charge of the circuit, kg.
    pub(super) charge: f64,
}

/// The unknowns by name.
#[derive(Debug, Clone, Copy)]
pub(super) struct Trial {
    p_evaporating: f64,
    p_condensing: f64,
    /// Refrigerant flow, kg/s.
    pub(super) flow: f64,
    /// Superheated fraction of the evaporator; below zero, liquid that leaves it, as the fraction that would boil it; above one,
    /// vapour that comes into it.
    pub(super) dry: f64,
    /// Backed-up fraction of the condenser, or logarithm of the approach of a gas cooler.
    high_side: f64,
    pub(super) capacity_fraction: f64,
}

impl Trial {
    fn new(u: &Unknowns) -> Self {
        let [p_evaporating, p_condensing, flow, dry, high_side, capacity_fraction] = *u;
        Self {
            p_evaporating: p_evaporating.exp(),
            p_condensing: p_condensing.exp(),
            flow: flow.exp(),
            dry,
            high_side,
            capacity_fraction,
        }
    }

    /// Fraction of the evaporator in which refrigerant boils.
    pub(super) fn boiling_share(&self) -> f64 {
        1.0 - self.dry.clamp(0.0, 1.0)
    }
}

/// The evaporator and the refrigerant that leaves it.
#[derive(Debug, Clone, Copy)]
pub(super) struct EvaporatorState {
    /// Saturation at the evaporating pressure.
    pub(super) pair: SaturatedPair,
    face: Face,
    pub(super) coil: WetCoil,
    /// Specific heat capacity of saturated vapour, J/(kg K).
    pub(super) cp: f64,
    /// Superheat at the inlet, K; zero unless vapour alone comes in.
    inlet_superheat: f64,
    /// Superheat at the outlet, K; zero with liquid.
    pub(super) superheat: f64,
    /// Superheat as a valve senses it: below zero with liquid, which continues the slope.
    sensed_superheat: f64,
    h_out: f64,
    t_out: f64,
    /// Quality at the outlet, one with vapour alone.
    pub(super) outlet_quality: f64,
}

/// Internal exchanger and suction line.
#[derive(Debug, Clone, Copy)]
pub(super) struct SuctionLine {
    /// Heat from the liquid line, J/kg.
    exchanged: f64,
    /// Heat from the air around the engine, J/kg.
    pub(super) gained: f64,
    /// Pressure at the compressor, Pa.
    pub(super) p: f64,
    /// State at the compressor.
    pub(super) point: Point,
}

/// Pressures on the high side with what non-condensables add, Pa.
#[derive(Debug, Clone, Copy)]
pub(super) struct HighPressures {
    /// Partial pressure of non-condensables.
    air: f64,
    /// In the condenser.
    pub(super) condenser: f64,
    /// At the compressor.
    pub(super) discharge: f64,
}

/// Heat and outlet temperature of the air through the evaporator.
#[derive(Debug, Clone, Copy)]
pub(super) struct CabinAir {
    /// Heat, W.
    pub(super) heat: f64,
    /// Temperature at which the air leaves, K.
    pub(super) off: f64,
}

/// One pass of the model.
#[derive(Debug, Clone, Copy)]
pub(super) struct Pass {
    /// Compressor flow, expansion device, heat of the high side, heat of the evaporator, control: all relative.
    pub(super) residuals: [f64; 5],
    pub(super) trial: Trial,
    pub(super) evaporator: EvaporatorState,
    /// Outlet state of the high side, on the way to the internal exchanger.
    pub(super) outlet: Outlet,
    pub(super) suction: SuctionLine,
    pub(super) pressures: HighPressures,
    pub(super) compression: Compression,
    pub(super) high_side: HighSideState,
    pub(super) cabin: CabinAir,
    pub(super) sensed: SensedState,
    /// Quality downstream of the expansion device.
    pub(super) inlet_quality: f64,
}

impl<'a> Model<'a> {
    /// The model of `circuit` in `operation`.
    ///
    /// # Errors
    /// [`Error::NotModelled`] for a blend.
    pub(super) fn new(circuit: &'a Circuit, operation: &OperatingPoint, cache: &'a StateCache) -> Result<Self, Error> {
        let fluid = Fluid::new(circuit.refrigerant)?;
        let t = operation.ambient.kelvin();
        let p = operation.air.pa();
        let w = formulas::humidity_ratio(operation.humidity.fraction() * water::saturation_pressure_pa(t), p);
        let air_density = formulas::dry_density(t, w, p);
        let (ram, recirculated) = front_air(circuit, operation.running.motion);
        let blown = circuit.evaporator_air.airflow_fraction
            * operation.running.blower.fraction()
            * circuit.evaporator_air.blower_m3_per_s;
        let air_cp = AIR_CP + w * VAPOUR_CP;
        let outside = OutsideAir { t, w, p, density: air_density, cp: air_cp, flow: air_density * blown };
        Ok(Self {
            circuit,
            fluid,
            cache,
            high_side: HighSide::of(circuit),
            rpm: full_speed(circuit, operation.running.engine),
            ambient: t,
            air_cp,
            air_density,
            ram,
            recirculated,
            evaporator_air: cabin::air_side(&circuit.evaporator_air, &operation.running, &outside),
            charge: circuit.charge.kg(),
        })
    }

    /// Same model with a charge of `charge` kg.
    pub(super) fn with_charge(&self, charge: f64) -> Self {
        Self { charge, ..*self }
    }

    /// Same model without a restriction before the receiver.
    pub(super) fn without_restriction(&self) -> Self {
        Self { high_side: self.high_side.without_restriction(), ..*self }
    }

    /// The share `share` of the way from these conditions to those of `other`.
    pub(super) fn towards(&self, other: &Self, share: f64) -> Self {
        let between = |from: f64, to: f64| from + share * (to - from);
        let (here, there) = (&self.evaporator_air, &other.evaporator_air);
        Self {
            rpm: between(self.rpm, other.rpm),
            ambient: between(self.ambient, other.ambient),
            air_cp: between(self.air_cp, other.air_cp),
            air_density: between(self.air_density, other.air_density),
            ram: between(self.ram, other.ram),
            recirculated: between(self.recirculated, other.recirculated),
            high_side: self.high_side.towards(other.high_side, share),
            evaporator_air: AirSide {
                t: between(here.t, there.t),
                w: between(here.w, there.w),
                p: between(here.p, there.p),
                flow: between(here.flow, there.flow),
                returned_heat: between(here.returned_heat, there.returned_heat),
                returned_water: between(here.returned_water, there.returned_water),
                mixed: between(here.mixed, there.mixed),
            },
            ..*other
        }
    }

    /// Air in front of the condenser before any of it is drawn round again, K.
    pub(super) fn front_air(&self) -> f64 {
        self.ambient + self.circuit.condenser_air.air_on_rise_k
    }

    /// Relative humidity of the air on `coil`.
    pub(super) fn relative_humidity(&self, coil: &WetCoil) -> f64 {
        let vapour = formulas::vapour_pressure_pa(coil.inlet_w, self.evaporator_air.p);
        vapour / water::saturation_pressure_pa(coil.inlet)
    }

    /// The condenser's face at high side `p`, which decides the fan's stage, and refrigerant `flow`.
    pub(super) fn condenser_face(&self, p: f64, flow: f64) -> Face {
        let condenser_air = &self.circuit.condenser_air;
        let (from, full) = (condenser_air.fan_from.pa(), condenser_air.fan_full.pa());
        let stage = soft_clamp((p - self.evaporator_air.p - from) / (full - from), 0.0, 1.0, FAN_BEND);
        let fan = condenser_air.fan_m_per_s * (condenser_air.fan_low + (1.0 - condenser_air.fan_low) * stage);
        let air = self.air_density * condenser_air.face_m2 * condenser_air.airflow_fraction * fan.hypot(self.ram);
        self.circuit.condenser.face(air, self.air_cp, flow)
    }

    /// The evaporator's face at refrigerant `flow`.
    pub(super) fn evaporator_face(&self, flow: f64) -> Face {
        self.circuit.evaporator.face(self.evaporator_air.flow, self.air_cp, flow)
    }

    /// One pass; `None` where the unknowns describe no circuit that runs.
    pub(super) fn pass(&self, u: &Unknowns, evaluation: Evaluation) -> Option<Pass> {
        let trial = self.trial(u)?;
        let evaporator = self.evaporator(&trial)?;
        let conditions = self.high_side_conditions(&trial, evaluation);
        let low =
            LowSide { p: trial.p_evaporating, boiling_share: trial.boiling_share(), coil_heat: evaporator.coil.heat };
        let outlet = self.high_side.outlet(&conditions, trial.high_side, &low)?;
        let suction = self.suction_line(&trial, &evaporator, outlet.t, evaluation)?;
        let pressures = self.high_pressures(&trial, &outlet);
        let compression = self.compression(&suction, &pressures, evaluation)?;
        let high_side = outlet.heat_balance(&conditions, &compression)?;
        let h_expansion = outlet.h - suction.exchanged;
        let expansion = self.expansion_residual(&trial, &evaporator, &outlet, h_expansion, &pressures)?;
        let cabin = cabin_air(&trial, &evaporator);
        let sensed = SensedState {
            suction_pa: suction.p,
            air_pa: self.evaporator_air.p,
            discharge_pa: pressures.discharge,
            // a probe between the fins senses both
            fins_k: 0.5 * (evaporator.coil.surface + cabin.off),
            air_off_k: cabin.off,
        };
        let asked = self.circuit.control.capacity_fraction(&sensed, self.circuit.high_limit_pa);
        let pair = &evaporator.pair;
        Some(Pass {
            residuals: [
                trial.capacity_fraction * compression.flow / trial.flow - 1.0,
                expansion,
                high_side.face_share - 1.0,
                evaporator_residual(&trial, &evaporator, h_expansion),
                trial.capacity_fraction - asked,
            ],
            inlet_quality: (h_expansion - pair.h_l) / pair.latent(),
            trial,
            evaporator,
            outlet,
            suction,
            pressures,
            compression,
            high_side,
            cabin,
            sensed,
        })
    }

    /// The unknowns, where they lie in the range of the model.
    fn trial(&self, u: &Unknowns) -> Option<Trial> {
        let trial = Trial::new(u);
        let Trial { p_evaporating, p_condensing, dry, capacity_fraction, .. } = trial;
        let inside = p_evaporating < p_condensing
            && p_condensing < self.high_side.highest_pressure(&self.fluid)
            && capacity_fraction > LEAST_CAPACITY
            && dry < DRIEST;
        inside.then_some(trial)
    }

    /// The evaporator against its air, and what leaves it.
    fn evaporator(&self, trial: &Trial) -> Option<EvaporatorState> {
        let Trial { flow, dry, .. } = *trial;
        let pair = self.fluid.saturated(trial.p_evaporating)?;
        let face = self.evaporator_face(flow);
        let near = Some(self.cache.surface.get()).filter(|surface| (surface - pair.t).abs() < NEAR_SURFACE_K);
        let cp = self.fluid.vapour_cp_cached(&pair, self.cache);
        // T = T_air − (T_air − T₀) exp(−w Cₐ ε/C); liquid carried over continues the slope
        let transfer = face.one_phase / (flow * cp);
        let warmed_over = |share: f64| if share > 0.0 { -(-share * transfer).exp_m1() } else { 0.0 };
        let (warmed, before) = (warmed_over(dry), warmed_over(dry - 1.0));
        let superheating = flow * cp * (warmed - before);
        let zones = Zones { boiling: trial.boiling_share(), superheating: superheating / face.air };
        let coil = evaporator::wet_coil(&face, &self.evaporator_air, &zones, pair.t, near, SURFACE)?;
        self.cache.surface.set(coil.surface);
        let drive = coil.inlet - pair.t;
        if drive <= 0.0 {
            return None;
        }
        let superheat = drive * warmed;
        let sensed_superheat = if dry >= 0.0 { superheat } else { drive * transfer * dry };
        let h_out = pair.h_v + cp * sensed_superheat;
        let outlet_quality = ((h_out - pair.h_l) / pair.latent()).min(1.0);
        if outlet_quality < LEAST_OUTLET_QUALITY {
            return None;
        }
        let t_out = pair.t + superheat;
        let inlet_superheat = drive * before;
        Some(EvaporatorState {
            pair,
            face,
            coil,
            cp,
            inlet_superheat,
            superheat,
            sensed_superheat,
            h_out,
            t_out,
            outlet_quality,
        })
    }

    fn high_side_conditions(&self, trial: &Trial, evaluation: Evaluation) -> HighSideConditions<'_> {
        HighSideConditions {
            fluid: &self.fluid,
            cache: self.cache,
            evaluation,
            p: trial.p_condensing,
            flow: trial.flow,
            face: self.condenser_face(trial.p_condensing, trial.flow),
            air: self.front_air(),
            recirculated: self.recirculated,
        }
    }

    /// Internal exchanger and suction line, with `t_liquid` on the other side of the exchanger, K.
    fn suction_line(
        &self,
        trial: &Trial,
        evaporator: &EvaporatorState,
        t_liquid: f64,
        evaluation: Evaluation,
    ) -> Option<SuctionLine> {
        let (pipes, flow) = (&self.circuit.lines, trial.flow);
        let EvaporatorState { cp, t_out, h_out, .. } = *evaporator;
        let exchanged = cp * self.circuit.internal_exchanger * (t_liquid - t_out).max(0.0);
        let t_after = t_out + exchanged / cp;
        let around = self.ambient + pipes.underhood_rise_k;
        let gained = cp * -(-pipes.suction_gain_w_per_k / (flow * cp)).exp_m1() * (around - t_after);
        let p = trial.p_evaporating - pipes.suction_drop * flow * flow / evaporator.pair.rho_v;
        if p < LEAST_SUCTION * trial.p_evaporating {
            return None;
        }
        let point = self.fluid.at_enthalpy(p, h_out + exchanged + gained, evaluation, &self.cache.suction)?;
        Some(SuctionLine { exchanged, gained, p, point })
    }

    /// Pressures on the high side; non-condensables add theirs.
    fn high_pressures(&self, trial: &Trial, outlet: &Outlet) -> HighPressures {
        let circuit = self.circuit;
        let store = match circuit.storage {
            Storage::Receiver { volume_m3, .. } => AIR_SHARE_RECEIVER * volume_m3,
            Storage::Accumulator { .. } => 0.0,
        };
        let air = circuit.non_condensables.kg() * formulas::R_DRY * outlet.gas_temperature(self.ambient)
            / (AIR_SHARE_CONDENSER * circuit.condenser.volume_m3 + store + circuit.lines.discharge_m3);
        let density = outlet.discharge_density(trial.p_condensing);
        let condenser = trial.p_condensing + air;
        let discharge = condenser + circuit.lines.discharge_drop * trial.flow * trial.flow / density;
        HighPressures { air, condenser, discharge }
    }

    fn compression(
        &self,
        suction: &SuctionLine,
        pressures: &HighPressures,
        evaluation: Evaluation,
    ) -> Option<Compression> {
        let compressor = &self.circuit.compressor;
        let cached = &self.cache.compressed;
        compressor.compress(&self.fluid, &suction.point, pressures.discharge, self.rpm, evaluation, cached)
    }

    /// Flow of the expansion device over that of the circuit, or high side over the pressure it holds, less one.
    fn expansion_residual(
        &self,
        trial: &Trial,
        evaporator: &EvaporatorState,
        outlet: &Outlet,
        h: f64,
        pressures: &HighPressures,
    ) -> Option<f64> {
        // non-condensables are in the receiver too
        let upstream = || {
            let liquid = outlet.liquid()?;
            Upstream::new(&self.fluid, liquid, h, liquid.p + pressures.air)
        };
        match self.circuit.expansion {
            Expansion::HighSide { factor, yields_k } => {
                let valve = HighSideValve { factor, limit_pa: self.circuit.high_limit_pa };
                let kept = expansion::share_kept(evaporator.sensed_superheat, yields_k);
                let held = valve.held_pressure(&self.fluid, evaporator.pair.t, outlet.t, pressures.air, kept)?;
                Some(trial.p_condensing / held - 1.0)
            }
            Expansion::Valve { area_m2, static_superheat_k, gradient_k } => {
                let sensed = evaporator.sensed_superheat;
                let (upstream, p_down) = (upstream()?, trial.p_evaporating);
                let through =
                    expansion::through_valve(area_m2, static_superheat_k, gradient_k, sensed, &upstream, p_down);
                Some(through / trial.flow - 1.0)
            }
            Expansion::Orifice { bore_m, length_m } => {
                Some(expansion::through_tube(bore_m, length_m, &upstream()?) / trial.flow - 1.0)
            }
        }
    }
}

/// Compressor speed at full capacity, rpm.
fn full_speed(circuit: &Circuit, engine: EngineSpeed) -> f64 {
    match circuit.drive {
        CompressorDrive::Belt { ratio, idle_rpm } => {
            ratio
                * match engine {
                    EngineSpeed::Idle => idle_rpm,
                    EngineSpeed::Rpm(rpm) => rpm,
                }
        }
        CompressorDrive::Motor { max_rpm } => max_rpm,
    }
}

/// Face velocity that driving brings, m/s, and share of the condenser air drawn round again.
fn front_air(circuit: &Circuit, motion: Motion) -> (f64, f64) {
    let air = &circuit.condenser_air;
    match motion {
        Motion::Standing => (0.0, air.recirculated),
        Motion::Driving(speed) => {
            (air.ram_share * speed / KM_PER_H, air.recirculated / (1.0 + speed / RECIRCULATION_HALVES_AT))
        }
    }
}

/// Heat of the boiling part of the evaporator against what the refrigerant takes up in it, relative to what it would take up from
/// liquid to vapour.
fn evaporator_residual(trial: &Trial, evaporator: &EvaporatorState, h_expansion: f64) -> f64 {
    let EvaporatorState { pair, coil, h_out, cp, inlet_superheat, .. } = evaporator;
    let (heat, taken) = if trial.dry >= 0.0 {
        // what comes in is liquid that boils, or vapour above saturation
        let boiled = (1.0 - trial.dry).max(0.0) * coil.heat - trial.flow * cp * inlet_superheat;
        (boiled, pair.h_v - h_expansion)
    } else {
        (coil.heat, h_out - h_expansion)
    };
    heat / (trial.flow * pair.latent()) - taken / pair.latent()
}

/// Heat the air gives to both parts of the evaporator, and where that leaves it.
fn cabin_air(trial: &Trial, evaporator: &EvaporatorState) -> CabinAir {
    let EvaporatorState { coil, cp, inlet_superheat, superheat, face, .. } = evaporator;
    let boiling = trial.boiling_share();
    let superheating = if trial.dry >= 0.0 { trial.flow * cp * (superheat - inlet_superheat) } else { 0.0 };
    CabinAir {
        heat: boiling * coil.heat + superheating,
        off: coil.inlet - (boiling * coil.sensible + superheating) / face.air,
    }
}

#[cfg(test)]
mod tests {
    use approx::abs_diff_eq;

    use super::*;
    use crate::circuit::kind::CircuitKind;
    use crate::circuit::solver::{Effort, solve};
    use crate::quantity::SpecificEnthalpy;
    use crate::{Pressure, Quantity, Ratio, Refrigerant, Temperature};

    const IDLE: OperatingPoint =
        OperatingPoint::idle(Temperature::from_celsius(30.0), Ratio::from_fraction(0.5), Pressure::STANDARD_ATMOSPHERE);

    /// Heat a slice of the face gives to the air, followed from the inlet over the whole face, against what the refrigerant
    /// loses: a condenser of R-134a, and a gas cooler above the critical pressure of R-744.
    #[test]
    fn what_the_refrigerant_loses_the_air_gains_on_either_high_side() {
        const SLICES: usize = 4000;
        for refrigerant in [Refrigerant::R134a, Refrigerant::R744] {
            let circuit = Circuit::mid_range(CircuitKind::main(refrigerant)[0]).unwrap();
            let (_, u) = solve(&circuit, &IDLE, Effort::FULL, None).unwrap();
            let cache = StateCache::default();
            let model = Model::new(&circuit, &IDLE, &cache).unwrap();
            let pass = model.pass(&u, Evaluation::Exact).unwrap();
            let Trial { p_condensing: p, flow, .. } = pass.trial;
            let condenses = matches!(model.high_side, HighSide::Condenser(_));
            assert_eq!(condenses, p < model.fluid.critical_pa, "{refrigerant}");
            let face = model.condenser_face(p, flow);
            let pair = model.fluid.saturated(p);
            let mut h = pass.compression.h_out;
            for _ in 0..SLICES {
                let state = refrigerant.at_enthalpy(Pressure::from_pa(p), SpecificEnthalpy::from_si(h)).unwrap();
                let two_phases = pair.is_some_and(|pair| h > pair.h_l && h < pair.h_v);
                let conductance = if two_phases { face.two_phase } else { face.one_phase };
                let over = state.temperature().kelvin() - pass.high_side.air_in;
                h -= conductance * over / SLICES as f64 / flow;
            }
            let (given, lost) = (pass.compression.h_out - h, pass.compression.h_out - pass.high_side.h_out);
            // one heat capacity of the gas, and the segments of a gas cooler, are good to a percent
            assert!(abs_diff_eq!(given / lost, 1.0, epsilon = 0.01), "{refrigerant}: {given} J/kg given, {lost} lost");
        }
    }

    #[test]
    fn a_pass_at_the_solution_leaves_no_residual_and_one_beside_it_does() {
        for refrigerant in [Refrigerant::R134a, Refrigerant::R744] {
            let circuit = Circuit::mid_range(CircuitKind::main(refrigerant)[0]).unwrap();
            let (_, u) = solve(&circuit, &IDLE, Effort::FULL, None).unwrap();
            let cache = StateCache::default();
            let model = Model::new(&circuit, &IDLE, &cache).unwrap();
            let worst = |u: &Unknowns| {
                let residuals = model.pass(u, Evaluation::Exact).unwrap().residuals;
                residuals.into_iter().fold(0.0, |worst: f64, r| worst.max(r.abs()))
            };
            // states on the tangents of the last ones leave this much
            assert!(worst(&u) < 1e-7, "{refrigerant}: {}", worst(&u));
            for i in 0..u.len() {
                let mut beside = u;
                beside[i] += 1e-3;
                assert!(worst(&beside) > 1e-5, "{refrigerant}, unknown {i}: {}", worst(&beside));
            }
        }
    }

    /// `None` instead of numbers that mean nothing.
    #[test]
    fn unknowns_outside_the_model_have_no_pass() {
        let circuit = Circuit::mid_range(CircuitKind::main(Refrigerant::R134a)[0]).unwrap();
        let (_, u) = solve(&circuit, &IDLE, Effort::FULL, None).unwrap();
        let cache = StateCache::default();
        let model = Model::new(&circuit, &IDLE, &cache).unwrap();
        assert!(model.pass(&u, Evaluation::Exact).is_some());
        for (i, value) in
            [(0, u[1] + 0.1), (1, 16.0), (3, DRIEST), (5, 0.0), (0, f64::NAN), (1, f64::NAN), (3, f64::NAN)]
        {
            let mut outside = u;
            outside[i] = value;
            assert!(model.pass(&outside, Evaluation::Exact).is_none(), "unknown {i} at {value}");
        }
    }
}
