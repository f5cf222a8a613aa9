//! Sentences about the ounces of an oil label, with the arithmetic. What is printed stands between « » as it is printed.

use super::{NUMERALS, cm3};
use crate::report::oil_label::{BesideRow, LabelStatement};
use crate::service::oil::label::Ounce;

/// One statement about a label.
pub(in crate::report) fn statement(statement: &LabelStatement) -> String {
    match statement {
        LabelStatement::Tried { printed, ounce, volume, beside, fits } => {
            let start = format!("«{printed}», como {}", sized(*ounce));
            match fits {
                Some(fits) => format!("{start}: {}", tried(beside, *fits)),
                None => format!("{start}, son {}.", cm3(volume)),
            }
        }
        LabelStatement::PrintedIn { printed, ounce } => format!("«{printed}» está impreso en {}.", name(*ounce)),
        LabelStatement::TooFewDigits { printed, ounces } => format!(
            "«{printed}» tiene muy pocas cifras para distinguir entre {}. Decide el dato métrico, así que no importa.",
            list(ounces, "y")
        ),
        LabelStatement::Contradiction { printed } => format!(
            "La etiqueta se contradice: ninguna onza encaja. Deje «{printed}» a un lado y pregunte al fabricante si vale el otro dato."
        ),
        LabelStatement::AnyOf { ounces } => {
            format!("Pueden ser {}: nada en la etiqueta dice cuáles. Pregunte al fabricante.", list(ounces, "u"))
        }
        LabelStatement::NotComparable { printed } => {
            format!("«{printed}» no puede compararse con el dato métrico número a número.")
        }
        LabelStatement::NoOunces => "No hay en ella onzas que leer mal.".to_owned(),
        LabelStatement::OnlyTheVolume { volume } => {
            format!("Hasta entonces, el volumen impreso es todo lo que hay para medir: {}.", cm3(volume))
        }
        LabelStatement::Volume { volume } => format!("Mida según el volumen impreso: {}.", cm3(volume)),
        LabelStatement::Mass { volume } => format!(
            "Está impreso como masa, que son {} con las densidades que puede tener un aceite de compresor: viértalo con la báscula.",
            cm3(volume)
        ),
    }
}

/// An ounce and its size.
fn sized(ounce: Ounce) -> &'static str {
    match ounce {
        Ounce::Weight => "onzas de peso de 28,35 g",
        Ounce::UsFluid => "onzas líquidas de EE. UU. de 29,57 cm³",
        Ounce::ImperialFluid => "onzas líquidas imperiales de 28,41 cm³",
        Ounce::ThirtyMillilitres => "onzas líquidas de EE. UU. redondeadas a 30 cm³",
    }
}

/// An ounce in a word or two.
fn name(ounce: Ounce) -> &'static str {
    match ounce {
        Ounce::Weight => "onzas de peso",
        Ounce::UsFluid => "onzas líquidas de EE. UU.",
        Ounce::ImperialFluid => "onzas líquidas imperiales",
        Ounce::ThirtyMillilitres => "onzas líquidas de EE. UU. contadas como 30 cm³",
    }
}

/// The arithmetic of an ounce beside each metric number, and whether it fits.
fn tried(beside: &[BesideRow], fits: bool) -> String {
    let n = NUMERALS;
    let each = beside.iter().map(|row| match row {
        BesideRow::Number { printed, reads } => {
            format!("«{printed}» se leería {}", n.number(reads.value, usize::from(reads.decimals)))
        }
        BesideRow::Density { printed, low, high: Some(high) } => {
            format!("junto a «{printed}» son {} g/cm³", n.range(low.value, high.value, usize::from(low.decimals)))
        }
        BesideRow::Density { printed, low, high: None } => format!("junto a «{printed}» son {} o más", n.plain(low)),
    });
    let end = match (beside, fits) {
        ([BesideRow::Density { .. }, ..], true) => "Un aceite de compresor puede tener esa densidad: encaja.",
        ([BesideRow::Density { .. }], false) => "Ningún aceite de compresor tiene esa densidad: no encaja.",
        ([BesideRow::Density { .. }, ..], false) => "Ningún aceite tiene ambas: no encaja.",
        (_, true) => "Encaja.",
        (_, false) => "No encaja.",
    };
    format!("{}. {end}", each.collect::<Vec<_>>().join("; "))
}

/// "onzas de peso, onzas líquidas de EE. UU. u onzas líquidas imperiales".
fn list(ounces: &[Ounce], or: &str) -> String {
    let names: Vec<&str> = ounces.iter().map(|ounce| name(*ounce)).collect();
    match names.split_last() {
        Some((last, rest)) if !rest.is_empty() => format!("{} {or} {last}", rest.join(", ")),
        _ => names.join(""),
    }
}
