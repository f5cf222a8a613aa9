//! The report about one reading, made from its diagnosis.

use super::amount::{four_digits, nine_digits};
use super::sources::{is_clamped, sources};
use super::statement::statements;
use super::{
    Amount, ChartBandRow, ChartCell, EqualisedRow, GaugeRow, LogRow, Mark, Report, ReportedState, ResultRow, SCHEMA,
    Span, Text, VerdictCell, WindowBasis, causes, cautions, healthy,
};
use crate::diagnosis::{
    Advice, Assessment, Diagnosis, DifferenceAssessment, Headline, JudgedQuantity, NextStep, SideAssessment,
};
use crate::expected::{Authority, Band, Basis, Chart, Charted, EqualisedCheck, EqualisedVerdict, Quantiles, Side};
use crate::inspection::{DisplayUnits, Entry, Instruments, Measurand, Reading};
use crate::line::Saturation;
use crate::quantity::{
    Position,
    instrument::{PressureGauge, Thermometer},
};
use crate::quantity::{PressureUnit, StepUnit, TemperatureUnit, Unit};
use crate::{GaugePressure, Measured, PressureDifference, Quantity, Range, Ratio, Temperature};

/// Conditions of a reading, and the instruments it was taken with.
#[derive(Debug, Clone, PartialEq)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(deny_unknown_fields))]
#[non_exhaustive]
pub struct Opening {
    /// Whether the refrigerant is a blend: superheat counts from the dew line, subcooling from the bubble line.
    pub blend: bool,
    /// Ambient temperature as entered; `None` if it was not.
    #[cfg_attr(feature = "serde", serde(default, skip_serializing_if = "Option::is_none"))]
    pub ambient: Option<String>,
    /// Relative humidity as entered; `None` if it was not.
    #[cfg_attr(feature = "serde", serde(default, skip_serializing_if = "Option::is_none"))]
    pub humidity: Option<String>,
    /// Air pressure, absolute.
    pub air: Amount,
    /// Source of the air pressure.
    pub air_source: AirSource,
    /// The instruments that were used.
    pub instruments: Vec<InstrumentRow>,
}

/// Source of the air pressure: a barometer, the altitude, or sea level by default.
#[derive(Debug, Clone, PartialEq, Eq)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(
    feature = "serde",
    derive(serde::Serialize, serde::Deserialize),
    serde(tag = "id", rename_all = "kebab-case", deny_unknown_fields)
)]
#[non_exhaustive]
pub enum AirSource {
    /// Read on a barometer.
    #[cfg_attr(feature = "serde", serde(deserialize_with = "crate::service::no_fields"))]
    Barometer,
    /// Standard atmosphere at the altitude that was entered.
    Altitude {
        /// Altitude as entered.
        entered: String,
    },
    /// Standard atmosphere at sea level, as nothing was entered.
    #[cfg_attr(feature = "serde", serde(deserialize_with = "crate::service::no_fields"))]
    SeaLevel,
}

impl AirSource {
    /// Where the air pressure of an entry came from.
    fn of(entry: &Entry) -> Self {
        match (entry.barometer, entry.altitude) {
            (Some(_), _) => Self::Barometer,
            (None, Some(altitude)) => Self::Altitude { entered: altitude.to_string() },
            (None, None) => Self::SeaLevel,
        }
    }
}

/// An instrument with its limit of error.
#[derive(Debug, Clone, PartialEq)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(
    feature = "serde",
    derive(serde::Serialize, serde::Deserialize),
    serde(tag = "id", rename_all = "kebab-case", deny_unknown_fields)
)]
#[non_exhaustive]
pub enum InstrumentRow {
    /// A pressure gauge.
    Gauge {
        /// Side that it is made for.
        side: Side,
        /// Whether it is a digital probe.
        digital: bool,
        /// Whether it is of a service set for R-744; of a digital probe the scale says it.
        carbon_dioxide: bool,
        /// Name of a gauge that is none of [`PressureGauge`]'s own.
        #[cfg_attr(feature = "serde", serde(default, skip_serializing_if = "Option::is_none"))]
        name: Option<Text>,
        /// Scale of the gauge, from lower to upper end, bar.
        scale_bar: [f64; 2],
        /// Limit of error, % of the span.
        limit_percent: f64,
    },
    /// A thermometer.
    Thermometer {
        /// Whether it is clamped on a line, not held into the air.
        clamped: bool,
        /// Whether it is a digital thermometer, not a thermocouple.
        digital: bool,
        /// Name of a thermometer that is none of [`Thermometer`]'s own.
        #[cfg_attr(feature = "serde", serde(default, skip_serializing_if = "Option::is_none"))]
        name: Option<Text>,
        /// Limit of error, K.
        limit_k: f64,
    },
}

