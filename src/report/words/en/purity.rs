//! Sentences about air over a liquid, and about which refrigerant an equalised circuit may hold.

use crate::Refrigerant;
use crate::quantity::{Position, PressureUnit, Unit};
use crate::report::purity::IdentityStatement;
use crate::service::identify::SIGNIFICANCE;
use crate::service::non_condensables::Purity;

/// What a pressure over liquid means, with pressures in `unit`.
pub(in crate::report) fn purity(purity: &Purity, unit: PressureUnit) -> Vec<String> {
    let r = purity.refrigerant;
    // units as coarse as a bar are written with a digit more
    let decimals = if unit.factor() > 5e4 { 2 } else { 1 };
    let number = |pascals: f64| format!("{:.decimals$}", pascals / unit.factor());
    let written = |pascals: f64| format!("{} {}", number(pascals), unit.symbol());
    let (value, half) = (purity.air.value().pa(), purity.air.expanded().pa());
    match purity.position {
        Position::Above => vec![
            format!(
                "{} ± {} above saturation of {r}: air, if the liquid really has this temperature and is {r}.",
                number(value),
                written(half)
            ),
            format!(
                "Read as air, {:.1} ± {:.1} % of the vapour's molecules and {:.1} ± {:.1} % of its mass.",
                purity.mole_share.value().percent(),
                purity.mole_share.expanded().percent(),
                purity.mass_share.value().percent(),
                purity.mass_share.expanded().percent()
            ),
            "Another refrigerant with a higher saturation pressure, or one mixed in, can show the same.".to_owned(),
        ],
        Position::Within => vec![format!(
            "No air that these instruments can detect: at most {} could hide.",
            written(purity.air_at_most().pa())
        )],
        Position::Below => vec![format!(
            "{} below saturation of {r}: no liquid is left, the liquid is colder than the thermometer says, or it is not {r}. \
             This says nothing about air.",
            written(-value)
        )],
    }
}

/// One statement about which refrigerant an equalised circuit may hold.
pub(in crate::report) fn identity(statement: &IdentityStatement) -> String {
    match statement {
        IdentityStatement::NoneFits { nearest } => format!(
            "No refrigerant of the catalogue fits; {nearest} comes nearest. A mixture, air, no liquid, or a circuit that is \
             not at one temperature."
        ),
        IdentityStatement::NothingCompared => "No refrigerant of the catalogue could be compared.".to_owned(),
        IdentityStatement::OneFits(one) => format!(
            "Of the catalogue only {} fits (probability of deviations at least as large: {:.0} %).",
            one.refrigerant,
            one.p_value.percent()
        ),
        IdentityStatement::SeveralFit(several) => {
            let several: Vec<String> =
                several.iter().map(|one| format!("{} ({:.0} %)", one.refrigerant, one.p_value.percent())).collect();
            format!(
                "Several fit (in brackets the probability of deviations at least as large; below {:.0} % is left out): {}.",
                SIGNIFICANCE.percent(),
                several.join(", ")
            )
        }
        IdentityStatement::MixturePossible { lower } => format!(
            "A mixture is possible and cannot be excluded by pressure and temperature: any of {} with any that has a higher \
             saturation pressure shows such pressures in some proportion, and so does one of them with air.",
            names(lower)
        ),
        IdentityStatement::MixtureNotExcluded => {
            "A mixture cannot be excluded by pressure and temperature alone; an identifier that analyses the vapour can tell."
                .to_owned()
        }
        IdentityStatement::NotCompared(list) => {
            format!("Not compared, for want of a saturation pressure at these temperatures: {}.", names(list))
        }
    }
}

fn names(list: &[Refrigerant]) -> String {
    list.iter().map(ToString::to_string).collect::<Vec<_>>().join(", ")
}
