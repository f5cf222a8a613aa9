//! Traces made with what they contain known: how often it is found, and how often something is found that is not there.

use satline::quantity::Time;
use satline::trace::{Cycling, Finding, Moving, Sample, Stretch, Trace};
use satline::{Error, GaugePressure, PressureDifference, Temperature};

use crate::support::Random;

#[cfg(feature = "serde")]
#[allow(dead_code)] // its main is not called here
#[path = "../examples/watch_log.rs"]
mod watch_log;

/// Noise of unit deviation in which each reading keeps `keeps` of what the one before was off.
struct Wander {
    keeps: f64,
    last: Option<f64>,
}

impl Wander {
    fn new(keeps: f64) -> Self {
        Self { keeps, last: None }
    }
    fn next(&mut self, random: &mut Random) -> f64 {
        let fresh = random.normal();
        let next = self.last.map_or(fresh, |last| self.keeps * last + (1.0 - self.keeps * self.keeps).sqrt() * fresh);
        self.last = Some(next);
        next
    }
}

const LOW: f64 = 30.0;
const HIGH: f64 = 180.0;
/// Noise of the high side for one of the low side, as the spans of their gauges.
const HIGH_NOISE: f64 = 3.0;

/// Standard uncertainties of analogue service gauges, psi: class 1.6 on 11.01 and 36.01 bar.
fn trace() -> Trace {
    Trace::new(PressureDifference::from_psi(1.475), PressureDifference::from_psi(4.824)).unwrap()
}

fn sample(t: f64, low: f64, high: f64) -> Sample {
    Sample::gauges(Time::from_seconds(t), GaugePressure::from_psi(low), GaugePressure::from_psi(high))
}

/// What is found in readings every `every` seconds for `length`; `course` gives both sides, psi.
fn seen(
    random: &mut Random,
    length: f64,
    every: f64,
    noise: f64,
    keeps: f64,
    course: impl Fn(f64) -> (f64, f64),
) -> Vec<Finding> {
    let mut trace = trace();
    let mut found = Vec::new();
    let (mut low_noise, mut high_noise) = (Wander::new(keeps), Wander::new(keeps));
    for i in 0..=(length / every) as u64 {
        let t = i as f64 * every;
        let (low, high) = course(t);
        let low = low + noise * low_noise.next(random);
        let high = high + HIGH_NOISE * noise * high_noise.next(random);
        found.extend(trace.push(&sample(t, low, high)).unwrap());
    }
    found.extend(trace.finish().unwrap());
    found
}

fn stretches(found: &[Finding]) -> Vec<&Stretch> {
    found
        .iter()
        .filter_map(|finding| match finding {
            Finding::Stretch(stretch) => Some(&**stretch),
            _ => None,
        })
        .collect()
}

fn cyclings(found: &[Finding]) -> Vec<&Cycling> {
    found
        .iter()
        .filter_map(|finding| match finding {
            Finding::Cycling(cycling) => Some(cycling),
            _ => None,
        })
        .collect()
}

fn movings(found: &[Finding]) -> Vec<&Moving> {
    found
        .iter()
        .filter_map(|finding| match finding {
            Finding::Moving(moving) => Some(moving),
            _ => None,
        })
        .collect()
}

/// A clutch: engaged for `duty` of `period`; straight flanks between 25 and 45 psi, the high side 150 to 190 psi.
fn clutch(t: f64, period: f64, duty: f64) -> (f64, f64) {
    let phase = (t / period).fract();
    let fallen = if phase < duty { phase / duty } else { (1.0 - phase) / (1.0 - duty) };
    (45.0 - 20.0 * fallen, 150.0 + 40.0 * fallen)
}

const SEEDS: u64 = 1000;

