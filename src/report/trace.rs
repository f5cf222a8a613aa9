//! The report on a log, finding by finding.

use super::amount::nine_digits;
use super::hold::{FigureRow, per_minute};
use super::page::{Block, Cell, Page, Table};
use super::{Language, Text, text};
use crate::inspection::{DisplayUnits, Instruments};
use crate::quantity::{PressureUnit, TemperatureUnit, Time, Unit};
use crate::service::Interval;
use crate::trace::{Cycling, CyclingQuality, Drift, MIN_STEADY_PERIOD, SteadyKind, SteadyPeriod, TraceFinding, Trend};
use crate::{Error, GaugePressure, Quantity, Ratio, Refrigerant, Temperature};

/// Version of the JSON form of a [`TraceRow`]; it changes whenever a field changes its name or meaning.
pub const TRACE_SCHEMA: &str = "satline-trace-3";

/// Kind of finding that a [`TraceRow`] states.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(rename_all = "kebab-case"))]
#[non_exhaustive]
pub enum TraceKind {
    /// Steady period: neither side moves.
    Steady,
    /// Steady period in which at least one side drifts.
    Drifting,
    /// Equalised period: both sides agree, above the pressure of the air.
    Equalised,
    /// Evacuated circuit: both sides agree, below the pressure of the air.
    EqualisedVacuum,
    /// Period in which something switches faster than the readings resolve.
    FastSwitching,
    /// Clutch cycling.
    Cycling,
    /// Transient: pressures change.
    Transient,
    /// Gap: no readings for a while.
    Gap,
    /// Clock reset: times jump back.
    ClockReset,
}

/// One finding of a log, with its figures.
#[derive(Debug, Clone, PartialEq)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(deny_unknown_fields))]
#[non_exhaustive]
pub struct TraceRow {
    /// Version of the JSON form, [`TRACE_SCHEMA`].
    #[cfg_attr(feature = "serde", serde(deserialize_with = "super::schema::trace"))]
    #[cfg_attr(feature = "schema", schemars(with = "String", extend("const" = TRACE_SCHEMA)))]
    pub schema: Text,
    /// Kind of the finding.
    pub finding: TraceKind,
    /// Start of the finding, in seconds of the log's own clock.
    pub from_s: f64,
    /// End of the finding, in seconds of the log's own clock.
    pub to_s: f64,
    /// Trend of each quantity of a steady period; otherwise empty.
    #[cfg_attr(feature = "serde", serde(default, skip_serializing_if = "Vec::is_empty"))]
    pub trends: Vec<TrendRow>,
    /// Period, duty cycle and pressures of cycling; both sides at start and end of a transient.
    #[cfg_attr(feature = "serde", serde(default, skip_serializing_if = "Vec::is_empty"))]
    pub figures: Vec<FigureRow<LogFigure>>,
    /// Number of readings (steady period), full cycles (cycling) or mirrored flanks (transient).
    pub count: u64,
    /// Start and end in seconds since the first reading.
    pub since_first_s: [f64; 2],
    /// How far the figures of cycling can be trusted; `None` for another finding.
    #[cfg_attr(feature = "serde", serde(default, skip_serializing_if = "Option::is_none"))]
    pub cycling: Option<CyclingRow>,
}

/// The trend of one quantity over a steady period.
#[derive(Debug, Clone, PartialEq)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(deny_unknown_fields))]
#[non_exhaustive]
pub struct TrendRow {
    /// Mean of the quantity.
    pub mean: FigureRow<LogQuantity>,
    /// Standard deviation of single readings.
    pub standard_deviation: FigureRow<LogQuantity>,
    /// Rate of change per minute.
    pub per_minute: FigureRow<LogQuantity>,
    /// Whether the quantity drifts: see [`crate::trace`].
    pub drifts: bool,
}

/// How far the figures of cycling can be trusted.
#[derive(Debug, Clone, PartialEq)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(deny_unknown_fields))]
#[non_exhaustive]
pub struct CyclingRow {
    /// Reliability of the figures.
    pub quality: CyclingQuality,
    /// Number of readings in a cycle.
    pub readings_per_cycle: f64,
    /// Standard deviation of the periods, s.
    pub period_deviation_s: f64,
}

