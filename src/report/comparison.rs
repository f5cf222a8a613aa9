//! Two reports on one circuit, before and after work on it: what moved, and whether as a repair makes it move.

use super::{Amount, HealthyRow, Report, Span, Text};
use crate::Error;
use crate::diagnosis::{CauseId, JudgedQuantity};
use crate::quantity::Position;

/// Version of the JSON form of what [`compare`] returns; it changes whenever a field changes its name or meaning.
pub const COMPARISON_SCHEMA: &str = "satline-comparison-1";

/// Two reports on one circuit compared, quantity by quantity.
#[derive(Debug, Clone, PartialEq)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(deny_unknown_fields))]
#[non_exhaustive]
pub struct Comparison {
    /// Version of the JSON form, [`COMPARISON_SCHEMA`].
    #[cfg_attr(feature = "serde", serde(deserialize_with = "super::schema::comparison"))]
    #[cfg_attr(feature = "schema", schemars(with = "String", extend("const" = COMPARISON_SCHEMA)))]
    pub schema: Text,
    /// Designation of the refrigerant.
    pub refrigerant: String,
    /// What became of the circuit as a whole.
    pub outcome: ComparisonOutcome,
    /// Quantities that were read both times.
    pub rows: Vec<ShiftRow>,
    /// Quantities that were read one time only, and are not compared.
    pub read_once: Vec<JudgedQuantity>,
    /// The cause that led before, if one did; `None` for a healthy circuit, or without causes.
    pub led: Option<LedRow>,
}

/// What became of a circuit between two reports.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(rename_all = "kebab-case"))]
#[non_exhaustive]
pub enum ComparisonOutcome {
    /// Everything that was outside its window is inside, and the circuit looks healthy.
    Repaired,
    /// Healthy before and after.
    StillHealthy,
    /// What moved has moved towards the window, but the circuit does not look healthy yet.
    Better,
    /// Some quantities are nearer to their windows, others farther from them.
    Mixed,
    /// Nothing has moved by more than the instruments leave open.
    Unchanged,
    /// What moved has moved out of the window, or away from it.
    Worse,
}

/// How a quantity has moved against the window of healthy circuits, that of each day.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(rename_all = "kebab-case"))]
#[non_exhaustive]
pub enum Shift {
    /// Outside before, inside now: as a repair makes it.
    IntoWindow,
    /// Outside on the same side, but nearer.
    Nearer,
    /// Outside on the same side, and not moved by more than the instruments leave open.
    Unmoved,
    /// Outside on the same side, and farther.
    Farther,
    /// Outside on the other side now.
    Across,
    /// Inside both times.
    StaysInside,
    /// Inside before, outside now.
    OutOfWindow,
}

impl Shift {
    /// Whether a repair moves a quantity so.
    fn is_good(self) -> bool {
        matches!(self, Self::IntoWindow | Self::Nearer)
    }

    /// Whether it has moved as no repair should make it.
    fn is_bad(self) -> bool {
        matches!(self, Self::Farther | Self::Across | Self::OutOfWindow)
    }
}

/// One quantity before and after.
#[derive(Debug, Clone, PartialEq)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(deny_unknown_fields))]
#[non_exhaustive]
pub struct ShiftRow {
    /// Quantity that is judged.
    pub quantity: JudgedQuantity,
    /// Value before.
    pub before: Amount,
    /// Position before, relative to the window of that day.
    pub before_position: Position,
    /// Value now.
    pub after: Amount,
    /// Window of healthy circuits now.
    pub window: Span,
    /// Position now.
    pub after_position: Position,
    /// How it has moved.
    pub shift: Shift,
}

/// The cause that led before, and its probability both times.
#[derive(Debug, Clone, Copy, PartialEq)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(deny_unknown_fields))]
#[non_exhaustive]
pub struct LedRow {
    /// The cause.
    pub cause: CauseId,
    /// Marginal probability before.
    pub before: f64,
    /// Marginal probability now; `None` if no causes were compared.
    pub after: Option<f64>,
}

