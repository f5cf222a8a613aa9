//! Where one quantity stands over a stretch: mean, spread, and whether it creeps.

use super::cell::{Cell, Moments};
use super::sample::{HIGH, LOW};
use crate::numeric::{student, variance_inflation};
use crate::service::Interval;
use crate::{Error, Quantity};

/// Fewer blocks give no interval.
const FEWEST_BLOCKS: usize = 6;
/// What the intervals leave out.
const BEYOND: f64 = 0.05;
/// Fewer blocks name no creep: how far neighbours resemble each other is not known well enough.
const FEWEST_FOR_CREEP: usize = 24;
/// A creep is named where zero lies outside the interval that leaves out this much: four quantities at once then name one
/// by chance in less than one stretch of twenty.
const NAMED_BEYOND: f64 = 0.01;

/// One quantity over a stretch.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Level<Q: Quantity> {
    /// Mean, with what scatter makes of it; the instrument's own error comes on top.
    pub mean: Interval<Q>,
    /// Where the straight line through the stretch ends.
    pub end: Interval<Q>,
    /// Standard deviation of single readings about that line.
    pub spread: Q::Difference,
    /// Change per minute.
    pub per_minute: Interval<Q::Difference>,
    /// Whether it creeps: see [`super::Stretch`].
    pub creeps: bool,
    /// How many readings count as one, because neighbours resemble each other; 1 where they do not.
    pub variance_inflation: f64,
}

/// A straight line through blocks.
#[derive(Debug, Clone)]
pub(super) struct Line {
    /// Sum of weights: readings.
    n: f64,
    t: f64,
    mean: f64,
    slope: f64,
    /// Variance of one reading as the blocks have it.
    variance: f64,
    /// Σ w (t − t̄)²
    lever: f64,
    variance_inflation: f64,
    blocks: usize,
    residuals: Vec<f64>,
    within: f64,
}

impl Line {
    /// Least squares, every block weighed by its readings.
    pub(super) fn through<'a>(blocks: impl Iterator<Item = &'a Cell>, channel: usize) -> Option<Self> {
        let points: Vec<(f64, Moments)> =
            blocks.map(|block| (block.t, block.channels[channel])).filter(|(_, moments)| moments.n > 0.0).collect();
        if points.len() < FEWEST_BLOCKS {
            return None;
        }
        let sum = |of: &dyn Fn(f64, &Moments) -> f64| points.iter().map(|(t, y)| of(*t, y)).sum::<f64>();
        let n = sum(&|_, y| y.n);
        // from the first point, so that neither a late hour nor a high pressure costs digits
        let (t0, y0) = (points[0].0, points[0].1.mean);
        let t = t0 + sum(&|t, y| y.n * (t - t0)) / n;
        let mean = y0 + sum(&|_, y| y.n * (y.mean - y0)) / n;
        let lever = sum(&|at, y| y.n * (at - t).powi(2));
        let slope = sum(&|at, y| y.n * (at - t) * (y.mean - mean)) / lever;
        let residuals: Vec<f64> =
            points.iter().map(|(at, y)| y.n.sqrt() * (y.mean - mean - slope * (at - t))).collect();
        let squares: f64 = residuals.iter().map(|e| e * e).sum();
        Some(Self {
            n,
            t,
            mean,
            slope,
            variance: squares / (points.len() - 2) as f64,
            lever,
            variance_inflation: variance_inflation(&residuals),
            blocks: points.len(),
            residuals,
            within: sum(&|_, y| y.squares),
        })
    }

    /// Degrees of freedom of the scatter: blocks that count, less the two figures of the line.
    fn freedom(&self) -> usize {
        ((self.blocks as f64 / self.variance_inflation).floor() as usize).saturating_sub(2).max(1)
    }

    /// Change over `span` seconds, and its standard uncertainty with correlation counted.
    pub(super) fn change(&self, span: f64) -> (f64, f64) {
        (self.slope * span, (self.variance_inflation * self.variance / self.lever).sqrt() * span)
    }

    /// Root mean square distance of the blocks from the line, as deviations of a block.
    pub(super) fn block_scatter(&self) -> f64 {
        (self.variance * self.blocks as f64 / self.n).sqrt()
    }

    /// Standard deviation of single readings inside their blocks.
    pub(super) fn within(&self) -> f64 {
        let freedom = self.n - self.blocks as f64;
        if freedom < 1.0 { 0.0 } else { (self.within / freedom).sqrt() }
    }

    /// Standard deviation of single readings about the line.
    fn spread(&self) -> f64 {
        let between: f64 = self.residuals.iter().map(|e| e * e).sum();
        ((between + self.within) / (self.n - 2.0).max(1.0)).sqrt()
    }
}

