//! The picture of a hold test: readings, fitted rise and published limits.

use super::Picture;
use super::axis::Axis;
use super::drawing::{Drawing, Sample, Shape, WIDTH};
use super::english::English;
use super::frame::Frame;
use super::letters::Letters;
use super::svg::Point;
use super::words::{PictureName, PictureWords, VacuumText, Writing, sentence};
use crate::inspection::DisplayUnits;
use crate::quantity::{Time, Unit};
use crate::service::acceptance::{ACCEPTANCE_LIMITS, AcceptanceLimit, AcceptanceOutcome, Criterion};
use crate::service::standing_vacuum::{StandingVacuumFit, StandingVacuumTest};
use crate::{Error, Pressure, Quantity, Sourced};

/// Points of the fitted curve.
const STEPS: u32 = 60;

/// A limit more than this many spans of the readings above the lowest would squeeze them; it is named instead. Our choice.
const IN_SIGHT: f64 = 4.0;

/// Picture of a hold test: its readings over time, the curve of the fit with its 95 % interval, and the limits of
/// [`ACCEPTANCE_LIMITS`] with how the test stands to each.
///
/// Pressures are absolute. A limit far above the readings, or later than they go, is named below and not drawn.
///
/// # Errors
/// Those of [`StandingVacuumFit::pressure_after`], which do not occur for a fit of this test.
pub fn hold(test: &StandingVacuumTest, fit: &StandingVacuumFit, units: &DisplayUnits) -> Result<Picture, Error> {
    hold_in(test, fit, units, &English)
}

/// The same in the language of `words`.
#[doc(hidden)]
pub fn hold_in(
    test: &StandingVacuumTest,
    fit: &StandingVacuumFit,
    units: &DisplayUnits,
    words: &dyn PictureWords,
) -> Result<Picture, Error> {
    let units = &Writing::new(units, words);
    let title = units.say(VacuumText::HoldTitle);
    let mut drawing = Drawing::new("hold", WIDTH);
    drawing.sentence(Letters::Head, &title);
    drawing.skip(2.0);

    let curve = fitted(fit, units)?;
    let readings: Vec<(f64, f64)> = test.readings().map(|(t, p)| (t.minutes(), p.value_in(units.low))).collect();
    let gates = judged(fit, units)?;
    let x = Axis::linear(0.0, fit.length.minutes(), 6);
    let y_title = units.say(PictureName::AbsolutePressureAxis(units.low.symbol()));
    let x_title = units.say(PictureName::TimeAxis);
    let y = pressure_axis(&readings, &curve, &gates);
    let frame = Frame::draw(&mut drawing, units.point(), (x, &x_title), (y, &y_title), 260.0);

    let line =
        |of: fn(&FittedPoint) -> Option<f64>| curve.iter().filter_map(|c| Some((c.t, of(c)?))).collect::<Vec<_>>();
    frame.curve(&mut drawing, "sl-dots", &line(|c| c.low));
    frame.curve(&mut drawing, "sl-dots", &line(|c| c.high));
    frame.curve(&mut drawing, "sl-low", &line(|c| c.value));
    let visible = |gate: &&Judged| (frame.y().low()..=frame.y().high()).contains(&gate.level);
    for gate in gates.iter().filter(visible) {
        let to = gate.to.min(frame.x().high());
        frame.curve(&mut drawing, "sl-dash", &[(0.0, gate.level), (to, gate.level)]);
        let end = frame.at(to, gate.level);
        drawing.line("sl-main", Point { x: end.x, y: end.y - 4.0 }, Point { x: end.x, y: end.y + 4.0 });
    }
    for (t, p) in &readings {
        drawing.marker(Shape::Dot, "sl-ink", frame.at_edge(*t, *p));
    }
    for gate in gates.iter().filter(visible) {
        let to = gate.to.min(frame.x().high());
        let places = [0.5, 0.3, 0.7, 0.9, 0.1].map(|share| frame.at_edge(share * to, gate.level));
        let label = units.say(PictureName::Limit(gate.letter));
        if !drawing.label_on(&places, Letters::Plain, &label, frame.area()) {
            drawing.label(places[0], Letters::Plain, &[&label], frame.area());
        }
    }
    let gates: Vec<(&Judged, bool)> = gates.iter().map(|gate| (gate, visible(&gate))).collect();
    let description = legend(&mut drawing, fit, units, &gates);
    Ok(drawing.finish(title, description))
}

/// A point of the fitted curve in units of the axes, with its 95 % interval.
struct FittedPoint {
    t: f64,
    value: Option<f64>,
    low: Option<f64>,
    high: Option<f64>,
}

