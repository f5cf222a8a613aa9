//! Discrepancy between the model and one real circuit: how far its logarithmic pressures differ from those computed, and how that
//! goes from one day to another.
//!
//! - **Equation** ln p = ln p(model) + δ + ε on either side, δ normal with Cov(δ(c), δ(c′)) = σ₀² + σ_T² (T − T₀)(T′ − T₀) +
//!   σ_φ² (φ − φ₀)(φ′ − φ₀), ε independent with σ_ε, T the ambient temperature and φ the relative humidity. At T₀ and φ₀ both
//!   together have the model uncertainty of the measurand ([`Measurand::model_uncertainty`]), with which every reading is compared.
//! - **Method** a Gaussian process for the discrepancy of a computer model (Kennedy & O'Hagan, J. R. Stat. Soc. B 63 (2001) 425; from
//!   memory), with a level and two slopes: what one row of a maker's table lies above the model, the next day lies above it too.
//! - **Source** of σ_φ: `tables/WINDOWS.md`, the six slopes with humidity, computed less printed, over pressure and humidity, have a
//!   root mean square of 0.23; a third more is taken, as one ladder alone prints them. Of σ_T: our choice, a quarter of
//!   the same for the twelve slopes with ambient, 0.014 per kelvin, as circuits of other sizes explain most of it. Of σ_ε: our choice, a
//!   small part of the variance at T₀ and φ₀. The three were settled on the printed ladders, so `tests/own_window.rs` says how well they serve those, not how well others.

use crate::circuit::Conditions;
use crate::inspection::Measurand;
use crate::{Range, Temperature};

use super::computed::UNKNOWN_HUMIDITY;

/// σ_ε, of ln p; our choice.
const OWN: f64 = 0.015;

/// σ_T, of ln p per kelvin; our choice, on the slopes of `tables/WINDOWS.md`.
const PER_KELVIN: f64 = 0.003;

/// σ_φ, of ln p over the whole range of humidity (`tables/WINDOWS.md`).
const PER_HUMIDITY: f64 = 0.3;

/// T₀: a day on which most gauges are read; our choice.
const CENTRE: Temperature = Temperature::from_celsius(30.0);

/// φ₀; our choice.
const CENTRE_HUMIDITY: f64 = 0.5;

/// Cov(δ(a), δ(b)) of the logarithm of the pressure on `side`.
pub(super) fn covariance(side: Measurand, a: &Conditions, b: &Conditions) -> f64 {
    let warmer = |day: &Conditions| (day.ambient - CENTRE).kelvins();
    let Range { low, high } = UNKNOWN_HUMIDITY.value;
    let unknown = 0.5 * (low.fraction() + high.fraction());
    let damper = |day: &Conditions| day.humidity.map_or(unknown, |humidity| humidity.fraction()) - CENTRE_HUMIDITY;
    let of_model = side.row().model_uncertainty;
    let level = of_model * of_model - own_variance();
    level + PER_KELVIN * PER_KELVIN * warmer(a) * warmer(b) + PER_HUMIDITY * PER_HUMIDITY * damper(a) * damper(b)
}

/// σ_ε²: variance that one day has for itself.
pub(super) const fn own_variance() -> f64 {
    OWN * OWN
}
