//! The page about a standing vacuum test: what the rise says, the published acceptance limits, and what passing them proves.

use super::amount::nine_digits;
use super::page::Page;
use super::words::HoldWords;
use super::{Amount, Language, Text};
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

/// Report on the standing vacuum test of `fit`, with pressures in `unit`; its sentences are English.
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
    worded(fit, air, &VacuumSetup { refrigerant, volume, unit }, Language::English)
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
    let report = worded(fit, air, &VacuumSetup { refrigerant, volume, unit }, language)?;
    Ok(super::hold_page::laid_out(&report, language))
}

/// The report on a test in the sentences of `language`.
fn worded(
    fit: &StandingVacuumFit,
    air: &Measured<Pressure>,
    setup: &VacuumSetup,
    language: Language,
) -> Result<HoldReport, Error> {
    let words = language.hold_words();
    let judged =
        ACCEPTANCE_LIMITS.iter().map(|limit| AcceptanceLimit::judge(limit, fit)).collect::<Result<Vec<_>, _>>()?;
    let said = |statements: Vec<HoldStatement>| statements.iter().map(|one| words.statement(one)).collect();
    Ok(HoldReport {
        schema: HOLD_SCHEMA.into(),
        finding: fit.finding,
        opening: words.opening(fit, air, setup),
        figures: figures(fit, setup, words)?,
        gates: judged.iter().map(|judged| acceptance_row(judged, setup.unit, words)).collect(),
        meaning: said(meaning(fit, setup)?),
        proof: said(proof(fit, &judged, setup)?),
        next: next(fit).into_iter().map(|step| words.next(step).to_owned()).collect(),
        cautions: words.cautions(),
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
        /// The limit.
        limit: AcceptanceLimit,
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

fn rate_row(name: &'static str, rate: &Interval<PressureRate>, unit: PressureUnit) -> FigureRow {
    let (factor, symbol) = per_minute(unit);
    FigureRow::new(name, rate.map(|rate| rate.pa_per_s() / factor), symbol)
}

fn figures(fit: &StandingVacuumFit, setup: &VacuumSetup, words: &dyn HoldWords) -> Result<Vec<FigureRow>, Error> {
    let unit = setup.unit;
    let name = |figure| words.figure(figure);
    let mut rows = vec![rate_row(name(FitFigure::StraightRise), &fit.rate, unit)];
    if let (Some(end), Some(time_constant)) = (fit.levels_at(), fit.time_constant()) {
        rows.push(FigureRow::new(name(FitFigure::FinalPressure), end.map(|p| p.value_in(unit)), unit.symbol()));
        rows.push(FigureRow::new(name(FitFigure::TimeConstant), time_constant.map(|t| t.minutes()), "min"));
    }
    if let (VacuumFinding::Moisture | VacuumFinding::LeakAndMoisture, Some(beside)) = (fit.finding, &fit.beside) {
        rows.push(rate_row(name(FitFigure::StraightRiseBeside), beside, unit));
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
        rows.push(FigureRow::new(name(FitFigure::Refrigerant), flow.map(|q| q.si() * grams), words.grams_a_year()));
    }
    Ok(rows)
}

fn acceptance_row(judged: &AcceptanceResult, unit: PressureUnit, words: &dyn HoldWords) -> AcceptanceRow {
    let name = words.observed(&judged.limit.value.criterion);
    let seen = judged.seen.map(|seen| FigureRow::new(name, seen.map(|p| p.value_in(unit)), unit.symbol()));
    AcceptanceRow {
        gate: words.limit(&judged.limit.value).into(),
        outcome: judged.outcome,
        seen,
        over: Amount::new(judged.over.minutes(), None, "min", 1),
        source: judged.limit.source.to_string(),
    }
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
            statements.push(HoldStatement::LetsThrough { limit, times, scale });
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

#[cfg(test)]
pub(super) mod tests {
    use approx::{abs_diff_eq, assert_abs_diff_eq};

    use super::*;
    use crate::quantity::Time;
    use crate::report::words::en::{English, NUMERALS};
    use crate::service::standing_vacuum::StandingVacuumTest;
    use crate::{PressureDifference, Ratio};

    const WORDS: &dyn HoldWords = &English;
    const MICRON: PressureUnit = PressureUnit::Micron;

    fn air() -> Measured<Pressure> {
        Measured::exact(Pressure::STANDARD_ATMOSPHERE).unwrap()
    }

    /// The fit of a rise, read every half minute in whole tens of microns.
    fn fitted(minutes: f64, celsius: Option<f64>, microns: impl Fn(f64) -> f64) -> StandingVacuumFit {
        let mut test = StandingVacuumTest::new(air(), PressureDifference::from_microns(10.0)).unwrap();
        for step in 0..=(2.0 * minutes) as u32 {
            let minute = 0.5 * f64::from(step);
            let read = Pressure::from_microns((microns(minute) / 10.0).round() * 10.0);
            test.push(Time::from_minutes(minute), read, celsius.map(Temperature::from_celsius)).unwrap();
        }
        test.with_gauge_limit(Ratio::from_percent(1.0)).unwrap().fit().unwrap()
    }

    pub(in crate::report) fn leak() -> StandingVacuumFit {
        fitted(7.0, None, |minute| 500.0 + 117.0 * minute)
    }

    fn moisture() -> StandingVacuumFit {
        fitted(15.0, Some(20.0), |minute| 2000.0 - 1500.0 * (-minute / 3.0).exp())
    }

    fn setup(litres: Option<f64>) -> VacuumSetup {
        let volume = litres.map(|litres| Measured::exact(Volume::from_l(litres)).unwrap());
        VacuumSetup { volume, refrigerant: Refrigerant::R134a, unit: MICRON }
    }

    fn row(value: f64, low: f64, high: f64) -> FigureRow {
        FigureRow::new("", Interval { value: Some(value), low: Some(low), high: Some(high) }, "u")
    }

    #[test]
    fn a_figure_has_the_digits_that_its_interval_is_worth() {
        for (row, best, span) in [
            (row(120.0, 113.0, 128.0), "120.0 u", "113.0 to 128.0 u"),
            (row(1234.0, 1000.0, 2000.0), "1230 u", "1000 to 2000 u"),
            // an interval of no width is worth what a number alone is
            (row(5.0, 5.0, 5.0), "5.00 u", "5.00 to 5.00 u"),
            (FigureRow::alone("", 0.0, "u"), "0.0 u", ""),
            (FigureRow::alone("", 0.037, "u"), "0.0370 u", ""),
            // what rounds to zero has no sign
            (row(-0.3, -10.0, 10.0), "0 u", "-10 to 10 u"),
            (row(-0.03, -1.0, 1.0), "0.0 u", "-1.0 to 1.0 u"),
            (row(-12.0, -30.0, 30.0), "-12 u", "-30 to 30 u"),
        ] {
            assert_eq!((NUMERALS.best(&row).as_str(), NUMERALS.interval(&row).as_str()), (best, span));
        }
        let open = |low, high| FigureRow::new("", Interval { value: None, low, high }, "u");
        assert_eq!(NUMERALS.best(&open(None, None)), "open");
        assert_eq!(NUMERALS.interval(&open(Some(3.0), None)), "3.0 u or more");
        assert_eq!(NUMERALS.interval(&open(None, Some(3.0))), "3.0 u or less");
        assert_eq!(NUMERALS.interval(&open(None, None)), "open");
        let bare = FigureRow { unit: "".into(), ..row(5.0, 4.0, 6.0) };
        assert_eq!((NUMERALS.best(&bare), NUMERALS.interval(&bare)), ("5.0".to_owned(), "4.0 to 6.0".to_owned()));
        for (value, text) in [(1234.0, "1200"), (5.62, "5.6"), (0.01234, "0.012"), (-98.6, "-99"), (0.0, "0")] {
            assert_eq!(NUMERALS.digits(value), text);
        }
        assert_eq!((NUMERALS.digits(f64::INFINITY), NUMERALS.digits(f64::NAN)), ("inf".to_owned(), "NaN".to_owned()));
    }

    #[test]
    fn a_rate_is_written_in_the_unit_of_the_pressures() {
        for &unit in PressureUnit::ALL {
            let (factor, symbol) = per_minute(unit);
            let own = matches!(
                unit,
                PressureUnit::Micron
                    | PressureUnit::Torr
                    | PressureUnit::InchOfMercury
                    | PressureUnit::Hectopascal
                    | PressureUnit::Pascal
                    | PressureUnit::Psi
                    | PressureUnit::Bar
            );
            let written = if own { unit } else { PressureUnit::Kilopascal };
            assert_eq!(symbol, format!("{}/min", written.symbol()));
            // rounding
            assert!(abs_diff_eq!(60.0 * factor, written.factor(), epsilon = 1e-12 * written.factor()), "{symbol}");
        }
    }

    fn close(ours: Option<f64>, expected: f64) {
        let ours = ours.unwrap();
        // kept with nine digits
        assert_abs_diff_eq!(ours, expected, epsilon = 1e-8 * expected.abs());
    }

    fn changed(fit: &StandingVacuumFit, change: impl FnOnce(&mut StandingVacuumFit)) -> StandingVacuumFit {
        let mut fit = fit.clone();
        change(&mut fit);
        fit
    }

    /// Names of the figures that go with a finding.
    fn named(finding: VacuumFinding, fit: &StandingVacuumFit, litres: Option<f64>) -> Vec<String> {
        let fit = changed(fit, |fit| fit.finding = finding);
        figures(&fit, &setup(litres), WORDS).unwrap().iter().map(|row| row.name.to_string()).collect()
    }

    #[test]
    fn the_figures_are_those_that_the_finding_has() {
        let (leak, moisture) = (leak(), moisture());
        assert_eq!((leak.finding, moisture.finding), (VacuumFinding::Leak, VacuumFinding::Moisture));
        let figure = |of| WORDS.figure(of).to_owned();
        let rows = figures(&leak, &setup(Some(2.5)), WORDS).unwrap();
        let find = |of: FitFigure| rows.iter().find(|row| row.name == figure(of));
        let rate = find(FitFigure::StraightRise).unwrap();
        close(rate.interval.value, leak.rate.value.unwrap().microns_per_minute());
        // what the log was made with, in steps of 10 micron
        assert_abs_diff_eq!(rate.interval.value.unwrap(), 117.0, epsilon = 2.0);
        assert!(rate.unit == "micron/min");
        let smallest = find(FitFigure::SmallestRise).unwrap();
        close(smallest.interval.value, leak.smallest_seen.unwrap().microns_per_minute());
        let scatter = find(FitFigure::Scatter).unwrap();
        close(scatter.interval.value, leak.scatter.value_in(MICRON));
        assert!(scatter.alone && smallest.alone && !rate.alone);
        let flow = find(FitFigure::Throughput).unwrap().interval.value;
        close(flow, 2.5 * leak.rate.value.unwrap().pa_per_s());
        let lost = refrigerant_in(Throughput::from_pa_l_per_s(flow.unwrap()), Refrigerant::R134a, ROOM).unwrap();
        close(find(FitFigure::Refrigerant).unwrap().interval.value, lost.g_per_year());

        use FitFigure::{Bend, Refrigerant as OfRefrigerant, StraightRiseBeside};
        let has = |names: &[String], of| names.contains(&figure(of));
        let none = named(VacuumFinding::NoRise, &leak, Some(2.5));
        assert!(!has(&none, Bend) && !has(&none, FitFigure::Throughput), "{none:?}");
        let one = named(VacuumFinding::Leak, &leak, None);
        assert!(has(&one, Bend) && !has(&one, FitFigure::Throughput) && !has(&one, OfRefrigerant), "{one:?}");
        let wet = named(VacuumFinding::Moisture, &moisture, Some(2.5));
        assert!(
            has(&wet, FitFigure::FinalPressure) && has(&wet, FitFigure::TimeConstant) && has(&wet, StraightRiseBeside)
        );
        assert!(!has(&wet, FitFigure::Throughput));
        let both = named(VacuumFinding::LeakAndMoisture, &moisture, Some(2.5));
        assert!(has(&both, StraightRiseBeside) && has(&both, FitFigure::Throughput) && has(&both, OfRefrigerant));
        assert!(!has(&named(VacuumFinding::CannotTell, &moisture, None), StraightRiseBeside));
        let end = figures(&moisture, &setup(None), WORDS)
            .unwrap()
            .into_iter()
            .find(|row| row.name == figure(FitFigure::FinalPressure));
        close(end.unwrap().interval.value, moisture.levels_at().unwrap().value.unwrap().microns());
    }

    #[test]
    fn a_limit_is_stated_with_what_was_seen() {
        let rows: Vec<AcceptanceRow> = ACCEPTANCE_LIMITS
            .iter()
            .map(|limit| acceptance_row(&AcceptanceLimit::judge(limit, &leak()).unwrap(), MICRON, WORDS))
            .collect();
        for (row, limit) in rows.iter().zip(&ACCEPTANCE_LIMITS) {
            assert_eq!((&*row.gate, row.source.clone()), (limit.value.name, limit.source.to_string()));
        }
        let [rise, _, level] = &rows[..] else { panic!("{rows:?}") };
        assert_eq!((rise.outcome, level.outcome), (AcceptanceOutcome::Passes, AcceptanceOutcome::Fails));
        let (of_rise, of_level) = (rise.seen.as_ref().unwrap(), level.seen.as_ref().unwrap());
        assert_eq!((&*of_rise.name, &*of_level.name, &*of_rise.unit), ("rise", "pressure", "micron"));
        // 117 micron for five minutes, to a hundredth: our choice
        assert!(abs_diff_eq!(of_rise.interval.value.unwrap(), 585.0, epsilon = 6.0), "{of_rise:?}");
        assert_eq!((rise.over.to_string(), level.over.to_string()), ("5.0 min".to_owned(), "7.0 min".to_owned()));
        let short = fitted(3.0, None, |minute| 500.0 + 117.0 * minute);
        let short = acceptance_row(&AcceptanceLimit::judge(&ACCEPTANCE_LIMITS[1], &short).unwrap(), MICRON, WORDS);
        assert_eq!((short.outcome, short.seen, short.over.value), (AcceptanceOutcome::TooShort, None, 3.0));
    }

    #[test]
    fn what_a_rise_means_depends_on_fit_and_volume() {
        use HoldStatement::{BesideWater as Water, Finding, LeakAtMost, NoVolume, VarianceInflation};
        let said = |fit: &StandingVacuumFit, litres| meaning(fit, &setup(litres)).unwrap();
        let plain = changed(&leak(), |fit| fit.variance_inflation = 1.5);
        let [Finding(VacuumFinding::Leak), LeakAtMost { rate, flow: Some(flow), beside: false }] =
            &said(&plain, Some(2.5))[..]
        else {
            panic!("a leak is not told as one")
        };
        let most = plain.rate.high.unwrap();
        close(rate.interval.value, most.microns_per_minute());
        close(Some(flow.throughput.pa_l_per_s()), 2.5 * most.pa_per_s());
        assert_eq!(flow.refrigerant, Refrigerant::R134a);
        let correlated = changed(&plain, |fit| fit.variance_inflation = 1.51);
        let words = said(&correlated, None);
        assert!(matches!(&words[..], [Finding(_), LeakAtMost { flow: None, .. }, VarianceInflation(1.51), NoVolume]));
        let still = changed(&plain, |fit| fit.rate.high = Some(PressureRate::from_pa_per_s(0.0)));
        assert!(matches!(said(&still, Some(2.5))[..], [Finding(_)]));
        let wet = changed(&moisture(), |fit| fit.variance_inflation = 1.0);
        let words = said(&wet, Some(2.5));
        assert!(matches!(words[..2], [Finding(VacuumFinding::Moisture), Water(BesideWater::Below)]));
        assert!(words[2..].iter().all(|word| matches!(word, LeakAtMost { beside: true, .. })));
        assert!(!matches!(words[1], NoVolume));
    }

    #[test]
    fn passing_proves_no_more_than_the_limits_that_were_kept() {
        use HoldStatement::{LetsThrough, NoProof, SmallestRise};
        let proven = |fit: &StandingVacuumFit, litres| {
            let judged: Vec<_> =
                ACCEPTANCE_LIMITS.iter().map(|limit| AcceptanceLimit::judge(limit, fit).unwrap()).collect();
            proof(fit, &judged, &setup(litres)).unwrap()
        };
        let leak = leak();
        let words = proven(&leak, Some(2.5));
        let [SmallestRise { rate, flow: Some(_) }, LetsThrough { limit, times, scale }, LetsThrough { .. }, NoProof] =
            &words[..]
        else {
            panic!("two limits were kept")
        };
        close(rate.interval.value, leak.smallest_seen.unwrap().microns_per_minute());
        assert_eq!((limit.name, scale.g_per_year().round()), (ACCEPTANCE_LIMITS[0].value.name, 14.0));
        assert!(*times > 2000.0, "{times}");
        assert!(matches!(proven(&leak, None)[..], [SmallestRise { flow: None, .. }, NoProof]));
        assert!(matches!(proven(&moisture(), None)[..], [NoProof]));
    }

    #[test]
    fn each_finding_has_its_next_steps_and_its_sources() {
        use NextStep::{
            CheckWithCharge, EvacuateAgain, FindUnderPressure, HoldHosesAlone, HoldLonger, NewDrier, ReadTemperature,
            RepairThenDry, RepeatWithTemperature, StartAgain,
        };
        let base = moisture();
        for (finding, steps) in [
            (VacuumFinding::NoRise, &[CheckWithCharge][..]),
            (VacuumFinding::Falling, &[StartAgain]),
            (VacuumFinding::Leak, &[HoldHosesAlone, FindUnderPressure]),
            (VacuumFinding::OpenToAir, &[HoldHosesAlone, FindUnderPressure]),
            (VacuumFinding::Moisture, &[EvacuateAgain, NewDrier]),
            (VacuumFinding::LeakAndMoisture, &[RepairThenDry]),
            (VacuumFinding::SpeedsUp, &[RepeatWithTemperature]),
            (VacuumFinding::CannotTell, &[HoldLonger]),
        ] {
            let fit = changed(&base, |fit| fit.finding = finding);
            assert_eq!(next(&fit), steps);
            let blind = changed(&fit, |fit| fit.temperature = None);
            assert_eq!(next(&blind), [steps, &[ReadTemperature]].concat());
            let sources = sources(&fit);
            let water = matches!(finding, VacuumFinding::Moisture | VacuumFinding::LeakAndMoisture);
            let chokes = finding == VacuumFinding::OpenToAir;
            assert_eq!(sources.contains(&air::water::LIQUID.to_string()), water, "{finding:?}");
            assert_eq!(sources.contains(&CHOKED.source.to_string()), chokes, "{finding:?}");
            assert!(ACCEPTANCE_LIMITS.iter().all(|limit| sources.contains(&limit.source.to_string())));
            assert!(sources.contains(&DETECTOR_SCALES.source.to_string()));
            assert_eq!(sources.len(), 4 + usize::from(water) + usize::from(chokes), "{sources:?}");
        }
    }

    #[test]
    fn the_report_on_a_test_has_all_of_it() {
        let volume = |litres| Some(Measured::exact(Volume::from_l(litres)).unwrap());
        let report = hold(&leak(), &air(), Refrigerant::R134a, volume(2.5), MICRON).unwrap();
        assert_eq!((&*report.schema, report.finding), (HOLD_SCHEMA, VacuumFinding::Leak));
        let lengths =
            [&report.opening, &report.meaning, &report.proof, &report.next, &report.cautions, &report.sources];
        assert_eq!(lengths.map(Vec::len)[..1], [2]);
        assert!(lengths.iter().all(|texts| !texts.is_empty() && texts.iter().all(|text| !text.is_empty())));
        assert_eq!((report.gates.len(), report.figures.len()), (3, 8));
        assert!(hold(&leak(), &air(), Refrigerant::R134a, volume(0.0), MICRON).is_err());
    }
}
