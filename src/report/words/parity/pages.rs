//! Whole pages: readings, circuits at rest, standing vacuum tests and job sheets.

#![cfg(test)]

use super::sentences::led_by;
use super::{every, same, same_lists, same_pages};
use crate::diagnosis::{Diagnosis, Fault};
use crate::expected::{ChartSet, ExpectedWindow};
use crate::inspection::DisplayUnits;
use crate::quantity::{PressureUnit, TemperatureUnit, Time};
use crate::report::hold::{FitFigure, HoldCaution, Observed as OfLimit, hold, tests::leak};
use crate::report::job::{Measurement, WindowGround, WindowName, job as job_report};
use crate::report::job_tasks::{Standing, WindowNote};
use crate::report::words::{HoldLabel, HoldWords, JobLabel, JobWords};
use crate::report::{Language, Report};
use crate::service::acceptance::AcceptanceOutcome;
use crate::service::job::{Complaint, CompressorReplacement, Job, JobCaution, JobQuestion, PartReplacement};
use crate::service::oil::compressor::{CompressorOilRule, CompressorSupply};
use crate::service::oil::kind::CompressorDrive;
use crate::service::oil::part::ReplacedPart;
use crate::service::standing_vacuum::{BesideWater, VacuumFinding};
use crate::{Measured, Pressure, Range, Refrigerant, Temperature, Volume};

#[track_caller]
fn same_report(report: &Report) {
    same_pages(&report.page_in(Language::English), &report.page_in(Language::Spanish));
    same_pages(&report.brief_in(Language::English), &report.brief_in(Language::Spanish));
}

#[test]
fn a_page_led_by_each_cause_says_the_same() {
    for cause in crate::diagnosis::ALL {
        for &fault in Fault::ALL {
            same_report(&led_by(cause.id, Some(fault)));
        }
        same_report(&led_by(cause.id, None));
    }
}

#[test]
fn pages_of_every_refrigerant_say_the_same() {
    for &refrigerant in Refrigerant::ALL {
        let gauges = if refrigerant.is_transcritical() { ["38.5 bar", "95 bar"] } else { ["2.2 bar", "12.5 bar"] };
        let asked = || Diagnosis::of(refrigerant).low(gauges[0]).unwrap().high(gauges[1]).unwrap();
        for ambient in [None, Some("30.5 °C")] {
            let running = ambient.iter().fold(asked(), |asked, ambient| asked.ambient(ambient).unwrap());
            same_report(&running.assess().unwrap().report());
        }
        let resting = if refrigerant.is_transcritical() { "55 bar" } else { "6.5 bar" };
        let asked = Diagnosis::of(refrigerant).low(resting).unwrap().high(resting).unwrap().ambient("25.5 °C").unwrap();
        // some have no saturation at this temperature, or not this pressure
        if let Ok(found) = asked.first_equalised().assess() {
            same_report(&found.report());
        }
    }
}

#[cfg(feature = "serde")]
#[test]
fn the_pages_of_the_examples_say_the_same() {
    for json in [
        include_str!("../../../../examples/read_gauges/demo.json"),
        include_str!("../../../../examples/read_gauges/at_rest.json"),
        include_str!("../../../../examples/read_gauges/low_side.json"),
        include_str!("../../../../examples/read_gauges/own.json"),
        include_str!("../../../../examples/read_gauges/r744.json"),
    ] {
        let report: Report = serde_json::from_str(json).unwrap();
        same_report(&report);
        // what is said is in no language
        assert_eq!(serde_json::to_string(&report).unwrap().matches("lado de").count(), 0);
    }
}

fn findings() -> Vec<VacuumFinding> {
    use VacuumFinding::{CannotTell, Falling, Leak, LeakAndMoisture, Moisture, NoRise, OpenToAir, SpeedsUp};
    every![NoRise => NoRise, Falling => Falling, Leak => Leak, Moisture => Moisture, LeakAndMoisture => LeakAndMoisture,
        OpenToAir => OpenToAir, SpeedsUp => SpeedsUp, CannotTell => CannotTell]
}

