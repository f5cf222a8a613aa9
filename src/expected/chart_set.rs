//! The charts that apply to one refrigerant, and the window they give on a day.

use super::chart::{Authority, CHART_AIR, Chart, ChartRow};
use super::charts;
use super::rules_of_thumb;
use crate::circuit::Conditions;
use crate::quantity::Position;
use crate::saturation::Lines;
use crate::{
    Error, GaugePressure, Measured, Pressure, Quantity, Range, Ratio, Refrigerant, Source, Sourced, Temperature,
};

/// A side of the circuit: low or high.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(rename_all = "lowercase"))]
pub enum Side {
    /// Suction side.
    Low,
    /// Discharge and liquid side.
    High,
}

/// Origin of a band: printed for the refrigerant, or carried over from another.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub enum Basis {
    /// Printed for this refrigerant.
    Printed,
    /// Printed for another refrigerant and carried over at equal saturation temperature.
    Derived(Refrigerant),
}

/// The band of one chart under given conditions.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Band<Q> {
    /// Chart that the band is read from.
    pub chart: &'static Chart,
    /// Origin of the band.
    pub basis: Basis,
    /// Range of the band.
    pub range: Range<Q>,
    /// Whether the chart is printed for the humidity of the conditions.
    pub humidity_fits: bool,
}

/// The bands of all charts for one quantity under given conditions.
#[derive(Debug, Clone, PartialEq)]
pub struct Charted<Q> {
    /// Bands chart by chart; charts that do not cover the conditions are absent.
    pub bands: Vec<Band<Q>>,
}

/// Most probable position of a reading relative to a range, and its probability given the instrument uncertainty.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub struct Verdict {
    /// Most probable of the three positions.
    pub position: Position,
    /// Probability of the position given the instrument uncertainty, 1/3 to 1.
    pub probability: f64,
}

impl Verdict {
    /// Verdict on `value` against `range`.
    pub fn of<Q: Quantity>(value: &Measured<Q>, range: &Range<Q>) -> Self {
        let probabilities = value.probabilities(range);
        let places = [Position::Below, Position::Within, Position::Above];
        let mut best = 1;
        for place in [0, 2] {
            if probabilities[place] > probabilities[best] {
                best = place;
            }
        }
        Self { position: places[best], probability: probabilities[best] }
    }
}

impl<Q: Quantity> Charted<Q> {
    /// The band over all charts with a source; `None` if no such chart covers the conditions.
    pub fn range(&self) -> Option<Range<Q>> {
        self.vouched().map(|band| band.range).reduce(|a, b| a.hull(&b))
    }

    /// Bands of the charts that somebody vouches for.
    pub fn vouched(&self) -> impl Iterator<Item = &Band<Q>> {
        self.bands.iter().filter(|band| band.chart.authority != Authority::Habit)
    }

    /// Verdict on `value` against the whole band; `None` if no chart covers the conditions.
    pub fn verdict(&self, value: &Measured<Q>) -> Option<Verdict> {
        Some(Verdict::of(value, &self.range()?))
    }

    /// Number of vouched charts whose band contains the best estimate.
    pub fn agreeing(&self, value: Q) -> usize {
        self.vouched().filter(|band| band.range.contains(value)).count()
    }
}

/// The printed charts that apply to one refrigerant, made once and read for any conditions.
///
/// ```
/// use approx::assert_abs_diff_eq;
/// use satline::circuit::{Conditions, Settings};
/// use satline::expected::{ChartSet, Side};
/// use satline::{Pressure, Refrigerant, Source, Temperature};
/// let book = ChartSet::new(Refrigerant::R134a)?;
/// let day = Conditions {
///     ambient: Temperature::from_fahrenheit(90.0),
///     humidity: None,
///     air: Pressure::STANDARD_ATMOSPHERE,
///     settings: Settings::TEST,
/// };
/// let high = book.pressure(Side::High, &day);
/// let army = high.bands.iter().find(|band| band.chart.id == "loader-tm5").unwrap();
/// // psi by way of pascal: rounding
/// assert_abs_diff_eq!(army.range.low.psi(), 170.0, epsilon = 1e-9);
/// assert_abs_diff_eq!(army.range.high.psi(), 240.0, epsilon = 1e-9);
/// # Ok::<(), satline::Error>(())
/// ```
#[derive(Debug, Clone, PartialEq)]
pub struct ChartSet<R = Refrigerant> {
    refrigerant: R,
    pages: Vec<Page>,
    rules_of_thumb: RulesOfThumb,
}

/// Which rules of thumb are stated for the circuits of a chart set.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct RulesOfThumb {
    /// Superheat and subcooling.
    pub(crate) lines: bool,
    /// Condensing temperature over ambient.
    pub(crate) condensing_over_ambient: bool,
    /// Those for circuits above the critical pressure.
    pub(crate) transcritical: bool,
}

