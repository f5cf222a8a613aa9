//! The educator's sheet: its pages, and that whoever types it in gets the right pressure.

use std::path::Path;

use approx::abs_diff_eq;
use clap::Parser;
use satline::{Refrigerant, Temperature};

use crate::support::{Table, root, same_as_file};

#[allow(dead_code)] // its main is not called here
#[path = "../examples/accuracy_page/main.rs"]
mod example;

/// The sheet, or what the example says instead; clap's own complaints count too.
fn sheet(words: &[&str]) -> Result<String, String> {
    let args = example::Args::try_parse_from(std::iter::once(&"accuracy_page").chain(words));
    example::page(&args.map_err(|error| error.to_string())?).map_err(|error| error.to_string())
}

fn sheet_of(r: Refrigerant) -> String {
    sheet(&["--refrigerant", r.designation()]).unwrap_or_else(|error| panic!("{r}: {error}"))
}

/// The number behind `key` in the first line of `page` that begins with it.
fn number(page: &str, key: &str) -> f64 {
    let line = page.lines().find_map(|line| line.trim_start().strip_prefix(key)).unwrap_or_else(|| panic!("no {key}"));
    let word = line.split_whitespace().next().unwrap();
    word.parse().unwrap_or_else(|_| panic!("{key}: {word:?}"))
}

/// A line as a student types it from the page: nothing but its printed digits.
struct Typed {
    tc: f64,
    pc: f64,
    terms: Vec<(f64, f64)>,
    /// Its range, °C.
    range: (f64, f64),
}

impl Typed {
    /// From the part of a page that lists one line.
    fn read(part: &str) -> Self {
        let mut terms = Vec::new();
        for line in part.lines().map(str::trim_start) {
            if line.starts_with("asked from") {
                break;
            }
            let words: Vec<&str> = line.split_whitespace().collect();
            if let [n, value, k, power] = words[..]
                && n == format!("n{}", terms.len() + 1)
                && k == format!("k{}", terms.len() + 1)
            {
                terms.push((value.parse().unwrap(), power.parse().unwrap()));
            }
        }
        let range = part.lines().find_map(|line| line.trim_start().strip_prefix("asked from ")).unwrap();
        let ends: Vec<f64> = range.split_whitespace().filter_map(|word| word.parse().ok()).collect();
        assert!(terms.len() >= 4 && ends.len() == 2, "{part}");
        Self { tc: number(part, "Tc "), pc: number(part, "pc "), terms, range: (ends[0], ends[1]) }
    }

    /// The formula as printed: Pa from °C.
    fn pressure(&self, celsius: f64) -> f64 {
        let t = celsius + 273.15;
        let q = 1.0 - t / self.tc;
        let sum: f64 = self.terms.iter().map(|(n, k)| n * q.powf(*k)).sum();
        self.pc * (self.tc / t * sum).exp()
    }

    /// Twenty temperatures from end to end; the ends are printed rounded, so a hundredth of a kelvin inside.
    fn twenty(&self) -> impl Iterator<Item = f64> {
        let (low, high) = (self.range.0 + 0.01, self.range.1 - 0.01);
        (0..20).map(move |i| low + (high - low) * f64::from(i) / 19.0)
    }
}

/// The declared bands of a page: from, to in °C, then the share of the pressure.
fn bands(page: &str) -> Vec<(f64, f64, f64)> {
    let table = page.split_once("from °C  to °C").unwrap().1;
    table
        .lines()
        .skip(1)
        .map_while(|line| {
            let words: Vec<&str> = line.split_whitespace().collect();
            let [from, to, percent, "%", ..] = words[..] else { return None };
            Some((from.parse().unwrap(), to.parse().unwrap(), percent.parse::<f64>().unwrap() / 100.0))
        })
        .collect()
}

fn celsius(t: f64) -> Temperature {
    Temperature::from_celsius(t)
}

#[test]
fn pages_are_what_the_example_prints() {
    same_as_file("examples/accuracy_page.txt", &sheet(&[]).unwrap());
    same_as_file("examples/accuracy_page.md", &sheet(&["--markdown"]).unwrap());
}

