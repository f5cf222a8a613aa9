//! The job sheet as data: what to do in which order, and the basis of each line.

use super::job_steps::told;
use super::job_tasks::{Standing, StepTask, WindowNote};
use super::page::Page;
use super::{Caution, Language, Span, Text};
use crate::circuit::{Conditions, Settings};
use crate::expected::{
    Basis, CONDENSING_OVER_AMBIENT, ChartSet, ExpectedWindow, Quantiles, SUBCOOLING, SUPERHEAT, Side,
};
use crate::inspection::{DisplayUnits, Measurand};
use crate::quantity::Unit;
use crate::service::job::{Complaint, Job, JobCaution, JobQuestion, JobSheet};
use crate::service::oil::kind::{CompressorDrive, OilKind};
use crate::service::oil::part::ReplacedPart;
use crate::{Error, GaugePressure, Quantity, Refrigerant, Source, Temperature, TemperatureDifference};

/// Version of the JSON form of a [`JobReport`]; it changes whenever a field changes its name or meaning.
pub const JOB_SCHEMA: &str = "satline-job-3";

/// A job sheet: steps in order, questions, windows, cautions and sources, as ids with arguments.
#[derive(Debug, Clone, PartialEq)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(deny_unknown_fields))]
#[non_exhaustive]
pub struct JobReport {
    /// Version of the JSON form, [`JOB_SCHEMA`].
    #[cfg_attr(feature = "serde", serde(deserialize_with = "super::schema::job"))]
    #[cfg_attr(feature = "schema", schemars(with = "String", extend("const" = JOB_SCHEMA)))]
    pub schema: Text,
    /// Refrigerant, by its designation.
    #[cfg_attr(feature = "schema", schemars(with = "String"))]
    pub refrigerant: Refrigerant,
    /// Whether the numbers are invented, as those of a worked example.
    #[cfg_attr(feature = "serde", serde(default))]
    pub invented: bool,
    /// What the sheet is about.
    pub opening: JobOpening,
    /// Questions that only the maker or the bench can answer.
    pub questions: Vec<JobQuestion>,
    /// Steps of the job, in order.
    pub steps: Vec<StepRow>,
    /// Windows that today's reading is compared with.
    pub windows: Vec<WindowRow>,
    /// Measurements to make after the work.
    pub measure: Vec<Measurement>,
    /// Safety cautions.
    pub cautions: Vec<Caution>,
    /// Sources that the steps rest on, counted from 1.
    pub sources: Vec<String>,
}

/// What a job sheet is about.
#[derive(Debug, Clone, PartialEq)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(deny_unknown_fields))]
pub struct JobOpening {
    /// Drive of the compressor.
    pub drive: CompressorDrive,
    /// Nominal charge, as printed on the label.
    pub charge: String,
    /// Oil of the whole circuit, as printed on the label; `None` if it was not given.
    #[cfg_attr(feature = "serde", serde(default, skip_serializing_if = "Option::is_none"))]
    pub oil: Option<String>,
    /// Kind of oil, as printed; `None` if it was not given.
    #[cfg_attr(feature = "schema", schemars(with = "Option<String>"))]
    #[cfg_attr(feature = "serde", serde(default, skip_serializing_if = "Option::is_none"))]
    pub oil_kind: Option<OilKind>,
    /// Whether the compressor is replaced.
    pub new_compressor: bool,
    /// Other parts that are replaced.
    pub parts: Vec<ReplacedPart>,
    /// The customer's complaint.
    pub complaint: Complaint,
}

/// One step of the sheet.
#[derive(Debug, Clone, PartialEq)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(deny_unknown_fields))]
#[non_exhaustive]
pub struct StepRow {
    /// Number of the step, counted from 1.
    pub number: usize,
    /// Task of the step.
    pub task: StepTask,
    /// Figure of the step; `None` if it has none.
    #[cfg_attr(feature = "serde", serde(default, skip_serializing_if = "Option::is_none"))]
    pub figure: Option<StepFigure>,
    /// Safety cautions of the step.
    pub cautions: Vec<JobCaution>,
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
    /// Standing of the figure.
    pub standing: Standing,
}

impl std::fmt::Display for StepFigure {
    /// In English, one number where both ends are one.
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str(&super::words::en::NUMERALS.joined(&self.span))
    }
}

/// A window that today's reading is compared with.
#[derive(Debug, Clone, PartialEq)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(deny_unknown_fields))]
#[non_exhaustive]
pub struct WindowRow {
    /// Quantity that is read.
    pub quantity: WindowName,
    /// Range of the window.
    pub window: Span,
    /// Basis of the window.
    pub basis: WindowGround,
}

/// A quantity that has a window.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(rename_all = "kebab-case"))]
#[non_exhaustive]
pub enum WindowName {
    /// Low-side pressure.
    LowSide,
    /// High-side pressure.
    HighSide,
    /// Superheat.
    Superheat,
    /// Subcooling.
    Subcooling,
    /// Condensing temperature over ambient.
    CondensingOverAmbient,
    /// Centre-vent temperature.
    Vent,
}

