//! Clutch cycling: period, clutch duty cycle, cut-out and cut-in pressure.

use super::trend::{INTERVAL_ALPHA, about};
use super::turning_point::{Flank, Turn, corner};
use crate::numeric::student;
use crate::quantity::{K95, Time};
use crate::service::Interval;
use crate::{Error, GaugePressure, Measured, PressureDifference, Quantity, Ratio, Source, Sourced};

/// Smallest number of full cycles that is reported as cycling.
pub const MIN_CYCLES: usize = 3;

/// Smallest number of readings per cycle that resolves the period: three on each flank.
pub const MIN_READINGS_PER_CYCLE: Sourced<f64> = Sourced { value: 6.0, source: Source::COMMON_PRACTICE };

/// Periods whose standard deviation exceeds this fraction of their mean are irregular: not those of a pressure switch at
/// constant engine speed. Our choice.
const IRREGULAR: f64 = 0.25;

/// A run of full clutch cycles, with its period, clutch duty cycle, cut-out and cut-in pressures.
#[derive(Debug, Clone, Copy, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(deny_unknown_fields))]
#[non_exhaustive]
pub struct Cycling {
    /// Time of the first turning point counted.
    pub from: Time,
    /// Time of the last turning point seen.
    pub to: Time,
    /// Number of full cycles counted, at least [`MIN_CYCLES`].
    pub cycles: usize,
    /// Mean time from one cut-in to the next.
    pub period: Interval<Time>,
    /// Standard deviation of the periods.
    pub period_deviation: Time,
    /// Fraction of a cycle during which the low side falls, that is, the clutch is engaged.
    pub clutch_duty_cycle: Interval<Ratio>,
    /// Low-side pressure at which the clutch disengages: where the low side turns from falling to rising.
    pub cut_out: Interval<GaugePressure>,
    /// Low-side pressure at which the clutch engages: where the low side turns from rising to falling.
    pub cut_in: Interval<GaugePressure>,
    /// High-side pressure in the middle of its cycling range.
    pub high_side: GaugePressure,
    /// Mean cycling range of the high side, read at the turning points of the low side.
    pub high_side_range: PressureDifference,
    /// Mean number of readings in a cycle.
    pub readings_per_cycle: f64,
}

/// Reliability of the figures of a [`Cycling`].
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(rename_all = "kebab-case"))]
#[non_exhaustive]
pub enum CyclingQuality {
    /// Resolved, with even periods.
    Regular,
    /// The standard deviation of the periods exceeds a quarter of their mean: the engine speed may have changed.
    Irregular,
    /// Fewer readings per cycle than [`MIN_READINGS_PER_CYCLE`]: neither period nor duty cycle is resolved.
    TooCoarse,
}

impl Cycling {
    /// Reliability of the figures: whether the readings resolve the cycles, and whether their periods are even.
    pub fn quality(&self) -> CyclingQuality {
        if self.readings_per_cycle < MIN_READINGS_PER_CYCLE.value {
            CyclingQuality::TooCoarse
        } else if self.period.value.is_some_and(|mean| self.period_deviation.seconds() > IRREGULAR * mean.seconds()) {
            CyclingQuality::Irregular
        } else {
            CyclingQuality::Regular
        }
    }

    /// The clutch duty cycle as a measured value for a diagnosis; `None` if the cycles are [too
    /// coarse](CyclingQuality::TooCoarse).
    ///
    /// The standard uncertainty is half the 95 % interval over 1.96. Few cycles have wider tails than a normal distribution;
    /// taking their Student interval for a normal one overstates the uncertainty, never understates it.
    pub fn measured_duty_cycle(&self) -> Option<Measured<Ratio>> {
        let Interval { value, low, high } = self.clutch_duty_cycle;
        let (value, low, high) = (value?, low?, high?);
        let half = (high.fraction() - value.fraction()).max(value.fraction() - low.fraction());
        let standard = Ratio::from_fraction(half / K95);
        Measured::new(value, standard).ok().filter(|_| self.quality() != CyclingQuality::TooCoarse)
    }
}

/// Running count, mean and sum of squared deviations (Welford, Technometrics 4 (1962) 419; from memory).
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

    /// The same mean with its variance multiplied by `factor`.
    fn with_variance_times(&self, factor: f64) -> Self {
        Self { squares: self.squares * factor, ..*self }
    }

    fn deviation(&self) -> f64 {
        if self.n < 2 { 0.0 } else { (self.squares / (self.n - 1) as f64).sqrt() }
    }

    /// Half the 95 % confidence interval of the mean, by Student's t.
    fn half(&self) -> Result<f64, Error> {
        let t = student::quantile(INTERVAL_ALPHA, self.n.saturating_sub(1))?;
        Ok(t * self.deviation() / (self.n as f64).sqrt())
    }

    /// Mean with its 95 % confidence interval.
    fn interval<Q: Quantity>(&self) -> Result<Interval<Q>, Error> {
        Ok(about(self.mean, self.half()?))
    }
}

