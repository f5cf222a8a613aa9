//! Content of a job sheet: its steps, their tasks, cautions, and what it cannot know.

use super::Job;
use crate::quantity::{MassRate, Time};
use crate::service::leak::DetectorScale;
use crate::service::oil::compressor::{self, CompressorOilRule, CompressorSupply, OilBalance, RuleResult};
use crate::service::oil::kind::{OilKind, OilSuitability};
use crate::service::oil::part::{self, ReplacedPart};
use crate::{GaugePressure, Mass, Measured, Pressure, Range, Source, Volume};

/// Oil for a part, and what vouches for it.
#[derive(Debug, Clone, PartialEq)]
pub(crate) enum PartOil {
    /// The maker's figure.
    Makers(Range<Volume>),
    /// Already in the compressor by the maker's rule: do not add it again.
    InCompressor(Range<Volume>),
    /// Nobody's figure for this car: the published range.
    Published(part::PublishedRange),
    /// Nothing was found.
    Unknown,
}

/// Oil for the compressor, and what vouches for it.
#[derive(Debug, Clone, PartialEq)]
pub(crate) enum CompressorOil {
    /// By the maker's rule.
    Makers {
        /// The rule.
        rule: CompressorOilRule,
        /// What it was applied to.
        swap: OilBalance,
        /// What it says.
        outcome: RuleResult,
    },
    /// Nobody's rule for this car: what all printed rules leave in it.
    Published {
        /// The range, rule by rule.
        spread: compressor::PublishedRules,
        /// How the new one comes.
        supplied: Option<CompressorSupply>,
    },
    /// What came out of the old one was not measured.
    NotMeasured,
}

/// The task of a step.
#[derive(Debug, Clone, PartialEq)]
pub(crate) enum JobTask {
    /// Noise with good cooling: clutch, bearing and pulley come before a compressor.
    ClutchFirst,
    /// Find the leak while there is something in the circuit.
    FindLeak,
    /// High voltage off, proven and locked.
    MakeSafe,
    /// Oil return: run the compressor so that oil returns to it, if it still runs and nothing has leaked.
    OilReturn {
        /// For at least.
        at_least: Time,
    },
    /// Recover the refrigerant and weigh it.
    Recover,
    /// Open, and cap.
    Open,
    /// Drain the old compressor and measure.
    Drain {
        /// What came out.
        drained: Option<Measured<Volume>>,
        /// So little that the rest must have gone somewhere.
        little: bool,
    },
    /// Drier, desiccant or accumulator replaced with the compressor.
    Drier {
        /// Whether it is among the parts replaced.
        listed: bool,
        /// Whether the circuit stood open for long.
        open_long: bool,
    },
    /// New O-rings, and what they are wetted with.
    Rings,
    /// Which oil.
    OilKind {
        /// As printed.
        oil: Option<OilKind>,
        /// Its suitability for the circuit.
        suitability: Option<OilSuitability>,
    },
    /// Oil of the whole circuit by the label, and which ounce the label means.
    LabelOil {
        /// As far as the label determines it.
        range: Option<Range<Volume>>,
    },
    /// Oil for a part.
    PartOil {
        /// The part.
        part: ReplacedPart,
        /// How much.
        oil: PartOil,
    },
    /// Oil that came out with the refrigerant goes back as new oil.
    RecoveredOil {
        /// How much came out.
        recovered: Option<Volume>,
        /// Already in the compressor by the maker's rule.
        in_compressor: bool,
    },
    /// Oil for the compressor.
    CompressorOil(Box<CompressorOil>),
    /// A flushed or new circuit gets all of its oil.
    WholeOil {
        /// By the label.
        label: Option<Range<Volume>>,
    },
    /// Turn the compressor by hand.
    TurnByHand,
    /// Tighten to the maker's figures.
    Tighten,
    /// Belt tension by the maker's figures.
    Belt,
    /// Pressure test with dry nitrogen, offered before the pump.
    PressureTest,
    /// Evacuate.
    Evacuate {
        /// What the gauge shows at the target.
        gauge: Range<GaugePressure>,
        /// Whether the circuit stood open for long.
        open_long: bool,
    },
    /// Standing vacuum test: shut off the pump and watch.
    StandingVacuum,
    /// Charge by mass.
    Charge {
        /// The hose holdup, if volume and ambient temperature are known.
        hose: Option<Range<Mass>>,
    },
    /// Look for leaks with the charge in.
    LeakCheck {
        /// The scales of the detectors for this refrigerant.
        scales: Vec<&'static DetectorScale>,
        /// What EU type approval allows a new car with one evaporator, where it asks for anything.
        allowed: Option<MassRate>,
        /// How long this charge takes to lose a tenth at a leak of each scale.
        tenth: Vec<(MassRate, Time)>,
    },
    /// Take today's reading.
    Read,
}

