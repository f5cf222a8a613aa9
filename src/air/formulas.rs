//! Equations of moist air in bare SI numbers, for loops that evaluate them millions of times.
//!
//! Nothing is checked here; [`MoistAir`](super::MoistAir) checks what comes from outside. Humidity ratio `w` is in kg
//! of vapour per kg of dry air. The equations and their constants are those of [`ASHRAE`](super::ASHRAE).

use super::water::{saturation_pressure_and_slope, saturation_pressure_pa};
use crate::Error;
use crate::numeric::increasing_root;

/// 0 °C, K.
pub(crate) const FREEZING_K: f64 = 273.15;
/// Molar mass of water over that of dry air: 18.015268/28.966.
const MASS_RATIO: f64 = 0.621_945;
/// Specific gas constant of dry air, J/(kg K): [`ASHRAE`](super::ASHRAE), eq. 26, and its only definition in this
/// crate; that of the molar constants, 287.050, is 3×10⁻⁵ more.
pub(crate) const R_DRY: f64 = 287.042;
/// Specific heat capacity of dry air, kJ/(kg K).
const CP_DRY: f64 = 1.006;
/// Specific heat capacity of water vapour, kJ/(kg K).
const CP_VAPOUR: f64 = 1.86;
/// Specific enthalpy of saturated vapour at 0 °C, kJ/kg.
const VAPOUR_AT_ZERO: f64 = 2501.0;

/// Humidity ratio, W = 0.621945 pw/(p − pw).
#[inline]
pub(crate) fn humidity_ratio(vapour_pa: f64, pressure_pa: f64) -> f64 {
    MASS_RATIO * vapour_pa / (pressure_pa - vapour_pa)
}

/// Partial pressure of the vapour pw from the humidity ratio, Pa.
#[inline]
pub(crate) fn vapour_pressure_pa(w: f64, pressure_pa: f64) -> f64 {
    // pw = p W/(0.621945 + W)
    pressure_pa * w / (MASS_RATIO + w)
}

/// Enthalpy of moist air per kg of dry air, J; zero for dry air and for liquid water at 0 °C.
#[inline]
pub(crate) fn enthalpy_j_per_kg_dry(t_c: f64, w: f64) -> f64 {
    // h = 1.006 t + W (2501 + 1.86 t), kJ
    1e3 * (CP_DRY * t_c + w * (VAPOUR_AT_ZERO + CP_VAPOUR * t_c))
}

/// Enthalpy of saturated air per kg of dry air, J: the potential that drives heat and water to a wet surface of that
/// temperature.
#[inline]
pub(crate) fn saturated_enthalpy_j_per_kg_dry(t_k: f64, pressure_pa: f64) -> f64 {
    enthalpy_j_per_kg_dry(t_k - FREEZING_K, humidity_ratio(saturation_pressure_pa(t_k), pressure_pa))
}

/// Mass of dry air per volume of moist air, kg/m³.
#[inline]
pub(crate) fn dry_density(t_k: f64, w: f64, pressure_pa: f64) -> f64 {
    // 1/v = p/[0.287042 T (1 + 1.607858 W)]; 1.607858 is 1/0.621945 to its last digit but one
    pressure_pa / (R_DRY * t_k * (1.0 + w / MASS_RATIO))
}

/// Water or ice on the wet bulb: its heat of evaporation at t* is `heat − fall·t*` in kJ/kg, its heat capacity `own` in
/// kJ/(kg K).
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Wick {
    heat: f64,
    fall: f64,
    own: f64,
}

impl Wick {
    /// Liquid water: hw* = 4.186 t*.
    pub(crate) const WATER: Self = Self { heat: 2501.0, fall: 2.326, own: 4.186 };
    /// Ice: hw* = −329 + 2.1 t*.
    pub(crate) const ICE: Self = Self { heat: 2830.0, fall: 0.24, own: 2.1 };

    /// Humidity ratio of air at `t_c` with wet bulb `wet_c`; negative where no air is as dry as that.
    pub(crate) fn humidity_ratio(self, t_c: f64, wet_c: f64, pressure_pa: f64) -> f64 {
        let saturated = humidity_ratio(saturation_pressure_pa(wet_c + FREEZING_K), pressure_pa);
        // W = [(2501 − 2.326 t*) Ws* − 1.006 (t − t*)]/(2501 + 1.86 t − 4.186 t*), over ice 2830, 0.24 and 2.1
        ((self.heat - self.fall * wet_c) * saturated - CP_DRY * (t_c - wet_c))
            / (self.heat + CP_VAPOUR * t_c - self.own * wet_c)
    }

