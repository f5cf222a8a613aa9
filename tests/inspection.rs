//! What can be entered, measured and inspected, what cannot, and what follows from a reading.

use approx::{abs_diff_eq, assert_abs_diff_eq};
use satline::circuit::Settings;
use satline::diagnosis::Assessment;
use satline::expected::ChartSet;
use satline::inspection::{Baseline, Entry, Inspection, Instruments, Measurand, Observation, Reading, RecoveredCharge};
use satline::{
    Error, GaugePressure, Mass, Measured, Pressure, PressureDifference, Ratio, Refrigerant, Temperature,
    TemperatureDifference,
};

const R: Refrigerant = Refrigerant::R134a;

fn charts(r: Refrigerant) -> ChartSet {
    ChartSet::new(r).unwrap()
}

/// What follows from `entry`, read digitally with the compressor running.
fn assess(entry: &Entry, r: Refrigerant) -> Assessment {
    Assessment::of(&entry.reading(r, Settings::TEST, &Instruments::digital(r)).unwrap(), &charts(r)).unwrap()
}

fn warm_day() -> Entry {
    Entry::gauges("2.0 bar".parse().unwrap(), "13 bar".parse().unwrap())
        .enter(Measurand::SuctionLine, "8 °C")
        .and_then(|entry| entry.enter(Measurand::LiquidLine, "42 °C"))
        .and_then(|entry| entry.enter(Measurand::Vent, "12 °C"))
        .unwrap()
        .ambient("30 °C".parse().unwrap())
}

/// `entry` without the value of `measurand`.
fn without(entry: &Entry, measurand: Measurand) -> Entry {
    let air = entry.ambient.map_or(Entry::default(), |ambient| Entry::default().ambient(ambient));
    entry.values().filter(|(one, _)| *one != measurand).try_fold(air, |air, (one, value)| air.with(one, value)).unwrap()
}

/// Who enters line by line asks whether there is anything yet.
#[test]
fn an_entry_is_empty_until_a_value_or_something_about_the_air_is_in_it() {
    assert!(Entry::default().is_empty());
    assert!(!Entry::default().ambient("30 °C".parse().unwrap()).is_empty());
    assert!(!Entry::default().humidity("50 %".parse().unwrap()).is_empty());
    assert!(!Entry::default().enter(Measurand::Vent, "8 °C").unwrap().is_empty());
}

#[test]
fn a_baseline_is_read_as_printed() {
    let read = |text: &str| text.parse::<Baseline>().unwrap();
    let kpa = read("30 °C: 190 to 240 kPa, 1300 to 1600 kPa");
    assert_eq!(kpa.conditions().ambient, Temperature::from_celsius(30.0));
    assert_eq!((kpa.conditions().humidity, kpa.conditions().settings), (None, Settings::TEST));
    let limits = |range: satline::Range<GaugePressure>| [range.low.kpa(), range.high.kpa()].map(f64::round);
    assert_eq!((limits(kpa.low().unwrap()), limits(kpa.high().unwrap())), ([190.0, 240.0], [1300.0, 1600.0]));
    let psi = read("86 °F, 50 %: 30 to 40 psi, 180 to 220 psi");
    assert_abs_diff_eq!(psi.conditions().ambient.celsius(), 30.0, epsilon = 1e-9); // rounding
    assert_eq!(psi.conditions().humidity, Some(Ratio::from_percent(50.0)));
    assert_abs_diff_eq!(psi.high().unwrap().high.psi(), 220.0, epsilon = 1e-9); // psi by way of pascal: rounding
    // a unit of its own, one side alone, sides in any order, a single value, another dash
    assert_eq!(limits(read("30 °C: 1.9 bar to 240 kPa, 13–16 bar").low().unwrap()), [190.0, 240.0]);
    let high = read("30 °C: high 1300 to 1600 kPa");
    assert!(high.low().is_none() && limits(high.high().unwrap()) == [1300.0, 1600.0]);
    assert_eq!(read("30 °C: high 13 to 16 bar, low 190 to 240 kPa"), kpa);
    assert_eq!(limits(read("30 °C: low 215 kPa").low().unwrap()), [215.0, 215.0]);
    // what is written is read again
    assert_eq!(read(&kpa.to_string()), kpa);
    assert_eq!(kpa.to_string(), "30.0 °C: low 190 to 240 kPa, high 1300 to 1600 kPa");
}

