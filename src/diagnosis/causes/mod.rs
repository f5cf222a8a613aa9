//! The causes: what each changes in the circuit, which circuits can have it, and how often print names it.
//!
//! A cause and its faults are in one small file; `fault.rs` and `id.rs` are the two registries, and the texts are with the
//! languages of [`crate::report`]. A new cause is a new file, its line in each registry, and the texts that the compiler then
//! asks for.

mod charge;
mod combined;
mod compressor;
mod condenser_airflow;
mod discharge_restriction;
mod displacement;
mod evaporator_airflow;
mod expansion_valve;
mod fault;
mod hot_condenser_air;
mod id;
mod liquid_restriction;
mod no_fault;
mod non_condensables;
mod orifice_tube;
mod prior;
mod receiver_restriction;
mod suction_restriction;
mod wrong_refrigerant;

pub(super) use fault::Masking;
pub use fault::{Fault, FaultSize};
pub use id::{ALL, CauseId};
pub use prior::{Prior, WORKSHOP_SURVEYS};
pub(super) use wrong_refrigerant::IDEAL_MIXTURE_ERROR;

use crate::circuit::{CircuitKind, CompressorKind, ExpansionKind};
use crate::inspection::Observation;
use crate::{Source, Trust};

/// A possible explanation of readings: no fault, or a way in which a circuit can be faulty.
///
/// [`CauseId::cause`] finds one by its id, [`ALL`] lists them; two causes are equal if their ids are.
#[derive(Debug, Clone, Copy)]
#[non_exhaustive]
pub struct Cause {
    /// Id of the cause, the same in every version.
    pub id: CauseId,
    /// Changes of the modelled circuit; empty for no fault and a stopped compressor, two for combined causes.
    pub faults: &'static [Fault],
    /// Whether the compressor turns; if it does not, both gauges show the equalised pressure.
    pub compressor_turns: bool,
    /// Counts of published fault charts by pattern: pattern, sources that list the cause, sources with that pattern. A chart that
    /// names several causes in one entry, such as a restriction of pipe, condenser or receiver, counts for each of them.
    pub in_print: &'static [(&'static str, u32, u32)],
    /// Observations by eye and hand that go with the cause, each with a weight that stands for a number of texts.
    ///
    /// No count of texts by observation was made. The weight is the number of charts that name the cause in the row beside which
    /// the observation is printed (`tables/diagnosis/gauge-patterns.csv`); of frost on the suction line and ice on the evaporator
    /// two such rows together. Otherwise it is our choice: so of little air, of water on a blocked condenser, of ice with a
    /// control that never acts, of frost with frozen water, of a standing shaft, of what an identifier or a label says, and of
    /// combined causes.
    pub found: &'static [(Observation, u32)],
    /// Whether a circuit of this kind can have it.
    applies: fn(&CircuitKind) -> bool,
}

/// Source of the weights of observations: counts of published fault charts, and our choice, whose grade is the weaker.
pub const COUNTS: Source = Source {
    work: "count of makers' and trade fault charts, and our choice",
    locator: "tables/diagnosis/gauge-patterns.csv",
    doi: None,
    trust: Trust::CommonPractice,
};

impl Cause {
    /// A cause made of `faults` that any circuit can have and that no print names.
    const fn new(id: CauseId, faults: &'static [Fault]) -> Self {
        Self { id, faults, compressor_turns: true, in_print: &[], found: &[], applies: |_| true }
    }

    /// Whether both causes change the circuit in the same way, so that no measurement distinguishes them.
    pub fn changes_like(&self, other: &Self) -> bool {
        !self.faults.is_empty() && self.faults == other.faults
    }

    /// Whether a circuit of this kind can have the cause.
    pub fn applies_to(&self, kind: &CircuitKind) -> bool {
        (self.applies)(kind)
    }
}

impl PartialEq for Cause {
    fn eq(&self, other: &Self) -> bool {
        let (Self { id, .. }, Self { id: other, .. }) = (self, other);
        id == other
    }
}

impl Eq for Cause {}

/// Circuits in which the refrigerant condenses: all but those with R-744.
fn has_condenser(kind: &CircuitKind) -> bool {
    !kind.refrigerant.is_transcritical()
}

/// Circuits with an orifice tube.
fn has_orifice_tube(kind: &CircuitKind) -> bool {
    kind.expansion == ExpansionKind::OrificeTube
}

/// Circuits with a receiver downstream of the condenser: those with a valve.
fn has_receiver(kind: &CircuitKind) -> bool {
    has_condenser(kind) && !has_orifice_tube(kind)
}

/// Circuits whose compressor varies its stroke or speed.
fn has_variable_compressor(kind: &CircuitKind) -> bool {
    kind.compressor != CompressorKind::Cycling
}
