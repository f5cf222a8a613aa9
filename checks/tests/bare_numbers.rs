//! No bare number: a number that moves an answer has a name, and beside the name its source or the mark that it has none.
//!
//! Found are float literals in code that is no test and no constant. Allowed without a name are
//! - 0, 1, 2 and 0.5;
//! - factors and divisors that change a unit, [`UNITS`], and the base of a power of ten;
//! - what [`LISTED`] lists, each with its reason.
//!
//! A constant that holds any other float literal says in the comment above it or on its lines where the number comes from: a
//! year of a work, a file of `tables`, a definition, a constant that is or has a `Source` – or one of [`MARKS`]. The same holds
//! for each line of a table in a macro.

use std::collections::BTreeMap;

use proc_macro2::{TokenStream, TokenTree};
use syn::spanned::Spanned;
use syn::visit::{self, Visit};
use syn::{Attribute, BinOp, Expr, Lit, LitFloat};

use crate::source::{files, functions, has, root};

/// Where numbers move answers: folders of `src`.
const FOLDERS: [&str; 6] = ["circuit/", "diagnosis/", "expected/", "inspection/", "service/", "trace/"];

/// What a constant without a work to cite says.
const MARKS: [&str; 4] = ["our choice", "our estimate", "common practice", "from memory"];

/// What names where a number comes from.
const SOURCES: [&str; 7] = ["tables/", "definition", "arithmetic", "references::", "source:", "source::", "sourced<"];

/// Factors that change a unit: percent, milli and kilo, bar, micro and mega, minute and hour.
const UNITS: [f64; 9] = [1e-2, 1e2, 1e-3, 1e3, 1e5, 1e-6, 1e6, 60.0, 3600.0];

/// Functions that make ranges with their source; those of faults are our choice by the page of `Fault::range`.
const WITH_SOURCE: [&str; 8] = [
    "from_memory(",
    "common_practice(",
    "our_choice(",
    "chosen(",
    "calibrated(",
    "second_hand(",
    "read(",
    "faultmodel::new(",
];

/// Numbers that stay without a name: file, function, literals in order, reason.
const LISTED: &[(&str, &str, &[&str], &str)] = &[
    ("circuit/gas_cooler.rs", "Along::part", &["3.0", "12.0"], "the integral of a parabola: arithmetic"),
    ("circuit/high_side.rs", "Condenser::estimated_unknowns", &["0.96", "0.98", "0.9"], FIRST_ESTIMATE),
    (
        "circuit/high_side.rs",
        "GasCooler::estimated_unknowns",
        &["70.0", "70.0", "5.0", "2.5", "25.0", "0.3"],
        FIRST_ESTIMATE,
    ),
    ("circuit/high_side.rs", "HighSide::estimated_outlet", &["0.97", "5.0", "0.35", "275.0", "0.97"], FIRST_ESTIMATE),
    ("circuit/high_side.rs", "HighSide::estimated_thinning", &["0.2", "0.3", "0.93"], FIRST_ESTIMATE),
    ("circuit/high_side.rs", "HighSideEstimate::share_before_tube", &["0.9", "0.33"], FIRST_ESTIMATE),
    (
        "circuit/initial_guess.rs",
        "Estimator::balanced_low_side",
        &["5.0", "1e4", "0.035", "15.0", "15.0", "55.0"],
        FIRST_ESTIMATE,
    ),
    ("circuit/initial_guess.rs", "Estimator::held_temperature", &["3.0", "1e5", "4.0"], FIRST_ESTIMATE),
    ("circuit/initial_guess.rs", "Estimator::low_side", &["0.05", "0.9", "5500.0", "0.1", "0.95"], FIRST_ESTIMATE),
    (
        "circuit/initial_guess.rs",
        "Estimator::superheated_fraction",
        &["0.6", "0.05", "0.95", "0.02", "0.9"],
        FIRST_ESTIMATE,
    ),
    (
        "circuit/initial_guess.rs",
        "Estimator::unknowns",
        &["18.0", "25.0", "29.0", "4.0", "0.95", "0.6", "0.998", "0.3", "0.55", "0.85", "45.0"],
        FIRST_ESTIMATE,
    ),
    ("circuit/outside_store.rs", "Balance::flooding", &["0.3", "0.9"], START_OF_SEARCH),
    (
        "circuit/outside_store.rs",
        "Balance::round",
        &[
            "0.9", "0.55", "0.05", "0.9", "0.9", "1.5", "0.036", "12.0", "12.0", "60.0", "0.9", "0.02", "0.95", "0.95",
            "0.999",
        ],
        START_OF_SEARCH,
    ),
    ("diagnosis/density.rs", "silverman_bandwidth", &["4.0", "4.0"], "Silverman 1986, the equation above it"),
    ("circuit/outside_store.rs", "outside_store_guess", &["0.96", "25.0"], START_OF_SEARCH),
];

