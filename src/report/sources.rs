//! Where the numbers of a report come from.

use super::Text;
use super::reading::AirSource;
use crate::circuit::{EFFICIENCY, ExpansionKind, SHORT_TUBE};
use crate::diagnosis::{Assessment, COUNTS, Posterior};
use crate::expected::{Chart, carbon_dioxide};
use crate::inspection::{Effort, Instruments, Measurand, RECOVERED_FRACTION, Reading};
use crate::quantity::instrument::{BAROMETER_LIMIT, CLAMP_SOURCE};
use crate::{Source, air};

/// A source and what it is for.
#[derive(Debug, Clone, PartialEq)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(deny_unknown_fields))]
#[non_exhaustive]
pub struct SourceRow {
    /// What it is for.
    pub topic: SourceTopic,
    /// Work, place in it and mark, in the language of the work; empty where the topic says all there is.
    pub source: String,
}

/// What a source is for.
#[derive(Debug, Clone, PartialEq)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(
    feature = "serde",
    derive(serde::Serialize, serde::Deserialize),
    serde(tag = "id", rename_all = "kebab-case", deny_unknown_fields)
)]
#[non_exhaustive]
pub enum SourceTopic {
    /// The saturation lines of the refrigerant.
    #[cfg_attr(feature = "serde", serde(deserialize_with = "crate::diagnosis::no_fields"))]
    Saturation,
    /// The limit of error of the barometer.
    #[cfg_attr(feature = "serde", serde(deserialize_with = "crate::diagnosis::no_fields"))]
    Barometer,
    /// Air pressure by altitude.
    #[cfg_attr(feature = "serde", serde(deserialize_with = "crate::diagnosis::no_fields"))]
    AirPressure,
    /// The spread of the weather.
    #[cfg_attr(feature = "serde", serde(deserialize_with = "crate::diagnosis::no_fields"))]
    Weather,
    /// The gauges.
    #[cfg_attr(feature = "serde", serde(deserialize_with = "crate::diagnosis::no_fields"))]
    Gauges,
    /// The thermometers.
    #[cfg_attr(feature = "serde", serde(deserialize_with = "crate::diagnosis::no_fields"))]
    Thermometers,
    /// The clamp on a line.
    #[cfg_attr(feature = "serde", serde(deserialize_with = "crate::diagnosis::no_fields"))]
    Clamp,
    /// The compressor of healthy circuits.
    #[cfg_attr(feature = "serde", serde(deserialize_with = "crate::diagnosis::no_fields"))]
    Compressor,
    /// The orifice tube of healthy circuits.
    #[cfg_attr(feature = "serde", serde(deserialize_with = "crate::diagnosis::no_fields"))]
    OrificeTube,
    /// The sizes of healthy circuits.
    #[cfg_attr(feature = "serde", serde(deserialize_with = "crate::diagnosis::no_fields"))]
    Sizes,
    /// A printed chart.
    Chart {
        /// Its short name.
        chart: Text,
        /// The system it was printed for.
        system: Text,
    },
    /// Usual superheat, subcooling and condensing temperature over ambient.
    #[cfg_attr(feature = "serde", serde(deserialize_with = "crate::diagnosis::no_fields"))]
    RulesOfThumb,
    /// The best high side by ambient.
    #[cfg_attr(feature = "serde", serde(deserialize_with = "crate::diagnosis::no_fields"))]
    BestByAmbient,
    /// The best high side by the outlet of the gas cooler.
    #[cfg_attr(feature = "serde", serde(deserialize_with = "crate::diagnosis::no_fields"))]
    BestByOutlet,
    /// The circuits behind the causes, under a uniform prior.
    Causes {
        /// How many were simulated.
        circuits: usize,
    },
    /// What recovery leaves behind.
    #[cfg_attr(feature = "serde", serde(deserialize_with = "crate::diagnosis::no_fields"))]
    Recovery,
    /// What was found.
    #[cfg_attr(feature = "serde", serde(deserialize_with = "crate::diagnosis::no_fields"))]
    Observations,
}

