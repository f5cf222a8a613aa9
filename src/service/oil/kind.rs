//! Kind of oil: type and viscosity grade against refrigerant and compressor, and why mixing is dangerous.

use std::fmt;
use std::str::FromStr;

use super::density::{self, OilDensity};
use crate::service::references;
use crate::{Error, Ratio, Refrigerant, Source, Sourced};

/// Chemical family of a compressor oil.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub(crate) enum OilFamily {
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
pub(crate) struct ViscosityGrade(u16);

impl ViscosityGrade {
    /// The grades that compressor oils come in.
    const ALL: [Self; 5] = [Self(32), Self(46), Self(68), Self(100), Self(150)];

    /// The grade of this number, if it is one of [`ViscosityGrade::ALL`].
    fn new(number: u16) -> Option<Self> {
        Self::ALL.into_iter().find(|grade| grade.0 == number)
    }
}

/// A compressor oil: its family (mineral, PAG, PAG for R-1234yf, POE), and its grade if it is known.
///
/// ```
/// use satline::service::oil::kind::OilKind;
/// let oil: OilKind = "PAG 46".parse()?;
/// assert_eq!((oil.to_string(), oil.grade()), ("PAG 46".to_owned(), Some(46)));
/// let named: OilKind = "ND-OIL 11".parse()?;
/// assert_eq!(named.to_string(), "POE");
/// # Ok::<(), satline::Error>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub struct OilKind {
    pub(crate) family: OilFamily,
    pub(crate) grade: Option<ViscosityGrade>,
}

/// Drive of a compressor.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(rename_all = "kebab-case"))]
pub enum CompressorDrive {
    /// Belt, with or without a clutch.
    Belt,
    /// Electric motor inside the compressor, on high voltage, whose windings lie in oil and refrigerant.
    Electric,
}

/// Suitability of an oil for a circuit.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(rename_all = "kebab-case"))]
#[non_exhaustive]
pub enum OilSuitability {
    /// Usual: the family that is printed for such circuits; the grade is the compressor's, not the refrigerant's.
    Usual,
    /// Suitable only where the maker names it: printed for some and refused by others.
    OnlyIfNamed,
    /// Wrong, in print or by the trade's practice.
    Wrong,
    /// Lowers the insulation resistance of a high-voltage motor.
    RuinsInsulation,
    /// Unknown: nothing was found about this refrigerant.
    NothingFound,
}

/// Fraction of foreign oil, 1 %, that is enough to lower the insulation resistance of an electric compressor.
pub const FOREIGN_OIL: Sourced<Ratio> = Sourced { value: Ratio::from_percent(1.0), source: references::ELECTRIC_OIL };

/// Voltage range of one electric compressor, as printed, V.
pub const HIGH_VOLTAGE: Sourced<(f64, f64)> = Sourced { value: (140.0, 350.0), source: references::ELECTRIC_UNIT };

/// Limits of a viscosity grade over its number, ±10 % (ISO 3448, from memory).
const GRADE_BAND: (f64, f64) = (0.9, 1.1);

impl OilKind {
    /// ISO viscosity grade, such as 46; `None` if the name does not state it.
    pub fn grade(self) -> Option<u16> {
        self.grade.map(|grade| grade.0)
    }

    /// Kinematic viscosity at 40 °C in mm²/s, lower and upper limit of its grade: the number ±10 %.
    ///
    /// The number is the viscosity at 40 °C; a page that ties it to 100 °C is wrong.
    pub fn viscosity_mm2_per_s(self) -> Option<Sourced<(f64, f64)>> {
        let middle = f64::from(self.grade()?);
        let (low, high) = GRADE_BAND;
        Some(Sourced { value: (low * middle, high * middle), source: references::ISO_3448 })
    }

    /// Density of an oil of this family and unknown make; of a family without a published one that of PAG.
    pub fn density(self) -> OilDensity {
        match self.family {
            OilFamily::Poe => density::POE,
            OilFamily::Mineral | OilFamily::Pag | OilFamily::PagYf => density::PAG,
        }
    }

