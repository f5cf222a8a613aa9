//! The car's loop in the pressure–enthalpy plane.

use super::axis::{Axis, decimals, plain};
use super::drawing::{Drawing, Sample, Shape, WIDTH};
use super::frame::Frame;
use super::letters::Letters;
use super::svg::Point;
use super::{Picture, Units};
use crate::quantity::{SpecificEnthalpy, SpecificEntropy, Unit};
use crate::window::{Cycle, StatePoint, Untold};
use crate::{Error, Pressure, Quantity, Range, Refrigerant, Temperature};

/// The shortest level of an isotherm that has room for its number, kJ/kg.
const LEAST_LEVEL: f64 = 45.0;

/// A line of the diagram: pressures with enthalpies in kJ/kg.
type Line = Vec<(Pressure, f64)>;

/// Points along a line of the diagram.
const STEPS: u32 = 40;

/// The pressure–enthalpy diagram of the loop's refrigerant with the loop as it was read.
///
/// Absolute pressure on a logarithmic axis over enthalpy: the dome of saturation, lines of equal temperature and of equal
/// entropy, both gauges as level lines, and the loop through the places that were measured. Without a discharge line the
/// loop closes over the point of a compressor without loss, and says so. What was not measured is left out and named.
///
/// - **Source** the equation of state of the refrigerant; the loop is [`Cycle`].
///
/// # Errors
/// Those of the equation of state, where the pressures read lie outside its range.
pub fn pressure_enthalpy(cycle: &Cycle, units: &Units) -> Result<Picture, Error> {
    let r = cycle.refrigerant;
    let title = format!("{r}: the loop over pressure and enthalpy");
    let mut drawing = Drawing::new("pressure-enthalpy", WIDTH);
    drawing.sentence(Letters::Head, &title);
    drawing.skip(2.0);

    let plane = Plane::of(cycle)?;
    let x = Axis::linear(plane.h.0, plane.h.1, 6);
    let y = Axis::logarithmic(units.absolute_number(plane.p.low), units.absolute_number(plane.p.high));
    let y_title = format!("absolute pressure, {}", units.pressure.symbol());
    let frame = Frame::draw(&mut drawing, (x, "enthalpy, kJ/kg"), (y, &y_title), 330.0);
    let at = |p: Pressure, h: f64| (h, units.absolute_number(p));

    let (liquid, vapour) = dome(r, &plane.p);
    let isotherms = plane.isotherms(r, &frame, units);
    for (_, line) in &isotherms {
        frame.curve(&mut drawing, "sl-thin", &plotted(line, units));
    }
    let isentropes = plane.isentropes(r, cycle, &frame);
    for (_, line) in &isentropes {
        frame.curve(&mut drawing, "sl-dots", &plotted(line, units));
    }
    // one line over the top, where both meet
    let mut both = liquid.clone();
    both.extend(vapour.iter().rev());
    frame.curve(&mut drawing, "sl-main", &plotted(&both, units));

    // the gauges as levels
    let edge = (frame.x().low(), frame.x().high());
    for p in [cycle.low.value(), cycle.high.value()] {
        frame.curve(&mut drawing, "sl-level", &[at(p, edge.0), at(p, edge.1)]);
    }
    let places = places(cycle);
    sides(&mut drawing, &frame, cycle, units);
    for place in &places {
        if let Ok(point) = place.point {
            let marker = frame.at_edge(point.enthalpy.kj_per_kg(), units.absolute_number(point.pressure));
            drawing.marker(place.shape, "sl-ink", marker);
        }
    }
    for place in &places {
        if let Ok(point) = place.point {
            let marker = frame.at_edge(point.enthalpy.kj_per_kg(), units.absolute_number(point.pressure));
            drawing.label(marker, Letters::Plain, &[place.number], frame.area());
        }
    }
    for (p, name) in [(cycle.low.value(), "low side"), (cycle.high.value(), "high side")] {
        let y = units.absolute_number(p);
        let shares = [0.08, 0.16, 0.24, 0.9, 0.8].map(|share| frame.at_edge(edge.0 + share * (edge.1 - edge.0), y));
        if !drawing.label_on(&shares, Letters::Plain, name, frame.area()) {
            drawing.label(shares[0], Letters::Plain, &[name], frame.area());
        }
    }
    for (number, line) in &isotherms {
        let inside = level(line, r).into_iter().map(|(p, h)| frame.at(h, units.absolute_number(p)));
        let along = along(&frame, &plotted(line, units), &[0.8, 0.7, 0.6, 0.5, 0.4, 0.3]);
        let places: Vec<_> = inside.chain(along).collect();
        drawing.label_on(&places, Letters::Small, number, frame.area());
    }
    for (number, line) in &isentropes {
        let places = along(&frame, &plotted(line, units), &[0.92, 0.85, 0.78, 0.7, 0.6, 0.4, 0.3, 0.2]);
        drawing.label_on(&places, Letters::Small, number, frame.area());
    }

    let mut told = vec![format!(
        "Pressure–enthalpy diagram of {r}. Low side {} absolute, high side {} absolute{}.",
        units.absolute(cycle.low.value()),
        units.absolute(cycle.high.value()),
        if cycle.high.value() > r.fluid().critical.value.pressure { ", above the critical pressure" } else { "" }
    )];
    for place in &places {
        let words = match place.point {
            Ok(point) => format!("{}: {}", place.name, state(&point, units)),
            // the loss-free point is only missed where the discharge line is
            Err(_) if place.number == "2s" => continue,
            Err(Untold::NotMeasured) => format!("{}: not measured", place.name),
            Err(why) => format!("{}: {}", place.name, why.words()),
        };
        if place.point.is_ok() {
            drawing.key(Sample::Marker(place.shape, "sl-ink"), &format!("{} {words}", place.number));
        } else {
            drawing.key(Sample::None, &format!("{} {words}", place.number));
        }
        told.push(format!("{} {words}.", place.number));
    }
    drawing.key(Sample::Line("sl-thin"), &format!("equal temperature, {}", units.temperature.symbol()));
    if !isentropes.is_empty() {
        drawing.key(Sample::Line("sl-dots"), "equal entropy, kJ/(kg K)");
    }
    if cycle.lossless.is_ok() {
        drawing.key(Sample::Line("sl-dash"), "a compressor without loss (equal entropy), not measured");
    }
    drawing.skip(3.0);
    drawing.sentence(
        Letters::Small,
        "Lines are taken at the pressure of their gauge, the expansion at equal enthalpy. Enthalpy 200 kJ/kg and entropy \
         1 kJ/(kg K) for saturated liquid at 0 °C.",
    );
    drawing.sentence(Letters::Small, &format!("Properties: {}.", r.fluid().equation.source));
    if let Some(effect) = cycle.refrigerating_effect() {
        told.push(format!("Refrigerating effect {:.0} kJ/kg.", effect.value().kj_per_kg()));
    }
    Ok(drawing.finish(title, told.join(" ")))
}

