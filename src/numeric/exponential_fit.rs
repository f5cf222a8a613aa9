//! Fit of an exponential rise, with its uncertainty: a family of curves from linear to levelling off or speeding up.
//!
//! y = a + b φ_κ(x), φ_κ(x) = (1 − e^(−κx))/(1 − e^(−κ)), x from 0 to 1. At κ = 0 the rise is straight; above it levels
//! off with the time constant 1/κ, below it speeds up. b is the rise from x = 0 to 1 whatever κ is.
//!
//! For each κ the curve is linear in a and b and least squares solve it at once, so the sum of squares S(κ) is searched in
//! one dimension and nothing can diverge. Intervals are those of the profile: what the sum of squares cannot tell from the
//! best fit at 95 %, S ≤ S_min + t² s² with Student's t (Bates & Watts, Nonlinear Regression Analysis (1988), chapter 6;
//! from memory). They need not be symmetric and may be open.

use super::{student, variance_inflation};
use crate::Error;

/// Share of cases that intervals leave out: that of a coverage factor of 2 for many readings (JCGM 100:2008, 6.3.3), so that
/// at least 95 % are inside.
const BEYOND: f64 = 0.0455;
/// A rise that speeds up by more than e²⁰ is not looked for.
const LOWEST_BEND: f64 = -20.0;
/// The largest κ is the one that has levelled to a thousandth at the second reading: ln 1000.
const LEVELLED: f64 = 6.9;
/// κ is searched in even steps of arsinh κ.
const STEPS: usize = 160;
/// Values inside the interval of κ at which the profile of another figure is read.
const INSIDE: usize = 40;

/// A best value and the 95 % interval; an end that the data leave open is infinite.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Estimate {
    pub(crate) value: f64,
    pub(crate) low: f64,
    pub(crate) high: f64,
}

/// A linear figure of the curve at one κ: level × a + rise × b.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Figure {
    pub(crate) level: f64,
    pub(crate) rise: f64,
}

/// The family fitted to readings.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Rise {
    x: Vec<f64>,
    y: Vec<f64>,
    /// The step to which y is rounded.
    step: f64,
    best: Curve,
    straight: Curve,
    /// Variance of one reading about the best curve.
    variance: f64,
    /// Variance of one reading about the fitted line.
    straight_variance: f64,
    scatter: f64,
    variance_inflation: f64,
    kappas: (f64, f64),
    highest: f64,
}

/// One member of the family, with its share of the readings.
#[derive(Debug, Clone, Copy, PartialEq)]
struct Curve {
    kappa: f64,
    a: f64,
    b: f64,
    squares: f64,
    /// Cofactors of a and b: multiplied by the variance of a reading they are (co)variances.
    aa: f64,
    ab: f64,
    bb: f64,
}

/// φ_κ(x)
pub(crate) fn phi(kappa: f64, x: f64) -> f64 {
    // by its series where the difference of two exponentials would lose its digits
    if kappa.abs() < 1e-6 { x * (1.0 + 0.5 * kappa * (1.0 - x)) } else { (-kappa * x).exp_m1() / (-kappa).exp_m1() }
}

/// Beside the levelling rise a straight one: y = a + b φ_κ(x) + c x.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Beside {
    /// c, with its interval.
    pub(crate) straight: Estimate,
    /// Whether c = 0 is excluded.
    pub(crate) clear: bool,
}

impl Rise {
    /// Fits the family to at least five readings; `x` from 0 to 1, increasing; `step` is what y is rounded to.
    ///
    /// The variance of a reading is that of the residuals, S/(n − 3). Where they resemble their neighbours (first
    /// autocorrelation ρ above zero) readings count for less than their number, and it is multiplied by (1 + ρ)/(1 − ρ). It is
    /// not less than that of the rounding, step²/12.
    ///
    /// # Errors
    /// [`Error::NotConverged`] for readings that no curve can be fitted to.
    pub(crate) fn fit(x: &[f64], y: &[f64], step: f64) -> Result<Self, Error> {
        let n = x.len().min(y.len());
        let failed = Error::NotConverged { solving: "rise of pressure", steps: STEPS, residual: f64::NAN };
        if n < 5 {
            return Err(failed);
        }
        let (x, y) = (x[..n].to_vec(), y[..n].to_vec());
        let highest = LEVELLED / x[1].max(1e-6);
        let valley = Valley::new(LOWEST_BEND, highest, |kappa| Curve::at(kappa, &x, &y).squares);
        let best = Curve::at(valley.kappa, &x, &y);
        let straight = Curve::at(0.0, &x, &y);
        if !(best.squares.is_finite() && straight.squares.is_finite()) {
            return Err(failed);
        }
        let variance_inflation = variance_inflation(&best.residuals(&x, &y));
        let scatter = (best.squares / (n - 3) as f64).sqrt();
        let rounding = step * step / 12.0;
        let variance = (variance_inflation * scatter * scatter).max(rounding);
        let straight_variance = (variance_inflation * straight.squares / (n - 2) as f64).max(rounding);
        let t = student::quantile(BEYOND, n - 3)?;
        let limit = best.squares + t * t * variance;
        let kappas = valley.below(limit);
        Ok(Self {
            x,
            y,
            step,
            best,
            straight,
            variance,
            straight_variance,
            scatter,
            variance_inflation,
            kappas,
            highest,
        })
    }

