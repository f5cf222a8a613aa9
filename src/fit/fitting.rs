//! Fit of a saturation line to a table, with its uncertainty.

use std::borrow::Cow;

use nalgebra::{DMatrix, DVector};

use super::least_squares::{Problem, Solution};
use super::misfit::{self, Misfit};
use super::table::{SaturationTable, TableRow};
use super::{EXPONENTS, bands, critical_point, exponent, level, level_scale, round_up};
use crate::numeric::{sort_by_number, student};
use crate::saturation::{Accuracy, OwnRefrigerant, TERMS, Wagner};
use crate::{
    Error, Measured, Pressure, PressureDifference, Quantity, Range, Source, Temperature, TemperatureDifference,
};

/// Sets of exponents from which a fit chooses if none are given; the last is [`EXPONENTS`].
///
/// Found by trying multiples of one half up to 4 and whole numbers up to 7 on the equations of state of the twelve pure
/// fluids. For the worst of them the root mean square of ln p is, from −40 to 60 °C, 6·10⁻³, 4·10⁻⁴, 9·10⁻⁵, 8·10⁻⁶ and
/// 4·10⁻⁶; from 200 K to 1 K below the critical point 1.3·10⁻², 1.5·10⁻³, 3·10⁻⁴, 8·10⁻⁵ and 4·10⁻⁵.
pub const EXPONENT_SETS: [&[f64]; 5] =
    [&[1.0, 3.0], &[1.0, 1.5, 3.0], &[1.0, 1.5, 2.0, 4.0], &[1.0, 1.5, 2.0, 2.5, 4.0], &EXPONENTS];

/// Reducing point of a line, its Tc and pc.
#[derive(Debug, Clone, Copy, PartialEq)]
enum Reducing {
    /// Critical point.
    CriticalPoint(Temperature, Pressure),
    /// Reducing temperature above every row; the pressure there is fitted with the coefficients.
    Beyond(Temperature),
}

/// Criterion that a fit minimises.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
#[non_exhaustive]
pub enum Criterion {
    /// Least squares of the deviations, each over its variance: for tables that were measured, rounded or typed.
    #[default]
    LeastSquares,
    /// Minimax: the largest deviation, weighted as in [`super::wagner`]; for equations that were evaluated, whose
    /// deviations are those of the functional form. It gives no confidence intervals, and outlying rows spoil it.
    LevelError,
}

/// Settings of a fit of a saturation table.
///
/// - **Equation** ln(p/pc) = (Tc/T) Σ nᵢ θ^kᵢ, θ = 1 − T/Tc; linear in nᵢ, and in ln pc where that is not known.
/// - **Weights** each row is weighted by 1/variance. The variance is what is known of the row ([`TableRow::u_pressure`]
///   and [`TableRow::u_temperature`] through the slope) plus the square of a scatter s over the row's weight; s is the
///   same fraction of the pressure for all rows, and as large as it takes to explain the deviations.
/// - **Terms** the smallest of [`EXPONENT_SETS`] that the rows do not reject (corrected information criterion; a set
///   with more terms must be better by 4), and then the next larger one if there are two rows for each coefficient, so
///   that the error of the functional form stays below the scatter and the confidence intervals can be relied on.
/// - **Outlying rows** are listed ([`Fit::misfits`]) and still used, unless [`Fitting::without_misfits`]. About one in
///   a hundred tables without an error has a row listed. Several in sequence at the upper end indicate that the
///   critical point given is not that of the table.
///
/// ```
/// use approx::assert_abs_diff_eq;
/// use satline::fit::{Fitting, SaturationTable};
/// use satline::{Line, Pressure, Source, Temperature, Trust};
/// // printed in a booklet for R-134a
/// let celsius = [-30.0, -20.0, -10.0, 0.0, 10.0, 20.0, 30.0, 40.0, 50.0, 60.0];
/// let kpa = [84.4, 132.7, 200.6, 292.8, 414.6, 571.7, 770.2, 1016.6, 1317.9, 1681.8];
/// let table = SaturationTable::from_slices(&celsius.map(|t| t + 273.15), &kpa.map(|p| 1e3 * p))?;
/// let (tc, pc) = (Temperature::from_kelvin(374.21), Pressure::from_kpa(4059.3));
/// let source = Source { work: "my booklet", locator: "page 3", doi: None, trust: Trust::Weak };
/// let fit = Fitting::with_critical_point(tc, pc, source).fit(&table)?;
/// assert!(fit.misfits.is_empty());
/// assert!(fit.worst_row().unwrap().relative.abs() < 5e-4); // the digits of the first row
/// // the line between the rows, and how far least squares trusts it
/// let t = Temperature::from_celsius(5.0);
/// let (p, interval) = (fit.line.pressure(t)?, fit.interval_at(t)?);
/// assert!(interval.contains(p) && (interval.high - interval.low).kpa() < 0.2);
/// // and a refrigerant of one's own
/// let own = fit.refrigerant("booklet");
/// let suction = Line::new(&own, p, Temperature::from_celsius(11.0))?;
/// // K, there and back along a line fitted in pressure: our choice
/// assert_abs_diff_eq!(suction.superheat().unwrap().value().kelvins(), 6.0, epsilon = 1e-6);
/// # Ok::<(), satline::Error>(())
/// ```
#[derive(Debug, Clone, PartialEq)]
pub struct Fitting {
    reducing: Reducing,
    source: Source,
    exponents: Option<Vec<f64>>,
    criterion: Criterion,
    without_misfits: bool,
}

