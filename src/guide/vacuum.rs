//! Vacuum: whether the circuit is dry, then whether it is tight.
//!
//! # Why a vacuum dries
//!
//! Water leaves as vapour. It boils if the pressure is below its saturation pressure at the temperature of the coldest
//! wet part. At 15 °C that is 12794 micron or 1.71 kPa absolute, at 25 °C it is 3.17 kPa. So warmth helps the pump.
//! One gram of water becomes 2030 L of vapour at 500 micron and 20 °C: drying takes time, not only a deep vacuum.
//!
//! ```
//! use satline::air::water::saturation_pressure;
//! use satline::service::evacuation::vapour_volume;
//! use satline::{Mass, Pressure, Temperature};
//! let p = saturation_pressure(Temperature::from_celsius(15.0))?;
//! assert_eq!(format!("{:.0} micron, {:.2} kPa", p.microns(), p.kpa()), "12794 micron, 1.71 kPa");
//! assert_eq!(format!("{:.2}", saturation_pressure(Temperature::from_celsius(25.0))?.kpa()), "3.17");
//! let room = Temperature::from_celsius(20.0);
//! let vapour = vapour_volume(Mass::from_g(1.0), Pressure::from_microns(500.0), room)?;
//! assert_eq!(format!("{:.0} L", vapour.l()), "2030 L");
//! # Ok::<(), satline::Error>(())
//! ```
//!
//! # What a compound gauge can and cannot show
//!
//! Suppose the service gauge shows −29.0 inHg at sea level. That is 3.1 ± 20.0 kPa absolute: the needle cannot
//! distinguish dry from wet, and the probability that the circuit dries at 15 °C is 44 %. A vacuum gauge in microns
//! can: 500 ± 59 micron is far below the 12794 that are needed. For water to boil at 15 °C the needle must reach −29.4
//! inHg at sea level, but −24.5 inHg at 1500 m.
//!
//! ```
//! use satline::quantity::instrument::PressureGauge;
//! use satline::service::acceptance::AcceptanceOutcome;
//! use satline::service::evacuation::{DryingCheck, absolute, required_vacuum};
//! use satline::{GaugePressure, Length, Pressure, Temperature, air};
//! use satline::{Measured, PressureDifference, TemperatureDifference};
//! let part = Measured::new(Temperature::from_celsius(15.0), TemperatureDifference::from_kelvins(1.2))?;
//! let (sea, up) = (air::pressure_at(Length::from_m(0.0))?, air::pressure_at(Length::from_m(1500.0))?);
//! let needle = absolute(&PressureGauge::SERVICE_LOW.read(GaugePressure::from_inhg(-29.0))?, &sea)?;
//! assert_eq!(format!("{:.1} ± {:.1} kPa", needle.value().kpa(), needle.expanded().kpa()), "3.1 ± 20.0 kPa");
//! let by_needle = DryingCheck::of(&needle, &part)?;
//! assert_eq!(by_needle.outcome, AcceptanceOutcome::Open);
//! assert_eq!(format!("{:.0} %", 100.0 * by_needle.probability), "44 %");
//! let gauge = Measured::new(Pressure::from_microns(500.0), PressureDifference::from_microns(30.0))?;
//! assert_eq!(format!("{:.0} micron", gauge.expanded().microns()), "59 micron");
//! assert_eq!(DryingCheck::of(&gauge, &part)?.outcome, AcceptanceOutcome::Passes);
//! let needed = |air| Ok::<_, satline::Error>(format!("{:.1}", required_vacuum(&part, air)?.value().inhg()));
//! assert_eq!((needed(&up)?, needed(&sea)?), ("-24.5".to_owned(), "-29.4".to_owned()));
//! # Ok::<(), satline::Error>(())
//! ```
//!
//! # The standing-vacuum test
//!
//! Shut off the pump and watch the pressure. Air through a leak raises it in a straight line. Water, or refrigerant
//! from the oil, raises it towards a limit. Two readings show a rise but not its shape: take at least 5. Eight
//! invented readings, one a minute, from 500 to 1320 micron on a straight line, are a leak of 116.8 micron/min,
//! between 115.6 and 117.9. Ten readings that level off, from 500 to 1970 micron, approach 2008 micron, between 2002
//! and 2013. That is reported as moisture, but refrigerant from the oil levels off in the same way.
//!
//! ```
//! use satline::quantity::{PressureRate, Time};
//! use satline::service::standing_vacuum::{FEWEST_READINGS, StandingVacuumTest, VacuumFinding};
//! use satline::{Measured, Pressure, PressureDifference};
//! let hold = |microns: &[f64]| {
//!     let air = Measured::exact(Pressure::STANDARD_ATMOSPHERE)?;
//!     let mut test = StandingVacuumTest::new(air, PressureDifference::from_microns(10.0))?;
//!     for (minute, p) in microns.iter().enumerate() {
//!         test.push(Time::from_minutes(minute as f64), Pressure::from_microns(*p), None)?;
//!     }
//!     test.fit()
//! };
//! let leak = hold(&[500.0, 620.0, 730.0, 850.0, 970.0, 1080.0, 1200.0, 1320.0])?;
//! assert_eq!(leak.finding, VacuumFinding::Leak);
//! let rate = leak.rate;
//! let shown = |rate: Option<PressureRate>| format!("{:.1}", rate.unwrap().microns_per_minute());
//! assert_eq!([shown(rate.value), shown(rate.low), shown(rate.high)], ["116.8", "115.6", "117.9"]);
//! assert_eq!(shown(leak.smallest_seen), "2.8");
//! let wet = hold(&[500.0, 1010.0, 1350.0, 1570.0, 1720.0, 1820.0, 1880.0, 1930.0, 1950.0, 1970.0])?;
//! assert_eq!(wet.finding, VacuumFinding::Moisture);
//! let end = wet.levels_at().unwrap();
//! let shown = |p: Option<Pressure>| format!("{:.0}", p.unwrap().microns());
//! assert_eq!([shown(end.value), shown(end.low), shown(end.high)], ["2008", "2002", "2013"]);
//! assert_eq!((FEWEST_READINGS, hold(&[500.0, 560.0, 620.0]).is_err()), (5, true));
//! # Ok::<(), satline::Error>(())
//! ```
//!
//! # What a pass proves
//!
//! Little. The usual acceptance limit, at most 1 inHg in 5 min, in a circuit of 2.5 L passes a leak 2663 times as
//! large as the 14 g/yr that a service detector must find on its coarsest scale. The leak above passes as well. This
//! limit finds a fitting that somebody forgot. A vacuum gauge read every minute sees far less: readings like those
//! eight would show a leak of 2.8 micron/min. And in a vacuum air leaks in, while in service refrigerant leaks out
//! under pressure: a seal may hold in one direction only.
//!
//! ```
//! use satline::service::{acceptance::ACCEPTANCE_LIMITS, leak_throughput::DETECTOR_SCALES};
//! use satline::{Measured, Refrigerant, Temperature, Volume};
//! let (volume, room) = (Measured::exact(Volume::from_l(2.5))?, Temperature::from_celsius(20.0));
//! assert_eq!(ACCEPTANCE_LIMITS[0].value.name, "1 inHg in 4 to 5 min");
//! let times = ACCEPTANCE_LIMITS[0].value.times_a_service_leak(&volume, Refrigerant::R134a, room)?;
//! assert_eq!(format!("{times:.0}"), "2663");
//! assert_eq!(format!("{:.0} g/yr", DETECTOR_SCALES.value[2].g_per_year()), "14 g/yr");
//! # Ok::<(), satline::Error>(())
//! ```
//!
//! **Safety** Recover the refrigerant before a pump is connected. Find leaks under pressure with dry nitrogen or an
//! approved tracer gas, never with compressed air: its mixture with refrigerant can burn under pressure. A flame used
//! as a leak detector turns refrigerant into poison. Wear goggles even at a vacuum: the other hose is under pressure.
//!
//! # Exercises
//!
//! 1. That leak of 116.8 micron/min is in a circuit of 2.5 L. How many times 14 g/yr is it, as a flow of refrigerant
//!    gas at 20 °C?
//! 2. By how much does it raise the pressure in 5 min, in inHg, and does it pass the limit of 1 inHg?
//! 3. What is the highest pressure, in micron, at which ice at 0 °C still sublimes?
//!
//! # Answers
//!
//! 1. 61 times.
//! 2. By 0.023 inHg: it passes with ease.
//! 3. 4584 micron.
//!
//! <details><summary>The working</summary>
//!
//! ```
//! use satline::quantity::{PressureRate, Throughput};
//! use satline::service::leak_throughput::refrigerant_in;
//! use satline::{Pressure, Refrigerant, Temperature, air::water};
//! let rate = PressureRate::from_microns_per_minute(116.8);
//! let flow = Throughput::from_pa_m3_per_s(rate.pa_per_s() * 2.5e-3); // V dp/dt
//! let leak = refrigerant_in(flow, Refrigerant::R134a, Temperature::from_celsius(20.0))?;
//! assert_eq!(format!("{:.0}", leak.g_per_year() / 14.0), "61");
//! assert_eq!(format!("{:.3} inHg", Pressure::from_pa(rate.pa_per_s() * 5.0 * 60.0).inhg()), "0.023 inHg");
//! assert_eq!(format!("{:.0}", water::saturation_pressure(Temperature::from_celsius(0.0))?.microns()), "4584");
//! # Ok::<(), satline::Error>(())
//! ```
//!
//! </details>