#[test]
fn whoever_types_the_formula_gets_the_pressure_within_the_declared_error() {
    let mut tried = 0;
    for r in Refrigerant::ALL.iter().copied().filter(|r| !r.is_blend()) {
        let page = sheet_of(r);
        let (typed, bands) = (Typed::read(&page), bands(&page));
        assert_eq!(bands.last().unwrap().1, typed.range.1, "{r}: the bands end where the line does");
        for t in typed.twenty() {
            let exact = r.saturation_pressure(celsius(t)).unwrap().pa();
            let off = (typed.pressure(t) / exact - 1.0).abs();
            let &(.., declared) = bands.iter().find(|(from, to, _)| *from <= t && t <= *to).unwrap();
            assert!(off <= declared, "{r} at {t:.2} °C: {off:.2e}, declared {declared:.2e}");
            tried += 1;
        }
    }
    assert_eq!(tried, 12 * 20);
}

#[test]
fn whoever_types_a_blend_gets_both_published_lines() {
    for r in Refrigerant::ALL.iter().copied().filter(|r| r.is_blend()) {
        let page = sheet_of(r);
        let (_, lines) = page.split_once("The bubble line:").unwrap();
        let (bubble, dew) = lines.split_once("The dew line:").unwrap();
        for (part, which) in [(bubble, "bubble"), (dew, "dew")] {
            let typed = Typed::read(part);
            for t in typed.twenty() {
                let answer = if which == "bubble" { r.bubble_pressure(celsius(t)) } else { r.dew_pressure(celsius(t)) };
                let off = (typed.pressure(t) / answer.unwrap().pa() - 1.0).abs();
                // the answers come from curves within 1e-10 of the lines
                assert!(off <= 1e-10, "{r}, {which} line at {t:.2} °C: {off:.2e}");
            }
        }
        assert!(!page.contains("Declared error"), "{r}");
    }
}

#[test]
fn the_cells_of_the_spreadsheet_are_the_formula() {
    for r in Refrigerant::ALL.iter().copied() {
        let page = sheet_of(r);
        let (_, cells) = page.split_once("The same in a spreadsheet\n").unwrap();
        // D2 is broken over lines; E2 ends it
        let (_, sum) = cells.split_once("D2  =").unwrap();
        let sum: String = sum.split("E2  =").next().unwrap().split_whitespace().collect();
        let (pc, exponent) = cells.split_once("E2  =").unwrap().1.split_once("*EXP(").unwrap();
        let tc = exponent.split('/').next().unwrap().parse::<f64>().unwrap();
        assert!(cells.contains(&format!("C2  =1-B2/{tc}\n")), "{r}");
        let value = |t: f64| {
            let b2 = t + 273.15;
            let c2 = 1.0 - b2 / tc;
            let starts: Vec<usize> =
                sum.char_indices().filter(|(i, c)| *i > 0 && matches!(c, '+' | '-')).map(|(i, _)| i).collect();
            let mut d2 = 0.0;
            for (from, to) in std::iter::once(&0).chain(&starts).zip(starts.iter().chain([&sum.len()])) {
                let (n, power) = sum[*from..*to].split_once("*C2").unwrap();
                let k = power.strip_prefix('^').map_or(1.0, |k| k.parse::<f64>().unwrap());
                d2 += n.parse::<f64>().unwrap() * c2.powf(k);
            }
            pc.parse::<f64>().unwrap() * (tc / b2 * d2).exp()
        };
        let line = r.dew_line();
        for share in [0.1, 0.5, 0.9] {
            let t = line.valid.at(share);
            let off = (value(t.celsius()) / line.pressure(t).unwrap().pa() - 1.0).abs();
            assert!(off < 1e-12, "{r} at {:.2} °C: {off:.2e}", t.celsius());
        }
    }
}

#[test]
fn the_answers_are_those_of_the_typed_formula() {
    for r in Refrigerant::ALL.iter().copied() {
        let page = sheet_of(r);
        let typed = Typed::read(page.split_once("The dew line:").map_or(page.as_str(), |(_, dew)| dew));
        let (asked, answers) = page.split_once("\nAnswers\n").unwrap();
        let (_, asked) = asked.split_once("\nExercises\n").unwrap();
        let words = |text: &str| text.split_whitespace().collect::<Vec<_>>().join(" ");
        let (asked, answers) = (words(asked), words(answers));

        let t = number(&asked, "1. Work the formula at ");
        let kpa = typed.pressure(t) / 1e3;
        let first = format!("1. {kpa:.2} kPa absolute; {:.2} kPa on the gauge.", kpa - 101.325);
        assert!(answers.contains(&first), "{r}: {first}\n{answers}");

        // by halving, as a student who changes A2
        let at_gauge = |gauge: f64| {
            let (mut low, mut high) = typed.range;
            for _ in 0..60 {
                let middle = 0.5 * (low + high);
                if typed.pressure(middle) / 1e3 - 101.325 < gauge { low = middle } else { high = middle }
            }
            0.5 * (low + high)
        };
        let gauge = number(asked.split_once("2. A low-side gauge ").unwrap().1, "shows ");
        let limit = number(asked.split_once("it may ").unwrap().1, "be off by ");
        let second = at_gauge(gauge);
        assert!(answers.contains(&format!(" 2. {second:.2} °C.")), "{r}: {second}\n{answers}");
        let third = number(answers.split_once(" 3. ").unwrap().1, "");
        // the limit is printed to a tenth of a kPa
        assert!(abs_diff_eq!(third, at_gauge(gauge + limit) - second, epsilon = 0.011), "{r}: {third}\n{answers}");
    }
}

