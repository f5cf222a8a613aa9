//! Sentences about air over a liquid, and about which refrigerant an equalised circuit may hold.

use super::words::en;
use crate::Refrigerant;
use crate::quantity::PressureUnit;
use crate::service::identify::{RefrigerantCandidate, RefrigerantIdentification};
use crate::service::non_condensables::Purity;

/// Sentences about a pressure over liquid refrigerant, with pressures in `unit`.
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
    en::purity::purity(purity, unit)
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

/// Sentences about which refrigerants fit, and what that does not settle.
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
    statements.iter().map(en::purity::identity).collect()
}
