//! Another refrigerant than that on the label: alone, mixed, with air; and where it may lead.

use satline::Refrigerant;
use satline::diagnosis::{CauseId, Diagnosis, DiagnosisRequest};
use satline::inspection::{Measurand, Observation, RecoveredCharge};
use satline::{Entered, GaugePressure, Mass, Temperature};

const OTHERS: [CauseId; 3] = [CauseId::WrongRefrigerant, CauseId::MixedRefrigerant, CauseId::WrongRefrigerantWithAir];

fn request(low: &str, high: &str) -> DiagnosisRequest {
    let request = Diagnosis::of(Refrigerant::R134a).low(low).unwrap().high(high).unwrap();
    request.ambient("86 °F").unwrap().humidity("50%").unwrap()
}

fn resting(request: DiagnosisRequest, text: &str) -> DiagnosisRequest {
    let pressure: Entered<GaugePressure> = text.parse().unwrap();
    request.equalised(satline::inspection::Entry::default().with(Measurand::LowSide, pressure).unwrap())
}

fn probability(diagnosis: &Diagnosis, causes: &[CauseId]) -> f64 {
    let posterior = diagnosis.posterior().unwrap();
    posterior.causes.iter().filter(|one| causes.contains(&one.cause)).map(|one| one.probability).sum()
}

fn leads(diagnosis: &Diagnosis) -> CauseId {
    let advice = diagnosis.advice();
    advice.headline.likeliest().map_or(CauseId::NoFault, |likeliest| likeliest.causes[0])
}

#[test]
fn running_pressures_alone_do_not_make_another_refrigerant_lead() {
    let mut named = 0;
    for low in ["52 psi", "60 psi", "66 psi"] {
        for high in ["225 psi", "240 psi", "255 psi", "270 psi"] {
            let diagnosis = request(low, high).run().unwrap();
            assert!(!OTHERS.contains(&leads(&diagnosis)), "{low}, {high}");
            assert!(!OTHERS.contains(&diagnosis.advice().leading[0].causes[0]), "{low}, {high}");
            named += usize::from(probability(&diagnosis, &OTHERS) > 0.05);
        }
    }
    // it is named all the same: the pressure at rest is worth reading
    assert!(named >= 6, "{named}");
}

/// Hot pressures for which it has the largest probability of all: without a pressure at rest another cause is named first all the same.
#[test]
fn the_likeliest_of_all_does_not_lead_without_a_pressure_at_rest() {
    for (low, high) in [("72 psi", "250 psi"), ("76 psi", "250 psi"), ("80 psi", "260 psi")] {
        let diagnosis = request(low, high).run().unwrap();
        let groups = diagnosis.posterior().unwrap().groups();
        assert!(OTHERS.contains(&groups[0].causes[0].cause), "{low}, {high}: {:?}", groups[0].causes[0].cause);
        assert!(!OTHERS.contains(&diagnosis.advice().leading[0].causes[0]), "{low}, {high}");
    }
}

#[test]
fn the_pressure_at_rest_names_it() {
    // propane at 86 °F, 142 psi; both R-134a with a little of it and R-134a with air lie between
    let pure = Refrigerant::R290.bubble_pressure(Temperature::from_fahrenheit(86.0)).unwrap();
    let text = format!("{:.0} psi", pure.gauge(satline::Pressure::STANDARD_ATMOSPHERE).psi());
    let diagnosis = resting(request("55 psi", "220 psi"), &text).run().unwrap();
    assert!(OTHERS.contains(&leads(&diagnosis)), "{:?}", leads(&diagnosis));
    // at saturation of what is on the label it is ruled out
    let right = resting(request("55 psi", "220 psi"), "97 psi").run().unwrap();
    assert!(probability(&right, &[CauseId::WrongRefrigerant, CauseId::WrongRefrigerantWithAir]) < 0.02);
}

#[test]
fn a_sign_of_it_lets_a_mixture_lead() {
    // halfway between R-134a and propane: 97 and 142 psi
    let between = resting(request("45 psi", "235 psi"), "119 psi");
    let unnamed = between.clone().run().unwrap();
    let named = between.found(Observation::OtherRefrigerant).run().unwrap();
    assert!(probability(&named, &OTHERS) > 2.0 * probability(&unnamed, &OTHERS));
    let mixed = probability(&named, &[CauseId::MixedRefrigerant]);
    assert!(mixed > probability(&named, &[CauseId::WrongRefrigerant]), "{mixed}");
}

#[test]
fn a_weighed_shortfall_goes_before_it() {
    let gram = Mass::from_g;
    for (low, high) in [("22 psi", "160 psi"), ("27 psi", "170 psi"), ("55 psi", "220 psi")] {
        let weighed = request(low, high).recovered(RecoveredCharge::new(gram(400.0), gram(550.0)).unwrap());
        let diagnosis = weighed.run().unwrap();
        assert!(!OTHERS.contains(&leads(&diagnosis)), "{low}, {high}: {:?}", leads(&diagnosis));
    }
}
