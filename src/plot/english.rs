//! The texts of pictures in English.

use super::CARD_CAUTION;
use super::words::{
    CardText, CausesText, CycleText, PictureName, PictureText, PictureWords, SaturationText, VacuumText, WindowsText,
};
use crate::expected::Side;
use crate::inspection::Undetermined;
use crate::service::acceptance::AcceptanceOutcome;
use crate::service::standing_vacuum::VacuumFinding;

/// The language of pictures unless another is asked for.
pub struct English;

impl PictureWords for English {
    fn point(&self) -> char {
        '.'
    }

    fn text(&self, text: PictureText) -> String {
        worded(text)
    }
}

const fn side(side: Side) -> &'static str {
    match side {
        Side::Low => "low side",
        Side::High => "high side",
    }
}

fn worded(text: PictureText) -> String {
    match text {
        PictureText::Name(text) => name(text),
        PictureText::Saturation(text) => saturation(text),
        PictureText::Windows(text) => windows(text),
        PictureText::Causes(text) => causes(text),
        PictureText::Vacuum(text) => vacuum(text),
        PictureText::Cycle(text) => cycle(text),
        PictureText::Card(text) => card(text),
    }
}

fn name(text: PictureName) -> String {
    use PictureName as T;
    match text {
        T::GaugePressureAxis(unit) => format!("gauge pressure, {unit}"),
        T::AbsolutePressureAxis(unit) => format!("absolute pressure, {unit}"),
        T::TemperatureAxis(unit) => format!("temperature, {unit}"),
        T::AmbientAxis(unit) => format!("ambient temperature, {unit}"),
        T::TimeAxis => "time since the first reading, min".to_owned(),
        T::EnthalpyAxis => "enthalpy, kJ/kg".to_owned(),
        T::Side(of) => side(of).to_owned(),
        T::Line(Side::Low) | T::SuctionLine => "suction line".to_owned(),
        T::Line(Side::High) | T::LiquidLine => "liquid line".to_owned(),
        T::Difference(Side::Low) => "superheat".to_owned(),
        T::Difference(Side::High) => "subcooling".to_owned(),
        T::Ambient => "ambient".to_owned(),
        T::Saturated => "saturated".to_owned(),
        T::BubbleLine => "bubble line".to_owned(),
        T::DewLine => "dew line".to_owned(),
        T::CriticalPoint => "critical point".to_owned(),
        T::Liquid => "liquid".to_owned(),
        T::Vapour => "vapour".to_owned(),
        T::Read | T::ReadHead => "read".to_owned(),
        T::OwnWindow => "own window".to_owned(),
        T::HealthyCars => "healthy cars".to_owned(),
        T::NoSource => " (no source)".to_owned(),
        T::CarriedOver => " (carried over)".to_owned(),
        T::OtherHumidity => " (other humidity)".to_owned(),
        T::Measurand(measurand, false) => measurand.name().to_owned(),
        T::Measurand(measurand, true) => format!("2nd {}", measurand.name()),
        T::Or => "; or ".to_owned(),
        T::Span(low, high) => format!("{low} to {high}"),
        T::ShownHead => "such cars show".to_owned(),
        T::Probability(probability) => probability_words(probability),
        T::Limit(letter) => format!("limit {letter}"),
        T::Readings(count) => format!("{count} readings"),
        T::DischargeLine => "discharge line".to_owned(),
        T::IsentropicOutlet => "after a compressor without loss".to_owned(),
        T::GasCoolerOutlet => "gas cooler outlet".to_owned(),
        T::EvaporatorInlet => "after the expansion".to_owned(),
        T::VapourShare(quality) => format!("{:.0} % vapour", quality.percent()),
    }
}

fn saturation(text: SaturationText) -> String {
    use SaturationText as T;
    match text {
        T::SaturationTitle(r) => format!("{r}: the reading on the saturation line"),
        T::AmbientDrawnAt(ambient, of) => format!("ambient {ambient}, drawn at the pressure of the {}", side(of)),
        T::SaturationShown(r, air) => {
            format!("Saturation line of {r} as gauge pressure over temperature, with the air at {air}.")
        }
        T::NoSaturation(gauge) => format!("{gauge}, above the critical pressure: no saturation"),
        T::BubbleAndDew([gauge, bubble, dew]) => format!("{gauge}: bubble point {bubble}, dew point {dew}"),
        T::SaturatedAt(gauge, t) => format!("{gauge}: saturated at {t}"),
        T::AtRest(ambient) => format!("At rest; {ambient}."),
        T::BubbleKey => "bubble line, from which subcooling counts".to_owned(),
        T::DewKey => "dew line, from which superheat counts".to_owned(),
        T::SaturationFoot(air) => {
            format!("Bars and ± are 95 % intervals of the instruments. Gauge pressures in air of {air}.")
        }
        T::SaturationSource(source) => format!("Saturation: {source}."),
    }
}

