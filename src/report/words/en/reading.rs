//! The sentences of a page about one reading.

use super::{NUMERALS, causes};
use crate::diagnosis::{CauseId, Headline, JudgedQuantity, Outside, QuestionedInput, Stop, UnitQuestion};
use crate::expected::{EqualisedVerdict, Side};
use crate::inspection::Measurand;
use crate::quantity::Position;
use crate::report::words::{Label, capitalised};
use crate::report::{
    AirSource, Caution, Healthy, InstrumentRow, Mark, Opening, Report, ReportedState, SourceRow, SourceTopic,
    Statement, percent,
};

/// A heading or a word in a table.
pub(crate) fn label(label: Label) -> &'static str {
    match label {
        Label::Questions => "Is that what was meant?",
        Label::Pressures => "Pressures",
        Label::Healthy => "Against healthy cars on this day",
        Label::Causes => "What explains it",
        Label::Next => "What to do next",
        Label::Safety => "Safety",
        Label::Meaning => "What it means",
        Label::AgainstSaturation => "Against saturation at ambient",
        Label::AgainstPrint => "Against printed charts and rules of thumb",
        Label::Charts => "Charts for this day, and where the reading lies",
        Label::Sources => "Sources",
        Label::Read => "read",
        Label::Window => "window",
        Label::Result => "result",
        Label::Gauge => "gauge",
        Label::Absolute => "absolute",
        Label::SaturatedAt => "saturated at",
        Label::DewPoint => "dew point",
        Label::BubblePoint => "bubble point",
        Label::Chart => "chart",
        Label::NoWindow => "no window known",
        Label::AboveCritical => "above critical",
        Label::Low => "low",
        Label::High => "high",
        Label::EngineOff => "engine off",
        Label::Unjudged => "(no window)",
        Label::AboveCriticalPressure => "above the critical pressure",
    }
}

/// The name of a measurand.
pub(crate) fn measurand(measurand: Measurand) -> &'static str {
    match measurand {
        Measurand::EqualisedPressure => "pressure with the engine off",
        Measurand::ClutchDutyCycle => "clutch duty cycle",
        other => other.name(),
    }
}

/// The name of a judged quantity.
pub(crate) fn quantity(quantity: JudgedQuantity) -> &'static str {
    match quantity {
        JudgedQuantity::Measured(of) => measurand(of),
        JudgedQuantity::Superheat => "superheat",
        JudgedQuantity::Subcooling => "subcooling",
        JudgedQuantity::CondensingOverAmbient => "condensing over ambient",
        JudgedQuantity::EqualisedMean => "both, by accuracy",
    }
}

/// The name of a side.
pub(crate) fn side(side: Side) -> &'static str {
    match side {
        Side::Low => "low side",
        Side::High => "high side",
    }
}

/// The position in a word.
pub(crate) fn position(position: Position) -> &'static str {
    match position {
        Position::Below => "below",
        Position::Within => "within",
        Position::Above => "above",
    }
}

/// The title of a page.
pub(crate) fn title(report: &Report) -> String {
    let state = match report.state {
        ReportedState::Running => "compressor running",
        ReportedState::Equalised => "engine off, pressures equalised",
    };
    let blend = if report.opening.blend {
        ", a blend: superheat and condensing from the dew line, subcooling from the bubble line"
    } else {
        ""
    };
    format!("{}, {state}{blend}", report.refrigerant)
}

/// What stands under the title: the conditions and what was not read.
pub(crate) fn opening(report: &Report) -> Vec<String> {
    let mut sentences = Vec::new();
    if report.invented {
        sentences.push("Worked example: the numbers are invented, no car was measured for them.".to_owned());
    }
    sentences.push(conditions(&report.opening));
    let unread = &report.advice.unread_gauges;
    sentences.extend(not_read(unread).map(str::to_owned));
    sentences
}

