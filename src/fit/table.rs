//! Saturation table as printed or measured, with the uncertainty of each row.

use crate::numeric::sort_by_number;
use crate::quantity::{PressureUnit, TemperatureUnit, Unit, find_unit};
use crate::{
    Entered, Error, GaugePressure, Pressure, PressureDifference, Quantity, Temperature, TemperatureDifference,
};

/// Saturation table: pressures by temperature, from text or from numbers.
///
/// ```
/// use approx::assert_abs_diff_eq;
/// use satline::fit::SaturationTable;
/// let text = "\
/// ## title a few rows of R-134a
/// temperature_C,pressure_kPa_abs
/// -20,132.7
/// 0,292.8
/// 20,571.7
/// ";
/// # let text = &text.replace("##", "#");
/// let table = SaturationTable::read(text, "pressure")?;
/// assert_eq!(table.rows().len(), 3);
/// let p = table.rows()[1].pressure;
/// assert_abs_diff_eq!(p.kpa(), 292.8, epsilon = 1e-9); // rounding
/// # Ok::<(), satline::Error>(())
/// ```
#[derive(Debug, Clone, PartialEq)]
pub struct SaturationTable {
    rows: Vec<TableRow>,
    pub(super) wording: Wording,
}

/// Row of a [`SaturationTable`].
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub struct TableRow {
    /// Line number in the text, or position in the slices, starting at 1.
    pub line: usize,
    /// Saturation temperature of the row.
    pub temperature: Temperature,
    /// Saturation pressure of the row.
    pub pressure: Pressure,
    /// Standard uncertainty of the pressure as far as it is known: stated in a column, or from the rounding of the
    /// printed digits (half a unit of the last digit over √3).
    pub u_pressure: PressureDifference,
    /// Standard uncertainty of the temperature as far as it is known, from a column or from rounding.
    pub u_temperature: TemperatureDifference,
    /// Statistical weight of the row beside its known uncertainty: 1 unless a column says otherwise.
    pub weight: f64,
    /// Digits after the point, for showing the row as it was printed.
    pub(super) decimals: (usize, usize),
}

/// Units in which a table is written.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Wording {
    pub(super) temperature: TemperatureUnit,
    pub(super) pressure: PressureUnit,
    pub(super) gauge: bool,
}

impl Wording {
    /// A pressure as the table writes it, with its unit.
    pub(super) fn pressure(&self, p: Pressure, decimals: usize) -> String {
        if self.gauge {
            let gauge = p.gauge(Pressure::STANDARD_ATMOSPHERE);
            format!("{} gauge", gauge.entered(self.pressure, decimals))
        } else {
            p.entered(self.pressure, decimals).to_string()
        }
    }
}

fn bad(reason: impl Into<String>) -> Error {
    Error::BadTable { reason: reason.into() }
}