/// A quantity of a log.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(rename_all = "kebab-case"))]
#[non_exhaustive]
pub enum LogQuantity {
    /// Low-side pressure.
    LowSide,
    /// High-side pressure.
    HighSide,
    /// Suction-line temperature.
    SuctionLine,
    /// Liquid-line temperature.
    LiquidLine,
    /// Centre-vent temperature.
    Vent,
    /// Ambient temperature.
    Ambient,
    /// Relative humidity.
    Humidity,
}

/// A figure of cycling or of a transient.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(rename_all = "kebab-case"))]
#[non_exhaustive]
pub enum LogFigure {
    /// Period of cycling.
    Period,
    /// Clutch duty cycle.
    ClutchDutyCycle,
    /// Low side at which the clutch opens.
    CutOut,
    /// Low side at which it closes.
    CutIn,
    /// Span over which the high side cycles.
    HighSideRange,
    /// Low side at the start of a transient.
    LowSideAtStart,
    /// Low side at its end.
    LowSideAtEnd,
    /// High side at the start of a transient.
    HighSideAtStart,
    /// High side at its end.
    HighSideAtEnd,
}

/// What is to be said about a finding; quantities are written out.
#[derive(Debug, Clone, PartialEq)]
pub(super) enum TraceMessage {
    Steady { kind: SteadyKind, drifts: Vec<(LogQuantity, Drift)>, readings: u64 },
    Cycling { cycles: u64, quality: CyclingQuality, readings_per_cycle: String, period_deviation: String },
    Transient { low: String, high: String, undecided: Option<u64> },
    Gap { length: String },
    ClockReset { back: String },
}

/// What the page about a log begins with; low side first.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct TraceOpening {
    pub(super) refrigerant: Refrigerant,
    /// Shortest steady period.
    pub(super) seconds: f64,
    /// Standard uncertainties of the gauges.
    pub(super) standard: [String; 2],
    /// Half widths of their 95 % intervals.
    pub(super) expanded: [String; 2],
}

/// Row about `finding` in `units`, with times counted from `start`; [`TraceRow::text_in`] writes it in a language.
pub fn trace_row(finding: &TraceFinding, start: Time, units: &DisplayUnits) -> TraceRow {
    Rows { start, units }.row(finding)
}

/// What [`trace_row`] says of `finding`, in `language`, as lines of text no longer than `width` columns (at least 40).
///
/// ```
/// use satline::inspection::DisplayUnits;
/// use satline::quantity::{PressureUnit, TemperatureUnit, Time};
/// use satline::report::{Language, trace_text};
/// use satline::trace::TraceFinding;
/// let at = Time::from_seconds;
/// let gap = TraceFinding::Gap { from: at(60.0), to: at(360.0) };
/// let units = DisplayUnits::new(PressureUnit::Bar, TemperatureUnit::Celsius);
/// let text = trace_text(&gap, at(0.0), &units, 80, Language::Spanish);
/// assert_eq!(text, "  0:01:00 a 0:06:00  sin lecturas durante 0:05:00\n");
/// ```
pub fn trace_text(
    finding: &TraceFinding,
    start: Time,
    units: &DisplayUnits,
    width: usize,
    language: Language,
) -> String {
    trace_row(finding, start, units).text_in(width, language)
}

/// Title and opening sentences of the page on a log in English, without its findings.
///
/// # Errors
/// [`Error::BeyondScale`] for a gauge whose scale does not include zero.
pub fn trace_opening(refrigerant: Refrigerant, instruments: &Instruments, units: &DisplayUnits) -> Result<Page, Error> {
    trace_opening_in(refrigerant, instruments, units, Language::English)
}

/// What [`trace_opening`] says, in `language`.
///
/// # Errors
/// As [`trace_opening`].
pub fn trace_opening_in(
    refrigerant: Refrigerant,
    instruments: &Instruments,
    units: &DisplayUnits,
    language: Language,
) -> Result<Page, Error> {
    let (words, n) = (language.trace_words(), language.words().numerals());
    let zero = GaugePressure::from_bar(0.0);
    let (low, high) = (instruments.low.read(zero)?, instruments.high.read(zero)?);
    let written = |si: f64, unit: PressureUnit| format!("{} {}", n.digits(si / unit.factor()), unit.symbol());
    let opening = TraceOpening {
        refrigerant,
        seconds: MIN_STEADY_PERIOD.value.seconds(),
        standard: [
            written(low.standard_uncertainty().pa(), units.low),
            written(high.standard_uncertainty().pa(), units.high),
        ],
        expanded: [written(low.expanded().pa(), units.low), written(high.expanded().pa(), units.high)],
    };
    let furniture = language.words().furniture();
    Ok(Page::with_header(words.title(&opening), words.opening(&opening), String::new(), furniture))
}

