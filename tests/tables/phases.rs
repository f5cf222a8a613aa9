//! Density, enthalpy and entropy of the published tables against the answers of the crate and its equations of state.
//!
//! A density is compared as it is, in %. Enthalpy and entropy have no zero of their own: those of the liquid are compared
//! from the zero that the header states, else from the first row; those of the vapour as the difference from the liquid.

use std::fmt::Write as _;
use std::sync::OnceLock;

use satline::helmholtz::Saturated;
use satline::helmholtz::terms::Equilibrium;
use satline::{Refrigerant, Temperature};

use super::*;

#[derive(Clone, Copy, PartialEq)]
enum What {
    Density,
    Enthalpy,
    Entropy,
}

#[derive(Clone, Copy, PartialEq)]
enum Of {
    Liquid,
    Vapour,
    /// Vapour minus liquid.
    Both,
}

use Of::{Both, Liquid, Vapour};
use What::{Density, Enthalpy, Entropy};

/// How the columns begin; `true` where volume is printed for density.
const STARTS: [(&str, What, Of, bool); 16] = [
    ("rho_liq_", Density, Liquid, false),
    ("rho_vap_", Density, Vapour, false),
    ("vapor_density_", Density, Vapour, false),
    ("bubble_liquid_density_", Density, Liquid, false),
    ("dew_vapor_density_", Density, Vapour, false),
    ("v_liq_", Density, Liquid, true),
    ("v_vap_", Density, Vapour, true),
    ("liquid_specific_volume_", Density, Liquid, true),
    ("vapor_specific_volume_", Density, Vapour, true),
    ("h_liq_", Enthalpy, Liquid, false),
    ("h_vap_", Enthalpy, Vapour, false),
    ("h_fg_", Enthalpy, Both, false),
    ("h_vaporization_", Enthalpy, Both, false),
    ("s_liq_", Entropy, Liquid, false),
    ("s_vap_", Entropy, Vapour, false),
    ("s_fg_", Entropy, Both, false),
];

/// Internal energy and heat capacities, which the curves do not hold.
const NOT_COMPARED: [&str; 4] = ["u_liq_", "u_vap_", "cp_liq_", "cp_vap_"];

/// What a column holds.
struct Column {
    name: String,
    what: What,
    of: Of,
    volume: bool,
    /// kg/m³ or m³/kg, kJ/kg, kJ/(kg K) per unit of the column.
    unit: f64,
}

impl Column {
    fn new(name: &str, fluid: Refrigerant) -> Option<Self> {
        let pressure_or_temperature = name.contains("pressure_") || name.starts_with("temperature_");
        if pressure_or_temperature || NOT_COMPARED.iter().any(|start| name.starts_with(start)) {
            return None;
        }
        let (unit, (what, of, volume)) = STARTS
            .iter()
            .find_map(|&(start, what, of, volume)| Some((name.strip_prefix(start)?, (what, of, volume))))
            .unwrap_or_else(|| panic!("column {name}"));
        let unit = match unit {
            "kg_m3" | "m3_kg" | "kJ_kg" | "kJ_kgK" | "J_gK" => 1.0,
            "x1000_m3_kg" => 1e-3,
            "mol_L" => 1e3 * fluid.fluid().equation.molar_mass,
            // NIST SP 811: ft, lb, Btu (IT)
            "ft3_lbm" => 0.3048f64.powi(3) / 0.453_592_37,
            "Btu_lbm" => 2.326,
            "Btu_lbmR" => 4.1868,
            _ => panic!("unit of {name}"),
        };
        Some(Self { name: name.to_owned(), what, of, volume, unit })
    }
}

/// Half a unit of the last printed digit of a cell of `column`, in the unit of the column.
///
/// Where the file may have lost trailing zeros, the cell has the decimals of the longest print of its power of ten.
fn half(cell: &str, column: &[&str], zeros_lost: bool) -> f64 {
    let decimals = |text: &str| {
        let (mantissa, exponent) = text.split_once('e').unwrap_or((text, "0"));
        mantissa.split_once('.').map_or(0, |(_, d)| d.len() as i32) - exponent.parse::<i32>().unwrap()
    };
    let power = |text: &str| text.parse::<f64>().unwrap().abs().log10().floor();
    let longest = column
        .iter()
        // a zero has no power of ten of its own
        .filter(|other| cell.parse() == Ok(0.0) || power(other) == power(cell))
        .map(|other| decimals(other))
        .max();
    0.5 * 10f64.powi(-if zeros_lost { longest.unwrap() } else { decimals(cell) })
}

