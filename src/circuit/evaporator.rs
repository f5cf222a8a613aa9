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
mod tests {
    use approx::{abs_diff_eq, assert_abs_diff_eq};

    use super::*;

    const BOILING: f64 = 274.15;

    fn air(humidity: f64, returned: f64) -> AirSide {
        let (t, p) = (303.15, 101_325.0);
        AirSide {
            t,
            w: formulas::humidity_ratio(humidity * water::saturation_pressure_pa(t), p),
            p,
            flow: 0.13,
            returned_heat: returned,
            returned_water: returned,
            mixed: 0.0,
        }
    }

    /// Two transfer units on the air side, and a refrigerant side as much better as `ratio` says.
    fn face(ratio: f64) -> Face {
        let rate = 0.13 * 1020.0;
        let side = 2.0 * rate;
        let taken = |ua: f64| rate * -(-ua / rate).exp_m1();
        let both = 1.0 / (1.0 / side + 1.0 / (ratio * side));
        Face {
            air: rate,
            air_side: side,
            refrigerant_side: ratio * side,
            two_phase: taken(both),
            one_phase: taken(0.5 * both),
        }
    }

    fn wetted(ratio: f64, air: &AirSide) -> WetCoil {
        wet_coil(&face(ratio), air, &Zones::ALL_BOILING, BOILING, None, 1e-10).unwrap()
    }

    /// The air followed through the depth, each slice of fins at the temperature where its own heat balances.
    fn walk(ratio: f64, air: &AirSide) -> (f64, f64) {
        const SLICES: usize = 4000;
        let face = face(ratio);
        let (mut t, mut w) = (air.t, air.w);
        let (mut heat, mut removed) = (0.0, 0.0);
        for _ in 0..SLICES {
            let share = 1.0 / SLICES as f64;
            let taken = |surface: f64| {
                let saturated = formulas::humidity_ratio(water::saturation_pressure_pa(surface), air.p);
                let latent_heat = LATENT_ZERO + LATENT_SLOPE * (surface - FREEZING_K);
                let sensible = face.air_side * share * (t - surface);
                let water = face.air_side * share / (face.air / air.flow) * (w - saturated).max(0.0);
                (sensible + latent_heat * water, sensible, water)
            };
            // bisection for the surface
            let (mut low, mut high) = (BOILING, t);
            for _ in 0..50 {
                let middle = 0.5 * (low + high);
                if taken(middle).0 > face.refrigerant_side * share * (middle - BOILING) {
                    low = middle
                } else {
                    high = middle
                }
            }
            let (all, sensible, water) = taken(low);
            heat += all;
            removed += water;
            t -= sensible / face.air;
            w -= water / air.flow;
        }
        (heat, removed)
    }

    #[test]
    fn one_surface_is_nearly_as_good_as_a_surface_for_each_slice() {
        let mut worst = (0.0f64, 0.0f64);
        for humidity in [0.0, 0.1, 0.3, 0.5, 0.7, 0.9] {
            for ratio in [4.0, 6.0, 9.0] {
                let air = air(humidity, 0.0);
                let (ours, (heat, water)) = (wetted(ratio, &air), walk(ratio, &air));
                worst.0 = worst.0.max((ours.heat / heat - 1.0).abs());
                if water > 1e-4 {
                    worst.1 = worst.1.max((ours.water / water - 1.0).abs());
                }
            }
        }
        // as the page of `wet_coil` has it
        let (heat, water) = (100.0 * worst.0, 100.0 * worst.1);
        // half the last digit of it
        assert!(
            abs_diff_eq!(heat, 3.2, epsilon = 0.05) && abs_diff_eq!(water, 6.8, epsilon = 0.05),
            "heat within {heat} %, water within {water} %"
        );
    }

    #[test]
    fn what_the_air_loses_the_refrigerant_gains() {
        for humidity in [0.0, 0.2, 0.45, 0.6, 1.0] {
            for returned in [0.0, 0.4] {
                let air = air(humidity, returned);
                let ours = wetted(6.0, &air);
                let latent_heat = LATENT_ZERO + LATENT_SLOPE * (ours.surface - FREEZING_K);
                let off = ours.sensible + latent_heat * ours.water - ours.heat;
                // the surface is solved to 1e-10 K
                assert!(abs_diff_eq!(off, 0.0, epsilon = 1e-9 * ours.heat), "{humidity}, {returned}: {off} W");
                // air that comes straight back is part of the inlet: T_in = (1 − ρ) T + ρ T_off
                let off_coil = ours.inlet - ours.sensible / face(6.0).air;
                let inlet = (1.0 - returned) * air.t + returned * off_coil;
                // K, ten times what the surface is solved to
                assert!(abs_diff_eq!(inlet, ours.inlet, epsilon = 1e-9), "{humidity}, {returned}");
                // water as the surface has it: w_off − w_s = b (w_in − w_s)
                let saturated = formulas::humidity_ratio(water::saturation_pressure_pa(ours.surface), air.p);
                if air.w > saturated + 1e-3 {
                    let bypass = (-face(6.0).air_side / face(6.0).air).exp();
                    let w_in = saturated + (air.w - saturated) * (1.0 - returned) / (1.0 - returned * bypass);
                    let w_off = w_in - ours.water / air.flow;
                    // the bend at the dew point leaves its trace, 3·10⁻⁵ squared over four times the distance
                    assert!(
                        abs_diff_eq!(w_off - saturated, bypass * (w_in - saturated), epsilon = 3e-7),
                        "{humidity}, {returned}"
                    );
                }
            }
        }
    }

