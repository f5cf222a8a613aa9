//! Superheat and subcooling as trade texts print them, explained by the fault they print.

use super::*;
use crate::support::root;

/// What is read of a circuit in a pattern: superheat, subcooling, saturation temperature of suction and head, K over normal.
#[derive(Clone, Copy)]
struct Differences {
    superheat: f64,
    subcooling: f64,
    suction: f64,
    head: f64,
}

/// What the text with numbers prints, K over its own normal. Words are taken as its numbers of the same fault: low suction as that of
/// its plugged valve, low head and low subcooling as those of its low charge, high head and high suction as those of its overcharge,
/// high superheat as that of both. A low superheat it does not print: none at all.
struct Printed {
    high_superheat: f64,
    high_subcooling: f64,
    low_subcooling: f64,
    low_suction: f64,
    high_suction: f64,
    low_head: f64,
    high_head: f64,
}

const NONE: f64 = -100.0;

/// The middle of "8 to 12", or a figure.
fn middle(text: &str) -> f64 {
    let parts: Vec<f64> = text.split(" to ").map(|part| part.parse().unwrap()).collect();
    parts.iter().sum::<f64>() / parts.len() as f64
}

#[test]
fn superheat_and_subcooling_are_explained_as_trade_texts_have_it() {
    let day = a_day();
    let table = Table::read("diagnosis/line-patterns.csv");
    assert_eq!(table.rows.len(), 9, "rows were lost or added");
    let [source, cause, superheat, subcooling, suction, head] =
        ["source", "cause", "superheat", "subcooling", "suction", "head"].map(|name| table.column(name));
    // pressures of R-22 as saturation temperatures
    let steps =
        |row: &[String], column: usize| TemperatureDifference::from_fahrenheit_steps(middle(&row[column])).kelvins();
    let boils = |row: &[String], column: usize| {
        let absolute = GaugePressure::from_psi(middle(&row[column])).absolute(Pressure::STANDARD_ATMOSPHERE);
        Refrigerant::R22.saturation_temperature(absolute).unwrap().kelvin()
    };
    let printed = |cause_id: &str| table.rows.iter().find(|row| row[source] == "M" && row[cause] == cause_id).unwrap();
    let normal = printed("no-fault");
    let over = |row: &[String]| Differences {
        superheat: steps(row, superheat) - steps(normal, superheat),
        subcooling: steps(row, subcooling) - steps(normal, subcooling),
        suction: boils(row, suction) - boils(normal, suction),
        head: boils(row, head) - boils(normal, head),
    };
    let [short, full, plugged] = ["undercharge", "overcharge", "expansion-closed"].map(|id| over(printed(id)));
    let words = Printed {
        high_superheat: short.superheat,
        high_subcooling: full.subcooling,
        low_subcooling: short.subcooling,
        low_suction: plugged.suction,
        high_suction: full.suction,
        low_head: short.head,
        high_head: full.head,
    };
    let each = |text: &str, low: f64, high: f64| -> Vec<f64> {
        text.split(" to ")
            .map(|word| match word {
                "low" => low,
                "normal" => 0.0,
                "high" => high,
                _ => panic!("{word}"),
            })
            .collect()
    };
    let patterns = |row: &[String]| -> Vec<Differences> {
        if row[source] == "M" {
            // its suction of 25 psi is that of a circuit that "lost a lot", and its subcooling "or lower"
            let lost = if row[cause] == "undercharge" { NONE } else { 0.0 };
            let over = over(row);
            return vec![Differences { subcooling: over.subcooling + lost, ..over }];
        }
        let mut all = Vec::new();
        for superheat in each(&row[superheat], NONE, words.high_superheat) {
            for subcooling in each(&row[subcooling], words.low_subcooling, words.high_subcooling) {
                for suction in each(&row[suction], words.low_suction, words.high_suction) {
                    for head in each(&row[head], words.low_head, words.high_head) {
                        all.push(Differences { superheat, subcooling, suction, head });
                    }
                }
            }
        }
        all
    };
    let kinds = CircuitKind::main(Refrigerant::R134a);
    let valves = kinds.iter().filter(|kind| kind.expansion == ExpansionKind::ThermostaticValve);
    let (mut first, mut right, mut of, mut page) = (0, 0, 0, String::new());
    for kind in valves {
        let kinds = [*kind];
        let window = ExpectedWindow::for_kinds(&kinds, &day).unwrap();
        let cars = reference(&kinds, &[day]);
        let r = Refrigerant::R134a;
        let saturated = |side: &Quantiles<GaugePressure>| {
            r.saturation_temperature(side.middle().absolute(day.air)).unwrap().kelvin()
        };
        let (usual_superheat, usual_subcooling) =
            (window.superheat.middle().kelvins(), window.subcooling.as_ref().unwrap().middle().kelvins());
        for row in table.rows.iter().filter(|row| row[cause] != "no-fault") {
            for pattern in patterns(row) {
                let t_low = Temperature::from_kelvin(saturated(&window.low_side) + pattern.suction);
                let t_high = Temperature::from_kelvin(saturated(&window.high_side) + pattern.head);
                let k = TemperatureDifference::from_kelvins;
                let sh = (usual_superheat + pattern.superheat).max(0.0);
                let sc = (usual_subcooling + pattern.subcooling).max(0.0);
                let gauge = |t: Temperature| r.saturation_pressure(t).unwrap().gauge(day.air).kpa();
                let line = |t: Temperature| Measured::new(t, k(1.0)).unwrap();
                let reading = gauges(blank(&day), kpa(gauge(t_low), 8.0), kpa(gauge(t_high), 30.0))
                    .with(Measurand::SuctionLine, line(t_low + k(sh)))
                    .and_then(|reading| reading.with(Measurand::LiquidLine, line(t_high - k(sc))))
                    .unwrap();
                let answer = diagnose(&inspection(&kinds, reading), &cars, &Prior::workshop()).unwrap();
                // among the faults: the texts are asked when something is wrong
                let mut ranks = ranked(&answer);
                ranks.retain(|names| !names.contains(&"no-fault"));
                let named = |names: &Vec<&str>| names.contains(&row[cause].as_str());
                of += 1;
                right += usize::from(ranks.iter().take(3).any(named));
                first += usize::from(named(&ranks[0]));
                let three: Vec<String> = ranks.iter().take(3).map(|names| names.join(" = ")).collect();
                let _ = writeln!(
                    page,
                    "{}: {}; {:.0} and {:.0} kPa, superheat {sh:.0} K, subcooling {sc:.0} K: {}",
                    row[source],
                    row[cause],
                    gauge(t_low),
                    gauge(t_high),
                    three.join("; ")
                );
            }
        }
    }
    println!("{page}{first} first, {right} among three of {of}");
    assert!(10 * right >= 9 * of, "{right} of {of}\n{page}");
    let said = format!("as trade texts print them the printed cause is in {right} of {of}");
    assert!(std::fs::read_to_string(root().join("README.md")).unwrap().contains(&said), "README.md: {said}");
}
