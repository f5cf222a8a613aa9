//! What the README promises is made by the code.

use std::collections::BTreeSet;

use satline::refrigerant::Refrigerant;

#[cfg(feature = "serde")]
use crate::support::same_as_file;
use crate::support::{Table, root, same_block};

/// The works that a refrigerant's lines are checked against by tables such as `wanted`; several tables of one work are one.
fn works(r: Refrigerant, wanted: impl Fn(&Table) -> bool) -> BTreeSet<&'static str> {
    let is_wanted = |table: &str| wanted(&Table::read(format!("published/{}", table.split(':').next().unwrap())));
    r.saturation_checks()
        .filter(|check| is_wanted(check.table))
        .map(|check| check.source.split(',').next().unwrap())
        .collect()
}

fn is_of_kind(table: &Table, kind: &str) -> bool {
    table.fact("kind") == Some(kind)
}

fn is_printed(table: &Table) -> bool {
    is_of_kind(table, "printed table")
}

/// What the pages say of the room left for the model is what the diagnosis leaves.
#[test]
fn the_room_left_for_the_model_is_as_said() {
    use satline::inspection::{Measurand, MeasurandKind};
    let of = Measurand::model_uncertainty;
    let kelvins: Vec<f64> = Measurand::running()
        .filter(|one| one.kind() == MeasurandKind::Temperature)
        .map(Measurand::model_uncertainty)
        .collect();
    let (least, most) = kelvins.iter().fold((f64::MAX, f64::MIN), |(a, b), x| (a.min(*x), b.max(*x)));
    let (low, high) = (100.0 * of(Measurand::LowSide), 100.0 * of(Measurand::HighSide));
    let said = format!("{low:.0} % of a low side, {high:.1} % of a high side, {least} to {most} K\nof a temperature");
    let page = std::fs::read_to_string(root().join("tables/DIAGNOSIS.md")).unwrap();
    assert!(page.contains(&said), "{said}");
    assert_eq!((of(Measurand::LiquidLine), of(Measurand::DischargeLine)), (1.5, 4.0));
}

/// The cells of each row of the tables in `page`.
fn cells(page: &str) -> Vec<Vec<&str>> {
    let rows = page.lines().filter_map(|line| line.strip_prefix("| ")?.strip_suffix(" |"));
    rows.map(|row| row.split(" | ").collect()).collect()
}

/// Least and most of the per cent in one column of `rows`.
fn span<'a>(rows: impl IntoIterator<Item = &'a Vec<&'a str>>, column: usize) -> (f64, f64) {
    let percent = |row: &Vec<&str>| row[column].trim_end_matches(" %").parse::<f64>().unwrap();
    rows.into_iter().map(percent).fold((f64::MAX, f64::MIN), |(least, most), x| (least.min(x), most.max(x)))
}

/// How often the diagnosis is right is on the page of the tests that count it.
#[test]
fn the_readme_says_how_often_it_is_right_as_counted() {
    let readme = std::fs::read_to_string(root().join("README.md")).unwrap();
    let readme = readme.split_whitespace().collect::<Vec<_>>().join(" ");
    let says = |said: String| assert!(readme.contains(&said), "README.md does not say: {said}");
    let page = std::fs::read_to_string(root().join("tables/DIAGNOSIS.md")).unwrap();
    let rows = cells(&page);

    // measured, model, cars, fault visible, first right, among first three, healthy called faulty and more
    let held_out: Vec<_> = rows.iter().filter(|row| row.len() == 10 && ["right", "wrong"].contains(&row[1])).collect();
    assert_eq!(held_out.len(), 18);
    let of = |measured: &str, column| span(held_out.iter().copied().filter(|row| row[0] == measured), column);
    let (gauges, revved, weighed) =
        ("two gauges and ambient", "and all of it once more at 1500 rpm", "and the charge, recovered and weighed");
    let [(a, b), (c, d), (e, f)] = [gauges, revved, weighed].map(|measured| of(measured, 4));
    let (three, most) = of(weighed, 5);
    assert_eq!(three, most);
    says(format!(
        "right one in {a} to {b} % of the cases with two gauges and the ambient alone; in {c} to {d} % with all lines, vent, clutch and \
         equalised pressure, measured at idle and at 1500 rpm; and in {e} to {f} % with the charge weighed as well. The right one is \
         then among the first three in {three} %."
    ));
    says(format!("At most {} % of the healthy ones among these cars", span(held_out.iter().copied(), 6).1));

    // a name, and stated/seen (statements) in ten bins
    let bins = rows.iter().filter(|row| row.len() == 11 && row[0].ends_with(" model"));
    let off = |bin: &&str| {
        let (stated, seen) = bin.split(' ').next()?.split_once('/')?;
        Some((stated.parse::<f64>().ok()? - seen.parse::<f64>().ok()?).abs())
    };
    let far: Vec<f64> = bins.flat_map(|row| &row[1..]).map(|bin| off(bin).unwrap()).collect();
    assert_eq!(far.len(), 270);
    says(format!("within {} percentage points in each of ten bins", far.iter().copied().fold(0.0, f64::max)));

    // causes drawn, measured, circuits, cars, first right, among first three, healthy called faulty and more
    let street = |drawn: &'static str| rows.iter().filter(move |row| row.len() == 9 && row[0] == drawn);
    let pooled: Vec<_> = street("as in workshops").filter(|row| row[2] == "all three").collect();
    let [first, among] = [4, 5].map(|column| pooled.iter().map(|row| row[column]).collect::<Vec<_>>());
    assert_eq!(pooled.len(), 3);
    says(format!(
        "right in {} by two gauges, {} with both lines and the vent, {} with the equalised pressure and the weighed charge; it is among \
         the first three in {}, {} and {}.",
        first[0],
        first[1],
        first[2],
        among[0].trim_end_matches(" %"),
        among[1].trim_end_matches(" %"),
        among[2]
    ));
    says(format!(
        "Of healthy cars at most {} % are called faulty, and {} % where every cause is as likely.",
        span(street("as in workshops"), 6).1,
        span(street("evenly"), 6).1
    ));
}

