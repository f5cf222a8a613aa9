//! Superheat and subcooling of a line: values, uncertainty, text, and every way to have neither.

use approx::{abs_diff_eq, assert_abs_diff_eq};
use proptest::prelude::*;
use satline::line::{self, Condition};
use satline::quantity::{PressureUnit, Quantity, TemperatureUnit, Unit};
use satline::saturation::{Accuracy, Lines, OwnRefrigerant, Wagner};
use satline::{
    Error, GaugePressure, Line, Measured, Pressure, PressureDifference, Range, Refrigerant, Temperature,
    TemperatureDifference,
};

/// There and back along a line, K: the last places of a temperature and its solution.
const BACK_K: f64 = 1e-9;

const R134A: Refrigerant = Refrigerant::R134a;
const R407C: Refrigerant = Refrigerant::R407C;
const R744: Refrigerant = Refrigerant::R744;

fn kelvin(steps: f64) -> TemperatureDifference {
    TemperatureDifference::from_kelvins(steps)
}

fn celsius(value: f64, standard: f64) -> Measured<Temperature> {
    Measured::new(Temperature::from_celsius(value), kelvin(standard)).unwrap()
}

fn kpa(value: f64, standard: f64) -> Measured<Pressure> {
    Measured::new(Pressure::from_kpa(value), PressureDifference::from_kpa(standard)).unwrap()
}

/// A line at `p`, `by` kelvin above the dew temperature, everything exact.
fn above_dew(refrigerant: Refrigerant, p: Pressure, by: f64) -> Line {
    Line::new(refrigerant, p, refrigerant.dew_temperature(p).unwrap() + kelvin(by)).unwrap()
}

/// A line at `p`, `by` kelvin below the bubble temperature, everything exact.
fn below_bubble(refrigerant: Refrigerant, p: Pressure, by: f64) -> Line {
    Line::new(refrigerant, p, refrigerant.bubble_temperature(p).unwrap() - kelvin(by)).unwrap()
}

/// Declared error of what R-134a answers at `c` °C, K.
fn fit_error(c: f64) -> f64 {
    Lines::dew_accuracy(&R134A, Temperature::from_celsius(c)).unwrap().temperature.kelvins()
}

// A property table (tables/published/r134a-property-booklet.csv) prints 272.2, 292.8 and 314.6 kPa for R-134a at -2, 0
// and 2 °C: at 0 °C the line rises by (314.6 - 272.2)/4 = 10.60 kPa/K, known to ±0.1/4.
const RISE: f64 = 10.60;

#[test]
fn superheat_and_its_uncertainty_by_hand() {
    let suction = Line::measured(R134A, kpa(292.8, 10.0), celsius(6.6, 0.6)).unwrap();
    let superheat = suction.superheat().unwrap();
    // 6.6 °C - 0.0 °C; the printed pressure is good to 0.05 kPa, which is 0.005 K
    assert_abs_diff_eq!(superheat.value().kelvins(), 6.6, epsilon = 0.005 + fit_error(0.0));
    // u² = 0.6² + (10 kPa/10.60 kPa/K)² + u_fit² = 0.36 + 0.89 = 1.25, u = 1.118 K
    let by_hand = (0.6_f64.powi(2) + (10.0 / RISE).powi(2) + fit_error(0.0).powi(2) / 3.0).sqrt();
    let standard = superheat.standard_uncertainty().kelvins();
    assert_abs_diff_eq!(by_hand, 1.118, epsilon = 1e-3); // its last digit
    // what the rise may be off: 0.025 in 10.6 on 0.89 of 1.25
    assert!(abs_diff_eq!(standard, by_hand, epsilon = 0.002), "{standard} K, by hand {by_hand} K");
    // 1.96 × 1.118 K = 2.19 K
    assert_eq!(suction.to_string(), "superheat 6.6 ± 2.2 K (95 %)");
    assert_eq!(suction.condition(), Condition::Superheated(superheat));
    // rounding
    assert_abs_diff_eq!((suction.subcooling().unwrap().value() + superheat.value()).kelvins(), 0.0, epsilon = 1e-12);
}

#[test]
fn subcooling_and_its_uncertainty_by_hand() {
    let liquid = Line::measured(R134A, kpa(292.8, 5.0), celsius(-4.2, 0.5)).unwrap();
    let subcooling = liquid.subcooling().unwrap();
    // as above, the digits of the printed pressure
    assert_abs_diff_eq!(subcooling.value().kelvins(), 4.2, epsilon = 0.005 + fit_error(0.0));
    // u² = 0.5² + (5/10.60)² = 0.25 + 0.2225, u = 0.687 K, 95 % 1.35 K
    let by_hand = (0.25 + (5.0 / RISE).powi(2) + fit_error(0.0).powi(2) / 3.0).sqrt();
    // as above, what the rise may be off
    assert_abs_diff_eq!(subcooling.standard_uncertainty().kelvins(), by_hand, epsilon = 0.002);
    assert_eq!(liquid.condition(), Condition::Subcooled(subcooling));
    assert_eq!(liquid.to_string(), "subcooling 4.2 ± 1.3 K (95 %)");
}

