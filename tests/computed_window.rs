//! The computed window against makers' and government ladders, row by row: `tables/WINDOWS.md`.

use std::fmt::Write;

use satline::circuit::{CircuitKind, CompressorKind, Conditions, EngineSpeed, ExpansionKind, Intake, Settings};
use satline::expected::{AirPlace, Authority, Chart, ChartRow, ExpectedWindow, Quantiles, charts};
use satline::{GaugePressure, Pressure, Range, Ratio, Refrigerant, Temperature};

use crate::support::{same_as_file, same_block};

/// How the cars behind a ladder were run, as far as it is known.
struct Test {
    chart: &'static str,
    /// Whether these are cars run as the source says.
    stated: bool,
    settings: Settings,
    kinds: fn() -> Vec<CircuitKind>,
    taken: &'static str,
    misses: &'static str,
}

const AT_1000: Settings = Settings { engine: EngineSpeed::Rpm(1000.0), ..Settings::TEST };
const AT_1500_FRESH: Settings = Settings { engine: EngineSpeed::Rpm(1500.0), intake: Intake::Fresh, ..Settings::TEST };

fn kind(refrigerant: Refrigerant, compressor: CompressorKind, expansion: ExpansionKind) -> CircuitKind {
    let internal_exchanger = refrigerant == Refrigerant::R1234yf;
    CircuitKind { refrigerant, compressor, expansion, internal_exchanger, rear_evaporator: false }
}

fn variable() -> Vec<CircuitKind> {
    [CompressorKind::Internal, CompressorKind::External]
        .map(|compressor| kind(Refrigerant::R134a, compressor, ExpansionKind::ThermostaticValve))
        .to_vec()
}

fn cycling_valve() -> Vec<CircuitKind> {
    vec![kind(Refrigerant::R134a, CompressorKind::Cycling, ExpansionKind::ThermostaticValve)]
}

fn orifice() -> CircuitKind {
    kind(Refrigerant::R134a, CompressorKind::Cycling, ExpansionKind::OrificeTube)
}

const TESTS: [Test; 7] = [
    Test {
        chart: "car-2010-a",
        stated: true,
        settings: Settings::TEST,
        kinds: variable,
        taken: "variable compressor with internal or external control, thermostatic valve; idle, recirculation, as printed",
        misses: "",
    },
    Test {
        chart: "car-2009-b",
        stated: true,
        settings: Settings::TEST,
        kinds: variable,
        taken: "as car-2010-a, by the same maker; the page with its conditions was not read",
        misses: "",
    },
    Test {
        chart: "yf-a",
        stated: true,
        settings: Settings::TEST,
        kinds: || {
            [CompressorKind::Internal, CompressorKind::External]
                .map(|compressor| kind(Refrigerant::R1234yf, compressor, ExpansionKind::ThermostaticValve))
                .to_vec()
        },
        taken: "variable compressor with internal or external control, thermostatic valve, internal exchanger; idle, \
                recirculation, as printed",
        misses: "At 25 °C these cars hold their set points, 100 to 240 kPa at sea level or 3 to 5 °C air; both are taken over \
                 from R-134a, at whose pressures R-1234yf boils 3 K colder. A set point of its own was not found.",
    },
    Test {
        chart: "truck-2003",
        stated: true,
        settings: Settings::TEST,
        kinds: || vec![orifice(), CircuitKind { rear_evaporator: true, ..orifice() }],
        taken: "orifice tube and cycling clutch, half of the trucks with a rear evaporator (from memory for this maker's large \
                trucks); idle and recirculation, as the page does not say",
        misses: "The dry rows: the model takes the whole benefit of dry air, the print only a part. A rear evaporator \
                 throughout, or fresh air from a hot parking lot, would raise both sides.",
    },
    Test {
        chart: "car-2003",
        stated: true,
        settings: Settings::TEST,
        kinds: || vec![kind(Refrigerant::R134a, CompressorKind::Internal, ExpansionKind::ThermostaticValve)],
        taken: "variable compressor with internal control, thermostatic valve; idle, recirculation, as the page does not say",
        misses: "At 33 °C and idle most cars of the population have reached full stroke and leave the set point; this one has \
                 stroke in hand, as it would at a higher engine speed.",
    },
    Test {
        chart: "offroad-a",
        stated: true,
        settings: AT_1500_FRESH,
        kinds: cycling_valve,
        taken: "thermostatic valve and cycling clutch; 1500 rpm, fresh air, as printed",
        misses: "The high side stands 42 K over ambient at 22 °C, twice what offroad-b on the same page allows. No car with \
                 its fan running does that on a mild day.",
    },
    Test {
        chart: "loader-tm5",
        stated: false,
        settings: AT_1000,
        kinds: || vec![cycling_valve()[0], orifice()],
        taken: "a wheel loader: valve or orifice tube, 1000 rpm",
        misses: "Not a car: the low side stays at 1.0 to 1.5 bar up to 43 °C, so the compressor is large for its cab and \
                 cycles on the hottest day. It is also read as the clutch opens.",
    },
];

