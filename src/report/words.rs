//! The sentences of a page: what each verdict means, and what to measure next.

use crate::circuit::ranges;
use crate::line::Saturation;
use crate::quantity::PressureUnit;
use crate::window::{
    Assessment, Book, Engine, LineFinding, PartReading, Position, Quantiles, RestFinding, RestVerdict, Side,
    SideFinding, Verdict, carbon_dioxide,
};
use crate::{GaugePressure, Pressure, Quantity, Refrigerant, TemperatureDifference};

/// What the reading means, one sentence or two for each finding.
pub(super) fn meaning(reading: &PartReading, assessment: &Assessment, book: &Book) -> Vec<String> {
    if let Some(rest) = &assessment.rest {
        return at_rest(rest, reading);
    }
    let mut words = Vec::new();
    if reading.ambient.is_none() {
        words.push("Without the ambient temperature there is no window for either side.".to_owned());
    } else if book.covered(Side::Low).is_none() && book.covered(Side::High).is_none() {
        words.push(format!("No chart of pressures by ambient has been found for {}.", reading.refrigerant));
    } else {
        words.extend(assessment.low.as_ref().map(|low| side(low, Side::Low, book)));
        words.extend(assessment.high.as_ref().map(|high| side(high, Side::High, book)));
    }
    if let (Refrigerant::R744, Some(high)) = (reading.refrigerant, &assessment.high) {
        words.push(carbon_dioxide_side(reading, high, assessment));
    }
    if let (Some(low), Some(high)) = (reading.low, reading.high)
        && low.value() + low.expanded() > high.value() - high.expanded()
    {
        words.push(
            "Both gauges read nearly the same with the compressor called for: it moves little or nothing. Look first \
             whether clutch, belt or drive turns it."
                .to_owned(),
        );
    }
    // healthy cars of the day where they were computed, else the rule of the trade
    let cars = assessment.healthy.as_ref();
    if let Some(finding) = &assessment.superheat {
        words.push(superheat(finding, judged(finding, cars.map(|window| &window.superheat))));
    } else if reading.suction_line.is_some() && reading.low.is_some() {
        words.push("The low side is above the critical pressure: there is no superheat to state.".to_owned());
    }
    if let Some(finding) = &assessment.subcooling {
        words.push(subcooling(finding, judged(finding, cars.and_then(|window| window.subcooling.as_ref()))));
    } else if reading.liquid_line.is_some() && reading.high.is_some() {
        words.push(
            "The high side is above the critical pressure, where nothing condenses: there is no subcooling to state."
                .to_owned(),
        );
    }
    if let Some(finding) = &assessment.condensing_over_ambient {
        words.push(lift(judged(finding, cars.and_then(|window| window.condensing_over_ambient.as_ref()))));
    }
    if let Some(vent) = reading.vent {
        words.push(match cars {
            Some(window) => vent_among_cars(Verdict::of(&vent, &window.vent.range())),
            None => vent_by_tables(assessment),
        });
        let boiling = saturated(&assessment.low).map(|saturation| saturation.dew);
        if boiling.is_some_and(|t| vent.value() + vent.expanded() < t.value() - t.expanded()) {
            words.push(
                "The vent reads colder than the refrigerant boils, which cannot be: check the low-side gauge, the \
                 thermometer and which refrigerant is inside."
                    .to_owned(),
            );
        }
    }
    words.push(NAMES_NO_CAUSE.to_owned());
    words
}

/// Low side, high side, or both.
const NOT_READ: [&str; 3] = [
    "The low side was not read, and more stays open than with both gauges.",
    "The high side was not read, and more stays open than with both gauges.",
    "With the compressor running neither gauge was read, and much more stays open than with both.",
];

/// Which gauge was not read, in a sentence.
pub(super) fn not_read(low: bool, high: bool) -> Option<&'static str> {
    match (low, high) {
        (true, true) => Some(NOT_READ[2]),
        (true, false) => Some(NOT_READ[0]),
        (false, true) => Some(NOT_READ[1]),
        (false, false) => None,
    }
}

/// Whether `sentence` is one of [`not_read`].
pub(super) fn says_not_read(sentence: &str) -> bool {
    NOT_READ.contains(&sentence)
}

/// What a page without causes says of itself.
pub(super) const NAMES_NO_CAUSE: &str = "This page compares; it names no cause. One value outside its window is a reason to \
                                         measure again before anything is opened.";

/// A chance of 95 %, as printed, and more is taken as settled: the same share as the intervals.
const SETTLED: f64 = 0.945;

