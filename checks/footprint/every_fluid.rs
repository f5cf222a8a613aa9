//! Saturation of any refrigerant, both ways.

#![no_std]
#![no_main]

use satline::{Pressure, Refrigerant, Temperature};
use satline_footprint as _;

#[no_mangle]
pub extern "C" fn _start(which: usize, value: f64, to_pressure: bool) -> f64 {
    let Some(r) = Refrigerant::ALL.get(which) else { return f64::NAN };
    if to_pressure {
        r.saturation_pressure(Temperature::from_celsius(value)).map_or(f64::NAN, Pressure::kpa)
    } else {
        r.saturation_temperature(Pressure::from_kpa(value)).map_or(f64::NAN, Temperature::celsius)
    }
}
