//! The ideal-gas part α⁰ and its derivatives.

use super::Ideal;
use super::exponential::exp;
#[cfg(not(feature = "std"))]
use crate::float::Float as _;

/// α⁰ without ln δ, with its derivatives times powers of τ.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct IdealPart {
    /// α⁰ − ln δ.
    pub a: f64,
    /// τ ∂α⁰/∂τ.
    pub a_t: f64,
    /// τ² ∂²α⁰/∂τ².
    pub a_tt: f64,
}

impl Ideal {
    /// Ideal-gas part at reduced reciprocal temperature `tau`.
    pub(super) fn at(&self, tau: f64, ln_tau: f64) -> IdealPart {
        let (a1, a2, c) = (self.constant, self.linear, self.logarithmic);
        // a₁ + a₂ τ + c ln τ
        let mut part = IdealPart { a: a1 + a2 * tau + c * ln_tau, a_t: a2 * tau + c, a_tt: -c };
        for &(n, t) in self.polynomial {
            // n τ^t;  n t τ^t;  n t (t − 1) τ^t
            let power = n * exp(t * ln_tau);
            part.a += power;
            part.a_t += t * power;
            part.a_tt += t * (t - 1.0) * power;
        }
        for term in self.planck_einstein {
            // x = t τ;  n ln(1 − e^−x);  n x/(e^x − 1);  −n x² e^x/(e^x − 1)²
            let x = term.t * tau;
            let small = exp(-x);
            let occupied = small / (1.0 - small);
            part.a += term.n * (1.0 - small).ln();
            part.a_t += term.n * x * occupied;
            part.a_tt -= term.n * x * x * occupied * (1.0 + occupied);
        }
        part
    }
}
