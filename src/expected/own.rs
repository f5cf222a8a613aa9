//! Circuits of a population weighted by what the circuit at hand shows when it is healthy.
//!
//! - **Weights** ln wᵢ = −½ dᵢᵀ R⁻¹ dᵢ, d = ln p(circuit) − ln p(middle of the row), all pressures absolute. R holds the
//!   [`discrepancy`] of the model, which the rows share, and for each range the square of half its half width: a range is an interval
//!   of 95 % (see [`Baseline`]).
//! - **Effective sample size** (Σw)²/Σw² (Kish, Survey Sampling, 1965; from memory). Circuits are drawn in batches until it is
//!   [`ENOUGH_EFFECTIVE_CIRCUITS`], up to [`MOST_OWN_CIRCUITS`].
//! - **Too few** if it is not enough then, the weights are raised to the power a < 1 at which it is, and the rest of the evidence,
//!   R/(1 − a), moves the pressures by linear regression on the pressures of the rows: regression adjustment (Beaumont, Zhang &
//!   Balding, Genetics 162 (2002) 2025) in the form that reckons with the uncertainty of the rows, which is the ensemble Kalman
//!   update (Frei & Künsch, Biometrika 100 (2013) 781, join the two so), done one whitened row pressure after the other
//!   without drawing errors (Whitaker & Hamill, Mon. Weather Rev. 130 (2002) 1913); all from memory.
//! - **Limits** below [`LEAST_EFFECTIVE_CIRCUITS`] the rows are outside what the population shows, or at its edge, and the window says
//!   so.

use nalgebra::{DMatrix, DVector};

use super::computed::operating_point;
use super::discrepancy;
use crate::circuit::{Circuit, CircuitKind, Conditions, Population, SteadyState, Unknowns};
use crate::inspection::{Baseline, Measurand};
use crate::numeric::{bisect, parallel, sort_by_number};
use crate::quantity::SQRT_3;
use crate::{Error, GaugePressure, Pressure, Range};

/// Effective sample size at which no more circuits are drawn for a window of one circuit's own; our choice: the 5 % quantile then has
/// a standard error of about two hundredths of the distribution.
pub const ENOUGH_EFFECTIVE_CIRCUITS: f64 = 100.0;

/// Most circuits drawn for a window of one circuit's own; our choice, for the time it takes.
pub const MOST_OWN_CIRCUITS: usize = 1024;

/// Effective sample size below which the baselines are hardly like anything modelled: not one circuit in a hundred is near them. Our
/// choice; of forty circuits that are of the population one or two are so rare (`tests/own_window.rs`).
pub const LEAST_EFFECTIVE_CIRCUITS: f64 = 10.0;

/// Circuits drawn at a time; as many as a window without baselines has.
const BATCH: usize = 128;

/// Fraction of the circuits that need a steady state under every baseline; our choice.
const ENOUGH: f64 = 0.9;

/// A circuit is ruled out where dᵀ R⁻¹ d exceeds the least one by more: its weight is below 10⁻⁸ of the greatest. Our choice.
const RULED_OUT: f64 = 40.0;

/// Fraction of the weight whose circuits make a window; the others are many and light. Our choice.
const KEPT: f64 = 0.995;

/// Standard deviation over the width of a printed range: its half is twice the standard deviation, an interval of 95 %, since makers
/// print what good cars keep within; our choice.
const DEVIATION_OF_WIDTH: f64 = 0.25;

/// Weights of the three points that stand for a normal distribution: outer and middle (Gauss–Hermite quadrature, arithmetic).
const THREE_POINTS: (f64, f64) = (1.0 / 6.0, 2.0 / 3.0);

/// A pressure of a baseline.
#[derive(Debug, Clone, Copy, PartialEq)]
struct RowPressure {
    /// Index of the baseline.
    row: usize,
    side: Measurand,
    /// ln of the absolute pressure in Pa.
    ln_p: f64,
    /// Standard deviation by the width of the range.
    spread: f64,
}

/// A circuit of the population with its weight.
#[derive(Debug, Clone)]
pub(crate) struct OwnCircuit {
    pub(crate) kind: CircuitKind,
    /// Its index in the population of its kind.
    pub(crate) index: u64,
    pub(crate) circuit: Circuit,
    /// Where its steady state under each baseline was found.
    found: Vec<Unknowns>,
    /// z = L⁻¹ d with R = L Lᵀ.
    whitened: DVector<f64>,
    /// w^a.
    pub(crate) weight: f64,
}