#[test]
fn a_baseline_that_cannot_be_is_refused() {
    for (text, code, says) in [
        ("30 °C 190 to 240 kPa", "missing", "colon"),
        ("30 °C: 190 to 240 kPa", "missing", "one range alone may be either side"),
        ("30: 190 to 240 kPa, 1300 to 1600 kPa", "unit-missing", "ambient"),
        ("30 °C: 190 to 240, 1300 to 1600 kPa", "unit-missing", "low side"),
        ("30 °C: 190 to 240 kPa, 1300 to 1600", "unit-missing", "high side"),
        ("30 °C: 190 to 240 kPa, 13 to 16 °C", "unit-unknown", "high side"),
        ("30 °C: 1.9 to 2.4 bar abs, 13 to 16 bar", "wrong-reference", "low side"),
        ("30 °C: 190,5 to 240 kPa, 1300 to 1600 kPa", "decimal-comma", "write the decimal sign as a point"),
        ("30 °C: 240 to 190 kPa, 1300 to 1600 kPa", "impossible", "the lower limit stands first"),
        ("30 °C: 1300 to 1600 kPa, 190 to 240 kPa", "sides-reversed", "hoses"),
        ("30 °C: 190 to 240 kPa, 1300 to 1600 kPa, 9 kPa", "twice", "high side"),
        ("30 °C: low 190 to 240 kPa, low 190 to 240 kPa", "twice", "low side"),
        ("30 °C, 50 %, 2 m: 190 to 240 kPa, 1300 to 1600 kPa", "twice", "humidity"),
        ("30 °C, 150 %: 190 to 240 kPa, 1300 to 1600 kPa", "implausible", "relative humidity"),
        (
            "2 °C: 190 to 240 kPa, 1300 to 1600 kPa",
            "implausible",
            "ambient temperature 2.0 °C is outside 5.0 to 55.0 °C",
        ),
        ("30 °C: 190 to 240 kPa, 1300 to 1600 bar", "implausible", "high side"),
        ("30 °C: -105 to 240 kPa, 1300 to 1600 kPa", "below-vacuum", "low side"),
        ("30 °C: nan to 240 kPa, 1300 to 1600 kPa", "not-finite", "low side"),
        (":", "not-a-number", "ambient"),
        ("", "missing", "colon"),
    ] {
        let error = text.parse::<Baseline>().unwrap_err();
        assert_eq!(error.code(), code, "{text:?}: {error}");
        assert!(error.to_string().contains(says), "{text:?}: {error}");
        assert!(error.to_string().starts_with("row "), "{error}");
    }
    let row: Baseline = "30 °C: 190 to 240 kPa, 1300 to 1600 kPa".parse().unwrap();
    let nothing = Baseline::new(*row.conditions(), None, None).unwrap_err();
    assert_eq!(nothing.code(), "missing");
    assert_eq!(row.with_air(Pressure::from_kpa(30.0)).unwrap_err().code(), "implausible");
    let reading = warm_day().reading(R, Settings::TEST, &Instruments::digital(R)).unwrap();
    let inspection = Inspection::of(reading);
    assert_eq!(inspection.clone().with_baselines(vec![row; 25]).unwrap_err().code(), "outside-limits");
    let twice = inspection.with_baselines(vec![row]).unwrap().with_baselines(vec![row]).unwrap_err();
    assert_eq!(twice.code(), "twice");
}

#[test]
fn an_earlier_reading_is_a_baseline() {
    let reading = warm_day().reading(R, Settings::TEST, &Instruments::digital(R)).unwrap();
    let baseline = Baseline::of(&reading).unwrap();
    let low = reading.low().unwrap();
    assert_eq!(*baseline.conditions(), reading.conditions().unwrap());
    // rounding of some 200,000 Pa
    assert_abs_diff_eq!(baseline.low().unwrap().at(0.5).pa(), low.value().pa(), epsilon = 1e-6);
    assert_abs_diff_eq!((baseline.low().unwrap().high - low.value()).pa(), low.expanded().pa(), epsilon = 1e-6);
    let without_ambient = Entry::gauges("2.0 bar".parse().unwrap(), "13 bar".parse().unwrap());
    let reading = without_ambient.reading(R, Settings::TEST, &Instruments::digital(R)).unwrap();
    assert_eq!(Baseline::of(&reading).unwrap_err().code(), "missing");
}

#[cfg(feature = "serde")]
#[test]
fn a_baseline_comes_back_from_json_and_is_checked_there() {
    let row: Baseline = "30 °C, 50 %: 190 to 240 kPa, 1300 to 1600 kPa".parse().unwrap();
    let text = serde_json::to_string(&row).unwrap();
    assert_eq!(serde_json::from_str::<Baseline>(&text).unwrap(), row);
    let reading = warm_day().reading(R, Settings::TEST, &Instruments::digital(R)).unwrap();
    let inspection = Inspection::of(reading).with_baselines(vec![row]).unwrap();
    let json = serde_json::to_value(&inspection).unwrap();
    assert_eq!(serde_json::from_value::<Inspection>(json.clone()).unwrap(), inspection);
    // one without is written as it always was
    let plain = serde_json::to_value(Inspection::of(*inspection.first())).unwrap();
    assert!(plain.get("baselines").is_none() && json.get("baselines").is_some());
    let reversed = text.replacen("\"low\":{\"low\":\"190000", "\"low\":{\"low\":\"990000", 1);
    assert_ne!(reversed, text, "{text}");
    assert!(
        serde_json::from_str::<Baseline>(&reversed).unwrap_err().to_string().contains("the lower limit stands first")
    );
}

