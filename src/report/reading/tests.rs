//! Tests of the report on a reading.

#![cfg(test)]

use approx::abs_diff_eq;

use super::*;
use crate::Pressure;

/// A thermometer in the vent is named without one outside, and no thermometer if neither was read.
#[test]
fn the_instruments_are_those_that_were_read() {
    use crate::circuit::Settings;
    let air = Measured::exact(Pressure::STANDARD_ATMOSPHERE).unwrap();
    let given = Instruments::analogue(crate::Refrigerant::R134a);
    let blank = |ambient| Reading::running(crate::Refrigerant::R134a, Settings::TEST, ambient, air).unwrap();
    let exact = |celsius| Measured::exact(Temperature::from_celsius(celsius)).unwrap();
    let of_air =
        |reading: &Reading| instruments(reading, &given).contains(&InstrumentRow::thermometer(&given.air, false));
    assert!(!of_air(&blank(None)));
    assert!(of_air(&blank(Some(exact(30.0)))));
    assert!(of_air(&blank(None).with(Measurand::Vent, exact(7.0)).unwrap()));
    assert_eq!(instruments(&blank(None), &given), []);
}

/// Instruments of the library are ids with arguments, and give back their names; of others the name is kept.
#[test]
fn an_instrument_is_told_without_its_name() {
    for side in [Side::Low, Side::High] {
        for gauge in GAUGES.map(|(gauge, ..)| gauge).into_iter().chain(GAUGES.map(|(gauge, ..)| gauge.digital())) {
            let row = InstrumentRow::gauge(&gauge, side);
            assert!(row.name() == gauge.name && matches!(row, InstrumentRow::Gauge { name: None, .. }), "{row:?}");
        }
    }
    for (thermometer, clamped, digital) in THERMOMETERS {
        let row = InstrumentRow::thermometer(&thermometer, !clamped);
        let limit_k = nine_digits(thermometer.limit.kelvins());
        assert_eq!(row, InstrumentRow::Thermometer { clamped, digital, name: None, limit_k });
        assert_eq!(row.name(), thermometer.name);
    }
    let (gauge, thermometer) = (
        PressureGauge { name: "glass tube", ..PressureGauge::SERVICE_LOW },
        Thermometer { name: "back of the hand", ..Thermometer::THERMOCOUPLE_IN_AIR },
    );
    assert_eq!(InstrumentRow::gauge(&gauge, Side::High).name(), "glass tube");
    assert_eq!(InstrumentRow::thermometer(&thermometer, true).name(), "back of the hand");
}

/// R-134a at 86 °F with both gauges and the vent.
fn on_a_day(low: &str, high: &str, vent: &str) -> (Reading, DisplayUnits) {
    let r = crate::Refrigerant::R134a;
    let values = [(Measurand::LowSide, low), (Measurand::HighSide, high), (Measurand::Vent, vent)];
    let entry = values.iter().fold(Entry::default(), |entry, (of, text)| entry.enter(*of, text).unwrap());
    let entry = entry.ambient("86 °F".parse().unwrap());
    let reading = entry.reading(r, crate::circuit::Settings::TEST, &Instruments::analogue(r)).unwrap();
    (reading, entry.units())
}

fn assessed(reading: &Reading) -> Assessment {
    Assessment::of(reading, &crate::expected::ChartSet::new(reading.refrigerant()).unwrap()).unwrap()
}