#[test]
fn steady_noise_is_neither_cycling_nor_creeping() {
    // noise of the low side in psi, how much of it is kept from second to second
    for (noise, keeps) in [(0.1, 0.0), (0.5, 0.0), (2.0, 0.0), (0.5, 0.5), (0.5, 0.9), (2.0, 0.5), (2.0, 0.9)] {
        let (mut cycling, mut creeping, mut levelled, mut steady) = (0, 0, 0, 0.0);
        for seed in 0..SEEDS {
            let found = seen(&mut Random(seed), 1200.0, 1.0, noise, keeps, |_| (LOW, HIGH));
            cycling += usize::from(!cyclings(&found).is_empty());
            let stretches = stretches(&found);
            creeping += usize::from(stretches.iter().any(|stretch| stretch.low.creeps || stretch.high.creeps));
            levelled += usize::from(stretches.iter().any(|stretch| stretch.levelled || stretch.switches));
            steady += stretches.iter().map(|s| (s.to - s.from).seconds()).sum::<f64>() / 1200.0 / SEEDS as f64;
        }
        println!(
            "20 min of noise, {noise} psi, {keeps} kept: cycling claimed in {cycling}, creeping in {creeping} of {SEEDS}; \
             steady {:.1} % of the time",
            100.0 * steady
        );
        assert!(cycling + creeping <= SEEDS as usize / 20, "{noise} psi, {keeps} kept: {cycling} + {creeping}");
        assert_eq!(levelled, 0, "{noise} psi, {keeps} kept");
    }
}

#[test]
fn intervals_of_means_and_creeps_hold_the_truth() {
    for (length, creep, noise, keeps) in [
        (120.0, 0.0, 0.5, 0.0),
        (1200.0, 0.0, 0.5, 0.5),
        (1200.0, 0.3, 0.5, 0.0),
        (1200.0, 0.3, 0.5, 0.9),
        (1200.0, 0.0, 2.0, 0.0),
    ] {
        let (mut whole, mut mean, mut slope, mut named) = (0, 0, 0, 0);
        for seed in 0..SEEDS {
            let course = |t: f64| (LOW, HIGH + creep * HIGH_NOISE * t / 60.0);
            let found = seen(&mut Random(seed), length, 1.0, noise, keeps, course);
            let [stretch] = stretches(&found)[..] else { continue };
            whole += 1;
            let middle = 0.5 * (stretch.from.seconds() + stretch.to.seconds());
            let (low, high) = course(middle);
            mean += u64::from(stretch.low.mean.contains(GaugePressure::from_psi(low)))
                + u64::from(stretch.high.mean.contains(GaugePressure::from_psi(high)));
            slope += u64::from(stretch.low.per_minute.contains(PressureDifference::from_psi(0.0)))
                + u64::from(stretch.high.per_minute.contains(PressureDifference::from_psi(creep * HIGH_NOISE)));
            named += usize::from(stretch.high.creeps);
        }
        let share = |hits: u64| 100.0 * hits as f64 / (2 * whole) as f64;
        println!(
            "{length} s, high side creeping {:.1} psi/min, noise {noise} psi, {keeps} kept: one stretch in {whole} of \
             {SEEDS}; mean inside in {:.1} %, creep inside in {:.1} %, creep named in {named}",
            creep * HIGH_NOISE,
            share(mean),
            share(slope)
        );
        assert!(whole >= SEEDS * 3 / 4, "{whole}");
        assert!(share(mean) >= 90.0 && share(slope) >= 90.0, "{} {}", share(mean), share(slope));
        if creep > 0.0 {
            assert!(named >= whole as usize * 9 / 10, "{named}");
        }
    }
}

