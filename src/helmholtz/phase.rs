//! Phase equilibrium of liquid and vapour: equal temperature, pressure and Gibbs energy.

use core::cmp::Ordering;

use super::{Equation, Isotherm, State};
#[cfg(not(feature = "std"))]
use crate::float::Float as _;
use crate::numeric::{bisect, increasing_root};
use crate::{Error, Pressure, Quantity, Temperature};

/// Smallest distance from the critical temperature at which phase equilibrium is computed, K.
///
/// Nearer, both densities merge faster than double precision can tell them apart.
const CLOSEST: f64 = 0.01;

/// Saturated liquid and saturated vapour in equilibrium at one temperature.
///
/// - **Equation** p(T, ρ′) = p(T, ρ″) and g(T, ρ′) = g(T, ρ″): Maxwell's construction.
/// - **Range** from the lower limit of the equation to 0.01 K below its critical point.
/// - **Accuracy** that of the equation; solved to the last few places.
///
/// ```
/// use approx::assert_abs_diff_eq;
/// use satline::helmholtz::terms::Equilibrium;
/// use satline::{Refrigerant, Temperature};
/// let equation = &Refrigerant::R134a.fluid().equation;
/// let both = Equilibrium::at(equation, Temperature::from_kelvin(300.0))?;
/// // Tillner-Roth & Baehr 1994, table 8
/// assert_abs_diff_eq!(both.pressure().mpa(), 0.70282, epsilon = 5e-6); // half its last digit
/// assert_abs_diff_eq!(both.liquid().density().kg_per_m3(), 1199.7, epsilon = 0.05); // half its last digit
/// # Ok::<(), satline::Error>(())
/// ```
#[derive(Debug, Clone, Copy)]
pub struct Equilibrium<'e> {
    liquid: State<'e>,
    vapour: State<'e>,
}

impl<'e> Equilibrium<'e> {
    /// Phase equilibrium at temperature `t`.
    ///
    /// Newton's method from the ancillary densities (after Akasaka, J. Therm. Sci. Technol. 3 (2008) 442, citation from
    /// memory); where it does not settle, the pressure is bracketed between the two spinodals, where the Gibbs energies
    /// must cross, and cannot be missed.
    ///
    /// # Errors
    /// [`Error::OutOfRange`] outside the range; [`Error::Impossible`] for a pseudo-pure equation, whose bubble and dew
    /// lines are published separately; [`Error::NotConverged`] if neither method settles.
    pub fn at(equation: &'e Equation, t: Temperature) -> Result<Self, Error> {
        if !equation.is_pure {
            return Err(Error::Impossible {
                what: "phase equilibrium of a pseudo-pure equation at (K)",
                value: t.kelvin(),
                must: "taken from its published bubble and dew lines",
            });
        }
        let (low, high) = (equation.limits.coldest, Self::hottest(equation));
        if !(low <= t && t <= high) {
            return Err(Error::OutOfRange {
                what: "saturation temperature",
                value: t.celsius(),
                low: low.celsius(),
                high: high.celsius(),
                unit: "°C",
            });
        }
        let isotherm = Isotherm::new(equation, t.kelvin());
        let ratio = t.kelvin() / equation.critical_temperature;
        let start = (equation.ancillary.liquid.delta(ratio), equation.ancillary.vapour.delta(ratio));
        let (liquid, vapour) = match newton(&isotherm, start) {
            Some(found) => found,
            None => between_spinodals(&isotherm, start)?,
        };
        Ok(Self { liquid: State::on(&isotherm, liquid), vapour: State::on(&isotherm, vapour) })
    }

    /// Highest temperature at which phase equilibrium is computed, 0.01 K below the critical point.
    pub fn hottest(equation: &Equation) -> Temperature {
        Temperature::from_kelvin(equation.critical_temperature - CLOSEST)
    }

    /// Saturation pressure.
    pub fn pressure(&self) -> Pressure {
        // of the vapour: the liquid's would lose its digits where the pressure is small
        self.vapour.pressure()
    }

    /// Slope dp/dT of the saturation line, Pa/K.
    pub fn slope_pa_per_kelvin(&self) -> f64 {
        // Clausius and Clapeyron: dp/dT = (s″ − s′)/(1/ρ″ − 1/ρ′)
        let entropy = self.vapour.entropy().si() - self.liquid.entropy().si();
        entropy / (1.0 / self.vapour.density().si() - 1.0 / self.liquid.density().si())
    }

    /// State of the saturated liquid.
    pub fn liquid(&self) -> &State<'e> {
        &self.liquid
    }

    /// State of the saturated vapour.
    pub fn vapour(&self) -> &State<'e> {
        &self.vapour
    }
}

