//! The job sheet: what to do, in order, from the vehicle's label and from what was opened and replaced.
//!
//! [`Job`] is what is known of the work; [`crate::report::job`] makes the sheet of it.

mod check;
mod oil_steps;
mod sheet;
mod steps;
mod vacuum;

pub(crate) use sheet::{CompressorOil, JobSheet, JobStep, JobTask, PartOil};
#[doc(hidden)]
pub use sheet::{JobCaution, JobQuestion};
pub use vacuum::{DEEP_VACUUM, EvacuationProcedure, HIDDEN_LEAK};

use super::charge::ChargeLabel;
use super::oil::compressor::{CompressorOilRule, CompressorSupply};
use super::oil::kind::{CompressorDrive, OilKind, OilSuitability};
use super::oil::label::{LabelAmount, OilLabel, OunceVerdict};
use super::oil::part::ReplacedPart;
use super::references;
use crate::quantity::Time;
use crate::{Error, Length, Measured, Pressure, Range, Ratio, Refrigerant, Sourced, Temperature, Volume, air};

/// The customer's complaint.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(rename_all = "kebab-case"))]
pub enum Complaint {
    /// Noise, with good cooling.
    NoiseCoolsWell,
    /// Noise, with poor cooling.
    NoiseCoolsBadly,
    /// Poor cooling.
    CoolsBadly,
    /// A leak.
    Leaks,
    /// No complaint stated.
    #[default]
    NotSaid,
}

/// Replacement of the compressor.
#[derive(Debug, Clone, Copy, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(deny_unknown_fields))]
pub struct CompressorReplacement {
    /// State in which the new compressor is supplied; `None` if nobody looked.
    #[cfg_attr(feature = "serde", serde(default, skip_serializing_if = "Option::is_none"))]
    pub supplied: Option<CompressorSupply>,
    /// Oil drained from the old compressor; `None` if it was not measured.
    #[cfg_attr(feature = "serde", serde(default, skip_serializing_if = "Option::is_none"))]
    pub drained: Option<Measured<Volume>>,
    /// The maker's rule for the oil in the compressor of this car; `None` if it is not known.
    #[cfg_attr(feature = "serde", serde(default, skip_serializing_if = "Option::is_none"))]
    pub rule: Option<CompressorOilRule>,
}

/// Replacement of another part, or a loss of oil.
#[derive(Debug, Clone, Copy, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(deny_unknown_fields))]
pub struct PartReplacement {
    /// Part that was replaced, or way in which oil was lost.
    pub part: ReplacedPart,
    /// The maker's amount of oil for the part in this car; `None` if it is not known.
    #[cfg_attr(feature = "serde", serde(default, skip_serializing_if = "Option::is_none"))]
    pub makers: Option<Range<Volume>>,
    /// Oil drained from the old part; `None` if it was not measured.
    #[cfg_attr(feature = "serde", serde(default, skip_serializing_if = "Option::is_none"))]
    pub drained: Option<Volume>,
}

/// Time open from which a circuit gets a new drier and hours of vacuum; makers print "several days".
pub const OPEN_LONG: Sourced<Time> = Sourced { value: Time::from_days(2.0), source: references::OPEN_FOR_DAYS };

/// Air gap of the clutch, mm: the least and the most of eight clutches in seven makers' manuals.
pub const CLUTCH_GAP_MM: Sourced<(f64, f64)> = Sourced { value: (0.3, 0.7), source: references::CLUTCH_GAPS };

/// Number of turns of the compressor by hand after the oil is in.
pub const TURNS: Sourced<u32> = Sourced { value: 10, source: references::TURN_BY_HAND };

/// Everything that a job sheet is made from.
#[derive(Debug, Clone, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(deny_unknown_fields))]
pub struct Job {
    /// Refrigerant named on the label.
    pub refrigerant: Refrigerant,
    /// Nominal charge, as printed on the label.
    pub charge: ChargeLabel,
    /// Oil of the whole circuit, as printed on the label.
    #[cfg_attr(feature = "serde", serde(default, skip_serializing_if = "Option::is_none"))]
    pub oil: Option<OilLabel>,
    /// Kind of oil, as printed on the label.
    #[cfg_attr(feature = "serde", serde(default, skip_serializing_if = "Option::is_none"))]
    pub oil_kind: Option<OilKind>,
    /// Drive of the compressor: a belt or an electric motor.
    pub drive: CompressorDrive,
    /// The customer's complaint.
    #[cfg_attr(feature = "serde", serde(default))]
    pub complaint: Complaint,
    /// Replacement of the compressor; `None` if it stays.
    #[cfg_attr(feature = "serde", serde(default, skip_serializing_if = "Option::is_none"))]
    pub compressor: Option<CompressorReplacement>,
    /// Replacements of other parts, and losses of oil.
    #[cfg_attr(feature = "serde", serde(default))]
    pub parts: Vec<PartReplacement>,
    /// Whether the whole circuit was flushed, or is new: then no old oil is left in it.
    #[cfg_attr(feature = "serde", serde(default))]
    pub flushed: bool,
    /// Oil that came out with the refrigerant; `None` if it was not measured.
    #[cfg_attr(feature = "serde", serde(default, skip_serializing_if = "Option::is_none"))]
    pub recovered_oil: Option<Volume>,
    /// Time that the circuit stood open.
    #[cfg_attr(feature = "serde", serde(default, skip_serializing_if = "Option::is_none"))]
    pub open_for: Option<Time>,
    /// Volume of the charging hose.
    #[cfg_attr(feature = "serde", serde(default, skip_serializing_if = "Option::is_none"))]
    pub hose: Option<Volume>,
    /// Temperature of the outside air.
    #[cfg_attr(feature = "serde", serde(default, skip_serializing_if = "Option::is_none"))]
    pub ambient: Option<Temperature>,
    /// Relative humidity of the outside air.
    #[cfg_attr(feature = "serde", serde(default, skip_serializing_if = "Option::is_none"))]
    pub humidity: Option<Ratio>,
    /// Altitude above sea level.
    #[cfg_attr(feature = "serde", serde(default, skip_serializing_if = "Option::is_none"))]
    pub altitude: Option<Length>,
    /// Evacuation asked for: the maker's, or [`EvacuationProcedure::PRINTED`].
    #[cfg_attr(feature = "serde", serde(default, skip_serializing_if = "EvacuationProcedure::is_printed"))]
    pub vacuum: EvacuationProcedure,
}

