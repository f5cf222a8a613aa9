//! The hold test, purity and what a resting circuit holds: made cases with known truth, published tables, bad input.

use satline::quantity::{PressureRate, Time};
use satline::service::Interval;
use satline::service::hold::{Finding, HoldFit, HoldTest};
use satline::{Measured, Pressure, PressureDifference, Quantity};

/// Random numbers that are the same on every machine: SplitMix64 (Steele, Lea & Flood 2014).
struct Random(u64);

impl Random {
    fn bits(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        z ^ (z >> 31)
    }
    /// Even between `low` and `high`.
    fn between(&mut self, low: f64, high: f64) -> f64 {
        low + (high - low) * (self.bits() >> 11) as f64 / (1u64 << 53) as f64
    }
    /// Even in the logarithm.
    fn spread(&mut self, low: f64, high: f64) -> f64 {
        self.between(low.ln(), high.ln()).exp()
    }
    /// Standard normal (Box & Muller 1958).
    fn normal(&mut self) -> f64 {
        let u = self.between(f64::MIN_POSITIVE, 1.0);
        (-2.0 * u.ln()).sqrt() * (std::f64::consts::TAU * self.between(0.0, 1.0)).cos()
    }
}

/// A test made from a known curve: scatter in steps of the gauge, readings rounded as a gauge rounds.
struct Made {
    minutes: f64,
    step: f64,
    fit: HoldFit,
}

/// Readings of `curve` (microns over the share of the test that has passed), with noise and rounding.
fn made(random: &mut Random, curve: impl Fn(f64) -> f64, minutes: f64) -> Made {
    let n = random.between(8.0, 41.0) as usize;
    let step = [1.0, 5.0, 10.0][random.between(0.0, 3.0) as usize];
    let scatter = step * random.spread(0.1, 3.0);
    let air = Measured::exact(Pressure::STANDARD_ATMOSPHERE).unwrap();
    let mut test = HoldTest::new(air, PressureDifference::from_microns(step)).unwrap();
    for i in 0..n {
        let share = i as f64 / (n - 1) as f64;
        let read = ((curve(share) + scatter * random.normal()) / step).round() * step;
        test.push(Time::from_minutes(share * minutes), Pressure::from_microns(read), None).unwrap();
    }
    Made { minutes, step, fit: test.fit().unwrap() }
}

#[derive(Default)]
struct Tally {
    inside: usize,
    open: usize,
    widths: Vec<f64>,
}

impl Tally {
    /// Counts one interval; its half width over `scale`.
    fn add<Q: Quantity>(&mut self, interval: &Interval<Q>, truth: Q, scale: f64) {
        self.inside += usize::from(interval.contains(truth));
        match (interval.low, interval.high) {
            (Some(low), Some(high)) => self.widths.push(0.5 * (high.si() - low.si()) / scale),
            _ => self.open += 1,
        }
    }
    fn median(&self) -> f64 {
        let mut widths = self.widths.clone();
        widths.sort_by(f64::total_cmp);
        widths.get(widths.len() / 2).copied().unwrap_or(f64::INFINITY)
    }
}

#[test]
fn x() {
    let mut random = Random(6);
    let mut rate_t = Tally::default();
    let mut found = std::collections::BTreeMap::<String, usize>::new();
    for _ in 0..1000 {
        let minutes = random.between(5.0, 30.0);
        let rate = random.spread(2.0, 500.0);
        let start = random.between(100.0, 2000.0);
        let m = made(&mut random, |x| start + rate * minutes * x, minutes);
        *found.entry(format!("{:?}", m.fit.finding)).or_default() += 1;
        let truth = PressureRate::from_microns_per_minute(rate);
        rate_t.add(&m.fit.straight.rate, truth, truth.si());
    }
    println!("leak {found:?} {} open {} median {}", rate_t.inside, rate_t.open, rate_t.median());
    let (mut e, mut tau_t, mut s) = (Tally::default(), Tally::default(), Tally::default());
    let mut found = std::collections::BTreeMap::<String, usize>::new();
    for _ in 0..1000 {
        let minutes = random.between(5.0, 30.0);
        let start = random.between(100.0, 1000.0);
        let end = start + random.spread(100.0, 10000.0);
        let tau = minutes * random.spread(0.1, 1.5);
        let m = made(&mut random, |x| end - (end - start) * (-x * minutes / tau).exp(), minutes);
        *found.entry(format!("{:?}", m.fit.finding)).or_default() += 1;
        let Some(l) = m.fit.levelling else {
            println!("none");
            continue;
        };
        e.add(&l.end, Pressure::from_microns(end), Pressure::from_microns(end).si());
        s.add(&l.start, Pressure::from_microns(start), Pressure::from_microns(start).si());
        tau_t.add(&l.time_constant, Time::from_minutes(tau), tau * 60.0);
    }
    println!("moist {found:?}");
    for (n, t) in [("end", &mut e), ("tau", &mut tau_t), ("start", &mut s)] {
        println!("{n} {} open {} median {}", t.inside, t.open, t.median());
    }
    let mut found = std::collections::BTreeMap::<String, usize>::new();
    let mut r = Tally::default();
    for _ in 0..1000 {
        let minutes = random.between(10.0, 30.0);
        let start = random.between(100.0, 1000.0);
        let b = random.spread(200.0, 5000.0);
        let tau = minutes * random.spread(0.1, 0.3);
        let rate = random.spread(10.0, 500.0);
        let m = made(&mut random, |x| start + b * (1.0 - (-x * minutes / tau).exp()) + rate * minutes * x, minutes);
        *found.entry(format!("{:?}", m.fit.finding)).or_default() += 1;
        r.add(
            &m.fit.beside.unwrap(),
            PressureRate::from_microns_per_minute(rate),
            PressureRate::from_microns_per_minute(rate).si(),
        );
    }
    println!("both {found:?} rate {} open {} {}", r.inside, r.open, r.median());
    let mut found = std::collections::BTreeMap::<String, usize>::new();
    let mut r = Tally::default();
    for _ in 0..1000 {
        let minutes = random.between(10.0, 30.0);
        let start = random.between(100.0, 1000.0);
        let m = made(&mut random, |_| start, minutes);
        *found.entry(format!("{:?}", m.fit.finding)).or_default() += 1;
        r.add(
            &m.fit.straight.rate,
            PressureRate::from_si(0.0),
            PressureDifference::from_microns(m.step).pa() / m.minutes / 60.,
        );
    }
    println!("level {found:?} rate {} open {} {}", r.inside, r.open, r.median());
    let _ = Finding::Leak;
}
