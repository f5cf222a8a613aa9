//! Transport properties of R-290.

use super::{Conductivity, Correlation, Enhancement, NOT_READ, Transport, Viscosity, polynomial};
#[cfg(not(feature = "std"))]
use crate::float::Float as _;
use crate::quantity::Density;
use crate::{Pressure, Range, Source, Temperature, Trust};

pub(super) const TRANSPORT: Transport = Transport {
    viscosity: Viscosity {
        correlation: Correlation {
            temperatures: Range::new(Temperature::from_kelvin(85.525), Temperature::from_kelvin(650.0)),
            gas: None,
            // densest state of the equation of state, 20 600 mol/m³
            densest: Some(Density::from_kg_per_m3(20_600.0 * MOLAR_MASS)),
            highest: Some(Pressure::from_mpa(100.0)),
            uncertainty: "k = 2: 0.5 % up to 0.2 MPa between 273 K and 625 K; 1.5 % for the vapour from 273 K and the supercritical fluid to 423 K and 30 MPa; up to 3 % near the critical point; 4 % where data are less reliable, 6 % where there are none",
            source: Source {
                work: "E. Vogel, S. Herrmann, New Formulation for the Viscosity of Propane, J. Phys. Chem. Ref. Data 45(4) (2016) 043103",
                locator: "",
                doi: Some("10.1063/1.4966928"),
                trust: Trust::Secondary,
            },
        },
        formula: viscosity,
    },
    conductivity: Conductivity {
        correlation: Correlation {
            temperatures: Range::new(Temperature::from_kelvin(86.0), Temperature::from_kelvin(600.0)),
            gas: None,
            densest: Some(Density::from_kg_per_m3(20_600.0 * MOLAR_MASS)),
            highest: Some(Pressure::from_mpa(70.0)),
            uncertainty: NOT_READ,
            source: Source {
                work: "K. N. Marsh, R. A. Perkins, M. L. V. Ramires, Measurement and Correlation of the Thermal Conductivity of Propane from 86 K to 600 K at Pressures to 70 MPa, J. Chem. Eng. Data 47(4) (2002) 932-940",
                locator: "",
                doi: Some("10.1021/je010001m"),
                trust: Trust::Secondary,
            },
        },
        background,
        enhancement: Enhancement {
            pc: 4.2512e6,
            rhoc: REDUCING_DENSITY,
            q_d: 1.0 / 7.16635e-10,
            xi0: 0.194e-9,
            gamma0: 0.0496,
            r0: 1.03,
            t_ref: 554.73,
        },
    },
    tension: None,
};

/// Molar mass, kg/mol.
const MOLAR_MASS: f64 = 0.044_095_62;
/// Reducing density, kg/m³: 5 mol/dm³. Some print the conductivity with 220.3, which is 0.24 % high for the liquid at
/// 200 K.
const REDUCING_DENSITY: f64 = 220.478;

/// (n, exponent of δ, exponent of τ).
type Term = (f64, i32, i32);

/// η, Pa s.
fn viscosity(t: f64, rho: f64) -> f64 {
    const POLYNOMIAL: [Term; 7] = [
        (1.251_460_362_832_0e1, 1, 0),
        (1.592_218_398_054_5, 2, 0),
        (-1.797_657_085_523_3e-2, 4, 3),
        (9.976_981_832_743_7e-2, 7, 0),
        (1.036_143_481_068_3e-5, 14, 2),
        (-1.486_388_414_011_7e-9, 19, 6),
        (4.840_568_643_174_0e-10, 20, 6),
    ];
    const EXPONENTIAL: [Term; 4] = [
        (-1.302_966_587_880_6e1, 1, 1),
        (1.873_412_569_808_9, 1, 2),
        (2.330_389_447_448_3, 4, 1),
        (3.463_119_249_675_7, 5, 0),
    ];
    // (n, β, ε)
    const CRITICAL: [(f64, f64, f64); 2] = [(3.258_739_657_317_4, 20.0, 250.0), (2.172_493_104_878_3e-1, 100.0, 100.0)];
    let (tr, delta) = (t / 369.89, rho / REDUCING_DENSITY);
    let tau = 1.0 / tr;
    // η₀ = Σ aᵢ Tᵣⁱ, µPa s
    let dilute = polynomial(
        &[0.0, 9.930_129_711_540_6, 7.265_879_809_624_8e-1, -7.469_250_674_442_7e-1, 1.015_633_457_277_4e-1],
        tr,
    );
    let sum = |terms: &[Term]| terms.iter().map(|&(n, d, t)| n * delta.powi(d) * tau.powi(t)).sum::<f64>();
    // Σ n δ τ exp[−β (δ − 1)² − ε |τ − 1|]
    let critical: f64 = CRITICAL
        .iter()
        .map(|&(n, beta, epsilon)| {
            n * delta * tau * (-beta * (delta - 1.0).powi(2) - epsilon * (tau - 1.0).abs()).exp()
        })
        .sum();
    // η = η₀ + Σ n δᵈ τᵗ + exp(−δ) Σ n δᵈ τᵗ + critical terms
    (dilute + sum(&POLYNOMIAL) + (-delta).exp() * sum(&EXPONENTIAL) + critical) * 1e-6
}

/// λ without enhancement, W/(m K).
fn background(t: f64, rho: f64) -> f64 {
    const B1: [f64; 6] = [0.0, -3.695e-2, 0.148658, -0.119986, 4.12431e-2, -4.86905e-3];
    const B2: [f64; 6] = [0.0, 4.82798e-2, -0.135636, 0.117588, -4.36911e-2, 6.16079e-3];
    let (tr, r) = (t / 369.85, rho / REDUCING_DENSITY);
    // λ₀ = a₀ + a₁ Tᵣ + a₂ Tᵣ²
    let dilute = polynomial(&[-1.24778e-3, 8.16371e-3, 1.99374e-2], tr);
    // Δλ = Σ (B₁ᵢ + B₂ᵢ Tᵣ) ρᵣⁱ
    dilute + polynomial(&B1, r) + tr * polynomial(&B2, r)
}
