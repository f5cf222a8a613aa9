//! Root of an increasing function inside a bracket.

use crate::Error;

/// Where the increasing function `f` crosses zero between `low` and `high`; `f` returns value and slope.
///
/// Newton's method, with bisection whenever a step would leave the bracket, so it cannot diverge. Each of its steps squares
/// the error, so one shorter than a billionth of `x` is the last: what remains is below the last place of `x`.
///
/// # Errors
/// [`Error::NotConverged`] after 200 steps, which only a function that is not increasing or not finite can bring about.
pub(crate) fn increasing_root(
    solving: &'static str,
    mut low: f64,
    mut high: f64,
    start: f64,
    f: impl Fn(f64) -> (f64, f64),
) -> Result<f64, Error> {
    const STEPS: usize = 200;
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

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn finds_a_root_where_newton_alone_would_leave_the_bracket() {
        // arctan: plain Newton diverges from |x| > 1.39
        let root = increasing_root("arctan", -30.0, 40.0, 35.0, |x| (x.atan(), 1.0 / (1.0 + x * x))).unwrap();
        assert!(root.abs() < 1e-12, "{root}");
    }

    #[test]
    fn says_so_when_there_is_no_number_to_find() {
        let error = increasing_root("nothing", 0.0, 1.0, 0.5, |_| (f64::NAN, f64::NAN)).unwrap_err();
        assert!(matches!(error, Error::NotConverged { solving: "nothing", steps: 200, .. }));
    }
}
