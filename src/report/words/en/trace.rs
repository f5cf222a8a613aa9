//! English sentences about a log.

use crate::report::trace::{LogFigure, LogQuantity, TraceMessage, TraceOpening};
use crate::trace::{CyclingQuality, Drift, SteadyKind};

/// The sentence about a finding.
pub(in crate::report) fn message(message: &TraceMessage) -> String {
    match message {
        TraceMessage::Steady { kind, drifts, readings } => {
            let drifting: Vec<String> =
                drifts.iter().map(|(side, drift)| format!("{} {}", quantity(*side), self::drift(*drift))).collect();
            let kind = if drifting.is_empty() { steady(*kind).to_owned() } else { drifting.join(", ") };
            format!("{kind}; {readings} readings")
        }
        TraceMessage::Cycling { cycles, quality, readings_per_cycle, period_deviation } => {
            let reservation = match quality {
                CyclingQuality::TooCoarse => format!(
                    "; {readings_per_cycle} readings in a cycle are too few to tell period and duty cycle: read more often"
                ),
                CyclingQuality::Irregular => format!(
                    "; the periods vary by {period_deviation} s (standard deviation), more than a pressure switch would \
                     cause: did the engine speed change?"
                ),
                CyclingQuality::Regular => String::new(),
            };
            format!("the clutch cycles: {cycles} full cycles{reservation}")
        }
        TraceMessage::Transient { low, high, undecided } => {
            let reservation = undecided.map_or(String::new(), |flanks| {
                format!("; both sides swung {flanks} times, too few to tell whether the clutch cycles")
            });
            format!("changing: low {low}, high {high}{reservation}")
        }
        TraceMessage::Gap { length } => format!("no readings for {length}"),
        TraceMessage::ClockReset { back } => {
            format!("times jump back by {back}: the clock was set back, or another log follows")
        }
    }
}

/// What a steady period is.
const fn steady(kind: SteadyKind) -> &'static str {
    match kind {
        SteadyKind::Steady => "steady",
        SteadyKind::Drifting => "drifting",
        SteadyKind::Equalised => "equalised: both sides agree; the engine is off, or the compressor does not pump",
        SteadyKind::EqualisedVacuum => "equalised in vacuum: both sides agree, the circuit is evacuated",
        SteadyKind::FastSwitching => {
            "the sides scatter in opposite directions: something switches faster than these readings show; read more often"
        }
    }
}

const fn drift(drift: Drift) -> &'static str {
    match drift {
        Drift::Rising => "drifts up",
        Drift::Falling => "drifts down",
    }
}

/// The name of a quantity of a log.
pub(in crate::report) const fn quantity(quantity: LogQuantity) -> &'static str {
    match quantity {
        LogQuantity::LowSide => "low side",
        LogQuantity::HighSide => "high side",
        LogQuantity::SuctionLine => "suction line",
        LogQuantity::LiquidLine => "liquid line",
        LogQuantity::Vent => "vent",
        LogQuantity::Ambient => "ambient",
        LogQuantity::Humidity => "humidity",
    }
}

/// The name of a figure of cycling or of a transient.
pub(in crate::report) const fn figure(figure: LogFigure) -> &'static str {
    match figure {
        LogFigure::Period => "period",
        LogFigure::ClutchDutyCycle => "clutch duty cycle",
        LogFigure::CutOut => "low side at cut-out",
        LogFigure::CutIn => "low side at cut-in",
        LogFigure::HighSideRange => "high side cycling range",
        LogFigure::LowSideAtStart => "low side at start",
        LogFigure::LowSideAtEnd => "low side at end",
        LogFigure::HighSideAtStart => "high side at start",
        LogFigure::HighSideAtEnd => "high side at end",
    }
}

/// The label of the row with a drift.
pub(in crate::report) const fn drifts_by() -> &'static str {
    "drifts by"
}

/// What stands before a standard deviation.
pub(in crate::report) const fn scatter() -> &'static str {
    "scatter"
}

/// From one time or value to another.
pub(in crate::report) fn range(from: &str, to: &str) -> String {
    format!("{from} to {to}")
}

/// The title of the page about a log.
pub(in crate::report) fn title(opening: &TraceOpening) -> String {
    format!("{}, a log of gauge readings over time", opening.refrigerant)
}

