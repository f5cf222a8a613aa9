//! The model of the car's loop against what others measured and printed: what it hits, what it misses, and why.
//!
//! Every chapter asks the model under the conditions a source states, or under conditions assumed and said so, and keeps
//! the answers beside the print in `tables/system/CHECKS.md`. A miss stays a miss: no size of the model is set by it, but for one range that the page names. What a
//! chapter reached is asserted, so that a change for the worse shows.

use std::fmt::Write as _;

use satline::circuit::{
    Circuit, CircuitKind, CompressorKind, Control, EngineSpeed, ExpansionKind, Intake, Motion, OperatingPoint,
    Population, Settings, SteadyState,
};
use satline::quantity::Quantity as _;
use satline::{Pressure, Ratio, Refrigerant, Temperature};

use crate::support::{Table, same_as_file};

mod drop_in;
mod faults;
mod other_effects;
mod r744_high_side;
mod set_points;
mod shaft_power;
mod test_points;
mod vent;

/// One printed value beside the model.
struct Row {
    source: String,
    conditions: String,
    printed: String,
    model: String,
    verdict: Verdict,
    /// Physics of a miss, or what bears on the row.
    why: String,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Verdict {
    /// The model agrees as the chapter asks.
    Holds,
    /// It does not.
    Misses,
    /// Nothing printed to hold against it, or not to be counted.
    Noted,
}

impl Verdict {
    fn of(holds: bool) -> Self {
        if holds { Self::Holds } else { Self::Misses }
    }

    fn word(self) -> &'static str {
        match self {
            Self::Holds => "holds",
            Self::Misses => "**misses**",
            Self::Noted => "not counted",
        }
    }
}

/// Rows asked in one way.
struct Chapter {
    title: &'static str,
    /// How the model was asked, what is assumed.
    text: String,
    /// What the column of the model holds.
    model: &'static str,
    rows: Vec<Row>,
    /// What was reached, and the bar beside it.
    reached: Vec<String>,
}

impl Chapter {
    /// Every miss says why.
    fn explained(&self) {
        for row in self.rows.iter().filter(|row| row.verdict == Verdict::Misses) {
            assert!(row.why.len() > 20, "{}, {}: a miss without a reason", row.source, row.conditions);
        }
    }
}

/// Rows that hold, and rows that count.
fn count(rows: &[Row], some: impl Fn(&Row) -> bool) -> (usize, usize) {
    let counted = rows.iter().filter(|row| some(row) && row.verdict != Verdict::Noted);
    counted.fold((0, 0), |(hold, all), row| (hold + usize::from(row.verdict == Verdict::Holds), all + 1))
}

/// "7 of 9 rows (78 %)".
fn share((hold, all): (usize, usize)) -> String {
    format!("{hold} of {all} rows ({:.0} %)", 100.0 * hold as f64 / all as f64)
}

// --- cars

/// Cars of one kind asked in a chapter. Of a quarter as many the ends of a band are not drawn: the vents of 64 cars in all lie
/// 10.1 to 13.0 °C where those of 1024 lie 8.0 to 14.7.
const CARS: u64 = 128;

/// Cars of each kind where several are asked together.
const EACH: u64 = 64;

fn cars(kind: CircuitKind) -> impl Iterator<Item = Circuit> {
    some_cars(kind, CARS)
}

fn some_cars(kind: CircuitKind, many: u64) -> impl Iterator<Item = Circuit> {
    let population = Population::new(kind).unwrap();
    (0..many).map(move |index| population.circuit(index))
}

/// Cars of several kinds, all counting the same.
fn cars_of(kinds: Vec<CircuitKind>) -> impl Iterator<Item = Circuit> {
    kinds.into_iter().flat_map(|kind| some_cars(kind, EACH))
}

/// Cars of the main kinds of `refrigerant`.
fn cars_of_main(refrigerant: Refrigerant) -> impl Iterator<Item = Circuit> {
    cars_of(CircuitKind::main(refrigerant))
}

fn kind(refrigerant: Refrigerant, compressor: CompressorKind, expansion: ExpansionKind) -> CircuitKind {
    CircuitKind { refrigerant, compressor, expansion, internal_exchanger: false, rear_evaporator: false }
}

/// As on a bench: the air over the condenser is held, and none of it comes back.
fn on_bench(mut car: Circuit) -> Circuit {
    car.condenser_air.fan_low = 1.0;
    car.condenser_air.recirculated = 0.0;
    car
}

/// The compressor never held back: the clutch stays closed, the stroke full.
fn let_go(mut car: Circuit) -> Circuit {
    car.control = Control::Thermostat { cut_out_k: 150.0, cut_in_k: 153.0 };
    car
}

