//! The modules of a crate, and what a path in one of them means.

use std::collections::{BTreeMap, BTreeSet};
use std::path::Path;

use proc_macro2::{TokenStream, TokenTree};
use syn::{Ident, Item, UseTree, Visibility};

use crate::source::has;

/// What a name stands for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Named {
    Module(usize),
    /// An item of a module, by the numbers of both.
    Item(usize, usize),
}

pub struct Module {
    pub items: Vec<Item>,
    parent: Option<usize>,
    children: BTreeMap<String, usize>,
    imports: Vec<Import>,
}

/// One name of a `use`; of a glob, the name is `None`.
struct Import {
    public: bool,
    path: Vec<String>,
    name: Option<String>,
}

/// How many imports are followed one after another; more is a circle.
const MOST_IMPORTS: usize = 8;

/// The modules of a crate; the root is the first.
pub struct Crate {
    pub modules: Vec<Module>,
}

impl Crate {
    /// The crate whose root is the file at `path`.
    pub fn read(path: &Path) -> Self {
        let text = std::fs::read_to_string(path).unwrap();
        Self::new(syn::parse_file(&text).unwrap().items, path.parent().unwrap())
    }

    /// A crate of inline modules.
    pub fn of_text(text: &str) -> Self {
        Self::new(syn::parse_file(text).unwrap().items, Path::new("no folder"))
    }

    fn new(items: Vec<Item>, folder: &Path) -> Self {
        let mut all = Self { modules: Vec::new() };
        all.add(items, folder, None);
        all.add_types_of_macros();
        all
    }

    /// Adds a module whose submodules have their files in `folder`; returns its number.
    fn add(&mut self, items: Vec<Item>, folder: &Path, parent: Option<usize>) -> usize {
        let number = self.modules.len();
        let items: Vec<_> = items.into_iter().filter(|item| !is_left_out(item)).collect();
        let imports = items.iter().flat_map(imports).collect();
        self.modules.push(Module { items, parent, children: BTreeMap::new(), imports });
        for i in 0..self.modules[number].items.len() {
            let Item::Mod(module) = self.modules[number].items[i].clone() else { continue };
            let name = module.ident.to_string();
            let inside = match module.content {
                Some((_, items)) => items,
                None => module_file(folder, &name).items,
            };
            let child = self.add(inside, &folder.join(&name), Some(number));
            self.modules[number].children.insert(name, child);
        }
        number
    }

    /// Adds an empty item, with the attribute `by`, for every type that a macro of the crate declares.
    fn add_types_of_macros(&mut self) {
        let mut macros = BTreeMap::new();
        for item in self.modules.iter().flat_map(|module| &module.items) {
            if let Item::Macro(one) = item
                && let Some(name) = &one.ident
            {
                macros.insert(name.to_string(), declared(&one.mac.tokens));
            }
        }
        for module in &mut self.modules {
            let mut types = Vec::new();
            for item in &module.items {
                let Item::Macro(call) = item else { continue };
                let by = call.mac.path.segments.last().unwrap().ident.to_string();
                for (kind, name) in macros.get(&by).into_iter().flatten() {
                    let name = name.clone().or_else(|| first_identifier(&call.mac.tokens)).unwrap();
                    let end = if kind == "struct" { ";" } else { "{}" };
                    types.push(syn::parse_str(&format!("#[by({by})] pub {kind} {name} {end}")).unwrap());
                }
            }
            module.items.append(&mut types);
        }
    }

    /// What `path` stands for in a module: types, modules and values of that name; nothing for a path of another crate.
    pub fn resolve(&self, module: usize, path: &[String]) -> BTreeSet<Named> {
        self.resolve_within(module, path, MOST_IMPORTS)
    }

    fn resolve_within(&self, module: usize, path: &[String], imports: usize) -> BTreeSet<Named> {
        let (last, before) = path.split_last().expect("a path has a name");
        let step = |of: usize, name: &String| match name.as_str() {
            "crate" => Some(0),
            "self" => Some(of),
            "super" => self.modules[of].parent,
            name => match self.modules[of].children.get(name) {
                Some(&child) => Some(child),
                None => modules(&self.look_up(of, name, imports)).next(),
            },
        };
        match before.iter().try_fold(module, step) {
            Some(of) if ["crate", "self", "super"].contains(&last.as_str()) => {
                step(of, last).map(Named::Module).into_iter().collect()
            }
            Some(of) => self.look_up(of, last, imports),
            None => BTreeSet::new(),
        }
    }

