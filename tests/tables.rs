//! The published tables against the saturation lines, row by row; what they show is kept in `checks.rs` and
//! `tables/DEVIATIONS.md`.
//!
//! A row may be off by half a unit of its last printed digits and by the declared error of the line. A table that is known
//! to deviate says so in its header, with the reason; the header must then be right about how far.

use std::collections::{BTreeMap, BTreeSet};
use std::fmt::Write as _;

use approx::abs_diff_eq;
use satline::helmholtz::terms::Equilibrium;
use satline::refrigerant::Boiling;
use satline::refrigerant::checks::{Check, CheckedLine};
use satline::saturation::Wagner;
use satline::{Pressure, Refrigerant, Temperature, Trust};

use crate::refrigerant::named;
use crate::support::{Table, root, same_as_file};

mod dictionary;
mod phases;

const CORRELATIONS: &str = "vapour-pressure-correlations.csv";
/// Tables of boiling and critical points.
const CONSTANTS: [&str; 4] = [
    "ashrae-2021-table5.csv",
    "ashrae-2021-table2-blends.csv",
    "r134a-freon-bulletin.csv",
    "r1234yf-tanaka-higashi-2009.csv",
];
/// One standard atmosphere, Pa.
const ATMOSPHERE: f64 = 101_325.0;

/// One printed pair of saturation temperature and pressure, in K and Pa, with half a unit of the last digit of each.
struct Point {
    row: String,
    t: f64,
    p: f64,
    half_t: f64,
    half_p: f64,
}

/// What one table says of one line.
struct Block {
    refrigerant: Refrigerant,
    line: CheckedLine,
    /// File name, and the correlation where a file holds several.
    table: String,
    source: String,
    trust: Trust,
    independent: bool,
    stated: Option<Entered>,
    points: Vec<Point>,
}

/// A deviation that the header of a table states.
#[derive(Clone)]
struct Entered {
    printed: String,
    value: f64,
    /// One unit of its last digit.
    unit: f64,
    /// Counted from the edge of the printed digits, not from the printed value.
    beyond_rounding: bool,
    reason: String,
}

/// A cell that a header calls misprinted.
struct Misprint {
    row: String,
    column: String,
    printed: String,
    correct: String,
}

// --- reading

fn published() -> Vec<String> {
    files("published")
}

fn files(folder: &str) -> Vec<String> {
    let mut names: Vec<String> = std::fs::read_dir(root().join("tables").join(folder))
        .unwrap()
        .map(|entry| entry.unwrap().file_name().into_string().unwrap())
        .collect();
    names.sort();
    names
}

fn read(file: &str) -> Table {
    Table::read(format!("published/{file}"))
}

/// The rows of the tables in `tables/README.md`: cells by file, below `tables/`.
fn register() -> BTreeMap<String, Vec<String>> {
    let text = std::fs::read_to_string(root().join("tables/README.md")).unwrap();
    let mut register = BTreeMap::new();
    for line in text.lines().filter(|line| line.starts_with("| `") && line.contains(".csv`")) {
        let mut cells = line.trim_matches('|').split('|').map(|cell| cell.trim().to_owned());
        let file = cells.next().unwrap().trim_matches('`').to_owned();
        assert!(register.insert(file.clone(), cells.collect()).is_none(), "{file} is registered twice");
    }
    register
}

/// The first half of a file name is the refrigerant.
fn refrigerant(file: &str) -> Refrigerant {
    named(file.split('-').next().unwrap()).unwrap()
}

fn line(refrigerant: Refrigerant, line: CheckedLine) -> &'static Wagner {
    match line {
        CheckedLine::Bubble => refrigerant.bubble_line(),
        CheckedLine::Dew => refrigerant.dew_line(),
    }
}

fn grade(table: &Table) -> &str {
    table.fact("trust").unwrap().split_whitespace().next().unwrap()
}

fn trust(table: &Table) -> Trust {
    match grade(table) {
        "A" => Trust::Read,
        "A-" => Trust::Secondary,
        // not a print: evaluated by us from published coefficients
        "B" if table.facts("reached").any(|fact| fact.starts_with("not a printed table: evaluated")) => Trust::Computed,
        "B" => Trust::Excerpt,
        "C" => Trust::Weak,
        "M" => Trust::FromMemory,
        other => panic!("grade {other}"),
    }
}

/// Whether a header calls its equation independent; "whether independent" and "not known" do not count.
fn independent(table: &Table) -> bool {
    table
        .facts("equation")
        .flat_map(|fact| fact.split([';', ',']))
        .any(|s| s.trim().starts_with("independent of the eq"))
}

/// The stated deviation of pressure or a constant: the first, or the one of `of` ("R-404A critical_temperature_C").
fn entered(table: &Table, of: Option<&str>, unit: &str) -> Option<Entered> {
    table.facts("deviates").filter(|fact| !phases::is_of_a_phase(table, fact)).find_map(|fact| {
        let (value, rest) = fact.split_once(' ').unwrap();
        let (its_unit, rest) = rest.split_once(' ').unwrap();
        let (subject, reason) = rest.trim().split_once(';').unwrap_or((rest.trim(), ""));
        (its_unit == unit && of.is_none_or(|of| of == subject)).then(|| Entered {
            printed: value.to_owned(),
            value: value.parse().unwrap(),
            unit: 2.0 * half_unit(value, "as printed"),
            beyond_rounding: subject.starts_with("beyond rounding"),
            reason: if of.is_none() { rest.trim() } else { reason.trim() }.to_owned(),
        })
    })
}

fn misprints(table: &Table) -> Vec<Misprint> {
    let parse = |fact: &str| {
        let (row, rest) = fact.split_once(' ')?;
        let (column, rest) = rest.split_once(" printed ")?;
        let (printed, rest) = rest.split_once(", should read ")?;
        let correct = rest.split([';', ' ']).next()?;
        Some(Misprint { row: row.into(), column: column.into(), printed: printed.into(), correct: correct.into() })
    };
    table.facts("misprint").map(|fact| parse(fact).unwrap_or_else(|| panic!("misprint: {fact}"))).collect()
}