impl RulesOfThumb {
    const NONE: Self = Self { lines: false, condensing_over_ambient: false, transcritical: false };

    const fn of(refrigerant: Refrigerant) -> Self {
        Self {
            lines: rules_of_thumb::applies_to(refrigerant),
            condensing_over_ambient: matches!(refrigerant, Refrigerant::R134a | Refrigerant::R1234yf),
            transcritical: refrigerant.is_transcritical(),
        }
    }
}

/// Evaporating temperatures of any circuit that cools; only for asking about units.
const ANY_EVAPORATING: Sourced<Range<Temperature>> = Sourced {
    value: Range::new(Temperature::from_celsius(-35.0), Temperature::from_celsius(20.0)),
    source: Source::COMMON_PRACTICE,
};

/// Condensing temperatures of any circuit that cools; only for asking about units.
const ANY_CONDENSING: Sourced<Range<Temperature>> = Sourced {
    value: Range::new(Temperature::from_celsius(20.0), Temperature::from_celsius(75.0)),
    source: Source::COMMON_PRACTICE,
};

/// A chart with its rows in absolute pressures of the set's refrigerant.
#[derive(Debug, Clone, PartialEq)]
struct Page {
    chart: &'static Chart,
    basis: Basis,
    rows: Vec<AbsoluteRow>,
}

#[derive(Debug, Clone, PartialEq)]
struct AbsoluteRow {
    air: Range<Temperature>,
    humidity: Option<Range<Ratio>>,
    low: Option<Range<Pressure>>,
    high: Option<Range<Pressure>>,
    vent: Option<Range<Temperature>>,
}

impl ChartSet {
    /// The charts printed for `refrigerant`; for R-1234yf also those for R-134a, carried over at equal saturation
    /// temperature and marked so.
    ///
    /// # Errors
    /// Those of the saturation lines, should a printed pressure lie outside them.
    pub fn new(refrigerant: Refrigerant) -> Result<Self, Error> {
        let mut pages = Vec::new();
        for chart in charts::ALL {
            let basis = if chart.refrigerant == refrigerant {
                Basis::Printed
            } else if refrigerant == Refrigerant::R1234yf && chart.refrigerant == Refrigerant::R134a {
                Basis::Derived(chart.refrigerant)
            } else {
                continue;
            };
            let rows = chart.rows.iter().map(|row| carried(row, chart.refrigerant, refrigerant, basis));
            pages.push(Page { chart, basis, rows: rows.collect::<Result<_, _>>()? });
        }
        Ok(Self { refrigerant, pages, rules_of_thumb: RulesOfThumb::of(refrigerant) })
    }
}

impl<R: Lines + Copy> ChartSet<R> {
    /// A set without charts, for a refrigerant of your own: readings get their saturation temperatures, superheat,
    /// subcooling and the equalised check, and nothing is called usual or unusual.
    ///
    /// ```
    /// use satline::saturation::OwnRefrigerant;
    /// use satline::circuit::{Conditions, Settings};
    /// use satline::expected::{ChartSet, Side};
    /// use satline::{Pressure, Refrigerant, Temperature};
    /// let own = OwnRefrigerant::pure("my own", *Refrigerant::R152a.dew_line());
    /// let book = ChartSet::without_charts(&own);
    /// let day = Conditions {
    ///     ambient: Temperature::from_celsius(30.0),
    ///     humidity: None,
    ///     air: Pressure::STANDARD_ATMOSPHERE,
    ///     settings: Settings::TEST,
    /// };
    /// assert_eq!(book.pressure(Side::High, &day).range(), None);
    /// ```
    pub const fn without_charts(refrigerant: R) -> Self {
        Self { refrigerant, pages: Vec::new(), rules_of_thumb: RulesOfThumb::NONE }
    }

