//! What the reading says: causes ranked by how well each explains it.
//!
//! A cause is a change of the modelled car ([`crate::circuit`]), not a row of a rule list. Cars with and without each cause are
//! run on the day of the reading ([`Reference`]); [`interpret`] asks under which of them what was read is likely, with
//! instruments and model counted, and answers with an [`Interpretation`]: how probable each cause is, how large, what speaks
//! for and against it, and what to measure next. What eyes and hands find counts by how many published fault charts name it,
//! and is labelled as agreement between texts.
//!
//! A probability here is one among the causes modelled, under a stated [`Prior`], for cars like those of the population. When
//! nothing modelled looks like the reading, the interpretation says so instead.

mod cause;
mod density;
mod evidence;
mod fault;
mod information;
mod interpretation;
mod local_regression;
mod mixture;
mod next_measurement;
mod posterior;
mod prior;
mod reference;

pub use cause::{
    AIR, ALL, COMPRESSOR_WORN, CONDENSER_AIR, CONTROL_HIGH, CONTROL_LOW, COUNTS, Cause, DISCHARGE_RESTRICTION,
    ENGINE_HEAT, EVAPORATOR_AIR, EXPANSION_CLOSED, EXPANSION_OPEN, ICING, LIQUID_RESTRICTION, MOISTURE, NO_FAULT,
    NOT_TURNING, OVERCHARGE, Observation, RECEIVER_RESTRICTION, SUCTION_RESTRICTION, UNDERCHARGE,
    UNDERCHARGE_BEHIND_LITTLE_AIR, UNDERCHARGE_WITH_AIR, WRONG_ORIFICE, WRONG_REFRIGERANT,
};
pub use evidence::{Channel, Effort, Evidence, RECOVERED, Recovered, RunningReading};
pub use fault::Fault;
pub use interpretation::{CALLED_FAULTY, Finding, Group, Interpretation, Predicted, interpret};
pub use next_measurement::{NextCheck, Outcome};
pub use prior::Prior;
pub use reference::{CARS, Reference};
