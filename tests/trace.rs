//! Simulated traces of known content: how often it is found, and how often something is found that is not there.

use approx::{abs_diff_eq, assert_abs_diff_eq};
use proptest::prelude::*;
use satline::quantity::Time;
use satline::service::Interval;
use satline::trace::{
    CombinedReadings, Cycling, CyclingQuality, MIN_CYCLES, Sample, SteadyKind, SteadyPeriod, Trace, TraceFinding, Trend,
};
use satline::{Error, GaugePressure, PressureDifference, Quantity, Temperature};

use crate::support::Random;

#[cfg(feature = "serde")]
#[allow(dead_code)] // its main is not called here
#[path = "../examples/watch_log.rs"]
pub mod watch_log;

/// AR(1) noise of unit standard deviation with autocorrelation `rho`.
struct Autoregressive {
    rho: f64,
    last: Option<f64>,
}

impl Autoregressive {
    fn new(rho: f64) -> Self {
        Self { rho, last: None }
    }
    fn next(&mut self, random: &mut Random) -> f64 {
        let fresh = random.normal();
        let next = self.last.map_or(fresh, |last| self.rho * last + (1.0 - self.rho * self.rho).sqrt() * fresh);
        self.last = Some(next);
        next
    }
}

const LOW: f64 = 30.0;
const HIGH: f64 = 180.0;
/// Noise of the high side relative to the low side, in the ratio of their scales.
const HIGH_NOISE: f64 = 3.0;

/// Standard uncertainties of analogue service gauges, psi: class 1.6 on 11.01 and 36.01 bar.
fn trace() -> Trace {
    Trace::new(PressureDifference::from_psi(1.475), PressureDifference::from_psi(4.824)).unwrap()
}

fn sample(t: f64, low: f64, high: f64) -> Sample {
    Sample::gauges(Time::from_seconds(t), GaugePressure::from_psi(low), GaugePressure::from_psi(high))
}