#[test]
fn the_worked_example_holds_line_by_line() {
    for (r, at) in [("R-134a", "0 °C"), ("R-744", "-40 °C"), ("R-1234yf", "50 °F"), ("R-407C", "5 °C")] {
        let page = sheet(&["--refrigerant", r, "--at", at]).unwrap();
        let typed = Typed::read(page.split_once("The dew line:").map_or(page.as_str(), |(_, dew)| dew));
        let (_, worked) = page.split_once("\nWorked by hand at ").unwrap();
        let t: f64 = worked.split_whitespace().next().unwrap().parse().unwrap();
        let mut sum = 0.0;
        for (i, (n, k)) in typed.terms.iter().enumerate() {
            let row = worked.lines().find(|line| line.trim_start().starts_with(&format!("{} ", i + 1))).unwrap();
            let cells: Vec<f64> = row.split_whitespace().map(|cell| cell.parse().unwrap()).collect();
            let q = 1.0 - (t + 273.15) / typed.tc;
            assert_eq!((cells[1], cells[2]), (*n, *k));
            // half the last of nine decimals, and that times n
            assert!(
                abs_diff_eq!(cells[3], q.powf(*k), epsilon = 6e-10)
                    && abs_diff_eq!(cells[4], n * cells[3], epsilon = 1e-8),
                "{row}"
            );
            sum += cells[4];
        }
        // a sum of so many ninth decimals
        assert!(abs_diff_eq!(number(worked, "sum "), sum, epsilon = 5e-9), "{r}");
        let pa: f64 = worked.split(" Pa\n").next().unwrap().rsplit(' ').next().unwrap().parse().unwrap();
        assert!(abs_diff_eq!(pa, typed.pressure(t), epsilon = 0.51), "{r}: {pa}"); // printed in whole pascal
    }
}

/// Every refrigerant has one row to repeat; it stands in its table as printed, and the formula meets it.
#[test]
fn printed_rows_are_in_their_tables_and_met() {
    assert_eq!(example::rows::ROWS.map(|row| row.refrigerant).as_slice(), Refrigerant::ALL);
    for row in &example::rows::ROWS {
        let r = row.refrigerant;
        let table = Table::read(Path::new("published").join(row.table));
        let ((t, t_unit), (p, p_unit)) =
            (row.temperature.split_once(' ').unwrap(), row.pressure.split_once(' ').unwrap());
        let line = if r.is_blend() { "dew_pressure" } else { "pressure" };
        let column = |name: String| table.columns.iter().position(|head| *head == name);
        if let Some(pressures) = column(format!("{line}_{p_unit}_abs")) {
            let temperatures = column(format!("temperature_{}", t_unit.trim_start_matches('°'))).unwrap();
            assert!(table.rows.iter().any(|cells| cells[temperatures] == t && cells[pressures] == p), "{r}");
        } else {
            // a table of boiling points, all at one pressure
            let points = table.column("normal_boiling_point_C");
            assert!(table.rows.iter().any(|cells| cells[0] == r.designation() && cells[points] == t), "{r}");
            assert_eq!(row.pressure, "101.325 kPa");
        }
        // print's last digits, the declared error of the short form, and what the table itself is known to be off
        let short = &r.fluid().dew;
        let (_, percent, open) = example::deviation(short, row).unwrap();
        let declared = 100.0 * short.accuracy_at(row.temperature.parse().unwrap()).unwrap().pressure;
        let stated =
            r.saturation_checks().filter(|check| check.table == row.table).find_map(|check| check.stated_percent);
        let allowed = open + declared + stated.unwrap_or(0.0);
        assert!(percent.abs() <= allowed, "{r}: {percent} % of at most {allowed} %");
        let page = sheet_of(r).split_whitespace().collect::<Vec<_>>().join(" ");
        assert!(page.contains(&format!("{} at {} ({})", row.pressure, row.temperature, row.source)), "{r}");
        assert!(page.contains(&format!("{percent:+.4} % from print")), "{r}");
    }
}

