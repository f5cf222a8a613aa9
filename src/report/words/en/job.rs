//! Sentences of a job sheet: what each step says, what is asked, safety cautions.

use super::{NUMERALS, cm3, one};
use crate::quantity::PressureUnit;
use crate::report::job::{JobReport, Measurement, WindowGround, WindowName};
use crate::report::job_steps::oil_span;
use crate::report::job_tasks::{
    AdjustmentRow, AmountRow, DepartureRow, EvacuationRow, MakersRuleRow, OilActionRow, OilRuleRow, RuleRow, Standing,
    StepTask, SupplyRow, TargetDries, TenthRow, WaterRow, WindowNote, WorkRow,
};
use crate::report::words::pages::JobLabel;
use crate::report::{Amount, Span};
use crate::service::charge::TOLERANCE;
use crate::service::job::{CLUTCH_GAP_MM, Complaint, DEEP_VACUUM, HIDDEN_LEAK, JobCaution, JobQuestion, TURNS};
use crate::service::oil::compressor::{LITTLE, RECOVERED};
use crate::service::oil::kind::{CompressorDrive, FOREIGN_OIL, HIGH_VOLTAGE, OilKind, OilSuitability};
use crate::service::oil::part::ReplacedPart;
use crate::{GaugePressure, PressureDifference, Refrigerant, Source};

/// A heading, or the head of a column.
pub(in crate::report) const fn label(label: JobLabel) -> &'static str {
    match label {
        JobLabel::Questions => "Ask before you start",
        JobLabel::Steps => "Steps",
        JobLabel::Windows => "Windows for today's reading",
        JobLabel::What => "what",
        JobLabel::Window => "window",
        JobLabel::Basis => "basis",
        JobLabel::Measure => "What to measure",
        JobLabel::Safety => "Safety",
        JobLabel::Sources => "Sources",
    }
}

/// The unit that a vacuum is stated in, and its decimals.
pub(in crate::report) const fn vacuum_unit() -> (PressureUnit, u8) {
    (PressureUnit::InchOfMercury, 1)
}

/// What the sheet is about.
pub(in crate::report) fn opening(report: &JobReport) -> Vec<String> {
    let job = &report.opening;
    let drive = match job.drive {
        CompressorDrive::Belt => "belt-driven compressor",
        CompressorDrive::Electric => "electric compressor",
    };
    let mut opening = vec![format!("Job sheet: {}, {}, {drive}", report.refrigerant, job.charge)];
    if report.invented {
        opening.push("Worked example: the numbers are invented, no car was opened for them.".to_owned());
    }
    let label: Vec<String> = job
        .oil
        .iter()
        .map(|oil| format!("oil \"{oil}\""))
        .chain(job.oil_kind.iter().map(ToString::to_string))
        .collect();
    if !label.is_empty() {
        opening.push(format!("On the label: {}.", label.join(", ")));
    }
    let compressor = job.new_compressor.then_some("compressor").into_iter();
    let new: Vec<&str> = compressor.chain(job.parts.iter().map(|which| part(*which))).collect();
    if !new.is_empty() {
        opening.push(format!("New: {}.", new.join(", ")));
    }
    opening.push(complaint(job.complaint).to_owned());
    opening.push(
        "The maker's own figures come before everything here. Where none was given, the sheet shows the range that other \
         makers print, and says so: a range is there to judge a figure by, not to pour by."
            .to_owned(),
    );
    opening
}

const fn complaint(complaint: Complaint) -> &'static str {
    match complaint {
        Complaint::NoiseCoolsWell => "Complaint: noise; it cools well.",
        Complaint::NoiseCoolsBadly => "Complaint: noise; it cools badly.",
        Complaint::CoolsBadly => "Complaint: it cools badly.",
        Complaint::Leaks => "Complaint: a leak.",
        Complaint::NotSaid => "Complaint: not stated.",
    }
}

const fn part(part: ReplacedPart) -> &'static str {
    match part {
        ReplacedPart::Condenser => "condenser",
        ReplacedPart::Evaporator => "evaporator",
        ReplacedPart::ReceiverDrier => "receiver-drier",
        ReplacedPart::Accumulator => "accumulator",
        ReplacedPart::Line => "a hose or line",
        ReplacedPart::SuddenLoss => "oil lost at once with the charge",
        ReplacedPart::SlowLeak => "a seeping joint repaired",
    }
}

