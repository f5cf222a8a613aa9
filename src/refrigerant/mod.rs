//! Catalogue of refrigerants: identity, safety and saturation lines. The only module that knows fluids.
//!
//! **Above the critical point** a saturation property is an error, as in [`saturation`](crate::saturation); states
//! there are computed like any other ([`Refrigerant::state`]).

pub mod checks;
mod curves;
mod exact;
mod fluid;
mod lines;
pub mod transport;

mod r12;
mod r1234yf;
mod r1234ze;
mod r125;
mod r134a;
mod r143a;
mod r152a;
mod r22;
mod r290;
mod r32;
mod r404a;
mod r407c;
mod r410a;
mod r507a;
mod r600a;
mod r744;

use core::fmt;
#[cfg(feature = "std")]
use core::str::FromStr;

use checks::Check;
#[doc(hidden)]
pub use facts::*;
pub use fluid::{Fluid, SafetyClass};

/// Types of the fields of a [`Fluid`] and of a [`Check`]; they may change in any version.
#[doc(hidden)]
pub mod facts {
    pub use crate::refrigerant::checks::{CheckedLine, Deviation};
    pub use crate::refrigerant::fluid::{Boiling, Component, CriticalPoint, Gwp, GwpValue, LowerFlammability};
}

use crate::saturation::{Curve, Wagner};
use crate::{Error, Pressure, Range, Temperature};

/// Refrigerant of the catalogue.
///
/// ```
/// # #[cfg(feature = "std")] {
/// use approx::assert_abs_diff_eq;
/// use satline::{GaugePressure, Pressure, Refrigerant, Temperature};
/// let r: Refrigerant = "R-1234yf".parse()?;
/// let p = r.saturation_pressure(Temperature::from_celsius(10.0))?;
/// assert_abs_diff_eq!(p.kpa(), 437.63, epsilon = 0.05); // Lemmon & Akasaka 2022, within 0.012 %: our choice
/// let low = GaugePressure::from_psi(45.0).absolute(Pressure::STANDARD_ATMOSPHERE);
/// assert_abs_diff_eq!(r.saturation_temperature(low)?.celsius(), 8.1, epsilon = 0.1); // its last digit
/// # }
/// # Ok::<(), satline::Error>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
#[non_exhaustive]
pub enum Refrigerant {
    /// R-134a, 1,1,1,2-tetrafluoroethane; in cars from about 1991 on.
    R134a,
    /// R-1234yf, 2,3,3,3-tetrafluoroprop-1-ene; in today's cars.
    R1234yf,
    /// R-744, carbon dioxide.
    R744,
    /// R-152a, 1,1-difluoroethane.
    R152a,
    /// R-290, propane.
    R290,
    /// R-12, dichlorodifluoromethane; in cars before about 1994.
    R12,
    /// R-600a, isobutane.
    R600a,
    /// R-22, chlorodifluoromethane.
    R22,
    /// R-1234ze(E), trans-1,3,3,3-tetrafluoropropene.
    R1234ze,
    /// R-32, difluoromethane.
    R32,
    /// R-125, pentafluoroethane.
    R125,
    /// R-143a, 1,1,1-trifluoroethane.
    R143a,
    /// R-404A, a blend used in refrigerated transport.
    R404A,
    /// R-407C, a blend used in buses.
    R407C,
    /// R-410A, a blend used in stationary systems.
    R410A,
    /// R-507A, an azeotrope used in refrigerated transport.
    R507A,
}

impl Refrigerant {
    /// Whether A/C circuits run this refrigerant above its critical pressure, with a gas cooler in place of the
    /// condenser and an accumulator.
    pub const fn is_transcritical(self) -> bool {
        matches!(self, Self::R744)
    }
}

