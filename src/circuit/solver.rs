//! Cycle solver: the search for the unknowns at which every residual of the model vanishes.
//!
//! Newton's method with Broyden's updates from a few starting points; if none of them leads to the steady state,
//! continuation from conditions under which the search succeeds. While receiver or accumulator is partly full the
//! charge determines only its level and one unknown is known; an empty or full store is reached by continuation in the
//! charge.

use nalgebra::SVector;

use super::charge::Contents;
use super::initial_guess::{STARTING_POINTS, initial_guess};
use super::model::{Model, Pass, Unknowns};
use super::operation::OperatingPoint;
use super::outside_store::outside_store_guess;
use super::sizes::{Circuit, Storage};
use super::state_cache::{Evaluation, StateCache};
use super::steady_state::SteadyState;
use crate::numeric::broyden;
use crate::{Error, Pressure, Ratio, Temperature};

/// Evaluations one search may take.
const SEARCH_EVALUATIONS: usize = 160;
/// How far an unknown may move in one step; the high-side unknown as the high side says; our choice.
const LONGEST_STEP: Unknowns = [0.25, 0.2, 0.6, 0.2, f64::NAN, 0.35];
/// The place of the high-side unknown.
const HIGH_SIDE: usize = 4;
/// The place of the superheated fraction.
const SUPERHEATED: usize = 3;

/// What is being solved when nothing nearer is known.
const STEADY_STATE: &str = "steady state of the circuit";
/// What is being solved with an empty or full store.
const CHARGE: &str = "charge balance of the circuit";

/// Evaluations that a search from an estimate with the store empty or full may take: those that succeed take 10 to 55; our choice.
const ESTIMATE_EVALUATIONS: usize = 60;

/// The shortest step of a continuation that is still tried, as a share of the way; our choice.
const SHORTEST: f64 = 1e-4;
/// The same in the charge, where there is another way; our choice.
const SHORTEST_IN_CHARGE: f64 = 1e-2;
/// What is left of a stride that failed; our choice.
const AFTER_FAILURE: f64 = 0.35;
/// First stride of the share of an exchanger that is dry or flooded; our choice.
const FIRST_STRIDE: f64 = 0.03;
/// Longest stride of that share; our choice.
const LONGEST_STRIDE: f64 = 0.12;
/// What is left of such a stride that failed; our choice.
const STRIDE_AFTER_FAILURE: f64 = 0.4;
/// Growth of such a stride that succeeded; our choice.
const STRIDE_AFTER_SUCCESS: f64 = 1.6;
/// Relative charge residual from which all six unknowns are sought at once; our choice.
const NEAR_ENOUGH: f64 = 0.02;
/// Width of a bracket of that share that is rounding; our choice.
const CLOSED_BRACKET: f64 = 1e-12;

/// Tolerances of the solver, and its patience.
#[derive(Debug, Clone, Copy)]
pub(super) struct Effort {
    /// The largest residual of a solution.
    tolerance: f64,
    /// The largest residual of a state that is handed out: states start from the last ones, and a last place of an enthalpy may
    /// weigh where little heat is left to give.
    closed: f64,
    /// Share of the usual evaluations after which no further search is begun.
    patience: f64,
}

impl Effort {
    /// For a state that is handed out; our choice.
    pub(super) const FULL: Self = Self { tolerance: 1e-9, closed: 1e-8, patience: 1.0 };
    /// For one of many circuits: within a hundredth of what a gauge can resolve, and left out where the search is long, as one
    /// in a hundred is that would succeed at last; our choice.
    pub(super) const BRIEF: Self = Self { tolerance: 1e-4, closed: 1e-3, patience: 0.2 };
}

/// Conditions under which the search succeeds easily, from which others are approached: warm, all air, at idle; our
/// choice.
const EASY: OperatingPoint =
    OperatingPoint::idle(Temperature::from_celsius(32.0), Ratio::from_fraction(0.5), Pressure::STANDARD_ATMOSPHERE);

/// Filling of the receiver or accumulator, which determines the set of unknowns.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Regime {
    /// Partly full: liquid and vapour are both in it.
    PartlyFull,
    /// Empty, so that the charge determines how far the evaporator is starved.
    Empty,
    /// Full, so that the charge determines how far liquid backs up into the condenser.
    Full,
}

