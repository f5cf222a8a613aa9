//! The quantities that can be measured on a circuit, one row of a table each.

use crate::circuit::SteadyState;
use crate::{Error, Pressure};

/// What kind of number a measurand has.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
#[non_exhaustive]
pub enum MeasurandKind {
    /// A gauge pressure; the diagnosis compares logarithms of the absolute pressure in Pa.
    Pressure,
    /// A temperature; compared in °C.
    Temperature,
    /// A share, of time or of the nominal charge; compared as a fraction.
    Share,
}

/// When a measurand is measured.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
#[non_exhaustive]
pub enum MeasuredWhen {
    /// With the compressor called for.
    Running,
    /// With the engine off, pressures and temperatures equalised.
    Equalised,
    /// With the charge recovered.
    Recovered,
}

/// The effort of a measurement, the least first.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(rename_all = "kebab-case"))]
#[non_exhaustive]
pub enum Effort {
    /// A look at what is there.
    Look,
    /// A thermometer is clamped.
    Clamp,
    /// The engine is stopped until the circuit has equalised.
    Stop,
    /// The charge is recovered and weighed.
    Recover,
}

/// A row of the table of measurands.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Row {
    pub(crate) id: &'static str,
    /// In messages.
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
    /// Standard uncertainty of the model for a circuit of the same sizes, in the same units.
    pub(crate) model_uncertainty: f64,
    /// How much a kelvin of ambient temperature moves it, in the same units.
    pub(crate) per_kelvin_of_ambient: f64,
    /// Its value in a simulated steady state, in the unit of comparison; `None` for what is not measured on a running circuit.
    pub(crate) simulated: Option<fn(&SteadyState, Pressure) -> f64>,
}