#[test]
fn a_superheat_carries_gauge_thermometer_and_barometer() {
    let r = Refrigerant::R134a;
    let entry = Entry::gauges("2.0 bar".parse().unwrap(), "13 bar".parse().unwrap())
        .enter(Measurand::SuctionLine, "8.0 °C")
        .unwrap()
        .ambient("30 °C".parse().unwrap());
    let reading = entry.reading(r, Settings::TEST, &Instruments::analogue(r)).unwrap();
    let assessment = Assessment::of(&reading, &charts(r)).unwrap();
    let found = assessment.superheat.unwrap().value;
    // by hand: gauge 1.6 % of 11.01325 bar over √3, air 9 hPa; slope of the line at 0.5 °C 0.1084 bar/K;
    // thermocouple 1.5 K and clamp 3.25 % of 22 K, both over √3
    let u_p = ((0.016 * 11.013_25_f64 / 3f64.sqrt()).powi(2) + 0.009_f64.powi(2)).sqrt();
    let slope = r
        .dew_line()
        .slope_pa_per_kelvin(r.saturation_temperature(assessment.low.as_ref().unwrap().absolute.value()).unwrap());
    let u_t = ((1.5_f64.powi(2) + (0.0325_f64 * 22.0).powi(2)) / 3.0).sqrt();
    let by_hand = ((u_p * 1e5 / slope.unwrap()).powi(2) + u_t.powi(2)).sqrt();
    // K, the digits of the constants by hand
    assert_abs_diff_eq!(found.standard_uncertainty().kelvins(), by_hand, epsilon = 1e-5);
    // K, by the slope and not along the line: our choice
    assert!(abs_diff_eq!(found.value().kelvins(), 7.3, epsilon = 0.2), "{:?}", found.value());
}

#[test]
fn without_ambient_there_is_no_window_and_with_it_every_value_has_one() {
    let r = Refrigerant::R134a;
    let assess = |entry: Entry| assess(&entry, r);
    let bare = Entry::gauges("32 psi".parse().unwrap(), "185 psi".parse().unwrap());
    let assessment = assess(bare);
    let verdicts = |a: &Assessment| [&a.low, &a.high].map(|side| side.as_ref().unwrap().verdict.is_some());
    assert_eq!(verdicts(&assessment), [false; 2]);
    assert!(assessment.condensing_over_ambient.is_none());
    let lines = [(Measurand::SuctionLine, "48 °F"), (Measurand::LiquidLine, "105 °F"), (Measurand::Vent, "58 °F")];
    let whole = lines.into_iter().try_fold(bare, |entry, (line, text)| entry.enter(line, text)).unwrap();
    let assessment = assess(whole.ambient("86 °F".parse().unwrap()));
    assert_eq!(verdicts(&assessment), [true; 2]);
    assert!(assessment.superheat.unwrap().verdict.is_some() && assessment.subcooling.unwrap().verdict.is_some());
    assert!(assessment.condensing_over_ambient.unwrap().verdict.is_some() && assessment.vent_verdict.is_some());
}

#[test]
fn what_rests_on_a_gauge_that_was_not_read_is_left_out() {
    let r = Refrigerant::R134a;
    let both = warm_day();
    let assess = |entry: Entry| assess(&entry, r);
    let whole = assess(both);
    let low = assess(without(&both, Measurand::HighSide));
    assert_eq!((&low.low, low.superheat), (&whole.low, whole.superheat));
    assert!(low.high.is_none() && low.subcooling.is_none() && low.condensing_over_ambient.is_none());
    let high = assess(without(&both, Measurand::LowSide));
    assert_eq!((&high.high, high.subcooling), (&whole.high, whole.subcooling));
    assert_eq!(high.condensing_over_ambient, whole.condensing_over_ambient);
    assert!(high.low.is_none() && high.superheat.is_none());
    assert_eq!((low.vent_verdict, high.vent_verdict), (whole.vent_verdict, whole.vent_verdict));
    // one type for a part and for the whole: what was read comes back, gauge by gauge
    let reading = both.reading(r, Settings::TEST, &Instruments::digital(r)).unwrap();
    assert_eq!(
        [&whole.low, &whole.high].map(|side| side.as_ref().map(|side| side.gauge)),
        [reading.low(), reading.high()]
    );
    assert_eq!(Assessment::of(&reading, &charts(r)).unwrap(), whole);
}

// --- what cannot be built

fn sea_level() -> Measured<Pressure> {
    Measured::exact(Pressure::STANDARD_ATMOSPHERE).unwrap()
}

fn celsius(t: f64, standard: f64) -> Measured<Temperature> {
    Measured::new(Temperature::from_celsius(t), TemperatureDifference::from_kelvins(standard)).unwrap()
}

fn bar(p: f64, standard: f64) -> Measured<GaugePressure> {
    Measured::new(GaugePressure::from_bar(p), PressureDifference::from_bar(standard)).unwrap()
}

fn percent(value: f64, standard: f64) -> Measured<Ratio> {
    Measured::new(Ratio::from_percent(value), Ratio::from_percent(standard)).unwrap()
}

/// A running reading with nothing in it yet.
fn running() -> Reading {
    Reading::running(R, Settings::TEST, Some(celsius(30.0, 0.5)), sea_level()).unwrap()
}

