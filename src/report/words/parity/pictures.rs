//! Pictures: each text in both languages, and whole pictures.

#![cfg(test)]

use super::{every, same, same_numbers};
use crate::circuit::{CircuitKind, Settings};
use crate::diagnosis::Diagnosis;
use crate::expected::{ChartSet, Side};
use crate::inspection::{DisplayUnits, Measurand, StatePoints, Undetermined};
use crate::plot::{
    self, Card, CardText, CausesText, CycleText, Picture, PictureName, PictureText, SaturationText, VacuumText,
    WindowsText,
};
use crate::quantity::{PressureUnit, TemperatureUnit};
use crate::report::Language;
use crate::service::acceptance::{ACCEPTANCE_LIMITS, AcceptanceOutcome};
use crate::service::standing_vacuum::VacuumFinding;
use crate::{Pressure, Ratio, Refrigerant, Source};

#[track_caller]
fn told<'a>(text: impl Into<PictureText<'a>>) {
    let text = text.into();
    let [english, other] = [Language::English, Language::Spanish].map(|language| language.pictures().text(text));
    assert!(!english.is_empty(), "{text:?}");
    // a remark stands behind a name
    same(english.trim_start(), other.trim_start());
}

#[test]
fn every_name_in_a_picture_has_its_translation() {
    use PictureName as T;
    for side in [Side::Low, Side::High] {
        for name in every![
            T::GaugePressureAxis(_) => T::GaugePressureAxis("psi"), T::AbsolutePressureAxis(_) => T::AbsolutePressureAxis("psi"),
            T::TemperatureAxis(_) => T::TemperatureAxis("°C"), T::AmbientAxis(_) => T::AmbientAxis("°C"),
            T::TimeAxis => T::TimeAxis, T::EnthalpyAxis => T::EnthalpyAxis, T::Side(_) => T::Side(side),
            T::Line(_) => T::Line(side), T::Difference(_) => T::Difference(side), T::Ambient => T::Ambient,
            T::Saturated => T::Saturated, T::BubbleLine => T::BubbleLine, T::DewLine => T::DewLine,
            T::CriticalPoint => T::CriticalPoint, T::Liquid => T::Liquid, T::Vapour => T::Vapour, T::Read => T::Read,
            T::OwnWindow => T::OwnWindow, T::HealthyCars => T::HealthyCars, T::NoSource => T::NoSource,
            T::CarriedOver => T::CarriedOver, T::OtherHumidity => T::OtherHumidity,
            T::Measurand(..) => T::Measurand(Measurand::Vent, side == Side::Low), T::Or => T::Or,
            T::Probability(_) => T::Probability(0.47), T::Span(..) => T::Span("12", "34 psi"), T::ReadHead => T::ReadHead,
            T::ShownHead => T::ShownHead, T::Limit(_) => T::Limit('B'), T::Readings(_) => T::Readings(25),
            T::SuctionLine => T::SuctionLine, T::DischargeLine => T::DischargeLine,
            T::IsentropicOutlet => T::IsentropicOutlet, T::GasCoolerOutlet => T::GasCoolerOutlet,
            T::LiquidLine => T::LiquidLine, T::EvaporatorInlet => T::EvaporatorInlet,
            T::VapourShare(_) => T::VapourShare(Ratio::from_percent(31.0)),
        ] {
            told(name);
        }
    }
    told(T::Probability(0.999));
    told(T::Probability(0.001));
}

/// A text that says the same, or that cites a source, whose words are those of the work.
#[track_caller]
fn cites(text: PictureText, is_cited: bool) {
    if !is_cited {
        return told(text);
    }
    let [english, other] = [Language::English, Language::Spanish].map(|language| language.pictures().text(text));
    assert_ne!(english, other);
    same_numbers(&english, &other);
}

