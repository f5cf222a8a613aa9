//! The source files of satline as syntax trees, and the functions in them.

use std::path::{Path, PathBuf};

use syn::{Attribute, Block, ImplItem, Item, Meta, Signature, TraitItem, Type};

/// The root of the repository.
pub fn root() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).parent().unwrap().to_owned()
}

/// Every file below `folder` whose name ends in `.ending`, by its path from `folder`, sorted.
pub fn files(folder: &Path, ending: &str) -> Vec<(String, String)> {
    let (mut files, mut folders) = (Vec::new(), vec![folder.to_owned()]);
    while let Some(at) = folders.pop() {
        for entry in std::fs::read_dir(&at).unwrap_or_else(|error| panic!("{}: {error}", at.display())) {
            let path = entry.unwrap().path();
            if path.is_dir() {
                folders.push(path);
            } else if path.extension().is_some_and(|found| found == ending) {
                let name: Vec<_> =
                    path.strip_prefix(folder).unwrap().iter().map(|part| part.to_str().unwrap()).collect();
                files.push((name.join("/"), std::fs::read_to_string(&path).unwrap()));
            }
        }
    }
    files.sort();
    files
}

/// Every source file of the library, by its path from `src`.
pub fn source_files() -> Vec<(String, syn::File)> {
    let parsed = |(name, text): (String, String)| {
        let file = syn::parse_file(&text).unwrap_or_else(|error| panic!("src/{name}: {error}"));
        (name, file)
    };
    files(&root().join("src"), "rs").into_iter().map(parsed).collect()
}

/// Whether an attribute is `#[name(argument)]`, such as `#[cfg(test)]`.
pub fn has(attributes: &[Attribute], name: &str, argument: &str) -> bool {
    attributes.iter().any(|attribute| match &attribute.meta {
        Meta::List(list) => list.path.is_ident(name) && list.tokens.to_string() == argument,
        _ => false,
    })
}

/// A function with a body, outside other functions.
pub struct Function<'a> {
    /// `Type::name` for a method, otherwise `name`.
    pub name: String,
    pub signature: &'a Signature,
    pub body: &'a Block,
    /// Whether it stands behind `#[cfg(test)]`.
    pub test: bool,
}

/// The functions of a file, tests all of them where the file is one as a whole. Those written inside a function belong to it.
pub fn functions(file: &syn::File) -> Vec<Function<'_>> {
    let mut found = Vec::new();
    collect(&file.items, has(&file.attrs, "cfg", "test"), &mut found);
    found
}

fn collect<'a>(items: &'a [Item], test: bool, found: &mut Vec<Function<'a>>) {
    let function = |of: &str, signature: &'a Signature, body, attributes| {
        let name = if of.is_empty() { signature.ident.to_string() } else { format!("{of}::{}", signature.ident) };
        Function { name, signature, body, test: test || has(attributes, "cfg", "test") }
    };
    for item in items {
        match item {
            Item::Fn(one) => found.push(function("", &one.sig, &*one.block, &one.attrs)),
            Item::Impl(block) => {
                let of = type_name(&block.self_ty);
                found.extend(block.items.iter().filter_map(|item| match item {
                    ImplItem::Fn(one) => Some(function(&of, &one.sig, &one.block, &one.attrs)),
                    _ => None,
                }));
            }
            Item::Trait(one) => {
                let of = one.ident.to_string();
                found.extend(one.items.iter().filter_map(|item| match item {
                    TraitItem::Fn(one) => Some(function(&of, &one.sig, one.default.as_ref()?, &one.attrs)),
                    _ => None,
                }));
            }
            Item::Mod(module) => {
                let items = module.content.as_ref().map_or(&[][..], |(_, items)| items);
                collect(items, test || has(&module.attrs, "cfg", "test"), found);
            }
            _ => {}
        }
    }
}

/// The last name of a type's path; empty for types without one, such as tuples.
pub fn type_name(of: &Type) -> String {
    match of {
        Type::Path(path) => path.path.segments.last().map_or(String::new(), |segment| segment.ident.to_string()),
        Type::Reference(reference) => type_name(&reference.elem),
        _ => String::new(),
    }
}

#[test]
fn functions_are_named_by_their_type_and_tests_are_told_apart() {
    let file = syn::parse_file(
        "fn free() { fn inside() {} }
         impl<T> Of<T> { fn method(&self) {} }
         trait Shape { fn drawn(&self) {} fn area(&self); }
         #[cfg(test)] mod tests { fn it_works() {} }
         mod inner { fn deep() {} }",
    )
    .unwrap();
    let found: Vec<_> = functions(&file).into_iter().map(|one| (one.name, one.test)).collect();
    let expected =
        [("free", false), ("Of::method", false), ("Shape::drawn", false), ("it_works", true), ("deep", false)];
    assert_eq!(found, expected.map(|(name, test)| (name.to_owned(), test)));
    let whole = syn::parse_file("#![cfg(test)] fn it_works() {}").unwrap();
    assert!(functions(&whole).iter().all(|one| one.test) && functions(&whole).len() == 1);
}

#[test]
fn the_source_is_found() {
    let names: Vec<_> = source_files().into_iter().map(|(name, _)| name).collect();
    assert!(names.len() > 100 && names.contains(&"lib.rs".to_owned()), "{names:?}");
}
