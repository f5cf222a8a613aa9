//! Every sentence of a reading, one by one.

#![cfg(test)]

use std::collections::BTreeSet;

use super::{every, same, same_lists};
use crate::circuit::{CircuitKind, CompressorKind};
use crate::diagnosis::{
    CauseId, Fault, Headline, JudgedQuantity, LeadingGroup, Likeliest, NextStep, OtherCauses, Outside, QuestionedInput,
    Stop, UnitQuestion,
};
use crate::expected::{EqualisedVerdict, Side};
use crate::inspection::Measurand;
use crate::quantity::{Position, PressureUnit};
use crate::report::causes::PriorName;
use crate::report::words::en::tests::report;
use crate::report::words::{Label, Reasons, Words, cautions_in_short};
use crate::report::{
    AirSource, Amount, CauseRow, Causes, Caution, FaultSizeRow, Healthy, InstrumentRow, Language, Mark, NextRow,
    OutcomeRow, PredictedRow, Report, ReportedState, SourceRow, SourceTopic, Span, Statement,
};
use crate::{Refrigerant, Temperature};

/// What English says, and what another language says.
fn both<T>(says: impl Fn(&dyn Words) -> T) -> [T; 2] {
    [Language::English, Language::Spanish].map(|language| says(language.words()))
}

#[track_caller]
fn told<S: Into<String>>(says: impl Fn(&dyn Words) -> S) {
    let [english, other] = both(|words| says(words).into());
    same(&english, &other);
}

fn positions() -> Vec<Position> {
    every![Position::Below => Position::Below, Position::Within => Position::Within, Position::Above => Position::Above]
}

fn verdicts() -> Vec<EqualisedVerdict> {
    use EqualisedVerdict::{AboveSaturation, AtSaturation, LiquidGone, NotEqualised};
    every![NotEqualised => NotEqualised, LiquidGone => LiquidGone, AtSaturation => AtSaturation,
        AboveSaturation => AboveSaturation]
}

fn bar(value: f64) -> Amount {
    Amount::new(value, Some(1.5), "bar", 1)
}

fn predicted(measurand: Measurand, bayes_factor: f64) -> PredictedRow {
    let amount = |value| Amount::new(value, None, "°C", 1);
    PredictedRow { reading: 0, measurand, read: amount(17.8), expected: amount(5.2), bayes_factor }
}

fn row(id: CauseId, fault: Option<Fault>) -> CauseRow {
    let predicted = vec![
        predicted(Measurand::Vent, 7.6),
        predicted(Measurand::SuctionLine, 2345.0),
        predicted(Measurand::LowSide, 0.2),
    ];
    CauseRow {
        id,
        probability: 0.6,
        detectable_fraction: 0.9,
        hidden_probability: 0.02,
        marginal_probability: 0.7,
        indistinguishable_from: Vec::new(),
        size: fault.map(|fault| FaultSizeRow { fault, low: 0.15, high: 0.345 }),
        predicted,
        observation_bayes_factor: 2.4,
        in_print: Vec::new(),
    }
}

fn likeliest(cause: CauseId, combined: bool, settled: bool) -> Likeliest {
    Likeliest { causes: vec![cause, CauseId::Air], probability: 0.82, combined, settled }
}