    /// Readings.
    fn count(&self) -> usize {
        self.x.len()
    }

    /// S_min + t² s²
    fn limit(&self) -> Result<f64, Error> {
        let t = student::quantile(BEYOND, self.count() - 3)?;
        Ok(self.best.squares + t * t * self.variance)
    }

    /// κ with its interval.
    pub(crate) fn bend(&self) -> Estimate {
        Estimate { value: self.best.kappa, low: self.kappas.0, high: self.kappas.1 }
    }

    /// Root mean square distance of the readings from the best curve.
    pub(crate) fn scatter(&self) -> f64 {
        self.scatter
    }

    /// Variance inflation by autocorrelated residuals.
    pub(crate) fn variance_inflation(&self) -> f64 {
        self.variance_inflation
    }

    /// What rounding alone can hide in a difference and in a level, as variances: a reading that never leaves its step may be
    /// anywhere inside it, two of them hide twice that. Scatter of more than half a step averages rounding away, and so do
    /// steps that a rise crosses: of `crossed` steps about one share in as many is left.
    fn hidden(&self, crossed: f64) -> (f64, f64) {
        let hides = if self.scatter < 0.5 * self.step { self.step * self.step } else { 0.0 };
        let left = 1.0 + crossed * crossed;
        (hides / 6.0 / left, hides / 12.0 / left)
    }

    /// A figure of the curve with its interval over every κ that cannot be told from the best.
    ///
    /// # Errors
    /// As [`student::quantile`].
    pub(crate) fn profile(&self, figure: impl Fn(f64) -> Figure) -> Result<Estimate, Error> {
        self.profile_between(LOWEST_BEND, self.highest, figure)
    }

    /// Figure of the curve with its interval over κ above zero alone: the readings taken as a rise that levels off.
    ///
    /// # Errors
    /// As [`student::quantile`].
    pub(crate) fn profile_levelling(&self, figure: impl Fn(f64) -> Figure) -> Result<Estimate, Error> {
        self.profile_between(1e-6, self.highest, figure)
    }

    fn profile_between(&self, lowest: f64, highest: f64, figure: impl Fn(f64) -> Figure) -> Result<Estimate, Error> {
        let limit = self.limit()?;
        let t = student::quantile(BEYOND, self.count() - 3)?;
        // what a levelling rise leads to is read from its second half, which may stay within one step
        let crossed = self.best.b * (1.0 - phi(self.best.kappa, 0.5)) / self.step;
        let (of_rise, of_level) = self.hidden(crossed);
        let from = self.kappas.0.clamp(lowest, highest);
        let to = self.kappas.1.clamp(lowest, highest);
        let best = if (lowest..=highest).contains(&self.best.kappa) {
            self.best
        } else {
            Curve::at(self.best.kappa.clamp(lowest, highest), &self.x, &self.y)
        };
        let mut found = Estimate { value: 0.0, low: f64::INFINITY, high: f64::NEG_INFINITY };
        for curve in steps(from, to, INSIDE).map(|kappa| Curve::at(kappa, &self.x, &self.y)).chain([best]) {
            let Figure { level, rise } = figure(curve.kappa);
            let value = level * curve.a + rise * curve.b;
            let cofactor = level * level * curve.aa + 2.0 * level * rise * curve.ab + rise * rise * curve.bb;
            let rounded = level * level * of_level + rise * rise * of_rise;
            let half = ((limit - curve.squares).max(0.0) * cofactor + t * t * rounded).sqrt();
            found.low = found.low.min(value - half);
            found.high = found.high.max(value + half);
            found.value = value; // the best comes last
        }
        Ok(found)
    }

