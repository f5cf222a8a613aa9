//! The sentences of a job sheet: what each step says, what is asked, what can hurt.

use super::Span;
use super::job::Figure;
use super::oil_label::{cm3, oil_label};
use crate::air::water;
use crate::service::charge::{Kept, TOLERANCE};
use crate::service::evacuation::{Dries, Drying};
use crate::service::job::{
    CLUTCH_GAP_MM, Caution, Complaint, CompressorOil, DEEP_VACUUM, GATE_PASSES, Kind, Line, PartOil, Question, Sheet,
    TURNS,
};
use crate::service::oil::compressor::{Action, Held, LITTLE, Outcome, RECOVERED, Rule, Spread, Supplied, Swap};
use crate::service::oil::kind::{Drive, FOREIGN_OIL, HIGH_VOLTAGE, Verdict};
use crate::service::oil::part::{self, Part};
use crate::{GaugePressure, Measured, Pressure, Quantity, Range, Refrigerant, Source, Volume};

pub(super) fn opening(sheet: &Sheet) -> Vec<String> {
    let job = &sheet.job;
    let drive = match job.drive {
        Drive::Belt => "belt-driven compressor",
        Drive::Electric => "electric compressor",
    };
    let mut opening = vec![format!("Job sheet: {}, {}, {drive}", job.refrigerant, job.charge.text())];
    let mut label = Vec::new();
    if let Some(oil) = &job.oil {
        label.push(format!("oil \"{}\"", oil.text()));
    }
    if let Some(kind) = job.oil_kind {
        label.push(kind.to_string());
    }
    if !label.is_empty() {
        opening.push(format!("On the label: {}.", label.join(", ")));
    }
    let mut new: Vec<&str> = Vec::new();
    if job.compressor.is_some() {
        new.push("compressor");
    }
    new.extend(job.parts.iter().map(|swap| replaced(swap.part)));
    if !new.is_empty() {
        opening.push(format!("New: {}.", new.join(", ")));
    }
    opening.push(match job.complaint {
        Complaint::NoiseCoolsWell => "It came in because of noise, and it cools well.".to_owned(),
        Complaint::NoiseCoolsBadly => "It came in because of noise, and it cools badly.".to_owned(),
        Complaint::CoolsBadly => "It came in because it cools badly.".to_owned(),
        Complaint::Leaks => "It came in because of a leak.".to_owned(),
        Complaint::NotSaid => "Why it came in was not said.".to_owned(),
    });
    opening.push(
        "The maker's own figures go before everything here. Where none was given, the sheet prints the range \
         that others print, and says so: a range is for judging a figure, not for pouring."
            .to_owned(),
    );
    opening
}

fn replaced(part: Part) -> &'static str {
    match part {
        Part::Condenser => "condenser",
        Part::Evaporator => "evaporator",
        Part::ReceiverDrier => "receiver-drier",
        Part::Accumulator => "accumulator",
        Part::Line => "a hose or line",
        Part::SuddenLoss => "oil lost at once with the charge",
        Part::SlowLeak => "a seeping joint repaired",
    }
}

pub(super) fn question(question: &Question) -> String {
    match question {
        Question::CompressorRule => {
            "What rule does the maker print for oil in a new compressor of this car? Without it there is only a \
             range."
                .to_owned()
        }
        Question::Supplied => {
            "How does the new compressor come: filled (with how much?), emptied, dry, or used?".to_owned()
        }
        Question::Drained => {
            "How much oil came out of the old compressor? Measure it before anything is filled.".to_owned()
        }
        Question::PartFigure(part) => format!("What oil does the maker print for this: {}?", replaced(*part)),
        Question::WhichOunce => "Which ounce does the label mean: of weight, US fluid or imperial fluid?".to_owned(),
        Question::Contradiction => {
            "The label's cm³ and ounces do not agree (below, at the oil): which does the maker mean?".to_owned()
        }
        Question::OilKind => "Which oil is printed on the compressor or under the hood, with its grade?".to_owned(),
        Question::OilAmount => "How much oil does the whole circuit hold, by the label?".to_owned(),
        Question::OilUnsuited => {
            "The oil given does not suit this circuit (below, at the oil): was the label read right?".to_owned()
        }
        Question::Ambient => "How warm is the air before the condenser? Every window depends on it.".to_owned(),
    }
}

