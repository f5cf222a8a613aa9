//! The functions of `satline-json` as exports of a WebAssembly module.
//!
//! A call is: [`input`] makes room for so many bytes and says where; the host writes UTF-8 there; [`report`], [`page`], [`properties`] or
//! [`names`] answers 0, or 1 where the answer is a refusal; [`output`] and [`output_length`] say where the answer is, until the next
//! call. The file `satline.mjs` does this for JavaScript.
//!
//! There is no unsafe block: the host writes into memory that this module owns and has handed out the address of. The attributes
//! `unsafe(no_mangle)` promise that no other function of the program has the same name.

use std::cell::RefCell;

use satline_json::{Refusal, Session};

#[derive(Default)]
struct State {
    session: Session,
    input: Vec<u8>,
    output: String,
}

thread_local! {
    static STATE: RefCell<State> = RefCell::default();
}

/// Status of an answer.
const ANSWERED: u32 = 0;
const REFUSED: u32 = 1;

/// Address of room for `length` bytes of input.
#[unsafe(no_mangle)]
pub extern "C" fn input(length: usize) -> *mut u8 {
    STATE.with_borrow_mut(|state| {
        state.input.clear();
        state.input.resize(length, 0);
        state.input.as_mut_ptr()
    })
}

/// Address of the answer.
#[unsafe(no_mangle)]
pub extern "C" fn output() -> *const u8 {
    STATE.with_borrow(|state| state.output.as_ptr())
}

/// Length of the answer, bytes.
#[unsafe(no_mangle)]
pub extern "C" fn output_length() -> usize {
    STATE.with_borrow(|state| state.output.len())
}

/// [`Session::report`] of the input.
#[unsafe(no_mangle)]
pub extern "C" fn report() -> u32 {
    answer(|session, text| session.report(text))
}

/// [`Session::page`] of the input.
#[cfg(feature = "page")]
#[unsafe(no_mangle)]
pub extern "C" fn page() -> u32 {
    answer(|session, text| session.page(text))
}

/// [`satline_json::properties`] of the input.
#[unsafe(no_mangle)]
pub extern "C" fn properties() -> u32 {
    answer(|_, text| satline_json::properties(text))
}

/// [`satline_json::names`]; the input is not read.
#[unsafe(no_mangle)]
pub extern "C" fn names() -> u32 {
    answer(|_, _| Ok(satline_json::names()))
}

fn answer(of: impl FnOnce(&mut Session, &str) -> Result<String, Refusal>) -> u32 {
    STATE.with_borrow_mut(|state| {
        let text = String::from_utf8_lossy(&state.input);
        let (status, output) = match of(&mut state.session, &text) {
            Ok(answer) => (ANSWERED, answer),
            Err(refusal) => (REFUSED, refusal.to_json()),
        };
        state.output = output;
        status
    })
}
