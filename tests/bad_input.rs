//! What bad input gets: a typed error that names value, limit and way out.

use satline::circuit::Settings;
use satline::diagnosis::{Assessment, Diagnosis, UnitQuestion, unit_questions};
use satline::expected::{ChartSet, EqualisedVerdict};
use satline::inspection::{Columns, Entry, Instruments, Measurand, Reading};
use satline::report::Language;
use satline::{Error, Pressure, Refrigerant, Temperature};

fn entry(low: &str, high: &str) -> Entry {
    Entry::gauges(low.parse().unwrap(), high.parse().unwrap())
}

/// The entry as a running reading on analogue instruments.
fn running(entry: &Entry, r: Refrigerant) -> Result<Reading, Error> {
    entry.reading(r, Settings::TEST, &Instruments::analogue(r))
}

/// The same of an equalised circuit.
fn equalised(entry: &Entry, r: Refrigerant) -> Result<Reading, Error> {
    entry.equalised_reading(r, &Instruments::analogue(r))
}

/// What follows from a reading, against the charts for its refrigerant.
fn assess(reading: &Reading) -> Result<Assessment, Error> {
    Assessment::of(reading, &ChartSet::new(reading.refrigerant()).unwrap())
}

/// The error of a running R-134a entry, from instruments to assessment.
fn refused(entry: &Entry) -> Error {
    running(entry, Refrigerant::R134a).and_then(|reading| assess(&reading)).expect_err("this must be refused")
}

#[test]
fn pressures_that_do_not_exist() {
    let error = refused(&entry("-20 bar", "10 bar"));
    assert_eq!(
        error.to_string(),
        "low side, -20 bar: -1898.7 kPa absolute is not above vacuum; check the gauge reading, its sign and unit, and the air \
         pressure used (101.3 kPa)"
    );
    // 29.92 inHg below sea-level air is vacuum; at 2000 m the same reading is below it
    assert!(running(&entry("-29.9 inHg", "10 bar"), Refrigerant::R134a).is_ok());
    let high_up = entry("-29.9 inHg", "10 bar").altitude("2000 m".parse().unwrap());
    let Error::About { input, place, error } = refused(&high_up) else { panic!() };
    assert_eq!((input, place.as_str()), (Some("low-side"), "low side, -29.9 inHg"));
    assert!(matches!(*error, Error::BelowVacuum { .. }), "{error}");
}

#[test]
fn a_high_side_below_the_low_side() {
    // gauges of ±0.2 and ±0.65 bar cannot tell 6 from 5.5 bar: a compressor that stands still may read like that
    let r = Refrigerant::R134a;
    let standing = running(&entry("6 bar", "5.5 bar"), r).unwrap();
    assert!(assess(&standing).is_ok());
    let error = refused(&entry("6 bar", "4 bar"));
    assert_eq!(
        error.to_string(),
        "high side 4 bar is below low side 6 bar: a compressor cannot do that; check that the hoses are not \
         swapped and both readings are in the unit meant"
    );
}

#[test]
fn swapped_hoses_are_asked_about_before_scale_and_unit() {
    let r = Refrigerant::R134a;
    for (low, high) in [("210 psi", "35 psi"), ("14 bar", "2.2 bar"), ("16 bar", "30 psi")] {
        let entry = entry(low, high);
        let error = running(&entry, r).unwrap_err();
        assert_eq!(error, Error::SidesReversed { low: low.to_owned(), high: high.to_owned() });
        let request = Diagnosis::of(r).entry(entry);
        assert!(request.questions().unwrap().is_empty(), "{low}, {high}");
    }
    // right way round the scale is what is wrong
    let error = running(&entry("210 psi", "235 psi"), r).unwrap_err();
    assert_eq!(error.code(), "beyond-scale");
}