impl<Q: Quantity> Level<Q> {
    /// Of `blocks`; `step` is what readings are rounded to, in SI units. None where too little was measured.
    ///
    /// # Errors
    /// As [`student::quantile`].
    pub(super) fn of(blocks: &[Cell], channel: usize, step: f64) -> Result<Option<Self>, Error> {
        let Some(line) = Line::through(blocks.iter(), channel) else { return Ok(None) };
        let spread = line.spread();
        // a reading that never leaves its step may stand anywhere inside it
        let hidden = if spread < 0.5 * step { step * step / 12.0 } else { 0.0 };
        let length = blocks.last().map_or(0.0, |last| last.end) - blocks[0].start;
        let t = student::quantile(BEYOND, line.freedom())?;
        let half = t * (line.variance_inflation * line.variance / line.n + hidden).sqrt();
        let (change, standard) = line.change(60.0);
        let standard = standard.hypot((2.0 * hidden).sqrt() * 60.0 / length);
        let late = blocks.last().map_or(line.t, |last| last.end);
        let half_end = half.hypot(t * standard * (late - line.t) / 60.0);
        let per_minute = about(change, t * standard);
        let named = change.abs() > student::quantile(NAMED_BEYOND, line.freedom())? * standard;
        Ok(Some(Self {
            mean: about(line.mean, half),
            end: about(line.at(late), half_end),
            spread: Q::Difference::from_si(spread),
            per_minute,
            creeps: named && blocks.len() >= FEWEST_FOR_CREEP && goes_on(&blocks[blocks.len() / 2..], channel, change)?,
            variance_inflation: line.variance_inflation,
        }))
    }
}

/// A value give or take `half`, both in SI units.
pub(super) fn about<Q: Quantity>(value: f64, half: f64) -> Interval<Q> {
    let si = |x: f64| Some(Q::from_si(x));
    Interval { value: si(value), low: si(value - half), high: si(value + half) }
}

/// Whether the later half alone moves the same way as the whole, at 99 % one-sided: a tail of a start-up does not.
fn goes_on(later: &[Cell], channel: usize, change: f64) -> Result<bool, Error> {
    let Some(line) = Line::through(later.iter(), channel) else { return Ok(false) };
    let (own, standard) = line.change(60.0);
    Ok(own * change.signum() > student::quantile(2.0 * NAMED_BEYOND, line.freedom())? * standard)
}

/// Correlation of low and high side about their lines, and how many blocks count for it; none where one of them does not
/// move.
pub(super) fn opposition(blocks: &[Cell]) -> Option<(f64, f64)> {
    let (low, high) = (Line::through(blocks.iter(), LOW)?, Line::through(blocks.iter(), HIGH)?);
    let between: f64 = low.residuals.iter().zip(&high.residuals).map(|(a, b)| a * b).sum();
    let product = between + blocks.iter().map(|block| block.product).sum::<f64>();
    let squares = |line: &Line| line.residuals.iter().map(|e| e * e).sum::<f64>() + line.within;
    let all = (squares(&low) * squares(&high)).sqrt();
    (all > 0.0).then(|| (product / all, low.blocks as f64 / low.variance_inflation.max(high.variance_inflation)))
}

/// Two lines must explain this many times as much as noise would, for each of the three figures they add. The 1 % point of
/// the largest F over all places of a bend is between 5 and 6 (Andrews, Econometrica 61 (1993) 821; from memory); our choice
/// is above it.
const BENT_CLEARLY: f64 = 8.0;
/// And differ from one by this share of the tolerance, root mean square; our choice.
const BENT_ENOUGH: f64 = 0.25;

/// The block with which a side begins to go another way, where two straight lines explain it clearly better than one.
pub(super) fn kink(blocks: &[Cell], tolerance: &[f64; 2]) -> Option<usize> {
    let mut best: Option<(f64, usize)> = None;
    for (side, tolerance) in [LOW, HIGH].into_iter().zip(tolerance) {
        let Some(whole) = Line::through(blocks.iter(), side) else { continue };
        let squares = |line: &Line| line.residuals.iter().map(|e| e * e).sum::<f64>();
        let one = squares(&whole);
        for at in FEWEST_BLOCKS..(blocks.len() + 1).saturating_sub(FEWEST_BLOCKS) {
            let halves = (Line::through(blocks[..at].iter(), side), Line::through(blocks[at..].iter(), side));
            let (Some(before), Some(after)) = halves else { continue };
            let two = squares(&before) + squares(&after);
            let noise =
                before.variance_inflation.max(after.variance_inflation) * two / (blocks.len() as f64 - 5.0).max(1.0);
            let clear = (one - two) / 3.0 / noise.max(f64::MIN_POSITIVE);
            let enough = ((one - two).max(0.0) / whole.n).sqrt() > BENT_ENOUGH * tolerance;
            if enough && clear > best.map_or(BENT_CLEARLY, |(clear, _)| clear) {
                best = Some((clear, at));
            }
        }
    }
    best.map(|(_, at)| at)
}

impl Line {
    /// Where the line stands at `t`.
    pub(super) fn at(&self, t: f64) -> f64 {
        self.mean + self.slope * (t - self.t)
    }
}
