//! Cache of states, each near the one before: found from the last one and its slopes.

use std::cell::Cell;

use super::fluid::Point;
use crate::helmholtz::State;
use crate::quantity::Quantity;

/// How a state is evaluated.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Evaluation {
    /// By the equation of state.
    Exact,
    /// On the tangent of the last exact state, for a finite difference very close to it.
    Linearised,
}

/// A state of one phase with its slopes.
#[derive(Debug, Clone, Copy)]
pub(super) struct Tangent {
    pub(super) p: f64,
    pub(super) t: f64,
    pub(super) rho: f64,
    pub(super) h: f64,
    pub(super) s: f64,
    cp: f64,
    /// (∂ρ/∂p) at constant temperature, s²/m².
    compressed: f64,
    /// (∂v/∂T) at constant pressure, m³/(kg K).
    expanded: f64,
}

/// A step from a state: in temperature, density, enthalpy and entropy.
#[derive(Debug, Clone, Copy)]
pub(super) struct Step {
    pub(super) t: f64,
    pub(super) rho: f64,
    pub(super) h: f64,
    pub(super) s: f64,
}

impl Tangent {
    pub(super) fn at(state: &State) -> Self {
        let (t, rho) = (state.temperature().kelvin(), state.density().si());
        let (cp, cv) = (state.isobaric_heat_capacity().si(), state.isochoric_heat_capacity().si());
        let sound = state.speed_of_sound_m_per_s();
        Self {
            p: state.pressure().pa(),
            t,
            rho,
            h: state.enthalpy().si(),
            s: state.entropy().si(),
            cp,
            // w² = (cp/cv) ∂p/∂ρ
            compressed: cp / (cv * sound * sound),
            // μ cp = T ∂v/∂T − v
            expanded: (state.joule_thomson_k_per_pa() * cp + 1.0 / rho) / t,
        }
    }

    /// The step with pressure changed by `p` and temperature by `t`.
    pub(super) fn step_pt(&self, p: f64, t: f64) -> Step {
        // dh = cp dT + (v − T ∂v/∂T) dp;  T ds = dh − v dp
        let h = self.cp * t + (1.0 / self.rho - self.t * self.expanded) * p;
        let rho = self.compressed * p - self.rho * self.rho * self.expanded * t;
        Step { t, rho, h, s: (h - p / self.rho) / self.t }
    }

    /// The step with pressure changed by `p` and enthalpy by `h`.
    pub(super) fn step_ph(&self, p: f64, h: f64) -> Step {
        self.step_pt(p, (h - (1.0 / self.rho - self.t * self.expanded) * p) / self.cp)
    }

    /// The step with pressure changed by `p` and entropy by `s`.
    pub(super) fn step_ps(&self, p: f64, s: f64) -> Step {
        // dh = T ds + v dp
        self.step_ph(p, self.t * s + p / self.rho)
    }

    /// The state at the end of a step.
    pub(super) fn point(&self, step: Step) -> Point {
        Point {
            t: self.t + step.t,
            rho: self.rho + step.rho,
            h: self.h + step.h,
            s: self.s + step.s,
            cp: Some(self.cp),
        }
    }
}

/// The last exact state of one place in the circuit.
#[derive(Debug, Default)]
pub(super) struct CachedState(Cell<Option<Tangent>>);

impl CachedState {
    pub(super) fn last(&self) -> Option<Tangent> {
        self.0.get()
    }

    pub(super) fn keep(&self, tangent: Option<Tangent>) {
        self.0.set(tangent);
    }
}

/// Places in the circuit whose states are kept during one search.
#[derive(Debug, Default)]
pub(super) struct StateCache {
    pub(super) suction: CachedState,
    pub(super) compressed: CachedState,
    /// Nodes along the gas cooler, its outlet first.
    pub(super) nodes: [CachedState; NODES],
    /// Temperature and heat capacity of the vapour last asked for, K and J/(kg K).
    pub(super) vapour_cp: Cell<(f64, f64)>,
    /// Surface of the evaporator last found, K; zero before.
    pub(super) surface: Cell<f64>,
}

/// Room for the nodes of a gas cooler.
pub(super) const NODES: usize = 16;

#[cfg(test)]
mod tests {
    use approx::abs_diff_eq;

    use super::*;
    use crate::{Pressure, Refrigerant, Temperature};

    /// Slopes against differences of the equation of state, at the suction of R-134a and beside the critical point of R-744.
    #[test]
    fn slopes_are_those_of_the_equation() {
        for (r, p, t) in [
            (Refrigerant::R134a, 3e5, 285.0),
            (Refrigerant::R1234yf, 1.5e6, 340.0),
            (Refrigerant::R744, 4e6, 295.0),
            (Refrigerant::R744, 8.5e6, 312.0),
        ] {
            let at = |p: f64, t: f64| Tangent::at(&r.state(Pressure::from_pa(p), Temperature::from_kelvin(t)).unwrap());
            let here = at(p, t);
            for (dp, dt) in [(p * 1e-5, 0.0), (0.0, t * 1e-5), (-p * 1e-5, t * 1e-5)] {
                let (up, down) = (at(p + dp, t + dt), at(p - dp, t - dt));
                let (h, s, rho) = (up.h - down.h, up.s - down.s, up.rho - down.rho);
                let close = |ours: f64, theirs: f64, what: &str| {
                    // second differences over 1e-5 of pressure and temperature: our choice
                    assert!(
                        abs_diff_eq!(ours, theirs, epsilon = 1e-5 * theirs.abs()),
                        "{r} {p} {t} {dp} {dt} {what}: {ours} {theirs}"
                    );
                };
                for (step, way) in [
                    (here.step_pt(2.0 * dp, 2.0 * dt), "p, T"),
                    (here.step_ph(2.0 * dp, h), "p, h"),
                    (here.step_ps(2.0 * dp, s), "p, s"),
                ] {
                    close(step.h, h, way);
                    close(step.s, s, way);
                    close(step.rho, rho, way);
                    // two ten-thousandths of 1e-5 T, the step: our choice
                    assert!(
                        abs_diff_eq!(step.t, 2.0 * dt, epsilon = 1e-5 * t * 1e-5 * 20.0),
                        "{r} {way}: {} K",
                        step.t
                    );
                }
            }
        }
    }
}
