//! The standing vacuum test (hold test): a circuit pumped down and shut off, and the conclusion from its pressure rise.
//!
//! Air that enters through a leak raises the pressure linearly, p = p₀ + r t: as long as the inside stays below
//! about half the pressure outside, the inflow does not notice it (for air the flow chokes at 0.528 of the pressure outside,
//! critical ratio of a perfect gas with γ = 1.4). Water that evaporates, and refrigerant that leaves the oil, raise it
//! towards a pressure of their own, a saturating (exponential) rise p = p∞ − (p∞ − p₀) e^(−t/τ). Both are members of
//! one family with a bend κ = T/τ, T the length of the test; κ = 0 is linear.
//!
//! What the test then says is what the 95 % interval of κ leaves: see [`VacuumFinding`]. Nothing is named that the readings cannot
//! tell apart.
//!
//! How often the finding is right was counted on 1000 made tests of each kind, 8 to 40 readings, scattered by a tenth to three
//! steps of the gauge (`tests/service_vacuum.rs`):
//!
//! | made with | named so | not told or not seen | named otherwise |
//! |---|---|---|---|
//! | a leak, 2 to 500 micron/min for 5 to 30 min | 90 % | 10 % | 0.3 % |
//! | moisture, τ from 0.1 to 1.5 times the test | 97 % | 2 % | 1.7 %, mostly as leak and moisture |
//! | both, τ from 0.1 to 0.3 times the test | 90 % | 1 % | 9 %, mostly as a leak, where it outweighs the moisture |
//! | neither | 97 % | | 3 % |
//!
//! The truth lay inside the 95 % intervals of rate, start, end and time constant in 960 to 976 of 1000, and half a width was
//! 3.4 to 3.9 times the median error (2.9 is the least an honest interval can have). Readings that wander, each keeping half of
//! what the one before was off, are harder: 934.
//!
//! It stops being true where the temperature moves much (give it, and the pressure is referred to that of the first
//! reading as p T₁/T, which is right for gas and too little for water), and where the gauge drifts.

use super::{Interval, validate};
use crate::air::water;
use crate::numeric::exponential_fit::{Estimate, Figure, Rise, phi};
use crate::quantity::{K95, PressureRate, SQRT_3, Time};
use crate::{
    Error, GaugePressure, Measured, Pressure, PressureDifference, Quantity, Ratio, Source, Sourced, Temperature,
    TemperatureDifference, Trust,
};

/// Smallest number of readings that is fitted: three figures of the curve, and two more to know the scatter.
pub const FEWEST_READINGS: usize = 5;

/// A rise whose rate changes by less than this over the test counts as straight: our choice, gauges bend their scales by as
/// much.
const STRAIGHT_ENOUGH: f64 = 0.1;
/// κ from which a rise levels within the test, its time constant not above the length of the test: by definition of κ.
const LEVELS_WITHIN: f64 = 1.0;
/// Coldest and hottest circuit that is plausible, °C; beyond them the unit is wrong. Our choice: a winter night, and a circuit
/// under a hot bonnet.
const PLAUSIBLE_CELSIUS: (f64, f64) = (-40.0, 90.0);
/// Largest limit of error of a gauge's scale, as a share: our choice. A gauge that is off by more shows nothing.
const LARGEST_GAUGE_LIMIT: f64 = 0.5;

/// Choked-flow limit: pressure inside over pressure outside below which inflow does not depend on the pressure inside.
pub const CHOKED: Sourced<Ratio> = Sourced {
    value: Ratio::from_fraction(0.528),
    source: Source {
        work: "critical pressure ratio of a perfect gas, (2/(γ + 1))^(γ/(γ − 1)), γ = 1.4",
        locator: "",
        doi: None,
        trust: Trust::Reasoned,
    },
};