/// A solution does not depend on where its search starts, but for what fails to be found.
const START_OF_SEARCH: &str = "where a search for the steady state starts; our choice";

/// The same estimate says what a circuit needs at its design point, so these numbers move the nominal charge.
const FIRST_ESTIMATE: &str = "where a search starts, and the need behind a nominal charge, which a test of nominal_charge.rs holds \
    against the steady state; our choice";

/// The literal numbers of one file.
struct Numbers<'a> {
    /// Lines of the file.
    lines: Vec<&'a str>,
    /// Literals outside constants, with their lines.
    bare: Vec<(usize, String)>,
    /// Constants without a mark, with their lines.
    unmarked: Vec<(usize, String)>,
}

impl Numbers<'_> {
    fn of(text: &str) -> Numbers<'_> {
        let mut numbers = Numbers { lines: text.lines().collect(), bare: Vec::new(), unmarked: Vec::new() };
        numbers.visit_file(&syn::parse_file(text).unwrap());
        numbers
    }

    /// The comments directly above a line, and that line to another with theirs.
    fn with_comment(&self, first: usize, last: usize) -> String {
        let comment = |line: &&&str| line.trim_start().starts_with("//") || line.trim_start().starts_with("#[");
        let above = self.lines[..first - 1].iter().rev().take_while(comment).count();
        self.lines[first - 1 - above..last].join(" ").replace("///", "").replace("//", "")
    }

    fn constant(&mut self, name: &syn::Ident, attributes: &[Attribute], of: &impl Spanned, value: &Expr) {
        let test = has(attributes, "cfg", "test");
        if test || literals(value.span().source_text().unwrap().parse().unwrap()).iter().all(is_plain) {
            return;
        }
        let span = of.span();
        if !is_marked(&self.with_comment(span.start().line, span.end().line)) {
            self.unmarked.push((span.start().line, name.to_string()));
        }
    }

    fn macro_in_function(&mut self, tokens: TokenStream) {
        let found = literals(tokens).into_iter().filter(|literal| !is_plain(literal));
        self.bare.extend(found.map(|literal| (literal.span().start().line, literal.to_string())));
    }
}

/// Whether a comment or a value names where its numbers come from.
fn is_marked(text: &str) -> bool {
    let (text, squeezed) = (text.to_lowercase(), text.split_whitespace().collect::<Vec<_>>().join(" ").to_lowercase());
    let year = text
        .split(|c: char| !c.is_ascii_digit())
        .any(|word| word.len() == 4 && ["18", "19", "20"].contains(&&word[..2]));
    year || MARKS.iter().chain(&SOURCES).chain(&WITH_SOURCE).any(|mark| squeezed.contains(mark))
}

/// The float literals of some tokens.
fn literals(tokens: TokenStream) -> Vec<LitFloat> {
    let mut found = Vec::new();
    for token in tokens {
        match token {
            TokenTree::Group(group) => found.append(&mut literals(group.stream())),
            TokenTree::Literal(literal) => {
                found.extend(float(&Lit::new(literal)));
            }
            _ => {}
        }
    }
    found
}

/// A float literal, or an integer literal that a suffix makes one.
fn float(of: &Lit) -> Option<LitFloat> {
    match of {
        Lit::Float(float) => Some(float.clone()),
        Lit::Int(int) if int.suffix().starts_with('f') => {
            Some(LitFloat::new(&format!("{}.0", int.base10_digits()), int.span()))
        }
        _ => None,
    }
}

fn value(of: &LitFloat) -> f64 {
    of.base10_parse().unwrap()
}

/// 0, 1, 2 and 0.5.
fn is_plain(of: &LitFloat) -> bool {
    [0.0, 1.0, 2.0, 0.5].contains(&value(of))
}

