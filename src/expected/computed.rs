//! Expected windows, computed from a population of healthy circuits.

use crate::circuit::{CircuitKind, Conditions, OperatingPoint, Population, SteadyState};
use crate::inspection::{Measurand, MeasurandKind};
use crate::quantity::Quantity;
use crate::{
    Error, GaugePressure, Pressure, Range, Ratio, Refrigerant, Source, Sourced, Temperature, TemperatureDifference,
};

/// Number of circuits simulated for a window.
pub const WINDOW_CIRCUITS: usize = 256;

/// Range of relative humidity that is sampled evenly if the humidity is not known.
pub const UNKNOWN_HUMIDITY: Sourced<Range<Ratio>> = Sourced {
    value: Range::new(Ratio::from_percent(30.0), Ratio::from_percent(80.0)),
    source: Source::COMMON_PRACTICE,
};

/// Fraction of the circuits that need a steady state for a window.
const ENOUGH: f64 = 0.9;

/// Window of healthy circuits under given conditions, as quantiles over a simulated population.
///
/// [`WINDOW_CIRCUITS`] circuits of the kinds asked for, their sizes sampled from published ranges ([`crate::circuit::ranges`]), each
/// solved for its steady state. The spread is that between circuits; instruments come on top.
///
/// - **Accuracy** against makers' tables: `tables/WINDOWS.md` lists every row.
/// - **Left out** sun on the car, oil; with the doors open also heat stored in the cabin.
///
/// ```
/// use satline::circuit::{CircuitKind, Conditions, Settings};
/// use satline::expected::ExpectedWindow;
/// use satline::{Pressure, Ratio, Refrigerant, Temperature};
/// let day = Conditions {
///     ambient: Temperature::from_celsius(30.0),
///     humidity: Some(Ratio::from_percent(50.0)),
///     air: Pressure::STANDARD_ATMOSPHERE,
///     settings: Settings::TEST,
/// };
/// let window = ExpectedWindow::for_day(&CircuitKind::main(Refrigerant::R134a)[0], &day)?;
/// let nine_tenths = window.high_side.range();
/// assert!(nine_tenths.low.kpa() > 700.0 && nine_tenths.high.kpa() < 2200.0);
/// // where does 2.9 MPa lie?
/// assert!(window.high_side.share_below(satline::GaugePressure::from_kpa(2900.0)).percent() > 99.0);
/// # Ok::<(), satline::Error>(())
/// ```
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub struct ExpectedWindow {
    /// Kinds of circuit simulated, with equal weights.
    pub kinds: Vec<CircuitKind>,
    /// Conditions that were simulated.
    pub conditions: Conditions,
    /// Low-side gauge pressure at its port.
    pub low_side: Quantiles<GaugePressure>,
    /// High-side gauge pressure at its port.
    pub high_side: Quantiles<GaugePressure>,
    /// Superheat of the suction line, from the low-side gauge.
    pub superheat: Quantiles<TemperatureDifference>,
    /// Subcooling of the liquid line, from the high-side gauge; `None` if the high side is above the critical pressure.
    pub subcooling: Option<Quantiles<TemperatureDifference>>,
    /// Condensing temperature over ambient, from the high-side gauge; `None` above the critical pressure.
    pub condensing_over_ambient: Option<Quantiles<TemperatureDifference>>,
    /// The running temperatures, by measurand.
    temperatures: Vec<(Measurand, Quantiles<Temperature>)>,
    /// Capacity fraction of the compressor: share of stroke or of time.
    pub capacity_fraction: Quantiles<Ratio>,
    /// Number of circuits without a steady state, which are left out.
    pub missing: usize,
}

impl ExpectedWindow {
    /// Window of one kind of circuit under the conditions `day`.
    ///
    /// # Errors
    /// [`Error::Implausible`] for conditions outside what the model was made for, 5 to 55 °C among it; [`Error::NotModelled`] for a
    /// blend; [`Error::NotConverged`] when more than a tenth of the circuits have no steady state.
    pub fn for_day(kind: &CircuitKind, day: &Conditions) -> Result<Self, Error> {
        Self::for_kinds(std::slice::from_ref(kind), day)
    }