/// Saturation line fitted to a table, with its uncertainties and diagnostics.
#[derive(Debug, Clone)]
#[non_exhaustive]
pub struct Fit {
    /// Fitted line, its coefficients rounded to seven decimals and its range that of the rows.
    ///
    /// Its declared accuracy is, band by band, the larger of two: the largest deviation of a row that was used, and
    /// half the 95 % interval of the curve at the rows. Both measure how well the line represents the table, not how
    /// well the table represents the fluid.
    pub line: Wagner,
    /// Coefficients, as in the line.
    pub coefficients: Vec<Coefficient>,
    /// Table and fitted pressure for each row, by rising temperature.
    pub rows: Vec<FittedRow>,
    /// Outlying rows, by rising temperature.
    pub misfits: Vec<Misfit>,
    /// Relative scatter of the rows in pressure, beyond their known uncertainties; zero if those explain all of it.
    pub scatter: f64,
    /// Condition number of the weighted design matrix, its columns scaled to unit length. At 10ᵏ the last k of sixteen
    /// digits of the coefficients are noise, and a change in the table moves the coefficients far while the curve
    /// hardly changes.
    pub condition: f64,
    reducing: Reducing,
    criterion: Criterion,
    solution: Solution,
    /// Number of standard errors in half of a 95 % interval.
    coverage: f64,
}

/// Coefficient of a fitted line.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub struct Coefficient {
    /// Coefficient n.
    pub n: f64,
    /// Exponent k of the coefficient's term.
    pub k: f64,
    /// Standard error of n by least squares; `None` for [`Criterion::LevelError`].
    ///
    /// From the covariance (Xᵀ V⁻¹ X)⁻¹, which takes the deviations as random and independent. Where they are not, as
    /// in a table that drifts, it is how far the digits of this table determine n, not how far n is true.
    pub standard: Option<f64>,
    /// Half-width of the 95 % interval of n: the standard error times Student's t with the residual degrees of freedom.
    pub half95: Option<f64>,
}

/// Row of the table compared with the fitted line.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub struct FittedRow {
    /// Line number in the text, or position in the slices, starting at 1.
    pub line: usize,
    /// Temperature of the row.
    pub temperature: Temperature,
    /// Pressure in the table.
    pub table: Pressure,
    /// Pressure of the fitted line at that temperature.
    pub fitted: Pressure,
    /// Relative deviation of the table from the fitted line, p_table/p_fit − 1.
    pub relative: f64,
    /// Deviation of the table from the fitted line as a temperature difference, (p_table − p_fit)/(dp/dT).
    pub kelvin: TemperatureDifference,
    /// Leverage of the row on the line, 0 to 1; 1 for a row that determines a coefficient alone.
    pub leverage: f64,
    /// Whether the row was used in the fit. Rows left out, and those at the critical point, which no coefficient
    /// affects, were not.
    pub used: bool,
}

/// Something in a fit that does not look like a saturation line, worth a question before the line is used.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub enum FitQuestion {
    /// The coefficient of θ is far from that of any known refrigerant: the critical pressure has another unit, or it and the table
    /// are not both absolute.
    FirstCoefficient {
        /// Coefficient of θ.
        n: f64,
        /// Lowest and highest of the pure refrigerants of the catalogue.
        usual: (f64, f64),
    },
    /// The rows scatter more than any table does: several refrigerants, columns or units.
    Scatter {
        /// Relative scatter, [`Fit::scatter`].
        relative: f64,
    },
}

