//! Analysis of a growing log of gauge readings: steady periods, clutch cycling, drifts.
//!
//! A [`Trace`] takes samples one by one and returns [`TraceFinding`]s as soon as they are certain. Its memory is bounded: a few
//! hundred numbers, whatever the length of the log.
//!
//! **Steady periods.** Readings are condensed into cells of 5 s (or single readings, if they are rarer); the last twelve cells
//! form a window of at least [`MIN_STEADY_PERIOD`]. The window is steady if, for both sides,
//!
//! - the straight line through its cells moves by no more than the tolerance plus its own uncertainty, |b| T ≤ u + t s_b T,
//!   with t = 2.23 (Student, 10 degrees of freedom, 95 %);
//! - its cells scatter about the line by no more than the tolerance, or four standard deviations of single readings;
//! - no flank that both sides share ended inside it.
//!
//! The tolerance u is the standard uncertainty of the gauge: a smaller change could as well be the gauge. A steady period is an
//! unbroken run of steady windows. It begins once the first half of the window agrees with the level of its second half, and is
//! split at a change point, where two straight lines fit one side significantly better than one.
//!
//! **Trends.** Over a steady period y = ȳ + b (t − t̄) is fitted by least squares to at most 128 blocks. Intervals use the
//! scatter of the blocks about the line and Student's t. Positive autocorrelation ρ of the residuals inflates the variance by
//! (1 + ρ)/(1 − ρ), as in an AR(1) process, and reduces the degrees of freedom accordingly. A side **drifts** if its slope is
//! significant at 1 % and the second half of the period alone moves the same way (one-sided, 1 %), which excludes the tail of
//! a start-up. Two sides tested at 5 % would give a false drift in one of ten periods; at 1 % it is one in fifty.
//!
//! **Cycling.** While the clutch is engaged the low side falls and the high side rises; while it is disengaged both reverse. A
//! flank counts if the low side moves by more than five standard deviations of single readings and twice the tolerance, and the
//! high side moves the opposite way by 3.5 of its own standard deviations and twice its own tolerance. Cycling is reported after
//! three full cycles in a row; until then `mirrored_flanks` of [`TraceFinding::Transient`] counts the flanks. Cycles run from corner to corner, where
//! parabolas through adjacent flanks intersect, because the highest of many noisy readings overestimates the peak. Period and
//! clutch duty cycle are means over the cycles with Student's interval. Cut-out and cut-in pressure are the midpoint between corner
//! and extreme reading, and their intervals cover both.
//!
//! # Accuracy
//!
//! Counted on 1,000 simulated traces of each kind, one reading per second unless stated (`tests/trace.rs` prints the figures).
//! Noise is that of the low side; the high side had three times as much. ρ is the autocorrelation from reading to reading.
//!
//! | simulated | reported, or inside the 95 % interval |
//! |---|---|
//! | 20 min of noise, 0.1 to 2 psi, ρ = 0 | cycling in 0, drift in 0 |
//! | the same, 0.5 psi, ρ up to 0.9 | cycling in 0, drift in 0 |
//! | the same, 2 psi, ρ = 0.5 and 0.9 | cycling in 0, drift in 6 and 13; steady for 96 and 77 % of the time |
//! | means over 2 and 20 min, ρ up to 0.9 | inside in 95 to 97 % |
//! | a drift of 0.9 psi/min over 20 min | inside in 96 to 97 %, always reported |
//! | a clutch, period 12 to 90 s, duty cycle 30 to 70 %, noise up to a fortieth of the cycling range | always reported; period inside in 100 %, duty cycle in 93 to 96 %, cut-out and cut-in in 97 to 100 % |
//! | the same with noise of a thirteenth of the cycling range | reported in 97 %; period inside in 100 %, duty cycle in 94 %, cut-out and cut-in in 100 % |
//! | 200 clutches whose flanks level off, time constant a half or a third of the flank | always reported; duty cycle off by at most 0.2 %, cut-out and cut-in by 2 to 4 % of the cycling range, inside in 87 and 100 % |
//!
//! The interval of the period is conservative: a misplaced corner lengthens one cycle and shortens the next.
//!
//! # Limitations
//!
//! Noise slower than the window cannot be distinguished from movement. Pressure swings caused by engine speed look like a
//! clutch if three come in a row; their periods vary widely ([`CyclingQuality::Irregular`]). With fewer than six readings in a
//! cycle neither period nor duty cycle is resolved, and [`SteadyKind::FastSwitching`] may be all that shows.
//!
//! ```
//! use approx::assert_abs_diff_eq;
//! use satline::quantity::Time;
//! use satline::trace::{Sample, Trace, TraceFinding};
//! use satline::{GaugePressure, PressureDifference};
//! let mut trace = Trace::new(PressureDifference::from_psi(1.5), PressureDifference::from_psi(4.8))?;
//! let mut found = Vec::new();
//! for second in 0..600 {
//!     // 12 s engaged, 18 s disengaged
//!     let phase = f64::from(second % 30);
//!     let fallen = if phase < 12.0 { phase / 12.0 } else { (30.0 - phase) / 18.0 };
//!     let (low, high) = (GaugePressure::from_psi(45.0 - 20.0 * fallen), GaugePressure::from_psi(150.0 + 40.0 * fallen));
//!     found.extend(trace.push(&Sample::gauges(Time::from_seconds(f64::from(second)), low, high))?);
//! }
//! found.extend(trace.finish()?);
//! let cycling = found.iter().find_map(|finding| match finding {
//!     TraceFinding::Cycling(cycling) => Some(cycling),
//!     _ => None,
//! });
//! let (period, duty_cycle) = cycling.map(|cycling| (cycling.period.value, cycling.clutch_duty_cycle.value)).unwrap();
//! // their last digits
//! assert_abs_diff_eq!(period.unwrap().seconds(), 30.0, epsilon = 0.01);
//! assert_abs_diff_eq!(duty_cycle.unwrap().percent(), 40.0, epsilon = 0.1);
//! # Ok::<(), satline::Error>(())
//! ```

mod cell;
mod combined;
mod cycling;
mod finding;
mod noise;
mod sample;
mod segmentation;
mod trend;
mod turning_point;

pub use combined::CombinedReadings;
pub use cycling::{Cycling, MIN_CYCLES, MIN_READINGS_PER_CYCLE};
pub use finding::{SteadyPeriod, TraceFinding};
#[doc(hidden)]
pub use parts::*;
pub use sample::Sample;
pub use segmentation::{MIN_STEADY_PERIOD, Trace};

/// Types that findings are made of; they may change in any version.
#[doc(hidden)]
pub mod parts {
    pub use crate::trace::combined::TraceReading;
    pub use crate::trace::cycling::CyclingQuality;
    pub use crate::trace::finding::SteadyKind;
    pub use crate::trace::trend::{Drift, Trend};
}