#[test]
fn every_sentence_of_a_picture_has_its_translation() {
    let source = &Source::COMMON_PRACTICE;
    for side in [Side::Low, Side::High] {
        use SaturationText as T;
        for text in every![
            T::SaturationTitle(_) => T::SaturationTitle("R-134a"), T::AmbientDrawnAt(..) => T::AmbientDrawnAt("30 °C", side),
            T::SaturationShown(..) => T::SaturationShown("R-134a", "98 kPa"), T::NoSaturation(_) => T::NoSaturation("90 bar"),
            T::BubbleAndDew(_) => T::BubbleAndDew(["3 bar", "1 °C", "2 °C"]), T::SaturatedAt(..) => T::SaturatedAt("3 bar", "1 °C"),
            T::AtRest(_) => T::AtRest("30 °C"), T::BubbleKey => T::BubbleKey, T::DewKey => T::DewKey,
            T::SaturationFoot(_) => T::SaturationFoot("98 kPa"), T::SaturationSource(_) => T::SaturationSource(source),
        ] {
            cites(text.into(), matches!(text, T::SaturationSource(_)));
        }
        use WindowsText as W;
        let shown = |own| W::WindowsShown {
            side,
            own,
            ambient: "30 °C",
            nine: ["1 bar", "2 bar"],
            middle: "3 bar",
            read: "4 bar",
            below: Ratio::from_percent(12.0),
        };
        let foot = |humidity, charts| W::WindowsFoot { humidity, air: "98 kPa", charts };
        for own in [false, true] {
            for text in every![
                W::WindowsTitle(..) => W::WindowsTitle("R-134a", side, own), W::ReadAt(..) => W::ReadAt("3 bar", "30 °C"),
                W::NineTenths { .. } => W::NineTenths { cars: 256, rows: usize::from(own) }, W::Half(_) => W::Half(own),
                W::OnThisDay(..) => W::OnThisDay("30 °C", "bar"),
                W::WindowsFoot { .. } => foot(own.then(|| Ratio::from_percent(55.0)), own), W::WindowsShown { .. } => shown(own),
                W::Chart { .. } => W::Chart { id: "tm", band: ["1 bar", "2 bar"], remark: "" }, W::NoChart => W::NoChart,
            ] {
                told(text);
            }
        }
        told(W::NineTenths { cars: 256, rows: 3 });
    }
    use CausesText as C;
    for rest in [0, 1, 5] {
        for text in every![
            C::RankingTitle => C::RankingTitle, C::OutsideModel => C::OutsideModel,
            C::ReadAndShown(_) => C::ReadAndShown(["vent 1", "2 psi", "3 psi"]), C::WhatWasRead => C::WhatWasRead,
            C::NineTenthsOfSuch => C::NineTenthsOfSuch,
            C::RankingFoot { .. } => C::RankingFoot { circuits: 1196, rest, left: 0.07 },
        ] {
            told(text);
        }
    }
    use VacuumFinding::{CannotTell, Falling, Leak, LeakAndMoisture, Moisture, NoRise, OpenToAir, SpeedsUp};
    use VacuumText as V;
    for finding in [NoRise, Falling, Leak, Moisture, LeakAndMoisture, OpenToAir, SpeedsUp, CannotTell] {
        told(V::Fitted(finding));
    }
    use AcceptanceOutcome::{Fails, Open, Passes, TooShort};
    for (outcome, drawn) in [(Passes, true), (Fails, false), (Open, true), (TooShort, false)] {
        for limit in &ACCEPTANCE_LIMITS {
            let limit = &limit.value;
            for text in every![
                V::HoldTitle => V::HoldTitle, V::CurveInterval => V::CurveInterval,
                V::HoldShown { .. } => V::HoldShown { minutes: 30.5, readings: 25, ends: ["400 micron", "2000 micron"] },
                V::Judged { .. } => V::Judged { letter: 'A', limit, outcome, drawn }, V::HoldFoot => V::HoldFoot,
                V::LimitSources(_) => V::LimitSources("A: 1"), V::Fitted(_) => V::Fitted(Leak),
            ] {
                told(text);
            }
        }
    }
    use CycleText as Y;
    for why in [Undetermined::NotMeasured, Undetermined::TwoPhase, Undetermined::OutOfRange] {
        for text in every![
            Y::CycleTitle(_) => Y::CycleTitle("R-134a"), Y::CycleShown(..) => Y::CycleShown(["R-134a", "3 bar", "13 bar"], true),
            Y::Undetermined(_) => Y::Undetermined(why), Y::EqualTemperature(_) => Y::EqualTemperature("°C"),
            Y::EqualEntropy => Y::EqualEntropy, Y::WithoutLoss => Y::WithoutLoss, Y::CycleFoot => Y::CycleFoot,
            Y::Effect(_) => Y::Effect(131.0), Y::PropertySource(_) => Y::PropertySource(source),
        ] {
            cites(text.into(), matches!(text, Y::PropertySource(_)));
        }
    }
}

