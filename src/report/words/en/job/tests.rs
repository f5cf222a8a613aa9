//! Tests of the English sentences of a job sheet.

#![cfg(test)]

use super::*;
use crate::report::job_steps::{applied, tests::a_report};
use crate::report::job_tasks::{CompressorOilRow, PartOilRow};
use crate::report::words::en::tests::{says, told_apart};
use crate::service::oil::compressor::{CompressorOilRule, CompressorSupply, OilBalance};
use crate::{Volume, report::job_steps::oil_amount};

const BELT: CompressorDrive = CompressorDrive::Belt;
const ELECTRIC: CompressorDrive = CompressorDrive::Electric;

fn ml(value: f64) -> Amount {
    oil_amount(Volume::from_cm3(value))
}

fn span(low: f64, high: f64) -> Span {
    Span::new(low, high, "cm³", 0)
}

fn amount(value: f64, unit: &'static str) -> Amount {
    Amount::new(value, None, unit, 0)
}

fn work(work: &'static str, remark: &'static str) -> WorkRow {
    WorkRow { work: work.into(), remark: remark.into() }
}

fn every_part() -> [ReplacedPart; 7] {
    use ReplacedPart::{Accumulator, Condenser, Evaporator, Line, ReceiverDrier, SlowLeak, SuddenLoss};
    [Condenser, Evaporator, ReceiverDrier, Accumulator, Line, SuddenLoss, SlowLeak]
}

#[test]
fn the_opening_names_what_was_given() {
    let mut report = a_report();
    (report.opening.oil, report.opening.oil_kind, report.opening.parts) = (None, None, Vec::new());
    report.opening.new_compressor = false;
    let bare = opening(&report);
    assert_eq!(bare.len(), 3, "{bare:?}");
    says(&bare[0], &["R-134a, 550 g, belt-driven compressor"]);
    says(&bare[2], &["maker's own figures", "not to pour by"]);
    (report.opening.oil, report.opening.oil_kind) = (Some("130 cc".to_owned()), Some("PAG 46".parse().unwrap()));
    (report.opening.new_compressor, report.opening.parts) = (true, vec![ReplacedPart::Condenser]);
    (report.opening.drive, report.invented) = (ELECTRIC, true);
    let full = opening(&report);
    says(
        &full.join(" "),
        &["electric compressor", "label: oil \"130 cc\", PAG 46.", "New: compressor, condenser.", "invented"],
    );
    assert_eq!(full.len(), 6);
    told_apart([
        (complaint(Complaint::NoiseCoolsWell), &["noise", "well"][..]),
        (complaint(Complaint::NoiseCoolsBadly), &["noise", "badly"]),
        (complaint(Complaint::CoolsBadly), &["cools badly"]),
        (complaint(Complaint::Leaks), &["leak"]),
        (complaint(Complaint::NotSaid), &["not stated"]),
    ]);
}

#[test]
fn parts_are_named_and_their_oil_has_a_reason() {
    let names = ["condenser", "evaporator", "receiver", "accumulator", "hose", "lost at once", "seeping"];
    for (of, name) in every_part().into_iter().zip(names) {
        says(part(of), &[name]);
        says(&question(&JobQuestion::PartFigure { part: of }), &["How much oil", part(of)]);
        let why = match of {
            ReplacedPart::SuddenLoss => "at once",
            ReplacedPart::SlowLeak => "little",
            _ => "walls",
        };
        says(&makers_part_oil(of, &span(30.0, 40.0)), &["Add 30 to 40 cm³", why]);
        says(&unknown_part_oil(of), &["Nothing was found", why]);
    }
    says(&part_oil_in_compressor(&span(30.0, 30.0)), &["30 cm³", "already counted", "not add it again"]);
}

