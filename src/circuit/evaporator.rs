//! Evaporator: boiling refrigerant against moist air, dry or wet.

use super::exchanger::Face;
use super::softplus::softplus;
use crate::air::formulas::{self, FREEZING_K};
use crate::air::water;

/// The air side of the evaporator: its inlet is a mix of outside air and of air that has left it.
///
/// T_in = (1 − ρ) T + ρ T_off, w_in = (1 − ρ_w) w + ρ_w w_off.
#[derive(Debug, Clone, Copy)]
pub(super) struct AirSide {
    /// Outside air with the heat and moisture added on its way, K and humidity ratio, and its pressure, Pa.
    pub(super) t: f64,
    pub(super) w: f64,
    pub(super) p: f64,
    /// Dry air through the evaporator, kg/s.
    pub(super) flow: f64,
    /// ρ: fraction of air off the evaporator in the temperature of the inlet.
    pub(super) returned_heat: f64,
    /// ρ_w: the same in its humidity ratio.
    pub(super) returned_water: f64,
    /// One where air from the whole face mixes before it returns, as in a cabin; zero where it returns to the part of the
    /// face it has left.
    pub(super) mixed: f64,
}

/// Parts of the evaporator's face.
#[derive(Debug, Clone, Copy)]
pub(super) struct Zones {
    /// β: share of the face in which refrigerant boils.
    pub(super) boiling: f64,
    /// κ: heat taken by the rest, over what would cool all the air to the boiling temperature.
    pub(super) superheating: f64,
}

impl Zones {
    pub(super) const ALL_BOILING: Self = Self { boiling: 1.0, superheating: 0.0 };
}

/// Heat and water removed with refrigerant boiling over the whole face.
#[derive(Debug, Clone, Copy)]
pub(super) struct WetCoil {
    /// Heat taken from the air, W.
    pub(super) heat: f64,
    /// Part of the heat that cooled the air, W.
    pub(super) sensible: f64,
    /// Surface temperature, K.
    pub(super) surface: f64,
    /// Inlet air temperature, K.
    pub(super) inlet: f64,
    /// Inlet humidity ratio.
    pub(super) inlet_w: f64,
    /// Water removed, kg/s.
    pub(super) water: f64,
}

/// Bend at the dew point, as a humidity ratio: 0.03 g/kg; our choice.
const BEND: f64 = 3e-5;
/// Share of the way from refrigerant to air at which a search for the surface begins; our choice.
const FIRST_SHARE: f64 = 0.25;
/// Longest step of that search, K; our choice.
const LONGEST_STEP_K: f64 = 8.0;

/// Heat and water removed with the whole face boiling at `boiling` K.
///
/// The surface at T_s lies between air and refrigerant: (UA)ᵣ (T_s − T₀) = ṁₐ (1 − b) [cₚ (T_i − T_s) + r (w_i −
/// w_s)⁺], b the
/// bypass factor exp(−(UA)ₐ/(ṁₐ cₚ)), w_s the humidity ratio of saturated air at T_s; dry where w_i < w_s. This is the
/// enthalpy-potential form (Threlkeld; Braun, Klein & Mitchell, ASHRAE Trans. 95 (1989)) with the bend at the dew point
/// smoothed. One surface for the whole face takes up to 3.2 % less heat, and up to 6.8 % less water, than a surface for each
/// slice; most where only the first rows are wet. The search begins at `near`, or without one a quarter of the way to the air,
/// and ends `within` K.
///
/// Air that has left the evaporator may be part of the inlet. With b' = b + (1 − β)(1 − b) left of T_i − T_s behind the share β of the
/// face that boils, and κ (T_i − T₀) taken by the rest, T_i − T_s = [(1 − ρ)(T − T_s) + ρ κ (T₀ − T_s)]/[1 − ρ (b' − κ)] and
/// w_i − w_s = (1 − ρ_w)(w − w_s)/(1 − ρ_w b').
pub(super) fn wet_coil(
    face: &Face,
    air: &AirSide,
    zones: &Zones,
    boiling: f64,
    near: Option<f64>,
    within: f64,
) -> Option<WetCoil> {
    let rate = face.air;
    let bypass = (-face.air_side / rate).exp();
    let touched = 1.0 - bypass;
    // β and κ as air that mixes meets them
    let (others, superheating) = (air.mixed * (1.0 - zones.boiling), air.mixed * zones.superheating);
    let left = bypass + others * touched;
    let share = 1.0 - air.returned_heat * (left - superheating);
    let fresh = (1.0 - air.returned_heat) / share;
    let cooled = air.returned_heat * superheating / share;
    let fresh_water = (1.0 - air.returned_water) / (1.0 - air.returned_water * left);
    let (taken, taken_water) = (touched * fresh, touched * fresh_water);
    let mut surface = near.unwrap_or_else(|| boiling + FIRST_SHARE * softplus(air.t - boiling, 1.0));
    let mut answer = None;
    for _ in 0..30 {
        let (saturated, saturated_slope) = water::saturation_pressure_and_slope(surface);
        let w = formulas::humidity_ratio(saturated, air.p);
        let over = air.w - w;
        let latent_heat = LATENT_ZERO + LATENT_SLOPE * (surface - FREEZING_K);
        let wet = softplus(over, BEND);
        let sensible = rate * taken * (air.t - surface) + rate * touched * cooled * (boiling - surface);
        let latent = air.flow * taken_water * latent_heat * wet;
        let balance = sensible + latent - face.refrigerant_side * (surface - boiling);
        let wet_slope = 0.5 * (1.0 + over / (over * over + BEND * BEND).sqrt());
        // w = 0.622 p/(P − p), so dw/dp = w P/(p (P − p))
        let w_slope = w * air.p / (saturated * (air.p - saturated)) * saturated_slope;
        let slope = -rate * (taken + touched * cooled)
            - air.flow * taken_water * latent_heat * wet_slope * w_slope
            - face.refrigerant_side;
        let step = -balance / slope;
        answer = Some(WetCoil {
            heat: face.refrigerant_side * (surface - boiling),
            sensible,
            surface,
            inlet: surface + (air.t - surface) * fresh + cooled * (boiling - surface),
            // w_in = w − ρ/(1 − ρ) of what was removed
            inlet_w: air.w - air.returned_water / (1.0 - air.returned_water) * (1.0 - others) * taken_water * wet,
            water: air.flow * taken_water * wet,
        });
        if step.abs() < within {
            break;
        }
        surface += step.clamp(-LONGEST_STEP_K, LONGEST_STEP_K);
    }
    answer.filter(|wetted| wetted.heat.is_finite())
}

/// Heat of evaporation of water at 0 °C, J/kg, and its slope, J/(kg K) (ASHRAE Fundamentals 2017, ch. 1: 2501 + 1.86 t − 4.186 t).
const LATENT_ZERO: f64 = 2.501e6;
const LATENT_SLOPE: f64 = 1860.0 - 4186.0;

#[cfg(test)]
mod tests;
