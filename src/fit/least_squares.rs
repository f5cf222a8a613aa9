//! Weighted least squares with rows of known and rows of unknown scatter.

use nalgebra::DMatrix;

use crate::Error;
use crate::numeric::increasing_root;

/// Rows of a linear problem, design × x = target, each with what is known of its scatter.
///
/// The variance of row i is vᵢ = s²/wᵢ + rᵢ²: rᵢ is known (a stated uncertainty, rounding), s is not and is found from
/// the rows themselves.
#[derive(Debug, Clone)]
pub(super) struct Problem {
    /// Row after row.
    pub(super) design: Vec<f64>,
    pub(super) terms: usize,
    pub(super) target: Vec<f64>,
    /// wᵢ
    pub(super) weight: Vec<f64>,
    /// rᵢ²
    pub(super) known: Vec<f64>,
    /// What the form of the line misses by itself.
    pub(super) form: f64,
}

/// Its solution.
#[derive(Debug, Clone)]
pub(super) struct Solution {
    pub(super) x: Vec<f64>,
    /// target − design × x
    pub(super) residual: Vec<f64>,
    /// How much each row pulls the line towards itself: the diagonal of the hat matrix, 0 to 1.
    pub(super) leverage: Vec<f64>,
    /// vᵢ
    pub(super) variance: Vec<f64>,
    /// s
    pub(super) scatter: f64,
    triangle: Triangle,
}

/// The design without its rotation: V^(−1/2) × design = Q R D, Q of orthonormal columns, R upper triangular with columns
/// of length 1, D the lengths of the columns.
#[derive(Debug, Clone)]
struct Triangle {
    /// R, row after row.
    r: Vec<f64>,
    /// D
    lengths: Vec<f64>,
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
            // the root is wanted to a part in 10⁴, not to the last place
            let miss = freedom - solution.chi_squared();
            (if miss.abs() < 1e-4 * freedom { 0.0 } else { miss }, slope)
        })?;
        let s2 = ln_s2.exp();
        self.solve_with(s2, self.variance(s2))
    }

    /// The solution with given variances; with none given, those of the weights alone.
    fn solve_with(&self, s2: f64, variance: Vec<f64>) -> Result<Solution, Error> {
        let variance =
            if variance.is_empty() { self.weight.iter().map(|weight| 1.0 / weight).collect() } else { variance };
        let (triangle, rotated) = self.rotated(&variance)?;
        let x = triangle.back(rotated);
        let product = |row: &[f64], x: &[f64]| row.iter().zip(x).map(|(a, b)| a * b).sum::<f64>();
        let residual = (0..self.rows()).map(|i| self.target[i] - product(self.row(i), &x)).collect();
        let pull = |i: usize| (triangle.length_of(self.row(i)).powi(2) / variance[i]).min(1.0);
        let leverage = (0..self.rows()).map(pull).collect();
        Ok(Solution { x, residual, leverage, variance, scatter: s2.sqrt(), triangle })
    }

    /// Householder's reflections (J. ACM 5 (1958) 339): R and D of the weighted design, and Qᵀ of the weighted target.
    fn rotated(&self, variance: &[f64]) -> Result<(Triangle, Vec<f64>), Error> {
        let (n, terms) = (self.rows(), self.terms);
        let failed = |reason: &str| Error::BadTable { reason: reason.to_owned() };
        // column after column, the target last
        let mut columns: Vec<Vec<f64>> =
            (0..terms).map(|j| (0..n).map(|i| self.design[i * terms + j] / variance[i].sqrt()).collect()).collect();
        let mut target: Vec<f64> = (0..n).map(|i| self.target[i] / variance[i].sqrt()).collect();
        let mut lengths = Vec::with_capacity(terms);
        for column in &mut columns {
            let length = norm(column);
            if length == 0.0 || !length.is_finite() {
                return Err(failed("its rows say nothing about one of the coefficients"));
            }
            column.iter_mut().for_each(|x| *x /= length);
            lengths.push(length);
        }
        let mut r = vec![0.0; terms * terms];
        for j in 0..terms {
            let (done, rest) = columns.split_at_mut(j + 1);
            let mirror = &mut done[j][j..];
            let length = norm(mirror);
            // columns have length 1: what is left of this one beside the others is how far it can be told from them
            if length < SAME {
                return Err(failed("its rows cannot tell the coefficients apart: fewer terms, or rows further apart"));
            }
            let diagonal = if mirror[0] > 0.0 { -length } else { length };
            mirror[0] -= diagonal;
            // |v|² = 2 |a| (|a| + |a₀|)
            let half = length * (length + (mirror[0] + diagonal).abs());
            let reflect = |column: &mut [f64]| {
                let along = mirror.iter().zip(&*column).map(|(v, a)| v * a).sum::<f64>() / half;
                column.iter_mut().zip(&*mirror).for_each(|(a, v)| *a -= along * v);
            };
            r[j * terms + j] = diagonal;
            for (k, column) in rest.iter_mut().enumerate() {
                reflect(&mut column[j..]);
                r[j * terms + j + 1 + k] = column[j];
            }
            reflect(&mut target[j..]);
        }
        target.truncate(terms);
        Ok((Triangle { r, lengths }, target))
    }
}

/// Columns of length 1 that differ by less than this cannot be told apart.
const SAME: f64 = 1e-13;

fn norm(x: &[f64]) -> f64 {
    x.iter().map(|x| x * x).sum::<f64>().sqrt()
}

impl Triangle {
    /// x of R D x = `rotated`.
    fn back(&self, mut rotated: Vec<f64>) -> Vec<f64> {
        let terms = self.lengths.len();
        for j in (0..terms).rev() {
            let known: f64 = (j + 1..terms).map(|k| self.r[j * terms + k] * rotated[k]).sum();
            rotated[j] = (rotated[j] - known) / self.r[j * terms + j];
        }
        rotated.iter().zip(&self.lengths).map(|(x, length)| x / length).collect()
    }

    /// |z| of Rᵀ z = D⁻¹ `row`: the standard error of row · x, since cov(x) = (D Rᵀ R D)⁻¹.
    fn length_of(&self, row: &[f64]) -> f64 {
        let terms = self.lengths.len();
        let mut z: Vec<f64> = Vec::with_capacity(terms);
        for (j, (x, length)) in row.iter().zip(&self.lengths).enumerate() {
            let known: f64 = z.iter().enumerate().map(|(k, z)| self.r[k * terms + j] * z).sum();
            z.push((x / length - known) / self.r[j * terms + j]);
        }
        norm(&z)
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
        self.chi_squared() + spread + 2.0 * k + 2.0 * k * (k + 1.0) / (n - k - 1.0)
    }

    /// Largest over smallest singular value of the weighted design with its columns scaled to length 1.
    pub(super) fn condition(&self) -> f64 {
        let terms = self.x.len();
        let singular = DMatrix::from_row_slice(terms, terms, &self.triangle.r).singular_values();
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
