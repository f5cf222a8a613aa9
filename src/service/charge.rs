//! Charging by mass: what the label asks for, what the hose and the scale add, and how full a cylinder may be.
//!
//! Nothing here takes a pressure for a charge. A pressure says that some liquid is there, not how much; the mass is the only
//! sure charge (US Army TM 5-3805-291-23-1 says the same beside its table of pressures).

use std::str::FromStr;

use super::label_parser::{self, Form, What};
use super::{references, validate};
use crate::quantity::{SQRT_3, Uncertainty, unit_named};
use crate::{
    Error, Length, Mass, Measured, Pressure, Quantity, Range, Ratio, Refrigerant, Sourced, Temperature, Volume,
};

/// The nominal charge as a label prints it, in one unit or in several.
///
/// ```
/// use approx::assert_abs_diff_eq;
/// use satline::service::charge::ChargeLabel;
/// let label: ChargeLabel = "500 ± 20 g (17.6 oz)".parse()?;
/// assert_abs_diff_eq!(label.range().low.g(), 480.0, epsilon = 1e-9); // rounding
/// let error = "500 g (20 oz)".parse::<ChargeLabel>().unwrap_err();
/// assert_eq!(
///     error.to_string(),
///     "charge: \"500 g (20 oz)\" contradicts itself: 20 oz is 567 g, not 500 g; ask the maker which figure holds"
/// );
/// # Ok::<(), satline::Error>(())
/// ```
#[derive(Debug, Clone, PartialEq)]
pub struct ChargeLabel {
    text: String,
    nominal: Mass,
    tolerance: Option<Mass>,
}

const CHARGE: What = What { name: "charge", units: "g, kg, oz, lb" };

/// Charge tolerance commonly taken, up or down, if the label prints none; a patent names the same as what may be
/// demanded.
pub const TOLERANCE: Sourced<Mass> = Sourced { value: Mass::from_g(15.0), source: references::CHARGE_ARTICLE };

/// Charges of everything from the smallest car to an articulated bus; beyond them the unit is wrong. Common practice.
const PLAUSIBLE: Range<Mass> = Range::new(Mass::from_g(100.0), Mass::from_kg(20.0));

impl ChargeLabel {
    /// Text of the label, as it was given.
    pub fn text(&self) -> &str {
        &self.text
    }

    /// Nominal charge: the mass to charge.
    pub fn nominal(&self) -> Mass {
        self.nominal
    }

    /// Tolerance as printed; `None` if the label prints none.
    pub fn printed_tolerance(&self) -> Option<Mass> {
        self.tolerance
    }

    /// Range of correct charges: the printed tolerance about the nominal charge, else [`TOLERANCE`].
    pub fn range(&self) -> Range<Mass> {
        let by = self.tolerance.unwrap_or(TOLERANCE.value);
        Range::new(self.nominal - by, self.nominal + by)
    }

    /// `mass` as a fraction of the nominal charge.
    ///
    /// # Errors
    /// [`Error::Impossible`] for a mass below zero.
    pub fn share(&self, mass: &Measured<Mass>) -> Result<Measured<Ratio>, Error> {
        validate::not_negative("mass of refrigerant (g)", mass.value())?;
        let share = |part: Mass| Ratio::from_fraction(part / self.nominal);
        Measured::new(share(mass.value()), share(mass.standard_uncertainty()))
    }

    /// Mass that is `share` of the nominal charge, as for finding a leak with part of it.
    ///
    /// # Errors
    /// [`Error::OutsideLimits`] for a share outside 0 to 100 %.
    pub fn part(&self, share: Ratio) -> Result<Mass, Error> {
        if !(0.0..=1.0).contains(&share.fraction()) {
            return Err(Error::OutsideLimits {
                what: "share of the charge",
                value: share.percent(),
                low: 0.0,
                high: Ratio::from_fraction(1.0).percent(),
                unit: "%",
            });
        }
        Ok(self.nominal * share.fraction())
    }
}

impl FromStr for ChargeLabel {
    type Err = Error;

