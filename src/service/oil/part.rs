//! Oil that belongs to a part: what is added when a condenser, an evaporator, a drier or a line is replaced.
//!
//! Makers differ by a factor of three and more for the same part, because their parts differ. [`published_range`] gives the range
//! with every work behind it; only the maker's own figure is an amount to pour.

use crate::service::{references, validate};
use crate::{Error, Range, Source, Volume};

/// A part whose oil goes with it, or a way in which oil was lost.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(rename_all = "kebab-case"))]
#[non_exhaustive]
pub enum ReplacedPart {
    /// Condenser, with or without a built-in drier.
    Condenser,
    /// Evaporator.
    Evaporator,
    /// Receiver-drier.
    ReceiverDrier,
    /// Accumulator of an orifice-tube circuit.
    Accumulator,
    /// Hose, pipe or line; each one.
    Line,
    /// Refrigerant lost suddenly, as from a burst hose, with the oil it carried.
    SuddenLoss,
    /// Slow leak that was repaired.
    SlowLeak,
}

/// What a work prints for one part.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) enum PartAmount {
    /// This much.
    Fixed(Range<Volume>),
    /// As much as came out of the old part, and this on top.
    DrainedPlus(Volume),
}

/// One printed amount.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct PublishedAmount {
    /// The part.
    pub(crate) part: ReplacedPart,
    /// How much.
    pub(crate) amount: PartAmount,
    /// As printed, where that says more than the amount: another unit, a condition.
    pub(crate) printed: &'static str,
    /// The source.
    pub(crate) source: Source,
}

const fn cm3(value: f64) -> PartAmount {
    PartAmount::Fixed(Range::new(Volume::from_cm3(value), Volume::from_cm3(value)))
}

const fn span(low: f64, high: f64) -> PartAmount {
    PartAmount::Fixed(Range::new(Volume::from_cm3(low), Volume::from_cm3(high)))
}

/// Ounces of old manuals that do not say which, read as US fluid ounces.
const fn oz(value: f64) -> PartAmount {
    PartAmount::Fixed(Range::new(Volume::from_us_fluid_ounces(value), Volume::from_us_fluid_ounces(value)))
}

const fn drained_plus_oz(value: f64) -> PartAmount {
    PartAmount::DrainedPlus(Volume::from_us_fluid_ounces(value))
}

const fn of(part: ReplacedPart, amount: PartAmount, printed: &'static str, source: Source) -> PublishedAmount {
    PublishedAmount { part, amount, printed, source }
}

use ReplacedPart::{Accumulator, Condenser, Evaporator, Line, ReceiverDrier, SlowLeak, SuddenLoss};

