//! What a reading means, statement by statement.

use super::amount::{four_digits, nine_digits};
use super::{Amount, pressure_amount};
use crate::diagnosis::{Assessment, DifferenceAssessment, Judged, JudgedQuantity, SideAssessment, is_clear};
use crate::expected::{ChartSet, EqualisedVerdict, Position, Side, Verdict, carbon_dioxide};
use crate::inspection::{Measurand, Reading};
use crate::line::Saturation;
use crate::quantity::{PressureUnit, Quantity};
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
    /// A side against healthy circuits.
    SideAmongCircuits {
        /// Low or high.
        side: Side,
        /// Where it lies.
        position: Position,
        /// Fraction of the circuits that read lower.
        fraction_below: f64,
        /// See [`Statement`].
        doubt: Option<f64>,
    },
    /// Without the ambient temperature there is no window.
    #[cfg_attr(feature = "serde", serde(deserialize_with = "crate::diagnosis::no_fields"))]
    NoAmbient,
    /// No chart of pressures is known for the refrigerant.
    #[cfg_attr(feature = "serde", serde(deserialize_with = "crate::diagnosis::no_fields"))]
    NoChart,
    /// A side against the charts.
    SideByCharts {
        /// Low or high.
        side: Side,
        /// Where it lies.
        position: Position,
        /// In how many charts the best estimate lies inside.
        inside: usize,
        /// How many charts cover the conditions.
        charts: usize,
        /// Whether they were carried over from another refrigerant.
        carried_over: bool,
        /// See [`Statement`].
        doubt: Option<f64>,
    },
    /// No chart covers the ambient for a side.
    SideBeyondCharts {
        /// Low or high.
        side: Side,
        /// Ambient temperatures that charts cover, °C, where any does.
        covered: Option<[f64; 2]>,
    },
    /// The high side of a transcritical circuit against correlations of the best one.
    TranscriticalHighSide {
        /// The high side, absolute.
        read: Amount,
        /// The best by the ambient, absolute, where its correlation covers it.
        by_ambient: Option<Amount>,
        /// The best by the outlet of the gas cooler, likewise.
        by_outlet: Option<Amount>,
    },
    /// Both gauges of a running circuit read nearly the same.
    #[cfg_attr(feature = "serde", serde(deserialize_with = "crate::diagnosis::no_fields"))]
    SidesNearlyEqual,
    /// The superheat.
    Superheat {
        /// Where it lies; `None` where nothing is known to be usual.
        position: Option<Position>,
        /// See [`Statement`].
        doubt: Option<f64>,
    },
    /// The suction line reads colder than the refrigerant boils.
    #[cfg_attr(feature = "serde", serde(deserialize_with = "crate::diagnosis::no_fields"))]
    SuperheatImpossible,
    /// The low side is above the critical pressure.
    #[cfg_attr(feature = "serde", serde(deserialize_with = "crate::diagnosis::no_fields"))]
    NoSuperheat,
    /// The subcooling.
    Subcooling {
        /// Where it lies; `None` where nothing is known to be usual.
        position: Option<Position>,
        /// See [`Statement`].
        doubt: Option<f64>,
    },
    /// The liquid line reads hotter than the refrigerant condenses.
    #[cfg_attr(feature = "serde", serde(deserialize_with = "crate::diagnosis::no_fields"))]
    SubcoolingImpossible,
    /// The high side is above the critical pressure.
    #[cfg_attr(feature = "serde", serde(deserialize_with = "crate::diagnosis::no_fields"))]
    NoSubcooling,
    /// Condensing temperature over ambient.
    CondensingOverAmbient {
        /// Where it lies; `None` where nothing is known to be usual.
        position: Option<Position>,
        /// See [`Statement`].
        doubt: Option<f64>,
    },
    /// The vent.
    Vent {
        /// Where it lies; `None` where no table covers the conditions.
        position: Option<Position>,
        /// Whether against healthy circuits; else against tables.
        among_circuits: bool,
        /// See [`Statement`].
        doubt: Option<f64>,
    },
    /// The vent reads colder than the refrigerant boils.
    #[cfg_attr(feature = "serde", serde(deserialize_with = "crate::diagnosis::no_fields"))]
    VentImpossible,
    /// The page names no cause.
    #[cfg_attr(feature = "serde", serde(deserialize_with = "crate::diagnosis::no_fields"))]
    NamesNoCause,
    /// Both gauges of an equalised circuit.
    Equalised {
        /// The verdict.
        verdict: EqualisedVerdict,
        /// Whether both show the pressure of the air.
        at_air: bool,
        /// See [`Statement`].
        doubt: Option<f64>,
    },
    /// The smallest difference from saturation that the instruments would show.
    EqualisedResolution {
        /// In kPa.
        kpa: f64,
        /// In psi.
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
