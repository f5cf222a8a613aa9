//! Transport properties of R-744.

use super::{Conductivity, Correlation, Enhancement, NOT_READ, Tension, Transport, Viscosity};
use super::{polynomial, second_viscosity_virial};
#[cfg(not(feature = "std"))]
use crate::float::Float as _;
use crate::quantity::Density;
use crate::{Pressure, Range, Source, Temperature, Trust};

pub(super) const TRANSPORT: Transport = Transport {
    viscosity: Viscosity {
        correlation: Correlation {
            temperatures: Range::new(Temperature::from_kelvin(220.0), Temperature::from_kelvin(700.0)),
            // the publication says gaseous and no density; the critical density is our reading of it
            gas: Some((
                Density::from_kg_per_m3(467.6),
                Range::new(Temperature::from_kelvin(100.0), Temperature::from_kelvin(2000.0)),
            )),
            // the publication goes along the melting line to 8000 MPa; the equation of state ends at 37 240 mol/m³
            densest: Some(Density::from_kg_per_m3(37_240.0 * MOLAR_MASS)),
            highest: None,
            uncertainty: NOT_READ,
            source: Source {
                work: "A. Laesecke, C. D. Muzny, Reference Correlation for the Viscosity of Carbon Dioxide, J. Phys. Chem. Ref. Data 46(1) (2017) 013107",
                locator: "without critical enhancement",
                doi: Some("10.1063/1.4977429"),
                trust: Trust::Secondary,
            },
        },
        formula: viscosity,
    },
    conductivity: Conductivity {
        correlation: Correlation {
            temperatures: Range::new(Temperature::from_kelvin(216.592), Temperature::from_kelvin(1100.0)),
            gas: None,
            densest: Some(Density::from_kg_per_m3(37_240.0 * MOLAR_MASS)),
            highest: Some(Pressure::from_mpa(200.0)),
            uncertainty: "95 %: 1 % below 0.1 MPa between 300 K and 700 K, up to 5 % at the higher pressures",
            source: Source {
                work: "M. L. Huber, E. A. Sykioti, M. J. Assael, R. A. Perkins, Reference Correlation of the Thermal Conductivity of Carbon Dioxide from the Triple Point to 1100 K and up to 200 MPa, J. Phys. Chem. Ref. Data 45(1) (2016) 013102",
                locator: "",
                doi: Some("10.1063/1.4940892"),
                trust: Trust::Secondary,
            },
        },
        background,
        enhancement: Enhancement {
            pc: 7.3773e6,
            rhoc: 467.6,
            q_d: 1.0 / 4.0e-10,
            xi0: 1.5e-10,
            gamma0: 0.052,
            r0: 1.02,
            t_ref: 456.19,
        },
    },
    tension: Some(Tension {
        correlation: Correlation {
            temperatures: Range::new(Temperature::from_kelvin(216.592), Temperature::from_kelvin(304.128)),
            gas: None,
            densest: None,
            highest: None,
            uncertainty: NOT_READ,
            source: super::MULERO,
        },
        a: 0.07863,
        n: 1.254,
    }),
};

/// Molar mass, kg/mol.
const MOLAR_MASS: f64 = 0.044_009_5;

/// η, Pa s.
fn viscosity(t: f64, rho: f64) -> f64 {
    let cube_root = t.cbrt();
    // η₀ = 1.0055 T^½/[a₀ + a₁ T^⅙ + a₂ exp(a₃ T^⅓) + (a₄ + a₅ T^⅓)/exp(T^⅓) + a₆ T^½], mPa s
    let eta0 = 1.0055 * t.sqrt()
        / (1_749.354_893_188_35 - 369.069_300_007_128 * cube_root.sqrt()
            + 5_423_856.348_876_91 * (-2.212_838_521_683_56 * cube_root).exp()
            + (-269_503.247_933_569 + 73_145.021_531_826 * cube_root) * (-cube_root).exp()
            + 5.343_686_495_092_78 * t.sqrt());
    // η₁ = η₀ B_η/M
    let eta1 = eta0 * second_viscosity_virial(t, 200.76, 0.378421e-9) / MOLAR_MASS;
    // Δη = η_tL {c₁ Tᵣ ρᵣ³ + (ρᵣ² + ρᵣ^γ)/(Tᵣ − c₂)}, reduced by the triple point and its liquid;
    // η_tL = ρ_tL^⅔ (R Tt)^½/(M^⅙ N_A^⅓), mPa s
    let (tr, r) = (t / 216.592, rho / 1178.53);
    let sum =
        0.360_603_235_428_487 * tr * r.powi(3) + (r * r + r.powf(8.062_827_374_812_77)) / (tr - 0.121_550_806_591_497);
    (eta0 + eta1 * rho + 0.094_360_581_942_539_2 * sum) * 1e-3
}

/// λ without enhancement, W/(m K).
fn background(t: f64, rho: f64) -> f64 {
    const B1: [f64; 7] = [0.0, 1.00128e-2, 5.60488e-2, -8.11620e-2, 6.24337e-2, -2.06336e-2, 2.53248e-3];
    const B2: [f64; 7] = [0.0, 4.30829e-3, -3.58563e-2, 6.71480e-2, -5.22855e-2, 1.74571e-2, -1.96414e-3];
    let (tr, r) = (t / 304.1282, rho / 467.6);
    // λ₀ = Tᵣ^½/(L₀ + L₁/Tᵣ + L₂/Tᵣ² + L₃/Tᵣ³), mW/(m K)
    let dilute =
        tr.sqrt() / polynomial(&[1.518_743_07e-2, 2.806_740_40e-2, 2.285_641_90e-2, -7.416_242_10e-3], 1.0 / tr);
    // Δλ = Σ (B₁ᵢ + B₂ᵢ Tᵣ) ρᵣⁱ, W/(m K)
    1e-3 * dilute + polynomial(&B1, r) + tr * polynomial(&B2, r)
}

#[cfg(test)]
mod tests {
    use approx::assert_abs_diff_eq;

    /// Table 6 of the publication has one value at 10 000 K, far above the range, which pins the limit of high
    /// temperature.
    #[test]
    fn the_formula_extrapolates_as_published() {
        // half its last digit
        assert_abs_diff_eq!(super::viscosity(10_000.0, 0.0) * 1e3, 0.17620, epsilon = 0.5e-5);
    }
}