fn equalised() -> Reading {
    Reading::equalised(R, celsius(30.0, 0.5), sea_level()).unwrap()
}

/// What went wrong, for a program, and in words.
fn told<T: std::fmt::Debug>(refused: Result<T, Error>) -> (&'static str, Option<&'static str>, String) {
    let error = refused.expect_err("this must be refused");
    (error.code(), error.input(), error.to_string())
}

fn entered(measurand: Measurand, text: &str) -> Result<Reading, Error> {
    Entry::default().enter(measurand, text)?.ambient("30 °C".parse()?).reading(
        R,
        Settings::TEST,
        &Instruments::digital(R),
    )
}

/// The discharge line was the one line that nothing checked: 900 °C went into the comparison with simulated cars.
#[test]
fn a_discharge_line_no_hose_survives() {
    let plausible = "discharge line: discharge line 900.0 °C is outside -60.0 to 400.0 °C, where cars are serviced; is the \
                     unit right?";
    assert_eq!(
        told(running().with(Measurand::DischargeLine, celsius(900.0, 1.0))),
        ("implausible", Some("discharge-line"), plausible.to_owned())
    );
    assert_eq!(
        told(entered(Measurand::DischargeLine, "900 °C")),
        ("implausible", Some("discharge-line"), plausible.to_owned())
    );
    assert!(entered(Measurand::DischargeLine, "399 °C").is_ok());
}

/// The fields of a reading were public and only values were checked: with an uncertainty of 1e300 every window held every
/// reading.
#[test]
fn an_uncertainty_that_is_no_instruments() {
    let huge = PressureDifference::from_pa(1e300);
    assert_eq!(
        told(Measured::new(GaugePressure::from_bar(2.0), huge)),
        (
            "beyond-arithmetic",
            None,
            "gauge pressure: \"1e300\" is too large or too small to compute with: in its unit and in SI units a number that is \
             not 0 is from 0e0 to 1e150; check its exponent"
                .to_owned()
        )
    );
    assert_eq!(
        told(running().with(Measurand::LowSide, bar(2.0, 1e100))),
        (
            "implausible",
            Some("low-side"),
            format!(
                "low side: standard uncertainty {:.1} kPa is outside 0.0 to 15110.0 kPa, where cars are serviced; is the unit right?",
                PressureDifference::from_bar(1e100).kpa()
            )
        )
    );
    for (measurand, value) in [(Measurand::Vent, celsius(10.0, 300.0)), (Measurand::SuctionLine, celsius(10.0, 211.0))]
    {
        assert_eq!(told(running().with(measurand, value)).0, "implausible", "{measurand}");
    }
    assert_eq!(told(running().with(Measurand::ClutchDutyCycle, percent(40.0, 101.0))).0, "implausible");
    // and so with the air
    let (code, _, said) = told(Reading::running(R, Settings::TEST, Some(celsius(30.0, 200.0)), sea_level()));
    assert_eq!(code, "implausible");
    assert!(
        said.starts_with("standard uncertainty of the ambient temperature 200.0 °C is outside 0.0 to 120.0"),
        "{said}"
    );
    let air = Measured::new(Pressure::STANDARD_ATMOSPHERE, PressureDifference::from_bar(1e10)).unwrap();
    let (code, _, said) = told(Reading::equalised(R, celsius(30.0, 0.5), air));
    assert_eq!(code, "implausible");
    assert!(said.starts_with("standard uncertainty of the air pressure "), "{said}");
}

/// The duty of a running reading was a public field, checked only when causes were asked for: a page of figures showed 130 %.
#[test]
fn a_clutch_engaged_for_more_than_all_of_the_time() {
    let said = "clutch duty cycle: clutch duty cycle 130.0 % is outside 0.0 to 100.0 %, where cars are serviced; is the unit \
                right?";
    let expected = ("implausible", Some("clutch-duty-cycle"), said.to_owned());
    assert_eq!(told(running().with(Measurand::ClutchDutyCycle, percent(130.0, 4.0))), expected);
    assert_eq!(told(entered(Measurand::ClutchDutyCycle, "130 %")), expected);
    assert!(entered(Measurand::ClutchDutyCycle, "100 %").is_ok());
}

/// A reading put together field by field could hold what is no number; now every way in ends at one check.
#[test]
fn what_is_no_number() {
    let nan = Measured::new(Temperature::from_celsius(f64::NAN), TemperatureDifference::from_kelvins(1.0));
    assert_eq!(told(nan), ("not-finite", None, "temperature: \"NaN\" is not a finite number".to_owned()));
    let unknown = Measured::new(Temperature::from_celsius(8.0), TemperatureDifference::from_kelvins(f64::NAN));
    assert_eq!(told(unknown).0, "impossible");
    assert_eq!(told(entered(Measurand::Vent, "NaN °C")).1, Some("vent"));
    assert_eq!(told(running().with_humidity(Ratio::from_percent(f64::NAN))).0, "impossible");
    let blower = Settings { blower: Ratio::from_percent(f64::NAN), ..Settings::TEST };
    assert_eq!(told(Reading::running(R, blower, None, sea_level())).0, "implausible");
    assert!(RecoveredCharge::new(Mass::from_g(f64::NAN), Mass::from_g(550.0)).is_err());
    assert!(RecoveredCharge::new(Mass::from_g(310.0), Mass::from_g(f64::NAN)).is_err());
}