/// Whether the instruments leave no doubt worth a word.
pub(super) fn settled(chance: f64) -> bool {
    chance >= SETTLED
}

/// How a chance below certainty is put.
pub(super) fn doubt(chance: f64) -> String {
    if settled(chance) { String::new() } else { format!(" The instruments leave it open ({:.0} %).", 100.0 * chance) }
}

/// Where the refrigerant is saturated on a side that was read.
fn saturated(side: &Option<SideFinding>) -> Option<Saturation> {
    side.as_ref().and_then(|side| side.saturation)
}

fn side(finding: &SideFinding, side: Side, book: &Book) -> String {
    let (name, does) = match side {
        Side::Low => ("low side", "the evaporator boils"),
        Side::High => ("high side", "the condenser works"),
    };
    let Some(verdict) = finding.verdict else {
        return no_window(name, side, book);
    };
    let of = finding.window.vouched().count();
    let inside = finding.window.agreeing(finding.gauge.value());
    let charts = if of == 1 { "the only chart".to_owned() } else { format!("all {of} charts") };
    let derived = if finding.window.vouched().all(|band| band.basis == crate::window::Basis::Printed) {
        ""
    } else {
        " Most of them are carried over from R-134a."
    };
    let sentence = match verdict.position {
        Position::Within if of == 1 => format!("The {name} lies within the only chart for this day."),
        Position::Within => format!(
            "The {name} lies within the band of the charts for this day, inside {inside} of {of}. The charts disagree \
             because the cars behind them do."
        ),
        Position::Below => {
            format!("The {name} is below {charts} for this day: {does} colder than in the cars behind them.")
        }
        Position::Above => {
            format!("The {name} is above {charts} for this day: {does} hotter than in the cars behind them.")
        }
    };
    sentence + derived + &doubt(verdict.chance)
}

fn no_window(name: &str, side: Side, book: &Book) -> String {
    match book.covered(side) {
        Some(covered) => format!(
            "No chart covers this ambient for the {name}: they run from {:.0} to {:.0} °C, and nothing is guessed beyond.",
            covered.low.celsius(),
            covered.high.celsius()
        ),
        None => format!("No chart says anything about the {name}."),
    }
}

fn carbon_dioxide_side(reading: &PartReading, high: &SideFinding, assessment: &Assessment) -> String {
    let read = high.absolute.value().entered(PressureUnit::Bar, 0);
    let mut marks = Vec::new();
    if let Some(Ok(best)) = reading.ambient.map(|t| carbon_dioxide::best_pressure_by_ambient(t.value())) {
        marks.push(format!("{} by the ambient", best.entered(PressureUnit::Bar, 0)));
    }
    let evaporating = saturated(&assessment.low).map(|saturation| saturation.dew.value());
    if let Some((evaporating, outlet)) = evaporating.zip(reading.liquid_line)
        && let Ok(best) = carbon_dioxide::best_pressure_by_outlet(evaporating, outlet.value())
    {
        marks.push(format!("{} by the gas cooler's outlet", best.entered(PressureUnit::Bar, 0)));
    }
    if marks.is_empty() {
        return "For R-744 published correlations of the best high side exist from 35 to 50 °C ambient, or from 30 to 60 °C at \
                the outlet of the gas cooler; neither covers this reading."
            .to_owned();
    }
    format!(
        "For R-744 published correlations (from memory) put the best high side at {} absolute; read {read}. That is where \
         the cycle works best, not a limit.",
        marks.join(" and ")
    )
}

/// Where a finding lies: among `cars`, else by the rule of the trade.
fn judged(finding: &LineFinding, cars: Option<&Quantiles<TemperatureDifference>>) -> Option<Verdict> {
    cars.map(|cars| Verdict::of(&finding.value, &cars.range())).or(finding.verdict)
}

fn superheat(finding: &LineFinding, verdict: Option<Verdict>) -> String {
    if finding.value.value().si() < 0.0 && finding.is_clear() {
        return "The suction line reads colder than the refrigerant boils at this pressure, which cannot last: check the \
                thermometer's contact, the gauge and which refrigerant is inside."
            .to_owned();
    }
    let Some(verdict) = verdict else {
        return "How much superheat is usual is not known for this refrigerant's systems; above zero the vapour is dry."
            .to_owned();
    };
    let sentence = match verdict.position {
        Position::Below => {
            "Little superheat on the suction line: the vapour may still carry liquid. With an orifice tube and an \
             accumulator that is usual; with a thermostatic valve it is not."
        }
        Position::Within => "Superheat is as usual: the evaporator is filled and the vapour leaves it dry.",
        Position::Above => {
            "Much superheat on the suction line: the last part of the evaporator runs dry, or the thermometer sits where the \
             line has taken up heat, behind an internal heat exchanger above all."
        }
    };
    sentence.to_owned() + &doubt(verdict.chance)
}

