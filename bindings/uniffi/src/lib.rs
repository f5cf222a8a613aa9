//! satline for Kotlin and Swift: properties as functions over numbers in SI units, everything else as text in and JSON out.
//!
//! Nothing is computed or decided here. What UniFFI makes of these items is unsafe; what is written here is not.

use std::sync::{Mutex, PoisonError};

use satline::{GaugePressure, Length, Pressure, Refrigerant, Temperature, air};
use satline_json::Refusal;

uniffi::setup_scaffolding!("satline");

/// What was refused, with its reason.
#[derive(Debug, PartialEq, thiserror::Error, uniffi::Error)]
pub enum SatlineError {
    /// The library refuses a value, or there is no answer to it.
    #[error("{reason}")]
    Refused {
        /// Id of the kind of error, which stays when messages change, such as "unit-missing".
        code: String,
        /// Name of the input that the error is about; none if it is about no particular one.
        input: Option<String>,
        /// Message for a person, in English.
        // not `message`, which every exception of Kotlin has
        reason: String,
        /// The error as JSON, with questions about units if there are any.
        json: String,
    },
}

impl From<Refusal> for SatlineError {
    fn from(refusal: Refusal) -> Self {
        let json = refusal.to_json();
        Self::Refused { code: refusal.code.to_owned(), input: refusal.input, reason: refusal.message, json }
    }
}

impl From<satline::Error> for SatlineError {
    fn from(error: satline::Error) -> Self {
        Refusal::of(&error, None).into()
    }
}

/// Diagnoses one request after another; circuits simulated for one are kept for the next under the same conditions. Calls from several
/// threads wait for each other.
#[derive(Debug, Default, uniffi::Object)]
pub struct Session(Mutex<satline_json::Session>);

#[uniffi::export]
impl Session {
    /// A new session.
    #[uniffi::constructor]
    #[must_use]
    pub fn new() -> Self {
        Self::default()
    }

    /// The report on a request, as JSON, cautions included; bindings/json/README.md describes the request.
    ///
    /// # Errors
    /// [`SatlineError::Refused`] for text that is no request, and for what the library refuses.
    pub fn report(&self, request: &str) -> Result<String, SatlineError> {
        self.use_for(|session| session.report(request))
    }

    /// The page on a request, as one HTML document: `{"request": …, "language": "english" or "spanish", "whole": true or false}`.
    ///
    /// # Errors
    /// As [`Session::report`].
    pub fn page(&self, request: &str) -> Result<String, SatlineError> {
        self.use_for(|session| session.page(request))
    }
}

impl Session {
    /// What `of` makes of the session, which is put back after it: one that a panic left half done is forgotten.
    fn use_for(
        &self,
        of: impl FnOnce(&mut satline_json::Session) -> Result<String, Refusal>,
    ) -> Result<String, SatlineError> {
        let mut place = self.0.lock().unwrap_or_else(PoisonError::into_inner);
        let mut session = std::mem::take(&mut *place);
        let answer = of(&mut session);
        *place = session;
        Ok(answer?)
    }
}

/// Saturation, superheat and subcooling as JSON, in SI units, of values with their units:
/// `{"refrigerant": "R-134a", "gauge": "32 psi", "temperature": "48 °F", "altitude": "300 m"}`.
///
/// # Errors
/// [`SatlineError::Refused`] for text that is no question, and for what the library refuses.
#[uniffi::export]
pub fn properties(question: &str) -> Result<String, SatlineError> {
    Ok(satline_json::properties(question)?)
}

/// Names that a request may contain, as JSON: refrigerants, measurands and observations.
#[uniffi::export]
#[must_use]
pub fn names() -> String {
    satline_json::names()
}

/// The refrigerant of a name as people write it: "R-134a", "r134a", "HFO-1234yf".
fn named(refrigerant: &str) -> Result<Refrigerant, SatlineError> {
    Ok(refrigerant.parse().map_err(|error| Refusal::of_only(&error, "refrigerant"))?)
}