#[test]
fn a_clutch_that_cycles_is_told_with_its_period_and_duty() {
    for (period, duty, every, noise) in [
        (30.0, 0.4, 1.0, 0.1),
        (30.0, 0.4, 1.0, 0.5),
        (30.0, 0.4, 1.0, 1.5),
        (47.0, 0.7, 2.0, 0.5),
        (12.3, 0.5, 0.5, 0.5),
        (90.0, 0.3, 5.0, 0.5),
        (60.0, 0.5, 7.0, 0.3),
    ] {
        let (mut told, mut inside, mut off) = (0u64, [0u64; 4], [0.0f64; 2]);
        for seed in 0..SEEDS {
            let mut random = Random(seed);
            let shift = random.between(0.0, period);
            let found = seen(&mut random, 12.0 * period, every, noise, 0.0, |t| clutch(t + shift, period, duty));
            let [cycling] = cyclings(&found)[..] else { continue };
            told += 1;
            inside[0] += u64::from(cycling.period.contains(Time::from_seconds(period)));
            inside[1] += u64::from(cycling.duty.contains(satline::Ratio::from_fraction(duty)));
            inside[2] += u64::from(cycling.opens.contains(GaugePressure::from_psi(25.0)));
            inside[3] += u64::from(cycling.engages.contains(GaugePressure::from_psi(45.0)));
            off[0] += cycling.period.value.unwrap().seconds();
            off[1] += cycling.duty.value.unwrap().percent();
            // as evidence the same interval, and none where readings are too rare
            let share = cycling.share_engaged();
            assert_eq!(share.is_none(), cycling.too_coarse(), "every {every} s of {period} s");
            let half = cycling.duty.high.unwrap().fraction() - cycling.duty.value.unwrap().fraction();
            assert!(share.is_none_or(|share| (share.expanded().fraction() - half).abs() < 1e-9), "{share:?}, {half}");
        }
        let share = inside.map(|hits| 100.0 * hits as f64 / told.max(1) as f64);
        off = off.map(|sum| sum / told.max(1) as f64);
        println!(
            "period {period} s, duty {duty}, every {every} s, noise {noise} psi: told in {told} of {SEEDS}; inside: period \
             {:.1} %, duty {:.1} %, opens {:.1} %, engages {:.1} %; means {:.2} s, {:.2} %",
            share[0], share[1], share[2], share[3], off[0], off[1]
        );
        assert!(told >= SEEDS * 9 / 10, "{told}");
        assert!(share.iter().all(|&share| share >= 90.0), "{share:?}");
    }
}

/// The findings of samples given one by one.
fn of(samples: impl IntoIterator<Item = Sample>) -> Vec<Finding> {
    let mut trace = trace();
    let mut found = Vec::new();
    for sample in samples {
        found.extend(trace.push(&sample).unwrap());
    }
    found.extend(trace.finish().unwrap());
    found
}

#[test]
fn fewer_than_three_cycles_are_not_called_cycling() {
    let found = seen(&mut Random(1), 85.0, 1.0, 0.2, 0.0, |t| clutch(t, 30.0, 0.4));
    assert!(cyclings(&found).is_empty(), "{found:?}");
    let [moving] = movings(&found)[..] else { panic!("{found:?}") };
    assert!((3..=5).contains(&moving.swings), "{moving:?}");
    // one after another: first nothing, then the claim with at least three cycles
    let mut trace = trace();
    let mut claimed = None;
    for second in 0..600 {
        let t = f64::from(second);
        let (low, high) = clutch(t, 30.0, 0.4);
        trace.push(&sample(t, low, high)).unwrap();
        if claimed.is_none() && !cyclings(&trace.so_far().unwrap()).is_empty() {
            claimed = Some(t);
        }
    }
    // three cycles counted, one begun before them and the turn that ends them seen
    assert!((120.0..165.0).contains(&claimed.unwrap()), "{claimed:?}");
    assert_eq!(satline::trace::FEWEST_CYCLES, 3);
}

