//! Tells steady stretches, cycling and movement apart while readings come in.

use std::collections::VecDeque;

use super::cell::{Blocks, Cell};
use super::cycling::{Cycling, FEWEST_PER_CYCLE, Run};
use super::level::{Level, Line, kink, opposition};
use super::sample::{CHANNELS, HIGH, LOW, Sample, finite};
use super::swing::Swings;
use crate::quantity::Time;
use crate::{Error, GaugePressure, PressureDifference, Quantity, Ratio, Source, Sourced, Temperature};

/// A stretch shorter than this is not called steady.
pub const SHORTEST: Sourced<Time> = Sourced { value: Time::from_seconds(60.0), source: Source::COMMON_PRACTICE };

/// Cells of the window.
const WINDOW: usize = 12;
/// A pause this many times as long as the usual one is a gap; our choice.
const GAP: f64 = 10.0;
/// Pauses of which the median is the usual one.
const PAUSES: usize = 25;
/// Pauses below which none is usual.
const FEWEST_PAUSES: usize = 3;
/// Readings in a row that go back in time, each later than the one before, and are taken for a clock that was set back.
const SET_BACK: usize = 3;
/// Two-sided 5 % point of Student's t with 10 degrees of freedom: twelve cells less two figures of a line.
const T_WINDOW: f64 = 2.228;
/// Cells may scatter by this many times the scatter of single readings inside them, as they do where readings in a cell
/// resemble each other.
const CELL_SCATTER: f64 = 4.0;
/// Correlation of both sides below which they are called opposed, and how many standard errors below zero it must be.
const OPPOSED: f64 = -0.5;
const OPPOSED_CLEARLY: f64 = 3.0;
/// A clutch that has not turned for this many periods cycles no longer.
const STILL_CYCLES: f64 = 1.5;

/// What was seen.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub enum Finding {
    /// Neither side moves, or only creeps.
    Stretch(Box<Stretch>),
    /// The clutch cycles.
    Cycling(Cycling),
    /// Something moves, and it is no cycling that could be told.
    Moving(Moving),
    /// No readings for a while; what was before is not joined to what comes after.
    Gap(Gap),
    /// Times begin again, earlier: the clock was set back, or another log follows.
    SetBack(Gap),
}

/// A stretch over which neither side moves more than its gauge could be off.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Stretch {
    /// First reading.
    pub from: Time,
    /// Last reading.
    pub to: Time,
    /// Readings.
    pub readings: u64,
    /// Low-side gauge.
    pub low: Level<GaugePressure>,
    /// High-side gauge.
    pub high: Level<GaugePressure>,
    /// Suction line.
    pub suction_line: Option<Level<Temperature>>,
    /// Liquid line.
    pub liquid_line: Option<Level<Temperature>>,
    /// Centre vent.
    pub vent: Option<Level<Temperature>>,
    /// Outside air.
    pub ambient: Option<Level<Temperature>>,
    /// Relative humidity of it.
    pub humidity: Option<Level<Ratio>>,
    /// Both sides stand alike, within the uncertainty of two gauges, and neither creeps: engine off, or a compressor that
    /// does not pump.
    pub levelled: bool,
    /// Both sides scatter by more than their tolerance and against each other: something switches faster than the readings
    /// show.
    pub switches: bool,
}

/// A time in which pressures moved.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Moving {
    /// Where it begins.
    pub from: Time,
    /// Where it ends.
    pub to: Time,
    /// Low side at both ends.
    pub low: (GaugePressure, GaugePressure),
    /// High side at both ends.
    pub high: (GaugePressure, GaugePressure),
    /// Swings in a row that the high side mirrored, too few to tell whether the clutch cycles.
    pub swings: usize,
}

/// From the last reading before to the first after.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Gap {
    /// Last reading before.
    pub from: Time,
    /// First reading after.
    pub to: Time,
}

/// Both sides at one time.
#[derive(Debug, Clone, Copy)]
struct Point {
    t: f64,
    low: f64,
    high: f64,
}

