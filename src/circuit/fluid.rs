//! Refrigerant properties as the model uses them: bare numbers in SI units, without error texts.

use super::state_cache::{CachedState, Evaluation, StateCache, Step, Tangent};
use crate::helmholtz::{Phases, State};
use crate::quantity::{Density, SpecificEnthalpy, SpecificEntropy};
use crate::saturation::Dome;
use crate::{Error, Pressure, Quantity, Refrigerant, Temperature};

/// Pure refrigerant, evaluated in Pa, K, kg/m³, J/kg and J/(kg K).
#[derive(Debug, Clone, Copy)]
pub(super) struct Fluid {
    pub(super) refrigerant: Refrigerant,
    pub(super) dome: &'static Dome<'static>,
    pub(super) critical_pa: f64,
    pub(super) critical_k: f64,
}

/// Saturated liquid and saturated vapour at one pressure.
#[derive(Debug, Clone, Copy)]
pub(super) struct SaturatedPair {
    pub(super) p: f64,
    pub(super) t: f64,
    pub(super) rho_l: f64,
    pub(super) h_l: f64,
    pub(super) rho_v: f64,
    pub(super) h_v: f64,
    /// Heat capacity of the liquid along the saturation line; within 3 % of cp up to 0.9 of the critical temperature.
    pub(super) cp_l: f64,
}

impl SaturatedPair {
    /// Heat of evaporation.
    pub(super) fn latent(&self) -> f64 {
        self.h_v - self.h_l
    }
}

/// Relative distance over which a tangent is as good as the equation: what is left of density, enthalpy and entropy is its
/// square; our choice.
const AT_HAND: f64 = 1e-6;
/// Relative distance where the heat capacity matters, of which the tangent knows one value only; our choice.
const AT_HAND_WITH_CP: f64 = 1e-8;
/// Relative distance once the equation was evaluated close by. The remaining error is then the fourth power of how far
/// the search still moves, so it vanishes long before the search ends; our choice.
const AFTER_ONE: f64 = 1e-4;
/// Relative distance from which the tangent leads to such a state; our choice.
const IN_REACH: f64 = 0.05;
/// Fraction of the critical pressure below which a state is a gas by its side of the dome; our choice.
const BELOW_CRITICAL: f64 = 0.98;
/// Fraction of the reducing density above which, closer to the critical pressure, a state is too near the dome; our choice.
const DENSE: f64 = 0.6;

/// State of the refrigerant at one place.
#[derive(Debug, Clone, Copy)]
pub(super) struct Point {
    pub(super) t: f64,
    pub(super) rho: f64,
    pub(super) h: f64,
    pub(super) s: f64,
    /// Isobaric heat capacity; `None` if liquid and vapour are both present.
    pub(super) cp: Option<f64>,
}

impl Fluid {
    /// # Errors
    /// [`Error::NotModelled`] for a blend.
    pub(super) fn new(refrigerant: Refrigerant) -> Result<Self, Error> {
        let fluid = refrigerant.fluid();
        let dome = fluid.dome.ok_or(Error::NotModelled {
            what: refrigerant.designation(),
            way_out: "the cycle solver covers pure refrigerants; for a blend use the printed charts",
        })?;
        let critical = fluid.critical.value;
        Ok(Self { refrigerant, dome, critical_pa: critical.pressure.pa(), critical_k: critical.temperature.kelvin() })
    }

    /// Both phases at pressure `p`, up to 0.1 K below the critical point.
    #[inline]
    pub(super) fn saturated(&self, p: f64) -> Option<SaturatedPair> {
        let t = self.dome.curve.temperature(Pressure::from_pa(p)).ok()?.kelvin();
        let [rho_l, h_l, _] = self.dome.liquid.at(t)?;
        let [per_pascal, h_v, _] = self.dome.vapour.at(t)?;
        let [_, cp_l, _] = self.dome.liquid.slope_at(t)?;
        Some(SaturatedPair { p, t, rho_l, h_l, rho_v: p * per_pascal, h_v, cp_l })
    }

    /// Saturation pressure at temperature `t`.
    #[inline]
    pub(super) fn saturation_pressure(&self, t: f64) -> Option<f64> {
        Some(self.dome.curve.pressure(Temperature::from_kelvin(t)).ok()?.pa())
    }

    /// Saturation temperature at pressure `p`.
    #[inline]
    pub(super) fn saturation_temperature(&self, p: f64) -> Option<f64> {
        Some(self.dome.curve.temperature(Pressure::from_pa(p)).ok()?.kelvin())
    }

    /// Density of saturated liquid at temperature `t`.
    #[inline]
    pub(super) fn liquid_density(&self, t: f64) -> Option<f64> {
        self.dome.liquid.at(t).map(|[rho, ..]| rho)
    }

    /// Isobaric heat capacity of saturated vapour, the last one kept.
    pub(super) fn vapour_cp_cached(&self, pair: &SaturatedPair, cache: &StateCache) -> f64 {
        let (t, cp) = cache.vapour_cp.get();
        if t == pair.t {
            return cp;
        }
        let cp = self.vapour_cp(pair);
        cache.vapour_cp.set((pair.t, cp));
        cp
    }

    /// Isobaric heat capacity of saturated vapour.
    pub(super) fn vapour_cp(&self, pair: &SaturatedPair) -> f64 {
        self.cp(pair.t, pair.rho_v)
    }

    /// Isobaric heat capacity of saturated liquid.
    pub(super) fn liquid_cp(&self, pair: &SaturatedPair) -> f64 {
        self.cp(pair.t, pair.rho_l)
    }

