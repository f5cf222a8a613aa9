//! Equalised pressure: what both gauges say with the engine off.
//!
//! # One pressure everywhere
//!
//! Switch the engine off and wait until the whole circuit has the temperature of the air. The pressures equalise. As
//! long as liquid is left, both gauges show the saturation pressure at that temperature, in every car. At 30 °C and
//! sea level that is 669 kPa gauge for R-134a and 682 kPa for R-1234yf. R-744 shows 6333 kPa at 25 °C: use only hoses
//! and gauges made for it. Above 31.0 °C it has no saturation pressure, and this check cannot be made.
//!
//! ```
//! use satline::{Pressure, Refrigerant, Temperature};
//! let shows = |r: Refrigerant, celsius| {
//!     let p = r.saturation_pressure(Temperature::from_celsius(celsius))?;
//!     Ok::<_, satline::Error>(format!("{:.0} kPa", p.gauge(Pressure::STANDARD_ATMOSPHERE).kpa()))
//! };
//! assert_eq!([shows(Refrigerant::R134a, 30.0)?, shows(Refrigerant::R1234yf, 30.0)?], ["669 kPa", "682 kPa"]);
//! assert_eq!(shows(Refrigerant::R744, 25.0)?, "6333 kPa");
//! assert_eq!(format!("{:.1}", Refrigerant::R744.saturation_range().high.celsius()), "31.0");
//! # Ok::<(), satline::Error>(())
//! ```
//!
//! # Four results
//!
//! Consider an R-134a circuit on that day of 30 °C, with analogue gauges. Expected are 6.69 ± 0.38 bar. The
//! thermometer alone accounts for that ± 0.38 bar: it is the weak instrument here. The mean of the two gauges is known
//! to ± 0.19 bar. So a difference of less than 0.42 bar cannot be distinguished from saturation.
//!
//! - 6.7 and 6.8 bar: at saturation. There is liquid; how much, the pressure does not say.
//! - 4.0 and 4.1 bar: below saturation. No liquid is left, or the circuit is colder than the air.
//! - 7.6 and 7.6 bar: above saturation. There is air or another refrigerant inside, or the engine still warms the
//!   circuit.
//! - 5.0 and 8.0 bar: not equalised. Wait; if the difference remains, a passage is blocked. One maker allows 50 kPa
//!   between the two.
//!
//! ```
//! use satline::saturation::Lines;
//! use satline::expected::{EqualisedCheck, EqualisedVerdict, charts::EQUALISED_DIFFERENCE};
//! use satline::inspection::{Entry, Instruments};
//! use satline::{Refrigerant, Temperature};
//! let r = Refrigerant::R134a;
//! let check = |low: &str, high: &str| {
//!     let entry = Entry::gauges(low.parse()?, high.parse()?).ambient("30 °C".parse()?);
//!     let read = entry.equalised_reading(r, &Instruments::analogue(r))?;
//!     let (low, high, ambient) = (read.low().unwrap(), read.high().unwrap(), read.ambient().unwrap());
//!     EqualisedCheck::of(r, &low, &high, &read.air(), &ambient)
//! };
//! let found = check("6.7 bar", "6.8 bar")?;
//! assert_eq!(found.verdict, EqualisedVerdict::AtSaturation);
//! let expected = found.expected;
//! assert_eq!(format!("{:.2} ± {:.2} bar", expected.value().bar(), expected.expanded().bar()), "6.69 ± 0.38 bar");
//! let thermometer = Instruments::analogue(r).air.read(Temperature::from_celsius(30.0), None)?.expanded();
//! let slope = r.dew_slope_pa_per_kelvin(Temperature::from_celsius(30.0))?;
//! assert_eq!(format!("{:.2}", thermometer.kelvins() * slope / 1e5), "0.38");
//! let (read, noticeable) = (found.read.expanded().bar(), found.noticeable.bar());
//! assert_eq!(format!("{read:.2} bar, {noticeable:.2} bar"), "0.19 bar, 0.42 bar");
//! assert_eq!(check("4.0 bar", "4.1 bar")?.verdict, EqualisedVerdict::LiquidGone);
//! assert_eq!(check("7.6 bar", "7.6 bar")?.verdict, EqualisedVerdict::AboveSaturation);
//! assert_eq!(check("5.0 bar", "8.0 bar")?.verdict, EqualisedVerdict::NotEqualised);
//! assert_eq!(format!("{:.0} kPa", EQUALISED_DIFFERENCE.value.kpa()), "50 kPa");
//! # Ok::<(), satline::Error>(())
//! ```
//!
//! # Non-condensables
//!
//! Air does not condense: it adds its partial pressure to that of the refrigerant. A container of R-134a at 25 °C
//! should show 81.8 psi and shows 95 psi. With standard uncertainties of 1 psi and 0.6 K the excess is 13.2 ± 3.9 psi,
//! from air or from another refrigerant: the pressure alone does not tell which. The container must have reached a
//! uniform temperature, because an error of one kelvin makes 2.9 psi.
//!
//! ```
//! use satline::saturation::Lines;
//! use satline::quantity::Position;
//! use satline::service::non_condensables::Purity;
//! use satline::{GaugePressure, Pressure, Refrigerant, Temperature};
//! use satline::{Measured, PressureDifference, TemperatureDifference};
//! let (r, sea, t) = (Refrigerant::R134a, Pressure::STANDARD_ATMOSPHERE, Temperature::from_celsius(25.0));
//! assert_eq!(format!("{:.1} psi", r.saturation_pressure(t)?.gauge(sea).psi()), "81.8 psi");
//! let p = Measured::new(GaugePressure::from_psi(95.0).absolute(sea), PressureDifference::from_psi(1.0))?;
//! let found = Purity::of(r, &p, &Measured::new(t, TemperatureDifference::from_kelvins(0.6))?)?;
//! assert_eq!(found.position, Position::Above);
//! assert_eq!(format!("{:.1} ± {:.1} psi", found.air.value().psi(), found.air.expanded().psi()), "13.2 ± 3.9 psi");
//! assert_eq!(format!("{:.1} psi", Pressure::from_pa(r.dew_slope_pa_per_kelvin(t)?).psi()), "2.9 psi");
//! # Ok::<(), satline::Error>(())
//! ```
//!
//! **Safety** The circuit is under this pressure with the engine off. Warm it in the sun or with warm air, never with
//! a flame or above what the maker allows: the pressure follows the temperature, and a vessel full of liquid bursts. A
//! fan may start even with the engine off.
//!
//! # Exercises
//!
//! 1. An R-1234yf car has stood overnight at 18 °C at sea level. What should both gauges show, in psi?
//! 2. At 30 °C both gauges of the R-134a circuit show 6.2 bar. Is the liquid gone, and how certain is that?
//! 3. The thermometer was in the sun and the circuit is really at 27 °C. What pressure is expected then, and what does
//!    6.2 bar mean?
//!
//! # Answers
//!
//! 1. 66.3 psi.
//! 2. Probably: with a probability of 99 %, if the circuit has the temperature of the air.
//! 3. 6.05 bar, so 6.2 bar is at saturation. The 99 % assumed a good thermometer, not one in the sun.
//!
//! <details><summary>The working</summary>
//!
//! ```
//! use satline::expected::{EqualisedCheck, EqualisedVerdict};
//! use satline::inspection::{Entry, Instruments};
//! use satline::{Pressure, Refrigerant, Temperature};
//! let r = Refrigerant::R134a;
//! let yf = Refrigerant::R1234yf.saturation_pressure(Temperature::from_celsius(18.0))?;
//! assert_eq!(format!("{:.1} psi", yf.gauge(Pressure::STANDARD_ATMOSPHERE).psi()), "66.3 psi");
//! let check = |ambient: &str| {
//!     let entry = Entry::gauges("6.2 bar".parse()?, "6.2 bar".parse()?).ambient(ambient.parse()?);
//!     let read = entry.equalised_reading(r, &Instruments::analogue(r))?;
//!     let (low, high, ambient) = (read.low().unwrap(), read.high().unwrap(), read.ambient().unwrap());
//!     EqualisedCheck::of(r, &low, &high, &read.air(), &ambient)
//! };
//! let (hot, mild) = (check("30 °C")?, check("27 °C")?);
//! assert_eq!(hot.verdict, EqualisedVerdict::LiquidGone);
//! assert_eq!(format!("{:.0} %", 100.0 * hot.probability.unwrap()), "99 %");
//! assert_eq!(mild.verdict, EqualisedVerdict::AtSaturation);
//! assert_eq!(format!("{:.2} bar", mild.expected.value().bar()), "6.05 bar");
//! # Ok::<(), satline::Error>(())
//! ```
//!
//! </details>