    fn look_up(&self, module: usize, name: &str, imports: usize) -> BTreeSet<Named> {
        let of = &self.modules[module];
        let mut found: BTreeSet<_> =
            of.own_names(module).filter(|(own, ..)| own == name).map(|(_, _, named)| named).collect();
        let Some(imports) = imports.checked_sub(1) else { return found };
        for Import { path, name: as_name, .. } in &of.imports {
            match as_name {
                Some(as_name) if as_name == name => found.extend(self.resolve_within(module, path, imports)),
                Some(_) => {}
                None => {
                    let from = self.resolve_within(module, path, imports);
                    found.extend(modules(&from).flat_map(|of| self.look_up(of, name, imports)));
                }
            }
        }
        found
    }

    /// What a module offers to other crates, by name.
    pub fn public_names(&self, module: usize) -> BTreeSet<(String, Named)> {
        self.public_names_within(module, MOST_IMPORTS)
    }

    fn public_names_within(&self, module: usize, imports: usize) -> BTreeSet<(String, Named)> {
        let of = &self.modules[module];
        let own = of.own_names(module).filter(|(_, public, _)| *public);
        let mut names: BTreeSet<_> = own.map(|(name, _, named)| (name, named)).collect();
        let Some(imports) = imports.checked_sub(1) else { return names };
        for Import { path, name, .. } in of.imports.iter().filter(|import| import.public) {
            let found = self.resolve_within(module, path, imports);
            match name {
                Some(name) => names.extend(found.into_iter().map(|named| (name.clone(), named))),
                None => names.extend(modules(&found).flat_map(|of| self.public_names_within(of, imports))),
            }
        }
        names
    }
}

impl Module {
    /// The names declared in this module, which has the number `number`: whether public, and what they stand for.
    fn own_names(&self, number: usize) -> impl Iterator<Item = (String, bool, Named)> {
        self.items.iter().enumerate().filter_map(move |(i, item)| {
            let (ident, visibility) = identity(item)?;
            let name = ident.to_string();
            let named = match item {
                Item::Mod(_) => Named::Module(self.children[&name]),
                _ => Named::Item(number, i),
            };
            Some((name, matches!(visibility, Visibility::Public(_)), named))
        })
    }
}

fn modules(named: &BTreeSet<Named>) -> impl Iterator<Item = usize> {
    named.iter().filter_map(|named| match named {
        Named::Module(number) => Some(*number),
        Named::Item(..) => None,
    })
}

/// The name and visibility of an item that has both.
fn identity(item: &Item) -> Option<(&Ident, &Visibility)> {
    Some(match item {
        Item::Const(one) => (&one.ident, &one.vis),
        Item::Enum(one) => (&one.ident, &one.vis),
        Item::Fn(one) => (&one.sig.ident, &one.vis),
        Item::Mod(one) => (&one.ident, &one.vis),
        Item::Static(one) => (&one.ident, &one.vis),
        Item::Struct(one) => (&one.ident, &one.vis),
        Item::Trait(one) => (&one.ident, &one.vis),
        Item::Type(one) => (&one.ident, &one.vis),
        _ => return None,
    })
}

/// Whether an item stands behind `#[cfg(test)]` or `#[doc(hidden)]`.
fn is_left_out(item: &Item) -> bool {
    let attributes = match item {
        Item::Const(one) => &one.attrs,
        Item::Enum(one) => &one.attrs,
        Item::Fn(one) => &one.attrs,
        Item::Impl(one) => &one.attrs,
        Item::Macro(one) => &one.attrs,
        Item::Mod(one) => &one.attrs,
        Item::Static(one) => &one.attrs,
        Item::Struct(one) => &one.attrs,
        Item::Trait(one) => &one.attrs,
        Item::Type(one) => &one.attrs,
        Item::Use(one) => &one.attrs,
        _ => return false,
    };
    has(attributes, "cfg", "test") || has(attributes, "doc", "hidden")
}

