//! The report on a standing vacuum test: what the rise says, the published acceptance limits, and what passing them proves.

use super::amount::nine_digits;
use super::page::Page;
use super::{Amount, Language, Span, Text};
use crate::quantity::{PressureRate, PressureUnit, Throughput, Unit};
use crate::service::Interval;
use crate::service::acceptance::{ACCEPTANCE_LIMITS, AcceptanceLimit, AcceptanceOutcome, AcceptanceResult, Criterion};
use crate::service::leak_throughput::{DETECTOR_SCALES, refrigerant_in, throughput};
use crate::service::standing_vacuum::{BesideWater, CHOKED, StandingVacuumFit, VacuumFinding};
use crate::{
    Entered, Error, Measured, Pressure, PressureDifference, Quantity, Ratio, Refrigerant, Source, Temperature, Volume,
    air,
};

/// Version of the JSON form of a [`HoldReport`]; it changes whenever a field changes its name or meaning.
pub const HOLD_SCHEMA: &str = "satline-hold-3";

/// Temperature at which a flow of gas is counted if none was measured: our choice, a workshop.
const ROOM: Temperature = Temperature::from_celsius(20.0);

/// Variance inflation from which the page speaks of it: our choice, half of all tests show as much by chance.
const NOTICEABLE_VARIANCE_INFLATION: f64 = 1.5;

/// Circuit under a standing vacuum test, and the unit of the page about it.
#[derive(Debug, Clone, Copy, PartialEq)]
struct VacuumSetup {
    refrigerant: Refrigerant,
    volume: Option<Measured<Volume>>,
    unit: PressureUnit,
}

/// A report on one standing vacuum test, as ids with arguments.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(deny_unknown_fields))]
pub struct HoldReport {
    /// Version of the JSON form, [`HOLD_SCHEMA`].
    #[cfg_attr(feature = "serde", serde(deserialize_with = "super::schema::hold"))]
    #[cfg_attr(feature = "schema", schemars(with = "String", extend("const" = HOLD_SCHEMA)))]
    pub schema: Text,
    /// Whether the readings are invented, as those of a worked example.
    #[cfg_attr(feature = "serde", serde(default))]
    pub invented: bool,
    /// Number of rows of a log that could not be used.
    #[cfg_attr(feature = "serde", serde(default))]
    pub left_out: usize,
    /// Conclusion from the rise of the pressure.
    pub finding: VacuumFinding,
    /// What was tested, and under what conditions.
    pub opening: HoldOpening,
    /// Figures of the fitted curve.
    pub figures: Vec<FigureRow<FitFigure>>,
    /// Published acceptance limits, each with the outcome of the test.
    pub gates: Vec<AcceptanceRow>,
    /// Meaning of the conclusion, statement by statement.
    pub meaning: Vec<HoldStatement>,
    /// What passing the test proves, statement by statement.
    pub proof: Vec<HoldStatement>,
    /// Recommended next steps.
    pub next: Vec<HoldNext>,
    /// Safety cautions.
    pub cautions: Vec<HoldCaution>,
    /// Sources of the numbers.
    pub sources: Vec<String>,
}

/// What was tested, and under what conditions.
#[derive(Debug, Clone, PartialEq)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(deny_unknown_fields))]
pub struct HoldOpening {
    /// Number of readings.
    pub readings: usize,
    /// Time from the first to the last reading.
    pub length: Amount,
    /// Absolute pressure at the first reading.
    pub first: FigureRow<Observed>,
    /// Absolute pressure at the last reading.
    pub last: FigureRow<Observed>,
    /// Volume of the circuit, exact without an interval; `None` if it was not given.
    pub volume: Option<Amount>,
    /// Absolute pressure of the surrounding air.
    pub air: Amount,
    /// Smallest step that the gauge shows; `None` if it was not stated.
    #[cfg_attr(feature = "serde", serde(default, skip_serializing_if = "Option::is_none"))]
    pub gauge_step: Option<Amount>,
    /// Limit of error of the gauge, as typed; `None` if it was not stated.
    #[cfg_attr(feature = "serde", serde(default, skip_serializing_if = "Option::is_none"))]
    pub gauge_limit: Option<String>,
}

