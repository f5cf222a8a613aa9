//! Chi-squared distribution: probability of squared deviations as large as these.

/// Probability that a sum of `freedom` squared standard normal deviates is above `x`.
///
/// Q(x, 1) = erfc √(x/2), Q(x, 2) = e^(−x/2), and Q(x, ν+2) = Q(x, ν) + (x/2)^(ν/2) e^(−x/2)/Γ(ν/2 + 1)
/// (Abramowitz & Stegun, Handbook of Mathematical Functions (1964), 26.4.4, 26.4.5 and 26.4.8; from memory, tested against
/// printed quantiles). One with no degree of freedom at all, or not a number, gives 1.
pub(crate) fn chance_above(x: f64, freedom: usize) -> f64 {
    if freedom == 0 || x.is_nan() || x <= 0.0 {
        return 1.0;
    }
    let half = 0.5 * x;
    let odd = freedom % 2 == 1;
    let mut chance = if odd { libm::erfc(half.sqrt()) } else { (-half).exp() };
    let mut nu = if odd { 1 } else { 2 };
    // ln of (x/2)^(ν/2) e^(−x/2)/Γ(ν/2 + 1), so that neither power nor factorial overflows
    let mut ln_term = 0.5 * f64::from(nu) * half.ln() - half - libm::lgamma(0.5 * f64::from(nu) + 1.0);
    while (nu as usize) < freedom {
        chance += ln_term.exp();
        nu += 2;
        ln_term += half.ln() - (0.5 * f64::from(nu)).ln();
    }
    chance.min(1.0)
}

#[cfg(test)]
mod tests {
    use approx::abs_diff_eq;

    use super::*;

    #[test]
    fn quantiles_are_those_of_printed_tables() {
        // any statistics book: upper 5 % and 1 %
        for (freedom, five, one) in [
            (1, 3.841, 6.635),
            (2, 5.991, 9.210),
            (3, 7.815, 11.345),
            (5, 11.070, 15.086),
            (10, 18.307, 23.209),
            (30, 43.773, 50.892),
            (100, 124.342, 135.807),
        ] {
            // half the last digit of the quantiles moves either by less
            assert!(
                abs_diff_eq!(chance_above(five, freedom), 0.05, epsilon = 2e-5),
                "{freedom}: {}",
                chance_above(five, freedom)
            );
            assert!(
                abs_diff_eq!(chance_above(one, freedom), 0.01, epsilon = 1e-5),
                "{freedom}: {}",
                chance_above(one, freedom)
            );
        }
        assert_eq!(chance_above(0.0, 4), 1.0);
        assert_eq!(chance_above(1e6, 3), 0.0);
    }
}