#[test]
fn worst_deviations_lie_within_what_is_declared() {
    for r in Refrigerant::ALL.iter().copied().filter(|r| !r.is_blend()) {
        let page = sheet_of(r);
        let row = page.split_once("  short form - equation of state\n").unwrap().1.lines().next().unwrap();
        let words: Vec<&str> = row.split_whitespace().collect();
        let (percent, at): (f64, f64) = (words[4].parse().unwrap(), words[8].parse().unwrap());
        assert_eq!((words[5], words[7]), ("%", "K"), "{row}");
        let &(.., declared) = bands(&page).iter().find(|(from, to, _)| *from <= at && at <= *to).unwrap();
        assert!(percent.abs() <= 100.0 * declared && percent != 0.0, "{r}: {row}");
    }
}

#[test]
fn every_sheet_lists_every_table_it_was_checked_against() {
    for r in Refrigerant::ALL.iter().copied() {
        let (text, markdown) = (sheet_of(r), sheet(&["--refrigerant", r.designation(), "--markdown"]).unwrap());
        for line in text.lines() {
            assert!(line.chars().count() <= 80, "{r}: {line}");
        }
        for check in r.saturation_checks() {
            // a line too long is broken; what is from memory says so once
            let source = check.source.trim_end_matches(", from memory");
            let unbroken = text.split_whitespace().collect::<Vec<_>>().join(" ");
            assert!(unbroken.contains(source) && markdown.contains(source), "{r}: {source}");
        }
        let count = r.saturation_checks().count();
        assert!(text.contains(&format!("  {count} comparison")), "{r}");
        assert_eq!(markdown.lines().filter(|line| line.starts_with("# ")).count(), 1, "{r}");
    }
}

#[test]
fn the_sheet_cites_the_project_as_its_citation_file_does() {
    let page = sheet(&["--markdown"]).unwrap();
    let named = format!(
        "satline: refrigerant saturation properties tested against published tables, and automotive \
        air-conditioning checks, version {} (CITATION.cff)",
        env!("CARGO_PKG_VERSION")
    );
    assert!(page.contains(&named), "{page}");
    assert!(page.contains(&Refrigerant::R134a.dew_line().source.to_string()));
}

#[test]
fn the_citation_file_is_complete_and_of_this_version() {
    let file = std::fs::read_to_string(root().join("CITATION.cff")).unwrap();
    let keys = [
        "cff-version: 1.2.0",
        "message: ",
        "title: ",
        "abstract: ",
        "type: software",
        "authors:",
        "license:",
        "keywords:",
    ];
    for key in keys {
        assert!(file.lines().any(|line| line.starts_with(key)), "{key}");
    }
    assert!(file.contains(concat!("\nversion: ", env!("CARGO_PKG_VERSION"), "\n")));
    for licence in env!("CARGO_PKG_LICENSE").split(" OR ") {
        assert!(file.contains(&format!("  - {licence}\n")), "{licence}");
    }
    // a date of release belongs to a version that the change log has as released
    let released = std::fs::read_to_string(root().join("CHANGELOG.md")).unwrap();
    let released = released.lines().any(|line| line.starts_with(concat!("## ", env!("CARGO_PKG_VERSION"))));
    assert_eq!(file.contains("\ndate-released: "), released);
}

#[test]
fn what_cannot_be_is_refused_with_the_reason() {
    let refused = |words: &[&str]| sheet(words).unwrap_err();
    let unknown = refused(&["--refrigerant", "R-134"]);
    assert!(unknown.contains(&"R-134".parse::<Refrigerant>().unwrap_err().to_string()), "{unknown}");
    assert!(refused(&["--at", "0"]).contains("has no unit; add one of °C, °F, K"));
    assert!(refused(&["--at", "120 °C"]).contains("is outside -103.3 to 101.1 °C"));
    assert!(refused(&["--refrigerant", "R-744", "--at", "31.5 °C"]).contains("is outside -56.6 to 31.0 °C"));
    assert!(refused(&["--at", "-300 °C"]).contains("outside"));
}
