//! Residual part αʳ and its derivatives along an isotherm.

use super::exponential::{exp, exp_each};
use super::{Equation, Gaussian, NonAnalytic};
#[cfg(not(feature = "std"))]
use crate::float::Float as _;

/// Largest number of groups of separable terms.
const MOST: usize = 48;
/// Largest number of powers of δ, δ⁰ included.
const POWERS: usize = 16;
/// Largest number of exponents of δ in an exponential, including none.
const EXPONENTIALS: usize = 8;

/// Residual part αʳ and its derivatives, each made dimensionless by powers of δ and τ.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Derivatives {
    /// Residual part αʳ.
    pub a: f64,
    /// First derivative in density, δ ∂αʳ/∂δ.
    pub a_d: f64,
    /// Second derivative in density, δ² ∂²αʳ/∂δ².
    pub a_dd: f64,
    /// First derivative in reciprocal temperature, τ ∂αʳ/∂τ.
    pub a_t: f64,
    /// Second derivative in reciprocal temperature, τ² ∂²αʳ/∂τ².
    pub a_tt: f64,
    /// Mixed derivative, δ τ ∂²αʳ/∂δ∂τ.
    pub a_dt: f64,
}

/// Equation of state at one temperature, with the functions of τ alone computed once.
///
/// All terms but the non-analytic ones are a function of τ times a function of δ. There is room for 48 of them, for
/// δ^15 and exp(−δ^7); an equation that needs more yields NaN throughout.
#[derive(Debug, Clone, Copy)]
pub struct Isotherm<'e> {
    equation: &'e Equation,
    tau: f64,
    ln_tau: f64,
    /// n times the function of τ, term by term: powers, double exponentials, Gaussians.
    amplitude: [f64; MOST],
    /// The highest l of exp(−δ^l).
    highest_l: u8,
}

/// A function of δ; its δ ∂/∂δ and δ² ∂²/∂δ² divided by itself.
struct Shape {
    g: f64,
    d1: f64,
    d2: f64,
}

/// Functions of δ alone that the terms share.
struct DensityTable {
    /// δ^d.
    power: [f64; POWERS],
    /// exp(−δ^l); 1 for l = 0, which means no exponential.
    exponential: [f64; EXPONENTIALS],
    /// l δ^l.
    inner: [f64; EXPONENTIALS],
}

impl DensityTable {
    #[inline]
    fn new(delta: f64, highest_l: u8) -> Self {
        let mut power = [1.0; POWERS];
        power[1] = delta;
        for i in 2..POWERS {
            // products of halves: no long chain of one waiting for the other
            power[i] = power[i / 2] * power[i - i / 2];
        }
        let mut exponential = [1.0; EXPONENTIALS];
        let mut inner = [0.0; EXPONENTIALS];
        for l in 1..EXPONENTIALS.min(usize::from(highest_l) + 1) {
            exponential[l] = exp(-power[l]);
            inner[l] = l as f64 * power[l];
        }
        Self { power, exponential, inner }
    }

    /// δ^d exp(−δ^l).
    #[inline(always)]
    fn power(&self, d: u8, l: u8) -> Shape {
        let (d_at, l_at) = (usize::from(d) % POWERS, usize::from(l) % EXPONENTIALS);
        // d − l δ^l;  (d − l δ^l)(d − 1 − l δ^l) − l² δ^l
        let d1 = f64::from(d) - self.inner[l_at];
        let d2 = d1 * (d1 - 1.0) - f64::from(l) * self.inner[l_at];
        Shape { g: self.power[d_at] * self.exponential[l_at], d1, d2 }
    }

    /// δ^d exp(−η (δ − ε)²), the exponential given.
    #[inline(always)]
    fn bell(&self, term: &Gaussian, delta: f64, exponential: f64) -> Shape {
        let d = f64::from(term.d);
        // d − 2 η δ (δ − ε);  (δ ∂/∂δ)² − d − 2 η δ²
        let d1 = d - 2.0 * term.eta * delta * (delta - term.epsilon);
        let d2 = d1 * d1 - d - 2.0 * term.eta * delta * delta;
        Shape { g: self.power[usize::from(term.d) % POWERS] * exponential, d1, d2 }
    }
}

