//! Saturation: what a pressure says about a temperature.
//!
//! # One pressure, one temperature
//!
//! Refrigerant boils in the evaporator and becomes liquid again in the condenser. While liquid and vapour are together,
//! the pressure fixes the temperature, and the temperature fixes the pressure. That pair is called saturation. At 0 °C
//! it is 292.8 kPa for R-134a and 315.9 kPa for R-1234yf, both above vacuum. How well an equation knows its fluid, to a
//! tenth of a percent of pressure or so (from memory), is not in such figures. In the open R-134a boils at −26.1 °C:
//! that is why a splash of it freezes skin and eyes. Put on goggles and gloves before you loosen a hose.
//!
//! ```
//! use satline::{Pressure, Refrigerant, Temperature};
//! let ice = Temperature::from_celsius(0.0);
//! assert_eq!(format!("{:.1} kPa", Refrigerant::R134a.saturation_pressure(ice)?.kpa()), "292.8 kPa");
//! assert_eq!(format!("{:.1} kPa", Refrigerant::R1234yf.saturation_pressure(ice)?.kpa()), "315.9 kPa");
//! let open = Refrigerant::R134a.saturation_temperature(Pressure::STANDARD_ATMOSPHERE)?;
//! assert_eq!(format!("{:.1} °C", open.celsius()), "-26.1 °C");
//! # Ok::<(), satline::Error>(())
//! ```
//!
//! # Absolute and gauge
//!
//! A gauge counts from the air around it, an equation counts from vacuum. At sea level the air adds 101.3 kPa. So 32
//! psi on the gauge is 322.0 kPa absolute, and R-134a boils there at 2.6 °C. Whoever takes the 32 psi for absolute gets
//! −7.6 °C and looks for ice that is not there. In this crate the two are different types and do not mix.
//!
//! ```
//! use satline::{GaugePressure, Pressure, Refrigerant};
//! let (r, air) = (Refrigerant::R134a, Pressure::STANDARD_ATMOSPHERE);
//! assert_eq!(format!("{:.1} kPa", air.kpa()), "101.3 kPa");
//! let low = GaugePressure::from_psi(32.0).absolute(air);
//! assert_eq!(format!("{:.1} kPa", low.kpa()), "322.0 kPa");
//! assert_eq!(format!("{:.1} °C", r.saturation_temperature(low)?.celsius()), "2.6 °C");
//! let mistaken = r.saturation_temperature(Pressure::from_psi(32.0))?;
//! assert_eq!(format!("{:.1} °C", mistaken.celsius()), "-7.6 °C");
//! # Ok::<(), satline::Error>(())
//! ```
//!
//! # Altitude
//!
//! Higher up the air is thinner and the same gauge reading is a lower pressure. At 1500 m the air has 84.6 kPa, ± 1.8
//! kPa for the weather. There 32 psi means boiling at 1.1 °C, 1.5 K colder than at sea level. On the high side, at 185
//! psi, the same altitude makes only 0.5 K, because there the pressure rises faster with temperature.
//!
//! ```
//! use satline::{GaugePressure, Length, Pressure, Refrigerant, air};
//! let (r, up) = (Refrigerant::R134a, air::pressure_at(Length::from_m(1500.0))?);
//! assert_eq!(format!("{:.1} ± {:.1} kPa", up.value().kpa(), up.expanded().kpa()), "84.6 ± 1.8 kPa");
//! let boils = |psi, air| r.saturation_temperature(GaugePressure::from_psi(psi).absolute(air));
//! let (sea, here) = (boils(32.0, Pressure::STANDARD_ATMOSPHERE)?, boils(32.0, up.value())?);
//! assert_eq!(format!("{:.1} °C, {:.1} K", here.celsius(), (sea - here).kelvins()), "1.1 °C, 1.5 K");
//! let high = boils(185.0, Pressure::STANDARD_ATMOSPHERE)? - boils(185.0, up.value())?;
//! assert_eq!(format!("{:.1} K", high.kelvins()), "0.5 K");
//! # Ok::<(), satline::Error>(())
//! ```
//!
//! # Two gauges are two thermometers
//!
//! The low side tells at what temperature the refrigerant boils, the high side at what temperature it condenses. Each
//! is only as good as its gauge. A usual analogue pair at 32 psi and 185 psi says 2.6 ± 1.8 °C and 51.8 ± 1.9 °C. The
//! short formula behind it is off by 0.0016 K at most: the gauge decides, not the formula. Where a line carries vapour
//! alone or liquid alone, the gauge does not tell its temperature; then a thermometer on the line must
//! ([`superheat`](super::superheat)).
//!
//! ```
//! use satline::window::{Engine, Entry, Instruments};
//! use satline::{Refrigerant, line::Saturation, line::absolute};
//! let r = Refrigerant::R134a;
//! let reading = Entry::gauges("32 psi".parse()?, "185 psi".parse()?)
//!     .reading(r, Engine::Running, &Instruments::analogue(r))?;
//! for (gauge, expected) in [(reading.low, "2.6 ± 1.8 °C"), (reading.high, "51.8 ± 1.9 °C")] {
//!     let t = Saturation::at(r, &absolute(&gauge, &reading.air)?)?.unwrap().dew;
//!     assert_eq!(format!("{:.1} ± {:.1} °C", t.value().celsius(), t.expanded().kelvins()), expected);
//! }
//! assert_eq!(r.dew_line().accuracy[2].temperature.kelvins(), 0.0016);
//! # Ok::<(), satline::Error>(())
//! ```
//!
//! # Where it ends
//!
//! Above its critical point, 31.0 °C for R-744, a refrigerant neither boils nor condenses; the crate then answers with
//! an error and not with a number. A blend boils over a range. R-407C at 5 bar absolute begins at −3.9 °C, on its
//! bubble line, and is all vapour at 2.4 °C, on its dew line. Subcooling counts from the first, superheat from the
//! second.
//!
//! ```
//! use satline::{Pressure, Refrigerant};
//! let (r744, blend, p) = (Refrigerant::R744, Refrigerant::R407C, Pressure::from_bar(5.0));
//! assert_eq!(format!("{:.1}", r744.dew_line().critical_temperature.celsius()), "31.0");
//! assert!(r744.saturation_temperature(Pressure::from_bar(95.0)).is_err());
//! assert_eq!(format!("{:.1}", blend.bubble_temperature(p)?.celsius()), "-3.9");
//! assert_eq!(format!("{:.1}", blend.dew_temperature(p)?.celsius()), "2.4");
//! # Ok::<(), satline::Error>(())
//! ```
//!
//! # Exercises
//!
//! 1. An R-1234yf car shows 45 psi on the low side at sea level. At what temperature does it boil?
//! 2. The same 45 psi at 2000 m: how much colder is that?
//! 3. Somebody reads 200 psi on the high side of an R-134a car and forgets to add the air. How far off is the
//!    condensing temperature?
//!
//! # Answers
//!
//! 1. At 8.1 °C.
//! 2. By 1.7 K.
//! 3. It comes out 2.9 K too low.
//!
//! <details><summary>The working</summary>
//!
//! ```
//! use satline::{GaugePressure, Length, Pressure, Refrigerant, air};
//! let (sea, gauge) = (Pressure::STANDARD_ATMOSPHERE, GaugePressure::from_psi(45.0));
//! let at_sea = Refrigerant::R1234yf.saturation_temperature(gauge.absolute(sea))?;
//! assert_eq!(format!("{:.1} °C", at_sea.celsius()), "8.1 °C");
//! let up = air::pressure_at(Length::from_m(2000.0))?.value();
//! let colder = at_sea - Refrigerant::R1234yf.saturation_temperature(gauge.absolute(up))?;
//! assert_eq!(format!("{:.1} K", colder.kelvins()), "1.7 K");
//! let right = Refrigerant::R134a.saturation_temperature(GaugePressure::from_psi(200.0).absolute(sea))?;
//! let wrong = Refrigerant::R134a.saturation_temperature(Pressure::from_psi(200.0))?;
//! assert_eq!(format!("{:.1} K", (right - wrong).kelvins()), "2.9 K");
//! # Ok::<(), satline::Error>(())
//! ```
//!
//! </details>