/// A report in which `cause` leads, then another, then no fault.
pub(super) fn led_by(cause: CauseId, fault: Option<Fault>) -> Report {
    let mut report = report();
    let second = if cause == CauseId::Air { CauseId::Icing } else { CauseId::Air };
    let causes = vec![row(cause, fault), row(second, Some(Fault::NonCondensables)), row(CauseId::NoFault, None)];
    let measurement = |&measurand: &Measurand| NextRow {
        measurand,
        effort: measurand.effort(),
        information_bits: 0.5,
        outcomes: [CauseId::Undercharge, CauseId::Overcharge]
            .map(|cause| OutcomeRow { cause, shows: Amount::new(12.5, Some(3.5), "°C", 1) })
            .to_vec(),
    };
    let next: Vec<NextRow> = Measurand::ALL.iter().map(measurement).collect();
    let (circuits, prior) = (12_345, PriorName::Workshop);
    report.causes = Some(Causes { circuits, prior, faulty: true, outside_model: false, causes, next });
    let group = |causes: &[CauseId], probability| LeadingGroup {
        causes: causes.to_vec(),
        probability,
        supporting: vec![0, 1],
        contradicting: vec![2],
    };
    report.advice.leading =
        vec![group(&[cause, CauseId::Moisture], 0.6), group(&[second], 0.25), group(&[CauseId::NoFault], 0.06)];
    report.advice.headline =
        Headline::Faulty { low_side_at_air: false, outside: outside(), likeliest: likeliest(cause, true, false) };
    report.advice.others = Some(OtherCauses { count: 19, probability: 0.09 });
    report.advice.undetectable = vec![CauseId::Icing, cause];
    report.advice.indistinguishable = Some([cause, second]);
    report.advice.stops = vec![Stop::LowSideInVacuum, Stop::HighSideAtCutOut];
    report.advice.next = steps(cause);
    report.meaning = statements();
    report
}

fn outside() -> Vec<Outside> {
    let one = |quantity, position| Outside { quantity, position };
    vec![
        one(JudgedQuantity::Measured(Measurand::LowSide), Position::Below),
        one(JudgedQuantity::Superheat, Position::Above),
        one(JudgedQuantity::Subcooling, Position::Above),
        one(JudgedQuantity::Measured(Measurand::Vent), Position::Above),
    ]
}

/// Every next step.
fn steps(cause: CauseId) -> Vec<NextStep> {
    let charge = |undercharge, unlikely, settled| NextStep::NoChargeByLowSide { undercharge, unlikely, settled };
    let mut steps = every![
        NextStep::Remedy { .. } => NextStep::Remedy { cause },
        NextStep::Measure { .. } => NextStep::Measure { measurand: Measurand::Vent },
        NextStep::NoChargeByLowSide { .. } => charge(Some(0.82), false, true),
        NextStep::Usual { .. } => NextStep::Usual { measurand: Measurand::Vent },
        NextStep::Ambient => NextStep::Ambient,
        NextStep::Humidity => NextStep::Humidity,
        NextStep::RepeatAsChartsAsk => NextStep::RepeatAsChartsAsk,
        NextStep::CompareTemperatures => NextStep::CompareTemperatures,
        NextStep::CoolDownAndRepeat => NextStep::CoolDownAndRepeat,
        NextStep::FollowLiquidLine => NextStep::FollowLiquidLine,
        NextStep::KeepCompressorOff => NextStep::KeepCompressorOff,
        NextStep::ReadRunning => NextStep::ReadRunning,
    ];
    steps.extend([charge(Some(0.42), false, false), charge(Some(0.02), true, false), charge(None, false, false)]);
    for &measurand in Measurand::ALL {
        steps.extend([NextStep::Measure { measurand }, NextStep::Usual { measurand }]);
    }
    steps
}

