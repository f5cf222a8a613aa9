//! Tests of the English sentences about a reading.

#![cfg(test)]

use super::*;
use crate::Refrigerant;
use crate::circuit::CircuitKind;
use crate::diagnosis::{CauseId, Likeliest};
use crate::report::causes::PriorName;
use crate::report::words::Words;
use crate::report::words::en::tests::{report, says, told_apart};
use crate::report::{Amount, Causes, Language, Span, VerdictCell};

const SIDES: [Side; 2] = [Side::Low, Side::High];

fn words() -> &'static dyn Words {
    Language::English.words()
}

fn kpa(value: f64, half: f64) -> Amount {
    Amount::new(value, Some(half), "kPa", 1)
}

#[test]
fn labels_and_names_are_told_apart() {
    let label = |label| words().label(label);
    told_apart([
        (label(Label::Questions), &["what was meant"][..]),
        (label(Label::Pressures), &["Pressures"]),
        (label(Label::Healthy), &["healthy"]),
        (label(Label::Causes), &["explains"]),
        (label(Label::Next), &["next"]),
        (label(Label::Safety), &["Safety"]),
        (label(Label::Meaning), &["means"]),
        (label(Label::AgainstSaturation), &["saturation"]),
        (label(Label::AgainstPrint), &["printed"]),
        (label(Label::Charts), &["Charts"]),
        (label(Label::Sources), &["Sources"]),
        (label(Label::Read), &["read"]),
        (label(Label::Window), &["window"]),
        (label(Label::Result), &["result"]),
        (label(Label::Gauge), &["gauge"]),
        (label(Label::Absolute), &["absolute"]),
        (label(Label::SaturatedAt), &["saturated"]),
        (label(Label::DewPoint), &["dew"]),
        (label(Label::BubblePoint), &["bubble"]),
        (label(Label::Chart), &["chart"]),
        (label(Label::NoWindow), &["no window"]),
        (label(Label::AboveCritical), &["critical"]),
    ]);
    let judged = Measurand::ALL.iter().map(|&of| {
        let quantity = words().quantity(JudgedQuantity::Measured(of));
        assert_eq!(quantity, words().measurand(of));
        let says: &'static [&'static str] = match of {
            Measurand::EqualisedPressure => &["engine off"],
            Measurand::ClutchDutyCycle => &["clutch duty cycle"],
            Measurand::LowSide => &["low side"],
            Measurand::Vent => &["vent"],
            _ => &[" "],
        };
        (quantity, says)
    });
    told_apart(judged.chain([
        (words().quantity(JudgedQuantity::Superheat), &["superheat"][..]),
        (words().quantity(JudgedQuantity::Subcooling), &["subcooling"]),
        (words().quantity(JudgedQuantity::CondensingOverAmbient), &["condensing", "ambient"]),
        (words().quantity(JudgedQuantity::EqualisedMean), &["both"]),
    ]));
    assert_eq!(SIDES.map(|side| words().side(side)), ["low side", "high side"]);
    let positions = [Position::Below, Position::Within, Position::Above];
    assert_eq!(positions.map(|position| words().position(position)), ["below", "within", "above"]);
    let verdict =
        |probability| crate::report::words::verdict(words(), &VerdictCell { position: Position::Above, probability });
    assert_eq!((verdict(None), verdict(Some(0.97))), ("above".to_owned(), "above (97 %)".to_owned()));
}

#[test]
fn the_title_says_the_state_and_whether_it_is_a_blend() {
    let mut report = report();
    let said = |report: &Report| words().title(report);
    assert_eq!(said(&report), "R-134a, compressor running");
    report.state = ReportedState::Equalised;
    says(&said(&report), &["R-134a, engine off"]);
    report.opening.blend = true;
    says(&said(&report), &["engine off", "a blend", "dew line", "bubble line"]);
}

