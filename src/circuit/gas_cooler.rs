//! Gas cooler of R-744: cooling without condensing above the critical pressure, with a condensing zone below it.

use super::exchanger::Face;
use super::fluid::{Fluid, Point};
use super::state_cache::{CachedState, Evaluation, NODES};

/// Inlet and outlet conditions of a gas cooler.
#[derive(Debug, Clone, Copy)]
pub(super) struct GasCoolerDuty {
    /// Pressure, Pa.
    pub(super) p: f64,
    /// Refrigerant flow, kg/s.
    pub(super) flow: f64,
    /// Enthalpy, temperature and density of the gas at the inlet.
    pub(super) h_in: f64,
    pub(super) t_in: f64,
    pub(super) rho_in: f64,
    /// Enthalpy, temperature and density at the outlet.
    pub(super) h_out: f64,
    pub(super) t_out: f64,
    pub(super) rho_out: f64,
    /// Heat capacity at the outlet, if it is known.
    pub(super) cp_out: Option<f64>,
    /// Air temperature on the face, K.
    pub(super) air_in: f64,
    /// Approach: outlet temperature over that of the air, K; stored on its own, as it may be less than the last place
    /// of either.
    pub(super) approach: f64,
}

/// Numbers of steps of the gas and of the liquid; two lie between them.
const GAS: usize = 4;
const LIQUID: usize = 2;
/// Fraction of the critical pressure up to which the boiling curve reaches; our choice.
const DOME: f64 = 0.9975;
/// Least approach, K, that is still a number; our choice.
const LEAST_APPROACH: f64 = 1e-100;
/// Least face that a density is weighted by, as a fraction; our choice.
const LEAST_FACE: f64 = 1e-12;
/// Relative difference of temperatures that is taken for rounding; our choice.
const SAME: f64 = 1e-4;
/// Fraction over which the two-phase conductance turns into that of one phase on the way there; our choice.
const MERGING: f64 = 0.1;

/// Sum over the segments of a gas cooler.
#[derive(Debug, Clone, Copy)]
pub(super) struct Cooled {
    /// Fraction of the face that is needed: one if the face is right for the pressure.
    pub(super) face: f64,
    /// Mean density over the face, kg/m³.
    pub(super) density: f64,
}

