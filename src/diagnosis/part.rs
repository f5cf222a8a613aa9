//! A part of a reading as evidence.

use super::RunningReading;
use crate::Error;
use crate::system::Running;
use crate::window::{Engine, PartReading};

impl RunningReading {
    /// Whatever `part` holds, of a car run as `running` says.
    ///
    /// # Errors
    /// [`Error::Missing`] for a reading taken at rest, or without its ambient.
    ///
    /// ```
    /// use satline::Refrigerant;
    /// use satline::diagnosis::RunningReading;
    /// use satline::system::Running;
    /// use satline::window::{Engine, Entry, Instruments};
    /// let r = Refrigerant::R134a;
    /// // no gauge at all
    /// let entry = Entry { vent: Some("64 °F".parse()?), ambient: Some("86 °F".parse()?), ..Entry::default() };
    /// let part = entry.part(r, Engine::Running, &Instruments::analogue(r))?;
    /// let running = RunningReading::of_part(&part, Running::TEST)?;
    /// assert!(running.vent.is_some() && running.low.is_none() && running.high.is_none());
    /// # Ok::<(), satline::Error>(())
    /// ```
    pub fn of_part(part: &PartReading, running: Running) -> Result<Self, Error> {
        if part.engine == Engine::AtRest {
            return Err(Error::Missing {
                what: "a reading with the compressor running",
                way_out: "give readings at rest as Evidence::at_rest",
            });
        }
        let ambient = part.ambient.ok_or(Error::Missing {
            what: "ambient temperature",
            way_out: "every comparison depends on the day; measure it in the shade before the condenser",
        })?;
        Ok(Self {
            humidity: part.humidity,
            running,
            low: part.low,
            high: part.high,
            suction_line: part.suction_line,
            liquid_line: part.liquid_line,
            discharge_line: part.discharge_line,
            vent: part.vent,
            ..Self::on(part.refrigerant, ambient, part.air)
        })
    }
}
