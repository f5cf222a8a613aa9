//! Saturation pressure by temperature and saturation temperature by pressure, of saturated liquid and saturated vapour.
//!
//! **Above the critical point** there is no saturation, and every function that needs one returns an error:
//! [`Error::Supercritical`] for a pressure and [`Error::AboveCriticalTemperature`] for a temperature if the critical
//! point is known, [`Error::OutOfRange`] if it is not.
//!
//! [`Error::Supercritical`]: crate::Error::Supercritical
//! [`Error::AboveCriticalTemperature`]: crate::Error::AboveCriticalTemperature
//! [`Error::OutOfRange`]: crate::Error::OutOfRange

mod curve;
mod lines;
mod wagner;

pub use lines::{Lines, OwnRefrigerant};
#[doc(hidden)]
pub use tables::{Accuracy, Curve, Dome};
pub use wagner::{TERMS, Wagner};

/// Tables behind the curves of the catalogue, for examples and tests; no part of the promised interface.
#[doc(hidden)]
pub mod tables {
    pub use crate::saturation::curve::{Curve, Dome, SaturatedPhase};
    #[cfg(feature = "fit")]
    pub use crate::saturation::curve::{MadeCurve, MadeDome};
    pub use crate::saturation::wagner::Accuracy;
}
