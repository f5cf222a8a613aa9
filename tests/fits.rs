//! The saturation lines against the equations of state they stand for.

use approx::abs_diff_eq;
use satline::refrigerant::Refrigerant;
use satline::saturation::Wagner;
use satline::{Pressure, Temperature};

use crate::support::Table;

/// Every line: the refrigerant, the column of its equation table, the line.
fn lines() -> Vec<(Refrigerant, &'static str, &'static Wagner)> {
    let of = |r: Refrigerant| {
        if r.is_blend() {
            vec![(r, "bubble_Pa", r.bubble_line()), (r, "dew_Pa", r.dew_line())]
        } else {
            vec![(r, "pressure_Pa", r.dew_line())]
        }
    };
    Refrigerant::ALL.iter().copied().flat_map(of).collect()
}

fn file(r: Refrigerant) -> String {
    r.designation().to_lowercase().replace("(e)", "").replace('-', "")
}

/// Rows of an equation table as (T, p).
fn equation(r: Refrigerant, column: &str, suffix: &str) -> Vec<(Temperature, Pressure)> {
    let table = Table::read(format!("equation/{}{suffix}.csv", file(r)));
    let rows: Vec<_> = table
        .numbers("temperature_K")
        .into_iter()
        .map(Temperature::from_kelvin)
        .zip(table.numbers(column).into_iter().map(Pressure::from_pa))
        .collect();
    let promised: usize = table.fact("rows").unwrap().parse().unwrap();
    assert_eq!(rows.len(), promised, "{r}{suffix}: rows were lost or added");
    rows
}

#[test]
fn two_thousand_random_temperatures_lie_within_the_declared_error() {
    let mut compared = 0;
    for (r, column, line) in lines() {
        let rows = equation(r, column, "-random");
        assert_eq!(rows.len(), 2000, "{r}");
        // a published line that turns over at its end is answered only up to there
        for (t, exact) in rows.into_iter().filter(|(t, _)| line.valid.contains(*t)) {
            let ours = line.pressure(t).unwrap();
            let declared = line.accuracy_at(t).unwrap();
            let relative = (ours.pa() / exact.pa() - 1.0).abs();
            // the table has twelve digits
            assert!(
                relative <= declared.pressure + 1e-11,
                "{r} {column} at {} K: off by {relative:.2e}, declared {:.1e}",
                t.kelvin(),
                declared.pressure
            );
            let kelvin = (ours - exact).pa().abs() / line.slope_pa_per_kelvin(t).unwrap();
            assert!(
                kelvin <= declared.temperature.kelvins() + 1e-9,
                "{r} {column} at {} K: off by {kelvin:.2e} K, declared {:.1e} K",
                t.kelvin(),
                declared.temperature.kelvins()
            );
            compared += 1;
        }
    }
    // 12 pure fluids and 4 blends with two lines; less the 0.2 % of R-407C's two lines and the few rows of R-404A's
    // that lie beyond their ends
    assert!((39_980..=40_000).contains(&compared), "{compared} rows compared");
}

#[test]
fn the_goal_is_met_from_minus_forty_to_two_kelvin_below_critical() {
    for (r, column, line) in lines() {
        for band in &line.accuracy[2..3] {
            assert!(band.pressure <= 3e-4, "{r} {column}: {:.1e} of the pressure", band.pressure);
            assert!(band.temperature.kelvins() <= 0.01, "{r} {column}: {:?}", band.temperature);
        }
    }
}

#[test]
fn every_line_answers_from_sixty_below_or_its_equations_end_to_the_critical_point() {
    for (r, column, line) in lines() {
        let start = equation(r, column, "")[0].0;
        // rounding
        assert!(
            abs_diff_eq!(line.valid.low.kelvin(), start.kelvin(), epsilon = 1e-9),
            "{r} {column} starts at {:?}",
            line.valid.low
        );
        if r != Refrigerant::R744 {
            assert!(line.valid.low.celsius() <= -60.0, "{r} {column}");
        }
        // R-404A and R-407C: their published bubble lines turn over just below the end
        let missing = (line.critical_temperature - line.valid.high).kelvins();
        let allowed = match r {
            Refrigerant::R404A => 0.010_1,
            Refrigerant::R407C => 0.405_1,
            _ => 0.0,
        };
        assert!(missing <= allowed, "{r} {column} ends {missing} K below its critical point");
    }
}