impl SaturationTable {
    /// Reads a table in this crate's format: `#` header lines, column names, then one row per line, in any order.
    ///
    /// `pressure` is the name of the pressure column before its unit: `pressure`, or for a blend `bubble_pressure` and
    /// `dew_pressure`. A column name ends in the unit, and that of a pressure in its reference:
    ///
    /// | column | contents |
    /// |---|---|
    /// | `temperature_K`, `temperature_C`, `temperature_F` | temperature |
    /// | `pressure_kPa_abs`, `pressure_MPa_gauge`, `pressure_psig` … | pressure; gauge pressure is relative to the
    /// standard atmosphere |
    /// | `u_pressure_kPa` … or `u_pressure_percent` | standard uncertainty of the pressure |
    /// | `u_temperature_K` | standard uncertainty of the temperature |
    /// | `weight` | statistical weight of the row, in place of an uncertainty: 4 is as good as 4 rows of weight 1 |
    ///
    /// Fields are separated by commas, semicolons or tabs, whichever stands first in the line of column names; the decimal
    /// sign is a point.
    ///
    /// Other columns are ignored, and so is a row without a pressure. Of the header, `rows` is compared with the number
    /// of rows found, `digits` and `tdigits` say which digits are printed (without them, those in the text are), and
    /// `entry pressure` or `entry neither` that the temperatures are rounded too. Without a column for it, the
    /// uncertainty of a row is that of its rounding.
    ///
    /// # Errors
    /// [`Error::BadTable`] with the line: for columns that are missing, repeated, without unit or without reference, a
    /// field that is not a number, a pressure not above vacuum, a temperature not above absolute zero, an uncertainty
    /// or weight that is not above zero, a number of rows other than that in the header, no rows.
    pub fn read(text: &str, pressure: &str) -> Result<Self, Error> {
        // with its two-byte line ends the reader counts lines one short
        let text = text.trim_start_matches('\u{feff}').replace("\r\n", "\n");
        let text = text.as_str();
        let header = Header::read(text)?;
        let mut reader = csv::ReaderBuilder::new()
            .comment(Some(b'#'))
            .delimiter(separator(text))
            .trim(csv::Trim::All)
            .from_reader(text.as_bytes());
        let head = reader.headers().map_err(|e| bad(e.to_string()))?.clone();
        let columns = Columns::find(&head, pressure)?;
        let (mut rows, mut found) = (Vec::new(), 0);
        for record in reader.records() {
            let record = record.map_err(|error| unreadable(&error))?;
            let line = record.position().map_or(0, |position| position.line() as usize);
            found += 1;
            // a blank: this line has no pressure there
            if record[columns.pressure].is_empty() {
                continue;
            }
            let row = columns.row(&record, line, &header).map_err(|error| match error {
                Error::BadTable { reason } => bad(format!("line {line}: {reason}")),
                other => bad(format!("line {line}: {other}")),
            })?;
            rows.push(row);
        }
        if let Some(promised) = header.rows.filter(|&promised| promised != found) {
            return Err(bad(format!("its header promises {promised} rows, but it has {found}")));
        }
        Self::sorted(rows, columns.wording)
    }

    /// Table from temperatures in K and absolute pressures in Pa, without known uncertainties; the fit finds their
    /// scatter.
    ///
    /// # Errors
    /// [`Error::BadTable`] for slices of different length, no rows, or a row that is no saturation point.
    pub fn from_slices(kelvin: &[f64], pascal: &[f64]) -> Result<Self, Error> {
        if kelvin.len() != pascal.len() {
            return Err(bad(format!("{} temperatures for {} pressures", kelvin.len(), pascal.len())));
        }
        let rows = kelvin.iter().zip(pascal).enumerate().map(|(i, (&t, &p))| TableRow {
            line: i + 1,
            temperature: Temperature::from_kelvin(t),
            pressure: Pressure::from_pa(p),
            u_pressure: PressureDifference::from_pa(0.0),
            u_temperature: TemperatureDifference::from_kelvins(0.0),
            weight: 1.0,
            decimals: (2, 0),
        });
        let wording = Wording { temperature: TemperatureUnit::Kelvin, pressure: PressureUnit::Pascal, gauge: false };
        Self::sorted(rows.collect(), wording)
    }

    /// Table with a standard uncertainty for the pressure of each row, Pa, in the order the rows were given.
    ///
    /// # Errors
    /// [`Error::BadTable`] when there are more or fewer of them than rows, or one is not above zero.
    pub fn with_uncertainties(mut self, pascal: &[f64]) -> Result<Self, Error> {
        self.given_in_order(pascal, "uncertainty")?;
        let order = self.order();
        for (&at, &u) in order.iter().zip(pascal) {
            self.rows[at].u_pressure = PressureDifference::from_pa(u);
        }
        Ok(self)
    }