/// A day between two baselines.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Between {
    rows: [usize; 2],
    /// Share of the way from one to the other.
    share: f64,
}

impl OwnCircuit {
    /// Where a search for its steady state on that day begins.
    pub(crate) fn near(&self, between: Between) -> Unknowns {
        let [from, to] = between.rows.map(|row| &self.found[row]);
        std::array::from_fn(|i| from[i] + between.share * (to[i] - from[i]))
    }

    /// dᵀ R⁻¹ d.
    fn misfit(&self) -> f64 {
        self.whitened.norm_squared()
    }
}

/// Circuits weighted by the baselines of the circuit at hand.
#[derive(Debug, Clone)]
pub(crate) struct OwnCircuits {
    baselines: Vec<Baseline>,
    pressures: Vec<RowPressure>,
    /// L, the Cholesky factor of R.
    factor: DMatrix<f64>,
    /// In the order in which they were drawn, without those ruled out.
    circuits: Vec<OwnCircuit>,
    drawn: usize,
    missing: usize,
    effective: f64,
    /// a: the power of the weights.
    power: f64,
}

/// What the discrepancy of the model adds to a logarithmic pressure under some conditions.
#[derive(Debug, Clone)]
pub(crate) struct Correction {
    /// g: its mean is −g · z.
    gain: DVector<f64>,
    /// Its variance given the baselines.
    pub(crate) variance: f64,
}

impl Correction {
    /// Its mean for `circuit`.
    pub(crate) fn mean(&self, circuit: &OwnCircuit) -> f64 {
        -self.gain.dot(&circuit.whitened)
    }
}

impl OwnCircuits {
    /// Circuits of `kinds`, each kind as likely before the `baselines` are seen.
    ///
    /// # Errors
    /// [`Error::NotModelled`]; [`Error::NotConverged`] when more than a tenth of the circuits have no steady state.
    pub(crate) fn of(kinds: &[CircuitKind], baselines: &[Baseline]) -> Result<Self, Error> {
        let populations = kinds.iter().map(|kind| Population::new(*kind)).collect::<Result<Vec<_>, Error>>()?;
        if populations.is_empty() {
            return Err(Error::Missing { what: "the kind of car", way_out: "name one, or use CircuitKind::main" });
        }
        let pressures = row_pressures(baselines);
        let factor = covariance(baselines, &pressures)
            .cholesky()
            .map_or_else(|| DMatrix::identity(pressures.len(), pressures.len()), |cholesky| cholesky.l());
        let (baselines, circuits) = (baselines.to_vec(), Vec::new());
        let (drawn, missing, effective, power) = (0, 0, 0.0, 1.0);
        let mut own = Self { baselines, pressures, factor, circuits, drawn, missing, effective, power };
        while own.effective < ENOUGH_EFFECTIVE_CIRCUITS && own.drawn < MOST_OWN_CIRCUITS {
            own.draw(&populations)?;
        }
        own.weigh();
        Ok(own)
    }

    /// Draws a batch, every kind in its turn.
    fn draw(&mut self, populations: &[Population]) -> Result<(), Error> {
        let before = self.least_misfit();
        let places: Vec<usize> = (self.drawn..self.drawn + BATCH).collect();
        let simulated = parallel::map(&places, |&place| {
            let population = &populations[place % populations.len()];
            self.simulate(population, (place / populations.len()) as u64, before)
        });
        let mut last = None;
        for simulated in simulated {
            match simulated {
                Ok(Some(circuit)) => self.circuits.push(circuit),
                Ok(None) => {}
                Err(error @ Error::NotConverged { .. }) => {
                    self.missing += 1;
                    last = Some(error);
                }
                Err(error) => return Err(error),
            }
        }
        self.drawn += BATCH;
        if let Some(error) = last.filter(|_| self.missing as f64 > (1.0 - ENOUGH) * self.drawn as f64) {
            return Err(error);
        }
        let least = self.least_misfit();
        self.circuits.retain(|circuit| circuit.misfit() <= least + RULED_OUT);
        self.effective = self.effective_at(1.0);
        Ok(())
    }