/// Half a unit of the last printed digit, in the unit of the column; `rule` as in `tables/README.md`.
fn half_unit(text: &str, rule: &str) -> f64 {
    if rule == "as printed" {
        assert!(!text.contains(['e', 'E']), "{text}");
        let decimals = text.split_once('.').map_or(0, |(_, d)| d.len());
        return 0.5 * 10f64.powi(-(decimals as i32));
    }
    let value: f64 = text.parse().unwrap();
    let half = |part: &str| match part.trim().trim_start_matches("at most ").split_once(' ').unwrap() {
        (n, "significant") => 0.5 * 10f64.powi(value.abs().log10().floor() as i32 + 1 - n.parse::<i32>().unwrap()),
        (n, "decimals" | "decimal") => 0.5 * 10f64.powi(-n.parse::<i32>().unwrap()),
        _ => panic!("digits: {rule}"),
    };
    // the coarser of two holds
    rule.split(',').map(half).fold(0.0, f64::max)
}

/// K per unit of a temperature column, and the zero of its scale in K.
fn temperature_unit(column: &str) -> (f64, f64) {
    match column.rsplit('_').next().unwrap() {
        "K" => (1.0, 0.0),
        "C" => (1.0, 273.15),
        "F" => (5.0 / 9.0, 459.67 * 5.0 / 9.0),
        _ => panic!("temperature unit of {column}"),
    }
}

/// Pa per unit of a pressure column, and what to add for absolute pressure.
fn pressure_unit(column: &str) -> (f64, f64) {
    let (column, above) = match column.strip_suffix("_gauge") {
        Some(column) => (column, ATMOSPHERE),
        None => (column.trim_end_matches("_abs"), 0.0),
    };
    let unit = match column.rsplit('_').next().unwrap() {
        "Pa" => 1.0,
        "kPa" => 1e3,
        "MPa" => 1e6,
        "bar" => 1e5,
        "psia" => 6894.757293168, // NIST SP 811
        _ => panic!("pressure unit of {column}"),
    };
    (unit, above)
}

fn temperature_column(table: &Table) -> Option<&str> {
    table.columns.iter().map(String::as_str).find(|name| name.starts_with("temperature_"))
}

fn pressure_column(table: &Table, refrigerant: Refrigerant, line: CheckedLine) -> Option<&str> {
    let start = match (refrigerant.is_blend(), line) {
        (false, CheckedLine::Dew) => "pressure_",
        (false, CheckedLine::Bubble) => return None,
        (true, CheckedLine::Dew) => "dew_pressure_",
        (true, CheckedLine::Bubble) => "bubble_pressure_",
    };
    table.columns.iter().map(String::as_str).find(|name| name.starts_with(start))
}

/// The pair of temperature and pressure of one row; none where the pressure cell is empty.
fn point(table: &Table, t_column: &str, p_column: &str, t: &str, p: &str) -> Option<Point> {
    if p.is_empty() {
        return None;
    }
    let entry = table.fact("entry").unwrap();
    let rule = |key: &str| table.fact(key).unwrap_or_else(|| panic!("no {key}"));
    let (kelvin, zero) = temperature_unit(t_column);
    let (pascal, above) = pressure_unit(p_column);
    Some(Point {
        row: if entry == "pressure" { p } else { t }.to_owned(),
        t: t.parse::<f64>().unwrap() * kelvin + zero,
        p: p.parse::<f64>().unwrap() * pascal + above,
        half_t: if entry == "temperature" { 0.0 } else { half_unit(t, rule("tdigits")) * kelvin },
        half_p: if entry == "pressure" { 0.0 } else { half_unit(p, rule("digits")) * pascal },
    })
}

/// Every row of a table of temperatures and pressures.
fn points(table: &Table, refrigerant: Refrigerant, line: CheckedLine) -> Option<Vec<Point>> {
    let (t_column, p_column) = (temperature_column(table)?, pressure_column(table, refrigerant, line)?);
    let (t, p) = (table.column(t_column), table.column(p_column));
    Some(table.rows.iter().filter_map(|row| point(table, t_column, p_column, &row[t], &row[p])).collect())
}

// --- comparing

impl Point {
    /// Where the line is asked: a rounded temperature may stand outside the range by its rounding, no further.
    fn asked(&self, line: &Wagner) -> Option<Temperature> {
        let inside = self.t.clamp(line.valid.low.kelvin(), line.valid.high.kelvin());
        // 1e-9 K: degrees Celsius turned into kelvins
        ((inside - self.t).abs() <= self.half_t.max(1e-9)).then(|| Temperature::from_kelvin(inside))
    }
}

/// A row beside the line, in Pa.
struct Beside {
    at: Temperature,
    printed: f64,
    ours: f64,
    /// Declared error of the line.
    fit: f64,
    /// What the printed digits leave open.
    rounding: f64,
    /// Pa/K.
    slope: f64,
}

impl Beside {
    fn new(line: &Wagner, point: &Point) -> Option<Self> {
        let at = point.asked(line)?;
        let ours = line.pressure(at).unwrap().pa();
        let slope = line.slope_pa_per_kelvin(at).unwrap();
        Some(Self {
            at,
            printed: point.p,
            ours,
            fit: line.accuracy_at(at).unwrap().pressure * ours,
            rounding: point.half_p + point.half_t * slope,
            slope,
        })
    }

    fn deviation(&self) -> f64 {
        self.printed - self.ours
    }

    fn percent(&self) -> f64 {
        100.0 * self.deviation() / self.ours
    }

    fn kelvin(&self) -> f64 {
        self.deviation() / self.slope
    }

    fn allowed(&self, stated: Option<&Entered>) -> f64 {
        // 1e-9: what is left of decimal digits in binary
        let spare = self.fit + 1e-9 * self.ours;
        match stated {
            None => spare + self.rounding,
            Some(s) if s.beyond_rounding => spare + self.rounding + s.value / 100.0 * self.ours,
            Some(s) => spare + s.value / 100.0 * self.ours,
        }
    }

    fn agrees(&self, stated: Option<&Entered>) -> bool {
        self.deviation().abs() <= self.allowed(stated)
    }
}

impl Block {
    fn line(&self) -> &'static Wagner {
        line(self.refrigerant, self.line)
    }

    fn beside(&self) -> impl Iterator<Item = (&Point, Beside)> {
        self.points.iter().map(|point| (point, Beside::new(self.line(), point).unwrap()))
    }

    fn name(&self) -> String {
        format!("{}, {} {:?}", self.table, self.refrigerant, self.line)
    }
}

