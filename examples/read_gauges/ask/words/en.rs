//! The dialogue in English.

use satline::circuit::Intake;
use satline::inspection::{Measurand, Observation};

use super::super::question::Question;
use super::super::typed::{LONGEST, Replies, Unreadable};
use super::{Conditions, Prompt, Sentence, Share, Words};

/// The words in English.
pub struct English;

impl Words for English {
    fn replies(&self) -> Replies {
        Replies { yes: &["y", "yes"], no: &["n", "no"], back: &["back"], end: &["q", "quit", "exit", "done"] }
    }

    fn sentence(&self, sentence: Sentence) -> &'static str {
        match sentence {
            Sentence::Opening => {
                "Two gauges and a thermometer, or what there is of them. Enter skips a question, ? explains it, back takes the last answer \
                 back, q ends with what is known so far."
            }
            Sentence::NoRefrigerant => {
                "the refrigerant is missing, and nothing can be compared without it; the label under the bonnet names it"
            }
            Sentence::FirstQuestion => "This is the first question.",
            Sentence::NothingElse => "Nothing else is worth measuring as things are.",
            Sentence::ToGoOn => "To go on from here:",
            Sentence::ToRepeat => "To repeat this:",
        }
    }

    fn prompt(&self, question: Question, carbon_dioxide: bool) -> Prompt {
        prompt(question, carbon_dioxide)
    }

    fn hoses_swapped(&self) -> Prompt {
        Prompt {
            text: "Hoses swapped? y exchanges the values, Enter asks for both again:".to_owned(),
            help: "The gauge with the higher pressure hangs on the thin liquid or discharge line: that is the high side.",
        }
    }

    fn other_unit(&self, question: &str, instead: &str) -> Prompt {
        Prompt {
            text: format!("{question} y takes {instead}, Enter keeps what was typed:"),
            help: "Read the unit on the dial once more; the number alone would fit better in the other one.",
        }
    }

    fn conditions(&self, conditions: &Conditions) -> String {
        let speed = conditions.engine_speed.map_or("at idle".to_owned(), |rpm| format!("at {rpm} rpm"));
        let doors = match conditions.intake {
            Intake::Fresh => "fresh air",
            Intake::DoorsOpen => "recirculation, doors open",
            Intake::WindowOpen { .. } => "recirculation, a window open",
            Intake::Shut { .. } => "recirculation, doors and windows shut",
        };
        let place = if conditions.at_sea_level { ", at sea level" } else { "" };
        format!(
            "A running reading counts as taken after ten minutes {speed}: coldest setting, blower high, {doors}{place}. If it was not, \
             give --engine-speed, --fresh-air, --cabin or --altitude beside --ask."
        )
    }

    fn look_for(&self, cause: &str) -> String {
        format!("Look whether \"{cause}\" shows:")
    }

    fn no_answer(&self, missing: &str) -> String {
        format!("No answer yet: {missing}")
    }

    fn no_cause(&self, verdicts: &str) -> String {
        format!("No cause can be named from this; {verdicts}.")
    }

    fn share(&self, share: &Share) -> String {
        let was = share.was.as_ref().map_or(String::new(), |was| format!(" (was {was})"));
        format!("{}: {}{was}", share.now, share.causes.join("; or "))
    }

    fn safety(&self, cautions: &str) -> String {
        format!("Safety: {cautions}")
    }

    fn neither(&self, typed: &str) -> String {
        format!("{typed:?} is neither y for yes nor n for no.")
    }

    fn unreadable(&self, why: Unreadable) -> String {
        match why {
            Unreadable::TooLong => {
                format!("The line is longer than {LONGEST} bytes; a value and its unit are enough.")
            }
            Unreadable::NotText => "The line is not text in UTF-8; type it again.".to_owned(),
            Unreadable::ControlCharacter => {
                "The line holds a control character, such as an arrow key leaves; type it again.".to_owned()
            }
        }
    }

    fn not_at_rest(&self, _: &str, said: &str) -> String {
        said.to_owned()
    }

    fn input(&self) -> &'static str {
        "standard input"
    }
}