#[test]
fn each_chart_has_one_row_with_the_place_of_every_reading() {
    let (reading, units) = on_a_day("30 psi", "180 psi", "50 °F");
    let assessment = assessed(&reading);
    let rows = charts(&reading, &assessment, &units);
    let (low, high) = (assessment.low.as_ref().unwrap(), assessment.high.as_ref().unwrap());
    let mut ids: Vec<&str> = low.charted.bands.iter().map(|band| band.chart.id).collect();
    ids.extend(high.charted.bands.iter().map(|band| band.chart.id));
    ids.extend(assessment.vent.bands.iter().map(|band| band.chart.id));
    ids.sort_unstable();
    ids.dedup();
    let mut named: Vec<&str> = rows.iter().map(|row| &*row.chart).collect();
    named.sort_unstable();
    assert_eq!(named, ids);
    let count = |pick: fn(&ChartBandRow) -> &Option<ChartCell>| rows.iter().filter(|row| pick(row).is_some()).count();
    assert_eq!(count(|row| &row.low), low.charted.bands.len());
    assert_eq!(count(|row| &row.high), high.charted.bands.len());
    // tables of several humidities share the row of their chart
    assert!((1..=assessment.vent.bands.len()).contains(&count(|row| &row.vent)));
    for band in &high.charted.bands {
        let row = rows.iter().find(|row| row.chart == band.chart.id).unwrap();
        assert!(row.high.as_ref().unwrap().window.to_string().ends_with(" psi"), "{row:?}");
        let marks = row.marks.iter().collect::<std::collections::BTreeSet<_>>();
        assert_eq!(marks.len(), row.marks.len(), "{:?}", row.marks);
        assert_eq!(row.marks.contains(&Mark::NotCounted), band.chart.authority == Authority::Habit);
        assert_eq!(row.marks.contains(&Mark::OneRange), band.chart.authority == Authority::Single);
    }
}

#[test]
fn a_place_is_told_by_the_best_estimate() {
    let psi = GaugePressure::from_psi;
    let range = Range::new(psi(10.0), psi(20.0));
    for (read, position) in [
        (9.9, Position::Below),
        (10.0, Position::Within),
        (15.0, Position::Within),
        (20.0, Position::Within),
        (20.1, Position::Above),
    ] {
        assert_eq!(Cells { circuits: None, read: psi(read) }.position(&range), position, "{read}");
    }
}

#[test]
fn a_chart_agrees_where_its_middle_is_among_nine_tenths() {
    let (reading, _) = on_a_day("30 psi", "180 psi", "50 °F");
    let kind = crate::circuit::CircuitKind::main(crate::Refrigerant::R134a)[0];
    let window = crate::expected::ExpectedWindow::for_day(&kind, &reading.conditions().unwrap()).unwrap();
    let circuits = &window.high_side;
    for (percent, agreed) in [(1.0, false), (10.0, true), (50.0, true), (90.0, true), (99.0, false)] {
        assert_eq!(agrees(circuits.at(Ratio::from_percent(percent)), circuits), agreed, "{percent} %");
    }
}

#[test]
fn an_equalised_circuit_is_set_against_saturation() {
    let at = |low: &str, high: &str| {
        let r = crate::Refrigerant::R134a;
        let values = [(Measurand::LowSide, low), (Measurand::HighSide, high)];
        let entry = values.iter().fold(Entry::default(), |entry, (of, text)| entry.enter(*of, text).unwrap());
        let entry = entry.ambient("77 °F".parse().unwrap());
        let reading = entry.equalised_reading(r, &Instruments::analogue(r)).unwrap();
        let mut rows = results(&reading, &assessed(&reading), &entry.units());
        assert!(rows.len() < 2, "{rows:?}");
        rows.pop()
    };
    for (psi, position) in [("40 psi", Position::Below), ("82 psi", Position::Within), ("120 psi", Position::Above)] {
        let row = at(psi, psi).unwrap();
        assert_eq!((row.quantity, row.verdict.unwrap().position), (JudgedQuantity::EqualisedMean, position));
        // 81.8 psi at 77 °F
        let window = row.window.unwrap();
        assert!(81.0 < window.high && window.low < 82.6 && window.high - window.low > 1.0, "{window:?}");
        // psi, twice its last digit: our choice
        assert!(abs_diff_eq!(0.5 * (window.low + window.high), 81.8, epsilon = 0.2), "{window:?}");
    }
    assert_eq!(at("40 psi", "120 psi"), None);
}