/// Every statement about a reading, in every position and with a doubt.
pub(super) fn statements() -> Vec<Statement> {
    let (side, doubt) = (Side::High, Some(0.62));
    let mut all = every![
        Statement::SideAmongCircuits { .. } =>
            Statement::SideAmongCircuits { side, position: Position::Below, fraction_below: 0.0, doubt },
        Statement::NoAmbient => Statement::NoAmbient,
        Statement::NoChart => Statement::NoChart,
        Statement::SideByCharts { .. } => Statement::SideByCharts {
            side, position: Position::Within, inside: 1, charts: 1, carried_over: true, doubt
        },
        Statement::SideBeyondCharts { .. } => Statement::SideBeyondCharts { side, covered: Some([15.4, 45.0]) },
        Statement::TranscriticalHighSide { .. } => Statement::TranscriticalHighSide {
            read: bar(97.2), by_ambient: Some(bar(85.5)), by_outlet: Some(bar(91.0))
        },
        Statement::SidesNearlyEqual => Statement::SidesNearlyEqual,
        Statement::Superheat { .. } => Statement::Superheat { position: None, doubt },
        Statement::SuperheatImpossible => Statement::SuperheatImpossible,
        Statement::NoSuperheat => Statement::NoSuperheat,
        Statement::Subcooling { .. } => Statement::Subcooling { position: None, doubt },
        Statement::SubcoolingImpossible => Statement::SubcoolingImpossible,
        Statement::NoSubcooling => Statement::NoSubcooling,
        Statement::CondensingOverAmbient { .. } => Statement::CondensingOverAmbient { position: None, doubt },
        Statement::Vent { .. } => Statement::Vent { position: None, among_circuits: true, doubt },
        Statement::VentImpossible => Statement::VentImpossible,
        Statement::NamesNoCause => Statement::NamesNoCause,
        Statement::Equalised { .. } =>
            Statement::Equalised { verdict: EqualisedVerdict::LiquidGone, at_air: true, doubt },
        Statement::EqualisedResolution { .. } => Statement::EqualisedResolution { kpa: 12.4, psi: 1.8 },
    ];
    for position in positions() {
        for side in [Side::Low, Side::High] {
            for fraction_below in [0.0, 0.42, 1.0] {
                all.push(Statement::SideAmongCircuits { side, position, fraction_below, doubt: None });
            }
            for (charts, carried_over) in [(1, true), (5, false)] {
                all.push(Statement::SideByCharts { side, position, inside: 1, charts, carried_over, doubt: None });
            }
        }
        let (some, doubt) = (Some(position), None);
        all.extend([
            Statement::Superheat { position: some, doubt },
            Statement::Subcooling { position: some, doubt },
            Statement::CondensingOverAmbient { position: some, doubt },
            Statement::Vent { position: some, among_circuits: true, doubt },
            Statement::Vent { position: some, among_circuits: false, doubt },
        ]);
    }
    all.push(Statement::SideBeyondCharts { side: Side::Low, covered: None });
    for (by_ambient, by_outlet) in [(None, None), (Some(bar(85.0)), None), (None, Some(bar(91.0)))] {
        all.push(Statement::TranscriticalHighSide { read: bar(97.0), by_ambient, by_outlet });
    }
    for verdict in verdicts() {
        all.push(Statement::Equalised { verdict, at_air: false, doubt: None });
    }
    all
}

#[test]
fn every_word_of_a_table_has_its_translation() {
    use Label::*;
    let labels = every![
        Questions => Questions, Pressures => Pressures, Healthy => Healthy, Causes => Causes, Next => Next, Safety => Safety,
        Meaning => Meaning, AgainstSaturation => AgainstSaturation, AgainstPrint => AgainstPrint, Charts => Charts,
        Sources => Sources, Read => Read, Window => Window, Result => Result, Gauge => Gauge, Absolute => Absolute,
        SaturatedAt => SaturatedAt, DewPoint => DewPoint, BubblePoint => BubblePoint, Chart => Chart, NoWindow => NoWindow,
        AboveCritical => AboveCritical, Low => Low, High => High, EngineOff => EngineOff, Unjudged => Unjudged,
        AboveCriticalPressure => AboveCriticalPressure,
    ];
    labels.iter().for_each(|&label| told(|words| words.label(label)));
    // no two of them are alike in any language
    for language in 0..2 {
        let named: BTreeSet<&str> = labels.iter().map(|&label| both(|words| words.label(label))[language]).collect();
        assert_eq!(named.len(), labels.len(), "{named:?}");
    }
    let spanish = [Safety, Next, Low, High].map(|label| both(|words| words.label(label))[1]);
    assert_eq!(spanish, ["Seguridad", "Qué hacer ahora", "baja", "alta"]);
    for &measurand in Measurand::ALL {
        told(|words| words.measurand(measurand));
        told(|words| words.quantity(JudgedQuantity::Measured(measurand)));
    }
    use JudgedQuantity::{CondensingOverAmbient, EqualisedMean, Measured, Subcooling, Superheat};
    let quantities = every![Measured(_) => Measured(Measurand::Vent), Superheat => Superheat, Subcooling => Subcooling,
        CondensingOverAmbient => CondensingOverAmbient, EqualisedMean => EqualisedMean];
    quantities.iter().for_each(|&quantity| told(|words| words.quantity(quantity)));
    [Side::Low, Side::High].iter().for_each(|&side| told(|words| words.side(side)));
    positions().iter().for_each(|&position| told(|words| words.position(position)));
    verdicts().iter().for_each(|&verdict| told(|words| words.equalised(verdict)));
    let marks = every![Mark::CarriedOver => Mark::CarriedOver, Mark::OtherHumidity => Mark::OtherHumidity,
        Mark::OneRange => Mark::OneRange, Mark::NotCounted => Mark::NotCounted, Mark::OtherCars => Mark::OtherCars];
    for &mark in &marks {
        told(|words| words.mark(mark).1);
        let [english, other] = both(|words| words.mark(mark).0);
        assert_eq!(english, other);
    }
    for &refrigerant in Refrigerant::ALL {
        for kind in CircuitKind::main(refrigerant) {
            told(|words| words.kind(&kind));
            let full = CircuitKind {
                compressor: CompressorKind::External,
                internal_exchanger: true,
                rear_evaporator: true,
                ..kind
            };
            told(|words| words.kind(&full));
        }
    }
}

