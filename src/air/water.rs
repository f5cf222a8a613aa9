//! Saturation of water: over liquid down to the triple point, over ice below it.

#[cfg(not(feature = "std"))]
use crate::float::Float as _;
use crate::numeric::nearly_straight_root;
use crate::{Error, Pressure, Range, Source, Temperature, Trust};

/// Source of the saturation line over liquid water.
pub const LIQUID: Source = Source {
    work: "Wagner & Pruss, J. Phys. Chem. Ref. Data 22 (1993) 783, appendix: IAPWS SR1-86(1992)",
    locator: "eq. 1",
    doi: Some("10.1063/1.555926"),
    trust: Trust::Secondary,
};

/// Source of the saturation line over ice.
pub const ICE: Source = Source {
    work: "Wagner, Riethmann, Feistel & Harvey, J. Phys. Chem. Ref. Data 40 (2011) 043103: IAPWS R14-08(2011)",
    locator: "sublimation pressure",
    doi: Some("10.1063/1.3657937"),
    trust: Trust::Secondary,
};

/// Triple-point temperature of water, where the line of ice meets that of liquid.
pub const TRIPLE_POINT: Temperature = Temperature::from_kelvin(TRIPLE_K);

/// Range of validity of the saturation lines of water and ice: from 50 K, the lower end of [`ICE`], to the critical
/// point of [`LIQUID`].
pub const RANGE: Range<Temperature> =
    Range::new(Temperature::from_kelvin(LOWEST_K), Temperature::from_kelvin(CRITICAL_K));

/// Lower end of the line of ice, K.
const LOWEST_K: f64 = 50.0;
/// Triple-point temperature, K.
const TRIPLE_K: f64 = 273.16;
/// Triple-point pressure, Pa, with which the line of ice is reduced.
const TRIPLE_PA: f64 = 611.657;
/// Critical temperature, K.
const CRITICAL_K: f64 = 647.096;
/// Critical pressure, Pa.
const CRITICAL_PA: f64 = 22.064e6;

/// Saturation pressure of water at temperature `t`: the absolute pressure at which it boils, or at which ice neither
/// grows nor shrinks.
///
/// - **Equation** from 273.16 K on, over liquid: ln(p/pc) = (Tc/T) (a₁τ + a₂τ^1.5 + a₃τ³ + a₄τ^3.5 + a₅τ⁴ + a₆τ^7.5),
///   τ = 1 − T/Tc; below, over ice: ln(p/pt) = θ⁻¹ Σ aᵢ θ^bᵢ, θ = T/Tt; p in Pa absolute, T in K (ITS-90).
/// - **Range** [`RANGE`], 50 K to 647.096 K.
/// - **Accuracy** over liquid within 0.008 % of the scientific standard IAPWS-95. The two lines meet at the triple point
///   within 0.000 07 Pa.
/// - **Source** [`LIQUID`], [`ICE`].
///
/// ```
/// use approx::assert_abs_diff_eq;
/// use satline::{Temperature, air::water};
/// let boiling = water::saturation_pressure(Temperature::from_kelvin(373.1243))?;
/// assert_abs_diff_eq!(boiling.kpa(), 101.325, epsilon = 0.0005); // table 1 of the release, half its last digit
/// let frost = water::saturation_pressure(Temperature::from_kelvin(230.0))?;
/// assert_abs_diff_eq!(frost.pa(), 8.94735, epsilon = 0.000005); // table 3 of the release, half its last digit
/// # Ok::<(), satline::Error>(())
/// ```
///
/// # Errors
/// [`Error::OutOfRange`] outside [`RANGE`].
pub fn saturation_pressure(t: Temperature) -> Result<Pressure, Error> {
    if !RANGE.contains(t) {
        return Err(Error::OutOfRange {
            what: "saturation temperature of water",
            value: t.celsius(),
            low: RANGE.low.celsius(),
            high: RANGE.high.celsius(),
            unit: "°C",
        });
    }
    Ok(Pressure::from_pa(saturation_pressure_pa(t.kelvin())))
}

