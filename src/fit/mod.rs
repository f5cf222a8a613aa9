//! Fits a short saturation equation to a saturation table.
//!
//! [`Fitting`] takes a [`SaturationTable`], measured, printed or typed, and returns a [`Fit`]: coefficients for a
//! spreadsheet, the declared error, the worst row, outlying rows, the condition number of the problem and confidence
//! intervals. [`Fit::refrigerant`] makes a refrigerant of it. [`wagner`] makes the equations of the catalogue from
//! their equations of state.

mod fitting;
mod least_squares;
mod misfit;
mod table;

pub use fitting::{EXPONENT_SETS, Fit, Fitting};
#[doc(hidden)]
pub use rows::{Criterion, FitQuestion};
pub use table::SaturationTable;

/// Rows of a table and of a fit, and coefficients of a fit; these types may change in any version.
#[doc(hidden)]
pub mod rows {
    pub use crate::fit::fitting::{Coefficient, Criterion, FitQuestion, FittedRow};
    pub use crate::fit::misfit::Misfit;
    pub use crate::fit::table::TableRow;
}

use std::cmp::Ordering;

use nalgebra::{DMatrix, DVector};

use crate::saturation::{Accuracy, TERMS, Wagner};
use crate::{Error, Pressure, Quantity, Range, Source, Temperature, TemperatureDifference};

/// Exponents with which every line of the catalogue is fitted.
///
/// One set for all twelve pure fluids costs a factor of two to three in accuracy against the best set for each, and makes
/// the lines comparable and easy to type.
pub const EXPONENTS: [f64; TERMS] = [1.0, 1.5, 2.0, 2.5, 4.0, 7.0];

/// Reads a table in this crate's format: `#` header lines, column names, then one row per line.
///
/// `temperature` and `pressure` name the two columns; they are in K and Pa.
///
/// # Errors
/// [`Error::BadTable`] for a missing column, a field that is not a finite number, or no rows at all.
pub fn read_table(text: &str, temperature: &str, pressure: &str) -> Result<Vec<(Temperature, Pressure)>, Error> {
    let mut reader = csv::ReaderBuilder::new().comment(Some(b'#')).trim(csv::Trim::All).from_reader(text.as_bytes());
    let bad = |reason: String| Error::BadTable { reason };
    let head = reader.headers().map_err(|e| bad(e.to_string()))?.clone();
    let column = |name: &str| head.iter().position(|h| h == name).ok_or_else(|| bad(format!("no column {name:?}")));
    let (t_at, p_at) = (column(temperature)?, column(pressure)?);
    let mut rows = Vec::new();
    for record in reader.records() {
        let record = record.map_err(|e| bad(e.to_string()))?;
        let line = record.position().map_or(0, csv::Position::line);
        let number = |at: usize| match record[at].parse::<f64>() {
            Ok(number) if number.is_finite() => Ok(number),
            _ => Err(bad(format!("line {line}: {:?} is not a finite number", &record[at]))),
        };
        rows.push((Temperature::from_kelvin(number(t_at)?), Pressure::from_pa(number(p_at)?)));
    }
    if rows.is_empty() {
        return Err(bad("it has no rows".to_owned()));
    }
    Ok(rows)
}

/// Upper ends of the temperature bands whose accuracy is stated separately: −60 °C, −40 °C, 2 K below the critical
/// point, the critical point.
pub fn bands(critical: Temperature) -> [Temperature; 4] {
    [
        Temperature::from_celsius(-60.0),
        Temperature::from_celsius(-40.0),
        critical - TemperatureDifference::from_kelvins(2.0),
        critical,
    ]
}

/// Error allowed to a fit at `t`, relative to that from −40 °C to 2 K below the critical point.
///
/// Twice as much in the two neighbouring bands, where gauges do not go in service; below −60 °C five times as much, and
/// growing as the line steepens, so that it stays the same in kelvin.
fn allowed(t: f64, bands: &[Temperature; 4], steepness: f64) -> f64 {
    match bands.iter().position(|band| t <= band.kelvin()) {
        Some(0) => 5.0 * steepness,
        Some(2) => 1.0,
        _ => 2.0,
    }
}

/// One over the error allowed at `t`, in K.
fn level_scale(t: f64, bands: &[Temperature; 4]) -> f64 {
    // how steep ln p is against its steepness at −60 °C, by Clausius and Clapeyron: d ln p/dT ∝ 1/T²
    let steepness = (bands[0].kelvin() / t).powi(2).max(1.0);
    1.0 / allowed(t, bands, steepness)
}

