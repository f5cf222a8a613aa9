//! The physics behind the answers, chapter by chapter, for learning and teaching.
//!
//! The guide has three readers in mind: the apprentice at the car, the instructor, and the developer of an app on this
//! crate. Each chapter is short and ends with exercises and their answers.
//!
//! | chapter | question |
//! |---|---|
//! | [`saturation`] | Which temperature does a pressure stand for? |
//! | [`superheat`] | How far is a line from saturation, and how certain is that? |
//! | [`windows`] | Which pressures are normal on this day? |
//! | [`causes`] | Which fault explains a reading? |
//! | [`vacuum`] | Is the circuit dry and tight? |
//! | [`charge`] | How much refrigerant goes back in? |
//! | [`oil`] | How much oil, and which ounce is meant? |
//! | [`rest`] | What does the equalised pressure say with the engine off? |
//!
//! # How to read the numbers
//!
//! The code beside the text computes every number in it, and the tests of the crate run that code: if the crate
//! changes, the text must follow. Copy the code, enter your own reading, and compare.
//!
//! A value comes with ±, the half width of its 95 % interval: about one in twenty such intervals misses the true
//! value. It covers the instruments that were named, but not a clamp on a painted tube or a thermometer in the sun.
//!
//! ```
//! use satline::{Measured, Temperature, TemperatureDifference};
//! let t = Measured::new(Temperature::from_celsius(8.0), TemperatureDifference::from_kelvins(1.0))?;
//! assert_eq!(format!("{:.0} ± {:.1} K", t.value().celsius(), t.expanded().kelvins()), "8 ± 2.0 K");
//! let inside = 1.0 - 2.0 * t.probability_below(t.value() - t.expanded());
//! assert_eq!(format!("{:.0} %", 100.0 * inside), "95 %");
//! # Ok::<(), satline::Error>(())
//! ```
//!
//! # Before hands go near a car
//!
//! The circuit is under pressure even with the engine off. Wear goggles and gloves: liquid refrigerant freezes skin
//! and eyes. Belts and fans catch sleeves, and a fan may start by itself. Some refrigerants are flammable. Orange
//! cables carry dangerous voltage. [`cautions`](crate::report::cautions) lists the cautions for a refrigerant; show
//! them wherever your app sends somebody to a car.
//!
//! ```
//! use satline::{Refrigerant, report};
//! let list = report::caution_sentences(Refrigerant::R1234yf);
//! assert!(list.iter().any(|line| line.contains("flammable")));
//! assert!(list.iter().any(|line| line.contains("orange cables are for trained people only")));
//! ```
//!
//! # What the crate is not
//!
//! It is not the maker's manual: the maker's figures for the car take precedence. It is no licence, no training and no
//! recovery machine. It is not a charging guide: refrigerant is charged by weight. It proves nothing: a cause it names
//! is the most probable one of those it models, until somebody has looked.
//!
//! Refrigerant properties are checked against published tables, row by row. The computed windows and the causes rest
//! on weaker ground: neither a complete set of measurements of a healthy car nor a measured fault could be found to
//! test them on. Their chapters say what is known about their accuracy.
//!
//! # How to cite
//!
//! Cite the source of a number first: every refrigerant carries it, as
//! [`dew_line().source`](crate::saturation::Wagner::source), and so do every chart and every range. Then cite this
//! crate by the title and version in its file `CITATION.cff`. The example `accuracy_page` prints both for a
//! refrigerant.
//!
//! ```
//! use satline::Refrigerant;
//! let source = Refrigerant::R134a.dew_line().source;
//! assert_eq!(source.doi, Some("10.1063/1.555958"));
//! ```

pub mod causes;
pub mod charge;
pub mod oil;
pub mod rest;
pub mod saturation;
pub mod superheat;
pub mod vacuum;
pub mod windows;
