//! Readings condensed into sums, so that a trace of any length takes the same memory.

use super::sample::{CHANNELS, HIGH, LOW};

/// Count, mean and sum of squared deviations of one quantity.
#[derive(Debug, Clone, Copy, Default)]
pub(super) struct Moments {
    pub(super) n: f64,
    pub(super) mean: f64,
    pub(super) squares: f64,
}

/// Consecutive readings condensed to their moments.
#[derive(Debug, Clone, Copy)]
pub(super) struct Cell {
    pub(super) start: f64,
    pub(super) end: f64,
    /// Number of readings.
    pub(super) n: f64,
    /// Mean time.
    pub(super) t: f64,
    pub(super) channels: [Moments; CHANNELS],
    /// Sum of the products of the deviations of low and high side.
    pub(super) product: f64,
}

impl Moments {
    /// Moments of both together (Chan, Golub & LeVeque, The American Statistician 37 (1983) 242; from memory).
    fn merge(self, other: Self) -> Self {
        let n = self.n + other.n;
        if n == 0.0 {
            return self;
        }
        let step = other.mean - self.mean;
        Self {
            n,
            mean: self.mean + step * other.n / n,
            squares: self.squares + other.squares + step * step * self.n * other.n / n,
        }
    }
}

impl Cell {
    pub(super) fn of(t: f64, values: &[f64; CHANNELS]) -> Self {
        let channels =
            values.map(
                |value| {
                    if value.is_nan() { Moments::default() } else { Moments { n: 1.0, mean: value, squares: 0.0 } }
                },
            );
        Self { start: t, end: t, n: 1.0, t, channels, product: 0.0 }
    }

    /// Both cells as one; `other` is the later one.
    pub(super) fn merge(&self, other: &Self) -> Self {
        let n = self.n + other.n;
        let mut channels = self.channels;
        for (mine, theirs) in channels.iter_mut().zip(other.channels) {
            *mine = mine.merge(theirs);
        }
        let step = |at: usize| other.channels[at].mean - self.channels[at].mean;
        Self {
            start: self.start,
            end: other.end,
            n,
            t: self.t + (other.t - self.t) * other.n / n,
            channels,
            product: self.product + other.product + step(LOW) * step(HIGH) * self.n * other.n / n,
        }
    }

    pub(super) fn mean(&self, channel: usize) -> f64 {
        self.channels[channel].mean
    }
}

/// Most blocks of a period; when they are full, neighbours are merged in pairs.
const MAX_BLOCKS: usize = 128;

/// A period of any length as at most [`MAX_BLOCKS`] blocks of equally many cells, and one that is filling.
#[derive(Debug, Clone)]
pub(super) struct Blocks {
    full: Vec<Cell>,
    /// Cells in a full block.
    each: usize,
    filling: Option<(Cell, usize)>,
}

impl Blocks {
    pub(super) fn new() -> Self {
        Self { full: Vec::new(), each: 1, filling: None }
    }

    pub(super) fn push(&mut self, cell: Cell) {
        let (block, cells) = match self.filling.take() {
            Some((block, cells)) => (block.merge(&cell), cells + 1),
            None => (cell, 1),
        };
        if cells < self.each {
            self.filling = Some((block, cells));
            return;
        }
        self.full.push(block);
        if self.full.len() >= MAX_BLOCKS {
            self.full = self.full.chunks(2).map(|pair| pair.iter().skip(1).fold(pair[0], |a, b| a.merge(b))).collect();
            self.each *= 2;
        }
    }

    /// All blocks; the last one joins the one before it unless it is at least half full.
    pub(super) fn all(&self) -> Vec<Cell> {
        let mut all = self.full.clone();
        if let Some((block, cells)) = self.filling {
            match all.last_mut() {
                Some(last) if 2 * cells < self.each => *last = last.merge(&block),
                _ => all.push(block),
            }
        }
        all
    }
}
