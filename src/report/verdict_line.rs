//! One reading in one line, for the rows of a log.

use std::fmt;

use super::Language;
use super::amount::in_brackets;
use super::words::Label;
use crate::diagnosis::{Assessment, DifferenceAssessment, JudgedQuantity, SideAssessment};
use crate::expected::Verdict;
use crate::inspection::{DisplayUnits, Measurand};
use crate::quantity::{Quantity, Unit};

/// Verdicts of an assessment in one line: "low within (98 %), high above (> 99 %), superheat 6.6 ± 1.8 K within (97 %)".
///
/// ```
/// use satline::Refrigerant;
/// use satline::diagnosis::Diagnosis;
/// use satline::report::{self, Language};
/// let row = Diagnosis::of(Refrigerant::R134a).low("30 psi")?.high("180 psi")?.ambient("86 °F")?.assess()?;
/// let line = report::verdict_line(row.assessment(), &row.entry().units(), Language::English);
/// assert!(line.starts_with("low within ("), "{line}");
/// # Ok::<(), satline::Error>(())
/// ```
pub fn verdict_line(assessment: &Assessment, units: &DisplayUnits, language: Language) -> String {
    VerdictLine { assessment, units, language }.to_string()
}

struct VerdictLine<'a> {
    assessment: &'a Assessment,
    units: &'a DisplayUnits,
    language: Language,
}

impl fmt::Display for VerdictLine<'_> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let a = self.assessment;
        if let Some(check) = &a.equalised {
            let words = self.language.words();
            write!(f, "{}: {}", words.label(Label::EngineOff), words.equalised(check.verdict))?;
            return check.probability.map_or(Ok(()), |p| write!(f, " {}", in_brackets(p)));
        }
        // between one finding and the next
        let mut comma = "";
        for (name, side) in [(Label::Low, &a.low), (Label::High, &a.high)] {
            if let Some(side) = side {
                f.write_str(std::mem::replace(&mut comma, ", "))?;
                self.side(f, name, side)?;
            }
        }
        for (of, finding) in [
            (JudgedQuantity::Superheat, &a.superheat),
            (JudgedQuantity::Subcooling, &a.subcooling),
            (JudgedQuantity::CondensingOverAmbient, &a.condensing_over_ambient),
        ] {
            if let Some(finding) = finding {
                f.write_str(std::mem::replace(&mut comma, ", "))?;
                self.difference(f, self.language.words().quantity(of), finding)?;
            }
        }
        if let Some(vent) = a.vent_verdict {
            write!(f, "{comma}{} ", self.language.words().measurand(Measurand::Vent))?;
            self.verdict(f, Some(vent))?;
        }
        Ok(())
    }
}

