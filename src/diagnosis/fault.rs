//! What a fault changes in a car.

use crate::circuit::{Circuit, Control, Expansion};
use crate::quantity::Quantity;
use crate::{Mass, Refrigerant};

/// A change of the modelled circuit. Its size runs from `low` to `high` of [`Fault::range`].
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Fault {
    /// Charge missing, as a share of what the label asks for.
    Undercharge,
    /// Charge too much, the same.
    Overcharge,
    /// Air inside, as a share of the mass of the charge.
    NonCondensables,
    /// Air that does not reach the condenser, as a share.
    CondenserAirflowLoss,
    /// How much hotter than the ambient the air in front of the condenser is, K.
    HotCondenserAir,
    /// Air that does not reach the evaporator, as a share.
    EvaporatorAirflowLoss,
    /// Flow the compressor lost, as a share; its work rises with it.
    CompressorWorn,
    /// The compressor pumps at full delivery and nothing stops it.
    StuckAtFullDisplacement,
    /// The compressor stays at this share of its stroke or less.
    StuckAtLowDisplacement,
    /// Flow area lost before or in the expansion device, as a share.
    LiquidRestriction,
    /// Pressure drop between compressor and condenser over the usual one, in powers of ten. A high-side port nearer the compressor
    /// feels all of it, one nearer the condenser's outlet none.
    DischargeBlocked,
    /// Pressure lost between condenser and receiver, in kPa at the flow the condenser is made for, as a power of ten. A high-side
    /// port nearer the compressor is before the place, one nearer the condenser's outlet behind it, on the liquid line (Jeep
    /// Wrangler 2011 and Liberty 2012 have it there, makers' manuals); how many cars have which was found nowhere.
    ReceiverInletBlocked,
    /// The valve stays open, or the bore is too large: further open than it should be, as a share of full.
    ValveStuckOpen,
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
            Self::Undercharge => (0.15, 0.88),
            Self::Overcharge => (0.15, 0.45),
            Self::NonCondensables => (0.001, 0.012),
            Self::CondenserAirflowLoss => (0.30, 0.90),
            Self::HotCondenserAir => (6.0, 25.0),
            Self::EvaporatorAirflowLoss => (0.40, 0.85),
            Self::CompressorWorn => (0.20, 0.75),
            Self::StuckAtFullDisplacement => (1.0, 1.0),
            Self::StuckAtLowDisplacement => (0.10, 0.50),
            Self::LiquidRestriction => (0.60, 0.97),
            Self::DischargeBlocked => (0.8, 2.2),
            // at idle about half that flow, so 100 to 500 kPa
            Self::ReceiverInletBlocked => (2.6, 3.3),
            Self::ValveStuckOpen => (0.50, 1.0),
            Self::WrongBore => (-0.30, 0.35),
            Self::SuctionBlocked => (0.7, 2.0),
            Self::WrongRefrigerant => (0.0, 1.0),
        }
    }

    /// Whether it may change nothing that is read: the receiver or accumulator takes up charge missing or too much, nothing holds
    /// a compressor back on a hot day, and a gauge behind a closed place does not feel it.
    pub(super) const fn may_hide(self) -> bool {
        matches!(self, Self::Undercharge | Self::Overcharge | Self::StuckAtFullDisplacement | Self::DischargeBlocked)
    }

    /// Whether what it changes runs smoothly with its size: not where the size picks one of several refrigerants.
    pub(super) const fn runs(self) -> bool {
        !matches!(self, Self::WrongRefrigerant | Self::StuckAtFullDisplacement)
    }

    /// Whether the balance lies further from that of the sound car than a rough guess does, as counts of evaluations say.
    pub(super) const fn moves_far(self) -> bool {
        matches!(
            self,
            Self::EvaporatorAirflowLoss | Self::HotCondenserAir | Self::CompressorWorn | Self::WrongRefrigerant
        )
    }

    /// Which of several ways it shows in, where those do not run into one another: by the refrigerant picked, or by the side of the
    /// closed place that the high-side port is on.
    pub(super) fn way(self, car: &Circuit, size: f64) -> usize {
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
            Self::Undercharge => percent("of the charge missing"),
            Self::Overcharge => percent("too much charge"),
            Self::NonCondensables => {
                format!("air of {:.2} to {:.2} % of the mass of the charge", 100.0 * size.start, 100.0 * size.end)
            }
            Self::CondenserAirflowLoss => percent("of the condenser's air missing"),
            Self::HotCondenserAir => {
                format!("air {:.0} to {:.0} K over ambient at the condenser", size.start, size.end)
            }
            Self::EvaporatorAirflowLoss => percent("of the evaporator's air missing"),
            Self::CompressorWorn => percent("of the compressor's flow lost"),
            Self::StuckAtFullDisplacement => "at full delivery throughout".to_owned(),
            Self::StuckAtLowDisplacement => {
                format!("held at {:.0} to {:.0} % of its stroke", 100.0 * size.start, 100.0 * size.end)
            }
            Self::LiquidRestriction => percent("of the passage closed"),
            Self::ValveStuckOpen => percent("open at all times"),
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
    pub fn put_into(self, car: &mut Circuit, size: f64) {
        // never reached: nothing holds the compressor back
        const UNBOUNDED: Control = Control::SuctionPressure { set_pa: 2e4, band_pa: 1e4, compensation: 0.0 };
        match self {
            Self::Undercharge => car.charge = car.charge * (1.0 - size),
            Self::Overcharge => car.charge = car.charge * (1.0 + size),
            Self::NonCondensables => car.non_condensables = Mass::from_si(car.charge.si() * size),
            Self::CondenserAirflowLoss => car.condenser_air.airflow_fraction *= 1.0 - size,
            Self::HotCondenserAir => car.condenser_air.air_on_rise_k += size,
            Self::EvaporatorAirflowLoss => car.evaporator_air.airflow_fraction *= 1.0 - size,
            Self::CompressorWorn => {
                car.compressor.volumetric_efficiency *= 1.0 - size;
                // what leaks back was worked on and comes again
                car.compressor.efficiency *= 1.0 - 0.5 * size;
            }
            Self::StuckAtFullDisplacement => car.control = UNBOUNDED,
            Self::StuckAtLowDisplacement => {
                car.compressor.displacement_m3 *= size;
                car.control = UNBOUNDED;
            }
            Self::LiquidRestriction => match &mut car.expansion {
                Expansion::Valve { area_m2, .. } => *area_m2 *= 1.0 - size,
                Expansion::Orifice { bore_m, .. } => *bore_m *= (1.0 - size).sqrt(),
                Expansion::HighSide { .. } => {}
            },
            Self::ValveStuckOpen => match &mut car.expansion {
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