#[test]
fn pages_of_every_finding_of_a_vacuum_test_say_the_same() {
    let air = Measured::exact(Pressure::STANDARD_ATMOSPHERE).unwrap();
    let exact = Measured::exact(Volume::from_l(2.5)).unwrap();
    let uncertain = Measured::new(Volume::from_l(2.5), Volume::from_l(0.25)).unwrap();
    for finding in findings() {
        for temperature in [None, Some(Temperature::from_celsius(20.5))] {
            for volume in [None, Some(exact), Some(uncertain)] {
                for unit in [PressureUnit::Micron, PressureUnit::InchOfMercury, PressureUnit::Hectopascal] {
                    let mut fit = leak();
                    (fit.finding, fit.temperature, fit.variance_inflation) = (finding, temperature, 2.4);
                    let mut report = hold(&fit, &air, Refrigerant::R134a, volume, unit).unwrap();
                    same_pages(&report.page_in(Language::English), &report.page_in(Language::Spanish));
                    let step = crate::PressureDifference::from_pa(1.5);
                    for left_out in [1, 2] {
                        report = report.read_with(step, &"2.5%".parse().unwrap(), PressureUnit::Pascal);
                        (report.invented, report.left_out) = (true, left_out);
                        same_pages(&report.page_in(Language::English), &report.page_in(Language::Spanish));
                    }
                }
            }
        }
    }
}

/// What English and Spanish say of a vacuum test.
fn both_hold<T>(says: impl Fn(&dyn HoldWords) -> T) -> [T; 2] {
    [Language::English, Language::Spanish].map(|language| says(language.hold_words()))
}

#[test]
fn every_word_about_a_vacuum_test_has_its_translation() {
    use crate::report::hold::{HoldNext, HoldStatement};
    let told = |says: &dyn Fn(&dyn HoldWords) -> String| {
        let [english, other] = both_hold(says);
        same(&english, &other);
    };
    use HoldLabel::{
        BestEstimate, Figures, Interval, JudgedOver, Limit, Limits, Meaning, Next, Observed, Proof, Result, Safety,
        Sources,
    };
    for label in every![Figures => Figures, BestEstimate => BestEstimate, Interval => Interval, Meaning => Meaning,
        Limits => Limits, Limit => Limit, Result => Result, Observed => Observed, JudgedOver => JudgedOver, Proof => Proof,
        Next => Next, Safety => Safety, Sources => Sources]
    {
        told(&|words| words.label(label).to_owned());
    }
    use FitFigure::{
        Bend, FinalPressure, Refrigerant as OfRefrigerant, Scatter, SmallestRise, StraightRise, StraightRiseBeside,
        Throughput, TimeConstant,
    };
    for figure in every![StraightRise => StraightRise, FinalPressure => FinalPressure, TimeConstant => TimeConstant,
        StraightRiseBeside => StraightRiseBeside, Bend => Bend, SmallestRise => SmallestRise, Scatter => Scatter,
        Throughput => Throughput, OfRefrigerant => OfRefrigerant]
    {
        told(&|words| words.figure(figure).to_owned());
    }
    use AcceptanceOutcome::{Fails, Open, Passes, TooShort};
    for outcome in every![Passes => Passes, Fails => Fails, Open => Open, TooShort => TooShort] {
        told(&|words| words.outcome(outcome).to_owned());
    }
    for observed in every![OfLimit::Rise => OfLimit::Rise, OfLimit::Pressure => OfLimit::Pressure] {
        told(&|words| words.observed(observed).to_owned());
    }
    for caution in every![
        HoldCaution::CompressorInVacuum => HoldCaution::CompressorInVacuum,
        HoldCaution::CompressedAir => HoldCaution::CompressedAir, HoldCaution::OpenLine => HoldCaution::OpenLine,
        HoldCaution::Recover => HoldCaution::Recover, HoldCaution::MakersFigures => HoldCaution::MakersFigures,
    ] {
        told(&|words| words.caution(caution).to_owned());
    }
    use BesideWater::{Above, At, Below};
    for beside in every![Below => Below, At => At, Above => Above] {
        told(&|words| words.statement(&HoldStatement::BesideWater { beside }));
    }
    for step in every![
        HoldNext::CheckWithCharge => HoldNext::CheckWithCharge, HoldNext::StartAgain => HoldNext::StartAgain,
        HoldNext::HoldHosesAlone => HoldNext::HoldHosesAlone, HoldNext::FindUnderPressure => HoldNext::FindUnderPressure,
        HoldNext::EvacuateAgain => HoldNext::EvacuateAgain, HoldNext::NewDrier => HoldNext::NewDrier,
        HoldNext::RepairThenDry => HoldNext::RepairThenDry,
        HoldNext::RepeatWithTemperature => HoldNext::RepeatWithTemperature,
        HoldNext::HoldLonger => HoldNext::HoldLonger, HoldNext::ReadTemperature => HoldNext::ReadTemperature,
    ] {
        told(&|words| words.next(step).to_owned());
    }
}