/// Fraction of the face that the duty needs.
///
/// Each slice meets fresh air, so f = ∫ ṁ dh/(Cₐ ε (T − Tₐ)), in three parts: gas, what condenses, and liquid. Above the critical
/// pressure the same parts end at the enthalpies of saturation close below it, so that nothing jumps as the pressure passes it;
/// for the same reason the conductance of two phases turns into that of one on the way there. Within a part steps are equal in
/// ln(T − Tₐ), which is where the face goes; each counts with its mean density; within one the heat capacity is a parabola
/// through both ends with the mean Δh/ΔT.
pub(super) fn cool(
    fluid: &Fluid,
    face: &Face,
    duty: &GasCoolerDuty,
    evaluation: Evaluation,
    nodes: &[CachedState; NODES],
) -> Option<Cooled> {
    if duty.approach < LEAST_APPROACH || duty.t_in <= duty.t_out {
        return None;
    }
    let hot = Node { h: duty.h_in, t: duty.t_in, rho: duty.rho_in, cp: None };
    let cold = Node { h: duty.h_out, t: duty.t_out, rho: duty.rho_out, cp: duty.cp_out };
    let along = Along { fluid, face, duty, evaluation };
    let (gas_nodes, rest) = nodes.split_at(GAS);
    let (middle_nodes, liquid_nodes) = rest.split_at(2);
    if duty.p < DOME * fluid.critical_pa {
        let pair = fluid.saturated(duty.p)?;
        if duty.t_in <= pair.t || duty.t_out >= pair.t || duty.h_in <= pair.h_v {
            return None;
        }
        let vapour = Node { h: pair.h_v, t: pair.t, rho: pair.rho_v, cp: Some(fluid.vapour_cp(&pair)) };
        let boiling = Node { h: pair.h_l, t: pair.t, rho: pair.rho_l, cp: Some(fluid.liquid_cp(&pair)) };
        let gas = along.part::<GAS>(hot, vapour, gas_nodes)?;
        let liquid = along.part::<LIQUID>(boiling, cold, liquid_nodes)?;
        let merged = (1.0 - (DOME - duty.p / fluid.critical_pa) / MERGING).max(0.0);
        let conductance = merged * face.one_phase + (1.0 - merged) * face.two_phase;
        let condensing = duty.flow * pair.latent() / (conductance * (pair.t - duty.air_in));
        let even = 0.5 * (pair.rho_l + pair.rho_v);
        let density = merged * even + (1.0 - merged) * super::charge::mixed_density(&pair, 0.0, 1.0);
        return gas.and(Cooled { face: condensing, density }).and(liquid).done();
    }
    let edge = fluid.saturated(DOME * fluid.critical_pa)?;
    if duty.h_in <= edge.h_v {
        return None;
    }
    let node = |h: f64, cached: &CachedState| {
        let point = fluid.at_enthalpy(duty.p, h, evaluation, cached)?;
        Some(Node::of(&point))
    };
    if cold.h >= edge.h_v {
        return along.part::<GAS>(hot, cold, gas_nodes)?.done();
    }
    let first = node(edge.h_v, &gas_nodes[GAS - 1])?;
    let gas = along.part::<GAS>(hot, first, gas_nodes)?;
    // in equal steps of enthalpy here: close below the critical pressure temperature stands still
    let middle = |to: Node| {
        let between = node(0.5 * (first.h + to.h), &middle_nodes[0])?;
        Some(along.part::<1>(first, between, &[])?.and(along.part::<1>(between, to, &[])?))
    };
    if cold.h >= edge.h_l {
        return gas.and(middle(cold)?).done();
    }
    let second = node(edge.h_l, &middle_nodes[1])?;
    gas.and(middle(second)?).and(along.part::<LIQUID>(second, cold, liquid_nodes)?).done()
}

/// Position along the gas cooler.
#[derive(Debug, Clone, Copy)]
struct Node {
    h: f64,
    t: f64,
    rho: f64,
    /// Heat capacity, where it is known.
    cp: Option<f64>,
}

impl Node {
    fn of(point: &Point) -> Self {
        Self { h: point.h, t: point.t, rho: point.rho, cp: point.cp }
    }
}

/// Constants along the gas cooler.
struct Along<'a> {
    fluid: &'a Fluid,
    face: &'a Face,
    duty: &'a GasCoolerDuty,
    evaluation: Evaluation,
}

impl Cooled {
    /// Sum of two parts, density weighted by face.
    fn and(self, other: Self) -> Self {
        let face = self.face + other.face;
        Self { face, density: (self.face * self.density + other.face * other.density) / face.max(LEAST_FACE) }
    }

    fn done(self) -> Option<Self> {
        self.face.is_finite().then_some(self)
    }
}

