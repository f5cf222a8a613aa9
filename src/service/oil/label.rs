//! Meaning of a printed amount of oil: which ounce a label counts in, or that it contradicts itself.
//!
//! "oz" is three things: 28.35 g of weight, a US fluid ounce of 29.57 cm³, an imperial one of 28.41 cm³. A label that prints
//! cm³ beside it determines which: a round cm³ figure is taken as exact, and the ounces must follow from it to their
//! last digit.

use std::str::FromStr;

use super::density;
use crate::quantity::{Density, MassUnit, VolumeUnit};
use crate::service::label_parser::{self, Number, Printed, What};
use crate::service::validate;
use crate::{Error, Mass, Range, Volume};

/// Meaning of "oz" on an oil label: weight, or US or imperial fluid ounce.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(rename_all = "kebab-case"))]
pub enum Ounce {
    /// The ounce of weight, 28.35 g; how many cm³ that is depends on the density of the oil.
    Weight,
    /// The US fluid ounce, 29.57 cm³.
    UsFluid,
    /// The imperial fluid ounce, 28.41 cm³.
    ImperialFluid,
    /// The US fluid ounce counted as 30 cm³, as some manuals do throughout; tried only when nothing else fits.
    ThirtyMillilitres,
}

/// The US fluid ounce as some manuals count it, cm³ (`tables/service/oil.csv`).
const MANUALS_OUNCE_ML: f64 = 30.0;

impl Ounce {
    /// What one ounce holds, or weighs.
    fn size(self) -> Size {
        match self {
            Self::Weight => Size::Mass(MassUnit::Ounce.factor()),
            Self::UsFluid => Size::Volume(VolumeUnit::UsFluidOunce.factor()),
            Self::ImperialFluid => Size::Volume(VolumeUnit::ImperialFluidOunce.factor()),
            Self::ThirtyMillilitres => Size::Volume(MANUALS_OUNCE_ML * VolumeUnit::Millilitre.factor()),
        }
    }
}

/// One unit in kg or m³.
#[derive(Debug, Clone, Copy, PartialEq)]
enum Size {
    Mass(f64),
    Volume(f64),
}

/// An amount of oil as a label prints it, in cm³ or g, in ounces, or in both.
///
/// ```
/// use satline::Error;
/// use satline::service::oil::label::{OilLabel, Ounce};
/// let kia: OilLabel = "150±10 cc (5.29±0.35 oz)".parse()?;
/// assert_eq!(kia.ounces()?, [[Ounce::Weight]]); // with 1 cm³ taken as 1 g
/// let lexus: OilLabel = "130 cc (4.6 fl oz)".parse()?;
/// assert_eq!(lexus.ounces()?, [[Ounce::ImperialFluid]]);
/// let invented: OilLabel = "90–110 cm³ (3.1–4.0 oz)".parse()?; // a pair of our own that contradicts itself
/// assert!(matches!(invented.ounces(), Err(Error::LabelContradicts { .. })));
/// # Ok::<(), satline::Error>(())
/// ```
#[derive(Debug, Clone, PartialEq)]
pub struct OilLabel {
    text: String,
    metric: Option<(Printed, Size)>,
    ounces: Vec<(Printed, Vec<Ounce>)>,
}

/// A metric amount of oil on a label, as a volume or as a mass.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) enum LabelAmount {
    /// Printed as a volume.
    Volume(Range<Volume>),
    /// Printed as a mass.
    Mass(Range<Mass>),
}

/// Reading of one amount in ounces.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct OunceReading {
    /// As printed.
    pub(crate) printed: String,
    /// Its numbers as printed.
    pub(crate) numbers: Vec<String>,
    /// The metric numbers they stand beside, with their unit; empty where there is nothing to compare with.
    pub(crate) beside: Vec<String>,
    /// Each ounce it can be, tried.
    pub(crate) trials: Vec<OunceTrial>,
    /// Verdict on the amount.
    pub(crate) verdict: OunceVerdict,
}

