//! One reading in one line, for logs.

use std::fmt;

use super::amount::{chance, word};
use super::reading::Units;
use crate::quantity::{Quantity, Unit};
use crate::window::{Assessment, LineFinding, RestVerdict, SideFinding, Verdict};

/// Writes an assessment in one line: "low within (98 %), high above (> 99 %), superheat 6.6 ± 1.8 K within (97 %)".
#[derive(Debug, Clone, Copy)]
pub struct VerdictLine<'a> {
    /// What to write.
    pub assessment: &'a Assessment,
    /// In which units.
    pub units: &'a Units,
}

impl fmt::Display for VerdictLine<'_> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let a = self.assessment;
        if let Some(rest) = &a.rest {
            let word = match rest.verdict {
                RestVerdict::NotLevelled => "gauges not levelled",
                RestVerdict::LiquidGone => "below saturation",
                RestVerdict::AtSaturation => "at saturation",
                RestVerdict::AboveSaturation => "above saturation",
            };
            write!(f, "at rest: {word}")?;
            return rest.chance.map_or(Ok(()), |certain| write!(f, " {}", chance(certain)));
        }
        // between one finding and the next
        let mut comma = "";
        for (name, side) in [("low", &a.low), ("high", &a.high)] {
            if let Some(side) = side {
                f.write_str(std::mem::replace(&mut comma, ", "))?;
                self.side(f, name, side)?;
            }
        }
        for (name, finding) in [
            ("superheat", &a.superheat),
            ("subcooling", &a.subcooling),
            ("condensing over ambient", &a.condensing_over_ambient),
        ] {
            if let Some(finding) = finding {
                f.write_str(std::mem::replace(&mut comma, ", "))?;
                self.step(f, name, finding)?;
            }
        }
        if let Some(vent) = a.vent_verdict {
            write!(f, "{comma}vent ")?;
            verdict(f, Some(vent))?;
        }
        Ok(())
    }
}

impl VerdictLine<'_> {
    /// The verdict on a side; without a window, what it boils or condenses at.
    fn side(&self, f: &mut fmt::Formatter<'_>, name: &str, side: &SideFinding) -> fmt::Result {
        write!(f, "{name} ")?;
        match (side.verdict, side.saturation) {
            (Some(found), _) => verdict(f, Some(found)),
            (None, Some(saturation)) => {
                let unit = self.units.temperature;
                let (value, half) =
                    (saturation.dew.value().value_in(unit), saturation.dew.expanded().value_in(unit.step()));
                write!(f, "saturated at {value:.1} ± {half:.1} {} (no window)", unit.symbol())
            }
            (None, None) => f.write_str("above the critical pressure (no window)"),
        }
    }

    fn step(&self, f: &mut fmt::Formatter<'_>, name: &str, finding: &LineFinding) -> fmt::Result {
        let unit = self.units.temperature.step();
        let (value, half) = (finding.value.value().value_in(unit), finding.value.expanded().value_in(unit));
        write!(f, "{name} {value:.1} ± {half:.1} {} ", unit.symbol())?;
        verdict(f, finding.verdict)
    }
}

fn verdict(f: &mut fmt::Formatter<'_>, verdict: Option<Verdict>) -> fmt::Result {
    let Some(verdict) = verdict else { return f.write_str("(no window)") };
    f.write_str(word(verdict.position))?;
    if verdict.chance > 0.99 { f.write_str(" (> 99 %)") } else { write!(f, " ({:.0} %)", 100.0 * verdict.chance) }
}