/// The findings in readings every `every` seconds for `length`; `course` gives both sides in psi.
fn simulated(
    random: &mut Random,
    length: f64,
    every: f64,
    noise: f64,
    rho: f64,
    course: impl Fn(f64) -> (f64, f64),
) -> Vec<TraceFinding> {
    let mut trace = trace();
    let mut found = Vec::new();
    let (mut low_noise, mut high_noise) = (Autoregressive::new(rho), Autoregressive::new(rho));
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

fn steady_periods(found: &[TraceFinding]) -> Vec<&SteadyPeriod> {
    found
        .iter()
        .filter_map(|finding| match finding {
            TraceFinding::Steady(period) => Some(period.as_ref()),
            _ => None,
        })
        .collect()
}

fn cyclings(found: &[TraceFinding]) -> Vec<&Cycling> {
    found
        .iter()
        .filter_map(|finding| match finding {
            TraceFinding::Cycling(cycling) => Some(cycling),
            _ => None,
        })
        .collect()
}

fn transients(found: &[TraceFinding]) -> Vec<&TraceFinding> {
    found.iter().filter(|finding| matches!(finding, TraceFinding::Transient { .. })).collect()
}

fn equalised(period: &SteadyPeriod) -> bool {
    matches!(period.kind, SteadyKind::Equalised | SteadyKind::EqualisedVacuum)
}

fn too_coarse(cycling: &Cycling) -> bool {
    cycling.quality() == CyclingQuality::TooCoarse
}

/// A cycling clutch: engaged for `duty` of `period`; straight flanks between 25 and 45 psi, the high side 150 to 190 psi.
fn clutch(t: f64, period: f64, duty: f64) -> (f64, f64) {
    let phase = (t / period).fract();
    let fallen = if phase < duty { phase / duty } else { (1.0 - phase) / (1.0 - duty) };
    (45.0 - 20.0 * fallen, 150.0 + 40.0 * fallen)
}

const SEEDS: u64 = 1000;

#[test]
fn steady_noise_is_neither_cycling_nor_drifting() {
    // noise of the low side in psi, its autocorrelation from second to second
    for (noise, rho) in [(0.1, 0.0), (0.5, 0.0), (2.0, 0.0), (0.5, 0.5), (0.5, 0.9), (2.0, 0.5), (2.0, 0.9)] {
        let (mut cycling, mut drifting, mut other, mut steady) = (0, 0, 0, 0.0);
        for seed in 0..SEEDS {
            let found = simulated(&mut Random(seed), 1200.0, 1.0, noise, rho, |_| (LOW, HIGH));
            cycling += usize::from(!cyclings(&found).is_empty());
            let periods = steady_periods(&found);
            drifting += usize::from(periods.iter().any(|period| period.low.drifts || period.high.drifts));
            other +=
                usize::from(periods.iter().any(|period| equalised(period) || period.kind == SteadyKind::FastSwitching));
            steady += periods.iter().map(|s| (s.to - s.from).seconds()).sum::<f64>() / 1200.0 / SEEDS as f64;
        }
        println!(
            "20 min of noise, {noise} psi, autocorrelation {rho}: cycling reported in {cycling}, drifting in {drifting} of {SEEDS}; \
             steady {:.1} % of the time",
            100.0 * steady
        );
        assert!(
            cycling + drifting <= SEEDS as usize / 20,
            "{noise} psi, autocorrelation {rho}: {cycling} + {drifting}"
        );
        assert_eq!(other, 0, "{noise} psi, autocorrelation {rho}");
    }
}

#[test]
fn intervals_of_means_and_slopes_cover_the_truth() {
    for (length, drift, noise, rho) in [
        (120.0, 0.0, 0.5, 0.0),
        (1200.0, 0.0, 0.5, 0.5),
        (1200.0, 0.3, 0.5, 0.0),
        (1200.0, 0.3, 0.5, 0.9),
        (1200.0, 0.0, 2.0, 0.0),
    ] {
        let (mut whole, mut mean, mut slope, mut reported) = (0, 0, 0, 0);
        for seed in 0..SEEDS {
            let course = |t: f64| (LOW, HIGH + drift * HIGH_NOISE * t / 60.0);
            let found = simulated(&mut Random(seed), length, 1.0, noise, rho, course);
            let [period] = steady_periods(&found)[..] else { continue };
            whole += 1;
            let middle = 0.5 * (period.from.seconds() + period.to.seconds());
            let (low, high) = course(middle);
            mean += u64::from(period.low.mean.contains(GaugePressure::from_psi(low)))
                + u64::from(period.high.mean.contains(GaugePressure::from_psi(high)));
            slope += u64::from(period.low.per_minute.contains(PressureDifference::from_psi(0.0)))
                + u64::from(period.high.per_minute.contains(PressureDifference::from_psi(drift * HIGH_NOISE)));
            reported += usize::from(period.high.drifts);
        }
        let share = |hits: u64| 100.0 * hits as f64 / (2 * whole) as f64;
        println!(
            "{length} s, high side drifting {:.1} psi/min, noise {noise} psi, autocorrelation {rho}: one steady period in {whole} of \
             {SEEDS}; mean inside in {:.1} %, drift inside in {:.1} %, drift reported in {reported}",
            drift * HIGH_NOISE,
            share(mean),
            share(slope)
        );
        assert!(whole >= SEEDS * 3 / 4, "{whole}");
        assert!(share(mean) >= 90.0 && share(slope) >= 90.0, "{} {}", share(mean), share(slope));
        if drift > 0.0 {
            assert!(reported >= whole as usize * 9 / 10, "{reported}");
        }
    }
}

#[test]
fn a_cycling_clutch_is_found_with_its_period_and_duty_cycle() {
    for (period, duty, every, noise) in [
        (30.0, 0.4, 1.0, 0.1),
        (30.0, 0.4, 1.0, 0.5),
        (30.0, 0.4, 1.0, 1.5),
        (47.0, 0.7, 2.0, 0.5),
        (12.3, 0.5, 0.5, 0.5),
        (90.0, 0.3, 5.0, 0.5),
        (60.0, 0.5, 7.0, 0.3),
    ] {
        let (mut reported, mut inside, mut off) = (0u64, [0u64; 4], [0.0f64; 2]);
        for seed in 0..SEEDS {
            let mut random = Random(seed);
            let shift = random.between(0.0, period);
            let found = simulated(&mut random, 12.0 * period, every, noise, 0.0, |t| clutch(t + shift, period, duty));
            let [cycling] = cyclings(&found)[..] else { continue };
            reported += 1;
            inside[0] += u64::from(cycling.period.contains(Time::from_seconds(period)));
            inside[1] += u64::from(cycling.clutch_duty_cycle.contains(satline::Ratio::from_fraction(duty)));
            inside[2] += u64::from(cycling.cut_out.contains(GaugePressure::from_psi(25.0)));
            inside[3] += u64::from(cycling.cut_in.contains(GaugePressure::from_psi(45.0)));
            off[0] += cycling.period.value.unwrap().seconds();
            off[1] += cycling.clutch_duty_cycle.value.unwrap().percent();
            // as evidence the same interval, and none where readings are too rare
            let share = cycling.measured_duty_cycle();
            assert_eq!(share.is_none(), too_coarse(cycling), "every {every} s of {period} s");
            let half = cycling.clutch_duty_cycle.high.unwrap().fraction()
                - cycling.clutch_duty_cycle.value.unwrap().fraction();
            // rounding
            let same = |share: f64| abs_diff_eq!(share, half, epsilon = 1e-9);
            assert!(share.is_none_or(|share| same(share.expanded().fraction())), "{share:?}, {half}");
        }
        let share = inside.map(|hits| 100.0 * hits as f64 / reported.max(1) as f64);
        off = off.map(|sum| sum / reported.max(1) as f64);
        println!(
            "period {period} s, duty cycle {duty}, every {every} s, noise {noise} psi: reported in {reported} of {SEEDS}; inside: period \
             {:.1} %, duty {:.1} %, cut-out {:.1} %, cut-in {:.1} %; means {:.2} s, {:.2} %",
            share[0], share[1], share[2], share[3], off[0], off[1]
        );
        assert!(reported >= SEEDS * 9 / 10, "{reported}");
        assert!(share.iter().all(|&share| share >= 90.0), "{share:?}");
    }
}

/// The findings of samples given one by one.
fn of(samples: impl IntoIterator<Item = Sample>) -> Vec<TraceFinding> {
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
    let found = simulated(&mut Random(1), 85.0, 1.0, 0.2, 0.0, |t| clutch(t, 30.0, 0.4));
    assert!(cyclings(&found).is_empty(), "{found:?}");
    let [TraceFinding::Transient { mirrored_flanks, .. }] = transients(&found)[..] else { panic!("{found:?}") };
    assert!((3..=5).contains(mirrored_flanks), "{found:?}");
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
    assert_eq!(MIN_CYCLES, 3);
}

#[test]
fn bent_flanks_bias_the_turning_pressures_but_not_the_period() {
    // flanks that level off with a time constant of half and of a third of their length, as real ones do
    for tau in [0.5, 1.0 / 3.0] {
        let bent = |x: f64| (1.0 - (-x / tau).exp()) / (1.0 - (-1.0 / tau).exp());
        let course = |t: f64| {
            let phase = (t / 40.0).fract();
            let fallen = if phase < 0.4 { bent(phase / 0.4) } else { 1.0 - bent((phase - 0.4) / 0.6) };
            (45.0 - 20.0 * fallen, 150.0 + 40.0 * fallen)
        };
        let (mut reported, mut inside, mut off) = (0, 0, [0.0; 4]);
        for seed in 0..200 {
            let mut random = Random(seed);
            let shift = random.between(0.0, 40.0);
            let found = simulated(&mut random, 600.0, 1.0, 0.3, 0.0, |t| course(t + shift));
            let [cycling] = cyclings(&found)[..] else { continue };
            reported += 1;
            inside += u64::from(cycling.cut_out.contains(GaugePressure::from_psi(25.0)))
                + u64::from(cycling.cut_in.contains(GaugePressure::from_psi(45.0)));
            off[0] += cycling.period.value.unwrap().seconds() - 40.0;
            off[1] += cycling.clutch_duty_cycle.value.unwrap().percent() - 40.0;
            off[2] += (cycling.cut_out.value.unwrap().psi() - 25.0) / 0.2;
            off[3] += (cycling.cut_in.value.unwrap().psi() - 45.0) / 0.2;
        }
        let [period, duty, cut_out, cut_in] = off.map(|sum| sum / reported as f64);
        println!(
            "flanks bent with {tau:.2} of their length: reported in {reported} of 200; off by {period:.2} s, {duty:.2} % of a cycle, \
             cut-out and cut-in by {cut_out:.1} % and {cut_in:.1} % of the cycling range, inside in {inside} of {}",
            2 * reported
        );
        // seconds of 40, read every second: our choice
        assert!(reported >= 190 && abs_diff_eq!(period, 0.0, epsilon = 0.2), "{reported} {period}");
        // sharper corners than parabolas make, and narrower than readings every second: the turns are read too tame
        assert_abs_diff_eq!(duty, 0.0, epsilon = 1.0);
        assert_abs_diff_eq!(cut_out, 0.0, epsilon = 6.0);
        assert_abs_diff_eq!(cut_in, 0.0, epsilon = 6.0);
    }
}

#[test]
fn a_step_splits_two_steady_periods_and_a_start_up_is_a_transient() {
    let mut random = Random(3);
    let course = |t: f64| {
        let start = (-t / 40.0).exp();
        let step = if t < 600.0 { 0.0 } else { 6.0 };
        (LOW + 60.0 * start + step, HIGH - 90.0 * start + 3.0 * step)
    };
    let found = simulated(&mut random, 1200.0, 1.0, 0.3, 0.0, course);
    let [first, second] = steady_periods(&found)[..] else { panic!("{found:?}") };
    assert!((100.0..240.0).contains(&first.from.seconds()), "{first:?}");
    assert!((560.0..=600.0).contains(&first.to.seconds()), "{first:?}");
    assert!((600.0..660.0).contains(&second.from.seconds()) && second.to.seconds() == 1200.0, "{second:?}");
    assert!(second.low.mean.contains(GaugePressure::from_psi(36.0)), "{second:?}");
    let (low, high) = (second.low.mean.value.unwrap().psi(), second.high.mean.value.unwrap().psi());
    // the mean of ten minutes with a noise of 0.3 psi, and the tail of the start-up: our choice
    assert_abs_diff_eq!(low, 36.0, epsilon = 0.1);
    assert_abs_diff_eq!(high, 198.0, epsilon = 0.3);
    // the tail of the start-up is no drift
    assert!(!first.low.drifts && !first.high.drifts && !second.low.drifts && !second.high.drifts, "{found:?}");
    let [TraceFinding::Transient { from, low_at_start, .. }, ..] = transients(&found)[..] else { panic!("{found:?}") };
    assert!(from.seconds() == 0.0 && low_at_start.psi() > 85.0, "{from:?}, {low_at_start:?}");
}

#[test]
fn a_drift_is_split_from_the_steady_period_before_it() {
    let drift = |t: f64| 2.0 * (t - 900.0).max(0.0) / 60.0;
    let (mut split, mut off) = (0, 0.0);
    for seed in 0..200 {
        let found = simulated(&mut Random(seed), 1800.0, 1.0, 0.5, 0.0, |t| (LOW, HIGH + drift(t)));
        let [before, after] = steady_periods(&found)[..] else { continue };
        split += usize::from(!before.high.drifts && after.high.drifts && !after.low.drifts);
        off += (after.from.seconds() - 900.0).abs() / 200.0;
    }
    println!("a drift of 2 psi/min after 15 min split off in {split} of 200, {off:.0} s off on average");
    assert!(split >= 180 && off < 60.0, "{split} {off}");
}

#[test]
fn sides_that_agree_are_equalised() {
    let alike = simulated(&mut Random(5), 300.0, 1.0, 0.3, 0.0, |_| (92.0, 93.0));
    assert!(equalised(steady_periods(&alike)[0]));
    let apart = simulated(&mut Random(5), 300.0, 1.0, 0.3, 0.0, |_| (60.0, 93.0));
    assert!(!equalised(steady_periods(&apart)[0]));
    let vacuum = simulated(&mut Random(5), 300.0, 5.0, 0.1, 0.0, |_| (-9.8, -9.8));
    assert!(equalised(steady_periods(&vacuum)[0]) && steady_periods(&vacuum)[0].low.mean.value.unwrap().psi() < -9.0);
}

#[test]
fn gaps_and_clock_resets_end_a_steady_period() {
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
            TraceFinding::Steady(_) => "steady",
            TraceFinding::Gap { .. } => "gap",
            TraceFinding::ClockReset { .. } => "clock reset",
            _ => "other",
        })
        .collect();
    assert_eq!(names, ["steady", "gap", "steady", "clock reset", "steady"], "{found:?}");
    // two rows are refused before a third shows that time really runs on from there
    assert_eq!(
        refused,
        [Error::NotLater { seconds: 100.0, before: 599.0 }, Error::NotLater { seconds: 101.0, before: 599.0 }]
    );
    let TraceFinding::Gap { from, to } = &found[1] else { panic!("{found:?}") };
    assert_eq!((from.seconds(), to.seconds()), (199.0, 400.0));
    let all = steady_periods(&found);
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
            let found = simulated(&mut random, 90.0 * every, every, 0.3, 0.0, |t| clutch(t + shift, period, 0.4));
            claimed += usize::from(cyclings(&found).iter().any(|cycling| !too_coarse(cycling)));
            said += usize::from(
                steady_periods(&found).iter().any(|period| period.kind == SteadyKind::FastSwitching)
                    || cyclings(&found)
                        .iter()
                        .any(|cycling| too_coarse(cycling) && cycling.measured_duty_cycle().is_none()),
            );
        }
        println!("a period of {period} s read every {every} s: said in {said} of 200, a period reported in {claimed}");
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
                && cycling.clutch_duty_cycle.contains(satline::Ratio::from_percent(35.0)),
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
    let period = steady_periods(&found)[0];
    let suction = period.suction_line.unwrap();
    // K; a noise of 0.1 K over 300 readings, and over 30 of the vent: our choice
    assert_abs_diff_eq!(suction.mean.value.unwrap().celsius(), 10.0, epsilon = 0.05);
    assert!(suction.mean.low < suction.mean.value);
    assert!(abs_diff_eq!(suction.standard_deviation.kelvins(), 0.1, epsilon = 0.02), "{suction:?}");
    assert_abs_diff_eq!(period.vent.unwrap().mean.value.unwrap().celsius(), 8.0, epsilon = 0.1);
    assert!(period.liquid_line.is_none() && period.humidity.is_none());
}

