//! High side of the circuit: everything in which a condenser and a gas cooler differ.

use super::compressor::Compression;
use super::condenser::{self, CondenserDuty, CondenserZones, LiquidDensities};
use super::exchanger::Face;
use super::expansion::{self, Expansion, HighSideValve, Upstream};
use super::fluid::{Fluid, SaturatedPair};
use super::gas_cooler::{self, GasCoolerDuty};
use super::sizes::Circuit;
use super::state_cache::{Evaluation, NODES, StateCache};

/// A condenser, or the gas cooler of R-744, chosen once for a circuit by [`HighSide::of`].
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum HighSide {
    /// Condenser: the refrigerant condenses; its pressure follows from the heat balance.
    Condenser(Condenser),
    /// Gas cooler: the refrigerant may stay above its critical pressure; a valve holds the pressure.
    GasCooler(GasCooler),
}

/// Parameters of a condenser beside its exchanger.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Condenser {
    /// Fraction of the face downstream of the receiver, which only subcools.
    subcooling_pass: f64,
    /// Pressure drop between condenser and receiver over ṁ²/ρ, 1/m⁴.
    receiver_drop: f64,
}

/// Parameters of a gas cooler beside its exchanger.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct GasCooler {
    /// Discharge pressure limit, Pa.
    limit_pa: f64,
}

/// Conditions of the high side in one pass of the model.
#[derive(Debug, Clone, Copy)]
pub(super) struct HighSideConditions<'a> {
    pub(super) fluid: &'a Fluid,
    pub(super) cache: &'a StateCache,
    pub(super) evaluation: Evaluation,
    /// Condensing pressure, or pressure in the gas cooler, without the partial pressure of non-condensables, Pa.
    pub(super) p: f64,
    /// Refrigerant flow, kg/s.
    pub(super) flow: f64,
    pub(super) face: Face,
    /// Air in front of the exchanger before recirculation, K.
    pub(super) air: f64,
    /// Recirculated fraction of the air.
    pub(super) recirculated: f64,
}

/// Quantities of the low side that the high side depends on.
#[derive(Debug, Clone, Copy)]
pub(super) struct LowSide {
    /// Evaporating pressure, Pa.
    pub(super) p: f64,
    /// Fraction of the evaporator in which refrigerant boils.
    pub(super) boiling_share: f64,
    /// Heat taken up if refrigerant boiled over the whole evaporator, W.
    pub(super) coil_heat: f64,
}

/// Outlet state of the refrigerant on its way to the internal exchanger.
#[derive(Debug, Clone, Copy)]
pub(super) struct Outlet {
    /// Temperature, K.
    pub(super) t: f64,
    /// Enthalpy, J/kg.
    pub(super) h: f64,
    /// Density, kg/m³; of liquid where vapour is present too.
    pub(super) rho: f64,
    from: OutletOf,
}

/// Data from which the outlet state was computed, used again once the inlet state is known.
#[derive(Debug, Clone, Copy)]
enum OutletOf {
    Condenser {
        condenser: Condenser,
        pair: SaturatedPair,
        /// Saturation downstream of a restriction before the receiver; `None` without one.
        behind: Option<SaturatedPair>,
        /// Fraction of the face filled with liquid beyond the pass; below zero, the quality at the outlet.
        backed_up: f64,
        liquid: LiquidDensities,
    },
    GasCooler {
        cp: Option<f64>,
        /// Air temperature on the face, K.
        air_in: f64,
        /// Outlet temperature over that of the air, K.
        approach: f64,
    },
}

/// Result of the heat balance on the face.
#[derive(Debug, Clone, Copy)]
pub(super) struct HighSideState {
    /// Fraction of the face that the heat needs: one in the steady state.
    pub(super) face_share: f64,
    /// Mean density inside the exchanger, kg/m³.
    pub(super) density: f64,
    /// Saturation at the condensing pressure; `None` near and above the critical pressure.
    pub(super) condensing: Option<SaturatedPair>,
    /// Saturation downstream of a restriction before the receiver; `None` without one.
    pub(super) behind: Option<SaturatedPair>,
    /// Enthalpy at the outlet, J/kg.
    pub(super) h_out: f64,
    /// Temperature at the outlet, K.
    pub(super) t_out: f64,
    /// Quality at the outlet; zero without vapour.
    pub(super) quality_out: f64,
    /// Air temperature on the face, K.
    pub(super) air_in: f64,
}

