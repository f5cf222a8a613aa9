//! Saturation, states of the equation, transport properties and moist air, of any refrigerant.

#![no_std]
#![no_main]

use satline::air::MoistAir;
use satline::quantity::{SpecificEnthalpy, SpecificEntropy};
use satline::{Error, Pressure, Ratio, Refrigerant, Temperature};
use satline_footprint as _;

#[no_mangle]
pub extern "C" fn _start(which: usize, property: u32, a: f64, b: f64) -> f64 {
    let Some(&r) = Refrigerant::ALL.get(which) else { return f64::NAN };
    of(r, property, a, b).unwrap_or(f64::NAN)
}

fn of(r: Refrigerant, property: u32, a: f64, b: f64) -> Result<f64, Error> {
    let (p, t) = (Pressure::from_kpa(a), Temperature::from_celsius(b));
    Ok(match property {
        0 => r.bubble_pressure(t)?.kpa(),
        1 => r.dew_pressure(t)?.kpa(),
        2 => r.bubble_temperature(p)?.celsius(),
        3 => r.dew_temperature(p)?.celsius(),
        4 => r.state(p, t)?.enthalpy().kj_per_kg(),
        5 => r.state(p, t)?.speed_of_sound_m_per_s(),
        6 => r.at_enthalpy(p, SpecificEnthalpy::from_kj_per_kg(b))?.density().kg_per_m3(),
        7 => r.at_entropy(p, SpecificEntropy::from_kj_per_kg_k(b))?.temperature().celsius(),
        8 => r.saturated_at_pressure(p)?.0.density.kg_per_m3(),
        9 => r.viscosity(t, r.state(p, t)?.density())?.upa_s(),
        10 => r.thermal_conductivity(&r.state(p, t)?)?.mw_per_m_k(),
        11 => r.surface_tension(t)?.mn_per_m(),
        _ => MoistAir::from_relative_humidity(t, Ratio::from_percent(a), Pressure::STANDARD_ATMOSPHERE)?.wet_bulb()?.celsius(),
    })
}
