//! The page about a standing vacuum test: what the rise says, the published acceptance limits, and what passing them proves.

use super::amount::nine_digits;
use super::words::en;
use super::{Amount, Text};
use crate::quantity::{MassRate, PressureRate, PressureUnit, Throughput, Unit};
use crate::service::Interval;
use crate::service::acceptance::{ACCEPTANCE_LIMITS, AcceptanceLimit, AcceptanceOutcome, AcceptanceResult};
use crate::service::leak_throughput::{DETECTOR_SCALES, refrigerant_in, throughput};
use crate::service::standing_vacuum::{BesideWater, CHOKED, StandingVacuumFit, VacuumFinding};
use crate::{Error, Measured, Pressure, Quantity, Refrigerant, Source, Temperature, Volume, air};

/// Version of the JSON form of a [`HoldReport`]; it changes whenever a field changes its name or meaning.
pub const HOLD_SCHEMA: &str = "satline-hold-2";

/// Temperature at which a flow of gas is counted if none was measured: our choice, a workshop.
const ROOM: Temperature = Temperature::from_celsius(20.0);

/// Variance inflation from which the page speaks of it: our choice, half of all tests show as much by chance.
const NOTICEABLE_VARIANCE_INFLATION: f64 = 1.5;

/// Circuit under a standing vacuum test, and the unit of the page about it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct VacuumSetup {
    pub(super) refrigerant: Refrigerant,
    pub(super) volume: Option<Measured<Volume>>,
    pub(super) unit: PressureUnit,
}

/// A report on one standing vacuum test.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(deny_unknown_fields))]
pub struct HoldReport {
    /// Version of the JSON form, [`HOLD_SCHEMA`].
    #[cfg_attr(feature = "serde", serde(deserialize_with = "super::schema::hold"))]
    #[cfg_attr(feature = "schema", schemars(with = "String", extend("const" = HOLD_SCHEMA)))]
    pub schema: Text,
    /// Conclusion from the rise of the pressure.
    pub finding: VacuumFinding,
    /// Opening sentences: what was tested, and under what conditions.
    pub opening: Vec<String>,
    /// Figures of the fitted curve.
    pub figures: Vec<FigureRow>,
    /// Published acceptance limits, each with the outcome of the test.
    pub gates: Vec<AcceptanceRow>,
    /// Meaning of the conclusion, in sentences.
    pub meaning: Vec<String>,
    /// Sentences on what passing the test proves.
    pub proof: Vec<String>,
    /// Recommended next steps, in sentences.
    pub next: Vec<String>,
    /// Safety cautions.
    pub cautions: Vec<String>,
    /// Sources of the numbers.
    pub sources: Vec<String>,
}

/// A figure with its 95 % interval; an end that the readings leave open is `None`.
#[derive(Debug, Clone, PartialEq)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(deny_unknown_fields))]
pub struct FigureRow {
    /// Name of the figure.
    pub name: Text,
    /// Best value and both ends of the interval.
    pub interval: Interval<f64>,
    /// Unit of the figure.
    pub unit: Text,
    /// Number of decimals; if negative, that many digits before the point are not worth writing.
    pub decimals: i8,
    /// Whether the figure has no interval, as opposed to one with open ends.
    pub alone: bool,
}

/// One acceptance limit, with the outcome of the test.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(deny_unknown_fields))]
pub struct AcceptanceRow {
    /// Short name of the limit.
    pub gate: Text,
    /// Outcome of the test against the limit.
    pub outcome: AcceptanceOutcome,
    /// Figure that was compared with the limit; `None` if the test is too short.
    #[cfg_attr(feature = "serde", serde(default, skip_serializing_if = "Option::is_none"))]
    pub seen: Option<FigureRow>,
    /// Time over which the test was judged.
    pub over: Amount,
    /// Source of the limit.
    pub source: String,
}

/// Report on the standing vacuum test of `fit`, with pressures in `unit`.
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
    let words = |statements: Vec<HoldStatement>| statements.iter().map(en::hold::statement).collect();
    Ok(HoldReport {
        schema: HOLD_SCHEMA.into(),
        finding: fit.finding,
        opening: en::hold::opening(fit, air, setup),
        figures: figures(fit, setup)?,
        gates: judged.iter().map(|judged| acceptance_row(judged, unit)).collect(),
        meaning: words(meaning(fit, setup)?),
        proof: words(proof(fit, &judged, setup)?),
        next: next(fit).into_iter().map(|step| en::hold::next(step).to_owned()).collect(),
        cautions: en::hold::cautions(),
        sources: sources(fit),
    })
}