    /// Circuit `index` of `population` under every baseline; `None` once it is ruled out beside one of misfit `least`.
    fn simulate(&self, population: &Population, index: u64, least: f64) -> Result<Option<OwnCircuit>, Error> {
        let circuit = population.circuit(index);
        let mut found = Vec::with_capacity(self.baselines.len());
        let mut whitened = DVector::zeros(self.pressures.len());
        let (mut place, mut misfit) = (0, 0.0);
        for (row, baseline) in self.baselines.iter().enumerate() {
            let day = baseline.conditions();
            let (state, solution) = circuit.run_briefly(&operating_point(day, index), None)?;
            found.push(solution);
            while let Some(of_row) = self.pressures.get(place).filter(|pressure| pressure.row == row) {
                let distance = ln_pressure(&state, of_row.side, day.air) - of_row.ln_p;
                let known: f64 = (0..place).map(|before| self.factor[(place, before)] * whitened[before]).sum();
                whitened[place] = (distance - known) / self.factor[(place, place)];
                misfit += whitened[place] * whitened[place];
                place += 1;
            }
            if misfit > least + RULED_OUT {
                return Ok(None);
            }
        }
        Ok(Some(OwnCircuit { kind: population.kind(), index, circuit, found, whitened, weight: 0.0 }))
    }

    fn least_misfit(&self) -> f64 {
        self.circuits.iter().map(OwnCircuit::misfit).fold(f64::INFINITY, f64::min)
    }