pub(super) fn hurts(caution: Caution, sheet: &Sheet) -> String {
    let refrigerant = sheet.job.refrigerant;
    match caution {
        Caution::Frostbite => {
            "Goggles and gloves: liquid freezes skin and eyes, and a line can hold pressure behind a gauge at \
             zero."
                .to_owned()
        }
        Caution::Asphyxiation => "Vapour gathers low and displaces air: air the room, no work over a pit.".to_owned(),
        Caution::Flammable(class) => {
            format!("{refrigerant} is flammable ({class}): no flame, no sparks, equipment made for it.")
        }
        Caution::Venting => "Letting it out is illegal in many places.".to_owned(),
        Caution::HighVoltage => "The voltage kills. Work for trained and authorised people only.".to_owned(),
        Caution::VoltageInVacuum => {
            "Never switch on the compressor under vacuum: it has neither oil flow nor insulation there.".to_owned()
        }
        Caution::ForeignOil => format!(
            "About {:.0} % of another oil already lowers the insulation of the motor; some makers then want \
             every part of the circuit replaced. No oil or dye through a shared machine.",
            FOREIGN_OIL.value.percent()
        ),
        Caution::Moving => {
            "Keep clear of belts and fans; a fan may start by itself. The discharge line burns.".to_owned()
        }
        Caution::CompressedAir => {
            "Never test with compressed air: under pressure it can burn with refrigerant. Dry nitrogen, or a \
             tracer gas."
                .to_owned()
        }
        Caution::Backflow => {
            "Never open the high-side valve of a can or cylinder towards a running circuit: the container can \
             burst."
                .to_owned()
        }
    }
}

/// A step without its number.
pub(super) struct Told {
    pub(super) title: String,
    pub(super) figure: Option<Figure>,
    pub(super) words: Vec<String>,
}

fn told(title: &str, words: &[&str]) -> Told {
    Told { title: title.to_owned(), figure: None, words: words.iter().map(|&word| word.to_owned()).collect() }
}

fn volume(range: &Range<Volume>, standing: &'static str) -> Figure {
    Figure { span: Span::new(range.low.cm3(), range.high.cm3(), "cm³", 0), standing: standing.into() }
}

fn measured(oil: &Measured<Volume>) -> String {
    let half = oil.expanded().cm3();
    if half >= 0.5 {
        format!("{:.0} ± {half:.0} cm³", oil.value().cm3())
    } else {
        format!("{:.0} cm³", oil.value().cm3())
    }
}

fn one(oil: Volume) -> String {
    cm3(&Range::new(oil, oil))
}