/// Every number of a finding.
fn figures(finding: &TraceFinding) -> Vec<f64> {
    fn interval<Q: Quantity>(interval: &Interval<Q>) -> Vec<f64> {
        [interval.value, interval.low, interval.high].into_iter().flatten().map(Quantity::si).collect()
    }
    fn trend<Q: Quantity>(trend: &Trend<Q>) -> Vec<f64> {
        let mut all = [interval(&trend.mean), interval(&trend.end), interval(&trend.per_minute)].concat();
        all.extend([trend.standard_deviation.si(), trend.variance_inflation]);
        all
    }
    match finding {
        TraceFinding::Steady(period) => {
            let lines = [period.suction_line, period.liquid_line, period.vent, period.ambient];
            let mut all = [trend(&period.low), trend(&period.high)].concat();
            all.extend(lines.iter().flatten().flat_map(trend));
            all.extend(period.humidity.iter().flat_map(trend));
            all.extend([period.from.seconds(), period.to.seconds()]);
            all
        }
        TraceFinding::Cycling(cycling) => {
            let mut all = [interval(&cycling.cut_out), interval(&cycling.cut_in)].concat();
            all.extend([interval(&cycling.period), interval(&cycling.clutch_duty_cycle)].concat());
            all.extend([cycling.from, cycling.to, cycling.period_deviation].map(Time::seconds));
            all.extend([cycling.high_side_range.pa(), cycling.readings_per_cycle]);
            all
        }
        TraceFinding::Transient { from, to, low_at_start, low_at_end, high_at_start, high_at_end, .. } => {
            let mut all = [low_at_start, low_at_end, high_at_start, high_at_end].map(|p| p.pa()).to_vec();
            all.extend([from.seconds(), to.seconds()]);
            all
        }
        TraceFinding::Gap { from, to } | TraceFinding::ClockReset { from, to } => vec![from.seconds(), to.seconds()],
        other => panic!("{other:?} is not checked"),
    }
}

