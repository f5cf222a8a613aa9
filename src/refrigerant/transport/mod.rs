//! Viscosity, thermal conductivity and surface tension, from published correlations.
//!
//! None of them follows from the equation of state; each has a correlation of its own, fitted to measurements. Their variables are
//! temperature and density, so the density must come from an equation of state.
//!
//! One file for each fluid holds the formulas as published. This file holds what they share: the initial density dependence of
//! the viscosity after Rainwater and Friend, and the critical enhancement of the conductivity after Olchowy and Sengers.
//!
//! # Near the critical point
//!
//! Thermal conductivity diverges at the critical point. The enhancement here is the simplified one that the publications use: a
//! closed form in place of the full crossover theory, in the correlation length ξ = ξ₀ (Δχ/Γ)^(ν/γ), which is taken from the
//! compressibility of the equation of state. It is zero wherever the compressibility does not exceed its residual at a reference
//! temperature, about 1.5 times the critical one. It therefore inherits the errors of the equation in cp and ∂ρ/∂p, which are
//! largest where the enhancement is, and depends on the viscosity in its denominator: with the older viscosity of R-134a the
//! conductivity at 380 K and 511.9 kg/m³ comes out 2 % different. Viscosities have no critical enhancement; that of R-744 is
//! published and left out, as in the publication's own check values. It matters only within about 1 % of the critical temperature.

mod r1234yf;
mod r134a;
mod r290;
mod r744;

use core::f64::consts::PI;

use super::Refrigerant;
#[cfg(not(feature = "std"))]
use crate::float::Float as _;
use crate::helmholtz::{Equation, State};
use crate::quantity::{Density, DynamicViscosity, SurfaceTension, ThermalConductivity};
use crate::{Error, Pressure, Quantity, Range, Source, Temperature, Trust};

/// Boltzmann's constant, J/K, exact in the SI of 2019.
const BOLTZMANN: f64 = 1.380_649e-23;
/// Avogadro's constant, 1/mol, exact in the SI of 2019.
const AVOGADRO: f64 = 6.022_140_76e23;

/// Published correlation of a transport property or surface tension: range of validity, uncertainty and source.
///
/// ```
/// use satline::{Refrigerant, Temperature};
/// let viscosity = Refrigerant::R134a.viscosity_correlation().unwrap();
/// assert!(viscosity.temperatures.contains(Temperature::from_celsius(60.0)));
/// assert_eq!(viscosity.source.doi, Some("10.1007/s10765-022-03029-6"));
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub struct Correlation {
    /// Temperature range of validity.
    pub temperatures: Range<Temperature>,
    /// Density below which the fluid is treated as a gas, and the wider temperature range that holds there.
    pub gas: Option<(Density, Range<Temperature>)>,
    /// Upper limit of density; `None` for a property of the saturated liquid.
    pub densest: Option<Density>,
    /// Upper limit of pressure, by the equation of state at the temperature and density; `None` if only density is
    /// limited.
    pub highest: Option<Pressure>,
    /// Uncertainty in the words of the publication, or the reason why none is given.
    pub uncertainty: &'static str,
    /// Publication of the correlation.
    pub source: Source,
}

/// Uncertainty of a publication that was not read where it states one.
const NOT_READ: &str = "not known here: the coefficients and check values were read, not the page that states it";

/// Publication of the surface tensions.
const MULERO: Source = Source {
    work: "A. Mulero, I. Cachadiña, M. I. Parra, Recommended Correlations for the Surface Tension of Common Fluids, J. Phys. Chem. Ref. Data 41 (2012) 043105",
    locator: "",
    doi: Some("10.1063/1.4768782"),
    trust: Trust::Secondary,
};

/// Published correlations of one fluid.
struct Transport {
    viscosity: Viscosity,
    conductivity: Conductivity,
    tension: Option<Tension>,
}

/// η(T, ρ).
struct Viscosity {
    correlation: Correlation,
    /// Pa s, from K and kg/m³.
    formula: fn(f64, f64) -> f64,
}

/// λ(T, ρ) without, and the parameters of, the critical enhancement.
struct Conductivity {
    correlation: Correlation,
    /// W/(m K), from K and kg/m³.
    background: fn(f64, f64) -> f64,
    enhancement: Enhancement,
}

/// σ = a (1 − T/Tc)ⁿ.
struct Tension {
    correlation: Correlation,
    /// N/m.
    a: f64,
    n: f64,
}