// --- the blocks

/// Every table against every line it speaks of.
fn blocks() -> Vec<Block> {
    let register = register();
    let mut blocks = Vec::new();
    for file in published() {
        let table = read(&file);
        let source = &register[&format!("published/{file}")][1];
        if file == CORRELATIONS {
            blocks.extend(correlations(&table));
        } else if CONSTANTS.contains(&file.as_str()) {
            blocks.extend(boiling_points(&file, &table, source));
        } else {
            blocks.extend(rows(&file, &table, source));
        }
    }
    // by fluid in the order of the catalogue; within a fluid by file
    blocks.sort_by_key(|block| Refrigerant::ALL.iter().position(|r| *r == block.refrigerant));
    blocks
}

/// A table of rows of temperature and pressure.
fn rows(file: &str, table: &Table, source: &str) -> Vec<Block> {
    let refrigerant = refrigerant(file);
    let mut found = Vec::new();
    for of in [CheckedLine::Bubble, CheckedLine::Dew] {
        let Some(mut points) = points(table, refrigerant, of) else { continue };
        let (t_column, p_column) = (temperature_column(table), pressure_column(table, refrigerant, of));
        for misprint in misprints(table) {
            if [t_column, p_column].contains(&Some(misprint.column.as_str())) {
                take(&mut points, &misprint.row, file);
            }
        }
        for fact in table.facts("outside") {
            let gone = take(&mut points, fact.split(' ').next().unwrap(), file);
            assert!(gone.asked(line(refrigerant, of)).is_none(), "{file}, row {}: inside the line", gone.row);
        }
        found.push(Block {
            refrigerant,
            line: of,
            table: file.to_owned(),
            source: source.to_owned(),
            trust: trust(table),
            independent: independent(table),
            // a table of two lines states each apart
            stated: entered(table, p_column.filter(|_| refrigerant.is_blend()), "%"),
            points,
        });
    }
    assert!(!found.is_empty(), "{file}: nothing to compare");
    found
}

/// Takes the one row entered with `row` out of `points`.
fn take(points: &mut Vec<Point>, row: &str, file: &str) -> Point {
    let at: Vec<usize> = (0..points.len()).filter(|&i| points[i].row == row).collect();
    assert_eq!(at.len(), 1, "{file}: rows {row}");
    points.remove(at[0])
}

/// The boiling points of a table of constants.
fn boiling_points(file: &str, table: &Table, source: &str) -> Vec<Block> {
    let mut found = Vec::new();
    for constant in constants(file, table) {
        let Some(line) = constant.boils else { continue };
        if matches!(constant.refrigerant.fluid().boiling.value, Boiling::Sublimes(_)) {
            continue;
        }
        found.push(Block {
            refrigerant: constant.refrigerant,
            line,
            table: file.to_owned(),
            source: format!("{}, at 101.325 kPa", source.trim_end_matches(", constants page")),
            trust: trust(table),
            independent: independent(table),
            stated: entered(table, Some(&constant.subject), "%"),
            points: vec![Point {
                row: constant.subject,
                t: constant.value,
                p: ATMOSPHERE,
                half_t: constant.half,
                half_p: 0.0,
            }],
        });
    }
    found
}

/// One constant of one refrigerant as printed, in K or Pa.
struct Constant {
    refrigerant: Refrigerant,
    column: String,
    /// As a `deviates` line names it.
    subject: String,
    printed: String,
    value: f64,
    half: f64,
    /// The line whose normal boiling point it is.
    boils: Option<CheckedLine>,
}

/// The boiling and critical temperatures and critical pressures of a table of constants; refrigerants of the catalogue
/// only.
fn constants(file: &str, table: &Table) -> Vec<Constant> {
    let mut found = Vec::new();
    for row in &table.rows {
        let keyed = table.columns[0] == "refrigerant";
        let refrigerant = if keyed { named(&row[0]) } else { Some(refrigerant(file)) };
        let Some(refrigerant) = refrigerant else { continue };
        for (column, printed) in table.columns.iter().zip(row) {
            let boils = match column.as_str() {
                "normal_bubble_point_C" => Some(CheckedLine::Bubble),
                "normal_dew_point_C" => Some(CheckedLine::Dew),
                "normal_boiling_point_C" if refrigerant.is_blend() => Some(CheckedLine::Bubble),
                "normal_boiling_point_C" => Some(CheckedLine::Dew),
                _ => None,
            };
            let (unit, zero) = match column.as_str() {
                "critical_pressure_kPa_abs" => pressure_unit(column),
                _ if boils.is_some() || column.starts_with("critical_temperature_") => temperature_unit(column),
                _ => continue,
            };
            found.push(Constant {
                refrigerant,
                column: column.clone(),
                subject: if keyed { format!("{} {column}", row[0]) } else { column.clone() },
                printed: printed.clone(),
                value: printed.parse::<f64>().unwrap() * unit + zero,
                half: half_unit(printed, "as printed") * unit,
                boils,
            });
        }
    }
    found
}

