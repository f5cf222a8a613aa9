//! The computed window against makers' and government ladders, row by row: `tables/WINDOWS.md`.

use std::fmt::Write;

use approx::abs_diff_eq;
use satline::circuit::{
    CircuitKind, CompressorKind, Conditions, EngineSpeed, ExpansionKind, Intake, Motion, OperatingPoint, Population,
    Settings,
};
use satline::expected::{AirPlace, Authority, Chart, ExpectedWindow, Quantiles, UNKNOWN_HUMIDITY, charts};
use satline::inspection::Measurand;
use satline::{GaugePressure, Pressure, Quantity, Range, Ratio, Refrigerant, Temperature};

use crate::support::{Table, same_as_file, same_block};

/// How the cars behind a ladder were run, as far as it is known.
pub struct Test {
    pub ladder: &'static str,
    /// Whether these are cars run as the source says.
    pub stated: bool,
    pub settings: Settings,
    pub kinds: fn() -> Vec<CircuitKind>,
    taken: &'static str,
    misses: &'static str,
}

pub const fn run(engine: EngineSpeed, intake: Intake, blower_percent: f64) -> Settings {
    Settings { engine, motion: Motion::Standing, intake, blower: Ratio::from_percent(blower_percent) }
}

const AT_1000: EngineSpeed = EngineSpeed::Rpm(1000.0);
pub const AT_1500: EngineSpeed = EngineSpeed::Rpm(1500.0);
const AT_2000: EngineSpeed = EngineSpeed::Rpm(2000.0);
const WINDOW_10: Intake = Intake::WindowOpen { minutes: Some(10) };
const SHUT_5: Intake = Intake::Shut { minutes: Some(5) };

fn kind(refrigerant: Refrigerant, compressor: CompressorKind, expansion: ExpansionKind) -> CircuitKind {
    let internal_exchanger = refrigerant == Refrigerant::R1234yf;
    CircuitKind { refrigerant, compressor, expansion, internal_exchanger, rear_evaporator: false }
}

fn with_valve(refrigerant: Refrigerant, compressors: &[CompressorKind]) -> Vec<CircuitKind> {
    compressors.iter().map(|compressor| kind(refrigerant, *compressor, ExpansionKind::ThermostaticValve)).collect()
}

fn variable() -> Vec<CircuitKind> {
    with_valve(Refrigerant::R134a, &[CompressorKind::Internal, CompressorKind::External])
}

fn internal() -> Vec<CircuitKind> {
    with_valve(Refrigerant::R134a, &[CompressorKind::Internal])
}

fn cycling_valve() -> Vec<CircuitKind> {
    with_valve(Refrigerant::R134a, &[CompressorKind::Cycling])
}

fn any_valve() -> Vec<CircuitKind> {
    [cycling_valve(), variable()].concat()
}

fn orifice() -> CircuitKind {
    kind(Refrigerant::R134a, CompressorKind::Cycling, ExpansionKind::OrificeTube)
}

/// Half of the cars with a rear evaporator.
fn orifice_and_rear() -> Vec<CircuitKind> {
    vec![orifice(), CircuitKind { rear_evaporator: true, ..orifice() }]
}

