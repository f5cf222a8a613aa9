//! Pictures: well formed, words neither cut nor on top of each other, over readings of every kind.

use std::collections::{BTreeMap, BTreeSet};

use approx::{abs_diff_eq, assert_abs_diff_eq};
use satline::circuit::{CircuitKind, Settings};
use satline::diagnosis::{CauseId, CauseProbability, Posterior, Prior, Reference, diagnose};
use satline::expected::{ChartSet, ExpectedWindow};
use satline::inspection::{
    DisplayUnits, Entry, Inspection, Instruments, Measurand, MeasurandKind, Reading, StatePoints, Undetermined,
};
use satline::plot::{self, Card, Picture};
use satline::quantity::{PressureUnit, TemperatureUnit, Time, Unit};
use satline::report::Language;
use satline::service::standing_vacuum::StandingVacuumTest;
use satline::{
    GaugePressure, Measured, Pressure, PressureDifference, Quantity, Refrigerant, Temperature, TemperatureDifference,
};

/// The English name of a cause.
fn name(cause: CauseId) -> &'static str {
    Language::English.cause(cause).name
}

#[allow(dead_code)] // its main is not called here
#[path = "../examples/cycle_diagram.rs"]
mod cycle_diagram;
#[allow(dead_code)]
#[path = "../examples/pressure_card.rs"]
mod pressure_card;

const METRIC: DisplayUnits = DisplayUnits::new(PressureUnit::Bar, TemperatureUnit::Celsius);
const IMPERIAL: DisplayUnits = DisplayUnits::new(PressureUnit::Psi, TemperatureUnit::Fahrenheit);

/// Width of a character in parts of the font size: Helvetica's metrics (Adobe font metrics, from memory), which most
/// sans-serif fonts of systems stay close to.
fn em(c: char) -> f64 {
    match c {
        'i' | 'j' | 'l' | '\'' => 0.222,
        ' ' | '.' | ',' | ':' | ';' | 'f' | 't' | 'I' | '/' | '!' | '|' | 'í' | '\u{202f}' => 0.278,
        'r' | '(' | ')' | '-' | '·' | '"' => 0.333,
        '°' => 0.4,
        'c' | 'k' | 's' | 'v' | 'x' | 'y' | 'z' | 'J' => 0.5,
        'a'..='h' | 'n'..='q' | 'u' | '0'..='9' | '–' | 'á' | 'é' | 'ó' | 'ú' | 'ñ' | '«' | '»' => 0.556,
        '±' | '−' | '+' | '=' | '<' | '>' | '×' => 0.584,
        'F' | 'T' | 'Z' | 'L' | '¿' => 0.611,
        'w' | 'A' | 'B' | 'E' | 'K' | 'P' | 'S' | 'V' | 'X' | 'Y' | 'C' | 'D' | 'H' | 'N' | 'R' | 'U' => 0.722,
        'm' => 0.833,
        '%' => 0.889,
        'W' => 0.944,
        _ => 0.8,
    }
}

struct Words {
    text: String,
    left: f64,
    right: f64,
    top: f64,
    bottom: f64,
}

/// Looks at a picture as a reader of the file would, and complains of everything that should not be.
pub fn check(picture: &Picture) {
    let name = picture.name();
    assert!(name.chars().all(|c| c.is_ascii_lowercase() || c.is_ascii_digit() || c == '-'), "{name}");
    assert!(picture.svg().starts_with("<svg "), "{name}");
    let document = roxmltree::Document::parse(picture.svg()).unwrap_or_else(|error| panic!("{name}: {error}"));
    let root = document.root_element();
    assert_eq!(root.attribute("role"), Some("img"));
    let canvas: Vec<f64> =
        root.attribute("viewBox").unwrap().split(' ').map(|number| number.parse().unwrap()).collect();
    let (width, height) = (canvas[2], canvas[3]);
    let ids: Vec<&str> = document.descendants().filter_map(|node| node.attribute("id")).collect();
    let distinct: BTreeSet<_> = ids.iter().collect();
    assert_eq!(ids.len(), distinct.len(), "{name}: an id twice");
    assert!(ids.iter().all(|id| id.starts_with(name)), "{name}: {ids:?}");
    let labelled = root.attribute("aria-labelledby").unwrap();
    assert!(labelled.split(' ').all(|id| ids.contains(&id)), "{labelled}");
    for (tag, said) in [("title", picture.title()), ("desc", picture.description())] {
        let node = root
            .children()
            .find(|node| node.has_tag_name(tag))
            .or_else(|| root.children().find(|node| node.tag_name().name() == tag));
        assert_eq!(node.unwrap().text(), Some(said));
        assert!(said.len() > 10, "{name}: {said:?}");
    }
    assert!(!picture.svg().contains("NaN") && !picture.svg().contains("inf"), "{name}: a number that is none");

    for node in document.descendants().filter(|node| node.is_element()) {
        for class in node.attribute("class").unwrap_or_default().split(' ') {
            assert!(class.is_empty() || class.starts_with("sl-"), "{name}: class {class}");
        }
        for (key, value) in node.attributes().map(|a| (a.name(), a.value())) {
            if let ("x" | "y" | "x1" | "x2" | "y1" | "y2" | "cx" | "cy", Ok(number)) = (key, value.parse::<f64>()) {
                let end = if key.contains('x') { width } else { height };
                assert!((-0.5..=end + 0.5).contains(&number), "{name}: {key} = {value} leaves the canvas");
            }
        }
    }
    if let Some(fault) = unreadable(&document, width, height) {
        panic!("{name}: {fault}\n{}", picture.description());
    }
}

/// The first words that leave the canvas or stand on others.
fn unreadable(document: &roxmltree::Document, width: f64, height: f64) -> Option<String> {
    let mut all: Vec<Words> = Vec::new();
    for node in document.descendants().filter(|node| node.tag_name().name() == "text") {
        let words = Words::of(&node);
        let Words { text, left, right, top, bottom } = &words;
        if *left < 0.0 || *right > width || *top < 0.0 || *bottom > height {
            return Some(format!("{text:?} is cut: {left} to {right} of {width}, {top} to {bottom} of {height}"));
        }
        if let Some(other) = all
            .iter()
            .find(|other| *left < other.right && other.left < *right && *top < other.bottom && other.top < *bottom)
        {
            return Some(format!("{text:?} on top of {:?}", other.text));
        }
        all.push(words);
    }
    None
}

