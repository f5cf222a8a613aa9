//! Evacuation: how deep a vacuum is, whether water boils in it, how deep it must be, and published targets.
//!
//! Water leaves a circuit as vapour, and evaporates while the pressure is below its saturation pressure at the temperature of
//! the coldest wet part; below 0.01 °C it is ice and does the same, more slowly. A compound gauge is read to some kilopascals
//! and cannot show that pressure: the answers here carry the gauge's uncertainty and say when it leaves them open.

use super::acceptance::{AcceptanceOutcome, minutes};
use super::leak_throughput::R;
use super::validate;
use crate::air::water;
use crate::quantity::{Time, Uncertainty};
use crate::{
    Error, GaugePressure, Mass, Measured, Pressure, PressureDifference, Range, Source, Sourced, Temperature,
    TemperatureDifference, Trust, Volume,
};

/// Molar mass of water, kg/mol: IAPWS R6-95(2018), section 2.
const WATER: f64 = 0.018_015_268;

/// Absolute pressure of a vacuum that was read on a gauge.
///
/// - **Equation** p = p_gauge + p_air. **Uncertainty** u² = u_gauge² + u_air².
///
/// The best estimate may come out at zero or below: a gauge that is read to a kilopascal shows that in every good vacuum.
/// Only what lies below zero with its whole 95 % interval is refused.
///
/// ```
/// use satline::quantity::instrument::PressureGauge;
/// use satline::service::evacuation;
/// use satline::{GaugePressure, Length, air};
/// let gauge = PressureGauge::SERVICE_LOW.read(GaugePressure::from_inhg(-24.0))?;
/// let vacuum = evacuation::absolute(&gauge, &air::pressure_at(Length::from_ft(5000.0))?)?;
/// assert_eq!(format!("{:.1} ± {:.0} kPa", vacuum.value().kpa(), vacuum.expanded().kpa()), "3.0 ± 20 kPa");
/// # Ok::<(), satline::Error>(())
/// ```
///
/// # Errors
/// [`Error::BelowVacuum`]; [`Error::NotVacuum`] for a gauge above zero by more than its 95 % interval.
pub fn absolute(gauge: &Measured<GaugePressure>, air: &Measured<Pressure>) -> Result<Measured<Pressure>, Error> {
    let standard = PressureDifference::combine(&[gauge.standard_uncertainty(), air.standard_uncertainty()]);
    let vacuum = Measured::new(gauge.value().absolute(air.value()), standard)?;
    if gauge.value().pa() > gauge.expanded().pa() {
        return Err(Error::NotVacuum { kpa: vacuum.value().kpa(), air_kpa: air.value().kpa() });
    }
    if (vacuum.value() + vacuum.expanded()).pa() <= 0.0 {
        return Err(Error::BelowVacuum { value: vacuum.value().kpa(), air_kpa: air.value().kpa() });
    }
    Ok(vacuum)
}

/// A vacuum compared with the saturation pressure of water at the temperature of the coldest wet part.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub struct DryingCheck {
    /// Absolute pressure of the vacuum.
    pub vacuum: Measured<Pressure>,
    /// Saturation pressure of water at the temperature: the vacuum must be below it.
    pub needed: Measured<Pressure>,
    /// Whether water is ice at the temperature: below the triple point, 0.01 °C.
    pub frozen: bool,
    /// Pressure margin, `needed` minus `vacuum`: above zero it dries.
    pub margin: Measured<PressureDifference>,
    /// Temperature at which water boils, or ice sublimes, in this vacuum; `None` if its best estimate lies outside the
    /// saturation lines of water.
    pub boils_at: Option<Temperature>,
    /// Verdict on whether the vacuum dries: passes if `needed` is above `vacuum` with the whole 95 % interval.
    pub outcome: AcceptanceOutcome,
    /// Probability that the vacuum dries, given the instruments.
    pub probability: f64,
}

