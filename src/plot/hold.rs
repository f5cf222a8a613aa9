//! A hold test: the readings, the rise fitted to them, and the published limits.

use super::axis::{Axis, plain};
use super::drawing::{Drawing, Sample, Shape, WIDTH};
use super::frame::Frame;
use super::letters::Letters;
use super::svg::Point;
use super::words::sentence;
use super::{Picture, Units};
use crate::quantity::{Time, Unit};
use crate::service::acceptance::{GATES, Gate, Limit, Outcome};
use crate::service::standing_vacuum::{Finding, HoldFit, HoldTest};
use crate::{Error, Pressure, Quantity, Sourced};

/// Points of the fitted curve.
const STEPS: u32 = 60;

/// A limit so much above the readings would squeeze them; it is named instead.
const IN_SIGHT: f64 = 4.0;

/// The readings of a hold test over time, the curve of the fit with its 95 % interval, and the limits of
/// [`GATES`] with how the test stands to each.
///
/// Pressures are absolute. A limit far above the readings, or later than they go, is named below and not drawn.
///
/// # Errors
/// Those of [`HoldFit::pressure_after`] and [`Gate::judge`], which do not occur for a fit of this test.
pub fn hold(test: &HoldTest, fit: &HoldFit, units: &Units) -> Result<Picture, Error> {
    let title = "Hold test: how the vacuum rises".to_owned();
    let unit = units.pressure;
    let minutes = fit.length.minutes();
    let mut drawing = Drawing::new("hold", WIDTH);
    drawing.sentence(Letters::Head, &title);
    drawing.skip(2.0);

    // the curve with both edges of its interval
    let mut curve = Vec::new();
    for i in 0..=STEPS {
        // the curve is not asked at the first reading itself
        let t = minutes * f64::from(i.max(1)) / f64::from(STEPS) * if i == 0 { 1e-6 } else { 1.0 };
        let p = fit.pressure_after(Time::from_minutes(t))?;
        let number = |p: Pressure| p.value_in(unit);
        curve.push((t, p.value.map(number), p.low.map(number), p.high.map(number)));
    }
    let readings: Vec<(f64, f64)> = test.readings().map(|(t, p)| (t.minutes(), p.value_in(unit))).collect();
    let numbers = readings.iter().map(|(_, p)| *p).chain(curve.iter().flat_map(|c| [c.1, c.2, c.3]).flatten());
    let (low, high) = numbers.fold((f64::INFINITY, f64::NEG_INFINITY), |(a, b), x| (a.min(x), b.max(x)));
    let (read_low, read_high) =
        readings.iter().fold((f64::INFINITY, f64::NEG_INFINITY), |(a, b), (_, p)| (a.min(*p), b.max(*p)));
    // a wide interval must not squeeze the readings either
    let span = (read_high - read_low).max(0.02 * read_high.abs());
    let (low, high) = (low.max(read_low - 2.0 * span), high.min(read_high + 2.0 * span));
    let sight = read_low + IN_SIGHT * (read_high - read_low).max(0.25 * read_high.abs());
    let gates = judged(fit, units)?;
    let top = gates.iter().map(|gate| gate.level).filter(|level| *level <= sight).fold(high, f64::max);
    let room = 0.08 * (top - low).max(span);
    let floor = if low > 0.0 && low < 0.5 * top { 0.0 } else { low - room };
    let x = Axis::linear(0.0, minutes, 6);
    let y = Axis::linear(floor, top + room, 6);
    let y_title = format!("absolute pressure, {}", unit.symbol());
    let frame = Frame::draw(&mut drawing, (x, "time since the first reading, min"), (y, &y_title), 260.0);

    let edge = |low: bool| {
        curve.iter().filter_map(move |c| Some(((c.0), if low { c.2? } else { c.3? }))).collect::<Vec<(f64, f64)>>()
    };
    let (lower, upper) = (edge(true), edge(false));
    frame.curve(&mut drawing, "sl-dots", &lower);
    frame.curve(&mut drawing, "sl-dots", &upper);
    let middle: Vec<_> = curve.iter().filter_map(|c| Some((c.0, c.1?))).collect();
    frame.curve(&mut drawing, "sl-low", &middle);
    let seen = |gate: &&Judged| (frame.y().low()..=frame.y().high()).contains(&gate.level);
    for gate in gates.iter().filter(seen) {
        let to = gate.to.min(frame.x().high());
        frame.curve(&mut drawing, "sl-dash", &[(0.0, gate.level), (to, gate.level)]);
        let end = frame.at(to, gate.level);
        drawing.line("sl-main", Point { x: end.x, y: end.y - 4.0 }, Point { x: end.x, y: end.y + 4.0 });
    }
    for (t, p) in &readings {
        drawing.marker(Shape::Dot, "sl-ink", frame.at_edge(*t, *p));
    }
    for gate in gates.iter().filter(seen) {
        let to = gate.to.min(frame.x().high());
        let places = [0.5, 0.3, 0.7, 0.9, 0.1].map(|share| frame.at_edge(share * to, gate.level));
        let label = format!("limit {}", gate.letter);
        if !drawing.label_on(&places, Letters::Plain, &label, frame.area()) {
            drawing.label(places[0], Letters::Plain, &[&label], frame.area());
        }
    }

    let finding = words(fit.finding);
    drawing.key(Sample::Marker(Shape::Dot, "sl-ink"), &format!("{} readings", fit.readings));
    drawing.key(Sample::Line("sl-low"), &format!("fitted: {finding}"));
    drawing.key(Sample::Line("sl-dots"), "95 % interval of the curve");
    let mut told = vec![
        format!(
            "Absolute pressure over {} minutes: {} readings from {} to {}.",
            plain(minutes, 1),
            fit.readings,
            number(fit.first, units),
            number(fit.last, units)
        ),
        sentence(&format!("fitted: {finding}")),
    ];
    for gate in &gates {
        let drawn = if seen(&gate) { "" } else { ", beyond the picture" };
        let line = format!("limit {} ({}): {}{drawn}", gate.letter, gate.name, gate.words);
        drawing.key(if seen(&gate) { Sample::Line("sl-dash") } else { Sample::None }, &line);
        told.push(sentence(&line));
    }
    drawing.skip(3.0);
    drawing.sentence(
        Letters::Small,
        "Limits of a rise count from the first reading and end at the longest time they are printed for. A pass is no proof \
         that nothing leaks.",
    );
    let sources: Vec<String> = gates.iter().map(|gate| format!("{}: {}", gate.letter, gate.source)).collect();
    drawing.sentence(Letters::Small, &format!("Limits. {}.", sources.join("; ")));
    Ok(drawing.finish(title, told.join(" ")))
}