impl Words {
    fn of(node: &roxmltree::Node) -> Self {
        let number = |key: &str| node.attribute(key).unwrap().parse::<f64>().unwrap();
        let classes: BTreeSet<&str> = node.attribute("class").unwrap().split(' ').collect();
        let size = if classes.contains("sl-h") {
            14.0
        } else if classes.contains("sl-small") {
            11.0
        } else {
            12.5
        };
        let text = node.text().unwrap_or_default().to_owned();
        let bold = if classes.contains("sl-h") { 1.06 } else { 1.0 };
        let wide: f64 = text.chars().map(em).sum::<f64>() * size * bold;
        let back = if classes.contains("sl-end") {
            wide
        } else if classes.contains("sl-mid") {
            0.5 * wide
        } else {
            0.0
        };
        let left = number("x") - back;
        let (top, bottom) = (number("y") - 0.75 * size, number("y") + 0.21 * size);
        Self { text, left, right: left + wide, top, bottom }
    }
}

#[test]
fn the_check_sees_words_cut_and_words_on_words() {
    let picture = plot::saturation(&running(R, &warm_day()), &METRIC).unwrap();
    let moved = |from: &str, to: &str| {
        assert_eq!(picture.svg().matches(from).count(), 1, "{from}");
        let svg = picture.svg().replace(from, to);
        let document = roxmltree::Document::parse(&svg).unwrap();
        unreadable(&document, 440.0, 700.0)
    };
    assert_eq!(moved("temperature, °C<", "temperature, °C<"), None);
    assert!(
        moved(
            ">temperature, °C<",
            ">temperature of whatever it was that somebody measured somewhere on the lines of the car, °C<"
        )
        .is_some()
    );
    let place = picture.svg().split(">suction line<").next().unwrap().rsplit("<text").next().unwrap().to_owned();
    let beside = picture.svg().split(">low side<").next().unwrap().rsplit("<text").next().unwrap().to_owned();
    let fault = moved(&format!("{place}>suction line<"), &format!("{beside}>suction line<"));
    assert!(fault.is_some_and(|fault| fault.contains("on top of")));
}

/// The pictures that `draw` makes in every language, each of them readable; those in English.
fn readable(draw: impl Fn(Language) -> Vec<Picture>) -> Vec<Picture> {
    let drawn = |language: &Language| {
        let pictures = draw(*language);
        pictures.iter().for_each(check);
        pictures
    };
    let [english, others @ ..] = Language::ALL else { panic!("no language") };
    others.iter().map(drawn).for_each(drop);
    drawn(english)
}

/// Writes a picture to the folder named by `SATLINE_PICTURES`, for looking at it.
fn keep(picture: &Picture, suffix: &str) {
    if let Ok(folder) = std::env::var("SATLINE_PICTURES") {
        std::fs::create_dir_all(&folder).unwrap();
        std::fs::write(format!("{folder}/{}{suffix}.svg", picture.name()), picture.svg()).unwrap();
    }
}

/// Both gauges as typed.
fn gauges(low: &str, high: &str) -> Entry {
    Entry::gauges(low.parse().unwrap(), high.parse().unwrap())
}

/// `entry` with lines as typed.
fn with_lines(entry: Entry, lines: &[(Measurand, &str)]) -> Entry {
    lines.iter().try_fold(entry, |entry, (line, text)| entry.enter(*line, text)).unwrap()
}

fn running(r: Refrigerant, entry: &Entry) -> Reading {
    entry.reading(r, Settings::TEST, &Instruments::analogue(r)).unwrap()
}

fn equalised(r: Refrigerant, entry: &Entry) -> Reading {
    entry.equalised_reading(r, &Instruments::analogue(r)).unwrap()
}

/// Both gauges of an invented car on its day.
fn warm_gauges() -> Entry {
    gauges("2.1 bar", "13 bar").ambient("30 °C".parse().unwrap()).humidity("50 %".parse().unwrap())
}

/// An invented car.
fn warm_day() -> Entry {
    with_lines(warm_gauges(), &[(Measurand::SuctionLine, "12 °C"), (Measurand::LiquidLine, "44 °C")])
}

/// The same with a discharge line, read digitally.
fn warm_day_with_discharge() -> Reading {
    running(R, &warm_day()).with(Measurand::DischargeLine, measured(78.0, 1.0)).unwrap()
}

const R: Refrigerant = Refrigerant::R134a;

/// Numbers that look random and are the same every time.
struct Random(u64);

impl Random {
    fn share(&mut self) -> f64 {
        self.0 = self.0.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        (self.0 >> 33) as f64 / f64::from(1_u32 << 31)
    }

    fn between(&mut self, low: f64, high: f64) -> f64 {
        low + self.share() * (high - low)
    }

    fn one<T: Copy>(&mut self, of: &[T]) -> T {
        of[((self.share() * of.len() as f64) as usize).min(of.len() - 1)]
    }

    fn units(&mut self) -> DisplayUnits {
        DisplayUnits::new(self.one(PressureUnit::ALL), self.one(TemperatureUnit::ALL))
    }
}

/// A measured temperature, °C.
fn measured(celsius: f64, standard: f64) -> Measured<Temperature> {
    Measured::new(Temperature::from_celsius(celsius), TemperatureDifference::from_kelvins(standard)).unwrap()
}

