//! Splits a log into steady periods, cycling and transients while readings come in.

use std::collections::VecDeque;

use super::cell::{Blocks, Cell};
use super::cycling::{MIN_READINGS_PER_CYCLE, MirroredFlanks};
use super::finding::{SteadyKind, SteadyPeriod, TraceFinding};
use super::sample::{AMBIENT, CHANNELS, HIGH, HUMIDITY, LIQUID_LINE, LOW, SUCTION_LINE, Sample, VENT};
use super::trend::{LineFit, Trend, anticorrelation, change_point};
use super::turning_point::TurningPoints;
use crate::quantity::Time;
use crate::{Error, GaugePressure, PressureDifference, Quantity, Source, Sourced};

/// Shortest period that is reported as steady.
pub const MIN_STEADY_PERIOD: Sourced<Time> =
    Sourced { value: Time::from_seconds(60.0), source: Source::COMMON_PRACTICE };

/// Cells of the window.
const WINDOW: usize = 12;
/// An interval between readings this many times the usual one is a gap; our choice.
const GAP: f64 = 10.0;
/// Intervals between readings of which the median is the usual one.
const INTERVALS: usize = 25;
/// Intervals below which none is usual.
const MIN_INTERVALS: usize = 3;
/// Consecutive readings back in time, each later than the one before, that are taken for a reset clock.
const CLOCK_RESET: usize = 3;
/// Two-sided 5 % point of Student's t with 10 degrees of freedom, by definition: twelve cells less the two parameters of a line.
const T_WINDOW: f64 = 2.228;
/// Most scatter of cells about their line, in standard deviations of the single readings inside them: autocorrelated readings
/// make cells scatter more than independent ones. Our choice.
const CELL_SCATTER: f64 = 4.0;
/// Half a 95 % interval of a normal deviate, in standard deviations, by definition.
const NORMAL_95: f64 = 1.96;
/// How far a cell may lie from a level, in standard deviations of the cells about their line; our choice.
const OFF_LEVEL: f64 = 3.0;
/// Cycling ends when the clutch has not switched for this many periods; our choice.
const PERIODS_WITHOUT_TURN: f64 = 1.5;

/// Both sides at one time.
#[derive(Debug, Clone, Copy)]
struct Point {
    t: f64,
    low: f64,
    high: f64,
}

#[derive(Debug, Clone)]
enum Phase {
    /// From a point onwards.
    Transient(Point),
    /// The transient before it, and its mirrored flanks, are kept until the period is long enough.
    Steady {
        before: Point,
        flanks: usize,
        blocks: Box<Blocks>,
    },
    Cycling,
}

/// Analyses a log of gauge readings, reading by reading; see the [module](crate::trace).
#[derive(Debug, Clone)]
pub struct Trace {
    tolerance: [f64; 2],
    last: Option<Point>,
    /// Consecutive refused readings that run on in time, and the time of the last of them.
    refused: (usize, f64),
    intervals: VecDeque<f64>,
    usual_interval: Option<f64>,
    /// Smallest change from one reading to the next by channel: the resolution of the instrument.
    resolution: [f64; CHANNELS],
    values: [f64; CHANNELS],
    turning_points: TurningPoints,
    flanks: MirroredFlanks,
    last_mirrored: f64,
    cell: Option<Cell>,
    window: VecDeque<Cell>,
    phase: Option<Phase>,
}

impl Trace {
    /// An empty trace. `low` and `high` are the standard uncertainties of the gauges, as
    /// [`PressureGauge::read`](crate::quantity::instrument::PressureGauge::read) states them: smaller changes do not count as
    /// movement.
    ///
    /// # Errors
    /// [`Error::Impossible`] for an uncertainty that is not above zero.
    pub fn new(low: PressureDifference, high: PressureDifference) -> Result<Self, Error> {
        for tolerance in [low.pa(), high.pa()] {
            if !(tolerance > 0.0 && tolerance.is_finite()) {
                return Err(Error::Impossible {
                    what: "tolerance of a gauge (Pa)",
                    value: tolerance,
                    must: "above zero: its standard uncertainty, or the least movement that matters",
                });
            }
        }
        let tolerance = [low.pa(), high.pa()];
        Ok(Self {
            tolerance,
            last: None,
            refused: (0, 0.0),
            intervals: VecDeque::new(),
            usual_interval: None,
            resolution: [f64::INFINITY; CHANNELS],
            values: [f64::NAN; CHANNELS],
            turning_points: TurningPoints::new(tolerance),
            flanks: MirroredFlanks::default(),
            last_mirrored: f64::NEG_INFINITY,
            cell: None,
            window: VecDeque::new(),
            phase: None,
        })
    }

