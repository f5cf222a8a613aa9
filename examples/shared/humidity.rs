//! Relative humidity as people type it.

use satline::quantity::RatioUnit;
use satline::{Entered, Error, Ratio};

/// Reads a relative humidity. A bare number above 1 and up to 100 can only be per cent; 0.5 may be half of one or half a per cent, and
/// its unit is asked for as ever.
pub fn humidity(text: &str) -> Result<Entered<Ratio>, Error> {
    text.parse().or_else(|refused| match Entered::<Ratio>::from_number(text, RatioUnit::Percent) {
        Ok(bare) if bare.number() > 1.0 && bare.number() <= 100.0 => Ok(bare),
        _ => Err(refused),
    })
}