impl Regime {
    /// The charge balance, relative; zero with the store partly full, whose level takes up any difference.
    pub(super) fn charge_residual(self, contents: &Contents, charge: f64) -> f64 {
        match self {
            Self::PartlyFull => 0.0,
            Self::Empty => contents.store_empty / charge - 1.0,
            Self::Full => contents.store_full / charge - 1.0,
        }
    }
}

/// Residual of a search that failed, and the balance that did not close.
#[derive(Debug, Clone, Copy)]
struct Unconverged {
    residual: f64,
    solving: &'static str,
}

impl Unconverged {
    /// A search that found nothing.
    const NOWHERE: Self = Self::at(f64::INFINITY, STEADY_STATE);

    /// A search for `solving` that ended `residual` off.
    const fn at(residual: f64, solving: &'static str) -> Self {
        Self { residual, solving }
    }

    /// The nearer of the two.
    fn or(self, other: Self) -> Self {
        if other.residual < self.residual { other } else { self }
    }

    fn error(self, steps: usize) -> Error {
        Error::NotConverged { solving: self.solving, steps, residual: self.residual }
    }
}

/// A solution: the last pass, and the unknowns with the store partly full, from which a similar circuit may start.
struct Solution {
    pass: Pass,
    regime: Regime,
    partly_full: Unknowns,
}

/// The steady state of `circuit` in `operation`, and the unknowns with its store partly full.
///
/// The first search begins `near` a solution of a similar circuit where that is given.
///
/// # Errors
/// [`Error::NotConverged`], [`Error::NotModelled`].
pub(super) fn solve(
    circuit: &Circuit,
    operation: &OperatingPoint,
    effort: Effort,
    near: Option<&Unknowns>,
) -> Result<(SteadyState, Unknowns), Error> {
    let cache = StateCache::default();
    let model = Model::new(circuit, operation, &cache)?;
    let mut solver = Solver::new(effort, &model);
    let mut best = Unconverged::NOWHERE;
    let guesses = STARTING_POINTS.iter().filter_map(|offset| initial_guess(&model, offset));
    for start in near.copied().into_iter().chain(guesses) {
        match solver.steady_state(&model, &start, operation) {
            Ok(state) => return Ok(state),
            Err(unconverged) => best = best.or(unconverged),
        }
        if solver.evaluations > solver.limit {
            return Err(best.error(solver.evaluations));
        }
    }
    // from an open outlet, then from easy conditions too, the state is followed to the one asked for
    let open = model.without_restriction();
    let easy = Model::new(circuit, &EASY, &cache)?.without_restriction();
    for from in [open, easy].iter().skip(usize::from(!model.high_side.is_restricted())) {
        match solver.by_continuation(from, &model, operation) {
            Some(Ok(state)) => return Ok(state),
            Some(Err(unconverged)) => best = best.or(unconverged),
            None => {}
        }
    }
    Err(best.error(solver.evaluations))
}

/// How far each unknown of `model` may move in one step.
fn longest_step(model: &Model) -> Unknowns {
    let mut longest = LONGEST_STEP;
    longest[HIGH_SIDE] = model.high_side.longest_step();
    longest
}

/// How a point is evaluated that lies as close to the last one as `linearised` says.
fn evaluation(linearised: bool) -> Evaluation {
    if linearised { Evaluation::Linearised } else { Evaluation::Exact }
}

/// A state on the way to an empty or full store.
#[derive(Clone, Copy)]
struct OnTheWay {
    /// Share of the exchanger that is dry or flooded.
    share: f64,
    u: Unknowns,
    /// Charge balance left.
    rest: f64,
}

impl OnTheWay {
    /// The unknowns at `share` on the straight line through this state and `other`.
    fn towards(&self, other: &Self, share: f64) -> Unknowns {
        let way = (share - self.share) / (other.share - self.share);
        std::array::from_fn(|i| self.u[i] + way * (other.u[i] - self.u[i]))
    }
}

/// The searches for one steady state.
struct Solver {
    effort: Effort,
    /// Evaluations of the model so far.
    evaluations: usize,
    /// Evaluations after which no further search is begun.
    limit: usize,
    /// The same at the beginning.
    allowed: usize,
}

impl Solver {
    fn new(effort: Effort, model: &Model) -> Self {
        let limit = (effort.patience * model.high_side.evaluation_limit() as f64) as usize;
        Self { effort, evaluations: 0, limit, allowed: limit }
    }