/// The air, in a sentence.
fn conditions(opening: &Opening) -> String {
    let mut parts = Vec::new();
    if let Some(ambient) = &opening.ambient {
        parts.push(format!("ambient {ambient}"));
    }
    if let Some(humidity) = &opening.humidity {
        parts.push(format!("humidity {humidity}"));
    }
    let kpa = NUMERALS.plain(&opening.air);
    let half = NUMERALS.half_width(&opening.air);
    parts.push(match &opening.air_source {
        AirSource::Barometer => format!("air pressure {kpa} by barometer"),
        AirSource::Altitude { entered } => {
            format!("air pressure {kpa} (standard atmosphere at {entered}, weather ± {half})")
        }
        AirSource::SeaLevel => format!("air pressure {kpa} (no altitude given: sea level, weather ± {half})"),
    });
    capitalised(&parts.join(", ")) + "."
}

/// Which gauge was not read.
fn not_read(unread: &[Measurand]) -> Option<&'static str> {
    match unread {
        [] => None,
        [Measurand::LowSide] => Some("The low side was not read, so more stays open than with both gauges."),
        [_] => Some("The high side was not read, so more stays open than with both gauges."),
        _ => Some("With the compressor running neither gauge was read, so much more stays open than with both."),
    }
}

/// What ± means on the page.
pub(crate) fn instruments(opening: &Opening) -> String {
    let one = |row: &InstrumentRow| match row {
        InstrumentRow::Gauge { scale_bar: [low, high], limit_percent, .. } => {
            let name = row.name();
            format!("{name} {low:.0} to {high:.0} bar within {limit_percent} %")
        }
        InstrumentRow::Thermometer { limit_k, .. } => format!("{} within {limit_k} K", row.name()),
    };
    let tools: Vec<String> = opening.instruments.iter().map(one).collect();
    format!("± is the 95 % interval of the instruments: {}.", tools.join(", "))
}

/// A question about a unit.
pub(crate) fn question(question: &UnitQuestion) -> String {
    match question {
        UnitQuestion::OtherUnit { input, entered, instead } => {
            let name = match input {
                QuestionedInput::Measurand(of) => measurand(*of),
                QuestionedInput::Ambient => "ambient",
            };
            format!("{name}: {entered} is far from what is usual; was {instead} meant?")
        }
        UnitQuestion::VacuumSign { entered } => {
            format!("low side: {entered} is far from what is usual; was -{entered}, a vacuum, meant?")
        }
        UnitQuestion::ReducedToSeaLevel { entered, instead } => {
            format!("barometer: {entered} is far from what is usual; was {instead}, not reduced to sea level, meant?")
        }
    }
}

/// The prior that a probability follows from, after a comma.
fn under_prior(report: &Report) -> String {
    report.causes.as_ref().map_or(String::new(), |found| format!(", {}", causes::prior(found.prior)))
}

/// The answer in a sentence or two; empty where the page gives none.
pub(crate) fn headline(report: &Report) -> String {
    let (at_air, answer) = match &report.advice.headline {
        Headline::ComparedOnly { low_side_at_air } => (*low_side_at_air, String::new()),
        Headline::Empty => (false, EMPTY.to_owned()),
        Headline::NoLiquidLeft => (false, NO_LIQUID_LEFT.to_owned()),
        Headline::LiquidLineBelowAmbient => (false, LIQUID_LINE_COLD.to_owned()),
        Headline::HighSideAtAir => (false, HIGH_SIDE_AT_AIR.to_owned()),
        // what both gauges say is the first of its statements
        Headline::Equalised => (false, report.meaning.first().map_or(String::new(), |first| statement(first, report))),
        Headline::OutsideModel { low_side_at_air } => (*low_side_at_air, OUTSIDE_MODEL.to_owned()),
        Headline::NothingUnusualYet { low_side_at_air, no_fault } => (
            *low_side_at_air,
            format!(
                "Nothing unusual in what was read, but too little was read to call the car healthy. Probability of no \
                 fault{}: {}; what follows is possible, not proved.",
                under_prior(report),
                percent(*no_fault)
            ),
        ),
        Headline::Healthy { no_fault } => (
            false,
            format!(
                "These readings look healthy: every reading lies inside the range of healthy cars. Probability of no \
                 fault{}: {}; {}.",
                under_prior(report),
                percent(*no_fault),
                match report.advice.leading.as_slice() {
                    [one] if matches!(one.causes[0], CauseId::NoFault) => "no fault is likelier",
                    _ => "what follows is possible, not proved",
                }
            ),
        ),
        Headline::Unusual { low_side_at_air, outside, likeliest, no_fault } => {
            let no_fault = no_fault.map_or(String::new(), |p| format!("; no fault {}", percent(p)));
            let likeliest = causes::likeliest(likeliest);
            let outside = outside_list(outside);
            (
                *low_side_at_air,
                if outside.is_empty() {
                    format!("{INSIDE_AND_UNUSUAL} Most likely: {likeliest}{no_fault}.")
                } else {
                    format!("Unusual, but a healthy car could show it{outside}. Most likely: {likeliest}{no_fault}.")
                },
            )
        }
        Headline::Faulty { low_side_at_air, outside, likeliest } => {
            let (outside, likeliest) = (outside_list(outside), causes::likeliest(likeliest));
            (*low_side_at_air, format!("Something is wrong{outside}. Most likely: {likeliest}."))
        }
    };
    if at_air { format!("{LOW_SIDE_AT_AIR} {answer}").trim_end().to_owned() } else { answer }
}

