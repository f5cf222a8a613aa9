//! What explains a reading: causes with their probabilities, sizes and reasons, as rows and as words.

use super::reading::Units;
use super::{Amount, four_digits};
use crate::diagnosis::{Channel, Finding, Interpretation, NextCheck};
use crate::quantity::{Quantity, Unit};
use crate::{GaugePressure, Pressure, Temperature};

/// The causes of a reading, the likeliest first.
#[derive(Debug, Clone, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
pub struct Causes {
    /// How many simulated cars were compared.
    pub cars: usize,
    /// Whether the reading speaks for a fault: no fault has a probability below 4 %.
    pub faulty: bool,
    /// Nothing modelled looks like the reading.
    pub unlike_anything: bool,
    /// Leading causes that cannot be told apart with what was measured.
    pub alike: Vec<&'static str>,
    /// Causes that would mostly change nothing of what was measured.
    pub hidden: Vec<&'static str>,
    /// Cause by cause; together their probabilities are one.
    pub findings: Vec<CauseRow>,
    /// What to measure next, the most telling first.
    pub next: Vec<NextRow>,
}

/// One cause.
#[derive(Debug, Clone, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
pub struct CauseRow {
    /// Short name.
    pub id: &'static str,
    /// Name.
    pub name: &'static str,
    /// Probability among all causes modelled.
    pub probability: f64,
    /// Causes that change the circuit in the same way, so that no number tells them from this one.
    pub same_numbers: Vec<&'static str>,
    /// How large it is, in words; empty where it has no size.
    pub size: String,
    /// Quantity by quantity; the factors multiply to the odds of the numbers against no fault.
    pub predicted: Vec<PredictedRow>,
    /// By what factor what was found speaks for it: agreement of published texts.
    pub found_factor: f64,
    /// Why it shows so.
    pub why: &'static str,
    /// What to check.
    pub next: &'static str,
    /// What can hurt.
    pub caution: &'static str,
    /// Printed fault charts that list it: pattern, sources that list it, sources with that pattern.
    pub in_print: Vec<(&'static str, u32, u32)>,
}

/// One quantity under a cause.
#[derive(Debug, Clone, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
pub struct PredictedRow {
    /// The quantity.
    pub quantity: &'static str,
    /// What was read.
    pub read: Amount,
    /// What cars with this cause show.
    pub expected: Amount,
    /// By what factor it speaks for the cause against no fault, after the quantities before it.
    pub factor: f64,
}

/// A measurement not made yet.
#[derive(Debug, Clone, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
pub struct NextRow {
    /// What to measure.
    pub quantity: &'static str,
    /// What it costs.
    pub effort: &'static str,
    /// By how much it is expected to lessen what is open between the causes, in bits.
    pub bits: f64,
    /// What the leading cause would show, then the two that would most likely show something else.
    pub outcomes: Vec<(&'static str, Amount)>,
}

/// The rows of `interpretation`, in the units of the page; pressures as gauges show them in air of pressure `air`.
pub(super) fn causes(interpretation: &Interpretation, units: &Units, air: Pressure) -> Causes {
    let amount = |channel: Channel, value: f64, spread: Option<f64>| amount(channel, value, spread, units, air);
    let row = |finding: &Finding| CauseRow {
        id: finding.cause.id,
        name: finding.cause.name,
        probability: four_digits(finding.probability),
        same_numbers: interpretation
            .findings
            .iter()
            .map(|other| other.cause)
            .filter(|other| {
                other.id != finding.cause.id && !other.faults.is_empty() && other.faults == finding.cause.faults
            })
            .map(|other| other.id)
            .collect(),
        size: finding.size.iter().map(|(fault, size)| fault.words(size)).collect::<Vec<_>>().join(", "),
        predicted: finding
            .predicted
            .iter()
            .map(|p| PredictedRow {
                quantity: p.channel.name(),
                read: amount(p.channel, p.read, None),
                expected: amount(p.channel, p.middle, None).rounded(),
                factor: four_digits(p.factor),
            })
            .collect(),
        found_factor: four_digits(finding.found_factor),
        why: finding.cause.why,
        next: finding.cause.next,
        caution: finding.cause.caution,
        in_print: finding.cause.in_print.to_vec(),
    };
    let next = |check: &NextCheck| NextRow {
        quantity: check.channel.name(),
        effort: check.effort.words(),
        bits: four_digits(check.bits),
        outcomes: check
            .outcomes
            .iter()
            .map(|outcome| (outcome.cause, amount(check.channel, outcome.middle, Some(outcome.spread)).rounded()))
            .collect(),
    };
    Causes {
        cars: interpretation.cars,
        faulty: interpretation.is_faulty(),
        unlike_anything: interpretation.unlike_anything,
        alike: interpretation.alike.clone(),
        hidden: interpretation.hidden().map(|cause| cause.name).collect(),
        findings: interpretation.findings.iter().map(row).collect(),
        next: interpretation.next.iter().map(next).collect(),
    }
}

/// A number of the diagnosis as a page shows it.
fn amount(channel: Channel, value: f64, spread: Option<f64>, units: &Units, air: Pressure) -> Amount {
    if channel == Channel::Recovered {
        Amount::new(100.0 * value, spread.map(|s| 100.0 * s), "% of the label", 0)
    } else if channel.is_pressure() {
        let unit = if channel == Channel::HighSide { units.high } else { units.low };
        let absolute = Pressure::from_pa(value.exp());
        let gauge: GaugePressure = absolute.gauge(air);
        let decimals = super::reading::pressure_decimals(unit);
        let half = spread.map(|s| Pressure::from_pa(absolute.pa() * s).value_in(unit));
        // an interval that would be written as zero is none
        let half = half.filter(|half| *half >= 0.5 * 0.1f64.powi(decimals as i32));
        Amount::new(gauge.value_in(unit), half, unit.symbol(), decimals)
    } else {
        let unit = units.temperature;
        let half = spread.map(|s| crate::TemperatureDifference::from_kelvin_steps(s).value_in(unit.step()));
        Amount::new(Temperature::from_celsius(value).value_in(unit), half, unit.symbol(), 0)
    }
}

/// Causes whose numbers are the same, the likeliest first.
struct Group<'a> {
    rows: Vec<&'a CauseRow>,
    probability: f64,
}

impl Group<'_> {
    fn name(&self) -> String {
        self.rows.iter().map(|row| row.name).collect::<Vec<_>>().join("; or ")
    }
}

