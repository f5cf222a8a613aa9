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
mod tests;