/// Two reports on the same circuit compared: `before` and `after` work on it, or a later check with an earlier one.
///
/// - **Method** each quantity that was read both times is compared with the window of healthy circuits of its own day, so that other
///   weather is no change. Its distance from the window, over the width of the window, has moved if it differs by more than the 95 %
///   intervals of both readings together. A repair moves what was outside into the window, and leaves the rest inside.
/// - **Errors** [`Error::Mismatch`] for reports on different refrigerants; [`Error::Missing`] if no quantity with a window was read
///   both times.
///
/// ```
/// use satline::Refrigerant;
/// use satline::diagnosis::Diagnosis;
/// use satline::report::{ComparisonOutcome, compare};
/// let read = |low, high| Ok::<_, satline::Error>(Diagnosis::of(Refrigerant::R134a).low(low)?.high(high)?.ambient("86 °F")?.run()?.report());
/// let (before, after) = (read("12 psi", "110 psi")?, read("35 psi", "205 psi")?);
/// assert_eq!(compare(&before, &after)?.outcome, ComparisonOutcome::Repaired);
/// assert_eq!(compare(&before, &before)?.outcome, ComparisonOutcome::Unchanged);
/// # Ok::<(), satline::Error>(())
/// ```
pub fn compare(before: &Report, after: &Report) -> Result<Comparison, Error> {
    if before.refrigerant != after.refrigerant {
        return Err(Error::Mismatch {
            what: "refrigerant",
            reading: after.refrigerant.clone(),
            reference: before.refrigerant.clone(),
        });
    }
    let (then, now) = (rows(before), rows(after));
    let with = |row: &HealthyRow, rows: &[HealthyRow]| rows.iter().position(|other| other.quantity == row.quantity);
    let compared: Vec<ShiftRow> = then.iter().filter_map(|row| Some(shift_row(row, &now[with(row, now)?]))).collect();
    if compared.is_empty() {
        return Err(Error::Missing {
            what: "a quantity that was read both times",
            way_out: "a comparison needs the ambient temperature and at least one gauge, line or the vent before and after, with the \
                      compressor running",
        });
    }
    let once = |rows: &[HealthyRow], others: &[HealthyRow]| {
        rows.iter().filter(|row| with(row, others).is_none()).map(|row| row.quantity).collect::<Vec<_>>()
    };
    Ok(Comparison {
        schema: COMPARISON_SCHEMA.into(),
        refrigerant: after.refrigerant.clone(),
        outcome: outcome(&compared, before, after),
        rows: compared,
        read_once: [once(then, now), once(now, then)].concat(),
        led: led(before, after),
    })
}

/// The quantities of `report` that have a window.
fn rows(report: &Report) -> &[HealthyRow] {
    report.healthy.as_ref().map_or(&[], |healthy| &healthy.rows)
}

fn shift_row(before: &HealthyRow, after: &HealthyRow) -> ShiftRow {
    ShiftRow {
        quantity: before.quantity,
        before: before.value.clone(),
        before_position: before.verdict.position,
        after: after.value.clone(),
        window: after.window.clone(),
        after_position: after.verdict.position,
        shift: shift(before, after),
    }
}

/// How `row` lies to its window, in widths of the window: how far outside, and how far the instruments leave that open.
fn distance(row: &HealthyRow) -> (f64, f64) {
    let (window, value) = (&row.window, row.value.value);
    // a window is as wide as cars differ: never zero
    let width = window.high - window.low;
    let outside = (window.low - value).max(value - window.high).max(0.0);
    (outside / width, row.value.plus_minus.unwrap_or(0.0) / width)
}

fn shift(before: &HealthyRow, after: &HealthyRow) -> Shift {
    use Position::Within;
    match (before.verdict.position, after.verdict.position) {
        (Within, Within) => Shift::StaysInside,
        (Within, _) => Shift::OutOfWindow,
        (_, Within) => Shift::IntoWindow,
        (then, now) if then != now => Shift::Across,
        _ => {
            let ((then, open_then), (now, open_now)) = (distance(before), distance(after));
            match now - then {
                moved if moved.abs() <= open_then.hypot(open_now) => Shift::Unmoved,
                moved if moved < 0.0 => Shift::Nearer,
                _ => Shift::Farther,
            }
        }
    }
}

fn outcome(rows: &[ShiftRow], before: &Report, after: &Report) -> ComparisonOutcome {
    let any = |is: fn(Shift) -> bool| rows.iter().any(|row| is(row.shift));
    match (any(Shift::is_good), any(Shift::is_bad)) {
        (true, true) => ComparisonOutcome::Mixed,
        (false, true) => ComparisonOutcome::Worse,
        (good, false) => match (before.is_healthy(), after.is_healthy()) {
            (true, true) => ComparisonOutcome::StillHealthy,
            (false, true) => ComparisonOutcome::Repaired,
            _ if good => ComparisonOutcome::Better,
            _ => ComparisonOutcome::Unchanged,
        },
    }
}

