//! From a table to a saturation line, with how far it can be trusted.

use std::borrow::Cow;

use nalgebra::{DMatrix, DVector};

use super::least_squares::{Problem, Solution};
use super::misfit::{self, Misfit};
use super::table::{SaturationTable, TableRow};
use super::{EXPONENTS, SaturationPoint, bands, critical_point, exponent, level, level_scale, round_up};
use crate::numeric::student;
use crate::saturation::{Accuracy, OwnRefrigerant, TERMS, Wagner};
use crate::{
    Error, Measured, Pressure, PressureDifference, Quantity, Range, Source, Temperature, TemperatureDifference,
};

/// Sets of exponents from which a fit chooses when none are given; the last is [`EXPONENTS`].
///
/// Found by trying halves up to 4 and whole numbers up to 7 on the equations of state of the twelve pure fluids. For the
/// worst of them the root mean square of ln p is, from −40 to 60 °C, 6·10⁻³, 4·10⁻⁴, 9·10⁻⁵, 8·10⁻⁶ and 4·10⁻⁶; from 200 K
/// to 1 K below the critical point 1.3·10⁻², 1.5·10⁻³, 3·10⁻⁴, 8·10⁻⁵ and 4·10⁻⁵.
pub const EXPONENT_SETS: [&[f64]; 5] =
    [&[1.0, 3.0], &[1.0, 1.5, 3.0], &[1.0, 1.5, 2.0, 4.0], &[1.0, 1.5, 2.0, 2.5, 4.0], &EXPONENTS];

/// The point that reduces temperature and pressure in a line: its Tc and pc.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Reducing {
    /// The critical point, from the data sheet. Rows at it are taken to be it, and no row may lie above.
    CriticalPoint(SaturationPoint),
    /// A temperature above every row, for want of the critical temperature; the pressure there is fitted with the
    /// coefficients. Anything from a little above the table to the true critical temperature will do, and one and a half
    /// times the boiling point in K is near that (Guldberg's rule); the line is as good inside the table and is not
    /// asked beyond it.
    Beyond(Temperature),
}

/// The criterion that a fit minimises.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
#[non_exhaustive]
pub enum Criterion {
    /// The squares of the deviations, each over its variance: for tables that were measured, rounded or typed.
    #[default]
    LeastSquares,
    /// The largest deviation, weighed as [`super::wagner`] does: for equations that were evaluated, whose deviations are
    /// the form's own. It comes without confidence, and rows that do not belong spoil it.
    LevelError,
}

/// How a table is fitted.
///
/// - **Equation** ln(p/pc) = (Tc/T) Σ nᵢ θ^kᵢ, θ = 1 − T/Tc; linear in nᵢ, and in ln pc where that is not known.
/// - **Weights** each row counts by 1/variance. The variance is what is known of the row ([`TableRow::pressure`] and
///   [`TableRow::temperature`] through the slope) and the square of a scatter s over the row's weight; s is the same part of
///   the pressure for all rows, and as large as it takes to explain the deviations.
/// - **Terms** as few of [`EXPONENT_SETS`] as the rows do not speak against (corrected information criterion; a set with
///   more terms must be better by 4), and then one set richer where there are two rows for each coefficient, so that what
///   the form misses stays below the scatter and the confidence can be relied on.
/// - **Rows that do not belong** are named ([`Fit::misfits`]) and still counted, unless [`Fitting::without_misfits`]. About
///   one in a hundred tables without a slip has a row named. Several in a row at the upper end say that the critical
///   point given is not that of the table.
///
/// ```
/// use satline::fit::{Fitting, Reducing, SaturationPoint, SaturationTable};
/// use satline::{Line, Pressure, Source, Temperature, Trust};
/// // printed in a booklet for R-134a
/// let celsius = [-30.0, -20.0, -10.0, 0.0, 10.0, 20.0, 30.0, 40.0, 50.0, 60.0];
/// let kpa = [84.4, 132.7, 200.6, 292.8, 414.6, 571.7, 770.2, 1016.6, 1317.9, 1681.8];
/// let table = SaturationTable::from_slices(&celsius.map(|t| t + 273.15), &kpa.map(|p| 1e3 * p))?;
/// let critical = SaturationPoint { temperature: Temperature::from_kelvin(374.21), pressure: Pressure::from_kpa(4059.3) };
/// let source = Source { work: "my booklet", locator: "page 3", doi: None, trust: Trust::Weak };
/// let fit = Fitting::new(Reducing::CriticalPoint(critical), source).fit(&table)?;
/// assert!(fit.misfits.is_empty());
/// assert!(fit.worst_row().unwrap().relative.abs() < 5e-4); // the digits of the first row
/// // the line between the rows, and how far least squares trusts it
/// let t = Temperature::from_celsius(5.0);
/// let (p, interval) = (fit.line.pressure(t)?, fit.interval_at(t)?);
/// assert!(interval.contains(p) && (interval.high - interval.low).kpa() < 0.2);
/// // and a refrigerant of one's own
/// let own = fit.refrigerant("booklet");
/// let suction = Line::new(&own, p, Temperature::from_celsius(11.0))?;
/// assert!((suction.superheat().unwrap().value().kelvins() - 6.0).abs() < 1e-6);
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

