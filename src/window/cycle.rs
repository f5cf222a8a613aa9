//! The car's loop as it was read: the state of the refrigerant at each place that gauges and thermometers tell.

use super::reading::Reading;
use crate::line::absolute;
use crate::quantity::{SpecificEnthalpy, SpecificEntropy, Uncertainty};
use crate::{Error, Measured, Pressure, Quantity, Ratio, Refrigerant, Temperature, TemperatureDifference};

/// The refrigerant at one place of the loop.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct StatePoint {
    /// Pressure, absolute.
    pub pressure: Pressure,
    /// Temperature; of a blend between its lines, in a straight line between bubble and dew point.
    pub temperature: Temperature,
    /// Enthalpy; 200 kJ/kg for saturated liquid at 0 °C.
    pub enthalpy: SpecificEnthalpy,
    /// Entropy; 1 kJ/(kg K) for saturated liquid at 0 °C.
    pub entropy: SpecificEntropy,
    /// Share of the mass that is vapour; none outside the two-phase region.
    pub quality: Option<Ratio>,
}

/// Why the state at a place is not told.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Untold {
    /// Its line was not measured, or that of the place before it.
    NotMeasured,
    /// The line is at saturation, or on the wrong side of it: how much is liquid, its temperature does not say.
    TwoPhase,
    /// Outside the range of the equation of state.
    OutOfRange,
}

impl Untold {
    /// In words.
    pub const fn words(self) -> &'static str {
        match self {
            Self::NotMeasured => "not measured",
            Self::TwoPhase => "not clear of saturation, where a temperature does not say how much is liquid",
            Self::OutOfRange => "outside the range of the equation of state",
        }
    }
}

/// The loop of a running reading, as far as it is told.
///
/// Both lines are taken at the pressure of the gauge on their side: the pressure lost between port and clamp is not known.
/// The expansion is taken at constant enthalpy, the compressor without loss at constant entropy.
///
/// - **Equation** refrigerating effect h₁ − h₄; work without loss h₂ₛ − h₁; isentropic efficiency (h₂ₛ − h₁)/(h₂ − h₁);
///   COP of the ideal compressor (h₁ − h₄)/(h₂ₛ − h₁). 1 suction line, 2 discharge line, 4 after the expansion device,
///   h₄ = h₃ of the liquid line.
/// - **Uncertainty** of gauges and thermometers, one after the other by half the difference over ± one standard
///   uncertainty (JCGM 100:2008, 5.1.3 note 2, from memory). That a clamped thermometer reads the wall is in it, the heat a
///   compressor sheds is not.
/// - **Source** the equation of state of the refrigerant.
///
/// ```
/// use satline::window::{Cycle, Engine, Entry, Instruments};
/// use satline::Refrigerant;
/// let r = Refrigerant::R134a;
/// let entry = Entry {
///     suction_line: Some("10 °C".parse()?),
///     liquid_line: Some("45 °C".parse()?),
///     ..Entry::gauges("2 bar".parse()?, "13 bar".parse()?)
/// };
/// let cycle = Cycle::of(&entry.reading(r, Engine::Running, &Instruments::digital(r))?, None)?;
/// let effect = cycle.refrigerating_effect().unwrap();
/// assert!((effect.value().kj_per_kg() - 143.4).abs() < 0.05);
/// assert!(cycle.isentropic_efficiency().is_none()); // no discharge line
/// # Ok::<(), satline::Error>(())
/// ```
#[derive(Debug, Clone, PartialEq)]
pub struct Cycle {
    /// What is inside.
    pub refrigerant: Refrigerant,
    /// Low side.
    pub low: Measured<Pressure>,
    /// High side.
    pub high: Measured<Pressure>,
    /// 1: vapour in the suction line.
    pub suction: Result<StatePoint, Untold>,
    /// 2: gas in the discharge line.
    pub discharge: Result<StatePoint, Untold>,
    /// 2s: gas after a compressor without loss.
    pub lossless: Result<StatePoint, Untold>,
    /// 3: liquid line, or outlet of the gas cooler.
    pub liquid: Result<StatePoint, Untold>,
    /// 4: after the expansion device.
    pub inlet: Result<StatePoint, Untold>,
    read: Read,
}

