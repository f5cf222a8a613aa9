//! Non-condensables (air) over a liquid refrigerant: what a container or an equalised circuit holds above its saturation pressure.
//!
//! Where liquid is present and everything has one temperature, the refrigerant has its saturation pressure and what the gauge
//! shows beyond that is a gas that does not condense, air as a rule (Dalton). Without liquid, before the temperature has
//! levelled, or with another refrigerant inside, the difference means something else: below saturation it says so itself,
//! above it cannot.

use super::leak_throughput::R;
use crate::air::formulas::R_DRY;
use crate::quantity::{Position, SQRT_3, Uncertainty};
use crate::{
    Error, Mass, Measured, Pressure, PressureDifference, Quantity, Ratio, Refrigerant, Source, Sourced, Temperature,
    Trust, Volume,
};

/// Molar mass of dry air, kg/mol: the molar gas constant over that of dry air.
const AIR: f64 = R / R_DRY;

/// Largest mass fraction of air that recycled R-134a or R-1234yf for cars may hold.
pub const RECYCLED_AIR: Sourced<Ratio> = Sourced {
    value: Ratio::from_fraction(150e-6),
    source: Source { work: "SAE J2099-2012", locator: "non-condensables", doi: None, trust: Trust::FromMemory },
};

/// Largest mass fraction of air that recycled R-12 for cars may hold.
pub const RECYCLED_AIR_R12: Sourced<Ratio> = Sourced {
    value: Ratio::from_fraction(330e-6),
    source: Source {
        work: "SAE J1991, 40 CFR Part 82 Subpart B Appendix A",
        locator: "non-condensables",
        doi: None,
        trust: Trust::FromMemory,
    },
};

/// A pressure over liquid refrigerant compared with saturation, the difference read as air.
///
/// ```
/// use satline::quantity::Position;
/// use satline::service::non_condensables::Purity;
/// use satline::{GaugePressure, Measured, Pressure, PressureDifference, Refrigerant, Temperature, TemperatureDifference};
/// // a container of R-134a at 25 °C shows 95 psi at sea level, where 81.8 would be saturation
/// let p = GaugePressure::from_psi(95.0).absolute(Pressure::STANDARD_ATMOSPHERE);
/// let purity = Purity::of(
///     Refrigerant::R134a,
///     &Measured::new(p, PressureDifference::from_psi(1.0))?,
///     &Measured::new(Temperature::from_celsius(25.0), TemperatureDifference::from_kelvins(0.6))?,
/// )?;
/// assert_eq!(purity.position, Position::Above);
/// assert_eq!(format!("{:.1} ± {:.1} psi", purity.air.value().psi(), purity.air.expanded().psi()), "13.2 ± 3.9 psi");
/// // a tenth of the vapour's molecules, but a thirtieth of its mass
/// assert_eq!(format!("{:.1} %", purity.mole_share.value().percent()), "10.4 %");
/// assert_eq!(format!("{:.1} %", purity.mass_share.value().percent()), "3.2 %");
/// # Ok::<(), satline::Error>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub struct Purity {
    /// Refrigerant that the content was taken for.
    pub refrigerant: Refrigerant,
    /// Saturation pressure at the measured temperature; of a blend the middle between its two lines, with their
    /// distance in the uncertainty, because equalised it lies somewhere between them.
    pub saturation: Measured<Pressure>,
    /// Partial pressure of non-condensables (air); may be slightly negative if there are none.
    pub air: Measured<PressureDifference>,
    /// Mole fraction of air in the vapour.
    pub mole_share: Measured<Ratio>,
    /// Mass fraction of air in the vapour.
    pub mass_share: Measured<Ratio>,
    /// Position of the pressure relative to saturation and the 95 % interval.
    ///
    /// Above: air, or another refrigerant, or a warmer container. Within: no air that these instruments show. Below: no liquid,
    /// a colder container, or another refrigerant.
    pub position: Position,
    /// Probability of the position, given the instruments; `None` within, where no air is seen, which is all one can state.
    pub probability: Option<f64>,
    reading: Reading,
}

