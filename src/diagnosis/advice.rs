//! Advice drawn from a diagnosis: the headline, reasons to stop, the next steps. Every threshold of a decision is here.

use super::assessment::{Assessment, Judged, JudgedQuantity};
use super::causes::CauseId;
use super::next_measurement::{NextMeasurement, Outcome};
use super::posterior_summary::{AmbiguityGroup, CauseProbability, Posterior};
use crate::circuit::lowest_cut_out;
use crate::expected::{EqualisedCheck, EqualisedVerdict};
use crate::inspection::{Measurand, MeasurandKind, MeasuredWhen, Observation, Reading};
use crate::numeric::sort_by_number;
use crate::quantity::{Position, Quantity, Uncertainty};
use crate::{GaugePressure, Measured, PressureDifference};

/// Advice on a diagnosis: the conclusion as a headline, reasons to stop, the next steps, and the causes worth naming.
#[derive(Debug, Clone, PartialEq)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(deny_unknown_fields))]
#[non_exhaustive]
pub struct Advice {
    /// Conclusion of the diagnosis, in one headline.
    pub headline: Headline,
    /// Actions required before anything is measured, such as switching off.
    pub stops: Vec<Stop>,
    /// Recommended next steps, in order.
    pub next: Vec<NextStep>,
    /// Gauges that were not read, at this reading or another; empty for an equalised circuit.
    pub unread_gauges: Vec<Measurand>,
    /// The ambiguity groups worth naming, the most probable first.
    pub leading: Vec<LeadingGroup>,
    /// All other causes together; `None` if their probability is not worth naming.
    pub others: Option<OtherCauses>,
    /// The two leading causes, if the measurements do not distinguish them; otherwise `None`.
    pub indistinguishable: Option<[CauseId; 2]>,
    /// Causes that are not ruled out, as in most of their circuits the measurements would not detect them.
    pub undetectable: Vec<CauseId>,
}

/// Conclusion of a diagnosis in one statement.
#[derive(Debug, Clone, PartialEq)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(
    feature = "serde",
    derive(serde::Serialize, serde::Deserialize),
    serde(tag = "id", rename_all = "kebab-case", deny_unknown_fields)
)]
#[non_exhaustive]
pub enum Headline {
    /// Compared with charts and rules of thumb alone; no cause is named.
    ComparedOnly {
        /// Whether the low side alone was read, and shows the pressure of the air.
        low_side_at_air: bool,
    },
    /// Both gauges show the pressure of the air: the circuit is empty, or the gauges are not connected.
    #[cfg_attr(feature = "serde", serde(deserialize_with = "crate::service::no_fields"))]
    Empty,
    /// The compressor is called to run, but both gauges show the same, clearly below saturation at the ambient
    /// temperature: it pumps nothing, and no liquid is left for it to pump.
    #[cfg_attr(feature = "serde", serde(deserialize_with = "crate::service::no_fields"))]
    NoLiquidLeft,
    /// The liquid line is colder than the air that cools the condenser: the pressure falls before the clamp, at a restriction.
    #[cfg_attr(feature = "serde", serde(deserialize_with = "crate::service::no_fields"))]
    LiquidLineBelowAmbient,
    /// The high side shows the pressure of the air, and the low side was not read.
    #[cfg_attr(feature = "serde", serde(deserialize_with = "crate::service::no_fields"))]
    HighSideAtAir,
    /// The circuit is equalised: the comparison of its gauges with saturation is the conclusion.
    #[cfg_attr(feature = "serde", serde(deserialize_with = "crate::service::no_fields"))]
    Equalised,
    /// The readings are outside the model: no simulated circuit resembles them.
    OutsideModel {
        /// Whether the low side alone was read, and shows the pressure of the air.
        low_side_at_air: bool,
    },
    /// Nothing in the readings is unusual, but too little was read to call the circuit healthy.
    NothingUnusualYet {
        /// Whether the low side alone was read, and shows the pressure of the air.
        low_side_at_air: bool,
        /// Posterior probability of no fault.
        no_fault: f64,
    },
    /// Every reading lies inside the range of healthy circuits, and no fault is likelier than none.
    Healthy {
        /// Posterior probability of no fault.
        no_fault: f64,
    },
    /// At least one quantity is outside the window of healthy circuits, or all are inside and a fault explains them better together;
    /// but a healthy circuit could show it.
    Unusual {
        /// Whether the low side alone was read, and shows the pressure of the air.
        low_side_at_air: bool,
        /// Quantities outside the window of healthy circuits.
        outside: Vec<Outside>,
        /// Most probable explanation of the readings.
        likeliest: Likeliest,
        /// Posterior probability of no fault; `None` if that is itself the most probable explanation.
        no_fault: Option<f64>,
    },
    /// Something is wrong with the circuit.
    Faulty {
        /// Whether the low side alone was read, and shows the pressure of the air.
        low_side_at_air: bool,
        /// Quantities outside the window of healthy circuits.
        outside: Vec<Outside>,
        /// Most probable explanation of the readings.
        likeliest: Likeliest,
    },
}

impl Headline {
    /// Most probable explanation of the readings; `None` if the headline names none.
    pub fn likeliest(&self) -> Option<&Likeliest> {
        match self {
            Self::Unusual { likeliest, .. } | Self::Faulty { likeliest, .. } => Some(likeliest),
            _ => None,
        }
    }

    /// Whether the circuit is called healthy.
    fn is_healthy(&self) -> bool {
        matches!(self, Self::Healthy { .. })
    }

