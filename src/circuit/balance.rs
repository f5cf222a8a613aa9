//! The balance of the whole loop: unknowns, residuals, and the search for the point where all of them vanish.
//!
//! Six unknowns: evaporating pressure, condensing pressure, flow, the share of the evaporator that is dry, the share of
//! the condenser that is flooded, and the delivery of the compressor. Everything else follows from them in one pass round
//! the loop, without a search but the one for the surface of the evaporator.

use nalgebra::SVector;

use super::charge::mixed_density;
use super::compressor::Compression;
use super::condenser::{self, Condensed};
use super::control::{Control, Felt};
use super::evaporator::{self, AirSide, Wetted};
use super::exchanger::Face;
use super::expansion::{self, Expansion, MOST_SUBCOOLING, Upstream};
use super::fluid::{Boiling, Fluid, Point};
use super::gas_cooler;
use super::operation::{EngineSpeed, Intake, Motion, OperatingPoint};
use super::sizes::{Circuit, Drive, Storage};
use super::softplus::{between, positive};
use super::state_cache::{NODES, StateCache, Wanted};
use super::steady::{Residuals, SteadyState};
use crate::air::{formulas, water};
use crate::numeric::broyden;
use crate::quantity::Power;
use crate::{Error, Mass, Pressure, Range, Ratio, Temperature, TemperatureDifference};

/// ln p₀, ln p_c, ln ṁ, dry share, flooded share (of R-744: ln of the gas cooler's approach to its air), delivery.
pub(crate) type Unknowns = [f64; 6];

/// How closely the surface of the evaporator is found, K.
const SURFACE: f64 = 3e-10;
/// Evaluations one search may take.
const MOST: usize = 160;
/// How far an unknown may move in one step.
const LONGEST: Unknowns = [0.25, 0.2, 0.6, 0.2, 0.2, 0.35];
/// The same for the logarithm of the approach.
const LONGEST_APPROACH: f64 = 1.5;

/// Where searches begin: kelvins beside the guess of evaporating and of condensing temperature, share of its delivery.
const BESIDE: [(f64, f64, f64); 3] = [(0.0, 0.0, 1.0), (-3.0, 6.0, 0.8), (4.0, -4.0, 0.7)];

/// Heat given off over heat taken up by a circuit of R-744, for the air drawn round again alone; ours, at a COP of 2.
const REJECTED: f64 = 1.5;

/// Gas constant of air, J/(kg K): 8.314 462 618 J/(mol K) over 28.9652 g/mol (CODATA 2018; ASHRAE Fundamentals 2017).
const AIR_GAS_CONSTANT: f64 = 8.314_462_618 / 0.028_965_2;
/// Heat capacity of dry air and of water vapour, J/(kg K) (ASHRAE Fundamentals 2017, ch. 1, eq. 28).
const AIR_CP: f64 = 1006.0;
const VAPOUR_CP: f64 = 1860.0;

/// Evaluations after which no further search is begun, about 5 ms; with R-744, which takes longer for each, the same.
const MOST_IN_ALL: usize = 2500;
const MOST_IN_ALL_R744: usize = 500;

/// How closely a balance is searched, and for how long.
#[derive(Debug, Clone, Copy)]
pub(super) struct Care {
    /// The largest residual of a solution.
    tolerance: f64,
    /// The largest residual of a state that is handed out: states start from the last ones, and a last place of an enthalpy may
    /// weigh where little heat is left to give.
    closed: f64,
    /// Share of the usual evaluations after which no further search is begun.
    patience: f64,
}

impl Care {
    /// For a state that is handed out.
    pub(super) const FULL: Self = Self { tolerance: 1e-9, closed: 1e-8, patience: 1.0 };
    /// For one of many cars: within a hundredth of what a gauge can tell, and left out where it finds no balance soon, as
    /// one of a hundred does that would find one at last.
    pub(super) const BRIEF: Self = Self { tolerance: 1e-4, closed: 1e-3, patience: 0.1 };
}

/// A day on which cars find their balance easily, from which others are approached: warm, all air, at idle.
const EASY: OperatingPoint =
    OperatingPoint::idle(Temperature::from_celsius(32.0), Ratio::from_fraction(0.5), Pressure::STANDARD_ATMOSPHERE);

/// Everything that stays the same while the unknowns move.
#[derive(Clone, Copy)]
struct Loop<'a> {
    car: &'a Circuit,
    fluid: Fluid,
    cache: &'a StateCache,
    rpm: f64,
    ambient: f64,
    air_cp: f64,
    /// Density of the air, kg/m³ of dry air.
    density: f64,
    /// Velocity on the condenser that driving brings, m/s.
    ram: f64,
    recirculated: f64,
    evaporator_air: AirSide,
    /// Drop at the condenser's outlet over ṁ²/ρ, 1/m⁴.
    receiver_drop: f64,
    /// Charge aimed at, kg.
    charge: f64,
    care: Care,
}

/// One pass round the loop.
struct Pass {
    /// Compressor, expansion, condenser, evaporator, control.
    residuals: [f64; 5],
    evaporating: Boiling,
    condensing: Option<Boiling>,
    /// Behind a closed place at the condenser's outlet.
    behind: Option<Boiling>,
    condensed: Condensed,
    /// Mean density in the condenser, kg/m³.
    condenser_density: f64,
    wetted: Wetted,
    /// Heat, sensible heat (W) the air lost, W.
    cabin_heat: f64,
    air_off: f64,
    superheat: f64,
    felt: Felt,
    suction: Point,
    /// Heat into the suction line, W.
    line_gain: f64,
    suction_p: f64,
    discharge_p: f64,
    condenser_p: f64,
    compression: Compression,
    inlet_quality: f64,
    outlet_quality: f64,
    flow: f64,
    capacity_fraction: f64,
    liquid_density: f64,
    dry: f64,
}

