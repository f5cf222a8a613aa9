//! The numbers of an inspection, in the form in which simulated circuits are compared with them.

use crate::circuit::{Circuit, Conditions, SteadyState};
use crate::inspection::{Inspection, Measurand, MeasuredValue, RECOVERED_FRACTION, Reading};
use crate::quantity::{Density, Quantity};
use crate::{Error, Measured, Pressure, Range, Temperature, air};

/// A number to compare: ln of an absolute pressure in Pa, a temperature in °C, or a fraction.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Datum {
    /// Which running reading it belongs to; zero for what was not measured running.
    pub(super) place: usize,
    pub(super) measurand: Measurand,
    pub(super) value: f64,
    /// Standard uncertainty of the instrument alone.
    pub(super) instrument_uncertainty: f64,
    /// Standard uncertainty of instrument, model and ambient temperature together.
    pub(super) standard_uncertainty: f64,
}

/// Every number of `inspection`: those of the running readings in their order, the equalised pressure, the recovered charge; with the
/// standard uncertainty of the model for each measurand of each running reading.
///
/// # Errors
/// [`Error::BelowVacuum`] for an equalised pressure at vacuum.
pub(super) fn data(
    inspection: &Inspection,
    model_uncertainty: impl Fn(usize, Measurand) -> f64,
) -> Result<Vec<Datum>, Error> {
    let mut data = Vec::new();
    for (place, reading) in inspection.running().enumerate() {
        let ambient = reading.ambient().map_or(0.0, |t| t.standard_uncertainty().kelvins());
        for (measurand, value) in reading.values() {
            let (value, instrument_uncertainty) = number(value, reading.air().value());
            let standard_uncertainty = instrument_uncertainty
                .hypot(model_uncertainty(place, measurand))
                .hypot(measurand.row().per_kelvin_of_ambient * ambient);
            data.push(Datum { place, measurand, value, instrument_uncertainty, standard_uncertainty });
        }
    }
    if let Some(pressure) = inspection.equalised().map(equalised_pressure).transpose()?.flatten() {
        let (p, measurand) = (pressure.value().pa(), Measurand::EqualisedPressure);
        let instrument_uncertainty = pressure.standard_uncertainty().pa() / p;
        let standard_uncertainty = instrument_uncertainty.hypot(measurand.row().model_uncertainty);
        data.push(Datum { place: 0, measurand, value: p.ln(), instrument_uncertainty, standard_uncertainty });
    }
    if let Some(recovered) = inspection.recovered() {
        let measurand = Measurand::RecoveredCharge;
        let instrument_uncertainty = recovered.fraction_uncertainty();
        let standard_uncertainty = instrument_uncertainty.hypot(measurand.row().model_uncertainty);
        let value = recovered.fraction().fraction();
        data.push(Datum { place: 0, measurand, value, instrument_uncertainty, standard_uncertainty });
    }
    Ok(data)
}

/// A measured value and its standard uncertainty in the units of comparison.
fn number(value: MeasuredValue, air: Pressure) -> (f64, f64) {
    match value {
        MeasuredValue::Pressure(gauge) => {
            let absolute = gauge.value().absolute(air).pa().max(LEAST_PRESSURE);
            (absolute.ln(), gauge.standard_uncertainty().pa() / absolute)
        }
        MeasuredValue::Temperature(t) => (t.value().celsius(), t.standard_uncertainty().kelvins()),
        MeasuredValue::Share(share) => (share.value().fraction(), share.standard_uncertainty().fraction()),
    }
}

/// Pressures are told apart down to this one, Pa absolute; our choice, below what a service gauge resolves.
const LEAST_PRESSURE: f64 = 1e3;

/// The absolute pressure of an equalised circuit: the gauges' mean, each weighted by 1/u²; `None` where neither was read.
///
/// # Errors
/// [`Error::BelowVacuum`] inside [`Error::About`] where nothing above vacuum comes out.
pub(super) fn equalised_pressure(reading: &Reading) -> Result<Option<Measured<Pressure>>, Error> {
    let air = reading.air().value();
    let (mut weights, mut weighted) = (0.0, 0.0);
    let gauges: Vec<_> = [reading.low(), reading.high()].into_iter().flatten().collect();
    // an exact gauge leaves nothing to the other
    if let Some(exact) = gauges.iter().find(|gauge| gauge.standard_uncertainty().pa() <= 0.0) {
        return above_vacuum(exact.value().absolute(air), 0.0, air).map(Some);
    }
    for gauge in &gauges {
        let weight = gauge.standard_uncertainty().pa().powi(-2);
        weights += weight;
        weighted += weight * gauge.value().absolute(air).pa();
    }
    if gauges.is_empty() {
        return Ok(None);
    }
    above_vacuum(Pressure::from_pa(weighted / weights), weights.sqrt().recip(), air).map(Some)
}

fn above_vacuum(p: Pressure, uncertainty_pa: f64, air: Pressure) -> Result<Measured<Pressure>, Error> {
    if p.si() <= 0.0 {
        let measurand = Measurand::EqualisedPressure;
        let below = Error::BelowVacuum { value: p.kpa(), air_kpa: air.kpa() };
        return Err(below.about_input(measurand.id(), measurand.name()));
    }
    Measured::new(p, crate::PressureDifference::from_pa(uncertainty_pa))
}

/// Values of the running measurands that `state` shows, in their order.
pub(super) fn shown(state: &SteadyState, air: Pressure) -> impl Iterator<Item = f64> + '_ {
    Measurand::running().filter_map(move |measurand| Some(measurand.row().simulated?(state, air)))
}

/// Values that a circuit shows whose compressor does not turn.
pub(super) fn stopped(circuit: &Circuit, conditions: &Conditions) -> Vec<f64> {
    let p = equalised(circuit, conditions.ambient).pa().ln();
    let one = |measurand: Measurand| match measurand.kind() {
        crate::inspection::MeasurandKind::Pressure => p,
        crate::inspection::MeasurandKind::Temperature => conditions.ambient.celsius(),
        crate::inspection::MeasurandKind::Share => 0.0,
    };
    Measurand::running().map(one).collect()
}

/// Charge that recovery brings out of `circuit` over its nominal charge, by the middle of [`RECOVERED_FRACTION`].
pub(super) fn recovered(circuit: &Circuit) -> f64 {
    let Range { low, high } = RECOVERED_FRACTION.value;
    0.5 * (low.fraction() + high.fraction()) * ((circuit.charge + circuit.non_condensables) / circuit.nominal_charge)
}

/// Fraction of the circuit's volume that air has above the liquid: the middle of the circuits of every kind.
const AIR_VOLUME_FRACTION: f64 = 0.83;

/// The equalised pressure of `circuit`, all of it at `t`: saturation, what is left of it without liquid, and air.
pub(super) fn equalised(circuit: &Circuit, t: Temperature) -> Pressure {
    let volume = circuit.volume();
    let density = Density::from_kg_per_m3(circuit.charge.kg() / volume.m3());
    let own = circuit.refrigerant.at_density(t, density).map_or(Pressure::from_pa(0.0), |phases| phases.pressure());
    // p = m R T/V
    let air = circuit.non_condensables.kg() * air::formulas::R_DRY * t.kelvin() / (AIR_VOLUME_FRACTION * volume.m3());
    Pressure::from_si(own.si() + air)
}
