//! The charts of the day, and what an equalised circuit shows, against the print, and both for a refrigerant of one's own.

use std::collections::BTreeSet;

use approx::{abs_diff_eq, assert_abs_diff_eq};
use satline::circuit::{Conditions, Settings};
use satline::diagnosis::{Assessment, QuestionedInput, UnitQuestion, unit_questions};
use satline::expected::{Authority, Basis, ChartSet, EqualisedCheck, EqualisedVerdict, Side, Verdict, charts};
use satline::inspection::{Entry, Instruments, Measurand};
use satline::quantity::Position;
use satline::saturation::{OwnRefrigerant, Wagner};
use satline::{
    GaugePressure, Measured, Pressure, PressureDifference, Range, Ratio, Refrigerant, Temperature,
    TemperatureDifference,
};

use crate::support::Table;

/// What the short line of a catalogue fluid may be off in temperature, K, as in `line.rs`.
const SHORT_LINE_K: f64 = 0.02;

fn charts_for(r: Refrigerant) -> ChartSet {
    ChartSet::new(r).unwrap()
}

fn day(celsius: f64, humidity: Option<f64>) -> Conditions {
    Conditions {
        ambient: Temperature::from_celsius(celsius),
        humidity: humidity.map(Ratio::from_percent),
        air: Pressure::STANDARD_ATMOSPHERE,
        settings: Settings::TEST,
    }
}

/// What one chart allows on one side, in kPa gauge at sea level.
fn kpa(r: Refrigerant, chart: &str, side: Side, day: &Conditions) -> Option<(f64, f64)> {
    let window = charts_for(r).pressure(side, day);
    let band = window.bands.iter().find(|band| band.chart.id == chart)?;
    Some((band.range.low.kpa(), band.range.high.kpa()))
}

fn close(got: Option<(f64, f64)>, low: f64, high: f64) {
    let (a, b) = got.unwrap_or_else(|| panic!("no band where {low} to {high} is printed"));
    // kPa by way of psi or bar: rounding
    assert!(
        abs_diff_eq!(a, low, epsilon = 1e-9) && abs_diff_eq!(b, high, epsilon = 1e-9),
        "{a} to {b} instead of {low} to {high}"
    );
}

/// Every row of the makers' tables that the crate uses, read back through the set of charts as it is printed.
#[test]
fn printed_rows_come_back_as_printed() {
    let table = Table::read("windows/windows-published.csv");
    let at = |name: &str| table.column(name);
    let ids = [
        ("usarmy-tm5-3805-291", "loader-tm5"),
        ("nissan-gtr-2010", "car-2010-a"),
        ("gm-trucks-2003-04", "truck-2003"),
        ("saturn-l200-2003", "car-2003"),
        ("toyota-camry-1991-text", "car-1991"),
    ];
    let mut compared = 0;
    for row in &table.rows {
        let Some((_, chart)) = ids.iter().find(|(printed, _)| *printed == row[at("chart_id")]) else { continue };
        let unit = |text: &str| match row[at("unit")].as_str() {
            "psi" => GaugePressure::from_psi(text.parse().unwrap()).kpa(),
            "kPa" => text.parse().unwrap(),
            other => panic!("{other}"),
        };
        // the kPa rows of the army's table are the other column of the same print, rounded apart
        if *chart == "loader-tm5" && row[at("unit")] == "kPa" {
            continue;
        }
        // an interval stands for its middle here; a humidity class likewise
        let middle = |text: &str| match text.split_once('-') {
            Some((a, b)) => 0.5 * (a.parse::<f64>().unwrap() + b.parse::<f64>().unwrap()),
            None => text.parse().unwrap(),
        };
        let ambient = middle(&row[at("ambient")]);
        let celsius = if row[at("ambient_unit")] == "F" { (ambient - 32.0) / 1.8 } else { ambient };
        let rh = row[at("rh_note")].trim_end_matches('%').trim().to_owned();
        let humidity = match rh.as_bytes() {
            [b'-'] => None,
            [b'<', ..] => Some(rh[1..].parse::<f64>().unwrap() - 5.0),
            [b'>', ..] => Some(rh[1..].parse::<f64>().unwrap() + 5.0),
            _ => Some(middle(&rh)),
        };
        let r: Refrigerant = row[at("refrigerant")].parse().unwrap();
        let day = day(celsius, humidity);
        close(kpa(r, chart, Side::Low, &day), unit(&row[at("low_min")]), unit(&row[at("low_max")]));
        close(kpa(r, chart, Side::High, &day), unit(&row[at("high_min")]), unit(&row[at("high_max")]));
        compared += 1;
    }
    assert_eq!(compared, 5 + 4 + 10 + 3 + 2, "rows of the five charts");
}