/// Which unknowns are searched: with the store partly full, one of them is known.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Regime {
    /// The receiver or accumulator holds liquid and vapour.
    Stored,
    /// It is empty or full, and the charge decides.
    Empty,
    Full,
}

impl<'a> Loop<'a> {
    fn new(car: &'a Circuit, operation: &OperatingPoint, cache: &'a StateCache, care: Care) -> Result<Self, Error> {
        let fluid = Fluid::new(car.refrigerant)?;
        let t = operation.ambient.kelvin();
        let p = operation.air.pa();
        let w = formulas::humidity_ratio(operation.humidity.fraction() * water::saturation_pressure_pa(t), p);
        let density = formulas::dry_density(t, w, p);
        let air_cp = AIR_CP + w * VAPOUR_CP;
        let rpm = match car.drive {
            Drive::Belt { ratio, idle_rpm } => {
                ratio
                    * match operation.running.engine {
                        EngineSpeed::Idle => idle_rpm,
                        EngineSpeed::Rpm(rpm) => rpm,
                    }
            }
            Drive::Motor { max_rpm } => max_rpm,
        };
        let (ram, recirculated) = match operation.running.motion {
            Motion::Standing => (0.0, car.condenser_air.recirculated),
            // warm air stays behind a moving car
            Motion::Driving(speed) => {
                (car.condenser_air.ram_share * speed / 3.6, car.condenser_air.recirculated / (1.0 + speed / 10.0))
            }
        };
        let blown = car.evaporator_air.airflow_fraction
            * operation.running.blower.fraction()
            * car.evaporator_air.blower_m3_per_s;
        Ok(Self {
            car,
            fluid,
            cache,
            rpm,
            ambient: t,
            air_cp,
            density,
            ram,
            recirculated,
            evaporator_air: AirSide {
                t,
                w,
                p,
                flow: density * blown,
                returned: match operation.running.intake {
                    Intake::Fresh => 0.0,
                    Intake::Recirculation => car.evaporator_air.returned,
                },
            },
            receiver_drop: car.lines.receiver_drop,
            charge: car.charge.kg(),
            care,
        })
    }

    fn is_gas_cooler(&self) -> bool {
        matches!(self.car.expansion, Expansion::HighSide { .. })
    }

    /// Evaluations after which no further search is begun.
    fn most(&self) -> usize {
        let most = if self.is_gas_cooler() { MOST_IN_ALL_R744 } else { MOST_IN_ALL };
        (self.care.patience * most as f64) as usize
    }

    /// The condenser's face at high side `p`, which the fan goes by, and refrigerant `flow`.
    fn condenser_face(&self, p: f64, flow: f64) -> Face {
        let condenser_air = &self.car.condenser_air;
        let (from, full) = (condenser_air.fan_from.pa(), condenser_air.fan_full.pa());
        let stage = between((p - self.evaporator_air.p - from) / (full - from), 0.0, 1.0, 0.02);
        let fan = condenser_air.fan_m_per_s * (condenser_air.fan_low + (1.0 - condenser_air.fan_low) * stage);
        let air = self.density * condenser_air.face_m2 * condenser_air.airflow_fraction * fan.hypot(self.ram);
        self.car.condenser.face(air, self.air_cp, flow)
    }