impl Purity {
    /// Compares the absolute pressure over liquid with saturation at the temperature of the liquid.
    ///
    /// - **Equation** p_air = p − p_sat(T); air has n = p_air/(RT) molecules in a volume and refrigerant ρ″(T)/M, ρ″ the
    ///   density of its saturated vapour from the equation of state.
    /// - **Range** saturation lines of the refrigerant.
    /// - **Uncertainty** u² = u_p² + (u_T dp_sat/dT)², and (bubble − dew)/2 of a blend as a limit of error; of the shares by
    ///   their slopes in both.
    /// - **Accuracy** of 1000 made containers with up to 1.5 bar of air the truth lay inside the 95 % interval of the partial
    ///   pressure in 966, of the shares in 963 to 967 (`tests/service_vacuum.rs`).
    /// - **Source** Dalton's law; the equation of state, [`Fluid::equation`](crate::refrigerant::Fluid::equation).
    ///
    /// # Errors
    /// [`Error::AboveCriticalTemperature`]; [`Error::OutOfRange`] outside the saturation lines; [`Error::Impossible`] for an
    /// absolute pressure that is not above zero.
    pub fn of(
        refrigerant: Refrigerant,
        pressure: &Measured<Pressure>,
        temperature: &Measured<Temperature>,
    ) -> Result<Self, Error> {
        if pressure.value().pa() <= 0.0 {
            return Err(Error::Impossible {
                what: "absolute pressure (kPa)",
                value: pressure.value().kpa(),
                must: "above zero; check the gauge reading, its sign and unit, and the air pressure used",
            });
        }
        let (saturation, slope, between) = saturation(refrigerant, temperature.value())?;
        let of_saturation = PressureDifference::combine(&[
            between,
            PressureDifference::from_pa(slope * temperature.standard_uncertainty().si()),
        ]);
        let saturation = Measured::new(saturation, of_saturation)?;
        let standard = PressureDifference::combine(&[pressure.standard_uncertainty(), of_saturation]);
        let air = Measured::new(pressure.value() - saturation.value(), standard)?;
        let (position, probability) = position(&air);
        let reading = Reading {
            refrigerant,
            pressure: pressure.value(),
            u_pressure: PressureDifference::combine(&[pressure.standard_uncertainty(), between]),
            temperature: *temperature,
        };
        let molar_mass = refrigerant.fluid().molar_mass.value.si();
        let mole_share = reading.propagate(|gas| gas.air / (gas.air + gas.refrigerant))?;
        let mass_share = reading.propagate(|gas| {
            let (air, refrigerant) = (gas.air * AIR, gas.refrigerant * molar_mass);
            air / (air + refrigerant)
        })?;
        Ok(Self { refrigerant, saturation, air, mole_share, mass_share, position, probability, reading })
    }

    /// Largest partial pressure of air there may be, at 97.5 %: the upper end of the interval.
    pub fn air_at_most(&self) -> PressureDifference {
        self.air.value() + self.air.expanded()
    }

    /// Mass fraction of air in the whole content, liquid and vapour, of a container of `volume` with `mass` in it.
    ///
    /// This is the share that purity standards limit ([`RECYCLED_AIR`]). Air dissolved in the liquid is not counted, for
    /// want of a published solubility, so the true share is larger.
    ///
    /// - **Equation** m_air/m, m_air = M_air p_air V_v/(RT), V_v = (ρ′V − m)/(ρ′ − ρ″).
    /// - **Uncertainty** of the reading, the volume and the mass, by their slopes.
    ///
    /// ```
    /// # use satline::service::non_condensables::Purity;
    /// # use satline::{Mass, Measured, Pressure, Refrigerant, Temperature, Volume};
    /// // 10 kg of R-134a in 12 L at 25 °C, 0.1 bar above saturation
    /// let t = Temperature::from_celsius(25.0);
    /// let p = Refrigerant::R134a.saturation_pressure(t)?;
    /// let above = Measured::exact(Pressure::from_bar(p.bar() + 0.1))?;
    /// let purity = Purity::of(Refrigerant::R134a, &above, &Measured::exact(t)?)?;
    /// let share = purity.of_content(&Measured::exact(Volume::from_l(12.0))?, &Measured::exact(Mass::from_kg(10.0))?)?;
    /// assert_eq!(format!("{:.0} ppm", share.value().fraction() * 1e6), "45 ppm");
    /// # Ok::<(), satline::Error>(())
    /// ```
    ///
    /// # Errors
    /// [`Error::Impossible`] for a volume or mass that is not above zero, and for a mass that does not leave both liquid and
    /// vapour in the volume.
    pub fn of_content(&self, volume: &Measured<Volume>, mass: &Measured<Mass>) -> Result<Measured<Ratio>, Error> {
        let (v, m) = (volume.value().m3(), mass.value().kg());
        for (what, value) in [("volume of the container (L)", 1e3 * v), ("mass of refrigerant (kg)", m)] {
            if !(value > 0.0 && value.is_finite()) {
                return Err(Error::Impossible { what, value, must: "above zero" });
            }
        }
        let (liquid, vapour) = self.refrigerant.saturated_at_temperature(self.reading.temperature.value())?;
        let (liquid, vapour) = (liquid.density.kg_per_m3(), vapour.density.kg_per_m3());
        if !(vapour * v < m && m < liquid * v) {
            return Err(Error::Impossible {
                what: "mass of refrigerant (kg)",
                value: m,
                must: "more than the volume holds as vapour and less than it holds as liquid",
            });
        }
        let share = |v: f64, m: f64| move |gas: &Gas| gas.air * AIR * (liquid * v - m) / (liquid - vapour) / m;
        let own = self.reading.propagate(share(v, m))?;
        let at = |v: f64, m: f64| self.reading.value(share(v, m));
        let (u_v, u_m) = (volume.standard_uncertainty().m3(), mass.standard_uncertainty().kg());
        let from_volume = 0.5 * (at(v + u_v, m)? - at(v - u_v, m)?);
        let from_mass = 0.5 * (at(v, m + u_m)? - at(v, m - u_m)?);
        let standard = own.standard_uncertainty().fraction().hypot(from_volume).hypot(from_mass);
        Measured::new(own.value(), Ratio::from_fraction(standard))
    }
}

