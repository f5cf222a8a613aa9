//! Saturation: the temperature that a pressure stands for.
//!
//! # One pressure, one temperature
//!
//! Refrigerant evaporates in the evaporator and condenses in the condenser. As long as liquid and vapour are present
//! together, the pressure fixes the temperature and the temperature fixes the pressure. This state is called
//! saturation. At 0 °C the saturation pressure is 292.8 kPa for R-134a and 315.9 kPa for R-1234yf, both absolute. The
//! equations of state themselves are uncertain by about a tenth of a percent in pressure (from memory), which these
//! figures do not include. At atmospheric pressure R-134a boils at −26.1 °C: that is why a splash of it freezes skin
//! and eyes. Put on goggles and gloves before you loosen a hose.
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
//! # Absolute and gauge pressure
//!
//! A gauge measures from the pressure of the surrounding air, an equation from vacuum. At sea level the air adds 101.3
//! kPa. So 32 psi on the gauge is 322.0 kPa absolute, and R-134a boils there at 2.6 °C. Taking the 32 psi for an
//! absolute pressure gives −7.6 °C and a search for ice that is not there. In this crate the two are different types
//! and cannot be mixed.
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
//! Higher up the air is thinner, and the same gauge reading is a lower absolute pressure. At 1500 m the air pressure
//! is 84.6 kPa, ± 1.8 kPa for the weather. There 32 psi means evaporation at 1.1 °C, 1.5 K colder than at sea level.
//! On the high side, at 185 psi, the same altitude makes a difference of only 0.5 K, because the saturation curve is
//! steeper there.
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
//! The low side gives the evaporating temperature, the high side the condensing temperature. Each is only as good as
//! its gauge. A typical analogue pair at 32 psi and 185 psi gives 2.6 ± 1.8 °C and 51.8 ± 1.9 °C. The short saturation
//! formula is off by at most 0.0016 K: the gauge limits the accuracy, not the formula. Where a line carries only
//! vapour or only liquid, the gauge does not give its temperature; that takes a thermometer on the line
//! ([`superheat`](super::superheat)).
//!
//! ```
//! use satline::circuit::Settings;
//! use satline::inspection::{Entry, Instruments};
//! use satline::{Refrigerant, line::Saturation, line::absolute};
//! let r = Refrigerant::R134a;
//! let reading = Entry::gauges("32 psi".parse()?, "185 psi".parse()?)
//!     .reading(r, Settings::TEST, &Instruments::analogue(r))?;
//! for (gauge, expected) in [(reading.low(), "2.6 ± 1.8 °C"), (reading.high(), "51.8 ± 1.9 °C")] {
//!     let t = Saturation::at(r, &absolute(&gauge.unwrap(), &reading.air())?)?.unwrap().dew;
//!     assert_eq!(format!("{:.1} ± {:.1} °C", t.value().celsius(), t.expanded().kelvins()), expected);
//! }
//! assert_eq!(r.dew_line().accuracy[2].temperature.kelvins(), 0.0016);
//! # Ok::<(), satline::Error>(())
//! ```
//!
//! # Limits
//!
//! Above its critical point, 31.0 °C for R-744, a refrigerant neither boils nor condenses; the crate then returns an
//! error, not a number. A zeotropic blend evaporates over a range of temperatures, its glide. At 5 bar absolute R-407C
//! begins to boil at −3.9 °C, on its bubble line, and is all vapour at 2.4 °C, on its dew line. Subcooling is counted
//! from the bubble line, superheat from the dew line.
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
//! 1. The low side of an R-1234yf circuit reads 45 psi at sea level. What is the evaporating temperature?
//! 2. How much colder does it evaporate at the same 45 psi at 2000 m?
//! 3. Somebody reads 200 psi on the high side of an R-134a circuit and forgets to add the air pressure. How large is
//!    the error of the condensing temperature?
//!
//! # Answers
//!
//! 1. 8.1 °C.
//! 2. 1.7 K colder.
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