/// What only the maker or the bench can answer.
pub(in crate::report) fn question(question: &JobQuestion) -> String {
    match question {
        JobQuestion::CompressorRule => {
            "What rule does the maker print for oil in a new compressor of this car? Without it there is only a range."
                .to_owned()
        }
        JobQuestion::CompressorSupply => {
            "How is the new compressor supplied: filled (with how much?), emptied, dry, or used?".to_owned()
        }
        JobQuestion::Drained => {
            "How much oil came out of the old compressor? Measure it before anything is filled.".to_owned()
        }
        JobQuestion::PartFigure { part: which } => {
            format!("How much oil does the maker print for this: {}?", part(*which))
        }
        JobQuestion::WhichOunce => "Which ounce does the label mean: of weight, US fluid or imperial fluid?".to_owned(),
        JobQuestion::Contradiction => {
            "The label's cm³ and ounces do not agree (below, at the oil): which does the maker mean?".to_owned()
        }
        JobQuestion::OilKind => "Which oil is printed on the compressor or under the hood, with its grade?".to_owned(),
        JobQuestion::OilAmount => "How much oil does the whole circuit hold, by the label?".to_owned(),
        JobQuestion::OilUnsuited => {
            "The oil given does not suit this circuit (below, at the oil): was the label read right?".to_owned()
        }
        JobQuestion::Ambient => "How warm is the air in front of the condenser? Every window depends on it.".to_owned(),
    }
}

/// Safety caution at a step.
pub(in crate::report) fn caution(caution: JobCaution, refrigerant: Refrigerant) -> String {
    match caution {
        JobCaution::Frostbite => {
            "Goggles and gloves: liquid freezes skin and eyes, and a line can hold pressure behind a gauge at zero.".to_owned()
        }
        JobCaution::Asphyxiation => {
            "Vapour is heavier than air and displaces it: air the room, no work over a pit.".to_owned()
        }
        JobCaution::CarbonDioxide => {
            "Carbon dioxide harms at a few per cent in the air, long before it suffocates: no closed room, no pit.".to_owned()
        }
        JobCaution::DryIce => {
            "Let out fast it turns to dry ice, which plugs the hose: no pressure shows, and it comes back. Slowly, then wait and look again."
                .to_owned()
        }
        JobCaution::Flammable => {
            let class = refrigerant.fluid().safety_class.value;
            format!("{refrigerant} is flammable ({class}): no flame, no sparks, equipment made for it.")
        }
        JobCaution::Venting => "Letting it out is illegal in many places.".to_owned(),
        JobCaution::HighVoltage => "The voltage kills. For trained and authorised people only.".to_owned(),
        JobCaution::VoltageInVacuum => {
            "Never switch on the compressor under vacuum: it has neither oil flow nor insulation there.".to_owned()
        }
        JobCaution::ForeignOil => format!(
            "About {:.0} % of another oil already lowers the insulation of the motor; some makers then want every part of \
             the circuit replaced. No oil or dye through a shared machine.",
            FOREIGN_OIL.value.percent()
        ),
        JobCaution::Moving => {
            "Keep clear of belts and fans; a fan may start by itself. The discharge line is hot enough to burn.".to_owned()
        }
        JobCaution::CompressedAir => {
            "Never test with compressed air: under pressure it can burn with refrigerant. Use dry nitrogen, or a tracer gas."
                .to_owned()
        }
        JobCaution::Backflow => {
            "Never open the high-side valve of a can or cylinder towards a running circuit: the container can burst.".to_owned()
        }
    }
}

/// What vouches for a figure.
pub(in crate::report) const fn standing(standing: Standing) -> &'static str {
    match standing {
        Standing::Measured => "measured",
        Standing::MakersFigure => "maker's figure, as given",
        Standing::MakersRule => "by the maker's rule, as given",
        Standing::PublishedRange => "published range, not this maker's figure",
        Standing::PrintedByOthers => "printed by others; the maker's comes first",
        Standing::Label => "nominal charge, label",
        Standing::LabelAsRead => "label, as read",
        Standing::LabelVolumeAlone => "the label's volume; its ounces do not agree",
        Standing::LabelAnyOunce => "all that the label's ounces can mean",
    }
}

