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

#[cfg(test)]
mod tests {
    use super::*;
    use crate::report::words::en::tests::told_apart;

    #[test]
    fn headings_outcomes_and_shifts_are_told_apart() {
        use ComparisonLabel::{
            After, Before, Care, Done, ForCustomer, Found, Measured, Moved, Now, ShouldBe, WhatMoved,
        };
        let said = |one| label(one).to_owned();
        told_apart([
            (said(Before), &["before"][..]),
            (said(After), &["now"]),
            (said(Moved), &["moved"]),
            (said(WhatMoved), &["What has moved"]),
            (said(Now), &["leaves the car"]),
            (said(ForCustomer), &["Your air conditioning"]),
            (said(Found), &["found"]),
            (said(Done), &["done"]),
            (said(Measured), &["measured"]),
            (said(ShouldBe), &["should"]),
            (said(Care), &["know"]),
        ]);
        use ComparisonOutcome::{Better, Mixed, Repaired, StillHealthy, Unchanged, Worse};
        let said = |one| outcome(one).to_owned();
        told_apart([
            (said(Repaired), &["Repaired", "looks healthy"][..]),
            (said(StillHealthy), &["Healthy before"]),
            (said(Better), &["Better", "not far enough"]),
            (said(Mixed), &["something else is wrong"]),
            (said(Unchanged), &["still there"]),
            (said(Worse), &["Worse"]),
        ]);
        let said = |one| for_customer(one).to_owned();
        told_apart([
            (said(Repaired), &["as it should again"][..]),
            (said(StillHealthy), &["as it did before"]),
            (said(Better), &["better than before"]),
            (said(Mixed), &["more to find"]),
            (said(Unchanged), &["still to be found"]),
            (said(Worse), &["less well"]),
        ]);
        told_apart([
            (shift(Shift::IntoWindow).to_owned(), &["into"][..]),
            (shift(Shift::Nearer).to_owned(), &["nearer"]),
            (shift(Shift::Unmoved).to_owned(), &["not"]),
            (shift(Shift::Farther).to_owned(), &["farther"]),
            (shift(Shift::Across).to_owned(), &["past"]),
            (shift(Shift::StaysInside).to_owned(), &["within"]),
            (shift(Shift::OutOfWindow).to_owned(), &["out of"]),
        ]);
        told_apart([
            (title("R-134a"), &["R-134a", "before and after"][..]),
            (own_days().to_owned(), &["own day", "weather"]),
            (read_once(&["vent", "subcooling"]), &["one time", "vent, subcooling"]),
            (vent("64 °F", "50 °F"), &["64 °F before", "50 °F now"]),
        ]);
        let of = |after| led(&LedRow { cause: crate::diagnosis::CauseId::Undercharge, before: 0.9, after });
        told_apart([
            (of(Some(0.02)), &["charge too low", "90 %", "2 % now"][..]),
            (of(None), &["charge too low", "90 %", "no causes"]),
        ]);
        assert!(care().len() == 3 && care()[1].contains("under pressure") && care()[1].contains("high voltage"));
    }
}