const EMPTY: &str = "The circuit is empty or almost empty: both gauges show the pressure of the air, or are not connected. Do not run the \
                     compressor; look for the leak before anything else.";

const INSIDE_AND_UNUSUAL: &str =
    "Every reading lies inside the range of healthy cars, but together they are unusual for one.";

const LIQUID_LINE_COLD: &str = "The liquid line is colder than the air that cools the condenser: its pressure falls before the clamp, at a \
     restriction of the liquid line or the drier, or a thermometer is wrong.";

const NO_LIQUID_LEFT: &str = "The compressor is not running, or not pumping: both gauges show the same, and less than liquid refrigerant \
                              would at the ambient temperature. The circuit is almost empty, or colder than the air. A low-pressure \
                              switch may be what keeps the compressor off: do not bridge it; look for the leak before anything else.";

const HIGH_SIDE_AT_AIR: &str = "The circuit is empty or almost empty: the high side shows the pressure of the air, or its gauge is not \
                                connected. Do not run the compressor; look for the leak before anything else.";

const LOW_SIDE_AT_AIR: &str = "The low side shows the pressure of the air: check first that its gauge is connected, and that it rises with \
                               the engine off; otherwise the circuit is empty, and the compressor must not run.";

const OUTSIDE_MODEL: &str = "This does not look like anything modelled: no cause explains the numbers together. Check gauges, clamps and \
                             units before anything else, then think of two faults at once.";

/// ": low side low; superheat and vent high".
fn outside_list(outside: &[Outside]) -> String {
    let of = |wanted: Position, word: &str| {
        let names: Vec<&str> =
            outside.iter().filter(|one| one.position == wanted).map(|one| quantity(one.quantity)).collect();
        let (last, first) = names.split_last()?;
        let listed = if first.is_empty() { (*last).to_owned() } else { format!("{} and {last}", first.join(", ")) };
        Some(format!("{listed} {word}"))
    };
    let parts: Vec<String> = [of(Position::Below, "low"), of(Position::Above, "high")].into_iter().flatten().collect();
    if parts.is_empty() { String::new() } else { format!(": {}", parts.join("; ")) }
}

/// What must be done before anything is measured.
pub(crate) fn stop(stop: Stop) -> &'static str {
    match stop {
        Stop::LowSideInVacuum => {
            "Switch the air conditioning off now: with the low side in vacuum hardly any gas returns, and the compressor loses its oil \
             return and its cooling."
        }
        Stop::HighSideAtCutOut => {
            "Switch the air conditioning off now: the high side stands where makers' switches cut out, or above. More can open the \
             relief valve or burst a hose. Do not clamp, open or connect anything until it has fallen."
        }
    }
}

/// A verdict that the instruments leave open.
fn doubt(doubt: Option<f64>) -> String {
    doubt.map_or(String::new(), |p| format!(" The instruments leave it open ({:.0} %).", 100.0 * p))
}

