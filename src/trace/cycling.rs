//! A clutch that opens and closes: period, share engaged, and the pressures at which the low side turns.

use super::level::about;
use super::swing::{Flank, Turn, corner};
use crate::numeric::student;
use crate::quantity::{K95, Time};
use crate::service::Interval;
use crate::{Error, GaugePressure, Measured, PressureDifference, Quantity, Ratio, Source, Sourced};

/// Full cycles below which nothing is claimed.
pub const FEWEST_CYCLES: usize = 3;

/// Readings in a cycle below which its period cannot be told: three on each flank.
pub const FEWEST_PER_CYCLE: Sourced<f64> = Sourced { value: 6.0, source: Source::COMMON_PRACTICE };

/// Full cycles in a row.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Cycling {
    /// First turning point counted.
    pub from: Time,
    /// Last turning point seen.
    pub to: Time,
    /// Full cycles counted, at least [`FEWEST_CYCLES`].
    pub cycles: usize,
    /// From one engagement to the next, mean over the cycles.
    pub period: Interval<Time>,
    /// Standard deviation of the periods.
    pub period_spread: Time,
    /// Share of a cycle during which the low side falls: the clutch is engaged.
    pub duty: Interval<Ratio>,
    /// Low side where it turns from falling to rising: the clutch opens.
    pub opens: Interval<GaugePressure>,
    /// Low side where it turns from rising to falling: the clutch engages.
    pub engages: Interval<GaugePressure>,
    /// Mean swing of the high side, as read at the turning points of the low side.
    pub high_swing: PressureDifference,
    /// Readings in a cycle.
    pub readings_per_cycle: f64,
}

impl Cycling {
    /// Whether there are too few readings in a cycle to tell its period: [`FEWEST_PER_CYCLE`].
    pub fn too_coarse(&self) -> bool {
        self.readings_per_cycle < FEWEST_PER_CYCLE.value
    }

    /// The share engaged as a measured value, for [`RunningReading::duty`](crate::diagnosis::RunningReading::duty); none with too
    /// few readings in a cycle. The interval of few cycles is wider than a normal distribution's and is taken as one: it is told
    /// less exactly, never more.
    pub fn share_engaged(&self) -> Option<Measured<Ratio>> {
        let Interval { value, low, high } = self.duty;
        let (value, low, high) = (value?, low?, high?);
        let half = (high.fraction() - value.fraction()).max(value.fraction() - low.fraction());
        let standard = Ratio::from_fraction(half / K95);
        Measured::new(value, standard).ok().filter(|_| !self.too_coarse())
    }
}

/// Count, mean and squares about it (Welford, Technometrics 4 (1962) 419; from memory).
#[derive(Debug, Clone, Copy, Default)]
struct RunningMean {
    n: usize,
    mean: f64,
    squares: f64,
}

impl RunningMean {
    fn push(&mut self, value: f64) {
        self.n += 1;
        let step = value - self.mean;
        self.mean += step / self.n as f64;
        self.squares += step * (value - self.mean);
    }

    /// The same with variances `times` as large.
    fn widened(&self, times: f64) -> Self {
        Self { squares: self.squares * times, ..*self }
    }

    fn deviation(&self) -> f64 {
        if self.n < 2 { 0.0 } else { (self.squares / (self.n - 1) as f64).sqrt() }
    }

    /// Half the 95 % interval of the mean, by Student's t.
    fn half(&self) -> Result<f64, Error> {
        let t = student::quantile(0.05, self.n.saturating_sub(1))?;
        Ok(t * self.deviation() / (self.n as f64).sqrt())
    }

    /// Mean with its 95 % interval.
    fn interval<Q: Quantity>(&self) -> Result<Interval<Q>, Error> {
        Ok(about(self.mean, self.half()?))
    }
}

/// The low side at its turns, read in two ways: where curves through the flanks meet, which is off where flanks bend sharply,
/// and the outermost reading, which noise pushes out and rare readings leave inside.
#[derive(Debug, Clone, Copy, Default)]
struct Corner {
    met: RunningMean,
    read: RunningMean,
}

