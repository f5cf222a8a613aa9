//! A picture being drawn from its heading downwards; no two lines of words overlap.

use super::labels::{Area, Placer};
use super::letters::{Align, Letters};
use super::svg::{Point, Svg, escape, number};
use super::{Picture, STYLE};

/// Width of the canvas of a picture for a page.
pub(super) const WIDTH: f64 = 440.0;
/// Margin of the canvas.
pub(super) const MARGIN: f64 = 10.0;
/// Half the size of a marker.
const MARKER: f64 = 5.0;

/// Classes of the main lines of a picture, which labels on other lines do not interrupt.
const STRONG: [&str; 4] = ["sl-main", "sl-low", "sl-high", "sl-bold"];

/// The shapes of markers, distinct without colour.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Shape {
    Circle,
    Square,
    Triangle,
    Diamond,
    Cross,
    Dot,
}

/// The sample before a line of the legend.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum Sample {
    /// A marker of this class.
    Marker(Shape, &'static str),
    /// A line of this class.
    Line(&'static str),
    /// A filled band of this class.
    Band(&'static str),
    /// None: the picture does not show what the line names.
    None,
}

#[derive(Debug)]
pub(super) struct Drawing {
    name: String,
    svg: Svg,
    placer: Placer,
    width: f64,
    /// The canvas is filled down to here.
    y: f64,
}

impl Drawing {
    /// An empty canvas for the picture called `name`.
    pub(super) fn new(name: impl Into<String>, width: f64) -> Self {
        Self { name: name.into(), svg: Svg::default(), placer: Placer::default(), width, y: MARGIN }
    }

    /// The line below which the canvas is empty.
    pub(super) const fn y(&self) -> f64 {
        self.y
    }

    pub(super) const fn right(&self) -> f64 {
        self.width - MARGIN
    }

    /// Reserves `height` for other drawing or as space.
    pub(super) fn skip(&mut self, height: f64) {
        self.y += height;
    }

    /// A sentence over the width of the picture.
    pub(super) fn sentence(&mut self, letters: Letters, words: &str) {
        self.sentence_from(MARGIN, letters, words);
    }

    fn sentence_from(&mut self, left: f64, letters: Letters, words: &str) {
        for line in letters.wrapped(words, self.right() - left) {
            self.y += letters.leading();
            let baseline = self.y - 0.3 * letters.size();
            self.words(Point { x: left, y: baseline }, letters, Align::Start, &line);
        }
    }

    /// A line of the legend: a sample and its meaning.
    pub(super) fn key(&mut self, sample: Sample, words: &str) {
        const SAMPLE: f64 = 30.0;
        let middle = self.y + 0.5 * Letters::Plain.leading() + 0.5;
        let at = |x| Point { x: MARGIN + x, y: middle };
        match sample {
            Sample::Marker(shape, class) => self.shape(shape, class, at(0.5 * SAMPLE - 4.0)),
            Sample::Line(class) => self.svg.line(class, at(0.0), at(SAMPLE - 8.0)),
            Sample::None => {}
            Sample::Band(class) => {
                self.svg.rect(class, Point { x: MARGIN, y: middle - MARKER }, SAMPLE - 8.0, 2.0 * MARKER);
            }
        }
        self.sentence_from(MARGIN + SAMPLE, Letters::Plain, words);
        self.y += 2.0;
    }

    /// One line of words with its baseline at `at`, which the caller knows to be free.
    pub(super) fn words(&mut self, at: Point, letters: Letters, align: Align, words: &str) {
        self.svg.text(letters.class(align), at, words);
        self.placer.take(extent(at, letters, align, words));
    }

    /// One line of words if the place is free and inside the canvas; returns whether it was.
    pub(super) fn words_if_free(&mut self, at: Point, letters: Letters, align: Align, words: &str) -> bool {
        let extent = extent(at, letters, align, words);
        let fits = extent.left >= 2.0 && extent.right <= self.width - 2.0 && self.placer.free(&extent);
        if fits {
            self.words(at, letters, align, words);
        }
        fits
    }

    /// A label near `point` inside `room`; returns whether there was space.
    pub(super) fn label(&mut self, point: Point, letters: Letters, lines: &[&str], room: &Area) -> bool {
        let width = lines.iter().map(|line| letters.width(line)).fold(0.0, f64::max) + 2.0;
        let height = letters.leading() * lines.len() as f64;
        let Some((area, led)) = self.placer.find(point, width, height, room) else { return false };
        if led {
            let end = area.nearest(point);
            let away = (end.x - point.x).hypot(end.y - point.y);
            let from =
                |share: f64| Point { x: point.x + (end.x - point.x) * share, y: point.y + (end.y - point.y) * share };
            self.svg.line("sl-lead", from(7.0 / away.max(7.0)), end);
        }
        // aligned towards its point, so that the shorter of two lines stays near it
        let align = if area.left >= point.x {
            Align::Start
        } else if area.right <= point.x {
            Align::End
        } else {
            Align::Middle
        };
        let x = match align {
            Align::Start => area.left + 1.0,
            Align::Middle => 0.5 * (area.left + area.right),
            Align::End => area.right - 1.0,
        };
        for (i, line) in lines.iter().enumerate() {
            let y = area.top + letters.leading() * (i as f64 + 1.0) - 0.3 * letters.size();
            let class = format!("{} sl-halo", letters.class(align));
            self.svg.text(&class, Point { x, y }, line);
        }
        self.placer.take(area);
        true
    }

    /// Words on a line at the first free one of `places`; returns whether one was free.
    pub(super) fn label_on(&mut self, places: &[Point], letters: Letters, words: &str, room: &Area) -> bool {
        for place in places {
            let area = Area::around(*place, letters.width(words) + 4.0, letters.size() + 2.0);
            if room.holds(&area) && self.placer.free(&area) && !self.placer.cuts(&area) {
                // interrupt the line behind the words
                self.rect("sl-page", &area);
                let at = Point { x: place.x, y: place.y + 0.35 * letters.size() };
                self.svg.text(letters.class(Align::Middle), at, words);
                self.placer.take(area);
                return true;
            }
        }
        false
    }

    /// A marker, which no label covers.
    pub(super) fn marker(&mut self, shape: Shape, class: &str, at: Point) {
        self.shape(shape, class, at);
        self.placer.take(Area::around(at, 2.0 * MARKER, 2.0 * MARKER));
    }

    fn shape(&mut self, shape: Shape, class: &str, at: Point) {
        let p = |dx: f64, dy: f64| Point { x: at.x + dx * MARKER, y: at.y + dy * MARKER };
        let class = format!("sl-mark {class}");
        match shape {
            Shape::Circle => self.svg.circle(&class, at, MARKER - 0.5),
            Shape::Dot => self.svg.circle(&class, at, 2.2),
            Shape::Square => self.svg.rect(&class, p(-0.85, -0.85), 1.7 * MARKER, 1.7 * MARKER),
            Shape::Triangle => self.svg.path(&class, &[p(0.0, -1.1), p(1.1, 0.9), p(-1.1, 0.9)], true),
            Shape::Diamond => self.svg.path(&class, &[p(0.0, -1.2), p(1.2, 0.0), p(0.0, 1.2), p(-1.2, 0.0)], true),
            Shape::Cross => {
                self.svg.line(&class, p(-0.9, -0.9), p(0.9, 0.9));
                self.svg.line(&class, p(-0.9, 0.9), p(0.9, -0.9));
            }
        }
    }

    /// A straight line that labels avoid.
    pub(super) fn line(&mut self, class: &str, from: Point, to: Point) {
        self.svg.line(class, from, to);
        self.placer.line(from, to);
    }

    /// An error bar.
    pub(super) fn interval(&mut self, from: Point, to: Point, upright: bool) {
        self.interval_of("sl-main", from, to, upright);
    }

    /// An error bar of another class.
    pub(super) fn interval_of(&mut self, class: &str, from: Point, to: Point, upright: bool) {
        self.line(class, from, to);
        let (dx, dy) = if upright { (3.5, 0.0) } else { (0.0, 3.5) };
        for end in [from, to] {
            let at = |sign: f64| Point { x: end.x + sign * dx, y: end.y + sign * dy };
            self.svg.line(class, at(-1.0), at(1.0));
        }
    }

    /// A background line, which labels may cover.
    pub(super) fn rule(&mut self, class: &str, from: Point, to: Point) {
        self.svg.line(class, from, to);
    }

    /// A line through points, which labels avoid.
    pub(super) fn curve(&mut self, class: &str, points: &[Point]) {
        self.svg.path(class, points, false);
        for pair in points.windows(2) {
            if STRONG.iter().any(|strong| class.contains(strong)) {
                self.placer.strong(pair[0], pair[1]);
            } else {
                self.placer.line(pair[0], pair[1]);
            }
        }
    }

    /// Marks the area of a filled shape, which labels cover only if nothing else is free.
    pub(super) fn filled(&mut self, area: Area) {
        self.placer.filled(area);
    }

    /// A filled background shape.
    pub(super) fn fill(&mut self, class: &str, points: &[Point]) {
        self.svg.path(class, points, true);
    }

    pub(super) fn rect(&mut self, class: &str, area: &Area) {
        self.svg.rect(class, Point { x: area.left, y: area.top }, area.width(), area.height());
    }

    /// The finished picture, as high as its content.
    pub(super) fn finish(self, title: String, description: String) -> Picture {
        let height = self.y + MARGIN;
        self.finish_at(height, title, description)
    }

    /// The finished picture of a given height.
    pub(super) fn finish_at(self, height: f64, title: String, description: String) -> Picture {
        let Self { name, svg, width, .. } = self;
        let (w, h) = (number(width), number(height));
        let body = svg.into_text();
        let (heading, told) = (escape(&title), escape(&description));
        let svg = format!(
            "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 {w} {h}\" role=\"img\" \
             aria-labelledby=\"{name}-title {name}-desc\">\n<title id=\"{name}-title\">{heading}</title>\n\
             <desc id=\"{name}-desc\">{told}</desc>\n<style>{STYLE}</style>\n\
             <rect class=\"sl-page\" width=\"{w}\" height=\"{h}\"/>\n{body}</svg>\n"
        );
        Picture { title, description, name, svg }
    }
}

/// The area of a line of words.
fn extent(at: Point, letters: Letters, align: Align, words: &str) -> Area {
    let width = letters.width(words);
    let left = match align {
        Align::Start => at.x,
        Align::Middle => at.x - 0.5 * width,
        Align::End => at.x - width,
    };
    let (up, down) = (0.85 * letters.size(), 0.25 * letters.size());
    Area { left, top: at.y - up, right: left + width, bottom: at.y + down }
}