    /// One pass; none where the unknowns make no sense.
    fn pass(&self, u: &Unknowns, wanted: Wanted) -> Option<Pass> {
        let (car, cache) = (self.car, self.cache);
        let [p_evaporating, p_condensing, flow] = [u[0].exp(), u[1].exp(), u[2].exp()];
        let (dry, flooded, capacity_fraction) = (u[3], u[4], u[5]);
        let gas_cooler = self.is_gas_cooler();
        let highest = if gas_cooler { 2.2 } else { 0.97 } * self.fluid.critical_pa;
        if !(p_evaporating < p_condensing && p_condensing < highest && capacity_fraction > 1e-3 && dry < 1.0) {
            return None;
        }
        let low = self.fluid.boiling(p_evaporating)?;
        let condenser_face = self.condenser_face(p_condensing, flow);
        let evaporator_face = car.evaporator.face(self.evaporator_air.flow, self.air_cp, flow);

        // evaporator: the air, then what leaves
        let near = Some(cache.surface.get()).filter(|surface| (surface - low.t).abs() < 30.0);
        let wetted = evaporator::boil(&evaporator_face, &self.evaporator_air, low.t, near, SURFACE)?;
        cache.surface.set(wetted.surface);
        let cp_low = self.fluid.vapour_cp_again(&low, cache);
        // T = T_air − (T_air − T₀) exp(−w Cₐ ε/C); liquid carried over continues the slope
        let transfer = evaporator_face.one_phase / (flow * cp_low);
        let drive = wetted.inlet - low.t;
        if drive <= 0.0 {
            return None;
        }
        let superheat = if dry >= 0.0 { -drive * (-dry * transfer).exp_m1() } else { 0.0 };
        let h_evaporator_out = low.h_v + cp_low * if dry >= 0.0 { superheat } else { drive * transfer * dry };
        let outlet_quality = ((h_evaporator_out - low.h_l) / low.latent()).min(1.0);
        if outlet_quality < 0.2 {
            return None;
        }
        let t_evaporator_out = low.t + superheat;

        // what comes to the expansion device, before the internal exchanger
        let high = if gas_cooler { None } else { self.fluid.boiling(p_condensing) };
        let place = match &high {
            Some(both) if self.receiver_drop > 0.0 => Some(self.behind(both, flow, flooded, p_evaporating)?),
            _ => None,
        };
        let backed = place.map_or(flooded, |(_, backed)| backed);
        let behind = place.as_ref().map(|(behind, _)| behind);
        let liquid = behind.or(high.as_ref());
        let warm = self.ambient + car.condenser_air.air_on_rise_k;
        let mut air_in = warm;
        let (t_liquid_early, h_liquid_early, rho_liquid, cp_liquid) = if gas_cooler {
            // T_in = Tₐ + r (T_out − Tₐ), so T_in = Tₐ + r/(1 − r) Q/Cₐ; Q as usual against the heat at the evaporator
            let heat = REJECTED * (1.0 - dry.max(0.0)) * wetted.heat;
            air_in += self.recirculated / (1.0 - self.recirculated) * heat / condenser_face.air;
            let t = air_in + flooded.exp();
            let outlet = self.fluid.at_temperature(p_condensing, t, wanted, &cache.nodes[NODES - 1])?;
            (t, outlet.h, outlet.rho, outlet.cp)
        } else {
            // the subcooled end does not depend on the gas that comes in
            let both = high.as_ref()?;
            let duty = condenser::Duty {
                both,
                behind,
                flow,
                h_in: both.h_v,
                t_in: both.t,
                air: warm,
                recirculated: self.recirculated,
                pass: car.subcooling_pass,
                backed,
            };
            let early = condenser::condense(&condenser_face, &duty)?;
            (early.t_out, early.h_out, liquid?.rho_l, None)
        };

        // internal exchanger and suction line
        let exchanged = cp_low * car.internal_exchanger * (t_liquid_early - t_evaporator_out).max(0.0);
        let t_after = t_evaporator_out + exchanged / cp_low;
        let around = self.ambient + car.lines.underhood_rise_k;
        let gained = cp_low * -(-car.lines.suction_gain_w_per_k / (flow * cp_low)).exp_m1() * (around - t_after);
        let h_suction = h_evaporator_out + exchanged + gained;
        let h_expansion = h_liquid_early - exchanged;
        let suction_p = p_evaporating - car.lines.suction_drop * flow * flow / low.rho_v;
        if suction_p < 0.3 * p_evaporating {
            return None;
        }
        let suction = self.fluid.at_enthalpy(suction_p, h_suction, wanted, &cache.suction)?;

        // compressor; air inside adds its pressure on the high side
        let store = match car.storage {
            Storage::Receiver { volume_m3 } => 0.5 * volume_m3,
            Storage::Accumulator { .. } => 0.0,
        };
        let air_p = car.non_condensables.kg() * AIR_GAS_CONSTANT * high.map_or(self.ambient, |both| both.t)
            / (0.7 * car.condenser.volume_m3 + store + car.lines.discharge_m3);
        let rho_discharge = high.map_or(p_condensing / 5e4, |both| both.rho_v);
        let condenser_p = p_condensing + air_p;
        let discharge_p = condenser_p + car.lines.discharge_drop * flow * flow / rho_discharge;
        let compression =
            car.compressor.compress(&self.fluid, &suction, discharge_p, self.rpm, wanted, &cache.compressed)?;
        let pumped = capacity_fraction * compression.flow;

        // condenser
        let (condensed, face, condenser_density) = if gas_cooler {
            let duty = gas_cooler::Duty {
                p: p_condensing,
                flow,
                h_in: compression.h_out,
                t_in: compression.t_out,
                rho_in: compression.rho_out,
                h_out: h_liquid_early,
                t_out: t_liquid_early,
                rho_out: rho_liquid,
                cp_out: cp_liquid,
                air_in,
                approach: flooded.exp(),
            };
            let cooled = gas_cooler::cool(&self.fluid, &condenser_face, &duty, wanted, &cache.nodes)?;
            let condensed = Condensed {
                gas: cooled.face,
                condensing: 0.0,
                liquid: 0.0,
                h_out: h_liquid_early,
                t_out: t_liquid_early,
                quality_out: 0.0,
                air_in,
                ..Condensed::default()
            };
            (condensed, cooled.face, cooled.density)
        } else {
            let both = high.as_ref()?;
            let duty = condenser::Duty {
                both,
                behind,
                flow,
                h_in: compression.h_out,
                t_in: compression.t_out,
                air: warm,
                recirculated: self.recirculated,
                pass: car.subcooling_pass,
                backed,
            };
            let condensed = condenser::condense(&condenser_face, &duty)?;
            let face = condensed.gas + condensed.condensing + condensed.liquid;
            (condensed, face, condensed.density(both, behind))
        };

        // expansion device; the air is in the receiver too
        let liquid_p = liquid.map_or(p_condensing, |both| both.p) + air_p;
        let expansion_residual = match car.expansion {
            Expansion::HighSide { factor } => {
                let wanted = self.held_pressure(factor, low.t, t_liquid_early, air_p)?;
                p_condensing / wanted - 1.0
            }
            Expansion::Valve { area_m2, static_superheat_k, gradient_k } => {
                let upstream = self.upstream(liquid?, h_expansion, liquid_p)?;
                // liquid carried over is felt as no superheat and less
                let felt = if dry >= 0.0 { superheat } else { drive * transfer * dry };
                let through =
                    expansion::through_valve(area_m2, static_superheat_k, gradient_k, felt, &upstream, p_evaporating);
                through / flow - 1.0
            }
            Expansion::Orifice { bore_m, length_m } => {
                let upstream = self.upstream(liquid?, h_expansion, liquid_p)?;
                expansion::through_tube(bore_m, length_m, &upstream) / flow - 1.0
            }
        };

        // evaporator: heat taken by the boiling part
        let inlet_quality = (h_expansion - low.h_l) / low.latent();
        let boiled = if dry >= 0.0 {
            ((1.0 - dry) * wetted.heat) / (flow * (low.h_v - h_expansion)) - 1.0
        } else {
            wetted.heat / (flow * (h_evaporator_out - h_expansion)) - 1.0
        };
        let wet_share = if dry >= 0.0 { 1.0 - dry } else { 1.0 };
        let superheating = if dry >= 0.0 { flow * cp_low * superheat } else { 0.0 };
        let cabin_heat = wet_share * wetted.heat + superheating;
        let air_off = wetted.inlet - (wet_share * wetted.sensible + superheating) / evaporator_face.air;

        let felt = Felt {
            suction_pa: suction_p,
            air_pa: self.evaporator_air.p,
            discharge_pa: discharge_p,
            // a probe between the fins feels both
            fins_k: 0.5 * (wetted.surface + air_off),
            air_off_k: air_off,
        };
        let asked = car.control.capacity_fraction(&felt, car.high_limit_pa);
        Some(Pass {
            residuals: [pumped / flow - 1.0, expansion_residual, face - 1.0, boiled, capacity_fraction - asked],
            evaporating: low,
            behind: behind.copied(),
            condensing: if gas_cooler && p_condensing < 0.985 * self.fluid.critical_pa {
                self.fluid.boiling(p_condensing)
            } else {
                high
            },
            condensed,
            condenser_density,
            wetted,
            cabin_heat,
            air_off,
            superheat,
            felt,
            suction,
            line_gain: flow * gained,
            suction_p,
            discharge_p,
            condenser_p,
            compression,
            inlet_quality,
            outlet_quality,
            flow,
            capacity_fraction,
            liquid_density: rho_liquid,
            dry: dry.max(0.0),
        })
    }

