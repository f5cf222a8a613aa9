//! Public items as lines of text: kind, path and signature.

use std::collections::{BTreeMap, BTreeSet};

use syn::{Attribute, Fields, ImplItem, Item, ItemFn, Signature, TraitItem, Type, Visibility};

use crate::crate_tree::{Crate, Named};
use crate::source::has;

/// One public item.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub struct Line {
    pub path: String,
    /// All on one line: `fn satline::Line::new(refrigerant: Refrigerant) -> Result<Self, Error>`.
    pub text: String,
    /// A struct, enum, trait or type alias.
    pub is_type: bool,
}

/// Every public item of a crate by its shortest path, sorted by path.
pub fn listing(of: &Crate) -> Vec<Line> {
    let paths = shortest_paths(of);
    let mut lines = BTreeSet::new();
    for (named, path) in &paths {
        if let Named::Item(module, item) = *named {
            lines.extend(lines_of_item(&of.modules[module].items[item], path));
        }
    }
    for (number, module) in of.modules.iter().enumerate() {
        for item in &module.items {
            let Item::Impl(block) = item else { continue };
            let (Type::Path(of_type), None) = (&*block.self_ty, &block.trait_) else { continue };
            let segments: Vec<_> = of_type.path.segments.iter().map(|segment| segment.ident.to_string()).collect();
            let path = of.resolve(number, &segments).into_iter().find_map(|named| paths.get(&named));
            lines.extend(path.iter().flat_map(|path| block.items.iter().filter_map(|item| line_of_method(item, path))));
        }
    }
    lines.into_iter().collect()
}

/// Breadth first from the root, so that the first path to an item is the shortest.
fn shortest_paths(of: &Crate) -> BTreeMap<Named, String> {
    let mut paths = BTreeMap::from([(Named::Module(0), "satline".to_owned())]);
    let mut level = vec![(0, "satline".to_owned())];
    while !level.is_empty() {
        let mut next = Vec::new();
        for (module, at) in level {
            for (name, named) in of.public_names(module) {
                let path = format!("{at}::{name}");
                if paths.contains_key(&named) {
                    continue;
                }
                paths.insert(named, path.clone());
                if let Named::Module(inside) = named {
                    next.push((inside, path));
                }
            }
        }
        level = next;
    }
    paths
}

/// An item, with the variants and public fields of a type and the items of a trait.
fn lines_of_item(item: &Item, path: &str) -> Vec<Line> {
    let line = |text, is_type| Line { path: path.to_owned(), text, is_type };
    let inside = |name: String, kind: &str, rest: &str| {
        let path = format!("{path}::{name}");
        Line { text: format!("{kind} {path}{rest}"), path, is_type: false }
    };
    match item {
        Item::Fn(one) => vec![line(signature(&one.sig, path), false)],
        Item::Const(one) => vec![line(format!("const {path}: {}", type_text(&one.ty)), false)],
        Item::Static(one) => vec![line(format!("static {path}: {}", type_text(&one.ty)), false)],
        Item::Type(_) => vec![line(declaration(item, path), true)],
        Item::Struct(one) => {
            let seen = one.fields.iter().enumerate().filter(|(_, field)| is_seen(&field.vis, &field.attrs));
            let fields = seen.map(|(i, field)| {
                let name = field.ident.as_ref().map_or(i.to_string(), ToString::to_string);
                inside(name, "field", &format!(": {}", type_text(&field.ty)))
            });
            [line(declaration(item, path), true)].into_iter().chain(fields).collect()
        }
        Item::Enum(one) => {
            let seen = one.variants.iter().filter(|variant| !has(&variant.attrs, "doc", "hidden"));
            let variants =
                seen.map(|variant| inside(variant.ident.to_string(), "variant", &fields_text(&variant.fields)));
            [line(declaration(item, path), true)].into_iter().chain(variants).collect()
        }
        Item::Trait(one) => {
            let items = one.items.iter().filter_map(|item| match item {
                TraitItem::Fn(one) => {
                    let path = format!("{path}::{}", one.sig.ident);
                    Some(Line { text: signature(&one.sig, &path), path, is_type: false })
                }
                TraitItem::Const(one) => {
                    Some(inside(one.ident.to_string(), "const", &format!(": {}", type_text(&one.ty))))
                }
                TraitItem::Type(one) => Some(inside(one.ident.to_string(), "associated type", "")),
                _ => None,
            });
            [line(declaration(item, path), true)].into_iter().chain(items).collect()
        }
        _ => Vec::new(),
    }
}

fn is_seen(visibility: &Visibility, attributes: &[Attribute]) -> bool {
    let left_out = has(attributes, "doc", "hidden") || has(attributes, "cfg", "test");
    matches!(visibility, Visibility::Public(_)) && !left_out
}

/// A public method, associated function or associated constant of the type at `path`.
fn line_of_method(item: &ImplItem, path: &str) -> Option<Line> {
    let (visibility, attributes, ident) = match item {
        ImplItem::Fn(one) => (&one.vis, &one.attrs, &one.sig.ident),
        ImplItem::Const(one) => (&one.vis, &one.attrs, &one.ident),
        _ => return None,
    };
    if !is_seen(visibility, attributes) {
        return None;
    }
    let path = format!("{path}::{ident}");
    let text = match item {
        ImplItem::Fn(one) => signature(&one.sig, &path),
        ImplItem::Const(one) => format!("const {path}: {}", type_text(&one.ty)),
        _ => return None,
    };
    Some(Line { path, text, is_type: false })
}

