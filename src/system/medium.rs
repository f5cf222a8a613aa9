//! Refrigerant properties as the balance asks for them: bare numbers in SI units, and no error text on the way.

use crate::helmholtz::State;
use crate::quantity::{Density, SpecificEnthalpy, SpecificEntropy};
use crate::saturation::Dome;
use crate::{Error, Pressure, Quantity, Refrigerant, Temperature};

/// A pure refrigerant, asked in Pa, K, kg/m³, J/kg and J/(kg K).
#[derive(Debug, Clone, Copy)]
pub(super) struct Medium {
    pub(super) refrigerant: Refrigerant,
    pub(super) dome: &'static Dome<'static>,
    pub(super) critical_pa: f64,
    pub(super) critical_k: f64,
}

/// Liquid and vapour at one pressure.
#[derive(Debug, Clone, Copy)]
pub(super) struct Boiling {
    pub(super) p: f64,
    pub(super) t: f64,
    pub(super) rho_l: f64,
    pub(super) h_l: f64,
    pub(super) rho_v: f64,
    pub(super) h_v: f64,
    /// Heat capacity of the liquid along the saturation line; within 3 % of cp up to 0.9 of the critical temperature.
    pub(super) cp_l: f64,
}

impl Boiling {
    /// Heat of evaporation.
    pub(super) fn latent(&self) -> f64 {
        self.h_v - self.h_l
    }
}

/// One state.
#[derive(Debug, Clone, Copy)]
pub(super) struct Point {
    pub(super) t: f64,
    pub(super) rho: f64,
    pub(super) h: f64,
    pub(super) s: f64,
    /// Isobaric heat capacity; none where liquid and vapour are both present.
    pub(super) cp: Option<f64>,
}

impl Medium {
    /// # Errors
    /// [`Error::NotModelled`] for a blend.
    pub(super) fn new(refrigerant: Refrigerant) -> Result<Self, Error> {
        let fluid = refrigerant.fluid();
        let dome = fluid.dome.ok_or(Error::NotModelled {
            what: refrigerant.designation(),
            way_out: "the car's loop is computed for pure refrigerants; for a blend use the printed charts",
        })?;
        let critical = fluid.critical.value;
        Ok(Self { refrigerant, dome, critical_pa: critical.pressure.pa(), critical_k: critical.temperature.kelvin() })
    }

    /// Both phases at pressure `p`, up to 0.1 K below the critical point.
    #[inline]
    pub(super) fn boiling(&self, p: f64) -> Option<Boiling> {
        let t = self.dome.curve.temperature(Pressure::from_pa(p)).ok()?.kelvin();
        let [rho_l, h_l, _] = self.dome.liquid.at(t)?;
        let [per_pascal, h_v, _] = self.dome.vapour.at(t)?;
        let [_, cp_l, _] = self.dome.liquid.slope_at(t)?;
        Some(Boiling { p, t, rho_l, h_l, rho_v: p * per_pascal, h_v, cp_l })
    }

    /// Saturation pressure at temperature `t`.
    #[inline]
    pub(super) fn pressure(&self, t: f64) -> Option<f64> {
        Some(self.dome.curve.pressure(Temperature::from_kelvin(t)).ok()?.pa())
    }

    /// Saturation temperature at pressure `p`.
    #[inline]
    pub(super) fn temperature(&self, p: f64) -> Option<f64> {
        Some(self.dome.curve.temperature(Pressure::from_pa(p)).ok()?.kelvin())
    }

    /// Isobaric heat capacity of saturated vapour.
    pub(super) fn vapour_cp(&self, both: &Boiling) -> f64 {
        let equation = &self.refrigerant.fluid().equation;
        let at = State::at(equation, Temperature::from_kelvin(both.t), Density::from_si(both.rho_v));
        at.isobaric_heat_capacity().si()
    }

    /// The state at pressure `p` and enthalpy `h`, of one phase or two.
    pub(super) fn at_enthalpy(&self, p: f64, h: f64) -> Option<Point> {
        let phases = self.refrigerant.at_enthalpy(Pressure::from_pa(p), SpecificEnthalpy::from_si(h)).ok()?;
        Some(Point {
            t: phases.temperature().kelvin(),
            rho: phases.density().si(),
            h,
            s: phases.entropy().si(),
            cp: phases.single().map(|state| state.isobaric_heat_capacity().si()),
        })
    }

    /// The state at pressure `p` and entropy `s`, of one phase or two.
    pub(super) fn at_entropy(&self, p: f64, s: f64) -> Option<Point> {
        let phases = self.refrigerant.at_entropy(Pressure::from_pa(p), SpecificEntropy::from_si(s)).ok()?;
        Some(Point {
            t: phases.temperature().kelvin(),
            rho: phases.density().si(),
            h: phases.enthalpy().si(),
            s,
            cp: phases.single().map(|state| state.isobaric_heat_capacity().si()),
        })
    }

    /// Density and enthalpy of the single phase at pressure `p` and temperature `t`.
    pub(super) fn at_temperature(&self, p: f64, t: f64) -> Option<(f64, f64)> {
        let state = self.refrigerant.state(Pressure::from_pa(p), Temperature::from_kelvin(t)).ok()?;
        Some((state.density().si(), state.enthalpy().si()))
    }
}
