//! Capacity control of the compressor: clutch, displacement or speed.

use super::softplus::soft_clamp;
use crate::{GaugePressure, Range, Ratio, Source, Sourced};

/// Capacity control of the compressor.
///
/// A control sets a capacity fraction that falls from one to the least over a narrow band of the quantity it senses. A
/// cycling clutch is represented by its mean: the capacity fraction is its duty cycle, and the low side is that at
/// cut-out; the cycling range is given separately in the steady state.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Control {
    /// Cycling clutch controlled by a pressure switch on the low side.
    LowPressureSwitch {
        /// Cut-out pressure, below which the clutch disengages.
        cut_out: GaugePressure,
        /// Cut-in pressure, above which the clutch engages.
        cut_in: GaugePressure,
    },
    /// Cycling clutch controlled by a probe between the fins of the evaporator, whose temperature is the mean of
    /// surface and leaving air, K.
    Thermostat {
        /// Cut-out temperature, below which the clutch disengages, K.
        cut_out_k: f64,
        /// Cut-in temperature, above which the clutch engages, K.
        cut_in_k: f64,
    },
    /// Internal displacement control by a bellows that senses the suction pressure; its set point falls with the
    /// discharge pressure. Absolute pressures, Pa.
    SuctionPressure {
        /// Set point: suction pressure at mid-displacement and a discharge pressure of 1.5 MPa, Pa.
        set_pa: f64,
        /// Width of the suction-pressure band from least to full displacement, Pa.
        band_pa: f64,
        /// Fall of the set point per unit of discharge pressure, Pa/Pa.
        compensation: f64,
    },
    /// Control of displacement or speed by the temperature of the air leaving the evaporator, K.
    AirOff {
        /// Set point of the leaving-air temperature, K.
        set_k: f64,
        /// Width of the temperature band from least to full capacity, K.
        band_k: f64,
    },
}

/// Least capacity fraction of a controlled compressor.
///
/// 5 % is read for one maker's externally controlled compressors.
pub(super) const LEAST: Sourced<Ratio> = Sourced {
    value: Ratio::from_percent(5.0),
    source: Source {
        work: "Ford Expedition MAX 2018, climate control description",
        locator: "displacement 5 % to 100 %",
        doi: None,
        trust: crate::Trust::Excerpt,
    },
};

/// Discharge pressure at which the set point of a bellows is stated, Pa absolute; our choice.
pub(super) const REFERENCE_DISCHARGE: f64 = 1.5e6;
/// Width over which a clutch is taken from disengaged to engaged, as a fraction of its pressure; keeps the residuals
/// smooth; our choice.
const CLUTCH_BAND: f64 = 0.02;
/// Width over which a thermostat's clutch is taken from disengaged to engaged, K; our choice.
const CLUTCH_BAND_K: f64 = 0.5;
/// Width over which the high-pressure switch takes the capacity off, as a fraction of its pressure; our choice, as for the clutch.
const HIGH_LIMIT_BAND: f64 = 0.04;
/// Bend of the limits, as a capacity fraction; our choice.
const BEND: f64 = 0.01;

/// Quantities that a control may sense.
#[derive(Debug, Clone, Copy)]
pub(super) struct SensedState {
    pub(super) suction_pa: f64,
    pub(super) air_pa: f64,
    pub(super) discharge_pa: f64,
    pub(super) fins_k: f64,
    pub(super) air_off_k: f64,
}

impl Control {
    /// Capacity fraction required, 0 to 1; it falls to the least around a discharge pressure of `limit_pa`, as with a
    /// pressure switch.
    pub(super) fn capacity_fraction(&self, sensed: &SensedState, limit_pa: f64) -> f64 {
        let below = (limit_pa / sensed.discharge_pa - 1.0) / HIGH_LIMIT_BAND + 0.5;
        let allowed = soft_clamp(below, LEAST.value.fraction(), 1.0, BEND);
        self.asked(sensed) * allowed
    }

    /// Fraction of time the clutch is engaged: the capacity fraction if the clutch cycles; with a bellows, the fraction
    /// that the high-pressure switch leaves. If the air temperature controls displacement or speed, no clutch opens:
    /// the switch reduces those.
    pub(super) fn clutch_duty_cycle(&self, capacity_fraction: f64, sensed: &SensedState) -> f64 {
        match self {
            Self::LowPressureSwitch { .. } | Self::Thermostat { .. } => capacity_fraction,
            Self::SuctionPressure { .. } => capacity_fraction / self.asked(sensed),
            Self::AirOff { .. } => 1.0,
        }
        .min(1.0)
    }

    /// Capacity fraction required without the high-pressure switch.
    pub(super) fn asked(&self, sensed: &SensedState) -> f64 {
        let wish = match *self {
            Self::LowPressureSwitch { cut_out, .. } => {
                (sensed.suction_pa / (cut_out.pa() + sensed.air_pa) - 1.0) / CLUTCH_BAND + 0.5
            }
            Self::Thermostat { cut_out_k, .. } => (sensed.fins_k - cut_out_k) / CLUTCH_BAND_K + 0.5,
            Self::SuctionPressure { set_pa, band_pa, compensation } => {
                let set = set_pa - compensation * (sensed.discharge_pa - REFERENCE_DISCHARGE);
                (sensed.suction_pa - set) / band_pa + 0.5
            }
            Self::AirOff { set_k, band_k } => (sensed.air_off_k - set_k) / band_k + 0.5,
        };
        soft_clamp(wish, LEAST.value.fraction(), 1.0, BEND)
    }

    /// Cycling range of the low side; `None` without a pressure switch.
    pub(super) fn cycling_range(&self) -> Option<Range<GaugePressure>> {
        match *self {
            Self::LowPressureSwitch { cut_out, cut_in } => Some(Range::new(cut_out, cut_in)),
            _ => None,
        }
    }
}