pub(super) fn step(sheet: &Sheet, line: &Line) -> Told {
    let job = &sheet.job;
    match &line.kind {
        Kind::ClutchFirst => Told {
            words: vec![
                "It cools well, so the compressor pumps. Look at clutch, bearing and pulley before you condemn \
                 it."
                .to_owned(),
                "Noise with the clutch off and the engine running comes from the pulley bearing or the belt. \
                 Noise only with the clutch on comes from the compressor, its mounts, the clutch gap, or liquid \
                 reaching it."
                    .to_owned(),
                format!(
                    "Belt off: the pulley must spin without roughness or play. Clutch gap: makers print figures \
                     between {} and {} mm; take the one for this clutch.",
                    CLUTCH_GAP_MM.value.0, CLUTCH_GAP_MM.value.1
                ),
            ],
            ..told("Before condemning the compressor: clutch, bearing, pulley", &[])
        },
        Kind::FindLeak => told(
            "Find the leak while there is something in it",
            &[
                "Oil at a joint, dye, a detector along every line and at the drain of the evaporator.",
                "If too little is left to look by, recover it and test under dry nitrogen from a pressure regulator, no \
                 higher than the maker allows: write down pressure and temperature, wait, and count the fall only after \
                 correcting it for temperature.",
                "Repair it before anything is charged; the EU asks for that by law (from memory).",
            ],
        ),
        Kind::MakeSafe => Told {
            words: vec![
                format!(
                    "Switch off, lock against switching on again, wait as long as the maker prints for the capacitors, prove \
                     that there is no voltage with a tester that was itself proved. Such a compressor runs on {:.0} to {:.0} \
                     V, as printed for one of them.",
                    HIGH_VOLTAGE.value.0, HIGH_VOLTAGE.value.1
                ),
                "It stays locked until the circuit is closed, evacuated and charged.".to_owned(),
            ],
            ..told("Make the high-voltage system safe", &[])
        },
        Kind::BringOilHome { at_least } => Told {
            words: vec![format!(
                "Only where the compressor runs freely and nothing has leaked badly: more than {:.0} min at 800 \
                 to 1000 rpm, blower on full. What you drain later then tells more.",
                at_least.minutes()
            )],
            ..told("Bring the oil home to the compressor", &[])
        },
        Kind::Recover => Told {
            words: vec![
                format!(
                    "Recover with equipment made for {}, and weigh what comes out: the label says {}. Much less \
                     means that it leaked; look for oily joints before you wipe anything.",
                    job.refrigerant,
                    job.charge.text()
                ),
                "Know what is inside before the machine does: a wrong or mixed refrigerant spoils it. In the US \
                 whoever is paid for this needs certification under section 609 and approved equipment."
                    .to_owned(),
                "Catch the oil that comes out with it, let it stand until it no longer foams, and write down how \
                 much."
                    .to_owned(),
            ],
            ..told("Recover and weigh", &[])
        },
        Kind::Open => told(
            "Open and cap",
            &[
                "Open each joint slowly and face away, even if the gauges show zero. Two wrenches at every joint.",
                "Cap every opening at once. Keep new parts sealed, and as warm as the room, until they go in: a \
                 cold part draws moisture.",
            ],
        ),
        Kind::Drain { drained, little } => drain(job.drive, drained.as_ref(), *little),
        Kind::Drier { listed, open_long } => drier(*listed, *open_long),
        Kind::Rings => told(
            "O-rings: new ones at every joint that was opened",
            &[
                "Right size, right material. The makers disagree on what to wet them with: GM trucks and the \
                 Fiero want mineral oil of 525 viscosity and no PAG; Geo Tracker and Daewoo Leganza want the \
                 clean PAG of the circuit; Acura wants a few drops of the circuit's oil. Do what your maker \
                 prints.",
                "Do not soak coated rings.",
            ],
        ),
        Kind::OilKind { .. } => which_oil(sheet, line),
        Kind::LabelOil { range } => label_oil(sheet, range.as_ref()),
        Kind::PartOil { part, oil } => part_oil(*part, oil),
        Kind::OilBack { recovered, in_compressor } => oil_back(*recovered, *in_compressor),
        Kind::CompressorOil(oil) => compressor_oil(sheet, oil),
        Kind::WholeOil { label } => whole_oil(label.as_ref()),
        Kind::TurnByHand => Told {
            words: vec![format!(
                "About {} turns by hand with the oil in, before the belt or the clutch ever turns it: oil that \
                 lies before a piston cannot be compressed.",
                TURNS.value
            )],
            ..told("Turn the compressor by hand", &[])
        },
        Kind::Tighten => told(
            "Tighten",
            &["To the maker's figures, which differ several times over for joints that look alike. Two wrenches. \
             Too little leaks, and so does too much."],
        ),
        Kind::Belt => told(
            "Belt",
            &["Path and tension by the maker's figures. See that the pulley runs true and the belt sits in its \
             grooves."],
        ),
        Kind::Evacuate { gauge, open_long } => evacuate(sheet, gauge, *open_long),
        Kind::Hold => hold(sheet),
        Kind::Charge { hose } => charge(sheet, hose.as_ref()),
        Kind::LeakCheck { scales, allowed, tenth } => {
            let mut words = Vec::new();
            if let Some(finest) = scales.first() {
                words.push(format!(
                    "Detector at every joint that was touched, at the service ports and at the drain of the \
                     evaporator. Scales of {}: {} g a year.",
                    finest.standard,
                    scales.iter().map(|scale| format!("{:.0}", scale.leak.g_per_year())).collect::<Vec<_>>().join(
                        ", \
                     "
                    )
                ));
            } else {
                words.push(
                    "Detector at every joint that was touched, at the service ports and at the drain of the \
                     evaporator. No standard for this refrigerant's detectors was found."
                        .to_owned(),
                );
            }
            if let Some((rate, time)) = tenth.last() {
                words.push(format!(
                    "A leak of {:.0} g a year takes a tenth of this charge in {:.0} months.",
                    rate.g_per_year(),
                    12.0 * time.years()
                ));
            }
            if let Some(allowed) = allowed {
                words.push(format!(
                    "EU type approval allows a new car with one evaporator {:.0} g a year for such refrigerants.",
                    allowed.g_per_year()
                ));
            }
            words.push("Caps back on the ports: they seal.".to_owned());
            Told { words, ..told("Look for leaks with the charge in", &[]) }
        }
        Kind::Read => told(
            "Take today's reading",
            &["First at rest, then after ten minutes' running at the coldest setting, blower on full."],
        ),
    }
}