/// The correlations of a file of coefficients, each evaluated every 2 K over the range its deviation is stated for.
fn correlations(table: &Table) -> Vec<Block> {
    let misprinted: Vec<String> = misprints(table).into_iter().map(|misprint| misprint.row).collect();
    let mut found = Vec::new();
    for row in &table.rows {
        let (key, refrigerant) = (row[0].as_str(), named(&row[1]).unwrap());
        if misprinted.contains(&format!("{key},{}", row[1])) {
            continue;
        }
        let given: BTreeMap<&str, f64> =
            row[3].split(' ').map(|pair| pair.split_once('=').unwrap()).map(|(k, v)| (k, v.parse().unwrap())).collect();
        let c = |name: &str| given[name];
        let line = refrigerant.dew_line();
        // "Tm", the melting point, is the lower limit of the VDI forms
        let from = given.get("Tmin").or(given.get("Tm")).copied().unwrap();
        let low = from.max(233.15);
        let high =
            given.get("Tmax").copied().unwrap_or(f64::MAX).min(368.15).min(0.995 * line.critical_temperature.kelvin());
        let wagner = |exponents: [f64; 4], t: f64| {
            let theta = 1.0 - t / c("Tc");
            let terms = ["A", "B", "C", "D"].map(c).into_iter().zip(exponents);
            // ln(p/pc) = (Tc/T) Σ nᵢ θ^kᵢ
            c("Pc") * (c("Tc") / t * terms.map(|(n, k)| n * theta.powf(k)).sum::<f64>()).exp()
        };
        // log10(p/Pa) = A − B/(T + C)
        let antoine = |t: f64| c("A") - c("B") / (t + c("C"));
        let pressure = |t: f64| match key {
            "VDI" | "PolingWagner" => wagner([1.0, 1.5, 2.5, 5.0], t),
            "McGarry" => wagner([1.0, 1.5, 3.0, 6.0], t),
            "PolingAntoine" => 10f64.powf(antoine(t)),
            "PolingAntoineExt" => {
                // log10(p/Pa) = A − B/(T + C) + 0.43429 xⁿ + E x⁸ + F x¹², x = (T − to − 273.15 K)/Tc
                let x = (t - c("to") - 273.15) / c("Tc");
                #[allow(clippy::approx_constant)] // log10(e) as the book prints it
                10f64.powf(antoine(t) + 0.43429 * x.powf(c("n")) + c("E") * x.powi(8) + c("F") * x.powi(12))
            }
            // p/Pa = exp(C1 + C2/T + C3 ln T + C4 T^C5)
            "Perry2-8" => (c("C1") + c("C2") / t + c("C3") * t.ln() + c("C4") * t.powf(c("C5"))).exp(),
            // ln(p/Pa) = A − B/(T + C)
            "LandoltAntoine" => antoine(t).exp(),
            _ => panic!("correlation {key}"),
        };
        let source = match key {
            "VDI" => "VDI Heat Atlas 2010, D3.1, Wagner form",
            "McGarry" => "McGarry 1983, Wagner form",
            "PolingAntoine" => "Poling et al. 2001, Antoine form",
            "PolingAntoineExt" => "Poling et al. 2001, extended Antoine form",
            "PolingWagner" => "Poling et al. 2001, Wagner form",
            "Perry2-8" => "Perry's Handbook 2007, Table 2-8",
            _ => "Landolt-Boernstein IV/20 1999, Antoine form",
        };
        let steps = ((high - low) / 2.0).floor() as usize;
        let at = (0..=steps).map(|i| low + 2.0 * i as f64).filter(|t| *t < high).chain([high]);
        let subject = format!("{key} {}", row[1]);
        let mut stated =
            entered(table, Some(&subject), "%").unwrap_or_else(|| panic!("{subject}: no deviation stated"));
        if stated.reason.is_empty() {
            stated.reason = "correlation".into();
        }
        found.push(Block {
            refrigerant,
            line: CheckedLine::Dew,
            table: format!("{CORRELATIONS}: {key}"),
            source: source.to_owned(),
            trust: trust(table),
            independent: independent(table),
            stated: Some(stated),
            points: at.map(|t| Point { row: format!("{t:.2}"), t, p: pressure(t), half_t: 0.0, half_p: 0.0 }).collect(),
        });
    }
    found
}

// --- the tests

#[test]
fn every_row_agrees_with_its_line() {
    let mut compared = 0;
    for block in blocks() {
        for (point, beside) in block.beside() {
            // correlations state theirs rounded, not rounded up
            let mut stated = block.stated.clone();
            if let Some(stated) = stated.as_mut().filter(|_| block.table.starts_with(CORRELATIONS)) {
                stated.value += stated.unit / 2.0;
            }
            assert!(
                beside.agrees(stated.as_ref()),
                "{}, row {}: ours {:.6} kPa, printed {:.6} kPa, off by {:+.6} kPa ({:+.4} %), allowed {:.6} kPa",
                block.name(),
                point.row,
                beside.ours / 1e3,
                beside.printed / 1e3,
                beside.deviation() / 1e3,
                beside.percent(),
                beside.allowed(stated.as_ref()) / 1e3,
            );
            compared += 1;
        }
    }
    // a reader that drops rows fails here
    assert_eq!(compared, 4772);
}

/// Printed row, curve and equation: the answers come from the curves, and the printed row must lie as close to them.
#[test]
fn every_row_agrees_with_the_answers() {
    let (mut compared, mut wrong) = (0, String::new());
    for block in blocks() {
        for (point, beside) in block.beside() {
            let ours = match block.line {
                CheckedLine::Bubble => block.refrigerant.bubble_pressure(beside.at),
                CheckedLine::Dew => block.refrigerant.saturation_pressure(beside.at),
            };
            let ours = ours.unwrap().pa();
            let equation = &block.refrigerant.fluid().equation;
            // as far as the curves promise
            if equation.is_pure && beside.at.kelvin() < equation.critical_temperature - 0.1 {
                let exact = Equilibrium::at(equation, beside.at).unwrap().pressure().pa();
                let apart = (ours / exact - 1.0).abs();
                assert!(apart <= 1e-10, "{}, row {}: curve and equation {apart:e}", block.name(), point.row);
            }
            let stated = block.stated.as_ref().map_or(0.0, |s| {
                // correlations state theirs rounded, not rounded up
                let up = if block.table.starts_with(CORRELATIONS) { s.unit / 2.0 } else { 0.0 };
                (s.value + up) / 100.0 * ours
            });
            let rounding = match &block.stated {
                Some(s) if !s.beyond_rounding => 0.0,
                _ => beside.rounding,
            };
            // of the curves
            let allowed = rounding + stated + 1e-10 * ours;
            let off = (point.p - ours).abs();
            if off > allowed {
                writeln!(wrong, "{}, row {}: off by {off} Pa, allowed {allowed} Pa", block.name(), point.row).unwrap();
            }
            compared += 1;
        }
    }
    assert!(wrong.is_empty(), "{wrong}");
    assert_eq!(compared, 4772);
}

#[test]
fn stated_deviations_are_needed() {
    for block in blocks() {
        let Some(stated) = &block.stated else { continue };
        let excess = |b: &Beside| b.deviation().abs() - if stated.beyond_rounding { b.rounding } else { 0.0 };
        // rounded up, so within one unit of the last digit; the error of the line may hide some of it
        let needed = block.beside().any(|(_, b)| excess(&b) + b.fit >= (stated.value - stated.unit) / 100.0 * b.ours);
        assert!(needed, "{}: no row deviates by {} %", block.name(), stated.value);
    }
}

