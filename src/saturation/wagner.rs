//! Wagner equation of a saturation line: a short form that people can cite and type into a spreadsheet.

#[cfg(not(feature = "std"))]
use crate::float::Float as _;
use crate::numeric::nearly_straight_root;
use crate::{Error, Pressure, Range, Source, Temperature, TemperatureDifference};

/// Largest number of terms of a [`Wagner`] line.
pub const TERMS: usize = 6;

/// Saturation pressure as a function of temperature in Wagner's form.
///
/// - **Equation** ln(p/pc) = (Tc/T) Σ nᵢ θ^kᵢ, θ = 1 − T/Tc; p in Pa absolute, T in K (ITS-90).
/// - **Range** [`Wagner::valid`]; outside it every method returns an error.
/// - **Accuracy** [`Wagner::accuracy`], band by band, against the equation of state it was fitted to.
/// - **Source** [`Wagner::source`]: that equation of state.
///
/// ```
/// use approx::assert_abs_diff_eq;
/// use satline::{Refrigerant, Temperature};
/// let line = Refrigerant::R134a.dew_line();
/// let p = line.pressure(Temperature::from_celsius(0.0))?;
/// assert_abs_diff_eq!(p.kpa(), 292.80, epsilon = 0.03); // Tillner-Roth & Baehr 1994, within 0.01 %
/// assert_abs_diff_eq!(line.temperature(p)?.celsius(), 0.0, epsilon = 1e-9); // K, there and back
/// # Ok::<(), satline::Error>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Wagner {
    /// Reducing temperature Tc: the critical temperature of the equation of state.
    pub critical_temperature: Temperature,
    /// Reducing pressure pc: the pressure of the equation of state at Tc. It may differ in the last digits from the
    /// critical pressure the publication states, which the fluid's data lists.
    pub critical_pressure: Pressure,
    /// Coefficients and exponents (nᵢ, kᵢ); unused places are (0, 1).
    pub terms: [(f64, f64); TERMS],
    /// Temperature range over which the correlation is valid: that of its source, except that the lines of R-404A and R-407C end
    /// where the bubble line comes to its reference pressure, shortly before it turns over.
    pub valid: Range<Temperature>,
    /// Declared error in each temperature band of the range.
    pub accuracy: [Accuracy; 4],
    /// Equation of state that the line was fitted to.
    pub source: Source,
}

/// Largest error of a saturation line in one temperature band, against the equation of state it represents.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Accuracy {
    /// Upper end of the band; its lower end is the upper end of the band below.
    pub up_to: Temperature,
    /// Largest relative error in pressure.
    pub pressure: f64,
    /// Largest error in temperature at a given pressure.
    pub temperature: TemperatureDifference,
}

impl Wagner {
    /// Saturation pressure at temperature `t`.
    ///
    /// # Errors
    /// [`Error::OutOfRange`] outside [`Wagner::valid`]; [`Error::NotFinite`] where the terms of the line give no number.
    pub fn pressure(&self, t: Temperature) -> Result<Pressure, Error> {
        self.guard(t)?;
        let pa = self.critical_pressure.pa() * self.log_reduced(t.kelvin()).0.exp();
        self.finite("saturation pressure", pa).map(Pressure::from_pa)
    }

    /// Slope dp/dT of the saturation line at temperature `t`, Pa/K.
    ///
    /// dp/dT = −(p/T) [ln(p/pc) + Σ nᵢ kᵢ θ^(kᵢ−1)]
    ///
    /// # Errors
    /// As [`Wagner::pressure`].
    pub fn slope_pa_per_kelvin(&self, t: Temperature) -> Result<f64, Error> {
        self.guard(t)?;
        let (log, slope) = self.log_reduced(t.kelvin());
        self.finite("slope of the saturation line", self.critical_pressure.pa() * log.exp() * slope)
    }

