//! What a log shows over time, finding by finding.

use super::hold::{FigureRow, digits, per_minute};
use super::page::{Block, Cell, Page, Table};
use super::reading::Units;
use super::{Text, text};
use crate::quantity::{PressureUnit, Time, Unit};
use crate::service::Interval;
use crate::trace::{Cycling, Finding, Level, Moving, SHORTEST, Stretch};
use crate::window::Instruments;
use crate::{Error, GaugePressure, Quantity, Ratio, Refrigerant, Temperature};

/// The version of the JSON form; it changes whenever a field changes its name or meaning.
pub const TRACE_SCHEMA: &str = "satline-trace-1";

/// Periods that differ by more than this share of their mean are not those of a clutch left alone; our choice.
const UNEVEN: f64 = 0.25;

/// One finding of a log.
#[derive(Debug, Clone, PartialEq)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(deny_unknown_fields))]
pub struct FindingRow {
    /// [`TRACE_SCHEMA`].
    #[cfg_attr(feature = "serde", serde(deserialize_with = "super::schema::trace"))]
    #[cfg_attr(feature = "schema", schemars(with = "String", extend("const" = TRACE_SCHEMA)))]
    pub schema: Text,
    /// "steady", "creeping", "at rest", "switching", "cycling", "moving", "gap" or "clock set back".
    pub finding: Text,
    /// Where it begins, s as the log counts.
    pub from_s: f64,
    /// Where it ends, s as the log counts.
    pub to_s: f64,
    /// What it is, in a sentence.
    pub says: String,
    /// Where each quantity stands: of a stretch.
    #[cfg_attr(feature = "serde", serde(default, skip_serializing_if = "Vec::is_empty"))]
    pub levels: Vec<LevelRow>,
    /// Period, share engaged, turning points: of a clutch that cycles. Both ends of both sides: of what moves.
    #[cfg_attr(feature = "serde", serde(default, skip_serializing_if = "Vec::is_empty"))]
    pub figures: Vec<FigureRow>,
    /// Readings of a stretch, cycles of a clutch, swings of what moves.
    pub count: u64,
    /// From when to when, counted from the first reading in h:mm:ss.
    pub when: String,
}

/// One quantity over a stretch.
#[derive(Debug, Clone, PartialEq)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(deny_unknown_fields))]
pub struct LevelRow {
    /// Its mean.
    pub mean: FigureRow,
    /// Standard deviation of single readings.
    pub spread: FigureRow,
    /// Change per minute.
    pub per_minute: FigureRow,
    /// Whether that change is named: see [`crate::trace`].
    pub creeps: bool,
}

/// What a finding says, times counted from `start`, in `units`.
pub fn finding(finding: &Finding, start: Time, units: &Units) -> FindingRow {
    match finding {
        Finding::Stretch(stretch) => of_stretch(stretch, start, units),
        Finding::Cycling(cycling) => of_cycling(cycling, start, units),
        Finding::Moving(moving) => of_moving(moving, start, units),
        Finding::Gap(gap) => {
            let says = format!("no readings for {}", clock(gap.to - gap.from));
            FindingRow::new("gap", gap.from, gap.to, start, says)
        }
        Finding::SetBack(gap) => {
            let says =
                format!("times go back by {}: the clock was set, or another log follows", clock(gap.from - gap.to));
            FindingRow::new("clock set back", gap.from, gap.to, start, says)
        }
    }
}

/// What the page is about, before any finding.
///
/// # Errors
/// [`Error::BeyondScale`] for a gauge whose scale does not hold zero.
pub fn trace_opening(refrigerant: Refrigerant, instruments: &Instruments, units: &Units) -> Result<Page, Error> {
    let [low, high] = [(&instruments.low, units.low), (&instruments.high, units.high)].map(|(gauge, unit)| {
        let read = gauge.read(GaugePressure::from_bar(0.0))?;
        let written = |si: f64| format!("{} {}", digits(si / unit.factor()), unit.symbol());
        Ok::<_, Error>((written(read.standard_uncertainty().pa()), written(read.expanded().pa())))
    });
    let ((still_low, off_low), (still_high, off_high)) = (low?, high?);
    Ok(Page {
        title: format!("{refrigerant}, a log of gauge readings over time"),
        opening: vec![
            "Times count from the first reading, in h:mm:ss.".to_owned(),
            format!(
                "Steady: over {:.0} s neither side moves by more than {still_low} (low) or {still_high} (high), the standard \
                 uncertainty of its gauge, or than its scatter explains.",
                SHORTEST.value.seconds()
            ),
            format!(
                "Intervals are 95 %, from the scatter of the readings alone. The gauges may be off by {off_low} (low) and \
                 {off_high} (high) on top."
            ),
        ],
        answer: String::new(),
        sections: Vec::new(),
    })
}