/// A safety caution at a step.
#[doc(hidden)]
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(rename_all = "kebab-case"))]
#[non_exhaustive]
pub enum JobCaution {
    /// Pressure remains where gauges show none; liquid freezes skin and eyes.
    Frostbite,
    /// Vapour displaces air.
    Asphyxiation,
    /// Carbon dioxide harms before it suffocates.
    CarbonDioxide,
    /// R-744 let out fast turns to dry ice.
    DryIce,
    /// The refrigerant burns.
    Flammable,
    /// Letting it out is illegal in many places.
    Venting,
    /// High voltage.
    HighVoltage,
    /// An electric compressor under vacuum.
    VoltageInVacuum,
    /// Another oil ruins the insulation.
    ForeignOil,
    /// Belts, fans, hot lines.
    Moving,
    /// Never test with compressed air.
    CompressedAir,
    /// Never open the high-side valve of a can or cylinder towards a running system.
    Backflow,
}

/// One step of the sheet.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct JobStep {
    /// Task of the step.
    pub(crate) task: JobTask,
    /// Sources that the step rests on.
    pub(crate) basis: Vec<Source>,
    /// Safety cautions of the step.
    pub(crate) cautions: Vec<JobCaution>,
}

/// A question that the sheet cannot answer: only the maker or the bench can.
#[doc(hidden)]
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(
    feature = "serde",
    derive(serde::Serialize, serde::Deserialize),
    serde(tag = "id", rename_all = "kebab-case", deny_unknown_fields)
)]
#[non_exhaustive]
pub enum JobQuestion {
    /// Rule of the maker for the oil in the compressor.
    #[cfg_attr(feature = "serde", serde(deserialize_with = "crate::service::no_fields"))]
    CompressorRule,
    /// State in which the new compressor is supplied: filled, emptied, dry or used.
    #[cfg_attr(feature = "serde", serde(deserialize_with = "crate::service::no_fields"))]
    CompressorSupply,
    /// Amount of oil drained from the old compressor.
    #[cfg_attr(feature = "serde", serde(deserialize_with = "crate::service::no_fields"))]
    Drained,
    /// Amount of oil that the maker gives for a part.
    PartFigure {
        /// Part that is replaced.
        part: ReplacedPart,
    },
    /// Meaning of the ounce on the label.
    #[cfg_attr(feature = "serde", serde(deserialize_with = "crate::service::no_fields"))]
    WhichOunce,
    /// The label contradicts itself.
    #[cfg_attr(feature = "serde", serde(deserialize_with = "crate::service::no_fields"))]
    Contradiction,
    /// Kind of oil that the label names.
    #[cfg_attr(feature = "serde", serde(deserialize_with = "crate::service::no_fields"))]
    OilKind,
    /// The oil given is wrong, or ruins the insulation.
    #[cfg_attr(feature = "serde", serde(deserialize_with = "crate::service::no_fields"))]
    OilUnsuited,
    /// Amount of oil that the label names.
    #[cfg_attr(feature = "serde", serde(deserialize_with = "crate::service::no_fields"))]
    OilAmount,
    /// Ambient temperature.
    #[cfg_attr(feature = "serde", serde(deserialize_with = "crate::service::no_fields"))]
    Ambient,
}

/// A job sheet: what to do, in order, and what only the maker or the bench can answer.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct JobSheet {
    /// Job that the sheet was made from.
    pub(crate) job: Job,
    /// Oil of the whole circuit by the label, as far as the label determines it.
    pub(crate) label_oil: Option<Range<Volume>>,
    /// Absolute pressure of the air, by the altitude.
    pub(crate) air: Measured<Pressure>,
    /// Questions that only the maker or the bench can answer.
    pub(crate) questions: Vec<JobQuestion>,
    /// Steps of the job, in order.
    pub(crate) steps: Vec<JobStep>,
}
