//! The job sheet: what to do, in order, from the vehicle's label and from what was opened and replaced.
//!
//! The sheet is data: lines with what they are about, what they rest on and what can hurt. Words are `report`'s matter.

mod sheet;
mod vacuum;

pub use sheet::{Caution, CompressorOil, Kind, Line, PartOil, Question, Sheet};
pub use vacuum::{DEEP_VACUUM, GATE_PASSES, Vacuum};

use super::charge::{ChargeLabel, kept};
use super::leak::{self, Course, Scale};
use super::oil::compressor::{self, Rule, Supplied, Swap};
use super::oil::kind::{Drive, Oil, Verdict as OilVerdict};
use super::oil::label::{Amount, OilLabel, Verdict};
use super::oil::part::{self, Part};
use super::{references, validate};
use crate::quantity::Time;
use crate::refrigerant::{Gwp, GwpValue};
use crate::{Error, Length, Measured, Pressure, Range, Ratio, Refrigerant, Source, Sourced, Temperature, Volume, air};

/// What brought the car in.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
#[cfg_attr(feature = "serde", derive(serde::Serialize), serde(rename_all = "kebab-case"))]
pub enum Complaint {
    /// It makes noise and cools well.
    NoiseCoolsWell,
    /// It makes noise and cools badly.
    NoiseCoolsBadly,
    /// It cools badly.
    CoolsBadly,
    /// It leaks.
    Leaks,
    /// Nothing was said.
    NotSaid,
}

/// A compressor replaced.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CompressorSwap {
    /// How the one to be fitted comes; none where nobody looked.
    pub supplied: Option<Supplied>,
    /// Drained from the old one; none where it was not measured.
    pub drained: Option<Measured<Volume>>,
    /// The maker's rule for this car.
    pub rule: Option<Rule>,
}

/// Another part replaced, or oil lost.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PartSwap {
    /// The part.
    pub part: Part,
    /// The maker's figure for this car.
    pub makers: Option<Range<Volume>>,
    /// Drained from the old one, where it was measured.
    pub drained: Option<Volume>,
}

/// A circuit open longer than this gets a new drier and hours of vacuum; makers print "several days".
pub const OPEN_LONG: Sourced<Time> = Sourced { value: Time::from_days(2.0), source: references::OPEN_FOR_DAYS };

/// Gaps of eight clutches in seven makers' manuals, mm, from the least to the most.
pub const CLUTCH_GAP_MM: Sourced<(f64, f64)> = Sourced { value: (0.3, 0.7), source: references::CLUTCH_GAPS };

/// Turns by hand after the oil is in.
pub const TURNS: Sourced<u32> = Sourced { value: 10, source: references::TURN_BY_HAND };

/// Everything the sheet is made from.
#[derive(Debug, Clone, PartialEq)]
pub struct Job {
    /// What is inside, by the label.
    pub refrigerant: Refrigerant,
    /// How much, as printed.
    pub charge: ChargeLabel,
    /// Oil of the whole circuit, as printed.
    pub oil: Option<OilLabel>,
    /// Which oil, as printed.
    pub oil_kind: Option<Oil>,
    /// What drives the compressor.
    pub drive: Drive,
    /// What brought the car in.
    pub complaint: Complaint,
    /// The compressor, where it is replaced.
    pub compressor: Option<CompressorSwap>,
    /// The other parts replaced.
    pub parts: Vec<PartSwap>,
    /// Whether the whole circuit was flushed, or is new: then no old oil is left in it.
    pub flushed: bool,
    /// Oil that came out with the refrigerant, where it was measured.
    pub recovered_oil: Option<Volume>,
    /// How long the circuit stood open.
    pub open_for: Option<Time>,
    /// What fits into the charging hose.
    pub hose: Option<Volume>,
    /// Outside air.
    pub ambient: Option<Temperature>,
    /// Relative humidity of the outside air.
    pub humidity: Option<Ratio>,
    /// Altitude.
    pub altitude: Option<Length>,
    /// The evacuation asked for: the maker's, or [`Vacuum::PRINTED`].
    pub vacuum: Vacuum,
}

/// Oil of the whole circuit by the label: its cm³, or all that its ounces can mean.
fn label_volume(label: &OilLabel) -> Option<Range<Volume>> {
    if let Ok(volume) = label.volume() {
        return Some(volume);
    }
    if let Some(Amount::Volume(range)) = label.metric() {
        return Some(range);
    }
    let readings = label.readings();
    readings.iter().flat_map(|reading| &reading.trials).map(|trial| trial.volume).reduce(|a, b| a.hull(&b))
}

const NONE: Volume = Volume::from_cm3(0.0);