#[test]
fn the_opening_has_the_air_and_what_was_not_read() {
    let mut report = report();
    report.opening.air = kpa(101.3, 1.8);
    let said = |report: &Report| words().opening(report);
    assert_eq!(said(&report), ["Air pressure 101.3 kPa (no altitude given: sea level, weather ± 1.8 kPa)."]);
    report.opening.air_source = AirSource::Altitude { entered: "5280 ft".to_owned() };
    report.opening.ambient = Some("86 °F".to_owned());
    report.opening.humidity = Some("50 %".to_owned());
    says(
        &said(&report)[0],
        &["Ambient 86 °F, humidity 50 %, air pressure 101.3 kPa", "at 5280 ft, weather ± 1.8 kPa)."],
    );
    report.opening.air_source = AirSource::Barometer;
    assert!(said(&report)[0].ends_with("101.3 kPa by barometer."));
    report.invented = true;
    says(&said(&report)[0], &["invented"]);
    let unread = |gauges: &[Measurand]| {
        let mut report = report.clone();
        report.advice.unread_gauges = gauges.to_vec();
        said(&report).split_off(2).join(" ")
    };
    assert_eq!(unread(&[]), "");
    told_apart([
        (unread(&[Measurand::LowSide]), &["low side was not read"][..]),
        (unread(&[Measurand::HighSide]), &["high side was not read"]),
        (unread(&[Measurand::LowSide, Measurand::HighSide]), &["neither gauge was read"]),
    ]);
    assert_eq!((capitalised("a b"), capitalised("")), ("A b".to_owned(), String::new()));
}

#[test]
fn instruments_and_questions_name_their_numbers() {
    use crate::TemperatureDifference;
    use crate::quantity::instrument::{PressureGauge, Thermometer};
    let mut opening = report().opening;
    opening.instruments = vec![
        InstrumentRow::gauge(&PressureGauge { name: "low-side gauge", ..PressureGauge::SERVICE_LOW }, Side::Low),
        InstrumentRow::thermometer(
            &Thermometer {
                name: "clamp",
                limit: TemperatureDifference::from_kelvins(2.2),
                ..Thermometer::CLAMPED_THERMOCOUPLE
            },
            true,
        ),
    ];
    says(&words().instruments(&opening), &["95 %", "low-side gauge -1 to 10 bar within 1.6 %, clamp within 2.2 K."]);
    let other = |input| {
        let (entered, instead) = ("2.2 psi".to_owned(), "2.2 bar".to_owned());
        words().question(&UnitQuestion::OtherUnit { input, entered, instead })
    };
    let asked = UnitQuestion::VacuumSign { entered: "5 inHg".to_owned() };
    assert_eq!(Language::English.question(&asked), words().question(&asked));
    let (entered, instead) = ("30.1 inHg".to_owned(), "24.9 inHg".to_owned());
    told_apart([
        (other(QuestionedInput::Measurand(Measurand::LowSide)), &["low side: 2.2 psi", "was 2.2 bar meant?"][..]),
        (other(QuestionedInput::Ambient), &["ambient: 2.2 psi", "was 2.2 bar meant?"]),
        (
            words().question(&UnitQuestion::VacuumSign { entered: "5 inHg".to_owned() }),
            &["low side: 5 inHg", "-5 inHg", "vacuum"],
        ),
        (
            words().question(&UnitQuestion::ReducedToSeaLevel { entered, instead }),
            &["barometer: 30.1 inHg", "was 24.9 inHg", "sea level"],
        ),
    ]);
}

