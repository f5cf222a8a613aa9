//! What the steps of a job sheet are, as ids with arguments.

use super::{Amount, LabelStatement, Span, Text};
use crate::service::oil::kind::{OilKind, OilSuitability};
use crate::service::oil::part::ReplacedPart;

/// What vouches for the figure of a step.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(rename_all = "kebab-case"))]
#[non_exhaustive]
pub enum Standing {
    /// Measured for the job.
    Measured,
    /// The maker's figure, as given.
    MakersFigure,
    /// By the maker's rule, as given.
    MakersRule,
    /// What others print.
    PublishedRange,
    /// The maker's goes before what others print.
    PrintedByOthers,
    /// The label.
    Label,
    /// The label's oil, as read.
    LabelAsRead,
    /// The label's volume of oil; the ounces beside it do not agree.
    LabelVolumeAlone,
    /// All that the ounces of oil on the label can mean.
    LabelAnyOunce,
}

/// What is to be done in a step, with its arguments.
#[derive(Debug, Clone, PartialEq)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(
    feature = "serde",
    derive(serde::Serialize, serde::Deserialize),
    serde(tag = "id", rename_all = "kebab-case", deny_unknown_fields)
)]
#[non_exhaustive]
pub enum StepTask {
    /// Noise with good cooling: clutch, bearing and pulley come before a compressor.
    #[cfg_attr(feature = "serde", serde(deserialize_with = "crate::service::no_fields"))]
    ClutchFirst,
    /// Find the leak while there is something in the circuit.
    #[cfg_attr(feature = "serde", serde(deserialize_with = "crate::service::no_fields"))]
    FindLeak,
    /// High voltage off, proven and locked.
    #[cfg_attr(feature = "serde", serde(deserialize_with = "crate::service::no_fields"))]
    MakeSafe,
    /// Run the compressor so that oil returns to it, if it still runs and nothing has leaked.
    OilReturn {
        /// Shortest time.
        at_least: Amount,
    },
    /// Recover the refrigerant and weigh it.
    #[cfg_attr(feature = "serde", serde(deserialize_with = "crate::service::no_fields"))]
    Recover,
    /// Open, and cap.
    #[cfg_attr(feature = "serde", serde(deserialize_with = "crate::service::no_fields"))]
    Open,
    /// Drain the old compressor and measure.
    Drain {
        /// Oil that came out; `None` if it was not measured.
        drained: Option<Amount>,
        /// Whether it is so little that the rest must have gone somewhere.
        little: bool,
    },
    /// Drier, desiccant or accumulator replaced.
    Drier {
        /// Whether it is among the parts replaced.
        listed: bool,
        /// Whether the circuit stood open for long.
        open_long: bool,
    },
    /// New O-rings, and what they are wetted with.
    #[cfg_attr(feature = "serde", serde(deserialize_with = "crate::service::no_fields"))]
    Rings,
    /// Which oil.
    OilKind {
        /// Kind of oil, as printed; `None` if it was not given.
        #[cfg_attr(feature = "schema", schemars(with = "Option<String>"))]
        oil: Option<OilKind>,
        /// Its suitability for the circuit.
        suitability: Option<OilSuitability>,
    },
    /// Oil of the whole circuit by the label, and which ounce the label means.
    LabelOil {
        /// Statements about the ounces on the label; empty for a label without any.
        ounces: Vec<LabelStatement>,
    },
    /// Oil for a part.
    PartOil {
        /// Part that is replaced.
        part: ReplacedPart,
        /// Oil for it, and what vouches for it.
        oil: PartOilRow,
    },
    /// Oil that came out with the refrigerant goes back as new oil.
    RecoveredOil {
        /// Oil that came out; `None` if it was not measured.
        recovered: Option<Amount>,
        /// Whether it is in the compressor already by the maker's rule.
        in_compressor: bool,
    },
    /// Oil for the compressor.
    CompressorOil {
        /// Oil for it, and what vouches for it.
        oil: Box<CompressorOilRow>,
        /// Oil of the whole circuit by the label; `None` if the label does not determine it.
        label: Option<Span>,
    },
    /// A flushed or new circuit gets all of its oil.
    WholeOil {
        /// Oil of the whole circuit by the label.
        label: Option<Span>,
    },
    /// Turn the compressor by hand.
    #[cfg_attr(feature = "serde", serde(deserialize_with = "crate::service::no_fields"))]
    TurnByHand,
    /// Tighten to the maker's figures.
    #[cfg_attr(feature = "serde", serde(deserialize_with = "crate::service::no_fields"))]
    Tighten,
    /// Belt tension by the maker's figures.
    #[cfg_attr(feature = "serde", serde(deserialize_with = "crate::service::no_fields"))]
    Belt,
    /// Pressure test with dry nitrogen, before the pump.
    #[cfg_attr(feature = "serde", serde(deserialize_with = "crate::service::no_fields"))]
    PressureTest,
    /// Evacuate.
    Evacuate {
        /// Pressures and times.
        vacuum: Box<EvacuationRow>,
        /// Whether the circuit stood open for long.
        open_long: bool,
    },
    /// Standing vacuum test: shut off the pump and watch.
    StandingVacuum {
        /// Time to watch for.
        hold: Amount,
        /// Largest rise.
        rise: Amount,
    },
    /// Charge by mass.
    Charge {
        /// Nominal charge.
        nominal: Amount,
        /// Tolerance that the label prints; `None` if it prints none.
        tolerance: Option<Amount>,
        /// Hose holdup, from vapour to liquid, if volume and ambient temperature are known.
        hose: Option<Span>,
    },
    /// Look for leaks with the charge in.
    LeakCheck {
        /// Standard of the detectors for this refrigerant; `None` if none was found.
        standard: Option<Text>,
        /// Scales of these detectors.
        scales: Vec<Amount>,
        /// Leak that EU type approval allows a new car with one evaporator, where it asks for anything.
        allowed: Option<Amount>,
        /// Time in which this charge loses a tenth at a leak of each scale.
        tenth: Vec<TenthRow>,
    },
    /// Take today's reading.
    Read {
        /// What it is compared with.
        windows: WindowNote,
    },
}

