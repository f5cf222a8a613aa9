//! One reading compared with printed charts, rules of thumb and healthy circuits.

use crate::expected::{
    CONDENSING_OVER_AMBIENT, ChartSet, Charted, EqualisedCheck, ExpectedWindow, Quantiles, SUBCOOLING, SUPERHEAT, Side,
    Verdict,
};
use crate::inspection::{Measurand, Reading};
use crate::line::{Saturation, absolute, difference};
use crate::saturation::Lines;
use crate::{
    Error, GaugePressure, Measured, Pressure, Quantity, Range, Ratio, Sourced, Temperature, TemperatureDifference,
};

/// One side of a reading: its pressure, its saturation temperatures, and the charts it is compared with.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub struct SideAssessment {
    /// Gauge pressure of the side.
    pub gauge: Measured<GaugePressure>,
    /// Absolute pressure of the side.
    pub absolute: Measured<Pressure>,
    /// Saturation temperatures at the pressure of the side; `None` above the critical pressure.
    pub saturation: Option<Saturation>,
    /// Gauge pressures by the charts; empty if none covers the conditions, or the ambient temperature is not known.
    pub charted: Charted<GaugePressure>,
    /// Verdict on the gauge pressure against the band over all charts; `None` if no chart covers the conditions.
    pub verdict: Option<Verdict>,
}

/// Superheat, subcooling or condensing temperature over ambient, compared with its rule of thumb.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub struct DifferenceAssessment {
    /// Measured temperature difference; negative on the far side of saturation.
    pub value: Measured<TemperatureDifference>,
    /// Usual range by the rule of thumb; `None` if there is no rule of thumb.
    pub usual: Option<Sourced<Range<TemperatureDifference>>>,
    /// Verdict on the value against the usual range; `None` if there is no rule of thumb.
    pub verdict: Option<Verdict>,
}

/// One reading compared with saturation, printed charts and rules of thumb.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub struct Assessment {
    /// Low side; `None` if it was not read.
    pub low: Option<SideAssessment>,
    /// High side; `None` if it was not read.
    pub high: Option<SideAssessment>,
    /// Superheat of the suction line; `None` if it or the low side was not read.
    pub superheat: Option<DifferenceAssessment>,
    /// Subcooling of the liquid line; `None` above the critical pressure, or if it or the high side was not read.
    pub subcooling: Option<DifferenceAssessment>,
    /// Condensing temperature over ambient; `None` above the critical pressure, or if one of the two is not known.
    pub condensing_over_ambient: Option<DifferenceAssessment>,
    /// Vent temperatures to expect by the charts; empty if none covers the conditions.
    pub vent: Charted<Temperature>,
    /// Verdict on the vent temperature; `None` if it was not read, or no chart covers the conditions.
    pub vent_verdict: Option<Verdict>,
    /// Both gauges of an equalised circuit compared with saturation; `None` for a running circuit.
    pub equalised: Option<EqualisedCheck>,
    /// Window of healthy circuits under the conditions of the reading; `None` if it was not computed.
    pub expected: Option<ExpectedWindow>,
}

/// A quantity that is judged against healthy circuits: a measurand, or one derived from two of them.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema), schemars(with = "String"))]
#[cfg_attr(
    feature = "serde",
    derive(serde::Serialize, serde::Deserialize),
    serde(into = "&'static str", try_from = "std::borrow::Cow<'_, str>")
)]
#[non_exhaustive]
pub enum JudgedQuantity {
    /// A measurand as it was read.
    Measured(Measurand),
    /// Superheat of the suction line.
    Superheat,
    /// Subcooling of the liquid line.
    Subcooling,
    /// Condensing temperature over ambient.
    CondensingOverAmbient,
    /// Mean of both gauges of an equalised circuit, weighted by their accuracy.
    EqualisedMean,
}

impl JudgedQuantity {
    const DERIVED: [Self; 4] = [Self::Superheat, Self::Subcooling, Self::CondensingOverAmbient, Self::EqualisedMean];

    /// Id of the quantity, as JSON writes it.
    pub const fn id(self) -> &'static str {
        match self {
            Self::Measured(measurand) => measurand.id(),
            Self::Superheat => "superheat",
            Self::Subcooling => "subcooling",
            Self::CondensingOverAmbient => "condensing-over-ambient",
            Self::EqualisedMean => "equalised-mean",
        }
    }
}

impl From<JudgedQuantity> for &'static str {
    fn from(quantity: JudgedQuantity) -> Self {
        quantity.id()
    }
}

impl TryFrom<std::borrow::Cow<'_, str>> for JudgedQuantity {
    type Error = Error;

    fn try_from(id: std::borrow::Cow<'_, str>) -> Result<Self, Error> {
        let derived = Self::DERIVED.into_iter().find(|quantity| quantity.id() == id);
        derived.map_or_else(|| id.parse().map(Self::Measured), Ok)
    }
}