fn fitted(fit: &StandingVacuumFit, units: &Writing) -> Result<Vec<FittedPoint>, Error> {
    let number = |p: Pressure| p.value_in(units.low);
    (0..=STEPS)
        .map(|i| {
            // the curve begins just after the first reading
            let factor = if i == 0 { 1e-6 } else { 1.0 };
            let t = fit.length.minutes() * f64::from(i.max(1)) / f64::from(STEPS) * factor;
            let p = fit.pressure_after(Time::from_minutes(t))?;
            Ok(FittedPoint { t, value: p.value.map(number), low: p.low.map(number), high: p.high.map(number) })
        })
        .collect()
}

/// Smallest and largest of `numbers`.
fn extremes(numbers: impl Iterator<Item = f64>) -> (f64, f64) {
    numbers.fold((f64::INFINITY, f64::NEG_INFINITY), |(least, most), x| (least.min(x), most.max(x)))
}

/// The axis of pressures: readings and curve with its interval, and every limit that would not squeeze them.
fn pressure_axis(readings: &[(f64, f64)], curve: &[FittedPoint], gates: &[Judged]) -> Axis {
    let read = || readings.iter().map(|(_, p)| *p);
    let (low, high) = extremes(read().chain(curve.iter().flat_map(|c| [c.value, c.low, c.high]).flatten()));
    let (read_low, read_high) = extremes(read());
    // a wide interval must not squeeze the readings either
    let span = (read_high - read_low).max(0.02 * read_high.abs());
    let (low, high) = (low.max(read_low - 2.0 * span), high.min(read_high + 2.0 * span));
    let sight = read_low + IN_SIGHT * (read_high - read_low).max(0.25 * read_high.abs());
    let top = gates.iter().map(|gate| gate.level).filter(|level| *level <= sight).fold(high, f64::max);
    let room = 0.08 * (top - low).max(span);
    let floor = if low > 0.0 && low < 0.5 * top { 0.0 } else { low - room };
    Axis::linear(floor, top + room, 6)
}

/// Draws the legend and returns the description of the picture; each limit comes with whether it is drawn.
fn legend(drawing: &mut Drawing, fit: &StandingVacuumFit, units: &Writing, gates: &[(&Judged, bool)]) -> String {
    let finding = units.say(VacuumText::Fitted(fit.finding));
    drawing.key(Sample::Marker(Shape::Dot, "sl-ink"), &units.say(PictureName::Readings(fit.readings)));
    drawing.key(Sample::Line("sl-low"), &finding);
    drawing.key(Sample::Line("sl-dots"), &units.say(VacuumText::CurveInterval));
    let [first, last] = [fit.first, fit.last].map(|p| number(p, units));
    let shown = VacuumText::HoldShown { minutes: fit.length.minutes(), readings: fit.readings, ends: [&first, &last] };
    let mut description = vec![units.say(shown), sentence(&finding)];
    for (gate, drawn) in gates {
        let sample = if *drawn { Sample::Line("sl-dash") } else { Sample::None };
        let Judged { letter, limit, outcome, .. } = gate;
        let line = units.say(VacuumText::Judged { letter: *letter, limit, outcome: *outcome, drawn: *drawn });
        drawing.key(sample, &line);
        description.push(sentence(&line));
    }
    drawing.skip(3.0);
    drawing.sentence(Letters::Small, &units.say(VacuumText::HoldFoot));
    let sources: Vec<String> = gates.iter().map(|(gate, _)| format!("{}: {}", gate.letter, gate.source)).collect();
    drawing.sentence(Letters::Small, &units.say(VacuumText::LimitSources(&sources.join("; "))));
    description.join(" ")
}

/// A published limit and the outcome of the test.
struct Judged {
    letter: char,
    limit: AcceptanceLimit,
    /// In the unit of the axis.
    level: f64,
    /// Until when it holds, minutes.
    to: f64,
    outcome: AcceptanceOutcome,
    source: crate::Source,
}

fn judged(fit: &StandingVacuumFit, units: &Writing) -> Result<Vec<Judged>, Error> {
    let start = fit.start.value.unwrap_or(fit.first);
    let one = |(letter, gate): (char, &Sourced<AcceptanceLimit>)| {
        let level = match gate.value.criterion {
            Criterion::Rise(most) => Pressure::from_pa(start.pa() + most.pa()),
            Criterion::StaysBelow(level) => level,
        };
        Ok(Judged {
            letter,
            limit: gate.value,
            level: level.value_in(units.low),
            to: gate.value.over.high.minutes(),
            outcome: AcceptanceLimit::judge(gate, fit)?.outcome,
            source: gate.source,
        })
    };
    ('A'..='Z').zip(&ACCEPTANCE_LIMITS).map(one).collect()
}

/// A pressure in the unit of the axis to three significant digits.
fn number(p: Pressure, units: &Writing) -> String {
    let value = p.value_in(units.low);
    let decimals = if value == 0.0 { 0 } else { (2.0 - value.abs().log10().floor()).clamp(0.0, 9.0) as usize };
    format!("{} {}", units.number(value, decimals), units.low.symbol())
}
