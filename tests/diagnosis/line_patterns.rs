//! Superheat and subcooling as trade texts print them, explained by the fault they print.

use super::*;
use satline::TemperatureDifference;

/// A word of the table as a place in the window, or in kelvins where the text prints a number, °F.
fn words(word: &str) -> Vec<f64> {
    match word {
        "low" => vec![-1.0],
        "high" => vec![1.0],
        "normal to high" => vec![0.0, 1.0],
        "normal to low" => vec![0.0, -1.0],
        _ => panic!("{word}"),
    }
}

/// Superheat or subcooling in kelvins: printed numbers as they are, words as `usual` has them: low, normal, high.
fn kelvins(text: &str, usual: [f64; 3]) -> Vec<f64> {
    match text.split_once(" to ").map(|(low, high)| (low.parse::<f64>(), high.parse::<f64>())) {
        Some((Ok(low), Ok(high))) => {
            [low, high].map(|step| TemperatureDifference::from_fahrenheit_steps(step).kelvins()).to_vec()
        }
        _ => words(text).into_iter().map(|place| usual[(place + 1.0) as usize]).collect(),
    }
}

#[test]
fn superheat_and_subcooling_are_explained_as_trade_texts_have_it() {
    let day = a_day();
    let table = Table::read("diagnosis/line-patterns.csv");
    let column = |name: &str| table.column(name);
    let (cause, superheat, subcooling) = (column("cause"), column("superheat"), column("subcooling"));
    let (suction, head, source) = (column("suction"), column("head"), column("source"));
    assert_eq!(table.rows.len(), 8, "rows were lost or added");
    let mut page = String::new();
    let (mut right, mut first, mut of) = (0, 0, 0);
    for kind in [
        kind(CompressorKind::Cycling, ExpansionKind::ThermostaticValve),
        kind(CompressorKind::Internal, ExpansionKind::ThermostaticValve),
    ] {
        let kinds = [kind];
        let window = ExpectedWindow::for_kinds(&kinds, &day).unwrap();
        let cars = reference(&kinds, &[day]);
        let place = |word: &str, quantiles: &Quantiles<GaugePressure>| -> Vec<f64> {
            let (middle, range) = (quantiles.middle().kpa(), quantiles.range());
            let one = |place: f64| {
                middle
                    + 1.5
                        * if place < 0.0 {
                            place * (middle - range.low.kpa())
                        } else {
                            place * (range.high.kpa() - middle)
                        }
            };
            words(word).into_iter().map(one).collect()
        };
        for row in &table.rows {
            for low in place(&row[suction], &window.low_side) {
                for high in place(&row[head], &window.high_side) {
                    for sh in kelvins(&row[superheat], [0.0, 6.0, 15.0]) {
                        for sc in kelvins(&row[subcooling], [1.0, 6.0, 12.0]) {
                            let r = Refrigerant::R134a;
                            let t = |p: f64| {
                                r.saturation_temperature(GaugePressure::from_kpa(p).absolute(day.air)).unwrap()
                            };
                            let line =
                                |t: Temperature| Measured::new(t, TemperatureDifference::from_kelvins(1.0)).unwrap();
                            let reading = gauges(blank(&day), kpa(low, 8.0), kpa(high, 30.0))
                                .with(Measurand::SuctionLine, line(t(low) + TemperatureDifference::from_kelvins(sh)))
                                .unwrap()
                                .with(Measurand::LiquidLine, line(t(high) - TemperatureDifference::from_kelvins(sc)))
                                .unwrap();
                            let ranks = ranked(&asked(&inspection(&kinds, reading), &cars));
                            let named = |names: &Vec<&str>| names.iter().any(|name| *name == row[cause]);
                            of += 1;
                            right += usize::from(ranks.iter().take(3).any(|n| named(n)));
                            first += usize::from(named(&ranks[0]));
                            let three: Vec<String> = ranks.iter().take(3).map(|names| names.join(" = ")).collect();
                            let _ = writeln!(
                                page,
                                "{} {} {low:.0} {high:.0} {sh:.0} {sc:.0}: {}",
                                row[source],
                                row[cause],
                                three.join("; ")
                            );
                        }
                    }
                }
            }
        }
    }
    println!("{page}{first} first, {right} of {of}");
    assert!(right * 10 >= of * 9, "{right} of {of}\n{page}");
}
