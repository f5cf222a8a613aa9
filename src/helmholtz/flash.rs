//! Flash calculations: the state from any two properties, robust by construction.
//!
//! Every search runs inside a bracket that holds exactly one solution. Below the critical temperature the saturation
//! boundary determines on which side of it the state lies; on each side pressure rises with density along an isotherm,
//! and enthalpy and entropy rise with temperature along an isobar. Newton's method does the work, the bracket keeps it
//! on its branch, and the result is checked before it is returned.

use super::{Equation, Isotherm, State};
#[cfg(not(feature = "std"))]
use crate::float::Float as _;
use crate::numeric::bisect;
use crate::quantity::{Density, SpecificEnthalpy, SpecificEntropy};
use crate::{Error, Pressure, Quantity, Ratio, Temperature};

/// Properties of saturated liquid or saturated vapour.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Saturated {
    /// Temperature.
    pub temperature: Temperature,
    /// Pressure.
    pub pressure: Pressure,
    /// Density.
    pub density: Density,
    /// Specific enthalpy.
    pub enthalpy: SpecificEnthalpy,
    /// Specific entropy.
    pub entropy: SpecificEntropy,
}

impl From<&State<'_>> for Saturated {
    fn from(state: &State<'_>) -> Self {
        Self {
            temperature: state.temperature(),
            pressure: state.pressure(),
            density: state.density(),
            enthalpy: state.enthalpy(),
            entropy: state.entropy(),
        }
    }
}

/// Intersection of an isotherm or isobar with the two-phase region.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Crossing {
    /// No intersection: above the critical point, or too close below it to tell the phases apart.
    Above,
    /// No intersection: below the lowest saturation pressure, vapour throughout.
    Below,
    /// Two-phase region crossed from liquid to vapour.
    Between {
        /// Saturated liquid at the bubble point.
        liquid: Saturated,
        /// Saturated vapour at the dew point.
        vapour: Saturated,
    },
    /// Two-phase region from the lower limit of the equation up to this vapour: the bubble point of a blend may lie
    /// below the limit where its dew point does not.
    UpTo(Saturated),
}

/// Boundary of a fluid's two-phase region, evaluated by a flash before it searches.
///
/// Densities need to be right to one part in a thousand only where a search starts from them, and to the accuracy wanted
/// where the state found is two-phase.
pub trait Boundary {
    /// Saturated liquid and vapour at temperature `t`; [`Crossing::Above`] where there is one phase at every pressure.
    ///
    /// # Errors
    /// Those of the range.
    fn at_temperature(&self, t: Temperature) -> Result<Crossing, Error>;
    /// Saturated liquid and vapour at pressure `p`.
    ///
    /// # Errors
    /// Those of the range.
    fn at_pressure(&self, p: Pressure) -> Result<Crossing, Error>;
}

/// State of one phase or two.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Phases<'e> {
    /// Liquid, vapour or supercritical fluid.
    One(State<'e>),
    /// Saturated liquid and vapour in equilibrium.
    #[non_exhaustive]
    Two {
        /// Vapour quality: mass fraction of vapour.
        quality: Ratio,
        /// Saturated liquid.
        liquid: Saturated,
        /// Saturated vapour.
        vapour: Saturated,
    },
}

impl<'e> Phases<'e> {
    /// Property of the single phase, or of two linear in quality.
    fn of<Q: Quantity>(&self, one: impl Fn(&State<'e>) -> Q, saturated: impl Fn(&Saturated) -> Q) -> Q {
        match self {
            Self::One(state) => one(state),
            Self::Two { quality, liquid, vapour } => {
                let (liquid, vapour) = (saturated(liquid).si(), saturated(vapour).si());
                Q::from_si(liquid + quality.fraction() * (vapour - liquid))
            }
        }
    }
    /// Temperature; of two phases of a blend, linear in quality between bubble and dew point.
    pub fn temperature(&self) -> Temperature {
        self.of(State::temperature, |phase| phase.temperature)
    }
    /// Pressure; of two phases of a blend at given temperature, linear in quality between bubble and dew pressure.
    pub fn pressure(&self) -> Pressure {
        self.of(State::pressure, |phase| phase.pressure)
    }
    /// Density; of two phases, 1/ρ = (1 − x)/ρ′ + x/ρ″ with vapour quality x.
    pub fn density(&self) -> Density {
        match self {
            Self::One(state) => state.density(),
            Self::Two { quality, liquid, vapour } => {
                let (liquid, vapour) = (1.0 / liquid.density.si(), 1.0 / vapour.density.si());
                Density::from_si(1.0 / (liquid + quality.fraction() * (vapour - liquid)))
            }
        }
    }
    /// Specific enthalpy; of two phases, (1 − x) h′ + x h″ with vapour quality x.
    pub fn enthalpy(&self) -> SpecificEnthalpy {
        self.of(State::enthalpy, |phase| phase.enthalpy)
    }
    /// Specific entropy; of two phases, (1 − x) s′ + x s″ with vapour quality x.
    pub fn entropy(&self) -> SpecificEntropy {
        self.of(State::entropy, |phase| phase.entropy)
    }
    /// Vapour quality, by mass; `None` for a single phase.
    pub fn quality(&self) -> Option<Ratio> {
        match self {
            Self::One(_) => None,
            Self::Two { quality, .. } => Some(*quality),
        }
    }
    /// State of the single phase; `None` if there are two.
    pub fn single(&self) -> Option<&State<'e>> {
        match self {
            Self::One(state) => Some(state),
            Self::Two { .. } => None,
        }
    }
}

