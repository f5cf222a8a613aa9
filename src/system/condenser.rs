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