/// Numbers that arithmetic stumbles over, among ordinary ones around `usual`.
fn extreme(usual: std::ops::Range<f64>) -> impl Strategy<Value = f64> {
    prop_oneof![
        12 => usual,
        1 => prop::sample::select(vec![0.0, -0.0, 1e-300, 5e-324, -1e9, 1e9, -1e6, 1e13, 1e200, -1e308, f64::MAX]),
        1 => prop::sample::select(vec![f64::NAN, f64::INFINITY, f64::NEG_INFINITY]),
    ]
}

/// Steps of time: even, none, too small to resolve, backwards, huge.
fn steps() -> impl Strategy<Value = f64> {
    prop_oneof![
        12 => Just(1.0),
        4 => 0.01..20.0,
        1 => prop::sample::select(vec![0.0, 5e-324, 1e-300, 1e-12, -1.0, -1e6, 1e4, 1e9, 1e13, f64::NAN, f64::INFINITY]),
    ]
}

/// A stretch of a log: number of samples, step of time, and what low and high side do in it.
type Piece = (usize, f64, f64, f64, u8, f64);

fn pieces() -> impl Strategy<Value = Vec<Piece>> {
    let piece = (1..120usize, steps(), extreme(-14.0..60.0), extreme(-14.0..300.0), 0..4u8, extreme(0.0..40.0));
    prop::collection::vec(piece, 1..12)
}

