//! The trend of one quantity over a period: mean, slope, scatter, and whether it drifts.

use super::cell::{Cell, Moments};
use super::sample::{HIGH, LOW};
use crate::numeric::{student, variance_inflation};
use crate::service::Interval;
use crate::{Error, Quantity};

/// Blocks below which there is no interval.
const MIN_BLOCKS: usize = 6;
/// Two-sided error probability of the intervals, 95 % by definition.
pub(super) const INTERVAL_ALPHA: f64 = 0.05;
/// Blocks below which no drift is reported: the autocorrelation of fewer is too uncertain.
const MIN_BLOCKS_FOR_DRIFT: usize = 24;
/// Two-sided significance level of a drift: four quantities at once then yield a false one in fewer than one period of
/// twenty; our choice.
const DRIFT_ALPHA: f64 = 0.01;

/// Trend of one quantity over a steady period, by a fitted straight line; see the [module](crate::trace).
#[derive(Debug, Clone, Copy, PartialEq)]
#[cfg_attr(
    feature = "serde",
    derive(serde::Serialize, serde::Deserialize),
    serde(
        deny_unknown_fields,
        bound(
            serialize = "Q: serde::Serialize, Q::Difference: serde::Serialize",
            deserialize = "Q: serde::de::DeserializeOwned, Q::Difference: serde::de::DeserializeOwned"
        )
    )
)]
#[non_exhaustive]
pub struct Trend<Q: Quantity> {
    /// Mean with its statistical 95 % interval; the error of the instrument adds to it.
    pub mean: Interval<Q>,
    /// Value of the line at the end of the period.
    pub end: Interval<Q>,
    /// Standard deviation of single readings about the line.
    pub standard_deviation: Q::Difference,
    /// Slope of the line, as change per minute.
    pub per_minute: Interval<Q::Difference>,
    /// Whether the slope is significant at 1 % and persists in the second half of the period.
    pub drifts: bool,
    /// Variance inflation by autocorrelated residuals; 1 for independent readings.
    pub variance_inflation: f64,
}

/// Direction in which a quantity drifts.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(rename_all = "kebab-case"))]
pub enum Drift {
    /// The quantity rises.
    Rising,
    /// The quantity falls.
    Falling,
}

/// A weighted least-squares line through blocks.
#[derive(Debug, Clone)]
pub(super) struct LineFit {
    /// Sum of weights: readings.
    n: f64,
    /// Weighted mean time.
    t: f64,
    mean: f64,
    slope: f64,
    /// Variance of one reading, estimated from the blocks.
    variance: f64,
    /// Σ w (t − t̄)²
    weighted_squares_t: f64,
    variance_inflation: f64,
    blocks: usize,
    /// Weighted by √w.
    residuals: Vec<f64>,
    /// Sum of squares inside the blocks.
    within: f64,
}