    /// Shortest clutch period that readings as frequent as these resolve; `None` before the first few readings.
    pub fn shortest_period(&self) -> Option<Time> {
        self.usual_interval.map(|interval| Time::from_seconds(MIN_READINGS_PER_CYCLE.value * interval))
    }

    /// Takes a sample and returns the findings that it completes. A refused sample leaves the trace as it was.
    ///
    /// # Errors
    /// - [`Error::NotFinite`] for a value that is not finite, [`Error::Implausible`] for one beyond any instrument.
    /// - [`Error::NotLater`] for a sample that is not later than the one before. The third in a row is accepted if each is
    ///   later than the one before it: the clock was reset.
    pub fn push(&mut self, sample: &Sample) -> Result<Vec<TraceFinding>, Error> {
        let t = sample.seconds()?;
        let values = sample.channels()?;
        let here = Point { t, low: values[LOW], high: values[HIGH] };
        let mut found = self.advance_time(t)?;
        self.last = Some(here);
        self.note_resolution(values);
        if self.phase.is_none() {
            self.phase = Some(Phase::Transient(here));
        }
        self.note_turning_point(here, &mut found)?;
        match &mut self.cell {
            Some(cell) if t - cell.start < MIN_STEADY_PERIOD.value.seconds() / WINDOW as f64 => {
                *cell = cell.merge(&Cell::of(t, &values));
            }
            cell => {
                if let Some(full) = cell.replace(Cell::of(t, &values)) {
                    self.take_cell(full, &mut found)?;
                }
            }
        }
        Ok(found)
    }

    /// Ends the log and returns the findings that are still open.
    ///
    /// # Errors
    /// Those of quantiles of Student's t, which do not occur here.
    pub fn finish(mut self) -> Result<Vec<TraceFinding>, Error> {
        match self.last {
            Some(last) => self.close(last),
            None => Ok(Vec::new()),
        }
    }

    /// Findings that [`Trace::finish`] would return now.
    ///
    /// # Errors
    /// As [`Trace::finish`].
    pub fn so_far(&self) -> Result<Vec<TraceFinding>, Error> {
        self.clone().finish()
    }

    /// Moves on to the time of a new sample: closes what a gap or a clock reset ends, refuses a sample that is not later.
    fn advance_time(&mut self, t: f64) -> Result<Vec<TraceFinding>, Error> {
        let mut found = Vec::new();
        if let Some(last) = self.last {
            let interval = t - last.t;
            if interval <= 0.0 {
                let (count, before) = self.refused;
                let count = if count > 0 && t > before { count + 1 } else { 1 };
                if count < CLOCK_RESET {
                    self.refused = (count, t);
                    return Err(Error::NotLater { seconds: t, before: last.t });
                }
                found.extend(self.close(last)?);
                found.push(TraceFinding::ClockReset { from: Time::from_seconds(last.t), to: Time::from_seconds(t) });
            } else if self.usual_interval.is_some_and(|usual| interval > GAP * usual) {
                found.extend(self.close(last)?);
                found.push(TraceFinding::Gap { from: Time::from_seconds(last.t), to: Time::from_seconds(t) });
            } else {
                self.note_interval(interval);
            }
        }
        self.refused = (0, 0.0);
        Ok(found)
    }

    /// Updates the median interval between readings.
    fn note_interval(&mut self, interval: f64) {
        self.intervals.push_back(interval);
        if self.intervals.len() > INTERVALS {
            self.intervals.pop_front();
        }
        if self.intervals.len() >= MIN_INTERVALS {
            let mut sorted: [f64; INTERVALS] = [f64::INFINITY; INTERVALS];
            for (place, &interval) in sorted.iter_mut().zip(&self.intervals) {
                *place = interval;
            }
            let half = self.intervals.len() / 2;
            let (_, median, _) = sorted.select_nth_unstable_by(half, f64::total_cmp);
            self.usual_interval = Some(*median);
        }
    }

