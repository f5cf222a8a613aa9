//! When a line of progress is due. The caller brings the clock, so that a test can bring its own.

use std::time::{Duration, Instant};

/// Lines that are due at equal distances; one that is said late does not delay the next.
#[derive(Debug, Clone, Copy)]
pub struct Due {
    every: Duration,
    next: Instant,
}

impl Due {
    /// Lines `every` so long from `now` on.
    pub fn new(every: Duration, now: Instant) -> Self {
        Self { every, next: now + every }
    }

    /// How long after `now` the next line is due; zero if it is.
    #[allow(dead_code)] // some look at the clock as they go
    pub fn after(&self, now: Instant) -> Duration {
        self.next.saturating_duration_since(now)
    }

    /// Whether a line is due at `now`, which it then is no more. After more than a whole distance without one, the next is counted
    /// from `now`.
    pub fn is(&mut self, now: Instant) -> bool {
        if now < self.next {
            return false;
        }
        let on_time = self.next + self.every;
        self.next = if on_time > now { on_time } else { now + self.every };
        true
    }
}
