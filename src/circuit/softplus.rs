//! Smooth replacements of max(x, 0) and of clamping, so that residuals have slopes everywhere.

/// Smooth max(x, 0): (x + √(x² + δ²))/2 with δ the width of the bend.
///
/// The algebraic form of softplus; it exceeds max(x, 0) by δ²/(4|x|) away from the bend and by δ/2 in it.
#[inline]
pub(super) fn softplus(x: f64, width: f64) -> f64 {
    0.5 * (x + (x * x + width * width).sqrt())
}

/// Smooth clamp of x to `low` … `high`: low + s(x − low) − s(x − high), s the [`softplus`] of `width`.
#[inline]
pub(super) fn soft_clamp(x: f64, low: f64, high: f64, width: f64) -> f64 {
    low + softplus(x - low, width) - softplus(x - high, width)
}

#[cfg(test)]
mod tests {
    use approx::{abs_diff_eq, assert_abs_diff_eq};

    use super::*;

    #[test]
    fn follows_the_corner_it_replaces() {
        for i in -300..300 {
            let x = f64::from(i) / 100.0;
            // half the width of the bend is 0.005; the other end adds less than 1e-4
            assert!(abs_diff_eq!(soft_clamp(x, 0.0, 1.0, 0.01), x.clamp(0.0, 1.0), epsilon = 0.0051), "{x}");
        }
        assert_abs_diff_eq!(soft_clamp(5.0, 0.0, 1.0, 0.01), 1.0, epsilon = 2e-5); // δ²/4x of either end is less
    }
}
