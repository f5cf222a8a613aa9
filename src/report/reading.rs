//! The page about one reading.

use super::healthy::{agrees, discharge_line};
use super::words;
use super::{Amount, ChartCell, ChartRow, GaugeRow, Mark, Report, RestRow, ResultRow, Row, SCHEMA, Span, cautions};
use crate::circuit::{EFFICIENCY, ExpansionKind, SHORT_TUBE};
use crate::line::Saturation;
use crate::quantity::instrument::{BAROMETER_LIMIT, CLAMP_SOURCE, PressureGauge, Thermometer};
use crate::quantity::{PressureUnit, StepUnit, TemperatureUnit, Unit};
use crate::window::{
    Assessment, Authority, Basis, Book, Charted, Engine, Entry, Instruments, LineFinding, PartReading, Position,
    Quantiles, RestFinding, RestVerdict, SideFinding, carbon_dioxide,
};
use crate::{Entered, GaugePressure, Measured, PressureDifference, Quantity, Range, Source, Temperature, air};

/// The units of a page: those in which the reading was given.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Units {
    /// Low-side pressures.
    pub low: PressureUnit,
    /// High-side pressures.
    pub high: PressureUnit,
    /// Temperatures.
    pub temperature: TemperatureUnit,
}

/// Where the air pressure came from.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Air {
    /// A barometer.
    Barometer,
    /// The altitude as it was given, and the standard atmosphere.
    Altitude(crate::Entered<crate::Length>),
    /// Nothing was said: sea level.
    SeaLevel,
}

impl Units {
    /// The units of what was typed, psi where a vacuum was typed in inHg: temperatures as the ambient, else as the first temperature given, else °F beside psi
    /// and °C beside the rest. Pressures where no gauge was read: psi beside °F, bar beside the rest.
    pub fn of(entry: &Entry) -> Self {
        // a vacuum is read in inHg, a window is not
        let of = |unit| if unit == PressureUnit::InchOfMercury { PressureUnit::Psi } else { unit };
        let first = [entry.ambient, entry.suction_line, entry.liquid_line, entry.vent].into_iter().flatten().next();
        let unit = |gauge: Option<Entered<GaugePressure>>| gauge.map(|gauge| of(gauge.unit()));
        let (low, high) = (unit(entry.low), unit(entry.high));
        // a side that was not read is told in the unit of the other
        let either = low.or(high).unwrap_or(match first.map(|t| t.unit()) {
            Some(TemperatureUnit::Fahrenheit) => PressureUnit::Psi,
            _ => PressureUnit::Bar,
        });
        let (low, high) = (low.unwrap_or(either), high.unwrap_or(either));
        let habit = if low == PressureUnit::Psi { TemperatureUnit::Fahrenheit } else { TemperatureUnit::Celsius };
        Self { low, high, temperature: first.map_or(habit, |t| t.unit()) }
    }
}

impl Air {
    /// Where the air pressure of an entry came from.
    pub fn of(entry: &Entry) -> Self {
        match (entry.barometer, entry.altitude) {
            (Some(_), _) => Self::Barometer,
            (None, Some(altitude)) => Self::Altitude(altitude),
            (None, None) => Self::SeaLevel,
        }
    }
}

