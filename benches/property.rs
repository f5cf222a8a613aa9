//! How long a saturation question takes, and one row of a log.

use std::hint::black_box;

use criterion::{Criterion, criterion_group, criterion_main};
use satline::window::{Book, Engine, Entry, Instruments};
use satline::{Pressure, Range, Refrigerant, Temperature};

/// Saturation pressure and temperature, one value, over the temperatures of a car.
fn saturation(c: &mut Criterion) {
    let range = Range::new(Temperature::from_celsius(-10.0), Temperature::from_celsius(28.0));
    for r in [Refrigerant::R134a, Refrigerant::R1234yf, Refrigerant::R744] {
        let temperatures: Vec<Temperature> = (0..256).map(|i| range.at(f64::from(i) / 255.0)).collect();
        let pressures: Vec<Pressure> = temperatures.iter().map(|&t| r.saturation_pressure(t).unwrap()).collect();
        let mut group = c.benchmark_group(format!("saturation {r}"));
        group.throughput(criterion::Throughput::Elements(256));
        group.bench_function("pressure of temperature", |b| {
            b.iter(|| temperatures.iter().for_each(|&t| drop(black_box(r.saturation_pressure(black_box(t))))))
        });
        group.bench_function("temperature of pressure", |b| {
            b.iter(|| pressures.iter().for_each(|&p| drop(black_box(r.saturation_temperature(black_box(p))))))
        });
        group.finish();
    }
}

/// One reading from entry to verdicts, charts prepared.
fn reading(c: &mut Criterion) {
    let r = Refrigerant::R134a;
    let (book, instruments) = (Book::new(r).unwrap(), Instruments::analogue(r));
    let entry = Entry {
        suction_line: Some("48 °F".parse().unwrap()),
        liquid_line: Some("105 °F".parse().unwrap()),
        ambient: Some("86 °F".parse().unwrap()),
        ..Entry::gauges("32 psi".parse().unwrap(), "185 psi".parse().unwrap())
    };
    c.bench_function("assess one reading", |b| {
        b.iter(|| black_box(&entry).reading(r, Engine::Running, &instruments).unwrap().assess(&book).unwrap())
    });
}

criterion_group!(benches, saturation, reading);
criterion_main!(benches);
