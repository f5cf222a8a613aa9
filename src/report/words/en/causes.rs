//! The sentences about causes and what to do next.

use super::reading::measurand;
use super::{NUMERALS, cause_texts};
use crate::diagnosis::{CauseId, LeadingGroup, Likeliest, NextStep};
use crate::inspection::{Effort, Measurand};
use crate::report::causes::PriorName;
use crate::report::words::Reasons;
use crate::report::{CauseRow, Causes, NextRow, PredictedRow, Report, percent};

/// The name of a cause.
pub(crate) fn name(cause: CauseId) -> &'static str {
    cause_texts::texts(cause).name
}

/// The names of an ambiguity group.
pub(crate) fn names(causes: &[CauseId]) -> String {
    causes.iter().map(|cause| name(*cause)).collect::<Vec<_>>().join("; or ")
}

/// The prior that probabilities follow from.
pub(super) const fn prior(prior: PriorName) -> &'static str {
    match prior {
        PriorName::Workshop => "causes a priori as often as workshops meet them",
        PriorName::Uniform => "every cause equally likely a priori",
        PriorName::Given => "with the prior weights that were given",
    }
}

/// "charge too low, alone or with another fault (82 %)".
pub(crate) fn likeliest(likeliest: &Likeliest) -> String {
    let combined = if likeliest.combined { ", alone or with another fault" } else { "" };
    let open = if likeliest.settled { "" } else { ", not settled" };
    format!("{}{combined} ({}{open})", names(&likeliest.causes), percent(likeliest.probability))
}

/// The sentences about the causes, a paragraph each.
pub(crate) fn explanation(report: &Report, reasons: Reasons) -> Vec<String> {
    let Some(causes) = &report.causes else { return Vec::new() };
    let advice = &report.advice;
    let mut sentences = Vec::new();
    let Some(first) = advice.leading.first().filter(|_| !advice.headline.says_empty()) else { return sentences };
    if causes.outside_model {
        return vec![format!("Closest to it, and still not like it: {}.", names(&first.causes))];
    }
    if let (Reasons::Full, Some(likeliest)) = (reasons, advice.headline.likeliest())
        && likeliest.combined
    {
        let (sum, name) = (percent(likeliest.probability), name(likeliest.causes[0]));
        sentences.push(format!("{sum}: {name}, alone or with another fault; single and combined below."));
    }
    for (place, group) in advice.leading.iter().enumerate() {
        let Some(row) = causes.row(group.causes[0]) else { continue };
        let size = row.size.map_or(String::new(), |size| format!("; {}", cause_texts::size(&size)));
        let reasons = match reasons {
            _ if matches!(row.id, CauseId::NoFault) => String::new(),
            Reasons::Full => reasons_in_full(row, group),
            Reasons::Short if place == 0 => reasons_in_short(row, group),
            Reasons::Short => String::new(),
        };
        sentences.push(format!("{}: {}{size}.{reasons}", percent(group.probability), names(&group.causes)));
    }
    if let Some(others) = advice.others {
        sentences.push(format!("{}: one of the {} other causes compared.", percent(others.probability), others.count));
    }
    // of the three leading probabilities of 219 simulated R-134a readings, against eight times as many circuits: half were within 2
    // points, nine in ten within 7
    sentences.push(format!(
        "From {} simulated circuits, {}, scaled by detectability; one in ten of these percentages is off by 7 points or more.",
        causes.circuits,
        prior(causes.prior)
    ));
    if !advice.undetectable.is_empty() {
        let hidden = |cause: &CauseId| causes.row(*cause).map_or(0.0, |row| row.hidden_probability);
        let named = |cause: &CauseId| match hidden(cause) {
            little if little < 0.005 => name(*cause).to_owned(),
            probability => format!("{} ({})", name(*cause), percent(probability)),
        };
        let names: Vec<String> = advice.undetectable.iter().map(named).collect();
        sentences.push(format!("May be there without showing in what was measured: {}.", names.join("; ")));
    }
    if let Some([a, b]) = advice.indistinguishable {
        let (a, b) = (name(a), name(b));
        sentences.push(format!("What was measured does not distinguish \"{a}\" from \"{b}\"."));
    }
    sentences
}