fn drain(drive: Drive, drained: Option<&Measured<Volume>>, little: bool) -> Told {
    let turning = match drive {
        Drive::Belt => ", turning the shaft or the clutch hub",
        Drive::Electric => "",
    };
    let mut words = vec![format!(
        "By all ports and the drain plug{turning}. Measure in a graduated cylinder, or weigh the jar before and \
         after. Used oil is never poured back."
    )];
    match drained {
        Some(oil) => words.push(format!("Measured: {}.", measured(oil))),
        None => words.push("Not measured yet: the oil for the new one depends on it.".to_owned()),
    }
    if little {
        words.push(format!(
            "That is little. Two manuals take less than {:.0} or {:.0} cm³ as a sign that oil was lost, not as \
             the right amount: find where it went.",
            LITTLE.value.low.cm3(),
            LITTLE.value.high.cm3()
        ));
    }
    words.push("Metal or black sludge in it: the circuit must be cleaned, or the new one will not last.".to_owned());
    Told {
        figure: drained.map(|oil| volume(&Range::new(oil.value(), oil.value()), "measured")),
        words,
        ..told("Drain the old compressor and measure", &[])
    }
}

fn drier(listed: bool, open_long: bool) -> Told {
    let mut words = Vec::new();
    if listed {
        words.push("It is among the new parts.".to_owned());
    } else {
        words.push(
            "None is among the new parts. Suppliers want a new one whenever the circuit was empty or any part \
             was replaced; one maker only when it stood open longer than the repair takes, or moisture got in."
                .to_owned(),
        );
    }
    if open_long {
        words.push(
            "The circuit stood open for days: Hyundai and Acura then print a new drier and hours of vacuum.".to_owned(),
        );
    }
    words.push("Unseal it last, just before it goes in: open, it is full of moisture in a short time.".to_owned());
    Told { words, ..told("Drier, desiccant or accumulator goes with the job", &[]) }
}

fn which_oil(sheet: &Sheet, line: &Line) -> Told {
    let job = &sheet.job;
    let Kind::OilKind { oil, advice } = &line.kind else { return told("Which oil", &[]) };
    let mut words = Vec::new();
    let circuit = match job.drive {
        Drive::Belt => format!("belt-driven compressors with {}", job.refrigerant),
        Drive::Electric => "electric compressors on high voltage".to_owned(),
    };
    match (oil, advice.map(|advice| advice.verdict)) {
        (Some(oil), Some(verdict)) => words.push(match verdict {
            Verdict::Usual => format!("{oil}: the family that is printed for {circuit}."),
            Verdict::OnlyIfNamed => {
                format!(
                    "{oil}: not every maker allows it for {circuit}. Only if this maker names it, even at the \
                     same grade."
                )
            }
            Verdict::Wrong => format!("{oil}: wrong for {circuit}. Stop and read the label again."),
            Verdict::RuinsInsulation => {
                format!(
                    "{oil}: not for {circuit} unless this maker names it; it lowers the insulation. Stop and \
                     read the label again."
                )
            }
            Verdict::NothingFound => {
                format!("{oil}: nothing was found in print about it for {circuit}. The label decides.")
            }
        }),
        _ => words.push("Not given. Read it on the compressor or under the hood; do not guess.".to_owned()),
    }
    match job.drive {
        Drive::Belt => words.push(
            "The grade (46, 100, 150) is the compressor's matter, not the refrigerant's. Never mix oils.".to_owned(),
        ),
        Drive::Electric => words.push("Only the oil this maker names, from a fresh can. Never mix oils.".to_owned()),
    }
    words.push("Keep the can shut: PAG and POE draw water from the air.".to_owned());
    Told { words, ..told("Which oil", &[]) }
}

