//! Oil: how much goes back in, in the right ounces.
//!
//! # Oil circulates
//!
//! Oil circulates with the refrigerant, and some of it stays in every part. A replaced part takes its oil with it. Too
//! little oil wears out the compressor; too much collects in the evaporator and impairs heat transfer. How much
//! belongs to a part is for the maker to say: there is no default, because parts differ.
//!
//! # Three ounces
//!
//! "oz" means three things. 8 oz of weight are 226.8 g. 8 US fluid ounces are 236.6 cm³. 8 imperial fluid ounces are
//! 227.3 cm³. The volume of an ounce of weight depends on the oil: 8 oz of an unspecified PAG at 25 °C are 229 ± 13
//! cm³.
//!
//! ```
//! use satline::service::oil::density::{PAG, volume_of};
//! use satline::{Mass, Measured, Temperature, Volume};
//! assert_eq!(format!("{:.1} g", Mass::from_oz(8.0).g()), "226.8 g");
//! assert_eq!(format!("{:.1} cm³", Volume::from_us_fluid_ounces(8.0).cm3()), "236.6 cm³");
//! assert_eq!(format!("{:.1} cm³", Volume::from_imperial_fluid_ounces(8.0).cm3()), "227.3 cm³");
//! let oil = volume_of(&Measured::exact(Mass::from_oz(8.0))?, &PAG.at(Temperature::from_celsius(25.0))?)?;
//! assert_eq!(format!("{:.0} ± {:.0} cm³", oil.value().cm3(), oil.expanded().cm3()), "229 ± 13 cm³");
//! # Ok::<(), satline::Error>(())
//! ```
//!
//! # What a label means
//!
//! A label that prints cm³ beside the ounces shows which ounces they are. 150 ± 10 cm³ beside 5.29 oz are ounces of
//! weight. 130 cm³ beside 4.6 oz are imperial fluid ounces. An invented pair, 90 to 110 cm³ beside 3.1 to 4.0 oz, fits no
//! ounce: such a label contradicts itself, and only its cm³ can be used until the maker has answered.
//!
//! ```
//! use satline::Error;
//! use satline::service::oil::label::{OilLabel, Ounce};
//! let ounces = |text: &str| text.parse::<OilLabel>()?.ounces();
//! assert_eq!(ounces("150±10 cc (5.29±0.35 oz)")?, [[Ounce::Weight]]);
//! assert_eq!(ounces("130 cc (4.6 fl oz)")?, [[Ounce::ImperialFluid]]);
//! assert!(matches!(ounces("90–110 cm³ (3.1–4.0 oz)"), Err(Error::LabelContradicts { .. })));
//! # Ok::<(), satline::Error>(())
//! ```
//!
//! # A new compressor
//!
//! A new compressor often comes with oil for the whole circuit. Then some of it must be drained. One family of rules
//! says: drain what it holds, less what was drained from the old compressor and less what stays on the walls of the
//! old one. With 120 cm³ inside, 60 cm³ drained and 20 cm³ that cannot be drained, remove 40 cm³. Other makers print
//! other rules, and the crate prefers none. Drain the old compressor on the bench through every opening, turning the
//! hub by hand, into a graduated container.
//!
//! ```
//! use satline::Volume;
//! use satline::service::oil::compressor::{CompressorOilRule, CompressorSupply};
//! let contents = Volume::from_cm3(120.0);
//! let rule = CompressorOilRule::Subtract { residual: Volume::from_cm3(20.0), little: None };
//! let left = rule.oil_left(CompressorSupply::Filled { contents }, Volume::from_cm3(60.0))?;
//! let out = contents - left.low;
//! assert_eq!(format!("{:.0} cm³", out.cm3()), "40 cm³");
//! # Ok::<(), satline::Error>(())
//! ```
//!
//! **Safety** Oil for an electric compressor must insulate: use the oil that the maker names, and no other. The wrong
//! oil can put high voltage on the housing (common practice, no source). Work on orange cables is for trained people
//! only. PAG and POE absorb water from the air: close the bottle at once. Keep oil off skin and paint.
//!
//! # Exercises
//!
//! 1. A bottle of PAG loses 100 g on the scale at 25 °C. How many cm³ is that, and how well is it known without a data
//!    sheet?
//! 2. A label says "8 oz" and nothing else. Which ounces can it be?
//!
//! # Answers
//!
//! 1. 101 ± 6 cm³.
//! 2. Any of the three: ask the maker. The fluid ounces alone differ by 9 cm³, even before the density of the oil
//!    matters.
//!
//! <details><summary>The working</summary>
//!
//! ```
//! use satline::service::oil::density::{PAG, volume_of};
//! use satline::service::oil::label::{OilLabel, Ounce};
//! use satline::{Mass, Measured, Temperature, Volume};
//! let oil = volume_of(&Measured::exact(Mass::from_g(100.0))?, &PAG.at(Temperature::from_celsius(25.0))?)?;
//! assert_eq!(format!("{:.0} ± {:.0} cm³", oil.value().cm3(), oil.expanded().cm3()), "101 ± 6 cm³");
//! let which = "8 oz".parse::<OilLabel>()?.ounces()?;
//! assert_eq!(which, [[Ounce::Weight, Ounce::UsFluid, Ounce::ImperialFluid]]);
//! let between = Volume::from_us_fluid_ounces(8.0) - Volume::from_imperial_fluid_ounces(8.0);
//! assert_eq!(format!("{:.0} cm³", between.cm3()), "9 cm³");
//! # Ok::<(), satline::Error>(())
//! ```
//!
//! </details>