#[test]
fn exact_readings_leave_the_error_of_the_fit() {
    let superheat = above_dew(R134A, Pressure::from_kpa(292.8), 5.0).superheat().unwrap();
    assert_abs_diff_eq!(superheat.value().kelvins(), 5.0, epsilon = BACK_K);
    // a limit of error over √3
    // rounding
    assert_abs_diff_eq!(superheat.standard_uncertainty().kelvins(), fit_error(0.0) / 3f64.sqrt(), epsilon = 1e-12);
    assert!(superheat.standard_uncertainty().kelvins() > 0.0, "R-134a declares an error at 0 °C");
}

#[test]
fn gauge_and_barometer_combine_as_root_of_squares() {
    let gauge = Measured::new(GaugePressure::from_kpa(191.475), PressureDifference::from_kpa(3.0)).unwrap();
    let air = kpa(101.325, 4.0);
    let absolute = line::absolute(&gauge, &air).unwrap();
    assert_abs_diff_eq!(absolute.value().kpa(), 292.8, epsilon = 1e-9); // rounding
    assert_abs_diff_eq!(absolute.standard_uncertainty().kpa(), 5.0, epsilon = 1e-12); // 3² + 4² = 5²: rounding

    let suction = Line::from_gauge(R134A, gauge, air, celsius(6.6, 0.5)).unwrap();
    assert_eq!(suction.pressure(), absolute);
    assert_eq!(suction, Line::measured(R134A, absolute, celsius(6.6, 0.5)).unwrap());
    // the air of 1000 m (89.876 kPa) takes 11.4 kPa, and 1.1 K of saturation temperature, off the same gauge reading
    let high_up = Line::from_gauge(R134A, gauge, kpa(89.876, 4.0), celsius(6.6, 0.5)).unwrap();
    let more = high_up.superheat().unwrap().value() - suction.superheat().unwrap().value();
    // the rise of 0 °C taken over 11 kPa: our choice
    assert!(abs_diff_eq!(more.kelvins(), 11.449 / RISE, epsilon = 0.05), "{more:?}");
}

#[test]
fn a_line_gives_back_what_it_was_made_from() {
    let suction = Line::measured(R134A, kpa(292.8, 10.0), celsius(6.6, 0.6)).unwrap();
    assert_eq!(suction.refrigerant(), R134A);
    assert_eq!(suction.pressure(), kpa(292.8, 10.0));
    assert_eq!(suction.temperature(), celsius(6.6, 0.6));
    let saturation = suction.saturation().unwrap();
    assert_eq!(saturation.bubble, saturation.dew, "a pure fluid has one line");
}

#[test]
fn exactly_on_the_line_is_saturated() {
    for refrigerant in Refrigerant::ALL.iter().copied() {
        let p = refrigerant.dew_pressure(Temperature::from_celsius(0.0)).unwrap();
        let (bubble, dew) = (refrigerant.bubble_temperature(p).unwrap(), refrigerant.dew_temperature(p).unwrap());
        for t in [bubble, dew] {
            let line = Line::new(refrigerant, p, t).unwrap();
            assert_eq!(line.condition(), Condition::Saturated, "{refrigerant} at {} °C: {line}", t.celsius());
        }
    }
    let p = Pressure::from_kpa(292.8);
    assert_eq!(above_dew(R134A, p, 0.0).to_string(), "saturated: liquid and vapour together");
}

#[test]
fn a_blend_counts_superheat_from_dew_and_subcooling_from_bubble() {
    let p = Pressure::from_kpa(1000.0);
    let (bubble, dew) = (R407C.bubble_temperature(p).unwrap(), R407C.dew_temperature(p).unwrap());
    let glide = (dew - bubble).kelvins();
    // R-407C: about 5 K at 1 MPa (its boiling points at 101.325 kPa, -43.6 and -36.6 °C, lie 7 K apart)
    assert!(4.0 < glide && glide < 7.0, "{glide} K");

    let between = Line::new(R407C, p, bubble + kelvin(glide / 2.0)).unwrap();
    assert_eq!(between.condition(), Condition::Saturated);
    assert_eq!(between.to_string(), "between bubble and dew line: liquid and vapour together");
    assert_abs_diff_eq!(between.superheat().unwrap().value().kelvins(), -(glide / 2.0), epsilon = BACK_K);
    assert_abs_diff_eq!(between.subcooling().unwrap().value().kelvins(), -(glide / 2.0), epsilon = BACK_K);

    let back = |by: Measured<TemperatureDifference>, k: f64| abs_diff_eq!(by.value().kelvins(), k, epsilon = BACK_K);
    let vapour = above_dew(R407C, p, 5.04);
    assert!(matches!(vapour.condition(), Condition::Superheated(by) if back(by, 5.04)));
    assert_eq!(vapour.to_string(), "superheat 5.0 ± 0.0 K (95 %), from the dew line");
    let liquid = below_bubble(R407C, p, 3.96);
    assert!(matches!(liquid.condition(), Condition::Subcooled(by) if back(by, 3.96)));
    assert_eq!(liquid.to_string(), "subcooling 4.0 ± 0.0 K (95 %), from the bubble line");
}