/// What today's reading is compared with.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(rename_all = "kebab-case"))]
#[non_exhaustive]
pub enum WindowNote {
    /// Nothing: the conditions are not known.
    NoAmbient,
    /// Nothing: no chart covers the conditions.
    NoneCovers,
    /// The windows, most of them carried over from another refrigerant.
    CarriedOver,
    /// The windows.
    Below,
}

/// Oil for a part, and what vouches for it.
#[derive(Debug, Clone, PartialEq)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(
    feature = "serde",
    derive(serde::Serialize, serde::Deserialize),
    serde(tag = "id", rename_all = "kebab-case", deny_unknown_fields)
)]
#[non_exhaustive]
pub enum PartOilRow {
    /// The maker's figure.
    Makers {
        /// Oil to add.
        oil: Span,
    },
    /// Already in the compressor by the maker's rule: not to be added again.
    InCompressor {
        /// Oil that is counted there.
        oil: Span,
    },
    /// Nobody's figure for this car: the published range.
    Published {
        /// Range over all works.
        oil: Span,
        /// One row for each amount, with all who print it, from the least to the most.
        rows: Vec<AmountRow>,
        /// What other works add to the amount drained, where that is not known.
        on_top: Option<Span>,
    },
    /// Nothing was found.
    #[cfg_attr(feature = "serde", serde(deserialize_with = "crate::service::no_fields"))]
    Unknown,
}

/// All works that print one amount of oil for a part.
#[derive(Debug, Clone, PartialEq)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(deny_unknown_fields))]
pub struct AmountRow {
    /// Amount of oil.
    pub oil: Span,
    /// Works that print it.
    pub works: Vec<WorkRow>,
}

/// A work that prints an amount or a rule.
#[derive(Debug, Clone, PartialEq)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(deny_unknown_fields))]
pub struct WorkRow {
    /// Short name of the work: a source.
    pub work: Text,
    /// Remark of the source, such as a condition or another unit, in its words; empty if there is none.
    pub remark: Text,
}

/// All works whose one rule leaves one amount of oil in the compressor.
#[derive(Debug, Clone, PartialEq)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(deny_unknown_fields))]
pub struct RuleRow {
    /// Rule of these works.
    pub rule: OilRuleRow,
    /// Oil in the compressor when it is fitted.
    pub left: Span,
    /// Works that print the rule.
    pub works: Vec<WorkRow>,
}

