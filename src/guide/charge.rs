//! Charge: how much refrigerant goes back in, by weight.
//!
//! # Why not by pressure
//!
//! As long as liquid is left, the equalised pressure is the saturation pressure and does not depend on the charge.
//! Consider a circuit of 2.5 L with R-134a at 25 °C at sea level. With 500 g inside the gauges show 564 kPa. With 150
//! g they show 564 kPa. With 85 g they still do. Only below 81 g, when the last liquid is gone, does the pressure
//! fall. With the compressor running the pressures depend on the day and on the car ([`windows`](super::windows)).
//! Therefore charge by weight, always.
//!
//! ```
//! use satline::quantity::Density;
//! use satline::{Pressure, Refrigerant, Temperature};
//! let (r, t, litres) = (Refrigerant::R134a, Temperature::from_celsius(25.0), 2.5);
//! let shows = |grams: f64| {
//!     let phases = r.at_density(t, Density::from_kg_per_m3(grams / litres))?;
//!     Ok::<_, satline::Error>(format!("{:.0} kPa", phases.pressure().gauge(Pressure::STANDARD_ATMOSPHERE).kpa()))
//! };
//! assert_eq!([shows(500.0)?, shows(150.0)?, shows(85.0)?], ["564 kPa", "564 kPa", "564 kPa"]);
//! let (_, vapour) = r.saturated_at_temperature(t)?;
//! assert_eq!(format!("{:.0} g", vapour.density.kg_per_m3() * litres), "81 g");
//! assert_eq!(shows(60.0)?, "415 kPa");
//! # Ok::<(), satline::Error>(())
//! ```
//!
//! # The label
//!
//! The label under the bonnet decides. It often prints two units, which must agree: 500 ± 20 g and 17.6 oz do, 500 g
//! and 20 oz do not. These ounces are ounces of weight. The crate refuses a label that contradicts itself; ask the
//! maker. If the label prints no tolerance, the crate takes ± 15 g, from one article.
//!
//! ```
//! use satline::service::charge::{ChargeLabel, TOLERANCE};
//! let label: ChargeLabel = "500 ± 20 g (17.6 oz)".parse()?;
//! assert_eq!(format!("{:.0} to {:.0} g", label.range().low.g(), label.range().high.g()), "480 to 520 g");
//! assert!("500 g (20 oz)".parse::<ChargeLabel>().is_err());
//! assert_eq!(format!("{:.0} g", TOLERANCE.value.g()), "15 g");
//! # Ok::<(), satline::Error>(())
//! ```
//!
//! # The hose and the scale
//!
//! Not everything that leaves the cylinder arrives in the circuit. A hose of 4.8 mm bore and 1.8 m length at 25 °C
//! holds 39.3 g when it is full of liquid and 1.05 g when it holds vapour only. Nobody sees which. A scale accurate to
//! 5 g under the cylinder shows 9000 g before and 8480 g after: 500 ± 23 g have arrived. The scale contributes little
//! to that uncertainty, the hose most of it. Empty the hose into the low side with the engine running, and the holdup
//! is near its lower limit.
//!
//! ```
//! use satline::service::charge::{arrived, hose_holdup, hose_volume, weighed};
//! use satline::{Length, Mass, Refrigerant, Temperature};
//! let hose = hose_volume(Length::from_m(4.8e-3), Length::from_m(1.8))?;
//! let holdup = hose_holdup(hose, Refrigerant::R134a, Temperature::from_celsius(25.0))?;
//! assert_eq!(format!("{:.1} g, {:.2} g", holdup.high.g(), holdup.low.g()), "39.3 g, 1.05 g");
//! let on_scale = |g| weighed(Mass::from_g(g), Mass::from_g(5.0));
//! let arrived = arrived(&on_scale(9000.0)?, &on_scale(8480.0)?, &holdup)?;
//! assert_eq!(format!("{:.0} ± {:.0} g", arrived.value().g(), arrived.expanded().g()), "500 ± 23 g");
//! # Ok::<(), satline::Error>(())
//! ```
//!
//! # The cylinder
//!
//! A cylinder must never be filled completely: liquid expands as it warms, and a full cylinder bursts. At most 80 % of
//! the volume may be liquid. For R-134a at 25 °C that is 0.97 kg per litre of water capacity.
//!
//! ```
//! use satline::service::charge::{CYLINDER_FILL, cylinder_limit};
//! use satline::{Mass, Refrigerant, Temperature};
//! assert_eq!(CYLINDER_FILL.value.percent(), 80.0);
//! let (liquid, _) = Refrigerant::R134a.saturated_at_temperature(Temperature::from_celsius(25.0))?;
//! let most = cylinder_limit(Mass::from_kg(1.0), liquid.density.g_per_cm3())?; // a litre of water is about 1 kg
//! assert_eq!(format!("{:.2} kg", most.kg()), "0.97 kg");
//! # Ok::<(), satline::Error>(())
//! ```
//!
//! **Safety** Never open the high-side valve at the cylinder while the compressor runs: the full discharge pressure
//! would enter the cylinder. Liquid drawn into a running compressor can destroy it. Wear goggles and gloves, ventilate
//! the room, keep flames away; R-1234yf takes equipment made for it. Venting refrigerant is illegal in many places:
//! recover it.
//!
//! # Exercises
//!
//! 1. How many grams must leave the cylinder for 500 g to arrive through that hose, from vapour to liquid?
//! 2. The circuit of 2.5 L shows an equalised pressure of 415 kPa at 25 °C. How many grams of R-134a are inside, if
//!    nothing else is?
//!
//! # Answers
//!
//! 1. From 501 to 539 g.
//! 2. About 60 g. Below saturation the pressure does give the mass, because no liquid is left.
//!
//! <details><summary>The working</summary>
//!
//! ```
//! use satline::service::charge::{hose_holdup, hose_volume, to_send};
//! use satline::{GaugePressure, Length, Mass, Pressure, Refrigerant, Temperature};
//! let (r, t) = (Refrigerant::R134a, Temperature::from_celsius(25.0));
//! let hose = hose_volume(Length::from_m(4.8e-3), Length::from_m(1.8))?;
//! let send = to_send(Mass::from_g(500.0), &hose_holdup(hose, r, t)?)?;
//! assert_eq!(format!("{:.0} to {:.0} g", send.low.g(), send.high.g()), "501 to 539 g");
//! let p = GaugePressure::from_kpa(415.0).absolute(Pressure::STANDARD_ATMOSPHERE);
//! assert_eq!(format!("{:.0} g", r.state(p, t)?.density().kg_per_m3() * 2.5), "60 g");
//! # Ok::<(), satline::Error>(())
//! ```
//!
//! </details>