/// The sentences that open it.
pub(in crate::report) fn opening(opening: &TraceOpening) -> Vec<String> {
    let TraceOpening { seconds, standard: [low, high], expanded: [off_low, off_high], .. } = opening;
    vec![
        "Times count from the first reading, in h:mm:ss.".to_owned(),
        format!(
            "Steady: over {seconds:.0} s neither side moves by more than the standard uncertainty of its gauge, {low} (low) \
             or {high} (high), or than its own scatter explains."
        ),
        format!(
            "Intervals are 95 %, from the scatter of the readings alone. The gauges may be off by another {off_low} (low) and \
             {off_high} (high)."
        ),
    ]
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::Refrigerant;
    use crate::report::words::en::tests::{says, told_apart};

    fn steady_for(kind: SteadyKind, drifts: &[(LogQuantity, Drift)]) -> String {
        message(&TraceMessage::Steady { kind, drifts: drifts.to_vec(), readings: 61 })
    }

    fn cycling(quality: CyclingQuality) -> String {
        let (readings_per_cycle, period_deviation) = ("4.2".to_owned(), "7.5".to_owned());
        message(&TraceMessage::Cycling { cycles: 5, quality, readings_per_cycle, period_deviation })
    }

    fn transient(undecided: Option<u64>) -> String {
        message(&TraceMessage::Transient {
            low: "30 to 25 psi".to_owned(),
            high: "150 to 180 psi".to_owned(),
            undecided,
        })
    }

    #[test]
    fn each_finding_is_said_with_its_numbers() {
        let both = [(LogQuantity::LowSide, Drift::Rising), (LogQuantity::HighSide, Drift::Falling)];
        told_apart([
            (steady_for(SteadyKind::Steady, &[]), &["steady; 61 readings"][..]),
            (steady_for(SteadyKind::Drifting, &[]), &["drifting; 61 readings"]),
            (steady_for(SteadyKind::Drifting, &both), &["low side drifts up, high side drifts down; 61 readings"]),
            (steady_for(SteadyKind::Equalised, &[]), &["equalised", "engine is off", "61 readings"]),
            (steady_for(SteadyKind::EqualisedVacuum, &[]), &["equalised in vacuum", "evacuated"]),
            (steady_for(SteadyKind::FastSwitching, &[]), &["opposite directions", "read more often"]),
            (cycling(CyclingQuality::Regular), &["clutch cycles: 5 full cycles"]),
            (cycling(CyclingQuality::Irregular), &["5 full cycles; ", "vary by 7.5 s"]),
            (cycling(CyclingQuality::TooCoarse), &["5 full cycles; 4.2 readings in a cycle", "too few"]),
            (transient(None), &["changing: low 30 to 25 psi, high 150 to 180 psi"]),
            (transient(Some(3)), &["high 150 to 180 psi; both sides swung 3 times"]),
            (message(&TraceMessage::Gap { length: "0:05:00".to_owned() }), &["no readings for 0:05:00"]),
            (message(&TraceMessage::ClockReset { back: "1:00:00".to_owned() }), &["back by 1:00:00", "clock"]),
        ]);
        assert!(cycling(CyclingQuality::Regular).ends_with("5 full cycles"));
        assert!(transient(None).ends_with("180 psi"));
    }

    #[test]
    fn quantities_and_figures_are_named() {
        told_apart([
            (quantity(LogQuantity::LowSide), &["low side"][..]),
            (quantity(LogQuantity::HighSide), &["high side"]),
            (quantity(LogQuantity::SuctionLine), &["suction"]),
            (quantity(LogQuantity::LiquidLine), &["liquid"]),
            (quantity(LogQuantity::Vent), &["vent"]),
            (quantity(LogQuantity::Ambient), &["ambient"]),
            (quantity(LogQuantity::Humidity), &["humidity"]),
        ]);
        told_apart([
            (figure(LogFigure::Period), &["period"][..]),
            (figure(LogFigure::ClutchDutyCycle), &["duty cycle"]),
            (figure(LogFigure::CutOut), &["low side", "cut-out"]),
            (figure(LogFigure::CutIn), &["low side", "cut-in"]),
            (figure(LogFigure::HighSideRange), &["high side", "range"]),
            (figure(LogFigure::LowSideAtStart), &["low side", "start"]),
            (figure(LogFigure::LowSideAtEnd), &["low side", "end"]),
            (figure(LogFigure::HighSideAtStart), &["high side", "start"]),
            (figure(LogFigure::HighSideAtEnd), &["high side", "end"]),
        ]);
        says(&range("0:00", "0:10"), &["0:00 to 0:10"]);
    }

    #[test]
    fn the_opening_names_refrigerant_time_and_gauges() {
        let begun = TraceOpening {
            refrigerant: Refrigerant::R1234yf,
            seconds: 59.7,
            standard: ["1.1 psi".to_owned(), "3.3 psi".to_owned()],
            expanded: ["2.2 psi".to_owned(), "6.6 psi".to_owned()],
        };
        says(&title(&begun), &["R-1234yf", "log"]);
        told_apart(opening(&begun).into_iter().zip([
            &["h:mm:ss"][..],
            &["60 s", "1.1 psi (low)", "3.3 psi (high)"],
            &["95 %", "2.2 psi (low)", "6.6 psi (high)"],
        ]));
        assert_eq!(opening(&begun).len(), 3);
    }
}
