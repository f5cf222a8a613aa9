//! How long one reading takes from gauges to causes: the healthy window, the cars of every cause, the interpretation.

use std::hint::black_box;

use criterion::{Criterion, criterion_group, criterion_main};
use satline::Refrigerant;
use satline::circuit::{CircuitKind, Settings};
use satline::diagnosis::{Evidence, Prior, Reference, interpret};
use satline::window::{Engine, Entry, Instruments, Reading, Window};

fn reading(refrigerant: Refrigerant) -> Result<Reading, satline::Error> {
    let entry = Entry {
        suction_line: Some("22 °C".parse()?),
        liquid_line: Some("45 °C".parse()?),
        vent: Some("18 °C".parse()?),
        ambient: Some("30 °C".parse()?),
        humidity: Some("55 %".parse()?),
        ..Entry::gauges("1.5 bar".parse()?, "11 bar".parse()?)
    };
    entry.reading(refrigerant, Engine::Running, &Instruments::analogue(refrigerant))
}

fn one_reading(c: &mut Criterion) {
    let mut group = c.benchmark_group("diagnosis");
    group.sample_size(20);
    for refrigerant in [Refrigerant::R134a, Refrigerant::R1234yf] {
        let reading = reading(refrigerant).unwrap();
        let day = reading.day(Settings::TEST).unwrap();
        let kinds = CircuitKind::main(refrigerant);
        let evidence = Evidence::of(&reading).unwrap();
        let cars = Reference::new(&kinds, &[day]).unwrap();
        group.bench_function(format!("{refrigerant}, whole reading"), |b| {
            b.iter(|| {
                let window = Window::for_kinds(&kinds, &day).unwrap();
                let cars = Reference::new(&kinds, &[day]).unwrap();
                black_box((window, interpret(&evidence, &cars, &Prior::flat()).unwrap()))
            });
        });
        group.bench_function(format!("{refrigerant}, cars at hand"), |b| {
            b.iter(|| black_box(interpret(&evidence, &cars, &Prior::flat()).unwrap()));
        });
    }
    group.finish();
}

criterion_group!(benches, one_reading);
criterion_main!(benches);