    /// Table with a statistical weight for each row, in the order the rows were given.
    ///
    /// # Errors
    /// [`Error::BadTable`] when there are more or fewer of them than rows, or one is not above zero.
    pub fn with_weights(mut self, weights: &[f64]) -> Result<Self, Error> {
        self.given_in_order(weights, "weight")?;
        let order = self.order();
        for (&at, &weight) in order.iter().zip(weights) {
            self.rows[at].weight = weight;
        }
        Ok(self)
    }

    /// Rows by rising temperature.
    pub fn rows(&self) -> &[TableRow] {
        &self.rows
    }

    /// Positions of the rows in the order they were given.
    fn order(&self) -> Vec<usize> {
        let mut order: Vec<usize> = (0..self.rows.len()).collect();
        order.sort_by_key(|&at| self.rows[at].line);
        order
    }

    fn given_in_order(&self, values: &[f64], what: &str) -> Result<(), Error> {
        if values.len() != self.rows.len() {
            return Err(bad(format!("{} values of {what} for {} rows", values.len(), self.rows.len())));
        }
        for (i, &value) in values.iter().enumerate() {
            positive(value, what).map_err(|_| bad(format!("row {}: {what} {value} is not above zero", i + 1)))?;
        }
        Ok(())
    }

    fn sorted(mut rows: Vec<TableRow>, wording: Wording) -> Result<Self, Error> {
        if rows.is_empty() {
            return Err(bad("it has no rows"));
        }
        for row in &rows {
            let (t, p) = (row.temperature.kelvin(), row.pressure.pa());
            if !(t > 0.0 && t.is_finite() && p > 0.0 && p.is_finite()) {
                return Err(bad(format!("line {}: {t} K, {p} Pa is not a saturation point", row.line)));
            }
        }
        sort_by_number(&mut rows, |row| row.temperature.kelvin());
        Ok(Self { rows, wording })
    }
}

/// Separator of the fields: the first one in the line of column names.
fn separator(text: &str) -> u8 {
    let head = text.lines().find(|line| !line.starts_with('#') && !line.trim().is_empty()).unwrap_or_default();
    head.bytes().find(|byte| matches!(byte, b',' | b';' | b'\t')).unwrap_or(b',')
}

/// Error for a line that is not made of fields like the others.
fn unreadable(error: &csv::Error) -> Error {
    let csv::ErrorKind::UnequalLengths { pos: Some(at), expected_len, len } = error.kind() else {
        return bad(error.to_string());
    };
    let comma = if len > expected_len { "; a decimal sign is a point" } else { "" };
    bad(format!("line {}: {len} fields, and the column names are {expected_len}{comma}", at.line()))
}

fn positive(value: f64, what: &str) -> Result<f64, Error> {
    if value > 0.0 && value.is_finite() { Ok(value) } else { Err(bad(format!("{what} {value} is not above zero"))) }
}

/// Entries of a table's header about reading it.
struct Header {
    rows: Option<usize>,
    digits: Digits,
    /// `None` if temperatures are exact.
    temperature_digits: Option<Digits>,
}

impl Header {
    fn read(text: &str) -> Result<Self, Error> {
        let fact = |key: &str| {
            text.lines().find_map(|line| {
                let (found, fact) = line.strip_prefix("# ")?.split_once(' ')?;
                (found == key).then_some(fact.trim())
            })
        };
        let rows = fact("rows")
            .map(|count| count.parse().map_err(|_| bad(format!("header: rows {count:?} is not a number"))))
            .transpose()?;
        let rounded = matches!(fact("entry"), Some("pressure" | "neither"));
        let digits = |key| fact(key).map_or(Ok(Digits::AsPrinted), |rule| Digits::read(rule, key));
        Ok(Self {
            rows,
            digits: digits("digits")?,
            temperature_digits: if rounded { Some(digits("tdigits")?) } else { None },
        })
    }
}

/// Printed digits of a column.
enum Digits {
    AsPrinted,
    /// Significant digits and decimals, where either is stated; the coarser holds.
    Entered(Option<i32>, Option<i32>),
}