fn day(celsius: f64, humidity_percent: f64, running: Settings) -> OperatingPoint {
    OperatingPoint {
        ambient: Temperature::from_celsius(celsius),
        humidity: Ratio::from_percent(humidity_percent),
        air: Pressure::STANDARD_ATMOSPHERE,
        running,
    }
}

/// Standing, blower at its highest.
fn standing(engine: EngineSpeed, intake: Intake) -> Settings {
    Settings { engine, motion: Motion::Standing, intake, blower: Ratio::from_fraction(1.0) }
}

/// Driving, fresh air, blower at its highest.
fn driving(km_per_h: f64, rpm: f64) -> Settings {
    Settings {
        engine: EngineSpeed::Rpm(rpm),
        motion: Motion::Driving(km_per_h),
        intake: Intake::Fresh,
        blower: Ratio::from_fraction(1.0),
    }
}

/// The steady state; none where no balance was found. Anything else that goes wrong is a mistake of the check.
fn run(car: &Circuit, operation: &OperatingPoint) -> Option<SteadyState> {
    match car.run(operation) {
        Ok(state) => Some(state),
        Err(satline::Error::NotConverged { .. }) => None,
        Err(error) => panic!("{error}"),
    }
}

// --- values of many cars

/// One quantity over many cars, sorted.
struct Band {
    sorted: Vec<f64>,
    /// Cars without a value.
    missing: usize,
}

impl Band {
    fn of(values: impl IntoIterator<Item = Option<f64>>) -> Self {
        let (mut sorted, mut missing) = (Vec::new(), 0);
        for value in values {
            match value {
                Some(value) if value.is_finite() => sorted.push(value),
                _ => missing += 1,
            }
        }
        sorted.sort_by(f64::total_cmp);
        Self { sorted, missing }
    }

    /// Not a number where no car has a value, which then lies in no range.
    fn at(&self, share: f64) -> f64 {
        if self.sorted.is_empty() {
            return f64::NAN;
        }
        let place = share * (self.sorted.len() - 1) as f64;
        let (below, part) = (place.floor() as usize, place.fract());
        let above = (below + 1).min(self.sorted.len() - 1);
        self.sorted[below] + part * (self.sorted[above] - self.sorted[below])
    }

    fn low(&self) -> f64 {
        self.at(0.05)
    }

    fn middle(&self) -> f64 {
        self.at(0.5)
    }

    fn high(&self) -> f64 {
        self.at(0.95)
    }

    fn contains(&self, value: f64) -> bool {
        (self.low()..=self.high()).contains(&value)
    }

    fn share(&self, which: impl Fn(f64) -> bool) -> f64 {
        self.sorted.iter().filter(|x| which(**x)).count() as f64 / self.sorted.len() as f64
    }

    /// "1.2 · 3.4 · 5.6", and how many are missing.
    fn text(&self, decimals: usize) -> String {
        if self.sorted.is_empty() {
            return format!("no value ({} missing)", self.missing);
        }
        let [a, b, c] = [self.low(), self.middle(), self.high()].map(|x| number(x, decimals));
        let missing = if self.missing > 0 { format!(" ({} missing)", self.missing) } else { String::new() };
        format!("{a} · {b} · {c}{missing}")
    }
}

/// With a minus sign that is one.
fn number(value: f64, decimals: usize) -> String {
    let text = format!("{value:.decimals$}");
    // −0.0 is 0.0
    let zero = text.trim_start_matches('-').bytes().all(|b| b == b'0' || b == b'.');
    if zero { text.trim_start_matches('-').to_owned() } else { text.replace('-', "−") }
}

fn percent(new: f64, old: f64) -> f64 {
    100.0 * (new / old - 1.0)
}

// --- the page

const HEAD: &str = "\
# The circuit model against measurements

Made by `tests/circuit_checks.rs`; do not edit. How far the computed window and makers' tables of pressures agree is not told
here. Here are the other things that were measured or printed: one refrigerant against another, capacity and power, set
points, vents, faults.

- **5 · 50 · 95** are the values below which 5, 50 and 95 % of the circuits of a kind lie, *missing* circuits without a steady state.
- **Cars** are those of `Population`: sizes from ranges, the same for every row. One range was set by rows of this page: the
  fall of volumetric efficiency with speed, by the two slopes of shaft power. That heat transfer and losses follow the refrigerant was added
  after the rows of R-1234yf had shown the lack of it, from equations that know nothing of those rows.
- **holds**, **misses** as each chapter says; *not counted* are rows that nothing printed can be held against, or whose
  source says too little. A row that misses says why, as far as it is known.
