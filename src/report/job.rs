//! The job sheet in words: what to do in which order, and the basis of each line.

use super::job_steps::told;
use super::words::en;
use super::{Span, Text};
use crate::circuit::{Conditions, Settings};
use crate::expected::{
    Basis, CONDENSING_OVER_AMBIENT, ChartSet, ExpectedWindow, Quantiles, SUBCOOLING, SUPERHEAT, Side,
};
use crate::inspection::{DisplayUnits, Measurand};
use crate::quantity::Unit;
use crate::service::job::{Job, JobSheet};
use crate::service::oil::kind::CompressorDrive;
use crate::{Error, GaugePressure, Quantity, Refrigerant, Source, Temperature, TemperatureDifference};

/// Version of the JSON form of a [`JobReport`]; it changes whenever a field changes its name or meaning.
pub const JOB_SCHEMA: &str = "satline-job-2";

/// A job sheet in words: steps in order, questions, windows, cautions and sources.
#[derive(Debug, Clone, PartialEq)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(deny_unknown_fields))]
#[non_exhaustive]
pub struct JobReport {
    /// Version of the JSON form, [`JOB_SCHEMA`].
    #[cfg_attr(feature = "serde", serde(deserialize_with = "super::schema::job"))]
    #[cfg_attr(feature = "schema", schemars(with = "String", extend("const" = JOB_SCHEMA)))]
    pub schema: Text,
    /// Designation of the refrigerant.
    pub refrigerant: String,
    /// Opening sentences: what the sheet is about.
    pub opening: Vec<String>,
    /// Questions that only the maker or the bench can answer.
    pub questions: Vec<String>,
    /// Steps of the job, in order.
    pub steps: Vec<StepRow>,
    /// Windows that today's reading is compared with.
    pub windows: Vec<WindowRow>,
    /// Measurements to make after the work.
    pub measure: Vec<String>,
    /// Safety cautions.
    pub cautions: Vec<String>,
    /// Sources that the steps rest on, counted from 1.
    pub sources: Vec<String>,
}

/// One step of the sheet.
#[derive(Debug, Clone, PartialEq)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(deny_unknown_fields))]
#[non_exhaustive]
pub struct StepRow {
    /// Number of the step, counted from 1.
    pub number: usize,
    /// Task of the step, in a few words.
    pub title: String,
    /// Figure of the step; `None` if it has none.
    #[cfg_attr(feature = "serde", serde(default, skip_serializing_if = "Option::is_none"))]
    pub figure: Option<StepFigure>,
    /// Sentences on how and why.
    pub words: Vec<String>,
    /// Safety cautions of the step.
    pub cautions: Vec<String>,
    /// Numbers of the sources that the step rests on.
    pub basis: Vec<usize>,
}

/// A figure, and its standing: what vouches for it.
#[derive(Debug, Clone, PartialEq)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(deny_unknown_fields))]
#[non_exhaustive]
pub struct StepFigure {
    /// Range of the figure.
    pub span: Span,
    /// Standing of the figure: "maker's", "measured", "published range" and so on.
    pub standing: Text,
}

impl std::fmt::Display for StepFigure {
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

/// A window that today's reading is compared with.
#[derive(Debug, Clone, PartialEq)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(deny_unknown_fields))]
#[non_exhaustive]
pub struct WindowRow {
    /// Name of the quantity read.
    pub name: Text,
    /// Range of the window.
    pub window: Span,
    /// Basis of the window.
    pub basis: String,
}

/// What today's reading is compared with.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum WindowNote {
    /// The conditions are not known.
    NoAmbient,
    /// No chart covers the conditions.
    NoneCovers,
    /// The windows, most of them carried over from another refrigerant.
    CarriedOver,
    /// The windows.
    Below,
}

/// A quantity that has a window.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum WindowName {
    LowSide,
    HighSide,
    Superheat,
    Subcooling,
    CondensingOverAmbient,
    Vent,
}

