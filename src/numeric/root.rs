//! Roots inside a bracket: of an increasing function with its slope, and of any condition that changes from false to
//! true.

use core::cmp::Ordering;

use crate::Error;

/// Root of the increasing function `f` between `low` and `high`; `f` returns value and slope.
///
/// Newton's method, with bisection whenever a step would leave the bracket, so it cannot diverge. Each of its steps squares
/// the error, so one shorter than a billionth of `x` is the last: what remains is below the last place of `x`.
///
/// # Errors
/// [`Error::NotConverged`] after 200 steps, which only a function that is not increasing or not finite can bring about; at
/// once for a bracket that is none.
pub(crate) fn increasing_root(
    solving: &'static str,
    mut low: f64,
    mut high: f64,
    start: f64,
    f: impl Fn(f64) -> (f64, f64),
) -> Result<f64, Error> {
    const STEPS: usize = 200;
    if low.partial_cmp(&high).is_none_or(Ordering::is_gt) {
        return Err(Error::NotConverged { solving, steps: 0, residual: f64::NAN });
    }
    let mut x = start.clamp(low, high);
    let mut residual = f64::INFINITY;
    for _ in 0..STEPS {
        let (value, slope) = f(x);
        residual = value;
        if value == 0.0 {
            return Ok(x);
        }
        if value < 0.0 {
            low = x;
        } else {
            high = x;
        }
        let newton = x - value / slope;
        if low <= newton && newton <= high {
            if (newton - x).abs() <= 1e-9 * x.abs() {
                return Ok(newton);
            }
            x = newton;
        } else {
            let middle = 0.5 * (low + high);
            if (high - low) <= 2.0 * f64::EPSILON * x.abs() {
                return Ok(middle);
            }
            x = middle;
        }
    }
    Err(Error::NotConverged { solving, steps: STEPS, residual })
}

/// The same for a function that is nearly straight: begun where the chord between the ends of the bracket crosses zero.
///
/// # Errors
/// As [`increasing_root`].
pub(crate) fn nearly_straight_root(
    solving: &'static str,
    low: f64,
    high: f64,
    f: impl Fn(f64) -> (f64, f64),
) -> Result<f64, Error> {
    let (at_low, at_high) = (f(low).0, f(high).0);
    let start = low - at_low * (high - low) / (at_high - at_low);
    increasing_root(solving, low, high, start, f)
}

/// Bisection: where `beyond` changes, between `before`, where it is false, and `after`, where it is true; the last point
/// before the change and the first after it, no further apart than `tolerance`.
///
/// `before` may lie above or below `after`. Where `beyond` changes more than once, one of the changes is found.
pub(crate) fn bisect(mut before: f64, mut after: f64, tolerance: f64, beyond: impl Fn(f64) -> bool) -> (f64, f64) {
    while (after - before).abs() > tolerance {
        let middle = 0.5 * (before + after);
        // nothing left between them
        if middle == before || middle == after {
            break;
        }
        if beyond(middle) { after = middle } else { before = middle }
    }
    (before, after)
}

#[cfg(test)]
mod tests {
    use approx::assert_abs_diff_eq;

    use super::*;

    #[test]
    fn finds_a_root_where_newton_alone_would_leave_the_bracket() {
        // arctan: plain Newton diverges from |x| > 1.39
        let root = increasing_root("arctan", -30.0, 40.0, 35.0, |x| (x.atan(), 1.0 / (1.0 + x * x))).unwrap();
        assert_abs_diff_eq!(root, 0.0, epsilon = 1e-12); // the last places of numbers near one
    }

    #[test]
    fn a_straight_line_is_solved_on_its_chord() {
        for (low, high, slope, root) in [(-3.0, 5.0, 2.0, 1.5), (0.5, 64.0, 0.25, 2.0), (-8.0, -1.0, 4.0, -1.0)] {
            let calls = std::cell::Cell::new(0);
            let line = |x: f64| {
                calls.set(calls.get() + 1);
                (slope * (x - root), slope)
            };
            // numbers of few binary digits: exact, and nothing left to improve after both ends and the chord
            assert_eq!((nearly_straight_root("a line", low, high, line).unwrap(), calls.get()), (root, 3));
        }
    }

    #[test]
    fn halves_down_to_neighbours_and_to_a_tolerance() {
        for (before, after) in [(0.0, 4.0), (4.0, 0.0)] {
            let beyond = |x: f64| (x * x > 2.0) == (before < after);
            let (last, first) = bisect(before, after, 0.0, beyond);
            assert!(!beyond(last) && beyond(first) && (last == first.next_up() || first == last.next_up()));
            let (last, first) = bisect(before, after, 1e-3, beyond);
            // the width asked for
            assert_abs_diff_eq!(last, first, epsilon = 1e-3);
            assert!(!beyond(last));
            assert!(beyond(first));
        }
        // no tolerance and no number to compare still ends
        assert_eq!(bisect(f64::NAN, 1.0, 0.0, |_| true).1, 1.0);
    }

    #[test]
    fn a_bracket_that_is_none_is_refused() {
        assert!(increasing_root("nothing", 1.0, 0.0, 0.5, |x| (x, 1.0)).is_err());
        assert!(increasing_root("nothing", f64::NAN, 0.0, 0.5, |x| (x, 1.0)).is_err());
    }

    #[test]
    fn says_so_when_there_is_no_number_to_find() {
        let error = increasing_root("nothing", 0.0, 1.0, 0.5, |_| (f64::NAN, f64::NAN)).unwrap_err();
        assert!(matches!(error, Error::NotConverged { solving: "nothing", steps: 200, .. }));
    }
}