/// The title of a step; `compressor` says whether the compressor is replaced.
pub(in crate::report) fn title(task: &StepTask, compressor: bool) -> String {
    match task {
        StepTask::ClutchFirst => "Before condemning the compressor: clutch, bearing, pulley",
        StepTask::FindLeak => "Find the leak while there is refrigerant in the circuit",
        StepTask::MakeSafe => "Make the high-voltage system safe",
        StepTask::OilReturn { .. } => "Oil return to the compressor",
        StepTask::Recover => "Recover and weigh",
        StepTask::Open => "Open and cap",
        StepTask::Drain { .. } => "Drain the old compressor and measure",
        StepTask::Drier { .. } if compressor => "Drier, desiccant or accumulator: replace with the compressor",
        StepTask::Drier { .. } => "Drier, desiccant or accumulator: replace with the parts",
        StepTask::Rings => "O-rings: new ones at every joint that was opened",
        StepTask::OilKind { .. } => "Which oil",
        StepTask::LabelOil { .. } => "Oil of the whole circuit, by the label",
        StepTask::PartOil { part: ReplacedPart::SuddenLoss, .. } => "Oil for what was lost at once",
        StepTask::PartOil { part: ReplacedPart::SlowLeak, .. } => "Oil for the leak that was repaired",
        StepTask::PartOil { part: ReplacedPart::Line, .. } => "Oil for each new hose or line",
        StepTask::PartOil { part: which, .. } => return format!("Oil for the new {}", part(*which)),
        StepTask::RecoveredOil { .. } => "New oil for what came out with the refrigerant",
        StepTask::CompressorOil { .. } => "Oil for the compressor",
        StepTask::WholeOil { .. } => "Oil for the whole circuit",
        StepTask::TurnByHand => "Turn the compressor by hand",
        StepTask::Tighten => "Tighten",
        StepTask::Belt => "Belt",
        StepTask::PressureTest => "If it leaked: pressure test with dry nitrogen",
        StepTask::Evacuate { .. } => "Evacuate",
        StepTask::StandingVacuum { .. } => "Hold the vacuum",
        StepTask::Charge { .. } => "Charge by mass",
        StepTask::LeakCheck { .. } => "Leak check with the charge in",
        StepTask::Read { .. } => "Take today's reading",
    }
    .to_owned()
}

fn sentences<const N: usize>(words: [&str; N]) -> Vec<String> {
    words.map(str::to_owned).to_vec()
}

pub(in crate::report) fn clutch_first() -> Vec<String> {
    vec![
        "It cools well, so the compressor pumps. Check clutch, bearing and pulley before you condemn it.".to_owned(),
        "Noise with the clutch off and the engine running comes from the pulley bearing or the belt. Noise only with the \
         clutch on comes from the compressor, its mounts, the clutch gap, or liquid reaching it."
            .to_owned(),
        format!(
            "Belt off: the pulley must spin without roughness or play. Clutch gap: makers print figures between {} and {} \
             mm; use the one for this clutch.",
            CLUTCH_GAP_MM.value.0, CLUTCH_GAP_MM.value.1
        ),
    ]
}

pub(in crate::report) fn find_leak() -> Vec<String> {
    sentences([
        "Oil at a joint, dye, a detector along every line and at the drain of the evaporator.",
        "If too little refrigerant is left for that, recover it and test under dry nitrogen from a pressure regulator, no \
         higher than the maker allows: write down pressure and temperature, wait, and count a fall only after correcting it \
         for temperature.",
        "Repair it before anything is charged; the EU asks for that by law (from memory).",
    ])
}

pub(in crate::report) fn make_safe() -> Vec<String> {
    vec![
        format!(
            "Switch off, lock against switching on again, wait as long as the maker prints for the capacitors, prove that \
             there is no voltage with a tester that was itself proved. Such a compressor runs on {:.0} to {:.0} V, as \
             printed for one of them.",
            HIGH_VOLTAGE.value.0, HIGH_VOLTAGE.value.1
        ),
        "It stays locked until the circuit is closed, evacuated and charged.".to_owned(),
    ]
}

pub(in crate::report) fn oil_return(at_least: &Amount) -> Vec<String> {
    vec![format!(
        "Only if the compressor runs freely and nothing has leaked badly: run it for more than {} at 800 to 1000 rpm, \
         blower on full. The oil returns to it, and what you drain later tells more.",
        NUMERALS.plain(at_least)
    )]
}

pub(in crate::report) fn recover(refrigerant: Refrigerant, charge: &str) -> Vec<String> {
    let released = "R-744 may be let out in many places, outdoors or through an exhaust, slowly, as the maker says; weigh the container or \
                    count it as lost.";
    let released = (refrigerant == Refrigerant::R744).then(|| released.to_owned());
    let mut words = vec![
        format!(
            "Recover with equipment made for {refrigerant}, and weigh what comes out: the nominal charge is {charge}. Much \
             less means a leak; look for oily joints before you wipe anything."
        ),
        "Identify what is inside before you connect the machine: a wrong or mixed refrigerant contaminates it. In the US \
         whoever is paid for this needs certification under section 609 and approved equipment."
            .to_owned(),
        "Catch the oil that comes out with it, let it stand until it no longer foams, and write down how much.".to_owned(),
    ];
    words.extend(released);
    words
}