/// A value of a reading compared with healthy circuits.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub struct Judged {
    /// Quantity that is judged.
    pub quantity: JudgedQuantity,
    /// Value read, with the window and the median of the circuits.
    pub value: JudgedValue,
    /// Verdict on the value against the window of nine tenths of the circuits.
    pub verdict: Verdict,
    /// Fraction of the circuits with a lower value.
    pub fraction_below: Ratio,
}

/// A judged value with its window, 5 to 95 %, and the median of the circuits.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub enum JudgedValue {
    /// Gauge pressure, with its window and median.
    Pressure(Measured<GaugePressure>, Range<GaugePressure>, GaugePressure),
    /// Temperature, with its window and median.
    Temperature(Measured<Temperature>, Range<Temperature>, Temperature),
    /// Temperature difference, with its window and median.
    Difference(Measured<TemperatureDifference>, Range<TemperatureDifference>, TemperatureDifference),
}

impl Judged {
    fn new<Q: Quantity>(
        quantity: JudgedQuantity,
        read: Measured<Q>,
        circuits: &Quantiles<Q>,
        value: impl Fn(Measured<Q>, Range<Q>, Q) -> JudgedValue,
    ) -> Self {
        Self {
            quantity,
            value: value(read, circuits.range(), circuits.middle()),
            verdict: Verdict::of(&read, &circuits.range()),
            fraction_below: circuits.share_below(read.value()),
        }
    }
}

impl Assessment {
    /// Assesses `reading` against the charts in `charts`.
    ///
    /// Running, every quantity is set against its window. Equalised, both gauges are set against saturation at the temperature of
    /// the circuit and nothing else is judged. What rests on a gauge that was not read is left out: superheat needs the low side
    /// and the suction line, subcooling the high side and the liquid line.
    ///
    /// # Errors
    /// [`Error::Mismatch`] for charts of another refrigerant; [`Error::Missing`] for a gauge of an equalised circuit that was not
    /// read; [`Error::BelowVacuum`]; [`Error::OutOfRange`] for a pressure below the saturation lines;
    /// [`Error::AboveCriticalTemperature`] for an equalised circuit in which there is no saturation.
    ///
    /// ```
    /// use satline::Refrigerant;
    /// use satline::circuit::Settings;
    /// use satline::diagnosis::Assessment;
    /// use satline::expected::ChartSet;
    /// use satline::inspection::{Entry, Instruments, Measurand};
    /// let r = Refrigerant::R134a;
    /// // the high-side port is out of reach
    /// let entry = Entry::default()
    ///     .enter(Measurand::LowSide, "32 psi")?
    ///     .enter(Measurand::SuctionLine, "48 °F")?
    ///     .enter(Measurand::LiquidLine, "105 °F")?
    ///     .ambient("86 °F".parse()?);
    /// let reading = entry.reading(r, Settings::TEST, &Instruments::analogue(r))?;
    /// let assessment = Assessment::of(&reading, &ChartSet::new(r)?)?;
    /// assert!(assessment.low.is_some() && assessment.superheat.is_some());
    /// assert!(assessment.high.is_none() && assessment.subcooling.is_none());
    /// # Ok::<(), satline::Error>(())
    /// ```
    pub fn of<R: Lines + Copy + PartialEq>(reading: &Reading<R>, charts: &ChartSet<R>) -> Result<Self, Error> {
        if charts.refrigerant() != reading.refrigerant() {
            return Err(Error::Mismatch {
                what: "refrigerant",
                reading: reading.refrigerant().name().into(),
                reference: charts.refrigerant().name().into(),
            });
        }
        let low = side(reading, Side::Low, Measurand::LowSide, charts)?;
        let high = side(reading, Side::High, Measurand::HighSide, charts)?;
        let running = reading.is_running();
        let saturated = |side: &Option<SideAssessment>| side.as_ref().and_then(|side| side.saturation);
        let (boiling, condensing) = (saturated(&low), saturated(&high));
        let superheat = boiling.zip(reading.temperature(Measurand::SuctionLine)).and_then(|(at, t)| at.superheat(&t));
        let subcooling =
            condensing.zip(reading.temperature(Measurand::LiquidLine)).and_then(|(at, t)| at.subcooling(&t));
        let over_ambient = condensing
            .zip(reading.ambient().filter(|_| running))
            .and_then(|(at, ambient)| difference(&at.dew, &ambient));
        let rules = charts.rules_of_thumb();
        let usual = |rule| rules.lines.then_some(rule);
        let usual_over_ambient = rules.condensing_over_ambient.then_some(CONDENSING_OVER_AMBIENT);
        let vent = reading.conditions().map_or(Charted { bands: Vec::new() }, |day| charts.vent(&day));
        let vent_verdict = reading.temperature(Measurand::Vent).and_then(|t| vent.verdict(&t));
        Ok(Self {
            superheat: superheat.map(|value| DifferenceAssessment::of(value, usual(SUPERHEAT))),
            subcooling: subcooling.map(|value| DifferenceAssessment::of(value, usual(SUBCOOLING))),
            condensing_over_ambient: over_ambient.map(|value| DifferenceAssessment::of(value, usual_over_ambient)),
            equalised: equalised(reading)?,
            low,
            high,
            vent,
            vent_verdict,
            expected: None,
        })
    }

