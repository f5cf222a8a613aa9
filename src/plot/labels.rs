//! Placement of labels: no two overlap, none leaves its area, and lines are crossed only if nothing else is free.

use super::svg::Point;

/// A rectangle of the canvas.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Area {
    pub(super) left: f64,
    pub(super) top: f64,
    pub(super) right: f64,
    pub(super) bottom: f64,
}

impl Area {
    pub(super) const fn around(centre: Point, width: f64, height: f64) -> Self {
        Self {
            left: centre.x - 0.5 * width,
            top: centre.y - 0.5 * height,
            right: centre.x + 0.5 * width,
            bottom: centre.y + 0.5 * height,
        }
    }

    pub(super) const fn width(&self) -> f64 {
        self.right - self.left
    }

    pub(super) const fn height(&self) -> f64 {
        self.bottom - self.top
    }

    pub(super) fn overlaps(&self, other: &Self) -> bool {
        self.left < other.right && other.left < self.right && self.top < other.bottom && other.top < self.bottom
    }

    pub(super) fn holds(&self, other: &Self) -> bool {
        self.left <= other.left && other.right <= self.right && self.top <= other.top && other.bottom <= self.bottom
    }

    /// The part of the segment from `a` to `b` that lies inside, as fractions of it (Liang & Barsky 1984, from memory).
    pub(super) fn clip(&self, a: Point, b: Point) -> Option<(f64, f64)> {
        let (dx, dy) = (b.x - a.x, b.y - a.y);
        let (mut from, mut to) = (0.0_f64, 1.0_f64);
        let sides = [(-dx, a.x - self.left), (dx, self.right - a.x), (-dy, a.y - self.top), (dy, self.bottom - a.y)];
        for (towards, room) in sides {
            if towards == 0.0 {
                if room < 0.0 {
                    return None;
                }
            } else {
                let share = room / towards;
                if towards < 0.0 { from = from.max(share) } else { to = to.min(share) }
            }
        }
        (from <= to).then_some((from, to))
    }

    /// The place inside that is nearest to `p`.
    pub(super) fn nearest(&self, p: Point) -> Point {
        Point { x: p.x.clamp(self.left, self.right), y: p.y.clamp(self.top, self.bottom) }
    }
}

/// The content of the canvas, as far as labels must avoid it.
#[derive(Debug, Default)]
pub(super) struct Placer {
    /// Words and markers: never covered.
    taken: Vec<Area>,
    /// Lines: crossed at a cost.
    lines: Vec<(Point, Point)>,
    /// Main lines: crossed at twice the cost, and never interrupted.
    strong: Vec<(Point, Point)>,
    /// Filled shapes: covered at a cost.
    filled: Vec<Area>,
}

/// Directions in which a label may lie from its point, in units of half its size.
const AROUND: [(f64, f64); 12] = [
    (1.0, 0.0),
    (1.0, -1.0),
    (1.0, 1.0),
    (-1.0, 0.0),
    (-1.0, -1.0),
    (-1.0, 1.0),
    (0.0, -1.0),
    (0.0, 1.0),
    (0.5, -1.0),
    (0.5, 1.0),
    (-0.5, -1.0),
    (-0.5, 1.0),
];

/// Distances of a label from its point, in canvas units; our choice.
const DISTANCES: [f64; 8] = [6.0, 10.0, 16.0, 24.0, 34.0, 48.0, 66.0, 90.0];

/// Distance from which on a leader connects the label with its point.
pub(super) const LEADER: f64 = 15.0;

/// Cost of crossing a line, as a distance; our choice.
const CROSSING: f64 = 20.0;
/// Cost of covering a filled shape, as a distance; our choice.
const FILLED: f64 = 40.0;

impl Placer {
    pub(super) fn take(&mut self, area: Area) {
        self.taken.push(area);
    }

    pub(super) fn line(&mut self, from: Point, to: Point) {
        self.lines.push((from, to));
    }

    pub(super) fn strong(&mut self, from: Point, to: Point) {
        self.strong.push((from, to));
    }

