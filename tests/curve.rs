//! Curves and domes against the equations they were made from: here the short lines of the catalogue, and densities
//! with the same singularity at the critical point as real ones.

use approx::abs_diff_eq;
use satline::quantity::{Density, SpecificEnthalpy, SpecificEntropy};
use satline::saturation::tables::{MadeCurve, MadeDome, SaturatedPhase};
use satline::saturation::{Curve, Wagner};
use satline::{Error, Pressure, Quantity, Range, Refrigerant, Temperature, TemperatureDifference};

/// Every line of the catalogue, made into a curve.
fn made() -> Vec<(String, &'static Wagner, MadeCurve)> {
    let lines = |r: Refrigerant| {
        let mut lines = vec![(format!("{r} dew"), r.dew_line())];
        if r.is_blend() {
            lines.push((format!("{r} bubble"), r.bubble_line()));
        }
        lines
    };
    let make = |(name, line): (String, &'static Wagner)| {
        let made = MadeCurve::new(line.valid, line.critical_temperature, |t| line.pressure(t)).unwrap();
        (name, line, made)
    };
    Refrigerant::ALL.iter().copied().flat_map(lines).map(make).collect()
}

/// Temperatures evenly over the range and crowding towards its upper end, with all of its ends and cell borders: where
/// the leading digits of T or of its distance to the critical point change.
fn temperatures(valid: Range<Temperature>, end: f64) -> Vec<f64> {
    let (low, high) = (valid.low.kelvin(), valid.high.kelvin());
    let even = (0..=2000).map(|i| low + (high - low) * f64::from(i) / 2000.0);
    let crowding = (0..=500).map(|i| high - (high - low) * 10f64.powf(-f64::from(i) / 60.0));
    let borders = (0..20).flat_map(|doubling| {
        (16..32).flat_map(move |digits| {
            let distance = f64::from(digits) * 2f64.powi(doubling - 16);
            [distance, end - distance].into_iter().flat_map(|t| [t - 1e-9, t, t + 1e-9])
        })
    });
    let mut all: Vec<f64> =
        even.chain(crowding).chain(borders).chain([low, high]).filter(|t| (low..=high).contains(t)).collect();
    all.sort_by(f64::total_cmp);
    all
}

fn pressures(curve: &Curve, kelvin: &[f64]) -> Vec<f64> {
    let mut pascal = vec![0.0; kelvin.len()];
    curve.pressures(kelvin, &mut pascal).unwrap();
    pascal
}

#[test]
fn pressures_and_slopes_follow_the_equation_and_the_way_back_closes() {
    for (name, line, made) in made() {
        let curve = made.curve(line.source);
        let kelvin = temperatures(line.valid, line.critical_temperature.kelvin());
        for (&t, p) in kelvin.iter().zip(pressures(&curve, &kelvin)) {
            let at = Temperature::from_kelvin(t);
            let error = (p / line.pressure(at).unwrap().pa() - 1.0).abs();
            assert!(error < 2.1e-11, "{name} at {t} K: p off by {error:.1e}");
            let back = (curve.temperature(Pressure::from_pa(p)).unwrap().kelvin() - t).abs();
            assert!(back < 1e-9, "{name} at {t} K: back with {back:.1e} K");
            if t < line.critical_temperature.kelvin() - 0.1 {
                let slope = line.slope_pa_per_kelvin(at).unwrap();
                let error = (curve.slope_pa_per_kelvin(at).unwrap() / slope - 1.0).abs();
                assert!(error < 3e-7, "{name} at {t} K: slope off by {error:.1e}");
            }
        }
    }
}

#[test]
fn both_ways_rise_across_every_border() {
    for (name, line, made) in made() {
        let curve = made.curve(line.source);
        let kelvin = temperatures(line.valid, line.critical_temperature.kelvin());
        let pascal = pressures(&curve, &kelvin);
        let mut back = vec![0.0; pascal.len()];
        curve.temperatures(&pascal, &mut back).unwrap();
        for (t, p) in kelvin.windows(2).zip(pascal.windows(2)).filter(|(t, _)| t[1] - t[0] > 5e-10) {
            assert!(p[0] < p[1], "{name}: p({}) = {} and p({}) = {}", t[0], p[0], t[1], p[1]);
        }
        for (p, t) in pascal.windows(2).zip(back.windows(2)).filter(|(p, _)| p[1] / p[0] > 1.0 + 1e-9) {
            assert!(t[0] < t[1], "{name}: T({}) = {} and T({}) = {}", p[0], t[0], p[1], t[1]);
        }
    }
}