#[test]
fn text_rounds_but_does_not_lose_the_sign() {
    let p = Pressure::from_kpa(292.8);
    assert_eq!(above_dew(R134A, p, 0.01).to_string(), "superheat 0.0 ± 0.0 K (95 %)");
    assert_eq!(below_bubble(R134A, p, 0.01).to_string(), "subcooling 0.0 ± 0.0 K (95 %)");
    assert_eq!(above_dew(R134A, p, 123.456).to_string(), "superheat 123.5 ± 0.0 K (95 %)");
}

#[test]
fn above_the_critical_pressure_there_is_neither() {
    let critical = R744.dew_line().critical_pressure;
    for p in [Pressure::from_bar(95.0), critical + PressureDifference::from_pa(1.0), Pressure::from_bar(1e9)] {
        let cooler = Line::new(R744, p, Temperature::from_celsius(40.0)).unwrap();
        assert_eq!(cooler.condition(), Condition::Supercritical, "{} kPa", p.kpa());
        assert_eq!((cooler.superheat(), cooler.subcooling(), cooler.saturation()), (None, None, None));
        assert_eq!(cooler.to_string(), "above the critical pressure: no superheat, no subcooling");
    }
    // up to the critical point there is a line
    for p in [critical, critical - PressureDifference::from_pa(1.0)] {
        let line = Line::new(R744, p, Temperature::from_celsius(40.0)).unwrap();
        assert!(matches!(line.condition(), Condition::Superheated(_)), "{line}");
    }
}

#[test]
fn near_the_critical_point_the_numbers_stay_sound() {
    for refrigerant in Refrigerant::ALL.iter().copied() {
        // the last kelvin of the range of both lines; 0.999 keeps a blend inside it
        let top = refrigerant.dew_pressure(refrigerant.saturation_range().high).unwrap();
        for share in [0.98, 0.99, 0.999] {
            let p = Measured::new(Pressure::from_pa(top.pa() * share), PressureDifference::from_kpa(20.0)).unwrap();
            let line = Line::measured(refrigerant, p, celsius(150.0, 0.5)).unwrap();
            let by = line.superheat().unwrap();
            // the line rises by 50 to 200 kPa/K there, so 20 kPa are 0.1 to 0.4 K beside the 0.5 K
            let standard = by.standard_uncertainty().kelvins();
            assert!((0.5..0.65).contains(&standard), "{refrigerant} at {share} of the top: {standard} K");
        }
    }
}

#[test]
fn pressures_that_do_not_exist_are_refused() {
    let t = Temperature::from_celsius(5.0);
    for p in [0.0, -0.0, -1.0, -1e9] {
        let error = Line::new(R134A, Pressure::from_kpa(p), t).unwrap_err();
        assert!(matches!(error, Error::Impossible { value, .. } if value == p), "{p} kPa: {error}");
    }
    let error = Line::new(R134A, Pressure::from_kpa(-18.7), t).unwrap_err().to_string();
    assert!(error.contains("-18.7") && error.contains("check the gauge reading"), "{error}");
    for p in [f64::NAN, f64::INFINITY] {
        let error = Line::new(R134A, Pressure::from_kpa(p), t).unwrap_err();
        assert!(matches!(error, Error::NotFinite { what: "absolute pressure", .. }), "{error}");
    }
    let gauge = Measured::exact(GaugePressure::from_kpa(-120.0)).unwrap();
    let error = Line::from_gauge(R134A, gauge, kpa(101.325, 0.0), celsius(5.0, 0.5)).unwrap_err();
    assert_eq!(
        error.to_string(),
        "-18.7 kPa absolute is not above vacuum; check the gauge reading, its sign and unit, and the \
         air pressure used (101.3 kPa)"
    );
    // exactly vacuum
    let gauge = Measured::exact(GaugePressure::from_pa(-101_325.0)).unwrap();
    assert!(matches!(line::absolute(&gauge, &kpa(101.325, 0.0)), Err(Error::BelowVacuum { value: 0.0, .. })));
}

#[test]
fn temperatures_that_do_not_exist_are_refused() {
    let p = Pressure::from_kpa(300.0);
    for t in [0.0, -0.0, -1.0] {
        let error = Line::new(R134A, p, Temperature::from_kelvin(t)).unwrap_err();
        assert!(matches!(error, Error::Impossible { .. }), "{t} K: {error}");
        assert!(error.to_string().contains("above absolute zero, -273.15 °C"), "{error}");
    }
    for t in [f64::NAN, f64::INFINITY, f64::NEG_INFINITY] {
        let error = Line::new(R134A, p, Temperature::from_kelvin(t)).unwrap_err();
        assert!(matches!(error, Error::NotFinite { what: "temperature", .. }), "{t} K: {error}");
    }
    // also where no saturation temperature is asked for
    assert!(Line::new(R744, Pressure::from_bar(95.0), Temperature::from_kelvin(0.0)).is_err());
}

