//! Published acceptance limits of a standing vacuum test, a test against them, and what passing one proves.

use super::leak_throughput::{DETECTOR_SCALES, cubic_metres, flow_of};
use super::standing_vacuum::StandingVacuumFit;
use super::{Interval, validate};
use crate::quantity::{Throughput, Time};
use crate::{
    Error, Measured, Pressure, PressureDifference, Quantity, Range, Refrigerant, Source, Sourced, Temperature, Trust,
    Volume,
};

/// The quantity that an acceptance limit bounds.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) enum Criterion {
    /// The pressure may rise by this much.
    Rise(PressureDifference),
    /// The pressure must stay below this, absolute.
    StaysBelow(Pressure),
}

/// A published acceptance limit for the time after the pump is shut off.
#[doc(hidden)]
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub struct AcceptanceLimit {
    /// Short name of the limit, such as "1 inHg in 4 to 5 min".
    pub name: &'static str,
    /// The quantity it bounds.
    pub(crate) criterion: Criterion,
    /// Time after which the limit is judged, from the shortest to the longest printed.
    pub over: Range<Time>,
}

pub(super) const fn minutes(low: f64, high: f64) -> Range<Time> {
    Range::new(Time::from_minutes(low), Time::from_minutes(high))
}

/// Published acceptance limits that were found; `tables/service/evacuation.csv` has them as printed.
///
/// Ford Escort 1994 also asks to hold 5 min "without loss", which is no number and therefore none of these.
pub const ACCEPTANCE_LIMITS: [Sourced<AcceptanceLimit>; 3] = [
    Sourced {
        value: AcceptanceLimit {
            name: "1 inHg in 4 to 5 min",
            criterion: Criterion::Rise(PressureDifference::from_inhg(1.0)),
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
        value: AcceptanceLimit {
            name: "2 inHg in 5 min",
            criterion: Criterion::Rise(PressureDifference::from_inhg(2.0)),
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
        value: AcceptanceLimit {
            name: "1000 micron after 5 to 10 min",
            criterion: Criterion::StaysBelow(Pressure::from_microns(1000.0)),
            over: minutes(5.0, 10.0),
        },
        source: Source::COMMON_PRACTICE,
    },
];

/// The outcome of a measurement against a limit.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(rename_all = "kebab-case"))]
#[non_exhaustive]
pub enum AcceptanceOutcome {
    /// Passed: the whole 95 % interval keeps the limit.
    Passes,
    /// Failed: the whole 95 % interval breaks the limit.
    Fails,
    /// Undecided: the limit lies inside the 95 % interval.
    Open,
    /// Not judged: the test is shorter than the limit asks for.
    TooShort,
}

/// A standing vacuum test against an acceptance limit.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct AcceptanceResult {
    /// The limit.
    pub(crate) limit: Sourced<AcceptanceLimit>,
    /// The outcome.
    pub(crate) outcome: AcceptanceOutcome,
    /// The time judged: the longest the limit prints, or the length of a test that ends before that.
    pub(crate) over: Time,
    /// Result for that time: a rise of the pressure, or for [`Criterion::StaysBelow`] its level at the end, absolute.
    pub(crate) seen: Option<Interval<PressureDifference>>,
}

/// Relative shortfall of a span that is rounding; our choice.
const TRIFLE: f64 = 1e-9;

impl AcceptanceLimit {
    /// Judges a fitted test by `limit`.
    ///
    /// - **Equation** the rise of the fitted curve from the first reading on, or its level, against the limit. Passes and
    ///   fails only with the whole 95 % interval.
    ///
    /// # Errors
    /// Those of [`StandingVacuumFit::rise_over`] cannot occur here; others of the fit are passed on.
    pub(crate) fn judge(limit: &Sourced<Self>, fit: &StandingVacuumFit) -> Result<AcceptanceResult, Error> {
        let Self { criterion, over, .. } = limit.value;
        let span = if fit.length <= over.high { fit.length } else { over.high };
        // a test that is a trifle short was read a trifle early
        if fit.length.si() < over.low.si() * (1.0 - TRIFLE) {
            return Ok(AcceptanceResult {
                limit: *limit,
                outcome: AcceptanceOutcome::TooShort,
                over: span,
                seen: None,
            });
        }
        let (seen, most) = match criterion {
            Criterion::Rise(most) => (fit.rise_over(span)?, most),
            Criterion::StaysBelow(most) => {
                let level = fit.pressure_after(span)?;
                (level.map(|p| PressureDifference::from_pa(p.pa())), PressureDifference::from_pa(most.pa()))
            }
        };
        let outcome = if seen.high.is_some_and(|high| high <= most) {
            AcceptanceOutcome::Passes
        } else if seen.low.is_some_and(|low| low > most) {
            AcceptanceOutcome::Fails
        } else {
            AcceptanceOutcome::Open
        };
        Ok(AcceptanceResult { limit: *limit, outcome, over: span, seen: Some(seen) })
    }

    /// The largest leak that still passes in a circuit of `volume`.
    ///
    /// - **Equation** Q = V Δp/t, t the longest time printed. For a limit of level, from zero: the most that can hide.
    ///
    /// ```
    /// use approx::assert_abs_diff_eq;
    /// use satline::service::acceptance::ACCEPTANCE_LIMITS;
    /// use satline::{Measured, Refrigerant, Temperature, Volume};
    /// let volume = Measured::exact(Volume::from_l(2.5))?;
    /// let limit = ACCEPTANCE_LIMITS[0].value; // 1 inHg in 4 to 5 min
    /// assert_abs_diff_eq!(limit.lets_pass(&volume)?.pa_m3_per_s(), 0.0282, epsilon = 1e-4); // its last digit
    /// let times = limit.times_a_service_leak(&volume, Refrigerant::R134a, Temperature::from_celsius(20.0))?;
    /// assert!((2600.0..2700.0).contains(&times), "{times}");
    /// # Ok::<(), satline::Error>(())
    /// ```
    ///
    /// # Errors
    /// [`Error::Impossible`] for a volume that is not above zero.
    pub fn lets_pass(&self, volume: &Measured<Volume>) -> Result<Throughput, Error> {
        let most = match self.criterion {
            Criterion::Rise(rise) => rise.pa(),
            Criterion::StaysBelow(level) => level.pa(),
        };
        let flow = Throughput::from_pa_m3_per_s(most / self.over.high.seconds() * cubic_metres(volume)?);
        validate::finite("leak that still passes (Pa m³/s)", flow)
    }

    /// Ratio of the largest leak that still passes to the leak on the coarsest scale of a service detector, 14 g/yr,
    /// compared as flows of gas.
    ///
    /// # Errors
    /// As [`AcceptanceLimit::lets_pass`].
    pub fn times_a_service_leak(
        &self,
        volume: &Measured<Volume>,
        refrigerant: Refrigerant,
        temperature: Temperature,
    ) -> Result<f64, Error> {
        let [.., coarsest] = DETECTOR_SCALES.value;
        let times = self.lets_pass(volume)? / flow_of(coarsest, refrigerant, temperature)?;
        if !times.is_finite() {
            return Err(Error::NotFinite {
                what: "leak that still passes over that of a detector",
                text: times.to_string(),
            });
        }
        Ok(times)
    }
}