#[test]
fn a_gauge_that_was_not_read() {
    let r = Refrigerant::R134a;
    let of = |measurand, text: &str| Entry::default().enter(measurand, text).unwrap().ambient("86 °F".parse().unwrap());
    let low = of(Measurand::LowSide, "32 psi");
    // running it is a reading like any other, and what takes both gauges says so
    let read = running(&low, r).unwrap();
    assert!(assess(&read).is_ok_and(|assessment| assessment.high.is_none()));
    assert_eq!(
        satline::inspection::StatePoints::of(&read).unwrap_err().to_string(),
        "high side: a gauge of the circuit is missing: state points take both gauges; read the low side and the high side"
    );
    assert_eq!(
        assess(&equalised(&low, r).unwrap()).unwrap_err().to_string(),
        "high-side gauge is missing: both gauges of an equalised circuit are compared; one alone is evidence beside a running \
         reading"
    );
    // the same limits as with both
    let below = of(Measurand::LowSide, "-20 bar");
    assert!(matches!(running(&below, r), Err(Error::About { input: Some("low-side"), .. })));
    let Err(Error::About { input, error, .. }) = running(&of(Measurand::Vent, "400 °F"), r) else { panic!() };
    assert_eq!(input, Some("vent"));
    assert!(matches!(*error, Error::Implausible { .. }), "{error}");
}

#[test]
fn a_pressure_off_the_scale() {
    let error = refused(&entry("12 bar", "14 bar"));
    assert_eq!(
        error.to_string(),
        "low side, 12 bar: gauge pressure 12.0 bar is beyond the scale of the low-side service gauge (-1.0 to 10.0 bar): name the \
         instrument that was really used, or check the reading"
    );
}

#[test]
fn temperatures_no_workshop_reads() {
    let hot = entry("2.2 bar", "13 bar").ambient("86 °C".parse().unwrap());
    assert_eq!(
        refused(&hot).to_string(),
        "ambient temperature 86.0 °C is outside -60.0 to 60.0 °C, where cars are serviced; is the unit right?"
    );
    let line = entry("2.2 bar", "13 bar").enter(Measurand::SuctionLine, "400 °F").unwrap();
    let Error::About { input, error, .. } = refused(&line) else { panic!() };
    assert_eq!(input, Some("suction-line"));
    assert!(matches!(*error, Error::Implausible { what: "suction line", .. }), "{error}");
}

#[test]
fn a_temperature_outside_the_fit() {
    // R-744 equalised at 40 °C: there is no saturation above 31 °C
    let r = Refrigerant::R744;
    let still = entry("80 bar", "80 bar").ambient("40 °C".parse().unwrap());
    let error = equalised(&still, r).and_then(|reading| assess(&reading)).unwrap_err();
    assert_eq!(
        error.to_string(),
        "R-744 at 40.0 °C is above its critical temperature of 31.0 °C: it has no saturation pressure there, and at rest \
         the pressure follows the charge; cool it below that to judge by saturation"
    );
    // R-744 below its triple point
    let dry_ice = running(&entry("30 psi", "900 psi"), r).unwrap();
    assert_eq!(
        assess(&dry_ice).unwrap_err().to_string(),
        "low side: saturation pressure 308.2 kPa is outside 518.0 to 7377.3 kPa, the range of validity"
    );
    // a vacuum deeper than any saturation of the fit
    let error = Refrigerant::R134a.saturation_temperature(Pressure::from_microns(500.0)).unwrap_err();
    assert!(matches!(error, Error::OutOfRange { what: "saturation pressure", .. }), "{error}");
}

#[test]
fn humidity_altitude_and_barometer_beyond_reason() {
    let with = |edit: fn(&mut Entry)| {
        let mut entry = entry("2.2 bar", "13 bar");
        edit(&mut entry);
        refused(&entry).to_string()
    };
    assert_eq!(
        with(|e| e.humidity = Some("155%".parse().unwrap())),
        "relative humidity (%) 155 is not possible: it must be from 0 to 100"
    );
    assert_eq!(
        with(|e| e.altitude = Some("30000 ft".parse().unwrap())),
        "altitude 9144.0 m is outside -500.0 to 6000.0 m, where cars are serviced; is the unit right?"
    );
    assert_eq!(
        with(|e| e.barometer = Some("30 psi".parse().unwrap())),
        "air pressure 206.8 kPa is outside 40.0 to 110.0 kPa, where cars are serviced; is the unit right?"
    );
}