/// The page about `reading`, a [`Reading`](crate::window::Reading) or a part of one, with what follows from it.
///
/// `entry` gives the units and the questions; `assessment` is what [`PartReading::assess`] made of the reading and `book`. What was
/// not read has no row, and a gauge that was not read is named.
///
/// ```
/// use satline::window::{Book, Conditions, Engine, Entry, Instruments, Window};
/// use satline::{Refrigerant, report, circuit::{Settings, CircuitKind}};
/// let r = Refrigerant::R134a;
/// let (book, instruments) = (Book::new(r)?, Instruments::analogue(r));
/// // the high-side port is out of reach
/// let entry = Entry { low: Some("22 psi".parse()?), ambient: Some("86 °F".parse()?), ..Entry::default() };
/// let read = entry.part(r, Engine::Running, &instruments)?;
/// let day = read.day(Settings::TEST).unwrap();
/// let assessment = read.assess(&book)?.beside(Window::for_kinds(&CircuitKind::main(r)[..1], &day)?);
/// let page = report::reading(&entry, read, &assessment, &book, &instruments);
/// assert_eq!(page.healthy.as_ref().unwrap().rows.len(), 1);
/// assert!(page.brief().text(80).contains("The high side was not read"));
/// # Ok::<(), satline::Error>(())
/// ```
pub fn reading(
    entry: &Entry,
    reading: impl Into<PartReading>,
    assessment: &Assessment,
    book: &Book,
    instruments: &Instruments,
) -> Report {
    let reading = &reading.into();
    let units = Units::of(entry);
    let healthy = super::healthy::healthy(reading, assessment, &units);
    let mut meaning = healthy.as_ref().map_or(Vec::new(), super::healthy::meaning);
    meaning.extend(words::meaning(reading, assessment, book));
    let cars = assessment.healthy.as_ref();
    let mut charts = Vec::new();
    if let Some(low) = &assessment.low {
        chart_cells(
            &mut charts,
            &low.window,
            cars.map(|window| &window.low_side),
            low.gauge.value(),
            |row| &mut row.low,
            |r| pressure(r, units.low),
        );
    }
    if let Some(high) = &assessment.high {
        chart_cells(
            &mut charts,
            &high.window,
            cars.map(|window| &window.high_side),
            high.gauge.value(),
            |row| &mut row.high,
            |r| pressure(r, units.high),
        );
    }
    if let Some(vent) = reading.vent {
        chart_cells(
            &mut charts,
            &assessment.vent,
            cars.map(|window| &window.vent),
            vent.value(),
            |row| &mut row.vent,
            |r| temperature(r, units.temperature),
        );
    }
    Report {
        schema: SCHEMA.into(),
        refrigerant: reading.refrigerant.to_string(),
        engine: if reading.engine == Engine::Running { "running" } else { "at rest" }.into(),
        opening: opening(entry, reading, instruments),
        questions: entry.questions(book, Some(assessment)).iter().map(ToString::to_string).collect(),
        gauges: gauges(entry, assessment, &units, reading),
        results: results(reading, assessment, &units),
        rest: assessment.rest.as_ref().map(|rest| rest_row(rest, units.low)),
        charts,
        meaning,
        healthy,
        causes: None,
        next: words::next(reading, assessment),
        cautions: cautions(reading.refrigerant),
        sources: sources(entry, reading, assessment, instruments),
    }
}

fn opening(entry: &Entry, reading: &PartReading, instruments: &Instruments) -> Vec<String> {
    let state = if reading.engine == Engine::Running { "compressor running" } else { "at rest, engine off" };
    let blend = if reading.refrigerant.is_blend() {
        ", a blend: superheat and condensing from the dew line, subcooling from the bubble line"
    } else {
        ""
    };
    let mut opening = vec![format!("{}, {state}{blend}", reading.refrigerant)];
    let mut day = Vec::new();
    if let Some(ambient) = entry.ambient {
        day.push(format!("ambient {ambient}"));
    }
    if let Some(humidity) = entry.humidity {
        day.push(format!("humidity {humidity}"));
    }
    let kpa = reading.air.value().entered(PressureUnit::Kilopascal, 1);
    let half = reading.air.expanded().entered(PressureUnit::Kilopascal, 1);
    day.push(match Air::of(entry) {
        Air::Barometer => format!("air pressure {kpa} by barometer"),
        Air::Altitude(altitude) => format!("air pressure {kpa} (standard atmosphere at {altitude}, weather ± {half})"),
        Air::SeaLevel => format!("air pressure {kpa} (no altitude given: sea level, weather ± {half})"),
    });
    let mut day = day.join(", ");
    if let Some(first) = day.get_mut(0..1) {
        first.make_ascii_uppercase();
    }
    opening.push(format!("{day}."));
    let gauge = |gauge: &PressureGauge| {
        let percent = gauge.limit.percent();
        format!("{} {:.0} to {:.0} bar within {percent} %", gauge.name, gauge.scale.low.bar(), gauge.scale.high.bar())
    };
    let mut tools = Vec::new();
    tools.extend(reading.low.map(|_| gauge(&instruments.low)));
    tools.extend(reading.high.map(|_| gauge(&instruments.high)));
    let thermometer = |t: &Thermometer| format!("{} within {} K", t.name, t.limit.kelvins());
    if on_lines(reading) {
        tools.push(thermometer(&instruments.line));
    }
    if reading.ambient.is_some() || reading.vent.is_some() {
        tools.push(thermometer(&instruments.air));
    }
    opening.extend(words::not_read(reading.low.is_none(), reading.high.is_none()).map(str::to_owned));
    opening.push(format!("± is the 95 % interval of the instruments: {}.", tools.join(", ")));
    opening
}

