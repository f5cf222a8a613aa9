//! The same for columns of a log, one answer a row.
//!
//! A row without an answer – a pressure below vacuum or above the critical one, a value that is NaN or out of range – gets NaN and costs
//! the others nothing; `answered` is the number of rows with an answer. Every answer is bit for bit that of the function for one value.

use satline::quantity::PressureUnit::Pascal;
use satline::quantity::TemperatureUnit::Kelvin;
use satline::{Error, Refrigerant};

use crate::arguments::{SatlineRefrigerant, columns, refrigerant, variable};
use crate::error::{SatlineError, SatlineStatus, answer};

/// A column to read: name, address, number of rows.
type Input<'a> = (&'a str, *const f64, usize);

/// Answers into the column `output` from the columns `inputs`.
///
/// # Safety
/// Each address that is not NULL is that of as many numbers as said; `answered` and `error` are NULL or point to variables.
unsafe fn column<const INPUTS: usize>(
    given: SatlineRefrigerant,
    inputs: [Input<'_>; INPUTS],
    output: (&str, *mut f64, usize),
    answered: *mut usize,
    error: *mut *mut SatlineError,
    fill: impl FnOnce(Refrigerant, [&[f64]; INPUTS], &mut [f64]) -> Result<usize, Error>,
) -> SatlineStatus {
    let call = || {
        if !answered.is_null() {
            // SAFETY: not NULL, as the caller promises
            unsafe { variable("answered", answered, 0) }?;
        }
        // SAFETY: as the caller promises
        let (inputs, output) = unsafe { columns(inputs, output) }?;
        let rows = fill(refrigerant(given)?, inputs, output)?;
        if !answered.is_null() {
            // SAFETY: not NULL, as the caller promises
            unsafe { answered.write(rows) };
        }
        Ok(())
    };
    // SAFETY: as the caller promises
    unsafe { answer(error, call) }
}

/// Dew-point temperatures, K, at absolute pressures, Pa.
///
/// # Safety
/// Both columns have `rows` numbers and do not overlap; with no rows they may be NULL. `answered` and `error` are NULL or point to
/// variables.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn satline_dew_temperatures(
    refrigerant: SatlineRefrigerant,
    absolute_pa: *const f64,
    kelvin: *mut f64,
    rows: usize,
    answered: *mut usize,
    error: *mut *mut SatlineError,
) -> SatlineStatus {
    let fill = |one: Refrigerant, [absolute]: [&[f64]; 1], kelvin: &mut [f64]| {
        one.dew_temperature_column((absolute, Pascal), (kelvin, Kelvin))
    };
    // SAFETY: as the caller promises
    unsafe {
        column(refrigerant, [("absolute_pa", absolute_pa, rows)], ("kelvin", kelvin, rows), answered, error, fill)
    }
}

/// Bubble-point temperatures, K, at absolute pressures, Pa.
///
/// # Safety
/// As of satline_dew_temperatures.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn satline_bubble_temperatures(
    refrigerant: SatlineRefrigerant,
    absolute_pa: *const f64,
    kelvin: *mut f64,
    rows: usize,
    answered: *mut usize,
    error: *mut *mut SatlineError,
) -> SatlineStatus {
    let fill = |one: Refrigerant, [absolute]: [&[f64]; 1], kelvin: &mut [f64]| {
        one.bubble_temperature_column((absolute, Pascal), (kelvin, Kelvin))
    };
    // SAFETY: as the caller promises
    unsafe {
        column(refrigerant, [("absolute_pa", absolute_pa, rows)], ("kelvin", kelvin, rows), answered, error, fill)
    }
}

/// Absolute dew-point pressures, Pa, at temperatures, K.
///
/// # Safety
/// As of satline_dew_temperatures.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn satline_dew_pressures(
    refrigerant: SatlineRefrigerant,
    kelvin: *const f64,
    absolute_pa: *mut f64,
    rows: usize,
    answered: *mut usize,
    error: *mut *mut SatlineError,
) -> SatlineStatus {
    let fill = |one: Refrigerant, [kelvin]: [&[f64]; 1], absolute: &mut [f64]| {
        one.dew_pressure_column((kelvin, Kelvin), (absolute, Pascal))
    };
    // SAFETY: as the caller promises
    unsafe {
        column(refrigerant, [("kelvin", kelvin, rows)], ("absolute_pa", absolute_pa, rows), answered, error, fill)
    }
}

/// Absolute bubble-point pressures, Pa, at temperatures, K.
///
/// # Safety
/// As of satline_dew_temperatures.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn satline_bubble_pressures(
    refrigerant: SatlineRefrigerant,
    kelvin: *const f64,
    absolute_pa: *mut f64,
    rows: usize,
    answered: *mut usize,
    error: *mut *mut SatlineError,
) -> SatlineStatus {
    let fill = |one: Refrigerant, [kelvin]: [&[f64]; 1], absolute: &mut [f64]| {
        one.bubble_pressure_column((kelvin, Kelvin), (absolute, Pascal))
    };
    // SAFETY: as the caller promises
    unsafe {
        column(refrigerant, [("kelvin", kelvin, rows)], ("absolute_pa", absolute_pa, rows), answered, error, fill)
    }
}

/// Superheats, K, of a suction line, as of satline_superheat. `air_pa` has `air_rows` numbers: one for each row, or one for all.
///
/// # Safety
/// The columns `gauge_pa`, `line_k` and `superheat_k` have `rows` numbers and `air_pa` has `air_rows`; the last of them overlaps none of
/// the others. With no rows a column may be NULL. `answered` and `error` are NULL or point to variables.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn satline_superheats(
    refrigerant: SatlineRefrigerant,
    gauge_pa: *const f64,
    air_pa: *const f64,
    air_rows: usize,
    line_k: *const f64,
    superheat_k: *mut f64,
    rows: usize,
    answered: *mut usize,
    error: *mut *mut SatlineError,
) -> SatlineStatus {
    let inputs = [("gauge_pa", gauge_pa, rows), ("air_pa", air_pa, air_rows), ("line_k", line_k, rows)];
    let fill = |one: Refrigerant, [gauge, air, line]: [&[f64]; 3], superheat: &mut [f64]| {
        one.superheat_column((gauge, Pascal), (air, Pascal), (line, Kelvin), superheat)
    };
    // SAFETY: as the caller promises
    unsafe { column(refrigerant, inputs, ("superheat_k", superheat_k, rows), answered, error, fill) }
}

/// Subcoolings, K, of a liquid line, as of satline_subcooling. `air_pa` has `air_rows` numbers: one for each row, or one for all.
///
/// # Safety
/// As of satline_superheats.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn satline_subcoolings(
    refrigerant: SatlineRefrigerant,
    gauge_pa: *const f64,
    air_pa: *const f64,
    air_rows: usize,
    line_k: *const f64,
    subcooling_k: *mut f64,
    rows: usize,
    answered: *mut usize,
    error: *mut *mut SatlineError,
) -> SatlineStatus {
    let inputs = [("gauge_pa", gauge_pa, rows), ("air_pa", air_pa, air_rows), ("line_k", line_k, rows)];
    let fill = |one: Refrigerant, [gauge, air, line]: [&[f64]; 3], subcooling: &mut [f64]| {
        one.subcooling_column((gauge, Pascal), (air, Pascal), (line, Kelvin), subcooling)
    };
    // SAFETY: as the caller promises
    unsafe { column(refrigerant, inputs, ("subcooling_k", subcooling_k, rows), answered, error, fill) }
}
