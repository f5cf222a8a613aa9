//! Readings of one circuit combined over its log.

use super::cycling::Cycling;
use super::finding::{SteadyKind, SteadyPeriod, TraceFinding};
use super::sample::{AMBIENT, CHANNELS, HIGH, HUMIDITY, LIQUID_LINE, LOW, SUCTION_LINE, VENT};
use super::trend::Trend;
use crate::inspection::{DisplayUnits, Entry, Measurand};
use crate::quantity::{PressureUnit, RatioUnit, TemperatureUnit, Time};
use crate::{Entered, GaugePressure, PressureDifference, Quantity, Ratio, Temperature, TemperatureDifference};

/// Operating states told apart; further ones only count. Our choice: a workshop's log holds idle, a raised speed and little else.
const MOST_STATES: usize = 8;

/// Stretches whose pressures differ by no more than this many standard uncertainties of the gauge are of one operating state; our
/// choice, the gauge's 95 % interval.
const SAME_STATE: f64 = 2.0;

/// Stretches whose ambient temperatures differ by no more than this are of one operating state; our choice: the high side follows it
/// within its gauge's uncertainty.
const SAME_AMBIENT: TemperatureDifference = TemperatureDifference::from_kelvins(3.0);

/// Findings of a log as readings for a diagnosis.
///
/// Steady periods and clutch cycling that agree within what the gauges can show are stretches of one operating state. Their values are
/// averaged, weighted by their duration; of a period that drifts the end counts, as it is on its way there. What gauges are off by is
/// the same in every stretch and does not average out: the uncertainty of the combined reading stays that of the instruments.
///
/// A log does not say at which speed and load it was taken. Stretches that disagree are therefore not combined: the operating state
/// held longest is the reading, and the others are counted. Both gauges before the compressor first ran are the equalised circuit; after
/// a run they are not taken for it, as the circuit is still warm.
///
/// ```
/// use approx::assert_abs_diff_eq;
/// use satline::quantity::Time;
/// use satline::trace::{CombinedReadings, Sample, Trace};
/// use satline::{GaugePressure, PressureDifference};
/// let (low, high) = (PressureDifference::from_psi(1.5), PressureDifference::from_psi(4.8));
/// let (mut trace, mut combined) = (Trace::new(low, high)?, CombinedReadings::new(low, high));
/// for second in 0..1200 {
///     // five minutes before the start, then 30 psi; from the tenth minute on the engine is revved
///     let (low, high) = match second {
///         0..300 => (92.0, 92.0),
///         300..600 | 900.. => (30.0, 180.0),
///         _ => (22.0, 210.0),
///     };
///     let sample = Sample::gauges(Time::from_seconds(f64::from(second)), GaugePressure::from_psi(low), GaugePressure::from_psi(high));
///     trace.push(&sample)?.iter().for_each(|finding| combined.add(finding));
/// }
/// trace.finish()?.iter().for_each(|finding| combined.add(finding));
/// let reading = combined.running().unwrap();
/// // no gauge reads closer
/// assert_abs_diff_eq!(reading.low.psi(), 30.0, epsilon = 0.1);
/// assert!(reading.stretches == 2);
/// assert_eq!(combined.set_aside(), 1);
/// assert_abs_diff_eq!(combined.equalised().unwrap().low.psi(), 92.0, epsilon = 0.1); // no gauge reads closer
/// # Ok::<(), satline::Error>(())
/// ```
#[derive(Debug, Clone)]
pub struct CombinedReadings {
    low_uncertainty: PressureDifference,
    high_uncertainty: PressureDifference,
    states: Vec<State>,
    /// Stretches of states beyond [`MOST_STATES`].
    uncounted: u64,
    equalised: Option<State>,
    ran: bool,
    cycled: bool,
}

/// One operating state of a log as a reading.
#[derive(Debug, Clone, Copy, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(deny_unknown_fields))]
#[non_exhaustive]
pub struct TraceReading {
    /// Low-side gauge pressure; that at which the clutch disengages where it cycles, as simulated circuits have it.
    pub low: GaugePressure,
    /// High-side gauge pressure; the middle of its range where the clutch cycles.
    pub high: GaugePressure,
    /// Temperature of the suction line; `None` if it was not logged or the clutch cycles.
    pub suction_line: Option<Temperature>,
    /// Temperature of the liquid line; likewise.
    pub liquid_line: Option<Temperature>,
    /// Temperature at the centre vent; likewise.
    pub vent: Option<Temperature>,
    /// Ambient temperature; likewise.
    pub ambient: Option<Temperature>,
    /// Relative humidity of the ambient air; likewise.
    pub humidity: Option<Ratio>,
    /// Clutch duty cycle; `None` if the clutch does not cycle.
    pub clutch_duty_cycle: Option<Ratio>,
    /// Number of stretches combined.
    pub stretches: u64,
    /// Their duration together.
    pub duration: Time,
}

