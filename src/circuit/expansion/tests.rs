//! Tests of the expansion devices.

#![cfg(test)]

use approx::{abs_diff_eq, assert_abs_diff_eq};

use super::*;
use crate::Refrigerant;

fn upstream(p: f64, subcooling: f64, quality: f64) -> Upstream {
    let fluid = Fluid::new(Refrigerant::R134a).unwrap();
    let pair = fluid.saturated(p).unwrap();
    Upstream {
        p,
        saturated_p: if quality > 0.0 { p } else { fluid.saturation_pressure(pair.t - subcooling).unwrap() },
        limit_p: fluid.saturation_pressure(pair.t - MOST_SUBCOOLING).unwrap(),
        subcooling,
        quality,
        rho_l: pair.rho_l,
        rho_v: pair.rho_v,
        critical_pa: fluid.critical_pa,
        critical_k: fluid.critical_k,
    }
}

/// Both published correlations as `tables/system/components.csv` has them for a tube of 38.4 mm at 1.5 MPa and 5 K.
#[test]
fn the_short_tube_passes_what_the_table_says() {
    let table = include_str!("../../../tables/system/components.csv");
    let row = table.lines().find(|line| line.starts_with("\"short tube flow, both correlations")).unwrap();
    let numbers = |after: &str| -> Vec<f64> {
        let from = row.split_once(after).unwrap().1;
        let part = from.split([',', '"']).next().unwrap();
        part.split('/').map(|text| text.trim().parse().unwrap()).collect()
    };
    let (payne, choi) = (numbers("Payne "), numbers("Choi "));
    let bores = [1.22, 1.45, 1.57, 1.70, 1.83];
    assert!(row.contains("D 1.22 / 1.45 / 1.57 / 1.70 / 1.83 mm") && payne.len() == 5 && choi.len() == 5, "{row}");
    for ((bore, payne), choi) in bores.into_iter().zip(payne).zip(choi) {
        let ours = 3600.0 * through_tube(1e-3 * bore, 38.4e-3, &upstream(1.5e6, 5.0, 0.0));
        // half a unit in the last printed digit
        assert!(abs_diff_eq!(ours, payne, epsilon = 0.5), "{bore} mm: ours {ours:.2} kg/h, table {payne}");
        // as far as the two publications part
        assert!(
            abs_diff_eq!(ours / choi, 1.0, epsilon = 0.06),
            "{bore} mm: ours {ours:.2} kg/h, the other correlation {choi}"
        );
    }
}

#[test]
fn the_short_tube_goes_on_without_a_step() {
    let tube = |subcooling, quality| through_tube(1.6e-3, 38e-3, &upstream(1.5e6, subcooling, quality));
    // at the end of the published subcooling, and where vapour begins
    assert_abs_diff_eq!(tube(15.0 + 1e-9, 0.0) / tube(15.0 - 1e-9, 0.0), 1.0, epsilon = 1e-6); // 2e-9 K apart
    assert_abs_diff_eq!(tube(0.0, 1e-9) / tube(1e-9, 0.0), 1.0, epsilon = 1e-6); // 2e-9 of quality apart
    for i in 0..60 {
        let k = f64::from(i) * 0.5;
        assert!(tube(k + 0.5, 0.0) > tube(k, 0.0), "{k} K");
    }
    for i in 0..50 {
        let x = f64::from(i) * 0.01;
        assert!(tube(0.0, x + 0.01) < tube(0.0, x), "{x}");
    }
}

