//! Tests of the statements about a reading.

#![cfg(test)]

use approx::abs_diff_eq;

use super::*;
use crate::circuit::Settings;
use crate::inspection::{Entry, Instruments};
use crate::saturation::OwnRefrigerant;
use crate::{
    GaugePressure, Measured, Pressure, PressureDifference, Ratio, Refrigerant, Temperature, TemperatureDifference,
};

const R134A: Refrigerant = Refrigerant::R134a;
const LOW: (Measurand, &str) = (Measurand::LowSide, "30 psi");
const HIGH: (Measurand, &str) = (Measurand::HighSide, "180 psi");

/// What is said of these values, read with analogue gauges and thermocouples.
fn said(refrigerant: Refrigerant, ambient: Option<&str>, values: &[(Measurand, &str)]) -> Vec<Statement> {
    let mut entry = values.iter().fold(Entry::default(), |entry, (of, text)| entry.enter(*of, text).unwrap());
    entry.ambient = ambient.map(|text| text.parse().unwrap());
    let reading = entry.reading(refrigerant, Settings::TEST, &Instruments::analogue(refrigerant)).unwrap();
    let charts = ChartSet::new(refrigerant).unwrap();
    statements(&reading, &Assessment::of(&reading, &charts).unwrap(), &charts, true)
}

/// What is said of R-134a at 86 °F.
fn of_values(values: &[(Measurand, &str)]) -> Vec<Statement> {
    said(R134A, Some("86 °F"), values)
}

#[test]
fn a_verdict_is_doubted_where_the_instruments_leave_it_open() {
    assert_eq!((doubt(0.99), doubt(0.945)), (None, None));
    assert_eq!((doubt(0.94), doubt(2.0 / 3.0)), (Some(0.94), Some(0.666_666_667)));
}

#[test]
fn the_sides_alone_are_set_among_circuits() {
    let judged = |quantity, probability| Judged {
        quantity,
        value: crate::diagnosis::JudgedValue::Temperature(
            Measured::exact(Temperature::from_celsius(5.0)).unwrap(),
            crate::Range::new(Temperature::from_celsius(3.0), Temperature::from_celsius(9.0)),
            Temperature::from_celsius(6.0),
        ),
        verdict: Verdict { position: Position::Within, probability },
        fraction_below: Ratio::from_fraction(0.123_456),
    };
    let among = |side, doubt| {
        let (position, fraction_below) = (Position::Within, 0.1235);
        Some(Statement::SideAmongCircuits { side, position, fraction_below, doubt })
    };
    let of = |measurand, probability| among_circuits(&judged(JudgedQuantity::Measured(measurand), probability));
    assert_eq!(of(Measurand::LowSide, 1.0), among(Side::Low, None));
    assert_eq!(of(Measurand::HighSide, 0.654_321), among(Side::High, Some(0.6543)));
    assert_eq!(of(Measurand::Vent, 1.0), None);
    assert_eq!(among_circuits(&judged(JudgedQuantity::Superheat, 1.0)), None);
}

#[test]
fn a_side_is_set_against_the_charts_that_there_are() {
    assert_eq!(said(R134A, None, &[LOW, HIGH])[..], [Statement::NoAmbient]);
    let day = of_values(&[LOW, HIGH]);
    let [Statement::SideByCharts { side: Side::Low, charts, inside, carried_over: false, .. }, high, _] = &day[..]
    else {
        panic!("{day:?}")
    };
    assert!(charts > inside && *inside > 0, "{day:?}");
    assert!(matches!(high, Statement::SideByCharts { side: Side::High, .. }));
    let day = said(Refrigerant::R1234yf, Some("86 °F"), &[LOW]);
    assert!(matches!(day[..], [Statement::SideByCharts { carried_over: true, .. }]), "{day:?}");
    let cold = said(R134A, Some("36 °F"), &[LOW]);
    assert!(
        matches!(cold[..], [Statement::SideBeyondCharts { side: Side::Low, covered: Some([low, high]) }] if low < high)
    );
    assert!(said(Refrigerant::R290, Some("86 °F"), &[LOW, HIGH]).contains(&Statement::NoChart));
    let unnamed = {
        let own = OwnRefrigerant::pure("own", *R134A.dew_line());
        let air = Measured::exact(Pressure::STANDARD_ATMOSPHERE).unwrap();
        let reading = Reading::running(&own, Settings::TEST, None, air).unwrap();
        let charts = ChartSet::without_charts(&own);
        statements(&reading, &Assessment::of(&reading, &charts).unwrap(), &charts, false)
    };
    assert_eq!(unnamed, [Statement::NoAmbient, Statement::NamesNoCause]);
}