/// Hours, minutes and seconds.
fn clock(time: Time) -> String {
    let seconds = time.seconds().abs().round();
    let sign = if time.seconds() < -0.5 { "-" } else { "" };
    let (hours, rest) = ((seconds / 3600.0).floor(), seconds % 3600.0);
    format!("{sign}{hours:.0}:{:02.0}:{:02.0}", (rest / 60.0).floor(), rest % 60.0)
}

impl FindingRow {
    fn new(finding: &'static str, from: Time, to: Time, start: Time, says: String) -> Self {
        Self {
            schema: TRACE_SCHEMA.into(),
            finding: finding.into(),
            from_s: from.seconds(),
            to_s: to.seconds(),
            says,
            levels: Vec::new(),
            figures: Vec::new(),
            count: 0,
            when: format!("{} to {}", clock(from - start), clock(to - start)),
        }
    }

    /// The finding as lines no longer than `width` columns (at least 40).
    pub fn text(&self, width: usize) -> String {
        let figure = |name: String, row: &FigureRow, scatter: String| -> [Cell; 4] {
            [name.into(), row.best().into(), row.span().into(), scatter.into()]
        };
        let mut rows = Vec::new();
        for row in &self.levels {
            rows.push(figure(format!("  {}", row.mean.name), &row.mean, format!("scatter {}", row.spread.best())));
            if row.creeps {
                rows.push(figure("    creeps by".to_owned(), &row.per_minute, String::new()));
            }
        }
        if self.finding == "cycling" {
            rows.extend(self.figures.iter().map(|row| figure(format!("  {}", row.name), row, String::new())));
        }
        let said = Block::Words(format!("{}  {}", self.when, self.says));
        text::pieces(&[said, Block::Table(Table::new(["", "", "", ""], rows))], width)
    }
}

/// An interval of a quantity as plain numbers.
fn figure<Q: Quantity>(
    name: &'static str,
    interval: &Interval<Q>,
    unit: &'static str,
    of: impl Fn(Q) -> f64,
) -> FigureRow {
    FigureRow::new(name, interval.map(of), unit)
}

fn level<Q: Quantity>(
    name: &'static str,
    level: &Level<Q>,
    (unit, rate): (&'static str, &'static str),
    of: impl Fn(Q) -> f64,
    step: impl Fn(Q::Difference) -> f64,
) -> LevelRow {
    LevelRow {
        mean: figure(name, &level.mean, unit, of),
        spread: FigureRow::alone(name, step(level.spread), unit),
        per_minute: figure(name, &level.per_minute, rate, step),
        creeps: level.creeps,
    }
}