    /// This assessment with the window of healthy circuits added.
    #[must_use]
    pub fn beside(self, expected: ExpectedWindow) -> Self {
        Self { expected: Some(expected), ..self }
    }

    /// Values of `reading` judged against healthy circuits: a line by its superheat or subcooling if its gauge was
    /// read, else by its temperature. The discharge line is judged if a gauge is missing.
    pub fn judged<R>(&self, reading: &Reading<R>) -> Vec<Judged> {
        let Some(window) = &self.expected else { return Vec::new() };
        let mut judged = Vec::new();
        for (measurand, circuits) in [(Measurand::LowSide, &window.low_side), (Measurand::HighSide, &window.high_side)]
        {
            let of = |read| Judged::new(JudgedQuantity::Measured(measurand), read, circuits, JudgedValue::Pressure);
            judged.extend(reading.pressure(measurand).map(of));
        }
        for (quantity, read, circuits) in [
            (JudgedQuantity::Superheat, &self.superheat, Some(&window.superheat)),
            (JudgedQuantity::Subcooling, &self.subcooling, window.subcooling.as_ref()),
            (
                JudgedQuantity::CondensingOverAmbient,
                &self.condensing_over_ambient,
                window.condensing_over_ambient.as_ref(),
            ),
        ] {
            if let (Some(read), Some(circuits)) = (read, circuits) {
                judged.push(Judged::new(quantity, read.value, circuits, JudgedValue::Difference));
            }
        }
        let (low, high) = (reading.low().is_some(), reading.high().is_some());
        // a line is judged through its gauge, and for itself where that was not read
        let for_itself = |measurand: Measurand| match measurand {
            Measurand::SuctionLine => !low,
            Measurand::LiquidLine => !high,
            Measurand::DischargeLine => !(low && high),
            _ => true,
        };
        for measurand in Measurand::running().filter(|measurand| for_itself(*measurand)) {
            if let (Some(read), Some(circuits)) = (reading.temperature(measurand), window.temperature(measurand)) {
                let quantity = JudgedQuantity::Measured(measurand);
                judged.push(Judged::new(quantity, read, circuits, JudgedValue::Temperature));
            }
        }
        judged
    }
}

/// One side of `reading` against its charts; `None` where it was not read.
fn side<R: Lines + Copy>(
    reading: &Reading<R>,
    side: Side,
    measurand: Measurand,
    charts: &ChartSet<R>,
) -> Result<Option<SideAssessment>, Error> {
    let Some(gauge) = reading.pressure(measurand) else { return Ok(None) };
    let about = |error: Error| error.about_input(measurand.id(), measurand.name());
    let absolute = absolute(&gauge, &reading.air()).map_err(about)?;
    let saturation = Saturation::at(reading.refrigerant(), &absolute).map_err(about)?;
    let charted = reading.conditions().map_or(Charted { bands: Vec::new() }, |day| charts.pressure(side, &day));
    let verdict = charted.verdict(&gauge);
    Ok(Some(SideAssessment { gauge, absolute, saturation, charted, verdict }))
}

/// Both gauges against saturation; `None` for a running circuit.
fn equalised<R: Lines + Copy>(reading: &Reading<R>) -> Result<Option<EqualisedCheck>, Error> {
    let (false, Some(temperature)) = (reading.is_running(), reading.ambient()) else { return Ok(None) };
    let gauge = |measurand: Measurand| {
        reading.pressure(measurand).ok_or(Error::Missing {
            what: if measurand == Measurand::LowSide { "low-side gauge" } else { "high-side gauge" },
            way_out: "both gauges of an equalised circuit are compared; one alone is evidence beside a running reading",
        })
    };
    let (low, high) = (gauge(Measurand::LowSide)?, gauge(Measurand::HighSide)?);
    EqualisedCheck::of(reading.refrigerant(), &low, &high, &reading.air(), &temperature).map(Some)
}

impl DifferenceAssessment {
    fn of(value: Measured<TemperatureDifference>, usual: Option<Sourced<Range<TemperatureDifference>>>) -> Self {
        Self { value, usual, verdict: usual.map(|usual| Verdict::of(&value, &usual.value)) }
    }

    /// Whether the sign is certain: the value is further from zero than its 95 % interval.
    pub fn is_clear(&self) -> bool {
        self.value.value().si().abs() > self.value.expanded().si()
    }
}
