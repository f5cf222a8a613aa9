//! Sentences about the ounces of an oil label, with the arithmetic.

use super::{NUMERALS, cm3};
use crate::report::oil_label::{BesideRow, LabelStatement};
use crate::service::oil::label::Ounce;

/// One statement about a label.
pub(in crate::report) fn statement(statement: &LabelStatement) -> String {
    match statement {
        LabelStatement::Tried { printed, ounce, volume, beside, fits } => {
            let start = format!("{printed}, as {}", sized(*ounce));
            match fits {
                Some(fits) => format!("{start}: {}", tried(beside, *fits)),
                None => format!("{start}, is {}.", cm3(volume)),
            }
        }
        LabelStatement::PrintedIn { printed, ounce } => format!("{printed} is printed in {}.", name(*ounce)),
        LabelStatement::TooFewDigits { printed, ounces } => format!(
            "{printed} has too few digits to tell {}. The metric figure decides, so it does no harm.",
            list(ounces, "from")
        ),
        LabelStatement::Contradiction { printed } => format!(
            "The label contradicts itself: no ounce fits. Leave {printed} aside and ask the maker whether the other figure \
             holds."
        ),
        LabelStatement::AnyOf { ounces } => {
            format!("It can be {}: nothing on the label tells which. Ask the maker.", list(ounces, "or"))
        }
        LabelStatement::NotComparable { printed } => {
            format!("{printed} cannot be compared with the metric figure number by number.")
        }
        LabelStatement::NoOunces => "There are no ounces on it to misread.".to_owned(),
        LabelStatement::OnlyTheVolume { volume } => {
            format!("Until then the printed volume is all there is to measure by: {}.", cm3(volume))
        }
        LabelStatement::Volume { volume } => format!("Measure by the printed volume: {}.", cm3(volume)),
        LabelStatement::Mass { volume } => format!(
            "It is printed as a mass, which is {} over the densities a compressor oil can have: pour it by the scale.",
            cm3(volume)
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

/// The arithmetic of an ounce beside each metric number, and whether it fits.
fn tried(beside: &[BesideRow], fits: bool) -> String {
    let n = NUMERALS;
    let each = beside.iter().map(|row| match row {
        BesideRow::Number { printed, reads } => {
            format!("{printed} would read {}", n.number(reads.value, usize::from(reads.decimals)))
        }
        BesideRow::Density { printed, low, high: Some(high) } => {
            format!("beside {printed} that is {} g/cm³", n.range(low.value, high.value, usize::from(low.decimals)))
        }
        BesideRow::Density { printed, low, high: None } => format!("beside {printed} that is {} or more", n.plain(low)),
    });
    let end = match (beside, fits) {
        ([BesideRow::Density { .. }, ..], true) => "A compressor oil can have that density: it fits.",
        ([BesideRow::Density { .. }], false) => "No compressor oil has that density: it does not fit.",
        ([BesideRow::Density { .. }, ..], false) => "No one oil has both: it does not fit.",
        (_, true) => "That fits.",
        (_, false) => "That does not fit.",
    };
    format!("{}. {end}", each.collect::<Vec<_>>().join(", "))
}

/// "ounces of weight, US fluid ounces or imperial fluid ounces".
fn list(ounces: &[Ounce], or: &str) -> String {
    let names: Vec<&str> = ounces.iter().map(|ounce| name(*ounce)).collect();
    match names.split_last() {
        Some((last, rest)) if !rest.is_empty() => format!("{} {or} {last}", rest.join(", ")),
        _ => names.join(""),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::report::words::en::tests::told_apart;
    use crate::report::{Amount, Span};

    fn range(low: f64, high: f64) -> Span {
        Span::new(low, high, "cm³", 0)
    }

    const PRINTED: &str = "4.7-6 oz";

    fn printed() -> String {
        PRINTED.to_owned()
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
        let told = |beside: &[BesideRow], fits| {
            let (ounce, volume, beside) = (Ounce::UsFluid, range(139.0, 178.0), beside.to_vec());
            statement(&LabelStatement::Tried { printed: printed(), ounce, volume, beside, fits })
        };
        let reads = |printed: &str, value, decimals| {
            let (printed, reads) = (printed.to_owned(), Amount::new(value, None, "oz", decimals));
            BesideRow::Number { printed, reads }
        };
        let density = |printed: &str, low, high: Option<f64>| {
            let amount = |value| Amount::new(value, None, "g/cm³", 3);
            BesideRow::Density { printed: printed.to_owned(), low: amount(low), high: high.map(amount) }
        };
        let numbers = [reads("140", 4.734, 2), reads("160 cm³", 5.41, 1)];
        let both = [density("140", 0.942, Some(0.962)), density("160 cm³", 1.01, None)];
        told_apart([
            (told(&[], None), &["4.7-6 oz, as US fluid ounces", "is 139 to 178 cm³."][..]),
            (told(&numbers, Some(true)), &["140 would read 4.73, 160 cm³ would read 5.4. That fits"]),
            (told(&numbers, Some(false)), &["would read 5.4. That does not fit"]),
            (told(&both, Some(true)), &["beside 140 that is 0.942 to 0.962 g/cm³", "1.010 g/cm³ or more", "it fits"]),
            (told(&both[..1], Some(false)), &["No compressor oil", "not fit"]),
            (told(&both, Some(false)), &["No one oil has both", "not fit"]),
        ]);
    }

    #[test]
    fn a_label_is_judged_and_a_volume_given() {
        let two = || vec![Ounce::Weight, Ounce::ImperialFluid];
        let said = |one: LabelStatement| statement(&one);
        told_apart([
            (
                said(LabelStatement::PrintedIn { printed: printed(), ounce: Ounce::UsFluid }),
                &["4.7-6 oz is printed in US fluid ounces."][..],
            ),
            (
                said(LabelStatement::TooFewDigits { printed: printed(), ounces: two() }),
                &["too few digits", "weight from imperial", "no harm"],
            ),
            (
                said(LabelStatement::Contradiction { printed: printed() }),
                &["contradicts itself", "Leave 4.7-6 oz aside"],
            ),
            (said(LabelStatement::AnyOf { ounces: two() }), &["weight or imperial", "Ask the maker"]),
            (said(LabelStatement::NotComparable { printed: printed() }), &["4.7-6 oz cannot be compared"]),
            (said(LabelStatement::NoOunces), &["no ounces"]),
            (said(LabelStatement::OnlyTheVolume { volume: range(140.0, 160.0) }), &["Until then", "140 to 160 cm³"]),
            (said(LabelStatement::Volume { volume: range(140.0, 160.0) }), &["printed volume: 140 to 160 cm³"]),
            (said(LabelStatement::Mass { volume: range(140.0, 170.0) }), &["mass", "140 to 170 cm³", "by the scale"]),
        ]);
    }
}
