//! Outlying rows: misprints and slips, found by the other rows of the table.

use std::fmt;

use super::least_squares::{Problem, Solution};
use super::table::Wording;
use crate::numeric::student;
use crate::quantity::Unit;
use crate::saturation::TERMS;
use crate::{Error, Pressure, Quantity, Range, Temperature};

/// Outlying row of a table, with the pressure expected from the other rows.
///
/// ```
/// use satline::fit::{Fitting, SaturationTable};
/// use satline::{Pressure, Refrigerant, Temperature};
/// // R-12 as typed into an open-source package; two digits of one row are exchanged there
/// let table = SaturationTable::read(include_str!("../../tables/published/r12-scisuit.csv"), "pressure")?;
/// let (tc, pc) = (Temperature::from_kelvin(385.15), Pressure::from_kpa(4115.5));
/// let fit = Fitting::with_critical_point(tc, pc, Refrigerant::R12.dew_line().source).fit(&table)?;
/// let [misprint] = fit.misfits.as_slice() else { panic!("{:?}", fit.misfits) };
/// assert!(misprint.to_string().contains(": 288.15 K reads 419.4 kPa; by the other rows it would read 491."));
/// # Ok::<(), satline::Error>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub struct Misfit {
    /// Line number in the text, or position in the slices, starting at 1.
    pub line: usize,
    /// Temperature of the row.
    pub temperature: Temperature,
    /// Pressure in the table.
    pub reads: Pressure,
    /// Pressure expected from the other rows.
    pub should_read: Pressure,
    /// Prediction interval from the other rows: a row of this table would lie in it with 95 % probability.
    pub interval: Range<Pressure>,
    /// Distance of the row from the pressure expected, in standard deviations of the prediction.
    pub distance: f64,
    pub(super) wording: Wording,
    pub(super) decimals: (usize, usize),
}

impl fmt::Display for Misfit {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let half = 0.5 * (self.interval.high - self.interval.low).pa() / self.wording.pressure.factor();
        // two significant digits of the doubt
        let decimals = (1.0 - half.log10().floor()).clamp(0.0, 9.0) as usize;
        write!(
            f,
            "line {}: {} reads {}; by the other rows it would read {} ± {half:.decimals$} {} (95 %)",
            self.line,
            self.temperature.entered(self.wording.temperature, self.decimals.0),
            self.wording.pressure(self.reads, self.decimals.1),
            self.wording
                .pressure(self.should_read, decimals)
                .trim_end_matches(" gauge")
                .trim_end_matches(self.wording.pressure.symbol())
                .trim_end(),
            self.wording.pressure.symbol(),
        )
    }
}

/// Probability that a table without an error has a row listed, for the row set aside first; with those after it, twice
/// that.
const FALSE_ALARM: f64 = 0.005;
/// Error of the functional form of a line of `terms` terms: a row is not blamed for that.
///
/// Root mean square of ln p beside the equation of state from 200 K to 1 K below the critical point, for one term and the
/// sets of [`super::EXPONENT_SETS`] and the worst of the twelve pure fluids; twice that when the line is not reduced with the critical point.
pub(super) fn missed_by_form(terms: usize, critical_point: bool) -> f64 {
    const FORM: [f64; TERMS] = [4.1e-2, 1.3e-2, 1.5e-3, 3.3e-4, 7.5e-5, 3.6e-5];
    FORM[terms.clamp(1, TERMS) - 1] * if critical_point { 1.0 } else { 2.0 }
}

/// Largest number of rows listed, and no more than a fifth of the table.
const MOST: usize = 20;

/// Outlying row: its position in the problem.
#[derive(Debug, Clone, Copy)]
pub(super) struct Aside {
    pub(super) row: usize,
}

/// Prediction for one row by the others.
pub(super) struct Says {
    /// Expected logarithm of the pressure over the unit pressure.
    pub(super) log: f64,
    /// Standard deviation of row, curve and form together.
    pub(super) standard: f64,
    /// Distance of the row from that, in such standard deviations.
    pub(super) distance: f64,
}

