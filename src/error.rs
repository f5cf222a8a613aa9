//! The error type of the crate: each error states the value, the limit and the way out.

#[cfg(feature = "diagnosis")]
use crate::GaugePressure;

/// Name of a refrigerant: without `std`, where there is no heap, one of the program's constants.
#[cfg(feature = "std")]
pub(crate) type Name = std::borrow::Cow<'static, str>;
#[cfg(not(feature = "std"))]
pub(crate) type Name = &'static str;

/// A number as text, likewise.
#[cfg(feature = "std")]
type Text = String;
#[cfg(not(feature = "std"))]
type Text = &'static str;

/// Error type of the whole crate; context is in the fields, the message is for a person.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum Error {
    /// Input outside the range of validity of an equation or table: that of its source, or a narrower one of our own.
    #[error("{what} {value:.1} {unit} is outside {low:.1} to {high:.1} {unit}, the range of validity")]
    OutOfRange {
        /// Quantity whose value is out of range.
        what: &'static str,
        /// Value given, in `unit`.
        value: f64,
        /// Lower limit, in `unit`.
        low: f64,
        /// Upper limit, in `unit`.
        high: f64,
        /// Unit of the three numbers.
        unit: &'static str,
    },
    /// Input outside a limit that this crate chose, not a source.
    #[error("{what} {value:.1} {unit} is outside {low:.1} to {high:.1} {unit}, the limits of what is computed here")]
    OutsideLimits {
        /// Quantity whose value is outside the limits.
        what: &'static str,
        /// Value given, in `unit`.
        value: f64,
        /// Lower limit, in `unit`.
        low: f64,
        /// Upper limit, in `unit`.
        high: f64,
        /// Unit of the three numbers.
        unit: &'static str,
    },
    /// Value that no workshop would read.
    #[error(
        "{what} {value:.1} {unit} is outside {low:.1} to {high:.1} {unit}, where cars are serviced; is the unit right?"
    )]
    Implausible {
        /// Quantity whose value is implausible.
        what: &'static str,
        /// Value given, in `unit`.
        value: f64,
        /// Lower limit, in `unit`.
        low: f64,
        /// Upper limit, in `unit`.
        high: f64,
        /// Unit of the three numbers.
        unit: &'static str,
    },
    /// Pressure above the critical pressure, where there is no saturation temperature.
    #[error(
        "{refrigerant} at {kpa:.0} kPa absolute is above its critical pressure of {critical_kpa:.0} kPa: \
         it neither boils nor condenses there; read the gas cooler outlet temperature instead"
    )]
    Supercritical {
        /// Designation of the refrigerant.
        refrigerant: Name,
        /// Absolute pressure given, kPa.
        kpa: f64,
        /// Critical pressure, kPa.
        critical_kpa: f64,
    },
    /// Temperature above the critical temperature, where there is no saturation pressure.
    #[error(
        "{refrigerant} at {celsius:.1} °C is above its critical temperature of {critical_celsius:.1} °C: it has no \
         saturation pressure there, and at rest the pressure follows the charge; cool it below that to judge by saturation"
    )]
    AboveCriticalTemperature {
        /// Designation of the refrigerant.
        refrigerant: Name,
        /// Temperature given, °C.
        celsius: f64,
        /// Critical temperature, °C.
        critical_celsius: f64,
    },
    /// Error in one of several readings, with the reading it concerns.
    #[cfg(feature = "std")]
    #[error("{place}: {error}")]
    About {
        /// Id of the input, such as that of a [`Measurand`](crate::inspection::Measurand); `None` if it has none.
        input: Option<&'static str>,
        /// Reading that the error concerns, with its text as entered if there is one: "low side, 220 psi".
        place: String,
        /// Error in that reading.
        error: Box<Error>,
    },
    /// Absolute pressure of zero or less.
    #[error(
        "{value:.1} kPa absolute is not above vacuum; check the gauge reading, its sign and unit, and the air pressure \
         used ({air_kpa:.1} kPa)"
    )]
    BelowVacuum {
        /// Absolute pressure computed, kPa.
        value: f64,
        /// Pressure of the surrounding air used for it, kPa.
        air_kpa: f64,
    },
    /// High-side pressure below the low-side pressure.
    #[cfg(feature = "std")]
    #[error(
        "high side {high} is below low side {low}: a compressor cannot do that; check that the hoses are not swapped and \
         both readings are in the unit meant"
    )]
    SidesReversed {
        /// Low-side gauge pressure as entered, in kPa where it was not entered as text.
        low: String,
        /// High-side gauge pressure, likewise.
        high: String,
    },
    /// Reading beyond the end of the instrument's scale.
    #[error(
        "{what} {value:.1} {unit} is beyond the scale of the {instrument} ({low:.1} to {high:.1} {unit}): \
         name the instrument that was really used, or check the reading"
    )]
    BeyondScale {
        /// Quantity read.
        what: &'static str,
        /// Name of the instrument.
        instrument: &'static str,
        /// Reading, in `unit`.
        value: f64,
        /// Lower end of the scale, in `unit`.
        low: f64,
        /// Upper end of the scale, in `unit`.
        high: f64,
        /// Unit of the three numbers.
        unit: &'static str,
    },
    /// Number that is infinite or NaN.
    #[error("{what}: {text:?} is not a finite number")]
    NotFinite {
        /// Quantity whose value was to be read or computed.
        what: &'static str,
        /// Text of the number given.
        text: Text,
    },
    /// Number too large or too small to compute with.
    #[error(
        "{what}: {text:?} is too large or too small to compute with: in its unit and in SI units a number that is not 0 is from \
         {smallest:e} to {largest:e}; check its exponent"
    )]
    BeyondArithmetic {
        /// Quantity to be read.
        what: &'static str,
        /// Text given.
        text: Text,
        /// Smallest magnitude accepted other than zero.
        smallest: f64,
        /// Largest magnitude accepted.
        largest: f64,
    },
    /// Text that does not start with a number.
    #[cfg(feature = "std")]
    #[error("{what}: {text:?} does not start with a number; write it like {example:?}")]
    NotANumber {
        /// Quantity to be read.
        what: &'static str,
        /// Text given.
        text: String,
        /// Example of a well-formed value.
        example: &'static str,
    },
    /// Comma inside a number.
    #[cfg(feature = "std")]
    #[error(
        "{what}: the comma in {text:?} is not accepted; write the decimal sign as a point, thousands without a sign"
    )]
    DecimalComma {
        /// Quantity to be read.
        what: &'static str,
        /// Text given.
        text: String,
    },
    /// Text with a line break or another control character.
    #[cfg(feature = "std")]
    #[error("{what}: {text:?} holds a line break or a control character; write it as one line of plain text")]
    ControlCharacter {
        /// Input that the text was given for.
        what: &'static str,
        /// Text given.
        text: String,
    },
    /// Number without a unit.
    #[cfg(feature = "std")]
    #[error("{what}: {text:?} has no unit; add one of {units}")]
    UnitMissing {
        /// Quantity to be read.
        what: &'static str,
        /// Text given.
        text: String,
        /// Units accepted for this quantity.
        units: String,
    },
    /// Unit that this quantity does not have.
    #[cfg(feature = "std")]
    #[error("{what}: {unit:?} in {text:?} is not a unit of it; use one of {units}")]
    UnitUnknown {
        /// Quantity to be read.
        what: &'static str,
        /// Text given.
        text: String,
        /// Part of the text that was taken for the unit.
        unit: String,
        /// Units accepted for this quantity.
        units: String,
    },
    /// Unit that has two meanings.
    #[cfg(feature = "std")]
    #[error("{what}: {unit:?} in {text:?} can mean {meanings}; say which")]
    UnitAmbiguous {
        /// Quantity to be read.
        what: &'static str,
        /// Text given.
        text: String,
        /// Unit as given.
        unit: String,
        /// Possible meanings of the unit.
        meanings: &'static str,
    },
    /// Absolute pressure where a gauge pressure is required, or the other way round.
    #[cfg(feature = "std")]
    #[error("{text:?} is {given} pressure, but {what} is asked for: {way_out}")]
    WrongReference {
        /// Quantity to be read.
        what: &'static str,
        /// Text given.
        text: String,
        /// Reference of the pressure given: "gauge" or "absolute".
        given: &'static str,
        /// Advice on the conversion.
        way_out: &'static str,
    },
    /// Value that is physically or logically impossible, such as a negative uncertainty.
    #[error("{what} {value} is not possible: it must be {must}")]
    Impossible {
        /// Quantity with the impossible value.
        what: &'static str,
        /// Value given, in SI units or as a fraction.
        value: f64,
        /// Condition that the value has to meet.
        must: &'static str,
    },
    /// Refrigerant name that is not in the catalogue.
    #[cfg(feature = "std")]
    #[error("{}", unknown_refrigerant(name, nearest, *is_trade_word))]
    UnknownRefrigerant {
        /// Name given; the beginning of one that is longer than any.
        name: String,
        /// Designations closest to the name, closest first; of a trade word those it usually means; none of a name longer than any.
        nearest: Vec<&'static str>,
        /// Whether the name is a trade word for several refrigerants, such as "freon".
        is_trade_word: bool,
    },
    /// Pressure and temperature on or between the saturation lines, where they do not determine the state.
    #[error(
        "at {kpa:.1} kPa and {celsius:.2} °C liquid and vapour are both present: give enthalpy, density or quality too"
    )]
    TwoPhase {
        /// Absolute pressure, kPa.
        kpa: f64,
        /// Temperature, °C.
        celsius: f64,
    },
    /// Column head that names no known quantity.
    #[cfg(feature = "std")]
    #[error("column {name:?} is not known; known columns: {known}")]
    UnknownColumn {
        /// Column head as given.
        name: String,
        /// Column names accepted.
        known: &'static str,
    },
    /// Required column that is missing, or a refrigerant that is given nowhere.
    #[error("{what} is missing: {way_out}")]
    Missing {
        /// Missing input.
        what: &'static str,
        /// Advice on how to supply it.
        way_out: &'static str,
    },
    /// Column that occurs twice.
    #[error("column {name:?} stands twice")]
    ColumnTwice {
        /// Quantity of the repeated column.
        name: &'static str,
    },
    /// Row with more or fewer fields than the head has columns.
    #[error("{found} fields where the head has {expected}")]
    FieldCount {
        /// Number of fields in the row.
        found: usize,
        /// Number of columns in the head.
        expected: usize,
    },
    /// Iteration that ended without converging.
    #[error("{solving} stopped after {steps} steps with residual {residual:.1e}")]
    NotConverged {
        /// Problem that was being solved.
        solving: &'static str,
        /// Number of steps taken.
        steps: usize,
        /// Best residual reached.
        residual: f64,
    },
    /// Request that the model does not cover.
    #[error("{what} is not modelled: {way_out}")]
    NotModelled {
        /// Request as made.
        what: &'static str,
        /// Advice on what to do instead.
        way_out: &'static str,
    },
    /// Table that a fit cannot use.
    #[cfg(feature = "std")]
    #[error("table cannot be fitted: {reason}")]
    BadTable {
        /// Reason why the table cannot be used.
        reason: String,
    },
    /// Humidity that is impossible in air of this temperature and pressure.
    #[error(
        "{what} {value:.2} {unit} is not possible in air of {celsius:.1} °C and {kpa:.1} kPa absolute: it lies between \
         {low:.2} and {high:.2} {unit}; {way_out}"
    )]
    ImpossibleHumidity {
        /// Measure of humidity that was given, such as dew point or wet bulb.
        what: &'static str,
        /// Value given, in `unit`.
        value: f64,
        /// Lower limit, in `unit`.
        low: f64,
        /// Upper limit, in `unit`.
        high: f64,
        /// Unit of the three numbers.
        unit: &'static str,
        /// Air temperature, °C.
        celsius: f64,
        /// Absolute air pressure, kPa.
        kpa: f64,
        /// Advice on what to check.
        way_out: &'static str,
    },
    /// Water vapour whose partial pressure alone reaches or exceeds the air pressure.
    #[error(
        "absolute air pressure {kpa:.1} kPa is not above the {vapour_kpa:.1} kPa of the water vapour at {celsius:.1} °C, so \
         there is no room for air; check the humidity, and that the pressure is the air's own, in the unit meant"
    )]
    NoRoomForAir {
        /// Absolute air pressure, kPa.
        kpa: f64,
        /// Partial pressure of the water vapour, kPa.
        vapour_kpa: f64,
        /// Air temperature, °C.
        celsius: f64,
    },
    /// Dry air, which has no dew point.
    #[error(
        "air of {celsius:.1} °C holds no water vapour and has no dew point; check the humidity, which no weather brings to 0"
    )]
    NoVapour {
        /// Air temperature, °C.
        celsius: f64,
    },
    /// Fewer readings than the evaluation needs.
    #[error("{found} {what}, and at least {needed} are needed: {way_out}")]
    TooFew {
        /// Kind of input of which there is too little.
        what: &'static str,
        /// Number found.
        found: usize,
        /// Number needed.
        needed: usize,
        /// Advice on what to do.
        way_out: &'static str,
    },
    /// Reading that is not later than the one before it.
    #[error(
        "{seconds} s is not later than the reading before it, at {before} s: sort the readings by time, and give two at \
         the same moment once"
    )]
    NotLater {
        /// Time of the reading, s.
        seconds: f64,
        /// Time of the previous reading, s.
        before: f64,
    },
    /// Pressure above that of the surrounding air where a vacuum is required.
    #[error(
        "{kpa:.1} kPa absolute is above the surrounding air ({air_kpa:.1} kPa) and no vacuum: check the sign, the unit and \
         whether gauge, vacuum or absolute pressure was meant"
    )]
    NotVacuum {
        /// Absolute pressure given, kPa.
        kpa: f64,
        /// Absolute pressure of the surrounding air, kPa.
        air_kpa: f64,
    },
    /// Label whose figures contradict each other.
    #[cfg(feature = "std")]
    #[error("{what}: {text:?} contradicts itself: {reason}; ask the maker which figure holds")]
    LabelContradicts {
        /// Quantity stated on the label.
        what: &'static str,
        /// Text of the label.
        text: String,
        /// Contradicting figures, and the difference between them.
        reason: String,
    },
    /// More oil removed than the circuit holds.
    #[error(
        "{out_cm3:.0} cm³ of oil came out and the circuit holds {holds_cm3:.0} cm³ at most: too much was in it, refrigerant is \
         still dissolved in what was measured, or one of the figures is wrong; do not pour by them"
    )]
    MoreThanHolds {
        /// Oil drained and recovered together, cm³.
        out_cm3: f64,
        /// Upper end of the oil charge on the label, cm³.
        holds_cm3: f64,
    },
    /// Oil whose name gives neither family nor grade.
    #[cfg(feature = "std")]
    #[error(
        "unknown oil {name:?}: write the family and the grade, as in \"PAG 46\", \"PAG YF 46\", \"POE 68\" or \"mineral\"; \
         grades are 32, 46, 68, 100 and 150"
    )]
    UnknownOil {
        /// Name given.
        name: String,
    },
    /// Instrument name that is not known.
    #[cfg(feature = "std")]
    #[error("unknown instrument {name:?}; known: {}", known.join(", "))]
    UnknownInstrument {
        /// Name given.
        name: String,
        /// Names accepted.
        known: Vec<&'static str>,
    },
    /// Id that is in none of this crate's lists.
    #[cfg(feature = "std")]
    #[error("unknown {what} {id:?}; known: {}", known.join(", "))]
    UnknownId {
        /// Kind of item that the id should name.
        what: &'static str,
        /// Id given.
        id: String,
        /// Ids accepted.
        known: Vec<&'static str>,
    },
    /// Input given twice.
    #[error("{what} is given twice; give it once")]
    Twice {
        /// Repeated input.
        what: &'static str,
    },
    /// Value of the wrong kind, such as a temperature where a pressure is required.
    #[error("{what} is given as another kind of quantity than it is")]
    WrongKind {
        /// Id of the input.
        input: &'static str,
        /// Name of the input.
        what: &'static str,
    },
    /// Value that is not measured in the operating state of its reading.
    #[error("{what} does not belong to a reading of the circuit {state}")]
    NotInThisState {
        /// Name of the input.
        what: &'static str,
        /// Operating state of the reading: "running" or "equalised".
        state: &'static str,
    },
    /// Reading taken under other conditions than those simulated.
    #[cfg(feature = "std")]
    #[error(
        "{what} is {reading} in the reading and {reference} in the circuits it would be compared with: simulate circuits for it"
    )]
    Mismatch {
        /// Condition that differs.
        what: &'static str,
        /// Value in the reading.
        reading: String,
        /// Value in the simulated circuits.
        reference: String,
    },
    /// Computation stopped by its caller.
    #[error("stopped on request after {done} of {total} circuits")]
    Stopped {
        /// Number of circuits simulated.
        done: usize,
        /// Number of circuits requested.
        total: usize,
    },
    /// Prior weight that is negative or not a number.
    #[error("prior weight {weight} of {cause}: give a finite number, zero or more")]
    PriorWeight {
        /// Id of the cause.
        cause: &'static str,
        /// Weight given.
        weight: f64,
    },
    /// Prior under which no cause is possible.
    #[error(
        "every cause that these circuits can have has a prior weight of zero: give at least one a weight above zero"
    )]
    PriorAllZero,
}