    /// Behind a closed place at the condenser's outlet: saturation, and liquid backed up or, below zero, the quality there.
    ///
    /// `backed` below zero is the quality that liquid alone before it would leave: then nothing is to be searched.
    fn behind(&self, both: &Boiling, flow: f64, backed: f64, lowest: f64) -> Option<(Boiling, f64)> {
        let at = |drop: f64| if both.p - drop > lowest { self.fluid.boiling(both.p - drop) } else { None };
        // Δp = k ṁ² v with what comes: liquid, as long as it stands there
        let drop = self.receiver_drop * flow * flow / both.rho_l;
        let liquid = at(drop)?;
        let over = liquid.h_l + (-backed).max(0.0) * liquid.latent() - both.h_l;
        if over <= 0.0 {
            return Some((liquid, backed));
        }
        // v = v′ + x (v″ − v′)
        let mixed = at(drop * (1.0 + over / both.latent() * (both.rho_l / both.rho_v - 1.0)))?;
        Some((mixed, -(both.h_l + over - mixed.h_l) / mixed.latent()))
    }

    /// What comes to the expansion device with enthalpy `h` at pressure `p`, air and all.
    fn upstream(&self, high: &Boiling, h: f64, p: f64) -> Option<Upstream> {
        let over = h - high.h_l;
        let subcooling = (-over / high.cp_l).max(0.0);
        Some(Upstream {
            p,
            saturated_p: if over < 0.0 { self.fluid.pressure(high.t - subcooling)? } else { high.p },
            limit_p: self.fluid.pressure(high.t - MOST_SUBCOOLING)?,
            subcooling,
            quality: (over / high.latent()).max(0.0),
            rho_l: high.rho_l,
            rho_v: high.rho_v,
            critical_pa: self.fluid.critical_pa,
            critical_k: self.fluid.critical_k,
        })
    }

    /// The pressure a high-side valve holds for R-744, Pa: `factor` times the best by Liao, Zhao & Jakobsen 2000, and above
    /// condensing.
    fn held_pressure(&self, factor: f64, evaporating: f64, outlet: f64, air_p: f64) -> Option<f64> {
        let (t0, t) = (evaporating - 273.15, outlet - 273.15);
        let best = factor * 1e5 * ((2.778 - 0.0157 * t0) * t + 0.381 * t0 - 9.34);
        // 3 % above the saturation pressure of what leaves; past the critical point at half its last slope, so as not to bind
        let edge = self.fluid.critical_k - 0.2;
        let saturated = if outlet < edge {
            self.fluid.pressure(outlet)?
        } else {
            let (at, before) = (self.fluid.pressure(edge)?, self.fluid.pressure(edge - 1.0)?);
            at + 0.5 * (at - before) * (outlet - edge)
        };
        let floor = 1.03 * saturated;
        let wanted = floor + positive(best - floor, 1e5);
        // and clear of the limit, air inside included
        let most = 0.93 * self.car.high_limit_pa - air_p;
        Some(most - positive(most - wanted, 1e5))
    }