fn ml(value: f64) -> Volume {
    Volume::from_cm3(value)
}

/// What English and Spanish say on a job sheet.
#[track_caller]
fn told(says: impl Fn(&dyn JobWords) -> String) {
    let [english, other] = [Language::English, Language::Spanish].map(|language| says(language.job_words()));
    same(&english, &other);
}

#[track_caller]
fn same_sheets(job: &Job) {
    let charts = ChartSet::new(job.refrigerant).unwrap();
    let healthy: Option<&ExpectedWindow> = None;
    for units in [
        DisplayUnits::new(PressureUnit::Psi, TemperatureUnit::Fahrenheit),
        DisplayUnits::new(PressureUnit::Bar, TemperatureUnit::Celsius),
    ] {
        let mut report = job_report(job, &charts, healthy, &units).unwrap();
        for invented in [false, true] {
            report.invented = invented;
            same_pages(&report.page_in(Language::English), &report.page_in(Language::Spanish));
        }
    }
}

/// A job with every part replaced.
fn full(refrigerant: Refrigerant, drive: CompressorDrive) -> Job {
    use ReplacedPart::{Accumulator, Condenser, Evaporator, Line, ReceiverDrier, SlowLeak, SuddenLoss};
    let parts = every![Condenser => Condenser, Evaporator => Evaporator, ReceiverDrier => ReceiverDrier,
        Accumulator => Accumulator, Line => Line, SuddenLoss => SuddenLoss, SlowLeak => SlowLeak];
    let mut job = Job::new(refrigerant, "550.5 g".parse().unwrap(), drive);
    job.parts = parts.into_iter().map(|part| PartReplacement { part, makers: None, drained: Some(ml(10.0)) }).collect();
    job.parts[0].makers = Some(Range::new(ml(30.0), ml(40.0)));
    job.oil = Some("130 cc (4.6 fl oz)".parse().unwrap());
    job.oil_kind = Some("PAG 46".parse().unwrap());
    job.ambient = Some(Temperature::from_celsius(30.0));
    job.recovered_oil = Some(ml(12.0));
    job.hose = Some(ml(40.0));
    job.open_for = Some(Time::from_days(3.0));
    job
}

#[test]
fn job_sheets_of_every_refrigerant_and_complaint_say_the_same() {
    use Complaint::{CoolsBadly, Leaks, NoiseCoolsBadly, NoiseCoolsWell, NotSaid};
    let complaints = every![NoiseCoolsWell => NoiseCoolsWell, NoiseCoolsBadly => NoiseCoolsBadly, CoolsBadly => CoolsBadly,
        Leaks => Leaks, NotSaid => NotSaid];
    for &refrigerant in Refrigerant::ALL {
        for drive in [CompressorDrive::Belt, CompressorDrive::Electric] {
            same_sheets(&Job::new(refrigerant, "620 g".parse().unwrap(), drive));
            same_sheets(&full(refrigerant, drive));
        }
    }
    for complaint in complaints {
        for flushed in [false, true] {
            let compressor = Some(CompressorReplacement { supplied: None, drained: None, rule: None });
            let job = full(Refrigerant::R134a, CompressorDrive::Belt);
            same_sheets(&Job { complaint, flushed, compressor, ..job });
        }
    }
}

