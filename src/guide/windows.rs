//! The day's window: which pressures a healthy car may show on this day.
//!
//! # Why charts differ by two
//!
//! A hot day raises both sides, so a pressure means nothing without the day. Makers print charts: at this ambient,
//! these pressures. Each chart was made for one car. At 30 °C two cars on one page of one manual have the middles of
//! their high sides at 1211 kPa and 2355 kPa, a factor of 1.9. The low sides of all charts together reach from 90 kPa
//! to 430 kPa. None need be wrong, but a reading inside that wide band proves little.
//!
//! ```
//! use satline::circuit::Settings;
//! use satline::window::{Book, Conditions, Side};
//! use satline::{Pressure, Ratio, Refrigerant, Temperature};
//! let book = Book::new(Refrigerant::R134a)?;
//! let day = Conditions {
//!     ambient: Temperature::from_celsius(30.0),
//!     humidity: Some(Ratio::from_percent(50.0)),
//!     air: Pressure::STANDARD_ATMOSPHERE,
//!     running: Settings::TEST,
//! };
//! let high = book.pressure(Side::High, &day);
//! let middle = |id| high.bands.iter().find(|band| band.chart.id == id).unwrap().range.at(0.5).kpa();
//! let (b, a) = (middle("offroad-b"), middle("offroad-a"));
//! assert_eq!(format!("{b:.0} {a:.0} {:.1}", a / b), "1211 2355 1.9");
//! let low = book.pressure(Side::Low, &day).range().unwrap();
//! assert_eq!(format!("{:.0} kPa to {:.0} kPa", low.low.kpa(), low.high.kpa()), "90 kPa to 430 kPa");
//! # Ok::<(), satline::Error>(())
//! ```
//!
//! # The loop
//!
//! What settles the pressures is a balance. The evaporator takes heat from the air of the cabin and needs its
//! refrigerant colder than that air. The condenser gives heat to the outside air and needs its refrigerant hotter. The
//! compressor moves as much as its stroke and speed allow, and the valve lets as much through. The pressures rise or
//! fall until all four agree, for the charge that is inside. [`system`](crate::circuit) computes that for one car.
//!
//! # A population instead of one car
//!
//! Nobody knows the sizes of the car before you. So the crate draws 256 cars with sizes from ranges, and balances each
//! for your day. The window is what they show. For R-134a cars with a thermostatic valve and a cycling clutch at 30 °C
//! and 50 % humidity, the low side is 168 to 277 kPa with its middle at 222 kPa. The high side is 1169 to 1663 kPa,
//! middle 1385 kPa. On a day of 35 °C the middle of the high side is 1556 kPa.
//!
//! The three numbers are the 5, 50 and 95 % points. One healthy car in twenty lies below the first, one above the last.
//! **Outside is not faulty**: 50 of these 256 healthy cars lie outside one of the two windows, and with superheat and
//! vent counted too it is 85. The ends are not sharp: beyond each lie 13 cars, and the ± of your gauge comes on top.
//!
//! ```
//! use satline::circuit::{OperatingPoint, Population, Settings, CircuitKind};
//! use satline::window::{Conditions, Window};
//! use satline::{Pressure, Ratio, Refrigerant, Temperature};
//! let kind = CircuitKind::main(Refrigerant::R134a)[0];
//! let (air, humidity) = (Pressure::STANDARD_ATMOSPHERE, Ratio::from_percent(50.0));
//! let window = |celsius| {
//!     let ambient = Temperature::from_celsius(celsius);
//!     Window::for_day(&kind, &Conditions { ambient, humidity: Some(humidity), air, running: Settings::TEST })
//! };
//! let day = window(30.0)?;
//! assert_eq!((day.cars(), (0.05 * 256.0_f64).round()), (256, 13.0));
//! let [low, _, middle, _, high] = day.low_side.five().map(|p| p.kpa().round());
//! assert_eq!([low, middle, high], [168.0, 222.0, 277.0]); // 5, 50 and 95 %
//! let [low, _, middle, _, high] = day.high_side.five().map(|p| p.kpa().round());
//! assert_eq!([low, middle, high], [1169.0, 1385.0, 1663.0]);
//! assert_eq!(format!("{:.0}", window(35.0)?.high_side.middle().kpa()), "1556");
//!
//! let (cars, mut of_two, mut of_four) = (Population::new(kind)?, 0, 0);
//! for i in 0..256 {
//!     let car = cars.car(i).run(&OperatingPoint::idle(Temperature::from_celsius(30.0), humidity, air))?;
//!     let out = !day.low_side.range().contains(car.low_side) || !day.high_side.range().contains(car.high_side);
//!     let more = !day.superheat.range().contains(car.superheat_at_port) || !day.vent.range().contains(car.vent);
//!     of_two += u32::from(out);
//!     of_four += u32::from(out || more);
//! }
//! assert_eq!((of_two, of_four), (50, 85));
//! # Ok::<(), satline::Error>(())
//! ```
//!
//! # How far to trust a window
//!
//! Most of the ranges are from memory and say so. No complete measured operating point of a car could be found to test
//! them on. Against makers' printed rows 26 of 29 high sides lie inside the window, but only 19 of 29 low sides. With
//! humidity the computed sides rise several times as fast as the one chart that prints it: 0 of 6 slopes agree.
//! `tables/WINDOWS.md` lists every row. The model has no sun on the car and no heat stored in the cabin; read with
//! doors open, in the shade, after the pressures have settled.
//!
//! ```
//! # let page = include_str!(concat!(env!("CARGO_MANIFEST_DIR"), "/tables/WINDOWS.md"));
//! assert!(page.contains("| low side | 19 | 29 | 66 % |") && page.contains("| high side | 26 | 29 | 90 % |"));
//! assert!(page.contains("| slope with humidity | 0 | 6 | 0 % |"));
//! ```
//!
//! **Mind** The engine runs while you read: belts, fans, hot lines, exhaust. Air the room.
//!
//! # Exercises
//!
//! 1. On that day of 30 °C, which share of the healthy cars shows less than 185 psi on the high side?
//! 2. The kind of car is not known. Between which pressures do nine tenths of the low sides of all four kinds lie?
//!
//! # Answers
//!
//! 1. 22 %.
//! 2. 185 to 281 kPa.
//!
//! <details><summary>The working</summary>
//!
//! ```
//! use satline::circuit::{Settings, CircuitKind};
//! use satline::window::{Conditions, Window};
//! use satline::{GaugePressure, Pressure, Ratio, Refrigerant, Temperature};
//! let kinds = CircuitKind::main(Refrigerant::R134a);
//! let day = Conditions {
//!     ambient: Temperature::from_celsius(30.0),
//!     humidity: Some(Ratio::from_percent(50.0)),
//!     air: Pressure::STANDARD_ATMOSPHERE,
//!     running: Settings::TEST,
//! };
//! let one = Window::for_day(&kinds[0], &day)?;
//! assert_eq!(format!("{:.0} %", one.high_side.share_below(GaugePressure::from_psi(185.0)).percent()), "22 %");
//! let all = Window::for_kinds(&kinds, &day)?.low_side.range();
//! assert_eq!(format!("{:.0} to {:.0} kPa", all.low.kpa(), all.high.kpa()), "185 to 281 kPa");
//! # Ok::<(), satline::Error>(())
//! ```
//!
//! </details>
