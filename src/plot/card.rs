//! A table of saturation pressures by temperature, to print and keep.

use super::Picture;
use super::axis::plain;
use super::drawing::{Drawing, MARGIN};
use super::labels::Area;
use super::letters::{Align, Letters};
use super::svg::Point;
use crate::inspection::DisplayUnits;
use crate::quantity::{PressureUnit, TemperatureUnit, Unit};
use crate::{Error, GaugePressure, Pressure, Quantity, Refrigerant, Temperature};

/// A5 upright, 148 mm × 210 mm (ISO 216), three units to the millimetre.
const SHEET: (f64, f64) = (444.0, 630.0);

/// Largest number of rows that fit a sheet in two blocks.
pub const MAX_CARD_ROWS: usize = 60;

/// Largest number of rows in one block, as of four columns.
const MAX_ROWS_IN_ONE: usize = 36;

/// Largest number of rows in large print, in two blocks and in one.
const MAX_LARGE_ROWS: usize = 30;
const MAX_LARGE_ROWS_IN_ONE: usize = 15;

/// Large print has letters larger by √2, as from A5 to A4 (ISO 216); our choice.
const LARGE: f64 = std::f64::consts::SQRT_2;

/// Steps that are easy to read between, in any unit: our choice.
const PLEASANT_STEPS: [f64; 6] = [1.0, 2.0, 5.0, 10.0, 20.0, 50.0];

/// Caution that goes with every card.
pub const CARD_CAUTION: &str = "Pressures at which liquid and vapour are both present, at rest and at one temperature. It is \
                                no charging guide: a running circuit shows other pressures, and the charge is weighed.";

/// A table of saturation pressure by temperature of one refrigerant, in gauge pressure for a stated pressure of the air.
///
/// - **Equation** the saturation lines of [`Refrigerant`], minus the pressure of the air.
/// - **Accuracy** 10⁻¹⁰ relative to the equation of state; the table rounds to the resolution of a gauge.
///
/// ```
/// use satline::inspection::DisplayUnits;
/// use satline::plot::Card;
/// use satline::quantity::{PressureUnit, TemperatureUnit};
/// use satline::{Pressure, Refrigerant, Temperature};
/// let card = Card {
///     refrigerant: Refrigerant::R134a,
///     air: Pressure::STANDARD_ATMOSPHERE,
///     units: DisplayUnits::new(PressureUnit::Kilopascal, TemperatureUnit::Celsius),
///     second: Some(PressureUnit::Psi),
///     large: false,
///     from: Temperature::from_celsius(-30.0),
///     to: Temperature::from_celsius(60.0),
///     step: 5.0,
/// };
/// let rows = card.rows()?;
/// assert_eq!(rows.len(), 19);
/// assert_eq!((rows[6].temperature.as_str(), rows[6].dew.as_str(), rows[6].second.as_deref()), ("0", "191", Some("27.8")));
/// // a vacuum in psi is written in inches of mercury, in brackets
/// assert!(rows[0].vacuum && rows[0].second.as_deref() == Some("(5.0)"));
/// # Ok::<(), satline::Error>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Card {
    /// Refrigerant of the table.
    pub refrigerant: Refrigerant,
    /// Absolute pressure of the air around the gauge.
    pub air: Pressure,
    /// Units of the table; pressures in that of the low side. Below zero, psi are written as inHg of vacuum, in brackets.
    pub units: DisplayUnits,
    /// Unit of a second column of pressures; of a blend, on its dew line.
    pub second: Option<PressureUnit>,
    /// Large print, in fewer rows.
    pub large: bool,
    /// First temperature; the table begins at the next multiple of the step.
    pub from: Temperature,
    /// Last temperature of the table.
    pub to: Temperature,
    /// Step from row to row, in the unit of temperature.
    pub step: f64,
}

/// One row of a card.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub struct CardRow {
    /// Temperature in the unit of the card.
    pub temperature: String,
    /// Gauge pressure of the bubble line; for a pure fluid equal to the dew line.
    pub bubble: String,
    /// Gauge pressure of the dew line.
    pub dew: String,
    /// Gauge pressure of the dew line in the second unit, where there is one.
    pub second: Option<String>,
    /// Whether the dew pressure is below the pressure of the air.
    pub vacuum: bool,
    /// Whether `bubble`, `dew` and `second` are written as a vacuum.
    negative: [bool; 3],
}