/// The cause that led `before`, unless that was no fault.
fn led(before: &Report, after: &Report) -> Option<LedRow> {
    let cause = *before.advice.headline.likeliest()?.causes.first()?;
    let probability = |report: &Report| Some(report.causes.as_ref()?.row(cause)?.marginal_probability);
    (cause != CauseId::NoFault).then_some(LedRow { cause, before: probability(before)?, after: probability(after) })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::diagnosis::{Headline, Likeliest};
    use crate::inspection::Measurand;
    use crate::report::VerdictCell;
    use crate::report::healthy::tests::of_rows;
    use crate::report::words::en::tests::report;

    const LOW: JudgedQuantity = JudgedQuantity::Measured(Measurand::LowSide);
    const VENT: JudgedQuantity = JudgedQuantity::Measured(Measurand::Vent);

    /// `value` ± 2 against a window from `low`, 20 wide.
    fn row(quantity: JudgedQuantity, value: f64, low: f64) -> HealthyRow {
        let position = match value {
            value if value < low => Position::Below,
            value if value > low + 20.0 => Position::Above,
            _ => Position::Within,
        };
        HealthyRow {
            quantity,
            value: Amount::new(value, Some(2.0), "psi", 0),
            window: Span::new(low, low + 20.0, "psi", 0),
            median: low + 10.0,
            fraction_below: 0.5,
            verdict: VerdictCell { position, probability: None },
        }
    }

    fn with(rows: Vec<HealthyRow>, headline: Headline) -> Report {
        let mut report = report();
        report.healthy = Some(of_rows(Vec::new(), rows));
        report.advice.headline = headline;
        report
    }

    fn faulty() -> Headline {
        let likeliest =
            Likeliest { causes: vec![CauseId::Undercharge], probability: 0.8, combined: false, settled: true };
        Headline::Faulty { low_side_at_air: false, outside: Vec::new(), likeliest }
    }

    const HEALTHY: Headline = Headline::Healthy { no_fault: 0.9 };

    /// Half a window outside ± a tenth: 0.14 of a window is what two such readings leave open.
    #[test]
    fn a_quantity_has_moved_by_more_than_the_instruments_leave_open() {
        for (before, after, shift) in [
            ((10.0, 20.0), (30.0, 20.0), Shift::IntoWindow),
            ((50.0, 20.0), (30.0, 20.0), Shift::IntoWindow),
            ((10.0, 20.0), (13.0, 20.0), Shift::Nearer),
            ((10.0, 20.0), (12.5, 20.0), Shift::Unmoved),
            ((10.0, 20.0), (7.5, 20.0), Shift::Unmoved),
            ((10.0, 20.0), (7.0, 20.0), Shift::Farther),
            ((50.0, 20.0), (53.0, 20.0), Shift::Farther),
            ((10.0, 20.0), (50.0, 20.0), Shift::Across),
            ((30.0, 20.0), (25.0, 20.0), Shift::StaysInside),
            ((30.0, 20.0), (15.0, 20.0), Shift::OutOfWindow),
            // a warmer day: the reading has moved with its window
            ((10.0, 20.0), (25.0, 35.0), Shift::Unmoved),
            ((30.0, 20.0), (45.0, 35.0), Shift::StaysInside),
        ] {
            let rows = [before, after].map(|(value, low)| row(LOW, value, low));
            assert_eq!(super::shift(&rows[0], &rows[1]), shift, "{before:?} {after:?}");
        }
    }

    #[test]
    fn a_circuit_is_repaired_when_all_of_it_is_inside_and_it_looks_healthy() {
        use ComparisonOutcome::{Better, Mixed, Repaired, StillHealthy, Unchanged, Worse};
        let at = |low: f64, vent: f64| vec![row(LOW, low, 20.0), row(VENT, vent, 20.0)];
        for (before, after, outcome) in [
            ((at(10.0, 50.0), faulty()), (at(30.0, 30.0), HEALTHY), Repaired),
            ((at(10.0, 50.0), faulty()), (at(30.0, 30.0), faulty()), Better),
            ((at(10.0, 50.0), faulty()), (at(30.0, 50.0), faulty()), Better),
            ((at(10.0, 50.0), faulty()), (at(15.0, 50.0), faulty()), Better),
            ((at(10.0, 50.0), faulty()), (at(30.0, 60.0), faulty()), Mixed),
            ((at(10.0, 50.0), faulty()), (at(10.0, 50.0), faulty()), Unchanged),
            ((at(10.0, 50.0), faulty()), (at(5.0, 50.0), faulty()), Worse),
            ((at(10.0, 50.0), faulty()), (at(50.0, 50.0), faulty()), Worse),
            ((at(30.0, 30.0), HEALTHY), (at(30.0, 30.0), HEALTHY), StillHealthy),
            ((at(30.0, 30.0), HEALTHY), (at(30.0, 50.0), faulty()), Worse),
            // inside every window and yet unlike healthy ones, before and now
            ((at(30.0, 30.0), faulty()), (at(30.0, 30.0), faulty()), Unchanged),
        ] {
            let found = compare(&with(before.0, before.1), &with(after.0, after.1)).unwrap();
            assert_eq!(found.outcome, outcome, "{:?}", found.rows);
        }
    }

    #[test]
    fn only_what_was_read_both_times_is_compared() {
        let before = with(vec![row(LOW, 10.0, 20.0), row(JudgedQuantity::Superheat, 10.0, 20.0)], faulty());
        let mut after = with(vec![row(VENT, 30.0, 20.0), row(LOW, 30.0, 20.0)], HEALTHY);
        let found = compare(&before, &after).unwrap();
        assert_eq!(found.rows.iter().map(|row| row.quantity).collect::<Vec<_>>(), [LOW]);
        assert_eq!(found.read_once, [JudgedQuantity::Superheat, VENT]);
        // the cause led, but no probabilities were kept
        assert_eq!(found.led, None);
        after.healthy = None;
        assert_eq!(compare(&before, &after).unwrap_err().code(), "missing");
        after.refrigerant = "R-1234yf".to_owned();
        let error = compare(&before, &after).unwrap_err();
        assert_eq!(error.code(), "mismatch");
        assert!(error.to_string().contains("R-1234yf") && error.to_string().contains("R-134a"), "{error}");
    }
}