#[test]
fn pressures_below_the_saturation_line_are_refused() {
    // the line of R-134a begins at its triple point, 0.39 kPa; that of R-744 at 518 kPa, where snow begins
    let error = Line::new(R134A, Pressure::from_pa(100.0), Temperature::from_celsius(5.0)).unwrap_err();
    assert_eq!(error.to_string(), "saturation pressure 0.1 kPa is outside 0.4 to 4059.1 kPa, the range of validity");
    let error = Line::new(R744, Pressure::from_kpa(500.0), Temperature::from_celsius(5.0)).unwrap_err();
    // kPa, printed with four digits and rounded: our choice
    assert!(
        matches!(error, Error::OutOfRange { what: "saturation pressure", value, low, .. } if value == 500.0 && abs_diff_eq!(low, 517.95, epsilon = 0.1)),
        "{error}"
    );
}

#[test]
fn a_hopeless_thermometer_does_not_make_a_line_supercritical() {
    let line = Line::measured(R134A, kpa(292.8, 1.0), celsius(6.6, 1e150)).unwrap();
    assert!(line.saturation().is_some());
    assert!(matches!(line.condition(), Condition::Superheated(_)), "{line}");
}

/// A refrigerant, a pressure inside both its lines and a temperature.
fn any_state() -> impl Strategy<Value = (Refrigerant, Pressure, Temperature)> {
    (0..Refrigerant::ALL.len(), 0.0..1.0_f64, 100.0..450.0_f64).prop_map(|(i, share, t)| {
        let refrigerant = Refrigerant::ALL[i];
        let range = refrigerant.saturation_range();
        let low = refrigerant.bubble_pressure(range.low).unwrap().pa();
        let high = refrigerant.dew_pressure(range.high).unwrap().pa();
        // even in the logarithm; the ends themselves are tested above
        let p = low * (high / low).powf(0.001 + 0.998 * share);
        (refrigerant, Pressure::from_pa(p), Temperature::from_kelvin(t))
    })
}

proptest! {
    #[test]
    fn a_line_is_one_thing((refrigerant, p, t) in any_state(), u_p in 0.0..5e4_f64, u_t in 0.0..3.0_f64) {
        let p = Measured::new(p, PressureDifference::from_pa(u_p)).unwrap();
        let line = Line::measured(refrigerant, p, Measured::new(t, kelvin(u_t)).unwrap()).unwrap();
        let (superheat, subcooling) = (line.superheat().unwrap(), line.subcooling().unwrap());
        let saturation = line.saturation().unwrap();
        let glide = (saturation.dew.value() - saturation.bubble.value()).kelvins();
        prop_assert!(glide >= 0.0, "{refrigerant}: dew {glide} K above bubble");
        prop_assert_eq!(glide > 0.0, refrigerant.is_blend());
        // T - T_dew + T_bubble - T = -(T_dew - T_bubble)
        let sum = (superheat.value() + subcooling.value()).kelvins();
        prop_assert!(abs_diff_eq!(sum, -glide, epsilon = BACK_K));
        // never better than the thermometer
        prop_assert!(superheat.standard_uncertainty().kelvins() >= u_t && subcooling.standard_uncertainty().kelvins() >= u_t);
        match line.condition() {
            Condition::Superheated(by) => prop_assert!(t > saturation.dew.value() && by == superheat),
            Condition::Subcooled(by) => prop_assert!(t < saturation.bubble.value() && by == subcooling),
            Condition::Saturated => {
                prop_assert!(saturation.bubble.value() <= t && t <= saturation.dew.value());
            }
            Condition::Supercritical => prop_assert!(false, "{refrigerant} at {} kPa", p.value().kpa()),
        }
    }

    #[test]
    fn uncertainty_follows_the_slope((refrigerant, p, _) in any_state()) {
        // dT/dp by difference of the inverse, against the analytic slope inside the line
        let h = 1e-5 * p.pa();
        let t = |pa: f64| refrigerant.dew_temperature(Pressure::from_pa(pa)).unwrap().kelvin();
        let by_difference = (t(p.pa() + h) - t(p.pa() - h)) / (2.0 * h);
        let exact = line::Saturation::at(refrigerant, &Measured::exact(p).unwrap()).unwrap().unwrap().dew;
        // so unsure a pressure that the fit does not matter
        let u = 100.0 * p.pa();
        let unsure = Measured::new(p, PressureDifference::from_pa(u)).unwrap();
        let dew = line::Saturation::at(refrigerant, &unsure).unwrap().unwrap().dew;
        prop_assert_eq!(dew.value(), exact.value());
        let ours = dew.standard_uncertainty().kelvins() / u;
        // the difference is good to h² T'''/6 and to the last place of T over h, both below 1e-6 of it away from the
        // critical point, where the lines of blends bend more
        prop_assert!(abs_diff_eq!(ours / by_difference, 1.0, epsilon = 1e-4), "{refrigerant} at {} kPa: {ours} {by_difference}", p.kpa());
    }
}

