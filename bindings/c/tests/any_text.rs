//! Any bytes, numbers, lengths and NULLs: answered, or refused with a reason. `SATLINE_TEXTS=100` tries a hundred times as many.

use std::ffi::{CStr, CString, c_char};
use std::ptr::{null, null_mut};

use satline_c::arguments::satline_text_free;
use satline_c::columns::{satline_bubble_temperatures, satline_dew_pressures, satline_superheats};
use satline_c::error::{
    SatlineError, SatlineStatus, satline_error_code, satline_error_free, satline_error_json, satline_error_message,
};
use satline_c::json::{satline_properties, satline_session_free, satline_session_new, satline_session_report};
use satline_c::properties::{
    satline_air_pressure, satline_bubble_temperature, satline_dew_pressure, satline_refrigerant, satline_superheat,
};

use crate::odd::Random;
use crate::odd::text::{below, cases, odd_bytes, random};

/// Texts that functions are given.
const VALID: [&str; 5] = [
    "R-134a",
    "HFO-1234yf",
    r#"{"refrigerant": "R-134a", "gauge": "32 psi", "temperature": "48 °F", "altitude": "300 m"}"#,
    r#"{"refrigerant": "R-744", "absolute": 9500000, "temperature": "40 °C"}"#,
    r#"{"refrigerant": "R-134a", "values": {"low-side": "22 psi"}, "ambient": "30 °C", "at_rest": true}"#,
];

/// A number as programs hand them over by mistake, or a usual one.
fn number(random: &mut Random, usual: f64) -> f64 {
    let odd = [0.0, -0.0, f64::NAN, f64::INFINITY, f64::NEG_INFINITY, f64::MAX, f64::MIN_POSITIVE, -1.0, 5e-324];
    match random.bits() % 4 {
        0 => odd[below(random, odd.len())],
        1 => f64::from_bits(random.bits()),
        _ => usual * random.spread(0.5, 2.0),
    }
}

/// A refrigerant, or a number that is none.
fn refrigerant(random: &mut Random) -> u32 {
    if random.bits().is_multiple_of(8) { random.bits() as u32 } else { below(random, 17) as u32 }
}

/// Checks the outcome of a call and frees its error: it has one exactly where there is no answer, and no call gives up.
fn check(status: SatlineStatus, error: *mut SatlineError, case: u64) -> bool {
    assert!(status != SatlineStatus::Bug, "case {case}");
    assert_eq!(error.is_null(), status == SatlineStatus::Answered, "case {case}");
    for text in [satline_error_code, satline_error_message, satline_error_json] {
        // SAFETY: NULL, or an error that was just made
        let text = unsafe { text(error) };
        // SAFETY: a text of that error
        assert!(text.is_null() || !unsafe { CStr::from_ptr(text) }.to_str().unwrap().is_empty(), "case {case}");
    }
    // SAFETY: it is freed once
    unsafe { satline_error_free(error) };
    status == SatlineStatus::Answered
}

#[test]
fn texts() {
    let session = satline_session_new();
    let mut answered = 0;
    for case in cases(2_000) {
        let mut random = random(case);
        let mut bytes = odd_bytes(&mut random, &VALID);
        bytes.retain(|&byte| byte != 0);
        let text = CString::new(bytes).unwrap();
        let given = if random.bits().is_multiple_of(16) { null() } else { text.as_ptr() };
        let session = if random.bits().is_multiple_of(16) { null() } else { session.cast_const() };
        let (mut found, mut error) = (0, null_mut());
        let (mut answer, mut report): (*mut c_char, *mut c_char) = (null_mut(), null_mut());
        // SAFETY: a text that ends with NUL, or NULL, and local variables
        let status = unsafe { satline_refrigerant(given, &raw mut found, &raw mut error) };
        assert_eq!(check(status, error, case), found != u32::MAX, "case {case}");
        // SAFETY: as before
        let status = unsafe { satline_properties(given, &raw mut answer, &raw mut error) };
        answered += u64::from(check(status, error, case));
        assert_eq!(answer.is_null(), status != SatlineStatus::Answered, "case {case}");
        // SAFETY: as before, and a session that is freed at the end
        let status = unsafe { satline_session_report(session, given, &raw mut report, &raw mut error) };
        assert_eq!(report.is_null(), !check(status, error, case), "case {case}");
        // SAFETY: as before; there is nowhere to write to
        let status = unsafe { satline_properties(given, null_mut(), null_mut()) };
        assert_eq!(status, SatlineStatus::Null, "case {case}");
        for text in [answer, report] {
            // SAFETY: NULL, or a text that was just returned, freed once
            unsafe { satline_text_free(text) };
        }
    }
    // SAFETY: it is freed once
    unsafe { satline_session_free(session) };
    assert!(answered > 50, "{answered} answered");
}

