//! What the day allows: the pressures and temperatures to expect from a healthy circuit.
//!
//! Two bases stand side by side. [`Window`] is computed: a population of healthy cars of one kind, each balanced for the day
//! ([`crate::circuit`]), and the quantiles of what they show. The other is what is printed: makers' and government tables by
//! air temperature, as [`charts`] carry them and a [`Book`] reads them. They disagree, because the cars do; so every chart
//! stays visible, and [`Charted`] is the band over all of them.

mod book;
pub mod carbon_dioxide;
mod chart;
pub mod charts;
mod cycle;
mod entry;
mod habit;
mod healthy;
mod log;
mod reading;
mod rest;
mod slip;

pub use book::{ANY_CONDENSING, ANY_EVAPORATING, Band, Basis, Book, Charted, Conditions, Position, Side, Verdict};
pub use chart::{AirPlace, Authority, CHART_AIR, Chart, RestPressure, Row};
pub use cycle::{Cycle, StatePoint, Untold};
pub use entry::{Entry, Question};
pub use habit::{CONDENSING_OVER_AMBIENT, SUBCOOLING, SUPERHEAT};
pub use healthy::{CARS, Quantiles, UNKNOWN_HUMIDITY, Window};
pub use log::Columns;
pub use reading::{
    Assessment, Engine, Instruments, LineFinding, PLAUSIBLE_AIR, PLAUSIBLE_LINE, PartReading, Reading, SideFinding,
};
pub(crate) use reading::{bearable, in_order, share};
pub use rest::{RestFinding, RestVerdict, at_rest};
pub use slip::{FAR, FAR_STEP, other_pressure_unit, other_temperature_unit};
