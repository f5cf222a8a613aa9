//! Oil for a compressor: the families of rules that makers print, and what each leaves in the new one.
//!
//! 1. Empty the new compressor and refill it with what the old one gave, with a floor or an allowance ([`CompressorOilRule::Refill`]).
//! 2. Take out of a pre-filled one: contents − (drained + residual + other parts + recovered) ([`CompressorOilRule::Subtract`]).
//! 3. Take out contents − drained, never more than a cap ([`CompressorOilRule::Capped`]).
//!
//! None of them is a default for every car: the maker says which. Without that, [`published_range`] gives what all of them say.

use crate::service::{references, validate};
use crate::{Error, Range, Source, Sourced, Volume};

/// A maker's rule for the oil in a new compressor.
#[derive(Debug, Clone, Copy, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(rename_all = "kebab-case"))]
pub enum CompressorOilRule {
    /// Empty the new compressor; pour in what was drained from the old one.
    Refill {
        /// Floor: below the first amount drained, pour in the second.
        floor: Option<(Volume, Volume)>,
        /// Oil to add on top of what was drained.
        extra: Volume,
        /// Amount drained up to which the extra is added, above it not; `None` if it always is.
        extra_up_to: Option<Volume>,
    },
    /// Take contents − (drained + residual + other parts + recovered) out of the new compressor.
    Subtract {
        /// Oil that stays in the old compressor however long it drains.
        residual: Volume,
        /// Floor: below the first amount drained, count the second.
        little: Option<(Volume, Volume)>,
    },
    /// Take contents − drained out of the new compressor, never more than a cap.
    Capped {
        /// Largest amount to take out.
        cap: Volume,
    },
}

/// State in which the compressor to be fitted is supplied.
#[derive(Debug, Clone, Copy, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(rename_all = "kebab-case"))]
pub enum CompressorSupply {
    /// New, supplied filled with oil.
    Filled {
        /// Amount of oil inside, as its label says.
        contents: Volume,
    },
    /// New, emptied of the oil it came with; some stays on its walls.
    Emptied,
    /// New, never oiled.
    Dry,
    /// Used and drained; some oil stays on its walls, and nobody knows how much.
    Used,
}

/// What was measured, and what else is replaced.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct OilBalance {
    /// The compressor to be fitted.
    pub(crate) supplied: CompressorSupply,
    /// Drained from the old one.
    pub(crate) drained: Volume,
    /// Oil that belongs to other parts replaced with it.
    pub(crate) other_parts: Volume,
    /// Oil that came out with the refrigerant.
    pub(crate) recovered: Volume,
    /// The most the whole circuit holds, where the label says.
    pub(crate) system: Option<Volume>,
}

/// What to do with the compressor to be fitted.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) enum OilAction {
    /// Pour in from this to that; empty it first where it came filled.
    Pour {
        /// How much; both ends alike but for the oil on its walls.
        oil: Range<Volume>,
        /// Whether its own oil is drained first.
        empty_first: bool,
    },
    /// Take this much out.
    TakeOut(Volume),
    /// Fit it as it is.
    AsItIs,
}

/// Where a rule did not go by the bare arithmetic.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) enum RuleDeparture {
    /// Little was drained: the rule counts or pours this instead. Look where the oil went.
    Floor(Volume),
    /// The subtraction gives this; the rule stops at its cap.
    Cap(Volume),
    /// The new one holds less than the rule asks for, by this much; no rule says to add it.
    Short(Volume),
}

/// What a rule says.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct RuleResult {
    /// What to do.
    pub(crate) action: OilAction,
    /// Oil in the compressor when it is fitted, as the rule counts it: a refill leaves out what stayed on the walls.
    pub(crate) left: Range<Volume>,
    /// Where the rule did not go by the bare arithmetic.
    pub(crate) held: Option<RuleDeparture>,
    /// True where the oil of the other parts and the recovered oil are in the compressor already, and must not be added
    /// again at the parts.
    pub(crate) carries_other_parts: bool,
}

/// Oil that cannot be drained from a compressor, as two makers print it.
pub const RESIDUAL: Sourced<Volume> = Sourced { value: Volume::from_cm3(20.0), source: references::FREELANDER_2002 };

/// Amount drained from an old compressor below which oil was lost, not that it needs little: 60 to 70 cm³ in two works.
pub const LITTLE: Sourced<Range<Volume>> =
    Sourced { value: Range::new(Volume::from_cm3(60.0), Volume::from_cm3(70.0)), source: references::SPECTRA5 };