/// Parameters of the simplified critical enhancement, in SI units.
struct Enhancement {
    /// Critical pressure, Pa.
    pc: f64,
    /// Critical density, kg/m³.
    rhoc: f64,
    /// Cut-off wave number, 1/m.
    q_d: f64,
    /// Amplitude of the correlation length, m.
    xi0: f64,
    /// Amplitude of the compressibility.
    gamma0: f64,
    /// Amplitude of the theory.
    r0: f64,
    /// Reference temperature, K.
    t_ref: f64,
}

/// Critical exponents of the correlation length and of the compressibility.
const NU: f64 = 0.63;
const GAMMA: f64 = 1.239;

/// Properties of the state that the enhancement needs, in SI units.
struct Surroundings {
    t: f64,
    rho: f64,
    eta: f64,
    cp: f64,
    cv: f64,
    /// ∂p/∂ρ at constant temperature, J/kg, at T and at the reference temperature.
    slope: f64,
    slope_ref: f64,
}

impl Enhancement {
    /// λc, W/(m K).
    fn at(&self, s: &Surroundings) -> f64 {
        // Δχ = pc ρ/ρc² [∂ρ/∂p(T, ρ) − (Tref/T) ∂ρ/∂p(Tref, ρ)]
        let excess = 1.0 / s.slope - self.t_ref / s.t / s.slope_ref;
        let chi = self.pc * s.rho / (self.rhoc * self.rhoc) * excess;
        if chi.is_nan() || chi <= 0.0 {
            return 0.0;
        }
        // ξ = ξ₀ (Δχ/Γ)^(ν/γ)
        let xi = self.xi0 * (chi / self.gamma0).powf(NU / GAMMA);
        let y = self.q_d * xi;
        // Ω = (2/π) [(cp − cv)/cp arctan(qD ξ) + (cv/cp) qD ξ]
        let omega = 2.0 / PI * ((s.cp - s.cv) / s.cp * y.atan() + s.cv / s.cp * y);
        // Ω₀ = (2/π) {1 − exp[−1/(1/(qD ξ) + (qD ξ ρc/ρ)²/3)]}
        let thinning = y * self.rhoc / s.rho;
        let omega0 = -2.0 / PI * (-1.0 / (1.0 / y + thinning * thinning / 3.0)).exp_m1();
        // λc = ρ cp R₀ k T/(6 π η ξ) (Ω − Ω₀)
        s.rho * s.cp * self.r0 * BOLTZMANN * s.t / (6.0 * PI * s.eta * xi) * (omega - omega0)
    }
}

/// Second viscosity virial coefficient B_η of Rainwater and Friend, m³/mol.
///
/// B_η = N_A σ³ Σ bᵢ T*^tᵢ with T* = T/(ε/k), the exponents 0, −1/4, … −3/2, −5/2, −11/2. Coefficients of Vogel,
/// Küchenmeister, Bich & Laesecke, J. Phys. Chem. Ref. Data 27 (1998) 947, doi 10.1063/1.556025, as carried by others
/// with each of the viscosities here.
fn second_viscosity_virial(t: f64, eps_over_k: f64, sigma_m: f64) -> f64 {
    const B: [f64; 7] = [-19.572881, 219.73999, -1015.3226, 2471.0125, -3375.1717, 2491.6597, -787.26086];
    const B_10: f64 = 14.085455;
    const B_22: f64 = -0.34664158;
    // q = T*^(−1/4)
    let q = (eps_over_k / t).sqrt().sqrt();
    let sum = B.iter().rev().fold(0.0, |sum, b| sum * q + b) + B_10 * q.powi(10) + B_22 * q.powi(22);
    AVOGADRO * sigma_m * sigma_m * sigma_m * sum
}

/// Σ cᵢ xⁱ, i from 0.
fn polynomial(coefficients: &[f64], x: f64) -> f64 {
    coefficients.iter().rev().fold(0.0, |sum, c| sum * x + c)
}

/// Wording of the errors of one property.
struct Words {
    property: &'static str,
    temperature: &'static str,
    density: &'static str,
    pressure: &'static str,
}

const VISCOSITY: Words = Words {
    property: "a viscosity correlation of this refrigerant",
    temperature: "temperature for viscosity",
    density: "density for viscosity",
    pressure: "pressure for viscosity",
};

const CONDUCTIVITY: Words = Words {
    property: "a thermal conductivity correlation of this refrigerant",
    temperature: "temperature for thermal conductivity",
    density: "density for thermal conductivity",
    pressure: "pressure for thermal conductivity",
};

