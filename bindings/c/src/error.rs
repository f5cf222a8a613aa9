//! What is refused, and the border that no panic passes.

use std::ffi::{CString, c_char};
use std::panic::{AssertUnwindSafe, catch_unwind};

use satline_json::Refusal;

use crate::arguments::owned_text;

/// Outcome of a call; the values of these constants stay.
#[repr(i32)]
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum SatlineStatus {
    /// Answered.
    Answered = 0,
    /// The library refuses a value, or there is no answer to it; satline_error_code says why.
    Refused = 1,
    /// A pointer that must not be is NULL.
    Null = 2,
    /// A text is not UTF-8.
    NotUtf8 = 3,
    /// Arrays overlap, are not aligned for their numbers, or are longer than memory.
    BadArray = 4,
    /// A number that is no refrigerant of this library; satline_refrigerant has them by name.
    NoRefrigerant = 5,
    /// The library has a bug: a computation was given up. Nothing is damaged; a session has forgotten what it kept.
    Bug = 6,
}

/// What was refused, with its reason. It belongs to the caller, who frees it by satline_error_free.
pub struct SatlineError {
    code: CString,
    input: Option<CString>,
    message: CString,
    json: CString,
}

/// Why a call has no answer.
#[derive(Debug)]
pub struct Failure {
    status: SatlineStatus,
    refusal: Refusal,
}

impl Failure {
    /// Failure of the call itself, before the library was asked.
    pub(crate) fn of_call(status: SatlineStatus, code: &'static str, input: Option<&str>, message: &str) -> Self {
        let refusal =
            Refusal { code, input: input.map(str::to_owned), message: message.to_owned(), questions: Vec::new() };
        Self { status, refusal }
    }

    fn bug() -> Self {
        Self::of_call(SatlineStatus::Bug, "bug", None, "a computation was given up: this is a bug, please report it")
    }
}

impl From<Refusal> for Failure {
    fn from(refusal: Refusal) -> Self {
        Self { status: SatlineStatus::Refused, refusal }
    }
}

impl From<satline::Error> for Failure {
    fn from(error: satline::Error) -> Self {
        Refusal::of(&error, None).into()
    }
}

/// Makes a call: what has no answer becomes a status and an error, and so does a panic.
///
/// # Safety
/// `error` is NULL or points to room for a pointer.
pub unsafe fn answer(error: *mut *mut SatlineError, call: impl FnOnce() -> Result<(), Failure>) -> SatlineStatus {
    // what a panic leaves behind in a call are numbers in the caller's arrays, and a session, which is emptied
    let result = catch_unwind(AssertUnwindSafe(call)).unwrap_or_else(|_| Err(Failure::bug()));
    let (status, reason) = match result {
        Ok(()) => (SatlineStatus::Answered, std::ptr::null_mut()),
        Err(failure) if error.is_null() => (failure.status, std::ptr::null_mut()),
        Err(failure) => (failure.status, Box::into_raw(Box::new(SatlineError::of(failure.refusal)))),
    };
    if !error.is_null() {
        // SAFETY: not NULL, so room for a pointer, as the caller promises
        unsafe { error.write(reason) };
    }
    status
}

impl SatlineError {
    fn of(refusal: Refusal) -> Self {
        Self {
            json: owned_text(refusal.to_json()),
            code: owned_text(refusal.code.to_owned()),
            input: refusal.input.map(owned_text),
            message: owned_text(refusal.message),
        }
    }
}

/// What `field` of an error has, NULL where it has none.
///
/// # Safety
/// As of [`satline_error_code`].
unsafe fn text_of(error: *const SatlineError, field: impl FnOnce(&SatlineError) -> Option<&CString>) -> *const c_char {
    // SAFETY: NULL, or an error that is not freed, as the caller promises
    let error = unsafe { error.as_ref() };
    error.and_then(field).map_or(std::ptr::null(), |text| text.as_ptr())
}

/// Id of the kind of error, which stays when messages change, such as "unit-missing". It is valid until the error is freed; NULL for NULL.
///
/// # Safety
/// `error` is NULL or an error that was not freed.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn satline_error_code(error: *const SatlineError) -> *const c_char {
    // SAFETY: as the caller promises
    unsafe { text_of(error, |error| Some(&error.code)) }
}

/// Name of the input that the error is about, valid as the code; NULL if it is about no particular one.
///
/// # Safety
/// `error` is NULL or an error that was not freed.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn satline_error_input(error: *const SatlineError) -> *const c_char {
    // SAFETY: as the caller promises
    unsafe { text_of(error, |error| error.input.as_ref()) }
}

/// Message for a person, in English, valid as the code.
///
/// # Safety
/// `error` is NULL or an error that was not freed.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn satline_error_message(error: *const SatlineError) -> *const c_char {
    // SAFETY: as the caller promises
    unsafe { text_of(error, |error| Some(&error.message)) }
}

/// The error as JSON, with questions about units if there are any; valid as the code.
///
/// # Safety
/// `error` is NULL or an error that was not freed.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn satline_error_json(error: *const SatlineError) -> *const c_char {
    // SAFETY: as the caller promises
    unsafe { text_of(error, |error| Some(&error.json)) }
}

/// Frees an error and its texts; NULL is allowed.
///
/// # Safety
/// `error` is NULL or an error that was not freed.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn satline_error_free(error: *mut SatlineError) {
    if !error.is_null() {
        // SAFETY: it came from `Box::into_raw` in `answer` and was not freed, as the caller promises
        drop(unsafe { Box::from_raw(error) });
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_panic_becomes_a_status_with_a_reason() {
        let mut error = std::ptr::null_mut();
        // SAFETY: the address of a local variable
        let status = unsafe { answer(&raw mut error, || panic!("on purpose")) };
        assert_eq!(status, SatlineStatus::Bug);
        // SAFETY: an error that was just made
        assert_eq!(unsafe { &*error }.code.as_c_str(), c"bug");
        // SAFETY: it is freed once
        unsafe { satline_error_free(error) };
        // SAFETY: NULL is allowed
        assert_eq!(unsafe { answer(std::ptr::null_mut(), || panic!("on purpose")) }, SatlineStatus::Bug);
    }

    #[test]
    fn an_error_that_was_there_is_no_error_of_the_next_call() {
        let mut error = std::ptr::dangling_mut();
        // SAFETY: the address of a local variable
        assert_eq!(unsafe { answer(&raw mut error, || Ok(())) }, SatlineStatus::Answered);
        assert!(error.is_null());
    }
}