#[test]
fn questions_cautions_and_standings_are_told_apart() {
    told_apart([
        (question(&JobQuestion::CompressorRule), &["rule", "maker"][..]),
        (question(&JobQuestion::CompressorSupply), &["supplied"]),
        (question(&JobQuestion::Drained), &["came out of the old"]),
        (question(&JobQuestion::WhichOunce), &["Which ounce"]),
        (question(&JobQuestion::Contradiction), &["do not agree"]),
        (question(&JobQuestion::OilKind), &["Which oil", "grade"]),
        (question(&JobQuestion::OilAmount), &["How much oil", "whole circuit"]),
        (question(&JobQuestion::OilUnsuited), &["does not suit"]),
        (question(&JobQuestion::Ambient), &["How warm"]),
    ]);
    let r = Refrigerant::R1234yf;
    told_apart([
        (caution(JobCaution::Frostbite, r), &["Goggles"][..]),
        (caution(JobCaution::Asphyxiation, r), &["heavier than air"]),
        (caution(JobCaution::CarbonDioxide, r), &["Carbon dioxide"]),
        (caution(JobCaution::DryIce, r), &["dry ice"]),
        (caution(JobCaution::Flammable, r), &["R-1234yf is flammable (A2L)"]),
        (caution(JobCaution::Venting, r), &["illegal"]),
        (caution(JobCaution::HighVoltage, r), &["voltage kills"]),
        (caution(JobCaution::VoltageInVacuum, r), &["under vacuum"]),
        (caution(JobCaution::ForeignOil, r), &["1 % of another oil", "insulation"]),
        (caution(JobCaution::Moving, r), &["belts and fans"]),
        (caution(JobCaution::CompressedAir, r), &["compressed air"]),
        (caution(JobCaution::Backflow, r), &["burst"]),
    ]);
    told_apart([
        (standing(Standing::Measured), &["measured"][..]),
        (standing(Standing::MakersFigure), &["maker's figure, as given"]),
        (standing(Standing::MakersRule), &["maker's rule"]),
        (standing(Standing::PublishedRange), &["not this maker's"]),
        (standing(Standing::PrintedByOthers), &["printed by others"]),
        (standing(Standing::Label), &["nominal charge"]),
        (standing(Standing::LabelAsRead), &["as read"]),
        (standing(Standing::LabelVolumeAlone), &["do not agree"]),
        (standing(Standing::LabelAnyOunce), &["can mean"]),
    ]);
}

#[test]
fn each_step_has_a_title_of_its_own() {
    let of = |part| StepTask::PartOil { part, oil: PartOilRow::Unknown };
    let rows: [(StepTask, &'static [&'static str]); 28] = [
        (StepTask::ClutchFirst, &["Before condemning", "clutch"]),
        (StepTask::FindLeak, &["Find the leak"]),
        (StepTask::MakeSafe, &["high-voltage"]),
        (StepTask::OilReturn { at_least: amount(10.0, "min") }, &["Oil return"]),
        (StepTask::Recover, &["Recover"]),
        (StepTask::Open, &["Open", "cap"]),
        (StepTask::Drain { drained: None, little: false }, &["Drain"]),
        (StepTask::Drier { listed: false, open_long: false }, &["Drier", "with the parts"]),
        (StepTask::Rings, &["O-rings"]),
        (StepTask::OilKind { oil: None, suitability: None }, &["Which oil"]),
        (StepTask::LabelOil { ounces: Vec::new() }, &["by the label"]),
        (of(ReplacedPart::SuddenLoss), &["lost at once"]),
        (of(ReplacedPart::SlowLeak), &["leak that was repaired"]),
        (of(ReplacedPart::Line), &["each new hose"]),
        (of(ReplacedPart::Condenser), &["for the new condenser"]),
        (of(ReplacedPart::Accumulator), &["for the new accumulator"]),
        (StepTask::RecoveredOil { recovered: None, in_compressor: false }, &["with the refrigerant"]),
        (
            StepTask::CompressorOil { oil: Box::new(CompressorOilRow::NotMeasured), label: None },
            &["for the compressor"],
        ),
        (StepTask::WholeOil { label: None }, &["for the whole circuit"]),
        (StepTask::TurnByHand, &["by hand"]),
        (StepTask::Tighten, &["Tighten"]),
        (StepTask::Belt, &["Belt"]),
        (StepTask::PressureTest, &["dry nitrogen"]),
        (StepTask::Evacuate { vacuum: Box::new(vacuum()), open_long: false }, &["Evacuate"]),
        (StepTask::StandingVacuum { hold: amount(5.0, "min"), rise: amount(3.0, "kPa") }, &["Hold the vacuum"]),
        (StepTask::Charge { nominal: amount(550.0, "g"), tolerance: None, hose: None }, &["Charge by mass"]),
        (StepTask::LeakCheck { standard: None, scales: Vec::new(), allowed: None, tenth: Vec::new() }, &["Leak check"]),
        (StepTask::Read { windows: WindowNote::Below }, &["reading"]),
    ];
    told_apart(rows.map(|(task, words)| (title(&task, false), words)));
    says(&title(&StepTask::Drier { listed: false, open_long: false }, true), &["Drier", "with the compressor"]);
}