fn subcooling(finding: &LineFinding, verdict: Option<Verdict>) -> String {
    if finding.value.value().si() < 0.0 && finding.is_clear() {
        return "The liquid line reads hotter than the refrigerant condenses at this pressure: either it carries hot gas, or \
                gauge, thermometer or refrigerant are not what they seem."
            .to_owned();
    }
    let Some(verdict) = verdict else {
        return "How much subcooling is usual is not known for this refrigerant's systems; above zero the line is liquid."
            .to_owned();
    };
    let sentence = match verdict.position {
        Position::Below => "Little subcooling: the liquid line may carry bubbles to the expansion device.",
        Position::Within => "Subcooling is as usual: the liquid line is full of liquid.",
        Position::Above => {
            "Much subcooling: liquid stands back in the condenser, or a gas that does not condense adds to the pressure."
        }
    };
    sentence.to_owned() + &doubt(verdict.chance)
}

fn lift(verdict: Option<Verdict>) -> String {
    let Some(verdict) = verdict else {
        return "How far condensing should stand above ambient is not known for this refrigerant.".to_owned();
    };
    let sentence = match verdict.position {
        Position::Below => "Condensing stands closer to the ambient than usual: little heat is being shed.",
        Position::Within => "Condensing stands as far above the ambient as usual.",
        Position::Above => {
            "Condensing stands further above the ambient than usual: the condenser has more heat to shed, or less air to \
             shed it to, than in most cars."
        }
    };
    sentence.to_owned() + &doubt(verdict.chance)
}

fn vent_among_cars(verdict: Verdict) -> String {
    let sentence = match verdict.position {
        Position::Below => "The vent is colder than in most healthy cars on this day: cooling is there.",
        Position::Within => "The vent is as cold as in healthy cars on this day.",
        Position::Above => "The vent is warmer than in most healthy cars on this day.",
    };
    sentence.to_owned() + &doubt(verdict.chance)
}

fn vent_by_tables(assessment: &Assessment) -> String {
    let Some(verdict) = assessment.vent_verdict else {
        return "No table of vent temperatures covers this day.".to_owned();
    };
    let sentence = match verdict.position {
        Position::Below => "The vent is colder than the tables ask for: cooling is there.",
        Position::Within => "The vent is as cold as the tables ask for.",
        Position::Above => "The vent is warmer than the tables ask for.",
    };
    sentence.to_owned() + &doubt(verdict.chance)
}

fn at_rest(rest: &RestFinding, reading: &PartReading) -> Vec<String> {
    let r = reading.refrigerant;
    let first = match rest.verdict {
        RestVerdict::NotLevelled => {
            "The gauges differ by more than they may at rest (a maker allows 50 kPa): the circuit has not levelled yet, a \
             passage is closed, or one gauge is off. Wait and read again."
                .to_owned()
        }
        RestVerdict::LiquidGone if rest.read.value().si().abs() <= rest.read.expanded().si() => {
            "Both gauges stand at air pressure: the circuit is empty or open. Find the leak before anything is charged."
                .to_owned()
        }
        RestVerdict::LiquidGone => format!(
            "Both gauges stand below saturation of {r} at ambient: no liquid is left inside, or the circuit is colder than \
             the air around it."
        ),
        RestVerdict::AtSaturation => format!(
            "Both gauges stand at saturation of {r} at ambient: some liquid is inside. How much, this pressure cannot say."
        ),
        RestVerdict::AboveSaturation => format!(
            "Both gauges stand above saturation of {r} at ambient: air or another refrigerant is inside, or the circuit is \
             still warmer than the air around it."
        ),
    };
    let mut words = vec![first + &rest.chance.map_or(String::new(), doubt)];
    if rest.verdict == RestVerdict::AtSaturation {
        let kpa = rest.noticeable.entered(PressureUnit::Kilopascal, 0);
        let psi = rest.noticeable.entered(PressureUnit::Psi, 1);
        words.push(format!(
            "These instruments would not show a difference smaller than {kpa} ({psi}): a little air can hide in that."
        ));
    }
    words
}

const ASK_LOW_SIDE: &str = "The gauge on the low side: with the suction line it gives the superheat.";
const ASK_HIGH_SIDE: &str = "The gauge on the high side: it shows what the condenser does, and too much charge.";
const ASK_SUCTION_LINE: &str = "Clamp a thermometer on the suction line between the evaporator and any internal heat \
                                exchanger: superheat tells whether the evaporator is filled.";
