//! What explains a reading: causes with their probabilities, sizes and reasons, as rows and as words.

use super::amount::four_digits;
use super::reading::Units;
use super::words::settled;
use super::{Amount, Healthy, Text};
use crate::diagnosis::{Channel, Effort, Finding, Interpretation, NextCheck, UNDERCHARGE};
use crate::quantity::{Quantity, TemperatureUnit, Unit};
use crate::window::{PLAUSIBLE_LINE, Position};
use crate::{GaugePressure, Pressure, Temperature};

/// The causes of a reading, the likeliest first.
#[derive(Debug, Clone, PartialEq)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(deny_unknown_fields))]
pub struct Causes {
    /// How many simulated cars were compared.
    pub cars: usize,
    /// Whether the reading speaks for a fault: no fault has a probability below 3.5 %.
    pub faulty: bool,
    /// Nothing modelled looks like the reading.
    pub unlike_anything: bool,
    /// Leading causes that cannot be told apart with what was measured.
    pub alike: Vec<Text>,
    /// Causes that would mostly change nothing of what was measured.
    pub hidden: Vec<Text>,
    /// Cause by cause; together their probabilities are one.
    pub findings: Vec<CauseRow>,
    /// What to measure next, the most telling first.
    pub next: Vec<NextRow>,
}

/// One cause.
#[derive(Debug, Clone, PartialEq)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(deny_unknown_fields))]
pub struct CauseRow {
    /// Short name.
    pub id: Text,
    /// Name.
    pub name: Text,
    /// Probability among all causes modelled.
    pub probability: f64,
    /// Share of its cars in which it changes something that was measured; what it counts for beforehand, times its prior.
    pub shows: f64,
    /// Probability of this cause alone or together with another fault, as far as such pairs are modelled.
    pub alone_or_with: f64,
    /// Causes that change the circuit in the same way, so that no number tells them from this one.
    pub same_numbers: Vec<Text>,
    /// How large it is, in words; empty where it has no size.
    pub size: String,
    /// Quantity by quantity; the factors multiply to the odds of the numbers against no fault.
    pub predicted: Vec<PredictedRow>,
    /// By what factor what was found speaks for it: agreement of published texts.
    pub found_factor: f64,
    /// Why it shows so.
    pub why: Text,
    /// What to check.
    pub next: Text,
    /// What can hurt.
    pub caution: Text,
    /// Printed fault charts that list it.
    pub in_print: Vec<PrintRow>,
}

/// One quantity under a cause.
#[derive(Debug, Clone, PartialEq)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(deny_unknown_fields))]
pub struct PredictedRow {
    /// The quantity.
    pub quantity: Text,
    /// What was read.
    pub read: Amount,
    /// What cars with this cause show.
    pub expected: Amount,
    /// By what factor it speaks for the cause against no fault, after the quantities before it.
    pub factor: f64,
}

/// A measurement not made yet.
#[derive(Debug, Clone, PartialEq)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(deny_unknown_fields))]
pub struct NextRow {
    /// What to measure.
    pub quantity: Text,
    /// What it costs.
    pub effort: Text,
    /// By how much it is expected to lessen what is open between the causes, in bits.
    pub bits: f64,
    /// What the leading cause would show, then the two that would most likely show something else.
    pub outcomes: Vec<OutcomeRow>,
}

/// How many printed fault charts list a cause.
#[derive(Debug, Clone, PartialEq)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(deny_unknown_fields))]
pub struct PrintRow {
    /// The pattern of both gauges.
    pub pattern: Text,
    /// Charts that list the cause for it.
    pub listed: u32,
    /// Charts with that pattern.
    pub charts: u32,
}

/// What a measurement would show under one cause.
#[derive(Debug, Clone, PartialEq)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(deny_unknown_fields))]
pub struct OutcomeRow {
    /// The cause.
    pub cause: Text,
    /// What cars with it show.
    pub shows: Amount,
}