impl Job {
    /// The least that is needed: what is inside, how much, and what drives the compressor.
    pub fn new(refrigerant: Refrigerant, charge: ChargeLabel, drive: Drive) -> Self {
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
            vacuum: Vacuum::PRINTED,
        }
    }

    /// The sheet.
    ///
    /// ```
    /// use satline::Refrigerant;
    /// use satline::service::job::{Job, Kind};
    /// use satline::service::oil::kind::Drive;
    /// let job = Job::new(Refrigerant::R134a, "550 g".parse()?, Drive::Belt);
    /// let sheet = job.sheet()?;
    /// assert_eq!(sheet.lines[0].kind, Kind::BringOilHome { at_least: satline::quantity::Time::from_minutes(20.0) });
    /// assert_eq!(sheet.lines.last().unwrap().kind, Kind::Read);
    /// # Ok::<(), satline::Error>(())
    /// ```
    ///
    /// # Errors
    /// [`Error::MoreThanHolds`] for more oil out than the label says is in, [`Error::Impossible`] and [`Error::NotFinite`] for
    /// amounts that cannot be, [`Error::Implausible`] for an altitude or an ambient where nobody services cars, and
    /// [`Error::Missing`] where the maker's rule needs a figure that was not given.
    pub fn sheet(&self) -> Result<Sheet, Error> {
        self.check()?;
        let label_oil = self.oil.as_ref().and_then(label_volume);
        self.check_oil(label_oil)?;
        let air = air::pressure_at(self.altitude.unwrap_or(Length::from_m(0.0)))?;
        let oil = self.oil_lines(label_oil)?;
        let mut sheet = Sheet { job: self.clone(), label_oil, air, questions: self.questions(&oil), lines: Vec::new() };
        sheet.lines.extend(self.before());
        sheet.lines.extend(oil);
        sheet.lines.extend(self.after(air)?);
        Ok(sheet)
    }

    fn check(&self) -> Result<(), Error> {
        if let Some(ambient) = self.ambient
            && !(-40.0..=60.0).contains(&ambient.celsius())
        {
            return Err(Error::Implausible {
                what: "ambient",
                value: ambient.celsius(),
                low: -40.0,
                high: 60.0,
                unit: "°C",
            });
        }
        if let Some(time) = self.open_for {
            validate::not_negative("time the circuit stood open (min)", time)?;
        }
        validate::not_negative("volume of the hose (cm³)", self.hose.unwrap_or(NONE))?;
        if let Some(CompressorSwap { supplied: Some(Supplied::Filled { contents }), .. }) = self.compressor {
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
    fn check_oil(&self, label: Option<Range<Volume>>) -> Result<(), Error> {
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

    fn open_long(&self) -> bool {
        self.open_for.is_some_and(|time| time >= OPEN_LONG.value)
    }

    fn hazards(&self) -> Vec<Caution> {
        let mut hazards = vec![Caution::Frostbite, Caution::Asphyxiation];
        let class = self.refrigerant.fluid().safety_class.value;
        if class.is_flammable() {
            hazards.push(Caution::Flammable(class));
        }
        hazards
    }

    /// Compressed air burns with refrigerants under pressure; carbon dioxide does not.
    fn no_air_test(&self) -> Vec<Caution> {
        if self.refrigerant == Refrigerant::R744 { Vec::new() } else { vec![Caution::CompressedAir] }
    }

    /// Up to the open circuit.
    fn before(&self) -> Vec<Line> {
        let line = |kind, basis: &[Source], cautions: &[Caution]| Line {
            kind,
            basis: basis.to_vec(),
            cautions: cautions.to_vec(),
        };
        let mut lines = Vec::new();
        if self.complaint == Complaint::NoiseCoolsWell && self.drive == Drive::Belt {
            lines.push(line(
                Kind::ClutchFirst,
                &[references::FORESTER_2001, references::CLUTCH_GAPS, Source::COMMON_PRACTICE],
                &[Caution::Moving],
            ));
        }
        if self.drive == Drive::Electric {
            lines.push(line(
                Kind::MakeSafe,
                &[references::ELECTRIC_OIL, references::ELECTRIC_UNIT],
                &[Caution::HighVoltage],
            ));
        }
        if self.complaint == Complaint::Leaks {
            let mut hazards = self.hazards();
            hazards.extend(self.no_air_test());
            lines.push(line(Kind::FindLeak, &[references::NO_AIR_TEST, references::EU_REFILL], &hazards));
        }
        let noisy = matches!(self.complaint, Complaint::NoiseCoolsBadly | Complaint::NoiseCoolsWell);
        if !(noisy || self.complaint == Complaint::Leaks || self.flushed || self.drive == Drive::Electric) {
            lines.push(line(
                Kind::BringOilHome { at_least: Time::from_minutes(20.0) },
                &[references::SPECTRA5],
                &[Caution::Moving],
            ));
        }
        let mut hazards = self.hazards();
        // carbon dioxide is excepted from the US rule
        if self.refrigerant != Refrigerant::R744 {
            hazards.push(Caution::Venting);
        }
        lines.push(line(Kind::Recover, &[references::US_609, references::KIA_2004, Source::COMMON_PRACTICE], &hazards));
        lines.push(line(Kind::Open, &[references::CAPS, references::LINES], &self.hazards()));
        lines
    }

    /// Drier, rings and oil.
    fn oil_lines(&self, label: Option<Range<Volume>>) -> Result<Vec<Line>, Error> {
        let mut lines = Vec::new();
        let mut push = |kind, basis: Vec<Source>, cautions: Vec<Caution>| lines.push(Line { kind, basis, cautions });
        if let Some(swap) = self.compressor {
            let little = swap.drained.is_some_and(|drained| drained.value() < compressor::LITTLE.value.low);
            push(
                Kind::Drain { drained: swap.drained, little },
                vec![
                    references::GRAND_AM_1995,
                    references::FREELANDER_2002,
                    references::MITSUBISHI_2022,
                    compressor::LITTLE.source,
                ],
                Vec::new(),
            );
        }
        let listed = self.parts.iter().any(|swap| matches!(swap.part, Part::ReceiverDrier | Part::Accumulator));
        push(
            Kind::Drier { listed, open_long: self.open_long() },
            vec![references::DRIER_SUPPLIERS, references::TIGUAN_2023, references::OPEN_FOR_DAYS],
            Vec::new(),
        );
        push(
            Kind::Rings,
            vec![references::MINERAL_ON_RINGS, references::PAG_ON_RINGS, references::OIL_ON_RINGS],
            if self.drive == Drive::Electric { vec![Caution::ForeignOil] } else { Vec::new() },
        );
        let advice = self.oil_kind.map(|oil| oil.in_circuit(self.refrigerant, self.drive));
        push(
            Kind::OilKind { oil: self.oil_kind, advice },
            advice.map_or(vec![Source::COMMON_PRACTICE], |advice| vec![advice.source]),
            if self.drive == Drive::Electric { vec![Caution::ForeignOil] } else { Vec::new() },
        );
        if self.oil.is_some() {
            push(Kind::LabelOil { range: label }, vec![references::GIVEN], Vec::new());
        }
        if self.flushed {
            push(Kind::WholeOil { label }, vec![references::GIVEN, Source::COMMON_PRACTICE], Vec::new());
            return Ok(lines);
        }
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
            push(Kind::PartOil { part: swap.part, oil }, basis, Vec::new());
        }
        push(
            Kind::OilBack { recovered: self.recovered_oil, in_compressor: carries },
            vec![references::GMC_1994, references::KIA_2004, compressor::RECOVERED.source],
            Vec::new(),
        );
        if let Some(oil) = compressor {
            let basis = match &oil {
                CompressorOil::Published { spread, .. } => {
                    sources(spread.outcomes.iter().map(|(rule, _)| rule.source).chain([compressor::RESIDUAL.source]))
                }
                CompressorOil::Makers { .. } => vec![references::GIVEN],
                CompressorOil::NotMeasured => vec![references::GRAND_AM_1995, references::FREELANDER_2002],
            };
            push(Kind::CompressorOil(Box::new(oil)), basis, Vec::new());
        }
        Ok(lines)
    }

    fn compressor_oil(&self, swap: &CompressorSwap) -> Result<CompressorOil, Error> {
        let Some(drained) = swap.drained else { return Ok(CompressorOil::NotMeasured) };
        let mut applied = Swap {
            supplied: swap.supplied.unwrap_or(Supplied::Emptied),
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
        if let (Rule::Subtract { .. }, Some(makers)) = (rule, makers) {
            applied.other_parts = makers.iter().fold(NONE, |sum, figure| sum + figure.at(0.5));
            applied.recovered = self.recovered_oil.unwrap_or(NONE);
        }
        Ok(CompressorOil::Makers { rule, swap: applied, outcome: rule.apply(&applied)? })
    }

    fn questions(&self, oil: &[Line]) -> Vec<Question> {
        let mut questions = Vec::new();
        if let (Some(swap), false) = (self.compressor, self.flushed) {
            if swap.drained.is_none() {
                questions.push(Question::Drained);
            }
            if swap.rule.is_none() {
                questions.push(Question::CompressorRule);
            }
            if swap.supplied.is_none() {
                questions.push(Question::Supplied);
            }
        }
        for line in oil {
            if let Kind::PartOil { part, oil: PartOil::Published(_) | PartOil::Unknown } = &line.kind {
                questions.push(Question::PartFigure(*part));
            }
        }
        match &self.oil {
            None => questions.push(Question::OilAmount),
            Some(label) => {
                let verdicts: Vec<Verdict> = label.readings().into_iter().map(|reading| reading.verdict).collect();
                if verdicts.contains(&Verdict::Contradiction) {
                    questions.push(Question::Contradiction);
                }
                if label.metric().is_none() && verdicts.iter().any(|verdict| matches!(verdict, Verdict::Ask(_))) {
                    questions.push(Question::WhichOunce);
                }
            }
        }
        match self.oil_kind.map(|oil| oil.in_circuit(self.refrigerant, self.drive).verdict) {
            None => questions.push(Question::OilKind),
            Some(OilVerdict::Wrong | OilVerdict::RuinsInsulation) => questions.push(Question::OilUnsuited),
            Some(_) => {}
        }
        if self.ambient.is_none() {
            questions.push(Question::Ambient);
        }
        questions
    }

    /// From closing the circuit to the reading.
    fn after(&self, air: Measured<Pressure>) -> Result<Vec<Line>, Error> {
        let mut lines = Vec::new();
        let mut push = |kind, basis: Vec<Source>, cautions: Vec<Caution>| lines.push(Line { kind, basis, cautions });
        if self.compressor.is_some() && self.drive == Drive::Belt {
            push(Kind::TurnByHand, vec![TURNS.source], Vec::new());
        }
        push(Kind::Tighten, vec![references::LINES], Vec::new());
        if self.compressor.is_some() && self.drive == Drive::Belt {
            push(Kind::Belt, vec![Source::COMMON_PRACTICE], vec![Caution::Moving]);
        }
        let mut basis = vec![self.vacuum.source, references::ARMY_292, DEEP_VACUUM.source];
        if self.open_long() {
            basis.push(references::OPEN_FOR_DAYS);
        }
        let gauge = self.vacuum.gauge(air.value());
        let electric = (self.drive == Drive::Electric).then_some(Caution::VoltageInVacuum);
        push(Kind::Evacuate { gauge, open_long: self.open_long() }, basis, electric.into_iter().collect());
        push(
            Kind::Hold,
            vec![self.vacuum.source, references::NO_AIR_TEST, GATE_PASSES.source, Source::COMMON_PRACTICE],
            self.no_air_test().into_iter().chain(electric).collect(),
        );
        let hose = match (self.hose, self.ambient) {
            (Some(volume), Some(ambient)) => Some(kept(volume, self.refrigerant, ambient)?),
            _ => None,
        };
        let mut hazards = self.hazards();
        hazards.push(Caution::Backflow);
        push(
            Kind::Charge { hose },
            vec![
                references::GIVEN,
                references::ARMY_3805,
                references::ARMY_2420,
                references::CHARGE_ARTICLE,
                references::CHARGE_PATENT,
            ],
            hazards,
        );
        let name = self.refrigerant.designation();
        let scales: Vec<&'static Scale> = leak::DETECTORS.iter().filter(|scale| scale.looks_for == name).collect();
        let mut basis: Vec<Source> = sources(scales.iter().map(|scale| scale.source));
        let warms = |gwp: &Gwp| matches!(gwp.value, GwpValue::Is(value) if value > leak::EU_WARMING_ABOVE.value);
        let allowed = self.refrigerant.fluid().gwp.iter().any(warms).then(|| {
            basis.push(leak::EU_ONE_EVAPORATOR.source);
            leak::EU_ONE_EVAPORATOR.value
        });
        let nine_tenths = Ratio::from_percent(90.0);
        let lasts = |scale: &&Scale| {
            let time = leak::time_to_share(self.charge.nominal(), scale.leak, nine_tenths, Course::Steady)?;
            Ok((scale.leak, time))
        };
        let tenth = scales.iter().map(lasts).collect::<Result<_, Error>>()?;
        let mut hazards = self.hazards();
        hazards.push(Caution::Moving);
        push(Kind::LeakCheck { scales, allowed, tenth }, basis, hazards);
        push(Kind::Read, vec![Source::COMMON_PRACTICE], vec![Caution::Frostbite, Caution::Moving]);
        Ok(lines)
    }
}

/// Each source once, in order.
fn sources(of: impl Iterator<Item = Source>) -> Vec<Source> {
    let mut list: Vec<Source> = Vec::new();
    for source in of {
        if !list.contains(&source) {
            list.push(source);
        }
    }
    list
}