/// Density in kg/m³, enthalpy in kJ/kg and entropy in kJ/(kg K), liquid and vapour.
type Phases = [[f64; 3]; 2];

fn phases((liquid, vapour): (Saturated, Saturated)) -> Phases {
    [liquid, vapour].map(|s| [s.density.kg_per_m3(), s.enthalpy.kj_per_kg(), s.entropy.kj_per_kg_k()])
}

fn pick(phases: &Phases, what: What, of: Of) -> f64 {
    let [liquid, vapour] = phases.map(|of_phase| of_phase[what as usize]);
    match of {
        Liquid => liquid,
        Vapour => vapour,
        Both => vapour - liquid,
    }
}

/// As the crate answers.
fn answer(fluid: Refrigerant, t: f64) -> Option<Phases> {
    fluid.saturated_at_temperature(Temperature::from_kelvin(t)).ok().map(phases)
}

/// As the equation of a pure fluid has it; a blend is answered from its equation.
fn exact(fluid: Refrigerant, t: f64) -> Phases {
    if fluid.is_blend() {
        return answer(fluid, t).unwrap();
    }
    let both = Equilibrium::at(&fluid.fluid().equation, Temperature::from_kelvin(t)).unwrap();
    phases((both.liquid().into(), both.vapour().into()))
}

/// Where enthalpy and entropy are counted from.
#[derive(Clone, Copy, PartialEq)]
enum Zero {
    /// As the crate has it.
    Iir,
    /// Zero for the liquid at a temperature in K.
    Liquid(f64),
    /// The first row.
    First,
}

fn zero(table: &Table) -> Zero {
    let columns = table.fact("columns").unwrap();
    if columns.contains("reference IIR") {
        Zero::Iir
    } else if columns.contains("h = 0, s = 0 for saturated liquid at -40 degC") {
        Zero::Liquid(233.15)
    } else {
        Zero::First
    }
}

/// A printed number beside ours; in kg/m³, kJ/kg or kJ/(kg K).
struct Row {
    row: String,
    t: f64,
    printed: f64,
    ours: f64,
    equation: f64,
    rounding: f64,
}

/// One column of one table, or the difference of two.
pub(super) struct Block {
    pub(super) refrigerant: Refrigerant,
    file: String,
    column: String,
    what: What,
    label: String,
    stated: Option<Entered>,
    rows: Vec<Row>,
    /// Rows that are misprinted or empty, and rows so close to the critical point that there is nothing to compare with.
    left_out: (usize, usize),
    /// A row that the others are counted from.
    from: usize,
}

impl Row {
    fn deviation(&self) -> f64 {
        self.printed - self.ours
    }

    /// What the curves may lose: 1e-9 of the density, of 1000 kJ/kg and of 5 kJ/(kg K), which none exceeds; twice for a
    /// difference.
    fn spare(&self, what: What) -> f64 {
        match what {
            Density => 1e-9 * self.ours,
            Enthalpy => 2e-9 * 1000.0,
            Entropy => 2e-9 * 5.0,
        }
    }
}

impl Block {
    /// What one unit of a deviation is here: % of the density, else the unit itself.
    fn scale(&self, row: &Row) -> f64 {
        if self.what == Density { row.ours / 100.0 } else { 1.0 }
    }

    fn unit(&self) -> &'static str {
        unit(self.what)
    }

    fn allowed(&self, row: &Row) -> f64 {
        row.rounding + row.spare(self.what) + self.stated.as_ref().map_or(0.0, |s| s.value * self.scale(row))
    }
}

fn unit(what: What) -> &'static str {
    match what {
        Density => "%",
        Enthalpy => "kJ/kg",
        Entropy => "kJ/(kg K)",
    }
}

/// Whether a `deviates` line is of a column that is compared here.
pub(super) fn is_of_a_phase(table: &Table, fact: &str) -> bool {
    let subject = fact.split(';').next().unwrap().rsplit(' ').next().unwrap();
    STARTS.iter().any(|(start, ..)| subject.starts_with(start)) && table.columns.iter().any(|c| c == subject)
}

fn stated_of(table: &Table, column: &str, what: What) -> Option<Entered> {
    table.facts("deviates").filter(|fact| is_of_a_phase(table, fact)).find_map(|fact| {
        let (head, reason) = fact.split_once(';').unwrap_or_else(|| panic!("{fact}: no reason"));
        let (value, rest) = head.split_once(' ').unwrap();
        let subject = rest.strip_prefix(unit(what))?.trim();
        (subject == column).then(|| Entered {
            printed: value.to_owned(),
            value: value.parse().unwrap(),
            unit: 2.0 * half_unit(value, "as printed"),
            beyond_rounding: true,
            reason: reason.trim().to_owned(),
        })
    })
}

