//! Shaft power of the compressor against its speed.

use std::sync::LazyLock;

use satline::system::Drive;

use super::*;

/// Pulley ratio that the files of the two cars use.
const PULLEY: f64 = 1.3;
/// The assumed condition: full stroke on a hot day at 50 km/h.
const AMBIENT: f64 = 35.0;
const HUMIDITY: f64 = 40.0;
const SPEED: f64 = 50.0;

/// Speed of the compressor, 1/min, and power, W, of one car of R01.
fn measured(car: &str) -> Vec<(f64, f64)> {
    let table = Table::read("system/measured-systems.csv");
    let [id, system, rpm, power] =
        ["source_id", "system", "compressor_rpm", "shaft_power_w"].map(|name| table.column(name));
    let of_car = |row: &&Vec<String>| row[id] == "R01" && row[system].starts_with(car);
    table.rows.iter().filter(of_car).map(|row| (row[rpm].parse().unwrap(), row[power].parse().unwrap())).collect()
}

/// k of P ~ n^k between the first and the last speed.
fn exponent(points: &[(f64, f64)]) -> f64 {
    let (first, last) = (points[0], points[points.len() - 1]);
    (last.1 / first.1).ln() / (last.0 / first.0).ln()
}

/// Shaft power of every car at every speed: outer cars, inner speeds.
fn modelled(speeds: &[f64]) -> Vec<Vec<Option<f64>>> {
    let kinds: Vec<SystemKind> =
        SystemKind::main(Refrigerant::R134a).into_iter().filter(|kind| kind.compressor != CompressorKind::Electric).collect();
    cars_of(kinds)
        .map(|car| {
            let mut car = let_go(car);
            car.drive = Drive::Belt { ratio: PULLEY, idle_rpm: 800.0 };
            let at = |rpm: &f64| run(&car, &day(AMBIENT, HUMIDITY, driving(SPEED, rpm / PULLEY))).map(|s| s.shaft.w());
            speeds.iter().map(at).collect()
        })
        .collect()
}

pub static CHAPTER: LazyLock<Chapter> = LazyLock::new(|| {
    let mut rows = Vec::new();
    for (name, car) in [("small car", "small"), ("large car", "large")] {
        let points = measured(car);
        let speeds: Vec<f64> = points.iter().map(|p| p.0).collect();
        let powers = modelled(&speeds);
        for (i, (rpm, watts)) in points.iter().enumerate() {
            let band = Band::of(powers.iter().map(|car| car[i]));
            rows.push(Row {
                source: format!("R01, {name}"),
                conditions: format!("{rpm:.0} 1/min"),
                printed: format!("{watts:.0} W"),
                model: band.text(0),
                verdict: Verdict::of(band.contains(*watts)),
                why: if band.contains(*watts) { String::new() } else { reason(*watts, band.high()) },
            });
        }
        let slope = Band::of(powers.iter().map(|car| {
            let points: Option<Vec<f64>> = car.iter().copied().collect();
            Some(exponent(&speeds.iter().copied().zip(points?).collect::<Vec<_>>()))
        }));
        let printed = exponent(&points);
        rows.push(Row {
            source: format!("R01, {name}"),
            conditions: format!("k of P ~ nᵏ, {:.0} to {:.0} 1/min", speeds[0], speeds[speeds.len() - 1]),
            printed: number(printed, 2),
            model: slope.text(2),
            verdict: Verdict::of(slope.contains(printed)),
            why: if slope.contains(printed) { String::new() } else { reason_slope(printed, slope.middle()) },
        });
    }
    let reached = vec![
        format!("Inside the 5 to 95 % of the cars: {}.", share(count(&rows, |_| true))),
        format!(
            "Level {}, slope {}.",
            share(count(&rows, |row| !row.conditions.starts_with('k'))),
            share(count(&rows, |row| row.conditions.starts_with('k')))
        ),
    ];
    Chapter {
        title: "Shaft power against speed",
        text: format!(
            "Compressor power at full load of a small and a large car (R01 of `measured-systems.csv`). The source gives no \
             refrigerant, temperatures or size. Assumed: R-134a, full stroke or closed clutch, {AMBIENT:.0} °C and \
             {HUMIDITY:.0} % outside, fresh air, blower at its highest, {SPEED:.0} km/h, pulley ratio {PULLEY}; the \
             high-pressure switch as it is. All belt-driven main kinds, {CARS} cars each, of every size: a row holds inside \
             their 5 to 95 %."
        ),
        model: "5 · 50 · 95",
        rows,
        reached,
    }
});

fn reason(_printed: f64, _high: f64) -> String {
    String::new()
}

fn reason_slope(_printed: f64, _middle: f64) -> String {
    String::new()
}
