//! The answer: causes in order, with their sizes, what speaks for and against, and what to measure next.

use nalgebra::DVector;

use super::cause::{Cause, NO_FAULT};
use super::density::log_mean_exp;
use super::evidence::{Channel, Datum};
use super::fault::Fault;
use super::mixture::Mixture;
use super::next_measurement::{NextCheck, next};
use super::posterior::{ScoredCause, score_causes, values};
use super::reference::Reference;
use super::{Evidence, Prior, RunningReading};
use crate::Error;

/// What was read, explained.
#[derive(Debug, Clone, PartialEq)]
pub struct Interpretation {
    /// Causes, the likeliest first; together their probabilities are one.
    pub findings: Vec<Finding>,
    /// Whether nothing modelled looks like the reading: no simulated car of the likeliest cause is as odd, or one quantity lies far
    /// from all of them.
    pub unlike_anything: bool,
    /// The leading causes that cannot be told apart with what was measured; empty when the first stands alone.
    pub alike: Vec<&'static str>,
    /// What to measure next, the most telling first.
    pub next: Vec<NextCheck>,
    /// How many cars were compared.
    pub cars: usize,
}

/// Below this probability of no fault, a little less than one cause of 23 has beforehand, a car is called faulty; ours. Of
/// healthy cars no more than one in twenty is, whatever is measured (`tables/DIAGNOSIS.md`).
pub const CALLED_FAULTY: f64 = 0.035;

impl Interpretation {
    /// Causes that, in most of their cars, would change nothing that was measured: the receiver takes up the charge, nothing held
    /// the compressor back. The numbers say nothing about them.
    pub fn hidden(&self) -> impl Iterator<Item = &'static Cause> {
        let mut hidden: Vec<_> = self.findings.iter().filter(|finding| finding.shows < 0.5).map(|f| f.cause).collect();
        hidden.sort_by_key(|cause| cause.id);
        hidden.into_iter()
    }

    /// The findings, those of one and the same change together: no number tells them apart, and their probabilities add up. The
    /// likeliest together come first.
    pub fn groups(&self) -> Vec<Group<'_>> {
        let mut groups: Vec<Group> = Vec::new();
        for finding in &self.findings {
            match groups.iter_mut().find(|group| group.findings[0].cause.changes_like(finding.cause)) {
                Some(group) => {
                    group.findings.push(finding);
                    group.probability += finding.probability;
                }
                None => groups.push(Group { findings: vec![finding], probability: finding.probability }),
            }
        }
        groups.sort_by(|a, b| b.probability.total_cmp(&a.probability));
        groups
    }

    /// The probability that what `cause` changes is changed, alone or in one of the pairs.
    pub fn alone_or_with(&self, cause: &Cause) -> f64 {
        let holds = |other: &&Finding| {
            other.cause.id == cause.id
                || !cause.faults.is_empty() && cause.faults.iter().all(|fault| other.cause.faults.contains(fault))
        };
        self.findings.iter().filter(holds).map(|other| other.probability).sum()
    }

    /// The probability that nothing is wrong.
    pub fn healthy(&self) -> f64 {
        self.findings.iter().find(|finding| finding.cause.id == NO_FAULT.id).map_or(0.0, |finding| finding.probability)
    }

    /// Whether the reading speaks for a fault: [`Interpretation::healthy`] is below [`CALLED_FAULTY`].
    pub fn is_faulty(&self) -> bool {
        self.healthy() < CALLED_FAULTY
    }
}

/// Findings of one and the same change of the circuit: at least one.
#[derive(Debug, Clone, PartialEq)]
pub struct Group<'a> {
    /// The likeliest first; they differ by what was found and by the prior alone.
    pub findings: Vec<&'a Finding>,
    /// Of all of them together.
    pub probability: f64,
}