/// The rows of `interpretation`, in the units of the page; pressures as gauges show them in air of pressure `air`.
pub(super) fn causes(interpretation: &Interpretation, units: &Units, air: Pressure) -> Causes {
    let amount = |channel: Channel, value: f64, spread: Option<f64>| amount(channel, value, spread, units, air);
    let row = |finding: &Finding| CauseRow {
        id: finding.cause.id.into(),
        name: finding.cause.name.into(),
        probability: four_digits(finding.probability),
        shows: four_digits(finding.shows),
        alone_or_with: four_digits(interpretation.alone_or_with(finding.cause)),
        same_numbers: interpretation
            .findings
            .iter()
            .map(|other| other.cause)
            .filter(|other| other.id != finding.cause.id && other.changes_like(finding.cause))
            .map(|other| other.id.into())
            .collect(),
        size: finding.size.iter().map(|(fault, size)| fault.words(size)).collect::<Vec<_>>().join(", "),
        predicted: finding
            .predicted
            .iter()
            .map(|p| PredictedRow {
                quantity: p.channel.name().into(),
                read: amount(p.channel, p.read, None),
                expected: amount(p.channel, p.middle, None).rounded(),
                factor: four_digits(p.factor),
            })
            .collect(),
        found_factor: four_digits(finding.found_factor),
        why: finding.cause.why.into(),
        next: finding.cause.next.into(),
        caution: finding.cause.caution.into(),
        in_print: finding
            .cause
            .in_print
            .iter()
            .map(|&(pattern, listed, charts)| PrintRow { pattern: pattern.into(), listed, charts })
            .collect(),
    };
    let next = |check: &NextCheck| NextRow {
        quantity: check.channel.name().into(),
        effort: check.effort.words().into(),
        bits: four_digits(check.bits),
        outcomes: check
            .outcomes
            .iter()
            .map(|outcome| OutcomeRow {
                cause: outcome.cause.into(),
                // with the thermometer or gauge that would read it
                shows: amount(check.channel, outcome.middle, Some(outcome.spread.hypot(check.channel.usual_error())))
                    .rounded(),
            })
            .collect(),
    };
    Causes {
        cars: interpretation.cars,
        faulty: interpretation.is_faulty(),
        unlike_anything: interpretation.unlike_anything,
        alike: interpretation.alike.iter().map(|&id| id.into()).collect(),
        // a pair hides where its parts do
        hidden: interpretation
            .hidden()
            .filter(|cause| cause.faults.len() == 1)
            .map(|cause| cause.name.into())
            .collect(),
        findings: interpretation.findings.iter().map(row).collect(),
        next: interpretation.next.iter().map(next).collect(),
    }
}

