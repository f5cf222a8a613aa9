//! The tables of whole systems: counted, sourced, graded, and sound where two measured columns must agree.

use std::collections::BTreeSet;

use satline::{GaugePressure, Pressure, Refrigerant, Temperature};

use crate::support::{Table, root};

fn files() -> Vec<String> {
    let mut names: Vec<String> = std::fs::read_dir(root().join("tables/system"))
        .unwrap()
        .map(|entry| entry.unwrap().file_name().into_string().unwrap())
        .filter(|name| !name.ends_with(".md"))
        .collect();
    names.sort();
    names
}

fn read(file: &str) -> Table {
    Table::read(format!("system/{file}"))
}

/// The line that registers a file in `tables/README.md`: file, holds, rows, trust.
fn registered(file: &str) -> [String; 4] {
    let readme = std::fs::read_to_string(root().join("tables/README.md")).unwrap();
    let start = format!("| `system/{file}`");
    let mut lines = readme.lines().filter(|line| line.starts_with(&start));
    let line = lines.next().unwrap_or_else(|| panic!("{file} is not registered"));
    assert!(lines.next().is_none(), "{file} is registered twice");
    let cells: Vec<_> = line.trim_matches('|').split('|').map(|cell| cell.trim().to_owned()).collect();
    cells.try_into().unwrap_or_else(|cells| panic!("{file}: {cells:?}"))
}

#[test]
fn every_header_says_what_where_and_how_far_to_trust() {
    for file in files() {
        let table = read(&file);
        for key in ["title", "source", "reached", "trust", "columns", "rows"] {
            assert!(table.fact(key).is_some_and(|fact| !fact.is_empty()), "{file} has no {key}");
        }
        let grade = table.fact("trust").unwrap().split_whitespace().next().unwrap();
        assert!(["A", "A-", "B", "C", "M"].contains(&grade), "{file}: grade {grade}");
        let [_, _, rows, trust] = registered(&file);
        assert_eq!(table.rows.len().to_string(), table.fact("rows").unwrap(), "{file}: rows of the header");
        assert_eq!(table.rows.len().to_string(), rows, "{file}: rows of the register");
        assert_eq!(grade, trust, "{file}: grade of the register");
    }
}

#[test]
fn every_source_of_a_row_is_named_in_its_header() {
    let mut named_by_id = BTreeSet::new();
    for file in files() {
        let table = read(&file);
        let named: BTreeSet<&str> =
            table.facts("source").filter_map(|fact| fact.split_once(' ')).map(|(id, _)| id).collect();
        let Some(at) = table.columns.iter().position(|c| c == "source_id") else {
            // a bench is one source; elsewhere a column or the text of the row says it
            assert!(
                file.starts_with("bench-") || table.facts("source").any(|fact| fact == "named in each row"),
                "{file}: no source of a row"
            );
            continue;
        };
        let used: BTreeSet<&str> = table.rows.iter().map(|row| row[at].as_str()).collect();
        assert_eq!(used, named, "{file}: sources used and named");
        named_by_id.insert(file);
    }
    assert_eq!(named_by_id.len(), 4, "{named_by_id:?}");
}

#[test]
fn the_page_of_the_folder_names_every_table() {
    let page = std::fs::read_to_string(root().join("tables/system/README.md")).unwrap();
    for file in files() {
        assert!(page.contains(&format!("`{file}`")), "{file}");
    }
}

/// A value from memory, or of common practice, is never a bar; its row says so.
#[test]
fn rows_from_memory_stay_marked() {
    for (file, from_memory) in [("standards-conditions.csv", 20), ("components.csv", 11), ("r744-high-side.csv", 4)] {
        let table = read(file);
        let status = table.column("status");
        let marked = table.rows.iter().filter(|row| row[status].starts_with("from memory")).count();
        assert_eq!(marked, from_memory, "{file}");
        for row in &table.rows {
            let word = row[status].as_str();
            let known = ["read", "from memory", "computed", "common practice", "GAP"];
            assert!(known.iter().any(|k| word.starts_with(k)), "{file}: {row:?}");
        }
    }
}