#[test]
fn each_headline_is_told_apart() {
    let outside = || {
        let of = |quantity, position| Outside { quantity, position };
        vec![
            of(JudgedQuantity::Measured(Measurand::LowSide), Position::Below),
            of(JudgedQuantity::Superheat, Position::Above),
            of(JudgedQuantity::Subcooling, Position::Above),
            of(JudgedQuantity::Measured(Measurand::Vent), Position::Above),
        ]
    };
    let likeliest = || Likeliest { causes: vec![CauseId::Air], probability: 0.8, combined: false, settled: true };
    let said = |headline| {
        let mut report = report();
        report.advice.headline = headline;
        words().headline(&report)
    };
    let compared = |low_side_at_air| said(Headline::ComparedOnly { low_side_at_air });
    let unusual = |outside, no_fault| {
        said(Headline::Unusual { low_side_at_air: false, outside, likeliest: likeliest(), no_fault })
    };
    let faulty =
        |low_side_at_air| said(Headline::Faulty { low_side_at_air, outside: outside(), likeliest: likeliest() });
    told_apart([
        (compared(true), &["low side shows the pressure of the air"][..]),
        (said(Headline::Empty), &["empty", "both gauges show the pressure of the air"]),
        (said(Headline::NoLiquidLeft), &["not running, or not pumping", "almost empty"]),
        (said(Headline::LiquidLineBelowAmbient), &["colder than the air", "before the clamp"]),
        (said(Headline::HighSideAtAir), &["empty", "high side shows"]),
        (said(Headline::Equalised), &["Without the ambient"]),
        (said(Headline::OutsideModel { low_side_at_air: false }), &["not look like anything modelled"]),
        (said(Headline::OutsideModel { low_side_at_air: true }), &["low side shows", "must not run. This does not"]),
        (said(Headline::NothingUnusualYet { low_side_at_air: false, no_fault: 0.42 }), &["too little", "42 %"]),
        (
            said(Headline::NothingUnusualYet { low_side_at_air: true, no_fault: 0.42 }),
            &["low side shows", "too little"],
        ),
        (said(Headline::Healthy { no_fault: 0.9 }), &["look healthy", "90 %"]),
        (
            unusual(outside(), Some(0.3)),
            &[
                "could show it: low side low; superheat, subcooling and vent high. Most likely: air in",
                "(80 %); no fault 30 %.",
            ],
        ),
        (
            unusual(Vec::new(), None),
            &["inside the range of healthy cars, but together", "for one. Most likely", "(80 %)."],
        ),
        (faulty(false), &["Something is wrong: low side low; ", "Most likely: air in the circuit (80 %)."]),
        (faulty(true), &["low side shows", "Something is wrong"]),
    ]);
    assert_eq!(compared(false), "");
    for (headline, text) in [
        (Headline::Healthy { no_fault: 0.9 }, "no fault, every cause equally likely a priori: 90 %"),
        (
            Headline::NothingUnusualYet { low_side_at_air: false, no_fault: 0.42 },
            "no fault, every cause equally likely a priori: 42 %",
        ),
    ] {
        let mut ranked = report();
        let (prior, causes, next) = (PriorName::Uniform, Vec::new(), Vec::new());
        ranked.causes = Some(Causes { circuits: 1000, prior, faulty: false, outside_model: false, causes, next });
        ranked.advice.headline = headline.clone();
        says(&words().headline(&ranked), &[text]);
        says(&said(headline), &["Probability of no fault: "]);
    }
    let mut silent = report();
    (silent.advice.headline, silent.meaning) = (Headline::Equalised, Vec::new());
    assert_eq!(words().headline(&silent), "");
    told_apart([
        (words().stop(Stop::LowSideInVacuum), &["now", "low side in vacuum"][..]),
        (words().stop(Stop::HighSideAtCutOut), &["now", "high side", "cut out"]),
    ]);
}

fn said(statement: &Statement) -> String {
    words().statement(statement, &report())
}

/// What a statement says with a doubt and without one.
fn doubted(with: impl Fn(Option<f64>) -> Statement) -> String {
    let sure = said(&with(None));
    let open = said(&with(Some(0.62)));
    assert_eq!(open.replace(" The instruments leave it open (62 %).", ""), sure);
    assert_eq!(open.len(), sure.len() + " The instruments leave it open (62 %).".len());
    sure
}