#[test]
fn numbers() {
    for case in cases(4_000) {
        let mut random = random(case);
        let r = refrigerant(&mut random);
        let (p, t, air) = (number(&mut random, 5e5), number(&mut random, 285.0), number(&mut random, 1e5));
        let mut number = 1.0;
        let mut one = |call: &mut dyn FnMut(*mut f64, *mut *mut SatlineError) -> SatlineStatus| {
            let mut error = null_mut();
            let status = call(&raw mut number, &raw mut error);
            let is_answered = check(status, error, case);
            assert!(if is_answered { number.is_finite() } else { number.is_nan() }, "case {case}: {number}");
        };
        // SAFETY: here and below, addresses of local variables
        one(&mut |to, error| unsafe { satline_bubble_temperature(r, p, to, error) });
        // SAFETY: as above
        one(&mut |to, error| unsafe { satline_dew_pressure(r, t, to, error) });
        // SAFETY: as above
        one(&mut |to, error| unsafe { satline_superheat(r, p, air, t, to, error) });
        // SAFETY: as above
        one(&mut |to, error| unsafe { satline_air_pressure(t, to, error) });
    }
}

/// Columns that overlap or not, of any length up to what there is and of lengths that cannot be: the rows of an answer are those of the
/// function for one value, bit for bit, and without one no number outside the column of answers is touched.
#[test]
fn columns() {
    const ROOM: usize = 24;
    for case in cases(2_000) {
        let mut random = random(case);
        let r = refrigerant(&mut random);
        let before: [f64; ROOM] = std::array::from_fn(|at| number(&mut random, if at % 2 == 0 { 285.0 } else { 5e5 }));
        let mut room = before;
        let rows = below(&mut random, 9);
        let said = match random.bits() % 8 {
            0 => [usize::MAX, usize::MAX / 8, usize::MAX / 16 + 1, isize::MAX as usize][below(&mut random, 4)],
            _ => rows,
        };
        let [input, other, air, output] = std::array::from_fn(|_| below(&mut random, ROOM - 8));
        let air_rows = [0, 1, said, 2][below(&mut random, 4)];
        let base = room.as_mut_ptr();
        let place = |random: &mut Random, at: usize| {
            if random.bits().is_multiple_of(16) { null_mut() } else { base.wrapping_add(at) }
        };
        let (from, also, around, to) =
            (place(&mut random, input), place(&mut random, other), place(&mut random, air), place(&mut random, output));
        let (mut answered, mut error) = (9, null_mut());
        let which = random.bits() % 3;
        let (count, reason) = (&raw mut answered, &raw mut error);
        let status = match which {
            // SAFETY: NULL, or addresses inside `room` with as many numbers behind them as said, unless that is more than memory
            0 => unsafe { satline_bubble_temperatures(r, from, to, said, count, reason) },
            // SAFETY: as above
            1 => unsafe { satline_dew_pressures(r, from, to, said, count, reason) },
            // SAFETY: as above
            _ => unsafe { satline_superheats(r, from, around, air_rows, also, to, said, count, reason) },
        };
        let is_answered = check(status, error, case);
        assert!(is_answered || answered == 0, "case {case}");
        let bits = |numbers: &[f64]| numbers.iter().map(|number| number.to_bits()).collect::<Vec<_>>();
        let end = if is_answered { output + said } else { output };
        assert_eq!(bits(&room[..output]), bits(&before[..output]), "case {case}");
        assert_eq!(bits(&room[end..]), bits(&before[end..]), "case {case}");
        let mut numbers = 0;
        for row in 0..if is_answered { said } else { 0 } {
            let (mut one, air) = (0.0, before[air + if air_rows == 1 { 0 } else { row }]);
            let (input, other, to) = (before[input + row], before[other + row], &raw mut one);
            match which {
                // SAFETY: the address of a local variable
                0 => unsafe { satline_bubble_temperature(r, input, to, null_mut()) },
                // SAFETY: as above
                1 => unsafe { satline_dew_pressure(r, input, to, null_mut()) },
                // SAFETY: as above
                _ => unsafe { satline_superheat(r, input, air, other, to, null_mut()) },
            };
            assert_eq!(room[output + row].to_bits(), one.to_bits(), "case {case}, row {row}");
            numbers += usize::from(!one.is_nan());
        }
        assert!(!is_answered || answered == numbers, "case {case}");
    }
}