fn windows(text: WindowsText) -> String {
    use WindowsText as T;
    match text {
        T::WindowsTitle(r, of, own) => {
            let cars = if own { "this car when healthy" } else { "healthy cars" };
            format!("{r}: the {} of {cars} by ambient", side(of))
        }
        T::ReadAt(read, ambient) => format!("read: {read} at {ambient}"),
        T::NineTenths { cars, rows: 0 } => format!("nine tenths of {cars} computed healthy cars, 5 to 95 %"),
        T::NineTenths { rows, .. } => {
            let plural = if rows == 1 { "" } else { "s" };
            format!("its own window, 5 to 95 %, computed from {rows} given row{plural}")
        }
        T::Half(true) => "its middle half; the line is its median".to_owned(),
        T::Half(false) => "half of them; the line is the middle car".to_owned(),
        T::OnThisDay(ambient, unit) => format!("On this day, {ambient}: gauge pressure, {unit}"),
        T::WindowsFoot { humidity, air, charts } => {
            let humidity = humidity.map_or("30 to 80 % humidity, since it was not measured".to_owned(), |humidity| {
                format!("{:.0} % humidity", humidity.percent())
            });
            let charts = if charts {
                "Charts are for other cars; each name is one printed chart, whose source satline lists."
            } else {
                "No printed chart covers this day."
            };
            format!("Computed for {humidity}, air of {air}. The bar of the reading is its 95 % interval. {charts}")
        }
        T::WindowsShown { side: of, own, ambient, nine: [low, high], middle, read, below } => {
            let (of, below) = (side(of), share(below.percent()));
            if own {
                format!(
                    "At {ambient} the own window of this car on the {of} is {low} to {high}, its median {middle}. Read was {read}: \
                     {below} of it is lower."
                )
            } else {
                format!(
                    "At {ambient} nine tenths of the healthy cars show {low} to {high} on the {of}, the middle one {middle}. Read was \
                     {read}: {below} of them show less."
                )
            }
        }
        T::Chart { id, band: [low, high], remark } => format!("Chart {id}: {low} to {high}{remark}."),
        T::NoChart => "No printed chart covers this day.".to_owned(),
    }
}

fn causes(text: CausesText) -> String {
    use CausesText as T;
    match text {
        T::RankingTitle => "Causes, and what their cars show".to_owned(),
        T::OutsideModel => {
            "This does not look like anything modelled: no cause explains the numbers together.".to_owned()
        }
        T::ReadAndShown([name, read, shown]) => format!("{name} read {read}, such cars show {shown}"),
        T::WhatWasRead => "what was read".to_owned(),
        T::NineTenthsOfSuch => "about nine tenths of such cars; the line is their middle".to_owned(),
        T::RankingFoot { circuits, rest, left } => {
            let left = probability_words(left);
            let others = match rest {
                0 => String::new(),
                1 => format!(" One more has {left}."),
                _ => format!(" The other {rest} share {left}."),
            };
            format!(
                "Probabilities are among the causes modelled, by comparison with {circuits} simulated cars.{others} A cause is not \
                 proved by leading."
            )
        }
    }
}

fn vacuum(text: VacuumText) -> String {
    use VacuumText as T;
    match text {
        T::HoldTitle => "Hold test: how the vacuum rises".to_owned(),
        T::Fitted(finding) => format!("fitted: {}", fitted(finding)),
        T::CurveInterval => "95 % interval of the curve".to_owned(),
        T::HoldShown { minutes, readings, ends: [first, last] } => {
            format!("Absolute pressure over {minutes:.1} minutes: {readings} readings from {first} to {last}.")
        }
        T::Judged { letter, limit, outcome: judged, drawn } => {
            let place = if drawn { "" } else { ", beyond the picture" };
            format!("limit {letter} ({}): {}{place}", limit.name, outcome(judged))
        }
        T::HoldFoot => {
            "Limits of a rise count from the first reading and end at the longest time they are printed for. A pass is no proof \
             that nothing leaks."
                .to_owned()
        }
        T::LimitSources(sources) => format!("Limits. {sources}."),
    }
}

