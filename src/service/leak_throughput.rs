//! A leak into vacuum as a flow of gas, and the refrigerant that the same flow of gas would be.

use super::{Interval, validate};
use crate::quantity::{K95, MassRate, PressureRate, Throughput};
use crate::{Error, Measured, Quantity, Refrigerant, Source, Sourced, Temperature, Trust, Volume};

/// Gas constant, J/(mol K): product of two constants that the SI fixes (2019).
pub(super) const R: f64 = 8.314_462_618;

/// Leak rates that service detectors must find on their three scales, as their standard names them.
pub const DETECTOR_SCALES: Sourced<[MassRate; 3]> = Sourced {
    value: [MassRate::from_g_per_year(4.0), MassRate::from_g_per_year(7.0), MassRate::from_g_per_year(14.0)],
    source: Source {
        work: "SAE J2791-2019, electronic leak detectors for R-134a",
        locator: "three scales, printed 0.15, 0.25 and 0.5 oz/yr; read in summaries of the standard",
        doi: None,
        trust: Trust::Weak,
    },
};

/// Flow of gas into a circuit of `volume` in which the pressure rises at `rate`.
///
/// - **Equation** Q = V dp/dt.
/// - **Uncertainty** that of the rate with that of the volume, u_Q/Q = √((u_r/r)² + (u_V/V)²) on either side.
///
/// ```
/// use approx::assert_abs_diff_eq;
/// use satline::quantity::PressureRate;
/// use satline::service::{Interval, leak_throughput::throughput};
/// use satline::{Measured, Volume};
/// // 1 inHg in 5 min in 2.5 L
/// let rate = PressureRate::from_inhg_per_minute(0.2);
/// let rate = Interval { value: Some(rate), low: Some(rate), high: Some(rate) };
/// let q = throughput(&rate, &Measured::exact(Volume::from_l(2.5))?)?;
/// assert_abs_diff_eq!(q.value.unwrap().pa_m3_per_s(), 0.0282, epsilon = 5e-5); // half its last digit
/// # Ok::<(), satline::Error>(())
/// ```
///
/// # Errors
/// [`Error::Impossible`] for a volume that is not above zero.
pub fn throughput(rate: &Interval<PressureRate>, volume: &Measured<Volume>) -> Result<Interval<Throughput>, Error> {
    let v = cubic_metres(volume)?;
    let own = rate.map(|rate| Throughput::from_pa_m3_per_s(rate.pa_per_s() * v));
    let share = K95 * volume.standard_uncertainty().m3() / v;
    let flow = own.widened(own.value.map_or(0.0, |q| q.si() * share));
    for end in [flow.low, flow.value, flow.high].into_iter().flatten() {
        validate::finite("leak as a flow of gas (Pa m³/s)", end)?;
    }
    Ok(flow)
}

/// The volume of a circuit in m³, which must be above zero.
pub(super) fn cubic_metres(volume: &Measured<Volume>) -> Result<f64, Error> {
    let v = volume.value().m3();
    if v <= 0.0 {
        return Err(Error::Impossible {
            what: "volume of the circuit (L)",
            value: volume.value().l(),
            must: "above zero",
        });
    }
    Ok(v)
}

/// Mass rate of refrigerant in the same flow of gas, mole for mole, at `temperature`.
///
/// A comparison of sizes and no forecast: through the same hole refrigerant under its own pressure leaves otherwise than
/// air enters a vacuum.
///
/// - **Equation** ṁ = Q M/(R T), perfect gas.
///
/// ```
/// use approx::assert_abs_diff_eq;
/// use satline::quantity::Throughput;
/// use satline::service::leak_throughput::refrigerant_in;
/// use satline::{Refrigerant, Temperature};
/// let q = Throughput::from_pa_m3_per_s(1.06e-5);
/// let lost = refrigerant_in(q, Refrigerant::R134a, Temperature::from_celsius(22.0))?;
/// assert_abs_diff_eq!(lost.g_per_year(), 13.9, epsilon = 0.1); // its last digit
/// # Ok::<(), satline::Error>(())
/// ```
///
/// # Errors
/// [`Error::Impossible`] for a temperature that is not above absolute zero; [`Error::NotFinite`].
pub fn refrigerant_in(flow: Throughput, refrigerant: Refrigerant, temperature: Temperature) -> Result<MassRate, Error> {
    let molar_mass = refrigerant.fluid().molar_mass.value.si();
    let energy = molar_energy(temperature)?;
    validate::finite("leak (g/yr)", MassRate::from_si(flow.si() * molar_mass / energy))
}

/// Flow of gas of a loss of refrigerant, the inverse of [`refrigerant_in`].
///
/// # Errors
/// As [`refrigerant_in`].
pub fn flow_of(lost: MassRate, refrigerant: Refrigerant, temperature: Temperature) -> Result<Throughput, Error> {
    let molar_mass = refrigerant.fluid().molar_mass.value.si();
    let energy = molar_energy(temperature)?;
    validate::finite("flow of gas (Pa m³/s)", Throughput::from_si(lost.si() * energy / molar_mass))
}

/// R T in J/mol.
fn molar_energy(temperature: Temperature) -> Result<f64, Error> {
    let kelvin = temperature.kelvin();
    if !(kelvin > 0.0 && kelvin.is_finite()) {
        let must = "above absolute zero, -273.15 °C";
        return Err(Error::Impossible { what: "temperature (°C)", value: temperature.celsius(), must });
    }
    Ok(R * kelvin)
}