    /// The steady state of `model` by continuation from `easier` conditions; `None` where those have no solution either.
    fn by_continuation(
        &mut self,
        easier: &Model,
        model: &Model,
        operation: &OperatingPoint,
    ) -> Option<Result<(SteadyState, Unknowns), Unconverged>> {
        let start = STARTING_POINTS.iter().find_map(|offset| {
            let start = initial_guess(easier, offset)?;
            let (u, residual) = self.search(easier, &start, Regime::PartlyFull)?;
            (residual <= self.effort.tolerance).then_some(u)
        })?;
        let found = self.follow(|share| easier.towards(model, share), start, Regime::PartlyFull);
        Some(found.and_then(|u| self.steady_state(model, &u, operation)))
    }

    /// The steady state found from `start`, all balances closed; and the unknowns with the store partly full.
    fn steady_state(
        &mut self,
        model: &Model,
        start: &Unknowns,
        operation: &OperatingPoint,
    ) -> Result<(SteadyState, Unknowns), Unconverged> {
        let Solution { pass, regime, partly_full } = self.solution(model, start)?;
        let state = SteadyState::new(model, &pass, operation, regime, self.evaluations);
        let residual = state.residuals.worst();
        // not a number is no solution
        if residual <= self.effort.closed && state.is_finite() {
            Ok((state, partly_full))
        } else {
            Err(Unconverged::at(residual, STEADY_STATE))
        }
    }

    /// The solution near `start`: with the store partly full, and from there with it empty or full if the charge asks for that.
    fn solution(&mut self, model: &Model, start: &Unknowns) -> Result<Solution, Unconverged> {
        let (u, residual) = self.search(model, start, Regime::PartlyFull).ok_or(Unconverged::NOWHERE)?;
        let pass = model.pass(&u, Evaluation::Exact).ok_or(Unconverged::NOWHERE)?;
        if residual.is_nan() || residual > self.effort.tolerance {
            return Err(Unconverged::at(residual, worst_balance(&pass)));
        }
        let contents = Contents::of(model.circuit, &pass);
        let charge = model.charge;
        // the store empty or full: from the charge at which it just was
        let (regime, from) = if charge < contents.store_empty {
            (Regime::Empty, contents.store_empty)
        } else if charge > contents.store_full {
            (Regime::Full, contents.store_full)
        } else {
            return Ok(Solution { pass, regime: Regime::PartlyFull, partly_full: u });
        };
        let at = |share| model.with_charge(from + share * (charge - from));
        let end = match self.by_estimate(model, regime) {
            Some(end) => end,
            None => self.follow(at, u, regime).or_else(|failed| {
                // near a limit of the pressure all moves with a gram; the share of the exchanger that is flooded or dry does not
                self.limit = self.evaluations + self.allowed;
                self.by_share(model, u, regime).map_err(|other| failed.or(other))
            })?,
        };
        let pass = model.pass(&end, Evaluation::Exact).ok_or(Unconverged::NOWHERE)?;
        Ok(Solution { pass, regime, partly_full: u })
    }

    /// The state with the store empty or full from an estimate of its own; `None` where that leads to none, or to one in which the
    /// store is neither.
    fn by_estimate(&mut self, model: &Model, regime: Regime) -> Option<Unknowns> {
        let guess = outside_store_guess(model, regime)?;
        let limit = std::mem::replace(&mut self.limit, self.evaluations + ESTIMATE_EVALUATIONS);
        let found = self.search(model, &guess, regime);
        self.limit = limit;
        let (u, size) = found?;
        let share = u[known_unknown(model.circuit)];
        (size <= self.effort.tolerance && share >= 0.0).then_some(u)
    }