impl<'e> Isotherm<'e> {
    /// Isotherm of `equation` at temperature `t`, K.
    pub fn new(equation: &'e Equation, t: f64) -> Self {
        let tau = equation.reducing_temperature / t;
        let ln_tau = tau.ln();
        let residual = &equation.residual;
        let (powers, doubles, bells) = (residual.exponential, residual.double_exponential, residual.gaussian);
        let mut isotherm = Self { equation, tau, ln_tau, amplitude: [0.0; MOST], highest_l: 0 };
        let terms = powers.len() + doubles.len() + bells.len();
        let Some(amplitude) = isotherm.amplitude.get_mut(..terms) else { return isotherm.nonsense() };
        let (of_powers, rest) = amplitude.split_at_mut(powers.len());
        let (of_doubles, of_bells) = rest.split_at_mut(doubles.len());

        // τ^t, τ^t exp(−τ^m), τ^t exp(−β (τ − γ)²), all exponentials together
        for (place, term) in of_powers.iter_mut().zip(powers) {
            *place = term.t * ln_tau;
        }
        for (place, term) in of_doubles.iter_mut().zip(doubles) {
            *place = term.t * ln_tau - exp(term.m * ln_tau);
        }
        for (place, term) in of_bells.iter_mut().zip(bells) {
            let off = tau - term.gamma;
            *place = term.t * ln_tau - term.beta * off * off;
        }
        exp_each(amplitude);
        // times n
        let (mut highest_d, mut highest_l) = (0, 0);
        let mut note = |d: u8, l: u8| {
            highest_d = d.max(highest_d);
            highest_l = l.max(highest_l);
        };
        let mut places = amplitude.iter_mut();
        for (term, place) in powers.iter().zip(&mut places) {
            *place *= term.n;
            note(term.d, term.l);
        }
        for (term, place) in doubles.iter().zip(&mut places) {
            *place *= term.n;
            note(term.d, term.l);
        }
        for (term, place) in bells.iter().zip(&mut places) {
            *place *= term.n;
            note(term.d, 0);
        }
        if usize::from(highest_d) >= POWERS || usize::from(highest_l) >= EXPONENTIALS {
            return isotherm.nonsense();
        }
        isotherm.highest_l = highest_l;
        isotherm
    }

    /// Marks the isotherm of an equation with more terms than there is room for, which then yields NaN.
    fn nonsense(self) -> Self {
        Self { amplitude: [f64::NAN; MOST], ..self }
    }

    /// Reduced reciprocal temperature τ = Tr/T.
    pub fn tau(&self) -> f64 {
        self.tau
    }

    /// ln τ.
    pub(super) fn ln_tau(&self) -> f64 {
        self.ln_tau
    }