/// What is said of a name that is not in the catalogue.
#[cfg(feature = "std")]
fn unknown_refrigerant(name: &str, nearest: &[&str], is_trade_word: bool) -> String {
    let nearest = nearest.join(", ");
    if is_trade_word {
        format!(
            "{name:?} is a trade word for several refrigerants ({nearest} …): the label on the car names the one inside"
        )
    } else if nearest.is_empty() {
        format!("unknown refrigerant {name:?}: that is longer than any name")
    } else {
        format!("unknown refrigerant {name:?}; nearest: {nearest}")
    }
}

impl Error {
    /// Stable id of the kind of error, such as "out-of-range", "supercritical" or "unit-missing"; it does not change
    /// with the messages.
    ///
    /// It is the name of the variant in kebab case; [`Error::About`] has that of the error it is about.
    ///
    /// ```
    /// # #[cfg(feature = "std")] {
    /// let error = "32".parse::<satline::GaugePressure>().unwrap_err();
    /// assert_eq!(error.code(), "unit-missing");
    /// # }
    /// ```
    pub fn code(&self) -> &'static str {
        match self {
            Self::OutOfRange { .. } => "out-of-range",
            Self::OutsideLimits { .. } => "outside-limits",
            Self::Implausible { .. } => "implausible",
            Self::Supercritical { .. } => "supercritical",
            Self::AboveCriticalTemperature { .. } => "above-critical-temperature",
            #[cfg(feature = "std")]
            Self::About { error, .. } => error.code(),
            Self::BelowVacuum { .. } => "below-vacuum",
            #[cfg(feature = "std")]
            Self::SidesReversed { .. } => "sides-reversed",
            Self::BeyondScale { .. } => "beyond-scale",
            Self::NotFinite { .. } => "not-finite",
            Self::BeyondArithmetic { .. } => "beyond-arithmetic",
            #[cfg(feature = "std")]
            Self::NotANumber { .. } => "not-a-number",
            #[cfg(feature = "std")]
            Self::DecimalComma { .. } => "decimal-comma",
            #[cfg(feature = "std")]
            Self::UnitMissing { .. } => "unit-missing",
            #[cfg(feature = "std")]
            Self::UnitUnknown { .. } => "unit-unknown",
            #[cfg(feature = "std")]
            Self::UnitAmbiguous { .. } => "unit-ambiguous",
            #[cfg(feature = "std")]
            Self::WrongReference { .. } => "wrong-reference",
            Self::Impossible { .. } => "impossible",
            #[cfg(feature = "std")]
            Self::UnknownRefrigerant { .. } => "unknown-refrigerant",
            Self::TwoPhase { .. } => "two-phase",
            #[cfg(feature = "std")]
            Self::UnknownColumn { .. } => "unknown-column",
            Self::Missing { .. } => "missing",
            Self::ColumnTwice { .. } => "column-twice",
            Self::FieldCount { .. } => "field-count",
            Self::NotConverged { .. } => "not-converged",
            Self::NotModelled { .. } => "not-modelled",
            #[cfg(feature = "std")]
            Self::BadTable { .. } => "bad-table",
            Self::ImpossibleHumidity { .. } => "impossible-humidity",
            Self::NoRoomForAir { .. } => "no-room-for-air",
            Self::NoVapour { .. } => "no-vapour",
            Self::TooFew { .. } => "too-few",
            Self::NotLater { .. } => "not-later",
            Self::NotVacuum { .. } => "not-vacuum",
            #[cfg(feature = "std")]
            Self::LabelContradicts { .. } => "label-contradicts",
            Self::MoreThanHolds { .. } => "more-than-holds",
            #[cfg(feature = "std")]
            Self::UnknownOil { .. } => "unknown-oil",
            #[cfg(feature = "std")]
            Self::UnknownInstrument { .. } => "unknown-instrument",
            #[cfg(feature = "std")]
            Self::ControlCharacter { .. } => "control-character",
            #[cfg(feature = "std")]
            Self::UnknownId { .. } => "unknown-id",
            Self::Twice { .. } => "twice",
            Self::WrongKind { .. } => "wrong-kind",
            Self::NotInThisState { .. } => "not-in-this-state",
            #[cfg(feature = "std")]
            Self::Mismatch { .. } => "mismatch",
            Self::Stopped { .. } => "stopped",
            Self::PriorWeight { .. } => "prior-weight",
            Self::PriorAllZero => "prior-all-zero",
        }
    }

    /// `value`, which is infinite or not a number, given or computed as `what`.
    pub(crate) fn not_finite(what: &'static str, value: f64) -> Self {
        let text = if value.is_nan() {
            "NaN"
        } else if value > 0.0 {
            "inf"
        } else {
            "-inf"
        };
        Self::NotFinite { what, text: text.into() }
    }

    /// Gauge pressures of which the high side is below the low side, written in kPa.
    #[cfg(feature = "diagnosis")]
    pub(crate) fn sides_reversed(low: GaugePressure, high: GaugePressure) -> Self {
        let kpa = |pressure: GaugePressure| format!("{:.0} kPa", pressure.kpa());
        Self::SidesReversed { low: kpa(low), high: kpa(high) }
    }

    /// Error wrapped as one about `place`, one of several readings.
    #[cfg(feature = "service")]
    pub(crate) fn about(self, place: impl Into<String>) -> Self {
        Self::About { input: None, place: place.into(), error: Box::new(self) }
    }

    /// Error wrapped as one about the input with this id, named `place`.
    #[cfg(feature = "diagnosis")]
    pub(crate) fn about_input(self, input: &'static str, place: impl Into<String>) -> Self {
        Self::About { input: Some(input), place: place.into(), error: Box::new(self) }
    }

    /// The error itself, without what it is about.
    #[cfg(feature = "diagnosis")]
    pub(crate) fn innermost(&self) -> &Self {
        match self {
            Self::About { error, .. } => error.innermost(),
            _ => self,
        }
    }

    /// Id of the input that the error is about, such as `low-side`; `None` if it is about no particular input.
    ///
    /// ```
    /// # #[cfg(feature = "diagnosis")] {
    /// use satline::inspection::{EnteredValue, Measurand};
    /// let error = EnteredValue::parse(Measurand::LowSide, "22").unwrap_err();
    /// assert_eq!(error.input(), Some("low-side"));
    /// # }
    /// ```
    pub fn input(&self) -> Option<&'static str> {
        match self {
            #[cfg(feature = "std")]
            Self::About { input, error, .. } => input.or_else(|| error.input()),
            Self::WrongKind { input, .. } => Some(input),
            _ => None,
        }
    }
}
