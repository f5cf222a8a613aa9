//! What the README promises is made by the code.

use satline::refrigerant::Refrigerant;

#[cfg(feature = "serde")]
use crate::support::same_as_file;
use crate::support::{root, same_block};

#[test]
fn the_accuracy_table_is_the_declared_accuracy() {
    let mut made =
        String::from("| refrigerant | equation of state | % of pressure | K | tables |\n|---|---|---|---|---|\n");
    for r in Refrigerant::ALL.iter().copied() {
        let line = r.dew_line();
        let tables = r.saturation_checks().count();
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
    let unread = all.iter().filter(|range| range.source.trust == satline::Trust::FromMemory).count();
    let said = format!(
        "Of the {} ranges from which their\nsizes are drawn, {unread} are from memory or our choice and say so; {} rest on publications",
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
    for command in ["cargo run --example read_gauges", "cargo test"] {
        assert!(readme.contains(&format!("```sh\n{command}\n```")), "README does not show {command:?}");
        assert!(checks.lines().any(|line| line.trim().ends_with(command)), ".ci/run does not run {command:?}");
    }
}
