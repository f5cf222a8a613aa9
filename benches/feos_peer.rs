//! A peer in Rust: feos with its multiparameter equations, given the same coefficients.

use feos::multiparameter::{MultiParameter, MultiParameterEquationOfState, MultiParameterParameters};
use feos_core::DensityInitialization::{self, Liquid, Vapor};
use feos_core::{Contributions, FeosResult, PhaseEquilibrium, SolverOptions, State};
use quantity::{JOULE, KELVIN, KILOGRAM, METER, MOL, PASCAL};
use satline::helmholtz::Equation;
use serde_json::{Value, json};

/// One fluid. `State` clones its equation, so states hold a reference.
pub struct Fluid {
    eos: MultiParameterEquationOfState,
    molar_mass: f64,
}

pub type Near<'a> = PhaseEquilibrium<&'a MultiParameterEquationOfState, 2>;

/// Our coefficients in the form feos reads: terms as columns. It takes one gas constant for all, so that pressures of R-134a
/// and R-744, whose equations have their own, come out up to 6e-6 apart.
fn record(equation: &Equation) -> Value {
    let (ideal, residual) = (&equation.ideal, &equation.residual);
    assert!(residual.double_exponential.is_empty(), "double exponentials are not mapped");
    let mut ideal_gas = vec![
        json!({"type": "IdealGasHelmholtzLead", "a1": ideal.constant, "a2": ideal.linear}),
        json!({"type": "IdealGasHelmholtzLogTau", "a": ideal.logarithmic}),
    ];
    if !ideal.polynomial.is_empty() {
        let (n, t): (Vec<f64>, Vec<f64>) = ideal.polynomial.iter().copied().unzip();
        ideal_gas.push(json!({"type": "IdealGasHelmholtzPower", "n": n, "t": t}));
    }
    if !ideal.planck_einstein.is_empty() {
        let (n, t): (Vec<f64>, Vec<f64>) = ideal.planck_einstein.iter().map(|term| (term.n, term.t)).unzip();
        ideal_gas.push(json!({"type": "IdealGasHelmholtzPlanckEinstein", "n": n, "t": t}));
    }
    let mut terms = Vec::new();
    macro_rules! columns {
        ($rows:expr, $kind:literal, $($name:literal $field:ident),*) => {
            if !$rows.is_empty() {
                terms.push(json!({"type": $kind, $($name: $rows.iter().map(|term| json!(term.$field)).collect::<Vec<_>>()),*}));
            }
        };
    }
    columns!(residual.exponential, "ResidualHelmholtzPower", "n" n, "t" t, "d" d, "l" l);
    columns!(residual.gaussian, "ResidualHelmholtzGaussian", "n" n, "t" t, "d" d, "eta" eta, "epsilon" epsilon,
        "beta" beta, "gamma" gamma);
    columns!(residual.non_analytic, "ResidualHelmholtzNonAnalytic", "n" n, "a" a, "b" b, "beta" beta, "A" big_a,
        "B" big_b, "C" big_c, "D" big_d);
    json!({
        "identifier": { "name": "fluid" },
        "molarweight": equation.molar_mass * 1e3,
        "tc": equation.reducing_temperature,
        "rhoc": equation.reducing_density,
        "ideal_gas": ideal_gas,
        "residual": terms,
    })
}

/// Density, enthalpy and entropy.
pub type Triple = (f64, f64, f64);

impl Fluid {
    pub fn new(equation: &Equation) -> Self {
        let parameters = MultiParameterParameters::new_pure(serde_json::from_value(record(equation)).unwrap()).unwrap();
        Self { eos: MultiParameter::new(parameters), molar_mass: equation.molar_mass }
    }

    /// The equilibrium at `t`, to start the next one from.
    pub fn near(&self, t: f64) -> FeosResult<Near<'_>> {
        PhaseEquilibrium::pure(&&self.eos, t * KELVIN, None, SolverOptions::default())
    }

    pub fn psat<'a>(&'a self, t: f64, near: Option<&Near<'a>>) -> FeosResult<f64> {
        let (p, _) = PhaseEquilibrium::pure_t(&&self.eos, t * KELVIN, near, SolverOptions::default())?;
        Ok(p.convert_into(PASCAL))
    }

    pub fn tsat<'a>(&'a self, p: f64, near: Option<&Near<'a>>) -> FeosResult<f64> {
        let (t, _) = PhaseEquilibrium::pure_p(&&self.eos, p * PASCAL, near, SolverOptions::default())?;
        Ok(t.convert_into(KELVIN))
    }

    fn triple(state: &State<&MultiParameterEquationOfState>) -> Triple {
        (
            state.mass_density().convert_into(KILOGRAM / METER.powi::<3>()),
            state.specific_enthalpy(Contributions::Total).convert_into(JOULE / KILOGRAM),
            state.specific_entropy(Contributions::Total).convert_into(JOULE / KILOGRAM / KELVIN),
        )
    }

    fn side(liquid: bool) -> Option<DensityInitialization> {
        Some(if liquid { Liquid } else { Vapor })
    }

    /// Told which phase it is.
    pub fn tp(&self, t: f64, p: f64, liquid: bool) -> FeosResult<Triple> {
        let state = State::new_npt(&&self.eos, t * KELVIN, p * PASCAL, (), Self::side(liquid))?;
        Ok(Self::triple(&state))
    }

    /// Told which phase it is, and started at `start`.
    pub fn t_ph(&self, p: f64, h: f64, liquid: bool, start: f64) -> FeosResult<f64> {
        let h = h * self.molar_mass * JOULE / MOL;
        let state = State::new_nph(&&self.eos, p * PASCAL, h, (), Self::side(liquid), Some(start * KELVIN))?;
        Ok(state.temperature.convert_into(KELVIN))
    }

    /// Told that it is vapour, and started at `start`.
    pub fn t_ps(&self, p: f64, s: f64, start: f64) -> FeosResult<f64> {
        let s = s * self.molar_mass * JOULE / MOL / KELVIN;
        let state = State::new_nps(&&self.eos, p * PASCAL, s, (), Self::side(false), Some(start * KELVIN))?;
        Ok(state.temperature.convert_into(KELVIN))
    }

    /// Four points, told the phases and started near the answers; the two-phase point by the lever rule.
    pub fn cycle(&self, high: Option<f64>) -> FeosResult<f64> {
        let low = self.near(278.15)?;
        let pe = low.vapor().pressure(Contributions::Total).convert_into(PASCAL);
        let (_, h1, s1) = self.tp(286.15, pe, false)?;
        let (pc, t3) = match high {
            Some(p) => (p, 308.15),
            None => (self.psat(323.15, None)?, 318.15),
        };
        let t2s = self.t_ps(pc, s1, 363.15)?;
        let h2 = h1 + (self.tp(t2s, pc, false)?.1 - h1) / 0.7;
        let t2 = self.t_ph(pc, h2, false, 373.15)?;
        let h3 = self.tp(t3, pc, true)?.1;
        let (liquid, vapour) = (Self::triple(low.liquid()).1, Self::triple(low.vapor()).1);
        Ok((h1 - h3) / (h2 - h1) + 1e-9 * t2 * (h3 - liquid) / (vapour - liquid))
    }
}