pub const TESTS: [Test; 12] = [
    Test {
        ladder: "car-2010-a",
        stated: true,
        settings: run(EngineSpeed::Idle, WINDOW_10, 100.0),
        kinds: variable,
        taken: "variable compressor with internal or external control, thermostatic valve; idle, recirculation, doors shut and \
                windows open, 10 min, as printed",
        misses: "",
    },
    Test {
        ladder: "car-2009-b",
        stated: true,
        settings: run(EngineSpeed::Idle, WINDOW_10, 100.0),
        kinds: variable,
        taken: "as car-2010-a, by the same maker; the page with its conditions was not read",
        misses: "At 30 °C this car is 50 kPa above the same maker's of 2010, and 18 kPa above the window.",
    },
    Test {
        ladder: "yf-a",
        stated: true,
        settings: run(EngineSpeed::Idle, WINDOW_10, 100.0),
        kinds: || with_valve(Refrigerant::R1234yf, &[CompressorKind::Internal, CompressorKind::External]),
        taken: "variable compressor with internal or external control, thermostatic valve, internal exchanger; idle, \
                recirculation, doors shut and windows open, 10 min, as printed",
        misses: "",
    },
    Test {
        ladder: "truck-2003",
        stated: true,
        settings: run(EngineSpeed::Idle, Intake::Fresh, 100.0),
        kinds: orifice_and_rear,
        taken: "orifice tube and cycling clutch, half of the trucks with a rear evaporator (from memory for this maker's large \
                trucks); idle and fresh air, as the maker's vans of 2002 are tested: vent mode, driver's window a hand open",
        misses: "The dry rows: the model takes the whole benefit of dry air, the print only a part.",
    },
    Test {
        ladder: "car-2003",
        stated: true,
        settings: run(AT_2000, Intake::DoorsOpen, 75.0),
        kinds: internal,
        taken: "variable compressor with internal control, thermostatic valve; 2000 rpm, recirculation, doors and windows open, \
                blower at the third of four speeds, taken as three quarters (from memory), as the maker's charts of the same \
                names are read on a sister car",
        misses: "",
    },
    Test {
        ladder: "offroad-a",
        stated: true,
        settings: run(AT_1500, Intake::Fresh, 100.0),
        kinds: cycling_valve,
        taken: "thermostatic valve and cycling clutch; 1500 rpm, fresh air, as printed",
        misses: "The high side stands 42 K over ambient at 22 °C, twice what offroad-b on the same page allows. No car with \
                 its fan running does that on a mild day.",
    },
    Test {
        ladder: "loader-tm5",
        stated: false,
        settings: run(AT_1000, Intake::DoorsOpen, 100.0),
        kinds: || vec![cycling_valve()[0], orifice()],
        taken: "a wheel loader: valve or orifice tube, 1000 rpm, the door of the cab open",
        misses: "Not a car: the low side stays at 1.0 to 1.5 bar up to 43 °C, so the compressor is large for its cab and \
                 cycles on the hottest day. It is also read as the clutch opens.",
    },
    Test {
        ladder: "L03",
        stated: true,
        settings: run(AT_1000, SHUT_5, 100.0),
        kinds: orifice_and_rear,
        taken: "orifice tube and cycling clutch (from memory), half with the optional rear evaporator; 1000 rpm, recirculation, \
                doors and windows shut, as printed; 5 min, as L10 of the same maker",
        misses: "",
    },
    Test {
        ladder: "L08",
        stated: true,
        settings: run(EngineSpeed::Idle, Intake::DoorsOpen, 100.0),
        kinds: cycling_valve,
        taken: "thermostatic valve and cycling clutch (compressor printed, of fixed displacement); idle and doors open, as the \
                excerpt does not say",
        misses: "",
    },
    Test {
        ladder: "L09",
        stated: true,
        settings: run(AT_1500, WINDOW_10, 100.0),
        kinds: any_valve,
        taken: "thermostatic valve, any compressor, as the page does not say; 1500 rpm, recirculation, doors shut and driver's \
                window open, 10 min, as printed",
        misses: "Both sides are those of air at the evaporator as warm and damp as outside: with the doors open all three low sides \
                 and all three high sides would be inside. One window here exchanges more than the 55 to 380 m³/h of the population.",
    },
    Test {
        ladder: "L10",
        stated: true,
        settings: run(AT_1000, SHUT_5, 100.0),
        kinds: cycling_valve,
        taken: "thermostatic valve and cycling clutch (the page says that it may cycle); 1000 rpm, recirculation, doors and \
                windows shut, 5 min, as printed",
        misses: "The high side stands 33 to 36 K over ambient at every ambient, at 21 °C with a clutch that cycles: it is to be read \
                 with the clutch engaged, where the model has the mean over the cycle. From 32 °C the low side is 5 to 20 kPa \
                 above the window: this car draws more heat, or more damp air, into its shut cabin than the population does.",
    },
    Test {
        ladder: "L11",
        stated: true,
        settings: run(AT_2000, Intake::DoorsOpen, 75.0),
        kinds: internal,
        taken: "as car-2003, by the same maker",
        misses: "",
    },
];

/// Kinds and settings of the cars behind `ladder`; `None` if its test is not known.
pub fn cars_behind(ladder: &str) -> Option<(Vec<CircuitKind>, Settings)> {
    TESTS.iter().find(|test| test.ladder == ladder).map(|test| ((test.kinds)(), test.settings))
}

/// Charts that are not compared, and why.
const LEFT_OUT: [(&str, &str); 1] = [(
    "offroad-b",
    "it contradicts offroad-a on the same page, so that one of the two is wrong, and its conditions are not printed there: 17 K of condensing over ambient at 38 °C \
     against 44 K",
)];

/// Highest vent that truck-2003 allows, °C, row by row; the last is cut off (its chart names them in a note).
const TRUCK_VENTS: [f64; 9] = [12.0, 14.0, 16.0, 17.0, 18.0, 20.0, 21.0, 22.0, 24.0];

