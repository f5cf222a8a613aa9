//! Vent temperature by the air at the blower inlet and its humidity.

use std::collections::BTreeMap;
use std::sync::LazyLock;

use super::*;

/// One printed row: air at the inlet in °C, humidity in %, middle of the vent in °C.
struct Printed {
    source: String,
    refrigerant: Refrigerant,
    inlet: f64,
    humidity: (f64, f64),
    vent: (f64, f64),
}

impl Printed {
    fn middle(&self) -> f64 {
        0.5 * (self.vent.0 + self.vent.1)
    }

    fn middle_humidity(&self) -> f64 {
        0.5 * (self.humidity.0 + self.humidity.1)
    }
}

/// The rows of makers whose tables name the blower inlet.
fn printed() -> Vec<Printed> {
    let table = Table::read("windows/performance-tables.csv");
    let at = |name: &str| table.column(name);
    let number = |row: &[String], name: &str| row[at(name)].parse::<f64>().unwrap();
    table
        .rows
        .iter()
        .filter(|row| ["V01", "V02", "V03"].contains(&row[at("source_id")].as_str()))
        .filter(|row| row[at("air_place")] == "blower inlet")
        .map(|row| {
            assert_eq!((row[at("air_unit")].as_str(), row[at("vent_unit")].as_str()), ("degC", "degC"));
            assert_eq!(row[at("air_min")], row[at("air_max")]);
            Printed {
                source: row[at("source_id")].clone(),
                refrigerant: row[at("refrigerant")].parse().unwrap(),
                inlet: number(row, "air_min"),
                humidity: (number(row, "rh_min"), number(row, "rh_max")),
                vent: (number(row, "vent_min"), number(row, "vent_max")),
            }
        })
        .collect()
}

/// Cars of each kind, as many as a window is made of.
const OF_A_WINDOW: u64 = 256;

/// Vent, °C, and capacity, kW, of all main kinds.
struct Modelled {
    vent: Band,
    capacity: Band,
}

/// Where the inlet air is known: nothing of it has just left the evaporator.
fn modelled(refrigerant: Refrigerant, inlet: f64, humidity: f64) -> Modelled {
    let operation = day(inlet, humidity, Settings::TEST);
    let states: Vec<Option<SteadyState>> = CircuitKind::main(refrigerant)
        .into_iter()
        .flat_map(|kind| some_cars(kind, OF_A_WINDOW))
        .map(|mut car| {
            car.evaporator_air.returned = 0.0;
            run(&car, &operation)
        })
        .collect();
    let of = |pick: fn(&SteadyState) -> f64| Band::of(states.iter().map(|s| s.as_ref().map(pick)));
    Modelled { vent: of(|s| s.vent.celsius()), capacity: of(|s| s.capacity.kw()) }
}

