//! First estimates of the unknowns with the receiver full, or the accumulator empty.
//!
//! Beyond what the store takes up, the charge decides how far liquid floods the condenser; that decides the pressure there, and
//! either the high-pressure switch or the expansion device what flows. These are balanced in turn. The state with the store
//! partly full may lie far from there: with a narrow tube it takes a pressure that no circuit reaches.

use super::charge::mixed_density;
use super::control::LEAST;
use super::exchanger::Face;
use super::expansion::{self, Expansion, Upstream};
use super::fluid::SaturatedPair;
use super::initial_guess::{Estimator, LowSideEstimate};
use super::model::{Model, Unknowns};
use super::sizes::Storage;
use super::solver::Regime;

/// Rounds of balancing.
const ROUNDS: usize = 6;

/// Where the balancing begins: flow over the rated one, superheated fraction, kelvins of condensing over the air; our choice.
const BEGINNING: (f64, f64, f64) = (0.5, 0.4, 15.0);

/// Share of the evaporator that boils below a valve that is neither closed nor wide open; our choice.
const BOILING: f64 = 0.87;

/// What one round knows of the circuit.
struct Balance<'a> {
    model: &'a Model<'a>,
    /// Condensing temperature at which the high-pressure switch opens, K.
    limit_k: f64,
    /// Refrigerant flow, kg/s.
    flow: f64,
    /// Superheated fraction of the evaporator.
    dry: f64,
    /// Condensing temperature over that of the air in front, K.
    over_air: f64,
    /// Evaporating temperature, K.
    t0: f64,
}

/// Liquid in the condenser.
struct Flooding {
    /// Share of the face it fills, beyond the subcooling pass.
    backed_up: f64,
    /// Its temperature at the outlet below saturation, K.
    subcooling: f64,
}

/// The unknowns near the steady state of `model` with its receiver full or its accumulator empty, as `regime` says; `None` for the
/// other two, and where the estimate leaves the range of the refrigerant's properties.
pub(super) fn outside_store_guess(model: &Model, regime: Regime) -> Option<Unknowns> {
    match (model.circuit.storage, regime) {
        (Storage::Receiver { .. }, Regime::Full) | (Storage::Accumulator { .. }, Regime::Empty) => {}
        _ => return None,
    }
    let estimator = Estimator::new(model);
    let limit = model.circuit.high_limit_pa.min(0.96 * model.fluid.critical_pa);
    let (part, dry, over_air) = BEGINNING;
    let mut balance = Balance {
        model,
        limit_k: model.fluid.saturation_temperature(limit)?,
        flow: part * model.circuit.condenser.flow_kg_per_s,
        dry,
        over_air,
        t0: model.ambient - 25.0,
    };
    let mut answer = None;
    for _ in 0..ROUNDS {
        answer = Some(balance.round(&estimator, regime)?);
    }
    answer
}

