//! Oil by weight: density with temperature, and the volume between two weighings of the bottle.

use crate::quantity::{Density, SQRT_3, Uncertainty};
use crate::service::{references, validate};
use crate::{Error, Mass, Measured, Quantity, Range, Source, Sourced, Temperature, Volume};

/// Range of densities of compressor oils at room temperature: the published band of PAG, which holds the published POE.
///
/// The band is a vehicle maker's specification at 15.6 °C, specific gravity 0.95 to 1.05 times water of 0.99904 g/cm³.
pub const BAND: Sourced<Range<Density>> = Sourced {
    value: Range::new(Density::from_g_per_cm3(0.949_1), Density::from_g_per_cm3(1.049_0)),
    source: references::FORD_OIL_2010,
};

/// A mass of oil of unknown kind as a volume: over the whole [`BAND`].
pub(super) fn spread(mass: &Range<Mass>) -> Range<Volume> {
    let Range { low, high } = BAND.value;
    Range::new(Volume::from_m3(mass.low.kg() / high.kg_per_m3()), Volume::from_m3(mass.high.kg() / low.kg_per_m3()))
}

/// Density of an oil, and its fall with temperature.
///
/// - **Equation** ρ = ρ₀ (1 − β (T − T₀)); u² = u₀² + (ρ₀ u_β (T − T₀))².
/// - **Range** −10 to 100 °C.
/// - **Accuracy** no better than the limits of the make: ±6 % (95 %) for an unknown PAG. The data sheet of the bottle, or 100 cm³ of
///   it on a scale, does far better: [`OilDensity::of_bottle`].
///
/// ```
/// use approx::assert_abs_diff_eq;
/// use satline::Temperature;
/// use satline::service::oil::density::PAG;
/// let rho = PAG.at(Temperature::from_celsius(25.0))?;
/// assert_abs_diff_eq!(rho.value().g_per_cm3(), 0.9918, epsilon = 1e-4); // its last digit
/// assert_abs_diff_eq!(rho.expanded().g_per_cm3(), 0.057, epsilon = 1e-3); // its last digit
/// # Ok::<(), satline::Error>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub struct OilDensity {
    /// Density at the reference temperature.
    pub value: Density,
    /// Standard uncertainty of the density.
    pub standard: Density,
    /// Temperature that the density is stated for.
    pub reference: Temperature,
    /// Source of the density.
    pub source: Source,
    /// β, the loss of density for a kelvin as a share, 1/K.
    pub per_kelvin: Sourced<f64>,
}

/// Densities of a compressor oil with some room, g/cm³: our choice.
const PLAUSIBLE_G_PER_CM3: (f64, f64) = (0.8, 1.2);

/// Temperatures, °C, over which one slope serves: our choice.
const VALID_CELSIUS: (f64, f64) = (-10.0, 100.0);

/// Standard uncertainty of a recalled slope, 1/K: within 10⁻⁴ of it, from memory.
const SLOPE_STANDARD: f64 = 1e-4 / SQRT_3;

/// Density of a polyalkylene glycol of unknown make: a vehicle maker's specification, slope from memory.
pub const PAG: OilDensity = OilDensity {
    value: Density::from_g_per_cm3(0.5 * (0.949_1 + 1.049_0)),
    standard: Density::from_g_per_cm3(0.5 * (1.049_0 - 0.949_1) / SQRT_3),
    reference: Temperature::from_celsius(15.6),
    source: references::FORD_OIL_2010,
    per_kelvin: Sourced { value: 7.7e-4, source: references::OIL_MODELS },
};

/// Density of a polyol ester of unknown make, 0.95 to 1.03 g/cm³ from memory.
///
/// The one data sheet read, 1.023 g/cm³ at 15 °C, lies inside.
pub const POE: OilDensity = OilDensity {
    value: Density::from_g_per_cm3(0.5 * (0.95 + 1.03)),
    standard: Density::from_g_per_cm3(0.5 * (1.03 - 0.95) / SQRT_3),
    reference: Temperature::from_celsius(15.0),
    source: references::OIL_MODELS,
    per_kelvin: Sourced { value: 7.5e-4, source: references::OIL_MODELS },
};

/// Density of one POE oil, of a stationary plant, by its published data sheet.
pub const POE_SHEET: Sourced<Density> =
    Sourced { value: Density::from_g_per_cm3(1.023), source: references::POE_SHEET };

impl OilDensity {
    /// Density of the oil of one bottle, by its data sheet or by weighing a known volume.
    ///
    /// # Errors
    /// [`Error::OutsideLimits`] for a density outside 0.8 to 1.2 g/cm³, which is no compressor oil.
    pub fn of_bottle(density: &Measured<Density>, reference: Temperature) -> Result<Self, Error> {
        let g = density.value().g_per_cm3();
        let (low, high) = PLAUSIBLE_G_PER_CM3;
        if !(low..=high).contains(&g) {
            return Err(Error::OutsideLimits { what: "density of oil", value: g, low, high, unit: "g/cm³" });
        }
        validate::finite("temperature of the oil (K)", reference)?;
        Ok(Self {
            value: density.value(),
            standard: density.standard_uncertainty(),
            reference,
            source: Source {
                work: "data sheet of the bottle, or a known volume weighed",
                locator: "",
                doi: None,
                trust: crate::Trust::Read,
            },
            per_kelvin: PAG.per_kelvin,
        })
    }