    fn note_resolution(&mut self, values: [f64; CHANNELS]) {
        for ((least, value), before) in self.resolution.iter_mut().zip(values).zip(self.values) {
            let step = (value - before).abs();
            // false for NaN, which stands for what was not measured
            if step > 0.0 && step < *least {
                *least = step;
            }
        }
        self.values = values;
    }

    /// Closes everything open at the reading `last`; intervals and resolutions stay known.
    fn close(&mut self, last: Point) -> Result<Vec<TraceFinding>, Error> {
        let mut found = Vec::new();
        if let Some(cell) = self.cell.take() {
            self.take_cell(cell, &mut found)?;
        }
        match self.phase.take() {
            None => {}
            Some(Phase::Transient(from)) => found.extend(transient(from, last, self.flanks.count())),
            Some(Phase::Cycling) => {
                let end = self.flanks.to();
                found.extend(self.flanks.finding()?.map(TraceFinding::Cycling));
                let from = self.window_at(end).unwrap_or(last);
                found.extend(transient(Point { t: end, ..from }, last, 0));
            }
            Some(Phase::Steady { before, flanks, mut blocks }) => {
                for cell in self.window.drain(..) {
                    blocks.push(cell);
                }
                match self.steady_periods(&blocks.all())? {
                    Some((first, periods)) => {
                        found.extend(transient(before, first, flanks));
                        found.extend(periods);
                    }
                    None => found.extend(transient(before, last, flanks)),
                }
            }
        }
        self.turning_points = TurningPoints::new(self.tolerance);
        self.flanks = MirroredFlanks::default();
        self.last_mirrored = f64::NEG_INFINITY;
        self.window.clear();
        Ok(found)
    }

    /// The steady period over `blocks`, or several split at change points, and where they begin; `None` if it is too short.
    fn steady_periods(&self, blocks: &[Cell]) -> Result<Option<(Point, Vec<TraceFinding>)>, Error> {
        let (mut first, mut found) = (None, Vec::new());
        let mut parts = vec![blocks];
        while let Some(part) = parts.pop() {
            match change_point(part, &self.tolerance).filter(|&at| long_enough(&part[..at]) && long_enough(&part[at..]))
            {
                Some(at) => parts.extend([&part[at..], &part[..at]]),
                // the tail of the transient before
                None if first.is_none() && !parts.is_empty() && self.moves(part) => {}
                None => {
                    first = first.or(part.first().map(start_of));
                    found.extend(self.steady_period(part)?);
                }
            }
        }
        Ok(first.filter(|_| !found.is_empty()).map(|first| (first, found)))
    }

    /// Whether a side moves by more than its tolerance within [`MIN_STEADY_PERIOD`].
    fn moves(&self, blocks: &[Cell]) -> bool {
        [LOW, HIGH].into_iter().any(|side| {
            let line = LineFit::through(blocks.iter(), side);
            line.is_some_and(|line| line.change(MIN_STEADY_PERIOD.value.seconds()).0.abs() > self.tolerance[side])
        })
    }

    /// The steady period over `blocks`, without looking for change points.
    fn steady_period(&self, blocks: &[Cell]) -> Result<Option<TraceFinding>, Error> {
        let (Some(first), Some(last)) = (blocks.first(), blocks.last()) else { return Ok(None) };
        if !long_enough(blocks) {
            return Ok(None);
        }
        let sides = (self.trend::<GaugePressure>(blocks, LOW)?, self.trend::<GaugePressure>(blocks, HIGH)?);
        let (Some(low), Some(high)) = sides else { return Ok(None) };
        let Some(kind) = self.kind(blocks, &low, &high) else { return Ok(None) };
        let period = SteadyPeriod {
            from: Time::from_seconds(first.start),
            to: Time::from_seconds(last.end),
            readings: blocks.iter().map(|block| block.n).sum::<f64>() as u64,
            kind,
            low,
            high,
            suction_line: self.trend(blocks, SUCTION_LINE)?,
            liquid_line: self.trend(blocks, LIQUID_LINE)?,
            vent: self.trend(blocks, VENT)?,
            ambient: self.trend(blocks, AMBIENT)?,
            humidity: self.trend(blocks, HUMIDITY)?,
        };
        Ok(Some(TraceFinding::Steady(Box::new(period))))
    }