/// A published limit beside the test.
struct Judged {
    letter: char,
    name: &'static str,
    /// In the unit of the axis.
    level: f64,
    /// Until when it holds, minutes.
    to: f64,
    words: &'static str,
    source: crate::Source,
}

fn judged(fit: &HoldFit, units: &Units) -> Result<Vec<Judged>, Error> {
    let start = fit.straight.start.value.unwrap_or(fit.first);
    let one = |(letter, gate): (char, &Sourced<Gate>)| {
        let level = match gate.value.limit {
            Limit::Rise(most) => Pressure::from_pa(start.pa() + most.pa()),
            Limit::StaysBelow(level) => level,
        };
        let words = match Gate::judge(gate, fit)?.outcome {
            Outcome::Passes => "passes",
            Outcome::Fails => "fails",
            Outcome::Open => "the readings leave it open",
            Outcome::TooShort => "the test is too short for it",
        };
        Ok(Judged {
            letter,
            name: gate.value.name,
            level: level.value_in(units.pressure),
            to: gate.value.over.high.minutes(),
            words,
            source: gate.source,
        })
    };
    ('A'..='Z').zip(&GATES).map(one).collect()
}

/// A vacuum in the unit of the axis, with the digits it is worth.
fn number(p: Pressure, units: &Units) -> String {
    let value = p.value_in(units.pressure);
    // three digits
    let decimals = if value == 0.0 { 0 } else { (2.0 - value.abs().log10().floor()).clamp(0.0, 9.0) as usize };
    format!("{} {}", plain(value, decimals), units.pressure.symbol())
}

/// What the rise says, in a few words.
const fn words(finding: Finding) -> &'static str {
    match finding {
        Finding::NoRise => "no rise that these readings could show",
        Finding::Falling => "the pressure falls",
        Finding::Leak => "a straight rise, as of a leak",
        Finding::Moisture => "a rise that levels off, as of moisture",
        Finding::LeakAndMoisture => "a rise that levels off on top of a straight one, as of moisture and a leak",
        Finding::OpenToAir => "a rise to the pressure of the air: open",
        Finding::SpeedsUp => "a rise that grows faster, which neither leak nor moisture does",
        Finding::CannotTell => "a leak and moisture fit alike",
    }
}