fn part_oil(part: Part, oil: &PartOil) -> Told {
    let title = match part {
        Part::SuddenLoss => "Oil for what was lost at once".to_owned(),
        Part::SlowLeak => "Oil for the leak that was repaired".to_owned(),
        Part::Line => "Oil for each new hose or line".to_owned(),
        part => format!("Oil for the new {}", replaced(part)),
    };
    let reason = match part {
        Part::SuddenLoss => "A charge that leaves at once takes oil along.",
        Part::SlowLeak => "A seep loses little oil.",
        _ => "The old one left with the oil on its walls.",
    };
    match oil {
        PartOil::Makers(range) => Told {
            title,
            figure: Some(volume(range, "maker's figure, as given")),
            words: vec![format!("Add {}. {reason}", cm3(range))],
        },
        PartOil::InCompressor(range) => Told {
            title,
            figure: Some(volume(range, "maker's figure, as given")),
            words: vec![format!(
                "{}: already counted in the compressor by this maker's rule. Do not add it again.",
                cm3(range)
            )],
        },
        PartOil::Published(spread) => {
            let mut words = vec![format!("Service manuals print {} for it. {reason}", cm3(&spread.range))];
            words.extend(printed_amounts(spread));
            words.extend(spread.on_top.map(|extra| {
                format!("Others go by what came out of the old one and add {}: drain it and measure.", cm3(&extra))
            }));
            Told { title, figure: Some(volume(&spread.range, "published range, not this maker's figure")), words }
        }
        PartOil::Unknown => Told { title, figure: None, words: vec![format!("Nothing was found in print. {reason}")] },
    }
}

/// One line for each amount, with all who print it, from the least to the most.
fn printed_amounts(spread: &part::Spread) -> Vec<String> {
    let mut rows: Vec<(Range<Volume>, String)> = spread
        .works
        .iter()
        .map(|(row, amount)| {
            let note = if row.printed.is_empty() { String::new() } else { format!(" ({})", row.printed) };
            (*amount, format!("{}{note}", short(row.source)))
        })
        .collect();
    rows.sort_by(|(a, _), (b, _)| a.low.si().total_cmp(&b.low.si()).then(a.high.si().total_cmp(&b.high.si())));
    let mut lines: Vec<(String, Vec<String>)> = Vec::new();
    for (amount, work) in rows {
        let said = cm3(&amount);
        match lines.last_mut() {
            Some((known, works)) if *known == said => works.push(work),
            _ => lines.push((said, vec![work])),
        }
    }
    lines.into_iter().map(|(said, works)| format!("  {said}: {}", works.join("; "))).collect()
}

/// The name of a work without what kind of manual it is.
fn short(source: Source) -> &'static str {
    source.work.split(", ").next().unwrap_or(source.work)
}

fn oil_back(recovered: Option<Volume>, in_compressor: bool) -> Told {
    let words = match (recovered, in_compressor) {
        (Some(oil), true) => {
            vec![format!(
                "{} came out with the refrigerant: already counted in the compressor by this maker's rule.",
                one(oil)
            )]
        }
        (Some(oil), false) => vec![format!("{} came out with the refrigerant: add as much new oil.", one(oil))],
        (None, _) => vec![format!(
            "Not measured yet. As much new oil goes back as came out with the refrigerant; one maker expects {}, \
             another counts only more than half an ounce.",
            cm3(&RECOVERED.value)
        )],
    };
    Told {
        figure: recovered.map(|oil| volume(&Range::new(oil, oil), "measured")),
        words,
        ..told("New oil for what came out with the refrigerant", &[])
    }
}

fn whole_oil(label: Option<&Range<Volume>>) -> Told {
    let words = vec![match label {
        Some(range) => format!(
            "Flushed or new throughout, so no old oil is left and the whole amount goes in: {}; aim for the \
             middle, {}. Count what the new compressor already holds.",
            cm3(range),
            one(range.at(0.5))
        ),
        None => "Flushed or new throughout, so no old oil is left and the whole amount of the label goes in: \
         read it there."
            .to_owned(),
    }];
    Told { figure: label.map(|range| volume(range, "label, as read")), words, ..told("Oil for the whole circuit", &[]) }
}

