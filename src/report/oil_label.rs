//! What the ounces on an oil label are, in sentences that show the arithmetic.

use crate::Range;
use crate::quantity::Volume;
use crate::service::oil::label::{Amount, OilLabel, Ounce, OunceReading, Trial, Verdict};

/// The sentences about a label: each ounce tried, then what follows.
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
    let mut words = Vec::new();
    let readings = label.readings();
    for reading in &readings {
        words.extend(reading.trials.iter().map(|trial| tried(reading, trial)));
        words.push(follows(reading, label));
    }
    if readings.is_empty() {
        words.push("There are no ounces on it to misread.".to_owned());
    }
    match label.metric() {
        Some(Amount::Volume(range)) if label.volume().is_err() => {
            words.push(format!("Until then the printed volume is all there is to measure by: {}.", cm3(&range)));
        }
        Some(Amount::Volume(range)) => words.push(format!("Measure by the printed volume: {}.", cm3(&range))),
        Some(Amount::Mass(_)) => {
            if let Ok(range) = label.volume() {
                words.push(format!(
                    "It is printed as a mass, which is {} over the densities a compressor oil can have: pour it \
                     by the scale.",
                    cm3(&range)
                ));
            }
        }
        None => {}
    }
    words
}

/// "140 to 160 cm³", or one number.
pub(super) fn cm3(range: &Range<Volume>) -> String {
    let (low, high) = (format!("{:.0}", range.low.cm3()), format!("{:.0}", range.high.cm3()));
    if low == high { format!("{low} cm³") } else { format!("{low} to {high} cm³") }
}

/// An ounce and its size.
fn sized(ounce: Ounce) -> &'static str {
    match ounce {
        Ounce::Weight => "ounces of weight of 28.35 g",
        Ounce::UsFluid => "US fluid ounces of 29.57 cm³",
        Ounce::ImperialFluid => "imperial fluid ounces of 28.41 cm³",
        Ounce::ThirtyMillilitres => "US fluid ounces rounded to 30 cm³",
    }
}

/// An ounce in a word or two.
fn name(ounce: Ounce) -> &'static str {
    match ounce {
        Ounce::Weight => "ounces of weight",
        Ounce::UsFluid => "US fluid ounces",
        Ounce::ImperialFluid => "imperial fluid ounces",
        Ounce::ThirtyMillilitres => "US fluid ounces counted as 30 cm³",
    }
}

fn tried(reading: &OunceReading, trial: &Trial) -> String {
    let start = format!("{}, as {}", reading.printed, sized(trial.ounce));
    let Some(fits) = trial.fits else {
        return format!("{start}, is {}.", cm3(&trial.volume));
    };
    // a digit more than is printed
    let decimals = |text: &str| text.split_once('.').map_or(1, |(_, digits)| digits.len() + 1);
    let each: Vec<String> = if trial.density.is_empty() {
        let rows = trial.would_read.iter().zip(&reading.beside).zip(&reading.numbers);
        rows.map(|((would, metric), number)| format!("{metric} would read {would:.*}", decimals(number))).collect()
    } else {
        let rows = trial.density.iter().zip(&reading.beside);
        rows.map(|(density, metric)| {
            let (low, high) = (density.low.g_per_cm3(), density.high.g_per_cm3());
            if high.is_finite() {
                format!("beside {metric} that is {low:.3} to {high:.3} g/cm³")
            } else {
                format!("beside {metric} that is {low:.3} g/cm³ or more")
            }
        })
        .collect()
    };
    let end = match (fits, trial.density.len()) {
        (true, 0) => "That fits.",
        (false, 0) => "That does not fit.",
        (true, _) => "A compressor oil can have that density: it fits.",
        (false, 1) => "No compressor oil has that density: it does not fit.",
        (false, _) => "No one oil has both: it does not fit.",
    };
    format!("{start}: {}. {end}", each.join(", "))
}

fn list(ounces: &[Ounce], or: &str) -> String {
    let names: Vec<&str> = ounces.iter().map(|ounce| name(*ounce)).collect();
    match names.split_last() {
        Some((last, rest)) if !rest.is_empty() => format!("{} {or} {last}", rest.join(", ")),
        _ => names.join(""),
    }
}

fn follows(reading: &OunceReading, label: &OilLabel) -> String {
    let printed = &reading.printed;
    match &reading.verdict {
        Verdict::Is(ounce) => format!("{printed} is printed in {}.", name(*ounce)),
        Verdict::OneOf(ounces) => format!(
            "{printed} has too few digits to tell {}. The metric figure decides, so it does no harm.",
            list(ounces, "from")
        ),
        Verdict::Contradiction => format!(
            "The label contradicts itself: no ounce fits. Leave {printed} aside and ask the maker whether the \
             other figure holds."
        ),
        Verdict::Ask(ounces) if label.metric().is_none() => {
            format!("It can be {}: nothing on the label tells which. Ask the maker.", list(ounces, "or"))
        }
        Verdict::Ask(_) => format!("{printed} cannot be compared with the metric figure number by number."),
    }
}
