//! The steps of a job sheet up to the open circuit, and from closing it to the reading.

use super::{Complaint, DEEP_VACUUM, HIDDEN_LEAK, Job, JobCaution, JobStep, JobTask, OPEN_LONG, TURNS};
use crate::quantity::Time;
use crate::refrigerant::{Gwp, GwpValue};
use crate::service::charge::hose_holdup;
use crate::service::leak::{self, DetectorScale};
use crate::service::oil::kind::CompressorDrive;
use crate::service::references;
use crate::{Error, Measured, Pressure, Ratio, Refrigerant, Source};

impl Job {
    pub(super) fn open_long(&self) -> bool {
        self.open_for.is_some_and(|time| time >= OPEN_LONG.value)
    }

    fn hazards(&self) -> Vec<JobCaution> {
        let carbon_dioxide = self.refrigerant == Refrigerant::R744;
        let suffocates = if carbon_dioxide { JobCaution::CarbonDioxide } else { JobCaution::Asphyxiation };
        let mut hazards = vec![JobCaution::Frostbite, suffocates];
        if self.refrigerant.fluid().safety_class.value.is_flammable() {
            hazards.push(JobCaution::Flammable);
        }
        hazards
    }

    /// Compressed air burns with refrigerants under pressure; carbon dioxide does not.
    fn no_air_test(&self) -> Vec<JobCaution> {
        if self.refrigerant == Refrigerant::R744 { Vec::new() } else { vec![JobCaution::CompressedAir] }
    }

    /// The steps up to the open circuit.
    pub(super) fn opening_steps(&self) -> Vec<JobStep> {
        let step = |task, basis: &[Source], cautions: &[JobCaution]| JobStep {
            task,
            basis: basis.to_vec(),
            cautions: cautions.to_vec(),
        };
        let mut steps = Vec::new();
        if self.complaint == Complaint::NoiseCoolsWell && self.drive == CompressorDrive::Belt {
            steps.push(step(
                JobTask::ClutchFirst,
                &[references::FORESTER_2001, references::CLUTCH_GAPS, Source::COMMON_PRACTICE],
                &[JobCaution::Moving],
            ));
        }
        if self.drive == CompressorDrive::Electric {
            steps.push(step(
                JobTask::MakeSafe,
                &[references::ELECTRIC_OIL, references::ELECTRIC_UNIT],
                &[JobCaution::HighVoltage],
            ));
        }
        if self.complaint == Complaint::Leaks {
            let mut hazards = self.hazards();
            hazards.extend(self.no_air_test());
            steps.push(step(JobTask::FindLeak, &[references::NO_AIR_TEST, references::EU_REFILL], &hazards));
        }
        let noisy = matches!(self.complaint, Complaint::NoiseCoolsBadly | Complaint::NoiseCoolsWell);
        if !(noisy || self.complaint == Complaint::Leaks || self.flushed || self.drive == CompressorDrive::Electric) {
            steps.push(step(
                JobTask::OilReturn { at_least: OIL_RETURN },
                &[references::SPECTRA5],
                &[JobCaution::Moving],
            ));
        }
        let mut hazards = self.hazards();
        // carbon dioxide is excepted from the US rule
        hazards.push(if self.refrigerant == Refrigerant::R744 { JobCaution::DryIce } else { JobCaution::Venting });
        steps.push(step(
            JobTask::Recover,
            &[references::US_609, references::KIA_2004, Source::COMMON_PRACTICE],
            &hazards,
        ));
        steps.push(step(JobTask::Open, &[references::CAPS, references::LINES], &self.hazards()));
        steps
    }