/// A figure with its 95 % interval; an end that the readings leave open is `None`.
#[derive(Debug, Clone, PartialEq)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema), schemars(rename = "FigureRow_of_{Q}"))]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(deny_unknown_fields))]
pub struct FigureRow<Q> {
    /// Quantity that the figure is of.
    pub quantity: Q,
    /// Best value and both ends of the interval.
    pub interval: Interval<f64>,
    /// Unit of the figure.
    pub unit: Text,
    /// Number of decimals; if negative, that many digits before the point are not worth writing.
    pub decimals: i8,
    /// Whether the figure has no interval, as opposed to one with open ends.
    pub alone: bool,
}

/// A figure of the fit.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(rename_all = "kebab-case"))]
#[non_exhaustive]
pub enum FitFigure {
    /// Rate of the linear rise.
    StraightRise,
    /// Final pressure of a levelling rise.
    FinalPressure,
    /// Time constant of a levelling rise.
    TimeConstant,
    /// The linear rise beside a levelling one.
    StraightRiseBeside,
    /// κ.
    Bend,
    /// The smallest linear rise that shows.
    SmallestRise,
    /// Scatter of the readings.
    Scatter,
    /// The leak as a flow of gas.
    Throughput,
    /// The leak as a flow of refrigerant.
    Refrigerant,
}

/// The quantity that an acceptance limit bounds.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(rename_all = "kebab-case"))]
#[non_exhaustive]
pub enum Observed {
    /// Rise of the pressure.
    Rise,
    /// Absolute pressure.
    Pressure,
}

/// One acceptance limit, with the outcome of the test.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(deny_unknown_fields))]
pub struct AcceptanceRow {
    /// Limit as printed.
    pub limit: LimitRow,
    /// Outcome of the test against the limit.
    pub outcome: AcceptanceOutcome,
    /// Figure that was compared with the limit; `None` if the test is too short.
    #[cfg_attr(feature = "serde", serde(default, skip_serializing_if = "Option::is_none"))]
    pub seen: Option<FigureRow<Observed>>,
    /// Time over which the test was judged.
    pub over: Amount,
    /// Source of the limit.
    pub source: String,
}

/// A published acceptance limit.
#[derive(Debug, Clone, PartialEq)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(deny_unknown_fields))]
pub struct LimitRow {
    /// Quantity that it bounds.
    pub quantity: Observed,
    /// Largest value, in the unit that is printed.
    pub most: Amount,
    /// Time after which it is judged, from the shortest to the longest printed.
    pub over: Span,
}

/// A statement about a standing vacuum test.
#[derive(Debug, Clone, PartialEq)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(
    feature = "serde",
    derive(serde::Serialize, serde::Deserialize),
    serde(tag = "id", rename_all = "kebab-case", deny_unknown_fields)
)]
#[non_exhaustive]
pub enum HoldStatement {
    /// Conclusion from the rise of the pressure.
    Finding {
        /// The conclusion.
        finding: VacuumFinding,
    },
    /// Final pressure of a levelling rise, compared with the saturation pressure of water.
    BesideWater {
        /// Its position.
        beside: BesideWater,
    },
    /// The fastest leak that the readings leave possible.
    LeakAtMost {
        /// As a rise.
        rate: FigureRow<FitFigure>,
        /// As a flow, if the volume is known.
        flow: Option<GasFlow>,
        /// Whether it would hide beside a levelling rise.
        beside: bool,
    },
    /// The readings are autocorrelated.
    VarianceInflation {
        /// Number of readings that count as one.
        readings: f64,
    },
    /// The volume of the circuit is not known.
    #[cfg_attr(feature = "serde", serde(deserialize_with = "crate::service::no_fields"))]
    NoVolume,
    /// The slowest linear rise that the test could have shown.
    SmallestRise {
        /// As a rise.
        rate: FigureRow<FitFigure>,
        /// As a flow, if the volume is known.
        flow: Option<GasFlow>,
    },
    /// The leak that passes an acceptance limit.
    LetsThrough {
        /// The limit.
        limit: LimitRow,
        /// Ratio of that leak to the one on the coarsest detector scale.
        times: f64,
        /// Leak on the coarsest detector scale.
        scale: Amount,
    },
    /// No test of this kind proves that nothing leaks.
    #[cfg_attr(feature = "serde", serde(deserialize_with = "crate::service::no_fields"))]
    NoProof,
}

