//! How long one inspection takes from gauges to causes: the healthy window, the circuits of every cause, the posterior.

use std::hint::black_box;

use criterion::{Criterion, criterion_group, criterion_main};
use satline::circuit::Settings;
use satline::diagnosis::{Prior, Reference, diagnose};
use satline::inspection::{Entry, Inspection, Instruments, Measurand};
use satline::{Error, Refrigerant};

fn inspection(refrigerant: Refrigerant) -> Result<Inspection, Error> {
    let entry = Entry::gauges("1.5 bar".parse()?, "11 bar".parse()?)
        .enter(Measurand::SuctionLine, "22 °C")?
        .enter(Measurand::LiquidLine, "45 °C")?
        .enter(Measurand::Vent, "18 °C")?
        .ambient("30 °C".parse()?)
        .humidity("55 %".parse()?);
    Ok(Inspection::of(entry.reading(refrigerant, Settings::TEST, &Instruments::analogue(refrigerant))?))
}

fn one_inspection(c: &mut Criterion) {
    let mut group = c.benchmark_group("diagnosis");
    group.sample_size(20);
    for refrigerant in [Refrigerant::R134a, Refrigerant::R1234yf] {
        let inspection = inspection(refrigerant).unwrap();
        let at_hand = Reference::of(&inspection).unwrap();
        group.bench_function(format!("{refrigerant}, whole reading"), |b| {
            b.iter(|| {
                let reference = Reference::of(&inspection).unwrap();
                let window = reference.expected().unwrap().clone();
                black_box((window, diagnose(&inspection, &reference, &Prior::uniform()).unwrap()))
            });
        });
        group.bench_function(format!("{refrigerant}, circuits at hand"), |b| {
            b.iter(|| black_box(diagnose(&inspection, &at_hand, &Prior::uniform()).unwrap()));
        });
    }
    group.finish();
}

criterion_group!(benches, one_inspection);
criterion_main!(benches);