impl LineFit {
    /// Weighted least squares; the weight of a block is its number of readings. `None` with too few blocks, or if their times
    /// are too close together to tell a slope.
    pub(super) fn through<'a>(blocks: impl Iterator<Item = &'a Cell>, channel: usize) -> Option<Self> {
        let points: Vec<(f64, Moments)> =
            blocks.map(|block| (block.t, block.channels[channel])).filter(|(_, moments)| moments.n > 0.0).collect();
        if points.len() < MIN_BLOCKS {
            return None;
        }
        let sum = |of: &dyn Fn(f64, &Moments) -> f64| points.iter().map(|(t, y)| of(*t, y)).sum::<f64>();
        let n = sum(&|_, y| y.n);
        // relative to the first point, so that neither a late hour nor a high pressure costs digits
        let (t0, y0) = (points[0].0, points[0].1.mean);
        let t = t0 + sum(&|t, y| y.n * (t - t0)) / n;
        let mean = y0 + sum(&|_, y| y.n * (y.mean - y0)) / n;
        let weighted_squares_t = sum(&|at, y| y.n * (at - t).powi(2));
        let slope = sum(&|at, y| y.n * (at - t) * (y.mean - mean)) / weighted_squares_t;
        let residuals: Vec<f64> =
            points.iter().map(|(at, y)| y.n.sqrt() * (y.mean - mean - slope * (at - t))).collect();
        let squares: f64 = residuals.iter().map(|e| e * e).sum();
        let variance = squares / (points.len() - 2) as f64;
        let within = sum(&|_, y| y.squares);
        // the squares of times too close together vanish
        let finite = [mean, slope, variance / weighted_squares_t, within].iter().all(|x| x.is_finite());
        finite.then(|| Self {
            n,
            t,
            mean,
            slope,
            variance,
            weighted_squares_t,
            variance_inflation: variance_inflation(&residuals),
            blocks: points.len(),
            residuals,
            within,
        })
    }

    /// The line at `t`.
    pub(super) fn at(&self, t: f64) -> f64 {
        self.mean + self.slope * (t - self.t)
    }

    /// Change over `span` seconds, and its standard uncertainty with autocorrelation.
    pub(super) fn change(&self, span: f64) -> (f64, f64) {
        let standard = (self.variance_inflation * self.variance / self.weighted_squares_t).sqrt();
        (self.slope * span, standard * span)
    }

    /// Root mean square distance of the blocks from the line.
    pub(super) fn block_scatter(&self) -> f64 {
        (self.variance * self.blocks as f64 / self.n).sqrt()
    }

    /// Standard deviation of single readings inside their blocks.
    pub(super) fn within(&self) -> f64 {
        let freedom = self.n - self.blocks as f64;
        if freedom < 1.0 { 0.0 } else { (self.within / freedom).sqrt() }
    }

    /// Effective degrees of freedom: effective number of blocks, less the two parameters of the line.
    fn freedom(&self) -> usize {
        ((self.blocks as f64 / self.variance_inflation).floor() as usize).saturating_sub(2).max(1)
    }

    /// Sum of squared residuals of the blocks.
    fn squares(&self) -> f64 {
        self.residuals.iter().map(|e| e * e).sum()
    }

    /// Standard deviation of single readings about the line.
    fn standard_deviation(&self) -> f64 {
        ((self.squares() + self.within) / (self.n - 2.0).max(1.0)).sqrt()
    }
}

impl<Q: Quantity> Trend<Q> {
    /// The trend over `blocks`; `resolution` is the step of the readings in SI units. `None` with too few readings.
    ///
    /// # Errors
    /// Those of [`student::quantile`], which do not occur for these probabilities.
    pub(super) fn of(blocks: &[Cell], channel: usize, resolution: f64) -> Result<Option<Self>, Error> {
        let Some(line) = LineFit::through(blocks.iter(), channel) else { return Ok(None) };
        let standard_deviation = line.standard_deviation();
        // a reading that never leaves its step is uniformly distributed inside it
        let rounding = if standard_deviation < 0.5 * resolution { resolution * resolution / EVEN } else { 0.0 };
        let length = blocks.last().map_or(0.0, |last| last.end) - blocks[0].start;
        let t = student::quantile(INTERVAL_ALPHA, line.freedom())?;
        let half = t * (line.variance_inflation * line.variance / line.n + rounding).sqrt();
        let (change, standard) = line.change(MINUTE_S);
        let standard = standard.hypot((2.0 * rounding).sqrt() * 60.0 / length);
        let late = blocks.last().map_or(line.t, |last| last.end);
        let half_end = half.hypot(t * standard * (late - line.t) / 60.0);
        if ![line.at(late), change, half, t * standard, half_end].iter().all(|x| x.is_finite()) {
            return Ok(None);
        }
        let significant = change.abs() > student::quantile(DRIFT_ALPHA, line.freedom())? * standard;
        Ok(Some(Self {
            mean: about(line.mean, half),
            end: about(line.at(late), half_end),
            standard_deviation: Q::Difference::from_si(standard_deviation),
            per_minute: about(change, t * standard),
            drifts: significant
                && blocks.len() >= MIN_BLOCKS_FOR_DRIFT
                && persists(&blocks[blocks.len() / 2..], channel, change)?,
            variance_inflation: line.variance_inflation,
        }))
    }

    /// Direction in which the quantity drifts; `None` if it does not.
    pub fn drift(&self) -> Option<Drift> {
        let rising = self.per_minute.value.is_some_and(|change| change.si() > 0.0);
        self.drifts.then_some(if rising { Drift::Rising } else { Drift::Falling })
    }
}