/// A second value took the place of the first without a word, and an observation given twice counted twice.
#[test]
fn a_value_given_twice() {
    let once = running().with(Measurand::Vent, celsius(8.0, 1.0)).unwrap();
    let said = "vent: vent is given twice; give it once".to_owned();
    assert_eq!(told(once.with(Measurand::Vent, celsius(8.0, 1.0))), ("twice", Some("vent"), said.clone()));
    let entry = Entry::default().enter(Measurand::Vent, "8 °C").unwrap();
    assert_eq!(told(entry.enter(Measurand::Vent, "9 °C")), ("twice", Some("vent"), said));

    let inspection = Inspection::of(once).found(Observation::Bubbles).unwrap();
    let said = "bubbles is given twice; give it once".to_owned();
    for again in [inspection.clone().found(Observation::Bubbles), inspection.clone().not_found(Observation::Bubbles)] {
        assert_eq!(told(again), ("twice", None, said.clone()));
    }
    let recovered = RecoveredCharge::new(Mass::from_g(310.0), Mass::from_g(550.0)).unwrap();
    let weighed = inspection.with_recovered(recovered).unwrap();
    assert_eq!(told(weighed.clone().with_recovered(recovered)).0, "twice");
    let rested = weighed.and(equalised()).unwrap();
    assert_eq!(
        told(rested.and(equalised())),
        ("twice", None, "equalised reading is given twice; give it once".to_owned())
    );
}

/// Each quantity had a field of its own type; where measurands are values of one enum the mistake can be made, and is refused.
#[test]
fn a_temperature_for_a_gauge() {
    let said = "low side: low side is given as another kind of quantity than it is".to_owned();
    assert_eq!(told(running().with(Measurand::LowSide, celsius(8.0, 1.0))), ("wrong-kind", Some("low-side"), said));
    assert_eq!(told(running().with(Measurand::Vent, bar(2.0, 0.1))).1, Some("vent"));
    assert_eq!(told(running().with(Measurand::ClutchDutyCycle, celsius(8.0, 1.0))).0, "wrong-kind");
    let t: satline::Entered<Temperature> = "8 °C".parse().unwrap();
    assert_eq!(told(Entry::default().with(Measurand::LowSide, t)).1, Some("low-side"));
    let (code, input, said) = told(Entry::default().enter(Measurand::LowSide, "8 °C"));
    assert_eq!((code, input), ("unit-unknown", Some("low-side")));
    assert!(
        said.starts_with("low side: gauge pressure: \"°C\" in \"8 °C\" is not a unit of it; use one of kPa"),
        "{said}"
    );
}

/// Found out when causes were asked for, or not at all: a field of the reading took any pressure.
#[test]
fn a_pressure_below_vacuum() {
    let (code, input, said) = told(running().with(Measurand::LowSide, bar(-1.2, 0.05)));
    assert_eq!((code, input), ("implausible", Some("low-side")));
    assert!(said.contains("-120.0 kPa is outside -110.0 to 15000.0 kPa"), "{said}");
    // inside what gauges show anywhere, and below vacuum here
    let (code, input, said) = told(running().with(Measurand::LowSide, bar(-1.05, 0.01)));
    assert_eq!((code, input), ("below-vacuum", Some("low-side")));
    assert!(
        said.starts_with("low side: -3.7 kPa absolute is not above vacuum") && said.contains("101.3 kPa"),
        "{said}"
    );
    // a gauge that cannot tell it from vacuum may show less
    assert!(running().with(Measurand::LowSide, bar(-1.05, 0.03)).is_ok());
    let (code, input, said) = told(entered(Measurand::LowSide, "-1.05 bar"));
    assert_eq!((code, input), ("below-vacuum", Some("low-side")));
    assert!(said.starts_with("low side, -1.05 bar: -3.7 kPa absolute"), "{said}");
}

/// A reading at rest could hold lines and a vent, which were then left out without a word.
#[test]
fn what_does_not_belong_to_an_equalised_circuit() {
    let (lines, share) = (celsius(20.0, 1.0), percent(40.0, 4.0));
    let said = |name: &str| format!("{name}: {name} does not belong to a reading of the circuit equalised");
    for measurand in [Measurand::SuctionLine, Measurand::LiquidLine, Measurand::DischargeLine, Measurand::Vent] {
        assert_eq!(
            told(equalised().with(measurand, lines)),
            ("not-in-this-state", Some(measurand.id()), said(measurand.name()))
        );
    }
    assert_eq!(told(equalised().with(Measurand::ClutchDutyCycle, share)).0, "not-in-this-state");
    // its gauges are low and high side, and the equalised pressure is what follows from both
    let read = equalised().with(Measurand::LowSide, bar(6.7, 0.1)).unwrap();
    assert!(read.with(Measurand::HighSide, bar(6.6, 0.1)).is_ok());
    assert_eq!(told(read.with(Measurand::EqualisedPressure, bar(6.7, 0.1))).0, "not-in-this-state");
    // and of a running circuit neither it nor what was recovered is read
    for (measurand, refused) in [
        (Measurand::EqualisedPressure, running().with(Measurand::EqualisedPressure, bar(6.7, 0.1))),
        (Measurand::RecoveredCharge, running().with(Measurand::RecoveredCharge, share)),
    ] {
        let words = format!("{0}: {0} does not belong to a reading of the circuit running", measurand.name());
        assert_eq!(told(refused), ("not-in-this-state", Some(measurand.id()), words));
    }
}