/// Reduced pressure J = p/(ρr R T), its slope, and the part K of the Gibbs energy over R T that depends on density.
fn balance(isotherm: &Isotherm, delta: f64) -> (f64, f64, f64) {
    let [a, a_d, a_dd] = isotherm.along_density(delta);
    // J = δ (1 + δ αʳδ);  ∂J/∂δ = 1 + 2 δ αʳδ + δ² αʳδδ;  K = δ αʳδ + αʳ + ln δ;  ∂K/∂δ = (∂J/∂δ)/δ
    (delta * (1.0 + a_d), 1.0 + 2.0 * a_d + a_dd, a_d + a + delta.ln())
}

/// Newton's method for both densities at once; `None` when it does not settle on two stable phases.
fn newton(isotherm: &Isotherm, (mut liquid, mut vapour): (f64, f64)) -> Option<(f64, f64)> {
    let mut last = f64::INFINITY;
    for _ in 0..40 {
        let (j_l, dj_l, k_l) = balance(isotherm, liquid);
        let (j_v, dj_v, k_v) = balance(isotherm, vapour);
        if !(dj_l > 0.0 && dj_v > 0.0) {
            return None;
        }
        let (r_j, r_k) = (j_v - j_l, k_v - k_l);
        // the two linear equations solved so that small vapour densities lose no digits
        let apart = 1.0 - vapour / liquid;
        let step_l = (r_j - r_k * vapour) / apart / dj_l;
        let step_v = (r_j / liquid - r_k) / apart / dj_v;
        liquid += step_l.clamp(-0.1 * liquid, 0.1 * liquid);
        vapour *= 1.0 + step_v.clamp(-0.5, 1.0);
        let step = (step_l / liquid).abs().max(step_v.abs());
        if !step.is_finite() || liquid <= vapour {
            return None;
        }
        // settled once the steps no longer shrink
        if step < 1e-10 && step >= 0.5 * last || step < 1e-15 {
            return (liquid > vapour * (1.0 + 1e-6)).then_some((liquid, vapour));
        }
        last = step;
    }
    None
}

/// Pressure between the spinodals at which the two Gibbs energies are equal.
fn between_spinodals(isotherm: &Isotherm, (liquid, vapour): (f64, f64)) -> Result<(f64, f64), Error> {
    let slope = |delta: f64| balance(isotherm, delta).1;
    let lost = |residual: f64| Error::NotConverged { solving: "spinodal", steps: 2000, residual };
    // from well outside the two-phase region inwards to where the isotherm turns
    let inwards = |from: f64, step: f64| {
        let mut outside = from;
        for _ in 0..2000 {
            let inside = outside * step;
            if slope(inside) <= 0.0 {
                return Ok((outside, inside));
            }
            outside = inside;
        }
        Err(lost(slope(outside)))
    };
    let close_in = |(outside, inside): (f64, f64)| {
        // what is not a number is inside
        bisect(outside, inside, 0.0, |delta| slope(delta).partial_cmp(&0.0) != Some(Ordering::Greater)).0
    };
    let spinodal_v = close_in(inwards(0.5 * vapour.min(1.0), 1.002)?);
    let spinodal_l = close_in(inwards(1.1 * liquid.max(1.0), 0.999)?);
    let (top, bottom) = (balance(isotherm, spinodal_v).0, balance(isotherm, spinodal_l).0);

    let densest = isotherm.equation().limits.densest / isotherm.equation().reducing_density;
    let at = |j: f64| {
        let of = |low, high, start| {
            increasing_root("density", low, high, start, |delta| {
                let (j_here, slope, _) = balance(isotherm, delta);
                (j_here - j, slope)
            })
        };
        Ok::<_, Error>((of(spinodal_l, densest, liquid.max(spinodal_l))?, of(0.0, spinodal_v, vapour.min(spinodal_v))?))
    };
    // K″ − K′ rises with pressure: ∂(K″ − K′)/∂J = 1/δ″ − 1/δ′
    let low = bottom.max(1e-3 * top.min(balance(isotherm, vapour.min(spinodal_v)).0));
    let j = increasing_root("phase equilibrium", low, top, 0.5 * (low + top), |j| match at(j) {
        Ok((l, v)) => {
            let (.., k_l) = balance(isotherm, l);
            let (.., k_v) = balance(isotherm, v);
            (k_v - k_l, 1.0 / v - 1.0 / l)
        }
        Err(_) => (f64::NAN, f64::NAN),
    })?;
    let (l, v) = at(j)?;
    // what the root finder hands out may be an end of its bracket
    let residual = balance(isotherm, v).2 - balance(isotherm, l).2;
    if residual.abs() <= 1e-9 {
        Ok((l, v))
    } else {
        Err(Error::NotConverged { solving: "phase equilibrium", steps: 0, residual })
    }
}
