//! Kind of circuit: what a technician can tell of it from outside.

use crate::Refrigerant;

/// Type of A/C circuit: refrigerant, compressor, expansion device, internal heat exchanger, rear evaporator.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(deny_unknown_fields))]
pub struct CircuitKind {
    /// Refrigerant named on the label.
    #[cfg_attr(feature = "schema", schemars(with = "String"))]
    pub refrigerant: Refrigerant,
    /// Type of compressor and its capacity control.
    pub compressor: CompressorKind,
    /// Type of expansion device. With an orifice tube, and with R-744, liquid is stored in an accumulator downstream of
    /// the evaporator, otherwise in a receiver downstream of the condenser.
    pub expansion: ExpansionKind,
    /// Whether an internal heat exchanger, a thick double pipe, warms the suction line with the liquid line.
    pub internal_exchanger: bool,
    /// Whether a second evaporator cools the rear, as in vans and large trucks; both are modelled as one larger
    /// evaporator.
    pub rear_evaporator: bool,
}

/// Type of compressor and its capacity control.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(rename_all = "kebab-case"))]
pub enum CompressorKind {
    /// Fixed-displacement compressor with a cycling clutch.
    Cycling,
    /// Internally controlled variable-displacement compressor, governed by the suction pressure; its clutch stays
    /// engaged.
    Internal,
    /// Externally controlled variable-displacement compressor (electric control valve), often without a clutch.
    External,
    /// Electric compressor, high voltage.
    Electric,
}

/// Type of expansion device.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(rename_all = "kebab-case"))]
pub enum ExpansionKind {
    /// Thermostatic expansion valve, block or bulb type, at the evaporator.
    ThermostaticValve,
    /// Orifice tube, a short tube in the liquid line.
    OrificeTube,
    /// Electronic expansion valve, driven by a motor.
    ElectronicValve,
}

impl CircuitKind {
    /// Kinds of circuit to consider first if nothing but the refrigerant is known: four, for R-1234yf five, for R-744 two.
    ///
    /// Their relative frequency is not known; all are taken as equally likely. With R-1234yf many circuits have an internal
    /// exchanger and many have none: external control comes with both, internal control with one, a cycling clutch without; with
    /// R-744 it is the rule (common practice, no source).
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
        let mut kinds = vec![
            kind(Cycling, ThermostaticValve, false),
            kind(Internal, ThermostaticValve, exchanger),
            kind(External, ThermostaticValve, exchanger),
            kind(Cycling, OrificeTube, false),
        ];
        if exchanger {
            kinds.insert(3, kind(External, ThermostaticValve, false));
        }
        kinds
    }
}

impl CircuitKind {
    /// Usual kinds of circuit that fit a known compressor and expansion device; if none does, the one described.
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
