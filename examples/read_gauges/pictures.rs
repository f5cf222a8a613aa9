//! The pictures of a reading, each with the section of the page it belongs to.

use satline::circuit::{CircuitKind, Settings};
use satline::diagnosis::Interpretation;
use satline::plot::{self, Picture, Units};
use satline::report;
use satline::window::{Book, Cycle, Engine, Entry, PartReading};

/// A picture and the name of its section.
pub type Placed = (&'static str, Picture);

/// The gauges on the saturation line and, of a running circuit with both, its loop over pressure and enthalpy.
pub fn of_reading(entry: &Entry, reading: &PartReading) -> Result<Vec<Placed>, satline::Error> {
    let units = units(entry);
    let mut pictures = Vec::new();
    if reading.low.is_some() || reading.high.is_some() {
        pictures.push(("pictures", plot::saturation(*reading, &units)?));
    }
    if let (Engine::Running, Ok(both)) = (reading.engine, reading.both()) {
        let cycle = Cycle::of(&both, reading.discharge_line)?;
        pictures.push(("pictures", plot::pressure_enthalpy(&cycle, &units)?));
    }
    Ok(pictures)
}

/// What explains the reading, and healthy cars by ambient temperature for each side that was read.
pub fn of_cars(
    entry: &Entry,
    reading: &PartReading,
    kinds: &[CircuitKind],
    running: Settings,
    book: &Book,
    interpretation: &Interpretation,
) -> Result<Vec<Placed>, satline::Error> {
    let units = units(entry);
    let mut pictures = vec![plot::ranking(interpretation, reading.air.value(), &units)?];
    pictures.extend(plot::windows(*reading, kinds, running, book, &units)?);
    Ok(pictures.into_iter().map(|picture| ("pictures", picture)).collect())
}

fn units(entry: &Entry) -> Units {
    let written = report::Units::of(entry);
    Units { pressure: written.low, temperature: written.temperature }
}