/// Hours, minutes and seconds.
fn clock(time: Time) -> String {
    let seconds = time.seconds().abs().round();
    let sign = if time.seconds() < -0.5 { "-" } else { "" };
    let (hours, rest) = ((seconds / 3600.0).floor(), seconds % 3600.0);
    format!("{sign}{hours:.0}:{:02.0}:{:02.0}", (rest / 60.0).floor(), rest % 60.0)
}

impl TraceRow {
    /// The finding as lines of text in English no longer than `width` columns (at least 40).
    pub fn text(&self, width: usize) -> String {
        self.text_in(width, Language::English)
    }

    /// The finding as lines of text in `language` no longer than `width` columns (at least 40).
    pub fn text_in(&self, width: usize, language: Language) -> String {
        let (words, n) = (language.trace_words(), language.words().numerals());
        let cells = |name: String, best: String, interval: String, scatter: String| -> [Cell; 4] {
            [name.into(), best.into(), interval.into(), scatter.into()]
        };
        let mut rows = Vec::new();
        for TrendRow { mean, standard_deviation, per_minute, drifts } in &self.trends {
            let scatter = format!("{} {}", words.scatter(), n.best(standard_deviation));
            rows.push(cells(format!("  {}", words.quantity(mean.quantity)), n.best(mean), n.interval(mean), scatter));
            if *drifts {
                let name = format!("    {}", words.drifts_by());
                rows.push(cells(name, n.best(per_minute), n.interval(per_minute), String::new()));
            }
        }
        // the sentence about a transient states its figures
        if self.finding == TraceKind::Cycling {
            rows.extend(self.figures.iter().map(|row| {
                cells(format!("  {}", words.figure(row.quantity)), n.best(row), n.interval(row), String::new())
            }));
        }
        let [from, to] = self.since_first_s.map(|seconds| clock(Time::from_seconds(seconds)));
        let sentence = words.message(&self.message(language));
        let sentence = Block::Words(format!("{}  {sentence}", words.range(&from, &to)));
        text::pieces(&[sentence, Block::Table(Table::new(["", "", "", ""], rows))], width)
    }

    /// What the sentence says, its quantities written out in `language`.
    fn message(&self, language: Language) -> TraceMessage {
        let (words, n) = (language.trace_words(), language.words().numerals());
        let steady = |kind| TraceMessage::Steady { kind, drifts: self.drifts(), readings: self.count };
        let apart = |from_s: f64, to_s: f64| clock(Time::from_seconds(to_s - from_s));
        match self.finding {
            TraceKind::Steady => steady(SteadyKind::Steady),
            TraceKind::Drifting => steady(SteadyKind::Drifting),
            TraceKind::Equalised => steady(SteadyKind::Equalised),
            TraceKind::EqualisedVacuum => steady(SteadyKind::EqualisedVacuum),
            TraceKind::FastSwitching => steady(SteadyKind::FastSwitching),
            TraceKind::Cycling => {
                let of = |figure: fn(&CyclingRow) -> f64| {
                    self.cycling.as_ref().map_or(n.open.to_owned(), |cycling| n.digits(figure(cycling)))
                };
                TraceMessage::Cycling {
                    cycles: self.count,
                    quality: self.cycling.as_ref().map_or(CyclingQuality::Regular, |cycling| cycling.quality),
                    readings_per_cycle: of(|cycling| cycling.readings_per_cycle),
                    period_deviation: of(|cycling| cycling.period_deviation_s),
                }
            }
            TraceKind::Transient => {
                let change = |from, to| {
                    let find = |figure| self.figures.iter().find(|row| row.quantity == figure);
                    let (from, to) = (find(from), find(to));
                    let unit = to.map_or("", |row| &*row.unit);
                    let decimals = gauge_decimals(unit);
                    let number = |row: Option<&FigureRow<_>>| {
                        let value = row.and_then(|row| row.interval.value);
                        value.map_or(n.open.to_owned(), |value| n.number(value, decimals))
                    };
                    words.range(&number(from), &format!("{} {unit}", number(to)))
                };
                TraceMessage::Transient {
                    low: change(LogFigure::LowSideAtStart, LogFigure::LowSideAtEnd),
                    high: change(LogFigure::HighSideAtStart, LogFigure::HighSideAtEnd),
                    undecided: (self.count > 1).then_some(self.count),
                }
            }
            TraceKind::Gap => TraceMessage::Gap { length: apart(self.from_s, self.to_s) },
            TraceKind::ClockReset => TraceMessage::ClockReset { back: apart(self.to_s, self.from_s) },
        }
    }

