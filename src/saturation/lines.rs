//! Saturation lines as superheat, subcooling and the equalised circuit need them, of the catalogue or of a refrigerant
//! of one's own.

use super::{Accuracy, Wagner};
use crate::error::Name;
use crate::{Error, Pressure, Range, Temperature};

/// Saturation lines of a refrigerant, as needed for superheat, subcooling and expected pressure windows.
///
/// The catalogue and [`OwnRefrigerant`] implement it. Any other source of saturation pressures can: a pure fluid needs
/// the methods without a default here, a blend those of the bubble line too. A reference implements it as well, so a
/// large refrigerant need not be copied into every reading.
///
/// - **Units** absolute pressure in Pa, temperature in K (ITS-90), slope in Pa/K.
///
/// ```
/// use satline::saturation::Lines;
/// use satline::{Refrigerant, Temperature};
/// fn glide(lines: &impl Lines) -> Result<f64, satline::Error> {
///     let p = lines.dew_pressure(Temperature::from_celsius(5.0))?;
///     Ok((lines.dew_temperature(p)? - lines.bubble_temperature(p)?).kelvins())
/// }
/// assert_eq!(glide(&Refrigerant::R134a)?, 0.0);
/// assert!(glide(&Refrigerant::R407C)? > 5.0);
/// # Ok::<(), satline::Error>(())
/// ```
pub trait Lines {
    /// Name of the refrigerant, as shown in messages.
    fn name(&self) -> &str;

    /// Whether the refrigerant is a blend with separate bubble and dew lines.
    fn is_blend(&self) -> bool {
        false
    }

    /// Critical temperature; `None` if it is not known, and then nothing is reported as supercritical.
    fn critical_temperature(&self) -> Option<Temperature>;

    /// Critical pressure; `None` if it is not known.
    fn critical_pressure(&self) -> Option<Pressure>;

    /// Temperature range in which both lines are valid.
    fn range(&self) -> Range<Temperature>;

    /// Dew-point pressure at temperature `t`, at which the last drop evaporates.
    ///
    /// # Errors
    /// [`Error::AboveCriticalTemperature`]; [`Error::OutOfRange`] outside the line.
    fn dew_pressure(&self, t: Temperature) -> Result<Pressure, Error>;

    /// Dew-point temperature at absolute pressure `p`.
    ///
    /// # Errors
    /// [`Error::Supercritical`]; [`Error::OutOfRange`] outside the line.
    fn dew_temperature(&self, p: Pressure) -> Result<Temperature, Error>;

    /// Slope dp/dT of the dew line at temperature `t`, Pa/K.
    ///
    /// # Errors
    /// [`Error::OutOfRange`] outside the line.
    fn dew_slope_pa_per_kelvin(&self, t: Temperature) -> Result<f64, Error>;

    /// Declared error of the dew line at temperature `t`.
    ///
    /// # Errors
    /// [`Error::OutOfRange`] outside the line.
    fn dew_accuracy(&self, t: Temperature) -> Result<Accuracy, Error>;

    /// Bubble-point pressure at temperature `t`, at which the first bubble forms.
    ///
    /// # Errors
    /// As [`Lines::dew_pressure`].
    fn bubble_pressure(&self, t: Temperature) -> Result<Pressure, Error> {
        self.dew_pressure(t)
    }

    /// Bubble-point temperature at absolute pressure `p`.
    ///
    /// # Errors
    /// As [`Lines::dew_temperature`].
    fn bubble_temperature(&self, p: Pressure) -> Result<Temperature, Error> {
        self.dew_temperature(p)
    }

    /// Slope dp/dT of the bubble line at temperature `t`, Pa/K.
    ///
    /// # Errors
    /// [`Error::OutOfRange`] outside the line.
    fn bubble_slope_pa_per_kelvin(&self, t: Temperature) -> Result<f64, Error> {
        self.dew_slope_pa_per_kelvin(t)
    }

    /// Declared error of the bubble line at temperature `t`.
    ///
    /// # Errors
    /// [`Error::OutOfRange`] outside the line.
    fn bubble_accuracy(&self, t: Temperature) -> Result<Accuracy, Error> {
        self.dew_accuracy(t)
    }
}

