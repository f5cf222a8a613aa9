//! High-pressure cut-out of the compressor by makers' switches.

use super::ranges;
use crate::{GaugePressure, Pressure, Refrigerant};

/// Lowest high-side gauge pressure at which a maker's switch cuts the compressor out, in air of pressure `air`.
///
/// - **Source** [`ranges::HIGH_LIMIT`]; for R-744 [`ranges::HIGH_LIMIT_R744`], printed as absolute.
pub(crate) fn lowest_cut_out(refrigerant: Refrigerant, air: Pressure) -> GaugePressure {
    if refrigerant.is_transcritical() {
        Pressure::from_mpa(ranges::HIGH_LIMIT_R744.low).gauge(air)
    } else {
        GaugePressure::from_kpa(ranges::HIGH_LIMIT.low)
    }
}
