//! What can go wrong, with the value, the limit and the way out.

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
        refrigerant: &'static str,
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
        refrigerant: &'static str,
        /// The temperature given, °C.
        celsius: f64,
        /// Critical temperature, °C.
        critical_celsius: f64,
    },
    /// An error about one reading of several.
    #[error("{place}: {error}")]
    About {
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
    /// A name that is in no list of ours.
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
    /// An observation that is in no list of ours.
    #[error("unknown observation {name:?}; known: {}", known.join(", "))]
    UnknownObservation {
        /// The name given.
        name: String,
        /// The names that are known.
        known: Vec<&'static str>,
    },
}

impl Error {
    /// The error as one about `place`, a reading among others.
    pub(crate) fn about(self, place: impl Into<String>) -> Self {
        Self::About { place: place.into(), error: Box::new(self) }
    }
}