#[test]
fn an_equalised_circuit_without_its_temperature() {
    let error = equalised(&entry("6 bar", "6 bar"), Refrigerant::R134a).unwrap_err();
    assert_eq!(
        error.to_string(),
        "ambient temperature is missing: an equalised circuit is judged by the temperature around it; measure and give it"
    );
}

#[test]
fn charts_of_another_refrigerant() {
    let r = Refrigerant::R134a;
    let reading = running(&entry("2 bar", "13 bar"), r).unwrap();
    let other = Assessment::of(&reading, &ChartSet::new(Refrigerant::R12).unwrap()).unwrap_err();
    assert!(matches!(other, Error::Mismatch { what: "refrigerant", .. }), "{other}");
}

#[test]
fn heads_of_logs_that_cannot_be_read() {
    let head = |names: &[&str]| Columns::read(names.iter().copied()).unwrap_err().to_string();
    assert_eq!(
        head(&["low [psi]", "high [psi]", "colour"]),
        "column \"colour\" is not known; known columns: low, high, suction line, liquid line, discharge line, vent, duty cycle, \
         ambient, humidity, altitude, barometer (each with its unit, as in \"low [psi]\"), refrigerant, time, note"
    );
    assert_eq!(
        head(&["low", "high [psi]"]),
        "low side: \"low\" has no unit; add one of kPa, bar, psi, MPa, kgf/cm², Pa, inHg, Torr, micron, hPa"
    );
    assert_eq!(
        head(&["time [s]", "ambient [°F]"]),
        "a column of what was measured is missing: the head must name at least one, with its unit, as in \
         \"low [psi],high [psi]\""
    );
    assert_eq!(head(&["low [psi]", "low side [bar]", "high [psi]"]), "column \"low side\" stands twice");
    assert!(head(&["low [stone]", "high [psi]"]).contains("\"stone\""));
    assert!(head(&["low [psi]", "high [psi]", "vent temperature [F]"]).starts_with("column \"vent temperature [F]\""));
    assert!(head(&["low [psia]", "high [psi]"]).contains("is absolute pressure"));
    // a word that only begins like a column is not that column
    assert!(head(&["lowest [psi]", "high [psi]"]).starts_with("column \"lowest [psi]\" is not known"));
}

#[test]
fn rows_of_logs_that_cannot_be_read() {
    let columns = Columns::read(["low [psi]", "high [psi]", "ambient [°F]", "refrigerant"]).unwrap();
    let row = |fields: &[&str]| columns.entry(fields).unwrap_err().to_string();
    assert_eq!(row(&["32", "185"]), "2 fields where the head has 4");
    assert_eq!(
        row(&["", "185", "86", ""]),
        "gauge pressure: \"\" does not start with a number; write it like \"32 psi\""
    );
    assert!(row(&["32,500", "185", "86", ""]).contains("comma"));
    assert_eq!(row(&["inf", "185", "86", ""]), "gauge pressure: \"inf\" is not a finite number");
    assert!(row(&["32", "185", "86", "R-13"]).starts_with("unknown refrigerant \"R-13\"; nearest: "));
    // an empty optional field is a value that was not measured
    assert!(columns.entry(&["32", "185", "", "R-134a"]).unwrap().0.ambient.is_none());
}

#[test]
fn unit_slips_become_questions_and_stay_as_typed() {
    let r = Refrigerant::R134a;
    let charts = ChartSet::new(r).unwrap();
    let asked = |entry: Entry| {
        let reading = running(&entry, r).unwrap();
        let questions = unit_questions(&entry, &charts, Some(&assess(&reading).unwrap()));
        // the reading is what was typed, whatever is asked about it
        assert_eq!(reading.low().unwrap().value(), entry.pressure(Measurand::LowSide).unwrap().quantity());
        questions.iter().map(|one| Language::English.question(one)).collect::<Vec<_>>()
    };
    let day = |low: &str, high: &str| entry(low, high).ambient("86 °F".parse().unwrap());
    assert_eq!(
        asked(day("2.2 psi", "13 psi")),
        [
            "low side: 2.2 psi is far from what is usual; was 2.2 bar meant?",
            "high side: 13 psi is far from what is usual; was 13 bar meant?"
        ]
    );
    assert_eq!(asked(day("32 psi", "185 psi")), [""; 0]);
    // low and high, but readings like any other
    assert_eq!(asked(day("9 psi", "350 psi")), [""; 0]);
    assert_eq!(
        asked(day("32 psi", "185 psi").enter(Measurand::SuctionLine, "48 °C").unwrap()),
        ["suction line: 48 °C is far from what is usual; was 48 °F meant?"]
    );
    assert_eq!(
        asked(entry("2.2 bar", "13 bar").ambient("30 °F".parse().unwrap())),
        ["ambient: 30 °F is far from what is usual; was 30 °C meant?"]
    );
    assert_eq!(
        asked(day("20 inHg", "185 psi")),
        ["low side: 20 inHg is far from what is usual; was -20 inHg, a vacuum, meant?"]
    );
}

