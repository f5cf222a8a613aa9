//! Heat exchanger, one face of tubes and fins: conductances that follow the flows, and slices that each meet fresh air.

/// Heat exchanger between refrigerant and air, described by its conductances at stated flows.
///
/// - **Air side** (UA)ₐ = (UA)ₐ₀ (ṁₐ/ṁₐ₀)^0.5, the exponent of louvred fins (Chang & Wang, Int. J. Heat Mass Transfer 40 (1997)
///   533: j ~ Re^−0.49; from memory).
/// - **Refrigerant side** (UA)ᵣ = (UA)ᵣ₀ (ṁ/ṁ₀)^0.8, the exponent of turbulent flow (Dittus & Boelter 1930; Shah 1979 keeps it
///   for condensation), for boiling and condensing; single-phase flow has the fraction [`Exchanger::single_phase`] of
///   it.
/// - A slice f of the face has the share f of air and conductance. The refrigerant is mixed across a slice, the air is not:
///   dT/df = −Cₐ ε_z (T − Tₐ)/C, ε_z = 1 − exp(−UA_z/Cₐ). So a zone at constant T takes q = f Cₐ ε_z (T − Tₐ), and one of
///   capacity rate C the share f = C/(Cₐ ε_z) ln((T_in − Tₐ)/(T_out − Tₐ)) (cross flow, Kays & London, Compact Heat
///   Exchangers).
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Exchanger {
    /// Conductance of the air side at an air flow of `air_kg_per_s`, W/K.
    pub air_w_per_k: f64,
    /// Air flow at which the conductance of the air side is stated, kg/s.
    pub air_kg_per_s: f64,
    /// Conductance of the refrigerant side, boiling or condensing, at a refrigerant flow of `flow_kg_per_s`, W/K.
    pub refrigerant_w_per_k: f64,
    /// Refrigerant flow at which the conductance of the refrigerant side is stated, kg/s.
    pub flow_kg_per_s: f64,
    /// Conductance of single-phase flow as a fraction of that of boiling or condensing.
    pub single_phase: f64,
    /// Inner volume of the refrigerant side, m³.
    pub volume_m3: f64,
}

/// Heat exchanger at given flows.
#[derive(Debug, Clone, Copy)]
pub(super) struct Face {
    /// Heat capacity rate of the air, W/K.
    pub(super) air: f64,
    /// Conductance of the air side, W/K.
    pub(super) air_side: f64,
    /// Conductance of the refrigerant side with two phases, W/K.
    pub(super) refrigerant_side: f64,
    /// Cₐ ε of the whole face with two phases, W/K.
    pub(super) two_phase: f64,
    /// Cₐ ε of the whole face with one phase, W/K.
    pub(super) one_phase: f64,
}

/// Power of the flow with which the conductance of the refrigerant side grows: that of Dittus & Boelter 1930 for turbulent flow in
/// tubes (from memory).
const WITH_FLOW: f64 = 0.8;

impl Exchanger {
    /// The face with `air` kg/s of air of heat capacity `air_cp` and `flow` kg/s of refrigerant.
    pub(super) fn face(&self, air: f64, air_cp: f64, flow: f64) -> Face {
        let air_side = self.air_w_per_k * (air / self.air_kg_per_s).sqrt();
        let refrigerant_side = self.refrigerant_w_per_k * (flow / self.flow_kg_per_s).powf(WITH_FLOW);
        let rate = air * air_cp;
        let taken = |inside: f64| {
            let ua = 1.0 / (1.0 / air_side + 1.0 / inside);
            rate * -(-ua / rate).exp_m1()
        };
        Face {
            air: rate,
            air_side,
            refrigerant_side,
            two_phase: taken(refrigerant_side),
            one_phase: taken(self.single_phase * refrigerant_side),
        }
    }
}
