//! How likely each cause is before anything was read.

use super::cause::{ALL, Cause};

/// Weights of the causes before the reading; they need not add up to anything.
#[derive(Debug, Clone, PartialEq)]
pub struct Prior {
    weights: Vec<(&'static str, f64)>,
}

impl Default for Prior {
    fn default() -> Self {
        Self::flat()
    }
}

impl Prior {
    /// Every cause the same, the healthy car among them; each then counts by the share of its cars in which it shows. How often
    /// each cause brings a car in has been published nowhere that could be read.
    pub fn flat() -> Self {
        Self { weights: ALL.iter().map(|cause| (cause.id, 1.0)).collect() }
    }

    /// The same with another weight for `cause`; a weight that is not a number above zero counts as zero.
    #[must_use]
    pub fn with(mut self, cause: &Cause, weight: f64) -> Self {
        let weight = if weight.is_finite() { weight.max(0.0) } else { 0.0 };
        self.weights.iter_mut().filter(|(id, _)| *id == cause.id).for_each(|(_, w)| *w = weight);
        self
    }

    /// The weight of `cause`.
    pub fn of(&self, cause: &Cause) -> f64 {
        self.weights.iter().find(|(id, _)| *id == cause.id).map_or(0.0, |(_, weight)| *weight)
    }
}