/// A reading of any refrigerant with any of its lines, near saturation or far from it, at any altitude.
fn any_reading(random: &mut Random, lines: usize) -> Option<Reading> {
    let r = random.one(Refrigerant::ALL);
    let line = |bit: usize, t: f64, u: f64| (lines >> bit & 1 == 1).then(|| measured(t, u));
    let air = Pressure::from_kpa(random.between(55.0, 105.0));
    let evaporating = random.between(-45.0, 25.0);
    let low = r.dew_pressure(Temperature::from_celsius(evaporating)).ok()?;
    let critical = r.fluid().critical.value.pressure.kpa();
    let high = low.kpa() + random.share().powi(2) * (1.6 * critical - low.kpa()).max(10.0);
    let gauge =
        |p: f64, u: f64| Measured::new(Pressure::from_kpa(p).gauge(air), PressureDifference::from_kpa(u * p)).unwrap();
    let reading =
        Reading::running(r, Settings::TEST, None, Measured::new(air, PressureDifference::from_kpa(0.5)).unwrap())
            .and_then(|reading| reading.with(Measurand::LowSide, gauge(low.kpa(), random.between(0.0, 0.1))))
            .and_then(|reading| reading.with(Measurand::HighSide, gauge(high, random.between(0.0, 0.1))))
            .unwrap();
    let lines = [
        (Measurand::SuctionLine, line(0, evaporating + random.between(-15.0, 50.0), random.between(0.0, 2.0))),
        (Measurand::LiquidLine, line(1, random.between(-10.0, 90.0), random.between(0.0, 2.0))),
        (Measurand::DischargeLine, line(2, random.between(20.0, 160.0), 2.0)),
    ];
    let read = lines.into_iter().filter_map(|(line, t)| Some((line, t?)));
    Some(read.into_iter().fold(reading, |reading, (line, t)| reading.with(line, t).unwrap()))
}

#[test]
fn any_reading_makes_readable_pictures() {
    let mut random = Random(1);
    let (mut shown, mut kinds) = (0, BTreeSet::new());
    for case in 0..900 {
        let Some(reading) = any_reading(&mut random, case % 8) else { continue };
        let units = random.units();
        let told = format!("{reading:?} {units:?}");
        let round = |picture: &Picture| {
            let document = roxmltree::Document::parse(picture.svg()).unwrap();
            for number in
                document.descendants().filter(|node| node.has_tag_name((SVG, "text"))).filter_map(|n| n.text())
            {
                let plain = number.replace(',', ".");
                let decimals = plain.split_once('.').filter(|_| plain.replace('−', "-").parse::<f64>().is_ok());
                assert!(decimals.is_none_or(|(_, digits)| digits.len() <= 3), "{number} is not round: {told}");
            }
        };
        let cycle = StatePoints::of(&reading).unwrap_or_else(|e| panic!("{told}: {e}"));
        let pictures = readable(|language| {
            let words = language.pictures();
            let saturation = plot::saturation_in(&reading, &units, words).unwrap_or_else(|e| panic!("{told}: {e}"));
            let cycle = plot::pressure_enthalpy_in(&cycle, &units, words).unwrap_or_else(|e| panic!("{told}: {e}"));
            [&saturation, &cycle].into_iter().for_each(round);
            vec![saturation, cycle]
        });
        pictures.iter().for_each(|picture| keep(picture, &format!("-{case}")));
        shown += 1;
        let r = reading.refrigerant();
        let high = reading.high().unwrap().value().absolute(reading.air().value());
        kinds.insert((r.designation(), high > r.fluid().critical.value.pressure));
    }
    assert!(shown > 700 && kinds.len() > 24, "{shown} pictures of {} kinds", kinds.len());
}

#[test]
fn equalised_readings_show_the_ambient() {
    let reading = equalised(R, &gauges("88 psi", "90 psi").ambient("86 °F".parse().unwrap()));
    let drawn = |language: Language| vec![plot::saturation_in(&reading, &IMPERIAL, language.pictures()).unwrap()];
    let picture = &readable(drawn)[0];
    assert!(picture.description().contains("At rest; ambient 86.0 ± "), "{}", picture.description());
    let refused = StatePoints::of(&reading).unwrap_err();
    assert!(refused.to_string().starts_with("a reading with the compressor running is missing"), "{refused}");
}

#[test]
fn a_reading_on_the_saturation_line_says_what_it_shows() {
    let picture = plot::saturation(&running(R, &warm_day()), &METRIC).unwrap();
    check(&picture);
    keep(&picture, "-demo");
    for words in [
        "Low side 2.10 ± 0.20 bar: saturated at 1.7 ± 1.8 °C; suction line 12.0 ± 1.8 °C: superheat 10.3 ± 2.6 K.",
        "subcooling 8.5 ± 2.6 K",
        "with the air at 101.3 kPa",
    ] {
        assert!(picture.description().contains(words), "{}", picture.description());
    }
    let refused = plot::saturation(&running(R, &gauges("-101 kPa", "13 bar")), &METRIC).unwrap_err();
    assert!(refused.to_string().starts_with("low side: "), "{refused}");
}

#[test]
fn the_loop_is_where_the_equation_of_state_puts_it() {
    let cycle = StatePoints::of(&warm_day_with_discharge()).unwrap();
    let picture = plot::pressure_enthalpy(&cycle, &METRIC).unwrap();
    check(&picture);
    keep(&picture, "-demo");
    let suction = cycle.suction.unwrap();
    assert_abs_diff_eq!(suction.pressure().bar(), 2.1 + 1.01325, epsilon = 1e-9); // rounding
    let state = R.state(suction.pressure(), Temperature::from_celsius(12.0)).unwrap();
    // the same states: rounding
    assert_abs_diff_eq!(suction.enthalpy().kj_per_kg(), state.enthalpy().kj_per_kg(), epsilon = 1e-9);
    assert_abs_diff_eq!(
        cycle.lossless.unwrap().entropy().kj_per_kg_k(),
        suction.entropy().kj_per_kg_k(),
        epsilon = 1e-9
    );
    // kJ/kg, what the search for the state leaves
    assert_abs_diff_eq!(
        cycle.inlet.unwrap().enthalpy().kj_per_kg(),
        cycle.liquid.unwrap().enthalpy().kj_per_kg(),
        epsilon = 1e-6
    );
    // the marker of the suction line stands where both axes put it
    let document = roxmltree::Document::parse(picture.svg()).unwrap();
    let (x, y) = place_on_axes(&document, suction.enthalpy().kj_per_kg(), suction.pressure().bar().ln());
    let found = document.descendants().any(|node| {
        let near = |key: &str, at: f64| {
            node.attribute(key)
                .and_then(|text| text.parse::<f64>().ok())
                .is_some_and(|number| abs_diff_eq!(number, at, epsilon = 0.005)) // places have two decimals
        };
        // a square of 8.5 units round its place
        node.has_tag_name((SVG, "rect")) && near("x", x - 4.25) && near("y", y - 4.25)
    });
    assert!(found, "no marker at {x}, {y}");
}