impl Card {
    /// The card that fits a sheet: −40 °C to 70 °C in steps of 2, or −40 °F to 160 °F in steps of 5, limited to the saturation
    /// range of `refrigerant`.
    pub fn usual(refrigerant: Refrigerant, air: Pressure, units: DisplayUnits) -> Self {
        let (from, to, step) = match units.temperature {
            TemperatureUnit::Celsius => (Temperature::from_celsius(-40.0), Temperature::from_celsius(70.0), 2.0),
            TemperatureUnit::Kelvin => (Temperature::from_kelvin(234.0), Temperature::from_kelvin(344.0), 2.0),
            TemperatureUnit::Fahrenheit => {
                (Temperature::from_fahrenheit(-40.0), Temperature::from_fahrenheit(160.0), 5.0)
            }
        };
        let valid = refrigerant.saturation_range();
        Self {
            refrigerant,
            air,
            units,
            second: None,
            large: false,
            from: if from < valid.low { valid.low } else { from },
            to: if to > valid.high { valid.high } else { to },
            step,
        }
    }

    /// The same card from one temperature to another, in the smallest pleasant step (1, 2, 5, 10 …) whose rows fit the sheet.
    #[must_use]
    pub fn between(self, from: Temperature, to: Temperature) -> Self {
        let span = to.value_in(self.units.temperature) - from.value_in(self.units.temperature);
        // a range may begin and end on a row
        let fits = |step: &f64| span / step + 1.0 <= self.most_rows() as f64;
        let step = PLEASANT_STEPS.into_iter().find(fits).unwrap_or(self.step);
        Self { from, to, step, ..self }
    }

    /// The same card in large print, in the smallest pleasant step whose rows fit.
    #[must_use]
    pub fn in_large_print(self) -> Self {
        Self { large: true, ..self }.between(self.from, self.to)
    }

    /// Number of blocks side by side: four columns, in large print three, leave no room for another.
    fn blocks(&self) -> usize {
        let columns = self.heads().len();
        if columns > 3 || self.large && columns > 2 { 1 } else { 2 }
    }

    fn most_rows(&self) -> usize {
        match (self.large, self.blocks()) {
            (false, 2) => MAX_CARD_ROWS,
            (false, _) => MAX_ROWS_IN_ONE,
            (true, 2) => MAX_LARGE_ROWS,
            (true, _) => MAX_LARGE_ROWS_IN_ONE,
        }
    }

    /// Rows of the table, by rising temperature.
    ///
    /// # Errors
    /// [`Error::OutOfRange`] or [`Error::AboveCriticalTemperature`] for a range beyond the saturation lines;
    /// [`Error::Impossible`] for a step or an air pressure that is not above zero, a range without a row, or more rows than
    /// [`MAX_CARD_ROWS`]; of four columns 36, in large print 30, of three and more columns in large print 15.
    pub fn rows(&self) -> Result<Vec<CardRow>, Error> {
        let (first, count) = self.steps()?;
        let decimals = super::axis::decimals(self.step);
        (0..count)
            .map(|i| {
                let number = (first + i as f64) * self.step;
                let t = Temperature::new(number, self.units.temperature);
                // converting the ends of the saturation range may round them beyond it
                let valid = self.refrigerant.saturation_range();
                let close = |end: Temperature| (t - end).kelvins().abs() < 1e-9;
                let t = [valid.low, valid.high].into_iter().find(|end| close(*end)).unwrap_or(t);
                let (bubble, dew) = (self.refrigerant.bubble_pressure(t)?, self.refrigerant.dew_pressure(t)?);
                let (bubble, dew) = (bubble.gauge(self.air), dew.gauge(self.air));
                Ok(CardRow {
                    temperature: plain(number, decimals),
                    bubble: shown(bubble, self.units.low),
                    dew: shown(dew, self.units.low),
                    second: self.second.map(|unit| shown(dew, unit)),
                    vacuum: dew < GaugePressure::from_pa(0.0),
                    negative: [
                        is_negative(bubble, self.units.low),
                        is_negative(dew, self.units.low),
                        self.second.is_some_and(|unit| is_negative(dew, unit)),
                    ],
                })
            })
            .collect()
    }