    /// The weights raised to the power `a`, the greatest one.
    fn weights_at(&self, a: f64) -> impl Iterator<Item = f64> + '_ {
        let least = self.least_misfit();
        self.circuits.iter().map(move |circuit| (-0.5 * a * (circuit.misfit() - least)).exp())
    }

    /// (Σw)²/Σw² with the weights raised to the power `a`.
    fn effective_at(&self, a: f64) -> f64 {
        effective_size(self.weights_at(a))
    }

    /// Sets the power and the weights.
    fn weigh(&mut self) {
        /// How closely the power is found; our choice.
        const POWER: f64 = 1.0 / (1 << 20) as f64;
        if self.effective < ENOUGH_EFFECTIVE_CIRCUITS {
            // the effective sample size falls with the power
            self.power = bisect(0.0, 1.0, POWER, |power| self.effective_at(power) < ENOUGH_EFFECTIVE_CIRCUITS).0;
        }
        let weights: Vec<f64> = self.weights_at(self.power).collect();
        self.circuits.iter_mut().zip(weights).for_each(|(circuit, weight)| circuit.weight = weight);
    }

    /// What the circuit is known to show.
    pub(crate) fn baselines(&self) -> &[Baseline] {
        &self.baselines
    }

    /// Effective sample size under the full weights.
    pub(crate) fn effective(&self) -> f64 {
        self.effective
    }

    /// The correction of the pressure on either `side` under the conditions `day`.
    pub(crate) fn correction(&self, side: Measurand, day: &Conditions) -> Correction {
        let with_row = |pressure: &RowPressure| {
            let same = pressure.side == side;
            if same { discrepancy::covariance(side, self.baselines[pressure.row].conditions(), day) } else { 0.0 }
        };
        let shared = DVector::from_iterator(self.pressures.len(), self.pressures.iter().map(with_row));
        let gain = self.factor.solve_lower_triangular(&shared).unwrap_or(shared);
        let left = (discrepancy::covariance(side, day, day) - gain.norm_squared()).max(0.0);
        Correction { gain, variance: left + discrepancy::own_variance() }
    }

    /// The `wanted` circuits of `kinds` that stand best for all of those, with new weights: every heavy one with its own, of the light
    /// ones some with equal weights (Fearnhead & Clifford, J. R. Stat. Soc. B 65 (2003) 887; from memory). In the order of drawing.
    pub(crate) fn selection(&self, kinds: impl Fn(&CircuitKind) -> bool, wanted: usize) -> Vec<(&OwnCircuit, f64)> {
        let able: Vec<&OwnCircuit> = self.circuits.iter().filter(|circuit| kinds(&circuit.kind)).collect();
        let weights: Vec<f64> = able.iter().map(|circuit| circuit.weight).collect();
        let light = light_weight(&weights, wanted);
        let mut owed = 0.5;
        let chosen = able.into_iter().zip(weights).filter_map(|(circuit, weight)| {
            if weight >= light {
                return Some((circuit, weight));
            }
            owed += weight / light;
            (owed >= 1.0).then(|| {
                owed -= 1.0;
                (circuit, light)
            })
        });
        chosen.collect()
    }

    /// Mean weight of the circuits of those `kinds` for which `able` holds over that of all of `kinds`: how much the baselines speak
    /// for them.
    pub(crate) fn evidence(&self, kinds: &[CircuitKind], able: impl Fn(&CircuitKind) -> bool) -> f64 {
        let of_able: f64 =
            self.circuits.iter().filter(|circuit| able(&circuit.kind)).map(|circuit| circuit.weight).sum();
        let of_all: f64 = self.circuits.iter().map(|circuit| circuit.weight).sum();
        let share = kinds.iter().filter(|kind| able(kind)).count() as f64 / kinds.len() as f64;
        of_able / of_all / share
    }

    /// Steady states of the circuits under the conditions `day` with their weights and adjusted gauge pressures.
    ///
    /// # Errors
    /// Those of solving a circuit; [`Error::NotConverged`] where more than a tenth of the weight has no steady state.
    pub(super) fn states(&self, day: &Conditions) -> Result<OwnStates, Error> {
        let mut states = Vec::new();
        let mut weights = Vec::new();
        let mut pressures: Vec<DVector<f64>> = Vec::new();
        let (mut missing, mut weight_missing, mut last) = (self.missing, 0.0, None);
        let rows = self.pressures.len();
        let between = self.between(day);
        let heaviest: Vec<&OwnCircuit> = self.heaviest().collect();
        let solved = parallel::map(&heaviest, |circuit| {
            let near = between.map(|between| circuit.near(between));
            circuit.circuit.run_briefly(&operating_point(day, circuit.index), near.as_ref())
        });
        for (circuit, solved) in heaviest.into_iter().zip(solved) {
            let state = match solved {
                Ok((state, _)) => state,
                Err(error @ Error::NotConverged { .. }) => {
                    (missing, weight_missing, last) = (missing + 1, weight_missing + circuit.weight, Some(error));
                    continue;
                }
                Err(error) => return Err(error),
            };
            let mut all = circuit.whitened.clone().resize_vertically(rows + 2, 0.0);
            all[rows] = ln_pressure(&state, Measurand::LowSide, day.air);
            all[rows + 1] = ln_pressure(&state, Measurand::HighSide, day.air);
            pressures.push(all);
            weights.push(circuit.weight);
            states.push(state);
        }
        let total = weights.iter().sum::<f64>() + weight_missing;
        if let Some(error) = last.filter(|_| weight_missing > (1.0 - ENOUGH) * total) {
            return Err(error);
        }
        if self.power < 1.0 {
            (0..rows).for_each(|row| assimilate(&mut pressures, &weights, row, 1.0 / (1.0 - self.power)));
        }
        let adjusted = |place: usize, side: Measurand| {
            let Correction { gain, variance } = self.correction(side, day);
            let one = |all: &DVector<f64>| all[rows + place] - gain.dot(&all.rows(0, rows));
            Adjusted { ln_p: pressures.iter().map(one).collect(), deviation: variance.sqrt() }
        };
        let (low, high) = (adjusted(0, Measurand::LowSide), adjusted(1, Measurand::HighSide));
        Ok(OwnStates { states, weights, low, high, missing })
    }

    /// Where the ambient temperature of `day` lies between those baselines of its settings that are farthest apart; `None` unless it
    /// does.
    ///
    /// A search begun at another day's solution takes longer than one begun afresh; between two it takes three quarters of that.
    pub(crate) fn between(&self, day: &Conditions) -> Option<Between> {
        let of_settings = |(_, baseline): &(usize, &Baseline)| baseline.conditions().settings == day.settings;
        let ambient = |baseline: &Baseline| baseline.conditions().ambient;
        let mut rows: Vec<(usize, &Baseline)> = self.baselines.iter().enumerate().filter(of_settings).collect();
        sort_by_number(&mut rows, |(_, baseline)| ambient(baseline).kelvin());
        let (cold, warm) = (rows.first()?, rows.last()?);
        let share = (day.ambient - ambient(cold.1)) / (ambient(warm.1) - ambient(cold.1));
        (0.0..=1.0).contains(&share).then_some(Between { rows: [cold.0, warm.0], share })
    }

    /// The circuits that hold [`KEPT`] of the weight, in the order of drawing.
    fn heaviest(&self) -> impl Iterator<Item = &OwnCircuit> {
        let mut weights: Vec<f64> = self.circuits.iter().map(|circuit| circuit.weight).collect();
        sort_by_number(&mut weights, |weight| -weight);
        let total: f64 = weights.iter().sum();
        let mut sum = 0.0;
        let least = weights.into_iter().find(|weight| {
            sum += weight;
            sum >= KEPT * total
        });
        self.circuits.iter().filter(move |circuit| least.is_none_or(|least| circuit.weight >= least))
    }
}

