//! Leaks: grams a year from the mass found missing or the pressure lost, and how long a charge lasts.

use super::leak_throughput::{DETECTOR_SCALES, R};
use super::{StaticReading, references, validate};
use crate::quantity::{MassRate, Time, Uncertainty};
use crate::{Error, Mass, Measured, Pressure, Quantity, Ratio, Refrigerant, Source, Sourced, Temperature, Volume};

/// Molar mass of nitrogen, kg/mol: twice the standard atomic weight 14.007 (IUPAC 2021, from memory).
const NITROGEN: f64 = 28.014e-3;

/// Mean leak rate from the `missing` mass and the time `over` which it was lost.
///
/// - **Equation** ṁ = m/t; (u_ṁ/ṁ)² = (u_m/m)² + (u_t/t)².
///
/// ```
/// use approx::assert_abs_diff_eq;
/// use satline::quantity::Time;
/// use satline::service::leak;
/// use satline::{Mass, Measured};
/// let missing = Measured::new(Mass::from_g(120.0), Mass::from_g(10.0))?;
/// let rate = leak::rate(&missing, &Measured::exact(Time::from_years(3.0))?)?;
/// // rounding, and a last digit
/// assert_abs_diff_eq!(rate.value().g_per_year(), 40.0, epsilon = 1e-9);
/// assert_abs_diff_eq!(rate.standard_uncertainty().g_per_year(), 3.33, epsilon = 0.01);
/// # Ok::<(), satline::Error>(())
/// ```
///
/// # Errors
/// [`Error::Impossible`] for a mass below zero or a time that is not above zero.
pub fn rate(missing: &Measured<Mass>, over: &Measured<Time>) -> Result<Measured<MassRate>, Error> {
    let m = validate::not_negative("mass missing (g)", missing.value())?.kg();
    let t = validate::positive("time since the charge (min)", over.value())?.seconds();
    let parts = [missing.standard_uncertainty().kg() / t, m / t * over.standard_uncertainty().seconds() / t]
        .map(MassRate::from_kg_per_s);
    Measured::new(MassRate::from_kg_per_s(m / t), MassRate::combine(&parts))
}

/// Mass lost in the time `over` at a steady `rate`.
///
/// # Errors
/// [`Error::Impossible`] for a rate or a time below zero.
pub fn lost(rate: MassRate, over: Time) -> Result<Mass, Error> {
    let rate = validate::not_negative("leak (g/yr)", rate)?.kg_per_s();
    let over = validate::not_negative("time (min)", over)?.seconds();
    validate::finite("mass lost (g)", Mass::from_kg(rate * over))
}

/// Time until `fraction` of `charge` is left at a steady `rate`.
///
/// A leak is steady while any liquid is left: the equalised (static) pressure stays that of saturation.
///
/// - **Equation** t = m (1 − f)/ṁ.
///
/// ```
/// use approx::assert_abs_diff_eq;
/// use satline::quantity::MassRate;
/// use satline::service::leak::time_to_fraction;
/// use satline::{Mass, Ratio};
/// let t = time_to_fraction(Mass::from_g(500.0), MassRate::from_g_per_year(40.0), Ratio::from_percent(90.0))?;
/// assert_abs_diff_eq!(12.0 * t.years(), 15.0, epsilon = 1e-9); // months, rounding
/// # Ok::<(), satline::Error>(())
/// ```
///
/// # Errors
/// [`Error::Impossible`] for a charge or a rate that is not above zero; [`Error::OutsideLimits`] for a fraction outside 1 to
/// 100 %; [`Error::NotFinite`].
pub fn time_to_fraction(charge: Mass, rate: MassRate, fraction: Ratio) -> Result<Time, Error> {
    let (time_constant, f) = time_constant(charge, rate, fraction)?;
    validate::finite("time until so much is left (min)", Time::from_seconds((1.0 - f) * time_constant))
}