    /// Saturation temperature at absolute pressure `p`.
    ///
    /// Solved by bracketed Newton steps in 1/T, in which ln p is nearly linear, to the last place of T.
    ///
    /// # Errors
    /// [`Error::OutOfRange`] for a pressure the line does not reach inside [`Wagner::valid`]; [`Error::NotConverged`] for a
    /// line that does not rise.
    pub fn temperature(&self, p: Pressure) -> Result<Temperature, Error> {
        let (t_low, t_high) = (self.valid.low.kelvin(), self.valid.high.kelvin());
        if !(0.0 < t_low && t_low <= t_high) {
            return Err(Error::Impossible {
                what: "lower end of a saturation line (K)",
                value: t_low,
                must: "above zero and not above the upper end",
            });
        }
        let reduced = |t: f64| self.critical_pressure.pa() * self.log_reduced(t).0.exp();
        let (p_low, p_high) = (reduced(t_low), reduced(t_high));
        if !(p_low <= p.pa() && p.pa() <= p_high) {
            return Err(Error::OutOfRange {
                what: "saturation pressure",
                value: p.kpa(),
                low: p_low / 1e3,
                high: p_high / 1e3,
                unit: "kPa",
            });
        }
        let target = (p.pa() / self.critical_pressure.pa()).ln();
        // 1/(1/T) may miss an end of the range by its last place
        let kelvin = |x: f64| (-1.0 / x).clamp(t_low, t_high);
        // x = −1/T increases with T, and ln p is nearly straight in it; d ln p/dx = T² d ln p/dT
        let x = nearly_straight_root("saturation temperature", -1.0 / t_low, -1.0 / t_high, |x| {
            let t = kelvin(x);
            let (log, slope) = self.log_reduced(t);
            (log - target, slope * t * t)
        })?;
        Ok(Temperature::from_kelvin(kelvin(x)))
    }

    /// Declared error of the band in which temperature `t` lies.
    ///
    /// # Errors
    /// [`Error::OutOfRange`] outside [`Wagner::valid`].
    pub fn accuracy_at(&self, t: Temperature) -> Result<Accuracy, Error> {
        self.guard(t)?;
        Ok(*self.accuracy.iter().find(|band| t <= band.up_to).unwrap_or(&self.accuracy[self.accuracy.len() - 1]))
    }

    /// `value`, unless the terms of the line, which anybody may type, make it NaN or infinite.
    fn finite(&self, what: &'static str, value: f64) -> Result<f64, Error> {
        if value.is_finite() { Ok(value) } else { Err(Error::not_finite(what, value)) }
    }

    fn guard(&self, t: Temperature) -> Result<(), Error> {
        if self.valid.contains(t) {
            return Ok(());
        }
        Err(Error::OutOfRange {
            what: "saturation temperature",
            value: t.celsius(),
            low: self.valid.low.celsius(),
            high: self.valid.high.celsius(),
            unit: "°C",
        })
    }

    /// ln(p/pc) and d ln p/dT in 1/K.
    fn log_reduced(&self, t: f64) -> (f64, f64) {
        let tc = self.critical_temperature.kelvin();
        // θ = 1 − T/Tc
        let theta = 1.0 - t / tc;
        let root = theta.sqrt();
        let (mut sum, mut slope) = (0.0, 0.0);
        for &(n, k) in self.terms.iter().filter(|&&(n, _)| n != 0.0) {
            // θ^(kᵢ−1); whole powers of √θ cost a tenth of a general power
            let halves = 2.0 * (k - 1.0);
            let whole = halves as i32;
            let below = if f64::from(whole) == halves { root.powi(whole) } else { theta.powf(k - 1.0) };
            // Σ nᵢ θ^kᵢ  and  Σ nᵢ kᵢ θ^(kᵢ−1)
            sum += n * below * theta;
            slope += n * k * below;
        }
        // ln(p/pc) = (Tc/T) Σ nᵢ θ^kᵢ
        let log = tc / t * sum;
        // d ln p/dT = −[ln(p/pc) + Σ nᵢ kᵢ θ^(kᵢ−1)]/T
        (log, -(log + slope) / t)
    }
}