/// A line fitted to a table, with everything that tells how good it is.
#[derive(Debug, Clone)]
#[non_exhaustive]
pub struct Fit {
    /// The line, its coefficients rounded to seven decimals and asked from the first row to the last.
    ///
    /// Its declared accuracy is, band by band, the larger of two: the largest deviation of a row that counted, and half
    /// the 95 % interval of the curve at the rows. Both say how well it stands for the table, not how well the table
    /// stands for the fluid.
    pub line: Wagner,
    /// The coefficients, as in the line.
    pub coefficients: Vec<Coefficient>,
    /// SaturationPoint by row, by rising temperature.
    pub rows: Vec<FittedRow>,
    /// Rows that do not belong, by rising temperature.
    pub misfits: Vec<Misfit>,
    /// Scatter of the rows, as a part of the pressure, beyond what is known of each; zero where that explains it all.
    pub scatter: f64,
    /// Largest over smallest singular value of the weighted design with its columns scaled to length 1. At 10ᵏ the last k
    /// of sixteen digits of the coefficients are noise, and a change in the table moves coefficients far while the curve
    /// stands still.
    pub condition: f64,
    /// How the line was reduced.
    pub reducing: Reducing,
    criterion: Criterion,
    solution: Solution,
    /// Standard errors in half of a 95 % interval.
    coverage: f64,
}

/// One coefficient of a fitted line.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub struct Coefficient {
    /// n
    pub n: f64,
    /// k, its exponent.
    pub k: f64,
    /// Standard error of n by least squares; `None` for the other criterion.
    ///
    /// From the covariance (Xᵀ V⁻¹ X)⁻¹, which takes the deviations as random and independent. Where they are not,
    /// as in a table that drifts, it says how far the digits of this table settle n, not how far n is true.
    pub standard: Option<f64>,
    /// Half of the 95 % interval of n: the standard error times Student's t for the rows that are left over.
    pub half95: Option<f64>,
}

/// A row beside the fitted line.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub struct FittedRow {
    /// Line of the text, or place in the slices counted from 1.
    pub line: usize,
    /// Its temperature.
    pub temperature: Temperature,
    /// Its pressure.
    pub table: Pressure,
    /// The pressure of the fitted line.
    pub fitted: Pressure,
    /// SaturationTable over fitted line, less 1.
    pub relative: f64,
    /// The same as a temperature: how much higher the line would have to be asked to read the table's pressure.
    pub kelvin: TemperatureDifference,
    /// How much the row pulls the line to itself, 0 to 1; 1 is a row that settles a coefficient alone.
    pub leverage: f64,
    /// Whether it counted. Rows left out, and those at the critical point, which no coefficient moves, did not.
    pub used: bool,
}

impl Fitting {
    /// By least squares, with as many terms as the table calls for; `source` is what the line will name.
    pub const fn new(reducing: Reducing, source: Source) -> Self {
        Self { reducing, source, exponents: None, criterion: Criterion::LeastSquares, without_misfits: false }
    }

    /// With these exponents, one to six of them, above zero.
    #[must_use]
    pub fn exponents(self, exponents: &[f64]) -> Self {
        Self { exponents: Some(exponents.to_vec()), ..self }
    }

    /// Minimising the largest deviation, weighed as [`super::wagner`] does, instead of least squares: for equations that were
    /// evaluated, whose deviations are the form's own. It comes without confidence, and rows that do not belong spoil it.
    #[must_use]
    pub fn level_error(self) -> Self {
        self.criterion(Criterion::LevelError)
    }