    /// What a steady period is, by its sides.
    fn kind(&self, blocks: &[Cell], low: &Trend<GaugePressure>, high: &Trend<GaugePressure>) -> Option<SteadyKind> {
        let scatters =
            low.standard_deviation.pa() > self.tolerance[0] && high.standard_deviation.pa() > self.tolerance[1];
        if scatters && anticorrelation(blocks) {
            return Some(SteadyKind::FastSwitching);
        }
        if low.drifts || high.drifts {
            return Some(SteadyKind::Drifting);
        }
        let (low, high) = (low.mean.value?, high.mean.value?);
        let both = NORMAL_95 * self.tolerance[0].hypot(self.tolerance[1]);
        Some(if (high - low).pa().abs() > both {
            SteadyKind::Steady
        } else if high < GaugePressure::from_pa(0.0) {
            SteadyKind::EqualisedVacuum
        } else {
            SteadyKind::Equalised
        })
    }

    fn trend<Q: Quantity>(&self, blocks: &[Cell], channel: usize) -> Result<Option<Trend<Q>>, Error> {
        let resolution = if self.resolution[channel].is_finite() { self.resolution[channel] } else { 0.0 };
        Trend::of(blocks, channel, resolution)
    }

    /// The start of the first cell of the window that ends at or after `t`.
    fn window_at(&self, t: f64) -> Option<Point> {
        self.window.iter().find(|cell| cell.end >= t).map(start_of)
    }

    /// Feeds a reading to the search for turning points; begins and ends cycling.
    fn note_turning_point(&mut self, here: Point, found: &mut Vec<TraceFinding>) -> Result<(), Error> {
        let Some(flank) = self.turning_points.push(here.t, here.low, here.high) else { return Ok(()) };
        if !flank.mirrored {
            self.end_cycling(found)?;
            self.flanks = MirroredFlanks::default();
            return Ok(());
        }
        self.last_mirrored = flank.to.t;
        self.flanks.push(flank);
        if self.flanks.finding()?.is_none() || matches!(self.phase, Some(Phase::Cycling)) {
            return Ok(());
        }
        let start = Point { t: self.flanks.from(), low: flank.to.low, high: flank.to.high };
        match self.phase.take() {
            Some(Phase::Transient(from)) => found.extend(transient(from, start, 0)),
            // a flank inside its window ends a steady period with the next cell, which is still filling here
            Some(Phase::Steady { before, flanks, blocks }) => match self.steady_periods(&blocks.all())? {
                Some((first, periods)) => {
                    found.extend(transient(before, first, flanks));
                    found.extend(periods);
                }
                None => found.extend(transient(before, start, flanks)),
            },
            _ => {}
        }
        self.phase = Some(Phase::Cycling);
        Ok(())
    }

    /// Ends cycling, if it is on, at its last turning point.
    fn end_cycling(&mut self, found: &mut Vec<TraceFinding>) -> Result<(), Error> {
        if !matches!(self.phase, Some(Phase::Cycling)) {
            return Ok(());
        }
        found.extend(self.flanks.finding()?.map(TraceFinding::Cycling));
        let end = self.flanks.to();
        let from = self.window_at(end).or(self.last).map(|point| Point { t: end, ..point });
        self.phase = from.map(Phase::Transient);
        self.flanks = MirroredFlanks::default();
        while self.window.front().is_some_and(|cell| cell.start < end) {
            self.window.pop_front();
        }
        Ok(())
    }

    /// Moves the window on by a full cell; begins and ends steady periods.
    fn take_cell(&mut self, cell: Cell, found: &mut Vec<TraceFinding>) -> Result<(), Error> {
        self.window.push_back(cell);
        let left = if self.window.len() > WINDOW { self.window.pop_front() } else { None };
        if matches!(self.phase, Some(Phase::Cycling)) {
            let period = self.flanks.period().unwrap_or(0.0);
            if cell.end - self.flanks.to() > PERIODS_WITHOUT_TURN * period {
                self.end_cycling(found)?;
            }
            return Ok(());
        }
        let steady = self.window_is_steady();
        match self.phase.take() {
            Some(Phase::Transient(before)) if steady && self.has_settled() => {
                let flanks = std::mem::take(&mut self.flanks).count();
                self.phase = Some(Phase::Steady { before, flanks, blocks: Box::new(Blocks::new()) });
            }
            Some(Phase::Steady { before, flanks, mut blocks }) => {
                if let Some(left) = left {
                    blocks.push(left);
                }
                if steady {
                    self.phase = Some(Phase::Steady { before, flanks, blocks });
                    return Ok(());
                }
                for _ in 0..self.cells_still_steady() {
                    if let Some(cell) = self.window.pop_front() {
                        blocks.push(cell);
                    }
                }
                // the next transient begins where the steady period ends; if that is too short, the last one goes on
                self.phase = Some(Phase::Transient(match self.steady_periods(&blocks.all())? {
                    Some((first, periods)) => {
                        found.extend(transient(before, first, flanks));
                        found.extend(periods);
                        self.window.front().map_or_else(|| start_of(&cell), start_of)
                    }
                    None => before,
                }));
            }
            phase => self.phase = phase,
        }
        Ok(())
    }