#[test]
fn steps_without_figures_say_what_to_look_for() {
    let steps: [(Vec<String>, usize, &'static [&'static str]); 12] = [
        (clutch_first(), 3, &["pumps", "pulley bearing", "0.3 and 0.7 mm"]),
        (find_leak(), 3, &["detector", "dry nitrogen", "Repair it before"]),
        (make_safe(), 2, &["no voltage", "140 to 350 V", "stays locked"]),
        (oil_return(&amount(10.0, "min")), 1, &["more than 10 min"]),
        (open(), 2, &["slowly", "Cap every opening"]),
        (rings(Refrigerant::R134a), 2, &["mineral oil", "coated rings"]),
        (rings(Refrigerant::R744), 3, &["sealed by metal", "used once"]),
        (pressure_test(), 2, &["regulator", "never above", "before the pump"]),
        (turn_by_hand(), 1, &["10 turns"]),
        (tighten(), 1, &["Two wrenches"]),
        (belt(), 1, &["tension"]),
        (read(), 1, &["engine off", "ten minutes"]),
    ];
    for (step, sentences, words) in &steps {
        assert_eq!(step.len(), *sentences, "{step:?}");
        says(&step.join(" "), words);
    }
    told_apart(steps.map(|(step, _, words)| (step.join(" "), words)));
    let recovery = recover(Refrigerant::R134a, "550 ± 20 g");
    assert_eq!(recovery.len(), 3);
    says(&recovery.join(" "), &["made for R-134a", "charge is 550 ± 20 g", "Identify", "Catch the oil"]);
    says(&label_is_a_check(), &["check"]);
    says(&circuit_holds(&span(130.0, 150.0)), &["130 to 150 cm³"]);
    told_apart([
        (compressor_not_drained(), &["Drain the old one"][..]),
        (supply_unknown(), &["Find out"]),
        (comes_empty(), &["empty"]),
        (comes_used(), &["used", "20 cm³"]),
    ]);
}

#[test]
fn what_was_drained_is_stated_and_little_is_said_to_be_little() {
    let oil = |half| Amount::new(48.0, half, "cm³", 0);
    let said = |drive, drained: Option<&Amount>, little| drain(drive, drained, little).join(" ");
    told_apart([
        (said(BELT, None, false), &["clutch hub", "Not measured yet"][..]),
        (said(ELECTRIC, None, false), &["drain plug. Measure"]),
        (said(BELT, Some(&oil(Some(3.0))), false), &["Measured: 48 ± 3 cm³"]),
        (said(BELT, Some(&oil(None)), false), &["Measured: 48 cm³."]),
        (said(BELT, Some(&oil(None)), true), &["That is little", "60 or 70 cm³"]),
    ]);
    let little = |little| drain(BELT, None, little).len();
    assert_eq!((little(false), little(true)), (3, 4));
}

#[test]
fn a_drier_is_asked_for_more_the_longer_it_stood_open() {
    told_apart([
        (drier(true, false).join(" "), &["It is among the new parts", "Unseal it last"][..]),
        (drier(false, false).join(" "), &["None is among the new parts", "Unseal it last"]),
        (drier(true, true).join(" "), &["It is among", "open for days"]),
        (drier(false, true).join(" "), &["None is among", "open for days"]),
    ]);
    assert_eq!((drier(true, false).len(), drier(true, true).len()), (2, 3));
}

#[test]
fn an_oil_is_said_to_suit_or_not() {
    use OilSuitability::{NothingFound, OnlyIfNamed, RuinsInsulation, Usual, Wrong};
    let pag: OilKind = "PAG 46".parse().unwrap();
    let r = Refrigerant::R134a;
    let of = |suits| oil_kind(Some((pag, suits)), BELT, r).join(" ");
    told_apart([
        (oil_kind(None, BELT, r).join(" "), &["Not given", "compressor, not on the refrigerant", "shut"][..]),
        (oil_kind(None, ELECTRIC, r).join(" "), &["Not given", "Only the oil this maker names", "shut"]),
        (of(Usual), &["PAG 46: the family", "belt-driven compressors with R-134a"]),
        (of(OnlyIfNamed), &["PAG 46: not every maker", "Only if"]),
        (of(Wrong), &["PAG 46: wrong for belt-driven", "Stop"]),
        (of(RuinsInsulation), &["PAG 46: not for", "insulation", "Stop"]),
        (of(NothingFound), &["PAG 46: nothing was found"]),
        (oil_kind(Some((pag, Usual)), ELECTRIC, r).join(" "), &["electric compressors on high voltage"]),
    ]);
}

