//! How long a property takes, side by side with a peer that has the same equations, and one row of a log.

mod feos_peer;

use std::hint::black_box;

use criterion::{BenchmarkId, Criterion, Throughput, criterion_group, criterion_main};
use satline::circuit::Settings;
use satline::diagnosis::Assessment;
use satline::expected::ChartSet;
use satline::inspection::{Entry, Instruments, Measurand};
use satline::quantity::{PressureUnit, SpecificEnthalpy, SpecificEntropy, TemperatureUnit};
use satline::{Pressure, Refrigerant, Temperature, TemperatureDifference};

/// How many different inputs each figure goes through.
const INPUTS: usize = 256;

/// The fluids of the comparison, and how warm saturation is asked.
const FLUIDS: [(Refrigerant, f64); 3] =
    [(Refrigerant::R134a, 60.0), (Refrigerant::R1234yf, 60.0), (Refrigerant::R744, 26.85)];

/// Saturation temperatures from −20 °C up, the pressures there, and states 8 K above and 5 K below.
struct Inputs {
    kelvin: Vec<f64>,
    pascal: Vec<f64>,
    vapour: Vec<Point>,
    liquid: Vec<Point>,
}

/// A state of one phase.
#[derive(Clone, Copy)]
struct Point {
    p: Pressure,
    t: Temperature,
    h: SpecificEnthalpy,
    s: SpecificEntropy,
}

impl Inputs {
    fn new(r: Refrigerant, warmest: f64) -> Self {
        let celsius = (0..INPUTS).map(|i| -20.0 + (warmest + 20.0) * i as f64 / (INPUTS - 1) as f64);
        let kelvin: Vec<f64> = celsius.map(|c| Temperature::from_celsius(c).kelvin()).collect();
        let mut pascal = vec![0.0; INPUTS];
        r.saturation_pressures(&kelvin, &mut pascal).unwrap();
        let beside = |step: f64| -> Vec<Point> {
            kelvin
                .iter()
                .zip(&pascal)
                .map(|(&t, &p)| {
                    let (p, t) = (Pressure::from_pa(p), Temperature::from_kelvin(t + step));
                    let state = r.state(p, t).unwrap();
                    Point { p, t, h: state.enthalpy(), s: state.entropy() }
                })
                .collect()
        };
        let (vapour, liquid) = (beside(8.0), beside(-5.0));
        Self { kelvin, pascal, vapour, liquid }
    }
}

/// Evaporating at 5 °C with 8 K superheat, condensing at 50 °C with 5 K subcooling, isentropic efficiency 0.7; R-744 at
/// 95 bar with the gas cooler's outlet at 35 °C.
fn cycle(r: Refrigerant) -> Result<f64, satline::Error> {
    let step = TemperatureDifference::from_kelvins;
    let evaporating = Temperature::from_celsius(5.0);
    let pe = r.saturation_pressure(evaporating)?;
    let one = r.state(pe, evaporating + step(8.0))?;
    let (pc, t3) = if r == Refrigerant::R744 {
        (Pressure::from_bar(95.0), Temperature::from_celsius(35.0))
    } else {
        let condensing = Temperature::from_celsius(50.0);
        (r.saturation_pressure(condensing)?, condensing - step(5.0))
    };
    let ideal = r.at_entropy(pc, one.entropy())?;
    let h2 = one.enthalpy() + (ideal.enthalpy() - one.enthalpy()) / 0.7;
    let two = r.at_enthalpy(pc, h2)?;
    let three = r.state(pc, t3)?;
    let four = r.at_enthalpy(pe, three.enthalpy())?;
    black_box((two.temperature(), four.quality()));
    Ok((one.enthalpy() - three.enthalpy()) / (h2 - one.enthalpy()))
}