impl DryingCheck {
    /// Compares a vacuum with water at the temperature of the coldest wet part.
    ///
    /// - **Equation** margin = p_sat(T) − p, over ice below the triple point.
    /// - **Uncertainty** u² = u_p² + (u_T dp_sat/dT)².
    /// - **Source** [`water::LIQUID`], [`water::ICE`].
    ///
    /// ```
    /// use satline::service::{acceptance::AcceptanceOutcome, evacuation::DryingCheck};
    /// use satline::{Measured, Pressure, PressureDifference, Temperature, TemperatureDifference};
    /// // a vacuum gauge shows 500 micron, within a tenth; the coldest part has 15 °C, within 2 K
    /// let vacuum = Measured::new(Pressure::from_microns(500.0), PressureDifference::from_microns(30.0))?;
    /// let part = Measured::new(Temperature::from_celsius(15.0), TemperatureDifference::from_kelvins(1.2))?;
    /// let drying = DryingCheck::of(&vacuum, &part)?;
    /// assert_eq!(drying.outcome, AcceptanceOutcome::Passes);
    /// assert_eq!(format!("{:.1}", drying.boils_at.unwrap().celsius()), "-24.5");
    /// assert_eq!(format!("{:.0}", drying.needed.value().microns()), "12794");
    /// # Ok::<(), satline::Error>(())
    /// ```
    ///
    /// # Errors
    /// [`Error::OutOfRange`] for a temperature outside the lines of water.
    pub fn of(vacuum: &Measured<Pressure>, coldest: &Measured<Temperature>) -> Result<Self, Error> {
        let needed = saturation(coldest)?;
        let standard = PressureDifference::combine(&[vacuum.standard_uncertainty(), needed.standard_uncertainty()]);
        let margin = Measured::new(needed.value() - vacuum.value(), standard)?;
        let probability = 1.0 - margin.probability_below(PressureDifference::from_pa(0.0));
        let outcome = match margin.value() {
            value if value > margin.expanded() => AcceptanceOutcome::Passes,
            value if -value > margin.expanded() => AcceptanceOutcome::Fails,
            _ => AcceptanceOutcome::Open,
        };
        let frozen = coldest.value() < water::TRIPLE_POINT;
        let boils_at = water::saturation_temperature(vacuum.value()).ok();
        Ok(Self { vacuum: *vacuum, needed, frozen, margin, boils_at, outcome, probability })
    }

    /// Margin of the part's temperature above that at which water boils in this vacuum; above zero it dries.
    pub fn temperature_margin(&self, coldest: &Measured<Temperature>) -> Option<TemperatureDifference> {
        self.boils_at.map(|boils| coldest.value() - boils)
    }
}

/// Saturation pressure of water at a measured temperature.
fn saturation(t: &Measured<Temperature>) -> Result<Measured<Pressure>, Error> {
    let p = water::saturation_pressure(t.value())?;
    let (_, slope) = water::saturation_pressure_and_slope(t.value().kelvin());
    Measured::new(p, PressureDifference::from_pa(slope * t.standard_uncertainty().kelvins()))
}

/// Gauge reading at which water begins to boil at the temperature of the coldest wet part: deeper dries.
///
/// ```
/// use satline::service::evacuation::required_vacuum;
/// use satline::{Measured, Pressure, Temperature};
/// let part = Measured::exact(Temperature::from_fahrenheit(81.0))?;
/// let gauge = required_vacuum(&part, &Measured::exact(Pressure::STANDARD_ATMOSPHERE)?)?;
/// assert_eq!(format!("{:.1}", gauge.value().inhg()), "-28.9"); // US Army TM 5-3805-292-23 prints 28.8
/// # Ok::<(), satline::Error>(())
/// ```
///
/// # Errors
/// [`Error::OutOfRange`] for a temperature outside the lines of water; [`Error::NotVacuum`] where water boils in the open.
pub fn required_vacuum(
    coldest: &Measured<Temperature>,
    air: &Measured<Pressure>,
) -> Result<Measured<GaugePressure>, Error> {
    let absolute = saturation(coldest)?;
    if absolute.value() >= air.value() {
        return Err(Error::NotVacuum { kpa: absolute.value().kpa(), air_kpa: air.value().kpa() });
    }
    let standard = PressureDifference::combine(&[absolute.standard_uncertainty(), air.standard_uncertainty()]);
    Measured::new(absolute.value().gauge(air.value()), standard)
}