/// A vacuum as it was read, absolute or gauge.
#[doc(hidden)]
#[derive(Debug, Clone, Copy, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(rename_all = "kebab-case"))]
pub enum VacuumReading {
    /// Absolute pressure, as a vacuum gauge in microns shows it.
    Absolute(Pressure),
    /// Gauge pressure, negative in vacuum, as a service gauge shows it.
    Gauge(GaugePressure),
}

impl From<Pressure> for VacuumReading {
    fn from(read: Pressure) -> Self {
        Self::Absolute(read)
    }
}

impl From<GaugePressure> for VacuumReading {
    fn from(read: GaugePressure) -> Self {
        Self::Gauge(read)
    }
}

/// Readings of a circuit that was shut off under vacuum.
///
/// ```
/// use approx::assert_abs_diff_eq;
/// use satline::quantity::Time;
/// use satline::service::standing_vacuum::{VacuumFinding, StandingVacuumTest};
/// use satline::{Measured, Pressure, PressureDifference};
/// let air = Measured::exact(Pressure::STANDARD_ATMOSPHERE)?;
/// let mut test = StandingVacuumTest::new(air, PressureDifference::from_microns(10.0))?;
/// for (minute, microns) in [500.0, 620.0, 730.0, 850.0, 970.0, 1080.0, 1200.0, 1320.0].into_iter().enumerate() {
///     test.push(Time::from_minutes(minute as f64), Pressure::from_microns(microns), None)?;
/// }
/// let fit = test.fit()?;
/// assert_eq!(fit.finding, VacuumFinding::Leak);
/// let rate = fit.rate;
/// assert_abs_diff_eq!(rate.value.unwrap().microns_per_minute(), 116.8, epsilon = 0.1); // its last digit
/// assert!(rate.low.unwrap().microns_per_minute() > 113.0 && rate.high.unwrap().microns_per_minute() < 121.0);
/// # Ok::<(), satline::Error>(())
/// ```
#[derive(Debug, Clone, PartialEq)]
pub struct StandingVacuumTest {
    air: Measured<Pressure>,
    step: PressureDifference,
    gauge_limit: Ratio,
    gauge: Option<bool>,
    seconds: Vec<f64>,
    pascals: Vec<f64>,
    temperatures: Vec<Temperature>,
}

/// Conclusion from the rise of the pressure in a standing vacuum test.
///
/// | finding | the 95 % intervals leave |
/// |---|---|
/// | `NoRise` | a level: neither a line nor a bent rise explains the readings better (F test) |
/// | `Falling` | a line that falls |
/// | `Leak` | κ below 1 and down to 0.1 or less: a rise that levels within the test is excluded, a linear one is not |
/// | `Moisture` | κ above 0.1: a linear rise is excluded |
/// | `LeakAndMoisture` | the same, and a levelling rise alone is excluded too |
/// | `OpenToAir` | a rise to more than the pressure at which inflow chokes: the curve of a large leak, not of moisture |
/// | `SpeedsUp` | κ below −0.1: neither leak nor moisture does that |
/// | `CannotTell` | both a linear rise and one that levels within the test |
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(rename_all = "kebab-case"))]
#[non_exhaustive]
pub enum VacuumFinding {
    /// No rise that these readings could show; never the same as no leak.
    NoRise,
    /// The pressure falls: a pump still pulls, or the circuit cools.
    Falling,
    /// A linear rise, as of air that enters through a leak.
    Leak,
    /// A saturating (exponential) rise, as of water, or of refrigerant that leaves the oil: they level alike.
    Moisture,
    /// A saturating rise superimposed on a linear one.
    LeakAndMoisture,
    /// A rise towards the pressure of the air.
    OpenToAir,
    /// A rise that grows faster: the circuit warms up, a valve creeps open, or the gauge drifts.
    SpeedsUp,
    /// Undecided: the readings fit a leak and moisture alike.
    CannotTell,
}

/// The readings taken for a rise that levels off.
#[derive(Debug, Clone, Copy, PartialEq)]
struct Levelling {
    /// Pressure it rises to, p∞.
    end: Interval<Pressure>,
    /// Time constant τ: after it 63 % of the rise is done.
    time_constant: Interval<Time>,
}