/// Source text on one line, as it would be written by hand.
fn one_line(item: Item) -> String {
    let file = syn::File { shebang: None, attrs: Vec::new(), items: vec![item] };
    let text = prettyplease::unparse(&file).split_whitespace().collect::<Vec<_>>().join(" ");
    let text = text.replace("( ", "(").replace(", )", ")").replace(", >", ">").replace("< ", "<");
    text.trim_end_matches(" {}").trim_end_matches([';', ',']).to_owned()
}

/// A type or trait without its contents, with its path in place of its name.
fn declaration(item: &Item, path: &str) -> String {
    let (mut item, mut attributes, mut name) = (item.clone(), Vec::new(), String::new());
    let mut bare = |of_attributes: &mut Vec<Attribute>, visibility: &mut Visibility, ident: &syn::Ident| {
        attributes = std::mem::take(of_attributes);
        *visibility = Visibility::Inherited;
        name = ident.to_string();
    };
    match &mut item {
        Item::Type(one) => bare(&mut one.attrs, &mut one.vis, &one.ident),
        Item::Struct(one) => {
            bare(&mut one.attrs, &mut one.vis, &one.ident);
            (one.fields, one.semi_token) = (Fields::Unit, Some(Default::default()));
        }
        Item::Enum(one) => {
            bare(&mut one.attrs, &mut one.vis, &one.ident);
            one.variants.clear();
        }
        Item::Trait(one) => {
            bare(&mut one.attrs, &mut one.vis, &one.ident);
            one.items.clear();
        }
        _ => unreachable!("types and traits are asked for"),
    }
    let by = attributes.iter().find(|attribute| attribute.path().is_ident("by"));
    let by = by.map_or(String::new(), |by| format!(", by {}!", by.parse_args::<syn::Ident>().unwrap()));
    let open = attributes.iter().any(|attribute| attribute.path().is_ident("non_exhaustive"));
    let text = one_line(item).replacen(&format!(" {name}"), &format!(" {path}"), 1);
    format!("{}{text}{by}", if open { "#[non_exhaustive] " } else { "" })
}

fn signature(of: &Signature, path: &str) -> String {
    let block = syn::parse_str("{}").unwrap();
    let bare = ItemFn { attrs: Vec::new(), vis: Visibility::Inherited, sig: of.clone(), block };
    one_line(Item::Fn(bare)).replacen(&format!("fn {}", of.ident), &format!("fn {path}"), 1)
}

fn type_text(of: &Type) -> String {
    let mut alias: syn::ItemType = syn::parse_str("type X = ();").expect("an alias");
    *alias.ty = of.clone();
    one_line(Item::Type(alias)).trim_start_matches("type X = ").to_owned()
}

/// Empty, `(A, B)` or ` { a: A }`.
fn fields_text(of: &Fields) -> String {
    let fields = of.iter().map(|field| match &field.ident {
        Some(name) => format!("{name}: {}", type_text(&field.ty)),
        None => type_text(&field.ty),
    });
    let fields = fields.collect::<Vec<_>>().join(", ");
    match of {
        Fields::Named(_) => format!(" {{ {fields} }}"),
        Fields::Unnamed(_) => format!("({fields})"),
        Fields::Unit => String::new(),
    }
}

#[test]
fn an_item_is_listed_once_by_its_shortest_path() {
    let of = Crate::of_text(
        "pub mod deep { pub mod deeper { pub struct Car { pub wheels: u8, doors: u8, #[doc(hidden)] pub id: u8 } } }
         pub use deep::deeper::Car;
         mod private {
             #[non_exhaustive] pub enum Kind<T: Copy> { Van(T, u8), Bus { seats: u8 }, Bike }
             impl super::Car {
                 pub const fn new(wheels: u8, doors: u8) -> Self { todo!() }
                 pub(crate) fn tow(&self) {}
                 #[doc(hidden)] pub fn debug(&self) {}
                 pub const MOST: u8 = 4;
             }
             impl Clone for super::Car { fn clone(&self) -> Self { todo!() } }
             pub struct Unseen;
             impl Unseen { pub fn unseen(&self) {} }
         }
         pub use private::Kind as Sort;
         pub trait Shape: Clone { const SIDES: u8; type Unit; fn area<'a>(&'a self, of: &'a str) -> Option<Self::Unit>; }
         pub type Cars = Vec<Car>;
         #[doc(hidden)] pub mod hidden { pub struct Secret; }
         #[cfg(test)] pub mod tests { pub struct Test; }
         macro_rules! unit { ($n:ident) => { pub struct $n(f64); } }
         unit!(Metre);",
    );
    let expected = [
        "struct satline::Car",
        "const satline::Car::MOST: u8",
        "const fn satline::Car::new(wheels: u8, doors: u8) -> Self",
        "field satline::Car::wheels: u8",
        "type satline::Cars = Vec<Car>",
        "struct satline::Metre, by unit!",
        "trait satline::Shape: Clone",
        "const satline::Shape::SIDES: u8",
        "associated type satline::Shape::Unit",
        "fn satline::Shape::area<'a>(&'a self, of: &'a str) -> Option<Self::Unit>",
        "#[non_exhaustive] enum satline::Sort<T: Copy>",
        "variant satline::Sort::Bike",
        "variant satline::Sort::Bus { seats: u8 }",
        "variant satline::Sort::Van(T, u8)",
    ];
    let lines = listing(&of);
    assert_eq!(lines.iter().map(|line| line.text.as_str()).collect::<Vec<_>>(), expected);
    let types: Vec<_> = lines.iter().filter(|line| line.is_type).map(|line| line.path.as_str()).collect();
    assert_eq!(types, ["Car", "Cars", "Metre", "Shape", "Sort"].map(|name| format!("satline::{name}")));
}