/// Vent temperature as printed: a range, or the highest allowed.
#[derive(Clone, Copy)]
pub enum Vent {
    Between(f64, f64),
    AtMost(f64),
}

/// One row of a ladder; pressures in kPa gauge, lowest and highest.
pub struct Row {
    ambient: Temperature,
    humidity: Option<Ratio>,
    pub low: Option<(f64, f64)>,
    pub high: Option<(f64, f64)>,
    pub vent: Option<Vent>,
}

pub struct Ladder {
    pub id: String,
    source: String,
    system: String,
    pub rows: Vec<Row>,
}

/// A row for every humidity is a row for none.
fn one_humidity(range: Option<Range<Ratio>>) -> Option<Ratio> {
    range.filter(|h| h.high - h.low < Ratio::from_percent(90.0)).map(|h| h.at(0.5))
}

fn of_chart(chart: &Chart) -> Ladder {
    let kpa = |range: Option<Range<GaugePressure>>| range.map(|r| (r.low.kpa(), r.high.kpa()));
    let row = |(index, row): (usize, &satline::expected::ChartRow)| {
        let printed = row.vent.map(|vent| Vent::Between(vent.low.celsius(), vent.high.celsius()));
        let in_note = TRUCK_VENTS.get(index).filter(|_| chart.id == "truck-2003").map(|most| Vent::AtMost(*most));
        Row {
            ambient: row.air.at(0.5),
            humidity: one_humidity(row.humidity),
            low: kpa(row.low),
            high: kpa(row.high),
            vent: printed.or(in_note),
        }
    };
    Ladder {
        id: chart.id.to_owned(),
        source: chart.source.to_string(),
        system: chart.system.to_owned(),
        rows: chart.rows.iter().enumerate().map(row).collect(),
    }
}

/// The ladders of `tables/windows/ladders.csv`.
fn second_collection() -> Vec<Ladder> {
    let table = Table::read("windows/ladders.csv");
    assert_eq!(table.rows.len(), 15, "rows were lost or added");
    let sources: Vec<(&str, &str)> = table.facts("source").filter_map(|fact| fact.split_once(' ')).collect();
    let parse = |row: &[String]| {
        let text = |name: &str| row[table.column(name)].as_str();
        let number = |name: &str| text(name).parse::<f64>().ok();
        let celsius = |unit: &str, value: f64| match text(unit) {
            "degF" => Temperature::from_fahrenheit(value).celsius(),
            "degC" => value,
            other => panic!("{other}"),
        };
        let kpa = |value: f64| match text("pressure_unit") {
            "psi gauge" => GaugePressure::from_psi(value).kpa(),
            "kPa gauge" => value,
            other => panic!("{other}"),
        };
        let side = |low, high| Some((kpa(number(low)?), kpa(number(high)?)));
        assert_eq!((text("refrigerant"), text("air_place")), ("R-134a", "ambient"));
        assert_eq!(text("air_min"), text("air_max"));
        let vent = |name| number(name).map(|value| celsius("vent_unit", value));
        Row {
            ambient: Temperature::from_celsius(celsius("air_unit", number("air_min").unwrap())),
            humidity: number("rh_min").zip(number("rh_max")).map(|(low, high)| Ratio::from_percent(0.5 * (low + high))),
            low: side("low_min", "low_max"),
            high: side("high_min", "high_max"),
            vent: match (vent("vent_min"), vent("vent_max")) {
                (Some(low), Some(high)) => Some(Vent::Between(low, high)),
                (None, Some(high)) => Some(Vent::AtMost(high)),
                _ => None,
            },
        }
    };
    let of = |(id, source): (&str, &str)| Ladder {
        id: id.to_owned(),
        source: source.to_owned(),
        system: "`windows/ladders.csv`".to_owned(),
        rows: table.rows.iter().filter(|row| row[0] == id).map(|row| parse(row)).collect(),
    };
    sources.into_iter().map(of).collect()
}

pub fn ladders() -> Vec<Ladder> {
    let printed = charts::ALL
        .iter()
        .filter(|chart| chart.authority == Authority::Ladder && chart.air == AirPlace::Ambient)
        .filter(|chart| chart.rows.iter().any(|row| row.low.is_some() || row.high.is_some()));
    printed.map(of_chart).chain(second_collection()).collect()
}

/// A side of one row, kPa.
#[derive(Clone, Copy)]
struct Side {
    printed: (f64, f64),
    computed: [f64; 3],
}