#[test]
fn job_sheets_of_every_rule_and_label_say_the_same() {
    let refill = |floor, extra, extra_up_to| CompressorOilRule::Refill { floor, extra: ml(extra), extra_up_to };
    let subtract = |residual, little| CompressorOilRule::Subtract { residual: ml(residual), little };
    let floor = Some((ml(60.0), ml(90.0)));
    let rules = [
        None,
        Some(refill(None, 0.0, None)),
        Some(refill(floor, 30.0, Some(ml(150.0)))),
        Some(subtract(0.0, None)),
        Some(subtract(20.0, floor)),
        Some(CompressorOilRule::Capped { cap: ml(50.0) }),
    ];
    let supplies = [
        None,
        Some(CompressorSupply::Filled { contents: ml(90.0) }),
        Some(CompressorSupply::Filled { contents: ml(200.0) }),
        Some(CompressorSupply::Emptied),
        Some(CompressorSupply::Dry),
        Some(CompressorSupply::Used),
    ];
    let mut sheets = 0;
    for rule in rules {
        for supplied in supplies {
            for drained in [None, Some(12.0), Some(80.0)] {
                let drained = drained.map(|oil| Measured::new(ml(oil), ml(1.5)).unwrap());
                let compressor = Some(CompressorReplacement { supplied, drained, rule });
                let mut job = full(Refrigerant::R134a, CompressorDrive::Belt);
                job.parts.truncate(2);
                let job = Job { compressor, ..job };
                // a rule that has nothing to start from is refused
                if job.questions().is_ok() {
                    same_sheets(&job);
                    sheets += 1;
                }
            }
        }
    }
    assert!(sheets > 60, "{sheets}");
    for oil in ["90–110 cm³ (3.1–4.0 oz)", "5 oz", "150 g", "140 cm³ (4.7 oz)", "170 ± 15 cm³ (6.0 ± 0.5 oz)"]
    {
        for flushed in [false, true] {
            let oil = Some(oil.parse().unwrap());
            same_sheets(&Job { oil, flushed, ..full(Refrigerant::R1234yf, CompressorDrive::Electric) });
        }
    }
    for kind in ["PAG 46", "PAG YF 46", "POE 68", "mineral oil"] {
        for drive in [CompressorDrive::Belt, CompressorDrive::Electric] {
            for refrigerant in [Refrigerant::R134a, Refrigerant::R1234yf, Refrigerant::R744, Refrigerant::R12] {
                same_sheets(&Job { oil_kind: Some(kind.parse().unwrap()), ..full(refrigerant, drive) });
            }
        }
    }
    same_sheets(&Job { charge: "500 ± 20 g".parse().unwrap(), ..full(Refrigerant::R134a, CompressorDrive::Belt) });
    for celsius in [5.0, 25.0, 45.0] {
        let ambient = Some(Temperature::from_celsius(celsius));
        same_sheets(&Job { ambient, ..full(Refrigerant::R134a, CompressorDrive::Belt) });
    }
}