#[test]
fn published_oil_for_a_part_names_who_prints_it() {
    let rows = [AmountRow { oil: span(29.6, 29.6), works: vec![work("Lincoln", "1 oz"), work("Corvette", "")] }];
    let condenser = published_part_oil(ReplacedPart::Condenser, &span(20.0, 80.0), &rows, Some(&span(10.0, 10.0)));
    assert_eq!(condenser.len(), 3);
    says(&condenser[0], &["print 20 to 80 cm³", "walls"]);
    // a work that prints the amount alone has no brackets
    assert_eq!(condenser[1], "  30 cm³: Lincoln (1 oz); Corvette");
    says(&condenser[2], &["what came out of the old one", "10 cm³"]);
    assert_eq!(published_part_oil(ReplacedPart::Condenser, &span(20.0, 80.0), &rows, None).len(), 2);
}

#[test]
fn oil_of_the_whole_circuit_and_what_was_recovered() {
    told_apart([
        (recovered_oil(Some(&ml(12.0)), true), &["12 cm³", "already counted"][..]),
        (recovered_oil(Some(&ml(12.0)), false), &["12 cm³", "add as much"]),
        (recovered_oil(None, false), &["Not measured", "15 to 40 cm³"]),
        (whole_oil(Some(&span(130.0, 150.0))), &["130 to 150 cm³; aim for the middle, 140 cm³"]),
        (whole_oil(None), &["read it there"]),
    ]);
}

#[test]
fn a_rule_is_said_with_each_of_its_amounts() {
    let cm3 = Volume::from_cm3;
    let refill = |floor, extra, extra_up_to| CompressorOilRule::Refill { floor, extra: cm3(extra), extra_up_to };
    let subtract = |residual, little| CompressorOilRule::Subtract { residual: cm3(residual), little };
    let floor = Some((cm3(60.0), cm3(90.0)));
    for (given, text) in [
        (refill(None, 0.0, None), "empty the new one and refill it with what was drained"),
        (refill(None, 30.0, None), "refill it with what was drained and 30 cm³ on top"),
        (refill(None, 30.0, Some(cm3(150.0))), "drained and 30 cm³ on top (up to 150 cm³ drained)"),
        (refill(floor, 0.0, None), "what was drained; below 60 cm³ drained, with 90 cm³"),
        (subtract(0.0, None), "leave in the new one what was drained"),
        (subtract(20.0, None), "what was drained and 20 cm³ that cannot be drained"),
        (subtract(0.0, floor), "what was drained; below 60 cm³ drained, count 90 cm³"),
        (
            CompressorOilRule::Capped { cap: cm3(50.0) },
            "take out what the new one holds beyond what was drained, never more than 50 cm³",
        ),
    ] {
        let said = rule(&OilRuleRow::from(&given));
        assert!(said.ends_with(text), "{text:?} does not end {said:?}");
    }
}

#[test]
fn a_makers_rule_is_applied_with_its_arithmetic() {
    let cm3 = Volume::from_cm3;
    let balance = |supplied, drained| OilBalance {
        supplied,
        drained: cm3(drained),
        other_parts: cm3(30.0),
        recovered: cm3(10.0),
        system: None,
    };
    let said = |rule: CompressorOilRule, supplied, drained| {
        let swap = balance(supplied, drained);
        makers_rule(&applied(&rule, &swap, &rule.apply(&swap).unwrap()))
    };
    let filled = |contents| CompressorSupply::Filled { contents: cm3(contents) };
    let subtract = CompressorOilRule::Subtract { residual: cm3(20.0), little: Some((cm3(60.0), cm3(40.0))) };
    let capped = CompressorOilRule::Capped { cap: cm3(50.0) };
    let refill = CompressorOilRule::Refill { floor: Some((cm3(60.0), cm3(60.0))), extra: cm3(0.0), extra_up_to: None };
    let rows: [(Vec<String>, usize, &'static [&'static str]); 9] = [
        (
            said(subtract, filled(200.0), 80.0),
            3,
            &[
                "rule given: leave",
                "200 cm³ in the new one − (80 cm³ drained + 20 cm³",
                "30 cm³ for other",
                "10 cm³ rec",
                "Take 60 cm³ out",
                "140 cm³ stays",
            ],
        ),
        (said(subtract, filled(200.0), 12.0), 4, &["(40 cm³ drained + 20", "Take 100 cm³ out", "takes 40 cm³ instead"]),
        (said(subtract, filled(90.0), 80.0), 4, &["as it is, with its 90 cm³", "50 cm³ less", "ask the maker"]),
        (said(subtract, CompressorSupply::Dry, 80.0), 2, &["Pour in 140 cm³."]),
        (said(subtract, CompressorSupply::Used, 80.0), 3, &["Pour in 120 to 140 cm³", "used one: drain it first"]),
        (said(capped, filled(100.0), 80.0), 3, &["100 cm³ in the new one − 80 cm³ drained.", "Take 20 cm³ out"]),
        (said(capped, filled(200.0), 80.0), 4, &["Take 50 cm³ out", "would say 120 cm³"]),
        (said(refill, filled(200.0), 80.0), 2, &["refill it with", "Empty the new one, then pour in 80 cm³."]),
        (said(refill, CompressorSupply::Emptied, 12.0), 3, &[". Pour in 60 cm³", "takes 60 cm³ instead"]),
    ];
    for (words, sentences, _) in &rows {
        assert_eq!(words.len(), *sentences, "{words:?}");
    }
    told_apart(rows.map(|(words, _, wanted)| (words.join(" "), wanted)));
}

