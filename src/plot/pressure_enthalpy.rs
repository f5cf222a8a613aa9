//! The refrigeration cycle in the pressure–enthalpy diagram.

use super::Picture;
use super::axis::{Axis, decimals};
use super::drawing::{Drawing, Sample, Shape, WIDTH};
use super::english::English;
use super::frame::Frame;
use super::letters::Letters;
use super::svg::Point;
use super::words::{CycleText, PictureName, PictureWords, Writing};
use crate::expected::Side;
use crate::helmholtz::Phases;
use crate::inspection::{DisplayUnits, StatePoints, Undetermined};
use crate::quantity::{SpecificEnthalpy, SpecificEntropy, Unit};
use crate::{Error, Pressure, Quantity, Range, Refrigerant, Temperature};

/// The shortest two-phase part of an isotherm that has room for its number, kJ/kg.
const LEAST_LEVEL: f64 = 45.0;

/// A line of the diagram: pressures with enthalpies in kJ/kg.
type Line = Vec<(Pressure, f64)>;

/// Points along a line of the diagram.
const STEPS: u32 = 40;

/// Picture of the refrigeration cycle as measured, in the pressure–enthalpy diagram of the refrigerant.
///
/// Absolute pressure on a logarithmic axis over specific enthalpy: the saturation dome, isotherms, isentropes, both gauges as
/// level lines, and the cycle through the points that were measured. Without a discharge line the cycle closes over the
/// outlet of an isentropic compressor, and says so. What was not measured is left out and named.
///
/// - **Source** the equation of state of the refrigerant; the cycle is [`StatePoints`].
///
/// # Errors
/// Those of the equation of state, if the pressures lie outside its range.
pub fn pressure_enthalpy(cycle: &StatePoints, units: &DisplayUnits) -> Result<Picture, Error> {
    pressure_enthalpy_in(cycle, units, &English)
}

/// The same in the language of `words`.
#[doc(hidden)]
pub fn pressure_enthalpy_in(
    cycle: &StatePoints,
    units: &DisplayUnits,
    words: &dyn PictureWords,
) -> Result<Picture, Error> {
    let units = &Writing::new(units, words);
    let r = cycle.refrigerant;
    let title = units.say(CycleText::CycleTitle(&r.to_string()));
    let mut drawing = Drawing::new("pressure-enthalpy", WIDTH);
    drawing.sentence(Letters::Head, &title);
    drawing.skip(2.0);

    let plane = Plane::of(cycle)?;
    let x = Axis::linear(plane.h.0, plane.h.1, 6);
    let y = Axis::logarithmic(units.absolute_number(plane.p.low), units.absolute_number(plane.p.high));
    let y_title = units.say(PictureName::AbsolutePressureAxis(units.low.symbol()));
    let x_title = units.say(PictureName::EnthalpyAxis);
    let frame = Frame::draw(&mut drawing, units.point(), (x, &x_title), (y, &y_title), 330.0);

    let isotherms = plane.isotherms(r, &frame, units);
    let isentropes = plane.isentropes(r, cycle, &frame, units.point());
    background(&mut drawing, &frame, units, &plane, r, &isotherms, &isentropes);
    let levels = [(cycle.low.value(), Side::Low), (cycle.high.value(), Side::High)];
    let (left, right) = (frame.x().low(), frame.x().high());
    for (p, _) in levels {
        let y = units.absolute_number(p);
        frame.curve(&mut drawing, "sl-level", &[(left, y), (right, y)]);
    }
    sides(&mut drawing, &frame, cycle, units);
    let places = places(cycle);
    markers(&mut drawing, &frame, units, &places);
    for (p, side) in levels {
        let name = &units.say(PictureName::Side(side));
        let y = units.absolute_number(p);
        let along = [0.08, 0.16, 0.24, 0.9, 0.8].map(|share| frame.at_edge(left + share * (right - left), y));
        if !drawing.label_on(&along, Letters::Plain, name, frame.area()) {
            drawing.label(along[0], Letters::Plain, &[name], frame.area());
        }
    }
    line_labels(&mut drawing, &frame, units, r, &isotherms, &isentropes);
    let description = legend(&mut drawing, cycle, units, &places, !isentropes.is_empty());
    Ok(drawing.finish(title, description))
}