#[test]
fn temperature_undoes_pressure_to_a_billionth_of_a_kelvin() {
    for (r, column, line) in lines() {
        let steps = 20_000;
        for i in 0..=steps {
            let t = line.valid.at(f64::from(i) / f64::from(steps));
            let t = if line.valid.contains(t) { t } else { line.valid.high };
            let back = line.temperature(line.pressure(t).unwrap()).unwrap();
            let off = (back - t).kelvins().abs();
            assert!(off < 1e-9, "{r} {column}: {} K comes back off by {off:.1e} K", t.kelvin());
        }
        for t in [line.valid.low, line.valid.high] {
            let off = (line.temperature(line.pressure(t).unwrap()).unwrap() - t).kelvins().abs();
            assert!(off < 1e-9, "{r} {column}: end {} K comes back off by {off:.1e} K", t.kelvin());
        }
    }
}

#[test]
fn pressure_rises_and_the_slope_is_its_derivative() {
    for (r, column, line) in lines() {
        let steps = 2_000;
        let mut before = 0.0;
        for i in 1..steps {
            let t = line.valid.at(f64::from(i) / f64::from(steps));
            let p = line.pressure(t).unwrap().pa();
            assert!(p > before, "{r} {column} does not rise at {} K", t.kelvin());
            before = p;
            // central difference; its own error grows as (h/distance to the end)², so stay clear of the singular end
            let h = 1e-3 * (line.critical_temperature - t).kelvins().min(1.0);
            let at = |dt: f64| line.pressure(Temperature::from_kelvin(t.kelvin() + dt)).map(Pressure::pa);
            let (Ok(up), Ok(down)) = (at(h), at(-h)) else { continue };
            let difference = (up - down) / (2.0 * h);
            let slope = line.slope_pa_per_kelvin(t).unwrap();
            assert!(
                abs_diff_eq!(slope / difference, 1.0, epsilon = 2e-6),
                "{r} {column} at {} K: slope {slope}, difference {difference}",
                t.kelvin()
            );
        }
    }
}

#[test]
fn bubble_pressure_is_never_below_dew_pressure() {
    for r in Refrigerant::ALL.iter().copied().filter(|r| r.is_blend()) {
        for i in 0..=1000 {
            let t = r.saturation_range().at(f64::from(i) / 1000.0);
            let (bubble, dew) = (r.bubble_pressure(t).unwrap(), r.dew_pressure(t).unwrap());
            assert!(bubble.pa() >= dew.pa() * (1.0 - 1e-12), "{r} at {} K", t.kelvin());
        }
    }
}

#[test]
fn outside_its_range_a_line_says_so() {
    let r = Refrigerant::R134a;
    let error = r.saturation_pressure(Temperature::from_celsius(120.0)).unwrap_err();
    assert_eq!(
        error.to_string(),
        "R-134a at 120.0 °C is above its critical temperature of 101.1 °C: it has no saturation pressure there, and at rest \
         the pressure follows the charge; cool it below that to judge by saturation"
    );
    let error = r.saturation_pressure(Temperature::from_celsius(-120.0)).unwrap_err();
    assert_eq!(
        error.to_string(),
        "saturation temperature -120.0 °C is outside -103.3 to 101.1 °C, the range of validity"
    );
    assert!(r.saturation_pressure(Temperature::from_kelvin(f64::NAN)).is_err());
    let error = r.saturation_temperature(Pressure::from_mpa(4.2)).unwrap_err();
    assert_eq!(
        error.to_string(),
        "R-134a at 4200 kPa absolute is above its critical pressure of 4059 kPa: it neither boils nor condenses there; \
         read the gas cooler outlet temperature instead"
    );
    let error = r.saturation_temperature(Pressure::from_pa(-5.0)).unwrap_err();
    assert_eq!(error.to_string(), "saturation pressure -0.0 kPa is outside 0.4 to 4059.1 kPa, the range of validity");
    assert!(r.saturation_temperature(Pressure::from_pa(f64::NAN)).is_err());
    // the short line itself, which knows no critical point: its ends in kPa
    let error = r.dew_line().temperature(Pressure::from_mpa(4.2)).unwrap_err();
    assert_eq!(error.to_string(), "saturation pressure 4200.0 kPa is outside 0.4 to 4059.1 kPa, the range of validity");
}

