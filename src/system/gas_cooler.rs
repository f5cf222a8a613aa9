//! The gas cooler of R-744: cooled without condensing above the critical pressure, with a condensing zone below it.

use super::exchanger::Face;
use super::medium::Medium;

/// What the gas cooler is asked.
#[derive(Debug, Clone, Copy)]
pub(super) struct Duty {
    /// Pressure, Pa.
    pub(super) p: f64,
    /// Refrigerant flow, kg/s.
    pub(super) flow: f64,
    /// Enthalpy and temperature of the gas that comes in.
    pub(super) h_in: f64,
    pub(super) t_in: f64,
    /// Enthalpy, temperature and density of what leaves.
    pub(super) h_out: f64,
    pub(super) t_out: f64,
    pub(super) rho_out: f64,
    /// Air that meets the face, K.
    pub(super) air_in: f64,
}

/// Segments above the critical pressure.
const SEGMENTS: usize = 6;
/// Segments of gas and of liquid below it.
const ABOVE: usize = 3;
const BELOW: usize = 1;

/// What the segments add up to.
#[derive(Debug, Clone, Copy)]
pub(super) struct Cooled {
    /// Share of the face that is needed: one when the face is right for the pressure.
    pub(super) face: f64,
    /// Mean density over the face, kg/m³.
    pub(super) density: f64,
}

/// The share of the face that the duty needs.
///
/// Each slice meets fresh air, so f = ∫ ṁ dh/(Cₐ ε (T − Tₐ)). Segments are equal steps of ln(T − Tₐ), which is where the
/// face goes; each counts with its end's density; in each, ṁ Δh over the logarithmic mean of T − Tₐ.
pub(super) fn cool(medium: &Medium, face: &Face, duty: &Duty) -> Option<Cooled> {
    if duty.t_out - duty.air_in < 1e-5 || duty.t_in <= duty.t_out {
        return None;
    }
    if duty.p >= 0.998 * medium.critical_pa {
        return stretch(medium, face, duty, (duty.h_in, duty.t_in), (duty.h_out, duty.t_out, duty.rho_out), SEGMENTS);
    }
    let both = medium.boiling(duty.p)?;
    if duty.t_in <= both.t || duty.t_out >= both.t {
        return None;
    }
    let gas = stretch(medium, face, duty, (duty.h_in, duty.t_in), (both.h_v, both.t, both.rho_v), ABOVE)?;
    let liquid = stretch(medium, face, duty, (both.h_l, both.t), (duty.h_out, duty.t_out, duty.rho_out), BELOW)?;
    let condensing = duty.flow * both.latent() / (face.two_phase * (both.t - duty.air_in));
    let density = super::charge::mixed_density(&both, 0.0, 1.0);
    let sum = gas.face + condensing + liquid.face;
    Some(Cooled {
        face: sum,
        density: (gas.face * gas.density + condensing * density + liquid.face * liquid.density) / sum,
    })
}

/// One phase from `hot`, enthalpy and temperature, to `cold`, with its density.
fn stretch(
    medium: &Medium,
    face: &Face,
    duty: &Duty,
    hot: (f64, f64),
    cold: (f64, f64, f64),
    segments: usize,
) -> Option<Cooled> {
    let (above, below) = (hot.1 - duty.air_in, cold.1 - duty.air_in);
    let ratio = (below / above).powf(1.0 / segments as f64);
    let (mut h, mut t) = hot;
    let mut sum = Cooled { face: 0.0, density: 0.0 };
    for i in 1..=segments {
        let (next_h, next_t, rho) = if i == segments {
            (cold.0, cold.1, cold.2)
        } else {
            let t = duty.air_in + above * ratio.powi(i as i32);
            let (rho, h) = medium.at_temperature(duty.p, t)?;
            (h, t, rho)
        };
        // logarithmic mean of T − Tₐ
        let mean = (t - next_t) / -ratio.ln();
        let share = duty.flow * (h - next_h) / (face.one_phase * mean);
        sum.face += share;
        sum.density += share * rho;
        (h, t) = (next_h, next_t);
    }
    sum.density /= sum.face;
    Some(sum)
}