/// Charts that are not compared, and why.
const LEFT_OUT: [(&str, &str); 1] = [(
    "offroad-b",
    "its conditions are not printed, and it contradicts offroad-a on the same page: 17 K of condensing over ambient at 38 °C \
     against 44 K",
)];

fn ladders() -> impl Iterator<Item = &'static Chart> {
    charts::ALL
        .iter()
        .filter(|chart| chart.authority == Authority::Ladder && chart.air == AirPlace::Ambient)
        .filter(|chart| chart.rows.iter().any(|row| row.low.is_some() || row.high.is_some()))
}

fn day(row: &ChartRow, settings: Settings) -> Conditions {
    Conditions {
        ambient: row.air.at(0.5),
        // a row for every humidity is a row for none
        humidity: row.humidity.filter(|h| h.high - h.low < Ratio::from_percent(90.0)).map(|h| h.at(0.5)),
        air: Pressure::STANDARD_ATMOSPHERE,
        settings,
    }
}

/// A side of one row.
struct Side {
    printed: f64,
    middle: f64,
    inside: bool,
    cell: String,
}

fn side(printed: Option<Range<GaugePressure>>, cars: &Quantiles<GaugePressure>) -> Option<Side> {
    let printed = printed?.at(0.5);
    let [low, _, middle, _, high] = cars.five();
    let inside = cars.range().contains(printed);
    let mark = if inside { "in" } else { "**out**" };
    let cell = format!("{:.0} | {:.0} {:.0} {:.0} | {mark}", printed.kpa(), low.kpa(), middle.kpa(), high.kpa());
    Some(Side { printed: printed.kpa(), middle: middle.kpa(), inside, cell })
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
}

/// Slopes between two rows, printed and computed, kPa for the whole step.
fn slope(page: &mut String, what: &str, a: &Side, b: &Side, count: &mut Count) -> (f64, f64) {
    let (printed, computed) = (b.printed - a.printed, b.middle - a.middle);
    // within 30 % of the ladder's, or both smaller than what a gauge shows
    let alike = (computed - printed).abs() <= 0.3 * printed.abs() || (printed.abs() < 15.0 && computed.abs() < 15.0);
    count.add(alike);
    let _ = writeln!(page, "| {what} | {printed:.0} | {computed:.0} | {} |", if alike { "alike" } else { "**off**" });
    (printed, computed)
}