#[derive(Debug, Clone)]
enum Phase {
    Moving(Point),
    /// What moved before it, and its swings, are kept until the stretch is long enough.
    Steady {
        before: Point,
        swings: usize,
        blocks: Box<Blocks>,
    },
    Cycling,
}

/// Follows readings of a circuit; see the [module](crate::trace).
#[derive(Debug, Clone)]
pub struct Trace {
    tolerance: [f64; 2],
    last: Option<Point>,
    refused: (usize, f64),
    pauses: VecDeque<f64>,
    pause: Option<f64>,
    /// Smallest change from one reading to the next, by which steps of the gauge show.
    steps: [f64; CHANNELS],
    values: [f64; CHANNELS],
    swings: Swings,
    run: Run,
    mirrored_at: f64,
    cell: Option<Cell>,
    window: VecDeque<Cell>,
    phase: Option<Phase>,
}

impl Trace {
    /// An empty trace; `low` and `high` are what the gauges may be off by, as standard uncertainties: see
    /// [`crate::quantity::instrument::PressureGauge::read`]. What moves by less does not count as movement.
    ///
    /// # Errors
    /// [`Error::Impossible`] for a tolerance that is not above zero.
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
            pauses: VecDeque::new(),
            pause: None,
            steps: [f64::INFINITY; CHANNELS],
            values: [f64::NAN; CHANNELS],
            swings: Swings::new(tolerance),
            run: Run::default(),
            mirrored_at: f64::NEG_INFINITY,
            cell: None,
            window: VecDeque::new(),
            phase: None,
        })
    }

    /// The shortest period of a cycling clutch that readings as frequent as these can show; none before a few were taken.
    pub fn shortest_period(&self) -> Option<Time> {
        self.pause.map(|pause| Time::from_seconds(FEWEST_PER_CYCLE.value * pause))
    }

    /// Takes a reading, and hands back what it makes certain. A reading that is refused leaves the trace as it was.
    ///
    /// # Errors
    /// [`Error::NotFinite`]; [`Error::NotLater`] for a reading that is not later than the one before. The third in a row
    /// that runs on from the two before it is taken: the clock was set back.
    pub fn push(&mut self, sample: &Sample) -> Result<Vec<Finding>, Error> {
        let t = finite::<Time>(Some(sample.time.seconds()))?;
        let values = sample.channels()?;
        let here = Point { t, low: values[LOW], high: values[HIGH] };
        let mut found = Vec::new();
        if let Some(last) = self.last {
            let pause = t - last.t;
            if pause <= 0.0 {
                let (count, before) = self.refused;
                let count = if count > 0 && t > before { count + 1 } else { 1 };
                if count < SET_BACK {
                    self.refused = (count, t);
                    return Err(Error::NotLater { seconds: t, before: last.t });
                }
                found.extend(self.begin_again(last)?);
                found.push(Finding::SetBack(gap(last.t, t)));
            } else if self.pause.is_some_and(|usual| pause > GAP * usual) {
                found.extend(self.begin_again(last)?);
                found.push(Finding::Gap(gap(last.t, t)));
            } else {
                self.note_pause(pause);
            }
        }
        self.refused = (0, 0.0);
        self.last = Some(here);
        for ((least, value), before) in self.steps.iter_mut().zip(values).zip(self.values) {
            let step = (value - before).abs();
            // what was not measured is no number and above nothing
            if step > 0.0 && step < *least {
                *least = step;
            }
        }
        self.values = values;
        if self.phase.is_none() {
            self.phase = Some(Phase::Moving(here));
        }
        self.swing(here, &mut found)?;
        match &mut self.cell {
            Some(cell) if t - cell.start < SHORTEST.value.seconds() / WINDOW as f64 => {
                *cell = cell.merge(&Cell::of(t, &values));
            }
            cell => {
                if let Some(full) = cell.replace(Cell::of(t, &values)) {
                    self.cell_is_full(full, &mut found)?;
                }
            }
        }
        Ok(found)
    }

    /// What is still open, closed as it stands: the end of the log.
    ///
    /// # Errors
    /// Those of quantiles, which cannot occur here.
    pub fn finish(mut self) -> Result<Vec<Finding>, Error> {
        match self.last {
            Some(last) => self.begin_again(last),
            None => Ok(Vec::new()),
        }
    }

    /// What is open now, as [`Trace::finish`] would close it, without closing it.
    ///
    /// # Errors
    /// As [`Trace::finish`].
    pub fn so_far(&self) -> Result<Vec<Finding>, Error> {
        self.clone().finish()
    }

    fn note_pause(&mut self, pause: f64) {
        self.pauses.push_back(pause);
        let full = self.pauses.len() > PAUSES;
        if full {
            self.pauses.pop_front();
        }
        if self.pauses.len() >= FEWEST_PAUSES {
            let mut sorted: [f64; PAUSES] = [f64::INFINITY; PAUSES];
            for (place, &pause) in sorted.iter_mut().zip(&self.pauses) {
                *place = pause;
            }
            let half = self.pauses.len() / 2;
            let (_, median, _) = sorted.select_nth_unstable_by(half, f64::total_cmp);
            self.pause = Some(*median);
        }
    }

    /// Closes everything that is open at the reading `last` and forgets it; what is usual stays known.
    fn begin_again(&mut self, last: Point) -> Result<Vec<Finding>, Error> {
        let mut found = Vec::new();
        if let Some(cell) = self.cell.take() {
            self.cell_is_full(cell, &mut found)?;
        }
        match self.phase.take() {
            None => {}
            Some(Phase::Moving(from)) => found.extend(moved(from, last, self.run.swings())),
            Some(Phase::Cycling) => {
                let end = self.run.to();
                found.extend(self.run.finding()?.map(Finding::Cycling));
                let from = self.near(end).unwrap_or(last);
                found.extend(moved(Point { t: end, ..from }, last, 0));
            }
            Some(Phase::Steady { before, swings, mut blocks }) => {
                for cell in self.window.drain(..) {
                    blocks.push(cell);
                }
                match self.stretch(&blocks.all())? {
                    Some((first, stretch)) => {
                        found.extend(moved(before, first, swings));
                        found.extend(stretch);
                    }
                    None => found.extend(moved(before, last, swings)),
                }
            }
        }
        self.swings = Swings::new(self.tolerance);
        self.run = Run::default();
        self.mirrored_at = f64::NEG_INFINITY;
        self.window.clear();
        Ok(found)
    }

    /// The stretch of `blocks`, or several where a side bends, and where they begin; none where it is too short.
    fn stretch(&self, blocks: &[Cell]) -> Result<Option<(Point, Vec<Finding>)>, Error> {
        let (mut first, mut found) = (None, Vec::new());
        let mut parts = vec![blocks];
        while let Some(part) = parts.pop() {
            match kink(part, &self.tolerance).filter(|&at| long_enough(&part[..at]) && long_enough(&part[at..])) {
                Some(at) => parts.extend([&part[at..], &part[..at]]),
                // the tail of what moved before
                None if first.is_none() && !parts.is_empty() && self.moves(part) => {}
                None => {
                    first = first.or(part.first().map(start_of));
                    found.extend(self.straight(part)?);
                }
            }
        }
        Ok(first.filter(|_| !found.is_empty()).map(|first| (first, found)))
    }

    /// Whether a side moves by more than its tolerance in the time of the shortest stretch.
    fn moves(&self, blocks: &[Cell]) -> bool {
        [LOW, HIGH].into_iter().any(|side| {
            let line = Line::through(blocks.iter(), side);
            line.is_some_and(|line| line.change(SHORTEST.value.seconds()).0.abs() > self.tolerance[side])
        })
    }

    fn straight(&self, blocks: &[Cell]) -> Result<Option<Finding>, Error> {
        let (Some(first), Some(last)) = (blocks.first(), blocks.last()) else { return Ok(None) };
        if !long_enough(blocks) {
            return Ok(None);
        }
        let sides = (self.level::<GaugePressure>(blocks, LOW)?, self.level::<GaugePressure>(blocks, HIGH)?);
        let (Some(low), Some(high)) = sides else { return Ok(None) };
        let apart = match (low.mean.value, high.mean.value) {
            (Some(low), Some(high)) => high - low,
            _ => return Ok(None),
        };
        let both = 1.96 * self.tolerance[0].hypot(self.tolerance[1]);
        let loud = low.spread.pa() > self.tolerance[0] && high.spread.pa() > self.tolerance[1];
        let switches = loud && opposition(blocks).is_some_and(|(r, n)| r < OPPOSED && r * n.sqrt() < -OPPOSED_CLEARLY);
        let stretch = Stretch {
            from: Time::from_seconds(first.start),
            to: Time::from_seconds(last.end),
            readings: blocks.iter().map(|block| block.n).sum::<f64>() as u64,
            levelled: apart.pa().abs() <= both && !low.creeps && !high.creeps,
            low,
            high,
            suction_line: self.level(blocks, 2)?,
            liquid_line: self.level(blocks, 3)?,
            vent: self.level(blocks, 4)?,
            ambient: self.level(blocks, 5)?,
            humidity: self.level(blocks, 6)?,
            switches,
        };
        Ok(Some(Finding::Stretch(Box::new(stretch))))
    }

    fn level<Q: Quantity>(&self, blocks: &[Cell], channel: usize) -> Result<Option<Level<Q>>, Error> {
        let step = if self.steps[channel].is_finite() { self.steps[channel] } else { 0.0 };
        Level::of(blocks, channel, step)
    }

    /// The cell of the window at or after `t`.
    fn near(&self, t: f64) -> Option<Point> {
        self.window.iter().find(|cell| cell.end >= t).map(start_of)
    }

    fn swing(&mut self, here: Point, found: &mut Vec<Finding>) -> Result<(), Error> {
        let Some(flank) = self.swings.push(here.t, here.low, here.high) else { return Ok(()) };
        if !flank.mirrored {
            self.end_cycling(found)?;
            self.run = Run::default();
            return Ok(());
        }
        self.mirrored_at = flank.to.t;
        self.run.push(flank);
        if self.run.finding()?.is_none() || matches!(self.phase, Some(Phase::Cycling)) {
            return Ok(());
        }
        let start = Point { t: self.run.from(), low: flank.to.low, high: flank.to.high };
        match self.phase.take() {
            Some(Phase::Moving(from)) => found.extend(moved(from, start, 0)),
            // a swing inside its window closes a stretch with the next cell; here that cell is still filling
            Some(Phase::Steady { before, swings, blocks }) => match self.stretch(&blocks.all())? {
                Some((first, stretch)) => {
                    found.extend(moved(before, first, swings));
                    found.extend(stretch);
                }
                None => found.extend(moved(before, start, swings)),
            },
            _ => {}
        }
        self.phase = Some(Phase::Cycling);
        Ok(())
    }

    /// Ends cycling, where it is on, at its last turning point.
    fn end_cycling(&mut self, found: &mut Vec<Finding>) -> Result<(), Error> {
        if !matches!(self.phase, Some(Phase::Cycling)) {
            return Ok(());
        }
        found.extend(self.run.finding()?.map(Finding::Cycling));
        let end = self.run.to();
        let from = self.near(end).or(self.last).map(|point| Point { t: end, ..point });
        self.phase = from.map(Phase::Moving);
        self.run = Run::default();
        while self.window.front().is_some_and(|cell| cell.start < end) {
            self.window.pop_front();
        }
        Ok(())
    }

    fn cell_is_full(&mut self, cell: Cell, found: &mut Vec<Finding>) -> Result<(), Error> {
        self.window.push_back(cell);
        let left = if self.window.len() > WINDOW { self.window.pop_front() } else { None };
        if matches!(self.phase, Some(Phase::Cycling)) {
            let period = self.run.period().unwrap_or(0.0);
            if cell.end - self.run.to() > STILL_CYCLES * period {
                self.end_cycling(found)?;
            }
            return Ok(());
        }
        let quiet = self.is_quiet();
        match self.phase.take() {
            Some(Phase::Moving(before)) if quiet && self.has_settled() => {
                let swings = std::mem::take(&mut self.run).swings();
                self.phase = Some(Phase::Steady { before, swings, blocks: Box::new(Blocks::new()) });
            }
            Some(Phase::Steady { before, swings, mut blocks }) => {
                if let Some(left) = left {
                    blocks.push(left);
                }
                if quiet {
                    self.phase = Some(Phase::Steady { before, swings, blocks });
                    return Ok(());
                }
                for _ in 0..self.still_quiet() {
                    if let Some(cell) = self.window.pop_front() {
                        blocks.push(cell);
                    }
                }
                // what moves next begins where the stretch ends; where that is too short, it never was
                self.phase = Some(Phase::Moving(match self.stretch(&blocks.all())? {
                    Some((first, stretch)) => {
                        found.extend(moved(before, first, swings));
                        found.extend(stretch);
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
    fn is_quiet(&self) -> bool {
        let (Some(first), Some(last)) = (self.window.front(), self.window.back()) else { return false };
        let span = last.t - first.t;
        let shortest = SHORTEST.value.seconds() * (1.0 - 2.0 / WINDOW as f64);
        if self.window.len() < WINDOW || span < shortest || self.mirrored_at > first.start {
            return false;
        }
        [LOW, HIGH].into_iter().all(|side| {
            let Some(line) = Line::through(self.window.iter(), side) else { return false };
            let tolerance = self.tolerance[side];
            let (change, standard) = line.change(span);
            let single = line.within().max(self.swings.noise(side));
            change.abs() <= tolerance + T_WINDOW * standard
                && line.block_scatter() <= tolerance.max(CELL_SCATTER * single)
        })
    }

    /// Whether the first half of a quiet window stands where its second half does: no end of a swing is taken along.
    fn has_settled(&self) -> bool {
        let half = WINDOW / 2;
        [LOW, HIGH].into_iter().all(|side| {
            let Some(line) = Line::through(self.window.iter().skip(half), side) else { return false };
            let stands = line.at(self.window[half + half / 2].t);
            let reach = self.tolerance[side] + 3.0 * line.block_scatter();
            self.window.iter().take(half).all(|cell| (cell.mean(side) - stands).abs() <= reach)
        })
    }

    /// How many cells at the front of a window that is no longer quiet still belong to the stretch before: those that stay
    /// with its first half, less one that may have been touched.
    fn still_quiet(&self) -> usize {
        let half = WINDOW / 2;
        let lines = [LOW, HIGH].map(|side| Line::through(self.window.iter().take(half), side));
        let [Some(low), Some(high)] = lines else { return 0 };
        let agrees = |cell: &Cell| {
            [(LOW, &low), (HIGH, &high)].into_iter().all(|(side, line)| {
                // the mean of the first half, since its slope is too poorly known to be followed
                let stands = line.at(self.window[half / 2].t);
                (cell.mean(side) - stands).abs() <= 0.5 * self.tolerance[side] + 3.0 * line.block_scatter()
            })
        };
        self.window.iter().take_while(|cell| agrees(cell)).count().saturating_sub(1)
    }
}

fn gap(from: f64, to: f64) -> Gap {
    Gap { from: Time::from_seconds(from), to: Time::from_seconds(to) }
}

/// Whether a stretch is no shorter than [`SHORTEST`], a cell give or take.
fn long_enough(blocks: &[Cell]) -> bool {
    let length = blocks.last().map_or(0.0, |last| last.end) - blocks.first().map_or(0.0, |first| first.start);
    length >= SHORTEST.value.seconds() * (1.0 - 1.0 / WINDOW as f64)
}

fn start_of(cell: &Cell) -> Point {
    Point { t: cell.start, low: cell.mean(LOW), high: cell.mean(HIGH) }
}

/// A movement from one point to another, where any time lies between.
fn moved(from: Point, to: Point, swings: usize) -> Option<Finding> {
    (to.t > from.t).then(|| {
        Finding::Moving(Moving {
            from: Time::from_seconds(from.t),
            to: Time::from_seconds(to.t),
            low: (GaugePressure::from_pa(from.low), GaugePressure::from_pa(to.low)),
            high: (GaugePressure::from_pa(from.high), GaugePressure::from_pa(to.high)),
            swings,
        })
    })
}