    /// A figure of the straight line with its interval.
    ///
    /// # Errors
    /// As [`student::quantile`].
    pub(crate) fn straight(&self, figure: Figure) -> Result<Estimate, Error> {
        let value = figure.level * self.straight.a + figure.rise * self.straight.b;
        let half = student::quantile(BEYOND, self.count() - 2)? * self.straight_standard(figure);
        Ok(Estimate { value, low: value - half, high: value + half })
    }

    /// Standard uncertainty of a figure of the straight line.
    fn straight_standard(&self, Figure { level, rise }: Figure) -> f64 {
        let Curve { aa, ab, bb, .. } = self.straight;
        let (of_rise, of_level) = self.hidden(self.straight.b / self.step);
        let cofactor = level * level * aa + 2.0 * level * rise * ab + rise * rise * bb;
        (cofactor * self.straight_variance + level * level * of_level + rise * rise * of_rise).sqrt()
    }

    /// The smallest straight rise that readings like these show: what [`Rise::moves`] asks of a straight line, √(2F) standard
    /// uncertainties, and on top half the width of an interval, so that the rise is not often lost in the scatter (after Currie,
    /// Anal. Chem. 40 (1968) 586; from memory).
    ///
    /// # Errors
    /// As [`student::quantile`].
    pub(crate) fn smallest_seen(&self) -> Result<f64, Error> {
        let t = student::quantile(BEYOND, self.count() - 2)?;
        let asked = (2.0 * self.least_f()).sqrt();
        Ok((asked + t) * self.straight_standard(Figure { level: 0.0, rise: 1.0 }))
    }

    /// Quantile of Fisher's F with 2 and n − 3 = ν degrees of freedom: ν/2 (α^(−2/ν) − 1).
    fn least_f(&self) -> f64 {
        let freedom = (self.count() - 3) as f64;
        0.5 * freedom * (BEYOND.powf(-2.0 / freedom) - 1.0)
    }

    /// Whether the readings rise or fall at all: level alone against the family, by Fisher's F.
    pub(crate) fn moves(&self) -> bool {
        let mean = self.y.iter().sum::<f64>() / self.count() as f64;
        let level: f64 = self.y.iter().map(|y| (y - mean).powi(2)).sum();
        0.5 * (level - self.best.squares) / self.variance > self.least_f()
    }

    /// A straight rise beside a levelling one, neither of them falling; none with fewer than six readings.
    ///
    /// # Errors
    /// As [`student::quantile`].
    pub(crate) fn beside(&self) -> Result<Option<Beside>, Error> {
        let n = self.count();
        if n < 6 {
            return Ok(None);
        }
        let both = |kappa| Both::at(kappa, &self.x, &self.y, self.straight.squares);
        let valley = Valley::new(LEAST_BEND_BESIDE, self.highest, |kappa| both(kappa).squares);
        let best = both(valley.kappa);
        let levelling = if self.best.kappa > 0.0 { self.best.squares } else { self.straight.squares };
        let squares = best.squares.min(levelling);
        let freedom = n - 4;
        let t = student::quantile(BEYOND, freedom)?;
        let variance_inflation = if best.squares <= levelling {
            variance_inflation(&best.residuals(&self.x, &self.y))
        } else {
            self.variance_inflation
        };
        let variance = (variance_inflation * squares / freedom as f64).max(self.step * self.step / 12.0);
        let limit = squares + t * t * variance;
        let clear = best.c > 0.0 && levelling > limit;
        let value = if best.squares <= levelling { best.c } else { 0.0 };
        let mut straight = Estimate { value, low: if clear { value } else { 0.0 }, high: value };
        let (from, to) = valley.below(limit);
        let (from, to) = (from.max(LEAST_BEND_BESIDE), to.min(self.highest));
        for both in steps(from, to, INSIDE).map(both).chain([best]).filter(|both| both.squares <= limit) {
            let half = ((limit - both.free_squares).max(0.0) * both.cc).sqrt();
            straight.high = straight.high.max((both.free_c + half).min(both.most));
            straight.low = straight.low.min((both.free_c - half).max(0.0));
        }
        Ok(Some(Beside { straight, clear }))
    }
}