/// What speaks for and against a cause, the strongest first, with how strongly.
fn reasons_in_full(row: &CauseRow, group: &LeadingGroup) -> String {
    let list = |places: &[usize], word: &str, than: &str| {
        let each: Vec<String> = predicted(row, places)
            .enumerate()
            .map(|(i, p)| {
                let times = if p.bayes_factor >= 1.0 { p.bayes_factor } else { 1.0 / p.bayes_factor };
                let times = if times > 999.0 { "over 999".to_owned() } else { format!("{times:.0}") };
                // said in full once
                let than = if i == 0 { than } else { "" };
                let name = measurand(p.measurand);
                format!("{name} {} where such cars show {} ({times} times{than})", p.read, p.expected)
            })
            .collect();
        if each.is_empty() { String::new() } else { format!(" {word} it: {}.", each.join(", ")) }
    };
    list(&group.supporting, "For", " as likely as in a healthy car")
        + &list(&group.contradicting, "Against", " less likely than in a healthy car")
        + &observations(row)
}

/// The same without how strongly.
fn reasons_in_short(row: &CauseRow, group: &LeadingGroup) -> String {
    let list = |places: &[usize], word: &str| {
        let each: Vec<String> = predicted(row, places)
            .map(|p| format!("{} {} (such cars show {})", measurand(p.measurand), p.read, p.expected))
            .collect();
        if each.is_empty() { String::new() } else { format!(" {word} it: {}.", each.join(", ")) }
    };
    list(&group.supporting, "For") + &list(&group.contradicting, "Against") + &observations(row)
}

fn predicted<'a>(row: &'a CauseRow, places: &'a [usize]) -> impl Iterator<Item = &'a PredictedRow> {
    places.iter().filter_map(|&place| row.predicted.get(place))
}

/// What eyes and hands add.
fn observations(row: &CauseRow) -> String {
    if (row.observation_bayes_factor - 1.0).abs() <= 0.01 {
        return String::new();
    }
    format!(
        " What was found changes its odds {:.1} times, by agreement of printed charts.",
        row.observation_bayes_factor
    )
}

/// One thing to do next; `first` for the first measurement of the list.
pub(crate) fn step(step: &NextStep, causes: Option<&Causes>, first: bool) -> String {
    match step {
        NextStep::Remedy { cause } => {
            let texts = cause_texts::texts(*cause);
            format!("For \"{}\": {}. {}", texts.name, texts.next, texts.caution)
        }
        NextStep::Measure { measurand } => {
            causes.and_then(|causes| causes.measurement(*measurand)).map_or(String::new(), |row| measure(row, first))
        }
        NextStep::NoChargeByLowSide { undercharge, unlikely, settled } => {
            let low = match undercharge {
                _ if *unlikely => "unlikely here".to_owned(),
                Some(probability) if *settled => {
                    format!("likely ({}), but not how much is missing", percent(*probability))
                }
                Some(probability) => format!("not settled ({})", percent(*probability)),
                None => "not settled".to_owned(),
            };
            format!(
                "Add no refrigerant by the low side alone: a low charge is {low}, and too much raises the high side unseen (common \
                 practice, no source)."
            )
        }
        NextStep::Usual { measurand } => usual(*measurand),
        NextStep::Ambient => {
            "Ambient temperature in the shade before the condenser: every window depends on it.".to_owned()
        }
        NextStep::Humidity => "Humidity: moist air loads the evaporator and raises both sides.".to_owned(),
        NextStep::RepeatAsChartsAsk => {
            "Was the test run as the charts ask: ten minutes, coldest setting, blower high, doors or windows open? If not, repeat it."
                .to_owned()
        }
        NextStep::CompareTemperatures => {
            "Temperatures of condenser, compressor and cabin: all must equal the ambient, or wait longer.".to_owned()
        }
        NextStep::CoolDownAndRepeat => {
            "Let the engine cool down fully and repeat before concluding that air is inside. If it stays above, find out what is inside \
             before it is run or recovered."
                .to_owned()
        }
        NextStep::FollowLiquidLine => {
            "Follow the liquid line by hand or thermometer from the condenser to the clamp: where it turns cold or frosts, at the \
             drier, a filter or a kink, it is closed. If it is cold from the condenser on, or the clamp lies behind an internal heat \
             exchanger, read the thermometers again."
                .to_owned()
        }
        NextStep::KeepCompressorOff => {
            "Do not run the compressor: without liquid it gets no oil back. Look for the leak, recover and weigh what is left.".to_owned()
        }
        NextStep::ReadRunning => "Then the same gauges with the compressor running.".to_owned(),
    }
}