    /// Whether `measurand` is not asked for: of a circuit that is called healthy, none for which it is stopped or opened.
    fn spares(&self, measurand: Measurand) -> bool {
        measurand.when() != MeasuredWhen::Running && self.is_healthy()
    }

    /// Whether the headline is drawn from the causes or leaves the conclusion to them, so that their probabilities belong beside it.
    pub fn weighs_causes(&self) -> bool {
        self.likeliest().is_some() || matches!(self, Self::NothingUnusualYet { .. } | Self::Healthy { .. })
    }

    /// Whether the headline says that there is next to nothing in the circuit, so that no cause of a running one is
    /// named and nothing is measured that needs it to run.
    pub(crate) fn says_empty(&self) -> bool {
        matches!(self, Self::Empty | Self::NoLiquidLeft | Self::HighSideAtAir)
    }
}

/// A quantity that is clearly outside the window of healthy circuits.
#[derive(Debug, Clone, Copy, PartialEq)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(deny_unknown_fields))]
#[non_exhaustive]
pub struct Outside {
    /// Quantity outside its window.
    pub quantity: JudgedQuantity,
    /// Position relative to the window: below or above.
    pub position: Position,
}

/// Most probable explanation of the readings: one cause or an ambiguity group, with its probability.
#[derive(Debug, Clone, PartialEq)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(deny_unknown_fields))]
#[non_exhaustive]
pub struct Likeliest {
    /// Causes of the explanation: one, or an ambiguity group.
    pub causes: Vec<CauseId>,
    /// Marginal probability of the first cause, alone or together with another fault.
    pub probability: f64,
    /// Whether part of the probability is that of combinations with another fault.
    pub combined: bool,
    /// Whether the explanation is settled: its marginal probability is at least 75 %.
    pub settled: bool,
}

/// An ambiguity group worth naming, with its probability and the strongest evidence for and against it.
#[derive(Debug, Clone, PartialEq)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(deny_unknown_fields))]
#[non_exhaustive]
pub struct LeadingGroup {
    /// Causes of the group, the most probable first.
    pub causes: Vec<CauseId>,
    /// Probability of all causes of the group together.
    pub probability: f64,
    /// Measured values that support the group most, as indices of the predicted values of its first cause.
    pub supporting: Vec<usize>,
    /// Measured values that contradict the group most, as indices of the predicted values of its first cause.
    pub contradicting: Vec<usize>,
}

/// All causes except the leading ones: their number and total probability.
#[derive(Debug, Clone, Copy, PartialEq)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(deny_unknown_fields))]
#[non_exhaustive]
pub struct OtherCauses {
    /// Number of other causes.
    pub count: usize,
    /// Probability of the other causes together.
    pub probability: f64,
}

/// An action required before anything is measured, with its reason.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(rename_all = "kebab-case"))]
#[non_exhaustive]
pub enum Stop {
    /// Switch off: the low side is in vacuum, and the compressor loses its oil return and its cooling.
    LowSideInVacuum,
    /// Switch off: the high side is at or above the pressure at which makers' switches cut out.
    HighSideAtCutOut,
}

/// A recommended next step: a remedy, a measurement, or a repeated test.
#[derive(Debug, Clone, PartialEq)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(
    feature = "serde",
    derive(serde::Serialize, serde::Deserialize),
    serde(tag = "id", rename_all = "kebab-case", deny_unknown_fields)
)]
#[non_exhaustive]
pub enum NextStep {
    /// Remedy for the most probable cause.
    Remedy {
        /// Cause to remedy.
        cause: CauseId,
    },
    /// Measure a quantity that distinguishes causes; its predicted outcomes are listed with the causes.
    Measure {
        /// Quantity to measure.
        measurand: Measurand,
    },
    /// Add no refrigerant by the low side alone.
    NoChargeByLowSide {
        /// Marginal probability of a low charge; `None` if no probability can be stated.
        undercharge: Option<f64>,
        /// Whether a low charge is unlikely.
        unlikely: bool,
        /// Whether a low charge is settled, but not how much is missing.
        settled: bool,
    },
    /// Measure a quantity that is always worth having.
    Usual {
        /// Quantity to measure.
        measurand: Measurand,
    },
    /// Measure the ambient temperature.
    #[cfg_attr(feature = "serde", serde(deserialize_with = "crate::service::no_fields"))]
    Ambient,
    /// Measure the humidity.
    #[cfg_attr(feature = "serde", serde(deserialize_with = "crate::service::no_fields"))]
    Humidity,
    /// Repeat the test under the conditions that the charts ask for, unless it was run under them.
    #[cfg_attr(feature = "serde", serde(deserialize_with = "crate::service::no_fields"))]
    RepeatAsChartsAsk,
    /// Compare the temperatures of an equalised circuit.
    #[cfg_attr(feature = "serde", serde(deserialize_with = "crate::service::no_fields"))]
    CompareTemperatures,
    /// Let an equalised circuit cool down fully, and read it again.
    #[cfg_attr(feature = "serde", serde(deserialize_with = "crate::service::no_fields"))]
    CoolDownAndRepeat,
    /// Follow the liquid line from the condenser for the place at which it turns cold.
    #[cfg_attr(feature = "serde", serde(deserialize_with = "crate::service::no_fields"))]
    FollowLiquidLine,
    /// Keep the compressor off: without liquid no oil returns to it.
    #[cfg_attr(feature = "serde", serde(deserialize_with = "crate::service::no_fields"))]
    KeepCompressorOff,
    /// Read the same gauges with the compressor running.
    #[cfg_attr(feature = "serde", serde(deserialize_with = "crate::service::no_fields"))]
    ReadRunning,
}

