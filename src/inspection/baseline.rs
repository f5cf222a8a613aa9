//! Pressures that the circuit at hand is known to show when it is healthy.

use std::str::FromStr;

use super::measurand::Measurand;
use super::reading::Reading;
use crate::circuit::{Conditions, Settings};
use crate::{Entered, Error, GaugePressure, Measured, Pressure, Quantity, Range, Ratio, Temperature};

/// How a row is written.
const LIKE: &str = "write a row like \"30 °C: 190 to 240 kPa, 1300 to 1600 kPa\", low side first";

/// Baseline: gauge pressures that the circuit at hand shows when it is healthy, under known conditions.
///
/// It is a row of the maker's own table for the car, or an earlier reading of it when it was well. Baselines of an
/// [`Inspection`](super::Inspection) weight the simulated circuits, so that the window and the diagnosis become those of this circuit.
///
/// - **Units** as text each value has its own; a unit stated behind the second limit alone holds for both: `"86 °F, 50 %: 30 to
///   40 psi, 180 to 220 psi"`. One side alone is marked: `"30 °C: high 1300 to 1600 kPa"`. A single value is a range without width.
/// - **Range** of the conditions that of the circuit model: 5 to 55 °C, 50 to 108 kPa of air.
/// - **Meaning** of a printed range: nearly all good cars lie in it. It counts as an interval of 95 %, its middle as the likeliest
///   value; our choice.
/// - **Settings** and air of a row that was read from text are [`Settings::TEST`] and the standard atmosphere at sea level, as no
///   printed table states its air pressure; [`Baseline::with_settings`] and [`Baseline::with_air`] set others.
///
/// ```
/// use approx::assert_abs_diff_eq;
/// use satline::Temperature;
/// use satline::inspection::Baseline;
/// let row: Baseline = "30 °C: 190 to 240 kPa, 1300 to 1600 kPa".parse()?;
/// assert_eq!(row.conditions().ambient, Temperature::from_celsius(30.0));
/// assert_abs_diff_eq!(row.low().expect("given").high.kpa(), 240.0, epsilon = 1e-9); // rounding
/// let row: Baseline = "86 °F, 50 %: 30 to 40 psi, 180 to 220 psi".parse()?;
/// // psi by way of pascal: rounding
/// assert_abs_diff_eq!(row.high().expect("given").low.psi(), 180.0, epsilon = 1e-9);
/// // a unit is never guessed
/// let error = "30 °C: 190 to 240, 1300 to 1600 kPa".parse::<Baseline>().unwrap_err();
/// assert_eq!(error.code(), "unit-missing");
/// # Ok::<(), satline::Error>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
#[cfg_attr(
    feature = "serde",
    derive(serde::Serialize, serde::Deserialize),
    serde(try_from = "PlainBaseline", into = "PlainBaseline")
)]
pub struct Baseline {
    conditions: Conditions,
    low: Option<Range<GaugePressure>>,
    high: Option<Range<GaugePressure>>,
}

impl Baseline {
    /// Baseline of a low-side and a high-side range of gauge pressure under `conditions`; one of them may be unknown.
    ///
    /// # Errors
    /// [`Error::Missing`] without either side; [`Error::Impossible`] for a range whose upper limit is below its lower one, and
    /// [`Error::BelowVacuum`] and [`Error::Implausible`] for a limit that no gauge shows, inside [`Error::About`];
    /// [`Error::SidesReversed`] for a high side below the low side; [`Error::Implausible`] for conditions outside what the model was
    /// made for.
    pub fn new(
        conditions: Conditions,
        low: Option<Range<GaugePressure>>,
        high: Option<Range<GaugePressure>>,
    ) -> Result<Self, Error> {
        conditions.check()?;
        let sides = [(Measurand::LowSide, low), (Measurand::HighSide, high)];
        for (measurand, range) in sides {
            if let Some(range) = range {
                plausible(measurand, &range, conditions.air)
                    .map_err(|error| error.about_input(measurand.id(), measurand.name()))?;
            }
        }
        match (low, high) {
            (None, None) => Err(Error::Missing { what: "a pressure of the row", way_out: LIKE }),
            (Some(low), Some(high)) if high.at(0.5) < low.at(0.5) => {
                Err(Error::sides_reversed(low.at(0.5), high.at(0.5)))
            }
            _ => Ok(Self { conditions, low, high }),
        }
    }