/// A leak as a flow of gas, and the refrigerant that the same flow of gas would be.
#[derive(Debug, Clone, PartialEq)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(deny_unknown_fields))]
pub struct GasFlow {
    /// The flow, Pa L/s.
    pub throughput_pa_l_per_s: f64,
    /// As much gas of the refrigerant, g a year.
    pub lost_g_per_year: f64,
    /// The refrigerant, by its designation.
    #[cfg_attr(feature = "schema", schemars(with = "String"))]
    pub refrigerant: Refrigerant,
}

/// A safety caution under vacuum: common practice of service manuals.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(rename_all = "kebab-case"))]
#[non_exhaustive]
pub enum HoldCaution {
    /// No compressor runs under vacuum.
    CompressorInVacuum,
    /// No test with compressed air.
    CompressedAir,
    /// Goggles and gloves at an open line.
    OpenLine,
    /// Recover before evacuating.
    Recover,
    /// The maker's figures, local rules and licensed practice come first.
    MakersFigures,
}

impl HoldCaution {
    /// Every caution, in the order of the page.
    pub(super) const ALL: [Self; 5] =
        [Self::CompressorInVacuum, Self::CompressedAir, Self::OpenLine, Self::Recover, Self::MakersFigures];
}

/// What to do after a standing vacuum test.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(rename_all = "kebab-case"))]
#[non_exhaustive]
pub enum HoldNext {
    /// Check with the charge in.
    CheckWithCharge,
    /// Begin again, with everything level.
    StartAgain,
    /// Hold hoses and gauges alone.
    HoldHosesAlone,
    /// Find the place under pressure.
    FindUnderPressure,
    /// Evacuate again, longer.
    EvacuateAgain,
    /// A new drier, if the circuit stood open.
    NewDrier,
    /// Repair first, dry afterwards.
    RepairThenDry,
    /// Read the temperature, and repeat.
    RepeatWithTemperature,
    /// Hold longer.
    HoldLonger,
    /// Read the temperature with every reading.
    ReadTemperature,
}

/// Report on the standing vacuum test of `fit`, with pressures in `unit`; [`HoldReport::page_in`] writes it in a language.
///
/// `volume` is that of the circuit, hoses and gauges included; without it a rise says nothing about a flow. `refrigerant` is what the
/// circuit will be filled with, for the comparison in grams.
///
/// # Errors
/// [`Error::Impossible`] for a volume that is not above zero.
pub fn hold(
    fit: &StandingVacuumFit,
    air: &Measured<Pressure>,
    refrigerant: Refrigerant,
    volume: Option<Measured<Volume>>,
    unit: PressureUnit,
) -> Result<HoldReport, Error> {
    let setup = &VacuumSetup { refrigerant, volume, unit };
    let judged =
        ACCEPTANCE_LIMITS.iter().map(|limit| AcceptanceLimit::judge(limit, fit)).collect::<Result<Vec<_>, _>>()?;
    Ok(HoldReport {
        schema: HOLD_SCHEMA.into(),
        invented: false,
        left_out: 0,
        finding: fit.finding,
        opening: opening(fit, air, setup),
        figures: figures(fit, setup)?,
        gates: judged.iter().map(|judged| acceptance_row(judged, unit)).collect(),
        meaning: meaning(fit, setup)?,
        proof: proof(fit, &judged, setup)?,
        next: next(fit),
        cautions: HoldCaution::ALL.to_vec(),
        sources: sources(fit),
    })
}

