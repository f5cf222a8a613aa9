//! What holds the compressor back: clutch, stroke or speed.

use super::softplus::between;
use crate::{GaugePressure, Range, Ratio, Source, Sourced};

/// How the delivery of the compressor is controlled.
///
/// A controller is a share of delivery that falls from one to the least over a narrow band of what it senses. A clutch that
/// cycles is seen as its mean: the delivery is the share of time it is closed, and the low side is shown as the clutch
/// opens; between that and closing it swings as the steady state tells.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Control {
    /// Clutch, opened and closed by a switch on the low side.
    LowPressureSwitch {
        /// Opens below.
        cut_out: GaugePressure,
        /// Closes above.
        cut_in: GaugePressure,
    },
    /// Clutch, opened and closed by a probe between the fins of the evaporator, K: half surface, half air that leaves.
    Thermostat {
        /// Opens below.
        cut_out_k: f64,
        /// Closes above.
        cut_in_k: f64,
    },
    /// Stroke, by a bellows that feels the suction pressure, set the lower the higher the discharge pressure; absolute, Pa.
    SuctionPressure {
        /// Suction pressure at the middle of the stroke and a discharge pressure of 1.5 MPa.
        set_pa: f64,
        /// From least to full stroke.
        band_pa: f64,
        /// How much the set point falls with the discharge pressure, Pa/Pa.
        compensation: f64,
    },
    /// Stroke or speed, by the temperature of the air that leaves the evaporator, K.
    AirOff {
        /// Temperature wanted.
        set_k: f64,
        /// From least to full delivery.
        band_k: f64,
    },
}

/// Least delivery of a controlled compressor, as a share of full.
///
/// 5 % is read for one maker's externally controlled compressors.
pub const LEAST: Sourced<Ratio> = Sourced {
    value: Ratio::from_percent(5.0),
    source: Source {
        work: "Ford Expedition MAX 2018, climate control description",
        locator: "displacement 5 % to 100 %",
        doi: None,
        trust: crate::Trust::Excerpt,
    },
};

/// Discharge pressure at which the set point of a bellows is stated, Pa absolute; our choice.
const REFERENCE_DISCHARGE: f64 = 1.5e6;
/// Width over which a clutch is taken from closed to open, as a share of its pressure; keeps the balance smooth.
const CLUTCH_BAND: f64 = 0.02;
/// The same for a thermostat, K.
const CLUTCH_BAND_K: f64 = 0.5;
/// Bend of the limits.
const BEND: f64 = 0.01;

/// What a controller can feel.
#[derive(Debug, Clone, Copy)]
pub(super) struct Felt {
    pub(super) suction_pa: f64,
    pub(super) air_pa: f64,
    pub(super) discharge_pa: f64,
    pub(super) fins_k: f64,
    pub(super) air_off_k: f64,
}

impl Control {
    /// The delivery asked for, 0 to 1; above `limit_pa` of discharge it falls away, as a pressure switch has it.
    pub(super) fn capacity_fraction(&self, felt: &Felt, limit_pa: f64) -> f64 {
        // the high-pressure switch, over 4 % of its pressure
        let allowed = between((limit_pa / felt.discharge_pa - 1.0) / 0.04 + 0.5, LEAST.value.fraction(), 1.0, BEND);
        self.asked(felt) * allowed
    }

    /// Share of time the clutch is engaged: the delivery of a clutch that cycles, of a stroke set by a bellows what the
    /// high-pressure switch leaves. Where the temperature of the air sets stroke or speed no clutch opens: the switch lessens those.
    pub(super) fn clutch_duty_cycle(&self, capacity_fraction: f64, felt: &Felt) -> f64 {
        match self {
            Self::LowPressureSwitch { .. } | Self::Thermostat { .. } => capacity_fraction,
            Self::SuctionPressure { .. } => capacity_fraction / self.asked(felt),
            Self::AirOff { .. } => 1.0,
        }
        .min(1.0)
    }

    /// The delivery asked for where the high side leaves it alone.
    pub(super) fn asked(&self, felt: &Felt) -> f64 {
        let wish = match *self {
            Self::LowPressureSwitch { cut_out, .. } => {
                (felt.suction_pa / (cut_out.pa() + felt.air_pa) - 1.0) / CLUTCH_BAND + 0.5
            }
            Self::Thermostat { cut_out_k, .. } => (felt.fins_k - cut_out_k) / CLUTCH_BAND_K + 0.5,
            Self::SuctionPressure { set_pa, band_pa, compensation } => {
                let set = set_pa - compensation * (felt.discharge_pa - REFERENCE_DISCHARGE);
                (felt.suction_pa - set) / band_pa + 0.5
            }
            Self::AirOff { set_k, band_k } => (felt.air_off_k - set_k) / band_k + 0.5,
        };
        between(wish, LEAST.value.fraction(), 1.0, BEND)
    }

    /// From where to where the low side swings while the clutch cycles; none without a pressure switch.
    pub(super) fn cycling_range(&self) -> Option<Range<GaugePressure>> {
        match *self {
            Self::LowPressureSwitch { cut_out, cut_in } => Some(Range::new(cut_out, cut_in)),
            _ => None,
        }
    }
}