#[test]
fn every_cause_and_every_size_is_worded() {
    for cause in crate::diagnosis::ALL {
        let [english, other] = both(|words| words.cause(cause.id));
        for (english, other) in [
            (english.name, other.name),
            (english.shows, other.shows),
            (english.why, other.why),
            (english.against, other.against),
            (english.next, other.next),
            (english.caution, other.caution),
        ] {
            same(english, other);
        }
        for &fault in Fault::ALL {
            let report = led_by(cause.id, Some(fault));
            for reasons in [Reasons::Full, Reasons::Short] {
                let [english, other] = both(|words| words.explanation(&report, reasons));
                same_lists(&english, &other);
            }
        }
    }
    // sizes of both signs and of each heaviness
    for (fault, low, high) in [
        (Fault::WrongBore, -0.27, -0.06),
        (Fault::WrongBore, -0.2, 0.07),
        (Fault::SuctionBlocked, 0.7, 1.4),
        (Fault::SuctionBlocked, 1.5, 2.0),
        (Fault::DischargeBlocked, 0.8, 2.0),
        (Fault::ReceiverInletBlocked, 2.6, 3.3),
        (Fault::HotCondenserAir, 6.0, 25.0),
    ] {
        let mut report = led_by(CauseId::WrongOrifice, Some(fault));
        report.causes.as_mut().unwrap().causes[0].size = Some(FaultSizeRow { fault, low, high });
        let [english, other] = both(|words| words.explanation(&report, Reasons::Full));
        same_lists(&english, &other);
    }
    for prior in every![PriorName::Workshop => PriorName::Workshop, PriorName::Uniform => PriorName::Uniform,
        PriorName::Given => PriorName::Given]
    {
        let mut report = led_by(CauseId::Air, None);
        report.causes.as_mut().unwrap().prior = prior;
        let [english, other] = both(|words| words.explanation(&report, Reasons::Full));
        same_lists(&english, &other);
    }
    let mut outside = led_by(CauseId::Air, None);
    outside.causes.as_mut().unwrap().outside_model = true;
    let [english, other] = both(|words| words.explanation(&outside, Reasons::Full));
    same_lists(&english, &other);
}