/// A place of the loop.
struct Place {
    number: &'static str,
    name: &'static str,
    shape: Shape,
    point: Result<StatePoint, Untold>,
}

fn places(cycle: &Cycle) -> Vec<Place> {
    let transcritical = cycle.high.value() > cycle.refrigerant.fluid().critical.value.pressure;
    let place = |number, name, shape, point| Place { number, name, shape, point };
    vec![
        place("1", "suction line", Shape::Square, cycle.suction),
        place("2", "discharge line", Shape::Triangle, cycle.discharge),
        place("2s", "after a compressor without loss", Shape::Cross, cycle.lossless),
        place("3", if transcritical { "gas cooler outlet" } else { "liquid line" }, Shape::Diamond, cycle.liquid),
        place("4", "after the expansion", Shape::Circle, cycle.inlet),
    ]
}

/// A state in words.
fn state(point: &StatePoint, units: &Units) -> String {
    let h = format!("{:.0} kJ/kg", point.enthalpy.kj_per_kg());
    let t = units.temperature(point.temperature);
    match point.quality {
        Some(quality) => format!("{t}, {h}, {:.0} % vapour", quality.percent()),
        None => format!("{t}, {h}"),
    }
}

/// The sides of the loop between places that are told.
fn sides(drawing: &mut Drawing, frame: &Frame, cycle: &Cycle, units: &Units) {
    let at = |point: &StatePoint| (point.enthalpy.kj_per_kg(), units.absolute_number(point.pressure));
    let mut straight = |class: &str, from: Result<StatePoint, Untold>, to: Result<StatePoint, Untold>| {
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
        let line = isentrope(cycle.refrigerant, from.entropy, &Range::new(cycle.low.value(), cycle.high.value()));
        frame.curve(drawing, "sl-dash", &plotted(&line, units));
    }
}

/// Pressures and enthalpies as numbers of the axes.
fn plotted(line: &[(Pressure, f64)], units: &Units) -> Vec<(f64, f64)> {
    line.iter().map(|(p, h)| (*h, units.absolute_number(*p))).collect()
}

/// Places on the visible part of a line, at shares of its length.
fn along(frame: &Frame, line: &[(f64, f64)], shares: &[f64]) -> Vec<Point> {
    let visible: Vec<_> = line.iter().filter(|(x, y)| frame.shows(*x, *y)).collect();
    let last = visible.len().saturating_sub(1);
    let at = |share: &f64| visible.get((last as f64 * share).round() as usize).map(|(x, y)| frame.at(*x, *y));
    shares.iter().filter_map(at).collect()
}

