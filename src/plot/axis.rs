//! Axes: their ranges and their round tick values.

/// One axis.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Axis {
    low: f64,
    high: f64,
    logarithmic: bool,
    /// Tick values with their labels.
    ticks: Vec<(f64, String)>,
    /// Minor grid lines, without labels.
    between: Vec<f64>,
}

/// The smallest of 1, 2, 5 × 10ⁿ that is not below `x`.
fn round_up(x: f64) -> f64 {
    let ten = 10f64.powi(x.log10().floor() as i32);
    // rounding errors above a round number are ignored
    [1.0, 2.0, 5.0, 10.0].map(|digit| digit * ten).into_iter().find(|round| *round >= x * (1.0 - 1e-9)).unwrap_or(x)
}

/// Decimals that write every multiple of `step` without rounding.
pub(super) fn decimals(step: f64) -> usize {
    if step.is_finite() && step > 0.0 { (-(step * 1.000_001).log10().floor()).clamp(0.0, 9.0) as usize } else { 0 }
}

/// `value` with `decimals` digits after the point and a true minus sign.
pub(super) fn plain(value: f64, decimals: usize) -> String {
    let text = format!("{value:.decimals$}");
    match text.strip_prefix('-') {
        Some(rest) if rest.chars().all(|c| c == '0' || c == '.') => rest.to_owned(),
        Some(rest) => format!("−{rest}"),
        None => text,
    }
}

impl Axis {
    /// A linear axis that covers `low` to `high`, widened to its outer ticks; there are about `count` ticks.
    pub(super) fn linear(low: f64, high: f64, count: usize) -> Self {
        let step = Self::step(low, high, count);
        let (first, last) = ((low / step + 1e-9).floor(), (high / step - 1e-9).ceil());
        Self::stepped(first * step, last.max(first + 1.0) * step, step)
    }

    /// A linear axis from `low` to `high` exactly, with ticks at round numbers.
    pub(super) fn exactly(low: f64, high: f64, count: usize) -> Self {
        Self::stepped(low, high, Self::step(low, high, count))
    }

    fn step(low: f64, high: f64, count: usize) -> f64 {
        let span = (high - low).max(1e-6 * low.abs().max(high.abs())).max(1e-12);
        round_up(span / count.max(1) as f64)
    }

    fn stepped(low: f64, high: f64, step: f64) -> Self {
        let decimals = decimals(step);
        let (first, last) = ((low / step - 1e-9).ceil() as i64, (high / step + 1e-9).floor() as i64);
        let ticks = (first..=last.min(first.saturating_add(100)))
            .map(|i| i as f64 * step)
            .map(|value| (value, plain(value, decimals)))
            .collect();
        Self { low, high, logarithmic: false, ticks, between: Vec::new() }
    }

    /// A logarithmic axis from `low` to `high`, both above zero: 1, 2, 5 of each decade are ticks, the others minor lines.
    ///
    /// Short ranges with fewer than three of these have evenly stepped ticks.
    pub(super) fn logarithmic(low: f64, high: f64) -> Self {
        let (mut ticks, mut between) = (Vec::new(), Vec::new());
        let (first, last) = (low.log10().floor() as i32, high.log10().ceil() as i32);
        for exponent in first..=last.min(first.saturating_add(30)) {
            for digit in 1..10 {
                // dividing by a power of ten keeps 0.5 exact
                let ten = 10f64.powi(exponent.abs());
                let value = if exponent < 0 { f64::from(digit) / ten } else { f64::from(digit) * ten };
                if value < low * (1.0 - 1e-9) || value > high * (1.0 + 1e-9) {
                    continue;
                }
                if matches!(digit, 1 | 2 | 5) {
                    ticks.push((value, plain(value, (-exponent).max(0) as usize)));
                } else {
                    between.push(value);
                }
            }
        }
        if ticks.len() < 3 {
            let even = Self::exactly(low, high, 7);
            return Self { logarithmic: true, ..even };
        }
        Self { low, high, logarithmic: true, ticks, between }
    }

    /// The axis with its numbers written with the decimal sign `point`.
    pub(super) fn pointed(mut self, point: char) -> Self {
        let mut sign = [0; 4];
        let sign: &str = point.encode_utf8(&mut sign);
        self.ticks.iter_mut().for_each(|(_, number)| *number = number.replace('.', sign));
        self
    }

    /// Position of `value` as a fraction of the axis.
    pub(super) fn share(&self, value: f64) -> f64 {
        if self.logarithmic {
            (value.max(1e-300) / self.low).ln() / (self.high / self.low).ln()
        } else {
            (value - self.low) / (self.high - self.low)
        }
    }

    /// The value at a fraction of a linear axis.
    pub(super) fn value(&self, share: f64) -> f64 {
        self.low + share * (self.high - self.low)
    }

    pub(super) fn low(&self) -> f64 {
        self.low
    }

    pub(super) fn high(&self) -> f64 {
        self.high
    }

    pub(super) fn ticks(&self) -> &[(f64, String)] {
        &self.ticks
    }

    pub(super) fn between(&self) -> &[f64] {
        &self.between
    }
}

#[cfg(test)]
mod tests {
    use super::Axis;
    use approx::assert_abs_diff_eq;

    fn numbers(axis: &Axis) -> Vec<&str> {
        axis.ticks().iter().map(|(_, text)| text.as_str()).collect()
    }

    #[test]
    fn ticks_are_round_and_hold_what_was_asked() {
        assert_eq!(numbers(&Axis::linear(-3.0, 17.2, 5)), ["−5", "0", "5", "10", "15", "20"]);
        assert_eq!(numbers(&Axis::linear(0.0, 0.31, 4)), ["0.0", "0.1", "0.2", "0.3", "0.4"]);
        assert_eq!(numbers(&Axis::exactly(-3.0, 17.2, 5)), ["0", "5", "10", "15"]);
        assert_eq!(numbers(&Axis::logarithmic(0.9, 45.0)), ["1", "2", "5", "10", "20"]);
        assert_eq!(numbers(&Axis::logarithmic(0.04, 1.2)), ["0.05", "0.1", "0.2", "0.5", "1"]);
        for (low, high) in [(1.0, 1.0), (-1e-9, 1e-9), (1e6, 1e6 + 1.0), (-40.0, 400.0), (0.0, 0.0)] {
            let axis = Axis::linear(low, high, 6);
            assert!(axis.low() <= low + 1e-9 && axis.high() >= high - 1e-9 && axis.ticks().len() >= 2, "{axis:?}");
            assert!(axis.ticks().len() <= 12, "{axis:?}");
        }
    }

    #[test]
    fn a_share_is_nought_at_the_low_end_and_one_at_the_high() {
        for axis in [Axis::linear(-3.0, 17.2, 5), Axis::logarithmic(0.9, 45.0), Axis::logarithmic(70.0, 120.0)] {
            // rounding
            assert_abs_diff_eq!(axis.share(axis.low()), 0.0, epsilon = 1e-12);
            assert_abs_diff_eq!(axis.share(axis.high()), 1.0, epsilon = 1e-12);
        }
    }
}
