//! Superheat and subcooling of one refrigerant from gauge pressures.

#![no_std]
#![no_main]

use satline::{GaugePressure, Pressure, Refrigerant, Temperature, TemperatureDifference};
use satline_footprint as _;

#[no_mangle]
pub extern "C" fn _start(gauge: f64, air: f64, line: f64, high_side: bool) -> f64 {
    let (gauge, air) = (GaugePressure::from_kpa(gauge), Pressure::from_kpa(air));
    let line = Temperature::from_celsius(line);
    let r = Refrigerant::R134a;
    let found = if high_side { r.subcooling(gauge, air, line) } else { r.superheat(gauge, air, line) };
    found.map_or(f64::NAN, TemperatureDifference::kelvins)
}
