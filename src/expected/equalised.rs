//! Check of an equalised circuit, engine off: both gauges should show saturation at the surrounding temperature.

use super::chart_set::Verdict;
use super::charts::EQUALISED_DIFFERENCE;
use crate::line::absolute;
use crate::quantity::{Position, Uncertainty};
use crate::saturation::Lines;
use crate::{Error, GaugePressure, Measured, Pressure, PressureDifference, Range, Temperature};

/// Both gauges of an equalised circuit compared with saturation.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub struct EqualisedCheck {
    /// Gauge pressure expected at the surrounding temperature, with its uncertainty.
    pub expected: Measured<GaugePressure>,
    /// Mean of both gauge pressures, weighted by 1/u².
    pub read: Measured<GaugePressure>,
    /// Difference of the gauges, high side minus low side.
    pub difference: Measured<PressureDifference>,
    /// Verdict on the equalised circuit.
    pub verdict: EqualisedVerdict,
    /// Probability of the verdict given the instruments; `None` at saturation, where one can state agreement alone.
    pub probability: Option<f64>,
    /// Smallest difference from saturation that these instruments would show.
    pub noticeable: PressureDifference,
}

/// Verdict on the gauges of an equalised circuit, compared with saturation.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(rename_all = "kebab-case"))]
pub enum EqualisedVerdict {
    /// Not equalised: the gauges still differ by more than they may; wait, or a passage is closed.
    NotEqualised,
    /// Below saturation: no liquid is left, or the circuit is colder than the air.
    LiquidGone,
    /// At saturation: liquid is present, but the pressure does not show how much.
    AtSaturation,
    /// Above saturation: air or another refrigerant is inside, or the circuit is warmer than the air.
    AboveSaturation,
}

impl EqualisedCheck {
    /// Compares both gauges of an equalised circuit with saturation of `refrigerant` at `ambient`.
    ///
    /// For a blend an equalised circuit is between bubble and dew pressure; below the dew line no liquid is left, above
    /// the bubble line there is something else inside.
    ///
    /// - **Range** the saturation lines; R-744 only below its critical temperature.
    /// - **Uncertainty** gauges, air pressure and the temperature through the slope of the line.
    /// - **Source** physics; the largest difference between the gauges is [`EQUALISED_DIFFERENCE`].
    ///
    /// ```
    /// use satline::{GaugePressure, Measured, Pressure, PressureDifference, Refrigerant, Temperature, TemperatureDifference};
    /// use satline::expected::{EqualisedCheck, EqualisedVerdict};
    /// let gauge = |bar| Measured::new(GaugePressure::from_bar(bar), PressureDifference::from_bar(0.1));
    /// let finding = EqualisedCheck::of(
    ///     Refrigerant::R134a,
    ///     &gauge(6.7)?, // a maker's value for 30 °C
    ///     &gauge(6.7)?,
    ///     &Measured::exact(Pressure::STANDARD_ATMOSPHERE)?,
    ///     &Measured::new(Temperature::from_celsius(30.0), TemperatureDifference::from_kelvins(1.0))?,
    /// )?;
    /// assert_eq!(finding.verdict, EqualisedVerdict::AtSaturation);
    /// # Ok::<(), satline::Error>(())
    /// ```
    ///
    /// # Errors
    /// [`Error::OutOfRange`] for a temperature outside the saturation lines; [`Error::BelowVacuum`].
    pub fn of<R: Lines>(
        refrigerant: R,
        low: &Measured<GaugePressure>,
        high: &Measured<GaugePressure>,
        air: &Measured<Pressure>,
        ambient: &Measured<Temperature>,
    ) -> Result<Self, Error> {
        absolute(low, air)?;
        absolute(high, air)?;
        let t = ambient.value();
        let range = Range::new(
            refrigerant.dew_pressure(t)?.gauge(air.value()),
            refrigerant.bubble_pressure(t)?.gauge(air.value()),
        );
        // u = u_T dp/dT, and the barometer that turns absolute into gauge
        let slope = refrigerant.bubble_slope_pa_per_kelvin(t)?;
        let from_temperature = PressureDifference::from_pa(ambient.standard_uncertainty().kelvins() * slope);
        let standard = PressureDifference::combine(&[from_temperature, air.standard_uncertainty()]);
        let expected = Measured::new(range.at(0.5), standard)?;

        // two gauges, independent: the mean that gives the finer one its due, weights 1/u²
        let both = PressureDifference::combine(&[low.standard_uncertainty(), high.standard_uncertainty()]);
        let (u_low, u_high) = (low.standard_uncertainty().pa(), high.standard_uncertainty().pa());
        let share = if both.pa() > 0.0 { (u_low / both.pa()).powi(2) } else { 0.5 };
        let of_mean = if both.pa() > 0.0 { u_low * u_high / both.pa() } else { 0.0 };
        let read =
            Measured::new(Range::new(low.value(), high.value()).at(share), PressureDifference::from_pa(of_mean))?;
        let difference = Measured::new(high.value() - low.value(), both)?;

        // the 95 % interval of everything that was measured: what lies inside cannot be told from saturation
        let combined =
            Measured::new(read.value(), PressureDifference::combine(&[read.standard_uncertainty(), standard]))?;
        let noticeable = combined.expanded();
        let [below, _, above] = combined.probabilities(&range);

        let limit = EQUALISED_DIFFERENCE.value;
        let levelled = Verdict::of(&difference, &Range::new(-limit, limit));
        // gauges that agree within what they can show may be coarser than the limit
        let apart = difference.value().pa().abs() > difference.expanded().pa();
        let (verdict, probability) = if levelled.position != Position::Within && apart {
            (EqualisedVerdict::NotEqualised, Some(levelled.probability))
        } else if read.value() < range.low - noticeable {
            (EqualisedVerdict::LiquidGone, Some(below))
        } else if read.value() > range.high + noticeable {
            (EqualisedVerdict::AboveSaturation, Some(above))
        } else {
            (EqualisedVerdict::AtSaturation, None)
        };
        Ok(Self { expected, read, difference, verdict, probability, noticeable })
    }
}
