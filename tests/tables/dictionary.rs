//! The data dictionary of `tables/README.md` and the counts on the pages, made from the headers of the tables.

use std::collections::BTreeMap;
use std::fmt::Write as _;

use super::{files, grade};
use crate::support::{Table, root, same_block};

/// What a table can be; the words of its header and what they mean.
const KINDS: [(&str, &str); 7] = [
    ("printed table", "rows as a work prints them, or an export of a data bank"),
    ("correlation", "a formula of a work with its coefficients"),
    ("single points", "single figures: a boiling or critical point, a row or two of a table, a set point, a rule"),
    ("evaluated values", "not printed: computed for these tables from published coefficients or a library"),
    ("measured points", "what experimenters wrote into a file of their own"),
    ("counts", "how many texts, cars or shops say so"),
    ("our own", "invented"),
];

/// Grades of trust, best first, and what they mean.
const GRADES: [(&str, &str); 6] = [
    ("A", "full document or untouched machine export read"),
    ("A-", "typed or excerpted from a named print source"),
    ("B", "excerpt, or typed without a named source but consistent; also values evaluated from published coefficients"),
    ("C", "weak provenance"),
    ("M", "from memory, not read"),
    ("O", "our own, invented"),
];

/// Every table below `tables/`, by its path.
fn all() -> BTreeMap<String, Table> {
    let folders = std::fs::read_dir(root().join("tables")).unwrap().map(|entry| entry.unwrap().path());
    let mut tables = BTreeMap::new();
    for folder in folders.filter(|path| path.is_dir()) {
        let folder = folder.file_name().unwrap().to_str().unwrap().to_owned();
        for file in files(&folder).into_iter().filter(|file| file.ends_with(".csv")) {
            let path = format!("{folder}/{file}");
            let table = Table::read(&path);
            tables.insert(path, table);
        }
    }
    tables
}

fn grade_of(table: &Table) -> &str {
    grade(table).trim_end_matches(';')
}

#[test]
fn every_table_says_what_it_is_and_how_far_to_trust_it() {
    for (path, table) in all() {
        for key in ["title", "kind", "licence", "source", "reached", "trust", "columns", "rows"] {
            assert!(table.fact(key).is_some_and(|fact| !fact.is_empty()), "{path} has no {key}");
        }
        let kind = table.fact("kind").unwrap();
        assert!(KINDS.iter().any(|(name, _)| *name == kind), "{path}: kind {kind:?}");
        assert!(GRADES.iter().any(|(name, _)| *name == grade_of(&table)), "{path}: grade {:?}", grade_of(&table));
        assert_eq!(table.fact("rows"), Some(table.rows.len().to_string().as_str()), "{path}");
    }
}

/// The works behind a table without the addresses they were read at: two of them, and how many more its header names.
fn works(table: &Table) -> String {
    let short = |fact: &str| {
        let ends = ["; read at", ", read in a copy", "; read in a copy"];
        let end = ends.iter().filter_map(|end| fact.find(end)).min().unwrap_or(fact.len());
        fact[..end].to_owned()
    };
    let mut works: Vec<String> = table.facts("source").map(short).collect();
    let more = works.len().saturating_sub(2);
    works.truncate(2);
    let and = if more > 0 { format!("; and {more} more in its header") } else { String::new() };
    works.join("; ") + &and
}

/// Tables of one kind, by grade.
fn counts(tables: &BTreeMap<String, Table>, kind: &str) -> Vec<usize> {
    let of = |name: &str| {
        tables.values().filter(|table| table.fact("kind") == Some(kind) && grade_of(table) == name).count()
    };
    GRADES.iter().map(|(name, _)| of(name)).collect()
}

#[test]
fn the_dictionary_is_that_of_the_headers() {
    let tables = all();
    let mut page = String::from("| kind | what that is |");
    GRADES.iter().for_each(|(name, _)| page += &format!(" {name} |"));
    let _ = write!(page, " files |\n|---|---|{}---|\n", "---|".repeat(GRADES.len()));
    let mut sums = vec![0; GRADES.len()];
    for (kind, meaning) in KINDS {
        let counts = counts(&tables, kind);
        sums.iter_mut().zip(&counts).for_each(|(sum, count)| *sum += count);
        let cells: String = counts.iter().map(|count| format!(" {count} |")).collect();
        let _ = writeln!(page, "| {kind} | {meaning} |{cells} {} |", counts.iter().sum::<usize>());
    }
    let cells: String = sums.iter().map(|sum| format!(" {sum} |")).collect();
    let _ = writeln!(page, "| all | |{cells} {} |", tables.len());
    assert_eq!(sums.iter().sum::<usize>(), tables.len());
    same_block("tables/README.md", "kinds", &page);

    let mut page = String::from(
        "| file | kind | grade | source | what was read | licence or status |\n|---|---|---|---|---|---|\n",
    );
    for (path, table) in &tables {
        let joined = |key: &str| table.facts(key).collect::<Vec<_>>().join("; ").replace('|', "/");
        let _ = writeln!(
            page,
            "| [`{path}`]({path}) | {} | {} | {} | {} | {} |",
            joined("kind"),
            grade_of(table),
            works(table).replace('|', "/"),
            joined("reached"),
            joined("licence")
        );
    }
    same_block("tables/README.md", "dictionary", &page);
    same_block("README.md", "grades", &graded(&tables, &sums));
}

/// The counts of the README: tables by grade.
fn graded(tables: &BTreeMap<String, Table>, sums: &[usize]) -> String {
    let mut page = format!("| grade | {} tables | what that is |\n|---|---|---|\n", tables.len());
    for ((name, meaning), sum) in GRADES.iter().zip(sums) {
        let _ = writeln!(page, "| {name} | {sum} | {meaning} |");
    }
    page
}
