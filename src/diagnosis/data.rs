//! The numbers of an inspection, in the form in which simulated circuits are compared with them.

use nalgebra::DMatrix;

use crate::circuit::{Circuit, Conditions, SteadyState};
use crate::inspection::{Inspection, Measurand, MeasuredValue, RECOVERED_FRACTION, Reading};
use crate::quantity::{Density, Quantity};
use crate::{Error, GaugePressure, Measured, Pressure, Range, Refrigerant, Temperature, air};

/// A number to compare: ln of an absolute pressure in Pa, a temperature in °C, or a fraction.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Datum {
    /// Which running reading it belongs to; zero for what was not measured running.
    pub(super) place: usize,
    pub(super) measurand: Measurand,
    pub(super) value: f64,
    /// Standard uncertainty of the instrument alone.
    pub(super) instrument_uncertainty: f64,
    /// Standard uncertainty of the model.
    pub(super) model_uncertainty: f64,
    /// Standard uncertainty of instrument, model and ambient temperature together.
    pub(super) standard_uncertainty: f64,
    /// Rise of the saturation temperature with ln p at a pressure, K; zero for other quantities and without saturation.
    pub(super) saturation_slope: f64,
}

impl Datum {
    /// The `number` of `measurand` with the standard uncertainty of its instrument, beside that of the model; not measured running, and
    /// as certain whatever the ambient.
    fn new(measurand: Measurand, number: (f64, f64), model_uncertainty: f64) -> Self {
        let (value, instrument_uncertainty) = number;
        let standard_uncertainty = instrument_uncertainty.hypot(model_uncertainty);
        let (place, saturation_slope) = (0, 0.0);
        Self {
            place,
            measurand,
            value,
            instrument_uncertainty,
            model_uncertainty,
            standard_uncertainty,
            saturation_slope,
        }
    }

    /// One that is not measured running.
    fn at_rest(measurand: Measurand, number: (f64, f64)) -> Self {
        Self::new(measurand, number, measurand.row().model_uncertainty)
    }
}

/// Correlation of what the model misses in the pressure of one side in two readings of one circuit; our choice, as most of it is the
/// circuit's and some of it the speed's or the day's.
const SHARED_BY_READINGS: f64 = 0.8;

/// What the model misses in a pressure, as it moves a value.
#[derive(Clone, Copy)]
struct Missed {
    side: Measurand,
    place: usize,
    /// Standard deviation of the value by it: σ of ln p, K σ of a temperature.
    deviation: f64,
}

/// Covariance of the values of `data` for a circuit of known sizes.
///
/// - **Equation** Cov(y) = D + M, D of the instruments, the ambient and what the model misses in a line by itself, M of what it misses in
///   the pressures: σ of ln p on a side, and K σ of the temperature of a line on that side, K = dT/d ln p along the saturation line.
///   Both move together, as superheat and subcooling follow from valve, faces and charge rather than from the level of the
///   pressure; readings of one circuit share it with the correlation [`SHARED_BY_READINGS`].
/// - **Source** of that the missed part moves both: our choice.
pub(super) fn covariance(data: &[Datum]) -> DMatrix<f64> {
    let missed: Vec<Option<Missed>> = data.iter().map(|datum| missed(datum, data)).collect();
    DMatrix::from_fn(data.len(), data.len(), |i, j| {
        let by_itself = match &data[i] {
            _ if i != j => 0.0,
            pressure if is_side(pressure.measurand) => {
                pressure.standard_uncertainty.powi(2) - pressure.model_uncertainty.powi(2)
            }
            other => other.standard_uncertainty.powi(2),
        };
        let together = match (missed[i], missed[j]) {
            (Some(a), Some(b)) if a.side == b.side => {
                let correlation = if a.place == b.place { 1.0 } else { SHARED_BY_READINGS };
                correlation * (a.deviation * b.deviation)
            }
            _ => 0.0,
        };
        by_itself + together
    })
}