/// Whether a thermometer was clamped on a line that has a row.
fn on_lines(reading: &PartReading) -> bool {
    [reading.suction_line, reading.liquid_line, discharge_line(reading)].iter().any(Option::is_some)
}

fn gauge_row(
    name: &'static str,
    side: &SideFinding,
    unit: PressureUnit,
    units: &Units,
    reading: &PartReading,
) -> GaugeRow {
    let at = |pick: fn(&Saturation) -> Measured<Temperature>| {
        side.saturation.as_ref().map(pick).map(|t| with_interval_t(&t, units.temperature))
    };
    GaugeRow {
        name: name.into(),
        gauge: with_interval_p(&side.gauge, unit),
        absolute: Amount::new(
            side.absolute.value().value_in(unit),
            Some(side.absolute.expanded().value_in(unit)),
            unit.symbol(),
            unit.gauge_decimals(),
        ),
        saturation: at(|saturation| saturation.dew),
        bubble: if reading.refrigerant.is_blend() { at(|saturation| saturation.bubble) } else { None },
    }
}

/// The figures about one reading alone, without the words and sources that are the same for every row of a log.
pub fn row(entry: &Entry, reading: impl Into<PartReading>, assessment: &Assessment, book: &Book) -> Row {
    let reading = &reading.into();
    let units = Units::of(entry);
    Row {
        questions: entry.questions(book, Some(assessment)).iter().map(ToString::to_string).collect(),
        gauges: gauges(entry, assessment, &units, reading),
        results: results(reading, assessment, &units),
        rest: assessment.rest.as_ref().map(|rest| rest_row(rest, units.low)),
    }
}

fn gauges(entry: &Entry, assessment: &Assessment, units: &Units, reading: &PartReading) -> Vec<GaugeRow> {
    let sides = [
        ("low side", &assessment.low, entry.low.map_or(units.low, |p| p.unit())),
        ("high side", &assessment.high, entry.high.map_or(units.high, |p| p.unit())),
    ];
    let row = |(name, side, unit): (_, &Option<_>, _)| Some(gauge_row(name, side.as_ref()?, unit, units, reading));
    sides.into_iter().filter_map(row).collect()
}

fn rest_row(rest: &RestFinding, unit: PressureUnit) -> RestRow {
    let step =
        |value: PressureDifference| Amount::new(value.value_in(unit), None, unit.symbol(), unit.gauge_decimals());
    RestRow {
        verdict: rest.verdict,
        chance: rest.chance.map(super::amount::nine_digits),
        difference: step(rest.difference.value()),
        noticeable: step(rest.noticeable),
    }
}