#[test]
fn sides_that_nearly_agree_are_said_to() {
    let agree = |low, high| {
        let values = [(Measurand::LowSide, low), (Measurand::HighSide, high)];
        said(R134A, None, &values).contains(&Statement::SidesNearlyEqual)
    };
    assert!(!agree("30 psi", "180 psi") && agree("60 psi", "62 psi"));
    // the gauges are within 2.9 and 9 psi
    assert!(agree("60 psi", "69 psi") && !agree("60 psi", "75 psi"));
}

#[test]
fn the_best_high_side_of_carbon_dioxide_is_stated_where_it_is_known() {
    let of = |ambient, values: &[(Measurand, &str)]| {
        let words = said(Refrigerant::R744, ambient, values);
        let find = |one: &Statement| match one {
            Statement::TranscriticalHighSide { read, by_ambient, by_outlet } => {
                let text = |best: &Option<Amount>| best.as_ref().map(Amount::to_string);
                Some((read.to_string(), text(by_ambient), text(by_outlet)))
            }
            _ => None,
        };
        words.iter().find_map(find)
    };
    let (high, low) = ((Measurand::HighSide, "99 bar"), (Measurand::LowSide, "35 bar"));
    let outlet = (Measurand::LiquidLine, "40 °C");
    let read = "100 bar".to_owned();
    assert_eq!(of(None, &[high]), Some((read.clone(), None, None)));
    assert_eq!(of(Some("40 °C"), &[high]), Some((read.clone(), Some("112 bar".to_owned()), None)));
    // the outlet counts with the evaporating temperature alone: 1.3 °C at 36 bar
    assert_eq!(of(Some("20 °C"), &[high, outlet]), Some((read.clone(), None, None)));
    assert_eq!(of(Some("20 °C"), &[high, low, outlet]), Some((read, None, Some("101 bar".to_owned()))));
    assert_eq!(of(Some("40 °C"), &[low]), None);
    assert!(!of_values(&[HIGH]).iter().any(|one| matches!(one, Statement::TranscriticalHighSide { .. })));
}

#[test]
fn superheat_and_subcooling_are_stated_where_they_can_be() {
    use Statement::{NoSubcooling, NoSuperheat, Subcooling, SubcoolingImpossible, Superheat, SuperheatImpossible};
    // 30 psi boil at 34.5 °F, 180 psi condense at 126 °F
    let suction = |text| of_values(&[LOW, (Measurand::SuctionLine, text)]);
    let liquid = |text| of_values(&[HIGH, (Measurand::LiquidLine, text)]);
    for (text, position) in [("33.5 °F", Position::Below), ("48 °F", Position::Within), ("80 °F", Position::Above)] {
        let words = suction(text);
        assert!(matches!(words[1..], [Superheat { position: Some(found), .. }] if found == position), "{words:?}");
    }
    assert_eq!(suction("10 °F")[1..], [SuperheatImpossible]);
    for (text, position) in [("127 °F", Position::Below), ("112 °F", Position::Within), ("80 °F", Position::Above)] {
        let words = liquid(text);
        let found =
            words.iter().any(|one| matches!(one, Subcooling { position: Some(found), .. } if *found == position));
        assert!(found && !words.contains(&SubcoolingImpossible), "{words:?}");
    }
    let hot = liquid("160 °F");
    assert!(hot.contains(&SubcoolingImpossible) && !hot.iter().any(|one| matches!(one, Subcooling { .. })));
    // nothing is said of a line without its gauge, nor of a gauge without its line
    let said_of_lines = |words: &[Statement]| {
        let of_lines = |one: &&Statement| {
            matches!(
                one,
                Superheat { .. }
                    | Subcooling { .. }
                    | NoSuperheat
                    | NoSubcooling
                    | SuperheatImpossible
                    | SubcoolingImpossible
            )
        };
        words.iter().filter(of_lines).count()
    };
    assert_eq!(said_of_lines(&of_values(&[LOW, HIGH])), 0);
    let lines = [(Measurand::SuctionLine, "48 °F"), (Measurand::LiquidLine, "112 °F")];
    assert_eq!(said_of_lines(&of_values(&lines)), 0);
    // above the critical pressure there is neither
    let over = [(Measurand::LowSide, "80 bar"), (Measurand::HighSide, "99 bar")];
    let of_dioxide = |lines: &[(Measurand, &str)]| said(Refrigerant::R744, None, &[&over[..], lines].concat());
    let words = of_dioxide(&lines);
    assert!(words.contains(&NoSuperheat) && words.contains(&NoSubcooling), "{words:?}");
    assert_eq!(said_of_lines(&of_dioxide(&[])), 0);
    assert_eq!(said_of_lines(&said(Refrigerant::R744, None, &lines)), 0);
    let no_rule = said(Refrigerant::R290, None, &[LOW, (Measurand::SuctionLine, "60 °F")]);
    assert!(no_rule.iter().any(|one| matches!(one, Superheat { position: None, doubt: None })), "{no_rule:?}");
}

