//! Decisions are taken on enums, not on text: no comparison of sentences, names or ids in the upper half of the library.
//!
//! Found are, in code that is no test:
//! - `==` and `!=` with a string literal, with a constant that is text, or with a field or method `id` or `name`;
//! - `contains`, `starts_with`, `ends_with`, `eq` and `eq_ignore_ascii_case` given such text, and `contains` of a list of it;
//! - patterns that are string literals, of `match`, `if let` and `matches!`.
//!
//! Not found are comparisons of two texts whose names say nothing of it, such as `a == b`: the types are not known here.

use std::collections::{BTreeMap, BTreeSet};

use syn::parse::{ParseStream, Parser};
use syn::punctuated::Punctuated;
use syn::spanned::Spanned;
use syn::visit::{self, Visit};
use syn::{BinOp, Expr, ExprBinary, ExprMethodCall, Item, Lit, Macro, Member, Pat, PatLit, Token, Type};

use crate::source::{functions, source_files, type_name};

/// Where decisions are taken: files and folders of `src`.
const LOGIC: [&str; 9] =
    ["circuit/", "diagnosis/", "expected/", "inspection/", "line.rs", "plot/", "report/", "service/", "trace/"];

/// Functions whose job is to read or write text: file, function, reason.
const READERS: &[(&str, &str, &str)] = &[
    ("diagnosis/assessment.rs", "JudgedQuantity::try_from", "reads a judged quantity by its id in JSON"),
    ("inspection/columns.rs", "Columns::add", "reads the head of a column of a log"),
    ("inspection/columns.rs", "field", "reads a cell that may be empty"),
    ("inspection/measurand.rs", "Measurand::from_str", "reads a measurand by its id"),
    ("inspection/observation.rs", "Observation::from_str", "reads an observation by its name"),
    ("plot/svg.rs", "number", "takes the sign off a zero it has just written"),
    ("report/page.rs", "Page::place", "finds the section that a caller names"),
    ("report/reading.rs", "InstrumentRow::gauge", "finds a gauge of the library by the name that it carries"),
    (
        "report/reading.rs",
        "InstrumentRow::thermometer",
        "finds a thermometer of the library by the name that it carries",
    ),
    ("service/oil/kind.rs", "OilKind::from_str", "reads the kind of an oil"),
    ("service/oil/label.rs", "names_an_ounce", "reads the unit printed on a label"),
    ("service/oil/label.rs", "unit", "reads the unit printed on a label"),
    ("service/standing_vacuum_log.rs", "VacuumLogColumns::read", "reads the heads of the columns of a log"),
];

/// The comparisons of text in one file, by function.
fn comparisons(file: &syn::File, constants: &BTreeSet<String>) -> BTreeMap<String, Vec<String>> {
    let mut by_function = BTreeMap::new();
    for function in functions(file).into_iter().filter(|function| !function.test) {
        let mut finder = Finder { constants, found: Vec::new() };
        finder.visit_block(function.body);
        if !finder.found.is_empty() {
            by_function.entry(function.name).or_insert_with(Vec::new).append(&mut finder.found);
        }
    }
    by_function
}

/// The names of the constants of a file that are text.
fn text_constants(file: &syn::File) -> impl Iterator<Item = String> {
    file.items.iter().filter_map(|item| match item {
        Item::Const(one) if matches!(*one.ty, Type::Reference(_)) && type_name(&one.ty) == "str" => {
            Some(one.ident.to_string())
        }
        _ => None,
    })
}

struct Finder<'a> {
    constants: &'a BTreeSet<String>,
    found: Vec<String>,
}

impl Finder<'_> {
    fn add(&mut self, what: &impl Spanned) {
        let text = what.span().source_text().unwrap();
        self.found.push(text.split_whitespace().collect::<Vec<_>>().join(" "));
    }

    /// A string literal, a constant that is text, or a list of either.
    fn is_text(&self, of: &Expr) -> bool {
        match of {
            Expr::Lit(one) => matches!(one.lit, Lit::Str(_)),
            Expr::Path(one) => self.constants.contains(&one.path.segments.last().unwrap().ident.to_string()),
            Expr::Array(one) => one.elems.iter().any(|element| self.is_text(element)),
            Expr::Reference(one) => self.is_text(&one.expr),
            Expr::Paren(one) => self.is_text(&one.expr),
            _ => false,
        }
    }
}

/// A field or method `id` or `name`.
fn is_named(of: &Expr) -> bool {
    match of {
        Expr::Field(one) => matches!(&one.member, Member::Named(name) if name == "id" || name == "name"),
        Expr::MethodCall(one) => (one.method == "id" || one.method == "name") && one.args.is_empty(),
        Expr::Reference(one) => is_named(&one.expr),
        Expr::Unary(one) => is_named(&one.expr),
        Expr::Paren(one) => is_named(&one.expr),
        _ => false,
    }
}

