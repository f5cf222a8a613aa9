//! Expected windows, computed from a population of healthy circuits.

use super::own::{Adjusted, LEAST_EFFECTIVE_CIRCUITS, OwnCircuits, OwnStates, spread};
use crate::circuit::{CircuitKind, Conditions, OperatingPoint, Population, SteadyState};
use crate::inspection::{Baseline, Measurand, MeasurandKind};
use crate::numeric::{parallel, sort_by_number};
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

/// Fraction of the circuits that need a steady state for a window; our choice.
const ENOUGH: f64 = 0.9;

/// Window of healthy circuits under given conditions, as quantiles over a simulated population.
///
/// [`WINDOW_CIRCUITS`] circuits of the kinds asked for, their sizes sampled from ranges, most of them from memory ([`crate::circuit::ranges`]), each
/// solved for its steady state. The spread is that between circuits; instruments come on top.
///
/// Where it is known what the circuit at hand shows when it is healthy, [`ExpectedWindow::for_baselines`] makes the window its own.
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
    /// What the circuit at hand is known to show when it is healthy; empty in a window of the whole population.
    pub baselines: Vec<Baseline>,
    /// Effective number of circuits, (Σw)²/Σw² over their weights by the baselines; that of all without baselines.
    pub effective_circuits: f64,
    circuits: usize,
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
        let cars = kinds.iter().map(|kind| Population::new(*kind)).collect::<Result<Vec<_>, Error>>()?;
        let drawn: Vec<(&Population, u64)> =
            cars.iter().flat_map(|cars| (0..each as u64).map(move |index| (cars, index))).collect();
        let solved = parallel::map(&drawn, |&(cars, index)| cars.circuit(index).run(&operating_point(day, index)));
        let mut states: Vec<SteadyState> = Vec::with_capacity(drawn.len());
        let mut missing = 0;
        let mut last = None;
        for solved in solved {
            match solved {
                Ok(state) => states.push(state),
                Err(error @ Error::NotConverged { .. }) => {
                    missing += 1;
                    last = Some(error);
                }
                Err(error) => return Err(error),
            }
        }
        if let Some(error) = last.filter(|_| (states.len() as f64) < ENOUGH * (states.len() + missing) as f64) {
            return Err(error);
        }
        let [low, high] =
            [Measurand::LowSide, Measurand::HighSide].map(|side| Adjusted::as_computed(side, &states, day.air));
        let weights = vec![1.0; states.len()];
        let effective = states.len() as f64;
        let own = OwnStates { states, weights, low, high, missing };
        Ok(Self::of_states(&own, kinds, day, (&[], effective)))
    }

    /// Window of the circuit at hand, one of `kinds`, of which `baselines` say what it shows when it is healthy: rows of the maker's
    /// table for the car, or earlier readings of it. Without baselines it is [`ExpectedWindow::for_kinds`].
    ///
    /// - **Method** importance sampling: every circuit of the population runs under the conditions of each row and is weighted by how
    ///   well its pressures agree, ln w = −½ Σ ((ln p − ln p(row))/σ)², all pressures absolute; σ holds what the model differs by
    ///   from a real circuit, which the rows share in part, and half the half width of the range. Circuits are drawn until
    ///   [`ENOUGH_EFFECTIVE_CIRCUITS`](super::ENOUGH_EFFECTIVE_CIRCUITS) of them count, at most
    ///   [`MOST_OWN_CIRCUITS`](super::MOST_OWN_CIRCUITS). Both pressures then move by what the rows lie off the model, and their
    ///   spread is widened by what that leaves unknown; where too few circuits count, by linear regression too (Beaumont, Zhang & Balding,
    ///   Genetics 162 (2002) 2025).
    /// - **Adjusted** are both gauge pressures and the condensing temperature over ambient; other quantities are weighted alone.
    /// - **Accuracy** each row of the printed ladders from every two others of its ladder: `tests/own_window.rs`.
    /// - **Cost** about 14 ms for two rows on two cores.
    ///
    /// # Errors
    /// As [`ExpectedWindow::for_kinds`].
    ///
    /// ```
    /// use satline::circuit::{CircuitKind, Conditions, Settings};
    /// use satline::expected::ExpectedWindow;
    /// use satline::{Pressure, Ratio, Refrigerant, Temperature};
    /// let kind = CircuitKind::main(Refrigerant::R134a)[1];
    /// let rows = ["25 °C, 60 %: 171 to 209 kPa, 1204 to 1471 kPa".parse()?, "35 °C, 60 %: 229 to 280 kPa, 1500 to 1820 kPa".parse()?];
    /// let day = Conditions {
    ///     ambient: Temperature::from_celsius(30.0),
    ///     humidity: Some(Ratio::from_percent(60.0)),
    ///     air: Pressure::STANDARD_ATMOSPHERE,
    ///     settings: Settings::TEST,
    /// };
    /// let own = ExpectedWindow::for_baselines(&[kind], &day, &rows)?;
    /// let any = ExpectedWindow::for_day(&kind, &day)?;
    /// let width = |window: &ExpectedWindow| (window.high_side.range().high - window.high_side.range().low).kpa();
    /// assert!(own.fits_baselines() && width(&own) < 0.7 * width(&any));
    /// # Ok::<(), satline::Error>(())
    /// ```
    pub fn for_baselines(kinds: &[CircuitKind], day: &Conditions, baselines: &[Baseline]) -> Result<Self, Error> {
        if baselines.is_empty() {
            return Self::for_kinds(kinds, day);
        }
        Self::of_own(&OwnCircuits::of(kinds, baselines)?, kinds, day)
    }

    /// Window of circuits weighted by baselines.
    pub(crate) fn of_own(own: &OwnCircuits, kinds: &[CircuitKind], day: &Conditions) -> Result<Self, Error> {
        Ok(Self::of_states(&own.states(day)?, kinds, day, (own.baselines(), own.effective())))
    }

    /// Window of these states, of `kinds` under the conditions `day`, with the baselines they are weighted by and how many effective
    /// circuits that leaves.
    fn of_states(
        own: &OwnStates,
        kinds: &[CircuitKind],
        day: &Conditions,
        (baselines, effective_circuits): (&[Baseline], f64),
    ) -> Self {
        let OwnStates { states, weights, low, high, missing } = own;
        let of = Weighted { states, weights };
        let gauge = |side: &Adjusted| {
            Quantiles::weighted(
                side.spread(weights).into_iter().map(|(p, weight)| (p.gauge(day.air), weight)).collect(),
            )
        };
        let refrigerant = kinds.first().map(|kind| kind.refrigerant);
        let over_ambient = |(p, weight): (Pressure, f64)| {
            let condensing = refrigerant?.saturation_temperature(p).ok()?;
            Some((condensing - day.ambient, weight))
        };
        let condensing: Vec<_> = high.spread(weights).into_iter().filter_map(over_ambient).collect();
        let [superheat, subcooling] =
            [Measurand::SuctionLine, Measurand::LiquidLine].map(|line| line.row().model_uncertainty);
        Self {
            kinds: kinds.to_vec(),
            conditions: *day,
            low_side: gauge(low),
            high_side: gauge(high),
            superheat: of
                .quantiles(superheat, |s| s.superheat_at_port)
                .at_least(TemperatureDifference::from_kelvins(0.0)),
            subcooling: of.where_known(subcooling, |s| s.subcooling_at_port),
            condensing_over_ambient: of.is_most(&condensing).then(|| Quantiles::weighted(condensing)),
            temperatures: temperatures(|deviation, pick| of.quantiles(deviation, |state| pick(state, day.air))),
            capacity_fraction: of.quantiles(0.0, |s| s.capacity_fraction),
            missing: *missing,
            baselines: baselines.to_vec(),
            effective_circuits,
            circuits: states.len(),
        }
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

    /// Number of circuits in the window; those that weigh nothing beside the others are left out.
    pub fn circuits(&self) -> usize {
        self.circuits
    }

    /// Whether the baselines fit the population: at least [`LEAST_EFFECTIVE_CIRCUITS`](super::LEAST_EFFECTIVE_CIRCUITS) circuits count.
    /// Below that they contradict the model or are at its edge, the window is extrapolated from the nearest circuits, and the baselines
    /// themselves say more; true without baselines.
    pub fn fits_baselines(&self) -> bool {
        self.baselines.is_empty() || self.effective_circuits >= LEAST_EFFECTIVE_CIRCUITS
    }
}