impl Corner {
    fn push(&mut self, met: f64, read: f64) {
        self.met.push(met);
        self.read.push(read);
    }

    /// The middle of both ways; the interval holds both with what scatter makes of them.
    fn interval<Q: Quantity>(&self) -> Result<Interval<Q>, Error> {
        let half = self.met.half()?.max(self.read.half()?);
        let (met, read) = (self.met.mean, self.read.mean);
        Ok(about(0.5 * (met + read), 0.5 * (met - read).abs() + half))
    }
}

/// Swings in a row that the high side mirrors.
#[derive(Debug, Clone, Default)]
pub(super) struct Run {
    /// The last flank.
    last: Option<Flank>,
    /// Corners of the cycle that is being filled, the first of it among them; as many readings lie on its flanks.
    corners: Vec<(Turn, f64, f64)>,
    readings: f64,
    from: f64,
    to: f64,
    swings: usize,
    period: RunningMean,
    duty: RunningMean,
    opens: Corner,
    engages: Corner,
    high: RunningMean,
    per_cycle: RunningMean,
}

impl Run {
    /// Mirrored swings so far.
    pub(super) fn swings(&self) -> usize {
        self.swings
    }

    /// Full cycles counted.
    pub(super) fn cycles(&self) -> usize {
        self.period.n
    }

    /// First turning point counted, once there is one.
    pub(super) fn from(&self) -> f64 {
        self.from
    }

    /// Last turning point.
    pub(super) fn to(&self) -> f64 {
        self.to
    }

    /// Mean period; none before the first full cycle.
    pub(super) fn period(&self) -> Option<f64> {
        (self.period.n > 0).then_some(self.period.mean)
    }

    /// Adds a mirrored flank that begins where the last one ended.
    pub(super) fn push(&mut self, flank: Flank) {
        self.swings += 1;
        self.to = flank.to.t;
        self.high.push((flank.to.high - flank.from.high).abs());
        let Some(before) = self.last.replace(flank) else { return };
        // the first flank may begin with the level stretch before it, or with the log: no curve follows it
        if self.swings < 3 {
            return;
        }
        let (t, low) = corner(&before, &flank);
        let turn = before.to.turn;
        match turn {
            Turn::Peak => self.engages.push(low, before.to.low),
            Turn::Trough => self.opens.push(low, before.to.low),
        }
        if self.corners.is_empty() {
            self.from = t;
        } else {
            self.readings += before.n;
        }
        self.corners.push((turn, t, low));
        if let [first, middle, end] = self.corners[..] {
            let period = end.1 - first.1;
            let first_part = (middle.1 - first.1) / period;
            self.period.push(period);
            self.duty.push(if first.0 == Turn::Peak { first_part } else { 1.0 - first_part });
            self.per_cycle.push(self.readings);
            self.readings = 0.0;
            self.corners = vec![end];
        }
    }

    /// What the run amounts to; none before [`FEWEST_CYCLES`].
    pub(super) fn finding(&self) -> Result<Option<Cycling>, Error> {
        if self.cycles() < FEWEST_CYCLES {
            return Ok(None);
        }
        // a corner that is off shortens one cycle and lengthens the next: with errors e of corners alone the share has the
        // variance (1 + d² + (1 − d)²) e²/P² in a cycle, and 2 e²/P² over n of them per 1/n
        let duty = self.duty.mean;
        let shared = 2.0 / (1.0 + duty * duty + (1.0 - duty) * (1.0 - duty));
        Ok(Some(Cycling {
            from: Time::from_seconds(self.from),
            to: Time::from_seconds(self.to),
            cycles: self.cycles(),
            period: self.period.interval()?,
            period_spread: Time::from_seconds(self.period.deviation()),
            duty: self.duty.widened(shared).interval()?,
            opens: self.opens.interval()?,
            engages: self.engages.interval()?,
            high_swing: PressureDifference::from_pa(self.high.mean),
            readings_per_cycle: self.per_cycle.mean,
        }))
    }
}
