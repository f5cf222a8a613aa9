//! The job sheet in words: what to do in which order, and the basis of each line.

use super::job_steps::told;
use super::page::Page;
use super::words::JobWords;
use super::{Language, Span, Text};
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
    /// In English, one number where both ends are one.
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str(&super::words::en::NUMERALS.step(self))
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

/// The job sheet of `job` in English words, with what today's reading may show in `units`; `charts` holds the printed windows for it,
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
    worded(job, charts, healthy, units, Language::English)
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
    Ok(super::job_page::laid_out(&worded(job, charts, healthy, units, language)?, language))
}

/// The sheet in the sentences of `language`.
fn worded(
    job: &Job,
    charts: &ChartSet,
    healthy: Option<&ExpectedWindow>,
    units: &DisplayUnits,
    language: Language,
) -> Result<JobReport, Error> {
    let sheet = &job.sheet()?;
    let words = language.job_words();
    let mut sources: Vec<Source> = Vec::new();
    let mut steps: Vec<StepRow> = Vec::new();
    for (i, step) in sheet.steps.iter().enumerate() {
        let mut basis: Vec<usize> = step.basis.iter().map(|source| number(&mut sources, *source)).collect();
        basis.sort_unstable();
        let told = told(sheet, step, language);
        let cautions = step.cautions.iter().map(|caution| words.caution(*caution, job.refrigerant)).collect();
        steps.push(StepRow {
            number: i + 1,
            title: told.title,
            figure: told.figure,
            words: told.words,
            cautions,
            basis,
        });
    }
    let mut windows: Vec<WindowRow> = healthy.map_or(Vec::new(), |healthy| computed(healthy, units, words));
    let (printed, sources_of_charts) = printed(sheet, charts, units, words);
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
        read.words.push(words.window_note(note).to_owned());
    }
    Ok(JobReport {
        schema: JOB_SCHEMA.into(),
        refrigerant: job.refrigerant.to_string(),
        opening: words.opening(sheet),
        questions: sheet.questions.iter().map(|one| words.question(one)).collect(),
        steps,
        windows,
        measure: measure(sheet).into_iter().map(|what| words.measurement(what).to_owned()).collect(),
        cautions: words.cautions(job.refrigerant),
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

fn row(name: &'static str, window: Span, basis: String) -> WindowRow {
    WindowRow { name: name.into(), window, basis }
}

/// What healthy cars show on the day, nine tenths of them.
fn computed(healthy: &ExpectedWindow, units: &DisplayUnits, words: &dyn JobWords) -> Vec<WindowRow> {
    let basis = words.computed_cars(healthy.circuits());
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
    .filter_map(|(name, window)| Some(row(words.window(name), window?.rounded(), basis.clone())))
    .collect()
}

/// The printed windows of the day, and the sources of the charts behind them.
fn printed(
    sheet: &JobSheet,
    charts: &ChartSet,
    units: &DisplayUnits,
    words: &dyn JobWords,
) -> (Vec<WindowRow>, Vec<Source>) {
    let Some(ambient) = sheet.job.ambient else { return (Vec::new(), Vec::new()) };
    let day = Conditions { ambient, humidity: sheet.job.humidity, air: sheet.air.value(), settings: Settings::TEST };
    let (mut rows, mut sources) = (Vec::new(), Vec::new());
    let basis = |count: usize, derived: usize| words.charts(ChartBasis { count, derived });
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
            rows.push(row(words.window(name), span, basis(window.vouched().count(), carried_over)));
        }
    }
    let vent = charts.vent(&day);
    sources.extend(vent.vouched().map(|band| band.chart.source));
    if let Some(range) = vent.range() {
        let at = |t: Temperature| t.value_in(units.temperature);
        let span = Span::new(at(range.low), at(range.high), units.temperature.symbol(), 1);
        let carried_over = vent.vouched().map(|band| derived(band.basis)).sum();
        rows.push(row(words.window(WindowName::Vent), span, basis(vent.vouched().count(), carried_over)));
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
            rows.push(row(words.window(name), span, words.rule_of_thumb(&habit.source)));
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
mod tests {
    use approx::{abs_diff_eq, assert_abs_diff_eq};

    use super::*;
    use crate::quantity::{PressureUnit, TemperatureUnit};
    use crate::report::job_steps::tests::job as a_job;
    use crate::report::words::en::English;
    use crate::{Ratio, Trust};

    const UNITS: DisplayUnits =
        DisplayUnits { low: PressureUnit::Psi, high: PressureUnit::Bar, temperature: TemperatureUnit::Fahrenheit };

    fn said(job: &Job) -> JobReport {
        let charts = ChartSet::new(job.refrigerant).unwrap();
        super::job(job, &charts, None, &UNITS).unwrap()
    }

    fn of(refrigerant: Refrigerant, celsius: Option<f64>) -> Job {
        Job { refrigerant, ambient: celsius.map(Temperature::from_celsius), oil_kind: None, ..a_job() }
    }

    #[test]
    fn a_figure_of_one_number_is_one_number() {
        let figure =
            |low, high, decimals| StepFigure { span: Span::new(low, high, "g", decimals), standing: "".into() };
        assert_eq!(figure(549.7, 550.4, 0).to_string(), "550 g");
        assert_eq!(figure(549.7, 550.4, 1).to_string(), "549.7 to 550.4 g");
    }

    #[test]
    fn a_source_keeps_its_number() {
        let source = |work| Source { work, locator: "", doi: None, trust: Trust::Reasoned };
        let mut sources = Vec::new();
        let numbers = ["a", "b", "a", "c", "b"].map(|work| number(&mut sources, source(work)));
        assert_eq!((numbers, sources.len()), ([1, 2, 1, 3, 2], 3));
    }

    #[test]
    fn steps_are_numbered_and_rest_on_the_sources_listed() {
        let report = said(&of(Refrigerant::R134a, Some(30.0)));
        assert_eq!((&*report.schema, report.refrigerant.as_str()), (JOB_SCHEMA, "R-134a"));
        let numbers: Vec<usize> = report.steps.iter().map(|step| step.number).collect();
        assert_eq!(numbers, (1..=report.steps.len()).collect::<Vec<_>>());
        for step in &report.steps {
            assert!(step.basis.is_sorted_by(|a, b| a < b), "{:?}", step.basis);
            assert!(step.basis.iter().all(|&number| (1..=report.sources.len()).contains(&number)));
        }
        let used: std::collections::BTreeSet<usize> = report.steps.iter().flat_map(|step| step.basis.clone()).collect();
        assert_eq!(used.len(), report.sources.len());
        assert!(report.steps.iter().any(|step| !step.cautions.is_empty()));
        for texts in [&report.opening, &report.questions, &report.measure, &report.cautions, &report.sources] {
            assert!(!texts.is_empty() && texts.iter().all(|text| !text.is_empty()), "{texts:?}");
        }
    }

    #[test]
    fn the_windows_are_those_of_the_day_and_the_refrigerant() {
        use WindowNote::{Below, CarriedOver, NoAmbient, NoneCovers};
        for (job, names, note) in [
            (of(Refrigerant::R134a, None), "", NoAmbient),
            (of(Refrigerant::R290, Some(30.0)), "", NoneCovers),
            (
                of(Refrigerant::R134a, Some(30.0)),
                "low side, high side, vent, superheat, subcooling, condensing over ambient",
                Below,
            ),
            (
                of(Refrigerant::R1234yf, Some(30.0)),
                "low side, high side, vent, superheat, subcooling, condensing over ambient",
                CarriedOver,
            ),
        ] {
            let report = said(&job);
            let found: Vec<&str> = report.windows.iter().map(|row| &*row.name).collect();
            assert_eq!(found.join(", "), names, "{}", report.refrigerant);
            assert_eq!(report.steps.last().unwrap().words.last().unwrap(), English.window_note(note));
            for row in report.windows.iter().filter(|row| ["low side", "high side"].contains(&&*row.name)) {
                assert_eq!(row.basis.contains("R-134a"), note == CarriedOver, "{row:?}");
                assert_eq!(row.window.unit, if row.name == "low side" { "psi" } else { "bar" });
            }
        }
        let report = said(&of(Refrigerant::R134a, Some(30.0)));
        let row = |name: &str| report.windows.iter().find(|row| row.name == name).unwrap();
        assert_eq!(row("vent").window.unit, "°F");
        let superheat = SUPERHEAT.value.low.value_in(TemperatureUnit::Fahrenheit.step());
        // kept with nine digits
        assert_abs_diff_eq!(row("superheat").window.low, superheat, epsilon = 1e-8);
        assert!(row("low side").window.low < 40.0 && row("high side").window.high > 10.0);
    }

    #[test]
    fn noise_is_listened_for_after_a_new_compressor_on_a_belt() {
        use Measurement::{Equalised, EqualisedCarbonDioxide, Lines, Noise, OilAfterAWeek, Running};
        let of = |job: Job| measure(&job.sheet().unwrap());
        assert_eq!(of(a_job()), [Equalised, Running, Lines, Noise, OilAfterAWeek]);
        assert_eq!(of(Job { compressor: None, ..a_job() }), [Equalised, Running, Lines, OilAfterAWeek]);
        let electric = Job { drive: CompressorDrive::Electric, ..a_job() };
        assert_eq!(of(electric), [Equalised, Running, Lines, OilAfterAWeek]);
        let dioxide = Job { refrigerant: Refrigerant::R744, ..a_job() };
        assert_eq!(of(dioxide)[0], EqualisedCarbonDioxide);
    }

    #[test]
    fn a_computed_window_goes_before_the_printed_ones() {
        let job = Job { humidity: Some(Ratio::from_percent(50.0)), ..of(Refrigerant::R134a, Some(30.0)) };
        let day = Conditions {
            ambient: Temperature::from_celsius(30.0),
            humidity: job.humidity,
            air: job.sheet().unwrap().air.value(),
            settings: Settings::TEST,
        };
        let kind = crate::circuit::CircuitKind::main(Refrigerant::R134a)[0];
        let healthy = ExpectedWindow::for_day(&kind, &day).unwrap();
        let charts = ChartSet::new(Refrigerant::R134a).unwrap();
        let with = super::job(&job, &charts, Some(&healthy), &UNITS).unwrap();
        let printed = said(&job).windows;
        let (computed, rest) = with.windows.split_at(with.windows.len() - printed.len());
        assert_eq!(rest, printed);
        let names: Vec<&str> = computed.iter().map(|row| &*row.name).collect();
        assert_eq!(names, ["low side", "high side", "superheat", "subcooling", "condensing over ambient", "vent"]);
        for row in computed {
            assert!(row.basis.contains(&healthy.circuits().to_string()) && row.window.low < row.window.high, "{row:?}");
        }
        let step = TemperatureUnit::Fahrenheit.step();
        let expected = healthy.superheat.range().low.value_in(step);
        // kept with four digits
        assert!(abs_diff_eq!(computed[2].window.low, expected, epsilon = 1e-3 * expected.abs()), "{computed:?}");
    }
}
