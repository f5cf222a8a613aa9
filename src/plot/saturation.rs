//! A reading on the saturation line: superheat and subcooling as distances from it.

use super::Picture;
use super::axis::Axis;
use super::drawing::{Drawing, Sample, Shape, WIDTH};
use super::english::English;
use super::frame::Frame;
use super::letters::{Align, Letters};
use super::svg::Point;
use super::words::{PictureName, PictureWords, SaturationText, Writing, sentence};
use crate::expected;
use crate::inspection::{DisplayUnits, Measurand, Reading};
use crate::line::{Saturation, absolute};
use crate::quantity::Unit;
use crate::{Error, GaugePressure, Measured, Pressure, Quantity, Range, Temperature, TemperatureDifference};

/// Points of the saturation line.
const STEPS: u32 = 96;

/// One side of the circuit, as far as it was measured.
struct Side {
    which: expected::Side,
    class: &'static str,
    shapes: [Shape; 2],
    gauge: Measured<GaugePressure>,
    saturation: Option<Saturation>,
    /// The saturation temperature from which the difference counts.
    from: Option<Measured<Temperature>>,
    /// Temperature of the line, and how far it stands off; positive on the side meant by the name.
    line: Option<Measured<Temperature>>,
    difference: Option<Measured<TemperatureDifference>>,
}

/// Picture of a reading on the saturation line of its refrigerant, in gauge pressures of the reading's place.
///
/// The gauges that were read are on the line with their 95 % intervals; suction and liquid line are beside it if they were
/// measured, superheat and subcooling are the level distances. A blend has a bubble line and a dew line, and each distance
/// counts from the right one. Of an equalised circuit the ambient temperature is shown at the gauges' pressure instead.
///
/// - **Source** the saturation lines of [`Refrigerant`](crate::Refrigerant); intervals as those of
///   [`Line`](crate::Line).
///
/// # Errors
/// [`Error::Missing`] where neither gauge was read; [`Error::BelowVacuum`] for a gauge that reads below vacuum; [`Error::OutOfRange`] for a pressure below the saturation
/// line.
pub fn saturation(reading: &Reading, units: &DisplayUnits) -> Result<Picture, Error> {
    saturation_in(reading, units, &English)
}

/// The same in the language of `words`.
#[doc(hidden)]
pub fn saturation_in(reading: &Reading, units: &DisplayUnits, words: &dyn PictureWords) -> Result<Picture, Error> {
    let units = &Writing::new(units, words);
    let r = reading.refrigerant();
    let sides = sides(reading)?;
    let Some(first) = sides.first() else {
        return Err(Error::Missing {
            what: "a gauge to stand on the line",
            way_out: "read the low side, the high side or both",
        });
    };
    let ambient = reading.ambient().filter(|_| !reading.is_running());
    let title = units.say(SaturationText::SaturationTitle(&r.to_string()));
    let mut drawing = Drawing::new("saturation", WIDTH);
    drawing.sentence(Letters::Head, &title);
    drawing.skip(2.0);

    let (t_range, p_range) = ranges(reading, &sides, ambient);
    let y_title = units.say(PictureName::GaugePressureAxis(units.low.symbol()));
    let x_title = units.say(PictureName::TemperatureAxis(units.temperature.symbol()));
    let x = Axis::linear(units.t(t_range.low), units.t(t_range.high), 7);
    let y = Axis::linear(units.p(p_range.low), units.p(p_range.high), 6);
    let frame = Frame::draw(&mut drawing, units.point(), (x, &x_title), (y, &y_title), 300.0);
    let curves = Curves::draw(&mut drawing, &frame, reading, units)?;

    for side in &sides {
        draw(&mut drawing, &frame, side, units);
    }
    if let Some(ambient) = &ambient {
        let at = frame.at_edge(units.t(ambient.value()), units.p(first.gauge.value()));
        drawing.marker(Shape::Diamond, "sl-ink", at);
        drawing.label(at, Letters::Plain, &[&units.say(PictureName::Ambient)], frame.area());
    }
    for side in &sides {
        label(&mut drawing, &frame, side, units);
    }
    critical_point(&mut drawing, &frame, reading, units);
    curves.label(&mut drawing, &frame, r.is_blend(), units);
    label_regions(&mut drawing, &frame, reading, units, &curves);

    let ambient = ambient
        .map(|ambient| units.say(SaturationText::AmbientDrawnAt(&units.temperature_interval(&ambient), first.which)));
    let description = legend(&mut drawing, reading, &sides, ambient, units);
    Ok(drawing.finish(title, description))
}