fn label_oil(sheet: &Sheet, range: Option<&Range<Volume>>) -> Told {
    let mut words = vec!["It is a check: no part of the circuit can hold more than all of it.".to_owned()];
    let standing = match sheet.job.oil.as_ref().map(|label| (label.volume().is_ok(), label.metric().is_some())) {
        Some((false, true)) => "the label's volume; its ounces do not agree",
        Some((false, false)) => "all that the label's ounces can mean",
        _ => "label, as read",
    };
    if let Some(label) = sheet.job.oil.as_ref().filter(|label| !label.readings().is_empty()) {
        words.extend(oil_label(label));
    }
    Told {
        figure: range.map(|range| volume(range, standing)),
        words,
        ..told("Oil of the whole circuit, by the label", &[])
    }
}

fn compressor_oil(sheet: &Sheet, oil: &CompressorOil) -> Told {
    let title = "Oil for the compressor";
    let mut step = match oil {
        CompressorOil::NotMeasured => {
            told(title, &["Drain the old one first: every printed rule but one goes by what came out of it."])
        }
        CompressorOil::Makers { rule, swap, outcome } => makers_rule(title, rule, swap, outcome),
        CompressorOil::Published { spread, supplied } => published_rules(title, spread, *supplied, sheet),
    };
    if let Some(label) = &sheet.label_oil {
        step.words.push(format!("By the label the whole circuit holds {}.", cm3(label)));
    }

    step
}

/// A rule in a sentence.
fn rule_words(rule: &Rule) -> String {
    match *rule {
        Rule::Refill { floor, extra, extra_up_to } => {
            let mut words = "empty the new one and refill it with what was drained".to_owned();
            if extra.si() > 0.0 {
                words += &format!(" and {} on top", one(extra));
            }
            if let Some(limit) = extra_up_to {
                words += &format!(" (up to {} drained)", one(limit));
            }
            if let Some((below, pour)) = floor {
                words += &format!("; below {} drained, with {}", one(below), one(pour));
            }
            words
        }
        Rule::Subtract { residual, little } => {
            let mut words = "leave in the new one what was drained".to_owned();
            if residual.si() > 0.0 {
                words += &format!(" and {} that cannot be drained", one(residual));
            }
            if let Some((below, count)) = little {
                words += &format!("; below {} drained, count {}", one(below), one(count));
            }
            words
        }
        Rule::Capped { cap } => {
            format!("take out what the new one holds beyond what was drained, never more than {}", one(cap))
        }
    }
}

fn action_words(outcome: &Outcome) -> String {
    match outcome.action {
        Action::Pour { oil, empty_first: true } => format!("Empty the new one, then pour in {}.", cm3(&oil)),
        Action::Pour { oil, empty_first: false } => format!("Pour in {}.", cm3(&oil)),
        Action::TakeOut(oil) => format!("Take {} out of the new one; {} stays in.", one(oil), cm3(&outcome.left)),
        Action::AsItIs => format!("Fit it as it is, with its {}.", cm3(&outcome.left)),
    }
}

fn makers_rule(title: &str, rule: &Rule, swap: &Swap, outcome: &Outcome) -> Told {
    let mut words = vec![format!("By the rule given: {}.", rule_words(rule))];
    match (rule, swap.supplied) {
        (Rule::Subtract { residual, little }, Supplied::Filled { contents }) => {
            let counted = little.filter(|&(below, _)| swap.drained < below).map_or(swap.drained, |(_, count)| count);
            words.push(format!(
                "{} in the new one − ({} drained + {} that cannot be drained + {} for other parts + {} \
                 recovered).",
                one(contents),
                one(counted),
                one(*residual),
                one(swap.other_parts),
                one(swap.recovered)
            ));
        }
        (Rule::Capped { .. }, Supplied::Filled { contents }) => {
            words.push(format!("{} in the new one − {} drained.", one(contents), one(swap.drained)));
        }
        _ => {}
    }
    words.push(action_words(outcome));
    match outcome.held {
        Some(Held::Floor(oil)) => {
            words.push(format!("So little was drained that the rule takes {} instead.", one(oil)))
        }
        Some(Held::Cap(oil)) => {
            words.push(format!("The subtraction alone would say {}; the rule stops before.", one(oil)))
        }
        Some(Held::Short(oil)) => words.push(format!(
            "It holds {} less than the rule asks for. No rule says to add that: ask the maker before you do.",
            one(oil)
        )),
        None => {}
    }
    if matches!(swap.supplied, Supplied::Used) {
        words.push(
            "It is a used one: drain it first. What stays on its walls nobody knows; two makers put it at 20 \
             cm³, which is why there may be a range."
                .to_owned(),
        );
    }
    Told { title: title.to_owned(), figure: Some(volume(&outcome.left, "by the maker's rule, as given")), words }
}

