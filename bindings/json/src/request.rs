//! A request for a diagnosis as JSON has it, each value as typed.

use std::str::FromStr;

use satline::circuit::{CircuitKind, CompressorKind, ExpansionKind, Settings};
use satline::diagnosis::{Diagnosis, DiagnosisRequest, Prior};
use satline::inspection::{
    Baseline, EnteredValue, Entry, Instruments, Measurand, Observation, RecoveredCharge, ServicePorts,
};
use satline::report::Report;
use satline::{Entered, Error, GaugePressure, Mass, Ratio, Refrigerant};
use serde::Deserialize;

use crate::Refusal;

/// What was read, and what is known of the circuit. Only the refrigerant and one measured value are required.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct Request {
    refrigerant: String,
    /// Values of the first reading by the ids of their measurands, such as `{"low-side": "22 psi"}`. `"equalised-pressure"` is either
    /// gauge before the start, or long after the stop.
    #[serde(default)]
    values: Values,
    ambient: Option<String>,
    humidity: Option<String>,
    altitude: Option<String>,
    barometer: Option<String>,
    /// Temperature of the whole circuit at the equalised pressure, where it is not that of the ambient.
    equalised_temperature: Option<String>,
    /// Whether the first reading is of the equalised circuit, engine off: both gauges are then compared with saturation.
    #[serde(default)]
    at_rest: bool,
    /// Settings of the first reading; those of makers' tests unless given.
    settings: Option<Settings>,
    /// Running readings of the same circuit with other settings.
    #[serde(default)]
    also: Vec<Also>,
    /// Charge that was recovered and weighed, and the charge that the label asks for.
    recovered: Option<String>,
    nominal_charge: Option<String>,
    #[serde(default)]
    found: Vec<String>,
    #[serde(default)]
    not_found: Vec<String>,
    compressor: Option<CompressorKind>,
    expansion: Option<ExpansionKind>,
    /// Whether a second evaporator cools the rear.
    #[serde(default)]
    rear_evaporator: bool,
    #[serde(default)]
    service_ports: ServicePorts,
    /// What the maker prints for this car, row by row: "30 °C: 190 to 240 kPa, 1300 to 1600 kPa".
    #[serde(default)]
    baselines: Vec<String>,
    #[serde(default)]
    instruments: InstrumentClass,
    /// Ends of the gauges' scales, where they are not the usual ones.
    low_scale: Option<String>,
    high_scale: Option<String>,
    #[serde(default)]
    prior: GivenPrior,
    /// Probability of a healthy circuit before anything is read.
    healthy: Option<String>,
    /// Whether the numbers are invented, as those of an exercise.
    #[serde(default)]
    invented: bool,
}

/// A running reading with settings of its own.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
struct Also {
    #[serde(default)]
    values: Values,
    settings: Settings,
}

/// Classes of instruments.
#[derive(Debug, Clone, Copy, Default, Deserialize)]
#[serde(rename_all = "kebab-case")]
enum InstrumentClass {
    #[default]
    Analogue,
    Digital,
}

/// A prior by name, or its weights.
#[derive(Debug, Clone, Default, Deserialize)]
#[serde(rename_all = "kebab-case")]
enum GivenPrior {
    #[default]
    Workshop,
    Uniform,
    #[serde(untagged)]
    Weights(Prior),
}

/// Pairs of a map in their order: a name given twice stays twice, to be refused.
#[derive(Debug, Default)]
struct Values(Vec<(String, String)>);

impl<'de> Deserialize<'de> for Values {
    fn deserialize<D: serde::Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        deserializer.deserialize_map(Pairs)
    }
}

struct Pairs;

impl<'de> serde::de::Visitor<'de> for Pairs {
    type Value = Values;

    fn expecting(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str("values by the ids of their measurands")
    }

    fn visit_map<A: serde::de::MapAccess<'de>>(self, mut map: A) -> Result<Values, A::Error> {
        let mut pairs = Vec::new();
        while let Some(pair) = map.next_entry()? {
            pairs.push(pair);
        }
        Ok(Values(pairs))
    }
}