impl NextStep {
    /// When the step measures its quantity; `None` for a step that measures none.
    fn when(&self) -> Option<MeasuredWhen> {
        match self {
            Self::Measure { measurand } | Self::Usual { measurand } => Some(measurand.when()),
            Self::Ambient | Self::Humidity => Some(MeasuredWhen::Running),
            Self::Remedy { .. }
            | Self::NoChargeByLowSide { .. }
            | Self::RepeatAsChartsAsk
            | Self::CompareTemperatures
            | Self::CoolDownAndRepeat
            | Self::FollowLiquidLine
            | Self::KeepCompressorOff
            | Self::ReadRunning => None,
        }
    }

    /// Whether the step says what must not be done.
    fn is_prohibition(&self) -> bool {
        matches!(self, Self::NoChargeByLowSide { .. })
    }

    /// Whether the step says what `told` said, but for a probability.
    fn repeats(&self, told: &Self) -> bool {
        self == told || self.is_prohibition() && told.is_prohibition()
    }
}

/// A question worth putting to the person at the car.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub enum AdvisedQuestion {
    /// What a step of [`Advice::next`] measures.
    Measured(NextStep),
    /// Whether an observation is made that goes with a cause worth naming.
    Observed {
        /// Observation to look for.
        observation: Observation,
        /// Cause that it goes with.
        cause: CauseId,
    },
}

/// A probability of 95 %, as printed, and more counts as settled by the instruments: the same share as the intervals;
/// our choice.
const CLEAR: f64 = 0.945;

/// Below this marginal probability a cause is not settled; our choice.
const SETTLED: f64 = 0.75;

/// From this probability of another refrigerant on nothing else fits; our choice.
const NOTHING_ELSE_FITS: f64 = 0.8;

/// Whether a cause of this marginal probability is settled.
fn is_settled(marginal: f64) -> bool {
    marginal >= SETTLED
}

/// From this difference on, a marginal probability is more than that of the cause alone; our choice.
const COMBINED: f64 = 0.005;

/// A group is worth naming from this probability on; our choice.
const WORTH_NAMING: f64 = 0.05;
/// And from this fraction of the first group's; our choice.
const WORTH_NAMING_OF_FIRST: f64 = 0.1;

/// Largest number of groups named; our choice.
const MOST_NAMED: usize = 4;

/// A second group within this factor of the first is not distinguished from it; our choice.
const INDISTINGUISHABLE: f64 = 0.5;

/// From this Bayes factor on a value speaks for a cause, from its inverse on against it; our choice.
const SPEAKS: f64 = 2.0;

/// Largest number of values named for and of values named against a cause; our choice.
const MOST_REASONS: usize = 2;

/// A measurement is worth a trip to the car from this expected information gain on, in bits; our choice.
const WORTH_MEASURING: f64 = 0.1;

/// Largest number of such measurements named; our choice.
const MOST_MEASUREMENTS: usize = 2;

/// Largest number of observations asked for on one visit: each changes little; our choice.
const MOST_OBSERVATIONS: usize = 3;

/// A low charge below this marginal probability is called unlikely; our choice.
const UNLIKELY: f64 = 0.02;

/// Whether the instruments leave no doubt worth a word about a verdict of this probability.
#[must_use]
pub(crate) fn is_clear(probability: f64) -> bool {
    probability >= CLEAR
}

impl Advice {
    /// The advice on a reading with its assessment and the posterior of its inspection.
    pub(super) fn of(reading: &Reading, assessment: &Assessment, posterior: Option<&Posterior>) -> Self {
        let judged = assessment.judged(reading);
        let groups = posterior.map_or(Vec::new(), in_leading_order);
        let view = posterior.map(|posterior| View { posterior, groups: &groups });
        let stops = stops(reading);
        let unread_gauges = unread_gauges(reading, posterior);
        let headline = headline(reading, view.as_ref(), &judged);
        let mut leading = view.as_ref().map_or(Vec::new(), View::leading);
        let healthy = headline.is_healthy();
        if healthy {
            // what nothing speaks for is not listed
            leading.truncate(1);
        }
        if matches!(headline, Headline::LiquidLineBelowAmbient) {
            // no cause has its restriction before the clamp
            leading.clear();
        }
        Self {
            next: next(reading, assessment, view.as_ref(), &stops, &headline),
            headline,
            others: view.as_ref().filter(|_| !healthy && !leading.is_empty()).and_then(|view| view.others(&leading)),
            indistinguishable: match leading.as_slice() {
                [first, second, ..] if second.probability > INDISTINGUISHABLE * first.probability => {
                    Some([first.causes[0], second.causes[0]])
                }
                _ => None,
            },
            // a combination is undetectable where its parts are
            undetectable: posterior
                .filter(|posterior| !posterior.is_faulty())
                .map_or(Vec::new(), |posterior| posterior.undetectable().filter(is_single).collect()),
            stops,
            unread_gauges,
            leading,
        }
    }
}

