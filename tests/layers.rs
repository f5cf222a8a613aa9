//! The layers of the crate and the manners of its source files, read from the files themselves.

use std::collections::BTreeMap;
use std::path::{Path, PathBuf};

use crate::support::root;

/// Modules from the ground up. A module uses what lies below it; modules of one layer do not know each other, except
/// those of the ground.
const LAYERS: [&[&str]; 12] = [
    &["quantity", "source", "error", "float"],
    &["numeric"],
    &["helmholtz", "saturation", "air"],
    &["refrigerant", "fit"],
    &["line", "service"],
    &["circuit"],
    &["inspection"],
    &["expected", "trace"],
    &["diagnosis"],
    &["plot"],
    &["report"],
    &["guide"],
];

fn layer(module: &str) -> Option<usize> {
    LAYERS.iter().position(|modules| modules.contains(&module))
}

/// A source file: its module (none for the crate root), where it is, and its text.
struct File {
    module: Option<String>,
    path: PathBuf,
    text: String,
}

fn files() -> Vec<File> {
    let src = root().join("src");
    let mut files = Vec::new();
    let mut folders = vec![src.clone()];
    while let Some(folder) = folders.pop() {
        for entry in std::fs::read_dir(folder).unwrap() {
            let path = entry.unwrap().path();
            if path.is_dir() {
                folders.push(path);
                continue;
            }
            assert_eq!(path.extension().unwrap(), "rs", "{}", path.display());
            let inside = path.strip_prefix(&src).unwrap();
            let first = Path::new(inside.components().next().unwrap().as_os_str()).file_stem().unwrap();
            let module = Some(first.to_str().unwrap().to_owned()).filter(|name| name != "lib");
            files.push(File { module, text: std::fs::read_to_string(&path).unwrap(), path: inside.to_owned() });
        }
    }
    files
}

/// The text without comments, without the contents of strings and characters, and without `#[cfg(test)]` items.
fn code(text: &str) -> String {
    let chars: Vec<char> = text.chars().collect();
    let at = |i: usize| chars.get(i).copied().unwrap_or('\0');
    let mut out = String::new();
    let mut i = 0;
    while i < chars.len() {
        if at(i) == '/' && at(i + 1) == '/' {
            while i < chars.len() && at(i) != '\n' {
                i += 1;
            }
        } else if at(i) == '/' && at(i + 1) == '*' {
            while i < chars.len() && !(at(i) == '*' && at(i + 1) == '/') {
                i += 1;
            }
            i += 2;
        } else if at(i) == 'r' && (at(i + 1) == '"' || (at(i + 1) == '#' && at(i + 2) == '"')) {
            // raw string, with one # or none
            let hash = at(i + 1) == '#';
            i += if hash { 3 } else { 2 };
            while i < chars.len() && !(at(i) == '"' && (!hash || at(i + 1) == '#')) {
                i += 1;
            }
            i += if hash { 2 } else { 1 };
            out.push_str("\"\"");
        } else if at(i) == '"' {
            i += 1;
            while i < chars.len() && at(i) != '"' {
                i += if at(i) == '\\' { 2 } else { 1 };
            }
            i += 1;
            out.push_str("\"\"");
        } else if at(i) == '\'' && at(i + 1) == '\\' {
            i += 3;
            while i < chars.len() && at(i) != '\'' {
                i += 1;
            }
            i += 1;
        } else if at(i) == '\'' && at(i + 2) == '\'' {
            i += 3;
        } else {
            out.push(at(i));
            i += 1;
        }
    }
    // a file that is a test as a whole
    if out.contains("#![cfg(test)]") { String::new() } else { without_tests(&out) }
}

/// `code` without each item that follows `#[cfg(test)]`, up to the brace that closes it or its semicolon.
fn without_tests(code: &str) -> String {
    let mut out = String::new();
    let mut rest = code;
    while let Some(start) = rest.find("#[cfg(test)]") {
        out.push_str(&rest[..start]);
        let mut depth = 0;
        let mut end = rest.len();
        for (i, c) in rest[start..].char_indices() {
            match c {
                '{' => depth += 1,
                '}' => depth -= 1,
                _ => {}
            }
            if depth == 0 && (c == '}' || c == ';') {
                end = start + i + 1;
                break;
            }
        }
        rest = &rest[end..];
    }
    out + rest
}

/// The first name of every path of a use tree: `{a, b::{c, d}, e}` gives a, b, e.
fn first_names(tree: &str) -> Vec<String> {
    let tree = tree.trim_start();
    let Some(inside) = tree.strip_prefix('{') else {
        let name: String = tree.chars().take_while(|c| c.is_alphanumeric() || *c == '_').collect();
        return vec![name];
    };
    let mut names = Vec::new();
    let mut depth = 0;
    let mut part = String::new();
    for c in inside.chars() {
        match c {
            '{' => depth += 1,
            '}' if depth == 0 => break,
            '}' => depth -= 1,
            _ => {}
        }
        if c == ',' && depth == 0 {
            names.push(std::mem::take(&mut part));
        } else {
            part.push(c);
        }
    }
    names.push(part);
    names.iter().filter(|part| !part.trim().is_empty()).flat_map(|part| first_names(part)).collect()
}