#[test]
fn bent_flanks_leave_the_period_right_and_the_turns_nearly() {
    // flanks that level off with a time constant of half and of a third of their length, as real ones do
    for tau in [0.5, 1.0 / 3.0] {
        let bent = |x: f64| (1.0 - (-x / tau).exp()) / (1.0 - (-1.0 / tau).exp());
        let course = |t: f64| {
            let phase = (t / 40.0).fract();
            let fallen = if phase < 0.4 { bent(phase / 0.4) } else { 1.0 - bent((phase - 0.4) / 0.6) };
            (45.0 - 20.0 * fallen, 150.0 + 40.0 * fallen)
        };
        let (mut told, mut inside, mut off) = (0, 0, [0.0; 4]);
        for seed in 0..200 {
            let mut random = Random(seed);
            let shift = random.between(0.0, 40.0);
            let found = seen(&mut random, 600.0, 1.0, 0.3, 0.0, |t| course(t + shift));
            let [cycling] = cyclings(&found)[..] else { continue };
            told += 1;
            inside += u64::from(cycling.opens.contains(GaugePressure::from_psi(25.0)))
                + u64::from(cycling.engages.contains(GaugePressure::from_psi(45.0)));
            off[0] += cycling.period.value.unwrap().seconds() - 40.0;
            off[1] += cycling.duty.value.unwrap().percent() - 40.0;
            off[2] += (cycling.opens.value.unwrap().psi() - 25.0) / 0.2;
            off[3] += (cycling.engages.value.unwrap().psi() - 45.0) / 0.2;
        }
        let [period, duty, opens, engages] = off.map(|sum| sum / told as f64);
        println!(
            "flanks bent with {tau:.2} of their length: told in {told} of 200; off by {period:.2} s, {duty:.2} % of a cycle, \
             turns by {opens:.1} % and {engages:.1} % of the swing, inside in {inside} of {}",
            2 * told
        );
        assert!(told >= 190 && period.abs() < 0.2, "{told} {period}");
        // sharper corners than parabolas make, and narrower than readings every second: the turns are read too tame
        assert!(duty.abs() < 1.0 && opens.abs() < 6.0 && engages.abs() < 6.0, "{duty} {opens} {engages}");
    }
}

#[test]
fn a_step_parts_two_stretches_and_a_start_up_is_movement() {
    let mut random = Random(3);
    let course = |t: f64| {
        let start = (-t / 40.0).exp();
        let step = if t < 600.0 { 0.0 } else { 6.0 };
        (LOW + 60.0 * start + step, HIGH - 90.0 * start + 3.0 * step)
    };
    let found = seen(&mut random, 1200.0, 1.0, 0.3, 0.0, course);
    let [first, second] = stretches(&found)[..] else { panic!("{found:?}") };
    assert!((100.0..240.0).contains(&first.from.seconds()), "{first:?}");
    assert!((560.0..=600.0).contains(&first.to.seconds()), "{first:?}");
    assert!((600.0..660.0).contains(&second.from.seconds()) && second.to.seconds() == 1200.0, "{second:?}");
    assert!(second.low.mean.contains(GaugePressure::from_psi(36.0)), "{second:?}");
    let (low, high) = (second.low.mean.value.unwrap().psi(), second.high.mean.value.unwrap().psi());
    assert!((low - 36.0).abs() < 0.1 && (high - 198.0).abs() < 0.3, "{low} {high}");
    // the tail of the start-up is no creep
    assert!(!first.low.creeps && !first.high.creeps && !second.low.creeps && !second.high.creeps, "{found:?}");
    let first_moving = movings(&found)[0];
    assert!(first_moving.from.seconds() == 0.0 && first_moving.low.0.psi() > 85.0, "{first_moving:?}");
}

#[test]
fn what_begins_to_creep_parts_from_what_was_steady() {
    let creep = |t: f64| 2.0 * (t - 900.0).max(0.0) / 60.0;
    let (mut parted, mut off) = (0, 0.0);
    for seed in 0..200 {
        let found = seen(&mut Random(seed), 1800.0, 1.0, 0.5, 0.0, |t| (LOW, HIGH + creep(t)));
        let [before, after] = stretches(&found)[..] else { continue };
        parted += usize::from(!before.high.creeps && after.high.creeps && !after.low.creeps);
        off += (after.from.seconds() - 900.0).abs() / 200.0;
    }
    println!("a creep of 2 psi/min after 15 min parted in {parted} of 200, {off:.0} s off on average");
    assert!(parted >= 180 && off < 60.0, "{parted} {off}");
}

#[test]
fn both_sides_alike_are_at_rest() {
    let alike = seen(&mut Random(5), 300.0, 1.0, 0.3, 0.0, |_| (92.0, 93.0));
    assert!(stretches(&alike)[0].levelled);
    let apart = seen(&mut Random(5), 300.0, 1.0, 0.3, 0.0, |_| (60.0, 93.0));
    assert!(!stretches(&apart)[0].levelled);
    let vacuum = seen(&mut Random(5), 300.0, 5.0, 0.1, 0.0, |_| (-9.8, -9.8));
    assert!(stretches(&vacuum)[0].levelled && stretches(&vacuum)[0].low.mean.value.unwrap().psi() < -9.0);
}

