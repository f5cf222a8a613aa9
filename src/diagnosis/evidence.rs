//! What was read and found, in the form in which causes are compared with it.

use super::cause::Observation;
use crate::circuit::{OperatingPoint, Settings, SteadyState};
use crate::quantity::Quantity;
use crate::service::charge::TOLERANCE;
use crate::window::{
    Conditions, Engine, PLAUSIBLE_AIR, PLAUSIBLE_LINE, PartReading, UNKNOWN_HUMIDITY, bearable, in_order, share,
};
use crate::{
    Error, GaugePressure, Mass, Measured, Pressure, Range, Ratio, Refrigerant, Source, Sourced, Temperature, Trust,
};

/// A quantity that can be read on a car.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
#[cfg_attr(feature = "serde", derive(serde::Serialize), serde(rename_all = "kebab-case"))]
pub enum Channel {
    /// Low-side gauge.
    LowSide,
    /// High-side gauge.
    HighSide,
    /// Suction line.
    SuctionLine,
    /// Liquid line, or gas cooler outlet.
    LiquidLine,
    /// Discharge line.
    DischargeLine,
    /// Centre vent.
    Vent,
    /// Share of time the clutch is engaged: one where it never opens.
    Duty,
    /// Both gauges at rest, everything at ambient.
    AtRest,
    /// What recovery brought out, over what the label asks for.
    Recovered,
}

/// Share of what is inside that recovery brings out, each value between the two as likely: the standard asks for 95 % at 21 to
/// 24 °C within half an hour. Older or hurried equipment leaves up to 18 % at 21 °C (a summary of SAE J2762:2017 says so of
/// equipment to SAE J2210): give [`Recovered::mass`] a wider uncertainty then.
pub const RECOVERED: Sourced<Range<Ratio>> = Sourced {
    value: Range::new(Ratio::from_percent(95.0), Ratio::from_percent(100.0)),
    source: Source {
        work: "SAE J2788:2020, recovery equipment for R-134a",
        locator: "least share removed from the test system",
        doi: None,
        trust: Trust::Excerpt,
    },
};

impl Channel {
    /// All that a running reading may hold.
    pub const RUNNING: [Self; 7] = [
        Self::LowSide,
        Self::HighSide,
        Self::SuctionLine,
        Self::LiquidLine,
        Self::DischargeLine,
        Self::Vent,
        Self::Duty,
    ];

    /// Its name.
    pub const fn name(self) -> &'static str {
        match self {
            Self::LowSide => "low side",
            Self::HighSide => "high side",
            Self::SuctionLine => "suction line",
            Self::LiquidLine => "liquid line",
            Self::DischargeLine => "discharge line",
            Self::Vent => "vent",
            Self::Duty => "clutch engaged",
            Self::AtRest => "pressure at rest",
            Self::Recovered => "recovered charge",
        }
    }

    /// What it costs to measure.
    pub const fn effort(self) -> Effort {
        match self {
            Self::LowSide | Self::HighSide | Self::Vent | Self::Duty => Effort::Look,
            Self::SuctionLine | Self::LiquidLine | Self::DischargeLine => Effort::Clamp,
            Self::AtRest => Effort::Stop,
            Self::Recovered => Effort::Recover,
        }
    }

    /// Whether it is a pressure; what is neither that nor a share is a temperature.
    pub const fn is_pressure(self) -> bool {
        matches!(self, Self::LowSide | Self::HighSide | Self::AtRest)
    }

    /// Whether it is a share: of time, or of the charge on the label.
    pub const fn is_share(self) -> bool {
        matches!(self, Self::Duty | Self::Recovered)
    }

    /// How far the model may be from a car of the same sizes, as a standard uncertainty: of ln p, in K, or of a share; our
    /// estimate. For the recovered charge what recovery leaves behind, width over √12.
    const fn model_error(self) -> f64 {
        match self {
            Self::LowSide | Self::HighSide => 0.04,
            Self::AtRest => 0.01,
            Self::LiquidLine => 1.5,
            Self::SuctionLine => 2.0,
            Self::DischargeLine => 4.0,
            Self::Vent => 1.5,
            // the model pumps at the pressure at which the clutch opens; engaged, a car draws in the denser vapour of its whole
            // swing, by 5 % (3 K at the fins) to 20 % (a switch that opens at 1.6 bar and closes at 3), and needs less time
            Self::Duty => 0.08,
            Self::Recovered => {
                (RECOVERED.value.high.fraction() - RECOVERED.value.low.fraction()) * 0.288_675_134_594_813
            }
        }
    }

    /// Standard uncertainty of a usual instrument: of ln p at the usual pressure, in K, or of a share; for what was not measured
    /// yet.
    pub(crate) const fn usual_error(self) -> f64 {
        match self {
            Self::LowSide => 0.03,
            Self::HighSide => 0.02,
            Self::AtRest => 0.02,
            Self::SuctionLine | Self::LiquidLine | Self::DischargeLine => 1.2,
            Self::Vent => 0.9,
            // cycles differ by a tenth to a fifth of their length, over three of them, and a hand is a second off; ours
            Self::Duty => 0.04,
            // 15 g as a limit of error (`tables/service/charge.csv`), of half a kilogram
            Self::Recovered => 0.017,
        }
    }
}

