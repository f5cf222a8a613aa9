//! Cabin: where the air at the evaporator comes from.
//!
//! With fresh air the evaporator draws outside air. On recirculation it draws cabin air, a mix of outside air and air
//! that has left the evaporator; how much of each depends on what lets warmth and moisture into the cabin.
//!
//! - **Heat** G (T_out − T_in) + Q = ṁ cₚ (T_in − T_vent), with G = (UA)_body + ṁ_leak cₚ + (UA)_interior e^(−t/τ), Q the
//!   heat of people and T_vent = T_off + ΔT_duct. So T_in = (1 − ρ) T* + ρ T_off, ρ = ṁ cₚ/(ṁ cₚ + G) and
//!   T* = T_out + (Q + ṁ cₚ ΔT_duct)/G.
//! - **Moisture** ṁ_w (w_out − w_in) + ṁ_people = ṁ (w_in − w_off), with ṁ_w = ṁ_leak + g e^(−t/τ_w). So
//!   w_in = (1 − ρ_w) w* + ρ_w w_off, ρ_w = ṁ/(ṁ + ṁ_w) and w* = w_out + ṁ_people/ṁ_w.
//! - **Pull-down** the interior, at first as warm as outside, cools towards the cabin air as one body, τ = C/(UA). With a cabin
//!   temperature that changes slowly against τ it still gives (UA) (T_out − T_in) e^(−t/τ): a conductance that decays.
//!   Its textiles, at first as damp as outside air, dry in the same way: g by the analogy of heat and mass transfer (Lewis),
//!   τ_w = M/g with M the mass of air that holds as much more water for a step of its humidity ratio. The equations are our
//!   choice. The air itself follows within a minute and is taken as steady.
//! - **Leakage** grows with the driving speed v as 1 + v/20 km/h; our choice, between the measurements of Ott, Klepeis &
//!   Switzer, J. Exposure Sci. Environ. Epidemiol. 18 (2008) 312 and Knibbs, de Dear & Atkinson, Indoor Air 19 (2009) 303
//!   (abstracts read).
//! - **Left out** sun, heat from the engine through the firewall, water on wet fins that evaporates again; the blower moves the
//!   mass that it would of outside air, up to 7 % less than of cool cabin air.

use super::evaporator::AirSide;
use super::operation::{Intake, Motion, Settings};
use super::sizes::EvaporatorAir;

/// Heat that one person at rest gives to the air, W (ASHRAE Fundamentals, heat gain of people seated at very light work; from
/// memory).
const PERSON_W: f64 = 70.0;
/// Water that one person at rest gives to the air, kg/s: 45 W latent (as [`PERSON_W`], from memory) over the heat of evaporation at
/// 21 °C, 2.45 MJ/kg (ASHRAE Fundamentals 2017, ch. 1: 2501 − 2.4 t).
const PERSON_KG_PER_S: f64 = 45.0 / 2.45e6;
/// Driving speed at which leakage has doubled, km/h; our choice.
const LEAKAGE_DOUBLES_AT: f64 = 20.0;
/// Least leakage of a cabin, kg/s, so that its balances have a solution: a hundred thousandth of the air flow; our choice.
const LEAST_LEAKAGE: f64 = 1e-6;
/// Least conductance of a cabin, W/K: that of the least leakage, in round numbers; our choice.
const LEAST_CONDUCTANCE: f64 = 1e-3;

/// Outside air, and the part of it that the blower moves.
#[derive(Debug, Clone, Copy)]
pub(super) struct OutsideAir {
    /// Temperature, K.
    pub(super) t: f64,
    /// Humidity ratio.
    pub(super) w: f64,
    /// Pressure, Pa.
    pub(super) p: f64,
    /// Density, kg/m³ of dry air.
    pub(super) density: f64,
    /// Heat capacity, J/(K kg of dry air).
    pub(super) cp: f64,
    /// Dry air through the evaporator, kg/s.
    pub(super) flow: f64,
}

/// What lets warmth and moisture into a cabin.
#[derive(Debug, Clone, Copy)]
struct Openings {
    /// Outside air that changes places with cabin air, and air that damp textiles stand for, kg/s.
    moist: f64,
    /// Conductance between outside and cabin air, W/K: body, leakage and warm interior.
    conductance: f64,
}

impl Openings {
    fn of(air: &EvaporatorAir, volume_per_s: f64, minutes: Option<u16>, motion: Motion, outside: &OutsideAir) -> Self {
        let faster = match motion {
            Motion::Standing => 1.0,
            Motion::Driving(speed) => 1.0 + speed / LEAKAGE_DOUBLES_AT,
        };
        let leakage = (outside.density * volume_per_s * faster).max(LEAST_LEAKAGE);
        // k e^(−t/τ), τ = C/k
        let left = |conductance: f64, capacity: f64| {
            minutes.map_or(0.0, |t| conductance * (-60.0 * f64::from(t) * conductance / capacity).exp())
        };
        let interior = left(air.interior_w_per_k, air.interior_j_per_k);
        let textiles = left(air.textile_kg_per_s, air.textile_kg);
        Self {
            moist: leakage + textiles,
            conductance: (air.body_w_per_k + leakage * outside.cp + interior).max(LEAST_CONDUCTANCE),
        }
    }
}