const SVG: &str = "http://www.w3.org/2000/svg";

/// Where the axes of a picture put a pair of numbers, from the places of two numbers written on each.
fn place_on_axes(document: &roxmltree::Document, x: f64, ln_y: f64) -> (f64, f64) {
    let numbers = |class: &str, along: &str| -> Vec<(f64, f64)> {
        let texts = document.descendants().filter(|node| node.attribute("class") == Some(class));
        let pair = |node: roxmltree::Node| {
            Some((node.text()?.replace('−', "-").parse().ok()?, node.attribute(along)?.parse().ok()?))
        };
        texts.filter_map(pair).collect()
    };
    let line = |numbers: &[(f64, f64)], of: &dyn Fn(f64) -> f64, at: f64| {
        let ((a, from), (b, to)) = (numbers[0], numbers[numbers.len() - 1]);
        from + (at - of(a)) / (of(b) - of(a)) * (to - from)
    };
    let (xs, ys) = (numbers("sl-t sl-soft sl-mid", "x"), numbers("sl-t sl-soft sl-end", "y"));
    // numbers of the upright axis stand with their middle at their value
    (line(&xs, &|x| x, x), line(&ys, &f64::ln, ln_y) - 0.35 * 12.5)
}

#[test]
fn what_the_loop_does_not_tell_is_said() {
    let with = |lines: &[(Measurand, &str)]| StatePoints::of(&running(R, &with_lines(warm_gauges(), lines))).unwrap();
    let none = with(&[]);
    assert_eq!((none.suction, none.inlet), (Err(Undetermined::NotMeasured), Err(Undetermined::NotMeasured)));
    assert!(none.refrigerating_effect().is_none() && none.lossless_cop().is_none());
    let words = plot::pressure_enthalpy(&none, &METRIC).unwrap();
    assert!(words.description().contains("1 suction line: not measured. 2 discharge line: not measured."), "{words:?}");
    // colder than it boils: a temperature does not say how much is liquid
    let wet = with(&[(Measurand::SuctionLine, "1 °C"), (Measurand::LiquidLine, "60 °C")]);
    assert_eq!((wet.suction, wet.liquid), (Err(Undetermined::TwoPhase), Err(Undetermined::TwoPhase)));
    check(&plot::pressure_enthalpy(&wet, &METRIC).unwrap());
}

#[test]
fn figures_of_the_loop_carry_the_scatter_of_what_was_read() {
    let reading = warm_day_with_discharge();
    let cycle = StatePoints::of(&reading).unwrap();
    let mut random = Random(7);
    // a sum of twelve even numbers is nearly normal
    let mut normal = || (0..12).map(|_| random.share()).sum::<f64>() - 6.0;
    let mut shift = |t: Measured<Temperature>| {
        Measured::new(t.value() + t.standard_uncertainty() * normal(), t.standard_uncertainty()).unwrap()
    };
    let mut figures: Vec<[f64; 3]> = Vec::new();
    let mut gauges = Random(11);
    for _ in 0..2000 {
        let lines = [Measurand::SuctionLine, Measurand::LiquidLine, Measurand::DischargeLine]
            .map(|line| (line, shift(reading.temperature(line).unwrap())));
        let mut gauge = |p: Measured<GaugePressure>| {
            let normal = (0..12).map(|_| gauges.share()).sum::<f64>() - 6.0;
            Measured::new(p.value() + p.standard_uncertainty() * normal, p.standard_uncertainty()).unwrap()
        };
        let one = Reading::running(R, Settings::TEST, reading.ambient(), reading.air())
            .and_then(|one| one.with(Measurand::LowSide, gauge(reading.low().unwrap())))
            .and_then(|one| one.with(Measurand::HighSide, gauge(reading.high().unwrap())))
            .and_then(|one| lines.into_iter().try_fold(one, |one, (line, t)| one.with(line, t)));
        let loop_of = StatePoints::of(&one.unwrap()).unwrap();
        let (Some(effect), Some(work), Some(efficiency)) =
            (loop_of.refrigerating_effect(), loop_of.lossless_work(), loop_of.isentropic_efficiency())
        else {
            continue;
        };
        figures.push([effect.value().si(), work.value().si(), efficiency.value().si()]);
    }
    assert!(figures.len() > 1950, "{}", figures.len());
    let scatter = |i: usize| {
        let n = figures.len() as f64;
        let mean = figures.iter().map(|f| f[i]).sum::<f64>() / n;
        (figures.iter().map(|f| (f[i] - mean).powi(2)).sum::<f64>() / (n - 1.0)).sqrt()
    };
    let told = [
        cycle.refrigerating_effect().unwrap().standard_uncertainty().si(),
        cycle.lossless_work().unwrap().standard_uncertainty().si(),
        cycle.isentropic_efficiency().unwrap().standard_uncertainty().si(),
    ];
    for (i, told) in told.into_iter().enumerate() {
        let drawn = scatter(i);
        // the scatter of 2000 is itself known within 3 % at two standard deviations; the rest is curvature
        assert!(abs_diff_eq!(told / drawn, 1.0, epsilon = 0.08), "figure {i}: told {told}, drawn {drawn}");
    }
}