/// The printed charts that a window rests on.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct ChartBasis {
    /// Number of charts.
    pub(super) count: usize,
    /// Number of charts carried over at equal saturation temperature, not printed for this refrigerant.
    pub(super) derived: usize,
}

/// Something to measure after the work.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Measurement {
    /// Equalised pressures of carbon dioxide, which has no saturation on a warm day.
    EqualisedCarbonDioxide,
    /// Equalised pressures.
    Equalised,
    /// Both gauges, the air and the vent.
    Running,
    /// Temperatures of the lines.
    Lines,
    /// Noise with the clutch off and on.
    Noise,
    /// Oil at the joints, a week later.
    OilAfterAWeek,
}

/// The job sheet of `job` in words, with what today's reading may show in `units`; `charts` holds the printed windows for it,
/// `healthy` the computed one.
///
/// # Errors
/// As [`Job::questions`].
pub fn job(
    job: &Job,
    charts: &ChartSet,
    healthy: Option<&ExpectedWindow>,
    units: &DisplayUnits,
) -> Result<JobReport, Error> {
    let sheet = &job.sheet()?;
    let mut sources: Vec<Source> = Vec::new();
    let mut steps: Vec<StepRow> = Vec::new();
    for (i, step) in sheet.steps.iter().enumerate() {
        let mut basis: Vec<usize> = step.basis.iter().map(|source| number(&mut sources, *source)).collect();
        basis.sort_unstable();
        let told = told(sheet, step);
        let cautions = step.cautions.iter().map(|caution| en::job::caution(*caution, job.refrigerant)).collect();
        steps.push(StepRow {
            number: i + 1,
            title: told.title,
            figure: told.figure,
            words: told.words,
            cautions,
            basis,
        });
    }
    let mut windows: Vec<WindowRow> = healthy.map_or(Vec::new(), |healthy| computed(healthy, units));
    let (printed, sources_of_charts) = printed(sheet, charts, units);
    windows.extend(printed);
    if let Some(read) = steps.last_mut() {
        read.basis.extend(sources_of_charts.into_iter().map(|source| number(&mut sources, source)));
        read.basis.sort_unstable();
        read.basis.dedup();
        let note = match (windows.is_empty(), job.ambient, job.refrigerant) {
            (true, None, _) => WindowNote::NoAmbient,
            (true, Some(_), _) => WindowNote::NoneCovers,
            (false, _, Refrigerant::R1234yf) => WindowNote::CarriedOver,
            (false, ..) => WindowNote::Below,
        };
        read.words.push(en::job::window_note(note).to_owned());
    }
    Ok(JobReport {
        schema: JOB_SCHEMA.into(),
        refrigerant: job.refrigerant.to_string(),
        opening: en::job::opening(sheet),
        questions: sheet.questions.iter().map(en::job::question).collect(),
        steps,
        windows,
        measure: measure(sheet).into_iter().map(|what| en::job::measurement(what).to_owned()).collect(),
        cautions: en::reading::caution_sentences(job.refrigerant),
        sources: sources.iter().map(ToString::to_string).collect(),
    })
}

/// The number of a source, counted from 1; a new one goes to the end.
fn number(sources: &mut Vec<Source>, source: Source) -> usize {
    let at = sources.iter().position(|known| *known == source).unwrap_or_else(|| {
        sources.push(source);
        sources.len() - 1
    });
    at + 1
}

fn row(name: WindowName, window: Span, basis: String) -> WindowRow {
    WindowRow { name: en::job::window(name).into(), window, basis }
}

