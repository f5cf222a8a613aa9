//! Every public item of satline by its shortest path, and what its names are held to.
//!
//! The listing is read from the source: modules are followed from `src/lib.rs`, private ones only through `pub use`. Left out are
//! items behind `#[doc(hidden)]` or `#[cfg(test)]`, implementations of traits, and exported macros.
//!
//! Of a type that a `macro_rules!` of the crate declares, only name and kind are seen, marked "by" the macro: neither its variants
//! nor its methods. The name is the one beside `pub struct` or `pub enum` in the macro, or, where a parameter stands there, the first
//! identifier of the call.

use std::collections::BTreeMap;

use crate::crate_tree::Crate;
use crate::listing::{Line, listing};
use crate::source::root;

/// How many public types there may be.
const MOST_TYPES: usize = 150;

fn public_face() -> Vec<Line> {
    listing(&Crate::read(&root().join("src/lib.rs")))
}

/// The type names that stand on more than one line.
fn duplicates(lines: &[Line]) -> BTreeMap<&str, Vec<&str>> {
    let mut paths = BTreeMap::<_, Vec<_>>::new();
    for line in lines.iter().filter(|line| line.is_type) {
        paths.entry(line.path.rsplit("::").next().unwrap()).or_default().push(line.path.as_str());
    }
    paths.retain(|_, paths| paths.len() > 1);
    paths
}

fn count_types(lines: &[Line]) -> usize {
    lines.iter().filter(|line| line.is_type).count()
}

/// The file of the listing.
fn page(lines: &[Line]) -> String {
    let mut page = format!(
        "# Every public item of satline by its shortest path; made by `SATLINE_UPDATE=1 cargo test -p satline-checks`.\n\
         # {} public types (structs, enums, traits, type aliases), {} items in all\n\n",
        count_types(lines),
        lines.len()
    );
    lines.iter().for_each(|line| page.extend([line.text.as_str(), "\n"]));
    page
}

#[test]
fn the_public_face_is_the_one_committed() {
    let (path, made) = (root().join("checks/public_face.txt"), page(&public_face()));
    println!("{}", made.lines().nth(1).unwrap());
    if std::env::var_os("SATLINE_UPDATE").is_some() {
        std::fs::write(&path, &made).unwrap();
    }
    let kept = std::fs::read_to_string(&path).unwrap_or_default();
    let only = |a: &str, b: &str| {
        a.lines().filter(|line| !b.lines().any(|other| other == *line)).collect::<Vec<_>>().join("\n")
    };
    assert!(
        made == kept,
        "the public face changed; remake the listing by `SATLINE_UPDATE=1 cargo test -p satline-checks`\nnew:\n{}\ngone:\n{}",
        only(&made, &kept),
        only(&kept, &made),
    );
}

#[test]
fn one_public_name_is_one_type() {
    let lines = public_face();
    let found = duplicates(&lines);
    assert!(found.is_empty(), "names of several public types: {found:#?}");
}

#[test]
fn public_types_stay_few() {
    let count = count_types(&public_face());
    assert!(count <= MOST_TYPES, "{count} public types, at most {MOST_TYPES} are allowed");
}

fn lines_of(text: &str) -> Vec<Line> {
    listing(&Crate::of_text(text))
}

#[test]
fn two_types_of_one_name_are_found() {
    let twice = lines_of("pub mod a { pub struct Car; } pub mod b { pub enum Car {} } pub struct Road;");
    assert_eq!(duplicates(&twice), BTreeMap::from([("Car", vec!["satline::a::Car", "satline::b::Car"])]));
    assert_eq!(count_types(&twice), 3);
    // one type by two paths is one type, and a function may be called as a type
    let once = lines_of("pub mod a { pub struct Car; } pub use a::Car; pub mod b { pub fn Car() {} }");
    assert_eq!((duplicates(&once), count_types(&once)), (BTreeMap::new(), 1));
}