/// Time until `fraction` of `charge` is left at a rate that falls in proportion to what is left, as it does once the
/// liquid is gone.
///
/// - **Equation** t = −ln f · m/ṁ, ṁ the rate at the beginning.
///
/// # Errors
/// As [`time_to_fraction`].
pub fn time_to_fraction_as_vapour(charge: Mass, rate: MassRate, fraction: Ratio) -> Result<Time, Error> {
    let (time_constant, f) = time_constant(charge, rate, fraction)?;
    validate::finite("time until so much is left (min)", Time::from_seconds(-f.ln() * time_constant))
}

/// Least fraction of a charge whose time is computed: no circuit keeps a steady leak down to nothing; our choice.
const LEAST_LEFT: f64 = 0.01;

/// m/ṁ in s, and the fraction as a number.
fn time_constant(charge: Mass, rate: MassRate, fraction: Ratio) -> Result<(f64, f64), Error> {
    let m = validate::positive("charge (g)", charge)?.kg();
    let rate = validate::positive("leak (g/yr)", rate)?.kg_per_s();
    let f = fraction.fraction();
    if !(LEAST_LEFT..=1.0).contains(&f) {
        return Err(Error::OutsideLimits {
            what: "share of the charge",
            value: fraction.percent(),
            low: Ratio::from_fraction(LEAST_LEFT).percent(),
            high: Ratio::from_fraction(1.0).percent(),
            unit: "%",
        });
    }
    Ok((m / rate, f))
}

/// Gas in a closed circuit under test.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Gas {
    /// Dry nitrogen, as a perfect gas; below 15 bar that is within 1 %.
    Nitrogen,
    /// Vapour of a refrigerant, by its equation of state; no liquid must be left.
    Vapour(Refrigerant),
}

/// Result of a pressure test: the mass lost between two readings of a closed circuit, corrected for temperature.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub struct PressureTest {
    /// Absolute pressure that a tight circuit would show at the second temperature.
    pub expected: Pressure,
    /// Mass lost; below zero within its interval if nothing leaks.
    pub lost: Measured<Mass>,
    /// Mean leak rate between the two readings.
    pub rate: Measured<MassRate>,
}

/// A pressure test under dry nitrogen, as a perfect gas: below 15 bar that is within 1 %.
///
/// - **Equation** Δm = V (ρ(p₁, T₁) − ρ(p₂, T₂)); u² = (u_V Δm/V)² + V² Σ((u_p ∂ρ/∂p)² + (u_T ∂ρ/∂T)²).
/// - **Accuracy** the two readings count as independent, which is cautious for one gauge read twice.
///
/// ```
/// use approx::assert_abs_diff_eq;
/// use satline::quantity::Time;
/// use satline::service::{StaticReading, leak::nitrogen_pressure_test};
/// use satline::{Measured, Pressure, Temperature, Volume};
/// let at = |bar, celsius| -> Result<StaticReading, satline::Error> {
///     Ok(StaticReading {
///         pressure: Measured::exact(Pressure::from_bar(bar))?,
///         temperature: Measured::exact(Temperature::from_celsius(celsius))?,
///     })
/// };
/// let volume = Measured::exact(Volume::from_l(2.5))?;
/// // 11.00 bar at 25 °C becomes 10.63 bar at 15 °C by the cold alone
/// let test = nitrogen_pressure_test(&volume, &at(11.0, 25.0)?, &at(10.6311, 15.0)?, Time::from_hours(1.0))?;
/// // the last digit of the pressure, in bar and in grams
/// assert_abs_diff_eq!(test.expected.bar(), 10.6311, epsilon = 1e-4);
/// assert_abs_diff_eq!(test.lost.value().g(), 0.0, epsilon = 1e-3);
/// # Ok::<(), satline::Error>(())
/// ```
///
/// # Errors
/// [`Error::Impossible`] for a volume, a pressure or a time that is not above zero; [`Error::NotFinite`].
pub fn nitrogen_pressure_test(
    volume: &Measured<Volume>,
    before: &StaticReading,
    after: &StaticReading,
    over: Time,
) -> Result<PressureTest, Error> {
    pressure_test(volume, Gas::Nitrogen, before, after, over)
}