#[test]
fn between_printed_temperatures_the_limits_are_interpolated() {
    // 90 °F: 15-30 psi, 100 °F: 15-30 and 190-270 psi; halfway the high side stands halfway
    let halfway = day((95.0 - 32.0) / 1.8, None);
    let psi = |x: f64| GaugePressure::from_psi(x).kpa();
    close(kpa(Refrigerant::R134a, "loader-tm5", Side::High, &halfway), psi(180.0), psi(255.0));
    // between the intervals 19-24 °C and 25-29 °C of the trucks, at 40-60 % humidity
    let got = kpa(Refrigerant::R134a, "truck-2003", Side::Low, &day(24.5, Some(50.0)));
    close(got, 0.5 * (179.0 + 236.0), 0.5 * (317.0 + 342.0));
}

#[test]
fn nothing_is_said_beyond_the_print() {
    for (celsius, chart) in [(20.9, "loader-tm5"), (43.5, "loader-tm5"), (24.9, "car-2010-a"), (40.1, "car-2010-a")] {
        assert!(kpa(Refrigerant::R134a, chart, Side::High, &day(celsius, None)).is_none(), "{chart} at {celsius} °C");
    }
    assert_eq!(charts_for(Refrigerant::R134a).pressure(Side::Low, &day(5.0, None)).range(), None);
    assert_eq!(charts_for(Refrigerant::R134a).pressure(Side::Low, &day(f64::NAN, None)).range(), None);
    assert_eq!(charts_for(Refrigerant::R744).pressure(Side::High, &day(30.0, None)).range(), None);
}

#[test]
fn humidity_picks_its_class_and_a_missing_one_shows_all() {
    let of = |humidity| kpa(Refrigerant::R134a, "truck-2003", Side::High, &day(27.0, humidity));
    close(of(Some(20.0)), 1240.0, 1640.0);
    close(of(Some(50.0)), 1290.0, 1680.0);
    close(of(Some(80.0)), 1340.0, 1760.0);
    close(of(None), 1240.0, 1760.0);
    // a chart printed for 50-70 % stays visible on a dry day, marked
    let window = charts_for(Refrigerant::R134a).pressure(Side::High, &day(30.0, Some(20.0)));
    let band = window.bands.iter().find(|band| band.chart.id == "car-2010-a").unwrap();
    assert!(!band.humidity_fits);
}

#[test]
fn altitude_moves_gauges_and_not_absolute_pressures() {
    let high_up = Conditions { air: Pressure::from_kpa(80.0), ..day(30.0, None) };
    let sea = kpa(Refrigerant::R134a, "car-2010-a", Side::Low, &day(30.0, None)).unwrap();
    let up = kpa(Refrigerant::R134a, "car-2010-a", Side::Low, &high_up).unwrap();
    // rounding
    assert!(
        abs_diff_eq!(up.0 - sea.0, 21.325, epsilon = 1e-9),
        "the gauge reads {} instead of {} + 21.325 kPa",
        up.0,
        sea.0
    );
}

#[test]
fn derived_bands_stand_at_equal_saturation_temperature_and_say_so() {
    let window = charts_for(Refrigerant::R1234yf).pressure(Side::High, &day(35.0, None));
    let band = window.bands.iter().find(|band| band.chart.id == "car-2010-a").unwrap();
    assert_eq!(band.basis, Basis::Derived(Refrigerant::R134a));
    for (printed, carried) in [(1500.0, band.range.low), (1820.0, band.range.high)] {
        let air = Pressure::STANDARD_ATMOSPHERE;
        let t134a = Refrigerant::R134a.saturation_temperature(GaugePressure::from_kpa(printed).absolute(air)).unwrap();
        let t1234yf = Refrigerant::R1234yf.saturation_temperature(carried.absolute(air)).unwrap();
        // K, there and back along two lines
        assert!(abs_diff_eq!(t134a.kelvin(), t1234yf.kelvin(), epsilon = 1e-9), "{printed} kPa");
    }
    // its own printed row is not derived
    let own = charts_for(Refrigerant::R1234yf).pressure(Side::Low, &day(25.0, Some(60.0)));
    let band = own.bands.iter().find(|band| band.chart.id == "yf-a").unwrap();
    assert_eq!(band.basis, Basis::Printed);
    close(Some((band.range.low.kpa(), band.range.high.kpa())), 159.0, 194.0);
}

