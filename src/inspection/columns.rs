//! Columns and rows of a log of readings.

use super::entry::Entry;
use super::measurand::{Measurand, MeasurandKind};
use super::value::EnteredValue;
use crate::quantity::{Quantity, Time, TimeUnit, find_unit, unit_symbols};
use crate::{Entered, Error, GaugePressure, Length, Pressure, Ratio, Refrigerant, Temperature};

/// Columns of a log: the quantity and unit of each.
///
/// A column head gives quantity and unit: `low [psi]`, `low (psi)`, `low psi` and `low_psi` are the same. One measured
/// quantity is enough. An empty field is a value that was not measured; only `low` and `high` may not be empty where
/// the log has them. A column `time` may give a unit, as in `time [s]`, and then [`Columns::time`] reads it; without one
/// it may hold anything. Columns named `note` are ignored.
///
/// ```
/// use satline::inspection::{Columns, Measurand};
/// let columns = Columns::read(["time", "low [psi]", "high_psi", "ambient (°F)"])?;
/// let (entry, refrigerant) = columns.entry(&["10:04", "32", "185", ""])?;
/// assert_eq!(entry.value(Measurand::LowSide).unwrap().to_string(), "32 psi");
/// assert!(entry.ambient.is_none() && refrigerant.is_none());
/// assert!(columns.entry(&["10:05", "n/a", "185", "86"]).is_err());
/// assert!(columns.time_unit().is_none());
///
/// let timed = Columns::read(["time [min]", "low [psi]", "high [psi]"])?;
/// assert_eq!(timed.time(&["1.5", "32", "185"])?.unwrap().quantity().seconds(), 90.0);
/// # Ok::<(), satline::Error>(())
/// ```
#[derive(Debug, Clone, PartialEq)]
pub struct Columns {
    count: usize,
    time: Option<Column<Time>>,
    refrigerant: Option<usize>,
    values: Vec<(Measurand, ValueColumn)>,
    ambient: Option<Column<Temperature>>,
    humidity: Option<Column<Ratio>>,
    altitude: Option<Column<Length>>,
    barometer: Option<Column<Pressure>>,
}

/// Position and unit of one column.
#[derive(Debug, Clone, Copy, PartialEq)]
struct Column<Q: Quantity> {
    at: usize,
    unit: Q::Unit,
}

/// Position and unit of a measurand's column.
#[derive(Debug, Clone, Copy, PartialEq)]
enum ValueColumn {
    Pressure(Column<GaugePressure>),
    Temperature(Column<Temperature>),
    Share(Column<Ratio>),
}

/// Contents of a column.
#[derive(Debug, Clone, Copy, PartialEq)]
enum Head {
    Value(Measurand),
    Ambient,
    Humidity,
    Altitude,
    Barometer,
    Refrigerant,
    Time,
}

/// Heads that name no measurand.
const OTHERS: [(&str, Head); 6] = [
    ("ambient", Head::Ambient),
    ("humidity", Head::Humidity),
    ("altitude", Head::Altitude),
    ("barometer", Head::Barometer),
    ("refrigerant", Head::Refrigerant),
    ("time", Head::Time),
];

const KNOWN: &str = "low, high, suction line, liquid line, discharge line, vent, duty cycle, ambient, humidity, altitude, barometer \
                     (each with its unit, as in \"low [psi]\"), refrigerant, time, note";

/// Measurands that every row must have if the log has their column.
const REQUIRED: [Measurand; 2] = [Measurand::LowSide, Measurand::HighSide];