/// The gauges that the library names: the side, and whether for R-744.
const GAUGES: [(PressureGauge, Side, bool); 4] = [
    (PressureGauge::SERVICE_LOW, Side::Low, false),
    (PressureGauge::SERVICE_HIGH, Side::High, false),
    (PressureGauge::CARBON_DIOXIDE_LOW, Side::Low, true),
    (PressureGauge::CARBON_DIOXIDE_HIGH, Side::High, true),
];

/// The thermometers that the library names: whether clamped, whether digital.
const THERMOMETERS: [(Thermometer, bool, bool); 4] = [
    (Thermometer::CLAMPED_THERMOCOUPLE, true, false),
    (Thermometer::THERMOCOUPLE_IN_AIR, false, false),
    (Thermometer::CLAMPED_DIGITAL, true, true),
    (Thermometer::DIGITAL_IN_AIR, false, true),
];

impl InstrumentRow {
    /// `gauge`, which was read on the side `read`.
    pub(in crate::report) fn gauge(gauge: &PressureGauge, read: Side) -> Self {
        let analogue = GAUGES.iter().find(|(known, ..)| known.name == gauge.name);
        let digital = PressureGauge::SERVICE_LOW.digital().name == gauge.name;
        let (side, carbon_dioxide) =
            analogue.map_or((read, false), |&(_, side, carbon_dioxide)| (side, carbon_dioxide));
        Self::Gauge {
            side,
            digital,
            carbon_dioxide,
            name: (analogue.is_none() && !digital).then(|| gauge.name.into()),
            scale_bar: [gauge.scale.low.bar(), gauge.scale.high.bar()].map(nine_digits),
            limit_percent: nine_digits(gauge.limit.percent()),
        }
    }

    /// `thermometer`, which was clamped on a line or held into the air.
    pub(in crate::report) fn thermometer(thermometer: &Thermometer, on_a_line: bool) -> Self {
        let known = THERMOMETERS.iter().find(|(known, ..)| known.name == thermometer.name);
        let (clamped, digital) = known.map_or((on_a_line, false), |&(_, clamped, digital)| (clamped, digital));
        Self::Thermometer {
            clamped,
            digital,
            name: known.is_none().then(|| thermometer.name.into()),
            limit_k: nine_digits(thermometer.limit.kelvins()),
        }
    }

    /// The English name of the instrument.
    pub(in crate::report) fn name(&self) -> &str {
        match self {
            Self::Gauge { name: Some(name), .. } | Self::Thermometer { name: Some(name), .. } => name,
            Self::Gauge { digital: true, .. } => PressureGauge::SERVICE_LOW.digital().name,
            Self::Gauge { side, carbon_dioxide, .. } => match (side, carbon_dioxide) {
                (Side::Low, false) => PressureGauge::SERVICE_LOW.name,
                (Side::High, false) => PressureGauge::SERVICE_HIGH.name,
                (Side::Low, true) => PressureGauge::CARBON_DIOXIDE_LOW.name,
                (Side::High, true) => PressureGauge::CARBON_DIOXIDE_HIGH.name,
            },
            Self::Thermometer { clamped, digital, .. } => match (clamped, digital) {
                (true, false) => Thermometer::CLAMPED_THERMOCOUPLE.name,
                (false, false) => Thermometer::THERMOCOUPLE_IN_AIR.name,
                (true, true) => Thermometer::CLAMPED_DIGITAL.name,
                (false, true) => Thermometer::DIGITAL_IN_AIR.name,
            },
        }
    }
}

/// `advice` with its probabilities to the digits of those of the causes.
fn rounded(mut advice: Advice) -> Advice {
    let round = |probability: &mut f64| *probability = four_digits(*probability);
    match &mut advice.headline {
        Headline::NothingUnusualYet { no_fault, .. } | Headline::Healthy { no_fault } => round(no_fault),
        Headline::Unusual { likeliest, no_fault, .. } => {
            round(&mut likeliest.probability);
            no_fault.iter_mut().for_each(round);
        }
        Headline::Faulty { likeliest, .. } => round(&mut likeliest.probability),
        _ => {}
    }
    advice.leading.iter_mut().for_each(|group| round(&mut group.probability));
    advice.others.iter_mut().for_each(|others| round(&mut others.probability));
    for step in &mut advice.next {
        if let NextStep::NoChargeByLowSide { undercharge, .. } = step {
            undercharge.iter_mut().for_each(round);
        }
    }
    advice
}