fn of_stretch(stretch: &Stretch, start: Time, units: &Units) -> FindingRow {
    let side = |name, of: &Level<GaugePressure>, unit: PressureUnit| {
        // a rate that has no unit of its own is written in kPa
        let (factor, rate) = per_minute(unit);
        let row = level(name, of, (unit.symbol(), rate), |p| p.value_in(unit), |step| step.value_in(unit));
        let per_minute = of.per_minute.map(|step| step.si() / (60.0 * factor));
        LevelRow { per_minute: FigureRow::new(name, per_minute, rate), ..row }
    };
    let unit = units.temperature;
    let symbols = (unit.symbol(), if unit.symbol() == "°F" { "°F/min" } else { "K/min" });
    let line = |name, of: &Option<Level<Temperature>>| {
        of.as_ref().map(|of| level(name, of, symbols, |t| t.value_in(unit), |step| step.value_in(unit.step())))
    };
    let mut levels = vec![side("low side", &stretch.low, units.low), side("high side", &stretch.high, units.high)];
    levels.extend(line("suction line", &stretch.suction_line));
    levels.extend(line("liquid line", &stretch.liquid_line));
    levels.extend(line("vent", &stretch.vent));
    levels.extend(line("ambient", &stretch.ambient));
    let humidity = stretch.humidity.as_ref();
    levels.extend(humidity.map(|of| level("humidity", of, ("%", "%/min"), Ratio::percent, Ratio::percent)));
    let creeping: Vec<String> = levels[..2]
        .iter()
        .filter(|row| row.creeps)
        .map(|row| {
            let up = row.per_minute.interval.value.is_some_and(|value| value > 0.0);
            format!("{} {}", row.mean.name, if up { "creeps up" } else { "creeps down" })
        })
        .collect();
    let (finding, says) = if stretch.switches {
        (
            "switching",
            "the sides scatter against each other: something switches faster than these readings show; read more often"
                .to_owned(),
        )
    } else if stretch.levelled && stretch.high.mean.value.is_some_and(|high| high < GaugePressure::from_pa(0.0)) {
        ("at rest", "at rest in vacuum: both sides alike, the circuit is evacuated".to_owned())
    } else if stretch.levelled {
        ("at rest", "at rest: both sides alike; the engine is off, or the compressor does not pump".to_owned())
    } else if creeping.is_empty() {
        ("steady", "steady".to_owned())
    } else {
        ("creeping", creeping.join(", "))
    };
    let count = stretch.readings;
    let says = format!("{says}; {count} readings");
    FindingRow { levels, count, ..FindingRow::new(finding, stretch.from, stretch.to, start, says) }
}

fn of_cycling(cycling: &Cycling, start: Time, units: &Units) -> FindingRow {
    let pressure = |name, of: &Interval<GaugePressure>| figure(name, of, units.low.symbol(), |p| p.value_in(units.low));
    let swing = cycling.high_swing.value_in(units.high);
    let figures = vec![
        figure("period", &cycling.period, "s", Time::seconds),
        figure("engaged", &cycling.duty, "%", Ratio::percent),
        pressure("low side where it opens", &cycling.opens),
        pressure("low side where it engages", &cycling.engages),
        FigureRow::alone("high side swings by", swing, units.high.symbol()),
    ];
    let mut says = format!("the clutch cycles: {} full cycles", cycling.cycles);
    if cycling.too_coarse() {
        says += &format!(
            "; with {} readings in a cycle neither period nor share engaged can be told: read more often",
            digits(cycling.readings_per_cycle)
        );
    } else if cycling.period_spread.seconds() > UNEVEN * cycling.period.value.map_or(f64::INFINITY, Time::seconds) {
        says += &format!(
            "; their periods differ by {} s (standard deviation), more than those of a clutch left alone: did the engine \
             speed change?",
            digits(cycling.period_spread.seconds())
        );
    }
    let count = cycling.cycles as u64;
    FindingRow { figures, count, ..FindingRow::new("cycling", cycling.from, cycling.to, start, says) }
}

fn of_moving(moving: &Moving, start: Time, units: &Units) -> FindingRow {
    let side = |(from, to): (GaugePressure, GaugePressure), unit: PressureUnit| {
        let decimals = usize::from(unit.gauge_decimals());
        format!("{:.decimals$} to {}", from.value_in(unit), to.entered(unit, decimals))
    };
    let mut says = format!("moves: low {}, high {}", side(moving.low, units.low), side(moving.high, units.high));
    if moving.swings > 1 {
        says += &format!("; {} swings of both sides, whether the clutch cycles cannot be told yet", moving.swings);
    }
    let row = |name, of: GaugePressure, unit: PressureUnit| FigureRow::alone(name, of.value_in(unit), unit.symbol());
    let figures = vec![
        row("low side first", moving.low.0, units.low),
        row("low side last", moving.low.1, units.low),
        row("high side first", moving.high.0, units.high),
        row("high side last", moving.high.1, units.high),
    ];
    let count = moving.swings as u64;
    FindingRow { figures, count, ..FindingRow::new("moving", moving.from, moving.to, start, says) }
}