impl CombinedReadings {
    /// No readings yet, of gauges with these standard uncertainties.
    pub fn new(low_uncertainty: PressureDifference, high_uncertainty: PressureDifference) -> Self {
        Self {
            low_uncertainty,
            high_uncertainty,
            states: Vec::new(),
            uncounted: 0,
            equalised: None,
            ran: false,
            cycled: false,
        }
    }

    /// Adds a finding of the log, in the order of the log.
    pub fn add(&mut self, finding: &TraceFinding) {
        match finding {
            TraceFinding::Steady(period) => match period.kind {
                SteadyKind::Steady | SteadyKind::Drifting => {
                    self.ran = true;
                    self.put(State::of_period(period));
                }
                SteadyKind::Equalised if !self.ran => self.equalised = State::of_period(period),
                SteadyKind::Equalised | SteadyKind::EqualisedVacuum | SteadyKind::FastSwitching => {}
            },
            TraceFinding::Cycling(cycling) => {
                (self.ran, self.cycled) = (true, true);
                self.put(State::of_cycling(cycling));
            }
            TraceFinding::Transient { .. } | TraceFinding::Gap { .. } | TraceFinding::ClockReset { .. } => {}
        }
    }

    fn put(&mut self, state: Option<State>) {
        let Some(state) = state else { return };
        let (low, high) = (self.low_uncertainty, self.high_uncertainty);
        match self.states.iter().position(|known| known.agrees(&state, low, high)) {
            Some(at) => self.states[at].join(&state),
            None if self.states.len() < MOST_STATES => self.states.push(state),
            None => self.uncounted += 1,
        }
    }

    /// Reading of the operating state held longest; `None` if none was held.
    pub fn running(&self) -> Option<TraceReading> {
        self.longest().map(State::reading)
    }

    /// Reading of the equalised circuit before the compressor first ran; `None` if the log has none.
    pub fn equalised(&self) -> Option<TraceReading> {
        self.equalised.as_ref().map(State::reading)
    }

    /// Number of stretches in other operating states than that of [`CombinedReadings::running`].
    pub fn set_aside(&self) -> u64 {
        let all: u64 = self.states.iter().map(|state| state.stretches).sum();
        all + self.uncounted - self.longest().map_or(0, |state| state.stretches)
    }

    /// Whether a clutch cycled anywhere in the log: the kind of compressor, whatever the reading.
    pub fn has_cycling_clutch(&self) -> bool {
        self.cycled
    }

    fn longest(&self) -> Option<&State> {
        self.states.iter().max_by(|a, b| a.seconds.total_cmp(&b.seconds))
    }
}

impl TraceReading {
    /// The reading as an entry in `units`, pressures to about 0.01 bar.
    pub fn entry(&self, units: &DisplayUnits) -> Entry {
        let pressure = |pressure: GaugePressure, unit| Entered::new(pressure, unit, decimals(unit));
        let mut entry = Entry::gauges(pressure(self.low, units.low), pressure(self.high, units.high));
        for (measurand, temperature) in [
            (Measurand::SuctionLine, self.suction_line),
            (Measurand::LiquidLine, self.liquid_line),
            (Measurand::Vent, self.vent),
        ] {
            if let Some(temperature) = temperature {
                entry = entry.put(measurand, in_tenths(temperature, units.temperature).into());
            }
        }
        if let Some(duty_cycle) = self.clutch_duty_cycle {
            entry = entry.put(Measurand::ClutchDutyCycle, Entered::new(duty_cycle, RatioUnit::Percent, 0).into());
        }
        entry.ambient = self.ambient.map(|ambient| in_tenths(ambient, units.temperature));
        entry.humidity = self.humidity.map(|humidity| Entered::new(humidity, RatioUnit::Percent, 0));
        entry
    }
}

fn in_tenths(temperature: Temperature, unit: TemperatureUnit) -> Entered<Temperature> {
    Entered::new(temperature, unit, 1)
}

/// What a pressure is stated to; our choice, a tenth of what a service gauge tells apart.
const STATED_TO: PressureDifference = PressureDifference::from_bar(0.01);

/// Decimals that state a pressure in `unit` to about [`STATED_TO`].
fn decimals(unit: PressureUnit) -> usize {
    (-STATED_TO.value_in(unit).log10()).ceil().max(0.0) as usize
}

/// Weighted mean of the values of a quantity in SI units.
#[derive(Debug, Clone, Copy, Default)]
struct Mean {
    weight: f64,
    sum: f64,
}

impl Mean {
    fn of(value: f64, weight: f64) -> Self {
        Self { weight, sum: weight * value }
    }