    /// Baseline from an earlier `reading` of the same circuit when it was healthy; its ranges are those of the instruments, 95 %.
    ///
    /// # Errors
    /// [`Error::Missing`] for a reading of the equalised circuit, without ambient temperature or without a gauge pressure; as
    /// [`Baseline::new`].
    pub fn of(reading: &Reading) -> Result<Self, Error> {
        let conditions = reading.conditions().ok_or(Error::Missing {
            what: "a running reading with its ambient temperature",
            way_out: "what a healthy circuit shows depends on the day; give an earlier reading with both",
        })?;
        let range = |gauge: Measured<GaugePressure>| {
            Range::new(gauge.value() - gauge.expanded(), gauge.value() + gauge.expanded())
        };
        Self::new(conditions, reading.low().map(range), reading.high().map(range))
    }

    /// Baseline with the settings of vehicle and controls under which it holds.
    ///
    /// # Errors
    /// As [`Baseline::new`].
    pub fn with_settings(self, settings: Settings) -> Result<Self, Error> {
        Self::new(Conditions { settings, ..self.conditions }, self.low, self.high)
    }

    /// Baseline with the absolute pressure of the air in which it was read.
    ///
    /// # Errors
    /// As [`Baseline::new`].
    pub fn with_air(self, air: Pressure) -> Result<Self, Error> {
        Self::new(Conditions { air, ..self.conditions }, self.low, self.high)
    }

    /// Conditions under which the pressures hold.
    pub fn conditions(&self) -> &Conditions {
        &self.conditions
    }

    /// Range of the low-side gauge pressure; `None` if it is not known.
    pub fn low(&self) -> Option<Range<GaugePressure>> {
        self.low
    }

    /// Range of the high-side gauge pressure; `None` if it is not known.
    pub fn high(&self) -> Option<Range<GaugePressure>> {
        self.high
    }

    /// Bits of every number, for hashing; two baselines are the same if their bits are.
    pub(crate) fn bits(&self) -> [u64; 11] {
        let mut bits = [u64::MAX; 11];
        bits[..7].copy_from_slice(&self.conditions.bits());
        let limits = [self.low, self.high].map(|side| side.map(|range| [range.low, range.high]));
        for (at, limits) in [7, 9].into_iter().zip(limits) {
            if let Some(limits) = limits {
                bits[at..at + 2].copy_from_slice(&limits.map(|limit| limit.pa().to_bits()));
            }
        }
        bits
    }
}

/// # Errors
/// [`Error::Impossible`], [`Error::Implausible`], [`Error::BelowVacuum`].
fn plausible(measurand: Measurand, range: &Range<GaugePressure>, air: Pressure) -> Result<(), Error> {
    let (low, high) = measurand.row().plausible;
    for limit in [range.low.kpa(), range.high.kpa()] {
        if !(low..=high).contains(&limit) {
            return Err(Error::Implausible { what: measurand.name(), value: limit, low, high, unit: "kPa" });
        }
    }
    let width = (range.high - range.low).kpa();
    if width < 0.0 {
        let must = "zero or more: the lower limit stands first";
        return Err(Error::Impossible { what: "width of the range (kPa)", value: width, must });
    }
    let lowest = range.low.absolute(air);
    if lowest.si() <= 0.0 {
        return Err(Error::BelowVacuum { value: lowest.kpa(), air_kpa: air.kpa() });
    }
    Ok(())
}

impl FromStr for Baseline {
    type Err = Error;

    /// Reads a row such as "30 °C, 50 %: 190 to 240 kPa, 1300 to 1600 kPa": ambient, humidity where known, low side, high side.
    ///
    /// # Errors
    /// [`Error::Missing`] for a part that is not there; [`Error::Twice`] for a side or a condition too many; those of reading a
    /// quantity and of [`Baseline::new`]. All inside [`Error::About`] with the row.
    fn from_str(text: &str) -> Result<Self, Error> {
        let row = text.trim();
        read_row(row).map_err(|error| error.about(format!("row {row:?}")))
    }
}