/// Fits [`Wagner`]'s form to a table so that the largest weighted error is smallest.
///
/// ln(p/pc) T/Tc = Σ nᵢ θ^kᵢ is linear in nᵢ: weighted least squares by singular value decomposition, with the weights
/// raised where the error is large until it is level (Lawson's iteration). The same table gives the same coefficients.
///
/// The declared accuracy is the largest error over the rows of the table in each of the [`bands`], rounded up to two digits.
///
/// ```
/// use approx::assert_abs_diff_eq;
/// use satline::{fit, Refrigerant};
/// let table = include_str!("../../tables/equation/r134a.csv");
/// let rows = fit::read_table(table, "temperature_K", "pressure_Pa")?;
/// let shipped = Refrigerant::R134a.dew_line();
/// let critical = (shipped.critical_temperature, shipped.critical_pressure);
/// let line = fit::wagner(&rows, critical, &fit::EXPONENTS, shipped.source)?;
/// let t = satline::Temperature::from_celsius(5.0);
/// // coefficients of seven decimals
/// assert_abs_diff_eq!(line.pressure(t)?.pa() / shipped.pressure(t)?.pa(), 1.0, epsilon = 1e-7);
/// # Ok::<(), satline::Error>(())
/// ```
///
/// # Errors
/// [`Error::Impossible`] for a critical point or an exponent that is not valid; [`Error::BadTable`] for more exponents
/// than [`TERMS`], fewer rows than exponents, a row that is not finite and positive, at or above the critical
/// temperature, or no higher than the row before it, and for numbers that leave no finite solution;
/// [`Error::NotConverged`].
pub fn wagner(
    rows: &[(Temperature, Pressure)],
    critical: (Temperature, Pressure),
    exponents: &[f64],
    source: Source,
) -> Result<Wagner, Error> {
    check(rows, critical, exponents)?;
    let (critical_temperature, critical_pressure) = critical;
    let (tc, pc) = (critical_temperature.kelvin(), critical_pressure.pa());
    let bands = bands(critical_temperature);

    // one row of the linear problem: (Tc/T) θ^kᵢ and ln(p/pc), both over what is allowed
    let scale: Vec<f64> = rows.iter().map(|(t, _)| level_scale(t.kelvin(), &bands)).collect();
    let design = DMatrix::from_fn(rows.len(), exponents.len(), |i, j| {
        let t = rows[i].0.kelvin();
        scale[i] * tc / t * (1.0 - t / tc).powf(exponents[j])
    });
    let target = DVector::from_fn(rows.len(), |i, _| scale[i] * (rows[i].1.pa() / pc).ln());

    let coefficients = level(&design, &target)?;

    let mut terms = [(0.0, 1.0); TERMS];
    for (term, (&n, &k)) in terms.iter_mut().zip(coefficients.iter().zip(exponents)) {
        // seven decimals are as many as anybody types; what rounding costs is inside the declared error
        *term = ((n * 1e7).round() / 1e7, k);
    }
    let mut line = Wagner {
        critical_temperature,
        critical_pressure,
        terms,
        valid: Range::new(rows[0].0, critical_temperature),
        accuracy: bands.map(|up_to| Accuracy {
            up_to,
            pressure: 0.0,
            temperature: TemperatureDifference::from_kelvins(0.0),
        }),
        source,
    };
    line.accuracy = declared(&line, rows)?;
    Ok(line)
}

/// Minimax solution of `design × x = target` by Lawson's iteration.
fn level(design: &DMatrix<f64>, target: &DVector<f64>) -> Result<DVector<f64>, Error> {
    const ROUNDS: usize = 150;
    /// Largest number of steps; a hundred are plenty.
    const STEPS: usize = 10_000;
    /// Magnitude above which squares may overflow in a sum.
    const LARGEST: f64 = 1e150;
    if design.iter().chain(target).any(|x| x.abs().partial_cmp(&LARGEST) != Some(Ordering::Less)) {
        let reason = "its numbers are too large or too small to compute with: are temperatures in K, pressures in Pa?";
        return Err(Error::BadTable { reason: reason.to_owned() });
    }
    let singular = |reason: &str| Error::BadTable { reason: reason.to_owned() };
    let mut weights = DVector::from_element(target.len(), 1.0 / target.len() as f64);
    let mut best: Option<(f64, DVector<f64>)> = None;
    for _ in 0..ROUNDS {
        let root = weights.map(f64::sqrt);
        let weighted = DMatrix::from_fn(design.nrows(), design.ncols(), |i, j| root[i] * design[(i, j)]);
        let right = target.component_mul(&root);
        // nearly parallel columns: singular values down to 1e-14 of the largest still carry meaning here
        let svd = weighted.try_svd(true, true, f64::EPSILON, STEPS).ok_or(Error::NotConverged {
            solving: "singular values of a fit",
            steps: STEPS,
            residual: f64::NAN,
        })?;
        let x = svd.solve(&right, 1e-14 * svd.singular_values.max()).map_err(singular)?;
        let residual = (design * &x - target).abs();
        let largest = residual.max();
        if best.as_ref().is_none_or(|(least, _)| largest < *least) {
            best = Some((largest, x));
        }
        weights.component_mul_assign(&residual);
        let sum = weights.sum();
        if sum == 0.0 {
            break;
        }
        weights /= sum;
    }
    best.map(|(_, x)| x).ok_or_else(|| singular("no finite solution"))
}

