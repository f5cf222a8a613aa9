//! An orifice tube of the wrong bore.

use super::fault::FaultModel;
use super::{Cause, CauseId, Fault, has_orifice_tube};
use crate::circuit::Expansion;

pub(super) const MODEL: FaultModel = FaultModel::new((-0.30, 0.35), |circuit, size| {
    if let Expansion::Orifice { bore_m, .. } = &mut circuit.expansion {
        *bore_m *= 1.0 + size;
    }
});

pub(super) const WRONG_ORIFICE: Cause =
    Cause { applies: has_orifice_tube, ..Cause::new(CauseId::WrongOrifice, &[Fault::WrongBore]) };