/// Rough figures from which the high-side unknowns are first estimated.
#[derive(Debug, Clone, Copy)]
pub(super) struct HighSideEstimate<'a> {
    pub(super) fluid: &'a Fluid,
    pub(super) face: &'a Face,
    pub(super) expansion: &'a Expansion,
    /// Discharge pressure limit, Pa.
    pub(super) limit_pa: f64,
    /// Air in front of the exchanger, K.
    pub(super) air: f64,
    pub(super) recirculated: f64,
    /// Refrigerant flow, kg/s.
    pub(super) flow: f64,
    /// Evaporating temperature, K.
    pub(super) evaporating: f64,
    /// Condensing temperature over that of the air, K.
    pub(super) over_air: f64,
    /// Further kelvins of this starting point.
    pub(super) hotter: f64,
    /// Heat taken up by the evaporator, W.
    pub(super) absorbed: f64,
    /// Heat given off over heat taken up.
    pub(super) rejected_over_absorbed: f64,
}

impl HighSideEstimate<'_> {
    /// Share of the face that liquid fills before a short tube passes the flow, at most a third.
    fn share_before_tube(&self, pair: &SaturatedPair, bore: f64, length: f64) -> Option<f64> {
        let passes = |subcooling: f64| {
            let upstream = Upstream::new(self.fluid, pair, pair.h_l - subcooling * pair.cp_l, pair.p)?;
            Some(expansion::through_tube(bore, length, &upstream))
        };
        // the air in front is warmed by what is drawn round again
        let (r, face) = (self.recirculated, self.face);
        let warmed = r / (1.0 - r) / face.air;
        let drive = (self.over_air + self.hotter).max(1.0) / (1.0 + warmed * face.two_phase);
        let (mut low, mut high) = (0.0, 0.9 * drive);
        for _ in 0..8 {
            let middle = 0.5 * (low + high);
            if passes(middle)? < self.flow { low = middle } else { high = middle }
        }
        // f = C/(Cₐ ε) ln((T_c − Tₐ)/(T − Tₐ))
        Some((self.flow * pair.cp_l / face.one_phase * (drive / (drive - low)).ln()).min(0.33))
    }
}

/// Heat given off over heat taken up by a circuit of R-744, used for recirculated air alone; our choice, at a COP of 2.
const REJECTED_OVER_ABSORBED: f64 = 1.5;

/// Evaluations after which no further search is begun, about 5 ms; with R-744, which takes longer for each, the same time.
const EVALUATIONS_CONDENSER: usize = 2500;
const EVALUATIONS_GAS_COOLER: usize = 500;

/// Share of the critical pressure above which a gas cooler is said to have no condensing temperature; our choice.
const NO_CONDENSING: f64 = 0.985;

/// Highest pressure of a condenser over the critical one: close below it; our choice.
const HIGHEST_CONDENSER: f64 = 0.97;
/// Highest pressure of a gas cooler over the critical one: far above it, beyond every limit switch; our choice.
const HIGHEST_GAS_COOLER: f64 = 2.2;
/// Longest step of the share of the face that liquid fills; our choice.
const LONGEST_STEP_CONDENSER: f64 = 0.2;
/// Longest step of the logarithm of the approach; our choice.
const LONGEST_STEP_GAS_COOLER: f64 = 1.5;
/// Pressure of R-744 at 100 °C over its density, Pa/(kg/m³), roughly; our choice.
const DISCHARGE_PA_PER_DENSITY: f64 = 5e4;

impl HighSide {
    /// The high side of `circuit`: a gas cooler where a valve holds the high-side pressure.
    pub(super) fn of(circuit: &Circuit) -> Self {
        match circuit.expansion {
            Expansion::HighSide { .. } => Self::GasCooler(GasCooler { limit_pa: circuit.high_limit_pa }),
            Expansion::Valve { .. } | Expansion::Orifice { .. } => Self::Condenser(Condenser {
                subcooling_pass: circuit.subcooling_pass,
                receiver_drop: circuit.lines.receiver_drop,
            }),
        }
    }

    /// The highest pressure of the model, Pa: close below the critical one, or far above it.
    pub(super) fn highest_pressure(&self, fluid: &Fluid) -> f64 {
        let share = match self {
            Self::Condenser(_) => HIGHEST_CONDENSER,
            Self::GasCooler(_) => HIGHEST_GAS_COOLER,
        };
        share * fluid.critical_pa
    }

