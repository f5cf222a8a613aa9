//! Coefficients of an equation of state, by kind of term.

#[cfg(not(feature = "std"))]
use crate::float::Float as _;
use crate::{Pressure, Source, Temperature};

/// Equation of state in the Helmholtz energy: coefficients of its ideal-gas and residual parts, reducing point and
/// limits.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Equation {
    /// Molar gas constant used in the publication, J/(mol K).
    pub gas_constant: f64,
    /// Molar mass used in the publication, kg/mol.
    pub molar_mass: f64,
    /// Reducing temperature Tr, K.
    pub reducing_temperature: f64,
    /// Reducing density ρr, mol/m³.
    pub reducing_density: f64,
    /// Critical temperature, K.
    pub critical_temperature: f64,
    /// Pressure of the equation at its critical point, Pa.
    pub critical_pressure: f64,
    /// Ideal-gas part α⁰.
    pub ideal: Ideal,
    /// Residual part αʳ.
    pub residual: Residual,
    /// Range of validity in temperature, pressure and density.
    pub limits: Limits,
    /// Ancillary equations for the saturated densities, used as first guesses.
    pub ancillary: Ancillary,
    /// Whether saturation follows from equal pressure and Gibbs energy of the two phases; for a pseudo-pure blend it
    /// does not, its bubble and dew lines are published separately.
    pub is_pure: bool,
    /// Publication of the equation.
    pub source: Source,
}

/// Ideal-gas part, α⁰ = a₁ + a₂ τ + ln δ + c ln τ + Σ nᵢ τ^tᵢ + Σ nᵢ ln(1 − exp(−tᵢ τ)).
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Ideal {
    /// Constant a₁, shifted to the reference state of the IIR: 200 kJ/kg and 1 kJ/(kg K) for saturated liquid at 0 °C.
    pub constant: f64,
    /// Coefficient a₂ of the linear term, shifted likewise.
    pub linear: f64,
    /// Coefficient c of the logarithmic term.
    pub logarithmic: f64,
    /// Coefficients and exponents (nᵢ, tᵢ) of the polynomial terms.
    pub polynomial: &'static [(f64, f64)],
    /// Planck–Einstein terms.
    pub planck_einstein: &'static [PlanckEinstein],
}

/// Planck–Einstein term, n ln(1 − exp(−t τ)).
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PlanckEinstein {
    /// Coefficient n.
    pub n: f64,
    /// Characteristic temperature over the reducing temperature, t.
    pub t: f64,
}

/// Residual part αʳ, a sum of four kinds of terms.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Residual {
    /// Polynomial and exponential terms.
    pub exponential: &'static [Exponential],
    /// Terms with an exponential of δ and one of τ.
    pub double_exponential: &'static [DoubleExponential],
    /// Gaussian terms.
    pub gaussian: &'static [Gaussian],
    /// Non-analytic terms of the critical region.
    pub non_analytic: &'static [NonAnalytic],
}

/// Polynomial or exponential term, n τ^t δ^d exp(−δ^l), without the exponential where l is 0.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Exponential {
    /// Coefficient n.
    pub n: f64,
    /// Exponent t of τ.
    pub t: f64,
    /// Exponent d of δ.
    pub d: u8,
    /// Exponent l of δ in the exponential.
    pub l: u8,
}

/// Term with an exponential of δ and one of τ, n τ^t δ^d exp(−δ^l − τ^m).
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct DoubleExponential {
    /// Coefficient n.
    pub n: f64,
    /// Exponent t of τ.
    pub t: f64,
    /// Exponent d of δ.
    pub d: u8,
    /// Exponent l of δ in the exponential.
    pub l: u8,
    /// Exponent m of τ in the exponential.
    pub m: f64,
}

/// Gaussian term, n τ^t δ^d exp(−η (δ − ε)² − β (τ − γ)²).
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Gaussian {
    /// Coefficient n.
    pub n: f64,
    /// Exponent t of τ.
    pub t: f64,
    /// Exponent d of δ.
    pub d: u8,
    /// Inverse square width η in δ.
    pub eta: f64,
    /// Centre ε in δ.
    pub epsilon: f64,
    /// Inverse square width β in τ.
    pub beta: f64,
    /// Centre γ in τ.
    pub gamma: f64,
}

/// Non-analytic term of the critical region, n Δ^b δ exp(−C (δ − 1)² − D (τ − 1)²).
///
/// Δ = θ² + B ((δ − 1)²)^a, θ = (1 − τ) + A ((δ − 1)²)^(1/(2β)).
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct NonAnalytic {
    /// Coefficient n.
    pub n: f64,
    /// Exponent a.
    pub a: f64,
    /// Exponent b.
    pub b: f64,
    /// Exponent β, as 1/(2β).
    pub beta: f64,
    /// Coefficient A.
    pub big_a: f64,
    /// Coefficient B.
    pub big_b: f64,
    /// Coefficient C.
    pub big_c: f64,
    /// Coefficient D.
    pub big_d: f64,
}

/// Range of validity of an equation of state.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Limits {
    /// Lower limit of temperature: the triple point if there is one.
    pub coldest: Temperature,
    /// Upper limit of temperature.
    pub hottest: Temperature,
    /// Upper limit of pressure.
    pub highest: Pressure,
    /// Upper limit of density, mol/m³.
    pub densest: f64,
}

/// Ancillary equations for the saturated densities, good to a few percent: starting values for phase equilibrium.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Ancillary {
    /// Density of the saturated liquid.
    pub liquid: Series,
    /// Density of the saturated vapour.
    pub vapour: Series,
}

/// Series in θ = 1 − T/Tc for a saturated density.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Series {
    /// Linear form, ρ/ρr = 1 + Σ nᵢ θ^tᵢ.
    Linear(&'static [(f64, f64)]),
    /// Exponential form, ρ/ρr = exp(Σ nᵢ θ^tᵢ).
    Exponential(&'static [(f64, f64)]),
    /// Exponential form divided by the reduced temperature, ρ/ρr = exp((Tc/T) Σ nᵢ θ^tᵢ).
    OverTemperature(&'static [(f64, f64)]),
}

impl Equation {
    /// Specific gas constant, J/(kg K).
    pub const fn specific_gas_constant(&self) -> f64 {
        self.gas_constant / self.molar_mass
    }

    /// Reducing density on a mass basis, kg/m³.
    pub const fn reducing_mass_density(&self) -> f64 {
        self.reducing_density * self.molar_mass
    }
}

impl Series {
    /// Reduced density ρ/ρr at the fraction `ratio` of the critical temperature.
    pub fn delta(&self, ratio: f64) -> f64 {
        let theta = 1.0 - ratio;
        let sum = |terms: &[(f64, f64)]| terms.iter().map(|&(n, t)| n * theta.powf(t)).sum::<f64>();
        match self {
            Self::Linear(terms) => 1.0 + sum(terms),
            Self::Exponential(terms) => sum(terms).exp(),
            Self::OverTemperature(terms) => (sum(terms) / ratio).exp(),
        }
    }
}