/// The table: an enum of all measurands and a row for each.
macro_rules! measurands {
    ($($(#[$doc:meta])* $variant:ident { $($field:ident: $value:expr,)* })*) => {
        /// A quantity that can be measured on a circuit.
        #[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
        #[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
        #[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(rename_all = "kebab-case"))]
        #[non_exhaustive]
        pub enum Measurand { $($(#[$doc])* $variant,)* }

        impl Measurand {
            /// Every measurand, in the order of the table.
            pub const ALL: &'static [Self] = &[$(Self::$variant,)*];

            /// How many there are.
            pub(crate) const COUNT: usize = Self::ALL.len();

            pub(crate) const fn row(self) -> &'static Row {
                const TABLE: [Row; Measurand::COUNT] = [$(Row { $($field: $value,)* },)*];
                &TABLE[self as usize]
            }
        }
    };
}

const LOWEST_GAUGE_KPA: f64 = -110.0;

measurands! {
    /// Low-side gauge.
    LowSide {
        id: "low-side",
        name: "low side",
        columns: &["low side", "low"],
        kind: MeasurandKind::Pressure,
        when: MeasuredWhen::Running,
        effort: Effort::Look,
        // full vacuum in the densest air; no R-744 low side reaches the critical pressure of 7.4 MPa twice. Our choice.
        plausible: (LOWEST_GAUGE_KPA, 15_000.0),
        usual_uncertainty: 0.03,
        model_uncertainty: 0.04, // our estimate
        per_kelvin_of_ambient: 0.02, // our estimate: either side moves by about 2 % a kelvin
        simulated: Some(|state, air| state.low_side.absolute(air).pa().max(1e3).ln()),
    }
    /// High-side gauge.
    HighSide {
        id: "high-side",
        name: "high side",
        columns: &["high side", "high"],
        kind: MeasurandKind::Pressure,
        when: MeasuredWhen::Running,
        effort: Effort::Look,
        // beyond the burst discs of R-744 circuits (from memory)
        plausible: (LOWEST_GAUGE_KPA, 20_000.0),
        usual_uncertainty: 0.02,
        model_uncertainty: 0.04, // our estimate
        per_kelvin_of_ambient: 0.02, // our estimate
        simulated: Some(|state, air| state.high_side.absolute(air).pa().max(1e3).ln()),
    }
    /// Suction line at the compressor.
    SuctionLine {
        id: "suction-line",
        name: "suction line",
        columns: &["suction line"],
        kind: MeasurandKind::Temperature,
        when: MeasuredWhen::Running,
        effort: Effort::Clamp,
        plausible: PLAUSIBLE_LINE_C,
        usual_uncertainty: 1.2,
        model_uncertainty: 2.0, // our estimate
        per_kelvin_of_ambient: 0.7, // our estimate
        simulated: Some(|state, _| state.suction_line.celsius()),
    }
    /// Evaporator outlet: the refrigerant line where it leaves the evaporator, before any hose or internal heat exchanger.
    ///
    /// Without an internal heat exchanger the suction line at the compressor is the same temperature but for the heat that the
    /// line gains; it is therefore compared where it was read, and never proposed as the next measurement.
    EvaporatorOutlet {
        id: "evaporator-outlet",
        name: "evaporator outlet",
        columns: &["evaporator outlet"],
        kind: MeasurandKind::Temperature,
        when: MeasuredWhen::Running,
        effort: Effort::Clamp,
        plausible: PLAUSIBLE_LINE_C,
        usual_uncertainty: 1.2,
        model_uncertainty: 2.0, // our estimate, as for the suction line
        per_kelvin_of_ambient: 0.7, // our estimate, as for the suction line
        simulated: Some(|state, _| (state.evaporating + state.superheat).celsius()),
    }
    /// Liquid line, or gas cooler outlet.
    LiquidLine {
        id: "liquid-line",
        name: "liquid line",
        columns: &["liquid line"],
        kind: MeasurandKind::Temperature,
        when: MeasuredWhen::Running,
        effort: Effort::Clamp,
        plausible: PLAUSIBLE_LINE_C,
        usual_uncertainty: 1.2,
        model_uncertainty: 1.5, // our estimate
        per_kelvin_of_ambient: 0.7, // our estimate
        simulated: Some(|state, _| state.liquid_line.celsius()),
    }
    /// Discharge line at the compressor.
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
        usual_uncertainty: 1.2,
        model_uncertainty: 4.0, // our estimate
        per_kelvin_of_ambient: 0.7, // our estimate
        simulated: Some(|state, _| state.discharge_line.celsius()),
    }
    /// Centre vent.
    Vent {
        id: "vent",
        name: "vent",
        columns: &["vent"],
        kind: MeasurandKind::Temperature,
        when: MeasuredWhen::Running,
        effort: Effort::Look,
        plausible: PLAUSIBLE_LINE_C,
        usual_uncertainty: 0.9,
        model_uncertainty: 1.5, // our estimate
        per_kelvin_of_ambient: 0.7, // our estimate
        simulated: Some(|state, _| state.vent.celsius()),
    }
    /// Share of time the clutch is engaged: one where it never opens.
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
    /// Equalised (static) pressure, engine off.
    EqualisedPressure {
        id: "equalised-pressure",
        name: "equalised pressure",
        columns: &["equalised pressure", "equalised"],
        kind: MeasurandKind::Pressure,
        when: MeasuredWhen::Equalised,
        effort: Effort::Stop,
        plausible: (LOWEST_GAUGE_KPA, 15_000.0),
        usual_uncertainty: 0.02,
        model_uncertainty: 0.01, // our estimate
        per_kelvin_of_ambient: 0.0, // its own temperature is simulated
        simulated: None,
    }
    /// Recovered charge over the nominal charge.
    RecoveredCharge {
        id: "recovered-charge",
        name: "recovered charge",
        columns: &["recovered charge"],
        kind: MeasurandKind::Share,
        when: MeasuredWhen::Recovered,
        effort: Effort::Recover,
        plausible: (0.0, 3.0),
        // 15 g as a limit of error (`tables/service/charge.csv`), of half a kilogram
        usual_uncertainty: 0.017,
        // what recovery leaves behind, [`RECOVERED_FRACTION`](super::RECOVERED_FRACTION): width over √12
        model_uncertainty: 0.05 * 0.288_675_134_594_813,
        per_kelvin_of_ambient: 0.0,
        simulated: None,
    }
}

/// Temperatures that a line or a vent can have without its hoses giving way, °C; common practice, no source.
const PLAUSIBLE_LINE_C: (f64, f64) = (-60.0, 150.0);

impl Measurand {
    /// Its id, as JSON and columns of programs write it.
    ///
    /// ```
    /// use satline::inspection::Measurand;
    /// assert_eq!(Measurand::SuctionLine.id(), "suction-line");
    /// assert_eq!("suction-line".parse(), Ok(Measurand::SuctionLine));
    /// ```
    pub const fn id(self) -> &'static str {
        self.row().id
    }

    /// Its English name, as error messages write it.
    pub const fn name(self) -> &'static str {
        self.row().name
    }

    /// What kind of number it has.
    pub const fn kind(self) -> MeasurandKind {
        self.row().kind
    }

    /// When it is measured.
    pub const fn when(self) -> MeasuredWhen {
        self.row().when
    }

    /// The effort of measuring it.
    pub const fn effort(self) -> Effort {
        self.row().effort
    }

    /// Names of its column in a log.
    pub(super) const fn columns(self) -> &'static [&'static str] {
        self.row().columns
    }

    /// Those that a running reading may hold.
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
        assert!("sidewind".parse::<Measurand>().is_err());
    }
}