    /// Evaluations of the model after which no further search is begun.
    pub(super) fn evaluation_limit(&self) -> usize {
        match self {
            Self::Condenser(_) => EVALUATIONS_CONDENSER,
            Self::GasCooler(_) => EVALUATIONS_GAS_COOLER,
        }
    }

    /// Longest step of the high-side unknown: of a share of the face, or of the logarithm of the approach.
    pub(super) fn longest_step(&self) -> f64 {
        match self {
            Self::Condenser(_) => LONGEST_STEP_CONDENSER,
            Self::GasCooler(_) => LONGEST_STEP_GAS_COOLER,
        }
    }

    /// Whether something closes the way from the condenser to the receiver.
    pub(super) fn is_restricted(&self) -> bool {
        matches!(self, Self::Condenser(condenser) if condenser.receiver_drop != 0.0)
    }

    /// The same without a restriction before the receiver.
    pub(super) fn without_restriction(self) -> Self {
        self.with_restriction(|_| 0.0)
    }

    /// The share `share` of the way from this restriction to that of `other`.
    pub(super) fn towards(self, other: Self, share: f64) -> Self {
        let here = self.restriction();
        other.with_restriction(|there| here + share * (there - here))
    }

    fn restriction(self) -> f64 {
        match self {
            Self::Condenser(condenser) => condenser.receiver_drop,
            Self::GasCooler(_) => 0.0,
        }
    }

    fn with_restriction(self, drop: impl Fn(f64) -> f64) -> Self {
        match self {
            Self::Condenser(condenser) => {
                Self::Condenser(Condenser { receiver_drop: drop(condenser.receiver_drop), ..condenser })
            }
            Self::GasCooler(_) => self,
        }
    }

    /// The outlet state, which does not depend on the gas that comes in.
    ///
    /// `unknown` is the liquid backed up as a share of the face, or the logarithm of the gas cooler's approach, K.
    pub(super) fn outlet(&self, at: &HighSideConditions, unknown: f64, low: &LowSide) -> Option<Outlet> {
        match self {
            Self::Condenser(condenser) => condenser.outlet(at, unknown, low.p),
            Self::GasCooler(_) => gas_cooler_outlet(at, unknown, low),
        }
    }

    /// How thin what the compressor draws in is against saturated vapour, by the effectiveness of an internal exchanger.
    pub(super) fn estimated_thinning(&self, internal_exchanger: f64) -> f64 {
        let warmed = match self {
            Self::Condenser(_) => 0.2,
            Self::GasCooler(_) => 0.3,
        };
        0.93 - warmed * internal_exchanger
    }

    /// First estimate of the pressure, Pa, and of the outlet's enthalpy, J/kg, `over_air` kelvins over air of `air`.
    pub(super) fn estimated_outlet(
        &self,
        fluid: &Fluid,
        cache: &StateCache,
        air: f64,
        over_air: f64,
    ) -> Option<(f64, f64)> {
        match self {
            Self::Condenser(_) => {
                let condensing = (air + over_air).min(0.97 * fluid.critical_k);
                let pair = fluid.saturated(fluid.saturation_pressure(condensing)?)?;
                Some((pair.p, pair.h_l - 5.0 * pair.cp_l))
            }
            Self::GasCooler(GasCooler { limit_pa }) => {
                let outlet = air + 0.35 * over_air;
                let valve = HighSideValve { factor: 1.0, limit_pa: *limit_pa };
                let p = valve.held_pressure(fluid, 275.0, outlet, 0.0, 1.0)?.min(0.97 * limit_pa);
                Some((p, fluid.at_temperature(p, outlet, Evaluation::Exact, &cache.nodes[NODES - 1])?.h))
            }
        }
    }

    /// First estimate of the pressure, Pa, and of the high-side unknown.
    pub(super) fn estimated_unknowns(&self, rough: &HighSideEstimate) -> Option<(f64, f64)> {
        match self {
            Self::Condenser(condenser) => condenser.estimated_unknowns(rough),
            Self::GasCooler(gas_cooler) => gas_cooler.estimated_unknowns(rough),
        }
    }
}

impl Condenser {
    fn zones(
        &self,
        at: &HighSideConditions,
        pair: &SaturatedPair,
        behind: Option<&SaturatedPair>,
        backed_up: f64,
        (h_in, t_in): (f64, f64),
    ) -> Option<CondenserZones> {
        let duty = CondenserDuty {
            pair,
            behind,
            flow: at.flow,
            h_in,
            t_in,
            air: at.air,
            recirculated: at.recirculated,
            pass: self.subcooling_pass,
            backed_up,
        };
        condenser::condense(&at.face, &duty)
    }