    fn join(&mut self, other: Self) {
        self.weight += other.weight;
        self.sum += other.sum;
    }

    fn value<Q: Quantity>(self) -> Option<Q> {
        (self.weight > 0.0).then(|| Q::from_si(self.sum / self.weight))
    }
}

/// Stretches of one operating state.
#[derive(Debug, Clone)]
struct State {
    cycles: bool,
    channels: [Mean; CHANNELS],
    duty_cycle: Mean,
    stretches: u64,
    seconds: f64,
}

impl State {
    /// Of two pressures held for `seconds`.
    fn of(low: GaugePressure, high: GaugePressure, seconds: f64) -> Self {
        let mut channels = [Mean::default(); CHANNELS];
        channels[LOW] = Mean::of(low.si(), seconds);
        channels[HIGH] = Mean::of(high.si(), seconds);
        Self { cycles: false, channels, duty_cycle: Mean::default(), stretches: 1, seconds }
    }

    /// Of a steady period; `None` without a value of either gauge.
    fn of_period(period: &SteadyPeriod) -> Option<Self> {
        let seconds = (period.to - period.from).seconds();
        let drifts = period.kind == SteadyKind::Drifting;
        let mut state = Self::of(level(&period.low, drifts)?, level(&period.high, drifts)?, seconds);
        let lines = [
            (SUCTION_LINE, &period.suction_line),
            (LIQUID_LINE, &period.liquid_line),
            (VENT, &period.vent),
            (AMBIENT, &period.ambient),
        ];
        let temperatures = lines.map(|(channel, trend)| (channel, logged(trend, drifts)));
        for (channel, si) in temperatures.into_iter().chain([(HUMIDITY, logged(&period.humidity, drifts))]) {
            state.channels[channel] = si.map_or(Mean::default(), |si| Mean::of(si, seconds));
        }
        Some(state)
    }

    /// Of clutch cycling; `None` where the readings do not resolve it.
    fn of_cycling(cycling: &Cycling) -> Option<Self> {
        let duty_cycle = cycling.measured_duty_cycle()?.value();
        let seconds = (cycling.to - cycling.from).seconds();
        let of = Self::of(cycling.cut_out.value?, cycling.high_side, seconds);
        Some(Self { cycles: true, duty_cycle: Mean::of(duty_cycle.si(), seconds), ..of })
    }

    /// Whether both are of one operating state, by gauges of these standard uncertainties.
    fn agrees(&self, other: &Self, low: PressureDifference, high: PressureDifference) -> bool {
        // both gauges have a value: a stretch lasts
        let within = |channel: usize, reach: f64| {
            let values = [self, other].map(|state| state.channels[channel].value::<GaugePressure>());
            matches!(values, [Some(a), Some(b)] if (a - b).pa().abs() <= reach)
        };
        let ambients = [self, other].map(|state| state.channels[AMBIENT].value::<Temperature>());
        let same_day = match ambients {
            [Some(a), Some(b)] => (a - b).kelvins().abs() <= SAME_AMBIENT.kelvins(),
            _ => true,
        };
        self.cycles == other.cycles
            && within(LOW, SAME_STATE * low.pa())
            && within(HIGH, SAME_STATE * high.pa())
            && same_day
    }

    fn join(&mut self, other: &Self) {
        self.channels.iter_mut().zip(other.channels).for_each(|(mine, theirs)| mine.join(theirs));
        self.duty_cycle.join(other.duty_cycle);
        self.stretches += other.stretches;
        self.seconds += other.seconds;
    }

    fn reading(&self) -> TraceReading {
        let gauge = |channel: usize| self.channels[channel].value().unwrap_or(GaugePressure::from_si(0.0));
        let line = |channel: usize| self.channels[channel].value();
        TraceReading {
            low: gauge(LOW),
            high: gauge(HIGH),
            suction_line: line(SUCTION_LINE),
            liquid_line: line(LIQUID_LINE),
            vent: line(VENT),
            ambient: line(AMBIENT),
            humidity: self.channels[HUMIDITY].value(),
            clutch_duty_cycle: self.duty_cycle.value(),
            stretches: self.stretches,
            duration: Time::from_seconds(self.seconds),
        }
    }
}

/// The [`level`] of a quantity in SI units; `None` if it was not logged.
fn logged<Q: Quantity>(trend: &Option<Trend<Q>>, drifts: bool) -> Option<f64> {
    level(trend.as_ref()?, drifts).map(Q::si)
}

/// The mean over a steady period, or where it drifts the end of its line.
fn level<Q: Quantity>(trend: &Trend<Q>, drifts: bool) -> Option<Q> {
    if drifts { trend.end.value } else { trend.mean.value }
}