/// The pressure that a levelling rise leads to, beside the saturation pressure of water at the temperature of the circuit.
#[doc(hidden)]
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(rename_all = "kebab-case"))]
#[non_exhaustive]
pub enum BesideWater {
    /// Below it: the water that was left has all evaporated or is held by drier and oil, or it is refrigerant.
    Below,
    /// At it: water may still be wet inside.
    At,
    /// Above it: more than water can do at this temperature; refrigerant out of the oil, or air that enters too.
    Above,
}

/// Limit of error of the temperature of a circuit, for comparing with water.
pub const CIRCUIT_TEMPERATURE: Sourced<TemperatureDifference> =
    Sourced { value: TemperatureDifference::from_kelvins(2.0), source: Source::COMMON_PRACTICE };

/// The rise fitted to a standing vacuum test, and the conclusion from it.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub struct StandingVacuumFit {
    /// Conclusion from the rise of the pressure.
    pub finding: VacuumFinding,
    /// Number of readings.
    pub readings: usize,
    /// Time from the first to the last reading, T.
    pub length: Time,
    /// Absolute pressure at the first reading.
    pub first: Pressure,
    /// Absolute pressure at the last reading.
    pub last: Pressure,
    /// Root mean square distance of the readings from the best curve.
    pub scatter: PressureDifference,
    /// Variance inflation by autocorrelated residuals: the number of readings that count as one; 1 if independent.
    pub variance_inflation: f64,
    /// Bend κ = T/τ of the best curve: 0 for a linear rise, above it levelling, below it speeding up.
    pub bend: Interval<f64>,
    /// Absolute pressure at the first reading, by the linear fit.
    pub start: Interval<Pressure>,
    /// Rate of rise, by the linear fit.
    pub rate: Interval<PressureRate>,
    /// Rate of a linear rise that may be superimposed on a levelling one, as a 95 % interval; `None` with fewer than
    /// six readings.
    pub beside: Option<Interval<PressureRate>>,
    /// Smallest rate of a linear rise that readings like these detect, in 95 % of tests. `None` if they rise or fall
    /// otherwise: [`StandingVacuumFit::beside`] says what could hide there.
    pub smallest_seen: Option<PressureRate>,
    /// Temperature at the first reading; `None` if it was not given.
    pub temperature: Option<Temperature>,
    /// Of a rise that levels off; `None` if that is excluded, or nothing rises.
    levelling: Option<Levelling>,
    scale: FitScale,
    rise: Rise,
}

impl StandingVacuumTest {
    /// An empty test: `air` is the absolute pressure around the circuit, `step` the smallest step the gauge shows.
    ///
    /// # Errors
    /// [`Error::Impossible`] for a step that is not above zero, since rounding is part of the uncertainty, or above the
    /// pressure of the air, and for air without pressure.
    pub fn new(air: Measured<Pressure>, step: PressureDifference) -> Result<Self, Error> {
        validate::positive("pressure of the surrounding air (kPa)", air.value())?;
        if !(step.pa() > 0.0 && step.pa().is_finite()) {
            return Err(Error::Impossible {
                what: "smallest step of the gauge (Pa)",
                value: step.pa(),
                must: "above zero: the last digit it shows, or the part of a division that can be read",
            });
        }
        if step.pa() > air.value().pa() {
            return Err(Error::Impossible {
                what: "smallest step of the gauge (Pa)",
                value: step.pa(),
                must: "no more than the pressure of the air: a gauge that coarse shows no vacuum",
            });
        }
        Ok(Self {
            air,
            step,
            gauge_limit: Ratio::from_fraction(0.0),
            gauge: None,
            seconds: Vec::new(),
            pascals: Vec::new(),
            temperatures: Vec::new(),
        })
    }