impl Along<'_> {
    /// From `hot` to `cold` in `N` steps; nothing where they are the same.
    fn part<const N: usize>(&self, hot: Node, cold: Node, cached: &[CachedState]) -> Option<Cooled> {
        let air = self.duty.air_in;
        let above = hot.t - air;
        let below = if cold.t == self.duty.t_out { self.duty.approach } else { cold.t - air };
        if below <= 0.0 || above < below {
            return None;
        }
        let ratio = (below / above).powf(1.0 / N as f64);
        // hardly any difference in temperature is mostly rounding; the mean is then right to the square of it
        if below > above * (1.0 - SAME) {
            let face = self.duty.flow * (hot.h - cold.h) / (self.face.one_phase * 0.5 * (above + below));
            return Some(Cooled { face, density: 0.5 * (hot.rho + cold.rho) });
        }
        let mut sum = Cooled { face: 0.0, density: hot.rho };
        let mut from = hot;
        for i in 1..=N {
            let to = if i == N {
                cold
            } else {
                let t = air + above * ratio.powi(i as i32);
                Node::of(&self.fluid.at_temperature(self.duty.p, t, self.evaluation, &cached[i - 1])?)
            };
            let mean = (from.h - to.h) / (from.t - to.t);
            let (warm, cool) = parted(mean, from.cp, to.cp);
            // c = c̄ + a x + b (x² − 1/12), x from −1/2 at the cold end to 1/2 at the warm one: a and b from both ends
            let (a, b) = (warm - cool, 3.0 * (warm + cool));
            // ∫ c/(T − Tₐ) dT over the step, T − Tₐ = m + w x
            let (m, w) = (0.5 * (from.t + to.t) - air, from.t - to.t);
            let (log, off) = (-ratio.ln(), m / w);
            let face = (mean - b / 12.0) * log + a * (1.0 - off * log) + b * off * (off * log - 1.0);
            sum = sum
                .and(Cooled { face: self.duty.flow * face / self.face.one_phase, density: 0.5 * (from.rho + to.rho) });
            from = to;
        }
        Some(sum)
    }
}

/// How far the heat capacity at the ends of a step lies from its mean, held where a parabola would overshoot: a peak within
/// the step, or an end of which the mean knows nothing.
fn parted(mean: f64, warm: Option<f64>, cool: Option<f64>) -> (f64, f64) {
    let (warm, cool) = match (warm.map(|cp| cp - mean), cool.map(|cp| cp - mean)) {
        (Some(warm), Some(cool)) => (warm, cool),
        (Some(one), None) => (one, -one),
        (None, Some(one)) => (-one, one),
        (None, None) => (0.0, 0.0),
    };
    if warm * cool >= 0.0 {
        return (0.0, 0.0);
    }
    (warm.clamp(-2.0 * cool.abs(), 2.0 * cool.abs()), cool.clamp(-2.0 * warm.abs(), 2.0 * warm.abs()))
}

#[cfg(test)]
mod tests {
    use approx::abs_diff_eq;

    use super::*;
    use crate::air::formulas::FREEZING_K;
    use crate::quantity::Quantity;
    use crate::{Pressure, Refrigerant, Temperature};

    fn fluid() -> Fluid {
        Fluid::new(Refrigerant::R744).unwrap()
    }

    fn face() -> Face {
        Face { air: 700.0, air_side: 900.0, refrigerant_side: 3500.0, two_phase: 450.0, one_phase: 380.0 }
    }

    fn duty(p: f64, t_in: f64, t_out: f64) -> GasCoolerDuty {
        let at = |t| Refrigerant::R744.state(Pressure::from_pa(p), Temperature::from_celsius(t)).unwrap();
        let (hot, cold) = (at(t_in), at(t_out));
        GasCoolerDuty {
            p,
            flow: 0.03,
            h_in: hot.enthalpy().si(),
            t_in: FREEZING_K + t_in,
            rho_in: hot.density().si(),
            h_out: cold.enthalpy().si(),
            t_out: FREEZING_K + t_out,
            rho_out: cold.density().si(),
            cp_out: Some(cold.isobaric_heat_capacity().si()),
            air_in: FREEZING_K + t_out - 3.0,
            approach: 3.0,
        }
    }

    /// ∫ ṁ dh/(Cₐ ε (T − Tₐ)) and ∫ ρ df/f with `steps` steps of enthalpy, above the critical pressure.
    fn fine(duty: &GasCoolerDuty, steps: usize) -> (f64, f64) {
        let at = |h: f64| {
            let phases =
                Refrigerant::R744.at_enthalpy(Pressure::from_pa(duty.p), crate::quantity::SpecificEnthalpy::from_si(h));
            let phases = phases.unwrap();
            (phases.temperature().kelvin() - duty.air_in, phases.density().si())
        };
        let width = (duty.h_in - duty.h_out) / steps as f64;
        let (mut face_sum, mut density_sum) = (0.0, 0.0);
        for i in 0..steps {
            let (over, rho) = at(duty.h_out + (i as f64 + 0.5) * width);
            let share = duty.flow * width / (face().one_phase * over);
            face_sum += share;
            density_sum += share * rho;
        }
        (face_sum, density_sum / face_sum)
    }

