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
//! # One row for each refrigerant, worked by hand
//!
//! The short formula needs no computer: ln(p/pc) = (Tc/T) · Σ nᵢ qᵏⁱ with q = 1 − T/Tc, T in kelvin, its Tc, pc, nᵢ and kᵢ
//! printed by the example `accuracy_page`, which works each of these rows step by step. Repeat one with a calculator and compare
//! with print; the code below names the source of each row. What is left is the error of the formula, the equation behind
//! the table, and the last printed digit: a temperature printed to a hundredth of a kelvin leaves a fiftieth of a percent
//! open. Of a blend it is the dew line.
//!
//! | refrigerant | printed row | q | Σ n qᵏ | formula, kPa | off by |
//! |---|---|---|---|---|---|
//! | R-134a | 300 K: 0.70282 MPa | 0.198311 | −1.405874 | 702.804 | −0.0022 % |
//! | R-1234yf | −29.45 °C: 101.325 kPa | 0.337502 | −2.324256 | 101.353 | +0.0272 % |
//! | R-744 | 260 K: 2.4188 MPa | 0.145097 | −0.953332 | 2418.802 | +0.0001 % |
//! | R-152a | 0 °C: 0.263992 MPa | 0.293110 | −2.007309 | 263.991 | −0.0006 % |
//! | R-290 | 50 °C: 1.7133 MPa | 0.126362 | −0.793947 | 1713.282 | −0.0010 % |
//! | R-12 | −29.752 °C: 101.325 kPa | 0.367994 | −2.344255 | 101.321 | −0.0040 % |
//! | R-600a | 300 K: 0.37000 MPa | 0.264363 | −1.679633 | 369.990 | −0.0027 % |
//! | R-22 | 0 °C: 4.9811 bar | 0.260347 | −1.704635 | 497.974 | −0.0273 % |
//! | R-1234ze(E) | −18.95 °C: 101.325 kPa | 0.335447 | −2.378454 | 101.423 | +0.0964 % |
//! | R-32 | 0 °C: 813.10 kPa | 0.222360 | −1.525570 | 813.075 | −0.0031 % |
//! | R-125 | 273.15 K: 0.67052 MPa | 0.194659 | −1.357474 | 670.530 | +0.0016 % |
//! | R-143a | 0 °C: 0.61967 MPa | 0.210223 | −1.424341 | 619.669 | −0.0002 % |
//! | R-404A | 300 K: 1.3034 MPa | 0.131115 | −0.914714 | 1303.366 | −0.0026 % |
//! | R-407C | 300 K: 1.0757 MPa | 0.165148 | −1.218874 | 1075.662 | −0.0036 % |
//! | R-410A | 300 K: 1.7351 MPa | 0.129158 | −0.904319 | 1735.055 | −0.0026 % |
//! | R-507A | 300 K: 1.3450 MPa | 0.127311 | −0.884232 | 1345.048 | +0.0035 % |
//!
//! ```
//! use satline::{Pressure, Refrigerant, Temperature};
//! let rows = [
//!     (Refrigerant::R134a, "300 K", "0.70282 MPa", "0.198311", "-1.405874", "702.804", "-0.0022"), // Tillner-Roth & Baehr 1994, Table 8, p. 696 ff.
//!     (Refrigerant::R1234yf, "-29.45 °C", "101.325 kPa", "0.337502", "-2.324256", "101.353", "+0.0272"), // ASHRAE Fundamentals 2021, ch. 29, Table 5, normal boiling point
//!     (Refrigerant::R744, "260 K", "2.4188 MPa", "0.145097", "-0.953332", "2418.802", "+0.0001"), // Span & Wagner 1996, Table 34, p. 1560 ff.
//!     (Refrigerant::R152a, "0 °C", "0.263992 MPa", "0.293110", "-2.007309", "263.991", "-0.0006"), // Outcalt & McLinden 1996, Table 6, p. 616 ff.
//!     (Refrigerant::R290, "50 °C", "1.7133 MPa", "0.126362", "-0.793947", "1713.282", "-0.0010"), // Lemmon et al. 2009, Table A1, p. 3175
//!     (Refrigerant::R12, "-29.752 °C", "101.325 kPa", "0.367994", "-2.344255", "101.321", "-0.0040"), // ASHRAE Fundamentals 2021, ch. 29, Table 5, normal boiling point
//!     (Refrigerant::R600a, "300 K", "0.37000 MPa", "0.264363", "-1.679633", "369.990", "-0.0027"), // Bücker & Wagner 2006, Table 46, p. 996
//!     (Refrigerant::R22, "0 °C", "4.9811 bar", "0.260347", "-1.704635", "497.974", "-0.0273"), // Moran et al., Table A-7, p. 901
//!     (Refrigerant::R1234ze, "-18.95 °C", "101.325 kPa", "0.335447", "-2.378454", "101.423", "+0.0964"), // ASHRAE Fundamentals 2021, ch. 29, Table 5, normal boiling point
//!     (Refrigerant::R32, "0 °C", "813.10 kPa", "0.222360", "-1.525570", "813.075", "-0.0031"), // Tillner-Roth & Yokozeki 1997, Table 12, p. 1293
//!     (Refrigerant::R125, "273.15 K", "0.67052 MPa", "0.194659", "-1.357474", "670.530", "+0.0016"), // Lemmon & Jacobsen 2005, Table 9, p. 104
//!     (Refrigerant::R143a, "0 °C", "0.61967 MPa", "0.210223", "-1.424341", "619.669", "-0.0002"), // Lemmon & Jacobsen 2000, table on p. 541
//!     (Refrigerant::R404A, "300 K", "1.3034 MPa", "0.131115", "-0.914714", "1303.366", "-0.0026"), // Lemmon 2003, Table V, p. 998, dew line
//!     (Refrigerant::R407C, "300 K", "1.0757 MPa", "0.165148", "-1.218874", "1075.662", "-0.0036"), // Lemmon 2003, Table V, p. 998, dew line
//!     (Refrigerant::R410A, "300 K", "1.7351 MPa", "0.129158", "-0.904319", "1735.055", "-0.0026"), // Lemmon 2003, Table V, p. 998, dew line
//!     (Refrigerant::R507A, "300 K", "1.3450 MPa", "0.127311", "-0.884232", "1345.048", "+0.0035"), // Lemmon 2003, Table V, p. 998, dew line
//! ];
//! for (r, at, print, q, sum, formula, off) in rows {
//!     let (line, t, printed): (_, Temperature, Pressure) = (r.dew_line(), at.parse()?, print.parse()?);
//!     let (tc, pc) = (line.critical_temperature.kelvin(), line.critical_pressure.kpa());
//!     let steps = 1.0 - t.kelvin() / tc;
//!     let total: f64 = line.terms.iter().map(|(n, k)| n * steps.powf(*k)).sum();
//!     let p = pc * (tc / t.kelvin() * total).exp();
//!     assert_eq!((format!("{steps:.6}"), format!("{total:.6}"), format!("{p:.3}")), (q.into(), sum.into(), formula.into()));
//!     assert_eq!(format!("{:+.4}", 100.0 * (p / printed.kpa() - 1.0)), off, "{r}");
//! }
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
