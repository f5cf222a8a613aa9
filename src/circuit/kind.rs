//! The kind of a circuit: what a technician can tell of it from outside.

use crate::Refrigerant;

/// The kind of a circuit.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(deny_unknown_fields))]
pub struct CircuitKind {
    /// What the label says is inside.
    #[cfg_attr(feature = "schema", schemars(with = "String"))]
    pub refrigerant: Refrigerant,
    /// The compressor and what controls it.
    pub compressor: CompressorKind,
    /// The expansion device. With an orifice tube, and with R-744, liquid is stored in an accumulator behind the evaporator,
    /// otherwise in a receiver behind the condenser.
    pub expansion: ExpansionKind,
    /// Whether the suction line is warmed by the liquid line: a thick double pipe.
    pub internal_exchanger: bool,
    /// Whether a second evaporator cools the rear, as in vans and large trucks; the two are taken as one larger one.
    pub rear_evaporator: bool,
}

/// The compressor and what controls it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(rename_all = "kebab-case"))]
pub enum CompressorKind {
    /// Fixed stroke, with a cycling clutch.
    Cycling,
    /// Variable stroke, set inside by the suction pressure; its clutch stays engaged.
    Internal,
    /// Variable stroke, set by a valve with a wire; often without a clutch.
    External,
    /// Driven by a motor of its own: high voltage.
    Electric,
}

/// The expansion device.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(rename_all = "kebab-case"))]
pub enum ExpansionKind {
    /// A block or bulb valve at the evaporator.
    ThermostaticValve,
    /// A short tube in the liquid line.
    OrificeTube,
    /// A valve with a motor.
    ElectronicValve,
}

impl CircuitKind {
    /// The kinds to think of first when nothing but the refrigerant is known: four, for R-744 two.
    ///
    /// Which there are most of is not known; all count the same. With R-1234yf an internal exchanger is usual, with R-744 it
    /// is the rule (common practice, no source).
    pub fn main(refrigerant: Refrigerant) -> Vec<Self> {
        use CompressorKind::{Cycling, Electric, External, Internal};
        use ExpansionKind::{ElectronicValve, OrificeTube, ThermostaticValve};
        let kind = |compressor, expansion, internal_exchanger| Self {
            refrigerant,
            compressor,
            expansion,
            internal_exchanger,
            rear_evaporator: false,
        };
        if refrigerant == Refrigerant::R744 {
            return vec![kind(External, ElectronicValve, true), kind(Electric, ElectronicValve, true)];
        }
        let exchanger = refrigerant == Refrigerant::R1234yf;
        vec![
            kind(Cycling, ThermostaticValve, exchanger),
            kind(Internal, ThermostaticValve, exchanger),
            kind(External, ThermostaticValve, exchanger),
            kind(Cycling, OrificeTube, false),
        ]
    }
}

impl CircuitKind {
    /// The usual kinds that fit what is known of a circuit; where none does, the one that was named.
    pub fn fitting(
        refrigerant: Refrigerant,
        compressor: Option<CompressorKind>,
        expansion: Option<ExpansionKind>,
        rear_evaporator: bool,
    ) -> Vec<Self> {
        let main = Self::main(refrigerant);
        let fits = |kind: &&Self| {
            compressor.is_none_or(|c| kind.compressor == c) && expansion.is_none_or(|e| kind.expansion == e)
        };
        let mut kinds: Vec<Self> = main.iter().filter(fits).copied().collect();
        if let (true, Some(first)) = (kinds.is_empty(), main.first()) {
            kinds.push(Self {
                compressor: compressor.unwrap_or(first.compressor),
                expansion: expansion.unwrap_or(first.expansion),
                ..*first
            });
        }
        kinds.iter_mut().for_each(|kind| kind.rear_evaporator = rear_evaporator);
        kinds
    }
}

impl std::fmt::Display for CircuitKind {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        let compressor = match self.compressor {
            CompressorKind::Cycling => "cycling clutch",
            CompressorKind::Internal => "variable compressor, internal control",
            CompressorKind::External => "variable compressor, external control",
            CompressorKind::Electric => "electric compressor",
        };
        let expansion = match self.expansion {
            ExpansionKind::ThermostaticValve => "thermostatic valve",
            ExpansionKind::OrificeTube => "orifice tube",
            ExpansionKind::ElectronicValve => "electronic valve",
        };
        write!(f, "{}, {expansion}, {compressor}", self.refrigerant)?;
        if self.internal_exchanger {
            f.write_str(", internal heat exchanger")?;
        }
        if self.rear_evaporator { f.write_str(", rear evaporator") } else { Ok(()) }
    }
}
