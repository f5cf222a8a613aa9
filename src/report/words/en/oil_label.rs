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

#[cfg(test)]
mod tests {
    use super::*;
    use crate::report::words::en::tests::told_apart;
    use crate::{Range, Volume};

    fn range(low: f64, high: f64) -> Range<Volume> {
        Range::new(Volume::from_cm3(low), Volume::from_cm3(high))
    }

    fn reading(verdict: OunceVerdict) -> OunceReading {
        let (numbers, beside) = (vec!["4.7".to_owned(), "6".to_owned()], vec!["140".to_owned(), "160 cm³".to_owned()]);
        OunceReading { printed: "4.7-6 oz".to_owned(), numbers, beside, trials: Vec::new(), verdict }
    }

    fn trial(ounce: Ounce) -> OunceTrial {
        let density = |low, high: f64| {
            Range::new(crate::quantity::Density::from_g_per_cm3(low), crate::quantity::Density::from_g_per_cm3(high))
        };
        OunceTrial {
            ounce,
            volume: range(139.0, 178.0),
            would_read: vec![4.734, 5.41],
            density: vec![density(0.942, 0.962), density(1.01, f64::INFINITY)],
            fits: None,
        }
    }

    #[test]
    fn each_ounce_is_named_with_its_size() {
        use Ounce::{ImperialFluid, ThirtyMillilitres, UsFluid, Weight};
        told_apart([
            (sized(Weight), &["weight", "28.35 g"][..]),
            (sized(UsFluid), &["US fluid", "29.57 cm³"]),
            (sized(ImperialFluid), &["imperial", "28.41 cm³"]),
            (sized(ThirtyMillilitres), &["US fluid", "30 cm³"]),
        ]);
        told_apart([
            (name(Weight), &["weight"][..]),
            (name(UsFluid), &["US fluid"]),
            (name(ImperialFluid), &["imperial"]),
            (name(ThirtyMillilitres), &["30 cm³"]),
        ]);
        assert_eq!(list(&[Weight], "or"), "ounces of weight");
        assert_eq!(list(&[Weight, UsFluid], "or"), "ounces of weight or US fluid ounces");
        let three = list(&[Weight, UsFluid, ImperialFluid], "from");
        assert_eq!(three, "ounces of weight, US fluid ounces from imperial fluid ounces");
        assert_eq!(list(&[], "or"), "");
    }

    #[test]
    fn an_ounce_is_tried_with_its_arithmetic() {
        let (reading, us) = (reading(OunceVerdict::Contradiction), trial(Ounce::UsFluid));
        let told = |fit| statement(&LabelStatement::Tried { reading: &reading, trial: &us, fit });
        let density = |fits, several| Some(Fit::Density { fits, several });
        told_apart([
            (told(None), &["4.7-6 oz, as US fluid ounces", "is 139 to 178 cm³."][..]),
            // a digit more than is printed, and one where none is
            (told(Some(Fit::Number { fits: true })), &["140 would read 4.73, 160 cm³ would read 5.4. That fits"]),
            (told(Some(Fit::Number { fits: false })), &["would read 5.4. That does not fit"]),
            (
                told(density(true, false)),
                &["beside 140 that is 0.942 to 0.962 g/cm³", "1.010 g/cm³ or more", "it fits"],
            ),
            (told(density(false, false)), &["No compressor oil", "not fit"]),
            (told(density(false, true)), &["No one oil has both", "not fit"]),
        ]);
    }

    #[test]
    fn a_label_is_judged_and_a_volume_given() {
        let of = |verdict: OunceVerdict, metric| {
            let reading = reading(verdict);
            statement(&LabelStatement::Verdict { reading: &reading, metric })
        };
        let two = || vec![Ounce::Weight, Ounce::ImperialFluid];
        told_apart([
            (of(OunceVerdict::Is(Ounce::UsFluid), true), &["4.7-6 oz is printed in US fluid ounces."][..]),
            (of(OunceVerdict::OneOf(two()), true), &["too few digits", "weight from imperial", "no harm"]),
            (of(OunceVerdict::Contradiction, true), &["contradicts itself", "Leave 4.7-6 oz aside"]),
            (of(OunceVerdict::Ask(two()), false), &["weight or imperial", "Ask the maker"]),
            (of(OunceVerdict::Ask(two()), true), &["4.7-6 oz cannot be compared"]),
            (statement(&LabelStatement::NoOunces), &["no ounces"]),
            (statement(&LabelStatement::OnlyTheVolume(range(140.0, 160.0))), &["Until then", "140 to 160 cm³"]),
            (statement(&LabelStatement::Volume(range(140.0, 160.0))), &["printed volume: 140 to 160 cm³"]),
            (statement(&LabelStatement::Mass(range(140.0, 170.0))), &["mass", "140 to 170 cm³", "by the scale"]),
        ]);
    }
}