    /// Mass in all volumes but the store, and what the store adds from empty to full, kg.
    fn contents(&self, pass: &Pass) -> (f64, f64, f64) {
        let car = self.car;
        let low = &pass.evaporating;
        let high_vapour = pass.behind.or(pass.condensing).map_or(pass.compression.rho_out, |both| both.rho_v);
        let liquid_line = match pass.behind.as_ref().or(pass.condensing.as_ref()) {
            Some(both) if pass.condensed.quality_out > 0.0 => {
                mixed_density(both, pass.condensed.quality_out, pass.condensed.quality_out)
            }
            _ => pass.liquid_density,
        };
        let boiling = mixed_density(low, pass.inlet_quality, pass.outlet_quality);
        let evaporator = (1.0 - pass.dry) * boiling + pass.dry * low.rho_v;
        let suction = if pass.outlet_quality < 1.0 {
            mixed_density(low, pass.outlet_quality, pass.outlet_quality)
        } else {
            pass.suction.rho
        };
        let rest = car.condenser.volume_m3 * pass.condenser_density
            + car.lines.liquid_m3 * liquid_line
            + car.evaporator.volume_m3 * evaporator
            + car.lines.suction_m3 * suction
            + car.lines.discharge_m3 * pass.compression.rho_out;
        match car.storage {
            Storage::Receiver { volume_m3 } => (rest, volume_m3 * high_vapour, volume_m3 * pass.liquid_density),
            Storage::Accumulator { volume_m3 } => (rest, volume_m3 * low.rho_v, volume_m3 * low.rho_l),
        }
    }

    /// The charge against what the volumes hold with the store as the regime has it.
    fn charge_residual(&self, pass: &Pass, regime: Regime) -> f64 {
        let (rest, empty, full) = self.contents(pass);
        match regime {
            Regime::Stored => 0.0,
            Regime::Empty => (rest + empty) / self.charge - 1.0,
            Regime::Full => (rest + full) / self.charge - 1.0,
        }
    }

    /// Which unknown is known while the store is partly full: the dry share with an accumulator, else the flooded share.
    fn held(&self) -> usize {
        match self.car.storage {
            Storage::Receiver { .. } => 4,
            Storage::Accumulator { .. } => 3,
        }
    }

    /// Searches from `start` in `regime`; where it ended and with which residual.
    fn search(&self, start: &Unknowns, regime: Regime, evaluations: &mut usize) -> Option<(Unknowns, f64)> {
        let mut longest = LONGEST;
        if self.is_gas_cooler() {
            longest[4] = LONGEST_APPROACH;
        }
        let wanted = |beside| if beside { Wanted::Beside } else { Wanted::Exact };
        let most = MOST.min(self.most().saturating_sub(*evaluations));
        if regime == Regime::Stored {
            let held = self.held();
            let free: [usize; 5] = std::array::from_fn(|i| if i < held { i } else { i + 1 });
            let full = |x: &SVector<f64, 5>| {
                let mut u = *start;
                u[held] = 0.0;
                for (&i, &value) in free.iter().zip(x.iter()) {
                    u[i] = value;
                }
                u
            };
            let longest = SVector::from(free.map(|i| longest[i]));
            let f = |x: &SVector<f64, 5>, beside| {
                self.pass(&full(x), wanted(beside)).map(|pass| SVector::from(pass.residuals))
            };
            let outcome = broyden(f, SVector::from(free.map(|i| start[i])), &longest, self.care.tolerance, most)?;
            *evaluations += outcome.evaluations;
            Some((full(&outcome.x), outcome.residual))
        } else {
            let f = |x: &SVector<f64, 6>, beside| {
                let pass = self.pass(&(*x).into(), wanted(beside))?;
                let [a, b, c, d, e] = pass.residuals;
                Some(SVector::from([a, b, c, d, e, self.charge_residual(&pass, regime)]))
            };
            let outcome = broyden(f, SVector::from(*start), &SVector::from(longest), self.care.tolerance, most)?;
            *evaluations += outcome.evaluations;
            Some((outcome.x.into(), outcome.residual))
        }
    }

