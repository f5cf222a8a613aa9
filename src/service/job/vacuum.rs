//! The evacuation a job sheet asks for, and what passing its standing vacuum test proves.

use crate::quantity::Time;
use crate::service::{references, validate};
use crate::{Error, GaugePressure, Pressure, PressureDifference, Range, Source, Sourced, Trust};

/// Evacuation that a job sheet asks for: how deep, how long, and how little the pressure may rise afterwards.
///
/// In its serialised form the source is left out: read back, it is as given for the job.
#[derive(Debug, Clone, Copy, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(deny_unknown_fields))]
pub struct EvacuationProcedure {
    /// Absolute pressure to get below, from the best to the worst that is asked for.
    pub target: Range<Pressure>,
    /// Time within which the pump must get there, else the circuit leaks.
    pub within: Time,
    /// Running time of the pump.
    pub run: Time,
    /// Time over which the gauge is watched with the pump shut off.
    pub hold: Time,
    /// Largest rise of the pressure allowed in that time.
    pub rise: PressureDifference,
    /// Source that asks for it.
    #[cfg_attr(feature = "serde", serde(skip, default = "given"))]
    pub source: Source,
}

impl EvacuationProcedure {
    /// The procedure that manuals of four makers print in one text: 28 to 29.5 inHg at sea level within 5 min, at least
    /// 30 min in all, and a rise of 1 inHg in 5 min at most.
    pub const PRINTED: Self = Self {
        target: Range::new(Pressure::from_pa(1_422.0), Pressure::from_pa(6_501.0)),
        within: Time::from_minutes(5.0),
        run: Time::from_minutes(30.0),
        hold: Time::from_minutes(5.0),
        rise: PressureDifference::from_inhg(1.0),
        source: references::US_EVACUATION,
    };

    /// Whether it is [`EvacuationProcedure::PRINTED`].
    #[cfg(feature = "serde")]
    pub(super) fn is_printed(&self) -> bool {
        *self == Self::PRINTED
    }

    /// Whether its figures can be.
    pub(super) fn check(&self) -> Result<(), Error> {
        validate::positive("absolute pressure of the evacuation (kPa)", self.target.low)?;
        validate::positive("absolute pressure of the evacuation (kPa)", self.target.high)?;
        validate::not_negative("time to reach the vacuum (min)", self.within)?;
        validate::not_negative("time of the evacuation (min)", self.run)?;
        validate::not_negative("time of the standing vacuum test (min)", self.hold)?;
        validate::not_negative("rise allowed in the standing vacuum test (kPa)", self.rise)?;
        Ok(())
    }

    /// What a gauge shows at the target where the air has pressure `air`.
    pub(super) fn gauge(&self, air: Pressure) -> Range<GaugePressure> {
        Range::new(self.target.low.gauge(air), self.target.high.gauge(air))
    }
}

impl Default for EvacuationProcedure {
    fn default() -> Self {
        Self::PRINTED
    }
}

/// The source of what was given for the job.
#[cfg(feature = "serde")]
fn given() -> Source {
    references::GIVEN
}

/// Absolute pressure that a vacuum gauge should come to: no publication, what the trade aims at.
pub const DEEP_VACUUM: Sourced<Range<Pressure>> = Sourced {
    value: Range::new(Pressure::from_microns(500.0), Pressure::from_microns(1000.0)),
    source: Source::COMMON_PRACTICE,
};

/// Ratio of the leak hidden in a rise of 1 inHg in 5 min to 14 g of R-134a a year, the coarsest scale of a detector.
///
/// - **Equation** Q = V Δp/t against Q = ṁ R T/M, for 2.5 L at 20 °C: 0.0282 over 1.06 · 10⁻⁵ Pa m³/s.
pub const HIDDEN_LEAK: Sourced<f64> = Sourced {
    value: 2_663.0,
    source: Source {
        work: "1 inHg in 5 min in 2.5 L against 14 g of R-134a a year, as flows of gas at 20 °C",
        locator: "",
        doi: None,
        trust: Trust::Computed,
    },
};
