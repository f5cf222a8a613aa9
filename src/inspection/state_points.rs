//! State points of the refrigerant around the circuit, as far as gauges and thermometers determine them.

use super::measurand::Measurand;
use super::reading::Reading;
use crate::helmholtz::Phases;
use crate::line::absolute;
use crate::quantity::{SpecificEnthalpy, Uncertainty};
use crate::{Error, Measured, Pressure, Quantity, Ratio, Refrigerant, Temperature, TemperatureDifference};

/// State at a place of the circuit, or why it is undetermined.
type Point = Result<Phases<'static>, Undetermined>;

/// Reason why the state at a place is undetermined.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
#[non_exhaustive]
pub enum Undetermined {
    /// Temperature of this line, or of the place upstream of it, not measured.
    NotMeasured,
    /// Line at saturation or on the wrong side of it, where its temperature does not determine the quality.
    TwoPhase,
    /// State outside the range of the equation of state.
    OutOfRange,
}

/// State points of a running circuit, as far as the reading determines them.
///
/// Both lines are taken at the gauge pressure on their side: the pressure drop between port and clamp is not known. The
/// expansion is taken at constant enthalpy, the ideal compressor at constant entropy.
///
/// - **Equation** refrigerating effect h₁ − h₄; ideal work h₂ₛ − h₁; isentropic efficiency (h₂ₛ − h₁)/(h₂ − h₁); COP of
///   the ideal compressor (h₁ − h₄)/(h₂ₛ − h₁). 1 suction line, 2 discharge line, 4 downstream of the expansion device,
///   h₄ = h₃ of the liquid line.
/// - **Uncertainty** of gauges and thermometers, one after the other by half the difference over ± one standard
///   uncertainty (JCGM 100:2008, 5.1.3 note 2, from memory). The contact error of a clamped thermometer is included,
///   the heat loss of the compressor is not.
/// - **Source** the equation of state of the refrigerant.
///
/// ```
/// use approx::assert_abs_diff_eq;
/// use satline::Refrigerant;
/// use satline::circuit::Settings;
/// use satline::inspection::{Entry, Instruments, Measurand, StatePoints};
/// let r = Refrigerant::R134a;
/// let entry = Entry::gauges("2 bar".parse()?, "13 bar".parse()?)
///     .enter(Measurand::SuctionLine, "10 °C")?
///     .enter(Measurand::LiquidLine, "45 °C")?;
/// let points = StatePoints::of(&entry.reading(r, Settings::TEST, &Instruments::digital(r))?)?;
/// let effect = points.refrigerating_effect().unwrap();
/// assert_abs_diff_eq!(effect.value().kj_per_kg(), 143.4, epsilon = 0.05); // half its last digit
/// assert!(points.isentropic_efficiency().is_none()); // no discharge line
/// # Ok::<(), satline::Error>(())
/// ```
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub struct StatePoints {
    /// Refrigerant of the reading.
    pub refrigerant: Refrigerant,
    /// Absolute pressure on the low side.
    pub low: Measured<Pressure>,
    /// Absolute pressure on the high side.
    pub high: Measured<Pressure>,
    /// State 1: vapour in the suction line.
    pub suction: Result<Phases<'static>, Undetermined>,
    /// State 2: gas in the discharge line.
    pub discharge: Result<Phases<'static>, Undetermined>,
    /// State 2s: gas at the outlet of an ideal (isentropic) compressor.
    pub lossless: Result<Phases<'static>, Undetermined>,
    /// State 3: refrigerant in the liquid line, or at the gas-cooler outlet.
    pub liquid: Result<Phases<'static>, Undetermined>,
    /// State 4: refrigerant downstream of the expansion device.
    pub inlet: Result<Phases<'static>, Undetermined>,
    read: Read,
}

/// Readings with standard uncertainties.
#[derive(Debug, Clone, Copy, PartialEq)]
struct Read {
    pressures: [Measured<Pressure>; 2],
    lines: [Option<Measured<Temperature>>; 3],
}

/// Readings as plain values.
#[derive(Debug, Clone, Copy)]
struct Values {
    low: Pressure,
    high: Pressure,
    suction: Option<Temperature>,
    liquid: Option<Temperature>,
    discharge: Option<Temperature>,
}

/// States that follow from the values.
struct Points {
    suction: Point,
    discharge: Point,
    lossless: Point,
    liquid: Point,
    inlet: Point,
}

