//! How long one car takes to find its balance, and a window of 256 of them.

use std::hint::black_box;

use criterion::{BenchmarkId, Criterion, Throughput, criterion_group, criterion_main};
use satline::circuit::Conditions;
use satline::circuit::{
    Circuit, CircuitKind, CompressorKind, EngineSpeed, ExpansionKind, Intake, Motion, OperatingPoint, Population,
    Settings,
};
use satline::expected::ExpectedWindow;
use satline::{Pressure, Ratio, Refrigerant, Temperature};

/// How many different cars each figure goes through.
const CARS: usize = 256;

/// The main kinds, and with them electric ones.
fn kinds() -> Vec<CircuitKind> {
    let mut kinds = Vec::new();
    for refrigerant in [Refrigerant::R134a, Refrigerant::R1234yf] {
        let main = CircuitKind::main(refrigerant);
        kinds.extend(&main);
        kinds.push(CircuitKind {
            compressor: CompressorKind::Electric,
            expansion: ExpansionKind::ElectronicValve,
            ..main[0]
        });
    }
    kinds.extend(CircuitKind::main(Refrigerant::R744));
    kinds
}

/// As most makers ask for: 30 °C, 50 %, sea level, idle.
fn usual() -> OperatingPoint {
    OperatingPoint::idle(Temperature::from_celsius(30.0), Ratio::from_percent(50.0), Pressure::STANDARD_ATMOSPHERE)
}

/// Days from everywhere: golden sections of 10 to 50 °C, 10 to 95 %, 65 to 106 kPa, 700 to 6000 1/min and so on.
fn anywhere(index: usize) -> OperatingPoint {
    let spread = |part: f64| ((index as f64 + 0.5) * part).fract();
    OperatingPoint {
        ambient: Temperature::from_celsius(10.0 + 40.0 * spread(0.618_033_988_749_895)),
        humidity: Ratio::from_percent(10.0 + 85.0 * spread(0.754_877_666_246_693)),
        air: Pressure::from_kpa(65.0 + 41.0 * spread(0.569_840_290_998_053)),
        running: Settings {
            engine: EngineSpeed::Rpm(700.0 + 5300.0 * spread(0.819_172_513_396_164)),
            motion: if index % 5 < 3 {
                Motion::Standing
            } else {
                Motion::Driving(130.0 * spread(0.671_043_606_703_789))
            },
            intake: if index.is_multiple_of(2) { Intake::Fresh } else { Intake::DoorsOpen },
            blower: Ratio::from_percent(30.0 + 70.0 * spread(0.549_700_477_901_97)),
        },
    }
}

fn points(c: &mut Criterion) {
    let mut group = c.benchmark_group("one point");
    group.throughput(Throughput::Elements(CARS as u64));
    for kind in kinds() {
        let population = Population::new(kind).unwrap();
        let cars: Vec<Circuit> = (0..CARS as u64).map(|index| population.circuit(index)).collect();
        let mut each = |what: &str, day: &dyn Fn(usize) -> OperatingPoint| {
            let cases: Vec<(Circuit, OperatingPoint)> =
                cars.iter().enumerate().map(|(i, car)| (*car, day(i))).collect();
            group.bench_function(BenchmarkId::new(what, kind), |b| {
                b.iter(|| cases.iter().for_each(|(car, day)| drop(black_box(black_box(car).run(day)))))
            });
        };
        each("idle at 30 °C", &|_| usual());
        each("any day", &anywhere);
    }
    group.finish();
}

fn windows(c: &mut Criterion) {
    let mut group = c.benchmark_group("window of 256 cars");
    group.sample_size(20);
    let OperatingPoint { ambient, humidity, air, running } = usual();
    let day = Conditions { ambient, humidity: Some(humidity), air, settings: running };
    for kind in kinds() {
        group.bench_function(kind.to_string(), |b| b.iter(|| ExpectedWindow::for_day(black_box(&kind), &day).unwrap()));
    }
    group.finish();
}

criterion_group!(benches, points, windows);
criterion_main!(benches);