    /// Equation of state of the isotherm.
    pub fn equation(&self) -> &'e Equation {
        self.equation
    }

    /// Derivatives in density at reduced density `delta`: αʳ, δ ∂αʳ/∂δ and δ² ∂²αʳ/∂δ², enough for pressure, its slope
    /// and the Gibbs energy.
    pub fn along_density(&self, delta: f64) -> [f64; 3] {
        let residual = &self.equation.residual;
        let table = DensityTable::new(delta, self.highest_l);
        let mut sum = [0.0; 3];
        let mut add = |f: f64, shape: Shape| {
            let value = f * shape.g;
            sum[0] += value;
            sum[1] += value * shape.d1;
            sum[2] += value * shape.d2;
        };
        let mut amplitudes = self.amplitude.iter();
        for (term, &f) in residual.exponential.iter().zip(&mut amplitudes) {
            add(f, table.power(term.d, term.l));
        }
        for (term, &f) in residual.double_exponential.iter().zip(&mut amplitudes) {
            add(f, table.power(term.d, term.l));
        }
        for bells in residual.gaussian.chunks(CHUNK) {
            let exponentials = exponentials(bells, delta);
            for ((term, exponential), &f) in bells.iter().zip(exponentials).zip(&mut amplitudes) {
                add(f, table.bell(term, delta, exponential));
            }
        }
        if !self.equation.residual.non_analytic.is_empty() {
            let more = critical_region(self.equation.residual.non_analytic, self.tau, delta);
            sum[0] += more.a;
            sum[1] += more.a_d;
            sum[2] += more.a_dd;
        }
        sum
    }

    /// Reduced pressure p/(ρr R T) and its slope in reduced density.
    pub(super) fn pressure(&self, delta: f64) -> (f64, f64) {
        // J = δ (1 + δ αʳδ);  ∂J/∂δ = 1 + 2 δ αʳδ + δ² αʳδδ
        let [_, a_d, a_dd] = self.along_density(delta);
        (delta * (1.0 + a_d), 1.0 + 2.0 * a_d + a_dd)
    }

    /// Residual part αʳ with all its first and second derivatives at reduced density `delta`.
    pub fn derivatives(&self, delta: f64) -> Derivatives {
        let residual = &self.equation.residual;
        let table = DensityTable::new(delta, self.highest_l);
        let mut all = Derivatives::default();
        let mut add = |f: f64, shape: Shape, t1: f64, t2: f64| {
            let value = f * shape.g;
            all.a += value;
            all.a_d += value * shape.d1;
            all.a_dd += value * shape.d2;
            all.a_t += value * t1;
            all.a_tt += value * t2;
            all.a_dt += value * shape.d1 * t1;
        };
        let mut amplitudes = self.amplitude.iter();
        for (term, &f) in residual.exponential.iter().zip(&mut amplitudes) {
            // τ ∂/∂τ: t;  τ² ∂²/∂τ²: t (t − 1)
            add(f, table.power(term.d, term.l), term.t, term.t * (term.t - 1.0));
        }
        for (term, &f) in residual.double_exponential.iter().zip(&mut amplitudes) {
            // τ ∂/∂τ: t − m τ^m;  τ² ∂²/∂τ²: (t − m τ^m)(t − 1 − m τ^m) − m² τ^m
            let inner = exp(term.m * self.ln_tau);
            let t1 = term.t - term.m * inner;
            add(f, table.power(term.d, term.l), t1, t1 * (t1 - 1.0) - term.m * term.m * inner);
        }
        for bells in residual.gaussian.chunks(CHUNK) {
            let exponentials = exponentials(bells, delta);
            for ((term, exponential), &f) in bells.iter().zip(exponentials).zip(&mut amplitudes) {
                // τ ∂/∂τ: t − 2 β τ (τ − γ);  τ² ∂²/∂τ²: (τ ∂/∂τ)² − t − 2 β τ²
                let tau = self.tau;
                let t1 = term.t - 2.0 * term.beta * tau * (tau - term.gamma);
                add(f, table.bell(term, delta, exponential), t1, t1 * t1 - term.t - 2.0 * term.beta * tau * tau);
            }
        }
        if !self.equation.residual.non_analytic.is_empty() {
            let more = critical_region(self.equation.residual.non_analytic, self.tau, delta);
            all.a += more.a;
            all.a_d += more.a_d;
            all.a_dd += more.a_dd;
            all.a_t += more.a_t;
            all.a_tt += more.a_tt;
            all.a_dt += more.a_dt;
        }
        all
    }
}

/// Number of Gaussians evaluated together.
const CHUNK: usize = 8;

/// exp(−η (δ − ε)²) of each term.
#[inline(always)]
fn exponentials(bells: &[Gaussian], delta: f64) -> [f64; CHUNK] {
    let mut all = [0.0; CHUNK];
    for (place, term) in all.iter_mut().zip(bells) {
        let off = delta - term.epsilon;
        *place = -term.eta * off * off;
    }
    exp_each(&mut all);
    all
}

/// Δ of the non-analytic terms with its derivatives, and ln Δ.
#[derive(Debug, Clone, Copy)]
struct Distance {
    theta: f64,
    theta_d: f64,
    value: f64,
    ln: f64,
    value_d: f64,
    value_dd: f64,
}

