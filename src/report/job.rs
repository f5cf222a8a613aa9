//! The job sheet in words: what to do in which order, and what stands behind each line.

use super::job_words::{hurts, opening, question, step};
use super::{Span, Text, cautions};
use crate::circuit::Settings;
use crate::quantity::{PressureUnit, TemperatureUnit, Unit};
use crate::service::job::Sheet;
use crate::service::oil::kind::Drive;
use crate::window::{Basis, Book, CONDENSING_OVER_AMBIENT, Conditions, Quantiles, SUBCOOLING, SUPERHEAT, Side, Window};
use crate::{GaugePressure, Quantity, Refrigerant, Source, Temperature, TemperatureDifference};

/// The version of the JSON form; it changes whenever a field changes its name or meaning.
pub const JOB_SCHEMA: &str = "satline-job-2";

/// A job sheet in words.
#[derive(Debug, Clone, PartialEq)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(deny_unknown_fields))]
pub struct JobReport {
    /// [`JOB_SCHEMA`].
    #[cfg_attr(feature = "serde", serde(deserialize_with = "super::schema::job"))]
    #[cfg_attr(feature = "schema", schemars(with = "String", extend("const" = JOB_SCHEMA)))]
    pub schema: Text,
    /// Designation of the refrigerant.
    pub refrigerant: String,
    /// What the sheet is about, in sentences.
    pub opening: Vec<String>,
    /// What only the maker or the bench can answer.
    pub questions: Vec<String>,
    /// What to do, in order.
    pub steps: Vec<StepRow>,
    /// What today's reading may show.
    pub windows: Vec<WindowRow>,
    /// What to measure then.
    pub measure: Vec<String>,
    /// What can hurt.
    pub cautions: Vec<String>,
    /// What the steps rest on, counted from 1.
    pub sources: Vec<String>,
}

/// One step of the sheet.
#[derive(Debug, Clone, PartialEq)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(deny_unknown_fields))]
pub struct StepRow {
    /// Counted from 1.
    pub number: usize,
    /// What to do, in a few words.
    pub title: String,
    /// The figure of the step, where it has one.
    #[cfg_attr(feature = "serde", serde(default, skip_serializing_if = "Option::is_none"))]
    pub figure: Option<Figure>,
    /// How, and why.
    pub words: Vec<String>,
    /// What can hurt.
    pub cautions: Vec<String>,
    /// Which of the sources stand behind it.
    pub basis: Vec<usize>,
}

/// A figure and what vouches for it.
#[derive(Debug, Clone, PartialEq)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(deny_unknown_fields))]
pub struct Figure {
    /// From where to where.
    pub span: Span,
    /// "maker's", "measured", "published range" and so on.
    pub standing: Text,
}

impl std::fmt::Display for Figure {
    /// One number where both ends are one.
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        let Span { low, high, unit, decimals } = &self.span;
        let decimals = usize::from(*decimals);
        if format!("{low:.decimals$}") == format!("{high:.decimals$}") {
            write!(f, "{low:.decimals$} {unit}")
        } else {
            self.span.fmt(f)
        }
    }
}

/// What today's reading may show.
#[derive(Debug, Clone, PartialEq)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(deny_unknown_fields))]
pub struct WindowRow {
    /// What is read.
    pub name: Text,
    /// From where to where.
    pub window: Span,
    /// What the window rests on.
    pub basis: String,
}

/// The units of a sheet.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct JobUnits {
    /// Pressures of the windows.
    pub pressure: PressureUnit,
    /// Temperatures.
    pub temperature: TemperatureUnit,
}

/// The sheet in words; `book` gives the windows for today's reading.
pub fn job(sheet: &Sheet, book: &Book, healthy: Option<&Window>, units: JobUnits) -> JobReport {
    let mut sources: Vec<Source> = Vec::new();
    let job = &sheet.job;
    let mut steps: Vec<StepRow> = sheet
        .lines
        .iter()
        .enumerate()
        .map(|(i, line)| {
            let mut basis: Vec<usize> = line.basis.iter().map(|source| number(&mut sources, *source)).collect();
            basis.sort_unstable();
            let step = step(sheet, line);
            StepRow {
                number: i + 1,
                title: step.title,
                figure: step.figure,
                words: step.words,
                cautions: line.cautions.iter().map(|caution| hurts(*caution, sheet)).collect(),
                basis,
            }
        })
        .collect();
    let mut windows: Vec<WindowRow> = healthy.map_or(Vec::new(), |healthy| computed(healthy, units));
    let (printed, charts) = printed(sheet, book, units);
    windows.extend(printed);
    if let Some(read) = steps.last_mut() {
        read.basis.extend(charts.into_iter().map(|source| number(&mut sources, source)));
        read.basis.sort_unstable();
        read.basis.dedup();
        read.words.push(
            match (windows.is_empty(), job.ambient, job.refrigerant) {
                (true, None, _) => "Without the ambient temperature there is no window to set it against.",
                (true, Some(_), _) => "No window covers this day and refrigerant: the check at rest is what remains.",
                (false, _, Refrigerant::R1234yf) => {
                    "Set it against the windows below; charts of R-134a are carried over at equal saturation \
                     temperature."
                }
                (false, ..) => "Set it against the windows below.",
            }
            .to_owned(),
        );
    }
    JobReport {
        schema: JOB_SCHEMA.into(),
        refrigerant: job.refrigerant.to_string(),
        opening: opening(sheet),
        questions: sheet.questions.iter().map(question).collect(),
        steps,
        windows,
        measure: measure(sheet),
        cautions: cautions(job.refrigerant),
        sources: sources.iter().map(ToString::to_string).collect(),
    }
}