/// Coefficient of θ in the lines of the pure refrigerants of the catalogue: R-134a and R-290 in `examples/refit.txt`.
const USUAL_FIRST_COEFFICIENT: (f64, f64) = (-7.7, -6.8);

/// A coefficient of θ as far beyond these is worth a question, as a fraction of them; our choice.
const FAR_BEYOND: f64 = 1.0 / 3.0;

/// Above this scatter a table is worth a question: rounding and old tables stay far below; our choice.
const LARGEST_SCATTER: f64 = 0.05;

impl Fitting {
    /// Settings of a least-squares fit with the critical point from the data sheet, and with as many terms as the table supports;
    /// `source` is the source that the line will state.
    ///
    /// Rows at the critical point are taken to be it, and no row may lie above.
    pub const fn with_critical_point(temperature: Temperature, pressure: Pressure, source: Source) -> Self {
        Self::new(Reducing::CriticalPoint(temperature, pressure), source)
    }

    /// Settings of a least-squares fit of a table without a known critical point: `beyond` is a reducing temperature above every
    /// row, and the pressure there is fitted with the coefficients.
    ///
    /// Anything from a little above the table to the true critical temperature will do, and one and a half times the boiling
    /// point in K is near that (Guldberg's rule); the line is as good inside the table and is not valid beyond it.
    pub const fn without_critical_point(beyond: Temperature, source: Source) -> Self {
        Self::new(Reducing::Beyond(beyond), source)
    }

    const fn new(reducing: Reducing, source: Source) -> Self {
        Self { reducing, source, exponents: None, criterion: Criterion::LeastSquares, without_misfits: false }
    }

    /// Settings with these exponents, one to six of them, above zero.
    #[must_use]
    pub fn exponents(self, exponents: &[f64]) -> Self {
        Self { exponents: Some(exponents.to_vec()), ..self }
    }

    /// Settings that minimise the largest deviation, weighted as in [`super::wagner`], in place of least squares: for
    /// equations that were evaluated, whose deviations are those of the functional form. It gives no confidence
    /// intervals, and outlying rows spoil it.
    #[must_use]
    pub fn level_error(self) -> Self {
        self.criterion(Criterion::LevelError)
    }

    /// Settings with another criterion.
    #[doc(hidden)]
    #[must_use]
    pub fn criterion(self, criterion: Criterion) -> Self {
        Self { criterion, ..self }
    }

    /// Settings that leave out the outlying rows, which stay listed in the result.
    #[must_use]
    pub fn without_misfits(self) -> Self {
        Self { without_misfits: true, ..self }
    }