/// How a share of time is named where it is refused.
const ENGAGED: &str = "share of time the clutch is engaged (%)";

/// What a measurement costs.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
#[cfg_attr(feature = "serde", derive(serde::Serialize), serde(rename_all = "kebab-case"))]
pub enum Effort {
    /// A look at what is there.
    Look,
    /// Clamp a thermometer.
    Clamp,
    /// Stop the engine and wait.
    Stop,
    /// Recover and weigh.
    Recover,
}

impl Effort {
    /// In words.
    pub const fn words(self) -> &'static str {
        match self {
            Self::Look => "look",
            Self::Clamp => "clamp a thermometer",
            Self::Stop => "stop the engine and let it cool",
            Self::Recover => "recover and weigh",
        }
    }
}

/// A running reading: the day, how the car was run, and whatever was measured.
///
/// No quantity is a must. One gauge tells something, and so does a thermometer; what is left out is not guessed, it only leaves
/// more causes open.
///
/// ```
/// use satline::diagnosis::{Evidence, Prior, RunningReading, Reference, interpret};
/// use satline::circuit::CircuitKind;
/// use satline::window::Instruments;
/// use satline::{Measured, Pressure, Refrigerant};
/// let r = Refrigerant::R134a;
/// let tools = Instruments::digital(r);
/// let ambient = tools.air.read("30 °C".parse()?, None)?;
/// let air = Measured::exact(Pressure::STANDARD_ATMOSPHERE)?;
/// // the high-side port is out of reach
/// let low = Some(tools.low.read("0.3 bar".parse()?)?);
/// let evidence = Evidence {
///     running: vec![RunningReading { low, ..RunningReading::on(r, ambient, air) }],
///     ..Evidence::default()
/// };
/// let cars = Reference::new(&CircuitKind::main(r)[..1], &evidence.days()?)?;
/// let answer = interpret(&evidence, &cars, &Prior::flat())?;
/// assert!(answer.is_faulty());
/// # Ok::<(), satline::Error>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RunningReading {
    /// What the label says is inside.
    pub refrigerant: Refrigerant,
    /// Outside air, in the shade before the condenser.
    pub ambient: Measured<Temperature>,
    /// Its relative humidity.
    pub humidity: Option<Ratio>,
    /// Its pressure.
    pub air: Measured<Pressure>,
    /// How the car was run.
    pub running: Settings,
    /// Low-side gauge.
    pub low: Option<Measured<GaugePressure>>,
    /// High-side gauge.
    pub high: Option<Measured<GaugePressure>>,
    /// Suction line.
    pub suction_line: Option<Measured<Temperature>>,
    /// Liquid line, or gas cooler outlet.
    pub liquid_line: Option<Measured<Temperature>>,
    /// Discharge line at the compressor.
    pub discharge_line: Option<Measured<Temperature>>,
    /// Centre vent.
    pub vent: Option<Measured<Temperature>>,
    /// Share of time the clutch is engaged, one where it never opens: [`RunningReading::timed`], or of a log
    /// [`Cycling::share_engaged`](crate::trace::Cycling::share_engaged). Nothing for a compressor without a clutch to be seen.
    pub duty: Option<Measured<Ratio>>,
}