/// A pressure test under the vapour of a refrigerant, by its equation of state; otherwise as [`nitrogen_pressure_test`].
///
/// With liquid inside, the pressure is that of saturation until the last drop is gone and shows nothing of a leak.
///
/// # Errors
/// As [`nitrogen_pressure_test`]; [`Error::Impossible`] for liquid too; [`Error::TwoPhase`]; [`Error::OutOfRange`].
pub fn vapour_pressure_test(
    volume: &Measured<Volume>,
    refrigerant: Refrigerant,
    before: &StaticReading,
    after: &StaticReading,
    over: Time,
) -> Result<PressureTest, Error> {
    pressure_test(volume, Gas::Vapour(refrigerant), before, after, over)
}

fn pressure_test(
    volume: &Measured<Volume>,
    gas: Gas,
    before: &StaticReading,
    after: &StaticReading,
    over: Time,
) -> Result<PressureTest, Error> {
    let v = validate::positive("volume of the circuit (cm³)", volume.value())?.m3();
    validate::positive("time between the readings (min)", over)?;
    let first = Filling::of(gas, before)?;
    let second = Filling::of(gas, after)?;
    let lost = v * (first.rho - second.rho);
    let parts =
        [lost * volume.standard_uncertainty().m3() / v, v * first.standard, v * second.standard].map(Mass::from_kg);
    let lost = Measured::new(Mass::from_kg(lost), Mass::combine(&parts))?;
    let per_second = |mass: Mass| MassRate::from_kg_per_s(mass.kg() / over.seconds());
    let expected = match gas {
        Gas::Nitrogen => {
            let warmer = after.temperature.value().kelvin() / before.temperature.value().kelvin();
            validate::finite("pressure expected (kPa)", Pressure::from_pa(before.pressure.value().pa() * warmer))?
        }
        Gas::Vapour(refrigerant) => {
            let rho = crate::quantity::Density::from_kg_per_m3(first.rho);
            refrigerant.at_density(after.temperature.value(), rho)?.pressure()
        }
    };
    Ok(PressureTest {
        expected,
        lost,
        rate: Measured::new(per_second(lost.value()), per_second(lost.standard_uncertainty()))?,
    })
}

/// Relative step of the differences that stand for slopes of the density; our choice.
const STEP: f64 = 1e-4;

/// A density and its standard uncertainty, kg/m³.
struct Filling {
    rho: f64,
    standard: f64,
}

impl Filling {
    fn of(gas: Gas, held: &StaticReading) -> Result<Self, Error> {
        let p = validate::positive("absolute pressure (kPa)", held.pressure.value())?.pa();
        let t = held.temperature.value().kelvin();
        if t <= 0.0 {
            return Err(Error::Impossible {
                what: "temperature (°C)",
                value: held.temperature.value().celsius(),
                must: "above absolute zero, -273.15 °C",
            });
        }
        let rho = density(gas, p, t)?;
        // away from saturation on either side, so that a state near it does not fall across
        let (step_p, step_t) = (STEP * p, STEP * t);
        let by_p = (rho - density(gas, p - step_p, t)?) / step_p;
        let by_t = (density(gas, p, t + step_t)? - rho) / step_t;
        let standard = (by_p * held.pressure.standard_uncertainty().pa())
            .hypot(by_t * held.temperature.standard_uncertainty().si());
        Ok(Self { rho, standard })
    }
}

fn density(gas: Gas, p: f64, t: f64) -> Result<f64, Error> {
    match gas {
        // ρ = p M/(R T)
        Gas::Nitrogen => Ok(p * NITROGEN / (R * t)),
        Gas::Vapour(refrigerant) => {
            let rho = refrigerant.state(Pressure::from_pa(p), Temperature::from_kelvin(t))?.density();
            if rho <= refrigerant.fluid().critical.value.density {
                return Ok(rho.kg_per_m3());
            }
            Err(Error::Impossible {
                what: "pressure of the vapour (kPa absolute)",
                value: p / 1e3,
                must: "below saturation at the temperature: with liquid inside the pressure tells nothing of a leak",
            })
        }
    }
}