/// The sides whose gauge was read.
fn sides(reading: &Reading) -> Result<Vec<Side>, Error> {
    let sides = [
        (expected::Side::Low, reading.low(), reading.temperature(Measurand::SuctionLine)),
        (expected::Side::High, reading.high(), reading.temperature(Measurand::LiquidLine)),
    ];
    sides.into_iter().filter_map(|(which, gauge, line)| Some(side(reading, which, gauge?, line))).collect()
}

/// Both saturation lines as drawn, points in the units of the axes.
struct Curves {
    dew: Vec<(f64, f64)>,
    /// Empty for a pure fluid.
    bubble: Vec<(f64, f64)>,
}

impl Curves {
    /// Draws both lines over what the axes show.
    fn draw(drawing: &mut Drawing, frame: &Frame, reading: &Reading, units: &Writing) -> Result<Self, Error> {
        let (r, air) = (reading.refrigerant(), reading.air().value());
        let shown = Range::new(
            Temperature::new(frame.x().low(), units.temperature),
            Temperature::new(frame.x().high(), units.temperature),
        );
        let valid = r.saturation_range();
        let low = if shown.low < valid.low { valid.low } else { shown.low };
        let high = if shown.high > valid.high { valid.high } else { shown.high };
        let mut curve = |class: &str, pressure: &dyn Fn(Temperature) -> Result<Pressure, Error>| {
            let mut values = Vec::new();
            for step in 0..=STEPS {
                let t = Range::new(low, high).at(f64::from(step) / f64::from(STEPS));
                let t = if t > high { high } else { t };
                values.push((units.t(t), units.p(pressure(t)?.gauge(air))));
            }
            frame.curve(drawing, class, &values);
            Ok::<_, Error>(values)
        };
        let dew = curve(if r.is_blend() { "sl-dash" } else { "sl-main" }, &|t| r.dew_pressure(t))?;
        let bubble = if r.is_blend() { curve("sl-main", &|t| r.bubble_pressure(t))? } else { Vec::new() };
        Ok(Self { dew, bubble })
    }

    /// The name of each line, beside it.
    fn label(&self, drawing: &mut Drawing, frame: &Frame, blend: bool, units: &Writing) {
        let dew = if blend { PictureName::DewLine } else { PictureName::Saturated };
        for (values, name) in [(&self.bubble, PictureName::BubbleLine), (&self.dew, dew)] {
            let visible: Vec<_> = values.iter().filter(|(x, y)| frame.shows(*x, *y)).collect();
            if let Some((x, y)) = visible.get(visible.len() * 3 / 5) {
                drawing.label(frame.at(*x, *y), Letters::Soft, &[&units.say(name)], frame.area());
            }
        }
    }
}

/// The critical point, where the axes show it.
fn critical_point(drawing: &mut Drawing, frame: &Frame, reading: &Reading, units: &Writing) {
    let critical = reading.refrigerant().fluid().critical.value;
    let (x, y) = (units.t(critical.temperature), units.p(critical.pressure.gauge(reading.air().value())));
    if frame.shows(x, y) {
        let at = frame.at(x, y);
        drawing.marker(Shape::Dot, "sl-ink", at);
        drawing.label(at, Letters::Soft, &[&units.say(PictureName::CriticalPoint)], frame.area());
    }
}

/// "liquid" and "vapour", each where it is true and clear of the lines, or not at all.
fn label_regions(drawing: &mut Drawing, frame: &Frame, reading: &Reading, units: &Writing, curves: &Curves) {
    let mut named = std::collections::BTreeSet::new();
    for (of, across, up) in [
        (Region::Liquid, 0.18, 0.8),
        (Region::Liquid, 0.3, 0.6),
        (Region::Vapour, 0.85, 0.12),
        (Region::Vapour, 0.7, 0.06),
    ] {
        let t = Temperature::new(frame.x().value(across), units.temperature);
        let p = GaugePressure::new(frame.y().value(up), units.low).absolute(reading.air().value());
        let at = frame.within(across, up);
        let clear = !near(&curves.dew, frame, at) && !near(&curves.bubble, frame, at);
        if clear && region(reading, t, p) == Some(of) && named.insert(of) {
            drawing.words_if_free(at, Letters::Soft, Align::Middle, &units.say(of.name()));
        }
    }
}

