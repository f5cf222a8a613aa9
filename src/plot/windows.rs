//! The window of healthy circuits by ambient temperature, one picture a side, with the reading and the printed charts in it.

use super::Picture;
use super::axis::Axis;
use super::drawing::{Drawing, Sample, Shape, WIDTH};
use super::english::English;
use super::frame::Frame;
use super::labels::Area;
use super::letters::{Align, Letters};
use super::svg::Point;
use super::words::{PictureName, PictureWords, WindowsText, Writing};
use crate::circuit::{CircuitKind, Conditions};
use crate::expected::{Authority, Band, Basis, ChartSet, ExpectedWindow, OwnCircuits, Side};
use crate::inspection::{Baseline, DisplayUnits, Reading};
use crate::quantity::Unit;
use crate::{Error, GaugePressure, Measured, Range, Ratio, Temperature, TemperatureDifference};

/// Ambient temperatures of the windows on either side of the day's, in steps of [`STEP`] K: nine windows.
const STEPS: i32 = 4;
const STEP: f64 = 4.0;

/// Pictures of low and high side of healthy circuits of `kinds` over the ambient temperature, with the reading in them,
/// one for each side that was read: "windows-low" and "windows-high".
///
/// The bands are what nine tenths and half of the circuits show, computed at nine ambient temperatures about the day's with its
/// humidity and air pressure; the line is the median circuit. With `baselines` they are the windows of this circuit's own. The interval of the reading is that of its gauge. Below
/// are the printed charts of `charts` that cover the conditions, each with its id, beside the computed band on one axis
/// of pressure.
///
/// - **Cost** nine windows of 256 circuits; about a tenth of a second, a little more with baselines.
/// - **Source** [`ExpectedWindow`], [`ChartSet`].
///
/// # Errors
/// [`Error::Missing`] for a reading of an equalised circuit or without its ambient temperature; [`Error::NotModelled`]
/// for a blend, and those of [`ExpectedWindow::for_baselines`] on the conditions themselves.
pub fn windows(
    reading: &Reading,
    kinds: &[CircuitKind],
    baselines: &[Baseline],
    charts: &ChartSet,
    units: &DisplayUnits,
) -> Result<Vec<Picture>, Error> {
    windows_in(reading, kinds, baselines, charts, units, &English)
}

/// The same in the language of `words`.
#[doc(hidden)]
pub fn windows_in(
    reading: &Reading,
    kinds: &[CircuitKind],
    baselines: &[Baseline],
    charts: &ChartSet,
    units: &DisplayUnits,
    words: &dyn PictureWords,
) -> Result<Vec<Picture>, Error> {
    let units = &Writing::new(units, words);
    let day = reading.conditions().ok_or(Error::Missing {
        what: "a running reading with its ambient temperature",
        way_out: "windows are told by the day; measure the air in the shade before the condenser",
    })?;
    let own = if baselines.is_empty() { None } else { Some(OwnCircuits::of(kinds, baselines)?) };
    let window = |day: &Conditions| match &own {
        Some(own) => ExpectedWindow::of_own(own, kinds, day),
        None => ExpectedWindow::for_kinds(kinds, day),
    };
    let today = window(&day)?;
    let mut columns = Vec::new();
    for step in -STEPS..=STEPS {
        let ambient = day.ambient + TemperatureDifference::from_kelvins(STEP * f64::from(step));
        if step == 0 {
            columns.push((ambient, [today.low_side.five(), today.high_side.five()]));
        } else if ExpectedWindow::covers(reading.refrigerant(), ambient) {
            match window(&Conditions { ambient, ..day }) {
                Ok(window) => columns.push((ambient, [window.low_side.five(), window.high_side.five()])),
                // a day on which too few cars find their balance is left out
                Err(Error::NotConverged { .. }) => {}
                Err(error) => return Err(error),
            }
        }
    }
    let side = |side: Side, gauge: Measured<GaugePressure>| {
        let which = usize::from(side == Side::High);
        let columns: Vec<_> = columns.iter().map(|(t, sides)| (*t, sides[which])).collect();
        let quantiles = if side == Side::Low { &today.low_side } else { &today.high_side };
        let below = quantiles.share_below(gauge.value());
        let charts = charts.pressure(side, &day).bands;
        let (cars, rows) = (today.circuits(), today.baselines.len());
        Shown { side, gauge, day, columns, below, charts, cars, rows }.draw(reading, units)
    };
    let sides = [(Side::Low, reading.low()), (Side::High, reading.high())];
    Ok(sides.into_iter().filter_map(|(of, gauge)| Some(side(of, gauge?))).collect())
}

/// What one picture shows.
struct Shown {
    side: Side,
    gauge: Measured<GaugePressure>,
    day: Conditions,
    columns: Vec<(Temperature, [GaugePressure; 5])>,
    /// Share of the healthy circuits below the reading.
    below: Ratio,
    charts: Vec<Band<GaugePressure>>,
    cars: usize,
    /// Baselines that make the windows those of one circuit.
    rows: usize,
}