impl Digits {
    fn read(rule: &str, key: &str) -> Result<Self, Error> {
        if rule == "as printed" {
            return Ok(Self::AsPrinted);
        }
        let unknown =
            || bad(format!("header: {key} {rule:?} is not like \"as printed\", \"5 significant\" or \"1 decimal\""));
        let (mut significant, mut decimals) = (None, None);
        for part in rule.split(',') {
            let (count, kind) = part.trim().trim_start_matches("at most ").split_once(' ').ok_or_else(unknown)?;
            let count = count.parse::<i32>().ok().filter(|count| (-9..=17).contains(count)).ok_or_else(unknown)?;
            match kind {
                "significant" => significant = Some(count),
                "decimal" | "decimals" => decimals = Some(count),
                _ => return Err(unknown()),
            }
        }
        Ok(Self::Entered(significant, decimals))
    }

    /// Standard uncertainty of rounding `number`, which the text shows with `decimals`: half a unit over √3.
    fn rounding(&self, number: f64, decimals: usize) -> f64 {
        let half = |decimals: i32| 0.5 * 10f64.powi(-decimals);
        let half = match *self {
            Self::AsPrinted => half(decimals as i32),
            Self::Entered(significant, decimals) => {
                let first = if number == 0.0 { 0 } else { number.abs().log10().floor() as i32 };
                let significant = significant.map_or(0.0, |count| half(count - 1 - first));
                significant.max(decimals.map_or(0.0, half))
            }
        };
        half / 3f64.sqrt()
    }
}

/// Columns of a table by contents.
struct Columns {
    wording: Wording,
    temperature: usize,
    pressure: usize,
    pressure_uncertainty: Option<(usize, Relative)>,
    temperature_uncertainty: Option<(usize, f64)>,
    weight: Option<usize>,
}

/// Unit of an uncertainty of pressure.
#[derive(Clone, Copy)]
enum Relative {
    Percent,
    Pascals(f64),
}

impl Columns {
    fn find(head: &csv::StringRecord, pressure: &str) -> Result<Self, Error> {
        let only = |name: &str| -> Result<Option<(usize, &str)>, Error> {
            let mut found = head.iter().enumerate().filter_map(|(at, column)| {
                let rest = column.strip_prefix(name)?;
                (rest.is_empty() || rest.starts_with(['_', ' '])).then(|| (at, rest.trim_start_matches(['_', ' '])))
            });
            match (found.next(), found.next()) {
                (Some(_), Some((second, _))) => {
                    Err(bad(format!("two columns of {name}: the second is {:?}", head.get(second).unwrap_or_default())))
                }
                (first, _) => Ok(first),
            }
        };
        let one = |name: &str, example: &str| {
            only(name)?.ok_or_else(|| {
                let found: Vec<String> =
                    head.iter().filter(|column| !column.is_empty()).map(|column| format!("{column:?}")).collect();
                let found =
                    if found.is_empty() { String::new() } else { format!("; the columns are {}", found.join(", ")) };
                bad(format!("no column {name}; it is named with its unit, as in {example:?}{found}"))
            })
        };
        let (temperature, unit) = one("temperature", "temperature_C")?;
        let temperature_unit =
            find_unit::<Temperature>(unit, &head[temperature]).map_err(|error| bad(error.to_string()))?;
        let (at, unit) = one(pressure, &format!("{pressure}_kPa_abs"))?;
        let (pressure_unit, gauge) = pressure_unit(&unit.replace('_', " "), &head[at])?;
        let pressure_uncertainty = match only(&format!("u_{pressure}"))? {
            None => None,
            Some((at, "percent" | "%")) => Some((at, Relative::Percent)),
            Some((at, unit)) => {
                let unit = find_unit::<PressureDifference>(unit, &head[at]).map_err(|error| bad(error.to_string()))?;
                Some((at, Relative::Pascals(unit.factor())))
            }
        };
        let temperature_uncertainty = match only("u_temperature")? {
            None => None,
            Some((at, unit)) => {
                let unit =
                    find_unit::<TemperatureDifference>(unit, &head[at]).map_err(|error| bad(error.to_string()))?;
                Some((at, unit.factor()))
            }
        };
        let weight = only("weight")?.map(|(at, _)| at);
        if weight.is_some() && pressure_uncertainty.is_some() {
            return Err(bad("it has both weights and uncertainties; a weight stands in place of an uncertainty"));
        }
        Ok(Self {
            wording: Wording { temperature: temperature_unit, pressure: pressure_unit, gauge },
            temperature,
            pressure: at,
            pressure_uncertainty,
            temperature_uncertainty,
            weight,
        })
    }