impl Request {
    /// The report on `diagnosis`, marked as invented where the request says so.
    pub(crate) fn report(&self, diagnosis: &Diagnosis) -> Report {
        let mut report = diagnosis.report();
        report.invented = self.invented;
        report
    }

    /// The request to the library. It is checked after each input, so that a refusal is about the input it came with.
    pub(crate) fn checked(&self) -> Result<DiagnosisRequest, Refusal> {
        let refrigerant = given::<Refrigerant>("refrigerant", &self.refrigerant)?;
        let mut known = Known {
            request: Diagnosis::of(refrigerant)
                .instruments(self.instruments(refrigerant)?)
                .prior(self.prior()?)
                .service_ports(self.service_ports)
                .kinds(CircuitKind::fitting(refrigerant, self.compressor, self.expansion, self.rear_evaporator)),
            entry: Entry::default(),
        };
        if self.at_rest {
            known.request = known.request.first_equalised();
        }
        // an equalised circuit is judged by its temperature, so that comes first
        known.entry.ambient = optional("ambient", self.ambient.as_ref())?;
        known.check("ambient")?;
        match self.settings {
            Some(_) if self.at_rest => {
                let apart = Error::NotInThisState { what: "settings", state: "equalised" };
                return Err(Refusal::of_only(&apart, "settings"));
            }
            Some(settings) => {
                known.request = known.request.settings(settings);
                known.check("settings")?;
            }
            None => {}
        }
        known.entry.humidity = optional("humidity", self.humidity.as_ref())?;
        known.check("humidity")?;
        known.entry.altitude = optional("altitude", self.altitude.as_ref())?;
        known.check("altitude")?;
        known.entry.barometer = optional("barometer", self.barometer.as_ref())?;
        known.check("barometer")?;
        let named = |(id, text): &(String, String)| Ok((given::<Measurand>("values", id)?, text.clone()));
        let mut values = self.values.0.iter().map(named).collect::<Result<Vec<_>, Refusal>>()?;
        // in an order of their own, so that it does not depend on the writer which of two that contradict each other is refused
        values.sort_by_key(|(measurand, _)| *measurand);
        let mut equalised = None;
        for (measurand, text) in &values {
            let (measurand, id) = (*measurand, measurand.id());
            if measurand == Measurand::EqualisedPressure {
                let pressure = given::<Entered<GaugePressure>>(id, text)?;
                equalised = Some(twice(equalised, pressure, id)?);
            } else {
                let value = EnteredValue::parse(measurand, text).map_err(|error| Refusal::of(&error, Some(id)))?;
                known.entry = known.entry.with(measurand, value).map_err(|error| Refusal::of(&error, Some(id)))?;
                known.check(id).map_err(|refusal| refusal.questioned(&known.request.clone().entry(known.entry)))?;
            }
        }
        self.others(known, equalised)
    }

    /// `known` with what is no part of the first reading.
    fn others(&self, mut known: Known, equalised: Option<Entered<GaugePressure>>) -> Result<DiagnosisRequest, Refusal> {
        for also in &self.also {
            let entry = |entry: Entry, (id, text): &(String, String)| entry.enter(id.parse()?, text);
            let entry = also.values.0.iter().try_fold(Entry::default(), entry);
            let entry = entry.map_err(|error| Refusal::of_only(&error, "also"))?;
            known.request = known.request.also(entry, also.settings);
            known.check_only("also")?;
        }
        if let Some(pressure) = equalised {
            let mut entry = Entry::default();
            entry.ambient = optional("equalised_temperature", self.equalised_temperature.as_ref())?;
            known.request = known.request.equalised(entry);
            known.check_only("equalised_temperature")?;
            let id = Measurand::EqualisedPressure.id();
            let entry = entry.with(Measurand::LowSide, pressure).map_err(|error| Refusal::of_only(&error, id))?;
            known.request = known.request.equalised(entry);
            known.check_only(id)?;
        } else if self.equalised_temperature.is_some() {
            return Err(apart("equalised_temperature", "the equalised pressure"));
        }
        match (&self.recovered, &self.nominal_charge) {
            (Some(mass), Some(nominal)) => {
                let mass = given::<Mass>("recovered", mass)?;
                let nominal = given::<Mass>("nominal_charge", nominal)?;
                // nothing recovered is possible, so that a refusal is about the label
                RecoveredCharge::new(Mass::from_g(0.0), nominal)
                    .map_err(|error| Refusal::of_only(&error, "nominal_charge"))?;
                let recovered =
                    RecoveredCharge::new(mass, nominal).map_err(|error| Refusal::of_only(&error, "recovered"))?;
                known.request = known.request.recovered(recovered);
            }
            (Some(_), None) => return Err(apart("recovered", "the nominal charge")),
            (None, Some(_)) => return Err(apart("nominal_charge", "the recovered charge")),
            (None, None) => {}
        }
        for row in &self.baselines {
            let row = given::<Baseline>("baselines", row)?;
            let row = row
                .with_settings(self.settings.unwrap_or_default())
                .map_err(|error| Refusal::of_only(&error, "baselines"))?;
            known.request = known.request.baseline(row);
        }
        known.check_only("baselines")?;
        for (names, input, seen) in [(&self.found, "found", true), (&self.not_found, "not_found", false)] {
            for name in names {
                let one = given::<Observation>(input, name)?;
                known.request = if seen { known.request.found(one) } else { known.request.not_found(one) };
                known.check_only(input)?;
            }
        }
        Ok(known.asked())
    }