#[test]
fn the_ends_answer_and_what_lies_beyond_does_not() {
    for (name, line, made) in made() {
        let curve = made.curve(line.source);
        let (valid, pressures) = (curve.valid, curve.valid_pressures);
        assert_eq!(valid, line.valid, "{name}");
        for (t, p) in [(valid.low, pressures.low), (valid.high, pressures.high)] {
            assert_eq!(curve.pressure(t), Ok(p), "{name}");
            // K, there and back
            assert!(abs_diff_eq!(curve.temperature(p).unwrap().kelvin(), t.kelvin(), epsilon = 1e-10), "{name}");
        }
        let beyond = [valid.low.kelvin().next_down(), valid.high.kelvin().next_up()];
        for kelvin in beyond.into_iter().chain([0.0, -0.0, -1.0, 1e300, f64::INFINITY, f64::NEG_INFINITY, f64::NAN]) {
            let t = Temperature::from_kelvin(kelvin);
            assert!(matches!(curve.pressure(t), Err(Error::OutOfRange { .. })), "{name} at {kelvin} K");
            assert!(matches!(curve.slope_pa_per_kelvin(t), Err(Error::OutOfRange { .. })), "{name} at {kelvin} K");
        }
        let beyond = [pressures.low.pa().next_down(), pressures.high.pa().next_up()];
        for pa in beyond.into_iter().chain([0.0, -0.0, -1.0, 1e300, f64::INFINITY, f64::NEG_INFINITY, f64::NAN]) {
            let p = Pressure::from_pa(pa);
            assert!(matches!(curve.temperature(p), Err(Error::OutOfRange { .. })), "{name} at {pa} Pa");
        }
    }
}

#[test]
fn slices_give_each_value_its_own_answer_bit_for_bit() {
    let line = Refrigerant::R290.dew_line();
    let made = MadeCurve::new(line.valid, line.critical_temperature, |t| line.pressure(t)).unwrap();
    let curve = made.curve(line.source);
    let mut kelvin = temperatures(line.valid, line.critical_temperature.kelvin());
    let mut pascal = pressures(&curve, &kelvin);
    for (&t, p) in kelvin.iter().zip(&pascal) {
        assert_eq!(curve.pressure(Temperature::from_kelvin(t)).unwrap().pa().to_bits(), p.to_bits(), "{t} K");
    }
    let mut back = vec![0.0; pascal.len()];
    curve.temperatures(&pascal, &mut back).unwrap();
    for (&p, t) in pascal.iter().zip(&back) {
        assert_eq!(curve.temperature(Pressure::from_pa(p)).unwrap().kelvin().to_bits(), t.to_bits(), "{p} Pa");
    }

    // two without an answer among the others
    let whole = pascal.clone();
    (kelvin[7], kelvin[9]) = (500.0, f64::NAN);
    let error = curve.pressures(&kelvin, &mut pascal).unwrap_err();
    assert_eq!(
        error.to_string(),
        "saturation temperature 226.9 °C is outside -187.6 to 96.7 °C, the range of validity"
    );
    for (i, (p, whole)) in pascal.iter().zip(whole).enumerate() {
        assert!(if i == 7 || i == 9 { p.is_nan() } else { *p == whole }, "{i}");
    }
    let error = curve.temperatures(&[1e5, -2e3, 1e9], &mut back[..3]).unwrap_err();
    assert_eq!(error.to_string(), "saturation pressure -2.0 kPa is outside 0.0 to 4251.2 kPa, the range of validity");
    assert!(back[0] > 230.0 && back[1].is_nan() && back[2].is_nan());

    // slices that do not belong together
    back.fill(1.0);
    let error = curve.pressures(&kelvin[1..], &mut back).unwrap_err();
    assert!(matches!(error, Error::Impossible { what: "length of the slice for the answers", .. }), "{error}");
    assert!(back.iter().all(|t| *t == 1.0));
    assert_eq!(curve.pressures(&[], &mut []), Ok(()));
}

