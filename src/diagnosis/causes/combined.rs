//! Faults that come in pairs and hide each other.

use super::{Cause, CauseId, Fault};
use crate::inspection::Observation;

pub(super) const UNDERCHARGE_WITH_AIR: Cause = Cause {
    found: &[(Observation::Bubbles, 1)],
    ..Cause::new(CauseId::UnderchargeWithAir, &[Fault::Undercharge, Fault::NonCondensables])
};

pub(super) const UNDERCHARGE_BEHIND_LITTLE_AIR: Cause = Cause {
    found: &[(Observation::LittleFrontAir, 1)],
    ..Cause::new(CauseId::UnderchargeBehindLittleAir, &[Fault::Undercharge, Fault::CondenserAirflowLoss])
};