/// Dew-point temperature, K, at an absolute pressure, Pa, of the refrigerant of a name as people write it.
///
/// # Errors
/// [`SatlineError::Refused`] for a name or a value that the library refuses.
#[uniffi::export]
pub fn dew_temperature_k(refrigerant: &str, absolute_pa: f64) -> Result<f64, SatlineError> {
    Ok(named(refrigerant)?.dew_temperature(Pressure::from_pa(absolute_pa))?.kelvin())
}

/// Bubble-point temperature, K, at an absolute pressure, Pa.
///
/// # Errors
/// As [`dew_temperature_k`].
#[uniffi::export]
pub fn bubble_temperature_k(refrigerant: &str, absolute_pa: f64) -> Result<f64, SatlineError> {
    Ok(named(refrigerant)?.bubble_temperature(Pressure::from_pa(absolute_pa))?.kelvin())
}

/// Absolute dew-point pressure, Pa, at a temperature, K.
///
/// # Errors
/// As [`dew_temperature_k`].
#[uniffi::export]
pub fn dew_pressure_pa(refrigerant: &str, temperature_k: f64) -> Result<f64, SatlineError> {
    Ok(named(refrigerant)?.dew_pressure(Temperature::from_kelvin(temperature_k))?.pa())
}

/// Absolute bubble-point pressure, Pa, at a temperature, K.
///
/// # Errors
/// As [`dew_temperature_k`].
#[uniffi::export]
pub fn bubble_pressure_pa(refrigerant: &str, temperature_k: f64) -> Result<f64, SatlineError> {
    Ok(named(refrigerant)?.bubble_pressure(Temperature::from_kelvin(temperature_k))?.pa())
}

/// Superheat, K, of a suction line: its temperature less the dew point at the gauge pressure. `air_pa` is the absolute pressure of the
/// surrounding air.
///
/// # Errors
/// As [`dew_temperature_k`].
#[uniffi::export]
pub fn superheat_k(refrigerant: &str, gauge_pa: f64, air_pa: f64, line_k: f64) -> Result<f64, SatlineError> {
    let (gauge, air) = (GaugePressure::from_pa(gauge_pa), Pressure::from_pa(air_pa));
    Ok(named(refrigerant)?.superheat(gauge, air, Temperature::from_kelvin(line_k))?.kelvins())
}

/// Subcooling, K, of a liquid line: the bubble point at the gauge pressure less its temperature. `air_pa` is the absolute pressure of the
/// surrounding air.
///
/// # Errors
/// As [`dew_temperature_k`].
#[uniffi::export]
pub fn subcooling_k(refrigerant: &str, gauge_pa: f64, air_pa: f64, line_k: f64) -> Result<f64, SatlineError> {
    let (gauge, air) = (GaugePressure::from_pa(gauge_pa), Pressure::from_pa(air_pa));
    Ok(named(refrigerant)?.subcooling(gauge, air, Temperature::from_kelvin(line_k))?.kelvins())
}

/// Absolute pressure, Pa, of the standard atmosphere at an altitude, m.
///
/// # Errors
/// [`SatlineError::Refused`] for an altitude that the library refuses.
#[uniffi::export]
pub fn air_pressure_pa(altitude_m: f64) -> Result<f64, SatlineError> {
    Ok(air::pressure_at(Length::from_m(altitude_m))?.value().pa())
}

#[cfg(test)]
mod tests {
    use std::panic::{AssertUnwindSafe, catch_unwind};

    use super::*;

    #[test]
    fn a_session_is_of_use_after_a_panic() {
        let session = Session::new();
        let request = r#"{"refrigerant": "R-134a", "values": {"low-side": "22 psi"}, "ambient": "30 °C"}"#;
        let before = session.report(request).unwrap();
        let panics = AssertUnwindSafe(|| session.use_for(|_| panic!("on purpose")));
        assert!(catch_unwind(panics).is_err());
        session
            .use_for(|one| {
                let empty = format!("{:?}", satline_json::Session::default());
                assert_eq!(format!("{one:?}"), empty, "what it kept is not forgotten");
                Ok(String::new())
            })
            .unwrap();
        assert_eq!(session.report(request).unwrap(), before);
    }
}