/// A rule for the oil in a new compressor.
#[derive(Debug, Clone, PartialEq)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(
    feature = "serde",
    derive(serde::Serialize, serde::Deserialize),
    serde(tag = "id", rename_all = "kebab-case", deny_unknown_fields)
)]
#[non_exhaustive]
pub enum OilRuleRow {
    /// Empty the new compressor; pour in what was drained from the old one.
    Refill {
        /// What is poured in where little was drained.
        floor: Option<OilFloorRow>,
        /// Oil to add on top of what was drained; `None` if there is none.
        extra: Option<Amount>,
        /// Amount drained up to which the extra is added; `None` if it always is.
        extra_up_to: Option<Amount>,
    },
    /// Take contents − (drained + residual + other parts + recovered) out of the new compressor.
    Subtract {
        /// Oil that stays in the old compressor however long it drains; `None` if none is counted.
        residual: Option<Amount>,
        /// What is counted where little was drained.
        floor: Option<OilFloorRow>,
    },
    /// Take contents − drained out of the new compressor, never more than a cap.
    Capped {
        /// Largest amount to take out.
        cap: Amount,
    },
}

/// What a rule takes where little was drained.
#[derive(Debug, Clone, PartialEq)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(deny_unknown_fields))]
pub struct OilFloorRow {
    /// Amount drained below which the rule takes another.
    pub below: Amount,
    /// Amount that the rule takes then.
    pub instead: Amount,
}

/// Oil for the compressor, and what vouches for it.
#[derive(Debug, Clone, PartialEq)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(
    feature = "serde",
    derive(serde::Serialize, serde::Deserialize),
    serde(tag = "id", rename_all = "kebab-case", deny_unknown_fields)
)]
#[non_exhaustive]
#[allow(clippy::large_enum_variant)] // boxed where it is kept
pub enum CompressorOilRow {
    /// By the maker's rule.
    Makers {
        /// The rule applied.
        applied: Box<MakersRuleRow>,
    },
    /// Nobody's rule for this car: what all printed rules leave in it.
    Published {
        /// Oil drained from the old compressor; `None` if it was not measured.
        drained: Option<Amount>,
        /// Oil that the rules leave in the new compressor.
        left: Span,
        /// One row for each rule and amount, with all who print it, from the least to the most.
        rows: Vec<RuleRow>,
        /// State in which the new compressor is supplied; `None` if it is not known.
        supply: Option<SupplyRow>,
        /// What brings a filled compressor to what the rules leave in it; `None` for one that is not filled.
        adjustment: Option<AdjustmentRow>,
    },
    /// What came out of the old one was not measured.
    #[cfg_attr(feature = "serde", serde(deserialize_with = "crate::service::no_fields"))]
    NotMeasured,
}

/// A maker's rule applied to a new compressor.
#[derive(Debug, Clone, PartialEq)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(deny_unknown_fields))]
pub struct MakersRuleRow {
    /// Rule of the maker.
    pub rule: OilRuleRow,
    /// State in which the new compressor is supplied.
    pub supply: SupplyRow,
    /// Oil drained from the old compressor.
    pub drained: Amount,
    /// Amount that the rule counts as drained.
    pub counted: Amount,
    /// Oil that belongs to other parts replaced with it.
    pub other_parts: Amount,
    /// Oil that came out with the refrigerant.
    pub recovered: Amount,
    /// What to do with the new compressor.
    pub action: OilActionRow,
    /// Oil in the compressor when it is fitted.
    pub left: Span,
    /// Where the rule did not go by the bare arithmetic.
    pub departure: Option<DepartureRow>,
}