/// One cause.
#[derive(Debug, Clone, PartialEq)]
pub struct Finding {
    /// The cause.
    pub cause: &'static Cause,
    /// Share of its cars in which it changes something that was measured. Only these are compared: what shows nothing brings no car
    /// in, and explains nothing. A cause counts beforehand by its prior times this share.
    pub shows: f64,
    /// Its probability among all causes, given the numbers, what was found and the prior.
    pub probability: f64,
    /// How large it is, nine tenths: of each fault of the cause that has a size.
    pub size: Vec<(Fault, std::ops::Range<f64>)>,
    /// What its cars show beside what was read; the factors multiply to the odds of the numbers against no fault.
    pub predicted: Vec<Predicted>,
    /// By what factor what was found speaks for it against no fault; agreement of texts, one when nothing was found.
    pub found_factor: f64,
}

/// One measured quantity under a cause.
#[derive(Debug, Clone, PartialEq)]
pub struct Predicted {
    /// Which running reading it belongs to.
    pub place: usize,
    /// The quantity.
    pub channel: Channel,
    /// What was read: ln of an absolute pressure in Pa, a temperature in °C, or a share.
    pub read: f64,
    /// What the cars show, in the same unit, by how well each fits.
    pub middle: f64,
    /// Standard deviation of what the cars show, by how well each fits.
    pub spread: f64,
    /// By what factor it speaks for the cause against no fault, after the quantities before it.
    pub factor: f64,
}

/// The causes behind `evidence`, by comparison with `simulated`.
///
/// - **Method** likelihood by kernels round simulated cars, posterior under `prior`; see [`Reference`].
/// - **Accuracy** `tables/DIAGNOSIS.md`: on simulated cars of other seeds and of a wrong model, and against printed fault charts.
///
/// # Errors
/// Those of [`Evidence::days`]; [`Error::Missing`] when the cars were simulated for another number of days, or for another
/// refrigerant than that of a reading; those of [`Reference::new`], as causes that may be behind the reading get more cars.
///
/// ```
/// use satline::diagnosis::{Evidence, Prior, Reference, interpret};
/// use satline::circuit::{Settings, CircuitKind};
/// use satline::window::{Engine, Entry, Instruments};
/// use satline::Refrigerant;
/// let r = Refrigerant::R134a;
/// let entry = Entry {
///     ambient: Some("30 °C".parse()?),
///     humidity: Some("50 %".parse()?),
///     suction_line: Some("24 °C".parse()?),
///     liquid_line: Some("37 °C".parse()?),
///     vent: Some("20 °C".parse()?),
///     ..Entry::gauges("0.6 bar".parse()?, "8.0 bar".parse()?)
/// };
/// let reading = entry.reading(r, Engine::Running, &Instruments::digital(r))?;
/// let day = reading.day(Settings::TEST).unwrap();
/// let cars = Reference::new(&CircuitKind::main(r)[..1], &[day])?;
/// let answer = interpret(&Evidence::of(&reading)?, &cars, &Prior::flat())?;
/// assert_ne!(answer.findings[0].cause.id, "no-fault");
/// # Ok::<(), satline::Error>(())
/// ```
pub fn interpret(evidence: &Evidence, simulated: &Reference, prior: &Prior) -> Result<Interpretation, Error> {
    let days = evidence.days()?;
    if days.len() != simulated.days.len() {
        return Err(Error::Missing {
            what: "a simulated day for each running reading",
            way_out: "make Reference from the days of the same evidence",
        });
    }
    let known = |one: &RunningReading| simulated.kinds.iter().any(|kind| kind.refrigerant == one.refrigerant);
    if !evidence.running.iter().all(known) {
        return Err(Error::Missing {
            what: "a simulated car with the refrigerant of the reading",
            way_out: "make Reference from kinds of that refrigerant",
        });
    }
    let data = evidence.data();
    let (mut all, cars) = score_causes(simulated, evidence, &data, prior)?;
    all.sort_by(|a, b| b.probability.total_cmp(&a.probability));
    let read = values(&data);
    let healthy = all.iter().find(|one| one.cause.id == NO_FAULT.id);
    let healthy_steps = healthy.map_or(vec![0.0; data.len()], |one| one.group.log_prefix_likelihoods(&read));
    let healthy_found = healthy.map_or(0.0, |one| one.observation_log_likelihood);
    let findings: Vec<Finding> = all
        .iter()
        .map(|one| Finding {
            cause: one.cause,
            shows: one.group.detectable_fraction,
            probability: one.probability,
            size: sizes(one, &read),
            predicted: predicted(one, &data, &healthy_steps),
            found_factor: (one.observation_log_likelihood - healthy_found).exp(),
        })
        .collect();
    let mut answer = Interpretation {
        unlike_anything: unlike(&all, &data),
        alike: Vec::new(),
        next: next(&all, &data, simulated),
        cars,
        findings,
    };
    answer.alike = alike(&answer);
    Ok(answer)
}