/// Isotherms, isentropes and the saturation dome.
fn background(
    drawing: &mut Drawing,
    frame: &Frame,
    units: &Writing,
    plane: &Plane,
    r: Refrigerant,
    isotherms: &[(String, Line)],
    isentropes: &[(String, Line)],
) {
    for (lines, class) in [(isotherms, "sl-thin"), (isentropes, "sl-dots")] {
        for (_, line) in lines {
            frame.curve(drawing, class, &plotted(line, units));
        }
    }
    let (mut dome, vapour) = dome(r, &plane.p);
    dome.extend(vapour.iter().rev());
    frame.curve(drawing, "sl-main", &plotted(&dome, units));
}

/// Markers at the points of the cycle that are known, then their numbers.
fn markers(drawing: &mut Drawing, frame: &Frame, units: &Writing, places: &[Place]) {
    let at = |point: &Phases| frame.at_edge(point.enthalpy().kj_per_kg(), units.absolute_number(point.pressure()));
    let known = || places.iter().filter_map(|place| Some((place.position, place.state.as_ref().ok().map(at)?)));
    for (position, at) in known() {
        drawing.marker(position.shape(), "sl-ink", at);
    }
    for (position, at) in known() {
        drawing.label(at, Letters::Plain, &[position.number()], frame.area());
    }
}

/// The values of isotherms and isentropes on their lines.
fn line_labels(
    drawing: &mut Drawing,
    frame: &Frame,
    units: &Writing,
    r: Refrigerant,
    isotherms: &[(String, Line)],
    isentropes: &[(String, Line)],
) {
    for (number, line) in isotherms {
        let inside = level(line, r).into_iter().map(|(p, h)| frame.at(h, units.absolute_number(p)));
        let along = along(frame, &plotted(line, units), &[0.8, 0.7, 0.6, 0.5, 0.4, 0.3]);
        let places: Vec<_> = inside.chain(along).collect();
        drawing.label_on(&places, Letters::Small, number, frame.area());
    }
    for (number, line) in isentropes {
        let places = along(frame, &plotted(line, units), &[0.92, 0.85, 0.78, 0.7, 0.6, 0.4, 0.3, 0.2]);
        drawing.label_on(&places, Letters::Small, number, frame.area());
    }
}

/// Draws the legend and returns the description of the picture.
fn legend(drawing: &mut Drawing, cycle: &StatePoints, units: &Writing, places: &[Place], isentropes: bool) -> String {
    let r = cycle.refrigerant;
    let [low, high] = [cycle.low.value(), cycle.high.value()].map(|p| units.absolute(p));
    let shown = CycleText::CycleShown([&r.to_string(), &low, &high], is_transcritical(cycle));
    let mut description = vec![units.say(shown)];
    for Place { position, name, state } in places {
        let (sample, words) = match state {
            Ok(point) => (Sample::Marker(position.shape(), "sl-ink"), state_words(point, units)),
            // of interest only as a substitute for the discharge line
            Err(_) if *position == Position::IsentropicOutlet => continue,
            Err(why) => (Sample::None, units.say(CycleText::Undetermined(*why))),
        };
        let line = format!("{} {}: {words}", position.number(), units.say(*name));
        drawing.key(sample, &line);
        description.push(format!("{line}."));
    }
    drawing.key(Sample::Line("sl-thin"), &units.say(CycleText::EqualTemperature(units.temperature.symbol())));
    if isentropes {
        drawing.key(Sample::Line("sl-dots"), &units.say(CycleText::EqualEntropy));
    }
    if cycle.lossless.is_ok() {
        drawing.key(Sample::Line("sl-dash"), &units.say(CycleText::WithoutLoss));
    }
    drawing.skip(3.0);
    drawing.sentence(Letters::Small, &units.say(CycleText::CycleFoot));
    drawing.sentence(Letters::Small, &units.say(CycleText::PropertySource(&r.fluid().equation.source)));
    if let Some(effect) = cycle.refrigerating_effect() {
        description.push(units.say(CycleText::Effect(effect.value().kj_per_kg())));
    }
    description.join(" ")
}

