//! The pictures of a diagnosis, each with the section of the page it belongs to.

use satline::diagnosis::Diagnosis;
use satline::inspection::StatePoints;
use satline::plot::{self, Picture};
use satline::report::Language;

/// A picture and the name of its section.
pub type Placed = (&'static str, Picture);

/// The gauges on the saturation line; what explains the reading; healthy circuits by ambient temperature for each side that was read;
/// and, for those who want it, a running circuit's state points over pressure and enthalpy; in `language`.
pub fn of(diagnosis: &Diagnosis, language: Language) -> Result<Vec<Placed>, satline::Error> {
    let words = language.pictures();
    let units = diagnosis.entry().units();
    let reading = diagnosis.inspection().first();
    let mut pictures = Vec::new();
    if reading.low().is_some() || reading.high().is_some() {
        pictures.push(plot::saturation_in(reading, &units, words)?);
    }
    if let Some(posterior) = diagnosis.posterior() {
        let name = |cause| language.cause(cause).name;
        pictures.push(plot::ranking_in(posterior, reading.air().value(), &units, name, words)?);
        let (kinds, baselines) = (diagnosis.inspection().kinds(), diagnosis.inspection().baselines());
        pictures.extend(plot::windows_in(reading, kinds, baselines, diagnosis.charts(), &units, words)?);
    }
    if reading.is_running() && reading.low().is_some() && reading.high().is_some() {
        pictures.push(plot::pressure_enthalpy_in(&StatePoints::of(reading)?, &units, words)?);
    }
    Ok(pictures.into_iter().map(|picture| ("pictures", picture)).collect())
}