    /// A face of which a part superheats, and air that mixes behind it before it returns.
    #[test]
    fn mixed_air_closes_its_balances_whatever_part_of_the_face_boils() {
        for (returned_heat, returned_water) in [(0.3, 0.6), (0.7, 0.985), (0.0, 0.9), (0.9, 0.0)] {
            for (boiling, superheating) in [(1.0, 0.0), (0.8, 0.1), (0.4, 0.3)] {
                let air = AirSide { returned_heat, returned_water, mixed: 1.0, ..air(0.6, 0.0) };
                let face = face(6.0);
                let ours = wet_coil(&face, &air, &Zones { boiling, superheating }, BOILING, None, 1e-10).unwrap();
                let taken = boiling * ours.sensible + superheating * face.air * (ours.inlet - BOILING);
                let t_off = ours.inlet - taken / face.air;
                let t_in = (1.0 - returned_heat) * air.t + returned_heat * t_off;
                // K, ten times what the surface is solved to
                assert!(abs_diff_eq!(t_in, ours.inlet, epsilon = 1e-9), "{t_in} and {} K", ours.inlet);
                let w_off = ours.inlet_w - boiling * ours.water / air.flow;
                let w_in = (1.0 - returned_water) * air.w + returned_water * w_off;
                assert_abs_diff_eq!(w_in, ours.inlet_w, epsilon = 1e-12); // rounding
                // the surface takes what its side of the air gives
                let surface_w = formulas::humidity_ratio(water::saturation_pressure_pa(ours.surface), air.p);
                let touched = -(-face.air_side / face.air).exp_m1();
                // K, ten times what the surface is solved to
                assert_abs_diff_eq!(ours.sensible / face.air, touched * (ours.inlet - ours.surface), epsilon = 1e-9);
                let wet = touched * (ours.inlet_w - surface_w);
                // what the bend at the dew point leaves
                assert_abs_diff_eq!(ours.water / air.flow, wet, epsilon = 1e-6);
            }
        }
    }

    #[test]
    fn dry_air_leaves_dry_and_heat_is_that_of_two_resistances() {
        let ours = wetted(6.0, &air(0.05, 0.0));
        assert!(ours.water < 1e-8 * ours.heat, "{} kg/s", ours.water);
        // C (1 − e⁻ᴺ)(T − T_s) = (UA)ᵣ (T_s − T₀)
        let (through_air, through_wall) = (face(6.0).air * -(-2.0f64).exp_m1(), face(6.0).refrigerant_side);
        let by_hand = (303.15 - BOILING) / (1.0 / through_air + 1.0 / through_wall);
        // what the bend at the dew point leaves: our choice
        assert!(abs_diff_eq!(ours.heat / by_hand, 1.0, epsilon = 1e-4), "{} and {by_hand} W", ours.heat);
    }

    /// With no end of refrigerant the surface boils, with no end of fins saturated air of the surface leaves.
    #[test]
    fn limits_of_either_side() {
        let air = air(0.6, 0.0);
        // K; a difference of 30 K over a ratio of a million is 3e-5
        assert_abs_diff_eq!(wetted(1e6, &air).surface, BOILING, epsilon = 1e-4);
        let endless = Face { air_side: 40.0 * face(6.0).air, ..face(6.0) };
        let ours = wet_coil(&endless, &air, &Zones::ALL_BOILING, BOILING, None, 1e-10).unwrap();
        let off = ours.inlet - ours.sensible / endless.air;
        // K; e⁻⁴⁰ of the difference is left
        assert!(abs_diff_eq!(off, ours.surface, epsilon = 1e-9), "{off} K off a surface of {} K", ours.surface);
        let w_off = air.w - ours.water / air.flow;
        let saturated = formulas::humidity_ratio(water::saturation_pressure_pa(ours.surface), air.p);
        // what the bend at the dew point leaves: our choice
        assert!(abs_diff_eq!(w_off / saturated, 1.0, epsilon = 1e-4), "{w_off} and {saturated}");
    }

    #[test]
    fn a_near_start_finds_the_same_surface() {
        let (air, face) = (air(0.6, 0.2), face(5.0));
        let from = |near| wet_coil(&face, &air, &Zones::ALL_BOILING, BOILING, near, 1e-10).unwrap().surface;
        for near in [250.0, 270.0, 280.0, 300.0] {
            // K, ten times what each is solved to
            assert!(abs_diff_eq!(from(Some(near)), from(None), epsilon = 1e-9), "{near} K");
        }
    }
}