/// One statement about a reading.
pub(crate) fn statement(statement: &Statement, report: &Report) -> String {
    match statement {
        Statement::SideAmongCircuits { side, position, fraction_below, doubt } => {
            among_circuits(*side, *position, *fraction_below) + &self::doubt(*doubt)
        }
        Statement::NoAmbient => "Without the ambient temperature there is no window for either side.".to_owned(),
        Statement::NoChart => {
            format!("No chart of pressures by ambient has been found for {}.", report.refrigerant)
        }
        Statement::SideByCharts { side, position, inside, charts, carried_over, doubt } => {
            let carried = if *carried_over { " Most of them are carried over from R-134a." } else { "" };
            by_charts(*side, *position, *inside, *charts) + carried + &self::doubt(*doubt)
        }
        Statement::SideBeyondCharts { side, covered } => beyond_charts(*side, *covered),
        Statement::TranscriticalHighSide { read, by_ambient, by_outlet } => {
            let by_ambient = by_ambient.as_ref().map(|best| format!("{best} by the ambient"));
            let by_outlet = by_outlet.as_ref().map(|best| format!("{best} by the gas cooler's outlet"));
            let marks: Vec<String> = by_ambient.into_iter().chain(by_outlet).collect();
            transcritical(&read.to_string(), &marks)
        }
        Statement::SidesNearlyEqual => {
            "Both gauges read nearly the same with the compressor called for: it pumps little or nothing. Look first whether clutch, \
             belt or drive turns it."
                .to_owned()
        }
        Statement::Superheat { position, doubt } => superheat(*position).to_owned() + &self::doubt(*doubt),
        Statement::SuperheatImpossible => {
            "The suction line reads colder than the refrigerant boils at this pressure, which cannot last: check the \
             thermometer's contact, the gauge and which refrigerant is inside."
                .to_owned()
        }
        Statement::NoSuperheat => {
            "The low side is above the critical pressure: there is no superheat to state.".to_owned()
        }
        Statement::Subcooling { position, doubt } => subcooling(*position).to_owned() + &self::doubt(*doubt),
        Statement::SubcoolingImpossible => {
            "The liquid line reads hotter than the refrigerant condenses at this pressure: either it carries hot gas, or \
             gauge, thermometer or refrigerant are not what they seem."
                .to_owned()
        }
        Statement::NoSubcooling => {
            "The high side is above the critical pressure, where nothing condenses: there is no subcooling to state."
                .to_owned()
        }
        Statement::CondensingOverAmbient { position, doubt } => {
            over_ambient(*position).to_owned() + &self::doubt(*doubt)
        }
        Statement::Vent { position, among_circuits, doubt } => {
            vent(*position, *among_circuits).to_owned() + &self::doubt(*doubt)
        }
        Statement::VentImpossible => {
            "The vent reads colder than the refrigerant boils, which cannot be: check the low-side gauge, the thermometer and which \
             refrigerant is inside."
                .to_owned()
        }
        Statement::NamesNoCause => {
            "This page compares; it names no cause. One value outside its window is a reason to measure again before anything is \
             opened."
                .to_owned()
        }
        Statement::Equalised { verdict, at_air, doubt } => {
            equalised(*verdict, *at_air, &report.refrigerant) + &self::doubt(*doubt)
        }
        Statement::EqualisedResolution { kpa, psi } => format!(
            "These instruments would not show a difference smaller than {kpa:.0} kPa ({psi:.1} psi): a little air can hide in that."
        ),
    }
}

fn among_circuits(of: Side, position: Position, fraction_below: f64) -> String {
    let name = side(of);
    let share = match 100.0 * fraction_below {
        p if p <= 0.0 => "none reads lower".to_owned(),
        p if p >= 100.0 => "all read lower".to_owned(),
        p => format!("{p:.0} % read lower"),
    };
    match position {
        Position::Within => format!("The {name} lies inside the range of healthy cars on this day: {share}."),
        Position::Below => {
            format!("Hardly any healthy car reads a {name} as low as this one on this day: {share}.")
        }
        Position::Above => {
            format!("Hardly any healthy car reads a {name} as high as this one on this day: {share}.")
        }
    }
}