/// Target of a search along an isobar: enthalpy or entropy.
#[derive(Debug, Clone, Copy)]
enum Aim {
    Enthalpy(f64),
    Entropy(f64),
}

impl Aim {
    fn value(self) -> f64 {
        match self {
            Self::Enthalpy(x) | Self::Entropy(x) => x,
        }
    }

    fn name(self) -> &'static str {
        match self {
            Self::Enthalpy(_) => "enthalpy",
            Self::Entropy(_) => "entropy",
        }
    }

    fn out_of_range(self, low: f64, high: f64) -> Error {
        let unit = match self {
            Self::Enthalpy(_) => "kJ/kg",
            Self::Entropy(_) => "kJ/(kg K)",
        };
        Error::OutOfRange { what: self.name(), value: self.value() / 1e3, low: low / 1e3, high: high / 1e3, unit }
    }

    /// Value of the target property in a state.
    fn of(self, state: &State) -> f64 {
        match self {
            Self::Enthalpy(_) => state.enthalpy().si(),
            Self::Entropy(_) => state.entropy().si(),
        }
    }

    fn of_saturated(self, saturated: &Saturated) -> f64 {
        match self {
            Self::Enthalpy(_) => saturated.enthalpy.si(),
            Self::Entropy(_) => saturated.entropy.si(),
        }
    }

    /// Derivatives at constant density and at constant temperature.
    fn slopes(self, state: &State) -> (f64, f64) {
        let (t, rho) = (state.temperature().kelvin(), state.density().si());
        let cv = state.isochoric_heat_capacity().si();
        match self {
            // ∂h/∂T = cv + (∂p/∂T)/ρ;  ∂h/∂ρ = (∂p/∂ρ − T (∂p/∂T)/ρ)/ρ
            Self::Enthalpy(_) => (cv + state.dp_dt() / rho, (state.dp_drho() - t * state.dp_dt() / rho) / rho),
            // ∂s/∂T = cv/T;  ∂s/∂ρ = −(∂p/∂T)/ρ²
            Self::Entropy(_) => (cv / t, -state.dp_dt() / (rho * rho)),
        }
    }

    /// Temperature of the gas at this aim, if from `saturated` on its heat capacity were `cp` throughout.
    fn heated(self, saturated: &Saturated, cp: f64) -> f64 {
        let t = saturated.temperature.kelvin();
        match self {
            Self::Enthalpy(h) => t + (h - saturated.enthalpy.si()) / cp,
            Self::Entropy(s) => t * ((s - saturated.entropy.si()) / cp).exp(),
        }
    }

    /// Slope along an isobar: cp for enthalpy, cp/T for entropy.
    fn along_isobar(self, state: &State) -> f64 {
        let cp = state.isobaric_heat_capacity().si();
        match self {
            Self::Enthalpy(_) => cp,
            Self::Entropy(_) => cp / state.temperature().kelvin(),
        }
    }

    /// Smallest meaningful difference: rounding of sums of this size.
    fn scale(self, state: &State) -> f64 {
        let r = state.equation().specific_gas_constant();
        match self {
            Self::Enthalpy(h) => h.abs() + r * state.temperature().kelvin(),
            Self::Entropy(s) => s.abs() + r,
        }
    }
}

/// Section of an isotherm on which each reduced pressure occurs once, and where to start searching.
#[derive(Debug, Clone, Copy)]
struct Stretch {
    low: f64,
    high: f64,
    start: f64,
}

/// Relative distance by which a search may go beyond the density of the boundary: where it is least, 0.01 K below the
/// critical point, the isotherm turns another ten times further on.
const MARGIN: f64 = 1e-3;