/// Steady states and their weights.
struct Weighted<'a> {
    states: &'a [SteadyState],
    weights: &'a [f64],
}

impl Weighted<'_> {
    /// Quantiles of what `pick` takes of the circuits, with a normal `deviation` about each in SI units.
    fn quantiles<Q: Quantity>(&self, deviation: f64, pick: impl Fn(&SteadyState) -> Q) -> Quantiles<Q> {
        let values = self.states.iter().map(|state| pick(state).si()).zip(self.weights.iter().copied());
        if deviation > 0.0 {
            return Quantiles::spread(values, deviation);
        }
        Quantiles::weighted(values.map(|(si, weight)| (Q::from_si(si), weight)).collect())
    }

    /// `None` unless the circuits that have it have most of the weight.
    fn where_known<Q: Quantity>(
        &self,
        deviation: f64,
        pick: impl Fn(&SteadyState) -> Option<Q>,
    ) -> Option<Quantiles<Q>> {
        let known: Vec<(f64, f64)> = self
            .states
            .iter()
            .zip(self.weights)
            .filter_map(|(state, weight)| Some((pick(state)?.si(), *weight)))
            .collect();
        self.is_most(&known).then(|| Quantiles::spread(known.into_iter(), deviation))
    }

    fn is_most<Q>(&self, known: &[(Q, f64)]) -> bool {
        2.0 * known.iter().map(|(_, weight)| weight).sum::<f64>() > self.weights.iter().sum::<f64>()
    }
}

