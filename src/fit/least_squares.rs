//! Weighted least squares for rows of known and of unknown scatter.

use std::cmp::Ordering;

use nalgebra::{DMatrix, DVector};

use crate::Error;
use crate::numeric::increasing_root;

/// Rows of a linear problem, design × x = target, each with what is known of its scatter.
///
/// The variance of row i is vᵢ = s²/wᵢ + rᵢ²: rᵢ is known (a stated uncertainty, rounding), s is not and is found from
/// the rows themselves.
#[derive(Debug, Clone)]
pub(super) struct Problem {
    /// Design matrix, row by row.
    pub(super) design: Vec<f64>,
    pub(super) terms: usize,
    pub(super) target: Vec<f64>,
    /// wᵢ
    pub(super) weight: Vec<f64>,
    /// rᵢ²
    pub(super) known: Vec<f64>,
    /// Error of the functional form itself.
    pub(super) form: f64,
}

/// Solution of a least-squares problem.
#[derive(Debug, Clone)]
pub(super) struct Solution {
    pub(super) x: Vec<f64>,
    /// target − design × x
    pub(super) residual: Vec<f64>,
    /// Leverage of each row: the diagonal of the hat matrix, 0 to 1.
    pub(super) leverage: Vec<f64>,
    /// vᵢ
    pub(super) variance: Vec<f64>,
    /// s
    pub(super) scatter: f64,
    triangle: Triangle,
}

/// Triangular factor of the design: V^(−1/2) × design = Q R D, Q of orthonormal columns, R upper triangular with
/// columns of length 1, D the lengths of the columns.
#[derive(Debug, Clone)]
struct Triangle {
    r: DMatrix<f64>,
    /// D
    lengths: DVector<f64>,
}

/// Relative scatter below which rows are taken as exact: what logarithms are rounded to.
const EXACT: f64 = 1e-15;

impl Problem {
    pub(super) fn rows(&self) -> usize {
        self.target.len()
    }

    pub(super) fn row(&self, i: usize) -> &[f64] {
        &self.design[i * self.terms..(i + 1) * self.terms]
    }

    /// The problem without the rows for which `leave_out` says so.
    pub(super) fn without(&self, leave_out: impl Fn(usize) -> bool) -> Self {
        let kept: Vec<usize> = (0..self.rows()).filter(|&i| !leave_out(i)).collect();
        let of = |all: &[f64]| kept.iter().map(|&i| all[i]).collect();
        Self {
            design: kept.iter().flat_map(|&i| self.row(i)).copied().collect(),
            terms: self.terms,
            target: of(&self.target),
            weight: of(&self.weight),
            known: of(&self.known),
            form: self.form,
        }
    }

    /// Whether there are `each` rows for each coefficient.
    pub(super) fn bears(&self, each: usize) -> bool {
        self.rows() >= each * self.terms
    }

    fn variance(&self, s2: f64) -> Vec<f64> {
        let of = |(weight, known): (&f64, &f64)| (s2 / weight + known).max(EXACT * EXACT);
        self.weight.iter().zip(&self.known).map(of).collect()
    }