/// One printed number, in the units compared.
struct Cell {
    value: f64,
    half: f64,
}

/// The cells of `column` by row; none where empty or misprinted.
fn cells(table: &Table, column: &Column, misprints: &[Misprint]) -> Vec<Option<Cell>> {
    let at = table.column(&column.name);
    let zeros_lost = table.fact("digits") != Some("as printed");
    let all: Vec<&str> = table.rows.iter().map(|row| row[at].as_str()).filter(|cell| !cell.is_empty()).collect();
    let misprinted = |row: &[String]| misprints.iter().any(|m| m.column == column.name && keyed(row, m));
    let cell = |row: &Vec<String>| {
        let text = row[at].as_str();
        if text.is_empty() || misprinted(row) {
            return None;
        }
        let (value, half) = (text.parse::<f64>().unwrap() * column.unit, half(text, &all, zeros_lost) * column.unit);
        Some(if column.volume {
            Cell { value: 1.0 / value, half: 1.0 / (value - half) - 1.0 / value }
        } else {
            Cell { value, half }
        })
    };
    table.rows.iter().map(cell).collect()
}

/// Whether a misprint is of this row.
fn keyed(row: &[String], misprint: &Misprint) -> bool {
    row[0] == misprint.row || row[1] == misprint.row
}

/// The temperatures by row, in K, with half a unit where they are rounded; none where misprinted.
fn temperatures(table: &Table, misprints: &[Misprint]) -> Vec<Option<(f64, f64)>> {
    let name = temperature_column(table).unwrap();
    let (at, (kelvin, zero)) = (table.column(name), temperature_unit(name));
    let read = |row: &Vec<String>| {
        let text = &row[at];
        let half = match table.fact("entry") {
            Some("temperature") => 0.0,
            _ => half_unit(text, table.fact("tdigits").unwrap()) * kelvin,
        };
        let misprinted = misprints.iter().any(|m| m.column == name && keyed(row, m));
        (!misprinted).then(|| (text.parse::<f64>().unwrap() * kelvin + zero, half))
    };
    table.rows.iter().map(read).collect()
}

/// What is known at a printed temperature.
struct Beside {
    t: f64,
    ours: Phases,
    equation: Phases,
    /// Half a unit of the temperature below and above.
    around: Vec<Phases>,
}

impl Beside {
    fn new(fluid: Refrigerant, (t, half): (f64, f64)) -> Option<Self> {
        // a rounded temperature may stand below the range by its rounding, no further; 1e-9 K: degrees turned into kelvins
        let low = fluid.dew_line().valid.low.kelvin();
        let inside = t.max(low);
        if inside - t > half.max(1e-9) {
            return None;
        }
        let ours = answer(fluid, inside)?;
        let ends = if half > 0.0 { vec![(t - half).max(low), t + half] } else { Vec::new() };
        let around = ends.into_iter().map(|t| answer(fluid, t)).collect::<Option<_>>()?;
        Some(Self { t: inside, ours, equation: exact(fluid, inside), around })
    }

    /// What the rounding of the temperature leaves open.
    fn open(&self, what: What, of: Of) -> f64 {
        let ours = pick(&self.ours, what, of);
        self.around.iter().map(|phases| (pick(phases, what, of) - ours).abs()).fold(0.0, f64::max)
    }
}

