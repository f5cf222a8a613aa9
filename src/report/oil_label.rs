//! Statements about the ounces on an oil label: each ounce tried, then the verdict.

use super::job_steps::oil_span;
use super::{Amount, Language, Span};
use crate::service::oil::label::{LabelAmount, OilLabel, Ounce, OunceReading, OunceTrial, OunceVerdict};

/// A statement about a label. What is `printed` is quoted from the label.
#[derive(Debug, Clone, PartialEq)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(
    feature = "serde",
    derive(serde::Serialize, serde::Deserialize),
    serde(tag = "id", rename_all = "kebab-case", deny_unknown_fields)
)]
#[non_exhaustive]
pub enum LabelStatement {
    /// One ounce, tried.
    Tried {
        /// Amount in ounces as printed.
        printed: String,
        /// Ounce that it is tried as.
        ounce: Ounce,
        /// Amount as a volume; a weight with the densities of compressor oils.
        volume: Span,
        /// What comes out beside each metric number; empty without one.
        beside: Vec<BesideRow>,
        /// Whether it fits; `None` without a metric figure to compare with.
        fits: Option<bool>,
    },
    /// The amount is printed in this ounce.
    PrintedIn {
        /// Amount in ounces as printed.
        printed: String,
        /// Ounce that alone fits.
        ounce: Ounce,
    },
    /// The digits are too few to distinguish several ounces; the metric figure decides.
    TooFewDigits {
        /// Amount in ounces as printed.
        printed: String,
        /// Ounces that fit.
        ounces: Vec<Ounce>,
    },
    /// No ounce fits: the label contradicts itself.
    Contradiction {
        /// Amount in ounces as printed.
        printed: String,
    },
    /// Nothing on the label tells which ounce it is.
    AnyOf {
        /// Ounces that it can be.
        ounces: Vec<Ounce>,
    },
    /// The amount cannot be compared with the metric figure number by number.
    NotComparable {
        /// Amount in ounces as printed.
        printed: String,
    },
    /// The label prints no ounces.
    #[cfg_attr(feature = "serde", serde(deserialize_with = "crate::service::no_fields"))]
    NoOunces,
    /// The label contradicts itself: the printed volume is all there is.
    OnlyTheVolume {
        /// Volume as printed.
        volume: Span,
    },
    /// The printed volume.
    Volume {
        /// Volume as printed.
        volume: Span,
    },
    /// The printed mass, as a volume.
    Mass {
        /// Mass as printed, over the densities a compressor oil can have.
        volume: Span,
    },
}

/// What an ounce asks for beside one metric number of a label.
#[derive(Debug, Clone, PartialEq)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(
    feature = "serde",
    derive(serde::Serialize, serde::Deserialize),
    serde(tag = "id", rename_all = "kebab-case", deny_unknown_fields)
)]
#[non_exhaustive]
pub enum BesideRow {
    /// What the metric number would read in this ounce.
    Number {
        /// Metric number as printed, with its unit.
        printed: String,
        /// Number of ounces, with a digit more than is printed.
        reads: Amount,
    },
    /// The densities at which both agree.
    Density {
        /// Metric number as printed, with its unit.
        printed: String,
        /// Lowest density.
        low: Amount,
        /// Highest density; `None` if there is none.
        high: Option<Amount>,
    },
}

impl BesideRow {
    /// One row for each metric number.
    fn of(reading: &OunceReading, trial: &OunceTrial) -> Vec<Self> {
        if trial.fits.is_none() {
            return Vec::new();
        }
        if trial.density.is_empty() {
            // a digit more than is printed
            let decimals = |text: &str| text.split_once('.').map_or(1, |(_, digits)| digits.len() as u8 + 1);
            let rows = trial.would_read.iter().zip(&reading.beside).zip(&reading.numbers);
            return rows
                .map(|((reads, printed), number)| Self::Number {
                    printed: printed.clone(),
                    reads: Amount::new(*reads, None, "oz", decimals(number)),
                })
                .collect();
        }
        let amount = |density: f64| Amount::new(density, None, "g/cm³", 3);
        let rows = trial.density.iter().zip(&reading.beside);
        rows.map(|(density, printed)| {
            let (low, high) = (density.low.g_per_cm3(), density.high.g_per_cm3());
            Self::Density { printed: printed.clone(), low: amount(low), high: high.is_finite().then(|| amount(high)) }
        })
        .collect()
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
    statements(label).iter().map(|one| language.label_words().statement(one)).collect()
}

/// What is to be said of `label`.
pub(super) fn statements(label: &OilLabel) -> Vec<LabelStatement> {
    let readings = label.readings();
    let metric = label.metric();
    let mut statements = Vec::new();
    for reading in &readings {
        statements.extend(reading.trials.iter().map(|trial| LabelStatement::Tried {
            printed: reading.printed.clone(),
            ounce: trial.ounce,
            volume: oil_span(&trial.volume),
            beside: BesideRow::of(reading, trial),
            fits: trial.fits,
        }));
        let printed = reading.printed.clone();
        statements.push(match &reading.verdict {
            OunceVerdict::Is(ounce) => LabelStatement::PrintedIn { printed, ounce: *ounce },
            OunceVerdict::OneOf(ounces) => LabelStatement::TooFewDigits { printed, ounces: ounces.clone() },
            OunceVerdict::Contradiction => LabelStatement::Contradiction { printed },
            OunceVerdict::Ask(ounces) if metric.is_none() => LabelStatement::AnyOf { ounces: ounces.clone() },
            OunceVerdict::Ask(_) => LabelStatement::NotComparable { printed },
        });
    }
    if readings.is_empty() {
        statements.push(LabelStatement::NoOunces);
    }
    match (metric, label.volume()) {
        (Some(LabelAmount::Volume(range)), Err(_)) => {
            statements.push(LabelStatement::OnlyTheVolume { volume: oil_span(&range) });
        }
        (Some(LabelAmount::Volume(range)), Ok(_)) => {
            statements.push(LabelStatement::Volume { volume: oil_span(&range) });
        }
        (Some(LabelAmount::Mass(_)), Ok(range)) => statements.push(LabelStatement::Mass { volume: oil_span(&range) }),
        (Some(LabelAmount::Mass(_)), Err(_)) | (None, _) => {}
    }
    statements
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
            let tried = |one: &LabelStatement| match one {
                LabelStatement::Tried { fits, beside, .. } => {
                    let density = beside.iter().any(|row| matches!(row, BesideRow::Density { .. }));
                    Some(fits.map(|fits| (fits, density.then_some(beside.len() > 1))))
                }
                _ => None,
            };
            statements(&text.parse().unwrap()).iter().filter_map(tried).collect()
        };
        assert_eq!(fits("130 cc (4.6 fl oz)"), [Some((false, None)), Some((true, None))]);
        assert_eq!(fits("90–110 cm³ (3.1–4.0 oz)")[0], Some((false, Some(true))));
        assert!(fits("140 cm³ (4.7 oz)").contains(&Some((true, Some(false)))));
        assert_eq!(fits("5 oz"), [None; 3]);
    }
}