/// Every printed amount that was found, part by part.
pub(crate) const PUBLISHED: &[PublishedAmount] = &[
    of(Condenser, oz(1.0), "1 oz, kind of ounce not stated", references::LINCOLN_1995),
    of(Condenser, oz(1.0), "1 oz, kind of ounce not stated", references::CADILLAC_1993),
    of(Condenser, oz(1.0), "1 oz, kind of ounce not stated", references::GMC_1994),
    of(Condenser, cm3(30.0), "", references::CORVETTE_1997),
    of(Condenser, cm3(30.0), "", references::GRAND_AM_1995),
    of(Condenser, cm3(30.0), "", references::ASPIRE_1997),
    of(Condenser, cm3(20.0), "with liquid tank", references::MITSUBISHI_2022),
    of(Condenser, cm3(30.0), "", references::GRAND_VITARA_2012),
    of(Condenser, cm3(40.0), "", references::SUPRA_1995),
    of(Condenser, cm3(35.0), "", references::MDX_2001),
    of(Condenser, oz(2.5), "Nissan Altima and Maxima: 2.5 oz, kind of ounce not stated", references::SERVICING_1993),
    of(
        Condenser,
        span(30.0, 50.0),
        "other Nissan models: 1.0 to 1.7 oz, kind of ounce not stated",
        references::SERVICING_1993,
    ),
    of(Condenser, drained_plus_oz(1.0 / 3.0), "Audi: as drained and 1/3 oz", references::SERVICING_1993),
    of(Condenser, cm3(80.0), "with liquid tank", references::ROGUE_T32),
    of(Condenser, cm3(50.0), "50 g, taken as 1 g to the cm³", references::KIA_2004),
    of(Condenser, cm3(40.0), "about; two of 20 cm³", references::BOXSTER_2001),
    of(Condenser, cm3(40.0), "", references::FREELANDER_2002),
    of(Condenser, cm3(30.0), "", references::SEBRING_2004),
    of(Evaporator, oz(3.0), "3 oz, kind of ounce not stated", references::LINCOLN_1995),
    of(Evaporator, oz(3.0), "3 oz, kind of ounce not stated", references::CADILLAC_1993),
    of(Evaporator, oz(1.0), "with compressor V-5: 1 oz, kind of ounce not stated", references::GMC_1994),
    of(Evaporator, oz(3.0), "with other compressors: 3 oz, kind of ounce not stated", references::GMC_1994),
    of(Evaporator, cm3(90.0), "", references::CORVETTE_1997),
    of(Evaporator, cm3(90.0), "", references::GRAND_AM_1995),
    of(Evaporator, cm3(90.0), "", references::ASPIRE_1997),
    of(Evaporator, cm3(35.0), "", references::MITSUBISHI_2022),
    of(Evaporator, cm3(50.0), "", references::GRAND_VITARA_2012),
    of(Evaporator, cm3(40.0), "", references::SUPRA_1995),
    of(Evaporator, cm3(40.0), "", references::MDX_2001),
    of(Evaporator, oz(2.5), "Nissan Altima and Maxima: 2.5 oz, kind of ounce not stated", references::SERVICING_1993),
    of(
        Evaporator,
        span(44.0, 74.0),
        "other Nissan models: 1.5 to 2.5 oz, kind of ounce not stated",
        references::SERVICING_1993,
    ),
    of(Evaporator, drained_plus_oz(2.0 / 3.0), "Audi: as drained and 2/3 oz", references::SERVICING_1993),
    of(Evaporator, cm3(75.0), "", references::ROGUE_T32),
    of(Evaporator, cm3(60.0), "60 g, taken as 1 g to the cm³", references::KIA_2004),
    of(Evaporator, cm3(30.0), "about", references::BOXSTER_2001),
    of(Evaporator, cm3(30.0), "", references::FREELANDER_2002),
    of(Evaporator, cm3(60.0), "", references::SEBRING_2004),
    of(ReceiverDrier, oz(1.0), "1 oz, kind of ounce not stated", references::GMC_1994),
    of(ReceiverDrier, cm3(105.0), "receiver or accumulator", references::GRAND_AM_1995),
    of(ReceiverDrier, cm3(10.0), "", references::GRAND_VITARA_2012),
    of(ReceiverDrier, cm3(10.0), "", references::SUPRA_1995),
    of(ReceiverDrier, cm3(10.0), "", references::MDX_2001),
    of(ReceiverDrier, cm3(6.0), "Nissan Altima and Maxima: 0.2 oz", references::SERVICING_1993),
    of(ReceiverDrier, span(15.0, 24.0), "other Nissan models: 0.5 to 0.8 oz", references::SERVICING_1993),
    of(ReceiverDrier, cm3(40.0), "40 g, taken as 1 g to the cm³", references::KIA_2004),
    of(ReceiverDrier, cm3(30.0), "about; with its lines", references::BOXSTER_2001),
    of(ReceiverDrier, cm3(15.0), "", references::FREELANDER_2002),
    of(Accumulator, drained_plus_oz(2.0), "as drained and 2 oz", references::LINCOLN_1995),
    of(Accumulator, drained_plus_oz(1.0), "as drained and 1 oz", references::CADILLAC_1993),
    of(Accumulator, drained_plus_oz(2.0), "as drained and 2 oz", references::GMC_1994),
    of(Accumulator, cm3(105.0), "", references::CORVETTE_1997),
    of(Accumulator, cm3(105.0), "receiver or accumulator", references::GRAND_AM_1995),
    of(Accumulator, PartAmount::DrainedPlus(Volume::from_cm3(30.0)), "as drained and 30 mL", references::ASPIRE_1997),
    of(Accumulator, oz(1.0), "Audi: 1 oz", references::SERVICING_1993),
    of(Line, cm3(0.0), "none", references::LINCOLN_1995),
    of(Line, cm3(0.0), "none", references::ASPIRE_1997),
    of(Line, cm3(10.0), "each hose or pipe", references::GRAND_VITARA_2012),
    of(Line, cm3(30.0), "each", references::MDX_2001),
    of(Line, oz(1.0), "1.0 oz, only where leaked oil is seen", references::SERVICING_1993),
    of(Line, cm3(5.0), "each", references::FREELANDER_2002),
    of(SuddenLoss, oz(2.0), "burst hose: 2 oz, and a new accumulator", references::LINCOLN_1995),
    of(SuddenLoss, oz(3.0), "3 oz, kind of ounce not stated", references::CADILLAC_1993),
    of(SuddenLoss, cm3(90.0), "", references::CORVETTE_1997),
    of(SuddenLoss, cm3(90.0), "", references::GRAND_AM_1995),
    of(SuddenLoss, cm3(30.0), "large leak", references::ROGUE_T32),
    of(SlowLeak, cm3(0.0), "slow seep: nothing", references::CORVETTE_1997),
    of(SlowLeak, cm3(0.0), "slow seep: nothing", references::GRAND_AM_1995),
    of(SlowLeak, cm3(0.0), "small leak: none", references::ROGUE_T32),
    of(SlowLeak, cm3(25.0), "leak repair", references::MDX_2001),
    of(SlowLeak, cm3(30.0), "leak repair", references::DAKOTA_2002),
];

