//! Rules of thumb of the trade for a healthy running circuit; from no publication.

use crate::{Range, Refrigerant, Source, Sourced, TemperatureDifference};

const fn habit(low: f64, high: f64) -> Sourced<Range<TemperatureDifference>> {
    Sourced {
        value: Range::new(TemperatureDifference::from_kelvins(low), TemperatureDifference::from_kelvins(high)),
        source: Source::COMMON_PRACTICE,
    }
}

/// Whether these rules are stated for `refrigerant`: those of cars with a thermostatic valve and a receiver.
pub(super) const fn applies_to(refrigerant: Refrigerant) -> bool {
    matches!(refrigerant, Refrigerant::R134a | Refrigerant::R1234yf | Refrigerant::R12)
}

/// Superheat at the evaporator outlet with a thermostatic valve, 3 to 10 K.
///
/// Downstream of an internal heat exchanger, usual with R-1234yf, the suction line is warmer than that.
/// An orifice tube has no superheat of its own: its accumulator outlet is near saturation.
pub const SUPERHEAT: Sourced<Range<TemperatureDifference>> = habit(3.0, 10.0);

/// Subcooling at the condenser outlet with a receiver-drier, 2 to 8 K.
pub const SUBCOOLING: Sourced<Range<TemperatureDifference>> = habit(2.0, 8.0);

/// Condensing temperature over ambient for R-134a and R-1234yf, 15 to 30 K, highest at idle.
pub const CONDENSING_OVER_AMBIENT: Sourced<Range<TemperatureDifference>> = habit(15.0, 30.0);