fn by_charts(of: Side, position: Position, inside: usize, charts: usize) -> String {
    let (name, does) = match of {
        Side::Low => ("low side", "the evaporator boils"),
        Side::High => ("high side", "the condenser works"),
    };
    let all = if charts == 1 { "the only chart".to_owned() } else { format!("all {charts} charts") };
    match position {
        Position::Within if charts == 1 => format!("The {name} lies within the only chart for this day."),
        Position::Within => format!(
            "The {name} lies within the band of the charts for this day, inside {inside} of {charts}. The charts disagree because \
             the cars behind them do."
        ),
        Position::Below => {
            format!("The {name} is below {all} for this day: {does} colder than in the cars behind them.")
        }
        Position::Above => {
            format!("The {name} is above {all} for this day: {does} hotter than in the cars behind them.")
        }
    }
}

fn beyond_charts(of: Side, covered: Option<[f64; 2]>) -> String {
    let name = side(of);
    match covered {
        Some([low, high]) => format!(
            "No chart covers this ambient for the {name}: they run from {low:.0} to {high:.0} °C, and nothing is extrapolated."
        ),
        None => format!("No chart says anything about the {name}."),
    }
}

fn transcritical(read: &str, marks: &[String]) -> String {
    if marks.is_empty() {
        return "For R-744 published correlations of the best high side exist from 35 to 50 °C ambient, or from 30 to 60 °C at \
                the outlet of the gas cooler; neither covers this reading."
            .to_owned();
    }
    format!(
        "For R-744 published correlations (from memory) put the best high side at {} absolute; read {read}. That is where the cycle \
         works best, not a limit.",
        marks.join(" and ")
    )
}

fn superheat(position: Option<Position>) -> &'static str {
    match position {
        None => {
            "How much superheat is usual is not known for circuits with this refrigerant; above zero the vapour is superheated."
        }
        Some(Position::Below) => {
            "Little superheat on the suction line: the vapour may still carry liquid. With an orifice tube and an accumulator that \
             is usual; with a thermostatic valve it is not."
        }
        Some(Position::Within) => "Superheat is as usual: the evaporator is filled and only vapour leaves it.",
        Some(Position::Above) => {
            "High superheat on the suction line: the last part of the evaporator is starved, or the thermometer sits where the line \
             has taken up heat, behind an internal heat exchanger above all."
        }
    }
}

fn subcooling(position: Option<Position>) -> &'static str {
    match position {
        None => {
            "How much subcooling is usual is not known for circuits with this refrigerant; above zero the line is liquid."
        }
        Some(Position::Below) => "Low subcooling: the liquid line may carry bubbles to the expansion device.",
        Some(Position::Within) => "Subcooling is as usual: the liquid line is full of liquid.",
        Some(Position::Above) => {
            "High subcooling: liquid is backed up in the condenser, or non-condensable gas adds to the pressure."
        }
    }
}

fn over_ambient(position: Option<Position>) -> &'static str {
    match position {
        None => "How far condensing should be above ambient is not known for this refrigerant.",
        Some(Position::Below) => "Condensing is closer to the ambient than usual: little heat is being rejected.",
        Some(Position::Within) => "Condensing is as far above the ambient as usual.",
        Some(Position::Above) => {
            "Condensing is further above the ambient than usual: the condenser has more heat to reject, or less air to reject it to, \
             than in most cars."
        }
    }
}

fn vent(position: Option<Position>, among_circuits: bool) -> &'static str {
    match (position, among_circuits) {
        (None, _) => "No table of vent temperatures covers this day.",
        (Some(Position::Below), true) => "The vent is colder than in most healthy cars on this day: it cools.",
        (Some(Position::Within), true) => "The vent is as cold as in healthy cars on this day.",
        (Some(Position::Above), true) => "The vent is warmer than in most healthy cars on this day.",
        (Some(Position::Below), false) => "The vent is colder than the tables ask for: it cools.",
        (Some(Position::Within), false) => "The vent is as cold as the tables ask for.",
        (Some(Position::Above), false) => "The vent is warmer than the tables ask for.",
    }
}

