//! Standard normal distribution, and the divisor of a rectangular one: here and not in `numeric`, so that measured values may use it too.

/// Coverage factor of a 95 % interval: the 97.5 % quantile.
pub(crate) const K95: f64 = 1.959_963_984_540_054;

/// √3: limits that are possible alike spread by half their width over it, a rectangular distribution (JCGM 100:2008, 4.3.7).
pub(crate) const SQRT_3: f64 = 1.732_050_807_568_877_2;

/// Φ(z), the probability that a standard normal deviate lies below `z`; 0 for a `z` that is not a number.
pub(crate) fn cdf(z: f64) -> f64 {
    if z.is_nan() {
        return 0.0;
    }
    // Φ(z) = erfc(−z/√2)/2
    0.5 * libm::erfc(-z / core::f64::consts::SQRT_2)
}

#[cfg(test)]
mod tests {
    use approx::{abs_diff_eq, assert_abs_diff_eq};

    use super::*;

    #[test]
    fn distribution_is_that_of_printed_tables() {
        // NIST/SEMATECH e-Handbook of Statistical Methods, 1.3.6.7.1 (from memory)
        for (z, printed) in [(0.0, 0.5), (1.0, 0.8413), (1.96, 0.975), (-1.96, 0.025), (3.0, 0.9987)] {
            // half the last printed digit
            assert!(abs_diff_eq!(cdf(z), printed, epsilon = 5e-5), "Φ({z}) = {}", cdf(z));
        }
        assert_abs_diff_eq!(cdf(K95), 0.975, epsilon = 1e-15); // rounding
        assert_eq!([cdf(f64::NEG_INFINITY), cdf(f64::INFINITY), cdf(f64::NAN)], [0.0, 1.0, 0.0]);
    }
}