/// A measurement with its two outcomes: "Read the vent: about 55 °F (48 to 62) points to X, …".
fn measure(row: &NextRow, first: bool) -> String {
    let outcomes: Vec<String> = row
        .outcomes
        .iter()
        .take(2)
        .map(|one| {
            let shows = match row.measurand {
                Measurand::RecoveredCharge => format!("{} of the nominal charge", NUMERALS.about(&one.shows)),
                _ => NUMERALS.about(&one.shows),
            };
            format!("{shows} points to \"{}\"", name(one.cause))
        })
        .collect();
    // another interval than ± of what was read, said once
    let interval = if first { "; in brackets what two of three such cars show" } else { "" };
    let name = measurand(row.measurand);
    let how = match (row.measurand, row.effort) {
        (Measurand::RecoveredCharge, _) => RECOVER_AND_WEIGH.to_owned(),
        (Measurand::ClutchDutyCycle, _) => "Time the clutch over three cycles, engaged against all".to_owned(),
        (Measurand::EqualisedPressure, _) => "Stop the engine, let it cool, and read either gauge".to_owned(),
        (Measurand::DischargeLine, _) => {
            format!("Engine off and the line cool, clamp a thermometer on the {name}, then run it")
        }
        (_, Effort::Clamp) => format!("Clamp a thermometer on the {name}"),
        _ => format!("Read the {name}"),
    };
    format!("{how}: {}{interval}.", outcomes.join(", "))
}

/// How the charge is weighed, with what is minded meanwhile; common practice, no source.
const RECOVER_AND_WEIGH: &str =
    "Engine off, goggles and gloves on, recover the charge with recovery equipment, never into the air, and weigh it";

/// A measurement that is always worth having.
fn usual(of: Measurand) -> String {
    let sentence = match of {
        Measurand::LowSide => "The gauge on the low side: with the suction line it gives the superheat.",
        Measurand::HighSide => "The gauge on the high side: it shows what the condenser does, and too much charge.",
        Measurand::SuctionLine => {
            "Clamp a thermometer on the suction line beside the low-side port: superheat shows whether \
             the evaporator is filled."
        }
        Measurand::LiquidLine => {
            "Clamp a thermometer on the liquid line after the condenser: subcooling shows whether liquid reaches the valve."
        }
        Measurand::Vent => "Temperature at the centre vent: the one figure the driver feels.",
        Measurand::EqualisedPressure => {
            // half an hour: a trade text on the static pressure of cars (excerpt read); until cold: common practice
            "Engine off for half an hour at least, after a drive until all of it is cold: equalised, both gauges show air or a lost charge \
             better than any running reading."
        }
        Measurand::EvaporatorOutlet => "Clamp a thermometer on the evaporator outlet, before any hose.",
        Measurand::DischargeLine => {
            "Engine off and the line cool, clamp a thermometer on the discharge line at the compressor; then run it and read."
        }
        Measurand::ClutchDutyCycle => "Time the clutch over three cycles, engaged against all.",
        Measurand::RecoveredCharge => return format!("{RECOVER_AND_WEIGH}."),
    };
    sentence.to_owned()
}

#[cfg(test)]
mod tests {
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
            outcomes: vec![
                outcome(CauseId::Undercharge, 55.0),
                outcome(CauseId::Air, 41.0),
                outcome(CauseId::Icing, 30.0),
            ],
        };
        let mut causes = explained().causes.unwrap();
        causes.next = Measurand::ALL.iter().copied().map(next).collect();
        let said = |measurand, first| words().step(&NextStep::Measure { measurand }, Some(&causes), first);
        let outcomes = "about 55 °F (48 to 62) points to \"charge too low\", about 41 °F (34 to 48) points to \"air in the circuit\"";
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
}
