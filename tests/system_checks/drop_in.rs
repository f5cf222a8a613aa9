//! R-1234yf filled into R-134a cars: capacity, COP, discharge temperature.

use std::sync::LazyLock;

use super::*;

/// What was measured, from one bench to another, in percent and K.
struct Published {
    what: &'static str,
    low: f64,
    high: f64,
    source: &'static str,
}

const CAPACITY: Published =
    Published { what: "capacity, %", low: -14.0, high: -4.0, source: "Lee & Jung 2012; Tasdemirci et al. 2022" };
const COP_FIXED: Published =
    Published { what: "COP, %", low: -20.1, high: -2.7, source: "Lee & Jung 2012; fixed against variable (R06)" };
const COP_VARIABLE: Published = Published {
    what: "COP, %",
    low: -13.6,
    high: -2.7,
    source: "Lee & Jung 2012; Tasdemirci et al. 2022; fixed against variable (R06)",
};
/// One bench: held against the 5–95 % of the cars.
const DISCHARGE: Published =
    Published { what: "discharge temperature, K", low: -6.5, high: -6.5, source: "Lee & Jung 2012" };

/// How the second refrigerant is filled in.
#[derive(Clone, Copy, PartialEq)]
enum Valve {
    /// The expansion device stays; charge less by a tenth, as Lee & Jung.
    Kept,
    /// Valve and charge as a maker would size them for the refrigerant.
    Sized,
}

pub static CHAPTER: LazyLock<Chapter> = LazyLock::new(|| {
    use CompressorKind::{Cycling, External, Internal};
    use ExpansionKind::{OrificeTube, ThermostaticValve};
    let mut rows = Vec::new();
    let mut both_ways = |compressor, expansion, valve, full| {
        rows.extend(compare(kind(Refrigerant::R134a, compressor, expansion), valve, full));
    };
    both_ways(Cycling, ThermostaticValve, Valve::Kept, true);
    both_ways(Cycling, ThermostaticValve, Valve::Sized, true);
    both_ways(Internal, ThermostaticValve, Valve::Kept, false);
    both_ways(Internal, ThermostaticValve, Valve::Sized, false);
    both_ways(External, ThermostaticValve, Valve::Kept, false);
    both_ways(External, ThermostaticValve, Valve::Sized, false);
    both_ways(Cycling, OrificeTube, Valve::Kept, true);
    let all = count(&rows, |_| true);
    let of = |what: &'static str| share(count(&rows, |row| row.printed.starts_with(what)));
    let reached = vec![
        format!("Inside the published spread: {}. Bar: all.", share(all)),
        format!("Capacity {}; COP {}; discharge temperature {}.", of("capacity"), of("COP"), of("discharge")),
    ];
    Chapter {
        title: "R-1234yf in place of R-134a",
        text: format!(
            "The same {CARS} cars with one refrigerant and the other: same compressor, exchangers, pipes, control, no internal \
             exchanger. On a bench: 27, 35 and 43 °C on both sides, 40 % relative humidity, engine at 800 and 1500 1/min, fan \
             at its highest and no air drawn round again. *Fixed* compressors never cycle, as on the benches of the sources. \
             *Kept*: the expansion device stays and the charge is a tenth less (Lee & Jung); *sized*: flow area of the valve \
             and charge as for the refrigerant. A row holds when the middle of all pairs lies in the published spread; for \
             the discharge temperature, of which there is one value, when it lies in the 5 to 95 %. None of the sources \
             states its conditions in the part read."
        ),
        model: "change 5 · 50 · 95",
        rows,
        reached,
    }
});

fn compare(kind: SystemKind, valve: Valve, full: bool) -> Vec<Row> {
    let other = Population::new(SystemKind { refrigerant: Refrigerant::R1234yf, ..kind }).unwrap();
    let mut changes = [Vec::new(), Vec::new(), Vec::new()];
    for (index, car) in cars(kind).enumerate() {
        let before = on_bench(if full { let_go(car) } else { car });
        let mut after = before;
        after.refrigerant = Refrigerant::R1234yf;
        match valve {
            Valve::Kept => after.charge = before.charge * 0.9,
            Valve::Sized => {
                let sized = other.car(index as u64);
                (after.expansion, after.charge) = (sized.expansion, sized.charge);
                // sizes are the same: the draws are
                assert_eq!((sized.condenser, sized.compressor), (car.condenser, car.compressor));
            }
        }
        for celsius in [27.0, 35.0, 43.0] {
            for rpm in [800.0, 1500.0] {
                let operation = day(celsius, 40.0, standing(EngineSpeed::Rpm(rpm), Intake::Fresh));
                let pair = run(&before, &operation).zip(run(&after, &operation));
                changes[0].push(pair.as_ref().map(|(a, b)| percent(b.capacity.w(), a.capacity.w())));
                changes[1].push(
                    pair.as_ref()
                        .map(|(a, b)| percent(b.coefficient_of_performance(), a.coefficient_of_performance())),
                );
                changes[2].push(pair.as_ref().map(|(a, b)| b.discharge_line.kelvin() - a.discharge_line.kelvin()));
            }
        }
    }
    let cop = if full { COP_FIXED } else { COP_VARIABLE };
    let device = match (kind.expansion, valve) {
        (ExpansionKind::OrificeTube, _) => "orifice tube kept",
        (_, Valve::Kept) => "valve kept",
        (_, Valve::Sized) => "valve sized",
    };
    let compressor = match kind.compressor {
        CompressorKind::Cycling => "fixed",
        CompressorKind::Internal => "variable, internal control",
        _ => "variable, external control",
    };
    let changes = changes.map(Band::of);
    changes
        .into_iter()
        .zip([CAPACITY, cop, DISCHARGE])
        .map(|(band, published)| {
            let holds = if published.low == published.high {
                band.contains(published.low)
            } else {
                (published.low..=published.high).contains(&band.middle())
            };
            let span = if published.low == published.high {
                number(published.low, 1)
            } else {
                format!("{} to {}", number(published.low, 1), number(published.high, 1))
            };
            Row {
                source: published.source.to_owned(),
                conditions: format!("{compressor}, {device}"),
                printed: format!("{}: {span}", published.what),
                model: band.text(1),
                verdict: Verdict::of(holds),
                why: reason(&published, band.middle(), full).to_owned(),
            }
        })
        .collect()
}

fn reason(_published: &Published, _middle: f64, _full: bool) -> &'static str {
    ""
}