impl<L: Lines + ?Sized> Lines for &L {
    fn name(&self) -> &str {
        (**self).name()
    }
    fn is_blend(&self) -> bool {
        (**self).is_blend()
    }
    fn critical_temperature(&self) -> Option<Temperature> {
        (**self).critical_temperature()
    }
    fn critical_pressure(&self) -> Option<Pressure> {
        (**self).critical_pressure()
    }
    fn range(&self) -> Range<Temperature> {
        (**self).range()
    }
    fn dew_pressure(&self, t: Temperature) -> Result<Pressure, Error> {
        (**self).dew_pressure(t)
    }
    fn dew_temperature(&self, p: Pressure) -> Result<Temperature, Error> {
        (**self).dew_temperature(p)
    }
    fn dew_slope_pa_per_kelvin(&self, t: Temperature) -> Result<f64, Error> {
        (**self).dew_slope_pa_per_kelvin(t)
    }
    fn dew_accuracy(&self, t: Temperature) -> Result<Accuracy, Error> {
        (**self).dew_accuracy(t)
    }
    fn bubble_pressure(&self, t: Temperature) -> Result<Pressure, Error> {
        (**self).bubble_pressure(t)
    }
    fn bubble_temperature(&self, p: Pressure) -> Result<Temperature, Error> {
        (**self).bubble_temperature(p)
    }
    fn bubble_slope_pa_per_kelvin(&self, t: Temperature) -> Result<f64, Error> {
        (**self).bubble_slope_pa_per_kelvin(t)
    }
    fn bubble_accuracy(&self, t: Temperature) -> Result<Accuracy, Error> {
        (**self).bubble_accuracy(t)
    }
}

/// Refrigerant of one's own: a name and its saturation lines, typed in or fitted to a table.
///
/// - **Equation, range, accuracy, source** those of its lines. The range of a blend is where both are valid.
///
/// ```
/// # #[cfg(feature = "std")] {
/// use approx::assert_abs_diff_eq;
/// use satline::saturation::OwnRefrigerant;
/// use satline::{Line, Refrigerant, Temperature};
/// // a line of the catalogue stands in for one of your own, and a name read at run time will do
/// let name = String::from("my R-134a");
/// let own = OwnRefrigerant::pure(name, *Refrigerant::R134a.dew_line());
/// let p = own.dew_line().pressure(Temperature::from_celsius(2.0))?;
/// let suction = Line::new(&own, p, Temperature::from_celsius(8.0))?;
/// assert_abs_diff_eq!(suction.superheat().unwrap().value().kelvins(), 6.0, epsilon = 1e-9); // K, there and back
/// # }
/// # Ok::<(), satline::Error>(())
/// ```
#[derive(Debug, Clone, PartialEq)]
pub struct OwnRefrigerant {
    name: Name,
    bubble: Wagner,
    dew: Wagner,
    blend: bool,
    critical_point_known: bool,
}

impl OwnRefrigerant {
    /// Refrigerant with one saturation line: a pure fluid or an azeotrope.
    ///
    /// The point the line is reduced with is taken as the critical point.
    pub fn pure(name: impl Into<Name>, line: Wagner) -> Self {
        Self { name: name.into(), bubble: line, dew: line, blend: false, critical_point_known: true }
    }

    /// Blend with a bubble line and a dew line. The point its dew line is reduced with is taken as the critical point.
    ///
    /// # Errors
    /// [`Error::Impossible`] when the lines have no temperature in common, or the bubble line runs below the dew line by
    /// more than both declare as their error.
    pub fn blend(name: impl Into<Name>, bubble: Wagner, dew: Wagner) -> Result<Self, Error> {
        let own = Self { name: name.into(), bubble, dew, blend: true, critical_point_known: true };
        let common = own.range();
        if common.low.partial_cmp(&common.high) != Some(core::cmp::Ordering::Less) {
            return Err(Error::Impossible {
                what: "range that bubble and dew line have in common (K)",
                value: (common.high - common.low).kelvins(),
                must: "above zero",
            });
        }
        const STEPS: u32 = 50;
        for step in 0..=STEPS {
            let t = common.at(f64::from(step) / f64::from(STEPS));
            // the last place of an end of the range
            let t = if common.contains(t) { t } else { common.high };
            let (above, below) = (bubble.pressure(t)?, dew.pressure(t)?);
            let doubt = bubble.accuracy_at(t)?.pressure * above.pa() + dew.accuracy_at(t)?.pressure * below.pa();
            if above.pa() + doubt < below.pa() {
                return Err(Error::Impossible {
                    what: "bubble pressure minus dew pressure (kPa)",
                    value: (above - below).kpa(),
                    must: "zero or more; are the two lines swapped?",
                });
            }
        }
        Ok(own)
    }