/// Humidity was a public field, found out only by the assessment or the diagnosis.
#[test]
fn air_that_holds_more_than_it_can() {
    let expected =
        ("impossible", None, "relative humidity (%) 130 is not possible: it must be from 0 to 100".to_owned());
    assert_eq!(told(running().with_humidity(Ratio::from_percent(130.0))), expected);
    assert_eq!(told(equalised().with_humidity(Ratio::from_percent(130.0))), expected);
    let entry = Entry::gauges("2 bar".parse().unwrap(), "13 bar".parse().unwrap()).humidity("130 %".parse().unwrap());
    assert_eq!(told(entry.reading(R, Settings::TEST, &Instruments::digital(R))), expected);
}

#[test]
fn readings_of_another_refrigerant_and_kinds_that_are_none() {
    let other = Reading::running(Refrigerant::R1234yf, Settings::TEST, None, sea_level()).unwrap();
    let (code, _, said) = told(Inspection::of(running()).and(other));
    assert_eq!(code, "mismatch");
    assert!(said.starts_with("refrigerant is R-1234yf in the reading and R-134a"), "{said}");
    assert_eq!(told(Inspection::of(running()).with_kinds(Vec::new())).0, "missing");
    let kinds = satline::circuit::CircuitKind::main(Refrigerant::R744);
    assert_eq!(told(Inspection::of(running()).with_kinds(kinds)).0, "mismatch");
}

#[cfg(feature = "serde")]
mod json {
    use satline::circuit::{CircuitKind, Conditions, EngineSpeed, Intake, Motion};
    use satline::diagnosis::{CauseId, Prior};
    use satline::inspection::EnteredValue;
    use serde_json::{Value, json};

    use super::*;

    /// To JSON and back; the JSON.
    fn round<T>(value: &T) -> Value
    where
        T: serde::Serialize + serde::de::DeserializeOwned + PartialEq + std::fmt::Debug,
    {
        let text = serde_json::to_string(value).unwrap();
        let back: T = serde_json::from_str(&text).unwrap_or_else(|error| panic!("{text}: {error}"));
        assert_eq!(&back, value, "{text}");
        serde_json::from_str(&text).unwrap()
    }

    /// Why `value` is refused as a `T`.
    fn refused<T: serde::de::DeserializeOwned + std::fmt::Debug>(value: &Value) -> String {
        serde_json::from_value::<T>(value.clone()).expect_err("this must be refused").to_string()
    }

    /// Every object inside `value` with a fixed set of fields, by its path, refuses one more.
    fn refuses_unknown_fields<T: serde::de::DeserializeOwned + std::fmt::Debug>(value: &Value) {
        let mut paths = Vec::new();
        crate::support::objects(value, String::new(), &mut paths);
        for path in paths {
            let mut odd = value.clone();
            odd.pointer_mut(&path).unwrap()["colour"] = json!("blue");
            let said = refused::<T>(&odd);
            // one variant of an enum has one name
            assert!(said.contains("colour") || said.contains("map with a single key"), "{path}: {said}");
        }
    }

    fn whole_reading() -> Reading {
        running()
            .with_humidity(Ratio::from_percent(55.0))
            .and_then(|reading| reading.with(Measurand::LowSide, bar(2.1, 0.1)))
            .and_then(|reading| reading.with(Measurand::HighSide, bar(13.0, 0.3)))
            .and_then(|reading| reading.with(Measurand::DischargeLine, celsius(71.3, 1.2)))
            .and_then(|reading| reading.with(Measurand::ClutchDutyCycle, percent(40.0, 4.0)))
            .unwrap()
    }

    const REVVED: Settings = Settings {
        engine: EngineSpeed::Rpm(1500.0),
        motion: Motion::Driving(37.5),
        intake: Intake::Fresh,
        blower: Ratio::from_percent(55.0),
    };