/// What healthy cars show on the day, nine tenths of them.
fn computed(healthy: &ExpectedWindow, units: &DisplayUnits) -> Vec<WindowRow> {
    let basis = en::job::computed_cars(healthy.circuits());
    let pressure = |cars: &Quantiles<GaugePressure>, unit| super::reading::gauge_span(cars.range(), unit);
    let step = |cars: &Quantiles<TemperatureDifference>| {
        let (unit, range) = (units.temperature.step(), cars.range());
        Span::new(range.low.value_in(unit), range.high.value_in(unit), unit.symbol(), 0)
    };
    let span = |cars: &Quantiles<Temperature>| super::reading::temperature_span(cars.range(), units.temperature);
    let vent = healthy.temperature(Measurand::Vent).map(span);
    [
        (WindowName::LowSide, Some(pressure(&healthy.low_side, units.low))),
        (WindowName::HighSide, Some(pressure(&healthy.high_side, units.high))),
        (WindowName::Superheat, Some(step(&healthy.superheat))),
        (WindowName::Subcooling, healthy.subcooling.as_ref().map(step)),
        (WindowName::CondensingOverAmbient, healthy.condensing_over_ambient.as_ref().map(step)),
        (WindowName::Vent, vent),
    ]
    .into_iter()
    .filter_map(|(name, window)| Some(row(name, window?.rounded(), basis.clone())))
    .collect()
}

/// The printed windows of the day, and the sources of the charts behind them.
fn printed(sheet: &JobSheet, charts: &ChartSet, units: &DisplayUnits) -> (Vec<WindowRow>, Vec<Source>) {
    let Some(ambient) = sheet.job.ambient else { return (Vec::new(), Vec::new()) };
    let day = Conditions { ambient, humidity: sheet.job.humidity, air: sheet.air.value(), settings: Settings::TEST };
    let (mut rows, mut sources) = (Vec::new(), Vec::new());
    let basis = |count: usize, derived: usize| en::job::charts(ChartBasis { count, derived });
    // carried over at equal saturation temperature, not printed for this refrigerant
    let derived = |basis: Basis| usize::from(basis != Basis::Printed);
    for (name, side, unit) in
        [(WindowName::LowSide, Side::Low, units.low), (WindowName::HighSide, Side::High, units.high)]
    {
        let window = charts.pressure(side, &day);
        sources.extend(window.vouched().map(|band| band.chart.source));
        if let Some(range) = window.range() {
            let span =
                Span::new(range.low.value_in(unit), range.high.value_in(unit), unit.symbol(), unit.gauge_decimals());
            let carried_over = window.vouched().map(|band| derived(band.basis)).sum();
            rows.push(row(name, span, basis(window.vouched().count(), carried_over)));
        }
    }
    let vent = charts.vent(&day);
    sources.extend(vent.vouched().map(|band| band.chart.source));
    if let Some(range) = vent.range() {
        let at = |t: Temperature| t.value_in(units.temperature);
        let span = Span::new(at(range.low), at(range.high), units.temperature.symbol(), 1);
        let carried_over = vent.vouched().map(|band| derived(band.basis)).sum();
        rows.push(row(WindowName::Vent, span, basis(vent.vouched().count(), carried_over)));
    }
    if matches!(sheet.job.refrigerant, Refrigerant::R134a | Refrigerant::R1234yf) {
        let step = units.temperature.step();
        let at = |t: TemperatureDifference| t.value_in(step);
        for (name, habit) in [
            (WindowName::Superheat, SUPERHEAT),
            (WindowName::Subcooling, SUBCOOLING),
            (WindowName::CondensingOverAmbient, CONDENSING_OVER_AMBIENT),
        ] {
            let span = Span::new(at(habit.value.low), at(habit.value.high), step.symbol(), 0);
            rows.push(row(name, span, habit.source.to_string()));
        }
    }
    (rows, sources)
}

fn measure(sheet: &JobSheet) -> Vec<Measurement> {
    let equalised = if sheet.job.refrigerant.is_transcritical() {
        Measurement::EqualisedCarbonDioxide
    } else {
        Measurement::Equalised
    };
    let mut list = vec![equalised, Measurement::Running, Measurement::Lines];
    if sheet.job.compressor.is_some() && sheet.job.drive == CompressorDrive::Belt {
        list.push(Measurement::Noise);
    }
    list.push(Measurement::OilAfterAWeek);
    list
}