    /// Number of the first step of the table, and how many there are.
    ///
    /// # Errors
    /// As [`Card::rows`].
    fn steps(&self) -> Result<(f64, usize), Error> {
        let unit = self.units.temperature;
        let (from, to) = (self.from.value_in(unit), self.to.value_in(unit));
        if !(self.step > 0.0 && self.step.is_finite()) {
            return Err(Error::Impossible { what: "step of the table", value: self.step, must: "above zero" });
        }
        if !(self.air.pa() > 0.0 && self.air.pa().is_finite()) {
            return Err(Error::Impossible { what: "air pressure (kPa)", value: self.air.kpa(), must: "above zero" });
        }
        for end in [self.from, self.to] {
            self.refrigerant.dew_pressure(end)?;
        }
        let (first, last) = ((from / self.step - 1e-9).ceil(), (to / self.step + 1e-9).floor());
        let count = last - first + 1.0;
        if count.is_nan() || count < 1.0 {
            return Err(Error::Impossible {
                what: "rows of the table",
                value: count.max(0.0),
                must: "one or more; the last temperature lies above the first, and a step fits between them",
            });
        }
        if count > self.most_rows() as f64 {
            return Err(Error::Impossible {
                what: "rows of the table",
                value: count,
                must: match self.most_rows() {
                    MAX_CARD_ROWS => "60 or fewer; take a larger step or a shorter range",
                    MAX_ROWS_IN_ONE => "36 or fewer with four columns; take a larger step or a shorter range",
                    MAX_LARGE_ROWS => "30 or fewer in large print; take a larger step or a shorter range",
                    _ => "15 or fewer in large print with several columns; take a larger step or a shorter range",
                },
            });
        }
        Ok((first, count as usize))
    }

    /// Heads of the columns.
    pub fn heads(&self) -> Vec<String> {
        let (t, p) = (self.units.temperature.symbol(), self.units.low.symbol());
        let second = self.second.map(PressureUnit::symbol);
        let mut heads = vec![t.to_owned()];
        if self.refrigerant.is_blend() {
            heads.extend([format!("bubble {p}"), format!("dew {p}")]);
            heads.extend(second.map(|unit| format!("dew {unit}")));
        } else {
            heads.push(p.to_owned());
            heads.extend(second.map(str::to_owned));
        }
        heads
    }