/// The interval `value` ± `half`, both in SI units.
pub(super) fn about<Q: Quantity>(value: f64, half: f64) -> Interval<Q> {
    let si = |x: f64| Some(Q::from_si(x));
    Interval { value: si(value), low: si(value - half), high: si(value + half) }
}

/// Whether the second half of a period alone moves the same way as the whole, at 99 % one-sided: the tail of a start-up does
/// not.
fn persists(second_half: &[Cell], channel: usize, change: f64) -> Result<bool, Error> {
    let Some(line) = LineFit::through(second_half.iter(), channel) else { return Ok(false) };
    let (own, standard) = line.change(MINUTE_S);
    Ok(own * change.signum() > student::quantile(2.0 * DRIFT_ALPHA, line.freedom())? * standard)
}

/// Correlation coefficient of low and high side about their lines.
#[derive(Debug, Clone, Copy)]
struct Correlation {
    coefficient: f64,
    /// Effective number of blocks.
    n: f64,
}

/// Correlation of both sides below which they anticorrelate; our choice.
const ANTICORRELATED: f64 = -0.5;
/// How many standard errors below zero that is; our choice.
const ANTICORRELATED_ERRORS: f64 = 3.0;

/// Whether low and high side anticorrelate about their lines.
pub(super) fn anticorrelation(blocks: &[Cell]) -> bool {
    correlation(blocks).is_some_and(|Correlation { coefficient, n }| {
        coefficient < ANTICORRELATED && coefficient * n.sqrt() < -ANTICORRELATED_ERRORS
    })
}

/// `None` if one of the sides does not move.
fn correlation(blocks: &[Cell]) -> Option<Correlation> {
    let (low, high) = (LineFit::through(blocks.iter(), LOW)?, LineFit::through(blocks.iter(), HIGH)?);
    let between: f64 = low.residuals.iter().zip(&high.residuals).map(|(a, b)| a * b).sum();
    let product = between + blocks.iter().map(|block| block.product).sum::<f64>();
    let squares = |line: &LineFit| line.squares() + line.within;
    let all = (squares(&low) * squares(&high)).sqrt();
    let n = low.blocks as f64 / low.variance_inflation.max(high.variance_inflation);
    (all > 0.0).then(|| Correlation { coefficient: product / all, n })
}

/// Seconds in a minute, by definition.
const MINUTE_S: f64 = 60.0;
/// Square of a width over the variance of what is spread evenly over it, by definition.
const EVEN: f64 = 12.0;
/// Parameters of two lines and the place between them, by definition; one line has two.
const TWO_LINES: f64 = 5.0;

/// Least F of a change point: two lines must reduce the squares by this many times what noise would, for each of their
/// three additional parameters. The 1 % point of the largest F over all places of a change is between 5 and 6 (Andrews,
/// Econometrica 61 (1993) 821; from memory); our choice is above it.
const CHANGE_POINT_F: f64 = 8.0;
/// Least root mean square difference between two lines and one, as a fraction of the tolerance; our choice.
const CHANGE_POINT_SIZE: f64 = 0.25;

/// The block at which a side changes its course, if two straight lines fit significantly better than one.
pub(super) fn change_point(blocks: &[Cell], tolerance: &[f64; 2]) -> Option<usize> {
    let mut best: Option<(f64, usize)> = None;
    for (side, tolerance) in [LOW, HIGH].into_iter().zip(tolerance) {
        let Some(whole) = LineFit::through(blocks.iter(), side) else { continue };
        let one = whole.squares();
        for at in MIN_BLOCKS..(blocks.len() + 1).saturating_sub(MIN_BLOCKS) {
            let halves = (LineFit::through(blocks[..at].iter(), side), LineFit::through(blocks[at..].iter(), side));
            let (Some(before), Some(after)) = halves else { continue };
            let two = before.squares() + after.squares();
            let noise = before.variance_inflation.max(after.variance_inflation) * two
                / (blocks.len() as f64 - TWO_LINES).max(1.0);
            let f = (one - two) / (TWO_LINES - 2.0) / noise.max(f64::MIN_POSITIVE);
            let large = ((one - two).max(0.0) / whole.n).sqrt() > CHANGE_POINT_SIZE * tolerance;
            if large && f > best.map_or(CHANGE_POINT_F, |(f, _)| f) {
                best = Some((f, at));
            }
        }
    }
    best.map(|(_, at)| at)
}