/// Steady states with their weights, and what they show on this circuit's gauges.
pub(super) struct OwnStates {
    pub(super) states: Vec<SteadyState>,
    pub(super) weights: Vec<f64>,
    pub(super) low: Adjusted,
    pub(super) high: Adjusted,
    pub(super) missing: usize,
}

/// Adjusted pressures of one side, one for each circuit, and what the discrepancy adds to their spread.
pub(super) struct Adjusted {
    /// ln of the absolute pressure in Pa.
    ln_p: Vec<f64>,
    deviation: f64,
}

impl Adjusted {
    /// Pressures of `side` as the `states` have them, with the whole model uncertainty of it.
    pub(super) fn as_computed(side: Measurand, states: &[SteadyState], air: Pressure) -> Self {
        Self {
            ln_p: states.iter().map(|state| ln_pressure(state, side, air)).collect(),
            deviation: side.row().model_uncertainty,
        }
    }

    /// Absolute pressures that stand for the distribution, and their weights.
    pub(super) fn spread(&self, weights: &[f64]) -> Vec<(Pressure, f64)> {
        let values = self.ln_p.iter().copied().zip(weights.iter().copied());
        spread(values, self.deviation).map(|(ln_p, weight)| (Pressure::from_pa(ln_p.exp()), weight)).collect()
    }
}

/// Values that stand for weighted ones with a normal spread about each: three, which have its mean and the first five moments of that
/// distribution (Gauss–Hermite).
pub(super) fn spread(values: impl Iterator<Item = (f64, f64)>, deviation: f64) -> impl Iterator<Item = (f64, f64)> {
    // they lie √3 standard deviations from the middle
    let step = SQRT_3 * deviation;
    let (outer, middle) = THREE_POINTS;
    values.flat_map(move |(value, weight)| {
        [(-step, outer), (0.0, middle), (step, outer)].map(|(step, share)| (value + step, share * weight))
    })
}

/// Moves everything in `all` by what its `row`-th entry, observed to be zero with the variance `variance`, says.
///
/// g = Cov(x, z)/(Var z + r); the mean moves by −g z̄, what differs from the mean by −α g (z − z̄), α = 1/(1 + √(r/(Var z + r))).
fn assimilate(all: &mut [DVector<f64>], weights: &[f64], row: usize, variance: f64) {
    let Some(entries) = all.first().map(DVector::len) else { return };
    let total: f64 = weights.iter().sum();
    let mut mean = DVector::zeros(entries);
    all.iter().zip(weights).for_each(|(one, weight)| mean.axpy(weight / total, one, 1.0));
    let mut covariance = DVector::zeros(entries);
    for (one, weight) in all.iter().zip(weights) {
        let differs = one - &mean;
        covariance.axpy(weight / total * differs[row], &differs, 1.0);
    }
    let with_error = covariance[row] + variance;
    let reduced = 1.0 / (1.0 + (variance / with_error).sqrt());
    let gain = covariance / with_error;
    for one in all {
        let differs = one[row] - mean[row];
        one.axpy(-(mean[row] + reduced * differs), &gain, 1.0);
    }
}

/// (Σw)²/Σw²; zero without weight.
pub(crate) fn effective_size(weights: impl Iterator<Item = f64>) -> f64 {
    let (sum, squares) = weights.fold((0.0, 0.0), |(sum, squares), w| (sum + w, squares + w * w));
    if squares > 0.0 { sum * sum / squares } else { 0.0 }
}