/// A number of the diagnosis as a page shows it.
fn amount(channel: Channel, value: f64, spread: Option<f64>, units: &Units, air: Pressure) -> Amount {
    if channel.is_share() {
        let unit = if channel == Channel::Recovered { "% of the label" } else { "%" };
        Amount::new(100.0 * value, spread.map(|s| 100.0 * s), unit, 0)
    } else if channel.is_pressure() {
        let unit = if channel == Channel::HighSide { units.high } else { units.low };
        let absolute = Pressure::from_pa(value.exp());
        let gauge: GaugePressure = absolute.gauge(air);
        let decimals = unit.gauge_decimals();
        let half = spread.map(|s| Pressure::from_pa(absolute.pa() * s).value_in(unit));
        // an interval that would be written as zero is none
        let half = half.filter(|half| *half >= 0.5 * 0.1f64.powi(i32::from(decimals)));
        Amount::new(gauge.value_in(unit), half, unit.symbol(), decimals)
    } else {
        let unit = units.temperature;
        let half = spread.map(|s| crate::TemperatureDifference::from_kelvins(s).value_in(unit.step()));
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
        self.rows.iter().map(|row| &*row.name).collect::<Vec<_>>().join("; or ")
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

/// The fault that is likeliest to be there, alone or with another.
fn likeliest<'a>(groups: &'a [Group<'a>]) -> Option<&'a Group<'a>> {
    groups.iter().max_by(|a, b| a.rows[0].alone_or_with.total_cmp(&b.rows[0].alone_or_with))
}

/// Groups worth naming on a page: the first, and what follows while it is at least a tenth as likely.
fn leading<'a>(groups: &'a [Group<'a>]) -> &'a [Group<'a>] {
    let least = groups.first().map_or(0.0, |first| 0.1 * first.probability).max(0.05);
    let count =
        groups.iter().take(4).enumerate().take_while(|(i, group)| *i == 0 || group.probability >= least).count();
    &groups[..count]
}

const UNLIKE: &str = "This does not look like anything modelled: no cause explains the numbers together. Check gauges, clamps and \
                      units before anything else, then think of two faults at once.";

/// Below this probability a cause is not settled; ours.
const SETTLED: f64 = 0.75;

/// The answer in a sentence or two: right or not, what lies outside, what is likeliest.
pub(super) fn answer(causes: &Causes, healthy: Option<&Healthy>) -> String {
    if causes.unlike_anything {
        return UNLIKE.to_owned();
    }
    let groups = groups(causes);
    let Some(likeliest) = likeliest(&groups) else { return String::new() };
    let none = causes.findings.iter().find(|row| row.id == "no-fault").map_or(0.0, |row| row.probability);
    let outside = |position: Position| -> Option<String> {
        let rows = healthy?.rows.iter().filter(|row| row.verdict.position == position);
        let names: Vec<&str> =
            rows.filter(|row| row.verdict.chance.is_none_or(settled)).map(|row| &*row.name).collect();
        let (last, first) = names.split_last()?;
        let word = if position == Position::Below { "low" } else { "high" };
        let listed = if first.is_empty() { (*last).to_owned() } else { format!("{} and {last}", first.join(", ")) };
        Some(format!("{listed} {word}"))
    };
    let outside: Vec<String> = [Position::Below, Position::Above].into_iter().filter_map(outside).collect();
    if !causes.faulty && outside.is_empty() && unread(causes).next().is_some() {
        return format!(
            "Nothing unusual in what was read, and too little was read to call the car healthy: with every cause counted alike \
             beforehand no fault has {}; what follows is possible, not proved.",
            share(none)
        );
    }
    if !causes.faulty && outside.is_empty() {
        return format!(
            "These readings look healthy: nothing here that a healthy car could not show. With every cause counted alike \
             beforehand no fault has {}; what follows is possible, not proved.",
            share(none)
        );
    }
    let outside = if outside.is_empty() { String::new() } else { format!(": {}", outside.join("; ")) };
    let verdict = if causes.faulty { "Not right" } else { "Unusual, but a healthy car could show it" };
    let row = likeliest.rows[0];
    let settled = if row.alone_or_with < SETTLED { ", not settled" } else { "" };
    let pairs = if row.alone_or_with > likeliest.probability + 0.005 { ", alone or with another fault" } else { "" };
    let none =
        if causes.faulty || row.id == "no-fault" { String::new() } else { format!("; {} for no fault", share(none)) };
    let name = likeliest.name();
    format!("{verdict}{outside}. Likeliest: {name}{pairs} ({}{settled}){none}.", share(row.alone_or_with))
}

/// The page's sentences about the causes, one paragraph each, with what speaks for and against them.
pub(super) fn words(causes: &Causes) -> Vec<String> {
    let mut words = told(causes, |_, row| reasons(row));
    let groups = groups(causes);
    let paired = likeliest(&groups).filter(|group| group.rows[0].alone_or_with > group.probability + 0.005);
    if let Some(row) = paired.map(|group| group.rows[0]).filter(|_| !causes.unlike_anything) {
        let sum = share(row.alone_or_with);
        words.insert(0, format!("{sum}: {}, alone or with another fault; single and paired below.", row.name));
    }
    words
}

/// The same in short: what speaks for the first cause, and nothing for the rest.
pub(super) fn brief(causes: &Causes) -> Vec<String> {
    told(causes, |i, row| if i == 0 { reasons_in_short(row) } else { String::new() })
}

fn told(causes: &Causes, reasons: impl Fn(usize, &CauseRow) -> String) -> Vec<String> {
    let mut words = Vec::new();
    let groups = groups(causes);
    if causes.unlike_anything {
        return groups
            .first()
            .map_or(Vec::new(), |first| vec![format!("Least far from it, and still not like it: {}.", first.name())]);
    }
    let leading = leading(&groups);
    for (i, group) in leading.iter().enumerate() {
        let row = group.rows[0];
        let size = if row.size.is_empty() { String::new() } else { format!("; {}", row.size) };
        let reasons = if row.id == "no-fault" { String::new() } else { reasons(i, row) };
        words.push(format!("{}: {}{size}.{reasons}", share(group.probability), group.name()));
    }
    let rest: f64 = 1.0 - leading.iter().map(|group| group.probability).sum::<f64>();
    if rest > 0.05 {
        let named: usize = leading.iter().map(|group| group.rows.len()).sum();
        words.push(format!("{}: one of the {} other causes compared.", share(rest), causes.findings.len() - named));
    }
    // of the three leading shares of 219 simulated R-134a readings, against eight times as many cars: half were within 2 points,
    // nine in ten within 7
    words.push(format!(
        "Every cause counted alike beforehand, as far as it shows, by {} simulated cars: of ten shares, one is seven points off or \
         more.",
        causes.cars
    ));
    if !causes.faulty && !causes.hidden.is_empty() {
        words.push(format!(
            "Not ruled out, as most cars with it would show nothing in what was measured: {}.",
            causes.hidden.join("; ")
        ));
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

/// The two quantities that speak loudest for a cause, or against it.
fn loudest(row: &CauseRow, speaks: impl Fn(f64) -> bool) -> Vec<&PredictedRow> {
    let mut sorted: Vec<&PredictedRow> = row.predicted.iter().filter(|p| speaks(p.factor)).collect();
    sorted.sort_by(|a, b| b.factor.ln().abs().total_cmp(&a.factor.ln().abs()));
    sorted.truncate(2);
    sorted
}

/// What speaks for and against a cause, the strongest first.
fn reasons(row: &CauseRow) -> String {
    let list = |speaks: fn(f64) -> bool, word: &str, than: &str| -> String {
        let told: Vec<String> = loudest(row, speaks)
            .into_iter()
            .enumerate()
            .map(|(i, p)| {
                let times = if p.factor >= 1.0 { p.factor } else { 1.0 / p.factor };
                let times = if times > 999.0 { "over 999".to_owned() } else { format!("{times:.0}") };
                // said in full once
                let than = if i == 0 { than } else { "" };
                format!("{} {} where such cars show {} ({times} times{than})", p.quantity, p.read, p.expected)
            })
            .collect();
        if told.is_empty() { String::new() } else { format!(" {word} it: {}.", told.join(", ")) }
    };
    list(|f| f >= 2.0, "For", " as likely as in a healthy car")
        + &list(|f| f <= 0.5, "Against", " less likely than in a healthy car")
        + &found(row)
}

/// The same without how strongly.
fn reasons_in_short(row: &CauseRow) -> String {
    let list = |speaks: fn(f64) -> bool, word: &str| -> String {
        let told: Vec<String> = loudest(row, speaks)
            .into_iter()
            .map(|p| format!("{} {} (such cars show {})", p.quantity, p.read, p.expected))
            .collect();
        if told.is_empty() { String::new() } else { format!(" {word} it: {}.", told.join(", ")) }
    };
    list(|f| f >= 2.0, "For") + &list(|f| f <= 0.5, "Against") + &found(row)
}

/// What eyes and hands add.
fn found(row: &CauseRow) -> String {
    if (row.found_factor - 1.0).abs() <= 0.01 {
        return String::new();
    }
    format!(" What was found changes its odds {:.1} times, by agreement of printed charts.", row.found_factor)
}

/// A probability in words, never put as certain.
///
/// ```
/// assert_eq!(satline::report::share(0.471), "47 %");
/// assert_eq!(satline::report::share(0.999), "over 98 %");
/// ```
#[must_use]
pub fn share(probability: f64) -> String {
    match 100.0 * probability {
        p if p > 98.0 => "over 98 %".to_owned(),
        p => format!("{p:.0} %"),
    }
}

/// The two measurements that tell most, if they are worth a trip to the car, a tenth of a bit or more; the easier one first.
fn worthwhile(causes: &Causes) -> Vec<&NextRow> {
    let tells = |row: &&NextRow| row.bits >= 0.1 && apart(&row.outcomes) && row.outcomes.iter().take(2).all(bearable);
    let mut rows: Vec<&NextRow> = causes.next.iter().filter(tells).take(2).collect();
    rows.sort_by_key(effort);
    rows
}

/// How hard a measurement is, by its place among all.
fn effort(row: &&NextRow) -> Option<usize> {
    const EASIEST_FIRST: [Effort; 4] = [Effort::Look, Effort::Clamp, Effort::Stop, Effort::Recover];
    EASIEST_FIRST.iter().position(|effort| effort.words() == row.effort)
}

/// Whether a line can have the temperature at all: nobody is sent to one that it cannot.
fn bearable(outcome: &OutcomeRow) -> bool {
    let Amount { value, unit, .. } = &outcome.shows;
    let unit = TemperatureUnit::ALL.iter().find(|known| known.symbol() == unit);
    unit.is_none_or(|unit| Temperature::new(*value, *unit) <= PLAUSIBLE_LINE.value.high)
}

/// Whether the first two outcomes lie further apart than either scatters: else no value would speak for one of them.
fn apart(outcomes: &[OutcomeRow]) -> bool {
    let [first, second, ..] = outcomes else { return false };
    let scatter = |one: &OutcomeRow| one.shows.plus_minus.unwrap_or(0.0);
    (first.shows.value - second.shows.value).abs() > scatter(first).max(scatter(second))
}

/// The quantities that [`next`] asks for.
pub(super) fn asked(causes: &Causes) -> impl Iterator<Item = &str> {
    measurements(causes).into_iter().map(|row| &*row.quantity)
}

/// What is worth measuring, and a gauge that was not read, as far as it would tell one cause from another; the easier first.
fn measurements(causes: &Causes) -> Vec<&NextRow> {
    let mut rows = worthwhile(causes);
    let gauges: Vec<&NextRow> = unread(causes).filter(|row| apart(&row.outcomes) && !rows.contains(row)).collect();
    rows.extend(gauges);
    rows.sort_by_key(effort);
    rows
}

/// The gauges that were not read.
fn unread(causes: &Causes) -> impl Iterator<Item = &NextRow> {
    let gauges = [Channel::LowSide, Channel::HighSide].map(Channel::name);
    causes.next.iter().filter(move |row| gauges.contains(&&*row.quantity))
}

/// Where the low side is the only gauge and does not settle the charge: that it does not, and what filling by it does.
fn no_charge_by_low_side(causes: &Causes) -> Option<String> {
    let low = causes.findings.iter().find(|row| row.id == UNDERCHARGE.id).map_or(0.0, |row| row.alone_or_with);
    let mut unread = unread(causes);
    let high_alone =
        unread.next().is_some_and(|row| row.quantity == Channel::HighSide.name()) && unread.next().is_none();
    // where nothing explains the reading, its shares say nothing
    let stands = match low {
        _ if causes.unlike_anything => "not settled".to_owned(),
        low if low < 0.02 => "unlikely here".to_owned(),
        low => format!("not settled ({})", share(low)),
    };
    (high_alone && (low < SETTLED || causes.unlike_anything)).then(|| {
        format!(
            "Add no refrigerant by the low side alone: a low charge is {stands}, and too much raises the high side unseen \
             (common practice, no source)."
        )
    })
}

/// What the likeliest cause asks for, and whether that can wait: where a gauge was not read and no cause is settled, no part is
/// worth touching before more is read.
fn likeliest_next(causes: &Causes) -> Option<(String, bool)> {
    let groups = groups(causes);
    let row = likeliest(&groups).filter(|_| causes.faulty && !causes.unlike_anything)?.rows[0];
    let waits = row.alone_or_with < SETTLED && unread(causes).next().is_some();
    Some((format!("For \"{}\": {}. {}", row.name, row.next, row.caution), waits))
}

/// What to do next on a circuit that must not run: no measurement.
pub(super) fn next_stopped(causes: &Causes) -> impl Iterator<Item = String> {
    let likeliest = likeliest_next(causes).map(|(sentence, _)| sentence);
    likeliest.into_iter().chain(no_charge_by_low_side(causes))
}

/// What to do next, in sentences.
pub(super) fn next(causes: &Causes) -> Vec<String> {
    if causes.unlike_anything {
        return no_charge_by_low_side(causes).into_iter().collect();
    }
    let mut next = Vec::new();
    let (first, last) = match likeliest_next(causes) {
        Some((sentence, true)) => (None, Some(sentence)),
        Some((sentence, false)) => (Some(sentence), None),
        None => (None, None),
    };
    next.extend(first);
    for (i, row) in measurements(causes).into_iter().enumerate() {
        let outcomes: Vec<String> =
            row.outcomes.iter().take(2).map(|one| format!("{} speaks for \"{}\"", one.shows, one.cause)).collect();
        // a share has no place to be read at, and a gauge is more than a look
        let how = if row.quantity == Channel::Recovered.name() {
            "Recover the charge and weigh it".to_owned()
        } else if row.quantity == Channel::Duty.name() {
            "Time the clutch over three cycles, engaged against all".to_owned()
        } else if [Channel::LowSide, Channel::HighSide].map(Channel::name).contains(&&*row.quantity) {
            format!("Read the {}", row.quantity)
        } else {
            format!("Measure the {} ({})", row.quantity, row.effort)
        };
        // another ± than that of what was read, said once
        let scatter = if i == 0 { "; ± holds two of three such cars" } else { "" };
        next.push(format!("{how}: {}{scatter}.", outcomes.join(", ")));
    }
    next.extend(no_charge_by_low_side(causes));
    next.extend(last);
    next
}