    /// The steps from closing the circuit to the reading.
    pub(super) fn closing_steps(&self, air: Measured<Pressure>) -> Result<Vec<JobStep>, Error> {
        let mut steps = Vec::new();
        let mut push =
            |task, basis: Vec<Source>, cautions: Vec<JobCaution>| steps.push(JobStep { task, basis, cautions });
        if self.compressor.is_some() && self.drive == CompressorDrive::Belt {
            push(JobTask::TurnByHand, vec![TURNS.source], Vec::new());
        }
        push(JobTask::Tighten, vec![references::LINES], Vec::new());
        if self.compressor.is_some() && self.drive == CompressorDrive::Belt {
            push(JobTask::Belt, vec![Source::COMMON_PRACTICE], vec![JobCaution::Moving]);
        }
        push(
            JobTask::PressureTest,
            vec![references::NITROGEN, Source::COMMON_PRACTICE],
            [JobCaution::Frostbite].into_iter().chain(self.no_air_test()).collect(),
        );
        let mut basis = vec![self.vacuum.source, references::ARMY_292, DEEP_VACUUM.source];
        if self.open_long() {
            basis.push(references::OPEN_FOR_DAYS);
        }
        let gauge = self.vacuum.gauge(air.value());
        let electric = (self.drive == CompressorDrive::Electric).then_some(JobCaution::VoltageInVacuum);
        push(JobTask::Evacuate { gauge, open_long: self.open_long() }, basis, electric.into_iter().collect());
        push(
            JobTask::StandingVacuum,
            vec![self.vacuum.source, references::NO_AIR_TEST, HIDDEN_LEAK.source, Source::COMMON_PRACTICE],
            self.no_air_test().into_iter().chain(electric).collect(),
        );
        steps.push(self.charge_step()?);
        steps.push(self.leak_check_step()?);
        steps.push(JobStep {
            task: JobTask::Read,
            basis: vec![Source::COMMON_PRACTICE],
            cautions: vec![JobCaution::Frostbite, JobCaution::Moving],
        });
        Ok(steps)
    }

    fn charge_step(&self) -> Result<JobStep, Error> {
        let hose = match (self.hose, self.ambient) {
            (Some(volume), Some(ambient)) => Some(hose_holdup(volume, self.refrigerant, ambient)?),
            _ => None,
        };
        let mut hazards = self.hazards();
        hazards.push(JobCaution::Backflow);
        Ok(JobStep {
            task: JobTask::Charge { hose },
            basis: vec![
                references::GIVEN,
                references::ARMY_3805,
                references::ARMY_2420,
                references::CHARGE_ARTICLE,
                references::CHARGE_PATENT,
            ],
            cautions: hazards,
        })
    }

    fn leak_check_step(&self) -> Result<JobStep, Error> {
        let scales: Vec<&'static DetectorScale> =
            leak::DETECTORS.iter().filter(|scale| scale.refrigerant == Some(self.refrigerant)).collect();
        let mut basis: Vec<Source> = sources(scales.iter().map(|scale| scale.source));
        let warms = |gwp: &Gwp| matches!(gwp.value, GwpValue::Is(value) if value > leak::EU_WARMING_ABOVE.value);
        let allowed = self.refrigerant.fluid().gwp.iter().any(warms).then(|| {
            basis.push(leak::EU_ONE_EVAPORATOR.source);
            leak::EU_ONE_EVAPORATOR.value
        });
        let nine_tenths = Ratio::from_percent(TENTH_LOST_PERCENT);
        let lasts = |scale: &&DetectorScale| {
            let time = leak::time_to_fraction(self.charge.nominal(), scale.leak, nine_tenths)?;
            Ok((scale.leak, time))
        };
        let tenth = scales.iter().map(lasts).collect::<Result<_, Error>>()?;
        let mut hazards = self.hazards();
        hazards.push(JobCaution::Moving);
        Ok(JobStep { task: JobTask::LeakCheck { scales, allowed, tenth }, basis, cautions: hazards })
    }
}

/// How long a circuit runs so that oil returns to the compressor (`tables/service/oil.csv`, Kia Spectra5).
const OIL_RETURN: Time = Time::from_minutes(20.0);
/// What is left when a tenth has leaked, %; our choice of a mark.
const TENTH_LOST_PERCENT: f64 = 90.0;

/// Each source once, in order.
pub(super) fn sources(of: impl Iterator<Item = Source>) -> Vec<Source> {
    let mut list: Vec<Source> = Vec::new();
    for source in of {
        if !list.contains(&source) {
            list.push(source);
        }
    }
    list
}
