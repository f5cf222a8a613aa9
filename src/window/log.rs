//! The head and the rows of a log of readings.

use super::entry::Entry;
use crate::quantity::{Quantity, Time, TimeUnit, find_unit};
use crate::{Entered, Error, GaugePressure, Length, Pressure, Ratio, Refrigerant, Temperature};

/// Which column holds which quantity, in which unit.
///
/// A head names quantity and unit: `low [psi]`, `low (psi)`, `low psi` and `low_psi` are the same. An empty field is a
/// value that was not measured; only `low` and `high` may not be empty. A column `time` may name a unit, as in `time [s]`, and
/// then [`Columns::time`] reads it; without one it may hold anything. Columns named `note` are passed over.
///
/// ```
/// use satline::window::Columns;
/// let columns = Columns::read(["time", "low [psi]", "high_psi", "ambient (°F)"])?;
/// let (entry, refrigerant) = columns.entry(&["10:04", "32", "185", ""])?;
/// assert_eq!(entry.low.unwrap().to_string(), "32 psi");
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
    low: Column<GaugePressure>,
    high: Column<GaugePressure>,
    suction_line: Option<Column<Temperature>>,
    liquid_line: Option<Column<Temperature>>,
    vent: Option<Column<Temperature>>,
    ambient: Option<Column<Temperature>>,
    humidity: Option<Column<Ratio>>,
    altitude: Option<Column<Length>>,
    barometer: Option<Column<Pressure>>,
}

/// One column: where it stands and in which unit.
#[derive(Debug, Clone, Copy, PartialEq)]
struct Column<Q: Quantity> {
    at: usize,
    unit: Q::Unit,
}

/// The names of the columns, longest first where one starts with another.
const NAMES: [&str; 13] = [
    "low side",
    "low",
    "high side",
    "high",
    "suction line",
    "liquid line",
    "ambient",
    "vent",
    "humidity",
    "altitude",
    "barometer",
    "refrigerant",
    "time",
];
const KNOWN: &str = "low, high, suction line, liquid line, ambient, vent, humidity, altitude, barometer (each with its \
                     unit, as in \"low [psi]\"), refrigerant, time, note";