#[test]
fn sides_are_told_apart_by_place_and_by_what_they_are_set_against() {
    let among = |side, position, fraction_below| {
        doubted(|doubt| Statement::SideAmongCircuits { side, position, fraction_below, doubt })
    };
    let by_charts = |side, position, inside, charts, carried_over| {
        doubted(|doubt| Statement::SideByCharts { side, position, inside, charts, carried_over, doubt })
    };
    let beyond = |side, covered| said(&Statement::SideBeyondCharts { side, covered });
    let (low, high) = (Side::Low, Side::High);
    let bar = |value| Some(Amount::new(value, None, "bar", 0));
    let transcritical = |by_ambient, by_outlet| {
        said(&Statement::TranscriticalHighSide { read: bar(97.0).unwrap(), by_ambient, by_outlet })
    };
    told_apart([
        (among(low, Position::Within, 0.42), &["low side lies inside", "healthy", "42 % read lower"][..]),
        (among(low, Position::Below, 0.0), &["low side as low", "none reads lower"]),
        (among(high, Position::Above, 1.0), &["high side as high", "all read lower"]),
        (among(high, Position::Below, 0.03), &["high side as low", "3 % read lower"]),
        (by_charts(low, Position::Within, 1, 1, false), &["low side lies within the only chart"]),
        (by_charts(high, Position::Within, 2, 5, false), &["high side lies within", "inside 2 of 5"]),
        (by_charts(low, Position::Below, 0, 1, false), &["low side is below the only chart", "evaporator", "colder"]),
        (by_charts(low, Position::Below, 0, 5, false), &["below all 5 charts", "colder"]),
        (by_charts(high, Position::Above, 0, 5, true), &["high side is above all 5", "condenser", "hotter", "R-134a"]),
        (by_charts(high, Position::Above, 0, 5, false), &["high side is above all 5", "hotter"]),
        (beyond(low, Some([15.4, 45.0])), &["low side", "from 15 to 45 °C"]),
        (beyond(high, None), &["No chart", "high side"]),
        (transcritical(None, None), &["neither covers"]),
        (transcritical(bar(85.0), None), &["at 85 bar by the ambient absolute; read 97 bar."]),
        (transcritical(None, bar(91.0)), &["at 91 bar by the gas cooler's outlet absolute"]),
        (transcritical(bar(85.0), bar(91.0)), &["85 bar by the ambient and 91 bar by the gas cooler"]),
        (said(&Statement::NoAmbient), &["Without the ambient"]),
        (said(&Statement::NoChart), &["No chart", "for R-134a"]),
        (said(&Statement::SidesNearlyEqual), &["nearly the same", "pumps little"]),
        (said(&Statement::NamesNoCause), &["names no cause"]),
    ]);
    assert!(!by_charts(high, Position::Above, 0, 5, false).contains("R-134a"));
}

#[test]
fn differences_and_the_vent_are_told_apart_by_place() {
    let (below, within, above) = (Some(Position::Below), Some(Position::Within), Some(Position::Above));
    let superheat = |position| doubted(|doubt| Statement::Superheat { position, doubt });
    let subcooling = |position| doubted(|doubt| Statement::Subcooling { position, doubt });
    let condensing = |position| doubted(|doubt| Statement::CondensingOverAmbient { position, doubt });
    let vent = |position, among_circuits| doubted(|doubt| Statement::Vent { position, among_circuits, doubt });
    told_apart([
        (superheat(None), &["superheat", "not known"][..]),
        (superheat(below), &["Little superheat"]),
        (superheat(within), &["Superheat is as usual"]),
        (superheat(above), &["High superheat"]),
        (said(&Statement::SuperheatImpossible), &["suction line", "colder", "cannot last"]),
        (said(&Statement::NoSuperheat), &["no superheat"]),
        (subcooling(None), &["subcooling", "not known"]),
        (subcooling(below), &["Low subcooling"]),
        (subcooling(within), &["Subcooling is as usual"]),
        (subcooling(above), &["High subcooling"]),
        (said(&Statement::SubcoolingImpossible), &["liquid line", "hotter"]),
        (said(&Statement::NoSubcooling), &["no subcooling"]),
        (condensing(None), &["condensing", "not known"]),
        (condensing(below), &["closer to the ambient"]),
        (condensing(within), &["as far above the ambient"]),
        (condensing(above), &["further above the ambient"]),
        (vent(None, true), &["No table"]),
        (vent(below, true), &["colder", "healthy"]),
        (vent(within, true), &["as cold", "healthy"]),
        (vent(above, true), &["warmer", "healthy"]),
        (vent(below, false), &["colder", "tables"]),
        (vent(within, false), &["as cold", "tables"]),
        (vent(above, false), &["warmer", "tables"]),
        (said(&Statement::VentImpossible), &["vent", "colder", "cannot be"]),
    ]);
    assert_eq!(vent(None, true), vent(None, false));
}