pub static CHAPTER: LazyLock<Chapter> = LazyLock::new(|| {
    let printed = printed();
    assert_eq!(printed.len(), 17, "rows were lost or added");
    let mut asked: BTreeMap<(String, i32, i32), Modelled> = BTreeMap::new();
    for row in &printed {
        let key = (row.refrigerant.to_string(), row.inlet as i32, row.middle_humidity() as i32);
        asked.entry(key).or_insert_with(|| modelled(row.refrigerant, row.inlet, row.middle_humidity()));
    }
    let at = |row: &Printed| &asked[&(row.refrigerant.to_string(), row.inlet as i32, row.middle_humidity() as i32)];
    let band = |row: &Printed| &at(row).vent;
    let mut rows = Vec::new();
    for row in &printed {
        let band = band(row);
        let holds = band.contains(row.middle());
        rows.push(Row {
            source: format!("{}, {}", row.source, row.refrigerant),
            conditions: format!("inlet {} °C, {} to {} %", row.inlet, row.humidity.0, row.humidity.1),
            printed: format!("{:.1} to {:.1} °C, middle {:.1}", row.vent.0, row.vent.1, row.middle()),
            model: band.text(1),
            verdict: Verdict::of(holds),
            why: if holds { "" } else { TOO_COLD }.to_owned(),
        });
    }
    // slopes: with the air at one humidity, with humidity at one air
    for source in ["V01", "V02", "V03"] {
        for humidity in [55.0, 65.0] {
            let of = |row: &&Printed| row.source == source && row.middle_humidity() == humidity;
            let these: Vec<&Printed> = printed.iter().filter(of).collect();
            let (Some(first), Some(last)) = (these.first(), these.last()) else { continue };
            let over = |a: f64, b: f64| (b - a) / (last.inlet - first.inlet);
            let print = over(first.middle(), last.middle());
            let model = over(band(first).middle(), band(last).middle());
            rows.push(slope(first, format!("K per K of inlet air, {humidity} %"), print, model, INLET.to_owned()));
        }
        let pairs: Vec<(&Printed, &Printed)> = printed
            .iter()
            .filter(|row| row.source == source && row.middle_humidity() == 55.0)
            .filter_map(|dry| {
                let same =
                    |wet: &&Printed| wet.source == source && wet.inlet == dry.inlet && wet.middle_humidity() == 65.0;
                Some((dry, printed.iter().find(same)?))
            })
            .collect();
        if let Some((first, _)) = pairs.first() {
            let mean = |of: &dyn Fn(&Printed) -> f64| {
                pairs.iter().map(|(dry, wet)| of(wet) - of(dry)).sum::<f64>() / pairs.len() as f64
            };
            let (print, model) = (mean(&|row| row.middle()), mean(&|row| band(row).middle()));
            let more: f64 = pairs.iter().map(|(dry, wet)| at(wet).capacity.middle() / at(dry).capacity.middle()).sum();
            let grown = 100.0 * (more / pairs.len() as f64 - 1.0);
            let why = format!(
                "the print moves as if the capacity did not grow with the load: at equal capacity air on the saturation line \
                 warms by about 2 K for it; the middle car's capacity grows by {grown:.1} %, since denser suction vapour is \
                 pumped and condenser and compressor lose little"
            );
            rows.push(slope(first, "K per 10 % of humidity, mean".to_owned(), print, model, why));
        }
    }
    let is_slope = |row: &Row| row.conditions.starts_with("K per");
    let reached = vec![
        format!("Printed middle inside the 5 to 95 %: {}. Bar: 90 %.", share(count(&rows, |row| !is_slope(row)))),
        format!("Slope within 30 %: {}. Bar: all.", share(count(&rows, is_slope))),
    ];
    Chapter {
        title: "Vent temperature by blower inlet",
        text: format!(
            "Makers' tables of the centre vent by temperature and humidity at the blower inlet (V01, V02, V03 of \
             `windows/performance-tables.csv`; the six rows of `windows/vent-temperature.csv` are those of V01). Idle, \
             recirculation, blower at its highest, all main kinds of the refrigerant, {OF_A_WINDOW} cars each. What is printed is \
             the air at the inlet, so nothing of it counts as just cooled (*returned* is zero), and the air outside is taken \
             to be as warm, the windows being open. Sun is left out. V02's test conditions were not read."
        ),
        model: "5 · 50 · 95, °C",
        rows,
        reached,
    }
});

fn slope(row: &Printed, conditions: String, print: f64, model: f64, why: String) -> Row {
    let holds = (model / print - 1.0).abs() <= 0.3;
    Row {
        source: format!("{}, {}", row.source, row.refrigerant),
        why: if holds { String::new() } else { why },
        conditions,
        printed: number(print, 2),
        model: format!("{} (× {:.2})", number(model, 2), model / print),
        verdict: Verdict::of(holds),
    }
}

const TOO_COLD: &str = "the hottest and dampest row of its table, where the humidity slope below has added up; sun on the car and the \
                        heat still in it, both left out, warm the vent too";
const INLET: &str = "as the humidity slope: capacity grows with the load";

#[test]
fn what_was_reached_stays() {
    let is_slope = |row: &Row| row.conditions.starts_with("K per");
    // bars: 90 % of 17, all of 7
    let (inside, slopes) = (count(&CHAPTER.rows, |row| !is_slope(row)), count(&CHAPTER.rows, is_slope));
    assert!(inside.0 == 17 && inside.1 == 17, "{inside:?}");
    assert!(slopes.0 >= 5 && slopes.1 == 7, "{slopes:?}");
}
