//! What a job must be before a sheet is made of it: finite, not below zero, and no more oil out than was in.

use super::{CompressorReplacement, Job, NONE};
use crate::quantity::instrument::PLAUSIBLE_AMBIENT;
use crate::service::oil::compressor::CompressorSupply;
use crate::service::validate;
use crate::{Error, Range, Ratio, Volume};

impl Job {
    /// Refuses impossible figures of the job.
    pub(super) fn check(&self) -> Result<(), Error> {
        if let Some(ambient) = self.ambient
            && !PLAUSIBLE_AMBIENT.contains(ambient)
        {
            let (low, high) = (PLAUSIBLE_AMBIENT.low.celsius(), PLAUSIBLE_AMBIENT.high.celsius());
            return Err(Error::Implausible { what: "ambient", value: ambient.celsius(), low, high, unit: "°C" });
        }
        if let Some(humidity) = self.humidity
            && !(0.0..=1.0).contains(&humidity.fraction())
        {
            let (what, value) = ("relative humidity", humidity.percent());
            return Err(Error::Implausible {
                what,
                value,
                low: 0.0,
                high: Ratio::from_fraction(1.0).percent(),
                unit: "%",
            });
        }
        self.vacuum.check()?;
        if let Some(time) = self.open_for {
            validate::not_negative("time the circuit stood open (min)", time)?;
        }
        validate::not_negative("volume of the hose (cm³)", self.hose.unwrap_or(NONE))?;
        if let Some(CompressorReplacement { supplied: Some(CompressorSupply::Filled { contents }), .. }) =
            self.compressor
        {
            validate::positive("oil in the new compressor (cm³)", contents)?;
        }
        for swap in &self.parts {
            if let Some(figure) = swap.makers {
                validate::not_negative("the maker's oil for a part (cm³)", figure.low)?;
                validate::not_negative("the maker's oil for a part (cm³)", figure.high)?;
            }
            if let Some(drained) = swap.drained {
                validate::not_negative("oil drained from a part (cm³)", drained)?;
            }
        }
        Ok(())
    }

    /// Oil that came out, against the label.
    pub(super) fn check_oil(&self, label: Option<Range<Volume>>) -> Result<(), Error> {
        let recovered =
            validate::not_negative("oil recovered with the refrigerant (cm³)", self.recovered_oil.unwrap_or(NONE))?;
        let mut out = recovered;
        if let Some(drained) = self.compressor.and_then(|swap| swap.drained) {
            validate::not_negative("oil drained from the old compressor (cm³)", drained.value())?;
            // no more than is certain
            out = out + drained.value() - drained.expanded();
        }
        for drained in self.parts.iter().filter_map(|swap| swap.drained) {
            out = out + drained;
        }
        match label {
            Some(label) if out > label.high => {
                Err(Error::MoreThanHolds { out_cm3: out.cm3(), holds_cm3: label.high.cm3() })
            }
            _ => Ok(()),
        }
    }
}