#[test]
fn every_word_of_a_job_sheet_has_its_translation() {
    use JobLabel::{Basis, Measure, Questions, Safety, Sources, Steps, What, Window, Windows};
    for label in every![Questions => Questions, Steps => Steps, Windows => Windows, What => What, Window => Window,
        Basis => Basis, Measure => Measure, Safety => Safety, Sources => Sources]
    {
        told(|words| words.label(label).to_owned());
    }
    let questions = every![
        JobQuestion::CompressorRule => JobQuestion::CompressorRule,
        JobQuestion::CompressorSupply => JobQuestion::CompressorSupply,
        JobQuestion::Drained => JobQuestion::Drained,
        JobQuestion::PartFigure { .. } => JobQuestion::PartFigure { part: ReplacedPart::Accumulator },
        JobQuestion::WhichOunce => JobQuestion::WhichOunce,
        JobQuestion::Contradiction => JobQuestion::Contradiction,
        JobQuestion::OilKind => JobQuestion::OilKind,
        JobQuestion::OilAmount => JobQuestion::OilAmount,
        JobQuestion::OilUnsuited => JobQuestion::OilUnsuited,
        JobQuestion::Ambient => JobQuestion::Ambient,
    ];
    questions.iter().for_each(|question| told(|words| words.question(question)));
    let cautions = every![
        JobCaution::Frostbite => JobCaution::Frostbite, JobCaution::Asphyxiation => JobCaution::Asphyxiation,
        JobCaution::CarbonDioxide => JobCaution::CarbonDioxide, JobCaution::DryIce => JobCaution::DryIce,
        JobCaution::Flammable => JobCaution::Flammable, JobCaution::Venting => JobCaution::Venting,
        JobCaution::HighVoltage => JobCaution::HighVoltage, JobCaution::VoltageInVacuum => JobCaution::VoltageInVacuum,
        JobCaution::ForeignOil => JobCaution::ForeignOil, JobCaution::Moving => JobCaution::Moving,
        JobCaution::CompressedAir => JobCaution::CompressedAir, JobCaution::Backflow => JobCaution::Backflow,
    ];
    cautions.iter().for_each(|&caution| told(|words| words.caution(caution, Refrigerant::R1234yf)));
    let standings = every![
        Standing::Measured => Standing::Measured, Standing::MakersFigure => Standing::MakersFigure,
        Standing::MakersRule => Standing::MakersRule, Standing::PublishedRange => Standing::PublishedRange,
        Standing::PrintedByOthers => Standing::PrintedByOthers, Standing::Label => Standing::Label,
        Standing::LabelAsRead => Standing::LabelAsRead,
        Standing::LabelVolumeAlone => Standing::LabelVolumeAlone,
        Standing::LabelAnyOunce => Standing::LabelAnyOunce,
    ];
    standings.iter().for_each(|&standing| told(|words| words.standing(standing).to_owned()));
    let notes = every![WindowNote::NoAmbient => WindowNote::NoAmbient, WindowNote::NoneCovers => WindowNote::NoneCovers,
        WindowNote::CarriedOver => WindowNote::CarriedOver, WindowNote::Below => WindowNote::Below];
    notes.iter().for_each(|&note| told(|words| words.window_note(note).to_owned()));
    let names = every![WindowName::LowSide => WindowName::LowSide, WindowName::HighSide => WindowName::HighSide,
        WindowName::Superheat => WindowName::Superheat, WindowName::Subcooling => WindowName::Subcooling,
        WindowName::CondensingOverAmbient => WindowName::CondensingOverAmbient, WindowName::Vent => WindowName::Vent];
    names.iter().for_each(|&name| told(|words| words.window(name).to_owned()));
    for ground in every![
        WindowGround::Circuits { .. } => WindowGround::Circuits { circuits: 256 },
        WindowGround::Charts { .. } => WindowGround::Charts { charts: 3, carried_over: 2 },
        WindowGround::RuleOfThumb => WindowGround::RuleOfThumb,
    ] {
        told(|words| words.ground(&ground));
    }
    for what in every![
        Measurement::EqualisedCarbonDioxide => Measurement::EqualisedCarbonDioxide,
        Measurement::Equalised => Measurement::Equalised, Measurement::Running => Measurement::Running,
        Measurement::Lines => Measurement::Lines, Measurement::Noise => Measurement::Noise,
        Measurement::OilAfterAWeek => Measurement::OilAfterAWeek,
    ] {
        told(|words| words.measurement(what).to_owned());
    }
    for &refrigerant in Refrigerant::ALL {
        let [english, other] = [Language::English, Language::Spanish].map(|language| language.cautions(refrigerant));
        same_lists(&english, &other);
    }
}

#[test]
fn every_finding_of_a_log_says_the_same() {
    use crate::inspection::Instruments;
    use crate::report::trace::tests::told_in;
    use crate::report::trace::{LogFigure, LogQuantity};
    use crate::report::trace_opening_in;
    let [english, other] = [Language::English, Language::Spanish].map(told_in);
    assert_eq!(english.len(), other.len());
    for (english, other) in english.iter().zip(&other) {
        // columns are apart by blanks
        let unbroken = |line: &str| line.split_whitespace().collect::<Vec<_>>().join(" ");
        same(&unbroken(english), &unbroken(other));
    }
    let both = |says: &dyn Fn(Language) -> &'static str| same(says(Language::English), says(Language::Spanish));
    use LogFigure::{
        ClutchDutyCycle, CutIn, CutOut, HighSideAtEnd, HighSideAtStart, HighSideRange, LowSideAtEnd, LowSideAtStart,
        Period,
    };
    for figure in every![Period => Period, ClutchDutyCycle => ClutchDutyCycle, CutOut => CutOut, CutIn => CutIn,
        HighSideRange => HighSideRange, LowSideAtStart => LowSideAtStart, LowSideAtEnd => LowSideAtEnd,
        HighSideAtStart => HighSideAtStart, HighSideAtEnd => HighSideAtEnd]
    {
        both(&|language| language.trace_words().figure(figure));
    }
    use LogQuantity::{Ambient, HighSide, Humidity, LiquidLine, LowSide, SuctionLine, Vent};
    for quantity in every![LowSide => LowSide, HighSide => HighSide, SuctionLine => SuctionLine,
        LiquidLine => LiquidLine, Vent => Vent, Ambient => Ambient, Humidity => Humidity]
    {
        both(&|language| language.trace_words().quantity(quantity));
    }
    let units = DisplayUnits::new(PressureUnit::Bar, TemperatureUnit::Celsius);
    let instruments = Instruments::analogue(Refrigerant::R134a);
    let page = |language| trace_opening_in(Refrigerant::R134a, &instruments, &units, language).unwrap();
    same_pages(&page(Language::English), &page(Language::Spanish));
}