/// Pushes `pieces` into a trace that starts at `start` s; every number of every finding must be finite, and every sample that
/// is not finite must be refused.
fn only_finite_findings(start: f64, pieces: &[Piece]) -> Result<(), TestCaseError> {
    let mut trace = trace();
    let mut found = Vec::new();
    let mut t = start;
    for (i, &(samples, step, low, high, shape, ambient)) in pieces.iter().enumerate() {
        for k in 0..samples {
            t += step;
            // level, cycling, ramp, alternating
            let swing = match shape {
                0 => 0.0,
                1 => 15.0 * (k as f64 / 4.0).sin(),
                2 => k as f64,
                _ => 20.0 * f64::from(u8::from(k % 2 == 0)),
            };
            let sample = Sample {
                ambient: (i % 2 == 0).then(|| Temperature::from_celsius(ambient)),
                ..sample(t, low + swing, high - 2.0 * swing)
            };
            let finite =
                [t, low, high].iter().all(|x| x.is_finite()) && sample.ambient.is_none_or(|t| t.kelvin().is_finite());
            match trace.push(&sample) {
                Ok(some) => {
                    prop_assert!(finite, "{sample:?} was accepted");
                    found.extend(some);
                }
                // a step to no number must not hide all that follows
                Err(_) if !t.is_finite() => t = start,
                Err(_) => {}
            }
        }
        found.extend(trace.so_far().unwrap());
    }
    found.extend(trace.finish().unwrap());
    for finding in &found {
        prop_assert!(figures(finding).iter().all(|x| x.is_finite()), "{finding:?}");
    }
    Ok(())
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(400))]
    #[test]
    fn extreme_samples_never_yield_a_number_that_is_not_finite(
        start in prop::sample::select(vec![0.0, -1e13, 1.8e9, 9e12]),
        pieces in pieces(),
    ) {
        only_finite_findings(start, &pieces)?;
    }
}

#[test]
fn readings_in_the_same_instant_give_no_slope() {
    // times that differ by less than their squares can tell
    let mut trace = trace();
    for i in 0..500 {
        let t = f64::from(i) * 1e-200;
        let (low, high) = clutch(f64::from(i), 37.0, 0.4);
        trace.push(&sample(t, low, high)).unwrap();
    }
    for finding in trace.finish().unwrap() {
        assert!(figures(&finding).iter().all(|x| x.is_finite()), "{finding:?}");
    }
    // beyond any instrument
    let mut trace = self::trace();
    assert!(matches!(trace.push(&sample(0.0, 1e9, 180.0)), Err(Error::Implausible { .. })));
    assert!(matches!(trace.push(&sample(1e14, 30.0, 180.0)), Err(Error::Implausible { .. })));
}