#[test]
fn rules_of_others_are_listed_with_their_works() {
    let rule = OilRuleRow::Refill { floor: None, extra: Some(ml(103.5)), extra_up_to: None };
    let row = |works| [RuleRow { rule: rule.clone(), left: span(183.0, 183.0), works }];
    let rows = row(vec![work("GMC", "compressor HR-6"), work("GMC", "other")]);
    let said = published_rules(Some(&ml(80.0)), &span(80.0, 183.0), &rows);
    assert_eq!(said.len(), 2);
    says(&said[0], &["With 80 cm³ drained", "leave 80 to 183 cm³"]);
    says(&said[1][2..], &["183 cm³: empty the new one", "(GMC, compressor HR-6; GMC, other)"]);
    says(&published_rules(None, &span(80.0, 183.0), &[])[0], &["With what was drained"]);
    assert!(published_rules(None, &span(80.0, 183.0), &row(vec![work("Dodge", "")]))[1].ends_with("(Dodge)"));
    told_apart([
        (
            comes_filled(&ml(120.0), &AdjustmentRow::Out { oil: span(10.0, 40.0) }),
            &["comes with 120 cm³", "10 to 40 cm³ would come out"][..],
        ),
        (comes_filled(&ml(120.0), &AdjustmentRow::In { oil: span(10.0, 40.0) }), &["10 to 40 cm³ would go in"]),
        (
            comes_filled(&ml(120.0), &AdjustmentRow::Either { out: ml(10.0), into: ml(40.0) }),
            &["from 10 cm³ out to 40 cm³ on top"],
        ),
    ]);
}

fn vacuum() -> EvacuationRow {
    let inhg = |kpa| GaugePressure::from_kpa(kpa).inhg();
    EvacuationRow {
        target: Span::new(1.4, 6.5, "kPa", 1),
        air: Amount::new(99.4, None, "kPa", 1),
        gauge: Span::new(inhg(-98.0), inhg(-93.0), "inHg", 1),
        within: amount(5.0, "min"),
        run: amount(31.0, "min"),
        water: None,
    }
}

#[test]
fn evacuation_is_said_with_its_pressures_and_times() {
    let water = |dries| WaterRow { first: amount(37.0, "°C"), better: amount(12.0, "°C"), dries };
    let said = |open_long, water| evacuate(&EvacuationRow { water, ..vacuum() }, open_long);
    let plain = said(false, None);
    assert_eq!(plain.len(), 3);
    says(&plain[0], &["Below 6.5 kPa", "better 1.4.", "99.4 kPa", "-27.5 inHg", "better -28.9", "-93 and -98 kPa"]);
    says(&plain[1], &["within 5 min", "at least 31 min"]);
    says(&plain[2], &["500 to 1000 micron"]);
    let long = said(true, Some(water(TargetDries::Both)));
    assert_eq!(long.len(), 5);
    says(&long[2], &["open for days"]);
    told_apart([
        (water_at_target(&water(TargetDries::Both)), &["37 °C", "12 °C", "both dry"][..]),
        (water_at_target(&water(TargetDries::BetterAlone)), &["only the better one"]),
        (water_at_target(&water(TargetDries::Neither)), &["neither"]),
    ]);
    says(&long[3], &["both dry"]);
    let held = standing_vacuum(&amount(7.0, "min"), &Amount::new(3.386, None, "kPa", 1));
    assert_eq!(held.len(), 3);
    says(&held.join(" "), &["for 7 min", "1.0 inHg (3.4 kPa)", "moisture", "some 2700 times"]);
}

