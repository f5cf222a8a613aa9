//! The header, and what only Rust can test; the rest is tested from C and from Python by `bindings/c/check`.

mod any_text;
mod borders;
mod header;
#[path = "../../../tests/odd/mod.rs"]
mod odd;