    /// Whether neither side moves over the window.
    fn window_is_steady(&self) -> bool {
        let (Some(first), Some(last)) = (self.window.front(), self.window.back()) else { return false };
        let span = last.t - first.t;
        let shortest = MIN_STEADY_PERIOD.value.seconds() * (1.0 - 2.0 / WINDOW as f64);
        if self.window.len() < WINDOW || span < shortest || self.last_mirrored > first.start {
            return false;
        }
        [LOW, HIGH].into_iter().all(|side| {
            let Some(line) = LineFit::through(self.window.iter(), side) else { return false };
            let tolerance = self.tolerance[side];
            let (change, standard) = line.change(span);
            let single = line.within().max(self.turning_points.noise(side));
            change.abs() <= tolerance + T_WINDOW * standard
                && line.block_scatter() <= tolerance.max(CELL_SCATTER * single)
        })
    }

    /// Whether the first half of a steady window agrees with the level of its second half, so that it does not include the end
    /// of a transient.
    fn has_settled(&self) -> bool {
        let half = WINDOW / 2;
        [LOW, HIGH].into_iter().all(|side| {
            let Some(line) = LineFit::through(self.window.iter().skip(half), side) else { return false };
            let level = line.at(self.window[half + half / 2].t);
            let reach = self.tolerance[side] + OFF_LEVEL * line.block_scatter();
            self.window.iter().take(half).all(|cell| (cell.mean(side) - level).abs() <= reach)
        })
    }

    /// Number of cells at the front of a window that is no longer steady that still belong to the steady period: those at the
    /// level of its first half, less one that may be affected.
    fn cells_still_steady(&self) -> usize {
        let half = WINDOW / 2;
        let lines = [LOW, HIGH].map(|side| LineFit::through(self.window.iter().take(half), side));
        let [Some(low), Some(high)] = lines else { return 0 };
        let agrees = |cell: &Cell| {
            [(LOW, &low), (HIGH, &high)].into_iter().all(|(side, line)| {
                // the mean of the first half: its slope is too uncertain to extrapolate
                let level = line.at(self.window[half / 2].t);
                (cell.mean(side) - level).abs() <= 0.5 * self.tolerance[side] + OFF_LEVEL * line.block_scatter()
            })
        };
        self.window.iter().take_while(|cell| agrees(cell)).count().saturating_sub(1)
    }
}

/// Whether a period is no shorter than [`MIN_STEADY_PERIOD`], to within one cell.
fn long_enough(blocks: &[Cell]) -> bool {
    let length = blocks.last().map_or(0.0, |last| last.end) - blocks.first().map_or(0.0, |first| first.start);
    length >= MIN_STEADY_PERIOD.value.seconds() * (1.0 - 1.0 / WINDOW as f64)
}

fn start_of(cell: &Cell) -> Point {
    Point { t: cell.start, low: cell.mean(LOW), high: cell.mean(HIGH) }
}

/// The transient from one point to another; `None` if no time lies between.
fn transient(from: Point, to: Point, mirrored_flanks: usize) -> Option<TraceFinding> {
    (to.t > from.t).then(|| TraceFinding::Transient {
        from: Time::from_seconds(from.t),
        to: Time::from_seconds(to.t),
        low_at_start: GaugePressure::from_pa(from.low),
        low_at_end: GaugePressure::from_pa(to.low),
        high_at_start: GaugePressure::from_pa(from.high),
        high_at_end: GaugePressure::from_pa(to.high),
        mirrored_flanks,
    })
}
