//! States of a refrigerant from its equation of state, of one phase or two.

use super::{Fluid, Refrigerant};
#[cfg(not(feature = "std"))]
use crate::float::Float as _;
use crate::helmholtz::terms::{Boundary, Crossing, Equilibrium};
use crate::helmholtz::{Phases, Saturated, State};
use crate::quantity::{Density, SpecificEnthalpy, SpecificEntropy};
use crate::{Error, Pressure, Quantity, Ratio, Temperature};

/// Properties from the equation of state.
///
/// - **Equation** [`Fluid::equation`]; of a blend the pseudo-pure equation, with the bubble and dew lines published with it.
/// - **Range** [`Limits`](crate::helmholtz::Limits) of the equation, of its temperature, pressure and density. Phases are
///   told apart up to 0.01 K below the critical temperature, of a blend up to the end of its lines
///   ([`Refrigerant::saturation_range`]); above that there is one phase at every pressure.
/// - **Accuracy** that of the equation, as its publication states it; the given properties are reproduced to nine
///   digits.
/// - **Reference state** of enthalpy and entropy 200 kJ/kg and 1 kJ/(kg K) for saturated liquid at 0 °C (IIR).
/// - **Source** [`Equation::source`](crate::helmholtz::Equation::source).
///
/// ```
/// use approx::assert_abs_diff_eq;
/// use satline::{Pressure, Refrigerant, Temperature};
/// let r = Refrigerant::R134a;
/// let suction = r.state(Pressure::from_kpa(300.0), Temperature::from_celsius(10.0))?;
/// let discharge = r.at_entropy(Pressure::from_kpa(1500.0), suction.entropy())?;
/// assert!(discharge.temperature().celsius() > 60.0 && discharge.quality().is_none());
///
/// // through the expansion valve at constant enthalpy
/// let liquid = r.state(Pressure::from_kpa(1500.0), Temperature::from_celsius(50.0))?;
/// let inlet = r.at_enthalpy(Pressure::from_kpa(300.0), liquid.enthalpy())?;
/// assert_abs_diff_eq!(inlet.quality().unwrap().percent(), 35.7, epsilon = 0.1); // its last digit
/// # Ok::<(), satline::Error>(())
/// ```
impl Refrigerant {
    /// Single-phase state at absolute pressure `p` and temperature `t`.
    ///
    /// # Errors
    /// [`Error::OutOfRange`] outside the limits of the equation; [`Error::TwoPhase`] on or between the saturation lines,
    /// where pressure and temperature do not determine the state.
    pub fn state(self, p: Pressure, t: Temperature) -> Result<State<'static>, Error> {
        self.fluid().equation.state(&self.boundary(), p, t)
    }

    /// State at absolute pressure `p` and specific enthalpy `h`, of one phase or two.
    ///
    /// # Errors
    /// [`Error::OutOfRange`] outside the limits of the equation; [`Error::NotFinite`].
    pub fn at_enthalpy(self, p: Pressure, h: SpecificEnthalpy) -> Result<Phases<'static>, Error> {
        self.fluid().equation.at_enthalpy(&self.boundary(), p, h)
    }

    /// State at absolute pressure `p` and specific entropy `s`, of one phase or two.
    ///
    /// # Errors
    /// As [`Refrigerant::at_enthalpy`].
    pub fn at_entropy(self, p: Pressure, s: SpecificEntropy) -> Result<Phases<'static>, Error> {
        self.fluid().equation.at_entropy(&self.boundary(), p, s)
    }

    /// State at temperature `t` and density `rho`, of one phase or two, such as a charge in a vessel.
    ///
    /// # Errors
    /// [`Error::OutOfRange`] outside the limits of the equation, those of pressure too.
    pub fn at_density(self, t: Temperature, rho: Density) -> Result<Phases<'static>, Error> {
        self.fluid().equation.at_density(&self.boundary(), t, rho)
    }

    /// Liquid and vapour in equilibrium at temperature `t`, with vapour quality `quality`.
    ///
    /// # Errors
    /// [`Error::OutsideLimits`] for a quality outside 0 to 1; [`Error::OutOfRange`] for a temperature without two phases.
    pub fn two_phase_at_temperature(self, t: Temperature, quality: Ratio) -> Result<Phases<'static>, Error> {
        let quality = guard_quality(quality)?;
        let (liquid, vapour) = self.saturated_at_temperature(t)?;
        Ok(Phases::Two { quality, liquid, vapour })
    }

    /// Liquid and vapour in equilibrium at absolute pressure `p`, with vapour quality `quality`.
    ///
    /// # Errors
    /// [`Error::OutsideLimits`] for a quality outside 0 to 1; [`Error::OutOfRange`] for a pressure below the saturation lines;
    /// [`Error::Supercritical`].
    pub fn two_phase_at_pressure(self, p: Pressure, quality: Ratio) -> Result<Phases<'static>, Error> {
        let quality = guard_quality(quality)?;
        let (liquid, vapour) = self.saturated_at_pressure(p)?;
        Ok(Phases::Two { quality, liquid, vapour })
    }

    /// Saturated liquid and saturated vapour at temperature `t`: of a pure fluid at one pressure, of a blend at bubble
    /// and dew pressure.
    ///
    /// # Errors
    /// [`Error::OutOfRange`] below the lower limit of the equation and above the temperature up to which phases are
    /// told apart; [`Error::NotConverged`] where the equation of a blend has no liquid on the published bubble line:
    /// R-410A and R-507A in 0.03 K less than 0.1 K below the end of it.
    pub fn saturated_at_temperature(self, t: Temperature) -> Result<(Saturated, Saturated), Error> {
        let boundary = self.boundary();
        boundary.on_curve(t).map_or_else(|| boundary.saturated(t), Ok)
    }

    /// Saturated liquid and saturated vapour at absolute pressure `p`: of a blend at bubble and dew temperature.
    ///
    /// # Errors
    /// [`Error::OutOfRange`] below the saturation lines; [`Error::Supercritical`] above the critical pressure, or so close
    /// below it that the phases are not told apart.
    pub fn saturated_at_pressure(self, p: Pressure) -> Result<(Saturated, Saturated), Error> {
        let critical = self.fluid().equation.critical_pressure;
        match self.boundary().at_pressure(p)? {
            Crossing::Between { liquid, vapour } => Ok((liquid, vapour)),
            Crossing::Above => Err(Error::Supercritical {
                refrigerant: self.designation().into(),
                kpa: p.kpa(),
                critical_kpa: critical / 1e3,
            }),
            Crossing::Below | Crossing::UpTo(_) => {
                let (lowest, _) = self.saturated_at_temperature(self.fluid().equation.limits.coldest)?;
                Err(Error::OutOfRange {
                    what: "saturation pressure",
                    value: p.kpa(),
                    low: lowest.pressure.kpa(),
                    high: critical / 1e3,
                    unit: "kPa",
                })
            }
        }
    }

    fn boundary(self) -> Exact {
        Exact { fluid: self.fluid() }
    }
}