/// State in which a compressor is supplied.
#[derive(Debug, Clone, PartialEq)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(
    feature = "serde",
    derive(serde::Serialize, serde::Deserialize),
    serde(tag = "id", rename_all = "kebab-case", deny_unknown_fields)
)]
#[non_exhaustive]
pub enum SupplyRow {
    /// New, filled with oil.
    Filled {
        /// Oil inside, as its label says.
        contents: Amount,
    },
    /// New, emptied of the oil it came with.
    #[cfg_attr(feature = "serde", serde(deserialize_with = "crate::service::no_fields"))]
    Emptied,
    /// New, never oiled.
    #[cfg_attr(feature = "serde", serde(deserialize_with = "crate::service::no_fields"))]
    Dry,
    /// Used and drained.
    #[cfg_attr(feature = "serde", serde(deserialize_with = "crate::service::no_fields"))]
    Used,
}

/// What to do with the oil of a new compressor.
#[derive(Debug, Clone, PartialEq)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(
    feature = "serde",
    derive(serde::Serialize, serde::Deserialize),
    serde(tag = "id", rename_all = "kebab-case", deny_unknown_fields)
)]
#[non_exhaustive]
pub enum OilActionRow {
    /// Pour oil in.
    Pour {
        /// Amount to pour.
        oil: Span,
        /// Whether its own oil is drained first.
        empty_first: bool,
    },
    /// Take oil out.
    TakeOut {
        /// Amount to take out.
        oil: Amount,
    },
    /// Fit it as it is.
    #[cfg_attr(feature = "serde", serde(deserialize_with = "crate::service::no_fields"))]
    AsItIs,
}

/// Where a rule did not go by the bare arithmetic.
#[derive(Debug, Clone, PartialEq)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(
    feature = "serde",
    derive(serde::Serialize, serde::Deserialize),
    serde(tag = "id", rename_all = "kebab-case", deny_unknown_fields)
)]
#[non_exhaustive]
pub enum DepartureRow {
    /// Little was drained: the rule counts or pours another amount.
    Floor {
        /// Amount that the rule takes.
        oil: Amount,
    },
    /// The subtraction gives more than the cap.
    Cap {
        /// Amount by the subtraction alone.
        oil: Amount,
    },
    /// The new compressor holds less than the rule asks for.
    Short {
        /// Amount that is missing.
        oil: Amount,
    },
}

/// Which way the oil of a filled compressor goes by the published rules.
#[derive(Debug, Clone, PartialEq)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(
    feature = "serde",
    derive(serde::Serialize, serde::Deserialize),
    serde(tag = "id", rename_all = "kebab-case", deny_unknown_fields)
)]
#[non_exhaustive]
pub enum AdjustmentRow {
    /// Out of it.
    Out {
        /// Amount that comes out.
        oil: Span,
    },
    /// Into it, on top.
    In {
        /// Amount that goes in.
        oil: Span,
    },
    /// Either way.
    Either {
        /// Most that comes out.
        out: Amount,
        /// Most that goes in.
        into: Amount,
    },
}

/// Pressures and times of an evacuation.
#[derive(Debug, Clone, PartialEq)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(deny_unknown_fields))]
pub struct EvacuationRow {
    /// Absolute pressure to reach: the upper end at least, the lower one better.
    pub target: Span,
    /// Absolute pressure of the air.
    pub air: Amount,
    /// What the gauge shows at the target.
    pub gauge: Span,
    /// Time within which the pressure should be reached.
    pub within: Amount,
    /// Shortest time for the pump to run.
    pub run: Amount,
    /// What water does at the target; `None` without the ambient temperature, or outside the saturation lines of water.
    pub water: Option<WaterRow>,
}

/// What water does at the pressures of an evacuation.
#[derive(Debug, Clone, PartialEq)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(deny_unknown_fields))]
pub struct WaterRow {
    /// Boiling point at the upper end of the target.
    pub first: Amount,
    /// Boiling point at the lower end.
    pub better: Amount,
    /// Which of the two dries a circuit as cold as the ambient air.
    pub dries: TargetDries,
}

/// Which pressure of an evacuation dries a circuit as cold as the ambient air.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(rename_all = "kebab-case"))]
#[non_exhaustive]
pub enum TargetDries {
    /// Both.
    Both,
    /// The better one alone.
    BetterAlone,
    /// Neither.
    Neither,
}

/// Time in which a charge loses a tenth.
#[derive(Debug, Clone, PartialEq)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(deny_unknown_fields))]
pub struct TenthRow {
    /// Leak.
    pub leak: Amount,
    /// Time that it takes.
    pub takes: Amount,
}