    pub(super) fn filled(&mut self, area: Area) {
        self.filled.push(area);
    }

    /// Whether a main line passes through.
    pub(super) fn cuts(&self, area: &Area) -> bool {
        self.strong.iter().any(|(a, b)| area.clip(*a, *b).is_some())
    }

    pub(super) fn free(&self, area: &Area) -> bool {
        !self.taken.iter().any(|other| other.overlaps(area))
    }

    /// The best free place for a label of this size near `point` inside `room`, and whether it needs a leader; `None` if
    /// nothing is free.
    pub(super) fn find(&self, point: Point, width: f64, height: f64, room: &Area) -> Option<(Area, bool)> {
        let mut best: Option<(f64, Area, bool)> = None;
        for far in DISTANCES {
            for (i, (right, down)) in AROUND.iter().enumerate() {
                let centre =
                    Point { x: point.x + right * (far + 0.5 * width), y: point.y + down * (far + 0.5 * height) };
                let area = Area::around(centre, width, height);
                if !room.holds(&area) || !self.free(&area) {
                    continue;
                }
                let end = area.nearest(point);
                let away = (end.x - point.x).hypot(end.y - point.y);
                let led = away > LEADER;
                // the leader starts a marker's size away from the point
                let start = Point {
                    x: point.x + (end.x - point.x) * 7.0 / away.max(7.0),
                    y: point.y + (end.y - point.y) * 7.0 / away.max(7.0),
                };
                if led && self.taken.iter().any(|other| other.clip(start, end).is_some()) {
                    continue;
                }
                let crossed = |lines: &[(Point, Point)]| {
                    lines.iter().filter(|(a, b)| area.clip(*a, *b).is_some()).count().min(4) as f64
                };
                let crossed = CROSSING * (crossed(&self.lines) + 2.0 * crossed(&self.strong));
                let filled = if self.filled.iter().any(|other| other.overlaps(&area)) { FILLED } else { 0.0 };
                let cost = away + crossed + filled + 0.3 * i as f64 + if led { 12.0 } else { 0.0 };
                if best.is_none_or(|(least, ..)| cost < least) {
                    best = Some((cost, area, led));
                }
            }
        }
        best.map(|(_, area, led)| (area, led))
    }
}

#[cfg(test)]
mod tests {
    use super::{Area, Placer};
    use crate::plot::svg::Point;

    #[test]
    fn labels_never_overlap_and_never_leave_their_room() {
        let room = Area { left: 0.0, top: 0.0, right: 300.0, bottom: 200.0 };
        let mut state = 1_u64;
        let mut random = |below: f64| {
            state = state.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
            (state >> 33) as f64 / f64::from(1_u32 << 31) * below
        };
        for _ in 0..200 {
            let mut placer = Placer::default();
            let mut placed: Vec<Area> = Vec::new();
            for _ in 0..25 {
                let point = Point { x: random(300.0), y: random(200.0) };
                placer.line(point, Point { x: random(300.0), y: random(200.0) });
                if let Some((area, _)) = placer.find(point, 20.0 + random(80.0), 14.0, &room) {
                    assert!(room.holds(&area), "{area:?}");
                    assert!(placed.iter().all(|other| !other.overlaps(&area)), "{area:?} on {placed:?}");
                    placer.take(area);
                    placed.push(area);
                }
            }
            assert!(placed.len() > 8, "only {} of 25 found a place", placed.len());
        }
    }

    #[test]
    fn a_line_is_clipped_to_what_lies_inside() {
        let area = Area { left: 0.0, top: 0.0, right: 10.0, bottom: 10.0 };
        let at = |x: f64, y: f64| Point { x, y };
        assert_eq!(area.clip(at(-10.0, 5.0), at(10.0, 5.0)), Some((0.5, 1.0)));
        assert_eq!(area.clip(at(-10.0, 5.0), at(-1.0, 5.0)), None);
        assert_eq!(area.clip(at(5.0, 20.0), at(5.0, -20.0)), Some((0.25, 0.5)));
        assert_eq!(area.clip(at(11.0, 0.0), at(11.0, 10.0)), None);
    }
}
