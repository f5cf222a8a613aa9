//! The pictures of a diagnosis, each with the section of the page it belongs to.

use satline::diagnosis::Diagnosis;
use satline::inspection::StatePoints;
use satline::plot::{self, Picture};
use satline::report::Language;

/// A picture and the name of its section.
pub type Placed = (&'static str, Picture);

/// The gauges on the saturation line; what explains the reading; healthy circuits by ambient temperature for each side that was read;
/// and, for those who want it, a running circuit's state points over pressure and enthalpy.
pub fn of(diagnosis: &Diagnosis) -> Result<Vec<Placed>, satline::Error> {
    let units = diagnosis.entry().units();
    let reading = diagnosis.inspection().first();
    let mut pictures = Vec::new();
    if reading.low().is_some() || reading.high().is_some() {
        pictures.push(plot::saturation(reading, &units)?);
    }
    if let Some(posterior) = diagnosis.posterior() {
        pictures.push(plot::ranking(posterior, reading.air().value(), &units, |cause| {
            Language::English.cause(cause).name
        })?);
        let (kinds, baselines) = (diagnosis.inspection().kinds(), diagnosis.inspection().baselines());
        pictures.extend(plot::windows(reading, kinds, baselines, diagnosis.charts(), &units)?);
    }
    if reading.is_running() && reading.low().is_some() && reading.high().is_some() {
        pictures.push(plot::pressure_enthalpy(&StatePoints::of(reading)?, &units)?);
    }
    Ok(pictures.into_iter().map(|picture| ("pictures", picture)).collect())
}
