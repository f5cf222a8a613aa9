//! What bad input gets: a typed error that names value, limit and way out.

use satline::window::{Book, Columns, Engine, Entry, Instruments};
use satline::{Error, Pressure, Refrigerant, Temperature};

fn entry(low: &str, high: &str) -> Entry {
    Entry::gauges(low.parse().unwrap(), high.parse().unwrap())
}

/// The error of an R-134a entry, from instruments to assessment.
fn refused(entry: &Entry, engine: Engine) -> Error {
    let r = Refrigerant::R134a;
    let book = Book::new(r).unwrap();
    entry
        .reading(r, engine, &Instruments::analogue(r))
        .and_then(|reading| reading.assess(&book))
        .expect_err("this must be refused")
}

#[test]
fn pressures_that_do_not_exist() {
    let error = refused(&entry("-20 bar", "10 bar"), Engine::Running);
    assert_eq!(
        error.to_string(),
        "low side, -20 bar: -1898.7 kPa absolute is not above vacuum; check the gauge reading, its sign and unit, and the air \
         pressure used (101.3 kPa)"
    );
    // 29.92 inHg below sea-level air is vacuum; at 2000 m the same reading is below it
    assert!(
        entry("-29.9 inHg", "10 bar")
            .reading(Refrigerant::R134a, Engine::Running, &Instruments::analogue(Refrigerant::R134a))
            .is_ok()
    );
    let high_up = Entry { altitude: Some("2000 m".parse().unwrap()), ..entry("-29.9 inHg", "10 bar") };
    let Error::About { place, error } = refused(&high_up, Engine::Running) else { panic!() };
    assert_eq!(place, "low side, -29.9 inHg");
    assert!(matches!(*error, Error::BelowVacuum { .. }), "{error}");
}

#[test]
fn a_high_side_below_the_low_side() {
    // gauges of ±0.2 and ±0.65 bar cannot tell 6 from 5.5 bar: a compressor that stands still may read like that
    let r = Refrigerant::R134a;
    let standing = entry("6 bar", "5.5 bar").reading(r, Engine::Running, &Instruments::analogue(r)).unwrap();
    assert!(standing.assess(&Book::new(r).unwrap()).is_ok());
    let error = refused(&entry("6 bar", "4 bar"), Engine::Running);
    assert_eq!(
        error.to_string(),
        "high side 400 kPa is below low side 600 kPa (gauge): a compressor cannot do that; check that the hoses are not \
         swapped and both readings are in the unit meant"
    );
}

#[test]
fn a_gauge_that_was_not_read() {
    let r = Refrigerant::R134a;
    let low = Entry { high: None, ambient: Some("86 °F".parse().unwrap()), ..entry("32 psi", "185 psi") };
    assert_eq!(
        refused(&low, Engine::Running).to_string(),
        "high-side gauge is missing: this takes both gauges; what was read of them goes into PartReading"
    );
    let part = low.part(r, Engine::AtRest, &Instruments::analogue(r)).unwrap();
    assert_eq!(
        part.assess(&Book::new(r).unwrap()).unwrap_err().to_string(),
        "high-side gauge is missing: at rest both are compared with saturation; one alone counts as Evidence::at_rest"
    );
    // the same limits as with both
    let below = Entry { low: Some("-20 bar".parse().unwrap()), high: None, ..low };
    assert!(matches!(below.part(r, Engine::Running, &Instruments::analogue(r)), Err(Error::About { .. })));
    let hot = Entry { low: None, vent: Some("400 °F".parse().unwrap()), ..low };
    let hot = hot.part(r, Engine::Running, &Instruments::analogue(r)).unwrap();
    assert!(matches!(hot.assess(&Book::new(r).unwrap()), Err(Error::Implausible { .. })));
}

#[test]
fn a_pressure_off_the_scale() {
    let error = refused(&entry("12 bar", "14 bar"), Engine::Running);
    assert_eq!(
        error.to_string(),
        "low side, 12 bar: gauge pressure 12.0 bar is beyond the scale of the low-side service gauge (-1.0 to 10.0 bar): name the \
         instrument that was really used, or check the reading"
    );
}

#[test]
fn temperatures_no_workshop_reads() {
    let hot = Entry { ambient: Some("86 °C".parse().unwrap()), ..entry("2.2 bar", "13 bar") };
    assert_eq!(
        refused(&hot, Engine::Running).to_string(),
        "ambient temperature 86.0 °C is outside -60.0 to 60.0 °C, where cars are serviced; is the unit right?"
    );
    let line = Entry { suction_line: Some("400 °F".parse().unwrap()), ..entry("2.2 bar", "13 bar") };
    assert!(matches!(refused(&line, Engine::Running), Error::Implausible { what: "suction line temperature", .. }));
}