/// Every column of a table that the crate can be asked for.
fn compare(file: &str, table: &Table, misprints: &[Misprint]) -> Vec<Block> {
    let fluid = refrigerant(file);
    let columns: Vec<Column> = table.columns.iter().filter_map(|name| Column::new(name, fluid)).collect();
    let known: Vec<Option<Option<Beside>>> =
        temperatures(table, misprints).into_iter().map(|t| t.map(|t| Beside::new(fluid, t))).collect();
    let mut blocks = Vec::new();
    for column in &columns {
        let what = column.what;
        let liquid = columns.iter().find(|c| c.what == what && c.of == Liquid);
        let mut printed = cells(table, column, misprints);
        let (mut of, mut zero) =
            (column.of, if what == Density || column.of == Both { None } else { Some(zero(table)) });
        let mut label = match (what, column.of) {
            (Density, Liquid) => "liquid density",
            (Density, _) => "vapour density",
            (Enthalpy, Liquid) => "liquid enthalpy",
            (Enthalpy, Vapour) => "vapour enthalpy",
            (Enthalpy, Both) => "latent heat, as printed",
            (Entropy, Liquid) => "liquid entropy",
            (Entropy, Vapour) => "vapour entropy",
            (Entropy, Both) => "vapour minus liquid entropy, as printed",
        }
        .to_owned();
        if let (Vapour, Enthalpy | Entropy, Some(liquid)) = (column.of, what, liquid) {
            for (vapour, liquid) in printed.iter_mut().zip(cells(table, liquid, misprints)) {
                *vapour =
                    vapour.take().zip(liquid).map(|(v, l)| Cell { value: v.value - l.value, half: v.half + l.half });
            }
            (of, zero) = (Both, None);
            label = label.replace("vapour", "vapour minus liquid");
        }
        if column.volume {
            label += ", from volume";
        }
        let mut rows = Vec::new();
        let mut left_out = (0, 0);
        for ((row, cell), known) in table.rows.iter().zip(printed).zip(&known) {
            let (Some(cell), Some(known)) = (cell, known) else {
                left_out.0 += 1;
                continue;
            };
            let Some(known) = known else {
                left_out.1 += 1;
                continue;
            };
            rows.push(Row {
                row: row[0].clone(),
                t: known.t,
                printed: cell.value,
                ours: pick(&known.ours, what, of),
                equation: pick(&known.equation, what, of),
                rounding: cell.half + known.open(what, of),
            });
        }
        let mut from = 0;
        match zero {
            None | Some(Zero::Iir) => {}
            Some(Zero::Liquid(t)) => {
                let ours = pick(&answer(fluid, t).unwrap(), what, Liquid);
                let equation = pick(&exact(fluid, t), what, Liquid);
                for row in &mut rows {
                    row.ours -= ours;
                    row.equation -= equation;
                }
            }
            Some(Zero::First) => {
                let first = rows.remove(0);
                from = 1;
                write!(label, ", from {} °C", span(first.t - 273.15, first.t - 273.15)).unwrap();
                for row in &mut rows {
                    row.printed -= first.printed;
                    row.ours -= first.ours;
                    row.equation -= first.equation;
                    row.rounding += first.rounding;
                }
            }
        }
        if rows.is_empty() {
            continue;
        }
        blocks.push(Block {
            refrigerant: fluid,
            file: file.to_owned(),
            column: column.name.clone(),
            what,
            label,
            stated: stated_of(table, &column.name, what),
            rows,
            left_out,
            from,
        });
    }
    blocks
}

/// Every column of every table, by fluid in the order of the catalogue.
pub(super) fn blocks() -> &'static [Block] {
    static BLOCKS: OnceLock<Vec<Block>> = OnceLock::new();
    BLOCKS.get_or_init(|| {
        let files = published();
        let files = files.iter().filter(|file| *file != CORRELATIONS && !CONSTANTS.contains(&file.as_str()));
        let mut blocks: Vec<Block> = files
            .flat_map(|file| {
                let table = read(file);
                compare(file, &table, &misprints(&table))
            })
            .collect();
        blocks.sort_by_key(|block| Refrigerant::ALL.iter().position(|r| *r == block.refrigerant));
        blocks
    })
}

// --- the tests

#[test]
fn every_row_agrees_with_the_answers_and_the_equation() {
    let (mut compared, mut off) = (0, String::new());
    for block in blocks() {
        let mut worst: Option<(f64, &Row)> = None;
        for row in &block.rows {
            let excess = row.deviation().abs().max((row.printed - row.equation).abs()) - block.allowed(row);
            if excess > 0.0 && worst.as_ref().is_none_or(|w| excess / block.scale(row) > w.0) {
                worst = Some((excess / block.scale(row), row));
            }
            let apart = (row.ours - row.equation).abs();
            assert!(apart <= row.spare(block.what), "{}, {} at {} K: {apart}", block.file, block.column, row.t);
            compared += 1;
        }
        if let Some((excess, row)) = worst {
            writeln!(
                off,
                "{}, {} ({}), row {}: printed {:.7}, ours {:.7}, beyond what is allowed by {excess:.9} {}",
                block.file,
                block.column,
                block.label,
                row.row,
                row.printed,
                row.ours,
                block.unit(),
            )
            .unwrap();
        }
    }
    assert!(off.is_empty(), "{off}");
    // a reader that drops rows fails here
    assert_eq!(compared, 14949);
}

