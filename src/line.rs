//! State of one line of the circuit by its pressure and temperature: superheated vapour, subcooled liquid or both
//! phases.
//!
//! **Above the critical point** there is neither superheat nor subcooling. For a [`Line`] that is a state like any
//! other: [`Condition::Supercritical`], with `None` for what does not exist. For a method of the refrigerant that
//! returns one number, as [`Refrigerant::superheat`] and [`Refrigerant::saturation_temperature`], it is an error,
//! [`Error::Supercritical`].

mod columns;

use core::fmt;

use crate::quantity::{SQRT_3, Uncertainty};
use crate::saturation::{Accuracy, Lines};
use crate::{
    Error, GaugePressure, Measured, Pressure, PressureDifference, Quantity, Refrigerant, Temperature,
    TemperatureDifference,
};

/// Line of the circuit, described by its pressure and temperature.
///
/// Superheat is measured from the dew line, subcooling from the bubble line; for a pure fluid they are one line. The
/// refrigerant is one of the catalogue or any other type that has [`Lines`], such as one's own.
///
/// - **Equation** superheat = T − T_dew(p), subcooling = T_bubble(p) − T.
/// - **Uncertainty** u² = u_T² + (u_p dT/dp)² + u_fit², the slope and u_fit (declared error over √3) from the
///   saturation line at the reading. The uncertainty of the equation of state behind the line (0.1 % of pressure or so,
///   a few hundredths of a kelvin) is not included.
///
/// ```
/// use approx::assert_abs_diff_eq;
/// use satline::{Line, Pressure, Refrigerant, Temperature, line::Condition};
/// let r = Refrigerant::R1234yf;
/// let p = r.saturation_pressure(Temperature::from_celsius(10.0))?;
/// let suction = Line::new(r, p, Temperature::from_celsius(16.0))?;
/// let Condition::Superheated(by) = suction.condition() else { panic!("{suction}") };
/// assert_abs_diff_eq!(by.value().kelvins(), 6.0, epsilon = 1e-9); // K, there and back
///
/// // above its critical point R-744 neither boils nor condenses
/// let cooler = Line::new(Refrigerant::R744, Pressure::from_bar(95.0), Temperature::from_celsius(40.0))?;
/// assert_eq!(cooler.condition(), Condition::Supercritical);
/// # Ok::<(), satline::Error>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Line<R = Refrigerant> {
    refrigerant: R,
    pressure: Measured<Pressure>,
    temperature: Measured<Temperature>,
    saturation: Option<Saturation>,
}

/// Bubble- and dew-point temperatures at the pressure of a line, below the critical pressure.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub struct Saturation {
    /// Bubble-point temperature.
    pub bubble: Measured<Temperature>,
    /// Dew-point temperature.
    pub dew: Measured<Temperature>,
}

/// Condition of the refrigerant in a line.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Condition {
    /// Superheated vapour, with its superheat.
    Superheated(Measured<TemperatureDifference>),
    /// Liquid and vapour together: on the saturation line, or between bubble and dew line of a blend.
    Saturated,
    /// Subcooled liquid, with its subcooling.
    Subcooled(Measured<TemperatureDifference>),
    /// Fluid above the critical pressure, where there is neither superheat nor subcooling.
    Supercritical,
}

impl Saturation {
    /// Bubble- and dew-point temperatures of `refrigerant` at `pressure`; `None` above the critical pressure.
    ///
    /// # Errors
    /// [`Error::Impossible`] for a pressure of zero or less; [`Error::OutOfRange`] outside the lines, below the critical
    /// pressure.
    pub fn at<R: Lines>(refrigerant: R, pressure: &Measured<Pressure>) -> Result<Option<Self>, Error> {
        let p = pressure.value();
        if p.si() <= 0.0 {
            return Err(Error::Impossible {
                what: "absolute pressure (kPa)",
                value: p.kpa(),
                must: "above zero; check the gauge reading, its sign and unit, and the air pressure used",
            });
        }
        if refrigerant.critical_pressure().is_some_and(|critical| p > critical) {
            return Ok(None);
        }
        let t = refrigerant.dew_temperature(p)?;
        let dew = measured(t, pressure, refrigerant.dew_slope_pa_per_kelvin(t)?, refrigerant.dew_accuracy(t)?)?;
        if !refrigerant.is_blend() {
            return Ok(Some(Self { bubble: dew, dew }));
        }
        let t = refrigerant.bubble_temperature(p)?;
        let slope = refrigerant.bubble_slope_pa_per_kelvin(t)?;
        let bubble = measured(t, pressure, slope, refrigerant.bubble_accuracy(t)?)?;
        Ok(Some(Self { bubble, dew }))
    }