/// What stands behind every `crate::` of `code`.
fn mentions(code: &str) -> Vec<String> {
    let code = code.replace("$crate", "crate");
    code.match_indices("crate::")
        .filter(|(at, _)| !code[..*at].ends_with(|c: char| c.is_alphanumeric() || c == '_'))
        .flat_map(|(at, found)| first_names(&code[at + found.len()..]))
        .collect()
}

/// Names at the crate root and the module each comes from, from `pub use module::{...}` of the root.
fn reexports(lib: &str) -> BTreeMap<String, String> {
    let mut names = BTreeMap::new();
    for item in lib.split(';') {
        let Some((_, path)) = item.split_once("pub use ") else { continue };
        let (module, tree) = path.split_once("::").unwrap_or_else(|| panic!("re-export of a module: {path}"));
        for name in first_names(tree) {
            names.insert(name, module.trim().to_owned());
        }
    }
    names
}

/// The module that `crate::name` leads to: itself one, or the one a name of the root comes from.
fn owner<'a>(name: &'a str, reexports: &'a BTreeMap<String, String>) -> Option<&'a str> {
    layer(name).map(|_| name).or_else(|| reexports.get(name).map(String::as_str))
}

#[test]
fn modules_use_only_what_lies_below_them() {
    let files = files();
    let lib = files.iter().find(|file| file.module.is_none()).unwrap();
    let reexports = reexports(&code(&lib.text));
    assert_eq!(reexports.get("Pressure").map(String::as_str), Some("quantity"), "{reexports:?}");

    let mut wrong = Vec::new();
    for file in &files {
        let Some(module) = &file.module else { continue };
        let Some(own) = layer(module) else {
            wrong.push(format!("{}: module {module} stands in no layer", file.path.display()));
            continue;
        };
        for name in mentions(&code(&file.text)) {
            let Some(used) = owner(&name, &reexports) else {
                wrong.push(format!("{}: crate::{name} is no module and no re-export", file.path.display()));
                continue;
            };
            let theirs = layer(used).unwrap();
            if used != module && (theirs > own || (theirs == own && own != 0)) {
                wrong.push(format!("{}: {module} (layer {own}) uses {used} (layer {theirs})", file.path.display()));
            }
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

#[test]
fn no_file_leaves_its_module_through_super() {
    // super:: of a file directly below src is the crate root and would pass the layers unseen
    for file in files() {
        let code = code(&file.text);
        let depth = file.path.components().count();
        let own = file.path.file_name().is_some_and(|name| name == "mod.rs");
        let levels = depth - usize::from(own);
        let climb = "super::".repeat(levels);
        assert!(!code.contains(&climb), "{}: {climb} reaches the crate root", file.path.display());
    }
}

#[test]
fn every_file_says_what_it_is_for() {
    for file in files().iter().filter(|file| file.module.is_some()) {
        let first = file.text.lines().next().unwrap_or_default();
        let says = first.strip_prefix("//! ").unwrap_or_default();
        assert!(says.len() > 10 && !says.contains("TODO"), "{} begins with {first:?}", file.path.display());
    }
    let lib = files().into_iter().find(|file| file.module.is_none()).unwrap();
    assert!(lib.text.starts_with("#![cfg_attr(feature = \"diagnosis\", doc = include_str!(\"../README.md\"))]"));
}

#[test]
fn library_code_neither_panics_nor_reaches_outside() {
    const BANNED: [&str; 20] = [
        "unsafe",
        ".unwrap()",
        ".unwrap_err()",
        ".expect(",
        ".expect_err(",
        "panic!",
        "todo!",
        "unimplemented!",
        "unreachable!",
        "print!",
        "println!",
        "eprint!",
        "eprintln!",
        "dbg!",
        "std::fs",
        "std::env",
        "std::net",
        "std::process",
        "static mut",
        "SystemTime",
    ];
    let mut wrong = Vec::new();
    for file in files() {
        let code = code(&file.text);
        for word in BANNED.into_iter().filter(|word| code.contains(word)) {
            wrong.push(format!("{}: {word}", file.path.display()));
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

#[test]
fn the_reader_of_source_files_reads_them_right() {
    let text = r#"
        // crate::plot in a comment
        use crate::{Error, quantity::{Pressure, Range as R}, source};
        const TEXT: &str = "crate::report \" unwrap()"; const QUOTE: char = '"'; const OTHER: char = '\'';
        fn f<'a>(x: &'a str) -> crate::line::Line { crate::numeric::root(x) }
        #[cfg(test)]
        mod tests { use crate::plot::Page; fn g() { x.unwrap() } }
        macro_rules! m { () => { $crate::air::STANDARD } }
    "#;
    let code = code(text);
    assert_eq!(mentions(&code), ["Error", "quantity", "source", "line", "numeric", "air"]);
    assert!(!code.contains("unwrap"), "{code}");
    let lib = reexports("pub mod a; pub use a::{X, Y,\n W}; pub use b::V;");
    let expected = [("V", "b"), ("W", "a"), ("X", "a"), ("Y", "a")].map(|(n, m)| (n.to_owned(), m.to_owned()));
    assert_eq!(lib, BTreeMap::from(expected));
}