#[cfg(feature = "serde")]
#[test]
fn samples_and_findings_come_back_from_json_as_they_went() {
    fn again<T: serde::Serialize + serde::de::DeserializeOwned>(value: &T) -> T {
        serde_json::from_str(&serde_json::to_string(value).unwrap()).unwrap()
    }
    let whole = Sample {
        suction_line: Some(Temperature::from_celsius(10.1)),
        ambient: Some(Temperature::from_celsius(30.0)),
        humidity: Some(satline::Ratio::from_percent(55.0)),
        ..sample(0.1, LOW, HIGH)
    };
    assert_eq!(again(&whole), whole);
    assert_eq!(serde_json::to_value(sample(0.5, 1.0, 2.0)).unwrap().as_object().unwrap().len(), 3);

    let mut random = Random(13);
    let mut trace = trace();
    let mut found = Vec::new();
    // steady, cycling, a gap, steady, the clock reset, a drift
    for i in 0..1800u32 {
        let t = f64::from(i) + if i >= 900 { 500.0 } else { 0.0 } - if i >= 1200 { 1000.0 } else { 0.0 };
        let (low, high) = match i {
            300..700 => clutch(t, 37.0, 0.4),
            1200.. => (LOW, HIGH + 0.05 * f64::from(i - 1200)),
            _ => (LOW, HIGH),
        };
        let sample =
            Sample { ambient: whole.ambient, ..sample(t, low + 0.3 * random.normal(), high + random.normal()) };
        found.extend(trace.push(&sample).unwrap_or_default());
    }
    found.extend(trace.finish().unwrap());
    let kinds: std::collections::HashSet<_> = found.iter().map(std::mem::discriminant).collect();
    assert_eq!(kinds.len(), 5, "{found:?}");
    for finding in &found {
        let back = again(finding);
        assert_eq!(std::mem::discriminant(&back), std::mem::discriminant(finding));
        // the reader of numbers may miss the last bit
        for (a, b) in figures(&back).into_iter().zip(figures(finding)) {
            assert_abs_diff_eq!(a, b, epsilon = 1e-15 * b.abs());
        }
    }
    let odd = serde_json::json!({ "time": "1 s", "low": "1 bar", "high": "2 bar", "colour": "blue" });
    assert!(serde_json::from_value::<Sample>(odd).unwrap_err().to_string().contains("unknown field `colour`"));
}

#[cfg(feature = "serde")]
mod example {
    use std::io::Write;

    use clap::Parser;