/// What the marks mean and where the numbers come from, below the picture; returns the description of the picture.
fn legend(
    drawing: &mut Drawing,
    reading: &Reading,
    sides: &[Side],
    ambient: Option<String>,
    units: &Writing,
) -> String {
    let r = reading.refrigerant();
    let air = units.air(reading.air().value());
    let mut description = vec![units.say(SaturationText::SaturationShown(&r.to_string(), &air))];
    for side in sides {
        let words = side.words(units);
        let supercritical = side.saturation.is_none();
        let sample = if supercritical { Sample::Line("sl-level") } else { Sample::Marker(side.shapes[0], side.class) };
        drawing.key(sample, &words[0]);
        if let Some(line) = words.get(1) {
            drawing.key(Sample::Marker(side.shapes[1], side.class), line);
        }
        description.push(sentence(&words.join("; ")));
    }
    if let Some(ambient) = ambient {
        drawing.key(Sample::Marker(Shape::Diamond, "sl-ink"), &ambient);
        description.push(units.say(SaturationText::AtRest(&ambient)));
    }
    if r.is_blend() {
        drawing.key(Sample::Line("sl-main"), &units.say(SaturationText::BubbleKey));
        drawing.key(Sample::Line("sl-dash"), &units.say(SaturationText::DewKey));
    }
    drawing.skip(3.0);
    drawing.sentence(Letters::Small, &units.say(SaturationText::SaturationFoot(&air)));
    drawing.sentence(Letters::Small, &units.say(SaturationText::SaturationSource(&r.fluid().equation.source)));
    description.join(" ")
}

/// One side of a reading, as far as it was measured.
fn side(
    reading: &Reading,
    which: expected::Side,
    gauge: Measured<GaugePressure>,
    line: Option<Measured<Temperature>>,
) -> Result<Side, Error> {
    let low = which == expected::Side::Low;
    let name = if low { "low side" } else { "high side" };
    let absolute = absolute(&gauge, &reading.air()).map_err(|error| error.about(name))?;
    let saturation = Saturation::at(reading.refrigerant(), &absolute).map_err(|error| error.about(name))?;
    let from = saturation.map(|saturation| if low { saturation.dew } else { saturation.bubble });
    let difference = saturation
        .zip(line)
        .and_then(|(saturation, t)| if low { saturation.superheat(&t) } else { saturation.subcooling(&t) });
    Ok(Side {
        which,
        class: if low { "sl-low" } else { "sl-high" },
        shapes: if low { [Shape::Circle, Shape::Square] } else { [Shape::Triangle, Shape::Diamond] },
        gauge,
        saturation,
        from,
        line,
        difference,
    })
}

impl Side {
    /// One sentence about the gauge and, where it was measured, one about the line.
    fn words(&self, units: &Writing) -> Vec<String> {
        let gauge = format!("{} {}", units.say(PictureName::Side(self.which)), units.gauge_interval(&self.gauge));
        let first = match self.saturation {
            None => units.say(SaturationText::NoSaturation(&gauge)),
            Some(Saturation { bubble, dew }) if bubble != dew => {
                let [bubble, dew] = [bubble, dew].map(|t| units.temperature_interval(&t));
                units.say(SaturationText::BubbleAndDew([&gauge, &bubble, &dew]))
            }
            Some(saturation) => {
                units.say(SaturationText::SaturatedAt(&gauge, &units.temperature_interval(&saturation.dew)))
            }
        };
        let mut words = vec![first];
        if let Some(t) = &self.line {
            let t = format!("{} {}", units.say(PictureName::Line(self.which)), units.temperature_interval(t));
            words.push(match &self.difference {
                Some(step) => {
                    format!("{t}: {} {}", units.say(PictureName::Difference(self.which)), units.step_interval(step))
                }
                None => t,
            });
        }
        words
    }

    /// Where its gauge is drawn: on the line, or at the temperature of the line above the critical pressure.
    fn place(&self, units: &Writing) -> Option<(f64, f64)> {
        let t = self.from.or(self.line)?.value();
        Some((units.t(t), units.p(self.gauge.value())))
    }
}

/// What the axes have to hold.
fn ranges(
    reading: &Reading,
    sides: &[Side],
    ambient: Option<Measured<Temperature>>,
) -> (Range<Temperature>, Range<GaugePressure>) {
    let mut temperatures: Vec<Temperature> = Vec::new();
    for side in sides {
        let saturation = side.saturation.map(|s| [s.bubble, s.dew]);
        for t in saturation.into_iter().flatten().chain(side.line) {
            temperatures.extend([t.value() - t.expanded(), t.value() + t.expanded()]);
        }
        if side.saturation.is_none() {
            temperatures.push(reading.refrigerant().fluid().critical.value.temperature);
        }
    }
    temperatures.extend(ambient.map(|t| t.value()));
    let all = temperatures.iter().map(|t| Range::new(*t, *t)).reduce(|a, b| a.hull(&b));
    let t = all.unwrap_or(Range::new(Temperature::from_celsius(0.0), Temperature::from_celsius(50.0)));
    let room = TemperatureDifference::from_kelvins(8.0);
    let vacuum = Pressure::from_pa(0.0).gauge(reading.air().value());
    let spans = sides.iter().map(|side| {
        let (value, half) = (side.gauge.value(), side.gauge.expanded());
        Range::new(value - half, value + half)
    });
    let p = spans.reduce(|a, b| a.hull(&b)).unwrap_or(Range::new(vacuum, vacuum));
    let above = (p.high - p.low) * 0.12;
    let low = if p.low < vacuum { vacuum } else { p.low };
    let zero = GaugePressure::from_pa(0.0);
    let low = if low > zero { zero } else { low };
    (Range::new(t.low - room, t.high + room), Range::new(low, p.high + above))
}