#[test]
fn what_nobody_vouches_for_is_shown_and_not_counted() {
    let window = charts_for(Refrigerant::R134a).pressure(Side::Low, &day(30.0, None));
    assert!(window.bands.iter().any(|band| band.chart.authority == Authority::Habit));
    assert!(window.vouched().all(|band| band.chart.authority != Authority::Habit));
    let counted = window.vouched().map(|band| band.range).reduce(|a, b| a.hull(&b));
    assert_eq!(window.range(), counted);
    assert!(window.vouched().count() < window.bands.len());
}

#[test]
fn charts_have_their_own_names_sources_and_ordered_limits() {
    let names: BTreeSet<_> = charts::ALL.iter().map(|chart| chart.id).collect();
    assert_eq!(names.len(), charts::ALL.len());
    for chart in charts::ALL {
        assert!(!chart.source.work.is_empty() && !chart.system.is_empty() && !chart.rows.is_empty(), "{}", chart.id);
        for row in chart.rows {
            assert!(row.air.low <= row.air.high, "{}", chart.id);
            for range in [row.low, row.high].into_iter().flatten() {
                assert!(range.low <= range.high, "{}: {range:?}", chart.id);
            }
            assert!(row.vent.is_none_or(|vent| vent.low <= vent.high), "{}", chart.id);
            assert!(row.low.is_some() || row.high.is_some() || row.vent.is_some(), "{}", chart.id);
        }
        let rising = chart.rows.windows(2).all(|pair| pair[0].air.low <= pair[1].air.low);
        let by_humidity = chart.rows.iter().any(|row| row.humidity.is_some());
        assert!(rising || by_humidity, "{}: rows by rising temperature", chart.id);
    }
}

/// The vent tables, through the set of charts as printed.
#[test]
fn vent_tables_come_back_as_printed() {
    let table = Table::read("windows/vent-temperature.csv");
    for row in &table.rows {
        let number = |name: &str| -> f64 { row[table.column(name)].parse().unwrap() };
        let humidity = 0.5 * (number("rh_min") + number("rh_max"));
        let window = charts_for(Refrigerant::R134a).vent(&day(number("inlet_c"), Some(humidity)));
        let band = window.bands.iter().find(|band| band.chart.id == "vent-2010-a").unwrap();
        // rounding
        assert!(abs_diff_eq!(band.range.low.celsius(), number("vent_min_c"), epsilon = 1e-9), "{row:?}");
        assert!(abs_diff_eq!(band.range.high.celsius(), number("vent_max_c"), epsilon = 1e-9), "{row:?}");
    }
    assert_eq!(table.rows.len(), 6);
}

/// Makers' equalised pressures repeat the saturation line of R-134a.
#[test]
fn makers_equalised_pressures_are_saturation() {
    let (mut typical, mut least) = (0, 0);
    for printed in charts::EQUALISED_R134A {
        let saturation = Refrigerant::R134a.saturation_pressure(printed.ambient).unwrap();
        let off = (printed.pressure - saturation).bar();
        if printed.at_least {
            // "enough charge from here on": a floor, so saturation must reach it
            assert!(off < 0.0, "{:?}: floor above saturation", printed.ambient);
            least += 1;
        } else if printed.source.locator.contains("whole numbers") {
            // rounded to one bar, 5 and 8 of them upwards
            assert!(abs_diff_eq!(off, 0.0, epsilon = 1.0), "{:?}: {off} bar", printed.ambient);
            typical += 1;
        } else {
            // one decimal: half of it, and the 0.013 bar by which one atmosphere is not one bar; the maker rounds 3.87,
            // 4.70, 5.64, 6.69, 7.86, 9.15, 10.59 bar to 3.9 ... 7.8, 9.1, 10.5: down in the last three
            assert!((-0.1..=0.05).contains(&off), "{:?}: {off} bar", printed.ambient);
            typical += 1;
        }
    }
    assert_eq!((typical, least), (12, 3));
}

fn gauge(bar: f64) -> Measured<GaugePressure> {
    Measured::new(GaugePressure::from_bar(bar), PressureDifference::from_bar(0.1)).unwrap()
}

fn at(celsius: f64) -> Measured<Temperature> {
    Measured::new(Temperature::from_celsius(celsius), TemperatureDifference::from_kelvins(0.5)).unwrap()
}