#[test]
fn every_table_holds_the_rows_its_header_counts() {
    for file in published() {
        let table = read(&file);
        assert_eq!(table.rows.len().to_string(), table.fact("rows").unwrap(), "{file}");
    }
}

#[test]
fn every_printed_row_is_compared_or_named() {
    for file in published().iter().filter(|file| *file != CORRELATIONS && !CONSTANTS.contains(&file.as_str())) {
        let table = read(file);
        for block in rows(file, &table, "") {
            let p_column = pressure_column(&table, block.refrigerant, block.line).unwrap();
            let columns = [temperature_column(&table).unwrap(), p_column];
            let misprinted = misprints(&table).iter().filter(|m| columns.contains(&m.column.as_str())).count();
            let empty = table.rows.iter().filter(|row| row[table.column(p_column)].is_empty()).count();
            // the service manual's dew column was cut off from −25 to 17 °C
            let cut = if file == "r410a-service-manual.csv" && block.line == CheckedLine::Dew { 43 } else { 0 };
            assert_eq!(empty, cut, "{}", block.name());
            let named = misprinted + table.facts("outside").count() + empty;
            assert_eq!(block.points.len() + named, table.rows.len(), "{}", block.name());
        }
    }
}

#[test]
fn misprints_are_wrong_as_printed_and_right_as_corrected() {
    let mut wrong = 0;
    for file in published() {
        let table = read(&file);
        for misprint in misprints(&table) {
            let named = |row: &&Vec<String>| {
                let key = &misprint.row;
                row[0] == *key || row[1] == *key || format!("{},{}", row[0], row[1]) == *key
            };
            let at = format!("{file}, misprint {} {}", misprint.row, misprint.column);
            let rows: Vec<_> = table.rows.iter().filter(named).collect();
            assert_eq!(rows.len(), 1, "{at}");
            let cell = table.column(&misprint.column);
            let among = rows[0][cell].split(' ').any(|word| word == misprint.printed);
            assert!(among && misprint.printed != misprint.correct, "{at}: {}", rows[0][cell]);

            let Some(t_column) = temperature_column(&table) else { continue };
            let fluid = refrigerant(&file);
            for of in [CheckedLine::Bubble, CheckedLine::Dew] {
                let Some(p_column) = pressure_column(&table, fluid, of) else { continue };
                if ![t_column, p_column].contains(&misprint.column.as_str()) {
                    continue;
                }
                let mut row = rows[0].clone();
                let mut agrees = |text: &str| {
                    row[cell] = text.to_owned();
                    let (t, p) = (&row[table.column(t_column)], &row[table.column(p_column)]);
                    let point = point(&table, t_column, p_column, t, p).unwrap();
                    Beside::new(line(fluid, of), &point).unwrap().agrees(entered(&table, None, "%").as_ref())
                };
                assert!(!agrees(&misprint.printed), "{at}: {} is within its tolerance", misprint.printed);
                assert!(agrees(&misprint.correct), "{at}: {} is off too", misprint.correct);
                wrong += 1;
            }
        }
    }
    assert_eq!(wrong, 2, "misprinted temperatures and pressures");
}

#[test]
fn critical_points_agree_with_the_tables() {
    let mut compared = 0;
    for file in CONSTANTS {
        let table = read(file);
        for constant in constants(file, &table).iter().filter(|constant| constant.boils.is_none()) {
            let critical = constant.refrigerant.fluid().critical.value;
            let (ours, unit, si) = if constant.column.contains("temperature") {
                (critical.temperature.kelvin(), "K", 1.0)
            } else {
                (critical.pressure.pa(), "%", critical.pressure.pa() / 100.0)
            };
            let stated = entered(&table, Some(&constant.subject), unit);
            let off = (constant.value - ours).abs();
            let at = format!("{file}, {} {}", constant.refrigerant, constant.column);
            let allowed = stated.as_ref().map_or(constant.half, |s| s.value * si) + 1e-9 * ours;
            assert!(off <= allowed, "{at}: printed {}, off by {off}, allowed {allowed} (K or Pa)", constant.printed);
            let needed = stated.is_none_or(|s| off >= (s.value - s.unit) * si);
            assert!(needed, "{at}: off by {off} (K or Pa) only, less than stated");
            compared += 1;
        }
    }
    // twice 13 refrigerants, the bulletin, the measurement
    assert_eq!(compared, 30);
}

/// The printed boiling points are compared with the lines; here the kept ones are.
#[test]
fn boiling_points_lie_on_the_lines() {
    for fluid in Refrigerant::ALL.iter().copied() {
        let kept = match fluid.fluid().boiling.value {
            Boiling::At(t) => vec![(CheckedLine::Dew, t)],
            Boiling::Between { bubble, dew } => vec![(CheckedLine::Bubble, bubble), (CheckedLine::Dew, dew)],
            Boiling::Sublimes(t) => {
                let table = read("ashrae-2021-table5.csv");
                let constants = constants("ashrae-2021-table5.csv", &table);
                let printed = constants.iter().find(|c| c.refrigerant == fluid && c.boils.is_some()).unwrap();
                assert!(
                    abs_diff_eq!(t.kelvin(), printed.value, epsilon = printed.half),
                    "{fluid}: printed {}",
                    printed.printed
                );
                continue;
            }
        };
        for (of, kept) in kept {
            let line = line(fluid, of);
            let ours = line.temperature(Pressure::from_pa(ATMOSPHERE)).unwrap();
            // kept to 0.001 K
            let allowed = 0.0005 + line.accuracy_at(ours).unwrap().temperature.kelvins() + 1e-9;
            let off = kept.kelvin() - ours.kelvin();
            assert!(
                abs_diff_eq!(off, 0.0, epsilon = allowed),
                "{fluid} {of:?}: kept {kept:?}, on the line {ours:?}, allowed {allowed} K"
            );
        }
    }
}