/// The procedure that made the shipped coefficients makes the same curves again.
///
/// Curves are compared, not coefficients: the columns are nearly parallel, so coefficients may wander while the curve
/// stands still. Both are rounded to seven decimals, which six terms can turn into 1e-6 of the pressure at most.
#[cfg(feature = "fit")]
#[test]
fn the_fit_can_be_repeated() {
    use satline::{TemperatureDifference, fit};
    for r in Refrigerant::ALL.iter().copied().filter(|r| !r.is_blend()) {
        let rows = equation(r, "pressure_Pa", "");
        let shipped = r.dew_line();
        let critical = (shipped.critical_temperature, shipped.critical_pressure);
        let again = fit::wagner(&rows, critical, &fit::EXPONENTS, shipped.source).unwrap();
        for &(t, _) in &rows {
            let (a, b) = (again.pressure(t).unwrap(), shipped.pressure(t).unwrap());
            assert!(abs_diff_eq!(a.pa() / b.pa(), 1.0, epsilon = 1e-6), "{r} at {} K", t.kelvin());
        }
        assert_eq!(fit::declared(shipped, &rows).unwrap(), shipped.accuracy, "{r}: declared error");
        // what a line declared before has no say in it
        let mut loose = *shipped;
        loose.accuracy = loose.accuracy.map(|mut band| {
            (band.pressure, band.temperature) = (1.0, TemperatureDifference::from_kelvins(9.0));
            band
        });
        assert_eq!(fit::declared(&loose, &rows).unwrap(), shipped.accuracy, "{r}: declared error");
    }
}

/// What a table must be like to be fitted.
#[cfg(feature = "fit")]
#[test]
fn a_bad_table_is_refused_with_its_reason() {
    use satline::fit;
    let critical = (Temperature::from_kelvin(374.21), Pressure::from_mpa(4.059));
    let row = |t: f64, p: f64| (Temperature::from_kelvin(t), Pressure::from_pa(p));
    let source = Refrigerant::R134a.dew_line().source;
    let good: Vec<_> = (0..20)
        .map(|i| 250.0 + 5.0 * f64::from(i))
        .map(|t| row(t, Refrigerant::R134a.saturation_pressure(Temperature::from_kelvin(t)).unwrap().pa()))
        .collect();
    assert!(fit::wagner(&good, critical, &[1.0, 1.5, 2.0], source).is_ok());
    let refused = |rows: &[(Temperature, Pressure)], exponents: &[f64]| {
        fit::wagner(rows, critical, exponents, source).unwrap_err().to_string()
    };
    assert_eq!(refused(&good[..2], &[1.0, 1.5, 2.0]), "table cannot be fitted: 2 rows cannot settle 3 coefficients");
    assert_eq!(refused(&good, &[]), "table cannot be fitted: 0 exponents given, 1 to 6 are possible");
    let mut bad = good.clone();
    bad[7] = row(f64::NAN, 1.0);
    assert_eq!(refused(&bad, &[1.0]), "table cannot be fitted: row 8: NaN K, 1 Pa is not a saturation point");
    // the first row has none before it that would refuse it
    for (t, p, shown) in [(250.0, 0.0, "250 K, 0 Pa"), (0.0, 1.0, "0 K, 1 Pa"), (250.0, f64::INFINITY, "250 K, inf Pa")]
    {
        let mut bad = good.clone();
        bad[0] = row(t, p);
        assert!(refused(&bad, &[1.0]).ends_with(&format!("row 1: {shown} is not a saturation point")));
    }
    bad[7] = row(282.0, 1.0);
    assert!(refused(&bad, &[1.0]).ends_with("row 8: 282 K, 1 Pa does not rise from the row before"));
    bad = good;
    bad[19] = row(380.0, 5e6);
    assert!(refused(&bad, &[1.0]).ends_with("row 20: 380 K is not below the critical temperature"));

    let read = |text: &str| fit::read_table(text, "t", "p").unwrap_err().to_string();
    assert_eq!(read("t,q\n1,2\n"), "table cannot be fitted: no column \"p\"");
    assert_eq!(read("t,p\n"), "table cannot be fitted: it has no rows");
    assert_eq!(read("# head\nt,p\n1,2\n3,x\n"), "table cannot be fitted: line 4: \"x\" is not a finite number");
    assert_eq!(read("t,p\n1,inf\n"), "table cannot be fitted: line 2: \"inf\" is not a finite number");
}
