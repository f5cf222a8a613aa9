//! The leading causes of a reading: how probable each is, and the values of its circuits beside those read.

use super::Picture;
use super::drawing::{Drawing, MARGIN, Sample, Shape, WIDTH};
use super::english::English;
use super::labels::Area;
use super::letters::{Align, Letters};
use super::svg::Point;
use super::words::{CausesText, PictureName, PictureWords, Writing, sentence};
use crate::diagnosis::{AmbiguityGroup, CauseId, CauseProbability, Posterior, PredictedValue};
use crate::inspection::{DisplayUnits, Measurand, MeasurandKind};
use crate::quantity::Unit;
use crate::{Error, Pressure, Quantity, Temperature};

/// Most causes shown.
const MOST: usize = 4;

/// From the middle to the ends of nine tenths, in standard deviations of a normal distribution (from memory).
const NINE_TENTHS: f64 = 1.645;

/// Picture of the leading causes of `posterior`, four at most, each with its probability as a bar and, quantity by
/// quantity, what was read against what circuits with that cause show.
///
/// Causes that change the circuit alike, which no measurement distinguishes, are shown together and their probabilities
/// add up. Pressures are gauge pressures in air of pressure `air`. The track of one quantity has the same scale under
/// every cause.
///
/// `name` gives the name of a cause, such as that of [`Language::cause`](crate::report::Language::cause).
///
/// - **Source** [`diagnose`](crate::diagnosis::diagnose); how often it is right says `tables/DIAGNOSIS.md`.
///
/// # Errors
/// [`Error::Missing`] for a posterior without any cause.
pub fn ranking(
    posterior: &Posterior,
    air: Pressure,
    units: &DisplayUnits,
    name: impl Fn(CauseId) -> &'static str,
) -> Result<Picture, Error> {
    ranking_in(posterior, air, units, name, &English)
}

/// The same in the language of `words`.
#[doc(hidden)]
pub fn ranking_in(
    posterior: &Posterior,
    air: Pressure,
    units: &DisplayUnits,
    name: impl Fn(CauseId) -> &'static str,
    words: &dyn PictureWords,
) -> Result<Picture, Error> {
    let units = &Writing::new(units, words);
    let mut groups = posterior.groups();
    let total = groups.len();
    groups.truncate(MOST);
    let Some(first) = groups.first() else {
        return Err(Error::Missing { what: "a cause to show", way_out: "diagnose a reading with its ambient first" });
    };
    let title = units.say(CausesText::RankingTitle);
    let mut drawing = Drawing::new("ranking", WIDTH);
    drawing.sentence(Letters::Head, &title);
    drawing.skip(4.0);
    let tracks = tracks(&groups, first.causes[0]);
    let mut told = Vec::new();
    if posterior.outside_model {
        let words = units.say(CausesText::OutsideModel);
        drawing.sentence(Letters::Plain, &words);
        told.push(words);
    }
    let rows: Vec<Vec<Row>> = groups
        .iter()
        .map(|group| group.causes[0].predicted.iter().map(|predicted| Row::of(predicted, air, units)).collect())
        .collect();
    let heads = [PictureName::ReadHead, PictureName::ShownHead].map(|head| units.say(head));
    let columns = Columns::of(heads, rows.iter().flatten(), drawing.right());
    for (group, rows) in groups.iter().zip(&rows) {
        let names = bar(&mut drawing, group, &name, units);
        told.push(format!("{}: {names}.", units.say(PictureName::Probability(group.probability))));
        columns.heads(&mut drawing);
        for ((predicted, track), row) in group.causes[0].predicted.iter().zip(&tracks).zip(rows) {
            columns.draw(&mut drawing, row, predicted, track);
            let unit = row.expected.rsplit(' ').next().unwrap_or_default();
            let Row { name, read, expected } = row;
            let read = format!("{read} {unit}");
            told.push(sentence(&units.say(CausesText::ReadAndShown([name, &read, expected]))));
        }
        drawing.skip(9.0);
    }
    drawing.key(Sample::Marker(Shape::Diamond, "sl-ink"), &units.say(CausesText::WhatWasRead));
    drawing.key(Sample::Band("sl-core"), &units.say(CausesText::NineTenthsOfSuch));
    drawing.skip(3.0);
    let shown: f64 = groups.iter().map(|group| group.probability).sum();
    let (circuits, rest, left) = (posterior.circuits, total - groups.len(), (1.0 - shown).max(0.0));
    let words = units.say(CausesText::RankingFoot { circuits, rest, left });
    drawing.sentence(Letters::Small, &words);
    told.push(words);
    Ok(drawing.finish(title, told.join(" ")))
}

/// Lowest and highest value of each quantity over all groups.
fn tracks(groups: &[AmbiguityGroup], first: &CauseProbability) -> Vec<(f64, f64)> {
    (0..first.predicted.len())
        .map(|i| {
            let all = groups.iter().filter_map(|group| group.causes[0].predicted.get(i));
            let (low, high) = all.fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), p| {
                let half = NINE_TENTHS * p.standard_deviation;
                (low.min(p.read).min(p.mean - half), high.max(p.read).max(p.mean + half))
            });
            let room = (0.06 * (high - low)).max(1e-6);
            (low - room, high + room)
        })
        .collect()
}