impl Distance {
    /// θ = (1 − τ) + A ((δ − 1)²)^(1/(2β)), Δ = θ² + B ((δ − 1)²)^a, at x = δ − 1, y = τ − 1.
    fn new(term: &NonAnalytic, x: f64, y: f64, ln_square: f64) -> Self {
        let NonAnalytic { a, beta, big_a, big_b, .. } = *term;
        let half = 0.5 / beta;
        let per_x = 1.0 / x;
        // θ and ∂θ/∂δ = (A/β) ((δ − 1)²)^(1/(2β))/(δ − 1)
        let in_theta = big_a * exp(half * ln_square);
        let theta = in_theta - y;
        let theta_d = 2.0 * half * in_theta * per_x;
        let theta_dd = theta_d * (2.0 * half - 1.0) * per_x;
        // Δ;  ∂Δ/∂δ = 2 θ ∂θ/∂δ + 2 a B ((δ − 1)²)^a/(δ − 1)
        let in_distance = big_b * exp(a * ln_square);
        let value = theta * theta + in_distance;
        let more = 2.0 * a * in_distance * per_x;
        Self {
            theta,
            theta_d,
            value,
            ln: value.ln(),
            value_d: 2.0 * theta * theta_d + more,
            value_dd: 2.0 * (theta_d * theta_d + theta * theta_dd) + more * (2.0 * a - 1.0) * per_x,
        }
    }
}

/// The sum of the terms n Δ^b δ ψ, ψ = exp(−C (δ − 1)² − D (τ − 1)²), with its derivatives (Span & Wagner 1996, table 32).
fn critical_region(terms: &[NonAnalytic], tau: f64, delta: f64) -> Derivatives {
    let mut all = Derivatives::default();
    let y = tau - 1.0;
    // every derivative has a limit at δ = 1, but powers of (δ − 1)² there may be 0/0: stay a hair beside it
    let x = if (delta - 1.0).abs() < 1e-10 { 1e-10 } else { delta - 1.0 };
    let square = x * x;
    let ln_square = square.ln();
    let mut kept: Option<(&NonAnalytic, Distance)> = None;
    for term in terms {
        let NonAnalytic { n, b, big_c, big_d, .. } = *term;
        let fall = big_c * square + big_d * y * y;
        // beyond e^−60 a term is less than the rounding of the others
        if fall > 60.0 {
            continue;
        }
        // terms beside each other mostly differ in b and n alone
        let same = |other: &NonAnalytic| {
            (other.a, other.beta, other.big_a, other.big_b) == (term.a, term.beta, term.big_a, term.big_b)
        };
        let distance = match kept {
            Some((other, distance)) if same(other) => distance,
            _ => Distance::new(term, x, y, ln_square),
        };
        kept = Some((term, distance));
        let Distance { theta, theta_d, value, ln, value_d, value_dd } = distance;

        // n ψ Δ^b, and the derivatives of ψ and Δ^b divided by themselves
        let whole = n * exp(b * ln - fall);
        let psi_d = -2.0 * big_c * x;
        let psi_dd = psi_d * psi_d - 2.0 * big_c;
        let psi_t = -2.0 * big_d * y;
        let psi_tt = psi_t * psi_t - 2.0 * big_d;
        // ∂Δ/∂τ = −2 θ, ∂²Δ/∂τ² = 2, ∂²Δ/∂δ∂τ = −2 ∂θ/∂δ
        let per_value = 1.0 / value;
        let (once, twice) = (b * per_value, b * (b - 1.0) * per_value * per_value);
        let power_d = once * value_d;
        let power_dd = once * value_dd + twice * value_d * value_d;
        let power_t = -2.0 * theta * once;
        let power_tt = 2.0 * once + 4.0 * theta * theta * twice;
        let power_dt = -2.0 * theta_d * once - 2.0 * theta * value_d * twice;

        // of the product ψ Δ^b
        let (u_d, u_t) = (psi_d + power_d, psi_t + power_t);
        let u_dd = psi_dd + 2.0 * psi_d * power_d + power_dd;
        let u_tt = psi_tt + 2.0 * psi_t * power_t + power_tt;
        let u_dt = psi_d * psi_t + psi_d * power_t + power_d * psi_t + power_dt;
        // α = n δ ψ Δ^b: δ ∂/∂δ adds the one of δ
        let (value, d) = (whole * delta, delta);
        all.a += value;
        all.a_d += value * (1.0 + d * u_d);
        all.a_dd += value * d * (2.0 * u_d + d * u_dd);
        all.a_t += value * tau * u_t;
        all.a_tt += value * tau * tau * u_tt;
        all.a_dt += value * tau * (u_t + d * u_dt);
    }
    all
}