/// Volume of vapour that a pump must move for a mass of water, at the pressure and temperature of the vapour.
///
/// - **Equation** V = m R T/(M p), perfect gas; within 0.2 % below 20 kPa.
///
/// ```
/// use satline::service::evacuation::vapour_volume;
/// use satline::{Mass, Pressure, Temperature};
/// let room = Temperature::from_celsius(22.0);
/// let volume = vapour_volume(Mass::from_g(1.0), Pressure::from_microns(500.0), room)?;
/// assert_eq!(format!("{:.0}", volume.l()), "2043");
/// # Ok::<(), satline::Error>(())
/// ```
///
/// # Errors
/// [`Error::Impossible`] for a mass, pressure or temperature that is not above zero.
pub fn vapour_volume(mass: Mass, pressure: Pressure, temperature: Temperature) -> Result<Volume, Error> {
    for (what, value) in [
        ("mass of water (kg)", mass.kg()),
        ("absolute pressure (Pa)", pressure.pa()),
        ("temperature (K)", temperature.kelvin()),
    ] {
        if !(value > 0.0 && value.is_finite()) {
            return Err(Error::Impossible { what, value, must: "above zero" });
        }
    }
    validate::finite(
        "volume of the vapour (m³)",
        Volume::from_m3(mass.kg() * R * temperature.kelvin() / (WATER * pressure.pa())),
    )
}

/// A published evacuation target: how deep, how fast and how long, as a manual prints it.
#[doc(hidden)]
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub struct EvacuationTarget {
    /// Short name of the target: whose it is, and how deep.
    pub name: &'static str,
    /// Gauge reading to reach at sea level, from the deepest to the shallowest printed.
    pub reach: Range<GaugePressure>,
    /// Time to reach it, or else a leak is suspected; `None` if none is printed.
    pub within: Option<Time>,
    /// Time to run on once it is reached, from the shortest to the longest printed.
    pub run: Range<Time>,
}

impl EvacuationTarget {
    /// Gauge reading at the same absolute pressure where the surrounding air is `air`; `None` for an end that is no
    /// pressure at all, such as 760 mmHg of vacuum taken to the letter.
    ///
    /// ```
    /// use approx::assert_abs_diff_eq;
    /// use satline::service::evacuation::TARGETS;
    /// use satline::{Length, air};
    /// let denver = air::pressure_at(Length::from_ft(5000.0))?;
    /// let [deepest, shallowest] = TARGETS[0].value.at(denver.value()).map(|end| end.map(|gauge| gauge.inhg()));
    /// // two manuals print 23 to 24.5 inHg for 5000 ft
    /// // half of the last digit printed
    /// assert_abs_diff_eq!(deepest.unwrap(), -24.5, epsilon = 0.05);
    /// assert_abs_diff_eq!(shallowest.unwrap(), -23.0, epsilon = 0.05);
    /// # Ok::<(), satline::Error>(())
    /// ```
    pub fn at(&self, air: Pressure) -> [Option<GaugePressure>; 2] {
        [self.reach.low, self.reach.high].map(|gauge| {
            let absolute = gauge.absolute(Pressure::STANDARD_ATMOSPHERE);
            (absolute.pa() > 0.0).then(|| absolute.gauge(air)).filter(|gauge| gauge.pa().is_finite())
        })
    }

    /// Probability that a vacuum is as deep as the shallowest that is asked for.
    pub fn probability_reached(&self, vacuum: &Measured<Pressure>) -> f64 {
        vacuum.probability_below(self.reach.high.absolute(Pressure::STANDARD_ATMOSPHERE))
    }
}

const fn inches(deepest: f64, shallowest: f64) -> Range<GaugePressure> {
    Range::new(GaugePressure::from_inhg(-deepest), GaugePressure::from_inhg(-shallowest))
}

const fn kilopascals(depth: f64) -> Range<GaugePressure> {
    Range::new(GaugePressure::from_kpa(-depth), GaugePressure::from_kpa(-depth))
}

const fn millimetres(depth: f64) -> Range<GaugePressure> {
    // a millimetre of mercury is a thousand microns
    let gauge = GaugePressure::from_microns(-1e3 * depth);
    Range::new(gauge, gauge)
}

