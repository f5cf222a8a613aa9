//! Printed limits of the pressure in a recovery cylinder of recycled refrigerant, above which it holds too much air.
//!
//! The regulations print a whole number of psi for each °F. The columns are interpolated between rows and never fitted: that of
//! R-12 is about 10 psi above saturation and 12 psi between 80 and 83 °F, and a curve through it would move the limit.

use super::acceptance::AcceptanceOutcome;
use crate::quantity::Uncertainty;
use crate::{Error, GaugePressure, Measured, PressureDifference, Range, Refrigerant, Source, Temperature, Trust};

/// A printed column: gauge pressures in psi from `first` °F on, one row a degree.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct CylinderTable {
    /// For which refrigerant.
    pub(crate) refrigerant: Refrigerant,
    /// Temperature of the first row, °F.
    pub(crate) first_f: u8,
    /// Gauge pressure, psi.
    pub(crate) psi: &'static [u8],
    /// Where the rows come from.
    pub(crate) source: Source,
    /// First temperatures, °F, of runs of five rows of which the pressure in kgf/cm² was read and agrees.
    pub(crate) read_f: &'static [u8],
}

/// R-12: the psi of every row are from memory; of half of them the metric value was read, and agrees.
pub(crate) const R12: CylinderTable = CylinderTable {
    refrigerant: Refrigerant::R12,
    first_f: 65,
    psi: &[
        74, 75, 76, 78, 79, // 65 °F
        80, 82, 83, 84, 86, // 70 °F
        87, 88, 90, 92, 94, // 75 °F
        96, 98, 99, 100, 101, // 80 °F
        102, 103, 105, 107, 108, // 85 °F
        110, 111, 113, 115, 116, // 90 °F
        118, 120, 122, 124, 125, // 95 °F
        127, 129, 130, 132, 134, // 100 °F
        136, 138, 140, 142, 144, // 105 °F
        146, 148, 150, 152, 154, // 110 °F
    ],
    source: Source {
        work: "40 CFR Part 82 Subpart B Appendix A (SAE J1989), edition of 1996",
        locator: "table 1; psi from memory",
        doi: None,
        trust: Trust::FromMemory,
    },
    read_f: &[70, 80, 90, 100, 110],
};

/// R-134a: from memory as a whole.
pub(crate) const R134A: CylinderTable = CylinderTable {
    refrigerant: Refrigerant::R134a,
    first_f: 65,
    psi: &[
        69, 70, 71, 73, 74, // 65 °F
        76, 77, 79, 80, 82, // 70 °F
        83, 85, 86, 88, 90, // 75 °F
        91, 93, 95, 96, 98, // 80 °F
        100, 102, 103, 105, 107, // 85 °F
        109, 111, 113, 115, 117, // 90 °F
        118, 120, 122, 125, 127, // 95 °F
        129, 131, 133, 135, 137, // 100 °F
        139, 142, 144, 146, 149, // 105 °F
        151, 153, 156, 158, 160, // 110 °F
        163, 165, 168, 171, 173, // 115 °F
        176, // 120 °F
    ],
    source: Source {
        work: "40 CFR Part 82 Subpart B (SAE J2211), editions of 1997 to 2007",
        locator: "table for HFC-134a",
        doi: None,
        trust: Trust::FromMemory,
    },
    read_f: &[],
};

/// A recovery cylinder compared with its printed limit of pressure.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub struct RecoveryCylinderCheck {
    /// Printed limit at the measured temperature, uncertain with it.
    pub limit: Measured<GaugePressure>,
    /// Pressure read minus limit: above zero there is too much air.
    pub above: Measured<PressureDifference>,
    /// Outcome against the limit. One that fails: vent the vapour slowly into recovery, wait, read again; still above,
    /// recycle the content.
    pub outcome: AcceptanceOutcome,
    /// Probability that the pressure keeps the limit, given the instruments.
    pub probability_kept: f64,
    /// Source of the limit, with the trust of the rows used.
    pub source: Source,
}

/// Printed limit for `refrigerant` at `t`, interpolated between the two rows around it.
///
/// ```
/// use approx::assert_abs_diff_eq;
/// use satline::service::recovery_cylinder::limit;
/// use satline::{Refrigerant, Temperature};
/// let at = |f| limit(Refrigerant::R12, Temperature::from_fahrenheit(f));
/// assert_abs_diff_eq!(at(80.5)?.psi(), 97.0, epsilon = 1e-9); // rows: 80 °F 96 psi, 81 °F 98 psi, rounding
/// assert!(at(60.0).is_err());
/// # Ok::<(), satline::Error>(())
/// ```
///
/// # Errors
/// [`Error::Missing`] for a refrigerant without a printed limit, such as R-1234yf; [`Error::OutOfRange`] outside the rows.
pub fn limit(refrigerant: Refrigerant, t: Temperature) -> Result<GaugePressure, Error> {
    CylinderTable::printed_for(refrigerant)?.limit(t).map(|(limit, _)| limit)
}

