//! The standard atmosphere against two tables, and altitudes that no road has.

use satline::quantity::{PressureUnit, Unit};
use satline::{Error, GaugePressure, Length, Pressure, Quantity, air};

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
        assert!((ours - psia).abs() <= 0.05, "{feet} ft: ours {ours:.3} psi, printed {psia} psi");
        if let Some(m) = misprint {
            assert_eq!(m[2], row[printed], "the misprint line is not about this row");
            assert!((ours - m[2].parse::<f64>().unwrap()).abs() > 0.05, "{feet} ft is no misprint");
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
            assert!((ours - theirs).abs() <= rounding * (1.0 + 1e-6), "{ft} ft, {name}: ours {ours}, table {theirs}");
        }
    }
    let metres = table.numbers("altitude_m_geometric");
    for (ft, m) in feet.iter().zip(metres) {
        assert!((Length::from_ft(*ft).m() - m).abs() <= 0.05 + 1e-9, "{ft} ft is not {m} m");
    }
}

#[test]
fn altitude_is_geometric() {
    // 54 020 Pa is what H = 5000 m gives without the step from geometric to geopotential altitude
    let flat = 101_325.0 * (1.0_f64 - 0.0065 * 5000.0 / 288.15).powf(9.806_65 * 0.028_964_4 / (8.314_32 * 0.0065));
    assert!((flat - 54_020.0).abs() < 1.0, "{flat}");
    assert!((at(5000.0).pa() - flat - 28.5).abs() < 1.0, "{}", at(5000.0).pa() - flat);
}

#[test]
fn pressure_falls_with_every_metre() {
    for z in -500..6000 {
        assert!(at(f64::from(z)) > at(f64::from(z + 1)), "{z} m");
    }
}

#[test]
fn both_ends_are_answered_and_nothing_beyond() {
    assert!((at(-500.0).kpa() - 107.478).abs() < 1e-3);
    assert!((at(6000.0).kpa() - 47.218).abs() < 1e-3);
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
        let standard = air::pressure_at(Length::from_m(m)).unwrap().standard();
        assert_eq!(standard, air::WEATHER_SPREAD.value);
        assert!((standard.hpa() - 9.0).abs() < 1e-12);
    }
}

#[test]
fn sea_level_is_the_standard_atmosphere_in_every_unit() {
    assert_eq!(at(0.0), Pressure::STANDARD_ATMOSPHERE);
    assert!((at(0.0).torr() - 760.0).abs() < 1e-9);
    for &unit in PressureUnit::ALL {
        assert_eq!(at(0.0).gauge(at(0.0)), GaugePressure::new(0.0, unit), "{}", unit.symbol());
    }
}