    /// One mass, or several of one label that must agree within half a unit of their last digits.
    ///
    /// # Errors
    /// [`Error::LabelContradicts`]; [`Error::Implausible`] outside 100 g to 20 kg; those of an amount.
    fn from_str(text: &str) -> Result<Self, Error> {
        validate::text(CHARGE.name, text)?;
        let mut label: Option<Self> = None;
        // the first amount and the masses that all amounts so far have in common
        let mut common = Range::new(Mass::from_kg(0.0), Mass::from_kg(f64::INFINITY));
        let mut first = String::new();
        for printed in label_parser::amounts(CHARGE, text)? {
            let unit = unit_named::<Mass>(&printed.unit).map_err(|_| Error::UnitUnknown {
                what: CHARGE.name,
                text: text.to_owned(),
                unit: printed.unit.clone(),
                units: CHARGE.units.to_owned(),
            })?;
            let (low, high) = printed.span();
            let nominal = match printed.form {
                Form::FromTo => 0.5 * (low + high),
                _ => printed.numbers.first().map_or(low, |number| number.value),
            };
            let half = printed.numbers.first().map_or(0.0, |number| number.half);
            let mass = |value: f64| Mass::new(value, unit);
            let digits = Range::new(mass(nominal - half), mass(nominal + half));
            common = Range::new(
                if digits.low >= common.low { digits.low } else { common.low },
                if digits.high <= common.high { digits.high } else { common.high },
            );
            if common.low > common.high {
                return Err(Error::LabelContradicts {
                    what: CHARGE.name,
                    text: text.to_owned(),
                    reason: format!("{} is {:.0} g, not {first}", printed.text, mass(nominal).g()),
                });
            }
            if label.is_none() {
                first.clone_from(&printed.text);
                let tolerance = (printed.form != Form::Single).then(|| mass(high) - mass(nominal));
                label = Some(Self { text: text.trim().to_owned(), nominal: mass(nominal), tolerance });
            }
        }
        let label = label.ok_or(Error::Missing { what: "the charge", way_out: "write it like \"500 g\"" })?;
        if !PLAUSIBLE.contains(label.nominal) {
            return Err(Error::Implausible {
                what: CHARGE.name,
                value: label.nominal.g(),
                low: PLAUSIBLE.low.g(),
                high: PLAUSIBLE.high.g(),
                unit: "g",
            });
        }
        Ok(label)
    }
}

/// Mass read on a scale with `limit` of error, taken as spread evenly (standard uncertainty limit/√3).
///
/// # Errors
/// [`Error::Impossible`] for a mass or a limit below zero; [`Error::NotFinite`].
pub fn weighed(mass: Mass, limit: Mass) -> Result<Measured<Mass>, Error> {
    validate::not_negative("limit of the scale (g)", limit)?;
    Measured::within(validate::not_negative("mass on the scale (g)", mass)?, limit)
}

/// Volume of a hose of inner diameter `bore` and of `length`: π/4 d² l.
///
/// # Errors
/// [`Error::Impossible`] for a bore or a length that is not above zero; [`Error::NotFinite`], also for a volume beyond all
/// numbers.
pub fn hose_volume(bore: Length, length: Length) -> Result<Volume, Error> {
    let bore = validate::positive("bore of the hose (m)", bore)?.m();
    let length = validate::positive("length of the hose (m)", length)?.m();
    validate::positive("volume of the hose (cm³)", Volume::from_m3(std::f64::consts::FRAC_PI_4 * bore * bore * length))
}

/// Hose holdup, the refrigerant that a charging hose of `volume` holds at temperature `t`: from a hose full of saturated vapour to
/// one full of saturated liquid. The truth lies between.
///
/// - **Equation** m = V ρ of either phase, from the equation of state.
///
/// ```
/// use approx::assert_abs_diff_eq;
/// use satline::service::charge::{hose_holdup, hose_volume};
/// use satline::{Length, Refrigerant, Temperature};
/// let volume = hose_volume(Length::from_m(4.8e-3), Length::from_m(1.8))?;
/// let holdup = hose_holdup(volume, Refrigerant::R134a, Temperature::from_celsius(25.0))?;
/// // their last digits
/// assert_abs_diff_eq!(holdup.low.g(), 1.05, epsilon = 0.01);
/// assert_abs_diff_eq!(holdup.high.g(), 39.3, epsilon = 0.1);
/// # Ok::<(), satline::Error>(())
/// ```
///
/// # Errors
/// [`Error::Impossible`] for a volume below zero; [`Error::OutOfRange`] for a temperature without liquid.
pub fn hose_holdup(volume: Volume, refrigerant: Refrigerant, t: Temperature) -> Result<Range<Mass>, Error> {
    let v = validate::not_negative("volume of the hose (cm³)", volume)?.m3();
    let (liquid, vapour) = refrigerant.saturated_at_temperature(t)?;
    let mass =
        |rho: crate::quantity::Density| validate::finite("holdup of the hose (g)", Mass::from_kg(v * rho.kg_per_m3()));
    let full = mass(liquid.density)?;
    Ok(Range::new(mass(vapour.density)?, full))
}

