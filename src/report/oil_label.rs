//! Sentences about the ounces on an oil label: each ounce tried, then the verdict.

use super::words::en;
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

/// Sentences about an oil label: each ounce tried, then the verdict.
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
    statements.iter().map(en::oil_label::statement).collect()
}