/// The air side of the evaporator of a circuit with `air` under `settings`.
pub(super) fn air_side(air: &EvaporatorAir, settings: &Settings, outside: &OutsideAir) -> AirSide {
    let OutsideAir { t, w, p, flow, .. } = *outside;
    let unmixed = |returned| AirSide { t, w, p, flow, returned_heat: returned, returned_water: returned, mixed: 0.0 };
    let (volume_per_s, minutes) = match settings.intake {
        Intake::Fresh => return unmixed(0.0),
        Intake::DoorsOpen => return unmixed(air.returned),
        Intake::WindowOpen { minutes } => (air.leakage_m3_per_s + air.window_m3_per_s, minutes),
        Intake::Shut { minutes } => (air.leakage_m3_per_s, minutes),
    };
    let Openings { moist, conductance } = Openings::of(air, volume_per_s, minutes, settings.motion, outside);
    let rate = flow * outside.cp;
    AirSide {
        // T* = T_out + (Q + ṁ cₚ ΔT_duct)/G
        t: t + (PERSON_W * air.people + rate * air.duct_k) / conductance,
        // w* = w_out + ṁ_people/ṁ_w
        w: w + PERSON_KG_PER_S * air.people / moist,
        p,
        flow,
        returned_heat: rate / (rate + conductance),
        returned_water: flow / (flow + moist),
        mixed: 1.0,
    }
}

#[cfg(test)]
mod tests {
    use approx::{abs_diff_eq, assert_abs_diff_eq};

    use super::*;
    use crate::circuit::kind::CircuitKind;
    use crate::circuit::sizes::Circuit;
    use crate::{Ratio, Refrigerant};

    const OUTSIDE: OutsideAir = OutsideAir { t: 311.15, w: 0.016, p: 101_325.0, density: 1.11, cp: 1036.0, flow: 0.12 };

    fn settings(intake: Intake) -> Settings {
        Settings { intake, blower: Ratio::from_fraction(1.0), ..Settings::TEST }
    }

    fn cabin() -> EvaporatorAir {
        Circuit::mid_range(CircuitKind::main(Refrigerant::R134a)[0]).unwrap().evaporator_air
    }

    #[test]
    fn a_mix_closes_both_balances() {
        for minutes in [None, Some(0), Some(10)] {
            let air = cabin();
            let side = air_side(&air, &settings(Intake::Shut { minutes }), &OUTSIDE);
            let (t_off, w_off) = (282.0, 0.006);
            let t_in = (1.0 - side.returned_heat) * side.t + side.returned_heat * t_off;
            let w_in = (1.0 - side.returned_water) * side.w + side.returned_water * w_off;
            let leakage = OUTSIDE.density * air.leakage_m3_per_s;
            let tau = air.interior_j_per_k / air.interior_w_per_k;
            let interior = minutes.map_or(0.0, |m| air.interior_w_per_k * (-60.0 * f64::from(m) / tau).exp());
            let inwards = (air.body_w_per_k + leakage * OUTSIDE.cp + interior) * (OUTSIDE.t - t_in) + 70.0 * air.people;
            let taken = OUTSIDE.flow * OUTSIDE.cp * (t_in - t_off - air.duct_k);
            // the same few terms in another order: rounding
            assert!(abs_diff_eq!(inwards / taken, 1.0, epsilon = 1e-12), "{minutes:?}: {inwards} and {taken} W");
            let textiles = minutes.map_or(0.0, |m| {
                air.textile_kg_per_s * (-60.0 * f64::from(m) * air.textile_kg_per_s / air.textile_kg).exp()
            });
            let inwards = (leakage + textiles) * (OUTSIDE.w - w_in) + PERSON_KG_PER_S * air.people;
            let taken = OUTSIDE.flow * (w_in - w_off);
            // the same few terms in another order: rounding
            assert!(abs_diff_eq!(inwards / taken, 1.0, epsilon = 1e-12), "{minutes:?}: {inwards} and {taken} kg/s");
        }
    }

    #[test]
    fn an_interior_that_has_cooled_is_as_good_as_none() {
        let at = |minutes| air_side(&cabin(), &settings(Intake::Shut { minutes }), &OUTSIDE);
        // e^(−36 000 s/τ) of what the interior gives off is left: rounding
        assert_abs_diff_eq!(at(Some(600)).returned_heat, at(None).returned_heat, epsilon = 1e-12);
        assert!(at(Some(0)).returned_heat < at(Some(10)).returned_heat);
        assert!(at(Some(10)).returned_heat < at(None).returned_heat);
    }

    #[test]
    fn driving_and_windows_let_more_in() {
        let of = |intake, motion| air_side(&cabin(), &Settings { motion, ..settings(intake) }, &OUTSIDE).returned_water;
        let shut = Intake::Shut { minutes: None };
        assert!(of(shut, Motion::Driving(50.0)) < of(shut, Motion::Standing));
        assert!(of(Intake::WindowOpen { minutes: None }, Motion::Standing) < of(shut, Motion::Standing));
    }
}