#[test]
fn domes_follow_an_equation_with_the_singularity_of_real_ones() {
    let line = Refrigerant::R134a.dew_line();
    let critical = line.critical_temperature;
    let phase = |t: Temperature, side: f64| {
        let theta = 1.0 - t.kelvin() / critical.kelvin();
        let pa = line.pressure(t).unwrap().pa();
        // ρ = ρc (1 ± 2 θ^0.325 + θ), the vapour's fading into that of an ideal gas
        let density = 512.0 * (1.0 + side * 2.0 * theta.powf(0.325) + theta);
        let ideal = pa / (81.5 * t.kelvin());
        let density = if side > 0.0 { density } else { ideal / (1.0 - 0.7 * (1.0 - theta.powf(0.325)).powi(4)) };
        SaturatedPhase {
            density: Density::from_kg_per_m3(density),
            enthalpy: SpecificEnthalpy::from_kj_per_kg(100.0 - side * 200.0 * theta.powf(0.325) + 80.0 * theta),
            entropy: SpecificEntropy::from_kj_per_kg_k(1.0 - side * 0.5 * theta.powf(0.325) + 0.1 * theta),
        }
    };
    let made = MadeCurve::new(line.valid, critical, |t| line.pressure(t)).unwrap();
    let curve = made.curve(line.source);
    let valid = Range::new(line.valid.low, critical - TemperatureDifference::from_kelvins(0.1));
    let tables = MadeDome::new(&curve, valid, critical, |t| Ok((phase(t, 1.0), phase(t, -1.0)))).unwrap();
    let dome = tables.dome(&curve);
    for t in temperatures(valid, critical.kelvin()).into_iter().map(Temperature::from_kelvin) {
        for (ours, side) in [(dome.liquid(t).unwrap(), 1.0), (dome.vapour(t).unwrap(), -1.0)] {
            let equation = phase(t, side);
            let errors = [
                (ours.density.si(), equation.density.si(), 0.0),
                (ours.enthalpy.si(), equation.enthalpy.si(), 10e3),
                (ours.entropy.si(), equation.entropy.si(), 50.0),
            ]
            .map(|(ours, equation, smallest)| (ours - equation).abs() / equation.abs().max(smallest));
            assert!(errors.iter().all(|error| *error < 1e-10), "{} K, side {side}: {errors:?}", t.kelvin());
        }
    }
    for kelvin in [valid.low.kelvin().next_down(), valid.high.kelvin().next_up(), critical.kelvin(), f64::NAN] {
        let t = Temperature::from_kelvin(kelvin);
        assert!(matches!(dome.liquid(t), Err(Error::OutOfRange { .. })), "{kelvin} K");
        assert!(matches!(dome.vapour(t), Err(Error::OutOfRange { .. })), "{kelvin} K");
    }
}

#[test]
fn all_sixteen_refrigerants_stay_small() {
    let bytes: usize = made().iter().map(|(_, _, made)| made.bytes()).sum();
    assert!(bytes < 120_000, "{bytes} bytes");
}

#[test]
fn what_cannot_be_made_says_why() {
    let line = Refrigerant::R134a.dew_line();
    let make = |low: f64, high: f64| {
        let valid = Range::new(Temperature::from_kelvin(low), Temperature::from_kelvin(high));
        MadeCurve::new(valid, line.critical_temperature, |t| line.pressure(t)).map(|_| ()).unwrap_err()
    };
    assert!(make(300.0, 200.0).to_string().contains("its range must be 0 < 300 < 200"));
    assert!(make(f64::NAN, 200.0).to_string().contains("its range must be"));
    // what the equation refuses is passed on
    assert!(matches!(make(100.0, 200.0), Error::OutOfRange { .. }));
    // a pressure that falls with temperature has no way back
    let falling = |t: Temperature| Ok(Pressure::from_pa(1e6 / t.kelvin()));
    let error = MadeCurve::new(line.valid, line.critical_temperature, falling).unwrap_err();
    assert!(matches!(error, Error::BadTable { .. }), "{error}");
}