// --- a refrigerant of one's own

/// R-407C's own lines, as one's own blend.
fn own_blend() -> OwnRefrigerant {
    OwnRefrigerant::blend("my blend", *R407C.bubble_line(), *R407C.dew_line()).unwrap()
}

/// Superheat and subcooling, kelvin, and their standard uncertainties.
fn told<R: Lines + Clone>(line: &Line<R>) -> [f64; 4] {
    let (superheat, subcooling) = (line.superheat().unwrap(), line.subcooling().unwrap());
    [superheat.value(), subcooling.value(), superheat.standard_uncertainty(), subcooling.standard_uncertainty()]
        .map(|by| by.kelvins())
}

#[test]
fn a_refrigerant_of_ones_own_answers_as_one_of_the_catalogue() {
    // the short line of a catalogue fluid, taken for one's own, is good to 0.02 K against whatever the catalogue asks
    let same = |ours: [f64; 4], theirs: [f64; 4]| {
        assert!(ours.into_iter().zip(theirs).all(|(a, b)| abs_diff_eq!(a, b, epsilon = 0.02)), "{ours:?} {theirs:?}");
    };
    let own = OwnRefrigerant::pure("my R-134a", *R134A.dew_line());
    let suction = Line::measured(own.clone(), kpa(292.8, 10.0), celsius(6.6, 0.6)).unwrap();
    let theirs = Line::measured(R134A, kpa(292.8, 10.0), celsius(6.6, 0.6)).unwrap();
    same(told(&suction), told(&theirs));
    assert_eq!(suction.to_string(), "superheat 6.6 ± 2.2 K (95 %)");
    assert_eq!(suction.refrigerant().to_string(), "my R-134a");
    // by reference, as a large refrigerant is passed on
    let lent = Line::measured(&own, kpa(292.8, 10.0), celsius(6.6, 0.6)).unwrap();
    assert_eq!((told(&lent), lent.refrigerant().name()), (told(&suction), "my R-134a"));
    let lines: &dyn Lines = &own;
    let high = Line::new(lines, Pressure::from_mpa(5.0), Temperature::from_celsius(20.0)).unwrap();
    assert_eq!(high.condition(), Condition::Supercritical);

    let blend = own_blend();
    for (p, t) in [(400.0, 10.0), (1800.0, 30.0), (1000.0, 22.0)] {
        let ours = Line::measured(&blend, kpa(p, 5.0), celsius(t, 0.5)).unwrap();
        same(told(&ours), told(&Line::measured(R407C, kpa(p, 5.0), celsius(t, 0.5)).unwrap()));
        let either = ["from the dew line", "from the bubble line", "between bubble and dew line"];
        assert!(either.iter().any(|words| ours.to_string().contains(words)), "{ours}");
    }
}

#[test]
fn errors_call_a_refrigerant_of_ones_own_by_its_name() {
    let own = own_blend();
    let hot = own.dew_pressure(Temperature::from_celsius(90.0)).unwrap_err().to_string();
    assert!(hot.starts_with("my blend at 90.0 °C is above its critical temperature of 86.2 °C: "), "{hot}");
    let high = own.bubble_temperature(Pressure::from_mpa(6.0)).unwrap_err().to_string();
    assert!(high.starts_with("my blend at 6000 kPa absolute is above its critical pressure of 46"), "{high}");
    // lines reduced with some other point know nothing of a critical point
    let unknown = own.clone().with_unknown_critical_point();
    assert!(matches!(unknown.bubble_pressure(Temperature::from_celsius(90.0)), Err(Error::OutOfRange { .. })));
    assert!(matches!(
        Line::new(unknown, Pressure::from_mpa(6.0), Temperature::from_celsius(20.0)),
        Err(Error::OutOfRange { .. })
    ));
}

