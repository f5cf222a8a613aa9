//! Addresses from C as references, slices and texts, each checked for what can be checked.

use std::ffi::{CStr, CString, c_char};
use std::ops::Range;

use satline::Refrigerant;

use crate::error::{Failure, SatlineStatus};

/// A refrigerant by its place in the list that satline_names has. The place may change with the version of the library: ask
/// satline_refrigerant for it, and keep the name.
pub type SatlineRefrigerant = u32;

pub(crate) fn refrigerant(given: SatlineRefrigerant) -> Result<Refrigerant, Failure> {
    let found = usize::try_from(given).ok().and_then(|place| Refrigerant::ALL.get(place));
    found.copied().ok_or_else(|| {
        let message = "this number is no refrigerant: ask satline_refrigerant for that of its name";
        Failure::of_call(SatlineStatus::NoRefrigerant, "no-refrigerant", Some("refrigerant"), message)
    })
}

fn null(input: &str) -> Failure {
    Failure::of_call(SatlineStatus::Null, "null", Some(input), &format!("{input} is NULL"))
}

fn bad_array(code: &'static str, input: &str, message: &str) -> Failure {
    Failure::of_call(SatlineStatus::BadArray, code, Some(input), &format!("{input} {message}"))
}

/// The text at `address`.
///
/// # Safety
/// `address` is NULL or that of a text that ends with NUL and does not change during the call.
pub(crate) unsafe fn text<'a>(input: &str, address: *const c_char) -> Result<&'a str, Failure> {
    if address.is_null() {
        return Err(null(input));
    }
    // SAFETY: not NULL, so a text, as the caller promises
    let text = unsafe { CStr::from_ptr(address) };
    text.to_str().map_err(|error| {
        let message = format!("{input} is not UTF-8: {error}");
        Failure::of_call(SatlineStatus::NotUtf8, "not-utf-8", Some(input), &message)
    })
}

/// The variable at `address`, set to `before` until there is an answer.
///
/// # Safety
/// `address` is NULL or that of a variable that nobody else uses during the call.
pub(crate) unsafe fn variable<'a, T>(output: &str, address: *mut T, before: T) -> Result<&'a mut T, Failure> {
    if address.is_null() {
        return Err(null(output));
    }
    // SAFETY: not NULL, so room for a value, as the caller promises
    unsafe { address.write(before) };
    // SAFETY: it was written just now
    Ok(unsafe { &mut *address })
}

/// The range of addresses of `rows` numbers; empty if there are none, and then the address may be NULL.
fn addresses(name: &str, address: *const f64, rows: usize) -> Result<Range<usize>, Failure> {
    if rows == 0 {
        return Ok(0..0);
    }
    if address.is_null() {
        return Err(null(name));
    }
    if !address.is_aligned() {
        return Err(bad_array("misaligned", name, "is not aligned for double"));
    }
    let end = rows.checked_mul(size_of::<f64>()).filter(|&bytes| isize::try_from(bytes).is_ok());
    let end = end.and_then(|bytes| address.addr().checked_add(bytes));
    end.map(|end| address.addr()..end).ok_or_else(|| bad_array("too-long", name, "has more rows than memory"))
}

/// Columns of a call: those to read, by name, address and number of rows, and the one to write.
///
/// # Safety
/// Each address that is not NULL is that of as many numbers as said, and only this call uses that of `output` meanwhile.
pub(crate) unsafe fn columns<'a, const INPUTS: usize>(
    inputs: [(&str, *const f64, usize); INPUTS],
    output: (&str, *mut f64, usize),
) -> Result<([&'a [f64]; INPUTS], &'a mut [f64]), Failure> {
    let (name, address, rows) = output;
    let written = addresses(name, address, rows)?;
    let mut columns = [&[][..]; INPUTS];
    for (column, (name, address, rows)) in columns.iter_mut().zip(inputs) {
        let read = addresses(name, address, rows)?;
        if read.start < written.end && written.start < read.end {
            return Err(bad_array("overlap", name, "overlaps the column of answers"));
        }
        if rows > 0 {
            // SAFETY: not NULL, aligned, not longer than memory, apart from what is written, and of so many numbers as the caller promises
            *column = unsafe { std::slice::from_raw_parts(address, rows) };
        }
    }
    if rows == 0 {
        return Ok((columns, &mut []));
    }
    // SAFETY: not NULL, aligned, not longer than memory, apart from what is read, and of so many numbers as the caller promises
    Ok((columns, unsafe { std::slice::from_raw_parts_mut(address, rows) }))
}

/// A text for C; a NUL inside, which would end it, becomes the replacement character.
pub(crate) fn owned_text(text: String) -> CString {
    CString::new(text).unwrap_or_else(|error| {
        let text = String::from_utf8_lossy(&error.into_vec()).replace('\0', "\u{fffd}");
        CString::new(text).unwrap_or_default()
    })
}

/// Frees a text that a function of this library returned; NULL is allowed.
///
/// # Safety
/// `text` is NULL or such a text that was not freed.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn satline_text_free(text: *mut c_char) {
    if !text.is_null() {
        // SAFETY: it came from `CString::into_raw` and was not freed, as the caller promises
        drop(unsafe { CString::from_raw(text) });
    }
}