/// The weight c at which Σ min(w/c, 1) is `wanted`; zero where there are no more than that.
fn light_weight(weights: &[f64], wanted: usize) -> f64 {
    if weights.len() <= wanted {
        return 0.0;
    }
    let mut sorted = weights.to_vec();
    sort_by_number(&mut sorted, |weight| -weight);
    let mut rest: f64 = sorted.iter().sum();
    for (heavy, weight) in sorted.iter().enumerate().take(wanted) {
        let light = rest / (wanted - heavy) as f64;
        if *weight <= light {
            return light;
        }
        rest -= weight;
    }
    0.0
}

/// Every pressure of the baselines, row by row.
fn row_pressures(baselines: &[Baseline]) -> Vec<RowPressure> {
    let of_row = |(row, baseline): (usize, &Baseline)| {
        let air = baseline.conditions().air;
        let of_side = move |(side, range): (Measurand, Option<Range<GaugePressure>>)| {
            let range = range?;
            let middle = range.at(0.5).absolute(air).pa();
            let spread = DEVIATION_OF_WIDTH * (range.high - range.low).pa() / middle;
            Some(RowPressure { row, side, ln_p: middle.ln(), spread })
        };
        [(Measurand::LowSide, baseline.low()), (Measurand::HighSide, baseline.high())].into_iter().filter_map(of_side)
    };
    baselines.iter().enumerate().flat_map(of_row).collect()
}

/// R.
fn covariance(baselines: &[Baseline], pressures: &[RowPressure]) -> DMatrix<f64> {
    DMatrix::from_fn(pressures.len(), pressures.len(), |i, j| {
        let (a, b) = (&pressures[i], &pressures[j]);
        let own = if i == j { a.spread * a.spread + discrepancy::own_variance() } else { 0.0 };
        let [day, other] = [a, b].map(|pressure| baselines[pressure.row].conditions());
        own + if a.side == b.side { discrepancy::covariance(a.side, day, other) } else { 0.0 }
    })
}

/// ln of the absolute pressure in Pa that `state` shows on `side`.
fn ln_pressure(state: &SteadyState, side: Measurand, air: Pressure) -> f64 {
    side.row().simulated.map_or(0.0, |simulated| simulated(state, air))
}

#[cfg(test)]
mod tests {
    use approx::{abs_diff_eq, assert_abs_diff_eq};

    use super::*;
    use crate::Refrigerant;

    /// Rounding of sums over circuits with weights near one.
    const ROUNDING: f64 = 1e-12;

    #[test]
    fn equal_weights_count_in_full_and_one_weight_as_one() {
        assert_eq!(effective_size([1.0; 30].into_iter()), 30.0);
        // the light ones add 4e-9
        assert_abs_diff_eq!(effective_size([1.0, 1e-9, 1e-9].into_iter()), 1.0, epsilon = 1e-8);
        assert_eq!(effective_size([1.0, 3.0].into_iter()), 1.6);
        assert_eq!(effective_size(std::iter::empty()), 0.0);
    }

    #[test]
    fn light_weights_share_the_places_that_heavy_ones_leave() {
        let weights = [5.0, 1.0, 1.0, 1.0, 1.0, 1.0];
        let light = light_weight(&weights, 3);
        // one place for the heavy one, two for the other five
        assert_eq!(light, 2.5);
        assert_abs_diff_eq!(weights.iter().map(|w| (w / light).min(1.0)).sum::<f64>(), 3.0, epsilon = ROUNDING);
        assert_eq!(light_weight(&weights, 6), 0.0);
    }

    /// Mean and variance of one entry, and its covariance with another.
    fn moments(all: &[DVector<f64>], weights: &[f64], i: usize, j: usize) -> (f64, f64) {
        let total: f64 = weights.iter().sum();
        let mean = |i: usize| all.iter().zip(weights).map(|(one, w)| w * one[i]).sum::<f64>() / total;
        let (a, b) = (mean(i), mean(j));
        (a, all.iter().zip(weights).map(|(one, w)| w * (one[i] - a) * (one[j] - b)).sum::<f64>() / total)
    }