/// The report about `diagnosis`.
pub(super) fn report(diagnosis: &Diagnosis, units: &DisplayUnits) -> Report {
    let (entry, reading) = (diagnosis.entry(), diagnosis.inspection().first());
    let (assessment, posterior) = (diagnosis.assessment(), diagnosis.posterior());
    let air_source = AirSource::of(entry);
    let air = reading.air();
    let kpa = PressureUnit::Kilopascal;
    Report {
        schema: SCHEMA.into(),
        refrigerant: reading.refrigerant().to_string(),
        state: if reading.is_running() { ReportedState::Running } else { ReportedState::Equalised },
        invented: false,
        questions: diagnosis.questions(),
        gauges: gauges(entry, assessment, units, reading),
        results: results(reading, assessment, units),
        equalised: assessment.equalised.as_ref().map(|check| equalised_row(check, units.low)),
        charts: charts(reading, assessment, units),
        meaning: statements(reading, assessment, diagnosis.charts(), posterior.is_some()),
        healthy: healthy::healthy(reading, assessment, units),
        causes: posterior.map(|posterior| causes::causes(posterior, units, air.value())),
        advice: rounded(diagnosis.advice()),
        cautions: cautions(reading.refrigerant()),
        sources: sources(reading, &air_source, assessment, diagnosis.instruments(), posterior),
        opening: Opening {
            blend: reading.refrigerant().is_blend(),
            ambient: entry.ambient.map(|t| t.to_string()),
            humidity: entry.humidity.map(|humidity| humidity.to_string()),
            air: Amount::new(air.value().value_in(kpa), Some(air.expanded().value_in(kpa)), kpa.symbol(), 1),
            air_source,
            instruments: instruments(reading, diagnosis.instruments()),
        },
    }
}

/// The figures of `diagnosis` alone.
pub(super) fn log_row(diagnosis: &Diagnosis) -> LogRow {
    let (entry, reading, assessment) = (diagnosis.entry(), diagnosis.inspection().first(), diagnosis.assessment());
    let units = entry.units();
    LogRow {
        questions: diagnosis.questions(),
        gauges: gauges(entry, assessment, &units, reading),
        results: results(reading, assessment, &units),
        equalised: assessment.equalised.as_ref().map(|check| equalised_row(check, units.low)),
    }
}

/// The instruments that `reading` was taken with.
fn instruments(reading: &Reading, instruments: &Instruments) -> Vec<InstrumentRow> {
    let in_air = reading.ambient().is_some() || reading.temperature(Measurand::Vent).is_some();
    let used = [
        reading.low().map(|_| InstrumentRow::gauge(&instruments.low, Side::Low)),
        reading.high().map(|_| InstrumentRow::gauge(&instruments.high, Side::High)),
        is_clamped(reading).then(|| InstrumentRow::thermometer(&instruments.line, true)),
        in_air.then(|| InstrumentRow::thermometer(&instruments.air, false)),
    ];
    used.into_iter().flatten().collect()
}

fn gauges(entry: &Entry, assessment: &Assessment, units: &DisplayUnits, reading: &Reading) -> Vec<GaugeRow> {
    // a vacuum stays in inHg, as it was read
    let vacuum = |measurand| entry.pressure(measurand).map(|p| p.unit()).filter(|&u| u == PressureUnit::InchOfMercury);
    let unit = |measurand, usual| vacuum(measurand).unwrap_or(usual);
    let sides = [
        (Side::Low, &assessment.low, unit(Measurand::LowSide, units.low)),
        (Side::High, &assessment.high, unit(Measurand::HighSide, units.high)),
    ];
    let row = |(side, found, unit): (Side, &Option<SideAssessment>, PressureUnit)| {
        let found = found.as_ref()?;
        let at = |pick: fn(&Saturation) -> Measured<Temperature>| {
            found.saturation.as_ref().map(pick).map(|t| temperature_amount(&t, units.temperature))
        };
        let (p, decimals) = (&found.absolute, unit.gauge_decimals());
        Some(GaugeRow {
            side,
            gauge: gauge_amount(&found.gauge, unit),
            absolute: Amount::new(p.value().value_in(unit), Some(p.expanded().value_in(unit)), unit.symbol(), decimals),
            saturation: at(|saturation| saturation.dew),
            bubble: if reading.refrigerant().is_blend() { at(|saturation| saturation.bubble) } else { None },
        })
    };
    sides.into_iter().filter_map(row).collect()
}

