//! Saturation, superheat, subcooling and air pressure, one value a call.

use std::ffi::c_char;

use satline::{Error, GaugePressure, Length, Pressure, Quantity, Refrigerant, Temperature, air};

use crate::arguments::{SatlineRefrigerant, refrigerant, text, variable};
use crate::error::{SatlineError, SatlineStatus, answer};

/// The refrigerant of a name as people write it: "R-134a", "r134a", "HFO-1234yf".
///
/// # Safety
/// `name` is NULL or a text that ends with NUL; `found` and `error` are NULL or point to variables.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn satline_refrigerant(
    name: *const c_char,
    found: *mut SatlineRefrigerant,
    error: *mut *mut SatlineError,
) -> SatlineStatus {
    let call = || {
        // SAFETY: as the caller promises
        let found = unsafe { variable("found", found, SatlineRefrigerant::MAX) }?;
        // SAFETY: as the caller promises
        let named: Refrigerant = unsafe { text("name", name) }?.parse()?;
        // every refrigerant is in the list, and the list is short
        let place = Refrigerant::ALL.iter().position(|&one| one == named);
        *found = place.and_then(|place| place.try_into().ok()).unwrap_or(SatlineRefrigerant::MAX);
        Ok(())
    };
    // SAFETY: as the caller promises
    unsafe { answer(error, call) }
}

/// One property of a refrigerant, NaN where there is none.
///
/// # Safety
/// `place` and `error` are NULL or point to variables.
unsafe fn property<Q: Quantity>(
    given: SatlineRefrigerant,
    property: impl FnOnce(Refrigerant) -> Result<Q, Error>,
    (output, place): (&str, *mut f64),
    error: *mut *mut SatlineError,
) -> SatlineStatus {
    let call = || {
        // SAFETY: as the caller promises
        let place = unsafe { variable(output, place, f64::NAN) }?;
        *place = property(refrigerant(given)?)?.si();
        Ok(())
    };
    // SAFETY: as the caller promises
    unsafe { answer(error, call) }
}

/// Dew-point temperature, K, at an absolute pressure, Pa. Where there is no answer `kelvin` is NaN.
///
/// # Safety
/// `kelvin` and `error` are NULL or point to variables.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn satline_dew_temperature(
    refrigerant: SatlineRefrigerant,
    absolute_pa: f64,
    kelvin: *mut f64,
    error: *mut *mut SatlineError,
) -> SatlineStatus {
    let of = |one: Refrigerant| one.dew_temperature(Pressure::from_pa(absolute_pa));
    // SAFETY: as the caller promises
    unsafe { property(refrigerant, of, ("kelvin", kelvin), error) }
}

/// Bubble-point temperature, K, at an absolute pressure, Pa. Where there is no answer `kelvin` is NaN.
///
/// # Safety
/// `kelvin` and `error` are NULL or point to variables.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn satline_bubble_temperature(
    refrigerant: SatlineRefrigerant,
    absolute_pa: f64,
    kelvin: *mut f64,
    error: *mut *mut SatlineError,
) -> SatlineStatus {
    let of = |one: Refrigerant| one.bubble_temperature(Pressure::from_pa(absolute_pa));
    // SAFETY: as the caller promises
    unsafe { property(refrigerant, of, ("kelvin", kelvin), error) }
}

/// Absolute dew-point pressure, Pa, at a temperature, K. Where there is no answer `absolute_pa` is NaN.
///
/// # Safety
/// `absolute_pa` and `error` are NULL or point to variables.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn satline_dew_pressure(
    refrigerant: SatlineRefrigerant,
    kelvin: f64,
    absolute_pa: *mut f64,
    error: *mut *mut SatlineError,
) -> SatlineStatus {
    let of = |one: Refrigerant| one.dew_pressure(Temperature::from_kelvin(kelvin));
    // SAFETY: as the caller promises
    unsafe { property(refrigerant, of, ("absolute_pa", absolute_pa), error) }
}

/// Absolute bubble-point pressure, Pa, at a temperature, K. Where there is no answer `absolute_pa` is NaN.
///
/// # Safety
/// `absolute_pa` and `error` are NULL or point to variables.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn satline_bubble_pressure(
    refrigerant: SatlineRefrigerant,
    kelvin: f64,
    absolute_pa: *mut f64,
    error: *mut *mut SatlineError,
) -> SatlineStatus {
    let of = |one: Refrigerant| one.bubble_pressure(Temperature::from_kelvin(kelvin));
    // SAFETY: as the caller promises
    unsafe { property(refrigerant, of, ("absolute_pa", absolute_pa), error) }
}

/// Superheat, K, of a suction line: its temperature less the dew point at the gauge pressure. `air_pa` is the absolute pressure of the
/// surrounding air. Where there is no answer `superheat_k` is NaN.
///
/// # Safety
/// `superheat_k` and `error` are NULL or point to variables.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn satline_superheat(
    refrigerant: SatlineRefrigerant,
    gauge_pa: f64,
    air_pa: f64,
    line_k: f64,
    superheat_k: *mut f64,
    error: *mut *mut SatlineError,
) -> SatlineStatus {
    let (gauge, air) = (GaugePressure::from_pa(gauge_pa), Pressure::from_pa(air_pa));
    let of = |one: Refrigerant| one.superheat(gauge, air, Temperature::from_kelvin(line_k));
    // SAFETY: as the caller promises
    unsafe { property(refrigerant, of, ("superheat_k", superheat_k), error) }
}

/// Subcooling, K, of a liquid line: the bubble point at the gauge pressure less its temperature. `air_pa` is the absolute pressure of the
/// surrounding air. Where there is no answer `subcooling_k` is NaN.
///
/// # Safety
/// `subcooling_k` and `error` are NULL or point to variables.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn satline_subcooling(
    refrigerant: SatlineRefrigerant,
    gauge_pa: f64,
    air_pa: f64,
    line_k: f64,
    subcooling_k: *mut f64,
    error: *mut *mut SatlineError,
) -> SatlineStatus {
    let (gauge, air) = (GaugePressure::from_pa(gauge_pa), Pressure::from_pa(air_pa));
    let of = |one: Refrigerant| one.subcooling(gauge, air, Temperature::from_kelvin(line_k));
    // SAFETY: as the caller promises
    unsafe { property(refrigerant, of, ("subcooling_k", subcooling_k), error) }
}

/// Absolute pressure, Pa, of the standard atmosphere at an altitude, m. Where there is no answer `air_pa` is NaN.
///
/// # Safety
/// `air_pa` and `error` are NULL or point to variables.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn satline_air_pressure(
    altitude_m: f64,
    air_pa: *mut f64,
    error: *mut *mut SatlineError,
) -> SatlineStatus {
    let call = || {
        // SAFETY: as the caller promises
        let place = unsafe { variable("air_pa", air_pa, f64::NAN) }?;
        *place = air::pressure_at(Length::from_m(altitude_m))?.value().pa();
        Ok(())
    };
    // SAFETY: as the caller promises
    unsafe { answer(error, call) }
}
