//! Tests of the English sentences about causes.

#![cfg(test)]

use super::*;
use crate::diagnosis::{Fault, Headline, OtherCauses};
use crate::report::words::Words;
use crate::report::words::en::tests::{report, says, told_apart};
use crate::report::{Amount, FaultSizeRow, Language, OutcomeRow};

fn words() -> &'static dyn Words {
    Language::English.words()
}

fn fahrenheit(value: f64, plus_minus: Option<f64>) -> Amount {
    Amount::new(value, plus_minus, "°F", 0)
}

fn predicted_row(measurand: Measurand, bayes_factor: f64) -> PredictedRow {
    let (read, expected) = (fahrenheit(64.0, None), fahrenheit(41.0, None));
    PredictedRow { reading: 0, measurand, read, expected, bayes_factor }
}

fn row(id: CauseId) -> CauseRow {
    CauseRow {
        id,
        probability: 0.6,
        detectable_fraction: 0.9,
        hidden_probability: 0.0,
        marginal_probability: 0.7,
        indistinguishable_from: Vec::new(),
        size: None,
        predicted: vec![
            predicted_row(Measurand::Vent, 7.6),
            predicted_row(Measurand::SuctionLine, 2345.0),
            predicted_row(Measurand::LiquidLine, 0.25),
        ],
        observation_bayes_factor: 1.0,
        in_print: Vec::new(),
    }
}

fn group(causes: &[CauseId], probability: f64) -> LeadingGroup {
    LeadingGroup { causes: causes.to_vec(), probability, supporting: vec![0, 1], contradicting: vec![2] }
}

fn likely(combined: bool, settled: bool) -> Likeliest {
    Likeliest { causes: vec![CauseId::Undercharge], probability: 0.82, combined, settled }
}

/// A report in which a low charge leads, then air, then no fault.
fn explained() -> Report {
    let mut report = report();
    let ids = [CauseId::Undercharge, CauseId::Air, CauseId::NoFault];
    let size = FaultSizeRow { fault: Fault::Undercharge, low: 0.15, high: 0.3 };
    let mut causes: Vec<CauseRow> = ids.into_iter().map(row).collect();
    causes[0].size = Some(size);
    report.causes = Some(Causes {
        circuits: 1234,
        prior: PriorName::Workshop,
        faulty: true,
        outside_model: false,
        causes,
        next: Vec::new(),
    });
    report.advice.leading =
        vec![group(&ids[..1], 0.6), group(&[CauseId::Air, CauseId::Overcharge], 0.25), group(&ids[2..], 0.06)];
    report.advice.headline =
        Headline::Faulty { low_side_at_air: false, outside: Vec::new(), likeliest: likely(false, true) };
    report
}

fn said(report: &Report, reasons: Reasons) -> Vec<String> {
    words().explanation(report, reasons)
}

#[test]
fn a_likeliest_cause_is_named_with_what_is_open() {
    for (combined, settled, text) in [
        (false, true, "charge too low (82 %)"),
        (true, true, "charge too low, alone or with another fault (82 %)"),
        (false, false, "charge too low (82 %, not settled)"),
        (true, false, "charge too low, alone or with another fault (82 %, not settled)"),
    ] {
        assert_eq!(likeliest(&likely(combined, settled)), text);
    }
    assert_eq!(names(&[CauseId::Undercharge, CauseId::Air]), "charge too low; or air in the circuit");
    assert_eq!(words().cause(CauseId::Undercharge).name, name(CauseId::Undercharge));
}

#[test]
fn the_prior_is_named() {
    let named = |of| {
        let mut report = explained();
        report.causes.as_mut().unwrap().prior = of;
        said(&report, Reasons::Full).pop().unwrap()
    };
    told_apart([
        (named(PriorName::Workshop), &["1234 simulated circuits, ", "as often as workshops", ", scaled"][..]),
        (named(PriorName::Uniform), &["every cause equally likely"]),
        (named(PriorName::Given), &["that were given"]),
    ]);
    told_apart([
        (prior(PriorName::Workshop), &["workshops"][..]),
        (prior(PriorName::Uniform), &["equally likely"]),
        (prior(PriorName::Given), &["given"]),
    ]);
}

