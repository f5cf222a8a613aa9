//! A table of saturation pressures by temperature, to print and keep.

use super::drawing::{Drawing, MARGIN};
use super::labels::Area;
use super::letters::{Align, Letters};
use super::svg::Point;
use super::words::{CardText, PictureWords, Writing, number};
use super::{English, Picture};
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
        self.rows_in(&English)
    }

    /// [`Card::rows`] with the decimal sign of a language.
    ///
    /// # Errors
    /// As [`Card::rows`].
    #[doc(hidden)]
    pub fn rows_in(&self, words: &dyn PictureWords) -> Result<Vec<CardRow>, Error> {
        let point = words.point();
        let (first, count) = self.steps()?;
        let decimals = super::axis::decimals(self.step);
        (0..count)
            .map(|i| {
                let row = (first + i as f64) * self.step;
                let t = Temperature::new(row, self.units.temperature);
                // converting the ends of the saturation range may round them beyond it
                let valid = self.refrigerant.saturation_range();
                let close = |end: Temperature| (t - end).kelvins().abs() < 1e-9;
                let t = [valid.low, valid.high].into_iter().find(|end| close(*end)).unwrap_or(t);
                let (bubble, dew) = (self.refrigerant.bubble_pressure(t)?, self.refrigerant.dew_pressure(t)?);
                let (bubble, dew) = (bubble.gauge(self.air), dew.gauge(self.air));
                Ok(CardRow {
                    temperature: number(row, decimals, point),
                    bubble: shown(bubble, self.units.low, point),
                    dew: shown(dew, self.units.low, point),
                    second: self.second.map(|unit| shown(dew, unit, point)),
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
        self.heads_in(&English)
    }

    /// [`Card::heads`] in a language.
    #[doc(hidden)]
    pub fn heads_in(&self, words: &dyn PictureWords) -> Vec<String> {
        let (t, p) = (self.units.temperature.symbol(), self.units.low.symbol());
        let second = self.second.map(PressureUnit::symbol);
        let mut heads = vec![t.to_owned()];
        if self.refrigerant.is_blend() {
            heads.extend([CardText::BubbleHead(p), CardText::DewHead(p)].map(|head| words.text(head.into())));
            heads.extend(second.map(|unit| words.text(CardText::DewHead(unit).into())));
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
        self.place_in(&English)
    }

    /// [`Card::place`] in a language.
    ///
    /// # Errors
    /// As [`Card::rows`].
    #[doc(hidden)]
    pub fn place_in(&self, words: &dyn PictureWords) -> Result<String, Error> {
        let vacuum = self.rows()?.iter().any(|row| row.vacuum);
        let units = [Some(self.units.low), self.second];
        let in_brackets = vacuum && units.contains(&Some(PressureUnit::Psi));
        let negative = vacuum && units.iter().flatten().any(|unit| *unit != PressureUnit::Psi);
        let writing = Writing::new(&self.units, words);
        Ok(writing.say(CardText::CardPlace { air: &writing.air(self.air), in_brackets, negative }))
    }

    /// A sentence that states source and accuracy of the table.
    pub fn source(&self) -> String {
        self.source_in(&English)
    }

    /// [`Card::source`] in a language.
    #[doc(hidden)]
    pub fn source_in(&self, words: &dyn PictureWords) -> String {
        let decimals = self.units.decimals();
        let half = number(0.5 * 0.1f64.powi(decimals as i32), decimals + 1, words.point());
        let digit = format!("{half} {}", self.units.low.symbol());
        words.text(CardText::CardSource(&self.refrigerant.fluid().equation.source, &digit).into())
    }

    /// The card as a picture for an A5 sheet.
    ///
    /// # Errors
    /// As [`Card::rows`].
    pub fn picture(&self) -> Result<Picture, Error> {
        self.picture_in(&English)
    }

    /// [`Card::picture`] in a language.
    ///
    /// # Errors
    /// As [`Card::rows`].
    #[doc(hidden)]
    pub fn picture_in(&self, words: &dyn PictureWords) -> Result<Picture, Error> {
        let say = |text: CardText| words.text(text.into());
        let rows = self.rows_in(words)?;
        let title = say(CardText::CardTitle(self.refrigerant.designation()));
        let sheet = if self.large { (SHEET.0 / LARGE, SHEET.1 / LARGE) } else { SHEET };
        let mut drawing = Drawing::new(format!("card-{}", file_name(self.refrigerant)), sheet.0);
        drawing.skip(4.0);
        drawing.sentence(Letters::Head, &title);
        let place = self.place_in(words)?;
        drawing.sentence(Letters::Small, &place);
        if self.refrigerant.is_blend() {
            drawing.sentence(Letters::Small, &say(CardText::BlendColumns));
        }
        drawing.skip(6.0);
        let top = drawing.y();
        let caution = say(CardText::CardCaution);
        let foot = [caution.clone(), self.source_in(words)];
        let lines: usize = foot.iter().map(|text| Letters::Small.wrapped(text, sheet.0 - 2.0 * MARGIN).len()).sum();
        let foot_height = lines as f64 * Letters::Small.leading() + 6.0;
        let heads = self.heads_in(words);
        self.table(&mut drawing, (&heads, &rows), sheet.0, (top, sheet.1 - MARGIN - foot_height));
        let down = sheet.1 - MARGIN - foot_height - drawing.y();
        drawing.skip(down);
        for text in &foot {
            drawing.sentence(Letters::Small, text);
        }
        let description = format!("{} {place} {caution}", self.shown_in(&rows, words));
        Ok(drawing.finish_at(sheet.1, title, description))
    }

    /// What the first and the last of `rows` show, in a sentence.
    fn shown_in(&self, rows: &[CardRow], words: &dyn PictureWords) -> String {
        let ends = [&rows[0], &rows[rows.len() - 1]];
        let temperatures = ends.map(|row| format!("{} {}", row.temperature, self.units.temperature.symbol()));
        let pressures = ends.map(|row| {
            let [_, vacuum, _] = row.negative;
            if vacuum && self.units.low == PressureUnit::Psi {
                words.text(CardText::InVacuum(row.dew.trim_matches(['(', ')'])).into())
            } else {
                words.text(CardText::AtGauge(&format!("{} {}", row.dew, self.units.low.symbol())).into())
            }
        });
        words.text(
            CardText::CardShown {
                rows: rows.len(),
                refrigerant: self.refrigerant.designation(),
                temperatures: temperatures.each_ref().map(String::as_str),
                pressures: pressures.each_ref().map(String::as_str),
                blend: self.refrigerant.is_blend(),
            }
            .into(),
        )
    }

    /// The blocks of rows between two heights.
    fn table(
        &self,
        drawing: &mut Drawing,
        (heads, rows): (&[String], &[CardRow]),
        sheet: f64,
        (top, bottom): (f64, f64),
    ) {
        let blocks = self.blocks();
        let half = rows.len().div_ceil(blocks);
        let height = ((bottom - top) / (half as f64 + 1.6)).min(17.0);
        let letters = if height < 13.5 { Letters::Small } else { Letters::Plain };
        let gap = if self.large { 14.0 } else { 26.0 };
        let width = if blocks == 2 { 0.5 * (sheet - 2.0 * MARGIN - gap) } else { sheet - 2.0 * MARGIN };
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
fn shown(p: GaugePressure, unit: PressureUnit, point: char) -> String {
    let decimals = usize::from(unit.gauge_decimals());
    if unit == PressureUnit::Psi && is_negative(p, unit) {
        return format!("({})", number(-p.value_in(PressureUnit::InchOfMercury), decimals, point));
    }
    number(p.value_in(unit), decimals, point)
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