#[test]
fn an_equalised_circuit_is_judged_with_its_instruments() {
    let air = Measured::exact(Pressure::STANDARD_ATMOSPHERE).unwrap();
    let judge = |low: f64, high: f64| {
        EqualisedCheck::of(Refrigerant::R134a, &gauge(low), &gauge(high), &air, &at(30.0)).unwrap()
    };
    // R-134a at 30 °C: 7.702 bar, 6.689 bar gauge
    let finding = judge(6.7, 6.7);
    assert_eq!((finding.verdict, finding.probability), (EqualisedVerdict::AtSaturation, None));
    assert_abs_diff_eq!(finding.expected.value().bar(), 6.689, epsilon = 1e-3); // its last digit
    // u² = (0.1²/2) + (0.5 K × 0.2197 bar/K)² → 0.1308 bar, of which 1.96 is noticeable
    // bar, by a slope of four digits: our choice
    assert_abs_diff_eq!(finding.noticeable.bar(), 1.96 * 0.1308, epsilon = 2e-3);
    assert_eq!(judge(7.2, 7.2).verdict, EqualisedVerdict::AboveSaturation);
    assert!(judge(7.2, 7.2).probability.unwrap() > 0.99);
    assert_eq!(judge(5.9, 5.9).verdict, EqualisedVerdict::LiquidGone);
    // the largest difference is 0.5 bar
    assert_eq!(judge(6.2, 7.2).verdict, EqualisedVerdict::NotEqualised);
    assert_eq!(judge(6.5, 6.9).verdict, EqualisedVerdict::AtSaturation);
}

#[test]
fn an_equalised_blend_lies_anywhere_between_its_lines() {
    let air = Measured::exact(Pressure::STANDARD_ATMOSPHERE).unwrap();
    let r = Refrigerant::R407C;
    let t = at(25.0);
    let (dew, bubble) = (r.dew_pressure(t.value()).unwrap(), r.bubble_pressure(t.value()).unwrap());
    assert!((bubble - dew).bar() > 1.0);
    for p in [dew, bubble] {
        let bar = p.gauge(air.value()).bar();
        assert_eq!(
            EqualisedCheck::of(r, &gauge(bar), &gauge(bar), &air, &t).unwrap().verdict,
            EqualisedVerdict::AtSaturation
        );
    }
}

#[test]
fn a_verdict_is_the_likeliest_place() {
    let window = Range::new(GaugePressure::from_bar(1.5), GaugePressure::from_bar(2.5));
    let of = |bar| Verdict::of(&gauge(bar), &window);
    assert_eq!(of(2.0).position, Position::Within);
    assert_eq!(of(1.3).position, Position::Below);
    assert_eq!(of(2.7).position, Position::Above);
    // 2 standard uncertainties above the end: Φ(2) = 0.977 25 (table of the normal distribution)
    assert_abs_diff_eq!(of(2.7).probability, 0.977_25, epsilon = 1e-5); // its last digit
    // on the end itself it is even, and the better-known side is kept
    assert_abs_diff_eq!(of(2.5).probability, 0.5, epsilon = 1e-9); // rounding
}

// --- a refrigerant of one's own

/// R-134a's own line under another name, asked from `low` to `high` °C.
fn own(low: f64, high: f64) -> OwnRefrigerant {
    let valid = Range::new(Temperature::from_celsius(low), Temperature::from_celsius(high));
    OwnRefrigerant::pure("my own", Wagner { valid, ..*Refrigerant::R134a.dew_line() })
}

fn warm_day() -> Entry {
    Entry::gauges("2.0 bar".parse().unwrap(), "13 bar".parse().unwrap())
        .enter(Measurand::SuctionLine, "8 °C")
        .and_then(|entry| entry.enter(Measurand::LiquidLine, "42 °C"))
        .and_then(|entry| entry.enter(Measurand::Vent, "12 °C"))
        .unwrap()
        .ambient("30 °C".parse().unwrap())
}

