//! Single-phase state, and every property that follows from it.

use super::ideal::IdealPart;
use super::{Derivatives, Equation, Isotherm};
#[cfg(not(feature = "std"))]
use crate::float::Float as _;
use crate::quantity::{Density, SpecificEnthalpy, SpecificEntropy};
use crate::{Pressure, Quantity, Temperature};

/// Single-phase state at given temperature and density, from which all properties follow.
///
/// The properties are computed from the derivatives of the Helmholtz energy; the equation of each is above its line.
/// Enthalpy and entropy refer to the IIR reference state: 200 kJ/kg and 1 kJ/(kg K) for saturated liquid at 0 °C.
#[derive(Debug, Clone, Copy)]
pub struct State<'e> {
    equation: &'e Equation,
    t: f64,
    rho: f64,
    ln_delta: f64,
    ideal: IdealPart,
    residual: Derivatives,
}

/// The same equation, by its place in memory, at the same temperature and density.
impl PartialEq for State<'_> {
    fn eq(&self, other: &Self) -> bool {
        core::ptr::eq(self.equation, other.equation) && (self.t, self.rho) == (other.t, other.rho)
    }
}

impl<'e> State<'e> {
    /// State of the equation at temperature `t` and density `rho`, without checks.
    ///
    /// No limit is checked, and between the saturated densities it is the single phase that the equation continues
    /// there, metastable or unstable; [`Equation::at_density`] finds the two phases instead.
    pub fn at(equation: &'e Equation, t: Temperature, rho: Density) -> Self {
        Self::on(&Isotherm::new(equation, t.kelvin()), rho.si() / equation.reducing_mass_density())
    }

    /// State on an isotherm at reduced density `delta`.
    pub(super) fn on(isotherm: &Isotherm<'e>, delta: f64) -> Self {
        let equation = isotherm.equation();
        let tau = isotherm.tau();
        Self {
            equation,
            t: equation.reducing_temperature / tau,
            rho: delta * equation.reducing_mass_density(),
            ln_delta: delta.ln(),
            ideal: equation.ideal.at(tau, isotherm.ln_tau()),
            residual: isotherm.derivatives(delta),
        }
    }

    /// Equation of state that the properties follow from.
    pub fn equation(&self) -> &'e Equation {
        self.equation
    }

    /// Temperature.
    pub fn temperature(&self) -> Temperature {
        Temperature::from_kelvin(self.t)
    }

    /// Density.
    pub fn density(&self) -> Density {
        Density::from_kg_per_m3(self.rho)
    }

    fn r(&self) -> f64 {
        self.equation.specific_gas_constant()
    }

    /// Pressure.
    pub fn pressure(&self) -> Pressure {
        // p = ρ R T (1 + δ αʳδ)
        Pressure::from_pa(self.rho * self.r() * self.t * (1.0 + self.residual.a_d))
    }

    /// Specific internal energy.
    pub fn internal_energy(&self) -> SpecificEnthalpy {
        // u = R T τ (α⁰τ + αʳτ)
        SpecificEnthalpy::from_j_per_kg(self.r() * self.t * (self.ideal.a_t + self.residual.a_t))
    }

    /// Specific enthalpy.
    pub fn enthalpy(&self) -> SpecificEnthalpy {
        // h = R T [1 + τ (α⁰τ + αʳτ) + δ αʳδ]
        let sum = 1.0 + self.ideal.a_t + self.residual.a_t + self.residual.a_d;
        SpecificEnthalpy::from_j_per_kg(self.r() * self.t * sum)
    }

    /// Specific entropy.
    pub fn entropy(&self) -> SpecificEntropy {
        // s = R [τ (α⁰τ + αʳτ) − α⁰ − αʳ]
        let sum = self.ideal.a_t + self.residual.a_t - self.ideal.a - self.ln_delta - self.residual.a;
        SpecificEntropy::from_j_per_kg_k(self.r() * sum)
    }

    /// Specific heat capacity at constant volume, cv.
    pub fn isochoric_heat_capacity(&self) -> SpecificEntropy {
        // cv = −R τ² (α⁰ττ + αʳττ)
        SpecificEntropy::from_j_per_kg_k(-self.r() * (self.ideal.a_tt + self.residual.a_tt))
    }

    /// Specific heat capacity at constant pressure, cp.
    pub fn isobaric_heat_capacity(&self) -> SpecificEntropy {
        // cp = cv + R (1 + δ αʳδ − δ τ αʳδτ)²/(1 + 2 δ αʳδ + δ² αʳδδ)
        let (pull, push) = (self.thermal(), self.mechanical());
        SpecificEntropy::from_si(self.isochoric_heat_capacity().si() + self.r() * pull * pull / push)
    }

    /// Speed of sound, m/s.
    pub fn speed_of_sound_m_per_s(&self) -> f64 {
        // w² = R T [1 + 2 δ αʳδ + δ² αʳδδ − (1 + δ αʳδ − δ τ αʳδτ)²/(τ² (α⁰ττ + αʳττ))]
        let (pull, push) = (self.thermal(), self.mechanical());
        let curvature = self.ideal.a_tt + self.residual.a_tt;
        (self.r() * self.t * (push - pull * pull / curvature)).sqrt()
    }

    /// Joule–Thomson coefficient, K/Pa: change of temperature with pressure at constant enthalpy.
    pub fn joule_thomson_k_per_pa(&self) -> f64 {
        // μ R ρ = −(δ αʳδ + δ² αʳδδ + δ τ αʳδτ)/[(1 + δ αʳδ − δ τ αʳδτ)² − τ² (α⁰ττ + αʳττ)(1 + 2 δ αʳδ + δ² αʳδδ)]
        let (pull, push) = (self.thermal(), self.mechanical());
        let curvature = self.ideal.a_tt + self.residual.a_tt;
        let above = self.residual.a_d + self.residual.a_dd + self.residual.a_dt;
        -above / (pull * pull - curvature * push) / (self.r() * self.rho)
    }

    /// Fugacity: pressure of the ideal gas with the same temperature and chemical potential.
    pub fn fugacity(&self) -> Pressure {
        // ln(f/p) = αʳ + δ αʳδ − ln(1 + δ αʳδ), so f = ρ R T exp(αʳ + δ αʳδ)
        let log = self.residual.a + self.residual.a_d;
        Pressure::from_pa(self.rho * self.r() * self.t * log.exp())
    }

    /// ∂p/∂ρ at constant temperature, J/kg.
    pub(super) fn dp_drho(&self) -> f64 {
        // R T (1 + 2 δ αʳδ + δ² αʳδδ)
        self.r() * self.t * self.mechanical()
    }

    /// ∂p/∂T at constant density, Pa/K.
    pub(super) fn dp_dt(&self) -> f64 {
        // ρ R (1 + δ αʳδ − δ τ αʳδτ)
        self.rho * self.r() * self.thermal()
    }

    fn thermal(&self) -> f64 {
        1.0 + self.residual.a_d - self.residual.a_dt
    }

    fn mechanical(&self) -> f64 {
        1.0 + 2.0 * self.residual.a_d + self.residual.a_dd
    }
}
