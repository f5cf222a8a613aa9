//! Sentences about the ounces on an oil label: each ounce tried, then the verdict.

use super::Language;
use crate::Range;
use crate::quantity::Volume;
use crate::service::oil::label::{LabelAmount, OilLabel, OunceReading, OunceTrial};

/// A statement about a label.
pub(super) enum LabelStatement<'a> {
    /// One ounce, tried.
    Tried {
        /// What is printed.
        reading: &'a OunceReading,
        /// The ounce and its arithmetic.
        trial: &'a OunceTrial,
        /// Whether it fits; `None` without a metric figure to compare with.
        fit: Option<Fit>,
    },
    /// The verdict on a printed amount of ounces.
    Verdict {
        /// What is printed, and the verdict.
        reading: &'a OunceReading,
        /// Whether the label has a metric figure.
        metric: bool,
    },
    /// The label prints no ounces.
    NoOunces,
    /// The label contradicts itself: the printed volume is all there is.
    OnlyTheVolume(Range<Volume>),
    /// The printed volume.
    Volume(Range<Volume>),
    /// The printed mass, as a volume.
    Mass(Range<Volume>),
}

/// Whether an ounce fits, and by what.
pub(super) enum Fit {
    /// By what the metric figure would read in it.
    Number {
        /// Whether it does.
        fits: bool,
    },
    /// By the density of the oil.
    Density {
        /// Whether it does.
        fits: bool,
        /// Whether several numbers ask for one density.
        several: bool,
    },
}

impl Fit {
    fn of(trial: &OunceTrial) -> Option<Self> {
        let fits = trial.fits?;
        Some(match trial.density.len() {
            0 => Self::Number { fits },
            count => Self::Density { fits, several: count > 1 },
        })
    }
}

/// Sentences about an oil label in English: each ounce tried, then the verdict.
///
/// ```
/// use satline::report::oil_label;
/// let words = oil_label(&"130 cc (4.6 fl oz)".parse()?);
/// assert_eq!(words[0], "4.6 fl oz, as US fluid ounces of 29.57 cm³: 130 cc would read 4.40. That does not fit.");
/// assert_eq!(words[1], "4.6 fl oz, as imperial fluid ounces of 28.41 cm³: 130 cc would read 4.58. That fits.");
/// assert_eq!(words[2], "4.6 fl oz is printed in imperial fluid ounces.");
/// # Ok::<(), satline::Error>(())
/// ```
pub fn oil_label(label: &OilLabel) -> Vec<String> {
    oil_label_in(label, Language::English)
}

/// The same in `language`.
pub(super) fn oil_label_in(label: &OilLabel, language: Language) -> Vec<String> {
    let readings = label.readings();
    let metric = label.metric();
    let mut statements = Vec::new();
    for reading in &readings {
        let trials = reading.trials.iter();
        statements.extend(trials.map(|trial| LabelStatement::Tried { reading, trial, fit: Fit::of(trial) }));
        statements.push(LabelStatement::Verdict { reading, metric: metric.is_some() });
    }
    if readings.is_empty() {
        statements.push(LabelStatement::NoOunces);
    }
    match (metric, label.volume()) {
        (Some(LabelAmount::Volume(range)), Err(_)) => statements.push(LabelStatement::OnlyTheVolume(range)),
        (Some(LabelAmount::Volume(range)), Ok(_)) => statements.push(LabelStatement::Volume(range)),
        (Some(LabelAmount::Mass(_)), Ok(range)) => statements.push(LabelStatement::Mass(range)),
        (Some(LabelAmount::Mass(_)), Err(_)) | (None, _) => {}
    }
    statements.iter().map(|one| language.label_words().statement(one)).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn each_label_gets_its_trials_its_verdict_and_its_volume() {
        for (text, texts) in [
            ("130 cc", &["no ounces", "printed volume: 130 cm³"][..]),
            ("130 cc (4.6 fl oz)", &["US fluid", "imperial", "is printed in imperial", "printed volume: 130"]),
            ("90–110 cm³ (3.1–4.0 oz)", &["weight", "US fluid", "imperial", "contradicts itself", "Until then"]),
            ("150 g", &["no ounces", "printed as a mass"]),
            ("5 oz", &["weight", "US fluid", "imperial", "It can be"]),
        ] {
            let words = oil_label(&text.parse().unwrap());
            assert_eq!(words.len(), texts.len(), "{words:?}");
            for (sentence, text) in words.iter().zip(texts) {
                assert!(sentence.contains(text), "{text:?} is not in {sentence:?}");
            }
        }
    }

    #[test]
    fn an_ounce_fits_by_its_number_or_by_one_density_or_several() {
        let fits = |text: &str| -> Vec<Option<(bool, Option<bool>)>> {
            let label: OilLabel = text.parse().unwrap();
            let readings = label.readings();
            let of = |fit: Option<Fit>| {
                fit.map(|fit| match fit {
                    Fit::Number { fits } => (fits, None),
                    Fit::Density { fits, several } => (fits, Some(several)),
                })
            };
            readings.iter().flat_map(|reading| &reading.trials).map(|trial| of(Fit::of(trial))).collect()
        };
        assert_eq!(fits("130 cc (4.6 fl oz)"), [Some((false, None)), Some((true, None))]);
        assert_eq!(fits("90–110 cm³ (3.1–4.0 oz)")[0], Some((false, Some(true))));
        assert!(fits("140 cm³ (4.7 oz)").contains(&Some((true, Some(false)))));
        assert_eq!(fits("5 oz"), [None; 3]);
    }
}