impl Side {
    fn new<Q: Quantity>(printed: (f64, f64), cars: &Quantiles<Q>, shown: fn(Q) -> f64) -> Self {
        let [low, _, middle, _, high] = cars.five();
        Self { printed, computed: [low, middle, high].map(shown) }
    }

    fn middle(&self) -> f64 {
        0.5 * (self.printed.0 + self.printed.1)
    }

    fn inside(&self) -> bool {
        (self.computed[0]..=self.computed[2]).contains(&self.middle())
    }

    fn cell(&self) -> String {
        let [low, middle, high] = self.computed;
        let mark = if self.inside() { "in" } else { "**out**" };
        format!("{:.0} | {low:.0} {middle:.0} {high:.0} | {mark}", self.middle())
    }
}

/// The vent of one row.
struct VentRow {
    printed: Vent,
    computed: [f64; 3],
}

impl VentRow {
    /// The middle of what is printed in the window; the highest allowed, not below the middle car.
    fn inside(&self) -> bool {
        let [low, middle, high] = self.computed;
        match self.printed {
            Vent::Between(from, to) => (low..=high).contains(&(0.5 * (from + to))),
            Vent::AtMost(most) => middle <= most,
        }
    }

    fn cell(&self) -> String {
        let [low, middle, high] = self.computed;
        let mark = if self.inside() { "in" } else { "**out**" };
        let printed = match self.printed {
            Vent::Between(from, to) => format!("{:.1}", 0.5 * (from + to)),
            Vent::AtMost(most) => format!("≤ {most:.1}"),
        };
        format!("{printed} | {low:.1} {middle:.1} {high:.1} | {mark}")
    }
}

#[derive(Default)]
struct Count {
    inside: usize,
    of: usize,
}

impl Count {
    fn add(&mut self, inside: bool) {
        self.inside += usize::from(inside);
        self.of += 1;
    }
    fn share(&self) -> f64 {
        self.inside as f64 / self.of as f64
    }
    fn line(&self, what: &str, bar: &str) -> String {
        format!("| {what} | {} | {} | {:.0} % | {bar} |\n", self.inside, self.of, 100.0 * self.share())
    }
}

/// What one side of the printed rows of a ladder lies off the population: ln p(printed) less the mean of ln p, and the standard
/// deviation of the population.
type Missed = Vec<(f64, f64)>;

/// Mean and standard deviation over the circuits of the logarithm of either absolute pressure.
fn bare(kinds: &[CircuitKind], day: &Conditions) -> [(f64, f64); 2] {
    let each = 256usize.div_ceil(kinds.len());
    let mut logs = [Vec::new(), Vec::new()];
    for kind in kinds {
        let cars = Population::new(*kind).unwrap();
        for index in 0..each {
            let unknown = UNKNOWN_HUMIDITY.value.at((index as f64 + 0.5) / each as f64);
            let humidity = day.humidity.unwrap_or(unknown);
            let operation = OperatingPoint { ambient: day.ambient, humidity, air: day.air, running: day.settings };
            let Ok(state) = cars.circuit(index as u64).run(&operation) else { continue };
            for (logs, gauge) in logs.iter_mut().zip([state.low_side, state.high_side]) {
                logs.push(gauge.absolute(day.air).pa().ln());
            }
        }
    }
    logs.map(|logs| {
        let mean = logs.iter().sum::<f64>() / logs.len() as f64;
        let variance = logs.iter().map(|log| (log - mean).powi(2)).sum::<f64>() / logs.len() as f64;
        (mean, variance.sqrt())
    })
}

/// Half of nine tenths of a normal distribution.
const HALF: f64 = 1.645;

/// Whether a row lies in the middle nine tenths of the population with the discrepancy `sigma`.
fn covers(sigma: f64, (off, deviation): (f64, f64)) -> bool {
    off.abs() <= HALF * deviation.hypot(sigma)
}

/// The least discrepancy with which nine tenths of all rows lie in the middle nine tenths. A normal discrepancy of the greatest
/// likelihood would be smaller and promise too much, as a few ladders lie far off.
fn covering<'a>(ladders: impl Iterator<Item = &'a Missed> + Clone) -> f64 {
    let rows: Vec<(f64, f64)> = ladders.flatten().copied().collect();
    let enough = |sigma: f64| 10 * rows.iter().filter(|row| covers(sigma, **row)).count() >= 9 * rows.len();
    (0..200).map(|step| 0.0025 * f64::from(step)).find(|sigma| enough(*sigma)).unwrap()
}