impl StatePoints {
    /// State points of `reading`.
    ///
    /// # Errors
    /// [`Error::Missing`] for a reading of an equalised circuit, in which nothing flows, or if a gauge was not read;
    /// [`Error::BelowVacuum`]; [`Error::OutOfRange`] for a pressure below the saturation lines.
    pub fn of(reading: &Reading) -> Result<Self, Error> {
        if !reading.is_running() {
            return Err(Error::Missing {
                what: "a reading with the compressor running",
                way_out: "in an equalised circuit nothing flows; start the engine and read again",
            });
        }
        let refrigerant = reading.refrigerant();
        let critical = refrigerant.fluid().critical.value.pressure;
        let side = |measurand: Measurand| {
            let about = |error: Error| error.about_input(measurand.id(), measurand.name());
            let gauge = reading.pressure(measurand).ok_or(Error::Missing {
                what: "a gauge of the circuit",
                way_out: "state points take both gauges; read the low side and the high side",
            });
            let p = absolute(&gauge.map_err(about)?, &reading.air()).map_err(about)?;
            if p.value() < critical {
                refrigerant.dew_temperature(p.value()).map_err(about)?;
            }
            Ok(p)
        };
        let (low, high) = (side(Measurand::LowSide)?, side(Measurand::HighSide)?);
        let lines = [Measurand::SuctionLine, Measurand::LiquidLine, Measurand::DischargeLine];
        let read = Read { pressures: [low, high], lines: lines.map(|line| reading.temperature(line)) };
        let Points { suction, discharge, lossless, liquid, inlet } = points(refrigerant, &read.values());
        Ok(Self { refrigerant, low, high, suction, discharge, lossless, liquid, inlet, read })
    }

    /// Refrigerating effect: heat taken up per unit mass between expansion device and suction line, h₁ − h₄.
    pub fn refrigerating_effect(&self) -> Option<Measured<SpecificEnthalpy>> {
        self.measured(|p| Some(p.suction.ok()?.enthalpy() - p.inlet.ok()?.enthalpy()))
    }

    /// Specific work of an ideal (isentropic) compressor, h₂ₛ − h₁.
    pub fn lossless_work(&self) -> Option<Measured<SpecificEnthalpy>> {
        self.measured(|p| Some(p.lossless.ok()?.enthalpy() - p.suction.ok()?.enthalpy()))
    }

    /// Specific work by the measured rise of enthalpy to the discharge line, h₂ − h₁: that of a compressor that loses
    /// no heat.
    pub fn work(&self) -> Option<Measured<SpecificEnthalpy>> {
        self.measured(|p| Some(p.discharge.ok()?.enthalpy() - p.suction.ok()?.enthalpy()))
    }

    /// Isentropic efficiency: ideal over measured work; above one if the discharge line reads colder than is possible
    /// without heat loss.
    pub fn isentropic_efficiency(&self) -> Option<Measured<Ratio>> {
        self.measured(|p| {
            let h = p.suction.ok()?.enthalpy();
            let work = (p.discharge.ok()?.enthalpy() - h).si();
            // a discharge line no hotter than the suction line has no efficiency
            (work > 0.0)
                .then(|| Ratio::from_fraction((p.lossless.ok().map_or(0.0, |s| (s.enthalpy() - h).si())) / work))
        })
    }

    /// Coefficient of performance with an ideal compressor, refrigerating effect over ideal work: an upper limit, not
    /// what this circuit reaches.
    pub fn lossless_cop(&self) -> Option<Measured<Ratio>> {
        self.measured(|p| {
            let h = p.suction.ok()?.enthalpy();
            let work = (p.lossless.ok()?.enthalpy() - h).si();
            (work > 0.0).then_some(Ratio::from_fraction((h - p.inlet.ok()?.enthalpy()).si() / work))
        })
    }

    /// Figure of the cycle with the uncertainty of the readings.
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

    /// Values with one of them shifted by `sign` standard uncertainties.
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

/// Side of saturation that a line has to be on for its state to be determined.
#[derive(Clone, Copy, PartialEq)]
enum Phase {
    Liquid,
    Vapour,
}

fn points(r: Refrigerant, values: &Values) -> Points {
    let Values { low, high, suction, liquid, discharge } = *values;
    let line = |p, t: Option<Temperature>, phase| single(r, p, t.ok_or(Undetermined::NotMeasured)?, phase);
    let suction = line(low, suction, Phase::Vapour);
    let liquid = line(high, liquid, Phase::Liquid);
    let of = |state: Result<_, Error>| state.map_err(|_| Undetermined::OutOfRange);
    let lossless = suction.and_then(|from| of(r.at_entropy(high, from.entropy())));
    let inlet = liquid.and_then(|from| of(r.at_enthalpy(low, from.enthalpy())));
    Points { suction, discharge: line(high, discharge, Phase::Vapour), lossless, liquid, inlet }
}

/// The state of one phase at `p` and `t`; above the critical pressure there is only one.
fn single(r: Refrigerant, p: Pressure, t: Temperature, phase: Phase) -> Point {
    if p < r.fluid().critical.value.pressure {
        let told = match phase {
            Phase::Vapour => r.dew_temperature(p).map(|dew| t > dew),
            Phase::Liquid => r.bubble_temperature(p).map(|bubble| t < bubble),
        };
        if !told.map_err(|_| Undetermined::OutOfRange)? {
            return Err(Undetermined::TwoPhase);
        }
    }
    match r.state(p, t) {
        Ok(state) => Ok(Phases::One(state)),
        Err(Error::TwoPhase { .. }) => Err(Undetermined::TwoPhase),
        Err(_) => Err(Undetermined::OutOfRange),
    }
}