    /// The test with a gauge whose scale may be off by this share of what it shows, the same share in every reading.
    ///
    /// # Errors
    /// [`Error::Impossible`] for a share below zero or above one half.
    pub fn with_gauge_limit(self, limit: Ratio) -> Result<Self, Error> {
        if !(0.0..=LARGEST_GAUGE_LIMIT).contains(&limit.fraction()) {
            return Err(Error::Impossible {
                what: "limit of error of the vacuum gauge (%)",
                value: limit.percent(),
                must: "from 0 to 50",
            });
        }
        Ok(Self { gauge_limit: limit, ..self })
    }

    /// Absolute pressure of the surrounding air.
    pub fn air(&self) -> Measured<Pressure> {
        self.air
    }

    /// The readings as the fit takes them: time since the first, and absolute pressure, referred to the temperature of
    /// the first if temperatures were given.
    pub fn readings(&self) -> impl Iterator<Item = (Time, Pressure)> {
        let start = self.seconds.first().copied().unwrap_or(0.0);
        self.seconds
            .iter()
            .enumerate()
            .map(move |(i, t)| (Time::from_seconds(t - start), Pressure::from_pa(self.pascals[i] * self.referred(i))))
    }

    /// T₁/T of reading `i`, which refers its pressure to the temperature of the first; one without temperatures.
    fn referred(&self, i: usize) -> f64 {
        self.temperatures.first().map_or(1.0, |t| t.kelvin() / self.temperatures[i].kelvin())
    }

    /// Number of readings taken so far.
    pub fn len(&self) -> usize {
        self.seconds.len()
    }

    /// Whether no reading was taken yet.
    pub fn is_empty(&self) -> bool {
        self.seconds.is_empty()
    }

    /// Adds a reading; one that is refused leaves the test as it was.
    ///
    /// Temperature of the circuit is given with every reading or with none.
    ///
    /// # Errors
    /// [`Error::NotLater`]; [`Error::NotVacuum`] for a pressure above the air; [`Error::BelowVacuum`];
    /// [`Error::Implausible`] for a temperature no circuit has; [`Error::WrongReference`] for gauge and absolute pressures
    /// in one test; [`Error::Missing`] for a temperature that others have; [`Error::NotFinite`].
    pub fn push(
        &mut self,
        time: Time,
        pressure: impl Into<VacuumReading>,
        temperature: Option<Temperature>,
    ) -> Result<(), Error> {
        let (gauge, absolute) = match pressure.into() {
            VacuumReading::Absolute(absolute) => (false, absolute),
            VacuumReading::Gauge(gauge) => (true, gauge.absolute(self.air.value())),
        };
        for (what, value) in [(Time::NAME, time.si()), (Pressure::NAME, absolute.si())] {
            if !value.is_finite() {
                return Err(Error::NotFinite { what, text: value.to_string() });
            }
        }
        if self.gauge.is_some_and(|before| before != gauge) {
            return Err(Error::WrongReference {
                what: "the pressure of every reading as the first",
                text: absolute.entered(crate::quantity::PressureUnit::Kilopascal, 2).to_string(),
                given: if gauge { "gauge" } else { "absolute" },
                way_out: "use one gauge for the whole test",
            });
        }
        if let Some(&before) = self.seconds.last()
            && time.seconds() <= before
        {
            return Err(Error::NotLater { seconds: time.seconds(), before });
        }
        self.is_vacuum(absolute)?;
        self.is_temperature(temperature)?;
        self.gauge = Some(gauge);
        self.seconds.push(time.seconds());
        self.pascals.push(absolute.pa());
        self.temperatures.extend(temperature);
        Ok(())
    }

    /// Between nothing and the air, each give or take what the air pressure and the gauge's step are not known by.
    fn is_vacuum(&self, absolute: Pressure) -> Result<(), Error> {
        let (air, slack) = (self.air.value(), self.air.expanded().pa() + self.step.pa());
        if absolute.pa() > air.pa() + slack {
            return Err(Error::NotVacuum { kpa: absolute.kpa(), air_kpa: air.kpa() });
        }
        if absolute.pa() < -slack || (absolute.pa() < 0.0 && self.air.standard_uncertainty().pa() == 0.0) {
            return Err(Error::BelowVacuum { value: absolute.kpa(), air_kpa: air.kpa() });
        }
        Ok(())
    }