/// The file of `mod name;` in a module whose submodules have their files in `folder`.
fn module_file(folder: &Path, name: &str) -> syn::File {
    let (beside, inside) = (folder.join(format!("{name}.rs")), folder.join(name).join("mod.rs"));
    let path = if beside.exists() { beside } else { inside };
    let text = std::fs::read_to_string(&path).unwrap_or_else(|error| panic!("{}: {error}", path.display()));
    syn::parse_file(&text).unwrap_or_else(|error| panic!("{}: {error}", path.display()))
}

/// The names that an item imports.
fn imports(item: &Item) -> Vec<Import> {
    let Item::Use(one) = item else { return Vec::new() };
    let mut found = Vec::new();
    let public = matches!(one.vis, Visibility::Public(_));
    names_of_use(&one.tree, &[], &mut |path, name| found.push(Import { public, path, name }));
    found
}

fn names_of_use(tree: &UseTree, before: &[String], add: &mut impl FnMut(Vec<String>, Option<String>)) {
    let with = |ident: &Ident| match ident.to_string() {
        // `a::{self}` is `a`
        of_itself if of_itself == "self" && !before.is_empty() => before.to_vec(),
        name => [before, &[name]].concat(),
    };
    match tree {
        UseTree::Path(one) => names_of_use(&one.tree, &with(&one.ident), add),
        UseTree::Name(one) => add(with(&one.ident), with(&one.ident).pop()),
        UseTree::Rename(one) => add(with(&one.ident), Some(one.rename.to_string())),
        UseTree::Glob(_) => add(before.to_vec(), None),
        UseTree::Group(group) => group.items.iter().for_each(|one| names_of_use(one, before, add)),
    }
}

/// The public types that tokens declare: kind, and name unless it is a parameter of a macro.
fn declared(tokens: &TokenStream) -> Vec<(String, Option<String>)> {
    let tokens: Vec<_> = tokens.clone().into_iter().collect();
    let word = |i: usize| tokens.get(i).map_or(String::new(), ToString::to_string);
    let mut found = Vec::new();
    for (i, token) in tokens.iter().enumerate() {
        if let TokenTree::Group(group) = token {
            found.extend(declared(&group.stream()));
        }
        if word(i) == "pub" && ["struct", "enum"].contains(&word(i + 1).as_str()) {
            found.push((word(i + 1), Some(word(i + 2)).filter(|name| name != "$")));
        }
    }
    found
}

/// The first identifier outside attributes and comments.
fn first_identifier(tokens: &TokenStream) -> Option<String> {
    tokens.clone().into_iter().find_map(|token| match token {
        TokenTree::Ident(ident) => Some(ident.to_string()),
        _ => None,
    })
}

#[test]
fn a_path_is_followed_through_imports() {
    let text = "mod a { pub struct Car; pub(super) use self::Car as Auto; pub mod inner { use super::*; } }
                use a::{self, inner::Car as Deep}; pub use extern_crate::thing; use log::log; mod gone { pub use crate::a::*; }";
    let all = Crate::of_text(text);
    let resolve = |path: &str| {
        all.resolve(0, &path.split("::").map(str::to_owned).collect::<Vec<_>>()).into_iter().collect::<Vec<_>>()
    };
    let car = resolve("crate::a::Car");
    assert!(matches!(car[..], [Named::Item(..)]), "{car:?}");
    for path in ["a::Auto", "self::a::Car", "Deep", "gone::Car", "gone::inner::super::Car"] {
        assert_eq!(resolve(path), car, "{path}");
    }
    for nothing in ["thing", "log", "Car", "a::Bus", "super::a"] {
        assert_eq!(resolve(nothing), [], "{nothing}");
    }
}

#[test]
fn types_of_macros_are_known_by_kind_and_name() {
    let text = "macro_rules! units { ($(#[$d:meta])* $name:ident { $($v:ident)* }) => { pub enum $name { $($v,)* } } }
                macro_rules! fixed { () => { pub struct Given; struct Hidden; } }
                units! { /// Of mass.
                    MassUnit { Gram } }
                fixed!();";
    let names = Crate::of_text(text).public_names(0).into_iter().map(|(name, _)| name).collect::<Vec<_>>();
    assert_eq!(names, ["Given", "MassUnit"]);
}