/// Position of a partial pressure of air relative to zero, and its probability.
fn position(air: &Measured<PressureDifference>) -> (Position, Option<f64>) {
    let below = air.probability_below(PressureDifference::from_pa(0.0));
    if air.value() > air.expanded() {
        (Position::Above, Some(1.0 - below))
    } else if -air.value() > air.expanded() {
        (Position::Below, Some(below))
    } else {
        (Position::Within, None)
    }
}

/// Saturation at `t`, its slope in Pa/K, and of a blend what the distance of its lines leaves open: half of it as a limit of
/// error.
pub(super) fn saturation(
    refrigerant: Refrigerant,
    t: Temperature,
) -> Result<(Pressure, f64, PressureDifference), Error> {
    use crate::saturation::Lines;
    let (dew, bubble) = (refrigerant.dew_pressure(t)?, refrigerant.bubble_pressure(t)?);
    let slope = 0.5 * (refrigerant.dew_slope_pa_per_kelvin(t)? + refrigerant.bubble_slope_pa_per_kelvin(t)?);
    let half = (bubble - dew) * 0.5;
    Ok((dew + half, slope, half / SQRT_3))
}

/// Gas over the liquid, molecules of each in mol/m³.
struct Gas {
    air: f64,
    refrigerant: f64,
}

/// What was measured.
#[derive(Debug, Clone, Copy, PartialEq)]
struct Reading {
    refrigerant: Refrigerant,
    pressure: Pressure,
    /// Of the gauge, and of a blend's lines.
    u_pressure: PressureDifference,
    temperature: Measured<Temperature>,
}

impl Reading {
    fn gas(&self, p: Pressure, t: Temperature) -> Result<Gas, Error> {
        let (saturation, ..) = saturation(self.refrigerant, t)?;
        let (_, vapour) = self.refrigerant.saturated_at_temperature(t)?;
        let molar_mass = self.refrigerant.fluid().molar_mass.value.si();
        Ok(Gas { air: (p - saturation).pa() / (R * t.kelvin()), refrigerant: vapour.density.kg_per_m3() / molar_mass })
    }

    /// A share of the gas.
    fn value(&self, share: impl Fn(&Gas) -> f64) -> Result<f64, Error> {
        Ok(share(&self.gas(self.pressure, self.temperature.value())?))
    }

    /// A share of the gas with its uncertainty: half of what it moves by from one standard uncertainty below to one above.
    fn propagate(&self, share: impl Fn(&Gas) -> f64) -> Result<Measured<Ratio>, Error> {
        let (p, t) = (self.pressure, self.temperature.value());
        let (u_p, u_t) = (self.u_pressure, self.temperature.standard_uncertainty());
        let at = |p, t| Ok::<f64, Error>(share(&self.gas(p, t)?));
        let from_pressure = 0.5 * (at(p + u_p, t)? - at(p - u_p, t)?);
        let from_temperature = 0.5 * (at(p, t + u_t)? - at(p, t - u_t)?);
        let value = Ratio::from_fraction(at(p, t)?);
        Measured::new(value, Ratio::from_fraction(from_pressure.hypot(from_temperature)))
    }
}

#[cfg(test)]
mod tests {
    use approx::assert_abs_diff_eq;

    use super::*;

    /// Three standard uncertainties off: of a normal distribution 0.13 % lies beyond (table of the normal distribution; from memory).
    #[test]
    fn a_clear_excess_is_as_probable_as_a_clear_lack() {
        let at = |pa: f64| {
            let uncertainty = PressureDifference::from_pa(100.0);
            position(&Measured::new(PressureDifference::from_pa(pa), uncertainty).unwrap())
        };
        for (pa, expected) in [(300.0, Position::Above), (-300.0, Position::Below)] {
            let (found, probability) = at(pa);
            assert_eq!(found, expected);
            // its printed digits
            assert_abs_diff_eq!(probability.unwrap(), 0.99865, epsilon = 1e-5);
        }
        assert_eq!(at(100.0), (Position::Within, None));
    }
}