fn results(reading: &PartReading, assessment: &Assessment, units: &Units) -> Vec<ResultRow> {
    let mut rows = Vec::new();
    if let Some(rest) = &assessment.rest {
        // one figure for both says nothing while they differ
        if rest.verdict == RestVerdict::NotLevelled {
            return rows;
        }
        let expected = Range::new(
            rest.expected.value() - rest.expected.expanded(),
            rest.expected.value() + rest.expected.expanded(),
        );
        rows.push(ResultRow {
            name: "both, by accuracy".into(),
            value: with_interval_p(&rest.read, units.low),
            window: Some(pressure(expected, units.low)),
            basis: "saturation at ambient, with the interval of thermometer and air pressure".into(),
            verdict: match rest.verdict {
                RestVerdict::NotLevelled => None,
                RestVerdict::LiquidGone => Some(Position::Below),
                RestVerdict::AtSaturation => Some(Position::Within),
                RestVerdict::AboveSaturation => Some(Position::Above),
            }
            .map(|position| super::VerdictCell { position, chance: rest.chance }),
        });
        return rows;
    }
    for (name, side, unit) in [("low side", &assessment.low, units.low), ("high side", &assessment.high, units.high)] {
        let Some(side) = side else { continue };
        rows.push(ResultRow {
            name: name.into(),
            value: with_interval_p(&side.gauge, unit),
            window: side.window.range().map(|range| pressure(range, unit)),
            basis: "band over all charts that cover the day".into(),
            verdict: side.verdict.map(Into::into),
        });
    }
    let step = units.temperature.step();
    for (name, finding) in [
        ("superheat", &assessment.superheat),
        ("subcooling", &assessment.subcooling),
        ("condensing over ambient", &assessment.condensing_over_ambient),
    ] {
        rows.extend(finding.as_ref().map(|finding| step_row(name, finding, step)));
    }
    if let Some(vent) = reading.vent {
        rows.push(ResultRow {
            name: "vent".into(),
            value: with_interval_t(&vent, units.temperature),
            window: assessment.vent.range().map(|range| temperature(range, units.temperature)),
            basis: "band over all charts that cover the day".into(),
            verdict: assessment.vent_verdict.map(Into::into),
        });
    }
    rows
}

fn step_row(name: &'static str, finding: &LineFinding, unit: StepUnit) -> ResultRow {
    ResultRow {
        name: name.into(),
        value: Amount::new(
            finding.value.value().value_in(unit),
            Some(finding.value.expanded().value_in(unit)),
            unit.symbol(),
            1,
        ),
        window: finding
            .usual
            .map(|usual| Span::new(usual.value.low.value_in(unit), usual.value.high.value_in(unit), unit.symbol(), 0)),
        basis: "common practice, no source".into(),
        verdict: finding.verdict.map(Into::into),
    }
}

/// Puts what `window` says into the row of each chart, making the row where there is none yet.
fn chart_cells<Q: Quantity>(
    rows: &mut Vec<ChartRow>,
    window: &Charted<Q>,
    cars: Option<&Quantiles<Q>>,
    read: Q,
    cell: impl Fn(&mut ChartRow) -> &mut Option<ChartCell>,
    span: impl Fn(Range<Q>) -> Span,
) {
    for band in &window.bands {
        let at = rows.iter().position(|row| row.chart == band.chart.id).unwrap_or_else(|| {
            let (chart, system) = (band.chart.id, band.chart.system);
            rows.push(ChartRow {
                chart: chart.into(),
                system: system.into(),
                low: None,
                high: None,
                vent: None,
                marks: Vec::new(),
            });
            rows.len() - 1
        });
        let row = &mut rows[at];
        for (applies, mark) in [
            (matches!(band.basis, Basis::Derived(_)), Mark::CarriedOver),
            (!band.humidity_fits, Mark::OtherHumidity),
            (band.chart.authority == Authority::Single, Mark::OneRange),
            (band.chart.authority == Authority::Habit, Mark::NotCounted),
            (cars.is_some_and(|cars| !agrees(band.range.at(0.5), cars)), Mark::OtherCars),
        ] {
            if applies && !row.marks.contains(&mark) {
                row.marks.push(mark);
            }
        }
        let position = if read < band.range.low {
            Position::Below
        } else if read > band.range.high {
            Position::Above
        } else {
            Position::Within
        };
        *cell(row) = Some(ChartCell { window: span(band.range), position });
    }
}

