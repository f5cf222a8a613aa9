//! The standard atmosphere, the saturation of water and moist air: each against its tables, there and back, and where it
//! does not answer.

use approx::{abs_diff_eq, abs_diff_ne, assert_abs_diff_eq};
use proptest::prelude::*;
use satline::air::{MoistAir, water};
use satline::quantity::{PressureUnit, Unit};
use satline::{Error, GaugePressure, Length, Pressure, Quantity, Ratio, Temperature, air};

use crate::support::Table;

/// Air pressure at `m` metres.
fn at(m: f64) -> Pressure {
    air::pressure_at(Length::from_m(m)).unwrap_or_else(|e| panic!("{m} m: {e}")).value()
}

#[test]
fn standard_atmosphere_agrees_with_its_table() {
    let table = Table::read("air/us-standard-atmosphere-1976.csv");
    assert_eq!(table.rows.len().to_string(), table.fact("rows").unwrap());
    for (z, printed) in table.numbers("altitude_m").into_iter().zip(table.numbers("pressure_Pa")) {
        let ours = at(z).pa();
        // the table cuts off what follows the whole pascals; a value that falls on one, as at -500 m, may have come out
        // a last place of single precision below it
        let place = printed * f64::from(f32::EPSILON);
        assert!(
            printed - place <= ours && ours < printed + 1.0 + place,
            "{z} m: ours {ours:.3} Pa, table {printed} Pa"
        );
    }
}

#[test]
fn printed_altitude_table_of_a_car_agrees() {
    let table = Table::read("air/altitude-pressure-printed.csv");
    assert_eq!(table.rows.len().to_string(), table.fact("rows").unwrap());
    let printed = table.column("printed_psia_Jeep_1988_table");
    // "6000 printed_psia_Jeep_1988_table 11.7 11.8 how known": altitude, column, what is printed, what it should read
    let misprints: Vec<Vec<&str>> = table.facts("misprint").map(|fact| fact.split(' ').collect()).collect();
    assert_eq!(misprints.len(), 1);
    let mut seen = 0;
    for row in table.rows.iter().filter(|row| !row[printed].is_empty()) {
        let feet: f64 = row[table.column("altitude_ft")].parse().unwrap();
        let ours = air::pressure_at(Length::from_ft(feet)).unwrap().value().psi();
        let misprint = misprints.iter().find(|m| m[0].parse() == Ok(feet));
        let psia: f64 = misprint.map_or(row[printed].as_str(), |m| m[3]).parse().unwrap();
        // half a unit in the last printed digit
        assert!(abs_diff_eq!(ours, psia, epsilon = 0.05), "{feet} ft: ours {ours:.3} psi, printed {psia} psi");
        if let Some(m) = misprint {
            assert_eq!(m[2], row[printed], "the misprint line is not about this row");
            assert!(abs_diff_ne!(ours, m[2].parse::<f64>().unwrap(), epsilon = 0.05), "{feet} ft is no misprint");
        }
        seen += 1;
    }
    assert_eq!(seen, 11, "printed rows");
}

