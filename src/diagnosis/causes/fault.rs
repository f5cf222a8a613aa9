//! The registry of faults, and what a fault says of itself.

use super::{
    charge, compressor, condenser_airflow, discharge_restriction, displacement, evaporator_airflow, expansion_valve,
    hot_condenser_air, liquid_restriction, non_condensables, orifice_tube, receiver_restriction, suction_restriction,
    wrong_refrigerant,
};
use crate::circuit::Circuit;

/// Effect of a fault of some size on a circuit.
#[derive(Debug, Clone, Copy)]
pub(super) struct FaultModel {
    /// Sizes that are tried, from the smallest that matters to one at which the circuit hardly works; our choice.
    pub(super) range: (f64, f64),
    /// Puts a fault of this size into the circuit.
    pub(super) apply: fn(&mut Circuit, f64),
    /// Reason why the fault may change nothing that is read.
    pub(super) masking: Option<Masking>,
    /// Whether what it changes varies smoothly with its size.
    pub(super) smooth: bool,
    /// Whether the steady state lies further from that of the healthy circuit than from a rough guess, as counts of evaluations
    /// say.
    pub(super) far_from_healthy: bool,
    /// Index of the mode in which the fault shows, where modes do not pass into one another.
    pub(super) mode: fn(&Circuit, f64) -> usize,
    /// Mole fraction of the refrigerant that the fault puts in, in a mixture with the right one; `None` if it is alone.
    pub(super) mole_fraction: Option<fn(&Circuit, f64) -> f64>,
}

/// Reason why a fault may change nothing that is read.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(in crate::diagnosis) enum Masking {
    /// The receiver or accumulator takes up charge missing or too much.
    Storage,
    /// Nothing holds a compressor back on a hot day, whatever its control does.
    FullDisplacement,
    /// A gauge downstream of the restriction does not feel it.
    HighSidePort,
}

impl FaultModel {
    /// A fault that shows whatever its size, smoothly, in one mode.
    pub(super) const fn new(range: (f64, f64), apply: fn(&mut Circuit, f64)) -> Self {
        Self { range, apply, masking: None, smooth: true, far_from_healthy: false, mode: |_, _| 0, mole_fraction: None }
    }
}

/// Whether the high-side port is nearer the condenser's outlet than the compressor, as a mode of a fault between the two.
pub(super) fn side_of_high_port(circuit: &Circuit, _size: f64) -> usize {
    usize::from(circuit.lines.high_port < NEARER_OUTLET)
}

/// Place of the high-side port halfway between the condenser's outlet, 0, and the compressor, 1.
pub(super) const NEARER_OUTLET: f64 = 0.5;