impl Advice {
    /// Questions worth putting to the person at the car, in the order of the work: what is measured while the compressor runs,
    /// observations that go with the causes worth naming, what the engine is stopped for, what the charge is recovered for.
    ///
    /// `reached` is the last state in which something was measured: nobody starts a stopped engine for one more question, and a
    /// recovered circuit does not run. `observed` are the observations asked for so far. Once the headline's explanation is settled,
    /// neither an observation nor what is merely usual is worth a question; nor is an observation of a circuit that must not run.
    pub fn questions(&self, reached: MeasuredWhen, observed: &[Observation]) -> Vec<AdvisedQuestion> {
        let settled = self.headline.likeliest().is_some_and(|likeliest| likeliest.settled);
        let is_asked = |step: &&NextStep| !(settled && matches!(step, NextStep::Usual { .. }));
        let measured = self.next.iter().filter(is_asked);
        let measured = measured.filter_map(|step| Some((step.when()?, AdvisedQuestion::Measured(step.clone()))));
        let mut questions: Vec<(MeasuredWhen, AdvisedQuestion)> = measured.collect();
        if self.headline.weighs_causes() && !settled && self.stops.is_empty() {
            let observations = self.observations(observed).into_iter();
            questions.extend(observations.map(|question| (MeasuredWhen::Running, question)));
        }
        questions.retain(|(when, _)| *when >= reached);
        // stable: the order of the steps, then the observations, within each state
        questions.sort_by_key(|(when, _)| *when);
        questions.into_iter().map(|(_, question)| question).collect()
    }

    /// Questions worth putting before anything is known, of a circuit that runs or is equalised: both gauges, then the air around it.
    ///
    /// Where neither gauge can be read, `unavailable`, a thermometer follows: at the vent, which needs no clamp, or on one of the lines.
    /// Any one of these readings will do.
    pub fn opening_questions(state: MeasuredWhen, unavailable: &[Measurand]) -> Vec<AdvisedQuestion> {
        let gauges = [Measurand::LowSide, Measurand::HighSide];
        let thermometers = [Measurand::Vent, Measurand::SuctionLine, Measurand::LiquidLine];
        let usual = |measurand| AdvisedQuestion::Measured(NextStep::Usual { measurand });
        let mut questions = gauges.map(usual).to_vec();
        questions.push(AdvisedQuestion::Measured(NextStep::Ambient));
        if state == MeasuredWhen::Running {
            questions.push(AdvisedQuestion::Measured(NextStep::Humidity));
            if gauges.iter().all(|gauge| unavailable.contains(gauge)) {
                questions.extend(thermometers.map(usual));
            }
        }
        questions
    }

    /// Steps that do not wait for a measurement: what stands before the first one, and what must not be done; without those `told`.
    pub fn immediate_steps(&self, told: &[NextStep]) -> Vec<NextStep> {
        let first = self.next.iter().position(|step| step.when().is_some()).unwrap_or(self.next.len());
        let is_told = |step: &NextStep| told.iter().any(|told| step.repeats(told));
        let steps = self.next.iter().enumerate();
        let steps = steps.filter(|(place, step)| *place < first || step.is_prohibition()).map(|(_, step)| step);
        steps.filter(|step| !is_told(step)).cloned().collect()
    }

    /// The observations that go with the causes worth naming and were not asked for, those of the most probable cause first.
    fn observations(&self, observed: &[Observation]) -> Vec<AdvisedQuestion> {
        let mut asked = observed.to_vec();
        let mut questions = Vec::new();
        for &cause in self.leading.iter().flat_map(|group| &group.causes) {
            for &(observation, _) in cause.cause().found {
                if asked.len() < MOST_OBSERVATIONS && !asked.contains(&observation) {
                    asked.push(observation);
                    questions.push(AdvisedQuestion::Observed { observation, cause });
                }
            }
        }
        questions
    }
}

/// Whether a cause is one fault.
fn is_single(cause: &CauseId) -> bool {
    cause.cause().faults.len() == 1
}

/// The groups of `posterior`, the most probable first; another refrigerant than that on the label behind the next, unless it may lead.
///
/// It may lead where its signs are there, pressures at rest or what names it, or where nothing else fits; not against a weighed charge
/// that a shortfall explains. Running pressures alone are those of some refrigerant in any circuit.
fn in_leading_order(posterior: &Posterior) -> Vec<AmbiguityGroup<'_>> {
    let mut groups = posterior.groups();
    let has = |measurand| was_measured(posterior, measurand);
    let of_others = || posterior.causes.iter().filter(|one| one.cause.is_other_refrigerant());
    let named = of_others().any(|one| one.observation_bayes_factor >= SPEAKS);
    let alone = of_others().map(|one| one.probability).sum::<f64>() >= NOTHING_ELSE_FITS;
    let short = has(Measurand::RecoveredCharge) && posterior.marginal_probability(CauseId::Undercharge) >= WORTH_NAMING;
    let may_lead = !short && (has(Measurand::EqualisedPressure) || named || alone);
    if !may_lead && let Some(first) = groups.iter().position(|group| !is_other_refrigerant(group)) {
        groups[..=first].rotate_right(1);
    }
    groups
}

fn is_other_refrigerant(group: &AmbiguityGroup) -> bool {
    group.causes[0].cause.is_other_refrigerant()
}

/// Whether `measurand` is among what the causes were compared by.
fn was_measured(posterior: &Posterior, measurand: Measurand) -> bool {
    let first = posterior.causes.first();
    first.is_some_and(|one| one.predicted.iter().any(|value| value.measurand == measurand))
}

/// The posterior in its groups.
struct View<'a> {
    posterior: &'a Posterior,
    groups: &'a [AmbiguityGroup<'a>],
}