/// Amount of oil that a maker expects to come out with the refrigerant, and to go back as new oil.
pub const RECOVERED: Sourced<Range<Volume>> =
    Sourced { value: Range::new(Volume::from_cm3(15.0), Volume::from_cm3(40.0)), source: references::BOXSTER_2001 };

const NONE: Volume = Volume::from_cm3(0.0);

/// The larger of two volumes.
fn larger(a: Volume, b: Volume) -> Volume {
    if a >= b { a } else { b }
}

impl CompressorOilRule {
    /// Oil in the compressor when it is fitted, as the rule counts it, with `drained` from the old one.
    ///
    /// What is to be taken out of a filled one is its contents less this.
    ///
    /// ```
    /// use approx::assert_abs_diff_eq;
    /// use satline::Volume;
    /// use satline::service::oil::compressor::{CompressorOilRule, CompressorSupply};
    /// let cm3 = Volume::from_cm3;
    /// // contents 120, drained 60, 20 that cannot be drained: 60 + 20 = 80 stay in, 40 are taken out
    /// let rule = CompressorOilRule::Subtract { residual: cm3(20.0), little: None };
    /// let left = rule.oil_left(CompressorSupply::Filled { contents: cm3(120.0) }, cm3(60.0))?;
    /// // rounding
    /// assert_abs_diff_eq!(left.low.cm3(), 80.0, epsilon = 1e-9);
    /// assert!(left.low == left.high);
    /// # Ok::<(), satline::Error>(())
    /// ```
    ///
    /// # Errors
    /// [`Error::Impossible`] and [`Error::NotFinite`] for amounts below zero or no numbers; [`Error::Missing`] if the rule
    /// needs the contents of the new compressor.
    pub fn oil_left(&self, supplied: CompressorSupply, drained: Volume) -> Result<Range<Volume>, Error> {
        let balance = OilBalance { supplied, drained, other_parts: NONE, recovered: NONE, system: None };
        Ok(self.apply(&balance)?.left)
    }

    /// What the rule says for `swap`.
    ///
    /// # Errors
    /// As [`CompressorOilRule::oil_left`]; [`Error::MoreThanHolds`] for more drained and recovered than the circuit holds.
    pub(crate) fn apply(&self, swap: &OilBalance) -> Result<RuleResult, Error> {
        swap.check()?;
        self.check()?;
        let result = match *self {
            Self::Refill { floor, extra, extra_up_to } => refill(swap, floor, extra, extra_up_to),
            Self::Subtract { residual, little } => subtract(swap, residual, little),
            Self::Capped { cap } => capped(swap, cap)?,
        };
        validate::finite("oil in the compressor (cm³)", result.left.high)?;
        Ok(result)
    }

    /// Amount that stands for `drained`: where a subtracting rule takes it for too little, the one the rule prints.
    pub(crate) fn counted(&self, drained: Volume) -> Volume {
        match *self {
            Self::Subtract { little, .. } => printed_for(drained, little).unwrap_or(drained),
            Self::Refill { .. } | Self::Capped { .. } => drained,
        }
    }

    fn check(&self) -> Result<(), Error> {
        let amounts = match *self {
            Self::Refill { floor, extra, extra_up_to } => {
                let (below, pour) = floor.unwrap_or((NONE, NONE));
                [below, pour, extra, extra_up_to.unwrap_or(NONE)]
            }
            Self::Subtract { residual, little } => {
                let (below, count) = little.unwrap_or((NONE, NONE));
                [below, count, residual, NONE]
            }
            Self::Capped { cap } => [cap, NONE, NONE, NONE],
        };
        for amount in amounts {
            validate::not_negative("oil in the maker's rule (cm³)", amount)?;
        }
        Ok(())
    }
}

impl OilBalance {
    /// Whether the amounts can be.
    fn check(&self) -> Result<(), Error> {
        validate::not_negative("oil drained from the old compressor (cm³)", self.drained)?;
        validate::not_negative("oil of other parts (cm³)", self.other_parts)?;
        validate::not_negative("oil recovered with the refrigerant (cm³)", self.recovered)?;
        if let CompressorSupply::Filled { contents } = self.supplied {
            validate::positive("oil in the new compressor (cm³)", contents)?;
        }
        if let Some(system) = self.system {
            validate::positive("oil of the whole circuit (cm³)", system)?;
            let out = self.drained + self.recovered;
            if out > system {
                return Err(Error::MoreThanHolds { out_cm3: out.cm3(), holds_cm3: system.cm3() });
            }
        }
        Ok(())
    }
}

