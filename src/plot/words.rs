//! What a picture writes: its texts, worded by a language, and quantities.

use std::ops::Deref;

use super::axis::plain;
use crate::expected::Side;
use crate::inspection::{DisplayUnits, Measurand, Undetermined};
use crate::quantity::Unit;
use crate::service::acceptance::{AcceptanceLimit, AcceptanceOutcome};
use crate::service::standing_vacuum::VacuumFinding;
use crate::{GaugePressure, Measured, Pressure, Quantity, Ratio, Source, Temperature, TemperatureDifference};

/// A text of a picture with its arguments. Quantities are written out; numbers are written by the language.
#[derive(Debug, Clone, Copy)]
pub enum PictureText<'a> {
    /// A name, the title of an axis or a number with its word.
    Name(PictureName<'a>),
    /// A text of the picture of a reading on the saturation line.
    Saturation(SaturationText<'a>),
    /// A text of the picture of windows.
    Windows(WindowsText<'a>),
    /// A text of the picture of causes.
    Causes(CausesText<'a>),
    /// A text of the picture of a standing vacuum test.
    Vacuum(VacuumText<'a>),
    /// A text of the picture of the cycle.
    Cycle(CycleText<'a>),
    /// A text of the card.
    Card(CardText<'a>),
}

/// A name, the title of an axis or a number with its word.
#[derive(Debug, Clone, Copy)]
pub enum PictureName<'a> {
    /// Title of an axis: gauge pressure in a unit.
    GaugePressureAxis(&'a str),
    /// Title of an axis: absolute pressure in a unit.
    AbsolutePressureAxis(&'a str),
    /// Title of an axis: temperature in a unit.
    TemperatureAxis(&'a str),
    /// Title of an axis: ambient temperature in a unit.
    AmbientAxis(&'a str),
    /// Title of an axis: minutes since the first reading.
    TimeAxis,
    /// Title of an axis: enthalpy in kJ/kg.
    EnthalpyAxis,
    /// Name of a side.
    Side(Side),
    /// Name of the line whose temperature belongs to a side.
    Line(Side),
    /// Superheat of the low side, subcooling of the high one.
    Difference(Side),
    /// Name of the ambient temperature.
    Ambient,
    /// Name of the saturation line of a pure fluid.
    Saturated,
    /// Name of the bubble line.
    BubbleLine,
    /// Name of the dew line.
    DewLine,
    /// Name of the critical point.
    CriticalPoint,
    /// Name of the region of the liquid.
    Liquid,
    /// Name of the region of the vapour.
    Vapour,
    /// Name of the reading.
    Read,
    /// Name of the window of this car.
    OwnWindow,
    /// Name of the window of healthy circuits.
    HealthyCars,
    /// Remark beside a chart without a source.
    NoSource,
    /// Remark beside a chart carried over from another refrigerant.
    CarriedOver,
    /// Remark beside a chart of another humidity.
    OtherHumidity,
    /// Name of a measurand; whether of a second reading.
    Measurand(Measurand, bool),
    /// Names of causes that cannot be told apart, joined.
    Or,
    /// A probability.
    Probability(f64),
    /// Both ends of a span of which the second has the unit.
    Span(&'a str, &'a str),
    /// Head of the column of readings.
    ReadHead,
    /// Head of the column of what such circuits show.
    ShownHead,
    /// Name of a limit.
    Limit(char),
    /// Number of readings.
    Readings(usize),
    /// Name of the suction line.
    SuctionLine,
    /// Name of the discharge line.
    DischargeLine,
    /// Name of the outlet of an isentropic compressor.
    IsentropicOutlet,
    /// Name of the outlet of the gas cooler.
    GasCoolerOutlet,
    /// Name of the liquid line.
    LiquidLine,
    /// Name of the place after the expansion.
    EvaporatorInlet,
    /// Share of vapour of a state.
    VapourShare(Ratio),
}

/// A text of the picture of a reading on the saturation line.
#[derive(Debug, Clone, Copy)]
pub enum SaturationText<'a> {
    /// Title of the reading on the saturation line of a refrigerant.
    SaturationTitle(&'a str),
    /// Ambient temperature, and the side at whose pressure it is drawn.
    AmbientDrawnAt(&'a str, Side),
    /// What the picture of the saturation line shows, of a refrigerant in air of a pressure.
    SaturationShown(&'a str, &'a str),
    /// A gauge above the critical pressure.
    NoSaturation(&'a str),
    /// A gauge with its bubble point and dew point.
    BubbleAndDew([&'a str; 3]),
    /// A gauge with its saturation temperature.
    SaturatedAt(&'a str, &'a str),
    /// An equalised circuit, with its ambient temperature.
    AtRest(&'a str),
    /// Meaning of the bubble line.
    BubbleKey,
    /// Meaning of the dew line.
    DewKey,
    /// Foot of the picture of the saturation line, in air of a pressure.
    SaturationFoot(&'a str),
    /// Source of a saturation line.
    SaturationSource(&'a Source),
}

/// A text of the picture of windows.
#[derive(Debug, Clone, Copy)]
pub enum WindowsText<'a> {
    /// Title of the windows of a refrigerant's side; whether they are this car's own.
    WindowsTitle(&'a str, Side, bool),
    /// What was read, at which ambient temperature.
    ReadAt(&'a str, &'a str),
    /// Band of nine tenths: of so many circuits, or by so many rows of this car.
    NineTenths {
        /// Number of circuits.
        cars: usize,
        /// Number of rows of this car; zero for the windows of all.
        rows: usize,
    },
    /// Band of one half; whether it is of this car alone.
    Half(bool),
    /// Heading of the pressures of the day: ambient temperature, unit.
    OnThisDay(&'a str, &'a str),
    /// Foot of the windows.
    WindowsFoot {
        /// Humidity; `None` if it was not measured.
        humidity: Option<Ratio>,
        /// Pressure of the air.
        air: &'a str,
        /// Whether printed charts are drawn.
        charts: bool,
    },
    /// What the windows show on the day.
    WindowsShown {
        /// Side of the gauge.
        side: Side,
        /// Whether the window is this car's own.
        own: bool,
        /// Ambient temperature.
        ambient: &'a str,
        /// Both ends of nine tenths.
        nine: [&'a str; 2],
        /// Middle of the circuits.
        middle: &'a str,
        /// Gauge pressure read.
        read: &'a str,
        /// Share of the circuits below it.
        below: Ratio,
    },
    /// Band of a chart, with its remark.
    Chart {
        /// Id of the chart.
        id: &'a str,
        /// Both ends of the band.
        band: [&'a str; 2],
        /// Remark beside it; empty if there is none.
        remark: &'a str,
    },
    /// No chart covers the day.
    NoChart,
}

/// A text of the picture of causes.
#[derive(Debug, Clone, Copy)]
pub enum CausesText<'a> {
    /// Title of the causes.
    RankingTitle,
    /// The reading is outside the model.
    OutsideModel,
    /// A quantity that was read, and what such circuits show.
    ReadAndShown([&'a str; 3]),
    /// Meaning of the marker of the reading.
    WhatWasRead,
    /// Meaning of the band of a cause.
    NineTenthsOfSuch,
    /// Foot of the causes.
    RankingFoot {
        /// Number of simulated circuits.
        circuits: usize,
        /// Number of causes that are not shown.
        rest: usize,
        /// Their probability.
        left: f64,
    },
}

/// A text of the picture of a standing vacuum test.
#[derive(Debug, Clone, Copy)]
pub enum VacuumText<'a> {
    /// Title of a standing vacuum test.
    HoldTitle,
    /// Conclusion of the fit.
    Fitted(VacuumFinding),
    /// Meaning of the lines beside the fitted curve.
    CurveInterval,
    /// What a standing vacuum test shows.
    HoldShown {
        /// Length, min.
        minutes: f64,
        /// Number of readings.
        readings: usize,
        /// First and last pressure.
        ends: [&'a str; 2],
    },
    /// A limit with its outcome, and whether it lies inside the picture.
    Judged {
        /// Letter of the limit.
        letter: char,
        /// The limit.
        limit: &'a AcceptanceLimit,
        /// Its outcome.
        outcome: AcceptanceOutcome,
        /// Whether it is drawn.
        drawn: bool,
    },
    /// Foot of a standing vacuum test.
    HoldFoot,
    /// Sources of the limits.
    LimitSources(&'a str),
}

/// A text of the picture of the cycle.
#[derive(Debug, Clone, Copy)]
pub enum CycleText<'a> {
    /// Title of the cycle of a refrigerant.
    CycleTitle(&'a str),
    /// What the diagram shows: refrigerant, both pressures, whether transcritical.
    CycleShown([&'a str; 3], bool),
    /// Reason for a state that is not known.
    Undetermined(Undetermined),
    /// Meaning of the isotherms, in a unit.
    EqualTemperature(&'a str),
    /// Meaning of the isentropes.
    EqualEntropy,
    /// Meaning of the isentropic compression.
    WithoutLoss,
    /// Foot of the diagram.
    CycleFoot,
    /// Source of the properties.
    PropertySource(&'a Source),
    /// Refrigerating effect, kJ/kg.
    Effect(f64),
}

/// A text of the card of saturation pressures.
#[derive(Debug, Clone, Copy)]
pub enum CardText<'a> {
    /// Title of the card of a refrigerant.
    CardTitle(&'a str),
    /// Head of the column of the bubble line, in a unit.
    BubbleHead(&'a str),
    /// Head of the column of the dew line, in a unit.
    DewHead(&'a str),
    /// Pressure of the air, and how the table marks a vacuum.
    CardPlace {
        /// Pressure of the air.
        air: &'a str,
        /// Whether a vacuum stands in brackets, in inHg.
        in_brackets: bool,
        /// Whether a vacuum is a negative number.
        negative: bool,
    },
    /// Which column of a blend superheat and subcooling count from.
    BlendColumns,
    /// Caution that goes with every card.
    CardCaution,
    /// Source of the table, and half of its last digit.
    CardSource(&'a Source, &'a str),
    /// A gauge pressure.
    AtGauge(&'a str),
    /// A vacuum in inHg.
    InVacuum(&'a str),
    /// What the card shows.
    CardShown {
        /// Number of rows.
        rows: usize,
        /// Designation of the refrigerant.
        refrigerant: &'a str,
        /// First and last temperature.
        temperatures: [&'a str; 2],
        /// First and last pressure.
        pressures: [&'a str; 2],
        /// Whether it is a blend.
        blend: bool,
    },
}

/// Each kind of text is a text.
macro_rules! texts {
    ($($kind:ident: $text:ident),* $(,)?) => {
        $(impl<'a> From<$text<'a>> for PictureText<'a> {
            fn from(text: $text<'a>) -> Self {
                Self::$kind(text)
            }
        })*
    };
}

texts!(
    Name: PictureName,
    Saturation: SaturationText,
    Windows: WindowsText,
    Causes: CausesText,
    Vacuum: VacuumText,
    Cycle: CycleText,
    Card: CardText,
);

/// The language of a picture.
pub trait PictureWords {
    /// Decimal sign.
    fn point(&self) -> char;
    /// A text in words.
    fn text(&self, text: PictureText) -> String;
}

/// Units and language of a picture.
#[derive(Clone, Copy)]
pub(super) struct Writing<'a> {
    units: &'a DisplayUnits,
    words: &'a dyn PictureWords,
}

impl Deref for Writing<'_> {
    type Target = DisplayUnits;

    fn deref(&self) -> &DisplayUnits {
        self.units
    }
}

/// `value` with `decimals` digits, a true minus sign and the decimal sign of a language.
pub(super) fn number(value: f64, decimals: usize, point: char) -> String {
    plain(value, decimals).replace('.', point.encode_utf8(&mut [0; 4]))
}

/// `words` as a sentence.
pub(super) fn sentence(words: &str) -> String {
    let mut letters = words.chars();
    let first: String = letters.next().map_or(String::new(), |first| first.to_uppercase().collect());
    format!("{first}{}.", letters.as_str())
}

impl DisplayUnits {
    /// Digits after the point of a pressure.
    pub(super) fn decimals(&self) -> usize {
        usize::from(self.low.gauge_decimals())
    }

    /// Pressure as a number on an axis.
    pub(super) fn p(&self, p: GaugePressure) -> f64 {
        p.value_in(self.low)
    }

    /// Absolute pressure as a number on an axis.
    pub(super) fn absolute_number(&self, p: Pressure) -> f64 {
        p.value_in(self.low)
    }

    /// Temperature as a number on an axis.
    pub(super) fn t(&self, t: Temperature) -> f64 {
        t.value_in(self.temperature)
    }
}

impl<'a> Writing<'a> {
    pub(super) fn new(units: &'a DisplayUnits, words: &'a dyn PictureWords) -> Self {
        Self { units, words }
    }

    /// A text in words.
    pub(super) fn say<'t>(&self, text: impl Into<PictureText<'t>>) -> String {
        self.words.text(text.into())
    }

    pub(super) fn point(&self) -> char {
        self.words.point()
    }

    pub(super) fn number(&self, value: f64, decimals: usize) -> String {
        number(value, decimals, self.point())
    }

    /// `value` in `unit` with a true minus sign.
    fn written<Q: Quantity>(&self, value: Q, unit: Q::Unit, decimals: usize) -> String {
        format!("{} {}", self.number(value.value_in(unit), decimals), unit.symbol())
    }

    /// `value` with its 95 % interval, unless that rounds to zero.
    fn interval<Q: Quantity>(&self, value: &Measured<Q>, unit: Q::Unit, half: f64, decimals: usize) -> String {
        let number = self.number(value.value().value_in(unit), decimals);
        if half < 0.5 * 0.1f64.powi(decimals as i32) {
            return format!("{number} {}", unit.symbol());
        }
        format!("{number} ± {} {}", self.number(half, decimals), unit.symbol())
    }

    /// The pressure of the air: kPa with one decimal.
    pub(super) fn air(&self, p: Pressure) -> String {
        self.written(p, crate::quantity::PressureUnit::Kilopascal, 1)
    }

    pub(super) fn gauge(&self, p: GaugePressure) -> String {
        self.written(p, self.low, self.decimals())
    }

    pub(super) fn absolute(&self, p: Pressure) -> String {
        self.written(p, self.low, self.decimals())
    }

    pub(super) fn gauge_interval(&self, p: &Measured<GaugePressure>) -> String {
        self.interval(p, self.low, p.expanded().value_in(self.low), self.decimals())
    }

    pub(super) fn temperature(&self, t: Temperature) -> String {
        self.written(t, self.units.temperature, 1)
    }

    pub(super) fn temperature_interval(&self, t: &Measured<Temperature>) -> String {
        let unit = self.units.temperature;
        self.interval(t, unit, t.expanded().value_in(unit.step()), 1)
    }

    pub(super) fn step_interval(&self, step: &Measured<TemperatureDifference>) -> String {
        let unit = self.units.temperature.step();
        self.interval(step, unit, step.expanded().value_in(unit), 1)
    }

    pub(super) fn step(&self, step: TemperatureDifference) -> String {
        self.written(step, self.units.temperature.step(), 1)
    }
}
