//! Saturation, superheat and subcooling of one refrigerant.

use std::str::FromStr;

use satline::line::Saturation;
use satline::quantity::instrument;
use satline::{Error, GaugePressure, Length, Line, Measured, Pressure, Quantity, Refrigerant, Temperature, air};
use serde::{Deserialize, Serialize};

use crate::Refusal;

/// A quantity as text with its unit, or as a number in SI units.
#[derive(Debug, Deserialize)]
#[serde(untagged)]
enum Given {
    Si(f64),
    Text(String),
}

#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
struct Question {
    refrigerant: String,
    /// Pressure above that of the surrounding air.
    gauge: Option<Given>,
    /// Pressure above vacuum, in place of `gauge`.
    absolute: Option<Given>,
    temperature: Option<Given>,
    /// Pressure of the surrounding air, for `gauge`: from a barometer, else from the altitude, else that at sea level.
    barometer: Option<Given>,
    altitude: Option<Given>,
}

/// The answer, in SI units; what was not asked for or does not exist is left out.
#[derive(Debug, Default, Serialize)]
struct Properties {
    refrigerant: &'static str,
    #[serde(skip_serializing_if = "Option::is_none")]
    absolute_pa: Option<f64>,
    #[serde(skip_serializing_if = "Option::is_none")]
    temperature_k: Option<f64>,
    /// Saturation at the pressure given.
    #[serde(skip_serializing_if = "Option::is_none")]
    bubble_temperature_k: Option<f64>,
    #[serde(skip_serializing_if = "Option::is_none")]
    dew_temperature_k: Option<f64>,
    /// Saturation at the temperature given.
    #[serde(skip_serializing_if = "Option::is_none")]
    bubble_pressure_pa: Option<f64>,
    #[serde(skip_serializing_if = "Option::is_none")]
    dew_pressure_pa: Option<f64>,
    /// Temperature less dew point, of pressure and temperature; negative below it.
    #[serde(skip_serializing_if = "Option::is_none")]
    superheat_k: Option<f64>,
    /// Bubble point less temperature; negative above it.
    #[serde(skip_serializing_if = "Option::is_none")]
    subcooling_k: Option<f64>,
}

/// Saturation pressures of a temperature, saturation temperatures of a pressure, and with both superheat and subcooling.
///
/// `{"refrigerant": "R-134a", "gauge": "32 psi", "temperature": "48 °F", "altitude": "300 m"}`; a number in place of a text is one in SI
/// units: Pa, K or m. `"absolute"` is a pressure above vacuum. The answer is in SI units. Pressure and temperature together may lie above
/// the critical point, where there is neither superheat nor subcooling.
///
/// # Errors
/// [`Refusal`] for text that is no question, and for what the library refuses.
pub fn properties(question: &str) -> Result<String, Refusal> {
    let asked: Question = crate::read(question)?;
    let refrigerant: Refrigerant =
        asked.refrigerant.parse().map_err(|error| Refusal::of_only(&error, "refrigerant"))?;
    let pressure = asked.pressure()?;
    let temperature = quantity::<Temperature>("temperature", asked.temperature.as_ref())?;
    let mut answer = Properties {
        refrigerant: refrigerant.designation(),
        absolute_pa: pressure.map(|(_, p)| p.pa()),
        temperature_k: temperature.map(|t| t.kelvin()),
        ..Properties::default()
    };
    match (pressure, temperature) {
        (Some((input, p)), Some(t)) => {
            // what is wrong with the pressure is so at any temperature
            Measured::exact(p)
                .and_then(|p| Saturation::at(refrigerant, &p))
                .map_err(|error| Refusal::of_only(&error, input))?;
            let line = Line::new(refrigerant, p, t).map_err(|error| Refusal::of_only(&error, "temperature"))?;
            answer.bubble_temperature_k = line.saturation().map(|both| both.bubble.value().kelvin());
            answer.dew_temperature_k = line.saturation().map(|both| both.dew.value().kelvin());
            answer.superheat_k = line.superheat().map(|by| by.value().kelvins());
            answer.subcooling_k = line.subcooling().map(|by| by.value().kelvins());
        }
        (Some((input, p)), None) => {
            let about = |error| Refusal::of_only(&error, input);
            answer.bubble_temperature_k = Some(refrigerant.bubble_temperature(p).map_err(about)?.kelvin());
            answer.dew_temperature_k = Some(refrigerant.dew_temperature(p).map_err(about)?.kelvin());
        }
        (None, Some(t)) => {
            let about = |error| Refusal::of_only(&error, "temperature");
            answer.bubble_pressure_pa = Some(refrigerant.bubble_pressure(t).map_err(about)?.pa());
            answer.dew_pressure_pa = Some(refrigerant.dew_pressure(t).map_err(about)?.pa());
        }
        (None, None) => {
            let missing = Error::Missing { what: "a pressure or a temperature", way_out: "give one of them or both" };
            return Err(Refusal::of(&missing, None));
        }
    }
    serde_json::to_string(&answer).map_err(|error| Refusal::json(&error))
}

impl Question {
    /// Absolute pressure, with the name of the input that it was given as.
    fn pressure(&self) -> Result<Option<(&'static str, Pressure)>, Refusal> {
        let gauge = quantity::<GaugePressure>("gauge", self.gauge.as_ref())?;
        let absolute = quantity::<Pressure>("absolute", self.absolute.as_ref())?;
        match (gauge, absolute) {
            (Some(_), Some(_)) => {
                Err(Refusal::of_only(&Error::Twice { what: "pressure, gauge and absolute," }, "absolute"))
            }
            (Some(gauge), None) => {
                let air = self.air()?;
                let absolute = gauge.absolute(air);
                if absolute.pa() <= 0.0 {
                    let below = Error::BelowVacuum { value: absolute.kpa(), air_kpa: air.kpa() };
                    return Err(Refusal::of_only(&below, "gauge"));
                }
                Ok(Some(("gauge", absolute)))
            }
            (None, absolute) => Ok(absolute.map(|p| ("absolute", p))),
        }
    }

    /// Pressure of the surrounding air: by the barometer, else the standard atmosphere at the altitude, else at sea level.
    fn air(&self) -> Result<Pressure, Refusal> {
        let altitude = quantity("altitude", self.altitude.as_ref())?.unwrap_or(Length::from_m(0.0));
        let (input, air) = match quantity("barometer", self.barometer.as_ref())? {
            Some(barometer) => ("barometer", instrument::barometer(barometer)),
            None => ("altitude", air::pressure_at(altitude)),
        };
        Ok(air.map_err(|error| Refusal::of_only(&error, input))?.value())
    }
}

fn quantity<Q: Quantity + FromStr<Err = Error>>(input: &str, given: Option<&Given>) -> Result<Option<Q>, Refusal> {
    match given {
        None => Ok(None),
        Some(Given::Si(number)) => Ok(Some(Q::from_si(*number))),
        Some(Given::Text(text)) => text.parse().map(Some).map_err(|error| Refusal::of_only(&error, input)),
    }
}