    /// Superheat: `t` minus the dew-point temperature, negative below it.
    pub fn superheat(&self, t: &Measured<Temperature>) -> Option<Measured<TemperatureDifference>> {
        difference(t, &self.dew)
    }

    /// Subcooling: the bubble-point temperature minus `t`, negative above it.
    pub fn subcooling(&self, t: &Measured<Temperature>) -> Option<Measured<TemperatureDifference>> {
        difference(&self.bubble, t)
    }
}

/// Saturation temperature `t` with the uncertainty of the pressure and of the line itself; the slope is in Pa/K.
fn measured(
    t: Temperature,
    pressure: &Measured<Pressure>,
    slope: f64,
    accuracy: Accuracy,
) -> Result<Measured<Temperature>, Error> {
    // u_p dT/dp
    let from_pressure = TemperatureDifference::from_kelvins(pressure.standard_uncertainty().pa() / slope);
    let from_fit = accuracy.temperature / SQRT_3;
    Measured::new(t, TemperatureDifference::combine(&[from_pressure, from_fit]))
}

impl<R: Lines + Clone> Line<R> {
    /// Line from values taken as exact; only the declared error of the saturation line remains.
    ///
    /// # Errors
    /// As [`Line::measured`].
    pub fn new(refrigerant: R, pressure: Pressure, temperature: Temperature) -> Result<Self, Error> {
        Self::measured(refrigerant, Measured::exact(pressure)?, Measured::exact(temperature)?)
    }

    /// Line from measured values.
    ///
    /// # Errors
    /// [`Error::Impossible`] for an absolute pressure or temperature of zero or less; [`Error::OutOfRange`] for a
    /// pressure below the saturation lines; [`Error::NotFinite`].
    pub fn measured(
        refrigerant: R,
        pressure: Measured<Pressure>,
        temperature: Measured<Temperature>,
    ) -> Result<Self, Error> {
        possible(temperature.value())?;
        let saturation = Saturation::at(&refrigerant, &pressure)?;
        Ok(Self { refrigerant, pressure, temperature, saturation })
    }

    /// Line from a gauge reading, with the pressure of the surrounding air.
    ///
    /// # Errors
    /// As [`Line::measured`].
    pub fn from_gauge(
        refrigerant: R,
        gauge: Measured<GaugePressure>,
        air: Measured<Pressure>,
        temperature: Measured<Temperature>,
    ) -> Result<Self, Error> {
        Self::measured(refrigerant, absolute(&gauge, &air)?, temperature)
    }

    /// Refrigerant in the line.
    pub fn refrigerant(&self) -> R {
        self.refrigerant.clone()
    }

    /// Absolute pressure in the line.
    pub fn pressure(&self) -> Measured<Pressure> {
        self.pressure
    }

    /// Temperature of the line.
    pub fn temperature(&self) -> Measured<Temperature> {
        self.temperature
    }

    /// Bubble- and dew-point temperatures; `None` above the critical pressure.
    pub fn saturation(&self) -> Option<Saturation> {
        self.saturation
    }

    /// Superheat: temperature minus dew-point temperature, negative below it; `None` above the critical pressure.
    pub fn superheat(&self) -> Option<Measured<TemperatureDifference>> {
        self.saturation?.superheat(&self.temperature)
    }

    /// Subcooling: bubble-point temperature minus temperature, negative above it; `None` above the critical pressure.
    pub fn subcooling(&self) -> Option<Measured<TemperatureDifference>> {
        self.saturation?.subcooling(&self.temperature)
    }

    /// Condition of the refrigerant, by the best estimates.
    pub fn condition(&self) -> Condition {
        let zero = TemperatureDifference::from_kelvins(0.0);
        match (self.superheat(), self.subcooling()) {
            (Some(superheat), _) if superheat.value() > zero => Condition::Superheated(superheat),
            (_, Some(subcooling)) if subcooling.value() > zero => Condition::Subcooled(subcooling),
            _ if self.saturation.is_none() => Condition::Supercritical,
            _ => Condition::Saturated,
        }
    }
}

