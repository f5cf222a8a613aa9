//! Which oil: type and viscosity grade against refrigerant and compressor, and why mixing is dangerous.

use std::fmt;
use std::str::FromStr;

use crate::service::references;
use crate::{Error, Ratio, Refrigerant, Source, Sourced};

/// Chemical family of a compressor oil.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
#[cfg_attr(feature = "serde", derive(serde::Serialize), serde(rename_all = "kebab-case"))]
#[non_exhaustive]
pub enum Family {
    /// Mineral oil, of R-12 circuits.
    Mineral,
    /// Polyalkylene glycol for R-134a.
    Pag,
    /// Polyalkylene glycol made for R-1234yf.
    PagYf,
    /// Polyol ester.
    Poe,
}

/// Viscosity grade of ISO 3448: the middle of its class at 40 °C in mm²/s.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Grade(u16);

impl Grade {
    /// The grades that compressor oils come in.
    pub const ALL: [Self; 5] = [Self(32), Self(46), Self(68), Self(100), Self(150)];

    /// The grade of this number, if it is one of [`Grade::ALL`].
    pub fn new(number: u16) -> Option<Self> {
        Self::ALL.into_iter().find(|grade| grade.0 == number)
    }

    /// Its number.
    pub const fn number(self) -> u16 {
        self.0
    }

    /// Kinematic viscosity at 40 °C in mm²/s, lower and upper limit: the number ±10 %.
    ///
    /// The number is the viscosity at 40 °C; a page that ties it to 100 °C is wrong.
    pub fn viscosity_mm2_per_s(self) -> Sourced<(f64, f64)> {
        let middle = f64::from(self.0);
        Sourced { value: (0.9 * middle, 1.1 * middle), source: references::ISO_3448 }
    }
}

/// An oil: its family, and its grade where it is known.
///
/// ```
/// use satline::service::oil::kind::{Family, Oil};
/// let oil: Oil = "PAG 46".parse()?;
/// assert_eq!((oil.family, oil.grade.unwrap().number()), (Family::Pag, 46));
/// let named: Oil = "ND-OIL 11".parse()?;
/// assert_eq!(named.family, Family::Poe);
/// # Ok::<(), satline::Error>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub struct Oil {
    /// Family.
    pub family: Family,
    /// Grade.
    pub grade: Option<Grade>,
}

/// What drives the compressor.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
#[cfg_attr(feature = "serde", derive(serde::Serialize), serde(rename_all = "kebab-case"))]
pub enum Drive {
    /// A belt, with or without a clutch.
    Belt,
    /// A motor inside it, on high voltage, whose windings lie in oil and refrigerant.
    Electric,
}

/// How an oil stands to a circuit.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Advice {
    /// What follows.
    pub verdict: Verdict,
    /// Where it comes from.
    pub source: Source,
}

/// What follows for an oil in a circuit.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
#[cfg_attr(feature = "serde", derive(serde::Serialize), serde(rename_all = "kebab-case"))]
pub enum Verdict {
    /// The family that is printed for such circuits; the grade is the compressor's, not the refrigerant's.
    Usual,
    /// Printed for some and refused by others: only where the maker names it.
    OnlyIfNamed,
    /// Wrong, in print or by the trade's practice.
    Wrong,
    /// It lowers the insulation of a high-voltage motor.
    RuinsInsulation,
    /// Nothing was found about this refrigerant.
    NothingFound,
}

/// The share of another oil that already lowers the insulation in an electric compressor.
pub const FOREIGN_OIL: Sourced<Ratio> = Sourced { value: Ratio::from_percent(1.0), source: references::ELECTRIC_OIL };

/// Voltage of one electric compressor, as printed, V.
pub const HIGH_VOLTAGE: Sourced<(f64, f64)> = Sourced { value: (140.0, 350.0), source: references::ELECTRIC_UNIT };

