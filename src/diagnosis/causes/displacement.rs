//! A compressor control that is stuck.

use super::fault::{FaultModel, Masking};
use super::{Cause, CauseId, Fault, Observation, has_variable_compressor};
use crate::circuit::Control;

/// Absolute suction pressure too low to be reached, so that nothing holds the compressor back; our choice.
const NEVER_REACHED_PA: f64 = 2e4;
/// Width of the control round it; our choice.
const NEVER_REACHED_BAND_PA: f64 = 1e4;

/// A control that never acts.
const UNBOUNDED: Control =
    Control::SuctionPressure { set_pa: NEVER_REACHED_PA, band_pa: NEVER_REACHED_BAND_PA, compensation: 0.0 };

/// It has one size: nothing holds the compressor back.
pub(super) const FULL: FaultModel = FaultModel {
    masking: Some(Masking::FullDisplacement),
    smooth: false,
    ..FaultModel::new((1.0, 1.0), |circuit, _| circuit.control = UNBOUNDED)
};

pub(super) const LOW: FaultModel = FaultModel::new((0.10, 0.50), |circuit, size| {
    circuit.compressor.displacement_m3 *= size;
    circuit.control = UNBOUNDED;
});

pub(super) const CONTROL_HIGH: Cause = Cause {
    in_print: &[("A", 1, 11), ("I", 1, 2)],
    found: &[(Observation::EvaporatorIced, 1)],
    ..Cause::new(CauseId::ControlHigh, &[Fault::StuckAtFullDisplacement])
};

pub(super) const CONTROL_LOW: Cause =
    Cause { applies: has_variable_compressor, ..Cause::new(CauseId::ControlLow, &[Fault::StuckAtLowDisplacement]) };
