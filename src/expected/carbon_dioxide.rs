//! Published correlations for the best high-side pressure of R-744 above its critical point.
//!
//! No chart of pressures by ambient temperature has been found for R-744 cars. These correlations say where the coefficient
//! of performance is best, not what a healthy car shows; they are a mark to compare with, never a window.
//! Both are from memory and agree with each other within a few bar.

use crate::circuit::best_high_side_bar;
use crate::{Error, Pressure, Source, Temperature, Trust};

/// Best high-side pressure by ambient temperature after Kauf 1999: p = 2.6 t + 7.54, p in bar absolute, t in °C.
///
/// - **Range** 35 to 50 °C. **Accuracy** not stated. **Source** [`KAUF_1999`], from memory.
///
/// ```
/// use approx::assert_abs_diff_eq;
/// use satline::{Temperature, expected::carbon_dioxide};
/// let p = carbon_dioxide::best_pressure_by_ambient(Temperature::from_celsius(35.0))?;
/// assert_abs_diff_eq!(p.bar(), 98.54, epsilon = 1e-9); // bar, by the formula: rounding
/// # Ok::<(), satline::Error>(())
/// ```
///
/// # Errors
/// [`Error::OutOfRange`] outside the range.
pub fn best_pressure_by_ambient(ambient: Temperature) -> Result<Pressure, Error> {
    let t = ambient.celsius();
    within("ambient temperature", t, KAUF_RANGE)?;
    let (slope, at_zero) = KAUF;
    Ok(Pressure::from_bar(slope * t + at_zero))
}

/// Best high-side pressure by evaporating and gas-cooler outlet temperature after Liao, Zhao & Jakobsen 2000:
/// p = (2.778 − 0.0157 t₀) t + 0.381 t₀ − 9.34, p in bar absolute, t₀ (evaporating) and t (outlet) in °C.
///
/// - **Range** t₀ −10 to 20 °C, t 30 to 60 °C. **Accuracy** not stated. **Source** [`LIAO_2000`], from memory.
///
/// # Errors
/// [`Error::OutOfRange`] outside the range.
pub fn best_pressure_by_outlet(evaporating: Temperature, outlet: Temperature) -> Result<Pressure, Error> {
    let (t0, t) = (evaporating.celsius(), outlet.celsius());
    within("evaporating temperature", t0, LIAO_EVAPORATING)?;
    within("gas cooler outlet temperature", t, LIAO_OUTLET)?;
    Ok(Pressure::from_bar(best_high_side_bar(t0, t)))
}

/// Source of [`best_pressure_by_ambient`].
pub const KAUF_1999: Source = Source {
    work: "Kauf 1999, best high pressure of transcritical R-744",
    locator: "p = 2.6 t + 7.54",
    doi: None,
    trust: Trust::FromMemory,
};

/// Source of [`best_pressure_by_outlet`].
pub const LIAO_2000: Source = Source {
    work: "Liao, Zhao & Jakobsen 2000, best high pressure of transcritical R-744",
    locator: "p of evaporating and gas-cooler outlet temperature",
    doi: None,
    trust: Trust::FromMemory,
};

/// Slope, bar/K, and constant, bar, of [`KAUF_1999`]; from memory.
const KAUF: (f64, f64) = (2.6, 7.54);
/// Ambient temperatures of [`KAUF_1999`], °C; from memory.
const KAUF_RANGE: (f64, f64) = (35.0, 50.0);
/// Evaporating temperatures of [`LIAO_2000`], °C; from memory.
const LIAO_EVAPORATING: (f64, f64) = (-10.0, 20.0);
/// Gas-cooler outlet temperatures of [`LIAO_2000`], °C; from memory.
const LIAO_OUTLET: (f64, f64) = (30.0, 60.0);

fn within(what: &'static str, value: f64, (low, high): (f64, f64)) -> Result<(), Error> {
    if (low..=high).contains(&value) {
        return Ok(());
    }
    Err(Error::OutOfRange { what, value, low, high, unit: "°C" })
}
