//! The head and the rows of a log of a hold test.

use super::standing_vacuum::VacuumReading;
use crate::quantity::{Quantity, Time, unit_named};
use crate::{Entered, Error, GaugePressure, Pressure, PressureDifference, Temperature};

/// Columns of the log of a standing vacuum test: the quantity and the unit of each.
///
/// A head names quantity and unit: `time [min]`, `time (min)`, `time min` and `time_min` are the same. The pressure says what
/// it counts from: `absolute [micron]`, `gauge [inHg]` (below zero in vacuum) or `vacuum [inHg]` (how far below the air, without
/// a sign). Columns named `note` are passed over.
///
/// ```
/// use satline::service::standing_vacuum_log::VacuumLogColumns;
/// let columns = VacuumLogColumns::read(["time [min]", "vacuum [inHg]", "note"])?;
/// let row = columns.row(&["5", "28.5", ""])?;
/// assert_eq!(format!("{:.0} s, {:.1} inHg", row.time.seconds(), row.step.inhg()), "300 s, 0.1 inHg");
/// assert_eq!(
///     VacuumLogColumns::read(["time [min]", "pressure [inHg]"]).unwrap_err().to_string(),
///     "column \"pressure [inHg]\" is not known; known columns: time, absolute, gauge, vacuum, temperature (each with \
///      its unit, as in \"absolute [micron]\"), note"
/// );
/// # Ok::<(), satline::Error>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct VacuumLogColumns {
    count: usize,
    time: (usize, <Time as Quantity>::Unit),
    pressure: Column,
    temperature: Option<(usize, <Temperature as Quantity>::Unit)>,
}

/// The column of the pressure, and what it counts from.
#[derive(Debug, Clone, Copy, PartialEq)]
enum Column {
    Absolute(usize, <Pressure as Quantity>::Unit),
    Gauge(usize, <GaugePressure as Quantity>::Unit),
    Depth(usize, <GaugePressure as Quantity>::Unit),
}

/// One row of the log of a standing vacuum test.
#[doc(hidden)]
#[derive(Debug, Clone, Copy, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(deny_unknown_fields))]
pub struct VacuumLogRow {
    /// Time of the reading.
    pub time: Time,
    /// Vacuum that was read, absolute or gauge.
    pub pressure: VacuumReading,
    /// Temperature of the circuit; `None` if the log has no column for it.
    #[cfg_attr(feature = "serde", serde(default, skip_serializing_if = "Option::is_none"))]
    pub temperature: Option<Temperature>,
    /// One unit of the last digit that was written: the finest step the gauge can have shown.
    pub step: PressureDifference,
}

/// Decimals of a step, at most: with more it is too small to be written in SI units and read back; our choice.
const MOST_DECIMALS: usize = 280;

const NAMES: [&str; 5] = ["time", "absolute", "gauge", "vacuum", "temperature"];
const KNOWN: &str =
    "time, absolute, gauge, vacuum, temperature (each with its unit, as in \"absolute [micron]\"), note";