impl Words {
    fn missing(&self) -> Error {
        Error::Missing {
            what: self.property,
            way_out: "R-134a, R-1234yf, R-744 and R-290 have one; take the value of another from a source you trust",
        }
    }
}

impl Correlation {
    /// Checks that the correlation is valid at `t` and `rho`; the pressure is computed only where it is limited and the
    /// others are not already outside.
    fn guard(&self, words: &Words, t: Temperature, rho: Density, p: impl FnOnce() -> Pressure) -> Result<(), Error> {
        let temperatures = match self.gas {
            Some((limit, wider)) if rho < limit => wider,
            _ => self.temperatures,
        };
        if !temperatures.contains(t) {
            return Err(outside(words.temperature, t.celsius(), temperatures, "°C"));
        }
        let densest = self.densest.map_or(f64::MAX, Density::si);
        if !(0.0..=densest).contains(&rho.si()) {
            let (what, value) = (words.density, rho.kg_per_m3());
            return Err(Error::OutOfRange { what, value, low: 0.0, high: densest, unit: "kg/m³" });
        }
        let Some(highest) = self.highest else { return Ok(()) };
        // the liquid may be under tension between its saturation line and the spinodal, so there is no lower limit
        let p = p();
        // 1e-9: a state at the limit may give its pressure back a last place above it
        if p.pa().is_nan() || p.pa() > highest.pa() * (1.0 + 1e-9) {
            let (what, value) = (words.pressure, p.mpa());
            return Err(Error::OutOfRange { what, value, low: 0.0, high: highest.mpa(), unit: "MPa" });
        }
        Ok(())
    }
}

fn outside(what: &'static str, celsius: f64, range: Range<Temperature>, unit: &'static str) -> Error {
    Error::OutOfRange { what, value: celsius, low: range.low.celsius(), high: range.high.celsius(), unit }
}

/// ∂p/∂ρ at constant temperature, J/kg.
fn slope(state: &State<'_>) -> f64 {
    // w² = (cp/cv) ∂p/∂ρ
    let w = state.speed_of_sound_m_per_s();
    w * w * state.isochoric_heat_capacity().si() / state.isobaric_heat_capacity().si()
}

/// Transport properties and surface tension, for which a published correlation with check values is at hand: of R-134a,
/// R-1234yf, R-744 and R-290, the last without surface tension.
///
/// ```
/// use approx::assert_abs_diff_eq;
/// use satline::{Pressure, Refrigerant, Temperature};
/// let r = Refrigerant::R134a;
/// let liquid = r.state(Pressure::from_kpa(1500.0), Temperature::from_celsius(45.0))?;
/// let eta = r.viscosity(liquid.temperature(), liquid.density())?;
/// let lambda = r.thermal_conductivity(&liquid)?;
/// let prandtl = eta.pa_s() * liquid.isobaric_heat_capacity().j_per_kg_k() / lambda.w_per_m_k();
/// assert!((3.0..3.5).contains(&prandtl));
/// let sigma = r.surface_tension(Temperature::from_celsius(45.0))?;
/// assert_abs_diff_eq!(sigma.mn_per_m(), 5.50, epsilon = 0.05); // within 1 %: our choice
/// # Ok::<(), satline::Error>(())
/// ```
impl Refrigerant {
    /// Dynamic viscosity at temperature `t` and density `rho`.
    ///
    /// - **Equation** η = η₀(T) [1 + B_η(T) ρ] + Δη(T, ρ), the terms as published; without critical enhancement.
    /// - **Range** [`Refrigerant::viscosity_correlation`]. The phase is not checked: between the saturated densities the
    ///   formula continues smoothly and describes no real fluid. Nor is a solid recognised.
    /// - **Accuracy** [`Correlation::uncertainty`]; the check values come out to their last digit.
    /// - **Source** R-134a: Velliadou, Assael & Huber 2022; R-1234yf: Huber & Assael 2016; R-744: Laesecke & Muzny
    ///   2017; R-290: Vogel & Herrmann 2016.
    ///
    /// The NIST Chemistry WebBook has an older correlation of R-134a, which is 1.4 % lower for saturated liquid at 250
    /// K and 10 % higher at 185 K.
    ///
    /// # Errors
    /// [`Error::Missing`] for a refrigerant without a correlation here; [`Error::OutOfRange`] outside the range.
    ///
    /// ```
    /// use approx::assert_abs_diff_eq;
    /// use satline::quantity::Density;
    /// use satline::{Refrigerant, Temperature};
    /// let eta = Refrigerant::R134a.viscosity(Temperature::from_kelvin(350.0), Density::from_kg_per_m3(1000.0))?;
    /// assert_abs_diff_eq!(eta.upa_s(), 107.98464, epsilon = 5e-6); // Velliadou et al. 2022, section 3, half its last digit
    /// # Ok::<(), satline::Error>(())
    /// ```
    pub fn viscosity(self, t: Temperature, rho: Density) -> Result<DynamicViscosity, Error> {
        let viscosity = &self.transport().ok_or(VISCOSITY.missing())?.viscosity;
        let pressure = || State::at(&self.fluid().equation, t, rho).pressure();
        viscosity.correlation.guard(&VISCOSITY, t, rho, pressure)?;
        Ok(DynamicViscosity::from_pa_s((viscosity.formula)(t.kelvin(), rho.si())))
    }