/// The page of the standing vacuum test of `fit` in `language`, with what [`hold`] says of it.
///
/// # Errors
/// As [`hold`].
///
/// ```
/// use satline::quantity::{PressureUnit, Time};
/// use satline::report::{Language, hold_page};
/// use satline::service::standing_vacuum::StandingVacuumTest;
/// use satline::{Measured, Pressure, PressureDifference, Refrigerant};
/// let air = Measured::exact(Pressure::STANDARD_ATMOSPHERE)?;
/// let mut test = StandingVacuumTest::new(air, PressureDifference::from_microns(10.0))?;
/// for minute in 0..8 {
///     let at = f64::from(minute);
///     test.push(Time::from_minutes(at), Pressure::from_microns(500.0 + 120.0 * at), None)?;
/// }
/// let page = hold_page(&test.fit()?, &air, Refrigerant::R134a, None, PressureUnit::Micron, Language::Spanish)?;
/// assert!(page.title().starts_with("Prueba de vacío: 8 lecturas"));
/// # Ok::<(), satline::Error>(())
/// ```
pub fn hold_page(
    fit: &StandingVacuumFit,
    air: &Measured<Pressure>,
    refrigerant: Refrigerant,
    volume: Option<Measured<Volume>>,
    unit: PressureUnit,
    language: Language,
) -> Result<Page, Error> {
    Ok(hold(fit, air, refrigerant, volume, unit)?.page_in(language))
}

impl HoldReport {
    /// The report with the step and the limit of error of the gauge that was read.
    #[must_use]
    pub fn read_with(mut self, step: PressureDifference, limit: &Entered<Ratio>, unit: PressureUnit) -> Self {
        // a step of 10 micron is not one of 10.000000000000002
        let step = nine_digits(step.value_in(unit));
        let decimals = step.to_string().split_once('.').map_or(0, |(_, decimals)| decimals.len() as u8);
        self.opening.gauge_step = Some(Amount::new(step, None, unit.symbol(), decimals));
        self.opening.gauge_limit = Some(limit.to_string());
        self
    }
}

fn opening(fit: &StandingVacuumFit, air: &Measured<Pressure>, setup: &VacuumSetup) -> HoldOpening {
    let unit = setup.unit;
    let read = |p: Pressure| FigureRow::alone(Observed::Pressure, p.value_in(unit), unit.symbol());
    let volume = setup.volume.as_ref().map(|volume| {
        let half = (volume.standard_uncertainty().si() > 0.0).then(|| volume.expanded().l());
        Amount::new(volume.value().l(), half, "L", 2)
    });
    HoldOpening {
        readings: fit.readings,
        length: Amount::new(fit.length.minutes(), None, "min", 1),
        first: read(fit.first),
        last: read(fit.last),
        volume,
        air: Amount::new(air.value().kpa(), Some(air.expanded().kpa()), "kPa", 1),
        gauge_step: None,
        gauge_limit: None,
    }
}

impl<Q> FigureRow<Q> {
    pub(super) fn new(quantity: Q, interval: Interval<f64>, unit: &'static str) -> Self {
        let decimals = decimals(&interval);
        Self { quantity, interval: interval.map(nine_digits), unit: unit.into(), decimals, alone: false }
    }
    /// Without an interval.
    pub(super) fn alone(quantity: Q, value: f64, unit: &'static str) -> Self {
        Self { alone: true, ..Self::new(quantity, Interval { value: Some(value), low: None, high: None }, unit) }
    }
}

/// Decimals that show half the width of an interval with two digits, of an open one the value with three.
fn decimals(interval: &Interval<f64>) -> i8 {
    let size = match (interval.low, interval.high, interval.value) {
        (Some(low), Some(high), _) if high > low => 0.5 * (high - low),
        (_, _, Some(value)) if value != 0.0 => 0.1 * value.abs(),
        _ => 1.0,
    };
    (1.0 - size.log10().floor()).clamp(-9.0, 6.0) as i8
}

/// A rate is written per minute in the unit of the pressures.
pub(super) fn per_minute(unit: PressureUnit) -> (f64, &'static str) {
    let symbol = match unit {
        PressureUnit::Micron => "micron/min",
        PressureUnit::Torr => "Torr/min",
        PressureUnit::InchOfMercury => "inHg/min",
        PressureUnit::Hectopascal => "hPa/min",
        PressureUnit::Pascal => "Pa/min",
        PressureUnit::Psi => "psi/min",
        PressureUnit::Bar => "bar/min",
        _ => return (1e3 / 60.0, "kPa/min"),
    };
    (unit.factor() / 60.0, symbol)
}

