//! Meaning of a reading, statement by statement.

use super::amount::{four_digits, nine_digits};
use super::{Amount, pressure_amount};
use crate::diagnosis::{Assessment, DifferenceAssessment, Judged, JudgedQuantity, SideAssessment, is_clear};
use crate::expected::{ChartSet, EqualisedVerdict, Side, Verdict, carbon_dioxide};
use crate::inspection::{Measurand, Reading};
use crate::line::Saturation;
use crate::quantity::{Position, PressureUnit, Quantity};
use crate::saturation::Lines;

/// One statement about a reading. `doubt` is the probability of the verdict where the instruments leave it open.
#[derive(Debug, Clone, PartialEq)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(
    feature = "serde",
    derive(serde::Serialize, serde::Deserialize),
    serde(tag = "id", rename_all = "kebab-case", deny_unknown_fields)
)]
#[non_exhaustive]
pub enum Statement {
    /// A side is compared with healthy circuits.
    SideAmongCircuits {
        /// Side: low or high.
        side: Side,
        /// Position of the reading relative to the window.
        position: Position,
        /// Fraction of the circuits with a lower value.
        fraction_below: f64,
        /// Probability of the verdict; `None` unless the instruments leave it open.
        doubt: Option<f64>,
    },
    /// There is no window, as the ambient temperature is not known.
    #[cfg_attr(feature = "serde", serde(deserialize_with = "crate::service::no_fields"))]
    NoAmbient,
    /// No chart of pressures is known for the refrigerant.
    #[cfg_attr(feature = "serde", serde(deserialize_with = "crate::service::no_fields"))]
    NoChart,
    /// A side is compared with the charts.
    SideByCharts {
        /// Side: low or high.
        side: Side,
        /// Position of the reading relative to the band.
        position: Position,
        /// Number of charts whose band contains the best estimate.
        inside: usize,
        /// Number of charts that cover the conditions.
        charts: usize,
        /// Whether the charts were carried over from another refrigerant.
        carried_over: bool,
        /// Probability of the verdict; `None` unless the instruments leave it open.
        doubt: Option<f64>,
    },
    /// No chart covers the ambient temperature for a side.
    SideBeyondCharts {
        /// Side: low or high.
        side: Side,
        /// Ambient temperatures that charts cover, °C; `None` if there is no chart.
        covered: Option<[f64; 2]>,
    },
    /// The high side of a transcritical circuit is compared with correlations for the best one.
    TranscriticalHighSide {
        /// High-side pressure read, absolute.
        read: Amount,
        /// Best pressure by the ambient temperature, absolute; `None` outside its correlation.
        by_ambient: Option<Amount>,
        /// Best pressure by the outlet temperature of the gas cooler, absolute; `None` outside its correlation.
        by_outlet: Option<Amount>,
    },
    /// Both gauges of a running circuit read nearly the same.
    #[cfg_attr(feature = "serde", serde(deserialize_with = "crate::service::no_fields"))]
    SidesNearlyEqual,
    /// The superheat is compared with what is usual.
    Superheat {
        /// Position of the superheat; `None` if nothing is known to be usual.
        position: Option<Position>,
        /// Probability of the verdict; `None` unless the instruments leave it open.
        doubt: Option<f64>,
    },
    /// The suction line reads colder than the refrigerant boils.
    #[cfg_attr(feature = "serde", serde(deserialize_with = "crate::service::no_fields"))]
    SuperheatImpossible,
    /// There is no superheat, as the low side is above the critical pressure.
    #[cfg_attr(feature = "serde", serde(deserialize_with = "crate::service::no_fields"))]
    NoSuperheat,
    /// The subcooling is compared with what is usual.
    Subcooling {
        /// Position of the subcooling; `None` if nothing is known to be usual.
        position: Option<Position>,
        /// Probability of the verdict; `None` unless the instruments leave it open.
        doubt: Option<f64>,
    },
    /// The liquid line reads hotter than the refrigerant condenses.
    #[cfg_attr(feature = "serde", serde(deserialize_with = "crate::service::no_fields"))]
    SubcoolingImpossible,
    /// There is no subcooling, as the high side is above the critical pressure.
    #[cfg_attr(feature = "serde", serde(deserialize_with = "crate::service::no_fields"))]
    NoSubcooling,
    /// The condensing temperature over ambient is compared with what is usual.
    CondensingOverAmbient {
        /// Position of the temperature difference; `None` if nothing is known to be usual.
        position: Option<Position>,
        /// Probability of the verdict; `None` unless the instruments leave it open.
        doubt: Option<f64>,
    },
    /// The vent temperature is compared with what is usual.
    Vent {
        /// Position of the vent temperature; `None` if no table covers the conditions.
        position: Option<Position>,
        /// Whether it is compared with healthy circuits, not with tables.
        among_circuits: bool,
        /// Probability of the verdict; `None` unless the instruments leave it open.
        doubt: Option<f64>,
    },
    /// The vent reads colder than the refrigerant boils.
    #[cfg_attr(feature = "serde", serde(deserialize_with = "crate::service::no_fields"))]
    VentImpossible,
    /// The page names no cause.
    #[cfg_attr(feature = "serde", serde(deserialize_with = "crate::service::no_fields"))]
    NamesNoCause,
    /// Both gauges of an equalised circuit are compared with saturation.
    Equalised {
        /// Verdict on the equalised circuit.
        verdict: EqualisedVerdict,
        /// Whether both gauges show the pressure of the air.
        at_air: bool,
        /// Probability of the verdict; `None` unless the instruments leave it open.
        doubt: Option<f64>,
    },
    /// The smallest difference from saturation that the instruments would show.
    EqualisedResolution {
        /// Difference in kPa.
        kpa: f64,
        /// Difference in psi.
        psi: f64,
    },
}