/// A statement about a standing vacuum test.
pub(super) enum HoldStatement {
    /// Conclusion from the rise of the pressure.
    Finding(VacuumFinding),
    /// Final pressure of a levelling rise, compared with the saturation pressure of water.
    BesideWater(BesideWater),
    /// The fastest leak that the readings leave possible.
    LeakAtMost {
        /// As a rise.
        rate: FigureRow,
        /// As a flow, if the volume is known.
        flow: Option<GasFlow>,
        /// Whether it would hide beside a levelling rise.
        beside: bool,
    },
    /// The readings are autocorrelated.
    VarianceInflation(f64),
    /// The volume of the circuit is not known.
    NoVolume,
    /// The slowest linear rise that the test could have shown.
    SmallestRise {
        /// As a rise.
        rate: FigureRow,
        /// As a flow, if the volume is known.
        flow: Option<GasFlow>,
    },
    /// The leak that passes an acceptance limit.
    LetsThrough {
        /// The limit's short name.
        limit: &'static str,
        /// Ratio of that leak to the one on the coarsest detector scale.
        times: f64,
        /// Leak on the coarsest detector scale.
        scale: MassRate,
    },
    /// No test of this kind proves that nothing leaks.
    NoProof,
}

/// A leak as a flow of gas, and the refrigerant that the same flow of gas would be.
pub(super) struct GasFlow {
    /// The flow.
    pub(super) throughput: Throughput,
    /// As much gas of the refrigerant.
    pub(super) lost: MassRate,
    /// The refrigerant.
    pub(super) refrigerant: Refrigerant,
}

/// What to do after a standing vacuum test.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum NextStep {
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

/// A figure of the fit.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum FitFigure {
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