/// Compares the pressure of a recovery cylinder that has rested with the printed limit for `refrigerant`.
///
/// - **Uncertainty** u² = u_p² + (u_T dlimit/dT)², the slope over one standard uncertainty of temperature on either side.
///
/// ```
/// use satline::service::{acceptance::AcceptanceOutcome, recovery_cylinder};
/// use satline::{GaugePressure, Measured, PressureDifference, Refrigerant, Temperature, TemperatureDifference};
/// let gauge = Measured::new(GaugePressure::from_psi(95.0), PressureDifference::from_psi(1.0))?;
/// let t = Measured::new(Temperature::from_fahrenheit(77.0), TemperatureDifference::from_fahrenheit_steps(1.0))?;
/// let check = recovery_cylinder::check(Refrigerant::R134a, &gauge, &t)?; // limit 86 psi
/// assert_eq!(check.outcome, AcceptanceOutcome::Fails);
/// # Ok::<(), satline::Error>(())
/// ```
///
/// # Errors
/// As [`limit`].
pub fn check(
    refrigerant: Refrigerant,
    gauge: &Measured<GaugePressure>,
    temperature: &Measured<Temperature>,
) -> Result<RecoveryCylinderCheck, Error> {
    CylinderTable::printed_for(refrigerant)?.check(gauge, temperature)
}

impl CylinderTable {
    /// The printed column of a refrigerant.
    fn printed_for(refrigerant: Refrigerant) -> Result<&'static Self, Error> {
        match refrigerant {
            Refrigerant::R12 => Ok(&R12),
            Refrigerant::R134a => Ok(&R134A),
            _ => Err(Error::Missing {
                what: "a printed limit of air in a cylinder of this refrigerant",
                way_out: "only R-12 and R-134a have one; read the pressure over the liquid as air instead (Purity)",
            }),
        }
    }

    /// Temperatures of the first and the last row.
    pub(crate) fn range(&self) -> Range<Temperature> {
        let last = f64::from(self.first_f) + (self.psi.len().saturating_sub(1)) as f64;
        Range::new(Temperature::from_fahrenheit(f64::from(self.first_f)), Temperature::from_fahrenheit(last))
    }

    /// The limit at `t`, interpolated between the two rows around it, and whether both of them were read.
    ///
    /// # Errors
    /// [`Error::OutOfRange`] outside the rows.
    pub(crate) fn limit(&self, t: Temperature) -> Result<(GaugePressure, Trust), Error> {
        let range = self.range();
        /// A printed °F stands for what differs from it by rounding alone; our choice.
        const SLACK: f64 = 1e-9;
        let slack = SLACK;
        let row = t.fahrenheit() - f64::from(self.first_f);
        let last = self.psi.len().saturating_sub(1);
        if !(-slack <= row && row <= last as f64 + slack) {
            return Err(Error::OutOfRange {
                what: "temperature of the container",
                value: t.fahrenheit(),
                low: range.low.fahrenheit(),
                high: range.high.fahrenheit(),
                unit: "°F",
            });
        }
        let row = if (row - row.round()).abs() <= slack { row.round() } else { row };
        let below = row.floor() as usize;
        let above = (below + 1).min(last);
        let at = |row: usize| self.psi.get(row).copied().map_or(f64::NAN, f64::from);
        let share = row - below as f64;
        let psi = at(below) + share * (at(above) - at(below));
        let rows = if share > 0.0 { [below, above] } else { [below, below] };
        let read = rows.iter().all(|&row| {
            let f = usize::from(self.first_f) + row;
            self.read_f.iter().any(|&from| (usize::from(from)..usize::from(from) + 5).contains(&f))
        });
        let trust = if read { Trust::Excerpt } else { self.source.trust };
        Ok((GaugePressure::from_psi(psi), trust))
    }

    fn check(
        &self,
        gauge: &Measured<GaugePressure>,
        temperature: &Measured<Temperature>,
    ) -> Result<RecoveryCylinderCheck, Error> {
        let (limit, trust) = self.limit(temperature.value())?;
        // at an end of the column one side alone
        let step = temperature.standard_uncertainty();
        let side = |t| self.limit(t).map(|(limit, _)| limit);
        let spread = match (side(temperature.value() - step), side(temperature.value() + step)) {
            (Ok(low), Ok(high)) => (high - low) * 0.5,
            (Ok(low), Err(_)) => limit - low,
            (Err(_), Ok(high)) => high - limit,
            (Err(error), Err(_)) => return Err(error),
        };
        let limit = Measured::new(limit, spread)?;
        let standard = PressureDifference::combine(&[gauge.standard_uncertainty(), spread]);
        let above = Measured::new(gauge.value() - limit.value(), standard)?;
        let outcome = match above.value() {
            value if value > above.expanded() => AcceptanceOutcome::Fails,
            value if -value >= above.expanded() => AcceptanceOutcome::Passes,
            _ => AcceptanceOutcome::Open,
        };
        let zero = PressureDifference::from_pa(0.0);
        // without any uncertainty the limit itself is kept
        let exact = if above.value() <= zero { 1.0 } else { 0.0 };
        let probability_kept = if standard > zero { above.probability_below(zero) } else { exact };
        Ok(RecoveryCylinderCheck { limit, above, outcome, probability_kept, source: Source { trust, ..self.source } })
    }
}