/// Largest error of `line` over `rows` in each temperature band, rounded up to two digits.
///
/// # Errors
/// [`Error::OutOfRange`] for a row outside the line.
pub fn declared(line: &Wagner, rows: &[(Temperature, Pressure)]) -> Result<[Accuracy; 4], Error> {
    let mut accuracy = line.accuracy.map(|band| Accuracy {
        pressure: 0.0,
        temperature: TemperatureDifference::from_kelvins(0.0),
        ..band
    });
    let band_of = |t: Temperature| accuracy.iter().position(|band| t <= band.up_to).unwrap_or(3);
    let band: Vec<usize> = rows.iter().map(|&(t, _)| band_of(t)).collect();
    for (i, &(t, p)) in rows.iter().enumerate() {
        let fitted = line.pressure(t)?;
        let relative = (fitted.pa() / p.pa() - 1.0).abs();
        let kelvin = (fitted.pa() - p.pa()).abs() / line.slope_pa_per_kelvin(t)?;
        // between two rows on either side of a border the error reaches into both bands
        for near in [i.saturating_sub(1), i, (i + 1).min(rows.len() - 1)] {
            let band = &mut accuracy[band[near]];
            band.pressure = band.pressure.max(relative);
            band.temperature = TemperatureDifference::from_si(band.temperature.si().max(kelvin));
        }
    }
    Ok(accuracy.map(|band| Accuracy {
        pressure: round_up(band.pressure),
        temperature: TemperatureDifference::from_si(round_up(band.temperature.si())),
        ..band
    }))
}

/// `x` rounded up to two significant digits.
fn round_up(x: f64) -> f64 {
    if x == 0.0 {
        return 0.0;
    }
    let digits = 1 - x.log10().floor() as i32;
    // through text, so that the result is the number one would type
    format!("{:.0}e{}", (x * 10f64.powi(digits)).ceil(), -digits).parse().unwrap_or(x)
}

/// Largest exponent of a line, our choice: θ to a higher one vanishes but at the coldest rows.
const LARGEST_EXPONENT: f64 = 50.0;

/// Whether `k` may be an exponent of θ.
fn exponent(k: f64) -> Result<(), Error> {
    if k > 0.0 && k <= LARGEST_EXPONENT {
        return Ok(());
    }
    Err(Error::Impossible { what: "exponent of a saturation line", value: k, must: "above 0 and at most 50" })
}

/// Whether a line can be reduced with `critical`.
fn critical_point(temperature: Temperature, pressure: Pressure) -> Result<(), Error> {
    let positive = |x: f64| x > 0.0 && x.is_finite();
    let must = "above zero and finite; take it from the data sheet or the equation of state";
    if !positive(temperature.kelvin()) {
        return Err(Error::Impossible { what: "critical temperature (K)", value: temperature.kelvin(), must });
    }
    if !positive(pressure.pa()) {
        return Err(Error::Impossible { what: "critical pressure (Pa)", value: pressure.pa(), must });
    }
    Ok(())
}

fn check(rows: &[(Temperature, Pressure)], critical: (Temperature, Pressure), exponents: &[f64]) -> Result<(), Error> {
    let bad = |reason: String| Err(Error::BadTable { reason });
    if exponents.is_empty() || exponents.len() > TERMS {
        return bad(format!("{} exponents given, 1 to {TERMS} are possible", exponents.len()));
    }
    if rows.len() < exponents.len() {
        return bad(format!("{} rows cannot settle {} coefficients", rows.len(), exponents.len()));
    }
    critical_point(critical.0, critical.1)?;
    exponents.iter().try_for_each(|&k| exponent(k))?;
    for (i, row) in rows.iter().enumerate() {
        let (t, p) = (row.0.kelvin(), row.1.pa());
        if !(t > 0.0 && t.is_finite() && p > 0.0 && p.is_finite()) {
            return bad(format!("row {}: {t} K, {p} Pa is not a saturation point", i + 1));
        }
        if t >= critical.0.kelvin() {
            return bad(format!("row {}: {t} K is not below the critical temperature", i + 1));
        }
        if i > 0 && !(rows[i - 1].0 < row.0 && rows[i - 1].1 < row.1) {
            return bad(format!("row {}: {t} K, {p} Pa does not rise from the row before", i + 1));
        }
    }
    Ok(())
}