    #[test]
    fn an_assimilated_row_gives_mean_and_variance_of_the_linear_law() {
        let even = |i: usize, step: f64| ((i as f64 + 0.5) * step).fract() - 0.5;
        let weights: Vec<f64> = (0..200).map(|i| 1.0 + 0.5 * even(i, 0.377)).collect();
        let mut all: Vec<DVector<f64>> = (0..200)
            .map(|i| {
                let z = 3.0 + even(i, 0.618);
                DVector::from_vec(vec![z, 2.0 * z + even(i, 0.755)])
            })
            .collect();
        let ((z, var_z), (y, cov), (_, var_y)) =
            (moments(&all, &weights, 0, 0), moments(&all, &weights, 1, 0), moments(&all, &weights, 1, 1));
        let r = 0.04;
        assimilate(&mut all, &weights, 0, r);
        let ((new_z, new_var_z), (new_y, new_var_y)) = (moments(&all, &weights, 0, 0), moments(&all, &weights, 1, 1));
        assert_abs_diff_eq!(new_z, z * r / (var_z + r), epsilon = ROUNDING);
        assert_abs_diff_eq!(new_var_z, var_z * r / (var_z + r), epsilon = ROUNDING);
        assert_abs_diff_eq!(new_y, y - cov / (var_z + r) * z, epsilon = ROUNDING);
        assert_abs_diff_eq!(new_var_y, var_y - cov * cov / (var_z + r), epsilon = ROUNDING);
    }

    fn own() -> OwnCircuits {
        let rows = ["25 °C, 60 %: 171 to 209 kPa, 1204 to 1471 kPa", "35 °C, 60 %: 229 to 280 kPa, 1500 to 1820 kPa"];
        OwnCircuits::of(&CircuitKind::main(Refrigerant::R134a), &rows.map(|row| row.parse().unwrap())).unwrap()
    }

    #[test]
    fn the_weight_is_the_density_of_independent_rows_and_their_shared_discrepancy() {
        let own = own();
        let r = covariance(own.baselines(), &own.pressures);
        let inverse = r.clone().try_inverse().unwrap();
        assert!(r[(0, 2)] > 0.0 && r[(0, 1)] == 0.0, "the rows share what lies off the model, the sides do not");
        for circuit in own.circuits.iter().take(20) {
            // d = L z
            let d = &own.factor * &circuit.whitened;
            // by factors of the matrix against by its inverse
            assert_abs_diff_eq!(circuit.misfit(), d.dot(&(&inverse * &d)), epsilon = 1e-9 * (1.0 + circuit.misfit()));
        }
        assert!(own.effective >= ENOUGH_EFFECTIVE_CIRCUITS && own.power == 1.0 && own.drawn <= MOST_OWN_CIRCUITS);
    }

    #[test]
    fn a_selection_stands_for_all() {
        let own = own();
        let all: f64 = own.circuits.iter().map(|circuit| circuit.weight).sum();
        let chosen = own.selection(|_| true, 60);
        assert!((59..=61).contains(&chosen.len()), "{}", chosen.len());
        let kept: f64 = chosen.iter().map(|(_, weight)| weight).sum();
        let least = chosen.iter().map(|(_, weight)| *weight).fold(f64::INFINITY, f64::min);
        // half a light weight is owed at the end, at most
        assert_abs_diff_eq!(kept, all, epsilon = least);
        // all kinds together say what all say; each alone says more or less
        let kinds = CircuitKind::main(Refrigerant::R134a);
        assert_abs_diff_eq!(own.evidence(&kinds, |_| true), 1.0, epsilon = ROUNDING);
        let each: Vec<f64> = kinds.iter().map(|kind| own.evidence(&kinds, |other| other == kind)).collect();
        assert!(abs_diff_eq!(each.iter().sum::<f64>() / kinds.len() as f64, 1.0, epsilon = ROUNDING), "{each:?}");
    }

    #[test]
    fn a_day_of_a_row_is_corrected_to_it_and_a_far_one_keeps_its_own_uncertainty() {
        let own = own();
        let day = *own.baselines()[0].conditions();
        let near = own.correction(Measurand::HighSide, &day).variance;
        let dry = Conditions { humidity: Some(crate::Ratio::from_percent(0.0)), ..day };
        let far = own.correction(Measurand::HighSide, &dry).variance;
        let alone = discrepancy::covariance(Measurand::HighSide, &day, &day) + discrepancy::own_variance();
        assert!(near < alone && far > alone, "{near} {alone} {far}");
    }
}
