//! What eyes, ears and hands find.

use crate::Error;

/// The observations with their names, as programs and command lines write them.
macro_rules! observations {
    ($($(#[$doc:meta])* $variant:ident $name:literal;)*) => {
        /// What eyes, ears and hands find.
        #[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
        #[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(rename_all = "kebab-case"))]
        #[non_exhaustive]
        pub enum Observation { $($(#[$doc])* $variant,)* }

        impl Observation {
            /// All of them.
            pub const ALL: &'static [Self] = &[$(Self::$variant,)*];

            /// Its name.
            pub const fn name(self) -> &'static str {
                match self { $(Self::$variant => $name,)* }
            }
        }
    };
}

observations! {
    /// Bubbles in the sight glass.
    Bubbles "bubbles";
    /// The clutch opens and closes every few seconds.
    CyclesOften "cycles-often";
    /// A step in temperature, dew or frost somewhere along the liquid line or at the receiver.
    StepOnLiquidLine "step-on-liquid-line";
    /// Frost or dew at the inlet of the expansion device.
    FrostAtValve "frost-at-valve";
    /// Suction pipe at the compressor frosted, or colder than at the evaporator.
    FrostOnSuction "frost-on-suction";
    /// The evaporator is iced over.
    EvaporatorIced "evaporator-iced";
    /// It cools, stops, and cools again after a pause.
    ComesAndGoes "comes-and-goes";
    /// The pressures are equal soon after the compressor stops.
    EqualisesQuickly "equalises-quickly";
    /// The high side falls at once when the compressor stops, then slowly.
    FallsAtStop "falls-at-stop";
    /// The high side falls when water is put on the condenser.
    WaterHelps "water-helps";
    /// The compressor's clutch plate or shaft does not turn, or slips.
    NotTurning "not-turning";
    /// The condenser fan stands still, or little air comes through.
    LittleFrontAir "little-front-air";
    /// The engine runs hot.
    EngineHot "engine-hot";
    /// Little air from the vents.
    LittleCabinAir "little-cabin-air";
}

impl std::str::FromStr for Observation {
    type Err = Error;

    fn from_str(text: &str) -> Result<Self, Error> {
        let found = Self::ALL.iter().find(|observation| observation.name() == text);
        found.copied().ok_or_else(|| Error::UnknownId {
            what: "observation",
            id: text.to_owned(),
            known: Self::ALL.iter().map(|observation| observation.name()).collect(),
        })
    }
}
