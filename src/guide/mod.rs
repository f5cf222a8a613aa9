//! The physics behind the answers, in order, for learning and for teaching.
//!
//! It is written for three readers: an apprentice who stands at the car, an educator who explains it, and somebody who
//! builds an app on this crate. Each chapter is short, ends with exercises, and gives their answers.
//!
//! | chapter | question |
//! |---|---|
//! | [`saturation`] | What does a pressure say about a temperature? |
//! | [`superheat`] | How far is a line from boiling, and how sure is that? |
//! | [`windows`] | Which pressures does this day allow? |
//! | [`causes`] | Which fault explains a reading? |
//! | [`vacuum`] | Is the circuit dry and tight? |
//! | [`charge`] | How much refrigerant goes back in? |
//! | [`oil`] | How much oil, and which ounce is meant? |
//! | [`rest`] | What do the gauges say with the engine off? |
//!
//! # How to read the numbers
//!
//! Every number in the text is computed by the code beside it, and the tests of the crate run that code. When the crate
//! changes, the text must change too. So you may copy the code, put in your own reading, and compare.
//!
//! A value comes with ±, the half width of its 95 % interval: of twenty such intervals about one misses the truth. It
//! counts the instruments that were named. It does not count a clamp on a painted tube or a thermometer in the sun.
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
//! The circuit is under pressure even with the engine off. Liquid refrigerant freezes skin and eyes: goggles and
//! gloves. Belts and fans catch sleeves, and a fan may start by itself. Some refrigerants burn. Orange cables carry
//! dangerous voltage. [`cautions`](crate::report::cautions) lists what counts for a refrigerant; print it wherever your
//! app sends somebody to a car.
//!
//! ```
//! use satline::{Refrigerant, report};
//! let list = report::cautions(Refrigerant::R1234yf);
//! assert!(list.iter().any(|line| line.contains("flammable")));
//! assert!(list.iter().any(|line| line.contains("orange cables are for trained people only")));
//! ```
//!
//! # What the crate is not
//!
//! It is not the maker's manual, and the maker's figures for the car go first. It is no licence, no training and no
//! recovery machine. It is not a charging guide: charge goes by weight. It proves nothing: a cause it names is the
//! likeliest of those it models, until somebody has looked.
//!
//! Properties of refrigerants are checked against published tables, row by row. The computed windows and the causes are
//! weaker: no complete measured car and no measured fault could be found to test them on. Their chapters say what is
//! known of that.
//!
//! # How to cite
//!
//! Cite the source of a number first: every refrigerant carries it, as
//! [`dew_line().source`](crate::saturation::Wagner::source), and so does every chart and every range. Then cite this
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