fn prompt(question: Question, carbon_dioxide: bool) -> Prompt {
    let level = if carbon_dioxide { "830 psi, 57 bar" } else { "85 psi, 5.9 bar" };
    let side = |side| if side == Measurand::LowSide { "Low" } else { "High" };
    let (text, help) = match question {
        Question::Refrigerant => (
            "Refrigerant on the label (R-134a, R-1234yf, R-12, CO2):".to_owned(),
            "The label under the bonnet names it beside the charge; without a label an identifier does. Cars from about 1991 on have R-134a, \
             today's R-1234yf.",
        ),
        Question::Running => (
            "Is the air conditioning running? y or Enter, n for engine off and cold:".to_owned(),
            "n: nothing has run for half an hour or more, all is cold, and both gauges show nearly the same.",
        ),
        Question::Level(of) => (
            value(&format!("{}-side gauge, engine off", side(of)), level),
            "Gauge pressure as the dial shows it, after half an hour or more at rest, all of it cold; both gauges show nearly the same then.",
        ),
        Question::Started => (
            "Is the air conditioning running now? y, Enter to leave it off:".to_owned(),
            "y goes on with both gauges of the running circuit; what was read at rest is kept beside it.",
        ),
        Question::Measured(measurand) => return measured(measurand, carbon_dioxide),
        Question::Ambient => (
            value("Outside air in the shade", "86 F, 30 C"),
            "Before the condenser, where every window depends on it; in the sun or over a hot engine a thermometer reads too high.",
        ),
        Question::Humidity => (
            "Humidity of the outside air (55%), Enter to skip:".to_owned(),
            "Relative humidity, by a hygrometer or the weather report; moist air raises both sides.",
        ),
        Question::Scale(of) => (
            format!(
                "End of its scale, if further ({}), Enter to read again:",
                if of == Measurand::LowSide { "250 psi, 17 bar" } else { "800 psi, 55 bar" }
            ),
            "The last figure on the dial. How far a gauge can be trusted follows from its scale.",
        ),
        Question::Seen(one) => {
            (format!("{} y, n, Enter to skip:", look(one)), "y for found, n for looked for and not found.")
        }
        Question::Resting => (
            value("Either gauge, engine off", level),
            "Half an hour or more after the stop, bonnet open, everything as warm as the air; both gauges show nearly the same.",
        ),
        Question::RestingTemperature => (
            "Temperature of all of it then (77 F, 25 C), Enter if as outside:".to_owned(),
            "Condenser, compressor and cabin alike; while they differ, wait longer.",
        ),
        Question::Recovered => (
            value("Charge recovered and weighed", "310 g, 0.68 lb"),
            "By the scale of the recovery machine. The circuit is empty then: nothing else is measured.",
        ),
        Question::NominalCharge => {
            (value("Charge on the label", "550 g, 1.2 lb"), "On the label under the bonnet, beside the refrigerant.")
        }
    };
    Prompt { text, help }
}

fn value(name: &str, example: &str) -> String {
    format!("{name}, with unit ({example}), Enter to skip:")
}

/// How a quantity of the running circuit is asked for.
fn measured(measurand: Measurand, carbon_dioxide: bool) -> Prompt {
    let (text, help) = match measurand {
        Measurand::LowSide => (
            value("Low-side gauge", if carbon_dioxide { "520 psi, 36 bar" } else { "32 psi, 2.2 bar, -10 inHg" }),
            "Gauge pressure as the dial shows it; below zero is a vacuum, with its minus. It hangs on the thick, cold line.",
        ),
        Measurand::HighSide => (
            value("High-side gauge", if carbon_dioxide { "1300 psi, 90 bar" } else { "185 psi, 12.8 bar" }),
            "Gauge pressure as the dial shows it; the needle may swing, its middle counts. It hangs on the thin or the hot line.",
        ),
        Measurand::SuctionLine => (
            value("Suction line at the low-side port", "48 F, 9 C"),
            "The thick, cold line to the compressor: thermometer clamped on bare metal, wrapped against the air.",
        ),
        Measurand::LiquidLine if carbon_dioxide => (
            value("Line from the gas cooler", "100 F, 38 C"),
            "Where it leaves the gas cooler: thermometer clamped on bare metal, wrapped against the air.",
        ),
        Measurand::LiquidLine => (
            value("Liquid line after the condenser", "105 F, 41 C"),
            "The thin, warm line from the condenser: thermometer clamped on bare metal, wrapped against the air.",
        ),
        Measurand::DischargeLine => (
            value("Discharge line", "150 F, 66 C"),
            "The line from compressor to condenser, at the compressor: thermometer clamped on bare metal, wrapped against the air.",
        ),
        Measurand::Vent => (
            value("Air at the centre vent", "50 F, 10 C"),
            "Thermometer a hand deep in the centre vent, where the air comes out coldest.",
        ),
        Measurand::ClutchDutyCycle => (
            "Clutch engaged (40% for 12 s of 30 s; 100% if always), Enter to skip:".to_owned(),
            "Over three cycles, engaged against all; the plate at the front of the compressor turns while it is engaged.",
        ),
        other => (value(other.name(), "50 F, 10 C"), "Thermometer clamped on bare metal, wrapped against the air."),
    };
    Prompt { text, help }
}

/// How an observation is asked for.
fn look(observation: Observation) -> String {
    match observation {
        Observation::Bubbles => "Are there bubbles in the sight glass?",
        Observation::CyclesOften => "Does the clutch cycle every few seconds?",
        Observation::StepOnLiquidLine => {
            "Is there a step in temperature, dew or frost along the liquid line or at the receiver?"
        }
        Observation::FrostAtValve => "Is there frost or dew at the inlet of the expansion device?",
        Observation::FrostOnSuction => {
            "Is there frost on the suction line at the compressor, or is it colder there than at the evaporator?"
        }
        Observation::EvaporatorIced => "Is the evaporator iced up?",
        Observation::ComesAndGoes => "Does the cooling stop, and return after a pause?",
        Observation::EqualisesQuickly => "Are the pressures equal soon after the compressor stops?",
        Observation::FallsAtStop => "When the compressor stops, does the high side fall at once, then slowly?",
        Observation::WaterHelps => "Does the high side fall when water is put on the condenser?",
        Observation::NotTurning => "Does the clutch plate or the shaft of the compressor slip or stand still?",
        Observation::LittleFrontAir => {
            "Does the condenser fan stand still, or is there little air through the condenser?"
        }
        Observation::EngineHot => "Does the engine run hot?",
        Observation::LittleCabinAir => "Is there little air from the vents?",
        Observation::OtherRefrigerant => "Does an identifier, a label or a fitting name another refrigerant?",
        other => return format!("Was {} found?", other.name()),
    }
    .to_owned()
}
