//! What cannot be is refused before a probability is made of it.

use satline::Error;
use satline::diagnosis::Diagnosis;
use satline::inspection::{PortPlace, ServicePorts};

use super::*;

fn kinds() -> [CircuitKind; 1] {
    [kind(CompressorKind::Cycling, ExpansionKind::ThermostaticValve)]
}

/// Before, the logarithm of such a pressure went into every likelihood: −∞ at vacuum, NaN below.
#[test]
fn an_equalised_pressure_at_or_below_vacuum_is_refused() {
    let day = a_day();
    let air = Measured::exact(day.air).unwrap();
    let empty = Reading::equalised(Refrigerant::R134a, Measured::exact(day.ambient).unwrap(), air).unwrap();
    let vacuum = day.air.gauge(Pressure::from_pa(0.0)).kpa();
    let at = |kpa: f64, standard: f64| empty.with(Measurand::LowSide, super::kpa(-kpa, standard));
    let circuits = Reference::with_circuits(&under(&kinds(), &[day]), 10).unwrap();
    // a gauge that cannot tell it from vacuum may show less, but there is no answer from it
    for below in [0.0, 3.0] {
        let read = inspection(&kinds(), blank(&day)).and(at(vacuum + below, 4.0).unwrap()).unwrap();
        let refused = diagnose(&read, &circuits, &Prior::uniform()).unwrap_err();
        let Error::About { error, .. } = &refused else { panic!("{refused:?}") };
        assert!(matches!(**error, Error::BelowVacuum { .. }), "{refused:?}");
        assert!(refused.to_string().starts_with("equalised pressure"), "{refused}");
    }
    // one that can tell is refused at once
    for (below, standard) in [(0.0, 0.0), (3.0, 1.0)] {
        let refused = at(vacuum + below, standard).unwrap_err();
        assert!(refused.to_string().contains("vacuum"), "{refused}");
    }
    // just above it there is an answer
    let low = inspection(&kinds(), blank(&day)).and(at(vacuum - 1.0, 0.1).unwrap()).unwrap();
    assert!(asked(&low, &circuits).is_faulty());
}

/// Before, every logarithm was −∞, and every probability NaN.
#[test]
fn a_prior_that_rules_out_every_cause_is_refused() {
    let read = under(&kinds(), &[a_day()]);
    let circuits = Reference::with_circuits(&read, 5).unwrap();
    let none = CauseId::ALL.iter().try_fold(Prior::uniform(), |prior, &cause| prior.with(cause, 0.0)).unwrap();
    assert_eq!(diagnose(&read, &circuits, &none).unwrap_err(), Error::PriorAllZero);
    // nor does a cause that such circuits cannot have help
    let orifice = none.clone().with(CauseId::WrongOrifice, 1.0).unwrap();
    assert_eq!(diagnose(&read, &circuits, &orifice).unwrap_err(), Error::PriorAllZero);
    // one cause alone is certain, however small its weight
    let worn = none.with(CauseId::CompressorWorn, 1e-300).unwrap();
    assert_eq!(probability(&diagnose(&read, &circuits, &worn).unwrap(), CauseId::CompressorWorn), 1.0);
}

/// Before, the fields were open: 310 g over a label of 0 g were compared as an infinite share, 0 g over 0 g as NaN.
#[test]
fn a_recovered_charge_needs_a_nominal_charge() {
    for mass in [0.0, 310.0] {
        for nominal in [0.0, -550.0, f64::NAN, f64::INFINITY] {
            let (mass, nominal) = (Mass::from_g(mass), Mass::from_g(nominal));
            let refused = RecoveredCharge::new(mass, nominal).unwrap_err();
            assert!(matches!(refused, Error::Implausible { what: "nominal charge", .. }), "{refused:?}");
            let measured = Measured::exact(mass).unwrap();
            assert!(RecoveredCharge::measured(measured, nominal).is_err());
        }
    }
    assert!(RecoveredCharge::new(Mass::from_g(f64::NAN), Mass::from_g(550.0)).is_err());
}

/// Before, what was said twice counted twice, and a thing found and not found counted both ways.
#[test]
fn observations_doubled_or_contradictory_are_refused() {
    let read = under(&kinds(), &[a_day()]).found(Observation::Bubbles).unwrap();
    let read = read.not_found(Observation::WaterHelps).unwrap();
    let twice = |observation: Observation| Error::Twice { what: observation.name() };
    for (again, observation) in [
        (read.clone().found(Observation::Bubbles), Observation::Bubbles),
        (read.clone().not_found(Observation::Bubbles), Observation::Bubbles),
        (read.clone().found(Observation::WaterHelps), Observation::WaterHelps),
        (read.clone().not_found(Observation::WaterHelps), Observation::WaterHelps),
    ] {
        assert_eq!(again.unwrap_err(), twice(observation));
    }
    assert_eq!(read.observations(), [(Observation::Bubbles, true), (Observation::WaterHelps, false)]);
}

/// A gauge behind a restriction does not feel it: where the port is known, it is evidence.
#[test]
fn the_place_of_a_service_port_is_evidence() {
    let closed_inlet = |high: Option<PortPlace>, pressure: &str| {
        let request = Diagnosis::of(Refrigerant::R134a).low("30 psi").unwrap().high(pressure).unwrap();
        let request = request.measured(Measurand::LiquidLine, "100 °F").unwrap().ambient("86 °F").unwrap();
        let request = request.kinds(kinds().to_vec()).service_ports(ServicePorts { low: None, high });
        let diagnosis = request.run().unwrap();
        let posterior = diagnosis.posterior().unwrap();
        [CauseId::ReceiverRestriction, CauseId::DischargeRestriction].map(|id| posterior.marginal_probability(id))
    };
    let (before, behind) = (Some(PortPlace::NearCompressor), Some(PortPlace::AwayFromCompressor));
    // a high side far above what the liquid line asks for is held back behind the gauge
    let [unknown, known] = [None, before].map(|place| closed_inlet(place, "330 psi"));
    assert!(known[0] + known[1] > unknown[0] + unknown[1], "{known:?} {unknown:?}");
    let other_side = closed_inlet(behind, "330 psi");
    assert!(other_side[0] + other_side[1] < 0.5 * (unknown[0] + unknown[1]), "{other_side:?} {unknown:?}");
}

#[test]
fn circuits_with_their_ports_elsewhere_answer_no_reading() {
    let day = a_day();
    let plain = under(&kinds(), &[day]);
    let ports = ServicePorts { low: Some(PortPlace::AwayFromCompressor), high: None };
    let circuits = Reference::with_circuits(&plain, 5).unwrap();
    assert!(circuits.matches(&plain).is_ok());
    let Err(Error::Mismatch { what, .. }) = circuits.matches(&plain.clone().with_service_ports(ports)) else {
        panic!()
    };
    assert_eq!(what, "place of the service ports");
    let placed = Reference::with_circuits(&plain.with_service_ports(ports), 5).unwrap();
    assert!(placed.key() != circuits.key());
}