/// The number of a source, counted from 1; a new one goes to the end.
fn number(sources: &mut Vec<Source>, source: Source) -> usize {
    let at = sources.iter().position(|known| *known == source).unwrap_or_else(|| {
        sources.push(source);
        sources.len() - 1
    });
    at + 1
}

/// What healthy cars show on the day, nine tenths of them.
fn computed(healthy: &Window, units: JobUnits) -> Vec<WindowRow> {
    let basis = format!("{} healthy cars computed", healthy.cars());
    let pressure = |cars: &Quantiles<GaugePressure>| super::reading::pressure(cars.range(), units.pressure);
    let step = |cars: &Quantiles<TemperatureDifference>| {
        let (unit, range) = (units.temperature.step(), cars.range());
        Span::new(range.low.value_in(unit), range.high.value_in(unit), unit.symbol(), 0)
    };
    let vent = super::reading::temperature(healthy.vent.range(), units.temperature);
    [
        ("low side", Some(pressure(&healthy.low_side))),
        ("high side", Some(pressure(&healthy.high_side))),
        ("superheat", Some(step(&healthy.superheat))),
        ("subcooling", healthy.subcooling.as_ref().map(step)),
        ("condensing over ambient", healthy.condensing_over_ambient.as_ref().map(step)),
        ("vent", Some(vent)),
    ]
    .into_iter()
    .filter_map(|(name, window)| Some(WindowRow { name: name.into(), window: window?.rounded(), basis: basis.clone() }))
    .collect()
}

/// The printed windows of the day, and the sources of the charts behind them.
fn printed(sheet: &Sheet, book: &Book, units: JobUnits) -> (Vec<WindowRow>, Vec<Source>) {
    let Some(ambient) = sheet.job.ambient else { return (Vec::new(), Vec::new()) };
    let day = Conditions { ambient, humidity: sheet.job.humidity, air: sheet.air.value(), running: Settings::TEST };
    let (mut rows, mut sources) = (Vec::new(), Vec::new());
    let charts = |count: usize, derived: usize| {
        let print = if count == 1 { "1 printed chart".to_owned() } else { format!("{count} printed charts") };
        match derived {
            0 => print,
            all if all == count => format!("{print} of R-134a"),
            _ => format!("{print}, most of R-134a"),
        }
    };
    // carried over at equal saturation temperature, not printed for this refrigerant
    let derived = |basis: Basis| usize::from(basis != Basis::Printed);
    for (name, side) in [("low side", Side::Low), ("high side", Side::High)] {
        let window = book.pressure(side, &day);
        sources.extend(window.vouched().map(|band| band.chart.source));
        if let Some(range) = window.range() {
            rows.push(WindowRow {
                name: name.into(),
                window: Span::new(
                    range.low.value_in(units.pressure),
                    range.high.value_in(units.pressure),
                    units.pressure.symbol(),
                    units.pressure.gauge_decimals(),
                ),
                basis: charts(window.vouched().count(), window.vouched().map(|band| derived(band.basis)).sum()),
            });
        }
    }
    let vent = book.vent(&day);
    sources.extend(vent.vouched().map(|band| band.chart.source));
    if let Some(range) = vent.range() {
        let at = |t: Temperature| t.value_in(units.temperature);
        rows.push(WindowRow {
            name: "vent".into(),
            window: Span::new(at(range.low), at(range.high), units.temperature.symbol(), 1),
            basis: charts(vent.vouched().count(), vent.vouched().map(|band| derived(band.basis)).sum()),
        });
    }
    if matches!(sheet.job.refrigerant, Refrigerant::R134a | Refrigerant::R1234yf) {
        let step = units.temperature.step();
        let at = |t: TemperatureDifference| t.value_in(step);
        for (name, habit) in
            [("superheat", SUPERHEAT), ("subcooling", SUBCOOLING), ("condensing over ambient", CONDENSING_OVER_AMBIENT)]
        {
            rows.push(WindowRow {
                name: name.into(),
                window: Span::new(at(habit.value.low), at(habit.value.high), step.symbol(), 0),
                basis: habit.source.to_string(),
            });
        }
    }
    (rows, sources)
}

fn measure(sheet: &Sheet) -> Vec<String> {
    let at_rest = if sheet.job.refrigerant == Refrigerant::R744 {
        "At rest, engine cold: both gauges alike; up to 30 °C around the car at saturation, hotter there is none and the pressure \
         tells the charge alone."
    } else {
        "At rest, engine cold: both gauges alike, and at saturation for the air around. Above it: air, or another refrigerant."
    };
    let mut list = vec![
        at_rest.to_owned(),
        "Running: low side, high side, ambient in the shade before the condenser, humidity, centre vent.".to_owned(),
        "Thermometers clamped on the suction line at the evaporator and on the liquid line after the condenser."
            .to_owned(),
    ];
    if sheet.job.compressor.is_some() && sheet.job.drive == Drive::Belt {
        list.push("Listen: clutch off, clutch on.".to_owned());
    }
    list.push("After a week: look at every joint for oil once more.".to_owned());
    list
}
