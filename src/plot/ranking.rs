//! The leading causes of a reading: how probable each is, and what its cars show beside what was read.

use super::axis::plain;
use super::drawing::{Drawing, MARGIN, Sample, Shape, WIDTH};
use super::labels::Area;
use super::letters::{Align, Letters};
use super::svg::Point;
use super::words::sentence;
use super::{Picture, Units};
use crate::diagnosis::{Channel, Finding, Interpretation, Predicted};
use crate::quantity::Unit;
use crate::{Error, Pressure, Quantity, Temperature};

/// Most causes shown.
const MOST: usize = 4;

/// From the middle to the ends of nine tenths, in standard deviations of a normal distribution (from memory).
const NINE_TENTHS: f64 = 1.645;

/// The leading causes of `interpretation`, four at most, each with its probability as a bar and, quantity by quantity, what
/// was read against what cars with that cause show.
///
/// Causes that change the car alike, which no number tells apart, stand together and their probabilities add up. Pressures
/// are gauge pressures in air of pressure `air`. The track of one quantity has the same scale under every cause.
///
/// - **Source** [`interpret`](crate::diagnosis::interpret); how often it is right says `tables/DIAGNOSIS.md`.
///
/// # Errors
/// [`Error::Missing`] for an interpretation without any cause.
pub fn ranking(interpretation: &Interpretation, air: Pressure, units: &Units) -> Result<Picture, Error> {
    let mut groups = groups(interpretation);
    let total = groups.len();
    groups.truncate(MOST);
    let Some(first) = groups.first() else {
        return Err(Error::Missing { what: "a cause to show", way_out: "interpret a reading with its ambient first" });
    };
    let title = "Causes, and what their cars show".to_owned();
    let mut drawing = Drawing::new("ranking", WIDTH);
    drawing.sentence(Letters::Head, &title);
    drawing.skip(4.0);
    let tracks = tracks(&groups, first.first);
    let mut told = Vec::new();
    if interpretation.unlike_anything {
        let words = "This does not look like anything modelled: no cause explains the numbers together.";
        drawing.sentence(Letters::Plain, words);
        told.push(words.to_owned());
    }
    for group in &groups {
        let lines = bar(&mut drawing, group);
        told.push(format!("{}: {}.", share(group.probability), lines));
        for (predicted, track) in group.first.predicted.iter().zip(&tracks) {
            told.push(row(&mut drawing, predicted, track, air, units));
        }
        drawing.skip(9.0);
    }
    drawing.key(Sample::Marker(Shape::Diamond, "sl-ink"), "what was read");
    drawing.key(Sample::Band("sl-core"), "what nine tenths of such cars show; the line is their middle");
    drawing.skip(3.0);
    let shown: f64 = groups.iter().map(|group| group.probability).sum();
    let rest = total - groups.len();
    let others =
        if rest == 0 { String::new() } else { format!(" The other {rest} share {}.", share((1.0 - shown).max(0.0))) };
    let words = format!(
        "Probabilities are among the causes modelled, by comparison with {} simulated cars.{others} A cause is not proved by \
         leading.",
        interpretation.cars
    );
    drawing.sentence(Letters::Small, &words);
    told.push(words);
    Ok(drawing.finish(title, told.join(" ")))
}

/// Causes whose numbers are the same.
struct Group<'a> {
    first: &'a Finding,
    names: Vec<&'static str>,
    probability: f64,
}

/// The groups, the likeliest first.
fn groups(interpretation: &Interpretation) -> Vec<Group<'_>> {
    let mut groups: Vec<Group> = Vec::new();
    for finding in &interpretation.findings {
        let alike =
            |group: &&mut Group| !finding.cause.faults.is_empty() && group.first.cause.faults == finding.cause.faults;
        match groups.iter_mut().find(alike) {
            Some(group) => {
                group.names.push(finding.cause.name);
                group.probability += finding.probability;
            }
            None => {
                groups.push(Group { first: finding, names: vec![finding.cause.name], probability: finding.probability })
            }
        }
    }
    groups.sort_by(|a, b| b.probability.total_cmp(&a.probability));
    groups
}

/// Lowest and highest value of each quantity over all groups.
fn tracks(groups: &[Group], first: &Finding) -> Vec<(f64, f64)> {
    (0..first.predicted.len())
        .map(|i| {
            let all = groups.iter().filter_map(|group| group.first.predicted.get(i));
            let (low, high) = all.fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), p| {
                let half = NINE_TENTHS * p.spread;
                (low.min(p.read).min(p.middle - half), high.max(p.read).max(p.middle + half))
            });
            let room = (0.06 * (high - low)).max(1e-6);
            (low - room, high + room)
        })
        .collect()
}

