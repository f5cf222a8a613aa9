//! Suggestion of another unit in which a number makes more sense: always a question, never a correction.

use crate::quantity::{PressureUnit, TemperatureUnit, Unit};
use crate::{Entered, GaugePressure, Quantity, Range, Source, Sourced, Temperature, TemperatureDifference};

/// Ratio to the usual range beyond which the unit of a pressure is doubted.
const FAR: Sourced<f64> = Sourced { value: 2.0, source: Source::COMMON_PRACTICE };

/// Distance from the usual range beyond which the unit of a temperature is doubted.
const FAR_STEP: Sourced<TemperatureDifference> =
    Sourced { value: TemperatureDifference::from_kelvins(10.0), source: Source::COMMON_PRACTICE };

/// Another unit in which the number of `stated` would lie inside `expected`, when as stated it lies far outside.
///
/// Far outside is [`FAR`] times below the lower or above the upper end.
pub(crate) fn other_pressure_unit(
    stated: &Entered<GaugePressure>,
    expected: &Range<GaugePressure>,
) -> Option<PressureUnit> {
    let value = stated.quantity();
    let far =
        Range::new(Quantity::from_si(expected.low.si() / FAR.value), Quantity::from_si(expected.high.si() * FAR.value));
    if far.contains(value) {
        return None;
    }
    let usual = [
        PressureUnit::Bar,
        PressureUnit::Psi,
        PressureUnit::Kilopascal,
        PressureUnit::KilogramForce,
        PressureUnit::Megapascal,
    ];
    other_unit(stated, expected, &usual)
}

/// Another unit in which the number of `stated` would lie inside `expected`, when as stated it lies outside by more than
/// [`FAR_STEP`].
pub(crate) fn other_temperature_unit(
    stated: &Entered<Temperature>,
    expected: &Range<Temperature>,
) -> Option<TemperatureUnit> {
    let margin = FAR_STEP.value;
    if Range::new(expected.low - margin, expected.high + margin).contains(stated.quantity()) {
        return None;
    }
    other_unit(stated, expected, &[TemperatureUnit::Celsius, TemperatureUnit::Fahrenheit])
}

fn other_unit<Q: Quantity>(stated: &Entered<Q>, expected: &Range<Q>, units: &[Q::Unit]) -> Option<Q::Unit> {
    let candidates = units.iter().copied().filter(|unit| unit.symbol() != stated.unit().symbol());
    candidates.into_iter().find(|&unit| expected.contains(Q::new(stated.number(), unit)))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_number_far_off_is_doubted_and_one_merely_high_is_not() {
        let expected = Range::new(GaugePressure::from_psi(15.0), GaugePressure::from_psi(50.0));
        assert_eq!(other_pressure_unit(&"2.2 psi".parse().unwrap(), &expected), Some(PressureUnit::Bar));
        assert_eq!(other_pressure_unit(&"60 psi".parse().unwrap(), &expected), None);
        let vent = Range::new(Temperature::from_celsius(-2.0), Temperature::from_celsius(30.0));
        assert_eq!(other_temperature_unit(&"55 °C".parse().unwrap(), &vent), Some(TemperatureUnit::Fahrenheit));
        assert_eq!(other_temperature_unit(&"35 °C".parse().unwrap(), &vent), None);
    }
}