/// Oil of the whole circuit by the label: its cm³, or all that its ounces can mean.
fn label_volume(label: &OilLabel) -> Option<Range<Volume>> {
    if let Ok(volume) = label.volume() {
        return Some(volume);
    }
    if let Some(LabelAmount::Volume(range)) = label.metric() {
        return Some(range);
    }
    let readings = label.readings();
    readings.iter().flat_map(|reading| &reading.trials).map(|trial| trial.volume).reduce(|a, b| a.hull(&b))
}

const NONE: Volume = Volume::from_cm3(0.0);

impl Job {
    /// A job with the least that is needed: refrigerant, nominal charge and drive of the compressor.
    pub fn new(refrigerant: Refrigerant, charge: ChargeLabel, drive: CompressorDrive) -> Self {
        Self {
            refrigerant,
            charge,
            oil: None,
            oil_kind: None,
            drive,
            complaint: Complaint::NotSaid,
            compressor: None,
            parts: Vec::new(),
            flushed: false,
            recovered_oil: None,
            open_for: None,
            hose: None,
            ambient: None,
            humidity: None,
            altitude: None,
            vacuum: EvacuationProcedure::PRINTED,
        }
    }

    /// Questions that only the maker or the bench can answer, and that the job sheet leaves open.
    ///
    /// ```
    /// use satline::Refrigerant;
    /// use satline::service::job::{Job, JobQuestion};
    /// use satline::service::oil::kind::CompressorDrive;
    /// let job = Job::new(Refrigerant::R134a, "550 g".parse()?, CompressorDrive::Belt);
    /// assert_eq!(job.questions()?, [JobQuestion::OilAmount, JobQuestion::OilKind, JobQuestion::Ambient]);
    /// # Ok::<(), satline::Error>(())
    /// ```
    ///
    /// # Errors
    /// [`Error::MoreThanHolds`] for more oil out than the label says is in, [`Error::Impossible`] and [`Error::NotFinite`] for
    /// amounts that cannot be, [`Error::Implausible`] for an altitude or an ambient where nobody services cars, and
    /// [`Error::Missing`] where the maker's rule needs a figure that was not given.
    pub fn questions(&self) -> Result<Vec<JobQuestion>, Error> {
        self.sheet().map(|sheet| sheet.questions)
    }

    /// Absolute pressure of the air, by the altitude.
    ///
    /// # Errors
    /// [`Error::Implausible`] for an altitude where nobody services cars, and the errors of [`Job::questions`] about single figures.
    pub fn air(&self) -> Result<Measured<Pressure>, Error> {
        self.check()?;
        air::pressure_at(self.altitude.unwrap_or(Length::from_m(0.0)))
    }

    /// The sheet, before it is put in words.
    pub(crate) fn sheet(&self) -> Result<JobSheet, Error> {
        let air = self.air()?;
        let label_oil = self.oil.as_ref().and_then(label_volume);
        self.check_oil(label_oil)?;
        let oil = self.oil_steps(label_oil)?;
        let questions = self.questions_beside(&oil);
        let mut steps = self.opening_steps();
        steps.extend(oil);
        steps.extend(self.closing_steps(air)?);
        Ok(JobSheet { job: self.clone(), label_oil, air, questions, steps })
    }

    fn questions_beside(&self, oil: &[JobStep]) -> Vec<JobQuestion> {
        let mut questions = Vec::new();
        if let (Some(swap), false) = (self.compressor, self.flushed) {
            if swap.drained.is_none() {
                questions.push(JobQuestion::Drained);
            }
            if swap.rule.is_none() {
                questions.push(JobQuestion::CompressorRule);
            }
            if swap.supplied.is_none() {
                questions.push(JobQuestion::CompressorSupply);
            }
        }
        for step in oil {
            if let JobTask::PartOil { part, oil: PartOil::Published(_) | PartOil::Unknown } = &step.task {
                questions.push(JobQuestion::PartFigure { part: *part });
            }
        }
        match &self.oil {
            None => questions.push(JobQuestion::OilAmount),
            Some(label) => {
                let verdicts = label.verdicts();
                if verdicts.contains(&OunceVerdict::Contradiction) {
                    questions.push(JobQuestion::Contradiction);
                }
                if label.metric().is_none() && verdicts.iter().any(|verdict| matches!(verdict, OunceVerdict::Ask(_))) {
                    questions.push(JobQuestion::WhichOunce);
                }
            }
        }
        match self.oil_kind.map(|oil| oil.in_circuit(self.refrigerant, self.drive).value) {
            None => questions.push(JobQuestion::OilKind),
            Some(OilSuitability::Wrong | OilSuitability::RuinsInsulation) => questions.push(JobQuestion::OilUnsuited),
            Some(_) => {}
        }
        if self.ambient.is_none() {
            questions.push(JobQuestion::Ambient);
        }
        questions
    }
}