#[allow(dead_code)] // its main writes files
#[path = "../examples/make_curves.rs"]
mod make_curves;

/// Temperatures over the whole range, crowding towards the critical point, where the equation is hardest to follow.
fn of_refrigerant(r: Refrigerant, count: u32) -> impl Iterator<Item = Temperature> {
    let (low, tc) = (r.saturation_range().low.kelvin(), r.saturation_range().high.kelvin());
    (0..count).map(move |i| {
        // the golden ratio's multiples spread evenly without a pattern
        let share = (f64::from(i) * 0.618_033_988_749_895).fract();
        Temperature::from_kelvin(if i % 2 == 0 {
            low + share * (tc - low)
        } else {
            tc - (tc - low) * 1e-4f64.powf(share)
        })
    })
}

fn catalogue_follows_its_equations(count: u32) {
    for &r in Refrigerant::ALL {
        for t in of_refrigerant(r, count) {
            let (answers, exact) = if r.is_blend() {
                (r.bubble_pressure(t).unwrap(), r.bubble_line().pressure(t).unwrap())
            } else {
                (r.saturation_pressure(t).unwrap(), make_curves::pressure(r, t).unwrap())
            };
            let off = (answers.pa() / exact.pa() - 1.0).abs();
            assert!(off <= 1e-10, "{r} at {} K: p off by {off:.1e}", t.kelvin());
            let back = (r.bubble_temperature(answers).unwrap() - t).kelvins().abs();
            assert!(back < 1e-9, "{r} at {} K: comes back off by {back:.1e} K", t.kelvin());
            let Some(dome) = r.fluid().dome.filter(|dome| dome.valid.contains(t)) else { continue };
            let (liquid, vapour) = make_curves::phases(r, t).unwrap();
            for (ours, exact) in [(dome.liquid(t).unwrap(), liquid), (dome.vapour(t).unwrap(), vapour)] {
                let relative = |a: f64, b: f64, least: f64| (a - b).abs() / b.abs().max(least);
                // h and s pass through zero: there they count as 10 kJ/kg and 50 J/(kg K)
                let off = relative(ours.density.si(), exact.density.si(), 0.0)
                    .max(relative(ours.enthalpy.si(), exact.enthalpy.si(), 1e4))
                    .max(relative(ours.entropy.si(), exact.entropy.si(), 50.0));
                assert!(off <= 1e-9, "{r} at {} K: density, enthalpy or entropy off by {off:.1e}", t.kelvin());
            }
        }
    }
}

#[test]
fn the_catalogue_follows_its_equations() {
    catalogue_follows_its_equations(150);
}

#[test]
#[ignore = "long; run in release"]
fn the_catalogue_follows_its_equations_at_many_temperatures() {
    catalogue_follows_its_equations(20_000);
}

#[test]
fn the_catalogue_holds_what_the_program_makes_and_stays_small() {
    let page = std::fs::read_to_string(crate::support::root().join("examples/make_curves.txt")).unwrap();
    let bytes = |name: &str| -> usize {
        let line = page.lines().find(|line| line.split_whitespace().next() == Some(name)).unwrap();
        line.split_whitespace().nth(1).unwrap().parse().unwrap()
    };
    for r in [Refrigerant::R744, Refrigerant::R410A] {
        let made = make_curves::make(r).unwrap();
        assert_eq!(made.bytes, bytes(r.designation()), "{r}: run make_curves and keep its page");
        let kept =
            std::fs::read_to_string(crate::support::root().join("src/refrigerant/curves").join(&made.file)).unwrap();
        // numbers may differ in their last places from machine to machine; how many there are may not
        let numbers = |text: &str| text.split([',', '[']).count();
        assert_eq!(numbers(&kept), numbers(&made.text), "{r}: run make_curves and keep what it writes");
    }
    let sum: usize = Refrigerant::ALL.iter().map(|r| bytes(r.designation())).sum();
    assert_eq!(sum, bytes("together"));
    assert!(sum <= 400_000, "{sum} bytes of constants");
}