#[test]
fn every_headline_stop_step_and_statement_is_worded() {
    let (no_fault, low_side_at_air) = (0.42, true);
    let mut headlines = every![
        Headline::ComparedOnly { .. } => Headline::ComparedOnly { low_side_at_air },
        Headline::Empty => Headline::Empty,
        Headline::NoLiquidLeft => Headline::NoLiquidLeft,
        Headline::LiquidLineBelowAmbient => Headline::LiquidLineBelowAmbient,
        Headline::HighSideAtAir => Headline::HighSideAtAir,
        Headline::Equalised => Headline::Equalised,
        Headline::OutsideModel { .. } => Headline::OutsideModel { low_side_at_air: false },
        Headline::NothingUnusualYet { .. } => Headline::NothingUnusualYet { low_side_at_air, no_fault },
        Headline::Healthy { .. } => Headline::Healthy { no_fault },
        Headline::Unusual { .. } => Headline::Unusual {
            low_side_at_air, outside: outside(), likeliest: likeliest(CauseId::Air, false, true), no_fault: Some(0.3)
        },
        Headline::Faulty { .. } => Headline::Faulty {
            low_side_at_air, outside: Vec::new(), likeliest: likeliest(CauseId::Icing, true, false)
        },
    ];
    headlines.push(Headline::OutsideModel { low_side_at_air });
    headlines.push(Headline::Faulty {
        low_side_at_air: false,
        outside: outside(),
        likeliest: likeliest(CauseId::Air, false, true),
    });
    for headline in headlines {
        for mut report in [report(), led_by(CauseId::Air, None)] {
            report.advice.headline = headline.clone();
            told(|words| words.headline(&report));
            report.advice.leading.retain(|group| group.causes[0] == CauseId::NoFault);
            told(|words| words.headline(&report));
        }
    }
    for stop in every![Stop::LowSideInVacuum => Stop::LowSideInVacuum, Stop::HighSideAtCutOut => Stop::HighSideAtCutOut]
    {
        told(|words| words.stop(stop));
    }
    for cause in crate::diagnosis::ALL {
        let report = led_by(cause.id, None);
        for step in steps(cause.id) {
            told(|words| words.step(&step, report.causes.as_ref(), false));
            told(|words| words.step(&step, report.causes.as_ref(), true));
        }
    }
    let report = report();
    statements().iter().for_each(|statement| told(|words| words.statement(statement, &report)));
}

