//! Guards for what is measured at the bench: finite, and not below zero.

use crate::quantity::Unit;
use crate::{Error, Quantity};

/// `value`, finite and zero or more; `what` names it with the most usual unit of its kind.
pub(super) fn not_negative<Q: Quantity>(what: &'static str, value: Q) -> Result<Q, Error> {
    finite(what, value)?;
    if value.si() < 0.0 {
        return Err(Error::Impossible { what, value: usual(value), must: "zero or more" });
    }
    Ok(value)
}

/// `value`, finite and above zero; `what` names it with the most usual unit of its kind.
pub(super) fn positive<Q: Quantity>(what: &'static str, value: Q) -> Result<Q, Error> {
    finite(what, value)?;
    if value.si() <= 0.0 {
        return Err(Error::Impossible { what, value: usual(value), must: "above zero" });
    }
    Ok(value)
}

fn finite<Q: Quantity>(what: &'static str, value: Q) -> Result<(), Error> {
    if value.si().is_finite() { Ok(()) } else { Err(Error::NotFinite { what, text: value.si().to_string() }) }
}

/// In the most usual unit, to a millionth: what was typed reads as it was typed.
fn usual<Q: Quantity>(value: Q) -> f64 {
    let value = Q::Unit::ALL.first().map_or(value.si(), |&unit| value.value_in(unit));
    (value * 1e6).round() / 1e6
}
