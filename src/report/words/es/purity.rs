//! Sentences about air over a liquid, and about which refrigerant an equalised circuit may hold.

use super::NUMERALS;
use crate::Refrigerant;
use crate::quantity::{Position, PressureUnit, Unit};
use crate::report::purity::IdentityStatement;
use crate::service::identify::SIGNIFICANCE;
use crate::service::non_condensables::Purity;

/// What a pressure over liquid means, with pressures in `unit`.
pub(in crate::report) fn purity(purity: &Purity, unit: PressureUnit) -> Vec<String> {
    let r = purity.refrigerant;
    // a little air is a few kilopascals: never whole ones
    let decimals = usize::from(unit.gauge_decimals().max(1));
    let number = |pascals: f64| NUMERALS.number(pascals / unit.factor(), decimals);
    let written = |pascals: f64| format!("{} {}", number(pascals), unit.symbol());
    let (value, half) = (purity.air.value().pa(), purity.air.expanded().pa());
    let percent = |share: f64| NUMERALS.number(share, 1);
    match purity.position {
        Position::Above => vec![
            format!(
                "{} ± {} por encima de la saturación de {r}: aire, si el líquido tiene de verdad esta temperatura y es {r}.",
                number(value),
                written(half)
            ),
            format!(
                "Leído como aire, el {} ± {} % de las moléculas del vapor y el {} ± {} % de su masa.",
                percent(purity.mole_share.value().percent()),
                percent(purity.mole_share.expanded().percent()),
                percent(purity.mass_share.value().percent()),
                percent(purity.mass_share.expanded().percent())
            ),
            "Otro refrigerante con mayor presión de saturación, o uno mezclado, puede mostrar lo mismo.".to_owned(),
        ],
        Position::Within => vec![format!(
            "No hay aire que estos instrumentos puedan detectar: como mucho podrían esconderse {}.",
            written(purity.air_at_most().pa())
        )],
        Position::Below => vec![format!(
            "{} por debajo de la saturación de {r}: no queda líquido, el líquido está más frío de lo que dice el termómetro, o no es {r}. \
             Esto no dice nada del aire.",
            written(-value)
        )],
    }
}

/// One statement about which refrigerant an equalised circuit may hold.
pub(in crate::report) fn identity(statement: &IdentityStatement) -> String {
    match statement {
        IdentityStatement::NoneFits { nearest } => format!(
            "Ningún refrigerante del catálogo encaja; el más cercano es {nearest}. Una mezcla, aire, falta de líquido, o un circuito que \
             no está todo a la misma temperatura."
        ),
        IdentityStatement::NothingCompared => {
            "No se pudo comparar ningún refrigerante del catálogo.".to_owned()
        }
        IdentityStatement::OneFits(one) => format!(
            "Del catálogo solo encaja {} (probabilidad de desviaciones al menos tan grandes: {} %).",
            one.refrigerant,
            NUMERALS.number(one.p_value.percent(), 0)
        ),
        IdentityStatement::SeveralFit(several) => {
            let several: Vec<String> = several
                .iter()
                .map(|one| format!("{} ({} %)", one.refrigerant, NUMERALS.number(one.p_value.percent(), 0)))
                .collect();
            format!(
                "Encajan varios (entre paréntesis, la probabilidad de desviaciones al menos tan grandes; por debajo del {} % no se \
                 nombran): {}.",
                NUMERALS.number(SIGNIFICANCE.percent(), 0),
                several.join(", ")
            )
        }
        IdentityStatement::MixturePossible { lower } => format!(
            "Una mezcla es posible y no puede excluirse por presión y temperatura: cualquiera de {} con cualquiera de mayor presión de \
             saturación muestra en alguna proporción estas presiones, y también uno de ellos con aire.",
            names(lower)
        ),
        IdentityStatement::MixtureNotExcluded => {
            "Una mezcla no puede excluirse solo por presión y temperatura; puede decirlo un identificador que analice el vapor.".to_owned()
        }
        IdentityStatement::NotCompared(list) => {
            format!("No comparados, por no tener presión de saturación a estas temperaturas: {}.", names(list))
        }
    }
}

fn names(list: &[Refrigerant]) -> String {
    list.iter().map(ToString::to_string).collect::<Vec<_>>().join(", ")
}