/// The list, each source once.
#[derive(Default)]
struct List(Vec<SourceRow>);

impl List {
    fn add(&mut self, topic: SourceTopic, source: impl ToString) {
        let row = SourceRow { topic, source: source.to_string() };
        if !self.0.contains(&row) {
            self.0.push(row);
        }
    }

    fn chart(&mut self, chart: &Chart) {
        let topic = SourceTopic::Chart { chart: chart.id.into(), system: chart.system.into() };
        self.add(topic, chart.source);
    }
}

/// Whether a thermometer was clamped on a line that a page shows.
pub(super) fn is_clamped(reading: &Reading) -> bool {
    // beside both gauges the discharge line is judged through the causes alone
    let discharge = reading.low().is_none() || reading.high().is_none();
    let shown = |line: Measurand| line != Measurand::DischargeLine || discharge;
    let mut clamped = Measurand::ALL.iter().filter(|line| line.effort() == Effort::Clamp && shown(**line));
    clamped.any(|&line| reading.temperature(line).is_some())
}

/// Every source of a report.
pub(super) fn sources(
    reading: &Reading,
    air_source: &AirSource,
    assessment: &Assessment,
    instruments: &Instruments,
    posterior: Option<&Posterior>,
) -> Vec<SourceRow> {
    let mut list = List::default();
    let refrigerant = reading.refrigerant();
    list.add(SourceTopic::Saturation, refrigerant.dew_line().source);
    if matches!(air_source, AirSource::Barometer) {
        list.add(SourceTopic::Barometer, BAROMETER_LIMIT.source);
    } else {
        list.add(SourceTopic::AirPressure, air::STANDARD);
        list.add(SourceTopic::Weather, air::WEATHER_SPREAD.source);
    }
    for gauge in [reading.low().map(|_| instruments.low), reading.high().map(|_| instruments.high)] {
        gauge.into_iter().for_each(|gauge| list.add(SourceTopic::Gauges, gauge.source));
    }
    list.add(SourceTopic::Thermometers, instruments.line.source);
    if is_clamped(reading) {
        list.add(SourceTopic::Clamp, CLAMP_SOURCE);
    }
    if let Some(window) = &assessment.expected {
        list.add(SourceTopic::Compressor, EFFICIENCY);
        if window.kinds.iter().any(|kind| kind.expansion == ExpansionKind::OrificeTube) {
            list.add(SourceTopic::OrificeTube, SHORT_TUBE);
        }
        list.add(SourceTopic::Sizes, "");
    }
    let sides = [&assessment.low, &assessment.high];
    for band in sides.into_iter().flatten().flat_map(|side| &side.charted.bands) {
        list.chart(band.chart);
    }
    if reading.temperature(Measurand::Vent).is_some() {
        assessment.vent.bands.iter().for_each(|band| list.chart(band.chart));
    }
    let steps = [&assessment.superheat, &assessment.subcooling, &assessment.condensing_over_ambient];
    if steps.into_iter().flatten().any(|finding| finding.usual.is_some()) {
        list.add(SourceTopic::RulesOfThumb, Source::COMMON_PRACTICE);
    }
    if refrigerant.is_transcritical() && assessment.equalised.is_none() {
        list.add(SourceTopic::BestByAmbient, carbon_dioxide::KAUF_1999);
        if reading.temperature(Measurand::LiquidLine).is_some() {
            list.add(SourceTopic::BestByOutlet, carbon_dioxide::LIAO_2000);
        }
    }
    if let Some(posterior) = posterior {
        list.add(SourceTopic::Causes { circuits: posterior.circuits }, "");
        let weighed = |value: &crate::diagnosis::PredictedValue| value.measurand == Measurand::RecoveredCharge;
        if posterior.causes.iter().any(|one| one.predicted.iter().any(weighed)) {
            list.add(SourceTopic::Recovery, RECOVERED_FRACTION.source);
        }
        list.add(SourceTopic::Observations, COUNTS);
    }
    list.0
}
