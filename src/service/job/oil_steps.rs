//! The steps of a job sheet about drier, rings and oil.

use super::steps::sources;
use super::{CompressorOil, CompressorReplacement, Job, JobCaution, JobStep, JobTask, NONE, PartOil};
use crate::service::oil::compressor::{self, CompressorOilRule, CompressorSupply, OilBalance};
use crate::service::oil::kind::CompressorDrive;
use crate::service::oil::part::{self, ReplacedPart};
use crate::service::references;
use crate::{Error, Range, Source, Volume};

impl Job {
    /// The steps of drier, rings and oil.
    pub(super) fn oil_steps(&self, label: Option<Range<Volume>>) -> Result<Vec<JobStep>, Error> {
        let mut steps = Vec::new();
        let mut push =
            |task, basis: Vec<Source>, cautions: Vec<JobCaution>| steps.push(JobStep { task, basis, cautions });
        if let Some(swap) = self.compressor {
            let little = swap.drained.is_some_and(|drained| drained.value() < compressor::LITTLE.value.low);
            push(
                JobTask::Drain { drained: swap.drained, little },
                vec![
                    references::GRAND_AM_1995,
                    references::FREELANDER_2002,
                    references::MITSUBISHI_2022,
                    compressor::LITTLE.source,
                ],
                Vec::new(),
            );
        }
        let listed =
            self.parts.iter().any(|swap| matches!(swap.part, ReplacedPart::ReceiverDrier | ReplacedPart::Accumulator));
        push(
            JobTask::Drier { listed, open_long: self.open_long() },
            vec![references::DRIER_SUPPLIERS, references::TIGUAN_2023, references::OPEN_FOR_DAYS],
            Vec::new(),
        );
        push(
            JobTask::Rings,
            vec![references::MINERAL_ON_RINGS, references::PAG_ON_RINGS, references::OIL_ON_RINGS],
            if self.drive == CompressorDrive::Electric { vec![JobCaution::ForeignOil] } else { Vec::new() },
        );
        let suitability = self.oil_kind.map(|oil| oil.in_circuit(self.refrigerant, self.drive));
        push(
            JobTask::OilKind { oil: self.oil_kind, suitability: suitability.map(|sourced| sourced.value) },
            suitability.map_or(vec![Source::COMMON_PRACTICE], |suitability| vec![suitability.source]),
            if self.drive == CompressorDrive::Electric { vec![JobCaution::ForeignOil] } else { Vec::new() },
        );
        if self.oil.is_some() {
            push(JobTask::LabelOil { range: label }, vec![references::GIVEN], Vec::new());
        }
        if self.flushed {
            push(JobTask::WholeOil { label }, vec![references::GIVEN, Source::COMMON_PRACTICE], Vec::new());
            return Ok(steps);
        }
        steps.extend(self.replaced_oil_steps()?);
        Ok(steps)
    }

    /// Oil for each part, for what was recovered and for the compressor.
    fn replaced_oil_steps(&self) -> Result<Vec<JobStep>, Error> {
        let mut steps = Vec::new();
        let mut push = |task, basis: Vec<Source>| steps.push(JobStep { task, basis, cautions: Vec::new() });
        let compressor = self.compressor.as_ref().map(|swap| self.compressor_oil(swap)).transpose()?;
        let carries = matches!(
            &compressor,
            Some(CompressorOil::Makers { outcome, swap, .. })
                if outcome.carries_other_parts && swap.other_parts + swap.recovered > NONE
        );
        for swap in &self.parts {
            let oil = match (swap.makers, carries) {
                (Some(figure), true) => PartOil::InCompressor(figure),
                (Some(figure), false) => PartOil::Makers(figure),
                (None, _) => part::published(swap.part, swap.drained).map_or(PartOil::Unknown, PartOil::Published),
            };
            let basis = match &oil {
                PartOil::Published(spread) => sources(spread.works.iter().map(|(row, _)| row.source)),
                PartOil::Makers(_) | PartOil::InCompressor(_) => vec![references::GIVEN],
                PartOil::Unknown => vec![Source::COMMON_PRACTICE],
            };
            push(JobTask::PartOil { part: swap.part, oil }, basis);
        }
        push(
            JobTask::RecoveredOil { recovered: self.recovered_oil, in_compressor: carries },
            vec![references::GMC_1994, references::KIA_2004, compressor::RECOVERED.source],
        );
        if let Some(oil) = compressor {
            let basis = match &oil {
                CompressorOil::Published { spread, .. } => {
                    sources(spread.outcomes.iter().map(|(rule, _)| rule.source).chain([compressor::RESIDUAL.source]))
                }
                CompressorOil::Makers { .. } => vec![references::GIVEN],
                CompressorOil::NotMeasured => vec![references::GRAND_AM_1995, references::FREELANDER_2002],
            };
            push(JobTask::CompressorOil(Box::new(oil)), basis);
        }
        Ok(steps)
    }

    fn compressor_oil(&self, swap: &CompressorReplacement) -> Result<CompressorOil, Error> {
        let Some(drained) = swap.drained else { return Ok(CompressorOil::NotMeasured) };
        let mut applied = OilBalance {
            supplied: swap.supplied.unwrap_or(CompressorSupply::Emptied),
            drained: drained.value(),
            other_parts: NONE,
            recovered: NONE,
            system: None,
        };
        let Some(rule) = swap.rule else {
            let spread = compressor::published(&applied)?;
            return Ok(CompressorOil::Published { spread, supplied: swap.supplied });
        };
        if swap.supplied.is_none() {
            return Err(Error::Missing {
                what: "how the new compressor comes",
                way_out: "the maker's rule needs it: filled with so much oil, emptied, dry or used",
            });
        }
        // the printed subtraction keeps the oil of the other parts in the compressor, where every figure is the maker's
        let makers: Option<Vec<Range<Volume>>> = self.parts.iter().map(|swap| swap.makers).collect();
        if let (CompressorOilRule::Subtract { .. }, Some(makers)) = (rule, makers) {
            applied.other_parts = makers.iter().fold(NONE, |sum, figure| sum + figure.at(0.5));
            applied.recovered = self.recovered_oil.unwrap_or(NONE);
        }
        Ok(CompressorOil::Makers { rule, swap: applied, outcome: rule.apply(&applied)? })
    }
}
