//! Tests of the evaporator.

#![cfg(test)]

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