    /// The charts printed for `from`, carried over to `refrigerant` at equal saturation temperature of the dew lines and
    /// marked [`Basis::Derived`]; with them the rules of the trade for `from`.
    ///
    /// It says what the gauges would show if the same car boiled and condensed `refrigerant` at the same temperatures: a
    /// first idea for a refrigerant put in its place, not what anybody has printed. Vent temperatures are not carried over.
    ///
    /// ```
    /// use satline::saturation::OwnRefrigerant;
    /// use satline::circuit::{Conditions, Settings};
    /// use satline::expected::{ChartSet, Side};
    /// use satline::{Pressure, Refrigerant, Temperature};
    /// let own = OwnRefrigerant::pure("my own", *Refrigerant::R1234yf.dew_line());
    /// let book = ChartSet::with_charts_of(Refrigerant::R134a, &own)?;
    /// let day = Conditions {
    ///     ambient: Temperature::from_celsius(30.0),
    ///     humidity: None,
    ///     air: Pressure::STANDARD_ATMOSPHERE,
    ///     settings: Settings::TEST,
    /// };
    /// // R-1234yf condenses at a lower pressure than R-134a
    /// let usual = ChartSet::new(Refrigerant::R134a)?.pressure(Side::High, &day).range().unwrap();
    /// assert!(book.pressure(Side::High, &day).range().unwrap().high < usual.high);
    /// # Ok::<(), satline::Error>(())
    /// ```
    ///
    /// # Errors
    /// [`Error::OutOfRange`] when the lines do not reach to what a chart prints, inside [`Error::About`] with the chart:
    /// a line fitted to a table is not asked beyond it.
    pub fn with_charts_of(from: Refrigerant, refrigerant: R) -> Result<Self, Error> {
        let basis = Basis::Derived(from);
        let mut pages = Vec::new();
        for chart in charts::ALL.iter().filter(|chart| chart.refrigerant == from) {
            let rows = chart.rows.iter().map(|row| carried(row, from, refrigerant, basis));
            let rows = rows.collect::<Result<_, _>>().map_err(|error| {
                error.about(format!("chart {}, carried over from {from} to {}", chart.id, refrigerant.name()))
            })?;
            pages.push(Page { chart, basis, rows });
        }
        Ok(Self { refrigerant, pages, rules_of_thumb: RulesOfThumb::of(from) })
    }

    /// Refrigerant of the set.
    pub fn refrigerant(&self) -> R {
        self.refrigerant
    }

    /// Whether circuits with the refrigerant run above its critical pressure.
    pub(crate) fn is_transcritical(&self) -> bool {
        self.rules_of_thumb.transcritical
    }

    /// Which rules of thumb apply.
    pub(crate) fn rules_of_thumb(&self) -> RulesOfThumb {
        self.rules_of_thumb
    }

    /// Gauge pressures to expect on one side, chart by chart, at the air pressure of the conditions.
    ///
    /// Charts are read as printed at sea level and held at equal absolute pressure. Between printed temperatures the
    /// limits are interpolated linearly; beyond the first and the last nothing is said.
    pub fn pressure(&self, side: Side, day: &Conditions) -> Charted<GaugePressure> {
        let bands = self.window(day, |row| match side {
            Side::Low => row.low,
            Side::High => row.high,
        });
        let to_gauge = |range: Range<Pressure>| Range::new(range.low.gauge(day.air), range.high.gauge(day.air));
        Charted {
            bands: bands
                .map(|band| Band {
                    chart: band.chart,
                    basis: band.basis,
                    range: to_gauge(band.range),
                    humidity_fits: band.humidity_fits,
                })
                .collect(),
        }
    }

    /// Temperatures to expect at the centre vent, chart by chart.
    ///
    /// Tables by blower-inlet air are read at the ambient temperature: right for fresh air, on the warm side once
    /// recirculation has cooled the cabin.
    pub fn vent(&self, day: &Conditions) -> Charted<Temperature> {
        Charted { bands: self.window(day, |row| row.vent).collect() }
    }

    /// Range of air temperature that the charts cover for `side`.
    pub fn covered(&self, side: Side) -> Option<Range<Temperature>> {
        let rows =
            self.pages.iter().filter(|page| page.chart.authority != Authority::Habit).flat_map(|page| &page.rows);
        rows.filter(|row| match side {
            Side::Low => row.low.is_some(),
            Side::High => row.high.is_some(),
        })
        .map(|row| row.air)
        .reduce(|a, b| a.hull(&b))
    }

    /// Range of all that a gauge may show on `side` in a healthy circuit, at sea level; wide, for asking about units.
    ///
    /// The band over all charts and their temperatures; without charts, the saturation pressures between
    /// −35 to 20 °C (evaporating) or 20 to 75 °C (condensing), the latter up to twice the critical pressure where that is lower. Lines
    /// of your own that do not reach so far count to their ends, or above to twice the critical pressure where it is known.
    pub fn anything(&self, side: Side) -> Range<GaugePressure> {
        let (charts, rough) = match side {
            Side::Low => (self.over_charts(|row| row.low), ANY_EVAPORATING.value),
            Side::High => (self.over_charts(|row| row.high), ANY_CONDENSING.value),
        };
        let lines = self.refrigerant;
        let gauge = |t: Temperature| {
            let ends = lines.range();
            let end = if t < ends.low { ends.low } else { ends.high };
            let p = match (lines.dew_pressure(t), lines.critical_pressure()) {
                (Ok(p), _) => p,
                (Err(_), Some(critical)) if t > ends.high => Pressure::from_pa(2.0 * critical.pa()),
                (Err(_), _) => lines.dew_pressure(end).unwrap_or(CHART_AIR),
            };
            p.gauge(CHART_AIR)
        };
        charts.unwrap_or_else(|| Range::new(gauge(rough.low), gauge(rough.high)))
    }