/// Holdup of a hose of `volume` as vapour at absolute pressure `p`, when the hose was drawn empty into the car.
///
/// # Errors
/// [`Error::Impossible`]; [`Error::TwoPhase`] on the saturation line; [`Error::OutOfRange`]; and [`Error::Impossible`] for a
/// pressure at which it would be liquid.
pub fn hose_holdup_as_vapour(
    volume: Volume,
    refrigerant: Refrigerant,
    p: Pressure,
    t: Temperature,
) -> Result<Mass, Error> {
    let v = validate::not_negative("volume of the hose (cm³)", volume)?.m3();
    let rho = refrigerant.state(p, t)?.density();
    if rho > refrigerant.fluid().critical.value.density {
        return Err(Error::Impossible {
            what: "pressure in the hose (kPa absolute)",
            value: p.kpa(),
            must: "below saturation at its temperature: above it the hose holds liquid",
        });
    }
    validate::finite("holdup of the hose (g)", Mass::from_kg(v * rho.kg_per_m3()))
}

/// Mass that must leave the cylinder so that `charge` arrives: charge and [`hose_holdup`], from vapour to liquid.
///
/// Drawing the hose empty into the car narrows it to the lower end.
///
/// # Errors
/// [`Error::Impossible`] for a charge or a holdup below zero; [`Error::NotFinite`].
pub fn to_send(charge: Mass, holdup: &Range<Mass>) -> Result<Range<Mass>, Error> {
    validate::not_negative("charge (g)", charge)?;
    validate::not_negative("holdup of the hose (g)", holdup.low)?;
    let send = Range::new(charge + holdup.low, charge + holdup.high);
    validate::finite("mass to send (g)", send.high)?;
    Ok(send)
}

/// Mass that arrived in the circuit, by the scale under the cylinder: its loss less the [`hose_holdup`].
///
/// - **Equation** m = m₁ − m₂ − (m_v + m_l)/2; u² = u₁² + u₂² + ((m_l − m_v)/2)²/3.
///
/// # Errors
/// [`Error::Impossible`] for a cylinder that became heavier, or less sent than the hose holds as vapour.
pub fn arrived(before: &Measured<Mass>, after: &Measured<Mass>, holdup: &Range<Mass>) -> Result<Measured<Mass>, Error> {
    validate::not_negative("mass of the cylinder before (g)", before.value())?;
    validate::not_negative("mass of the cylinder after (g)", after.value())?;
    validate::not_negative("holdup of the hose (g)", holdup.low)?;
    let sent = before.value() - after.value();
    if sent < holdup.low {
        return Err(Error::Impossible {
            what: "refrigerant that left the cylinder (g)",
            value: sent.g(),
            must: "more than the hose holds; check which weighing was first",
        });
    }
    let from_hose = (holdup.high - holdup.low) * (0.5 / SQRT_3);
    let spread = Mass::combine(&[before.standard_uncertainty(), after.standard_uncertainty(), from_hose]);
    // sent less than the middle of the hose: nothing arrived for all that is known
    let arrived = (sent - holdup.at(0.5)).kg().max(0.0);
    Measured::new(Mass::from_kg(arrived), spread)
}

/// Fraction of a cylinder's water capacity that liquid may fill by weight, for a specific gravity of one: 80 %.
pub const CYLINDER_FILL: Sourced<Ratio> = Sourced { value: Ratio::from_percent(80.0), source: references::CYLINDERS };

/// Fraction of its gross weight rating to which a recovery container may be filled.
pub const RECOVERY_FILL: Sourced<Ratio> = Sourced { value: Ratio::from_percent(60.0), source: references::APPENDIX_A };

/// Specific gravities of liquid refrigerants, from propane when hot to R-12 when cold, and some room. Our choice.
const PLAUSIBLE_GRAVITY: (f64, f64) = (0.3, 2.0);

/// Largest mass of refrigerant a cylinder may hold: 80 % × water capacity × specific gravity of the liquid.
///
/// ```
/// use approx::assert_abs_diff_eq;
/// use satline::Mass;
/// use satline::service::charge::cylinder_limit;
/// // the printed example: 0.80 × 1000 lb × 1.197 = 957.6 lb of R-22
/// assert_abs_diff_eq!(cylinder_limit(Mass::from_lb(1000.0), 1.197)?.lb(), 957.6, epsilon = 1e-9); // rounding
/// # Ok::<(), satline::Error>(())
/// ```
///
/// # Errors
/// [`Error::Impossible`] for a capacity that is not above zero; [`Error::OutsideLimits`] for a specific gravity outside 0.3 to 2.
pub fn cylinder_limit(water_capacity: Mass, specific_gravity: f64) -> Result<Mass, Error> {
    validate::positive("water capacity (g)", water_capacity)?;
    let (low, high) = PLAUSIBLE_GRAVITY;
    if !(low..=high).contains(&specific_gravity) {
        let what = "specific gravity";
        return Err(Error::OutsideLimits { what, value: specific_gravity, low, high, unit: "times water" });
    }
    validate::finite(
        "most that the cylinder may hold (g)",
        water_capacity * (CYLINDER_FILL.value.fraction() * specific_gravity),
    )
}

#[cfg(feature = "serde")]
validate::serde_as_text!(ChargeLabel, |label| label.text());