    #[test]
    fn few_segments_are_as_good_as_hundreds() {
        let mut worst = (0.0f64, 0.0f64);
        for p in [7.6e6, 8e6, 8.5e6, 9e6, 10e6, 11e6, 12e6] {
            for t_out in [20.0, 26.0, 30.0, 33.0, 36.0, 40.0, 45.0, 50.0] {
                for t_in in [80.0, 110.0, 140.0] {
                    let duty = duty(p, t_in, t_out);
                    let nodes = Default::default();
                    let ours = cool(&fluid(), &face(), &duty, Evaluation::Exact, &nodes).unwrap();
                    let (face, density) = fine(&duty, 400);
                    let off = (ours.face / face - 1.0, ours.density / density - 1.0);
                    println!("{p} {t_in} {t_out}: face {:+.2} %, density {:+.2} %", 100.0 * off.0, 100.0 * off.1);
                    worst = (worst.0.max(off.0.abs()), worst.1.max(off.1.abs()));
                }
            }
        }
        println!("worst: face {:.2} %, density {:.2} %", 100.0 * worst.0, 100.0 * worst.1);
        assert!(worst.0 < 0.02 && worst.1 < 0.05, "{worst:?}");
    }

    /// The solver walks through the critical pressure; face and density must not jump on the way.
    #[test]
    fn nothing_jumps_at_the_critical_pressure() {
        let at = |share: f64| {
            let p = share * fluid().critical_pa;
            cool(&fluid(), &face(), &duty(p, 90.0, 25.0), Evaluation::Exact, &Default::default()).unwrap()
        };
        let mut before = at(0.98);
        for i in 1..=400 {
            let here = at(0.98 + 1e-4 * f64::from(i));
            let change = (here.face / before.face, here.density / before.density);
            // 0.0001 of the pressure moves either by less than this, and at the seam too
            assert!(
                abs_diff_eq!(change.0, 1.0, epsilon = 1.5e-3) && abs_diff_eq!(change.1, 1.0, epsilon = 1.5e-3),
                "{i}: {change:?}"
            );
            before = here;
        }
    }

    #[test]
    fn below_it_a_condenser_of_three_zones() {
        for (p, t_out) in [(5.2e6, 14.0), (6.5e6, 22.0), (7.0e6, 25.0)] {
            let duty = duty(p, 80.0, t_out);
            let pair = fluid().saturated(p).unwrap();
            let ours = cool(&fluid(), &face(), &duty, Evaluation::Exact, &Default::default()).unwrap();
            let at = |h: f64| {
                let phases = Refrigerant::R744
                    .at_enthalpy(Pressure::from_pa(duty.p), crate::quantity::SpecificEnthalpy::from_si(h));
                phases.unwrap().temperature().kelvin() - duty.air_in
            };
            let merged = (1.0 - (DOME - duty.p / fluid().critical_pa) / MERGING).max(0.0);
            let mixed = merged * face().one_phase + (1.0 - merged) * face().two_phase;
            let width = (duty.h_in - duty.h_out) / 4000.0;
            let sum: f64 = (0..4000)
                .map(|i| {
                    let h = duty.h_out + (f64::from(i) + 0.5) * width;
                    let conductance = if h > pair.h_l && h < pair.h_v { mixed } else { face().one_phase };
                    duty.flow * width / (conductance * at(h))
                })
                .sum();
            println!("{p}: {:+.2} %", 100.0 * (ours.face / sum - 1.0));
            // the means of three zones against 4000 slices: our choice
            assert!(abs_diff_eq!(ours.face / sum, 1.0, epsilon = 0.01), "{p}: {} against {sum}", ours.face);
        }
    }
}