#[test]
fn r1234yf_critical_point_was_measured_within_its_uncertainty() {
    let table = read("r1234yf-tanaka-higashi-2009.csv");
    let note = "stated uncertainties: 367.85 +/- 0.01 K; 3382 +/- 3 kPa; 478 +/- 3 kg/m3";
    assert!(table.facts("note").any(|fact| fact == note));
    let ours = Refrigerant::R1234yf.fluid().critical.value;
    let line = Refrigerant::R1234yf.dew_line();
    for (column, ours, uncertainty) in [
        ("critical_temperature_K", ours.temperature.kelvin(), 0.01),
        ("critical_temperature_K", line.critical_temperature.kelvin(), 0.01),
        ("critical_pressure_kPa_abs", ours.pressure.kpa(), 3.0),
        ("critical_pressure_kPa_abs", line.pressure(line.valid.high).unwrap().kpa(), 3.0),
        ("critical_density_kg_m3", ours.density.kg_per_m3(), 3.0),
    ] {
        let measured = table.numbers(column)[0];
        assert!(abs_diff_eq!(measured, ours, epsilon = uncertainty), "{column}: measured {measured}, ours {ours}");
    }
}

/// The kinds of work on another equation than the one here, or on none, as the page heads them.
const KINDS: [&str; 5] = [
    "saturation tables",
    "correlations",
    "equations of state, evaluated",
    "boiling and critical points, printed",
    "critical points, measured",
];

/// The works that check a line independently, each with its kind (an index in `KINDS`).
fn works(fluid: Refrigerant) -> BTreeMap<String, usize> {
    let register = register();
    // two tables of one work are one source
    let work = |source: &str| source.split(',').next().unwrap().to_owned();
    let mut works = BTreeMap::new();
    for block in blocks().iter().filter(|b| b.refrigerant == fluid && b.independent) {
        let file = block.table.split(':').next().unwrap();
        if CONSTANTS.contains(&file) {
            continue;
        }
        let table = read(file);
        let kind = if file == CORRELATIONS || table.facts("equation").any(|fact| fact.contains("a correlation")) {
            1
        } else if table.facts("reached").any(|fact| fact.starts_with("not a printed table: evaluated")) {
            2
        } else {
            0
        };
        assert_eq!(*works.entry(work(&block.source)).or_insert(kind), kind, "{}: two kinds", block.source);
    }
    for file in CONSTANTS {
        let table = read(file);
        if independent(&table) && constants(file, &table).iter().any(|c| c.refrigerant == fluid) {
            let measured = table.fact("equation").unwrap().starts_with("none: measured");
            works.entry(work(&register[&format!("published/{file}")][1])).or_insert(if measured { 4 } else { 3 });
        }
    }
    works
}

#[test]
fn r134a_and_r1234yf_have_three_independent_sources() {
    for fluid in [Refrigerant::R134a, Refrigerant::R1234yf] {
        let works = works(fluid);
        assert!(works.len() >= 3, "{fluid}: {works:?}");
    }
}

/// The part of the page on what checks the two main lines from outside.
fn independent_works() -> String {
    let mut page = String::from(
        "\
## Independent works

How many works check a line by another equation than its own, or by none, and of which kind; several tables of one work
count once. They need not rest on other measurements, nor on other authors. \"Evaluated\" means that the work prints
coefficients and the values were computed from them for these tables.

",
    );
    writeln!(page, "| fluid | works | {} |\n|---|---|{}", KINDS.join(" | "), "---|".repeat(KINDS.len())).unwrap();
    for fluid in [Refrigerant::R134a, Refrigerant::R1234yf] {
        let works = works(fluid);
        let cells = (0..KINDS.len()).map(|kind| {
            let of: Vec<&str> = works.iter().filter(|(_, k)| **k == kind).map(|(work, _)| work.as_str()).collect();
            if of.is_empty() { "none".to_owned() } else { format!("{}: {}", of.len(), of.join("; ")) }
        });
        writeln!(page, "| {fluid} | {} | {} |", works.len(), cells.collect::<Vec<_>>().join(" | ")).unwrap();
    }
    page
}

#[test]
fn the_readme_registers_exactly_the_tables() {
    let register = register();
    let folders =
        std::fs::read_dir(root().join("tables")).unwrap().map(|entry| entry.unwrap()).filter(|e| e.path().is_dir());
    let mut kept = BTreeSet::new();
    for folder in folders {
        let folder = folder.file_name().into_string().unwrap();
        kept.extend(files(&folder).into_iter().map(|file| format!("{folder}/{file}")));
    }
    let readme = std::fs::read_to_string(root().join("tables/README.md")).unwrap();
    assert!(kept.remove("equation/generate.py") && readme.contains("`equation/generate.py`"));
    assert!(kept.remove("air/generate.py") && readme.contains("`air/generate.py`"));
    assert!(kept.remove("system/README.md") && readme.contains("`system/README.md`"));
    assert!(kept.remove("system/CHECKS.md") && readme.contains("`system/CHECKS.md`"));
    assert!(kept.remove("system/CALIBRATION.md") && readme.contains("`system/CALIBRATION.md`"));
    assert_eq!(register.keys().cloned().collect::<BTreeSet<_>>(), kept);

    for file in published() {
        let table = read(&file);
        let [.., rows, _range, entry, trust, deviates] = register[&format!("published/{file}")].as_slice() else {
            panic!("{file}: cells")
        };
        // the largest in percent
        let largest = table
            .facts("deviates")
            .filter(|fact| !phases::is_of_a_phase(&table, fact))
            .filter_map(|fact| fact.split_once(" %"))
            .max_by(|a, b| a.0.parse::<f64>().unwrap().total_cmp(&b.0.parse().unwrap()))
            .map_or("—".to_owned(), |(value, _)| format!("{value} %"));
        let head = [table.fact("rows").unwrap(), table.fact("entry").unwrap(), grade(&table), &largest];
        assert_eq!([rows, entry, trust, deviates], head, "{file}");
    }
}

// --- what is kept

/// What a block shows, rounded so that it is the same on every machine.
struct Shown {
    low: f64,
    high: f64,
    worst_at: f64,
    worst: (f64, f64),
    mean: (f64, f64),
}

fn shown(block: &Block) -> Shown {
    let all: Vec<Beside> = block.beside().map(|(_, beside)| beside).collect();
    let n = all.len() as f64;
    let worst = all.iter().max_by(|a, b| a.percent().abs().total_cmp(&b.percent().abs())).unwrap();
    let at = |pick: fn(f64, f64) -> f64| all.iter().map(|b| b.at.kelvin()).reduce(pick).unwrap();
    Shown {
        low: rounded(at(f64::min), 3),
        high: rounded(at(f64::max), 3),
        worst_at: rounded(worst.at.kelvin(), 3),
        worst: (rounded(worst.percent(), 4), rounded(worst.kelvin(), 4)),
        mean: (
            rounded(all.iter().map(|b| b.percent().abs()).sum::<f64>() / n, 4),
            rounded(all.iter().map(|b| b.kelvin().abs()).sum::<f64>() / n, 4),
        ),
    }
}