    use super::watch_log::{self, Summary, lines::Lines};
    use crate::support::{alone, resident_kib, same_as_file};

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
        let first = json.lines().find(|line| line.contains("\"drifting\"")).unwrap();
        same_as_file("examples/watch_log.json", &format!("{first}\n"));
        let kinds: Vec<String> = json
            .lines()
            .map(|line| serde_json::from_str::<serde_json::Value>(line).unwrap())
            .map(|object| {
                if object["finding"].is_string() {
                    assert_eq!(object["schema"], "satline-trace-3");
                    assert!(object["from_s"].as_f64().unwrap() < object["to_s"].as_f64().unwrap());
                    assert!(object["since_first_s"].is_array() && object["count"].is_u64());
                }
                let first = ["finding", "error", "reading", "summary"].into_iter().find(|key| !object[key].is_null());
                object["finding"].as_str().or(first).unwrap().to_owned()
            })
            .collect();
        assert_eq!(
            kinds,
            [
                "equalised",
                "transient",
                "cycling",
                "error",
                "error",
                "transient",
                "steady",
                "drifting",
                "reading",
                "summary"
            ]
        );
    }

    #[test]
    fn the_page_in_spanish_says_the_same() {
        const SPANISH: [&str; 2] = ["--language", "es"];
        let (page, complaints) = watch_log::demonstration(&args(&SPANISH)).unwrap();
        assert!(page.lines().all(|line| line.chars().count() <= 80), "{page}");
        same_as_file("examples/watch_log.es.txt", &format!("{page}\nen la salida de errores:\n{complaints}"));
        let data = |words: &[&str]| watch_log::demonstration(&args(words)).unwrap().0;
        assert_eq!(data(&["--json", "--language", "es"]), data(&["--json"]));
        // the reading that it ends with is in the same language, and so is its diagnosis
        let (page, _) = watch_log::demonstration(&args(&["--causes", "--language", "es"])).unwrap();
        assert!(page.contains("--language es") && page.contains("Qué hacer ahora"), "{page}");
        for (log, said) in [
            ("", "el registro está vacío"),
            ("time [s],low [psi],high [psi]\n", "ninguna fila"),
            ("time [s],low [psi],high [psi]\n0,30,18x\n", "no se pudo usar ninguna de 1 filas"),
            ("low [psi],high [psi]\n", "ninguna columna dice cuándo"),
            ("time [s],low [psi]\n", "falta la columna «high»"),
            ("time [s],low,high [psi]\n", "lado de baja: «low» no tiene unidad"),
        ] {
            let refused = self::page(log.as_bytes(), &[&R134A[..], &SPANISH].concat()).unwrap_err();
            assert!(refused.contains(said), "{refused}");
        }
        let log = b"time [s],low [psi],high [psi]\n0,30,180\n1,30\n2,30,18x\n";
        let (_, complaints, _) = self::page(log, &[&R134A[..], &SPANISH].concat()).unwrap();
        let bad = "presión manométrica: «18x» no es";
        assert!(complaints.contains("línea 3: 2 campos donde el encabezado tiene 3\n"), "{complaints}");
        assert!(complaints.contains("línea 4: ") && !complaints.contains(bad), "{complaints}");
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
                "--humidity",
                "--resting",
                "--resting-temperature",
                "--compressor"
            ]
        );
    }

    /// The same inspection as the command makes, in one step.
    #[test]
    fn the_log_is_diagnosed_as_the_reading_that_it_is() {
        let (page, _) = watch_log::demonstration(&args(&["--causes", "--json"])).unwrap();
        let diagnosis = page.lines().find(|line| line.starts_with("{\"diagnosis\"")).unwrap();
        let diagnosis: serde_json::Value = serde_json::from_str(diagnosis).unwrap();
        let report: satline::report::Report = serde_json::from_value(diagnosis["diagnosis"].clone()).unwrap();
        let causes = report.causes.expect("R-134a at 86 °F is modelled");
        // both gauges before the start are evidence, and the clutch names the kind
        let first = &causes.causes[0];
        assert!(first.predicted.iter().any(|row| row.measurand == satline::inspection::Measurand::EqualisedPressure));
        let text = watch_log::demonstration(&args(&["--causes"])).unwrap().0;
        assert!(text.contains("The log as a reading\n  The operating state held longest, 11 min."), "{text}");
        assert!(text.contains("What to do next"), "{text}");
    }

    #[test]
    fn a_bad_row_is_named_and_the_others_are_used() {
        let mut log = b"\xef\xbb\xbf# by hand\r\ntime [s];low [bar];high [bar];note\r\n".to_vec();
        for second in 0..120 {
            writeln!(log, "{second};2.0{};12.{};\r", second % 3, second % 2).unwrap();
        }
        log.extend_from_slice(
            b"119;2.0;12;twice\r\n120;2,0x;12;\r\n121;nan;12;\r\n122;2\r\n123;\xff;12;\r\n124;200;12;\r\n125;2;12;\r\n126;2\x00;12;\r\n\x00\x00\r\n",
        );
        let (page, complaints, summary) = page(&log, &R134A).unwrap();
        assert_eq!(summary, Summary { used: 121, bad: 8 }, "{complaints}");
        let begins: Vec<&str> = complaints.lines().map(|line| line.split(':').next().unwrap()).collect();
        assert_eq!(begins, [123, 124, 125, 126, 127, 128, 130, 131].map(|line| format!("line {line}")));
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

    #[test]
    #[ignore = "a million rows: run in release"]
    fn a_long_trace_takes_no_more_memory() {
        // memory is counted by the process
        print!("{}", alone("trace::example::a_long_trace_alone"));
    }

    #[test]
    #[ignore = "run by a_long_trace_takes_no_more_memory"]
    fn a_long_trace_alone() {
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

/// What readings every second of `course`, psi and °F of vent and ambient, for `length` combine to.
fn combined(length: u32, course: impl Fn(f64) -> (f64, f64, f64, f64)) -> CombinedReadings {
    let mut combined = CombinedReadings::new(PressureDifference::from_psi(1.475), PressureDifference::from_psi(4.824));
    let mut trace = trace();
    for second in 0..length {
        let t = f64::from(second);
        let (low, high, vent, ambient) = course(t);
        let [vent, ambient] = [vent, ambient].map(|t| Some(Temperature::from_fahrenheit(t)));
        let sample = Sample { vent, ambient, ..sample(t, low, high) };
        trace.push(&sample).unwrap().iter().for_each(|finding| combined.add(finding));
    }
    trace.finish().unwrap().iter().for_each(|finding| combined.add(finding));
    combined
}

#[test]
fn stretches_of_one_operating_state_are_averaged_by_their_duration() {
    // ten minutes at 30 psi, revved for four, then five minutes at 31.5 psi
    let log = combined(1140, |t| match t {
        ..600.0 => (30.0, 180.0, 50.0, 86.0),
        600.0..840.0 => (22.0, 215.0, 44.0, 86.0),
        _ => (31.5, 183.0, 53.0, 86.0),
    });
    let reading = log.running().unwrap();
    assert_eq!((reading.stretches, log.set_aside()), (2, 1));
    let (first, second) = (600.0, 300.0);
    let weighted = |a: f64, b: f64| (first * a + second * b) / (first + second);
    // a steady period begins and ends within a window of the change
    assert!(abs_diff_eq!(reading.low.psi(), weighted(30.0, 31.5), epsilon = 0.1), "{:?}", reading.low);
    assert!(abs_diff_eq!(reading.high.psi(), weighted(180.0, 183.0), epsilon = 0.2), "{:?}", reading.high);
    assert!(
        abs_diff_eq!(reading.vent.unwrap().fahrenheit(), weighted(50.0, 53.0), epsilon = 0.2),
        "{:?}",
        reading.vent
    );
    assert!(abs_diff_eq!(reading.duration.seconds(), 900.0, epsilon = 60.0), "{:?}", reading.duration);
    assert!(reading.clutch_duty_cycle.is_none() && reading.suction_line.is_none() && !log.has_cycling_clutch());
    assert!(log.equalised().is_none());
}

#[test]
fn another_day_is_another_operating_state() {
    let log = combined(900, |t| if t < 400.0 { (30.0, 180.0, 50.0, 86.0) } else { (30.0, 180.0, 50.0, 95.0) });
    // the step of a thermometer alone does not end a steady period, so a gap does
    assert_eq!(log.running().unwrap().stretches, 1);
    let mut gauges = CombinedReadings::new(PressureDifference::from_psi(1.475), PressureDifference::from_psi(4.824));
    let mut trace = trace();
    for second in (0..400).chain(4000..4500) {
        let ambient = Some(Temperature::from_fahrenheit(if second < 400 { 86.0 } else { 95.0 }));
        let sample = Sample { ambient, ..sample(f64::from(second), 30.0, 180.0) };
        trace.push(&sample).unwrap().iter().for_each(|finding| gauges.add(finding));
    }
    trace.finish().unwrap().iter().for_each(|finding| gauges.add(finding));
    assert_eq!(gauges.set_aside(), 1);
    // the longer one
    assert_abs_diff_eq!(gauges.running().unwrap().ambient.unwrap().fahrenheit(), 95.0, epsilon = 1e-6); // rounding
}

#[test]
fn only_a_circuit_that_has_not_run_is_taken_as_equalised() {
    let before = combined(900, |t| if t < 300.0 { (92.0, 92.0, 86.0, 86.0) } else { (30.0, 180.0, 50.0, 86.0) });
    assert_abs_diff_eq!(before.equalised().unwrap().low.psi(), 92.0, epsilon = 1e-9); // a log without noise: rounding
    let after = combined(900, |t| if t < 600.0 { (30.0, 180.0, 50.0, 86.0) } else { (98.0, 98.0, 80.0, 86.0) });
    assert!(after.equalised().is_none() && after.running().is_some());
    let vacuum = combined(300, |_| (-14.0, -14.0, 86.0, 86.0));
    assert!(vacuum.equalised().is_none() && vacuum.running().is_none() && vacuum.set_aside() == 0);
}

#[test]
fn a_cycling_clutch_is_a_reading_at_its_cut_out_with_its_duty_cycle() {
    let log = combined(900, |t| {
        let (low, high) = clutch(t, 30.0, 0.4);
        (low, high, 50.0, 86.0)
    });
    let reading = log.running().unwrap();
    assert!(log.has_cycling_clutch());
    // whole seconds and no noise: rounding
    assert!(abs_diff_eq!(reading.clutch_duty_cycle.unwrap().percent(), 40.0, epsilon = 1e-9), "{reading:?}");
    assert!(
        abs_diff_eq!(reading.low.psi(), 25.0, epsilon = 1e-9)
            && abs_diff_eq!(reading.high.psi(), 170.0, epsilon = 1e-9),
        "{reading:?}"
    );
    let entry = reading.entry(&satline::inspection::DisplayUnits::new(
        satline::quantity::PressureUnit::Psi,
        satline::quantity::TemperatureUnit::Fahrenheit,
    ));
    let duty = entry.value(satline::inspection::Measurand::ClutchDutyCycle).unwrap().to_string();
    assert_eq!(duty, "40 %");
    assert_eq!(
        entry.pressure(satline::inspection::Measurand::LowSide).unwrap().to_string(),
        format!("{:.1} psi", reading.low.psi())
    );
}

#[test]
fn states_without_end_are_bounded() {
    let mut log = CombinedReadings::new(PressureDifference::from_psi(1.475), PressureDifference::from_psi(4.824));
    let mut trace = trace();
    for second in 0..6000u32 {
        // an hour without readings between the states
        let step = f64::from(second / 200);
        let sample = sample(f64::from(second) + 3600.0 * step, 20.0 + 4.0 * step, 150.0 + 8.0 * step);
        trace.push(&sample).unwrap().iter().for_each(|finding| log.add(finding));
    }
    trace.finish().unwrap().iter().for_each(|finding| log.add(finding));
    // eight are told apart, the others are counted
    assert!(log.set_aside() >= 20, "{}", log.set_aside());
}