#[test]
fn nothing_is_explained_where_no_cause_is_named() {
    assert!(said(&report(), Reasons::Full).is_empty());
    let mut empty = explained();
    empty.advice.headline = Headline::Empty;
    assert!(said(&empty, Reasons::Full).is_empty());
    let mut unnamed = explained();
    unnamed.advice.leading.clear();
    assert!(said(&unnamed, Reasons::Full).is_empty());
    let mut outside = explained();
    outside.causes.as_mut().unwrap().outside_model = true;
    let far = said(&outside, Reasons::Full);
    assert_eq!(far.len(), 1);
    says(&far[0], &["not like it", "charge too low"]);
}

#[test]
fn each_cause_has_its_share_its_size_and_its_reasons() {
    let full = said(&explained(), Reasons::Full);
    assert_eq!(full.len(), 4, "{full:?}");
    says(&full[0], &["60 %: charge too low; 15 to 30 % of the charge missing. For it: vent 64 °F"]);
    says(&full[1], &["25 %: air in the circuit; or charge too high. For it: "]);
    assert_eq!(full[2], "6 %: no fault.");
    says(&full[3], &["1234 simulated circuits"]);
    let short = said(&explained(), Reasons::Short);
    assert_eq!(short.len(), 4);
    says(&short[0], &["60 %: charge too low; 15 to 30 %", "For it: vent 64 °F (such cars show 41 °F)"]);
    assert_eq!(short[1], "25 %: air in the circuit; or charge too high.");
    assert_eq!(short[2], "6 %: no fault.");
    // a cause without a row is passed over
    let mut rowless = explained();
    rowless.causes.as_mut().unwrap().causes.truncate(1);
    assert_eq!(said(&rowless, Reasons::Full).len(), 2);
}

#[test]
fn a_sum_over_combined_faults_is_said_in_full_alone() {
    let mut combined = explained();
    combined.advice.headline =
        Headline::Faulty { low_side_at_air: false, outside: Vec::new(), likeliest: likely(true, true) };
    let full = said(&combined, Reasons::Full);
    assert_eq!(full.len(), 5);
    says(&full[0], &["82 %: charge too low, alone or with another fault"]);
    assert_eq!(said(&combined, Reasons::Short).len(), 4);
}

#[test]
fn what_stays_open_is_said() {
    let mut open = explained();
    open.advice.others = Some(OtherCauses { count: 19, probability: 0.09 });
    open.advice.undetectable = vec![CauseId::Icing, CauseId::Moisture];
    open.advice.indistinguishable = Some([CauseId::Undercharge, CauseId::Air]);
    let full = said(&open, Reasons::Full);
    assert_eq!(full.len(), 7);
    says(&full[3], &["9 %: one of the 19 other causes"]);
    says(
        &full[5],
        &["May be there without showing", &format!("{}; {}.", name(CauseId::Icing), name(CauseId::Moisture))],
    );
    says(&full[6], &["does not distinguish \"charge too low\" from \"air in the circuit\""]);
}

#[test]
fn reasons_are_said_for_and_against_with_their_weight() {
    let group = |supporting: &[usize], contradicting: &[usize]| LeadingGroup {
        supporting: supporting.to_vec(),
        contradicting: contradicting.to_vec(),
        ..group(&[CauseId::Air], 0.6)
    };
    let mut seen = row(CauseId::Air);
    seen.observation_bayes_factor = 2.54;
    let full = reasons_in_full(&seen, &group(&[0, 1], &[2]));
    says(
        &full,
        &[
            " For it: vent 64 °F where such cars show 41 °F (8 times as likely as in a healthy car), suction line",
            "(over 999 times). Against it: liquid line",
            "(4 times less likely than in a healthy car). What was found changes its odds 2.5 times",
        ],
    );
    let short = reasons_in_short(&seen, &group(&[0, 1], &[2]));
    says(
        &short,
        &[
            " For it: vent 64 °F (such cars show 41 °F), suction line",
            "41 °F). Against it: liquid line",
            "41 °F). What was found changes its odds 2.5 times",
        ],
    );
    // no reason, no word; a place without a value is passed over
    seen.observation_bayes_factor = 1.004;
    for none in [group(&[], &[]), group(&[9], &[])] {
        assert_eq!((reasons_in_full(&seen, &none), reasons_in_short(&seen, &none)), (String::new(), String::new()));
    }
    seen.observation_bayes_factor = 0.4;
    says(&observations(&seen), &["0.4 times"]);
    for (bayes_factor, times) in [(999.0, "(999 times"), (1.0, "(1 times"), (1e-4, "(over 999 times")] {
        seen.predicted = vec![predicted_row(Measurand::Vent, bayes_factor)];
        says(&reasons_in_full(&seen, &group(&[0], &[])), &[times]);
    }
}