pub(in crate::report) fn open() -> Vec<String> {
    sentences([
        "Open each joint slowly and face away, even if the gauges show zero. Two wrenches at every joint.",
        "Cap every opening at once. Keep new parts sealed, and as warm as the room, until they go in: a cold part draws \
         moisture.",
    ])
}

pub(in crate::report) fn drain(drive: CompressorDrive, drained: Option<&Amount>, little: bool) -> Vec<String> {
    let turning = match drive {
        CompressorDrive::Belt => ", turning the shaft or the clutch hub",
        CompressorDrive::Electric => "",
    };
    let mut words = vec![format!(
        "Through all ports and the drain plug{turning}. Measure in a graduated cylinder, or weigh the jar before and after. \
         Used oil is never poured back."
    )];
    words.push(match drained {
        Some(oil) => format!("Measured: {}.", NUMERALS.amount(oil)),
        None => "Not measured yet: the oil for the new one depends on it.".to_owned(),
    });
    if little {
        words.push(format!(
            "That is little. Two manuals take less than {:.0} or {:.0} cm³ as a sign that oil was lost, not as the right \
             amount: find where it went.",
            LITTLE.value.low.cm3(),
            LITTLE.value.high.cm3()
        ));
    }
    words.push("Metal or black sludge in it: the circuit must be cleaned, or the new one will not last.".to_owned());
    words
}

pub(in crate::report) fn drier(listed: bool, open_long: bool) -> Vec<String> {
    let mut words = sentences([if listed {
        "It is among the new parts."
    } else {
        "None is among the new parts. Suppliers want a new one whenever the circuit was empty or any part was replaced; one \
         maker only when it stood open longer than the repair takes, or moisture got in."
    }]);
    if open_long {
        words.push(
            "The circuit stood open for days: Hyundai and Acura then print a new drier and hours of vacuum.".to_owned(),
        );
    }
    words.push("Unseal it last, just before it goes in: open, it is soon full of moisture.".to_owned());
    words
}

pub(in crate::report) fn rings(refrigerant: Refrigerant) -> Vec<String> {
    let metal = "Joints of R-744 are sealed by metal: each seal is used once, and the maker names it (from memory).";
    let metal = (refrigerant == Refrigerant::R744).then(|| metal.to_owned());
    let mut words = sentences([
        "Right size, right material. The makers disagree on what to wet them with: GM trucks and the Fiero want mineral oil \
         of 525 viscosity and no PAG; Geo Tracker and Daewoo Leganza want the clean PAG of the circuit; Acura wants a few \
         drops of the circuit's oil. Do what your maker prints.",
        "Do not soak coated rings.",
    ]);
    words.extend(metal);
    words
}

pub(in crate::report) fn pressure_test() -> Vec<String> {
    sentences([
        "Dry nitrogen through a regulator, never straight from the cylinder, to the pressure that the maker names for a test and never above \
         what the low side is made for. Gauges that stay, and soap at every joint, find what a vacuum hides.",
        "Let the nitrogen out before the pump is connected. Without a regulator, a maker's pressure or practice: leave it out.",
    ])
}

pub(in crate::report) fn oil_kind(
    oil: Option<(OilKind, OilSuitability)>,
    drive: CompressorDrive,
    refrigerant: Refrigerant,
) -> Vec<String> {
    let circuit = match drive {
        CompressorDrive::Belt => format!("belt-driven compressors with {refrigerant}"),
        CompressorDrive::Electric => "electric compressors on high voltage".to_owned(),
    };
    let suits = oil.map_or("Not given. Read it on the compressor or under the hood; do not guess.".to_owned(), |oil| {
        suitability(oil.0, oil.1, &circuit)
    });
    let grade = match drive {
        CompressorDrive::Belt => {
            "The grade (46, 100, 150) depends on the compressor, not on the refrigerant. Never mix oils."
        }
        CompressorDrive::Electric => "Only the oil this maker names, from a fresh can. Never mix oils.",
    };
    vec![suits, grade.to_owned(), "Keep the can shut: PAG and POE draw water from the air.".to_owned()]
}