/// Marker, interval and level distance of one side.
fn draw(drawing: &mut Drawing, frame: &Frame, side: &Side, units: &Writing) {
    let p = units.p(side.gauge.value());
    let half = side.gauge.expanded();
    if let (Some(from), Some(line)) = (&side.from, &side.line) {
        drawing.line(side.class, frame.at_edge(units.t(from.value()), p), frame.at_edge(units.t(line.value()), p));
    }
    if let Some(line) = &side.line {
        let t = line.value();
        let ends = [t - line.expanded(), t + line.expanded()].map(|t| frame.at_edge(units.t(t), p));
        drawing.interval(ends[0], ends[1], false);
    }
    if side.saturation.is_none() {
        // above the critical pressure no temperature belongs to the gauge: a level stands for it
        let (low, high) = (frame.x().low(), frame.x().high());
        drawing.line("sl-level", frame.at_edge(low, p), frame.at_edge(high, p));
    }
    if let Some((t, p)) = side.place(units) {
        let value = side.gauge.value();
        let ends = [value - half, value + half].map(|p| frame.at_edge(t, units.p(p)));
        drawing.interval(ends[0], ends[1], true);
        if side.from.is_some() {
            drawing.marker(side.shapes[0], side.class, frame.at_edge(t, p));
        }
    }
    if let Some(line) = &side.line {
        drawing.marker(side.shapes[1], side.class, frame.at_edge(units.t(line.value()), p));
    }
}

/// The names of what is drawn, beside it.
fn label(drawing: &mut Drawing, frame: &Frame, side: &Side, units: &Writing) {
    let p = units.p(side.gauge.value());
    if let (Some(step), Some(from), Some(line)) = (&side.difference, &side.from, &side.line) {
        let t = 0.5 * (units.t(from.value()) + units.t(line.value()));
        let (what, number) = (units.say(PictureName::Difference(side.which)), units.step(step.value()));
        drawing.label(frame.at_edge(t, p), Letters::Plain, &[&format!("{what} {number}")], frame.area());
    }
    let (low, high) = (frame.x().low(), frame.x().high());
    let name = units.say(PictureName::Side(side.which));
    match &side.from {
        Some(from) => {
            drawing.label(frame.at_edge(units.t(from.value()), p), Letters::Plain, &[&name], frame.area());
        }
        None => {
            let places = [0.12, 0.3, 0.7, 0.88].map(|share| frame.at_edge(low + share * (high - low), p));
            drawing.label_on(&places, Letters::Plain, &name, frame.area());
        }
    }
    if let Some(line) = &side.line {
        let name = units.say(PictureName::Line(side.which));
        drawing.label(frame.at_edge(units.t(line.value()), p), Letters::Plain, &[&name], frame.area());
    }
}

/// A region beside the saturation line.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
enum Region {
    Liquid,
    Vapour,
}

impl Region {
    const fn name(self) -> PictureName<'static> {
        match self {
            Self::Liquid => PictureName::Liquid,
            Self::Vapour => PictureName::Vapour,
        }
    }
}

/// What there is at a temperature and an absolute pressure, where it has a name.
fn region(reading: &Reading, t: Temperature, p: Pressure) -> Option<Region> {
    let r = reading.refrigerant();
    if p.pa() <= 0.0 || p >= r.fluid().critical.value.pressure {
        return None;
    }
    match (r.bubble_pressure(t), r.dew_pressure(t)) {
        (Ok(bubble), _) if p > bubble => Some(Region::Liquid),
        (_, Ok(dew)) if p < dew => Some(Region::Vapour),
        (Err(Error::AboveCriticalTemperature { .. }), _) => Some(Region::Vapour),
        _ => None,
    }
}

/// Whether a curve passes so near to a place that words there would touch it.
fn near(values: &[(f64, f64)], frame: &Frame, at: Point) -> bool {
    let places = values.iter().map(|(x, y)| frame.at(*x, *y));
    places.into_iter().any(|p| (p.x - at.x).abs() < 34.0 && (p.y - at.y).abs() < 18.0)
}
