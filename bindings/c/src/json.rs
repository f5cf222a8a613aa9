//! Text in, JSON out: the functions of `satline-json`, with a session as an opaque handle.

use std::ffi::c_char;
use std::panic::{AssertUnwindSafe, catch_unwind, resume_unwind};
use std::sync::{Mutex, PoisonError};

use satline_json::{Refusal, Session};

use crate::arguments::{owned_text, text, variable};
use crate::error::{Failure, SatlineError, SatlineStatus, answer};

/// Diagnoses one request after another; circuits simulated for one are kept for the next under the same conditions. Calls from several
/// threads wait for each other.
pub struct SatlineSession(Mutex<Session>);

/// A new session, freed by satline_session_free.
#[unsafe(no_mangle)]
pub extern "C" fn satline_session_new() -> *mut SatlineSession {
    Box::into_raw(Box::new(SatlineSession(Mutex::default())))
}

/// Frees a session; NULL is allowed.
///
/// # Safety
/// `session` is NULL or a session that was not freed and that no call uses.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn satline_session_free(session: *mut SatlineSession) {
    if !session.is_null() {
        // SAFETY: it came from `satline_session_new` and was not freed, as the caller promises
        drop(unsafe { Box::from_raw(session) });
    }
}

impl SatlineSession {
    /// What `of` makes of the session; one that a panic left half done is forgotten.
    fn use_for(&self, of: impl FnOnce(&mut Session) -> Result<String, Refusal>) -> Result<String, Failure> {
        let mut session = self.0.lock().unwrap_or_else(PoisonError::into_inner);
        match catch_unwind(AssertUnwindSafe(|| of(&mut session))) {
            Ok(answered) => Ok(answered?),
            Err(panic) => {
                *session = Session::default();
                resume_unwind(panic)
            }
        }
    }
}

/// A text that is answered by a text.
///
/// # Safety
/// `session` is NULL or a session that was not freed, `request` is NULL or a text that ends with NUL; `output` and `error` are NULL or
/// point to variables.
unsafe fn answer_text(
    (input, request): (&str, *const c_char),
    (output, place): (&str, *mut *mut c_char),
    error: *mut *mut SatlineError,
    of: impl FnOnce(&str) -> Result<String, Failure>,
) -> SatlineStatus {
    let call = || {
        // SAFETY: as the caller promises
        let place = unsafe { variable(output, place, std::ptr::null_mut()) }?;
        // SAFETY: as the caller promises
        *place = owned_text(of(unsafe { text(input, request) }?)?).into_raw();
        Ok(())
    };
    // SAFETY: as the caller promises
    unsafe { answer(error, call) }
}

/// The session at `address`.
///
/// # Safety
/// `address` is NULL or that of a session that was not freed.
unsafe fn session<'a>(address: *const SatlineSession) -> Result<&'a SatlineSession, Failure> {
    // SAFETY: NULL, or a session, as the caller promises
    unsafe { address.as_ref() }
        .ok_or_else(|| Failure::of_call(SatlineStatus::Null, "null", Some("session"), "session is NULL"))
}

/// The report on a request, as JSON, cautions included; bindings/json/README.md describes the request. The text belongs to the caller,
/// who frees it by satline_text_free; it is NULL where there is no answer.
///
/// # Safety
/// `session` is NULL or a session that was not freed, `request` is NULL or a text that ends with NUL; `report` and `error` are NULL or
/// point to variables.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn satline_session_report(
    session: *const SatlineSession,
    request: *const c_char,
    report: *mut *mut c_char,
    error: *mut *mut SatlineError,
) -> SatlineStatus {
    // SAFETY: as the caller promises
    let of = |request: &str| unsafe { self::session(session) }?.use_for(|session| session.report(request));
    // SAFETY: as the caller promises
    unsafe { answer_text(("request", request), ("report", report), error, of) }
}

/// The page on a request, as one HTML document: {"request": ..., "language": "english" or "spanish", "whole": true or false}. The text
/// is the caller's, as of satline_session_report. A library that was built without its feature `page` does not have this function.
///
/// # Safety
/// As of satline_session_report.
#[cfg(feature = "page")]
#[unsafe(no_mangle)]
pub unsafe extern "C" fn satline_session_page(
    session: *const SatlineSession,
    request: *const c_char,
    page: *mut *mut c_char,
    error: *mut *mut SatlineError,
) -> SatlineStatus {
    // SAFETY: as the caller promises
    let of = |request: &str| unsafe { self::session(session) }?.use_for(|session| session.page(request));
    // SAFETY: as the caller promises
    unsafe { answer_text(("request", request), ("page", page), error, of) }
}

/// Saturation, superheat and subcooling as JSON, in SI units, of values with their units:
/// {"refrigerant": "R-134a", "gauge": "32 psi", "temperature": "48 °F", "altitude": "300 m"}. The text is the caller's, as of
/// satline_session_report.
///
/// # Safety
/// `question` is NULL or a text that ends with NUL; `properties` and `error` are NULL or point to variables.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn satline_properties(
    question: *const c_char,
    properties: *mut *mut c_char,
    error: *mut *mut SatlineError,
) -> SatlineStatus {
    let of = |question: &str| Ok(satline_json::properties(question)?);
    // SAFETY: as the caller promises
    unsafe { answer_text(("question", question), ("properties", properties), error, of) }
}

/// Names that a request may contain, as JSON: refrigerants, in the order of their numbers, measurands and observations. The text is the
/// caller's, as of satline_session_report.
///
/// # Safety
/// `names` and `error` are NULL or point to variables.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn satline_names(names: *mut *mut c_char, error: *mut *mut SatlineError) -> SatlineStatus {
    // SAFETY: as the caller promises; the empty text is a constant
    unsafe { answer_text(("nothing", c"".as_ptr()), ("names", names), error, |_| Ok(satline_json::names())) }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_session_is_of_use_after_a_panic() {
        let session = SatlineSession(Mutex::default());
        let request = r#"{"refrigerant": "R-134a", "values": {"low-side": "22 psi"}, "ambient": "30 °C"}"#;
        let before = session.use_for(|one| one.report(request)).unwrap();
        // SAFETY: NULL is allowed
        let status = unsafe { answer(std::ptr::null_mut(), || session.use_for(|_| panic!("on purpose")).map(drop)) };
        assert_eq!(status, SatlineStatus::Bug);
        session
            .use_for(|one| {
                assert_eq!(format!("{one:?}"), format!("{:?}", Session::default()), "what it kept is not forgotten");
                Ok(String::new())
            })
            .unwrap();
        assert_eq!(session.use_for(|one| one.report(request)).unwrap(), before);
    }
}