const fn manual(work: &'static str, locator: &'static str) -> Source {
    Source { work, locator, doi: None, trust: Trust::Excerpt }
}

/// Published targets that were found; `tables/service/evacuation.csv` has them as printed, with more of the manuals.
pub const TARGETS: [Sourced<EvacuationTarget>; 8] = [
    Sourced {
        value: EvacuationTarget {
            name: "US service manuals, 28 to 29.5 inHg",
            reach: inches(29.5, 28.0),
            within: Some(Time::from_minutes(5.0)),
            run: minutes(15.0, 30.0),
        },
        source: manual(
            "US service manuals with one text: Ford Festiva 1989, Mazda 929 1993, Mercury Topaz 1994, GMC Yukon 1992",
            "30 min at least; GMC Yukon 15 to 30 min, longer if long open",
        ),
    },
    Sourced {
        value: EvacuationTarget {
            name: "Cadillac Fleetwood 1989, 28 inHg",
            reach: inches(28.0, 28.0),
            within: None,
            run: minutes(15.0, 30.0),
        },
        source: manual("Cadillac Fleetwood 1989", "15 min routine, 20 to 30 min if parts were replaced"),
    },
    Sourced {
        value: EvacuationTarget {
            name: "Ford Escort 1994, 25 to 30 inHg",
            reach: inches(30.0, 25.0),
            within: None,
            run: minutes(15.0, 45.0),
        },
        source: manual(
            "Ford Escort 1994",
            "25 inHg at least, 30 if possible; 15 min, 20 to 30 more if a part was replaced",
        ),
    },
    Sourced {
        value: EvacuationTarget {
            name: "Mazda 3 2004, 101 kPa",
            reach: kilopascals(101.0),
            within: None,
            run: minutes(15.0, 15.0),
        },
        source: manual("Mazda 3 2004, service manual", "evacuating, printed with 760 mmHg and 29.9 inHg"),
    },
    Sourced {
        value: EvacuationTarget {
            name: "Hyundai Tucson 2009, Acura Legend 1993 and RDX 2007, 700 mmHg",
            reach: millimetres(700.0),
            within: Some(Time::from_minutes(15.0)),
            run: minutes(0.0, 0.0),
        },
        source: manual("Hyundai Tucson 2009, Acura Legend 1993, Acura RDX 2007", "a line to be passed, or else a leak"),
    },
    Sourced {
        value: EvacuationTarget {
            name: "Suzuki Vitara 2004, 760 mmHg",
            reach: millimetres(760.0),
            within: Some(Time::from_minutes(10.0)),
            run: minutes(5.0, 5.0),
        },
        source: manual("Suzuki Vitara 2004", "about 10 min to reach, 15 min in all; to the letter zero absolute"),
    },
    Sourced {
        value: EvacuationTarget {
            name: "Kia Optima 2001, 94.39 kPa",
            reach: kilopascals(94.39),
            within: Some(Time::from_minutes(10.0)),
            run: minutes(15.0, 30.0),
        },
        source: manual("Kia Optima 2001", "then 15 min, 30 min if a component was opened"),
    },
    Sourced {
        value: EvacuationTarget {
            name: "US Army, 28 to 29 inHg",
            reach: inches(29.0, 28.0),
            within: None,
            run: minutes(90.0, 90.0),
        },
        source: manual("US Army TM 5-2420-230-24-1, p. 19-7; TM 5-3805-292-23, p. 0093-4", "then 90 min more"),
    },
];

/// Final absolute pressure that a vacuum gauge is to show, each with its source.
pub const DEEP_VACUUM: [Sourced<Range<Pressure>>; 2] = [
    Sourced {
        value: Range::new(Pressure::from_microns(500.0), Pressure::from_microns(500.0)),
        source: Source {
            work: "Evacuating an A/C system, page of the trade site youracauthority.com",
            locator: "28.9 inHg is about 25 000 micron, and a compound gauge cannot show 500",
            doi: None,
            trust: Trust::Weak,
        },
    },
    Sourced {
        value: Range::new(Pressure::from_microns(500.0), Pressure::from_microns(1000.0)),
        source: Source::COMMON_PRACTICE,
    },
];
