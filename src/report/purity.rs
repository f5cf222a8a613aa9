//! Sentences about air over a liquid, and about which refrigerant a resting circuit may hold.

use crate::Refrigerant;
use crate::quantity::{PressureUnit, Unit};
use crate::service::identify::{IMPLAUSIBLE, Ranking};
use crate::service::non_condensables::{Purity, PurityVerdict};

/// What a pressure over liquid means, with pressures in `unit`.
///
/// ```
/// use satline::quantity::PressureUnit;
/// use satline::service::non_condensables::Purity;
/// use satline::{Measured, Pressure, PressureDifference, Refrigerant, Temperature, TemperatureDifference, report};
/// let p = Measured::new(Pressure::from_bar(6.7), PressureDifference::from_bar(0.1))?;
/// let t = Measured::new(Temperature::from_celsius(25.0), TemperatureDifference::from_kelvins(0.5))?;
/// let words = report::purity(&Purity::of(Refrigerant::R134a, &p, &t)?, PressureUnit::Bar);
/// assert!(words[0].starts_with("No air that these instruments show"), "{words:?}");
/// # Ok::<(), satline::Error>(())
/// ```
pub fn purity(purity: &Purity, unit: PressureUnit) -> Vec<String> {
    let r = purity.refrigerant;
    let decimals = if unit.factor() > 5e4 { 2 } else { 1 };
    let written = |pascals: f64| format!("{:.decimals$} {}", pascals / unit.factor(), unit.symbol());
    let (value, half) = (purity.air.value().pa(), purity.air.expanded().pa());
    match purity.verdict {
        PurityVerdict::Above => vec![
            format!(
                "{} ± {} above saturation of {r}: air, if the liquid really has this temperature and is {r}.",
                written(value).trim_end_matches(unit.symbol()).trim_end(),
                written(half)
            ),
            format!(
                "Read as air, {:.1} ± {:.1} % of the vapour's molecules and {:.1} ± {:.1} % of its mass.",
                purity.mole_share.value().percent(),
                purity.mole_share.expanded().percent(),
                purity.mass_share.value().percent(),
                purity.mass_share.expanded().percent()
            ),
            "Another refrigerant with a higher line, or one mixed in, can show the same.".to_owned(),
        ],
        PurityVerdict::NoneSeen => vec![format!(
            "No air that these instruments show: at most {} could hide.",
            written(purity.air_at_most().pa())
        )],
        PurityVerdict::BelowSaturation => vec![format!(
            "{} below saturation of {r}: no liquid is left, the liquid is colder than the thermometer says, or it is not {r}. \
             About air this says nothing.",
            written(-value)
        )],
    }
}

/// Which refrigerants fit, and what that does not settle.
///
/// ```
/// use satline::service::identify::{Ranking, RestingPair, Shared};
/// use satline::{Measured, Pressure, PressureDifference, Temperature, TemperatureDifference, report};
/// let pair = RestingPair {
///     pressure: Measured::new(Pressure::from_bar(57.3), PressureDifference::from_bar(0.5))?,
///     temperature: Measured::new(Temperature::from_celsius(20.0), TemperatureDifference::from_kelvins(0.5))?,
/// };
/// let words = report::identity(&Ranking::of(&[pair], &Shared::NONE)?);
/// assert_eq!(words[0], "Of the catalogue only R-744 fits (deviations as large or larger by chance: 99 %).");
/// # Ok::<(), satline::Error>(())
/// ```
pub fn identity(ranking: &Ranking) -> Vec<String> {
    let possible: Vec<String> =
        ranking.possible().map(|c| format!("{} ({:.0} %)", c.refrigerant, c.chance.percent())).collect();
    let mut words = vec![match (possible.as_slice(), ranking.candidates.first()) {
        ([], Some(best)) => format!(
            "No refrigerant of the catalogue fits; {} comes nearest. A mixture, air, no liquid, or a circuit that is not at \
             one temperature.",
            best.refrigerant
        ),
        ([], None) => "No refrigerant of the catalogue could be compared.".to_owned(),
        ([_], _) => {
            let only = ranking.possible().next();
            only.map_or(String::new(), |c| {
                format!(
                    "Of the catalogue only {} fits (deviations as large or larger by chance: {:.0} %).",
                    c.refrigerant,
                    c.chance.percent()
                )
            })
        }
        (several, _) => format!(
            "Several fit (in brackets the chance of deviations as large or larger; below {:.0} % is left out): {}.",
            IMPLAUSIBLE.percent(),
            several.join(", ")
        ),
    }];
    let names = |list: &[Refrigerant]| list.iter().map(ToString::to_string).collect::<Vec<_>>().join(", ");
    if ranking.mixture_possible() {
        words.push(format!(
            "A mixture is possible and cannot be excluded by pressure and temperature: any of {} with any that stands higher \
             shows such pressures in some proportion, and with air too.",
            names(&ranking.lower)
        ));
    } else {
        words.push(
            "A mixture cannot be excluded by pressure and temperature alone; an identifier that analyses the vapour can tell."
                .to_owned(),
        );
    }
    if !ranking.not_compared.is_empty() {
        let list: Vec<Refrigerant> = ranking.not_compared.iter().map(|(r, _)| *r).collect();
        words.push(format!("Not compared, for want of a saturation pressure at these temperatures: {}.", names(&list)));
    }
    words
}
