//! The header, and what only Rust can test; the rest is tested from C and from Python by `bindings/c/check`.

mod borders;
mod header;
