//! Turning points of the low side, distinguished from noise.

use super::noise::Noise;

/// Least size of a flank of the low and of the high side, in standard deviations of single readings; our choice. A thousand
/// readings of noise span six to seven standard deviations, but the high side, read where the low side turns, would have to
/// mirror six such flanks in a row.
const TIMES_NOISE: [f64; 2] = [5.0, 3.5];
/// Least size of a flank in standard uncertainties of the gauge; our choice.
const TIMES_TOLERANCE: f64 = 2.0;
/// Fewest readings of a flank for a parabola; our choice.
const MIN_FOR_PARABOLA: f64 = 7.0;
/// Fewest readings of a flank for a straight line, by definition.
const MIN_FOR_LINE: f64 = 2.0;
/// Determinant of a parabola below which its readings lie in one place, over the product of its diagonal; our choice.
const SINGULAR: f64 = 1e-9;
/// How far from the extreme reading flanks may meet, as a fraction of the shorter one; our choice.
const REACH: f64 = 0.25;

/// Kind of a turning point of the low side.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Turn {
    /// From rising to falling: clutch cut-in.
    Peak,
    /// From falling to rising: clutch cut-out.
    Trough,
}

/// A turning point, with both sides as read there.
#[derive(Debug, Clone, Copy)]
pub(super) struct TurningPoint {
    pub(super) turn: Turn,
    pub(super) t: f64,
    pub(super) low: f64,
    pub(super) high: f64,
}

/// A completed flank of the low side: from one turning point to the next.
#[derive(Debug, Clone, Copy)]
pub(super) struct Flank {
    pub(super) from: TurningPoint,
    pub(super) to: TurningPoint,
    /// Whether the high side moved the opposite way by at least its own threshold.
    pub(super) mirrored: bool,
    /// Number of readings on it.
    pub(super) n: f64,
    sums: Sums,
}

/// Power sums for the least-squares parabola through the readings of a flank.
#[derive(Debug, Clone, Copy)]
struct Sums {
    origin: f64,
    /// Σ xᵏ, k from 0 to 4
    x: [f64; 5],
    /// Σ xᵏ y, k from 0 to 2, y relative to `level`
    y: [f64; 3],
    level: f64,
}

impl Sums {
    fn new(origin: f64, level: f64) -> Self {
        Self { origin, x: [0.0; 5], y: [0.0; 3], level }
    }

    fn add(&mut self, t: f64, y: f64) {
        let (x, y) = (t - self.origin, y - self.level);
        let mut power = 1.0;
        for k in 0..5 {
            self.x[k] += power;
            if k < 3 {
                self.y[k] += power * y;
            }
            power *= x;
        }
    }

    /// The same sums about `origin`, by the binomial theorem.
    fn moved_to(&self, origin: f64) -> Self {
        /// Binomial coefficients, by definition.
        const CHOOSE: [[f64; 5]; 5] = [
            [1.0, 0.0, 0.0, 0.0, 0.0],
            [1.0, 1.0, 0.0, 0.0, 0.0],
            [1.0, 2.0, 1.0, 0.0, 0.0],
            [1.0, 3.0, 3.0, 1.0, 0.0],
            [1.0, 4.0, 6.0, 4.0, 1.0],
        ];
        let d = self.origin - origin;
        let moved = |of: &[f64], k: usize| (0..=k).map(|j| CHOOSE[k][j] * d.powi((k - j) as i32) * of[j]).sum::<f64>();
        let mut sums = Self::new(origin, self.level);
        for k in 0..5 {
            sums.x[k] = moved(&self.x, k);
        }
        for k in 0..3 {
            sums.y[k] = moved(&self.y, k);
        }
        sums
    }

    fn merge(&mut self, other: &Self) {
        // both have the same origin and level
        for k in 0..5 {
            self.x[k] += other.x[k];
        }
        for k in 0..3 {
            self.y[k] += other.y[k];
        }
    }

    /// The least-squares parabola, or a straight line with few readings, as a function of time; `None` with a single reading.
    fn curve(&self) -> Option<impl Fn(f64) -> f64 + use<>> {
        let [n, x1, x2, x3, x4] = self.x;
        let [y0, y1, y2] = self.y;
        if n < MIN_FOR_LINE {
            return None;
        }
        let line = |n: f64, x1: f64, x2: f64| {
            let determinant = n * x2 - x1 * x1;
            (determinant > 0.0).then(|| [(y0 * x2 - y1 * x1) / determinant, (n * y1 - x1 * y0) / determinant, 0.0])
        };
        let parabola = || {
            let determinant = n * (x2 * x4 - x3 * x3) - x1 * (x1 * x4 - x2 * x3) + x2 * (x1 * x3 - x2 * x2);
            // Cramer's rule
            (determinant > SINGULAR * n * x2 * x4).then(|| {
                let a = y0 * (x2 * x4 - x3 * x3) - x1 * (y1 * x4 - x3 * y2) + x2 * (y1 * x3 - x2 * y2);
                let b = n * (y1 * x4 - y2 * x3) - y0 * (x1 * x4 - x2 * x3) + x2 * (x1 * y2 - x2 * y1);
                let c = n * (x2 * y2 - x3 * y1) - x1 * (x1 * y2 - x2 * y1) + y0 * (x1 * x3 - x2 * x2);
                [a / determinant, b / determinant, c / determinant]
            })
        };
        let [a, b, c] = if n >= MIN_FOR_PARABOLA { parabola().or_else(|| line(n, x1, x2))? } else { line(n, x1, x2)? };
        let (origin, level) = (self.origin, self.level);
        Some(move |t: f64| level + a + (b + c * (t - origin)) * (t - origin))
    }
}