/// A point of the cycle.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Position {
    SuctionLine,
    DischargeLine,
    IsentropicOutlet,
    LiquidLine,
    EvaporatorInlet,
}

impl Position {
    /// The usual number of the point.
    const fn number(self) -> &'static str {
        match self {
            Self::SuctionLine => "1",
            Self::DischargeLine => "2",
            Self::IsentropicOutlet => "2s",
            Self::LiquidLine => "3",
            Self::EvaporatorInlet => "4",
        }
    }

    const fn shape(self) -> Shape {
        match self {
            Self::SuctionLine => Shape::Square,
            Self::DischargeLine => Shape::Triangle,
            Self::IsentropicOutlet => Shape::Cross,
            Self::LiquidLine => Shape::Diamond,
            Self::EvaporatorInlet => Shape::Circle,
        }
    }

    const fn name(self, transcritical: bool) -> PictureName<'static> {
        match self {
            Self::SuctionLine => PictureName::SuctionLine,
            Self::DischargeLine => PictureName::DischargeLine,
            Self::IsentropicOutlet => PictureName::IsentropicOutlet,
            Self::LiquidLine if transcritical => PictureName::GasCoolerOutlet,
            Self::LiquidLine => PictureName::LiquidLine,
            Self::EvaporatorInlet => PictureName::EvaporatorInlet,
        }
    }
}

/// A point of the cycle with its state.
struct Place {
    position: Position,
    name: PictureName<'static>,
    state: Result<Phases<'static>, Undetermined>,
}

fn is_transcritical(cycle: &StatePoints) -> bool {
    cycle.high.value() > cycle.refrigerant.fluid().critical.value.pressure
}

fn places(cycle: &StatePoints) -> [Place; 5] {
    let transcritical = is_transcritical(cycle);
    [
        (Position::SuctionLine, cycle.suction),
        (Position::DischargeLine, cycle.discharge),
        (Position::IsentropicOutlet, cycle.lossless),
        (Position::LiquidLine, cycle.liquid),
        (Position::EvaporatorInlet, cycle.inlet),
    ]
    .map(|(position, state)| Place { position, name: position.name(transcritical), state })
}

/// Temperature, enthalpy and quality of a state.
fn state_words(point: &Phases, units: &Writing) -> String {
    let h = format!("{:.0} kJ/kg", point.enthalpy().kj_per_kg());
    let t = units.temperature(point.temperature());
    match point.quality() {
        Some(quality) => format!("{t}, {h}, {}", units.say(PictureName::VapourShare(quality))),
        None => format!("{t}, {h}"),
    }
}

/// The sides of the cycle between points that are known.
fn sides(drawing: &mut Drawing, frame: &Frame, cycle: &StatePoints, units: &Writing) {
    let at = |point: &Phases| (point.enthalpy().kj_per_kg(), units.absolute_number(point.pressure()));
    let mut straight =
        |class: &str, from: Result<Phases<'static>, Undetermined>, to: Result<Phases<'static>, Undetermined>| {
            if let (Ok(from), Ok(to)) = (from, to) {
                frame.curve(drawing, class, &[at(&from), at(&to)]);
            }
        };
    let hot = if cycle.discharge.is_ok() { cycle.discharge } else { cycle.lossless };
    straight("sl-low sl-bold", cycle.inlet, cycle.suction);
    straight("sl-high sl-bold", hot, cycle.liquid);
    straight("sl-main sl-bold", cycle.liquid, cycle.inlet);
    straight("sl-main sl-bold", cycle.suction, cycle.discharge);
    if let (Ok(from), Ok(_)) = (cycle.suction, cycle.lossless) {
        let line = isentrope(cycle.refrigerant, from.entropy(), &Range::new(cycle.low.value(), cycle.high.value()));
        frame.curve(drawing, "sl-dash", &plotted(&line, units));
    }
}

/// Pressures and enthalpies as numbers of the axes.
fn plotted(line: &[(Pressure, f64)], units: &Writing) -> Vec<(f64, f64)> {
    line.iter().map(|(p, h)| (*h, units.absolute_number(*p))).collect()
}