    /// A balance in the rough: capacity of evaporator, compressor and condenser at two temperatures, no superheat, no drops.
    fn guess(&self, colder: f64, hotter: f64, less: f64) -> Option<Unknowns> {
        let car = self.car;
        let gas_cooler = self.is_gas_cooler();
        let warm = self.ambient + car.condenser_air.air_on_rise_k;
        // what is drawn in is thinner than saturated vapour, much so behind an internal exchanger
        let thinner = 0.93 - if gas_cooler { 0.3 } else { 0.2 } * car.internal_exchanger;
        let n = thinner * car.compressor.displacement_m3 * self.rpm / 60.0;
        let evaporator_face = car.evaporator.face(self.evaporator_air.flow, self.air_cp, car.evaporator.flow_kg_per_s);
        let mut lift = 18.0;
        let mut t0 = (self.ambient - 25.0).min(self.fluid.critical_k - 29.0);
        let mut near = None;
        let mut answer = None;
        for _ in 0..3 {
            let (pc, h_liquid) = if gas_cooler {
                let outlet = warm + 0.35 * lift;
                let pc = self.held_pressure(1.0, 275.0, outlet, 0.0)?.min(0.97 * car.high_limit_pa);
                (pc, self.fluid.at_temperature(pc, outlet, Wanted::Exact, &self.cache.nodes[NODES - 1])?.h)
            } else {
                let both = self.fluid.boiling(self.fluid.pressure((warm + lift).min(0.97 * self.fluid.critical_k))?)?;
                (both.p, both.h_l - 5.0 * both.cp_l)
            };
            let condenser_face = self.condenser_face(pc, car.condenser.flow_kg_per_s);
            // flow at full delivery and heat it could take, against heat the air could give
            let pumped = |low: &Boiling| {
                let blown_back = car.compressor.clearance * ((pc / low.p).powf(0.9) - 1.0);
                let speed = self.rpm.min(5500.0);
                n * (car.compressor.volumetric_efficiency - car.compressor.volumetric_efficiency_loss_min * speed)
                    * (1.0 - blown_back).max(0.1)
                    * low.rho_v
            };
            let at = |t0: f64, near: Option<f64>| -> Option<(Boiling, f64, f64, Wetted)> {
                let low = self.fluid.boiling(self.fluid.pressure(t0)?)?;
                let wetted = evaporator::boil(&evaporator_face, &self.evaporator_air, t0, near, 0.05)?;
                Some((low, pumped(&low), 0.95 * wetted.heat, wetted))
            };
            // the flow grows by about 3.5 % a kelvin, the heat goes with the distance to the air
            let mildest = (self.ambient - 1.0).min(self.fluid.critical_k - 5.0);
            for _ in 0..3 {
                let (low, flow, heat, wetted) = at(t0, near)?;
                // what leaves a hot gas cooler may hold more heat than vapour near the critical point: a little is left
                let over = (flow * (low.h_v - h_liquid).max(1e4) / heat).ln();
                let slope = 0.035 + 1.0 / (self.ambient - t0).max(2.0);
                t0 = (t0 - (over / slope).clamp(-15.0, 15.0)).clamp(self.ambient - 55.0, mildest);
                near = Some(wetted.surface);
            }
            let held = match car.control {
                Control::LowPressureSwitch { cut_out, .. } => {
                    self.fluid.temperature(cut_out.pa() + self.evaporator_air.p)?
                }
                Control::Thermostat { cut_out_k, .. } => cut_out_k - 3.0,
                Control::SuctionPressure { set_pa, compensation, .. } => {
                    self.fluid.temperature((set_pa - compensation * (pc - 1.5e6)).max(1e5))?
                }
                Control::AirOff { set_k, .. } => set_k - 4.0,
            };
            let t0 = (t0.max(held) + colder).min(self.ambient - 1.0).min(self.fluid.critical_k - 4.0);
            let (low, flow, heat, wetted) = at(t0, near)?;
            let latent = low.h_v - h_liquid;
            let least = super::control::LEAST.value.fraction();
            let limited = if pc > 0.95 * car.high_limit_pa { 0.6 } else { 1.0 };
            let capacity_fraction = (less * limited * heat / (flow * latent)).clamp(least, 0.998);
            let flow = capacity_fraction * flow;
            let heat = heat.min(flow * latent).max(0.3 * heat);
            let lost = 1.0 + (warm + lift - t0) / t0 / 0.55;
            let (r, effect) = (self.recirculated, 0.85 * condenser_face.two_phase);
            lift = (heat * lost * (1.0 / effect + r / (1.0 - r) / condenser_face.air)).clamp(2.0, 45.0);
            let flooded = match car.storage {
                Storage::Receiver { .. } => 0.0,
                Storage::Accumulator { .. } if gas_cooler => {
                    // θ₂ = θ₁ exp(−Cₐ ε (θ₁ − θ₂)/Q), twice from 5 K, the gas 70 K above its air
                    let cooled = |end: f64| 70.0 * (-condenser_face.one_phase * (70.0 - end) / (heat * lost)).exp();
                    (cooled(cooled(5.0)).clamp(2.5, 25.0) + 0.3 * hotter.max(0.0)).ln()
                }
                Storage::Accumulator { .. } => 0.08,
            };
            let pc = if gas_cooler {
                let air_in = warm + r / (1.0 - r) * REJECTED * heat / condenser_face.air;
                self.held_pressure(1.0, t0, air_in + flooded.exp(), 0.0)?.min(car.high_limit_pa)
            } else {
                self.fluid.pressure((warm + lift + hotter).min(0.96 * self.fluid.critical_k))?
            };
            let pc = if self.receiver_drop > 0.0 {
                // above the receiver by what is lost on the way
                let lost = self.receiver_drop * flow * flow / self.fluid.boiling(pc)?.rho_l;
                (pc + lost).min(0.98 * car.high_limit_pa).min(0.9 * self.fluid.critical_pa).max(pc)
            } else {
                pc
            };
            answer = Some((low, wetted, [low.p.ln(), pc.ln(), flow.ln(), 0.0, flooded, capacity_fraction]));
        }
        let (low, wetted, mut u) = answer?;
        if let Expansion::Valve { area_m2, static_superheat_k, gradient_k } = car.expansion {
            // as dry as the valve asks for, to let this flow through, a third of the pressure choked
            let (pc, flow) = (u[1].exp(), u[2].exp());
            let rho = self.fluid.boiling(pc)?.rho_l;
            let opening = flow / (area_m2 * (0.6 * rho * pc).sqrt());
            let superheat = static_superheat_k + gradient_k * opening.clamp(0.05, 0.95);
            let share = (superheat / (wetted.inlet - low.t)).clamp(0.02, 0.9);
            let face = car.evaporator.face(self.evaporator_air.flow, self.air_cp, flow);
            u[3] = -(-share).ln_1p() * flow * self.fluid.vapour_cp_again(&low, self.cache) / face.one_phase;
        }
        Some(u)
    }