fn equalised_row(check: &EqualisedCheck, unit: PressureUnit) -> EqualisedRow {
    let step =
        |value: PressureDifference| Amount::new(value.value_in(unit), None, unit.symbol(), unit.gauge_decimals());
    EqualisedRow {
        verdict: check.verdict,
        probability: check.probability.map(nine_digits),
        difference: step(check.difference.value()),
        noticeable: step(check.noticeable),
    }
}

fn results(reading: &Reading, assessment: &Assessment, units: &DisplayUnits) -> Vec<ResultRow> {
    if let Some(check) = &assessment.equalised {
        return against_saturation(check, units.low).into_iter().collect();
    }
    let mut rows = Vec::new();
    for (measurand, side, unit) in
        [(Measurand::LowSide, &assessment.low, units.low), (Measurand::HighSide, &assessment.high, units.high)]
    {
        let Some(side) = side else { continue };
        rows.push(ResultRow {
            quantity: JudgedQuantity::Measured(measurand),
            value: gauge_amount(&side.gauge, unit),
            window: side.charted.range().map(|range| gauge_span(range, unit)),
            basis: WindowBasis::Charts,
            verdict: side.verdict.map(Into::into),
        });
    }
    let step = units.temperature.step();
    for (quantity, finding) in [
        (JudgedQuantity::Superheat, &assessment.superheat),
        (JudgedQuantity::Subcooling, &assessment.subcooling),
        (JudgedQuantity::CondensingOverAmbient, &assessment.condensing_over_ambient),
    ] {
        rows.extend(finding.as_ref().map(|finding| difference_row(quantity, finding, step)));
    }
    if let Some(vent) = reading.temperature(Measurand::Vent) {
        rows.push(ResultRow {
            quantity: JudgedQuantity::Measured(Measurand::Vent),
            value: temperature_amount(&vent, units.temperature),
            window: assessment.vent.range().map(|range| temperature_span(range, units.temperature)),
            basis: WindowBasis::Charts,
            verdict: assessment.vent_verdict.map(Into::into),
        });
    }
    rows
}

/// Both gauges against saturation; one figure for both says nothing while they differ.
fn against_saturation(check: &EqualisedCheck, unit: PressureUnit) -> Option<ResultRow> {
    let position = match check.verdict {
        EqualisedVerdict::NotEqualised => return None,
        EqualisedVerdict::LiquidGone => Position::Below,
        EqualisedVerdict::AtSaturation => Position::Within,
        EqualisedVerdict::AboveSaturation => Position::Above,
    };
    let (at, half) = (check.expected.value(), check.expected.expanded());
    Some(ResultRow {
        quantity: JudgedQuantity::EqualisedMean,
        value: gauge_amount(&check.read, unit),
        window: Some(gauge_span(Range::new(at - half, at + half), unit)),
        basis: WindowBasis::Saturation,
        verdict: Some(VerdictCell { position, probability: check.probability }),
    })
}

fn difference_row(quantity: JudgedQuantity, finding: &DifferenceAssessment, unit: StepUnit) -> ResultRow {
    let (value, half) = (finding.value.value().value_in(unit), finding.value.expanded().value_in(unit));
    let span = |range: Range<crate::TemperatureDifference>| {
        Span::new(range.low.value_in(unit), range.high.value_in(unit), unit.symbol(), 0)
    };
    ResultRow {
        quantity,
        value: Amount::new(value, Some(half), unit.symbol(), 1),
        window: finding.usual.map(|usual| span(usual.value)),
        basis: WindowBasis::RuleOfThumb,
        verdict: finding.verdict.map(Into::into),
    }
}

