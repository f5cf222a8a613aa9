//! Pressures and temperatures to expect from a healthy circuit under given conditions.
//!
//! There are two bases. [`ExpectedWindow`] is computed: a population of healthy circuits, each solved for steady state under the
//! conditions ([`crate::circuit`]), and the quantiles of what they show; where it is known what this circuit shows when healthy, they are
//! weighted by it ([`ExpectedWindow::for_baselines`]). The other is print: makers' and government tables by air
//! temperature, carried as [`charts`] and read by a [`ChartSet`]. They disagree because their cars differ, so every chart
//! stays visible, and [`Charted`] is the band over all of them.
//!
//! The rows of the charts and the bands read from them are in the hidden module `printed` and may change in any version.

pub mod carbon_dioxide;
mod chart;
mod chart_set;
pub mod charts;
mod computed;
mod discrepancy;
mod equalised;
mod own;
mod rules_of_thumb;

pub use chart::CHART_AIR;
pub use chart_set::{ChartSet, Side, Verdict};
pub(crate) use computed::operating_point;
pub use computed::{ExpectedWindow, Quantiles, UNKNOWN_HUMIDITY, WINDOW_CIRCUITS};
pub use equalised::{EqualisedCheck, EqualisedVerdict};
pub(crate) use own::{Correction, OwnCircuit, OwnCircuits, effective_size};
pub use own::{ENOUGH_EFFECTIVE_CIRCUITS, LEAST_EFFECTIVE_CIRCUITS, MOST_OWN_CIRCUITS};
#[doc(hidden)]
pub use printed::*;
pub use rules_of_thumb::{CONDENSING_OVER_AMBIENT, SUBCOOLING, SUPERHEAT};

/// Rows of the printed charts and the bands read from them; these types may change in any version.
#[doc(hidden)]
pub mod printed {
    pub use crate::expected::chart::{AirPlace, Authority, Chart, ChartRow, EqualisedPressure};
    pub use crate::expected::chart_set::{Band, Basis, Charted};
}
