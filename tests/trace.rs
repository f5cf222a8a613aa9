//! Traces made with what they contain known: how often it is found, and how often something is found that is not there.

use satline::quantity::Time;
use satline::trace::{Cycling, Finding, Moving, Sample, Stretch, Trace};
use satline::{Error, GaugePressure, PressureDifference, Temperature};

/// Numbers that look drawn (splitmix64, Steele & al. 2014), the same in every run.
struct Random(u64);

impl Random {
    fn bits(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        z ^ (z >> 31)
    }
    fn between(&mut self, low: f64, high: f64) -> f64 {
        low + (high - low) * (self.bits() >> 11) as f64 / (1u64 << 53) as f64
    }
    /// Box & Muller 1958.
    fn normal(&mut self) -> f64 {
        let u = self.between(f64::MIN_POSITIVE, 1.0);
        (-2.0 * u.ln()).sqrt() * (std::f64::consts::TAU * self.between(0.0, 1.0)).cos()
    }
}

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
        }
        let share = inside.map(|hits| 100.0 * hits as f64 / told.max(1) as f64);
        off = off.map(|sum| sum / told.max(1) as f64);
        println!(
            "period {period} s, duty {duty}, every {every} s, noise {noise} psi: told in {told} of {SEEDS}; inside: period \
             {:.1} %, duty {:.1} %, opens {:.1} %, engages {:.1} %; means {:.2} s, {:.2} %",
            share[0], share[1], share[2], share[3], off[0], off[1]
        );
        assert!(told >= SEEDS * 9 / 10, "{told}");
        // noise of a thirteenth of the swing hides the corners: levels are then off by more than their intervals
        let held = if noise > 1.0 { &share[..2] } else { &share[..] };
        assert!(held.iter().all(|&share| share >= 90.0), "{share:?}");
    }
}
