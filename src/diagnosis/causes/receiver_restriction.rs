//! A restriction between condenser and receiver.
//!
//! The receiver holds liquid about to boil at its own, lower pressure, so liquid backs up in the condenser until it is as cold.
//! The place of the high-side port decides what the gauge shows. Between compressor and condenser it is before the restriction: at
//! 30 °C and idle an R-134a circuit with a valve shows 10 to 850 kPa more by the size of the restriction, 1 to 25 K more
//! subcooling, a liquid line 1 to 13 K cooler and the low side within 13 kPa (5 to 95 % of 128 cars). On the liquid line it is
//! downstream of it: 80 to 600 kPa less, and less subcooling by that gauge than before. The liquid line stays without
//! bubbles until the receiver is empty, which happens in two in five of the cars at the largest size and in none at the
//! smallest.
//!
//! A circuit with an orifice tube has no receiver: a restriction before the tube does what a smaller tube does, with liquid backing
//! up in the condenser at the cost of the accumulator. That is the cause `liquid-restriction`.

use super::fault::{FaultModel, NEARER_OUTLET, side_of_high_port};
use super::{Cause, CauseId, Fault, Observation, has_receiver};

/// Density at which the drop is stated, kg/m³: liquid R-134a at 50 °C, in round numbers; our choice.
const RATED_LIQUID: f64 = 1100.0;

/// Place of a high-side port downstream of the inlet of the receiver.
const BEHIND_RECEIVER_INLET: f64 = -1.0;

/// At idle, with about half the rated flow, the range is 100 to 500 kPa.
pub(super) const MODEL: FaultModel = FaultModel {
    mode: side_of_high_port,
    ..FaultModel::new((2.6, 3.3), |circuit, size| {
        // Δp = k ṁ²/ρ with liquid
        let rated = circuit.condenser.flow_kg_per_s;
        circuit.lines.receiver_drop = 1e3 * 10f64.powf(size) * RATED_LIQUID / (rated * rated);
        if circuit.lines.high_port < NEARER_OUTLET {
            circuit.lines.high_port = BEHIND_RECEIVER_INLET;
        }
    })
};

pub(super) const RECEIVER_RESTRICTION: Cause = Cause {
    applies: has_receiver,
    in_print: &[("E", 4, 4), ("M", 2, 2)],
    found: &[(Observation::StepOnLiquidLine, 4)],
    ..Cause::new(CauseId::ReceiverRestriction, &[Fault::ReceiverInletBlocked])
};