    fn is_temperature(&self, temperature: Option<Temperature>) -> Result<(), Error> {
        let others_have = !self.temperatures.is_empty();
        if let Some(t) = temperature {
            let (low, high) = PLAUSIBLE_CELSIUS;
            if !(low..=high).contains(&t.celsius()) {
                return Err(Error::Implausible { what: "temperature", value: t.celsius(), low, high, unit: "°C" });
            }
        }
        if !self.is_empty() && temperature.is_some() != others_have {
            return Err(Error::Missing {
                what: "temperature of some readings",
                way_out: "give it with every reading or with none",
            });
        }
        Ok(())
    }

    /// Fits the family of rises and draws the conclusion.
    ///
    /// - **Equation** p = a + b (1 − e^(−κx))/(1 − e^(−κ)), x = (t − t₁)/T, least squares.
    /// - **Uncertainty** 95 % intervals of the profile: scatter about the curve, the gauge's step, neighbours that resemble
    ///   each other, the gauge's limit, and for gauge readings the air pressure in levels, where it does not cancel.
    /// - **Accuracy** the truth lies inside in at least 95 % of made tests: see the [module](self).
    ///
    /// # Errors
    /// [`Error::TooFew`] below [`FEWEST_READINGS`].
    pub fn fit(&self) -> Result<StandingVacuumFit, Error> {
        let n = self.len();
        if n < FEWEST_READINGS {
            return Err(Error::TooFew {
                what: "readings of the hold test",
                found: n,
                needed: FEWEST_READINGS,
                way_out: "read the gauge every minute or so; two readings give a rise, but not whether it is straight",
            });
        }
        let (start, length) = (self.seconds[0], self.seconds[n - 1] - self.seconds[0]);
        validate::finite("length of the standing vacuum test (min)", Time::from_seconds(length))?;
        let x: Vec<f64> = self.seconds.iter().map(|t| (t - start) / length).collect();
        // p T₁/T
        let y: Vec<f64> = self.pascals.iter().enumerate().map(|(i, p)| p * self.referred(i)).collect();
        let rise = Rise::fit(&x, &y, self.step.pa())?;
        let scale = self.scale(length);
        let bend = rise.bend();
        let beside = rise.beside()?;
        let fit = StandingVacuumFit {
            finding: VacuumFinding::CannotTell,
            readings: n,
            length: Time::from_seconds(length),
            first: Pressure::from_pa(self.pascals[0]),
            last: Pressure::from_pa(self.pascals[n - 1]),
            scatter: PressureDifference::from_pa(rise.scatter()),
            variance_inflation: rise.variance_inflation(),
            bend: Interval {
                value: Some(bend.value),
                low: bend.low.is_finite().then_some(bend.low),
                high: bend.high.is_finite().then_some(bend.high),
            },
            start: scale.level(rise.straight(START)?),
            rate: scale.rate(rise.straight(RISE)?),
            beside: beside.map(|beside| scale.rate(beside.straight)),
            smallest_seen: Some(PressureRate::from_pa_per_s(rise.smallest_seen()? / length)),
            temperature: self.temperatures.first().copied(),
            levelling: levelling(&rise, &scale)?,
            scale,
            rise,
        };
        let both = beside.is_some_and(|beside| beside.clear);
        let finding = self.finding(&fit, both);
        let straight = matches!(finding, VacuumFinding::NoRise | VacuumFinding::Leak | VacuumFinding::CannotTell);
        let rises = !matches!(finding, VacuumFinding::NoRise | VacuumFinding::Falling);
        Ok(StandingVacuumFit {
            finding,
            smallest_seen: fit.smallest_seen.filter(|_| straight),
            levelling: fit.levelling.filter(|_| rises),
            ..fit
        })
    }