#[test]
fn a_charge_is_said_with_its_tolerance_and_the_hose() {
    let hose = Span::new(2.0, 60.0, "g", 0);
    let grams = |value| amount(value, "g");
    let said = |tolerance: Option<f64>, hose, r| charge(&grams(550.0), tolerance.map(grams).as_ref(), hose, r);
    assert_eq!(said(None, None, Refrigerant::R134a).len(), 4);
    told_apart([
        (said(None, None, Refrigerant::R134a)[0].clone(), &["550 g by the scale. No tolerance", "±15 g"][..]),
        (said(Some(25.0), None, Refrigerant::R134a)[0].clone(), &["550 g by", "printed ±25 g"]),
        (
            said(None, Some(&hose), Refrigerant::R134a)[1].clone(),
            &["2 g as vapour, 60 g as liquid", "send 552 g", "send 610 g"],
        ),
        (said(None, None, Refrigerant::R1234yf)[1].clone(), &["Add the hose", "20 g of liquid"]),
        (said(None, None, Refrigerant::R744)[1].clone(), &["Add the hose", "into the car."]),
        (said(None, None, Refrigerant::R134a)[2].clone(), &["Never by pressure"]),
        (said(None, None, Refrigerant::R134a)[3].clone(), &["21 °C"]),
    ]);
    assert_eq!(said(None, None, Refrigerant::R134a)[1], said(None, None, Refrigerant::R1234yf)[1]);
}

#[test]
fn a_leak_check_names_scales_times_and_law() {
    let rate = |value| amount(value, "g/yr");
    let scales = [4.0, 7.0, 14.0].map(rate);
    let tenth = [(4.0, 156.0), (14.0, 48.0)]
        .map(|(leak, months)| TenthRow { leak: rate(leak), takes: amount(months, "months") });
    let all = leak_check(Some("SAE J2791"), &scales, Some(&rate(40.0)), &tenth);
    assert_eq!(all.len(), 4);
    says(&all[0], &["every joint", "SAE J2791: 4, 7, 14 g a year"]);
    says(&all[1], &["14 g a year", "in 48 months"]);
    says(&all[2], &["EU", "40 g a year"]);
    says(&all[3], &["Caps back"]);
    let none = leak_check(None, &[], None, &[]);
    assert_eq!(none.len(), 2);
    says(&none[0], &["No standard"]);
}

#[test]
fn windows_and_measurements_are_named() {
    told_apart([
        (window_note(WindowNote::NoAmbient), &["Without the ambient"][..]),
        (window_note(WindowNote::NoneCovers), &["No window covers"]),
        (window_note(WindowNote::CarriedOver), &["windows below", "carried over"]),
        (window_note(WindowNote::Below), &["windows below"]),
    ]);
    told_apart([
        (window(WindowName::LowSide), &["low side"][..]),
        (window(WindowName::HighSide), &["high side"]),
        (window(WindowName::Superheat), &["superheat"]),
        (window(WindowName::Subcooling), &["subcooling"]),
        (window(WindowName::CondensingOverAmbient), &["condensing", "ambient"]),
        (window(WindowName::Vent), &["vent"]),
    ]);
    told_apart([
        (measurement(Measurement::EqualisedCarbonDioxide), &["Engine off", "30 °C"][..]),
        (measurement(Measurement::Equalised), &["Engine off", "saturation"]),
        (measurement(Measurement::Running), &["Running"]),
        (measurement(Measurement::Lines), &["suction line", "liquid line"]),
        (measurement(Measurement::Noise), &["clutch off"]),
        (measurement(Measurement::OilAfterAWeek), &["week"]),
    ]);
    says(&ground(&WindowGround::Circuits { circuits: 256 }), &["256 healthy cars"]);
    says(&ground(&WindowGround::RuleOfThumb), &["common practice, no source"]);
    for (count, derived, text) in [
        (1, 0, "1 printed chart"),
        (3, 0, "3 printed charts"),
        (1, 1, "1 printed chart of R-134a"),
        (3, 3, "3 printed charts of R-134a"),
        (3, 2, "3 printed charts, most of R-134a"),
    ] {
        assert_eq!(ground(&WindowGround::Charts { charts: count, carried_over: derived }), text);
    }
}