/// Second amount of a floor where less than its first was drained.
fn printed_for(drained: Volume, floor: Option<(Volume, Volume)>) -> Option<Volume> {
    floor.filter(|&(below, _)| drained < below).map(|(_, printed)| printed)
}

fn refill(
    swap: &OilBalance,
    floor: Option<(Volume, Volume)>,
    extra: Volume,
    extra_up_to: Option<Volume>,
) -> RuleResult {
    let drained = swap.drained;
    let floored = printed_for(drained, floor);
    let plus = if extra_up_to.is_none_or(|limit| drained <= limit) { extra } else { NONE };
    let oil = floored.unwrap_or(drained + plus);
    let pour = match swap.supplied {
        // a dry one lacks what stays on the walls of an emptied one
        CompressorSupply::Dry => Range::new(oil, oil + RESIDUAL.value),
        CompressorSupply::Filled { .. } | CompressorSupply::Emptied | CompressorSupply::Used => Range::new(oil, oil),
    };
    RuleResult {
        action: OilAction::Pour { oil: pour, empty_first: matches!(swap.supplied, CompressorSupply::Filled { .. }) },
        left: pour,
        held: floored.map(RuleDeparture::Floor),
        carries_other_parts: false,
    }
}

fn subtract(swap: &OilBalance, residual: Volume, little: Option<(Volume, Volume)>) -> RuleResult {
    let counted = printed_for(swap.drained, little);
    let floor = counted.map(RuleDeparture::Floor);
    // D + S + R + a
    let needed = counted.unwrap_or(swap.drained) + residual + swap.other_parts + swap.recovered;
    let (action, left, held) = match swap.supplied {
        CompressorSupply::Filled { contents } => {
            // A = F − (D + S + R + a)
            let out = contents - needed;
            if out < NONE {
                (OilAction::AsItIs, Range::new(contents, contents), Some(RuleDeparture::Short(-out)))
            } else {
                (OilAction::TakeOut(out), Range::new(needed, needed), floor)
            }
        }
        CompressorSupply::Dry => {
            (OilAction::Pour { oil: Range::new(needed, needed), empty_first: false }, Range::new(needed, needed), floor)
        }
        CompressorSupply::Emptied | CompressorSupply::Used => {
            // its walls may hold as much as cannot be drained, or nothing
            let oil = Range::new(larger(NONE, needed - larger(residual, RESIDUAL.value)), needed);
            (OilAction::Pour { oil, empty_first: false }, Range::new(needed, needed), floor)
        }
    };
    RuleResult { action, left, held, carries_other_parts: true }
}

fn capped(swap: &OilBalance, cap: Volume) -> Result<RuleResult, Error> {
    let CompressorSupply::Filled { contents } = swap.supplied else {
        return Err(Error::Missing {
            what: "the oil contents of the new compressor",
            way_out: "this rule takes oil out of a filled one; give its contents, or the maker's rule for an empty one",
        });
    };
    let out = contents - swap.drained;
    let (action, left, held) = if out < NONE {
        (OilAction::AsItIs, contents, Some(RuleDeparture::Short(-out)))
    } else if out > cap {
        (OilAction::TakeOut(cap), contents - cap, Some(RuleDeparture::Cap(out)))
    } else {
        (OilAction::TakeOut(out), swap.drained, None)
    };
    Ok(RuleResult { action, left: Range::new(left, left), held, carries_other_parts: false })
}

/// Oil for the compressor of a circuit that is otherwise known: the circuit's amount less what is still in the other parts.
///
/// ```
/// use approx::assert_abs_diff_eq;
/// use satline::Volume;
/// use satline::service::oil::compressor::by_capacity;
/// let cm3 = Volume::from_cm3;
/// // Chrysler Sebring 2004: 150 − (60 evaporator + 30 condenser) = 60
/// assert_abs_diff_eq!(by_capacity(cm3(150.0), &[cm3(60.0), cm3(30.0)])?.cm3(), 60.0, epsilon = 1e-9); // rounding
/// # Ok::<(), satline::Error>(())
/// ```
///
/// # Errors
/// [`Error::Impossible`] for amounts below zero; [`Error::MoreThanHolds`] where the parts hold more than the circuit.
pub fn by_capacity(system: Volume, kept: &[Volume]) -> Result<Volume, Error> {
    validate::positive("oil of the whole circuit (cm³)", system)?;
    let mut inside = NONE;
    for &oil in kept {
        inside = inside + validate::not_negative("oil of a part (cm³)", oil)?;
    }
    if inside > system {
        return Err(Error::MoreThanHolds { out_cm3: inside.cm3(), holds_cm3: system.cm3() });
    }
    Ok(system - inside)
}