#[test]
fn condensing_and_the_vent_are_stated_where_they_were_read() {
    let condensing = |words: &[Statement]| {
        words.iter().find_map(|one| match one {
            Statement::CondensingOverAmbient { position, .. } => Some(*position),
            _ => None,
        })
    };
    assert_eq!(condensing(&of_values(&[HIGH])), Some(Some(Position::Within)));
    assert_eq!(condensing(&said(R134A, None, &[HIGH])), None);
    let vent = |text| {
        let words = of_values(&[LOW, (Measurand::Vent, text)]);
        let [_, Statement::Vent { position, among_circuits: false, .. }, ref rest @ ..] = words[..] else {
            panic!("{words:?}")
        };
        (position.unwrap(), rest == [Statement::VentImpossible])
    };
    assert_eq!(vent("100 °F"), (Position::Above, false));
    assert_eq!(vent("20 °F"), (Position::Below, true));
    // colder than 34.5 °F, but not by more than gauge and thermometer leave open
    assert_eq!(vent("33 °F"), (Position::Below, false));
    let cold = said(R134A, Some("36 °F"), &[(Measurand::Vent, "33 °F")]);
    assert_eq!(cold, [Statement::Vent { position: None, among_circuits: false, doubt: None }]);
}

#[test]
fn a_computed_window_goes_before_charts_and_rules() {
    let values = [LOW, HIGH, (Measurand::SuctionLine, "90 °F"), (Measurand::Vent, "100 °F")];
    let mut entry = values.iter().fold(Entry::default(), |entry, (of, text)| entry.enter(*of, text).unwrap());
    (entry.ambient, entry.humidity) = (Some("86 °F".parse().unwrap()), Some("50 %".parse().unwrap()));
    let reading = entry.reading(R134A, Settings::TEST, &Instruments::analogue(R134A)).unwrap();
    let charts = ChartSet::new(R134A).unwrap();
    let kind = crate::circuit::CircuitKind::main(R134A)[0];
    let window = crate::expected::ExpectedWindow::for_day(&kind, &reading.conditions().unwrap()).unwrap();
    let assessment = Assessment::of(&reading, &charts).unwrap().beside(window);
    let words = statements(&reading, &assessment, &charts, true);
    assert!(
        matches!(
            words[..2],
            [
                Statement::SideAmongCircuits { side: Side::Low, position: Position::Within, .. },
                Statement::SideAmongCircuits { side: Side::High, .. }
            ]
        ),
        "{words:?}"
    );
    let above = Some(Position::Above);
    assert!(words.iter().any(|one| matches!(one, Statement::Superheat { position, .. } if *position == above)));
    let vent =
        |one: &Statement| matches!(one, Statement::Vent { position, among_circuits: true, .. } if *position == above);
    assert!(words.iter().any(vent), "{words:?}");
}

#[test]
fn an_equalised_circuit_is_told_by_its_pressure() {
    let read = |psi| Measured::new(GaugePressure::from_psi(psi), PressureDifference::from_psi(1.0)).unwrap();
    let at = |low, high| {
        let t = Measured::new(Temperature::from_celsius(25.0), TemperatureDifference::from_kelvins(0.5)).unwrap();
        let air = Measured::exact(Pressure::STANDARD_ATMOSPHERE).unwrap();
        let reading = Reading::equalised(R134A, t, air).unwrap();
        let reading = reading.with(Measurand::LowSide, read(low)).unwrap();
        let reading = reading.with(Measurand::HighSide, read(high)).unwrap();
        let charts = ChartSet::new(R134A).unwrap();
        statements(&reading, &Assessment::of(&reading, &charts).unwrap(), &charts, false)
    };
    let verdict = |words: &[Statement]| match words[0] {
        Statement::Equalised { verdict, at_air, .. } => (verdict, at_air, words.len()),
        _ => panic!("{words:?}"),
    };
    // saturation at 25 °C is 81.8 psi
    assert_eq!(verdict(&at(0.5, -0.5)), (EqualisedVerdict::LiquidGone, true, 1));
    assert_eq!(verdict(&at(40.0, 40.0)), (EqualisedVerdict::LiquidGone, false, 1));
    assert_eq!(verdict(&at(82.0, 82.0)), (EqualisedVerdict::AtSaturation, false, 2));
    assert_eq!(verdict(&at(120.0, 120.0)), (EqualisedVerdict::AboveSaturation, false, 1));
    assert_eq!(verdict(&at(40.0, 120.0)), (EqualisedVerdict::NotEqualised, false, 1));
    let words = at(82.0, 82.0);
    let Statement::EqualisedResolution { kpa, psi } = words[1] else { panic!("{words:?}") };
    // half its last digit
    assert!(abs_diff_eq!(kpa / psi, 6.894_757, epsilon = 5e-7) && psi > 1.0, "{words:?}");
}
