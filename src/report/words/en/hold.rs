//! Sentences of the page about a standing vacuum test.

use super::NUMERALS;
use crate::report::hold::{FitFigure, GasFlow, HoldCaution, HoldNext, HoldReport, HoldStatement, LimitRow, Observed};
use crate::report::words::pages::HoldLabel;
use crate::service::acceptance::AcceptanceOutcome;
use crate::service::standing_vacuum::{BesideWater, VacuumFinding};

/// A heading, or the head of a column.
pub(in crate::report) const fn label(label: HoldLabel) -> &'static str {
    match label {
        HoldLabel::Figures => "Fitted rise",
        HoldLabel::BestEstimate => "best estimate",
        HoldLabel::Interval => "95 % interval",
        HoldLabel::Meaning => "What it means",
        HoldLabel::Limits => "Published acceptance limits",
        HoldLabel::Limit => "limit",
        HoldLabel::Result => "result",
        HoldLabel::Observed => "observed",
        HoldLabel::JudgedOver => "judged over",
        HoldLabel::Proof => "What a pass proves",
        HoldLabel::Next => "What to do next",
        HoldLabel::Safety => "Safety",
        HoldLabel::Sources => "Sources",
    }
}

/// What the page is about, and under what conditions.
pub(in crate::report) fn opening(report: &HoldReport) -> Vec<String> {
    let (n, of) = (NUMERALS, &report.opening);
    let mut opening = vec![format!(
        "Hold test: {} readings over {}, from {} to {} absolute.",
        of.readings,
        n.plain(&of.length),
        n.bare(&of.first),
        n.best(&of.last)
    )];
    if report.invented {
        opening.push("Worked example: the readings are invented, no circuit was held for them.".to_owned());
    }
    let volume = match &of.volume {
        Some(volume) if volume.plus_minus.is_some() => format!("Circuit volume {}", n.amount(volume)),
        Some(volume) => format!("Circuit volume {}, taken as exact", n.plain(volume)),
        None => "Circuit volume not given".to_owned(),
    };
    opening.push(format!("{volume}. Surrounding air {}. Intervals are 95 %.", n.amount(&of.air)));
    if let (Some(step), Some(limit)) = (&of.gauge_step, &of.gauge_limit) {
        let (step, limit) = (n.plain(step), n.entered(limit));
        opening.push(format!("The gauge is read in steps of {step}, its scale is within {limit}."));
    }
    match report.left_out {
        0 => {}
        1 => opening.push("1 row of the log could not be used.".to_owned()),
        rows => opening.push(format!("{rows} rows of the log could not be used.")),
    }
    opening
}

/// The name of a figure of the fit.
pub(in crate::report) const fn figure(figure: FitFigure) -> &'static str {
    match figure {
        FitFigure::StraightRise => "straight rise (as of a leak)",
        FitFigure::FinalPressure => "levelling rise: final pressure",
        FitFigure::TimeConstant => "levelling rise: time constant",
        FitFigure::StraightRiseBeside => "straight rise beside it",
        FitFigure::Bend => "bend (0 straight, 1 or more levels off)",
        FitFigure::SmallestRise => "smallest detectable rise",
        FitFigure::Scatter => "scatter of the readings",
        FitFigure::Throughput => "leak as a flow of gas",
        FitFigure::Refrigerant => "the same flow as refrigerant",
    }
}

/// The unit of a leak in grams a year.
pub(in crate::report) const fn grams_a_year() -> &'static str {
    "g/yr"
}

/// What was set against an acceptance limit.
pub(in crate::report) const fn observed(observed: Observed) -> &'static str {
    match observed {
        Observed::Rise => "rise",
        Observed::Pressure => "pressure",
    }
}

/// An outcome in a word or two.
pub(in crate::report) const fn outcome(outcome: AcceptanceOutcome) -> &'static str {
    match outcome {
        AcceptanceOutcome::Passes => "passes",
        AcceptanceOutcome::Fails => "fails",
        AcceptanceOutcome::Open => "undecided",
        AcceptanceOutcome::TooShort => "test too short",
    }
}