fn equalised(verdict: EqualisedVerdict, at_air: bool, refrigerant: &str) -> String {
    match verdict {
        EqualisedVerdict::NotEqualised => {
            "The gauges differ by more than they may with the engine off (a maker allows 50 kPa): the circuit has not equalised \
             yet, a passage is closed, or one gauge is off. Wait and read again."
                .to_owned()
        }
        EqualisedVerdict::LiquidGone if at_air => {
            "Both gauges show the pressure of the air: the circuit is empty or open. Find the leak before anything is charged."
                .to_owned()
        }
        EqualisedVerdict::LiquidGone => format!(
            "Both gauges are below saturation of {refrigerant} at ambient: no liquid is left inside, or the circuit is colder than \
             the air around it."
        ),
        EqualisedVerdict::AtSaturation => format!(
            "Both gauges are at saturation of {refrigerant} at ambient: some liquid is inside. How much, this pressure cannot say."
        ),
        EqualisedVerdict::AboveSaturation => format!(
            "Both gauges are above saturation of {refrigerant} at ambient: air or another refrigerant is inside, or the circuit is \
             still warmer than the air around it."
        ),
    }
}

/// The verdict on an equalised circuit in a few words.
pub(crate) fn equalised_in_short(verdict: EqualisedVerdict) -> &'static str {
    match verdict {
        EqualisedVerdict::NotEqualised => "gauges not equalised",
        EqualisedVerdict::LiquidGone => "below saturation",
        EqualisedVerdict::AtSaturation => "at saturation",
        EqualisedVerdict::AboveSaturation => "above saturation",
    }
}

/// The basis of the window of healthy circuits.
pub(crate) fn behind(healthy: &Healthy) -> String {
    let kinds = match healthy.kinds.as_slice() {
        [one] => format!("of this kind: {one}"),
        several => format!("of {} kinds, as none was named", several.len()),
    };
    let humidity = healthy.assumed_humidity.as_ref().map_or(String::new(), |span| {
        format!(" The humidity is not known: {:.0} to {:.0} % are assumed.", span.low, span.high)
    });
    let missing =
        if healthy.missing == 0 { String::new() } else { format!(" {} more have no steady state.", healthy.missing) };
    let circuits = healthy.circuits;
    let Some(effective) = healthy.effective_circuits else {
        return format!(
            "{circuits} simulated circuits {kinds}, computed for this day, their sizes sampled from ranges mostly from memory. Nine \
             tenths of them, with what printed cars lie off them, lie between the two values.{humidity}{missing}"
        );
    };
    let few = if healthy.few_near_baselines { format!(" {}", few_near(effective)) } else { String::new() };
    format!(
        "These windows are this car's own, from {} that say what it shows when healthy: {circuits} simulated circuits {kinds}, \
         weighted by how well each agrees with them. They are worth {effective:.0} circuits of equal weight; nine tenths of the weight \
         lie between the two values.{few}{humidity}{missing} The maker's data govern: where a row and a window disagree, go by \
         the row.",
        given_rows(healthy.baselines)
    )
}

/// So many rows.
fn given_rows(count: usize) -> String {
    if count == 1 { "1 given row".to_owned() } else { format!("{count} given rows") }
}

/// That hardly any simulated circuit is like the rows.
fn few_near(effective: f64) -> String {
    format!(
        "The rows contradict the model or are at its edge: only {effective:.0} simulated circuits are near them. A misprint, other test \
         conditions or another kind of circuit may be behind that. The windows are drawn out from the nearest circuits: rely on the \
         rows themselves."
    )
}

/// The basis of the window of healthy circuits, in short.
pub(crate) fn behind_in_short(healthy: &Healthy) -> String {
    let circuits = healthy.circuits;
    match healthy.effective_circuits {
        None => format!(
            "Windows hold nine tenths of {circuits} simulated healthy cars, with what printed ones lie off them; ± is the 95 % interval."
        ),
        Some(effective) if healthy.few_near_baselines => {
            format!("{} ± is the 95 % interval. The maker's data govern.", few_near(effective))
        }
        Some(effective) => format!(
            "Windows are this car's own, from {}: nine tenths of {circuits} simulated cars, weighted by the rows and worth \
             {effective:.0} of equal weight; ± is the 95 % interval. The maker's data govern.",
            given_rows(healthy.baselines)
        ),
    }
}