impl Columns {
    /// Reads the head of a log.
    ///
    /// # Errors
    /// [`Error::UnknownColumn`], [`Error::ColumnTwice`], [`Error::Missing`] without `low` or `high`, and the errors of
    /// units.
    pub fn read<'a>(head: impl IntoIterator<Item = &'a str>) -> Result<Self, Error> {
        let (mut low, mut high) = (None, None);
        let (mut suction_line, mut liquid_line, mut vent, mut ambient) = (None, None, None, None);
        let (mut humidity, mut altitude, mut barometer) = (None, None, None);
        let (mut time, mut refrigerant) = (None, None);
        let mut count = 0;
        for (at, head) in head.into_iter().enumerate() {
            count = at + 1;
            let words = head.trim().trim_start_matches('\u{feff}').replace('_', " ");
            let lower = words.to_ascii_lowercase();
            if lower == "note" {
                continue;
            }
            let Some(name) = NAMES.into_iter().find(|name| {
                lower.strip_prefix(name).is_some_and(|rest| rest.is_empty() || rest.starts_with([' ', '[', '(']))
            }) else {
                return Err(Error::UnknownColumn { name: head.to_owned(), known: KNOWN });
            };
            let unit = words[name.len()..].trim().trim_start_matches(['[', '(']).trim_end_matches([']', ')']).trim();
            match name {
                "low" | "low side" => place("low", &mut low, at, unit, head)?,
                "high" | "high side" => place("high", &mut high, at, unit, head)?,
                "suction line" => place("suction line", &mut suction_line, at, unit, head)?,
                "liquid line" => place("liquid line", &mut liquid_line, at, unit, head)?,
                "vent" => place("vent", &mut vent, at, unit, head)?,
                "ambient" => place("ambient", &mut ambient, at, unit, head)?,
                "humidity" => place("humidity", &mut humidity, at, unit, head)?,
                "altitude" => place("altitude", &mut altitude, at, unit, head)?,
                "barometer" => place("barometer", &mut barometer, at, unit, head)?,
                // a time without a unit, or in words, is passed over
                "time" if !unit.is_empty() && find_unit::<Time>(unit, head).is_ok() => {
                    place("time", &mut time, at, unit, head)?;
                }
                "refrigerant" if refrigerant.replace(at).is_some() => {
                    return Err(Error::ColumnTwice { name: "refrigerant" });
                }
                _ => {}
            }
        }
        let way_out = "the head must name it with its unit, as in \"low [psi],high [psi]\"";
        Ok(Self {
            count,
            time,
            refrigerant,
            low: low.ok_or(Error::Missing { what: "column low", way_out })?,
            high: high.ok_or(Error::Missing { what: "column high", way_out })?,
            suction_line,
            liquid_line,
            vent,
            ambient,
            humidity,
            altitude,
            barometer,
        })
    }

    /// Whether the log has a column for the refrigerant.
    pub fn name_refrigerant(&self) -> bool {
        self.refrigerant.is_some()
    }

    /// Unit of the column `time`; none without such a column, or where its head names no unit of time.
    pub fn time_unit(&self) -> Option<TimeUnit> {
        self.time.map(|column| column.unit)
    }

    /// Reads the time of a row; none where [`Columns::time_unit`] is none.
    ///
    /// # Errors
    /// As [`Columns::entry`]; a time may not be empty.
    pub fn time<S: AsRef<str>>(&self, fields: &[S]) -> Result<Option<Entered<Time>>, Error> {
        if fields.len() != self.count {
            return Err(Error::FieldCount { found: fields.len(), expected: self.count });
        }
        self.time.map(|column| Entered::from_number(fields[column.at].as_ref(), column.unit)).transpose()
    }

    /// Reads one row: what was measured, and the refrigerant where the log has a column for it.
    ///
    /// # Errors
    /// [`Error::FieldCount`] for a row that does not have the columns of the head; otherwise the error of the first
    /// field that cannot be read.
    pub fn entry<S: AsRef<str>>(&self, fields: &[S]) -> Result<(Entry, Option<Refrigerant>), Error> {
        if fields.len() != self.count {
            return Err(Error::FieldCount { found: fields.len(), expected: self.count });
        }
        let text = |at: usize| fields[at].as_ref().trim();
        let refrigerant =
            self.refrigerant.map(text).filter(|name| !name.is_empty()).map(str::parse::<Refrigerant>).transpose()?;
        let entry = Entry {
            low: Some(Entered::from_number(text(self.low.at), self.low.unit)?),
            high: Some(Entered::from_number(text(self.high.at), self.high.unit)?),
            suction_line: optional(self.suction_line, text)?,
            liquid_line: optional(self.liquid_line, text)?,
            vent: optional(self.vent, text)?,
            ambient: optional(self.ambient, text)?,
            humidity: optional(self.humidity, text)?,
            altitude: optional(self.altitude, text)?,
            barometer: optional(self.barometer, text)?,
        };
        Ok((entry, refrigerant))
    }
}

fn place<Q: Quantity>(
    name: &'static str,
    column: &mut Option<Column<Q>>,
    at: usize,
    unit: &str,
    head: &str,
) -> Result<(), Error> {
    if unit.is_empty() {
        return Err(Error::UnitMissing {
            what: name,
            text: head.to_owned(),
            units: crate::quantity::unit_symbols::<Q>(),
        });
    }
    // words between name and unit make another name: "vent temperature [F]" is no vent in "temperature [F"
    if unit.contains(['[', ']', '(', ')']) && find_unit::<Q>(unit, head).is_err() {
        return Err(Error::UnknownColumn { name: head.to_owned(), known: KNOWN });
    }
    let unit = find_unit::<Q>(unit, head)?;
    match column.replace(Column { at, unit }) {
        None => Ok(()),
        Some(_) => Err(Error::ColumnTwice { name }),
    }
}

fn optional<'a, Q: Quantity>(
    column: Option<Column<Q>>,
    text: impl Fn(usize) -> &'a str,
) -> Result<Option<Entered<Q>>, Error> {
    let Some(column) = column else { return Ok(None) };
    match text(column.at) {
        "" => Ok(None),
        number => Entered::from_number(number, column.unit).map(Some),
    }
}
