//! Nothing wrong.

use super::{Cause, CauseId};

pub(super) const NO_FAULT: Cause = Cause::new(CauseId::NoFault, &[]);