/// Name and probability of a group; what was written.
fn bar(drawing: &mut Drawing, group: &Group) -> String {
    const BAR: f64 = 96.0;
    let names = group.names.join("; or ");
    let number = share(group.probability);
    let left = MARGIN + BAR + 8.0;
    let lines = Letters::Plain.wrapped(&format!("{number}  {names}"), drawing.right() - left);
    let top = drawing.y();
    let middle = top + 0.5 * Letters::Plain.leading() + 1.0;
    let outline = Area { left: MARGIN, top: middle - 5.5, right: MARGIN + BAR, bottom: middle + 5.5 };
    drawing.rect("sl-row", &outline);
    let right = MARGIN + BAR * group.probability.clamp(0.0, 1.0);
    drawing.rect("sl-bar", &Area { right, ..outline });
    drawing.rect("sl-frame", &outline);
    for (i, line) in lines.iter().enumerate() {
        let y = top + Letters::Plain.leading() * (i as f64 + 1.0) - 0.3 * Letters::Plain.size();
        drawing.words(Point { x: left, y }, Letters::Plain, Align::Start, line);
    }
    drawing.skip(Letters::Plain.leading() * lines.len().max(1) as f64 + 2.0);
    names
}

/// One quantity: its name, what was read, the track, and what such cars show; the same as a sentence.
fn row(drawing: &mut Drawing, predicted: &Predicted, track: &(f64, f64), air: Pressure, units: &Units) -> String {
    const HEIGHT: f64 = 17.0;
    let half = NINE_TENTHS * predicted.spread;
    let name = match predicted.place {
        0 => predicted.channel.name().to_owned(),
        _ => format!("{}, second", predicted.channel.name()),
    };
    let read = amount(predicted.channel, predicted.read, air, units);
    let (low, high) = (
        amount(predicted.channel, predicted.middle - half, air, units),
        amount(predicted.channel, predicted.middle + half, air, units),
    );
    let unit = if predicted.channel.is_pressure() { units.pressure.symbol() } else { units.temperature.symbol() };
    let expected = if low == high { format!("{low} {unit}") } else { format!("{low} to {high} {unit}") };
    let y = drawing.y() + 0.5 * HEIGHT;
    let baseline = y + 0.35 * Letters::Small.size();
    let write = |drawing: &mut Drawing, x: f64, align: Align, words: &str| {
        drawing.words(Point { x, y: baseline }, Letters::Small, align, words);
    };
    write(drawing, MARGIN + 8.0, Align::Start, &name);
    write(drawing, MARGIN + 172.0, Align::End, &read);
    write(drawing, drawing.right(), Align::End, &expected);
    let (left, right) = (MARGIN + 184.0, drawing.right() - 142.0);
    let x = |value: f64| left + (value - track.0) / (track.1 - track.0) * (right - left);
    drawing.rule("sl-grid", Point { x: left, y }, Point { x: right, y });
    let (from, to) = (x(predicted.middle - half), x(predicted.middle + half));
    drawing.rect("sl-core", &Area { left: from, top: y - 4.0, right: to.max(from + 1.0), bottom: y + 4.0 });
    let middle = x(predicted.middle);
    drawing.rule("sl-main", Point { x: middle, y: y - 5.0 }, Point { x: middle, y: y + 5.0 });
    drawing.marker(Shape::Diamond, "sl-ink", Point { x: x(predicted.read), y });
    drawing.skip(HEIGHT);
    sentence(&format!("{name} read {read} {unit}, such cars show {expected}"))
}

/// A number of the diagnosis as it is read.
fn amount(channel: Channel, value: f64, air: Pressure, units: &Units) -> String {
    if channel.is_pressure() {
        let gauge = Pressure::from_pa(value.exp()).gauge(air);
        plain(units.p(gauge), units.decimals())
    } else {
        plain(Temperature::from_celsius(value).value_in(units.temperature), 0)
    }
}

/// A probability, never put as certain.
fn share(probability: f64) -> String {
    match 100.0 * probability {
        p if p > 98.0 => "over 98 %".to_owned(),
        p if p < 1.0 => "under 1 %".to_owned(),
        p => format!("{p:.0} %"),
    }
}