#[test]
fn makers_ladders_lie_in_the_computed_windows() {
    let known: Vec<&str> = TESTS.iter().map(|t| t.chart).chain(LEFT_OUT.map(|(chart, _)| chart)).collect();
    let all: Vec<&str> = ladders().map(|chart| chart.id).collect();
    assert_eq!(all.len(), known.len(), "{all:?} against {known:?}");
    assert!(all.iter().all(|id| known.contains(id)), "{all:?} against {known:?}");

    let mut page = String::from(
        "# The computed window against printed ladders\n\n\
         Made by `tests/computed_window.rs`. Pressures in kPa gauge at sea level; the printed value is the middle of its \
         band, the computed three are 5, 50 and 95 % of 256 simulated healthy circuits. Nothing in the model is fitted to these rows.\n",
    );
    let (mut low, mut high, mut cars) = (Count::default(), Count::default(), Count::default());
    let (mut by_ambient, mut by_humidity) = (Count::default(), Count::default());
    let mut slopes = String::new();
    let mut high_per_kelvin = Vec::new();
    for test in &TESTS {
        let chart = ladders().find(|chart| chart.id == test.chart).unwrap();
        let _ = write!(
            page,
            "\n## {}\n\n{}. {}. Taken as: {}.\n\n\
             | ambient °C | humidity % | low printed | computed | | high printed | computed | |\n|---|---|---|---|---|---|---|---|\n",
            chart.id, chart.source, chart.system, test.taken
        );
        let kinds = (test.kinds)();
        let mut rows = Vec::new();
        for row in chart.rows {
            let day = day(row, test.settings);
            let window = ExpectedWindow::for_kinds(&kinds, &day).unwrap();
            assert_eq!(window.missing, 0, "{} at {:?}", chart.id, day.ambient);
            let sides = (side(row.low, &window.low_side).unwrap(), side(row.high, &window.high_side).unwrap());
            low.add(sides.0.inside);
            high.add(sides.1.inside);
            if test.stated {
                cars.add(sides.0.inside);
                cars.add(sides.1.inside);
            }
            let humidity = day.humidity.map_or("any".to_owned(), |h| format!("{:.0}", h.percent()));
            let _ =
                writeln!(page, "| {:.1} | {humidity} | {} | {} |", day.ambient.celsius(), sides.0.cell, sides.1.cell);
            rows.push((day, sides));
        }
        if !test.misses.is_empty() {
            let _ = writeln!(page, "\n{}", test.misses);
        }
        // with ambient: first and last row of one humidity; with humidity: driest and dampest row of one ambient
        let alike = |a: Option<Ratio>, b: Option<Ratio>| match (a, b) {
            (Some(a), Some(b)) => (a - b).fraction().abs() < 0.15,
            _ => a.is_none() && b.is_none(),
        };
        if let Some((first, last)) = rows.iter().find_map(|first| {
            rows.iter()
                .rev()
                .find(|last| last.0.ambient > first.0.ambient && alike(first.0.humidity, last.0.humidity))
                .map(|last| (first, last))
        }) {
            let name = |side| {
                format!("{}, {side}, {:.0} to {:.0} °C", chart.id, first.0.ambient.celsius(), last.0.ambient.celsius())
            };
            slope(&mut slopes, &name("low side"), &first.1.0, &last.1.0, &mut by_ambient);
            let kelvin = (last.0.ambient - first.0.ambient).kelvins();
            let high = slope(&mut slopes, &name("high side"), &first.1.1, &last.1.1, &mut by_ambient);
            high_per_kelvin.push((high.0 / kelvin, high.1 / kelvin));
        }
        for (i, first) in rows.iter().enumerate() {
            let same = |row: &&(Conditions, (Side, Side))| row.0.ambient == first.0.ambient;
            let is_driest = i == 0 || rows[i - 1].0.ambient != first.0.ambient;
            let Some(last) = rows[i + 1..].iter().rfind(same).filter(|_| is_driest) else { continue };
            let percent = |day: &Conditions| day.humidity.map_or(f64::NAN, |h| h.percent());
            let name = |side| {
                format!(
                    "{}, {side}, {:.0} to {:.0} % at {:.1} °C",
                    chart.id,
                    percent(&first.0),
                    percent(&last.0),
                    first.0.ambient.celsius()
                )
            };
            slope(&mut slopes, &name("low side"), &first.1.0, &last.1.0, &mut by_humidity);
            slope(&mut slopes, &name("high side"), &first.1.1, &last.1.1, &mut by_humidity);
        }
    }
    let _ = write!(
        page,
        "\n## Slopes\n\nBetween the first and the last row of one humidity, or the driest and the dampest of one ambient; alike \
         within 30 % of the printed one.\n\n| ladder | printed, kPa | computed, kPa | |\n|---|---|---|---|\n{slopes}"
    );
    let spread = |pick: fn(&(f64, f64)) -> f64| {
        let all: Vec<f64> = high_per_kelvin.iter().map(pick).collect();
        let (low, high) = all.iter().fold((f64::MAX, f64::MIN), |(l, h), &x| (l.min(x), h.max(x)));
        format!("{low:.0} to {high:.0}, mean {:.0} kPa/K", all.iter().sum::<f64>() / all.len() as f64)
    };
    let _ = write!(
        page,
        "\nWith ambient the high side rises by {} as printed and by {} as computed: the ladders differ by more than 30 % among \
         themselves, each being one car's, so no one population can be within 30 % of all. With humidity the computed sides \
         rise several times as fast as the one ladder that prints it. Its test is not described; a cabin shut on recirculation \
         dries its own air and would hide the weather, where the model has the doors open.\n",
        spread(|s| s.0),
        spread(|s| s.1)
    );
    page += "\n## Left out\n\n";
    for (chart, why) in LEFT_OUT {
        let _ = writeln!(page, "- {chart}: {why}.");
    }
    let result = format!(
        "| what | inside | of | share |\n|---|---|---|---|\n\
         | low side | {} | {} | {:.0} % |\n| high side | {} | {} | {:.0} % |\n| both sides, cars alone | {} | {} | {:.0} % |\n\
         | slope with ambient | {} | {} | {:.0} % |\n| slope with humidity | {} | {} | {:.0} % |\n\n\
         The aim is 90 % of the rows; it is {}.\n",
        low.inside,
        low.of,
        100.0 * low.share(),
        high.inside,
        high.of,
        100.0 * high.share(),
        cars.inside,
        cars.of,
        100.0 * cars.share(),
        by_ambient.inside,
        by_ambient.of,
        100.0 * by_ambient.share(),
        by_humidity.inside,
        by_humidity.of,
        100.0 * by_humidity.share(),
        if low.inside + high.inside >= (9 * (low.of + high.of)).div_ceil(10) { "reached" } else { "not reached" },
    );
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
        let kind = kind(Refrigerant::R134a, CompressorKind::Internal, ExpansionKind::ThermostaticValve);
        ExpectedWindow::for_day(&kind, &day).unwrap().low_side.middle().kpa()
    };
    let (mild, hot) = (window(21.0), window(33.0));
    assert!((hot - mild).abs() < 20.0, "{mild:.0} kPa at 21 °C, {hot:.0} kPa at 33 °C");
}