/// A rule as a maker prints it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct PublishedRule {
    /// For which cars, where the source does not say it all.
    pub(crate) scope: &'static str,
    /// The rule.
    pub(crate) rule: CompressorOilRule,
    /// The source.
    pub(crate) source: Source,
}

const fn oz(value: f64) -> Volume {
    Volume::from_us_fluid_ounces(value)
}

const fn cm3(value: f64) -> Volume {
    Volume::from_cm3(value)
}

const fn refill_rule(floor: Option<(Volume, Volume)>, extra: Volume, extra_up_to: Option<Volume>) -> CompressorOilRule {
    CompressorOilRule::Refill { floor, extra, extra_up_to }
}

const fn rule(scope: &'static str, rule: CompressorOilRule, source: Source) -> PublishedRule {
    PublishedRule { scope, rule, source }
}

/// Every printed rule that was found. Ounces of old manuals that do not say which are read as US fluid ounces.
pub(crate) const PUBLISHED: &[PublishedRule] = &[
    rule("", refill_rule(Some((oz(3.0), oz(3.0))), oz(1.0), Some(oz(5.0))), references::LINCOLN_1995),
    rule("", refill_rule(None, oz(1.0), None), references::CADILLAC_1993),
    rule("compressor HR-6", refill_rule(None, oz(3.5), None), references::GMC_1994),
    rule("other compressors", refill_rule(None, oz(1.0), None), references::GMC_1994),
    rule("", refill_rule(Some((cm3(60.0), cm3(60.0))), NONE, None), references::CORVETTE_1997),
    rule("", refill_rule(Some((cm3(30.0), cm3(60.0))), NONE, None), references::GRAND_AM_1995),
    rule("", refill_rule(None, NONE, None), references::DAKOTA_2002),
    rule(
        "",
        CompressorOilRule::Subtract { residual: cm3(20.0), little: Some((cm3(60.0), cm3(40.0))) },
        references::MITSUBISHI_2022,
    ),
    rule("", CompressorOilRule::Subtract { residual: NONE, little: None }, references::XL7_2001),
    rule("", CompressorOilRule::Subtract { residual: NONE, little: None }, references::GRAND_VITARA_2012),
    rule("", CompressorOilRule::Subtract { residual: cm3(20.0), little: None }, references::FREELANDER_2002),
    rule("", CompressorOilRule::Capped { cap: cm3(50.0) }, references::MDX_2001),
    rule("", CompressorOilRule::Capped { cap: cm3(60.0) }, references::CAYENNE_2009),
];

/// What all printed rules say of one swap.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct PublishedRules {
    /// Oil in the compressor when it is fitted, from the least to the most.
    pub(crate) left: Range<Volume>,
    /// Rule by rule.
    pub(crate) outcomes: Vec<(&'static PublishedRule, RuleResult)>,
}

/// Every printed rule that can be applied to `swap`, and the range over them.
///
/// Oil of other parts and recovered oil are left out of it, so that all rules speak of the compressor alone.
///
/// # Errors
/// As [`CompressorOilRule::apply`], but a rule that needs what is not known is passed over.
pub(crate) fn published(swap: &OilBalance) -> Result<PublishedRules, Error> {
    swap.check()?;
    let alone = OilBalance { other_parts: NONE, recovered: NONE, ..*swap };
    let mut outcomes = Vec::new();
    for row in PUBLISHED {
        match row.rule.apply(&alone) {
            Ok(outcome) => outcomes.push((row, outcome)),
            Err(Error::Missing { .. }) => {}
            Err(error) => return Err(error),
        }
    }
    let left = outcomes.iter().map(|(_, outcome)| outcome.left).reduce(|a, b| a.hull(&b));
    Ok(PublishedRules { left: left.unwrap_or(Range::new(swap.drained, swap.drained)), outcomes })
}

/// Range over every printed rule of the oil in a compressor when it is fitted, with `drained` from the old one.
///
/// # Errors
/// [`Error::Impossible`] and [`Error::NotFinite`] for amounts below zero or no numbers.
pub fn published_range(supplied: CompressorSupply, drained: Volume) -> Result<Range<Volume>, Error> {
    let balance = OilBalance { supplied, drained, other_parts: NONE, recovered: NONE, system: None };
    Ok(published(&balance)?.left)
}