/// Water through an opening, by hand: 1500 kPa, 998 kg/m³ and nearly no vapour pressure leave Δp to the pipes.
#[test]
fn a_cold_liquid_does_not_choke_and_a_boiling_one_does() {
    let cold = Upstream { saturated_p: 2339.0, critical_pa: 22.064e6, rho_l: 998.0, ..upstream(1.5e6, 5.0, 0.0) };
    // √(2 · 998 kg/m³ · 500 kPa) = 31 591 kg/(s m²)
    // a thousandth: our choice
    assert_abs_diff_eq!(through_opening(&cold, 1.0e6) / 31_591.0, 1.0, epsilon = 1e-3);
    // at 1.5 MPa R-134a about to boil: F_F = 0.96 − 0.28 √(1500/4059) = 0.790, Δp = 0.81 · 0.210 · 1500 kPa = 255 kPa
    let hot = upstream(1.5e6, 0.0, 1e-12);
    let by_hand = (2.0 * hot.rho_l * 255.3e3f64).sqrt();
    for p_down in [2e5, 4e5, 8e5] {
        // by hand with three digits
        assert!(abs_diff_eq!(through_opening(&hot, p_down) / by_hand, 1.0, epsilon = 2e-3), "{p_down}");
    }
}

/// The critical flow of a boiling mixture by ω (Leung, AIChE J. 32 (1986) 1743), with ω lessened by N, as vapour takes time to
/// form (Diener & Schmidt 2005, exponent 3/5 for valves and orifices); both from memory.
#[test]
fn vapour_at_the_inlet_lessens_the_flow_as_another_method_has_it() {
    let fluid = Fluid::new(Refrigerant::R134a).unwrap();
    let p = 1.3e6;
    let pair = fluid.saturated(p).unwrap();
    let (v_l, v_g) = (1.0 / pair.rho_l, 1.0 / pair.rho_v);
    let bisected = |f: &dyn Fn(f64) -> f64| {
        let (mut low, mut high) = (1e-9, 1.0 - 1e-12);
        for _ in 0..100 {
            let middle = 0.5 * (low + high);
            if f(middle) > 0.0 { high = middle } else { low = middle }
        }
        0.5 * (low + high)
    };
    let other = |x: f64| {
        let v = v_l + x * (v_g - v_l);
        let boils = pair.cp_l * pair.t * p * (v_g - v_l) / pair.latent().powi(2);
        let (mut n, mut eta, mut omega) = (1.0, 0.5, 1.0);
        for _ in 0..200 {
            omega = x * v_g / v + boils * (v_g - v_l) / v * n;
            let w: f64 = omega;
            eta = bisected(&|e: f64| e * e + (w * w - 2.0 * w) * (1.0 - e).powi(2) + 2.0 * w * w * (e.ln() + 1.0 - e));
            n = 0.5 * n + 0.5 * (x + boils * (-f64::ln(eta))).powf(0.6).min(1.0);
        }
        let root = (2.0 * (-omega * f64::ln(eta) - (omega - 1.0) * (1.0 - eta))).sqrt();
        root / (omega * (1.0 / eta - 1.0) + 1.0) * (p / v).sqrt()
    };
    let ours = |x: f64| through_opening(&upstream(p, 0.0, x.max(1e-12)), 3e5);
    assert_abs_diff_eq!(ours(0.0) / other(0.0), 1.17, epsilon = 0.01); // its last digit
    for x in [0.02, 0.05, 0.1, 0.2, 0.3, 0.5] {
        let (own, theirs) = (ours(x) / ours(0.0), other(x) / other(0.0));
        // a tenth between two methods: our choice
        assert!(abs_diff_eq!(own / theirs, 1.0, epsilon = 0.10), "{x}: {own} {theirs}");
    }
}

#[test]
fn a_valve_opens_from_its_static_superheat_over_its_gradient() {
    let at = |superheat| through_valve(1e-6, 6.0, 4.0, superheat, &upstream(1.5e6, 5.0, 0.0), 3e5);
    let full = at(30.0);
    // the ends of the opening are bent: our choice
    assert_abs_diff_eq!(at(8.0) / full, 0.5, epsilon = 1e-3);
    assert_abs_diff_eq!(at(0.0) / full, Expansion::SHUT, epsilon = 1e-3);
    assert!(at(6.5) > at(6.0) && at(9.9) > at(9.0));
}