impl RunningReading {
    /// The share of time a clutch was seen engaged, timed by eye over three cycles or, where it never opened, some minutes; a
    /// standard uncertainty of 4 %, ours: cycles differ, and a hand is a second off.
    ///
    /// # Errors
    /// [`Error::Impossible`] outside 0 to 100 %.
    ///
    /// ```
    /// use satline::Ratio;
    /// use satline::diagnosis::RunningReading;
    /// let duty = RunningReading::timed(Ratio::from_fraction(12.0 / 30.0))?; // 12 s of 30 s
    /// assert_eq!(format!("{:.0} ± {:.0} %", duty.value().percent(), duty.expanded().percent()), "40 ± 8 %");
    /// assert!(RunningReading::timed(Ratio::from_fraction(12.0)).is_err());
    /// # Ok::<(), satline::Error>(())
    /// ```
    pub fn timed(clutch_duty_cycle: Ratio) -> Result<Measured<Ratio>, Error> {
        share(ENGAGED, clutch_duty_cycle)?;
        Measured::new(clutch_duty_cycle, Ratio::from_fraction(Channel::Duty.usual_error()))
    }

    /// A day of the usual test, [`Settings::TEST`], of unknown humidity, with nothing measured yet: name what was.
    pub const fn on(refrigerant: Refrigerant, ambient: Measured<Temperature>, air: Measured<Pressure>) -> Self {
        Self {
            refrigerant,
            ambient,
            humidity: None,
            air,
            running: Settings::TEST,
            low: None,
            high: None,
            suction_line: None,
            liquid_line: None,
            discharge_line: None,
            vent: None,
            duty: None,
        }
    }

    /// Whatever `reading` holds, a [`Reading`](crate::window::Reading) or a part of one, of a car run as `running` says.
    ///
    /// # Errors
    /// [`Error::Missing`] for a reading taken at rest, or without its ambient.
    ///
    /// ```
    /// use satline::Refrigerant;
    /// use satline::diagnosis::RunningReading;
    /// use satline::circuit::Settings;
    /// use satline::window::{Engine, Entry, Instruments};
    /// let r = Refrigerant::R134a;
    /// // no gauge at all
    /// let entry = Entry { vent: Some("64 °F".parse()?), ambient: Some("86 °F".parse()?), ..Entry::default() };
    /// let part = entry.part(r, Engine::Running, &Instruments::analogue(r))?;
    /// let running = RunningReading::of(part, Settings::TEST)?;
    /// assert!(running.vent.is_some() && running.low.is_none() && running.high.is_none());
    /// # Ok::<(), satline::Error>(())
    /// ```
    pub fn of(reading: impl Into<PartReading>, running: Settings) -> Result<Self, Error> {
        let reading = reading.into();
        if reading.engine == Engine::AtRest {
            return Err(Error::Missing {
                what: "a reading with the compressor running",
                way_out: "give readings at rest as Evidence::at_rest",
            });
        }
        let ambient = reading.ambient.ok_or(Error::Missing {
            what: "ambient temperature",
            way_out: "every comparison depends on the day; measure it in the shade before the condenser",
        })?;
        Ok(Self {
            humidity: reading.humidity,
            running,
            low: reading.low,
            high: reading.high,
            suction_line: reading.suction_line,
            liquid_line: reading.liquid_line,
            discharge_line: reading.discharge_line,
            vent: reading.vent,
            ..Self::on(reading.refrigerant, ambient, reading.air)
        })
    }

    /// Its day.
    pub fn day(&self) -> Conditions {
        let (ambient, air) = (self.ambient.value(), self.air.value());
        Conditions { ambient, humidity: self.humidity, air, running: self.running }
    }

    fn gauges(&self) -> [(Channel, Option<Measured<GaugePressure>>); 2] {
        [(Channel::LowSide, self.low), (Channel::HighSide, self.high)]
    }

    fn thermometers(&self) -> [(Channel, Option<Measured<Temperature>>); 4] {
        [
            (Channel::SuctionLine, self.suction_line),
            (Channel::LiquidLine, self.liquid_line),
            (Channel::DischargeLine, self.discharge_line),
            (Channel::Vent, self.vent),
        ]
    }