    /// What the gauge and the length of the test make of the figures of a fit.
    fn scale(&self, length: f64) -> FitScale {
        FitScale {
            length,
            gain_half: K95 * self.gauge_limit.fraction() / SQRT_3,
            offset_half: if self.gauge == Some(true) { self.air.expanded().pa() } else { 0.0 },
        }
    }

    fn finding(&self, fit: &StandingVacuumFit, both: bool) -> VacuumFinding {
        let zero = PressureRate::from_pa_per_s(0.0);
        if !fit.rise.moves() {
            return VacuumFinding::NoRise;
        }
        if fit.rate.high.is_some_and(|high| high < zero) {
            return VacuumFinding::Falling;
        }
        let bend = fit.rise.bend();
        if bend.high < -STRAIGHT_ENOUGH {
            return VacuumFinding::SpeedsUp;
        }
        if bend.low > STRAIGHT_ENOUGH {
            let end = fit.levelling.and_then(|levelling| levelling.end.value);
            let chokes = self.air.value().pa() * CHOKED.value.fraction();
            return match end {
                Some(end) if end.pa() > chokes && fit.last.pa() > 0.5 * chokes => VacuumFinding::OpenToAir,
                _ if both => VacuumFinding::LeakAndMoisture,
                _ => VacuumFinding::Moisture,
            };
        }
        if bend.high < LEVELS_WITHIN { VacuumFinding::Leak } else { VacuumFinding::CannotTell }
    }
}

/// Relative excess of a span that is rounding; our choice.
const TRIFLE: f64 = 1e-9;
/// The level at the first reading.
const START: Figure = Figure { level: 1.0, rise: 0.0 };
/// The rise over the whole test.
const RISE: Figure = Figure { level: 0.0, rise: 1.0 };

/// What is the same for every figure of a fit: the length of the test in s, and the 95 % half-widths that the gauge adds.
#[derive(Debug, Clone, Copy, PartialEq)]
struct FitScale {
    length: f64,
    /// Of the gauge's scale, as a share of what it shows.
    gain_half: f64,
    /// Of the air that a service gauge counts from, Pa.
    offset_half: f64,
}

impl FitScale {
    fn level(&self, estimate: Estimate) -> Interval<Pressure> {
        let own = Interval::from_si(estimate.value, estimate.low, estimate.high);
        own.widened((self.gain_half * estimate.value).hypot(self.offset_half))
    }

    fn difference(&self, estimate: Estimate) -> Interval<PressureDifference> {
        let own = Interval::from_si(estimate.value, estimate.low, estimate.high);
        own.widened(self.gain_half * estimate.value)
    }

    fn rate(&self, Estimate { value, low, high }: Estimate) -> Interval<PressureRate> {
        let own = Interval::from_si(value / self.length, low / self.length, high / self.length);
        own.widened(self.gain_half * value / self.length)
    }
}

/// The readings taken for a rise that levels off; `None` if that is excluded.
fn levelling(rise: &Rise, scale: &FitScale) -> Result<Option<Levelling>, Error> {
    let bend = rise.bend();
    if bend.high <= 0.0 {
        return Ok(None);
    }
    // p∞ = a + b/(1 − e^(−κ))
    let end = rise.profile_levelling(|kappa| Figure { level: 1.0, rise: -1.0 / (-kappa).exp_m1() })?;
    // a rise that may as well be straight rises to anything
    let open = if bend.low <= 0.0 { Estimate { high: f64::INFINITY, ..end } } else { end };
    let value = if bend.value <= 0.0 { f64::INFINITY } else { open.value };
    let tau = |kappa: f64| if kappa <= 0.0 { f64::INFINITY } else { scale.length / kappa };
    // below the first interval the time constant is not seen
    let shortest = if bend.high.is_finite() { tau(bend.high) } else { 0.0 };
    Ok(Some(Levelling {
        end: scale.level(Estimate { value, ..open }),
        time_constant: Interval::from_si(tau(bend.value), shortest, tau(bend.low)),
    }))
}

