//! Student's distribution: number of standard errors in an interval when the scatter is known from few rows only.

use super::increasing_root;
use crate::Error;

/// Probability that |t| with `freedom` degrees of freedom is above `t`.
///
/// The finite series of Abramowitz & Stegun, Handbook of Mathematical Functions (1964), 26.7.3 and 26.7.4 (from memory;
/// tested against printed quantiles): with θ = arctan(t/√ν) and c = cos θ, 1 minus
/// sin θ (1 + c²/2 + 1·3/(2·4) c⁴ + … to c^(ν−2)) for even ν, and
/// 2/π (θ + sin θ (c + 2/3 c³ + … to c^(ν−2))) for odd ν.
fn chance_beyond(t: f64, freedom: usize) -> f64 {
    let angle = (t / (freedom as f64).sqrt()).atan();
    let (sin, cos) = angle.sin_cos();
    let even = freedom.is_multiple_of(2);
    let mut power = if even { 1.0 } else { cos };
    let mut sum = 0.0;
    let mut k = if even { 2 } else { 3 };
    while k <= freedom {
        sum += power;
        power *= cos * cos * (k - 1) as f64 / k as f64;
        k += 2;
    }
    let inside = if even { sin * sum } else { std::f64::consts::FRAC_2_PI * (angle + sin * sum) };
    1.0 - inside
}

/// Quantile of |t|: the t that |t| exceeds with probability `chance`. A thousand degrees of freedom are used for all
/// above: there t differs from that of a normal distribution by less than 1 %, down to a probability of 10⁻⁶.
///
/// # Errors
/// [`Error::Impossible`] for a probability that is not between 0 and 1.
pub(crate) fn quantile(chance: f64, freedom: usize) -> Result<f64, Error> {
    let freedom = freedom.clamp(1, 1000);
    if !(0.0 < chance && chance < 1.0) {
        return Err(Error::Impossible { what: "chance", value: chance, must: "between 0 and 1" });
    }
    // in ln t, in which the tail is nearly straight; no chance above 1e-12 lies beyond t = 1e13
    let at = increasing_root("Student's t", -10.0, 30.0, 1.0, |x| {
        let t = x.exp();
        let step = 1e-6;
        let (here, there) = (chance_beyond(t, freedom), chance_beyond((x + step).exp(), freedom));
        (chance - here, (here - there) / step)
    })?;
    Ok(at.exp())
}

#[cfg(test)]
mod tests {
    use approx::{abs_diff_eq, assert_abs_diff_eq};

    use super::*;

    #[test]
    fn quantiles_are_those_of_printed_tables() {
        // any statistics book: two-sided 5 % and 1 %
        for (freedom, five, one) in [
            (1, 12.706, 63.657),
            (2, 4.303, 9.925),
            (3, 3.182, 5.841),
            (4, 2.776, 4.604),
            (10, 2.228, 3.169),
            (30, 2.042, 2.750),
            (120, 1.980, 2.617),
        ] {
            let (a, b) = (quantile(0.05, freedom).unwrap(), quantile(0.01, freedom).unwrap());
            // half the last printed digit, and the search
            assert!(
                abs_diff_eq!(a, five, epsilon = 6e-4) && abs_diff_eq!(b, one, epsilon = 6e-4),
                "{freedom}: {a} {b}"
            );
        }
        // a thousand degrees of freedom stand for all above: 1.9623
        assert_abs_diff_eq!(quantile(0.05, 1_000_000).unwrap(), 1.960, epsilon = 3e-3);
        assert!(quantile(1.5, 3).is_err());
    }
}