/// One ounce, tried against the printed metric figure.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct OunceTrial {
    /// The ounce.
    pub(crate) ounce: Ounce,
    /// The amount in this ounce, as a volume; a weight with the densities of compressor oils.
    pub(crate) volume: Range<Volume>,
    /// Number by number, what the metric figure would read in this ounce; empty without a metric figure, and where the
    /// density decides.
    pub(crate) would_read: Vec<f64>,
    /// Where mass stands against volume: the densities at which the printed figures agree, number by number.
    pub(crate) density: Vec<Range<Density>>,
    /// Whether every number agrees to its last digit, at one density of a compressor oil where one is needed; none
    /// without a metric figure.
    pub(crate) fits: Option<bool>,
}

/// Verdict on the ounces of a label.
#[derive(Debug, Clone, PartialEq, Eq, Hash)]
pub(crate) enum OunceVerdict {
    /// One ounce fits: this one.
    Is(Ounce),
    /// Several ounces fit: the digits are too few to distinguish them.
    OneOf(Vec<Ounce>),
    /// No ounce fits: the label contradicts itself.
    Contradiction,
    /// There is nothing to compare with: it can be any of these, and the maker must be asked.
    Ask(Vec<Ounce>),
}

impl OilLabel {
    /// Text of the label, as it was given.
    pub fn text(&self) -> &str {
        &self.text
    }

    /// The printed cm³, mL or g; none on a label in ounces alone.
    pub(crate) fn metric(&self) -> Option<LabelAmount> {
        let (printed, size) = self.metric.as_ref()?;
        let (low, high) = printed.span();
        Some(match size {
            Size::Volume(unit) => {
                LabelAmount::Volume(Range::new(Volume::from_m3(low * unit), Volume::from_m3(high * unit)))
            }
            Size::Mass(unit) => LabelAmount::Mass(Range::new(Mass::from_kg(low * unit), Mass::from_kg(high * unit))),
        })
    }

    /// Ounces that each printed amount can be in, in the order of the label; empty for a label without ounces.
    ///
    /// Several if the digits are too few to distinguish them, or if there is nothing to compare with and the maker must be asked.
    ///
    /// # Errors
    /// [`Error::LabelContradicts`] where no ounce fits the metric figure.
    pub fn ounces(&self) -> Result<Vec<Vec<Ounce>>, Error> {
        let readings = self.readings();
        self.agrees(&readings)?;
        Ok(readings
            .into_iter()
            .map(|reading| match reading.verdict {
                OunceVerdict::Is(ounce) => vec![ounce],
                OunceVerdict::OneOf(ounces) | OunceVerdict::Ask(ounces) => ounces,
                OunceVerdict::Contradiction => Vec::new(),
            })
            .collect())
    }

    /// Verdict on each printed amount of ounces, in the order of the label.
    pub(crate) fn verdicts(&self) -> Vec<OunceVerdict> {
        self.readings().into_iter().map(|reading| reading.verdict).collect()
    }

    /// Checks that an ounce fits the metric figure in each of `readings`.
    fn agrees(&self, readings: &[OunceReading]) -> Result<(), Error> {
        let Some(reading) = readings.iter().find(|reading| reading.verdict == OunceVerdict::Contradiction) else {
            return Ok(());
        };
        let metric = self.metric.as_ref().map_or(String::new(), |(printed, _)| printed.text.clone());
        Err(Error::LabelContradicts {
            what: "amount of oil",
            text: self.text.clone(),
            reason: format!("{metric} is not {} in any ounce", reading.printed),
        })
    }

    /// Each printed amount of ounces against the metric figure.
    ///
    /// - **Equation** a fluid ounce fits when |V/U − n| ≤ half a unit of the last printed digit of n, U the ounce; where V is
    ///   no multiple of 5 cm³ and may be the conversion itself, also when |n U − V| ≤ half a unit of the last of V. A weight
    ///   fits when the densities (n ± half) 28.35 g/V of all its numbers have one in common that a compressor oil can have
    ///   ([`density::BAND`]).
    pub(crate) fn readings(&self) -> Vec<OunceReading> {
        self.ounces.iter().map(|(printed, candidates)| self.reading(printed, candidates)).collect()
    }