fn guard_quality(quality: Ratio) -> Result<Ratio, Error> {
    if (0.0..=1.0).contains(&quality.fraction()) {
        return Ok(quality);
    }
    Err(Error::OutsideLimits { what: "quality", value: quality.percent(), low: 0.0, high: 100.0, unit: "%" })
}

/// Two-phase region by the equation of state: phase equilibrium of a pure fluid, the published lines of a blend.
struct Exact {
    fluid: &'static Fluid,
}

impl Exact {
    /// Highest temperature of the two-phase region.
    fn top(&self) -> Temperature {
        if self.fluid.equation.is_pure {
            Equilibrium::hottest(&self.fluid.equation)
        } else {
            let hottest = Temperature::from_kelvin(self.fluid.equation.critical_temperature - 0.01);
            let end = self.fluid.dew.valid.high;
            if end < hottest { end } else { hottest }
        }
    }

    /// Saturated liquid and vapour at `t`.
    fn saturated(&self, t: Temperature) -> Result<(Saturated, Saturated), Error> {
        let Fluid { equation, bubble, dew, .. } = self.fluid;
        let (low, high) = (equation.limits.coldest, self.top());
        if !(low <= t && t <= high) {
            return Err(Error::OutOfRange {
                what: "saturation temperature",
                value: t.celsius(),
                low: low.celsius(),
                high: high.celsius(),
                unit: "°C",
            });
        }
        if equation.is_pure {
            return Ok(pair(&Equilibrium::at(equation, t)?));
        }
        let liquid = equation.liquid_at(bubble.pressure(t)?, t)?;
        Ok(((&liquid).into(), (&equation.vapour_at(dew.pressure(t)?, t)?).into()))
    }

