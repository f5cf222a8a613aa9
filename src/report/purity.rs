//! Sentences about air over a liquid, and about which refrigerant an equalised circuit may hold.

use super::Language;
use crate::Refrigerant;
use crate::quantity::PressureUnit;
use crate::service::identify::{RefrigerantCandidate, RefrigerantIdentification};
use crate::service::non_condensables::Purity;

/// Sentences in English about a pressure over liquid refrigerant, with pressures in `unit`; [`Language::purity`] says the same.
///
/// ```
/// use satline::quantity::PressureUnit;
/// use satline::service::non_condensables::Purity;
/// use satline::{Measured, Pressure, PressureDifference, Refrigerant, Temperature, TemperatureDifference, report};
/// let p = Measured::new(Pressure::from_bar(6.7), PressureDifference::from_bar(0.1))?;
/// let t = Measured::new(Temperature::from_celsius(25.0), TemperatureDifference::from_kelvins(0.5))?;
/// let words = report::purity(&Purity::of(Refrigerant::R134a, &p, &t)?, PressureUnit::Bar);
/// assert!(words[0].starts_with("No air that these instruments can detect"), "{words:?}");
/// # Ok::<(), satline::Error>(())
/// ```
pub fn purity(purity: &Purity, unit: PressureUnit) -> Vec<String> {
    Language::English.purity(purity, unit)
}

/// A statement about which refrigerant an equalised circuit may hold.
pub(super) enum IdentityStatement {
    /// None of the catalogue fits.
    NoneFits {
        /// The best of them.
        nearest: Refrigerant,
    },
    /// None has a saturation pressure at the temperatures.
    NothingCompared,
    /// One alone fits.
    OneFits(RefrigerantCandidate),
    /// Several fit.
    SeveralFit(Vec<RefrigerantCandidate>),
    /// Two of the catalogue, mixed, could show these pressures.
    MixturePossible {
        /// Those with a lower saturation pressure.
        lower: Vec<Refrigerant>,
    },
    /// No two of the catalogue could, but others can.
    MixtureNotExcluded,
    /// Those without a saturation pressure at one of the temperatures.
    NotCompared(Vec<Refrigerant>),
}

/// Sentences in English about which refrigerants fit, and what that does not settle; [`Language::identity`] says the same.
///
/// ```
/// use satline::service::StaticReading;
/// use satline::service::identify::{INDEPENDENT, RefrigerantIdentification};
/// use satline::{Measured, Pressure, PressureDifference, Temperature, TemperatureDifference, report};
/// let pair = StaticReading {
///     pressure: Measured::new(Pressure::from_bar(57.3), PressureDifference::from_bar(0.5))?,
///     temperature: Measured::new(Temperature::from_celsius(20.0), TemperatureDifference::from_kelvins(0.5))?,
/// };
/// let words = report::identity(&RefrigerantIdentification::of(&[pair], INDEPENDENT)?);
/// assert_eq!(words[0], "Of the catalogue only R-744 fits (probability of deviations at least as large: 99 %).");
/// # Ok::<(), satline::Error>(())
/// ```
pub fn identity(identification: &RefrigerantIdentification) -> Vec<String> {
    Language::English.identity(identification)
}

/// What is stated about which refrigerants fit.
pub(super) fn identity_statements(identification: &RefrigerantIdentification) -> Vec<IdentityStatement> {
    let possible: Vec<RefrigerantCandidate> = identification.possible().copied().collect();
    let first = match (possible.as_slice(), identification.candidates.first()) {
        ([], Some(best)) => IdentityStatement::NoneFits { nearest: best.refrigerant },
        ([], None) => IdentityStatement::NothingCompared,
        ([one], _) => IdentityStatement::OneFits(*one),
        _ => IdentityStatement::SeveralFit(possible),
    };
    let mixture = if identification.mixture_possible() {
        IdentityStatement::MixturePossible { lower: identification.lower.clone() }
    } else {
        IdentityStatement::MixtureNotExcluded
    };
    let mut statements = vec![first, mixture];
    if !identification.not_compared.is_empty() {
        let list = identification.not_compared.iter().map(|(refrigerant, _)| *refrigerant).collect();
        statements.push(IdentityStatement::NotCompared(list));
    }
    statements
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::service::StaticReading;
    use crate::service::identify::INDEPENDENT;
    use crate::{Measured, Pressure, PressureDifference, Temperature, TemperatureDifference};

    /// What is said of a pressure at a temperature, known within `off` bar.
    fn said(bar: f64, off: f64, celsius: f64) -> Vec<String> {
        let pair = StaticReading {
            pressure: Measured::new(Pressure::from_bar(bar), PressureDifference::from_bar(off)).unwrap(),
            temperature: Measured::new(Temperature::from_celsius(celsius), TemperatureDifference::from_kelvins(0.5))
                .unwrap(),
        };
        identity(&RefrigerantIdentification::of(&[pair], INDEPENDENT).unwrap())
    }

    #[test]
    fn a_pressure_fits_none_one_or_several() {
        for (bar, off, text) in
            [(30.0, 0.1, "No refrigerant"), (57.3, 0.5, "only R-744 fits"), (5.8, 0.3, "Several fit")]
        {
            let words = said(bar, off, 20.0);
            assert!(words[0].contains(text) && words[1].contains("ixture"), "{words:?}");
            assert_eq!(words.len(), 2, "{words:?}");
        }
        // none of the catalogue lies above R-744, below it others do
        assert!(said(80.0, 0.1, 20.0)[1].contains("analyses the vapour"));
        assert!(said(30.0, 0.1, 20.0)[1].contains("A mixture is possible"));
        // above 31 °C R-744 has no saturation
        let hot = said(10.0, 0.1, 40.0);
        assert!(hot.len() == 3 && hot[2].contains("R-744"), "{hot:?}");
        let nothing = RefrigerantIdentification {
            candidates: Vec::new(),
            not_compared: Vec::new(),
            lower: Vec::new(),
            higher: Vec::new(),
        };
        let words = identity(&nothing);
        assert!(words.len() == 2 && words[0].contains("could be compared"), "{words:?}");
    }

    #[test]
    fn purity_is_said_in_the_unit_asked_for() {
        let p = Measured::new(Pressure::from_bar(9.0), PressureDifference::from_bar(0.1)).unwrap();
        let t = Measured::new(Temperature::from_celsius(25.0), TemperatureDifference::from_kelvins(0.5)).unwrap();
        let words = purity(&Purity::of(Refrigerant::R134a, &p, &t).unwrap(), PressureUnit::Psi);
        assert!(words.len() == 3 && words[0].contains(" psi above saturation of R-134a"), "{words:?}");
        // 900 kPa over 665.4 kPa, the saturation pressure at 25 °C: in every unit to about a kilopascal, never whole ones
        for (unit, said) in [
            (PressureUnit::Bar, "2.35 ± 0.28 bar above"),
            (PressureUnit::Kilopascal, "234.6 ± 27."),
            (PressureUnit::Megapascal, "0.235 ± 0.028 MPa above"),
        ] {
            let words = purity(&Purity::of(Refrigerant::R134a, &p, &t).unwrap(), unit);
            assert!(words[0].starts_with(said), "{said}: {}", words[0]);
        }
    }
}