/// What was read, with standard uncertainties.
#[derive(Debug, Clone, Copy, PartialEq)]
struct Read {
    pressures: [Measured<Pressure>; 2],
    lines: [Option<Measured<Temperature>>; 3],
}

/// The same as plain values.
#[derive(Debug, Clone, Copy)]
struct Values {
    low: Pressure,
    high: Pressure,
    suction: Option<Temperature>,
    liquid: Option<Temperature>,
    discharge: Option<Temperature>,
}

/// The states that follow from values.
struct Points {
    suction: Result<StatePoint, Untold>,
    discharge: Result<StatePoint, Untold>,
    lossless: Result<StatePoint, Untold>,
    liquid: Result<StatePoint, Untold>,
    inlet: Result<StatePoint, Untold>,
}

impl Cycle {
    /// The loop of `reading`, with the temperature of the discharge line where it was measured.
    ///
    /// # Errors
    /// [`Error::Missing`] for a reading at rest, in which there is no loop; [`Error::BelowVacuum`]; [`Error::OutOfRange`]
    /// for a pressure below the saturation lines.
    pub fn of(reading: &Reading, discharge_line: Option<Measured<Temperature>>) -> Result<Self, Error> {
        if reading.engine == super::Engine::AtRest {
            return Err(Error::Missing {
                what: "a reading with the compressor running",
                way_out: "at rest nothing flows and there is no loop; start the engine and read again",
            });
        }
        let refrigerant = reading.refrigerant;
        let low = absolute(&reading.low, &reading.air).map_err(|error| error.about("low side"))?;
        let high = absolute(&reading.high, &reading.air).map_err(|error| error.about("high side"))?;
        let critical = refrigerant.fluid().critical.value.pressure;
        for (place, p) in [("low side", low.value()), ("high side", high.value())] {
            if p < critical {
                refrigerant.dew_temperature(p).map_err(|error| error.about(place))?;
            }
        }
        let read = Read { pressures: [low, high], lines: [reading.suction_line, reading.liquid_line, discharge_line] };
        let Points { suction, discharge, lossless, liquid, inlet } = points(refrigerant, &read.values());
        Ok(Self { refrigerant, low, high, suction, discharge, lossless, liquid, inlet, read })
    }

    /// Heat taken up between expansion device and suction line, h₁ − h₄.
    pub fn refrigerating_effect(&self) -> Option<Measured<SpecificEnthalpy>> {
        self.measured(|p| Some(p.suction.ok()?.enthalpy - p.inlet.ok()?.enthalpy))
    }

    /// Work of a compressor without loss, h₂ₛ − h₁.
    pub fn lossless_work(&self) -> Option<Measured<SpecificEnthalpy>> {
        self.measured(|p| Some(p.lossless.ok()?.enthalpy - p.suction.ok()?.enthalpy))
    }

    /// Rise of enthalpy to the discharge line as measured, h₂ − h₁: the work of a compressor that sheds no heat.
    pub fn work(&self) -> Option<Measured<SpecificEnthalpy>> {
        self.measured(|p| Some(p.discharge.ok()?.enthalpy - p.suction.ok()?.enthalpy))
    }

    /// Work without loss over work as measured; above one where the discharge line reads colder than is possible without
    /// shedding heat.
    pub fn isentropic_efficiency(&self) -> Option<Measured<Ratio>> {
        self.measured(|p| {
            let h = p.suction.ok()?.enthalpy;
            let work = (p.discharge.ok()?.enthalpy - h).si();
            // a discharge line no hotter than the suction line has no efficiency
            (work > 0.0).then(|| Ratio::from_fraction((p.lossless.ok().map_or(0.0, |s| (s.enthalpy - h).si())) / work))
        })
    }

    /// Refrigerating effect over the work of a compressor without loss: what the ideal compressor would reach on this loop,
    /// not what this car does.
    pub fn lossless_cop(&self) -> Option<Measured<Ratio>> {
        self.measured(|p| {
            let h = p.suction.ok()?.enthalpy;
            let work = (p.lossless.ok()?.enthalpy - h).si();
            (work > 0.0).then_some(Ratio::from_fraction((h - p.inlet.ok()?.enthalpy).si() / work))
        })
    }