    fn over_charts(&self, pick: impl Fn(&AbsoluteRow) -> Option<Range<Pressure>>) -> Option<Range<GaugePressure>> {
        let vouched = self.pages.iter().filter(|page| page.chart.authority != Authority::Habit);
        let all = vouched.flat_map(|page| &page.rows).filter_map(pick).reduce(|a, b| a.hull(&b))?;
        Some(Range::new(all.low.gauge(CHART_AIR), all.high.gauge(CHART_AIR)))
    }

    /// Charts of the set, each with the origin of its bands.
    pub fn charts(&self) -> impl Iterator<Item = (&'static Chart, Basis)> {
        self.pages.iter().map(|page| (page.chart, page.basis))
    }

    /// Whether any chart that somebody vouches for is printed for this refrigerant itself.
    pub fn has_printed(&self) -> bool {
        self.pages.iter().any(|page| page.basis == Basis::Printed && page.chart.authority != Authority::Habit)
    }

    fn window<'a, Q: Quantity>(
        &'a self,
        day: &'a Conditions,
        pick: impl Fn(&AbsoluteRow) -> Option<Range<Q>> + Copy + 'a,
    ) -> impl Iterator<Item = Band<Q>> + 'a {
        self.pages.iter().filter_map(move |page| {
            let (range, humidity_fits) = band_at(&page.rows, day, pick)?;
            Some(Band { chart: page.chart, basis: page.basis, range, humidity_fits })
        })
    }
}

/// The row with its pressures as absolute pressures of `to`.
fn carried<R: Lines>(row: &ChartRow, from: Refrigerant, to: R, basis: Basis) -> Result<AbsoluteRow, Error> {
    let convert = |gauge: GaugePressure| {
        let p = gauge.absolute(CHART_AIR);
        if basis == Basis::Printed { Ok(p) } else { to.dew_pressure(from.dew_temperature(p)?) }
    };
    let band = |range: Option<Range<GaugePressure>>| range.map(|range| range.try_map(convert)).transpose();
    Ok(AbsoluteRow {
        air: row.air,
        humidity: row.humidity,
        low: band(row.low)?,
        high: band(row.high)?,
        // a vent is a vent: cooled air, not refrigerant; but another refrigerant's car is another car
        vent: if basis == Basis::Printed { row.vent } else { None },
    })
}

/// The band of `rows` at the temperature and humidity of the conditions; whether they are for that humidity.
fn band_at<Q: Quantity>(
    rows: &[AbsoluteRow],
    day: &Conditions,
    pick: impl Fn(&AbsoluteRow) -> Option<Range<Q>>,
) -> Option<(Range<Q>, bool)> {
    let t = day.ambient;
    let mut below: Option<Range<Temperature>> = None;
    let mut above: Option<Range<Temperature>> = None;
    for row in rows.iter().filter(|row| pick(row).is_some()) {
        if row.air.contains(t) {
            return at_humidity(rows, row.air, day.humidity, &pick);
        }
        if row.air.high < t && below.is_none_or(|other| row.air.high > other.high) {
            below = Some(row.air);
        }
        if row.air.low > t && above.is_none_or(|other| row.air.low < other.low) {
            above = Some(row.air);
        }
    }
    let (below, above) = (below?, above?);
    let (from, from_fits) = at_humidity(rows, below, day.humidity, &pick)?;
    let (to, to_fits) = at_humidity(rows, above, day.humidity, &pick)?;
    let share = (t - below.high).kelvins() / (above.low - below.high).kelvins();
    Some((from.between(&to, share), from_fits && to_fits))
}

/// What the rows of one printed temperature say: those of the day's humidity, else all of them together.
fn at_humidity<Q: Quantity>(
    rows: &[AbsoluteRow],
    air: Range<Temperature>,
    humidity: Option<Ratio>,
    pick: impl Fn(&AbsoluteRow) -> Option<Range<Q>>,
) -> Option<(Range<Q>, bool)> {
    let same = || rows.iter().filter(|row| row.air == air);
    let fits = |row: &&AbsoluteRow| match (humidity, row.humidity) {
        (Some(humidity), Some(range)) => range.contains(humidity),
        _ => true,
    };
    let hull = |a: Range<Q>, b: Range<Q>| a.hull(&b);
    match same().filter(fits).filter_map(&pick).reduce(hull) {
        Some(range) => Some((range, true)),
        None => Some((same().filter_map(&pick).reduce(hull)?, false)),
    }
}