#[test]
fn the_opening_the_questions_and_the_cautions_are_worded() {
    let mut report = report();
    for blend in [false, true] {
        for state in [ReportedState::Running, ReportedState::Equalised] {
            (report.opening.blend, report.state, report.invented) = (blend, state, blend);
            told(|words| words.title(&report));
        }
    }
    (report.opening.ambient, report.opening.humidity) = (Some("30.5 °C".to_owned()), Some("55 %".to_owned()));
    let entered = "300.5 m".to_owned();
    for source in every![AirSource::Barometer => AirSource::Barometer, AirSource::Altitude { .. } =>
        AirSource::Altitude { entered: entered.clone() }, AirSource::SeaLevel => AirSource::SeaLevel]
    {
        report.opening.air_source = source;
        for unread in
            [vec![], vec![Measurand::LowSide], vec![Measurand::HighSide], vec![Measurand::LowSide, Measurand::HighSide]]
        {
            report.advice.unread_gauges = unread;
            let [english, other] = both(|words| words.opening(&report));
            same_lists(&english, &other);
        }
    }
    use crate::quantity::instrument::{PressureGauge, Thermometer};
    let gauges = [
        PressureGauge::SERVICE_LOW,
        PressureGauge::SERVICE_HIGH,
        PressureGauge::CARBON_DIOXIDE_LOW,
        PressureGauge::CARBON_DIOXIDE_HIGH,
        PressureGauge::SERVICE_LOW.digital(),
    ];
    let thermometers = [
        Thermometer::CLAMPED_THERMOCOUPLE,
        Thermometer::THERMOCOUPLE_IN_AIR,
        Thermometer::DIGITAL_IN_AIR,
        Thermometer::CLAMPED_DIGITAL,
    ];
    let gauges = gauges.iter().map(|gauge| InstrumentRow::gauge(gauge, Side::Low));
    let thermometers = thermometers.iter().map(|thermometer| InstrumentRow::thermometer(thermometer, true));
    report.opening.instruments = gauges.chain(thermometers).collect();
    told(|words| words.instruments(&report.opening));

    let (entered, instead) = ("2.2 psi".to_owned(), "2.2 bar".to_owned());
    let questions = every![
        UnitQuestion::OtherUnit { .. } => UnitQuestion::OtherUnit {
            input: QuestionedInput::Ambient, entered: entered.clone(), instead: instead.clone()
        },
        UnitQuestion::VacuumSign { .. } => UnitQuestion::VacuumSign { entered: "20.5 inHg".to_owned() },
        UnitQuestion::ReducedToSeaLevel { .. } => UnitQuestion::ReducedToSeaLevel {
            entered: "1013.5 hPa".to_owned(), instead: "955 hPa".to_owned()
        },
    ];
    questions.iter().for_each(|question| told(|words| words.question(question)));
    for &measurand in Measurand::ALL {
        let (entered, instead) = (entered.clone(), instead.clone());
        let question = UnitQuestion::OtherUnit { input: QuestionedInput::Measurand(measurand), entered, instead };
        told(|words| words.question(&question));
    }
    for refrigerant in Refrigerant::ALL.iter().map(ToString::to_string) {
        let cautions = every![
            Caution::Pressure => Caution::Pressure, Caution::MovingAndHot => Caution::MovingAndHot,
            Caution::Asphyxiation => Caution::Asphyxiation, Caution::TranscriticalPressure => Caution::TranscriticalPressure,
            Caution::CarbonDioxide => Caution::CarbonDioxide, Caution::DryIce => Caution::DryIce,
            Caution::ReleaseAsTheMakerSays => Caution::ReleaseAsTheMakerSays, Caution::Recover => Caution::Recover,
            Caution::FlammableA2l => Caution::FlammableA2l, Caution::FlammableA2 => Caution::FlammableA2,
            Caution::FlammableA3 => Caution::FlammableA3, Caution::HighVoltage => Caution::HighVoltage, Caution::MakersData => Caution::MakersData,
        ];
        for caution in cautions {
            told(|words| words.caution(caution, &refrigerant));
            report.cautions = vec![Caution::Pressure, caution];
            told(|words| cautions_in_short(words, &report));
        }
    }
    told(|words| words.saturated(&report).unwrap());
    report.gauges[0].saturation = None;
    told(|words| words.saturated(&report).unwrap());
}

#[test]
fn the_windows_and_the_sources_are_worded() {
    let kinds = CircuitKind::main(Refrigerant::R134a);
    for kinds in [&kinds[..1], &kinds[..]] {
        for missing in [0, 3] {
            for (effective_circuits, few_near_baselines) in [(None, false), (Some(53.4), false), (Some(3.2), true)] {
                for baselines in [1, 2] {
                    let healthy = Healthy {
                        kinds: kinds.to_vec(),
                        circuits: 256,
                        missing,
                        assumed_humidity: (missing > 0).then(|| Span::new(30.0, 80.0, "%", 0)),
                        baselines,
                        effective_circuits,
                        few_near_baselines,
                        rows: Vec::new(),
                    };
                    told(|words| words.behind(&healthy));
                    told(|words| words.behind_in_short(&healthy));
                }
            }
        }
    }
    let (circuits, prior) = (1234, PriorName::Uniform);
    let topics = every![
        SourceTopic::Saturation => SourceTopic::Saturation, SourceTopic::Barometer => SourceTopic::Barometer,
        SourceTopic::AirPressure => SourceTopic::AirPressure, SourceTopic::Weather => SourceTopic::Weather,
        SourceTopic::Gauges => SourceTopic::Gauges, SourceTopic::Thermometers => SourceTopic::Thermometers,
        SourceTopic::Clamp => SourceTopic::Clamp, SourceTopic::Compressor => SourceTopic::Compressor,
        SourceTopic::OrificeTube => SourceTopic::OrificeTube, SourceTopic::Sizes => SourceTopic::Sizes,
        SourceTopic::Chart { .. } => SourceTopic::Chart { chart: "car-9".into(), system: "TXV".into() },
        SourceTopic::RulesOfThumb => SourceTopic::RulesOfThumb, SourceTopic::BestByAmbient => SourceTopic::BestByAmbient,
        SourceTopic::BestByOutlet => SourceTopic::BestByOutlet,
        SourceTopic::Causes { .. } => SourceTopic::Causes { circuits, prior },
        SourceTopic::Recovery => SourceTopic::Recovery, SourceTopic::Observations => SourceTopic::Observations,
    ];
    for topic in topics {
        for source in [String::new(), "Obra 1987".to_owned()] {
            let row = SourceRow { topic: topic.clone(), source };
            told(|words| words.source(&row, "R-134a"));
        }
    }
}