    /// Same refrigerant with the critical point marked as unknown, for lines reduced with a point beyond the table:
    /// then no pressure is reported as supercritical, only as out of range.
    #[must_use]
    pub fn with_unknown_critical_point(self) -> Self {
        Self { critical_point_known: false, ..self }
    }

    /// Dew line, on which the last drop evaporates; superheat is measured from it.
    pub const fn dew_line(&self) -> &Wagner {
        &self.dew
    }

    /// Bubble line, on which the first bubble forms; subcooling is measured from it. For a pure fluid it is the dew
    /// line.
    pub const fn bubble_line(&self) -> &Wagner {
        &self.bubble
    }

    fn below_critical(&self, t: Temperature) -> Result<(), Error> {
        match self.critical_temperature() {
            Some(critical) if t > critical => Err(Error::AboveCriticalTemperature {
                refrigerant: Name::clone(&self.name),
                celsius: t.celsius(),
                critical_celsius: critical.celsius(),
            }),
            _ => Ok(()),
        }
    }

    fn subcritical(&self, p: Pressure) -> Result<(), Error> {
        match self.critical_pressure() {
            Some(critical) if p > critical => {
                let (refrigerant, critical_kpa) = (Name::clone(&self.name), critical.kpa());
                Err(Error::Supercritical { refrigerant, kpa: p.kpa(), critical_kpa })
            }
            _ => Ok(()),
        }
    }
}

impl Lines for OwnRefrigerant {
    fn name(&self) -> &str {
        &self.name
    }
    fn is_blend(&self) -> bool {
        self.blend
    }
    fn critical_temperature(&self) -> Option<Temperature> {
        self.critical_point_known.then_some(self.dew.critical_temperature)
    }
    fn critical_pressure(&self) -> Option<Pressure> {
        self.critical_point_known.then_some(self.dew.critical_pressure)
    }
    fn range(&self) -> Range<Temperature> {
        let (bubble, dew) = (self.bubble.valid, self.dew.valid);
        Range::new(
            if bubble.low >= dew.low { bubble.low } else { dew.low },
            if bubble.high <= dew.high { bubble.high } else { dew.high },
        )
    }
    fn dew_pressure(&self, t: Temperature) -> Result<Pressure, Error> {
        self.below_critical(t)?;
        self.dew.pressure(t)
    }
    fn dew_temperature(&self, p: Pressure) -> Result<Temperature, Error> {
        self.subcritical(p)?;
        self.dew.temperature(p)
    }
    fn dew_slope_pa_per_kelvin(&self, t: Temperature) -> Result<f64, Error> {
        self.dew.slope_pa_per_kelvin(t)
    }
    fn dew_accuracy(&self, t: Temperature) -> Result<Accuracy, Error> {
        self.dew.accuracy_at(t)
    }
    fn bubble_pressure(&self, t: Temperature) -> Result<Pressure, Error> {
        self.below_critical(t)?;
        self.bubble.pressure(t)
    }
    fn bubble_temperature(&self, p: Pressure) -> Result<Temperature, Error> {
        self.subcritical(p)?;
        self.bubble.temperature(p)
    }
    fn bubble_slope_pa_per_kelvin(&self, t: Temperature) -> Result<f64, Error> {
        self.bubble.slope_pa_per_kelvin(t)
    }
    fn bubble_accuracy(&self, t: Temperature) -> Result<Accuracy, Error> {
        self.bubble.accuracy_at(t)
    }
}

impl core::fmt::Display for OwnRefrigerant {
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        f.pad(&self.name)
    }
}
