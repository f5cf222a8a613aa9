//! Condenser: desuperheating, condensing and subcooling on one face.

use super::charge::mixed_density;
use super::exchanger::Face;
use super::fluid::{Fluid, SaturatedPair};

/// Inlet conditions of a condenser.
#[derive(Debug, Clone, Copy)]
pub(super) struct CondenserDuty<'a> {
    /// Saturation at the condensing pressure.
    pub(super) pair: &'a SaturatedPair,
    /// Saturation downstream of a restriction at the outlet, upstream of the receiver and the pass; `None` without one.
    pub(super) behind: Option<&'a SaturatedPair>,
    /// Refrigerant flow, kg/s.
    pub(super) flow: f64,
    /// Enthalpy and temperature of the gas at the inlet.
    pub(super) h_in: f64,
    pub(super) t_in: f64,
    /// Air in front of the condenser, K.
    pub(super) air: f64,
    /// Fraction of the air that recirculates from the rear of the condenser.
    pub(super) recirculated: f64,
    /// Fraction of the face downstream of the receiver, which only subcools.
    pub(super) pass: f64,
    /// Liquid backed up, as a further fraction of the face; below zero, the quality at the outlet of the part before
    /// the pass.
    pub(super) backed_up: f64,
}

/// Zones of a condenser as shares of its face, and its outlet state.
#[derive(Debug, Clone, Copy, Default)]
pub(super) struct CondenserZones {
    /// Fractions of the face: desuperheating, condensing, subcooling.
    pub(super) gas: f64,
    pub(super) condensing: f64,
    pub(super) liquid: f64,
    /// Fraction of liquid upstream of a restriction, and fraction of condensing downstream of it.
    pub(super) standing: f64,
    pub(super) condensing_in_pass: f64,
    /// Quality upstream and downstream of the restriction.
    pub(super) quality_before: f64,
    pub(super) quality_received: f64,
    /// Enthalpy, temperature and quality at the outlet.
    pub(super) h_out: f64,
    pub(super) t_out: f64,
    pub(super) quality_out: f64,
    /// Air temperature on the face, K.
    pub(super) air_in: f64,
}

/// Share of the distance to the air below which liquid counts as cold as the air, and above which as saturated: beyond these the
/// mean of an exponential is rounding; our choice.
const ALL_BUT_NONE: f64 = 1e-12;
/// The other end of [`ALL_BUT_NONE`]; our choice.
const ALL_BUT_ALL: f64 = 0.999_999;
/// Least distance of condensing from the air in front, K; our choice.
const LEAST_DRIVE_K: f64 = 0.05;
/// Least distance of liquid that backs up before a restriction from that air, K; our choice.
const LEAST_LEFT_K: f64 = 1e-3;

/// Densities of the liquid that stands in a condenser, kg/m³.
///
/// - **Equation** ρ = ρ′(T): a liquid below its saturation temperature is taken as saturated at its own; the higher pressure makes
///   it denser by about a percent; from memory.
#[derive(Debug, Clone, Copy)]
pub(super) struct LiquidDensities {
    /// Mean over the part of the face that is full of liquid.
    pub(super) mean: f64,
    /// Where the receiver takes it, upstream of the pass.
    pub(super) received: f64,
    /// At the outlet.
    pub(super) outlet: f64,
}

impl LiquidDensities {
    /// Those of `zones`, whose liquid is saturated as `pair` where it comes from, `backed_up` and then `pass` of the face long.
    pub(super) fn of(fluid: &Fluid, pair: &SaturatedPair, zones: &CondenserZones, backed_up: f64, pass: f64) -> Self {
        let saturated = Self { mean: pair.rho_l, received: pair.rho_l, outlet: pair.rho_l };
        let drive = pair.t - zones.air_in;
        // how much of the distance to the air is left
        let left = (zones.t_out - zones.air_in) / drive;
        if zones.quality_out > 0.0 || !(ALL_BUT_NONE..ALL_BUT_ALL).contains(&left) {
            return saturated;
        }
        let at = |t: f64| fluid.liquid_density(t).unwrap_or(pair.rho_l);
        let outlet = at(zones.t_out);
        // the mean of an exponential from one to what is left
        let transfer = -left.ln();
        let share = 1.0 / transfer - left / (1.0 - left);
        let received = if backed_up > 0.0 {
            at(zones.air_in + drive * (-transfer * backed_up / (backed_up + pass)).exp())
        } else {
            pair.rho_l
        };
        Self { mean: outlet + share * (pair.rho_l - outlet), received, outlet }
    }
}

impl CondenserZones {
    /// Mean density of the refrigerant, kg/m³, whose liquid is of `liquid`.
    pub(super) fn density(
        &self,
        pair: &SaturatedPair,
        behind: Option<&SaturatedPair>,
        liquid: &LiquidDensities,
    ) -> f64 {
        let face = self.gas + self.condensing + self.liquid;
        let inside = match behind {
            None => {
                let two_phase = mixed_density(pair, self.quality_out.max(0.0), 1.0);
                self.gas * pair.rho_v + self.condensing * two_phase + self.liquid * liquid.mean
            }
            Some(behind) => {
                let before = self.condensing - self.condensing_in_pass;
                self.gas * pair.rho_v
                    + before * mixed_density(pair, self.quality_before, 1.0)
                    + self.standing * 0.5 * (pair.rho_l + behind.rho_l)
                    + self.condensing_in_pass * mixed_density(behind, self.quality_out, self.quality_received)
                    + (self.liquid - self.standing) * liquid.mean
            }
        };
        inside / face
    }
}