#[test]
fn measured_points_and_faults_are_numbers_with_units() {
    let table = read("measured-points.csv");
    let (value, unit) = (table.column("value"), table.column("unit"));
    for row in &table.rows {
        assert!(row[value].parse::<f64>().is_ok() && !row[unit].is_empty(), "{row:?}");
    }
    let mut both_pressures = BTreeSet::new();
    let (point, quantity) = (table.column("point"), table.column("quantity"));
    let has = |name: &str, what: &str| table.rows.iter().any(|row| row[point] == name && row[quantity] == what);
    for row in &table.rows {
        if has(&row[point], "low_side") && has(&row[point], "high_side") {
            both_pressures.insert(row[point].clone());
        }
    }
    // as the header says; a second one would be news
    assert_eq!(both_pressures, BTreeSet::from(["mountaineer".to_owned()]));

    let table = read("measured-faults.csv");
    for row in &table.rows {
        assert!(row[table.column("value")].parse::<f64>().is_ok() && !row[table.column("unit")].is_empty(), "{row:?}");
    }
}

// --- what two columns of one row must agree on

/// Smallest and largest distance in K of saturation at each pressure above the temperature beside it.
fn above(r: Refrigerant, boiling: impl Iterator<Item = (Pressure, f64)>) -> (f64, f64) {
    boiling
        .map(|(p, t)| r.dew_line().temperature(p).unwrap().kelvin() - Temperature::from_celsius(t).kelvin())
        .fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), d| (low.min(d), high.max(d)))
}

/// The two figures of a `saturated` line: "... saturation lies 0.58 to 0.97 K above T4".
fn entered(table: &Table) -> (String, String) {
    let (_, figures) = table.fact("saturated").unwrap().split_once("lies ").unwrap();
    let (low, rest) = figures.split_once(" to ").unwrap();
    (low.to_owned(), rest.split(' ').next().unwrap().to_owned())
}

#[test]
fn boiling_r134a_of_the_bench_is_saturated() {
    let table = read("bench-r134a-water.csv");
    // the file adds this
    let air = Pressure::from_kpa(101.3);
    let p = table.numbers("p4").into_iter().map(|bar| GaugePressure::from_kpa(100.0 * bar).absolute(air));
    let (low, high) = above(Refrigerant::R134a, p.zip(table.numbers("T4")));
    assert_eq!((format!("{low:.2}"), format!("{high:.2}")), entered(&table));
}

#[test]
fn boiling_r12_of_the_bench_is_saturated_behind_a_valve() {
    let table = read("bench-r12-air.csv");
    let valve: Vec<bool> = table.rows.iter().map(|row| row[table.column("expansion")].contains("valve")).collect();
    assert_eq!(valve.iter().filter(|v| **v).count(), 6);
    let air = Pressure::from_psi(14.7);
    let pairs: Vec<_> = table
        .numbers("P2")
        .into_iter()
        .map(|psi| GaugePressure::from_psi(psi).absolute(air))
        .zip(table.numbers("T2"))
        .zip(valve)
        .collect();
    let some = |want: bool| pairs.iter().filter(move |(_, v)| *v == want).map(|(pair, _)| *pair);
    let (low, high) = above(Refrigerant::R12, some(true));
    assert_eq!((format!("{low:.1}"), format!("{high:.1}")), entered(&table));
    // the capillary tube: T2 sits elsewhere, as a note says
    let (low, high) = above(Refrigerant::R12, some(false));
    assert!(low < -13.0 && high > -14.0 && high < -11.0, "{low} to {high}");
}

/// The resting pressure of the one car with both pressures is that of R-134a a little warmer than the air before it.
#[test]
fn the_car_at_rest_holds_r134a() {
    let table = read("measured-points.csv");
    let of = |what: &str| -> f64 {
        let mut rows = table
            .rows
            .iter()
            .filter(|row| row[table.column("point")] == "mountaineer" && row[table.column("quantity")] == what);
        rows.next().unwrap()[table.column("value")].parse().unwrap()
    };
    let rest = GaugePressure::from_psi(of("rest_pressure")).absolute(Pressure::STANDARD_ATMOSPHERE);
    let air = Temperature::from_fahrenheit(of("condenser_air_temperature"));
    let above = Refrigerant::R134a.dew_line().temperature(rest).unwrap().kelvin() - air.kelvin();
    assert!((1.5..3.5).contains(&above), "{above} K");
}
