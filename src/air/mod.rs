//! Moist air and the atmosphere: pressure from altitude, water vapour, humidity and enthalpy.
//!
//! - [`pressure_at`]: air pressure from altitude.
//! - [`water`]: saturation pressure of water and of ice, and the temperature from it.
//! - [`MoistAir`]: air from temperature, pressure and one measure of humidity: relative humidity, dew point, wet bulb or
//!   humidity ratio.
//!
//! Air and vapour are treated as a mixture of ideal gases without interaction, as in the ASHRAE Handbook. [`MoistAir`]
//! gives figures for the neglected enhancement factor: air holds about half a percent more water than computed here.
//! ```
//! use satline::air::MoistAir;
//! use satline::{Length, Ratio, Temperature, air};
//!
//! // a hot day at 1500 m: 35 °C, 40 % relative humidity
//! let pressure = air::pressure_at(Length::from_m(1500.0))?.value();
//! let day = MoistAir::from_relative_humidity(Temperature::from_celsius(35.0), Ratio::from_percent(40.0), pressure)?;
//! assert_eq!(format!("{:.1} °C", day.dew_point()?.celsius()), "19.4 °C");
//! assert_eq!(format!("{:.1} °C", day.wet_bulb()?.celsius()), "23.4 °C");
//! assert_eq!(format!("{:.1} g/kg", day.humidity_ratio().fraction() * 1e3), "17.0 g/kg");
//! # Ok::<(), satline::Error>(())
//! ```

mod atmosphere;
pub(crate) mod formulas;
mod moist;
pub mod water;

pub use atmosphere::{STANDARD, WEATHER_SPREAD, pressure_at};
pub use moist::{ASHRAE, MoistAir};
