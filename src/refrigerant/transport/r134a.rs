//! Transport properties of R-134a.

use super::{Conductivity, Correlation, Enhancement, NOT_READ, Tension, Transport, Viscosity};
use super::{polynomial, second_viscosity_virial};
#[cfg(not(feature = "std"))]
use crate::float::Float as _;
use crate::quantity::Density;
use crate::{Pressure, Range, Source, Temperature, Trust};

pub(super) const TRANSPORT: Transport = Transport {
    viscosity: Viscosity {
        correlation: Correlation {
            temperatures: Range::new(Temperature::from_kelvin(169.85), Temperature::from_kelvin(438.0)),
            gas: None,
            // densest state of the equation of state, 15 600 mol/m³
            densest: Some(Density::from_kg_per_m3(15_600.0 * MOLAR_MASS)),
            highest: Some(Pressure::from_mpa(70.0)),
            uncertainty: NOT_READ,
            source: Source {
                work: "D. Velliadou, M. J. Assael, M. L. Huber, Reference Correlation for the Viscosity of 1,1,1,2-Tetrafluoroethane (R-134a) from the Triple Point to 438 K and up to 70 MPa, Int. J. Thermophys. 43(7) (2022) 105",
                locator: "",
                doi: Some("10.1007/s10765-022-03029-6"),
                trust: Trust::Secondary,
            },
        },
        formula: viscosity,
    },
    // The report gives the coefficient of T as 8.00982, without its exponent of ten, so those who carry it note; the
    // range of the report is not known here, and that of the viscosity in the enhancement stands for it. With a
    // critical density of 508 or 515.25 kg/m³, as some carry it, the enhancement misses the values its authors'
    // institute publishes.
    conductivity: Conductivity {
        correlation: Correlation {
            temperatures: Range::new(Temperature::from_kelvin(169.85), Temperature::from_kelvin(438.0)),
            gas: None,
            densest: Some(Density::from_kg_per_m3(15_600.0 * MOLAR_MASS)),
            highest: Some(Pressure::from_mpa(70.0)),
            uncertainty: NOT_READ,
            source: Source {
                work: "R. A. Perkins, A. Laesecke, J. Howley, M. L. V. Ramires, A. N. Gurova, L. Cusco, Experimental Thermal Conductivity Values for the IUPAC Round-Robin Sample of 1,1,1,2-Tetrafluoroethane (R134a), NISTIR 6605 (2000)",
                locator: "",
                doi: Some("10.6028/NIST.IR.6605"),
                trust: Trust::Secondary,
            },
        },
        background,
        enhancement: Enhancement {
            pc: 4.059_28e6,
            rhoc: 511.9,
            q_d: 1.892_02e9,
            xi0: 0.194e-9,
            gamma0: 0.0496,
            r0: 1.03,
            t_ref: 561.411,
        },
    },
    tension: Some(Tension {
        correlation: Correlation {
            temperatures: Range::new(Temperature::from_kelvin(169.85), Temperature::from_kelvin(374.21)),
            gas: None,
            densest: None,
            highest: None,
            uncertainty: NOT_READ,
            source: super::MULERO,
        },
        a: 0.05801,
        n: 1.241,
    }),
};

/// Molar mass, kg/mol.
const MOLAR_MASS: f64 = 0.102_032;

/// η, Pa s.
fn viscosity(t: f64, rho: f64) -> f64 {
    let cube_root = t.cbrt();
    // η₀ = T^½/[f₁ T exp(−2 T^⅓) + (f₂ + f₃ exp(−T^⅓))/T^⅓ + f₄ exp(−1/T^⅓)], µPa s
    let eta0 = t.sqrt()
        / (-17.294 * t * (-2.0 * cube_root).exp() + (11.15987 + 292.165 * (-cube_root).exp()) / cube_root
            - 0.296506 * (-1.0 / cube_root).exp());
    // η₁ = η₀ B_η/M
    let eta1 = eta0 * second_viscosity_virial(t, 277.99, 0.48499e-9) / MOLAR_MASS;
    // Δη = ρᵣ^⅔ Tᵣ^½ (c₀ + c₁ ρᵣ + c₂ ρᵣ⁴/Tᵣ + c₃ ρᵣ¹⁴/Tᵣ²)
    let (tr, r) = (t / 374.21, rho / 511.9);
    let sum = -0.190_498_09 + 14.914096 * r + 2.113_246_1 * r.powi(4) / tr + 1.861_163_5e-5 * r.powi(14) / (tr * tr);
    (eta0 + eta1 * rho + r.cbrt().powi(2) * tr.sqrt() * sum) * 1e-6
}

/// λ without enhancement, W/(m K).
fn background(t: f64, rho: f64) -> f64 {
    // λ₀ = a₀ + a₁ T
    let dilute = -1.05248e-2 + 8.00982e-5 * t;
    // Δλ = λred Σ bᵢ (ρ/ρred)ⁱ, ρred = 5.049 886 mol/dm³
    let r = rho / (5049.886 * MOLAR_MASS);
    dilute + 2.055e-3 * polynomial(&[0.0, 1.836526, 5.126143, -1.436883, 0.6261441], r)
}