#[test]
fn a_temperature_outside_the_fit() {
    // R-744 at rest at 40 °C: there is no saturation above 31 °C
    let r = Refrigerant::R744;
    let at_rest = Entry { ambient: Some("40 °C".parse().unwrap()), ..entry("80 bar", "80 bar") };
    let error = at_rest
        .reading(r, Engine::AtRest, &Instruments::analogue(r))
        .and_then(|reading| reading.assess(&Book::new(r).unwrap()))
        .unwrap_err();
    assert_eq!(
        error.to_string(),
        "R-744 at 40.0 °C is above its critical temperature of 31.0 °C: it has no saturation pressure there, and at rest \
         the pressure follows the charge; cool it below that to judge by saturation"
    );
    // R-744 below its triple point
    let dry_ice = entry("30 psi", "900 psi").reading(r, Engine::Running, &Instruments::analogue(r)).unwrap();
    assert_eq!(
        dry_ice.assess(&Book::new(r).unwrap()).unwrap_err().to_string(),
        "low side: saturation pressure 308.2 kPa is outside 518.0 to 7377.3 kPa, the range of its source"
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
        refused(&entry, Engine::Running).to_string()
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
fn a_circuit_at_rest_without_its_temperature() {
    let error = refused(&entry("6 bar", "6 bar"), Engine::AtRest);
    assert_eq!(
        error.to_string(),
        "ambient temperature is missing: a circuit at rest is judged by the temperature around it; measure and give it"
    );
}

#[test]
fn a_book_of_another_refrigerant() {
    let r = Refrigerant::R134a;
    let reading = entry("2 bar", "13 bar").reading(r, Engine::Running, &Instruments::analogue(r)).unwrap();
    assert!(matches!(reading.assess(&Book::new(Refrigerant::R12).unwrap()), Err(Error::Missing { .. })));
}

#[test]
fn heads_of_logs_that_cannot_be_read() {
    let head = |names: &[&str]| Columns::read(names.iter().copied()).unwrap_err().to_string();
    assert_eq!(
        head(&["low [psi]", "high [psi]", "colour"]),
        "column \"colour\" is not known; known columns: low, high, suction line, liquid line, ambient, vent, humidity, \
         altitude, barometer (each with its unit, as in \"low [psi]\"), refrigerant, time, note"
    );
    assert_eq!(
        head(&["low", "high [psi]"]),
        "low: \"low\" has no unit; add one of kPa, bar, psi, MPa, kgf/cm², Pa, inHg, Torr, micron, hPa"
    );
    assert_eq!(
        head(&["low [psi]", "ambient [°F]"]),
        "column high is missing: the head must name it with its unit, as in \"low [psi],high [psi]\""
    );
    assert_eq!(head(&["low [psi]", "low side [bar]", "high [psi]"]), "column \"low\" stands twice");
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
    assert!(row(&["32,5", "185", "86", ""]).contains("comma"));
    assert_eq!(row(&["inf", "185", "86", ""]), "gauge pressure: \"inf\" is not a finite number");
    assert!(row(&["32", "185", "86", "R-13"]).starts_with("unknown refrigerant \"R-13\"; nearest: "));
    // an empty optional field is a value that was not measured
    assert!(columns.entry(&["32", "185", "", "R-134a"]).unwrap().0.ambient.is_none());
}

#[test]
fn unit_slips_become_questions_and_stay_as_typed() {
    let r = Refrigerant::R134a;
    let book = Book::new(r).unwrap();
    let asked = |entry: Entry| {
        let reading = entry.reading(r, Engine::Running, &Instruments::analogue(r)).unwrap();
        let questions = entry.questions(&book, Some(&reading.assess(&book).unwrap()));
        // the reading is what was typed, whatever is asked about it
        assert_eq!(reading.low.value(), entry.low.unwrap().quantity());
        questions.iter().map(ToString::to_string).collect::<Vec<_>>()
    };
    let day = |low: &str, high: &str| Entry { ambient: Some("86 °F".parse().unwrap()), ..entry(low, high) };
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
        asked(Entry { suction_line: Some("48 °C".parse().unwrap()), ..day("32 psi", "185 psi") }),
        ["suction line: 48 °C is far from what is usual; was 48 °F meant?"]
    );
    assert_eq!(
        asked(Entry { ambient: Some("30 °F".parse().unwrap()), ..entry("2.2 bar", "13 bar") }),
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
        let questions = entry(low, high).questions(&Book::new(r).unwrap(), None);
        questions.iter().map(|question| question.instead.clone()).collect::<Vec<_>>()
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
    let entry = Entry {
        altitude: Some("1600 m".parse().unwrap()),
        barometer: Some("1013 hPa".parse().unwrap()),
        ..entry("2 bar", "13 bar")
    };
    let questions = entry.questions(&Book::new(r).unwrap(), None);
    assert_eq!(
        questions.iter().map(ToString::to_string).collect::<Vec<_>>(),
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
fn a_pegged_low_gauge_at_rest_was_read_on_the_high_one() {
    let r = Refrigerant::R134a;
    // a maker's printed pressure at rest at 45 °C
    let hot = Entry { ambient: Some("45 °C".parse().unwrap()), ..entry("10.5 bar", "10.5 bar") };
    let reading = hot.reading(r, Engine::AtRest, &Instruments::analogue(r)).unwrap();
    assert_eq!(reading.low.standard_uncertainty(), reading.high.standard_uncertainty());
    let rest = reading.assess(&Book::new(r).unwrap()).unwrap().rest.unwrap();
    assert_eq!(rest.verdict, satline::window::RestVerdict::AtSaturation);
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