- Most sources are abstracts or makers' remarks that leave out nearly every condition; what was assumed stands in the row.
";

fn page() -> String {
    let mut page = String::from(HEAD);
    for chapter in chapters() {
        write!(page, "\n## {}\n\n{}\n\n", chapter.title, chapter.text).unwrap();
        writeln!(page, "| source | conditions | printed | {} | | why, or what to know |", chapter.model).unwrap();
        page += "|---|---|---|---|---|---|\n";
        for row in &chapter.rows {
            writeln!(
                page,
                "| {} | {} | {} | {} | {} | {} |",
                row.source,
                row.conditions,
                row.printed,
                row.model,
                row.verdict.word(),
                row.why
            )
            .unwrap();
        }
        page += "\n";
        for line in &chapter.reached {
            writeln!(page, "- {line}").unwrap();
        }
    }
    page
}

fn chapters() -> [&'static Chapter; 8] {
    [
        &drop_in::CHAPTER,
        &r744_high_side::CHAPTER,
        &shaft_power::CHAPTER,
        &vent::CHAPTER,
        &set_points::CHAPTER,
        &faults::CHAPTER,
        &other_effects::CHAPTER,
        &test_points::CHAPTER,
    ]
}

#[test]
fn the_page_of_checks_is_up_to_date() {
    same_as_file("tables/system/CHECKS.md", &page());
}

#[test]
fn every_miss_has_its_reason() {
    for chapter in chapters() {
        chapter.explained();
    }
}

/// What the chapters hold against the model stands in the tables, in these words.
#[test]
fn the_prints_are_those_of_the_tables() {
    let rows = [
        ("measured-relative.csv", vec!["up to -4.0 %,up to -2.7 %,-6.5 C"]),
        ("measured-relative.csv", vec!["-13.7 % mean,-12.8 % mean", "-13.6 % approx", "-20.1 % approx"]),
        ("measured-systems.csv", vec!["R11,", "+4.84 % / +3.17 %,+11 % / +7.18 %,-6.05 % / -4.18 %"]),
        ("measured-systems.csv", vec!["R12,", "-21 %", "-34 %", "R04,", ",1.5-2.85,", "up to 6.4,up to 2.5"]),
        (
            "measured-systems.csv",
            vec!["valve slightly higher,valve slightly higher", "fixed: keeps rising,variable higher"],
        ),
        ("r744-high-side.csv", vec!["p = 2.6 * t_ambient + 7.54", "p = 2.68 * t_gas_cooler_out - 6.797"]),
        ("r744-high-side.csv", vec!["(2.778 - 0.0157 * t_evap) * t_gas_cooler_out + (0.381 * t_evap - 9.34)"]),
        ("r744-high-side.csv", vec!["4.9 + 2.256 * t_gas_cooler_out - 0.17 * t_evap + 0.002 * t_gas_cooler_out^2"]),
        (
            "components-published.csv",
            vec!["within 0.1 bar at tc 35, 0.5 at 40, 2.1 at 45, 4.8 at 50", "1.5-11 bar below"],
        ),
        ("components-published.csv", vec!["within 6.6 bar", "condensing temperature minus ambient,19 to 22,K"]),
        ("components-published.csv", vec!["held by variable compressor,3 to 4,C", "(about 1 bar gauge)", "about -7 C"]),
        ("components.csv", vec!["gas entering the condenser,70-110"]),
        ("faults-measured.csv", vec!["-8.16 %", "-16.8 %", "about 20 inHg vacuum", "about 120 psi", "at most 294 kPa"]),
        ("measured-faults.csv", vec!["0,%,high side,165,", "7.7,%,high side,200,", "18.9,%,high side,400,"]),
        ("measured-faults.csv", vec!["0,%,low side,32,", "7.7,%,low side,31,", "18.9,%,low side,45,"]),
        (
            "measured-faults.csv",
            vec!["differential,38,", "differential,65,", "differential,102,", "vent temperature,+8,"],
        ),
        ("fault-readings.csv", vec!["-40 % of optimum (500 g)", "low side,0.05 - 0.1,", "high side,0.69 - 0.98,"]),
        (
            "fault-readings.csv",
            vec!["high side,0.5 - 0.6,", "normal 1.37-1.57", "high 1.13-1.56", "low side,0.4 - 0.6,"],
        ),
    ];
    for (file, words) in rows {
        let text = std::fs::read_to_string(crate::support::root().join("tables/system").join(file)).unwrap();
        for word in words {
            assert!(text.contains(word), "{file} does not print {word:?}");
        }
    }
}
