//! The evaporator: boiling against moist air, dry or wet.

use super::exchanger::Face;
use super::smooth::positive;
use crate::air::{formulas, water};

/// The air side of the evaporator.
#[derive(Debug, Clone, Copy)]
pub(super) struct AirSide {
    /// Outside air, K, its humidity ratio, and its pressure, Pa.
    pub(super) t: f64,
    pub(super) w: f64,
    pub(super) p: f64,
    /// Dry air through the evaporator, kg/s.
    pub(super) flow: f64,
    /// Share of the air at the inlet that has just left the evaporator.
    pub(super) returned: f64,
}

/// Boiling on the whole face.
#[derive(Debug, Clone, Copy)]
pub(super) struct Wetted {
    /// Heat taken from the air, W.
    pub(super) heat: f64,
    /// The part of it that cooled the air, W.
    pub(super) sensible: f64,
    /// Surface, K.
    pub(super) surface: f64,
    /// Air at the inlet, K.
    pub(super) inlet: f64,
    /// Water removed, kg/s.
    pub(super) water: f64,
}

/// Heat taken when the whole face boils at `boiling` K.
///
/// The surface at T_s stands between air and refrigerant: (UA)ᵣ (T_s − T₀) = ṁₐ (1 − b) [cₚ (T_i − T_s) + r (w_i − w_s)⁺], b the
/// bypass factor exp(−(UA)ₐ/(ṁₐ cₚ)), w_s the humidity ratio of saturated air at T_s; dry where w_i < w_s. This is the
/// enthalpy-potential form (Threlkeld; Braun, Klein & Mitchell, ASHRAE Trans. 95 (1989)) with the bend at the dew point
/// smoothed. The search begins at `near`, or without one a quarter of the way to the air, and ends `within` K. Air that has left the evaporator may be part of the inlet: T_i − T_s = (T − T_s)(1 − ρ)/(1 − ρ b), and w alike.
pub(super) fn boil(face: &Face, air: &AirSide, boiling: f64, near: Option<f64>, within: f64) -> Option<Wetted> {
    let rate = face.air;
    let bypass = (-face.air_side / rate).exp();
    let fresh = (1.0 - air.returned) / (1.0 - air.returned * bypass);
    let taken = (1.0 - bypass) * fresh;
    // as a bend, 0.03 g/kg
    const BEND: f64 = 3e-5;
    let mut surface = near.unwrap_or_else(|| boiling + 0.25 * positive(air.t - boiling, 1.0));
    let mut answer = None;
    for _ in 0..30 {
        let (saturated, saturated_slope) = water::saturation_pressure_and_slope(surface);
        let w = formulas::humidity_ratio(saturated, air.p);
        let over = air.w - w;
        let latent_heat = LATENT_ZERO + LATENT_SLOPE * (surface - 273.15);
        let wet = positive(over, BEND);
        let sensible = rate * taken * (air.t - surface);
        let latent = air.flow * taken * latent_heat * wet;
        let balance = sensible + latent - face.refrigerant_side * (surface - boiling);
        let wet_slope = 0.5 * (1.0 + over / (over * over + BEND * BEND).sqrt());
        // w = 0.622 p/(P − p), so dw/dp = w P/(p (P − p))
        let w_slope = w * air.p / (saturated * (air.p - saturated)) * saturated_slope;
        let slope = -rate * taken - air.flow * taken * latent_heat * wet_slope * w_slope - face.refrigerant_side;
        let step = -balance / slope;
        answer = Some(Wetted {
            heat: face.refrigerant_side * (surface - boiling),
            sensible,
            surface,
            inlet: surface + (air.t - surface) * fresh,
            water: air.flow * taken * wet,
        });
        if step.abs() < within {
            break;
        }
        surface += step.clamp(-8.0, 8.0);
    }
    answer.filter(|wetted| wetted.heat.is_finite())
}

/// Heat of evaporation of water at 0 °C, J/kg, and its slope, J/(kg K) (ASHRAE Fundamentals 2017, ch. 1: 2501 + 1.86 t − 4.186 t).
const LATENT_ZERO: f64 = 2.501e6;
const LATENT_SLOPE: f64 = 1860.0 - 4186.0;