impl StandingVacuumFit {
    /// Final pressure p∞ of a levelling rise; `None` if levelling is excluded, or nothing rises.
    pub fn levels_at(&self) -> Option<Interval<Pressure>> {
        self.levelling.map(|levelling| levelling.end)
    }

    /// Time constant τ of a levelling rise, after which 63 % of it is done; `None` as for
    /// [`StandingVacuumFit::levels_at`].
    pub fn time_constant(&self) -> Option<Interval<Time>> {
        self.levelling.map(|levelling| levelling.time_constant)
    }

    /// Pressure rise in the first `span` of the test, as a 95 % interval: of the linear fit if the finding is a leak or
    /// no rise, else over every rise that cannot be distinguished from the best.
    ///
    /// # Errors
    /// [`Error::OutsideLimits`] for a span longer than the test: what was not watched is not foretold.
    pub fn rise_over(&self, span: Time) -> Result<Interval<PressureDifference>, Error> {
        Ok(self.scale.difference(self.after(span, 0.0)?))
    }

    /// Absolute pressure of the fitted curve `span` after the first reading.
    ///
    /// # Errors
    /// As [`StandingVacuumFit::rise_over`].
    pub fn pressure_after(&self, span: Time) -> Result<Interval<Pressure>, Error> {
        Ok(self.scale.level(self.after(span, 1.0)?))
    }

    fn after(&self, span: Time, level: f64) -> Result<Estimate, Error> {
        let share = span / self.length;
        if !(share > 0.0 && share <= 1.0 + TRIFLE) {
            return Err(Error::OutsideLimits {
                what: "time from the start of the hold test",
                value: span.minutes(),
                low: 0.0,
                high: self.length.minutes(),
                unit: "min",
            });
        }
        let share = share.min(1.0);
        match self.finding {
            VacuumFinding::Leak | VacuumFinding::NoRise => self.rise.straight(Figure { level, rise: share }),
            _ => self.rise.profile(|kappa| Figure { level, rise: phi(kappa, share) }),
        }
    }

    /// Final pressure of a levelling rise compared with water at the temperature of the first reading, known within
    /// [`CIRCUIT_TEMPERATURE`]; none without a temperature, or without a levelling rise.
    pub(crate) fn beside_water(&self) -> Option<BesideWater> {
        if !matches!(self.finding, VacuumFinding::Moisture | VacuumFinding::LeakAndMoisture) {
            return None;
        }
        let (end, t) = (self.levelling?.end, self.temperature?);
        let at = |t| water::saturation_pressure(t).ok();
        let (coldest, hottest) = (at(t - CIRCUIT_TEMPERATURE.value)?, at(t + CIRCUIT_TEMPERATURE.value)?);
        Some(if end.high.is_some_and(|high| high < coldest) {
            BesideWater::Below
        } else if end.low.is_some_and(|low| low > hottest) {
            BesideWater::Above
        } else {
            BesideWater::At
        })
    }

    /// Rate of pressure rise by a leak: of the linear fit for a leak, or if no rise was seen; beside the levelling
    /// rise for both; `None` for any other finding.
    pub fn leak_rate(&self) -> Option<Interval<PressureRate>> {
        match self.finding {
            VacuumFinding::Leak | VacuumFinding::NoRise => Some(self.rate),
            VacuumFinding::LeakAndMoisture => self.beside,
            _ => None,
        }
    }

    /// Upper end of the 95 % interval of the leak's rate of pressure rise; `None` if the readings do not bound it.
    pub fn leak_at_most(&self) -> Option<PressureRate> {
        match self.finding {
            VacuumFinding::Leak | VacuumFinding::NoRise | VacuumFinding::CannotTell => self.rate.high,
            VacuumFinding::Moisture | VacuumFinding::LeakAndMoisture => self.beside.and_then(|beside| beside.high),
            VacuumFinding::OpenToAir | VacuumFinding::Falling | VacuumFinding::SpeedsUp => None,
        }
    }
}
