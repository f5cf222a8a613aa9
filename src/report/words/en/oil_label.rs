//! Sentences about the ounces of an oil label, with the arithmetic.

use super::cm3;
use crate::report::oil_label::{Fit, LabelStatement};
use crate::service::oil::label::{Ounce, OunceReading, OunceTrial, OunceVerdict};

/// One statement about a label.
pub(in crate::report) fn statement(statement: &LabelStatement) -> String {
    match statement {
        LabelStatement::Tried { reading, trial, fit } => tried(reading, trial, fit.as_ref()),
        LabelStatement::Verdict { reading, metric } => verdict(reading, *metric),
        LabelStatement::NoOunces => "There are no ounces on it to misread.".to_owned(),
        LabelStatement::OnlyTheVolume(range) => {
            format!("Until then the printed volume is all there is to measure by: {}.", cm3(range))
        }
        LabelStatement::Volume(range) => format!("Measure by the printed volume: {}.", cm3(range)),
        LabelStatement::Mass(range) => format!(
            "It is printed as a mass, which is {} over the densities a compressor oil can have: pour it by the scale.",
            cm3(range)
        ),
    }
}

/// An ounce and its size.
fn sized(ounce: Ounce) -> &'static str {
    match ounce {
        Ounce::Weight => "ounces of weight of 28.35 g",
        Ounce::UsFluid => "US fluid ounces of 29.57 cm³",
        Ounce::ImperialFluid => "imperial fluid ounces of 28.41 cm³",
        Ounce::ThirtyMillilitres => "US fluid ounces rounded to 30 cm³",
    }
}

/// An ounce in a word or two.
fn name(ounce: Ounce) -> &'static str {
    match ounce {
        Ounce::Weight => "ounces of weight",
        Ounce::UsFluid => "US fluid ounces",
        Ounce::ImperialFluid => "imperial fluid ounces",
        Ounce::ThirtyMillilitres => "US fluid ounces counted as 30 cm³",
    }
}

fn tried(reading: &OunceReading, trial: &OunceTrial, fit: Option<&Fit>) -> String {
    let start = format!("{}, as {}", reading.printed, sized(trial.ounce));
    let Some(fit) = fit else {
        return format!("{start}, is {}.", cm3(&trial.volume));
    };
    // a digit more than is printed
    let decimals = |text: &str| text.split_once('.').map_or(1, |(_, digits)| digits.len() + 1);
    let each: Vec<String> = match fit {
        Fit::Number { .. } => {
            let rows = trial.would_read.iter().zip(&reading.beside).zip(&reading.numbers);
            rows.map(|((would, metric), number)| format!("{metric} would read {would:.*}", decimals(number))).collect()
        }
        Fit::Density { .. } => trial
            .density
            .iter()
            .zip(&reading.beside)
            .map(|(density, metric)| {
                let (low, high) = (density.low.g_per_cm3(), density.high.g_per_cm3());
                if high.is_finite() {
                    format!("beside {metric} that is {low:.3} to {high:.3} g/cm³")
                } else {
                    format!("beside {metric} that is {low:.3} g/cm³ or more")
                }
            })
            .collect(),
    };
    let end = match fit {
        Fit::Number { fits: true } => "That fits.",
        Fit::Number { fits: false } => "That does not fit.",
        Fit::Density { fits: true, .. } => "A compressor oil can have that density: it fits.",
        Fit::Density { fits: false, several: false } => "No compressor oil has that density: it does not fit.",
        Fit::Density { fits: false, several: true } => "No one oil has both: it does not fit.",
    };
    format!("{start}: {}. {end}", each.join(", "))
}

/// "ounces of weight, US fluid ounces or imperial fluid ounces".
fn list(ounces: &[Ounce], or: &str) -> String {
    let names: Vec<&str> = ounces.iter().map(|ounce| name(*ounce)).collect();
    match names.split_last() {
        Some((last, rest)) if !rest.is_empty() => format!("{} {or} {last}", rest.join(", ")),
        _ => names.join(""),
    }
}

fn verdict(reading: &OunceReading, metric: bool) -> String {
    let printed = &reading.printed;
    match &reading.verdict {
        OunceVerdict::Is(ounce) => format!("{printed} is printed in {}.", name(*ounce)),
        OunceVerdict::OneOf(ounces) => format!(
            "{printed} has too few digits to tell {}. The metric figure decides, so it does no harm.",
            list(ounces, "from")
        ),
        OunceVerdict::Contradiction => format!(
            "The label contradicts itself: no ounce fits. Leave {printed} aside and ask the maker whether the other figure \
             holds."
        ),
        OunceVerdict::Ask(ounces) if !metric => {
            format!("It can be {}: nothing on the label tells which. Ask the maker.", list(ounces, "or"))
        }
        OunceVerdict::Ask(_) => format!("{printed} cannot be compared with the metric figure number by number."),
    }
}