    /// By another criterion.
    #[doc(hidden)]
    #[must_use]
    pub fn criterion(self, criterion: Criterion) -> Self {
        Self { criterion, ..self }
    }

    /// Leaving out the rows that do not belong, which stay named in the result.
    #[must_use]
    pub fn without_misfits(self) -> Self {
        Self { without_misfits: true, ..self }
    }

    /// Fits the table.
    ///
    /// # Errors
    /// [`Error::Impossible`] for a reducing point or an exponent that is none; [`Error::BadTable`] for none or too many exponents, a row above the reducing temperature, more than
    /// a quarter of the rows above the critical pressure, fewer rows than coefficients and one, coefficients that the rows
    /// cannot tell apart, or a fitted pressure that does not rise with temperature.
    pub fn fit(&self, table: &SaturationTable) -> Result<Fit, Error> {
        let tc = self.check(table)?;
        // no coefficient moves the line at the critical point
        let counting: Vec<&TableRow> = table.rows().iter().filter(|row| row.point.temperature.kelvin() < tc).collect();
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
            let counts = row.point.temperature.kelvin() < tc;
            let used = counts && !leave_out(place);
            let leverage = if used { fit.solution.leverage[kept] } else { 0.0 };
            place += usize::from(counts);
            kept += usize::from(used);
            fit.rows.push(beside(&fit.line, row, leverage, used)?);
        }
        fit.line.accuracy = fit.declared()?;
        Ok(fit)
    }

    /// The coefficients by the criterion: those of least squares, or of the smallest largest error of the rows kept.
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
        let scale: Vec<f64> = kept.map(|i| level_scale(counting[i].point.temperature.kelvin(), &bands)).collect();
        let design = DMatrix::from_fn(used.rows(), used.terms, |i, j| scale[i] * used.row(i)[j]);
        let target = DVector::from_fn(used.rows(), |i, _| scale[i] * used.target[i]);
        Ok(level(&design, &target)?.iter().copied().collect())
    }

    /// The reducing temperature in K.
    fn check(&self, table: &SaturationTable) -> Result<f64, Error> {
        let (t, p) = match self.reducing {
            Reducing::CriticalPoint(SaturationPoint { temperature, pressure }) => (temperature.kelvin(), pressure.pa()),
            Reducing::Beyond(temperature) => (temperature.kelvin(), 1.0),
        };
        match self.reducing {
            Reducing::CriticalPoint(critical) => critical_point(critical)?,
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
        let above: Vec<&TableRow> = table
            .rows()
            .iter()
            .filter(|row| row.point.temperature.kelvin() < t && row.point.pressure.pa() > p)
            .collect();
        if let (Reducing::CriticalPoint(_), Some(row)) = (self.reducing, above.first())
            && 4 * above.len() > table.rows().len()
        {
            return Err(bad(format!(
                "line {}: {:.1} kPa is above the critical pressure of {:.1} kPa, at a temperature below the critical one; \
                 check its unit, and that it is absolute",
                row.line,
                row.point.pressure.kpa(),
                p / 1e3
            )));
        }
        let highest = table.rows().iter().max_by(|a, b| a.point.temperature.si().total_cmp(&b.point.temperature.si()));
        match (highest, self.reducing) {
            (Some(row), Reducing::CriticalPoint(_)) if row.point.temperature.kelvin() > t => Err(bad(format!(
                "line {}: {} K is above the critical temperature of {} K",
                row.line,
                shown(row.point.temperature.kelvin()),
                shown(t)
            ))),
            (Some(row), Reducing::Beyond(_)) if row.point.temperature.kelvin() >= t => Err(bad(format!(
                "line {}: {} K is not below the reducing temperature of {} K; choose one above the table",
                row.line,
                shown(row.point.temperature.kelvin()),
                shown(t)
            ))),
            _ => Ok(t),
        }
    }

    /// d ln p/dT in 1/K at each row, roughly: ln p straight in 1/T through all rows.
    fn rough_slopes(&self, rows: &[&TableRow]) -> Vec<f64> {
        let inverse = |row: &TableRow| 1.0 / row.point.temperature.kelvin();
        let log = |row: &TableRow| row.point.pressure.pa().ln();
        let n = rows.len() as f64;
        let (x, y) = (rows.iter().map(|r| inverse(r)).sum::<f64>() / n, rows.iter().map(|r| log(r)).sum::<f64>() / n);
        let over: f64 = rows.iter().map(|r| (inverse(r) - x) * (log(r) - y)).sum();
        let under: f64 = rows.iter().map(|r| (inverse(r) - x).powi(2)).sum();
        // one temperature alone: Trouton's rule, ln p rises by 10.5 K/T² or so for a boiling point of 1 K
        let steep = if under > 0.0 { over / under } else { -10.5 * rows[0].point.temperature.kelvin() };
        rows.iter().map(|row| -steep * inverse(row).powi(2)).collect()
    }

    fn problem(&self, rows: &[&TableRow], slopes: &[f64], exponents: &[f64]) -> Problem {
        let pc = self.unit_pressure();
        let design = |row: &&TableRow| design_row(&self.reducing, row.point.temperature.kelvin(), exponents);
        let design: Vec<f64> = rows.iter().flat_map(design).collect();
        let known = rows.iter().zip(slopes).map(|(row, slope)| {
            (row.pressure.pa() / row.point.pressure.pa()).powi(2) + (row.temperature.kelvins() * slope).powi(2)
        });
        Problem {
            terms: design.len() / rows.len().max(1),
            design,
            target: rows.iter().map(|row| (row.point.pressure.pa() / pc).ln()).collect(),
            weight: rows.iter().map(|row| row.weight).collect(),
            known: known.collect(),
            form: misfit::missed_by_form(exponents.len(), matches!(self.reducing, Reducing::CriticalPoint(_))),
        }
    }

    /// What ln p counts from: pc, or 1 Pa where that is fitted.
    fn unit_pressure(&self) -> f64 {
        match self.reducing {
            Reducing::CriticalPoint(critical) => critical.pressure.pa(),
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
            Reducing::CriticalPoint(critical) => critical.pressure,
            // ten digits, likewise
            Reducing::Beyond(_) => {
                let pc = x[exponents.len()].exp();
                Pressure::from_pa(format!("{pc:.9e}").parse().unwrap_or(pc))
            }
        };
        let temperatures = || table.rows().iter().map(|row| row.point.temperature);
        let low = temperatures().reduce(|a, b| if b < a { b } else { a });
        let high = temperatures().reduce(|a, b| if b > a { b } else { a });
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
                temperature: row.point.temperature,
                reads: row.point.pressure,
                should_read: p(says.log),
                interval: Range::new(p(says.log - coverage * says.standard), p(says.log + coverage * says.standard)),
                distance: says.distance,
                wording: table.wording,
                decimals: row.decimals,
            }
        };
        let mut misfits: Vec<Misfit> = aside.iter().map(of).collect();
        misfits.sort_by(|a, b| a.temperature.si().total_cmp(&b.temperature.si()));
        misfits
    }
}