/// Places on the visible part of a line, at fractions of its length.
fn along(frame: &Frame, line: &[(f64, f64)], shares: &[f64]) -> Vec<Point> {
    let visible: Vec<_> = line.iter().filter(|(x, y)| frame.shows(*x, *y)).collect();
    let last = visible.len().saturating_sub(1);
    let at = |share: &f64| visible.get((last as f64 * share).round() as usize).map(|(x, y)| frame.at(*x, *y));
    shares.iter().filter_map(at).collect()
}

/// Places on the two-phase part of an isotherm, from the middle outwards; none above the critical point.
fn level(line: &[(Pressure, f64)], r: Refrigerant) -> Line {
    let critical = r.fluid().critical.value.pressure;
    let widest = line.windows(2).filter(|pair| pair[1].0 < critical).max_by(|a, b| {
        let width = |pair: &[(Pressure, f64)]| pair[0].1 - pair[1].1;
        width(a).total_cmp(&width(b))
    });
    // the two-phase part is by far the longest step; a shorter one means that there is none
    let Some([(p, h), (q, g)]) = widest.filter(|pair| pair[0].1 - pair[1].1 > LEAST_LEVEL) else { return Vec::new() };
    let between = |share: f64| (Range::new(*p, *q).at(share), h + share * (g - h));
    [0.5, 0.42, 0.58, 0.34, 0.66, 0.26, 0.74].map(between).to_vec()
}

/// The part of the plane that the diagram shows.
struct Plane {
    p: Range<Pressure>,
    /// kJ/kg.
    h: (f64, f64),
}

impl Plane {
    fn of(cycle: &StatePoints) -> Result<Self, Error> {
        let r = cycle.refrigerant;
        let critical = r.fluid().critical.value.pressure;
        let lowest = r.dew_pressure(r.saturation_range().low)?;
        let lowest = if r.is_blend() { r.bubble_pressure(r.saturation_range().low)? } else { lowest };
        let (low, high) = (cycle.low.value(), cycle.high.value());
        let low = if high < low { high } else { low };
        let down = Pressure::from_pa(0.6 * low.pa());
        let down = if down < lowest { lowest } else { down };
        // a low side below the saturation line still needs room
        let down = if down > low { Pressure::from_pa(0.9 * low.pa()) } else { down };
        let up = Pressure::from_pa((1.3 * high.pa()).max(1.12 * critical.pa()));
        let cap = Pressure::from_pa(0.7 * critical.pa());
        let bottom = if down < lowest { lowest } else { down };
        let down = if down > cap { cap } else { down };
        let bottom = r.saturated_at_pressure(if bottom > cap { cap } else { bottom });
        let mut h = match bottom {
            Ok((liquid, vapour)) => vec![liquid.enthalpy.kj_per_kg(), vapour.enthalpy.kj_per_kg()],
            Err(error) => return Err(error),
        };
        let places = [cycle.suction, cycle.discharge, cycle.lossless, cycle.liquid, cycle.inlet];
        h.extend(places.iter().flatten().map(|point| point.enthalpy().kj_per_kg()));
        let (least, most) = h.iter().fold((f64::INFINITY, f64::NEG_INFINITY), |(a, b), x| (a.min(*x), b.max(*x)));
        let span = (most - least).max(20.0);
        Ok(Self { p: Range::new(down, up), h: (least - 0.08 * span, most + 0.14 * span) })
    }

    /// Temperature and entropy in the lower right corner, or at the upper temperature limit of the equation of state if that
    /// comes first.
    fn corner(&self, r: Refrigerant, frame: &Frame) -> Option<(Temperature, SpecificEntropy)> {
        let right = SpecificEnthalpy::from_kj_per_kg(frame.x().high());
        if let Ok(state) = r.at_enthalpy(self.p.low, right) {
            return Some((state.temperature(), state.entropy()));
        }
        let state = r.state(self.p.low, r.fluid().equation.limits.hottest).ok()?;
        Some((state.temperature(), state.entropy()))
    }