fn published_rules(title: &str, spread: &Spread, supplied: Option<Supplied>, sheet: &Sheet) -> Told {
    let drained = sheet.job.compressor.and_then(|swap| swap.drained);
    let mut words = vec![format!(
        "No rule of this maker was given. With {} drained, the rules that others print leave {} in the \
         compressor:",
        drained.map_or("what was".to_owned(), |oil| one(oil.value())),
        cm3(&spread.left)
    )];
    // one line for each rule and amount, with all who print it, from the least to the most
    let mut lines: Vec<(String, Vec<String>)> = Vec::new();
    let mut outcomes: Vec<_> = spread.outcomes.iter().collect();
    outcomes.sort_by(|(_, a), (_, b)| a.left.low.si().total_cmp(&b.left.low.si()));
    for (row, outcome) in outcomes {
        let said = format!("{}: {}", cm3(&outcome.left), rule_words(&row.rule));
        let work = short(row.source).to_owned();
        let work = if row.scope.is_empty() { work } else { format!("{work}, {}", row.scope) };
        match lines.iter_mut().find(|(known, _)| *known == said) {
            Some((_, works)) => works.push(work),
            None => lines.push((said, vec![work])),
        }
    }
    words.extend(lines.into_iter().map(|(said, works)| format!("  {said} ({})", works.join("; "))));
    words.push(match supplied {
        None => "Find out how the new one comes before you pour or take out anything.".to_owned(),
        Some(Supplied::Filled { contents }) => {
            let (out, into) = (contents - spread.left.low, spread.left.high - contents);
            let by = if into.si() <= 0.0 {
                format!("{} would come out", cm3(&Range::new(-into, out)))
            } else if out.si() <= 0.0 {
                format!("{} would go in on top", cm3(&Range::new(-out, into)))
            } else {
                format!("anything from {} out to {} on top", one(out), one(into))
            };
            format!("It comes with {}; by these rules {by}. The maker's rule decides, not the middle.", one(contents))
        }
        Some(Supplied::Emptied | Supplied::Dry) => "It comes empty: what is left in it must be poured in.".to_owned(),
        Some(Supplied::Used) => {
            "It is a used one: drain it first. What stays on its walls counts too; two makers put it at 20 cm³."
                .to_owned()
        }
    });
    Told {
        title: title.to_owned(),
        figure: Some(volume(&spread.left, "published range, not this maker's figure")),
        words,
    }
}

fn evacuate(sheet: &Sheet, gauge: &Range<GaugePressure>, open_long: bool) -> Told {
    let vacuum = &sheet.job.vacuum;
    let mut words = vec![
        format!(
            "Below {:.1} kPa absolute, better {:.1}. With the air at {:.1} kPa that is {:.1} inHg on the gauge, \
             better {:.1} ({:.0} and {:.0} kPa).",
            vacuum.target.high.kpa(),
            vacuum.target.low.kpa(),
            sheet.air.value().kpa(),
            gauge.high.inhg(),
            gauge.low.inhg(),
            gauge.high.kpa(),
            gauge.low.kpa()
        ),
        format!(
            "It should get there within {:.0} min; if not, look for a leak, a closed valve or a weak pump. Run the pump for at least {:.0} min; army \
             manuals print 90.",
            vacuum.within.minutes(),
            vacuum.run.minutes()
        ),
    ];
    if open_long {
        words.push("The circuit stood open for days: hours, not minutes.".to_owned());
    }
    words.extend(dries(sheet));
    words.push(format!(
        "A service gauge cannot show whether it dries. A vacuum gauge can: the trade aims for {:.0} to {:.0} \
         micron, and no publication says so.",
        DEEP_VACUUM.value.low.microns(),
        DEEP_VACUUM.value.high.microns()
    ));
    Told {
        figure: Some(Figure {
            span: Span::new(gauge.low.inhg(), gauge.high.inhg(), "inHg", 1),
            standing: "printed by others; the maker's goes first".into(),
        }),
        words,
        ..told("Evacuate", &[])
    }
}