fn read_row(row: &str) -> Result<Baseline, Error> {
    let figures: Vec<char> = row.chars().collect();
    let inside_number = |three: &[char]| three[0].is_ascii_digit() && three[1] == ',' && three[2].is_ascii_digit();
    if figures.windows(3).any(inside_number) {
        return Err(Error::DecimalComma { what: "row", text: row.to_owned() });
    }
    let (day, sides) = row
        .split_once(':')
        .ok_or(Error::Missing { what: "the colon between conditions and pressures", way_out: LIKE })?;
    let mut day = day.split(',');
    let ambient: Temperature =
        day.next().unwrap_or("").parse().map_err(|error: Error| error.about_input("ambient", "ambient"))?;
    let humidity: Option<Ratio> =
        day.next().map(str::parse).transpose().map_err(|error: Error| error.about_input("humidity", "humidity"))?;
    if day.next().is_some() {
        return Err(Error::Twice { what: "humidity" });
    }
    let (mut low, mut high) = (None, None);
    let parts: Vec<&str> = sides.split(',').map(str::trim).collect();
    for (place, part) in parts.iter().enumerate() {
        let (side, range) = match (part.strip_prefix("low "), part.strip_prefix("high ")) {
            (Some(range), _) => (Measurand::LowSide, range),
            (_, Some(range)) => (Measurand::HighSide, range),
            // one range alone may be either side
            _ if parts.len() == 1 => {
                let way_out =
                    "one range alone may be either side; write \"low 190 to 240 kPa\" or \"high 1300 to 1600 kPa\"";
                return Err(Error::Missing { what: "the second pressure, or the name of the side,", way_out });
            }
            _ => (if place == 0 { Measurand::LowSide } else { Measurand::HighSide }, *part),
        };
        let read = pressures(range).map_err(|error| error.about_input(side.id(), side.name()))?;
        let place = if side == Measurand::LowSide { &mut low } else { &mut high };
        if place.replace(read).is_some() {
            return Err(Error::Twice { what: side.name() });
        }
    }
    let conditions = Conditions { ambient, humidity, air: Pressure::STANDARD_ATMOSPHERE, settings: Settings::TEST };
    Baseline::new(conditions, low, high)
}

/// The range that `text` states, as in "190 to 240 kPa", "2.1 bar to 34 psi" or "215 kPa".
fn pressures(text: &str) -> Result<Range<GaugePressure>, Error> {
    let (first, last) = text.split_once(" to ").or_else(|| text.split_once('–')).unwrap_or((text, text));
    let last: Entered<GaugePressure> = last.parse()?;
    let first = match first.parse::<Entered<GaugePressure>>() {
        Err(Error::UnitMissing { .. }) => Entered::from_number(first, last.unit())?,
        read => read?,
    };
    Ok(Range::new(first.quantity(), last.quantity()))
}

impl std::fmt::Display for Baseline {
    /// The row as text, in °C and kPa; settings and air are left out.
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "{:.1} °C", self.conditions.ambient.celsius())?;
        if let Some(humidity) = self.conditions.humidity {
            write!(f, ", {:.0} %", humidity.percent())?;
        }
        let sides = [("low", self.low), ("high", self.high)];
        for (mark, (name, range)) in
            [": ", ", "].iter().zip(sides.iter().filter_map(|(name, range)| Some((name, (*range)?))))
        {
            write!(f, "{mark}{name} {:.0} to {:.0} kPa", range.low.kpa(), range.high.kpa())?;
        }
        Ok(())
    }
}

/// A baseline as JSON has it, before it is checked.
#[cfg(feature = "serde")]
#[derive(serde::Serialize, serde::Deserialize)]
#[serde(deny_unknown_fields)]
struct PlainBaseline {
    conditions: Conditions,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    low: Option<Range<GaugePressure>>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    high: Option<Range<GaugePressure>>,
}

#[cfg(feature = "serde")]
impl From<Baseline> for PlainBaseline {
    fn from(checked: Baseline) -> Self {
        let Baseline { conditions, low, high } = checked;
        Self { conditions, low, high }
    }
}

#[cfg(feature = "serde")]
impl TryFrom<PlainBaseline> for Baseline {
    type Error = Error;

    fn try_from(plain: PlainBaseline) -> Result<Self, Error> {
        Self::new(plain.conditions, plain.low, plain.high)
    }
}