    /// Thermal conductivity of this refrigerant at `state`, as returned by [`Refrigerant::state`].
    ///
    /// - **Equation** λ = λ₀(T) + Δλ(T, ρ) + λc, the first two as published; the critical enhancement λc = ρ cp R₀ k
    ///   T/(6 π η ξ) (Ω − Ω₀) after Olchowy & Sengers, simplified, with cp, cv and ∂p/∂ρ = w² cv/cp of the equation of
    ///   state and η of [`Refrigerant::viscosity`].
    /// - **Range** [`Refrigerant::thermal_conductivity_correlation`]. λc grows without bound towards the critical
    ///   point, as the real one does, but at the pace of the equation of state: a value there is an estimate.
    /// - **Accuracy** [`Correlation::uncertainty`]. Check values: of R-744 to their last digit; of R-1234yf within
    ///   0.003 %, since their authors had another viscosity; of R-134a and R-290 there are none in print, exports of
    ///   the NIST Chemistry WebBook agree within 0.02 % up to 270 K and within 0.2 % up to 330 K.
    /// - **Source** R-134a: Perkins et al. 2000; R-1234yf: Perkins & Huber 2011; R-744: Huber et al. 2016; R-290:
    ///   Marsh, Perkins & Ramires 2002.
    ///
    /// # Errors
    /// [`Error::Missing`] for a refrigerant without a correlation here; [`Error::OutOfRange`] outside the range;
    /// [`Error::Impossible`] for a state of another equation than this refrigerant's, and for one so far inside the
    /// two-phase region that pressure falls with density and no single phase exists. Nearer to the saturation lines,
    /// where it would be metastable, a value is returned.
    ///
    /// ```
    /// use approx::assert_abs_diff_eq;
    /// use satline::helmholtz::State;
    /// use satline::quantity::Density;
    /// use satline::{Refrigerant, Temperature};
    /// let r = Refrigerant::R744;
    /// let (t, rho) = (Temperature::from_kelvin(310.0), Density::from_kg_per_m3(400.0));
    /// let lambda = r.thermal_conductivity(&State::at(&r.fluid().equation, t, rho))?;
    /// assert_abs_diff_eq!(lambda.mw_per_m_k(), 73.04, epsilon = 0.005); // Huber et al. 2016, table 7, half its last digit
    /// # Ok::<(), satline::Error>(())
    /// ```
    pub fn thermal_conductivity(self, state: &State<'_>) -> Result<ThermalConductivity, Error> {
        let Transport { viscosity, conductivity, .. } = self.transport().ok_or(CONDUCTIVITY.missing())?;
        self.owns(state)?;
        let (temperature, density) = (state.temperature(), state.density());
        conductivity.correlation.guard(&CONDUCTIVITY, temperature, density, || state.pressure())?;

        let (t, rho) = (temperature.kelvin(), density.si());
        let (cp, cv) = (state.isobaric_heat_capacity().si(), state.isochoric_heat_capacity().si());
        let slope_here = slope(state);
        // the speed of sound, and with it the slope, may not exist
        if !(cv > 0.0 && cp >= cv && slope_here > 0.0) {
            return Err(Error::Impossible {
                what: "one phase of density (kg/m³)",
                value: rho,
                must: "of a density at which it can stay: ask for saturated liquid and vapour one by one",
            });
        }
        let t_ref = Temperature::from_kelvin(conductivity.enhancement.t_ref);
        let critical = conductivity.enhancement.at(&Surroundings {
            t,
            rho,
            eta: (viscosity.formula)(t, rho),
            cp,
            cv,
            slope: slope_here,
            slope_ref: slope(&State::at(state.equation(), t_ref, density)),
        });
        Ok(ThermalConductivity::from_w_per_m_k((conductivity.background)(t, rho) + critical))
    }