/// A function of κ with its lowest place, found on a grid and then by golden section.
struct Valley<F> {
    squares: F,
    grid: Vec<(f64, f64)>,
    /// Where it is lowest.
    kappa: f64,
}

impl<F: Fn(f64) -> f64> Valley<F> {
    fn new(low: f64, high: f64, squares: F) -> Self {
        let grid: Vec<(f64, f64)> = steps(low, high, STEPS).map(|kappa| (kappa, squares(kappa))).collect();
        let least = (0..grid.len()).min_by(|&i, &j| grid[i].1.total_cmp(&grid[j].1)).unwrap_or(0);
        let (from, to) = (grid[least.saturating_sub(1)].0, grid[(least + 1).min(grid.len() - 1)].0);
        let refined = least_between(from, to, &squares);
        let kappa = if squares(refined) <= grid[least].1 { refined } else { grid[least].0 };
        Self { squares, grid, kappa }
    }

    /// The outermost κ at which the function is not above `limit`; infinite where the grid ends before that.
    fn below(&self, limit: f64) -> (f64, f64) {
        let before = self.grid.iter().rposition(|&(kappa, _)| kappa < self.kappa).unwrap_or(0);
        let after = self.grid.iter().position(|&(kappa, _)| kappa > self.kappa).unwrap_or(self.grid.len() - 1);
        let inside = |&(_, squares): &(f64, f64)| squares <= limit;
        let low = match self.grid.iter().position(inside) {
            Some(0) => f64::NEG_INFINITY,
            Some(first) if first <= before => self.crossing(self.grid[first - 1].0, self.grid[first].0, limit),
            // the lowest place lies between two grid points that are both outside
            _ => self.crossing(self.grid[before].0, self.kappa, limit),
        };
        let high = match self.grid.iter().rposition(inside) {
            Some(last) if last == self.grid.len() - 1 => f64::INFINITY,
            Some(last) if last >= after => self.crossing(self.grid[last + 1].0, self.grid[last].0, limit),
            _ => self.crossing(self.grid[after].0, self.kappa, limit),
        };
        (low, high)
    }

    /// Where the function crosses `limit` between a κ outside and one inside.
    fn crossing(&self, mut outside: f64, mut inside: f64, limit: f64) -> f64 {
        for _ in 0..40 {
            let middle = 0.5 * (outside + inside);
            if (self.squares)(middle) <= limit {
                inside = middle;
            } else {
                outside = middle;
            }
        }
        inside
    }
}

/// Values from `low` to `high` in even steps of their arsinh.
fn steps(low: f64, high: f64, count: usize) -> impl Iterator<Item = f64> {
    let (low, high) = (low.asinh(), high.asinh());
    (0..=count).map(move |i| (low + (high - low) * i as f64 / count as f64).sinh())
}

/// The κ of the least value between two, by golden section.
fn least_between(mut low: f64, mut high: f64, squares: impl Fn(f64) -> f64) -> f64 {
    const GOLDEN: f64 = 0.618_033_988_749_895;
    let inner = |low: f64, high: f64| [high - GOLDEN * (high - low), low + GOLDEN * (high - low)];
    let [mut left, mut right] = inner(low, high).map(|kappa| (kappa, squares(kappa)));
    for _ in 0..40 {
        if left.1 < right.1 {
            high = right.0;
            right = left;
            left.0 = inner(low, high)[0];
            left.1 = squares(left.0);
        } else {
            low = left.0;
            left = right;
            right.0 = inner(low, high)[1];
            right.1 = squares(right.0);
        }
    }
    if left.1 < right.1 { left.0 } else { right.0 }
}

impl Curve {
    /// Least squares of a and b at one κ.
    fn at(kappa: f64, x: &[f64], y: &[f64]) -> Self {
        let n = x.len() as f64;
        let shape: Vec<f64> = x.iter().map(|&x| phi(kappa, x)).collect();
        let (middle, mean) = (shape.iter().sum::<f64>() / n, y.iter().sum::<f64>() / n);
        // about their means a and b do not disturb each other's digits
        let ff: f64 = shape.iter().map(|f| (f - middle).powi(2)).sum();
        let fy: f64 = shape.iter().zip(y).map(|(f, y)| (f - middle) * (y - mean)).sum();
        let b = fy / ff;
        let a = mean - b * middle;
        let squares = shape.iter().zip(y).map(|(f, y)| (y - a - b * f).powi(2)).sum();
        Self { kappa, a, b, squares, aa: 1.0 / n + middle * middle / ff, ab: -middle / ff, bb: 1.0 / ff }
    }