    /// Fits the table and returns the line with its diagnostics.
    ///
    /// # Errors
    /// [`Error::Impossible`] for a reducing point or an exponent that is not valid; [`Error::BadTable`] for none or too
    /// many exponents, a row above the reducing temperature, more than a quarter of the rows above the critical
    /// pressure, fewer rows than coefficients plus one, coefficients that the rows cannot determine, or a fitted
    /// pressure that does not rise with temperature.
    pub fn fit(&self, table: &SaturationTable) -> Result<Fit, Error> {
        let tc = self.check(table)?;
        // no coefficient moves the line at the critical point
        let counting: Vec<&TableRow> = table.rows().iter().filter(|row| row.temperature.kelvin() < tc).collect();
        if counting.is_empty() {
            return Err(bad("it has no row below the critical point".to_owned()));
        }
        let slopes = self.rough_slopes(&counting);
        let problem = |exponents: &[f64]| self.problem(&counting, &slopes, exponents);

        let exponents = match &self.exponents {
            Some(exponents) => exponents.clone(),
            None => choose(&problem)?,
        };
        // a row is judged by a line that has all the terms the table can bear, so that it is not blamed for a missing one
        let judge = match &self.exponents {
            Some(_) => problem(&exponents),
            None => {
                let bearable = |set: &&&[f64]| set.len() > exponents.len() && problem(set).bears(3);
                problem(EXPONENT_SETS.iter().rev().find(bearable).unwrap_or(&exponents.as_slice()))
            }
        };
        let aside = misfit::find(&judge)?;
        let is_aside = |i: usize| aside.iter().any(|aside| aside.row == i);
        let leave_out = |i: usize| self.without_misfits && is_aside(i);
        let used = problem(&exponents).without(leave_out);
        let solution = used.solve()?;
        let clean = judge.without(is_aside).solve()?;
        let coverage = |solution: &Solution| {
            // nothing was estimated from the residuals when what was known explains them
            student::quantile(0.05, if solution.scatter > 0.0 { solution.freedom() } else { 1000 })
        };

        let x = self.coefficients(&used, &solution, &counting, &leave_out, tc)?;
        let line = self.line(&x, &exponents, table, tc);
        rises(&line)?;

        let coefficients = exponents.iter().enumerate().map(|(j, &k)| {
            let standard = (self.criterion == Criterion::LeastSquares).then(|| solution.standard(j));
            (line.terms[j].0, k, standard)
        });
        let t95 = coverage(&solution)?;
        let coefficients = coefficients
            .map(|(n, k, standard)| Coefficient { n, k, standard, half95: standard.map(|u| t95 * u) })
            .collect();
        let misfits = self.misfits(&judge, &clean, coverage(&clean)?, &aside, &counting, table);

        let mut fit = Fit {
            line,
            coefficients,
            rows: Vec::with_capacity(table.rows().len()),
            misfits,
            scatter: solution.scatter,
            condition: solution.condition(),
            reducing: self.reducing,
            criterion: self.criterion,
            coverage: t95,
            solution,
        };
        let mut place = 0;
        let mut kept = 0;
        for row in table.rows() {
            let counts = row.temperature.kelvin() < tc;
            let used = counts && !leave_out(place);
            let leverage = if used { fit.solution.leverage[kept] } else { 0.0 };
            place += usize::from(counts);
            kept += usize::from(used);
            fit.rows.push(beside(&fit.line, row, leverage, used)?);
        }
        fit.line.accuracy = fit.declared()?;
        Ok(fit)
    }

    /// Coefficients by the criterion: least squares, or the smallest largest error of the rows kept.
    fn coefficients(
        &self,
        used: &Problem,
        solution: &Solution,
        counting: &[&TableRow],
        leave_out: &impl Fn(usize) -> bool,
        tc: f64,
    ) -> Result<Vec<f64>, Error> {
        if self.criterion == Criterion::LeastSquares {
            return Ok(solution.x.clone());
        }
        let bands = bands(Temperature::from_kelvin(tc));
        let kept = (0..counting.len()).filter(|&i| !leave_out(i));
        let scale: Vec<f64> = kept.map(|i| level_scale(counting[i].temperature.kelvin(), &bands)).collect();
        let design = DMatrix::from_fn(used.rows(), used.terms, |i, j| scale[i] * used.row(i)[j]);
        let target = DVector::from_fn(used.rows(), |i, _| scale[i] * used.target[i]);
        Ok(level(&design, &target)?.iter().copied().collect())
    }

    /// The reducing temperature in K.
    fn check(&self, table: &SaturationTable) -> Result<f64, Error> {
        let (t, p) = match self.reducing {
            Reducing::CriticalPoint(temperature, pressure) => (temperature.kelvin(), pressure.pa()),
            Reducing::Beyond(temperature) => (temperature.kelvin(), 1.0),
        };
        match self.reducing {
            Reducing::CriticalPoint(temperature, pressure) => critical_point(temperature, pressure)?,
            Reducing::Beyond(_) if t > 0.0 && t.is_finite() => {}
            Reducing::Beyond(_) => return Err(bad(format!("{} K is not a temperature to reduce with", shown(t)))),
        }
        if let Some(exponents) = &self.exponents {
            if exponents.is_empty() || exponents.len() > TERMS {
                return Err(bad(format!("{} exponents given, 1 to {TERMS} are possible", exponents.len())));
            }
            exponents.iter().try_for_each(|&k| exponent(k))?;
        }
        // a few such rows may be misprints, which are for the misfits to find; a quarter of them means a unit
        let above: Vec<&TableRow> =
            table.rows().iter().filter(|row| row.temperature.kelvin() < t && row.pressure.pa() > p).collect();
        if let (Reducing::CriticalPoint(..), Some(row)) = (self.reducing, above.first())
            && 4 * above.len() > table.rows().len()
        {
            return Err(bad(format!(
                "line {}: {:.1} kPa is above the critical pressure of {:.1} kPa, at a temperature below the critical one; \
                 check its unit, and that it is absolute",
                row.line,
                row.pressure.kpa(),
                p / 1e3
            )));
        }
        let highest = table.rows().iter().max_by(|a, b| a.temperature.si().total_cmp(&b.temperature.si()));
        match (highest, self.reducing) {
            (Some(row), Reducing::CriticalPoint(..)) if row.temperature.kelvin() > t => Err(bad(format!(
                "line {}: {} K is above the critical temperature of {} K",
                row.line,
                shown(row.temperature.kelvin()),
                shown(t)
            ))),
            (Some(row), Reducing::Beyond(_)) if row.temperature.kelvin() >= t => Err(bad(format!(
                "line {}: {} K is not below the reducing temperature of {} K; choose one above the table",
                row.line,
                shown(row.temperature.kelvin()),
                shown(t)
            ))),
            _ => Ok(t),
        }
    }