fn properties(c: &mut Criterion) {
    for (r, warmest) in FLUIDS {
        let inputs = Inputs::new(r, warmest);
        let peer = feos_peer::Fluid::new(&r.fluid().equation);
        let mut group = c.benchmark_group(r.designation());
        group.throughput(Throughput::Elements(INPUTS as u64));

        macro_rules! each {
            ($what:literal, $who:literal, $inputs:expr, $call:expr) => {
                group.bench_function(BenchmarkId::new($what, $who), |b| {
                    b.iter(|| {
                        $inputs.iter().for_each(|x| {
                            let _ = black_box($call(black_box(x)));
                        })
                    })
                });
            };
        }
        each!("psat(T)", "satline", inputs.kelvin, |&t: &f64| r.saturation_pressure(Temperature::from_kelvin(t)));
        each!("Tsat(p)", "satline", inputs.pascal, |&p: &f64| r.saturation_temperature(Pressure::from_pa(p)));
        let mut out = vec![0.0; INPUTS];
        group.bench_function(BenchmarkId::new("psat(T), slice", "satline"), |b| {
            b.iter(|| r.saturation_pressures(black_box(&inputs.kelvin), &mut out))
        });
        group.bench_function(BenchmarkId::new("Tsat(p), slice", "satline"), |b| {
            b.iter(|| r.saturation_temperatures(black_box(&inputs.pascal), &mut out))
        });
        let gauge: Vec<f64> = inputs.pascal.iter().map(|p| p - Pressure::STANDARD_ATMOSPHERE.pa()).collect();
        let line: Vec<f64> = inputs.kelvin.iter().map(|t| t + 6.0).collect();
        group.bench_function(BenchmarkId::new("superheat, column", "satline"), |b| {
            let air = ([Pressure::STANDARD_ATMOSPHERE.pa()], PressureUnit::Pascal);
            b.iter(|| {
                let gauge = (black_box(gauge.as_slice()), PressureUnit::Pascal);
                r.superheat_column(gauge, (&air.0, air.1), (&line, TemperatureUnit::Kelvin), &mut out)
            })
        });
        let state = |point: &Point| {
            r.state(point.p, point.t).map(|state| (state.density(), state.enthalpy(), state.entropy())).unwrap()
        };
        each!("rho,h,s(T,p) vapour", "satline", inputs.vapour, state);
        each!("rho,h,s(T,p) liquid", "satline", inputs.liquid, state);
        let of_h = |point: &Point| r.at_enthalpy(point.p, point.h).map(|found| found.temperature()).unwrap();
        let of_s = |point: &Point| r.at_entropy(point.p, point.s).map(|found| found.temperature()).unwrap();
        each!("T(p,h) vapour", "satline", inputs.vapour, of_h);
        each!("T(p,h) liquid", "satline", inputs.liquid, of_h);
        each!("T(p,s) vapour", "satline", inputs.vapour, of_s);
        each!("T(p,s) liquid", "satline", inputs.liquid, of_s);
        group.throughput(Throughput::Elements(1));
        group.bench_function(BenchmarkId::new("cycle", "satline"), |b| b.iter(|| cycle(black_box(r))));

        // the peer is told the phase and starts near the answer, without which it fails for part of the inputs
        group.sample_size(10).throughput(Throughput::Elements(INPUTS as u64));
        each!("psat(T)", "feos", inputs.kelvin, |&t: &f64| peer.psat(t, None));
        let near: Vec<_> = inputs.kelvin.iter().map(|t| peer.near(t - 5.0).unwrap()).collect();
        let saturated: Vec<_> = inputs.pascal.iter().copied().zip(near).collect();
        each!("Tsat(p)", "feos", saturated, |(p, near): &(f64, feos_peer::Near)| peer.tsat(*p, Some(near)));
        each!("rho,h,s(T,p) vapour", "feos", inputs.vapour, |x: &Point| peer.tp(x.t.kelvin(), x.p.pa(), false));
        each!("rho,h,s(T,p) liquid", "feos", inputs.liquid, |x: &Point| peer.tp(x.t.kelvin(), x.p.pa(), true));
        each!("T(p,h) vapour", "feos", inputs.vapour, |x: &Point| peer.t_ph(
            x.p.pa(),
            x.h.j_per_kg(),
            false,
            x.t.kelvin() + 10.0
        ));
        each!("T(p,h) liquid", "feos", inputs.liquid, |x: &Point| peer.t_ph(
            x.p.pa(),
            x.h.j_per_kg(),
            true,
            x.t.kelvin() - 10.0
        ));
        each!("T(p,s) vapour", "feos", inputs.vapour, |x: &Point| peer.t_ps(
            x.p.pa(),
            x.s.j_per_kg_k(),
            x.t.kelvin() + 10.0
        ));
        group.throughput(Throughput::Elements(1));
        let high = (r == Refrigerant::R744).then_some(95e5);
        group.bench_function(BenchmarkId::new("cycle", "feos"), |b| b.iter(|| peer.cycle(black_box(high))));
        group.finish();
    }
}

/// One reading from entry to verdicts, charts prepared.
fn reading(c: &mut Criterion) {
    let r = Refrigerant::R134a;
    let (charts, instruments) = (ChartSet::new(r).unwrap(), Instruments::analogue(r));
    let entry = Entry::gauges("32 psi".parse().unwrap(), "185 psi".parse().unwrap())
        .enter(Measurand::SuctionLine, "48 °F")
        .and_then(|entry| entry.enter(Measurand::LiquidLine, "105 °F"))
        .unwrap()
        .ambient("86 °F".parse().unwrap());
    c.bench_function("assess one reading", |b| {
        b.iter(|| {
            let reading = black_box(&entry).reading(r, Settings::TEST, &instruments).unwrap();
            Assessment::of(&reading, &charts).unwrap()
        });
    });
}

criterion_group!(benches, properties, reading);
criterion_main!(benches);
