//! What one person at a car sets once and for all: units, instruments, language, prior, width.

use std::fmt;
use std::path::Path;
use std::str::FromStr;

use satline::inspection::DisplayUnits;
use satline::quantity::{PressureUnit, TemperatureUnit, Unit, unit_named};
use satline::{GaugePressure, Temperature};

use super::language::Code;
use super::{GivenPrior, Kind, files};

/// Settings that hold where the command line says nothing else; each may be left open.
#[derive(Debug, Clone, Default, serde::Serialize, serde::Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Preferences {
    #[serde(default, skip_serializing_if = "Option::is_none", with = "as_text")]
    pub units: Option<Units>,
    #[serde(default, skip_serializing_if = "Option::is_none", with = "as_text")]
    pub instruments: Option<Kind>,
    #[serde(default, skip_serializing_if = "Option::is_none", with = "as_text")]
    pub language: Option<Code>,
    #[serde(default, skip_serializing_if = "Option::is_none", with = "as_text")]
    pub prior: Option<GivenPrior>,
    #[serde(default, skip_serializing_if = "Option::is_none", with = "as_text")]
    pub width: Option<Width>,
}

impl FromStr for Preferences {
    type Err = String;

    /// Those in the file at this path.
    fn from_str(path: &str) -> Result<Self, String> {
        let text = files::read(Path::new(path))?;
        serde_json::from_str(&text).map_err(|error| format!("not preferences: {error}"))
    }
}

impl Preferences {
    /// These, and where they are open those of `others`.
    pub fn or(self, others: &Self) -> Self {
        let others = others.clone();
        Self {
            units: self.units.or(others.units),
            instruments: self.instruments.or(others.instruments),
            language: self.language.or(others.language),
            prior: self.prior.or(others.prior),
            width: self.width.or(others.width),
        }
    }
}

impl fmt::Display for Preferences {
    /// "units psi °F, instruments digital"
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let said = [
            self.units.map(|units| format!("units {units}")),
            self.instruments.map(|kind| format!("instruments {kind}")),
            self.language.map(|language| format!("language {language}")),
            self.prior.as_ref().map(|prior| format!("prior {prior}")),
            self.width.map(|width| format!("width {width}")),
        ];
        let said: Vec<String> = said.into_iter().flatten().collect();
        f.write_str(if said.is_empty() { "nothing set" } else { "" })?;
        f.write_str(&said.join(", "))
    }
}

/// Units of a page: of pressures and of temperatures.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Units {
    pressure: PressureUnit,
    temperature: TemperatureUnit,
}

impl Units {
    /// Those of a page.
    pub fn display(self) -> DisplayUnits {
        DisplayUnits::new(self.pressure, self.temperature)
    }
}

impl FromStr for Units {
    type Err = String;

    /// A unit of pressure and one of temperature, in either order: "psi °F".
    fn from_str(text: &str) -> Result<Self, String> {
        let words: Vec<&str> = text.split([' ', ',']).filter(|word| !word.is_empty()).collect();
        let like =
            || format!("{text:?}: name a unit of pressure and one of temperature, like \"psi °F\" or \"bar °C\"");
        let [one, other] = words[..] else { return Err(like()) };
        let pair = |pressure: &str, temperature: &str| {
            let pressure = unit_named::<GaugePressure>(pressure).ok()?;
            Some(Self { pressure, temperature: unit_named::<Temperature>(temperature).ok()? })
        };
        pair(one, other).or_else(|| pair(other, one)).ok_or_else(like)
    }
}

impl fmt::Display for Units {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{} {}", self.pressure.symbol(), self.temperature.symbol())
    }
}

/// Columns of a page, at least 40.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Width(pub u16);

impl FromStr for Width {
    type Err = String;

    fn from_str(text: &str) -> Result<Self, String> {
        match text.parse() {
            Ok(columns) if columns >= 40 => Ok(Self(columns)),
            _ => Err(format!("{text:?} is no number of columns from 40 to {}", u16::MAX)),
        }
    }
}

impl fmt::Display for Width {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.0.fmt(f)
    }
}

/// What is written as the words of the command line.
mod as_text {
    use std::fmt::Display;
    use std::str::FromStr;

    use serde::{Deserialize, Deserializer, Serializer, de};

    pub fn serialize<T: Display, S: Serializer>(value: &Option<T>, to: S) -> Result<S::Ok, S::Error> {
        match value {
            Some(value) => to.collect_str(value),
            None => to.serialize_none(),
        }
    }

    pub fn deserialize<'de, T, D>(from: D) -> Result<Option<T>, D::Error>
    where
        T: FromStr,
        T::Err: Display,
        D: Deserializer<'de>,
    {
        String::deserialize(from)?.parse().map(Some).map_err(de::Error::custom)
    }
}
