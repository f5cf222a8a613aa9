//! Quantities that can be measured on a circuit, one row of a table each.

use crate::circuit::SteadyState;
use crate::{Error, Pressure};

/// Kind of number that a measurand has.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
#[non_exhaustive]
pub enum MeasurandKind {
    /// Gauge pressure; the diagnosis compares logarithms of the absolute pressure in Pa.
    Pressure,
    /// Temperature; compared in °C.
    Temperature,
    /// Fraction of time or of the nominal charge; compared as a fraction.
    Share,
}

/// Operating state in which a measurand is measured, from the first of a visit to the last.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
#[non_exhaustive]
pub enum MeasuredWhen {
    /// Compressor called for.
    Running,
    /// Engine off, pressures and temperatures equalised.
    Equalised,
    /// Charge recovered.
    Recovered,
}

/// Effort of a measurement, from the least to the greatest.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(rename_all = "kebab-case"))]
#[non_exhaustive]
pub enum Effort {
    /// Reading or looking at what is already in place.
    Look,
    /// Clamping a thermometer.
    Clamp,
    /// Stopping the engine until the circuit has equalised.
    Stop,
    /// Recovering and weighing the charge.
    Recover,
}

/// Row of the table of measurands.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Row {
    pub(crate) id: &'static str,
    /// Name in messages.
    pub(crate) name: &'static str,
    /// Names of its column in a log, in lower case, the longest first.
    pub(crate) columns: &'static [&'static str],
    pub(crate) kind: MeasurandKind,
    pub(crate) when: MeasuredWhen,
    pub(crate) effort: Effort,
    /// Values that a workshop can read: kPa (gauge), °C or a fraction.
    pub(crate) plausible: (f64, f64),
    /// Standard uncertainty of the usual instrument: of ln p at the usual pressure, in K, or of the share.
    pub(crate) usual_uncertainty: f64,
    /// Standard uncertainty of the model for a healthy circuit of the street, in the same units.
    pub(crate) model_uncertainty: f64,
    /// Change of the measurand per kelvin of ambient temperature, in the same units.
    pub(crate) per_kelvin_of_ambient: f64,
    /// Value in a simulated steady state, in the unit of comparison; `None` for what is not measured on a running
    /// circuit.
    pub(crate) simulated: Option<fn(&SteadyState, Pressure) -> f64>,
}

