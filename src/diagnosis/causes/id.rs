//! The registry of causes.

use super::Cause;
use super::{
    charge, combined, compressor, condenser_airflow, discharge_restriction, displacement, evaporator_airflow,
    expansion_valve, hot_condenser_air, liquid_restriction, no_fault, non_condensables, orifice_tube,
    receiver_restriction, suction_restriction, wrong_refrigerant,
};
use crate::Error;
use crate::circuit::CircuitKind;

/// The causes with their ids, in the order in which they are compared.
macro_rules! registry {
    ($($(#[$doc:meta])* $variant:ident $id:literal = $cause:path;)*) => {
        /// Something that may be wrong with a circuit, by the id that JSON and programs write: stable between versions.
        ///
        /// ```
        /// use satline::diagnosis::CauseId;
        /// let id: CauseId = "condenser-air".parse()?;
        /// assert_eq!((id, id.as_str()), (CauseId::CondenserAir, "condenser-air"));
        /// let said = "fan".parse::<CauseId>().unwrap_err().to_string();
        /// assert!(said.starts_with("unknown cause \"fan\"; known: no-fault, undercharge, "));
        /// # Ok::<(), satline::Error>(())
        /// ```
        #[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
        #[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
        #[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
        #[non_exhaustive]
        pub enum CauseId { $($(#[$doc])* #[cfg_attr(feature = "serde", serde(rename = $id))] $variant,)* }

        impl CauseId {
            /// Every id, no fault first.
            pub const ALL: &'static [Self] = &[$(Self::$variant,)*];

            /// The id as text, such as `undercharge`.
            pub const fn as_str(self) -> &'static str {
                match self { $(Self::$variant => $id,)* }
            }

            /// Whether a circuit of this kind can have the cause.
            ///
            /// ```
            /// use satline::Refrigerant;
            /// use satline::circuit::CircuitKind;
            /// use satline::diagnosis::CauseId;
            /// let kinds = CircuitKind::main(Refrigerant::R744);
            /// assert!(!kinds.iter().any(|kind| CauseId::WrongOrifice.applies_to(kind))); // none has an orifice tube
            /// ```
            pub fn applies_to(self, kind: &CircuitKind) -> bool {
                self.cause().applies_to(kind)
            }

            /// Whether another refrigerant than that on the label is inside, alone or mixed.
            pub(in crate::diagnosis) const fn is_other_refrigerant(self) -> bool {
                matches!(self, Self::WrongRefrigerant | Self::MixedRefrigerant | Self::WrongRefrigerantWithAir)
            }

            /// Data of the cause that has this id.
            #[doc(hidden)]
            pub const fn cause(self) -> &'static Cause {
                match self { $(Self::$variant => &$cause,)* }
            }
        }

        /// Every cause, no fault first.
        pub const ALL: &[&Cause] = &[$(&$cause,)*];
    };
}

registry! {
    /// Nothing is wrong with the circuit.
    NoFault "no-fault" = no_fault::NO_FAULT;
    /// Too little refrigerant.
    Undercharge "undercharge" = charge::UNDERCHARGE;
    /// Too much refrigerant.
    Overcharge "overcharge" = charge::OVERCHARGE;
    /// Non-condensables: air in the circuit.
    Air "air" = non_condensables::AIR;
    /// Too little air through the condenser.
    CondenserAir "condenser-air" = condenser_airflow::CONDENSER_AIR;
    /// Hot air in front of the condenser.
    EngineHeat "engine-heat" = hot_condenser_air::ENGINE_HEAT;
    /// Too little air through the evaporator.
    EvaporatorAir "evaporator-air" = evaporator_airflow::EVAPORATOR_AIR;
    /// Ice on the evaporator.
    Icing "icing" = evaporator_airflow::ICING;
    /// A worn compressor that leaks back internally.
    CompressorWorn "compressor-worn" = compressor::COMPRESSOR_WORN;
    /// A compressor at full displacement that nothing limits.
    ControlHigh "control-high" = displacement::CONTROL_HIGH;
    /// A variable compressor stuck at low displacement.
    ControlLow "control-low" = displacement::CONTROL_LOW;
    /// A restriction in the liquid line or receiver.
    LiquidRestriction "liquid-restriction" = liquid_restriction::LIQUID_RESTRICTION;
    /// An expansion device that does not open.
    ExpansionClosed "expansion-closed" = liquid_restriction::EXPANSION_CLOSED;
    /// Water that freezes in the expansion device.
    Moisture "moisture" = liquid_restriction::MOISTURE;
    /// An expansion valve that does not close.
    ExpansionOpen "expansion-open" = expansion_valve::EXPANSION_OPEN;
    /// An orifice tube of the wrong bore.
    WrongOrifice "wrong-orifice" = orifice_tube::WRONG_ORIFICE;
    /// A restriction on the suction side.
    SuctionRestriction "suction-restriction" = suction_restriction::SUCTION_RESTRICTION;
    /// Another refrigerant than that on the label.
    WrongRefrigerant "wrong-refrigerant" = wrong_refrigerant::WRONG_REFRIGERANT;
    /// A mixture of that on the label with another refrigerant.
    MixedRefrigerant "mixed-refrigerant" = wrong_refrigerant::MIXED_REFRIGERANT;
    /// Another refrigerant than that on the label, together with air.
    WrongRefrigerantWithAir "wrong-refrigerant-with-air" = wrong_refrigerant::WRONG_REFRIGERANT_WITH_AIR;
    /// Too little refrigerant, together with air.
    UnderchargeWithAir "undercharge-with-air" = combined::UNDERCHARGE_WITH_AIR;
    /// Too little refrigerant, together with too little air through the condenser.
    UnderchargeBehindLittleAir "undercharge-behind-little-air" = combined::UNDERCHARGE_BEHIND_LITTLE_AIR;
    /// A restriction between compressor and condenser.
    DischargeRestriction "discharge-restriction" = discharge_restriction::DISCHARGE_RESTRICTION;
    /// A restriction between condenser and receiver.
    ReceiverRestriction "receiver-restriction" = receiver_restriction::RECEIVER_RESTRICTION;
    /// A compressor that does not turn.
    NotTurning "not-turning" = compressor::NOT_TURNING;
    /// A circuit without liquid whose compressor is held off.
    Empty "empty" = charge::EMPTY;
}

impl std::fmt::Display for CauseId {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.pad(self.as_str())
    }
}

impl std::str::FromStr for CauseId {
    type Err = Error;

    fn from_str(text: &str) -> Result<Self, Error> {
        let found = Self::ALL.iter().find(|id| id.as_str() == text);
        found.copied().ok_or_else(|| Error::UnknownId {
            what: "cause",
            id: text.to_owned(),
            known: Self::ALL.iter().map(|id| id.as_str()).collect(),
        })
    }
}

#[cfg(test)]
mod tests {
    use std::collections::BTreeSet;

    use super::*;
    use crate::Refrigerant;
    #[cfg(feature = "serde")]
    use crate::diagnosis::Fault;
    #[cfg(feature = "serde")]
    use crate::inspection::Observation;

    /// The ids as published, in the order in which causes are compared.
    const IDS: [&str; 26] = [
        "no-fault",
        "undercharge",
        "overcharge",
        "air",
        "condenser-air",
        "engine-heat",
        "evaporator-air",
        "icing",
        "compressor-worn",
        "control-high",
        "control-low",
        "liquid-restriction",
        "expansion-closed",
        "moisture",
        "expansion-open",
        "wrong-orifice",
        "suction-restriction",
        "wrong-refrigerant",
        "mixed-refrigerant",
        "wrong-refrigerant-with-air",
        "undercharge-with-air",
        "undercharge-behind-little-air",
        "discharge-restriction",
        "receiver-restriction",
        "not-turning",
        "empty",
    ];

    #[test]
    fn ids_keep_their_order_and_go_to_text_and_back() {
        assert_eq!(CauseId::ALL.iter().map(|id| id.as_str()).collect::<Vec<_>>(), IDS);
        assert_eq!(ALL.iter().map(|cause| cause.id).collect::<Vec<_>>(), CauseId::ALL);
        assert_eq!(IDS.iter().collect::<BTreeSet<_>>().len(), IDS.len());
        for &id in CauseId::ALL {
            assert_eq!((id.cause().id, id.to_string().parse()), (id, Ok(id)));
        }
        let said = "fan".parse::<CauseId>().unwrap_err().to_string();
        assert_eq!(said, format!("unknown cause \"fan\"; known: {}", IDS.join(", ")));
    }

    #[cfg(feature = "serde")]
    #[test]
    fn ids_and_observations_are_the_same_in_json() {
        for &id in CauseId::ALL {
            let json = serde_json::to_string(&id).unwrap();
            assert_eq!(json, format!("\"{id}\""));
            assert_eq!(serde_json::from_str::<CauseId>(&json).unwrap(), id);
        }
        for &observation in Observation::ALL {
            let json = serde_json::to_string(&observation).unwrap();
            assert_eq!(json, format!("\"{}\"", observation.name()));
            assert_eq!(serde_json::from_str::<Observation>(&json).unwrap(), observation);
            assert_eq!(observation.name().parse(), Ok(observation));
        }
        for &fault in Fault::ALL {
            let json = serde_json::to_string(&fault).unwrap();
            assert_eq!(serde_json::from_str::<Fault>(&json).unwrap(), fault);
        }
    }

    /// No fault, and a compressor that does not turn, leave the circuit as it is; every other cause changes it.
    #[test]
    fn every_cause_but_two_changes_the_circuit() {
        let unchanged: Vec<&str> = ALL.iter().filter(|c| c.faults.is_empty()).map(|c| c.id.as_str()).collect();
        assert_eq!(unchanged, ["no-fault", "not-turning"]);
        let stopped: Vec<&str> = ALL.iter().filter(|c| !c.compressor_turns).map(|c| c.id.as_str()).collect();
        assert_eq!(stopped, ["not-turning", "empty"]);
    }

    /// The causes that some kinds of circuit cannot have.
    #[test]
    fn causes_keep_to_the_circuits_that_can_have_them() {
        let barred = |kind: &CircuitKind| -> Vec<&str> {
            ALL.iter().filter(|cause| !cause.applies_to(kind)).map(|cause| cause.id.as_str()).collect()
        };
        let r134a = CircuitKind::main(Refrigerant::R134a);
        assert_eq!(barred(&r134a[0]), ["control-low", "wrong-orifice"]);
        assert_eq!(barred(&r134a[1]), ["wrong-orifice"]);
        assert_eq!(barred(&r134a[3]), ["control-low", "expansion-open", "receiver-restriction"]);
        let without_condenser = [
            "liquid-restriction",
            "expansion-closed",
            "moisture",
            "expansion-open",
            "wrong-orifice",
            "wrong-refrigerant",
            "mixed-refrigerant",
            "wrong-refrigerant-with-air",
            "discharge-restriction",
            "receiver-restriction",
        ];
        assert_eq!(barred(&CircuitKind::main(Refrigerant::R744)[0]), without_condenser);
    }
}