/// A limit in short.
pub(in crate::report) fn limit(limit: &LimitRow) -> String {
    let (most, over) = (NUMERALS.plain(&limit.most), NUMERALS.joined(&limit.over));
    match limit.quantity {
        Observed::Rise => format!("{most} in {over}"),
        Observed::Pressure => format!("{most} after {over}"),
    }
}

/// A statement about a standing vacuum test.
pub(in crate::report) fn statement(statement: &HoldStatement) -> String {
    match statement {
        HoldStatement::Finding { finding } => self::finding(*finding).to_owned(),
        HoldStatement::BesideWater { beside } => beside_water(*beside).to_owned(),
        HoldStatement::LeakAtMost { rate, flow, beside } => {
            let flow = flow.as_ref().map_or(String::new(), |flow| format!(": {}", self::flow(flow)));
            if *beside {
                format!("A leak of up to {} could hide beside it{flow}.", NUMERALS.best(rate))
            } else {
                format!("The leak is at most {}{flow}.", NUMERALS.best(rate))
            }
        }
        HoldStatement::VarianceInflation { readings: inflation } => format!(
            "Neighbouring readings resemble each other, as when the temperature wanders: {inflation:.1} of them are worth one, \
             and the intervals are wider for it."
        ),
        HoldStatement::NoVolume => {
            "Without the volume of the circuit the rise says nothing about the size of a leak.".to_owned()
        }
        HoldStatement::SmallestRise { rate, flow } => {
            let flow = flow.as_ref().map_or(String::new(), |flow| format!(": {}", self::flow(flow)));
            format!("The slowest straight rise that this test could have detected is {}{flow}.", NUMERALS.best(rate))
        }
        HoldStatement::LetsThrough { limit, times, scale } => format!(
            "The limit \"{}\" lets through a leak {} times that of {:.0} g a year, the coarsest scale of a service \
             detector.",
            self::limit(limit),
            NUMERALS.digits(*times),
            scale.value
        ),
        HoldStatement::NoProof => {
            "No hold test shows that there is no leak. It also pulls where refrigerant will push: seals that leak outwards \
             can hold under vacuum. Flows are compared as gas, mole for mole; through the same hole refrigerant under \
             pressure loses more than air under vacuum brings in."
                .to_owned()
        }
    }
}

/// A flow of gas: as pressure × volume, and as grams a year.
fn flow(flow: &GasFlow) -> String {
    let lost = flow.lost_g_per_year;
    let mass = if lost < 1000.0 {
        format!("{} g", NUMERALS.digits(lost))
    } else {
        format!("{} kg", NUMERALS.digits(lost / 1000.0))
    };
    format!(
        "{} Pa L/s, as much gas as {mass} of {} a year",
        NUMERALS.digits(flow.throughput_pa_l_per_s),
        flow.refrigerant
    )
}

const fn finding(finding: VacuumFinding) -> &'static str {
    match finding {
        VacuumFinding::NoRise => "No rise that these readings could detect. That is not the same as no leak.",
        VacuumFinding::Falling => {
            "The pressure falls: a pump still pulls, the circuit cools, or drier and oil take up vapour. This is not a hold \
             test yet."
        }
        VacuumFinding::Leak => {
            "The pressure rises in a straight line, as it does when air enters: a leak, in the circuit or in hoses, \
             couplers and gauges. A rise that levels off within the length of this test is excluded."
        }
        VacuumFinding::Moisture => {
            "The rise levels off, as it does when water evaporates, or when refrigerant leaves the oil: the two level off \
             alike. A straight rise alone is excluded."
        }
        VacuumFinding::LeakAndMoisture => {
            "The rise levels off onto a straight one: something evaporates, water or refrigerant out of the oil, and air \
             enters too. Either alone is excluded."
        }
        VacuumFinding::OpenToAir => {
            "The pressure climbs towards that of the air: a large leak, or a valve left open. Its curve bends because less \
             air enters the less vacuum is left, and says nothing about moisture."
        }
        VacuumFinding::SpeedsUp => {
            "The rise grows faster and faster. Neither a leak nor moisture does that: the circuit warms up, a valve creeps \
             open, or the gauge drifts."
        }
        VacuumFinding::CannotTell => {
            "The pressure rises, but these readings fit a leak and moisture alike: the rise may be straight, or on its way \
             to a level."
        }
    }
}

