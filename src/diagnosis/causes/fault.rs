//! The registry of faults, and what a fault says of itself.

use super::{
    charge, compressor, condenser_airflow, discharge_restriction, displacement, evaporator_airflow, expansion_valve,
    hot_condenser_air, liquid_restriction, non_condensables, orifice_tube, receiver_restriction, suction_restriction,
    wrong_refrigerant,
};
use crate::circuit::Circuit;

/// Effect of a fault of some size on a circuit.
#[derive(Debug, Clone, Copy)]
pub(super) struct FaultModel {
    /// Sizes that are tried, from the smallest that matters to one at which the circuit hardly works; our choice.
    pub(super) range: (f64, f64),
    /// Puts a fault of this size into the circuit.
    pub(super) apply: fn(&mut Circuit, f64),
    /// Reason why the fault may change nothing that is read.
    pub(super) masking: Option<Masking>,
    /// Whether what it changes varies smoothly with its size.
    pub(super) smooth: bool,
    /// Whether the steady state lies further from that of the healthy circuit than from a rough guess, as counts of evaluations
    /// say.
    pub(super) far_from_healthy: bool,
    /// Index of the mode in which the fault shows, where modes do not pass into one another.
    pub(super) mode: fn(&Circuit, f64) -> usize,
    /// Mole fraction of the refrigerant that the fault puts in, in a mixture with the right one; `None` if it is alone.
    pub(super) mole_fraction: Option<fn(&Circuit, f64) -> f64>,
}

/// Reason why a fault may change nothing that is read.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(in crate::diagnosis) enum Masking {
    /// The receiver or accumulator takes up charge missing or too much.
    Storage,
    /// Nothing holds a compressor back on a hot day, whatever its control does.
    FullDisplacement,
    /// A gauge downstream of the restriction does not feel it.
    HighSidePort,
}

impl FaultModel {
    /// A fault that shows whatever its size, smoothly, in one mode.
    pub(super) const fn new(range: (f64, f64), apply: fn(&mut Circuit, f64)) -> Self {
        Self { range, apply, masking: None, smooth: true, far_from_healthy: false, mode: |_, _| 0, mole_fraction: None }
    }
}

/// Whether the high-side port is nearer the condenser's outlet than the compressor, as a mode of a fault between the two.
pub(super) fn side_of_high_port(circuit: &Circuit, _size: f64) -> usize {
    usize::from(circuit.lines.high_port < NEARER_OUTLET)
}

/// Place of the high-side port halfway between the condenser's outlet, 0, and the compressor, 1.
pub(super) const NEARER_OUTLET: f64 = 0.5;