/// Whether it is a gauge pressure of a running circuit.
fn is_side(measurand: Measurand) -> bool {
    matches!(measurand, Measurand::LowSide | Measurand::HighSide)
}

/// What the model misses in a pressure, as it moves `datum`, one of `data`; `None` for a line whose side was not read, and for what no
/// pressure moves.
fn missed(datum: &Datum, data: &[Datum]) -> Option<Missed> {
    let place = datum.place;
    let side = match datum.measurand {
        side if is_side(side) => return Some(Missed { side, place, deviation: datum.model_uncertainty }),
        Measurand::SuctionLine | Measurand::EvaporatorOutlet => Measurand::LowSide,
        Measurand::LiquidLine => Measurand::HighSide,
        _ => return None,
    };
    let pressure = data.iter().find(|other| other.measurand == side && other.place == place)?;
    Some(Missed { side, place, deviation: pressure.saturation_slope * pressure.model_uncertainty })
}

/// Rise of the saturation temperature with ln p at gauge pressure `gauge` above the air, K; zero where there is no saturation.
fn saturation_slope(refrigerant: Refrigerant, gauge: GaugePressure, air: Pressure) -> f64 {
    /// Half the relative distance of the two pressures between which it is taken; our choice.
    const STEP: f64 = 0.01;
    let at = |factor: f64| {
        let p = Pressure::from_pa(gauge.absolute(air).pa() * factor);
        refrigerant.saturation_temperature(p).ok().map(Temperature::kelvin)
    };
    at(1.0 + STEP).zip(at(1.0 - STEP)).map_or(0.0, |(above, below)| (above - below) / (2.0 * STEP))
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
            let air = reading.air().value();
            let saturation_slope = match value {
                MeasuredValue::Pressure(gauge) => saturation_slope(reading.refrigerant(), gauge.value(), air),
                MeasuredValue::Temperature(_) | MeasuredValue::Share(_) => 0.0,
            };
            let datum = Datum::new(measurand, number(value, air), model_uncertainty(place, measurand));
            let by_ambient = measurand.row().per_kelvin_of_ambient * ambient;
            let standard_uncertainty = datum.standard_uncertainty.hypot(by_ambient);
            data.push(Datum { place, standard_uncertainty, saturation_slope, ..datum });
        }
    }
    if let Some(reading) = inspection.equalised()
        && let Some(pressure) = equalised_pressure(reading)?
    {
        let p = pressure.value().pa();
        let gauge = pressure.value().gauge(reading.air().value());
        // the temperature at which it was read is known as well as its thermometer says
        let slope = saturation_slope(reading.refrigerant(), gauge, reading.air().value());
        let ambient = reading.ambient().map_or(0.0, |t| t.standard_uncertainty().kelvins());
        let by_ambient = if slope > 0.0 { ambient / slope } else { 0.0 };
        let instrument_uncertainty = (pressure.standard_uncertainty().pa() / p).hypot(by_ambient);
        data.push(Datum::at_rest(Measurand::EqualisedPressure, (p.ln(), instrument_uncertainty)));
    }
    if let Some(recovered) = inspection.recovered() {
        let number = (recovered.fraction().fraction(), recovered.fraction_uncertainty());
        data.push(Datum::at_rest(Measurand::RecoveredCharge, number));
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

/// Fraction of the circuit's volume that air has above the liquid: our choice, the middle of the circuits of
/// every kind, with which a test below compares it.
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

#[cfg(test)]
mod tests {
    use approx::{abs_diff_eq, assert_abs_diff_eq};

    use super::*;
    use crate::circuit::{CircuitKind, Population, Settings};
    use crate::inspection::{Entry, Instruments};

    /// By the lever rule (ρ′ − ρ)/(ρ′ − ρ″), with the densities that Tillner-Roth & Baehr 1994, table 8, print for R-134a at 300 K.
    #[test]
    fn air_has_what_the_liquid_leaves() {
        let (liquid, vapour) = (1199.7, 34.193);
        for kind in CircuitKind::main(Refrigerant::R134a) {
            let cars = Population::with_seed(kind, 77).unwrap();
            let free = |car: Circuit| (liquid - car.charge.kg() / car.volume().m3()) / (liquid - vapour);
            let mut free: Vec<f64> = (0..100).map(|i| free(cars.circuit(i))).collect();
            free.sort_by(f64::total_cmp);
            // the constant has two digits, and a sample of a hundred its own middle
            assert!(abs_diff_eq!(free[50], AIR_VOLUME_FRACTION, epsilon = 0.02), "{kind}: {}", free[50]);
        }
    }

    fn two_readings() -> Vec<Datum> {
        let r = Refrigerant::R134a;
        let entry = |low: &str, high: &str| {
            let entry = Entry::gauges(low.parse().unwrap(), high.parse().unwrap()).ambient("30 °C".parse().unwrap());
            let entry =
                entry.enter(Measurand::SuctionLine, "12 °C").unwrap().enter(Measurand::LiquidLine, "40 °C").unwrap();
            entry.reading(r, Settings::TEST, &Instruments::digital(r)).unwrap()
        };
        let both = Inspection::of(entry("2 bar", "12 bar")).and(entry("1.5 bar", "14 bar")).unwrap();
        data(&both, |_, measurand| measurand.model_uncertainty()).unwrap()
    }

    fn place(data: &[Datum], place: usize, measurand: Measurand) -> usize {
        data.iter().position(|datum| (datum.place, datum.measurand) == (place, measurand)).unwrap()
    }

    #[test]
    fn what_the_model_misses_moves_pressure_and_line_of_a_side_and_both_readings() {
        let data = two_readings();
        let covariance = covariance(&data);
        let [low, high, suction, liquid] =
            [Measurand::LowSide, Measurand::HighSide, Measurand::SuctionLine, Measurand::LiquidLine]
                .map(|measurand| place(&data, 0, measurand));
        let again = place(&data, 1, Measurand::LowSide);
        let sigma = Measurand::LowSide.model_uncertainty();
        // R-134a at 3.013 bar absolute: 0.4 °C, and 1 % of pressure is 0.27 K (ASHRAE: 2.928 bar at 0 °C, 3.146 bar at 2 °C)
        let slope = data[low].saturation_slope;
        // pressures of four digits over 2 K, and a slope 0.6 K from their middle
        assert_abs_diff_eq!(slope, 2.0 / (3.146f64 / 2.928).ln(), epsilon = 0.3);
        // sums of squares: rounding
        assert_abs_diff_eq!(covariance[(low, suction)], slope * sigma * sigma, epsilon = 1e-12);
        assert_abs_diff_eq!(covariance[(low, again)], SHARED_BY_READINGS * sigma * sigma, epsilon = 1e-12);
        assert_abs_diff_eq!(covariance[(low, low)], data[low].standard_uncertainty.powi(2), epsilon = 1e-15);
        let line = data[suction].standard_uncertainty.powi(2) + (slope * sigma).powi(2);
        assert_abs_diff_eq!(covariance[(suction, suction)], line, epsilon = 1e-9); // rounding
        // the sides have nothing to do with each other
        assert_eq!((covariance[(low, high)], covariance[(low, liquid)], covariance[(high, suction)]), (0.0, 0.0, 0.0));
        assert!(covariance.clone().cholesky().is_some() && covariance == covariance.transpose());
    }

    #[test]
    fn a_line_without_its_gauge_is_by_itself() {
        let r = Refrigerant::R134a;
        let entry = Entry::default().enter(Measurand::SuctionLine, "12 °C").unwrap().ambient("30 °C".parse().unwrap());
        let alone = Inspection::of(entry.reading(r, Settings::TEST, &Instruments::digital(r)).unwrap());
        let data = data(&alone, |_, measurand| measurand.model_uncertainty()).unwrap();
        assert_eq!(covariance(&data)[(0, 0)], data[0].standard_uncertainty.powi(2));
    }
}