const fn beside_water(beside: BesideWater) -> &'static str {
    match beside {
        BesideWater::Below => {
            "It levels off below the saturation pressure of water at this temperature: no liquid water is left, and what \
             evaporates comes out of drier, oil or hoses, or is refrigerant."
        }
        BesideWater::At => {
            "It levels off at the saturation pressure of water at this temperature, as far as temperature and fit can tell: \
             liquid water may still be inside."
        }
        BesideWater::Above => {
            "It levels off above what water can reach at this temperature: it is not water alone, but refrigerant out of \
             the oil, or air that enters too."
        }
    }
}

/// What to do next.
pub(in crate::report) const fn next(step: HoldNext) -> &'static str {
    match step {
        HoldNext::CheckWithCharge => {
            "Once the circuit is charged, check with an electronic detector or dye, at the scale that is asked for."
        }
        HoldNext::StartAgain => "Shut the pump off at the gauges, let temperatures level out, and start again.",
        HoldNext::HoldHosesAlone => {
            "Test hoses and gauges alone, with the couplers closed: they leak as often as the circuit."
        }
        HoldNext::FindUnderPressure => {
            "Find the place under pressure: dry nitrogen or an allowed tracer gas, never compressed air; then repair, \
             evacuate and test again."
        }
        HoldNext::EvacuateAgain => {
            "Evacuate again, longer, with the parts warm; breaking the vacuum with dry nitrogen carries vapour out. One \
             manual evacuates three times for 30 min where moisture was found."
        }
        HoldNext::NewDrier => {
            "A circuit that stood open for days needs a new drier before it is evacuated (three manuals)."
        }
        HoldNext::RepairThenDry => {
            "Test hoses and gauges alone, with the couplers closed, then repair what leaks: drying comes after."
        }
        HoldNext::RepeatWithTemperature => {
            "Write down the temperature of the circuit with every reading, close every valve and repeat."
        }
        HoldNext::HoldLonger => {
            "Hold longer: two or three times as long tells a straight rise from one that levels off. Write down the \
             temperature with every reading."
        }
        HoldNext::ReadTemperature => {
            "Read the temperature with every reading: it corrects for warming and cooling, and shows whether it can be \
             water."
        }
    }
}

