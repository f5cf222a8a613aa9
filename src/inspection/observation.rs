//! Observations by eye, ear and hand.

use crate::Error;

/// Observations with their names, as in programs and on command lines.
macro_rules! observations {
    ($($(#[$doc:meta])* $variant:ident $name:literal;)*) => {
        /// Observation by eye, ear or hand.
        #[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
        #[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(rename_all = "kebab-case"))]
        #[non_exhaustive]
        pub enum Observation { $($(#[$doc])* $variant,)* }

        impl Observation {
            /// All observations.
            pub const ALL: &'static [Self] = &[$(Self::$variant,)*];

            /// Name of the observation, as in JSON and on command lines.
            pub const fn name(self) -> &'static str {
                match self { $(Self::$variant => $name,)* }
            }
        }
    };
}

observations! {
    /// Bubbles in the sight glass.
    Bubbles "bubbles";
    /// Clutch cycling every few seconds.
    CyclesOften "cycles-often";
    /// Step in temperature, dew or frost somewhere along the liquid line or at the receiver.
    StepOnLiquidLine "step-on-liquid-line";
    /// Frost or dew at the inlet of the expansion device.
    FrostAtValve "frost-at-valve";
    /// Frost on the suction line at the compressor, or a suction line colder there than at the evaporator.
    FrostOnSuction "frost-on-suction";
    /// Evaporator iced up.
    EvaporatorIced "evaporator-iced";
    /// Cooling that stops, and returns after a pause.
    ComesAndGoes "comes-and-goes";
    /// Pressures equal soon after the compressor stops.
    EqualisesQuickly "equalises-quickly";
    /// High-side pressure that falls at once when the compressor stops, then slowly.
    FallsAtStop "falls-at-stop";
    /// High-side pressure that falls when water is put on the condenser.
    WaterHelps "water-helps";
    /// Clutch plate or shaft of the compressor that does not turn, or slips.
    NotTurning "not-turning";
    /// Condenser fan at a standstill, or little air through the condenser.
    LittleFrontAir "little-front-air";
    /// Engine running hot.
    EngineHot "engine-hot";
    /// Little air from the vents.
    LittleCabinAir "little-cabin-air";
    /// An identifier, a label or a fitting that names another refrigerant.
    OtherRefrigerant "other-refrigerant";
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