    /// Excess of water in the air at `t_c` and `w` for a wet bulb of `wet_k`, and its slope: the equation of
    /// [`Wick::humidity_ratio`] multiplied by its denominator, so that nothing grows without bound at boiling.
    fn balance(self, t_c: f64, w: f64, pressure_pa: f64, wet_k: f64) -> (f64, f64) {
        let wet_c = wet_k - FREEZING_K;
        let (ps, slope) = saturation_pressure_and_slope(wet_k);
        let evaporation = MASS_RATIO * (self.heat - self.fall * wet_c);
        let air = CP_DRY * (t_c - wet_c) + w * (self.heat + CP_VAPOUR * t_c - self.own * wet_c);
        (
            evaporation * ps - (pressure_pa - ps) * air,
            evaporation * slope - MASS_RATIO * self.fall * ps
                + slope * air
                + (pressure_pa - ps) * (CP_DRY + w * self.own),
        )
    }

    /// Wet-bulb temperature between `low` and `high` at which the balance closes, K.
    fn solve(self, t_c: f64, w: f64, pressure_pa: f64, low: f64, high: f64) -> Result<f64, Error> {
        increasing_root("wet bulb", low, high, high, |wet_k| self.balance(t_c, w, pressure_pa, wet_k))
    }
}

/// Wet-bulb temperature of air at `t_k` and `w`, K: that of `first` if it lies on its side of 0 °C, else that of the
/// other.
///
/// `boiling_k` is the boiling point at that pressure, above which no bulb is wet.
pub(crate) fn wet_bulb_k(first: Wick, t_k: f64, w: f64, pressure_pa: f64, boiling_k: f64) -> Result<f64, Error> {
    /// Temperature below every wet bulb of air of −100 °C, K.
    const LOWEST: f64 = 150.0;
    let t_c = t_k - FREEZING_K;
    let high = t_k.min(boiling_k);
    if high < FREEZING_K {
        return Wick::ICE.solve(t_c, w, pressure_pa, LOWEST, high);
    }
    // the balance grows with the bulb: its sign at 0 °C tells on which side of it the bulb is
    let wet = Wick::WATER.balance(t_c, w, pressure_pa, FREEZING_K).0 <= 0.0;
    let frozen = Wick::ICE.balance(t_c, w, pressure_pa, FREEZING_K).0 >= 0.0;
    if wet && !(frozen && first == Wick::ICE) {
        Wick::WATER.solve(t_c, w, pressure_pa, FREEZING_K, high)
    } else {
        Wick::ICE.solve(t_c, w, pressure_pa, LOWEST, FREEZING_K)
    }
}

#[cfg(test)]
mod tests {
    use approx::{abs_diff_eq, assert_abs_diff_eq};

    use super::*;

    /// By central differences over 2 mK, whose error is far below a millionth of the slope.
    #[test]
    fn the_slope_of_the_balance_is_that_of_its_excess() {
        for (wick, wet_k) in [(Wick::WATER, 275.0), (Wick::WATER, 303.0), (Wick::WATER, 340.0), (Wick::ICE, 262.0)] {
            for (t_c, w, pressure) in [(45.0, 0.004, 101_325.0), (30.0, 0.012, 70_000.0)] {
                let excess = |wet_k: f64| wick.balance(t_c, w, pressure, wet_k).0;
                let step = 1e-3;
                let difference = (excess(wet_k + step) - excess(wet_k - step)) / (2.0 * step);
                let (_, slope) = wick.balance(t_c, w, pressure, wet_k);
                // the error of the difference
                assert!(abs_diff_eq!(slope / difference, 1.0, epsilon = 1e-6), "{wet_k} K: {slope}, not {difference}");
            }
        }
    }

    /// Near 0 °C air has a wet bulb of water above and one of ice below: the wick that is asked for decides.
    #[test]
    fn near_freezing_either_wick_has_its_own_wet_bulb() {
        let (t_c, pressure, boiling) = (5.0, 101_325.0, 373.0);
        for (wick, other, wet_c) in [(Wick::WATER, Wick::ICE, 0.2), (Wick::ICE, Wick::WATER, -0.2)] {
            let w = wick.humidity_ratio(t_c, wet_c, pressure);
            let bulb = |first: Wick| wet_bulb_k(first, t_c + FREEZING_K, w, pressure, boiling).unwrap() - FREEZING_K;
            // what the solver leaves
            assert_abs_diff_eq!(bulb(wick), wet_c, epsilon = 1e-6);
            assert!(bulb(other) * wet_c < 0.0, "on the other side of 0 °C: {}", bulb(other));
            assert_abs_diff_eq!(other.humidity_ratio(t_c, bulb(other), pressure), w, epsilon = 1e-9);
        }
    }
}