    fn check(&self) -> Result<(), Error> {
        for (channel, gauge) in self.gauges() {
            let Some(gauge) = gauge else { continue };
            let absolute = gauge.value().absolute(self.air.value());
            // a gauge that cannot tell it from vacuum may show less
            if absolute.si() + gauge.expanded().si() <= 0.0 {
                let below = Error::BelowVacuum { value: absolute.kpa(), air_kpa: self.air.value().kpa() };
                return Err(below.about(channel.name()));
            }
        }
        if let (Some(low), Some(high)) = (self.low, self.high) {
            in_order(&low, &high)?;
        }
        self.humidity.map_or(Ok(()), |humidity| share("relative humidity (%)", humidity))?;
        self.duty.map_or(Ok(()), |duty| share(ENGAGED, duty.value()))?;
        bearable("ambient temperature", &self.ambient, &PLAUSIBLE_AIR.value)?;
        for (what, t) in [
            ("suction line temperature", self.suction_line),
            ("liquid line temperature", self.liquid_line),
            ("vent temperature", self.vent),
        ] {
            t.map_or(Ok(()), |t| bearable(what, &t, &PLAUSIBLE_LINE.value))?;
        }
        Ok(())
    }
}

/// The charge that was recovered and weighed.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Recovered {
    /// What came out; what recovery leaves behind ([`RECOVERED`]) is counted beside its uncertainty.
    pub mass: Measured<Mass>,
    /// What the label asks for.
    pub nominal_charge: Mass,
}

impl Recovered {
    /// From what the scale says, known within 15 g at the most, and what the label asks for.
    ///
    /// # Errors
    /// [`Error::Implausible`] for a label below 100 g or above 20 kg, or more than three times as much recovered.
    ///
    /// ```
    /// use satline::diagnosis::Recovered;
    /// use satline::Mass;
    /// let out = Recovered::new(Mass::from_g(310.0), Mass::from_g(550.0))?;
    /// assert!((out.share().percent() - 56.4).abs() < 0.05);
    /// assert!(Recovered::new(Mass::from_g(310.0), Mass::from_g(0.55)).is_err());
    /// # Ok::<(), satline::Error>(())
    /// ```
    pub fn new(mass: Mass, nominal_charge: Mass) -> Result<Self, Error> {
        let within = |what, value: f64, low: f64, high: f64| {
            if (low..=high).contains(&value) {
                return Ok(());
            }
            Err(Error::Implausible { what, value, low, high, unit: "g" })
        };
        // every charge from the smallest car to an articulated bus, as service::charge has it
        within("charge on the label", nominal_charge.g(), 100.0, 20_000.0)?;
        within("recovered charge", mass.g(), 0.0, 3.0 * nominal_charge.g())?;
        // a limit of error counts as even: over √3
        let standard = TOLERANCE.value * (1.0 / 3.0f64.sqrt());
        Ok(Self { mass: Measured::new(mass, standard)?, nominal_charge })
    }

    /// What came out over what the label asks for.
    pub fn share(&self) -> Ratio {
        Ratio::from_fraction(self.mass.value() / self.nominal_charge)
    }
}

/// Everything known of one car: any of it, as long as one quantity was measured on a day that is known.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Evidence {
    /// Running readings: one, or one at idle and one at 1,500 1/min. One that holds its day alone is enough where the pressure at
    /// rest or the recovered charge is all that was measured.
    pub running: Vec<RunningReading>,
    /// Both gauges before the start or long after the stop, everything at ambient: absolute pressure.
    pub at_rest: Option<(Measured<Pressure>, Temperature)>,
    /// The charge that was recovered and weighed.
    pub recovered: Option<Recovered>,
    /// What was found, and what was looked for and not found.
    pub observations: Vec<(Observation, bool)>,
}

/// A number to compare: ln of an absolute pressure in Pa, a temperature in °C, or a share.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Datum {
    /// Which running reading, or which channel at rest.
    pub(super) place: usize,
    pub(super) channel: Channel,
    pub(super) value: f64,
    /// Instrument alone.
    pub(super) instrument: f64,
    /// Instrument and model together.
    pub(super) standard: f64,
}

impl Evidence {
    /// One running reading at the usual test.
    ///
    /// # Errors
    /// Those of [`RunningReading::of`].
    pub fn of(reading: impl Into<PartReading>) -> Result<Self, Error> {
        Ok(Self { running: vec![RunningReading::of(reading, Settings::TEST)?], ..Self::default() })
    }