/// To `decimals`, never minus zero.
fn rounded(value: f64, decimals: usize) -> f64 {
    format!("{value:.decimals$}").parse::<f64>().unwrap() + 0.0
}

#[test]
fn checks_are_what_the_tables_show() {
    let path = "src/refrigerant/checks.rs";
    let kept = std::fs::read_to_string(root().join(path)).unwrap();
    let mark = "pub(super) const ALL: &[Check] = &[";
    let (top, _) = kept.split_once(mark).unwrap();
    let mut made = format!("{top}{mark}\n");
    for block in blocks() {
        let shown = shown(&block);
        let stated = block.stated.as_ref().map(|s| s.value);
        writeln!(
            made,
            "    check({:?}, {:?}, [{:?}, {:?}],\n        ({:?}, {}, {stated:?}), [{:?}, {:?}], [{:?}, {:?}, {:?}], [{:?}, {:?}]),",
            block.refrigerant,
            block.line,
            block.table,
            block.source,
            block.trust,
            block.points.len(),
            shown.low,
            shown.high,
            shown.worst_at,
            shown.worst.0,
            shown.worst.1,
            shown.mean.0,
            shown.mean.1,
        )
        .unwrap();
    }
    made += "];\n";
    same_as_file(path, &made);
}

/// How a grade of the headers reads on the page.
const GRADES: &str = "\
| A | the full document, or an untouched machine export of it, was read |
| A- | typed or excerpted by others who name the printed source |
| B | an excerpt, or typed without a named source but consistent; also values evaluated from published coefficients |
| C | weak: second hand, or the origin is not named |
| M | from memory, not read: a sanity check, not evidence |
";

/// The goal: 0.03 % of the pressure and 0.01 K.
const GOAL: (f64, f64) = (3e-4, 0.01);

/// The first part of the page: the lines and what they declare.
fn lines() -> String {
    let mut page = String::from(
        "| fluid | range, °C | below −60 °C | −60 to −40 °C | −40 °C to 2 K below Tc | last 2 K |\n|---|---|---|---|---|---|\n",
    );
    let (mut missed, mut sources) = (Vec::new(), Vec::<(&str, Vec<&str>)>::new());
    for fluid in Refrigerant::ALL.iter().copied() {
        let line = fluid.dew_line();
        let name = fluid.designation();
        assert_eq!(line.valid, fluid.bubble_line().valid);
        let bands = ["below −60 °C", "from −60 to −40 °C", "from −40 °C to 2 K below Tc", "in the last 2 K"];
        let mut cells = Vec::new();
        for (band, words) in line.accuracy.iter().zip(bands) {
            let kelvin = band.temperature.kelvins();
            let not_reached = band.up_to <= line.valid.low;
            cells.push(match (fluid.is_blend(), not_reached) {
                (_, true) => "—".to_owned(),
                (true, _) => {
                    let own = [fluid.bubble_line(), line].iter().all(|l| l.accuracy.iter().all(|a| a.pressure == 0.0));
                    assert!(own, "{name}: a blend has the published lines themselves");
                    "published".to_owned()
                }
                _ => format!("{} %, {kelvin} K", percent(band.pressure)),
            });
            if !not_reached && (band.pressure > GOAL.0 || kelvin > GOAL.1) {
                missed.push(format!("{name} {words}: {} %, {kelvin} K", percent(band.pressure)));
            }
        }
        let (low, high) = (line.valid.low.celsius(), line.valid.high.celsius());
        writeln!(page, "| {name} | {} | {} |", span(low, high), cells.join(" | ")).unwrap();
        match sources.iter_mut().find(|(work, _)| *work == line.source.work) {
            Some((_, of)) => of.push(name),
            None => sources.push((line.source.work, vec![name])),
        }
    }
    page += "\nThe goal is 0.03 % of the pressure and 0.01 K. It is not met here:\n\n";
    for missed in missed {
        writeln!(page, "- {missed}").unwrap();
    }
    page += "\nEquations of state:\n\n";
    for (work, of) in sources {
        let source = Refrigerant::ALL.iter().map(|r| r.dew_line().source).find(|s| s.work == work).unwrap();
        let doi = source.doi.map_or(String::new(), |doi| format!(", doi {doi}"));
        writeln!(page, "- {}: {work}{doi}", of.join(", ")).unwrap();
    }
    page
}

/// A declared fraction in percent, with its own two digits.
fn percent(fraction: f64) -> String {
    rounded(100.0 * fraction, 6).to_string()
}

fn span(low: f64, high: f64) -> String {
    if low == high { format!("{low:.2}") } else { format!("{low:.2} to {high:.2}") }.replace('-', "−")
}