/// The low side at its turning points, estimated in two ways: by the intersection of curves through the flanks, which is
/// biased where flanks bend sharply, and by the extreme reading, which noise pushes outwards and sparse readings leave inside.
#[derive(Debug, Clone, Copy, Default)]
struct TurningPressure {
    intersection: RunningMean,
    extreme: RunningMean,
}

impl TurningPressure {
    fn push(&mut self, intersection: f64, extreme: f64) {
        self.intersection.push(intersection);
        self.extreme.push(extreme);
    }

    /// The midpoint of both estimates; the interval covers both with their statistical uncertainty.
    fn interval<Q: Quantity>(&self) -> Result<Interval<Q>, Error> {
        let half = self.intersection.half()?.max(self.extreme.half()?);
        let (intersection, extreme) = (self.intersection.mean, self.extreme.mean);
        Ok(about(0.5 * (intersection + extreme), 0.5 * (intersection - extreme).abs() + half))
    }
}

/// Consecutive flanks of the low side that the high side mirrors.
#[derive(Debug, Clone, Default)]
pub(super) struct MirroredFlanks {
    last: Option<Flank>,
    /// Corners of the cycle being collected, its first included.
    corners: Vec<(Turn, f64)>,
    /// Readings on the flanks between these corners.
    readings: f64,
    from: f64,
    to: f64,
    count: usize,
    period: RunningMean,
    duty_cycle: RunningMean,
    cut_out: TurningPressure,
    cut_in: TurningPressure,
    high_side: RunningMean,
    high_side_range: RunningMean,
    readings_per_cycle: RunningMean,
}

impl MirroredFlanks {
    /// Mirrored flanks so far.
    pub(super) fn count(&self) -> usize {
        self.count
    }

    /// First turning point counted, once there is one.
    pub(super) fn from(&self) -> f64 {
        self.from
    }

    /// Last turning point.
    pub(super) fn to(&self) -> f64 {
        self.to
    }

    /// Mean period; `None` before the first full cycle.
    pub(super) fn period(&self) -> Option<f64> {
        (self.period.n > 0).then_some(self.period.mean)
    }

    /// Adds a mirrored flank that begins where the last one ended.
    pub(super) fn push(&mut self, flank: Flank) {
        self.count += 1;
        self.to = flank.to.t;
        self.high_side.push(0.5 * (flank.to.high + flank.from.high));
        self.high_side_range.push((flank.to.high - flank.from.high).abs());
        let Some(before) = self.last.replace(flank) else { return };
        // the first flank may include a steady period before it, or the start of the log: no curve fits it
        if self.count < 3 {
            return;
        }
        let (t, low) = corner(&before, &flank);
        let turn = before.to.turn;
        match turn {
            Turn::Peak => self.cut_in.push(low, before.to.low),
            Turn::Trough => self.cut_out.push(low, before.to.low),
        }
        if self.corners.is_empty() {
            self.from = t;
        } else {
            self.readings += before.n;
        }
        self.corners.push((turn, t));
        if let [(turn, first), (_, middle), end] = self.corners[..] {
            let period = end.1 - first;
            // readings closer together than times can be resolved give no period
            if period > 0.0 {
                let fraction = (middle - first) / period;
                self.period.push(period);
                self.duty_cycle.push(if turn == Turn::Peak { fraction } else { 1.0 - fraction });
                self.readings_per_cycle.push(self.readings);
            }
            self.readings = 0.0;
            self.corners = vec![end];
        }
    }

    /// The cycling that these flanks amount to; `None` below [`MIN_CYCLES`].
    pub(super) fn finding(&self) -> Result<Option<Cycling>, Error> {
        if self.period.n < MIN_CYCLES {
            return Ok(None);
        }
        // A misplaced corner shortens one cycle and lengthens the next. With corner errors e alone, the duty cycle d of one
        // cycle has the variance (1 + d² + (1 − d)²) e²/P², and the mean of n cycles 2 e²/(n P²).
        let duty_cycle = self.duty_cycle.mean;
        let factor = 2.0 / (1.0 + duty_cycle * duty_cycle + (1.0 - duty_cycle) * (1.0 - duty_cycle));
        Ok(Some(Cycling {
            from: Time::from_seconds(self.from),
            to: Time::from_seconds(self.to),
            cycles: self.period.n,
            period: self.period.interval()?,
            period_deviation: Time::from_seconds(self.period.deviation()),
            clutch_duty_cycle: self.duty_cycle.with_variance_times(factor).interval()?,
            cut_out: self.cut_out.interval()?,
            cut_in: self.cut_in.interval()?,
            high_side: GaugePressure::from_pa(self.high_side.mean),
            high_side_range: PressureDifference::from_pa(self.high_side_range.mean),
            readings_per_cycle: self.readings_per_cycle.mean,
        }))
    }
}