/// Places on the part of an isotherm between liquid and vapour, from the middle outwards; none above the critical point.
fn level(line: &[(Pressure, f64)], r: Refrigerant) -> Line {
    let critical = r.fluid().critical.value.pressure;
    let widest = line.windows(2).filter(|pair| pair[1].0 < critical).max_by(|a, b| {
        let width = |pair: &[(Pressure, f64)]| pair[0].1 - pair[1].1;
        width(a).total_cmp(&width(b))
    });
    // the level is by far the longest step; another means that there is none
    let Some([(p, h), (q, g)]) = widest.filter(|pair| pair[0].1 - pair[1].1 > LEAST_LEVEL) else { return Vec::new() };
    let between = |share: f64| (Range::new(*p, *q).at(share), h + share * (g - h));
    [0.5, 0.42, 0.58, 0.34, 0.66, 0.26, 0.74].map(between).to_vec()
}

/// What the diagram shows.
struct Plane {
    p: Range<Pressure>,
    /// kJ/kg.
    h: (f64, f64),
}

impl Plane {
    fn of(cycle: &Cycle) -> Result<Self, Error> {
        let r = cycle.refrigerant;
        let critical = r.fluid().critical.value.pressure;
        let lowest = r.dew_pressure(r.saturation_range().low)?;
        let lowest = if r.is_blend() { r.bubble_pressure(r.saturation_range().low)? } else { lowest };
        let (low, high) = (cycle.low.value(), cycle.high.value());
        let low = if high < low { high } else { low };
        let down = Pressure::from_pa(0.6 * low.pa());
        let down = if down < lowest { lowest } else { down };
        // a level below the line itself still gets its room
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
        h.extend(places.iter().flatten().map(|point| point.enthalpy.kj_per_kg()));
        let (least, most) = h.iter().fold((f64::INFINITY, f64::NEG_INFINITY), |(a, b), x| (a.min(*x), b.max(*x)));
        let span = (most - least).max(20.0);
        Ok(Self { p: Range::new(down, up), h: (least - 0.08 * span, most + 0.14 * span) })
    }

    /// Temperature and entropy in the lower right corner, or at the upper limit of the equation where that comes first.
    fn corner(&self, r: Refrigerant, frame: &Frame) -> Option<(Temperature, SpecificEntropy)> {
        let right = SpecificEnthalpy::from_kj_per_kg(frame.x().high());
        if let Ok(state) = r.at_enthalpy(self.p.low, right) {
            return Some((state.temperature(), state.entropy()));
        }
        let state = r.state(self.p.low, r.fluid().equation.limits.hottest).ok()?;
        Some((state.temperature(), state.entropy()))
    }

    /// Lines of round temperatures, with their numbers.
    fn isotherms(&self, r: Refrigerant, frame: &Frame, units: &Units) -> Vec<(String, Line)> {
        let limits = &r.fluid().equation.limits;
        let unit = units.temperature;
        let coldest = r.dew_temperature(self.p.low).unwrap_or(limits.coldest);
        let hottest = self.corner(r, frame).map_or(limits.hottest, |(t, _)| t);
        let axis = Axis::linear(coldest.value_in(unit), hottest.value_in(unit), 8);
        let step = axis.ticks().windows(2).map(|pair| pair[1].0 - pair[0].0).next().unwrap_or(20.0);
        axis.ticks()
            .iter()
            .map(|(number, _)| (plain(*number, decimals(step)), Temperature::new(*number, unit)))
            .filter(|(_, t)| *t >= limits.coldest && *t < hottest)
            .map(|(number, t)| (number, isotherm(r, t, &self.p)))
            .collect()
    }

    /// Lines of round entropies through the vapour, with their numbers.
    fn isentropes(&self, r: Refrigerant, cycle: &Cycle, frame: &Frame) -> Vec<(String, Line)> {
        let dry = r.saturated_at_pressure(cycle.low.value()).map(|(_, vapour)| vapour.entropy.kj_per_kg_k());
        let (Ok(dry), Some((_, most))) = (dry, self.corner(r, frame)) else { return Vec::new() };
        let most = most.kj_per_kg_k();
        let axis = Axis::exactly(dry, most.max(dry + 0.01), 4);
        axis.ticks()
            .iter()
            .map(|(s, number)| (number.clone(), isentrope(r, SpecificEntropy::from_kj_per_kg_k(*s), &self.p)))
            .collect()
    }
}

/// Pressures evenly on a logarithmic axis.
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
        // closer to each other towards the critical point, where the lines turn
        let left = 1.0 - f64::from(i) / f64::from(2 * STEPS);
        let t = Temperature::from_kelvin(top - left.powi(3) * (top - coldest));
        if let Ok((l, v)) = r.saturated_at_temperature(t) {
            liquid.push((l.pressure, l.enthalpy.kj_per_kg()));
            vapour.push((v.pressure, v.enthalpy.kj_per_kg()));
        }
    }
    (liquid, vapour)
}

/// The line of temperature `t`: vapour from below, level or nearly so through the dome, liquid upwards.
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

/// The line of entropy `s` over `range`.
fn isentrope(r: Refrigerant, s: SpecificEntropy, range: &Range<Pressure>) -> Line {
    pressures(range, STEPS).filter_map(|p| Some((p, r.at_entropy(p, s).ok()?.enthalpy().kj_per_kg()))).collect()
}
