//! The gas cooler of R-744: cooled without condensing above the critical pressure, with a condensing zone below it.

use super::exchanger::Face;
use super::medium::Medium;
use super::recall::{Kept, NODES, Wanted};

/// What the gas cooler is asked.
#[derive(Debug, Clone, Copy)]
pub(super) struct Duty {
    /// Pressure, Pa.
    pub(super) p: f64,
    /// Refrigerant flow, kg/s.
    pub(super) flow: f64,
    /// Enthalpy, temperature and density of the gas that comes in.
    pub(super) h_in: f64,
    pub(super) t_in: f64,
    pub(super) rho_in: f64,
    /// Enthalpy, temperature and density of what leaves.
    pub(super) h_out: f64,
    pub(super) t_out: f64,
    pub(super) rho_out: f64,
    /// Air that meets the face, K.
    pub(super) air_in: f64,
}

/// Steps of the gas, of what condenses or would, and of the liquid.
const GAS: usize = 4;
const MIDDLE: usize = 2;
const LIQUID: usize = 2;
/// Share of the critical pressure up to which the boiling curve reaches.
const DOME: f64 = 0.9975;
/// Share over which the conductance of two phases turns into that of one on the way there; ours.
const MERGING: f64 = 0.1;

/// What the segments add up to.
#[derive(Debug, Clone, Copy)]
pub(super) struct Cooled {
    /// Share of the face that is needed: one when the face is right for the pressure.
    pub(super) face: f64,
    /// Mean density over the face, kg/m³.
    pub(super) density: f64,
}

/// The share of the face that the duty needs.
///
/// Each slice meets fresh air, so f = ∫ ṁ dh/(Cₐ ε (T − Tₐ)), in three parts: gas, what condenses, and liquid. Above the critical
/// pressure the same parts end at the enthalpies of saturation close below it, so that nothing jumps as the pressure passes it;
/// for the same reason the conductance of two phases turns into that of one on the way there. Within a part steps are equal in
/// ln(T − Tₐ), which is where the face goes; each counts with its mean density; in each, ṁ Δh over the logarithmic mean of
/// T − Tₐ.
pub(super) fn cool(medium: &Medium, face: &Face, duty: &Duty, wanted: Wanted, nodes: &[Kept; NODES]) -> Option<Cooled> {
    if duty.t_out - duty.air_in < 1e-5 || duty.t_in <= duty.t_out {
        return None;
    }
    let hot = Node { h: duty.h_in, t: duty.t_in, rho: duty.rho_in };
    let cold = Node { h: duty.h_out, t: duty.t_out, rho: duty.rho_out };
    let along = Along { medium, face, duty, wanted };
    let (gas_nodes, rest) = nodes.split_at(GAS);
    let (middle_nodes, liquid_nodes) = rest.split_at(MIDDLE + 1);
    if duty.p < DOME * medium.critical_pa {
        let both = medium.boiling(duty.p)?;
        if duty.t_in <= both.t || duty.t_out >= both.t || duty.h_in <= both.h_v {
            return None;
        }
        let gas = along.part(hot, Node { h: both.h_v, t: both.t, rho: both.rho_v }, GAS, gas_nodes)?;
        let liquid = along.part(Node { h: both.h_l, t: both.t, rho: both.rho_l }, cold, LIQUID, liquid_nodes)?;
        let merged = (1.0 - (DOME - duty.p / medium.critical_pa) / MERGING).max(0.0);
        let conductance = merged * face.one_phase + (1.0 - merged) * face.two_phase;
        let condensing = duty.flow * both.latent() / (conductance * (both.t - duty.air_in));
        let even = 0.5 * (both.rho_l + both.rho_v);
        let density = merged * even + (1.0 - merged) * super::charge::mixed_density(&both, 0.0, 1.0);
        return gas.and(Cooled { face: condensing, density }).and(liquid).done();
    }
    let edge = medium.boiling(DOME * medium.critical_pa)?;
    if duty.h_in <= edge.h_v {
        return None;
    }
    let node = |h: f64, kept: &Kept| {
        let point = medium.at_enthalpy(duty.p, h, wanted, kept)?;
        Some(Node { h, t: point.t, rho: point.rho })
    };
    if cold.h >= edge.h_v {
        return along.part(hot, cold, GAS, gas_nodes)?.done();
    }
    let first = node(edge.h_v, &gas_nodes[GAS - 1])?;
    let gas = along.part(hot, first, GAS, gas_nodes)?;
    if cold.h >= edge.h_l {
        return gas.and(along.part(first, cold, MIDDLE, middle_nodes)?).done();
    }
    let second = node(edge.h_l, &middle_nodes[MIDDLE])?;
    let middle = along.part(first, second, MIDDLE, middle_nodes)?;
    gas.and(middle).and(along.part(second, cold, LIQUID, liquid_nodes)?).done()
}

/// A place along the gas cooler.
#[derive(Debug, Clone, Copy)]
struct Node {
    h: f64,
    t: f64,
    rho: f64,
}

/// What stays the same along it.
struct Along<'a> {
    medium: &'a Medium,
    face: &'a Face,
    duty: &'a Duty,
    wanted: Wanted,
}

impl Cooled {
    /// Both together, density weighted by face.
    fn and(self, other: Self) -> Self {
        let face = self.face + other.face;
        Self { face, density: (self.face * self.density + other.face * other.density) / face.max(1e-12) }
    }

    fn done(self) -> Option<Self> {
        self.face.is_finite().then_some(self)
    }
}

impl Along<'_> {
    /// From `hot` to `cold` in `steps`; nothing where they are the same.
    fn part(&self, hot: Node, cold: Node, steps: usize, kept: &[Kept]) -> Option<Cooled> {
        let (above, below) = (hot.t - self.duty.air_in, cold.t - self.duty.air_in);
        let mut sum = Cooled { face: 0.0, density: hot.rho };
        if below <= 0.0 || above < below {
            return None;
        }
        let ratio = (below / above).powf(1.0 / steps as f64);
        let mut from = hot;
        for i in 1..=steps {
            let to = if i == steps {
                cold
            } else {
                let t = self.duty.air_in + above * ratio.powi(i as i32);
                let (rho, h) = self.medium.at_temperature(self.duty.p, t, self.wanted, &kept[i - 1])?;
                Node { h, t, rho }
            };
            // ΔT/ln of the ratio, which at no difference is the difference to the air itself
            let mean = if ratio > 1.0 - 1e-9 { above } else { (from.t - to.t) / -ratio.ln() };
            let face = self.duty.flow * (from.h - to.h) / (self.face.one_phase * mean);
            sum = sum.and(Cooled { face, density: 0.5 * (from.rho + to.rho) });
            from = to;
        }
        Some(sum)
    }
}