    /// Rough d ln p/dT at each row, 1/K: ln p linear in 1/T through all rows.
    fn rough_slopes(&self, rows: &[&TableRow]) -> Vec<f64> {
        let inverse = |row: &TableRow| 1.0 / row.temperature.kelvin();
        let log = |row: &TableRow| row.pressure.pa().ln();
        let n = rows.len() as f64;
        let x = rows.iter().map(|r| inverse(r)).sum::<f64>() / n;
        // Σ (x − x̄)(y − ȳ) = Σ (x − x̄) y
        let over: f64 = rows.iter().map(|r| (inverse(r) - x) * log(r)).sum();
        let under: f64 = rows.iter().map(|r| (inverse(r) - x).powi(2)).sum();
        // one temperature alone: Trouton's rule, ln p rises by 10.5 K/T² or so for a boiling point of 1 K
        let steep = if under > 0.0 { over / under } else { -10.5 * rows[0].temperature.kelvin() };
        rows.iter().map(|row| -steep * inverse(row).powi(2)).collect()
    }

    fn problem(&self, rows: &[&TableRow], slopes: &[f64], exponents: &[f64]) -> Problem {
        let pc = self.unit_pressure();
        let design = |row: &&TableRow| design_row(&self.reducing, row.temperature.kelvin(), exponents);
        let design: Vec<f64> = rows.iter().flat_map(design).collect();
        let known = rows.iter().zip(slopes).map(|(row, slope)| {
            (row.u_pressure.pa() / row.pressure.pa()).powi(2) + (row.u_temperature.kelvins() * slope).powi(2)
        });
        Problem {
            terms: design.len() / rows.len().max(1),
            design,
            target: rows.iter().map(|row| (row.pressure.pa() / pc).ln()).collect(),
            weight: rows.iter().map(|row| row.weight).collect(),
            known: known.collect(),
            form: misfit::missed_by_form(exponents.len(), matches!(self.reducing, Reducing::CriticalPoint(..))),
        }
    }

    /// Unit of pressure in ln p: pc, or 1 Pa where that is fitted.
    fn unit_pressure(&self) -> f64 {
        match self.reducing {
            Reducing::CriticalPoint(_, pressure) => pressure.pa(),
            Reducing::Beyond(_) => 1.0,
        }
    }

    fn line(&self, x: &[f64], exponents: &[f64], table: &SaturationTable, tc: f64) -> Wagner {
        let mut terms = [(0.0, 1.0); TERMS];
        for (term, (&n, &k)) in terms.iter_mut().zip(x.iter().zip(exponents)) {
            // seven decimals are as many as anybody types; what rounding costs is inside the declared error
            *term = ((n * 1e7).round() / 1e7, k);
        }
        let critical_pressure = match self.reducing {
            Reducing::CriticalPoint(_, pressure) => pressure,
            // ten digits, likewise
            Reducing::Beyond(_) => {
                let pc = x[exponents.len()].exp();
                Pressure::from_pa(format!("{pc:.9e}").parse().unwrap_or(pc))
            }
        };
        let temperatures = || table.rows().iter().map(|row| row.temperature);
        let low = temperatures().reduce(|a, b| if b <= a { b } else { a });
        let high = temperatures().reduce(|a, b| if b >= a { b } else { a });
        let critical_temperature = Temperature::from_kelvin(tc);
        Wagner {
            critical_temperature,
            critical_pressure,
            terms,
            valid: Range::new(low.unwrap_or(critical_temperature), high.unwrap_or(critical_temperature)),
            accuracy: bands(critical_temperature).map(|up_to| Accuracy {
                up_to,
                pressure: 0.0,
                temperature: TemperatureDifference::from_kelvins(0.0),
            }),
            source: self.source,
        }
    }

