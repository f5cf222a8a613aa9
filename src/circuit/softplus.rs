//! Limits without corners, so that slopes exist everywhere.

/// x where it is well above zero, zero where it is well below; δ is the width of the bend.
///
/// (x + √(x² + δ²))/2, off by δ²/(4|x|) away from the bend.
#[inline]
pub(super) fn positive(x: f64, width: f64) -> f64 {
    0.5 * (x + (x * x + width * width).sqrt())
}

/// x held between `low` and `high`, with bends of `width`.
#[inline]
pub(super) fn between(x: f64, low: f64, high: f64, width: f64) -> f64 {
    low + positive(x - low, width) - positive(x - high, width)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn follows_the_corner_it_replaces() {
        for i in -300..300 {
            let x = f64::from(i) / 100.0;
            assert!((between(x, 0.0, 1.0, 0.01) - x.clamp(0.0, 1.0)).abs() <= 0.0051, "{x}");
        }
        assert!((between(5.0, 0.0, 1.0, 0.01) - 1.0).abs() < 2e-5);
    }
}