    fn instruments(&self, refrigerant: Refrigerant) -> Result<Instruments, Refusal> {
        let mut instruments = match self.instruments {
            InstrumentClass::Analogue => Instruments::analogue(refrigerant),
            InstrumentClass::Digital => Instruments::digital(refrigerant),
        };
        for (gauge, text, input) in [
            (&mut instruments.low, &self.low_scale, "low_scale"),
            (&mut instruments.high, &self.high_scale, "high_scale"),
        ] {
            if let Some(scale) = optional::<Entered<GaugePressure>>(input, text.as_ref())? {
                *gauge = gauge.up_to(scale.quantity()).map_err(|error| Refusal::of_only(&error, input))?;
            }
        }
        Ok(instruments)
    }

    fn prior(&self) -> Result<Prior, Refusal> {
        let prior = match &self.prior {
            GivenPrior::Workshop => Prior::workshop(),
            GivenPrior::Uniform => Prior::uniform(),
            GivenPrior::Weights(prior) => prior.clone(),
        };
        match optional::<Entered<Ratio>>("healthy", self.healthy.as_ref())? {
            Some(share) => prior.with_healthy(share.quantity()).map_err(|error| Refusal::of_only(&error, "healthy")),
            None => Ok(prior),
        }
    }
}

/// What has been taken from a request so far.
struct Known {
    request: DiagnosisRequest,
    entry: Entry,
}

impl Known {
    fn asked(&self) -> DiagnosisRequest {
        self.request.clone().entry(self.entry)
    }

    /// Refuses `input` where the library refuses what is known with it.
    fn check(&self, input: &str) -> Result<(), Refusal> {
        self.asked().inspection().map(drop).map_err(|error| Refusal::of(&error, Some(input)))
    }

    /// The same for an input that the library knows by another name.
    fn check_only(&self, input: &str) -> Result<(), Refusal> {
        self.asked().inspection().map(drop).map_err(|error| Refusal::of_only(&error, input))
    }
}

fn given<T: FromStr<Err = Error>>(input: &str, text: &str) -> Result<T, Refusal> {
    text.parse().map_err(|error| Refusal::of_only(&error, input))
}

fn optional<T: FromStr<Err = Error>>(input: &str, text: Option<&String>) -> Result<Option<T>, Refusal> {
    text.map(|text| given(input, text)).transpose()
}

/// `value`, unless there was one `before`.
fn twice<T>(before: Option<T>, value: T, input: &str) -> Result<T, Refusal> {
    match before {
        None => Ok(value),
        Some(_) => Err(Refusal::of_only(&Error::Twice { what: Measurand::EqualisedPressure.name() }, input)),
    }
}

/// `input` without the input it belongs to.
fn apart(input: &str, what: &'static str) -> Refusal {
    let way_out = "the two belong together; give both or neither";
    Refusal::of_only(&Error::Missing { what, way_out }, input)
}