/// Zones of a condenser; their fractions add up to one at the condensing pressure that the face requires.
///
/// A receiver holds saturated liquid. Downstream of a restriction it does so at a lower pressure, so liquid backs up in
/// the condenser until it is as cold: h = h′ of the receiver.
///
/// Recirculated air is taken as leaving the condensing zone: T_in = Tₐ + r (T_out − Tₐ), T_out = T_in + ε (T_c − T_in).
pub(super) fn condense(face: &Face, duty: &CondenserDuty) -> Option<CondenserZones> {
    let CondenserDuty { pair, flow, .. } = *duty;
    let (r, effect) = (duty.recirculated, face.two_phase / face.air);
    // T_in = ((1 − r) Tₐ + r ε T_c)/(1 − r + r ε)
    let air_in = ((1.0 - r) * duty.air + r * effect * pair.t) / (1.0 - r + r * effect);
    let drive = pair.t - air_in;
    if drive < LEAST_DRIVE_K {
        return None;
    }
    let latent = pair.latent();
    // f = ṁ Δh/(Cₐ ε (T_c − Tₐ))
    let per_quality = flow * latent / (face.two_phase * drive);
    let quality_in = ((duty.h_in - pair.h_l) / latent).min(1.0);
    let gas = if duty.h_in > pair.h_v && duty.t_in > pair.t {
        let capacity = flow * (duty.h_in - pair.h_v) / (duty.t_in - pair.t);
        capacity / face.one_phase * ((duty.t_in - air_in) / drive).ln()
    } else {
        0.0
    };
    let quality_received = (-duty.backed_up).max(0.0);
    let (quality_before, standing) = match duty.behind {
        None => (quality_received, 0.0),
        Some(behind) => {
            let over = behind.h_l + quality_received * behind.latent() - pair.h_l;
            let cp = (pair.h_l - behind.h_l) / (pair.t - behind.t);
            let left = drive + over.min(0.0) / cp;
            if left < LEAST_LEFT_K {
                return None;
            }
            // f = C/(Cₐ ε) ln((T_c − Tₐ)/(T − Tₐ))
            (over.max(0.0) / latent, flow * cp / face.one_phase * (drive / left).ln())
        }
    };
    let behind = duty.behind.unwrap_or(pair);
    let drive_behind = behind.t - air_in;
    let subcool = |share: f64| {
        // T_out = Tₐ + (T_c − Tₐ) exp(−f Cₐ ε/C)
        let t = air_in + drive_behind * (-share * face.one_phase / (flow * behind.cp_l)).exp();
        (behind.h_l - behind.cp_l * (behind.t - t), t)
    };
    let (liquid, condensing_in_pass, quality_out) = if duty.backed_up >= 0.0 {
        (duty.pass + duty.backed_up, 0.0, 0.0)
    } else {
        // the pass condenses first what the receiver could not hold back, or boils more of it where that is colder than the air
        let per_quality = flow * behind.latent() / (face.two_phase * drive_behind);
        let wanted = quality_received * per_quality;
        let condensing = if drive_behind > 0.0 { wanted.min(duty.pass) } else { duty.pass };
        let left = (wanted - condensing) / per_quality;
        (duty.pass - condensing, condensing, left)
    };
    let (h_out, t_out) =
        if quality_out > 0.0 { (behind.h_l + quality_out * behind.latent(), behind.t) } else { subcool(liquid) };
    Some(CondenserZones {
        gas,
        condensing: (quality_in - quality_before) * per_quality + condensing_in_pass,
        liquid: standing + liquid,
        standing,
        condensing_in_pass,
        quality_before,
        quality_received,
        h_out,
        t_out,
        quality_out,
        air_in,
    })
}

#[cfg(test)]
mod tests {
    use approx::abs_diff_eq;

    use super::*;
    use crate::Refrigerant;
    use crate::air::formulas::FREEZING_K;

    const FACE: Face =
        Face { air: 750.0, air_side: 820.0, refrigerant_side: 3300.0, two_phase: 437.0, one_phase: 270.0 };

