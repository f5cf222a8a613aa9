//! Charge that was recovered and weighed.

use crate::quantity::SQRT_3;
use crate::service::charge::TOLERANCE;
use crate::{Error, Mass, Measured, Quantity, Range, Ratio, Source, Sourced, Trust};

/// Fraction of the charge that recovery removes, all values in the range equally likely: the standard requires 95 % at
/// 21 to 24 °C within half an hour. Older or hurried equipment leaves up to 18 % at 21 °C (a summary of SAE J2762:2017
/// says so of equipment to SAE J2210): give [`RecoveredCharge::mass`] a larger uncertainty then.
pub const RECOVERED_FRACTION: Sourced<Range<Ratio>> = Sourced {
    value: Range::new(Ratio::from_percent(95.0), Ratio::from_percent(100.0)),
    source: Source {
        work: "SAE J2788:2020, recovery equipment for R-134a",
        locator: "least share removed from the test system; a summary was read",
        doi: None,
        trust: Trust::Weak,
    },
};

/// Nominal charges from the smallest car to an articulated bus, as in [`service::charge`](crate::service::charge);
/// common practice.
const PLAUSIBLE_NOMINAL: Range<Mass> = Range::new(Mass::from_g(100.0), Mass::from_kg(20.0));

/// Largest recovered mass over the nominal charge; our choice.
const MOST_RECOVERED: f64 = 3.0;

/// Charge that was recovered and weighed, with the nominal charge.
#[derive(Debug, Clone, Copy, PartialEq)]
#[cfg_attr(
    feature = "serde",
    derive(serde::Serialize, serde::Deserialize),
    serde(try_from = "PlainRecoveredCharge", into = "PlainRecoveredCharge")
)]
pub struct RecoveredCharge {
    mass: Measured<Mass>,
    nominal_charge: Mass,
}

impl RecoveredCharge {
    /// Recovered charge from the mass on the scale, with a limit of error of 15 g, and the nominal charge on the label.
    ///
    /// # Errors
    /// [`Error::Implausible`] for a nominal charge below 100 g or above 20 kg, or more than three times as much recovered.
    ///
    /// ```
    /// use approx::assert_abs_diff_eq;
    /// use satline::inspection::RecoveredCharge;
    /// use satline::Mass;
    /// let out = RecoveredCharge::new(Mass::from_g(310.0), Mass::from_g(550.0))?;
    /// assert_abs_diff_eq!(out.fraction().percent(), 56.4, epsilon = 0.05); // half its last digit
    /// assert!(RecoveredCharge::new(Mass::from_g(310.0), Mass::from_g(0.55)).is_err());
    /// # Ok::<(), satline::Error>(())
    /// ```
    pub fn new(mass: Mass, nominal_charge: Mass) -> Result<Self, Error> {
        // a limit of error counts as a rectangular distribution
        let standard = TOLERANCE.value * (1.0 / SQRT_3);
        Self::measured(Measured::new(mass, standard)?, nominal_charge)
    }

    /// Recovered charge from a mass with its own standard uncertainty, and the nominal charge on the label.
    ///
    /// # Errors
    /// As [`RecoveredCharge::new`].
    pub fn measured(mass: Measured<Mass>, nominal_charge: Mass) -> Result<Self, Error> {
        let within = |what, value: f64, low: f64, high: f64| {
            if (low..=high).contains(&value) {
                return Ok(());
            }
            Err(Error::Implausible { what, value, low, high, unit: "g" })
        };
        let plausible = PLAUSIBLE_NOMINAL;
        within("nominal charge", nominal_charge.g(), plausible.low.g(), plausible.high.g())?;
        let most = MOST_RECOVERED * nominal_charge.g();
        within("recovered charge", mass.value().g(), 0.0, most)?;
        within("standard uncertainty of the recovered charge", mass.standard_uncertainty().g(), 0.0, most)?;
        Ok(Self { mass, nominal_charge })
    }

    /// Mass recovered; what recovery leaves behind ([`RECOVERED_FRACTION`]) is not in its uncertainty.
    pub fn mass(&self) -> Measured<Mass> {
        self.mass
    }

    /// Nominal charge, as on the label.
    pub fn nominal_charge(&self) -> Mass {
        self.nominal_charge
    }

    /// Mass recovered over the nominal charge.
    pub fn fraction(&self) -> Ratio {
        Ratio::from_fraction(self.mass.value() / self.nominal_charge)
    }

    /// Standard uncertainty of [`RecoveredCharge::fraction`] due to the scale.
    pub(crate) fn fraction_uncertainty(&self) -> f64 {
        self.mass.standard_uncertainty().si() / self.nominal_charge.si()
    }
}

/// A recovered charge as JSON has it, before it is checked.
#[cfg(feature = "serde")]
#[derive(serde::Serialize, serde::Deserialize)]
#[serde(deny_unknown_fields)]
struct PlainRecoveredCharge {
    mass: Measured<Mass>,
    nominal_charge: Mass,
}

#[cfg(feature = "serde")]
impl From<RecoveredCharge> for PlainRecoveredCharge {
    fn from(checked: RecoveredCharge) -> Self {
        Self { mass: checked.mass, nominal_charge: checked.nominal_charge }
    }
}

#[cfg(feature = "serde")]
impl TryFrom<PlainRecoveredCharge> for RecoveredCharge {
    type Error = Error;

    fn try_from(plain: PlainRecoveredCharge) -> Result<Self, Error> {
        Self::measured(plain.mass, plain.nominal_charge)
    }
}