/// Name and probability of a group; what was written.
fn bar(
    drawing: &mut Drawing,
    group: &AmbiguityGroup,
    name: impl Fn(CauseId) -> &'static str,
    units: &Writing,
) -> String {
    const BAR: f64 = 96.0;
    let names: Vec<&str> = group.causes.iter().map(|finding| name(finding.cause)).collect();
    let names = names.join(&units.say(PictureName::Or));
    let number = units.say(PictureName::Probability(group.probability));
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

/// One quantity under one cause, in words.
struct Row {
    name: String,
    read: String,
    expected: String,
}

impl Row {
    fn of(predicted: &PredictedValue, air: Pressure, units: &Writing) -> Self {
        let half = NINE_TENTHS * predicted.standard_deviation;
        let measurand = predicted.measurand;
        let number = |value: f64| amount(measurand, value, air, units);
        let (low, high) = (number(predicted.mean - half), number(predicted.mean + half));
        let unit = match measurand.kind() {
            MeasurandKind::Pressure => units.low.symbol(),
            MeasurandKind::Share => "%",
            MeasurandKind::Temperature => units.temperature.symbol(),
        };
        Self {
            // a second running reading of the same quantity
            name: units.say(PictureName::Measurand(measurand, predicted.reading != 0)),
            read: number(predicted.read),
            expected: if low == high {
                format!("{low} {unit}")
            } else {
                units.say(PictureName::Span(&low, &format!("{high} {unit}")))
            },
        }
    }
}

/// The columns of the rows: names, what was read, tracks, what such circuits show.
struct Columns {
    heads: [String; 2],
    letters: Letters,
    read: f64,
    left: f64,
    right: f64,
}

impl Columns {
    /// As wide as the rows need, in smaller letters where the tracks would become too short.
    fn of<'a>(heads: [String; 2], rows: impl Iterator<Item = &'a Row> + Clone, right: f64) -> Self {
        let columns = |letters: Letters| {
            let widest = |cell: fn(&Row) -> &str| rows.clone().map(|row| letters.width(cell(row))).fold(0.0, f64::max);
            let read = MARGIN + widest(|row| &row.name) + 8.0 + widest(|row| &row.read).max(letters.width(&heads[0]));
            let expected = widest(|row| &row.expected).max(letters.width(&heads[1]));
            Self { heads: heads.clone(), letters, read, left: read + 12.0, right: right - expected - 12.0 }
        };
        let plain = columns(Letters::Soft);
        if plain.right - plain.left >= 64.0 { plain } else { columns(Letters::Small) }
    }

    fn heads(&self, drawing: &mut Drawing) {
        let baseline = drawing.y() + 0.8 * Letters::Small.leading();
        drawing.words(Point { x: self.read, y: baseline }, Letters::Small, Align::End, &self.heads[0]);
        let at = Point { x: drawing.right(), y: baseline };
        drawing.words(at, Letters::Small, Align::End, &self.heads[1]);
        drawing.skip(Letters::Small.leading());
    }

    /// A row with its track; none of a track that has no room.
    fn draw(&self, drawing: &mut Drawing, row: &Row, predicted: &PredictedValue, track: &(f64, f64)) {
        const HEIGHT: f64 = 18.0;
        let y = drawing.y() + 0.5 * HEIGHT;
        let baseline = y + 0.35 * self.letters.size();
        let at = |x: f64| Point { x, y: baseline };
        drawing.words(at(MARGIN), self.letters, Align::Start, &row.name);
        drawing.words(at(self.read), self.letters, Align::End, &row.read);
        drawing.words(at(drawing.right()), self.letters, Align::End, &row.expected);
        if self.right - self.left >= 20.0 {
            let x = |value: f64| self.left + (value - track.0) / (track.1 - track.0) * (self.right - self.left);
            drawing.rule("sl-grid", Point { x: self.left, y }, Point { x: self.right, y });
            let half = NINE_TENTHS * predicted.standard_deviation;
            let (from, to) = (x(predicted.mean - half), x(predicted.mean + half));
            drawing.rect("sl-core", &Area { left: from, top: y - 4.5, right: to.max(from + 1.0), bottom: y + 4.5 });
            let middle = x(predicted.mean);
            drawing.rule("sl-main", Point { x: middle, y: y - 6.0 }, Point { x: middle, y: y + 6.0 });
            drawing.marker(Shape::Diamond, "sl-ink", Point { x: x(predicted.read), y });
        }
        drawing.skip(HEIGHT);
    }
}

/// A number of the diagnosis as it is read.
fn amount(measurand: Measurand, value: f64, air: Pressure, units: &Writing) -> String {
    match measurand.kind() {
        MeasurandKind::Pressure => {
            let gauge = Pressure::from_pa(value.exp()).gauge(air);
            units.number(units.p(gauge), units.decimals())
        }
        MeasurandKind::Share => units.number(100.0 * value, 0),
        MeasurandKind::Temperature => units.number(Temperature::from_celsius(value).value_in(units.temperature), 0),
    }
}