    /// The sides that drift, and which way; only of what is called drifting.
    fn drifts(&self) -> Vec<(LogQuantity, Drift)> {
        let of = |row: &TrendRow| {
            let rising = row.per_minute.interval.value.is_some_and(|change| change > 0.0);
            let side = matches!(row.mean.quantity, LogQuantity::LowSide | LogQuantity::HighSide);
            (side && row.drifts).then_some((row.mean.quantity, if rising { Drift::Rising } else { Drift::Falling }))
        };
        if self.finding == TraceKind::Drifting { self.trends.iter().filter_map(of).collect() } else { Vec::new() }
    }
}

/// Decimals of a gauge whose unit has this symbol.
fn gauge_decimals(symbol: &str) -> usize {
    let unit = PressureUnit::ALL.iter().find(|unit| unit.symbol() == symbol);
    unit.map_or(0, |unit| usize::from(unit.gauge_decimals()))
}

/// How findings become rows: the time they count from, and their units.
#[derive(Clone, Copy)]
struct Rows<'a> {
    start: Time,
    units: &'a DisplayUnits,
}

impl Rows<'_> {
    fn row(self, finding: &TraceFinding) -> TraceRow {
        match *finding {
            TraceFinding::Steady(ref period) => self.steady_row(period),
            TraceFinding::Cycling(ref cycling) => self.cycling_row(cycling),
            TraceFinding::Transient {
                from,
                to,
                mirrored_flanks,
                low_at_start,
                low_at_end,
                high_at_start,
                high_at_end,
            } => {
                let row = |figure, of: GaugePressure, unit: PressureUnit| {
                    FigureRow::alone(figure, of.value_in(unit), unit.symbol())
                };
                let figures = vec![
                    row(LogFigure::LowSideAtStart, low_at_start, self.units.low),
                    row(LogFigure::LowSideAtEnd, low_at_end, self.units.low),
                    row(LogFigure::HighSideAtStart, high_at_start, self.units.high),
                    row(LogFigure::HighSideAtEnd, high_at_end, self.units.high),
                ];
                TraceRow { figures, count: mirrored_flanks as u64, ..self.bare(TraceKind::Transient, from, to) }
            }
            TraceFinding::Gap { from, to } => self.bare(TraceKind::Gap, from, to),
            TraceFinding::ClockReset { from, to } => self.bare(TraceKind::ClockReset, from, to),
        }
    }

    fn bare(self, finding: TraceKind, from: Time, to: Time) -> TraceRow {
        TraceRow {
            schema: TRACE_SCHEMA.into(),
            finding,
            from_s: from.seconds(),
            to_s: to.seconds(),
            trends: Vec::new(),
            figures: Vec::new(),
            count: 0,
            since_first_s: [(from - self.start).seconds(), (to - self.start).seconds()],
            cycling: None,
        }
    }

    fn trend_row<Q: Quantity>(
        self,
        quantity: LogQuantity,
        trend: &Trend<Q>,
        (unit, rate): (&'static str, &'static str),
        of: impl Fn(Q) -> f64,
        step: impl Fn(Q::Difference) -> f64,
    ) -> TrendRow {
        TrendRow {
            mean: figure(quantity, &trend.mean, unit, of),
            standard_deviation: FigureRow::alone(quantity, step(trend.standard_deviation), unit),
            per_minute: figure(quantity, &trend.per_minute, rate, step),
            drifts: trend.drifts,
        }
    }

    fn side_row(self, quantity: LogQuantity, trend: &Trend<GaugePressure>, unit: PressureUnit) -> TrendRow {
        // a rate that has no unit of its own is written in kPa
        let (factor, rate) = per_minute(unit);
        let row =
            self.trend_row(quantity, trend, (unit.symbol(), rate), |p| p.value_in(unit), |step| step.value_in(unit));
        let per_minute = trend.per_minute.map(|step| step.si() / (60.0 * factor));
        TrendRow { per_minute: FigureRow::new(quantity, per_minute, rate), ..row }
    }

    fn temperature_row(self, quantity: LogQuantity, trend: &Trend<Temperature>) -> TrendRow {
        let unit = self.units.temperature;
        let rate = match unit {
            TemperatureUnit::Fahrenheit => "°F/min",
            _ => "K/min",
        };
        let step = |step: crate::TemperatureDifference| step.value_in(unit.step());
        self.trend_row(quantity, trend, (unit.symbol(), rate), |t| t.value_in(unit), step)
    }

    fn trend_rows(self, period: &SteadyPeriod) -> Vec<TrendRow> {
        let low = self.side_row(LogQuantity::LowSide, &period.low, self.units.low);
        let mut rows = vec![low, self.side_row(LogQuantity::HighSide, &period.high, self.units.high)];
        for (quantity, trend) in [
            (LogQuantity::SuctionLine, &period.suction_line),
            (LogQuantity::LiquidLine, &period.liquid_line),
            (LogQuantity::Vent, &period.vent),
            (LogQuantity::Ambient, &period.ambient),
        ] {
            rows.extend(trend.as_ref().map(|trend| self.temperature_row(quantity, trend)));
        }
        let humidity = period.humidity.as_ref();
        let units = ("%", "%/min");
        rows.extend(
            humidity.map(|trend| self.trend_row(LogQuantity::Humidity, trend, units, Ratio::percent, Ratio::percent)),
        );
        rows
    }

    fn steady_row(self, period: &SteadyPeriod) -> TraceRow {
        let finding = match period.kind {
            SteadyKind::Steady => TraceKind::Steady,
            SteadyKind::Drifting => TraceKind::Drifting,
            SteadyKind::Equalised => TraceKind::Equalised,
            SteadyKind::EqualisedVacuum => TraceKind::EqualisedVacuum,
            SteadyKind::FastSwitching => TraceKind::FastSwitching,
        };
        TraceRow {
            trends: self.trend_rows(period),
            count: period.readings,
            ..self.bare(finding, period.from, period.to)
        }
    }

    fn cycling_row(self, cycling: &Cycling) -> TraceRow {
        let units = self.units;
        let pressure = |of, interval: &Interval<GaugePressure>| {
            figure(of, interval, units.low.symbol(), |p| p.value_in(units.low))
        };
        let high_side_range = cycling.high_side_range.value_in(units.high);
        let figures = vec![
            figure(LogFigure::Period, &cycling.period, "s", Time::seconds),
            figure(LogFigure::ClutchDutyCycle, &cycling.clutch_duty_cycle, "%", Ratio::percent),
            pressure(LogFigure::CutOut, &cycling.cut_out),
            pressure(LogFigure::CutIn, &cycling.cut_in),
            FigureRow::alone(LogFigure::HighSideRange, high_side_range, units.high.symbol()),
        ];
        let trust = CyclingRow {
            quality: cycling.quality(),
            readings_per_cycle: nine_digits(cycling.readings_per_cycle),
            period_deviation_s: nine_digits(cycling.period_deviation.seconds()),
        };
        TraceRow {
            figures,
            count: cycling.cycles as u64,
            cycling: Some(trust),
            ..self.bare(TraceKind::Cycling, cycling.from, cycling.to)
        }
    }
}

/// An interval of a quantity as plain numbers.
fn figure<N, Q: Quantity>(
    quantity: N,
    interval: &Interval<Q>,
    unit: &'static str,
    of: impl Fn(Q) -> f64,
) -> FigureRow<N> {
    FigureRow::new(quantity, interval.map(of), unit)
}

#[cfg(test)]
pub(super) mod tests;