    /// The solution whose scatter s makes Σ eᵢ²/vᵢ equal to the degrees of freedom (Paule & Mandel, J. Res. Natl. Bur.
    /// Stand. 87 (1982) 377, for means); s is zero when what is known explains the residuals.
    ///
    /// # Errors
    /// [`Error::BadTable`] when the rows cannot settle the coefficients and their scatter.
    pub(super) fn solve(&self) -> Result<Solution, Error> {
        let freedom = self.rows().saturating_sub(self.terms);
        if freedom == 0 {
            return Err(Error::BadTable {
                reason: format!(
                    "{} rows cannot settle {} coefficients and how far they can be trusted",
                    self.rows(),
                    self.terms
                ),
            });
        }
        let freedom = freedom as f64;
        let plain = self.solve_with(1.0, Vec::new())?;
        let weighted: f64 = plain.residual.iter().zip(&self.weight).map(|(e, w)| e * e * w).sum();
        let most = (weighted / freedom).max(EXACT * EXACT);
        if self.known.iter().all(|&known| known == 0.0) {
            return self.solve_with(most, self.variance(most));
        }
        let at_zero = self.solve_with(0.0, self.variance(0.0))?;
        if at_zero.chi_squared() <= freedom {
            return Ok(at_zero);
        }
        // Σ e²/v falls as s² rises; the plain solution is an upper end
        let (low, high) = ((EXACT * EXACT).ln(), most.ln() + 1e-9);
        let ln_s2 = increasing_root("scatter of a table", low, high, high, |ln_s2| {
            let s2 = ln_s2.exp();
            let Ok(solution) = self.solve_with(s2, self.variance(s2)) else { return (f64::NAN, f64::NAN) };
            let slope: f64 = (0..self.rows())
                .map(|i| s2 / self.weight[i] * (solution.residual[i] / solution.variance[i]).powi(2))
                .sum();
            (freedom - solution.chi_squared(), slope)
        })?;
        let s2 = ln_s2.exp();
        self.solve_with(s2, self.variance(s2))
    }

    /// The solution with given variances; with none given, those of the weights alone.
    fn solve_with(&self, s2: f64, variance: Vec<f64>) -> Result<Solution, Error> {
        let variance =
            if variance.is_empty() { self.weight.iter().map(|weight| 1.0 / weight).collect() } else { variance };
        let (triangle, rotated) = self.rotated(&variance)?;
        let x = triangle.back(&rotated)?;
        let product = |row: &[f64], x: &[f64]| row.iter().zip(x).map(|(a, b)| a * b).sum::<f64>();
        let residual = (0..self.rows()).map(|i| self.target[i] - product(self.row(i), &x)).collect();
        let pull = |i: usize| (triangle.length_of(self.row(i)).powi(2) / variance[i]).min(1.0);
        let leverage = (0..self.rows()).map(pull).collect();
        Ok(Solution { x, residual, leverage, variance, scatter: s2.sqrt(), triangle })
    }

    /// R and D of the weighted design, and the part of Qᵀ × weighted target that R can reach.
    fn rotated(&self, variance: &[f64]) -> Result<(Triangle, DVector<f64>), Error> {
        let (n, terms) = (self.rows(), self.terms);
        let mut design = DMatrix::from_fn(n, terms, |i, j| self.design[i * terms + j] / variance[i].sqrt());
        let mut target = DVector::from_fn(n, |i, _| self.target[i] / variance[i].sqrt());
        if target.iter().any(|x| !x.is_finite()) {
            return Err(failed("its numbers are too large or too small to compute with"));
        }
        let lengths = DVector::from_fn(terms, |j, _| design.column(j).norm());
        for (mut column, &length) in design.column_iter_mut().zip(&lengths) {
            if length == 0.0 || !length.is_finite() {
                return Err(failed("its rows say nothing about one of the coefficients"));
            }
            column /= length;
        }
        let qr = design.qr();
        let r = qr.r();
        // columns have length 1: what is left of one beside those before it is how far it can be told from them
        if r.diagonal().iter().any(|left| left.abs().partial_cmp(&SAME) != Some(Ordering::Greater)) {
            return Err(failed("its rows cannot tell the coefficients apart: fewer terms, or rows further apart"));
        }
        qr.q_tr_mul(&mut target);
        Ok((Triangle { r, lengths }, target.rows(0, terms).into_owned()))
    }
}

fn failed(reason: &str) -> Error {
    Error::BadTable { reason: reason.to_owned() }
}

/// Difference below which columns of length 1 cannot be told apart.
const SAME: f64 = 1e-13;

impl Triangle {
    /// x of R D x = `rotated`.
    fn back(&self, rotated: &DVector<f64>) -> Result<Vec<f64>, Error> {
        let x = self
            .r
            .solve_upper_triangular(rotated)
            .ok_or_else(|| failed("its rows cannot tell the coefficients apart"))?;
        Ok(x.component_div(&self.lengths).iter().copied().collect())
    }