/// How much smaller the information criterion of a set with more terms must be.
const BETTER_BY: f64 = 4.0;

/// The exponents for a table: as few as the rows that belong do not speak against.
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
        Reducing::CriticalPoint(critical) => (critical.temperature.kelvin(), None),
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
    let SaturationPoint { temperature, pressure } = row.point;
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
    /// The row that counted and deviates most in pressure.
    pub fn worst_row(&self) -> Option<&FittedRow> {
        self.rows.iter().filter(|row| row.used).max_by(|a, b| a.relative.abs().total_cmp(&b.relative.abs()))
    }

    /// How many rows counted.
    pub fn rows_used(&self) -> usize {
        self.rows.iter().filter(|row| row.used).count()
    }

    /// The curve at `t` with its standard error by least squares: how far the rows settle it there.
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

    /// The 95 % interval of the curve at `t`: [`Fit::measured_at`] with Student's t for the rows that are left over.
    ///
    /// # Errors
    /// As [`Fit::measured_at`].
    pub fn interval_at(&self, t: Temperature) -> Result<Range<Pressure>, Error> {
        let curve = self.measured_at(t)?;
        let (p, half) = (curve.value(), curve.standard_uncertainty() * self.coverage);
        Ok(Range::new(p - half, p + half))
    }

    /// A refrigerant with this line, for superheat, readings and windows.
    pub fn refrigerant(&self, name: impl Into<Cow<'static, str>>) -> OwnRefrigerant {
        let own = OwnRefrigerant::pure(name, self.line);
        match self.reducing {
            Reducing::CriticalPoint(_) => own,
            Reducing::Beyond(_) => own.with_unknown_critical_point(),
        }
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