/// The page's section on the discrepancy, from the ladders of cars; and the shares inside with each ladder left out of its estimate.
fn discrepancy(names: &[&str], missed: &[[Missed; 2]]) -> (String, [Count; 2]) {
    let mut page = String::from(
        "\n## Discrepancy\n\nWhat the population does not explain: the least σ of ln p with which nine tenths of the rows lie in \
         the middle nine tenths of a normal distribution of variance s² + σ² about the population, ladders of cars together. The windows and the diagnosis hold it. Each ladder is then \
         judged with what the others say alone.\n\n\
         | ladder | σ low side, from the others | inside | σ high side, from the others | inside |\n|---|---|---|---|---|\n",
    );
    let mut counts = [Count::default(), Count::default()];
    for (out, name) in names.iter().enumerate() {
        let _ = write!(page, "| {name}");
        for side in 0..2 {
            let others = missed.iter().enumerate().filter(|(i, _)| *i != out).map(|(_, sides)| &sides[side]);
            let sigma = covering(others);
            let rows = &missed[out][side];
            let inside = rows.iter().filter(|row| covers(sigma, **row)).count();
            (0..rows.len()).for_each(|row| counts[side].add(row < inside));
            let _ = write!(page, " | {sigma:.4} | {inside} of {}", rows.len());
        }
        page += " |\n";
    }
    let used = [Measurand::LowSide, Measurand::HighSide].map(Measurand::model_uncertainty);
    let found: [f64; 2] = std::array::from_fn(|side| covering(missed.iter().map(|sides| &sides[side])));
    let [low, high] = &counts;
    let _ = writeln!(
        page,
        "\nFrom all of them {:.4} and {:.4}; the crate holds {} and {}. Left out one at a time, {} of {} rows are inside on the low side, {} of \
         {} on the high side (bar: 85 %).",
        found[0], found[1], used[0], used[1], low.inside, low.of, high.inside, high.of
    );
    for (found, used) in found.into_iter().zip(used) {
        // held with two decimals, found in steps of 0.0025
        assert!(abs_diff_eq!(found, used, epsilon = 0.02), "{found} covers, {used} is held");
    }
    (page, counts)
}

/// A computed row.
struct Compared {
    day: Conditions,
    low: Side,
    high: Side,
    vent: Option<VentRow>,
}

pub fn day(row: &Row, settings: Settings) -> Conditions {
    Conditions { ambient: row.ambient, humidity: row.humidity, air: Pressure::STANDARD_ATMOSPHERE, settings }
}

fn vent_of(window: &ExpectedWindow) -> [f64; 3] {
    let [low, _, middle, _, high] = window.temperature(Measurand::Vent).unwrap().five();
    [low, middle, high].map(|t| t.celsius())
}

fn compared(row: &Row, test: &Test) -> Compared {
    let day = day(row, test.settings);
    let window = ExpectedWindow::for_kinds(&(test.kinds)(), &day).unwrap();
    assert_eq!(window.missing, 0, "{} at {:?}", test.ladder, day.ambient);
    Compared {
        low: Side::new(row.low.unwrap(), &window.low_side, |p| p.kpa()),
        high: Side::new(row.high.unwrap(), &window.high_side, |p| p.kpa()),
        vent: row.vent.map(|printed| VentRow { printed, computed: vent_of(&window) }),
        day,
    }
}

fn off_population(rows: &[Compared], test: &Test) -> [Missed; 2] {
    let mut missed = [Missed::new(), Missed::new()];
    for row in rows {
        let population = bare(&(test.kinds)(), &row.day);
        for ((missed, side), (mean, deviation)) in missed.iter_mut().zip([&row.low, &row.high]).zip(population) {
            let printed = GaugePressure::from_kpa(side.middle()).absolute(row.day.air).pa().ln();
            missed.push((printed - mean, deviation));
        }
    }
    missed
}

fn humidity_text(day: &Conditions) -> String {
    day.humidity.map_or("any".to_owned(), |h| format!("{:.0}", h.percent()))
}

/// The section of one ladder.
fn section(ladder: &Ladder, test: &Test, rows: &[Compared]) -> String {
    let mut page = format!(
        "\n## {}\n\n{}. {}. Taken as: {}.\n\n\
         | ambient °C | humidity % | low printed | computed | | high printed | computed | | vent printed | computed | |\n\
         |---|---|---|---|---|---|---|---|---|---|---|\n",
        ladder.id, ladder.source, ladder.system, test.taken
    );
    for row in rows {
        let vent = row.vent.as_ref().map_or(" | | ".to_owned(), VentRow::cell);
        let (ambient, humidity) = (row.day.ambient.celsius(), humidity_text(&row.day));
        let _ = writeln!(page, "| {ambient:.1} | {humidity} | {} | {} | {vent} |", row.low.cell(), row.high.cell());
    }
    if !test.misses.is_empty() {
        let _ = writeln!(page, "\n{}", test.misses);
    }
    page
}

