//! Sizes that depend on the refrigerant: how circuits of R-744 differ from the others.

use super::ranges::{self, SizeRange};
use crate::{Pressure, Refrigerant};

/// The standard atmosphere, Pa.
pub(super) const STANDARD_ATMOSPHERE_PA: f64 = Pressure::STANDARD_ATMOSPHERE.pa();

/// Sizes that depend on the refrigerant, R-744 or another.
#[derive(Debug, PartialEq)]
pub(super) struct RefrigerantSizes {
    /// Whether a valve holds the high side, with an accumulator downstream of the evaporator.
    pub(super) high_side_valve: bool,
    /// Whether compressors are built for the density of the refrigerant, so that no loss has to be scaled by it.
    pub(super) built_for_density: bool,
    /// Rated refrigerant flow of the exchangers over that of R-134a.
    pub(super) flow: f64,
    /// Inner volume of exchangers and accumulator over that of R-134a.
    pub(super) volume: f64,
    /// Inner volume of the liquid line over that of R-134a.
    pub(super) liquid_line: f64,
    /// Inner volume of suction and discharge line over that of R-134a.
    pub(super) vapour_lines: f64,
    pub(super) displacement_belt: SizeRange,
    pub(super) displacement_electric: SizeRange,
    pub(super) fan_from: SizeRange,
    pub(super) fan_full: SizeRange,
    /// Unit of the two fan ranges in kPa.
    pub(super) fan_kpa_per_unit: f64,
    pub(super) single_phase: SizeRange,
    pub(super) internal_exchanger: SizeRange,
    pub(super) accumulator_share: SizeRange,
    pub(super) high_limit: SizeRange,
    /// Unit of the high-limit range in Pa, and its zero, Pa absolute.
    pub(super) high_limit_pa_per_unit: f64,
    pub(super) high_limit_offset_pa: f64,
}

impl RefrigerantSizes {
    /// Every refrigerant that condenses; the other numbers are units, by definition.
    const CONDENSING: Self = Self {
        high_side_valve: false,
        built_for_density: false,
        flow: 1.0,
        volume: 1.0,
        liquid_line: 1.0,
        vapour_lines: 1.0,
        displacement_belt: ranges::DISPLACEMENT,
        displacement_electric: ranges::DISPLACEMENT_ELECTRIC,
        fan_from: ranges::FAN_FROM,
        fan_full: ranges::FAN_FULL,
        fan_kpa_per_unit: 1.0,
        single_phase: ranges::SINGLE_PHASE,
        internal_exchanger: ranges::EXCHANGER,
        accumulator_share: ranges::ACCUMULATOR_SHARE,
        high_limit: ranges::HIGH_LIMIT,
        high_limit_pa_per_unit: 1e3,
        high_limit_offset_pa: STANDARD_ATMOSPHERE_PA,
    };

    /// less flow, smaller volumes, higher pressures; all scales from memory.
    ///
    /// Its compressors are built for its density; a printed comparison requires no more than the loss as it is.
    const R744: Self = Self {
        high_side_valve: true,
        built_for_density: true,
        flow: 0.8,
        volume: 0.6,
        liquid_line: 0.5,
        vapour_lines: 0.3,
        displacement_belt: ranges::DISPLACEMENT_R744,
        displacement_electric: ranges::DISPLACEMENT_ELECTRIC_R744,
        fan_from: ranges::FAN_FROM_R744,
        fan_full: ranges::FAN_FULL_R744,
        fan_kpa_per_unit: 1e3,
        single_phase: ranges::SINGLE_PHASE_R744,
        internal_exchanger: ranges::EXCHANGER_R744,
        accumulator_share: ranges::ACCUMULATOR_SHARE_R744,
        high_limit: ranges::HIGH_LIMIT_R744,
        high_limit_pa_per_unit: 1e6,
        high_limit_offset_pa: 0.0,
    };

    pub(super) const fn of(refrigerant: Refrigerant) -> &'static Self {
        match refrigerant {
            Refrigerant::R744 => &Self::R744,
            _ => &Self::CONDENSING,
        }
    }
}
