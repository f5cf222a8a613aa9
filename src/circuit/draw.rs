//! Random numbers that a circuit is drawn from, by name.

use super::ranges::SizeRange;

/// Dimensions of the sequence a circuit is drawn from; more than there are draws, as adding one must not move the others.
pub(super) const DIMENSIONS: usize = 72;

/// Place of each drawn quantity in the sequence; kinds share the places, so that they differ only in what tells them apart.
///
/// A new quantity takes the next free place; a place is never given to another.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Draw {
    Size = 0,
    Displacement = 1,
    Pulley = 2,
    Idle = 3,
    MotorSpeed = 4,
    VolumetricEfficiency = 5,
    VolumetricEfficiencyFall = 6,
    Work = 7,
    Clearance = 8,
    ShellLoss = 9,
    Face = 10,
    FanFrom = 11,
    FanFull = 12,
    Fan = 13,
    FanLow = 14,
    Ram = 15,
    Recirculated = 16,
    SinglePhase = 17,
    CondenserUnits = 18,
    CondenserRatio = 19,
    CondenserVolume = 20,
    SubcoolingPass = 21,
    Rear = 22,
    Blower = 23,
    Returned = 24,
    Duct = 25,
    EvaporatorUnits = 26,
    EvaporatorRatio = 27,
    EvaporatorVolume = 28,
    StaticSuperheat = 29,
    Gradient = 30,
    ValveSize = 31,
    Bore = 32,
    Length = 33,
    HighSidePressure = 34,
    InternalExchanger = 35,
    Receiver = 36,
    Accumulator = 37,
    SuctionDrop = 38,
    DischargeDrop = 39,
    SuctionGain = 40,
    UnderhoodRise = 41,
    LowPort = 42,
    HighPort = 43,
    SwitchCutOut = 44,
    SwitchCutIn = 45,
    Thermostat = 46,
    Bellows = 47,
    BellowsBand = 48,
    Compensation = 49,
    AirOff = 50,
    AirOffBand = 51,
    HighLimit = 52,
    Level = 53,
    Charged = 54,
    StoreShare = 55,
    LiquidLine = 56,
    Yields = 57,
    RearDisplacement = 58,
    Body = 59,
    CabinVolume = 60,
    Leakage = 61,
    Windows = 62,
    People = 63,
    InteriorConductance = 64,
    InteriorCapacity = 65,
    TextileFlow = 66,
    TextileMass = 67,
    Evenness = 68,
}

/// How far the size of a circuit decides where a part lies in its range; our choice. How strongly parts are correlated was found in
/// no source; 0 and 1 would both be wrong.
const BY_SIZE: f64 = 0.6;

/// Numbers from 0 to 1 that a circuit is made of.
pub(super) struct Draws<'a> {
    pub(super) unit: [f64; DIMENSIONS],
    /// The size at a fraction of a range.
    pub(super) size: &'a dyn Fn(&SizeRange, f64) -> f64,
}

impl Draws<'_> {
    /// The number at the place of `draw`.
    pub(super) fn raw(&self, draw: Draw) -> f64 {
        self.unit[draw as usize]
    }

    /// A quantity of its own.
    pub(super) fn own(&self, draw: Draw, range: &SizeRange) -> f64 {
        (self.size)(range, self.raw(draw))
    }

    /// Quantity of which six tenths are determined by the size of the circuit.
    pub(super) fn sized(&self, draw: Draw, range: &SizeRange) -> f64 {
        (self.size)(range, BY_SIZE * self.raw(Draw::Size) + (1.0 - BY_SIZE) * self.raw(draw))
    }
}

#[cfg(test)]
pub(super) mod tests {
    use super::*;

    /// Every draw in the order of the places.
    pub(in crate::circuit) const DRAWS: &[Draw] = &[
        Draw::Size,
        Draw::Displacement,
        Draw::Pulley,
        Draw::Idle,
        Draw::MotorSpeed,
        Draw::VolumetricEfficiency,
        Draw::VolumetricEfficiencyFall,
        Draw::Work,
        Draw::Clearance,
        Draw::ShellLoss,
        Draw::Face,
        Draw::FanFrom,
        Draw::FanFull,
        Draw::Fan,
        Draw::FanLow,
        Draw::Ram,
        Draw::Recirculated,
        Draw::SinglePhase,
        Draw::CondenserUnits,
        Draw::CondenserRatio,
        Draw::CondenserVolume,
        Draw::SubcoolingPass,
        Draw::Rear,
        Draw::Blower,
        Draw::Returned,
        Draw::Duct,
        Draw::EvaporatorUnits,
        Draw::EvaporatorRatio,
        Draw::EvaporatorVolume,
        Draw::StaticSuperheat,
        Draw::Gradient,
        Draw::ValveSize,
        Draw::Bore,
        Draw::Length,
        Draw::HighSidePressure,
        Draw::InternalExchanger,
        Draw::Receiver,
        Draw::Accumulator,
        Draw::SuctionDrop,
        Draw::DischargeDrop,
        Draw::SuctionGain,
        Draw::UnderhoodRise,
        Draw::LowPort,
        Draw::HighPort,
        Draw::SwitchCutOut,
        Draw::SwitchCutIn,
        Draw::Thermostat,
        Draw::Bellows,
        Draw::BellowsBand,
        Draw::Compensation,
        Draw::AirOff,
        Draw::AirOffBand,
        Draw::HighLimit,
        Draw::Level,
        Draw::Charged,
        Draw::StoreShare,
        Draw::LiquidLine,
        Draw::Yields,
        Draw::RearDisplacement,
        Draw::Body,
        Draw::CabinVolume,
        Draw::Leakage,
        Draw::Windows,
        Draw::People,
        Draw::InteriorConductance,
        Draw::InteriorCapacity,
        Draw::TextileFlow,
        Draw::TextileMass,
        Draw::Evenness,
    ];

    #[test]
    fn every_draw_has_a_place_of_its_own() {
        // the compiler finds a draw that the list lacks: the last one names how many there are
        assert_eq!(DRAWS.len(), Draw::Evenness as usize + 1);
        assert!(DRAWS.len() <= DIMENSIONS);
        for (place, draw) in DRAWS.iter().enumerate() {
            assert_eq!(*draw as usize, place, "{draw:?}");
        }
    }
}