#[test]
fn gaps_and_clocks_set_back_end_a_stretch() {
    let mut random = Random(7);
    let mut at = |t: f64| sample(t, LOW + 0.3 * random.normal(), HIGH + random.normal());
    let seconds: Vec<f64> = (0..200).chain(400..600).chain(100..300).map(f64::from).collect();
    let mut trace = trace();
    let (mut found, mut refused) = (Vec::new(), Vec::new());
    for t in seconds {
        match trace.push(&at(t)) {
            Ok(some) => found.extend(some),
            Err(error) => refused.push(error),
        }
    }
    found.extend(trace.finish().unwrap());
    let names: Vec<&str> = found
        .iter()
        .map(|finding| match finding {
            Finding::Stretch(_) => "stretch",
            Finding::Gap(_) => "gap",
            Finding::SetBack(_) => "set back",
            _ => "other",
        })
        .collect();
    assert_eq!(names, ["stretch", "gap", "stretch", "set back", "stretch"], "{found:?}");
    // two rows are refused before a third shows that time really runs on from there
    assert_eq!(
        refused,
        [Error::NotLater { seconds: 100.0, before: 599.0 }, Error::NotLater { seconds: 101.0, before: 599.0 }]
    );
    let Finding::Gap(gap) = &found[1] else { panic!("{found:?}") };
    assert_eq!((gap.from.seconds(), gap.to.seconds()), (199.0, 400.0));
    let all = stretches(&found);
    assert_eq!((all[0].readings, all[1].readings, all[2].readings), (200, 200, 198));
}

#[test]
fn a_refused_reading_leaves_the_trace_as_it_was() {
    let mut random = Random(9);
    let samples: Vec<Sample> =
        (0..300).map(|t| sample(f64::from(t), LOW + 0.3 * random.normal(), HIGH + random.normal())).collect();
    let clean = of(samples.iter().copied());
    let mut trace = trace();
    let mut found = Vec::new();
    for (i, sample) in samples.iter().enumerate() {
        found.extend(trace.push(sample).unwrap());
        // the same moment twice, an earlier one, and what is no number
        let again = Sample { low: GaugePressure::from_psi(77.0), ..*sample };
        assert!(matches!(trace.push(&again), Err(Error::NotLater { .. })));
        let no_number =
            Sample { time: Time::from_seconds(i as f64 + 0.5), high: GaugePressure::from_psi(f64::NAN), ..*sample };
        assert!(matches!(trace.push(&no_number), Err(Error::NotFinite { .. })));
        let no_line = Sample { suction_line: Some(Temperature::from_celsius(f64::INFINITY)), ..no_number };
        assert!(matches!(trace.push(&no_line), Err(Error::NotFinite { .. })));
        let no_time = Sample { time: Time::from_seconds(f64::NAN), ..*sample };
        assert!(matches!(trace.push(&no_time), Err(Error::NotFinite { .. })));
    }
    found.extend(trace.finish().unwrap());
    assert_eq!(found, clean);
    assert!(Trace::new(PressureDifference::from_psi(0.0), PressureDifference::from_psi(1.0)).is_err());
    assert!(Trace::new(PressureDifference::from_psi(1.0), PressureDifference::from_psi(f64::NAN)).is_err());
}