impl View<'_> {
    /// The group whose first cause has the largest marginal probability; another refrigerant only where it may lead.
    fn likeliest(&self) -> Option<(&AmbiguityGroup<'_>, f64)> {
        let marginal = |group: &AmbiguityGroup| self.posterior.marginal_probability(group.causes[0].cause);
        let others_lead = self.groups.first().is_some_and(is_other_refrigerant);
        let with = self.groups.iter().filter(|group| others_lead || !is_other_refrigerant(group));
        let with = with.map(|group| (group, marginal(group)));
        with.max_by(|a, b| a.1.total_cmp(&b.1))
    }

    /// Whether no fault is likelier than any.
    fn no_fault_leads(&self) -> bool {
        self.groups.first().is_some_and(|group| matches!(group.causes[0].cause, CauseId::NoFault))
    }

    fn leading(&self) -> Vec<LeadingGroup> {
        let least = self.groups.first().map_or(0.0, |first| WORTH_NAMING_OF_FIRST * first.probability);
        let least = least.max(WORTH_NAMING);
        let worth = |(place, group): &(usize, &AmbiguityGroup)| *place == 0 || group.probability >= least;
        let named = self.groups.iter().take(MOST_NAMED).enumerate().take_while(worth);
        named
            .map(|(_, group)| LeadingGroup {
                causes: group.causes.iter().map(|one| one.cause).collect(),
                probability: group.probability,
                supporting: speaking(group.causes[0], |factor| factor >= SPEAKS),
                contradicting: speaking(group.causes[0], |factor| factor <= SPEAKS.recip()),
            })
            .collect()
    }

    fn others(&self, leading: &[LeadingGroup]) -> Option<OtherCauses> {
        let probability = 1.0 - leading.iter().map(|group| group.probability).sum::<f64>();
        let named: usize = leading.iter().map(|group| group.causes.len()).sum();
        let others = OtherCauses { count: self.posterior.causes.len() - named, probability };
        (probability > WORTH_NAMING).then_some(others)
    }

    /// Gauges that were not read and could be.
    fn unread(&self) -> impl Iterator<Item = &NextMeasurement> {
        let is_gauge = |one: &&NextMeasurement| matches!(one.measurand, Measurand::LowSide | Measurand::HighSide);
        self.posterior.next.iter().filter(is_gauge)
    }

    /// The most informative measurements, and the gauges that were not read, as far as they distinguish causes; the
    /// easier first.
    fn measurements(&self, headline: &Headline) -> Vec<Measurand> {
        let next = &self.posterior.next;
        let tells = |one: &&NextMeasurement| {
            !headline.spares(one.measurand)
                && one.information_bits >= WORTH_MEASURING
                && is_told_apart(one)
                && one.outcomes.iter().take(2).all(|outcome| is_plausible(one.measurand, outcome))
        };
        let mut chosen: Vec<&NextMeasurement> = next.iter().filter(tells).take(MOST_MEASUREMENTS).collect();
        chosen.sort_by_key(|one| one.measurand.effort());
        for gauge in self.unread().filter(|one| is_told_apart(one)) {
            if !chosen.iter().any(|one| one.measurand == gauge.measurand) {
                chosen.push(gauge);
            }
        }
        chosen.sort_by_key(|one| one.measurand.effort());
        chosen.iter().map(|one| one.measurand).collect()
    }

    /// The remedy for the most probable cause, and whether it can wait: where a gauge was not read and no cause is settled, no
    /// part is worth touching before more is read.
    fn remedy(&self) -> Option<(NextStep, bool)> {
        if !self.posterior.is_faulty() || self.posterior.outside_model {
            return None;
        }
        let (group, marginal) = self.likeliest()?;
        let waits = !is_settled(marginal) && self.unread().next().is_some();
        Some((NextStep::Remedy { cause: group.causes[0].cause }, waits))
    }

    /// Where the low side is the only gauge and nothing was weighed: it does not show how much is missing, even where it shows that
    /// some is.
    fn no_charge_by_low_side(&self) -> Option<NextStep> {
        let mut unread = self.unread();
        let high_alone =
            unread.next().is_some_and(|one| one.measurand == Measurand::HighSide) && unread.next().is_none();
        let undercharge = self.posterior.marginal_probability(CauseId::Undercharge);
        let outside = self.posterior.outside_model;
        let is_weighed = was_measured(self.posterior, Measurand::RecoveredCharge);
        (high_alone && !is_weighed).then_some(NextStep::NoChargeByLowSide {
            undercharge: (!outside).then_some(undercharge),
            unlikely: !outside && undercharge < UNLIKELY,
            settled: !outside && is_settled(undercharge),
        })
    }
}

/// The places of the values that speak loudest for or against a cause.
fn speaking(one: &CauseProbability, speaks: impl Fn(f64) -> bool) -> Vec<usize> {
    let loudness = |place: &usize| one.predicted[*place].bayes_factor.ln().abs();
    let mut places: Vec<usize> =
        (0..one.predicted.len()).filter(|&place| speaks(one.predicted[place].bayes_factor)).collect();
    sort_by_number(&mut places, |place| -loudness(place));
    places.truncate(MOST_REASONS);
    places
}

/// What two of three circuits keep within, the instrument included.
pub(crate) fn outcome_uncertainty(measurand: Measurand, outcome: &Outcome) -> f64 {
    outcome.standard_deviation.hypot(measurand.usual_uncertainty())
}

/// Whether the first two outcomes lie further apart than either scatters: else no value would speak for one of them.
fn is_told_apart(one: &NextMeasurement) -> bool {
    let [first, second, ..] = one.outcomes.as_slice() else { return false };
    let value = |outcome: &Outcome| match one.measurand.kind() {
        MeasurandKind::Pressure => outcome.mean.exp(),
        _ => outcome.mean,
    };
    let scatter = |outcome: &Outcome| match one.measurand.kind() {
        MeasurandKind::Pressure => value(outcome) * outcome_uncertainty(one.measurand, outcome),
        _ => outcome_uncertainty(one.measurand, outcome),
    };
    (value(first) - value(second)).abs() > scatter(first).max(scatter(second))
}