impl VacuumLogColumns {
    /// Reads the columns from the head of a log.
    ///
    /// # Errors
    /// [`Error::UnknownColumn`], [`Error::ColumnTwice`], [`Error::Missing`] without `time` or a pressure, and the errors of
    /// units.
    pub fn read<'a>(head: impl IntoIterator<Item = &'a str>) -> Result<Self, Error> {
        let (mut time, mut pressure, mut temperature) = (None, None, None);
        let mut count = 0;
        for (at, head) in head.into_iter().enumerate() {
            count = at + 1;
            let words = head.trim().trim_start_matches('\u{feff}').replace('_', " ");
            let lower = words.to_ascii_lowercase();
            if lower == "note" {
                continue;
            }
            let named = |name: &&str| {
                lower.strip_prefix(name).is_some_and(|rest| rest.is_empty() || rest.starts_with([' ', '[', '(']))
            };
            let Some(name) = NAMES.into_iter().find(named) else {
                return Err(Error::UnknownColumn { name: head.to_owned(), known: KNOWN });
            };
            let unit = words[name.len()..].trim().trim_start_matches(['[', '(']).trim_end_matches([']', ')']).trim();
            let twice = match name {
                "time" => time.replace((at, named_unit::<Time>(unit, head)?)).is_some(),
                "temperature" => temperature.replace((at, named_unit::<Temperature>(unit, head)?)).is_some(),
                "absolute" => pressure.replace(Column::Absolute(at, named_unit::<Pressure>(unit, head)?)).is_some(),
                "gauge" => pressure.replace(Column::Gauge(at, named_unit::<GaugePressure>(unit, head)?)).is_some(),
                _ => pressure.replace(Column::Depth(at, named_unit::<GaugePressure>(unit, head)?)).is_some(),
            };
            if twice {
                let name = if matches!(name, "time" | "temperature") { name } else { "of the pressure" };
                return Err(Error::ColumnTwice { name });
            }
        }
        let missing = |what| Error::Missing {
            what,
            way_out: "the head must name it with its unit, as in \"time [min],absolute [micron]\"",
        };
        Ok(Self {
            count,
            time: time.ok_or(missing("column time"))?,
            pressure: pressure.ok_or(missing("column absolute, gauge or vacuum"))?,
            temperature,
        })
    }

    /// Whether the pressure counts from the surrounding air, so that the pressure of the air matters.
    pub fn counts_from_air(&self) -> bool {
        !matches!(self.pressure, Column::Absolute(..))
    }

    /// Unit of the pressure column.
    pub fn pressure_unit(&self) -> <Pressure as Quantity>::Unit {
        match self.pressure {
            Column::Absolute(_, unit) | Column::Gauge(_, unit) | Column::Depth(_, unit) => unit,
        }
    }

    /// Reads one row of the log.
    ///
    /// # Errors
    /// [`Error::FieldCount`] for a row that does not have the columns of the head; [`Error::Impossible`] for a depth of
    /// vacuum below zero; otherwise the error of the first field that cannot be read.
    pub fn row<S: AsRef<str>>(&self, fields: &[S]) -> Result<VacuumLogRow, Error> {
        if fields.len() != self.count {
            return Err(Error::FieldCount { found: fields.len(), expected: self.count });
        }
        let text = |at: usize| fields[at].as_ref().trim();
        let time = Entered::<Time>::from_number(text(self.time.0), self.time.1)?.quantity();
        let (pressure, unit, decimals) = match self.pressure {
            Column::Absolute(at, unit) => {
                let read = Entered::<Pressure>::from_number(text(at), unit)?;
                (VacuumReading::Absolute(read.quantity()), unit, read.decimals())
            }
            Column::Gauge(at, unit) => {
                let read = Entered::<GaugePressure>::from_number(text(at), unit)?;
                (VacuumReading::Gauge(read.quantity()), unit, read.decimals())
            }
            Column::Depth(at, unit) => {
                let read = Entered::<GaugePressure>::from_number(text(at), unit)?;
                if read.number() < 0.0 {
                    return Err(Error::Impossible {
                        what: "depth of vacuum",
                        value: read.number(),
                        must: "zero or more: write it without a sign, or name the column gauge",
                    });
                }
                (VacuumReading::Gauge(GaugePressure::from_pa(-read.quantity().pa())), unit, read.decimals())
            }
        };
        let temperature = match self.temperature {
            Some((at, unit)) => Some(Entered::<Temperature>::from_number(text(at), unit)?.quantity()),
            None => None,
        };
        let step = PressureDifference::new(10f64.powi(-(decimals.min(MOST_DECIMALS) as i32)), unit);
        Ok(VacuumLogRow { time, pressure, temperature, step })
    }
}

/// Gauge resolution estimated from the readings; `None` if there are none. It is the largest of 1, 2 and 5 times a
/// power of ten that all of them are multiples of, and not finer than the last digit written. A gauge of which no
/// reading betrays its step takes a finer one than it has; give the step then.
///
/// ```
/// use satline::service::standing_vacuum_log::{VacuumLogColumns, step};
/// let columns = VacuumLogColumns::read(["time [min]", "absolute [micron]"])?;
/// let rows = ["450", "500", "550", "700"].map(|read| columns.row(&["0", read]).unwrap());
/// assert_eq!(step(&rows, columns.pressure_unit()).unwrap().microns().round(), 50.0);
/// # Ok::<(), satline::Error>(())
/// ```
pub fn step(rows: &[VacuumLogRow], unit: <Pressure as Quantity>::Unit) -> Option<PressureDifference> {
    let finest = rows.iter().map(|row| row.step.value_in(unit)).reduce(f64::min)?;
    let reads: Vec<f64> = rows
        .iter()
        .map(|row| match row.pressure {
            VacuumReading::Absolute(read) => read.value_in(unit) / finest,
            VacuumReading::Gauge(read) => read.value_in(unit) / finest,
        })
        .collect();
    let all_multiples = |of: &f64| reads.iter().all(|read| (read / of - (read / of).round()).abs() < OF_A_STEP);
    let moves = reads.iter().any(|read| (read - reads[0]).abs() > 0.5);
    // readings that never move are multiples of themselves and betray nothing
    let largest = STEPS.into_iter().rev().find(all_multiples).filter(|_| moves).unwrap_or(1.0);
    Some(PressureDifference::new(largest * finest, unit))
}

/// Steps in which a display may move, in its last printed digit; common practice of instruments, no source.
const STEPS: [f64; 10] = [1.0, 2.0, 5.0, 10.0, 20.0, 50.0, 100.0, 200.0, 500.0, 1000.0];
/// How far from a whole number of steps a reading may lie by rounding; our choice.
const OF_A_STEP: f64 = 1e-6;

/// The unit of a column.
fn named_unit<Q: Quantity>(unit: &str, head: &str) -> Result<Q::Unit, Error> {
    if unit.is_empty() {
        return Err(Error::UnitMissing {
            what: Q::NAME,
            text: head.to_owned(),
            units: crate::quantity::unit_symbols::<Q>(),
        });
    }
    unit_named::<Q>(unit)
}