    /// The state that a search from `start` settles in, where mass and energy close; and where it was with the store partly full.
    fn close(
        &self,
        start: &Unknowns,
        operation: &OperatingPoint,
        evaluations: &mut usize,
    ) -> Result<(SteadyState, Unknowns), Miss> {
        let (pass, regime, stored) = self.settle(start, evaluations)?;
        let state = self.report(&pass, operation, regime, *evaluations);
        let residual = state.residuals.worst();
        if residual <= self.care.closed {
            Ok((state, stored))
        } else {
            Err(Miss { residual, what: "balance of the loop" })
        }
    }
}

/// The steady state of `car` in `operation`.
///
/// # Errors
/// [`Error::NotConverged`], [`Error::NotModelled`].
pub(super) fn solve(
    car: &Circuit,
    operation: &OperatingPoint,
    care: Care,
    near: Option<&Unknowns>,
) -> Result<(SteadyState, Unknowns), Error> {
    let cache = StateCache::default();
    let round = Loop::new(car, operation, &cache, care)?;
    let mut evaluations = 0;
    let mut best = Miss { residual: f64::INFINITY, what: "balance of the loop" };
    let guesses = BESIDE.into_iter().filter_map(|(colder, hotter, less)| round.guess(colder, hotter, less));
    for start in near.copied().into_iter().chain(guesses) {
        match round.close(&start, operation, &mut evaluations) {
            Ok(state) => return Ok(state),
            Err(miss) => best = best.or(miss),
        }
        if evaluations > round.most() {
            return Err(best.error(evaluations));
        }
    }
    // from an open outlet, then from an easy day too, the state is followed to the one asked for
    let open = Loop { receiver_drop: 0.0, ..round };
    let easy = Loop { receiver_drop: 0.0, ..Loop::new(car, &EASY, &cache, care)? };
    for from in [open, easy].iter().skip(usize::from(round.receiver_drop == 0.0)) {
        for (colder, hotter, less) in BESIDE {
            let Some(start) = from.guess(colder, hotter, less) else { continue };
            let Some((u, _)) =
                from.search(&start, Regime::Stored, &mut evaluations).filter(|found| found.1 <= care.tolerance)
            else {
                continue;
            };
            let found = follow(|share| from.towards(&round, share), u, Regime::Stored, &mut evaluations);
            match found.and_then(|u| round.close(&u, operation, &mut evaluations)) {
                Ok(state) => return Ok(state),
                Err(miss) => best = best.or(miss),
            }
            break;
        }
    }
    Err(best.error(evaluations))
}

/// How near a search came, and which balance did not close.
#[derive(Clone, Copy)]
struct Miss {
    residual: f64,
    what: &'static str,
}

impl Miss {
    fn or(self, other: Self) -> Self {
        if other.residual < self.residual { other } else { self }
    }

    fn error(self, steps: usize) -> Error {
        Error::NotConverged { solving: self.what, steps, residual: self.residual }
    }
}

/// From a solution of `at(0)` to one of `at(1)`, in as few steps as it takes.
fn follow<'a>(
    at: impl Fn(f64) -> Loop<'a>,
    start: Unknowns,
    regime: Regime,
    evaluations: &mut usize,
) -> Result<Unknowns, Miss> {
    /// The shortest step that is still tried.
    const SHORTEST: f64 = 1e-4;
    let (mut share, mut u) = (0.0, start);
    // where it was before, and how far that is
    let mut before: Option<(Unknowns, f64)> = None;
    let mut stride: f64 = 1.0;
    let mut residual = f64::INFINITY;
    while stride > SHORTEST && *evaluations < at(0.0).most() {
        let next = if share + stride > 1.0 - SHORTEST { 1.0 } else { share + stride };
        let round = at(next);
        // straight on, unless that leaves what is defined
        let ahead = before.map(|(was, length)| {
            let far = (next - share) / length;
            std::array::from_fn(|i| u[i] + far * (u[i] - was[i]))
        });
        let from = ahead.filter(|ahead| round.pass(ahead, Wanted::Exact).is_some()).unwrap_or(u);
        match round.search(&from, regime, evaluations) {
            Some((found, size)) if size <= round.care.tolerance => {
                if next == 1.0 {
                    return Ok(found);
                }
                before = Some((u, next - share));
                (u, share) = (found, next);
                stride *= 2.0;
            }
            outcome => {
                residual = outcome.map_or(residual, |(_, size)| size);
                stride *= 0.35;
            }
        }
    }
    let what = if regime == Regime::Stored { "balance of the loop" } else { "charge of the loop" };
    Err(Miss { residual, what })
}

impl Pass {
    /// The name of the balance that is furthest from closing.
    fn worst(&self) -> &'static str {
        const NAMES: [&str; 5] = [
            "flow of the compressor",
            "flow of the expansion device",
            "heat of the condenser",
            "heat of the evaporator",
            "control of the compressor",
        ];
        let largest = |a: &(f64, &'static str), b: &(f64, &'static str)| a.0.total_cmp(&b.0);
        let sizes = self.residuals.iter().map(|r| r.abs()).zip(NAMES);
        sizes.max_by(largest).map_or("balance of the loop", |(_, name)| name)
    }
}

