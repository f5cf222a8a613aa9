//! Sentences about air over a liquid, and about which refrigerant an equalised circuit may hold.

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

#[cfg(test)]
mod tests {
    use super::*;
    use crate::report::words::en::tests::{says, told_apart};
    use crate::service::identify::RefrigerantCandidate;
    use crate::{Measured, Pressure, PressureDifference, Ratio, Temperature, TemperatureDifference};

    /// A pressure over R-134a at 25 °C, whose saturation pressure is 6.65 bar.
    fn at(bar: f64) -> Purity {
        let p = Measured::new(Pressure::from_bar(bar), PressureDifference::from_bar(0.1)).unwrap();
        let t = Measured::new(Temperature::from_celsius(25.0), TemperatureDifference::from_kelvins(0.5)).unwrap();
        Purity::of(Refrigerant::R134a, &p, &t).unwrap()
    }

    #[test]
    fn air_is_told_from_no_air_and_from_no_liquid() {
        let above = purity(&at(9.0), PressureUnit::Bar);
        assert_eq!(above.len(), 3);
        says(&above[0], &["2.35 ± 0.", " bar above saturation of R-134a: air"]);
        let (of_vapour, of_mass) = (at(9.0).mole_share.value().percent(), at(9.0).mass_share.value().percent());
        says(&above[1], &[&format!("{of_vapour:.1} ± "), &format!("{of_mass:.1} ± ")]);
        says(&above[2], &["Another refrigerant"]);
        told_apart([
            (purity(&at(6.7), PressureUnit::Bar).join(" "), &["No air", "at most 0.", " bar could hide"][..]),
            (
                purity(&at(5.0), PressureUnit::Bar).join(" "),
                &["1.65 bar below saturation of R-134a", "nothing about air"],
            ),
        ]);
        assert_eq!((purity(&at(6.7), PressureUnit::Bar).len(), purity(&at(5.0), PressureUnit::Bar).len()), (1, 1));
    }

    #[test]
    fn coarse_units_get_a_digit_more() {
        for (unit, below) in [
            (PressureUnit::Bar, "1.65 bar"),
            (PressureUnit::KilogramForce, "1.69 kgf/cm²"),
            (PressureUnit::Psi, "24.0 psi"),
            (PressureUnit::Kilopascal, "165.4 kPa"),
        ] {
            says(&purity(&at(5.0), unit)[0], &[&format!("{below} below saturation")]);
        }
    }

    #[test]
    fn each_statement_about_the_refrigerant_names_it() {
        let one = |refrigerant, percent| RefrigerantCandidate {
            refrigerant,
            chi_squared: 1.0,
            p_value: Ratio::from_percent(percent),
            posterior: Ratio::from_percent(50.0),
            above: PressureDifference::from_bar(0.0),
        };
        let two = vec![Refrigerant::R12, Refrigerant::R152a];
        told_apart([
            (
                identity(&IdentityStatement::NoneFits { nearest: Refrigerant::R12 }),
                &["No refrigerant", "R-12 comes"][..],
            ),
            (identity(&IdentityStatement::NothingCompared), &["could be compared"]),
            (identity(&IdentityStatement::OneFits(one(Refrigerant::R744, 42.0))), &["only R-744 fits", "42 %"]),
            (
                identity(&IdentityStatement::SeveralFit(vec![
                    one(Refrigerant::R12, 71.0),
                    one(Refrigerant::R134a, 8.0),
                ])),
                &["below 5 %", "R-12 (71 %), R-134a (8 %)"],
            ),
            (
                identity(&IdentityStatement::MixturePossible { lower: two.clone() }),
                &["mixture is possible", "any of R-12, R-152a with"],
            ),
            (identity(&IdentityStatement::MixtureNotExcluded), &["cannot be excluded", "identifier"]),
            (identity(&IdentityStatement::NotCompared(two)), &["Not compared", "R-12, R-152a"]),
        ]);
    }
}