#[test]
fn readings_too_rare_for_a_clutch_say_so_and_claim_no_period() {
    for (every, period) in [(10.0, 33.0), (60.0, 47.0), (20.0, 47.0), (7.0, 30.0)] {
        let (mut claimed, mut said) = (0, 0);
        for seed in 0..200 {
            let mut random = Random(seed);
            let shift = random.between(0.0, period);
            let found = seen(&mut random, 90.0 * every, every, 0.3, 0.0, |t| clutch(t + shift, period, 0.4));
            claimed += usize::from(cyclings(&found).iter().any(|cycling| !cycling.too_coarse()));
            said += usize::from(
                stretches(&found).iter().any(|stretch| stretch.switches)
                    || cyclings(&found).iter().any(|cycling| cycling.too_coarse() && cycling.share_engaged().is_none()),
            );
        }
        println!("a period of {period} s read every {every} s: said in {said} of 200, a period claimed in {claimed}");
        assert!(claimed <= 10 && said >= 190, "{every} {period}: {claimed} {said}");
    }
    let mut trace = trace();
    for minute in 0..5 {
        trace.push(&sample(60.0 * f64::from(minute), LOW, HIGH)).unwrap();
    }
    assert_eq!(trace.shortest_period().unwrap().minutes(), 6.0);
}

#[test]
fn readings_at_uneven_times_do_as_well() {
    let mut inside = 0;
    for seed in 0..200 {
        let mut random = Random(seed);
        let mut t = 0.0;
        let mut samples = Vec::new();
        while t < 600.0 {
            let (low, high) = clutch(t, 40.0, 0.35);
            samples.push(sample(t, low + 0.3 * random.normal(), high + random.normal()));
            t += random.between(0.3, 3.5);
        }
        let found = of(samples);
        let [cycling] = cyclings(&found)[..] else { panic!("seed {seed}: {found:?}") };
        inside += usize::from(
            cycling.period.contains(Time::from_seconds(40.0))
                && cycling.duty.contains(satline::Ratio::from_percent(35.0)),
        );
    }
    println!("uneven times: period and duty inside together in {inside} of 200");
    assert!(inside >= 180, "{inside}");
}

#[test]
fn temperatures_are_kept_where_they_were_read() {
    let mut random = Random(11);
    let found = of((0..300).map(|second| Sample {
        suction_line: Some(Temperature::from_celsius(10.0 + 0.1 * random.normal())),
        // one reading in ten
        vent: (second % 10 == 0).then(|| Temperature::from_celsius(8.0 + 0.1 * random.normal())),
        ..sample(f64::from(second), LOW, HIGH)
    }));
    let stretch = stretches(&found)[0];
    let suction = stretch.suction_line.unwrap();
    assert!((suction.mean.value.unwrap().celsius() - 10.0).abs() < 0.05 && suction.mean.low < suction.mean.value);
    assert!((suction.spread.kelvins() - 0.1).abs() < 0.02, "{suction:?}");
    assert!((stretch.vent.unwrap().mean.value.unwrap().celsius() - 8.0).abs() < 0.1);
    assert!(stretch.liquid_line.is_none() && stretch.humidity.is_none());
}

#[cfg(feature = "serde")]
mod example {
    use std::io::Write;

    use clap::Parser;

    use super::watch_log::{self, Summary, lines::Lines};
    use crate::support::same_as_file;

    fn args(words: &[&str]) -> watch_log::Args {
        let words = std::iter::once(&"watch_log").chain(words);
        watch_log::Args::try_parse_from(words).unwrap_or_else(|error| panic!("{error}"))
    }

    /// Page, complaints and counts for a log given as bytes.
    fn page(log: &[u8], words: &[&str]) -> Result<(String, String, Summary), String> {
        let (mut out, mut errors) = (Vec::new(), Vec::new());
        let summary = watch_log::read(log, &mut out, &mut errors, &args(words)).map_err(|error| error.to_string())?;
        Ok((String::from_utf8(out).unwrap(), String::from_utf8(errors).unwrap(), summary))
    }

    const R134A: [&str; 2] = ["--refrigerant", "R-134a"];