impl<'ast> Visit<'ast> for Finder<'_> {
    fn visit_expr_binary(&mut self, of: &'ast ExprBinary) {
        let compares = matches!(of.op, BinOp::Eq(_) | BinOp::Ne(_));
        if compares && [&*of.left, &*of.right].into_iter().any(|side| self.is_text(side) || is_named(side)) {
            self.add(of);
        }
        visit::visit_expr_binary(self, of);
    }

    fn visit_expr_method_call(&mut self, of: &'ast ExprMethodCall) {
        let method = of.method.to_string();
        let compares =
            ["contains", "starts_with", "ends_with", "eq", "eq_ignore_ascii_case"].contains(&method.as_str());
        let listed = method == "contains" && matches!(*of.receiver, Expr::Array(_)) && self.is_text(&of.receiver);
        if listed || compares && of.args.iter().any(|argument| self.is_text(argument)) {
            self.add(of);
        }
        visit::visit_expr_method_call(self, of);
    }

    fn visit_pat(&mut self, of: &'ast Pat) {
        if let Pat::Lit(PatLit { lit: Lit::Str(_), .. }) = of {
            self.add(of);
        }
        visit::visit_pat(self, of);
    }

    fn visit_macro(&mut self, of: &'ast Macro) {
        let expressions = Punctuated::<Expr, Token![,]>::parse_terminated;
        if of.path.is_ident("matches") {
            let (value, pattern, guard) =
                arguments_of_matches.parse2(of.tokens.clone()).expect("matches! of value and pattern");
            self.visit_expr(&value);
            self.visit_pat(&pattern);
            guard.iter().for_each(|guard| self.visit_expr(guard));
        } else if let Ok(arguments) = expressions.parse2(of.tokens.clone()) {
            // format!, write!, vec! and their kin
            arguments.iter().for_each(|argument| self.visit_expr(argument));
        }
    }
}

fn arguments_of_matches(input: ParseStream) -> syn::Result<(Expr, Pat, Option<Expr>)> {
    let value = input.parse()?;
    input.parse::<Token![,]>()?;
    let pattern = Pat::parse_multi_with_leading_vert(input)?;
    let guard = input.parse::<Option<Token![if]>>()?.map(|_| input.parse()).transpose()?;
    input.parse::<Option<Token![,]>>()?;
    Ok((value, pattern, guard))
}

#[test]
fn nothing_is_decided_by_comparing_text() {
    let sources = source_files();
    let constants = sources.iter().flat_map(|(_, tree)| text_constants(tree)).collect();
    let mut found = BTreeMap::new();
    for (file, tree) in sources.iter().filter(|(file, _)| LOGIC.iter().any(|start| file.starts_with(start))) {
        for (function, what) in comparisons(tree, &constants) {
            found.insert((file.clone(), function), what);
        }
    }
    let mut idle = READERS.to_vec();
    idle.retain(|(file, function, _)| found.remove(&((*file).to_owned(), (*function).to_owned())).is_none());
    let lines = found.iter().map(|((file, function), what)| format!("({file:?}, {function:?}): {what:?}\n"));
    let lines: String = lines.collect();
    assert!(lines.is_empty() && idle.is_empty(), "found:\n{lines}\nin READERS and comparing no text: {idle:#?}");
}

#[test]
fn a_comparison_of_text_is_found_and_one_of_values_is_not() {
    let found = |body: &str| {
        let text = format!("const SENTENCE: &str = \"Stop.\"; const COUNT: u8 = 1; fn f() {{ {body}; }}");
        let file = syn::parse_file(&text).unwrap();
        comparisons(&file, &text_constants(&file).collect()).remove("f").unwrap_or_default()
    };
    for offender in [
        "x == \"low side\"",
        "\"low side\" != x",
        "self.cause.id == other",
        "other == *row.name()",
        "said == SENTENCE",
        "said == words::SENTENCE",
        "words.contains(\"stop\")",
        "words.contains(&SENTENCE)",
        "[\"a\", \"b\"].contains(&x)",
        "words.starts_with(\"Stop\")",
    ] {
        assert_eq!(found(offender), [offender]);
        assert_eq!(found(&format!("let a = rows.iter().find(|x| {offender})")), [offender]);
        assert_eq!(found(&format!("format!(\"{{}}\", {offender})")), [offender]);
    }
    assert_eq!(found("match x { \"a\" | \"b\" => 1, _ => 2 }"), ["\"a\"", "\"b\""]);
    assert_eq!(found("if let Some(\"a\") = x {}"), ["\"a\""]);
    assert_eq!(found("matches!(x, \"a\" if y == \"b\")"), ["\"a\"", "y == \"b\""]);
    for innocent in
        ["x == COUNT", "x == Kind::Low", "text.contains('%')", "f(row.id)", "match x { Kind::A => \"a\", _ => \"b\" }"]
    {
        assert_eq!(found(innocent), [""; 0], "{innocent}");
    }
    let test = syn::parse_file("#[cfg(test)] mod tests { fn f() { x == \"low side\"; } }").unwrap();
    assert!(comparisons(&test, &BTreeSet::new()).is_empty());
}
