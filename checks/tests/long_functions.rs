//! No function of the library is longer than a screen.
//!
//! Counted from the line of `fn` to its closing brace, comments and blank lines included. A function that is mainly data is exempt:
//! its body is one array, tuple, struct or `match` made of literals, paths and constructors of such.

use std::collections::BTreeMap;

use syn::spanned::Spanned;
use syn::{Block, Expr, Stmt};

use crate::source::{functions, source_files};

const MOST_LINES: usize = 80; // our choice

/// The long functions of one file, with their lines.
fn long_functions(file: &syn::File) -> Vec<(String, usize)> {
    let lines = |function: &crate::source::Function| {
        function.body.span().end().line + 1 - function.signature.fn_token.span.start().line
    };
    let mut found: Vec<_> = functions(file).into_iter().map(|one| (lines(&one), one)).collect();
    found.retain(|(lines, function)| *lines > MOST_LINES && !is_mainly_data(function.body));
    found.into_iter().map(|(lines, function)| (function.name, lines)).collect()
}

fn is_mainly_data(body: &Block) -> bool {
    let [Stmt::Expr(only, None)] = &body.stmts[..] else { return false };
    match only {
        Expr::Match(one) => one.arms.iter().all(|arm| arm.guard.is_none() && is_data(&arm.body)),
        Expr::Array(_) | Expr::Tuple(_) | Expr::Struct(_) | Expr::Reference(_) => is_data(only),
        _ => false,
    }
}

/// Literals, paths, and arrays, tuples, structs and constructors of such.
fn is_data(expression: &Expr) -> bool {
    match expression {
        Expr::Lit(_) | Expr::Path(_) => true,
        Expr::Unary(one) => is_data(&one.expr),
        Expr::Reference(one) => is_data(&one.expr),
        Expr::Array(one) => one.elems.iter().all(is_data),
        Expr::Tuple(one) => one.elems.iter().all(is_data),
        Expr::Struct(one) => one.fields.iter().all(|field| is_data(&field.expr)) && one.rest.is_none(),
        Expr::Call(one) => matches!(*one.func, Expr::Path(_)) && one.args.iter().all(is_data),
        _ => false,
    }
}

#[test]
fn no_function_is_longer_than_a_screen() {
    let mut found = BTreeMap::new();
    for (file, tree) in source_files() {
        found.extend(long_functions(&tree).into_iter().map(|(name, lines)| ((file.clone(), name), lines)));
    }
    assert!(found.is_empty(), "longer than {MOST_LINES} lines, with their lines: {found:#?}");
}

#[test]
fn a_long_function_is_found_and_long_data_is_not() {
    let long = |head: &str, line: &str, lines: usize, foot: &str| {
        long_functions(&syn::parse_file(&format!("{head}\n{}{foot}", format!("{line}\n").repeat(lines))).unwrap())
    };
    assert_eq!(long("fn f() {", "g();", MOST_LINES - 2, "}"), []);
    assert_eq!(long("fn f() {", "g();", MOST_LINES - 1, "}"), [("f".to_owned(), MOST_LINES + 1)]);
    assert_eq!(long("/// Says\n/// a lot.\nfn f() {", "g();", MOST_LINES - 2, "}"), []);
    assert_eq!(long("impl A { fn f() {", "// words", 90, "} }"), [("A::f".to_owned(), 92)]);
    assert_eq!(long("fn f() -> [T; 90] {[", "Some(T { a: -1.0, b: &B }),", 90, "]}"), []);
    assert_eq!(long("fn f(a: A) -> u8 { match a {", "A::B => 1,", 90, "}}"), []);
    assert_eq!(long("fn f(a: A) -> u8 { match a {", "A::B => g(1) + h(2),", 90, "}}").len(), 1);
    assert_eq!(long("fn f() -> [f64; 90] {[", "x.sqrt(),", 90, "]}").len(), 1);
}