fn cycle(text: CycleText) -> String {
    use CycleText as T;
    match text {
        T::CycleTitle(r) => format!("{r}: the loop over pressure and enthalpy"),
        T::CycleShown([r, low, high], transcritical) => {
            let above = if transcritical { ", above the critical pressure" } else { "" };
            format!("Pressure–enthalpy diagram of {r}. Low side {low} absolute, high side {high} absolute{above}.")
        }
        T::Undetermined(Undetermined::NotMeasured) => "not measured".to_owned(),
        T::Undetermined(Undetermined::TwoPhase) => {
            "not clear of saturation, where a temperature does not say how much is liquid".to_owned()
        }
        T::Undetermined(Undetermined::OutOfRange) => "outside the range of the equation of state".to_owned(),
        T::EqualTemperature(unit) => format!("equal temperature, {unit}"),
        T::EqualEntropy => "equal entropy, kJ/(kg K)".to_owned(),
        T::WithoutLoss => "a compressor without loss (equal entropy), not measured".to_owned(),
        T::CycleFoot => {
            "Lines are taken at the pressure of their gauge, the expansion at equal enthalpy. Enthalpy 200 kJ/kg and entropy \
             1 kJ/(kg K) for saturated liquid at 0 °C."
                .to_owned()
        }
        T::PropertySource(source) => format!("Properties: {source}."),
        T::Effect(effect) => format!("Refrigerating effect {effect:.0} kJ/kg."),
    }
}

fn card(text: CardText) -> String {
    use CardText as T;
    match text {
        T::CardTitle(r) => format!("{r}: saturation pressure by temperature"),
        T::BubbleHead(unit) => format!("bubble {unit}"),
        T::DewHead(unit) => format!("dew {unit}"),
        T::CardPlace { air, in_brackets, negative } => {
            let marked = match (in_brackets, negative) {
                (true, true) => "; a vacuum is negative, beside psi in brackets in inHg",
                (true, false) => "; in brackets, inHg of vacuum",
                (false, true) => "; negative numbers are a vacuum",
                (false, false) => "",
            };
            format!("Gauge pressures in air of {air}{marked}.")
        }
        T::BlendColumns => "Subcooling counts from the bubble column, superheat from the dew column.".to_owned(),
        T::CardCaution => CARD_CAUTION.to_owned(),
        T::CardSource(source, digit) => {
            format!("From {source}. The table follows it within half of its last digit, {digit}.")
        }
        T::AtGauge(pressure) => format!("{pressure} gauge"),
        T::InVacuum(inches) => format!("{inches} inHg of vacuum"),
        T::CardShown { rows, refrigerant, temperatures: [first, last], pressures: [low, high], blend } => {
            let lines = if blend { " on the dew line; bubble line beside it" } else { "" };
            format!("Table of {rows} rows: {refrigerant} from {first}, {low}, to {last}, {high}{lines}.")
        }
    }
}

/// What the rise says, in a few words.
const fn fitted(finding: VacuumFinding) -> &'static str {
    match finding {
        VacuumFinding::NoRise => "no rise that these readings could show",
        VacuumFinding::Falling => "the pressure falls",
        VacuumFinding::Leak => "a straight rise, as of a leak",
        VacuumFinding::Moisture => "a rise that levels off, as of moisture",
        VacuumFinding::LeakAndMoisture => "a rise that levels off on top of a straight one, as of moisture and a leak",
        VacuumFinding::OpenToAir => "a rise to the pressure of the air: open",
        VacuumFinding::SpeedsUp => "a rise that grows faster, which neither leak nor moisture does",
        VacuumFinding::CannotTell => "a leak and moisture fit alike",
    }
}

const fn outcome(outcome: AcceptanceOutcome) -> &'static str {
    match outcome {
        AcceptanceOutcome::Passes => "passes",
        AcceptanceOutcome::Fails => "fails",
        AcceptanceOutcome::Open => "the readings leave it open",
        AcceptanceOutcome::TooShort => "the test is too short for it",
    }
}

/// A share of the circuits, never put as all or none.
fn share(percent: f64) -> String {
    match percent {
        p if p < 1.0 => "fewer than 1 %".to_owned(),
        p if p > 99.0 => "more than 99 %".to_owned(),
        p => format!("{p:.0} %"),
    }
}

/// A probability, never put as certain.
fn probability_words(probability: f64) -> String {
    match 100.0 * probability {
        p if p > 98.0 => "over 98 %".to_owned(),
        p if p < 1.0 => "under 1 %".to_owned(),
        p => format!("{p:.0} %"),
    }
}
