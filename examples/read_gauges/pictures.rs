//! The pictures of a reading, each beside the section of the page it belongs to.

use satline::plot::{self, Picture, Units};
use satline::report;
use satline::window::{Entry, Reading};

/// A picture and the name of its section.
pub type Placed = (&'static str, Picture);

/// Every picture that the reading allows.
pub fn of(entry: &Entry, reading: &Reading) -> Result<Vec<Placed>, satline::Error> {
    let written = report::Units::of(entry);
    let units = Units { pressure: written.low, temperature: written.temperature };
    Ok(vec![("pressures", plot::saturation(reading, &units)?)])
}