fn rate_row(quantity: FitFigure, rate: &Interval<PressureRate>, unit: PressureUnit) -> FigureRow<FitFigure> {
    let (factor, symbol) = per_minute(unit);
    FigureRow::new(quantity, rate.map(|rate| rate.pa_per_s() / factor), symbol)
}

fn figures(fit: &StandingVacuumFit, setup: &VacuumSetup) -> Result<Vec<FigureRow<FitFigure>>, Error> {
    let unit = setup.unit;
    let mut rows = vec![rate_row(FitFigure::StraightRise, &fit.rate, unit)];
    if let (Some(end), Some(time_constant)) = (fit.levels_at(), fit.time_constant()) {
        rows.push(FigureRow::new(FitFigure::FinalPressure, end.map(|p| p.value_in(unit)), unit.symbol()));
        rows.push(FigureRow::new(FitFigure::TimeConstant, time_constant.map(|t| t.minutes()), "min"));
    }
    if let (VacuumFinding::Moisture | VacuumFinding::LeakAndMoisture, Some(beside)) = (fit.finding, &fit.beside) {
        rows.push(rate_row(FitFigure::StraightRiseBeside, beside, unit));
    }
    // what does not move has no curvature
    if fit.finding != VacuumFinding::NoRise {
        rows.push(FigureRow::new(FitFigure::Bend, fit.bend, ""));
    }
    let (factor, symbol) = per_minute(unit);
    if let Some(seen) = fit.smallest_seen {
        rows.push(FigureRow::alone(FitFigure::SmallestRise, seen.pa_per_s() / factor, symbol));
    }
    rows.push(FigureRow::alone(FitFigure::Scatter, fit.scatter.value_in(unit), unit.symbol()));
    let leaks = matches!(fit.finding, VacuumFinding::Leak | VacuumFinding::LeakAndMoisture);
    if let (true, Some(rate), Some(volume)) = (leaks, fit.leak_rate(), &setup.volume) {
        let flow = throughput(&rate, volume)?;
        rows.push(FigureRow::new(FitFigure::Throughput, flow.map(|q| q.pa_l_per_s()), "Pa L/s"));
        let t = fit.temperature.unwrap_or(ROOM);
        // one flow and its refrigerant are in proportion
        let grams = refrigerant_in(Throughput::from_si(1.0), setup.refrigerant, t)?.g_per_year();
        rows.push(FigureRow::new(FitFigure::Refrigerant, flow.map(|q| q.si() * grams), "g/yr"));
    }
    Ok(rows)
}

/// A limit as printed.
fn limit_row(limit: &AcceptanceLimit) -> LimitRow {
    let (quantity, most) = match limit.criterion {
        Criterion::Rise(most) => (Observed::Rise, Amount::new(most.inhg(), None, "inHg", 0)),
        Criterion::StaysBelow(most) => (Observed::Pressure, Amount::new(most.microns(), None, "micron", 0)),
    };
    LimitRow { quantity, most, over: Span::new(limit.over.low.minutes(), limit.over.high.minutes(), "min", 0) }
}

fn acceptance_row(judged: &AcceptanceResult, unit: PressureUnit) -> AcceptanceRow {
    let limit = limit_row(&judged.limit.value);
    let row = |seen: Interval<PressureDifference>| {
        FigureRow::new(limit.quantity, seen.map(|p| p.value_in(unit)), unit.symbol())
    };
    AcceptanceRow {
        outcome: judged.outcome,
        seen: judged.seen.map(row),
        over: Amount::new(judged.over.minutes(), None, "min", 1),
        source: judged.limit.source.to_string(),
        limit,
    }
}

/// A rise as a flow of gas; `None` without the volume of the circuit.
fn gas_flow(rate: PressureRate, setup: &VacuumSetup, fit: &StandingVacuumFit) -> Result<Option<GasFlow>, Error> {
    let Some(volume) = &setup.volume else { return Ok(None) };
    let rate = Interval { value: Some(rate), low: Some(rate), high: Some(rate) };
    let Some(throughput) = throughput(&rate, volume)?.high else { return Ok(None) };
    let lost = refrigerant_in(throughput, setup.refrigerant, fit.temperature.unwrap_or(ROOM))?;
    Ok(Some(GasFlow {
        throughput_pa_l_per_s: nine_digits(throughput.pa_l_per_s()),
        lost_g_per_year: nine_digits(lost.g_per_year()),
        refrigerant: setup.refrigerant,
    }))
}