/// A safety caution under vacuum: common practice of service manuals, in our own words.
pub(in crate::report) const fn caution(caution: HoldCaution) -> &'static str {
    match caution {
        HoldCaution::CompressorInVacuum => {
            "Never run a compressor under vacuum, and never switch on an electric one: it has neither oil flow nor insulation \
         there."
        }
        HoldCaution::CompressedAir => "Never test with compressed air: even R-134a can burn in air at raised pressure.",
        HoldCaution::OpenLine => "Goggles and gloves wherever a line is opened: oil may still give off refrigerant.",
        HoldCaution::Recover => "Recover before you evacuate: letting refrigerant out is illegal in many places.",
        HoldCaution::MakersFigures => {
            "The maker's own figures for this car, local rules and licensed practice come before this page."
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::Refrigerant;
    use crate::report::hold::{FigureRow, hold};
    use crate::report::words::en::tests::{says, told_apart};
    use crate::report::{Amount, Span};

    fn gas(lost_g_per_year: f64) -> GasFlow {
        GasFlow { throughput_pa_l_per_s: 0.042, lost_g_per_year, refrigerant: Refrigerant::R1234yf }
    }

    #[test]
    fn the_opening_has_the_test_the_volume_and_the_air() {
        use crate::quantity::{PressureUnit, Time};
        use crate::service::standing_vacuum::StandingVacuumTest;
        use crate::{Measured, Pressure, PressureDifference, Volume};
        let air = Measured::new(Pressure::from_kpa(99.0), PressureDifference::from_kpa(1.0)).unwrap();
        let mut test = StandingVacuumTest::new(air, PressureDifference::from_microns(10.0)).unwrap();
        for (minute, microns) in [500.0, 620.0, 730.0, 850.0, 970.0, 1080.0].into_iter().enumerate() {
            test.push(Time::from_minutes(minute as f64), Pressure::from_microns(microns), None).unwrap();
        }
        let fit = test.fit().unwrap();
        let unit = PressureUnit::Micron;
        let said = |volume| opening(&hold(&fit, &air, Refrigerant::R134a, volume, unit).unwrap());
        let litres = Volume::from_l(2.5);
        let measured = said(Some(Measured::new(litres, Volume::from_l(0.1)).unwrap()));
        assert_eq!(measured.len(), 2);
        says(&measured[0], &["6 readings", "5.0 min", "from 500 to 1080 micron"]);
        says(&measured[1], &["2.50 ± 0.20 L", "air 99.0 ± 2.0 kPa", "95 %"]);
        says(&said(Some(Measured::exact(litres).unwrap()))[1], &["2.50 L, taken as exact"]);
        says(&said(None)[1], &["volume not given"]);
        let report = hold(&fit, &air, Refrigerant::R134a, None, unit).unwrap();
        let mut report = report.read_with(PressureDifference::from_microns(10.0), &"10%".parse().unwrap(), unit);
        (report.invented, report.left_out) = (true, 2);
        let full = opening(&report);
        assert_eq!(full.len(), 5);
        says(&full[1], &["invented"]);
        says(&full[3], &["in steps of 10 micron", "within 10 %"]);
        says(&full[4], &["2 rows"]);
        report.left_out = 1;
        says(&opening(&report)[4], &["1 row of"]);
    }

    #[test]
    fn figures_outcomes_and_limits_are_named() {
        told_apart([
            (figure(FitFigure::StraightRise), &["straight", "leak"][..]),
            (figure(FitFigure::FinalPressure), &["levelling", "final pressure"]),
            (figure(FitFigure::TimeConstant), &["levelling", "time constant"]),
            (figure(FitFigure::StraightRiseBeside), &["straight", "beside"]),
            (figure(FitFigure::Bend), &["bend"]),
            (figure(FitFigure::SmallestRise), &["smallest"]),
            (figure(FitFigure::Scatter), &["scatter"]),
            (figure(FitFigure::Throughput), &["flow of gas"]),
            (figure(FitFigure::Refrigerant), &["refrigerant"]),
        ]);
        told_apart([
            (outcome(AcceptanceOutcome::Passes), &["pass"][..]),
            (outcome(AcceptanceOutcome::Fails), &["fail"]),
            (outcome(AcceptanceOutcome::Open), &["undecided"]),
            (outcome(AcceptanceOutcome::TooShort), &["short"]),
        ]);
        assert_eq!((observed(Observed::Rise), observed(Observed::Pressure)), ("rise", "pressure"));
    }

    #[test]
    fn each_statement_says_what_it_is_about() {
        let rate = || FigureRow::alone(FitFigure::StraightRise, 116.8, "micron/min");
        let at_most = |flow, beside| HoldStatement::LeakAtMost { rate: rate(), flow, beside };
        let scale = Amount::new(14.0, None, "g/yr", 0);
        let inch = Amount::new(1.0, None, "inHg", 0);
        let limit = LimitRow { quantity: Observed::Rise, most: inch, over: Span::new(4.0, 5.0, "min", 0) };
        let rows: [(HoldStatement, &'static [&'static str]); 19] = [
            (HoldStatement::Finding { finding: VacuumFinding::NoRise }, &["No rise", "not the same as no leak"]),
            (HoldStatement::Finding { finding: VacuumFinding::Falling }, &["falls", "not a hold test"]),
            (HoldStatement::Finding { finding: VacuumFinding::Leak }, &["straight line", "a leak"]),
            (
                HoldStatement::Finding { finding: VacuumFinding::Moisture },
                &["levels off", "water", "alone is excluded"],
            ),
            (HoldStatement::Finding { finding: VacuumFinding::LeakAndMoisture }, &["water", "air enters too"]),
            (HoldStatement::Finding { finding: VacuumFinding::OpenToAir }, &["large leak", "valve left open"]),
            (HoldStatement::Finding { finding: VacuumFinding::SpeedsUp }, &["faster and faster", "warms"]),
            (HoldStatement::Finding { finding: VacuumFinding::CannotTell }, &["leak and moisture alike"]),
            (HoldStatement::BesideWater { beside: BesideWater::Below }, &["below the saturation", "no liquid water"]),
            (HoldStatement::BesideWater { beside: BesideWater::At }, &["at the saturation", "may still be inside"]),
            (HoldStatement::BesideWater { beside: BesideWater::Above }, &["above what water", "not water alone"]),
            (at_most(None, false), &["at most 117 micron/min."]),
            (at_most(Some(gas(42.0)), false), &["at most 117 micron/min: 0.042 Pa L/s", "42 g of R-1234yf a year."]),
            (at_most(None, true), &["up to 117 micron/min could hide beside it."]),
            (HoldStatement::VarianceInflation { readings: 2.345 }, &["2.3 of them", "wider"]),
            (HoldStatement::NoVolume, &["Without the volume", "size of a leak"]),
            (HoldStatement::SmallestRise { rate: rate(), flow: Some(gas(3.1)) }, &["117 micron/min: 0.042", "3.1 g"]),
            (
                HoldStatement::LetsThrough { limit, times: 2663.0, scale },
                &["\"1 inHg in 4 to 5 min\"", "2700 times", "14 g"],
            ),
            (HoldStatement::NoProof, &["No hold test", "no leak"]),
        ];
        told_apart(rows.map(|(one, words)| (statement(&one), words)));
        says(&statement(&HoldStatement::SmallestRise { rate: rate(), flow: None }), &["is 117 micron/min."]);
    }

    #[test]
    fn a_kilogram_and_more_is_not_told_in_grams() {
        for (g_per_year, text) in
            [(3.12, " 3.1 g of"), (990.0, " 990 g of"), (1000.0, " 1.0 kg of"), (2100.0, " 2.1 kg")]
        {
            says(&flow(&gas(g_per_year)), &["0.042 Pa L/s", text, "R-1234yf a year"]);
        }
    }

    #[test]
    fn each_next_step_says_what_to_do() {
        told_apart([
            (next(HoldNext::CheckWithCharge), &["charged", "detector"][..]),
            (next(HoldNext::StartAgain), &["start again"]),
            (next(HoldNext::HoldHosesAlone), &["hoses and gauges alone", "as often"]),
            (next(HoldNext::FindUnderPressure), &["nitrogen", "never compressed air"]),
            (next(HoldNext::EvacuateAgain), &["Evacuate again", "warm"]),
            (next(HoldNext::NewDrier), &["new drier"]),
            (next(HoldNext::RepairThenDry), &["repair", "drying comes after"]),
            (next(HoldNext::RepeatWithTemperature), &["temperature", "repeat"]),
            (next(HoldNext::HoldLonger), &["Hold longer"]),
            (next(HoldNext::ReadTemperature), &["Read the temperature"]),
        ]);
        told_apart(HoldCaution::ALL.map(caution).into_iter().zip([
            &["compressor under vacuum"][..],
            &["compressed air"],
            &["Goggles"],
            &["Recover"],
            &["maker"],
        ]));
    }
}