macro_rules! faults {
    ($($(#[$doc:meta])* $variant:ident $id:literal = $model:path;)*) => {
        /// A fault as a change of the modelled circuit. Its size runs from `low` to `high` of [`Fault::range`].
        #[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
        #[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
        #[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
        #[non_exhaustive]
        pub enum Fault { $($(#[$doc])* #[cfg_attr(feature = "serde", serde(rename = $id))] $variant,)* }

        impl Fault {
            /// Every fault.
            pub const ALL: &'static [Self] = &[$(Self::$variant,)*];

            const fn model(self) -> &'static FaultModel {
                match self { $(Self::$variant => &$model,)* }
            }
        }
    };
}

faults! {
    /// Charge missing, as a fraction of the nominal charge.
    Undercharge "undercharge" = charge::MISSING;
    /// Charge missing until no liquid is left and the low-pressure switch holds the compressor off, as a fraction of the
    /// nominal charge.
    NearlyEmpty "nearly-empty" = charge::NEARLY_ALL;
    /// Excess charge, as a fraction of the nominal charge.
    Overcharge "overcharge" = charge::EXCESS;
    /// Non-condensables (air) in the circuit, as a fraction of the mass of the charge.
    NonCondensables "non-condensables" = non_condensables::MODEL;
    /// Loss of airflow through the condenser, as a fraction.
    CondenserAirflowLoss "condenser-airflow-loss" = condenser_airflow::MODEL;
    /// Additional rise of the air-on temperature of the condenser above ambient, K.
    HotCondenserAir "hot-condenser-air" = hot_condenser_air::MODEL;
    /// Loss of airflow through the evaporator, as a fraction.
    EvaporatorAirflowLoss "evaporator-airflow-loss" = evaporator_airflow::MODEL;
    /// Loss of flow of the compressor, as a fraction; its work per kilogram rises with it.
    CompressorWorn "compressor-worn" = compressor::WORN;
    /// Compressor stuck at full displacement, with nothing to limit it.
    StuckAtFullDisplacement "stuck-at-full-displacement" = displacement::FULL;
    /// Compressor stuck at low displacement, as a fraction of the full displacement.
    StuckAtLowDisplacement "stuck-at-low-displacement" = displacement::LOW;
    /// Loss of flow area before or in the expansion device, as a fraction.
    LiquidRestriction "liquid-restriction" = liquid_restriction::MODEL;
    /// Pressure drop between compressor and condenser over the usual one, as a common logarithm. A high-side port
    /// nearer the compressor feels all of it, one nearer the condenser's outlet none.
    DischargeBlocked "discharge-blocked" = discharge_restriction::MODEL;
    /// Pressure drop between condenser and receiver, in kPa at the rated flow of the condenser, as a common logarithm.
    /// A high-side port nearer the compressor is upstream of the restriction, one nearer the condenser's outlet
    /// downstream, on the liquid line (Jeep Wrangler 2011 and Liberty 2012 have it there, makers' manuals); how many
    /// cars have which was found nowhere.
    ReceiverInletBlocked "receiver-inlet-blocked" = receiver_restriction::MODEL;
    /// Expansion valve stuck open, at this fraction of full opening.
    ValveStuckOpen "valve-stuck-open" = expansion_valve::MODEL;
    /// Deviation of the bore of the orifice tube from the right one, as a fraction; negative if it is too small.
    WrongBore "wrong-bore" = orifice_tube::MODEL;
    /// Pressure drop on the suction side over the usual one, as a common logarithm.
    SuctionBlocked "suction-blocked" = suction_restriction::MODEL;
    /// Another refrigerant in the circuit; the size selects which.
    WrongRefrigerant "wrong-refrigerant" = wrong_refrigerant::MODEL;
    /// Another refrigerant mixed with the right one; the size selects which, and its mole fraction.
    MixedRefrigerant "mixed-refrigerant" = wrong_refrigerant::MIXED_MODEL;
}

impl Fault {
    /// Smallest and largest size that is simulated; our choice, from where it begins to matter to where the circuit hardly
    /// works.
    pub const fn range(self) -> (f64, f64) {
        self.model().range
    }

    /// Applies the fault to `circuit`, with `size` as in [`Fault::range`].
    pub fn apply(self, circuit: &mut Circuit, size: f64) {
        (self.model().apply)(circuit, size);
    }

    /// Reason why the fault may change nothing that is read; `None` if it always shows.
    pub(in crate::diagnosis) const fn masking(self) -> Option<Masking> {
        self.model().masking
    }

    /// Whether it may change nothing that is read.
    pub(in crate::diagnosis) const fn may_be_undetectable(self) -> bool {
        self.masking().is_some()
    }

    /// Whether what it changes varies smoothly with its size.
    pub(in crate::diagnosis) const fn is_smooth(self) -> bool {
        self.model().smooth
    }

    /// Whether the steady state lies further from that of the healthy circuit than from a rough guess.
    pub(in crate::diagnosis) const fn is_far_from_healthy(self) -> bool {
        self.model().far_from_healthy
    }

    /// Which of several modes it shows in, where those do not pass into one another.
    pub(in crate::diagnosis) fn mode(self, circuit: &Circuit, size: f64) -> usize {
        (self.model().mode)(circuit, size)
    }

    /// Mole fraction of the other refrigerant in a mixture with that of `circuit`, at this size; `None` of a fault that mixes none.
    pub(in crate::diagnosis) fn mole_fraction(self, circuit: &Circuit, size: f64) -> Option<f64> {
        self.model().mole_fraction.map(|of| of(circuit, size))
    }

    /// Whether it makes a mixture, whose pressures are estimated.
    pub(in crate::diagnosis) const fn is_mixture(self) -> bool {
        self.model().mole_fraction.is_some()
    }
}

/// Size of a fault as an interval, in the unit of [`Fault::range`].
#[derive(Debug, Clone, Copy, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(deny_unknown_fields))]
#[non_exhaustive]
pub struct FaultSize {
    /// Fault that the size is of.
    pub fault: Fault,
    /// Lower end of the size.
    pub low: f64,
    /// Upper end of the size.
    pub high: f64,
}

impl FaultSize {
    /// Size of `fault` from `low` to `high`.
    pub const fn new(fault: Fault, low: f64, high: f64) -> Self {
        Self { fault, low, high }
    }
}

#[cfg(test)]
mod tests;