/// What a window rests on.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(
    feature = "serde",
    derive(serde::Serialize, serde::Deserialize),
    serde(tag = "id", rename_all = "kebab-case", deny_unknown_fields)
)]
#[non_exhaustive]
pub enum WindowGround {
    /// Healthy circuits computed for the day.
    Circuits {
        /// Number of circuits.
        circuits: usize,
    },
    /// Printed charts.
    Charts {
        /// Number of charts.
        charts: usize,
        /// Number of charts carried over at equal saturation temperature, not printed for this refrigerant.
        carried_over: usize,
    },
    /// A rule of thumb: common practice, no source.
    #[cfg_attr(feature = "serde", serde(deserialize_with = "crate::service::no_fields"))]
    RuleOfThumb,
}

/// Something to measure after the work.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(rename_all = "kebab-case"))]
#[non_exhaustive]
pub enum Measurement {
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

/// The job sheet of `job`, with what today's reading may show in `units`; `charts` holds the printed windows for it, `healthy` the
/// computed one. [`JobReport::page_in`] writes it in a language.
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
        let (task, figure) = told(sheet, step);
        steps.push(StepRow { number: i + 1, task, figure, cautions: step.cautions.clone(), basis });
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
        read.task = StepTask::Read { windows: note };
    }
    Ok(JobReport {
        schema: JOB_SCHEMA.into(),
        refrigerant: job.refrigerant,
        invented: false,
        opening: JobOpening {
            drive: job.drive,
            charge: job.charge.text().to_owned(),
            oil: job.oil.as_ref().map(|oil| oil.text().to_owned()),
            oil_kind: job.oil_kind,
            new_compressor: job.compressor.is_some(),
            parts: job.parts.iter().map(|swap| swap.part).collect(),
            complaint: job.complaint,
        },
        questions: sheet.questions.clone(),
        steps,
        windows,
        measure: measure(sheet),
        cautions: super::cautions(job.refrigerant),
        sources: sources.iter().map(ToString::to_string).collect(),
    })
}

/// The page of the job sheet of `job` in `language`, with what [`job()`] says of it.
///
/// # Errors
/// As [`Job::questions`].
///
/// ```
/// use satline::Refrigerant;
/// use satline::expected::ChartSet;
/// use satline::inspection::DisplayUnits;
/// use satline::quantity::{PressureUnit, TemperatureUnit};
/// use satline::report::{Language, job_page};
/// use satline::service::job::Job;
/// use satline::service::oil::kind::CompressorDrive;
/// let job = Job::new(Refrigerant::R134a, "620 g".parse()?, CompressorDrive::Belt);
/// let (charts, units) = (ChartSet::new(job.refrigerant)?, DisplayUnits::new(PressureUnit::Bar, TemperatureUnit::Celsius));
/// let page = job_page(&job, &charts, None, &units, Language::Spanish)?;
/// assert!(page.title().starts_with("Hoja de trabajo: R-134a"));
/// # Ok::<(), satline::Error>(())
/// ```
pub fn job_page(
    job: &Job,
    charts: &ChartSet,
    healthy: Option<&ExpectedWindow>,
    units: &DisplayUnits,
    language: Language,
) -> Result<Page, Error> {
    Ok(self::job(job, charts, healthy, units)?.page_in(language))
}

/// The number of a source, counted from 1; a new one goes to the end.
fn number(sources: &mut Vec<Source>, source: Source) -> usize {
    let at = sources.iter().position(|known| *known == source).unwrap_or_else(|| {
        sources.push(source);
        sources.len() - 1
    });
    at + 1
}

const fn row(quantity: WindowName, window: Span, basis: WindowGround) -> WindowRow {
    WindowRow { quantity, window, basis }
}

/// What healthy cars show on the day, nine tenths of them.
fn computed(healthy: &ExpectedWindow, units: &DisplayUnits) -> Vec<WindowRow> {
    let basis = WindowGround::Circuits { circuits: healthy.circuits() };
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
    .filter_map(|(name, window)| Some(row(name, window?.rounded(), basis)))
    .collect()
}

/// The printed windows of the day, and the sources of the charts behind them.
fn printed(sheet: &JobSheet, charts: &ChartSet, units: &DisplayUnits) -> (Vec<WindowRow>, Vec<Source>) {
    let Some(ambient) = sheet.job.ambient else { return (Vec::new(), Vec::new()) };
    let day = Conditions { ambient, humidity: sheet.job.humidity, air: sheet.air.value(), settings: Settings::TEST };
    let (mut rows, mut sources) = (Vec::new(), Vec::new());
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
            rows.push(row(name, span, WindowGround::Charts { charts: window.vouched().count(), carried_over }));
        }
    }
    let vent = charts.vent(&day);
    sources.extend(vent.vouched().map(|band| band.chart.source));
    if let Some(range) = vent.range() {
        let at = |t: Temperature| t.value_in(units.temperature);
        let span = Span::new(at(range.low), at(range.high), units.temperature.symbol(), 1);
        let carried_over = vent.vouched().map(|band| derived(band.basis)).sum();
        rows.push(row(WindowName::Vent, span, WindowGround::Charts { charts: vent.vouched().count(), carried_over }));
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
            rows.push(row(name, span, WindowGround::RuleOfThumb));
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

#[cfg(test)]
mod tests;