fn suitability(oil: OilKind, suitability: OilSuitability, circuit: &str) -> String {
    match suitability {
        OilSuitability::Usual => format!("{oil}: the family that is printed for {circuit}."),
        OilSuitability::OnlyIfNamed => format!(
            "{oil}: not every maker allows it for {circuit}. Only if this maker names it, even at the same grade."
        ),
        OilSuitability::Wrong => format!("{oil}: wrong for {circuit}. Stop and read the label again."),
        OilSuitability::RuinsInsulation => format!(
            "{oil}: not for {circuit} unless this maker names it; it lowers the insulation. Stop and read the label again."
        ),
        OilSuitability::NothingFound => {
            format!("{oil}: nothing was found in print about it for {circuit}. The label decides.")
        }
    }
}

const fn reason(part: ReplacedPart) -> &'static str {
    match part {
        ReplacedPart::SuddenLoss => "A charge that leaves at once takes oil along.",
        ReplacedPart::SlowLeak => "A seep loses little oil.",
        ReplacedPart::Condenser
        | ReplacedPart::Evaporator
        | ReplacedPart::ReceiverDrier
        | ReplacedPart::Accumulator
        | ReplacedPart::Line => "The old one left with the oil on its walls.",
    }
}

pub(in crate::report) fn makers_part_oil(part: ReplacedPart, range: &Span) -> String {
    format!("Add {}. {}", cm3(range), reason(part))
}

pub(in crate::report) fn part_oil_in_compressor(range: &Span) -> String {
    format!("{}: already counted in the compressor by this maker's rule. Do not add it again.", cm3(range))
}

pub(in crate::report) fn published_part_oil(
    part: ReplacedPart,
    range: &Span,
    rows: &[AmountRow],
    on_top: Option<&Span>,
) -> Vec<String> {
    let mut words = vec![format!("Service manuals print {} for it. {}", cm3(range), reason(part))];
    words.extend(rows.iter().map(|row| {
        let works = row.works.iter().map(|work: &WorkRow| {
            let note = if work.remark.is_empty() { String::new() } else { format!(" ({})", work.remark) };
            format!("{}{note}", work.work)
        });
        format!("  {}: {}", cm3(&row.oil), works.collect::<Vec<_>>().join("; "))
    }));
    words.extend(on_top.map(|extra| {
        format!("Others go by what came out of the old one and add {}: drain it and measure.", cm3(extra))
    }));
    words
}

pub(in crate::report) fn unknown_part_oil(part: ReplacedPart) -> String {
    format!("Nothing was found in print. {}", reason(part))
}

pub(in crate::report) fn recovered_oil(recovered: Option<&Amount>, in_compressor: bool) -> String {
    match (recovered, in_compressor) {
        (Some(oil), true) => {
            format!(
                "{} came out with the refrigerant: already counted in the compressor by this maker's rule.",
                one(oil)
            )
        }
        (Some(oil), false) => format!("{} came out with the refrigerant: add as much new oil.", one(oil)),
        (None, _) => format!(
            "Not measured yet. As much new oil goes back as came out with the refrigerant; one maker expects {}, another \
             counts only more than half an ounce.",
            cm3(&oil_span(&RECOVERED.value))
        ),
    }
}

pub(in crate::report) fn whole_oil(label: Option<&Span>) -> String {
    match label {
        Some(range) => format!(
            "Flushed or new throughout, so no old oil is left and the whole amount goes in: {}; aim for the middle, {}. \
             Count what the new compressor already holds.",
            cm3(range),
            one(&range.middle())
        ),
        None => {
            "Flushed or new throughout, so no old oil is left and the whole amount of the label goes in: read it there."
                .to_owned()
        }
    }
}

pub(in crate::report) fn label_is_a_check() -> String {
    "It is a check: no part of the circuit can hold more than all of it.".to_owned()
}

pub(in crate::report) fn circuit_holds(label: &Span) -> String {
    format!("By the label the whole circuit holds {}.", cm3(label))
}

pub(in crate::report) fn compressor_not_drained() -> String {
    "Drain the old one first: every printed rule but one goes by what came out of it.".to_owned()
}

/// A rule in a sentence without its head and end.
fn rule(rule: &OilRuleRow) -> String {
    match rule {
        OilRuleRow::Refill { floor, extra, extra_up_to } => {
            let mut words = "empty the new one and refill it with what was drained".to_owned();
            if let Some(extra) = extra {
                words += &format!(" and {} on top", one(extra));
            }
            if let Some(limit) = extra_up_to {
                words += &format!(" (up to {} drained)", one(limit));
            }
            if let Some(floor) = floor {
                words += &format!("; below {} drained, with {}", one(&floor.below), one(&floor.instead));
            }
            words
        }
        OilRuleRow::Subtract { residual, floor } => {
            let mut words = "leave in the new one what was drained".to_owned();
            if let Some(residual) = residual {
                words += &format!(" and {} that cannot be drained", one(residual));
            }
            if let Some(floor) = floor {
                words += &format!("; below {} drained, count {}", one(&floor.below), one(&floor.instead));
            }
            words
        }
        OilRuleRow::Capped { cap } => {
            format!("take out what the new one holds beyond what was drained, never more than {}", one(cap))
        }
    }
}

