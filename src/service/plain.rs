//! Guards for what is measured at the bench: finite, and not below zero.

use crate::{Error, Quantity};

/// `value`, finite and zero or more; `what` names it with the SI unit.
pub(super) fn not_negative<Q: Quantity>(what: &'static str, value: Q) -> Result<Q, Error> {
    finite(what, value)?;
    if value.si() < 0.0 {
        return Err(Error::Impossible { what, value: value.si(), must: "zero or more" });
    }
    Ok(value)
}

/// `value`, finite and above zero; `what` names it with the SI unit.
pub(super) fn positive<Q: Quantity>(what: &'static str, value: Q) -> Result<Q, Error> {
    finite(what, value)?;
    if value.si() <= 0.0 {
        return Err(Error::Impossible { what, value: value.si(), must: "above zero" });
    }
    Ok(value)
}

fn finite<Q: Quantity>(what: &'static str, value: Q) -> Result<(), Error> {
    if value.si().is_finite() { Ok(()) } else { Err(Error::NotFinite { what, text: value.si().to_string() }) }
}
