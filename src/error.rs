//! What can go wrong, with the value, the limit and the way out.

use std::borrow::Cow;

/// The one error of the crate. Context travels as fields; the message is for a person.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum Error {
    /// The input lies outside what the source of the equation or table covers.
    #[error("{what} {value:.1} {unit} is outside {low:.1} to {high:.1} {unit}, the range of its source")]
    OutOfRange {
        /// The quantity asked for.
        what: &'static str,
        /// The value given, in `unit`.
        value: f64,
        /// Lower limit, in `unit`.
        low: f64,
        /// Upper limit, in `unit`.
        high: f64,
        /// Unit of the three numbers.
        unit: &'static str,
    },
    /// The input lies outside a limit that this crate chose, not a source.
    #[error("{what} {value:.1} {unit} is outside {low:.1} to {high:.1} {unit}, the limits of what is computed here")]
    OutsideLimits {
        /// The quantity asked for.
        what: &'static str,
        /// The value given, in `unit`.
        value: f64,
        /// Lower limit, in `unit`.
        low: f64,
        /// Upper limit, in `unit`.
        high: f64,
        /// Unit of the three numbers.
        unit: &'static str,
    },
    /// A value no workshop on earth would read.
    #[error(
        "{what} {value:.1} {unit} is outside {low:.1} to {high:.1} {unit}, where cars are serviced; is the unit right?"
    )]
    Implausible {
        /// The quantity.
        what: &'static str,
        /// The value given, in `unit`.
        value: f64,
        /// Lower limit, in `unit`.
        low: f64,
        /// Upper limit, in `unit`.
        high: f64,
        /// Unit of the three numbers.
        unit: &'static str,
    },
    /// Above the critical point there is no saturation.
    #[error(
        "{refrigerant} at {kpa:.0} kPa absolute is above its critical pressure of {critical_kpa:.0} kPa: \
         it neither boils nor condenses there; read the gas cooler outlet temperature instead"
    )]
    Supercritical {
        /// Designation of the refrigerant.
        refrigerant: Cow<'static, str>,
        /// The absolute pressure given, kPa.
        kpa: f64,
        /// Critical pressure, kPa.
        critical_kpa: f64,
    },
    /// Above the critical temperature there is no saturation pressure.
    #[error(
        "{refrigerant} at {celsius:.1} °C is above its critical temperature of {critical_celsius:.1} °C: it has no \
         saturation pressure there, and at rest the pressure follows the charge; cool it below that to judge by saturation"
    )]
    AboveCriticalTemperature {
        /// Designation of the refrigerant.
        refrigerant: Cow<'static, str>,
        /// The temperature given, °C.
        celsius: f64,
        /// Critical temperature, °C.
        critical_celsius: f64,
    },
    /// An error about one reading of several.
    #[error("{place}: {error}")]
    About {
        /// Id of the input, such as that of a [`Measurand`](crate::inspection::Measurand); `None` where it has none.
        input: Option<&'static str>,
        /// Which reading, with its text as entered where there is one: "low side, 220 psi".
        place: String,
        /// What is wrong with it.
        error: Box<Error>,
    },
    /// An absolute pressure of zero or less does not exist.
    #[error(
        "{value:.1} kPa absolute is not above vacuum; check the gauge reading, its sign and unit, and the air pressure \
         used ({air_kpa:.1} kPa)"
    )]
    BelowVacuum {
        /// The absolute pressure that came out, kPa.
        value: f64,
        /// The air pressure it was computed with, kPa.
        air_kpa: f64,
    },
    /// The high side reads below the low side.
    #[error(
        "high side {high_kpa:.0} kPa is below low side {low_kpa:.0} kPa (gauge): a compressor cannot do that; \
         check that the hoses are not swapped and both readings are in the unit meant"
    )]
    SidesReversed {
        /// Low-side gauge pressure, kPa.
        low_kpa: f64,
        /// High-side gauge pressure, kPa.
        high_kpa: f64,
    },
    /// A reading beyond the end of the instrument's scale.
    #[error(
        "{what} {value:.1} {unit} is beyond the scale of the {instrument} ({low:.1} to {high:.1} {unit}): \
         name the instrument that was really used, or check the reading"
    )]
    BeyondScale {
        /// The quantity read.
        what: &'static str,
        /// The instrument.
        instrument: &'static str,
        /// The reading, in `unit`.
        value: f64,
        /// Start of the scale, in `unit`.
        low: f64,
        /// End of the scale, in `unit`.
        high: f64,
        /// Unit of the three numbers.
        unit: &'static str,
    },
    /// A number that is not a number, or infinite.
    #[error("{what}: {text:?} is not a finite number")]
    NotFinite {
        /// The quantity asked for.
        what: &'static str,
        /// What was given.
        text: String,
    },
    /// A number so large or so small that computing with it would lose it.
    #[error(
        "{what}: {text:?} is too large or too small to compute with: in its unit and in SI units a number that is not 0 is from \
         {smallest:e} to {largest:e}; check its exponent"
    )]
    BeyondArithmetic {
        /// The quantity asked for.
        what: &'static str,
        /// What was given.
        text: String,
        /// The smallest size other than zero.
        smallest: f64,
        /// The largest size.
        largest: f64,
    },
    /// Text that does not start with a number.
    #[error("{what}: {text:?} does not start with a number; write it like {example:?}")]
    NotANumber {
        /// The quantity asked for.
        what: &'static str,
        /// What was given.
        text: String,
        /// A well-formed value.
        example: &'static str,
    },
    /// A comma inside a number.
    #[error(
        "{what}: the comma in {text:?} is not accepted; write the decimal sign as a point, thousands without a sign"
    )]
    DecimalComma {
        /// The quantity asked for.
        what: &'static str,
        /// What was given.
        text: String,
    },
    /// A text with a line break or another control character.
    #[error("{what}: {text:?} holds a line break or a control character; write it as one line of plain text")]
    ControlCharacter {
        /// What was given.
        what: &'static str,
        /// The text.
        text: String,
    },
    /// A number without its unit.
    #[error("{what}: {text:?} has no unit; add one of {units}")]
    UnitMissing {
        /// The quantity asked for.
        what: &'static str,
        /// What was given.
        text: String,
        /// The units this quantity takes.
        units: String,
    },
    /// A unit this quantity does not have.
    #[error("{what}: {unit:?} in {text:?} is not a unit of it; use one of {units}")]
    UnitUnknown {
        /// The quantity asked for.
        what: &'static str,
        /// What was given.
        text: String,
        /// The part that was taken for the unit.
        unit: String,
        /// The units this quantity takes.
        units: String,
    },
    /// A unit that names two different things.
    #[error("{what}: {unit:?} in {text:?} can mean {meanings}; say which")]
    UnitAmbiguous {
        /// The quantity asked for.
        what: &'static str,
        /// What was given.
        text: String,
        /// The unit as given.
        unit: String,
        /// What it can mean.
        meanings: &'static str,
    },
    /// An absolute pressure where a gauge pressure is asked for, or the other way round.
    #[error("{text:?} is {given} pressure, but {what} is asked for: {way_out}")]
    WrongReference {
        /// The quantity asked for.
        what: &'static str,
        /// What was given.
        text: String,
        /// "gauge" or "absolute".
        given: &'static str,
        /// How to convert.
        way_out: &'static str,
    },
    /// A value below what is possible, such as a negative uncertainty.
    #[error("{what} {value} is not possible: it must be {must}")]
    Impossible {
        /// The quantity.
        what: &'static str,
        /// The value, in SI units or as a fraction.
        value: f64,
        /// What would be possible.
        must: &'static str,
    },
    /// A refrigerant name that is not in the catalogue.
    #[error("unknown refrigerant {name:?}; nearest: {}", nearest.join(", "))]
    UnknownRefrigerant {
        /// The name given.
        name: String,
        /// The designations nearest to it, nearest first.
        nearest: Vec<&'static str>,
    },
    /// Pressure and temperature on or between the saturation lines, where they do not tell the state.
    #[error(
        "at {kpa:.1} kPa and {celsius:.2} °C liquid and vapour are both present: give enthalpy, density or quality too"
    )]
    TwoPhase {
        /// Pressure, kPa absolute.
        kpa: f64,
        /// Temperature, °C.
        celsius: f64,
    },
    /// A column head that names no known quantity.
    #[error("column {name:?} is not known; known columns: {known}")]
    UnknownColumn {
        /// The head as given.
        name: String,
        /// The names that are known.
        known: &'static str,
    },
    /// A column that must be there and is not, or a refrigerant named nowhere.
    #[error("{what} is missing: {way_out}")]
    Missing {
        /// What is missing.
        what: &'static str,
        /// How to give it.
        way_out: &'static str,
    },
    /// The same column twice.
    #[error("column {name:?} stands twice")]
    ColumnTwice {
        /// The quantity.
        name: &'static str,
    },
    /// A row with more or fewer fields than the head has columns.
    #[error("{found} fields where the head has {expected}")]
    FieldCount {
        /// Fields in the row.
        found: usize,
        /// Columns in the head.
        expected: usize,
    },
    /// An iteration stopped short.
    #[error("{solving} stopped after {steps} steps with residual {residual:.1e}")]
    NotConverged {
        /// What was being solved.
        solving: &'static str,
        /// Steps taken.
        steps: usize,
        /// The best residual reached.
        residual: f64,
    },
    /// Something the model does not cover.
    #[error("{what} is not modelled: {way_out}")]
    NotModelled {
        /// What was asked for.
        what: &'static str,
        /// What to do instead.
        way_out: &'static str,
    },
    /// A table that a fit cannot use.
    #[error("table cannot be fitted: {reason}")]
    BadTable {
        /// Why.
        reason: String,
    },
    /// A humidity that air of this temperature and pressure cannot have.
    #[error(
        "{what} {value:.2} {unit} is not possible in air of {celsius:.1} °C and {kpa:.1} kPa absolute: it lies between \
         {low:.2} and {high:.2} {unit}; {way_out}"
    )]
    ImpossibleHumidity {
        /// What tells the humidity.
        what: &'static str,
        /// The value given, in `unit`.
        value: f64,
        /// Lower limit, in `unit`.
        low: f64,
        /// Upper limit, in `unit`.
        high: f64,
        /// Unit of the three numbers.
        unit: &'static str,
        /// Temperature of the air, °C.
        celsius: f64,
        /// Absolute pressure of the air, kPa.
        kpa: f64,
        /// What to check.
        way_out: &'static str,
    },
    /// Water vapour that alone has the whole air pressure or more.
    #[error(
        "absolute air pressure {kpa:.1} kPa is not above the {vapour_kpa:.1} kPa of the water vapour at {celsius:.1} °C, so \
         there is no room for air; check the humidity, and that the pressure is the air's own, in the unit meant"
    )]
    NoRoomForAir {
        /// Absolute pressure of the air, kPa.
        kpa: f64,
        /// Pressure of the vapour alone, kPa.
        vapour_kpa: f64,
        /// Temperature of the air, °C.
        celsius: f64,
    },
    /// Dry air has no dew point.
    #[error(
        "air of {celsius:.1} °C holds no water vapour and has no dew point; check the humidity, which no weather brings to 0"
    )]
    NoVapour {
        /// Temperature of the air, °C.
        celsius: f64,
    },
    /// Fewer readings than the answer needs.
    #[error("{found} {what}, and at least {needed} are needed: {way_out}")]
    TooFew {
        /// What there is too little of.
        what: &'static str,
        /// How many there are.
        found: usize,
        /// How many are needed.
        needed: usize,
        /// What to do.
        way_out: &'static str,
    },
    /// A reading that is not later than the one before.
    #[error(
        "{seconds} s is not later than the reading before it, at {before} s: sort the readings by time, and give two at \
         the same moment once"
    )]
    NotLater {
        /// Time of the reading, s.
        seconds: f64,
        /// Time of the reading before, s.
        before: f64,
    },
    /// A pressure above the surrounding air where a vacuum is asked for.
    #[error(
        "{kpa:.1} kPa absolute is above the surrounding air ({air_kpa:.1} kPa) and no vacuum: check the sign, the unit and \
         whether gauge, vacuum or absolute pressure was meant"
    )]
    NotVacuum {
        /// The absolute pressure, kPa.
        kpa: f64,
        /// The pressure of the air, kPa.
        air_kpa: f64,
    },
    /// A label whose figures do not agree.
    #[error("{what}: {text:?} contradicts itself: {reason}; ask the maker which figure holds")]
    LabelContradicts {
        /// What is labelled.
        what: &'static str,
        /// The label.
        text: String,
        /// Which figures, and how far apart.
        reason: String,
    },
    /// More oil came out than the circuit is filled with.
    #[error(
        "{out_cm3:.0} cm³ of oil came out and the circuit holds {holds_cm3:.0} cm³ at most: too much was in it, refrigerant is \
         still dissolved in what was measured, or one of the figures is wrong; do not pour by them"
    )]
    MoreThanHolds {
        /// Drained and recovered together, cm³.
        out_cm3: f64,
        /// The upper end of the label, cm³.
        holds_cm3: f64,
    },
    /// An oil whose name says neither family nor grade.
    #[error(
        "unknown oil {name:?}: write the family and the grade, as in \"PAG 46\", \"PAG YF 46\", \"POE 68\" or \"mineral\"; \
         grades are 32, 46, 68, 100 and 150"
    )]
    UnknownOil {
        /// The name given.
        name: String,
    },
    /// An instrument name that is not known.
    #[error("unknown instrument {name:?}; known: {}", known.join(", "))]
    UnknownInstrument {
        /// The name given.
        name: String,
        /// The names that are known.
        known: Vec<&'static str>,
    },
    /// An id that is in no list of this crate.
    #[error("unknown {what} {id:?}; known: {}", known.join(", "))]
    UnknownId {
        /// What it would be the id of.
        what: &'static str,
        /// The id given.
        id: String,
        /// The ids that are known.
        known: Vec<&'static str>,
    },
    /// The same input twice.
    #[error("{what} is given twice; give it once")]
    Twice {
        /// The input.
        what: &'static str,
    },
    /// A temperature where a pressure is meant, and the like.
    #[error("{what} is given as another kind of quantity than it is")]
    WrongKind {
        /// Id of the input.
        input: &'static str,
        /// The input.
        what: &'static str,
    },
    /// A value that is not measured in the operating state of its reading.
    #[error("{what} does not belong to a reading of the circuit {state}")]
    NotInThisState {
        /// The input.
        what: &'static str,
        /// The operating state: "running" or "equalised".
        state: &'static str,
    },
    /// A reading and simulated circuits of other conditions.
    #[error(
        "{what} is {reading} in the reading and {reference} in the circuits it would be compared with: simulate circuits for it"
    )]
    Mismatch {
        /// What differs.
        what: &'static str,
        /// Its value in the reading.
        reading: String,
        /// Its value in the simulated circuits.
        reference: String,
    },
    /// A computation that its caller stopped.
    #[error("stopped on request after {done} of {total} circuits")]
    Stopped {
        /// Circuits simulated.
        done: usize,
        /// Circuits asked for.
        total: usize,
    },
    /// A prior weight that is negative or not a number.
    #[error("prior weight {weight} of {cause}: give a finite number, zero or more")]
    PriorWeight {
        /// Id of the cause.
        cause: &'static str,
        /// The weight given.
        weight: f64,
    },
    /// A prior under which no cause is possible.
    #[error(
        "every cause that these circuits can have has a prior weight of zero: give at least one a weight above zero"
    )]
    PriorAllZero,
}