fn action(applied: &MakersRuleRow) -> String {
    match &applied.action {
        OilActionRow::Pour { oil, empty_first: true } => format!("Empty the new one, then pour in {}.", cm3(oil)),
        OilActionRow::Pour { oil, empty_first: false } => format!("Pour in {}.", cm3(oil)),
        OilActionRow::TakeOut { oil } => {
            format!("Take {} out of the new one; {} stays in.", one(oil), cm3(&applied.left))
        }
        OilActionRow::AsItIs => format!("Fit it as it is, with its {}.", cm3(&applied.left)),
    }
}

fn departure(departure: &DepartureRow) -> String {
    match departure {
        DepartureRow::Floor { oil } => format!("So little was drained that the rule takes {} instead.", one(oil)),
        DepartureRow::Cap { oil } => {
            format!("The subtraction alone would say {}; the rule stops before.", one(oil))
        }
        DepartureRow::Short { oil } => format!(
            "It holds {} less than the rule asks for. No rule says to add that: ask the maker before you do.",
            one(oil)
        ),
    }
}

/// The maker's rule applied.
pub(in crate::report) fn makers_rule(applied: &MakersRuleRow) -> Vec<String> {
    let mut words = vec![format!("By the rule given: {}.", rule(&applied.rule))];
    match (&applied.rule, &applied.supply) {
        (OilRuleRow::Subtract { residual, .. }, SupplyRow::Filled { contents }) => words.push(format!(
            "{} in the new one − ({} drained + {} that cannot be drained + {} for other parts + {} recovered).",
            one(contents),
            one(&applied.counted),
            residual.as_ref().map_or_else(|| one(&Amount::new(0.0, None, "cm³", 0)), one),
            one(&applied.other_parts),
            one(&applied.recovered)
        )),
        (OilRuleRow::Capped { .. }, SupplyRow::Filled { contents }) => {
            words.push(format!("{} in the new one − {} drained.", one(contents), one(&applied.drained)));
        }
        (OilRuleRow::Refill { .. }, _) | (_, SupplyRow::Emptied | SupplyRow::Dry | SupplyRow::Used) => {}
    }
    words.push(action(applied));
    words.extend(applied.departure.as_ref().map(departure));
    if matches!(applied.supply, SupplyRow::Used) {
        words.push(
            "It is a used one: drain it first. Nobody knows what stays on its walls; two makers put it at 20 cm³, which is \
             why there may be a range."
                .to_owned(),
        );
    }
    words
}

pub(in crate::report) fn published_rules(drained: Option<&Amount>, left: &Span, rows: &[RuleRow]) -> Vec<String> {
    let mut words = vec![format!(
        "No rule of this maker was given. With {} drained, the rules that others print leave {} in the compressor:",
        drained.map_or("what was".to_owned(), one),
        cm3(left)
    )];
    words.extend(rows.iter().map(|row| {
        let works = row.works.iter().map(|work: &WorkRow| {
            let scope = if work.remark.is_empty() { String::new() } else { format!(", {}", work.remark) };
            format!("{}{scope}", work.work)
        });
        format!("  {}: {} ({})", cm3(&row.left), rule(&row.rule), works.collect::<Vec<_>>().join("; "))
    }));
    words
}

pub(in crate::report) fn supply_unknown() -> String {
    "Find out how the new one is supplied before you pour in or take out anything.".to_owned()
}

pub(in crate::report) fn comes_empty() -> String {
    "It comes empty: what is to be in it must be poured in.".to_owned()
}

pub(in crate::report) fn comes_used() -> String {
    "It is a used one: drain it first. What stays on its walls counts too; two makers put it at 20 cm³.".to_owned()
}

pub(in crate::report) fn comes_filled(contents: &Amount, adjustment: &AdjustmentRow) -> String {
    let by = match adjustment {
        AdjustmentRow::Out { oil } => format!("{} would come out", cm3(oil)),
        AdjustmentRow::In { oil } => format!("{} would go in on top", cm3(oil)),
        AdjustmentRow::Either { out, into } => {
            format!("anything from {} out to {} on top is possible", one(out), one(into))
        }
    };
    format!("It comes with {}; by these rules {by}. The maker's rule decides, not the middle.", one(contents))
}