    /// |z| of Rᵀ z = D⁻¹ `row`: the standard error of row · x, since cov(x) = (D Rᵀ R D)⁻¹.
    fn length_of(&self, row: &[f64]) -> f64 {
        let scaled = DVector::from_column_slice(row).component_div(&self.lengths);
        // R has no zero on its diagonal, or it would not have been handed out
        self.r.tr_solve_upper_triangular(&scaled).map_or(f64::INFINITY, |z| z.norm())
    }
}

impl Solution {
    /// Rows less coefficients.
    pub(super) fn freedom(&self) -> usize {
        self.residual.len() - self.x.len()
    }

    /// Σ eᵢ²/vᵢ
    fn chi_squared(&self) -> f64 {
        self.residual.iter().zip(&self.variance).map(|(e, v)| e * e / v).sum()
    }

    /// −2 ln of the likelihood of the rows, less a constant, with Hurvich & Tsai's correction for few rows
    /// (Biometrika 76 (1989) 297); smaller is better.
    pub(super) fn criterion(&self) -> f64 {
        let n = self.residual.len() as f64;
        // the coefficients and the scatter
        let k = self.x.len() as f64 + 1.0;
        let spread: f64 = self.variance.iter().map(|v| v.ln()).sum();
        // 2k + 2k(k + 1)/(n − k − 1)
        self.chi_squared() + spread + 2.0 * k * n / (n - k - 1.0)
    }

    /// Condition number of the weighted design matrix, its columns scaled to unit length.
    pub(super) fn condition(&self) -> f64 {
        let singular = self.triangle.r.singular_values();
        singular.max() / singular.min()
    }

    /// Standard error of coefficient `j`.
    pub(super) fn standard(&self, j: usize) -> f64 {
        let unit: Vec<f64> = (0..self.x.len()).map(|k| f64::from(u8::from(k == j))).collect();
        self.triangle.length_of(&unit)
    }

    /// Standard error of `design_row` · x.
    pub(super) fn standard_of(&self, design_row: &[f64]) -> f64 {
        self.triangle.length_of(design_row)
    }

    /// The residual of row `i` over its own standard deviation.
    pub(super) fn studentised(&self, i: usize) -> f64 {
        self.residual[i] / (self.variance[i] * (1.0 - self.leverage[i]).max(1e-9)).sqrt()
    }
}

#[cfg(test)]
mod tests {
    use approx::assert_abs_diff_eq;

    use super::*;

    /// A few operations on numbers of order one.
    const ROUNDING: f64 = 1e-12;

    /// A straight line through 1, 3, 2, 5, 4, 6 at 0 to 5: Sxy = 15.5, Sxx = Syy = 17.5.
    #[test]
    fn six_points_on_a_line_have_the_scatter_and_the_criterion_worked_by_hand() {
        let line = Problem {
            design: (0..6).flat_map(|x| [1.0, f64::from(x)]).collect(),
            terms: 2,
            target: vec![1.0, 3.0, 2.0, 5.0, 4.0, 6.0],
            weight: vec![1.0; 6],
            known: vec![0.0; 6],
            form: 0.0,
        };
        let solution = line.solve().unwrap();
        let s2 = (17.5 - 15.5 * 15.5 / 17.5) / 4.0;
        assert_abs_diff_eq!(solution.x[1], 15.5 / 17.5, epsilon = ROUNDING);
        assert_abs_diff_eq!(solution.scatter * solution.scatter, s2, epsilon = ROUNDING);
        // s²/Sxx
        assert_abs_diff_eq!(solution.standard(1).powi(2), s2 / 17.5, epsilon = ROUNDING);
        // Σe²/s² = 4 and 6 ln s²; for the scatter and two coefficients 2 · 3 + 2 · 3 · 4/(6 − 4)
        assert_abs_diff_eq!(solution.criterion(), 4.0 + 6.0 * s2.ln() + 6.0 + 12.0, epsilon = ROUNDING);
    }
}