    /// Surface tension between liquid and vapour at temperature `t`.
    ///
    /// - **Equation** σ = a (1 − T/Tc)ⁿ.
    /// - **Range** from the triple point to Tc; zero there. The temperature range of the measurements behind it is not
    ///   known here.
    /// - **Accuracy** not known here. Of R-134a and R-744 the NIST Chemistry WebBook shows the same value to its last
    ///   digit (five and two points), of R-1234yf the same institute uses the same a and n.
    /// - **Source** Mulero, Cachadiña & Parra, J. Phys. Chem. Ref. Data 41 (2012) 043105, doi 10.1063/1.4768782, as
    ///   carried by others.
    ///
    /// # Errors
    /// [`Error::Missing`] for a refrigerant without a correlation here; [`Error::AboveCriticalTemperature`];
    /// [`Error::OutOfRange`] below the range.
    ///
    /// ```
    /// use approx::assert_abs_diff_eq;
    /// use satline::{Refrigerant, Temperature};
    /// let sigma = Refrigerant::R134a.surface_tension(Temperature::from_celsius(35.0))?;
    /// assert_abs_diff_eq!(sigma.mn_per_m(), 6.742, epsilon = 0.001); // NIST Chemistry WebBook, its last digit
    /// # Ok::<(), satline::Error>(())
    /// ```
    pub fn surface_tension(self, t: Temperature) -> Result<SurfaceTension, Error> {
        let Some(Tension { correlation, a, n }) = self.transport().and_then(|known| known.tension.as_ref()) else {
            return Err(Error::Missing {
                what: "a surface tension correlation of this refrigerant",
                way_out: "R-134a, R-1234yf and R-744 have one; take the value of another from a source you trust",
            });
        };
        let Range { high: critical, .. } = correlation.temperatures;
        if t > critical {
            return Err(Error::AboveCriticalTemperature {
                refrigerant: self.designation().into(),
                celsius: t.celsius(),
                critical_celsius: critical.celsius(),
            });
        }
        if !correlation.temperatures.contains(t) {
            return Err(outside("temperature for surface tension", t.celsius(), correlation.temperatures, "°C"));
        }
        // σ = a (1 − T/Tc)ⁿ
        Ok(SurfaceTension::from_n_per_m(a * (1.0 - t.kelvin() / critical.kelvin()).powf(*n)))
    }

    /// Correlation used by [`Refrigerant::viscosity`], with its range of validity, uncertainty and source; `None` if
    /// there is none here.
    pub fn viscosity_correlation(self) -> Option<&'static Correlation> {
        self.transport().map(|known| &known.viscosity.correlation)
    }

    /// Correlation used by [`Refrigerant::thermal_conductivity`], with its range of validity, uncertainty and source;
    /// `None` if there is none here.
    pub fn thermal_conductivity_correlation(self) -> Option<&'static Correlation> {
        self.transport().map(|known| &known.conductivity.correlation)
    }

    /// Correlation used by [`Refrigerant::surface_tension`], with its range of validity and source; `None` if there is
    /// none here.
    pub fn surface_tension_correlation(self) -> Option<&'static Correlation> {
        self.transport().and_then(|known| known.tension.as_ref()).map(|tension| &tension.correlation)
    }

    const fn transport(self) -> Option<&'static Transport> {
        match self {
            Self::R134a => Some(&r134a::TRANSPORT),
            Self::R1234yf => Some(&r1234yf::TRANSPORT),
            Self::R744 => Some(&r744::TRANSPORT),
            Self::R290 => Some(&r290::TRANSPORT),
            _ => None,
        }
    }

    /// Checks that the state is one of this refrigerant's equation.
    fn owns(self, state: &State<'_>) -> Result<(), Error> {
        let (ours, theirs) = (&self.fluid().equation, state.equation());
        let marks = |e: &Equation| [e.molar_mass, e.reducing_temperature, e.reducing_density];
        if marks(ours) == marks(theirs) {
            return Ok(());
        }
        Err(Error::Impossible {
            what: "reducing temperature of the state's equation (K)",
            value: theirs.reducing_temperature,
            must: "that of the refrigerant asked: the state is another fluid's, or of another equation",
        })
    }
}