/// Lowest pressure computed, our choice: below it densities and their ratios leave the range of floating-point numbers.
const LOWEST_PRESSURE: Pressure = Pressure::from_pa(1e-250);

/// Lowest density computed, kg/m³, our choice for the same reason.
const LOWEST_DENSITY: f64 = 1e-250;

/// Relative distance from the saturation pressure of a pure fluid within which pressure does not tell liquid from
/// vapour.
const ON_THE_LINE: f64 = 1e-9;

impl Equation {
    /// Single phase at pressure `p` and temperature `t`.
    ///
    /// Above the bubble pressure it is the liquid, below the dew pressure the vapour.
    ///
    /// # Errors
    /// [`Error::OutOfRange`] outside the limits of the equation; [`Error::TwoPhase`] on or between bubble and dew line,
    /// where pressure and temperature do not determine the density.
    pub fn state<'e>(&'e self, boundary: &impl Boundary, p: Pressure, t: Temperature) -> Result<State<'e>, Error> {
        self.guard_temperature(t)?;
        self.guard_pressure(p)?;
        let isotherm = Isotherm::new(self, t.kelvin());
        let target = self.reduced_pressure(p, t.kelvin());
        let stretch = match boundary.at_temperature(t)? {
            Crossing::Between { liquid, vapour } => {
                if p.pa() > liquid.pressure.pa() * (1.0 + ON_THE_LINE) {
                    self.liquid_side(&liquid)
                } else if p.pa() < vapour.pressure.pa() * (1.0 - ON_THE_LINE) {
                    self.vapour_side(&vapour, target)
                } else {
                    return Err(Error::TwoPhase { kpa: p.kpa(), celsius: t.celsius() });
                }
            }
            Crossing::UpTo(vapour) => self.vapour_side(&vapour, target),
            Crossing::Above | Crossing::Below => {
                let high = self.densest_delta();
                Stretch { low: 0.0, high, start: self.dense_gas_guess(target, t.kelvin()).min(high) }
            }
        };
        Ok(State::on(&isotherm, self.density(&isotherm, target, stretch)?))
    }

    /// State at temperature `t` and density `rho`, of one phase or two.
    ///
    /// # Errors
    /// [`Error::OutOfRange`] outside the limits of the equation, those of pressure too.
    pub fn at_density<'e>(
        &'e self,
        boundary: &impl Boundary,
        t: Temperature,
        rho: Density,
    ) -> Result<Phases<'e>, Error> {
        self.guard_temperature(t)?;
        let densest = self.limits.densest * self.molar_mass;
        if rho.si() > 0.0 && rho.si() < LOWEST_DENSITY {
            return Err(Error::Impossible { what: "density (kg/m³)", value: rho.si(), must: "at least 1e-250" });
        }
        if !(rho.si() > 0.0 && rho.si() <= densest) {
            return Err(self.too_dense(rho.si()));
        }
        if let Crossing::Between { liquid, vapour } = boundary.at_temperature(t)?
            && vapour.density < rho
            && rho < liquid.density
        {
            let volume = |density: Density| 1.0 / density.si();
            let x = (volume(rho) - volume(liquid.density)) / (volume(vapour.density) - volume(liquid.density));
            return Ok(Phases::Two { quality: Ratio::from_fraction(x), liquid, vapour });
        }
        let state = State::at(self, t, rho);
        // a state at the limit of pressure is still inside, rounding or not
        if state.pressure().pa() > self.limits.highest.pa() * (1.0 + 1e-9) {
            self.guard_pressure(state.pressure())?;
        }
        Ok(Phases::One(state))
    }

    /// State at pressure `p` and specific enthalpy `h`, of one phase or two.
    ///
    /// # Errors
    /// [`Error::OutOfRange`] outside the limits of the equation; [`Error::NotConverged`].
    pub fn at_enthalpy<'e>(
        &'e self,
        boundary: &impl Boundary,
        p: Pressure,
        h: SpecificEnthalpy,
    ) -> Result<Phases<'e>, Error> {
        self.along_isobar(boundary, p, Aim::Enthalpy(h.si()))
    }

    /// State at pressure `p` and specific entropy `s`, of one phase or two.
    ///
    /// # Errors
    /// [`Error::OutOfRange`] outside the limits of the equation; [`Error::NotConverged`].
    pub fn at_entropy<'e>(
        &'e self,
        boundary: &impl Boundary,
        p: Pressure,
        s: SpecificEntropy,
    ) -> Result<Phases<'e>, Error> {
        self.along_isobar(boundary, p, Aim::Entropy(s.si()))
    }

    /// Liquid at pressure `p` and temperature `t`, including metastable liquid below the saturation pressure.
    ///
    /// # Errors
    /// [`Error::OutOfRange`] outside the limits of the equation; [`Error::NotConverged`] where it has no liquid.
    pub fn liquid_at(&self, p: Pressure, t: Temperature) -> Result<State<'_>, Error> {
        self.guard_temperature(t)?;
        self.guard_pressure(p)?;
        let isotherm = Isotherm::new(self, t.kelvin());
        let target = self.reduced_pressure(p, t.kelvin());
        let densest = self.densest_delta();
        let guess = self.ancillary.liquid.delta((t.kelvin() / self.critical_temperature).min(1.0));
        // outwards until the pressure is reached
        let mut high = guess.clamp(1.0, densest);
        while isotherm.pressure(high).0 < target {
            if high >= densest {
                return Err(self.too_dense(densest * self.reducing_mass_density()));
            }
            high = (1.02 * high).min(densest);
        }
        // inwards until it is passed; pressure bends upwards, so a step of Newton's method from above stops short of it
        for _ in 0..STEPS {
            let (value, slope) = isotherm.pressure(high);
            if slope <= 0.0 {
                break;
            }
            let low = high - (value - target) / slope;
            let next = low.max(0.98 * high);
            if isotherm.pressure(next).0 <= target || (high - next) <= 1e-9 * high {
                // the root may lie a last place outside
                let stretch = Stretch { low: next.min(0.999 * high), high: high * (1.0 + 1e-9), start: next };
                return Ok(State::on(&isotherm, self.density(&isotherm, target, stretch)?));
            }
            high = next;
        }
        Err(Error::NotConverged { solving: "density of the liquid", steps: STEPS, residual: high })
    }

    /// Vapour at pressure `p` and temperature `t`, including supercooled vapour above the saturation pressure.
    ///
    /// # Errors
    /// [`Error::OutOfRange`] outside the limits of the equation; [`Error::NotConverged`] where it has no vapour.
    pub fn vapour_at(&self, p: Pressure, t: Temperature) -> Result<State<'_>, Error> {
        self.guard_temperature(t)?;
        self.guard_pressure(p)?;
        let isotherm = Isotherm::new(self, t.kelvin());
        let target = self.reduced_pressure(p, t.kelvin());
        // from the ideal gas; pressure bends downwards, so a step of Newton's method from below stops short of it
        let mut low = target;
        for _ in 0..STEPS {
            let (value, slope) = isotherm.pressure(low);
            if slope <= 0.0 {
                break;
            }
            let high = low - (value - target) / slope;
            let next = high.min(1.1 * low);
            if isotherm.pressure(next).0 >= target || (next - low).abs() <= 1e-9 * low {
                let stretch = Stretch { low: 0.999 * low.min(next), high: next.max(1.001 * low), start: next };
                return Ok(State::on(&isotherm, self.density(&isotherm, target, stretch)?));
            }
            low = next;
        }
        Err(Error::NotConverged { solving: "density of the vapour", steps: STEPS, residual: low })
    }

    fn guard_temperature(&self, t: Temperature) -> Result<(), Error> {
        let (low, high) = (self.limits.coldest, self.limits.hottest);
        if low <= t && t <= high {
            return Ok(());
        }
        Err(Error::OutOfRange {
            what: "temperature",
            value: t.celsius(),
            low: low.celsius(),
            high: high.celsius(),
            unit: "°C",
        })
    }

    fn guard_pressure(&self, p: Pressure) -> Result<(), Error> {
        let high = self.limits.highest;
        if p >= LOWEST_PRESSURE && p <= high {
            return Ok(());
        }
        if p.si() > 0.0 && p < LOWEST_PRESSURE {
            return Err(Error::Impossible { what: "absolute pressure (Pa)", value: p.pa(), must: "at least 1e-250" });
        }
        Err(Error::OutOfRange { what: "pressure", value: p.kpa(), low: 0.0, high: high.kpa(), unit: "kPa" })
    }

    fn too_dense(&self, value: f64) -> Error {
        let high = self.limits.densest * self.molar_mass;
        Error::OutOfRange { what: "density", value, low: 0.0, high, unit: "kg/m³" }
    }

    fn densest_delta(&self) -> f64 {
        self.limits.densest / self.reducing_density
    }

    /// p/(ρr R T).
    fn reduced_pressure(&self, p: Pressure, t: f64) -> f64 {
        p.pa() / (self.reducing_mass_density() * self.specific_gas_constant() * t)
    }

    /// Section of the isotherm with liquid denser than this saturated one.
    fn liquid_side(&self, liquid: &Saturated) -> Stretch {
        let delta = liquid.density.si() / self.reducing_mass_density();
        Stretch { low: delta * (1.0 - MARGIN), high: self.densest_delta(), start: delta }
    }

    /// Section of the isotherm with vapour less dense than this saturated one.
    fn vapour_side(&self, vapour: &Saturated, target: f64) -> Stretch {
        let delta = vapour.density.si() / self.reducing_mass_density();
        // p/(ρr R T) = δ (1 + b δ) with b from the dew point
        let at_dew = self.reduced_pressure(vapour.pressure, vapour.temperature.kelvin());
        let b = (at_dew / delta - 1.0) / delta;
        let root = (1.0 + 4.0 * b * target).max(0.0).sqrt();
        Stretch { low: 0.0, high: delta * (1.0 + MARGIN), start: 2.0 * target / (1.0 + root) }
    }

    /// Reduced density at which the reduced pressure is `target`.
    fn density(&self, isotherm: &Isotherm, target: f64, stretch: Stretch) -> Result<f64, Error> {
        let Stretch { mut low, mut high, start } = stretch;
        let mut x = start.clamp(low, high);
        let (mut reached, mut residual) = (false, f64::NAN);
        let mut last: Option<(f64, f64)> = None;
        for _ in 0..STEPS {
            let (value, slope) = isotherm.pressure(x);
            residual = value - target;
            if residual.abs() <= 2.0 * f64::EPSILON * target {
                return Ok(x);
            }
            if residual < 0.0 {
                low = x;
            } else {
                high = x;
                reached = true;
            }
            // Newton's step, and the second-order part of it, with the curvature from the slopes of two steps
            let newton = -residual / slope;
            let bend = last.map_or(0.0, |(x_1, slope_1)| 0.5 * (slope - slope_1) / ((x - x_1) * slope)) * newton;
            last = Some((x, slope));
            let step = if bend.abs() < 0.3 { newton * (1.0 - bend) } else { newton };
            let next = x + step;
            if slope > 0.0 && low <= next && next <= high {
                // the error left is the square of the step times the curvature: nothing but rounding
                let left = (bend * newton).abs();
                if step.abs() <= 1e-8 * x || bend != 0.0 && step.abs() <= 1e-5 * x && left <= 1e-12 * x {
                    return Ok(next);
                }
                x = next;
            } else if high - low <= 4.0 * f64::EPSILON * high {
                break;
            } else {
                x = 0.5 * (low + high);
            }
        }
        if !reached && high >= self.densest_delta() {
            return Err(self.too_dense(high * self.reducing_mass_density()));
        }
        // on an isotherm so flat that rounding hides the crossing, its middle is as good as any
        if reached && residual.abs() <= 1e-12 * (target + high) {
            return Ok(0.5 * (low + high));
        }
        Err(Error::NotConverged { solving: "density", steps: STEPS, residual })
    }

    /// A first guess of the reduced density where there is one phase, from van der Waals' equation in reduced form.
    fn dense_gas_guess(&self, target: f64, t: f64) -> f64 {
        // van der Waals: pr = 8 Tr δ/(3 − δ) − 3 δ², pushed to the critical compression factor of this equation
        let zc = self.critical_pressure
            / (self.reducing_mass_density() * self.specific_gas_constant() * self.critical_temperature);
        let tr = t / self.critical_temperature;
        let pr = target * tr / zc;
        // a few steps of Newton's method on the cubic, from the ideal gas or the critical density
        let mut delta = (pr * 3.0 / (8.0 * tr)).min(1.0);
        for _ in 0..4 {
            let f = 8.0 * tr * delta / (3.0 - delta) - 3.0 * delta * delta - pr;
            let slope = 24.0 * tr / ((3.0 - delta) * (3.0 - delta)) - 6.0 * delta;
            if slope <= 0.1 {
                break;
            }
            delta = (delta - f / slope).clamp(1e-12, 2.6);
        }
        delta
    }

    /// State on the isobar of `p` at which enthalpy or entropy has the target value.
    fn along_isobar<'e>(&'e self, boundary: &impl Boundary, p: Pressure, aim: Aim) -> Result<Phases<'e>, Error> {
        self.guard_pressure(p)?;
        if !aim.value().is_finite() {
            return Err(Error::not_finite(aim.name(), aim.value()));
        }
        let crossing = boundary.at_pressure(p)?;
        let route = match crossing {
            Crossing::Between { liquid, vapour } => {
                let (at_liquid, at_vapour) = (aim.of_saturated(&liquid), aim.of_saturated(&vapour));
                if aim.value() <= at_liquid {
                    Route::Liquid(liquid)
                } else if aim.value() >= at_vapour {
                    Route::Vapour(vapour)
                } else {
                    let x = (aim.value() - at_liquid) / (at_vapour - at_liquid);
                    return Ok(Phases::Two { quality: Ratio::from_fraction(x), liquid, vapour });
                }
            }
            Crossing::UpTo(vapour) => Route::Vapour(vapour),
            Crossing::Above => Route::Fluid,
            Crossing::Below => Route::Gas,
        };
        if let Some(start) = self.start_of(boundary, p, aim, &route)
            && let Some(state) = self.newton_isobar(p, aim, &route, start)
        {
            return Ok(Phases::One(state));
        }
        self.bracketed_isobar(p, aim, &route).map(Phases::One)
    }

    /// Temperature interval of a route.
    fn span(&self, route: &Route) -> (f64, f64) {
        let (coldest, hottest) = (self.limits.coldest.kelvin(), self.limits.hottest.kelvin());
        match route {
            Route::Liquid(liquid) => (coldest, liquid.temperature.kelvin()),
            Route::Vapour(vapour) => (vapour.temperature.kelvin(), hottest),
            Route::Fluid | Route::Gas => (coldest, hottest),
        }
    }

    /// Section of the isotherm of `t` that belongs to a route.
    fn stretch(&self, route: &Route, target: f64, t: f64) -> Stretch {
        match route {
            // an isobar's liquid grows denser, its vapour thinner, away from the boundary
            Route::Liquid(liquid) => {
                let side = self.liquid_side(liquid);
                let low = side.low.max(self.least_liquid(t));
                Stretch { low, high: side.high, start: side.start.max(low) }
            }
            Route::Vapour(vapour) => self.vapour_side(vapour, target),
            // thinner than twice the ideal gas: vapour below the lowest saturation pressure is nearly ideal
            Route::Gas => Stretch { low: 0.0, high: 2.0 * target, start: target },
            // where colder than critical, a liquid
            Route::Fluid => {
                let (low, high) = (self.least_liquid(t), self.densest_delta());
                Stretch { low, high, start: self.dense_gas_guess(target, t).clamp(low, high) }
            }
        }
    }

    /// Reduced density a little below that of the saturated liquid.
    ///
    /// Further inside the two-phase region equations may swing so wildly that any pressure is met. Within a hundredth of
    /// the critical temperature they are tame (every one meets a pressure above the region once), and there is no limit.
    fn least_liquid(&self, t: f64) -> f64 {
        let ratio = t / self.critical_temperature;
        // the ancillary series are right to three percent
        if ratio < 0.99 { (0.96 * self.ancillary.liquid.delta(ratio)).min(self.densest_delta()) } else { 0.0 }
    }

    /// Temperature and reduced density from which a search along a route begins.
    fn start_of(&self, boundary: &impl Boundary, p: Pressure, aim: Aim, route: &Route) -> Option<(f64, f64)> {
        let (coldest, hottest) = self.span(route);
        match route {
            Route::Liquid(liquid) => Some(self.along_the_liquid(boundary, aim, liquid)),
            Route::Vapour(vapour) => {
                // as if the heat capacity were that of the ideal gas
                let t =
                    aim.heated(vapour, self.ideal_heat_capacity(vapour.temperature.kelvin())).clamp(coldest, hottest);
                Some((t, self.vapour_side(vapour, self.reduced_pressure(p, t)).start))
            }
            Route::Gas => {
                let t = self.critical_temperature.clamp(coldest, hottest);
                Some((t, self.reduced_pressure(p, t)))
            }
            Route::Fluid => {
                let cool = Temperature::from_kelvin(0.9 * self.critical_temperature);
                let Ok(Crossing::Between { liquid, vapour }) = boundary.at_temperature(cool) else { return None };
                let (at_liquid, at_vapour) = (aim.of_saturated(&liquid), aim.of_saturated(&vapour));
                let share = (aim.value() - at_liquid) / (at_vapour - at_liquid);
                if share <= 0.0 {
                    return Some(self.along_the_liquid(boundary, aim, &liquid));
                }
                // the line of highest heat capacity goes on from the saturation line, where ln p rises by about 7 per ln T
                let ridge = self.critical_temperature * (1.0 + (p.pa() / self.critical_pressure).ln().max(0.0) / 7.0);
                let ridge = ridge.clamp(coldest, hottest);
                if share < 1.0 {
                    let rho = liquid.density.si() + share * (vapour.density.si() - liquid.density.si());
                    return Some((ridge, rho / self.reducing_mass_density()));
                }
                let vapour = Saturated { temperature: Temperature::from_kelvin(ridge), ..vapour };
                let t = aim.heated(&vapour, self.ideal_heat_capacity(ridge)).clamp(coldest, hottest);
                Some((t, self.dense_gas_guess(self.reduced_pressure(p, t), t)))
            }
        }
    }

    /// Heat capacity of the ideal gas at constant pressure.
    fn ideal_heat_capacity(&self, t: f64) -> f64 {
        let tau = self.reducing_temperature / t;
        // cp⁰ = R (1 − τ² α⁰ττ)
        self.specific_gas_constant() * (1.0 - self.ideal.at(tau, tau.ln()).a_tt)
    }

    /// Point of the saturated liquid, colder than `liquid`, that has the target value: pressure changes a liquid
    /// little.
    fn along_the_liquid(&self, boundary: &impl Boundary, aim: Aim, liquid: &Saturated) -> (f64, f64) {
        let delta = |saturated: &Saturated| saturated.density.si() / self.reducing_mass_density();
        let warm = (liquid.temperature.kelvin(), aim.of_saturated(liquid), delta(liquid));
        let coldest = self.limits.coldest.kelvin();
        let at = |t: f64| match boundary.at_temperature(Temperature::from_kelvin(t.clamp(coldest, warm.0))) {
            Ok(Crossing::Between { liquid, .. }) => {
                Some((liquid.temperature.kelvin(), aim.of_saturated(&liquid), delta(&liquid)))
            }
            _ => None,
        };
        // straight through two points: the temperature, and the density there
        let through = |(t_1, x_1, delta_1): (f64, f64, f64), (t_2, x_2, delta_2): (f64, f64, f64)| {
            let share = (aim.value() - x_1) / (x_2 - x_1);
            (t_1 + share * (t_2 - t_1), delta_1 + share * (delta_2 - delta_1))
        };
        let settled = |(t, delta): (f64, f64)| {
            (t.is_finite() && delta.is_finite())
                .then(|| (t.clamp(coldest, warm.0), delta.clamp(warm.2, self.densest_delta())))
        };
        let found = at(0.9 * warm.0).and_then(|cool| {
            let (t, _) = settled(through(warm, cool))?;
            let near = at(t)?;
            settled(through(near, if near.0 < cool.0 { cool } else { warm })).or(Some((near.0, near.2)))
        });
        found.unwrap_or((warm.0, warm.2))
    }

    /// Newton's method in temperature and density; `None` when it leaves its route or does not settle.
    fn newton_isobar<'e>(
        &'e self,
        p: Pressure,
        aim: Aim,
        route: &Route,
        (mut t, mut delta): (f64, f64),
    ) -> Option<State<'e>> {
        let (coldest, hottest) = self.span(route);
        let rho_r = self.reducing_mass_density();
        let mut last = f64::INFINITY;
        for _ in 0..20 {
            let state = State::on(&Isotherm::new(self, t), delta);
            let (p_t, p_rho) = (state.dp_dt(), state.dp_drho());
            let (x_t, x_rho) = aim.slopes(&state);
            let (miss_p, miss_x) = (state.pressure().pa() - p.pa(), aim.of(&state) - aim.value());
            // −cp ∂p/∂ρ, or over T: it does not vanish at the critical point, where cp is infinite
            let determinant = p_t * x_rho - p_rho * x_t;
            // both relative
            let step_t = (miss_x * p_rho - miss_p * x_rho) / determinant / t;
            let step_rho = (miss_p * x_t - miss_x * p_t) / determinant / (delta * rho_r);
            if !(determinant < 0.0 && step_t.is_finite() && step_rho.is_finite()) {
                return None;
            }
            let step = step_t.abs().max(step_rho.abs());
            // each step squares the error; rounding may keep it from shrinking further
            if step < 1e-10 || step < 1e-8 && step >= 0.5 * last {
                return self.belongs(&state, route).then_some(state);
            }
            last = step;
            t = (t * (1.0 + step_t.clamp(-0.2, 0.2))).clamp(coldest, hottest);
            // density follows in proportion, so that it never turns negative
            delta = (delta * step_rho.clamp(-0.6, 0.6).exp()).min(self.densest_delta());
        }
        None
    }

    /// Whether a state found on an isobar lies on the route asked for.
    fn belongs(&self, state: &State, route: &Route) -> bool {
        let delta = state.density().si() / self.reducing_mass_density();
        let t = state.temperature().kelvin();
        let stretch = self.stretch(route, self.reduced_pressure(state.pressure(), t), t);
        // where one phase is all there is, the last trace of two may be left in the equation: pressure falls with density
        // by a hair, but enthalpy and entropy still fall, and tell the state
        let dip = if matches!(route, Route::Fluid) { 1e-4 * self.specific_gas_constant() * t } else { 0.0 };
        stretch.low <= delta && delta <= stretch.high * (1.0 + 1e-9) && state.dp_drho() > -dip
    }

    /// Bracketed search, slow and sure: along the isobar enthalpy and entropy rise with temperature.
    fn bracketed_isobar<'e>(&'e self, p: Pressure, aim: Aim, route: &Route) -> Result<State<'e>, Error> {
        let (coldest, mut high) = self.span(route);
        let mut low = self.least_temperature(p, coldest, high)?;
        let at = |t: f64| {
            let isotherm = Isotherm::new(self, t);
            let target = self.reduced_pressure(p, t);
            let delta = self.density(&isotherm, target, self.stretch(route, target, t))?;
            Ok::<_, Error>(State::on(&isotherm, delta))
        };
        let close = |state: &State| (aim.of(state) - aim.value()).abs() <= 1e-12 * aim.scale(state);
        let (first, last) = (at(low)?, at(high)?);
        for end in [&first, &last] {
            if close(end) {
                return Ok(*end);
            }
        }
        let (lowest, highest) = (aim.of(&first), aim.of(&last));
        if !(lowest <= aim.value() && aim.value() <= highest) {
            return Err(self.beyond_the_isobar(p, aim, route, lowest, highest));
        }
        let mut t = 0.5 * (low + high);
        let mut state = at(t)?;
        for _ in 0..STEPS {
            let miss = aim.of(&state) - aim.value();
            if close(&state) || high - low <= 4.0 * f64::EPSILON * high {
                break;
            }
            if miss < 0.0 {
                low = t;
            } else {
                high = t;
            }
            let next = t - miss / aim.along_isobar(&state);
            t = if low < next && next < high { next } else { 0.5 * (low + high) };
            state = at(t)?;
        }
        // near the critical point density follows temperature so fast that only both together settle
        let delta = state.density().si() / self.reducing_mass_density();
        let polished = self.newton_isobar(p, aim, route, (state.temperature().kelvin(), delta));
        polished.or(close(&state).then_some(state)).ok_or(Error::NotConverged {
            solving: "temperature on an isobar",
            steps: STEPS,
            residual: aim.of(&state) - aim.value(),
        })
    }

    /// Error for a target that the isobar of `p` does not reach, with the range of its values over all phases.
    fn beyond_the_isobar(&self, p: Pressure, aim: Aim, route: &Route, lowest: f64, highest: f64) -> Error {
        let limits = self.limits;
        let (mut low, mut high) = (lowest, highest);
        match route {
            Route::Liquid(_) => {
                let t = limits.hottest.kelvin();
                let target = self.reduced_pressure(p, t);
                let all = Stretch { low: 0.0, high: self.densest_delta(), start: target };
                let isotherm = Isotherm::new(self, t);
                if let Ok(delta) = self.density(&isotherm, target, all) {
                    high = aim.of(&State::on(&isotherm, delta));
                }
            }
            Route::Vapour(_) => {
                if let Ok(state) = self.liquid_at(p, limits.coldest) {
                    low = aim.of(&state);
                }
            }
            Route::Fluid | Route::Gas => {}
        }
        aim.out_of_range(low, high)
    }

    /// Lowest temperature at which the equation reaches `p`: its lower limit, or where its densest fluid has it.
    fn least_temperature(&self, p: Pressure, coldest: f64, hottest: f64) -> Result<f64, Error> {
        let densest = self.densest_delta();
        let excess = |t: f64| Isotherm::new(self, t).pressure(densest).0 - self.reduced_pressure(p, t);
        if excess(coldest) >= 0.0 {
            return Ok(coldest);
        }
        if excess(hottest) < 0.0 {
            return Err(self.too_dense(densest * self.reducing_mass_density()));
        }
        Ok(bisect(coldest, hottest, 4.0 * f64::EPSILON * coldest, |t| excess(t) >= 0.0).1)
    }
}

/// Steps of a search before it gives up.
const STEPS: usize = 200;

/// Part of an isobar on which the solution lies.
#[derive(Debug, Clone, Copy)]
enum Route {
    /// Liquid up to its boiling point.
    Liquid(Saturated),
    /// Vapour from its dew point on.
    Vapour(Saturated),
    /// One phase throughout, above the critical pressure.
    Fluid,
    /// Vapour throughout, below the lowest saturation pressure.
    Gas,
}