impl Oil {
    /// How this oil stands to a circuit with `refrigerant` and `drive`. The compressor's own label goes before it.
    ///
    /// ```
    /// use satline::Refrigerant;
    /// use satline::service::oil::kind::{Drive, Oil, Verdict};
    /// let pag: Oil = "PAG 46".parse()?;
    /// assert_eq!(pag.in_circuit(Refrigerant::R134a, Drive::Belt).verdict, Verdict::Usual);
    /// assert_eq!(pag.in_circuit(Refrigerant::R134a, Drive::Electric).verdict, Verdict::RuinsInsulation);
    /// # Ok::<(), satline::Error>(())
    /// ```
    pub fn in_circuit(self, refrigerant: Refrigerant, drive: Drive) -> Advice {
        let advice = |verdict, source| Advice { verdict, source };
        match (drive, refrigerant, self.family) {
            (Drive::Electric, _, Family::Poe) => advice(Verdict::Usual, references::ELECTRIC_OIL),
            (Drive::Electric, ..) => advice(Verdict::RuinsInsulation, references::ELECTRIC_OIL),
            (Drive::Belt, Refrigerant::R134a, Family::Pag) => advice(Verdict::Usual, references::SPECTRA5),
            (Drive::Belt, Refrigerant::R1234yf, Family::PagYf) => advice(Verdict::Usual, references::YF_OIL),
            (Drive::Belt, Refrigerant::R1234yf, Family::Pag) => advice(Verdict::OnlyIfNamed, references::YF_OIL),
            (Drive::Belt, Refrigerant::R12, Family::Mineral) => advice(Verdict::Usual, references::SPECTRA5),
            (Drive::Belt, Refrigerant::R12, Family::Pag | Family::PagYf) => {
                advice(Verdict::Wrong, references::SPECTRA5)
            }
            (Drive::Belt, Refrigerant::R134a | Refrigerant::R1234yf, Family::Mineral) => {
                advice(Verdict::Wrong, Source::COMMON_PRACTICE)
            }
            // "not for motor vehicles" before electric compressors came
            (Drive::Belt, Refrigerant::R134a | Refrigerant::R1234yf, Family::Poe) => {
                advice(Verdict::OnlyIfNamed, references::VAG_OIL)
            }
            (Drive::Belt, Refrigerant::R134a, Family::PagYf) => advice(Verdict::OnlyIfNamed, Source::COMMON_PRACTICE),
            _ => advice(Verdict::NothingFound, Source::COMMON_PRACTICE),
        }
    }
}

/// Names that makers print, and the oil behind each; the viscosity class of ND-OIL 8 and all of ND-OIL 12 are from memory.
const NAMED: [(&str, Oil); 5] = [
    ("ndoil8", Oil { family: Family::Pag, grade: Some(Grade(46)) }),
    ("ndoil11", Oil { family: Family::Poe, grade: None }),
    ("ndoil12", Oil { family: Family::PagYf, grade: None }),
    ("fd46xg", Oil { family: Family::Pag, grade: Some(Grade(46)) }),
    ("zxl200pg", Oil { family: Family::Pag, grade: Some(Grade(100)) }),
];

impl FromStr for Oil {
    type Err = Error;

    /// "PAG 46", "PAG YF 46", "POE 68", "mineral", or a name that makers print, such as "ND-OIL 8".
    ///
    /// # Errors
    /// [`Error::UnknownOil`].
    fn from_str(text: &str) -> Result<Self, Error> {
        let unknown = || Error::UnknownOil { name: text.to_owned() };
        let plain: String = text.chars().filter(|c| c.is_alphanumeric()).map(|c| c.to_ascii_lowercase()).collect();
        if let Some((_, oil)) = NAMED.iter().find(|(name, _)| *name == plain) {
            return Ok(*oil);
        }
        let (word, digits) = plain.split_at(plain.find(|c: char| c.is_ascii_digit()).unwrap_or(plain.len()));
        // "PAG YF 46" and "PAG 46 YF"
        let (digits, tail) = digits.split_at(digits.find(|c: char| !c.is_ascii_digit()).unwrap_or(digits.len()));
        let grade = match digits {
            "" => None,
            number => Some(number.parse().ok().and_then(Grade::new).ok_or_else(unknown)?),
        };
        let family = match (word, tail) {
            ("pag", "") => Family::Pag,
            ("pag", "yf") | ("pagyf", "") => Family::PagYf,
            ("poe" | "ester", "") => Family::Poe,
            ("mineral" | "mineraloil", "") => Family::Mineral,
            _ => return Err(unknown()),
        };
        Ok(Self { family, grade })
    }
}

impl fmt::Display for Oil {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self.family {
            Family::Mineral => "mineral oil",
            Family::Pag => "PAG",
            Family::PagYf => "PAG YF",
            Family::Poe => "POE",
        })?;
        self.grade.map_or(Ok(()), |grade| write!(f, " {}", grade.0))
    }
}

/// Kinematic viscosity of a vehicle maker's PAG at 40 °C, mm²/s: of the class PAG 46.
pub const FORD_PAG: Sourced<(f64, f64)> = Sourced { value: (40.0, 50.0), source: references::FORD_OIL_2010 };