    /// A figure of the loop with the uncertainty of what was read.
    fn measured<Q: Quantity<Difference = Q>>(&self, figure: impl Fn(&Points) -> Option<Q>) -> Option<Measured<Q>> {
        let at = |values: &Values| figure(&points(self.refrigerant, values));
        let middle = at(&self.read.values())?;
        let mut parts = Vec::new();
        for place in 0..5 {
            // near saturation one side may not be told: the other stands for both
            let side = |sign| at(&self.read.shifted(place, sign)).map(|shifted| (shifted.si() - middle.si()) * sign);
            let part = match (side(1.0), side(-1.0)) {
                (Some(a), Some(b)) => 0.5 * (a + b),
                (Some(one), None) | (None, Some(one)) => one,
                (None, None) => return None,
            };
            parts.push(Q::from_si(part.abs()));
        }
        Measured::new(middle, Q::combine(&parts)).ok()
    }
}

impl Read {
    fn values(&self) -> Values {
        let [low, high] = self.pressures.map(|p| p.value());
        let [suction, liquid, discharge] = self.lines.map(|line| line.map(|t| t.value()));
        Values { low, high, suction, liquid, discharge }
    }

    /// The values with one of them `sign` standard uncertainties off.
    fn shifted(&self, place: usize, sign: f64) -> Values {
        let mut values = self.values();
        let line = |t: &Option<Measured<Temperature>>| {
            t.map(|t| t.value() + TemperatureDifference::from_kelvins(sign * t.standard_uncertainty().kelvins()))
        };
        match place {
            0 => values.low = self.pressures[0].value() + self.pressures[0].standard_uncertainty() * sign,
            1 => values.high = self.pressures[1].value() + self.pressures[1].standard_uncertainty() * sign,
            2 => values.suction = line(&self.lines[0]),
            3 => values.liquid = line(&self.lines[1]),
            _ => values.discharge = line(&self.lines[2]),
        }
        values
    }
}

/// Which side of saturation a line has to be on for its state to be told.
#[derive(Clone, Copy, PartialEq)]
enum Phase {
    Liquid,
    Vapour,
}

fn points(r: Refrigerant, values: &Values) -> Points {
    let Values { low, high, suction, liquid, discharge } = *values;
    let line = |p, t: Option<Temperature>, phase| single(r, p, t.ok_or(Untold::NotMeasured)?, phase);
    let suction = line(low, suction, Phase::Vapour);
    let liquid = line(high, liquid, Phase::Liquid);
    let lossless = suction.and_then(|from| after_work(r, high, from.entropy));
    let inlet = liquid.and_then(|from| {
        let state = r.at_enthalpy(low, from.enthalpy).map_err(|_| Untold::OutOfRange)?;
        Ok(StatePoint {
            pressure: low,
            temperature: state.temperature(),
            enthalpy: from.enthalpy,
            entropy: state.entropy(),
            quality: state.quality(),
        })
    });
    Points { suction, discharge: line(high, discharge, Phase::Vapour), lossless, liquid, inlet }
}

/// The state at `p` and entropy `s`.
fn after_work(r: Refrigerant, p: Pressure, s: SpecificEntropy) -> Result<StatePoint, Untold> {
    let state = r.at_entropy(p, s).map_err(|_| Untold::OutOfRange)?;
    Ok(StatePoint {
        pressure: p,
        temperature: state.temperature(),
        enthalpy: state.enthalpy(),
        entropy: s,
        quality: state.quality(),
    })
}

/// The state of one phase at `p` and `t`; above the critical pressure there is only one.
fn single(r: Refrigerant, p: Pressure, t: Temperature, phase: Phase) -> Result<StatePoint, Untold> {
    if p < r.fluid().critical.value.pressure {
        let told = match phase {
            Phase::Vapour => r.dew_temperature(p).map(|dew| t > dew),
            Phase::Liquid => r.bubble_temperature(p).map(|bubble| t < bubble),
        };
        if !told.map_err(|_| Untold::OutOfRange)? {
            return Err(Untold::TwoPhase);
        }
    }
    match r.state(p, t) {
        Ok(state) => Ok(StatePoint {
            pressure: p,
            temperature: t,
            enthalpy: state.enthalpy(),
            entropy: state.entropy(),
            quality: None,
        }),
        Err(Error::TwoPhase { .. }) => Err(Untold::TwoPhase),
        Err(_) => Err(Untold::OutOfRange),
    }
}