    fn of_pure(&self, p: Pressure) -> Result<Crossing, Error> {
        let equation = &self.fluid.equation;
        let (mut low, mut high) = (equation.limits.coldest.kelvin(), self.top().kelvin());
        // the short line is right to a hundredth of a kelvin or better
        let line = &self.fluid.dew;
        let mut t = match line.temperature(p) {
            Ok(t) => t.kelvin().clamp(low, high),
            Err(_) => {
                let middle = line.pressure(Temperature::from_kelvin(0.5 * (low + high)))?;
                if p < middle { low } else { high }
            }
        };
        let mut last = f64::INFINITY;
        for _ in 0..100 {
            let both = Equilibrium::at(equation, Temperature::from_kelvin(t))?;
            // ln p is nearly straight in 1/T: d ln p/d(1/T) = −(T²/p) dp/dT
            let miss = (p.pa() / both.pressure().pa()).ln();
            if miss > 0.0 {
                if t >= high {
                    return Ok(if high == self.top().kelvin() { Crossing::Above } else { balanced(&both) });
                }
                low = t;
            } else {
                if t <= low && miss < 0.0 {
                    return Ok(if low == equation.limits.coldest.kelvin() { Crossing::Below } else { balanced(&both) });
                }
                high = t;
            }
            if high - low <= 4.0 * f64::EPSILON * high {
                return Ok(balanced(&both));
            }
            let slope = -t * t / both.pressure().pa() * both.slope_pa_per_kelvin();
            let next = 1.0 / (1.0 / t + miss / slope);
            // settled, or down to the rounding of the equation
            let step = (next - t).abs() / t;
            if step <= 1e-13 || step <= 1e-9 && step >= 0.5 * last {
                return Ok(balanced(&both));
            }
            last = step;
            t = if low <= next && next <= high { next } else { 0.5 * (low + high) };
        }
        Err(Error::NotConverged { solving: "saturation temperature", steps: 100, residual: high - low })
    }

    fn of_blend(&self, p: Pressure) -> Result<Crossing, Error> {
        let Fluid { equation, bubble, dew, .. } = self.fluid;
        let (coldest, top) = (equation.limits.coldest, self.top());
        if p > bubble.pressure(top)? {
            return Ok(Crossing::Above);
        }
        if p < dew.pressure(coldest)? {
            return Ok(Crossing::Below);
        }
        // the bubble line may reach its top at a pressure that the dew line reaches only above it
        let vapour = if p > dew.pressure(top)? { top } else { dew.temperature(p)? };
        let vapour = equation.vapour_at(p, vapour)?;
        if p < bubble.pressure(coldest)? {
            return Ok(Crossing::UpTo((&vapour).into()));
        }
        match equation.liquid_at(p, bubble.temperature(p)?) {
            Ok(liquid) => Ok(Crossing::Between { liquid: (&liquid).into(), vapour: (&vapour).into() }),
            // no liquid on the bubble line: the equation has one phase there
            Err(Error::NotConverged { .. }) => Ok(Crossing::Above),
            Err(error) => Err(error),
        }
    }
}

/// The states of a phase equilibrium; the pressure of the vapour is that of both.
fn pair(both: &Equilibrium) -> (Saturated, Saturated) {
    (Saturated { pressure: both.pressure(), ..both.liquid().into() }, both.vapour().into())
}

fn balanced(both: &Equilibrium) -> Crossing {
    let (liquid, vapour) = pair(both);
    Crossing::Between { liquid, vapour }
}

impl Exact {
    /// Both phases at `t` from the curves; `None` outside their range, or for a blend.
    fn on_curve(&self, t: Temperature) -> Option<(Saturated, Saturated)> {
        let dome = self.fluid.dome?;
        let saturated = |phase: crate::saturation::tables::SaturatedPhase, pressure| Saturated {
            temperature: t,
            pressure,
            density: phase.density,
            enthalpy: phase.enthalpy,
            entropy: phase.entropy,
        };
        let pressure = dome.curve.pressure(t).ok()?;
        Some((saturated(dome.liquid(t).ok()?, pressure), saturated(dome.vapour(t).ok()?, pressure)))
    }
}

/// Two-phase region from the curves in their range, which is all but the last 0.1 K of a pure fluid; else from the
/// equation itself.
impl Boundary for Exact {
    fn at_temperature(&self, t: Temperature) -> Result<Crossing, Error> {
        if let Some((liquid, vapour)) = self.on_curve(t) {
            return Ok(Crossing::Between { liquid, vapour });
        }
        if t > self.top() {
            return Ok(Crossing::Above);
        }
        match self.saturated(t) {
            Ok((liquid, vapour)) => Ok(Crossing::Between { liquid, vapour }),
            // no liquid on the bubble line: the equation has one phase there
            Err(Error::NotConverged { .. }) if !self.fluid.equation.is_pure => Ok(Crossing::Above),
            Err(error) => Err(error),
        }
    }

    fn at_pressure(&self, p: Pressure) -> Result<Crossing, Error> {
        if p.pa() >= self.fluid.equation.critical_pressure {
            return Ok(Crossing::Above);
        }
        if p.si() <= 0.0 || p.si().is_nan() {
            return Err(Error::Impossible { what: "absolute pressure (Pa)", value: p.si(), must: "above zero" });
        }
        let t = self.fluid.dome.and_then(|dome| dome.curve.temperature(p).ok());
        if let Some((mut liquid, mut vapour)) = t.and_then(|t| self.on_curve(t)) {
            (liquid.pressure, vapour.pressure) = (p, p);
            return Ok(Crossing::Between { liquid, vapour });
        }
        if self.fluid.equation.is_pure { self.of_pure(p) } else { self.of_blend(p) }
    }
}