/// Saturation temperatures of the gauges; `None` where none was read.
pub(crate) fn saturated(report: &Report) -> Option<String> {
    let one = |row: &crate::report::GaugeRow| match &row.saturation {
        Some(at) => format!("{} at {at}", side(row.side)),
        None => format!("{} above the critical pressure", side(row.side)),
    };
    let each: Vec<String> = report.gauges.iter().map(one).collect();
    (!each.is_empty()).then(|| format!("Saturated: {}.", each.join(", ")))
}

/// What the letter of a mark means.
pub(crate) fn mark(mark: Mark) -> (char, &'static str) {
    match mark {
        Mark::CarriedOver => ('d', "derived: printed for R-134a, carried over at equal saturation temperature"),
        Mark::OtherHumidity => ('h', "printed for another humidity"),
        Mark::OneRange => ('r', "one printed range for all temperatures it covers"),
        Mark::NotCounted => ('n', "common practice, from memory; not counted in the band"),
        Mark::OtherCars => ('o', "other cars: a middle outside nine tenths of the circuits computed for this day"),
    }
}

/// A caution.
pub(crate) fn caution(caution: Caution, refrigerant: &str) -> String {
    match caution {
        Caution::Pressure => {
            "The circuit is under pressure even with the engine off. Goggles and gloves: liquid refrigerant freezes skin and eyes."
                .to_owned()
        }
        Caution::MovingAndHot => {
            "Keep hands, hoses and sleeves away from belts and fans; a fan may start by itself. The discharge line and the condenser \
             are hot enough to burn."
                .to_owned()
        }
        Caution::Asphyxiation => {
            "Vapour is heavier than air and displaces it: air the room, no work over a pit.".to_owned()
        }
        Caution::CarbonDioxide => {
            "Carbon dioxide harms at a few per cent in the air, long before it suffocates; headache and hard breathing are the warning. \
             Never in a closed room, over a pit or in the cabin: open the doors."
                .to_owned()
        }
        Caution::DryIce => {
            "Let out fast, R-744 turns to dry ice, which plugs a hose or a valve: the gauge shows nothing, and the pressure comes back when \
             it has gone. Let it out slowly, wait, look again before anything is opened."
                .to_owned()
        }
        Caution::TranscriticalPressure => {
            "R-744 is near 60 bar with the engine off and far above when running: only hoses, gauges and fittings made for it."
                .to_owned()
        }
        Caution::FlammableA2l => flammable(refrigerant, "A2L"),
        Caution::FlammableA2 => flammable(refrigerant, "A2"),
        Caution::FlammableA3 => format!(
            "{refrigerant} is highly flammable (class A3) and not allowed in car air conditioning in many places."
        ),
        Caution::Recover => {
            "Venting refrigerant is illegal in many places: recover it. Charge by weight, never by pressure.".to_owned()
        }
        Caution::ReleaseAsTheMakerSays => {
            "R-744 may be let out in many places: outdoors, slowly, as the maker says. Charge by weight, never by pressure.".to_owned()
        }
        Caution::HighVoltage => {
            "Electric compressors: orange cables are for trained people only, and the oil must be the one named for them.".to_owned()
        }
        Caution::MakersData => {
            "The maker's own figures for this car, local rules and licensed practice come before this page.".to_owned()
        }
    }
}

fn flammable(refrigerant: &str, class: &str) -> String {
    format!(
        "{refrigerant} is flammable (class {class}): no flame, no sparks, equipment made for it, never mixed with another \
         refrigerant."
    )
}

