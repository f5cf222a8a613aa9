//! The names that a form offers.

use satline::Refrigerant;
use satline::inspection::{Measurand, Observation};

#[derive(serde::Serialize)]
struct Names {
    refrigerants: Vec<&'static str>,
    measurands: Vec<&'static str>,
    observations: Vec<&'static str>,
}

/// Names that a request may contain, as JSON: refrigerants, measurands and observations.
#[must_use]
pub fn names() -> String {
    let names = Names {
        refrigerants: Refrigerant::ALL.iter().map(|one| one.designation()).collect(),
        measurands: Measurand::ALL.iter().map(|one| one.id()).collect(),
        observations: Observation::ALL.iter().map(|one| one.name()).collect(),
    };
    // texts and lists of texts can always be written
    serde_json::to_string(&names).unwrap_or_default()
}