    fn outlet(&self, at: &HighSideConditions, flooded: f64, lowest: f64) -> Option<Outlet> {
        let pair = at.fluid.saturated(at.p)?;
        let (behind, backed_up) = if self.receiver_drop > 0.0 {
            let (behind, backed_up) = self.behind_restriction(at, &pair, flooded, lowest)?;
            (Some(behind), backed_up)
        } else {
            (None, flooded)
        };
        // the subcooled end does not depend on the gas that comes in
        let zones = self.zones(at, &pair, behind.as_ref(), backed_up, (pair.h_v, pair.t))?;
        let received = behind.as_ref().unwrap_or(&pair);
        let liquid = LiquidDensities::of(at.fluid, received, &zones, backed_up, self.subcooling_pass);
        Some(Outlet {
            t: zones.t_out,
            h: zones.h_out,
            rho: liquid.outlet,
            from: OutletOf::Condenser { condenser: *self, pair, behind, backed_up, liquid },
        })
    }

    /// Saturation downstream of a restriction at the outlet, and liquid backed up or, below zero, the quality there.
    ///
    /// `backed_up` below zero is the quality that liquid alone before it would leave, so that there is nothing to iterate.
    fn behind_restriction(
        &self,
        at: &HighSideConditions,
        pair: &SaturatedPair,
        backed_up: f64,
        lowest: f64,
    ) -> Option<(SaturatedPair, f64)> {
        let less = |drop: f64| if pair.p - drop > lowest { at.fluid.saturated(pair.p - drop) } else { None };
        // Δp = k ṁ² v with what comes: liquid, as long as it stands there
        let drop = self.receiver_drop * at.flow * at.flow / pair.rho_l;
        let liquid = less(drop)?;
        let over = liquid.h_l + (-backed_up).max(0.0) * liquid.latent() - pair.h_l;
        if over <= 0.0 {
            return Some((liquid, backed_up));
        }
        // v = v′ + x (v″ − v′)
        let mixed = less(drop * (1.0 + over / pair.latent() * (pair.rho_l / pair.rho_v - 1.0)))?;
        Some((mixed, -(pair.h_l + over - mixed.h_l) / mixed.latent()))
    }

    fn estimated_unknowns(&self, rough: &HighSideEstimate) -> Option<(f64, f64)> {
        let HighSideEstimate { fluid, flow, limit_pa, .. } = *rough;
        let condensing = (rough.air + rough.over_air + rough.hotter).min(0.96 * fluid.critical_k);
        let p = fluid.saturation_pressure(condensing)?;
        let flooded = match *rough.expansion {
            Expansion::Orifice { bore_m, length_m } => {
                rough.share_before_tube(&fluid.saturated(p)?, bore_m, length_m)?
            }
            Expansion::Valve { .. } | Expansion::HighSide { .. } => 0.0,
        };
        if self.receiver_drop <= 0.0 {
            return Some((p, flooded));
        }
        // above the receiver by what is lost on the way
        let lost = self.receiver_drop * flow * flow / fluid.saturated(p)?.rho_l;
        Some(((p + lost).min(0.98 * limit_pa).min(0.9 * fluid.critical_pa).max(p), flooded))
    }
}

/// The outlet of a gas cooler whose approach is the exponential of `ln_approach`.
fn gas_cooler_outlet(at: &HighSideConditions, ln_approach: f64, low: &LowSide) -> Option<Outlet> {
    // T_in = Tₐ + r (T_out − Tₐ), so T_in = Tₐ + r/(1 − r) Q/Cₐ; Q as usual against the heat at the evaporator
    let heat = REJECTED_OVER_ABSORBED * low.boiling_share * low.coil_heat;
    let air_in = at.air + at.recirculated / (1.0 - at.recirculated) * heat / at.face.air;
    let approach = ln_approach.exp();
    let t = air_in + approach;
    let outlet = at.fluid.at_temperature(at.p, t, at.evaluation, &at.cache.nodes[NODES - 1])?;
    Some(Outlet { t, h: outlet.h, rho: outlet.rho, from: OutletOf::GasCooler { cp: outlet.cp, air_in, approach } })
}

