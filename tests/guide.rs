//! The guide keeps its form: no number in its text that its own code does not state, and no block that is not run.

use std::collections::BTreeSet;

use crate::support::root;

/// A file of the guide: its name, its prose and the code of its doc tests.
struct Chapter {
    name: String,
    prose: String,
    code: String,
    /// What stands behind the three backticks that open each block.
    fences: Vec<String>,
}

fn chapters() -> Vec<Chapter> {
    let mut chapters = Vec::new();
    for entry in std::fs::read_dir(root().join("src/guide")).unwrap() {
        let path = entry.unwrap().path();
        let text = std::fs::read_to_string(&path).unwrap();
        let name = path.file_name().unwrap().to_str().unwrap().to_owned();
        let mut chapter = Chapter { name, prose: String::new(), code: String::new(), fences: Vec::new() };
        let mut inside = false;
        for line in text.lines().filter_map(|line| line.strip_prefix("//!")).map(|line| line.trim_start_matches(' ')) {
            if let Some(kind) = line.strip_prefix("```") {
                inside = !inside;
                if inside {
                    chapter.fences.push(kind.to_owned());
                }
                continue;
            }
            let to = if inside { &mut chapter.code } else { &mut chapter.prose };
            *to += line;
            to.push('\n');
        }
        assert!(!inside, "{}: a block is not closed", chapter.name);
        chapters.push(chapter);
    }
    chapters
}

/// The numbers of a text, without signs; digits inside a word such as R-134a are none. A dot counts between digits.
fn numbers(text: &str) -> BTreeSet<String> {
    let chars: Vec<char> = text.chars().collect();
    let digit = |i: usize| chars.get(i).is_some_and(char::is_ascii_digit);
    let word = |i: usize| chars.get(i).is_some_and(|c| c.is_alphabetic() || *c == '_');
    let mut found = BTreeSet::new();
    let mut i = 0;
    while i < chars.len() {
        if !digit(i) {
            i += 1;
            continue;
        }
        let start = i;
        while digit(i) || (matches!(chars.get(i), Some('.' | '_')) && digit(i + 1)) {
            i += 1;
        }
        let begins_in_word =
            start > 0 && (word(start - 1) || (chars[start - 1] == '-' && start > 1 && word(start - 2)));
        if begins_in_word || word(i) {
            while word(i) || digit(i) {
                i += 1;
            }
            continue;
        }
        let number: String = chars[start..i].iter().filter(|c| **c != '_').collect();
        found.insert(number);
    }
    found
}

/// Prose without the numbers that count its exercises and answers.
fn without_list_numbers(prose: &str) -> String {
    let unlisted = |line: &str| match line.split_once(". ") {
        Some((n, rest)) if n.len() == 1 && n.chars().all(|c| c.is_ascii_digit()) => rest.to_owned(),
        _ => line.to_owned(),
    };
    prose.lines().map(|line| unlisted(line) + "\n").collect()
}

#[test]
fn every_number_of_the_text_is_in_its_code() {
    let mut missing = Vec::new();
    for chapter in chapters() {
        // "500.0" in code is "500" in the text
        let stated = |code: &str| -> BTreeSet<String> {
            let found = numbers(code);
            let whole = found.iter().filter_map(|n| n.strip_suffix(".0").map(str::to_owned));
            found.iter().cloned().chain(whole).collect()
        };
        let code = stated(&chapter.code.replace("e-3", " ").replace("e3", " "));
        for number in numbers(&without_list_numbers(&chapter.prose)) {
            if !code.contains(&number) {
                missing.push(format!("{}: {number}", chapter.name));
            }
        }
    }
    assert!(missing.is_empty(), "numbers without code that states them:\n{}", missing.join("\n"));
}

#[test]
fn the_reader_of_numbers_reads_them_right() {
    let found = numbers("R-134a at −26.1 °C, 1_000 g; R-744's 95 %. Of x2 and 3b nothing, of 7.");
    assert_eq!(found, ["-26.1", "1000", "7", "95"].map(|n| n.trim_start_matches('-').to_owned()).into());
}

#[test]
fn every_chapter_ends_with_exercises_and_computed_answers() {
    let chapters = chapters();
    assert_eq!(chapters.len(), 9);
    for Chapter { name, prose, .. } in chapters.iter().filter(|chapter| chapter.name != "mod.rs") {
        let (_, end) = prose.split_once("\n# Exercises\n").unwrap_or_else(|| panic!("{name} has no exercises"));
        let (exercises, answers) = end.split_once("\n# Answers\n").unwrap_or_else(|| panic!("{name} has no answers"));
        let count = |text: &str| text.lines().filter(|line| line.as_bytes().get(1..3) == Some(b". ")).count();
        assert!((2..=3).contains(&count(exercises)), "{name}: {exercises}");
        assert_eq!(count(exercises), count(answers), "{name}");
        assert!(answers.contains("<details><summary>The working</summary>"), "{name}");
        assert!(prose.contains("**Safety**") || prose.contains("goggles"), "{name} has no caution");
    }
}

#[test]
fn every_block_of_the_guide_is_run_and_asserts() {
    for Chapter { name, code, fences, .. } in chapters() {
        assert!(!fences.is_empty(), "{name}");
        for kind in &fences {
            assert!(kind.is_empty(), "{name}: a block is marked {kind:?} and may not run");
        }
        assert!(code.matches("assert").count() >= fences.len(), "{name}: a block asserts nothing");
    }
}

#[test]
fn the_guide_names_every_chapter() {
    let opening = std::fs::read_to_string(root().join("src/guide/mod.rs")).unwrap();
    for Chapter { name, .. } in chapters().iter().filter(|chapter| chapter.name != "mod.rs") {
        let chapter = name.strip_suffix(".rs").unwrap();
        assert!(opening.contains(&format!("//! | [`{chapter}`] | ")), "{chapter} is not in the table of chapters");
        assert!(opening.contains(&format!("pub mod {chapter};")), "{chapter}");
    }
}