/// Whether a line can have the temperature at all: nobody is sent to one that it cannot.
fn is_plausible(measurand: Measurand, outcome: &Outcome) -> bool {
    measurand.kind() != MeasurandKind::Temperature || outcome.mean <= HOTTEST_MEASURED_C
}

/// The hottest line that anybody is sent to, °C; common practice, no source: hoses give way above.
const HOTTEST_MEASURED_C: f64 = 150.0;

/// Whether a gauge pressure is zero within its uncertainty: the pressure of the air.
fn at_air(gauge: &Measured<GaugePressure>) -> bool {
    gauge.value().si().abs() <= gauge.expanded().si()
}

/// Whether both gauges of a circuit called to run show the same, clearly below saturation at the ambient temperature. A compressor
/// that turns would hold them apart, and liquid would hold both at saturation: a low-pressure switch keeps it off.
fn no_liquid_left(reading: &Reading) -> bool {
    let (Some(low), Some(high), Some(ambient)) = (reading.low(), reading.high(), reading.ambient()) else {
        return false;
    };
    // no saturation at this temperature, no statement
    EqualisedCheck::of(reading.refrigerant(), &low, &high, &reading.air(), &ambient)
        .is_ok_and(|check| check.verdict == EqualisedVerdict::LiquidGone && check.probability.is_some_and(is_clear))
}

/// Whether both gauges of a circuit called to run show the same, within what they can show.
fn is_level(reading: &Reading) -> bool {
    let (Some(low), Some(high)) = (reading.low(), reading.high()) else { return false };
    let noticeable = PressureDifference::combine(&[low.expanded(), high.expanded()]);
    (high.value() - low.value()).pa().abs() <= noticeable.pa()
}

/// Whether the liquid line is clearly colder than the air. No condenser cools it further than that.
fn liquid_line_below_ambient(reading: &Reading) -> bool {
    let (Some(line), Some(ambient)) = (reading.temperature(Measurand::LiquidLine), reading.ambient()) else {
        return false;
    };
    let uncertainty = line.expanded().kelvins().hypot(ambient.expanded().kelvins());
    (ambient.value() - line.value()).kelvins() > uncertainty
}

fn headline(reading: &Reading, view: Option<&View>, judged: &[Judged]) -> Headline {
    let (low, high) = (reading.low(), reading.high());
    match (&low, &high) {
        (Some(low), Some(high)) if at_air(low) && at_air(high) => return Headline::Empty,
        (None, Some(high)) if at_air(high) => return Headline::HighSideAtAir,
        _ => {}
    }
    if !reading.is_running() {
        return Headline::Equalised;
    }
    if no_liquid_left(reading) {
        return Headline::NoLiquidLeft;
    }
    if liquid_line_below_ambient(reading) {
        return Headline::LiquidLineBelowAmbient;
    }
    // a blocked circuit draws the low side down as far
    let low_side_at_air = high.is_none() && low.as_ref().is_some_and(at_air);
    let Some(view) = view else { return Headline::ComparedOnly { low_side_at_air } };
    if view.posterior.outside_model {
        return Headline::OutsideModel { low_side_at_air };
    }
    let Some((group, probability)) = view.likeliest() else { return Headline::ComparedOnly { low_side_at_air } };
    let no_fault = view.posterior.healthy();
    let clear = |position: Position| {
        judged
            .iter()
            .filter(move |one| one.verdict.position == position && is_clear(one.verdict.probability))
            .map(move |one| Outside { quantity: one.quantity, position })
    };
    let outside: Vec<Outside> = clear(Position::Below).chain(clear(Position::Above)).collect();
    let faulty = view.posterior.is_faulty();
    if !faulty && outside.is_empty() {
        if view.unread().next().is_some() {
            return Headline::NothingUnusualYet { low_side_at_air, no_fault };
        }
        if view.no_fault_leads() {
            return Headline::Healthy { no_fault };
        }
    }
    let likeliest = Likeliest {
        causes: group.causes.iter().map(|one| one.cause).collect(),
        probability,
        combined: probability > group.probability + COMBINED,
        settled: is_settled(probability),
    };
    if faulty {
        return Headline::Faulty { low_side_at_air, outside, likeliest };
    }
    let no_fault = (likeliest.causes[0] != CauseId::NoFault).then_some(no_fault);
    Headline::Unusual { low_side_at_air, outside, likeliest, no_fault }
}

/// The gauges that were not read, at this reading or another.
fn unread_gauges(reading: &Reading, posterior: Option<&Posterior>) -> Vec<Measurand> {
    if !reading.is_running() {
        return Vec::new();
    }
    let unread = |measurand: &Measurand| match posterior {
        // read at another speed, it was read
        Some(posterior) => posterior.next.iter().any(|one| one.measurand == *measurand),
        None => reading.pressure(*measurand).is_none(),
    };
    [Measurand::LowSide, Measurand::HighSide].into_iter().filter(unread).collect()
}

/// What must be done before anything is measured on a running circuit.
fn stops(reading: &Reading) -> Vec<Stop> {
    if !reading.is_running() {
        return Vec::new();
    }
    let mut stops = Vec::new();
    if reading.low().is_some_and(|low| low.value().si() < -low.expanded().si()) {
        stops.push(Stop::LowSideInVacuum);
    }
    let cut_out = lowest_cut_out(reading.refrigerant(), reading.air().value());
    if reading.high().is_some_and(|high| high.value() >= cut_out) {
        stops.push(Stop::HighSideAtCutOut);
    }
    stops
}