    fn cp(&self, t: f64, rho: f64) -> f64 {
        let equation = &self.refrigerant.fluid().equation;
        let at = State::at(equation, Temperature::from_kelvin(t), Density::from_si(rho));
        at.isobaric_heat_capacity().si()
    }

    /// The state at pressure `p` and enthalpy `h`, of one phase or two; `cached` is the last one of the same place.
    pub(super) fn at_enthalpy(&self, p: f64, h: f64, evaluation: Evaluation, cached: &CachedState) -> Option<Point> {
        let phase_only = |pair: &[f64; 3]| h >= pair[1];
        let near = |tangent: &Tangent| tangent.step_ph(p - tangent.p, h - tangent.h);
        if let Some(point) = self.nearby(p, evaluation, cached, AT_HAND, phase_only, near) {
            return Some(point);
        }
        let phases = self.refrigerant.at_enthalpy(Pressure::from_pa(p), SpecificEnthalpy::from_si(h)).ok()?;
        Some(Point { h, ..found(&phases, cached) })
    }

    /// The state at pressure `p` and entropy `s`, of one phase or two; `cached` is the last one of the same place.
    pub(super) fn at_entropy(&self, p: f64, s: f64, evaluation: Evaluation, cached: &CachedState) -> Option<Point> {
        let phase_only = |pair: &[f64; 3]| s >= pair[2];
        let near = |tangent: &Tangent| tangent.step_ps(p - tangent.p, s - tangent.s);
        if let Some(point) = self.nearby(p, evaluation, cached, AT_HAND_WITH_CP, phase_only, near) {
            return Some(point);
        }
        let phases = self.refrigerant.at_entropy(Pressure::from_pa(p), SpecificEntropy::from_si(s)).ok()?;
        Some(Point { s, ..found(&phases, cached) })
    }

    /// The single phase at pressure `p` and temperature `t`; `cached` is the last one of the same place.
    pub(super) fn at_temperature(&self, p: f64, t: f64, evaluation: Evaluation, cached: &CachedState) -> Option<Point> {
        if let (Evaluation::Linearised, Some(last)) = (evaluation, cached.last()) {
            return Some(last.point(last.step_pt(p - last.p, t - last.t)));
        }
        if let Some(point) = self.along_isotherm(p, t, cached) {
            return Some(point);
        }
        let state = self.refrigerant.state(Pressure::from_pa(p), Temperature::from_kelvin(t)).ok()?;
        let tangent = Tangent::at(&state);
        cached.keep(Some(tangent));
        Some(tangent.point(tangent.step_pt(0.0, 0.0)))
    }

    /// Newton's method in density from the last state, above the critical pressure, where there is one phase and no other.
    fn along_isotherm(&self, p: f64, t: f64, cached: &CachedState) -> Option<Point> {
        let mut last = cached.last()?;
        if p < self.critical_pa {
            return None;
        }
        let mut rho = last.rho + last.step_pt(p - last.p, t - last.t).rho;
        for _ in 0..3 {
            if (rho / last.rho - 1.0).abs() > IN_REACH {
                return None;
            }
            let equation = &self.refrigerant.fluid().equation;
            last = Tangent::at(&State::at(equation, Temperature::from_kelvin(t), Density::from_si(rho)));
            let step = last.step_pt(p - last.p, 0.0);
            if (step.rho / rho).abs() <= AFTER_ONE {
                cached.keep(Some(last));
                return Some(last.point(step));
            }
            rho += step.rho;
        }
        None
    }

    /// Newton's method in temperature and density from the last state, whose slopes lead the way; `None` if that is not sure
    /// to end at a gas.
    fn nearby(
        &self,
        p: f64,
        evaluation: Evaluation,
        cached: &CachedState,
        at_hand: f64,
        gas: impl Fn(&[f64; 3]) -> bool,
        near: impl Fn(&Tangent) -> Step,
    ) -> Option<Point> {
        let mut last = cached.last()?;
        let distance = |last: &Tangent, step: &Step| (step.t / last.t).abs().max((step.rho / last.rho).abs());
        let mut step = near(&last);
        if evaluation == Evaluation::Linearised {
            return Some(last.point(step));
        }
        // below the critical pressure only the gas side, and near it only far from the dome
        if p < BELOW_CRITICAL * self.critical_pa {
            let t = self.saturation_temperature(p)?;
            if !gas(&self.dome.vapour.at(t)?) {
                return None;
            }
        } else if p < self.critical_pa && last.rho > DENSE * self.refrigerant.fluid().equation.reducing_mass_density() {
            return None;
        }
        let mut far = distance(&last, &step);
        let mut at_hand = at_hand;
        for _ in 0..4 {
            if far <= at_hand {
                cached.keep(Some(last));
                return Some(last.point(step));
            }
            if far > IN_REACH {
                return None;
            }
            let (t, rho) = (Temperature::from_kelvin(last.t + step.t), Density::from_si(last.rho + step.rho));
            last = Tangent::at(&State::at(&self.refrigerant.fluid().equation, t, rho));
            step = near(&last);
            far = distance(&last, &step);
            at_hand = AFTER_ONE;
        }
        None
    }
}

/// The state that was found, kept where it has slopes.
fn found(phases: &Phases, cached: &CachedState) -> Point {
    let single = phases.single();
    cached.keep(single.map(Tangent::at));
    Point {
        t: phases.temperature().kelvin(),
        rho: phases.density().si(),
        h: phases.enthalpy().si(),
        s: phases.entropy().si(),
        cp: single.map(|state| state.isobaric_heat_capacity().si()),
    }
}