#[test]
fn healthy_cars_round_a_reading() {
    let charts = ChartSet::new(R).unwrap();
    let reading = running(R, &warm_day());
    let kinds = &CircuitKind::main(R)[..1];
    for (units, suffix) in [(METRIC, ""), (DisplayUnits::new(PressureUnit::Pascal, TemperatureUnit::Fahrenheit), "-pa")]
    {
        let drawn =
            readable(|language| plot::windows_in(&reading, kinds, &[], &charts, &units, language.pictures()).unwrap());
        let [low, high] = &drawn[..] else { panic!() };
        assert_eq!((low.name(), high.name()), ("windows-low", "windows-high"));
        for picture in [&low, &high] {
            keep(picture, suffix);
            assert!(picture.description().contains("Chart loader-tm5: "), "{}", picture.description());
            assert!(picture.svg().contains(">loader-tm5<"));
        }
    }
    let window = ExpectedWindow::for_kinds(kinds, &reading.conditions().unwrap()).unwrap();
    let low = &plot::windows(&reading, kinds, &[], &charts, &METRIC).unwrap()[0];
    let middle = format!("the middle one {:.2} bar", window.low_side.middle().bar());
    assert!(low.description().contains(&middle), "{middle}: {}", low.description());
    // one gauge, one picture of its side; without any there is nothing to stand on the line
    let empty = Reading::running(R, Settings::TEST, reading.ambient(), reading.air()).unwrap();
    let empty = empty.with_humidity(reading.humidity().unwrap()).unwrap();
    let part = empty.with(Measurand::HighSide, reading.high().unwrap()).unwrap();
    let high = plot::windows(&part, kinds, &[], &charts, &METRIC).unwrap();
    assert_eq!(high.iter().map(Picture::name).collect::<Vec<_>>(), ["windows-high"]);
    let line = plot::saturation(&part, &METRIC).unwrap();
    [&high[0], &line].into_iter().for_each(check);
    assert!(
        line.description().contains("High side") && !line.description().contains("Low side"),
        "{}",
        line.description()
    );
    let refused = plot::saturation(&empty, &METRIC).unwrap_err();
    assert!(refused.to_string().contains("read the low side, the high side or both"), "{refused}");
    let unknown = running(R, &gauges("2.1 bar", "13 bar"));
    let refused = plot::windows(&unknown, kinds, &[], &charts, &METRIC).unwrap_err();
    assert!(refused.to_string().contains("measure the air in the shade"), "{refused}");
}

#[test]
fn healthy_cars_on_the_hottest_day_and_far_from_them() {
    for (r, low, high, ambient) in [
        (R, "9 bar", "34 bar", "54.9 °C"),
        (R, "-0.9 bar", "0 bar", "5 °C"),
        (Refrigerant::R744, "30 bar", "95 bar", "35 °C"),
    ] {
        let reading = running(r, &gauges(low, high).ambient(ambient.parse().unwrap()));
        let kinds = &CircuitKind::main(r)[..1];
        let charts = ChartSet::new(r).unwrap();
        let drawn =
            |language: Language| plot::windows_in(&reading, kinds, &[], &charts, &METRIC, language.pictures()).unwrap();
        for picture in readable(drawn) {
            keep(&picture, &format!("-{}", ambient.replace(' ', "")));
        }
    }
}

/// How far numbers of a measurand scatter: `kelvins` for a temperature.
fn width(measurand: Measurand, kelvins: f64) -> f64 {
    if measurand.kind() == MeasurandKind::Temperature { kelvins } else { 1.0 }
}

/// A posterior to start from: of few circuits, whatever it says.
fn some_posterior() -> Posterior {
    let inspection = Inspection::of(running(R, &warm_gauges())).with_kinds(CircuitKind::main(R)[..1].to_vec()).unwrap();
    let reference = Reference::with_circuits(&inspection, 6).unwrap();
    diagnose(&inspection, &reference, &Prior::uniform()).unwrap()
}

/// What a diagnosis might say, whatever the numbers.
fn any_posterior(random: &mut Random, some: &Posterior) -> Posterior {
    let count = 1 + (random.share() * 9.0) as usize;
    let places: Vec<(usize, Measurand)> = Measurand::ALL
        .iter()
        .filter(|_| random.share() > 0.3)
        .flat_map(|&measurand| [(0, measurand), (1, measurand)])
        .collect();
    let places = &places[..places.len() - usize::from(random.share() > 0.5) * places.len() / 2];
    let read: Vec<f64> = places
        .iter()
        .map(|(_, measurand)| match measurand.kind() {
            MeasurandKind::Pressure => random.between(11.0, 16.5),
            MeasurandKind::Share => random.between(0.0, 1.0),
            _ => random.between(-40.0, 150.0),
        })
        .collect();
    let weights: Vec<f64> = (0..count).map(|_| random.share().powi(4) + 1e-9).collect();
    let total: f64 = weights.iter().sum();
    // results cannot be made outside the crate, but every field of one can be set
    let predicted = some.causes[0].predicted[0];
    let causes = weights.iter().map(|weight| {
        let mut one = some.causes[0].clone();
        (one.detectable_fraction, one.cause, one.probability) = (1.0, random.one(CauseId::ALL), weight / total);
        (one.size, one.observation_bayes_factor) = (None, 1.0);
        let values = places.iter().zip(&read).map(|(&(reading, measurand), &read)| {
            let mut value = predicted;
            (value.reading, value.measurand, value.read, value.bayes_factor) = (reading, measurand, read, 1.0);
            value.mean = read + random.between(-0.5, 0.5) * width(measurand, 30.0);
            value.standard_deviation = random.share().powi(3) * 0.3 * width(measurand, 67.0);
            value
        });
        one.predicted = values.collect();
        one
    });
    let mut posterior = some.clone();
    posterior.causes = causes.collect();
    posterior.outside_model = random.share() > 0.8;
    (posterior.next, posterior.circuits) = (Vec::new(), 999);
    posterior
}

#[test]
fn any_ranking_is_readable() {
    let mut random = Random(3);
    let some = some_posterior();
    for case in 0..300 {
        let posterior = any_posterior(&mut random, &some);
        let (air, units) = (Pressure::STANDARD_ATMOSPHERE, random.units());
        let drawn = |language: Language| {
            let name = |cause| language.cause(cause).name;
            vec![plot::ranking_in(&posterior, air, &units, name, language.pictures()).unwrap()]
        };
        keep(&readable(drawn)[0], &format!("-{case}"));
    }
    let mut none = some;
    none.causes = Vec::new();
    assert!(plot::ranking(&none, Pressure::STANDARD_ATMOSPHERE, &METRIC, name).is_err());
}