fn meaning(fit: &StandingVacuumFit, setup: &VacuumSetup) -> Result<Vec<HoldStatement>, Error> {
    let mut statements = vec![HoldStatement::Finding { finding: fit.finding }];
    statements.extend(fit.beside_water().map(|beside| HoldStatement::BesideWater { beside }));
    let (factor, symbol) = per_minute(setup.unit);
    if let Some(most) = fit.leak_at_most().filter(|most| most.si() > 0.0) {
        statements.push(HoldStatement::LeakAtMost {
            rate: FigureRow::alone(FitFigure::StraightRise, most.pa_per_s() / factor, symbol),
            flow: gas_flow(most, setup, fit)?,
            beside: fit.finding == VacuumFinding::Moisture,
        });
    }
    if fit.variance_inflation > NOTICEABLE_VARIANCE_INFLATION {
        statements.push(HoldStatement::VarianceInflation { readings: nine_digits(fit.variance_inflation) });
    }
    if setup.volume.is_none() {
        statements.push(HoldStatement::NoVolume);
    }
    Ok(statements)
}

fn proof(
    fit: &StandingVacuumFit,
    judged: &[AcceptanceResult],
    setup: &VacuumSetup,
) -> Result<Vec<HoldStatement>, Error> {
    let mut statements = Vec::new();
    let (factor, symbol) = per_minute(setup.unit);
    if let Some(smallest) = fit.smallest_seen {
        statements.push(HoldStatement::SmallestRise {
            rate: FigureRow::alone(FitFigure::SmallestRise, smallest.pa_per_s() / factor, symbol),
            flow: gas_flow(smallest, setup, fit)?,
        });
    }
    let [.., scale] = DETECTOR_SCALES.value;
    if let Some(volume) = &setup.volume {
        let t = fit.temperature.unwrap_or(ROOM);
        for judged in judged.iter().filter(|judged| judged.outcome == AcceptanceOutcome::Passes) {
            let limit = judged.limit.value;
            let times = nine_digits(limit.times_a_service_leak(volume, setup.refrigerant, t)?);
            let scale = Amount::new(scale.g_per_year(), None, "g/yr", 0);
            statements.push(HoldStatement::LetsThrough { limit: limit_row(&limit), times, scale });
        }
    }
    statements.push(HoldStatement::NoProof);
    Ok(statements)
}

fn next(fit: &StandingVacuumFit) -> Vec<HoldNext> {
    let mut next = match fit.finding {
        VacuumFinding::NoRise => vec![HoldNext::CheckWithCharge],
        VacuumFinding::Falling => vec![HoldNext::StartAgain],
        VacuumFinding::Leak | VacuumFinding::OpenToAir => {
            vec![HoldNext::HoldHosesAlone, HoldNext::FindUnderPressure]
        }
        VacuumFinding::Moisture => vec![HoldNext::EvacuateAgain, HoldNext::NewDrier],
        VacuumFinding::LeakAndMoisture => vec![HoldNext::RepairThenDry],
        VacuumFinding::SpeedsUp => vec![HoldNext::RepeatWithTemperature],
        VacuumFinding::CannotTell => vec![HoldNext::HoldLonger],
    };
    if fit.temperature.is_none() {
        next.push(HoldNext::ReadTemperature);
    }
    next
}

fn sources(fit: &StandingVacuumFit) -> Vec<String> {
    let mut sources: Vec<Source> = Vec::new();
    let mut add = |source: &Source| {
        if !sources.contains(source) {
            sources.push(*source);
        }
    };
    for limit in &ACCEPTANCE_LIMITS {
        add(&limit.source);
    }
    add(&DETECTOR_SCALES.source);
    if fit.beside_water().is_some() {
        add(&air::water::LIQUID);
    }
    if fit.finding == VacuumFinding::OpenToAir {
        add(&CHOKED.source);
    }
    sources.iter().map(ToString::to_string).collect()
}

#[cfg(test)]
pub(super) mod tests;