/// Slopes between two rows, printed and computed, kPa for the whole step.
#[derive(Default)]
struct Slopes {
    page: String,
    by_ambient: Count,
    by_humidity: Count,
    high_per_kelvin: Vec<(f64, f64)>,
}

impl Slopes {
    fn one(page: &mut String, what: &str, a: &Side, b: &Side, count: &mut Count) -> (f64, f64) {
        let (printed, computed) = (b.middle() - a.middle(), b.computed[1] - a.computed[1]);
        // within 30 % of the ladder's, or both smaller than what a gauge shows
        let alike =
            (computed - printed).abs() <= 0.3 * printed.abs() || (printed.abs() < 15.0 && computed.abs() < 15.0);
        count.add(alike);
        let mark = if alike { "alike" } else { "**off**" };
        let _ = writeln!(page, "| {what} | {printed:.0} | {computed:.0} | {mark} |");
        (printed, computed)
    }

    /// With ambient: first and last row of one humidity. With humidity: driest and dampest row of one ambient.
    fn add(&mut self, id: &str, rows: &[Compared]) {
        let alike = |a: Option<Ratio>, b: Option<Ratio>| match (a, b) {
            (Some(a), Some(b)) => (a - b).fraction().abs() < 0.15,
            _ => a.is_none() && b.is_none(),
        };
        let last_of = |first: &Compared| {
            let later =
                |last: &&Compared| last.day.ambient > first.day.ambient && alike(first.day.humidity, last.day.humidity);
            rows.iter().rfind(later)
        };
        if let Some((first, last)) = rows.iter().find_map(|first| Some((first, last_of(first)?))) {
            let (from, to) = (first.day.ambient, last.day.ambient);
            let name = |side| format!("{id}, {side}, {:.0} to {:.0} °C", from.celsius(), to.celsius());
            Self::one(&mut self.page, &name("low side"), &first.low, &last.low, &mut self.by_ambient);
            let high = Self::one(&mut self.page, &name("high side"), &first.high, &last.high, &mut self.by_ambient);
            let kelvin = (to - from).kelvins();
            self.high_per_kelvin.push((high.0 / kelvin, high.1 / kelvin));
        }
        for (i, first) in rows.iter().enumerate() {
            let same = |row: &&Compared| row.day.ambient == first.day.ambient;
            let is_driest = i == 0 || rows[i - 1].day.ambient != first.day.ambient;
            let Some(last) = rows[i + 1..].iter().rfind(same).filter(|_| is_driest) else { continue };
            let step = format!("{} to {} %", humidity_text(&first.day), humidity_text(&last.day));
            let name = |side| format!("{id}, {side}, {step} at {:.1} °C", first.day.ambient.celsius());
            Self::one(&mut self.page, &name("low side"), &first.low, &last.low, &mut self.by_humidity);
            Self::one(&mut self.page, &name("high side"), &first.high, &last.high, &mut self.by_humidity);
        }
    }

    fn text(&self) -> String {
        let spread = |pick: fn(&(f64, f64)) -> f64| {
            let all: Vec<f64> = self.high_per_kelvin.iter().map(pick).collect();
            let (low, high) = all.iter().fold((f64::MAX, f64::MIN), |(l, h), &x| (l.min(x), h.max(x)));
            format!("{low:.0} to {high:.0}, mean {:.0} kPa/K", all.iter().sum::<f64>() / all.len() as f64)
        };
        format!(
            "\n## Slopes\n\nBetween the first and the last row of one humidity, or the driest and the dampest of one ambient; \
             alike within 30 % of the printed one.\n\n| ladder | printed, kPa | computed, kPa | |\n|---|---|---|---|\n{}\n\
             With ambient the high side rises by {} as printed and by {} as computed: the ladders differ by more than 30 % \
             among themselves, each being one car's, so no one population can be within 30 % of all. With humidity the \
             computed sides rise several times as fast as the one ladder that prints it.\n",
            self.page,
            spread(|s| s.0),
            spread(|s| s.1)
        )
    }
}

/// How wide the windows are against what the ladders of cars differ among themselves.
#[derive(Default)]
struct Widths {
    /// Ambient, °C, with the printed range and the width of the window, kPa.
    low: Vec<(f64, (f64, f64), f64)>,
    high: Vec<(f64, (f64, f64), f64)>,
}