fn next(
    reading: &Reading,
    assessment: &Assessment,
    view: Option<&View>,
    stops: &[Stop],
    headline: &Headline,
) -> Vec<NextStep> {
    if let Some(check) = &assessment.equalised {
        return after_equalised(check.verdict);
    }
    if headline.says_empty() {
        return vec![NextStep::KeepCompressorOff];
    }
    if matches!(headline, Headline::LiquidLineBelowAmbient) && stops.is_empty() {
        return vec![NextStep::FollowLiquidLine];
    }
    let mut steps = Vec::new();
    let Some(view) = view else {
        if stops.is_empty() {
            steps.extend(usual(reading, assessment));
        }
        return steps;
    };
    let remedy = view.remedy();
    if let Some((step, _)) = &remedy
        && is_level(reading)
    {
        // a compressor that pumps nothing is the first thing to mend: no line and no vent tells more
        return vec![step.clone()];
    }
    if !stops.is_empty() {
        // what is most probable, and no measurement of a circuit that must not run
        steps.extend(remedy.map(|(step, _)| step));
        steps.extend(view.no_charge_by_low_side());
        return steps;
    }
    if view.posterior.outside_model {
        steps.extend(view.no_charge_by_low_side());
    } else {
        let (first, last) = match remedy {
            Some((step, true)) => (None, Some(step)),
            Some((step, false)) => (Some(step), None),
            None => (None, None),
        };
        // a remedy that is told at once is told with what it must not be
        let caution = view.no_charge_by_low_side();
        let (at_once, later) = if first.is_some() { (caution, None) } else { (None, caution) };
        steps.extend(first);
        steps.extend(at_once);
        steps.extend(view.measurements(headline).into_iter().map(|measurand| NextStep::Measure { measurand }));
        steps.extend(later);
        steps.extend(last);
    }
    // what the causes ask for is not asked for twice
    let asked = view.measurements(headline);
    let spared = |step: &NextStep| match step {
        NextStep::Usual { measurand } => asked.contains(measurand) || headline.spares(*measurand),
        _ => false,
    };
    steps.extend(usual(reading, assessment).into_iter().filter(|step| !spared(step)));
    steps
}

fn after_equalised(verdict: EqualisedVerdict) -> Vec<NextStep> {
    let then = match verdict {
        EqualisedVerdict::AboveSaturation => Some(NextStep::CoolDownAndRepeat),
        EqualisedVerdict::LiquidGone => Some(NextStep::KeepCompressorOff),
        EqualisedVerdict::AtSaturation => Some(NextStep::ReadRunning),
        EqualisedVerdict::NotEqualised => None,
    };
    std::iter::once(NextStep::CompareTemperatures).chain(then).collect()
}