fn sources(entry: &Entry, reading: &PartReading, assessment: &Assessment, instruments: &Instruments) -> Vec<String> {
    let mut list: Vec<String> = Vec::new();
    let mut add = |what: String| {
        if !list.contains(&what) {
            list.push(what);
        }
    };
    add(format!("saturation of {}: {}", reading.refrigerant, reading.refrigerant.dew_line().source));
    if matches!(Air::of(entry), Air::Barometer) {
        add(format!("barometer within 2 hPa: {}", BAROMETER_LIMIT.source));
    } else {
        add(format!("air pressure: {}", air::STANDARD));
        add(format!("weather: {}", air::WEATHER_SPREAD.source));
    }
    let gauges = [reading.low.map(|_| instruments.low), reading.high.map(|_| instruments.high)];
    for gauge in gauges.into_iter().flatten() {
        add(format!("gauges: {}", gauge.source));
    }
    add(format!("thermometers: {}", instruments.line.source));
    if on_lines(reading) {
        add(format!("clamp: {CLAMP_SOURCE}"));
    }
    if let Some(window) = &assessment.healthy {
        add(format!("healthy cars: compressor {EFFICIENCY}"));
        if window.kinds.iter().any(|kind| kind.expansion == ExpansionKind::OrificeTube) {
            add(format!("healthy cars: orifice tube {SHORT_TUBE}"));
        }
        add(
            "healthy cars: sizes from ranges read in makers' manuals and, for the most part, from memory; each is listed in the \
             documentation of the library"
                .to_owned(),
        );
    }
    let chart = |chart: &crate::window::Chart| format!("{}, {}: {}", chart.id, chart.system, chart.source);
    for band in [&assessment.low, &assessment.high].into_iter().flatten().flat_map(|side| &side.window.bands) {
        add(chart(band.chart));
    }
    if reading.vent.is_some() {
        assessment.vent.bands.iter().for_each(|band| add(chart(band.chart)));
    }
    let steps = [&assessment.superheat, &assessment.subcooling, &assessment.condensing_over_ambient];
    if steps.into_iter().flatten().any(|finding| finding.usual.is_some()) {
        add(format!("usual superheat, subcooling and condensing over ambient: {}", Source::COMMON_PRACTICE));
    }
    if reading.refrigerant == crate::Refrigerant::R744 && assessment.rest.is_none() {
        add(format!("best high side by ambient: {}", carbon_dioxide::KAUF_1999));
        if reading.liquid_line.is_some() {
            add(format!("best high side by outlet: {}", carbon_dioxide::LIAO_2000));
        }
    }
    list
}

pub(super) fn pressure(range: Range<GaugePressure>, unit: PressureUnit) -> Span {
    Span::new(range.low.value_in(unit), range.high.value_in(unit), unit.symbol(), unit.gauge_decimals())
}

pub(super) fn temperature(range: Range<Temperature>, unit: TemperatureUnit) -> Span {
    Span::new(range.low.value_in(unit), range.high.value_in(unit), unit.symbol(), 1)
}

pub(super) fn with_interval_p(value: &Measured<GaugePressure>, unit: PressureUnit) -> Amount {
    Amount::new(
        value.value().value_in(unit),
        Some(value.expanded().value_in(unit)),
        unit.symbol(),
        unit.gauge_decimals(),
    )
}

pub(super) fn with_interval_t(value: &Measured<Temperature>, unit: TemperatureUnit) -> Amount {
    Amount::new(value.value().value_in(unit), Some(value.expanded().value_in(unit.step())), unit.symbol(), 1)
}