/// Intersection of the curves through two consecutive flanks, as time and low side; the extreme reading if they do not meet.
pub(super) fn corner(before: &Flank, after: &Flank) -> (f64, f64) {
    let read = (before.to.t, before.to.low);
    let (Some(left), Some(right)) = (before.sums.curve(), after.sums.curve()) else { return read };
    let reach = REACH * (before.to.t - before.from.t).min(after.to.t - after.from.t);
    let (mut from, mut to) = (read.0 - reach, read.0 + reach);
    let apart = |t: f64| left(t) - right(t);
    if apart(from) * apart(to) >= 0.0 {
        return read;
    }
    for _ in 0..50 {
        let middle = 0.5 * (from + to);
        if apart(from) * apart(middle) <= 0.0 { to = middle } else { from = middle }
    }
    let low = 0.5 * (left(from) + right(from));
    // readings too close in time give no curve
    if low.is_finite() { (from, low) } else { read }
}

/// Finds the turning points of the low side as readings come in.
#[derive(Debug, Clone)]
pub(super) struct TurningPoints {
    tolerance: [f64; 2],
    noise: [Noise; 2],
    course: Course,
}

#[derive(Debug, Clone)]
enum Course {
    Empty,
    /// No turning point yet: lowest and highest reading.
    Undecided {
        lowest: TurningPoint,
        highest: TurningPoint,
    },
    /// From `from` towards `ahead`, the extreme reading so far; readings after `ahead` are summed apart. Neither of the two
    /// is in the sums: which side of them the corner lies on is unknown.
    Flank {
        from: TurningPoint,
        ahead: TurningPoint,
        flank: Sums,
        beyond: Sums,
    },
}

impl TurningPoints {
    pub(super) fn new(tolerance: [f64; 2]) -> Self {
        Self { tolerance, noise: [Noise::new(), Noise::new()], course: Course::Empty }
    }

    /// Least size of a flank of the low and of the high side; `None` until the noise is known.
    pub(super) fn threshold(&self) -> Option<[f64; 2]> {
        let of = |side: usize| {
            let noise = self.noise[side].deviation()?;
            Some((TIMES_NOISE[side] * noise).max(TIMES_TOLERANCE * self.tolerance[side]))
        };
        Some([of(0)?, of(1)?])
    }

    /// Standard deviation of single readings of the low (0) or high side (1).
    pub(super) fn noise(&self, side: usize) -> f64 {
        self.noise[side].deviation().unwrap_or(0.0)
    }

    /// Takes a reading and returns the flank that it completes, if any.
    pub(super) fn push(&mut self, t: f64, low: f64, high: f64) -> Option<Flank> {
        self.noise[0].push(t, low);
        self.noise[1].push(t, high);
        let threshold = self.threshold();
        let here = |turn| TurningPoint { turn, t, low, high };
        match &mut self.course {
            Course::Empty => {
                self.course = Course::Undecided { lowest: here(Turn::Trough), highest: here(Turn::Peak) };
            }
            Course::Undecided { lowest, highest } => {
                if low < lowest.low {
                    *lowest = here(Turn::Trough);
                }
                if low > highest.low {
                    *highest = here(Turn::Peak);
                }
                let [enough, _] = threshold?;
                let begin = |from: TurningPoint, turn| {
                    let none = Sums::new(from.t, from.low);
                    Course::Flank { from, ahead: here(turn), flank: none, beyond: none }
                };
                if low - lowest.low >= enough {
                    self.course = begin(*lowest, Turn::Peak);
                } else if highest.low - low >= enough {
                    self.course = begin(*highest, Turn::Trough);
                }
            }
            Course::Flank { from, ahead, flank, beyond } => {
                let up = ahead.turn == Turn::Peak;
                if (up && low >= ahead.low) || (!up && low <= ahead.low) {
                    flank.add(ahead.t, ahead.low);
                    flank.merge(beyond);
                    *beyond = Sums::new(flank.origin, flank.level);
                    *ahead = here(ahead.turn);
                    return None;
                }
                let [enough, enough_high] = threshold.unwrap_or([f64::INFINITY; 2]);
                if (ahead.low - low).abs() < enough {
                    beyond.add(t, low);
                    return None;
                }
                let opposite = (ahead.low - from.low) * (ahead.high - from.high) < 0.0;
                let mirrored = opposite && (ahead.high - from.high).abs() >= enough_high;
                let ended = Flank { from: *from, to: *ahead, mirrored, n: flank.x[0] + 1.0, sums: *flank };
                let turned = if up { Turn::Trough } else { Turn::Peak };
                let flank = beyond.moved_to(ahead.t);
                let beyond = Sums::new(flank.origin, flank.level);
                self.course = Course::Flank { from: *ahead, ahead: here(turned), flank, beyond };
                return Some(ended);
            }
        }
        None
    }
}
