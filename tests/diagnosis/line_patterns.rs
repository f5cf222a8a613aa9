//! Superheat and subcooling as trade texts print them, explained by the fault they print.

use super::*;

/// How far "low" and "high" lie from the middle of the healthy window, in half widths of it; the least of the gauge patterns.
const FAR: f64 = 1.5;

/// What the manual that prints numbers prints as normal, °F: superheat, subcooling.
const NORMAL: [(f64, f64); 2] = [(8.0, 12.0), (10.0, 12.0)];

/// Where a word of the table lies in the healthy window: −1 low, 0 normal, +1 high; both ends of a span of words.
fn places(text: &str, normal: (f64, f64)) -> Vec<f64> {
    let word = |word: &str| match word {
        "low" => -1.0,
        "normal" => 0.0,
        "high" => 1.0,
        _ => panic!("{word}"),
    };
    match text.split_once(" to ") {
        None => vec![word(text)],
        // printed numbers against the same text's normal ones
        Some((from, to)) => match (from.parse::<f64>(), to.parse::<f64>()) {
            (Ok(from), _) if from > normal.1 => vec![1.0],
            (_, Ok(to)) if to < normal.0 => vec![-1.0],
            (Ok(_), Ok(_)) => vec![0.0],
            _ => vec![word(from), word(to)],
        },
    }
}

/// The value at `place` of the window of healthy circuits.
fn value<Q: satline::Quantity>(place: f64, quantiles: &Quantiles<Q>) -> f64 {
    let (middle, range) = (quantiles.middle().si(), quantiles.range());
    let end = if place < 0.0 { range.low.si() } else { range.high.si() };
    middle + FAR * place.abs() * (end - middle)
}

#[test]
fn superheat_and_subcooling_are_explained_as_trade_texts_have_it() {
    let day = a_day();
    let table = Table::read("diagnosis/line-patterns.csv");
    let [source, cause, superheat, subcooling, suction, head] =
        ["source", "cause", "superheat", "subcooling", "suction", "head"].map(|name| table.column(name));
    assert_eq!(table.rows.len(), 8, "rows were lost or added");
    let valves = CircuitKind::main(Refrigerant::R134a)
        .into_iter()
        .filter(|kind| kind.expansion == ExpansionKind::ThermostaticValve);
    let (mut first, mut right, mut of, mut page) = (0, 0, 0, String::new());
    for kind in valves {
        let kinds = [kind];
        let window = ExpectedWindow::for_kinds(&kinds, &day).unwrap();
        let subcoolings = window.subcooling.as_ref().unwrap();
        let cars = reference(&kinds, &[day]);
        for row in &table.rows {
            let combinations = places(&row[suction], NORMAL[0]).into_iter().flat_map(|low| {
                let rest = places(&row[head], NORMAL[0]).into_iter().flat_map(move |high| {
                    places(&row[superheat], NORMAL[0]).into_iter().flat_map(move |sh| {
                        places(&row[subcooling], NORMAL[1]).into_iter().map(move |sc| [low, high, sh, sc])
                    })
                });
                rest.collect::<Vec<_>>()
            });
            for [low, high, sh, sc] in combinations {
                let [low, high] = [value(low, &window.low_side), value(high, &window.high_side)];
                let (sh, sc) = (value(sh, &window.superheat).max(0.0), value(sc, subcoolings).max(0.0));
                let saturation = |gauge: f64| {
                    let absolute = GaugePressure::from_pa(gauge).absolute(day.air);
                    Refrigerant::R134a.saturation_temperature(absolute).unwrap()
                };
                let line = |t: Temperature, k: f64| {
                    Measured::new(t + TemperatureDifference::from_kelvins(k), TemperatureDifference::from_kelvins(1.0))
                };
                let reading = gauges(blank(&day), kpa(1e-3 * low, 8.0), kpa(1e-3 * high, 30.0))
                    .with(Measurand::SuctionLine, line(saturation(low), sh).unwrap())
                    .and_then(|reading| reading.with(Measurand::LiquidLine, line(saturation(high), -sc).unwrap()))
                    .unwrap();
                let inspection = inspection(&kinds, reading);
                let answer = diagnose(&inspection, &cars, &Prior::workshop()).unwrap();
                let ranks = ranked(&answer);
                let named = |names: &Vec<&str>| names.iter().any(|name| *name == row[cause]);
                of += 1;
                right += usize::from(ranks.iter().take(3).any(named));
                first += usize::from(named(&ranks[0]));
                let three: Vec<String> = ranks.iter().take(3).map(|names| names.join(" = ")).collect();
                let (low, high) = (1e-3 * low, 1e-3 * high);
                let _ = writeln!(
                    page,
                    "{}: {}, {low:.0} and {high:.0} kPa, {sh:.0} and {sc:.0} K: {}",
                    row[source],
                    row[cause],
                    three.join("; ")
                );
            }
        }
    }
    println!("{page}{first} first, {right} among three of {of}");
    assert!(10 * right >= 9 * of, "{right} of {of}\n{page}");
}
