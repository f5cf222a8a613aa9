//! Broyden's method with damping: a few equations in as many unknowns.

use nalgebra::{SMatrix, SVector};

/// Result of a search.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Outcome<const N: usize> {
    /// Best point found.
    pub(crate) x: SVector<f64, N>,
    /// Largest residual there.
    pub(crate) residual: f64,
    /// Number of evaluations of the equations.
    pub(crate) evaluations: usize,
}

/// Searches for `f(x) = 0` from `start`; `f` answers `None` where it is not defined.
///
/// Its second argument says whether the point lies very close to the last one evaluated without it, and only the
/// difference to that one matters.
///
/// Newton's method with slopes from differences, renewed by Broyden's rank-one update (Math. Comp. 19 (1965) 577) as long as
/// that keeps paying: each evaluation is expensive, a matrix of this size is not. No component moves by more than
/// `longest` in one
/// step, and a step that does not bring the largest residual down is halved. Ends when every residual is within `tolerance`,
/// when nothing brings the residual down any more, or after `most` evaluations; `None` only when `start` is not defined.
pub(crate) fn broyden<const N: usize>(
    mut f: impl FnMut(&SVector<f64, N>, bool) -> Option<SVector<f64, N>>,
    start: SVector<f64, N>,
    longest: &SVector<f64, N>,
    tolerance: f64,
    most: usize,
) -> Option<Outcome<N>> {
    let mut x = start;
    let mut value = f(&x, false)?;
    let mut evaluations = 1;
    let mut residual = value.amax();
    // the inverse of the slopes, and whether it was made at this very point
    let mut inverse: Option<SMatrix<f64, N, N>> = None;
    let mut fresh = false;
    // whether the last point asked was this one
    let mut here = true;
    while residual > tolerance && evaluations < most {
        let inverted = match inverse {
            Some(inverted) => inverted,
            None => {
                if !here {
                    evaluations += 1;
                    value = f(&x, false)?;
                    here = true;
                }
                fresh = true;
                match inverse_jacobian(&mut f, &x, &value, &mut evaluations) {
                    Some(inverted) => inverted,
                    None => return Some(Outcome { x, residual, evaluations }),
                }
            }
        };
        let full = -(inverted * value);
        // no component further than it may go, the direction kept
        let share = full.iter().zip(longest.iter()).map(|(d, l)| l / d.abs().max(1e-300)).fold(1.0, f64::min);
        let mut step = full * share;
        let mut taken = None;
        for _ in 0..if fresh { 12 } else { 2 } {
            let next = x + step;
            evaluations += 1;
            here = false;
            if let Some(there) = f(&next, false) {
                let size = there.amax();
                if size.is_finite() && size < residual {
                    taken = Some((next, there, size));
                    break;
                }
            }
            step *= 0.5;
        }
        match taken {
            Some((next, there, size)) => {
                let pays = size < 0.75 * residual;
                inverse = if pays { updated(&inverted, &step, &(there - value)) } else { None };
                fresh = false;
                (x, value, residual) = (next, there, size);
                here = true;
            }
            // old slopes led nowhere: new ones; new ones did: here it ends
            None if !fresh => inverse = None,
            None => break,
        }
    }
    Some(Outcome { x, residual, evaluations })
}

/// The inverse of the Jacobian of `f` at `x`, where `f` is `value`, from differences; `None` where `f` is not defined on
/// either side or its Jacobian has no inverse.
fn inverse_jacobian<const N: usize>(
    f: &mut impl FnMut(&SVector<f64, N>, bool) -> Option<SVector<f64, N>>,
    x: &SVector<f64, N>,
    value: &SVector<f64, N>,
    evaluations: &mut usize,
) -> Option<SMatrix<f64, N, N>> {
    const STEP: f64 = 1e-6;
    let mut slopes = SMatrix::<f64, N, N>::zeros();
    for j in 0..N {
        let mut beside = *x;
        beside[j] += STEP;
        let mut step = STEP;
        let there = f(&beside, true).or_else(|| {
            step = -STEP;
            beside[j] = x[j] - STEP;
            f(&beside, true)
        });
        *evaluations += 1;
        slopes.set_column(j, &((there? - value) / step));
    }
    slopes.try_inverse().filter(|inverted| inverted.iter().all(|v| v.is_finite()))
}