/// The page on what the tables show.
fn page() -> String {
    let blocks = blocks();
    let rows: usize = blocks.iter().map(|block| block.points.len()).sum();
    let (phase_columns, phase_rows) = phases::counts();
    let mut page = format!(
        "\
# How far the saturation lines and the published tables are apart

`tests/tables.rs` writes this page from the tables in `published/` and from the lines, and fails when the two no longer
agree. A deviation is table minus line: positive where the table prints the higher pressure. It is given in % of the
pressure and, divided by the slope of the line, in K. {rows} rows are compared below, {} comparisons of a table with a line.

A row is allowed half a unit of its last printed digits (of the pressure, and of the temperature where that is rounded
too) and the declared error of the line. A table that is further off states so in its header, with the reason, and is
then held to that and the declared error of the line. So the deviations of a table without a stated deviation are the
rounding of its printed digits: they are large where a pressure has few digits and say nothing against either side.
`Refrigerant::saturation_checks` gives the same numbers to programs.

Three corners meet in every row: the printed table, the answer of the crate, the equation of state. The answers
(`Refrigerant::saturation_pressure`) come from curves within 1e-10 of the equation. Every printed pressure is held against
the answer too, with no allowance but the printed digits, the stated deviation and that 1e-10; and the answer of a pure
fluid against its equation, up to 0.1 K below the critical temperature. The figures of the pressures are those of the
lines, which are short enough to be typed and declare an error.

Below the pressures of each fluid stand the densities, enthalpies and entropies of its tables, {phase_rows} numbers in
{phase_columns} columns, table minus answer. The answers are within 1e-9 of the equation of a pure fluid, which is compared
with every row as well; a blend is answered by its equation. At the printed temperature:

- densities in %, also where the table prints volume;
- enthalpy and entropy of the liquid in kJ/kg and kJ/(kg K), from the zero of the table: as they are where its header
  says IIR (200 kJ/kg and 1 kJ/(kg K) at 0 °C, as here), from the liquid at −40 °C where it says so, else from the first
  row that is no misprint (\"from … °C\");
- enthalpy and entropy of the vapour as the difference from the liquid, which needs no zero; where the table has no
  liquid, from the first row.

Allowed is half a unit of the last digit of every printed number in it, and what half a unit of the temperature makes
where that is rounded. Where a file may have lost trailing zeros, a number has the decimals of the longest of the same
power of ten in its column. A stated deviation counts beyond those digits. Left out: misprints, rows within the rounding
of their temperature from the last 0.01 K before the critical point, internal energies and heat capacities, and the files
of constants and correlations.

## The lines

What each line declares against its own equation of state, as the largest error in each part of the range. How far the
equation is from nature is the business of its authors. The lines of the blends are the published bubble and dew lines
themselves (\"published\"), so there is no error to declare. A dash: the line does not reach so low.

{}
{}
## The tables

Trust, the mark in the headers of the tables:

| mark | meaning |
|---|---|
{GRADES}
\"Worst\" is the row with the largest deviation in %, \"mean\" the mean of the absolute values. A correlation is evaluated
every 2 K over the range its deviation is stated for. Tables that evaluate the equation of this crate, or were computed
from it, check the typing of its coefficients and the code; those marked \"other\" rest on another equation or on none.
",
        blocks.len(),
        lines(),
        independent_works(),
    );
    for fluid in Refrigerant::ALL.iter().copied() {
        writeln!(
            page,
            "\n### {fluid}\n\n| source | file | trust | rows | range, °C | worst | at, °C | mean | stated |\n|---|---|---|---|---|---|---|---|---|",
        )
        .unwrap();
        for block in blocks.iter().filter(|block| block.refrigerant == fluid) {
            let shown = shown(block);
            let celsius = |kelvin: f64| Temperature::from_kelvin(kelvin).celsius();
            let file = block.table.split(':').next().unwrap();
            let line = match block.line {
                _ if !fluid.is_blend() => "",
                CheckedLine::Bubble => ", bubble",
                CheckedLine::Dew => ", dew",
            };
            let stated = block.stated.as_ref().map_or("—".to_owned(), |s| format!("{} %: {}", s.printed, s.reason));
            writeln!(
                page,
                "| {}{line} | [`{}`](published/{file}) | {}{} | {} | {} | {} %, {} K | {} | {:.4} %, {:.4} K | {stated} |",
                block.source,
                block.table,
                grade(&read(file)),
                if block.independent { ", other" } else { "" },
                block.points.len(),
                span(celsius(shown.low), celsius(shown.high)),
                signed(shown.worst.0),
                signed(shown.worst.1),
                span(celsius(shown.worst_at), celsius(shown.worst_at)),
                shown.mean.0,
                shown.mean.1,
            )
            .unwrap();
        }
        page += &phases::page(fluid);
    }
    page += &critical_points();
    page += "\n## Sources of the tables\n\nIn full, as in the headers of the files, with the way each came here.\n\n";
    for file in published() {
        let table = read(&file);
        let facts = |key| table.facts(key).collect::<Vec<_>>().join("; ");
        writeln!(page, "- `{file}`: {}. Reached: {}.", facts("source"), facts("reached")).unwrap();
    }
    page
}

/// The part of the page on critical points.
fn critical_points() -> String {
    let register = register();
    let mut page = String::from(
        "\n## Critical points\n\nAs printed, beside those of the equations of state here.\n\n\
         | fluid | source | trust | printed | here |\n|---|---|---|---|---|\n",
    );
    let mut lines = Vec::new();
    for file in CONSTANTS {
        let table = read(file);
        let critical: Vec<Constant> = constants(file, &table).into_iter().filter(|c| c.boils.is_none()).collect();
        for pair in critical.chunks(2) {
            let [t, p] = pair else { panic!("{file}: temperature and pressure") };
            let ours = t.refrigerant.fluid().critical.value;
            let (unit, temperature) = match t.column.rsplit('_').next().unwrap() {
                "K" => ("K", ours.temperature.kelvin()),
                _ => ("°C", ours.temperature.celsius()),
            };
            let line = format!(
                "| {} | {} | {}{} | {} {unit}, {} kPa | {} {unit}, {} kPa |\n",
                t.refrigerant,
                register[&format!("published/{file}")][1],
                grade(&table),
                if independent(&table) { ", other" } else { "" },
                t.printed,
                p.printed,
                rounded(temperature, 4),
                rounded(ours.pressure.kpa(), 2),
            );
            lines.push((Refrigerant::ALL.iter().position(|r| *r == t.refrigerant), line));
        }
    }
    lines.sort();
    page.extend(lines.into_iter().map(|(_, line)| line));
    page
}

fn signed(value: f64) -> String {
    format!("{value:+.4}").replace('-', "−")
}

#[test]
fn the_page_of_deviations_is_up_to_date() {
    same_as_file("tables/DEVIATIONS.md", &page());
}

#[test]
fn every_comparison_is_listed_with_its_refrigerant() {
    let blocks = blocks();
    for fluid in Refrigerant::ALL.iter().copied() {
        let listed: Vec<&Check> = fluid.saturation_checks().collect();
        let made: Vec<&Block> = blocks.iter().filter(|block| block.refrigerant == fluid).collect();
        assert!(!listed.is_empty(), "{fluid}: no table");
        assert_eq!(listed.len(), made.len(), "{fluid}");
        for (check, block) in listed.iter().zip(made) {
            assert_eq!((check.line, check.table, check.rows), (block.line, block.table.as_str(), block.points.len()));
        }
    }
}