#[test]
fn an_equalised_circuit_is_judged_in_full_and_in_short() {
    use EqualisedVerdict::{AboveSaturation, AtSaturation, LiquidGone, NotEqualised};
    let full = |verdict, at_air| doubted(|doubt| Statement::Equalised { verdict, at_air, doubt });
    told_apart([
        (full(NotEqualised, false), &["not equalised", "Wait"][..]),
        (full(LiquidGone, true), &["pressure of the air", "leak"]),
        (full(LiquidGone, false), &["below saturation of R-134a", "no liquid"]),
        (full(AtSaturation, false), &["at saturation of R-134a", "some liquid"]),
        (full(AboveSaturation, false), &["above saturation of R-134a", "air"]),
        (said(&Statement::EqualisedResolution { kpa: 12.4, psi: 1.8 }), &["12 kPa (1.8 psi)"]),
    ]);
    told_apart([
        (words().equalised(NotEqualised), &["not equalised"][..]),
        (words().equalised(LiquidGone), &["below"]),
        (words().equalised(AtSaturation), &["at saturation"]),
        (words().equalised(AboveSaturation), &["above"]),
    ]);
}

#[test]
fn what_is_behind_the_window_is_said() {
    let kinds = CircuitKind::main(Refrigerant::R134a);
    let humid = Some(Span::new(30.0, 80.0, "%", 0));
    let healthy = |kinds: &[CircuitKind], assumed_humidity, missing| {
        let (kinds, rows) = (kinds.to_vec(), Vec::new());
        Healthy {
            kinds,
            circuits: 256,
            missing,
            assumed_humidity,
            baselines: 0,
            effective_circuits: None,
            few_near_baselines: false,
            rows,
        }
    };
    let one = words().behind(&healthy(&kinds[..1], None, 0));
    says(&one, &[&format!("256 simulated circuits of this kind: {}", kinds[0])]);
    assert!(!one.contains("humidity") && !one.contains("no steady state"));
    let several = words().behind(&healthy(&kinds[..2], humid, 3));
    says(&several, &["of 2 kinds", "30 to 80 % are assumed", "3 more have no steady state"]);
    says(&words().behind_in_short(&healthy(&kinds, None, 0)), &["256 simulated healthy cars"]);
}

#[test]
fn saturation_temperatures_are_those_of_the_gauges() {
    let mut report = report();
    report.gauges[0].saturation = Some(Amount::new(34.5, Some(1.0), "°F", 1));
    report.gauges[1].saturation = None;
    let said = words().saturated(&report).unwrap();
    assert_eq!(said, "Saturated: low side at 34.5 ± 1.0 °F, high side above the critical pressure.");
    report.gauges.clear();
    assert_eq!(words().saturated(&report), None);
}

