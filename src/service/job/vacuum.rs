//! The evacuation a job sheet asks for, and what passing its hold test proves.

use crate::quantity::Time;
use crate::service::references;
use crate::{GaugePressure, Pressure, PressureDifference, Range, Source, Sourced, Trust};

/// An evacuation as asked for: how deep, how long, how still.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Vacuum {
    /// The absolute pressure to get below, from the worst to the best that is asked for.
    pub target: Range<Pressure>,
    /// The pump must get there within this time, else the circuit leaks.
    pub within: Time,
    /// How long the pump runs.
    pub run: Time,
    /// How long the gauge is watched with the pump shut off.
    pub hold: Time,
    /// The most it may rise in that time.
    pub rise: PressureDifference,
    /// Where that is asked for.
    pub source: Source,
}

impl Vacuum {
    /// What one text prints in the manuals of four makers: 28 to 29.5 inHg at sea level within 5 min, at least 30 min in all,
    /// and a rise of 1 inHg in 5 min at most.
    pub const PRINTED: Self = Self {
        target: Range::new(Pressure::from_pa(1_422.0), Pressure::from_pa(6_501.0)),
        within: Time::from_minutes(5.0),
        run: Time::from_minutes(30.0),
        hold: Time::from_minutes(5.0),
        rise: PressureDifference::from_inhg(1.0),
        source: references::US_EVACUATION,
    };

    /// What a gauge shows at the target where the air has pressure `air`.
    pub fn gauge(&self, air: Pressure) -> Range<GaugePressure> {
        Range::new(self.target.low.gauge(air), self.target.high.gauge(air))
    }
}

/// Where a vacuum gauge should come to: no publication, what the trade aims at.
pub const DEEP_VACUUM: Sourced<Range<Pressure>> = Sourced {
    value: Range::new(Pressure::from_microns(500.0), Pressure::from_microns(1000.0)),
    source: Source::COMMON_PRACTICE,
};

/// How many times 14 g of R-134a a year, the coarsest scale of a detector, can hide in a rise of 1 inHg in 5 min.
///
/// - **Equation** Q = V Δp/t against Q = ṁ R T/M, for 2.5 L at 20 °C: 0.0282 over 1.06 · 10⁻⁵ Pa m³/s.
pub const GATE_PASSES: Sourced<f64> = Sourced {
    value: 2_663.0,
    source: Source {
        work: "1 inHg in 5 min in 2.5 L against 14 g of R-134a a year, as flows of gas at 20 °C",
        locator: "",
        doi: None,
        trust: Trust::Computed,
    },
};