    /// The cells of a row in the order of the heads, each with whether it is written as a vacuum.
    fn cells<'a>(&self, row: &'a CardRow) -> Vec<(&'a str, bool)> {
        let [bubble, dew, second] = row.negative;
        let bubble = self.refrigerant.is_blend().then_some((row.bubble.as_str(), bubble));
        let second = row.second.as_deref().map(|text| (text, second));
        let temperature = (row.temperature.as_str(), false);
        [Some(temperature), bubble, Some((row.dew.as_str(), dew)), second].into_iter().flatten().collect()
    }

    /// The cells of a row in the order of [`Card::heads`].
    pub fn written<'a>(&self, row: &'a CardRow) -> Vec<&'a str> {
        self.cells(row).into_iter().map(|(text, _)| text).collect()
    }

    /// A sentence that states the pressure of the air, and how a vacuum is marked if the table has one.
    ///
    /// # Errors
    /// As [`Card::rows`].
    pub fn place(&self) -> Result<String, Error> {
        let vacuum = self.rows()?.iter().any(|row| row.vacuum);
        let units = [Some(self.units.low), self.second];
        let in_brackets = units.contains(&Some(PressureUnit::Psi));
        let negative = units.iter().flatten().any(|unit| *unit != PressureUnit::Psi);
        let marked = match (vacuum, in_brackets, negative) {
            (false, ..) => "",
            (_, true, true) => "; a vacuum is negative, beside psi in brackets in inHg",
            (_, true, false) => "; in brackets, inHg of vacuum",
            (_, false, _) => "; negative numbers are a vacuum",
        };
        Ok(format!("Gauge pressures in air of {}{marked}.", self.air.entered(PressureUnit::Kilopascal, 1)))
    }

    /// A sentence that states source and accuracy of the table.
    pub fn source(&self) -> String {
        let fluid = self.refrigerant.fluid();
        let digit = plain(0.5 * 0.1f64.powi(self.units.decimals() as i32), self.units.decimals() + 1);
        format!(
            "From {}. The table follows it within half of its last digit, {digit} {}.",
            fluid.equation.source,
            self.units.low.symbol()
        )
    }

    /// The card as a picture for an A5 sheet.
    ///
    /// # Errors
    /// As [`Card::rows`].
    pub fn picture(&self) -> Result<Picture, Error> {
        let r = self.refrigerant;
        let rows = self.rows()?;
        let title = format!("{r}: saturation pressure by temperature");
        let sheet = if self.large { (SHEET.0 / LARGE, SHEET.1 / LARGE) } else { SHEET };
        let mut drawing = Drawing::new(format!("card-{}", file_name(r)), sheet.0);
        drawing.skip(4.0);
        drawing.sentence(Letters::Head, &title);
        let place = self.place()?;
        drawing.sentence(Letters::Small, &place);
        if r.is_blend() {
            let words = "Subcooling counts from the bubble column, superheat from the dew column.";
            drawing.sentence(Letters::Small, words);
        }
        drawing.skip(6.0);
        let top = drawing.y();
        let foot = [CARD_CAUTION.to_owned(), self.source()];
        let lines: usize = foot.iter().map(|text| Letters::Small.wrapped(text, sheet.0 - 2.0 * MARGIN).len()).sum();
        let foot_height = lines as f64 * Letters::Small.leading() + 6.0;
        self.table(&mut drawing, &rows, sheet.0, (top, sheet.1 - MARGIN - foot_height));
        let down = sheet.1 - MARGIN - foot_height - drawing.y();
        drawing.skip(down);
        for text in &foot {
            drawing.sentence(Letters::Small, text);
        }
        let (first, last) = (&rows[0], &rows[rows.len() - 1]);
        let t = self.units.temperature.symbol();
        let gauge = |row: &CardRow| {
            let [_, vacuum, _] = row.negative;
            if vacuum && self.units.low == PressureUnit::Psi {
                format!("{} inHg of vacuum", row.dew.trim_matches(['(', ')']))
            } else {
                format!("{} {} gauge", row.dew, self.units.low.symbol())
            }
        };
        let description = format!(
            "Table of {} rows: {r} from {} {t}, {}, to {} {t}, {}{}. {place} {CARD_CAUTION}",
            rows.len(),
            first.temperature,
            gauge(first),
            last.temperature,
            gauge(last),
            if r.is_blend() { " on the dew line; bubble line beside it" } else { "" },
        );
        Ok(drawing.finish_at(sheet.1, title, description))
    }

    /// The blocks of rows between two heights.
    fn table(&self, drawing: &mut Drawing, rows: &[CardRow], sheet: f64, (top, bottom): (f64, f64)) {
        let blocks = self.blocks();
        let half = rows.len().div_ceil(blocks);
        let height = ((bottom - top) / (half as f64 + 1.6)).min(17.0);
        let letters = if height < 13.5 { Letters::Small } else { Letters::Plain };
        let gap = if self.large { 14.0 } else { 26.0 };
        let width = if blocks == 2 { 0.5 * (sheet - 2.0 * MARGIN - gap) } else { sheet - 2.0 * MARGIN };
        let heads = self.heads();
        // right edges of the columns, as fractions of the block
        let edges: &[f64] = match heads.len() {
            2 => &[0.36, 0.92],
            3 => &[0.22, 0.62, 0.97],
            _ => &[0.15, 0.45, 0.72, 0.99],
        };
        for (block, rows) in rows.chunks(half.max(1)).enumerate() {
            let left = MARGIN + block as f64 * (width + gap);
            let mut y = top + 1.2 * height;
            for (head, edge) in heads.iter().zip(edges) {
                let at = Point { x: left + edge * width, y: y - 0.35 * height };
                drawing.words(at, Letters::Small, Align::End, head);
            }
            drawing.rule("sl-axis", Point { x: left, y }, Point { x: left + width, y });
            for (i, row) in rows.iter().enumerate() {
                if i % 5 == 4 {
                    let area = Area { left, top: y, right: left + width, bottom: y + height };
                    drawing.rect("sl-row", &area);
                }
                y += height;
                let baseline = y - 0.5 * (height - 0.72 * letters.size());
                for ((cell, vacuum), edge) in self.cells(row).into_iter().zip(edges) {
                    let letters = if vacuum && letters == Letters::Plain { Letters::Soft } else { letters };
                    drawing.words(Point { x: left + edge * width, y: baseline }, letters, Align::End, cell);
                }
            }
            drawing.rule("sl-axis", Point { x: left, y }, Point { x: left + width, y });
        }
    }
}

/// A gauge pressure as the table writes it: a vacuum in psi as inHg in brackets, as service gauges have it (common practice).
fn shown(p: GaugePressure, unit: PressureUnit) -> String {
    if unit == PressureUnit::Psi && is_negative(p, unit) {
        return format!("({})", plain(-p.value_in(PressureUnit::InchOfMercury), usize::from(unit.gauge_decimals())));
    }
    plain(p.value_in(unit), usize::from(unit.gauge_decimals()))
}

/// Whether [`shown`] writes `p` as a vacuum: half a last digit below zero still rounds to it.
fn is_negative(p: GaugePressure, unit: PressureUnit) -> bool {
    p.value_in(unit) < -0.5 * 0.1f64.powi(i32::from(unit.gauge_decimals()))
}

/// A designation fit for a file: letters and digits in lower case, the rest as hyphens.
fn file_name(r: Refrigerant) -> String {
    let plain = |c: char| if c.is_ascii_alphanumeric() { c.to_ascii_lowercase() } else { '-' };
    r.designation().chars().map(plain).collect::<String>().trim_matches('-').to_owned()
}