    #[test]
    fn the_page_is_what_the_example_prints() {
        let (page, complaints) = watch_log::demonstration(&args(&[])).unwrap();
        for line in page.lines() {
            assert!(line.chars().count() <= 80, "{line}");
        }
        assert!(page.contains("the log is invented"), "{page}");
        same_as_file("examples/watch_log.txt", &format!("{page}\non standard error:\n{complaints}"));
        let json = watch_log::demonstration(&args(&["--json"])).unwrap().0;
        // one finding, for those who read the schema
        let first = json.lines().find(|line| line.contains("\"creeping\"")).unwrap();
        same_as_file("examples/watch_log.json", &format!("{first}\n"));
        let kinds: Vec<String> = json
            .lines()
            .map(|line| serde_json::from_str::<serde_json::Value>(line).unwrap())
            .map(|object| {
                if object["finding"].is_string() {
                    assert_eq!(object["schema"], "satline-trace-1");
                    assert!(object["from_s"].as_f64().unwrap() < object["to_s"].as_f64().unwrap());
                    assert!(object["says"].is_string() && object["count"].is_u64());
                }
                let first = ["finding", "error", "reading", "summary"].into_iter().find(|key| !object[key].is_null());
                object["finding"].as_str().or(first).unwrap().to_owned()
            })
            .collect();
        assert_eq!(
            kinds,
            ["at rest", "moving", "cycling", "error", "error", "moving", "steady", "creeping", "reading", "summary"]
        );
    }

    #[test]
    fn the_command_it_ends_with_is_understood_by_the_example_it_names() {
        let (page, _) = watch_log::demonstration(&args(&["--json"])).unwrap();
        let reading = page.lines().find(|line| line.starts_with("{\"reading\"")).unwrap();
        let reading: serde_json::Value = serde_json::from_str(reading).unwrap();
        let words: Vec<&str> =
            reading["reading"].as_array().unwrap().iter().map(|word| word.as_str().unwrap()).collect();
        assert_eq!(words[..5], ["cargo", "run", "--example", "read_gauges", "--"]);
        let flags: Vec<&str> = words[5..].iter().copied().filter(|word| word.starts_with("--")).collect();
        assert_eq!(
            flags,
            [
                "--refrigerant",
                "--low",
                "--high",
                "--suction-line",
                "--liquid-line",
                "--vent",
                "--ambient",
                "--humidity"
            ]
        );
    }

    #[test]
    fn a_bad_row_is_named_and_the_others_are_used() {
        let mut log = b"\xef\xbb\xbf# by hand\r\ntime [s];low [bar];high [bar];note\r\n".to_vec();
        for second in 0..120 {
            writeln!(log, "{second};2.0{};12.{};\r", second % 3, second % 2).unwrap();
        }
        log.extend_from_slice(
            b"119;2.0;12;twice\r\n120;2,0;12;\r\n121;nan;12;\r\n122;2\r\n123;\xff;12;\r\n124;200;12;\r\n125;2;12;\r\n",
        );
        let (page, complaints, summary) = page(&log, &R134A).unwrap();
        assert_eq!(summary, Summary { used: 121, bad: 6 }, "{complaints}");
        let begins: Vec<&str> = complaints.lines().map(|line| line.split(':').next().unwrap()).collect();
        assert_eq!(begins, ["line 123", "line 124", "line 125", "line 126", "line 127", "line 128"]);
        assert!(page.contains("0:00:00 to 0:02:05  steady; 121 readings"), "{page}");
    }

    #[test]
    fn a_log_that_cannot_be_read_says_why() {
        let refused = |log: &str| page(log.as_bytes(), &R134A).unwrap_err();
        assert_eq!(
            refused(""),
            "the log is empty; its first line must name the columns, as in \"time [s],low [psi],high [psi]\""
        );
        for head in ["low [psi],high [psi]\n", "time,low [psi],high [psi]\n", "time [o'clock],low [psi],high [psi]\n"] {
            assert!(refused(head).starts_with("no column says when the rows were read"), "{}", refused(head));
        }
        assert_eq!(refused("time [s],low [psi],high [psi]\n"), "the log has a head but no rows");
        assert_eq!(refused("time [s],low [psi],high [psi]\nx,30,180\n1,a,b\n"), "none of 2 rows could be used");
        assert!(refused("time [s],low [psi]\n").starts_with("column high is missing"));
        assert!(
            page(b"time [s],low [psi],high [psi]\n1,2,3\n", &[]).unwrap_err().starts_with("the refrigerant is missing")
        );
        // psi taken for bar is off the scale
        let (_, complaints, summary) = page(b"time [s],low [bar],high [bar]\n0,30,180\n1,3,18\n", &R134A).unwrap();
        assert!(summary.bad == 1 && complaints.contains("beyond the scale"), "{complaints}");
    }