impl Error {
    /// An id of the kind of error, which stays when messages change: "out-of-range", "supercritical", "unit-missing".
    ///
    /// It is the name of the variant in kebab case; [`Error::About`] has that of the error it is about.
    ///
    /// ```
    /// let error = "32".parse::<satline::GaugePressure>().unwrap_err();
    /// assert_eq!(error.code(), "unit-missing");
    /// ```
    pub fn code(&self) -> &'static str {
        match self {
            Self::OutOfRange { .. } => "out-of-range",
            Self::OutsideLimits { .. } => "outside-limits",
            Self::Implausible { .. } => "implausible",
            Self::Supercritical { .. } => "supercritical",
            Self::AboveCriticalTemperature { .. } => "above-critical-temperature",
            Self::About { error, .. } => error.code(),
            Self::BelowVacuum { .. } => "below-vacuum",
            Self::SidesReversed { .. } => "sides-reversed",
            Self::BeyondScale { .. } => "beyond-scale",
            Self::NotFinite { .. } => "not-finite",
            Self::BeyondArithmetic { .. } => "beyond-arithmetic",
            Self::NotANumber { .. } => "not-a-number",
            Self::DecimalComma { .. } => "decimal-comma",
            Self::UnitMissing { .. } => "unit-missing",
            Self::UnitUnknown { .. } => "unit-unknown",
            Self::UnitAmbiguous { .. } => "unit-ambiguous",
            Self::WrongReference { .. } => "wrong-reference",
            Self::Impossible { .. } => "impossible",
            Self::UnknownRefrigerant { .. } => "unknown-refrigerant",
            Self::TwoPhase { .. } => "two-phase",
            Self::UnknownColumn { .. } => "unknown-column",
            Self::Missing { .. } => "missing",
            Self::ColumnTwice { .. } => "column-twice",
            Self::FieldCount { .. } => "field-count",
            Self::NotConverged { .. } => "not-converged",
            Self::NotModelled { .. } => "not-modelled",
            Self::BadTable { .. } => "bad-table",
            Self::ImpossibleHumidity { .. } => "impossible-humidity",
            Self::NoRoomForAir { .. } => "no-room-for-air",
            Self::NoVapour { .. } => "no-vapour",
            Self::TooFew { .. } => "too-few",
            Self::NotLater { .. } => "not-later",
            Self::NotVacuum { .. } => "not-vacuum",
            Self::LabelContradicts { .. } => "label-contradicts",
            Self::MoreThanHolds { .. } => "more-than-holds",
            Self::UnknownOil { .. } => "unknown-oil",
            Self::UnknownInstrument { .. } => "unknown-instrument",
            Self::ControlCharacter { .. } => "control-character",
            Self::UnknownId { .. } => "unknown-id",
            Self::Twice { .. } => "twice",
            Self::WrongKind { .. } => "wrong-kind",
            Self::NotInThisState { .. } => "not-in-this-state",
            Self::Mismatch { .. } => "mismatch",
            Self::Stopped { .. } => "stopped",
            Self::PriorWeight { .. } => "prior-weight",
            Self::PriorAllZero => "prior-all-zero",
        }
    }

    /// The error as one about `place`, a reading among others.
    pub(crate) fn about(self, place: impl Into<String>) -> Self {
        Self::About { input: None, place: place.into(), error: Box::new(self) }
    }

    /// The error as one about the input with this id, named `place`.
    pub(crate) fn about_input(self, input: &'static str, place: impl Into<String>) -> Self {
        Self::About { input: Some(input), place: place.into(), error: Box::new(self) }
    }

    /// Id of the input that the error is about, such as `low-side`; `None` where it is about none.
    ///
    /// ```
    /// use satline::inspection::{EnteredValue, Measurand};
    /// let error = EnteredValue::parse(Measurand::LowSide, "22").unwrap_err();
    /// assert_eq!(error.input(), Some("low-side"));
    /// ```
    pub fn input(&self) -> Option<&'static str> {
        match self {
            Self::About { input, error, .. } => input.or_else(|| error.input()),
            Self::WrongKind { input, .. } => Some(input),
            _ => None,
        }
    }
}