/// Outlying rows: those further from the prediction by the remaining rows than chance and the error of the functional
/// form would bring about once in some hundred tables.
///
/// Rosner's procedure (Technometrics 25 (1983) 165): row after row is set aside, each time the one whose residual is
/// largest for its leverage; each is compared with the t it would have to exceed among that many rows. All rows up to the
/// largest for its leverage; each is compared with the t it would have to exceed among that many rows. All rows up to
/// the last that exceeds it are outliers, so that two errors do not hide each other.
/// # Errors
/// Those of [`Problem::solve`].
pub(super) fn find(problem: &Problem) -> Result<Vec<Aside>, Error> {
    let (n, terms) = (problem.rows(), problem.terms);
    // what remains must tell the coefficients and their scatter
    let most = (n / 5).clamp(1, MOST).min(n.saturating_sub(terms + 2));
    let mut aside: Vec<Aside> = Vec::new();
    let mut belongs: Vec<usize> = (0..n).collect();
    let mut last_beyond = 0;
    let mut solution = problem.solve()?;
    for _ in 0..most {
        let size = |&at: &usize| solution.studentised(at).abs();
        let Some(at) = (0..belongs.len()).max_by(|a, b| size(a).total_cmp(&size(b))) else { break };
        let row = belongs.remove(at);
        let rest = problem.without(|i| belongs.binary_search(&i).is_err());
        solution = match rest.solve() {
            Ok(solution) => solution,
            // the row held a coefficient alone: nothing can be said against it
            Err(Error::BadTable { .. }) => break,
            Err(other) => return Err(other),
        };
        aside.push(Aside { row });
        let freedom = belongs.len() - terms;
        let limit = student::quantile(FALSE_ALARM / (belongs.len() + 1) as f64, freedom)?;
        if says(problem, &solution, row).distance.abs() > limit {
            last_beyond = aside.len();
        }
    }
    aside.truncate(last_beyond);
    Ok(aside)
}

/// Prediction for `row` by `solution`, which was made without it.
pub(super) fn says(problem: &Problem, solution: &Solution, row: usize) -> Says {
    let design = problem.row(row);
    let log = design.iter().zip(solution.x.iter()).map(|(a, x)| a * x).sum();
    let variance = solution.scatter.powi(2) / problem.weight[row] + problem.known[row];
    let standard = variance.sqrt().hypot(solution.standard_of(design)).hypot(problem.form);
    Says { log, standard, distance: (problem.target[row] - log) / standard }
}

#[cfg(test)]
mod tests {
    use approx::abs_diff_eq;

    use super::*;
    use crate::fit::{EXPONENT_SETS, read_table};

    /// Tables of equations of state, with Tc in K.
    const TABLES: [(&str, f64); 12] = [
        (include_str!("../../tables/equation/r134a.csv"), 374.21),
        (include_str!("../../tables/equation/r1234yf.csv"), 367.85),
        (include_str!("../../tables/equation/r744.csv"), 304.128_2),
        (include_str!("../../tables/equation/r152a.csv"), 386.411),
        (include_str!("../../tables/equation/r290.csv"), 369.89),
        (include_str!("../../tables/equation/r12.csv"), 385.12),
        (include_str!("../../tables/equation/r600a.csv"), 407.81),
        (include_str!("../../tables/equation/r22.csv"), 369.295),
        (include_str!("../../tables/equation/r1234ze.csv"), 382.513),
        (include_str!("../../tables/equation/r32.csv"), 351.255),
        (include_str!("../../tables/equation/r125.csv"), 339.173),
        (include_str!("../../tables/equation/r143a.csv"), 345.857),
    ];

    #[test]
    fn the_form_misses_what_is_stated() {
        let one: &[f64] = &[1.0];
        for exponents in std::iter::once(one).chain(EXPONENT_SETS) {
            let missed = TABLES.iter().map(|(text, tc)| {
                let rows = read_table(text, "temperature_K", "pressure_Pa").unwrap();
                // the pressure of the equation at Tc, which the last row comes within 0.01 K of
                let [.., before, last] = rows[..] else { panic!("fewer than two rows") };
                let slope = (last.1.pa() / before.1.pa()).ln() / (last.0 - before.0).kelvins();
                let pc = last.1.pa() * (slope * (tc - last.0.kelvin())).exp();
                let inside = |t: f64| (200.0..=tc - 1.0).contains(&t);
                let rows: Vec<_> = rows.iter().filter(|(t, _)| inside(t.kelvin())).collect();
                let n = rows.len();
                let design = rows.iter().flat_map(|(t, _)| {
                    let t = t.kelvin();
                    exponents.iter().map(move |&k| tc / t * (1.0 - t / tc).powf(k))
                });
                let problem = Problem {
                    design: design.collect(),
                    terms: exponents.len(),
                    target: rows.iter().map(|(_, p)| (p.pa() / pc).ln()).collect(),
                    weight: vec![1.0; n],
                    known: vec![0.0; n],
                    form: 0.0,
                };
                let residual = problem.solve().unwrap().residual;
                (residual.iter().map(|e| e * e).sum::<f64>() / n as f64).sqrt()
            });
            let (worst, stated) = (missed.fold(0.0, f64::max), missed_by_form(exponents.len(), true));
            // stated with two digits
            assert!(
                abs_diff_eq!(worst / stated, 1.0, epsilon = 0.05),
                "{exponents:?}: {worst:.2e}, stated {stated:.2e}"
            );
        }
    }
}
