//! Arrays that cannot be, answered before any of their numbers is touched.

use std::ffi::CStr;
use std::ptr::{null, null_mut};

use satline_c::columns::{satline_dew_pressures, satline_superheats};
use satline_c::error::{SatlineStatus, satline_error_code, satline_error_free};

const R134A: u32 = 0;

#[test]
fn an_array_that_cannot_be_is_not_touched() {
    let kelvin = [280.0, 290.0, 300.0];
    let mut room = [1.0, 2.0, 3.0, 4.0];
    let (input, output) = (kelvin.as_ptr(), room.as_mut_ptr());
    let odd = input.cast::<u8>().wrapping_add(1).cast::<f64>();
    for (input, output, rows, expected) in [
        (input, output, usize::MAX, "too-long"),
        // more bytes than fit behind the address, and more than a half of all
        (input, output, usize::MAX / 8, "too-long"),
        (input, output, usize::MAX / 16 + 1, "too-long"),
        (odd, output, 3, "misaligned"),
        (null(), output, 3, "null"),
        (input, null_mut(), 3, "null"),
        // the same array, and one row further
        (output.cast_const(), output, 3, "overlap"),
        (output.cast_const(), output.wrapping_add(1), 3, "overlap"),
        (null(), null_mut(), 0, ""),
    ] {
        let (mut answered, mut error) = (9, null_mut());
        // SAFETY: addresses that are read or written are those of the arrays above, which have the rows said
        let status = unsafe { satline_dew_pressures(R134A, input, output, rows, &raw mut answered, &raw mut error) };
        // SAFETY: NULL, or an error that was just made
        let code = unsafe { satline_error_code(error) };
        // SAFETY: a text of that error
        let code = if code.is_null() { c"" } else { unsafe { CStr::from_ptr(code) } };
        assert_eq!((code.to_str(), answered), (Ok(expected), 0), "{rows} rows");
        assert_eq!(status == SatlineStatus::Answered, expected.is_empty());
        // SAFETY: it is freed once
        unsafe { satline_error_free(error) };
    }
    assert_eq!(room, [1.0, 2.0, 3.0, 4.0]);
}

#[test]
fn neighbours_do_not_overlap() {
    let mut both = [280.0, 290.0, 0.0, 0.0];
    let (kelvin, absolute) = both.split_at_mut(2);
    // SAFETY: two arrays of two rows each
    let status =
        unsafe { satline_dew_pressures(R134A, kelvin.as_ptr(), absolute.as_mut_ptr(), 2, null_mut(), null_mut()) };
    assert_eq!(status, SatlineStatus::Answered);
    assert!(both[2] < both[3]);
}

#[test]
fn one_air_pressure_stands_for_all_rows_and_two_for_three_are_refused() {
    let (gauge, line, air) = ([2e5; 3], [285.0; 3], [101_325.0; 3]);
    let superheats = |air_rows| {
        let mut superheat = [0.0; 3];
        let to = superheat.as_mut_ptr();
        // SAFETY: arrays of three rows, of which no more are said
        let status = unsafe {
            satline_superheats(
                R134A,
                gauge.as_ptr(),
                air.as_ptr(),
                air_rows,
                line.as_ptr(),
                to,
                3,
                null_mut(),
                null_mut(),
            )
        };
        (status, superheat)
    };
    assert_eq!(superheats(1), superheats(3));
    assert_eq!(superheats(2).0, SatlineStatus::Refused);
    assert_eq!(superheats(0).0, SatlineStatus::Refused);
}
