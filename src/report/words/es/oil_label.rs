//! Sentences about the ounces of an oil label, with the arithmetic. What is printed stands between « » as it is printed.

use super::{NUMERALS, cm3};
use crate::report::oil_label::{Fit, LabelStatement};
use crate::service::oil::label::{Ounce, OunceReading, OunceTrial, OunceVerdict};

/// One statement about a label.
pub(in crate::report) fn statement(statement: &LabelStatement) -> String {
    match statement {
        LabelStatement::Tried { reading, trial, fit } => tried(reading, trial, fit.as_ref()),
        LabelStatement::Verdict { reading, metric } => verdict(reading, *metric),
        LabelStatement::NoOunces => "No hay en ella onzas que leer mal.".to_owned(),
        LabelStatement::OnlyTheVolume(range) => {
            format!("Hasta entonces, el volumen impreso es todo lo que hay para medir: {}.", cm3(range))
        }
        LabelStatement::Volume(range) => format!("Mida según el volumen impreso: {}.", cm3(range)),
        LabelStatement::Mass(range) => format!(
            "Está impreso como masa, que son {} con las densidades que puede tener un aceite de compresor: viértalo con la báscula.",
            cm3(range)
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

fn tried(reading: &OunceReading, trial: &OunceTrial, fit: Option<&Fit>) -> String {
    let start = format!("«{}», como {}", reading.printed, sized(trial.ounce));
    let Some(fit) = fit else {
        return format!("{start}, son {}.", cm3(&trial.volume));
    };
    // a digit more than is printed
    let decimals = |text: &str| text.split_once('.').map_or(1, |(_, digits)| digits.len() + 1);
    let each: Vec<String> = match fit {
        Fit::Number { .. } => {
            let rows = trial.would_read.iter().zip(&reading.beside).zip(&reading.numbers);
            rows.map(|((would, metric), number)| {
                format!("«{metric}» se leería {}", NUMERALS.number(*would, decimals(number)))
            })
            .collect()
        }
        Fit::Density { .. } => trial
            .density
            .iter()
            .zip(&reading.beside)
            .map(|(density, metric)| {
                let (low, high) = (density.low.g_per_cm3(), density.high.g_per_cm3());
                if high.is_finite() {
                    format!("junto a «{metric}» son {} g/cm³", NUMERALS.range(low, high, 3))
                } else {
                    format!("junto a «{metric}» son {} g/cm³ o más", NUMERALS.number(low, 3))
                }
            })
            .collect(),
    };
    let end = match fit {
        Fit::Number { fits: true } => "Encaja.",
        Fit::Number { fits: false } => "No encaja.",
        Fit::Density { fits: true, .. } => "Un aceite de compresor puede tener esa densidad: encaja.",
        Fit::Density { fits: false, several: false } => "Ningún aceite de compresor tiene esa densidad: no encaja.",
        Fit::Density { fits: false, several: true } => "Ningún aceite tiene ambas: no encaja.",
    };
    format!("{start}: {}. {end}", each.join("; "))
}

/// "onzas de peso, onzas líquidas de EE. UU. u onzas líquidas imperiales".
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
        OunceVerdict::Is(ounce) => format!("«{printed}» está impreso en {}.", name(*ounce)),
        OunceVerdict::OneOf(ounces) => format!(
            "«{printed}» tiene muy pocas cifras para distinguir entre {}. Decide el dato métrico, así que no importa.",
            list(ounces, "y")
        ),
        OunceVerdict::Contradiction => format!(
            "La etiqueta se contradice: ninguna onza encaja. Deje «{printed}» a un lado y pregunte al fabricante si vale el otro dato."
        ),
        OunceVerdict::Ask(ounces) if !metric => {
            format!("Pueden ser {}: nada en la etiqueta dice cuáles. Pregunte al fabricante.", list(ounces, "u"))
        }
        OunceVerdict::Ask(_) => format!("«{printed}» no puede compararse con el dato métrico número a número."),
    }
}