/// Table of measurands: an enum of all of them and a row for each.
macro_rules! measurands {
    ($($(#[$doc:meta])* $variant:ident { $($field:ident: $value:expr,)* })*) => {
        /// Quantity that can be measured on a circuit.
        #[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
        #[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
        #[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(rename_all = "kebab-case"))]
        #[non_exhaustive]
        pub enum Measurand { $($(#[$doc])* $variant,)* }

        impl Measurand {
            /// All measurands, in the order of the table.
            pub const ALL: &'static [Self] = &[$(Self::$variant,)*];

            /// Number of measurands.
            pub(crate) const COUNT: usize = Self::ALL.len();

            pub(crate) const fn row(self) -> &'static Row {
                const TABLE: [Row; Measurand::COUNT] = [$(Row { $($field: $value,)* },)*];
                &TABLE[self as usize]
            }
        }
    };
}

/// Least absolute pressure whose logarithm is taken, Pa, so that a simulated vacuum remains a number; our choice.
const LEAST_ABSOLUTE_PA: f64 = 1e3;
/// Lowest gauge pressure that an instrument shows, kPa: full vacuum in the densest air; our choice.
const LOWEST_GAUGE_KPA: f64 = -110.0;

measurands! {
    /// Low-side gauge pressure.
    LowSide {
        id: "low-side",
        name: "low side",
        columns: &["low side", "low"],
        kind: MeasurandKind::Pressure,
        when: MeasuredWhen::Running,
        effort: Effort::Look,
        // full vacuum in the densest air; no R-744 low side reaches the critical pressure of 7.4 MPa twice. Our choice.
        plausible: (LOWEST_GAUGE_KPA, 15_000.0),
        usual_uncertainty: 0.03, // class 1.6 of a low-side service gauge at 340 kPa absolute: common practice
        model_uncertainty: 0.07, // printed ladders, `tables/WINDOWS.md`
        per_kelvin_of_ambient: 0.02, // our estimate: either side moves by about 2 % a kelvin
        simulated: Some(|state, air| state.low_side.absolute(air).pa().max(LEAST_ABSOLUTE_PA).ln()),
    }
    /// High-side gauge pressure.
    HighSide {
        id: "high-side",
        name: "high side",
        columns: &["high side", "high"],
        kind: MeasurandKind::Pressure,
        when: MeasuredWhen::Running,
        effort: Effort::Look,
        // beyond the burst discs of R-744 circuits (from memory)
        plausible: (LOWEST_GAUGE_KPA, 20_000.0),
        usual_uncertainty: 0.02, // class 1.6 of a high-side service gauge at 1700 kPa absolute: common practice
        model_uncertainty: 0.085, // printed ladders, `tables/WINDOWS.md`
        per_kelvin_of_ambient: 0.02, // our estimate
        simulated: Some(|state, air| state.high_side.absolute(air).pa().max(LEAST_ABSOLUTE_PA).ln()),
    }
    /// Temperature of the suction line beside the low-side service port, downstream of any internal heat exchanger.
    SuctionLine {
        id: "suction-line",
        name: "suction line",
        columns: &["suction line"],
        kind: MeasurandKind::Temperature,
        when: MeasuredWhen::Running,
        effort: Effort::Clamp,
        plausible: PLAUSIBLE_LINE_C,
        usual_uncertainty: 1.2, // thermocouple of class 1, clamped on a line 44 K from the air (IEC 60584-1:2013, Title 24 2008)
        model_uncertainty: 2.0, // our estimate
        per_kelvin_of_ambient: 0.7, // our estimate
        simulated: Some(|state, _| state.suction_line.celsius()),
    }
    /// Temperature of the evaporator outlet: the refrigerant line where it leaves the evaporator, upstream of any hose
    /// or internal heat exchanger.
    ///
    /// Without an internal heat exchanger the suction line beside the port is the same temperature but for the heat that the
    /// line gains; it is therefore compared where it was read, and never proposed as the next measurement.
    EvaporatorOutlet {
        id: "evaporator-outlet",
        name: "evaporator outlet",
        columns: &["evaporator outlet"],
        kind: MeasurandKind::Temperature,
        when: MeasuredWhen::Running,
        effort: Effort::Clamp,
        plausible: PLAUSIBLE_LINE_C,
        usual_uncertainty: 1.2, // thermocouple of class 1, clamped on a line 44 K from the air (IEC 60584-1:2013, Title 24 2008)
        model_uncertainty: 2.0, // our estimate, as for the suction line
        per_kelvin_of_ambient: 0.7, // our estimate, as for the suction line
        simulated: Some(|state, _| state.evaporator_outlet.celsius()),
    }
    /// Temperature of the liquid line, or of the gas-cooler outlet.
    LiquidLine {
        id: "liquid-line",
        name: "liquid line",
        columns: &["liquid line"],
        kind: MeasurandKind::Temperature,
        when: MeasuredWhen::Running,
        effort: Effort::Clamp,
        plausible: PLAUSIBLE_LINE_C,
        usual_uncertainty: 1.2, // thermocouple of class 1, clamped on a line 44 K from the air (IEC 60584-1:2013, Title 24 2008)
        model_uncertainty: 1.5, // our estimate
        per_kelvin_of_ambient: 0.7, // our estimate
        simulated: Some(|state, _| state.liquid_line.celsius()),
    }
    /// Temperature of the discharge line at the compressor.
    DischargeLine {
        id: "discharge-line",
        name: "discharge line",
        columns: &["discharge line"],
        kind: MeasurandKind::Temperature,
        when: MeasuredWhen::Running,
        effort: Effort::Clamp,
        // hoses and oil give way at 200 °C (common practice, no source), but no simulated compressor switches off for its heat: a
        // starved one runs at up to 350 °C, and what is simulated must be possible to enter. Our choice.
        plausible: (-60.0, 400.0),
        usual_uncertainty: 1.2, // thermocouple of class 1, clamped on a line 44 K from the air (IEC 60584-1:2013, Title 24 2008)
        model_uncertainty: 4.0, // our estimate
        per_kelvin_of_ambient: 0.7, // our estimate
        simulated: Some(|state, _| state.discharge_line.celsius()),
    }
    /// Air temperature at the centre vent.
    Vent {
        id: "vent",
        name: "vent",
        columns: &["vent"],
        kind: MeasurandKind::Temperature,
        when: MeasuredWhen::Running,
        effort: Effort::Look,
        plausible: PLAUSIBLE_LINE_C,
        usual_uncertainty: 0.9, // thermocouple of class 1 in air (IEC 60584-1:2013)
        model_uncertainty: 2.0, // printed vents, `tables/system/CALIBRATION.md`
        per_kelvin_of_ambient: 0.7, // our estimate
        simulated: Some(|state, _| state.vent.celsius()),
    }
    /// Clutch duty cycle: fraction of time the clutch is engaged; one if it never opens.
    ClutchDutyCycle {
        id: "clutch-duty-cycle",
        name: "clutch duty cycle",
        columns: &["clutch duty cycle", "duty cycle", "duty"],
        kind: MeasurandKind::Share,
        when: MeasuredWhen::Running,
        effort: Effort::Look,
        plausible: (0.0, 1.0),
        // cycles differ by a tenth to a fifth of their length, over three of them, and a hand is a second off; our estimate
        usual_uncertainty: 0.04,
        // the model pumps at the pressure at which the clutch opens; engaged, a circuit draws in the denser vapour of its whole
        // cycling range, by 5 % (3 K at the fins) to 20 % (a switch from 1.6 to 3 bar), and needs less time; our estimate
        model_uncertainty: 0.08,
        per_kelvin_of_ambient: 0.03, // our estimate
        simulated: Some(|state, _| state.clutch_duty_cycle.fraction()),
    }
    /// Equalised (static) gauge pressure with the engine off.
    EqualisedPressure {
        id: "equalised-pressure",
        name: "equalised pressure",
        columns: &["equalised pressure", "equalised"],
        kind: MeasurandKind::Pressure,
        when: MeasuredWhen::Equalised,
        effort: Effort::Stop,
        plausible: (LOWEST_GAUGE_KPA, 15_000.0), // as the low side; our choice
        usual_uncertainty: 0.02, // class 1.6 of a low-side service gauge at 510 kPa absolute: common practice
        // what is at rest is a kelvin warmer or colder than the air about it; our estimate
        model_uncertainty: 0.03,
        per_kelvin_of_ambient: 0.0, // its own temperature is simulated
        simulated: None,
    }
    /// Recovered charge as a fraction of the nominal charge.
    RecoveredCharge {
        id: "recovered-charge",
        name: "recovered charge",
        columns: &["recovered charge"],
        kind: MeasurandKind::Share,
        when: MeasuredWhen::Recovered,
        effort: Effort::Recover,
        plausible: (0.0, 3.0), // no circuit holds three times its label; our choice
        // 15 g as a limit of error (`tables/service/charge.csv`), of half a kilogram
        usual_uncertainty: 0.017,
        // what recovery leaves behind, the width of [`RECOVERED_FRACTION`](super::RECOVERED_FRACTION) over √12 (JCGM 100:2008, 4.3.7)
        model_uncertainty: 0.05 * 0.288_675_134_594_813,
        per_kelvin_of_ambient: 0.0,
        simulated: None,
    }
}

/// Temperatures that a line or a vent can have without its hoses failing, °C; common practice, no source.
const PLAUSIBLE_LINE_C: (f64, f64) = (-60.0, 150.0);

impl Measurand {
    /// Id of the measurand, as in JSON and in column names of programs.
    ///
    /// ```
    /// use satline::inspection::Measurand;
    /// assert_eq!(Measurand::SuctionLine.id(), "suction-line");
    /// assert_eq!("suction-line".parse(), Ok(Measurand::SuctionLine));
    /// ```
    pub const fn id(self) -> &'static str {
        self.row().id
    }

    /// English name of the measurand, as in error messages.
    pub const fn name(self) -> &'static str {
        self.row().name
    }

    /// Kind of number that the measurand has.
    pub const fn kind(self) -> MeasurandKind {
        self.row().kind
    }

    /// Standard uncertainty of the model for the measurand: of the logarithm of an absolute pressure, in K, or of a fraction.
    ///
    /// It is what a circuit as it is on the street differs by from the best of the population; windows and diagnosis both hold it. That of
    /// the two gauge pressures is settled on printed ladders (`tables/WINDOWS.md`), the others are our estimates.
    pub const fn model_uncertainty(self) -> f64 {
        self.row().model_uncertainty
    }

    /// Operating state in which the measurand is measured.
    pub const fn when(self) -> MeasuredWhen {
        self.row().when
    }

    /// Effort of the measurement.
    pub const fn effort(self) -> Effort {
        self.row().effort
    }

    /// Names of the measurand's column in a log.
    pub(super) const fn columns(self) -> &'static [&'static str] {
        self.row().columns
    }

    /// Measurands that a running reading may contain.
    pub fn running() -> impl Iterator<Item = Self> + Clone {
        Self::ALL.iter().copied().filter(|measurand| measurand.when() == MeasuredWhen::Running)
    }

    /// Standard uncertainty of the usual instrument: of ln p, in K, or of the share.
    pub(crate) const fn usual_uncertainty(self) -> f64 {
        self.row().usual_uncertainty
    }
}

impl std::str::FromStr for Measurand {
    type Err = Error;

    fn from_str(text: &str) -> Result<Self, Error> {
        let found = Self::ALL.iter().find(|measurand| measurand.id() == text);
        found.copied().ok_or_else(|| Error::UnknownId {
            what: "measurand",
            id: text.to_owned(),
            known: Self::ALL.iter().map(|measurand| measurand.id()).collect(),
        })
    }
}

impl std::fmt::Display for Measurand {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.pad(self.name())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_row_stands_at_its_variant_and_ids_come_back() {
        for (place, measurand) in Measurand::ALL.iter().enumerate() {
            assert_eq!(*measurand as usize, place);
            assert_eq!(measurand.id().parse(), Ok(*measurand));
            assert_eq!(measurand.when() == MeasuredWhen::Running, measurand.row().simulated.is_some(), "{measurand}");
            assert!(measurand.row().plausible.0 < measurand.row().plausible.1);
        }
        assert_eq!(format!("{:>10}", Measurand::LowSide), "  low side");
        assert!("sidewind".parse::<Measurand>().is_err());
    }
}