#[test]
fn computed_columns_of_that_table_agree_in_every_unit() {
    // same equation, so only the rounding of the columns counts
    let table = Table::read("air/altitude-pressure-printed.csv");
    type Column = (&'static str, f64, fn(Pressure) -> f64);
    let columns: [Column; 4] = [
        ("p_Pa", 0.05, Pressure::pa),
        ("p_psia", 5e-4, Pressure::psi),
        ("p_inHg", 5e-4, Pressure::inhg),
        ("p_Torr", 5e-3, Pressure::torr),
    ];
    let feet = table.numbers("altitude_ft");
    for (name, rounding, get) in columns {
        for (ft, theirs) in feet.iter().zip(table.numbers(name)) {
            let ours = get(air::pressure_at(Length::from_ft(*ft)).unwrap().value());
            // a value halfway between two last digits may have gone either way
            assert!(
                abs_diff_eq!(ours, theirs, epsilon = rounding * (1.0 + 1e-6)),
                "{ft} ft, {name}: ours {ours}, table {theirs}"
            );
        }
    }
    let metres = table.numbers("altitude_m_geometric");
    for (ft, m) in feet.iter().zip(metres) {
        // half the last printed digit
        assert!(abs_diff_eq!(Length::from_ft(*ft).m(), m, epsilon = 0.05 + 1e-9), "{ft} ft is not {m} m");
    }
}

#[test]
fn altitude_is_geometric() {
    // 54 020 Pa is what H = 5000 m gives without the step from geometric to geopotential altitude
    let flat = 101_325.0 * (1.0_f64 - 0.0065 * 5000.0 / 288.15).powf(9.806_65 * 0.028_964_4 / (8.314_32 * 0.0065));
    assert_abs_diff_eq!(flat, 54_020.0, epsilon = 1.0); // its last digit
    assert_abs_diff_eq!(at(5000.0).pa() - flat, 28.5, epsilon = 1.0); // pascal, as those two are rounded
}

#[test]
fn pressure_falls_with_every_metre() {
    for z in -500..6000 {
        assert!(at(f64::from(z)) > at(f64::from(z + 1)), "{z} m");
    }
}

#[test]
fn both_ends_are_answered_and_nothing_beyond() {
    assert_abs_diff_eq!(at(-500.0).kpa(), 107.478, epsilon = 1e-3); // its last digit
    assert_abs_diff_eq!(at(6000.0).kpa(), 47.218, epsilon = 1e-3); // its last digit
    for (m, shown) in [(-500.1, "-500.1"), (6000.1, "6000.1"), (1e9, "1000000000.0"), (f64::NEG_INFINITY, "-inf")] {
        let error = air::pressure_at(Length::from_m(m)).unwrap_err();
        assert!(matches!(error, Error::Implausible { what: "altitude", low: -500.0, high: 6000.0, unit: "m", .. }));
        assert_eq!(
            error.to_string(),
            format!("altitude {shown} m is outside -500.0 to 6000.0 m, where cars are serviced; is the unit right?")
        );
    }
    let error = air::pressure_at(Length::from_m(f64::NAN)).unwrap_err();
    assert!(matches!(error, Error::Implausible { value, .. } if value.is_nan()), "{error}");
}

#[test]
fn weather_is_the_uncertainty() {
    // 9 hPa, stated with its origin at `air::WEATHER_SPREAD`
    for m in [-500.0, 0.0, 6000.0] {
        let standard = air::pressure_at(Length::from_m(m)).unwrap().standard_uncertainty();
        assert_eq!(standard, air::WEATHER_SPREAD.value);
        assert_abs_diff_eq!(standard.hpa(), 9.0, epsilon = 1e-12); // rounding
    }
}

#[test]
fn sea_level_is_the_standard_atmosphere_in_every_unit() {
    assert_eq!(at(0.0), Pressure::STANDARD_ATMOSPHERE);
    assert_abs_diff_eq!(at(0.0).torr(), 760.0, epsilon = 1e-9); // rounding
    for &unit in PressureUnit::ALL {
        assert_eq!(at(0.0).gauge(at(0.0)), GaugePressure::new(0.0, unit), "{}", unit.symbol());
    }
}

fn celsius(t: f64) -> Temperature {
    Temperature::from_celsius(t)
}

fn percent(share: f64) -> Ratio {
    Ratio::from_percent(share)
}

fn saturation(t: Temperature) -> f64 {
    water::saturation_pressure(t).unwrap_or_else(|e| panic!("{} K: {e}", t.kelvin())).pa()
}

/// Half a unit of the last printed digit; `0.101325e6` has six.
fn rounding(printed: &str) -> f64 {
    let (mantissa, exponent) = printed.split_once('e').unwrap_or((printed, "0"));
    let decimals = mantissa.split_once('.').map_or(0, |(_, digits)| digits.len());
    0.5 * 10_f64.powi(exponent.parse::<i32>().unwrap() - decimals as i32)
}

/// A table of this folder, its rows counted.
fn table(name: &str) -> Table {
    let table = Table::read(format!("air/{name}"));
    assert_eq!(table.rows.len().to_string(), table.fact("rows").unwrap(), "{name}");
    table
}

/// The percentage that the header of `table` declares.
fn declared(table: &Table) -> f64 {
    table.fact("deviates").unwrap().split(';').next().unwrap().parse().unwrap()
}

/// Fails unless the header declares what was found, rounded up in its second digit.
fn declares(table: &Table, found_percent: f64) {
    let declared = declared(table);
    assert!(
        found_percent <= declared && declared < 1.12 * found_percent,
        "declared {declared} %, found {found_percent} %"
    );
}

#[test]
fn water_gives_the_check_values_of_its_releases() {
    let table = table("water-check-values.csv");
    for row in &table.rows {
        let [t, over, pressure, slope] = &row[..] else { panic!("{row:?}") };
        let t: f64 = t.parse().unwrap();
        let ours = saturation(Temperature::from_kelvin(t));
        assert!(
            abs_diff_eq!(ours, pressure.parse::<f64>().unwrap(), epsilon = rounding(pressure)),
            "{t} K: {ours} Pa, not {pressure}"
        );
        assert_eq!(over == "ice", t < water::TRIPLE_POINT.kelvin(), "{t} K");
        if slope.is_empty() {
            continue;
        }
        // the slope by difference; at either end of the line from one side, with the second difference taken off
        let h = 1e-3;
        let p = |step: f64| saturation(Temperature::from_kelvin(t + step * h));
        let by_difference = if t < 300.0 {
            (4.0 * p(1.0) - p(2.0) - 3.0 * p(0.0)) / (2.0 * h)
        } else if t > 600.0 {
            (3.0 * p(0.0) - 4.0 * p(-1.0) + p(-2.0)) / (2.0 * h)
        } else {
            (p(1.0) - p(-1.0)) / (2.0 * h)
        };
        let printed: f64 = slope.parse().unwrap();
        // a difference of a millikelvin keeps eight digits of the pressure
        let allowed = rounding(slope) + 1e-7 * printed;
        assert!(abs_diff_eq!(by_difference, printed, epsilon = allowed), "{t} K: {by_difference} Pa/K, not {slope}");
    }
}

#[test]
fn water_lies_as_near_to_the_scientific_standard_as_its_page_says() {
    let table = table("water-iapws95.csv");
    let mut worst = 0.0_f64;
    for (t, p) in table.numbers("temperature_K").into_iter().zip(table.numbers("pressure_Pa")) {
        worst = worst.max((saturation(Temperature::from_kelvin(t)) / p - 1.0).abs());
    }
    assert!(worst < 8e-5 && worst > 7e-5, "{worst:e}: the page of saturation_pressure says 0.008 %");
}

#[test]
fn water_agrees_with_the_table_of_a_vacuum_gauge() {
    let table = table("water-saturation.csv");
    let [t_at, phase_at, p_at] = ["temp_C", "phase", "p_sat_Pa"].map(|name| table.column(name));
    let left_out = table.fact("outside").unwrap().split(';').next().unwrap();
    let (mut worst, mut outside) = (0.0_f64, 0);
    for row in &table.rows {
        let (t, printed) = (celsius(row[t_at].parse().unwrap()), &row[p_at]);
        let ours = saturation(t);
        let theirs: f64 = printed.parse().unwrap();
        let liquid = row[phase_at] == "liquid";
        if liquid && t < water::TRIPLE_POINT {
            assert_eq!(row[t_at], left_out);
            outside += 1;
        } else if liquid {
            worst = worst.max((ours / theirs - 1.0).abs());
        } else {
            // six digits; trailing zeros were dropped, so they count from the value
            let half = 0.5 * 10_f64.powf(theirs.log10().floor() - 5.0);
            assert!(
                abs_diff_eq!(ours, theirs, epsilon = half * (1.0 + 1e-9)),
                "{} °C: {ours} Pa, not {printed}",
                row[t_at]
            );
        }
    }
    assert_eq!(outside, 1);
    declares(&table, 100.0 * worst);
}

#[test]
fn boiling_and_frost_point_agree_by_micron() {
    let table = table("water-saturation-by-micron.csv");
    let mut rows = 0;
    let [torr_at, t_at, phase_at] = ["Torr", "temp_C", "phase"].map(|name| table.column(name));
    for row in &table.rows {
        let t = water::saturation_temperature(Pressure::from_torr(row[torr_at].parse().unwrap())).unwrap();
        let printed: f64 = row[t_at].parse().unwrap();
        // IF97 and SR1-86 are 0.0103 % apart at most, which is 0.002 K of boiling point
        let formulation = if row[phase_at].starts_with("ice") { 1e-6 } else { 0.002 };
        assert!(
            abs_diff_eq!(t.celsius(), printed, epsilon = 0.005 + formulation),
            "{} Torr: {} °C, not {printed}",
            row[torr_at],
            t.celsius()
        );
        assert_eq!(row[phase_at].starts_with("ice"), t < water::TRIPLE_POINT);
        rows += 1;
    }
    assert_eq!(rows, 29);
}

#[test]
fn water_boils_at_altitude_as_the_altitude_table_says() {
    let table = table("altitude-pressure-printed.csv");
    let [ft_at, boils_at] = ["altitude_ft", "water_boils_C"].map(|name| table.column(name));
    let mut rows = 0;
    for row in table.rows.iter().filter(|row| !row[boils_at].is_empty()) {
        let air = air::pressure_at(Length::from_ft(row[ft_at].parse().unwrap())).unwrap().value();
        let ours = water::saturation_temperature(air).unwrap().celsius();
        // the equation of that column is not stated; formulations of today differ by 0.002 K
        assert!(
            abs_diff_eq!(ours, row[boils_at].parse::<f64>().unwrap(), epsilon = 0.005 + 0.002),
            "{} ft: {ours} °C",
            row[ft_at]
        );
        rows += 1;
    }
    assert_eq!(rows, 29);
}

#[test]
fn water_agrees_with_the_handbook() {
    let table = table("ashrae-2017-water.csv");
    let [t_at, p_at] = ["temperature_C", "pressure_Pa"].map(|name| table.column(name));
    let mut worst = 0.0_f64;
    for row in &table.rows {
        let ours = saturation(celsius(row[t_at].parse().unwrap()));
        let printed: f64 = row[p_at].parse().unwrap();
        // -60 °C is printed with three digits: what counts is beyond them
        let beyond = ((ours - printed).abs() - rounding(&row[p_at])).max(0.0);
        worst = worst.max(beyond / printed);
    }
    declares(&table, 100.0 * worst);
}

#[test]
fn ice_and_liquid_meet_at_the_triple_point() {
    let at = water::TRIPLE_POINT.kelvin();
    let liquid = saturation(water::TRIPLE_POINT);
    let ice = saturation(Temperature::from_kelvin(at - 1e-9));
    // 7e-5 Pa between the lines, 5e-8 Pa for the nanokelvin
    assert!(ice < liquid && liquid - ice < 7.1e-5, "{ice} {liquid}");
    for share in [0.1, 0.5, 0.9] {
        let between = Pressure::from_pa(611.657 + share * (liquid - 611.657));
        assert_eq!(water::saturation_temperature(between), Ok(water::TRIPLE_POINT));
    }
}

#[test]
fn water_rises_with_every_step_and_comes_back() {
    let mut last = 0.0;
    // 50 K to the critical point by 0.1 K
    for step in 0..=5970 {
        let t = Temperature::from_kelvin(50.0 + 0.1 * f64::from(step));
        let p = water::saturation_pressure(t).unwrap();
        assert!(p.pa() > last, "{} K", t.kelvin());
        last = p.pa();
        let back = water::saturation_temperature(p).unwrap();
        // there and back, solved to the last places
        assert!(
            abs_diff_eq!(back.kelvin(), t.kelvin(), epsilon = 1e-9),
            "{} K came back as {} K",
            t.kelvin(),
            back.kelvin()
        );
    }
    for end in [water::RANGE.low, water::TRIPLE_POINT, water::RANGE.high] {
        let back = water::saturation_temperature(water::saturation_pressure(end).unwrap()).unwrap();
        // there and back, solved to the last places
        assert!(abs_diff_eq!(back.kelvin(), end.kelvin(), epsilon = 1e-9), "{} K", end.kelvin());
    }
}

#[test]
fn water_answers_nothing_beyond_its_ends() {
    let error = water::saturation_pressure(Temperature::from_kelvin(647.1)).unwrap_err();
    assert_eq!(
        error.to_string(),
        "saturation temperature of water 374.0 °C is outside -223.1 to 373.9 °C, the range of validity"
    );
    let error = water::saturation_temperature(Pressure::from_mpa(23.0)).unwrap_err();
    assert_eq!(
        error.to_string(),
        "saturation pressure of water 23000.0 kPa is outside 0.0 to 22064.0 kPa, the range of validity"
    );
    for t in [49.9, f64::NAN, f64::INFINITY] {
        assert!(matches!(
            water::saturation_pressure(Temperature::from_kelvin(t)),
            Err(Error::OutOfRange { what: "saturation temperature of water", .. })
        ));
    }
    for pa in [0.0, -1.0, f64::NAN, f64::INFINITY] {
        assert!(matches!(
            water::saturation_temperature(Pressure::from_pa(pa)),
            Err(Error::OutOfRange { what: "saturation pressure of water", .. })
        ));
    }
}

/// One state of `moist-air-reference.csv`, ours and two libraries'.
struct Row {
    name: String,
    air: MoistAir,
    t: f64,
    p: f64,
    saturated: bool,
    real: [f64; 5],
    ideal: [f64; 5],
}

fn reference() -> Vec<Row> {
    let table = table("moist-air-reference.csv");
    let quantities = ["humidity_ratio", "dew_point_C", "wet_bulb_C", "enthalpy_J_kg", "density_kg_m3"];
    let of = |model: &str, i: usize| quantities.map(|q| table.numbers(&format!("{model}_{q}"))[i]);
    let [p, t, phi] = ["pressure_Pa", "temperature_C", "relative_humidity"].map(|name| table.numbers(name));
    (0..table.rows.len())
        .map(|i| Row {
            name: format!("{} Pa, {} °C, {}", p[i], t[i], phi[i]),
            air: MoistAir::from_relative_humidity(celsius(t[i]), Ratio::from_fraction(phi[i]), Pressure::from_pa(p[i]))
                .unwrap(),
            t: t[i],
            p: p[i],
            saturated: phi[i] == 1.0,
            real: of("real", i),
            ideal: of("ideal", i),
        })
        .collect()
}

/// Humidity ratio, dew point, wet bulb, enthalpy and density, in the units of the table.
fn ours(air: &MoistAir) -> [f64; 5] {
    [
        air.humidity_ratio().fraction(),
        air.dew_point().unwrap().celsius(),
        air.wet_bulb().unwrap().celsius(),
        air.enthalpy().j_per_kg(),
        air.density().kg_per_m3(),
    ]
}

#[test]
fn moist_air_agrees_with_the_ideal_gas_of_another_hand() {
    // same equations but for the saturation pressure: Hyland & Wexler's is within 0.03 % of ours, by their own word 300 ppm;
    // that is 0.03 % of humidity ratio times p/(p - ps), and 0.005 K of dew point
    for row in reference() {
        let [w, dew, wet, h, rho] = ours(&row.air);
        let [w_them, dew_them, wet_them, h_them, rho_them] = row.ideal;
        let crowding = row.p / (row.p - row.air.vapour_pressure().pa());
        assert!(abs_diff_eq!(w / w_them, 1.0, epsilon = 3e-4 * crowding), "{}: {w} {w_them}", row.name);
        assert!(abs_diff_eq!(dew, dew_them, epsilon = 0.005), "{}: dew {dew} {dew_them}", row.name);
        assert!(abs_diff_eq!(wet, wet_them, epsilon = 0.005), "{}: wet {wet} {wet_them}", row.name);
        // that share of the latent heat, 2.6 MJ/kg at most
        assert!(abs_diff_eq!(h, h_them, epsilon = 2.6e6 * 3e-4 * crowding * w), "{}: {h} {h_them}", row.name);
        // vapour is lighter than air: some hundredths of that
        assert!(abs_diff_eq!(rho / rho_them, 1.0, epsilon = 2e-5), "{}: {rho} {rho_them}", row.name);
    }
}

#[test]
fn what_real_air_holds_more_is_the_enhancement_factor() {
    // CIPM-2007 (Picard et al., Metrologia 45 (2008) 149, eq. A1.2, as carried by others): f = α + β p + γ t²
    let cipm = |t: f64, p: f64| 1.00062 + 3.14e-8 * p + 5.6e-7 * t * t;
    let rows = reference();
    let factor = |row: &Row| {
        // f = x p/pw with x the share of vapour molecules in the real air
        let w = row.real[0];
        w / (0.621_945 + w) * row.p / row.air.vapour_pressure().pa()
    };
    let (mut inside, mut least) = (0, f64::INFINITY);
    for row in &rows {
        let f = factor(row);
        assert!(1.003 < f && f < 1.00525, "{}: f {f}", row.name);
        if row.p == 101_325.0 && row.t >= -10.0 {
            least = least.min(f);
        }
        // one factor for all humidities of a temperature and pressure explains the whole difference in humidity ratio
        let full = rows.iter().find(|other| other.saturated && other.t == row.t && other.p == row.p).unwrap();
        // the digits of the reference
        assert!(abs_diff_eq!(f / factor(full), 1.0, epsilon = 5e-6), "{}: {f} {}", row.name, factor(full));
        // where CIPM-2007 holds, 15 to 27 °C, the two factors differ by 0.00022 at most: a twentieth of what they explain
        if (15.0..=27.0).contains(&row.t) {
            assert!(abs_diff_eq!(f, cipm(row.t, row.p), epsilon = 2.2e-4), "{}: {f} {}", row.name, cipm(row.t, row.p));
            inside += 1;
        }
    }
    assert_eq!(inside, 36);
    assert_abs_diff_eq!(least, 1.00412, epsilon = 1e-5); // its last digit
}

#[test]
fn moist_air_is_as_far_from_real_air_as_its_page_says() {
    let mut worst = [0.0_f64; 5];
    for row in reference() {
        let (us, them) = (ours(&row.air), row.real);
        let off = [
            them[0] / us[0] - 1.0,
            (them[1] - us[1]).abs(),
            (them[2] - us[2]).abs(),
            // beyond what the missing vapour explains
            (them[3] - us[3] - 2.55e6 * (them[0] - us[0])).abs(),
            (them[4] / us[4] - 1.0).abs(),
        ];
        assert!(off[0] > 0.003, "{}: real air holds more", row.name);
        for (worst, off) in worst.iter_mut().zip(off) {
            *worst = worst.max(off);
        }
    }
    let [w, dew, wet, h, rho] = worst;
    assert!(0.0059 < w && w < 0.006, "humidity ratio {w}");
    assert!(dew < 0.02, "dew point {dew} K");
    assert!(wet < 0.025, "wet bulb {wet} K");
    assert!(h < 300.0, "enthalpy {h} J/kg");
    assert!(rho < 0.001, "density {rho}");
}

#[test]
fn saturated_air_against_the_handbook() {
    let table = table("ashrae-2017-saturated-air.csv");
    // what the enhancement factor adds to the humidity ratio, in percent; at 85 °C half of the mixture is vapour
    let expected = [0.53, 0.47, 0.43, 0.42, 0.44, 0.60, 1.20];
    for (row, expected) in table.rows.iter().zip(expected) {
        let [t, w, h] = &row[..] else { panic!("{row:?}") };
        let air = MoistAir::saturated(celsius(t.parse().unwrap()), Pressure::STANDARD_ATMOSPHERE).unwrap();
        let (theirs, ours) = (w.parse::<f64>().unwrap(), air.humidity_ratio().fraction());
        let printed = 100.0 * rounding(w) / theirs;
        let off = 100.0 * (theirs / ours - 1.0);
        // half the last digit of both
        assert!(
            abs_diff_eq!(off, expected, epsilon = 0.005 + printed),
            "{t} °C: {off} % of humidity ratio, expected {expected} %"
        );
        // with the Handbook's own humidity ratio what is left is that of the straight lines of heat: saturated vapour of 85 °C
        // has 2651 kJ/kg and not 2501 + 1.86 t = 2659, dry air of -50 °C 20 J less than 1.006 t
        let theirs_h: f64 = h.parse().unwrap();
        let t: f64 = t.parse().unwrap();
        let vapour = 1e3 * theirs * (2501.0 + 1.86 * t);
        let off = (theirs_h - 1006.0 * t - vapour).abs();
        assert!(off <= 20.0 + 0.003 * vapour, "{t} °C: {off} J/kg");
    }
    // dry air in the same table: 25.148 kJ/kg and 0.8443 m³/kg at 25 °C
    let dry = MoistAir::from_relative_humidity(celsius(25.0), percent(0.0), Pressure::STANDARD_ATMOSPHERE).unwrap();
    assert_abs_diff_eq!(dry.enthalpy().kj_per_kg(), 25.148, epsilon = 0.002); // 25.150: 1.006 is rounded from 1.0059
    // ideal air is 0.04 % thinner
    let volume = dry.volume_per_kg_dry().m3();
    assert!(abs_diff_eq!(volume / 0.8443, 1.0, epsilon = 0.0005) && volume > 0.84435, "{volume}");
}

#[test]
fn example_of_the_handbook() {
    // ASHRAE Handbook Fundamentals 2017, ch. 1, example 1, as carried in the tests of PsychroLib: 40 °C, wet bulb 20 °C at
    // 101.325 kPa; the values are read from the chart
    let air = MoistAir::from_wet_bulb(celsius(40.0), celsius(20.0), Pressure::STANDARD_ATMOSPHERE).unwrap();
    // the chart is that of real air, which holds 0.43 % more at the wet bulb (see saturated_air_against_the_handbook): ours is
    // 0.00640, a real-gas library gives 0.00645, and 0.0065 is what the chart's lines let one read
    let held = MoistAir::saturated(celsius(20.0), Pressure::STANDARD_ATMOSPHERE).unwrap().humidity_ratio().fraction();
    let real = air.humidity_ratio().fraction() + 0.0043 * held;
    // to half the digit that can be read
    assert_abs_diff_eq!(real, 0.0065, epsilon = 0.00005);
    assert!(abs_diff_eq!(air.relative_humidity().percent(), 14.0, epsilon = 0.5), "{:?}", air.relative_humidity());
    // the digit that can be read
    assert!(abs_diff_eq!(air.enthalpy().kj_per_kg(), 56.7, epsilon = 0.1), "{:?}", air.enthalpy());
    // to half the digit that can be read
    assert!(abs_diff_eq!(air.volume_per_kg_dry().m3(), 0.896, epsilon = 0.0005), "{:?}", air.volume_per_kg_dry());
    assert!(abs_diff_eq!(air.dew_point().unwrap().celsius(), 7.0, epsilon = 0.5), "{:?}", air.dew_point());
}

#[test]
fn frozen_and_wet_sleeve() {
    let p = Pressure::STANDARD_ATMOSPHERE;
    // below 0 °C the sleeve is ice: a wet bulb of -5 °C in air of -1 °C, ASHRAE eq. 35 by hand:
    // ps(-5 °C) = 401.741 Pa, Ws = 0.002476, W = [(2830 + 1.2) 0.002476 - 4.024]/(2830 - 1.86 + 10.5)
    let air = MoistAir::from_wet_bulb(celsius(-1.0), celsius(-5.0), p).unwrap();
    let saturated = 0.621_945 * 401.741 / (101_325.0 - 401.741);
    let by_hand = ((2830.0 + 0.24 * 5.0) * saturated - 1.006 * 4.0) / (2830.0 - 1.86 + 2.1 * 5.0);
    assert_abs_diff_eq!(air.humidity_ratio().fraction(), by_hand, epsilon = 1e-8); // by hand with six digits
    // there and back, solved to the last places
    assert_abs_diff_eq!(air.wet_bulb().unwrap().celsius(), -5.0, epsilon = 1e-9);
    // two wet bulbs for one air: a frozen sleeve at -0.3 °C is a wet one a little above 0 °C
    let air = MoistAir::from_wet_bulb(celsius(10.0), celsius(-0.3), p).unwrap();
    let wet = air.wet_bulb().unwrap();
    assert!(0.0 < wet.celsius() && wet.celsius() < 0.5, "{} °C", wet.celsius());
    let again = MoistAir::from_wet_bulb(celsius(10.0), wet, p).unwrap();
    // there and back: rounding
    assert_abs_diff_eq!(again.humidity_ratio().fraction(), air.humidity_ratio().fraction(), epsilon = 1e-12);
}

#[test]
fn hygrometers_count_from_water_below_zero() {
    // the figure on the page of MoistAir: saturation over ice to that over supercooled water at -10 °C, the latter by Murphy &
    // Koop, Q. J. R. Meteorol. Soc. 131 (2005) 1539, eq. 10, as carried by others
    let t = 263.15_f64;
    let supercooled = (54.842_763 - 6763.22 / t - 4.21 * t.ln()
        + 0.000_367 * t
        + (0.0415 * (t - 218.8)).tanh() * (53.878 - 1331.22 / t - 9.445_23 * t.ln() + 0.014_025 * t))
        .exp();
    let share = saturation(Temperature::from_kelvin(t)) / supercooled;
    assert_abs_diff_eq!(share, 0.907, epsilon = 5e-4); // half its last digit
}

#[test]
fn saturated_air_is_the_same_from_every_side() {
    for (t, kpa) in [(-30.0, 101.325), (-0.001, 70.121), (0.005, 101.325), (20.0, 101.325), (60.0, 70.121)] {
        let p = Pressure::from_kpa(kpa);
        let air = MoistAir::saturated(celsius(t), p).unwrap();
        assert_eq!(air.relative_humidity().fraction(), 1.0);
        // there and back, solved to the last places
        assert_abs_diff_eq!(air.dew_point().unwrap().celsius(), t, epsilon = 1e-9);
        assert_abs_diff_eq!(air.wet_bulb().unwrap().celsius(), t, epsilon = 1e-9);
        assert_eq!(air.saturated_enthalpy().unwrap(), air.enthalpy());
        assert_eq!(MoistAir::from_dew_point(celsius(t), celsius(t), p), Ok(air));
        assert_eq!(MoistAir::from_wet_bulb(celsius(t), celsius(t), p), Ok(air));
        let again = MoistAir::from_humidity_ratio(celsius(t), air.humidity_ratio(), p).unwrap();
        assert_abs_diff_eq!(again.relative_humidity().fraction(), 1.0, epsilon = 1e-14); // rounding
    }
}

#[test]
fn dry_and_moist_air_weigh_what_they_should() {
    let p = Pressure::STANDARD_ATMOSPHERE;
    // dry air of 0 °C: 101325/(287.042 · 273.15)
    let dry = MoistAir::from_humidity_ratio(celsius(0.0), percent(0.0), p).unwrap();
    assert_abs_diff_eq!(dry.density().kg_per_m3(), 101_325.0 / (287.042 * 273.15), epsilon = 1e-12); // rounding
    assert_eq!(dry.enthalpy().j_per_kg(), 0.0);
    assert_eq!(dry.density(), dry.dry_density());
    // vapour is lighter than the air it replaces
    let moist = MoistAir::saturated(celsius(35.0), p).unwrap();
    let parched = MoistAir::from_humidity_ratio(celsius(35.0), percent(0.0), p).unwrap();
    assert!(moist.density() < parched.density());
    // pa + pw = p by Dalton
    let air_alone = moist.dry_density().kg_per_m3() * 287.042 * 308.15;
    // rounding of 101,325 Pa
    assert_abs_diff_eq!(air_alone + moist.vapour_pressure().pa(), 101_325.0, epsilon = 1e-6);
    // rounding
    assert_abs_diff_eq!(moist.volume_per_kg_dry().m3() * moist.dry_density().kg_per_m3(), 1.0, epsilon = 1e-15);
    // liquid water mixed in adiabatically keeps the enthalpy but for the water's own: what wet bulb means
    let (t, wet) = (celsius(30.0), celsius(18.0));
    let air = MoistAir::from_wet_bulb(t, wet, p).unwrap();
    let after = MoistAir::saturated(wet, p).unwrap();
    let water_added = after.humidity_ratio().fraction() - air.humidity_ratio().fraction();
    let closed = after.enthalpy().j_per_kg() - air.enthalpy().j_per_kg() - water_added * 4186.0 * 18.0;
    assert!(abs_diff_eq!(closed, 0.0, epsilon = 1e-6), "{closed} J/kg"); // rounding of some 50,000 J/kg
}

/// A state the weather or a car can bring about, over the whole range of pressure.
fn any_air() -> impl Strategy<Value = MoistAir> {
    (-60.0..95.0_f64, 0.001..1.0_f64, 10e3..200e3_f64).prop_filter_map("it boils", |(t, phi, p)| {
        MoistAir::from_relative_humidity(celsius(t), Ratio::from_fraction(phi), Pressure::from_pa(p)).ok()
    })
}

fn same(one: &MoistAir, other: &MoistAir) -> bool {
    // there and back, solved to the last places
    abs_diff_eq!(one.vapour_pressure().pa() / other.vapour_pressure().pa(), 1.0, epsilon = 1e-9)
        && one.temperature() == other.temperature()
        && one.pressure() == other.pressure()
}

proptest! {
    #[test]
    fn every_way_in_leads_to_the_same_air(air in any_air()) {
        let (t, p) = (air.temperature(), air.pressure());
        let humidity = MoistAir::from_relative_humidity(t, air.relative_humidity(), p).unwrap();
        prop_assert!(same(&humidity, &air), "relative humidity: {humidity:?} {air:?}");
        let ratio = MoistAir::from_humidity_ratio(t, air.humidity_ratio(), p).unwrap();
        prop_assert!(same(&ratio, &air), "humidity ratio: {ratio:?} {air:?}");
        let dew = MoistAir::from_dew_point(t, air.dew_point().unwrap(), p).unwrap();
        prop_assert!(same(&dew, &air), "dew point: {dew:?} {air:?}");
        // a wet bulb of a dry cold air hardly depends on its vapour: compare against all the vapour it could hold
        let wet = MoistAir::from_wet_bulb(t, air.wet_bulb().unwrap(), p).unwrap();
        let step = (wet.vapour_pressure() - air.vapour_pressure()).pa().abs();
        prop_assert!(step < 1e-9 * saturation(t).min(p.pa()), "wet bulb: {wet:?} {air:?}");
    }

    #[test]
    fn dew_point_wet_bulb_and_dry_bulb_stand_in_order(air in any_air()) {
        let (dew, wet, t) = (air.dew_point().unwrap(), air.wet_bulb().unwrap(), air.temperature());
        let rounding = satline::TemperatureDifference::from_kelvins(1e-9);
        prop_assert!(dew <= wet + rounding && wet <= t + rounding, "{dew:?} {wet:?} {t:?}");
    }

    #[test]
    fn more_vapour_means_more_of_everything(air in any_air(), more in 1.001..1.5_f64) {
        let vapour = air.humidity_ratio() * more;
        let Ok(moister) = MoistAir::from_humidity_ratio(air.temperature(), vapour, air.pressure()) else {
            return Ok(());
        };
        prop_assert!(moister.relative_humidity() > air.relative_humidity());
        prop_assert!(moister.dew_point().unwrap() > air.dew_point().unwrap());
        prop_assert!(moister.enthalpy() > air.enthalpy());
        prop_assert!(moister.density() < air.density());
        // a sleeve freezes when the air gets drier, never when it gets moister
        prop_assert!(moister.wet_bulb().unwrap() > air.wet_bulb().unwrap());
    }

    #[test]
    fn no_number_gets_through_unanswered(t in -110.0..210.0_f64, x in -120.0..210.0_f64, p in 5e3..210e3_f64) {
        let (t, p) = (celsius(t), Pressure::from_pa(p));
        for made in [
            MoistAir::from_relative_humidity(t, percent(x), p),
            MoistAir::from_humidity_ratio(t, percent(x), p),
            MoistAir::from_dew_point(t, celsius(x), p),
            MoistAir::from_wet_bulb(t, celsius(x), p),
        ] {
            match made {
                Ok(air) => prop_assert!(air.enthalpy().j_per_kg().is_finite() && air.wet_bulb().is_ok()),
                Err(error) => prop_assert!(!matches!(error, Error::NotConverged { .. }), "{error}"),
            }
        }
    }
}

#[test]
fn moist_air_refuses_what_cannot_be() {
    let sea = Pressure::STANDARD_ATMOSPHERE;
    let refused = |made: Result<MoistAir, Error>| made.expect_err("this must be refused").to_string();
    let day = celsius(30.0);
    assert_eq!(
        refused(MoistAir::from_relative_humidity(day, percent(120.0), sea)),
        "relative humidity 120.00 % is not possible in air of 30.0 °C and 101.3 kPa absolute: it lies between 0.00 and \
         100.00 %; check the reading and its unit"
    );
    assert_eq!(
        refused(MoistAir::from_dew_point(day, celsius(31.0), sea)),
        "dew point 31.00 °C is not possible in air of 30.0 °C and 101.3 kPa absolute: it lies between -223.15 and 30.00 °C; \
         check that both temperatures are of the same air and in the unit meant"
    );
    assert_eq!(
        refused(MoistAir::from_wet_bulb(day, celsius(31.0), sea)),
        "wet bulb 31.00 °C is not possible in air of 30.0 °C and 101.3 kPa absolute: it lies between 10.53 and 30.00 °C; \
         check that both thermometers are in the unit meant and the sleeve is wet"
    );
    assert_eq!(
        refused(MoistAir::from_wet_bulb(day, celsius(10.0), sea)),
        "wet bulb 10.00 °C is not possible in air of 30.0 °C and 101.3 kPa absolute: it lies between 10.53 and 30.00 °C; \
         check that both thermometers are in the unit meant and the sleeve is wet"
    );
    assert_eq!(
        refused(MoistAir::from_humidity_ratio(day, Ratio::from_fraction(0.03), sea)),
        "humidity ratio 30.00 g/kg is not possible in air of 30.0 °C and 101.3 kPa absolute: it lies between 0.00 and 27.21 \
         g/kg; check its unit; water beyond that is fog and does not count"
    );
    assert_eq!(
        refused(MoistAir::saturated(celsius(250.0), sea)),
        "air temperature 250.0 °C is outside -100.0 to 200.0 °C, the range of validity"
    );
    assert_eq!(
        refused(MoistAir::saturated(day, Pressure::from_kpa(1013.25))),
        "absolute air pressure 1013.2 kPa is outside 10.0 to 200.0 kPa, where cars are serviced; is the unit right?"
    );
    assert_eq!(
        refused(MoistAir::saturated(celsius(100.0), Pressure::from_kpa(90.0))),
        "absolute air pressure 90.0 kPa is not above the 101.4 kPa of the water vapour at 100.0 °C, so there is no room for \
         air; check the humidity, and that the pressure is the air's own, in the unit meant"
    );
    let dry = MoistAir::from_relative_humidity(day, percent(0.0), sea).unwrap();
    assert_eq!(
        dry.dew_point().unwrap_err().to_string(),
        "air of 30.0 °C holds no water vapour and has no dew point; check the humidity, which no weather brings to 0"
    );
    // not a number, in every place
    let nan = f64::NAN;
    assert!(matches!(MoistAir::saturated(celsius(nan), sea), Err(Error::OutOfRange { .. })));
    assert!(matches!(MoistAir::saturated(day, Pressure::from_pa(nan)), Err(Error::Implausible { .. })));
    for made in [
        MoistAir::from_relative_humidity(day, percent(nan), sea),
        MoistAir::from_relative_humidity(day, percent(-0.1), sea),
        MoistAir::from_humidity_ratio(day, percent(nan), sea),
        MoistAir::from_humidity_ratio(day, percent(-0.1), sea),
        MoistAir::from_dew_point(day, celsius(nan), sea),
        MoistAir::from_dew_point(day, Temperature::from_kelvin(49.0), sea),
        MoistAir::from_wet_bulb(day, celsius(nan), sea),
        MoistAir::from_wet_bulb(day, celsius(-40.0), sea),
        MoistAir::from_wet_bulb(celsius(-20.0), celsius(-30.0), sea),
    ] {
        assert!(matches!(made, Err(Error::ImpossibleHumidity { .. })), "{made:?}");
    }
    // above its boiling point air holds any share of vapour, but no wet bulb and no saturation
    let steamy = MoistAir::from_relative_humidity(celsius(150.0), percent(10.0), sea).unwrap();
    assert!(matches!(steamy.saturated_enthalpy(), Err(Error::NoRoomForAir { .. })));
    let error = MoistAir::from_wet_bulb(celsius(150.0), celsius(120.0), sea).unwrap_err();
    assert!(matches!(error, Error::NoRoomForAir { .. }), "{error}");
}

/// Numbers of every size, and often those that air may have.
fn extreme(low: f64, high: f64) -> impl Strategy<Value = f64> {
    let ends = [0.0, 5e-324, 1e-300, 1e300, f64::MAX, f64::INFINITY, f64::NAN, low, high];
    prop_oneof![5 => low..high, 1 => any::<f64>(), 2 => prop::sample::select(ends.to_vec())]
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 2000, ..ProptestConfig::default() })]
    #[test]
    fn no_answer_holds_a_number_that_is_none(
        t in extreme(173.15, 473.15), p in extreme(10e3, 200e3), x in extreme(0.0, 1.0), other in extreme(173.15, 473.15),
        altitude in extreme(-500.0, 6000.0),
    ) {
        let (t, p, other) = (Temperature::from_kelvin(t), Pressure::from_pa(p), Temperature::from_kelvin(other));
        let x = Ratio::from_fraction(x);
        if let Ok(p) = air::pressure_at(Length::from_m(altitude)) {
            prop_assert!(p.value().pa().is_finite());
        }
        let water = [water::saturation_pressure(t).map(Quantity::si), water::saturation_temperature(p).map(Quantity::si)];
        prop_assert!(water.into_iter().flatten().all(f64::is_finite), "{t:?} {p:?}");
        let ways = [
            MoistAir::saturated(t, p),
            MoistAir::from_relative_humidity(t, x, p),
            MoistAir::from_humidity_ratio(t, x, p),
            MoistAir::from_dew_point(t, other, p),
            MoistAir::from_wet_bulb(t, other, p),
        ];
        for (way, day) in ways.into_iter().enumerate() {
            let Ok(day) = day else { continue };
            let all = [
                Ok(day.relative_humidity().si()), Ok(day.humidity_ratio().si()), Ok(day.enthalpy().si()),
                Ok(day.density().si()), Ok(day.dry_density().si()), Ok(day.volume_per_kg_dry().si()),
                day.dew_point().map(Quantity::si), day.wet_bulb().map(Quantity::si), day.saturated_enthalpy().map(Quantity::si),
            ];
            prop_assert!(all.iter().flatten().all(|x| x.is_finite()), "way {way}: {day:?} {all:?}");
        }
    }
}
