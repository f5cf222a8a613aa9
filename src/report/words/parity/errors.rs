//! Every error, in both languages.

#![cfg(test)]

use super::{every, same};
use crate::Error;
use crate::report::Language;

/// One error of each kind.
fn errors() -> Vec<Error> {
    let (what, unit, way_out) = ("saturation temperature", "°C", "give it with every reading or with none");
    let (value, low, high, typed) = (12_120.04, -40.0, 90.5, || "2.2 bra".to_owned());
    every![
        Error::OutOfRange { .. } => Error::OutOfRange { what, value, low, high, unit },
        Error::OutsideLimits { .. } => Error::OutsideLimits { what: "specific gravity", value, low, high, unit: "times water" },
        Error::Implausible { .. } => Error::Implausible { what: "suction line", value, low, high, unit },
        Error::Supercritical { .. } => Error::Supercritical { refrigerant: "R-744".into(), kpa: 9000.2, critical_kpa: 7377.3 },
        Error::AboveCriticalTemperature { .. } =>
            Error::AboveCriticalTemperature { refrigerant: "R-744".into(), celsius: 35.5, critical_celsius: 30.98 },
        Error::About { .. } => Error::About {
            input: Some("low-side"), place: "low side, 22.5 psi".to_owned(), error: Box::new(Error::Twice { what: "vent" })
        },
        Error::BelowVacuum { .. } => Error::BelowVacuum { value: -1.54, air_kpa: 101.3 },
        Error::SidesReversed { .. } => Error::SidesReversed { low: "2.5 bar".to_owned(), high: "13.5 psi".to_owned() },
        Error::BeyondScale { .. } =>
            Error::BeyondScale { what: "gauge pressure", instrument: "digital probe", value, low, high, unit: "bar" },
        Error::NotFinite { .. } => Error::NotFinite { what: "pressure", text: "NaN".to_owned() },
        Error::BeyondArithmetic { .. } =>
            Error::BeyondArithmetic { what: "mass", text: "1e200 kg".to_owned(), smallest: 1e-300, largest: 1e150 },
        Error::NotANumber { .. } => Error::NotANumber { what: "volume", text: typed(), example: "150 cm³" },
        Error::DecimalComma { .. } => Error::DecimalComma { what: "time", text: "1,500 s".to_owned() },
        Error::ControlCharacter { .. } => Error::ControlCharacter { what: "charge", text: "5\n \"g\"".to_owned() },
        Error::UnitMissing { .. } =>
            Error::UnitMissing { what: "power", text: "32.5".to_owned(), units: "W, kW".to_owned() },
        Error::UnitUnknown { .. } => Error::UnitUnknown {
            what: "gauge pressure", text: typed(), unit: "bra".to_owned(), units: "kPa, bar, psi".to_owned()
        },
        Error::UnitAmbiguous { .. } => Error::UnitAmbiguous {
            what: "amount of oil", text: "5 oz".to_owned(), unit: "oz".to_owned(),
            meanings: "a US fluid ounce (29.57 mL) or an imperial fluid ounce (28.41 mL)"
        },
        Error::WrongReference { .. } => Error::WrongReference {
            what: "absolute pressure", text: "30 psig".to_owned(), given: "gauge",
            way_out: "add the pressure of the surrounding air, 14.7 psi or 1.013 bar at sea level"
        },
        Error::Impossible { .. } =>
            Error::Impossible { what: "temperature (°C)", value: -300.25, must: "above absolute zero, -273.15 °C" },
        Error::UnknownRefrigerant { .. } =>
            Error::UnknownRefrigerant { name: "R-135a".to_owned(), nearest: vec!["R-134a", "R-125"], is_trade_word: false },
        Error::TwoPhase { .. } => Error::TwoPhase { kpa: 292.8, celsius: 0.01 },
        Error::UnknownColumn { .. } => Error::UnknownColumn {
            name: "Suction".to_owned(),
            known: "time, absolute, gauge, vacuum, temperature (each with its unit, as in \"absolute [micron]\"), note"
        },
        Error::Missing { .. } => Error::Missing { what: "ambient temperature", way_out },
        Error::ColumnTwice { .. } => Error::ColumnTwice { name: "low" },
        Error::FieldCount { .. } => Error::FieldCount { found: 3, expected: 4 },
        Error::NotConverged { .. } =>
            Error::NotConverged { solving: "steady state of the circuit", steps: 200, residual: 3.2e-5 },
        Error::NotModelled { .. } => Error::NotModelled { what: "R-404A", way_out },
        Error::BadTable { .. } => Error::BadTable { reason: "line 3: 2 rows are too few".to_owned() },
        Error::ImpossibleHumidity { .. } => Error::ImpossibleHumidity {
            what: "dew point", value, low, high, unit, celsius: 25.5, kpa: 101.33, way_out: "check the reading and its unit"
        },
        Error::NoRoomForAir { .. } => Error::NoRoomForAir { kpa: 10.2, vapour_kpa: 12.3, celsius: 50.5 },
        Error::NoVapour { .. } => Error::NoVapour { celsius: 25.5 },
        Error::TooFew { .. } => Error::TooFew { what: "readings of the hold test", found: 2, needed: 3, way_out },
        Error::NotLater { .. } => Error::NotLater { seconds: 60.5, before: 61.25 },
        Error::NotVacuum { .. } => Error::NotVacuum { kpa: 201.3, air_kpa: 101.3 },
        Error::LabelContradicts { .. } => Error::LabelContradicts {
            what: "amount of oil", text: "150 cm³ (4.6 oz)".to_owned(), reason: "150 cm³ is not 4.6 oz in any ounce".to_owned()
        },
        Error::MoreThanHolds { .. } => Error::MoreThanHolds { out_cm3: 210.0, holds_cm3: 150.0 },
        Error::UnknownOil { .. } => Error::UnknownOil { name: "PAG".to_owned() },
        Error::UnknownInstrument { .. } =>
            Error::UnknownInstrument { name: "probe".to_owned(), known: vec!["analogue", "digital"] },
        Error::UnknownId { .. } => Error::UnknownId { what: "cause", id: "aire".to_owned(), known: vec!["air", "empty"] },
        Error::Twice { .. } => Error::Twice { what: "humidity" },
        Error::WrongKind { .. } => Error::WrongKind { input: "vent", what: "vent" },
        Error::NotInThisState { .. } => Error::NotInThisState { what: "vent", state: "equalised" },
        Error::Mismatch { .. } => Error::Mismatch {
            what: "ambient temperature", reading: "30.5 °C".to_owned(), reference: "40.5 °C".to_owned()
        },
        Error::Stopped { .. } => Error::Stopped { done: 30, total: 150 },
        Error::PriorWeight { .. } => Error::PriorWeight { cause: "air", weight: -1.5 },
        Error::PriorAllZero => Error::PriorAllZero,
    ]
}

#[test]
fn every_error_has_its_translation() {
    let mut errors = errors();
    errors.push(Error::UnknownRefrigerant {
        name: "freon".to_owned(),
        nearest: vec!["R-12", "R-134a"],
        is_trade_word: true,
    });
    errors.push(Error::UnknownRefrigerant { name: "R-1…".to_owned(), nearest: Vec::new(), is_trade_word: false });
    let both = |error: &Error| [Language::English, Language::Spanish].map(|language| language.error(error));
    for error in &errors {
        let [english, other] = both(error);
        assert_eq!(english, error.to_string());
        same(&english, &other);
    }
    // no sentence is cut short: those that English ends with are there
    let lengths = errors.iter().map(|error| both(error).map(|text| text.chars().count()));
    assert!(lengths.into_iter().all(|[english, other]| 10 * other > 7 * english));
}