    /// Isotherms of round temperatures, with their numbers.
    fn isotherms(&self, r: Refrigerant, frame: &Frame, units: &Writing) -> Vec<(String, Line)> {
        let limits = &r.fluid().equation.limits;
        let unit = units.temperature;
        let coldest = r.dew_temperature(self.p.low).unwrap_or(limits.coldest);
        let hottest = self.corner(r, frame).map_or(limits.hottest, |(t, _)| t);
        let axis = Axis::linear(coldest.value_in(unit), hottest.value_in(unit), 8);
        let step = axis.ticks().windows(2).map(|pair| pair[1].0 - pair[0].0).next().unwrap_or(20.0);
        axis.ticks()
            .iter()
            .map(|(number, _)| (units.number(*number, decimals(step)), Temperature::new(*number, unit)))
            .filter(|(_, t)| *t >= limits.coldest && *t < hottest)
            .map(|(number, t)| (number, isotherm(r, t, &self.p)))
            .collect()
    }

    /// Isentropes of round entropies through the vapour, with their numbers.
    fn isentropes(&self, r: Refrigerant, cycle: &StatePoints, frame: &Frame, point: char) -> Vec<(String, Line)> {
        let dry = r.saturated_at_pressure(cycle.low.value()).map(|(_, vapour)| vapour.entropy.kj_per_kg_k());
        let (Ok(dry), Some((_, most))) = (dry, self.corner(r, frame)) else { return Vec::new() };
        let most = most.kj_per_kg_k();
        let axis = Axis::exactly(dry, most.max(dry + 0.01), 4).pointed(point);
        axis.ticks()
            .iter()
            .map(|(s, number)| (number.clone(), isentrope(r, SpecificEntropy::from_kj_per_kg_k(*s), &self.p)))
            .collect()
    }
}

/// Pressures evenly spaced on a logarithmic axis.
fn pressures(range: &Range<Pressure>, steps: u32) -> impl Iterator<Item = Pressure> + use<> {
    let (low, ratio) = (range.low.pa(), range.high.pa() / range.low.pa());
    (0..=steps).map(move |i| Pressure::from_pa(low * ratio.powf(f64::from(i) / f64::from(steps))))
}

/// Saturated liquid and vapour from the bottom of the diagram to the critical point.
fn dome(r: Refrigerant, range: &Range<Pressure>) -> (Line, Line) {
    let top = r.saturation_range().high.kelvin();
    let coldest = r.dew_temperature(range.low).unwrap_or(r.saturation_range().low).kelvin();
    // a blend's bubble line crosses the bottom at a lower temperature
    let coldest = if r.is_blend() { (coldest - 12.0).max(r.saturation_range().low.kelvin()) } else { coldest };
    let (mut liquid, mut vapour) = (Vec::new(), Vec::new());
    for i in 0..=2 * STEPS {
        // denser towards the critical point, where the lines turn
        let left = 1.0 - f64::from(i) / f64::from(2 * STEPS);
        let t = Temperature::from_kelvin(top - left.powi(3) * (top - coldest));
        if let Ok((l, v)) = r.saturated_at_temperature(t) {
            liquid.push((l.pressure, l.enthalpy.kj_per_kg()));
            vapour.push((v.pressure, v.enthalpy.kj_per_kg()));
        }
    }
    (liquid, vapour)
}

/// The isotherm of `t`: vapour from below, level or nearly so through the dome, liquid upwards.
fn isotherm(r: Refrigerant, t: Temperature, range: &Range<Pressure>) -> Line {
    let mut line = Vec::new();
    let both = r.saturated_at_temperature(t).ok();
    // an isotherm turns sharply above the critical point
    for p in pressures(range, 4 * STEPS) {
        if both.is_some_and(|(liquid, vapour)| vapour.pressure <= p && p <= liquid.pressure) {
            continue;
        }
        if let Ok(state) = r.state(p, t) {
            line.push((p, state.enthalpy().kj_per_kg()));
        }
    }
    if let Some((liquid, vapour)) = both {
        let at = line.iter().position(|(p, _)| *p > vapour.pressure).unwrap_or(line.len());
        let level = [(vapour.pressure, vapour.enthalpy.kj_per_kg()), (liquid.pressure, liquid.enthalpy.kj_per_kg())];
        line.splice(at..at, level);
    }
    line
}

/// The isentrope of `s` over `range`.
fn isentrope(r: Refrigerant, s: SpecificEntropy, range: &Range<Pressure>) -> Line {
    pressures(range, STEPS).filter_map(|p| Some((p, r.at_entropy(p, s).ok()?.enthalpy().kj_per_kg()))).collect()
}