/// A caution in short, for a page of one screen.
pub(crate) fn caution_in_short(caution: Caution, refrigerant: &str) -> String {
    match caution {
        Caution::Pressure => {
            "The circuit is under pressure even with the engine off: goggles and gloves, escaping refrigerant freezes skin and eyes."
                .to_owned()
        }
        Caution::MovingAndHot => {
            "Keep clear of belts and fans; the discharge line is hot enough to burn.".to_owned()
        }
        Caution::Asphyxiation => "Vapour displaces air.".to_owned(),
        Caution::CarbonDioxide => "Carbon dioxide harms before it suffocates: no closed room, no pit.".to_owned(),
        Caution::DryIce => "Let out fast it turns to dry ice that plugs hoses: the pressure comes back.".to_owned(),
        Caution::TranscriticalPressure => "R-744 is above 60 bar: only gear made for it.".to_owned(),
        Caution::FlammableA2l => format!("{refrigerant} burns (class A2L): no flame, no sparks."),
        Caution::FlammableA2 => format!("{refrigerant} burns (class A2): no flame, no sparks."),
        Caution::FlammableA3 => format!("{refrigerant} burns (class A3): no flame, no sparks."),
        Caution::Recover => "Venting is illegal in many places: recover the refrigerant; charge by weight.".to_owned(),
        Caution::ReleaseAsTheMakerSays => {
            "Where R-744 may be let out, outdoors and slowly, as the maker says; charge by weight.".to_owned()
        }
        Caution::HighVoltage => "Orange cables: trained people only, and their own oil.".to_owned(),
        Caution::MakersData => {
            "The maker's own figures, local rules and licensed practice come before this page.".to_owned()
        }
    }
}

/// A caution in a few words.
pub(crate) fn caution_in_a_word(caution: Caution) -> &'static str {
    match caution {
        Caution::Pressure => "under pressure even at rest, freezes skin and eyes: goggles and gloves",
        Caution::MovingAndHot => "belts, fans, hot pipes",
        Caution::Asphyxiation => "vapour displaces air",
        Caution::CarbonDioxide => "carbon dioxide harms in closed rooms",
        Caution::DryIce => "dry ice plugs hoses, the pressure comes back",
        Caution::TranscriticalPressure => "above 60 bar",
        Caution::FlammableA2l => "burns (A2L)",
        Caution::FlammableA2 => "burns (A2)",
        Caution::FlammableA3 => "burns easily (A3)",
        Caution::Recover => "recover, venting is illegal in many places",
        Caution::ReleaseAsTheMakerSays => "let out as the maker says",
        Caution::HighVoltage => "orange cables: trained people only",
        Caution::MakersData => "the maker's figures, local rules and licensed practice come first",
    }
}

/// A source and what it is for.
pub(crate) fn source(row: &SourceRow, refrigerant: &str) -> String {
    let source = &row.source;
    match &row.topic {
        SourceTopic::Saturation => format!("saturation of {refrigerant}: {source}"),
        SourceTopic::Barometer => format!("barometer within 2 hPa: {source}"),
        SourceTopic::AirPressure => format!("air pressure: {source}"),
        SourceTopic::Weather => format!("weather: {source}"),
        SourceTopic::Gauges => format!("gauges: {source}"),
        SourceTopic::Thermometers => format!("thermometers: {source}"),
        SourceTopic::Clamp => format!("clamp: {source}"),
        SourceTopic::Compressor => format!("healthy circuits: compressor {source}"),
        SourceTopic::OrificeTube => format!("healthy circuits: orifice tube {source}"),
        SourceTopic::Sizes => {
            "healthy circuits: sizes from ranges, nine in ten of them from memory or chosen, at least at one end; each is listed in the \
             documentation of the library"
                .to_owned()
        }
        SourceTopic::Chart { chart, system } => format!("{chart}, {system}: {source}"),
        SourceTopic::RulesOfThumb => {
            format!("usual superheat, subcooling and condensing over ambient: {source}")
        }
        SourceTopic::BestByAmbient => format!("best high side by ambient: {source}"),
        SourceTopic::BestByOutlet => format!("best high side by outlet: {source}"),
        SourceTopic::Causes { circuits, prior } => {
            let source = if source.is_empty() { String::new() } else { format!(": {source}") };
            format!("causes: {circuits} simulated circuits, {}{source}", causes::prior(*prior))
        }
        SourceTopic::Recovery => format!("what recovery leaves behind: {source}"),
        SourceTopic::Observations => format!("observations: {source}"),
    }
}

#[cfg(test)]
mod tests;