impl Loop<'_> {
    /// The share `share` of the way from this day to another.
    fn towards(&self, other: &Self, share: f64) -> Self {
        let between = |from: f64, to: f64| from + share * (to - from);
        let (here, there) = (&self.evaporator_air, &other.evaporator_air);
        Self {
            rpm: between(self.rpm, other.rpm),
            ambient: between(self.ambient, other.ambient),
            air_cp: between(self.air_cp, other.air_cp),
            density: between(self.density, other.density),
            ram: between(self.ram, other.ram),
            recirculated: between(self.recirculated, other.recirculated),
            receiver_drop: between(self.receiver_drop, other.receiver_drop),
            evaporator_air: AirSide {
                t: between(here.t, there.t),
                w: between(here.w, there.w),
                p: between(here.p, there.p),
                flow: between(here.flow, there.flow),
                returned: between(here.returned, there.returned),
            },
            ..*other
        }
    }

    /// The balance near `start`, charge and all; and that with the store partly full.
    fn settle(&self, start: &Unknowns, evaluations: &mut usize) -> Result<(Pass, Regime, Unknowns), Miss> {
        let nowhere = Miss { residual: f64::INFINITY, what: "balance of the loop" };
        let (u, residual) = self.search(start, Regime::Stored, evaluations).ok_or(nowhere)?;
        let pass = self.pass(&u, Wanted::Exact).ok_or(nowhere)?;
        if residual > self.care.tolerance {
            return Err(Miss { residual, what: pass.worst() });
        }
        let (rest, empty, full) = self.contents(&pass);
        let charge = self.charge;
        // the store empty or full: from the charge at which it just was
        let (regime, from) = if charge < rest + empty {
            (Regime::Empty, rest + empty)
        } else if charge > rest + full {
            (Regime::Full, rest + full)
        } else {
            return Ok((pass, Regime::Stored, u));
        };
        let at = |share| Self { charge: from + share * (charge - from), ..*self };
        let end = follow(at, u, regime, evaluations)?;
        Ok((self.pass(&end, Wanted::Exact).ok_or(nowhere)?, regime, u))
    }

    fn report(&self, pass: &Pass, operation: &OperatingPoint, regime: Regime, evaluations: usize) -> SteadyState {
        let car = self.car;
        let k = Temperature::from_kelvin;
        let step = TemperatureDifference::from_kelvins;
        let gauge = |pa: f64| Pressure::from_pa(pa).gauge(operation.air);
        let low_pa = pass.suction_p + car.lines.low_port * (pass.evaporating.p - pass.suction_p);
        let along = if car.lines.high_port < 0.0 {
            pass.condensing.zip(pass.behind).map_or(0.0, |(before, behind)| before.p - behind.p)
        } else {
            pass.discharge_p - pass.condenser_p
        };
        let high_pa = pass.condenser_p + car.lines.high_port * along;
        let saturated = |pa: f64| Some(self.fluid.dome.curve.temperature(Pressure::from_pa(pa)).ok()?.kelvin());
        let t_suction = pass.suction.t;
        let superheat_at_port = saturated(low_pa).map_or(0.0, |t| (t_suction - t).max(0.0));
        let liquid = pass.condensed.t_out;
        let high_saturated = saturated(high_pa);
        let (rest, empty, full) = self.contents(pass);
        let charge = car.charge.kg();
        let [compressor_flow, expansion_flow, condenser_heat, evaporator_heat, control] = pass.residuals;
        SteadyState {
            low_side: gauge(low_pa),
            high_side: gauge(high_pa),
            // a clutch held open by the high side does not swing between these
            cycling_range: car.control.cycling_range().filter(|_| car.control.asked(&pass.felt) < 0.97),
            capacity_fraction: Ratio::from_fraction(pass.capacity_fraction),
            clutch_duty_cycle: Ratio::from_fraction(match car.drive {
                Drive::Belt { .. } => car.control.clutch_duty_cycle(pass.capacity_fraction, &pass.felt),
                Drive::Motor { .. } => 1.0,
            }),
            evaporating: k(pass.evaporating.t),
            condensing: pass.condensing.map(|both| k(both.t)),
            suction_line: k(t_suction),
            discharge_line: k(pass.compression.t_out),
            liquid_line: k(liquid),
            superheat: step(pass.superheat),
            superheat_at_port: step(superheat_at_port),
            subcooling: pass.condensing.map(|both| step(both.t - liquid)),
            subcooling_at_port: high_saturated.map(|t| step(t - liquid)),
            vapour_in_liquid_line: Ratio::from_fraction(pass.condensed.quality_out),
            condensing_over_ambient: high_saturated.map(|t| step(t - self.ambient)),
            vent: k(pass.air_off + car.evaporator_air.duct_k),
            surface: k(pass.wetted.surface),
            air_on_condenser: k(pass.condensed.air_in),
            air_on_evaporator: k(pass.wetted.inlet),
            capacity: Power::from_w(pass.cabin_heat),
            shaft: Power::from_w(pass.flow * pass.compression.work),
            rejected: Power::from_w(pass.flow * (pass.compression.h_out - pass.condensed.h_out)),
            line_gain: Power::from_w(pass.line_gain),
            shell_loss: Power::from_w(car.compressor.shell_loss * pass.flow * pass.compression.work),
            flow_kg_per_s: pass.flow,
            water_kg_per_s: (1.0 - pass.dry) * pass.wetted.water,
            compressor_rpm: match car.drive {
                Drive::Belt { .. } => self.rpm,
                Drive::Motor { .. } => self.rpm * pass.capacity_fraction,
            },
            liquid_level: Ratio::from_fraction(((charge - rest - empty) / (full - empty)).clamp(0.0, 1.0)),
            holds: Range::new(Mass::from_kg(rest + empty), Mass::from_kg(rest + full)),
            residuals: Residuals {
                compressor_flow,
                expansion_flow,
                condenser_heat,
                evaporator_heat,
                control,
                charge: self.charge_residual(pass, regime),
            },
            evaluations,
        }
    }
}