#[test]
fn each_next_step_says_what_to_do() {
    let said = |next: NextStep| words().step(&next, None, false);
    let charge = |undercharge, unlikely| {
        said(NextStep::NoChargeByLowSide { undercharge, unlikely, settled: undercharge == Some(0.9) })
    };
    told_apart([
        (
            said(NextStep::Remedy { cause: CauseId::Undercharge }),
            &["For \"charge too low\": find the leak", "goggles"][..],
        ),
        (charge(Some(0.4), false), &["Add no refrigerant", "not settled (40 %)"]),
        (charge(None, false), &["Add no refrigerant", "is not settled, "]),
        (charge(Some(0.9), false), &["likely (90 %)", "how much"]),
        (charge(Some(0.01), true), &["unlikely here"]),
        (said(NextStep::Ambient), &["Ambient temperature"]),
        (said(NextStep::Humidity), &["Humidity"]),
        (said(NextStep::RepeatAsChartsAsk), &["as the charts ask", "repeat it"]),
        (said(NextStep::CompareTemperatures), &["equal the ambient"]),
        (said(NextStep::CoolDownAndRepeat), &["cool down"]),
        (said(NextStep::FollowLiquidLine), &["Follow the liquid line", "turns cold"]),
        (said(NextStep::KeepCompressorOff), &["Do not run the compressor"]),
        (said(NextStep::ReadRunning), &["compressor running"]),
    ]);
    let keys: [(Measurand, &'static [&'static str]); 10] = [
        (Measurand::LowSide, &["gauge on the low side", "superheat"]),
        (Measurand::HighSide, &["gauge on the high side"]),
        (Measurand::SuctionLine, &["Clamp", "suction line"]),
        (Measurand::LiquidLine, &["Clamp", "liquid line"]),
        (Measurand::Vent, &["centre vent"]),
        (Measurand::EqualisedPressure, &["Engine off"]),
        (Measurand::EvaporatorOutlet, &["Clamp", "evaporator outlet"]),
        (Measurand::DischargeLine, &["Engine off", "discharge line"]),
        (Measurand::ClutchDutyCycle, &["Time the clutch"]),
        (Measurand::RecoveredCharge, &["Engine off, goggles and gloves", "never into the air", "weigh it"]),
    ];
    assert_eq!(keys.len(), Measurand::ALL.len());
    told_apart(keys.map(|(measurand, keys)| (said(NextStep::Usual { measurand }), keys)));
}

#[test]
fn a_measurement_names_two_outcomes() {
    let outcome = |cause, value| OutcomeRow { cause, shows: fahrenheit(value, Some(7.0)) };
    let next = |measurand: Measurand| NextRow {
        measurand,
        effort: measurand.effort(),
        information_bits: 0.4,
        outcomes: vec![outcome(CauseId::Undercharge, 55.0), outcome(CauseId::Air, 41.0), outcome(CauseId::Icing, 30.0)],
    };
    let mut causes = explained().causes.unwrap();
    causes.next = Measurand::ALL.iter().copied().map(next).collect();
    let said = |measurand, first| words().step(&NextStep::Measure { measurand }, Some(&causes), first);
    let outcomes =
        "about 55 °F (48 to 62) points to \"charge too low\", about 41 °F (34 to 48) points to \"air in the circuit\"";
    assert_eq!(said(Measurand::Vent, false), format!("Read the {}: {outcomes}.", measurand(Measurand::Vent)));
    says(&said(Measurand::Vent, true), &[outcomes, "; in brackets"]);
    told_apart([
        (said(Measurand::LowSide, false), &["Read the low side: about"][..]),
        (said(Measurand::SuctionLine, false), &["Clamp a thermometer on the suction line: about"]),
        (said(Measurand::DischargeLine, false), &["Engine off", "on the discharge line, then run it: about"]),
        (
            said(Measurand::RecoveredCharge, false),
            &[
                "goggles and gloves on, recover",
                "never into the air",
                "weigh it: about 55 °F (48 to 62) of the nominal charge points",
            ],
        ),
        (said(Measurand::ClutchDutyCycle, false), &["Time the clutch", "against all: about"]),
        (said(Measurand::EqualisedPressure, false), &["Stop the engine", "gauge: about"]),
    ]);
    causes.next.clear();
    assert_eq!(words().step(&NextStep::Measure { measurand: Measurand::Vent }, Some(&causes), true), "");
    assert_eq!(words().step(&NextStep::Measure { measurand: Measurand::Vent }, None, true), "");
}