    fn misfits(
        &self,
        problem: &Problem,
        clean: &Solution,
        coverage: f64,
        aside: &[misfit::Aside],
        rows: &[&TableRow],
        table: &SaturationTable,
    ) -> Vec<Misfit> {
        let of = |aside: &misfit::Aside| {
            let row = rows[aside.row];
            let says = misfit::says(problem, clean, aside.row);
            let p = |log: f64| Pressure::from_pa(self.unit_pressure() * log.exp());
            Misfit {
                line: row.line,
                temperature: row.temperature,
                reads: row.pressure,
                should_read: p(says.log),
                interval: Range::new(p(says.log - coverage * says.standard), p(says.log + coverage * says.standard)),
                distance: says.distance,
                wording: table.wording,
                decimals: row.decimals,
            }
        };
        let mut misfits: Vec<Misfit> = aside.iter().map(of).collect();
        sort_by_number(&mut misfits, |misfit| misfit.temperature.si());
        misfits
    }
}

/// Improvement of the information criterion that a set with more terms must reach.
const BETTER_BY: f64 = 4.0;

/// Exponents for a table: the smallest set that the rows without outliers do not reject.
fn choose(problem: &impl Fn(&[f64]) -> Problem) -> Result<Vec<f64>, Error> {
    // the most terms that leave two rows over judge which rows belong
    let possible = || EXPONENT_SETS.iter().rev().map(|exponents| (*exponents, problem(exponents)));
    let mut first_error = None;
    let mut richest = None;
    for (_, problem) in possible().filter(|(_, problem)| problem.rows() >= problem.terms + 3) {
        match misfit::find(&problem) {
            Ok(aside) => {
                richest = Some((problem.terms, aside));
                break;
            }
            Err(error) => first_error = first_error.or(Some(error)),
        }
    }
    let Some((most, aside)) = richest else {
        return Err(first_error.unwrap_or_else(|| {
            let poorest = problem(EXPONENT_SETS[0]);
            bad(format!(
                "{} rows cannot settle {} coefficients and how far they can be trusted; {} rows can",
                poorest.rows(),
                poorest.terms,
                poorest.terms + 3
            ))
        }));
    };
    let belongs = |problem: &Problem| problem.without(|i| aside.iter().any(|aside| aside.row == i));
    let mut best: Option<(f64, &[f64])> = None;
    for (i, exponents) in EXPONENT_SETS.iter().enumerate() {
        // two terms miss more than most tables do: only where there are too few rows for three
        if i == 0 && most > problem(exponents).terms {
            continue;
        }
        let problem = belongs(&problem(exponents));
        if problem.terms > most || problem.rows() < problem.terms + 3 {
            continue;
        }
        let Ok(solution) = problem.solve() else { continue };
        let criterion = solution.criterion();
        if best.is_none_or(|(least, _)| criterion < least - BETTER_BY) {
            best = Some((criterion, exponents));
        }
    }
    let best = best.map(|(_, exponents)| {
        let richer = EXPONENT_SETS.iter().find(|set| set.len() > exponents.len());
        richer.filter(|richer| belongs(&problem(richer)).bears(2)).copied().unwrap_or(exponents)
    });
    best.map(<[f64]>::to_vec)
        .ok_or_else(|| bad("its rows cannot tell two coefficients apart: rows further apart are needed".to_owned()))
}

/// (Tc/T) θ^kᵢ, and 1 for ln pc where that is fitted.
fn design_row(reducing: &Reducing, t: f64, exponents: &[f64]) -> Vec<f64> {
    let (tc, fitted) = match reducing {
        Reducing::CriticalPoint(temperature, _) => (temperature.kelvin(), None),
        Reducing::Beyond(temperature) => (temperature.kelvin(), Some(1.0)),
    };
    exponents.iter().map(|&k| tc / t * (1.0 - t / tc).powf(k)).chain(fitted).collect()
}

