//! Transport properties of R-1234yf.

use super::{Conductivity, Correlation, Enhancement, NOT_READ, Tension, Transport, Viscosity};
use super::{polynomial, second_viscosity_virial};
#[cfg(not(feature = "std"))]
use crate::float::Float as _;
use crate::quantity::Density;
use crate::{Pressure, Range, Source, Temperature, Trust};

pub(super) const TRANSPORT: Transport = Transport {
    // Fitted with the equation of state of 2011; for use with that of 2022 its authors' institute left it as it was.
    // The residual part has a pole at 14.749 mol/dm³.
    viscosity: Viscosity {
        correlation: Correlation {
            temperatures: Range::new(Temperature::from_kelvin(220.0), Temperature::from_kelvin(410.0)),
            gas: None,
            densest: Some(Density::from_kg_per_m3(12_000.0 * MOLAR_MASS)),
            highest: Some(Pressure::from_mpa(30.0)),
            uncertainty: "95 %: 2 % for the liquid between 243 K and 363 K up to 30 MPa, 3 % for the gas at atmospheric pressure",
            source: Source {
                work: "M. L. Huber, M. J. Assael, Correlations for the Viscosity of 2,3,3,3-Tetrafluoroprop-1-ene (R1234yf) and trans-1,3,3,3-Tetrafluoropropene (R1234ze(E)), Int. J. Refrig. 71 (2016) 39-45",
                locator: "densest state as in the NIST fluid file NEWR1234YF.FLD, 12 mol/dm3",
                doi: Some("10.1016/j.ijrefrig.2016.08.007"),
                trust: Trust::Secondary,
            },
        },
        formula: viscosity,
    },
    conductivity: Conductivity {
        correlation: Correlation {
            temperatures: Range::new(Temperature::from_kelvin(220.0), Temperature::from_kelvin(410.0)),
            gas: None,
            densest: Some(Density::from_kg_per_m3(12_000.0 * MOLAR_MASS)),
            highest: Some(Pressure::from_mpa(30.0)),
            uncertainty: "1 % for the liquid, 3 % for the vapour below 1 MPa, more in the critical region",
            source: Source {
                work: "R. A. Perkins, M. L. Huber, Measurement and Correlation of the Thermal Conductivity of 2,3,3,3-Tetrafluoroprop-1-ene (R1234yf) and trans-1,3,3,3-Tetrafluoropropene (R1234ze(E)), J. Chem. Eng. Data 56(12) (2011) 4868-4874",
                locator: "range and uncertainty as in the NIST fluid file NEWR1234YF.FLD",
                doi: Some("10.1021/je200811n"),
                trust: Trust::Secondary,
            },
        },
        background,
        enhancement: Enhancement {
            pc: 3.3822e6,
            rhoc: CRITICAL_DENSITY,
            q_d: 1.0 / 5.835e-10,
            xi0: 0.194e-9,
            gamma0: 0.0496,
            r0: 1.03,
            t_ref: 551.775,
        },
    },
    tension: Some(Tension {
        correlation: Correlation {
            // from the lower limit of the equation of state
            temperatures: Range::new(Temperature::from_kelvin(121.6), Temperature::from_kelvin(367.85)),
            gas: None,
            densest: None,
            highest: None,
            uncertainty: NOT_READ,
            source: super::MULERO,
        },
        a: 0.06274,
        n: 1.394,
    }),
};

/// Molar mass, kg/mol.
const MOLAR_MASS: f64 = 0.114_041_6;
/// Reducing temperature, K.
const REDUCING_TEMPERATURE: f64 = 367.85;
/// Reducing density, mol/m³: that of the equation of state of 2011, with which both correlations were fitted; the one
/// of 2022 has 4180.
const REDUCING_DENSITY: f64 = 4170.0;
/// Critical density, kg/m³: [`REDUCING_DENSITY`] with the molar mass of the equation of 2011, 114.041 592 8 g/mol, as
/// used for the conductivity.
const CRITICAL_DENSITY: f64 = 475.553_441_976;

/// η, Pa s.
fn viscosity(t: f64, rho: f64) -> f64 {
    // η₀ = (a₀ + a₁ T + a₂ T² + a₃ T³)/(a₄ + a₅ T + T²), µPa s
    let eta0 = polynomial(&[-836950.0, 6336.28, -2.3547, 0.0395563], t) / polynomial(&[39509.1, 121.018, 1.0], t);
    // η₁ = η₀ B_η, ρ per mole
    let rho_mol = rho / MOLAR_MASS;
    let eta1 = eta0 * second_viscosity_virial(t, 275.0, 0.531e-9);
    // Δη = ρᵣ^⅔ Tᵣ^½ {c₀ + c₁ ρᵣ + c₃ ρᵣ/[Tᵣ (c₇ + ρᵣ)]}
    let (tr, r) = (t / REDUCING_TEMPERATURE, rho_mol / REDUCING_DENSITY);
    let sum = -0.194_259_1 - 2.079_577_245 * r - 43.470_272_88 * r / (tr * (r - 3.536_827_91));
    (eta0 + eta1 * rho_mol + r.cbrt().powi(2) * tr.sqrt() * sum) * 1e-6
}

/// λ without enhancement, W/(m K).
fn background(t: f64, rho: f64) -> f64 {
    const B1: [f64; 6] = [0.0, -0.0368219, 0.0883226, -0.0705909, 0.0259026, -0.0032295];
    const B2: [f64; 6] = [0.0, 0.0397166, -0.077239, 0.0664707, -0.0249071, 0.00336228];
    let (tr, r) = (t / REDUCING_TEMPERATURE, rho / CRITICAL_DENSITY);
    // λ₀ = a₀ + a₁ Tᵣ + a₂ Tᵣ²
    let dilute = polynomial(&[-0.0102778, 0.0291098, 0.000860643], tr);
    // Δλ = Σ (B₁ᵢ + B₂ᵢ Tᵣ) ρᵣⁱ
    dilute + polynomial(&B1, r) + tr * polynomial(&B2, r)
}