    fn row(&self, record: &csv::StringRecord, line: usize, header: &Header) -> Result<TableRow, Error> {
        let number =
            |at: usize| record[at].parse::<f64>().map_err(|_| bad(format!("{:?} is not a number", &record[at])));
        let t = Entered::<Temperature>::from_number(&record[self.temperature], self.wording.temperature)?;
        let text = &record[self.pressure];
        let (p, decimals, printed) = if self.wording.gauge {
            let gauge = Entered::<GaugePressure>::from_number(text, self.wording.pressure)?;
            (gauge.quantity().absolute(Pressure::STANDARD_ATMOSPHERE), gauge.decimals(), gauge.number())
        } else {
            let absolute = Entered::<Pressure>::from_number(text, self.wording.pressure)?;
            (absolute.quantity(), absolute.decimals(), absolute.number())
        };
        if p.pa() <= 0.0 {
            return Err(bad(format!("pressure {text:?} is not above vacuum")));
        }
        if t.quantity().kelvin() <= 0.0 {
            return Err(bad(format!("temperature {:?} is not above absolute zero", &record[self.temperature])));
        }
        let weight = self.weight.map_or(Ok(1.0), |at| positive(number(at)?, "weight"))?;
        let u_pressure = match self.pressure_uncertainty {
            Some((at, stated)) => {
                let u = positive(number(at)?, "uncertainty")?;
                match stated {
                    Relative::Percent => 0.01 * u * p.pa(),
                    Relative::Pascals(factor) => u * factor,
                }
            }
            None => header.digits.rounding(printed, decimals) * self.wording.pressure.factor(),
        };
        // a step of the unit in K
        let degree = self.wording.temperature.step().factor();
        let u_temperature = match (self.temperature_uncertainty, &header.temperature_digits) {
            (Some((at, factor)), _) => positive(number(at)?, "uncertainty")? * factor,
            (None, Some(digits)) => digits.rounding(t.number(), t.decimals()) * degree,
            (None, None) => 0.0,
        };
        Ok(TableRow {
            line,
            temperature: t.quantity(),
            pressure: p,
            u_pressure: PressureDifference::from_pa(u_pressure),
            u_temperature: TemperatureDifference::from_kelvins(u_temperature),
            weight,
            decimals: (t.decimals(), decimals),
        })
    }
}

/// Unit of a pressure column, and whether it is relative to the surrounding air.
fn pressure_unit(unit: &str, column: &str) -> Result<(PressureUnit, bool), Error> {
    let bare = PressureUnit::ALL.iter().any(|known| known.symbol() == unit || known.spellings().contains(&unit));
    if bare {
        return Err(bad(format!(
            "column {column:?} does not say what its pressure counts from: end its name in _abs or _gauge"
        )));
    }
    match (find_unit::<Pressure>(unit, column), find_unit::<GaugePressure>(unit, column)) {
        (Ok(unit), _) => Ok((unit, false)),
        (_, Ok(unit)) => Ok((unit, true)),
        (Err(error), _) => Err(bad(error.to_string())),
    }
}