#[test]
fn charts_carried_over_to_ones_own_refrigerant_are_marked_so() {
    let r = Refrigerant::R134a;
    let own = own(-50.0, 95.0);
    let carried = ChartSet::with_charts_of(r, &own).unwrap();
    assert!(carried.charts().count() > 5 && !carried.has_printed());
    assert!(carried.charts().all(|(_, basis)| basis == Basis::Derived(r)));
    // the same line: the same pressures and the same verdicts
    let instruments = Instruments::digital(r);
    let theirs = Assessment::of(&warm_day().reading(r, Settings::TEST, &instruments).unwrap(), &charts_for(r)).unwrap();
    let ours = Assessment::of(&warm_day().reading(&own, Settings::TEST, &instruments).unwrap(), &carried).unwrap();
    for (ours, theirs) in [(&ours.low, &theirs.low), (&ours.high, &theirs.high)] {
        let (ours, theirs) = (ours.as_ref().unwrap(), theirs.as_ref().unwrap());
        let (a, b) = (ours.charted.range().unwrap(), theirs.charted.range().unwrap());
        // kPa, what 0.02 K are worth at the high side
        assert!(
            abs_diff_eq!(a.low.kpa(), b.low.kpa(), epsilon = 1.0)
                && abs_diff_eq!(a.high.kpa(), b.high.kpa(), epsilon = 1.0),
            "{a:?} {b:?}"
        );
        assert_eq!(ours.verdict.unwrap().position, theirs.verdict.unwrap().position);
    }
    for (ours, theirs) in [
        (ours.superheat, theirs.superheat),
        (ours.subcooling, theirs.subcooling),
        (ours.condensing_over_ambient, theirs.condensing_over_ambient),
    ] {
        let (ours, theirs) = (ours.unwrap(), theirs.unwrap());
        assert!(
            abs_diff_eq!(ours.value.value().kelvins(), theirs.value.value().kelvins(), epsilon = SHORT_LINE_K),
            "{ours:?} {theirs:?}"
        );
        assert_eq!((ours.usual, ours.verdict.unwrap().position), (theirs.usual, theirs.verdict.unwrap().position));
    }
    // a vent is another car's vent
    assert!(ours.vent.bands.is_empty() && ours.vent_verdict.is_none());
}

#[test]
fn without_charts_ones_own_refrigerant_has_values_and_no_verdicts() {
    let r = Refrigerant::R134a;
    let own = own(-50.0, 95.0);
    let bare = ChartSet::without_charts(&own);
    let ours =
        Assessment::of(&warm_day().reading(&own, Settings::TEST, &Instruments::analogue(r)).unwrap(), &bare).unwrap();
    let theirs =
        Assessment::of(&warm_day().reading(r, Settings::TEST, &Instruments::analogue(r)).unwrap(), &charts_for(r))
            .unwrap();
    let superheat = |of: &Assessment| of.superheat.unwrap().value.value().kelvins();
    assert_abs_diff_eq!(superheat(&ours), superheat(&theirs), epsilon = SHORT_LINE_K);
    assert!(ours.superheat.unwrap().verdict.is_none() && ours.high.unwrap().verdict.is_none());
    assert_eq!((bare.charts().count(), bare.covered(Side::Low)), (0, None));
    // the equalised check needs no charts
    let still = Entry::gauges("6.7 bar".parse().unwrap(), "6.7 bar".parse().unwrap()).ambient("30 °C".parse().unwrap());
    let still = still.equalised_reading(&own, &Instruments::analogue(r)).unwrap();
    assert_eq!(Assessment::of(&still, &bare).unwrap().equalised.unwrap().verdict, EqualisedVerdict::AtSaturation);
    // and units are still asked about
    let slip = Entry::gauges("30 bar".parse().unwrap(), "185 bar".parse().unwrap());
    let instead = |question: &UnitQuestion| match question {
        UnitQuestion::OtherUnit { input: QuestionedInput::Measurand(_), instead, .. } => instead.ends_with(" psi"),
        _ => false,
    };
    assert!(unit_questions(&slip, &bare, None).iter().any(instead));
}

#[test]
fn a_line_that_does_not_reach_a_chart_says_which() {
    let short = own(-10.0, 40.0);
    let error = ChartSet::with_charts_of(Refrigerant::R134a, &short).unwrap_err().to_string();
    assert!(
        error.starts_with("chart ") && error.contains(", carried over from R-134a to my own: saturation temperature"),
        "{error}"
    );
    // what to expect at all goes to the ends of the line, and to twice the critical pressure above it
    let bare = ChartSet::without_charts(&short);
    let to_gauge =
        |celsius: f64| short.dew_line().pressure(Temperature::from_celsius(celsius)).unwrap().kpa() - 101.325;
    let (low, high) = (bare.anything(Side::Low), bare.anything(Side::High));
    // rounding
    assert!(
        abs_diff_eq!(low.low.kpa(), to_gauge(-10.0), epsilon = 1e-9)
            && abs_diff_eq!(low.high.kpa(), to_gauge(20.0), epsilon = 1e-9),
        "{low:?}"
    );
    assert!(high.high.kpa() > 8000.0, "{high:?}");
    let unknown = short.clone().with_unknown_critical_point();
    let unknown = ChartSet::without_charts(&unknown);
    assert_abs_diff_eq!(unknown.anything(Side::High).high.kpa(), to_gauge(40.0), epsilon = 1e-9); // rounding
}