/// The probability of a verdict that the instruments leave open.
fn doubt(probability: f64) -> Option<f64> {
    (!is_clear(probability)).then(|| nine_digits(probability))
}

/// What `reading` means; `names_causes` where a posterior over the causes goes with it.
pub(super) fn statements<R: Lines + Copy>(
    reading: &Reading<R>,
    assessment: &Assessment,
    charts: &ChartSet<R>,
    names_causes: bool,
) -> Vec<Statement> {
    if assessment.equalised.is_some() {
        return equalised(assessment);
    }
    let judged = assessment.judged(reading);
    let mut statements: Vec<Statement> = judged.iter().filter_map(among_circuits).collect();
    by_charts(reading, assessment, charts, &mut statements);
    if charts.is_transcritical() {
        statements.extend(assessment.high.as_ref().map(|high| transcritical(reading, high, assessment)));
    }
    if let (Some(low), Some(high)) = (reading.low(), reading.high())
        && low.value() + low.expanded() > high.value() - high.expanded()
    {
        statements.push(Statement::SidesNearlyEqual);
    }
    let verdict = |quantity: JudgedQuantity, finding: &DifferenceAssessment| {
        judged.iter().find(|one| one.quantity == quantity).map(|one| one.verdict).or(finding.verdict)
    };
    differences(reading, assessment, verdict, &mut statements);
    vent(reading, assessment, &judged, &mut statements);
    if !names_causes {
        statements.push(Statement::NamesNoCause);
    }
    statements
}

/// A side among healthy circuits.
fn among_circuits(one: &Judged) -> Option<Statement> {
    let side = match one.quantity {
        JudgedQuantity::Measured(Measurand::LowSide) => Side::Low,
        JudgedQuantity::Measured(Measurand::HighSide) => Side::High,
        _ => return None,
    };
    Some(Statement::SideAmongCircuits {
        side,
        position: one.verdict.position,
        fraction_below: four_digits(one.fraction_below.fraction()),
        doubt: doubt(four_digits(one.verdict.probability)),
    })
}

fn by_charts<R: Lines + Copy>(
    reading: &Reading<R>,
    assessment: &Assessment,
    charts: &ChartSet<R>,
    statements: &mut Vec<Statement>,
) {
    if reading.ambient().is_none() {
        statements.push(Statement::NoAmbient);
    } else if charts.covered(Side::Low).is_none() && charts.covered(Side::High).is_none() {
        statements.push(Statement::NoChart);
    } else {
        statements.extend(assessment.low.as_ref().map(|low| side(low, Side::Low, charts)));
        statements.extend(assessment.high.as_ref().map(|high| side(high, Side::High, charts)));
    }
}

fn side<R: Lines + Copy>(finding: &SideAssessment, side: Side, charts: &ChartSet<R>) -> Statement {
    let Some(verdict) = finding.verdict else {
        let covered = charts.covered(side).map(|range| [range.low.celsius(), range.high.celsius()]);
        return Statement::SideBeyondCharts { side, covered };
    };
    Statement::SideByCharts {
        side,
        position: verdict.position,
        inside: finding.charted.agreeing(finding.gauge.value()),
        charts: finding.charted.vouched().count(),
        carried_over: finding.charted.vouched().any(|band| band.basis != crate::expected::Basis::Printed),
        doubt: doubt(verdict.probability),
    }
}