impl Refrigerant {
    /// All refrigerants of the catalogue, those of cars first.
    pub const ALL: &'static [Self] = &[
        Self::R134a,
        Self::R1234yf,
        Self::R744,
        Self::R152a,
        Self::R290,
        Self::R12,
        Self::R600a,
        Self::R22,
        Self::R1234ze,
        Self::R32,
        Self::R125,
        Self::R143a,
        Self::R404A,
        Self::R407C,
        Self::R410A,
        Self::R507A,
    ];

    /// Data sheet of the refrigerant: names, composition, critical point and safety class, each with its source.
    pub const fn fluid(self) -> &'static Fluid {
        match self {
            Self::R134a => &r134a::FLUID,
            Self::R1234yf => &r1234yf::FLUID,
            Self::R744 => &r744::FLUID,
            Self::R152a => &r152a::FLUID,
            Self::R290 => &r290::FLUID,
            Self::R12 => &r12::FLUID,
            Self::R600a => &r600a::FLUID,
            Self::R22 => &r22::FLUID,
            Self::R1234ze => &r1234ze::FLUID,
            Self::R32 => &r32::FLUID,
            Self::R125 => &r125::FLUID,
            Self::R143a => &r143a::FLUID,
            Self::R404A => &r404a::FLUID,
            Self::R407C => &r407c::FLUID,
            Self::R410A => &r410a::FLUID,
            Self::R507A => &r507a::FLUID,
        }
    }

    /// Designation by ISO 817 and ASHRAE 34, such as "R-134a".
    pub const fn designation(self) -> &'static str {
        self.fluid().designation
    }

    /// Whether the refrigerant is a blend with separate bubble and dew lines.
    pub const fn is_blend(self) -> bool {
        !self.fluid().composition.is_empty()
    }

    /// Dew line, on which the last drop evaporates, in a short form for citing and typing; superheat is measured from
    /// it.
    pub const fn dew_line(self) -> &'static Wagner {
        &self.fluid().dew
    }

    /// Bubble line, on which the first bubble forms, in a short form for citing and typing; subcooling is measured from
    /// it. For a pure fluid it is the dew line.
    pub const fn bubble_line(self) -> &'static Wagner {
        &self.fluid().bubble
    }

    /// Temperature range in which both saturation lines are valid.
    pub fn saturation_range(self) -> Range<Temperature> {
        self.fluid().dew_curve.valid
    }

    /// Saturation pressure at temperature `t`; for a blend, the dew-point pressure.
    ///
    /// - **Equation** piecewise polynomials ([`Curve`]) made from the equation of state.
    /// - **Range** [`Refrigerant::saturation_range`]: from the triple point, or the lower limit of the equation, to the
    ///   critical point.
    /// - **Accuracy** within 10⁻¹⁰ of the equation of state. A short form to type is [`Refrigerant::dew_line`].
    /// - **Source** the equation of state, [`Fluid::equation`].
    ///
    /// # Errors
    /// [`Error::AboveCriticalTemperature`]; [`Error::OutOfRange`] outside the range; the value is never clamped and never extrapolated.
    pub fn saturation_pressure(self, t: Temperature) -> Result<Pressure, Error> {
        self.dew_pressure(t)
    }

    /// Saturation temperature at absolute pressure `p`; for a blend, the dew-point temperature.
    ///
    /// # Errors
    /// [`Error::Supercritical`] above the critical pressure; [`Error::OutOfRange`] below the range.
    pub fn saturation_temperature(self, p: Pressure) -> Result<Temperature, Error> {
        self.dew_temperature(p)
    }

    /// Dew-point pressure at temperature `t`.
    ///
    /// # Errors
    /// [`Error::AboveCriticalTemperature`]; [`Error::OutOfRange`] outside the range.
    pub fn dew_pressure(self, t: Temperature) -> Result<Pressure, Error> {
        self.below_critical(t)?;
        self.fluid().dew_curve.pressure(t)
    }

    /// Bubble-point pressure at temperature `t`.
    ///
    /// # Errors
    /// [`Error::AboveCriticalTemperature`]; [`Error::OutOfRange`] outside the range.
    pub fn bubble_pressure(self, t: Temperature) -> Result<Pressure, Error> {
        self.below_critical(t)?;
        self.fluid().bubble_curve.pressure(t)
    }

    /// Dew-point temperature at absolute pressure `p`.
    ///
    /// # Errors
    /// [`Error::Supercritical`] above the critical pressure; [`Error::OutOfRange`] outside the range.
    pub fn dew_temperature(self, p: Pressure) -> Result<Temperature, Error> {
        let curve = self.fluid().dew_curve;
        curve.temperature(self.subcritical(p, curve)?)
    }

    /// Bubble-point temperature at absolute pressure `p`.
    ///
    /// # Errors
    /// [`Error::Supercritical`] above the critical pressure; [`Error::OutOfRange`] outside the range.
    pub fn bubble_temperature(self, p: Pressure) -> Result<Temperature, Error> {
        let curve = self.fluid().bubble_curve;
        curve.temperature(self.subcritical(p, curve)?)
    }

    /// Saturation pressures in Pa at temperatures in K, without allocation, for logs and fleets.
    ///
    /// For a blend, dew-point pressures. A temperature outside the range gets NaN and does not affect the others.
    ///
    /// # Errors
    /// [`Error::OutOfRange`] with the first temperature outside, after all others are computed; [`Error::Impossible`]
    /// for slices of different length.
    pub fn saturation_pressures(self, kelvin: &[f64], pascal: &mut [f64]) -> Result<(), Error> {
        self.fluid().dew_curve.pressures(kelvin, pascal)
    }

    /// Saturation temperatures in K at absolute pressures in Pa, without allocation, for logs and fleets.
    ///
    /// Each is that of [`Refrigerant::saturation_temperature`]. A pressure without one gets NaN and does not affect the
    /// others.
    ///
    /// # Errors
    /// [`Error::Supercritical`] or [`Error::OutOfRange`] for the first pressure without one, after all others are
    /// computed; [`Error::Impossible`] for slices of different length.
    pub fn saturation_temperatures(self, pascal: &[f64], kelvin: &mut [f64]) -> Result<(), Error> {
        self.temperatures_on(self.fluid().dew_curve, pascal, kelvin)
    }

    /// Temperatures in K on one of the curves, as for single values, with the error of the first pressure that has none.
    pub(crate) fn temperatures_on(self, curve: &Curve, pascal: &[f64], kelvin: &mut [f64]) -> Result<(), Error> {
        match curve.temperatures(pascal, kelvin) {
            Err(Error::OutOfRange { .. }) => {}
            answered => return answered,
        }
        // the curve ends a few last places below the critical pressure
        let mut first = Ok(());
        for (pa, place) in pascal.iter().zip(kelvin).filter(|(_, place)| place.is_nan()) {
            match self.subcritical(Pressure::from_pa(*pa), curve).and_then(|p| curve.temperature(p)) {
                Ok(t) => *place = t.kelvin(),
                Err(error) => first = first.and(Err(error)),
            }
        }
        first
    }

    /// Published tables that the saturation lines of this refrigerant were checked against, with the deviations of
    /// each.
    pub fn saturation_checks(self) -> impl Iterator<Item = &'static Check> {
        checks::ALL.iter().filter(move |check| check.refrigerant == self)
    }

    fn below_critical(self, t: Temperature) -> Result<(), Error> {
        let critical = self.fluid().dew.critical_temperature;
        if t > critical {
            return Err(Error::AboveCriticalTemperature {
                refrigerant: self.designation().into(),
                celsius: t.celsius(),
                critical_celsius: critical.celsius(),
            });
        }
        Ok(())
    }

    /// `p`, unless it is above the critical pressure. The last pressure of a curve that reaches the critical
    /// temperature may be a few last places below the critical pressure, and is used for pressures in between.
    #[inline]
    fn subcritical(self, p: Pressure, curve: &Curve) -> Result<Pressure, Error> {
        let critical = &self.fluid().dew;
        if p > critical.critical_pressure {
            return Err(Error::Supercritical {
                refrigerant: self.designation().into(),
                kpa: p.kpa(),
                critical_kpa: critical.critical_pressure.kpa(),
            });
        }
        let end = curve.valid_pressures.high;
        Ok(if p > end && curve.valid.high == critical.critical_temperature { end } else { p })
    }
}

