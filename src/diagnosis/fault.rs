//! What a fault changes in a car.

use crate::quantity::Quantity;
use crate::system::{Car, Control, Expansion};
use crate::{Mass, Refrigerant};

/// A change of the modelled circuit. Its size runs from `low` to `high` of [`Fault::range`].
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Fault {
    /// Charge missing, as a share of what the label asks for.
    ChargeMissing,
    /// Charge too much, the same.
    ChargeExtra,
    /// Air inside, as a share of the mass of the charge.
    AirInside,
    /// Air that does not reach the condenser, as a share.
    FrontAirMissing,
    /// How much hotter than the ambient the air in front of the condenser is, K.
    FrontAirHot,
    /// Air that does not reach the evaporator, as a share.
    CabinAirMissing,
    /// Flow the compressor lost, as a share; its work rises with it.
    CompressorWorn,
    /// The compressor pumps at full delivery and nothing stops it.
    ControlHigh,
    /// The compressor stays at this share of its stroke or less.
    ControlLow,
    /// Flow area lost before or in the expansion device, as a share.
    FlowBlocked,
    /// Pressure drop between compressor and condenser over the usual one, in powers of ten. A high-side port nearer the compressor
    /// feels all of it, one nearer the condenser's outlet none.
    DischargeBlocked,
    /// Pressure lost between condenser and receiver, in kPa at the flow the condenser is made for, as a power of ten. A high-side
    /// port nearer the compressor is before the place, one nearer the condenser's outlet behind it, on the liquid line (Jeep
    /// Wrangler 2011 and Liberty 2012 have it there, makers' manuals); how many cars have which was found nowhere.
    ReceiverInletBlocked,
    /// The valve stays open, or the bore is too large: further open than it should be, as a share of full.
    FlowOpen,
    /// Bore of the tube over that of the right one, less one.
    WrongBore,
    /// Pressure drop on the suction side over the usual one, in powers of ten.
    SuctionBlocked,
    /// Another refrigerant inside; the size picks which.
    WrongRefrigerant,
}

impl Fault {
    /// From where to where its size is tried; ours: from where it begins to matter to where the circuit hardly works.
    pub const fn range(self) -> (f64, f64) {
        match self {
            Self::ChargeMissing => (0.15, 0.88),
            Self::ChargeExtra => (0.15, 0.45),
            Self::AirInside => (0.001, 0.012),
            Self::FrontAirMissing => (0.30, 0.90),
            Self::FrontAirHot => (6.0, 25.0),
            Self::CabinAirMissing => (0.40, 0.85),
            Self::CompressorWorn => (0.20, 0.75),
            Self::ControlHigh => (1.0, 1.0),
            Self::ControlLow => (0.10, 0.50),
            Self::FlowBlocked => (0.60, 0.97),
            Self::DischargeBlocked => (0.8, 2.2),
            // at idle about half that flow, so 100 to 500 kPa
            Self::ReceiverInletBlocked => (2.6, 3.3),
            Self::FlowOpen => (0.50, 1.0),
            Self::WrongBore => (-0.30, 0.35),
            Self::SuctionBlocked => (0.7, 2.0),
            Self::WrongRefrigerant => (0.0, 1.0),
        }
    }

    /// Whether it may change nothing that is read: the receiver or accumulator takes up charge missing or too much, nothing holds
    /// a compressor back on a hot day, and a gauge behind a closed place does not feel it.
    pub(super) const fn may_hide(self) -> bool {
        matches!(self, Self::ChargeMissing | Self::ChargeExtra | Self::ControlHigh | Self::DischargeBlocked)
    }

    /// Whether what it changes runs smoothly with its size: not where the size picks one of several refrigerants.
    pub(super) const fn runs(self) -> bool {
        !matches!(self, Self::WrongRefrigerant | Self::ControlHigh)
    }

    /// Whether the balance lies further from that of the sound car than a rough guess does, as counts of evaluations say.
    pub(super) const fn moves_far(self) -> bool {
        matches!(self, Self::CabinAirMissing | Self::FrontAirHot | Self::CompressorWorn | Self::WrongRefrigerant)
    }

    /// Which of several ways it shows in, where those do not run into one another: by the refrigerant picked, or by the side of the
    /// closed place that the high-side port is on.
    pub(super) fn way(self, car: &Car, size: f64) -> usize {
        match self {
            Self::DischargeBlocked | Self::ReceiverInletBlocked => usize::from(car.lines.high_port < 0.5),
            Self::WrongRefrigerant => other_than(car.refrigerant, size).1,
            _ => 0,
        }
    }

