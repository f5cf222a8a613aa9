//! Published limits for a hold test, a test against them, and what passing one proves.

use super::Interval;
use super::leak_throughput::{DETECTOR_SCALES, cubic_metres, flow_of};
use super::standing_vacuum::HoldFit;
use crate::quantity::{Throughput, Time};
use crate::{
    Error, Measured, Pressure, PressureDifference, Quantity, Range, Refrigerant, Source, Sourced, Temperature, Trust,
    Volume,
};

/// What a gate limits.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Limit {
    /// The pressure may rise by this much.
    Rise(PressureDifference),
    /// The pressure must stay below this, absolute.
    StaysBelow(Pressure),
}

/// A published limit for the time after the pump is shut off.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Gate {
    /// Where it is printed, in short.
    pub name: &'static str,
    /// What it limits.
    pub limit: Limit,
    /// For how long, from the shortest to the longest time printed.
    pub over: Range<Time>,
}

pub(super) const fn minutes(low: f64, high: f64) -> Range<Time> {
    Range::new(Time::from_minutes(low), Time::from_minutes(high))
}

/// The gates that were found; `tables/service/evacuation.csv` has them as printed.
///
/// Ford Escort 1994 also asks to hold 5 min "without loss", which is no number and therefore none of these.
pub const GATES: [Sourced<Gate>; 3] = [
    Sourced {
        value: Gate {
            name: "1 inHg in 4 to 5 min",
            limit: Limit::Rise(PressureDifference::from_inhg(1.0)),
            over: minutes(4.0, 5.0),
        },
        source: Source {
            work: "US service manuals with one text: Ford Festiva 1989, Mazda 929 1993, Mercury Topaz 1994, GMC Yukon 1992",
            locator: "evacuating; Cadillac Fleetwood 1989 prints the same as 3.4 kPa",
            doi: None,
            trust: Trust::Excerpt,
        },
    },
    Sourced {
        value: Gate {
            name: "2 inHg in 5 min",
            limit: Limit::Rise(PressureDifference::from_inhg(2.0)),
            over: minutes(5.0, 5.0),
        },
        source: Source {
            work: "US Army TM 5-2420-230-24-1",
            locator: "p. 19-7, printed with 7 kPa",
            doi: None,
            trust: Trust::Excerpt,
        },
    },
    Sourced {
        value: Gate {
            name: "1000 micron after 5 to 10 min",
            limit: Limit::StaysBelow(Pressure::from_microns(1000.0)),
            over: minutes(5.0, 10.0),
        },
        source: Source::COMMON_PRACTICE,
    },
];

/// How a test stands to a gate.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(rename_all = "kebab-case"))]
pub enum Outcome {
    /// The whole interval keeps the limit.
    Passes,
    /// The whole interval breaks it.
    Fails,
    /// The limit lies inside the interval.
    Open,
    /// The test is shorter than the gate asks for.
    TooShort,
}

/// A test against a gate.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Judged {
    /// The gate.
    pub gate: Sourced<Gate>,
    /// How the test stands to it.
    pub outcome: Outcome,
    /// The time judged: the longest the gate prints, or the length of a test that ends before that.
    pub over: Time,
    /// What the pressure did in that time: a rise, or for [`Limit::StaysBelow`] where it stood at the end, above vacuum.
    pub seen: Option<Interval<PressureDifference>>,
}

impl Gate {
    /// Sets a fitted test against the gate.
    ///
    /// - **Equation** the rise of the fitted curve from the first reading on, or its level, against the limit. Passes and
    ///   fails only with the whole 95 % interval.
    ///
    /// # Errors
    /// Those of [`HoldFit::rise_over`] cannot occur here; others of the fit are passed on.
    pub fn judge(gate: &Sourced<Self>, fit: &HoldFit) -> Result<Judged, Error> {
        let Self { limit, over, .. } = gate.value;
        let span = if fit.length < over.high { fit.length } else { over.high };
        // a test that is a trifle short was read a trifle early
        if fit.length.si() < over.low.si() * (1.0 - 1e-9) {
            return Ok(Judged { gate: *gate, outcome: Outcome::TooShort, over: span, seen: None });
        }
        let (seen, limit) = match limit {
            Limit::Rise(most) => (fit.rise_over(span)?, most),
            Limit::StaysBelow(most) => {
                let level = fit.pressure_after(span)?;
                (level.map(|p| PressureDifference::from_pa(p.pa())), PressureDifference::from_pa(most.pa()))
            }
        };
        let outcome = if seen.high.is_some_and(|high| high <= limit) {
            Outcome::Passes
        } else if seen.low.is_some_and(|low| low > limit) {
            Outcome::Fails
        } else {
            Outcome::Open
        };
        Ok(Judged { gate: *gate, outcome, over: span, seen: Some(seen) })
    }

    /// The largest leak that still passes in a circuit of `volume`.
    ///
    /// - **Equation** Q = V Δp/t, t the longest time printed. For a limit of level, from zero: the most that can hide.
    ///
    /// ```
    /// use satline::service::acceptance::GATES;
    /// use satline::{Measured, Refrigerant, Temperature, Volume};
    /// let volume = Measured::exact(Volume::from_l(2.5))?;
    /// let gate = GATES[0].value; // 1 inHg in 4 to 5 min
    /// assert!((gate.lets_pass(&volume)?.pa_m3_per_s() - 0.0282).abs() < 1e-4);
    /// let times = gate.times_a_service_leak(&volume, Refrigerant::R134a, Temperature::from_celsius(20.0))?;
    /// assert!((2600.0..2700.0).contains(&times), "{times}");
    /// # Ok::<(), satline::Error>(())
    /// ```
    ///
    /// # Errors
    /// [`Error::Impossible`] for a volume that is not above zero.
    pub fn lets_pass(&self, volume: &Measured<Volume>) -> Result<Throughput, Error> {
        let most = match self.limit {
            Limit::Rise(rise) => rise.pa(),
            Limit::StaysBelow(level) => level.pa(),
        };
        Ok(Throughput::from_pa_m3_per_s(most / self.over.high.seconds() * cubic_metres(volume)?))
    }

    /// How many times the largest leak that still passes is the leak on the coarsest scale of a service detector, 14 g/yr,
    /// compared as flows of gas.
    ///
    /// # Errors
    /// As [`Gate::lets_pass`].
    pub fn times_a_service_leak(
        &self,
        volume: &Measured<Volume>,
        refrigerant: Refrigerant,
        temperature: Temperature,
    ) -> Result<f64, Error> {
        let [.., coarsest] = DETECTOR_SCALES.value;
        Ok(self.lets_pass(volume)? / flow_of(coarsest, refrigerant, temperature))
    }
}
