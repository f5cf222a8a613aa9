//! The high side at which makers' switches cut the compressor out.

use super::ranges;
use crate::{GaugePressure, Pressure, Refrigerant};

/// The lowest high side at which a maker's switch cuts the compressor out, as a gauge shows it in air of pressure `air`.
///
/// - **Source** [`ranges::HIGH_LIMIT`]; for R-744 [`ranges::HIGH_LIMIT_R744`], printed as absolute.
pub(crate) fn lowest_cut_out(refrigerant: Refrigerant, air: Pressure) -> GaugePressure {
    if refrigerant.is_transcritical() {
        Pressure::from_mpa(ranges::HIGH_LIMIT_R744.low).gauge(air)
    } else {
        GaugePressure::from_kpa(ranges::HIGH_LIMIT.low)
    }
}