#[test]
fn lines_that_make_no_blend_are_refused() {
    let refused = |bubble, dew| OwnRefrigerant::blend("x", bubble, dew).unwrap_err().to_string();
    let swapped = refused(*R407C.dew_line(), *R407C.bubble_line());
    assert!(swapped.starts_with("bubble pressure minus dew pressure (kPa) -"), "{swapped}");
    assert!(swapped.ends_with("is not possible: it must be zero or more; are the two lines swapped?"), "{swapped}");
    let part = |low, high| Wagner {
        valid: Range::new(Temperature::from_celsius(low), Temperature::from_celsius(high)),
        ..*R407C.dew_line()
    };
    assert_eq!(
        refused(part(-30.0, 0.0), part(10.0, 40.0)),
        "range that bubble and dew line have in common (K) -10 is not possible: it must be above zero"
    );
    // equal at the critical point, dew below bubble at the cold end by 0.2 %, above it between them by 0.5 %:
    // 0.06 θ − 0.2 θ² more in the sum, zero at θ = 0.3
    let mut crossing = *R134A.dew_line();
    crossing.valid.low = Temperature::from_kelvin(0.67 * crossing.critical_temperature.kelvin());
    for (n, k) in &mut crossing.terms {
        *n += if *k == 1.0 {
            0.06
        } else if *k == 2.0 {
            -0.2
        } else {
            0.0
        };
    }
    let cold = crossing.valid.low;
    assert!(crossing.pressure(cold).unwrap() < R134A.dew_line().pressure(cold).unwrap());
    let between = refused(*R134A.dew_line(), crossing);
    assert!(between.starts_with("bubble pressure minus dew pressure (kPa) -"), "{between}");
    // what both declare as their error, 0.1 % each, is no crossing yet
    let mut bubble = *R134A.dew_line();
    bubble.accuracy.iter_mut().for_each(|band| band.pressure = 0.001);
    let mut dew = bubble;
    dew.critical_pressure = Pressure::from_pa(1.0019 * bubble.critical_pressure.pa());
    assert!(OwnRefrigerant::blend("x", bubble, dew).is_ok());
    dew.critical_pressure = Pressure::from_pa(1.0021 * bubble.critical_pressure.pa());
    assert!(refused(bubble, dew).starts_with("bubble pressure minus dew pressure (kPa) -"));
    // one line twice is no error: an azeotrope
    assert!(OwnRefrigerant::blend("x", *R407C.dew_line(), *R407C.dew_line()).is_ok());
}

/// Clausius and Clapeyron's line through 100 kPa at 300 K: what a pure fluid has to bring along, and no more.
struct Vapour;

impl Lines for Vapour {
    fn name(&self) -> &str {
        "vapour"
    }
    fn critical_temperature(&self) -> Option<Temperature> {
        Some(Temperature::from_kelvin(500.0))
    }
    fn critical_pressure(&self) -> Option<Pressure> {
        Some(Pressure::from_mpa(50.0))
    }
    fn range(&self) -> Range<Temperature> {
        Range::new(Temperature::from_kelvin(200.0), Temperature::from_kelvin(400.0))
    }
    fn dew_pressure(&self, t: Temperature) -> Result<Pressure, Error> {
        Ok(Pressure::from_kpa(100.0 * (20.0 * (1.0 - 300.0 / t.kelvin())).exp()))
    }
    fn dew_temperature(&self, p: Pressure) -> Result<Temperature, Error> {
        Ok(Temperature::from_kelvin(300.0 / (1.0 - (p.kpa() / 100.0).ln() / 20.0)))
    }
    fn dew_slope_pa_per_kelvin(&self, t: Temperature) -> Result<f64, Error> {
        Ok(self.dew_pressure(t)?.pa() * 20.0 * 300.0 / t.kelvin().powi(2))
    }
    fn dew_accuracy(&self, t: Temperature) -> Result<Accuracy, Error> {
        Ok(Accuracy { up_to: t, pressure: 0.001, temperature: kelvin(0.01) })
    }
}

#[test]
fn a_pure_fluid_needs_one_line_and_may_be_lent() {
    fn check(lines: impl Lines) {
        let t = Temperature::from_kelvin(300.0);
        assert!(lines.name() == "vapour" && !lines.is_blend() && lines.range().high.kelvin() == 400.0);
        let critical = (lines.critical_temperature(), lines.critical_pressure());
        assert_eq!(critical, (Some(Temperature::from_kelvin(500.0)), Some(Pressure::from_mpa(50.0))));
        assert_eq!((lines.dew_pressure(t).unwrap().kpa(), lines.bubble_pressure(t).unwrap().kpa()), (100.0, 100.0));
        // p × 20/300 K
        let slopes = [lines.dew_slope_pa_per_kelvin(t).unwrap(), lines.bubble_slope_pa_per_kelvin(t).unwrap()];
        assert!(slopes.iter().all(|slope| abs_diff_eq!(*slope, 1e5 / 15.0, epsilon = 1e-6)), "{slopes:?}"); // rounding
        let p = Pressure::from_kpa(100.0);
        assert_eq!((lines.dew_temperature(p).unwrap(), lines.bubble_temperature(p).unwrap()), (t, t));
        let band = lines.dew_accuracy(t).unwrap();
        assert!(band.pressure == 0.001 && band == lines.bubble_accuracy(t).unwrap());
    }
    check(Vapour);
    check(&Vapour);
    check(&&Vapour as &dyn Lines);
    let line = Line::new(&Vapour, Pressure::from_kpa(100.0), Temperature::from_kelvin(306.0)).unwrap();
    assert_abs_diff_eq!(line.superheat().unwrap().value().kelvins(), 6.0, epsilon = BACK_K);
}

#[cfg(feature = "std")]
#[test]
fn a_name_read_at_run_time_stands_in_errors() {
    let name: String = ["my", "own", "134"].join(" ");
    let own = OwnRefrigerant::pure(name, *R134A.dew_line());
    assert_eq!((own.name(), format!("{own:>12}")), ("my own 134", "  my own 134".to_owned()));
    let error = own.dew_temperature(Pressure::from_mpa(6.0)).unwrap_err();
    assert!(matches!(&error, Error::Supercritical { refrigerant, .. } if refrigerant == "my own 134"), "{error}");
    assert_eq!(error.code(), "supercritical");
}