#[test]
fn causes_that_change_the_car_alike_stand_together() {
    let entry = gauges("1.2 bar", "9 bar").ambient("30 °C".parse().unwrap());
    let entry = with_lines(entry, &[(Measurand::SuctionLine, "22 °C"), (Measurand::LiquidLine, "37 °C")]);
    let reading = running(R, &entry);
    let inspection = Inspection::of(reading).with_kinds(CircuitKind::main(R)[..1].to_vec()).unwrap();
    let posterior = diagnose(&inspection, &Reference::of(&inspection).unwrap(), &Prior::uniform()).unwrap();
    let picture = plot::ranking(&posterior, reading.air().value(), &METRIC, name).unwrap();
    check(&picture);
    keep(&picture, "-demo");
    let twins = |one: &CauseProbability| -> Vec<&CauseProbability> {
        posterior.causes.iter().filter(|other| other.cause.cause().faults == one.cause.cause().faults).collect()
    };
    let alike = posterior.causes.iter().map(twins).find(|alike| alike.len() > 1).unwrap();
    let percent = 100.0 * alike.iter().map(|other| other.probability).sum::<f64>();
    let said =
        format!("{percent:.0} %: {}", alike.iter().map(|other| name(other.cause)).collect::<Vec<_>>().join("; or "));
    assert!(picture.description().contains(&said), "{said}\n{}", picture.description());
    assert!(picture.description().contains("Low side read 1.20 bar, such cars show"));
}

/// A hold test of twelve minutes in microns, steps of ten.
fn held(microns: impl Fn(f64) -> f64) -> StandingVacuumTest {
    let air = Measured::exact(Pressure::STANDARD_ATMOSPHERE).unwrap();
    let mut test = StandingVacuumTest::new(air, PressureDifference::from_microns(10.0)).unwrap();
    for minute in 0..13 {
        let read = (microns(f64::from(minute)) / 10.0).round() * 10.0;
        test.push(Time::from_minutes(f64::from(minute)), Pressure::from_microns(read), None).unwrap();
    }
    test
}

#[test]
fn hold_tests_of_every_kind() {
    let microns = DisplayUnits::new(PressureUnit::Micron, TemperatureUnit::Celsius);
    let leak = held(|t| 500.0 + 116.0 * t + 7.0 * (2.3 * t).sin());
    let picture = plot::hold(&leak, &leak.fit().unwrap(), &microns).unwrap();
    assert!(picture.description().contains("Fitted: a straight rise, as of a leak."), "{}", picture.description());
    assert!(picture.description().contains("Limit C (1000 micron after 5 to 10 min): fails"));
    let document = roxmltree::Document::parse(picture.svg()).unwrap();
    // thirteen readings and the one in the key
    let dots = document.descendants().filter(|node| node.has_tag_name((SVG, "circle"))).count();
    assert_eq!(dots, 14);
    let mut random = Random(5);
    for case in 0..120 {
        let (start, rate) = (random.between(50.0, 5000.0), 10f64.powf(random.between(-1.0, 3.5)));
        let tau = random.between(0.5, 30.0);
        let test = held(|t| match case % 4 {
            0 => start + rate * t,
            1 => start + 8.0 * rate * (1.0 - (-t / tau).exp()),
            2 => start + (random_like(t, start) * rate).abs(),
            _ => start + 5.0 * rate - 0.3 * rate * t.min(12.0),
        });
        let units = random.units();
        let fit = test.fit().unwrap();
        readable(|language| {
            let words = language.pictures();
            vec![plot::hold_in(&test, &fit, &units, words).unwrap_or_else(|e| panic!("{fit:?}: {e}"))]
        });
    }
    check(&picture);
    keep(&picture, "-leak");
    let moisture = held(|t| 500.0 + 2200.0 * (1.0 - (-t / 3.0).exp()));
    keep(&plot::hold(&moisture, &moisture.fit().unwrap(), &microns).unwrap(), "-moisture");
}

/// Something that jumps about with `t`.
fn random_like(t: f64, seed: f64) -> f64 {
    (t * 12.9898 + seed).sin() * (t * 78.233 + seed).cos()
}

#[test]
fn cards_of_every_refrigerant_in_every_unit() {
    for &r in Refrigerant::ALL {
        for &pressure in PressureUnit::ALL {
            for &temperature in TemperatureUnit::ALL {
                let air = Pressure::from_kpa(84.5);
                let card = Card::usual(r, air, DisplayUnits::new(pressure, temperature));
                let second = Card { second: Some(PressureUnit::Psi), ..card };
                let cards = [card, card.in_large_print(), second.between(card.from, card.to), second.in_large_print()];
                readable(|language| {
                    let drawn = |card: Card| card.picture_in(language.pictures());
                    let drawn = cards
                        .map(|card| drawn(card).unwrap_or_else(|e| panic!("{r} {pressure:?} {temperature:?}: {e}")));
                    drawn.to_vec()
                });
            }
        }
    }
}

#[test]
fn a_card_holds_the_saturation_line_and_refuses_what_it_cannot_hold() {
    let card = Card {
        from: Temperature::from_celsius(-40.0),
        to: Temperature::from_celsius(60.0),
        step: 5.0,
        ..Card::usual(Refrigerant::R407C, Pressure::from_kpa(90.0), METRIC)
    };
    for row in card.rows().unwrap() {
        let t = Temperature::from_celsius(row.temperature.replace('−', "-").parse().unwrap());
        for (cell, p) in [
            (&row.bubble, Refrigerant::R407C.bubble_pressure(t).unwrap()),
            (&row.dew, Refrigerant::R407C.dew_pressure(t).unwrap()),
        ] {
            let number: f64 = cell.replace('−', "-").parse().unwrap();
            // half the last printed digit
            assert!(abs_diff_eq!(number, p.bar() - 0.9, epsilon = 0.005 + 1e-9), "{row:?}");
        }
        assert_eq!(row.vacuum, Refrigerant::R407C.dew_pressure(t).unwrap().kpa() < 90.0);
    }
    let refused = |card: Card| card.rows().unwrap_err().to_string();
    assert!(refused(Card { step: 0.0, ..card }).contains("must be above zero"));
    assert!(refused(Card { step: f64::NAN, ..card }).contains("must be above zero"));
    assert!(refused(Card { step: 0.01, ..card }).contains("must be 60 or fewer"));
    assert!(refused(Card { to: Temperature::from_celsius(-50.0), ..card }).contains("must be one or more"));
    assert!(refused(Card { to: Temperature::from_celsius(95.0), ..card }).contains("critical"));
    assert!(refused(Card { air: Pressure::from_kpa(0.0), ..card }).contains("must be above zero"));
    let fullest = Card { from: Temperature::from_celsius(0.0), to: Temperature::from_celsius(59.0), step: 1.0, ..card };
    assert_eq!(fullest.rows().unwrap().len(), 60);
    check(&fullest.picture().unwrap());
}

