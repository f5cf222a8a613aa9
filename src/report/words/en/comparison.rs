//! Sentences about two reports on one circuit.

use super::NUMERALS;
use super::causes::name;
use crate::report::comparison::{ComparisonOutcome, LedRow, Shift};
use crate::report::words::ComparisonLabel;

/// A heading, or the head of a column.
pub(in crate::report) fn label(label: ComparisonLabel) -> &'static str {
    match label {
        ComparisonLabel::Before => "before",
        ComparisonLabel::After => "now",
        ComparisonLabel::Moved => "it has moved",
        ComparisonLabel::WhatMoved => "What has moved",
        ComparisonLabel::Now => "Where that leaves the car",
        ComparisonLabel::ForCustomer => "Your air conditioning, before and after",
        ComparisonLabel::Found => "What was found",
        ComparisonLabel::Done => "What was done",
        ComparisonLabel::Measured => "What was measured",
        ComparisonLabel::ShouldBe => "should be",
        ComparisonLabel::Care => "Good to know",
    }
}

/// The title of the page for the workshop.
pub(in crate::report) fn title(refrigerant: &str) -> String {
    format!("{refrigerant}, before and after")
}

/// What became of the circuit.
pub(in crate::report) fn outcome(outcome: ComparisonOutcome) -> &'static str {
    match outcome {
        ComparisonOutcome::Repaired => {
            "Repaired, as far as these readings show: what was outside its window is inside, and the car looks healthy."
        }
        ComparisonOutcome::StillHealthy => "Healthy before, healthy now.",
        ComparisonOutcome::Better => {
            "Better, but not right yet: it has moved the way a repair moves it, and not far enough."
        }
        ComparisonOutcome::Mixed => {
            "Part of it has moved the way a repair moves it, part the other way: something else is wrong, or was made so."
        }
        ComparisonOutcome::Unchanged => {
            "Nothing has moved by more than the instruments leave open: what was wrong is still there."
        }
        ComparisonOutcome::Worse => "Worse: what has moved has moved away from where healthy cars are.",
    }
}

/// How a quantity has moved.
pub(in crate::report) fn shift(shift: Shift) -> &'static str {
    match shift {
        Shift::IntoWindow => "into its window",
        Shift::Nearer => "nearer to its window",
        Shift::Unmoved => "not at all",
        Shift::Farther => "farther from its window",
        Shift::Across => "past its window",
        Shift::StaysInside => "within its window",
        Shift::OutOfWindow => "out of its window",
    }
}

/// What the comparison rests on.
pub(in crate::report) fn own_days() -> &'static str {
    "Each reading is compared with healthy cars on its own day, so that other weather is no change; a repair moves what was outside into \
     its window and leaves the rest inside."
}

/// What is not compared.
pub(in crate::report) fn read_once(quantities: &[&str]) -> String {
    format!("Read one time only, and not compared: {}.", quantities.join(", "))
}

/// The cause that led before.
pub(in crate::report) fn led(led: &LedRow) -> String {
    let (name, before) = (name(led.cause), NUMERALS.percent(led.before));
    match led.after {
        Some(after) => format!("\"{name}\", which led before with {before}: {} now.", NUMERALS.percent(after)),
        None => format!("\"{name}\" led before with {before}; no causes were compared now."),
    }
}

/// What became of it, for the customer.
pub(in crate::report) fn for_customer(outcome: ComparisonOutcome) -> &'static str {
    match outcome {
        ComparisonOutcome::Repaired => "Your air conditioning works as it should again, as far as it can be measured.",
        ComparisonOutcome::StillHealthy => "Your air conditioning works as it should, as it did before.",
        ComparisonOutcome::Better => "Your air conditioning works better than before, but not as it should yet.",
        ComparisonOutcome::Mixed => "Your air conditioning does not work as it should yet: there is more to find.",
        ComparisonOutcome::Unchanged => {
            "Your air conditioning works as it did before the work: the cause is still to be found."
        }
        ComparisonOutcome::Worse => "Your air conditioning works less well than before: it must be looked at again.",
    }
}

/// The air at the vents.
pub(in crate::report) fn vent(before: &str, after: &str) -> String {
    format!("Air from the vents: {before} before, {after} now.")
}

/// What the customer should know.
pub(in crate::report) fn care() -> Vec<String> {
    vec![
        "If it cools less again within weeks or months, refrigerant is escaping: let the leak be found before more is charged.".to_owned(),
        "Do not open or top up the circuit yourself: it is under pressure, escaping refrigerant freezes skin and eyes and displaces air, \
         some kinds burn, and electric compressors carry high voltage."
            .to_owned(),
        "The figures are what gauges and thermometers showed on one day; the maker's data for your car come before this sheet.".to_owned(),
    ]
}