impl FigureRow {
    pub(super) fn new(name: &'static str, interval: Interval<f64>, unit: &'static str) -> Self {
        let decimals = decimals(&interval);
        Self { name: name.into(), interval: interval.map(nine_digits), unit: unit.into(), decimals, alone: false }
    }
    /// Without an interval.
    pub(super) fn alone(name: &'static str, value: f64, unit: &'static str) -> Self {
        Self { alone: true, ..Self::new(name, Interval { value: Some(value), low: None, high: None }, unit) }
    }
    pub(super) fn number(&self, value: f64) -> String {
        let text = match usize::try_from(self.decimals) {
            Ok(decimals) => format!("{value:.decimals$}"),
            Err(_) => {
                let worth = 10f64.powi(-i32::from(self.decimals));
                format!("{:.0}", (value / worth).round() * worth)
            }
        };
        // -0.0 after rounding reads as a misprint
        if text.trim_start_matches('-').chars().all(|c| c == '0' || c == '.') {
            text.trim_start_matches('-').to_owned()
        } else {
            text
        }
    }
    pub(super) fn best(&self) -> String {
        self.interval
            .value
            .map_or("open".to_owned(), |value| format!("{} {}", self.number(value), self.unit).trim_end().to_owned())
    }
    pub(super) fn span(&self) -> String {
        let end = |end: Option<f64>| end.map(|value| self.number(value));
        match (end(self.interval.low), end(self.interval.high)) {
            (Some(low), Some(high)) => format!("{low} to {high} {}", self.unit).trim_end().to_owned(),
            (Some(low), None) => format!("{low} {} or more", self.unit),
            (None, Some(high)) => format!("{high} {} or less", self.unit),
            (None, None) if self.alone => String::new(),
            (None, None) => "open".to_owned(),
        }
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

fn rate_row(figure: FitFigure, rate: &Interval<PressureRate>, unit: PressureUnit) -> FigureRow {
    let (factor, symbol) = per_minute(unit);
    FigureRow::new(en::hold::figure(figure), rate.map(|rate| rate.pa_per_s() / factor), symbol)
}

fn figures(fit: &StandingVacuumFit, setup: &VacuumSetup) -> Result<Vec<FigureRow>, Error> {
    let unit = setup.unit;
    let name = en::hold::figure;
    let mut rows = vec![rate_row(FitFigure::StraightRise, &fit.rate, unit)];
    if let (Some(end), Some(time_constant)) = (fit.levels_at(), fit.time_constant()) {
        rows.push(FigureRow::new(name(FitFigure::FinalPressure), end.map(|p| p.value_in(unit)), unit.symbol()));
        rows.push(FigureRow::new(name(FitFigure::TimeConstant), time_constant.map(|t| t.minutes()), "min"));
    }
    if let (VacuumFinding::Moisture | VacuumFinding::LeakAndMoisture, Some(beside)) = (fit.finding, &fit.beside) {
        rows.push(rate_row(FitFigure::StraightRiseBeside, beside, unit));
    }
    // what does not move has no curvature
    if fit.finding != VacuumFinding::NoRise {
        rows.push(FigureRow::new(name(FitFigure::Bend), fit.bend, ""));
    }
    let (factor, symbol) = per_minute(unit);
    if let Some(seen) = fit.smallest_seen {
        rows.push(FigureRow::alone(name(FitFigure::SmallestRise), seen.pa_per_s() / factor, symbol));
    }
    rows.push(FigureRow::alone(name(FitFigure::Scatter), fit.scatter.value_in(unit), unit.symbol()));
    let leaks = matches!(fit.finding, VacuumFinding::Leak | VacuumFinding::LeakAndMoisture);
    if let (true, Some(rate), Some(volume)) = (leaks, fit.leak_rate(), &setup.volume) {
        let flow = throughput(&rate, volume)?;
        rows.push(FigureRow::new(name(FitFigure::Throughput), flow.map(|q| q.pa_l_per_s()), "Pa L/s"));
        let t = fit.temperature.unwrap_or(ROOM);
        // one flow and its refrigerant are in proportion
        let grams = refrigerant_in(Throughput::from_si(1.0), setup.refrigerant, t)?.g_per_year();
        rows.push(FigureRow::new(name(FitFigure::Refrigerant), flow.map(|q| q.si() * grams), "g/yr"));
    }
    Ok(rows)
}

fn acceptance_row(judged: &AcceptanceResult, unit: PressureUnit) -> AcceptanceRow {
    let name = en::hold::observed(&judged.limit.value.criterion);
    let seen = judged.seen.map(|seen| FigureRow::new(name, seen.map(|p| p.value_in(unit)), unit.symbol()));
    AcceptanceRow {
        gate: judged.limit.value.name.into(),
        outcome: judged.outcome,
        seen,
        over: Amount::new(judged.over.minutes(), None, "min", 1),
        source: judged.limit.source.to_string(),
    }
}

/// Two digits.
pub(super) fn digits(value: f64) -> String {
    if value == 0.0 || !value.is_finite() {
        return format!("{value}");
    }
    let place = value.abs().log10().floor() as i32 - 1;
    let scale = 10f64.powi(place);
    format!("{:.*}", usize::try_from(-place).unwrap_or(0), (value / scale).round() * scale)
}

/// A rise as a flow of gas; `None` without the volume of the circuit.
fn gas_flow(rate: PressureRate, setup: &VacuumSetup, fit: &StandingVacuumFit) -> Result<Option<GasFlow>, Error> {
    let Some(volume) = &setup.volume else { return Ok(None) };
    let rate = Interval { value: Some(rate), low: Some(rate), high: Some(rate) };
    let Some(throughput) = throughput(&rate, volume)?.high else { return Ok(None) };
    let lost = refrigerant_in(throughput, setup.refrigerant, fit.temperature.unwrap_or(ROOM))?;
    Ok(Some(GasFlow { throughput, lost, refrigerant: setup.refrigerant }))
}

fn meaning(fit: &StandingVacuumFit, setup: &VacuumSetup) -> Result<Vec<HoldStatement>, Error> {
    let mut statements = vec![HoldStatement::Finding(fit.finding)];
    statements.extend(fit.beside_water().map(HoldStatement::BesideWater));
    let (factor, symbol) = per_minute(setup.unit);
    if let Some(most) = fit.leak_at_most().filter(|most| most.si() > 0.0) {
        statements.push(HoldStatement::LeakAtMost {
            rate: FigureRow::alone("", most.pa_per_s() / factor, symbol),
            flow: gas_flow(most, setup, fit)?,
            beside: fit.finding == VacuumFinding::Moisture,
        });
    }
    if fit.variance_inflation > NOTICEABLE_VARIANCE_INFLATION {
        statements.push(HoldStatement::VarianceInflation(fit.variance_inflation));
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
            rate: FigureRow::alone("", smallest.pa_per_s() / factor, symbol),
            flow: gas_flow(smallest, setup, fit)?,
        });
    }
    let [.., scale] = DETECTOR_SCALES.value;
    if let Some(volume) = &setup.volume {
        let t = fit.temperature.unwrap_or(ROOM);
        for judged in judged.iter().filter(|judged| judged.outcome == AcceptanceOutcome::Passes) {
            let limit = judged.limit.value;
            let times = limit.times_a_service_leak(volume, setup.refrigerant, t)?;
            statements.push(HoldStatement::LetsThrough { limit: limit.name, times, scale });
        }
    }
    statements.push(HoldStatement::NoProof);
    Ok(statements)
}

fn next(fit: &StandingVacuumFit) -> Vec<NextStep> {
    let mut next = match fit.finding {
        VacuumFinding::NoRise => vec![NextStep::CheckWithCharge],
        VacuumFinding::Falling => vec![NextStep::StartAgain],
        VacuumFinding::Leak | VacuumFinding::OpenToAir => {
            vec![NextStep::HoldHosesAlone, NextStep::FindUnderPressure]
        }
        VacuumFinding::Moisture => vec![NextStep::EvacuateAgain, NextStep::NewDrier],
        VacuumFinding::LeakAndMoisture => vec![NextStep::RepairThenDry],
        VacuumFinding::SpeedsUp => vec![NextStep::RepeatWithTemperature],
        VacuumFinding::CannotTell => vec![NextStep::HoldLonger],
    };
    if fit.temperature.is_none() {
        next.push(NextStep::ReadTemperature);
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