/// What is published for one part.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct PublishedRange {
    /// From the least to the most that any work prints; amounts on top of what was drained count only when that is known.
    pub(crate) range: Range<Volume>,
    /// The printed amounts that count, each with what it comes to.
    pub(crate) works: Vec<(&'static PublishedAmount, Range<Volume>)>,
    /// What other works add to the amount drained, where that is not known.
    pub(crate) on_top: Option<Range<Volume>>,
}

/// Range of the oil published for `part`; `drained` is what came out of the old one, if it was measured. `None` if
/// nothing was found.
///
/// ```
/// use approx::assert_abs_diff_eq;
/// use satline::service::oil::part::{ReplacedPart, published_range};
/// let condenser = published_range(ReplacedPart::Condenser, None)?.unwrap();
/// // rounding
/// assert_abs_diff_eq!(condenser.low.cm3(), 20.0, epsilon = 1e-9);
/// assert_abs_diff_eq!(condenser.high.cm3(), 80.0, epsilon = 1e-9);
/// # Ok::<(), satline::Error>(())
/// ```
///
/// # Errors
/// [`Error::Impossible`] and [`Error::NotFinite`] for an amount drained that is below zero or no number.
pub fn published_range(part: ReplacedPart, drained: Option<Volume>) -> Result<Option<Range<Volume>>, Error> {
    if let Some(drained) = drained {
        validate::not_negative("oil drained from a part (cm³)", drained)?;
    }
    Ok(published(part, drained).map(|published| published.range))
}

/// What is published for `part`, with every work behind it.
pub(crate) fn published(part: ReplacedPart, drained: Option<Volume>) -> Option<PublishedRange> {
    let amount = |row: &PublishedAmount| match (row.amount, drained) {
        (PartAmount::Fixed(range), _) => Some(range),
        (PartAmount::DrainedPlus(extra), Some(drained)) => Some(Range::new(drained + extra, drained + extra)),
        (PartAmount::DrainedPlus(_), None) => None,
    };
    let works: Vec<(&PublishedAmount, Range<Volume>)> =
        PUBLISHED.iter().filter(|row| row.part == part).filter_map(|row| Some((row, amount(row)?))).collect();
    let range = works.iter().map(|(_, range)| *range).reduce(|a, b| a.hull(&b))?;
    let on_top =
        PUBLISHED.iter().filter(|row| row.part == part && drained.is_none()).filter_map(|row| match row.amount {
            PartAmount::DrainedPlus(extra) => Some(Range::new(extra, extra)),
            PartAmount::Fixed(_) => None,
        });
    Some(PublishedRange { range, works, on_top: on_top.reduce(|a, b| a.hull(&b)) })
}