/// Whether the pressure of `line` rises over its range.
fn rises(line: &Wagner) -> Result<(), Error> {
    const STEPS: u32 = 500;
    for step in 0..=STEPS {
        let t = line.valid.at(f64::from(step) / f64::from(STEPS));
        let t = if line.valid.contains(t) { t } else { line.valid.high };
        let slope = line.slope_pa_per_kelvin(t)?;
        if !(slope > 0.0 && slope.is_finite()) {
            return Err(bad(format!(
                "the fitted pressure does not rise at {:.2} K: fewer terms, or a misprint there",
                t.kelvin()
            )));
        }
    }
    Ok(())
}

fn beside(line: &Wagner, row: &TableRow, leverage: f64, used: bool) -> Result<FittedRow, Error> {
    let TableRow { temperature, pressure, .. } = *row;
    let fitted = line.pressure(temperature)?;
    Ok(FittedRow {
        line: row.line,
        temperature,
        table: pressure,
        fitted,
        relative: pressure.pa() / fitted.pa() - 1.0,
        kelvin: TemperatureDifference::from_kelvins((pressure - fitted).pa() / line.slope_pa_per_kelvin(temperature)?),
        leverage,
        used,
    })
}

/// A temperature in K for a message, without the last places of a conversion.
fn shown(kelvin: f64) -> f64 {
    (kelvin * 1e6).round() / 1e6
}

fn bad(reason: String) -> Error {
    Error::BadTable { reason }
}

impl Fit {
    /// Row among those used with the largest relative deviation in pressure.
    pub fn worst_row(&self) -> Option<&FittedRow> {
        self.rows.iter().filter(|row| row.used).max_by(|a, b| a.relative.abs().total_cmp(&b.relative.abs()))
    }

    /// Whether the critical point was given; without one, Tc and pc of the line are its reducing point only.
    pub const fn has_critical_point(&self) -> bool {
        matches!(self.reducing, Reducing::CriticalPoint(..))
    }

    /// What does not look like a saturation line and is worth a question.
    pub fn questions(&self) -> Vec<FitQuestion> {
        let mut questions = Vec::new();
        let first = self.line.terms.iter().find(|&&(_, k)| k == 1.0).map(|&(n, _)| n);
        // beyond a point that is not the critical one the first coefficient can be anything
        if let Some(n) = first.filter(|_| self.has_critical_point()) {
            let usual = USUAL_FIRST_COEFFICIENT;
            if !((1.0 + FAR_BEYOND) * usual.0..=(1.0 - FAR_BEYOND) * usual.1).contains(&n) {
                questions.push(FitQuestion::FirstCoefficient { n, usual });
            }
        }
        if self.scatter > LARGEST_SCATTER {
            questions.push(FitQuestion::Scatter { relative: self.scatter });
        }
        questions
    }

    /// Number of rows used in the fit.
    pub fn rows_used(&self) -> usize {
        self.rows.iter().filter(|row| row.used).count()
    }

    /// Pressure of the fitted curve at temperature `t`, with its standard error by least squares.
    ///
    /// u(ln p)² = xᵀ (Xᵀ V⁻¹ X)⁻¹ x with x the row of the design at `t`. As with the coefficients, it holds for random,
    /// independent deviations; an error that all rows share is not in it.
    ///
    /// # Errors
    /// [`Error::OutOfRange`] outside the line; [`Error::Missing`] for a fit by level error.
    pub fn measured_at(&self, t: Temperature) -> Result<Measured<Pressure>, Error> {
        let p = self.line.pressure(t)?;
        if self.criterion == Criterion::LevelError {
            return Err(Error::Missing {
                what: "confidence",
                way_out: "a fit by level error has none; fit by least squares",
            });
        }
        Measured::new(p, PressureDifference::from_pa(p.pa() * self.standard(t)))
    }

    /// 95 % interval of the pressure of the fitted curve at temperature `t`: [`Fit::measured_at`] with Student's t at
    /// the residual degrees of freedom.
    ///
    /// # Errors
    /// As [`Fit::measured_at`].
    pub fn interval_at(&self, t: Temperature) -> Result<Range<Pressure>, Error> {
        let curve = self.measured_at(t)?;
        let (p, half) = (curve.value(), curve.standard_uncertainty() * self.coverage);
        Ok(Range::new(p - half, p + half))
    }