/// What the asked-for vacuum does to water at the temperature of the day.
fn dries(sheet: &Sheet) -> Option<String> {
    let ambient = Measured::exact(sheet.job.ambient?).ok()?;
    let target = sheet.job.vacuum.target;
    let water = |p: Pressure| water::saturation_temperature(p).ok();
    let (worst, best) = (water(target.high)?, water(target.low)?);
    let dry = |p: Pressure| Some(Drying::of(&Measured::exact(p).ok()?, &ambient).ok()?.dries == Dries::Yes);
    let answer = match (dry(target.high)?, dry(target.low)?) {
        (true, _) => "both dry a circuit as cold as today's air",
        (false, true) => "only the better one dries a circuit as cold as today's air",
        (false, false) => "neither dries a circuit as cold as today's air: warm it, or go deeper",
    };
    Some(format!(
        "Water boils at {:.0} °C at the first pressure and at {:.0} °C at the better one: {answer}.",
        worst.celsius(),
        best.celsius()
    ))
}

fn hold(sheet: &Sheet) -> Told {
    let vacuum = &sheet.job.vacuum;
    Told {
        words: vec![
            format!(
                "Shut the pump off and watch for {:.0} min: it may rise by {:.1} inHg ({:.1} kPa) at most.",
                vacuum.hold.minutes(),
                vacuum.rise.inhg(),
                vacuum.rise.kpa()
            ),
            "A rise that levels off is moisture, or refrigerant coming out of the oil: evacuate again. A rise \
             that goes on is a leak (common practice)."
                .to_owned(),
            format!(
                "Passing does not prove it tight: in a circuit of 2.5 L a rise of 1 inHg in 5 min hides a leak \
                 some {:.0} times the 14 g a year that a detector finds on its coarsest scale.",
                // as many digits as the comparison is worth
                (GATE_PASSES.value / 100.0).round() * 100.0
            ),
        ],
        ..told("Hold", &[])
    }
}

fn charge(sheet: &Sheet, hose: Option<&Kept>) -> Told {
    let label = &sheet.job.charge;
    let mut words = vec![match label.printed_tolerance() {
        Some(by) => format!("{:.0} g by the scale, within the printed ±{:.0} g.", label.nominal().g(), by.g()),
        None => format!(
            "{:.0} g by the scale. No tolerance is printed; ±{:.0} g is commonly taken as tolerable.",
            label.nominal().g(),
            TOLERANCE.value.g()
        ),
    }];
    match hose {
        Some(kept) => {
            let send = kept.to_send(label.nominal());
            words.push(format!(
                "The hose keeps {:.0} g as vapour and {:.0} g as liquid at ambient temperature. Draw it empty \
                 into the car and send {:.0} g; full of liquid it takes {:.0} g.",
                kept.vapour.g(),
                kept.liquid.g(),
                send.low.g(),
                send.high.g()
            ));
        }
        None => {
            let about = match sheet.job.refrigerant {
                Refrigerant::R134a | Refrigerant::R1234yf => ": a metre of 4.8 mm bore keeps about 20 g of liquid",
                _ => "",
            };
            words.push(format!("Add what stays in the hose, or draw the hose empty into the car{about}."));
        }
    }
    words.push(
        "Never by pressure alone: pressure says that some liquid is there, not how much. Never top up an unknown \
         amount: recover, weigh, charge anew."
            .to_owned(),
    );
    words.push("No liquid into the suction side of a running compressor. Charge above 21 °C (70 °F).".to_owned());
    Told {
        figure: Some(Figure {
            span: Span::new(label.nominal().g(), label.nominal().g(), "g", 0),
            standing: "label".into(),
        }),
        words,
        ..told("Charge by mass", &[])
    }
}
