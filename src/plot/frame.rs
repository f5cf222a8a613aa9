//! A pair of axes on the canvas: grid, tick labels, titles, and the map from values to the canvas.

use super::axis::Axis;
use super::drawing::{Drawing, MARGIN};
use super::labels::Area;
use super::letters::{Align, Letters};
use super::svg::Point;

/// The axes and the area they span.
#[derive(Debug)]
pub(super) struct Frame {
    x: Axis,
    y: Axis,
    area: Area,
}

impl Frame {
    /// Draws axes below the content so far, spanning an area of this `height`, numbers with the decimal sign `point`. Each title names
    /// quantity and unit.
    pub(super) fn draw(drawing: &mut Drawing, point: char, x: (Axis, &str), y: (Axis, &str), height: f64) -> Self {
        Self::with_room(drawing, point, x, y, height, 8.0)
    }

    /// The same with `room` on the right for labels at the ends of lines.
    pub(super) fn with_room(
        drawing: &mut Drawing,
        point: char,
        (x, x_title): (Axis, &str),
        (y, y_title): (Axis, &str),
        height: f64,
        room: f64,
    ) -> Self {
        let soft = Letters::Soft;
        let (x, y) = (x.pointed(point), y.pointed(point));
        let widest = y.ticks().iter().map(|(_, number)| soft.width(number)).fold(0.0, f64::max);
        drawing.sentence(soft, y_title);
        drawing.skip(7.0);
        let top = drawing.y();
        let area = Area { left: MARGIN + widest + 5.0, top, right: drawing.right() - room, bottom: top + height };
        let frame = Self { x, y, area };
        for value in frame.x.between() {
            let x = frame.x_at(*value);
            drawing.rule("sl-grid", Point { x, y: area.top }, Point { x, y: area.bottom });
        }
        for value in frame.y.between() {
            let y = frame.y_at(*value);
            drawing.rule("sl-grid", Point { x: area.left, y }, Point { x: area.right, y });
        }
        for (value, number) in frame.y.ticks() {
            let y = frame.y_at(*value);
            drawing.rule("sl-grid", Point { x: area.left, y }, Point { x: area.right, y });
            let baseline = y + 0.35 * soft.size();
            drawing.words_if_free(Point { x: area.left - 5.0, y: baseline }, soft, Align::End, number);
        }
        let baseline = area.bottom + 5.0 + soft.size();
        for (value, number) in frame.x.ticks() {
            let x = frame.x_at(*value);
            drawing.rule("sl-grid", Point { x, y: area.top }, Point { x, y: area.bottom });
            drawing.words_if_free(Point { x, y: baseline }, soft, Align::Middle, number);
        }
        let corner = Point { x: area.left, y: area.bottom };
        drawing.rule("sl-axis", Point { x: area.left, y: area.top }, corner);
        drawing.rule("sl-axis", corner, Point { x: area.right, y: area.bottom });
        drawing.skip(height + 10.0 + soft.size() + soft.size() + 5.0);
        let below = Point { x: area.right, y: drawing.y() - 4.0 };
        drawing.words(below, soft, Align::End, x_title);
        drawing.skip(4.0);
        frame
    }

    pub(super) const fn area(&self) -> &Area {
        &self.area
    }

    pub(super) const fn x(&self) -> &Axis {
        &self.x
    }

    pub(super) const fn y(&self) -> &Axis {
        &self.y
    }

    /// Whether a value lies inside the axes.
    pub(super) fn shows(&self, x: f64, y: f64) -> bool {
        let p = self.at(x, y);
        self.area.nearest(p) == p
    }

    /// The place at a fraction of the width from the left and of the height from the bottom.
    pub(super) fn within(&self, x: f64, y: f64) -> Point {
        let Area { left, bottom, .. } = self.area;
        Point { x: left + x * self.area.width(), y: bottom - y * self.area.height() }
    }

    pub(super) fn x_at(&self, x: f64) -> f64 {
        self.area.left + self.x.share(x) * self.area.width()
    }

    pub(super) fn y_at(&self, y: f64) -> f64 {
        self.area.bottom - self.y.share(y) * self.area.height()
    }

    pub(super) fn at(&self, x: f64, y: f64) -> Point {
        Point { x: self.x_at(x), y: self.y_at(y) }
    }

    /// The place of a value, clamped to the area.
    pub(super) fn at_edge(&self, x: f64, y: f64) -> Point {
        self.area.nearest(self.at(x, y))
    }

    /// A line through values, clipped to the area; labels avoid it.
    pub(super) fn curve(&self, drawing: &mut Drawing, class: &str, values: &[(f64, f64)]) {
        let mut piece: Vec<Point> = Vec::new();
        for pair in values.windows(2) {
            let (a, b) = (self.at(pair[0].0, pair[0].1), self.at(pair[1].0, pair[1].1));
            let Some((from, to)) = self.area.clip(a, b).filter(|(from, to)| from < to) else { continue };
            let between = |share: f64| Point { x: a.x + share * (b.x - a.x), y: a.y + share * (b.y - a.y) };
            if from > 0.0 || piece.is_empty() {
                Self::stroke(drawing, class, &mut piece);
                piece.push(between(from));
            }
            piece.push(between(to));
            if to < 1.0 {
                Self::stroke(drawing, class, &mut piece);
            }
        }
        Self::stroke(drawing, class, &mut piece);
    }

    fn stroke(drawing: &mut Drawing, class: &str, piece: &mut Vec<Point>) {
        if piece.len() > 1 {
            drawing.curve(class, piece);
        }
        piece.clear();
    }
}