impl VerdictLine<'_> {
    /// The verdict on a side; without a window, its saturation temperature.
    fn side(&self, f: &mut fmt::Formatter<'_>, name: Label, side: &SideAssessment) -> fmt::Result {
        let words = self.language.words();
        write!(f, "{} ", words.label(name))?;
        match (side.verdict, side.saturation) {
            (Some(found), _) => self.verdict(f, Some(found)),
            (None, Some(saturation)) => {
                let unit = self.units.temperature;
                let (value, half) =
                    (saturation.dew.value().value_in(unit), saturation.dew.expanded().value_in(unit.step()));
                let (value, half) = (words.numerals().number(value, 1), words.numerals().number(half, 1));
                let (at, unjudged) = (words.label(Label::SaturatedAt), words.label(Label::Unjudged));
                write!(f, "{at} {value} ± {half} {} {unjudged}", unit.symbol())
            }
            (None, None) => {
                let (above, unjudged) = (words.label(Label::AboveCriticalPressure), words.label(Label::Unjudged));
                write!(f, "{above} {unjudged}")
            }
        }
    }

    fn difference(&self, f: &mut fmt::Formatter<'_>, name: &str, finding: &DifferenceAssessment) -> fmt::Result {
        let unit = self.units.temperature.step();
        let (value, half) = (finding.value.value().value_in(unit), finding.value.expanded().value_in(unit));
        let n = self.language.words().numerals();
        write!(f, "{name} {} ± {} {} ", n.number(value, 1), n.number(half, 1), unit.symbol())?;
        self.verdict(f, finding.verdict)
    }

    fn verdict(&self, f: &mut fmt::Formatter<'_>, verdict: Option<Verdict>) -> fmt::Result {
        let Some(verdict) = verdict else { return f.write_str(self.language.words().label(Label::Unjudged)) };
        write!(f, "{} {}", self.language.words().position(verdict.position), in_brackets(verdict.probability))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::Refrigerant;
    use crate::circuit::Settings;
    use crate::expected::ChartSet;
    use crate::inspection::{Entry, Instruments};

    const GAUGES: [(Measurand, &str); 2] = [(Measurand::LowSide, "30 psi"), (Measurand::HighSide, "180 psi")];

    fn line(refrigerant: Refrigerant, ambient: Option<&str>, values: &[(Measurand, &str)]) -> String {
        let mut entry = values.iter().fold(Entry::default(), |entry, (of, text)| entry.enter(*of, text).unwrap());
        entry.ambient = ambient.map(|text| text.parse().unwrap());
        let reading = entry.reading(refrigerant, Settings::TEST, &Instruments::analogue(refrigerant)).unwrap();
        let assessment = Assessment::of(&reading, &ChartSet::new(refrigerant).unwrap()).unwrap();
        let units = entry.units();
        verdict_line(&assessment, &units, Language::English)
    }

    #[test]
    fn a_line_has_what_was_read_between_commas() {
        let lines = [(Measurand::SuctionLine, "48 °F"), (Measurand::LiquidLine, "112 °F"), (Measurand::Vent, "100 °F")];
        let all = line(Refrigerant::R134a, Some("86 °F"), &[&GAUGES[..], &lines].concat());
        let parts: Vec<&str> = all.split(", ").collect();
        for (part, (begin, end)) in parts.iter().zip([
            ("low within (", " %)"),
            ("high ", " %)"),
            ("superheat 13.4 ± ", " %)"),
            ("subcooling ", " %)"),
            ("condensing over ambient ", " %)"),
            ("vent above (", " %)"),
        ]) {
            assert!(part.starts_with(begin) && part.ends_with(end), "{part:?}");
        }
        assert_eq!(parts.len(), 6, "{all}");
        assert!(parts[2].contains(" °F within ("), "{all}");
    }

    #[test]
    fn without_a_window_a_side_has_its_saturation() {
        let both = line(Refrigerant::R134a, None, &GAUGES);
        assert!(
            both.starts_with("low saturated at 34.6 ± ") && both.contains(" °F (no window), high saturated"),
            "{both}"
        );
        let over = line(Refrigerant::R744, None, &[(Measurand::HighSide, "99 bar")]);
        assert_eq!(over, "high above the critical pressure (no window)");
        let suction = (Measurand::SuctionLine, "60 °F");
        let unruled = line(Refrigerant::R290, None, &[GAUGES[0], suction]);
        assert!(unruled.contains(", superheat ") && unruled.ends_with(" °F (no window)"), "{unruled}");
    }

    #[test]
    fn an_equalised_circuit_has_one_verdict() {
        for (low, high, text) in [
            ("82 psi", "82 psi", "engine off: at saturation"),
            ("0 psi", "0 psi", "engine off: below saturation (> 99 %)"),
            ("150 psi", "150 psi", "engine off: above saturation (> 99 %)"),
        ] {
            let values = [(Measurand::LowSide, low), (Measurand::HighSide, high)];
            let entry = values.iter().fold(Entry::default(), |entry, (of, text)| entry.enter(*of, text).unwrap());
            let entry = entry.ambient("77 °F".parse().unwrap());
            let r = Refrigerant::R134a;
            let reading = entry.equalised_reading(r, &Instruments::analogue(r)).unwrap();
            let assessment = Assessment::of(&reading, &ChartSet::new(r).unwrap()).unwrap();
            let units = entry.units();
            let line = VerdictLine { assessment: &assessment, units: &units, language: Language::English };
            assert_eq!(line.to_string(), text);
        }
    }
}