impl Refrigerant {
    /// Superheat of a line at temperature `line`, from the low-side gauge pressure and the pressure of the surrounding
    /// air.
    ///
    /// - **Equation** T − T_dew(p_gauge + p_air); negative for a line below its dew point.
    /// - **Units** those of the types; the result is a difference, in kelvin or in °F.
    /// - **Uncertainty** none is computed: [`Line::from_gauge`] takes measured values.
    ///
    /// ```
    /// use satline::{GaugePressure, Pressure, Refrigerant, Temperature};
    /// let superheat = Refrigerant::R134a.superheat(
    ///     GaugePressure::from_psi(30.0),
    ///     Pressure::STANDARD_ATMOSPHERE,
    ///     Temperature::from_celsius(8.0),
    /// )?;
    /// assert_eq!(format!("{superheat:.1}"), "6.6 K");
    /// # Ok::<(), satline::Error>(())
    /// ```
    ///
    /// # Errors
    /// [`Error::BelowVacuum`]; [`Error::Supercritical`]; [`Error::OutOfRange`] for a pressure below the saturation line;
    /// [`Error::Impossible`] for a temperature of absolute zero or less; [`Error::NotFinite`].
    pub fn superheat(
        self,
        gauge: GaugePressure,
        air: Pressure,
        line: Temperature,
    ) -> Result<TemperatureDifference, Error> {
        let p = absolute(&Measured::exact(gauge)?, &Measured::exact(air)?)?.value();
        Ok(possible(line)? - self.dew_temperature(p)?)
    }

    /// Subcooling of a line at temperature `line`, from the high-side gauge pressure and the pressure of the
    /// surrounding air.
    ///
    /// - **Equation** T_bubble(p_gauge + p_air) − T; negative for a line above its bubble point.
    /// - **Units, uncertainty** as of [`Refrigerant::superheat`].
    ///
    /// ```
    /// use satline::{GaugePressure, Pressure, Refrigerant, Temperature};
    /// let subcooling = Refrigerant::R134a.subcooling(
    ///     GaugePressure::from_psi(185.0),
    ///     Pressure::STANDARD_ATMOSPHERE,
    ///     Temperature::from_celsius(45.0),
    /// )?;
    /// assert_eq!(format!("{subcooling:.1}"), "6.8 K");
    /// # Ok::<(), satline::Error>(())
    /// ```
    ///
    /// # Errors
    /// As [`Refrigerant::superheat`].
    pub fn subcooling(
        self,
        gauge: GaugePressure,
        air: Pressure,
        line: Temperature,
    ) -> Result<TemperatureDifference, Error> {
        let p = absolute(&Measured::exact(gauge)?, &Measured::exact(air)?)?.value();
        Ok(self.bubble_temperature(p)? - possible(line)?)
    }
}

/// Temperature of a line, checked to lie above absolute zero.
fn possible(t: Temperature) -> Result<Temperature, Error> {
    let t = Measured::exact(t)?.value();
    if t.kelvin() > 0.0 {
        return Ok(t);
    }
    let must = "above absolute zero, -273.15 °C";
    Err(Error::Impossible { what: "temperature (°C)", value: t.celsius(), must })
}

/// Absolute pressure from a gauge reading and the air pressure, with the uncertainties combined.
///
/// # Errors
/// [`Error::BelowVacuum`] if the result is not above vacuum; [`Error::NotFinite`].
pub fn absolute(gauge: &Measured<GaugePressure>, air: &Measured<Pressure>) -> Result<Measured<Pressure>, Error> {
    let p = gauge.value().absolute(air.value());
    if p.si() <= 0.0 {
        return Err(Error::BelowVacuum { value: p.kpa(), air_kpa: air.value().kpa() });
    }
    Measured::new(p, PressureDifference::combine(&[gauge.standard_uncertainty(), air.standard_uncertainty()]))
}

/// `a − b`, taken as independent.
pub(crate) fn difference(
    a: &Measured<Temperature>,
    b: &Measured<Temperature>,
) -> Option<Measured<TemperatureDifference>> {
    Measured::derived(
        a.value() - b.value(),
        TemperatureDifference::combine(&[a.standard_uncertainty(), b.standard_uncertainty()]),
    )
}

impl<R: Lines + Clone> fmt::Display for Line<R> {
    /// In kelvin: "superheat 6.6 ± 1.8 K (95 %)"; a blend names the line.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let blend = self.refrigerant.is_blend();
        let mut amount = |what: &str, line: &str, by: Measured<TemperatureDifference>| {
            let (value, half) = (by.value().kelvins(), by.expanded().kelvins());
            write!(f, "{what} {value:.1} ± {half:.1} K (95 %)")?;
            if blend { write!(f, ", from the {line} line") } else { Ok(()) }
        };
        match self.condition() {
            Condition::Superheated(by) => amount("superheat", "dew", by),
            Condition::Subcooled(by) => amount("subcooling", "bubble", by),
            Condition::Saturated if blend => f.write_str("between bubble and dew line: liquid and vapour together"),
            Condition::Saturated => f.write_str("saturated: liquid and vapour together"),
            Condition::Supercritical => f.write_str("above the critical pressure: no superheat, no subcooling"),
        }
    }
}
