//! What several tests need: tables with their headers.

use std::path::{Path, PathBuf};

#[cfg(feature = "diagnosis")]
#[path = "random.rs"]
mod random;

#[cfg(feature = "diagnosis")]
#[allow(unused_imports)] // tests inside the library read tables alone
pub use random::Random;

/// A table of this repository: header facts and rows, all as text.
pub struct Table {
    pub head: Vec<(String, String)>,
    pub columns: Vec<String>,
    pub rows: Vec<Vec<String>>,
}

impl Table {
    /// Reads a table below `tables/`.
    pub fn read(path: impl AsRef<Path>) -> Self {
        let path = root().join("tables").join(path);
        let text = std::fs::read_to_string(&path).unwrap_or_else(|e| panic!("{}: {e}", path.display()));
        let head = text
            .lines()
            .filter_map(|line| line.strip_prefix("# "))
            .filter_map(|line| line.split_once(' '))
            .map(|(key, fact)| (key.to_owned(), fact.trim().to_owned()))
            .collect();
        let mut reader = csv::ReaderBuilder::new().comment(Some(b'#')).from_reader(text.as_bytes());
        let columns = reader.headers().unwrap().iter().map(str::to_owned).collect();
        let rows = reader.records().map(|row| row.unwrap().iter().map(str::to_owned).collect()).collect();
        Self { head, columns, rows }
    }

    /// The first fact under `key`.
    pub fn fact(&self, key: &str) -> Option<&str> {
        self.head.iter().find(|(k, _)| k == key).map(|(_, fact)| fact.as_str())
    }

    /// Every fact under `key`.
    pub fn facts<'a>(&'a self, key: &'a str) -> impl Iterator<Item = &'a str> {
        self.head.iter().filter(move |(k, _)| k == key).map(|(_, fact)| fact.as_str())
    }

    /// Where the column named `name` stands.
    pub fn column(&self, name: &str) -> usize {
        self.columns.iter().position(|c| c == name).unwrap_or_else(|| panic!("no column {name}"))
    }

    /// The numbers of one column.
    pub fn numbers(&self, name: &str) -> Vec<f64> {
        let at = self.column(name);
        self.rows.iter().map(|row| row[at].parse().unwrap_or_else(|_| panic!("{name}: {:?}", row[at]))).collect()
    }
}

/// The root of the repository.
pub fn root() -> PathBuf {
    PathBuf::from(env!("CARGO_MANIFEST_DIR"))
}

/// Runs the ignored test `name` in a process of its own, where nothing that other tests allocate is counted; what it said.
#[cfg(feature = "serde")]
pub fn alone(name: &str) -> String {
    let run = std::process::Command::new(std::env::current_exe().unwrap())
        .args(["--exact", name, "--ignored", "--nocapture"])
        .output()
        .unwrap();
    let (said, errors) = (String::from_utf8_lossy(&run.stdout), String::from_utf8_lossy(&run.stderr));
    assert!(run.status.success() && said.contains("1 passed"), "{said}{errors}");
    said.into_owned()
}

/// Resident memory of this process, where the system tells.
#[cfg(feature = "serde")]
pub fn resident_kib() -> Option<u64> {
    let status = std::fs::read_to_string("/proc/self/status").ok()?;
    let line = status.lines().find(|line| line.starts_with("VmRSS:"))?;
    line.split_whitespace().nth(1)?.parse().ok()
}

/// Compares `made` with the file at `path`, or writes it when `SATLINE_UPDATE` is set.
pub fn same_as_file(path: impl AsRef<Path>, made: &str) {
    let path = root().join(path);
    if std::env::var_os("SATLINE_UPDATE").is_some() {
        std::fs::write(&path, made).unwrap();
        return;
    }
    let kept = std::fs::read_to_string(&path).unwrap_or_else(|e| panic!("{}: {e}", path.display()));
    if kept != made {
        let (line, (kept, made)) =
            kept.lines().zip(made.lines()).enumerate().find(|(_, (a, b))| a != b).unwrap_or((
                kept.lines().count().min(made.lines().count()),
                ("<ends or goes on>", "<goes on or ends>"),
            ));
        panic!(
            "{} differs from what the code makes, first in line {}:\n  kept {kept}\n  made {made}\n\
             if the change is meant, run the tests once with SATLINE_UPDATE=1 and review the difference",
            path.display(),
            line + 1
        );
    }
}

/// Compares `made` with what stands between `<!-- name -->` and `<!-- /name -->` in the file at `path`, or writes it there
/// when `SATLINE_UPDATE` is set.
pub fn same_block(path: &str, name: &str, made: &str) {
    // tests run side by side, and two blocks of one file may be rewritten at once
    static WRITING: std::sync::Mutex<()> = std::sync::Mutex::new(());
    let _alone = WRITING.lock().unwrap_or_else(std::sync::PoisonError::into_inner);
    let whole = std::fs::read_to_string(root().join(path)).unwrap();
    let (start, end) = (format!("<!-- {name} -->\n"), format!("<!-- /{name} -->"));
    let from = whole.find(&start).unwrap_or_else(|| panic!("{path} has no {start}")) + start.len();
    let to = from + whole[from..].find(&end).unwrap_or_else(|| panic!("{path} has no {end}"));
    same_as_file(path, &format!("{}{made}{}", &whole[..from], &whole[to..]));
}

/// Every object inside `value`, by its path, the innermost first.
#[cfg(feature = "serde")]
pub fn objects(value: &serde_json::Value, path: String, found: &mut Vec<String>) {
    match value {
        serde_json::Value::Object(fields) => {
            fields.iter().for_each(|(name, inner)| objects(inner, format!("{path}/{name}"), found));
            found.push(path);
        }
        serde_json::Value::Array(items) => {
            items.iter().enumerate().for_each(|(i, inner)| objects(inner, format!("{path}/{i}"), found));
        }
        _ => {}
    }
}
