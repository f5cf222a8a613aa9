//! Superheat: how far vapour is above saturation. Its counterpart for liquid is subcooling.
//!
//! # Superheat and subcooling
//!
//! The suction line carries vapour. Its temperature above the saturation temperature at its pressure is the superheat.
//! Some superheat means that all liquid has evaporated before the compressor, which cannot pump liquid. The liquid
//! line carries liquid. Its temperature below the saturation temperature is the subcooling. Some subcooling means
//! liquid free of bubbles.
//!
//! Each therefore takes two readings: a gauge, and a thermometer on the tube. Consider an R-134a circuit at sea level
//! on a day of 30 °C: 32 psi and 185 psi on the gauges, 10 °C on the suction line, 45 °C on the liquid line. With
//! analogue gauges and thermocouples the superheat is 7.4 ± 2.5 K and the subcooling 6.8 ± 2.6 K.
//!
//! ```
//! use satline::circuit::Settings;
//! use satline::inspection::{Entry, Instruments, Measurand};
//! use satline::{Line, Refrigerant};
//! let r = Refrigerant::R134a;
//! let entry = Entry::gauges("32 psi".parse()?, "185 psi".parse()?)
//!     .enter(Measurand::SuctionLine, "10 °C")?
//!     .enter(Measurand::LiquidLine, "45 °C")?
//!     .ambient("30 °C".parse()?);
//! let reading = entry.reading(r, Settings::TEST, &Instruments::analogue(r))?;
//! let line = |line| reading.temperature(line).unwrap();
//! let suction = Line::from_gauge(r, reading.low().unwrap(), reading.air(), line(Measurand::SuctionLine))?;
//! let liquid = Line::from_gauge(r, reading.high().unwrap(), reading.air(), line(Measurand::LiquidLine))?;
//! assert_eq!(suction.to_string(), "superheat 7.4 ± 2.5 K (95 %)");
//! assert_eq!(liquid.to_string(), "subcooling 6.8 ± 2.6 K (95 %)");
//! # Ok::<(), satline::Error>(())
//! ```
//!
//! # Where the ± comes from
//!
//! Independent uncertainties add in quadrature. To that superheat the gauge contributes 1.7 K, the clamped thermometer
//! 1.8 K, and the weather 0.2 K. Together they make 2.5 K, less than their sum. A limit of error is taken as a uniform
//! distribution between its ends; that of a class 1.6 gauge is 1.6 % of its full scale. Digital probes and thermistors
//! reduce ± 2.5 K to ± 1.7 K. The error of a good clamp on a tube in warm air is included; that of a loose one is not.
//!
//! ```
//! use satline::quantity::instrument::{PressureGauge, Thermometer};
//! use satline::saturation::Lines;
//! use satline::{GaugePressure, Length, Line, Refrigerant, Temperature, air};
//! let (r, day) = (Refrigerant::R134a, Some(Temperature::from_celsius(30.0)));
//! let (low, tube) = (GaugePressure::from_psi(32.0), Temperature::from_celsius(10.0));
//! let (gauge, weather) = (PressureGauge::SERVICE_LOW.read(low)?, air::pressure_at(Length::from_m(0.0))?);
//! let clamp = Thermometer::CLAMPED_THERMOCOUPLE.read(tube, day)?;
//! let boils = r.saturation_temperature(low.absolute(weather.value()))?;
//! let slope = r.dew_slope_pa_per_kelvin(boils)?; // Pa for a kelvin: turns a pressure's ± into a temperature's
//! let parts = [gauge.expanded().pa() / slope, clamp.expanded().kelvins(), weather.expanded().pa() / slope];
//! assert_eq!(parts.map(|k| format!("{k:.1} K")), ["1.7 K", "1.8 K", "0.2 K"]);
//! assert_eq!(format!("{:.1} K", parts.iter().map(|k| k * k).sum::<f64>().sqrt()), "2.5 K");
//! assert_eq!(PressureGauge::SERVICE_LOW.limit.percent(), 1.6);
//! let finer = PressureGauge::SERVICE_LOW.digital().read(low)?;
//! let line = Line::from_gauge(r, finer, weather, Thermometer::CLAMPED_DIGITAL.read(tube, day)?)?;
//! assert_eq!(format!("{:.1} K", line.superheat().unwrap().expanded().kelvins()), "1.7 K");
//! # Ok::<(), satline::Error>(())
//! ```
//!
//! # What is usual
//!
//! With a thermostatic expansion valve the trade expects 3 to 10 K of superheat at the evaporator outlet and 2 to 8 K
//! of subcooling: common practice without a source, and the crate marks it as such. An orifice tube does not control
//! superheat. Downstream of an internal heat exchanger, usual with R-1234yf, the suction line is warmer. And ± 2.5 K
//! is wide by comparison: 7.4 ± 2.5 K is consistent with 5 K and with 9 K. Never turn an adjusting screw for the
//! difference.
//!
//! ```
//! use satline::Trust;
//! use satline::expected::{SUBCOOLING, SUPERHEAT};
//! let span = |fact: satline::Sourced<satline::Range<satline::TemperatureDifference>>| {
//!     format!("{:.0} to {:.0} K", fact.value.low.kelvins(), fact.value.high.kelvins())
//! };
//! assert_eq!((span(SUPERHEAT), span(SUBCOOLING)), ("3 to 10 K".to_owned(), "2 to 8 K".to_owned()));
//! assert_eq!(SUPERHEAT.source.trust, Trust::CommonPractice);
//! assert!(7.4 - 2.5 < 5.0 && 7.4 + 2.5 > 9.0);
//! ```
//!
//! **Safety** The thermometer is fitted with the engine running: keep hands, hoses and sleeves away from belts and
//! fans. The discharge line is hot enough to burn. On a hybrid the orange cables run beside these tubes; they are for
//! trained people only.
//!
//! # Exercises
//!
//! 1. The suction line reads 4 °C at the same 32 psi, with the same instruments on the same day. Is the superheat
//!    clear of zero?
//! 2. The gauge reads 17 kPa too high, which class 1.6 allows. By how much is the superheat then understated?
//! 3. R-407C at 5 bar absolute, suction line at 8 °C. What is the superheat, and what would it be from the bubble
//!    line, which is the wrong one?
//!
//! # Answers
//!
//! 1. No: it is 1.4 ± 2.6 K, an interval that includes zero.
//! 2. By 1.5 K.
//! 3. 5.6 K; from the bubble line it would be 11.9 K.
//!
//! <details><summary>The working</summary>
//!
//! ```
//! use satline::quantity::instrument::{PressureGauge, Thermometer};
//! use satline::saturation::Lines;
//! use satline::{GaugePressure, Length, Line, Pressure, Refrigerant, Temperature, air};
//! let (r, low, weather) = (Refrigerant::R134a, GaugePressure::from_psi(32.0), air::pressure_at(Length::from_m(0.0))?);
//! let tube = Thermometer::CLAMPED_THERMOCOUPLE
//!     .read(Temperature::from_celsius(4.0), Some(Temperature::from_celsius(30.0)))?;
//! let line = Line::from_gauge(r, PressureGauge::SERVICE_LOW.read(low)?, weather, tube)?;
//! assert_eq!(line.to_string(), "superheat 1.4 ± 2.6 K (95 %)");
//! let slope = r.dew_slope_pa_per_kelvin(line.saturation().unwrap().dew.value())?;
//! assert_eq!(format!("{:.1} K", 17e3 / slope), "1.5 K"); // 17 kPa
//! let (blend, p, t) = (Refrigerant::R407C, Pressure::from_bar(5.0), Temperature::from_celsius(8.0));
//! assert_eq!(format!("{:.1} K", (t - blend.dew_temperature(p)?).kelvins()), "5.6 K");
//! assert_eq!(format!("{:.1} K", (t - blend.bubble_temperature(p)?).kelvins()), "11.9 K");
//! # Ok::<(), satline::Error>(())
//! ```
//!
//! </details>