impl Balance<'_> {
    /// One round: the flow that this flooding lets through, and what follows from it.
    fn round(&mut self, estimator: &Estimator, regime: Regime) -> Option<Unknowns> {
        let Model { fluid, circuit, ambient, .. } = self.model;
        let warm = self.model.front_air();
        let pair = fluid.saturated(fluid.saturation_pressure((warm + self.over_air).min(self.limit_k))?)?;
        let face = self.model.condenser_face(pair.p, self.flow);
        self.t0 = self.t0.max(estimator.held_temperature(pair.p)?).min(ambient - 1.0);
        let low = estimator.low_side(self.t0, None, pair.p)?;
        let Flooding { backed_up, subcooling } = self.flooding(&pair, &low, &face, regime);
        let h_liquid = pair.h_l - subcooling * pair.cp_l;
        let latent = low.pair.h_v - h_liquid;
        let superheat = (2.0 * self.dry).min(0.9) * (low.coil.inlet - low.pair.t);
        let thinner = low.pair.t / (low.pair.t + superheat);

        // heat to the air for each kilogram, and the flow that brings the condenser to the switch
        let cp = fluid.vapour_cp_cached(&low.pair, self.model.cache);
        let lost = 1.0 + (warm + self.over_air - self.t0) / self.t0 / 0.55;
        let (r, open) = (self.model.recirculated, (1.0 - backed_up - circuit.subcooling_pass).max(0.05));
        let resistance = 1.0 / (0.9 * face.two_phase * open) + r / (1.0 - r) / face.air;
        let rise = (latent + cp * superheat) * lost * resistance;
        let upstream = Upstream::new(fluid, &pair, h_liquid, pair.p)?;
        let (passes, asked, valve) = match circuit.expansion {
            Expansion::Valve { area_m2, .. } => {
                let passes = area_m2 * expansion::through_opening(&upstream, low.pair.p);
                (passes, passes.min(0.9 * low.heat / latent), true)
            }
            Expansion::Orifice { bore_m, length_m } => {
                let passes = expansion::through_tube(bore_m, length_m, &upstream);
                (passes, passes, false)
            }
            Expansion::HighSide { .. } => return None,
        };
        let most = (self.limit_k - warm) / rise;
        self.flow = (self.flow * asked.min(most)).sqrt();
        self.over_air = if most < asked { self.limit_k - warm } else { (self.flow * rise).min(self.limit_k - warm) };
        self.over_air = self.over_air.max(1.5);

        // as cold as full capacity makes it; a valve that is not wide open lets the evaporator boil nearly all over
        let over = (low.flow * thinner / self.flow).ln();
        let mut next = (self.t0 - (over / 0.036).clamp(-12.0, 12.0)).max(ambient - 60.0);
        if valve && self.flow < 0.9 * passes {
            let drive = (low.coil.inlet - self.t0) * self.flow * latent / (BOILING * low.coil.heat);
            next = next.max(low.coil.inlet - drive);
        }
        self.t0 = next;
        let boiling = self.flow * latent / low.coil.heat;
        self.dry = if valve { (1.0 - boiling).clamp(0.02, 0.95) } else { (1.0 - boiling).clamp(0.0, 0.95) };
        let capacity_fraction = (self.flow / (low.flow * thinner)).clamp(LEAST.value.fraction(), 0.999);
        Some([low.pair.p.ln(), pair.p.ln(), self.flow.ln(), self.dry, backed_up, capacity_fraction])
    }

    /// How far the liquid that the other volumes leave floods the condenser, and how cold it becomes there.
    fn flooding(&self, pair: &SaturatedPair, low: &LowSideEstimate, face: &Face, regime: Regime) -> Flooding {
        let circuit = self.model.circuit;
        let (vapour, liquid) = match circuit.storage {
            Storage::Receiver { .. } => (pair.rho_v, pair.rho_l),
            Storage::Accumulator { .. } => (low.pair.rho_v, low.pair.rho_l),
        };
        let (empty, full) = circuit.storage.holds(vapour, liquid);
        let evaporator = (1.0 - self.dry) * mixed_density(&low.pair, 0.3, 1.0) + self.dry * low.pair.rho_v;
        let elsewhere = if regime == Regime::Full { full } else { empty }
            + circuit.lines.liquid_m3 * pair.rho_l
            + circuit.evaporator.volume_m3 * evaporator
            + circuit.lines.suction_m3 * low.pair.rho_v
            + circuit.lines.discharge_m3 * pair.rho_v;
        let two_phase = mixed_density(pair, 0.0, 1.0);
        let left = (self.model.charge - elsewhere) / circuit.condenser.volume_m3;
        let pass = circuit.subcooling_pass;
        let backed_up = ((left - two_phase) / (pair.rho_l - two_phase) - pass).clamp(0.0, 0.9);
        let r = self.model.recirculated;
        let drive = self.over_air.max(2.0) / (1.0 + r / (1.0 - r) * face.two_phase / face.air);
        let transfer = (backed_up + pass) * face.one_phase / (self.flow * pair.cp_l);
        Flooding { backed_up, subcooling: drive * -(-transfer).exp_m1() }
    }
}