/// What stands beside a page: a purity, the refrigerants that fit, one line of a log.
#[test]
fn purity_identity_and_the_line_of_a_log_are_worded() {
    use crate::report::purity::identity_statements;
    use crate::service::StaticReading;
    use crate::service::identify::{INDEPENDENT, RefrigerantIdentification};
    use crate::service::non_condensables::Purity;
    use crate::{Measured, Pressure, PressureDifference, TemperatureDifference};
    let pair = |bar: f64, off: f64, celsius: f64| StaticReading {
        pressure: Measured::new(Pressure::from_bar(bar), PressureDifference::from_bar(off)).unwrap(),
        temperature: Measured::new(Temperature::from_celsius(celsius), TemperatureDifference::from_kelvins(0.5))
            .unwrap(),
    };
    for bar in [9.0, 6.7, 5.0] {
        let StaticReading { pressure, temperature } = pair(bar, 0.1, 25.0);
        let purity = Purity::of(Refrigerant::R134a, &pressure, &temperature).unwrap();
        for unit in [PressureUnit::Bar, PressureUnit::Psi] {
            same_lists(&Language::English.purity(&purity, unit), &Language::Spanish.purity(&purity, unit));
        }
    }
    let nothing = RefrigerantIdentification {
        candidates: Vec::new(),
        not_compared: Vec::new(),
        lower: Vec::new(),
        higher: Vec::new(),
    };
    let mut statements = identity_statements(&nothing).len();
    same_lists(&Language::English.identity(&nothing), &Language::Spanish.identity(&nothing));
    for (bar, off, celsius) in
        [(30.0, 0.1, 20.0), (57.3, 0.5, 20.0), (5.8, 0.3, 20.0), (80.0, 0.1, 20.0), (10.0, 0.1, 40.0)]
    {
        let found = RefrigerantIdentification::of(&[pair(bar, off, celsius)], INDEPENDENT).unwrap();
        statements += identity_statements(&found).len();
        same_lists(&Language::English.identity(&found), &Language::Spanish.identity(&found));
    }
    assert!(statements > 10, "{statements}");
    for label in [
        "130 cc",
        "130 cc (4.6 fl oz)",
        "90–110 cm³ (3.1–4.0 oz)",
        "150 g",
        "5 oz",
        "140 cm³ (4.7 oz)",
        "150 cm³ (5 oz)",
    ] {
        let label = label.parse().unwrap();
        same_lists(&Language::English.oil_label(&label), &Language::Spanish.oil_label(&label));
    }
    use crate::diagnosis::Diagnosis;
    use crate::report::verdict_line;
    for (low, high, ambient) in [("30.5 psi", "180 psi", Some("86 °F")), ("30.5 psi", "180 psi", None)] {
        let asked = Diagnosis::of(Refrigerant::R134a).low(low).unwrap().high(high).unwrap();
        let asked = ambient.iter().fold(asked, |asked, ambient| asked.ambient(ambient).unwrap());
        let row = asked.assess().unwrap();
        let line = |language| verdict_line(row.assessment(), &row.entry().units(), language);
        same(&line(Language::English), &line(Language::Spanish));
    }
}