/// A table of R-134a that nobody read is named beside the count.
#[test]
fn one_printed_table_is_from_memory() {
    let is_recalled = |table: &Table| is_printed(table) && table.fact("trust").unwrap().starts_with("M ");
    for r in Refrigerant::ALL.iter().copied() {
        assert_eq!(works(r, is_recalled).len(), usize::from(r == Refrigerant::R134a), "{r}");
    }
    assert_eq!(works(Refrigerant::R134a, is_printed).len(), 9);
    let readme = std::fs::read_to_string(root().join("README.md")).unwrap();
    assert!(readme.contains("one of the nine of R-134a is from memory"));
}

#[test]
fn no_printed_table_where_the_readme_says_so() {
    for r in Refrigerant::ALL.iter().copied() {
        let printed = works(r, is_printed).len();
        let none = [Refrigerant::R1234yf, Refrigerant::R1234ze].contains(&r);
        assert!(!none || printed == 0, "{r}: {printed}");
    }
}

#[test]
fn the_accuracy_table_is_the_declared_accuracy() {
    let mut made = String::from(
        "| refrigerant | equation of state | % of pressure | K | printed tables | correlations | evaluated | single points |\n\
         |---|---|---|---|---|---|---|---|\n",
    );
    for r in Refrigerant::ALL.iter().copied() {
        let line = r.dew_line();
        let works = ["printed table", "correlation", "evaluated values", "single points"]
            .map(|kind| works(r, |table| is_of_kind(table, kind)).len());
        let tables = works.map(|count| count.to_string()).join(" | ");
        let (percent, kelvin) = if r.is_blend() {
            ("the published lines".to_owned(), "themselves".to_owned())
        } else {
            let band = line.accuracy[2];
            (format!("{:.4}", 100.0 * band.pressure), format!("{:.4}", band.temperature.kelvins()))
        };
        let year = line.source.work.split('(').find_map(|part| part.get(..4)?.parse::<u16>().ok()).unwrap();
        let author = line.source.work.split(", ").next().unwrap();
        made += &format!("| {r} | {author} et al. {year} | {percent} | {kelvin} | {tables} |\n");
    }
    same_block("README.md", "accuracy", &made);
}

#[test]
fn the_ranges_are_as_many_as_said() {
    let all = satline::circuit::ranges::ALL;
    let unread = [satline::Trust::FromMemory, satline::Trust::CommonPractice];
    let unread = all.iter().filter(|range| unread.contains(&range.source.trust)).count();
    let said = format!(
        "Of the {} ranges from which their\nsizes are drawn, {unread} are from memory, common practice or our choice, some of them at one end only, and say so; {} rest on\npublications. Three of the {unread} were moved by",
        all.len(),
        all.len() - unread
    );
    assert!(std::fs::read_to_string(root().join("README.md")).unwrap().contains(&said), "{said}");
}

#[cfg(feature = "serde")]
#[test]
fn the_shown_answer_is_the_demonstration() {
    let demo = std::fs::read_to_string(root().join("examples/read_gauges/demo.txt")).unwrap();
    same_block("README.md", "demo", &format!("```text\n{demo}```\n"));

    // the first screen: the headline and the three first quantities
    let headline = demo.split("\n\n").nth(1).unwrap();
    let rows = ["read   ", "low side  ", "high side  ", "superheat  "];
    let rows = rows.map(|name| demo.lines().find(|line| line.trim_start().starts_with(name)).unwrap());
    same_block("README.md", "first", &format!("```text\n{headline}\n{}\n```\n", rows.join("\n")));
}

#[cfg(feature = "serde")]
#[test]
fn the_picture_is_the_demonstrations() {
    let readme = std::fs::read_to_string(root().join("README.md")).unwrap();
    let shown: Vec<&str> = readme.split("![").skip(1).filter_map(|rest| rest.split(['(', ')']).nth(1)).collect();
    assert_eq!(shown, ["examples/read_gauges/saturation.svg"]);
    let answer = super::examples::demonstrated();
    let picture =
        answer.pictures.iter().map(|(_, picture)| picture).find(|picture| picture.name() == "saturation").unwrap();
    same_as_file(shown[0], picture.svg());
}

#[test]
fn both_commands_are_what_the_checks_run() {
    let readme = std::fs::read_to_string(root().join("README.md")).unwrap();
    let checks = std::fs::read_to_string(root().join(".ci/run")).unwrap();
    for command in ["cargo run --example read_gauges", "cargo test --all-features"] {
        assert!(readme.contains(&format!("```sh\n{command}\n```")), "README does not show {command:?}");
        assert!(checks.lines().any(|line| line.trim().ends_with(command)), ".ci/run does not run {command:?}");
    }
}