    /// `size` in words, with its unit: "30 % of the charge missing".
    pub fn words(self, size: &std::ops::Range<f64>) -> String {
        let percent = |what: &str| format!("{:.0} to {:.0} % {what}", 100.0 * size.start, 100.0 * size.end);
        match self {
            Self::ChargeMissing => percent("of the charge missing"),
            Self::ChargeExtra => percent("too much charge"),
            Self::AirInside => {
                format!("air of {:.2} to {:.2} % of the mass of the charge", 100.0 * size.start, 100.0 * size.end)
            }
            Self::FrontAirMissing => percent("of the condenser's air missing"),
            Self::FrontAirHot => format!("air {:.0} to {:.0} K over ambient at the condenser", size.start, size.end),
            Self::CabinAirMissing => percent("of the evaporator's air missing"),
            Self::CompressorWorn => percent("of the compressor's flow lost"),
            Self::ControlHigh => "at full delivery throughout".to_owned(),
            Self::ControlLow => format!("held at {:.0} to {:.0} % of its stroke", 100.0 * size.start, 100.0 * size.end),
            Self::FlowBlocked => percent("of the passage closed"),
            Self::FlowOpen => percent("open at all times"),
            Self::WrongBore => format!("bore {:+.0} to {:+.0} %", 100.0 * size.start, 100.0 * size.end),
            Self::SuctionBlocked => {
                format!("suction drop {:.0} to {:.0} times the usual", 10f64.powf(size.start), 10f64.powf(size.end))
            }
            Self::DischargeBlocked => {
                format!("discharge drop {:.0} to {:.0} times the usual", 10f64.powf(size.start), 10f64.powf(size.end))
            }
            Self::ReceiverInletBlocked => {
                let (low, high) = (10f64.powf(size.start), 10f64.powf(size.end));
                format!("{low:.0} to {high:.0} kPa lost there at the flow the condenser is made for")
            }
            Self::WrongRefrigerant => "not the one on the label".to_owned(),
        }
    }

    /// Puts the fault into `car`, `size` as in [`Fault::range`].
    pub fn put_into(self, car: &mut Car, size: f64) {
        // never reached: nothing holds the compressor back
        const UNBOUNDED: Control = Control::SuctionPressure { set_pa: 2e4, band_pa: 1e4, compensation: 0.0 };
        match self {
            Self::ChargeMissing => car.charge = car.charge * (1.0 - size),
            Self::ChargeExtra => car.charge = car.charge * (1.0 + size),
            Self::AirInside => car.air_inside = Mass::from_si(car.charge.si() * size),
            Self::FrontAirMissing => car.front.openness *= 1.0 - size,
            Self::FrontAirHot => car.front.warmer_k += size,
            Self::CabinAirMissing => car.cabin.openness *= 1.0 - size,
            Self::CompressorWorn => {
                car.compressor.filling *= 1.0 - size;
                // what leaks back was worked on and comes again
                car.compressor.efficiency *= 1.0 - 0.5 * size;
            }
            Self::ControlHigh => car.control = UNBOUNDED,
            Self::ControlLow => {
                car.compressor.displacement_m3 *= size;
                car.control = UNBOUNDED;
            }
            Self::FlowBlocked => match &mut car.expansion {
                Expansion::Valve { area_m2, .. } => *area_m2 *= 1.0 - size,
                Expansion::Orifice { bore_m, .. } => *bore_m *= (1.0 - size).sqrt(),
                Expansion::HighSide { .. } => {}
            },
            Self::FlowOpen => match &mut car.expansion {
                Expansion::Valve { area_m2, static_superheat_k, gradient_k } => {
                    (*static_superheat_k, *gradient_k) = (-40.0, 1.0);
                    *area_m2 *= size;
                }
                Expansion::Orifice { bore_m, .. } => *bore_m *= 1.0 + 0.4 * size,
                Expansion::HighSide { .. } => {}
            },
            Self::WrongBore => {
                if let Expansion::Orifice { bore_m, .. } = &mut car.expansion {
                    *bore_m *= 1.0 + size;
                }
            }
            Self::SuctionBlocked => car.lines.suction_drop *= 10f64.powf(size),
            Self::DischargeBlocked => {
                car.lines.discharge_drop *= 10f64.powf(size);
                // nearly all of the drop is in one place now, and a port is before or behind it
                car.lines.high_port = car.lines.high_port.round();
            }
            Self::ReceiverInletBlocked => {
                // Δp = k ṁ²/ρ with liquid
                let rated = car.condenser.flow_kg_per_s;
                car.lines.receiver_drop = 1e3 * 10f64.powf(size) * RATED_LIQUID / (rated * rated);
                if car.lines.high_port < 0.5 {
                    car.lines.high_port = -1.0;
                }
            }
            Self::WrongRefrigerant => {
                let (other, _) = other_than(car.refrigerant, size);
                // filled to the same volume of liquid, as a can or a cylinder at the same pressure would
                let liquid = |r: Refrigerant| {
                    let at = r.saturated_at_temperature(crate::Temperature::from_celsius(25.0));
                    at.map_or(1.0, |(liquid, _)| liquid.density.si())
                };
                car.charge = car.charge * (liquid(other) / liquid(car.refrigerant));
                car.refrigerant = other;
            }
        }
    }
}

/// Density at which the drop of [`Fault::ReceiverInletBlocked`] is stated, kg/m³: liquid R-134a at 50 °C, in round numbers.
const RATED_LIQUID: f64 = 1100.0;

/// Refrigerants met in cars where they do not belong; common practice, no source.
const OTHERS: [Refrigerant; 5] =
    [Refrigerant::R134a, Refrigerant::R1234yf, Refrigerant::R152a, Refrigerant::R290, Refrigerant::R12];

/// The refrigerant that `size` picks in place of `own`, and which of them it is.
fn other_than(own: Refrigerant, size: f64) -> (Refrigerant, usize) {
    let others: Vec<Refrigerant> = OTHERS.iter().copied().filter(|other| *other != own).collect();
    let pick = ((size * others.len() as f64) as usize).min(others.len() - 1);
    (others[pick], pick)
}