    /// Enthalpy after a walk over the share `face`: each slice takes Cₐ ε (T − Tₐ) df from what comes. The last of it, as much
    /// as `last`, is behind the closed place.
    fn walk(duty: &CondenserDuty, air_in: f64, face: f64, last: f64) -> f64 {
        const SLICES: usize = 200_000;
        let CondenserDuty { pair, flow, h_in, t_in, .. } = *duty;
        let behind = duty.behind.unwrap_or(pair);
        let gas_cp = (h_in - pair.h_v) / (t_in - pair.t);
        let cp_before = if duty.behind.is_some() { (pair.h_l - behind.h_l) / (pair.t - behind.t) } else { pair.cp_l };
        let mut h = h_in;
        for (share, at, cp) in [(face - last, pair, cp_before), (last, behind, behind.cp_l)] {
            for _ in 0..SLICES {
                let (t, conductance) = if h > at.h_v {
                    (at.t + (h - at.h_v) / gas_cp, FACE.one_phase)
                } else if h > at.h_l {
                    (at.t, FACE.two_phase)
                } else {
                    (at.t - (at.h_l - h) / cp, FACE.one_phase)
                };
                h -= conductance * (t - air_in) * share / SLICES as f64 / flow;
            }
        }
        h
    }

    #[test]
    fn zones_are_those_of_a_walk_in_small_steps() {
        let fluid = Fluid::new(Refrigerant::R134a).unwrap();
        for (celsius, superheat, air, recirculated) in [(50.0, 30.0, 308.15, 0.0), (62.0, 45.0, 318.15, 0.4)] {
            let pair = fluid.saturated(fluid.saturation_pressure(FREEZING_K + celsius).unwrap()).unwrap();
            let lower = |kelvin: f64| fluid.saturated(fluid.saturation_pressure(pair.t - kelvin).unwrap()).unwrap();
            let (little, much, colder_than_air) = (lower(3.0), lower(9.0), lower(celsius + FREEZING_K - air + 2.0));
            // with a pass and without, liquid backed_up up and vapour that leaves; a closed place before the pass or none
            for (pass, backed_up, behind) in [
                (0.1, 0.0, None),
                (0.15, 0.1, None),
                (0.0, 0.2, None),
                (0.1, -0.05, None),
                (0.1, -0.3, None),
                (0.0, -0.1, None),
                (0.1, 0.0, Some(&little)),
                (0.15, 0.1, Some(&much)),
                (0.0, 0.0, Some(&much)),
                (0.1, -0.02, Some(&much)),
                (0.1, -0.3, Some(&much)),
                (0.0, -0.05, Some(&little)),
                (0.1, -0.2, Some(&colder_than_air)),
            ] {
                let duty = CondenserDuty {
                    pair: &pair,
                    behind,
                    flow: 0.03,
                    h_in: pair.h_v + 1100.0 * superheat,
                    t_in: pair.t + superheat,
                    air,
                    recirculated,
                    pass,
                    backed_up,
                };
                let ours = condense(&FACE, &duty).unwrap();
                let case = format!("{celsius} °C, pass {pass}, backed_up {backed_up}, {behind:?}");
                let theirs =
                    walk(&duty, ours.air_in, ours.gas + ours.condensing + ours.liquid, pass + f64::max(backed_up, 0.0));
                let pair = *behind.unwrap_or(&pair);
                let off = (ours.h_out - theirs) / (duty.h_in - theirs);
                // the walk's steps: our choice
                assert!(abs_diff_eq!(off, 0.0, epsilon = 2e-5), "{case}: off by {off:.1e} of the heat");
                // T_in = Tₐ + r (T_out − Tₐ)
                let out = ours.air_in + FACE.two_phase / FACE.air * (duty.pair.t - ours.air_in);
                // K, rounding
                assert!(abs_diff_eq!(ours.air_in - air, recirculated * (out - air), epsilon = 1e-9), "{case}");
                // temperature and quality belong to the enthalpy
                if ours.quality_out > 0.0 {
                    // J/kg of some 300,000: rounding
                    assert!(
                        abs_diff_eq!(ours.h_out - pair.h_l, ours.quality_out * pair.latent(), epsilon = 1e-6),
                        "{case}"
                    );
                    assert!(backed_up < 0.0 && ours.t_out == pair.t, "{case}");
                } else {
                    // J/kg of some 300,000: rounding
                    assert!(
                        abs_diff_eq!(pair.h_l - ours.h_out, pair.cp_l * (pair.t - ours.t_out), epsilon = 1e-6),
                        "{case}"
                    );
                }
            }
        }
    }

    #[test]
    fn air_warmer_than_the_refrigerant_condenses_nothing() {
        let fluid = Fluid::new(Refrigerant::R134a).unwrap();
        let pair = fluid.saturated(1e6).unwrap();
        let (h_in, t_in) = (pair.h_v, pair.t);
        let duty = CondenserDuty {
            pair: &pair,
            behind: None,
            flow: 0.03,
            h_in,
            t_in,
            air: t_in,
            recirculated: 0.0,
            pass: 0.0,
            backed_up: 0.0,
        };
        assert!(condense(&FACE, &duty).is_none());
        // nor does liquid get colder than the air
        let behind = fluid.saturated(fluid.saturation_pressure(pair.t - 12.0).unwrap()).unwrap();
        let colder = CondenserDuty { behind: Some(&behind), air: pair.t - 11.0, ..duty };
        assert!(condense(&FACE, &colder).is_none());
        assert!(condense(&FACE, &CondenserDuty { air: pair.t - 13.0, ..colder }).is_some());
    }
}