/// What each chart says about both sides and the vent.
fn charts(reading: &Reading, assessment: &Assessment, units: &DisplayUnits) -> Vec<ChartBandRow> {
    let window = assessment.expected.as_ref();
    let mut rows = Vec::new();
    if let Some(low) = &assessment.low {
        let circuits = window.map(|window| &window.low_side);
        let cells = Cells { circuits, read: low.gauge.value() };
        cells.put(&mut rows, &low.charted, |row| &mut row.low, |range| gauge_span(range, units.low));
    }
    if let Some(high) = &assessment.high {
        let circuits = window.map(|window| &window.high_side);
        let cells = Cells { circuits, read: high.gauge.value() };
        cells.put(&mut rows, &high.charted, |row| &mut row.high, |range| gauge_span(range, units.high));
    }
    if let Some(vent) = reading.temperature(Measurand::Vent) {
        let circuits = window.and_then(|window| window.temperature(Measurand::Vent));
        let cells = Cells { circuits, read: vent.value() };
        let unit = units.temperature;
        cells.put(&mut rows, &assessment.vent, |row| &mut row.vent, |range| temperature_span(range, unit));
    }
    rows.into_iter().map(|(_, row)| row).collect()
}

/// What was read of one quantity, and what circuits show of it.
struct Cells<'a, Q> {
    circuits: Option<&'a Quantiles<Q>>,
    read: Q,
}

impl<Q: Quantity> Cells<'_, Q> {
    /// Puts what `charted` says into the row of each chart, making the row where there is none yet.
    fn put(
        &self,
        rows: &mut Vec<(&'static Chart, ChartBandRow)>,
        charted: &Charted<Q>,
        cell: impl Fn(&mut ChartBandRow) -> &mut Option<ChartCell>,
        span: impl Fn(Range<Q>) -> Span,
    ) {
        for band in &charted.bands {
            let at = rows.iter().position(|(chart, _)| *chart == band.chart).unwrap_or_else(|| {
                let (chart, system) = (band.chart.id.into(), band.chart.system.into());
                let row = ChartBandRow { chart, system, low: None, high: None, vent: None, marks: Vec::new() };
                rows.push((band.chart, row));
                rows.len() - 1
            });
            let row = &mut rows[at].1;
            for mark in self.marks(band) {
                if !row.marks.contains(&mark) {
                    row.marks.push(mark);
                }
            }
            *cell(row) = Some(ChartCell { window: span(band.range), position: self.position(&band.range) });
        }
    }

    fn marks(&self, band: &Band<Q>) -> impl Iterator<Item = Mark> {
        let other = self.circuits.is_some_and(|circuits| !agrees(band.range.at(0.5), circuits));
        let marks = [
            (matches!(band.basis, Basis::Derived(_)), Mark::CarriedOver),
            (!band.humidity_fits, Mark::OtherHumidity),
            (band.chart.authority == Authority::Single, Mark::OneRange),
            (band.chart.authority == Authority::Habit, Mark::NotCounted),
            (other, Mark::OtherCars),
        ];
        marks.into_iter().filter(|(applies, _)| *applies).map(|(_, mark)| mark)
    }

    fn position(&self, range: &Range<Q>) -> Position {
        if self.read < range.low {
            Position::Below
        } else if self.read > range.high {
            Position::Above
        } else {
            Position::Within
        }
    }
}

/// Whether the middle of a printed band lies among nine tenths of the circuits.
fn agrees<Q: Quantity>(middle: Q, circuits: &Quantiles<Q>) -> bool {
    let share = circuits.share_below(middle);
    Ratio::from_percent(5.0) <= share && share <= Ratio::from_percent(95.0)
}

pub(super) fn gauge_span(range: Range<GaugePressure>, unit: PressureUnit) -> Span {
    Span::new(range.low.value_in(unit), range.high.value_in(unit), unit.symbol(), unit.gauge_decimals())
}

pub(super) fn temperature_span(range: Range<Temperature>, unit: TemperatureUnit) -> Span {
    Span::new(range.low.value_in(unit), range.high.value_in(unit), unit.symbol(), 1)
}

pub(super) fn gauge_amount(value: &Measured<GaugePressure>, unit: PressureUnit) -> Amount {
    let half = value.expanded().value_in(unit);
    Amount::new(value.value().value_in(unit), Some(half), unit.symbol(), unit.gauge_decimals())
}

pub(super) fn temperature_amount(value: &Measured<Temperature>, unit: TemperatureUnit) -> Amount {
    Amount::new(value.value().value_in(unit), Some(value.expanded().value_in(unit.step())), unit.symbol(), 1)
}

#[cfg(test)]
mod tests;