/// A factor or divisor that changes a unit: a power of ten, 60 or 3600.
fn is_unit(of: &Expr) -> bool {
    match of {
        Expr::Lit(one) => float(&one.lit).is_some_and(|float| UNITS.contains(&value(&float))),
        Expr::Unary(one) => is_unit(&one.expr),
        Expr::Paren(one) => is_unit(&one.expr),
        _ => false,
    }
}

impl<'ast> Visit<'ast> for Numbers<'_> {
    fn visit_item_const(&mut self, of: &'ast syn::ItemConst) {
        self.constant(&of.ident, &of.attrs, of, &of.expr);
    }

    fn visit_item_static(&mut self, of: &'ast syn::ItemStatic) {
        self.constant(&of.ident, &of.attrs, of, &of.expr);
    }

    fn visit_impl_item_const(&mut self, of: &'ast syn::ImplItemConst) {
        self.constant(&of.ident, &of.attrs, of, &of.expr);
    }

    fn visit_file(&mut self, of: &'ast syn::File) {
        if !has(&of.attrs, "cfg", "test") {
            visit::visit_file(self, of);
        }
    }

    fn visit_item_mod(&mut self, of: &'ast syn::ItemMod) {
        if !has(&of.attrs, "cfg", "test") {
            visit::visit_item_mod(self, of);
        }
    }

    fn visit_item_fn(&mut self, of: &'ast syn::ItemFn) {
        if !has(&of.attrs, "cfg", "test") {
            visit::visit_item_fn(self, of);
        }
    }

    fn visit_item_impl(&mut self, of: &'ast syn::ItemImpl) {
        if !has(&of.attrs, "cfg", "test") {
            visit::visit_item_impl(self, of);
        }
    }

    fn visit_impl_item_fn(&mut self, of: &'ast syn::ImplItemFn) {
        if !has(&of.attrs, "cfg", "test") {
            visit::visit_impl_item_fn(self, of);
        }
    }

    fn visit_expr_binary(&mut self, of: &'ast syn::ExprBinary) {
        let scales = matches!(of.op, BinOp::Mul(_) | BinOp::Div(_) | BinOp::MulAssign(_) | BinOp::DivAssign(_));
        for side in [&of.left, &of.right] {
            if !(scales && is_unit(side)) {
                self.visit_expr(side);
            }
        }
    }

    fn visit_expr_method_call(&mut self, of: &'ast syn::ExprMethodCall) {
        let power = of.method == "powi" || of.method == "powf";
        let base =
            matches!(&*of.receiver, Expr::Lit(one) if float(&one.lit).is_some_and(|float| value(&float) == 10.0));
        if !(power && base) {
            self.visit_expr(&of.receiver);
        }
        of.args.iter().for_each(|argument| self.visit_expr(argument));
    }

    fn visit_lit(&mut self, of: &'ast Lit) {
        if let Some(float) = float(of).filter(|float| !is_plain(float)) {
            self.bare.push((float.span().start().line, float.to_string()));
        }
    }

    fn visit_item_macro(&mut self, of: &'ast syn::ItemMacro) {
        let found = literals(of.mac.tokens.clone());
        let lines = found.iter().filter(|literal| !is_plain(literal)).map(|literal| literal.span().start().line);
        for line in lines.collect::<std::collections::BTreeSet<_>>() {
            if !is_marked(&self.with_comment(line, line)) {
                self.unmarked.push((line, self.lines[line - 1].trim().to_owned()));
            }
        }
    }

    fn visit_macro(&mut self, of: &'ast syn::Macro) {
        self.macro_in_function(of.tokens.clone());
    }

    fn visit_attribute(&mut self, _: &'ast Attribute) {}
}

/// The bare numbers of a file by function; those of a constant's closure or of a file's own text under an empty name.
fn by_function(text: &str, bare: Vec<(usize, String)>) -> BTreeMap<String, Vec<String>> {
    let file = syn::parse_file(text).unwrap();
    let functions = functions(&file);
    let mut found = BTreeMap::new();
    for (line, literal) in bare {
        let here = functions.iter().find(|function| {
            (function.signature.span().start().line..=function.body.span().end().line).contains(&line)
        });
        let name = here.map_or(String::new(), |function| function.name.clone());
        found.entry(name).or_insert_with(Vec::new).push(literal);
    }
    found
}

fn sources() -> Vec<(String, String)> {
    let mut sources = files(&root().join("src"), "rs");
    sources.retain(|(name, _)| FOLDERS.iter().any(|folder| name.starts_with(folder)));
    sources
}

