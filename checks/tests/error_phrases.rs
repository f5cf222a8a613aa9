//! The words that errors bring along in English are all known to Spanish, and it knows none that no error says.
//!
//! Found are the literals of the fields [`FIELDS`] of an error, and those given first to [`HELPERS`], which make one. What comes by
//! another way, such as a constant, is held by the second rule alone: its words here follow a change.

use std::collections::BTreeSet;

use satline::inspection::Measurand;
use syn::visit::{self, Visit};
use syn::{Expr, ExprCall, ExprStruct, Item, Lit, Member};

use crate::no_sentences::literals;
use crate::source::{files, functions, root, source_files};

/// Fields of errors that are words.
const FIELDS: [&str; 8] = ["what", "way_out", "must", "solving", "state", "given", "meanings", "known"];

/// Functions and closures whose first argument is a word of an error.
const HELPERS: [&str; 7] = ["not_negative", "positive", "finite", "not_finite", "mismatch", "within", "missing"];

/// Where Spanish has them.
const TABLE: &str = "report/words/es/errors.rs";

/// The string literals of an expression.
#[derive(Default)]
struct Literals(BTreeSet<String>);

impl<'ast> Visit<'ast> for Literals {
    fn visit_lit(&mut self, of: &'ast Lit) {
        if let Lit::Str(text) = of {
            self.0.insert(text.value());
        }
    }
}

/// The words of errors in a function.
#[derive(Default)]
struct Words(Literals);

impl<'ast> Visit<'ast> for Words {
    fn visit_expr_struct(&mut self, of: &'ast ExprStruct) {
        if of.path.segments.iter().any(|part| part.ident == "Error") {
            let named = |member: &Member| matches!(member, Member::Named(name) if FIELDS.iter().any(|one| name == one));
            of.fields.iter().filter(|field| named(&field.member)).for_each(|field| self.0.visit_expr(&field.expr));
        }
        visit::visit_expr_struct(self, of);
    }

    fn visit_expr_call(&mut self, of: &'ast ExprCall) {
        if let (Expr::Path(called), Some(first @ Expr::Lit(_))) = (&*of.func, of.args.first())
            && called.path.segments.last().is_some_and(|name| HELPERS.iter().any(|one| name.ident == one))
        {
            self.0.visit_expr(first);
        }
        visit::visit_expr_call(self, of);
    }
}

/// The words of errors in the code of `file` that is no test.
fn words(file: &syn::File) -> BTreeSet<String> {
    let mut found = Words::default();
    functions(file).iter().filter(|function| !function.test).for_each(|function| found.visit_block(function.body));
    found.0.0
}

/// The English words of the table in `file`.
fn known(file: &syn::File) -> BTreeSet<String> {
    let table = file.items.iter().find_map(|item| match item {
        Item::Const(one) if one.ident == "PHRASES" => Some(&*one.expr),
        _ => None,
    });
    let Some(Expr::Array(rows)) = table else { panic!("no table of phrases in {TABLE}") };
    let first = |row: &Expr| match row {
        Expr::Tuple(pair) => {
            let mut literals = Literals::default();
            literals.visit_expr(&pair.elems[0]);
            literals.0.pop_first()
        }
        _ => None,
    };
    rows.elems.iter().map(|row| first(row).expect("a pair of texts")).collect()
}

#[test]
fn the_words_of_errors_are_known_to_spanish() {
    let sources = source_files();
    let known = known(&sources.iter().find(|(file, _)| file == TABLE).unwrap().1);
    let said_in = |(file, tree): &(String, syn::File)| (!file.starts_with("report/words")).then(|| words(tree));
    let mut said: BTreeSet<String> = sources.iter().filter_map(said_in).flatten().collect();
    assert!(said.len() > 200, "{} words: are the errors found?", said.len());
    let measurands: BTreeSet<&str> = Measurand::ALL.iter().map(|measurand| measurand.name()).collect();
    said.retain(|word| !known.contains(word) && !measurands.contains(word.as_str()));
    assert!(said.is_empty(), "unknown to {TABLE}: {said:#?}");
    // an example has errors of its own
    let library = files(&root().join("src"), "rs").into_iter().filter(|(name, _)| !name.starts_with("report/words"));
    let mut anywhere = Vec::new();
    for (name, text) in library.chain(files(&root().join("examples"), "rs")) {
        literals(text.parse().unwrap_or_else(|error| panic!("{name}: {error}")), &mut anywhere);
    }
    // conditions are joined by commas
    let anywhere: BTreeSet<String> = anywhere.iter().map(|text| text.trim_start_matches(", ").to_owned()).collect();
    let idle: Vec<_> = known.difference(&anywhere).collect();
    assert!(idle.is_empty(), "in {TABLE} and said by no error: {idle:#?}");
}

#[test]
fn a_word_of_an_error_is_found() {
    let found = |body: &str| words(&syn::parse_file(&format!("fn f() {{ {body} }}")).unwrap()).into_iter().collect();
    let all: [(&str, Vec<String>); 4] = [
        ("Err(Error::Missing { what: \"the charge\", way_out })", vec!["the charge".to_owned()]),
        ("crate::Error::Twice { what: if a { \"b\" } else { \"c\" } };", vec!["b".to_owned(), "c".to_owned()]),
        ("validate::positive(\"mass (g)\", mass)?;", vec!["mass (g)".to_owned()]),
        ("Row { what: \"a\" }; Error::Stopped { unit: \"K\" }; f(\"a\")", Vec::new()),
    ];
    for (body, words) in all {
        let here: Vec<String> = found(body);
        assert_eq!(here, words, "{body}");
    }
}
