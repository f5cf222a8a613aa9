//! Rest: what both gauges say with the engine off.
//!
//! # One pressure everywhere
//!
//! Turn the engine off and wait until everything has the temperature of the air. The pressures level. While liquid is
//! left, both gauges show saturation at that temperature, and the same physics holds for every car. At 30 °C and sea
//! level that is 669 kPa for R-134a and 682 kPa for R-1234yf on the gauge. R-744 stands at 6333 kPa at 25 °C: only
//! hoses and gauges made for it. Above 31.0 °C it has no saturation, and the check says nothing.
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
//! # Four answers
//!
//! On that day of 30 °C, an R-134a car and analogue gauges: 6.69 ± 0.38 bar are expected. The thermometer alone makes
//! that ± 0.38 bar: it is the weak instrument here. The two gauges together are read to ± 0.19 bar. So anything closer
//! than 0.42 bar cannot be told from saturation.
//!
//! - 6.7 and 6.8 bar: at saturation. Liquid is there. How much, the pressure does not say.
//! - 4.0 and 4.1 bar: below it. No liquid is left, or the circuit is colder than the air.
//! - 7.6 and 7.6 bar: above it. Air is inside, or another refrigerant, or the engine still warms the circuit.
//! - 5.0 and 8.0 bar: not levelled. Wait; if it stays, a passage is closed. One maker allows 50 kPa between the two.
//!
//! ```
//! use satline::saturation::Lines;
//! use satline::window::{Engine, Entry, Instruments, RestVerdict, at_rest, charts::REST_DIFFERENCE};
//! use satline::{Refrigerant, Temperature};
//! let r = Refrigerant::R134a;
//! let check = |low: &str, high: &str| {
//!     let entry = Entry { ambient: Some("30 °C".parse()?), ..Entry::gauges(low.parse()?, high.parse()?) };
//!     let read = entry.reading(r, Engine::AtRest, &Instruments::analogue(r))?;
//!     at_rest(r, &read.low, &read.high, &read.air, &read.ambient.unwrap())
//! };
//! let found = check("6.7 bar", "6.8 bar")?;
//! assert_eq!(found.verdict, RestVerdict::AtSaturation);
//! let expected = found.expected;
//! assert_eq!(format!("{:.2} ± {:.2} bar", expected.value().bar(), expected.expanded().bar()), "6.69 ± 0.38 bar");
//! let thermometer = Instruments::analogue(r).air.read(Temperature::from_celsius(30.0), None)?.expanded();
//! let slope = r.dew_slope_pa_per_kelvin(Temperature::from_celsius(30.0))?;
//! assert_eq!(format!("{:.2}", thermometer.kelvins() * slope / 1e5), "0.38");
//! let (read, noticeable) = (found.read.expanded().bar(), found.noticeable.bar());
//! assert_eq!(format!("{read:.2} bar, {noticeable:.2} bar"), "0.19 bar, 0.42 bar");
//! assert_eq!(check("4.0 bar", "4.1 bar")?.verdict, RestVerdict::LiquidGone);
//! assert_eq!(check("7.6 bar", "7.6 bar")?.verdict, RestVerdict::AboveSaturation);
//! assert_eq!(check("5.0 bar", "8.0 bar")?.verdict, RestVerdict::NotLevelled);
//! assert_eq!(format!("{:.0} kPa", REST_DIFFERENCE.value.kpa()), "50 kPa");
//! # Ok::<(), satline::Error>(())
//! ```
//!
//! # Air inside
//!
//! Air does not condense. It adds its own pressure to that of the refrigerant. A container of R-134a at 25 °C should
//! show 81.8 psi and shows 95 psi. With standard uncertainties of 1 psi and 0.6 K that is 13.2 ± 3.9 psi of air, or
//! another refrigerant: the pressure alone does not tell. The container must have stood long enough, because a kelvin
//! of error in its temperature is 2.9 psi.
//!
//! ```
//! use satline::saturation::Lines;
//! use satline::service::non_condensables::{Purity, PurityVerdict};
//! use satline::{GaugePressure, Pressure, Refrigerant, Temperature};
//! use satline::{Measured, PressureDifference, TemperatureDifference};
//! let (r, sea, t) = (Refrigerant::R134a, Pressure::STANDARD_ATMOSPHERE, Temperature::from_celsius(25.0));
//! assert_eq!(format!("{:.1} psi", r.saturation_pressure(t)?.gauge(sea).psi()), "81.8 psi");
//! let p = Measured::new(GaugePressure::from_psi(95.0).absolute(sea), PressureDifference::from_psi(1.0))?;
//! let found = Purity::of(r, &p, &Measured::new(t, TemperatureDifference::from_kelvins(0.6))?)?;
//! assert_eq!(found.verdict, PurityVerdict::Above);
//! assert_eq!(format!("{:.1} ± {:.1} psi", found.air.value().psi(), found.air.expanded().psi()), "13.2 ± 3.9 psi");
//! assert_eq!(format!("{:.1} psi", Pressure::from_pa(r.dew_slope_pa_per_kelvin(t)?).psi()), "2.9 psi");
//! # Ok::<(), satline::Error>(())
//! ```
//!
//! **Mind** A circuit at rest is under this pressure. Warm it by the sun or by warm air, never by a flame or above what
//! the maker allows: the pressure follows the temperature, and a full vessel bursts. With the engine off a fan may
//! still start.
//!
//! # Exercises
//!
//! 1. An R-1234yf car has stood overnight at 18 °C at sea level. What should both gauges show, in psi?
//! 2. At 30 °C both gauges of the R-134a car show 6.2 bar. Is the liquid gone, and how sure is that?
//! 3. The thermometer was in the sun and the circuit really has 27 °C. What is expected then, and what does 6.2 bar
//!    mean?
//!
//! # Answers
//!
//! 1. 66.3 psi.
//! 2. So it seems, with a chance of 99 %, if the circuit has the temperature of the air.
//! 3. 6.05 bar, so 6.2 bar is at saturation. The 99 % counted a good thermometer, not one in the sun.
//!
//! <details><summary>The working</summary>
//!
//! ```
//! use satline::window::{Engine, Entry, Instruments, RestVerdict, at_rest};
//! use satline::{Pressure, Refrigerant, Temperature};
//! let r = Refrigerant::R134a;
//! let yf = Refrigerant::R1234yf.saturation_pressure(Temperature::from_celsius(18.0))?;
//! assert_eq!(format!("{:.1} psi", yf.gauge(Pressure::STANDARD_ATMOSPHERE).psi()), "66.3 psi");
//! let check = |ambient: &str| {
//!     let entry = Entry { ambient: Some(ambient.parse()?), ..Entry::gauges("6.2 bar".parse()?, "6.2 bar".parse()?) };
//!     let read = entry.reading(r, Engine::AtRest, &Instruments::analogue(r))?;
//!     at_rest(r, &read.low, &read.high, &read.air, &read.ambient.unwrap())
//! };
//! let (hot, mild) = (check("30 °C")?, check("27 °C")?);
//! assert_eq!(hot.verdict, RestVerdict::LiquidGone);
//! assert_eq!(format!("{:.0} %", 100.0 * hot.chance.unwrap()), "99 %");
//! assert_eq!(mild.verdict, RestVerdict::AtSaturation);
//! assert_eq!(format!("{:.2} bar", mild.expected.value().bar()), "6.05 bar");
//! # Ok::<(), satline::Error>(())
//! ```
//!
//! </details>