#[test]
fn no_number_moves_an_answer_without_a_name() {
    let mut found = BTreeMap::new();
    for (file, text) in sources() {
        let bare = Numbers::of(&text).bare;
        found.extend(by_function(&text, bare).into_iter().map(|(function, which)| ((file.clone(), function), which)));
    }
    let mut idle = LISTED.to_vec();
    idle.retain(|(file, function, literals, reason)| {
        let key = ((*file).to_owned(), (*function).to_owned());
        assert!(!reason.is_empty(), "{key:?} has no reason");
        found.get(&key).is_none_or(|which| which != literals) || found.remove(&key).is_none()
    });
    let lines = found.iter().map(|((file, function), which)| format!("({file:?}, {function:?}, &{which:?}, \"\"),\n"));
    let lines: String = lines.collect();
    assert!(lines.is_empty() && idle.is_empty(), "found:\n{lines}\nin LISTED and not so: {idle:#?}");
    assert!(LISTED.len() < 40, "{} entries in LISTED: name some", LISTED.len());
}

#[test]
fn a_constant_says_where_its_number_comes_from() {
    let mut found = String::new();
    for (file, text) in sources() {
        for (line, name) in Numbers::of(&text).unmarked {
            found += &format!("src/{file}:{line}: {name}\n");
        }
    }
    assert!(found.is_empty(), "without a source, a definition or one of {MARKS:?}:\n{found}");
}

#[test]
fn a_bare_number_is_found_and_a_unit_is_not() {
    let bare = |body: &str| {
        let text = format!("fn f() {{ {body}; }}");
        Numbers::of(&text).bare.into_iter().map(|(_, literal)| literal).collect::<Vec<_>>()
    };
    for (offender, number) in [
        ("x * 0.7", "0.7"),
        ("x.powf(0.8)", "0.8"),
        ("3f64.sqrt()", "3.0"),
        ("x + 1e3", "1e3"),
        ("x * 0.1", "0.1"),
        ("10f64.powf(0.3)", "0.3"),
        ("x.max(60.0)", "60.0"),
        ("(0.01..=1.0).contains(&x)", "0.01"),
        ("format!(\"{}\", 3.0 * x)", "3.0"),
        ("assert!(x < 3.0)", "3.0"),
        ("x / (1.0 + y / 70.0)", "70.0"),
    ] {
        assert_eq!(bare(offender), [number], "{offender}");
    }
    for innocent in [
        "x * 1e-3",
        "x / 60.0",
        "0.5 * x + 2.0",
        "-1e3 * x",
        "x[3]",
        "x * 3600.0",
        "10f64.powi(n)",
        "const A: f64 = 3.0",
    ] {
        assert_eq!(bare(innocent), [""; 0], "{innocent}");
    }
    assert!(Numbers::of("#[cfg(test)] mod tests { fn f() { x * 3.0; } }").bare.is_empty());
    assert!(Numbers::of("#![cfg(test)] fn f() { x * 3.0; }").bare.is_empty());
}

#[test]
fn an_unmarked_constant_is_found() {
    let unmarked = |text: &str| Numbers::of(text).unmarked.len();
    assert_eq!(unmarked("/// Width, K.\nconst A: f64 = 3.0;"), 1);
    assert_eq!(unmarked("/// Width, K; our choice.\nconst A: f64 = 3.0;\nconst B: f64 = 4.0;"), 1);
    assert_eq!(unmarked("impl A {\n    /// Width, K.\n    const B: f64 = 3.0;\n}"), 1);
    assert_eq!(unmarked("fn f() {\n    /// Width.\n    const B: f64 = 3.0;\n}"), 1);
    assert_eq!(unmarked("rows! {\n    a: 3.0,\n    b: 3.0, // our choice\n}"), 1);
    for marked in [
        "/// Width, K; our\n/// choice.\nconst A: f64 = 3.0;",
        "const A: f64 = 3.0; // Bird et al. 2002",
        "/// Width, `tables/a.csv`.\nconst A: f64 = 3.0;",
        "/// One.\nconst A: f64 = 1.0;",
        "const A: Sourced<f64> = Sourced { value: 3.0, source: references::A };",
    ] {
        assert_eq!(unmarked(marked), 0, "{marked}");
    }
}