    /// Suitability of this oil for a circuit with `refrigerant` and `drive`. The compressor's own label goes before it.
    ///
    /// ```
    /// use satline::Refrigerant;
    /// use satline::service::oil::kind::{CompressorDrive, OilKind, OilSuitability};
    /// let pag: OilKind = "PAG 46".parse()?;
    /// assert_eq!(pag.in_circuit(Refrigerant::R134a, CompressorDrive::Belt).value, OilSuitability::Usual);
    /// assert_eq!(pag.in_circuit(Refrigerant::R134a, CompressorDrive::Electric).value, OilSuitability::RuinsInsulation);
    /// # Ok::<(), satline::Error>(())
    /// ```
    pub fn in_circuit(self, refrigerant: Refrigerant, drive: CompressorDrive) -> Sourced<OilSuitability> {
        let advice = |value, source| Sourced { value, source };
        match (drive, refrigerant, self.family) {
            (CompressorDrive::Electric, _, OilFamily::Poe) => advice(OilSuitability::Usual, references::ELECTRIC_OIL),
            (CompressorDrive::Electric, ..) => advice(OilSuitability::RuinsInsulation, references::ELECTRIC_OIL),
            (CompressorDrive::Belt, Refrigerant::R134a, OilFamily::Pag) => {
                advice(OilSuitability::Usual, references::SPECTRA5)
            }
            (CompressorDrive::Belt, Refrigerant::R1234yf, OilFamily::PagYf) => {
                advice(OilSuitability::Usual, references::YF_OIL)
            }
            (CompressorDrive::Belt, Refrigerant::R1234yf, OilFamily::Pag) => {
                advice(OilSuitability::OnlyIfNamed, references::YF_OIL)
            }
            (CompressorDrive::Belt, Refrigerant::R12, OilFamily::Mineral) => {
                advice(OilSuitability::Usual, references::SPECTRA5)
            }
            (CompressorDrive::Belt, Refrigerant::R12, OilFamily::Pag | OilFamily::PagYf) => {
                advice(OilSuitability::Wrong, references::SPECTRA5)
            }
            (CompressorDrive::Belt, Refrigerant::R134a | Refrigerant::R1234yf, OilFamily::Mineral) => {
                advice(OilSuitability::Wrong, Source::COMMON_PRACTICE)
            }
            // "not for motor vehicles" before electric compressors came
            (CompressorDrive::Belt, Refrigerant::R134a | Refrigerant::R1234yf, OilFamily::Poe) => {
                advice(OilSuitability::OnlyIfNamed, references::VAG_OIL)
            }
            (CompressorDrive::Belt, Refrigerant::R134a, OilFamily::PagYf) => {
                advice(OilSuitability::OnlyIfNamed, Source::COMMON_PRACTICE)
            }
            _ => advice(OilSuitability::NothingFound, Source::COMMON_PRACTICE),
        }
    }
}

/// Names that makers print, and the oil each means; the viscosity of ND-OIL 8 and all of ND-OIL 12 are from memory.
const NAMED: [(&str, OilKind); 5] = [
    ("ndoil8", OilKind { family: OilFamily::Pag, grade: Some(ViscosityGrade(46)) }),
    ("ndoil11", OilKind { family: OilFamily::Poe, grade: None }),
    ("ndoil12", OilKind { family: OilFamily::PagYf, grade: None }),
    ("fd46xg", OilKind { family: OilFamily::Pag, grade: Some(ViscosityGrade(46)) }),
    ("zxl200pg", OilKind { family: OilFamily::Pag, grade: Some(ViscosityGrade(100)) }),
];

impl FromStr for OilKind {
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
            number => Some(number.parse().ok().and_then(ViscosityGrade::new).ok_or_else(unknown)?),
        };
        let family = match (word, tail) {
            ("pag", "") => OilFamily::Pag,
            ("pag", "yf") | ("pagyf", "") => OilFamily::PagYf,
            ("poe" | "ester", "") => OilFamily::Poe,
            ("mineral" | "mineraloil", "") => OilFamily::Mineral,
            _ => return Err(unknown()),
        };
        Ok(Self { family, grade })
    }
}

impl fmt::Display for OilKind {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self.family {
            OilFamily::Mineral => "mineral oil",
            OilFamily::Pag => "PAG",
            OilFamily::PagYf => "PAG YF",
            OilFamily::Poe => "POE",
        })?;
        self.grade.map_or(Ok(()), |grade| write!(f, " {}", grade.0))
    }
}

/// Kinematic viscosity of a vehicle maker's PAG at 40 °C, mm²/s: of the class PAG 46.
pub const FORD_PAG: Sourced<(f64, f64)> = Sourced { value: (40.0, 50.0), source: references::FORD_OIL_2010 };

#[cfg(feature = "serde")]
crate::service::validate::serde_as_text!(OilKind, |oil| *oil);