/// What was not measured of what is always worth having.
fn usual(reading: &Reading, assessment: &Assessment) -> Vec<NextStep> {
    let missing = |measurand: Measurand| reading.value(measurand).is_none();
    let condenses = assessment.high.as_ref().is_some_and(|side| side.saturation.is_some());
    let charted = [&assessment.low, &assessment.high].into_iter().flatten().any(|side| !side.charted.bands.is_empty());
    let wanted = [
        (reading.ambient().is_none(), NextStep::Ambient),
        (missing(Measurand::LowSide), NextStep::Usual { measurand: Measurand::LowSide }),
        (missing(Measurand::HighSide), NextStep::Usual { measurand: Measurand::HighSide }),
        (
            missing(Measurand::SuctionLine) && !missing(Measurand::LowSide),
            NextStep::Usual { measurand: Measurand::SuctionLine },
        ),
        (missing(Measurand::LiquidLine) && condenses, NextStep::Usual { measurand: Measurand::LiquidLine }),
        (missing(Measurand::Vent), NextStep::Usual { measurand: Measurand::Vent }),
        (reading.humidity().is_none(), NextStep::Humidity),
        (charted, NextStep::RepeatAsChartsAsk),
        (true, NextStep::Usual { measurand: Measurand::EqualisedPressure }),
    ];
    wanted.into_iter().filter(|(wanted, _)| *wanted).map(|(_, step)| step).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn three_in_four_is_settled() {
        assert!(is_settled(0.75) && !is_settled(0.749_999));
        assert!(is_clear(0.945) && !is_clear(0.944_999));
    }

    const CHARGE: [Observation; 2] = [Observation::Bubbles, Observation::CyclesOften];
    const AIR: [Observation; 2] = [Observation::LittleFrontAir, Observation::WaterHelps];

    fn measure(measurand: Measurand) -> NextStep {
        NextStep::Measure { measurand }
    }

    /// Advice of a faulty circuit that is short of charge or of condenser air, its steps in no order of the work.
    fn advice(settled: bool) -> Advice {
        let causes = [CauseId::Undercharge, CauseId::Overcharge, CauseId::CondenserAir];
        let likeliest = Likeliest { causes: vec![causes[0]], probability: 0.6, combined: false, settled };
        let group = |cause| LeadingGroup {
            causes: vec![cause],
            probability: 0.3,
            supporting: Vec::new(),
            contradicting: Vec::new(),
        };
        Advice {
            headline: Headline::Faulty { low_side_at_air: false, outside: Vec::new(), likeliest },
            stops: Vec::new(),
            next: vec![
                measure(Measurand::RecoveredCharge),
                NextStep::Remedy { cause: causes[0] },
                NextStep::Usual { measurand: Measurand::SuctionLine },
                measure(Measurand::EqualisedPressure),
                measure(Measurand::Vent),
                NextStep::RepeatAsChartsAsk,
                NextStep::Humidity,
            ],
            unread_gauges: Vec::new(),
            leading: causes.map(group).to_vec(),
            others: None,
            indistinguishable: None,
            undetectable: Vec::new(),
        }
    }

    fn steps(steps: &[NextStep]) -> Vec<AdvisedQuestion> {
        steps.iter().cloned().map(AdvisedQuestion::Measured).collect()
    }

    /// The observations among the questions of `advice`, after those in `asked`.
    fn observed(advice: &Advice, asked: &[Observation]) -> Vec<Observation> {
        let questions = advice.questions(MeasuredWhen::Running, asked).into_iter();
        questions
            .filter_map(|question| match question {
                AdvisedQuestion::Observed { observation, .. } => Some(observation),
                AdvisedQuestion::Measured(_) => None,
            })
            .collect()
    }

    #[test]
    fn questions_follow_the_work_and_nothing_is_asked_twice_or_too_late() {
        let stopped = [measure(Measurand::EqualisedPressure), measure(Measurand::RecoveredCharge)];
        let running = [measure(Measurand::Vent), NextStep::Humidity];
        let usual = NextStep::Usual { measurand: Measurand::SuctionLine };
        let questions = advice(false).questions(MeasuredWhen::Running, &[]);
        assert_eq!(questions[..3], steps(&[&[usual][..], &running].concat()));
        // of the charge, then of too much charge: what its cause is named for
        let water = AdvisedQuestion::Observed { observation: AIR[1], cause: CauseId::Overcharge };
        let charge = CHARGE.map(|observation| AdvisedQuestion::Observed { observation, cause: CauseId::Undercharge });
        assert_eq!(questions[3..6], [&charge[..], &[water]].concat());
        assert_eq!(questions[6..], steps(&stopped));
        // nobody starts the engine again, or runs an empty circuit
        assert_eq!(advice(false).questions(MeasuredWhen::Equalised, &[]), steps(&stopped));
        assert_eq!(advice(false).questions(MeasuredWhen::Recovered, &[]), steps(&stopped[1..]));
        // a settled cause needs neither what is merely usual nor an observation
        assert_eq!(advice(true).questions(MeasuredWhen::Running, &[]), steps(&[running, stopped].concat()));
    }

    #[test]
    fn a_thermometer_is_asked_for_where_neither_gauge_can_be_read() {
        let usual = |measurand| NextStep::Usual { measurand };
        let [low, high] = [Measurand::LowSide, Measurand::HighSide];
        let gauges = [usual(low), usual(high), NextStep::Ambient];
        let running = steps(&[&gauges[..], &[NextStep::Humidity]].concat());
        let opening = Advice::opening_questions;
        for one_missing in [&[][..], &[low], &[high], &[Measurand::Vent, high]] {
            assert_eq!(opening(MeasuredWhen::Running, one_missing), running);
        }
        let thermometers = steps(&[Measurand::Vent, Measurand::SuctionLine, Measurand::LiquidLine].map(usual));
        assert_eq!(opening(MeasuredWhen::Running, &[high, low]), [running, thermometers].concat());
        // at rest its vent and its lines tell nothing, nor does the humidity
        assert_eq!(opening(MeasuredWhen::Equalised, &[low, high]), steps(&gauges));
    }

    #[test]
    fn what_does_not_wait_for_a_measurement_is_told_once() {
        let remedy = NextStep::Remedy { cause: CauseId::Undercharge };
        let no_charge = |unlikely| NextStep::NoChargeByLowSide { undercharge: Some(0.4), unlikely, settled: false };
        let next = vec![remedy.clone(), measure(Measurand::Vent), NextStep::FollowLiquidLine, no_charge(false)];
        let advice = Advice { next, ..advice(false) };
        assert_eq!(advice.immediate_steps(&[]), [remedy.clone(), no_charge(false)]);
        assert_eq!(advice.immediate_steps(&[NextStep::FollowLiquidLine, remedy.clone()]), [no_charge(false)]);
        // whatever its probability is now
        assert_eq!(advice.immediate_steps(&[no_charge(true)]), advice.next[..1]);
        assert_eq!(advice.immediate_steps(&[NextStep::Remedy { cause: CauseId::Air }]), [remedy, no_charge(false)]);
        let unmeasured = Advice { next: vec![NextStep::FollowLiquidLine; 2], ..advice };
        assert_eq!(unmeasured.immediate_steps(&[]), unmeasured.next);
    }

    #[test]
    fn three_observations_are_asked_for_on_one_visit_and_none_of_a_circuit_that_must_not_run() {
        assert_eq!(observed(&advice(false), &CHARGE), [AIR[1]]);
        assert_eq!(observed(&advice(false), &CHARGE[..1]), [CHARGE[1], AIR[1]]);
        assert_eq!(observed(&advice(false), &AIR), [CHARGE[0]]);
        assert_eq!(observed(&advice(false), &[CHARGE[0], AIR[0], AIR[1]]), []);
        let stopped = Advice { stops: vec![Stop::HighSideAtCutOut], ..advice(false) };
        assert_eq!(observed(&stopped, &[]), []);
        // a headline that names no cause leaves none to look for; one that is still open does
        let headed = |headline| observed(&Advice { headline, ..advice(false) }, &[]).len();
        assert_eq!(headed(Headline::OutsideModel { low_side_at_air: false }), 0);
        assert_eq!(headed(Headline::NoLiquidLeft), 0);
        assert_eq!(headed(Headline::Healthy { no_fault: 0.6 }), 3);
        assert_eq!(headed(Headline::NothingUnusualYet { low_side_at_air: false, no_fault: 0.6 }), 3);
    }
}