/// The `quantiles` of every running temperature, by its model uncertainty and what it is.
fn temperatures(
    quantiles: impl Fn(f64, &dyn Fn(&SteadyState, Pressure) -> Temperature) -> Quantiles<Temperature>,
) -> Vec<(Measurand, Quantiles<Temperature>)> {
    let one = |measurand: Measurand| {
        let simulated = measurand.row().simulated.filter(|_| measurand.kind() == MeasurandKind::Temperature)?;
        let deviation = measurand.row().model_uncertainty;
        Some((measurand, quantiles(deviation, &|state, air| Temperature::from_celsius(simulated(state, air)))))
    };
    Measurand::running().filter_map(one).collect()
}

/// Golden section, (√5 − 1)/2 by definition.
const GOLDEN_SECTION: f64 = 0.618_033_988_749_894_9;

/// The quantiles that a window is drawn with, %: the middle nine tenths, the half within them and the median; our choice.
const QUANTILES: [f64; 5] = [5.0, 25.0, 50.0, 75.0, 95.0];

/// Operating point of circuit `index` under the conditions `day`; an unknown humidity is spread evenly over the circuits, by the
/// golden section, and is the same for all days of one circuit.
pub(crate) fn operating_point(day: &Conditions, index: u64) -> OperatingPoint {
    let spread = ((index as f64 + 0.5) * GOLDEN_SECTION).fract();
    let humidity = day.humidity.unwrap_or_else(|| UNKNOWN_HUMIDITY.value.at(spread));
    OperatingPoint { ambient: day.ambient, humidity, air: day.air, running: day.settings }
}

/// Distribution of one quantity over the simulated circuits.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub struct Quantiles<Q> {
    /// From the lowest to the highest.
    sorted: Vec<Q>,
    /// Weight of each and all before it, over that of all.
    up_to: Vec<f64>,
}

impl<Q: Quantity> Quantiles<Q> {
    /// Of values with their weights.
    fn weighted(mut values: Vec<(Q, f64)>) -> Self {
        sort_by_number(&mut values, |(value, _)| value.si());
        let total: f64 = values.iter().map(|(_, weight)| weight).sum();
        let mut sum = 0.0;
        let up_to = values
            .iter()
            .map(|(_, weight)| {
                sum += weight;
                sum / total
            })
            .collect();
        Self { sorted: values.into_iter().map(|(value, _)| value).collect(), up_to }
    }

    /// Of weighted values in SI units with a normal `deviation` about each.
    fn spread(values: impl Iterator<Item = (f64, f64)>, deviation: f64) -> Self {
        Self::weighted(spread(values, deviation).map(|(si, weight)| (Q::from_si(si), weight)).collect())
    }

    /// The same with everything below `least` there.
    fn at_least(mut self, least: Q) -> Self {
        self.sorted.iter_mut().for_each(|value| {
            if *value < least {
                *value = least;
            }
        });
        self
    }

    /// Quantile of `share`, interpolated linearly between circuits.
    pub fn at(&self, share: Ratio) -> Q {
        let last = self.sorted.len().saturating_sub(1);
        let place = self.place(share.fraction().clamp(0.0, 1.0), last);
        let below = place.floor() as usize;
        let above = (below + 1).min(last);
        Range::new(self.sorted[below], self.sorted[above]).at(place - below as f64)
    }

    /// Where `share` lies among the values; a weighted value stands at the middle of its weight.
    fn place(&self, share: f64, last: usize) -> f64 {
        let middle = |i: usize| 0.5 * (self.weight_below(i) + self.up_to[i]);
        // the first value whose middle is beyond the share
        let (mut low, mut high) = (0, self.sorted.len());
        while low < high {
            let half = (low + high) / 2;
            if middle(half) <= share { low = half + 1 } else { high = half }
        }
        if low == 0 || low > last {
            return low.min(last) as f64;
        }
        let (before, after) = (middle(low - 1), middle(low));
        (low - 1) as f64 + (share - before) / (after - before)
    }

    /// Share of the weight below the `i`-th value.
    fn weight_below(&self, i: usize) -> f64 {
        i.checked_sub(1).map_or(0.0, |before| self.up_to[before])
    }

    /// Quantiles of 5, 25, 50, 75 and 95 %.
    pub fn five(&self) -> [Q; 5] {
        QUANTILES.map(|percent| self.at(Ratio::from_percent(percent)))
    }

    /// Range of nine tenths of the circuits, 5 to 95 %.
    pub fn range(&self) -> Range<Q> {
        let [low, .., high] = self.five();
        Range::new(low, high)
    }

    /// Median of the circuits.
    pub fn middle(&self) -> Q {
        self.at(Ratio::from_fraction(0.5))
    }

    /// Fraction of the circuits with a value below `value`.
    pub fn share_below(&self, value: Q) -> Ratio {
        let below = self.sorted.partition_point(|q| *q < value);
        Ratio::from_fraction(self.weight_below(below))
    }
}
