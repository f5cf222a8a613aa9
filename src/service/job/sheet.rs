//! What a job sheet holds: its lines, what they are about, what can hurt, and what it cannot know.

use super::Job;
use crate::quantity::{MassRate, Time};
use crate::refrigerant::SafetyClass;
use crate::service::charge::Kept;
use crate::service::leak::Scale;
use crate::service::oil::compressor::{self, Outcome, Rule, Supplied, Swap};
use crate::service::oil::kind::{Advice, Oil};
use crate::service::oil::part::{self, Part};
use crate::{GaugePressure, Measured, Pressure, Range, Source, Volume};

/// Oil for a part, and what stands behind it.
#[derive(Debug, Clone, PartialEq)]
pub enum PartOil {
    /// The maker's figure.
    Makers(Range<Volume>),
    /// Already in the compressor by the maker's rule: do not add it again.
    InCompressor(Range<Volume>),
    /// Nobody's figure for this car: the published range.
    Published(part::Spread),
    /// Nothing was found.
    Unknown,
}

/// Oil for the compressor, and what stands behind it.
#[derive(Debug, Clone, PartialEq)]
pub enum CompressorOil {
    /// By the maker's rule.
    Makers {
        /// The rule.
        rule: Rule,
        /// What it was applied to.
        swap: Swap,
        /// What it says.
        outcome: Outcome,
    },
    /// Nobody's rule for this car: what all printed rules leave in it.
    Published {
        /// The range, rule by rule.
        spread: compressor::Spread,
        /// How the new one comes.
        supplied: Option<Supplied>,
    },
    /// What came out of the old one was not measured.
    NotMeasured,
}

/// What a line is about.
#[derive(Debug, Clone, PartialEq)]
pub enum Kind {
    /// Noise with good cooling: clutch, bearing and pulley come before a compressor.
    ClutchFirst,
    /// Find the leak while there is something in the circuit.
    FindLeak,
    /// High voltage off, proven and locked.
    MakeSafe,
    /// Run the compressor so that oil comes home, where it still runs and nothing has leaked.
    BringOilHome {
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
    /// Drier, desiccant or accumulator goes with the job.
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
        oil: Option<Oil>,
        /// How it stands to the circuit.
        advice: Option<Advice>,
    },
    /// Oil of the whole circuit by the label, and which ounce it means.
    LabelOil {
        /// As far as it can be told.
        range: Option<Range<Volume>>,
    },
    /// Oil for a part.
    PartOil {
        /// The part.
        part: Part,
        /// How much.
        oil: PartOil,
    },
    /// Oil that came out with the refrigerant goes back as new oil.
    OilBack {
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
    /// Evacuate.
    Evacuate {
        /// What the gauge shows at the target.
        gauge: Range<GaugePressure>,
        /// Whether the circuit stood open for long.
        open_long: bool,
    },
    /// Shut off the pump and watch.
    Hold,
    /// Charge by mass.
    Charge {
        /// What the hose keeps.
        hose: Option<Kept>,
    },
    /// Look for leaks with the charge in.
    LeakCheck {
        /// The finest scale of the detectors for this refrigerant.
        scales: Vec<&'static Scale>,
        /// What EU type approval allows a new car with one evaporator, where it asks for anything.
        allowed: Option<MassRate>,
        /// How long this charge takes to lose a tenth at a leak of each scale.
        tenth: Vec<(MassRate, Time)>,
    },
    /// Take today's reading.
    Read,
}

/// What can hurt at a line.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Caution {
    /// Pressure remains where gauges show none; liquid freezes skin and eyes.
    Frostbite,
    /// Vapour displaces air.
    Asphyxiation,
    /// The refrigerant burns.
    Flammable(SafetyClass),
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

/// One line of the sheet.
#[derive(Debug, Clone, PartialEq)]
pub struct Line {
    /// What it is about.
    pub kind: Kind,
    /// What it rests on.
    pub basis: Vec<Source>,
    /// What can hurt.
    pub cautions: Vec<Caution>,
}

/// What the sheet cannot know.
#[derive(Debug, Clone, PartialEq)]
pub enum Question {
    /// The maker's rule for the compressor.
    CompressorRule,
    /// How the new compressor comes: filled, emptied, dry or used.
    Supplied,
    /// What came out of the old compressor.
    Drained,
    /// The maker's figure for a part.
    PartFigure(Part),
    /// Which ounce the label means.
    WhichOunce,
    /// The label contradicts itself.
    Contradiction,
    /// Which oil the label names.
    OilKind,
    /// The oil given is wrong, or ruins the insulation.
    OilUnsuited,
    /// How much oil the label names.
    OilAmount,
    /// How warm the day is.
    Ambient,
}

/// The sheet.
#[derive(Debug, Clone, PartialEq)]
pub struct Sheet {
    /// What it was made from.
    pub job: Job,
    /// Oil of the whole circuit by the label, as far as it can be told.
    pub label_oil: Option<Range<Volume>>,
    /// Pressure of the air, by the altitude.
    pub air: Measured<Pressure>,
    /// What only the maker or the bench can answer.
    pub questions: Vec<Question>,
    /// What to do, in order.
    pub lines: Vec<Line>,
}