impl GasCooler {
    fn estimated_unknowns(&self, rough: &HighSideEstimate) -> Option<(f64, f64)> {
        let HighSideEstimate { face, recirculated: r, .. } = *rough;
        // θ₂ = θ₁ exp(−Cₐ ε (θ₁ − θ₂)/Q), twice from 5 K, the gas 70 K above its air
        let heat = rough.absorbed * rough.rejected_over_absorbed;
        let cooled = |end: f64| 70.0 * (-face.one_phase * (70.0 - end) / heat).exp();
        let ln_approach = (cooled(cooled(5.0)).clamp(2.5, 25.0) + 0.3 * rough.hotter.max(0.0)).ln();
        let air_in = rough.air + r / (1.0 - r) * REJECTED_OVER_ABSORBED * rough.absorbed / face.air;
        let valve = HighSideValve { factor: 1.0, limit_pa: self.limit_pa };
        let p = valve.held_pressure(rough.fluid, rough.evaporating, air_in + ln_approach.exp(), 0.0, 1.0)?;
        Some((p.min(self.limit_pa), ln_approach))
    }
}

impl Outlet {
    /// The heat balance on the face, for gas as the compressor sends it.
    pub(super) fn heat_balance(&self, at: &HighSideConditions, compression: &Compression) -> Option<HighSideState> {
        match &self.from {
            OutletOf::Condenser { condenser, pair, behind, backed_up, liquid } => {
                let gas = (compression.h_out, compression.t_out);
                let zones = condenser.zones(at, pair, behind.as_ref(), *backed_up, gas)?;
                Some(HighSideState {
                    face_share: zones.gas + zones.condensing + zones.liquid,
                    density: zones.density(pair, behind.as_ref(), liquid),
                    condensing: Some(*pair),
                    behind: *behind,
                    h_out: zones.h_out,
                    t_out: zones.t_out,
                    quality_out: zones.quality_out,
                    air_in: zones.air_in,
                })
            }
            OutletOf::GasCooler { cp, air_in, approach } => {
                let duty = GasCoolerDuty {
                    p: at.p,
                    flow: at.flow,
                    h_in: compression.h_out,
                    t_in: compression.t_out,
                    rho_in: compression.rho_out,
                    h_out: self.h,
                    t_out: self.t,
                    rho_out: self.rho,
                    cp_out: *cp,
                    air_in: *air_in,
                    approach: *approach,
                };
                let cooled = gas_cooler::cool(at.fluid, &at.face, &duty, at.evaluation, &at.cache.nodes)?;
                let subcritical = at.p < NO_CONDENSING * at.fluid.critical_pa;
                Some(HighSideState {
                    face_share: cooled.face,
                    density: cooled.density,
                    condensing: if subcritical { at.fluid.saturated(at.p) } else { None },
                    behind: None,
                    h_out: self.h,
                    t_out: self.t,
                    quality_out: 0.0,
                    air_in: *air_in,
                })
            }
        }
    }

    /// Saturation of the liquid that comes to the expansion device; `None` for a gas cooler.
    pub(super) fn liquid(&self) -> Option<&SaturatedPair> {
        match &self.from {
            OutletOf::Condenser { pair, behind, .. } => Some(behind.as_ref().unwrap_or(pair)),
            OutletOf::GasCooler { .. } => None,
        }
    }

    /// Density of the liquid that a receiver takes; what leaves a gas cooler.
    pub(super) fn received_density(&self) -> f64 {
        match &self.from {
            OutletOf::Condenser { liquid, .. } => liquid.received,
            OutletOf::GasCooler { .. } => self.rho,
        }
    }

    /// Saturation in the condenser; `None` for a gas cooler.
    fn condensing(&self) -> Option<&SaturatedPair> {
        match &self.from {
            OutletOf::Condenser { pair, .. } => Some(pair),
            OutletOf::GasCooler { .. } => None,
        }
    }

    /// Temperature of non-condensables on the high side, K: that of condensing, or of the air around a gas cooler.
    pub(super) fn gas_temperature(&self, ambient: f64) -> f64 {
        self.condensing().map_or(ambient, |pair| pair.t)
    }

    /// Density by which the discharge line loses pressure, kg/m³: of saturated vapour, or of a gas cooler's gas at pressure `p`.
    pub(super) fn discharge_density(&self, p: f64) -> f64 {
        self.condensing().map_or(p / DISCHARGE_PA_PER_DENSITY, |pair| pair.rho_v)
    }
}