    /// Continuation from a solution of `at(0)` to one of `at(1)`, in as few steps as it takes.
    fn follow<'a>(
        &mut self,
        at: impl Fn(f64) -> Model<'a>,
        start: Unknowns,
        regime: Regime,
    ) -> Result<Unknowns, Unconverged> {
        let shortest = if regime == Regime::PartlyFull { SHORTEST } else { SHORTEST_IN_CHARGE };
        let (mut share, mut u) = (0.0, start);
        // the solution before, and how far back that is
        let mut before: Option<(Unknowns, f64)> = None;
        let mut stride: f64 = 1.0;
        let mut residual = f64::INFINITY;
        while stride > shortest && self.evaluations < self.limit {
            let next = if share + stride > 1.0 - SHORTEST { 1.0 } else { share + stride };
            let model = at(next);
            // straight on, unless that leaves what is defined
            let ahead = before.map(|(was, length)| {
                let far = (next - share) / length;
                std::array::from_fn(|i| u[i] + far * (u[i] - was[i]))
            });
            let from = ahead.filter(|ahead| model.pass(ahead, Evaluation::Exact).is_some()).unwrap_or(u);
            match self.search(&model, &from, regime) {
                Some((found, size)) if size <= self.effort.tolerance => {
                    if next == 1.0 {
                        return Ok(found);
                    }
                    before = Some((u, next - share));
                    (u, share) = (found, next);
                    stride *= 2.0;
                }
                outcome => {
                    residual = outcome.map_or(residual, |(_, size)| size);
                    stride *= AFTER_FAILURE;
                }
            }
        }
        let solving = if regime == Regime::PartlyFull { STEADY_STATE } else { CHARGE };
        Err(Unconverged::at(residual, solving))
    }

    /// The state in which the store is empty or full, found by the share of the exchanger that is dry or flooded: that is
    /// increased from zero until the charge is bracketed, then sought between.
    fn by_share(&mut self, model: &Model, start: Unknowns, regime: Regime) -> Result<Unknowns, Unconverged> {
        let known = known_unknown(model.circuit);
        // a share of a condenser or of a dry evaporator ends at one; liquid that leaves an evaporator has no such end
        let longest = if known == SUPERHEATED && regime == Regime::Full { 1.0 } else { LONGEST_STRIDE };
        // with a receiver flooding counts upwards, with an accumulator drying does
        let upwards = (known == HIGH_SIDE) == (regime == Regime::Full);
        let signed = |share: f64| if upwards { share } else { -share };
        let off = |u: &Unknowns| {
            let pass = model.pass(u, Evaluation::Exact)?;
            Some(regime.charge_residual(&Contents::of(model.circuit, &pass), model.charge))
        };
        let lost = Unconverged::at(f64::INFINITY, CHARGE);
        let mut here = OnTheWay { share: 0.0, u: start, rest: off(&start).ok_or(lost)? };
        let mut before: Option<OnTheWay> = None;
        let mut stride = FIRST_STRIDE;
        let beyond = loop {
            if self.evaluations >= self.limit || stride < SHORTEST {
                return Err(Unconverged::at(here.rest.abs(), CHARGE));
            }
            let share = here.share + stride;
            let ahead = before.map(|before| here.towards(&before, share));
            let ahead = ahead.filter(|u| model.pass(u, Evaluation::Exact).is_some()).unwrap_or(here.u);
            let Some(next) = self.on_the_way(model, &ahead, share, signed(share), off) else {
                stride *= STRIDE_AFTER_FAILURE;
                continue;
            };
            if next.rest * here.rest <= 0.0 {
                break next;
            }
            before = Some(here);
            here = next;
            stride = (STRIDE_AFTER_SUCCESS * stride).min(longest);
        };
        self.between(model, here, beyond, regime, signed, off)
    }

    /// The state between two of which one holds too little and the other too much.
    fn between(
        &mut self,
        model: &Model,
        mut here: OnTheWay,
        mut beyond: OnTheWay,
        regime: Regime,
        signed: impl Fn(f64) -> f64,
        off: impl Fn(&Unknowns) -> Option<f64>,
    ) -> Result<Unknowns, Unconverged> {
        // regula falsi, Illinois: the weight of an end that stays is halved each time
        let mut weights = (1.0, 1.0);
        let mut tried = false;
        while self.evaluations < self.limit {
            let nearer = if here.rest.abs() < beyond.rest.abs() { here } else { beyond };
            // near enough, all six at once; once, as close to a kink that fails every time
            if nearer.rest.abs() < NEAR_ENOUGH && !std::mem::replace(&mut tried, true) {
                match self.search(model, &nearer.u, regime) {
                    Some((u, size)) if size <= self.effort.tolerance => return Ok(u),
                    _ => {}
                }
            }
            if nearer.rest.abs() <= self.effort.tolerance || (beyond.share - here.share).abs() < CLOSED_BRACKET {
                return Ok(nearer.u);
            }
            let (a, b) = (weights.0 * here.rest, weights.1 * beyond.rest);
            let share = (here.share * b - beyond.share * a) / (b - a);
            let from = here.towards(&beyond, share);
            let next = [from, here.u, beyond.u]
                .into_iter()
                .find_map(|from| self.on_the_way(model, &from, share, signed(share), &off));
            let Some(next) = next else { break };
            if next.rest * here.rest > 0.0 {
                (here, weights) = (next, (1.0, 0.5 * weights.1));
            } else {
                (beyond, weights) = (next, (0.5 * weights.0, 1.0));
            }
        }
        Err(Unconverged::at(here.rest.abs().min(beyond.rest.abs()), CHARGE))
    }

    /// The state at `share`, sought from `start`.
    fn on_the_way(
        &mut self,
        model: &Model,
        start: &Unknowns,
        share: f64,
        signed: f64,
        off: impl Fn(&Unknowns) -> Option<f64>,
    ) -> Option<OnTheWay> {
        let (u, size) = self.search_with(model, start, signed)?;
        (size <= self.effort.tolerance).then_some(())?;
        Some(OnTheWay { share, u, rest: off(&u)? })
    }

    /// Searches from `start` in `regime`: where that ended, and the largest residual there; `None` where `start` is undefined.
    fn search(&mut self, model: &Model, start: &Unknowns, regime: Regime) -> Option<(Unknowns, f64)> {
        if regime != Regime::PartlyFull {
            let f = |x: &SVector<f64, 6>, linearised| {
                let pass = model.pass(&(*x).into(), evaluation(linearised))?;
                let charge = regime.charge_residual(&Contents::of(model.circuit, &pass), model.charge);
                let [a, b, c, d, e] = pass.residuals;
                Some(SVector::from([a, b, c, d, e, charge]))
            };
            let (x, residual) = self.broyden(f, SVector::from(*start), &SVector::from(longest_step(model)))?;
            return Some((x.into(), residual));
        }
        self.search_with(model, start, 0.0)
    }

    /// Searches from `start` with the share of the exchanger that is flooded or dry held at `share`.
    fn search_with(&mut self, model: &Model, start: &Unknowns, share: f64) -> Option<(Unknowns, f64)> {
        let known = known_unknown(model.circuit);
        let free: [usize; 5] = std::array::from_fn(|i| if i < known { i } else { i + 1 });
        let all = |x: &SVector<f64, 5>| {
            let mut u = *start;
            u[known] = share;
            for (&i, &value) in free.iter().zip(x.iter()) {
                u[i] = value;
            }
            u
        };
        let f = |x: &SVector<f64, 5>, linearised| {
            model.pass(&all(x), evaluation(linearised)).map(|pass| SVector::from(pass.residuals))
        };
        let longest = longest_step(model);
        let (x, residual) =
            self.broyden(f, SVector::from(free.map(|i| start[i])), &SVector::from(free.map(|i| longest[i])))?;
        Some((all(&x), residual))
    }

    /// Broyden's method within what evaluations are left: where it ended, and the largest residual there.
    fn broyden<const N: usize>(
        &mut self,
        f: impl FnMut(&SVector<f64, N>, bool) -> Option<SVector<f64, N>>,
        start: SVector<f64, N>,
        longest: &SVector<f64, N>,
    ) -> Option<(SVector<f64, N>, f64)> {
        let most = SEARCH_EVALUATIONS.min(self.limit.saturating_sub(self.evaluations));
        let outcome = broyden(f, start, longest, self.effort.tolerance, most)?;
        self.evaluations += outcome.evaluations;
        Some((outcome.x, outcome.residual))
    }
}

/// The unknown that is zero while the store is partly full: the superheated fraction with an accumulator, which takes saturated
/// vapour; with a receiver, which takes saturated liquid, the backed-up fraction.
fn known_unknown(circuit: &Circuit) -> usize {
    match circuit.storage {
        Storage::Receiver { .. } => HIGH_SIDE,
        Storage::Accumulator { .. } => SUPERHEATED,
    }
}

/// The name of the balance that is furthest from closing.
fn worst_balance(pass: &Pass) -> &'static str {
    const NAMES: [&str; 5] = [
        "flow balance of the compressor",
        "flow balance of the expansion device",
        "heat balance of the condenser",
        "heat balance of the evaporator",
        "control of the compressor",
    ];
    let largest = |a: &(f64, &'static str), b: &(f64, &'static str)| a.0.total_cmp(&b.0);
    let sizes = pass.residuals.iter().map(|r| r.abs()).zip(NAMES);
    sizes.max_by(largest).map_or(STEADY_STATE, |(_, name)| name)
}
