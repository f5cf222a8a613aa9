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

/// The vents of all main kinds, where the inlet air is known: nothing of it has just left the evaporator.
fn vents(refrigerant: Refrigerant, inlet: f64, humidity: f64) -> Band {
    let operation = day(inlet, humidity, Running::TEST);
    Band::of(cars_of_main(refrigerant).map(|mut car| {
        car.cabin.returned = 0.0;
        run(&car, &operation).map(|state| state.vent.celsius())
    }))
}

pub static CHAPTER: LazyLock<Chapter> = LazyLock::new(|| {
    let printed = printed();
    assert_eq!(printed.len(), 17, "rows were lost or added");
    let mut asked: BTreeMap<(String, i32, i32), Band> = BTreeMap::new();
    for row in &printed {
        let key = (row.refrigerant.to_string(), row.inlet as i32, row.middle_humidity() as i32);
        asked.entry(key).or_insert_with(|| vents(row.refrigerant, row.inlet, row.middle_humidity()));
    }
    let band = |row: &Printed| &asked[&(row.refrigerant.to_string(), row.inlet as i32, row.middle_humidity() as i32)];
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
            why: if holds { String::new() } else { reason(row, band) },
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
            rows.push(slope(first, format!("K per K of inlet air, {humidity} %"), print, model));
        }
        let pairs: Vec<(&Printed, &Printed)> = printed
            .iter()
            .filter(|row| row.source == source && row.middle_humidity() == 55.0)
            .filter_map(|dry| {
                let same = |wet: &&Printed| wet.source == source && wet.inlet == dry.inlet && wet.middle_humidity() == 65.0;
                Some((dry, printed.iter().find(same)?))
            })
            .collect();
        if let Some((first, _)) = pairs.first() {
            let mean = |of: &dyn Fn(&Printed) -> f64| {
                pairs.iter().map(|(dry, wet)| of(wet) - of(dry)).sum::<f64>() / pairs.len() as f64
            };
            let (print, model) = (mean(&|row| row.middle()), mean(&|row| band(row).middle()));
            rows.push(slope(first, "K per 10 % of humidity, mean".to_owned(), print, model));
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
             recirculation, blower at its highest, all main kinds of the refrigerant, {CARS} cars each. What is printed is \
             the air at the inlet, so nothing of it counts as just cooled (*returned* is zero), and the air outside is taken \
             to be as warm, the windows being open. Sun is left out. V02's test conditions were not read."
        ),
        model: "5 · 50 · 95, °C",
        rows,
        reached,
    }
});

fn slope(row: &Printed, conditions: String, print: f64, model: f64) -> Row {
    let holds = (model / print - 1.0).abs() <= 0.3;
    Row {
        source: format!("{}, {}", row.source, row.refrigerant),
        why: if holds { String::new() } else { reason_slope(&conditions, print, model) },
        conditions,
        printed: number(print, 2),
        model: format!("{} (× {:.2})", number(model, 2), model / print),
        verdict: Verdict::of(holds),
    }
}

fn reason(_row: &Printed, _band: &Band) -> String {
    String::new()
}

fn reason_slope(_what: &str, _print: f64, _model: f64) -> String {
    String::new()
}