/// Saturation temperature of water at absolute pressure `p`: its boiling point, or below 611.657 Pa its frost point.
///
/// The inverse of [`saturation_pressure`], solved by bracketed Newton steps in 1/T to the last places of T. Between the two
/// lines, which miss each other at the triple point by 0.000 07 Pa, it returns the triple point.
///
/// ```
/// use satline::{Pressure, air::water};
/// let t = water::saturation_temperature(Pressure::from_microns(500.0))?;
/// assert_eq!(format!("{:.1}", t.celsius()), "-24.5"); // ice: at 500 microns no liquid water is left
/// # Ok::<(), satline::Error>(())
/// ```
///
/// # Errors
/// [`Error::OutOfRange`] for a pressure that is not that of any temperature in [`RANGE`].
pub fn saturation_temperature(p: Pressure) -> Result<Temperature, Error> {
    let low = saturation_pressure_pa(LOWEST_K);
    if !(low <= p.pa() && p.pa() <= CRITICAL_PA) {
        return Err(Error::OutOfRange {
            what: "saturation pressure of water",
            value: p.kpa(),
            low: low / 1e3,
            high: CRITICAL_PA / 1e3,
            unit: "kPa",
        });
    }
    if p.pa() <= TRIPLE_PA {
        invert(ice, p.pa() / TRIPLE_PA, LOWEST_K, TRIPLE_K)
    } else if p.pa() >= saturation_pressure_pa(TRIPLE_K) {
        invert(liquid, p.pa() / CRITICAL_PA, TRIPLE_K, CRITICAL_K)
    } else {
        Ok(TRIPLE_POINT)
    }
}

/// Saturation pressure in Pa at `t` in K, over ice below the triple point; for loops that evaluate it millions of
/// times.
///
/// Not checked: below 50 K it extrapolates, above the critical point it is not a number.
#[inline]
pub(crate) fn saturation_pressure_pa(t: f64) -> f64 {
    if t >= TRIPLE_K { CRITICAL_PA * liquid(t).0.exp() } else { TRIPLE_PA * ice(t).0.exp() }
}

/// Saturation pressure in Pa at `t` in K and its slope in Pa/K. Not checked, as [`saturation_pressure_pa`].
#[inline]
pub(crate) fn saturation_pressure_and_slope(t: f64) -> (f64, f64) {
    let (reference, (log, slope)) = if t >= TRIPLE_K { (CRITICAL_PA, liquid(t)) } else { (TRIPLE_PA, ice(t)) };
    let p = reference * log.exp();
    (p, p * slope)
}

/// Over liquid: ln(p/pc) and d ln p/dT in 1/K.
#[inline]
fn liquid(t: f64) -> (f64, f64) {
    const A: [f64; 6] = [-7.859_517_83, 1.844_082_59, -11.786_649_7, 22.680_741_1, -15.961_871_9, 1.801_225_02];
    let tau = 1.0 - t / CRITICAL_K;
    let root = tau.sqrt();
    let square = tau * tau;
    let sixth = square * square * square;
    // ln(p/pc) = (Tc/T) (a₁τ + a₂τ^1.5 + a₃τ³ + a₄τ^3.5 + a₅τ⁴ + a₆τ^7.5)
    let sum = A[0] + A[1] * root + square * (A[2] + A[3] * root + A[4] * tau) + A[5] * sixth * root;
    let log = CRITICAL_K / t * tau * sum;
    // d ln p/dT = −[ln(p/pc) + Σ aᵢ kᵢ τ^(kᵢ−1)]/T
    let steep = A[0]
        + 1.5 * A[1] * root
        + square * (3.0 * A[2] + 3.5 * A[3] * root + 4.0 * A[4] * tau)
        + 7.5 * A[5] * sixth * root;
    (log, -(log + steep) / t)
}

/// Over ice: ln(p/pt) and d ln p/dT in 1/K.
#[inline]
fn ice(t: f64) -> (f64, f64) {
    const TERMS: [(f64, f64); 3] =
        [(-21.214_400_6, 0.003_333_333_33), (27.320_381_9, 1.206_666_67), (-6.105_981_30, 1.703_333_33)];
    let log_theta = (t / TRIPLE_K).ln();
    let (mut log, mut slope) = (0.0, 0.0);
    for (a, b) in TERMS {
        // ln(p/pt) = θ⁻¹ Σ aᵢ θ^bᵢ
        let term = a * ((b - 1.0) * log_theta).exp();
        log += term;
        slope += (b - 1.0) * term / t;
    }
    (log, slope)
}

/// Temperature between `low` and `high` in K at which `line` reaches the reduced pressure `reduced`.
fn invert(line: fn(f64) -> (f64, f64), reduced: f64, low: f64, high: f64) -> Result<Temperature, Error> {
    let target = reduced.ln();
    // 1/(1/T) may miss an end of the range by its last place
    let kelvin = |x: f64| (-1.0 / x).clamp(low, high);
    // x = −1/T increases with T, and ln p is nearly straight in it; d ln p/dx = T² d ln p/dT
    let x = nearly_straight_root("saturation temperature of water", -1.0 / low, -1.0 / high, |x| {
        let t = kelvin(x);
        let (log, slope) = line(t);
        (log - target, slope * t * t)
    })?;
    Ok(Temperature::from_kelvin(kelvin(x)))
}