    fn residuals(&self, x: &[f64], y: &[f64]) -> Vec<f64> {
        x.iter().zip(y).map(|(&x, y)| y - self.a - self.b * phi(self.kappa, x)).collect()
    }
}

/// Below this κ a levelling rise and a straight one beside it are not looked for.
const LEAST_BEND_BESIDE: f64 = 0.3;

/// y = a + b φ_κ(x) + c x at one κ, free and with neither b nor c below zero.
#[derive(Debug, Clone, Copy)]
struct Both {
    kappa: f64,
    a: f64,
    b: f64,
    c: f64,
    squares: f64,
    free_c: f64,
    free_squares: f64,
    /// Cofactor of c.
    cc: f64,
    /// The c at which b has fallen to zero.
    most: f64,
}

impl Both {
    /// Least squares; `straight` is what a straight line alone leaves.
    fn at(kappa: f64, x: &[f64], y: &[f64], straight: f64) -> Self {
        let n = x.len() as f64;
        let mean = |values: &[f64]| values.iter().sum::<f64>() / n;
        let shape: Vec<f64> = x.iter().map(|&x| phi(kappa, x)).collect();
        let (mf, mx, my) = (mean(&shape), mean(x), mean(y));
        let sum =
            |u: &[f64], mu: f64, v: &[f64], mv: f64| u.iter().zip(v).map(|(u, v)| (u - mu) * (v - mv)).sum::<f64>();
        let (ff, fx, xx) = (sum(&shape, mf, &shape, mf), sum(&shape, mf, x, mx), sum(x, mx, x, mx));
        let (fy, xy) = (sum(&shape, mf, y, my), sum(x, mx, y, my));
        let determinant = ff * xx - fx * fx;
        let b = (fy * xx - xy * fx) / determinant;
        let free_c = (xy * ff - fy * fx) / determinant;
        let level = |b: f64, c: f64| my - b * mf - c * mx;
        let left = |b: f64, c: f64| {
            let a = level(b, c);
            shape.iter().zip(x).zip(y).map(|((f, x), y)| (y - a - b * f - c * x).powi(2)).sum::<f64>()
        };
        let free_squares = left(b, free_c);
        // along the valley of the sum of squares b falls as c rises, by fx/ff
        let most = free_c + b * ff / fx;
        let (b, c, squares) = if b < 0.0 {
            (0.0, xy / xx, straight)
        } else if free_c < 0.0 {
            (fy / ff, 0.0, left(fy / ff, 0.0))
        } else {
            (b, free_c, free_squares)
        };
        let a = level(b, c);
        Self { kappa, a, b, c, squares, free_c, free_squares, cc: ff / determinant, most }
    }

    fn residuals(&self, x: &[f64], y: &[f64]) -> Vec<f64> {
        x.iter().zip(y).map(|(&x, y)| y - self.a - self.b * phi(self.kappa, x) - self.c * x).collect()
    }
}

#[cfg(test)]
mod tests {
    use approx::{abs_diff_eq, assert_abs_diff_eq};

    use super::*;

    fn points(n: usize, f: impl Fn(f64) -> f64) -> (Vec<f64>, Vec<f64>) {
        let x: Vec<f64> = (0..n).map(|i| i as f64 / (n - 1) as f64).collect();
        let y = x.iter().map(|&x| f(x)).collect();
        (x, y)
    }

    #[test]
    fn the_family_is_continuous_where_it_is_straight() {
        for x in [0.0, 0.1, 0.5, 1.0] {
            // 2e-6 apart in κ, which an eighth of that moves at most
            assert_abs_diff_eq!(phi(1e-6, x), phi(-1e-6, x), epsilon = 1e-6);
            // 2e-8 apart in κ, on either side of the seam between two formulas
            assert_abs_diff_eq!(phi(1.01e-6, x), phi(0.99e-6, x), epsilon = 1e-8);
            assert_abs_diff_eq!(phi(0.0, x), x, epsilon = 1e-15); // rounding
        }
        assert_eq!((phi(3.0, 0.0), phi(3.0, 1.0)), (0.0, 1.0));
        assert_abs_diff_eq!(phi(500.0, 0.2), 1.0, epsilon = 1e-12); // e⁻¹⁰⁰ is left
    }

