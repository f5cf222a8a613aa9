//! Value of any measurand, as entered or as measured.

use super::measurand::{Measurand, MeasurandKind};
use crate::{Entered, Error, GaugePressure, Measured, Ratio, Temperature};

/// Value as a person typed it, with its unit.
#[derive(Debug, Clone, Copy, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(rename_all = "kebab-case"))]
#[non_exhaustive]
pub enum EnteredValue {
    /// Gauge pressure as entered.
    Pressure(Entered<GaugePressure>),
    /// Temperature as entered.
    Temperature(Entered<Temperature>),
    /// Fraction as entered.
    Share(Entered<Ratio>),
}

/// Measured value with its standard uncertainty.
#[derive(Debug, Clone, Copy, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(rename_all = "kebab-case"))]
#[non_exhaustive]
pub enum MeasuredValue {
    /// Measured gauge pressure.
    Pressure(Measured<GaugePressure>),
    /// Measured temperature.
    Temperature(Measured<Temperature>),
    /// Measured fraction.
    Share(Measured<Ratio>),
}

impl EnteredValue {
    /// Reads `text` as a value of `measurand`: "22 psi", "72 °F", "40 %".
    ///
    /// # Errors
    /// Those of reading a quantity, for `measurand`.
    pub fn parse(measurand: Measurand, text: &str) -> Result<Self, Error> {
        match measurand.kind() {
            MeasurandKind::Pressure => text.parse().map(Self::Pressure),
            MeasurandKind::Temperature => text.parse().map(Self::Temperature),
            MeasurandKind::Share => text.parse().map(Self::Share),
        }
        .map_err(|error| error.about_input(measurand.id(), measurand.name()))
    }

    /// Kind of number that the value is.
    pub const fn kind(&self) -> MeasurandKind {
        match self {
            Self::Pressure(_) => MeasurandKind::Pressure,
            Self::Temperature(_) => MeasurandKind::Temperature,
            Self::Share(_) => MeasurandKind::Share,
        }
    }
}

impl std::fmt::Display for EnteredValue {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        match self {
            Self::Pressure(value) => value.fmt(f),
            Self::Temperature(value) => value.fmt(f),
            Self::Share(value) => value.fmt(f),
        }
    }
}

impl MeasuredValue {
    /// Kind of number that the value is.
    pub const fn kind(&self) -> MeasurandKind {
        match self {
            Self::Pressure(_) => MeasurandKind::Pressure,
            Self::Temperature(_) => MeasurandKind::Temperature,
            Self::Share(_) => MeasurandKind::Share,
        }
    }

    /// Value and standard uncertainty in kPa (gauge), °C and K, or as fractions.
    pub(super) fn numbers(&self) -> (f64, f64, &'static str) {
        match self {
            Self::Pressure(p) => (p.value().kpa(), p.standard_uncertainty().kpa(), "kPa"),
            Self::Temperature(t) => (t.value().celsius(), t.standard_uncertainty().kelvins(), "°C"),
            Self::Share(s) => (s.value().fraction(), s.standard_uncertainty().fraction(), "%"),
        }
    }

    /// # Errors
    /// [`Error::Implausible`] for a value, or a standard uncertainty, that no workshop reads of `measurand`;
    /// [`Error::Impossible`] for a fraction of time outside 0 to 100 %; [`Error::WrongKind`].
    pub(super) fn check(&self, measurand: Measurand) -> Result<(), Error> {
        let row = measurand.row();
        if self.kind() != row.kind {
            return Err(Error::WrongKind { input: row.id, what: row.name });
        }
        let (value, uncertainty, unit) = self.numbers();
        let (low, high) = row.plausible;
        let scale = if row.kind == MeasurandKind::Share { Ratio::from_fraction(1.0).percent() } else { 1.0 };
        let implausible = |what, value: f64, low: f64, high: f64| {
            Err(Error::Implausible { what, value: scale * value, low: scale * low, high: scale * high, unit })
        };
        if !(low..=high).contains(&value) {
            return implausible(row.name, value, low, high);
        }
        // an instrument that could read anything from end to end reads nothing
        let widest = high - low;
        if !(0.0..=widest).contains(&uncertainty) {
            return implausible("standard uncertainty", uncertainty, 0.0, widest);
        }
        Ok(())
    }
}

macro_rules! from_quantity {
    ($($quantity:ident $variant:ident)*) => {$(
        impl From<Entered<$quantity>> for EnteredValue {
            fn from(value: Entered<$quantity>) -> Self { Self::$variant(value) }
        }
        impl From<Measured<$quantity>> for MeasuredValue {
            fn from(value: Measured<$quantity>) -> Self { Self::$variant(value) }
        }
    )*};
}

from_quantity! { GaugePressure Pressure Temperature Temperature Ratio Share }

/// Values by measurand, as in JSON: a name given twice stays twice, where a map would silently keep only the last.
#[cfg(feature = "serde")]
pub(super) struct ByMeasurand<V>(pub(super) Vec<(Measurand, V)>);

#[cfg(feature = "serde")]
impl<V> Default for ByMeasurand<V> {
    fn default() -> Self {
        Self(Vec::new())
    }
}

#[cfg(feature = "serde")]
impl<V: serde::Serialize> serde::Serialize for ByMeasurand<V> {
    fn serialize<S: serde::Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.collect_map(self.0.iter().map(|(measurand, value)| (measurand, value)))
    }
}

#[cfg(feature = "serde")]
impl<'de, V: serde::Deserialize<'de>> serde::Deserialize<'de> for ByMeasurand<V> {
    fn deserialize<D: serde::Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        deserializer.deserialize_map(Pairs(std::marker::PhantomData))
    }
}

/// Reads the pairs of a map in their order.
#[cfg(feature = "serde")]
struct Pairs<V>(std::marker::PhantomData<V>);

#[cfg(feature = "serde")]
impl<'de, V: serde::Deserialize<'de>> serde::de::Visitor<'de> for Pairs<V> {
    type Value = ByMeasurand<V>;

    fn expecting(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str("values by the ids of their measurands")
    }

    fn visit_map<A: serde::de::MapAccess<'de>>(self, mut map: A) -> Result<Self::Value, A::Error> {
        let mut pairs = Vec::new();
        while let Some(pair) = map.next_entry()? {
            pairs.push(pair);
        }
        Ok(ByMeasurand(pairs))
    }
}
