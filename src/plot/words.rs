//! Quantities as a picture writes them.

use super::axis::plain;
use crate::inspection::DisplayUnits;
use crate::quantity::Unit;
use crate::{GaugePressure, Measured, Pressure, Quantity, Temperature, TemperatureDifference};

/// `value` in `unit` with a true minus sign.
fn written<Q: Quantity>(value: Q, unit: Q::Unit, decimals: usize) -> String {
    format!("{} {}", plain(value.value_in(unit), decimals), unit.symbol())
}

/// `value` with its 95 % interval, unless that rounds to zero.
fn interval<Q: Quantity>(value: &Measured<Q>, unit: Q::Unit, half: f64, decimals: usize) -> String {
    let number = plain(value.value().value_in(unit), decimals);
    if half < 0.5 * 0.1f64.powi(decimals as i32) {
        return format!("{number} {}", unit.symbol());
    }
    format!("{number} ± {half:.decimals$} {}", unit.symbol())
}

/// `words` as a sentence.
pub(super) fn sentence(words: &str) -> String {
    let mut letters = words.chars();
    let first: String = letters.next().map_or(String::new(), |first| first.to_uppercase().collect());
    format!("{first}{}.", letters.as_str())
}

impl DisplayUnits {
    /// Digits after the point of a pressure.
    pub(super) fn decimals(&self) -> usize {
        usize::from(self.low.gauge_decimals())
    }

    pub(super) fn gauge(&self, p: GaugePressure) -> String {
        written(p, self.low, self.decimals())
    }

    pub(super) fn absolute(&self, p: Pressure) -> String {
        written(p, self.low, self.decimals())
    }

    pub(super) fn gauge_interval(&self, p: &Measured<GaugePressure>) -> String {
        interval(p, self.low, p.expanded().value_in(self.low), self.decimals())
    }

    pub(super) fn temperature(&self, t: Temperature) -> String {
        written(t, self.temperature, 1)
    }

    pub(super) fn temperature_interval(&self, t: &Measured<Temperature>) -> String {
        interval(t, self.temperature, t.expanded().value_in(self.temperature.step()), 1)
    }

    pub(super) fn step_interval(&self, step: &Measured<TemperatureDifference>) -> String {
        let unit = self.temperature.step();
        interval(step, unit, step.expanded().value_in(unit), 1)
    }

    pub(super) fn step(&self, step: TemperatureDifference) -> String {
        written(step, self.temperature.step(), 1)
    }

    /// Pressure as a number on an axis.
    pub(super) fn p(&self, p: GaugePressure) -> f64 {
        p.value_in(self.low)
    }

    /// Absolute pressure as a number on an axis.
    pub(super) fn absolute_number(&self, p: Pressure) -> f64 {
        p.value_in(self.low)
    }

    /// Temperature as a number on an axis.
    pub(super) fn t(&self, t: Temperature) -> f64 {
        t.value_in(self.temperature)
    }
}