pub(in crate::report) fn turn_by_hand() -> Vec<String> {
    vec![format!(
        "About {} turns by hand with the oil in, before belt or clutch turns it for the first time: oil in front of a piston \
         cannot be compressed.",
        TURNS.value
    )]
}

pub(in crate::report) fn tighten() -> Vec<String> {
    sentences([
        "To the maker's figures, which differ several times over for joints that look alike. Two wrenches. Too little leaks, \
         and so does too much.",
    ])
}

pub(in crate::report) fn belt() -> Vec<String> {
    sentences([
        "Path and tension by the maker's figures. See that the pulley runs true and the belt sits in its grooves.",
    ])
}

pub(in crate::report) fn evacuate(vacuum: &EvacuationRow, open_long: bool) -> Vec<String> {
    let n = NUMERALS;
    let gauge = [vacuum.gauge.high, vacuum.gauge.low].map(GaugePressure::from_inhg);
    let mut words = vec![
        format!(
            "Below {} absolute, better {}. With the air at {} that is {} inHg on the gauge, better {} ({} and {} kPa).",
            n.plain(&vacuum.target.upper()),
            n.number(vacuum.target.low, 1),
            n.plain(&vacuum.air),
            n.number(gauge[0].inhg(), 1),
            n.number(gauge[1].inhg(), 1),
            n.number(gauge[0].kpa(), 0),
            n.number(gauge[1].kpa(), 0)
        ),
        format!(
            "It should get there within {}; if not, look for a leak, a closed valve or a weak pump. Run the pump for \
             at least {}; army manuals print 90.",
            n.plain(&vacuum.within),
            n.plain(&vacuum.run)
        ),
    ];
    if open_long {
        words.push("The circuit stood open for days: hours, not minutes.".to_owned());
    }
    words.extend(vacuum.water.as_ref().map(water_at_target));
    words.push(format!(
        "A service gauge cannot show whether the circuit dries. A vacuum gauge can: the trade aims for {:.0} to {:.0} micron, \
         and no publication says so.",
        DEEP_VACUUM.value.low.microns(),
        DEEP_VACUUM.value.high.microns()
    ));
    words
}

fn water_at_target(water: &WaterRow) -> String {
    let answer = match water.dries {
        TargetDries::Both => "both dry a circuit as cold as today's air",
        TargetDries::BetterAlone => "only the better one dries a circuit as cold as today's air",
        TargetDries::Neither => "neither dries a circuit as cold as today's air: warm it, or go deeper",
    };
    format!(
        "Water boils at {} at the first pressure and at {} at the better one: {answer}.",
        NUMERALS.plain(&water.first),
        NUMERALS.plain(&water.better)
    )
}

pub(in crate::report) fn standing_vacuum(hold: &Amount, rise: &Amount) -> Vec<String> {
    vec![
        format!(
            "Shut the pump off and watch the gauge for {}: it may rise by {} inHg ({}) at most.",
            NUMERALS.plain(hold),
            NUMERALS.number(PressureDifference::from_kpa(rise.value).inhg(), 1),
            NUMERALS.plain(rise)
        ),
        "A rise that levels off is moisture, or refrigerant coming out of the oil: evacuate again. A rise that goes on is a \
         leak (common practice)."
            .to_owned(),
        format!(
            "Passing does not prove it tight: in a circuit of 2.5 L a rise of 1 inHg in 5 min hides a leak some {:.0} times \
             the 14 g a year that a detector finds on its coarsest scale.",
            // as many digits as the comparison is worth
            (HIDDEN_LEAK.value / 100.0).round() * 100.0
        ),
    ]
}

pub(in crate::report) fn charge(
    nominal: &Amount,
    tolerance: Option<&Amount>,
    hose: Option<&Span>,
    refrigerant: Refrigerant,
) -> Vec<String> {
    let n = NUMERALS;
    let by_scale = match tolerance {
        Some(by) => format!("{} by the scale, within the printed ±{}.", n.plain(nominal), n.plain(by)),
        None => format!(
            "{} by the scale. No tolerance is printed; ±{:.0} g is commonly taken as tolerable.",
            n.plain(nominal),
            TOLERANCE.value.g()
        ),
    };
    let hose = match (hose, refrigerant) {
        (Some(holdup), _) => format!(
            "Hose holdup at ambient temperature: {:.0} g as vapour, {:.0} g as liquid. Draw the hose empty into the car and \
             send {:.0} g; if it stays full of liquid, send {:.0} g.",
            holdup.low,
            holdup.high,
            nominal.value + holdup.low,
            nominal.value + holdup.high
        ),
        (None, Refrigerant::R134a | Refrigerant::R1234yf) => {
            "Add the hose holdup, or draw the hose empty into the car: a metre of 4.8 mm bore holds about 20 g of liquid."
                .to_owned()
        }
        (None, _) => "Add the hose holdup, or draw the hose empty into the car.".to_owned(),
    };
    vec![
        by_scale,
        hose,
        "Never by pressure alone: pressure says that some liquid is there, not how much. Never top up an unknown amount: \
         recover, weigh, charge anew."
            .to_owned(),
        "No liquid into the suction side of a running compressor. Charge above 21 °C (70 °F).".to_owned(),
    ]
}

