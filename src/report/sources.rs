//! Sources of the numbers of a report.

use super::Text;
use super::causes::PriorName;
use super::reading::AirSource;
use crate::circuit::{EFFICIENCY, ExpansionKind, SHORT_TUBE};
use crate::diagnosis::{Assessment, COUNTS, Posterior, WORKSHOP_SURVEYS};
use crate::expected::{Chart, carbon_dioxide};
use crate::inspection::{Effort, Instruments, Measurand, RECOVERED_FRACTION, Reading};
use crate::quantity::instrument::{BAROMETER_LIMIT, CLAMP_SOURCE};
use crate::{Source, air};

/// A source and its topic.
#[derive(Debug, Clone, PartialEq)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(deny_unknown_fields))]
#[non_exhaustive]
pub struct SourceRow {
    /// Topic of the source.
    pub topic: SourceTopic,
    /// Work, place in it and mark, in the language of the work; empty if the topic says all there is.
    pub source: String,
}

/// Topic of a source.
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
    #[cfg_attr(feature = "serde", serde(deserialize_with = "crate::service::no_fields"))]
    Saturation,
    /// The limit of error of the barometer.
    #[cfg_attr(feature = "serde", serde(deserialize_with = "crate::service::no_fields"))]
    Barometer,
    /// Air pressure by altitude, in the standard atmosphere.
    #[cfg_attr(feature = "serde", serde(deserialize_with = "crate::service::no_fields"))]
    AirPressure,
    /// Spread of the air pressure with the weather.
    #[cfg_attr(feature = "serde", serde(deserialize_with = "crate::service::no_fields"))]
    Weather,
    /// Limits of error of the gauges.
    #[cfg_attr(feature = "serde", serde(deserialize_with = "crate::service::no_fields"))]
    Gauges,
    /// Limits of error of the thermometers.
    #[cfg_attr(feature = "serde", serde(deserialize_with = "crate::service::no_fields"))]
    Thermometers,
    /// Error of a thermometer clamped on a line.
    #[cfg_attr(feature = "serde", serde(deserialize_with = "crate::service::no_fields"))]
    Clamp,
    /// Efficiency of the compressor of healthy circuits.
    #[cfg_attr(feature = "serde", serde(deserialize_with = "crate::service::no_fields"))]
    Compressor,
    /// Flow through the orifice tube of healthy circuits.
    #[cfg_attr(feature = "serde", serde(deserialize_with = "crate::service::no_fields"))]
    OrificeTube,
    /// Ranges of the sizes of healthy circuits.
    #[cfg_attr(feature = "serde", serde(deserialize_with = "crate::service::no_fields"))]
    Sizes,
    /// A printed chart.
    Chart {
        /// Short name of the chart.
        chart: Text,
        /// System that the chart was printed for.
        system: Text,
    },
    /// Usual superheat, subcooling and condensing temperature over ambient.
    #[cfg_attr(feature = "serde", serde(deserialize_with = "crate::service::no_fields"))]
    RulesOfThumb,
    /// Best high-side pressure by the ambient temperature.
    #[cfg_attr(feature = "serde", serde(deserialize_with = "crate::service::no_fields"))]
    BestByAmbient,
    /// Best high-side pressure by the outlet temperature of the gas cooler.
    #[cfg_attr(feature = "serde", serde(deserialize_with = "crate::service::no_fields"))]
    BestByOutlet,
    /// Simulated circuits of the causes, and their prior.
    Causes {
        /// Number of circuits simulated.
        circuits: usize,
        /// Prior over the causes.
        prior: PriorName,
    },
    /// Fraction of the charge that recovery brings out.
    #[cfg_attr(feature = "serde", serde(deserialize_with = "crate::service::no_fields"))]
    Recovery,
    /// Observations by eye and hand.
    #[cfg_attr(feature = "serde", serde(deserialize_with = "crate::service::no_fields"))]
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
        let prior = PriorName::of(&posterior.prior);
        let surveys = if prior == PriorName::Workshop { WORKSHOP_SURVEYS.to_string() } else { String::new() };
        list.add(SourceTopic::Causes { circuits: posterior.circuits, prior }, surveys);
        let weighed = |value: &crate::diagnosis::PredictedValue| value.measurand == Measurand::RecoveredCharge;
        if posterior.causes.iter().any(|one| one.predicted.iter().any(weighed)) {
            list.add(SourceTopic::Recovery, RECOVERED_FRACTION.source);
        }
        list.add(SourceTopic::Observations, COUNTS);
    }
    list.0
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::Refrigerant;
    use crate::circuit::Settings;
    use crate::expected::ChartSet;
    use crate::inspection::Entry;

    const LOW: (Measurand, &str) = (Measurand::LowSide, "30 psi");
    const HIGH: (Measurand, &str) = (Measurand::HighSide, "180 psi");
    const SUCTION: (Measurand, &str) = (Measurand::SuctionLine, "48 °F");
    const DISCHARGE: (Measurand, &str) = (Measurand::DischargeLine, "160 °F");

    fn reading(refrigerant: Refrigerant, values: &[(Measurand, &str)]) -> Reading {
        let entry = values.iter().fold(Entry::default(), |entry, (of, text)| entry.enter(*of, text).unwrap());
        let entry = entry.ambient("86 °F".parse().unwrap());
        entry.reading(refrigerant, Settings::TEST, &Instruments::analogue(refrigerant)).unwrap()
    }

    fn topics(refrigerant: Refrigerant, air: &AirSource, values: &[(Measurand, &str)]) -> Vec<SourceTopic> {
        let reading = reading(refrigerant, values);
        let assessment = Assessment::of(&reading, &ChartSet::new(refrigerant).unwrap()).unwrap();
        let rows = sources(&reading, air, &assessment, &Instruments::analogue(refrigerant), None);
        rows.into_iter().map(|row| row.topic).collect()
    }

    #[test]
    fn a_clamp_counts_where_its_line_is_shown() {
        for (values, clamped) in [
            (&[LOW, HIGH][..], false),
            (&[LOW, HIGH, SUCTION], true),
            (&[LOW, HIGH, (Measurand::Vent, "50 °F")], false),
            // beside both gauges the discharge line is judged through the causes alone
            (&[LOW, HIGH, DISCHARGE], false),
            (&[LOW, DISCHARGE], true),
            (&[HIGH, DISCHARGE], true),
        ] {
            assert_eq!(is_clamped(&reading(Refrigerant::R134a, values)), clamped, "{values:?}");
        }
    }

    #[test]
    fn the_sources_are_those_of_what_is_on_the_page() {
        let gauges = topics(Refrigerant::R134a, &AirSource::SeaLevel, &[LOW, HIGH]);
        let is_chart = |topic: &SourceTopic| matches!(topic, SourceTopic::Chart { .. });
        let charts = gauges.iter().filter(|topic| is_chart(topic)).count();
        assert!(charts > 2, "{gauges:?}");
        for (topic, named) in [
            (SourceTopic::Saturation, true),
            (SourceTopic::AirPressure, true),
            (SourceTopic::Weather, true),
            (SourceTopic::Barometer, false),
            (SourceTopic::Gauges, true),
            (SourceTopic::Thermometers, true),
            (SourceTopic::Clamp, false),
            (SourceTopic::RulesOfThumb, true),
            (SourceTopic::BestByAmbient, false),
            (SourceTopic::OrificeTube, false),
        ] {
            assert_eq!(gauges.contains(&topic), named, "{topic:?}");
        }
        // each source once
        assert_eq!(gauges.iter().filter(|topic| **topic == SourceTopic::Gauges).count(), 1);
        let read = topics(Refrigerant::R134a, &AirSource::Barometer, &[LOW, HIGH, SUCTION, (Measurand::Vent, "50 °F")]);
        assert!(read.contains(&SourceTopic::Barometer) && !read.contains(&SourceTopic::Weather), "{read:?}");
        assert!(read.contains(&SourceTopic::Clamp) && read.iter().filter(|topic| is_chart(topic)).count() > charts);
        let liquid = (Measurand::LiquidLine, "104 °F");
        let over = topics(Refrigerant::R744, &AirSource::SeaLevel, &[(Measurand::HighSide, "99 bar")]);
        assert!(over.contains(&SourceTopic::BestByAmbient) && !over.contains(&SourceTopic::BestByOutlet), "{over:?}");
        let over = topics(Refrigerant::R744, &AirSource::SeaLevel, &[(Measurand::HighSide, "99 bar"), liquid]);
        assert!(over.contains(&SourceTopic::BestByOutlet), "{over:?}");
    }

    #[test]
    fn healthy_circuits_have_the_sources_of_their_parts() {
        let r = Refrigerant::R134a;
        let reading = reading(r, &[LOW, HIGH]);
        for kind in crate::circuit::CircuitKind::main(r) {
            let day = reading.conditions().unwrap();
            let window = crate::expected::ExpectedWindow::for_day(&kind, &day).unwrap();
            let assessment = Assessment::of(&reading, &ChartSet::new(r).unwrap()).unwrap().beside(window);
            let rows = sources(&reading, &AirSource::SeaLevel, &assessment, &Instruments::analogue(r), None);
            let has = |topic| rows.iter().any(|row| row.topic == topic);
            assert!(has(SourceTopic::Compressor) && has(SourceTopic::Sizes));
            assert_eq!(has(SourceTopic::OrificeTube), kind.expansion == ExpansionKind::OrificeTube, "{kind}");
        }
    }
}