#[test]
fn marks_and_cautions_are_told_apart() {
    let marks = [
        (Mark::CarriedOver, ('d', "derived")),
        (Mark::OtherHumidity, ('h', "humidity")),
        (Mark::OneRange, ('r', "range")),
        (Mark::NotCounted, ('n', "not counted")),
        (Mark::OtherCars, ('o', "other cars")),
    ];
    for (mark, (letter, key)) in marks {
        let (found, meaning) = words().mark(mark);
        assert_eq!(found, letter);
        says(meaning, &[key]);
    }
    let caution = |caution| words().caution(caution, "R-9");
    told_apart([
        (caution(Caution::Pressure), &["under pressure", "Goggles"][..]),
        (caution(Caution::MovingAndHot), &["belts and fans", "burn"]),
        (caution(Caution::Asphyxiation), &["heavier than air"]),
        (caution(Caution::CarbonDioxide), &["Carbon dioxide harms", "closed room"]),
        (caution(Caution::DryIce), &["dry ice", "comes back"]),
        (caution(Caution::ReleaseAsTheMakerSays), &["may be let out", "outdoors", "Charge by weight"]),
        (caution(Caution::TranscriticalPressure), &["60 bar"]),
        (caution(Caution::FlammableA2l), &["R-9 is flammable (class A2L)"]),
        (caution(Caution::FlammableA2), &["R-9 is flammable (class A2)"]),
        (caution(Caution::FlammableA3), &["R-9 is highly flammable (class A3)"]),
        (caution(Caution::Recover), &["recover it"]),
        (caution(Caution::HighVoltage), &["orange cables"]),
        (caution(Caution::MakersData), &["maker's own figures"]),
    ]);
    let all = crate::report::caution_sentences(Refrigerant::R152a);
    let listed = crate::report::cautions(Refrigerant::R152a);
    assert_eq!(all.len(), listed.len());
    for (sentence, of) in all.iter().zip(listed) {
        assert_eq!(*sentence, words().caution(of, "R-152a"));
    }
    let short = |caution| {
        let mut report = report();
        report.cautions = vec![Caution::Pressure, caution];
        Language::English.cautions_in_short(&report)
    };
    told_apart([
        (short(Caution::Recover), &["goggles", "Venting"][..]),
        (short(Caution::Asphyxiation), &["Vapour displaces air"]),
        (short(Caution::CarbonDioxide), &["Carbon dioxide harms"]),
        (short(Caution::DryIce), &["dry ice"]),
        (short(Caution::ReleaseAsTheMakerSays), &["outdoors and slowly"]),
        (short(Caution::HighVoltage), &["Orange cables"]),
        (short(Caution::TranscriticalPressure), &["R-744 is above 60 bar"]),
        (short(Caution::FlammableA2l), &["R-134a burns (class A2L)"]),
        (short(Caution::FlammableA2), &["R-134a burns (class A2)"]),
        (short(Caution::FlammableA3), &["R-134a burns (class A3)"]),
    ]);
}

#[test]
fn each_source_has_its_topic() {
    let said = |topic| words().source(&SourceRow { topic, source: "a work".to_owned() }, "R-9");
    let chart = SourceTopic::Chart { chart: "a chart".into(), system: "a system".into() };
    told_apart([
        (said(SourceTopic::Saturation), &["saturation of R-9: a work"][..]),
        (said(SourceTopic::Barometer), &["barometer", ": a work"]),
        (said(SourceTopic::AirPressure), &["air pressure: a work"]),
        (said(SourceTopic::Weather), &["weather: a work"]),
        (said(SourceTopic::Gauges), &["gauges: a work"]),
        (said(SourceTopic::Thermometers), &["thermometers: a work"]),
        (said(SourceTopic::Clamp), &["clamp: a work"]),
        (said(SourceTopic::Compressor), &["compressor a work"]),
        (said(SourceTopic::OrificeTube), &["orifice tube a work"]),
        (said(SourceTopic::Sizes), &["sizes", "from memory"]),
        (said(chart), &["a chart, a system: a work"]),
        (said(SourceTopic::RulesOfThumb), &["superheat", ": a work"]),
        (said(SourceTopic::BestByAmbient), &["by ambient: a work"]),
        (said(SourceTopic::BestByOutlet), &["by outlet: a work"]),
        (
            said(SourceTopic::Causes { circuits: 1234, prior: PriorName::Workshop }),
            &["causes: 1234 simulated", "workshops", ": a work"],
        ),
        (
            words().source(
                &SourceRow {
                    topic: SourceTopic::Causes { circuits: 1234, prior: PriorName::Uniform },
                    source: String::new(),
                },
                "R-9",
            ),
            &["causes: 1234 simulated circuits, every cause equally likely a priori"],
        ),
        (said(SourceTopic::Recovery), &["recovery", ": a work"]),
        (said(SourceTopic::Observations), &["observations: a work"]),
    ]);
}