macro_rules! faults {
    ($($(#[$doc:meta])* $variant:ident $id:literal = $model:path;)*) => {
        /// A fault as a change of the modelled circuit. Its size runs from `low` to `high` of [`Fault::range`].
        #[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
        #[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
        #[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
        #[non_exhaustive]
        pub enum Fault { $($(#[$doc])* #[cfg_attr(feature = "serde", serde(rename = $id))] $variant,)* }

        impl Fault {
            /// Every fault.
            pub const ALL: &'static [Self] = &[$(Self::$variant,)*];

            const fn model(self) -> &'static FaultModel {
                match self { $(Self::$variant => &$model,)* }
            }
        }
    };
}

faults! {
    /// Charge missing, as a fraction of the nominal charge.
    Undercharge "undercharge" = charge::MISSING;
    /// Charge missing until no liquid is left and the low-pressure switch holds the compressor off, as a fraction of the
    /// nominal charge.
    NearlyEmpty "nearly-empty" = charge::NEARLY_ALL;
    /// Excess charge, as a fraction of the nominal charge.
    Overcharge "overcharge" = charge::EXCESS;
    /// Non-condensables (air) in the circuit, as a fraction of the mass of the charge.
    NonCondensables "non-condensables" = non_condensables::MODEL;
    /// Loss of airflow through the condenser, as a fraction.
    CondenserAirflowLoss "condenser-airflow-loss" = condenser_airflow::MODEL;
    /// Additional rise of the air-on temperature of the condenser above ambient, K.
    HotCondenserAir "hot-condenser-air" = hot_condenser_air::MODEL;
    /// Loss of airflow through the evaporator, as a fraction.
    EvaporatorAirflowLoss "evaporator-airflow-loss" = evaporator_airflow::MODEL;
    /// Loss of flow of the compressor, as a fraction; its work per kilogram rises with it.
    CompressorWorn "compressor-worn" = compressor::WORN;
    /// Compressor stuck at full displacement, with nothing to limit it.
    StuckAtFullDisplacement "stuck-at-full-displacement" = displacement::FULL;
    /// Compressor stuck at low displacement, as a fraction of the full displacement.
    StuckAtLowDisplacement "stuck-at-low-displacement" = displacement::LOW;
    /// Loss of flow area before or in the expansion device, as a fraction.
    LiquidRestriction "liquid-restriction" = liquid_restriction::MODEL;
    /// Pressure drop between compressor and condenser over the usual one, as a common logarithm. A high-side port
    /// nearer the compressor feels all of it, one nearer the condenser's outlet none.
    DischargeBlocked "discharge-blocked" = discharge_restriction::MODEL;
    /// Pressure drop between condenser and receiver, in kPa at the rated flow of the condenser, as a common logarithm.
    /// A high-side port nearer the compressor is upstream of the restriction, one nearer the condenser's outlet
    /// downstream, on the liquid line (Jeep Wrangler 2011 and Liberty 2012 have it there, makers' manuals); how many
    /// cars have which was found nowhere.
    ReceiverInletBlocked "receiver-inlet-blocked" = receiver_restriction::MODEL;
    /// Expansion valve stuck open, at this fraction of full opening.
    ValveStuckOpen "valve-stuck-open" = expansion_valve::MODEL;
    /// Deviation of the bore of the orifice tube from the right one, as a fraction; negative if it is too small.
    WrongBore "wrong-bore" = orifice_tube::MODEL;
    /// Pressure drop on the suction side over the usual one, as a common logarithm.
    SuctionBlocked "suction-blocked" = suction_restriction::MODEL;
    /// Another refrigerant in the circuit; the size selects which.
    WrongRefrigerant "wrong-refrigerant" = wrong_refrigerant::MODEL;
    /// Another refrigerant mixed with the right one; the size selects which, and its mole fraction.
    MixedRefrigerant "mixed-refrigerant" = wrong_refrigerant::MIXED_MODEL;
}

impl Fault {
    /// Smallest and largest size that is simulated; our choice, from where it begins to matter to where the circuit hardly
    /// works.
    pub const fn range(self) -> (f64, f64) {
        self.model().range
    }

    /// Applies the fault to `circuit`, with `size` as in [`Fault::range`].
    pub fn apply(self, circuit: &mut Circuit, size: f64) {
        (self.model().apply)(circuit, size);
    }

    /// Reason why the fault may change nothing that is read; `None` if it always shows.
    pub(in crate::diagnosis) const fn masking(self) -> Option<Masking> {
        self.model().masking
    }

    /// Whether it may change nothing that is read.
    pub(in crate::diagnosis) const fn may_be_undetectable(self) -> bool {
        self.masking().is_some()
    }

    /// Whether what it changes varies smoothly with its size.
    pub(in crate::diagnosis) const fn is_smooth(self) -> bool {
        self.model().smooth
    }

    /// Whether the steady state lies further from that of the healthy circuit than from a rough guess.
    pub(in crate::diagnosis) const fn is_far_from_healthy(self) -> bool {
        self.model().far_from_healthy
    }

    /// Which of several modes it shows in, where those do not pass into one another.
    pub(in crate::diagnosis) fn mode(self, circuit: &Circuit, size: f64) -> usize {
        (self.model().mode)(circuit, size)
    }

    /// Mole fraction of the other refrigerant in a mixture with that of `circuit`, at this size; `None` of a fault that mixes none.
    pub(in crate::diagnosis) fn mole_fraction(self, circuit: &Circuit, size: f64) -> Option<f64> {
        self.model().mole_fraction.map(|of| of(circuit, size))
    }

    /// Whether it makes a mixture, whose pressures are estimated.
    pub(in crate::diagnosis) const fn is_mixture(self) -> bool {
        self.model().mole_fraction.is_some()
    }
}

/// Size of a fault as an interval, in the unit of [`Fault::range`].
#[derive(Debug, Clone, Copy, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(deny_unknown_fields))]
#[non_exhaustive]
pub struct FaultSize {
    /// Fault that the size is of.
    pub fault: Fault,
    /// Lower end of the size.
    pub low: f64,
    /// Upper end of the size.
    pub high: f64,
}

impl FaultSize {
    /// Size of `fault` from `low` to `high`.
    pub const fn new(fault: Fault, low: f64, high: f64) -> Self {
        Self { fault, low, high }
    }
}

#[cfg(test)]
mod tests {
    use std::collections::BTreeSet;

    use approx::abs_diff_eq;

    use super::*;
    use crate::Refrigerant;
    use crate::circuit::{CircuitKind, CompressorKind, Control, Expansion, ExpansionKind, Population};
    use crate::diagnosis::ALL;
    use crate::quantity::Quantity;

    /// Kinds of all compressors and expansion devices, with R-134a and R-744.
    fn kinds() -> Vec<CircuitKind> {
        let mut kinds = CircuitKind::main(Refrigerant::R134a);
        kinds.extend(CircuitKind::main(Refrigerant::R744));
        kinds.push(CircuitKind {
            compressor: CompressorKind::Electric,
            expansion: ExpansionKind::ElectronicValve,
            ..kinds[1]
        });
        kinds.push(CircuitKind {
            compressor: CompressorKind::Internal,
            expansion: ExpansionKind::OrificeTube,
            ..kinds[1]
        });
        kinds
    }

    /// Circuits of every kind that can have `fault`, in the first cause made of it alone.
    fn circuits(fault: Fault) -> Vec<Circuit> {
        let cause = ALL.iter().find(|cause| cause.faults == [fault]).unwrap();
        let able = kinds().into_iter().filter(|kind| cause.applies_to(kind));
        able.flat_map(|kind| {
            let population = Population::with_seed(kind, 7).unwrap();
            (0..8).map(move |i| population.circuit(i))
        })
        .collect()
    }

    /// Puts what `fault` may change in `f` back as the healthy circuit `h` has it; whether it had changed as it should.
    fn restore(fault: Fault, size: f64, h: &Circuit, f: &mut Circuit) -> bool {
        use std::mem::replace;
        let near = |a: f64, b: f64| abs_diff_eq!(a, b, epsilon = 1e-12 * b.abs()); // rounding
        // a control that never acts, as both stuck ones have it
        let unbounded = |control: Control| matches!(control, Control::SuctionPressure { set_pa, .. } if set_pa < 3e4);
        match fault {
            Fault::Undercharge | Fault::NearlyEmpty => near(replace(&mut f.charge, h.charge) / h.charge, 1.0 - size),
            Fault::Overcharge => near(replace(&mut f.charge, h.charge) / h.charge, 1.0 + size),
            Fault::NonCondensables => {
                let air = replace(&mut f.non_condensables, h.non_condensables);
                near(air / h.charge, size) && h.non_condensables.si() == 0.0
            }
            Fault::CondenserAirflowLoss => {
                let healthy = h.condenser_air.airflow_fraction;
                near(replace(&mut f.condenser_air.airflow_fraction, healthy), healthy * (1.0 - size))
            }
            Fault::HotCondenserAir => {
                let healthy = h.condenser_air.air_on_rise_k;
                near(replace(&mut f.condenser_air.air_on_rise_k, healthy), healthy + size)
            }
            Fault::EvaporatorAirflowLoss => {
                let healthy = h.evaporator_air.airflow_fraction;
                near(replace(&mut f.evaporator_air.airflow_fraction, healthy), healthy * (1.0 - size))
            }
            Fault::CompressorWorn => {
                let (filled, work) = (h.compressor.volumetric_efficiency, h.compressor.efficiency);
                let left = replace(&mut f.compressor.efficiency, work) / work;
                near(replace(&mut f.compressor.volumetric_efficiency, filled), filled * (1.0 - size))
                    && (0.5..1.0).contains(&left)
            }
            Fault::StuckAtFullDisplacement => unbounded(replace(&mut f.control, h.control)) && !unbounded(h.control),
            Fault::StuckAtLowDisplacement => {
                let healthy = h.compressor.displacement_m3;
                near(replace(&mut f.compressor.displacement_m3, healthy), healthy * size)
                    && unbounded(replace(&mut f.control, h.control))
                    && !unbounded(h.control)
            }
            Fault::LiquidRestriction | Fault::ValveStuckOpen | Fault::WrongBore => {
                expansion(fault, size, &h.expansion, &replace(&mut f.expansion, h.expansion))
            }
            Fault::DischargeBlocked => {
                let (drop, port) = (h.lines.discharge_drop, h.lines.high_port);
                let moved = replace(&mut f.lines.high_port, port);
                near(replace(&mut f.lines.discharge_drop, drop), drop * 10f64.powf(size))
                    && (moved - port).abs() <= 0.5
                    && [0.0, 1.0].contains(&moved)
            }
            Fault::ReceiverInletBlocked => {
                let port = h.lines.high_port;
                let drop = replace(&mut f.lines.receiver_drop, h.lines.receiver_drop);
                let moved = replace(&mut f.lines.high_port, port);
                h.lines.receiver_drop == 0.0 && drop > 0.0 && moved == if port < 0.5 { -1.0 } else { port }
            }
            Fault::SuctionBlocked => {
                near(replace(&mut f.lines.suction_drop, h.lines.suction_drop), h.lines.suction_drop * 10f64.powf(size))
            }
            Fault::WrongRefrigerant | Fault::MixedRefrigerant => {
                let other = replace(&mut f.refrigerant, h.refrigerant);
                other != h.refrigerant && replace(&mut f.charge, h.charge).si() > 0.0
            }
        }
    }

    /// Whether `fault` leaves the expansion device as it should.
    fn expansion(fault: Fault, size: f64, healthy: &Expansion, faulty: &Expansion) -> bool {
        let near = |a: f64, b: f64| abs_diff_eq!(a, b, epsilon = 1e-12 * b.abs()); // rounding
        match (fault, healthy, faulty) {
            (
                Fault::LiquidRestriction,
                Expansion::Valve { area_m2: old, static_superheat_k, gradient_k },
                Expansion::Valve { area_m2: new, static_superheat_k: superheat, gradient_k: gradient },
            ) => near(*new, old * (1.0 - size)) && (superheat, gradient) == (static_superheat_k, gradient_k),
            (
                Fault::LiquidRestriction,
                Expansion::Orifice { bore_m: old, length_m },
                Expansion::Orifice { bore_m: new, length_m: length },
            ) => near(new * new, old * old * (1.0 - size)) && length == length_m,
            (
                Fault::ValveStuckOpen,
                Expansion::Valve { area_m2: old, .. },
                Expansion::Valve { area_m2: new, static_superheat_k, gradient_k },
            ) => near(*new, old * size) && static_superheat_k + gradient_k < -20.0,
            (
                Fault::WrongBore,
                Expansion::Orifice { bore_m: old, length_m },
                Expansion::Orifice { bore_m: new, length_m: length },
            ) => near(*new, old * (1.0 + size)) && length == length_m,
            _ => false,
        }
    }

    #[test]
    fn every_fault_changes_what_it_should_and_nothing_else() {
        for &fault in Fault::ALL {
            let (low, high) = fault.range();
            assert!(low <= high && (low < high || !fault.is_smooth()), "{fault:?}: {low} to {high}");
            let circuits = circuits(fault);
            assert!(circuits.len() >= 8, "{fault:?}");
            for healthy in circuits {
                for size in [low, high] {
                    let mut faulty = healthy;
                    fault.apply(&mut faulty, size);
                    assert_ne!(faulty, healthy, "{fault:?} of {size}");
                    let right = restore(fault, size, &healthy, &mut faulty);
                    assert!(right, "{fault:?} of {size} in {healthy:?}");
                    assert_eq!(faulty, healthy, "{fault:?} of {size} changes more");
                }
            }
        }
    }

    #[test]
    fn every_fault_belongs_to_a_cause_and_no_cause_names_one_twice() {
        let named: BTreeSet<Fault> = ALL.iter().flat_map(|cause| cause.faults).copied().collect();
        assert_eq!(named.into_iter().collect::<Vec<_>>(), Fault::ALL);
        for cause in ALL {
            assert_eq!(cause.faults.iter().collect::<BTreeSet<_>>().len(), cause.faults.len(), "{}", cause.id);
        }
    }

    #[test]
    fn faults_that_may_be_undetectable_say_why() {
        let masked: Vec<(Fault, Masking)> =
            Fault::ALL.iter().filter_map(|&fault| Some((fault, fault.masking()?))).collect();
        let expected = [
            (Fault::Undercharge, Masking::Storage),
            (Fault::Overcharge, Masking::Storage),
            (Fault::StuckAtFullDisplacement, Masking::FullDisplacement),
            (Fault::DischargeBlocked, Masking::HighSidePort),
        ];
        assert_eq!(masked, expected);
    }

    #[test]
    fn modes_follow_the_port_and_the_refrigerant() {
        for fault in [Fault::DischargeBlocked, Fault::ReceiverInletBlocked] {
            for mut circuit in circuits(fault) {
                circuit.lines.high_port = 0.2;
                assert_eq!(fault.mode(&circuit, fault.range().0), 1);
                circuit.lines.high_port = 0.8;
                assert_eq!(fault.mode(&circuit, fault.range().0), 0);
            }
        }
        // four others than R-134a, each a mode of its own
        let circuit = circuits(Fault::WrongRefrigerant)[0];
        let modes: BTreeSet<usize> =
            (0..40).map(|i| Fault::WrongRefrigerant.mode(&circuit, f64::from(i) / 39.0)).collect();
        assert_eq!(modes, BTreeSet::from([0, 1, 2, 3]));
        // and of each any share of a mixture
        let size = |i: u32| f64::from(i) / 399.0;
        let of = |i: u32| {
            (Fault::MixedRefrigerant.mode(&circuit, size(i)), Fault::MixedRefrigerant.mole_fraction(&circuit, size(i)))
        };
        for mode in 0..4 {
            let shares: Vec<f64> = (0..399).map(of).filter(|one| one.0 == mode).map(|one| one.1.unwrap()).collect();
            let (least, most) =
                (shares.iter().copied().fold(1.0, f64::min), shares.iter().copied().fold(0.0, f64::max));
            assert!(
                shares.len() > 95 && (0.1..0.12).contains(&least) && (0.88..=0.9).contains(&most),
                "{least} {most}"
            );
        }
        assert!(Fault::MixedRefrigerant.is_mixture() && !Fault::WrongRefrigerant.is_mixture());
    }
}