/// 5 to 95 % of the size, by the kernels of the cars; of the first fault alone, whose size runs evenly through the cars.
fn sizes(one: &ScoredCause, read: &DVector<f64>) -> Vec<(Fault, std::ops::Range<f64>)> {
    let Some(&fault) = one.cause.faults.first() else { return Vec::new() };
    let (low, high) = fault.range();
    if low == high {
        return Vec::new();
    }
    let components = one.group.density.sizes_given(read).into_iter().zip(one.group.circuit_weights());
    let Some(mixture) = Mixture::new(components) else { return Vec::new() };
    let at = |q: f64| low + mixture.quantile(q) * (high - low);
    vec![(fault, at(0.05)..at(0.95))]
}

/// ln of a factor at which it is cut off, about 10³⁰⁰: a number ends soon after.
const BEYOND_NUMBERS: f64 = 690.0;

fn predicted(one: &ScoredCause, data: &[Datum], healthy: &[f64]) -> Vec<Predicted> {
    let read = values(data);
    let steps = one.group.log_prefix_likelihoods(&read);
    let weights = one.group.circuit_weights();
    let mut before = 0.0;
    data.iter()
        .enumerate()
        .map(|(i, datum)| {
            let mean = |of: &dyn Fn(f64) -> f64| {
                one.group.density.centres().zip(&weights).map(|(mean, w)| w * of(mean[i])).sum::<f64>()
            };
            let middle = mean(&|shown| shown);
            let spread = mean(&|shown| (shown - middle).powi(2)).sqrt();
            let after = steps[i] - healthy[i];
            let factor = (after - before).clamp(-BEYOND_NUMBERS, BEYOND_NUMBERS).exp();
            before = after;
            Predicted { place: datum.place, channel: datum.channel, read: datum.value, middle, spread, factor }
        })
        .collect()
}

/// Whether the reading is odder than any simulated car of its likeliest cause: all of it together, or one quantity far from all
/// of them.
fn unlike(all: &[ScoredCause], data: &[Datum]) -> bool {
    /// How far from the nearest car, in standard uncertainties of instrument and model; ours.
    const FAR: f64 = 5.0;
    let Some(first) = all.first() else { return true };
    let read = values(data);
    let apart = |(i, datum): (usize, &Datum)| {
        first.group.density.centres().all(|mean| (datum.value - mean[i]).abs() > FAR * datum.standard)
    };
    if data.iter().enumerate().any(apart) {
        return true;
    }
    let at = |place: &DVector<f64>| log_mean_exp(first.group.density.log_kernels(place).into_iter());
    // a car at its own kernel is the likeliest place: instruments and model add two standard deviations in each direction
    let own = at(&read) + 2.0 * data.len() as f64 / first.group.tempering;
    first.group.density.centres().all(|mean| own < at(mean))
}

/// The names of the leading groups within a factor of two of the first.
fn alike(interpretation: &Interpretation) -> Vec<&'static str> {
    let groups = interpretation.groups();
    let most = groups.first().map_or(0.0, |first| first.probability);
    let close = groups.iter().filter(|group| group.probability > 0.5 * most);
    let names: Vec<&'static str> = close.flat_map(|group| group.findings.iter().map(|f| f.cause.name)).collect();
    if names.len() > 1 { names } else { Vec::new() }
}