/// Broyden's second form, which updates the inverse: B + (Δx − B Δf) Δxᵀ B/(Δxᵀ B Δf); `None` if the divisor is zero.
fn updated<const N: usize>(
    inverse: &SMatrix<f64, N, N>,
    step: &SVector<f64, N>,
    change: &SVector<f64, N>,
) -> Option<SMatrix<f64, N, N>> {
    let back = inverse * change;
    let denominator = step.dot(&back);
    let divides = denominator.abs() > 1e-14 * step.norm_squared();
    divides.then(|| inverse + (step - back) * (step.transpose() * inverse) / denominator)
}

#[cfg(test)]
mod tests {
    use approx::{abs_diff_eq, assert_abs_diff_eq};

    use super::*;

    #[test]
    fn finds_where_a_circle_meets_an_exponential() {
        // x² + y² = 4 and eˣ + y = 1, whose roots Dennis & Schnabel's kin of textbooks give: (1.00416874, −1.72963729)
        let f =
            |v: &SVector<f64, 2>, _| Some(SVector::from([v[0] * v[0] + v[1] * v[1] - 4.0, v[0].exp() + v[1] - 1.0]));
        let found = broyden(f, SVector::from([1.0, -1.0]), &SVector::from([1.0, 1.0]), 1e-12, 200).unwrap();
        assert!(found.residual <= 1e-12);
        assert!((found.x - SVector::from([1.004_168_738, -1.729_637_287])).amax() < 1e-8, "{:?}", found.x);
    }

    #[test]
    fn steps_back_where_the_equations_end() {
        // ln x = 3 from close to zero: a full step from 4 would leave what the logarithm knows
        let f = |v: &SVector<f64, 1>, _| (v[0] > 0.0).then(|| SVector::from([v[0].ln() + 1.0]));
        let found = broyden(f, SVector::from([4.0]), &SVector::from([100.0]), 1e-12, 200).unwrap();
        assert_abs_diff_eq!(found.x[0], (-1.0f64).exp(), epsilon = 1e-11); // ten times what was asked for
    }

    #[test]
    fn tells_how_far_it_came_when_there_is_no_root() {
        let f = |v: &SVector<f64, 1>, _| Some(SVector::from([1.0 + v[0] * v[0]]));
        let found = broyden(f, SVector::from([2.0]), &SVector::from([1.0]), 1e-12, 200).unwrap();
        assert!(found.residual >= 1.0 && found.evaluations < 200);
    }

    #[test]
    fn slopes_are_asked_for_beside_the_last_exact_point() {
        // Powell's badly scaled kin of a valley: slopes go stale and steps are halved on the way
        let mut last: Option<SVector<f64, 2>> = None;
        let mut asked = 0;
        let f = |v: &SVector<f64, 2>, beside: bool| {
            if beside {
                let from = last.unwrap();
                assert!((v - from).amax() <= 1.1e-6, "{v:?} is not beside {from:?}");
            } else {
                last = Some(*v);
            }
            asked += 1;
            Some(SVector::from([10.0 * (v[1] - v[0] * v[0]), (1.0 - v[0]) * (1.0 + v[0].exp())]))
        };
        let found = broyden(f, SVector::from([-1.9, 2.0]), &SVector::from([0.3, 0.3]), 1e-12, 300).unwrap();
        // ten times what was asked for
        assert!(found.residual <= 1e-12 && abs_diff_eq!(found.x[0], 1.0, epsilon = 1e-11), "{found:?}");
        assert_eq!(found.evaluations, asked);
    }
}