pub(in crate::report) fn leak_check(
    standard: Option<&str>,
    scales: &[Amount],
    allowed: Option<&Amount>,
    tenth: &[TenthRow],
) -> Vec<String> {
    let where_to = "Detector at every joint that was touched, at the service ports and at the drain of the evaporator.";
    let mut words = vec![match standard {
        Some(standard) => {
            let scales: Vec<String> = scales.iter().map(|leak| NUMERALS.number(leak.value, 0)).collect();
            format!("{where_to} Scales of {standard}: {} g a year.", scales.join(", "))
        }
        None => format!("{where_to} No standard for this refrigerant's detectors was found."),
    }];
    words.extend(tenth.last().map(|TenthRow { leak, takes }| {
        let (rate, months) = (leak.value, takes.value);
        format!("A leak of {rate:.0} g a year takes a tenth of this charge in {months:.0} months.")
    }));
    words.extend(allowed.map(|allowed| {
        format!(
            "EU type approval allows a new car with one evaporator {:.0} g a year for such refrigerants.",
            allowed.value
        )
    }));
    words.push("Caps back on the ports: they seal.".to_owned());
    words
}

pub(in crate::report) fn read() -> Vec<String> {
    sentences([
        "First with the engine off and cold, then after ten minutes' running at the coldest setting, blower on full.",
    ])
}

/// What the reading is set against.
pub(in crate::report) const fn window_note(note: WindowNote) -> &'static str {
    match note {
        WindowNote::NoAmbient => "Without the ambient temperature there is no window to compare it with.",
        WindowNote::NoneCovers => {
            "No window covers this day and refrigerant: the check with the engine off is what remains."
        }
        WindowNote::CarriedOver => {
            "Compare it with the windows below; charts of R-134a are carried over at equal saturation temperature."
        }
        WindowNote::Below => "Compare it with the windows below.",
    }
}

/// The name of a window.
pub(in crate::report) const fn window(name: WindowName) -> &'static str {
    match name {
        WindowName::LowSide => "low side",
        WindowName::HighSide => "high side",
        WindowName::Superheat => "superheat",
        WindowName::Subcooling => "subcooling",
        WindowName::CondensingOverAmbient => "condensing over ambient",
        WindowName::Vent => "vent",
    }
}

/// What a window rests on.
pub(in crate::report) fn ground(ground: &WindowGround) -> String {
    match ground {
        WindowGround::Circuits { circuits } => format!("{circuits} healthy cars computed"),
        WindowGround::Charts { charts, carried_over } => {
            let print = if *charts == 1 { "1 printed chart".to_owned() } else { format!("{charts} printed charts") };
            match carried_over {
                0 => print,
                all if all == charts => format!("{print} of R-134a"),
                _ => format!("{print}, most of R-134a"),
            }
        }
        WindowGround::RuleOfThumb => Source::COMMON_PRACTICE.to_string(),
    }
}

/// What to measure.
pub(in crate::report) const fn measurement(measurement: Measurement) -> &'static str {
    match measurement {
        Measurement::EqualisedCarbonDioxide => {
            "Engine off and cold: both gauges alike; up to 30 °C around the car at saturation. Hotter there is none, and the \
             pressure tells the charge alone."
        }
        Measurement::Equalised => {
            "Engine off and cold: both gauges alike, and at saturation for the air around. Above it: air, or another \
             refrigerant."
        }
        Measurement::Running => {
            "Running: low side, high side, ambient in the shade in front of the condenser, humidity, centre vent."
        }
        Measurement::Lines => {
            "Thermometers clamped on the suction line at the evaporator and on the liquid line after the condenser."
        }
        Measurement::Noise => "Listen: clutch off, clutch on.",
        Measurement::OilAfterAWeek => "After a week: look at every joint for oil once more.",
    }
}

#[cfg(test)]
mod tests;