    #[test]
    fn exact_curves_come_back() {
        for kappa in [-2.0, 0.0, 0.5, 2.0, 8.0] {
            let (x, y) = points(21, |x| 100.0 + 50.0 * phi(kappa, x));
            let rise = Rise::fit(&x, &y, 1e-6).unwrap();
            let bend = rise.bend();
            // readings in steps of 1e-6 on a rise of 50
            assert!(abs_diff_eq!(bend.value, kappa, epsilon = 1e-7), "{kappa}: {bend:?}");
            assert!(bend.low <= kappa && kappa <= bend.high && bend.high - bend.low < 1e-3, "{kappa}: {bend:?}");
            let end = rise.profile(|_| Figure { level: 1.0, rise: 1.0 }).unwrap();
            assert!(abs_diff_eq!(end.value, 150.0, epsilon = 1e-6), "{end:?}"); // the step of the readings
            assert!(rise.moves());
        }
    }

    #[test]
    fn the_straight_line_is_that_of_a_textbook() {
        // x 0, ¼, ½, ¾, 1 and y 1, 2, 3, 5, 4: by hand Sxx = 0.625, Sxy = 2.25, b = 3.6, a = 1.2, S = 10 − 8.1 = 1.9
        let rise = Rise::fit(&[0.0, 0.25, 0.5, 0.75, 1.0], &[1.0, 2.0, 3.0, 5.0, 4.0], 1e-9).unwrap();
        let b = rise.straight(Figure { level: 0.0, rise: 1.0 }).unwrap();
        assert!(abs_diff_eq!(b.value, 3.6, epsilon = 1e-12), "{b:?}"); // rounding
        // u(b) = √(1.9/3/0.625) = 1.00664; t(3) for 95.45 % is 3.3068, JCGM 100:2008 table G.2 prints 3.31
        let half = (b.high - b.value) / rise.variance_inflation().sqrt();
        assert!(abs_diff_eq!(half, 3.31 * 1.006_645, epsilon = 0.005), "{b:?}"); // half the last digit of 3.31
        let a = rise.straight(Figure { level: 1.0, rise: 0.0 }).unwrap();
        assert_abs_diff_eq!(a.value, 1.2, epsilon = 1e-12); // rounding
    }

    #[test]
    fn readings_that_never_move_hide_a_step() {
        let (x, y) = points(10, |_| 500.0);
        let rise = Rise::fit(&x, &y, 10.0).unwrap();
        assert!(!rise.moves());
        let b = rise.straight(Figure { level: 0.0, rise: 1.0 }).unwrap();
        // a rise of one step less a trifle can be hidden by rounding alone
        // level but for rounding
        assert!(abs_diff_eq!(b.value, 0.0, epsilon = 1e-9) && b.high > 9.0 && b.high < 25.0, "{b:?}");
        assert!(rise.smallest_seen().unwrap() > 9.0);
    }

    /// Up and down from reading to reading.
    fn ripple(x: f64) -> f64 {
        if ((x * 40.0).round() as usize).is_multiple_of(2) { 0.2 } else { -0.2 }
    }

    #[test]
    fn a_straight_rise_beside_a_levelling_one_is_told() {
        let (x, y) = points(41, |x| 100.0 + 50.0 * phi(10.0, x) + 40.0 * x + ripple(x));
        let rise = Rise::fit(&x, &y, 0.1).unwrap();
        let beside = rise.beside().unwrap().unwrap();
        // a ripple that all but cancels: our choice
        assert!(beside.clear && abs_diff_eq!(beside.straight.value, 40.0, epsilon = 0.01), "{beside:?}");
        assert!(beside.straight.low < 40.0 && beside.straight.high > 40.0, "{beside:?}");
        let (x, y) = points(41, |x| 100.0 + 50.0 * phi(3.0, x) + ripple(x));
        let beside = Rise::fit(&x, &y, 0.1).unwrap().beside().unwrap().unwrap();
        assert!(!beside.clear && beside.straight.low == 0.0, "{beside:?}");
    }

    #[test]
    fn neighbours_that_resemble_each_other_count_for_less() {
        assert_eq!(variance_inflation(&[1.0, -1.0, 1.0, -1.0, 1.0]), 1.0);
        assert_eq!(variance_inflation(&[0.0; 5]), 1.0);
        let wave: Vec<f64> = (0..40).map(|i| (f64::from(i) / 6.0).sin()).collect();
        assert!(variance_inflation(&wave) > 5.0);
    }
}