impl Widths {
    fn add(&mut self, row: &Compared) {
        let ambient = row.day.ambient.celsius();
        let width = |side: &Side| side.computed[2] - side.computed[0];
        self.low.push((ambient, row.low.printed, width(&row.low)));
        self.high.push((ambient, row.high.printed, width(&row.high)));
    }

    /// Mean over the rows: width of the window over the spread of all printed ranges within 2 K of ambient.
    fn ratio(rows: &[(f64, (f64, f64), f64)]) -> f64 {
        let of = |(ambient, _, width): &(f64, (f64, f64), f64)| {
            let near = rows.iter().filter(|(other, ..)| (other - ambient).abs() <= 2.0);
            let (low, high) = near.fold((f64::MAX, f64::MIN), |(l, h), (_, p, _)| (l.min(p.0), h.max(p.1)));
            width / (high - low)
        };
        rows.iter().map(of).sum::<f64>() / rows.len() as f64
    }
}

/// Vents of `tables/windows/vent-by-humidity.csv`: the air at the blower inlet is printed, so it is taken as outside air.
fn vents_by_humidity() -> (String, Count, f64) {
    let table = Table::read("windows/vent-by-humidity.csv");
    let columns = ["rh_min", "rh_max", "air_c", "vent_min_c", "vent_max_c"].map(|name| table.numbers(name));
    let mut page = String::from(
        "\n## Vent by humidity\n\n`windows/vent-by-humidity.csv`, the car of L09. The air at the blower inlet is printed, so that it is \
         taken as outside air of that temperature and humidity; 1500 rpm.\n\n\
         | inlet °C | humidity % | vent printed | computed | |\n|---|---|---|---|---|\n",
    );
    let mut count = Count::default();
    let mut middles = Vec::new();
    for row in 0..table.rows.len() {
        let [rh_min, rh_max, air, vent_min, vent_max] = columns.each_ref().map(|column| column[row]);
        let humidity = 0.5 * (rh_min + rh_max);
        let day = Conditions {
            ambient: Temperature::from_celsius(air),
            humidity: Some(Ratio::from_percent(humidity)),
            air: Pressure::STANDARD_ATMOSPHERE,
            settings: run(AT_1500, Intake::Fresh, 100.0),
        };
        let window = ExpectedWindow::for_kinds(&any_valve(), &day).unwrap();
        let vent = VentRow { printed: Vent::Between(vent_min, vent_max), computed: vent_of(&window) };
        count.add(vent.inside());
        let _ = writeln!(page, "| {air:.0} | {humidity:.0} | {} |", vent.cell());
        middles.push((air, humidity, 0.5 * (vent_min + vent_max), vent.computed[1]));
    }
    let rises: Vec<(f64, f64)> = middles
        .iter()
        .flat_map(|dry| {
            let damper = |damp: &&(f64, f64, f64, f64)| damp.0 == dry.0 && damp.1 > dry.1;
            middles.iter().filter(damper).map(|damp| (damp.2 - dry.2, damp.3 - dry.3))
        })
        .collect();
    let mean = |pick: fn(&(f64, f64)) -> f64| rises.iter().map(pick).sum::<f64>() / rises.len() as f64;
    let (printed, computed) = (mean(|r| r.0), mean(|r| r.1));
    let ratio = computed / printed;
    let _ = writeln!(
        page,
        "\nFor 20 points of humidity the vent rises by {printed:.2} K as printed and by {computed:.2} K as computed, × {ratio:.2}; \
         to be within 40 %. The printed vents are 4 to 5 K above the middle car: this car gets from 1500 rpm what the makers' cars of \
         `system/CHECKS.md` get from idle, so its compressor is small for its blower."
    );
    (page, count, ratio)
}