    /// Amount of oil as a volume: the printed cm³, or the ounces if they can be but one thing.
    ///
    /// A label in grams is spread over the densities of compressor oils.
    ///
    /// # Errors
    /// [`Error::LabelContradicts`] where no ounce fits the metric figure; [`Error::UnitAmbiguous`] for ounces alone.
    pub fn volume(&self) -> Result<Range<Volume>, Error> {
        let readings = self.readings();
        self.agrees(&readings)?;
        match self.metric() {
            Some(LabelAmount::Volume(range)) => Ok(range),
            Some(LabelAmount::Mass(range)) => Ok(density::spread(&range)),
            None => match readings.first() {
                Some(OunceReading { verdict: OunceVerdict::Is(ounce), trials, .. }) => {
                    let trial = trials.iter().find(|trial| trial.ounce == *ounce);
                    trial.map(|trial| trial.volume).ok_or_else(|| self.ambiguous())
                }
                _ => Err(self.ambiguous()),
            },
        }
    }

    fn ambiguous(&self) -> Error {
        let weighed = self.ounces.iter().any(|(_, candidates)| candidates.contains(&Ounce::Weight));
        Error::UnitAmbiguous {
            what: OIL.name,
            text: self.text.clone(),
            unit: if weighed { "oz" } else { "fl oz" }.to_owned(),
            meanings: if weighed {
                "an ounce of weight (28.35 g), a US fluid ounce (29.57 mL) or an imperial fluid ounce (28.41 mL)"
            } else {
                "a US fluid ounce (29.57 mL) or an imperial fluid ounce (28.41 mL)"
            },
        }
    }

    fn reading(&self, printed: &Printed, candidates: &[Ounce]) -> OunceReading {
        let metric = self.metric.as_ref().filter(|(metric, _)| metric.form == printed.form);
        let mut trials: Vec<OunceTrial> =
            candidates.iter().map(|&ounce| trial(ounce, printed, metric.map(|(m, size)| (m, *size)))).collect();
        let fitting = |trials: &[OunceTrial]| -> Vec<Ounce> {
            trials.iter().filter(|trial| trial.fits == Some(true)).map(|trial| trial.ounce).collect()
        };
        let mut fit = fitting(&trials);
        if fit.is_empty() && metric.is_some() && candidates.contains(&Ounce::UsFluid) {
            let round = trial(Ounce::ThirtyMillilitres, printed, metric.map(|(m, size)| (m, *size)));
            if round.fits == Some(true) {
                trials.push(round);
                fit = fitting(&trials);
            }
        }
        // a span beside a single number cannot be compared
        let verdict = match (fit.as_slice(), metric.is_some(), candidates) {
            ([one], ..) => OunceVerdict::Is(*one),
            ([], true, _) => OunceVerdict::Contradiction,
            ([], false, [one]) => OunceVerdict::Is(*one),
            ([], false, _) => OunceVerdict::Ask(candidates.to_vec()),
            _ => OunceVerdict::OneOf(fit),
        };
        OunceReading {
            printed: printed.text.clone(),
            numbers: printed.numbers.iter().map(|number| number.text.clone()).collect(),
            beside: metric.map_or(Vec::new(), |(metric, _)| {
                metric.numbers.iter().map(|number| format!("{} {}", number.text, metric.unit)).collect()
            }),
            trials,
            verdict,
        }
    }
}

/// Whatever remains of a sum in binary digits; our choice.
const CRUMB: f64 = 1e-9;
/// Multiples that are designed in, m³ and kg: 5 cm³ and 5 g; our choice.
const DESIGNED: (f64, f64) = (5e-6, 5e-3);
/// How far from a multiple rounding may put a number; our choice.
const OFF_DESIGN: f64 = 1e-6;

/// Whether a metric number may itself be a conversion: nobody designs 104 cm³.
fn converted(number: &Number, size: Size) -> bool {
    let (Size::Volume(unit) | Size::Mass(unit)) = size;
    let round = number.value * unit
        / match size {
            Size::Volume(_) => DESIGNED.0,
            Size::Mass(_) => DESIGNED.1,
        };
    (round - round.round()).abs() > OFF_DESIGN
}

