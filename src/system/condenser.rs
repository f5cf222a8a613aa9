//! The condenser: gas cooled, condensed and subcooled on one face.

use super::exchanger::Face;
use super::medium::Boiling;

/// What the condenser is asked.
#[derive(Debug, Clone, Copy)]
pub(super) struct Duty<'a> {
    /// Saturation at the condensing pressure.
    pub(super) both: &'a Boiling,
    /// Refrigerant flow, kg/s.
    pub(super) flow: f64,
    /// Enthalpy and temperature of the gas that comes in.
    pub(super) h_in: f64,
    pub(super) t_in: f64,
    /// Air in front of the condenser, K.
    pub(super) air: f64,
    /// Share of the air that is drawn round again from behind.
    pub(super) recirculated: f64,
    /// Share of the face behind the receiver, which only subcools.
    pub(super) pass: f64,
    /// Liquid backed up, as a further share of the face; below zero, the quality that leaves the part before the pass.
    pub(super) backed: f64,
}

/// How the face is shared, and what leaves.
#[derive(Debug, Clone, Copy)]
pub(super) struct Condensed {
    /// Shares of the face: cooling gas, condensing, subcooling.
    pub(super) gas: f64,
    pub(super) condensing: f64,
    pub(super) liquid: f64,
    /// Enthalpy, temperature and quality of what leaves.
    pub(super) h_out: f64,
    pub(super) t_out: f64,
    pub(super) quality_out: f64,
    /// Air that meets the face, K.
    pub(super) air_in: f64,
}

/// The zones; their shares add up to one when the face is right for the pressure.
///
/// Air drawn round again is taken as leaving the condensing zone: T_in = Tₐ + r (T_out − Tₐ), T_out = T_in + ε (T_c − T_in).
pub(super) fn condense(face: &Face, duty: &Duty) -> Option<Condensed> {
    let Duty { both, flow, .. } = *duty;
    let (r, effect) = (duty.recirculated, face.two_phase / face.air);
    // T_in = ((1 − r) Tₐ + r ε T_c)/(1 − r + r ε)
    let air_in = ((1.0 - r) * duty.air + r * effect * both.t) / (1.0 - r + r * effect);
    let drive = both.t - air_in;
    if drive < 0.05 {
        return None;
    }
    let latent = both.latent();
    // f = ṁ Δh/(Cₐ ε (T_c − Tₐ))
    let per_quality = flow * latent / (face.two_phase * drive);
    let quality_in = ((duty.h_in - both.h_l) / latent).min(1.0);
    let gas = if duty.h_in > both.h_v && duty.t_in > both.t {
        let capacity = flow * (duty.h_in - both.h_v) / (duty.t_in - both.t);
        capacity / face.one_phase * ((duty.t_in - air_in) / drive).ln()
    } else {
        0.0
    };
    let subcool = |share: f64| {
        // T_out = Tₐ + (T_c − Tₐ) exp(−f Cₐ ε/C)
        let t = air_in + drive * (-share * face.one_phase / (flow * both.cp_l)).exp();
        (both.h_l - both.cp_l * (both.t - t), t)
    };
    let quality_received = (-duty.backed).max(0.0);
    let (condensing_before, liquid, condensing_in_pass, quality_out) = if duty.backed >= 0.0 {
        (quality_in * per_quality, duty.pass + duty.backed, 0.0, 0.0)
    } else {
        // the pass condenses first what the receiver could not hold back
        let wanted = quality_received * per_quality;
        let condensing = wanted.min(duty.pass);
        let left = (wanted - condensing) / per_quality;
        ((quality_in - quality_received) * per_quality, duty.pass - condensing, condensing, left)
    };
    let (h_out, t_out) = if quality_out > 0.0 { (both.h_l + quality_out * latent, both.t) } else { subcool(liquid) };
    Some(Condensed {
        gas,
        condensing: condensing_before + condensing_in_pass,
        liquid,
        h_out,
        t_out,
        quality_out,
        air_in,
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::Refrigerant;
    use crate::system::medium::Medium;

    const FACE: Face =
        Face { air: 750.0, air_side: 820.0, refrigerant_side: 3300.0, two_phase: 437.0, one_phase: 270.0 };

    /// Enthalpy after a walk over the share `face`: each slice takes Cₐ ε (T − Tₐ) df from what comes.
    fn walk(duty: &Duty, air_in: f64, face: f64) -> f64 {
        const SLICES: usize = 200_000;
        let Duty { both, flow, h_in, t_in, .. } = *duty;
        let gas_cp = (h_in - both.h_v) / (t_in - both.t);
        let mut h = h_in;
        for _ in 0..SLICES {
            let (t, conductance) = if h > both.h_v {
                (both.t + (h - both.h_v) / gas_cp, FACE.one_phase)
            } else if h > both.h_l {
                (both.t, FACE.two_phase)
            } else {
                (both.t - (both.h_l - h) / both.cp_l, FACE.one_phase)
            };
            h -= conductance * (t - air_in) * face / SLICES as f64 / flow;
        }
        h
    }

    #[test]
    fn zones_are_those_of_a_walk_in_small_steps() {
        let medium = Medium::new(Refrigerant::R134a).unwrap();
        for (celsius, superheat, air, recirculated) in [(50.0, 30.0, 308.15, 0.0), (62.0, 45.0, 318.15, 0.4)] {
            let both = medium.boiling(medium.pressure(273.15 + celsius).unwrap()).unwrap();
            // with a pass and without, liquid backed up and vapour that leaves
            for (pass, backed) in [(0.1, 0.0), (0.15, 0.1), (0.0, 0.2), (0.1, -0.05), (0.1, -0.3), (0.0, -0.1)] {
                let duty = Duty {
                    both: &both,
                    flow: 0.03,
                    h_in: both.h_v + 1100.0 * superheat,
                    t_in: both.t + superheat,
                    air,
                    recirculated,
                    pass,
                    backed,
                };
                let ours = condense(&FACE, &duty).unwrap();
                let case = format!("{celsius} °C, pass {pass}, backed {backed}");
                let theirs = walk(&duty, ours.air_in, ours.gas + ours.condensing + ours.liquid);
                let off = (ours.h_out - theirs) / (duty.h_in - theirs);
                assert!(off.abs() < 2e-5, "{case}: off by {off:.1e} of the heat");
                // T_in = Tₐ + r (T_out − Tₐ)
                let out = ours.air_in + FACE.two_phase / FACE.air * (both.t - ours.air_in);
                assert!((ours.air_in - air - recirculated * (out - air)).abs() < 1e-9, "{case}");
                // temperature and quality belong to the enthalpy
                if ours.quality_out > 0.0 {
                    assert!((ours.h_out - both.h_l - ours.quality_out * both.latent()).abs() < 1e-6, "{case}");
                    assert!(backed < 0.0 && ours.t_out == both.t, "{case}");
                } else {
                    assert!((both.h_l - ours.h_out - both.cp_l * (both.t - ours.t_out)).abs() < 1e-6, "{case}");
                }
            }
        }
    }

    #[test]
    fn air_warmer_than_the_refrigerant_condenses_nothing() {
        let medium = Medium::new(Refrigerant::R134a).unwrap();
        let both = medium.boiling(1e6).unwrap();
        let (h_in, t_in) = (both.h_v, both.t);
        let duty = Duty { both: &both, flow: 0.03, h_in, t_in, air: t_in, recirculated: 0.0, pass: 0.0, backed: 0.0 };
        assert!(condense(&FACE, &duty).is_none());
    }
}