#[test]
fn makers_ladders_lie_in_the_computed_windows() {
    let ladders = ladders();
    let known: Vec<&str> = TESTS.iter().map(|t| t.ladder).chain(LEFT_OUT.map(|(chart, _)| chart)).collect();
    let all: Vec<&str> = ladders.iter().map(|ladder| ladder.id.as_str()).collect();
    assert_eq!(all.len(), known.len(), "{all:?} against {known:?}");
    assert!(all.iter().all(|id| known.contains(id)), "{all:?} against {known:?}");

    let mut page = String::from(
        "# The computed window against printed ladders\n\n\
         Made by `tests/computed_window.rs`. Pressures in kPa gauge at sea level, vents in °C; the printed value is the middle of its \
         band, the computed three are 5, 50 and 95 % of 256 simulated healthy circuits with the discrepancy of the model, each ladder \
         under its own test. A vent printed as the highest allowed (≤) is in if the middle car is not warmer. Three ranges of sizes and the \
         discrepancy were settled on these ladders together, none by a row (`tables/system/CALIBRATION.md` and below, both of which also \
         leave each ladder out); nothing else is fitted to them.\n",
    );
    let (mut low, mut high, mut cars, mut vents) =
        (Count::default(), Count::default(), Count::default(), Count::default());
    let (mut slopes, mut widths) = (Slopes::default(), Widths::default());
    let (mut names, mut missed) = (Vec::new(), Vec::new());
    for test in &TESTS {
        let ladder = ladders.iter().find(|ladder| ladder.id == test.ladder).unwrap();
        let rows: Vec<Compared> = ladder.rows.iter().map(|row| compared(row, test)).collect();
        page += &section(ladder, test, &rows);
        for row in &rows {
            low.add(row.low.inside());
            high.add(row.high.inside());
            if test.stated {
                cars.add(row.low.inside());
                cars.add(row.high.inside());
                widths.add(row);
            }
            row.vent.iter().for_each(|vent| vents.add(vent.inside()));
        }
        slopes.add(&ladder.id, &rows);
        if test.stated {
            names.push(test.ladder);
            missed.push(off_population(&rows, test));
        }
    }
    let (discrepancy_page, [low_left_out, high_left_out]) = discrepancy(&names, &missed);
    let (vent_page, by_humidity, vent_ratio) = vents_by_humidity();
    page += &vent_page;
    page += &slopes.text();
    page += &discrepancy_page;
    page += "\n## Left out\n\n";
    for (chart, why) in LEFT_OUT {
        let _ = writeln!(page, "- {chart}: {why}.");
    }
    let (low_width, high_width) = (Widths::ratio(&widths.low), Widths::ratio(&widths.high));
    let result = [
        "| what | inside | of | share | bar |\n|---|---|---|---|---|\n".to_owned(),
        low.line("low side", "90 %"),
        high.line("high side", "90 %"),
        cars.line("both sides, cars alone", "90 %"),
        low_left_out.line("low side, its ladder left out", "85 %"),
        high_left_out.line("high side, its ladder left out", "85 %"),
        vents.line("vent by ambient", "85 %"),
        by_humidity.line("vent by humidity of the inlet", "85 %"),
        slopes.by_ambient.line("slope with ambient", ""),
        slopes.by_humidity.line("slope with humidity", ""),
        format!(
            "\nThe vent rises with humidity {vent_ratio:.2} times as fast as printed (bar: 0.6 to 1.4). The windows are {low_width:.2} \
             times as wide as the ladders of cars differ among themselves on the low side, {high_width:.2} times on the high side \
             (bar: 1.5).\n"
        ),
    ]
    .concat();
    // what was reached may not be lost, and pages that are remade are no excuse
    let reached = [
        (&low, 37, 44),
        (&high, 41, 44),
        (&cars, 73, 78),
        (&low_left_out, 35, 39),
        (&high_left_out, 34, 39),
        (&vents, 24, 25),
        (&by_humidity, 6, 6),
        (&slopes.by_ambient, 11, 20),
    ];
    assert!(reached.iter().all(|(count, inside, of)| count.inside >= *inside && count.of == *of), "{result}");
    assert!((0.6..=1.4).contains(&vent_ratio) && low_width < 0.65 && high_width < 0.95, "{result}");
    let _ = write!(page, "\n## Result\n\n{result}");
    same_as_file("tables/WINDOWS.md", &page);
    same_block("README.md", "windows", &result);
}

#[test]
fn a_variable_compressor_holds_its_low_side_while_it_has_stroke_in_hand() {
    // at 2500 rpm and moderate humidity the low side stays or falls with ambient, as car-2003 prints
    let window = |celsius| {
        let settings = Settings { engine: EngineSpeed::Rpm(2500.0), ..Settings::TEST };
        let day = Conditions {
            ambient: Temperature::from_celsius(celsius),
            humidity: Some(Ratio::from_percent(40.0)),
            air: Pressure::STANDARD_ATMOSPHERE,
            settings,
        };
        ExpectedWindow::for_day(&internal()[0], &day).unwrap().low_side.middle().kpa()
    };
    let (mild, hot) = (window(21.0), window(33.0));
    // kPa, a tenth of the low side: our choice
    assert!(abs_diff_eq!(hot, mild, epsilon = 20.0), "{mild:.0} kPa at 21 °C, {hot:.0} kPa at 33 °C");
}