fn trial(ounce: Ounce, printed: &Printed, metric: Option<(&Printed, Size)>) -> OunceTrial {
    let (low, high) = printed.span();
    let volume = match ounce.size() {
        Size::Volume(unit) => Range::new(Volume::from_m3(low * unit), Volume::from_m3(high * unit)),
        Size::Mass(unit) => density::spread(&Range::new(Mass::from_kg(low * unit), Mass::from_kg(high * unit))),
    };
    let mut trial = OunceTrial { ounce, volume, would_read: Vec::new(), density: Vec::new(), fits: None };
    let Some((metric, size)) = metric else { return trial };
    let pairs = || metric.numbers.iter().zip(&printed.numbers);
    let converted = metric.numbers.iter().any(|number| converted(number, size));
    match (size, ounce.size()) {
        (Size::Volume(unit), Size::Volume(ounce)) | (Size::Mass(unit), Size::Mass(ounce)) => {
            trial.would_read = metric.numbers.iter().map(|number| number.value * unit / ounce).collect();
            // |V/U − n| ≤ half a unit of the last digit of n
            let forth = pairs()
                .all(|(metric, number)| (metric.value * unit / ounce - number.value).abs() <= number.half + CRUMB);
            // |n U − V| ≤ half a unit of the last digit of V
            let back = pairs()
                .all(|(metric, number)| (number.value * ounce / unit - metric.value).abs() <= metric.half + CRUMB);
            trial.fits = Some(forth || (converted && back));
        }
        (Size::Volume(_), Size::Mass(_)) | (Size::Mass(_), Size::Volume(_)) => {
            trial.density =
                pairs().map(|(metric, number)| densities(metric, size, number, ounce.size(), converted)).collect();
        }
    }
    if trial.fits.is_none() {
        let mut low = density::BAND.value.low;
        let mut high = density::BAND.value.high;
        for range in &trial.density {
            low = if range.low >= low { range.low } else { low };
            high = if range.high <= high { range.high } else { high };
        }
        trial.fits = Some(low <= high);
    }
    trial
}

/// The densities at which a mass and a volume printed side by side agree, to the digits of the one that was converted.
fn densities(metric: &Number, size: Size, number: &Number, ounce: Size, converted: bool) -> Range<Density> {
    let (Size::Volume(unit) | Size::Mass(unit)) = size;
    let (Size::Volume(of_ounce) | Size::Mass(of_ounce)) = ounce;
    let slack = if converted { metric.half } else { 0.0 };
    let at = |metric: f64, number: f64| {
        let (metric, number) = (metric * unit, number * of_ounce);
        let (mass, volume) = if matches!(size, Size::Mass(_)) { (metric, number) } else { (number, metric) };
        if volume > 0.0 { mass / volume } else { f64::INFINITY }
    };
    let ends = [
        at(metric.value, number.value - number.half),
        at(metric.value, number.value + number.half),
        at(metric.value - slack, number.value),
        at(metric.value + slack, number.value),
    ];
    let (low, high) = ends.into_iter().fold((f64::INFINITY, 0.0f64), |(low, high), end| (low.min(end), high.max(end)));
    Range::new(Density::from_kg_per_m3(low), Density::from_kg_per_m3(high))
}

/// What a unit on a label says.
enum LabelUnit {
    Metric(Size),
    Ounces(Vec<Ounce>),
}

/// Words that the name of an ounce is made of, a longer one before its beginning.
const OUNCE_WORDS: [&str; 16] = [
    "avoirdupois",
    "avdp",
    "av",
    "imperial",
    "imp",
    "uk",
    "us",
    "fluid",
    "fl",
    "ounces",
    "ounce",
    "ozs",
    "oz",
    "weight",
    "wt",
    "by",
];