#[test]
fn every_text_of_a_card_has_its_translation() {
    use CardText as T;
    let source = &Source::COMMON_PRACTICE;
    for (one, other) in [(false, false), (false, true), (true, false), (true, true)] {
        for text in every![
            T::CardTitle(_) => T::CardTitle("R-134a"), T::BubbleHead(_) => T::BubbleHead("psi"), T::DewHead(_) => T::DewHead("psi"),
            T::CardPlace { .. } => T::CardPlace { air: "98 kPa", in_brackets: one, negative: other },
            T::BlendColumns => T::BlendColumns, T::CardCaution => T::CardCaution, T::CardSource(..) => T::CardSource(source, "1 psi"),
            T::AtGauge(_) => T::AtGauge("2 bar"), T::InVacuum(_) => T::InVacuum("5"),
            T::CardShown { .. } => T::CardShown {
                rows: 41, refrigerant: "R-407C", temperatures: ["30 °C", "40 °C"], pressures: ["2 bar", "3 bar"], blend: one
            },
        ] {
            cites(text.into(), matches!(text, T::CardSource(..)));
        }
    }
    for refrigerant in [Refrigerant::R134a, Refrigerant::R407C] {
        let units = DisplayUnits::new(PressureUnit::Psi, TemperatureUnit::Fahrenheit);
        let card = Card::usual(refrigerant, Pressure::from_kpa(98.0), units);
        let [english, other] =
            [Language::English, Language::Spanish].map(|language| card.picture_in(language.pictures()).unwrap());
        same_pictures(&english, &other);
        assert_eq!(english.svg(), card.picture().unwrap().svg());
    }
}

/// Titles and descriptions say the same; no number in the picture has a decimal point.
#[track_caller]
fn same_pictures(english: &Picture, other: &Picture) {
    same(english.title(), other.title());
    same(english.description(), other.description());
    assert_eq!(english.name(), other.name());
    for line in other.svg().split("<text ").skip(1) {
        let text = line.split_once('>').unwrap().1.split("</text>").next().unwrap();
        assert!(text.parse::<f64>().is_err() || !text.contains('.'), "a decimal point: {text}");
    }
}

#[test]
fn whole_pictures_say_the_same() {
    let asked = Diagnosis::of(Refrigerant::R134a).low("22.5 psi").unwrap().high("160.5 psi").unwrap();
    let asked = asked.ambient("86.5 °F").unwrap().measured(Measurand::SuctionLine, "72.5 °F").unwrap();
    let found = asked.measured(Measurand::LiquidLine, "110.5 °F").unwrap().settings(Settings::TEST).run().unwrap();
    let (reading, charts) = (found.inspection().first(), ChartSet::new(Refrigerant::R134a).unwrap());
    let kinds = &CircuitKind::main(Refrigerant::R134a)[..1];
    for units in [
        DisplayUnits::new(PressureUnit::Psi, TemperatureUnit::Fahrenheit),
        DisplayUnits::new(PressureUnit::Bar, TemperatureUnit::Celsius),
    ] {
        let drawn = |language: Language| {
            let words = language.pictures();
            let mut all = vec![
                plot::saturation_in(reading, &units, words).unwrap(),
                plot::pressure_enthalpy_in(&StatePoints::of(reading).unwrap(), &units, words).unwrap(),
                plot::ranking_in(
                    found.posterior().unwrap(),
                    reading.air().value(),
                    &units,
                    |cause| language.cause(cause).name,
                    words,
                )
                .unwrap(),
            ];
            all.extend(plot::windows_in(reading, kinds, &[], &charts, &units, words).unwrap());
            all
        };
        let (english, other) = (drawn(Language::English), drawn(Language::Spanish));
        assert!(english.len() == other.len() && english.len() == 5);
        english.iter().zip(&other).for_each(|(english, other)| same_pictures(english, other));
    }
}