#[test]
fn superheat_and_subcooling_of_plain_values_are_those_of_a_line() {
    let air = Pressure::STANDARD_ATMOSPHERE;
    for r in [R134A, R407C, satline::Refrigerant::R744] {
        let mut compared = 0;
        for bar in [0.5, 2.0, 9.0, 20.0, 45.0, 70.0, 100.0] {
            for celsius in [-10.0, 8.0, 45.0] {
                let (gauge, t) = (GaugePressure::from_bar(bar), Temperature::from_celsius(celsius));
                let (superheat, subcooling) = (r.superheat(gauge, air, t), r.subcooling(gauge, air, t));
                match Line::new(r, gauge.absolute(air), t) {
                    Ok(line) if line.condition() == Condition::Supercritical => {
                        assert!(matches!(superheat, Err(Error::Supercritical { .. })), "{r} {bar} bar: {superheat:?}");
                        assert!(
                            matches!(subcooling, Err(Error::Supercritical { .. })),
                            "{r} {bar} bar: {subcooling:?}"
                        );
                    }
                    Ok(line) => {
                        assert_eq!(superheat.unwrap(), line.superheat().unwrap().value(), "{r} {bar} bar {celsius} °C");
                        assert_eq!(
                            subcooling.unwrap(),
                            line.subcooling().unwrap().value(),
                            "{r} {bar} bar {celsius} °C"
                        );
                        compared += 1;
                    }
                    Err(_) => assert!(superheat.is_err() || subcooling.is_err(), "{r} {bar} bar"),
                }
            }
        }
        assert!(compared >= 9, "{r}: {compared}");
    }
    let (gauge, t) = (GaugePressure::from_bar(2.0), Temperature::from_celsius(8.0));
    assert!(matches!(R134A.superheat(GaugePressure::from_bar(-1.1), air, t), Err(Error::BelowVacuum { .. })));
    assert!(matches!(R134A.superheat(gauge, air, Temperature::from_kelvin(0.0)), Err(Error::Impossible { .. })));
    for nothing in [f64::NAN, f64::INFINITY] {
        assert!(R134A.superheat(GaugePressure::from_bar(nothing), air, t).is_err());
        assert!(R134A.superheat(gauge, Pressure::from_bar(nothing), t).is_err());
        assert!(R134A.subcooling(gauge, air, Temperature::from_kelvin(nothing)).is_err());
    }
}

/// Rows of a log, some of them no reading at all.
fn rows(usual: std::ops::Range<f64>) -> impl Strategy<Value = f64> {
    prop_oneof![
        20 => usual,
        2 => -1e3f64..1e4,
        1 => any::<f64>(),
        1 => prop::sample::select(vec![f64::NAN, f64::INFINITY, f64::NEG_INFINITY, 0.0, -0.0, -459.67, 1e200, -1e200]),
    ]
}

/// The same answer bit for bit, or none on both sides.
fn same(column: f64, one: Result<f64, Error>) -> bool {
    one.map_or(column.is_nan(), |one| one.to_bits() == column.to_bits())
}

