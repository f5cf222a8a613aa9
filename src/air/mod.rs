//! The air around the car.

mod atmosphere;

pub use atmosphere::{STANDARD, WEATHER_SPREAD, pressure_at};
