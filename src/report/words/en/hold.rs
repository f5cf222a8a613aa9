//! Sentences of the page about a standing vacuum test.

use crate::quantity::Unit;
use crate::report::FigureRow;
use crate::report::hold::{FitFigure, GasFlow, HoldStatement, NextStep, VacuumSetup, digits};
use crate::service::acceptance::{AcceptanceOutcome, Criterion};
use crate::service::standing_vacuum::{BesideWater, StandingVacuumFit, VacuumFinding};
use crate::{Measured, Pressure, Quantity};

/// What the page is about, and under what conditions.
pub(in crate::report) fn opening(
    fit: &StandingVacuumFit,
    air: &Measured<Pressure>,
    setup: &VacuumSetup,
) -> Vec<String> {
    let unit = setup.unit;
    let read = |p: Pressure| {
        let row = FigureRow::alone("", p.value_in(unit), unit.symbol());
        row.number(p.value_in(unit))
    };
    let test = format!(
        "Hold test: {} readings over {:.1} min, from {} to {} {} absolute.",
        fit.readings,
        fit.length.minutes(),
        read(fit.first),
        read(fit.last),
        unit.symbol()
    );
    let volume = match &setup.volume {
        Some(volume) if volume.standard_uncertainty().si() > 0.0 => {
            format!("Circuit volume {:.2} ± {:.2} L", volume.value().l(), volume.expanded().l())
        }
        Some(volume) => format!("Circuit volume {:.2} L, taken as exact", volume.value().l()),
        None => "Circuit volume not given".to_owned(),
    };
    let conditions = format!(
        "{volume}. Surrounding air {:.1} ± {:.1} kPa. Intervals are 95 %.",
        air.value().kpa(),
        air.expanded().kpa()
    );
    vec![test, conditions]
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

/// What was set against an acceptance limit.
pub(in crate::report) const fn observed(criterion: &Criterion) -> &'static str {
    match criterion {
        Criterion::Rise(_) => "rise",
        Criterion::StaysBelow(_) => "pressure",
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

/// A statement about a standing vacuum test.
pub(in crate::report) fn statement(statement: &HoldStatement) -> String {
    match statement {
        HoldStatement::Finding(finding) => self::finding(*finding).to_owned(),
        HoldStatement::BesideWater(beside) => beside_water(*beside).to_owned(),
        HoldStatement::LeakAtMost { rate, flow, beside } => {
            let flow = flow.as_ref().map_or(String::new(), |flow| format!(": {}", self::flow(flow)));
            if *beside {
                format!("A leak of up to {} could hide beside it{flow}.", rate.best())
            } else {
                format!("The leak is at most {}{flow}.", rate.best())
            }
        }
        HoldStatement::VarianceInflation(inflation) => format!(
            "Neighbouring readings resemble each other, as when the temperature wanders: {inflation:.1} of them are worth one, \
             and the intervals are wider for it."
        ),
        HoldStatement::NoVolume => {
            "Without the volume of the circuit the rise says nothing about the size of a leak.".to_owned()
        }
        HoldStatement::SmallestRise { rate, flow } => {
            let flow = flow.as_ref().map_or(String::new(), |flow| format!(": {}", self::flow(flow)));
            format!("The slowest straight rise that this test could have detected is {}{flow}.", rate.best())
        }
        HoldStatement::LetsThrough { limit, times, scale } => format!(
            "The limit \"{limit}\" lets through a leak {} times that of {:.0} g a year, the coarsest scale of a service \
             detector.",
            digits(*times),
            scale.g_per_year()
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
    let lost = flow.lost.g_per_year();
    let mass = if lost < 1000.0 { format!("{} g", digits(lost)) } else { format!("{} kg", digits(lost / 1000.0)) };
    format!("{} Pa L/s, as much gas as {mass} of {} a year", digits(flow.throughput.pa_l_per_s()), flow.refrigerant)
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
pub(in crate::report) const fn next(step: NextStep) -> &'static str {
    match step {
        NextStep::CheckWithCharge => {
            "Once the circuit is charged, check with an electronic detector or dye, at the scale that is asked for."
        }
        NextStep::StartAgain => "Shut the pump off at the gauges, let temperatures level out, and start again.",
        NextStep::HoldHosesAlone => {
            "Test hoses and gauges alone, with the couplers closed: they leak as often as the circuit."
        }
        NextStep::FindUnderPressure => {
            "Find the place under pressure: dry nitrogen or an allowed tracer gas, never compressed air; then repair, \
             evacuate and test again."
        }
        NextStep::EvacuateAgain => {
            "Evacuate again, longer, with the parts warm; breaking the vacuum with dry nitrogen carries vapour out. One \
             manual evacuates three times for 30 min where moisture was found."
        }
        NextStep::NewDrier => {
            "A circuit that stood open for days needs a new drier before it is evacuated (three manuals)."
        }
        NextStep::RepairThenDry => {
            "Test hoses and gauges alone, with the couplers closed, then repair what leaks: drying comes after."
        }
        NextStep::RepeatWithTemperature => {
            "Write down the temperature of the circuit with every reading, close every valve and repeat."
        }
        NextStep::HoldLonger => {
            "Hold longer: two or three times as long tells a straight rise from one that levels off. Write down the \
             temperature with every reading."
        }
        NextStep::ReadTemperature => {
            "Read the temperature with every reading: it corrects for warming and cooling, and shows whether it can be \
             water."
        }
    }
}

/// Safety cautions under vacuum: common practice of service manuals, in our own words.
pub(in crate::report) fn cautions() -> Vec<String> {
    [
        "Never run a compressor under vacuum, and never switch on an electric one: it has neither oil flow nor insulation \
         there.",
        "Never test with compressed air: even R-134a can burn in air at raised pressure.",
        "Goggles and gloves wherever a line is opened: oil may still give off refrigerant.",
        "Recover before you evacuate: letting refrigerant out is illegal in many places.",
        "The maker's own figures for this car, local rules and licensed practice come before this page.",
    ]
    .map(str::to_owned)
    .to_vec()
}