/// A leak that a detector must find on one of its scales.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct DetectorScale {
    /// The standard it is of.
    pub(crate) standard: &'static str,
    /// The refrigerant it looks for; `None` for a tracer gas.
    pub(crate) refrigerant: Option<Refrigerant>,
    /// The leak.
    pub(crate) leak: MassRate,
    /// The source.
    pub(crate) source: Source,
}

/// The standards for other gases have the same three scales.
const fn scale(
    standard: &'static str,
    refrigerant: Option<Refrigerant>,
    which: usize,
    source: Source,
) -> DetectorScale {
    DetectorScale { standard, refrigerant, leak: DETECTOR_SCALES.value[which], source }
}

/// The scales of service detectors, as published.
pub(crate) const DETECTORS: [DetectorScale; 9] = [
    scale("SAE J2791", Some(Refrigerant::R134a), 0, references::J2791),
    scale("SAE J2791", Some(Refrigerant::R134a), 1, references::J2791),
    scale("SAE J2791", Some(Refrigerant::R134a), 2, references::J2791),
    scale("SAE J2913", Some(Refrigerant::R1234yf), 0, references::J2913),
    scale("SAE J2913", Some(Refrigerant::R1234yf), 1, references::J2913),
    scale("SAE J2913", Some(Refrigerant::R1234yf), 2, references::J2913),
    scale("SAE J2970", None, 0, references::J2970),
    scale("SAE J2970", None, 1, references::J2970),
    scale("SAE J2970", None, 2, references::J2970),
];

/// Global warming potential above which the EU limits hold.
pub const EU_WARMING_ABOVE: Sourced<f64> = Sourced { value: 150.0, source: references::EU_2006_40 };

/// Largest leak rate that EU type approval allows a new car with one evaporator, for a warming potential above 150.
pub const EU_ONE_EVAPORATOR: Sourced<MassRate> =
    Sourced { value: MassRate::from_g_per_year(40.0), source: references::EU_2006_40 };

/// Largest leak rate that EU type approval allows a new car with two evaporators, for a warming potential above 150.
pub const EU_TWO_EVAPORATORS: Sourced<MassRate> =
    Sourced { value: MassRate::from_g_per_year(60.0), source: references::EU_2006_40 };

const fn loss(what: &'static str, rate: MassRate, source: Source) -> Sourced<(&'static str, MassRate)> {
    Sourced { value: (what, rate), source }
}

/// Losses of refrigerant as measured, and as printed as normal: of what, and how much.
pub const MEASURED_LOSSES: [Sourced<(&str, MassRate)>; 7] = [
    loss("28 parked cars, two-day test, mean", MassRate::from_g_per_year(25.57), references::SIEGL_2002),
    loss(
        "cars, mean of a lifetime with use, service and disposal",
        MassRate::from_g_per_year(149.75),
        references::SIEGL_2002,
    ),
    loss("light-duty vehicles in California, 2003", MassRate::from_g_per_year(80.0), references::SAE_2004),
    loss("medium and heavy vehicles of 2006 and newer", MassRate::from_g_per_year(103.0), references::ARB_HEAVY),
    loss("medium and heavy vehicles of 2005 and older", MassRate::from_g_per_year(306.0), references::ARB_HEAVY),
    loss("large buses", MassRate::from_g_per_year(1340.0), references::ARB_HEAVY),
    loss("army machine, at most, called normal (7 oz a year)", MassRate::from_oz_per_year(7.0), references::ARMY_2420),
];

/// Fraction of the charge lost a year below which one maker's handbook calls the loss normal.
pub const NORMAL_SHARE: Sourced<Ratio> =
    Sourced { value: Ratio::from_percent(3.0), source: references::LAND_ROVER_2020 };
