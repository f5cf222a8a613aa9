//! Entered numbers that make more sense in another unit: always a question, never a correction.

use super::assessment::Assessment;
use crate::expected::{ChartSet, Side};
use crate::inspection::{Entry, Measurand, other_pressure_unit, other_temperature_unit};
use crate::quantity::{PressureUnit, Quantity};
use crate::saturation::Lines;
use crate::{Entered, GaugePressure, Range, Source, Sourced, Temperature, TemperatureDifference, air};

/// A question about an entered number whose unit, sign or reference may be wrong.
#[derive(Debug, Clone, PartialEq, Eq)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(
    feature = "serde",
    derive(serde::Serialize, serde::Deserialize),
    serde(tag = "id", rename_all = "kebab-case", deny_unknown_fields)
)]
#[non_exhaustive]
pub enum UnitQuestion {
    /// The number would fit in another unit.
    OtherUnit {
        /// Input that is questioned.
        input: QuestionedInput,
        /// Number as it was entered.
        entered: String,
        /// Number in the unit in which it would fit.
        instead: String,
    },
    /// A vacuum may have been typed without its sign.
    VacuumSign {
        /// Number as it was entered.
        entered: String,
    },
    /// The barometer may be reduced to sea level.
    ReducedToSeaLevel {
        /// Barometer reading as it was entered.
        entered: String,
        /// Standard air pressure at the altitude given.
        instead: String,
    },
}

/// An input whose unit may be in doubt.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(rename_all = "kebab-case"))]
#[non_exhaustive]
pub enum QuestionedInput {
    /// Value of a measurand.
    Measurand(Measurand),
    /// Ambient temperature.
    Ambient,
}

/// Questions about numbers of `entry` that are far from usual and would fit otherwise.
///
/// What is usual comes from the windows of `assessment` where there is one, else from everything `charts` know of that side; for
/// lines and vent from the ambient. Call it without an assessment when the entry was refused: a slip may be why.
pub fn unit_questions<R: Lines + Copy>(
    entry: &Entry,
    charts: &ChartSet<R>,
    assessment: Option<&Assessment>,
) -> Vec<UnitQuestion> {
    let mut questions = Vec::new();
    let low = entry.pressure(Measurand::LowSide);
    // a gauge pressure of mercury inches above zero is a vacuum typed without its sign
    if let Some(low) = low.filter(|low| low.unit() == PressureUnit::InchOfMercury && low.number() > 0.0) {
        questions.push(UnitQuestion::VacuumSign { entered: low.to_string() });
    }
    // swapped hoses explain both numbers: no unit does better
    let fits = |side, measurand| {
        entry.pressure(measurand).is_some_and(|entered| charts.anything(side).contains(entered.quantity()))
    };
    let swapped = entry.sides_reversed().is_some()
        && fits(Side::High, Measurand::LowSide)
        && fits(Side::Low, Measurand::HighSide);
    let sides = [(Side::Low, Measurand::LowSide), (Side::High, Measurand::HighSide)];
    for (side, measurand) in sides.into_iter().filter(|_| !swapped) {
        let found = assessment.and_then(|assessment| match side {
            Side::Low => assessment.low.as_ref(),
            Side::High => assessment.high.as_ref(),
        });
        let today = found.and_then(|found| found.charted.range());
        let expected = today.unwrap_or_else(|| charts.anything(side));
        questions.extend(entry.pressure(measurand).and_then(|entered| about_pressure(measurand, entered, &expected)));
    }
    let ambient = entry.ambient.map_or(MILD_DAY.value, |t| t.quantity());
    let of = |measurand| (QuestionedInput::Measurand(measurand), entry.temperature(measurand));
    for ((input, entered), expected) in [
        ((QuestionedInput::Ambient, entry.ambient), USUAL_AMBIENT.value),
        (of(Measurand::SuctionLine), Range::new(COLDEST_SUCTION.value, ambient)),
        (of(Measurand::LiquidLine), Range::new(ambient, ambient + HOTTEST_LIQUID.value)),
        (of(Measurand::Vent), Range::new(COLDEST_VENT.value, ambient)),
    ] {
        questions.extend(entered.and_then(|entered| about_temperature(input, entered, &expected)));
    }
    // a barometer and an altitude that contradict each other: the usual weather report is reduced to sea level
    if let (Some(barometer), Some(altitude)) = (entry.barometer, entry.altitude)
        && let Ok(standard) = air::pressure_at(altitude.quantity())
        && (barometer.quantity() - standard.value()).si().abs() > CONTRADICTION * standard.standard_uncertainty().si()
    {
        let instead = standard.value().entered(PressureUnit::Hectopascal, 0).to_string();
        questions.push(UnitQuestion::ReducedToSeaLevel { entered: barometer.to_string(), instead });
    }
    questions
}

/// Standard uncertainties of the weather between a barometer and an altitude that contradict each other; our choice.
const CONTRADICTION: f64 = 4.0;

fn about_pressure(
    measurand: Measurand,
    entered: Entered<GaugePressure>,
    expected: &Range<GaugePressure>,
) -> Option<UnitQuestion> {
    let unit = other_pressure_unit(&entered, expected)?;
    let instead = GaugePressure::new(entered.number(), unit).entered(unit, entered.decimals()).to_string();
    let input = QuestionedInput::Measurand(measurand);
    Some(UnitQuestion::OtherUnit { input, entered: entered.to_string(), instead })
}

fn about_temperature(
    input: QuestionedInput,
    entered: Entered<Temperature>,
    expected: &Range<Temperature>,
) -> Option<UnitQuestion> {
    let unit = other_temperature_unit(&entered, expected)?;
    let instead = Temperature::new(entered.number(), unit).entered(unit, entered.decimals()).to_string();
    Some(UnitQuestion::OtherUnit { input, entered: entered.to_string(), instead })
}

const fn usual<T: Copy>(value: T) -> Sourced<T> {
    Sourced { value, source: Source::COMMON_PRACTICE }
}

/// A day on which air conditioning is used; this and what follows serve only to ask about units.
const USUAL_AMBIENT: Sourced<Range<Temperature>> =
    usual(Range::new(Temperature::from_celsius(10.0), Temperature::from_celsius(50.0)));
/// The ambient assumed when none is given.
const MILD_DAY: Sourced<Temperature> = usual(Temperature::from_celsius(25.0));
/// A suction line lies between this and the ambient.
const COLDEST_SUCTION: Sourced<Temperature> = usual(Temperature::from_celsius(-10.0));
/// A liquid line lies between the ambient and this much above it.
const HOTTEST_LIQUID: Sourced<TemperatureDifference> = usual(TemperatureDifference::from_kelvins(40.0));
/// A vent lies between this and the ambient.
const COLDEST_VENT: Sourced<Temperature> = usual(Temperature::from_celsius(-2.0));