/// Whether `plain` is made of the words of an ounce alone: behind a second amount there is more.
fn names_an_ounce(plain: &str) -> bool {
    let mut rest = plain;
    while let Some(after) = OUNCE_WORDS.iter().find_map(|word| rest.strip_prefix(word)) {
        rest = after;
    }
    rest.is_empty() && (plain.contains("oz") || plain.contains("ounce"))
}

fn unit(name: &str, text: &str) -> Result<LabelUnit, Error> {
    let plain: String = name.to_lowercase().replace(['.', ' ', ',', '-'], "");
    let us = plain.starts_with("us");
    let imperial = plain.starts_with("imp") || plain.starts_with("uk");
    let fluid = plain.contains("fl");
    let weight = plain.contains("wt") || plain.contains("av") || plain.contains("weight");
    let ounce = names_an_ounce(&plain);
    Ok(match (ounce, us, imperial, fluid, weight) {
        (true, false, false, false, true) => LabelUnit::Ounces(vec![Ounce::Weight]),
        (true, true, false, _, false) => LabelUnit::Ounces(vec![Ounce::UsFluid]),
        (true, false, true, _, false) => LabelUnit::Ounces(vec![Ounce::ImperialFluid]),
        (true, false, false, true, false) => LabelUnit::Ounces(vec![Ounce::UsFluid, Ounce::ImperialFluid]),
        (true, false, false, false, false) => {
            LabelUnit::Ounces(vec![Ounce::Weight, Ounce::UsFluid, Ounce::ImperialFluid])
        }
        _ => match crate::quantity::unit_named::<Mass>(name) {
            Ok(unit) => LabelUnit::Metric(Size::Mass(unit.factor())),
            Err(_) => {
                let unit = crate::quantity::unit_named::<Volume>(name).map_err(|_| Error::UnitUnknown {
                    what: OIL.name,
                    text: text.to_owned(),
                    unit: name.to_owned(),
                    units: OIL.units.to_owned(),
                })?;
                LabelUnit::Metric(Size::Volume(unit.factor()))
            }
        },
    })
}

/// The units of an amount of oil.
const OIL: What = What { name: "amount of oil", units: "cm³, mL, L, g, oz, fl oz, US fl oz, imp fl oz, oz wt" };

impl FromStr for OilLabel {
    type Err = Error;

    /// Amounts in cm³, mL, L or g and in ounces, the second and later ones in brackets or after a comma, a semicolon or "=".
    ///
    /// # Errors
    /// [`Error::UnitMissing`], [`Error::UnitUnknown`], [`Error::NotANumber`] and its kin; [`Error::Impossible`] for a span
    /// that falls, inside [`Error::About`]; [`Error::LabelContradicts`] for two metric amounts that differ.
    fn from_str(text: &str) -> Result<Self, Error> {
        validate::text(OIL.name, text)?;
        let mut label = Self { text: text.trim().to_owned(), metric: None, ounces: Vec::new() };
        for printed in label_parser::amounts(OIL, text)? {
            match (unit(&printed.unit, text)?, &label.metric) {
                (LabelUnit::Ounces(candidates), _) => label.ounces.push((printed, candidates)),
                (LabelUnit::Metric(size), None) => label.metric = Some((printed, size)),
                (LabelUnit::Metric(Size::Volume(unit)), Some((first, Size::Volume(other)))) => {
                    let ((a, b), (c, d)) = (first.span(), printed.span());
                    let apart = (a * other - c * unit).abs().max((b * other - d * unit).abs());
                    if apart > CRUMB * b * other {
                        return Err(Error::LabelContradicts {
                            what: OIL.name,
                            text: text.to_owned(),
                            reason: format!("{} is not {}", first.text, printed.text),
                        });
                    }
                }
                // a mass beside a volume: the density decides, and the volume stands
                (LabelUnit::Metric(Size::Mass(_)), Some(_)) => {}
                (LabelUnit::Metric(size @ Size::Volume(_)), Some((_, Size::Mass(_)))) => {
                    label.metric = Some((printed, size));
                }
            }
        }
        Ok(label)
    }
}

#[cfg(feature = "serde")]
crate::service::validate::serde_as_text!(OilLabel, |label| label.text());