/// Where the refrigerant is saturated on a side that was read.
fn saturated(side: &Option<SideAssessment>) -> Option<Saturation> {
    side.as_ref().and_then(|side| side.saturation)
}

fn transcritical<R>(reading: &Reading<R>, high: &SideAssessment, assessment: &Assessment) -> Statement {
    let bar = |p: crate::Pressure| pressure_amount(p.bar(), PressureUnit::Bar, 0);
    let by_ambient = reading.ambient().and_then(|t| carbon_dioxide::best_pressure_by_ambient(t.value()).ok()).map(bar);
    let evaporating = saturated(&assessment.low).map(|saturation| saturation.dew.value());
    let by_outlet = evaporating
        .zip(reading.temperature(Measurand::LiquidLine))
        .and_then(|(evaporating, outlet)| carbon_dioxide::best_pressure_by_outlet(evaporating, outlet.value()).ok())
        .map(bar);
    Statement::TranscriticalHighSide { read: bar(high.absolute.value()), by_ambient, by_outlet }
}

fn differences<R>(
    reading: &Reading<R>,
    assessment: &Assessment,
    verdict: impl Fn(JudgedQuantity, &DifferenceAssessment) -> Option<Verdict>,
    statements: &mut Vec<Statement>,
) {
    let split = |verdict: Option<Verdict>| {
        (verdict.map(|verdict| verdict.position), verdict.and_then(|verdict| doubt(verdict.probability)))
    };
    let impossible = |finding: &DifferenceAssessment| finding.value.value().si() < 0.0 && finding.is_clear();
    match &assessment.superheat {
        Some(finding) if impossible(finding) => statements.push(Statement::SuperheatImpossible),
        Some(finding) => {
            let (position, doubt) = split(verdict(JudgedQuantity::Superheat, finding));
            statements.push(Statement::Superheat { position, doubt });
        }
        None if reading.temperature(Measurand::SuctionLine).is_some() && reading.low().is_some() => {
            statements.push(Statement::NoSuperheat);
        }
        None => {}
    }
    match &assessment.subcooling {
        Some(finding) if impossible(finding) => statements.push(Statement::SubcoolingImpossible),
        Some(finding) => {
            let (position, doubt) = split(verdict(JudgedQuantity::Subcooling, finding));
            statements.push(Statement::Subcooling { position, doubt });
        }
        None if reading.temperature(Measurand::LiquidLine).is_some() && reading.high().is_some() => {
            statements.push(Statement::NoSubcooling);
        }
        None => {}
    }
    if let Some(finding) = &assessment.condensing_over_ambient {
        let (position, doubt) = split(verdict(JudgedQuantity::CondensingOverAmbient, finding));
        statements.push(Statement::CondensingOverAmbient { position, doubt });
    }
}

fn vent<R>(reading: &Reading<R>, assessment: &Assessment, judged: &[Judged], statements: &mut Vec<Statement>) {
    let Some(vent) = reading.temperature(Measurand::Vent) else { return };
    let among = judged.iter().find(|one| one.quantity == JudgedQuantity::Measured(Measurand::Vent));
    let verdict = among.map(|one| one.verdict).or(assessment.vent_verdict);
    statements.push(Statement::Vent {
        position: verdict.map(|verdict| verdict.position),
        among_circuits: among.is_some(),
        doubt: verdict.and_then(|verdict| doubt(verdict.probability)),
    });
    let boiling = saturated(&assessment.low).map(|saturation| saturation.dew);
    if boiling.is_some_and(|t| vent.value() + vent.expanded() < t.value() - t.expanded()) {
        statements.push(Statement::VentImpossible);
    }
}

fn equalised(assessment: &Assessment) -> Vec<Statement> {
    let Some(check) = &assessment.equalised else { return Vec::new() };
    let at_air =
        check.verdict == EqualisedVerdict::LiquidGone && check.read.value().si().abs() <= check.read.expanded().si();
    let mut statements =
        vec![Statement::Equalised { verdict: check.verdict, at_air, doubt: check.probability.and_then(doubt) }];
    if check.verdict == EqualisedVerdict::AtSaturation {
        let (kpa, psi) = (nine_digits(check.noticeable.kpa()), nine_digits(check.noticeable.psi()));
        statements.push(Statement::EqualisedResolution { kpa, psi });
    }
    statements
}

#[cfg(test)]
mod tests;