    #[test]
    fn a_line_that_is_still_being_written_waits() {
        /// A source that has an end now and then.
        struct Growing(Vec<Vec<u8>>);
        impl std::io::Read for Growing {
            fn read(&mut self, into: &mut [u8]) -> std::io::Result<usize> {
                if self.0.is_empty() {
                    return Ok(0);
                }
                let piece = self.0.remove(0);
                into[..piece.len()].copy_from_slice(&piece);
                Ok(piece.len())
            }
        }
        let pieces = ["a,b\n1,", "", "2\n3", "", "", ",4\n5"].map(|piece| piece.as_bytes().to_vec());
        let mut lines = Lines::growing(std::io::BufReader::new(Growing(pieces.to_vec())));
        let mut seen = Vec::new();
        for _ in 0..12 {
            if let Some((number, text)) = lines.advance().unwrap() {
                seen.push((number, text.unwrap().to_owned()));
            }
        }
        let expected = [(1, "a,b"), (2, "1,2"), (3, "3,4")].map(|(number, text)| (number, text.to_owned()));
        assert_eq!(seen, expected);
        assert!(lines.is_torn());
        // a log that does not grow ends where it ends
        let mut whole = Lines::new(&b"a,b\n5"[..]);
        whole.advance().unwrap();
        assert_eq!(whole.advance().unwrap().unwrap().1.unwrap(), "5");
    }

    /// A log that is made while it is read.
    struct Endless {
        row: u64,
        rows: u64,
        buffer: Vec<u8>,
    }

    impl std::io::Read for Endless {
        fn read(&mut self, into: &mut [u8]) -> std::io::Result<usize> {
            while self.buffer.len() < into.len() && self.row < self.rows {
                let t = self.row as f64;
                // an hour of cycling, an hour of calm
                let (low, high) =
                    if ((t / 3600.0) as u64).is_multiple_of(2) { super::clutch(t, 37.0, 0.4) } else { (30.0, 180.0) };
                let wobble = (self.row * 7919 % 101) as f64 / 100.0;
                writeln!(self.buffer, "{t},{:.1},{:.1},86", low + wobble, high + 2.0 * wobble)?;
                self.row += 1;
            }
            let n = self.buffer.len().min(into.len());
            into[..n].copy_from_slice(&self.buffer[..n]);
            self.buffer.drain(..n);
            Ok(n)
        }
    }

    /// Resident memory of this process, where the system tells.
    fn resident_kib() -> Option<u64> {
        let status = std::fs::read_to_string("/proc/self/status").ok()?;
        let line = status.lines().find(|line| line.starts_with("VmRSS:"))?;
        line.split_whitespace().nth(1)?.parse().ok()
    }

    #[test]
    #[ignore = "a million rows: run alone, in release"]
    fn a_long_trace_takes_no_more_memory() {
        let rows: u64 = std::env::var("SATLINE_ROWS").ok().and_then(|rows| rows.parse().ok()).unwrap_or(1_000_000);
        let read = |rows: u64| {
            let head = "time [s],low [psi],high [psi],ambient [°F]\n".as_bytes().to_vec();
            let log = std::io::BufReader::new(Endless { row: 0, rows, buffer: head });
            watch_log::read(log, std::io::sink(), std::io::sink(), &args(&R134A)).unwrap()
        };
        assert_eq!(read(20_000), Summary { used: 20_000, bad: 0 }); // whatever is set up once is set up now
        let (before, start) = (resident_kib(), std::time::Instant::now());
        assert_eq!(read(rows), Summary { used: rows, bad: 0 });
        let (after, seconds) = (resident_kib(), start.elapsed().as_secs_f64());
        println!(
            "{rows} rows in {seconds:.2} s, {:.0} rows/s; resident {before:?}, then {after:?} KiB",
            rows as f64 / seconds
        );
        if let (Some(before), Some(after)) = (before, after) {
            assert!(after < before + 1_000, "resident memory rose from {before} to {after} KiB");
        }
    }
}