/// A vacuum in psi is written as a service gauge shows it; the second column holds the same line, large print fewer rows of it.
#[test]
fn a_card_writes_a_vacuum_in_inches_of_mercury_and_a_second_unit() {
    let imperial = DisplayUnits::new(PressureUnit::Psi, TemperatureUnit::Fahrenheit);
    let card = Card { second: Some(PressureUnit::Bar), ..Card::usual(R, Pressure::STANDARD_ATMOSPHERE, imperial) };
    assert_eq!(card.heads(), ["°F", "psi", "bar"]);
    let mut vacua = 0;
    for row in card.rows().unwrap() {
        let t = Temperature::from_fahrenheit(row.temperature.replace('−', "-").parse().unwrap());
        let gauge = R.dew_pressure(t).unwrap().gauge(Pressure::STANDARD_ATMOSPHERE);
        let second: f64 = row.second.as_deref().unwrap().replace('−', "-").parse().unwrap();
        // half a printed digit
        assert!(abs_diff_eq!(second, gauge.bar(), epsilon = 0.005 + 1e-9), "{row:?}");
        let first = match row.dew.strip_prefix('(').and_then(|rest| rest.strip_suffix(')')) {
            // 1 inHg is 3.386 389 kPa at 0 °C (ISO 80000-4; from memory)
            Some(inches) => {
                vacua += 1;
                -inches.parse::<f64>().unwrap() * 3.386_389
            }
            None => row.dew.parse::<f64>().unwrap() * 6.894_757,
        };
        // half a printed digit of psi; an inch of mercury is less
        assert!(abs_diff_eq!(first, gauge.kpa(), epsilon = 0.05 * 6.894_757 + 1e-9), "{row:?}");
        assert_eq!(card.written(&row), [row.temperature.as_str(), row.dew.as_str(), row.second.as_deref().unwrap()]);
    }
    assert_eq!(vacua, 5, "−40 to −20 °F");
    assert!(card.place().unwrap().contains("in brackets in inHg"), "{}", card.place().unwrap());
    let large = card.in_large_print();
    assert_eq!((large.step, large.rows().unwrap().len()), (20.0, 11));
    let two_columns = Card { second: None, ..card }.in_large_print();
    assert_eq!((two_columns.step, two_columns.rows().unwrap().len()), (10.0, 21));
    let celsius = |low: f64, high: f64| {
        let card = Card::usual(R, Pressure::STANDARD_ATMOSPHERE, METRIC);
        card.between(Temperature::from_celsius(low), Temperature::from_celsius(high)).step
    };
    assert_eq!([celsius(0.0, 59.0), celsius(0.0, 60.0), celsius(-100.0, 20.0)], [1.0, 2.0, 5.0]);
}

/// Relative luminance and contrast: WCAG 2.2.
fn contrast(a: &str, b: &str) -> f64 {
    let luminance = |colour: &str| {
        let hex: String = match colour.len() {
            4 => colour[1..].chars().flat_map(|c| [c, c]).collect(),
            _ => colour[1..].to_owned(),
        };
        let part = |i: usize| {
            let c = f64::from(u8::from_str_radix(&hex[i..i + 2], 16).unwrap()) / 255.0;
            if c <= 0.04045 { c / 12.92 } else { ((c + 0.055) / 1.055).powf(2.4) }
        };
        0.2126 * part(0) + 0.7152 * part(2) + 0.0722 * part(4)
    };
    let (a, b) = (luminance(a), luminance(b));
    (a.max(b) + 0.05) / (a.min(b) + 0.05)
}

#[test]
fn everything_that_says_something_stands_out_in_light_and_dark() {
    let picture = plot::saturation(&running(R, &warm_day()), &METRIC).unwrap();
    let style = picture.svg().split("<style>").nth(1).unwrap().split("</style>").next().unwrap();
    let (light, dark) = style.split_once("@media screen and (prefers-color-scheme:dark){").unwrap();
    let mut colours: BTreeMap<(String, &str), String> = BTreeMap::new();
    for (text, scheme) in [(light, "light"), (dark.strip_suffix('}').unwrap(), "dark")] {
        // the dark scheme changes the light one
        if scheme == "dark" {
            let same: Vec<_> =
                colours.iter().map(|((key, _), colour)| ((key.clone(), "dark"), colour.clone())).collect();
            colours.extend(same);
        }
        for rule in text.split('}').filter(|rule| rule.contains('{')) {
            let (classes, body) = rule.split_once('{').unwrap();
            for (property, value) in body.split(';').filter_map(|declaration| declaration.split_once(':')) {
                if value.starts_with('#') {
                    for class in classes.split(',') {
                        assert!(class.starts_with(".sl-"), "{class}");
                        colours.insert((format!("{class} {property}"), scheme), value.to_owned());
                    }
                }
            }
        }
    }
    for scheme in ["light", "dark"] {
        let of = |key: &str| colours.get(&(key.to_owned(), scheme)).unwrap_or_else(|| panic!("{key} {scheme}"));
        let page = of(".sl-page fill");
        for text in [".sl-t fill", ".sl-soft fill", ".sl-small fill"] {
            for ground in [".sl-page fill", ".sl-row fill"] {
                let ratio = contrast(of(text), of(ground));
                assert!(ratio >= 4.5, "{scheme} {text} on {ground}: {ratio:.2}");
            }
        }
        for drawn in [
            ".sl-axis stroke",
            ".sl-lead stroke",
            ".sl-main stroke",
            ".sl-dash stroke",
            ".sl-thin stroke",
            ".sl-dots stroke",
            ".sl-level stroke",
            ".sl-low stroke",
            ".sl-high stroke",
            ".sl-chart stroke",
            ".sl-chartmark stroke",
            ".sl-ink stroke",
            ".sl-frame stroke",
            ".sl-band stroke",
            ".sl-core fill",
            ".sl-bar fill",
        ] {
            let ratio = contrast(of(drawn), page);
            assert!(ratio >= 3.0, "{scheme} {drawn}: {ratio:.2}");
        }
        assert_eq!(of(".sl-halo stroke"), page);
        assert_eq!(of(".sl-mark fill"), page);
    }
}