#[test]
fn pages_about_two_reports_say_the_same() {
    use crate::report::comparison::{ComparisonOutcome, Shift};
    use crate::report::words::{ComparisonLabel, ComparisonWords};
    use crate::report::{comparison_page, customer_page};
    let both = |says: &dyn Fn(&dyn ComparisonWords) -> String| {
        let [english, other] = [Language::English, Language::Spanish].map(|language| says(language.comparison_words()));
        same(&english, &other);
    };
    use ComparisonOutcome::{Better, Mixed, Repaired, StillHealthy, Unchanged, Worse};
    for outcome in every![Repaired => Repaired, StillHealthy => StillHealthy, Better => Better, Mixed => Mixed,
        Unchanged => Unchanged, Worse => Worse]
    {
        both(&|words| words.outcome(outcome).to_owned());
        both(&|words| words.for_customer(outcome).to_owned());
    }
    use Shift::{Across, Farther, IntoWindow, Nearer, OutOfWindow, StaysInside, Unmoved};
    for shift in every![IntoWindow => IntoWindow, Nearer => Nearer, Unmoved => Unmoved, Farther => Farther,
        Across => Across, StaysInside => StaysInside, OutOfWindow => OutOfWindow]
    {
        both(&|words| words.shift(shift).to_owned());
    }
    use ComparisonLabel::{
        After, Before, Care, Done, ForCustomer, Found, Measured as WhatMeasured, Moved, Now, ShouldBe, WhatMoved,
    };
    for label in every![Before => Before, After => After, Moved => Moved, WhatMoved => WhatMoved, Now => Now,
        ForCustomer => ForCustomer, Found => Found, Done => Done, WhatMeasured => WhatMeasured, ShouldBe => ShouldBe,
        Care => Care]
    {
        both(&|words| words.label(label).to_owned());
    }
    let read = |low: &str, high: &str| {
        let asked = Diagnosis::of(Refrigerant::R134a).low(low).unwrap().high(high).unwrap();
        asked.ambient("30 °C").unwrap().measured(crate::inspection::Measurand::Vent, "12 °C").unwrap()
    };
    let before = read("0.8 bar", "7.5 bar").run().unwrap().report();
    for after in [read("2.4 bar", "14 bar").run().unwrap().report(), before.clone()] {
        let page = |language| comparison_page(&before, &after, language).unwrap();
        same_pages(&page(Language::English), &page(Language::Spanish));
        // what was done is said as it was typed
        let sheet = |language| customer_page(&before, &after, &[], language).unwrap();
        same_pages(&sheet(Language::English), &sheet(Language::Spanish));
    }
    let mut unnamed = before.clone();
    unnamed.causes = None;
    let page = |language| comparison_page(&before, &unnamed, language).unwrap();
    same_pages(&page(Language::English), &page(Language::Spanish));
    for caution in Refrigerant::ALL.iter().flat_map(|&refrigerant| crate::report::cautions(refrigerant)) {
        let [english, other] =
            [Language::English, Language::Spanish].map(|language| language.words().caution_in_a_word(caution));
        same(english, other);
    }
    for language in [Language::English, Language::Spanish] {
        assert!(before.lines_in(language).len() == 6);
    }
    same_lists(&before.lines_in(Language::English), &before.lines_in(Language::Spanish));
}