    /// None of these types but the prior had a JSON form: an app kept its own copy of each, or parsed what a page printed.
    #[test]
    fn what_was_entered_comes_back_as_it_was_typed() {
        let entry = warm_day().humidity("55.0 %".parse().unwrap()).altitude("1000 ft".parse().unwrap());
        let value = round(&entry);
        assert_eq!(
            value,
            json!({
                "values": {
                    "low-side": "2.0 bar", "high-side": "13 bar", "suction-line": "8 °C", "liquid-line": "42 °C",
                    "vent": "12 °C",
                },
                "ambient": "30 °C", "humidity": "55.0 %", "altitude": "1000 ft",
            })
        );
        round(&Entry::default());
        round(&Entry::default().barometer("835 hPa".parse().unwrap()));
        for (measurand, text) in [
            (Measurand::LowSide, "-20.00 inHg"),
            (Measurand::Vent, "38.5 °F"),
            (Measurand::ClutchDutyCycle, "40 %"),
            (Measurand::EqualisedPressure, "88 psi"),
        ] {
            let value = EnteredValue::parse(measurand, text).unwrap();
            assert_eq!(value.to_string(), text);
            round(&value);
            round(&Entry::default().with(measurand, value).unwrap());
        }
        // as typed by hand
        let sparse: Entry = serde_json::from_str(r#"{"values": {"low-side": "32 psi"}}"#).unwrap();
        assert_eq!(sparse, Entry::default().enter(Measurand::LowSide, "32 psi").unwrap());
        assert_eq!(serde_json::from_str::<Entry>("{}").unwrap(), Entry::default());

        let mut odd = value.clone();
        odd["colour"] = json!("blue");
        assert!(refused::<Entry>(&odd).contains("unknown field `colour`"));
        odd = value.clone();
        odd["values"]["colour"] = json!("blue");
        assert!(refused::<Entry>(&odd).contains("unknown variant `colour`"));
        odd = value;
        odd["values"]["low-side"] = json!("8 °C");
        assert!(refused::<Entry>(&odd).starts_with("low side: gauge pressure: \"°C\""));
        odd["values"]["low-side"] = json!(2.2);
        assert!(refused::<Entry>(&odd).contains("invalid type"));
        let twice = r#"{"values": {"low-side": "32 psi", "low-side": "22 psi"}}"#;
        let said = serde_json::from_str::<Entry>(twice).unwrap_err().to_string();
        assert!(said.contains("low side is given twice"), "{said}");
        assert!(refused::<EnteredValue>(&json!({ "colour": "blue" })).contains("unknown variant"));
        assert!(refused::<EnteredValue>(&json!({ "pressure": "8 °C" })).contains("is not a unit of it"));
    }

    #[test]
    fn a_reading_comes_back_and_is_checked_again() {
        let value = round(&whole_reading());
        refuses_unknown_fields::<Reading>(&value);
        round(&running());
        let rested = equalised().with(Measurand::LowSide, bar(6.7, 0.1)).unwrap();
        let at_rest = round(&rested);
        refuses_unknown_fields::<Reading>(&at_rest);
        assert_eq!((rested.settings(), running().settings()), (None, Some(Settings::TEST)));

        let refused_with = |path: &str, wrong: Value| {
            let mut odd = value.clone();
            *odd.pointer_mut(path).unwrap_or_else(|| panic!("{path} is not in {value}")) = wrong;
            refused::<Reading>(&odd)
        };
        let gauge = |value: &str, standard: &str| json!({ "pressure": { "value": value, "standard": standard } });
        assert!(refused_with("/humidity", json!("130 %")).contains("relative humidity (%) 130 is not possible"));
        assert!(refused_with("/values/low-side", gauge("-3 bar", "0.1 bar")).contains("-300.0 kPa is outside"));
        assert!(refused_with("/values/low-side", gauge("2 bar", "-1 bar")).contains("standard uncertainty"));
        assert!(refused_with("/values/low-side", gauge("20 bar", "0.1 bar")).contains("hoses are not swapped"));
        assert!(
            refused_with("/values/discharge-line", json!({ "temperature": { "value": "900 °C", "standard": "1 K" } }))
                .contains("discharge line 900.0 °C is outside -60.0 to 400.0 °C")
        );
        assert!(refused_with("/values/discharge-line", gauge("2 bar", "0.1 bar")).contains("another kind of quantity"));
        assert!(
            refused_with("/values/clutch-duty-cycle", json!({ "share": { "value": "130 %", "standard": "4 %" } }))
                .contains("clutch duty cycle 130.0 % is outside 0.0 to 100.0 %")
        );
        assert!(refused_with("/air/value", json!("30 psi")).contains("air pressure 206.8 kPa is outside"));
        assert!(refused_with("/ambient/value", json!("86 °C")).contains("ambient temperature 86.0 °C is outside"));
        assert!(refused_with("/state", json!("stopped")).contains("unknown variant"));
        assert!(refused_with("/state/running/blower", json!("1000 %")).contains("blower 1000.0 % is outside"));
        assert!(refused_with("/refrigerant", json!("R-135")).contains("nearest"));
        // a line in an equalised circuit, and a value twice
        let mut odd = at_rest.clone();
        odd["values"]["vent"] = json!({ "temperature": { "value": "8 °C", "standard": "1 K" } });
        assert!(refused::<Reading>(&odd).contains("vent does not belong to a reading of the circuit equalised"));
        let low = at_rest["values"]["low-side"].to_string();
        let twice = at_rest.to_string().replace(&low, &format!("{low},\"low-side\":{low}"));
        let said = serde_json::from_str::<Reading>(&twice).unwrap_err().to_string();
        assert!(said.contains("low side is given twice"), "{said}");
    }

    #[test]
    fn an_inspection_comes_back_and_is_checked_again() {
        let recovered = RecoveredCharge::new(Mass::from_g(310.0), Mass::from_g(550.0)).unwrap();
        let weighed = round(&recovered);
        refuses_unknown_fields::<RecoveredCharge>(&weighed);
        let mut odd = weighed.clone();
        odd["nominal_charge"] = json!("0.55 g");
        assert!(refused::<RecoveredCharge>(&odd).contains("nominal charge 0.6 g is outside 100.0 to 20000.0 g"));
        odd = weighed;
        odd["mass"]["value"] = json!("31 kg");
        assert!(refused::<RecoveredCharge>(&odd).contains("recovered charge 31000.0 g is outside 0.0 to 1650.0 g"));

        let revved = Reading::running(R, REVVED, Some(celsius(30.0, 0.5)), sea_level()).unwrap();
        let inspection = Inspection::of(whole_reading())
            .and(revved)
            .and_then(|inspection| inspection.and(equalised()))
            .and_then(|inspection| inspection.with_recovered(recovered))
            .and_then(|inspection| inspection.found(Observation::Bubbles))
            .and_then(|inspection| inspection.not_found(Observation::FrostAtValve))
            .and_then(|inspection| inspection.with_kinds(CircuitKind::main(R)[1..].to_vec()))
            .unwrap();
        let value = round(&inspection);
        refuses_unknown_fields::<Inspection>(&value);
        round(&Inspection::of(running()));
        let refused_with = |field: &str, wrong: Value| {
            let mut odd = value.clone();
            odd[field] = wrong;
            refused::<Inspection>(&odd)
        };
        assert!(refused_with("readings", json!([])).contains("a reading is missing"));
        assert!(refused_with("not_found", json!(["bubbles"])).contains("bubbles is given twice"));
        assert!(refused_with("found", json!(["rust"])).contains("unknown variant `rust`"));
        assert!(refused_with("kinds", json!([])).contains("the kind of circuit is missing"));
        let others = serde_json::to_value(CircuitKind::main(Refrigerant::R744)).unwrap();
        assert!(refused_with("kinds", others).contains("refrigerant is R-134a in the reading"));
        let rested = serde_json::to_value(equalised()).unwrap();
        let twice = json!([value["readings"][0], rested, rested]);
        assert!(refused_with("readings", twice).contains("equalised reading is given twice"));
    }

    #[test]
    fn instruments_kinds_settings_conditions_and_priors_come_back() {
        for &r in Refrigerant::ALL {
            for instruments in [Instruments::analogue(r), Instruments::digital(r)] {
                let value = round(&instruments);
                refuses_unknown_fields::<Instruments>(&value);
            }
            for kind in CircuitKind::main(r) {
                refuses_unknown_fields::<CircuitKind>(&round(&kind));
            }
        }
        let analogue = Instruments::analogue(R);
        let own = Instruments {
            low: analogue.low.up_to(GaugePressure::from_bar(17.0)).unwrap(),
            high: analogue.high.within(Ratio::from_percent(1.0)).unwrap(),
            ..analogue
        };
        let value = round(&own);
        let mut odd = value.clone();
        odd["low"]["limit"] = json!("300 %");
        assert!(refused::<Instruments>(&odd).contains("limit of error (%)"));
        odd = value;
        odd["air"]["name"] = json!("a wet finger");
        assert!(refused::<Instruments>(&odd).contains("unknown instrument"));

        for settings in [Settings::TEST, REVVED, Settings { engine: EngineSpeed::Rpm(0.1 + 0.2), ..REVVED }] {
            refuses_unknown_fields::<Settings>(&round(&settings));
        }
        let air = Pressure::from_kpa(97.8);
        for humidity in [None, Some(Ratio::from_percent(55.0))] {
            let day = Conditions { ambient: Temperature::from_fahrenheit(86.0), humidity, air, settings: REVVED };
            refuses_unknown_fields::<Conditions>(&round(&day));
        }
        let prior = Prior::uniform()
            .with(CauseId::Air, 0.1 + 0.2)
            .and_then(|prior| prior.with(CauseId::Moisture, 0.0))
            .unwrap();
        let value = round(&prior);
        refuses_unknown_fields::<Prior>(&value);
        assert!(refused::<Prior>(&json!({ "air": -1.0 })).contains("prior weight -1 of air"));
    }
}

/// The model's own uncertainty moves every answer, so its figures stand here once more: those of both gauges from the printed ladders,
/// that of the vent from printed vents, the others our estimates.
#[test]
fn the_model_is_as_uncertain_as_its_documentation_says() {
    let stated = [
        (Measurand::LowSide, 0.07),
        (Measurand::HighSide, 0.085),
        (Measurand::SuctionLine, 2.0),
        (Measurand::EvaporatorOutlet, 2.0),
        (Measurand::LiquidLine, 1.5),
        (Measurand::DischargeLine, 4.0),
        (Measurand::Vent, 2.0),
    ];
    for (measurand, uncertainty) in stated {
        assert_eq!(measurand.model_uncertainty(), uncertainty, "{measurand:?}");
    }
}