const ASK_LIQUID_LINE: &str =
    "Clamp a thermometer on the liquid line after the condenser: subcooling tells whether liquid reaches the valve.";
const ASK_AT_REST: &str =
    "Engine off and cold: both gauges at rest show air or a lost charge better than any running reading.";
const ASK_VENT: &str = "Temperature at the centre vent: the one figure the driver feels.";

/// Whether `sentence` of [`next`] asks for `quantity`.
pub(super) fn asks_for(sentence: &str, quantity: &str) -> bool {
    match quantity {
        "low side" => sentence == ASK_LOW_SIDE,
        "high side" => sentence == ASK_HIGH_SIDE,
        "suction line" => sentence == ASK_SUCTION_LINE,
        "liquid line" => sentence == ASK_LIQUID_LINE,
        "vent" => sentence == ASK_VENT,
        "pressure at rest" => sentence == ASK_AT_REST,
        _ => false,
    }
}

const STOP_VACUUM: &str = "Switch the air conditioning off now: with the low side in vacuum hardly any gas returns, and the compressor \
                           loses its oil and its cooling.";
const STOP_PRESSURE: &str = "Switch the air conditioning off now: the high side stands where makers' switches cut out, or above. More can \
                             open the relief valve or burst a hose. Do not clamp, open or connect anything until it has fallen.";

/// What must be done before anything is measured: of a running circuit.
fn stops(reading: &PartReading) -> Vec<&'static str> {
    let mut stops = Vec::new();
    if reading.low.is_some_and(|low| low.value() + low.expanded() < GaugePressure::from_pa(0.0)) {
        stops.push(STOP_VACUUM);
    }
    let cut_out = if reading.refrigerant == Refrigerant::R744 {
        // printed as absolute
        Pressure::from_mpa(ranges::HIGH_LIMIT_R744.low).gauge(reading.air.value())
    } else {
        GaugePressure::from_kpa(ranges::HIGH_LIMIT.low)
    };
    if reading.high.is_some_and(|high| high.value() >= cut_out) {
        stops.push(STOP_PRESSURE);
    }
    stops
}

/// Whether `sentence` of [`next`] comes before any measurement.
pub(super) fn stops_first(sentence: &str) -> bool {
    sentence == STOP_VACUUM || sentence == STOP_PRESSURE
}

/// What to measure next: what was not measured, and what it would tell.
pub(super) fn next(reading: &PartReading, assessment: &Assessment) -> Vec<String> {
    let mut next = Vec::new();
    let mut ask = |missing: bool, sentence: &str| {
        if missing {
            next.push(sentence.to_owned());
        }
    };
    if reading.engine == Engine::AtRest {
        let is = |verdict| assessment.rest.is_some_and(|rest| rest.verdict == verdict);
        ask(true, "Temperatures of condenser, compressor and cabin: all must equal the ambient, or wait longer.");
        ask(
            is(RestVerdict::AboveSaturation),
            "Let the engine cool down fully and repeat before concluding that air is inside. If it stays above, find out what \
             is inside before it is run or recovered.",
        );
        ask(
            is(RestVerdict::LiquidGone),
            "Do not run the compressor: without liquid it gets no oil back. Look for the leak, recover and weigh what is left.",
        );
        ask(is(RestVerdict::AtSaturation), "Then the same gauges with the compressor running.");
        return next;
    }
    let stops = stops(reading);
    if !stops.is_empty() {
        // nothing more is measured on a circuit that must not run
        return stops.into_iter().map(str::to_owned).collect();
    }
    ask(
        reading.ambient.is_none(),
        "Ambient temperature in the shade before the condenser: every window depends on it.",
    );
    ask(reading.low.is_none(), ASK_LOW_SIDE);
    ask(reading.high.is_none(), ASK_HIGH_SIDE);
    ask(reading.suction_line.is_none() && reading.low.is_some(), ASK_SUCTION_LINE);
    ask(reading.liquid_line.is_none() && saturated(&assessment.high).is_some(), ASK_LIQUID_LINE);
    ask(reading.vent.is_none(), ASK_VENT);
    ask(reading.humidity.is_none(), "Humidity: moist air loads the evaporator and raises both sides.");
    ask(
        [&assessment.low, &assessment.high].into_iter().flatten().any(|side| !side.window.bands.is_empty()),
        "Was the test run as the charts ask: ten minutes, coldest setting, blower high, doors or windows open? Else repeat.",
    );
    ask(true, ASK_AT_REST);
    next
}