    /// The days of the running readings, for [`Reference::new`](super::Reference::new).
    ///
    /// # Errors
    /// [`Error::Missing`] without any running reading, or where nothing at all was measured; [`Error::BelowVacuum`] inside
    /// [`Error::About`] for a gauge below vacuum by more than it can tell; [`Error::SidesReversed`]; [`Error::Implausible`] for an
    /// ambient, a line or a vent that no workshop reads; [`Error::Impossible`] for a humidity or a share of time outside 0 to
    /// 100 %.
    pub fn days(&self) -> Result<Vec<Conditions>, Error> {
        if self.running.is_empty() {
            return Err(Error::Missing {
                what: "a reading with the compressor running",
                way_out: "causes are told apart by how the running circuit answers; at rest use the check at rest",
            });
        }
        if self.data().is_empty() {
            return Err(Error::Missing {
                what: "a measured quantity",
                way_out: "one is enough: a gauge, a line, the vent, the clutch timed, the pressure at rest or the recovered \
                          charge; what was seen counts beside it",
            });
        }
        self.running.iter().map(|one| one.check().map(|()| one.day())).collect()
    }

    pub(super) fn data(&self) -> Vec<Datum> {
        let mut data = Vec::new();
        for (place, one) in self.running.iter().enumerate() {
            let air = one.air.value();
            let ambient = one.ambient.standard_uncertainty().kelvins();
            let mut add = |channel: Channel, value: f64, instrument: f64, follows: f64| {
                let standard = instrument.hypot(channel.model_error()).hypot(follows);
                data.push(Datum { place, channel, value, instrument, standard });
            };
            for (channel, gauge) in one.gauges() {
                if let Some(gauge) = gauge {
                    let absolute = gauge.value().absolute(air).pa().max(1e3);
                    // one kelvin of ambient moves either side by about 2 %
                    add(channel, absolute.ln(), gauge.standard_uncertainty().pa() / absolute, 0.02 * ambient);
                }
            }
            for (channel, t) in one.thermometers() {
                if let Some(t) = t {
                    add(channel, t.value().celsius(), t.standard_uncertainty().kelvins(), 0.7 * ambient);
                }
            }
            if let Some(duty) = one.duty {
                // and a clutch that cycles by about 3 %
                add(Channel::Duty, duty.value().fraction(), duty.standard_uncertainty().fraction(), 0.03 * ambient);
            }
        }
        if let Some((pressure, _)) = self.at_rest {
            let p = pressure.value().pa();
            let instrument = pressure.standard_uncertainty().pa() / p;
            let standard = instrument.hypot(Channel::AtRest.model_error());
            data.push(Datum { place: 0, channel: Channel::AtRest, value: p.ln(), instrument, standard });
        }
        if let Some(recovered) = self.recovered {
            let instrument = recovered.mass.standard_uncertainty() / recovered.nominal_charge;
            let standard = instrument.hypot(Channel::Recovered.model_error());
            let value = recovered.share().fraction();
            data.push(Datum { place: 0, channel: Channel::Recovered, value, instrument, standard });
        }
        data
    }
}

/// The operation of a day for car `index`; an unknown humidity is spread over the cars.
pub(super) fn operation(day: &Conditions, index: u64) -> OperatingPoint {
    let humidity = day.humidity.unwrap_or_else(|| {
        let spread = ((index as f64 + 0.5) * 0.618_033_988_749_894_9).fract();
        UNKNOWN_HUMIDITY.value.at(spread)
    });
    OperatingPoint { ambient: day.ambient, humidity, air: day.air, running: day.running }
}

/// What `state` shows on `channel`, as a number to compare.
pub(super) fn shown(state: &SteadyState, channel: Channel, air: Pressure) -> f64 {
    match channel {
        Channel::LowSide => state.low_side.absolute(air).pa().max(1e3).ln(),
        Channel::HighSide => state.high_side.absolute(air).pa().max(1e3).ln(),
        Channel::SuctionLine => state.suction_line.celsius(),
        Channel::LiquidLine => state.liquid_line.celsius(),
        Channel::DischargeLine => state.discharge_line.celsius(),
        Channel::Vent => state.vent.celsius(),
        Channel::Duty => state.clutch_duty_cycle.fraction(),
        Channel::AtRest | Channel::Recovered => f64::NAN,
    }
}

/// A share as the odds of `yes` among `of` texts, smoothed by one for and one against.
pub(super) fn smoothed(yes: u32, of: u32) -> f64 {
    f64::from(yes + 1) / f64::from(of.max(yes) + 2)
}

/// The largest count of texts on any observation: what a count is set against.
pub(super) const TEXTS: u32 = 11;