    /// Refrigerant of one's own with this saturation line, for superheat, readings and expected windows.
    pub fn refrigerant(&self, name: impl Into<Cow<'static, str>>) -> OwnRefrigerant {
        let own = OwnRefrigerant::pure(name, self.line);
        if self.has_critical_point() { own } else { own.with_unknown_critical_point() }
    }

    /// Relative standard error of the pressure of the curve at `t`.
    fn standard(&self, t: Temperature) -> f64 {
        let exponents: Vec<f64> = self.coefficients.iter().map(|coefficient| coefficient.k).collect();
        self.solution.standard_of(&design_row(&self.reducing, t.kelvin(), &exponents))
    }

    /// Declared error, band by band, rounded up to two digits.
    fn declared(&self) -> Result<[Accuracy; 4], Error> {
        let used: Vec<&FittedRow> = self.rows.iter().filter(|row| row.used).collect();
        let band_of = |t: Temperature| self.line.accuracy.iter().position(|band| t <= band.up_to).unwrap_or(3);
        let mut accuracy = self.line.accuracy;
        for (i, row) in used.iter().enumerate() {
            let half = match self.criterion {
                Criterion::LeastSquares => self.coverage * self.standard(row.temperature),
                Criterion::LevelError => 0.0,
            };
            let kelvin_of_all = row.fitted.pa() / self.line.slope_pa_per_kelvin(row.temperature)?;
            // between two rows on either side of a border the error reaches into both bands
            for near in [i.saturating_sub(1), i, (i + 1).min(used.len() - 1)] {
                let band = &mut accuracy[band_of(used[near].temperature)];
                band.pressure = band.pressure.max(row.relative.abs()).max(half);
                band.temperature = TemperatureDifference::from_si(
                    band.temperature.si().max(row.kelvin.si().abs()).max(half * kelvin_of_all),
                );
            }
        }
        Ok(accuracy.map(|band| Accuracy {
            pressure: round_up(band.pressure),
            temperature: TemperatureDifference::from_si(round_up(band.temperature.si())),
            ..band
        }))
    }
}

#[cfg(test)]
mod tests {
    use approx::assert_abs_diff_eq;

    use super::*;
    use crate::Trust;

    #[test]
    fn rough_slopes_are_those_of_clausius_and_clapeyron() {
        let source = Source { work: "invented for a test", locator: "", doi: None, trust: Trust::Reasoned };
        let fitting = Fitting::without_critical_point(Temperature::from_kelvin(400.0), source);
        let slopes = |t: &[f64], p: &[f64]| {
            let table = SaturationTable::from_slices(t, p).unwrap();
            fitting.rough_slopes(&table.rows().iter().collect::<Vec<_>>())
        };
        // ln p = 25 − 2500 K/T rises by 2500 K/T²
        let t = [250.0, 270.0, 300.0, 340.0];
        let p = t.map(|t: f64| (25.0 - 2500.0 / t).exp());
        for (slope, t) in slopes(&t, &p).into_iter().zip(t) {
            assert_abs_diff_eq!(slope * t * t / 2500.0, 1.0, epsilon = 1e-9); // rounding
        }
        // one temperature alone: Trouton's 10.5/T
        assert_abs_diff_eq!(slopes(&[250.0], &[2e5])[0], 10.5 / 250.0, epsilon = 1e-12); // rounding
    }

    #[test]
    fn what_is_known_of_a_row_is_the_sum_of_two_variances() {
        let source = Source { work: "invented for a test", locator: "", doi: None, trust: Trust::Reasoned };
        let fitting = Fitting::without_critical_point(Temperature::from_kelvin(400.0), source);
        let text =
            "temperature_C,pressure_kPa_abs,u_pressure_percent,u_temperature_K\n0,292.8,0.3,0.1\n10,414.6,0.3,0.2\n";
        let table = SaturationTable::read(text, "pressure").unwrap();
        let rows: Vec<_> = table.rows().iter().collect();
        let known = fitting.problem(&rows, &[0.04, 0.035], &[1.0]).known;
        // 0.3 % of the pressure, and 0.1 K on a line that rises by 4 %/K
        assert_abs_diff_eq!(known[0], 0.003 * 0.003 + 0.004 * 0.004, epsilon = 1e-12); // rounding
        assert_abs_diff_eq!(known[1], 0.003 * 0.003 + 0.007 * 0.007, epsilon = 1e-12); // rounding
    }
}
