//! The pictures of a reading, each with the section of the page it belongs to.

use satline::diagnosis::Interpretation;
use satline::plot::{self, Picture, Units};
use satline::report;
use satline::system::{Running, SystemKind};
use satline::window::{Book, Cycle, Engine, Entry, Reading};
use satline::{Measured, Temperature};

/// A picture and the name of its section.
pub type Placed = (&'static str, Picture);

/// The reading on its saturation line and, of a running circuit, its loop over pressure and enthalpy.
pub fn of_reading(
    entry: &Entry,
    reading: &Reading,
    discharge: Option<Measured<Temperature>>,
) -> Result<Vec<Placed>, satline::Error> {
    let units = units(entry);
    let mut pictures = vec![("pictures", plot::saturation(reading, &units)?)];
    if reading.engine == Engine::Running {
        pictures.push(("pictures", plot::pressure_enthalpy(&Cycle::of(reading, discharge)?, &units)?));
    }
    Ok(pictures)
}

/// Healthy cars by ambient temperature, and what explains the reading.
pub fn of_cars(
    entry: &Entry,
    reading: &Reading,
    kinds: &[SystemKind],
    running: Running,
    book: &Book,
    interpretation: &Interpretation,
) -> Result<Vec<Placed>, satline::Error> {
    let units = units(entry);
    let [low, high] = plot::windows(reading, kinds, running, book, &units)?;
    let ranking = plot::ranking(interpretation, reading.air.value(), &units)?;
    Ok(vec![("pictures", ranking), ("pictures", low), ("pictures", high)])
}

fn units(entry: &Entry) -> Units {
    let written = report::Units::of(entry);
    Units { pressure: written.low, temperature: written.temperature }
}