proptest! {
    #[test]
    fn columns_answer_each_row_as_one_value_is_answered(
        at in 0..Refrigerant::ALL.len(),
        log in prop::collection::vec((rows(0.0..600.0), rows(12.0..15.0), rows(-40.0..160.0)), 0..150),
        pressure in prop::sample::select(PressureUnit::ALL),
        air_unit in prop::sample::select(PressureUnit::ALL),
        temperature in prop::sample::select(TemperatureUnit::ALL),
        one_air in any::<bool>(),
    ) {
        let r = Refrigerant::ALL[at];
        // psi and °F, where numbers of the usual size are pressures and temperatures of a circuit, into the units asked for
        let usual = |psi: f64, unit: PressureUnit| psi * PressureUnit::Psi.factor() / unit.factor();
        let gauge: Vec<f64> = log.iter().map(|row| usual(row.0, pressure)).collect();
        let mut air: Vec<f64> = log.iter().map(|row| usual(row.1, air_unit)).collect();
        if one_air {
            air.resize(1, usual(14.7, air_unit));
        }
        let written = |t: Temperature| match temperature {
            TemperatureUnit::Celsius => t.celsius(),
            TemperatureUnit::Fahrenheit => t.fahrenheit(),
            _ => t.kelvin(),
        };
        let line: Vec<f64> = log.iter().map(|row| written(Temperature::from_fahrenheit(row.2))).collect();
        let mut out = vec![0.0; log.len()];

        let step = |by: TemperatureDifference| match temperature {
            TemperatureUnit::Fahrenheit => by.fahrenheit_steps(),
            _ => by.kelvins(),
        };
        let typed = |i: usize| {
            let air = if one_air { air[0] } else { air[i] };
            let (gauge, air) = (GaugePressure::new(gauge[i], pressure), Pressure::new(air, air_unit));
            (gauge, air, Temperature::new(line[i], temperature))
        };
        let answers = |out: &[f64]| out.iter().filter(|answer| !answer.is_nan()).count();

        let count = r.superheat_column((&gauge, pressure), (&air, air_unit), (&line, temperature), &mut out).unwrap();
        prop_assert_eq!(count, answers(&out));
        for (i, &column) in out.iter().enumerate() {
            let (gauge, air, line) = typed(i);
            let one = r.superheat(gauge, air, line).map(step);
            prop_assert!(same(column, one.clone()), "{r} superheat {gauge:?} {air:?} {line:?}: {column} and {one:?}");
        }
        let count = r.subcooling_column((&gauge, pressure), (&air, air_unit), (&line, temperature), &mut out).unwrap();
        prop_assert_eq!(count, answers(&out));
        for (i, &column) in out.iter().enumerate() {
            let (gauge, air, line) = typed(i);
            let one = r.subcooling(gauge, air, line).map(step);
            prop_assert!(same(column, one.clone()), "{r} subcooling {gauge:?} {air:?} {line:?}: {column} and {one:?}");
        }

        type Temperatures = fn(Refrigerant, (&[f64], PressureUnit), (&mut [f64], TemperatureUnit)) -> Result<usize, Error>;
        type OneTemperature = fn(Refrigerant, Pressure) -> Result<Temperature, Error>;
        let both: [(Temperatures, OneTemperature); 2] = [
            (Refrigerant::dew_temperature_column, Refrigerant::dew_temperature),
            (Refrigerant::bubble_temperature_column, Refrigerant::bubble_temperature),
        ];
        for (column, one) in both {
            prop_assert_eq!(column(r, (&gauge, pressure), (&mut out, temperature)).unwrap(), answers(&out));
            for (&p, &t) in gauge.iter().zip(&out) {
                let one = one(r, Pressure::new(p, pressure)).map(written);
                prop_assert!(same(t, one.clone()), "{r} at {p} {pressure:?}: {t} and {one:?}");
            }
        }
        type Pressures = fn(Refrigerant, (&[f64], TemperatureUnit), (&mut [f64], PressureUnit)) -> Result<usize, Error>;
        type OnePressure = fn(Refrigerant, Temperature) -> Result<Pressure, Error>;
        let both: [(Pressures, OnePressure); 2] = [
            (Refrigerant::dew_pressure_column, Refrigerant::dew_pressure),
            (Refrigerant::bubble_pressure_column, Refrigerant::bubble_pressure),
        ];
        for (column, one) in both {
            prop_assert_eq!(column(r, (&line, temperature), (&mut out, pressure)).unwrap(), answers(&out));
            for (&t, &p) in line.iter().zip(&out) {
                let one = one(r, Temperature::new(t, temperature)).map(|p| p.pa() / pressure.factor());
                prop_assert!(same(p, one.clone()), "{r} at {t} {temperature:?}: {p} and {one:?}");
            }
        }
    }
}

#[test]
fn columns_up_to_the_critical_point_and_of_wrong_length() {
    use PressureUnit::{Bar, Pascal};
    for &r in Refrigerant::ALL {
        // where the curve ends a few last places below the critical pressure
        let critical = r.dew_line().critical_pressure.pa();
        let column = [critical, critical.next_down(), critical.next_up(), 0.99 * critical, f64::NAN];
        let mut out = [0.0; 5];
        let count = r.dew_temperature_column((&column, Pascal), (&mut out, TemperatureUnit::Kelvin)).unwrap();
        let one = column.map(|p| r.dew_temperature(Pressure::from_pa(p)).map(Temperature::kelvin));
        assert_eq!(count, one.iter().filter(|one| one.is_ok()).count(), "{r}");
        assert!(out.into_iter().zip(one).all(|(column, one)| same(column, one)), "{r}: {out:?}");
    }
    let mut untouched = [7.0; 2];
    let (two, three) = ([1.0, 2.0], [1.0, 2.0, 3.0]);
    let celsius = TemperatureUnit::Celsius;
    for error in [
        R134A.superheat_column((&three, Bar), (&[1.0], Bar), (&two, celsius), &mut untouched),
        R134A.subcooling_column((&two, Bar), (&three, Bar), (&two, celsius), &mut untouched),
        R134A.subcooling_column((&two, Bar), (&[], Bar), (&two, celsius), &mut untouched),
        R134A.superheat_column((&two, Bar), (&two, Bar), (&three, celsius), &mut untouched),
        R134A.dew_temperature_column((&three, Bar), (&mut untouched, celsius)),
        R134A.bubble_pressure_column((&three, celsius), (&mut untouched, Bar)),
    ] {
        assert!(matches!(error, Err(Error::Impossible { what: "number of rows in a column", .. })), "{error:?}");
    }
    assert_eq!(untouched, [7.0; 2]);
}