#[test]
fn pictures_share_one_style_and_no_id() {
    let reading = running(R, &warm_day());
    let test = held(|t| 500.0 + 100.0 * t);
    let mut pictures = vec![
        plot::saturation(&reading, &METRIC).unwrap(),
        plot::pressure_enthalpy(&StatePoints::of(&reading).unwrap(), &METRIC).unwrap(),
        plot::ranking(&any_posterior(&mut Random(2), &some_posterior()), reading.air().value(), &METRIC, name).unwrap(),
        plot::hold(&test, &test.fit().unwrap(), &METRIC).unwrap(),
        Card::usual(R, reading.air().value(), METRIC).picture().unwrap(),
        Card::usual(Refrigerant::R744, reading.air().value(), METRIC).picture().unwrap(),
    ];
    let charts = ChartSet::new(R).unwrap();
    pictures.extend(plot::windows(&reading, &CircuitKind::main(R)[..1], &[], &charts, &METRIC).unwrap());
    let style = |picture: &Picture| {
        let svg = picture.svg().to_owned();
        svg[svg.find("<style>").unwrap()..svg.find("</style>").unwrap()].to_owned()
    };
    assert!(pictures.iter().all(|picture| style(picture) == style(&pictures[0])));
    let mut ids = BTreeSet::new();
    for picture in &pictures {
        for id in picture.svg().split("id=\"").skip(1).map(|rest| rest.split('"').next().unwrap()) {
            assert!(ids.insert(id.to_owned()), "{id} stands in two pictures");
        }
    }
}

mod examples {
    use clap::Parser;
    use satline::report::Language;

    use super::{cycle_diagram, pressure_card};
    use crate::support::same_as_file;

    fn card(words: &[&str]) -> Result<pressure_card::Args, String> {
        pressure_card::Args::try_parse_from(std::iter::once(&"pressure_card").chain(words)).map_err(|e| e.to_string())
    }

    fn card_page(words: &[&str]) -> Result<String, String> {
        pressure_card::page(&card(words)?).map_err(|e| e.to_string())
    }

    fn cycle(words: &[&str]) -> Result<cycle_diagram::Answer, String> {
        let args = cycle_diagram::Args::try_parse_from(std::iter::once(&"cycle_diagram").chain(words));
        cycle_diagram::answer(&args.map_err(|e| e.to_string())?).map_err(|e| e.to_string())
    }

    #[test]
    fn pages_and_pictures_are_what_the_examples_make() {
        same_as_file("examples/pressure_card.txt", &card_page(&[]).unwrap());
        let picture = card(&[]).unwrap().card().unwrap().picture().unwrap();
        super::check(&picture);
        same_as_file("examples/pressure_card.svg", picture.svg());
        same_as_file("examples/pressure_card.es.txt", &card_page(&["--language", "es"]).unwrap());
        let spanish = card(&[]).unwrap().card().unwrap().picture_in(Language::Spanish.pictures()).unwrap();
        super::check(&spanish);
        same_as_file("examples/pressure_card.es.svg", spanish.svg());
        let answer = cycle(&[]).unwrap();
        super::check(&answer.picture);
        same_as_file("examples/cycle_diagram.txt", &answer.page);
        same_as_file("examples/cycle_diagram.svg", answer.picture.svg());
    }

    #[test]
    fn no_line_is_wider_than_eighty_columns() {
        let pages = [
            card_page(&[]).unwrap(),
            card_page(&["--refrigerant", "R-407C", "--pressure-unit", "Pa", "--altitude", "2000 m"]).unwrap(),
            card_page(&["--refrigerant", "R-407C", "--pressure-unit", "Pa", "--language", "es"]).unwrap(),
            cycle(&[]).unwrap().page,
            cycle(&["--refrigerant", "R-744", "--low", "35 bar", "--high", "98 bar"]).unwrap().page,
            cycle(&[
                "--refrigerant",
                "R-134a",
                "--low",
                "30 psi",
                "--high",
                "200 psi",
                "--suction-line",
                "60 °F",
                "--liquid-line",
                "110 °F",
                "--discharge-line",
                "145 °F",
            ])
            .unwrap()
            .page,
        ];
        for line in pages.iter().flat_map(|page| page.lines()) {
            assert!(line.chars().count() <= 80, "{line}");
        }
        assert!(pages[5].contains("Above 100 % is not possible"), "{}", pages[5]);
        assert!(
            pages[4].contains("not measured") && pages[4].contains("not told: suction or liquid line not known"),
            "{}",
            pages[4]
        );
    }

    #[test]
    fn bad_input_gets_a_clear_answer() {
        let refused = |words: &[&str]| card_page(words).unwrap_err();
        assert!(refused(&["--refrigerant", "R-135"]).contains("nearest: "));
        assert!(refused(&["--pressure-unit", "stone"]).contains("is not a unit of it; use one of kPa, bar, psi"));
        assert!(refused(&["--temperature-unit", "bar"]).contains("use one of °C, °F, K"));
        assert!(refused(&["--from", "20"]).contains("has no unit"));
        assert!(refused(&["--step", "-1"]).contains("must be above zero"));
        assert!(refused(&["--step", "0.1"]).contains("rows of the table"));
        assert!(refused(&["--to", "400 °F"]).contains("critical temperature"));
        assert!(refused(&["--from", "50 °F", "--to", "40 °F"]).contains("must be one or more"));
        assert!(refused(&["--altitude", "90 km"]).contains("where cars are serviced"));
        assert!(refused(&["--step", "-1", "--language", "es"]).contains("tiene que ser mayor que cero"));
        assert!(refused(&["--altitude", "100 m", "--barometer", "990 hPa"]).contains("cannot be used with"));
        let refused = |words: &[&str]| cycle(words).unwrap_err();
        assert!(refused(&["--low", "2 bar", "--high", "13 bar"]).starts_with("--refrigerant is missing"));
        assert!(refused(&["--refrigerant", "R-134a", "--low", "2 bar"]).contains("--high"));
        assert!(
            refused(&["--refrigerant", "R-134a", "--low", "9 bar", "--high", "2 bar"])
                .contains("hoses are not swapped")
        );
        assert!(
            refused(&["--refrigerant", "R-134a", "--low", "-3 bar", "--high", "9 bar"]).contains("not above vacuum")
        );
        assert!(refused(&["--suction-line", "12 °C"]).contains("--low"));
    }
}
