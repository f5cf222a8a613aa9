//! The coefficients of an equation of state, by kind of term.

use crate::{Pressure, Source, Temperature};

/// An equation of state: coefficients of its ideal and residual parts, reducing point and limits.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Equation {
    /// Gas constant of the publication, J/(mol K).
    pub gas_constant: f64,
    /// Molar mass of the publication, kg/mol.
    pub molar_mass: f64,
    /// Reducing temperature Tr, K.
    pub reducing_temperature: f64,
    /// Reducing density ρr, mol/m³.
    pub reducing_density: f64,
    /// Critical temperature, K.
    pub critical_temperature: f64,
    /// Pressure of the equation at the critical point, Pa.
    pub critical_pressure: f64,
    /// Ideal-gas part.
    pub ideal: Ideal,
    /// Residual part.
    pub residual: Residual,
    /// Where it may be asked.
    pub limits: Limits,
    /// Saturated densities as first guesses.
    pub ancillary: Ancillary,
    /// Whether liquid and vapour of this equation balance at equal pressure and Gibbs energy; a pseudo-pure blend's do not,
    /// its bubble and dew line are published apart.
    pub is_pure: bool,
    /// The publication.
    pub source: Source,
}

/// α⁰ = a₁ + a₂ τ + ln δ + c ln τ + Σ nᵢ τ^tᵢ + Σ nᵢ ln(1 − exp(−tᵢ τ)).
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Ideal {
    /// a₁, shifted to the reference state of the IIR: 200 kJ/kg and 1 kJ/(kg K) for saturated liquid at 0 °C.
    pub constant: f64,
    /// a₂, shifted likewise.
    pub linear: f64,
    /// c.
    pub logarithmic: f64,
    /// (nᵢ, tᵢ) of the polynomial terms.
    pub polynomial: &'static [(f64, f64)],
    /// Planck–Einstein terms.
    pub planck_einstein: &'static [PlanckEinstein],
}

/// n ln(1 − exp(−t τ)).
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PlanckEinstein {
    /// Coefficient.
    pub n: f64,
    /// Characteristic temperature over Tr.
    pub t: f64,
}

/// The sums of the residual part.
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

/// n τ^t δ^d exp(−δ^l), without the exponential where l is 0.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Exponential {
    /// Coefficient.
    pub n: f64,
    /// Exponent of τ.
    pub t: f64,
    /// Exponent of δ.
    pub d: u8,
    /// Exponent of δ in the exponential.
    pub l: u8,
}

/// n τ^t δ^d exp(−δ^l − τ^m).
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct DoubleExponential {
    /// Coefficient.
    pub n: f64,
    /// Exponent of τ.
    pub t: f64,
    /// Exponent of δ.
    pub d: u8,
    /// Exponent of δ in the exponential.
    pub l: u8,
    /// Exponent of τ in the exponential.
    pub m: f64,
}

/// n τ^t δ^d exp(−η (δ − ε)² − β (τ − γ)²).
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Gaussian {
    /// Coefficient.
    pub n: f64,
    /// Exponent of τ.
    pub t: f64,
    /// Exponent of δ.
    pub d: u8,
    /// Width in δ.
    pub eta: f64,
    /// Centre in δ.
    pub epsilon: f64,
    /// Width in τ.
    pub beta: f64,
    /// Centre in τ.
    pub gamma: f64,
}

/// n Δ^b δ exp(−C (δ − 1)² − D (τ − 1)²), Δ = θ² + B ((δ − 1)²)^a, θ = (1 − τ) + A ((δ − 1)²)^(1/(2β)).
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct NonAnalytic {
    /// Coefficient.
    pub n: f64,
    /// a.
    pub a: f64,
    /// b.
    pub b: f64,
    /// β.
    pub beta: f64,
    /// A.
    pub big_a: f64,
    /// B.
    pub big_b: f64,
    /// C.
    pub big_c: f64,
    /// D.
    pub big_d: f64,
}

/// Where an equation may be asked.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Limits {
    /// Triple point, or the lower limit where there is none.
    pub coldest: Temperature,
    /// Upper limit of temperature.
    pub hottest: Temperature,
    /// Upper limit of pressure.
    pub highest: Pressure,
    /// Upper limit of density, mol/m³.
    pub densest: f64,
}

/// Saturated densities to a few percent, where phase equilibrium starts to look.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Ancillary {
    /// Saturated liquid.
    pub liquid: Series,
    /// Saturated vapour.
    pub vapour: Series,
}

/// A series in θ = 1 − T/Tc for a saturated density.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Series {
    /// ρ/ρr = 1 + Σ nᵢ θ^tᵢ.
    Linear(&'static [(f64, f64)]),
    /// ρ/ρr = exp(Σ nᵢ θ^tᵢ).
    Exponential(&'static [(f64, f64)]),
    /// ρ/ρr = exp((Tc/T) Σ nᵢ θ^tᵢ).
    OverTemperature(&'static [(f64, f64)]),
}

impl Equation {
    /// Gas constant per mass, J/(kg K).
    pub const fn specific_gas_constant(&self) -> f64 {
        self.gas_constant / self.molar_mass
    }

    /// Reducing density per mass, kg/m³.
    pub const fn reducing_mass_density(&self) -> f64 {
        self.reducing_density * self.molar_mass
    }
}

impl Series {
    /// Reduced density ρ/ρr where temperature is `ratio` of the critical.
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
