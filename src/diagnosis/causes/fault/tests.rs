//! Tests of the faults.

#![cfg(test)]

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
    kinds.push(CircuitKind { compressor: CompressorKind::Internal, expansion: ExpansionKind::OrificeTube, ..kinds[1] });
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
    let modes: BTreeSet<usize> = (0..40).map(|i| Fault::WrongRefrigerant.mode(&circuit, f64::from(i) / 39.0)).collect();
    assert_eq!(modes, BTreeSet::from([0, 1, 2, 3]));
    // and of each any share of a mixture
    let size = |i: u32| f64::from(i) / 399.0;
    let of = |i: u32| {
        (Fault::MixedRefrigerant.mode(&circuit, size(i)), Fault::MixedRefrigerant.mole_fraction(&circuit, size(i)))
    };
    for mode in 0..4 {
        let shares: Vec<f64> = (0..399).map(of).filter(|one| one.0 == mode).map(|one| one.1.unwrap()).collect();
        let (least, most) = (shares.iter().copied().fold(1.0, f64::min), shares.iter().copied().fold(0.0, f64::max));
        assert!(shares.len() > 95 && (0.1..0.12).contains(&least) && (0.88..=0.9).contains(&most), "{least} {most}");
    }
    assert!(Fault::MixedRefrigerant.is_mixture() && !Fault::WrongRefrigerant.is_mixture());
}