    /// Window of several kinds together, each with the same share of [`WINDOW_CIRCUITS`]: for an unknown kind.
    ///
    /// # Errors
    /// As [`ExpectedWindow::for_day`]; [`Error::Missing`] for no kind at all.
    pub fn for_kinds(kinds: &[CircuitKind], day: &Conditions) -> Result<Self, Error> {
        if kinds.is_empty() {
            return Err(Error::Missing { what: "the kind of car", way_out: "name one, or use CircuitKind::main" });
        }
        let each = WINDOW_CIRCUITS.div_ceil(kinds.len());
        let mut states: Vec<SteadyState> = Vec::with_capacity(each * kinds.len());
        let mut missing = 0;
        let mut last = None;
        for kind in kinds {
            let cars = Population::new(*kind)?;
            for index in 0..each as u64 {
                let humidity = day.humidity.unwrap_or_else(|| UNKNOWN_HUMIDITY.value.at(spread(index)));
                let operation = OperatingPoint { ambient: day.ambient, humidity, air: day.air, running: day.settings };
                match cars.circuit(index).run(&operation) {
                    Ok(state) => states.push(state),
                    Err(error @ Error::NotConverged { .. }) => {
                        missing += 1;
                        last = Some(error);
                    }
                    Err(error) => return Err(error),
                }
            }
        }
        if let Some(error) = last.filter(|_| (states.len() as f64) < ENOUGH * (states.len() + missing) as f64) {
            return Err(error);
        }
        Ok(Self {
            kinds: kinds.to_vec(),
            conditions: *day,
            low_side: Quantiles::of(&states, |s| s.low_side),
            high_side: Quantiles::of(&states, |s| s.high_side),
            superheat: Quantiles::of(&states, |s| s.superheat_at_port),
            subcooling: Quantiles::where_known(&states, |s| s.subcooling_at_port),
            condensing_over_ambient: Quantiles::where_known(&states, |s| s.condensing_over_ambient),
            temperatures: temperatures(&states, day.air),
            capacity_fraction: Quantiles::of(&states, |s| s.capacity_fraction),
            missing,
        })
    }
}

impl ExpectedWindow {
    /// Whether a window can be computed: for a pure refrigerant, at temperatures at which air conditioning is used.
    pub fn covers(refrigerant: Refrigerant, ambient: Temperature) -> bool {
        !refrigerant.is_blend() && crate::circuit::AMBIENT.contains(ambient)
    }

    /// Quantiles of a running temperature; `None` for another kind of measurand.
    pub fn temperature(&self, measurand: Measurand) -> Option<&Quantiles<Temperature>> {
        self.temperatures.iter().find(|(known, _)| *known == measurand).map(|(_, quantiles)| quantiles)
    }

    /// Number of circuits in the window.
    pub fn circuits(&self) -> usize {
        self.low_side.sorted.len()
    }
}

/// Every running temperature over `states`.
fn temperatures(states: &[SteadyState], air: Pressure) -> Vec<(Measurand, Quantiles<Temperature>)> {
    let one = |measurand: Measurand| {
        let simulated = measurand.row().simulated.filter(|_| measurand.kind() == MeasurandKind::Temperature)?;
        Some((measurand, Quantiles::of(states, |state| Temperature::from_celsius(simulated(state, air)))))
    };
    Measurand::running().filter_map(one).collect()
}

/// Numbers spread evenly over 0 to 1, by the golden section.
fn spread(index: u64) -> f64 {
    ((index as f64 + 0.5) * 0.618_033_988_749_894_9).fract()
}

/// Distribution of one quantity over the simulated circuits.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub struct Quantiles<Q> {
    /// From the lowest to the highest.
    sorted: Vec<Q>,
}

impl<Q: Quantity> Quantiles<Q> {
    fn of(states: &[SteadyState], pick: impl Fn(&SteadyState) -> Q) -> Self {
        let mut sorted: Vec<Q> = states.iter().map(pick).collect();
        sorted.sort_by(|a, b| a.si().total_cmp(&b.si()));
        Self { sorted }
    }

    /// `None` unless more than half of the circuits have it.
    fn where_known(states: &[SteadyState], pick: impl Fn(&SteadyState) -> Option<Q>) -> Option<Self> {
        let mut sorted: Vec<Q> = states.iter().filter_map(pick).collect();
        if 2 * sorted.len() <= states.len() {
            return None;
        }
        sorted.sort_by(|a, b| a.si().total_cmp(&b.si()));
        Some(Self { sorted })
    }

    /// Quantile of `share`, interpolated linearly between circuits.
    pub fn at(&self, share: Ratio) -> Q {
        let last = self.sorted.len().saturating_sub(1);
        let place = share.fraction().clamp(0.0, 1.0) * last as f64;
        let below = place.floor() as usize;
        let above = (below + 1).min(last);
        Range::new(self.sorted[below], self.sorted[above]).at(place - below as f64)
    }

    /// Quantiles of 5, 25, 50, 75 and 95 %.
    pub fn five(&self) -> [Q; 5] {
        [5.0, 25.0, 50.0, 75.0, 95.0].map(|percent| self.at(Ratio::from_percent(percent)))
    }

    /// Range of nine tenths of the circuits, 5 to 95 %.
    pub fn range(&self) -> Range<Q> {
        let [low, .., high] = self.five();
        Range::new(low, high)
    }

    /// Median of the circuits.
    pub fn middle(&self) -> Q {
        self.at(Ratio::from_percent(50.0))
    }

    /// Fraction of the circuits with a value below `value`.
    pub fn share_below(&self, value: Q) -> Ratio {
        let below = self.sorted.partition_point(|q| *q < value);
        Ratio::from_fraction(below as f64 / self.sorted.len() as f64)
    }
}