#[test]
fn a_slip_that_is_refused_is_asked_about_too() {
    let asked = |r: Refrigerant, low: &str, high: &str| {
        let questions = unit_questions(&entry(low, high), &ChartSet::new(r).unwrap(), None);
        let instead = |question: UnitQuestion| match question {
            UnitQuestion::OtherUnit { instead, .. } => instead,
            other => panic!("{other:?}"),
        };
        questions.into_iter().map(instead).collect::<Vec<_>>()
    };
    assert_eq!(asked(Refrigerant::R134a, "220 psi", "185 psi"), ["220 kPa"]);
    assert_eq!(asked(Refrigerant::R134a, "32 psi", "185 bar"), ["185 psi"]);
    // no chart of R-744: its saturation pressures serve for asking
    assert_eq!(asked(Refrigerant::R744, "38 psi", "95 psi"), ["38 bar", "95 bar"]);
    assert_eq!(asked(Refrigerant::R744, "550 psi", "95 bar"), [""; 0]);
}

#[test]
fn a_barometer_reduced_to_sea_level_is_asked_about() {
    let r = Refrigerant::R134a;
    let entry = entry("2 bar", "13 bar").altitude("1600 m".parse().unwrap()).barometer("1013 hPa".parse().unwrap());
    let questions = unit_questions(&entry, &ChartSet::new(r).unwrap(), None);
    assert_eq!(
        questions.iter().map(|one| Language::English.question(one)).collect::<Vec<_>>(),
        ["barometer: 1013 hPa is far from what is usual; was 835 hPa, not reduced to sea level, meant?"]
    );
}

#[test]
fn instruments_that_are_none() {
    use satline::quantity::instrument::PressureGauge;
    use satline::{GaugePressure, Ratio};
    for percent in [0.0, -1.0, 300.0, f64::NAN] {
        assert!(PressureGauge::SERVICE_LOW.within(Ratio::from_percent(percent)).is_err(), "{percent} %");
    }
    assert!(PressureGauge::SERVICE_LOW.up_to(GaugePressure::from_bar(-0.5)).is_err());
    assert_eq!(PressureGauge::SERVICE_LOW.up_to(GaugePressure::from_bar(17.0)).unwrap().scale.high.bar(), 17.0);
}

#[test]
fn a_pegged_low_gauge_of_an_equalised_circuit_was_read_on_the_high_one() {
    let r = Refrigerant::R134a;
    // a maker's printed equalised pressure at 45 °C
    let hot = entry("10.5 bar", "10.5 bar").ambient("45 °C".parse().unwrap());
    let reading = equalised(&hot, r).unwrap();
    let uncertainty = |measurand| reading.pressure(measurand).unwrap().standard_uncertainty();
    assert_eq!(uncertainty(Measurand::LowSide), uncertainty(Measurand::HighSide));
    assert_eq!(assess(&reading).unwrap().equalised.unwrap().verdict, EqualisedVerdict::AtSaturation);
}

#[test]
fn values_that_are_no_numbers() {
    assert!(
        satline::Line::new(Refrigerant::R134a, Pressure::from_kpa(f64::NAN), Temperature::from_celsius(8.0)).is_err()
    );
    assert!(
        satline::Line::new(Refrigerant::R134a, Pressure::from_kpa(300.0), Temperature::from_celsius(f64::INFINITY))
            .is_err()
    );
}