/// The groups, the likeliest first.
fn groups(causes: &Causes) -> Vec<Group<'_>> {
    let mut groups: Vec<Group> = Vec::new();
    for row in &causes.findings {
        match groups.iter_mut().find(|group| row.same_numbers.contains(&group.rows[0].id)) {
            Some(group) => {
                group.rows.push(row);
                group.probability += row.probability;
            }
            None => groups.push(Group { rows: vec![row], probability: row.probability }),
        }
    }
    groups.sort_by(|a, b| b.probability.total_cmp(&a.probability));
    groups
}

/// Groups worth naming on a page: the first, and what follows while it is at least a tenth as likely.
fn leading<'a>(groups: &'a [Group<'a>]) -> &'a [Group<'a>] {
    let least = groups.first().map_or(0.0, |first| 0.1 * first.probability).max(0.05);
    let count =
        groups.iter().take(3).enumerate().take_while(|(i, group)| *i == 0 || group.probability >= least).count();
    &groups[..count]
}

/// The page's sentences about the causes: one paragraph each.
pub(super) fn words(causes: &Causes) -> Vec<String> {
    let mut words = Vec::new();
    if causes.unlike_anything {
        words.push(
            "This does not look like anything modelled: no cause explains the numbers together. Check gauges, clamps and \
             units before anything else, then think of two faults at once."
                .to_owned(),
        );
    }
    if let Some(healthy) = causes.findings.iter().find(|row| row.id == "no-fault").filter(|_| !causes.faulty) {
        words.push(format!(
            "Nothing here that a healthy car could not show: {} for no fault at all. What follows is possible, not proved.",
            share(healthy.probability)
        ));
    }
    if !causes.faulty && !causes.hidden.is_empty() {
        words.push(format!("Would mostly not show in what was measured: {}.", causes.hidden.join("; ")));
    }
    let groups = groups(causes);
    let leading = leading(&groups);
    for group in leading {
        let row = group.rows[0];
        let size = if row.size.is_empty() { String::new() } else { format!("; {}", row.size) };
        let mut sentence = format!("{}: {}{size}.", share(group.probability), group.name());
        if row.id != "no-fault" {
            sentence += &reasons(row);
        }
        words.push(sentence);
    }
    let rest: f64 = 1.0 - leading.iter().map(|group| group.probability).sum::<f64>();
    if rest > 0.05 {
        let named: usize = leading.iter().map(|group| group.rows.len()).sum();
        words.push(format!("{}: one of the {} other causes compared.", share(rest), causes.findings.len() - named));
    }
    if let [first, second, ..] = leading
        && second.probability > 0.5 * first.probability
        && !causes.unlike_anything
    {
        words.push(format!(
            "With what was measured, \"{}\" cannot be told from \"{}\".",
            first.rows[0].name, second.rows[0].name
        ));
    }
    words
}

/// What speaks for and against a cause, the strongest first.
fn reasons(row: &CauseRow) -> String {
    let mut sorted: Vec<&PredictedRow> = row.predicted.iter().collect();
    sorted.sort_by(|a, b| b.factor.ln().abs().total_cmp(&a.factor.ln().abs()));
    let name = |p: &PredictedRow| {
        let times = if p.factor >= 1.0 { p.factor } else { 1.0 / p.factor };
        let times = if times > 999.0 { "over 999".to_owned() } else { format!("{times:.0}") };
        format!("{} {} where such cars show {} ({times} times)", p.quantity, p.read, p.expected)
    };
    let list = |speaks: &dyn Fn(f64) -> bool| {
        let told: Vec<String> = sorted.iter().filter(|p| speaks(p.factor)).take(2).map(|p| name(p)).collect();
        told.join(", ")
    };
    let (pro, contra) = (list(&|f| f >= 2.0), list(&|f| f <= 0.5));
    let mut text = String::new();
    if !pro.is_empty() {
        text += &format!(" For it: {pro}.");
    }
    if !contra.is_empty() {
        text += &format!(" Against it: {contra}.");
    }
    if (row.found_factor - 1.0).abs() > 0.01 {
        text +=
            &format!(" What was found changes its odds {:.1} times, by agreement of printed charts.", row.found_factor);
    }
    text
}

/// A probability, never put as certain.
fn share(probability: f64) -> String {
    match 100.0 * probability {
        p if p > 98.0 => "over 98 %".to_owned(),
        p => format!("{p:.0} %"),
    }
}

/// What to do next, in sentences.
pub(super) fn next(causes: &Causes) -> Vec<String> {
    let mut next = Vec::new();
    if let Some(first) = groups(causes).first().filter(|_| causes.faulty && !causes.unlike_anything) {
        let row = first.rows[0];
        next.push(format!("For \"{}\": {}. {}", row.name, row.next, row.caution));
    }
    // worth a trip to the car: a tenth of a bit
    for row in causes.next.iter().filter(|row| row.bits >= 0.1).take(2) {
        let outcomes: Vec<String> =
            row.outcomes.iter().take(2).map(|(cause, amount)| format!("{amount} speaks for \"{cause}\"")).collect();
        // the recovered charge has no place to be read at
        let what = if row.quantity == Channel::Recovered.name() { "Find the" } else { "Measure the" };
        next.push(format!("{what} {} ({}): {}.", row.quantity, row.effort, outcomes.join(", ")));
    }
    next
}