impl Columns {
    /// Reads the column heads of a log.
    ///
    /// # Errors
    /// [`Error::UnknownColumn`], [`Error::ColumnTwice`], [`Error::Missing`] without any measured quantity, and the errors
    /// of units.
    pub fn read<'a>(head: impl IntoIterator<Item = &'a str>) -> Result<Self, Error> {
        let mut columns = Self {
            count: 0,
            time: None,
            refrigerant: None,
            values: Vec::new(),
            ambient: None,
            humidity: None,
            altitude: None,
            barometer: None,
        };
        for (at, head) in head.into_iter().enumerate() {
            columns.count = at + 1;
            columns.add(at, head)?;
        }
        if columns.values.is_empty() {
            let way_out = "the head must name at least one, with its unit, as in \"low [psi],high [psi]\"";
            return Err(Error::Missing { what: "a column of what was measured", way_out });
        }
        Ok(columns)
    }

    fn add(&mut self, at: usize, head: &str) -> Result<(), Error> {
        let words = head.trim().trim_start_matches('\u{feff}').replace('_', " ");
        let lower = words.to_ascii_lowercase();
        if lower == "note" {
            return Ok(());
        }
        let Some((name, about)) = named(&lower) else {
            return Err(Error::UnknownColumn { name: head.to_owned(), known: KNOWN });
        };
        let unit = words[name.len()..].trim().trim_start_matches(['[', '(']).trim_end_matches([']', ')']).trim();
        match about {
            Head::Value(measurand) => {
                if self.values.iter().any(|(known, _)| *known == measurand) {
                    return Err(Error::ColumnTwice { name: measurand.columns()[0] });
                }
                let name = measurand.name();
                let column = match measurand.kind() {
                    MeasurandKind::Pressure => ValueColumn::Pressure(column(name, at, unit, head)?),
                    MeasurandKind::Temperature => ValueColumn::Temperature(column(name, at, unit, head)?),
                    MeasurandKind::Share => ValueColumn::Share(column(name, at, unit, head)?),
                };
                self.values.push((measurand, column));
                Ok(())
            }
            Head::Ambient => place("ambient", &mut self.ambient, at, unit, head),
            Head::Humidity => place("humidity", &mut self.humidity, at, unit, head),
            Head::Altitude => place("altitude", &mut self.altitude, at, unit, head),
            Head::Barometer => place("barometer", &mut self.barometer, at, unit, head),
            // a time without a unit, or in words, is passed over
            Head::Time if unit.is_empty() || find_unit::<Time>(unit, head).is_err() => Ok(()),
            Head::Time => place("time", &mut self.time, at, unit, head),
            Head::Refrigerant if self.refrigerant.replace(at).is_some() => {
                Err(Error::ColumnTwice { name: "refrigerant" })
            }
            Head::Refrigerant => Ok(()),
        }
    }

    /// Whether the log has a column for the refrigerant.
    pub fn name_refrigerant(&self) -> bool {
        self.refrigerant.is_some()
    }

    /// Unit of the column `time`; `None` without such a column, or if its head gives no unit of time.
    pub fn time_unit(&self) -> Option<TimeUnit> {
        self.time.map(|column| column.unit)
    }

    /// Reads the time of a row; `None` if [`Columns::time_unit`] is `None`.
    ///
    /// # Errors
    /// As [`Columns::entry`]; a time may not be empty.
    pub fn time<S: AsRef<str>>(&self, fields: &[S]) -> Result<Option<Entered<Time>>, Error> {
        self.check_count(fields)?;
        self.time.map(|column| Entered::from_number(fields[column.at].as_ref(), column.unit)).transpose()
    }

    /// Reads one row: the values measured, and the refrigerant if the log has a column for it.
    ///
    /// # Errors
    /// [`Error::FieldCount`] for a row that does not have the columns of the head; otherwise the error of the first
    /// field that cannot be read.
    pub fn entry<S: AsRef<str>>(&self, fields: &[S]) -> Result<(Entry, Option<Refrigerant>), Error> {
        self.check_count(fields)?;
        let text = |at: usize| fields[at].as_ref().trim();
        let refrigerant =
            self.refrigerant.map(text).filter(|name| !name.is_empty()).map(str::parse::<Refrigerant>).transpose()?;
        let mut entry = Entry::default();
        entry.ambient = optional(self.ambient, text)?;
        entry.humidity = optional(self.humidity, text)?;
        entry.altitude = optional(self.altitude, text)?;
        entry.barometer = optional(self.barometer, text)?;
        for (measurand, column) in &self.values {
            let required = REQUIRED.contains(measurand);
            let value: Option<EnteredValue> = match *column {
                ValueColumn::Pressure(column) => field(column, text, required)?.map(Into::into),
                ValueColumn::Temperature(column) => field(column, text, required)?.map(Into::into),
                ValueColumn::Share(column) => field(column, text, required)?.map(Into::into),
            };
            if let Some(value) = value {
                entry = entry.with(*measurand, value)?;
            }
        }
        Ok((entry, refrigerant))
    }

    fn check_count<S>(&self, fields: &[S]) -> Result<(), Error> {
        if fields.len() == self.count {
            return Ok(());
        }
        Err(Error::FieldCount { found: fields.len(), expected: self.count })
    }
}

/// Contents of a column by its head in lower case, from the longest name that it begins with.
fn named(lower: &str) -> Option<(&'static str, Head)> {
    let measurands = Measurand::ALL
        .iter()
        .flat_map(|&measurand| measurand.columns().iter().map(move |&name| (name, Head::Value(measurand))));
    let begins = |(name, _): &(&str, Head)| {
        lower.strip_prefix(name).is_some_and(|rest| rest.is_empty() || rest.starts_with([' ', '[', '(']))
    };
    measurands.chain(OTHERS).filter(begins).max_by_key(|(name, _)| name.len())
}

/// The column at `at` with its unit.
fn column<Q: Quantity>(name: &'static str, at: usize, unit: &str, head: &str) -> Result<Column<Q>, Error> {
    if unit.is_empty() {
        return Err(Error::UnitMissing { what: name, text: head.to_owned(), units: unit_symbols::<Q>() });
    }
    // words between name and unit make another name: "vent temperature [F]" is no vent in "temperature [F"
    if unit.contains(['[', ']', '(', ')']) && find_unit::<Q>(unit, head).is_err() {
        return Err(Error::UnknownColumn { name: head.to_owned(), known: KNOWN });
    }
    Ok(Column { at, unit: find_unit::<Q>(unit, head)? })
}

fn place<Q: Quantity>(
    name: &'static str,
    place: &mut Option<Column<Q>>,
    at: usize,
    unit: &str,
    head: &str,
) -> Result<(), Error> {
    match place.replace(column(name, at, unit, head)?) {
        None => Ok(()),
        Some(_) => Err(Error::ColumnTwice { name }),
    }
}

/// The number of a field; `None` where it is empty and not `required`.
fn field<'a, Q: Quantity>(
    column: Column<Q>,
    text: impl Fn(usize) -> &'a str,
    required: bool,
) -> Result<Option<Entered<Q>>, Error> {
    match text(column.at) {
        "" if !required => Ok(None),
        number => Entered::from_number(number, column.unit).map(Some),
    }
}

fn optional<'a, Q: Quantity>(
    column: Option<Column<Q>>,
    text: impl Fn(usize) -> &'a str,
) -> Result<Option<Entered<Q>>, Error> {
    column.map_or(Ok(None), |column| field(column, text, false))
}