impl fmt::Display for Refrigerant {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.pad(self.designation())
    }
}

/// Letters and digits alone, in lower case: "R-1234yf", "r1234YF" and "R 1234 yf" are one name.
#[cfg(feature = "std")]
fn plain(name: &str) -> String {
    name.chars().filter(|c| c.is_alphanumeric()).map(|c| if c == '₂' { '2' } else { c.to_ascii_lowercase() }).collect()
}

/// Words in use for any refrigerant, beside its number or in its place: "R-12 Freon", "freon". Freon is a trade name of R-12, R-22 and
/// R-134a alike (common knowledge; `tables/published/r134a-freon-bulletin.csv` is of R-134a).
#[cfg(feature = "std")]
const GENERIC: [&str; 3] = [FREON, "refrigerant", "gas"];

/// Letters and digits of the longest name that is compared with the known ones, our choice: several times the longest of them.
#[cfg(feature = "std")]
const LONGEST_NAME: usize = 64;

/// The trade name that is misspelt as often as a number.
#[cfg(feature = "std")]
const FREON: &str = "freon";

#[cfg(feature = "std")]
impl FromStr for Refrigerant {
    type Err = Error;

    /// Reads a designation or one of the names in use; case, spaces and hyphens do not matter, nor does the letter R or a word in
    /// use for any refrigerant.
    ///
    /// ```
    /// # #[cfg(feature = "std")] {
    /// use satline::Refrigerant;
    /// assert_eq!("Freon 12".parse(), Ok(Refrigerant::R12));
    /// // which one is not guessed
    /// let error = "freon".parse::<Refrigerant>().unwrap_err();
    /// assert_eq!(
    ///     error.to_string(),
    ///     "\"freon\" is a trade word for several refrigerants (R-12, R-22, R-134a …): the label on the car names the one inside"
    /// );
    /// # }
    /// ```
    ///
    /// # Errors
    /// [`Error::UnknownRefrigerant`] with the three nearest designations; of a trade word, or a name that is nearest to one, those it
    /// usually means; with none of a name of more than 64 letters and digits.
    fn from_str(name: &str) -> Result<Self, Error> {
        let unknown = |nearest: [Self; 3], is_trade_word: bool| Error::UnknownRefrigerant {
            name: name.to_owned(),
            nearest: nearest.iter().map(|r| r.designation()).collect(),
            is_trade_word,
        };
        let trade_word = || unknown([Self::R12, Self::R22, Self::R134a], true);
        let typed = plain(name);
        if typed.chars().count() > LONGEST_NAME {
            let name = name.chars().take(LONGEST_NAME).chain(['…']).collect();
            return Err(Error::UnknownRefrigerant { name, nearest: Vec::new(), is_trade_word: false });
        }
        let asked = GENERIC.iter().fold(typed.clone(), |rest, word| rest.replace(word, ""));
        if asked.is_empty() && !typed.is_empty() {
            return Err(trade_word());
        }
        let names = |r: &Self| core::iter::once(r.designation()).chain(r.fluid().names.iter().copied());
        let is_it = |known: String| known == asked || known.strip_prefix('r').is_some_and(|number| number == asked);
        if let Some(found) = Self::ALL.iter().find(|r| names(r).any(|known| is_it(plain(known)))) {
            return Ok(*found);
        }
        // alike from the start counts more than alike at the end: R-134 is nearer to R-134a than to R-744
        let likeness = |r: &Self| names(r).map(|known| strsim::jaro_winkler(&plain(known), &asked)).fold(0.0, f64::max);
        let mut nearest = Self::ALL.to_vec();
        crate::numeric::sort_by_number(&mut nearest, |r| -likeness(r));
        // a slip of the trade word is no propane
        if strsim::jaro_winkler(FREON, &asked) > likeness(&nearest[0]) {
            return Err(trade_word());
        }
        Err(unknown([nearest[0], nearest[1], nearest[2]], false))
    }
}

#[cfg(feature = "serde")]
impl serde::Serialize for Refrigerant {
    fn serialize<S: serde::Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.serialize_str(self.designation())
    }
}

#[cfg(feature = "serde")]
impl<'de> serde::Deserialize<'de> for Refrigerant {
    fn deserialize<D: serde::Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        let name = <std::borrow::Cow<'de, str> as serde::Deserialize>::deserialize(deserializer)?;
        name.parse().map_err(serde::de::Error::custom)
    }
}