impl Shown {
    const fn name(&self) -> &'static str {
        match self.side {
            Side::Low => "windows-low",
            Side::High => "windows-high",
        }
    }

    fn today(&self) -> [GaugePressure; 5] {
        let own = self.columns.iter().find(|(t, _)| *t == self.day.ambient);
        own.map_or([self.gauge.value(); 5], |(_, five)| *five)
    }

    fn interval(&self) -> Range<GaugePressure> {
        Range::new(self.gauge.value() - self.gauge.expanded(), self.gauge.value() + self.gauge.expanded())
    }

    fn draw(&self, reading: &Reading, units: &Writing) -> Picture {
        let own = self.rows > 0;
        let title = units.say(WindowsText::WindowsTitle(&reading.refrigerant().to_string(), self.side, own));
        let mut drawing = Drawing::new(self.name(), WIDTH);
        drawing.sentence(Letters::Head, &title);
        drawing.skip(2.0);
        self.bands(&mut drawing, units);
        let today = self.today();
        let read = units.gauge_interval(&self.gauge);
        let ambient = units.temperature(self.day.ambient);
        let key = units.say(WindowsText::ReadAt(&read, &ambient));
        drawing.key(Sample::Marker(Shape::Diamond, "sl-ink"), &key);
        let nine_tenths = units.say(WindowsText::NineTenths { cars: self.cars, rows: self.rows });
        drawing.key(Sample::Band("sl-band"), &nine_tenths);
        drawing.key(Sample::Band("sl-core"), &units.say(WindowsText::Half(own)));
        drawing.skip(10.0);
        self.rows(&mut drawing, units);
        drawing.skip(3.0);
        let (air, charts) = (units.air(self.day.air), !self.charts.is_empty());
        let foot = WindowsText::WindowsFoot { humidity: self.day.humidity, air: &air, charts };
        drawing.sentence(Letters::Small, &units.say(foot));
        let [low, middle, high] = [today[0], today[2], today[4]].map(|p| units.gauge(p));
        let mut told = vec![units.say(WindowsText::WindowsShown {
            side: self.side,
            own,
            ambient: &ambient,
            nine: [&low, &high],
            middle: &middle,
            read: &read,
            below: self.below,
        })];
        for band in &self.charts {
            let [low, high] = [band.range.low, band.range.high].map(|p| units.gauge(p));
            let remark = remark(band, units);
            told.push(units.say(WindowsText::Chart { id: band.chart.id, band: [&low, &high], remark: &remark }));
        }
        if self.charts.is_empty() {
            told.push(units.say(WindowsText::NoChart));
        }
        drawing.finish(title, told.join(" "))
    }

    /// Pressure over ambient: bands of the circuits, and the reading.
    fn bands(&self, drawing: &mut Drawing, units: &Writing) {
        let t: Vec<f64> = self.columns.iter().map(|(t, _)| units.t(*t)).collect();
        let interval = self.interval();
        let all = self.columns.iter().flat_map(|(_, five)| [five[0], five[4]]).chain([interval.low, interval.high]);
        let (low, high) = bounds(all.map(|p| units.p(p)));
        let (first, last) = bounds(t.iter().copied());
        let (first, last) = if last > first { (first, last) } else { (first - 1.0, last + 1.0) };
        // so that a marker at the end of the day's range stays clear of the axis
        let edge = 0.04 * (last - first);
        let x = Axis::exactly(first - edge, last + edge, 7);
        // from zero where that costs little room
        let y = Axis::linear(if low > 0.0 && low < 0.4 * high { 0.0 } else { low }, high, 6);
        let y_title = units.say(PictureName::GaugePressureAxis(units.low.symbol()));
        let x_title = units.say(PictureName::AmbientAxis(units.temperature.symbol()));
        let frame = Frame::with_room(drawing, units.point(), (x, &x_title), (y, &y_title), 220.0, 38.0);
        for (low, high, class) in [(0, 4, "sl-band"), (1, 3, "sl-core")] {
            let up = self.columns.iter().map(|(t, five)| frame.at_edge(units.t(*t), units.p(five[low])));
            let down = self.columns.iter().rev().map(|(t, five)| frame.at_edge(units.t(*t), units.p(five[high])));
            drawing.fill(class, &up.chain(down).collect::<Vec<_>>());
        }
        for pair in self.columns.windows(2) {
            let [(from, a), (to, b)] = [pair[0], pair[1]];
            let ends = [(from, a[0]), (from, a[4]), (to, b[0]), (to, b[4])];
            let places = ends.map(|(t, p)| frame.at_edge(units.t(t), units.p(p)));
            let (top, bottom) = bounds(places.iter().map(|p| p.y));
            drawing.filled(Area { left: places[0].x, top, right: places[2].x, bottom });
        }
        let line =
            |which: usize| self.columns.iter().map(|(t, five)| (units.t(*t), units.p(five[which]))).collect::<Vec<_>>();
        frame.curve(drawing, "sl-main", &line(2));
        for which in [0, 4] {
            frame.curve(drawing, "sl-thin", &line(which));
        }
        let x = units.t(self.day.ambient);
        let ends = [interval.low, interval.high].map(|p| frame.at_edge(x, units.p(p)));
        drawing.interval(ends[0], ends[1], true);
        let at = frame.at_edge(x, units.p(self.gauge.value()));
        drawing.marker(Shape::Diamond, "sl-ink", at);
        drawing.label(at, Letters::Plain, &[&units.say(PictureName::Read)], frame.area());
        for (which, name) in [(2, "50 %"), (4, "95 %"), (0, "5 %")] {
            if let Some((t, five)) = self.columns.last() {
                let end = frame.at_edge(units.t(*t), units.p(five[which]));
                let beside = Point { x: end.x + 5.0, y: end.y + 0.35 * Letters::Small.size() };
                drawing.words_if_free(beside, Letters::Small, Align::Start, name);
            }
        }
    }

    /// Pressures of this day: the reading, the circuits, and chart by chart, one below the other.
    fn rows(&self, drawing: &mut Drawing, units: &Writing) {
        const ROW: f64 = 20.0;
        let ambient = units.temperature(self.day.ambient);
        let heading = units.say(WindowsText::OnThisDay(&ambient, units.low.symbol()));
        drawing.sentence(Letters::Soft, &heading);
        drawing.skip(4.0);
        let interval = self.interval();
        let today = self.today();
        let names: Vec<String> =
            self.charts.iter().map(|band| format!("{}{}", band.chart.id, remark(band, units))).collect();
        let widest = names.iter().map(|name| Letters::Small.width(name)).fold(90.0, f64::max).min(190.0);
        let all = [interval.low, interval.high, today[0], today[4]].into_iter();
        let all = all.chain(self.charts.iter().flat_map(|band| [band.range.low, band.range.high]));
        let (low, high) = bounds(all.map(|p| units.p(p)));
        let axis = Axis::linear(low, high, 5).pointed(units.point());
        let count = 2 + self.charts.len();
        let left = super::drawing::MARGIN + widest + 10.0;
        let area =
            Area { left, top: drawing.y(), right: drawing.right() - 8.0, bottom: drawing.y() + ROW * count as f64 };
        let x = |p: GaugePressure| area.left + axis.share(units.p(p)) * area.width();
        for (value, number) in axis.ticks() {
            let x = area.left + axis.share(*value) * area.width();
            drawing.rule("sl-grid", Point { x, y: area.top }, Point { x, y: area.bottom });
            let baseline = area.bottom + 4.0 + Letters::Soft.size();
            drawing.words_if_free(Point { x, y: baseline }, Letters::Soft, Align::Middle, number);
        }
        let corner = Point { x: area.left, y: area.bottom };
        drawing.rule("sl-axis", corner, Point { x: area.right, y: area.bottom });
        let mut y = area.top - 0.5 * ROW;
        let mut next = |drawing: &mut Drawing, name: &str| {
            y += ROW;
            for line in Letters::Small.wrapped(name, widest).iter().take(1) {
                let at = Point { x: area.left - 8.0, y: y + 0.35 * Letters::Small.size() };
                drawing.words(at, Letters::Small, Align::End, line);
            }
            y
        };
        let level = next(drawing, &units.say(PictureName::Read));
        let at = |p: GaugePressure, y: f64| Point { x: x(p), y };
        drawing.interval(at(interval.low, level), at(interval.high, level), false);
        drawing.marker(Shape::Diamond, "sl-ink", at(self.gauge.value(), level));
        let window = if self.rows > 0 { PictureName::OwnWindow } else { PictureName::HealthyCars };
        let level = next(drawing, &units.say(window));
        for (low, high, class) in [(0, 4, "sl-band"), (1, 3, "sl-core")] {
            let (top, bottom) = (level - 5.0, level + 5.0);
            drawing.rect(class, &Area { left: x(today[low]), top, right: x(today[high]), bottom });
        }
        drawing.rule("sl-main", at(today[2], level - 6.0), at(today[2], level + 6.0));
        for (band, name) in self.charts.iter().zip(&names) {
            let level = next(drawing, name);
            if band.range.low == band.range.high {
                drawing.marker(Shape::Cross, "sl-chartmark", at(band.range.low, level));
            } else {
                let class = if band.basis == Basis::Printed { "sl-chart" } else { "sl-chart sl-broken" };
                drawing.interval_of(class, at(band.range.low, level), at(band.range.high, level), false);
            }
        }
        drawing.skip(ROW * count as f64 + 10.0 + Letters::Soft.size());
    }
}

/// What a chart's name is to be read with.
fn remark(band: &Band<GaugePressure>, units: &Writing) -> String {
    units.say(match (band.chart.authority, band.basis, band.humidity_fits) {
        (Authority::Habit, ..) => PictureName::NoSource,
        (_, Basis::Derived(_), _) => PictureName::CarriedOver,
        (.., false) => PictureName::OtherHumidity,
        _ => return String::new(),
    })
}

fn bounds(numbers: impl Iterator<Item = f64>) -> (f64, f64) {
    numbers.fold((f64::INFINITY, f64::NEG_INFINITY), |(a, b), x| (a.min(x), b.max(x)))
}