#[test]
fn stated_deviations_of_the_phases_are_needed() {
    for file in published() {
        let table = read(&file);
        let stated = table.facts("deviates").filter(|fact| is_of_a_phase(&table, fact)).count();
        let used = blocks().iter().filter(|block| block.file == file && block.stated.is_some()).count();
        assert_eq!(stated, used, "{file}: a deviation of no column, or in the wrong unit");
    }
    for block in blocks() {
        let Some(stated) = &block.stated else { continue };
        // rounded up, so within one unit of the last digit
        let needed = |row: &Row| {
            row.deviation().abs() - row.rounding + row.spare(block.what)
                >= (stated.value - stated.unit) * block.scale(row)
        };
        let name = format!("{}, {}", block.file, block.column);
        assert!(block.rows.iter().any(needed), "{name}: no row deviates by {} {}", stated.value, block.unit());
    }
}

/// A correction agrees and is at least twice as close; older tables deviate by too much for a misprint to stand out alone.
#[test]
fn misprints_of_the_phases_are_better_as_corrected() {
    let mut wrong = 0;
    for file in published().iter().filter(|file| *file != CORRELATIONS && !CONSTANTS.contains(&file.as_str())) {
        let mut table = read(file);
        let all = misprints(&table).len();
        for i in 0..all {
            let mut misprints = misprints(&table);
            let misprint = misprints.remove(i);
            if Column::new(&misprint.column, refrigerant(file)).is_none() {
                continue;
            }
            // to the end, so that it is not the row the others are counted from
            let at = table.rows.iter().position(|row| keyed(row, &misprint)).unwrap();
            let row = table.rows.remove(at);
            table.rows.push(row);
            let cell = table.column(&misprint.column);
            let mut off = |text: &str| {
                table.rows.last_mut().unwrap()[cell] = text.to_owned();
                let blocks = compare(file, &table, &misprints);
                let block = blocks.iter().find(|block| block.column == misprint.column).unwrap();
                let row = block.rows.last().unwrap();
                assert_eq!(row.row, misprint.row, "{file}");
                (row.deviation().abs(), block.allowed(row))
            };
            let at = format!("{file}, misprint {} {}", misprint.row, misprint.column);
            let (printed, _) = off(&misprint.printed);
            let (corrected, allowed) = off(&misprint.correct);
            assert!(corrected <= allowed, "{at}: {} is off too", misprint.correct);
            assert!(2.0 * corrected <= printed, "{at}: {} is hardly off", misprint.printed);
            wrong += 1;
        }
    }
    assert_eq!(wrong, 8, "misprints of the phases");
}

#[test]
fn every_row_of_the_phases_is_compared_or_accounted_for() {
    let mut near_critical = 0;
    for block in blocks() {
        let table = read(&block.file);
        let (named, beyond) = block.left_out;
        assert_eq!(block.rows.len() + named + beyond + block.from, table.rows.len(), "{} {}", block.file, block.column);
        // with temperature printed to 0.01 K and the phases told apart to 0.01 K of the critical point
        assert!(beyond <= 2, "{} {}: {beyond} rows without an answer", block.file, block.column);
        near_critical += beyond;
    }
    assert_eq!(near_critical, 29);
}

/// Columns and numbers compared.
pub(super) fn counts() -> (usize, usize) {
    (blocks().len(), blocks().iter().map(|block| block.rows.len()).sum())
}

/// The part of the page on one fluid.
pub(super) fn page(fluid: Refrigerant) -> String {
    let mut page = String::new();
    for block in blocks().iter().filter(|block| block.refrigerant == fluid) {
        let n = block.rows.len() as f64;
        let size = |row: &Row| row.deviation() / block.scale(row);
        let worst = block.rows.iter().max_by(|a, b| size(a).abs().total_cmp(&size(b).abs())).unwrap();
        let mean = block.rows.iter().map(|row| size(row).abs()).sum::<f64>() / n;
        let decimals = if block.what == Entropy { 6 } else { 4 };
        let stated =
            block.stated.as_ref().map_or("—".to_owned(), |s| format!("{} {}: {}", s.printed, block.unit(), s.reason));
        let at = rounded(worst.t, 3) - 273.15;
        let signed = format!("{:+.decimals$}", rounded(size(worst), decimals)).replace('-', "−");
        writeln!(
            page,
            "| [`{0}`](published/{0}) | {1} | {2} | {signed} {3} | {4} | {mean:.decimals$} {3} | {stated} |",
            block.file,
            block.label,
            block.rows.len(),
            block.unit(),
            span(at, at),
        )
        .unwrap();
    }
    if page.is_empty() {
        return page;
    }
    format!("\n| file | property | rows | worst | at, °C | mean | stated |\n|---|---|---|---|---|---|---|\n{page}")
}