    /// Density at the temperature `t`.
    ///
    /// # Errors
    /// [`Error::OutsideLimits`] outside −10 to 100 °C.
    pub fn at(&self, t: Temperature) -> Result<Measured<Density>, Error> {
        let celsius = t.celsius();
        let (low, high) = VALID_CELSIUS;
        if !(low..=high).contains(&celsius) {
            return Err(Error::OutsideLimits {
                what: "temperature of the oil", value: celsius, low, high, unit: "°C"
            });
        }
        let step = (t - self.reference).kelvins();
        // ρ = ρ₀ (1 − β (T − T₀))
        let value = self.value * (1.0 - self.per_kelvin.value * step);
        Measured::new(value, Density::combine(&[self.standard, self.value * (SLOPE_STANDARD * step)]))
    }
}

/// Volume of oil that left a bottle between two weighings.
///
/// - **Equation** V = (m₁ − m₂)/ρ; u_V² = (u₁² + u₂²)/ρ² + (V u_ρ/ρ)².
///
/// ```
/// use approx::assert_abs_diff_eq;
/// use satline::quantity::Density;
/// use satline::service::oil::density::{PAG, poured};
/// use satline::{Mass, Measured, Temperature};
/// let on_scale = |g: f64| Measured::new(Mass::from_g(g), Mass::from_g(0.6)); // a scale within 1 g
/// let rho = PAG.at(Temperature::from_celsius(22.0))?;
/// let oil = poured(&on_scale(312.0)?, &on_scale(252.0)?, &rho)?;
/// // their last digits
/// assert_abs_diff_eq!(oil.value().cm3(), 60.4, epsilon = 0.1);
/// assert_abs_diff_eq!(oil.expanded().cm3(), 3.8, epsilon = 0.1);
/// # Ok::<(), satline::Error>(())
/// ```
///
/// # Errors
/// [`Error::Impossible`] for a mass below zero, a density that is not above zero, and a bottle that became heavier.
pub fn poured(
    before: &Measured<Mass>,
    after: &Measured<Mass>,
    density: &Measured<Density>,
) -> Result<Measured<Volume>, Error> {
    validate::not_negative("mass of the bottle before (g)", before.value())?;
    validate::not_negative("mass of the bottle after (g)", after.value())?;
    let mass = before.value() - after.value();
    if mass.si() < 0.0 {
        return Err(Error::Impossible {
            what: "oil poured (g)",
            value: mass.g(),
            must: "zero or more: the bottle became heavier; check which weighing was first",
        });
    }
    volume_of(
        &Measured::new(mass, Mass::combine(&[before.standard_uncertainty(), after.standard_uncertainty()]))?,
        density,
    )
}

/// Volume of oil caught in a jar between two weighings: [`poured`] with the jar heavier afterwards.
///
/// Oil fresh from a circuit holds refrigerant: let it stand open until it no longer foams, or it weighs too much.
///
/// # Errors
/// As [`poured`], for a jar that became lighter.
pub fn caught(
    empty: &Measured<Mass>,
    full: &Measured<Mass>,
    density: &Measured<Density>,
) -> Result<Measured<Volume>, Error> {
    validate::not_negative("mass of the empty jar (g)", empty.value())?;
    validate::not_negative("mass of the full jar (g)", full.value())?;
    let mass = full.value() - empty.value();
    if mass.si() < 0.0 {
        return Err(Error::Impossible {
            what: "oil caught (g)",
            value: mass.g(),
            must: "zero or more: the jar became lighter; check which weighing was first",
        });
    }
    volume_of(
        &Measured::new(mass, Mass::combine(&[empty.standard_uncertainty(), full.standard_uncertainty()]))?,
        density,
    )
}

/// Volume of a mass of oil.
///
/// # Errors
/// [`Error::Impossible`] for a mass below zero or a density that is not above zero.
pub fn volume_of(mass: &Measured<Mass>, density: &Measured<Density>) -> Result<Measured<Volume>, Error> {
    let m = validate::not_negative("mass of oil (g)", mass.value())?.kg();
    let rho = validate::positive("density of oil (kg/m³)", density.value())?.kg_per_m3();
    // V = m/ρ
    let v = m / rho;
    let parts =
        [mass.standard_uncertainty().si() / rho, v * density.standard_uncertainty().si() / rho].map(Volume::from_m3);
    Measured::new(Volume::from_m3(v), Volume::combine(&parts))
}
